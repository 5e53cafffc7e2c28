// Package material knows what the parts of a small engine are made of: by the
// names the workshop uses, how stiff, heavy and strong each material is and how
// much it grows with heat.
//
//	iron, err := material.Lookup("grey cast iron")
//	fmt.Println(iron.Expansion.Value, iron.Expansion.Refs.First())
//
// Every property is a [Figure]: the value that calculations use, the spread of
// all the sources that were read, and a [source.Ref] for each of them. Grey iron
// is the reason: its modulus is printed as anything from 62 to 159 GPa, and a
// fit worked out from one of these is only as good as the casting. Where the
// figure of the bar in hand is known, put it in with [Given].
//
// # Sources
//
// Textbook appendices (Callister; Philpot; Dowling; a mechanics of materials
// textbook), copper alloy data sheets after ASTM B505 and B584, a gear handbook,
// BS 970 and EN 1561 in reprints; the tables below tables/ name edition, table and page
// of each row. Rows from memory say so: tool steels, the free-cutting grades of
// steel and stainless steel, and the annex of EN 1561 among them. The tests
// compare the values in use with the property tables of other works.
//
// # Limits
//
// Grey iron has no yield strength: it breaks before it yields, and its tensile
// strength stands in the place. Figures hold near room temperature and, for expansion, as a mean up to about
// 200 degrees C. They are typical, not guaranteed: strength above all goes with
// temper, section and casting. Left out are hardness, fatigue and creep, which
// depend on more than a name, and cutting data, which package speeds has under
// the same names.
package material
