// Package book holds what a program has to say as a tree, and shows it: as text
// for a person at a bench, as a page of HTML with its pictures for a screen or for
// paper, and as JSON for another program. A view is a walk over the tree and knows
// nothing of engines; a number is stated once, so that the views cannot differ.
//
// A [Book] has sections, a section has items, an item has values, tables,
// formulas, notes, figures and findings. Sources are gathered from all of them
// and numbered once for the book, in the order in which they are met.
//
// # JSON
//
// All programs speak one dialect, by the number under schema:
//
//	schema       the number of this dialect, 1
//	program      the program that wrote it
//	title, from  what the book is of, and the file it was made from
//	findings     what is to be said, the worst first: code, severity (danger,
//	             fails, caution or note), where, text, remedies, sources; slip
//	             where it looks like one of what was stated
//	precautions  what to mind at work: code, text, sources
//	sources      the works: number, kind, title, edition, locator, note
//
// and the sections, each under its key: an object, or a list of objects, one for
// each item; a few figures that are the answer itself stand beside them. A key is
// snake_case with its unit, "lead_mm", "crank_deg", and what limit or percentile it is
// behind that, "crank_deg_max", "lead_mm_p05"; a share is
// a number from 0 to 1 under a key without a unit. Numbers have all their digits. A
// range is {"min": a, "max": b}, an end that is open null; what does not happen is
// null. An object has its formulas and notes as text under formulas and notes, and
// under sources the numbers of the works that its values rest on, by their keys.
// A sources list of a finding or a precaution has numbers too.
package book
