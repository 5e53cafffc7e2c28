package template

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// sizes draws the list of hole sizes and punches, and the caution.
func (l *layout) sizes(d *sheet.Drawing, b sheet.Box) {
	left, right, y := b.Min.X, b.Max.X, b.Max.Y
	wide := right - left
	columns := [...]float64{left + 1.5, left + 0.18*wide, left + 0.46*wide, left + 0.68*wide}
	row := func(height float64, cells ...string) {
		y -= rowUp
		for i, cell := range cells {
			end := right
			if i+1 < len(columns) {
				end = columns[i+1]
			}
			text(d, columns[i], y, height, sheet.Fit(cell, height, end-columns[i]-0.5))
		}
	}
	unit := l.template.unit
	row(caption, "HOLES", unit.name, "thou", "PUNCH "+unit.name)
	d.Line(ruleLine, sheet.Point{X: left, Y: y - 1.2}, sheet.Point{X: right, Y: y - 1.2})
	y -= 1.2
	sizes := l.template.holes
	for i, h := range sizes {
		if i == mostSizes-1 && len(sizes) > mostSizes {
			rest := 0
			for _, more := range sizes[i:] {
				rest += more.Count
			}
			y -= rowUp
			text(d, columns[0], y, 2.1, fmt.Sprintf("and %d holes of %d more sizes", rest, len(sizes)-i))
			break
		}
		thou := h.Diameter.Decimal(units.Thousandths, 0)
		row(2.1, fmt.Sprintf("%d ×", h.Count), "ø"+unit.size(h.Diameter), thou, unit.punchText(h))
	}
	if len(sizes) == 0 {
		row(2.1, "none")
	}
	line := b.Min.Y + 3*rowUp
	d.Line(ruleLine, sheet.Point{X: left, Y: line}, sheet.Point{X: right, Y: line})
	notes := caution()
	if where := l.whereListed(); where != "" {
		notes = slices.Insert(notes, 0, where)
	}
	for i, note := range notes {
		height := min(caption, caption*(wide-3)/max(1, sheet.TextWidth(note, caption)))
		text(d, columns[0], line-float64(i)*3.8-3.2, height, note)
	}
}

func (r ruler) punchText(h Holes) string {
	switch {
	case h.Punch.IsZero():
		return "none: by knife"
	case h.Punch == h.Diameter:
		return r.punch(h.Punch)
	}
	return fmt.Sprintf("%s (+%s)", r.punch(h.Punch), r.size(h.Punch.Sub(h.Diameter)))
}

// places draws n rows of the list of places with its upper left corner at a
// point.
func (l *layout) places(d *sheet.Drawing, at sheet.Point, first, n int) {
	columns := [...]float64{nameWide, 29, 46, listWide - 1.5} // right ends
	row := func(y, height float64, cells ...string) {
		for i, cell := range cells {
			end := sheet.Point{X: at.X + columns[i], Y: y}
			d.Text(textLine, sheet.Text{At: end, Height: height, Anchor: sheet.End, Value: cell})
		}
	}
	unit, y := l.template.unit, at.Y-rowUp+1
	text(d, at.X, y, caption, [...]string{
		middleDatum: "HOLES FROM THE MIDDLE, ",
		markedDatum: "HOLES FROM 0, ",
		farDatum:    "HOLES FROM 0, OFF THE PART, ",
	}[l.plan.datum()]+unit.name)
	y -= rowUp
	row(y, caption, "NO.", "X", "Y", "HOLE")
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
	y -= 1.2
	for i, h := range l.template.part.Outline.Holes[first : first+n] {
		y -= rowUp
		row(y, 2.1, nameOf(h, first+i, 2.1), unit.coordinate(h.At.X), unit.coordinate(h.At.Y), "ø"+unit.size(h.Diameter))
	}
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
}
