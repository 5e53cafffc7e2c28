package diagnosis_test

import (
	"math"
	"math/rand/v2"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A drawing is a gear in plain millimetres and degrees, of which both the gear that is
// diagnosed and the engine that is measured are made. A rod without a length is endless.
type drawing struct {
	stroke, rod               float64
	travel, eccRod, advance   float64
	port, bar                 [2]float64 // head end, crank end
	exhaust                   float64
	length, cavity            float64
	offset, cavityOff, played float64
	lever                     float64
	inside                    bool
}

func (d *drawing) gear() eccentric.Gear {
	rod := func(mm float64) eccentric.Rod {
		if mm == 0 {
			return eccentric.InfiniteRod()
		}
		return eccentric.RodOf(units.MM(mm))
	}
	return eccentric.Gear{
		Stroke: units.MM(d.stroke), ConnectingRod: rod(d.rod),
		Travel: units.MM(d.travel), EccentricRod: rod(d.eccRod), Advance: units.Angle(d.advance) * units.Degree,
		Ports: eccentric.Ports{
			Steam: units.MM(d.port[0]), Bar: units.MM(d.bar[0]), Exhaust: units.MM(d.exhaust),
			CrankSteam: units.MM(d.port[1]), CrankBar: units.MM(d.bar[1]),
		},
		Valve: eccentric.Valve{
			Length: units.MM(d.length), Cavity: units.MM(d.cavity), Offset: units.MM(d.offset),
			CavityOffset: units.MM(d.cavityOff), LostMotion: units.MM(d.played),
		},
		LeverRatio: d.lever, InsideAdmission: d.inside,
	}
}

// mistakes are what is otherwise in the engine than on the drawing: degrees, and
// millimetres at the valve. steam and exhaust are laps that are too great by what the
// edge of that end's port is wrong; long and short by what the valve is, and deep and
// shallow its cavity.
type mistakes struct {
	advance, offset, sheave, played float64
	steam, exhaust                  [2]float64 // of the port's edges
	valveSteam, valveExhaust        float64    // of the valve's edges, at both ends
}

// An engine is what was built: parts on the line from the cylinder to the shaft, in
// millimetres, the crank to the right. It knows where the sheave stands, where the
// edges are and how much the joints are worn; no lap, no angle of advance, no formula
// of an event.
type engine struct {
	stroke, rod    float64
	sheave, eccRod float64
	stands         float64 // the sheave's high point ahead of the crank, the way it turns
	lever, late    float64
	middle         float64    // of the valve, in mid-travel
	outer, inner   [2]float64 // edges of the valve from its middle, outwards: head end, crank end
	portOuter      [2]float64 // edges of the ports from the middle of the face, outwards
	portInner      [2]float64
	inside         bool

	valve [steps + 1]float64 // where it stands in a turn from the head-end dead centre, once it runs
}

const steps = 360

// built returns the engine of a drawing with mistakes in it.
func (d *drawing) built(m mistakes) *engine {
	e := &engine{
		stroke: d.stroke, rod: d.rod, eccRod: d.eccRod, lever: d.lever, inside: d.inside,
		late: max(d.played+m.played, 0) / 2, middle: d.offset + m.offset,
	}
	if e.lever == 0 {
		e.lever = 1
	}
	e.sheave = (d.travel/2 + m.sheave) / math.Abs(e.lever)
	e.stands = math.Pi/2 + (d.advance+m.advance)*math.Pi/180
	if (d.lever < 0) != d.inside {
		e.stands -= math.Pi
	}
	for end, way := range [2]float64{-1, 1} {
		e.outer[end] = d.length / 2
		e.inner[end] = d.cavity/2 + way*d.cavityOff
		e.portInner[end] = d.exhaust/2 + d.bar[end]
		e.portOuter[end] = e.portInner[end] + d.port[end]
		outside, within := m.steam[end], m.exhaust[end]
		valveOutside, valveWithin := m.valveSteam, m.valveExhaust
		if d.inside {
			outside, within, valveOutside, valveWithin = within, outside, valveWithin, valveOutside
		}
		e.outer[end] += valveOutside
		e.inner[end] -= valveWithin
		e.portOuter[end] -= outside
		e.portInner[end] += within
	}
	e.run()
	return e
}

// drives is how far what drives the valve stands from mid-travel.
func (e *engine) drives(t float64) float64 {
	y, x := math.Sincos(t + e.stands)
	x, y = -x*e.sheave, y*e.sheave
	slant := 0.0
	if e.eccRod != 0 {
		slant = e.eccRod - math.Sqrt(e.eccRod*e.eccRod-y*y)
	}
	return e.lever * (x + slant)
}

// pushed is where a valve that was there stands when the shaft has gone on to t.
func (e *engine) pushed(was, t float64) float64 {
	x := e.drives(t)
	return max(x-e.late, min(was, x+e.late))
}

// run turns the shaft twice, once to take the lost motion up and once to look.
func (e *engine) run() {
	for range 2 {
		e.valve[0] = e.valve[steps]
		for i := range steps {
			e.valve[i+1] = e.pushed(e.valve[i], 2*math.Pi*float64(i+1)/steps)
		}
	}
}

// at is where the middle of the valve stands from the middle of the ports when the
// running engine is at t.
func (e *engine) at(t float64) float64 {
	t = math.Mod(t, 2*math.Pi)
	if t < 0 {
		t += 2 * math.Pi
	}
	i := min(int(t/(2*math.Pi)*steps), steps-1)
	return e.middle + e.pushed(e.valve[i], t)
}

// A side is what a port opens to.
type side int

const (
	toSteam side = iota
	toExhaust
)

// past is how far the edge of a valve whose middle stands there has opened that port.
func (e *engine) past(end int, to side, middle float64) float64 {
	way := float64(2*end - 1)
	if (to == toSteam) != e.inside {
		return e.portOuter[end] - e.outer[end] - way*middle
	}
	return e.inner[end] + way*middle - e.portInner[end]
}

func (e *engine) width(end int) float64 { return e.portOuter[end] - e.portInner[end] }

// passes returns the crank angle from the head-end dead centre at which the port opens
// or shuts; false if it never does.
func (e *engine) passes(end int, to side, opens bool) (float64, bool) {
	open := func(valve float64) bool { return e.past(end, to, e.middle+valve) > 0 }
	for i := range steps {
		if open(e.valve[i]) == opens || open(e.valve[i+1]) != opens {
			continue
		}
		low, high := 2*math.Pi*float64(i)/steps, 2*math.Pi*float64(i+1)/steps
		for range 40 {
			if m := (low + high) / 2; open(e.pushed(e.valve[i], m)) == opens {
				high = m
			} else {
				low = m
			}
		}
		return low, true
	}
	return 0, false
}

// greatest is how far the port is uncovered at most, and as wide as it is at most.
func (e *engine) greatest(end int, to side) float64 {
	most := 0.0
	for i := range steps {
		most = max(most, e.past(end, to, e.middle+e.valve[i]))
	}
	return min(most, e.width(end))
}

// travels is how far the valve goes.
func (e *engine) travels() float64 {
	least, most := e.valve[0], e.valve[0]
	for _, x := range e.valve {
		least, most = min(least, x), max(most, x)
	}
	return most - least
}

// piston is the share of the stroke that is gone from that end.
func (e *engine) piston(end int, t float64) float64 {
	crank := e.stroke / 2
	y, x := math.Sincos(t)
	gone := crank - crank*x
	if e.rod != 0 {
		gone += e.rod - math.Sqrt(e.rod*e.rod-crank*crank*y*y)
	}
	if end == 1 {
		gone = e.stroke - gone
	}
	return gone / e.stroke
}

// centre is the crank angle of that end's dead centre from the head end's.
func centre(end int) float64 { return math.Pi * float64(end) }

// lead is how far the port is seen open at its dead centre, or how far it still is shut.
func (e *engine) lead(end int) float64 {
	return min(e.past(end, toSteam, e.at(centre(end))), e.width(end))
}

// goesOn is how far the port opens to steam, less what it was, in the next degrees.
func (e *engine) goesOn(end int, degrees float64) float64 {
	from := centre(end)
	return e.past(end, toSteam, e.at(from+degrees*math.Pi/180)) - e.past(end, toSteam, e.at(from))
}

// anyDrawing draws an engine as builders make them: lap by the port, a little lead, a
// valve that opens the ports for the most part.
func anyDrawing(r *rand.Rand) *drawing {
	in := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	one := func(in int) bool { return r.IntN(in) == 0 }
	d := &drawing{stroke: in(15, 60)}
	d.rod = d.stroke * in(1.6, 3.5)
	d.port[0], d.bar[0] = in(1.5, 4), in(1.8, 4)
	d.port[1], d.bar[1] = d.port[0], d.bar[0]
	if one(6) {
		d.port[1] += in(-0.2, 0.2)
		d.bar[1] += in(-0.2, 0.2)
	}
	width := d.port[0]
	d.exhaust = width * in(1.5, 2.5)
	steam, exhaust, lead := width*in(0.3, 1.1), width*in(0, 0.3), width*in(0.01, 0.15)
	reach := steam + width*in(0.7, 1.1)
	d.advance = math.Asin((steam+lead)/reach) * 180 / math.Pi
	d.travel = 2 * reach
	d.eccRod = reach * in(12, 40)
	if one(8) {
		d.rod = 0
	}
	if one(6) {
		d.eccRod = 0
	}
	if one(4) {
		d.lever = []float64{-1, 1.2, -0.8, -1.3}[r.IntN(4)]
		d.eccRod = max(d.eccRod, 0) / math.Abs(d.lever)
	}
	d.inside = one(8)
	outside, within := steam, exhaust
	if d.inside {
		outside, within = exhaust, steam
	}
	ports := (d.port[0] + d.port[1]) / 2
	bars := (d.bar[0]+d.bar[1])/2*2 + d.exhaust
	d.length = bars + 2*ports + 2*outside
	d.cavity = bars - 2*within
	if one(6) {
		d.cavityOff = in(-0.15, 0.15)
	}
	if one(4) {
		d.played = in(0, 0.1)
	}
	if one(2) && d.eccRod != 0 { // set for about equal leads, against the slant of the rod
		slant := d.eccRod - math.Sqrt(math.Pow(d.eccRod, 2)-math.Pow(d.travel/2*math.Cos(d.advance*math.Pi/180), 2))
		if (d.lever < 0) != d.inside {
			slant = -slant
		}
		d.offset = -slant
	}
	return d
}
