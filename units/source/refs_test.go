package source_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

var works = []source.Ref{
	{Kind: source.Published, Title: "A", Locator: "p. 1"},
	{Kind: source.Derived, Note: "a + b"},
	{Kind: source.CommonPractice},
	{Kind: source.Published, Title: "B"},
	{Kind: source.Unreviewed, Title: "a page"},
}

func TestRefs(t *testing.T) {
	for n := range len(works) + 1 {
		refs := source.Of(works[:n]...)
		again := refs.And(works[:n]...).And(source.Ref{}) // each once, and no source is none
		if got := slices.Collect(again.All()); !slices.Equal(got, works[:n]) || again.Len() != n || again.IsZero() != (n == 0) || !again.Equal(refs) {
			t.Errorf("%d: %v", n, got)
		}
		if refs.Recalled() != (n == len(works)) {
			t.Errorf("%d: recalled %v", n, refs.Recalled())
		}
		text, err := json.Marshal(refs)
		var back source.Refs
		if err != nil || json.Unmarshal(text, &back) != nil || !back.Equal(refs) {
			t.Errorf("%d: %s, %v reads back as %v", n, text, err, back)
		}
	}
	if one := source.Of(works[1]); one.First() != works[1] || one.Len() != 1 {
		t.Error("First of one")
	}
	if (source.Refs{}).First() != (source.Ref{}) || source.Of(works...).First() != works[0] {
		t.Error("First")
	}
	if text, err := json.Marshal(source.Refs{}); string(text) != "[]" || err != nil {
		t.Errorf("%s, %v", text, err)
	}
	if got := source.Of(works[1], works[4]).String(); got != "derived (a + b); unreviewed: a page" {
		t.Error(got)
	}
	var stopped int
	for range source.Of(works...).All() {
		if stopped++; stopped == 4 {
			break
		}
	}
}

// What is added to a copy does not show in the original, nor in another copy.
func TestRefsDoNotChange(t *testing.T) {
	base := source.Of(works[:4]...)
	a, b := base.And(works[4]), base.And(source.Ref{Title: "C"})
	if base.Len() != 4 || !slices.Equal(slices.Collect(a.All())[4:], works[4:]) || slices.Collect(b.All())[4].Title != "C" {
		t.Error(base, a, b)
	}
}

func TestSharedAllocatesNothing(t *testing.T) {
	var refs source.Refs
	if n := testing.AllocsPerRun(100, func() {
		refs = source.Shared(&works[0], &works[1]).With(source.Shared(&works[1], &works[2]))
	}); n != 0 || refs.Len() != 3 {
		t.Errorf("%v allocations, %v", n, refs)
	}
}

func TestRecalled(t *testing.T) {
	for _, k := range source.Kinds() {
		if got := (source.Ref{Kind: k}).Recalled(); got != (k == source.FromMemory || k == source.Unreviewed) {
			t.Errorf("%v: %v", k, got)
		}
	}
}
