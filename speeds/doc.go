// Package speeds says how fast to turn the spindle, how far to feed, and what
// to mind, for an operation on a metal with a tool, on the speeds that a machine
// really has.
//
//	plan, err := speeds.Job{Operation: speeds.Facing, Material: iron, Diameter: units.MM(150), Machine: lathe}.Plan()
//
// [Recommend] gives the cutting speed with its source, [Ladder.Choose] the step of
// the machine, [FeedFor] the feed, [Job.Plan] all of it with findings,
// [Range.Precautions] what keeps whole fingers. The figures are to start from on
// light machines; coatings, grades of carbide and tool life are left out. An
// argument that makes no sense is a [*units.ArgumentError], text that cannot be read
// a [*units.ParseError]. Sources, checks and gaps: testdata/speeds/README.md.
//
// Rotating work kills: local codes and licensed practice come first.
package speeds
