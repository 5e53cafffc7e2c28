package eccentric

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// chosenOf returns what Design tells under a code of a place, of the exact gear and of the
// rounded one.
func chosenOf(t *testing.T, w Wish, code finding.Code, where string) (texts [2]string) {
	t.Helper()
	exact, rounded, err := Design(w)
	if err != nil {
		t.Fatal(err)
	}
	for i, d := range []Designed{exact, rounded} {
		for _, f := range d.Chosen {
			if f.Code == code && f.Where == where {
				texts[i] += f.Text
			}
		}
	}
	return texts
}

// With endless rods both ends are alike: nothing differs, whatever is wished to be
// equal. With rods of a length one of the two cannot be had.
func TestEndsThatAreAlikeAreNotTold(t *testing.T) {
	w := Wish{CutOff: 0.75, Lead: units.MM(0.1), Opening: units.MM(1.5)}
	w.Gear.Stroke, w.Gear.ConnectingRod, w.Gear.EccentricRod = units.MM(25), InfiniteRod(), InfiniteRod()
	for _, wish := range []func(*Wish){
		func(*Wish) {}, func(w *Wish) { w.EqualLead = true }, func(w *Wish) { w.EqualCutOff = true },
	} {
		endless := w
		wish(&endless)
		if told := chosenOf(t, endless, EndsDiffer, "both ends"); told != [2]string{} {
			t.Errorf("endless rods: %q", told)
		}
		slanting := endless
		slanting.Gear.ConnectingRod = RodOf(units.MM(60))
		for _, text := range chosenOf(t, slanting, EndsDiffer, "both ends") {
			if !strings.Contains(text, "the cut-offs") && !strings.Contains(text, "the leads become") {
				t.Errorf("a rod of 60 mm: %q", text)
			}
		}
	}
}

// Bars are as wide as the wider of the ports, or a step more where that is no whole
// step; wider only where a quarter would not stay covered: half a travel of 3 mm less
// S = 3*cos(60) = 1.5 and a port of 0.5 takes the edge 1 mm over the bar, 3/4 of 1.33.
func TestBarsAreToldAsTheyCome(t *testing.T) {
	w := Wish{CutOff: 0.75}
	w.Gear.Stroke, w.Gear.ConnectingRod, w.Gear.EccentricRod = units.MM(25), InfiniteRod(), InfiniteRod()
	w.Gear.Travel = units.MM(6)
	for _, test := range []struct {
		steam, crank units.Length
		exact, whole string
	}{
		{units.MM(3), units.Length{}, "as wide as the steam ports, 3 mm", "as wide as the steam ports, 3 mm"},
		{units.MM(3.01), units.Length{}, "as wide as the steam ports, 3.01 mm", "up to the next whole step, 3.05 mm"},
		{units.MM(3), units.MM(3.4), "as wide as the steam ports, 3.4 mm", "as wide as the steam ports, 3.4 mm"},
		{units.MM(0.5), units.Length{}, "1.33 mm (52.5 thou) wide, wider than the ports", "1.35 mm (53.1 thou) wide, wider than the ports"},
	} {
		given := w
		given.Gear.Ports.Steam, given.Gear.Ports.CrankSteam = test.steam, test.crank
		told := chosenOf(t, given, ChosenByRule, "bars")
		if !strings.Contains(told[0], test.exact) || !strings.Contains(told[1], test.whole) {
			t.Errorf("ports of %v and %v: %q", test.steam, test.crank, told)
		}
	}
}
