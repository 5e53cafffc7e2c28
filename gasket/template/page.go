package template

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Sizes of the sheet in millimetres of the drawing.
const (
	margin    = 10.0 // from the edge of the paper to the frame, which most printers reach
	stripUp   = 46.0 // height of the strip with the hole list and the title
	titleWide = 98.0
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
	title := sheet.Box{Min: sheet.Point{X: right - titleWide, Y: bottom}, Max: sheet.Point{X: right, Y: strip}}
	l.title(d, title, fmt.Sprintf("%d of %d, %s", number, l.count(), l.paper))
	sizes := sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right - titleWide, Y: strip}}
	l.sizes(d, sizes)
	l.warn(d, sheet.Point{X: left + 4, Y: top - 2})
	origin := sheet.Point{X: left + 10, Y: strip + 9}
	unit := l.template.unit
	unit.bars(d, origin)
	l.howToPrint(d, origin.At(unit.barMM()+8, 0), right-3)
	return d
}

// bars draws the two bars from a common corner.
func (r ruler) bars(d *sheet.Drawing, origin sheet.Point) {
	r.barAcross(d, origin)
	r.drawBar(d, func(along, beside float64) sheet.Point { return origin.At(beside, along) })
	for _, mm := range [...]float64{r.barMM() / 2, r.barMM()} {
		barNote(d, origin.At(-2.6, mm-caption/2), sheet.End, 0, r.number(mm))
	}
	barNote(d, origin.At(-3, r.barMM()/4), sheet.Middle, 90*units.Degree, "Y "+r.barText()+" ("+r.other+")")
}

// barAcross draws the bar along X.
func (r ruler) barAcross(d *sheet.Drawing, origin sheet.Point) {
	r.drawBar(d, func(along, beside float64) sheet.Point { return origin.At(along, beside) })
	barNote(d, origin.At(-2.6, -5), sheet.Middle, 0, "0")
	for _, mm := range [...]float64{r.barMM() / 2, r.barMM()} {
		barNote(d, origin.At(mm, -5), sheet.Middle, 0, r.number(mm))
	}
	barNote(d, origin.At(r.barMM()/4, -5), sheet.Middle, 0, "X "+r.barText()+" ("+r.other+")")
}

func barNote(d *sheet.Drawing, at sheet.Point, anchor sheet.Anchor, turn units.Angle, text string) {
	d.Text(textLine, sheet.Text{At: at, Height: caption, Anchor: anchor, Rotation: turn, Value: text})
}

// drawBar draws one bar on the points that a distance along it and beside it give.
func (r ruler) drawBar(d *sheet.Drawing, at func(along, beside float64) sheet.Point) {
	d.Line(scaleLine, at(0, 0), at(r.barMM(), 0))
	ticks := int(math.Round(r.bar / r.step))
	for i := 1; i <= ticks; i++ {
		tick, mm := 1.5, r.barMM()*float64(i)/float64(ticks)
		if i == ticks/2 || i == ticks {
			tick = 3
		}
		d.Line(scaleLine, at(mm, 0), at(mm, tick))
	}
	for _, end := range [...]float64{0, r.barMM()} {
		d.Line(scaleLine, at(end, 0), at(end, -2))
	}
}

// howToPrint tells what to do with the bars.
func (l *layout) howToPrint(d *sheet.Drawing, at sheet.Point, right float64) {
	room := (right - at.X) * otherFont
	lines := []struct {
		height float64
		text   string
	}{
		{plainText, "PRINT AT 100 % — MEASURE THIS"},
		{2.1, l.template.use() + " only when both bars measure " + l.template.unit.barText() + "."},
		{2.1, "If not: enter what they measure, reprint."},
		{2.1, "No correction in this sheet."},
	}
	if l.scaleX != 1 || l.scaleY != 1 {
		lines[2].text = fmt.Sprintf("If not: factors × %g / measured, reprint.", l.template.unit.bar)
		lines[3].text = fmt.Sprintf("Corrected: X × %.4f, Y × %.4f.", l.scaleX, l.scaleY)
	}
	y := at.Y + 6.2
	for _, line := range lines {
		height := min(line.height, line.height*room/sheet.TextWidth(line.text, line.height))
		text(d, at.X, y, height, line.text)
		y -= 4
	}
}

// title draws the block that says what the sheet is.
func (l *layout) title(d *sheet.Drawing, b sheet.Box, which string) {
	part := l.template.part
	left, right, y := b.Min.X, b.Max.X, b.Max.Y
	field := func(x, wide, up float64, name, value string, height float64) {
		text(d, x+1.5, y-1.3-caption, caption, name)
		text(d, x+1.5, y-up+1.9, height, sheet.Fit(value, height, wide-3))
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
	field(left, wide-32, 9, "THICKNESS", l.template.unit.thickness(part.Thickness), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SIZES IN", l.template.unit.name, plainText)
	y -= 9
	rule(left, right)
	text(d, left+1.5, b.Min.Y+1.9, caption, l.template.foot())
}

// use is what is done with a sheet.
func (t *Template) use() string {
	if t.marking != nil {
		return "Use it"
	}
	return "Cut"
}

// foot is the last line of the title.
func (t *Template) foot() string {
	if t.marking != nil {
		return "Mark out by the figures, not through the paper: it stretches."
	}
	return "Hatched: stays. White: cut away. Cut to the middle of the line."
}

// thickness is one in the unit of the sheet, and in the other.
func (r ruler) thickness(l units.Length) string {
	switch {
	case l.IsZero(): // of a marking
		return orDash("")
	case r.in != units.Inches:
		return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Thousandths, 0) + ")"
	case l.Cmp(units.Thou(100)) < 0:
		return l.Text(units.Thousandths, 0) + " (" + l.Text(units.Millimetres, 2) + ")"
	}
	return l.Text(units.Inches, 3) + " (" + l.Text(units.Millimetres, 2) + ")"
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// joinMark draws a mark to lay one sheet on another by: two filled triangles that
// touch in the point, and a line across it. It is not round, so that nobody punches it.
func joinMark(d *sheet.Drawing, at sheet.Point) {
	const arm, wide, high = 4, 1.3, 2.6
	d.Line(markLine, at.At(-arm, 0), at.At(arm, 0))
	d.Fill(markLine, at, at.At(-wide, high), at.At(wide, high))
	d.Fill(markLine, at, at.At(-wide, -high), at.At(wide, -high))
}

// text writes a line from a place on.
func text(d *sheet.Drawing, x, y, height float64, value string) {
	d.Text(textLine, sheet.Text{At: sheet.Point{X: x, Y: y}, Height: height, Value: value})
}

func rectangle(d *sheet.Drawing, l sheet.Layer, b sheet.Box) {
	d.Loop(l, b.Min, sheet.Point{X: b.Max.X, Y: b.Min.Y}, b.Max, sheet.Point{X: b.Min.X, Y: b.Max.Y})
}
