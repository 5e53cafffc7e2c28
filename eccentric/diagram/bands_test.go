package diagram

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// anyTolerances gives some sizes of a gear tolerances, of up to a fiftieth of the travel.
func anyTolerances(r *rand.Rand, g eccentric.Gear) spread.Study {
	s := spread.Study{Gear: g}
	off := g.Travel.Scale(0.002 + 0.018*r.Float64())
	for _, d := range [...]spread.Dimension{spread.Travel, spread.ValveLength, spread.ValveCavity, spread.ValveOffset, spread.PortSteam} {
		if r.IntN(4) > 0 {
			s.Tolerances = append(s.Tolerances, spread.Tolerance{Dimension: d,
				Lower: spread.Deviation{Length: off.Neg()}, Upper: spread.Deviation{Length: off}})
		}
	}
	by := units.Angle(0.5+2*r.Float64()) * units.Degree
	s.Tolerances = append(s.Tolerances, spread.Tolerance{Dimension: spread.Advance,
		Lower: spread.Deviation{Angle: -by}, Upper: spread.Deviation{Angle: by}})
	return s
}

// A stacked is one of two charts that stand one above the other.
type stacked struct {
	x, y      func(float64) float64
	low, high float64 // on the sheet
}

// chartOf finds the chart of the openings of an end, by its title.
func chartOf(t testing.TB, p *check.Picture, end eccentric.End) stacked {
	t.Helper()
	var titles []float64
	at := 0.0
	for _, w := range p.Texts {
		if strings.Contains(w.Value, " port open, ") {
			titles = append(titles, w.Box[0].Y)
			if strings.HasPrefix(w.Value, end.String()) {
				at = w.Box[0].Y
			}
		}
	}
	below := 0.0
	for _, y := range titles {
		if y < at {
			below = y + letters
		}
	}
	return stacked{scaleIn(t, p, false, below, at), scaleIn(t, p, true, below, at), below, at}
}

// holds reports whether a line lies in the chart.
func (c stacked) holds(s check.Stroke) bool {
	return !slices.ContainsFunc(s.Spots, func(at check.Spot) bool { return at.Y < c.low || at.Y > c.high })
}

// outlines returns the edges of the bands of a chart: the lines of many points.
func (c stacked) outlines(p *check.Picture) []check.Stroke {
	var all []check.Stroke
	for _, s := range p.On(sheet.Measure.Name) {
		if len(s.Spots) > 2 && c.holds(s) {
			all = append(all, s)
		}
	}
	return all
}

// heights returns where lines cross an upright one.
func heights(lines []check.Stroke, x float64) []float64 {
	var all []float64
	for _, s := range lines {
		for i := 1; i < len(s.Spots); i++ {
			if a, b := s.Spots[i-1], s.Spots[i]; a.X <= x && b.X > x {
				all = append(all, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
			}
		}
	}
	return all
}

func closest(to float64, of []float64) float64 {
	best := math.Inf(1)
	for _, v := range of {
		best = min(best, math.Abs(v-to))
	}
	return best
}

// The bands of the openings, measured against the worst case that spread works out by
// other formulas: they begin and end at the limits of the events, are at the dead centre as
// high as the limits of the lead, and at most as those of the greatest openings.
func TestBandsMeasured(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 16))
	moments, leads := 0, 0
	engines(t, 60, func(t testing.TB, g eccentric.Gear, o Options) {
		g.Valve.LostMotion = units.Length{}
		s := anyTolerances(r, g)
		w, err := s.Worst()
		if err != nil { // the cavity leaves no land with so much off, or such
			return
		}
		pictures, err := Bands(s, o)
		if err != nil {
			t.Fatal(err)
		}
		p := read(t, pictures[1])
		unit := units.Millimetres
		if o.Inch {
			unit = units.Inches
		}
		for i, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			worst := [...]spread.WorstEnd{w.Head, w.Crank}[i]
			c := chartOf(t, p, end)
			edges := c.outlines(p)
			var corners []check.Spot
			top, bottom := c.y(0), c.y(0)
			for _, s := range edges {
				corners = append(corners, s.Spots...)
				for _, at := range s.Spots {
					top, bottom = max(top, at.Y), min(bottom, at.Y)
				}
			}
			for _, e := range spread.Events() {
				at := worst.At(e)
				for _, limit := range [...]spread.AngleLimit{at.MinCrank, at.MaxCrank} {
					if !at.Always {
						continue
					}
					moments++
					deg := math.Mod(limit.Crank.Degrees()+720, 360)
					// just before a dead centre it is at the end of the chart, where the band is cut off
					off := min(nearestOf(check.Spot{X: c.x(deg), Y: c.y(0)}, corners), nearestOf(check.Spot{X: c.x(deg - 360), Y: c.y(0)}, corners))
					if off > 0.01 {
						t.Errorf("%v end: no band begins or ends within %.3f mm of the %v at %v", end, off, e, limit.Crank)
					}
				}
			}
			port := closestPort(s, end)
			for _, lead := range [...]units.Length{worst.Lead.Min.Length, worst.Lead.Max.Length} {
				if lead.Sign() > 0 && lead.Cmp(port) < 0 {
					leads++
					if off := closest(c.y(lead.In(unit)), heights(edges, c.x(0))); off > 0.01 {
						t.Errorf("%v end: no band is as high as the lead %v, by %.3f mm", end, lead, off)
					}
				}
			}
			if off := top - c.y(worst.Opening.Max.Length.In(unit)); math.Abs(off) > 0.01 {
				t.Errorf("%v end: the greatest opening to steam is drawn %.3f mm off", end, off)
			}
			if off := bottom - c.y(-worst.ExhaustOpening.Max.Length.In(unit)); math.Abs(off) > 0.01 {
				t.Errorf("%v end: the greatest opening to exhaust is drawn %.3f mm off", end, off)
			}
		}
	})
	if !testing.Short() && (moments < 200 || leads < 20) {
		t.Errorf("only %d limits of events and %d leads were measured", moments, leads)
	}
}

// closestPort is the least that a port may be wide.
func closestPort(s spread.Study, end eccentric.End) units.Length {
	width, _ := s.Gear.Ports.At(end)
	for _, t := range s.Tolerances {
		if t.Dimension == spread.PortSteam {
			width = width.Add(t.Lower.Length)
		}
	}
	return width
}

// The band of the valve, measured: gears with their travel and advance at the ends of the
// tolerances stand within it at any crank angle, and two of them on its edges; what is
// written on all bands can be read, with lost motion too.
func TestBandOfTheValve(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 16))
	engines(t, 60, func(t testing.TB, g eccentric.Gear, o Options) {
		off, by := g.Travel.Scale(0.01), units.Degree
		s := spread.Study{Gear: g, Tolerances: []spread.Tolerance{
			{Dimension: spread.Travel, Lower: spread.Deviation{Length: off.Neg()}, Upper: spread.Deviation{Length: off}},
			{Dimension: spread.Advance, Lower: spread.Deviation{Angle: -by}, Upper: spread.Deviation{Angle: by}}}}
		if s.Validate() != nil {
			return
		}
		pictures, err := Bands(s, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, picture := range pictures {
			check.Legible(t, read(t, picture))
		}
		p := read(t, pictures[0])
		x, y := scaleOf(t, p, false), scaleOf(t, p, true)
		unit := units.Millimetres
		if o.Inch {
			unit = units.Inches
		}
		edges := stacked{low: 0, high: p.Height}.outlines(p)
		for range 20 {
			crank := units.Angle(r.Float64()*2*math.Pi) + 1e-3
			between := heights(edges, x(crank.Degrees()))
			if len(between) != 2 {
				t.Fatalf("%d edges at %v", len(between), crank)
			}
			slices.Sort(between)
			var stand []float64
			for _, corner := range [...][2]float64{{-1, -1}, {-1, 1}, {1, -1}, {1, 1}} {
				other := g
				other.Travel = g.Travel.Add(off.Scale(corner[0]))
				other.Advance += units.Angle(corner[1]) * by
				at, err := other.Displacement(crank)
				if err != nil {
					t.Fatal(err)
				}
				stand = append(stand, y(at.In(unit)))
			}
			slices.Sort(stand)
			if stand[0] < between[0]-0.01 || stand[3] > between[1]+0.01 {
				t.Errorf("at %v valves stand from %.3f to %.3f, the band is from %.3f to %.3f", crank, stand[0], stand[3], between[0], between[1])
			}
			turns := math.Abs(math.Cos(float64(g.Advance+crank))) < 0.2 // where a right angle may be between, or it may rest
			if !turns && g.Valve.LostMotion.IsZero() && (stand[0] > between[0]+0.01 || stand[3] < between[1]-0.01) {
				t.Errorf("at %v valves stand from %.3f to %.3f, the band is wider, %.3f to %.3f", crank, stand[0], stand[3], between[0], between[1])
			}
		}
	})
}

// What tolerances there cannot be has no picture.
func TestBandsOfNothing(t *testing.T) {
	if _, err := Bands(spread.Study{}, Options{}); err == nil {
		t.Error("no gear is drawn")
	}
}
