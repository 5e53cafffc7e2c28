// Package keys has what keeps a hub from turning on a shaft of a small engine
// besides its fit: keys and their seats, taper pins, and the dimple or flat under a
// grub screw.
//
//	found, err := keys.For(units.MM(8))                     // 2 x 2 mm, 1.2 mm deep
//	pins, err := keys.PinsFor(units.MM(6), units.MM(14))    // 1.5 mm, 1.66 mm at its large end
//	spot, err := keys.DimpleFor("M3", units.MM(6))          // how deep the drill goes
//
// The tables are for shafts from 5 to 22 mm, or what of that a standard covers. What a
// joint holds is asked of package assembly: a press fit, adhesive, a grub screw.
// Sleeved and Woodruff keys, splines and cotters are left out.
//
// A bad argument is a *units.ArgumentError that says what is accepted. Sources,
// checks and gaps: testdata/fits/keys/README.md.
package keys
