// Package setting says how a slide valve and its eccentric are set on the engine:
// what is done in which order, what is to be read after each step, and what to turn,
// and by how much, when something else is read.
//
// A [Setting] is a gear that is to be set, with what it is set by: the thread of the
// valve spindle, the shaft, the rim of the flywheel. [Setting.Sheet] is the sheet for
// the bench, [Setting.Correct] goes from two leads that were read to the turn of the
// sheave and the move of the valve, [Nut.Set] from a move to turns of a nut that seats
// in a few places only, and a [Slip] is the stop of an eccentric that slips.
//
// The sheave stands where the drawing has it for its direction of rotation, an angle
// of advance between -90 and 90 degrees; leads, openings and edges are in the terms
// of package eccentric. Two leads tell a sheave that is turned from a valve that is
// off, but not a sheave that is turned from a valve of another length: package
// eccentric/diagnosis does that, from more readings. All is done by hand, without
// steam or air. A bad argument is a [*units.ArgumentError], text that cannot be read a
// [*units.ParseError]. Sources, checks and gaps: testdata/eccentric/setting/README.md.
package setting
