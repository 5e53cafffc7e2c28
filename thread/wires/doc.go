// Package wires measures screws over three wires: which wires serve, what a screw
// of a class must measure, and what pitch diameter a reading stands for.
//
// [RangeOf] gives the wires for any angle of thread; a [Set] of them measures with
// [Set.Over], or [Set.Measure], which has the terms as well, back with
// [Set.PitchDiameter], and [Set.Window] gives what a good screw measures. What is
// done about the lead angle is a named choice, [LeadCorrection].
//
// It is for parallel external threads. Taper threads, tapped holes and worn flanks
// are left out. Source and checks: testdata/thread/wires/README.md. A bad argument
// is a [*units.ArgumentError].
package wires
