// Package holding says what must not spin faster: the rim of a wheel,
// work set over on a faceplate, a chuck whose jaws let go as they fly outwards.
//
//	rim, err := holding.CheckRim(iron, units.MM(150), 1000*units.RevPerMinute)
//	limit, err := holding.UnmarkedChuck(units.MM(125)) // for [speeds.Job]
//
// It is not a licence to run anything: the speed marked on a chuck and the
// maker's limits of a machine come first, whatever a formula allows. What is too
// fast is a finding of severity Danger; arguments out of range are a
// [*units.ArgumentError]. Sources, checks and gaps: testdata/speeds/holding/README.md.
//
// A flywheel that bursts kills. Engines and lathes alike: local codes and
// licensed practice come first.
package holding
