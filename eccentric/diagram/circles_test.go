package diagram

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// A numbered is an event with the number that it has on the pictures, 1 to 4 of the head
// end and 5 to 8 of the crank end: admission, cut-off, release, compression.
type numbered struct {
	eccentric.Event
	number string
	end    eccentric.End
	turned float64 // radians from the head-end dead centre
	lap    units.Length
	steam  bool
}

// numberedOf returns the events that occur.
func numberedOf(t testing.TB, g eccentric.Gear) []numbered {
	t.Helper()
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	var all []numbered
	for i, of := range [...]eccentric.EndEvents{e.Head, e.Crank} {
		end := [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd}[i]
		for k, m := range [...]eccentric.Event{of.Admission, of.CutOff, of.Release, of.Compression} {
			if !m.Occurs {
				continue
			}
			one := numbered{Event: m, number: strconv.Itoa(4*i + k + 1), end: end, steam: k < 2,
				turned: m.Crank.Radians() + float64(i)*math.Pi, lap: g.LapsAt(end).Exhaust}
			if one.steam {
				one.lap = g.LapsAt(end).Steam
			}
			all = append(all, one)
		}
	}
	return all
}

// ringAt reports whether a ring with that number stands at a place of a picture, or has a
// line to its mark. Where there was no room for it the caption has it.
func ringAt(p *check.Picture, number string, at check.Spot) bool {
	for _, c := range p.Circles {
		if c.Layer != sheet.Measure.Name || math.Abs(c.Radius-balloon) > 1e-3 {
			continue
		}
		inside := false
		for _, w := range p.Texts {
			x, y := (w.Box[0].X+w.Box[2].X)/2, w.Box[0].Y+letters/2
			inside = inside || w.Value == number && math.Hypot(x-c.Centre.X, y-c.Centre.Y) < 0.5
		}
		if !inside {
			continue
		}
		if distance(c.Centre, at) < balloon+dot+0.51 {
			return true
		}
		for _, s := range p.On(sheet.Measure.Name) {
			if len(s.Spots) == 2 && math.Abs(distance(s.Spots[0], at)-dot) < 0.02 &&
				math.Abs(distance(s.Spots[1], c.Centre)-balloon) < 0.02 {
				return true
			}
		}
	}
	return false
}

func distance(a, b check.Spot) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// A valveCircles is the polar diagram as the reader finds it.
type valveCircles struct {
	centre check.Spot
	crank  float64 // radius to which the cranks are drawn
	scale  float64 // millimetres of the sheet to one of the valve
	turns  float64 // 1 where angles go clockwise from the left
	others [2]check.Round
}

// at returns the place at a crank angle and a distance from the shaft. The head end is to
// the left, so a crank that turns clockwise goes up from there.
func (c valveCircles) at(turned, r float64) check.Spot {
	return check.Spot{X: c.centre.X - r*math.Cos(turned), Y: c.centre.Y + c.turns*r*math.Sin(turned)}
}

// circlesOf finds the shaft by the ring of the crank, and the scale by the two circles,
// which are half the travel across.
func circlesOf(t testing.TB, p *check.Picture, g eccentric.Gear, o Options) valveCircles {
	t.Helper()
	c := valveCircles{turns: 1}
	if o.Rotation == setting.Anticlockwise {
		c.turns = -1
	}
	circles := 0
	for _, r := range p.Circles {
		switch r.Layer {
		case sheet.Centre.Name:
			c.centre, c.crank = r.Centre, r.Radius
		case sheet.Other.Name:
			if circles < 2 {
				c.others[circles] = r
			}
			circles++
		}
	}
	if circles != 2 || c.crank == 0 {
		t.Fatalf("%d valve circles, the crank's ring %.2f", circles, c.crank)
	}
	c.scale = 4 * c.others[0].Radius / g.Travel.MM()
	return c
}

// The polar diagram of random engines: the circles go through the shaft and are turned by
// the angle of advance; the cranks of the events, their marks, numbers and the arcs of the
// laps are where the gear has them; the curve is the distance of the gear's own motion.
func TestPolarMeasured(t *testing.T) {
	engines(t, 60, func(t testing.TB, g eccentric.Gear, o Options) {
		drawn, err := Polar(g, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, drawn)
		c := circlesOf(t, p, g, o)
		for i, r := range c.others {
			want := c.at(math.Pi/2-g.Advance.Radians()+float64(i)*math.Pi, r.Radius)
			if off := distance(r.Centre, want); off > within {
				t.Errorf("valve circle %d is %.3f mm from its place", i, off)
			}
		}
		var dots []check.Spot
		for _, r := range p.Circles {
			if r.Layer == sheet.Edge.Name {
				dots = append(dots, r.Centre)
			}
		}
		events := numberedOf(t, g)
		marks := 0
		for _, m := range events {
			rim := c.at(m.turned, c.crank)
			found := false
			for _, s := range p.On(sheet.Measure.Name) {
				found = found || len(s.Spots) == 2 && distance(s.Spots[0], c.centre) < within && distance(s.Spots[1], rim) < within
			}
			if !found {
				t.Errorf("no crank at event %s, %.2f degrees", m.number, m.turned*180/math.Pi)
			}
			if !ringAt(p, m.number, rim) && !said(drawn, m.number) {
				t.Errorf("no number %s at its crank", m.number)
			}
			if r := m.lap.Abs().MM() * c.scale; r > 1.5 {
				marks++
				if off := nearestOf(c.at(m.turned, r), dots); off > within {
					t.Errorf("the mark of event %s is %.3f mm from its place", m.number, off)
				}
				if off := fromLine(c.at(m.turned, r), p.On(sheet.Curve.Name)); off > within {
					t.Errorf("the curve runs %.3f mm from event %s", off, m.number)
				}
			}
		}
		if len(dots) != marks {
			t.Errorf("%d marks, want %d", len(dots), marks)
		}
		for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			laps := g.LapsAt(end)
			for i, lap := range [...]units.Length{laps.Steam, laps.Exhaust} {
				r := lap.MM() * c.scale
				if math.Abs(r) < 0.31 || math.Abs(r) > 44.9 {
					continue
				}
				middle := math.Pi/2 - g.Advance.Radians() // of the half turn in which the port opens to steam
				if (end == eccentric.CrankEnd) != (i == 1) {
					middle += math.Pi
				}
				if best := arcAt(p, c, c.at(middle, r), math.Abs(r)); best > within {
					t.Errorf("%s end: the arc of lap %d is %.3f mm from its place", end, i, best)
				}
			}
		}
		closest := within
		if !g.Valve.LostMotion.IsZero() {
			closest *= 5 // a chord cuts the corner where the valve comes to rest
		}
		for deg := range 360 {
			valve, err := g.Displacement(units.Angle(deg) * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			spot := c.at(float64(deg)*math.Pi/180, valve.Abs().MM()*c.scale)
			if off := fromLine(spot, p.On(sheet.Curve.Name)); off > closest {
				t.Errorf("the curve runs %.3f mm from the valve at %d degrees", off, deg)
			}
		}
	})
}

// said reports whether the caption has a number for which there was no room.
func said(p Picture, number string) bool {
	return strings.Contains(p.Caption, "the number "+number)
}

// arcAt returns how far an arc about the shaft, of that radius and through that place, is
// from the nearest that is drawn.
func arcAt(p *check.Picture, c valveCircles, through check.Spot, radius float64) float64 {
	best := math.Inf(1)
	for _, s := range p.On(sheet.Measure.Name) {
		if len(s.Spots) < 3 {
			continue
		}
		off := fromLine(through, []check.Stroke{s})
		for _, at := range s.Spots {
			off = max(off, math.Abs(distance(at, c.centre)-radius))
		}
		best = min(best, off)
	}
	return best
}

// The construction of the textbooks (Zeuner's, as the handbooks of the trade teach it),
// worked by itself: with endless rods, a circle of half the travel across, through the
// shaft, turned back by the angle of advance from the upright, and the same on the other
// side; where they meet the circle of a lap about the shaft, there the crank of the event
// passes. The cranks drawn must go through those crossings.
func TestPolarAgainstConstruction(t *testing.T) {
	crossings := 0
	engines(t, 200, func(t testing.TB, g eccentric.Gear, o Options) {
		g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
		g.Valve.Offset, g.Valve.LostMotion = units.Length{}, units.Length{}
		if g.Validate() != nil {
			return
		}
		drawn, err := Polar(g, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, drawn)
		c := circlesOf(t, p, g, o)
		sin, cos := math.Sincos(g.Advance.Radians())
		for _, m := range numberedOf(t, g) {
			lap := m.lap.MM()
			// in the plane of the valve, x towards the head-end dead centre, y the way the crank goes from there
			half := g.Travel.MM() / 4
			x, y := half*sin, half*cos
			if (m.end == eccentric.CrankEnd) == m.steam {
				x, y = -x, -y
			}
			if lap < 0 { // an opening in mid-travel is laid off in the other circle
				x, y = -x, -y
			}
			// the chord that two circles have in common, one of radius |lap| about the shaft
			along := lap * lap / (2 * half)
			rise := math.Sqrt(max(0, lap*lap-along*along))
			ux, uy := x/half, y/half
			meets := math.Inf(1)
			for _, side := range [...]float64{1, -1} {
				px, py := ux*along-side*uy*rise, uy*along+side*ux*rise
				crossing := check.Spot{X: c.centre.X - px*c.scale, Y: c.centre.Y + c.turns*py*c.scale}
				for _, s := range p.On(sheet.Measure.Name) {
					if len(s.Spots) == 2 && distance(s.Spots[0], c.centre) < within &&
						distance(s.Spots[1], c.at(m.turned, c.crank)) < within {
						meets = min(meets, fromLine(crossing, []check.Stroke{s}))
					}
				}
			}
			if crossings++; meets > within {
				t.Errorf("the crank at event %s passes %.3f mm beside the crossing", m.number, meets)
			}
		}
	})
	if crossings < 40 {
		t.Errorf("only %d crossings", crossings)
	}
}

// The openings of random engines: marks and numbers of the events on the line of shut
// ports, the curve through the gear's own openings, and its peaks.
func TestPortOpeningsMeasured(t *testing.T) {
	engines(t, 40, func(t testing.TB, g eccentric.Gear, o Options) {
		drawn, err := PortOpenings(g, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, drawn)
		unit := units.Millimetres
		if o.Inch {
			unit = units.Inches
		}
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		events := numberedOf(t, g)
		for i, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			c := chartOf(t, p, end)
			var dots []check.Spot
			for _, r := range p.Circles {
				if r.Layer == sheet.Edge.Name && r.Centre.Y > c.low && r.Centre.Y < c.high {
					dots = append(dots, r.Centre)
				}
			}
			want := 0
			for _, m := range events {
				if m.end != end {
					continue
				}
				want++
				spot := check.Spot{X: c.x(m.Stroke * g.Stroke.In(unit)), Y: c.y(0)}
				if off := nearestOf(spot, dots); off > within {
					t.Errorf("%s: event %s is %.3f mm from its place", end, m.number, off)
				}
				if !ringAt(p, m.number, spot) && !said(drawn, m.number) {
					t.Errorf("no number %s at its event", m.number)
				}
			}
			if len(dots) != want {
				t.Errorf("%s: %d marks for %d events", end, len(dots), want)
			}
			var lines []check.Stroke
			top, bottom := c.y(0), c.y(0)
			for _, s := range p.On(sheet.Curve.Name) {
				if len(s.Spots) < 3 || !c.holds(s) {
					continue
				}
				lines = append(lines, s)
				for _, at := range s.Spots {
					top, bottom = max(top, at.Y), min(bottom, at.Y)
				}
			}
			of := [...]eccentric.EndEvents{e.Head, e.Crank}[i]
			if off := top - c.y(of.Opening.In(unit)); math.Abs(off) > within {
				t.Errorf("%s: the greatest opening to steam is drawn %.3f mm off", end, off)
			}
			if off := bottom - c.y(-of.ExhaustOpening.In(unit)); math.Abs(off) > within {
				t.Errorf("%s: the greatest opening to exhaust is drawn %.3f mm off", end, off)
			}
			for deg := 0; deg < 360; deg += 5 {
				at := units.Angle(deg) * units.Degree
				openings, err := g.OpeningsAt(at)
				if err != nil {
					t.Fatal(err)
				}
				piston, err := g.PistonPosition(at)
				if err != nil {
					t.Fatal(err)
				}
				open := openings.Head
				if end == eccentric.CrankEnd {
					open, piston = openings.Crank, g.Stroke.Sub(piston)
				}
				for _, y := range [...]float64{open.Steam.In(unit), -open.Exhaust.In(unit)} {
					spot := check.Spot{X: c.x(piston.In(unit)), Y: c.y(y)}
					if off := fromLine(spot, lines); y != 0 && off > within {
						t.Errorf("%s: the curve runs %.3f mm from the opening at %d degrees", end, off, deg)
					}
				}
			}
		}
	})
}
