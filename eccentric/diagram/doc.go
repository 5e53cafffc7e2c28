// Package diagram draws the gear that package eccentric computes: the valve over its
// ports in section, crank, sheave and rods, and the diagrams of the textbooks, each
// dimensioned for the gear that it is given.
//
// Every function returns a [Picture], or several, with its words beside it: a name
// that no other has, a title, what there is to see for who cannot see it, and a caption.
// A picture is a sheet 120 mm wide, to be shown or printed as large as there is room;
// measure nothing on it. It has black lines of two widths on white, letters of 2.5 mm
// and more and hatching in place of colour, and survives a photocopier. It writes
// itself as SVG, DXF and PDF.
//
// The numbers on a picture are those of the gear's own methods, in millimetres or
// in inches by [Options]; nothing is computed a second time. Conventions are those of
// package eccentric: the head end is away from the crank, and stands on the left.
//
// A gear that no gear can be is the [*units.ArgumentError] of its Validate. What never
// happens is drawn as never, in words. How pictures are measured, and what they are
// not checked against, is in testdata/eccentric/diagram/README.md.
package diagram
