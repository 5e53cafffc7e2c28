package setting

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// demo is the gear of the demonstration engine.
func demo() eccentric.Gear {
	mm := units.MM
	return eccentric.Gear{
		Stroke: mm(25), ConnectingRod: eccentric.RodOf(mm(63)), EccentricRod: eccentric.RodOf(mm(60)),
		Travel: mm(6.4), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: mm(2), Bar: mm(2.5), Exhaust: mm(4), Length: mm(10)},
		Valve: eccentric.Valve{Length: mm(15.4), Cavity: mm(9)},
	}
}

func near(t *testing.T, name string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", name, got, want, within)
	}
}

func correct(t *testing.T, s Setting, head, crank units.Length) Correction {
	t.Helper()
	c, err := s.Correct(Leads{head, crank})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func cases(t *testing.T) int {
	t.Helper()
	if testing.Short() {
		return 300
	}
	return 3000
}

// Sheave and valve of random gears are put out of place on a bench that is set up piece
// by piece, the leads are read there, what is told is done there, and the leads of the
// drawing are read.
func TestCorrectOnTheBench(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	corrected, resting, hands, worst := 0, 0, 0, 0.0
	for range cases(t) {
		g := random(r)
		right, err := g.Events()
		if err != nil {
			t.Fatalf("%v: %v", err, g)
		}
		b := benchOf(g)
		near(t, "lead of the head end", b.lead(eccentric.HeadEnd), right.Head.Lead.MM(), 1e-8)
		near(t, "lead of the crank end", b.lead(eccentric.CrankEnd), right.Crank.Lead.MM(), 1e-8)

		turned, off := (r.Float64()-0.5)*math.Min(0.6, 2*(math.Pi/2-math.Abs(g.Advance.Radians())-0.1)), (r.Float64()-0.5)*1.2
		b.stands += turned
		b.spindle += off
		read := Leads{units.MM(b.lead(eccentric.HeadEnd)), units.MM(b.lead(eccentric.CrankEnd))}
		c, err := Setting{Gear: g}.Correct(read)
		var refused *units.ArgumentError
		if errors.As(err, &refused) {
			continue // wider than the port
		} else if err != nil {
			t.Fatal(err)
		}
		if c.Turn == 0 || c.Move.IsZero() {
			resting++
			if math.Abs(turned) > 1.001*math.Pi/180 && c.Turn == 0 || math.Abs(off) > 0.05001 && c.Move.IsZero() {
				t.Fatalf("turned %g rad, off %g mm, and told %v", turned, off, c)
			}
			continue
		}
		b.stands += c.Turn.Radians()
		b.spindle += c.Move.MM()
		for end, want := range map[eccentric.End]units.Length{eccentric.HeadEnd: right.Head.Lead, eccentric.CrankEnd: right.Crank.Lead} {
			out := math.Abs(b.lead(end) - want.MM())
			if worst = max(worst, out); out > 1e-7 {
				t.Fatalf("turned %g rad, off %g mm: %v leaves the %v end %g mm out: %v", turned, off, c, end, out, g)
			}
		}
		near(t, "told, head end", c.After.Head.MM(), right.Head.Lead.MM(), 1e-8)
		near(t, "told, crank end", c.After.Crank.MM(), right.Crank.Lead.MM(), 1e-8)
		// On the other hand the same leads ask for the other turn. What lost motion is at rest
		// then the turn does not know.
		if g.Valve.LostMotion.IsZero() {
			wrong := benchOf(g)
			wrong.stands += math.Pi - 2*g.Advance.Radians() + turned
			wrong.spindle += off
			read := Leads{units.MM(wrong.lead(eccentric.HeadEnd)), units.MM(wrong.lead(eccentric.CrankEnd))}
			if c, err := (Setting{Gear: g}).Correct(read); err == nil && !c.Move.IsZero() {
				wrong.stands += c.OtherHand.Radians()
				wrong.spindle += c.Move.MM()
				near(t, "from the wrong hand, head end", wrong.lead(eccentric.HeadEnd), right.Head.Lead.MM(), 1e-7)
				near(t, "from the wrong hand, crank end", wrong.lead(eccentric.CrankEnd), right.Crank.Lead.MM(), 1e-7)
				near(t, "from the wrong hand", math.Remainder(wrong.stands-benchOf(g).stands, 2*math.Pi), 0, 1e-7)
				hands++
			}
		}
		// The eccentric rod does it as well: its end, and through the lever the valve, goes
		// away from the crank by as much as it is longer.
		lever := g.LeverRatio
		if lever == 0 {
			lever = 1
		}
		near(t, "rod", -c.Rod.MM()*lever, c.Move.MM(), 1e-9)
		corrected++
	}
	t.Logf("%d gears corrected, the lead at most %.1e mm out, %d of them from the wrong hand; of %d nothing or one part"+
		" alone is told", corrected, worst, hands, resting)
	if !testing.Short() && (corrected < 1500 || resting < 100 || hands < 500) {
		t.Errorf("%d gears corrected, %d at rest, %d from the wrong hand", corrected, resting, hands)
	}
}

// The order of work, done on the bench: with a screw that turns the sheave to the half
// of a degree and a valve set to a hundredth, one pass of the stages lead, other end and
// split, read and told, leaves both leads within what such a screw can do.
func TestOrderOfWorkOnTheBench(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 2))
	done := 0
	for range cases(t) / 3 {
		g := random(r)
		if g.Valve.LostMotion.Sign() > 0 {
			g.Valve.LostMotion = units.Length{} // the bench of so many readings is slow then
		}
		right, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		s := Setting{Gear: g}
		sheet, err := s.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		b := benchOf(g)
		b.spindle += (r.Float64() - 0.5) * 0.6
		// The lead at the head end: the sheave is turned until it is read.
		low, high := b.stands-0.5, b.stands+0.5
		for range 60 {
			b.stands = (low + high) / 2
			if b.lead(eccentric.HeadEnd) < right.Head.Lead.MM() {
				low = b.stands
			} else {
				high = b.stands
			}
		}
		if math.Abs(b.lead(eccentric.HeadEnd)-right.Head.Lead.MM()) > 1e-9 {
			continue // the valve was too far off for it
		}
		out := b.lead(eccentric.CrankEnd) - right.Crank.Lead.MM()
		c, err := s.Correct(Leads{units.MM(b.lead(eccentric.HeadEnd)), units.MM(b.lead(eccentric.CrankEnd))})
		if err != nil {
			continue // wider than the port
		}
		// One half belongs to the valve, one to the sheave: but for what the slant does.
		way := 1.0 // a lead of the crank end that is too large is less as the valve goes towards the crank
		if g.InsideAdmission {
			way = -1
		}
		if !c.Move.IsZero() {
			near(t, "half belongs to the valve", way*c.Move.MM(), out/2, 0.01+0.12*math.Abs(out))
		}
		if perDegree := sheet.PerDegree.MM(); c.Turn != 0 && perDegree > 0.01 {
			near(t, "half belongs to the sheave", c.Turn.Degrees(), -out/2/perDegree, 0.3+0.25*math.Abs(out/2/perDegree))
		}
		b.stands += math.Round(2*c.Turn.Degrees()) / 2 * math.Pi / 180
		b.spindle += math.Round(100*c.Move.MM()) / 100
		within := sheet.PerDegree.MM() + 0.055
		near(t, "head end", b.lead(eccentric.HeadEnd), right.Head.Lead.MM(), within)
		near(t, "crank end", b.lead(eccentric.CrankEnd), right.Crank.Lead.MM(), within)
		done++
	}
	t.Logf("%d gears set", done)
	if !testing.Short() && done < 500 {
		t.Errorf("only %d gears set", done)
	}
}

// What the sheet has to be read is read on the bench.
func TestSheetOnTheBench(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 3))
	splits := 0
	for range cases(t) / 10 {
		g := random(r)
		sheet, err := Setting{Gear: g, Wheel: units.MM(100), Shaft: units.MM(6)}.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		b := benchOf(g)
		furthest := func(end eccentric.End) float64 {
			most := math.Inf(-1)
			for i := range 7200 {
				most = max(most, b.steam(b.drive(float64(i)*math.Pi/3600)+b.spindle, end))
			}
			return most - b.lost/2
		}
		port := func(end eccentric.End) float64 {
			width, _ := g.Ports.At(end)
			return width.MM()
		}
		near(t, "edge of the head end", furthest(eccentric.HeadEnd)-port(eccentric.HeadEnd), sheet.Events.Head.OverTravel.MM(), 1e-5)
		near(t, "edge of the crank end", furthest(eccentric.CrankEnd)-port(eccentric.CrankEnd), sheet.Events.Crank.OverTravel.MM(), 1e-5)
		shown := func(x float64, end eccentric.End) float64 { return min(max(b.steam(x, end), 0), port(end)) }
		near(t, "head end opens", shown(b.stand(10*math.Pi/180), eccentric.HeadEnd), sheet.Opens.Head.Steam.MM(), 1e-6)
		near(t, "crank end opens", shown(b.stand(190*math.Pi/180), eccentric.CrankEnd), sheet.Opens.Crank.Steam.MM(), 1e-6)

		// The piston from the ends of its stroke, with a rod at its length.
		crank, rod := g.Stroke.MM()/2, 1e9
		if l, ok := g.ConnectingRod.Length(); ok {
			rod = l.MM()
		}
		from := func(t float64) float64 { // the head end
			return crank*(1-math.Cos(t)) + crank*math.Sin(t)*crank*math.Sin(t)/(rod+math.Sqrt(rod*rod-crank*math.Sin(t)*crank*math.Sin(t)))
		}
		near(t, "mark of the head end", sheet.Head.Piston.MM(), from(math.Pi/4), 1e-6)
		near(t, "mark of the crank end", sheet.Crank.Piston.MM(), 2*crank-from(3*math.Pi/4), 1e-6)
		near(t, "not seen, head end", from(sheet.Head.Blind.Radians()), 0.05, 1e-6)
		near(t, "not seen, crank end", 2*crank-from(math.Pi-sheet.Crank.Blind.Radians()), 0.05, 1e-6)
		near(t, "a mark out", from(math.Pi/4+2*sheet.Head.Tenth.Radians())-from(math.Pi/4), 0.1, 1e-6)
		near(t, "rim", sheet.Head.Arc.MM(), 25*math.Pi, 1e-6)

		// Where the crank end is out by so much the parts stand out by what is told.
		for _, split := range sheet.Splits {
			if split.Turn == 0 || split.Move.IsZero() {
				continue
			}
			out := benchOf(g)
			out.stands -= split.Turn.Radians()
			out.spindle -= split.Move.MM()
			near(t, "the head end is right", out.lead(eccentric.HeadEnd), sheet.Events.Head.Lead.MM(), 1e-7)
			near(t, "the crank end is out", out.lead(eccentric.CrankEnd), sheet.Events.Crank.Lead.Add(split.Out).MM(), 1e-7)
			splits++
		}

		// A valve off by what is named shows what is named of it in the greatest openings.
		opens := func(off float64) float64 {
			b.spindle = g.Valve.Offset.MM() + off
			return min(furthest(eccentric.HeadEnd), port(eccentric.HeadEnd)) - min(furthest(eccentric.CrankEnd), port(eccentric.CrankEnd))
		}
		is := opens(0)
		near(t, "openings", math.Abs(opens(sheet.Planted.MM())-is)/2, sheet.Misread.MM(), 1e-5)
		if h := sheet.Halved.MM(); h > 0.02 {
			near(t, "openings that serve", math.Abs(opens(h-0.01)-is)/2, h-0.01, 1e-5)
			near(t, "the other way", math.Abs(opens(0.01-h)-is)/2, h-0.01, 1e-5)
		}
		if sheet.Misread.Cmp(sheet.Planted.Abs()) >= 0 {
			t.Errorf("openings that serve for more than is told: %v of %v", sheet.Misread, sheet.Planted)
		}
	}
	if t.Logf("%d splits", splits); splits < cases(t)/10 {
		t.Errorf("only %d splits", splits)
	}
}

// leading is a gear without slant whose drawing has the mean of two leads, in inches, at
// both ends.
func leading(t *testing.T, first, second float64) eccentric.Gear {
	t.Helper()
	g := demo()
	g.ConnectingRod, g.EccentricRod, g.Travel = eccentric.InfiniteRod(), eccentric.InfiniteRod(), units.Inch(5)
	g.Ports = eccentric.Ports{Steam: units.Inch(1.25), Bar: units.Inch(1), Exhaust: units.Inch(2.5), Length: units.Inch(16)}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.Inch(0.875)})
	g, err := g.WithLead(units.Inch((first+second)/2), eccentric.BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// EC-04: both ends are to lead by 1/64 in; one does, the other leads by 3/64. With the
// sheave as it stands the valve is to be 1/32 in longer and shifted by 1/64.
func TestLapInPlaceOfTheTurn(t *testing.T) {
	g := leading(t, 1.0/64, 1.0/64)
	c := correct(t, Setting{Gear: g}, units.InchFraction(1, 64), units.InchFraction(3, 64))
	near(t, "longer", 2*c.Lap.Inch(), 1.0/32, 1e-9)
	near(t, "shift", c.Move.Inch(), 1.0/64, 1e-9)
	g.Valve.Length = g.Valve.Length.Add(c.Lap.Scale(2))
	lead := units.InchFraction(1, 64).Sub(c.Lap).Add(c.Move) // at the head end, which the move opens
	near(t, "after", lead.Inch(), 1.0/64, 1e-9)
}

// EC-17: what the leads of the demonstration engine tell when the sheave has slipped
// back by 10 degrees, and when the valve stands 0.3 mm off towards the head end.
func TestLeadsTellSheaveFromValve(t *testing.T) {
	for _, row := range []struct {
		name                   string
		head, crank            float64
		turn, within, move, mm float64
	}{
		{"slipped back", -0.239, -0.397, 10, 0.05, 0, 0},
		{"valve off", -0.028, 0.434, 0, 0, 0.3, 0.01},
	} {
		c := correct(t, Setting{Gear: demo()}, units.MM(row.head), units.MM(row.crank))
		near(t, row.name+": turn", c.Turn.Degrees(), row.turn, row.within)
		near(t, row.name+": move", c.Move.MM(), row.move, row.mm)
	}
}

// EC-18: 25 thou under the main bearings of a 3/4 by 3/4 vertical left leads of -21.6
// and 25.6 thou of a mean lead of 2: the valve goes back by half their difference, less
// what the slant of the eccentric rod has in it, and the sheave stays.
func TestShimsAreReadFromTheLeads(t *testing.T) {
	g := eccentric.Gear{
		Stroke: units.Inch(0.75), ConnectingRod: eccentric.RodOf(units.Inch(1.8125)),
		EccentricRod: eccentric.RodOf(units.Inch(2.25)), Travel: units.InchFraction(3, 16),
		Ports: eccentric.Ports{Steam: units.InchFraction(1, 16), Bar: units.InchFraction(3, 32),
			Exhaust: units.InchFraction(1, 8), Length: units.InchFraction(3, 8)},
		Valve: eccentric.Valve{Length: units.InchFraction(17, 32), Cavity: units.InchFraction(5, 16)},
	}
	g, err := g.WithLead(units.Thou(2), eccentric.BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	c := correct(t, Setting{Gear: g, Nut: Nut{units.Inch(1.0 / 40), 2}}, units.Thou(-21.6), units.Thou(25.6))
	if c.Turn != 0 {
		t.Errorf("turned by %v", c.Turn)
	}
	near(t, "thou", c.Move.In(units.Thousandths), 25, 0.05)
	if c.Nut == nil || c.Nut.Set != 1 || !c.Nut.Left.Abs().IsZero() && c.Nut.Left.Abs().Cmp(units.Thou(0.05)) > 0 {
		t.Errorf("one turn of 40 tpi is 25 thou, and it is %+v", c.Nut)
	}
}

// EC-03: a half travel of 3 and a lap of 1 with a lead of 0.2 mm; the advance is 23.58
// degrees, and one on the wrong hand, which reads the right leads, is turned by 132.84.
func TestWrongHand(t *testing.T) {
	g := demo()
	g.EccentricRod, g.Travel = eccentric.InfiniteRod(), units.MM(6)
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(1)})
	g, err := g.WithLead(units.MM(0.2), eccentric.BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := Setting{Gear: g}.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "advance", sheet.Stands.Degrees()-90, 23.58, 0.005)
	near(t, "to the other hand", sheet.Reverse.Degrees(), 132.84, 0.005)
	if text := sheet.Stages[1].Text; !strings.Contains(text, "turn it by 132.8 deg back") {
		t.Error(text)
	}
	// A valve that stands -1.2 from the middle is out by twice the advance, or by half a turn
	// where the ports shut: leads of -1.2 less the lap.
	c := correct(t, Setting{Gear: g}, units.MM(-2.2), units.MM(-2.2))
	near(t, "turned on", c.Turn.Degrees(), 47.16, 0.005)
	near(t, "half round", math.Abs(c.OtherHand.Degrees()), 180, 1e-9)
	// On the other hand the port shuts where the right one opens further.
	b := benchOf(g)
	b.stands = -b.stands
	near(t, "lead of the wrong hand", b.lead(eccentric.HeadEnd), 0.2, 1e-9)
	if wrong := b.steam(b.stand(10*math.Pi/180), eccentric.HeadEnd); wrong >= 0.2 || sheet.Opens.Head.Steam.MM() <= 0.2 {
		t.Errorf("10 deg on: %g on the wrong hand, %v on the right one", wrong, sheet.Opens.Head.Steam)
	}
}

// The demonstration engine: its greatest openings are blind, as half the travel less the
// lap is the width of the port.
func TestGreatestOpeningsAreBlind(t *testing.T) {
	sheet, err := Setting{Gear: demo()}.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "serves within", sheet.Halved.MM(), 0, 0)
	near(t, "0.3 mm off shows", sheet.Misread.MM(), 0.15, 1e-9)
	if text := sheet.Stages[2].Text; !strings.Contains(text, "blind here") {
		t.Error(text)
	}
	g := demo()
	g.Travel = units.MM(6)
	if sheet, err = (Setting{Gear: g}).Sheet(); err != nil {
		t.Fatal(err)
	}
	near(t, "serves within", sheet.Halved.MM(), 0.2, 1e-9)
	if text := sheet.Stages[2].Text; strings.Contains(text, "blind") || !strings.Contains(text, "serves only") {
		t.Error(text)
	}
}

func TestValidate(t *testing.T) {
	mm := units.MM
	for _, row := range []struct {
		name, field string
		change      func(*Setting)
	}{
		{"no gear", "stroke", func(s *Setting) { s.Gear.Stroke = units.Length{} }},
		{"the other direction", "angle of advance", func(s *Setting) { s.Gear.Advance = 154 * units.Degree }},
		{"in line with the crank", "angle of advance", func(s *Setting) { s.Gear.Advance = 90 * units.Degree }},
		{"in line behind it", "angle of advance", func(s *Setting) { s.Gear.Advance = -90 * units.Degree }},
		{"no number", "angle of advance", func(s *Setting) { s.Gear.Advance = units.Angle(math.NaN()) }},
		{"no pitch", "pitch of the spindle", func(s *Setting) { s.Nut.Places = 2 }},
		{"a pitch below nothing", "pitch of the spindle", func(s *Setting) { s.Nut.Pitch = mm(-0.5) }},
		{"a pitch of a post", "pitch of the spindle", func(s *Setting) { s.Nut.Pitch = mm(11) }},
		{"places", "places of the nut", func(s *Setting) { s.Nut = Nut{mm(0.5), 25} }},
		{"places below none", "places of the nut", func(s *Setting) { s.Nut = Nut{mm(0.5), -1} }},
		{"shaft", "shaft diameter", func(s *Setting) { s.Shaft = mm(-1) }},
		{"wheel", "flywheel diameter", func(s *Setting) { s.Wheel = mm(11_000) }},
		{"a side alone", "rotation", func(s *Setting) { s.SeenFrom = "the flywheel" }},
		{"a way alone", "rotation", func(s *Setting) { s.Rotation = Clockwise }},
		{"no such way", "rotation", func(s *Setting) { s.Rotation, s.SeenFrom = 7, "the flywheel" }},
		{"pin", "pin diameter", func(s *Setting) { s.Slip.Radius = mm(8) }},
		{"slot", "slot", func(s *Setting) { s.Slip = Slip{mm(3), mm(8), 10 * units.Degree} }},
	} {
		s := Setting{Gear: demo()}
		row.change(&s)
		_, sheet := s.Sheet()
		_, told := s.Correct(Leads{})
		for name, err := range map[string]error{"Validate": s.Validate(), "Sheet": sheet, "Correct": told} {
			var bad *units.ArgumentError
			if !errors.As(err, &bad) || bad.Field != row.field {
				t.Errorf("%s: %s: %v, want one about %s", row.name, name, err, row.field)
			}
		}
	}
}

func TestCorrectRefuses(t *testing.T) {
	for _, row := range []struct {
		field       string
		head, crank units.Length
	}{
		{"lead of the head end", units.MM(2.1), units.MM(0)},
		{"lead of the crank end", units.MM(0), units.MM(2)},
		{"lead of the crank end", units.MM(0), units.MM(-6.5)},
		{"mean of the leads", units.MM(-4.5), units.MM(-4.5)},
		{"lead of the head end", units.MM(9e5), units.MM(0)},
		{"lead of the head end", units.MM(-9e5), units.MM(0)},
	} {
		var bad *units.ArgumentError
		if c, err := (Setting{Gear: demo()}).Correct(Leads{row.head, row.crank}); !errors.As(err, &bad) || bad.Field != row.field || c != (Correction{}) {
			t.Errorf("%v and %v: %v", row.head, row.crank, err)
		}
	}
}

// The way round is told for the side that was named and for the other.
func TestSides(t *testing.T) {
	s := Setting{Gear: demo(), Rotation: Clockwise, SeenFrom: "the flywheel"}
	text := func() string {
		sheet, err := s.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		return sheet.Stages[1].Text
	}
	for _, want := range []string{
		"116.0 deg ahead of the crankpin", "Seen from the flywheel the engine runs clockwise, and that is clockwise",
		"from the other side it runs anticlockwise, and that is anticlockwise", "back, against the way the engine runs (anticlockwise seen from the flywheel)",
	} {
		if got := text(); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
	s.Gear.LeverRatio, s.Rotation = -1, Anticlockwise
	for _, want := range []string{
		"64.0 deg behind the crankpin", "runs anticlockwise, and that is clockwise from the crankpin",
		"it runs clockwise, and that is anticlockwise", "lever that reverses",
	} {
		if got := text(); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}
