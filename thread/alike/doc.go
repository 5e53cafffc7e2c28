// Package alike tells of threads that look like one another: what would take
// another's place, what becomes of a bolt in the wrong nut, and which thread a
// measured specimen may be.
//
// [Substitutes] and [SubstitutesAmong] rank replacements with what follows from
// each, [Mate] tries a bolt in a nut, [Specimen.Identify] names the candidates, and
// [Distinguish] the measurements that tell two apart.
//
// It works from basic sizes, with a looseness from ASME B1.1 and, for worn crests,
// what the caller allows. The weights that rank substitutes and candidates are
// choices of this package and no standard's. Taper threads are left out. A bad
// argument is a [*units.ArgumentError]. More: testdata/thread/alike/README.md.
package alike
