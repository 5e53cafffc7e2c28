package marking_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, within)
	}
}

// EC-07: packing for 3.5 mm on 20 and on 19 mm, both jaw assumptions, their slopes, and
// what the packing of the one gives in the other.
func TestCasePacking(t *testing.T) {
	for _, test := range []struct{ blank, jaw, packing, slope float64 }{
		{20, 0, 4.78, 1.22}, {20, 3, 5.13, 1.37}, {20, 5, 5.24, 1.45}, {20, 6.07, 5.25, 1.5}, {20, 20, 5.25, 1.5}, {19, 0, 4.75, 1.21}, {19, 7, 5.25, 1.5},
	} {
		name := fmt.Sprintf("EC-07 bar %v jaw %v", test.blank, test.jaw)
		p, err := marking.ThreeJaw{Blank: units.MM(test.blank), Offset: units.MM(3.5), Jaw: units.MM(test.jaw)}.Packing()
		if err != nil {
			t.Fatal(err)
		}
		near(t, name, p.Thickness.MM(), test.packing, 0.006)
		near(t, name+" wide", p.Wide.MM(), 5.25, 1e-9)
		near(t, name+" slope", p.PerOffset, test.slope, 0.006)
		near(t, name+" wide from", p.WideFrom.MM(), 6.06, 0.005)
	}
	for _, test := range []struct{ jaw, packing, offset float64 }{{8, 4.78, 3.19}, {0, 5.25, 3.89}} {
		e, err := marking.ThreeJaw{Blank: units.MM(20), Jaw: units.MM(test.jaw)}.OffsetFor(units.MM(test.packing))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "EC-07 offset", e.MM(), test.offset, 0.005)
	}
}

func TestPackingPrinted(t *testing.T) {
	for r := range check.Open(t, "eccentric/marking/packing.csv").Rows() {
		jaws := marking.ThreeJaw{
			Blank: units.Inch(r.Float("blank")), Offset: units.Inch(r.Float("offset")), Jaw: units.Inch(r.Float("jaw")),
		}
		p, err := jaws.Packing()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("packing", p.Thickness.Inch())
		// And back, and with a dial that goes over twice the offset.
		offset, err := jaws.OffsetFor(units.Inch(r.Float("packing")))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("offset", offset.Inch())
		c, err := jaws.Correct(units.Inch(r.Float("packing")), units.Inch(2*r.Float("offset")))
		if err != nil || !c.Change.IsZero() {
			t.Errorf("%s: %v, %v", r.ID, c, err)
		}
		r.Compare("packing", c.Packing.Inch())
	}
}

func TestDialPrinted(t *testing.T) {
	for r := range check.Open(t, "eccentric/marking/dial.csv").Rows() {
		first := r.Float("first")
		switch quantity := r.Text("quantity"); quantity {
		case "reading over a turn of an offset in mm":
			s, err := marking.Dial{Range: units.MM(10), Offset: units.MM(first), Diameter: units.MM(19)}.Sweep()
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", s.Reading.MM())
		case "reading over a turn of a sheave for a travel", "travel for an offset":
			g := demo()
			g.Travel = units.MM(first)
			if quantity == "travel for an offset" {
				turned, err := marking.AsTurned(demo(), units.MM(first))
				if err != nil {
					t.Fatal(err)
				}
				g.Travel = turned.Kept.Travel
				r.Compare("value", g.Travel.MM())
				continue
			}
			s, err := marking.Dial{Range: units.MM(10), Offset: g.EccentricOffset(), Diameter: units.MM(20)}.Sweep()
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", s.Reading.MM())
		case "turns of a jaw's screw for a move in inches and threads per inch":
			solved, err := marking.FourJaw{
				Readings: []units.Length{{}, {}, units.Inch(2 * first), {}}, Pitch: units.Inch(1 / r.Float("second")),
			}.Solve()
			if err != nil || len(solved.Moves) != 1 {
				t.Fatal(solved, err)
			}
			r.Compare("value", solved.Moves[0].Turns)
		case "fall of the centre line in thou for the bar taken and the bar there is":
			top, _, err := marking.Vee{Bar: units.Inch(first), Included: 90 * units.Degree}.Misses(units.Inch(r.Float("second")))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", -top.Thou())
		default:
			t.Errorf("%s: %s is not computed", r.ID, quantity)
		}
	}
}

// EC-08: readings at the four jaws.
func TestCaseFourJaw(t *testing.T) {
	solved, err := marking.FourJaw{
		Readings: []units.Length{{}, units.Thou(12), units.Thou(30), units.Thou(20)}, Pitch: units.InchFraction(1, 20),
	}.Solve()
	if err != nil || len(solved.Moves) != 2 {
		t.Fatal(solved, err)
	}
	a, b := solved.Moves[0], solved.Moves[1]
	if a.Jaw != 3 || a.Loosen != 1 || b.Jaw != 4 || b.Loosen != 2 {
		t.Errorf("EC-08 jaws: %v, %v", a, b)
	}
	near(t, "EC-08 pair 1-3", a.By.Thou(), 15, 1e-9)
	near(t, "EC-08 turns", a.Turns, 0.30, 1e-9)
	near(t, "EC-08 pair 2-4", b.By.Thou(), 4, 1e-9)
	near(t, "EC-08 turns", b.Turns, 0.08, 1e-9)
	near(t, "EC-08 eccentricity", solved.Eccentricity.Thou(), 15.5, 0.05)
	near(t, "EC-08 total reading", solved.Reading.Thou(), 31, 0.1)
	near(t, "EC-08 out of round", solved.OutOfRound.Thou(), 1, 1e-9)
}

// EC-06: the offset goes in the chuck, the dial and the valve go over twice it.
func TestCaseOffsetOrTravel(t *testing.T) {
	turned, err := marking.AsTurned(demo(), units.MM(3.5))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "EC-06 travel", turned.Kept.Travel.MM(), 7, 1e-9)
	s, err := marking.Dial{Range: units.MM(10), Offset: units.MM(3.5), Diameter: units.MM(20)}.Sweep()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "EC-06 reading", s.Reading.MM(), 7, 1e-9)
	// A locomotive of 17 by 24 in whose book asks for 5 in, at an eighth of its size.
	if turned, err = marking.AsTurned(demo(), units.Inch(0.3125)); err != nil {
		t.Fatal(err)
	}
	near(t, "EC-06 eighth scale", turned.Kept.Travel.Inch(), 5.0/8, 1e-9)
}

// demo is the gear of the demonstration engine.
func demo() eccentric.Gear {
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

// A lever between makes the travel of a sheave, and the lead that is laid again is the
// drawn one.
func TestAsTurned(t *testing.T) {
	for _, lever := range []float64{0, 1.25, -0.8} {
		g := demo()
		g.LeverRatio = lever
		drawn, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		same, err := marking.AsTurned(g, g.EccentricOffset())
		if err != nil || same.Kept.Travel.Sub(g.Travel).Abs().Picometres() > 3 || !same.Reached || !same.Missed.IsZero() {
			t.Errorf("%v: %v, %v", lever, same, err)
		}
		more, err := marking.AsTurned(g, g.EccentricOffset().Add(units.MM(0.1)))
		if err != nil {
			t.Fatal(err)
		}
		ratio := max(math.Abs(lever), 0)
		if lever == 0 {
			ratio = 1
		}
		near(t, "travel", more.Kept.Travel.Sub(g.Travel).MM(), 0.2*ratio, 1e-8)
		near(t, "missed", more.Missed.MM(), 0.1, 1e-9)
		relaid, err := more.Relaid.Events()
		if err != nil || !more.Reached {
			t.Fatal(err)
		}
		near(t, "mean lead", relaid.MeanLead().MM(), drawn.MeanLead().MM(), 1e-8)
	}
	// So little offset that the travel does not reach the lap.
	less, err := marking.AsTurned(demo(), units.MM(1))
	if err != nil || less.Reached || less.Relaid != less.Kept {
		t.Errorf("%v, %v", less, err)
	}
}

func TestRefusals(t *testing.T) {
	mm := units.MM
	three := func(c marking.ThreeJaw) error { _, err := c.Packing(); return err }
	four := func(c marking.FourJaw) error { _, err := c.Solve(); return err }
	vee := func(v marking.Vee) error { _, err := v.Heights(); return err }
	dial := func(d marking.Dial) error { _, err := d.Sweep(); return err }
	wall := func(s marking.Sheave) error { _, err := s.Check(); return err }
	correct := func(used, reading units.Length) error {
		_, err := marking.ThreeJaw{Blank: mm(20), Offset: mm(3.5)}.Correct(used, reading)
		return err
	}
	offset := func(c marking.ThreeJaw, packing units.Length) error { _, err := c.OffsetFor(packing); return err }
	_, limit := marking.SpeedLimit(units.Length{})
	_, fast := marking.TooFast(mm(3), units.RotationalSpeed(math.NaN()))
	_, groove := marking.GrooveFor(mm(0.9))
	_, turned := marking.AsTurned(demo(), units.Length{})
	_, over := marking.Heights{}.Over(mm(1e6).Scale(2))
	_, _, misses := marking.Vee{Bar: mm(20), Included: 90 * units.Degree}.Misses(units.Length{})
	many := make([]units.Length, 361)
	for name, test := range map[string]struct {
		err  error
		want string
	}{
		"no blank":        {three(marking.ThreeJaw{Offset: mm(3)}), "blank"},
		"no offset":       {three(marking.ThreeJaw{Blank: mm(20)}), "offset"},
		"outside":         {three(marking.ThreeJaw{Blank: mm(20), Offset: mm(10)}), "outside the blank"},
		"jaw below zero":  {three(marking.ThreeJaw{Blank: mm(20), Offset: mm(3), Jaw: mm(-1)}), "width of the jaws"},
		"jaw too wide":    {three(marking.ThreeJaw{Blank: mm(20), Offset: mm(3), Jaw: mm(21)}), "width of the jaws"},
		"opens":           {three(marking.ThreeJaw{Blank: mm(20), Offset: mm(3), Opens: mm(-1)}), "opening of the chuck"},
		"no packing":      {offset(marking.ThreeJaw{Blank: mm(20)}, units.Length{}), "packing"},
		"thick packing":   {offset(marking.ThreeJaw{Blank: mm(20)}, mm(10)), "packing"},
		"thick, wide":     {offset(marking.ThreeJaw{Blank: mm(20), Jaw: mm(20)}, mm(15)), "packing"},
		"no blank to it":  {offset(marking.ThreeJaw{}, mm(1)), "blank"},
		"no packing used": {correct(units.Length{}, mm(6)), "packing"},
		"reading":         {correct(mm(5), mm(20)), "reading"},
		"nothing left":    {correct(mm(1), mm(19)), "nothing of it would be left"},
		"three readings":  {four(marking.FourJaw{Readings: make([]units.Length, 3)}), "3 of them"},
		"many readings":   {four(marking.FourJaw{Readings: many}), "361 of them"},
		"far reading":     {four(marking.FourJaw{Readings: []units.Length{mm(1e6).Scale(2), {}, {}, {}}}), "reading"},
		"pitch":           {four(marking.FourJaw{Readings: many[:4], Pitch: mm(-1)}), "pitch"},
		"diameter":        {four(marking.FourJaw{Readings: many[:4], Diameter: mm(-1)}), "diameter"},
		"too far out":     {four(marking.FourJaw{Readings: []units.Length{mm(30), {}, {}, {}, {}}, Diameter: mm(10)}), "more than the diameter"},
		"offset outside":  {four(marking.FourJaw{Readings: many[:4], Diameter: mm(10), Offset: mm(5)}), "outside the work"},
		"offset below":    {four(marking.FourJaw{Readings: many[:4], Offset: mm(-5)}), "offset"},
		"fifth jaw":       {four(marking.FourJaw{Readings: many[:4], Towards: 5}), "jaw"},
		"no bar":          {vee(marking.Vee{Included: 1}), "bar"},
		"flat vee":        {vee(marking.Vee{Bar: mm(20), Included: 180 * units.Degree}), "angle of the vee"},
		"no vee":          {vee(marking.Vee{Bar: mm(20), Included: units.Angle(math.NaN())}), "angle of the vee"},
		"vee offset":      {vee(marking.Vee{Bar: mm(20), Included: 1, Offset: mm(10)}), "offset"},
		"over":            {over, "height of the top"},
		"misses":          {misses, "really has"},
		"no range":        {dial(marking.Dial{Offset: mm(3), Diameter: mm(20)}), "range"},
		"dial offset":     {dial(marking.Dial{Range: mm(3), Offset: mm(10), Diameter: mm(20)}), "offset"},
		"no bore":         {wall(marking.Sheave{Offset: mm(3), Diameter: mm(20)}), "bore"},
		"no sheave":       {wall(marking.Sheave{Offset: mm(3), Bore: mm(6)}), "sheave"},
		"boss":            {wall(marking.Sheave{Offset: mm(3), Bore: mm(6), Diameter: mm(20), Boss: mm(6)}), "boss"},
		"lip":             {wall(marking.Sheave{Offset: mm(3), Bore: mm(6), Diameter: mm(20), Lip: mm(-1)}), "lip"},
		"no strap":        {groove, "strap"},
		"no limit":        {limit, "offset"},
		"no speed":        {fast, "speed"},
		"as turned":       {turned, "offset"},
	} {
		var argument *units.ArgumentError
		if !errors.As(test.err, &argument) {
			t.Errorf("%s: %v is no argument error", name, test.err)
			continue
		}
		kind := units.ErrOutOfRange
		if name == "no speed" {
			kind = units.ErrNotFinite
		}
		check.Refuses(t, name, test.err, kind, test.want)
	}
}
