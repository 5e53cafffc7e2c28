// Package indicator computes what goes on in the cylinder of a slide-valve engine,
// as an indicator would draw it, and what comes of it: pressures at any angle, work
// and power, turning moment, from where the engine starts, what it takes of air,
// steam and oil. A [Running] is the engine at work; its methods answer.
//
// The cycle is the ideal one that eccentric.Gear.Check judges by, each end by
// itself. With the volume V behind the piston, clearance and all, the pressure p is
//
//	ps           while the port is open to steam, to exhaust as well or not
//	pb           while it is open to exhaust alone
//	p * V^k      unchanged while it is shut, from the last closing on
//
// and jumps where a port opens, in whatever order the gear has it. Both rods have
// their true length. What ports, leaks and cold walls take is not in it, nor
// friction, save where the answer says so. Conventions are those of package
// eccentric; angles count from the head-end dead centre.
//
// Pressures that go in are above the atmosphere, as a gauge shows them; those that
// come out are absolute, and [Running.Gauge] turns them back. A bad argument, or one
// that was left out, is an [*units.ArgumentError] that names the usual range. A model
// engine under steam or air is a pressure vessel with a flywheel on it: no figure here
// replaces the boiler code, the club's test or licensed practice. Sources and checks:
// testdata/eccentric/indicator/README.md.
package indicator
