// Package thread knows the screw threads of small engines: what a designation
// means, the limits of screw and nut, and the holes to tap and to clear.
//
// [Parse] reads a designation and gives a [Thread] with its basic diameters;
// [Series.All] lists a series, and [New] makes a thread that no list holds.
// [Thread.PlanDrill] chooses among somebody's own drills, [Thread.TappingHole]
// and [Thread.BlindHole] give sizes, [Thread.UsualClearance] the hole to pass,
// [Thread.Limits] the limits by class and [Thread.Hexagon] the spanner. Wires,
// strength, screwcutting and look-alikes have packages below this one.
//
// It is for one-off work by hand and on small machines, not for the joints of
// boilers and pressure vessels, lifting gear or vehicles, whose codes come
// first, and not for gauges.
//
// Each form rounds as its standard does, because a drawing, a gauge and a
// handbook agree only then. A percentage of thread means nothing without its
// [Basis], as three are in print, and none is taken for granted. A bad argument
// is a [*units.ArgumentError], unreadable text a [*units.ParseError]. Sources,
// checks and gaps: testdata/thread/README.md.
package thread
