// Package source says where a number comes from: a work, its edition and the
// place in it, and whether the number was read there, is common practice, is
// remembered, or was worked out here.
//
// Lookups of this module return a [Ref] beside the value, so that a program can
// print both. The package holds no list of works; each table names its own.
package source

import (
	"fmt"
	"strings"
)

// A Kind says how a number is known.
type Kind int

// The kinds of source. The zero value is no kind and marks a Ref that nobody
// filled in.
const (
	Published      Kind = iota + 1 // read in a standard, handbook or other published work
	CommonPractice                 // a fact of the trade that needs no source
	FromMemory                     // recalled, not seen; to be replaced when it is read
	Derived                        // worked out here, by the formula in Note
)

var kinds = [...]string{"", "published", "common practice", "from memory", "derived"}

// String returns "published", "common practice", "from memory" or "derived".
func (k Kind) String() string {
	if k <= 0 || int(k) >= len(kinds) {
		return fmt.Sprintf("Kind(%d)", int(k))
	}
	return kinds[k]
}

// ParseKind returns the kind of that name; see [Kind.String].
func ParseKind(s string) (Kind, error) {
	for k, name := range kinds {
		if k > 0 && name == s {
			return Kind(k), nil
		}
	}
	return 0, fmt.Errorf("source: kind %q: unknown; accepted: %s", s, strings.Join(kinds[1:], ", "))
}

// MarshalText implements [encoding.TextMarshaler].
func (k Kind) MarshalText() ([]byte, error) {
	if k <= 0 || int(k) >= len(kinds) {
		return nil, fmt.Errorf("source: kind %v: unknown; accepted: %s", k, strings.Join(kinds[1:], ", "))
	}
	return []byte(kinds[k]), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *Kind) UnmarshalText(text []byte) error {
	v, err := ParseKind(string(text))
	if err == nil {
		*k = v
	}
	return err
}

// A Ref is where a number comes from.
type Ref struct {
	Kind    Kind   `json:"kind,omitzero"`
	Title   string `json:"title,omitempty"`   // "ISO 965-1", "Machinery's Handbook"
	Edition string `json:"edition,omitempty"` // "27th edition, 2004"; editions do not mix
	Locator string `json:"locator,omitempty"` // "table 2, p. 1234"
	Note    string `json:"note,omitempty"`    // the formula of a derived value, a doubt, a reprint
}

// String returns the reference in one line, with its kind in front unless it
// was published: "ISO 965-1, 1998, table 2", "from memory: BS 57, 1951". The
// zero Ref is "no source".
func (r Ref) String() string {
	if r == (Ref{}) {
		return "no source"
	}
	var parts []string
	for _, p := range []string{r.Title, r.Edition, r.Locator} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	text := strings.Join(parts, ", ")
	if r.Kind != Published {
		if text == "" {
			text = r.Kind.String()
		} else {
			text = r.Kind.String() + ": " + text
		}
	}
	if r.Note != "" {
		text += " (" + r.Note + ")"
	}
	return text
}
