package diagram

import (
	"math"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A drawnDrive is one moment of the drive as the reader of SVG finds it.
type drawnDrive struct {
	shaft, pin     check.Spot // of the crank's side
	radius         float64    // of the crank circle
	cross          check.Spot
	pistonAt       float64    // X of the middle of the piston
	axle           check.Spot // the shaft on the sheave's side
	sheave         check.Round
	joint          check.Spot // of the eccentric rod
	valve, portsAt float64    // X of the middle of the valve and of its ports
	long           float64    // of the valve
}

// drives finds the moments of a picture, from the top: each has one crank circle and one
// valve, and its circles lie between theirs and the next.
func drives(t testing.TB, p *check.Picture, g eccentric.Gear, many int, stacked bool) []drawnDrive {
	t.Helper()
	all := make([]drawnDrive, many)
	of := func(s check.Spot) *drawnDrive {
		each := stripHigh
		if stacked {
			each = stackHigh
		}
		if i := int((p.Height - rim - s.Y) / each); i >= 0 && i < many {
			return &all[i]
		}
		return &drawnDrive{} // of the shaft's end
	}
	upper := func(s check.Spot) bool { // the crank's side
		if !stacked {
			return s.X < 60
		}
		from := math.Mod(p.Height-rim-s.Y, stackHigh)
		return from < stripHead+(stackHigh-stripHead-2)/2
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-3 }
	var sliding []check.Round
	for _, c := range p.Circles {
		d := of(c.Centre)
		switch up := upper(c.Centre); {
		case up && c.Layer == "CENTRES":
			d.radius = c.Radius
		case up && near(c.Radius, 1.4):
			d.shaft = c.Centre
		case up && near(c.Radius, 0.9):
			sliding = append(sliding, c)
		case !up && c.Layer == "EDGES" && !near(c.Radius, 0.7) && c.Radius > d.sheave.Radius:
			d.axle, d.sheave = d.sheave.Centre, c // the smaller one is the shaft
		case !up && c.Layer == "EDGES" && !near(c.Radius, 0.7):
			d.axle = c.Centre
		case !up && near(c.Radius, 0.7) && d.joint == (check.Spot{}):
			d.joint = c.Centre // the first one drawn of each moment
		}
	}
	for _, c := range sliding {
		d := of(c.Centre)
		if near(math.Hypot(c.Centre.X-d.shaft.X, c.Centre.Y-d.shaft.Y), d.radius) && d.pin == (check.Spot{}) &&
			(d.cross != (check.Spot{}) || c.Centre.X > d.shaft.X-d.radius-1e-3) {
			d.pin = c.Centre
		} else {
			d.cross = c.Centre
		}
	}
	for _, s := range p.On("EDGES") {
		d := of(s.Spots[0])
		middle := func() float64 {
			low, high := math.Inf(1), math.Inf(-1)
			for _, spot := range s.Spots {
				low, high = min(low, spot.X), max(high, spot.X)
			}
			return (low + high) / 2
		}
		switch {
		case s.Closed && len(s.Spots) == 8:
			d.valve = middle()
			d.long = math.Abs(s.Spots[3].X - s.Spots[0].X)
		case s.Closed && len(s.Spots) == 4:
			d.pistonAt = middle()
		}
	}
	for i := range all { // the middle port lies between the third and the fourth wall
		d := &all[i]
		var walls []float64
		for _, s := range p.On("EDGES") {
			for k := 1; k < len(s.Spots); k++ {
				a, b := s.Spots[k-1], s.Spots[k]
				if of(a) == d && near(a.X, b.X) && near(math.Abs(a.Y-b.Y), 2.4) && !s.Closed {
					walls = append(walls, a.X)
				}
			}
		}
		slices.Sort(walls)
		if len(walls) != 6 {
			t.Fatalf("%d walls of ports", len(walls))
		}
		d.portsAt = (walls[2] + walls[3]) / 2
	}
	return all
}

// Crank and sheave, measured: their angles against the gear's, the rods against what turns,
// where the piston, the joint of the eccentric rod and the valve are drawn against the
// gear's own PistonPosition and Displacement.
func TestDriveMeasured(t *testing.T) {
	measured := 0
	engines(t, 120, func(t testing.TB, g eccentric.Gear, o Options) {
		pictures, err := Drive(g, o)
		if err != nil {
			t.Fatal(err)
		}
		e, err := g.Events()
		if err != nil {
			t.Fatal(err)
		}
		way := 1.0
		if o.Rotation == setting.Anticlockwise {
			way = -1
		}
		for page, many := range []int{2, 4, 4} {
			p := read(t, pictures[page])
			end := e.Head
			if page == 2 {
				end = e.Crank
			}
			events := []eccentric.Event{end.Admission, end.CutOff, end.Release, end.Compression}
			for i, d := range drives(t, p, g, many, page == 0) {
				crank := units.Angle(float64(i) * math.Pi)
				if page > 0 {
					if !events[i].Occurs {
						continue
					}
					crank = events[i].Crank
				}
				if page == 2 {
					crank += math.Pi
				}
				measured++
				d.measure(t, g, crank, way)
			}
		}
	})
	if !testing.Short() && measured < 700 {
		t.Errorf("only %d moments were measured", measured)
	}
}

func (d drawnDrive) measure(t testing.TB, g eccentric.Gear, crank units.Angle, way float64) {
	t.Helper()
	angle := func(what string, from, to check.Spot, want units.Angle) {
		t.Helper()
		got := math.Atan2(way*(to.Y-from.Y), -(to.X - from.X)) // ahead of the head-end dead centre
		off := math.Remainder(got-want.Radians(), 2*math.Pi)
		// as far as a tenth of a micrometre, to which the file is written, turns it
		if math.Abs(off) > 3e-4/math.Hypot(to.X-from.X, to.Y-from.Y) {
			t.Errorf("%s is drawn at %.4f deg, want %v", what, got*180/math.Pi, want)
		}
	}
	// the scale is measured on what turns, so the last place of the file counts as often
	// as the rod is longer than that
	equal := func(what string, got, want, scale, times float64) {
		t.Helper()
		if math.Abs(got-want) > within*min(1, scale)+2e-4*times {
			t.Errorf("%s is drawn at %.4f, want %.4f, at %.4f to 1", what, got, want, scale)
		}
	}
	angle("crank", d.shaft, d.pin, crank)
	k := d.radius / (g.Stroke.MM() / 2)
	piston, err := g.PistonPosition(crank)
	if err != nil {
		t.Fatal(err)
	}
	if rod, finite := g.ConnectingRod.Length(); finite {
		equal("connecting rod", math.Hypot(d.pin.X-d.cross.X, d.pin.Y-d.cross.Y), k*rod.MM(), k, 2*rod.Ratio(g.Stroke))
		equal("crosshead", d.shaft.X-d.cross.X, k*(rod.MM()+g.Stroke.MM()/2-piston.MM()), k, 2*rod.Ratio(g.Stroke))
	}
	equal("piston", d.cross.X-d.pistonAt, k*pistonRodStrokes*g.Stroke.MM(), k, 3)
	angle("sheave", d.axle, d.sheave.Centre, crank+g.EccentricLead())
	offset := g.EccentricOffset().MM()
	far := math.Hypot(d.sheave.Centre.X-d.axle.X, d.sheave.Centre.Y-d.axle.Y)
	scale := far / offset
	at, err := g.Displacement(crank)
	if err != nil {
		t.Fatal(err)
	}
	ratio := g.LeverRatio
	if ratio == 0 {
		ratio = 1
	}
	if rod, finite := g.EccentricRod.Length(); finite {
		equal("eccentric rod", math.Hypot(d.sheave.Centre.X-d.joint.X, d.sheave.Centre.Y-d.joint.Y), scale*rod.MM(), scale, rod.MM()/offset)
		if g.Valve.LostMotion.IsZero() { // what drives the valve is where the gear has it
			moved := d.joint.X - (d.axle.X - scale*rod.MM())
			equal("joint of the eccentric rod", moved, scale*(at.MM()-g.Valve.Offset.MM())/ratio, scale, rod.MM()/offset)
		}
	}
	valve := d.long / g.Valve.Length.MM()
	equal("valve", d.valve-d.portsAt, valve*at.MM(), valve, 1)
}
