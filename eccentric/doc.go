// Package eccentric computes what the valve gear of a slide-valve steam engine
// does: a valve driven by one fixed eccentric, at both ends of the cylinder,
// before metal is cut.
//
// A [Gear] holds the dimensions on the drawing. [Gear.Laps] gives the laps,
// [Gear.Events] the crank angle and piston position of admission, cut-off,
// release and compression with lead and openings, and [Gear.Check] what is
// wrong with the engine as drawn, what it will do, and what puts it right.
// [Gear.WithLead] sets the eccentric for a wanted lead.
//
// # Conventions
//
// The head end of the cylinder is the end away from the crank. Crank angle t is
// counted from the head-end dead centre in the direction of rotation. The
// eccentric leads the crank by 90 degrees and the angle of advance.
// Displacements are positive towards the crank and are counted from mid-travel.
// With
//
//	R, L   crank radius (half the stroke) and connecting rod
//	r, l   eccentric offset (half the travel) and eccentric rod
//	d      angle of advance, and a = t + d
//	S, E   steam lap and exhaust lap; a negative exhaust lap is clearance
//
// the valve stands at x and the piston at s from the head end:
//
//	x = r sin a + l - sqrt(l^2 - r^2 cos^2 a) + Offset
//	s = R(1 - cos t) + L - sqrt(L^2 - R^2 sin^2 t)
//
// and the head port is open to steam while x > S and to exhaust while x < -E,
// the crank port while x < -S and while x > E.
//
// The offset of the sheave is half the travel of the valve. The trade's word
// for either has been the same, which has spoilt many a sheave; it is not used
// here.
//
// # Levers and inside admission
//
// The eccentric's place depends on what lies between it and the valve. The
// angle of advance d means the same in each case; [Gear.EccentricLead] tells
// where the sheave goes:
//
//	                     outside admission     inside admission
//	direct               leads by 90 + d       follows by 90 - d
//	reversing lever      follows by 90 - d     leads by 90 + d
//
// A lever or inside admission also turns round the sign of the terms in l above
// when it turns round the sheave, and inside admission that of Offset, seen
// from the port that is to open.
//
// # Sources
//
// The motion is exact geometry with both rods at their true length. The
// definitions of lap, lead and advance are those of T. Bevan, The Theory of
// Machines, chapter 5, and of W. J. Tennant and J. H. Kinealy, The Slide Valve
// Simply Explained (1899). The tests hold the events against their worked
// examples, against the rules of J. Bourne's Catechism of the Steam Engine
// (two of which are misprinted in the text seen), and, in continuous
// integration, against an independent root finder.
//
// # Left out
//
// Link motions, radial gears and expansion valves; the bending and the wear of
// rods and pins; and steam itself.
//
// A model engine under steam is a pressure vessel with a flywheel on it. No
// figure here replaces the boiler code, the club's test or licensed practice
// where the engine runs.
package eccentric
