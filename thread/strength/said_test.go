package strength_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// answer writes what was answered, or why it was not.
func (p *paper) answer(of string, v fmt.Stringer, err error) {
	if err != nil {
		p.line("%s: %v", of, err)
		return
	}
	p.line("%s: %v", of, v)
}

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s%s: %s [%v]", f.Severity, f.Code, f.Where, f.Text, f.Refs)
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

func (p *paper) keep(t *testing.T, name string) {
	t.Helper()
	check.Kept(t, "thread/strength/kept/"+name+".txt", check.Rounded(p.String()))
}

func metal(t *testing.T, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// of every form, coarse and fine, and of none
var someThreads = []string{"M3", "M8", "M8x0.75", "1/4-20 UNC", "#4-40", "1/4 BSW", "2 BA", "1/4x40 ME", "1/2x26 BSC", "G 1/8", "Tr 10x2",
	"1/2-10 Acme", "1/8 NPT"}

// The loads of bolts by class and by material, with the area and all sources, and what
// is refused. Kept for its texts; TestPropertyClasses and the like check the figures.
func TestBoltsKept(t *testing.T) {
	var p paper
	for _, name := range someThreads {
		p.line("%s: area %v", name, strength.StressAreaOf(thread.MustParse(name)))
	}
	p.line("none: area %v", strength.StressAreaOf(thread.Thread{}))
	for _, ask := range []struct{ thread, class string }{
		{"M3", "4.6"}, {"M8", "8.8"}, {"M16", "9.8"}, {"M16", "8.8"}, {"M18", "8.8"}, {"M20", "10.9"}, {"M39", "12.9"}, {"1/4 BSW", "5.8"},
		{"M18", "9.8"}, {"M42", "8.8"}, {"M1.6", "8.8"}, {"M1.4", "8.8"}, {"M8", "8"}, {"M8", ""},
	} {
		b, err := strength.BoltFor(thread.MustParse(ask.thread), ask.class)
		p.answer(ask.thread+" of class "+ask.class, b, err)
	}
	for _, name := range []string{"mild steel", "brass", "cast iron", "gunmetal", "copper", "PTFE", "aluminium"} {
		b, err := strength.BoltOf(thread.MustParse("2 BA"), metal(t, name))
		p.answer("2 BA of "+name, b, err)
	}
	b, err := strength.BoltOf(thread.MustParse("2 BA"), material.Material{})
	p.answer("2 BA of nothing", b, err)
	b, err = strength.BoltOf(thread.Thread{}, metal(t, "brass"))
	p.answer("no thread", b, err)
	b, err = strength.BoltFor(thread.Thread{}, "8.8")
	p.answer("no thread", b, err)
	p.keep(t, "bolts")
}

// What a joint needs, in usual, other and mixed classes, with a hole and without, and
// what is refused. TestStripping and the worked examples check the figures.
func TestJointsKept(t *testing.T) {
	var p paper
	steel, soft := 400*units.Megapascal, 150*units.Megapascal
	for _, name := range someThreads {
		e, err := strength.Joint{Thread: thread.MustParse(name), Stud: steel, Nut: soft}.Solve()
		p.answer(name, e, err)
	}
	m8 := thread.MustParse("M8")
	for _, ask := range []struct {
		what string
		strength.Joint
	}{
		{"turned about", strength.Joint{Thread: m8, Stud: soft, Nut: steel}},
		{"by name", strength.Joint{Thread: m8, StudOf: metal(t, "mild steel"), NutOf: metal(t, "cast iron")}},
		{"iron stud by name", strength.Joint{Thread: m8, StudOf: metal(t, "cast iron"), NutOf: metal(t, "brass")}},
		{"classes", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "6h", NutClass: "5H"}},
		{"hole", strength.Joint{Thread: m8, Stud: steel, Nut: soft, Hole: units.MM(7)}},
		{"least hole", strength.Joint{Thread: m8, Stud: steel, Nut: soft, Hole: units.MM(6.478)}},
		{"too small a hole", strength.Joint{Thread: m8, Stud: steel, Nut: soft, Hole: units.MM(6.477)}},
		{"largest hole", strength.Joint{Thread: m8, Stud: steel, Nut: soft, Hole: units.MM(7.759)}},
		{"too large a hole", strength.Joint{Thread: m8, Stud: steel, Nut: soft, Hole: units.MM(7.76)}},
		{"one class", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "6g"}},
		{"the other class", strength.Joint{Thread: m8, Stud: steel, Nut: soft, NutClass: "6H"}},
		{"nut in nut", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "6H", NutClass: "6H"}},
		{"screw in screw", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "6g", NutClass: "6g"}},
		{"unknown class", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "6g", NutClass: "close"}},
		{"unknown class of the stud", strength.Joint{Thread: m8, Stud: steel, Nut: soft, StudClass: "close", NutClass: "6H"}},
		{"no strength", strength.Joint{Thread: m8, Stud: steel}},
		{"no strength of the stud", strength.Joint{Thread: m8, Nut: steel}},
		{"nothing", strength.Joint{Thread: m8}},
		{"both", strength.Joint{Thread: m8, Stud: steel, NutOf: metal(t, "brass")}},
		{"both of the nut", strength.Joint{Thread: m8, StudOf: metal(t, "brass"), Nut: steel}},
		{"one by name", strength.Joint{Thread: m8, StudOf: metal(t, "brass")}},
		{"the other by name", strength.Joint{Thread: m8, NutOf: metal(t, "brass")}},
		{"far apart", strength.Joint{Thread: m8, Stud: 1e15, Nut: 1}},
		{"no thread", strength.Joint{Stud: steel, Nut: soft}},
		{"no limits", strength.Joint{Thread: thread.MustParse("20 BA"), Stud: steel, Nut: soft}},
		{"a fine pitch", strength.Joint{Thread: thread.MustParse("M1x0.25"), Stud: steel, Nut: soft}},
	} {
		e, err := ask.Solve()
		p.answer(ask.what, e, err)
	}
	p.keep(t, "joints")
}

// Nut factors with their ranges, scatters and sources; by friction; and each bound of
// what is usable, just inside and just outside.
func TestFactorsKept(t *testing.T) {
	var p paper
	for _, k := range strength.NutFactors() {
		p.line("%v; usable: %v", k, k.Validate())
	}
	p.line("dry %v\noiled %v", strength.DryThreads(), strength.OiledThreads())
	for _, k := range []strength.NutFactor{
		{}, {K: 0.05}, {K: 0.0499}, {K: 0.5}, {K: 0.5001}, {K: -0.2}, {K: 0.2, Scatter: 0.999}, {K: 0.2, Scatter: 1}, {K: 0.2, Scatter: -0.001},
		{K: 0.2, Min: 0.2, Max: 0.2}, {K: 0.2, Min: 0.2001, Max: 0.3}, {K: 0.2, Min: 0.1, Max: 0.1999}, {K: 0.2, Min: 0.1}, {K: 0.2, Max: 0.3},
		{K: 0.2, Min: -0.1, Max: 0.3}, {K: 0.2, Min: 0.1, Max: 0.999}, {K: 0.2, Min: 0.1, Max: 1},
	} {
		p.line("%v: usable: %v", k, k.Validate())
	}
	m8 := thread.MustParse("M8")
	for _, f := range []strength.Friction{
		{Thread: m8, InThread: 0.15, OnFace: 0.12, FaceDiameter: units.MM(10)}, {Thread: m8, FaceDiameter: units.MM(10)},
		{Thread: m8, InThread: 0.5, OnFace: 0.5, FaceDiameter: units.MM(8)}, {Thread: m8, InThread: 0.1, OnFace: 0.1, FaceDiameter: units.MM(32)},
		{Thread: m8, InThread: 0.1, OnFace: 0.1, FaceDiameter: units.MM(32.001)}, {Thread: m8, InThread: 0.1, OnFace: 0.1, FaceDiameter: units.MM(7.999)},
		{Thread: m8, InThread: 0.5001, OnFace: 0.1, FaceDiameter: units.MM(10)}, {Thread: m8, InThread: 0.1, OnFace: 0.5001, FaceDiameter: units.MM(10)},
		{Thread: m8, InThread: -0.001, OnFace: 0.1, FaceDiameter: units.MM(10)}, {Thread: m8, InThread: 0.1, OnFace: -0.001, FaceDiameter: units.MM(10)},
		{InThread: 0.1, OnFace: 0.1, FaceDiameter: units.MM(10)},
		{Thread: thread.MustParse("1/4 BSW"), InThread: 0.15, OnFace: 0.12, FaceDiameter: units.MM(8)},
	} {
		k, err := f.NutFactor()
		p.answer(fmt.Sprintf("%v, %g and %g on %v", f.Thread, f.InThread, f.OnFace, f.FaceDiameter), k, err)
	}
	dry := strength.DryThreads()
	ranged := strength.NutFactor{Condition: "ranged", K: 0.2, Min: 0.1, Max: 0.25, Scatter: 0.35}
	narrow := strength.NutFactor{Condition: "narrow", K: 0.2, Min: 0.19, Max: 0.21, Scatter: 0.35}
	for _, ask := range []strength.Tightening{
		{Diameter: units.MM(6), Factor: dry, Torque: 5 * units.NewtonMetre}, {Diameter: units.MM(6), Factor: dry, Pull: 4000 * units.Newton},
		{Diameter: units.MM(6), Factor: ranged, Pull: 4000 * units.Newton}, {Diameter: units.MM(6), Factor: narrow, Pull: 4000 * units.Newton},
		{Diameter: units.MM(6), Factor: dry}, {Diameter: units.MM(6), Factor: dry, Pull: 1, Torque: 1}, {Diameter: units.MM(6), Factor: dry, Pull: -1},
		{Diameter: units.MM(6), Factor: dry, Torque: -1}, {Factor: dry, Torque: 1}, {Diameter: units.MM(6), Torque: 1},
	} {
		r, err := ask.Solve()
		p.answer(fmt.Sprintf("%v, %s, %v, %v", ask.Diameter, ask.Factor.Condition, ask.Torque, ask.Pull), r, err)
		if err == nil {
			p.line("  %v", r.Refs)
		}
	}
	p.keep(t, "torque")
}

// The rules for studs, what falls short of them, how long to cut a stud and what full
// thread a hole has, with every finding as it is said.
func TestStudsKept(t *testing.T) {
	var p paper
	for _, m := range material.All() {
		p.line("%s: %v", m.Name, strength.RuleFor(m))
	}
	for _, name := range []string{"M6", "2 BA", "1/4x40 ME"} {
		for _, rule := range append(strength.EngagementRules(), 0, 3) {
			s, err := strength.StudLengthFor(thread.MustParse(name), rule)
			p.answer(name, s, err)
			for _, share := range []float64{1, 0.9999, 0.5, 0.4999} {
				p.findings(s.Check(s.Engaged.Scale(share)))
			}
		}
	}
	_, err := strength.StudLengthFor(thread.Thread{}, strength.BrassIronSteel)
	p.line("no thread: %v", err)

	m6, iron := thread.MustParse("M6"), metal(t, "cast iron")
	for _, s := range []strength.Stud{
		{Thread: m6, Cover: units.MM(5), Material: iron}, {Thread: m6, Cover: units.MM(5), Gasket: units.MM(0.4), Nut: units.MM(4), Engaged: units.MM(9)},
		{Thread: m6, Cover: units.MM(5), Material: iron, Hole: units.MM(7)}, {Thread: m6, Cover: units.MM(5), Material: iron, Hole: units.MM(7.5)},
		{Thread: m6, Cover: units.MM(5), Material: iron, Engaged: units.MM(3), Hole: units.MM(7)},
		{Thread: m6, Cover: units.MM(5), Material: iron, Engaged: units.MM(9), Hole: units.MM(8)},
		{Thread: m6, Cover: units.MM(5), Engaged: units.MM(8), Hole: units.MM(8)}, {Thread: m6, Cover: units.MM(5)}, {Cover: units.MM(5)}, {Thread: m6},
		{Thread: m6, Cover: units.MM(-1), Material: iron}, {Thread: m6, Cover: units.MM(1000), Material: iron},
		{Thread: m6, Cover: units.MM(1000.001), Material: iron}, {Thread: m6, Cover: units.MM(5), Gasket: units.MM(-0.1), Material: iron},
		{Thread: m6, Cover: units.MM(5), Gasket: units.MM(1000.1), Material: iron}, {Thread: m6, Cover: units.MM(5), Nut: units.MM(-0.1), Material: iron},
		{Thread: m6, Cover: units.MM(5), Engaged: units.MM(-0.1), Material: iron}, {Thread: m6, Cover: units.MM(5), Hole: units.MM(-0.1), Material: iron},
		{Thread: thread.MustParse("2 BA"), Cover: units.MM(5), Material: iron},
		{Thread: thread.MustParse("2 BA"), Cover: units.MM(5), Nut: units.MM(4), Material: iron},
	} {
		cut, err := s.Length()
		p.answer(fmt.Sprintf("%v through %v, %v, nut %v, engaged %v in %s %v", s.Thread, s.Cover, s.Gasket, s.Nut, s.Engaged, s.Material.Name, s.Hole), cut, err)
		p.findings(cut.Findings)
	}
	for _, h := range []strength.TappedHole{
		{Thread: m6, Material: iron, Through: units.MM(8)}, {Thread: m6, Material: iron, Through: units.MM(7.5)}, {Thread: m6, Material: iron, Through: units.MM(5)},
		{Thread: m6, Material: iron, Through: units.MM(3)}, {Thread: m6, Material: iron, Blind: units.MM(12)}, {Thread: m6, Material: iron, Blind: units.MM(10)},
		{Thread: m6, Material: iron, Blind: units.MM(10), Tap: thread.BottomingTap}, {Thread: m6, Material: iron, Blind: units.MM(2)},
		{Thread: m6, Material: metal(t, "aluminium"), Through: units.MM(8)}, {Thread: m6}, {Thread: m6, Through: units.MM(-1)},
		{Thread: m6, Through: units.MM(5), Blind: units.MM(5)}, {Thread: m6, Blind: units.MM(-5)}, {Through: units.MM(5)}, {Thread: m6, Blind: units.MM(9), Tap: 9},
		{Thread: thread.MustParse("G 1/8"), Material: iron, Through: units.MM(5)}, {Thread: thread.MustParse("1/4x40 ME"), Material: iron, Through: units.MM(3)},
		{Thread: thread.MustParse("1/4x40 ME"), Material: iron, Blind: units.MM(5)},
	} {
		full, err := h.FullThread()
		if err != nil {
			p.line("%v through %v, blind %v: %v", h.Thread, h.Through, h.Blind, err)
			continue
		}
		p.line("%v through %v, blind %v: %v, %d turns, %.4g diameters; %v; %v; %v", h.Thread, h.Through, h.Blind, full.Length, full.Turns,
			full.Diameters, full.Rule.Engaged, full.Blind.Depth, full.Refs)
		p.findings(full.Findings)
	}
	p.keep(t, "studs")
}

// The torque of taps by material and by grade, what a grade is read from, and what is
// tried with a broken tap in each metal.
func TestTappingKept(t *testing.T) {
	var p paper
	m6 := thread.MustParse("M6")
	for _, q := range []strength.Tapping{
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Material: metal(t, "cast iron")},
		{Thread: m6, Hole: units.MM(5), Tap: thread.BottomingTap, Material: metal(t, "cast iron")},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Material: metal(t, "brass")},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Material: metal(t, "mild steel")},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Grade: "gg-25"}, {Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Grade: "42 crmo 4, 30 hrc"},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Grade: "GG"}, {Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Grade: "cheese"},
		{Thread: m6, Hole: units.MM(5), Tap: thread.TaperTap, Grade: "GG-25"}, {Thread: m6, Hole: units.MM(5), Grade: "GG-25"},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap}, {Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Grade: "GG-25", Material: metal(t, "brass")},
		{Thread: m6, Hole: units.MM(5), Tap: thread.SecondTap, Material: metal(t, "PTFE")}, {Hole: units.MM(5), Tap: thread.SecondTap, Grade: "GG-25"},
		{Thread: m6, Hole: units.MM(4.782), Tap: thread.SecondTap, Grade: "GG-25"}, {Thread: m6, Hole: units.MM(4.781), Tap: thread.SecondTap, Grade: "GG-25"},
		{Thread: m6, Hole: units.MM(4.781625), Tap: thread.SecondTap, Grade: "GG-25"}, {Thread: m6, Hole: units.MM(4.781624), Tap: thread.SecondTap, Grade: "GG-25"},
		{Thread: m6, Hole: units.MM(5.999), Tap: thread.SecondTap, Grade: "GG-25"}, {Thread: m6, Hole: units.MM(6), Tap: thread.SecondTap, Grade: "GG-25"},
		{Thread: thread.MustParse("2 BA"), Hole: units.MM(4), Tap: thread.SecondTap, Grade: "GG-25"},
	} {
		torque, err := q.Torque()
		p.answer(fmt.Sprintf("%v in %s%s, hole %v, %v tap", q.Thread, q.Material.Name, q.Grade, q.Hole, q.Tap), torque, err)
	}
	for _, name := range []string{"aluminium", "brass", "gunmetal", "mild steel", "cast iron", "copper"} {
		p.line("broken in %s", name)
		for _, try := range strength.BrokenTap(metal(t, name)) {
			p.line("  %s: %s [%v]", try.Code, try.Text, try.Ref)
		}
	}
	p.keep(t, "tapping")
}
