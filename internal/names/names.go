// Package names holds the texts of an enumeration, for the String, Parse and
// text methods of its type.
package names

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/internal/fault"
)

// A Set is the texts of an enumeration by value, blank for a value that has
// none. Declared as a package-level variable it costs nothing before main.
type Set struct {
	Package string // which package complains: "gasket"
	Type    string // the Go type, for values without a text: "Severity(7)"
	Field   string // what an error calls it: "severity"
	Texts   []string
	Also    []Name // other names that are read, and never written
}

// A Name is another name of a value: a word of the trade beside the one that is
// printed.
type Name struct {
	Text  string
	Value int
}

// Known reports whether value v has a text.
func (s *Set) Known(v int) bool { return v >= 0 && v < len(s.Texts) && s.Texts[v] != "" }

// Text returns the text of value v, or its type and number when it has none.
func (s *Set) Text(v int) string {
	if !s.Known(v) {
		return fmt.Sprintf("%s(%d)", s.Type, v)
	}
	return s.Texts[v]
}

// Value returns the value that has the given text or other name, in capitals or
// not, with hyphens for spaces or not; one that has none is a [*units.ParseError]
// with the texts that there are.
func (s *Set) Value(text string) (int, error) {
	if v := slices.Index(s.Texts, text); v >= 0 && text != "" {
		return v, nil
	}
	wanted := Plain(text)
	for v, known := range s.Texts {
		if known != "" && Plain(known) == wanted {
			return v, nil
		}
	}
	for _, other := range s.Also {
		if Plain(other.Text) == wanted {
			return other.Value, nil
		}
	}
	return 0, fault.Package(s.Package).UnknownName(s.Field, text, s.accepted())
}

// Marshal returns the text of value v. A zero value that has none stands for what
// was left out and has blank text, so that the zero value of a struct can be kept
// as JSON; any other value without a text is an error.
func (s *Set) Marshal(v int) ([]byte, error) {
	if s.unset(v) {
		return nil, nil
	}
	if !s.Known(v) {
		return nil, s.Unknown(v)
	}
	return []byte(s.Texts[v]), nil
}

func (s *Set) unset(v int) bool { return v == 0 && !s.Known(0) }

// Unmarshal sets *v to the value of a text that Marshal wrote or that Value
// reads, or leaves it as it was.
func Unmarshal[T ~int](s *Set, v *T, text []byte) error {
	if len(text) == 0 && s.unset(0) {
		*v = 0
		return nil
	}
	value, err := s.Value(string(text))
	if err == nil {
		*v = T(value)
	}
	return err
}

// Unknown is the error for a value that the set does not have.
func (s *Set) Unknown(v int) error {
	return fault.Package(s.Package).Unknown(s.Field, s.Text(v), s.accepted())
}

func (s *Set) accepted() string {
	var accepted []string
	between := ", "
	for _, text := range s.Texts {
		if text == "" {
			continue
		}
		accepted = append(accepted, text)
		if strings.Contains(text, ",") {
			between = "; "
		}
	}
	return strings.Join(accepted, between)
}

// Plain returns the form of a text that names go by: lower case, hyphens and
// underscores as spaces, one space between words.
func Plain(text string) string {
	between := func(r rune) bool { return r == '-' || r == '_' || unicode.IsSpace(r) }
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), between), " ")
}
