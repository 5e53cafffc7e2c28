// Package material knows what the parts of a small engine are made of: by the
// names the workshop uses, how stiff, heavy and strong each material is and how
// much it grows with heat.
//
//	iron, err := material.Lookup("grey cast iron")
//	fmt.Println(iron.Expansion.Value, iron.Expansion.Refs.First())
//
// Every property is a [Figure]: the value that calculations use, the spread of
// all the works that were read, and where each of them prints it. Figures are
// typical, not guaranteed, and hold near room temperature; expansion is a mean that
// is used from [ExpansionFrom] to [ExpansionTo]. Where the figure of the bar in hand is known, put it in
// with [Given].
//
// Every package and program of this module takes the same names; a name that no
// material has is a [*units.ParseError] with those that it might have meant. What
// the figures rest on, how they are checked and what is left out is in
// testdata/units/material/README.md.
package material
