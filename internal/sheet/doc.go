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
// SVG has its width and height in millimetres and a viewBox to match. DXF is
// release 12 (AC1009) in plain ASCII, which cannot say what its unit is; the file
// says millimetres in a comment and carries only true sizes. PDF has one page a
// drawing, asks for no scaling, embeds its font and has a fixed date: the same
// drawing gives the same bytes.
//
// Text comes from outside and is not trusted: markup is escaped in SVG, control
// codes in DXF. Characters that do not print, that turn the direction of what
// follows, or that are beyond the Basic Multilingual Plane are drawn as U+FFFD.
// Heights are those of a capital letter.
//
// The package writes; it reads nothing back. It knows no colours beyond the
// layer colours of DXF, no pictures and no blocks.
package sheet
