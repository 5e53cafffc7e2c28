package cutting_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func TestRefuses(t *testing.T) {
	k, err := cutting.KienzleFor(metal("mild steel"))
	if err != nil {
		t.Fatal(err)
	}
	mm := units.MM
	n := 100 * units.RevPerMinute
	nan := units.RotationalSpeed(math.NaN())
	for name, call := range map[string]func() error{
		"no length":              func() error { _, err := cutting.Path{}.Time(1); return err },
		"no feed":                func() error { _, err := cutting.Path{Length: mm(1)}.Time(0); return err },
		"feed not a number":      func() error { _, err := cutting.Path{Length: mm(1)}.Time(units.Speed(math.NaN())); return err },
		"approach behind":        func() error { _, err := cutting.Path{Length: mm(1), Approach: mm(-1)}.Time(1); return err },
		"a century":              func() error { _, err := cutting.Path{Length: mm(1e5)}.Time(1e-12); return err },
		"too many passes":        func() error { _, err := cutting.Path{Length: mm(1), Passes: 20_000}.Time(1); return err },
		"spindle stands still":   func() error { _, err := cutting.FeedSpeed(0, mm(0.1)); return err },
		"spindle not a number":   func() error { _, err := cutting.FeedSpeed(nan, mm(0.1)); return err },
		"no teeth":               func() error { _, err := cutting.TableFeed(n, mm(0.1), 0); return err },
		"no teeth, inverse":      func() error { _, err := cutting.FeedPerTooth(1, n, 0); return err },
		"no table feed":          func() error { _, err := cutting.FeedPerTooth(0, n, 2); return err },
		"no drill":               func() error { _, err := cutting.PointLength(mm(0), 118*units.Degree); return err },
		"a needle":               func() error { _, err := cutting.PointLength(mm(5), 10*units.Degree); return err },
		"slab too deep":          func() error { _, err := cutting.SlabApproach(mm(20), mm(11)); return err },
		"wider than the cutter":  func() error { _, err := cutting.FaceApproach(mm(20), mm(21)); return err },
		"depth on the diameter":  func() error { _, err := cutting.TurningRemoval(mm(20), mm(11), mm(0.1), n); return err },
		"no depth":               func() error { _, err := cutting.TurningRemovalOutside(mm(20), mm(0), mm(0.1), n); return err },
		"no drilling feed":       func() error { _, err := cutting.DrillingRemoval(mm(20), mm(0), n); return err },
		"no milling feed":        func() error { _, err := cutting.MillingRemoval(mm(1), mm(1), 0); return err },
		"chip wider than cutter": func() error { _, err := cutting.GreatestChip(mm(0.1), mm(21), mm(20)); return err },
		"no chip":                func() error { _, err := cutting.FeedForChip(mm(0), mm(1), mm(20)); return err },
		"edge along the feed":    func() error { _, err := cutting.ChipThickness(mm(0.1), 0); return err },
		"thread for a finish":    func() error { _, err := cutting.TurnedFinish(mm(1), mm(0.4)); return err },
		"no nose":                func() error { _, err := cutting.TurnedFinish(mm(0.1), mm(0)); return err },
		"a film for a chip":      func() error { _, err := k.At(units.Micron(4)); return err },
		"a slab for a chip":      func() error { _, err := k.At(mm(4)); return err },
		"force in plastics":      func() error { _, err := cutting.KienzleFor(metal("plastic")); return err },
		"force in nothing":       func() error { _, err := cutting.ForcesFor(material.Material{}); return err },
		"power in nothing":       func() error { _, err := cutting.UnitPowerFor(material.Material{}); return err },
		"no constants":           func() error { _, err := (cutting.Kienzle{}).At(mm(0.1)); return err },
		"constants of nothing":   func() error { _, err := (cutting.Kienzle{KC11: units.Pressure(math.NaN())}).At(mm(0.1)); return err },
		"exponent of nothing":    func() error { _, err := (cutting.Kienzle{KC11: 1e9, Exponent: math.NaN()}).At(mm(0.1)); return err },
		"load of no constants": func() error {
			_, err := cutting.TurningLoad(cutting.Kienzle{}, mm(10), mm(1), mm(0.1), 90*units.Degree, n)
			return err
		},
		"power constant of none": func() error { _, err := (cutting.UnitPower{}).Power(1); return err },
		"beyond all workshops": func() error {
			_, err := cutting.TurningRemoval(units.Picometres(math.MaxInt64), units.Picometres(math.MaxInt64), mm(1), n)
			return err
		},
		"power of nothing":        func() error { _, err := cutting.UnitPower{PerFlow: 1}.Power(0); return err },
		"load too deep":           func() error { _, err := cutting.TurningLoad(k, mm(10), mm(6), mm(0.1), 90*units.Degree, n); return err },
		"load, edge over":         func() error { _, err := cutting.TurningLoad(k, mm(10), mm(1), mm(0.1), 95*units.Degree, n); return err },
		"drilling a film":         func() error { _, err := cutting.DrillingLoad(k, mm(10), mm(0.001), 118*units.Degree, n); return err },
		"milling wide":            func() error { _, err := cutting.MillingLoad(k, mm(10), mm(1), mm(11), mm(0.1), 2, n); return err },
		"motor of nothing":        func() error { _, err := cutting.CheckMotor(cutting.Load{Power: 1}, 0, 0.8); return err },
		"perpetual motion":        func() error { _, err := cutting.CheckMotor(cutting.Load{Power: 1}, 1, 1.2); return err },
		"no load":                 func() error { _, err := cutting.CheckMotor(cutting.Load{}, 1, 0.8); return err },
		"no greatest depth":       func() error { _, _, err := cutting.Passes(mm(1), mm(0)); return err },
		"negative depth of slab":  func() error { _, err := cutting.SlabApproach(mm(20), mm(-1)); return err },
		"spindle in the drilling": func() error { _, err := cutting.DrillingLoad(k, mm(5), mm(0.1), 118*units.Degree, nan); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func parse(t *testing.T, s string) units.Speed {
	t.Helper()
	v, err := units.ParseSpeed(s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func length(r *check.Row, column, unit string) units.Length {
	return units.MustLength(r.Text(column) + " " + r.Text(unit))
}

// metal returns a material by its name.
func metal(name string) material.Material {
	m, err := material.Lookup(name)
	if err != nil {
		panic(err)
	}
	return m
}
