// Package casting finds how a rough casting is best set on the lathe: the centre and
// the tilt that leave the most even cleaning-up, what a mandrel or a grub screw does to a
// wheel, and its balance.
//
//	Casting.Centre   where its middle is, what must come off, whether it cleans up
//	Casting.Tilt     how it wobbles, with the shims that take it out
//	Lie.Moves        the jaws of a four-jaw chuck that bring it there
//	FitCircle        a circle through points: least squares, least zone, inscribed, enclosing
//	Seat.RunOut      how a wheel runs out on its shaft or mandrel
//	EdgesAgree       what the second setting of a wheel must repeat
//	Balance          the one weight that balances others; HollowOff, BalanceGrade
//
// Readings are taken at places that divide the circle equally, the first at place 1,
// which is 0 degrees; angles count on the casting from place 1 towards place 2. A dial
// reads more as the metal comes towards it.
//
// It is for castings that are turned one at a time by hand and eye. A bad argument is a
// [*units.ArgumentError] that says what is accepted. Sources, checks and gaps:
// testdata/eccentric/marking/casting/README.md.
package casting
