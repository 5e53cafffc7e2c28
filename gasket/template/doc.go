// Package template draws a gasket at full size on paper that proves its own
// scale: SVG, PDF and DXF of a [gasket.Outline], ready to print, stick down, punch
// and cut.
//
// Every printed sheet carries a bar of 100 mm, which is 3.937 in, across and one
// up the page, the name and thickness of the part, its holes with the punch to
// take, and a cross through the centre of every hole. Printers shrink and
// stretch, and not always alike both ways: measure the bars, work out the factors
// with [Factor], give them as [Options.Correction] and print again. Parts larger
// than the paper go over several sheets with match lines and targets.
//
// PDF asks for no scaling when it is printed. DXF is release 12 in millimetres,
// never corrected, with the outside and the openings on layer CUT, the round
// holes on HOLES and centres, dimensions and notes on layers of their own.
// Release 12 does not record its unit: choose millimetres on reading it in and
// measure the bar.
//
// The hatching on a drawing marks what stays; the openings are left white. For a
// page on a screen there is [Template.WritePicture], which is not to cut from.
//
// It is not for engine drawings at large: dimensions are those that help to
// check a gasket, not all that would be needed to make the part without it.
//
// Sheet sizes are those of ISO 216 and the North American sizes; line widths,
// arrowheads and text heights are common drawing practice. The tests compare
// the sheet sizes with published tables; continuous integration reads every
// format back with independent programs and measures the bars.
//
// A caution stands on every sheet and in every file: jointing of unknown age may
// hold asbestos and is not to be scraped, cut or sanded dry.
package template
