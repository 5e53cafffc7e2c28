package joint

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
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
			p = append(p, gasket.Hole{Name: fmt.Sprint(i + 1),
				At: gasket.Point{X: units.MM(cx + radius*cos), Y: units.MM(cy + radius*sin)}})
			at += rapid.Float64Range(0.3, 0.75).Draw(t, "step")
		}
		places, how := around(p)
		if how != onCircle {
			t.Fatalf("not on a circle: %v", p)
		}
		for i, q := range places {
			if math.Abs(q.r-radius) > 1e-6*radius || math.Abs(q.x-(p[i].At.X.MM()-cx)) > 1e-5*radius ||
				math.Abs(q.y-(p[i].At.Y.MM()-cy)) > 1e-5*radius {
				t.Fatalf("stud %d at %+v of a circle of %g about %g, %g", i+1, q, radius, cx, cy)
			}
		}
	})
}

// What decides a finding or a remedy does so at its very figure.
func TestFindingsAtTheLimits(t *testing.T) {
	load := func(preload float64, number int, total units.Force) StudLoad {
		t.Helper()
		l, err := Studs{Number: number, StressArea: 1, Proof: 100, Preload: preload}.Load(total)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	has := func(l finding.List, code finding.Code) bool {
		return slices.ContainsFunc(l, func(f finding.Finding) bool { return f.Code == code })
	}
	advises := func(l finding.List, text string) bool {
		return len(l) > 0 && strings.Contains(strings.Join(l[0].Remedies, " "), text)
	}
	// One stud of 1 m2 and 100 Pa bears 100 N, and half of that leaves 40 N.
	for _, test := range []struct {
		name string
		got  bool
		want bool
	}{
		{"stressed to the proof strength", has(load(1, 1, 100).Findings, StudOverloaded), false},
		{"and above", has(load(1, 1, 100.001).Findings, StudOverloaded), true},
		{"all of what is left", has(load(0.5, 1, 40).Findings, CoverLifts), true},
		{"not all", has(load(0.5, 1, 39.999).Findings, CoverLifts), false},
		{"twice", has(load(0.5, 1, 25).Findings, LittlePreload), false},
		{"not twice", has(load(0.5, 1, 25.001).Findings, LittlePreload), true},
		{"a load of half a newton", func() bool { _, loaded := load(0.5, 1, 0.5).Margin(); return loaded }(), true},
		// 25,000 N are twice 1000 studs of 50 N.
		{"a thousand studs", advises(load(0.5, 100, 25000).Findings, "Take 1000 such studs"), true},
		{"and one", advises(load(0.5, 100, 25001).Findings, "such studs"), false},
		// 37.5 N twice are three quarters of 100 N.
		{"three quarters of the proof load", advises(load(0.5, 1, 37.5).Findings, "to 75 N, 75 percent"), true},
		{"more", advises(load(0.5, 1, 37.6).Findings, "Or tighten"), false},
	} {
		if test.got != test.want {
			t.Errorf("%s: %v, want %v", test.name, test.got, test.want)
		}
	}
	if l := load(0.5, 1, 25); l.harder(50) != nil || l.harder(50.001) == nil || l.harder(75) == nil ||
		l.harder(75.001) != nil {
		t.Error(l.harder(50), l.harder(50.001), l.harder(75), l.harder(75.001))
	}
}

// A gasket that is pressed by just what seats it is seated, and one that is left just
// what keeps it tight is tight.
func TestPressAtTheLimits(t *testing.T) {
	l := StudLoad{Number: 1, Preload: 600, Total: 100}
	press := func(l StudLoad, s Seating) Pressing {
		t.Helper()
		p, err := l.Press(1, s)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	text := func(p Pressing) string { return strings.Join(p.Findings[0].Remedies, " ") }
	if p := press(l, Seating{Min: 1200, Max: 1200, Hold: 500}); !p.Seated || p.Findings != nil || p.Needed != 600 {
		t.Errorf("%v", p)
	}
	for name, s := range map[string]Seating{"softest": {Min: 1200.001, Max: 1300}, "hold": {Min: 1200, Max: 1200, Hold: 500.001}} {
		if p := press(l, s); p.Seated || len(p.Findings) != 1 || p.Findings[0].Severity != finding.Fails {
			t.Errorf("%s: %v", name, p)
		}
	}
	if p := press(l, Seating{Min: 1, Max: 1200.001}); !p.Seated || len(p.Findings) != 1 ||
		p.Findings[0].Severity != finding.Note {
		t.Errorf("hardest: %v", p)
	}
	// 600 kN need a thousand such studs, and a little more no number of them.
	if p := press(l, Seating{Min: 1200e3}); !strings.Contains(text(p), "Take 1000 such studs, or stronger ones") {
		t.Error(text(p))
	}
	if p := press(l, Seating{Min: 1200.1e3}); strings.Contains(text(p), "such studs") {
		t.Error(text(p))
	}
	// Half a newton of preload is some, and half a pascal is left of it.
	little := StudLoad{Number: 1, Preload: 0.5}
	if p := press(little, Seating{Min: 10}); !strings.Contains(text(p), "Make it narrower") {
		t.Error(text(p))
	}
	if p := press(StudLoad{Number: 1}, Seating{Min: 10}); strings.Contains(text(p), "Make it narrower") {
		t.Error(text(p))
	}
	if p := press(little, Seating{Hold: 10}); len(p.Findings) != 1 {
		t.Errorf("%v", p)
	}
}

// The ends of what is accepted, and the next figure.
func TestAcceptedAtTheLimits(t *testing.T) {
	beyond := units.Picometres(1)
	gasketOf := func(outside units.Length, m float64) error {
		return check.Only(Gasket{Outside: outside, Inside: units.MM(10), M: m}.Loads(0))
	}
	many := func(n int) error {
		return check.Only(Order(ring(n,
			func(i int) (float64, float64) { return 100, 2 * math.Pi * float64(i) / float64(n) })))
	}
	needed := func(total units.Force) error { return check.Only(StudsNeeded(total, 1, 1)) }
	for name, test := range map[string][2]error{
		"factor m":      {gasketOf(units.MM(20), 100), gasketOf(units.MM(20), 100.00001)},
		"outside":       {gasketOf(units.MM(10).Add(beyond), 1), gasketOf(units.MM(10), 1)},
		"studs":         {many(500), many(501)},
		"pressure":      {check.Only(EndForce(1e15, 1)), check.Only(EndForce(units.Pressure(math.Nextafter(1e15, 2e15)), 1))},
		"diameter":      {check.Only(SpacingRules(units.MM(1000))), check.Only(SpacingRules(units.MM(1000).Add(beyond)))},
		"studs needed":  {needed(1000), needed(1000.001)},
		"tapped length": {check.Only(SpacingRules(beyond)), check.Only(SpacingRules(units.Length{}))},
		"one stud":      {check.Only(StudLoad{Number: 1}.Press(1, Seating{})), check.Only(StudLoad{}.Press(1, Seating{}))},
	} {
		if test[0] != nil || test[1] == nil {
			t.Errorf("%s: %v, %v", name, test[0], test[1])
		}
	}
	// Three studs bear what three bear, and a part in a million million more.
	for total, want := range map[units.Force]int{3: 3, 3 * (1 + 2e-13): 3, 3 * (1 + 1e-12): 4, 3.1: 4} {
		if n, err := StudsNeeded(total, 1, 1); n != want || err != nil {
			t.Errorf("%v: %d, %v", total, n, err)
		}
	}
	// b0 = 1/4 in is the last that counts in full, and 6 mm in the metric rule.
	for rule, most := range map[WidthRule]units.Length{InchRule: units.Inch(0.25), MetricRule: units.MM(6)} {
		g := Gasket{Outside: units.MM(100).Add(most.Scale(4)), Inside: units.MM(100), Rule: rule}
		full, err := g.Loads(0)
		g.Outside = g.Outside.Add(units.Picometres(400))
		more, errMore := g.Loads(0)
		if err != nil || errMore != nil || full.EffectiveWidth != most || more.EffectiveWidth == more.BasicWidth {
			t.Errorf("%v: %v, %v; %v, %v", rule, full, err, more, errMore)
		}
	}
}
