package diagnosis_test

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

func read(t *testing.T, kind diagnosis.Kind, end eccentric.End, value, within string) diagnosis.Reading {
	t.Helper()
	r, err := kind.Read(value, within)
	if err != nil {
		t.Fatal(err)
	}
	r.End = end
	return r
}

// Two readings of one thing agree where they differ by what both may be out.
func TestReadingsAgree(t *testing.T) {
	head := eccentric.HeadEnd
	for _, test := range []struct {
		kind         diagnosis.Kind
		a, b, within string
		end          eccentric.End
		agree        bool
	}{
		{kind: diagnosis.CutOff, a: "130 deg", b: "131.9 deg", within: "1 deg", end: head, agree: true},
		{kind: diagnosis.CutOff, a: "130 deg", b: "132.1 deg", within: "1 deg", end: head},
		{kind: diagnosis.CutOff, a: "130 deg", b: "132.1 deg", within: "1 deg", end: eccentric.CrankEnd, agree: true},
		{kind: diagnosis.Admission, a: "359 deg", b: "0.5 deg", within: "1 deg", end: head, agree: true},
		{kind: diagnosis.Release, a: "87 %", b: "88 %", within: "0.4 %", end: head},
		{kind: diagnosis.Release, a: "never", b: "150 deg", end: head},
		{kind: diagnosis.Lead, a: "0.2 mm", b: "-0.1 mm", end: head},
		{kind: diagnosis.Lead, a: "0.2 mm", b: "0.05 mm", end: head, agree: true},
		{kind: diagnosis.OpensNext, a: "steam", b: "exhaust", end: head},
	} {
		within := test.within
		a, b := read(t, test.kind, head, test.a, within), read(t, test.kind, test.end, test.b, within)
		if a.Agrees(b) != test.agree || b.Agrees(a) != test.agree {
			t.Errorf("%v and %v agree: %v", a, b, a.Agrees(b))
		}
	}
}

// What is read of an event near the end of the range may lie beyond it by what the
// reading may be out.
func TestReadingBeyondTheRange(t *testing.T) {
	for _, test := range []struct {
		value, within string
		ok            bool
	}{
		{"360.9 deg", "1 deg", true}, {"361.1 deg", "1 deg", false}, {"-180.9 deg", "1 deg", true}, {"-181.1 deg", "1 deg", false},
		{"100.9 %", "1 %", true}, {"101.1 %", "1 %", false}, {"-0.9 %", "1 %", true}, {"-1.1 %", "1 %", false},
	} {
		err := read(t, diagnosis.Compression, eccentric.HeadEnd, test.value, test.within).Validate()
		if (err == nil) != test.ok || err != nil && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s within %s: %v", test.value, test.within, err)
		}
	}
}
