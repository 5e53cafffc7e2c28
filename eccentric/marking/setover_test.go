package marking_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Work so far off centre pulls with its own weight at the steady speed and with ten
// times that at the limit, m e w^2 / (m g); what is told changes there.
func TestSpeedsOfWorkSetOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offset := units.MM(rapid.Float64Range(0.1, 50).Draw(t, "offset"))
		steady, err1 := marking.SteadySpeed(offset)
		limit, err2 := marking.SpeedLimit(offset)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		weights := func(n units.RotationalSpeed) float64 { return offset.Metres() * float64(n) * float64(n) / 9.80665 }
		near(t, "weights at the steady speed", weights(steady.Speed), 1, 1e-9)
		near(t, "weights at the limit", weights(limit.Speed), 10, 1e-9)
		for _, test := range []struct {
			speed units.RotationalSpeed
			want  finding.Severity
			some  bool
		}{
			{steady.Speed * (1 - 1e-9), 0, false}, {steady.Speed * (1 + 1e-9), finding.Caution, true},
			{limit.Speed * (1 - 1e-9), finding.Caution, true}, {limit.Speed * (1 + 1e-9), finding.Danger, true},
		} {
			found, err := marking.TooFast(offset, test.speed)
			if worst, some := found.Worst(); err != nil || some != test.some || worst != test.want {
				t.Fatalf("%v at %v: %v, %v", offset, test.speed, found, err)
			}
		}
	})
}

// A blank that the dial found to have another offset is corrected by the slope: to the
// packing for the wanted one, all of the way with flat jaws, and with others nearer than it was.
func TestCorrectedPacking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		blank := rapid.Float64Range(8, 60).Draw(t, "blank")
		offset := blank * rapid.Float64Range(0.02, 0.3).Draw(t, "offset")
		wanted := marking.ThreeJaw{Blank: units.MM(blank), Offset: units.MM(offset)}
		flat := rapid.Bool().Draw(t, "flat")
		if flat {
			wanted.Jaw = wanted.Blank
		}
		has := wanted
		has.Offset = wanted.Offset.Scale(rapid.Float64Range(0.9, 1.1).Draw(t, "has"))
		used, err1 := has.Packing()
		needed, err2 := wanted.Packing()
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		c, err := wanted.Correct(used.Thickness, has.Offset.Scale(2))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "offset", c.Offset.MM(), has.Offset.MM(), 1e-8)
		near(t, "missing", c.Missing.MM(), wanted.Offset.MM()-has.Offset.MM(), 1e-8)
		near(t, "change", c.Packing.Sub(c.Change).MM(), used.Thickness.MM(), 1e-8)
		off, was := c.Packing.Sub(needed.Thickness).Abs().MM(), used.Thickness.Sub(needed.Thickness).Abs().MM()
		if flat && off > 1e-8 || off > 0.2*was+1e-8 {
			t.Fatalf("%v of %v is off by %g mm, and was by %g", wanted, c, off, was)
		}
	})
}

// The heights over the bar as it lies are those above the root, all moved alike.
func TestHeightsOverTheBar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bar := rapid.Float64Range(3, 50).Draw(t, "bar")
		v := marking.Vee{
			Bar: units.MM(bar), Included: units.Angle(rapid.Float64Range(30, 150).Draw(t, "included")) * units.Degree,
			Offset: units.MM(bar * rapid.Float64Range(0.01, 0.45).Draw(t, "offset")),
		}
		root, err := v.Heights()
		if err != nil {
			t.Fatal(err)
		}
		top := units.MM(rapid.Float64Range(0, 300).Draw(t, "top"))
		gauge, err := root.Over(top)
		if err != nil {
			t.Fatal(err)
		}
		// The axis lies half the bar below its top, and a circle of the bar touches both sides of the vee.
		near(t, "axis below the top", gauge.Top.Sub(gauge.Centre).MM(), bar/2, 1e-8)
		near(t, "line above the axis", gauge.Offset.Sub(gauge.Centre).MM(), v.Offset.MM(), 1e-8)
		near(t, "axis from a side", root.Centre.MM()*math.Sin(float64(v.Included)/2), bar/2, 1e-8)
		if gauge.Top != top {
			t.Fatalf("a top at %v, not %v", gauge.Top, top)
		}
	})
}

// A groove has the strap's width and its play, and lips of an eighth, from 0.8 mm on.
func TestGrooveForStrap(t *testing.T) {
	for strap, lip := range map[float64]float64{1: 0.8, 6.4: 0.8, 6.5: 0.8125, 16: 2} {
		g, err := marking.GrooveFor(units.MM(strap))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "least", g.Min.MM(), strap+0.05, 1e-9)
		near(t, "most", g.Max.MM(), strap+0.1, 1e-9)
		near(t, "lip", g.Lip.MM(), lip, 1e-9)
	}
}
