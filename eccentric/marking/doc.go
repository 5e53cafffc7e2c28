// Package marking has the figures that an eccentric and a casting are set by at
// the bench: heights for the scribing block, packing under a jaw of the
// three-jaw chuck, moves of the jaws of the four-jaw, and what the dial must read.
// Clevis, NutSlot and PortFace have those of a forked joint, of the slot for the
// nut in the valve's back and of the ports under a milling cutter.
//
//	packing, err := marking.ThreeJaw{Blank: units.MM(20), Offset: units.MM(3.5)}.Packing()
//
// The offset of a sheave is its eccentricity: half of the travel that it gives,
// and half of what a dial shows over a turn of it. The trade's one word for both is
// not used; give the one you mean.
//
// It is not for tapers, sine bars and hole patterns, which are in speeds/setting
// and gasket. The geometry is exact; the dial decides what was reached. A bad
// argument is a [*units.ArgumentError]. Sources, checks and gaps:
// testdata/eccentric/marking/README.md.
package marking
