// Package assembly says how the parts of a joint go together, what they then
// bear, and what heat makes of them: pressed, shrunk, glued, held by a grub
// screw, running warm, or a ring in its bore.
//
//	r, err := assembly.Press{Diameter: units.MM(20), ...}.Solve()
//	h, err := assembly.Holds(r.Torque, assembly.Cut{...})
//
// Fill in the struct and Solve it. Results come at both ends, least and most, hot
// and cold, with findings that say what is wrong before metal is cut or an oven
// is lit, and precautions where the work itself can hurt somebody.
//
// A bad argument is a [*units.ArgumentError]. A temperature carries its scale:
// [units.Celsius] or [units.Fahrenheit]; the zero temperature is missing.
// Materials are those of units/material. The joints are for shop use by people
// who check their work: whatever runs under pressure or fast falls under the
// rules of the place and, where they ask for it, under licensed practice.
// Sources, checks and gaps: testdata/fits/assembly/README.md.
package assembly
