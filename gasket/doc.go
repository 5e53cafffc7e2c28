// Package gasket works out hole patterns, whether two parts really go together
// over their studs, and the shape of the gasket between them: area, centroid,
// what is left between holes and edges, and the outline moved in or out.
//
// A [Pattern] is a list of holes, made by [BoltCircle] or [Rectangle] or read by
// [ReadPattern]. [Match] lays one pattern on another. An [Outline] is a [Loop] of
// straight sides and true arcs with openings and holes. Coordinates are X to the
// right and Y up, seen from one side of the part; handbook tables count Y
// downwards, and a [Datum] turns one into the other.
//
// What the joint carries is in package joint, how thin cover and wall may be in
// package cover, what the gasket is made of in package seal, and the settings of
// a machine table in package dial. The package does not draw; see package
// template.
//
// # Sources
//
// Machinery's Handbook, 31st edition, pp. 709-710, for hole circles; ASME Y14.5
// for fixed and floating fasteners, by way of a textbook. The rest is geometry.
// The fit of the smallest greatest error is solved to the global best, and the
// method is told where the code is (place.go).
//
// # What is left out
//
// A third part between two: a gasket loose on its studs is matched against each.
// Slots; holes that are not round. The chord to step off with dividers is in
// package speeds/setting. No published figure was found for the least
// width of a web: the rule of thumb that [Outline.Check] holds to says so.
//
// # How it was checked
//
// Hole circles against the handbook's printed examples and 806 computed
// holes; chords against a printed table, two rows of which are misprints;
// fits against scipy and against a search that shares no code, and on 5,000
// random patterns; areas against shapely; offsets by distance and by hand.
package gasket
