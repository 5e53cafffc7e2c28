package pages

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/gasket"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// A TemplateQuestion asks for gaskets at full size: of the invented engine, of the
// covers of an engine file, or of an outline of the builder's own.
type TemplateQuestion struct {
	Folder    string   // that they are written to, for their names
	Own       HoleList // an engine file by its name in .toml, or a list of corners; no name: the invented engine
	Part      string   // of the invented engine: chest, cover or both
	Name      string   // on the sheet, in place of the part's own
	Times     float64
	Paper     template.Paper
	Inch      bool // sizes in inches
	Material  material.Material
	Thickness units.Length
	Thread    *thread.Thread    // of the studs of an outline of one's own; nil: its joint is not judged
	Class     string            // of their steel
	Tapped    material.Material // that the studs are screwed into; no name: cast iron
	Pressure  units.Pressure    // above that outside
	Picture   bool              // for a screen too
	Cut       bool              // for a machine that cuts too
	X, Y      Printed
}

// A Printed line shows whether a printer prints true along one axis.
type Printed struct{ Drawn, Measured units.Length }

// longestName is the most characters of a name that a sheet has room for.
const longestName = 60

// Template answers the question with a book and the files that it names. Nothing is
// written.
func Template(ask TemplateQuestion) (book.Book, []cli.File, error) {
	options := template.Options{Paper: ask.Paper, Inch: ask.Inch}
	correction, findings, err := ask.correct(&options)
	if err := errors.Join(ask.check(), err); err != nil {
		return book.Book{}, nil, err
	}
	title, parts, err := ask.parts()
	if err != nil {
		return book.Book{}, nil, err
	}
	b := book.Book{
		Title: title, Findings: findings, Precautions: append(template.Precautions(), jointPrecautions()...),
	}
	sheets := book.Section{Key: "sheets", List: true, Notes: []string{
		"Print at 100 %, and measure the bars before anything is cut.",
		"Read DXF in as millimetres, at scale 1 : 1: it is of release 12, which has no field for the unit. A part that comes out 25.4 times too" +
			" large was read in as inches.",
	}}
	if ask.Cut {
		sheets.Notes = append(sheets.Notes, "Measure what the machine has read in before it cuts: it is as large as said over all. What a"+
			" machine cuts from has no room for a warning.")
	}
	joints := book.Section{Key: "joints", Title: "THE JOINTS", List: true, Notes: jointNotes()}
	var files []cli.File
	for _, p := range parts {
		t, err := template.New(p.onSheet(options.Inch), options)
		if err != nil {
			return book.Book{}, nil, ask.sheetProblem(err)
		}
		drawn, err := ask.files(p, t)
		if err != nil {
			return book.Book{}, nil, err
		}
		files = append(files, drawn...)
		b.Findings = append(b.Findings, p.findings.At(p.outline.Name)...)
		sheets.Items = append(sheets.Items, ask.sheet(p, t, drawn))
		if p.joint != nil {
			title := fmt.Sprintf("%s: %d studs %v, %s (%.0f psi) above the air", p.outline.Name, len(p.outline.Holes),
				p.joint.thread, bar(p.joint.pressure), p.joint.pressure.In(units.PSI))
			joints.Items = append(joints.Items, p.joint.item(title))
		}
	}
	b.Sections = []book.Section{sheets}
	if len(correction.Items) > 0 {
		b.Sections = append(b.Sections, correction)
	}
	if len(joints.Items) > 0 {
		b.Sections = append(b.Sections, joints)
	}
	return b, files, nil
}

// sheetProblem names the flag that an error of the sheet is about.
func (ask TemplateQuestion) sheetProblem(err error) error {
	var argument *units.ArgumentError
	if errors.As(err, &argument) && argument.Field == "thickness" {
		return cli.Named("-thickness", err)
	}
	return err
}

func (ask TemplateQuestion) check() error {
	var all []error
	if !slices.Contains([]string{"chest", "cover", "both"}, ask.Part) {
		all = append(all, cli.Named("-part", fail.UnknownName("part", ask.Part, "chest, cover, both")))
	}
	all = append(all, ask.checkOwn())
	if !(ask.Times >= leastTimes && ask.Times <= mostTimes) {
		all = append(all, cli.Named("-times", fail.OutOfRange("size", ask.Times, "0.8 to 20")))
	}
	if n := utf8.RuneCountInString(ask.Name); n > longestName {
		all = append(all, cli.Named("-name", fmt.Errorf("%d characters; accepted: up to %d", n, longestName)))
	}
	all = append(all, cli.Named("-pressure", fault.Positive(fail, "pressure", ask.Pressure)))
	return errors.Join(all...)
}

// checkOwn refuses what is only for the invented engine, or for an outline.
func (ask TemplateQuestion) checkOwn() error {
	var all []error
	refuse := func(given bool, text string) {
		if given {
			all = append(all, cli.ErrUsage("%s", text))
		}
	}
	own := ask.Own.Name != ""
	ofFile := strings.EqualFold(filepath.Ext(ask.Own.Name), ".toml")
	refuse(own && ask.Part != "both", "-part is for the invented engine; accepted: without a file")
	refuse(own && ask.Times != 1, "-times is for the invented engine; accepted: without a file")
	refuse(ofFile && ask.Name != "", "-name is for one part, and the file names its own; accepted: without an engine file")
	refuse(ask.Tapped.Name != "" && (ofFile || own && ask.Thread == nil), "-tapped is for studs; accepted: without a "+
		"file, or with a list of corners, -thread and -class")
	refuse((!own || ofFile) && (ask.Thread != nil || ask.Class != ""), "-thread and -class are for a list of corners; accepted: with one")
	refuse(own && !ofFile && (ask.Thread == nil) != (ask.Class == ""), "-thread and -class go together; accepted: both, or neither")
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

// A sheetPart is one gasket to draw.
type sheetPart struct {
	file      string // that its files are called by
	outline   gasket.Outline
	engine    string // what it belongs to
	material  string
	thickness units.Length
	joint     *solvedJoint // nil: not judged
	findings  finding.List
}

// onSheet is the part as the sheets have it: with what is said of its joint, in inches
// first where the sheets are.
func (p sheetPart) onSheet(inches bool) template.Part {
	part := template.Part{Outline: p.outline, Engine: p.engine, Thickness: p.thickness}
	if p.material != "" {
		part.Material = capitalised(p.material)
	}
	part.Warnings, part.Remarks = saidOnSheet(p.findings, inches)
	return part
}

// engineStud is the thread of every stud of the invented engine, and engineClass the
// class of its steel: studs of 4.6 do not seat jointing on the whole of the face.
func engineStud() thread.Thread { return thread.MustParse("M3") }

const engineClass = "8.8"

// parts returns the gaskets that are asked for, and what they are called together.
func (ask TemplateQuestion) parts() (title string, parts []sheetPart, err error) {
	switch {
	case ask.Own.Name == "":
		parts, err = ask.ofInvented()
		title = "Gaskets of the invented engine, 20 x 25 mm"
		if ask.Times != 1 {
			title += fmt.Sprintf(", %g times the size", ask.Times)
		}
	case strings.EqualFold(filepath.Ext(ask.Own.Name), ".toml"):
		return ask.ofEngine()
	default:
		parts, err = ask.ofOutline()
		title = "Gasket by the corners of " + cli.Short(ask.Own.Name)
	}
	return title, parts, err
}

// ofInvented returns the gaskets of the invented engine: bore 20 mm, stroke 25 mm,
// steam ports 2 mm, bars 2.5 mm and exhaust port 4 mm wide, all 10 mm long.
func (ask TemplateQuestion) ofInvented() ([]sheetPart, error) {
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
	size := func(v float64) string { return mm(v).Text(units.Millimetres, 1) }
	if ask.Inch {
		size = func(v float64) string { return mm(v).Text(units.Inches, 2) }
	}
	number := func(v float64) string { n, _, _ := strings.Cut(size(v), " "); return strings.TrimSuffix(n, ".0") }
	unit := size(1)[strings.LastIndex(size(1), " "):]
	var parts []sheetPart
	for _, p := range []sheetPart{{file: "chest", outline: chest}, {file: "cover", outline: cover}} {
		if ask.Part != "both" && ask.Part != p.file {
			continue
		}
		p.engine = "Invented engine, " + number(20) + " × " + number(25) + unit
		if err := ask.judge(&p, engineStud(), engineClass); err != nil {
			return nil, err
		}
		parts = append(parts, p)
	}
	return parts, nil
}

// usualCasting is what the studs are screwed into unless it is said.
const usualCasting = "cast iron"

// judge names a part, says what it is cut from and works its joint out.
func (ask TemplateQuestion) judge(p *sheetPart, stud thread.Thread, class string) error {
	if ask.Name != "" {
		p.outline.Name = ask.Name
	}
	p.material, p.thickness = ask.Material.Name, ask.Thickness
	var problems []error
	joint := boltedJoint{
		outline: p.outline, thread: stud, class: class, preload: bolting.InCasting,
		pressure: ask.Pressure, material: &ask.Material, sheet: &ask.Thickness,
	}
	into := ask.Tapped
	if into.Name == "" {
		var err error
		if into, err = material.Lookup(usualCasting); err != nil {
			return err
		}
	}
	joint.tapped = []bolting.Tapped{{Thread: stud, Material: into}}
	solved := joint.solve(func(part string, err error) {
		flags := map[string]string{"tapped": "-tapped", "sheet": "-thickness", "pressure": "-pressure",
			"material": "-material", "class": "-class", "thread": "-thread"}
		if flag := flags[part]; flag != "" {
			err = cli.Named(flag, err)
		} else if ask.Own.Name != "" {
			err = cli.Named(cli.Short(ask.Own.Name), err)
		}
		problems = append(problems, err)
	})
	p.joint, p.findings = &solved, solved.findings
	return errors.Join(problems...)
}

// notJudged is the code of the finding that nothing is known of the studs.
const notJudged finding.Code = "joint-not-judged"

// ofOutline returns the gasket whose corners are listed in a file.
func (ask TemplateQuestion) ofOutline() ([]sheetPart, error) {
	short := cli.Short(ask.Own.Name)
	name := strings.TrimSuffix(filepath.Base(ask.Own.Name), filepath.Ext(ask.Own.Name))
	if ask.Name != "" {
		name = ask.Name
	}
	o, err := gasket.ReadOutline(name, bytes.NewReader(ask.Own.Text))
	if err != nil {
		return nil, cli.Named(short, err)
	}
	if err := o.Validate(); err != nil {
		return nil, cli.Named(short, err)
	}
	p := sheetPart{file: fileName(name, "gasket"), outline: o}
	if ask.Thread != nil {
		if err := ask.judge(&p, *ask.Thread, ask.Class); err != nil {
			return nil, err
		}
		return []sheetPart{p}, nil
	}
	p.material, p.thickness = ask.Material.Name, ask.Thickness
	cut, errCut := o.Check(ask.Thickness)
	held, errHeld := seal.Check(ask.Material, boltedJoint{pressure: ask.Pressure}.service())
	if err := errors.Join(cli.Named("-thickness", errCut), cli.Named("-"+ofService(errHeld), errHeld)); err != nil {
		return nil, err
	}
	p.findings = slices.Concat(cut, held, finding.List{{
		Code: notJudged, Severity: finding.Note, Text: "Whether its studs hold the cover and seat the gasket was not asked.",
		Remedies: []string{"Give -thread and -class, and the pressure of the steam."},
	}})
	return []sheetPart{p}, nil
}

// ofEngine returns the gaskets of the covers of an engine file.
func (ask TemplateQuestion) ofEngine() (title string, parts []sheetPart, err error) {
	e, unread := engine.Parse(ask.Own.Name, ask.Own.Text)
	problems := []error{unread, e.Cross()}
	for i, c := range e.File.Covers {
		if err := e.ValidateCover(i); err != nil {
			problems = append(problems, err)
			continue
		}
		if c.Thickness == nil {
			problems = append(problems, e.Errorf(fmt.Sprintf("covers[%d].gasket_thickness", i),
				`missing; accepted: the thickness of the sheet, such as "0.25 mm"`))
			continue
		}
		p, err := coverGasket(e, i)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		if slices.ContainsFunc(parts, func(other sheetPart) bool { return other.file == p.file }) {
			p.file += fmt.Sprintf("-%d", i+1)
		}
		parts = append(parts, p)
	}
	if err := engine.Join(problems...); err != nil {
		return "", nil, err
	}
	if len(parts) == 0 {
		return "", nil, cli.Named(cli.Short(ask.Own.Name), errors.New("no [[covers]] in it; accepted: a file with one or more"))
	}
	return "Gaskets of " + nameOf(e), parts, nil
}

// nameOf is what an engine is called, or its file.
func nameOf(e *engine.Engine) string {
	if e.File.Name != "" {
		return e.File.Name
	}
	return cli.Short(e.Document.Name)
}

// coverGasket is the gasket of a cover that ValidateCover takes and that has its thickness.
func coverGasket(e *engine.Engine, i int) (p sheetPart, err error) {
	c, key := e.File.Covers[i], fmt.Sprintf("covers[%d]", i)
	j := coverJoint(e, i)
	if j.outline, err = coverOutline(e, key, c); err != nil {
		return p, err
	}
	var problems []error
	solved := j.solve(func(part string, err error) { problems = append(problems, e.Errors(key+"."+jointKeys[part], err)) })
	p = sheetPart{
		file: fileName(c.Where, fmt.Sprintf("cover-%d", i+1)), outline: j.outline, engine: nameOf(e), thickness: *c.Thickness,
		joint: &solved, findings: solved.findings,
	}
	p.outline.Name = capitalised(c.Where) + " gasket"
	if c.Gasket != nil {
		p.material = c.Gasket.Name
	}
	return p, engine.Join(problems...)
}

// fileName makes a name of letters, digits and hyphens from what a part is called.
func fileName(name, other string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	if short := strings.Trim(b.String(), "-"); short != "" {
		return short[:min(len(short), 40)]
	}
	return other
}

// files makes a part in the three formats, SVG sheet by sheet.
func (ask TemplateQuestion) files(p sheetPart, t *template.Template) ([]cli.File, error) {
	var files []cli.File
	var all []error
	add := func(name, about string, write func(io.Writer) error) {
		var text bytes.Buffer
		all = append(all, write(&text))
		files = append(files, cli.File{Name: p.file + name, Text: text.Bytes(), About: about})
	}
	add(".pdf", "PDF, every sheet", t.WritePDF)
	add(".dxf", "DXF, never corrected", t.WriteDXF)
	for page := 1; page <= t.Pages(); page++ {
		// as many digits as the last has, so that a folder lists them in order
		name := fmt.Sprintf("-%0*d.svg", len(strconv.Itoa(t.Pages())), page)
		add(name, "SVG, one sheet", func(w io.Writer) error { return t.WriteSVG(w, page) })
	}
	if ask.Picture {
		add("-picture.svg", "SVG for a screen, not to cut by", t.WritePicture)
	}
	if ask.Cut {
		add("-cut.svg", "SVG, for a machine that cuts", t.WriteCutSVG)
		add("-cut.dxf", "DXF, for a machine that cuts", t.WriteCutDXF)
	}
	return files, errors.Join(all...)
}

// sheetsOf is how many sheets there are.
func sheetsOf(t *template.Template) string {
	if n := t.Pages(); n > 1 {
		return fmt.Sprintf("%d sheets", n)
	}
	return "1 sheet"
}

// sheet says what was drawn and what to punch.
func (ask TemplateQuestion) sheet(p sheetPart, t *template.Template, drawn []cli.File) book.Item {
	holes := book.Table{Key: "holes", Title: "Holes to punch:"}
	for _, h := range t.Holes() {
		punch := book.Never(book.Length(h.Punch, 1), "none of the rack: cut with a knife")
		if !h.Punch.IsZero() {
			if punch = book.Length(h.Punch, 1).Millimetres(); ask.Inch {
				punch = book.Length(h.Punch, 2)
			}
		}
		holes.Rows = append(holes.Rows, book.Row{Values: []book.Value{
			{Key: "count", Label: "number", What: book.Count(h.Count)},
			{Key: "diameter", Label: "diameter", What: book.LengthThou(h.Diameter, 2, 0)},
			{Key: "punch", Label: "punch", What: punch},
		}})
	}
	item := book.Item{
		Title: fmt.Sprintf("%s, %v thick, on %s of %v", p.outline.Name, p.thickness, sheetsOf(t), ask.Paper),
		Values: []book.Value{
			{Key: "part", What: book.Word(p.file)},
			{Key: "sheets", What: book.Count(t.Pages())},
			{Key: "paper", What: book.Word(ask.Paper.String())},
		},
		Tables: []book.Table{holes},
	}
	if m, err := p.outline.Measure(); err == nil {
		item.Values = append(item.Values,
			book.Value{Key: "width", Label: "over all, across", What: book.Length(m.Max.X.Sub(m.Min.X), 2)},
			book.Value{Key: "height", Label: "over all, up", What: book.Length(m.Max.Y.Sub(m.Min.Y), 2)})
	}
	for _, f := range drawn {
		item.Figures = append(item.Figures, book.Figure{Title: f.About, File: filepath.Join(ask.Folder, f.Name)})
	}
	return item
}
