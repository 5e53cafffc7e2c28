// Package sheet holds one drawing model in millimetres and writes it as SVG, as
// DXF R12 and as PDF, at true size.
//
// A [Drawing] is a sheet with its origin in the lower left corner, X to the
// right and Y up. It takes lines, circles, arcs, polylines with bulges, filled
// shapes, text, hatching and dimensions, each on a [Layer] that says how wide
// the line is and how it is broken. A [View] shows a part of one drawing
// on another, which is how a large drawing is cut into printed pages.
//
// Adding to a drawing returns no error. The first thing that cannot be drawn (a
// coordinate that is not finite, a layer name that DXF cannot carry, more than
// [MaxPoints] points) is kept, ends the drawing there, and comes back from
// [Drawing.Err] and from every writer, so that no half-drawn file is written.
//
// # The three formats
//
// SVG is written with its width and height in millimetres and a viewBox to
// match, so that one user unit is one millimetre. Circles stay circles.
//
// DXF is release 12 (AC1009) in plain ASCII: LINE, CIRCLE, ARC, POLYLINE, SOLID
// and TEXT on upper-case layers. Release 12 has no way of saying what its unit
// is; the file says millimetres in a comment and carries only true sizes.
//
// PDF has one page a drawing, its print scaling set to none, an embedded font,
// and no date but a fixed one: the same drawing gives the same bytes.
//
// # Text
//
// Text comes from outside and is not trusted: markup is escaped in SVG, control
// codes in DXF. Characters that do not print, or that turn the direction of
// what follows, and characters beyond the Basic Multilingual Plane are drawn as
// U+FFFD, in sight. Heights are those of a capital letter.
//
// The package writes; it reads nothing back. It knows no colours beyond the
// layer colours of DXF, no pictures and no blocks.
package sheet
