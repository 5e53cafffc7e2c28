package thread_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// The nut's bore goes up by what the handbook prints, and the screw's root lies
// below it by the allowance.
func TestAcmeNutCrest(t *testing.T) {
	open(t, "acme_nut_crest.csv", "id", func(row *check.Row, th thread.Thread) {
		nut, err := th.Limits("2G nut")
		if err != nil {
			t.Error(err)
			return
		}
		row.Within("allowance_in", th.Minor().Sub(th.Root()).Inch(), exact)
		row.Within("tolerance_in", nut.Minor.Max.Sub(nut.Minor.Min).Inch(), 0.0001+exact)
		if crest := nut.Major.Min.Sub(th.Major()); crest != th.Minor().Sub(th.Root()) {
			t.Errorf("%v: the nut's major diameter is %v over the screw's", th, crest)
		}
	})
}

// The allowance goes by ranges with their upper ends in them: 0.0040 for 5/16 and
// 0.0049 for 7/16, below 0.2768 and 0.3958. Screw and nut have one tolerance of
// the pitch diameter; 1/2-10 has a nut of 0.520 to 0.540 over the crests, as
// recalled from the handbook's table.
func TestAcmeScrewAndNut(t *testing.T) {
	for name, largest := range map[string]units.Length{"5/16-14 Acme": units.Inch(0.2728),
		"7/16-12 Acme": units.Inch(0.3909), "1/2-10 Acme": units.Inch(0.4443)} {
		screw, errScrew := thread.MustParse(name).Limits("2G")
		nut, errNut := thread.MustParse(name).Limits("2G nut")
		if errScrew != nil || errNut != nil || screw.PitchDiameter.Max != largest ||
			screw.PitchDiameter.Max.Sub(screw.PitchDiameter.Min) != nut.PitchDiameter.Max.Sub(nut.PitchDiameter.Min) {
			t.Errorf("%s: screw %v, nut %v, %v, %v", name, screw.PitchDiameter, nut.PitchDiameter, errScrew, errNut)
		}
	}
	nut, err := thread.MustParse("1/2-10 Acme").Limits("2G nut")
	if want := (thread.Range{Min: units.Inch(0.520), Max: units.Inch(0.540)}); err != nil || nut.Major != want {
		t.Errorf("%v, %v", nut.Major, err)
	}
}

// The nut's tolerance of the pitch diameter lies five steps of R40 above the
// screw's, a third more, as in ISO 965-1; its figures are recalled. That of the
// minor diameter is grade 4 of ISO 965-1, read there.
func TestTrapezoidalNut(t *testing.T) {
	for th := range thread.Trapezoidal.All() {
		screw, errScrew := th.Limits("7e")
		nut, errNut := th.Limits("7H")
		if (errScrew == nil) != (errNut == nil) {
			t.Errorf("%v: %v, %v", th, errScrew, errNut)
		}
		if errScrew != nil || errNut != nil {
			continue
		}
		width := func(r thread.Range) float64 { return r.Max.Sub(r.Min).Micron() }
		if ratio := width(nut.PitchDiameter) / width(screw.PitchDiameter); ratio < 1.31 || ratio > 1.345 {
			t.Errorf("%v: the nut has %.3f of the screw's tolerance", th, ratio)
		}
		alike, err := thread.New(thread.FormISO, units.MM(60), th.Pitch())
		if err != nil {
			t.Fatal(err)
		}
		if grade4, err := alike.Limits("4H"); err != nil || math.Abs(width(grade4.Minor)-width(nut.Minor)) > exact {
			t.Errorf("%v: the minor diameter has %.0f um, grade 4 %.0f um, %v", th, width(nut.Minor), width(grade4.Minor), err)
		}
	}
	// Tr 10x2: 9 + 0.250 and 8 + 0.236.
	nut, err := thread.MustParse("Tr 10x2").Limits("7H")
	mm := units.MM
	if want := (thread.Range{Min: mm(8),
		Max: mm(8.236)}); err != nil || nut.Minor != want || nut.PitchDiameter.Max != mm(9.25) || nut.Major.Min != mm(10.5) ||
		nut.External {
		t.Errorf("%+v, %v", nut, err)
	}
}
