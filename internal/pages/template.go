package pages

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/gasket"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// A TemplateQuestion asks for the gaskets of the invented engine at full size.
type TemplateQuestion struct {
	Folder    string // that they are written to, for their names
	Part      string // chest, cover or both
	Name      string // on the sheet, in place of the part's own
	Times     float64
	Paper     template.Paper
	Material  material.Material
	Thickness units.Length
	Pressure  units.Pressure // above that outside
	Picture   bool           // for a screen too
	X, Y      Printed
}

// A Printed line shows whether a printer prints true along one axis.
type Printed struct{ Drawn, Measured units.Length }

// longestName is the most characters of a name that a sheet has room for.
const longestName = 60

// Template answers the question with a book and the files that it names. Nothing is
// written.
func Template(ask TemplateQuestion) (book.Book, []cli.File, error) {
	options := template.Options{Paper: ask.Paper}
	correction, findings, err := ask.correct(&options)
	if err := errors.Join(ask.check(), err); err != nil {
		return book.Book{}, nil, err
	}
	parts, err := ask.parts()
	if err != nil {
		return book.Book{}, nil, err
	}
	b := book.Book{
		Title:       "Gaskets of the invented engine, 20 x 25 mm",
		Findings:    findings,
		Precautions: append(template.Precautions(), jointPrecautions()...),
	}
	if ask.Times != 1 {
		b.Title += fmt.Sprintf(", %g times the size", ask.Times)
	}
	sheets := book.Section{Key: "sheets", List: true, Notes: []string{
		"Print at 100 %, and measure the bars before anything is cut.",
	}}
	joints := book.Section{Key: "joints", Title: "THE JOINTS", List: true, Notes: jointNotes()}
	var files []cli.File
	for _, p := range parts {
		t, solved, err := ask.draw(p, options)
		if err != nil {
			return book.Book{}, nil, err
		}
		drawn, err := ask.files(p, t)
		if err != nil {
			return book.Book{}, nil, err
		}
		files = append(files, drawn...)
		b.Findings = append(b.Findings, solved.findings.At(p.outline.Name)...)
		sheets.Items = append(sheets.Items, ask.sheet(p, t, drawn))
		title := fmt.Sprintf("%s: %d studs %v, %s (%.0f psi) above the air", p.outline.Name, len(p.outline.Holes),
			solved.thread, bar(ask.Pressure), ask.Pressure.In(units.PSI))
		joints.Items = append(joints.Items, solved.item(title))
	}
	b.Sections = []book.Section{sheets}
	if len(correction.Items) > 0 {
		b.Sections = append(b.Sections, correction)
	}
	b.Sections = append(b.Sections, joints)
	return b, files, nil
}

func (ask TemplateQuestion) check() error {
	var all []error
	if !slices.Contains([]string{"chest", "cover", "both"}, ask.Part) {
		all = append(all, cli.Named("-part", fail.UnknownName("part", ask.Part, "chest, cover, both")))
	}
	if !(ask.Times >= leastTimes && ask.Times <= mostTimes) {
		all = append(all, cli.Named("-times", fail.OutOfRange("size", ask.Times, "0.8 to 20")))
	}
	if n := utf8.RuneCountInString(ask.Name); n > longestName {
		all = append(all, cli.Named("-name", fmt.Errorf("%d characters; accepted: up to %d", n, longestName)))
	}
	all = append(all, cli.Named("-pressure", fault.Positive(fail, "pressure", ask.Pressure)))
	return errors.Join(all...)
}

// How many times the size the engine may be built: its studs stay as they are.
const (
	leastTimes = 0.8
	mostTimes  = 20
)

// correct works out the correction for the printer, with what may have led to it.
func (ask TemplateQuestion) correct(options *template.Options) (book.Section, finding.List, error) {
	s := book.Section{Key: "correction", Title: "CORRECTION FOR THE PRINTER"}
	var findings finding.List
	var all []error
	for _, axis := range []struct {
		name    string
		printed Printed
		factor  *float64
	}{{"x", ask.X, &options.Correction.X}, {"y", ask.Y, &options.Correction.Y}} {
		drawn, measured := axis.printed.Drawn, axis.printed.Measured
		causes, _ := template.CheckScale(drawn, measured) // refuses what Factor refuses
		var err error
		if *axis.factor, err = template.Factor(drawn, measured); err != nil {
			for _, c := range causes {
				err = fmt.Errorf("%s; %s", cli.Explain(err), c.Text)
			}
			all = append(all, cli.Named("-printed-"+axis.name, err))
			continue
		}
		if drawn == measured {
			continue
		}
		findings = append(findings, causes.At(fmt.Sprintf("%v along %s came out at %v", drawn, axis.name, measured))...)
		s.Items = append(s.Items, book.Item{
			Values: []book.Value{{Key: axis.name, Label: "along " + axis.name, What: book.Number(*axis.factor, 4, "", "")}},
			Formulas: []book.Formula{{Text: fmt.Sprintf("correction %s = drawn / printed = %v / %v = %.4f",
				strings.ToUpper(axis.name), drawn, measured, *axis.factor)}},
		})
	}
	return s, findings, errors.Join(all...)
}

// An enginePart is one gasket of the invented engine: bore 20 mm, stroke 25 mm,
// steam ports 2 mm, bars 2.5 mm and exhaust port 4 mm wide, all 10 mm long.
type enginePart struct {
	file    string
	outline gasket.Outline
}

// engineStud is the thread of every stud, and engineClass the class of its steel:
// studs of 4.6 do not seat jointing on the whole of the face.
func engineStud() thread.Thread { return thread.MustParse("M3") }

const engineClass = "8.8"

// parts returns the gaskets that are asked for.
func (ask TemplateQuestion) parts() ([]enginePart, error) {
	mm := func(v float64) units.Length { return units.MM(v * ask.Times) }
	clear, err := engineStud().UsualClearance()
	if err != nil {
		return nil, err
	}
	onRectangle, errRectangle := gasket.Rectangle(2, 3, mm(23), mm(33))
	onCircle, errCircle := gasket.BoltCircle(6, mm(28), 90*units.Degree)
	chest, errChest := gasket.Rectangular("Steam-chest cover gasket",
		gasket.Rect{Width: mm(30), Height: mm(40), Corner: mm(3)},
		[]gasket.Rect{{Width: mm(16), Height: mm(26), Corner: mm(2)}}, onRectangle.Drilled(clear.Hole))
	cover, errCover := gasket.Round("Cylinder-cover gasket", mm(36), mm(20.5), onCircle.Drilled(clear.Hole))
	if err := errors.Join(errRectangle, errCircle, errChest, errCover); err != nil {
		return nil, err
	}
	if ask.Name != "" {
		chest.Name, cover.Name = ask.Name, ask.Name
	}
	both := []enginePart{{"chest", chest}, {"cover", cover}}
	return slices.DeleteFunc(both, func(p enginePart) bool { return ask.Part != "both" && ask.Part != p.file }), nil
}

// draw lays a part out and works out its joint.
func (ask TemplateQuestion) draw(p enginePart, options template.Options) (*template.Template, solvedJoint, error) {
	var problems []error
	solved := boltedJoint{
		outline: p.outline, thread: engineStud(), class: engineClass, preload: bolting.InCasting,
		pressure: ask.Pressure, material: &ask.Material, sheet: &ask.Thickness,
	}.solve(func(part string, err error) {
		flags := map[string]string{"sheet": "-thickness", "pressure": "-pressure", "material": "-material"}
		if flag := flags[part]; flag != "" {
			err = cli.Named(flag, err)
		}
		problems = append(problems, err)
	})
	if problems != nil {
		return nil, solved, errors.Join(problems...)
	}
	t, err := template.New(template.Part{
		Outline: p.outline, Engine: "Invented engine, 20 × 25 mm",
		Material: strings.ToUpper(ask.Material.Name[:1]) + ask.Material.Name[1:], Thickness: ask.Thickness,
	}, options)
	return t, solved, err
}

// files makes a part in the three formats, SVG sheet by sheet.
func (ask TemplateQuestion) files(p enginePart, t *template.Template) ([]cli.File, error) {
	var files []cli.File
	var all []error
	add := func(name string, write func(io.Writer) error) {
		var text bytes.Buffer
		all = append(all, write(&text))
		files = append(files, cli.File{Name: p.file + name, Text: text.Bytes()})
	}
	add(".pdf", t.WritePDF)
	add(".dxf", t.WriteDXF)
	for page := 1; page <= t.Pages(); page++ {
		add(fmt.Sprintf("-%d.svg", page), func(w io.Writer) error { return t.WriteSVG(w, page) })
	}
	if ask.Picture {
		add("-picture.svg", t.WritePicture)
	}
	return files, errors.Join(all...)
}

// sheet says what was drawn and what to punch.
func (ask TemplateQuestion) sheet(p enginePart, t *template.Template, drawn []cli.File) book.Item {
	sheets := "1 sheet"
	if n := t.Pages(); n > 1 {
		sheets = fmt.Sprintf("%d sheets", n)
	}
	holes := book.Table{Key: "holes", Title: "Holes to punch:"}
	for _, h := range t.Holes() {
		punch := book.Never(book.Length(h.Punch, 1), "none of the rack: cut with a knife")
		if !h.Punch.IsZero() {
			punch = book.Length(h.Punch, 1).Millimetres()
		}
		holes.Rows = append(holes.Rows, book.Row{Values: []book.Value{
			{Key: "count", Label: "number", What: book.Count(h.Count)},
			{Key: "diameter", Label: "diameter", What: book.LengthThou(h.Diameter, 2, 0)},
			{Key: "punch", Label: "punch", What: punch},
		}})
	}
	item := book.Item{
		Title: fmt.Sprintf("%s, %v thick, on %s of %v", p.outline.Name, ask.Thickness, sheets, ask.Paper),
		Values: []book.Value{
			{Key: "part", What: book.Word(p.file)},
			{Key: "sheets", What: book.Count(t.Pages())},
			{Key: "paper", What: book.Word(ask.Paper.String())},
		},
		Tables: []book.Table{holes},
	}
	for _, f := range drawn {
		kind := "SVG, one sheet"
		switch {
		case strings.HasSuffix(f.Name, ".pdf"):
			kind = "PDF, every sheet"
		case strings.HasSuffix(f.Name, ".dxf"):
			kind = "DXF, never corrected"
		case strings.HasSuffix(f.Name, "-picture.svg"):
			kind = "SVG for a screen, not to cut by"
		}
		item.Figures = append(item.Figures, book.Figure{Title: kind, File: filepath.Join(ask.Folder, f.Name)})
	}
	return item
}
