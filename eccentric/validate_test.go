package eccentric

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

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
		{"crank port", func(g *Gear) { g.Ports.CrankSteam = units.MM(-2) }, "steam port width of the crank end", units.ErrOutOfRange},
		{"crank bar", func(g *Gear) { g.Ports.CrankBar = units.MM(-2) }, "bar width of the crank end", units.ErrOutOfRange},
		{"no land", func(g *Gear) { g.Valve.CavityOffset = units.MM(3.2) }, "cavity offset", units.ErrOutOfRange},
		{"no land, other end", func(g *Gear) { g.Valve.CavityOffset = units.MM(-9) }, "cavity offset", units.ErrOutOfRange},
		{"lost backwards", func(g *Gear) { g.Valve.LostMotion = units.MM(-0.1) }, "lost motion", units.ErrOutOfRange},
		{"all lost", func(g *Gear) { g.Valve.LostMotion = g.Travel }, "lost motion", units.ErrOutOfRange},
		{"absurd crank port", func(g *Gear) { g.Ports.CrankSteam = units.Picometres(math.MaxInt64) }, "dimensions", units.ErrOutOfRange},
		{"absurd cavity offset", func(g *Gear) { g.Valve.CavityOffset = units.Picometres(math.MinInt64) }, "dimensions", units.ErrOutOfRange},
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
	for _, stands := range []units.Angle{181 * units.Degree, units.Angle(math.NaN()), units.Angle(math.Inf(-1))} {
		if _, err := demo().WithEccentricAt(stands); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("an eccentric that stands at %v: %v", stands, err)
		}
	}
	if _, err := (Gear{}).WithEccentricAt(0); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	absurd := demo()
	absurd.Valve.Cavity, absurd.Valve.LostMotion = units.Picometres(math.MinInt64), units.Picometres(math.MaxInt64)
	if err := absurd.Validate(); err == nil || !strings.Contains(err.Error(), "less than the travel, 6.4 mm") {
		t.Error(err)
	}
	_, err := demo().WithLead(units.MM(0.1), End(3))
	if !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "accepted: both, head, crank") {
		t.Errorf("an end that there is not: %v", err)
	}
	if err := (Gear{}).Validate(); err == nil || strings.Count(err.Error(), "\n") < 5 {
		t.Errorf("the zero gear must name all that is missing: %v", err)
	}
}
