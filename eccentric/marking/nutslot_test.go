package marking_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"pgregory.net/rapid"
)

// A valve of the invented engine with a nut of 5 by 5 by 8 mm on a rod of 2.5 mm.
func exampleSlot() marking.NutSlot {
	return marking.NutSlot{
		Height: units.MM(8), Cavity: units.MM(3), Length: units.MM(15.4), Width: units.MM(16),
		Rod: units.MM(2.5), RodAbove: units.MM(7.5), Thick: units.MM(5), High: units.MM(5), Long: units.MM(8),
		Play: units.MM(0.03), Lift: units.MM(0.5), Wear: units.MM(0.3),
	}
}

func ExampleNutSlot_Solve() {
	s, err := exampleSlot().Solve()
	fmt.Println("width", s.Width, "depth", s.Depth, "groove", s.Groove, "over the cavity", s.OverCavity, err)
	// Output: width 5.03 mm depth 3.5 mm groove 2.25 mm over the cavity 1.5 mm <nil>
}

// The slot is cut on a grid, and the valve is moved up and down over a nut and a rod
// that stay: it comes up by the lift and no farther, and the slot holds what it says.
func TestNutSlot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 {
			return math.Round(rapid.Float64Range(low, high).Draw(t, name)*100) / 100
		}
		n := marking.NutSlot{
			Height: units.MM(draw("height", 6, 20)), Length: units.MM(30), Width: units.MM(30),
			Rod: units.MM(draw("rod", 1.5, 3)), RodAbove: units.MM(draw("above", 4, 20)), Thick: units.MM(5),
			High: units.MM(draw("high", 3.1, 6)), Long: units.MM(8), Lift: units.MM(draw("lift", 0.1, 1)), Wear: units.MM(draw("wear", 0, 1)),
		}
		s, err := n.Solve()
		if err != nil {
			t.Fatal(err)
		}
		// Heights over the port face: the valve is metal from 0 to its back, less slot and groove.
		metal := func(cut units.Length, at, raised float64) bool {
			at -= raised
			return at < n.Height.MM()-cut.MM() && at >= 0
		}
		free := func(raised float64) bool {
			for y := n.RodAbove.MM() - n.High.MM()/2 + 0.0005; y < n.RodAbove.MM()+n.High.MM()/2; y += 0.01 {
				if metal(s.Depth, y, raised) || math.Abs(y-n.RodAbove.MM()) < n.Rod.MM()/2 && metal(s.Groove, y, raised) {
					return false
				}
			}
			return true
		}
		if s.Bottom.Sign() >= 0 && !free(n.Lift.MM()-0.001) {
			t.Fatalf("%v: does not lift by %v: %v", n, n.Lift, s)
		}
		if s.Depth.Sign() > 0 && s.Bottom.Sign() >= 0 && free(n.Lift.MM()+0.02) {
			t.Fatalf("%v: lifts farther than %v: %v", n, n.Lift, s)
		}
		held := 0.0 // how much of the nut stands below the back
		for y := n.RodAbove.MM() - n.High.MM()/2 + 0.0005; y < n.RodAbove.MM()+n.High.MM()/2; y += 0.001 {
			if y < n.Height.MM()-n.Wear.MM() {
				held += 0.001
			}
		}
		if math.Abs(held-s.HeldWorn.MM()) > 0.002 {
			t.Fatalf("%v: holds %.3f worn, %v", n, held, s)
		}
	})
}

func TestNutSlotFindings(t *testing.T) {
	for name, tt := range map[string]struct {
		change func(*marking.NutSlot)
		code   finding.Code // blank: nothing to say
		worst  finding.Severity
	}{
		"good":          {func(*marking.NutSlot) {}, "", finding.Note},
		"into the port": {func(n *marking.NutSlot) { n.RodAbove = units.MM(5.5) }, marking.SlotThin, finding.Fails},
		"thin":          {func(n *marking.NutSlot) { n.Cavity = units.MM(4) }, marking.SlotThin, finding.Caution},
		"over the back": {func(n *marking.NutSlot) { n.RodAbove = units.MM(10.4) }, marking.NutLetsGo, finding.Fails},
		"held by less":  {func(n *marking.NutSlot) { n.RodAbove = units.MM(8.5) }, marking.NutLetsGo, finding.Caution},
		"no play":       {func(n *marking.NutSlot) { n.Play = units.Length{} }, marking.NutBinds, finding.Caution},
		"much play":     {func(n *marking.NutSlot) { n.Play = units.MM(0.2) }, marking.NutBinds, finding.Note},
		"long nut":      {func(n *marking.NutSlot) { n.Long = units.MM(17) }, marking.NutThin, finding.Caution},
		"short nut":     {func(n *marking.NutSlot) { n.Long = units.MM(4) }, marking.NutThin, finding.Note},
	} {
		n := exampleSlot()
		tt.change(&n)
		s, err := n.Solve()
		switch {
		case err != nil:
			t.Errorf("%s: %v", name, err)
		case tt.code == "" && len(s.Findings) > 0:
			t.Errorf("%s: %v", name, s.Findings)
		case tt.code != "" && (len(s.Findings) != 1 || s.Findings[0].Code != tt.code || s.Findings[0].Severity != tt.worst):
			t.Errorf("%s: %v", name, s.Findings)
		}
	}
	for name, change := range map[string]func(*marking.NutSlot){
		"no height": func(n *marking.NutSlot) { n.Height = units.Length{} },
		"no lift":   func(n *marking.NutSlot) { n.Lift = units.Length{} },
		"wear":      func(n *marking.NutSlot) { n.Wear = units.MM(9) },
		"play":      func(n *marking.NutSlot) { n.Play = units.MM(-0.01) },
		"fat rod":   func(n *marking.NutSlot) { n.Rod = units.MM(5) },
		"long slot": func(n *marking.NutSlot) { n.Thick = units.MM(16) },
	} {
		n := exampleSlot()
		change(&n)
		_, err := n.Solve()
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
}
