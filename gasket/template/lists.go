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
	unit, marking := l.template.unit, l.template.marking
	switch {
	case marking == nil:
		row(caption, "HOLES", unit.name, "thou", "PUNCH "+unit.name)
	case len(l.template.holes) > 0:
		row(caption, "HOLES", unit.name, "thou", "DRILL "+unit.name)
	default:
		y -= rowUp
		text(d, columns[0], y, caption, "MARKING OUT")
	}
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
		cells := []string{fmt.Sprintf("%d ×", h.Count), "ø" + unit.size(h.Diameter), thou, unit.punchText(h)}
		if marking != nil {
			cells[3] = unit.punch(h.Diameter)
		}
		row(2.1, cells...)
	}
	if marking != nil {
		l.notes(d, sheet.Box{Min: sheet.Point{X: columns[0], Y: b.Min.Y + 1.5}, Max: sheet.Point{X: right, Y: y - 1.5}})
		return
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

// notes writes what is said of a marking, smaller where it is much.
func (l *layout) notes(d *sheet.Drawing, b sheet.Box) {
	lines, up := l.noteLines(b.Max.X-b.Min.X), noteUp
	if most := (b.Max.Y - b.Min.Y) / float64(max(1, len(lines))); most < up {
		up = most
	}
	for i, line := range lines {
		text(d, b.Min.X, b.Max.Y-float64(i+1)*up, min(noteHigh, up*noteHigh/noteUp), line)
	}
}

const (
	noteUp    = 3.6 // from line to line
	noteHigh  = 2.1
	mostNotes = 12 // lines of them
)

// noteLines are the notes of a marking in lines of a width.
func (l *layout) noteLines(width float64) []string {
	notes := l.template.marking.Notes
	if where := l.whereListed(); where != "" {
		notes = slices.Insert(slices.Clone(notes), 0, where+".")
	}
	var lines []string
	for _, note := range notes {
		lines = append(lines, broken(note, noteHigh, width*otherFont)...)
	}
	return lines
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

// A listing is the list of the places of a part.
type listing struct {
	title   string
	things  string // what is listed: "holes"
	columns []column
	rows    [][]string
	wide    float64
	high    float64 // of the figures
}

// A column stands at a distance from the left end of its list, which is its left or
// its right end.
type column struct {
	head   string
	at     float64
	anchor sheet.Anchor
}

// listingOf is the list of the holes of a gasket.
func (p *plan) listing() listing {
	l := listing{
		title: [...]string{
			middleDatum: "HOLES FROM THE MIDDLE, ",
			markedDatum: "HOLES FROM 0, ",
			farDatum:    "HOLES FROM 0, OFF THE PART, ",
		}[p.datum()] + p.unit.name,
		things: "holes", wide: listWide, high: 2.1,
		columns: []column{
			{"NO.", nameWide, sheet.End}, {"X", 29, sheet.End}, {"Y", 46, sheet.End}, {"HOLE", listWide - 1.5, sheet.End},
		},
	}
	for i, h := range p.outline.Holes {
		l.rows = append(l.rows, []string{
			nameOf(h, i, l.high), p.unit.coordinate(h.At.X), p.unit.coordinate(h.At.Y), "ø" + p.unit.size(h.Diameter),
		})
	}
	return l
}

// places draws n rows of the list of places with its upper left corner at a
// point.
func (l *layout) places(d *sheet.Drawing, at sheet.Point, first, n int) {
	list := l.list
	row := func(y, height float64, cell func(i int) string) {
		for i, c := range list.columns {
			d.Text(textLine, sheet.Text{
				At: sheet.Point{X: at.X + c.at, Y: y}, Height: height, Anchor: c.anchor, Value: cell(i),
			})
		}
	}
	rule := func(y float64) {
		d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + list.wide, Y: y - 1.2})
	}
	y := at.Y - rowUp + 1
	text(d, at.X, y, min(caption, caption*list.wide/sheet.TextWidth(list.title, caption)), list.title)
	y -= rowUp
	row(y, caption, func(i int) string { return list.columns[i].head })
	rule(y)
	y -= 1.2
	for _, cells := range list.rows[first : first+n] {
		y -= rowUp
		row(y, list.high, func(i int) string { return cells[i] })
	}
	rule(y)
}
