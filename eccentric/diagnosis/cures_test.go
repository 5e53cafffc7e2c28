package diagnosis

import (
	"slices"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Each fault put into the gear has ways back to the drawing first, by Restored, and
// behind them those of Salvage that make a right gear, leave the drawing as it is and
// are not there yet.
func TestCuresAreOfBoth(t *testing.T) {
	made := eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true}
	g := modelGears()["plain"]
	d := drawingOf(g)
	var s sheet
	longer := 0
	for _, p := range []Part{
		{Fault: WrongAdvance, Angle: -9 * units.Degree}, {Fault: ValveOffCentre, Length: units.MM(0.4)},
		{Fault: WrongTravel, Length: units.MM(-0.8)}, {Fault: LostMotion, Length: units.MM(0.5)},
		{Fault: WrongSteamLap, Length: units.MM(0.5)}, {Fault: WrongSteamLap, End: eccentric.CrankEnd, Length: units.MM(0.3)},
		{Fault: WrongExhaustLap, Length: units.MM(-0.5)}, {Fault: OtherHand, Angle: 128 * units.Degree}, {Fault: AsDrawn},
	} {
		is, ok := d.put(g, p)
		if !ok {
			t.Fatalf("no gear with %v", p)
		}
		cures, err1 := Case{Gear: g}.Cures(Suspect{Part: p, Gear: is}, made)
		restored, err2 := is.Restored(g, made)
		saved, err3 := eccentric.Salvage(is, made)
		if err1 != nil || err2 != nil || err3 != nil {
			t.Fatal(err1, err2, err3)
		}
		changes := func(all []eccentric.Cure) (of []string) {
			for _, c := range all {
				of = append(of, c.Steps[0].Change)
			}
			return of
		}
		want := changes(restored)
		for _, c := range saved.Cures {
			if change := c.Steps[0].Change; c.Right() && !c.Restates() && !slices.Contains(want, change) {
				want = append(want, change)
			}
		}
		if got := changes(cures); !slices.Equal(got, want) {
			t.Errorf("%v: %q, want %q", p, got, want)
		}
		longer += len(cures) - len(restored)
		s.line("== %s", p.Text())
		for _, c := range cures {
			s.line("  %v", c)
		}
	}
	if longer == 0 {
		t.Error("nothing of Salvage")
	}
	if cures, err := (Case{Gear: g}).Cures(Suspect{}, made); cures != nil || err != nil {
		t.Errorf("a suspect without a gear: %v, %v", cures, err)
	}
	if _, err := (Case{}).Cures(Suspect{Gear: g}, made); err == nil {
		t.Error("no drawing is one to go back to")
	}
	if _, err := (Case{Gear: g}).Cures(Suspect{Gear: eccentric.Gear{Stroke: units.MM(1)}}, made); err == nil {
		t.Error("half a gear was cured")
	}
	check.Kept(t, "eccentric/diagnosis/kept/cures.txt", s.String())
}
