package pages

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Sizes of pictures in millimetres of their sheet. A page shows one about half as large
// again, so that it is read at arm's length.
const (
	pictureWide  = 120.0
	lettersHigh  = 2.5 // of what is measured
	nameHigh     = 3.0 // of what a view is
	rowsApart    = 4.6 // of lines of text, one below the other
	pictureEdge  = 2.0 // left free round a picture
	arrowsLength = 2.5 // of the arrowheads of package sheet
)

// A board is a picture while it is drawn.
type board struct {
	*sheet.Drawing
	inch bool
}

func newBoard(high float64, inch bool) *board { return &board{sheet.New(pictureWide, high), inch} }

// figure is the finished picture.
func (b *board) figure(key, title, alt, caption string) (book.Figure, error) {
	return book.Figure{Key: key, Title: title, Alt: alt, Caption: caption, Drawing: b.Drawing}, b.Err()
}

// pictures is one picture in a list.
func pictures(f book.Figure, err error) ([]book.Figure, error) {
	if err != nil {
		return nil, err
	}
	return []book.Figure{f}, nil
}

// size is a length as pictures tell it: in millimetres to a hundredth, or in inches to a
// thou; what is small finer, and below a hundredth of an inch in thou.
func (b *board) size(l units.Length) string { return sizeText(l, b.inch) }

func sizeText(l units.Length, inch bool) string {
	small := !l.IsZero() && l.Abs().Cmp(units.MM(0.1)) < 0
	unit, name, places := units.Millimetres, " mm", 2
	switch {
	case inch && !l.IsZero() && l.Abs().Cmp(units.Thou(10)) < 0:
		unit, name, places = units.Thousandths, " thou", 1
	case inch:
		unit, name, places = units.Inches, " in", 3
	case small:
		places = 3
	}
	return trimmed(l.Decimal(unit, places)) + name
}

// trimmed is a decimal without the zeros that end it, and without the sign of a zero.
func trimmed(text string) string {
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return plainZero(text)
}

// fine is a length to a micrometre or a tenth of a thou, for coordinates and limits.
func (b *board) fine(l units.Length) string {
	if b.inch {
		return plainZero(l.Decimal(units.Inches, 4)) + " in"
	}
	return plainZero(l.Decimal(units.Millimetres, 3)) + " mm"
}

// A scaled view is a part on the sheet: where its origin lies, and how large it is drawn.
type scaledView struct {
	origin sheet.Point
	by     float64
}

// at is a place of the part, in millimetres, on the sheet.
func (v scaledView) at(x, y float64) sheet.Point { return v.origin.At(x*v.by, y*v.by) }

// rect draws a rectangle.
func (b *board) rect(l sheet.Layer, low, high sheet.Point) { b.Loop(l, corners(low, high)...) }

func corners(low, high sheet.Point) []sheet.Point {
	return []sheet.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}
}

// solid draws metal that is cut through: its edge, and the hatching within.
func (b *board) solid(turned units.Angle, apart float64, points ...sheet.Point) {
	b.hatched(turned, apart, points...)
	b.Loop(sheet.Edge, points...)
}

// hatched is the hatching alone.
func (b *board) hatched(turned units.Angle, apart float64, points ...sheet.Point) {
	region := make([]sheet.Vertex, len(points))
	for i, p := range points {
		region[i].Point = p
	}
	b.Hatch(sheet.Hatching, sheet.Hatch{Region: [][]sheet.Vertex{region}, Angle: turned, Spacing: apart})
}

// word draws a line of text.
func (b *board) word(at sheet.Point, anchor sheet.Anchor, text string) {
	b.Text(sheet.Lettering, sheet.Text{At: at, Height: lettersHigh, Anchor: anchor, Value: text})
}

// name draws what a view is.
func (b *board) name(at sheet.Point, anchor sheet.Anchor, text string) {
	b.Text(sheet.Lettering, sheet.Text{At: at, Height: nameHigh, Anchor: anchor, Value: text})
}

// across draws a dimension from one point to another along the sheet, its line at y.
func (b *board) across(from, to sheet.Point, y float64, text string) {
	b.Dimension(sheet.Measure, sheet.Dimension{From: from, To: to, Through: sheet.Point{Y: y}, Value: text})
}

// row draws a dimension along the sheet whose words stand at x, right of the part.
func (b *board) row(from, to sheet.Point, y, x float64, text string) {
	a, e := sheet.Point{X: from.X, Y: y}, sheet.Point{X: to.X, Y: y}
	for _, end := range [][2]sheet.Point{{from, a}, {to, e}} {
		b.Line(sheet.Measure, end[0].At(0, -0.8), end[1].At(0, -1.5))
	}
	out, left := 1.0, a
	if e.X-a.X < 2*arrowsLength+1 {
		out, left = -1, a.At(-2*arrowsLength, 0)
	}
	b.Line(sheet.Measure, left, sheet.Point{X: x - 1, Y: y})
	b.Arrow(sheet.Measure, a, sheet.Point{X: -out})
	b.Arrow(sheet.Measure, e, sheet.Point{X: out})
	b.word(sheet.Point{X: x, Y: y - lettersHigh/2}, sheet.Start, text)
}

// beside is where a column of texts begins, at x or as far left as the longest needs.
func beside(x float64, marks ...mark) float64 {
	for _, m := range marks {
		x = min(x, pictureWide-1-sheet.TextWidth(m.text, lettersHigh))
	}
	return x
}

// upright draws one up the sheet, its line at x, left of the part. What it says stands
// left of the line and is read from below, however short it is.
func (b *board) upright(from, to sheet.Point, x float64, text string) {
	if from.Y > to.Y {
		from, to = to, from
	}
	low, high := sheet.Point{X: x, Y: from.Y}, sheet.Point{X: x, Y: to.Y}
	for _, end := range [][2]sheet.Point{{from, low}, {to, high}} {
		b.Line(sheet.Measure, end[0].At(-0.8, 0), end[1].At(-1.5, 0))
	}
	out, beyond := 1.0, 0.0
	if high.Y-low.Y < 2*arrowsLength+1 { // the arrowheads stand outside
		out, beyond = -1, 2*arrowsLength
	}
	b.Line(sheet.Measure, low.At(0, -beyond), high.At(0, beyond))
	b.Arrow(sheet.Measure, low, sheet.Point{Y: -out})
	b.Arrow(sheet.Measure, high, sheet.Point{Y: out})
	b.word(sheet.Point{X: x - 2.3, Y: (from.Y+to.Y)/2 - lettersHigh/2}, sheet.End, text)
}

// A mark is a height on the part that is told at its side.
type mark struct {
	from sheet.Point // where its line begins, at the part
	text string
	name bool // it names a place, and is no distance from the datum
}

// A ladder tells heights one below the other, in a column beside the part, each from the
// same datum: as running dimensions.
type ladder struct {
	line  float64 // where the dimension line stands
	text  float64 // where the texts begin, right of it; or end, left of it
	datum float64 // height of what is measured from
	plain bool    // no dimension line: all marks are names
	low   float64 // the texts stand from here
	high  float64 // to here
}

// climb draws a ladder. The lines from the part to their texts do not cross, as both are
// in the same order.
func (b *board) climb(l ladder, marks []mark) {
	marks = slices.Clone(marks)
	slices.SortStableFunc(marks, func(p, q mark) int { return cmp.Compare(p.from.Y, q.from.Y) })
	want := make([]float64, len(marks))
	for i, m := range marks {
		want[i] = m.from.Y
	}
	side, anchor := 1.0, sheet.Start
	if l.text < l.line {
		side, anchor = -1, sheet.End
	}
	for i, y := range sheet.Apart(want, rowsApart, l.low+1.2, l.high-1.4) {
		m := marks[i]
		foot, shelf := sheet.Point{X: l.line, Y: m.from.Y}, sheet.Point{X: l.text - side*1, Y: y}
		b.Line(sheet.Measure, m.from.At(side*0.8, 0), foot.At(side*1.2, 0))
		b.Line(sheet.Measure, foot.At(side*1.2, 0), shelf)
		b.word(shelf.At(side*1, -lettersHigh/2), anchor, m.text)
		if rise := m.from.Y - l.datum; !l.plain && !m.name && math.Abs(rise) > 0.05 {
			b.Line(sheet.Measure, sheet.Point{X: l.line, Y: l.datum}, foot)
			if math.Abs(rise) > arrowsLength {
				b.Arrow(sheet.Measure, foot, sheet.Point{Y: rise})
			}
		}
	}
	if !l.plain {
		b.Circle(sheet.Measure, sheet.Point{X: l.line, Y: l.datum}, 0.7)
	}
}
