// Package holding says what must not spin faster: the rim of an iron wheel,
// work set over on a faceplate, a chuck whose jaws let go as they fly outwards.
//
// It is not a licence to run anything: the speed marked on a chuck and the
// maker's limits of a machine come first, whatever a formula allows.
//
// # Sources
//
// Rim speeds from inspectors of 1921, a pulley text, an engine owners' forum and
// handbooks (these from memory): [RimLimits] keeps them side by side, and
// [CheckRim] refuses above the lowest. Stress of a thin ring is physics; the
// disc formula is Carvill's. The chuck formula is that of VDI 3106 as two chuck
// makers' manuals print it; a worked example of one of them does not follow from
// its own formula and is not used. Checked against those texts and a theory of
// machines textbook. For out-of-balance work no published limit was found: the
// force is given, and common practice says what to do about it.
//
// # Caution
//
// A flywheel that bursts kills. Stand out of the plane of the wheel, run a new
// one up behind a guard, and never above the speed it was designed for. A wheel
// built up of segments, cracked, repaired or of unknown iron stands much less
// than the limits here. Engines and lathes alike: local codes and licensed
// practice come first.
package holding
