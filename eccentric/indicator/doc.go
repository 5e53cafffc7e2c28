// Package indicator computes what goes on in the cylinder of a slide-valve engine,
// as an indicator would draw it, and what the crank gets of it: pressures at any
// angle, work, mean pressure, power, turning moment, where the engine starts by
// itself, what the ports and the moving parts do to it. A [Running] is the engine at
// work; its methods answer.
//
// # The cycle
//
// It is the ideal one that eccentric.Gear.Check judges by, with the sizes of the
// engine. Each end is by itself. With the volume V behind the piston, clearance and
// all, the pressure p is
//
//	ps           while the port is open to steam, to exhaust as well or not
//	pb           while it is open to exhaust alone
//	p * V^k      unchanged while it is shut, from the last closing on
//
// and jumps where a port opens. Both rods have their true length, and the valve's
// edges pass the ports in whatever order the gear has. What a real engine loses in
// ports, by leaks and to cold walls is not in it; [Running.Power] says how much of
// the power books leave. Conventions are those of package eccentric: the head end is
// away from the crank, and angles count from the head-end dead centre in the
// direction of rotation.
//
// Pressures that go in are above the atmosphere, as a gauge shows them; those that
// come out are absolute, and [Running.Gauge] turns them back. Work, moments and power
// are those of the piston: without friction, save where a friction is asked for.
//
// A bad argument, or one that was left out, is an [*units.ArgumentError] that names
// the usual range. A model engine under steam or air is a pressure vessel with a
// flywheel on it: no figure here replaces the boiler code, the club's test or
// licensed practice. Sources and checks: testdata/eccentric/indicator/README.md.
package indicator
