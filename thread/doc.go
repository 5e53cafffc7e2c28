// Package thread knows the screw threads that a small engine meets: their forms
// and sizes, limits, holes, measurement, cutting and strength.
//
// [Parse] reads a designation from a drawing and gives a [Thread] with its basic
// diameters; [Series.All] lists what a series holds, and [New] makes a thread
// that no list holds. From a thread:
//
//   - its limits of size ([Thread.Limits]);
//   - the hole to tap, chosen from somebody's own drills ([Thread.TappingDrills],
//     [Thread.TappingHole], [Thread.FormingHole], [Thread.BlindHoleFor]);
//   - the hole to clear it, and the error of position that the hole forgives
//     ([Thread.ClearanceHole]);
//   - its size over wires ([Thread.OverWires]), its hexagon ([Thread.Hexagon]),
//     strength and length of engagement ([Joint]);
//   - how to cut it ([Thread.CutDepth], [InfeedAlongSlide], [ChangeWheels]);
//   - what else would do, and what only looks alike ([Substitutes], [Mate],
//     [Identify]).
//
// # Forms and rounding
//
// Each form rounds as its standard does, because a drawing, a gauge and a
// handbook agree only then. ISO 724 rounds each basic diameter to three
// decimals of a millimetre. ASME B1.1 rounds the heights of thread to six
// decimals of an inch and the diameters to four. BS 84 rounds the depth of
// thread to four decimals first and takes it from the diameter once and twice;
// some printed tables round the diameters themselves and differ in the last
// digit. BS 93 works from the pitch rounded to two figures and a depth rounded
// to 0.005 mm. ISO 228 works from a pitch and a depth rounded to 0.001 mm.
//
// # Depth of thread
//
// A percentage of thread means nothing without its basis, as three are in print.
// Every call that takes or returns one names its [Basis], and none has a
// default.
//
// # Sources
//
// Sizes come from the tables of Machinery's Handbook, tap makers' catalogues
// and charts, each row with its source; rows recalled from memory say so, and
// [Thread.Ref] tells which kind a thread is. ISO 965-1 is held as its tables of
// grade 6; the other grades lie four steps of the R40 series apart, as all
// printed values that were compared do. Advice that no standard gives, such as
// depths of thread by material, is marked as common practice.
//
// The tests compare basic diameters, limits, percentages and holes with printed
// tables, mostly of other origin than the shipped ones, and keep out the
// misprints that were found on the way. The British pipe, cycle and trapezoidal
// sizes and the ISO 273 holes have one source each for some of their rows.
//
// # Left out
//
// Limits of model engineer, brass, cycle and pipe threads, of trapezoidal nuts
// and other classes than 7e, of Acme nuts and centralizing Acme: no source was
// found. Model engineer threads of 60 to the inch, which are mentioned in print
// without sizes; 1/16 BSW is one, and New makes the others. The allowance of
// BS 84:1956, coatings, multiple starts and left hand.
package thread
