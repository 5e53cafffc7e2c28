package main

import (
	"encoding"
	"flag"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/units"
)

const (
	pageWidth = 78
	labels    = 15
)

// text defines a flag for a value that reads itself.
func text(flags *flag.FlagSet, p encoding.TextUnmarshaler, name, usage string) {
	flags.Func(name, usage, func(s string) error { return p.UnmarshalText([]byte(s)) })
}

func names[T fmt.Stringer](all []T) string {
	var list []string
	for _, v := range all {
		list = append(list, v.String())
	}
	return strings.Join(list, "; ")
}

func heading(w io.Writer, s string) { fmt.Fprintf(w, "\n%s\n", s) }

// line prints a label and text that hangs behind it.
func line(w io.Writer, label, s string) { hang(w, fmt.Sprintf("  %-*s", labels, label), s) }

// bullet prints text that hangs behind a dash and a mark.
func bullet(w io.Writer, mark, s string) { hang(w, "  - "+mark, s) }

func hang(w io.Writer, mark, s string) {
	indent := strings.Repeat(" ", min(utf8.RuneCountInString(mark), labels+2))
	out, empty := mark, true
	for word := range strings.FieldsSeq(s) {
		if !empty && utf8.RuneCountInString(out)+1+utf8.RuneCountInString(word) > pageWidth {
			fmt.Fprintln(w, out)
			out, empty = indent, true
		}
		if !empty {
			out += " "
		}
		out += word
		empty = false
	}
	fmt.Fprintln(w, out)
}

func both(l units.Length) string {
	return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Inches, 3) + ")"
}

func surface(v units.Speed) string {
	return fmt.Sprintf("%.1f m/min (%.0f ft/min)", v.In(units.MetrePerMinute), v.In(units.FootPerMinute))
}

// span prints a range, or one number where both ends print alike.
func span(low, high float64, unit string) string {
	a, b := fmt.Sprintf("%.3g", low), fmt.Sprintf("%.3g", high)
	if a == b {
		return a + " " + unit
	}
	return a + " to " + b + " " + unit
}

func spanOf(low, high units.Length, unit units.LengthUnit, places int) string {
	if low == high {
		return low.Text(unit, places)
	}
	return low.Decimal(unit, places) + " to " + high.Text(unit, places)
}

func inBoth(low, high units.Length) string {
	return spanOf(low, high, units.Millimetres, 2) + " (" + spanOf(low, high, units.Inches, 4) + ")"
}
