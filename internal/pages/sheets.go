package pages

import (
	"errors"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/inch"
	"github.com/valvechest/valvechest/units"
)

// sheetsFolder is where the sheets at true size lie in the folder of a booklet.
const sheetsFolder = "sheets"

// Booklet makes the book of an engine as [EngineFile] does, with the files that lie
// beside it: sheets at true size on a paper, of the gaskets and the marking out of its
// covers and of its port face. Without a text it reads the file. It tells what it is
// about to do, and returns what it left out and why.
func Booklet(
	name string, text []byte, paper template.Paper, tell func(string),
) (b book.Book, files []cli.File, leftOut []string, err error) {
	if text == nil {
		if text, err = engineText(name); err != nil {
			return b, nil, nil, err
		}
	}
	tell("the engine, part by part")
	e, unread := engine.Parse(name, text)
	if b, err = engineOf(e, unread); err != nil {
		return b, nil, nil, err
	}
	s := sheetMaker{e: e, options: template.Options{Paper: paper, Inch: e.Inches()}, tell: tell}
	if err := s.covers(); err != nil {
		return book.Book{}, nil, nil, err
	}
	b.Sections = append(b.Sections, s.section())
	b.Precautions = addPrecautions(b.Precautions, template.Precautions())
	return b, s.files, s.leftOut, nil
}

// A sheetMaker draws the sheets of an engine.
type sheetMaker struct {
	e       *engine.Engine
	options template.Options
	tell    func(string)
	files   []cli.File
	items   []book.Item
	leftOut []string
}

// covers draws the gaskets of the covers.
func (s *sheetMaker) covers() error {
	if len(s.e.File.Covers) == 0 {
		s.leftOut = append(s.leftOut, "Sheets of covers: the file has no [[covers]].")
	}
	var names []string
	for i, c := range s.e.File.Covers {
		file := fileName(c.Where, fmt.Sprintf("cover-%d", i+1))
		if slices.Contains(names, file) {
			file += fmt.Sprintf("-%d", i+1)
		}
		names = append(names, file)
		s.tell("sheets of " + shownName(c.Where))
		if c.Thickness == nil {
			s.leftOut = append(s.leftOut, shownName(c.Where)+", its gasket: the file has no gasket_thickness.")
			continue
		}
		p, err := coverGasket(s.e, i)
		if err != nil {
			return err
		}
		p.file = file + "-gasket"
		t, err := template.New(s.onSheet(p), s.options)
		if err := s.add(p.file, shownName(p.outline.Name), t, err); err != nil {
			return err
		}
	}
	return nil
}

// shownName is a name that the builder gave as far as a line has room for it.
func shownName(name string) string {
	if letters := []rune(name); len(letters) > longestName {
		name = string(letters[:longestName-1]) + "…"
	}
	return fault.Visible(name)
}

// onSheet is a part as its sheets have it, in the unit of the file.
func (s *sheetMaker) onSheet(p sheetPart) template.Part {
	part := p.onSheet()
	part.Warnings = s.said(part.Warnings)
	return part
}

// said are sentences in the unit of the file.
func (s *sheetMaker) said(texts []string) []string {
	for i, text := range texts {
		if s.e.Inches() {
			texts[i] = inch.Text(text)
		}
	}
	return texts
}

// add puts the files of a part to the others, or says why it cannot be drawn.
func (s *sheetMaker) add(file, name string, t *template.Template, err error) error {
	var wrong *units.ArgumentError
	if errors.As(err, &wrong) { // larger than the sheets it may go on
		s.leftOut = append(s.leftOut, name+": "+fault.Plain(err)+".")
		return nil
	}
	if err != nil {
		return err
	}
	drawn, err := TemplateQuestion{}.files(sheetPart{file: file}, t)
	if err != nil {
		return err
	}
	item := book.Item{Title: fmt.Sprintf("%s, on %s of %v", name, sheetsOf(t), s.options.Paper)}
	for _, f := range drawn {
		f.Name, f.About = sheetsFolder+"/"+f.Name, name
		item.Figures = append(item.Figures, book.Figure{Title: f.About, File: f.Name})
		s.files = append(s.files, f)
	}
	s.items = append(s.items, item)
	return nil
}

// section lists the sheets in the book.
func (s *sheetMaker) section() book.Section {
	section := book.Section{
		Key: "sheets", Title: "SHEETS AT TRUE SIZE", Page: "Sheets at true size", List: true, Items: s.items,
		Notes: []string{
			"Print at 100 %, and measure the bars before anything is cut.",
			"Read DXF in as millimetres, at scale 1 : 1: it is of release 12, which has no field for the unit.",
		},
	}
	for _, text := range s.leftOut {
		section.Intro = append(section.Intro, "Left out: "+text)
	}
	return section
}
