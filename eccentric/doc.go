// Package eccentric computes what the gear of a slide-valve steam engine does,
// at both ends of the cylinder and before metal is cut: a valve driven by one
// fixed eccentric. A [Gear] is the drawing. Gear.Laps gives the laps,
// Gear.Events the crank angle and piston position of admission, cut-off,
// release and compression with lead and openings, Gear.Check what is wrong and
// what puts it right. Gear.WithLead sets the eccentric.
//
// # Conventions
//
// The head end is the end away from the crank. Crank angle t is counted from
// the head-end dead centre in the direction of rotation. The eccentric leads
// the crank by 90 degrees and the angle of advance; for levers and inside
// admission see [Gear]. Displacements are positive towards the crank, from
// mid-travel. With
//
//	R, L   crank radius (half the stroke) and connecting rod
//	r, l   eccentric offset (half the travel) and eccentric rod
//	d      angle of advance, and a = t + d
//	S, E   steam lap and exhaust lap; a negative exhaust lap is clearance
//	x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2) + Offset     valve
//	s = R*(1 - cos(t)) + L - sqrt(L^2 - (R*sin(t))^2)        piston, from the head end
//
// the head port is open to steam while x > S and to exhaust while x < -E, the
// crank port while x < -S and while x > E. The trade's word for the offset of
// the sheave also means the travel, which is twice that; it is not used here.
//
// A bad argument is an [*units.ArgumentError], text that cannot be read an
// [*units.ParseError]. A rod that was left out is an error too: an infinitely
// long one must be asked for. Left out of the package are link motions, radial
// gears, expansion valves, bending and wear, and steam itself. A model engine
// under steam is a pressure vessel with a flywheel on it: no figure here replaces
// the boiler code, the club's test or licensed practice. Sources and checks:
// testdata/eccentric/README.md.
package eccentric
