package diagram

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// curves returns the pictures of the motion of a gear.
func curves(t testing.TB, g eccentric.Gear, o Options) []Picture {
	t.Helper()
	var all []Picture
	for _, draw := range []func(eccentric.Gear, Options) (Picture, error){Displacement, Oval, Polar, PortOpenings} {
		p, err := draw(g, o)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

// Whatever the engine, everything written on its curves can be read.
func TestCurvesLegible(t *testing.T) {
	engines(t, 40, func(t testing.TB, g eccentric.Gear, o Options) {
		for _, p := range curves(t, g, o) {
			check.Legible(t, read(t, p))
		}
	})
}

// Nothing that a curve has to say is lost: the number of every event and the name of
// every lap that is drawn stand on the picture, or below it where there was no room.
func TestCurvesLoseNothing(t *testing.T) {
	engines(t, 40, func(t testing.TB, g eccentric.Gear, o Options) {
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range curves(t, g, o) {
			drawn, said := read(t, p), p.Caption
			for _, text := range drawn.Texts {
				said += "\n" + text.Value
			}
			rings := strings.Count(p.Caption, "the number ")
			for _, c := range drawn.Circles {
				if c.Layer == sheet.Measure.Name && math.Abs(c.Radius-balloon) < 1e-3 {
					rings++
				}
			}
			happen := 0
			for _, of := range [...]eccentric.EndEvents{e.Head, e.Crank} {
				for _, m := range [...]eccentric.Event{of.Admission, of.CutOff, of.Release, of.Compression} {
					if m.Occurs {
						happen++
					}
				}
			}
			if rings != happen {
				t.Errorf("%s: %d numbers of %d events", p.Name, rings, happen)
			}
			for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
				laps := g.LapsAt(end)
				for name, lap := range map[string]units.Length{": steam lap ": laps.Steam, ": exhaust ": laps.Exhaust.Abs()} {
					arc := lap.Sub(g.Travel.Scale(0.05)).Sign() > 0 && lap.Sub(g.Travel.Scale(0.5)).Sign() < 0
					if i == 2 && arc && !strings.Contains(said, end.String()+name) {
						t.Errorf("%s: no %q in\n%s", p.Name, end.String()+name, said)
					}
				}
			}
		}
	})
}

// The marks of the events stand on the drawn curve, and where a scale that is read off the
// ticks puts the angle, the piston and the lap of the gear.
func TestCurvesMeasured(t *testing.T) {
	engines(t, 40, func(t testing.TB, g eccentric.Gear, o Options) {
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		for i, draw := range []func(eccentric.Gear, Options) (Picture, error){Displacement, Oval} {
			drawn, err := draw(g, o)
			if err != nil {
				t.Fatal(err)
			}
			p := read(t, drawn)
			x, y := scaleOf(t, p, false), scaleOf(t, p, true)
			unit := units.Millimetres
			if o.Inch {
				unit = units.Inches
			}
			var dots []check.Spot
			for _, c := range p.Circles {
				if c.Layer == sheet.Edge.Name {
					dots = append(dots, c.Centre)
				}
			}
			want := 0
			for _, at := range []struct {
				event  eccentric.Event
				end    eccentric.End
				beyond float64 // of the head end's dead centre
				lap    units.Length
				sign   float64
			}{
				{e.Head.Admission, eccentric.HeadEnd, 0, g.LapsAt(eccentric.HeadEnd).Steam, 1},
				{e.Head.CutOff, eccentric.HeadEnd, 0, g.LapsAt(eccentric.HeadEnd).Steam, 1},
				{e.Head.Release, eccentric.HeadEnd, 0, g.LapsAt(eccentric.HeadEnd).Exhaust, -1},
				{e.Head.Compression, eccentric.HeadEnd, 0, g.LapsAt(eccentric.HeadEnd).Exhaust, -1},
				{e.Crank.Admission, eccentric.CrankEnd, 180, g.LapsAt(eccentric.CrankEnd).Steam, -1},
				{e.Crank.CutOff, eccentric.CrankEnd, 180, g.LapsAt(eccentric.CrankEnd).Steam, -1},
				{e.Crank.Release, eccentric.CrankEnd, 180, g.LapsAt(eccentric.CrankEnd).Exhaust, 1},
				{e.Crank.Compression, eccentric.CrankEnd, 180, g.LapsAt(eccentric.CrankEnd).Exhaust, 1},
			} {
				if !at.event.Occurs {
					continue
				}
				want++
				across := math.Mod(at.event.Crank.In(units.Degree)+at.beyond+720, 360)
				if i == 1 {
					across = at.event.Stroke * g.Stroke.In(unit)
					if at.end == eccentric.CrankEnd {
						across = g.Stroke.In(unit) - across
					}
				}
				sign := at.sign
				if g.InsideAdmission {
					sign = -sign
				}
				spot := check.Spot{X: x(across), Y: y(sign * at.lap.In(unit))}
				if off := nearestOf(spot, dots); off > 0.01 {
					t.Errorf("%s: an event is %.3f mm from its place", drawn.Name, off)
				}
				if off := fromLine(spot, p.On(sheet.Curve.Name)); off > 0.01 {
					t.Errorf("%s: the curve runs %.3f mm from an event", drawn.Name, off)
				}
			}
			if len(dots) != want {
				t.Errorf("%s: %d marks for %d events", drawn.Name, len(dots), want)
			}
		}
	})
}

// scaleOf returns how a scale of the picture is read, from its figures and their ticks.
func scaleOf(t testing.TB, p *check.Picture, up bool) func(float64) float64 {
	t.Helper()
	return scaleIn(t, p, up, 0, p.Height)
}

// scaleIn is scaleOf for a chart between two heights; figures below a zero that count up
// again are below zero.
func scaleIn(t testing.TB, p *check.Picture, up bool, bottom, top float64) func(float64) float64 {
	t.Helper()
	type reading struct{ value, at float64 }
	var read []reading
	for _, s := range p.On(sheet.Measure.Name) {
		a, b := s.Spots[0], s.Spots[len(s.Spots)-1]
		if len(s.Spots) != 2 || math.Abs(math.Hypot(b.X-a.X, b.Y-a.Y)-tick) > 1e-3 || (a.Y == b.Y) != up || a.Y < bottom || a.Y > top {
			continue
		}
		for _, w := range p.Texts {
			v, ok := number(w.Value)
			middle := check.Spot{X: (w.Box[0].X + w.Box[2].X) / 2, Y: w.Box[0].Y + letters/2}
			switch {
			case !ok:
			case up && math.Abs(w.Box[1].X-min(a.X, b.X)) < 1.5 && math.Abs(middle.Y-a.Y) < 0.3:
				read = append(read, reading{v, a.Y})
			case !up && math.Abs(middle.X-a.X) < 0.3 && min(a.Y, b.Y) > w.Box[2].Y && min(a.Y, b.Y)-w.Box[2].Y < 1.5:
				read = append(read, reading{v, a.X})
			}
		}
	}
	if len(read) < 2 {
		t.Fatalf("only %d figures on a scale", len(read))
	}
	zero := math.Inf(-1)
	for _, r := range read {
		if r.value == 0 {
			zero = r.at
		}
	}
	for i := range read {
		if r := &read[i]; up && r.at < zero {
			r.value = -math.Abs(r.value)
		}
	}
	low, high := read[0], read[0]
	for _, r := range read {
		if r.value < low.value {
			low = r
		}
		if r.value > high.value {
			high = r
		}
	}
	at := func(v float64) float64 { return low.at + (v-low.value)/(high.value-low.value)*(high.at-low.at) }
	for _, r := range read {
		if math.Abs(at(r.value)-r.at) > 0.002 {
			t.Errorf("the figure %v of a scale is %.3f mm out of its place", r.value, at(r.value)-r.at)
		}
	}
	return at
}

func number(s string) (float64, bool) {
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

func nearestOf(at check.Spot, spots []check.Spot) float64 {
	best := math.Inf(1)
	for _, s := range spots {
		best = min(best, math.Hypot(s.X-at.X, s.Y-at.Y))
	}
	return best
}

func fromLine(at check.Spot, strokes []check.Stroke) float64 {
	best := math.Inf(1)
	for _, s := range strokes {
		for i := range s.Spots {
			if i == 0 {
				continue
			}
			a, b := s.Spots[i-1], s.Spots[i]
			best = min(best, deviation(sheet.Point(at), sheet.Point(a), sheet.Point(b)))
		}
	}
	return best
}
