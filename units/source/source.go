// Package source says where a number comes from: a work, its edition and the
// place in it, and whether the number was read there, stands on a page that
// nobody reviewed, is common practice, is remembered, or was worked out here.
//
// Results of this module that rest on a figure have a field Refs, so that a
// program can print them. The package holds no list of works; each table names
// its own. How it is checked is in testdata/units/source/README.md.
package source

import (
	"strings"

	"github.com/valvechest/valvechest/internal/names"
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
	Unreviewed                     // read in a forum, or on a chart or page without author or standard
)

var kinds = names.Set{Package: "source", Type: "Kind", Field: "kind", Texts: []string{
	"", "published", "common practice", "from memory", "derived", "unreviewed",
}}

// Kinds returns all of them, in order.
func Kinds() []Kind { return []Kind{Published, CommonPractice, FromMemory, Derived, Unreviewed} }

// String returns "published", "common practice", "from memory", "derived" or
// "unreviewed".
func (k Kind) String() string { return kinds.Text(int(k)) }

// ParseKind returns the kind of that name; see [Kind.String].
func ParseKind(s string) (Kind, error) {
	v, err := kinds.Value(s)
	return Kind(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero Kind has blank
// text.
func (k Kind) MarshalText() ([]byte, error) { return kinds.Marshal(int(k)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *Kind) UnmarshalText(text []byte) error { return names.Unmarshal(&kinds, k, text) }

// A Ref is where a number comes from.
type Ref struct {
	Kind    Kind   `json:"kind,omitzero"`
	Title   string `json:"title,omitempty"`   // "ISO 965-1", "Machinery's Handbook"
	Edition string `json:"edition,omitempty"` // "27th edition, 2004"; editions do not mix
	Locator string `json:"locator,omitempty"` // "table 2, p. 1234"
	Note    string `json:"note,omitempty"`    // the formula of a derived value, a doubt, a reprint
}

// Practice is the source of what is common practice of the trade.
func Practice() Ref { return Ref{Kind: CommonPractice} }

// Recalled reports whether nobody has read the figure in a reviewed work: it is
// from memory or from an unreviewed page.
func (r Ref) Recalled() bool { return r.Kind == FromMemory || r.Kind == Unreviewed }

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
