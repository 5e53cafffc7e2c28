package diagram

import (
	"math"

	"github.com/valvechest/valvechest/internal/sheet"
)

// Sizes of the pictures, in millimetres.
const (
	wide    = 120.0 // of a sheet
	rim     = 3.0   // between its edge and what is on it
	small   = 2.5   // capitals of figures and notes
	large   = 3.0   // and of names
	rowUp   = 4.0   // from one line of small text to the next
	between = 1.6   // least space from one label to the next
)

// A label is a few lines of text that belong to a span along one axis of a picture.
type label struct {
	from, to float64 // the span
	lines    []string
	bare     bool // no dimension line: the label of a place, at from
	inner    bool // of a lap: that of the cavity's edge
}

func (l label) width() float64 {
	w := 0.0
	for _, line := range l.lines {
		w = max(w, sheet.TextWidth(line, small))
	}
	return w
}

func (l label) middle() float64 { return (l.from + l.to) / 2 }

// sideBySide returns the middles of labels in a row, each as near the middle of its span as
// the others and the ends of the row let it come. The labels are in order. It reports
// false where they have no room.
func sideBySide(labels []label, low, high float64) ([]float64, bool) {
	type block struct {
		first, n   int
		sum, width float64 // of the places that its labels want, less their places in it
	}
	var blocks []block
	at := func(b block) float64 { // the left end of a block
		left := b.sum / float64(b.n)
		return max(low, min(high-b.width, left))
	}
	total := 0.0
	for i, l := range labels {
		w := l.width()
		total += w
		blocks = append(blocks, block{i, 1, l.middle() - w/2, w})
		for len(blocks) > 1 {
			a, b := blocks[len(blocks)-2], blocks[len(blocks)-1]
			if at(a)+a.width+between <= at(b) {
				break
			}
			blocks = append(blocks[:len(blocks)-2],
				block{a.first, a.n + b.n, a.sum + b.sum - float64(b.n)*(a.width+between), a.width + between + b.width})
		}
	}
	middles := make([]float64, len(labels))
	for _, b := range blocks {
		x := at(b)
		for i := b.first; i < b.first+b.n; i++ {
			w := labels[i].width()
			middles[i] = x + w/2
			x += w + between
		}
	}
	return middles, total+between*float64(len(labels)-1) <= high-low
}

// A row is a row of dimensions across the sheet, with its labels above or below.
type row struct {
	line      float64 // Y of the dimension line
	below     bool    // the labels are below it
	low, high float64 // the labels keep between
}

// arrowAlong is how long a short arrowhead is, which two of fit into 3 mm.
const arrowAlong = 1.4

// dimensions draws the labels of a row, and returns how far it reaches away from the
// dimension line.
func (r row) dimensions(d *sheet.Drawing, labels []label) float64 {
	way := 1.0
	if r.below {
		way = -1
	}
	lines := 0
	for _, l := range labels {
		lines = max(lines, len(l.lines))
	}
	middles, _ := sideBySide(labels, r.low, r.high)
	leaders := false
	for i, l := range labels {
		leaders = leaders || math.Abs(middles[i]-l.middle()) > 0.3
	}
	gap := 1.5
	if leaders {
		gap = 4.0
	}
	for i, l := range labels {
		if !l.bare {
			r.arrows(d, l)
		}
		if leaders && !l.bare {
			shoulder := r.line + way*(gap-0.8)
			d.Line(sheet.Measure, sheet.Point{X: l.middle(), Y: r.line}, sheet.Point{X: middles[i], Y: shoulder})
		}
		for k, line := range l.lines {
			up := gap + rowUp*float64(len(l.lines)-1-k)
			if r.below {
				up = -gap - small - rowUp*float64(k)
			}
			d.Text(sheet.Lettering, sheet.Text{At: sheet.Point{X: middles[i], Y: r.line + up}, Height: small,
				Anchor: sheet.Middle, Value: line})
		}
	}
	return gap + rowUp*float64(lines)
}

// arrows draws the dimension line of a span: its arrowheads inside, or outside where the
// span is short, or a dot where there is none.
func (r row) arrows(d *sheet.Drawing, l label) {
	a, b := sheet.Point{X: l.from, Y: r.line}, sheet.Point{X: l.to, Y: r.line}
	switch span := l.to - l.from; {
	case span < 0.05:
		return
	case span >= 2*arrowAlong+0.4:
		d.Line(sheet.Measure, a, b)
		arrow(d, a, -1, 0)
		arrow(d, b, 1, 0)
	default:
		d.Line(sheet.Measure, a.At(-2.5, 0), b.At(2.5, 0))
		arrow(d, a, 1, 0)
		arrow(d, b, -1, 0)
	}
}

// arrow draws a short filled arrowhead with its tip at a point.
func arrow(d *sheet.Drawing, tip sheet.Point, x, y float64) {
	const half = 0.3
	r := math.Hypot(x, y)
	x, y = x/r, y/r
	base := tip.At(-x*arrowAlong, -y*arrowAlong)
	d.Fill(sheet.Measure, tip, base.At(-y*half, x*half), base.At(y*half, -x*half))
}

// words draws one line of text.
func words(d *sheet.Drawing, at sheet.Point, height float64, anchor sheet.Anchor, text string) {
	d.Text(sheet.Lettering, sheet.Text{At: at, Height: height, Anchor: anchor, Value: text})
}

// A ladder is the texts and the lines that run up through rows of dimensions: the lines
// are drawn last, and leave out what they would run through.
type ladder struct {
	d     *sheet.Drawing
	texts []sheet.Box
}

// text writes a line of text that upright lines go round.
func (l *ladder) text(at sheet.Point, value string) {
	t := sheet.Text{At: at, Height: small, Anchor: sheet.Middle, Value: value}
	l.d.Text(sheet.Lettering, t)
	l.texts = append(l.texts, t.Box())
}

// upright draws a line up the sheet.
func (l *ladder) upright(layer sheet.Layer, x, from, to float64) {
	const clear = 0.3
	left := [][2]float64{{from, to}}
	for _, t := range l.texts {
		if x < t.Min.X-clear || x > t.Max.X+clear {
			continue
		}
		var next [][2]float64
		for _, s := range left {
			next = append(next, [2]float64{s[0], min(s[1], t.Min.Y-clear)}, [2]float64{max(s[0], t.Max.Y+clear), s[1]})
		}
		left = next
	}
	for _, s := range left {
		if s[1]-s[0] > 0.2 {
			l.d.Line(layer, sheet.Point{X: x, Y: s[0]}, sheet.Point{X: x, Y: s[1]})
		}
	}
}
