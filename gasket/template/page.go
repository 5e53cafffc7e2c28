package template

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Sizes of the sheet in millimetres of the drawing.
const (
	margin    = 10.0 // from the edge of the paper to the frame, which most printers reach
	stripUp   = 46.0 // height of the strip with the hole list and the title
	titleWide = 98.0
	barLength = 100.0
	listWide  = 62.0
	listGap   = 8.0
	nameWide  = 12.0 // of the names of holes in the list of places
	rowUp     = 4.2
	caption   = 1.8 // height of small capitals over a field
	plainText = 2.5
	mostSizes = 5 // rows in the list of sizes
)

// sheet draws what every sheet carries: frame, bars, hole sizes, title.
func (l *layout) sheet(number int) *sheet.Drawing {
	d := sheet.New(l.width, l.height)
	d.Stretch(l.scaleX, l.scaleY)
	left, right, bottom, top := margin, l.width-margin, margin, l.height-margin
	rectangle(d, frameLine, sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right, Y: top}})
	strip := bottom + stripUp
	d.Line(frameLine, sheet.Point{X: left, Y: strip}, sheet.Point{X: right, Y: strip})
	d.Line(frameLine, sheet.Point{X: right - titleWide, Y: bottom}, sheet.Point{X: right - titleWide, Y: strip})
	l.title(d, sheet.Box{Min: sheet.Point{X: right - titleWide, Y: bottom}, Max: sheet.Point{X: right, Y: strip}}, fmt.Sprintf("%d of %d, %s", number, l.count(), l.paper))
	l.sizes(d, sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right - titleWide, Y: strip}})
	origin := sheet.Point{X: left + 10, Y: strip + 9}
	bars(d, origin)
	l.howToPrint(d, origin.At(barLength+8, 0), right-3)
	return d
}

// bars draws the two bars of 100 mm from a common corner.
func bars(d *sheet.Drawing, origin sheet.Point) {
	barAcross(d, origin)
	bar(d, func(along, beside float64) sheet.Point { return origin.At(beside, along) })
	for _, mm := range [...]float64{barLength / 2, barLength} {
		barNote(d, origin.At(-2.6, mm-caption/2), sheet.End, 0, millimetres(mm))
	}
	barNote(d, origin.At(-3, barLength/4), sheet.Middle, 90*units.Degree, "Y 100 mm (3.937 in)")
}

// barAcross draws the bar of 100 mm along X.
func barAcross(d *sheet.Drawing, origin sheet.Point) {
	bar(d, func(along, beside float64) sheet.Point { return origin.At(along, beside) })
	barNote(d, origin.At(-2.6, -5), sheet.Middle, 0, "0")
	for _, mm := range [...]float64{barLength / 2, barLength} {
		barNote(d, origin.At(mm, -5), sheet.Middle, 0, millimetres(mm))
	}
	barNote(d, origin.At(barLength/4, -5), sheet.Middle, 0, "X 100 mm (3.937 in)")
}

func barNote(d *sheet.Drawing, at sheet.Point, anchor sheet.Anchor, turn units.Angle, text string) {
	d.Text(textLine, sheet.Text{At: at, Height: caption, Anchor: anchor, Rotation: turn, Value: text})
}

// bar draws one bar on the points that a distance along it and beside it give.
func bar(d *sheet.Drawing, at func(along, beside float64) sheet.Point) {
	d.Line(scaleLine, at(0, 0), at(barLength, 0))
	for mm := 10.0; mm <= barLength; mm += 10 {
		tick := 1.5
		if mm == barLength/2 || mm == barLength {
			tick = 3
		}
		d.Line(scaleLine, at(mm, 0), at(mm, tick))
	}
	for _, end := range [...]float64{0, barLength} {
		d.Line(scaleLine, at(end, 0), at(end, -2))
	}
}

// howToPrint tells what to do with the bars.
func (l *layout) howToPrint(d *sheet.Drawing, at sheet.Point, right float64) {
	room := right - at.X
	lines := []struct {
		height float64
		text   string
	}{
		{plainText, "PRINT AT 100 % — MEASURE THIS"},
		{2.1, "Cut only when both bars measure 100 mm."},
		{2.1, "If not: enter what they measure, reprint."},
		{2.1, "No correction in this sheet."},
	}
	if l.scaleX != 1 || l.scaleY != 1 {
		lines[2].text = "If not: factors × 100 / measured, reprint."
		lines[3].text = fmt.Sprintf("Corrected: X × %.4f, Y × %.4f.", l.scaleX, l.scaleY)
	}
	y := at.Y + 6.2
	for _, line := range lines {
		height := min(line.height, line.height*room/sheet.TextWidth(line.text, line.height))
		d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X, Y: y}, Height: height, Value: line.text})
		y -= 4
	}
}

// title draws the block that says what the sheet is.
func (l *layout) title(d *sheet.Drawing, b sheet.Box, which string) {
	part := l.template.part
	left, right, y := b.Min.X, b.Max.X, b.Max.Y
	field := func(x, wide, up float64, name, value string, height float64) {
		d.Text(textLine, sheet.Text{At: sheet.Point{X: x + 1.5, Y: y - 1.3 - caption}, Height: caption, Value: name})
		d.Text(textLine, sheet.Text{At: sheet.Point{X: x + 1.5, Y: y - up + 1.9}, Height: height, Value: sheet.Fit(value, height, wide-3)})
	}
	rule := func(x0, x1 float64) {
		d.Line(ruleLine, sheet.Point{X: x0, Y: y}, sheet.Point{X: x1, Y: y})
	}
	column := func(x, up float64) {
		d.Line(ruleLine, sheet.Point{X: x, Y: y}, sheet.Point{X: x, Y: y - up})
	}
	wide := right - left
	field(left, wide, 13, "PART", part.Outline.Name, 4)
	y -= 13
	rule(left, right)
	field(left, wide-32, 9, "FOR", orDash(part.Engine), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SCALE", "1 : 1", plainText)
	y -= 9
	rule(left, right)
	field(left, wide-32, 9, "MATERIAL", orDash(part.Material), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SHEET", which, plainText)
	y -= 9
	rule(left, right)
	field(left, wide-32, 9, "THICKNESS", thickness(part.Thickness), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SIZES IN", "mm", plainText)
	y -= 9
	rule(left, right)
	d.Text(textLine, sheet.Text{At: sheet.Point{X: left + 1.5, Y: b.Min.Y + 1.9}, Height: caption, Value: "Hatched: stays. White: cut away. Cut to the middle of the line."})
}

func thickness(l units.Length) string {
	return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Thousandths, 0) + ")"
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

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
			d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[i], Y: y}, Height: height, Value: sheet.Fit(cell, height, end-columns[i]-0.5)})
		}
	}
	row(caption, "HOLES", "mm", "thou", "PUNCH mm")
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
			text := fmt.Sprintf("and %d holes of %d more sizes", rest, len(sizes)-i)
			d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[0], Y: y}, Height: 2.1, Value: text})
			break
		}
		row(2.1, fmt.Sprintf("%d ×", h.Count), "ø"+size(h.Diameter), h.Diameter.Decimal(units.Thousandths, 0), punchText(h))
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
	for i, text := range notes {
		height := min(caption, caption*(wide-3)/max(1, sheet.TextWidth(text, caption)))
		d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[0], Y: line - float64(i)*3.8 - 3.2}, Height: height, Value: text})
	}
}

// caution returns the lines that every sheet and file carries.
func caution() []string {
	return []string{"Jointing of unknown age may hold asbestos:", "do not scrape, cut or sand it dry."}
}

func punchText(h Holes) string {
	switch {
	case h.Punch.IsZero():
		return "none: by knife"
	case h.Punch == h.Diameter:
		return size(h.Punch)
	}
	return fmt.Sprintf("%s (+%s)", size(h.Punch), millimetres(h.Punch.MM()-h.Diameter.MM()))
}

// places draws n rows of the list of places with its upper left corner at a
// point.
func (l *layout) places(d *sheet.Drawing, at sheet.Point, first, n int) {
	columns := [...]float64{nameWide, 29, 46, listWide - 1.5} // right ends
	row := func(y, height float64, cells ...string) {
		for i, cell := range cells {
			d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X + columns[i], Y: y}, Height: height, Anchor: sheet.End, Value: cell})
		}
	}
	y := at.Y - rowUp + 1
	d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X, Y: y}, Height: caption, Value: [...]string{middleDatum: "HOLES FROM THE MIDDLE, mm", markedDatum: "HOLES FROM 0, mm", farDatum: "HOLES FROM 0, OFF THE PART, mm"}[l.plan.datum()]})
	y -= rowUp
	row(y, caption, "NO.", "X", "Y", "HOLE")
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
	y -= 1.2
	for i, h := range l.template.part.Outline.Holes[first : first+n] {
		y -= rowUp
		row(y, 2.1, nameOf(h, first+i, 2.1), coordinate(h.At.X), coordinate(h.At.Y), "ø"+size(h.Diameter))
	}
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
}

// coordinate returns a length to a hundredth of a millimetre with its zeros, so
// that points stand under each other.
func coordinate(l units.Length) string { return l.Decimal(units.Millimetres, 2) }

// target draws a mark to lay one sheet on another by.
func target(d *sheet.Drawing, at sheet.Point) {
	const r = 2
	d.Circle(scaleLine, at, r)
	d.Line(scaleLine, at.At(-2*r, 0), at.At(2*r, 0))
	d.Line(scaleLine, at.At(0, -2*r), at.At(0, 2*r))
}

func rectangle(d *sheet.Drawing, l sheet.Layer, b sheet.Box) {
	d.Loop(l, b.Min, sheet.Point{X: b.Max.X, Y: b.Min.Y}, b.Max, sheet.Point{X: b.Min.X, Y: b.Max.Y})
}
