package indicator

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Point is the state of the engine at one angle of its first crank.
type Point struct {
	Turned      units.Angle    // from the head-end dead centre
	Piston      float64        // of the first cylinder: stroke gone from the head end, as a share
	Head, Crank units.Pressure // at its two ends, absolute
	Moment      units.Torque   // that all cylinders turn the shaft by
}

// At returns the state at crank angle t; where a port opens just then, with the
// pressure after it has. The moment is
//
//	T = sum over the cylinders of (pH*AH - pC*AC - pa*(AH - AC) - m*a) * ds/dt
//
//	pH, pC   pressures at the head end and at the crank end
//	AH, AC   areas of the piston there; the atmosphere pa pushes on the end of the piston rod
//	m, a     Moving and its acceleration at Speed; without either they are left out
//	s        travel of the piston, and t in radians
//
// It fails where [Running.Validate] does or t is not finite. It is arithmetic on the
// ideal cycle. See the Example.
func (r Running) At(t units.Angle) (Point, error) {
	if err := r.Validate(); err != nil {
		return Point{}, err
	}
	if err := fault.Finite(fail, "crank angle", t); err != nil {
		return Point{}, err
	}
	var p Point
	sin, cos := math.Sincos(float64(t))
	r.model().at(&p, float64(t), sin, cos)
	return p, nil
}

const mostPoints = 36_000

// Points returns the states at n crank angles, evenly from the head-end dead centre
// on: 360 for every degree. See [Running.At], its errors and its Example; n is 1 to
// 36,000.
func (r Running) Points(n int) ([]Point, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	if n < 1 || n > mostPoints {
		return nil, fail.OutOfRange("points of a turn", n, "from 1 to 36,000")
	}
	m, points := r.model(), make([]Point, n)
	turned := func(i int) float64 { return 2 * math.Pi * float64(i) / float64(n) }
	some := n
	if n%2 == 0 {
		some = n / 2 // half a turn on, sine and cosine are the same but for their sign
	}
	for i := range some {
		sin, cos := math.Sincos(turned(i))
		m.at(&points[i], turned(i), sin, cos)
		if opposite := i + some; opposite < n {
			m.at(&points[opposite], turned(opposite), -sin, -cos)
		}
	}
	return points, nil
}

// at fills in the state at crank angle t, with its sine and cosine.
func (m *model) at(p *Point, t, sin, cos float64) {
	head, crank := &m.ends[kernel.Head], &m.ends[kernel.Crank]
	place := m.motion.PlaceOf(sin, cos)
	atHead, atCrank := m.pressures(head.round.At(t), crank.round.At(t-math.Pi), &place)
	p.Turned, p.Piston = units.Angle(t), place.Stroke
	p.Head, p.Crank = units.Pressure(atHead), units.Pressure(atCrank)
	moment := m.net(atHead, atCrank, &place) * m.stroke * place.Moves // T = F*ds/dt
	for _, ahead := range m.cylinders[1:] {
		t := t + ahead
		place := m.motion.Place(t)
		atHead, atCrank := m.pressures(head.round.At(t), crank.round.At(t-math.Pi), &place)
		moment += m.net(atHead, atCrank, &place) * m.stroke * place.Moves
	}
	p.Moment = units.Torque(moment + 0)
}

// pressures returns those of both ends, each on its arc, with the piston in its place.
func (m *model) pressures(head, crank *kernel.Pressing, place *kernel.Place) (atHead, atCrank float64) {
	atHead, atCrank = head.Pressure, crank.Pressure
	if head.State == kernel.Shut {
		c := &m.ends[kernel.Head].cycle
		atHead = head.At(c.Clearance+place.Stroke, c.Index)
	}
	if crank.State == kernel.Shut {
		c := &m.ends[kernel.Crank].cycle
		atCrank = crank.At(c.Clearance+(1-place.Stroke), c.Index)
	}
	return atHead, atCrank
}

// push returns the force of the pressures on the piston, towards the crank.
func (m *model) push(head, crank float64) float64 {
	// F = pH*AH - pC*AC - pa*(AH - AC)
	return head*m.ends[kernel.Head].area - crank*m.ends[kernel.Crank].area - m.air*m.rodEnd
}

// net is push less what the moving parts want for their acceleration.
func (m *model) net(head, crank float64, place *kernel.Place) float64 {
	return m.push(head, crank) - m.mass*m.stroke*place.Gains*m.omega*m.omega
}
