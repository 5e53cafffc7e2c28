// Package seal holds what keeps steam in: the limits of gasket materials and the
// factors that seat them, what the thickness of a gasket changes, O-rings and
// their grooves, and packed glands.
//
//	Check, LimitsFor, FactorsFor, SheetsFor   gasket materials, by material.Material
//	SeatedBy                                  what studs seat that stands the service
//	Swap, Squeezed                            a gasket of another thickness
//	RingsOnPiston, RingsInGland, LookupRing   O-rings that fit
//	Ring.OnPiston, Ring.InGland, GrooveFor    how they sit in their groove
//	StuffingBox.Packing                       a packed gland
//
// It is for choosing and checking. It does not know a maker's grade; where a maker
// says something else, the maker is right. Old gaskets, packing and lagging may
// hold asbestos: [Precautions] belongs on every page that tells people to take an
// old joint apart, and no table here has a row for it.
//
// A bad argument is an [*units.ArgumentError] that says what is accepted, text
// that names nothing a [*units.ParseError]. Sources, checks and gaps are in
// testdata/gasket/seal/README.md.
package seal
