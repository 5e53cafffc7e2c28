package eccentric

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
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

// anyBuilt is a gear as it may stand on the bench: ports and bars that differ at
// the ends, a cavity off the middle of its valve, lost motion; each there or not.
func anyBuilt(t *rapid.T) Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	has := func(name string) bool { return rapid.Bool().Draw(t, name) }
	g := anyGear(t)
	if has("another port") {
		g.Ports.CrankSteam = units.MM(f("crank steam", 0.5, 5))
	}
	if has("another bar") {
		g.Ports.CrankBar = units.MM(f("crank bar", 0.5, 5))
	}
	if has("cavity off") {
		g.Valve.CavityOffset = g.land(BothEnds).Scale(f("cavity offset", -0.95, 0.95))
	}
	if has("play") {
		g.Valve.LostMotion = g.Travel.Scale(f("lost motion", 0, 0.95))
	}
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

// Whatever the advance, the sheave has a place: no angle is nothing, or a zero with
// a sign.
func TestPlacesAreNumbers(t *testing.T) {
	for _, advance := range []units.Angle{
		0, units.Angle(math.Copysign(0, -1)), -90 * units.Degree, 90 * units.Degree, 1e6, -1e20, math.MaxFloat64, -math.MaxFloat64,
		units.Angle(math.Inf(1)), units.Angle(math.Inf(-1)), units.Angle(math.NaN()),
	} {
		for _, lever := range []float64{0, -1} {
			g := demo()
			g.Advance, g.LeverRatio = advance, lever
			if v := float64(advance); math.IsInf(v, 0) || math.IsNaN(v) { // counts as none
				near(t, "lead of no advance", math.Abs(g.EccentricLead().Degrees()), 90, 1e-9)
				near(t, "turn of no advance", g.TurnToReverse().Degrees(), 180, 1e-9)
			}
			for name, a := range map[string]units.Angle{"lead": g.EccentricLead(), "turn": g.TurnToReverse()} {
				if v := float64(a); !(math.Abs(v) <= math.Pi) || v == 0 && math.Signbit(v) {
					t.Errorf("%s of an advance of %v with lever %v: %v", name, float64(advance), lever, v)
				}
			}
		}
	}
	g := demo()
	g.Advance += 8 * 360 * units.Degree // the same place
	near(t, "lead after whole turns", g.EccentricLead().Degrees(), 116, 1e-9)
	for _, whole := range []float64{2 * math.Pi, -2 * math.Pi, math.Copysign(0, -1)} {
		if a := float64(inTurn(units.Angle(whole))); a != 0 || math.Signbit(a) {
			t.Errorf("%v is %v in a turn", whole, a)
		}
	}
	near(t, "turn after whole turns", g.TurnToReverse().Degrees(), 128, 1e-9)
}
