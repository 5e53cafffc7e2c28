package template

import (
	"io"

	"github.com/valvechest/valvechest/internal/sheet"
)

// mostPictured is the largest number of holes that a picture lists.
const mostPictured = 24

// WritePicture writes the part with its dimensions, holes and title as one SVG
// on a sheet no larger than they need, for a page that is read on a screen. It
// is not to cut from: it has a bar across alone and no correction. See the example
// of [New].
func (t *Template) WritePicture(w io.Writer) error {
	const (
		edge   = 3.0 // from the edge of the picture to its frame
		inside = 6.0 // from the frame to what is in it
		below  = 20.0
		least  = 92.0 // width of the lists and the title
	)
	p, err := t.plan()
	if err != nil {
		return err
	}
	list := t.listing(p)
	rows, side := len(list.rows), max(least, list.wide+4)
	l := &layout{template: t, plan: p, list: list, beside: rows <= mostPictured}
	need := extent(p.Bounds())
	listUp, sizesUp := 0.0, rowUp*float64(5+min(max(len(t.holes), 1), mostSizes))
	if l.beside && rows > 0 {
		listUp = inside/2 + rowUp*float64(rows+3)
	}
	l.warnings = warningLines(t.part.Warnings, t.part.Remarks, max(need.X, t.unit.barMM())+2*inside-4)
	warned := warningUp * float64(len(l.warnings))
	l.width = 2*edge + max(need.X, t.unit.barMM()) + 2*inside + side
	l.height = 2*edge + max(need.Y+2*inside+below+warned, listUp+sizesUp+stripUp)
	d := sheet.New(l.width, l.height)
	left, right, bottom, top := edge, l.width-edge, edge, l.height-edge
	column := right - side
	rectangle(d, frameLine, sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right, Y: top}})
	d.Line(frameLine, sheet.Point{X: column, Y: bottom}, sheet.Point{X: column, Y: top})
	title, sizes := bottom+stripUp, bottom+stripUp+sizesUp
	d.Line(frameLine, sheet.Point{X: column, Y: title}, sheet.Point{X: right, Y: title})
	l.title(d, sheet.Box{Min: sheet.Point{X: column, Y: bottom}, Max: sheet.Point{X: right, Y: title}}, "not to cut from")
	l.sizes(d, sheet.Box{Min: sheet.Point{X: column, Y: title}, Max: sheet.Point{X: right, Y: sizes}})
	if listUp > 0 {
		d.Line(frameLine, sheet.Point{X: column, Y: sizes}, sheet.Point{X: right, Y: sizes})
		l.places(d, sheet.Point{X: column + (side-list.wide)/2, Y: top - 1}, 0, rows)
	}
	l.where = sheet.Box{
		Min: sheet.Point{X: left + inside, Y: bottom + below},
		Max: sheet.Point{X: column - inside, Y: top - inside},
	}
	l.where.Max.Y -= warned
	l.warn(d, sheet.Point{X: left + 2, Y: top - 1})
	l.single(d)
	t.unit.barAcross(d, sheet.Point{X: (left + column - t.unit.barMM()) / 2, Y: bottom + 9})
	return sheet.WriteSVG(w, t.part.Outline.Name, d)
}
