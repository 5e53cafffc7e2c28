// Package finding has the one shape in which the packages of this module say
// what is to be said of sound input: a gear that will not run, a cover that can
// burst, a fit that is loose when warm. Bad input is not a finding but an error.
//
// A package that has more to say of each embeds [Finding] in a type of its own.
// Within one severity a list has the part at fault before its consequences:
// whoever makes one appends in that order, and sorting keeps it. How it is checked is in
// testdata/units/finding/README.md.
package finding
