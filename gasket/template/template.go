package template

import (
	"fmt"
	"io"
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("template")

// A Part is the gasket to draw.
type Part struct {
	Outline   gasket.Outline // its Name heads the sheet; holes without a name are numbered
	Engine    string         // what the part belongs to; may be blank
	Material  string         // may be blank
	Thickness units.Length   // of the sheet that it is cut from
	Warnings  []string       // what is wrong with the joint, in full sentences: every sheet and file says so
	Remarks   []string       // what else is to be minded, in full sentences: every sheet says it
}

// Options choose the paper and the tools. The zero value is A4, no correction
// and [CommonPunches].
type Options struct {
	Paper      Paper
	Correction Correction
	Punches    []units.Length // hollow punches at hand; nil: CommonPunches, or InchPunches where Inch is set
	Inch       bool           // sizes in inches and bars of 4 in; otherwise in millimetres and bars of 100 mm
}

// A Template is a part laid out on sheets of paper.
type Template struct {
	part    Part
	marking *Marking // nil: a gasket
	unit    ruler
	holes   []Holes
	pages   []*sheet.Drawing
}

// New lays out a part. The part has a name, a thickness and an outline that
// [gasket.Outline.Validate] takes, and goes on up to 200 sheets; a correction is
// from 0.5 to 2 and leaves room on the paper for the bars. See the example.
func New(part Part, o Options) (*Template, error) {
	if part.Outline.Name == "" {
		return nil, fail.Missing("name of the part", "some text")
	}
	if err := fail.Above(fault.Named("thickness", part.Thickness)); err != nil {
		return nil, err
	}
	if err := part.Outline.Validate(); err != nil {
		return nil, err
	}
	set := o.Punches
	if set == nil {
		if set = CommonPunches(); o.Inch {
			set = InchPunches()
		}
	}
	for _, p := range set {
		if err := fail.Above(fault.Named("punch", p)); err != nil {
			return nil, err
		}
	}
	x, y, err := o.Correction.scale()
	if err != nil {
		return nil, err
	}
	part.Outline = copied(part.Outline)
	part.Warnings, part.Remarks = slices.Clone(part.Warnings), slices.Clone(part.Remarks)
	t := &Template{part: part, unit: rulerOf(o.Inch), holes: bySize(part.Outline.Holes, set)}
	return t.laidOut(o.Paper, x, y)
}

// laidOut returns the sheet with its part on the pages that it takes.
func (t *Template) laidOut(paper Paper, x, y float64) (*Template, error) {
	plan, err := t.plan()
	if err != nil {
		return nil, err
	}
	if t.pages, err = layOut(t, plan, paper, x, y); err != nil {
		return nil, err
	}
	return t, nil
}

// plan draws the part in the axes of its outline.
func (t *Template) plan() (*plan, error) {
	if t.marking != nil {
		return newMarkingPlan(*t.marking, t.unit)
	}
	return newPlan(t.part.Outline, t.unit)
}

// copied returns the outline with slices of its own: a template does not change
// with what its caller does next.
func copied(o gasket.Outline) gasket.Outline {
	o.Outside, o.Holes, o.Cutouts = slices.Clone(o.Outside), slices.Clone(o.Holes), slices.Clone(o.Cutouts)
	for i, l := range o.Cutouts {
		o.Cutouts[i] = slices.Clone(l)
	}
	return o
}

// Pages returns the number of printed sheets.
func (t *Template) Pages() int { return len(t.pages) }

// Holes returns the sizes of hole, largest first, with the punch for each.
func (t *Template) Holes() []Holes { return slices.Clone(t.holes) }

// WriteSVG writes one sheet, counted from 1, as SVG at true size. See the example
// of [New].
func (t *Template) WriteSVG(w io.Writer, page int) error {
	if page < 1 || page > len(t.pages) {
		return fail.OutOfRange("sheet", page, fmt.Sprintf("1 to %d", len(t.pages)))
	}
	return sheet.WriteSVG(w, t.part.Outline.Name, t.pages[page-1])
}

// WritePDF writes all sheets as a PDF. The same template gives the same bytes. See
// the example of [New].
func (t *Template) WritePDF(w io.Writer) error {
	return sheet.WritePDF(w, t.part.Outline.Name, t.pages...)
}

// WriteDXF writes the whole part as DXF release 12 in millimetres, in the axes
// of its outline and not corrected for any printer. See the example of [New].
func (t *Template) WriteDXF(w io.Writer) error {
	whole, err := t.whole()
	if err != nil {
		return err
	}
	return sheet.WriteDXF(w, whole)
}
