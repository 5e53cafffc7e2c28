package eccentric

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// What is too little to be set is not asked for: 0.05 mm of a valve on its rod and a
// degree of a sheave are, a picometre less is not. Both are common practice.
func TestLeastMoves(t *testing.T) {
	pm := units.Picometres(1)
	least := units.Micron(50)
	g := endlessDemo() // whose leads are equal with the valve in the middle
	for _, test := range []struct {
		off   units.Length
		moves bool
		want  string
	}{
		{least, true, "Move the valve 0.05 mm (2 thou) away from the crank, to the centre."}, {least.Sub(pm), false, ""},
		{least.Neg(), true, "Move the valve 0.05 mm (2 thou) towards the crank, to the centre."}, {least.Neg().Add(pm), false, ""},
	} {
		g.Valve.Offset = test.off
		moved, text := placed(g)
		if text != test.want || moved.Valve.Offset.IsZero() != test.moves {
			t.Errorf("%v off: %q, then %v", test.off, text, moved.Valve.Offset)
		}
		move, err := g.MoveForEqualLead()
		want := units.Length{}
		if test.moves {
			want = test.off.Neg()
		}
		if err != nil || move != want {
			t.Errorf("%v off: move by %v, %v", test.off, move, err)
		}
		by := settable(test.off, units.Nearest)
		if want.Neg() != by {
			t.Errorf("%v is set as %v", test.off, by)
		}
		if got := (step{Step{Amount: test.off}, metalOff}).canBeSet(); got != test.moves {
			t.Errorf("%v can be set: %v", test.off, got)
		}
	}
	// Where equal leads want the valve off centre by as little, it goes to the centre.
	g = endlessDemo()
	for crank, want := range map[units.Length]string{
		units.Micron(100):                  ", for equal leads.", // laps that differ by it want half of it
		units.Micron(100).Sub(pm.Scale(2)): ", to the centre.",
	} {
		g.Ports.CrankSteam = g.Ports.Steam.Add(crank)
		g.Valve.Offset = units.MM(-1)
		if _, text := placed(g); !strings.HasSuffix(text, want) {
			t.Errorf("%v of lap: %q", crank, text)
		}
	}
	for turn, want := range map[units.Angle]bool{
		leastTurn: true, -leastTurn: true, units.Angle(math.Nextafter(float64(leastTurn), 0)): false,
		-units.Angle(math.Nextafter(float64(leastTurn), 0)): false,
	} {
		if got := (step{Step{Turn: turn}, turnKind}).canBeSet(); got != want {
			t.Errorf("%v can be set: %v", float64(turn), got)
		}
	}
	for _, k := range []kind{restate, draw, takeUp} {
		if !(step{Step{}, k}).canBeSet() {
			t.Errorf("%v cannot be set", kinds[k].change)
		}
	}
}

// turnKind is a name beside that of an angle.
const turnKind = turn

// A room at the lines that its findings draw: a stroke of 25 mm, a least of 0.4.
func TestRoomAtItsLines(t *testing.T) {
	pm := units.Picometres(1)
	least := units.MM(0.4)
	for _, test := range []struct {
		name        string
		head, crank units.Length
		wear        units.Length
		want        string
		words       string
	}{
		{"touches", units.Length{}, units.MM(1), units.Length{}, "piston-strikes head danger 0 mm", "with no clearance at all"},
		{"all but touches", pm, units.MM(1), units.Length{}, "little-clearance head caution 0.000000001 mm", "0 mm"},
		{"strikes", pm.Neg(), units.MM(1), units.Length{}, "piston-strikes head danger 0.000000001 mm", "before its dead centre"},
		{"strikes the other cover", units.MM(1), pm.Neg(), units.Length{}, "piston-strikes crank danger 0.000000001 mm", "the crank end"},
		{"no room", units.MM(-0.1), units.MM(-0.2), units.Length{}, "piston-strikes both danger 0.3 mm", "together 0.3 mm (11.8 thou) more"},
		{"the least", least, least, units.Length{}, "", ""},
		{"less than it", least, least.Sub(pm), units.Length{}, "little-clearance crank caution 0.399999999 mm", ""},
		{"the least when worn", least.Add(units.MM(0.1)), units.MM(0.55), units.MM(0.1), "", ""},
		{"worn out", units.MM(0.1), units.MM(1), units.MM(0.1), "little-clearance head fails 0.1 mm", "strikes the cover"},
		{"not quite", units.MM(0.1).Add(pm), units.MM(1), units.MM(0.1), "little-clearance head caution 0.100000001 mm", "when the brasses are worn by"},
		{"unequal", units.MM(0.6), units.MM(0.5), units.Length{}, "unequal-clearance both note 0.1 mm", "0.55 mm"},
		{"not by what is set", units.MM(0.6), units.MM(0.5).Add(pm.Scale(2)), units.Length{}, "", ""},
		{"much", units.MM(2.5), units.MM(2.5), units.Length{}, "", ""},
		{"more", units.MM(2.51), units.MM(2.5), units.Length{}, "large-clearance head note 2.51 mm", "10.0 % of the swept volume"},
	} {
		r := Room{Gear: demo(), Piston: units.MM(8), Least: least, Wear: test.wear}
		r.Length = units.MM(33).Add(test.head).Add(test.crank)
		r, err := r.WithHeadClearance(test.head)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		text := ""
		for _, f := range r.Check() {
			all = append(all, fmt.Sprint(f.Code, " ", f.End, " ", f.Severity, " ", f.Amount))
			text += f.Text
		}
		// Where a piston strikes or has little room, the other end's large clearance is not in question.
		if got := strings.Join(all, ", "); got != test.want || !strings.Contains(text, test.words) {
			t.Errorf("%s: %s, want %s\n%s", test.name, got, test.want, text)
		}
	}
	if got := new(Room).least(); got != units.InchFraction(1, 64) {
		t.Errorf("the least that is taken is %v", got)
	}
}

// Sizes at the limits of what goes with the bore, each to both sides of it; and five
// times beyond, where no engine is built so.
func TestProportionsAtTheirLimits(t *testing.T) {
	const bore = 100 // mm
	for _, test := range []struct {
		name     string
		set      func(*Gear, units.Length)
		min, max float64
	}{
		{"stroke", func(g *Gear, l units.Length) { g.Stroke = l }, 0.7, 4},
		{"steam port's width", func(g *Gear, l units.Length) { g.Ports.Steam = l }, 0.02, 0.4},
		{"length of the ports", func(g *Gear, l units.Length) { g.Ports.Length = l }, 0.15, 1.5},
		{"valve", func(g *Gear, l units.Length) { g.Valve.Length, g.Valve.Cavity = l, units.MM(1) }, 0.2, 3},
	} {
		for _, size := range []struct {
			share float64
			want  string
		}{
			{test.min * 1.001, ""}, {test.min * 0.999, "caution"}, {test.max * 0.999, ""}, {test.max * 1.001, "caution"},
			{test.min / 5 * 1.001, "caution"}, {test.min / 5 * 0.999, "fails"}, {test.max * 5 * 0.999, "caution"},
			{test.max * 5 * 1.001, "fails"},
		} {
			g := Gear{
				Stroke: units.MM(100), ConnectingRod: InfiniteRod(), Travel: units.MM(20), EccentricRod: InfiniteRod(),
				Ports: Ports{Steam: units.MM(10), Bar: units.MM(10), Exhaust: units.MM(20), Length: units.MM(70)},
				Valve: Valve{Length: units.MM(70), Cavity: units.MM(40)},
			}
			test.set(&g, units.MM(bore*size.share))
			all, err := g.CheckProportions(units.MM(bore))
			got := ""
			for _, f := range all {
				got += f.Severity.String()
				if !strings.Contains(f.Text, "the "+test.name+", ") || strings.Contains(f.Text, ";  the") {
					t.Errorf("%s: %s", test.name, f.Text)
				}
			}
			if err != nil || got != size.want {
				t.Errorf("%s of %v bores: %q, want %q, %v", test.name, size.share, got, size.want, err)
			}
		}
	}
}

// Of a port that opens half, to a hundredth of a millimetre more, a remedy may be
// content; and a valve in the middle of its way says what it is called.
func TestEnoughOfAPort(t *testing.T) {
	if got := enoughOf(units.MM(2)); got != units.MM(1.01) {
		t.Errorf("enough of 2 mm is %v", got)
	}
	for reach, want := range map[float64]string{
		1.1: "goes only 1.1 mm (43.3 thou)", 0: "goes only 0 mm (0 thou)", -0.2: "stays 0.2 mm (7.9 thou) short of the centre",
	} {
		if got := goesOnly(units.MM(reach)); got != want {
			t.Errorf("%v: %s", reach, got)
		}
	}
}

// The lead of a wish at the lines of [kernel.Motion.AdvanceFor]: what the travel just
// reaches is no lead, as the angle would be a right one.
func TestLeadsAtTheReach(t *testing.T) {
	pm := units.Picometres(1)
	g := endlessDemo() // S 1.2, half the travel 3.2: leads of -4.4 to 2 mm
	for _, test := range []struct {
		lead units.Length
		ok   bool
	}{{units.MM(2), false}, {units.MM(2).Sub(pm), true}, {units.MM(-4.4), false}, {units.MM(-4.4).Add(pm), true}} {
		for _, end := range Ends() {
			set, err := g.WithLead(test.lead, end)
			if (err == nil) != test.ok {
				t.Errorf("%v at %v: %v", test.lead, end, err)
			}
			if err == nil {
				near(t, "lead", events(t, set).Head.Lead.MM(), test.lead.MM(), 1e-9)
			} else if !strings.Contains(err.Error(), "between -4.4 mm and 2 mm") {
				t.Error(err)
			}
		}
	}
	g.Valve.Offset = units.MM(0.3)
	for end, want := range map[End]string{HeadEnd: "between -4.1 mm and 2.3 mm", CrankEnd: "between -4.7 mm and 1.7 mm",
		BothEnds: "between -4.4 mm and 2 mm"} {
		if _, err := g.WithLead(units.MM(9), end); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v", end, err)
		}
	}
}

// An exhaust that shuts just at the dead centre compresses; an eccentric may stand half a
// turn from the crank, either way, and share of the stroke be nothing or all of it.
func TestAnglesAtHalfATurn(t *testing.T) {
	above := units.Angle(math.Nextafter(2*math.Pi, 7))
	for at, want := range map[units.Angle]bool{2 * halfTurn: true, above: false, 5: true} {
		if got := (EndEvents{Compression: Event{Occurs: true, Crank: at}}).Compresses(); got != want {
			t.Errorf("shut at %v: compresses %v", float64(at), got)
		}
	}
	if (EndEvents{}).Compresses() {
		t.Error("what does not happen compresses")
	}
	over := units.Angle(math.Nextafter(math.Pi, 4))
	for stands, ok := range map[units.Angle]bool{halfTurn: true, -halfTurn: true, over: false, -over: false} {
		g, err := demo().WithEccentricAt(stands)
		if (err == nil) != ok {
			t.Errorf("stands at %v: %v", float64(stands), err)
		}
		if err == nil {
			near(t, "advance", math.Abs(g.Advance.Degrees()), 90, 1e-9)
		}
	}
	for share, want := range map[float64]float64{0: 0, 1: 180} {
		at, err := demo().CrankAt(share)
		near(t, "crank", at.Degrees(), want, 1e-9)
		if err != nil {
			t.Error(err)
		}
	}
	for _, share := range []float64{math.Nextafter(0, -1), math.Nextafter(1, 2)} {
		if _, err := demo().CrankAt(share); err == nil {
			t.Errorf("share %v", share)
		}
	}
	// Of a port that never shuts all of the stroke out is driven; else from admission or the dead centre to cut-off or the other.
	for _, test := range []struct{ admission, cutOff, from, to float64 }{
		{-0.1, 2, 0, 2}, {0.1, 2, 0.1, 2}, {0.1, 4, 0.1, math.Pi}, {4, 5, math.Pi, math.Pi}, {-2, -1, 0, 0},
	} {
		e := EndEvents{Admission: Event{true, units.Angle(test.admission), 0}, CutOff: Event{true, units.Angle(test.cutOff), 0}}
		if from, to := e.Driven(); float64(from) != test.from || float64(to) != test.to {
			t.Errorf("%+v: %v to %v", test, float64(from), float64(to))
		}
		e.Steam = NeverCloses
		if from, to := e.Driven(); from != 0 || to != math.Pi {
			t.Errorf("never shut: %v to %v", float64(from), float64(to))
		}
	}
}

// A change serves where both ports of both ends open well enough, at one end alone it
// does not, though the gear had no better before.
func TestServes(t *testing.T) {
	for off, want := range map[float64]bool{0: true, 1.1: false, -1.1: false} {
		g := endlessDemo()
		g.Valve.Offset = units.MM(off)
		if got := checking(g).serves(g); got != want {
			t.Errorf("a valve %v mm off serves: %v", off, got)
		}
		g = endlessDemo() // to exhaust by 3.2 less an exhaust lap of 1.3, to steam by 3.2 less one of 0.5
		g.Valve.Length, g.Valve.Cavity, g.Valve.Offset = units.MM(14), units.MM(6.4), units.MM(off)
		if got := checking(g).serves(g); got != want {
			t.Errorf("a valve with a cavity of %v, %v mm off, serves: %v, %v", g.Valve.Cavity, off, got, events(t, g))
		}
	}
}
