package marking_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"pgregory.net/rapid"
)

// An invented joint of a valve spindle: an eye of 6 mm on a pin of 3 mm, its slot 3.2 mm
// deep from the pin, with square corners.
func ExampleClevis_Solve() {
	c := marking.Clevis{
		Pin: units.MM(3), Swing: 8 * units.Degree, Slot: units.MM(3.2),
		Eye:  marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3)},
		Fork: marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3), Corner: units.MM(3)},
	}
	size, err := c.Solve()
	fmt.Println("slot at least", size.Slot.Text(units.Millimetres, 2), "or corners of", size.Corner.Text(units.Millimetres, 2), err)
	fmt.Println(size.Findings[0].Text)
	// Output:
	// slot at least 3.59 mm or corners of 3.00 mm <nil>
	// Swung to 8 degrees the eye needs 3.39 mm (133 thou) and the bottom of the slot is 3.20 mm (126 thou) from the pin: the joint binds.
}

// outline returns points round the end of a part beyond its pin, in mm, by walking its
// sides and corners.
func outline(e marking.EyeEnd) (points [][2]float64) {
	w, b, r := e.Width.MM()/2, e.Beyond.MM(), e.Corner.MM()
	for _, side := range []float64{-1, 1} {
		points = append(points, [2]float64{0, side * w}, [2]float64{b - r, side * w}, [2]float64{b, side * (w - r)})
		for i := range 2001 {
			a := math.Pi / 2 * float64(i) / 2000
			points = append(points, [2]float64{b - r + r*math.Cos(a), side * (w - r + r*math.Sin(a))})
		}
	}
	return points
}

// The reach against the outline turned step by step, and a corner that just clears.
func TestReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := marking.EyeEnd{
			Width:  units.MM(rapid.Float64Range(2, 20).Draw(t, "width")),
			Beyond: units.MM(rapid.Float64Range(2, 20).Draw(t, "beyond")),
		}
		room := min(e.Width.MM()/2, e.Beyond.MM())
		e.Corner = units.MM(room * rapid.Float64Range(0, 1).Draw(t, "corner"))
		swing := rapid.Float64Range(0, 90).Draw(t, "swing")
		farthest := 0.0
		for i := range 46 {
			sin, cos := math.Sincos(swing * float64(i) / 45 * math.Pi / 180)
			for _, p := range outline(e) {
				farthest = max(farthest, p[0]*cos-p[1]*sin)
			}
		}
		reach, err := e.Reach(units.Angle(swing) * units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		// The steps miss the farthest place by up to half a step: 1 degree at 22 mm.
		if d := reach.MM() - farthest; d < -1e-6 || d > 22*(1-math.Cos(math.Pi/180)) {
			t.Fatalf("%v swung to %.2f: reach %v, by walking %.6f", e, swing, reach, farthest)
		}
	})
}

// What Solve asks for is enough, and a hair less is not.
func TestClevis(t *testing.T) {
	has := func(size marking.ClevisSize, code finding.Code, severity finding.Severity) bool {
		for _, f := range size.Findings {
			if f.Code == code && f.Severity == severity {
				return true
			}
		}
		return false
	}
	rapid.Check(t, func(t *rapid.T) {
		pin := rapid.Float64Range(1, 6).Draw(t, "pin")
		end := func(name string) marking.EyeEnd {
			return marking.EyeEnd{
				Width:  units.MM(pin * rapid.Float64Range(1.5, 3).Draw(t, name+" width")),
				Beyond: units.MM(pin * rapid.Float64Range(0.8, 2).Draw(t, name+" beyond")),
			}
		}
		c := marking.Clevis{
			Pin: units.MM(pin), Swing: units.Angle(rapid.Float64Range(0, 60).Draw(t, "swing")) * units.Degree,
			Eye: end("eye"), Fork: end("fork"),
		}
		size, err := c.Solve()
		if err != nil {
			t.Fatal(err)
		}
		c.Slot, c.Shoulder = size.Slot, size.Shoulder
		if full, err := c.Solve(); err != nil || has(full, marking.ClevisBinds, finding.Fails) || has(full, marking.ClevisBinds, finding.Note) {
			t.Fatalf("%v: %v, %v", c, full, err)
		}
		c.Slot = size.Slot.Sub(units.MM(0.211)) // into the eye
		short, err := c.Solve()
		if err != nil || !has(short, marking.ClevisBinds, finding.Fails) {
			t.Fatalf("%v: %v, %v", c, short, err)
		}
		if short.Corner.Cmp(c.Eye.Corner) > 0 { // rounded off so far it clears
			c.Eye.Corner = short.Corner
			if r, err := c.Eye.Reach(c.Swing); err != nil || r.MM() > c.Slot.MM()+1e-6 {
				t.Fatalf("%v: corners of %v reach %v into %v, %v", c, short.Corner, r, c.Slot, err)
			}
		}
	})
}

// A slot that leaves less than the usual room even with a full round, and one that no
// radius clears.
func TestClevisCorner(t *testing.T) {
	end := marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3)}
	c := marking.Clevis{Pin: units.MM(3), Swing: 8 * units.Degree, Eye: end, Fork: end}
	for _, tt := range []struct {
		slot, corner float64
		does         bool
	}{{5, 0, true}, {3.2, 3, true}, {3.1, 3, true}, {2.9, 0, false}} {
		c.Slot = units.MM(tt.slot)
		size, err := c.Solve()
		if err != nil || size.CornerDoes != tt.does {
			t.Errorf("%v: %v, %v", tt, size, err)
			continue
		}
		rounded := c
		rounded.Eye.Corner = size.Corner
		if reach, err := rounded.Eye.Reach(c.Swing); err != nil || tt.does && reach.Cmp(c.Slot) > 0 {
			t.Errorf("%v: corners of %v reach %v, %v", tt, size.Corner, reach, err)
		}
		if size.Corner != units.MM(tt.corner) {
			t.Errorf("%v: %v", tt, size.Corner)
		}
	}
}

// End float on both sides of what is usual, and a thin eye.
func TestClevisFindings(t *testing.T) {
	good := marking.Clevis{
		Pin: units.MM(3), Swing: 5 * units.Degree, Thickness: units.MM(3), Gap: units.MM(3.1),
		Eye: marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3), Corner: units.MM(3)}, Fork: marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3)},
	}
	for name, tt := range map[string]struct {
		change func(*marking.Clevis)
		want   []finding.Code
		worst  finding.Severity
	}{
		"good":      {func(*marking.Clevis) {}, nil, finding.Note},
		"tight":     {func(c *marking.Clevis) { c.Gap = units.MM(3) }, []finding.Code{marking.EndFloat}, finding.Fails},
		"close":     {func(c *marking.Clevis) { c.Gap = units.MM(3.03) }, []finding.Code{marking.EndFloat}, finding.Note},
		"loose":     {func(c *marking.Clevis) { c.Gap = units.MM(3.4) }, []finding.Code{marking.EndFloat}, finding.Note},
		"thin":      {func(c *marking.Clevis) { c.Pin = units.MM(4) }, []finding.Code{marking.ThinEye}, finding.Caution},
		"no room":   {func(c *marking.Clevis) { c.Slot = units.MM(3.1) }, []finding.Code{marking.ClevisBinds}, finding.Note},
		"too short": {func(c *marking.Clevis) { c.Slot = units.MM(2.5) }, []finding.Code{marking.ClevisBinds}, finding.Fails},
	} {
		c := good
		tt.change(&c)
		size, err := c.Solve()
		if err != nil || len(size.Findings) != len(tt.want) {
			t.Errorf("%s: %v, %v", name, size.Findings, err)
			continue
		}
		for i, code := range tt.want {
			if f := size.Findings[i]; f.Code != code || f.Severity != tt.worst || len(f.Remedies) == 0 {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
	for name, change := range map[string]func(*marking.Clevis){
		"no pin":       func(c *marking.Clevis) { c.Pin = units.Length{} },
		"fat pin":      func(c *marking.Clevis) { c.Pin = units.MM(6) },
		"no width":     func(c *marking.Clevis) { c.Eye.Width = units.Length{} },
		"round corner": func(c *marking.Clevis) { c.Fork.Corner = units.MM(3.1) },
		"swing":        func(c *marking.Clevis) { c.Swing = 91 * units.Degree },
		"no swing":     func(c *marking.Clevis) { c.Swing = units.Angle(math.NaN()) },
		"slot":         func(c *marking.Clevis) { c.Slot = units.MM(-1) },
	} {
		c := good
		change(&c)
		_, err := c.Solve()
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
	c := good
	c.Gap = units.Length{}
	_, err := c.Solve()
	check.Refuses(t, "gap alone", err, units.ErrMissing, "gap")
}

// The rod of the demonstration engine, 60 mm with an offset of 3.2 mm: the sheave walked
// round, the farthest that it stands out of line.
func TestRodSwing(t *testing.T) {
	g := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)), Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	swing, err := marking.RodSwing(g)
	most := 0.0
	for i := range 3600 {
		sin := math.Sin(float64(i) * math.Pi / 1800)
		most = max(most, math.Atan2(3.2*sin, math.Sqrt(60*60-3.2*3.2*sin*sin)))
	}
	if err != nil || math.Abs(swing.Radians()-most) > 1e-9 {
		t.Errorf("%v, %v; by walking %.9f", swing, err, most)
	}
	g.EccentricRod = eccentric.InfiniteRod()
	if swing, err := marking.RodSwing(g); swing != 0 || err != nil {
		t.Errorf("infinite: %v, %v", swing, err)
	}
	if _, err := marking.RodSwing(eccentric.Gear{}); err == nil {
		t.Error("no gear is taken")
	}
}
