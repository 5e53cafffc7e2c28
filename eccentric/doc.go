// Package eccentric computes what a slide valve driven by one fixed eccentric does
// at both ends of the cylinder, before metal is cut. A [Gear] is the drawing:
// Gear.Events gives its events, leads and openings, Gear.Check what is wrong and
// what puts it right, Gear.WithLead sets the eccentric. [Design] finds a gear for a
// wish, [Salvage] what saves one; a [Room] is the piston between its covers.
//
// # Conventions
//
// The head end is away from the crank. Crank angle t is counted from the head-end
// dead centre in the direction of rotation. The eccentric leads the crank by 90
// degrees and the angle of advance; for levers and inside admission see [Gear].
// Displacements are positive towards the crank, from mid-travel. With
//
//	R, L   crank radius (half the stroke) and connecting rod
//	r, l   eccentric offset (half the travel) and eccentric rod
//	d      angle of advance, and a = t + d
//	S, E   steam lap and exhaust lap; a negative exhaust lap is clearance
//	x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2) + Offset     valve
//	s = R*(1 - cos(t)) + L - sqrt(L^2 - (R*sin(t))^2)        piston, from the head end
//
// the head port is open to steam while x > S and to exhaust while x < -E, the
// crank port while x < -S and while x > E, with the laps of that end; lost motion
// makes x late ([Valve]). The trade's one word for offset and travel is not used.
//
// A bad argument is an [*units.ArgumentError], text that cannot be read an
// [*units.ParseError]; so is a rod that was left out, as an infinitely long one
// must be asked for. Left out are link motions, radial gears, expansion valves,
// bending, and steam itself. A model engine under steam is a pressure vessel with a
// flywheel on it: no figure here replaces the boiler code, the club's test or
// licensed practice. Sources and checks: testdata/eccentric/README.md.
package eccentric
