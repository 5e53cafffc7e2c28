package cli

import (
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

// Lengths is a flag whose value is a list of lengths; see [ParseLengths].
func (f *Flags) Lengths(to *[]units.Length, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		list, err := ParseLengths(s)
		f.measured(name, s)
		*to = list
		return err
	})
}

// ParseLengths reads lengths with spaces between them. A unit is that of all numbers
// before it that have none: "0 12 30 20 thou", "0.1 mm 4 thou". A comma or a semicolon
// may stand before a space; within a number it is refused, as it may be meant for a
// point.
func ParseLengths(s string) ([]units.Length, error) {
	unreadable := func(problem string) error {
		return &units.ParseError{What: "list of lengths", Text: s, Problem: problem,
			Accepted: `numbers with spaces between them and their unit behind the last, such as "0 12 30 20 thou"`, Err: units.ErrSyntax}
	}
	var list []units.Length
	var waiting []string // numbers whose unit is still to come
	for word := range strings.FieldsSeq(s) {
		word = strings.TrimRight(word, ",;")
		if strings.ContainsAny(word, ",;") {
			return nil, unreadable("a comma or semicolon without a space behind it")
		}
		unit := strings.TrimLeftFunc(word, func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune("+-−./", r) })
		if number := word[:len(word)-len(unit)]; number != "" {
			waiting = append(waiting, number)
		}
		if unit == "" {
			continue
		}
		if len(waiting) == 0 {
			return nil, unreadable("a unit without a number before it")
		}
		for _, number := range waiting {
			l, err := units.ParseLength(number + " " + unit)
			if err != nil {
				return nil, err
			}
			list = append(list, l)
		}
		waiting = nil
	}
	switch {
	case len(waiting) > 0:
		return nil, unreadable("numbers without a unit behind them")
	case len(list) == 0:
		return nil, unreadable("empty")
	}
	return list, nil
}
