package joint

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// The ends of what is accepted are accepted, and the next figure is not.
func TestStudsAtTheLimits(t *testing.T) {
	d := units.MM(3)
	circle := circleArea(d)
	good := Studs{Number: 6, Diameter: d, StressArea: circle, Proof: 225 * units.Megapascal, Preload: 1}
	for name, test := range map[string]struct {
		change func(*Studs)
		want   bool
	}{
		"whole circle":        {func(*Studs) {}, true},
		"over the circle":     {func(s *Studs) { s.StressArea = circle * (1 + 1e-9) }, false},
		"least of the circle": {func(s *Studs) { s.StressArea = 0.4 * circle }, true},
		"below it":            {func(s *Studs) { s.StressArea = 0.4 * circle * (1 - 1e-9) }, false},
		"one stud":            {func(s *Studs) { s.Number = 1 }, true},
		"a thousand":          {func(s *Studs) { s.Number = 1000 }, true},
		"one more":            {func(s *Studs) { s.Number = 1001 }, false},
		"over the proof":      {func(s *Studs) { s.Preload = 1.0000001 }, false},
		"no diameter":         {func(s *Studs) { s.Diameter, s.StressArea = units.Length{}, 1 }, true},
	} {
		s := good
		test.change(&s)
		if _, err := s.Load(10); (err == nil) != test.want {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A thread that is loaded to what strips it strips.
func TestGripAtTheLimits(t *testing.T) {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	tapped := Tapped{Thread: thread.MustParse("M3"), Material: iron}
	l := StudLoad{Number: 6, Proof: units.Force(580 * 5.031)}
	g, err := l.Grip(tapped)
	if err != nil || g.Findings != nil {
		t.Fatal(g, err)
	}
	strips := g.Strips
	for _, test := range []struct {
		name                   string
		preload, working, most units.Force
		want                   finding.Severity // Note: nothing is said
	}{
		{"pressure", 0, strips, 0, finding.Danger},
		{"pressure and preload", strips / 2, strips / 2, 0, finding.Fails},
		{"torque", strips / 4, strips / 2, strips / 2, finding.Caution},
		{"a little less", strips / 4, strips / 2, strips * 0.499999, finding.Note},
	} {
		l.Preload, l.Working, tapped.Most = test.preload, test.working, test.most
		g, err := l.Grip(tapped)
		worst, any := g.Findings.Worst()
		if err != nil || any != (test.want != finding.Note) || worst != test.want {
			t.Errorf("%s: %v, %v, want %v", test.name, g.Findings, err, test.want)
		}
	}
}

// Studs on a circle are found to be on it, wherever it lies and whichever are left out.
func TestAroundCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cx, cy := rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")
		radius := rapid.Float64Range(5, 100).Draw(t, "radius")
		at := rapid.Float64Range(0, 6).Draw(t, "first")
		var p gasket.Pattern
		for i := range rapid.IntRange(3, 8).Draw(t, "n") {
			sin, cos := math.Sincos(at)
			p = append(p, gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(cx + radius*cos), Y: units.MM(cy + radius*sin)}})
			at += rapid.Float64Range(0.3, 0.75).Draw(t, "step")
		}
		places, how := around(p)
		if how != onCircle {
			t.Fatalf("not on a circle: %v", p)
		}
		for i, q := range places {
			if math.Abs(q.r-radius) > 1e-6*radius || math.Abs(q.x-(p[i].At.X.MM()-cx)) > 1e-5*radius || math.Abs(q.y-(p[i].At.Y.MM()-cy)) > 1e-5*radius {
				t.Fatalf("stud %d at %+v of a circle of %g about %g, %g", i+1, q, radius, cx, cy)
			}
		}
	})
}
