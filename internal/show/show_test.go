package show_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/show"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Span prints as results of the library do.
type Span struct {
	Min, Max units.Length
	Refs     source.Refs
}

func (s Span) String() string { return show.Fields(s) }

type result struct {
	Span
	Bore     units.Length
	Parts    []Span
	Wall     *units.Length
	Share    float64
	TightFit bool
	MaxMM    float64
	Name     string
	Findings finding.List
	Limit    struct{ N int }
	Nested   struct{ Span Span }
	Refs     source.Refs
	hidden   int
}

func TestFields(t *testing.T) {
	wall, book := units.MM(2), source.Of(source.Ref{Kind: source.Derived, Title: "a sum"})
	for _, test := range []struct {
		name string
		of   any
		want string
	}{
		{"a range with its source", Span{units.MM(5.978), units.MM(5.99), book}, "min 5.978 mm, max 5.99 mm, from " + book.String()},
		{"what is zero and what is not there", result{}, "bore 0 mm, share 0, tight fit no, max mm 0"},
		{"a zero that JSON leaves out", struct {
			Turn   units.Length
			Middle units.Length `json:",omitzero"`
			Lead   units.Length `json:",omitzero"`
		}{Lead: units.MM(1)}, "turn 0 mm, lead 1 mm"},
		{"a zero has no sign", struct{ Share float64 }{math.Copysign(0, -1)}, "share 0"},
		{"a pointer, an embedded range, a list, sources once", result{
			Span: Span{Min: units.MM(1), Refs: book}, Wall: &wall, Share: 2.0 / 3, TightFit: true, Name: "bush", hidden: 1,
			Parts: []Span{{Max: units.MM(1), Refs: book}, {}}, Refs: book,
		}, "min 1 mm, max 0 mm, bore 0 mm, parts [(min 0 mm, max 1 mm); (min 0 mm, max 0 mm)], wall 2 mm, share 0.666667, tight fit yes, " +
			"max mm 0, name bush, from " + book.String()},
		{"sources of a part where the whole has none", struct{ Hole Span }{Span{Refs: book}}, "hole (min 0 mm, max 0 mm, from " + book.String() + ")"},
		{"findings as they print", result{Findings: finding.List{{Severity: finding.Fails, Text: "It jams."}}},
			"bore 0 mm, share 0, tight fit no, max mm 0, findings [fails: It jams.]"},
		{"nested", result{Limit: struct{ N int }{3}}, "bore 0 mm, share 0, tight fit no, max mm 0, limit (n 3)"},
	} {
		if got := show.Fields(test.of); got != test.want {
			t.Errorf("%s:\n got %s\nwant %s", test.name, got, test.want)
		}
	}
}
