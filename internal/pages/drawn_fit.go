package pages

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Places on the sheet of a fit.
const (
	holeZoneLeft, holeZoneRight   = 34.0, 48.0
	shaftZoneLeft, shaftZoneRight = 66.0, 80.0
	leastAt, mostAt               = 53.5, 60.5
	zonesHigh, zonesBottom        = 46.0, 14.0
)

// A fitTold says how finely a picture tells sizes and clearances: as what it stands
// beside does.
type fitTold struct {
	inch     bool
	mm, thou int // places; no places of millimetres: as many as show the limits whole
}

// fitPicture is a fit as the limits of its parts about the nominal line, drawn far larger
// than they are.
func fitPicture(key, where string, a asked, told fitTold) (book.Figure, error) {
	r := a.limits
	low := min(r.Hole.Min.Micron(), r.Shaft.Min.Micron())
	high := max(r.Hole.Max.Micron(), r.Shaft.Max.Micron())
	nominal := r.Hole.Nominal
	if !nominal.IsZero() {
		low, high = min(low, nominal.Micron()), max(high, nominal.Micron())
	}
	by := zonesHigh / max(high-low, 1e-3)
	y := func(l units.Length) float64 { return zonesBottom + (l.Micron()-low)*by }
	const tall = zonesBottom + zonesHigh + 9
	b := newBoard(tall, told.inch)
	for _, z := range []struct {
		limits      fits.Limits
		left, right float64
		name        string
		turned      units.Angle
	}{
		{r.Hole, holeZoneLeft, holeZoneRight, "hole " + a.hole, 45 * units.Degree},
		{r.Shaft, shaftZoneLeft, shaftZoneRight, "shaft " + a.shaft, 135 * units.Degree},
	} {
		bottom, top := y(z.limits.Min), y(z.limits.Max)
		above := sheet.Point{X: (z.left + z.right) / 2, Y: zonesBottom + zonesHigh + 3}
		b.name(above, sheet.Middle, strings.TrimSpace(z.name))
		if z.limits.Min == z.limits.Max {
			b.Line(sheet.Edge, sheet.Point{X: z.left, Y: top}, sheet.Point{X: z.right, Y: top})
			continue
		}
		b.solid(z.turned, 1.3, corners(sheet.Point{X: z.left, Y: bottom}, sheet.Point{X: z.right, Y: top})...)
	}
	least, most := told.limits(r.Hole)
	left := []mark{{from: sheet.Point{X: holeZoneLeft, Y: y(r.Hole.Max)}, text: most}}
	if least != most {
		left = append(left, mark{from: sheet.Point{X: holeZoneLeft, Y: y(r.Hole.Min)}, text: least})
	}
	least, most = told.limits(r.Shaft)
	right := []mark{{from: sheet.Point{X: shaftZoneRight, Y: y(r.Shaft.Max)}, text: most}}
	if least != most {
		right = append(right, mark{from: sheet.Point{X: shaftZoneRight, Y: y(r.Shaft.Min)}, text: least})
	}
	if !nominal.IsZero() {
		at := y(nominal)
		b.Line(sheet.Centre, sheet.Point{X: holeZoneLeft - 3, Y: at}, sheet.Point{X: shaftZoneRight + 3, Y: at})
		right = append(right, mark{from: sheet.Point{X: shaftZoneRight + 3, Y: at}, text: "nominal " + b.size(nominal)})
	}
	b.climb(ladder{line: 29, text: 26.5, plain: true, low: 8, high: tall - 5}, left)
	texts := beside(88, right...)
	b.climb(ladder{line: texts - 2.5, text: texts, plain: true, low: 8, high: tall - 5}, right)
	b.clearanceAt(leastAt, y(r.Hole.Min), y(r.Shaft.Max), sheet.End, told.clearance(r.Clearance.Min, "least", "most"))
	b.clearanceAt(mostAt, y(r.Hole.Max), y(r.Shaft.Min), sheet.Start, told.clearance(r.Clearance.Max, "most", "least"))
	title := "Limits of the " + a.name + " fit"
	if where != "" {
		title = where + ": limits of the fit"
	}
	alt := fmt.Sprintf("The limits of %s about the nominal size: hole %s, shaft %s; %s, %s.", a.name, told.text(r.Hole), told.text(r.Shaft),
		told.clearance(r.Clearance.Min, "least", "most"), told.clearance(r.Clearance.Max, "most", "least"))
	return b.figure(key, title, alt, "Diameters; the differences are drawn far larger than they are.")
}

// clearanceAt draws the difference of two sizes, from the hole's on the left to the
// shaft's on the right, with what it says below.
func (b *board) clearanceAt(x, hole, shaft float64, anchor sheet.Anchor, text string) {
	b.Line(sheet.Measure, sheet.Point{X: holeZoneRight + 0.8, Y: hole}, sheet.Point{X: x + 1.5, Y: hole})
	b.Line(sheet.Measure, sheet.Point{X: shaftZoneLeft - 0.8, Y: shaft}, sheet.Point{X: x - 1.5, Y: shaft})
	const foot = 3.0
	top := max(hole, shaft)
	b.Line(sheet.Measure, sheet.Point{X: x, Y: foot}, sheet.Point{X: x, Y: top})
	if gap := max(hole, shaft) - min(hole, shaft); gap > arrowsLength {
		b.Arrow(sheet.Measure, sheet.Point{X: x, Y: top}, sheet.Point{Y: 1})
		b.Arrow(sheet.Measure, sheet.Point{X: x, Y: top - gap}, sheet.Point{Y: -1})
	}
	aside := -1.0
	if anchor == sheet.Start {
		aside = 1
	}
	b.word(sheet.Point{X: x + aside, Y: foot}, anchor, text)
}

// clearance names a clearance; below zero it is an interference, the least of which
// is the most of that.
func (f fitTold) clearance(l units.Length, clear, tight string) string {
	text := func(l units.Length) string {
		if f.inch {
			return l.Text(units.Thousandths, f.thou)
		}
		return l.Text(units.Millimetres, 3)
	}
	if l.Sign() < 0 {
		return tight + " interference " + text(l.Neg())
	}
	return clear + " clearance " + text(l)
}

// text is limits as the book has them, rounded inward.
func (f fitTold) text(l fits.Limits) string {
	if f.inch {
		return l.Text(units.Inches, 4)
	}
	return l.Text(units.Millimetres, cmp.Or(f.mm, micronPlaces(l)))
}

// limits is both of them apart.
func (f fitTold) limits(l fits.Limits) (least, most string) {
	text := f.text(l)
	low, high, both := strings.Cut(text, " to ")
	if !both {
		return text, text
	}
	_, unit, _ := strings.Cut(high, " ")
	return low + " " + unit, high
}
