package kernel

import "math"

// A Motion is a gear as the formulas want it. Displacements of the valve in it
// are towards opening the head port to steam, which is away from the crank where
// admission is inside.
type Motion struct {
	Stroke, Rod  float64 // 2 R and L
	Reach        float64 // r, half the travel, of what drives the valve
	EccentricRod float64 // l, with a lever times its ratio; negative where its slant works against opening the head port
	Advance      float64 // d
	Shift        float64 // of the valve off centre
	Late         float64 // half the lost motion, by which the valve is behind what drives it
	Inside       bool    // displacements are away from the crank

	Steam   [Ends]float64 // S, of [Both] the mean
	Exhaust [Ends]float64 // E, of [Both] the mean
	Port    [Ends]float64 // width of the port to the cylinder, of [Both] the mean
}

// Valve returns the displacement of the valve at crank angle t, in a turn that
// has others before it, so that the lost motion has been taken up.
func (m *Motion) Valve(t float64) float64 {
	sin, cos := math.Sincos(t + m.Advance)
	x := m.Reach*sin + rise(m.Reach*cos, m.EccentricRod) // x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2)
	return m.follow(x, cos >= 0) + m.Shift
}

// follow returns where the valve stands when that which drives it is displaced by
// x on its way out, towards opening the head port to steam, or back: behind it by
// half the lost motion, and first at rest, until the lost motion is taken up, where
// the way before has left it.
func (m *Motion) follow(x float64, out bool) float64 {
	switch {
	case m.Late == 0:
		return x
	case out:
		return max(x-m.Late, m.Late-m.Reach)
	}
	return min(x+m.Late, m.Reach-m.Late)
}

// TowardsCrank returns a displacement counted towards the crank.
func (m *Motion) TowardsCrank(x float64) float64 {
	if m.Inside {
		return -x
	}
	return x
}

// Piston returns the piston's distance from the head end at crank angle t.
func (m *Motion) Piston(t float64) float64 {
	sin, cos := math.Sincos(t / 2)
	return m.Stroke*sin*sin + rise(m.Stroke*sin*cos, m.Rod) // s = R*(1 - cos(t)) + L - sqrt(L^2 - (R*sin(t))^2)
}

// CrankAt returns the crank angle from 0 to pi at which the piston has gone a
// share of its stroke from the head end.
func (m *Motion) CrankAt(share float64) float64 {
	gone, left := m.Stroke*share, m.Stroke*(1-share)
	gone *= 2*m.Rod - gone
	left *= 2*m.Rod + left
	return 2 * math.Atan2(math.Sqrt(gone), math.Sqrt(left)) // tan(t/2)^2 = s*(2*L - s) / ((2*R - s)*(2*L + 2*R - s))
}

// Uncovered returns the opening of a port of the given width whose edge the
// valve's edge has passed by the given amount.
func Uncovered(past, port float64) float64 {
	if past > port {
		return port
	}
	if past < 0 {
		return 0
	}
	return past
}

// Openings are how far each cylinder port is uncovered at one crank angle.
type Openings struct{ Head, Crank Opening }

// An Opening is how far one port is open to steam and to exhaust.
type Opening struct{ Steam, Exhaust float64 }

// Openings returns the openings at crank angle t.
func (m *Motion) Openings(t float64) Openings {
	x := m.Valve(t)
	return Openings{
		Head:  m.opening(x, Head),
		Crank: m.opening(-x, Crank),
	}
}

// opening is how far the port of one end is open with the valve displaced by x
// towards opening it to steam.
func (m *Motion) opening(x float64, end End) Opening {
	port := m.Port[end]
	return Opening{Steam: Uncovered(x-m.Steam[end], port), Exhaust: Uncovered(-x-m.Exhaust[end], port)}
}

// Slant returns how far the slant of the eccentric rod moves the valve when the
// crank stands at either dead centre.
func (m *Motion) Slant() float64 {
	return rise(m.Reach*math.Cos(m.Advance), m.EccentricRod) // l - sqrt(l^2 - (r*cos(d))^2)
}

// EqualLeadShift returns the displacement of the valve at which both ends have the
// same lead.
func (m *Motion) EqualLeadShift() float64 {
	if m.Late == 0 {
		return (m.Steam[Head]-m.Steam[Crank])/2 - m.Slant()
	}
	// Half the difference of the leads that a valve in the middle has.
	head, crank := m.deadCentres(math.Sincos((math.Pi/2 + m.Advance) / 2))
	return (m.Steam[Head] - head + crank - m.Steam[Crank]) / 2
}

// deadCentres returns the displacements of a valve that is not off centre, each
// towards opening that end to steam, when the crank stands at the end's dead
// centre. The sine and the cosine are those of half the angle by which the
// eccentric then leads its place furthest from that.
func (m *Motion) deadCentres(sin, cos float64) (head, crank float64) {
	out := m.Reach * (sin - cos) * (sin + cos)       // r*sin(d)
	slant := rise(2*m.Reach*sin*cos, m.EccentricRod) // l - sqrt(l^2 - (r*cos(d))^2)
	forwards := sin*cos >= 0                         // -90 <= d <= 90 degrees: on the way out
	return m.follow(out+slant, forwards), m.follow(out-slant, forwards)
}

// AdvanceFor returns the angle of advance from -pi/2 to pi/2 at which one end has
// the given lead, or for [Both] both have it as their mean; false if the travel
// does not reach it.
func (m *Motion) AdvanceFor(lead float64, end End) (float64, bool) {
	wanted, l := m.Steam[end]+lead, m.EccentricRod // where the valve is to stand
	switch end {
	case Both:
		l = endless // what its slant does at one end it undoes at the other
	case Head:
		wanted -= m.Shift
	case Crank:
		wanted += m.Shift
		l = -l
	}
	if !(math.Abs(wanted) < m.Reach-m.Late) {
		return 0, false
	}
	driver := wanted + m.Late
	sin, cos := passing(driver, m.Reach, l) // sin(d) = (S + lead) / r, and with the slant of the rod
	if end == Both && m.Late > 0 {
		if slant := math.Abs(rise(2*m.Reach*sin*cos, m.EccentricRod)); driver-slant < 2*m.Late-m.Reach {
			// The valve is still at rest at the dead centre of the end that the slant keeps back, and what that end
			// does not go back the other does not go forward.
			sin, cos = passing(2*wanted+m.Reach, m.Reach, math.Abs(m.EccentricRod))
		}
	}
	return arc(allMarks(), sin, cos) - math.Pi/2, true
}

// passing returns where the valve passes displacement c, short of r either way,
// before the offset and on its way to opening the head port to steam: the sine
// and the cosine of half the eccentric's angle p, of 0 to 180 degrees, from its
// place furthest from that. The valve passes back at 360 degrees - p.
//
// The eccentric centre, the shaft and the end of the eccentric rod are a triangle
// of sides r, l and l - c with the angle p at the shaft. The half-angle form of
// the cosine rule keeps its digits where the valve hardly reaches c.
func passing(c, r, l float64) (sin, cos float64) {
	all := 1 / (4 * r * (l - c))
	// For an infinite rod both lines are the valve circle, sin(t + d) = c/r: Bevan, The Theory of Machines, ch. 5.
	sin = math.Sqrt((r + c) * (2*l - c - r) * all) // sin(p/2)^2 = (r + c)*(2*l - c - r) / (4*r*(l - c))
	cos = math.Sqrt((r - c) * (2*l - c + r) * all) // cos(p/2)^2 = (r - c)*(2*l - c + r) / (4*r*(l - c))
	return sin, cos
}

// rise returns l - sqrt(l^2 - y^2) without the loss of digits that taking it
// literally brings, for a negative l with the other sign.
func rise(y, l float64) float64 {
	return y * y / (l + math.Copysign(math.Sqrt((l-y)*(l+y)), l))
}
