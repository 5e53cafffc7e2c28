package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// Studs is the page of the engine book that says how long to cut the studs of each
// cover. What is too short in their holes is told on the page of the fasteners.
func Studs(e *engine.Engine) (*Page, error) {
	section, _, err := studsOf(e)
	if err != nil || len(section.Items) == 0 {
		return nil, err
	}
	return &Page{Sections: []book.Section{section}}, nil
}

// ReadStuds makes the book of the studs of an engine file; see [StudsFile].
func ReadStuds(name string) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML with [[covers]] and [[fasteners]]", err)
	}
	return StudsFile(name, text)
}

// StudsFile makes that book from the text of the file. All that is wrong with it comes
// in one error.
func StudsFile(name string, text []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	section, found, err := studsOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return book.Book{}, err
	}
	if len(section.Items) == 0 {
		return book.Book{}, e.Errorf("covers", "missing; accepted: [[covers]], with [[fasteners]] of the same places")
	}
	b := book.Book{Title: "HOW LONG THE STUDS ARE", From: e.Document.Name, Findings: found, Precautions: jointPrecautions()}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	section.Title = ""
	b.Sections = []book.Section{section}
	return firstRead(e, b), nil
}

// studsOf works out the studs of every cover.
func studsOf(e *engine.Engine) (section book.Section, found finding.List, err error) {
	section = book.Section{Key: "studs", Title: "STUDS", List: true}
	var problems []error
	for i := range e.File.Covers {
		if e.ValidateCover(i) != nil { // told on the page of the covers
			problems = append(problems, e.ValidateCover(i))
			continue
		}
		item, told, err := studOf(e, i)
		problems = append(problems, err)
		section.Items, found = append(section.Items, item), append(found, told.At(e.File.Covers[i].Where)...)
	}
	return section, found, engine.Join(problems...)
}

// studOf works out the studs of a cover that ValidateCover takes, in the first of the
// holes that they are screwed into.
func studOf(e *engine.Engine, i int) (book.Item, finding.List, error) {
	c, key := e.File.Covers[i], fmt.Sprintf("covers[%d].", i)
	outline, err := coverOutline(e, fmt.Sprintf("covers[%d]", i), c)
	if err != nil {
		return book.Item{}, nil, err
	}
	count := len(outline.Holes)
	item := book.Item{Values: []book.Value{
		{Key: "where", What: book.Word(c.Where)}, {Key: "count", What: book.Count(count)},
		{Key: "thread", What: book.Word(c.Thread.Designation())},
	}}
	title := fmt.Sprintf("%s: %d studs %v", c.Where, count, *c.Thread)
	lacks := func(why string) (book.Item, finding.List, error) {
		item.Title = title
		item.Values = append(item.Values,
			book.Value{Key: "length", Label: "cut each to", What: book.Never(book.Length(units.Length{}, 3), why)})
		return item, nil, nil
	}
	stud := strength.Stud{Thread: *c.Thread, Gasket: orZero(c.Thickness), Nut: orZero(c.Nut)}
	if c.CoverPlate == nil {
		return lacks("give cover_thickness and cover_material")
	}
	stud.Cover = plateOf(c).Add(orZero(c.Washer)).Add(orZero(c.Passes))
	if stud.Nut.IsZero() {
		if _, none := c.Thread.NutHeight(); none != nil {
			return lacks("we have no table of its nuts: give nut, their height")
		}
	}
	holes := e.TappedFor(i)
	if len(holes) == 0 || e.ValidateFastener(holes[0]) != nil {
		return lacks("give [[fasteners]] of the same place and thread")
	}
	f := e.File.Fasteners[holes[0]]
	full, err := tappedHole(f).FullThread()
	if err != nil {
		return item, nil, e.Errors(fmt.Sprintf("fasteners[%d].thread", holes[0]), err)
	}
	if full.Length.IsZero() {
		return lacks("its hole holds no full thread")
	}
	stud.Material, stud.Hole = *f.Material, full.Length
	cut, err := stud.Length()
	if err != nil {
		return item, nil, e.Errors(key+"thread", err)
	}
	item.Title = title + ", in " + f.Material.Name
	item.Figures, err = pictures(studPicture(fmt.Sprintf("stud-%d", i+1), c.Where, stud, cut, e.Inches()))
	if err != nil {
		return item, nil, err
	}
	item.Values = append(item.Values,
		book.Value{Key: "length", Label: "cut each to", What: book.LengthThou(cut.Length, 1, 0), Refs: cut.Refs},
		book.Value{
			Key: "engaged", Label: "  in the hole", What: book.LengthThou(cut.Engaged, 2, 0),
			Remark: fmt.Sprintf("%d whole turns", cut.Turns),
		},
		book.Value{Key: "nut", Label: "  nut", What: book.LengthThou(cut.Nut, 2, 0)},
		book.Value{
			Key: "outer", Label: "  thread on the outer end", What: book.LengthThou(cut.Outer, 2, 0), Remark: "at least",
		})
	item.Values = append(item.Values, tightened(c.Gasket, c.Thickness, stressOf(e, i, outline))...)
	item.Formulas = []book.Formula{worked(source.Refs{}, func(r ruler) string {
		return fmt.Sprintf("length = engaged + gasket + cover, washer and what else it passes + nut + 1.5 p ="+
			" %s + %s + %s + %s + %s = %s", r.decimal(cut.Engaged, 2), r.decimal(stud.Gasket, 2), r.decimal(stud.Cover, 2),
			r.decimal(cut.Nut, 2), r.decimal(cut.Beyond, 2), r.text(cut.Length, 2))
	})}
	return item, cut.Findings, nil
}

// stressOf is how hard the studs of a cover press its gasket; zero where that is not
// known.
func stressOf(e *engine.Engine, i int, outline gasket.Outline) units.Pressure {
	j, sound := coverJoint(e, i), true
	j.outline = outline
	solved := j.solve(func(string, error) { sound = false })
	if !sound {
		return 0
	}
	return solved.pressing.Bolted
}

// tightened is between what a gasket lies under its studs, where a source has how far
// its sheet gives under no less than that stress.
func tightened(m *material.Material, sheet *units.Length, stress units.Pressure) []book.Value {
	if m == nil || sheet == nil {
		return nil
	}
	value := book.Value{Key: "gasket_tightened", Label: "  gasket, when tightened"}
	all, err := seal.PressedFor(*m)
	if err == nil {
		var least, most units.Length
		if least, most, err = all[0].Thickness(*sheet, stress); err == nil {
			value.What, value.Refs = book.Range(book.LengthThou(least, 2, 1), book.LengthThou(most, 2, 1)), all[0].Refs
		}
	}
	if err != nil {
		none := book.LengthThou(units.Length{}, 2, 1)
		value.What = book.Never(book.Range(none, none), "no figure for it: count with the sheet, "+sheet.Text(units.Millimetres, 2))
	}
	return []book.Value{value}
}
