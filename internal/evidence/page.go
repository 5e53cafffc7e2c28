package evidence

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units/source"
)

// A list is one table of the page, which has a row for each package and one for all.
type list struct {
	key, title string
	heads      []head
	has        func(p Package) bool
	row        func(p Package) []book.Quantity
}

type head struct{ key, label string }

var lists = []list{
	{
		"shipped", "Numbers shipped in tables, by how they are known",
		[]head{
			{"shipped", "all"}, {"published", "print"}, {"unreviewed", "unrev."}, {"common_practice", "practice"},
			{"from_memory", "memory"}, {"worked_out", "derived"}, {"unwitnessed", "alone"},
		},
		func(p Package) bool { return p.Shipped() > 0 },
		func(p Package) []book.Quantity {
			return counts(p.Shipped(), p.Cells[source.Published], p.Cells[source.Unreviewed], p.Cells[source.CommonPractice],
				p.Cells[source.FromMemory], p.Cells[source.Derived], p.Unwitnessed)
		},
	},
	{
		"compared", "Figures compared, by where they are from",
		[]head{
			{"figures", "all"}, {"other_work", "other"}, {"formula", "formula"}, {"program", "program"},
			{"same_work", "twice"}, {"recalled", "memory"}, {"undeclared", "unsaid"},
		},
		func(p Package) bool { return p.Compared() > 0 },
		func(p Package) []book.Quantity { return counts(append([]int{p.Compared()}, p.Figures[:]...)...) },
	},
	{
		"nearness", "Largest differences, as a share of what the figure allows",
		[]head{{"wide", "wider"}, {"largest", "largest"}, {"at", "at"}},
		func(p Package) bool { return p.At != "" },
		func(p Package) []book.Quantity {
			return []book.Quantity{book.Count(p.Wide), book.Share(p.Largest, 0), book.Word(p.At)}
		},
	},
	{
		"functions", "Exported functions that compute",
		[]head{{"functions", "all"}, {"example", "example"}, {"checked", "print"}, {"no_print", "none found"}, {"neither", "unsaid"}},
		func(p Package) bool { return p.Functions.All > 0 },
		func(p Package) []book.Quantity {
			f := p.Functions
			return counts(f.All, f.Example, f.Check, f.NoPrint, f.All-f.Check-f.NoPrint)
		},
	},
	{
		"mistakes", "Mistakes that the tests found when last measured",
		[]head{{"cells_tried", "digits"}, {"cells_found", "found"}, {"code_tried", "code"}, {"code_found", "found"}},
		func(p Package) bool { return p.CellsTried+p.Code.Tried > 0 },
		func(p Package) []book.Quantity {
			none := func(tried int, share float64) book.Quantity {
				q := book.Share(share, 0)
				if tried == 0 {
					return book.Never(q, "-")
				}
				return q
			}
			return []book.Quantity{
				book.Count(p.CellsTried), none(p.CellsTried, p.CellsFound),
				book.Count(p.Code.Tried), none(p.Code.Tried, p.Code.Share()),
			}
		},
	},
}

func counts(numbers ...int) []book.Quantity {
	var all []book.Quantity
	for _, n := range numbers {
		all = append(all, book.Count(n))
	}
	return all
}

// rows returns what the list has to say, all packages together last.
func (l list) rows(r *Report) []Package {
	var all []Package
	for _, p := range r.Packages {
		if l.has(p) {
			all = append(all, p)
		}
	}
	return append(all, r.sum())
}

// sum is what there is to say of all packages together.
func (r *Report) sum() Package {
	sum := Package{Folder: "all", Cells: map[source.Kind]int{}, Code: Measure{Of: "all"}}
	cells := 0.0
	for _, p := range r.Packages {
		for kind, n := range p.Cells {
			sum.Cells[kind] += n
		}
		for i, n := range p.Figures {
			sum.Figures[i] += n
		}
		if p.Largest > sum.Largest {
			sum.Largest, sum.At = p.Largest, p.Folder+"/"+p.At
		}
		sum.Unwitnessed += p.Unwitnessed
		sum.Wide += p.Wide
		sum.Functions.All += p.Functions.All
		sum.Functions.Example += p.Functions.Example
		sum.Functions.Check += p.Functions.Check
		sum.Functions.NoPrint += p.Functions.NoPrint
		sum.CellsTried += p.CellsTried
		if p.CellsTried > 0 {
			cells += float64(p.Shipped())
			sum.CellsFound += p.CellsFound * float64(p.Shipped())
		}
		sum.Code = Sum("all", []Measure{sum.Code, p.Code})
	}
	sum.CellsFound /= max(cells, 1)
	return sum
}

// told is what a visitor understands in a minute.
func (r *Report) told() []string {
	all := r.sum()
	read := all.Figures[OtherWork] + all.Figures[Formula]
	told := []string{
		fmt.Sprintf("%d numbers ship in tables. Each names its work and its place in it: %d are read in a published work, %d in one "+
			"that nobody reviewed, %d are common practice of the trade, %d from memory, %d derived.", all.Shipped(),
			all.Cells[source.Published], all.Cells[source.Unreviewed],
			all.Cells[source.CommonPractice], all.Cells[source.FromMemory],
			all.Cells[source.Derived]),
		fmt.Sprintf("%d figures are compared by the tests with what the library says. %d are read in print and independent: %d in "+
			"another work than the shipped row, %d beside what is computed. %d come from another program. %d are read a "+
			"second time in the work of the shipped row: that finds slips of the hand, not errors of the work. %d are recalled, and "+
			"prove nothing.", all.Compared(), read, all.Figures[OtherWork], all.Figures[Formula], all.Figures[Program],
			all.Figures[SameWork], all.Figures[Recalled]),
		fmt.Sprintf("What is not checked: of %d numbers in the tables no other work was found that prints them; "+
			"testdata/unwitnessed.csv names them, and the works looked in. Of %d functions that compute %d have a printed figure "+
			"beside them, of %d their proof page says that none was found, and %d have neither. A figure in the same table as yours "+
			"does not check yours.", all.Unwitnessed, all.Functions.All, all.Functions.Check, all.Functions.NoPrint,
			all.Functions.All-all.Functions.Check-all.Functions.NoPrint),
	}
	if all.Figures[Undeclared] > 0 {
		told = append(told, fmt.Sprintf("Of %d figures it is not said yet what they bear on.", all.Figures[Undeclared]))
	}
	if len(r.Open) > 0 {
		told = append(told, fmt.Sprintf("%d columns of tables have neither a check that names the table nor a line in "+
			"testdata/unwitnessed.csv: %s.", len(r.Open), strings.Join(r.Open, "; ")))
	}
	if all.CellsTried > 0 && all.Code.Tried > 0 {
		told = append(told, fmt.Sprintf("Whether a check can fail is measured: one digit of %d numbers was changed, and the tests found "+
			"%.0f %%; of %d mistakes put into the code they found %.0f %%.", all.CellsTried, 100*all.CellsFound, all.Code.Tried,
			100*all.Code.Share()))
	}
	return told
}

// legend explains the heads of the tables.
var legend = []string{
	"Print: read in a published work. Unrev.: on a page that nobody reviewed. Alone: no other work " +
		"was found to print it. Other: read in another work than those of the table's rows. Formula: read, and it bears on " +
		"computing alone. Program: from an independent program. Twice: typed twice, read in the work that the row comes from. " +
		"Memory: from memory or common practice. Unsaid: the file does not say what it bears on.",
	"A figure allows half its last printed place; wider: how many allow more than twice that, with the reason in the test.",
	"Of functions, print: a worked example of a book, or a test that compares printed figures calls it by name. None found: its proof " +
		"page says that no print was found. Not counted is what reads, writes or refuses text, what lists what there is, and what hands " +
		"out a part of what it is given; nor what lies below an internal folder.",
	"Digits: one digit of a number in a table was changed, in place, so that every test that runs has it. Code: one comparison, " +
		"operator, constant, negation or whole function was made wrong; those that change nothing are left out, with reasons.",
}

// Book returns the evidence as a page.
func (r *Report) Book() book.Book {
	b := book.Book{Title: "What the numbers are checked against"}
	b.Sections = append(b.Sections, book.Section{Intro: r.told()})
	for _, l := range lists {
		t := book.Table{Key: "packages", Label: "package"}
		for _, p := range l.rows(r) {
			row := book.Row{Label: p.Folder}
			for i, q := range l.row(p) {
				v := book.Value{Key: l.heads[i].key, Label: l.heads[i].label, What: q}
				if v.Key == "at" {
					row.Below, v.Label = []string{q.Text()}, ""
				}
				row.Values = append(row.Values, v)
			}
			t.Rows = append(t.Rows, row)
		}
		b.Sections = append(b.Sections, book.Section{
			Key: l.key, Title: l.title, Items: []book.Item{{Tables: []book.Table{t}}},
		})
	}
	b.Sections = append(b.Sections, book.Section{Title: "What the columns mean", Intro: legend})
	return b
}

// Markdown returns the evidence as testdata/EVIDENCE.md.
func (r *Report) Markdown() string {
	var text strings.Builder
	text.WriteString("# What the numbers are checked against\n\n" +
		"Kept true by a test of `internal/evidence`; `go test ./internal/evidence -update` writes it anew, and " +
		"`go run ./examples/evidence` shows it.\n")
	for _, paragraph := range r.told() {
		text.WriteString("\n" + paragraph + "\n")
	}
	for _, l := range lists {
		fmt.Fprintf(&text, "\n## %s\n\n| package |", l.title)
		for _, h := range l.heads {
			fmt.Fprintf(&text, " %s |", h.label)
		}
		text.WriteString("\n|---|" + strings.Repeat("--:|", len(l.heads)) + "\n")
		for _, p := range l.rows(r) {
			fmt.Fprintf(&text, "| %s |", p.Folder)
			for _, q := range l.row(p) {
				fmt.Fprintf(&text, " %s |", strings.ReplaceAll(q.Text(), "|", `\|`))
			}
			text.WriteString("\n")
		}
	}
	text.WriteString("\n## What the columns mean\n")
	for _, paragraph := range legend {
		text.WriteString("\n" + strings.ToUpper(paragraph[:1]) + paragraph[1:] + "\n")
	}
	return text.String()
}

// Missing lists the functions without an Example and those of which nothing is said of
// a published figure, a line for each package, for who wants to write them.
func (r *Report) Missing() []string {
	var all []string
	for _, p := range r.Packages {
		for what, names := range map[string][]string{
			"without an example": p.Functions.WithoutExample, "with no word of a published figure": p.Functions.Neither,
		} {
			if len(names) > 0 {
				all = append(all, fmt.Sprintf("%s, %s: %s", p.Folder, what, strings.Join(names, ", ")))
			}
		}
	}
	slices.Sort(all)
	return all
}
