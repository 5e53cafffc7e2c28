package symptom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Test tells two faults apart.
type Test struct {
	Effort Effort      `json:"effort"`
	Text   string      `json:"text"` // what to do and what it gives with each
	Ear    bool        `json:"ear"`  // the builder's ear decides
	Refs   source.Refs `json:"sources,omitzero"`
}

// A seen is a test with how plainly it parts two faults, 1 at the least.
type seen struct {
	Test
	apart float64
}

// order is that of the efforts, where what an ear decides comes after what a hand does.
func (t *seen) order() float64 {
	if t.Ear && t.Effort < ByHand {
		return float64(ByHand) + 0.5
	}
	return float64(t.Effort)
}

// tellApart returns the cheapest test that parts two faults; of those that take as
// much the plainest. None where there is none: the zero Test.
func (x *explainer) tellApart(a, b *candidate) Test {
	if a.fault == b.fault {
		return Test{}
	}
	all := slices.Concat(x.watching(a, b), x.measuring(a, b), trying(a, b))
	if len(all) == 0 {
		return Test{}
	}
	return slices.MinFunc(all, func(p, q seen) int {
		return cmp.Or(cmp.Compare(p.order(), q.order()), cmp.Compare(q.apart, p.apart))
	}).Test
}

// watching are symptoms that were not told, which one shows and the other does not.
func (x *explainer) watching(a, b *candidate) (all []seen) {
	const plain = 0.5
	for _, s := range Symptoms() {
		apart := math.Abs(a.shown[s] - b.shown[s])
		if slices.Contains(x.c.Symptoms, s) || apart < plain || s == OneWayOnly || s == NeedsAPush ||
			slices.ContainsFunc(x.c.Symptoms, func(told Symptom) bool { return exclude(s, told) }) {
			continue
		}
		effort := x.watched(s)
		if effort == 0 || effort == AtRun && (a.dangerous() || b.dangerous()) {
			continue
		}
		yes, no := a, b
		if b.shown[s] > a.shown[s] {
			yes, no = b, a
		}
		text := fmt.Sprintf("%s: %q speaks for %s and against %s.", watching[effort], s.String(), yes.name(), no.name())
		if s == RanWell {
			text = fmt.Sprintf("Call to mind whether it ran well before: that speaks for %s and against %s.", yes.name(), no.name())
		}
		if s.Heard() {
			text += " The ear decides, so let another listen too."
		}
		all = append(all, seen{Test{Effort: effort, Text: text, Ear: s.Heard(), Refs: yes.refs}, apart / plain})
	}
	return all
}

// watching says how one looks for another symptom.
var watching = map[Effort]string{
	Watch:   "Call to mind what else it did",
	ByHand:  "Turn it by hand with no air on and the drain cocks open",
	WithAir: "With the wheel blocked and low-pressure air on, look and listen for more",
	AtRun:   "Run it slowly on low-pressure air, clear of the wheel, and watch for more",
}

// watched returns what it takes to see another symptom; zero where it cannot be seen on
// an engine that does what was told.
func (x *explainer) watched(s Symptom) Effort {
	stands := slices.ContainsFunc(x.c.Symptoms, Symptom.still)
	ran := slices.ContainsFunc(x.c.Symptoms, func(told Symptom) bool { return told.turning() || told == Knocks })
	switch {
	case s == RanWell:
		return Watch
	case s == StiffByHand:
		return ByHand
	case s == HissesStanding || s == HissesInPlaces || s == BlowsAtGland || s == TurnsWithShut:
		return WithAir
	case stands:
		return 0
	case ran:
		return Watch
	}
	return AtRun
}

// dangerous reports whether an engine with the fault must not be run to look for it.
func (c *candidate) dangerous() bool {
	return slices.Contains([]string{"water", "piston_strikes", "wheel_loose"}, c.fault)
}

// A reading is a figure of the gear that can be measured, in millimetres, degrees or
// what else it has words for.
type reading struct {
	effort Effort
	do     string
	least  float64 // difference that is plainly seen
	of     func(g *eccentric.Gear, e *eccentric.Events) (v float64, ok bool)
	say    func(v float64) string
}

// What is seen plainly: our own figures for a rule, a vernier and a protractor.
const (
	seenByEye    = 25.0 // degrees
	seenByAngle  = 4.0
	seenByLength = 0.15 // mm
)

func readings() []reading {
	lead := func(of func(*eccentric.Events) units.Length) func(*eccentric.Gear, *eccentric.Events) (float64, bool) {
		return func(_ *eccentric.Gear, e *eccentric.Events) (float64, bool) { return of(e).In(units.Millimetres), true }
	}
	event := func(of func(*eccentric.Events) eccentric.Event) func(*eccentric.Gear, *eccentric.Events) (float64, bool) {
		return func(_ *eccentric.Gear, e *eccentric.Events) (float64, bool) {
			at := of(e)
			return at.Crank.Degrees(), at.Occurs
		}
	}
	return []reading{
		{ByHand, "No air on, turn it by hand the way it is to run and look where the widest part of the sheave stands", seenByEye,
			func(g *eccentric.Gear, _ *eccentric.Events) (float64, bool) { return g.EccentricLead().Degrees(), true }, ahead},
		{ByHand, "No air on, turn it by hand and measure how far the valve rod goes in a turn", seenByLength,
			func(g *eccentric.Gear, _ *eccentric.Events) (float64, bool) {
				return g.Travel.Sub(g.Valve.LostMotion).In(units.Millimetres), true
			}, length},
		{WithAir, "Wheel blocked and low-pressure air on, read where the head end's port opens to exhaust", seenByAngle,
			event(func(e *eccentric.Events) eccentric.Event { return e.Head.Release }), degrees},
		{WithAir, "Wheel blocked and low-pressure air on, read where the crank end's port opens to exhaust", seenByAngle,
			event(func(e *eccentric.Events) eccentric.Event { return e.Crank.Release }), degrees},
		{Opened, "No air on and the chest cover off, measure the lead of the head end", seenByLength,
			lead(func(e *eccentric.Events) units.Length { return e.Head.Lead }), length},
		{Opened, "No air on and the chest cover off, measure the lead of the crank end", seenByLength,
			lead(func(e *eccentric.Events) units.Length { return e.Crank.Lead }), length},
		{Opened, "No air on and the chest cover off, measure how far the head end's port opens to steam at the most", seenByLength,
			lead(func(e *eccentric.Events) units.Length { return e.Head.Opening }), length},
		{Opened, "No air on and the chest cover off, measure how far the crank end's port opens to steam at the most", seenByLength,
			lead(func(e *eccentric.Events) units.Length { return e.Crank.Opening }), length},
	}
}

func ahead(v float64) string {
	if v < 0 {
		return fault.Decimal(-v, 0) + " degrees behind the crank"
	}
	return fault.Decimal(v, 0) + " degrees ahead of the crank"
}

func degrees(v float64) string {
	return fault.Signed(v, 1) + " degrees after its dead centre"
}

func length(v float64) string {
	return fault.Decimal(v, 2) + " mm (" + fault.Decimal(v/0.0254, 1) + " thou)"
}

// measuring are the readings that differ between two faults, with the figures to
// expect of this engine.
func (x *explainer) measuring(a, b *candidate) (all []seen) {
	if a.best.gear == b.best.gear {
		return nil
	}
	ea, errA := a.best.gear.Events()
	eb, errB := b.best.gear.Events()
	if errA != nil || errB != nil {
		return nil
	}
	for _, r := range readings() {
		va, okA := r.of(&a.best.gear, &ea)
		vb, okB := r.of(&b.best.gear, &eb)
		apart := math.Abs(va - vb)
		if r.effort == WithAir || r.least == seenByEye {
			apart = math.Abs(math.Remainder(va-vb, 360))
		}
		if !okA || !okB || apart < r.least {
			continue
		}
		all = append(all, seen{Test{Effort: r.effort, Text: fmt.Sprintf("%s: with %s it is such as %s, with %s such as %s.",
			r.do, a.name(), r.say(va), b.name(), r.say(vb))}, apart / r.least})
	}
	return all
}

// trying are the tests of the table that say yes with one of two faults.
func trying(a, b *candidate) (all []seen) {
	for _, t := range trialTable.Rows() {
		yes, no := slices.Contains(t.yes, a.fault), slices.Contains(t.yes, b.fault)
		if yes == no || t.effort == AtRun && (a.dangerous() || b.dangerous()) {
			continue
		}
		of, not := a, b
		if no {
			of, not = b, a
		}
		text := t.text + " If so, " + of.name() + "; if not, rather " + not.name() + "."
		all = append(all, seen{Test{Effort: t.effort, Text: text, Refs: t.refs}, 1})
	}
	return all
}
