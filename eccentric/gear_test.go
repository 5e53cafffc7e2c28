package eccentric

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// demo is an invented engine; its events were worked out beforehand by scanning
// and bisecting the mechanism.
func demo() Gear {
	return Gear{
		Stroke: units.MM(25), ConnectingRod: RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

// simple returns a gear of infinite rods with the given travel and laps.
func simple(travel, steam, exhaust, port units.Length, advance units.Angle) Gear {
	p := Ports{Steam: port, Bar: port, Exhaust: port.Scale(4)}
	return Gear{
		Stroke: units.MM(100), ConnectingRod: InfiniteRod(), Travel: travel, EccentricRod: InfiniteRod(), Advance: advance,
		Ports: p, Valve: p.ValveWith(Laps{steam, exhaust}),
	}
}

// A tester is a test, or a property test of rapid.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func near(t tester, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g within %.3g", what, got, want, tolerance)
	}
}

func anyGear(t *rapid.T) Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := Gear{
		Stroke: units.MM(25), ConnectingRod: RodOf(units.MM(f("rod", 40, 120))),
		Travel: units.MM(f("travel", 2, 12)), Advance: units.Angle(f("advance", -179, 179)) * units.Degree,
		Ports: Ports{
			Steam: units.MM(f("steam", 0.5, 5)), Bar: units.MM(f("bar", 0.5, 5)), Exhaust: units.MM(f("exhaust", 1, 8)),
		},
	}
	g.EccentricRod = RodOf(g.Travel.Scale(f("eccentric rod", 2, 15)))
	r := g.Travel.Scale(0.5)
	g.Valve = g.Ports.ValveWith(Laps{r.Scale(f("steam lap", -0.2, 0.95)), r.Scale(f("exhaust lap", -0.2, 0.6))})
	if g.Valve.Cavity.Sign() <= 0 {
		g.Valve.Cavity = units.MM(0.1)
	}
	if g.Valve.Cavity.Cmp(g.Valve.Length) >= 0 {
		g.Valve.Cavity = g.Valve.Length.Scale(0.9)
	}
	g.Valve.Offset = r.Scale(f("offset", -0.2, 0.2))
	g.InsideAdmission = rapid.Bool().Draw(t, "inside")
	g.LeverRatio = rapid.SampledFrom([]float64{0, -1, 1.2, -0.8}).Draw(t, "lever")
	return g
}

// The valve and the eccentric move as one mechanism, whatever lies between: the
// displacement is worked out from the place of the sheave that EccentricLead
// gives.
func TestEccentricLead(t *testing.T) {
	for _, test := range []struct {
		lever  float64
		inside bool
		want   float64 // degrees; geometry, see the package comment
	}{{0, false, 116}, {0, true, -64}, {-1, false, -64}, {-1, true, 116}, {1.5, false, 116}} {
		g := demo()
		g.LeverRatio, g.InsideAdmission = test.lever, test.inside
		what := fmt.Sprintf("lead with lever %v, inside %v", test.lever, test.inside)
		near(t, what, g.EccentricLead().Degrees(), test.want, 1e-9)
		ratio := test.lever
		if ratio == 0 {
			ratio = 1
		}
		r, l := g.EccentricOffset().MM(), g.EccentricRod.length.MM()
		near(t, "offset", r, 3.2/math.Abs(ratio), 1e-9)
		for crank := range 360 {
			a := units.Angle(crank) * units.Degree
			pin := float64(a + g.EccentricLead())
			want := ratio * (-r*math.Cos(pin) + l - math.Sqrt(l*l-math.Pow(r*math.Sin(pin), 2)))
			x, err := g.Displacement(a)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "displacement", x.MM(), want, 1e-8)
		}
	}
}

// Common practice: a quarter inch of valve movement needs an eighth of an inch
// of offset, and a dial on the sheave reads the quarter. 3.5 mm of offset reads
// 7 mm.
func TestOffsetIsHalfTheTravel(t *testing.T) {
	g := demo()
	g.Travel = units.InchFraction(1, 4)
	if got := g.EccentricOffset(); got != units.InchFraction(1, 8) {
		t.Errorf("offset %v", got)
	}
	g.Travel = units.MM(7)
	if got := g.EccentricOffset(); got != units.MM(3.5) {
		t.Errorf("offset %v", got)
	}
	g.LeverRatio = -2
	if got := g.EccentricOffset(); got != units.MM(1.75) {
		t.Errorf("offset behind a lever of two to one %v", got)
	}
}

// To reverse an engine the eccentric turns by 180 degrees less twice the
// advance. Turned by 180 instead, it opens the port by twice the advance late.
func TestReversing(t *testing.T) {
	for _, advance := range []units.Angle{30, 35, 40} {
		lap := units.MM(10 * math.Sin((advance * units.Degree).Radians()))
		g := simple(units.MM(20), lap, units.Length{}, units.MM(5), advance*units.Degree)
		near(t, "turn", g.TurnToReverse().Degrees(), 180-2*float64(advance), 1e-9)
		for _, lever := range []float64{0, 1, -1} {
			for _, inside := range []bool{false, true} {
				g.LeverRatio, g.InsideAdmission = lever, inside
				// The sheave's new place is the mirror image of the old about the crank.
				sum := 2*g.EccentricLead() + g.TurnToReverse()
				near(t, "place after the turn", math.Cos(sum.Radians()), 1, 1e-12)
			}
		}
		g.LeverRatio, g.InsideAdmission = 0, false

		flipped := g
		flipped.Advance = -g.Advance // seen in the new direction of rotation
		near(t, "port opens after dead centre", events(t, flipped).Head.Admission.Crank.Degrees(), 2*float64(advance), 1e-6)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*Gear)
		field string
		err   error
	}{
		{"no stroke", func(g *Gear) { g.Stroke = units.Length{} }, "stroke", units.ErrMissing},
		{"negative travel", func(g *Gear) { g.Travel = units.MM(-1) }, "valve travel", units.ErrOutOfRange},
		{"no bar", func(g *Gear) { g.Ports.Bar = units.Length{} }, "bar width", units.ErrMissing},
		{"short rod", func(g *Gear) { g.ConnectingRod = RodOf(units.MM(12.5)) }, "connecting rod", units.ErrOutOfRange},
		{"negative rod", func(g *Gear) { g.ConnectingRod = RodOf(units.MM(-60)) }, "connecting rod", units.ErrOutOfRange},
		{"short eccentric rod", func(g *Gear) { g.EccentricRod = RodOf(units.MM(3)) }, "eccentric rod", units.ErrOutOfRange},
		{"cavity over valve", func(g *Gear) { g.Valve.Cavity = units.MM(15.4) }, "valve cavity", units.ErrOutOfRange},
		{"advance", func(g *Gear) { g.Advance = 181 * units.Degree }, "angle of advance", units.ErrOutOfRange},
		{"advance not a number", func(g *Gear) { g.Advance = units.Angle(math.NaN()) }, "angle of advance", units.ErrOutOfRange},
		{"lever", func(g *Gear) { g.LeverRatio = math.Inf(1) }, "lever ratio", units.ErrOutOfRange},
		{"lever not a number", func(g *Gear) { g.LeverRatio = math.NaN() }, "lever ratio", units.ErrOutOfRange},
		{"absurd", func(g *Gear) { g.Valve.Length = units.Picometres(math.MaxInt64) }, "dimensions", units.ErrOutOfRange},
		{"absurd travel", func(g *Gear) { g.Travel, g.LeverRatio = units.Picometres(math.MaxInt64), 0.1 }, "dimensions", units.ErrOutOfRange},
		{"absurd stroke", func(g *Gear) { g.Stroke = units.Picometres(math.MinInt64) }, "stroke", units.ErrOutOfRange},
		{"absurd offset", func(g *Gear) { g.Valve.Offset = units.Picometres(math.MinInt64 + 1) }, "dimensions", units.ErrOutOfRange},
		{"chest", func(g *Gear) { g.Chest = units.MM(-1) }, "chest length", units.ErrOutOfRange},
	} {
		g := demo()
		test.spoil(&g)
		_, err := g.Events()
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || bad.Field != test.field || !errors.Is(err, test.err) || bad.Accepted == "" {
			t.Errorf("%s: %v", test.name, err)
		}
		f := g.Check()
		if len(f) != 1 || f[0].Code != NotAGear || f[0].Severity != finding.Fails ||
			!strings.Contains(f[0].Text, test.field) {
			t.Errorf("%s: Check says %+v", test.name, f)
		}
	}
	for _, share := range []float64{-0.1, 1.01, 75, math.NaN(), math.Inf(1)} {
		if _, err := demo().CrankAt(share); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("CrankAt(%v): %v", share, err)
		}
	}
	if _, err := demo().WithLead(units.MM(3), BothEnds); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("a lead beyond the travel: %v", err)
	}
	_, err := demo().WithLead(units.MM(0.1), End(3))
	if !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "accepted: both, head, crank") {
		t.Errorf("an end that there is not: %v", err)
	}
	if err := (Gear{}).Validate(); err == nil || strings.Count(err.Error(), "\n") < 5 {
		t.Errorf("the zero gear must name all that is missing: %v", err)
	}
}
