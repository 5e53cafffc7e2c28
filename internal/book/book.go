package book

import (
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Book is what a program has to say.
type Book struct {
	Program     string // that says it: "spindle"
	Title       string
	From        string       // the file it was made from; blank for none
	Inch        bool         // inches are read first, in place of millimetres
	Findings    finding.List // that belong to no item
	Sections    []Section
	Precautions []finding.Precaution
}

// A Section is one subject.
type Section struct {
	Key   string // in JSON; blank for a section of notes
	Title string // blank for one without a heading
	Page  string // of the booklet, that it begins: "Valve and ports"; blank: on that of the section before it
	List  bool   // the items are alike, and a list in JSON
	Top   bool   // its values are those of the book itself in JSON; then it has no key, and they no sources
	Intro []string
	Items []Item
	Notes []string // below the items
}

// An Item is one thing of a section, or part of one.
type Item struct {
	Key      string // in JSON; blank in a list, and for values of the section itself
	Title    string
	Values   []Value
	Tables   []Table
	Formulas []Formula
	Notes    []Note
	Figures  []Figure
	Findings finding.List
}

// A Value is one quantity, both ends of one, or a word.
type Value struct {
	Key    string // in JSON without the unit, with points where it lies deeper: "head.admission.crank"; blank: in the text only
	Label  string // blank: in JSON only, as the text says it elsewhere
	Column string // values of one label stand in one row, below the heads of their columns
	What   Quantity
	Remark string // behind it in the text
	GoesOn bool   // the remark goes on from the value, with no comma in a table of work: "3 mm thick"
	Refs   source.Refs
}

// A Table is a list of rows that are alike. The labels of the values of a row
// are the heads of the columns.
type Table struct {
	Key   string
	Title string
	Tick  bool   // a row is work, with a box to tick when it is done; for a person only
	Group string // head of the column of the groups; blank for none
	Label string // head of the column of the labels
	Rows  []Row
}

// A Row is one row of a table.
type Row struct {
	Group  string // that it is of, with the rows beside it; a heading above the first of them
	Label  string // of the row, in text; blank for none
	Values []Value
	Below  []string // text below the row
}

// A Formula is one line of working, with the numbers put in.
type Formula struct {
	Text string
	Inch string // in its place in a book with inches first; blank: Text, turned round
	Refs source.Refs
}

// A Note is a paragraph.
type Note struct {
	Text string
	Inch string // in its place in a book with inches first; blank: Text, turned round
	Refs source.Refs
}

// A Figure is a picture, made for this book, or a drawing in a file of its own.
type Figure struct {
	Key     string         // that no other figure of the book has: "valve-in-the-middle"
	Title   string         // in a line
	Alt     string         // what there is to see, and read off it, for who cannot see it
	Caption string         // below it; blank for none
	Drawing *sheet.Drawing // nil: only in its file
	File    string         // blank: only in the book
	Large   bool           // on paper as wide as the sheet
}

// All returns the findings of the book and of its items, the worst first.
func (b Book) All() finding.List {
	all := append(finding.List(nil), b.Findings...)
	for _, s := range b.Sections {
		for _, i := range s.Items {
			all = append(all, i.Findings...)
		}
	}
	all.Sort()
	return all
}

// OK reports whether nothing in the book fails or can hurt somebody.
func (b Book) OK() bool { return b.All().OK() }

// A numbering gives each work of a book its number, from 1.
type numbering struct {
	refs    []source.Ref
	numbers map[source.Ref]int
}

func (b Book) numbering() *numbering {
	n := &numbering{numbers: map[source.Ref]int{}}
	for _, f := range b.All() {
		n.of(f.Refs)
	}
	for _, s := range b.Sections {
		for _, i := range s.Items {
			for _, v := range i.Values {
				n.of(v.Refs)
			}
			for _, t := range i.Tables {
				for _, r := range t.Rows {
					for _, v := range r.Values {
						n.of(v.Refs)
					}
				}
			}
			for _, f := range i.Formulas {
				n.of(f.Refs)
			}
			for _, f := range i.Notes {
				n.of(f.Refs)
			}
		}
	}
	for _, p := range b.Precautions {
		n.of(source.Of(p.Ref))
	}
	return n
}

// of returns the numbers of the sources of one result.
func (n *numbering) of(refs source.Refs) []int {
	var numbers []int
	for ref := range refs.All() {
		number, known := n.numbers[ref]
		if !known {
			n.refs = append(n.refs, ref)
			number = len(n.refs)
			n.numbers[ref] = number
		}
		numbers = append(numbers, number)
	}
	return numbers
}
