// Package names holds the texts of an enumeration, for its String, MarshalText
// and UnmarshalText.
package names

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Set is the texts of an enumeration, in order from zero.
type Set struct {
	Package, What string // who complains, and of what: "gasket", "severity"
	Texts         []string
}

// Text returns the text of value i, or its number when it has none.
func (s Set) Text(i int) string {
	if i < 0 || i >= len(s.Texts) {
		return fmt.Sprintf("%s %d", s.What, i)
	}
	return s.Texts[i]
}

// Marshal returns the text of value i; a value without one is an error.
func (s Set) Marshal(i int) ([]byte, error) {
	if i < 0 || i >= len(s.Texts) {
		return nil, s.unknown(strconv.Itoa(i))
	}
	return []byte(s.Texts[i]), nil
}

// Unmarshal sets *i to the value with the given text; a text that has none is an
// error that lists those that have.
func (s Set) Unmarshal(i *int, text []byte) error {
	k := slices.Index(s.Texts, string(text))
	if k < 0 {
		return s.unknown(strconv.Quote(string(text)))
	}
	*i = k
	return nil
}

func (s Set) unknown(value string) error {
	return &units.ArgumentError{Package: s.Package, Field: s.What, Value: value, Accepted: strings.Join(s.Texts, ", "), Err: units.ErrUnknown}
}
