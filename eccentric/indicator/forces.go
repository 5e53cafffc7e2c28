package indicator

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Forces are those in the motion of one cylinder at one crank angle. A push is
// towards the crank, or the way in which the crank turns, where it is above zero.
type Forces struct {
	Pressure   units.Force  // of both ends on the piston
	Inertia    units.Force  // that Moving holds against it
	Pin        units.Force  // what is left, on the crosshead pin
	Rod        units.Force  // thrust along the connecting rod
	Guide      units.Force  // on the slide bars, to one side or the other
	Tangential units.Force  // at right angles to the crank
	Bearing    units.Force  // along the crank, towards the shaft
	Moment     units.Torque // of this cylinder
}

// Forces returns the forces of one cylinder at crank angle t:
//
//	pin        = pressure - inertia
//	inertia    = m * w^2 * d2s/dt2
//	rod        = pin / cos(f)
//	guide      = pin * tan(f)
//	tangential = rod * sin(t + f)
//	bearing    = rod * cos(t + f)
//	moment     = tangential * R
//
//	m, w   Moving, and Speed in radians a second; without either there is no inertia
//	s      travel of the piston
//	f      slant of the connecting rod, sin(f) = sin(t) * R / L
//	R, L   half the stroke and connecting rod
//
// where a port opens just then, with the pressure after it has. The weight of the
// parts and friction are left out. It fails where [Running.Validate] does or t is not
// finite. Source: statics of the slider crank, as in T. Bevan, The Theory of Machines,
// chapter 12. See the Example.
func (r Running) Forces(t units.Angle) (Forces, error) {
	if err := r.Validate(); err != nil {
		return Forces{}, err
	}
	if err := fault.Finite(fail, "crank angle", t); err != nil {
		return Forces{}, err
	}
	m, at := r.model(), float64(t)
	place := m.motion.Place(at)
	arcs := m.arcsAt(at)
	head, crank := m.pressures(arcs[0], arcs[1], &place)
	return m.forces(at, m.push(head, crank)), nil
}

// forces returns the forces with a push on the piston at crank angle t.
func (m *model) forces(t, push float64) Forces {
	place := m.motion.Place(t)
	inertia := m.mass * m.stroke * place.Gains * m.omega * m.omega
	pin := push - inertia
	sin, cos := math.Sincos(t)
	slant := sin * m.motion.Stroke / (2 * m.motion.Rod)
	upright := math.Sqrt((1 - slant) * (1 + slant))
	return Forces{
		Pressure: units.Force(push + 0), Inertia: units.Force(inertia + 0), Pin: units.Force(pin + 0),
		Rod: units.Force(pin/upright + 0), Guide: units.Force(pin*slant/upright + 0),
		Tangential: units.Force(pin*(sin+cos*slant/upright) + 0),
		Bearing:    units.Force(pin*(cos-sin*slant/upright) + 0),
		Moment:     units.Torque(pin*m.stroke*place.Moves + 0),
	}
}

// An Inertia is what the moving parts of one cylinder want at their dead centres.
type Inertia struct {
	PistonSpeed units.Speed // mean
	Head, Crank units.Force // to turn the parts back at the dead centre of that end, at Speed

	// The speeds up to which the pressure, just after that end's dead centre, pushes
	// harder than the parts hold back. Above it they pull on the crank first and the
	// play in the joints is taken up later in the stroke, at speed: a knock. Nothing
	// where nothing pushes there, as with late steam.
	HeadKnocks, CrankKnocks units.RotationalSpeed
}

// Inertia returns what the moving parts want at the dead centres, and the speeds at
// which it overcomes the pressure there:
//
//	force = m * R * w^2 * (1 + R/L) at the head end, (1 - R/L) at the crank end
//	w     = sqrt(push / (m * R * (1 +- R/L)))
//
//	m      Moving
//	R, L   half the stroke and connecting rod
//	w      speed in radians a second
//	push   of both ends' pressures, from that end
//
// Moving and Speed must be there. Source: exact at the dead centres; T. Bevan, The
// Theory of Machines, chapter 12. See the Example.
func (r Running) Inertia() (Inertia, error) {
	if err := r.spinning(); err != nil {
		return Inertia{}, err
	}
	if r.Moving == 0 {
		return Inertia{}, fail.Missing("mass of the moving parts",
			"above zero: piston, its rod, crosshead and a third of the connecting rod")
	}
	m := r.model()
	head, headKnocks := m.turnsBack(0)
	crank, crankKnocks := m.turnsBack(math.Pi)
	return Inertia{
		PistonSpeed: r.meanPistonSpeed(), Head: units.Force(head), Crank: units.Force(crank),
		HeadKnocks: headKnocks, CrankKnocks: crankKnocks,
	}, nil
}

// turnsBack returns the force that the parts want at a dead centre, crank angle 0 or
// pi, and the speed at which the pressures just after it give as much.
func (m *model) turnsBack(t float64) (force float64, knocks units.RotationalSpeed) {
	const after = 1e-9
	place, way := m.motion.Place(t), 1.0
	if t > 0 {
		way = -1
	}
	arcs := m.arcsAt(t + after)
	head, crank := m.pressures(arcs[0], arcs[1], &place)
	heavy := m.mass * m.stroke * place.Gains * way
	return heavy * m.omega * m.omega, reverses(way*m.push(head, crank), heavy)
}

// reverses returns the speed at which parts that want a force of heavy times the square
// of it use up a push; nothing where there is no push.
func reverses(push, heavy float64) units.RotationalSpeed {
	if !(push > 0 && heavy > 0) {
		return 0
	}
	return units.RotationalSpeed(math.Sqrt(push / heavy))
}

// meanPistonSpeed returns 2 * stroke * revolutions.
func (r *Running) meanPistonSpeed() units.Speed {
	return units.Speed(2 * float64(r.Gear.Stroke.Picometres()) * metres * turns(r.Speed))
}
