// Package figure compares lengths as they are written: 28.5 mm in a book, 1 1/8 in
// on a drawing, 1.200 in under a caliper, all said to be one length.
//
//	book, err := figure.Parse("28.5 mm")
//	drawing, err := figure.Parse("1.125 in")
//	fmt.Println(book.Agrees(drawing))
//
// Two figures agree when rounding accounts for what parts them; [Check] says of
// those that do not by how much, and what moves with them. Which of them is right
// it does not know.
//
// Text that cannot be read is a [*units.ParseError]. Sources and checks are in
// testdata/units/figure/README.md.
package figure
