package pages

import (
	"cmp"
	"fmt"

	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

// booklet are the pages of the engine book in the order in which it is read: the
// parts as they are made, then the engine as it is set and run.
var booklet = []string{
	benchPage, valvePage, eccentricPage, "Cylinder and piston", "Fasteners", "Fits", coversPage, "Machining", "Flywheel",
	"Hold these sizes", "Setting the valve", "On air and on steam", "First run", "Before steam",
}

const (
	valvePage     = "Valve and ports"
	eccentricPage = "Eccentric"
	coversPage    = "Covers and gaskets"
)

// makers make the sections of the engine book; which page of the booklet they are of,
// where the sections themselves do not say. What is wrong is told in this order.
var makers = []struct {
	page string
	make maker
}{
	{valvePage, Valve}, {eccentricPage, Making}, {"Setting the valve", settingPage}, {"Cylinder and piston", pistonRoom},
	{"Hold these sizes", Hold}, {"On air and on steam", workPage}, {"Fits", Fits}, {"Fasteners", Fasteners},
	{"Machining", Operations}, {"Flywheel", Flywheel}, {valvePage, PortFace}, {coversPage, Covers}, {coversPage, Studs},
}

// inOrder sets the sections page by page, each page with the sections that say so and
// those behind them, in the order in which they were made.
func inOrder(sections []book.Section) []book.Section {
	pages, page := map[string][]book.Section{}, ""
	for _, s := range sections {
		if s.Page != "" {
			page = s.Page
		}
		if s.Page = page; len(pages[page]) > 0 {
			s.Page = "" // begun by the first of them
		}
		pages[page] = append(pages[page], s)
	}
	ordered := pages[""]
	for _, name := range booklet {
		ordered = append(ordered, pages[name]...)
	}
	return ordered
}

// allWell is the first line of a book in which nothing is wrong.
const allWell = "Nothing found that can hurt somebody, stops the engine or costs it power."

// ReadEngine makes the book of an engine from its file; see [EngineFile].
func ReadEngine(name string) (book.Book, error) {
	text, err := engineText(name)
	if err != nil {
		return book.Book{}, err
	}
	return EngineFile(name, text)
}

// engineText reads an engine file.
func engineText(name string) ([]byte, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return nil, fmt.Errorf("%w; accepted: an engine file in TOML, a few kilobytes, such as engines/demo.toml", err)
	}
	return text, nil
}

// EngineFile makes the book of an engine from the text of its file. All that is
// wrong with the file comes in one error, in order of the file.
func EngineFile(name string, text []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	return engineOf(e, unread)
}

// engineOf makes the book of an engine file of which something may not have been read.
func engineOf(e *engine.Engine, unread error) (book.Book, error) {
	b, err := engineBook(e)
	if err := engine.Join(unread, err); err != nil {
		return book.Book{}, err
	}
	return b, nil
}

// engineBook makes the book of an engine. All that cannot be used in its file comes
// in one error.
func engineBook(e *engine.Engine) (book.Book, error) {
	b := book.Book{Title: "ENGINE BOOK", From: e.Document.Name}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	problems := []error{e.Cross()}
	for _, m := range makers {
		p, err := m.make(e)
		problems = append(problems, err)
		if p != nil && len(p.Sections) > 0 {
			p.Sections[0].Page = cmp.Or(p.Sections[0].Page, m.page)
		}
		if p != nil {
			b.Sections = append(b.Sections, p.Sections...)
			b.Findings = append(b.Findings, p.Findings...)
			b.Precautions = addPrecautions(b.Precautions, p.Precautions)
		}
	}
	if err := engine.Join(problems...); err != nil {
		return book.Book{}, err
	}
	if e.Cylinder.Bore != nil && e.Cylinder.Stroke != nil { // or the file is refused, which was told when it was read
		last, err := beforeSteamOf(e, b.All())
		if err != nil {
			return book.Book{}, err
		}
		first, err := firstRunPage(e, b.All())
		if err != nil {
			return book.Book{}, err
		}
		last.Page = "Before steam"
		for i := range first {
			first[i].Page = "First run"
		}
		b.Sections = append(append(b.Sections, first...), last)
	}
	if e.Whole() { // or the file is refused
		b.Sections = append(b.Sections, benchCardOf(e, b)...)
	}
	if gear, err := gearOf(e); err == nil && e.Whole() {
		if err := placeDrawings(e, gear, b.Sections); err != nil {
			return book.Book{}, e.Errorf("eccentric", "%v", err)
		}
		enlarge(b.Sections, "valve-over-its-ports")
	}
	b.Sections = inOrder(b.Sections)
	if all := b.All(); len(all) == 0 || all[0].Severity == finding.Note {
		b.Sections = append([]book.Section{{Intro: []string{allWell}}}, b.Sections...)
	}
	if worst, _ := b.All().Worst(); worst < finding.Danger { // or nothing is told of air
		b.Precautions = addPrecautions(b.Precautions, diagnosis.Precautions())
	}
	b.Precautions = addPrecautions(b.Precautions, []finding.Precaution{beforeSteam})
	return firstRead(e, b), nil
}

// enlarge prints the picture of that key as wide as the sheet of paper.
func enlarge(sections []book.Section, key string) {
	for _, s := range sections {
		for _, i := range s.Items {
			for j := range i.Figures {
				if i.Figures[j].Key == key {
					i.Figures[j].Large = true
				}
			}
		}
	}
}
