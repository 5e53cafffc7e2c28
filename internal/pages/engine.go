package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// makers make the pages of the engine book, in order.
var makers = []maker{Valve, Fits, Fasteners, Operations}

// beforeSteam is what stands at the end of every book.
const beforeSteam = "Turn the engine over by hand through two whole turns first, then run it on low-pressure air, clear" +
	" of the flywheel, the crank and loose sleeves. Steam comes only from a boiler that is tested and certified by the" +
	" rules of the place; those rules, and licensed practice where it is asked for, come before anything printed here." +
	" Engine, pipes and drains stay hot after the steam is shut off."

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
	return b, engine.Join(unread, err)
}

// Engine makes the book of an engine. All that cannot be used in its file comes
// in one error.
func Engine(e *engine.Engine) (book.Book, error) {
	problems := []error{e.Cross()}
	b := book.Book{Title: "ENGINE BOOK: " + e.File.Name, From: e.Document.Name}
	for _, make := range makers {
		p, err := make(e)
		problems = append(problems, err)
		if p != nil {
			b.Sections = append(b.Sections, p.Sections...)
			b.Findings = append(b.Findings, p.Findings...)
			b.Precautions = append(b.Precautions, p.Precautions...)
		}
	}
	b.Precautions = append(b.Precautions, finding.Precaution{Code: "before-steam", Text: beforeSteam, Ref: source.Practice()})
	return b, engine.Join(problems...)
}
