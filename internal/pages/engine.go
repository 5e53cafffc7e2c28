package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

// makers make the pages of the engine book, in order.
var makers = []maker{
	Valve, Making, settingPage, pistonRoom, Hold, workPage, Fits, Fasteners, Operations, Flywheel, PortFace, Covers, Studs,
}

// allWell is the first line of a book in which nothing is wrong.
const allWell = "Nothing found that can hurt somebody, stops the engine or costs it power."

// ReadEngine makes the book of an engine from its file; see [EngineFile].
func ReadEngine(name string) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML, a few kilobytes, such as demo/engine.toml", err)
	}
	return EngineFile(name, text)
}

// EngineFile makes the book of an engine from the text of its file. All that is
// wrong with the file comes in one error, in order of the file.
func EngineFile(name string, text []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	b, err := Engine(e)
	if err := engine.Join(unread, err); err != nil {
		return book.Book{}, err
	}
	return b, nil
}

// Engine makes the book of an engine. All that cannot be used in its file comes
// in one error.
func Engine(e *engine.Engine) (book.Book, error) {
	b := book.Book{Title: "ENGINE BOOK", From: e.Document.Name}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	problems := []error{e.Cross()}
	for _, make := range makers {
		p, err := make(e)
		problems = append(problems, err)
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
		b.Sections = append(append(b.Sections, first...), last)
	}
	if all := b.All(); len(all) == 0 || all[0].Severity == finding.Note {
		b.Sections = append([]book.Section{{Intro: []string{allWell}}}, b.Sections...)
	}
	if worst, _ := b.All().Worst(); worst < finding.Danger { // or nothing is told of air
		b.Precautions = addPrecautions(b.Precautions, diagnosis.Precautions())
	}
	b.Precautions = addPrecautions(b.Precautions, []finding.Precaution{beforeSteam})
	return b, nil
}
