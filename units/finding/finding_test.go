package finding_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func ExampleList() {
	list := finding.List{
		{Code: "loose-when-warm", Severity: finding.Caution, Text: "The piston rattles.", Remedies: []string{"Turn a new one."}},
		{Code: "thin-cover", Severity: finding.Danger, Where: "cylinder cover", Text: "It can burst.", Refs: source.Of(source.Practice())},
	}
	list.Sort()
	for _, f := range list {
		fmt.Println(f)
	}
	fmt.Println(list.OK())
	// Output:
	// danger: cylinder cover: It can burst. (common practice)
	// caution: The piston rattles. Turn a new one.
	// false
}

func TestSeverity(t *testing.T) {
	for i, s := range finding.Severities() {
		text, err := s.MarshalText()
		back := finding.Severity(-1)
		if int(s) != i || err != nil || back.UnmarshalText(text) != nil || back != s {
			t.Errorf("%v: %s, %v reads back as %v", s, text, err, back)
		}
		if parsed, err := finding.ParseSeverity(s.String()); err != nil || parsed != s {
			t.Error(parsed, err)
		}
	}
	if finding.Severity(0) != finding.Note {
		t.Error("the zero severity is not the least")
	}
	var parse *units.ParseError
	if _, err := finding.ParseSeverity("fatal"); !errors.As(err, &parse) || err.Error() != `finding: severity "fatal": unknown; accepted: note, caution, fails, danger` {
		t.Error(err)
	}
	if _, err := finding.Severity(9).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

func TestJSON(t *testing.T) {
	for _, f := range []finding.Finding{
		{},
		{Code: "late-steam", Severity: finding.Fails, Slip: true, Where: "head end", Text: "Steam is late.", Remedies: []string{"Turn the sheave."}, Refs: source.Of(source.Practice())},
	} {
		text, err := json.Marshal(f)
		var back finding.Finding
		if err != nil || json.Unmarshal(text, &back) != nil || !cmp.Equal(f, back) {
			t.Errorf("%s, %v: %s", text, err, cmp.Diff(f, back))
		}
	}
	const want = `{"code":"x","severity":"danger","text":"T.","sources":[{"kind":"common practice"}]}`
	if text, err := json.Marshal(finding.Finding{Code: "x", Severity: finding.Danger, Text: "T.", Refs: source.Of(source.Practice())}); string(text) != want {
		t.Errorf("%s, %v; want %s", text, err, want)
	}
}

// The order within one severity is that of cause and consequence and stays.
func TestSort(t *testing.T) {
	type ended struct {
		finding.Finding
		end int
	}
	list := []ended{
		{finding.Finding{Severity: finding.Note}, 0},
		{finding.Finding{Severity: finding.Danger}, 1},
		{finding.Finding{Severity: finding.Fails}, 2},
		{finding.Finding{Severity: finding.Danger}, 3},
		{finding.Finding{Severity: finding.Caution}, 4},
		{finding.Finding{Severity: finding.Fails}, 5},
	}
	finding.Sort(list)
	for i, want := range []int{1, 3, 2, 5, 4, 0} {
		if list[i].end != want {
			t.Errorf("place %d has %d, want %d", i, list[i].end, want)
		}
	}
	plain := finding.ListOf(list)
	if worst, ok := plain.Worst(); len(plain) != len(list) || worst != finding.Danger || !ok || plain.OK() || !plain[4:].OK() || plain[2:].OK() {
		t.Error(plain)
	}
	if _, ok := finding.ListOf([]ended{}).Worst(); ok || !finding.List(nil).OK() {
		t.Error("nothing to say is worse than something")
	}
}

// One finding is enough to be the worst; the place of what it is about, the precaution
// of the place and its text.
func TestOne(t *testing.T) {
	for _, s := range finding.Severities() {
		one := finding.List{{Severity: s}}
		if worst, ok := one.Worst(); worst != s || !ok || one.OK() != (s < finding.Fails) {
			t.Errorf("%v: worst %v, %v, OK %v", s, worst, ok, one.OK())
		}
	}
	codes := finding.CodesOfThePlace()
	if codes.String() != codes.Text || codes.Code != finding.LocalCodes || codes.Ref.Kind != source.CommonPractice {
		t.Errorf("%v", codes)
	}
}

func TestAt(t *testing.T) {
	list := finding.List{{Text: "a"}, {Text: "b", Where: "head end"}}
	placed := list.At("cover")
	if placed[0].Where != "cover" || placed[1].Where != "cover, head end" || list[0].Where != "" {
		t.Error(placed, list)
	}
}

func TestStringOfASlip(t *testing.T) {
	f := finding.Finding{Severity: finding.Fails, Text: "It is 90 too much.", Slip: true}
	if got, want := f.String(), "fails, or a slip: It is 90 too much."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
