// Package inch turns round what a person reads, so that inches, pounds and
// degrees Fahrenheit stand first.
//
// The packages of the library write lengths in both units, "0.07 mm (2.7 thou)",
// and some of theirs in millimetres alone. [Text] turns such pairs round and
// gives what has no second unit in that of the inch trade, with no more digits
// than it was printed with. [Of] does so for a value whose exact figure is known.
// Nothing else in a text is touched: names in quotation marks, threads, classes
// of fits, numbers of standards. What is turned round already stays as it is.
package inch
