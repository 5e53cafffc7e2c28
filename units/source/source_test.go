package source_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

func TestRefString(t *testing.T) {
	for _, test := range []struct {
		ref  source.Ref
		want string
	}{
		{source.Ref{Kind: source.Published, Title: "ISO 965-1", Edition: "1998", Locator: "table 2"}, "ISO 965-1, 1998, table 2"},
		{source.Ref{Kind: source.FromMemory, Title: "BS 57", Edition: "1951"}, "from memory: BS 57, 1951"},
		{source.Ref{Kind: source.CommonPractice}, "common practice"},
		{source.Ref{Kind: source.Derived, Title: "geometry", Note: "D - 1.2p"}, "derived: geometry (D - 1.2p)"},
		{source.Ref{}, "no source"},
	} {
		if got := test.ref.String(); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}

func TestKind(t *testing.T) {
	for _, k := range source.Kinds() {
		text, err := k.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var back source.Kind
		if err := back.UnmarshalText(text); err != nil || back != k {
			t.Errorf("%s: %v, %v", text, back, err)
		}
	}
	if _, err := source.ParseKind("hearsay"); err == nil || !strings.Contains(err.Error(), "accepted: published, common practice, from memory, derived") {
		t.Errorf("hearsay: %v", err)
	}
	if _, err := source.Kind(9).MarshalText(); err == nil || !strings.Contains(err.Error(), "accepted: published") {
		t.Errorf("no such kind: %v", err)
	}
	left := source.Published
	if text, err := source.Kind(0).MarshalText(); err != nil || len(text) > 0 || left.UnmarshalText(text) != nil || left != 0 {
		t.Errorf("a kind left out: %q, %v, back %v", text, err, left)
	}
	if got := source.Kind(9).String(); got != "Kind(9)" {
		t.Errorf("got %q", got)
	}
}

// Results that need no source carry the zero Ref, and are kept as JSON like the
// rest.
func TestRefJSON(t *testing.T) {
	for want, ref := range map[string]source.Ref{
		`{}`:                         {},
		`{"kind":"common practice"}`: {Kind: source.CommonPractice},
		`{"kind":"published","title":"ISO 965-1","edition":"1998","locator":"table 2"}`: {Kind: source.Published, Title: "ISO 965-1", Edition: "1998", Locator: "table 2"},
	} {
		data, err := json.Marshal(ref)
		var back source.Ref
		if err != nil || string(data) != want || json.Unmarshal(data, &back) != nil || back != ref {
			t.Errorf("%v is %s, %v, and came back as %v", ref, data, err, back)
		}
	}
}
