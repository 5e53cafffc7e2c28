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
// Studs and their torque are in package joint, covers in cover, materials and
// rings in seal, settings of a machine table in dial; package template draws.
//
// A bad argument is an [*units.ArgumentError], a list that cannot be read an
// [*units.ParseError]. Holes are rigid and round; a third part between two is
// matched against each. Sources and checks: testdata/gasket/README.md.
package gasket
