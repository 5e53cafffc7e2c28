// Package dial turns a hole pattern into what to set on the machine: readings of
// the handwheels of a milling table or coordinate drill, with backlash taken up
// the same way every time ([Table]), and angle and radius for a rotary table
// ([Rotary]).
//
// The arithmetic is exact down to the division of the dial; what is left over is
// given with every setting. It is geometry and needs no source. The turns of the
// crank that space n holes equally are in package speeds/dividing, which has the
// circles of the plates.
//
// A bad argument is an [*units.ArgumentError]. How the settings are checked is
// told in testdata/gasket/dial/README.md.
package dial
