// Package template draws a gasket at full size on paper that proves its own
// scale: SVG, PDF and DXF of a [gasket.Outline], ready to print, stick down, punch
// and cut. For a page on a screen there is [Template.WritePicture], which is not to
// cut from.
//
// Every printed sheet carries a bar of 100 mm, which is 3.937 in, across and one
// up the page, the name and thickness of the part, its holes with the punch to
// take, and a cross through the centre of every hole. Printers shrink and
// stretch, and not always alike both ways: measure the bars, work out the factors
// with [Factor], give them as [Options.Correction] and print again. [CheckScale]
// may know the reason. Parts larger than the paper go over several sheets with
// match lines and targets. What is hatched stays; the openings are left white.
//
// DXF is release 12, never corrected, with the outside and the openings on layer
// CUT and the round holes on HOLES. [Template.WriteCutSVG] and [Template.WriteCutDXF]
// hold what a machine cuts and nothing else. Release 12 does not record its unit: choose
// millimetres on reading it in and measure the bar.
//
// [NewMarking] lays out the marking of a cover or of a port face on the same sheets,
// with the place of each hole and line from the middle and from an edge; what is to be
// scribed is on layer LINES, what only comes to lie there on HIDDEN.
//
// The dimensions are those that help to check a gasket, not all that would be
// needed to make the part without it: this is not for engine drawings at large.
//
// A bad argument is an [*units.ArgumentError], a paper that there is none of a
// [*units.ParseError]. Sources, formats and checks: testdata/gasket/template/README.md.
package template
