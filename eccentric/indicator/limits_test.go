package indicator

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// Nothing is told as minus nothing, at the dead centres least of all.
func TestNoMinusNothing(t *testing.T) {
	for name, r := range scanned() {
		for _, at := range []units.Angle{0, math.Pi, -math.Pi, 2 * math.Pi} {
			for _, sign := range []float64{1, -1} {
				f := r.model().forces(float64(at), sign*0)
				g := r.model().forces(0, -3)
				p := got(r.At(at))
				for _, v := range []float64{
					float64(f.Pressure), float64(f.Inertia), float64(f.Pin), float64(f.Rod), float64(f.Guide), float64(f.Tangential),
					float64(f.Bearing), float64(f.Moment), float64(g.Guide), float64(g.Tangential), float64(g.Moment), float64(p.Moment),
				} {
					if v == 0 && math.Signbit(v) {
						t.Errorf("%s at %v: minus nothing in %v, %v or %v", name, at, f, g, p)
					}
				}
			}
		}
	}
}

// Each dead centre of each cylinder begins a part of the turn, and each event too; no part
// is empty and together they are the turn.
func TestPiecesOfATurn(t *testing.T) {
	r := demo()
	r.Cranks = []units.Angle{50 * units.Degree, -75 * units.Degree}
	m := r.model()
	pieces := m.pieces()
	begins := func(at float64) bool {
		for _, p := range pieces {
			if math.Abs(math.Remainder(p.from-at, 2*math.Pi)) < 1e-9 {
				return true
			}
		}
		return false
	}
	at := 0.0
	for _, p := range pieces {
		if p.from != at || !(p.to > p.from) {
			t.Errorf("from %v to %v, after %v", p.from, p.to, at)
		}
		at = p.to
	}
	if at != 2*math.Pi {
		t.Errorf("the turn ends at %v", at)
	}
	for _, ahead := range []float64{0, 50, -75} {
		for _, centre := range []float64{0, 180} {
			if !begins((centre - ahead) * math.Pi / 180) {
				t.Errorf("no part begins with the crank %v degrees ahead at %v", ahead, centre)
			}
		}
		for i, end := range []kernel.End{kernel.Head, kernel.Crank} {
			e := m.ends[end].events
			for _, event := range []kernel.Event{e.Admission, e.CutOff, e.Release, e.Compression} {
				if !begins(event.Crank + float64(i)*math.Pi - ahead*math.Pi/180) {
					t.Errorf("no part begins at %v of the cylinder %v ahead", event.Crank, ahead)
				}
			}
		}
	}
}

// An arc through the dead centre is one arc, past 360 degrees; a whole turn is one too.
func TestArcsThroughTheDeadCentre(t *testing.T) {
	r := demo()
	pieces := r.model().pieces()
	for name, test := range map[string]struct {
		so   func(float64) bool
		want []Arc
	}{
		"about the head-end dead centre":  {func(t float64) bool { return math.Cos(t) > 0 }, []Arc{{1.5 * math.Pi, 2.5 * math.Pi}}},
		"about the crank-end dead centre": {func(t float64) bool { return math.Cos(t) < 0 }, []Arc{{0.5 * math.Pi, 1.5 * math.Pi}}},
		"at both":                         {func(t float64) bool { return math.Cos(2*t) > 0 }, []Arc{{0.75 * math.Pi, 1.25 * math.Pi}, {1.75 * math.Pi, 2.25 * math.Pi}}},
		"everywhere":                      {func(float64) bool { return true }, []Arc{{0, 2 * math.Pi}}},
		"nowhere":                         {func(float64) bool { return false }, nil},
	} {
		arcs := arcsWhere(pieces, func(_ *piece, t float64) bool { return test.so(t) })
		if len(arcs) != len(test.want) {
			t.Errorf("%s: %v", name, arcs)
			continue
		}
		for i, a := range arcs {
			near(t, name+" from", float64(a.From), float64(test.want[i].From), 1e-9)
			near(t, name+" to", float64(a.To), float64(test.want[i].To), 1e-9)
		}
		left := rest(arcs)
		sum := 0.0
		for _, a := range append(append([]Arc(nil), arcs...), left...) {
			sum += float64(a.Angle())
		}
		near(t, name+" and the rest", sum, 2*math.Pi, 1e-9)
	}
}

// An event goes to the one before it in the same turn, whichever turn that is told in,
// and stays where either does not occur.
func TestEarlier(t *testing.T) {
	for _, test := range []struct {
		e, to, want float64
		occurs      [2]bool
	}{
		{130, 95, 95, [2]bool{true, true}}, {10, 350, -10, [2]bool{true, true}}, {350, -20, 340, [2]bool{true, true}},
		{130, 95 + 720, 95, [2]bool{true, true}}, {130, 95, 130, [2]bool{true, false}}, {130, 95, 130, [2]bool{false, true}},
	} {
		e := kernel.Event{Occurs: test.occurs[0], Crank: test.e * degree, Stroke: 0.8}
		earlier(&e, &kernel.Event{Occurs: test.occurs[1], Crank: test.to * degree, Stroke: 0.5})
		near(t, "crank", e.Crank/degree, test.want, 1e-9)
		near(t, "stroke", e.Stroke, map[bool]float64{true: 0.5, false: 0.8}[test.occurs == [2]bool{true, true}], 0)
	}
}

// A pipe of a whole millimetre is taken as that, one of a little more as the next.
func TestWholeMillimetres(t *testing.T) {
	for _, test := range []struct{ bore, take float64 }{{5, 5}, {5.0001, 6}, {4.9999, 5}, {1, 1}} {
		flow := math.Pi / 4 * test.bore * test.bore * 1e-6 * 20
		for _, p := range []Pipe{got(pipe(flow, 0, 20)), got(pipe(flow/2, flow, 20))} {
			near(t, "take", p.Take.MM(), test.take, 0)
			near(t, "peak bore", p.PeakBore.MM(), test.bore, 1e-9)
			near(t, "peak", float64(p.Peak), flow, 1e-18)
		}
	}
	if _, err := pipe(math.Pi/4*1e6*1.0001, 0, 1); err == nil {
		t.Error("a pipe over a kilometre wide")
	}
	if _, err := pipe(math.Pi/4*1e6*0.9999, 0, 1); err != nil {
		t.Error(err)
	}
}

// However little an engine gives, some is left at the shaft; of nothing there is none.
func TestLittlePower(t *testing.T) {
	r := demo()
	r.Speed = units.RevPerMinute
	p := got(r.Power())
	near(t, "least at the shaft", float64(p.Min/p.Indicated), 0.75*0.8, 1e-12)
	near(t, "most at the shaft", float64(p.Max/p.Indicated), 0.9*0.9, 1e-12)
	if !(p.Indicated > 0 && p.Indicated < 1) {
		t.Errorf("%v", p.Indicated)
	}
	for work, want := range map[float64]string{0: "gives 0.000 J a turn", -0.0004: "takes 0.000 J a turn out of the flywheel", 2: "gives 2.000 J a turn"} {
		if got := worked(work); got != want {
			t.Errorf("%v: %q, want %q", work, got, want)
		}
	}
}

// An angle is told from 0 up to 360 degrees, and a hair before a whole turn as 0.
func TestTurnedIsInATurn(t *testing.T) {
	const turn = 2 * math.Pi
	for at, want := range map[float64]float64{0: 0, 1: 1, -1: turn - 1, turn: 0, -turn: 0, 3 * turn: 0, -1e-20: 0, 7: 7 - turn} {
		got := turned(at)
		near(t, "turned", got, want, 1e-12)
		if got < 0 || got >= turn || got == 0 && math.Signbit(got) {
			t.Errorf("%v is told as %v", at, got)
		}
	}
	if got := turned(math.Copysign(0, -1)); math.Signbit(got) {
		t.Errorf("minus nothing is told as %v", got)
	}
}
