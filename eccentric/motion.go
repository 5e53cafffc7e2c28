package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// motion returns the motion of a sound gear.
func (g *Gear) motion() (kernel.Motion, error) {
	if err := g.Validate(); err != nil {
		return kernel.Motion{}, err
	}
	k := g.Kernel()
	return k.Motion(), nil
}

// turning is motion for a crank angle that must be finite.
func (g *Gear) turning(t units.Angle) (kernel.Motion, error) {
	m, err := g.motion()
	if err == nil {
		err = fault.Finite(fail, "crank angle", t)
	}
	return m, err
}

// Displacement returns how far the valve stands from mid-travel at crank angle
// t, positive towards the crank:
//
//	x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2) + Offset
//
//	r   half the travel
//	l   eccentric rod
//	a   t + advance
//
// for direct drive and outside admission; [Gear] has the other cases under
// LeverRatio. With lost motion the valve is behind that by half of it, and at rest
// after each turn until it is taken up. The result is exact to the nearest picometre. It fails only where
// [Gear.Validate] does or t is not finite. It is geometry. See the Example.
func (g Gear) Displacement(t units.Angle) (units.Length, error) {
	m, err := g.turning(t)
	if err != nil {
		return units.Length{}, err
	}
	return length(m.TowardsCrank(m.Valve(float64(t)))), nil
}

// PistonPosition returns the distance of the piston from its head-end dead
// centre at crank angle t:
//
//	s = R*(1 - cos(t)) + L - sqrt(L^2 - (R*sin(t))^2)
//
//	R   half the stroke
//	L   connecting rod
//
// It fails only where [Gear.Validate] does or t is not finite. It is geometry.
// See the Example.
func (g Gear) PistonPosition(t units.Angle) (units.Length, error) {
	m, err := g.turning(t)
	if err != nil {
		return units.Length{}, err
	}
	return length(m.Piston(float64(t))), nil
}

// CrankAt returns the crank angle, from 0 to 180 degrees, at which the piston
// has gone the given share of its stroke from the head end; on the way back it
// is there at 360 degrees less that angle:
//
//	tan(t/2)^2 = s*(2*L - s) / ((2*R - s)*(2*L + 2*R - s))
//
//	s      share times stroke
//	R, L   half the stroke and connecting rod
//
// A share outside 0 to 1 is an error. It is geometry. See the Example.
func (g Gear) CrankAt(share float64) (units.Angle, error) {
	m, err := g.motion()
	switch {
	case err != nil:
		return 0, err
	case !(share >= 0 && share <= 1):
		return 0, fail.OutOfRange("share of the stroke", share, "from 0 to 1; 75 per cent is 0.75")
	}
	return units.Angle(m.CrankAt(share)), nil
}

// Openings are how far each cylinder port is uncovered at one crank angle.
type Openings struct{ Head, Crank Opening }

// An Opening is how far a port is open to steam and to exhaust, from zero to
// the width of the port. A port open to both passes steam straight to exhaust.
type Opening struct{ Steam, Exhaust units.Length }

// OpeningsAt returns the openings at crank angle t. It fails only where
// [Gear.Validate] does or t is not finite. It is geometry. See the Example.
func (g Gear) OpeningsAt(t units.Angle) (Openings, error) {
	m, err := g.turning(t)
	if err != nil {
		return Openings{}, err
	}
	open := m.Openings(float64(t))
	return Openings{Head: opening(open.Head), Crank: opening(open.Crank)}, nil
}

func opening(k kernel.Opening) Opening {
	return Opening{Steam: length(k.Steam), Exhaust: length(k.Exhaust)}
}
