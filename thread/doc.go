// Package thread knows the screw threads that a small engine meets: their forms
// and sizes, limits, holes, measurement, cutting and strength.
//
// [Parse] reads a designation from a drawing and gives a [Thread] with its basic
// diameters. [Series.All] lists what a series holds, and [New] makes a thread
// that no list holds.
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
// # Sources
//
// Sizes come from the tables of Machinery's Handbook, tap makers' catalogues
// and charts, each row with its source; rows recalled from memory say so, and
// [Thread.Ref] tells which kind a thread is. The tests compare the diameters
// with printed tables of other origin.
package thread
