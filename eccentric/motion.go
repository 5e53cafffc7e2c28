package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

// motion is a gear in float64 as the formulas want it, in radians and in
// picometres: whole numbers, so that the difference between a travel and a lap
// that nearly equals it is exact.
type motion struct {
	crank, rod float64 // R and L; L is +Inf for an infinitely long rod
	r, l       float64 // of the valve: with a lever, both times its ratio
	advance    float64
	steam      float64 // S
	exhaust    float64 // E
	port       float64
	oblique    float64 // +1 or -1: sign of the eccentric rod's terms towards opening the head port to steam
	offset     float64 // of the valve, towards opening the head port to steam
	toCrank    float64 // +1 if that direction is towards the crank, else -1
}

func (g Gear) motion() motion {
	laps := g.Laps()
	m := motion{
		crank: count(g.Stroke) / 2, rod: rodCount(g.ConnectingRod),
		r: count(g.Travel) / 2, l: rodCount(g.EccentricRod),
		advance: float64(g.Advance),
		steam:   count(laps.Steam), exhaust: count(laps.Exhaust), port: count(g.Ports.Steam),
		oblique: 1, offset: count(g.Valve.Offset), toCrank: 1,
	}
	if g.LeverRatio != 0 {
		m.l *= math.Abs(g.LeverRatio)
	}
	if g.InsideAdmission {
		m.toCrank, m.offset = -1, -m.offset
	}
	if (g.LeverRatio < 0) != g.InsideAdmission {
		m.oblique = -1
	}
	return m
}

func count(l units.Length) float64 { return float64(l.Picometres()) }

func rodCount(l units.Length) float64 {
	if l.IsZero() {
		return math.Inf(1)
	}
	return count(l)
}

// length is the inverse of count, to the nearest picometre.
func length(v float64) units.Length { return units.Picometres(int64(math.Round(v))) }

// valve returns the displacement towards opening the head port to steam at
// crank angle t.
func (m *motion) valve(t float64) float64 {
	sin, cos := math.Sincos(t + m.advance)
	return m.r*sin + m.oblique*rise(m.r*cos, m.l) + m.offset
}

// rise returns l - sqrt(l^2 - y^2) without the loss of digits that taking it
// literally brings, and zero for an infinite l.
func rise(y, l float64) float64 {
	if math.IsInf(l, 1) {
		return 0
	}
	return y * y / (l + math.Sqrt((l-y)*(l+y)))
}

// piston returns the piston's distance from the head end at crank angle t.
func (m *motion) piston(t float64) float64 {
	sin, cos := math.Sincos(t / 2)
	return 2*m.crank*sin*sin + rise(2*m.crank*sin*cos, m.rod)
}

// A crossing is where the valve passes some displacement on its way to opening
// the head port to steam: the eccentric's angle p from its place furthest from
// that, 0 to 180 degrees, with the sine and the cosine of p/2. The valve passes
// back at 360 degrees - p.
type crossing struct{ p, sin, cos float64 }

// crossing returns where the valve passes displacement c before the offset. It
// reports false if the valve does not get past c.
//
// The eccentric centre, the shaft and the end of the eccentric rod are a
// triangle of sides r, l and l - c with the angle p at the shaft. The half-angle
// form of the cosine rule,
//
//	sin^2(p/2) = (r + c)(2l - c - r) / 4r(l - c)
//	cos^2(p/2) = (r - c)(2l - c + r) / 4r(l - c),
//
// keeps its digits where the valve hardly reaches c.
func (m *motion) crossing(c float64) (at crossing, ok bool) {
	if c = m.oblique * c; !(math.Abs(c) < m.r) {
		return crossing{}, false
	}
	far, near, all := 1.0, 1.0, 2*m.r
	if !math.IsInf(m.l, 1) {
		far, near, all = 2*m.l-c-m.r, 2*m.l-c+m.r, 4*m.r*(m.l-c)
	}
	at.sin, at.cos = math.Sqrt((m.r+c)*far/all), math.Sqrt((m.r-c)*near/all)
	if m.oblique < 0 { // solved for the side of the triangle that looks the other way
		at.sin, at.cos = at.cos, at.sin
	}
	at.p = 2 * math.Atan2(at.sin, at.cos)
	return at, true
}

// turning returns the motion of the gear if both it and the crank angle t are
// sound.
func (g Gear) turning(t units.Angle) (motion, error) {
	if err := g.Validate(); err != nil {
		return motion{}, err
	}
	if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
		return motion{}, &units.ArgumentError{Package: "eccentric", Field: "crank angle", Value: t.String(), Accepted: "any finite angle", Err: units.ErrNotFinite}
	}
	return g.motion(), nil
}

// Displacement returns how far the valve stands from mid-travel at crank angle
// t, positive towards the crank:
//
//	x = r sin a + l - sqrt(l^2 - r^2 cos^2 a) + Offset,  a = t + advance
//
// for direct drive and outside admission; [Gear] has the other cases under
// LeverRatio. The result is exact to the nearest picometre. It fails only where
// [Gear.Validate] does or t is not finite.
func (g Gear) Displacement(t units.Angle) (units.Length, error) {
	m, err := g.turning(t)
	if err != nil {
		return units.Length{}, err
	}
	return length(m.toCrank * m.valve(float64(t))), nil
}

// PistonPosition returns the distance of the piston from its head-end dead
// centre at crank angle t:
//
//	s = R(1 - cos t) + L - sqrt(L^2 - R^2 sin^2 t)
//
// It fails only where [Gear.Validate] does or t is not finite. It is geometry.
func (g Gear) PistonPosition(t units.Angle) (units.Length, error) {
	m, err := g.turning(t)
	if err != nil {
		return units.Length{}, err
	}
	return length(m.piston(float64(t))), nil
}

// CrankAt returns the crank angle, from 0 to 180 degrees, at which the piston
// has gone the given share of its stroke from the head end; on the way back it
// is there at 360 degrees less that angle. With s = share times stroke,
//
//	tan^2(t/2) = s(2L - s) / ((2R - s)(2L + 2R - s))
//
// A share outside 0 to 1 is a [*units.ArgumentError]. It is geometry.
func (g Gear) CrankAt(share float64) (units.Angle, error) {
	if err := g.Validate(); err != nil {
		return 0, err
	}
	if !(share >= 0 && share <= 1) {
		return 0, &units.ArgumentError{Package: "eccentric", Field: "share of the stroke", Value: formatShare(share), Accepted: "from 0 to 1; 75 per cent is 0.75", Err: units.ErrOutOfRange}
	}
	m := g.motion()
	gone, left := 2*m.crank*share, 2*m.crank*(1-share)
	if !math.IsInf(m.rod, 1) {
		gone *= 2*m.rod - gone
		left *= 2*m.rod + left
	}
	return units.Angle(2 * math.Atan2(math.Sqrt(gone), math.Sqrt(left))), nil
}

// Openings are how far each cylinder port is uncovered at one crank angle.
type Openings struct{ Head, Crank Opening }

// An Opening is how far a port is open to steam and to exhaust, from zero to
// the width of the port. A port open to both passes steam straight to exhaust.
type Opening struct{ Steam, Exhaust units.Length }

// OpeningsAt returns the openings at crank angle t. It fails only where
// [Gear.Validate] does or t is not finite.
func (g Gear) OpeningsAt(t units.Angle) (Openings, error) {
	m, err := g.turning(t)
	if err != nil {
		return Openings{}, err
	}
	u := m.valve(float64(t))
	return Openings{
		Head:  Opening{Steam: m.uncovered(u - m.steam), Exhaust: m.uncovered(-u - m.exhaust)},
		Crank: Opening{Steam: m.uncovered(-u - m.steam), Exhaust: m.uncovered(u - m.exhaust)},
	}, nil
}

// uncovered is the opening of a port whose edge the valve's edge has passed by
// the given amount.
func (m *motion) uncovered(past float64) units.Length {
	return length(min(max(past, 0), m.port))
}
