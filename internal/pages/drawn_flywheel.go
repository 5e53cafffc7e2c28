package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Places on the sheet of a flywheel: the middle of its rim in either setting, and what is
// told on the right.
const (
	firstSetting, secondSetting = 19.0, 55.0
	wheelDrawn                  = 62.0
	wheelTexts                  = 84.0
)

// flywheelPicture is the wheel in section in both of its settings, with what is cut in
// each drawn wide and what is not yet, or was before, drawn narrow.
func flywheelPicture(f indicator.Flywheel, inch bool) (book.Figure, error) {
	radius := f.Diameter.MM() / 2
	width := max(f.RimWidth.MM(), f.BossWidth.MM(), f.Web.MM())
	by := min(wheelDrawn/2/radius, 22/width)
	high := max(2*radius*by, 7*rowsApart) + 14
	b := newBoard(high, inch)
	marks := []mark(nil)
	for i, x := range [...]float64{firstSetting, secondSetting} {
		w := wheelSketch{Flywheel: f, board: b, v: scaledView{sheet.Point{X: x, Y: (high - 6) / 2}, by}, second: i == 1}
		w.draw()
		b.name(sheet.Point{X: x, Y: high - 6}, sheet.Middle, fmt.Sprintf("setting %d", i+1))
		if w.second {
			marks = w.marks()
		}
	}
	texts := beside(wheelTexts, marks...)
	b.climb(ladder{line: texts - 3, text: texts, plain: true, low: 2, high: high - 3}, marks)
	alt := fmt.Sprintf("The flywheel in section, %s over the rim and %s wide there, in both of its settings.", b.size(f.Diameter), b.size(f.RimWidth))
	return b.figure("flywheel", "Turning the flywheel", alt,
		"Wide lines: what is cut in that setting. First the rim, the front and the bore; then, turned round, the back. The tailstock is on the right.")
}

// A wheelSketch is the wheel in one setting. The face that is cut is on the right, at the
// tailstock.
type wheelSketch struct {
	indicator.Flywheel
	*board
	v      scaledView
	second bool
}

// half are the corners of the section of one half, outwards from the bore on the side of
// the headstock, round to it again.
func (w wheelSketch) half(side float64) []sheet.Point {
	rim, inside := w.Diameter.MM()/2, w.Diameter.Sub(w.RimDepth.Scale(2)).MM()/2
	boss := max(w.Boss.MM()/2, w.Bore.MM()/2)
	rw, ww, bw := w.RimWidth.MM()/2, w.Web.MM()/2, w.BossWidth.MM()/2
	if w.Boss.IsZero() {
		bw = ww
	}
	round := 1.0
	if w.second { // the back is at the tailstock
		round = -1
	}
	at := func(x, r float64) sheet.Point { return w.v.at(round*x, side*r) }
	return []sheet.Point{
		at(-bw, w.Bore.MM()/2), at(-bw, boss), at(-ww, boss), at(-ww, inside), at(-rw, inside), at(-rw, rim),
		at(rw, rim), at(rw, inside), at(ww, inside), at(ww, boss), at(bw, boss), at(bw, w.Bore.MM()/2),
	}
}

// draw draws both halves. Of the twelve sides of a half the first is the back of the boss,
// the fifth that of the rim, then come the rim and its front, the front of the boss and
// the bore.
func (w wheelSketch) draw() {
	for _, side := range [...]float64{-1, 1} {
		points := w.half(side)
		w.hatched(45*units.Degree, 1.6, points...)
		for i := range points {
			layer := sheet.Measure
			cut := i == 5 || i == 6 || i == 10 || i == 11
			if w.second {
				cut = i == 0 || i == 4
			}
			if cut {
				layer = sheet.Edge
			}
			a, z := points[i], points[(i+1)%len(points)]
			if a != z {
				w.Line(layer, a, z)
			}
		}
	}
	reach := max(w.RimWidth.MM(), w.BossWidth.MM(), w.Web.MM())/2*w.v.by + 3
	w.Line(sheet.Centre, w.v.origin.At(-reach, 0), w.v.origin.At(reach, 0))
}

// marks are the sizes, at the upper half of the second setting.
func (w wheelSketch) marks() []mark {
	rim, depth := w.Diameter.MM()/2, w.RimDepth.MM()
	right := w.RimWidth.MM() / 2
	marks := []mark{
		{from: w.v.at(right, rim), text: "rim " + w.size(w.Diameter)},
		{from: w.v.at(right, rim-depth*0.35), text: "wide " + w.size(w.RimWidth)},
		{from: w.v.at(right, rim-depth*0.7), text: "deep " + w.size(w.RimDepth)},
	}
	inside, boss := rim-depth, max(w.Boss.MM(), w.Bore.MM())/2
	if w.Web.Sign() > 0 && inside > boss {
		marks = append(marks, mark{from: w.v.at(w.Web.MM()/2, (inside+boss)/2), text: "web " + w.size(w.Web)})
	}
	if w.Boss.Sign() > 0 {
		out := w.BossWidth.MM() / 2
		marks = append(marks,
			mark{from: w.v.at(out, boss), text: "boss " + w.size(w.Boss)},
			mark{from: w.v.at(out, (boss+w.Bore.MM()/2)/2), text: "boss wide " + w.size(w.BossWidth)})
	}
	if w.Bore.Sign() > 0 {
		marks = append(marks, mark{from: w.v.at(0, w.Bore.MM()/2*0.5), text: "bore " + w.size(w.Bore)})
	}
	return marks
}
