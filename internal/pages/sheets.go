package pages

import (
	"cmp"
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
	"github.com/valvechest/valvechest/units/finding"
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
	if s.valve, err = Valve(e); err != nil {
		return book.Book{}, nil, nil, err
	}
	if err := cmp.Or(s.ports(), s.covers()); err != nil {
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
	valve   *Page // what is said of valve and ports
}

// covers draws the gaskets of the covers and the marking out of the covers themselves.
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
		if err := cmp.Or(s.gasket(i, file+"-gasket"), s.cover(i, file+"-marking")); err != nil {
			return err
		}
	}
	return nil
}

// gasket draws the gasket of a cover.
func (s *sheetMaker) gasket(i int, file string) error {
	c := s.e.File.Covers[i]
	if c.Thickness == nil {
		s.leftOut = append(s.leftOut, capitalised(shownName(c.Where))+" gasket: the file has no gasket_thickness for it.")
		return nil
	}
	p, err := coverGasket(s.e, i)
	if err != nil {
		return err
	}
	t, err := template.New(p.onSheet(s.options.Inch), s.options)
	return s.add(file, capitalised(shownName(c.Where))+" gasket", t, err)
}

// cover draws the marking out of a cover. Its gasket's opening is not cut in it.
func (s *sheetMaker) cover(i int, file string) error {
	c, name := s.e.File.Covers[i], capitalised(shownName(s.e.File.Covers[i].Where))+", marking out"
	outline, err := coverOutline(s.e, fmt.Sprintf("covers[%d]", i), c)
	if err != nil {
		return err
	}
	_, findings, err := coverOf(s.e, i)
	if err != nil {
		return err
	}
	m := template.Marking{Face: outline, Engine: nameOf(s.e), Unseen: outline.Cutouts}
	m.Face.Name, m.Face.Cutouts = name, nil
	m.Notes = []string{"Left and lower edge: of the cover as it lies on this sheet."}
	if len(m.Unseen) > 0 {
		m.Notes = append(m.Notes, "Dashed: the opening of its gasket.")
	}
	if c.CoverPlate != nil {
		m.Depth, m.Material = *c.CoverPlate, capitalised(c.CoverMaterial.Name)
	}
	m.Warnings, m.Remarks = saidOnSheet(findings, s.options.Inch)
	t, err := template.NewMarking(m, s.options)
	return s.add(file, name, t, err)
}

// shownName is a name that the builder gave as far as a line has room for it.
func shownName(name string) string {
	if letters := []rune(name); len(letters) > longestName {
		name = string(letters[:longestName-1]) + "…"
	}
	return fault.Visible(name)
}

// saidOnSheet is what a sheet says of what was found on its part: what fails, by which
// nobody may cut, and what is to be minded. A sheet has room for so much of it, and tells
// what is in the book alone.
func saidOnSheet(findings finding.List, inches bool) (warnings, remarks []string) {
	const room, line = 16, 75 // lines of a sheet, letters of one at least
	used := 0
	say := func(to *[]string, which func(finding.Severity) bool) {
		more := 0
		for _, f := range findings {
			if !which(f.Severity) {
				continue
			}
			text := f.Text
			if inches {
				text = inch.Text(text)
			}
			if need := 1 + len(text)/line; used+need <= room {
				*to, used = append(*to, text), used+need
			} else {
				more++
			}
		}
		if more > 0 {
			*to = append(*to, fmt.Sprintf("More is in the book, %d in number.", more))
		}
	}
	say(&warnings, func(s finding.Severity) bool { return s >= finding.Fails })
	say(&remarks, func(s finding.Severity) bool { return s == finding.Caution })
	return warnings, remarks
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
		f.Name = sheetsFolder + "/" + f.Name
		item.Figures = append(item.Figures, book.Figure{Title: f.About, File: f.Name})
		f.About = name
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
