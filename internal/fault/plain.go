package fault

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/units"
)

// Plain returns the text of an error as a person who ran a program wants it: in
// one line, without the package that refuses, each character that does not print
// as an escape.
func Plain(err error) string {
	text := err.Error()
	var parse *units.ParseError
	var argument *units.ArgumentError
	switch {
	case errors.As(err, &parse) && err == error(parse):
		pkg := parse.Package
		if pkg == "" {
			pkg = "units"
		}
		text = strings.TrimPrefix(text, pkg+": ")
	case errors.As(err, &argument) && err == error(argument):
		text = strings.TrimPrefix(text, argument.Package+": ")
	}
	return Visible(strings.ReplaceAll(text, "\n", "; "))
}

// Visible returns a text with every character that does not print, or that
// changes how others are shown, as an escape.
func Visible(text string) string {
	if !strings.ContainsFunc(text, func(r rune) bool { return r == utf8.RuneError || !Prints(r) }) {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"):
			fmt.Fprintf(&b, `\x%02x`, text[i])
		case !Prints(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// FileName returns the name of a file as a complaint shows it: of a long one the
// end, what does not print as escapes.
func FileName(name string) string {
	const most = 100
	if runes := []rune(name); len(runes) > most {
		return "..." + Visible(string(runes[len(runes)-most:]))
	}
	return Visible(name)
}

// Prints reports whether a character shows, and changes nothing in how others are
// shown. Of all blanks only the plain one does.
func Prints(r rune) bool {
	switch r { // letters and marks that are blank
	case '\u034f', '\u115f', '\u1160', '\u17b4', '\u17b5', '\u2800', '\u3164', '\uffa0':
		return false
	}
	return unicode.IsPrint(r) && !unicode.Is(unicode.Variation_Selector, r)
}
