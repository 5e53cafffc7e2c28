package wires

import "math"

// groove is the space that a wire lies in, in one unit of length throughout:
// symmetrical straight flanks at a half angle, pitch and lead.
type groove struct {
	half, pitch, lead float64
}

// bestWire touches the flanks at the pitch line of a ring-shaped groove:
// W = P/2 sec A.
func (g groove) bestWire() float64 { return g.pitch / 2 / math.Cos(g.half) }

// wires returns the least wire that stands proud of a crest and the largest
// that still touches the straight flank, given how far the crest and the end of
// the straight flank lie outside the pitch line.
//
//	least = 2 * sin A * (crest + P/4 * cot A) / (1 + sin A)
//	most  = 2 * sin A * (flank + P/4 * cot A) / cos^2 A
//
// Both follow from the wire's centre, W/2 / sin A - P/4 * cot A outside the
// pitch line.
func (g groove) wires(crest, flank float64) (least, most float64) {
	sin, cos := math.Sincos(g.half)
	depth := g.pitch / 4 * cos / sin
	return 2 * sin * (crest + depth) / (1 + sin), 2 * sin * (flank + depth) / (cos * cos)
}

// over returns the measurement over three wires of a screw of pitch diameter e.
func (g groove) over(e, wire float64, c LeadCorrection) float64 {
	if c == HelicoidLeadCorrection {
		return g.helicoidOver(e, wire)
	}
	sin, cos := math.Sincos(g.half)
	m := e + wire*(1+1/sin) - g.pitch/2*cos/sin // Machinery's Handbook, 31st edition, p. 2130, for 60 degrees
	if c == H28LeadCorrection {
		m += g.h28(e, wire)
	}
	return m
}

// h28 is the term for lead angle of H28 with tan B = lead / (pi E).
func (g groove) h28(e, wire float64) float64 {
	tanB := g.lead / (math.Pi * e)
	sin, cos := math.Sincos(g.half)
	return wire / 2 * tanB * tanB * cos * cos / sin // Machinery's Handbook, 31st edition, p. 2127, after H28
}

// pitchDiameter inverts over.
func (g groove) pitchDiameter(m, wire float64, c LeadCorrection) float64 {
	e := m - g.over(0, wire, NoLeadCorrection)
	if c == NoLeadCorrection {
		return e
	}
	// The correction hardly moves with e: each step gains three digits or more.
	for range 6 {
		e += m - g.over(e, wire, c)
	}
	return e
}

// touch returns, for a round wire that touches the flanks at a distance r from
// the axis of the screw, the wire's diameter and the distance of its centre
// line. The flank is z = lead/2pi th + P/4 + (r - E/2) tan A in cylindrical
// coordinates with the groove's middle at th = 0.
//
// By the half-turn symmetry of the groove about the line from axis to wire, the
// wire's centre line crosses that line. The wire takes the slant in which it
// sinks deepest; the distance is stationary there only if the foot of the
// normal from the point of contact is the crossing itself. So the flank's
// normal at the point of contact, (h sin th - t r cos th, -(t r sin th + h cos
// th), r) with h = lead/2pi and t = tan A, has to meet the line: one equation
// for th.
func (g groove) touch(e, r float64) (wire, centre float64) {
	h, t := g.lead/(2*math.Pi), math.Tan(g.half)
	th := 0.0
	var z, sin, cos float64
	for range 8 { // Newton doubles the digits
		sin, cos = math.Sincos(th)
		z = h*th + g.pitch/4 + (r-e/2)*t
		f := r*r*sin + z*(t*r*sin+h*cos)
		slope := r*r*cos + h*(t*r*sin+h*cos) + z*(t*r*cos-h*sin)
		th -= f / slope
	}
	nx := h*sin - t*r*cos
	centre = r*cos - nx*z/r
	dx := r*cos - centre
	return 2 * math.Sqrt(dx*dx+r*r*sin*sin+z*z), centre
}

func (g groove) helicoidOver(e, wire float64) float64 {
	// The point of contact moves outwards as the wire grows; no wire that serves
	// touches farther from the pitch line than its own diameter.
	low, high := max(e/2-wire, e/100), e/2+wire
	for range 60 {
		r := (low + high) / 2
		if w, _ := g.touch(e, r); w < wire {
			low = r
		} else {
			high = r
		}
	}
	_, centre := g.touch(e, (low+high)/2)
	return 2*centre + wire
}

// bestWireHelicoid returns the wire that touches the helicoid at the pitch
// line.
func (g groove) bestWireHelicoid(e float64) float64 {
	w, _ := g.touch(e, e/2)
	return w
}
