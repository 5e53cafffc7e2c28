package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
)

// Places on the sheet of a stud: its axis, the metal on either side, and what is told.
const (
	studAt           = 58.0
	studMetal        = 15.0 // half of what is shown of cover and metal
	studLongest      = 58.0
	studWidest       = 11.0
	outerAt, wholeAt = 39.0, 20.5 // dimension lines left of it
	studTexts        = 79.0
	leastUpright     = 3.5 // a dimension that has room for what it says
)

// studPicture is a stud in its place, with its cover and its nut.
func studPicture(key, where string, s strength.Stud, cut strength.CutStud, inch bool) (book.Figure, error) {
	major := s.Thread.Major().MM()
	deep := max(cut.Engaged.MM(), s.Hole.MM()) + major*0.4
	length, engaged := cut.Length.MM(), cut.Engaged.MM()
	by := min(studLongest/(length-engaged+deep), studWidest/major)
	high := (length-engaged+deep)*by + 15
	b := newBoard(high, inch)
	v := scaledView{sheet.Point{X: studAt, Y: 4 + deep*by}, by}
	r, core := major/2, s.Thread.Minor().MM()/2
	wide := studMetal / by
	gasket, top := s.Gasket.MM(), s.Gasket.Add(s.Cover).MM()
	nut := top + cut.Nut.MM()
	clear := r * 1.1
	for _, side := range [...]float64{-1, 1} {
		b.hatched(45*units.Degree, 1.6, sided(v, side, r, -deep, wide, 0)...)
		b.Line(sheet.Edge, v.at(side*r, 0), v.at(side*wide, 0))
		b.Line(sheet.Measure, v.at(side*r, -deep), v.at(side*wide, -deep))
		b.Line(sheet.Measure, v.at(side*r, -engaged), v.at(side*r, -deep))
		b.Line(sheet.Edge, v.at(side*core, -engaged), v.at(side*core, -deep))
		if gasket > 0 {
			b.Fill(sheet.Edge, sided(v, side, clear, 0, wide, gasket)...)
		}
		b.solid(135*units.Degree, 1.6, sided(v, side, clear, gasket, wide, top)...)
		b.Line(sheet.Edge, v.at(side*r, -engaged), v.at(side*r, length-engaged))
		b.Line(sheet.Measure, v.at(side*core, -engaged), v.at(side*core, 0))
		b.Line(sheet.Measure, v.at(side*core, length-engaged-cut.Outer.MM()), v.at(side*core, length-engaged))
	}
	for _, end := range [...]float64{-engaged, length - engaged} {
		b.Line(sheet.Edge, v.at(-r, end), v.at(r, end))
	}
	flats := major * 0.9 // half across the corners, where no standard has it
	if h, err := s.Thread.Hexagon(); err == nil {
		flats = h.Corners().MM() / 2
	}
	flats = min(flats, wide)
	for _, side := range [...]float64{-1, 1} { // the corners of a nut that is seen on a flat
		b.Line(sheet.Edge, v.at(side*r, top), v.at(side*flats, top))
		b.Line(sheet.Edge, v.at(side*flats, top), v.at(side*flats, nut))
		b.Line(sheet.Edge, v.at(side*flats, nut), v.at(side*r, nut))
	}
	b.Line(sheet.Centre, v.at(0, length-engaged).At(0, 2), v.at(0, -deep).At(0, -2))
	marks := []mark{
		{from: v.at(0, (top+nut)/2).At(flats*by, 0), text: "nut " + b.size(cut.Nut)},
		{from: v.at(wide, (gasket+top)/2), text: "cover " + b.size(s.Cover)},
		{from: v.at(wide, -engaged/2), text: "in the hole " + b.size(cut.Engaged)},
		{from: v.at(0, (nut+length-engaged)/2).At(r*by, 0), text: "beyond the nut " + b.size(cut.Beyond)},
	}
	if gasket > 0 {
		marks = append(marks, mark{from: v.at(wide, gasket/2), text: "gasket " + b.size(s.Gasket)})
	}
	outer := length - engaged - cut.Outer.MM()
	if cut.Outer.MM()*by < leastUpright {
		marks = append(marks, mark{from: v.at(0, outer).At(r*by, 0), text: "outer thread " + b.size(cut.Outer)})
	} else {
		b.upright(v.at(-r, outer), v.at(-r, length-engaged), outerAt, b.size(cut.Outer))
	}
	texts := beside(studTexts, marks...)
	b.climb(ladder{line: texts - 3, text: texts, plain: true, low: 2, high: high - 7}, marks)
	whole := cut.Length.Text(units.Millimetres, 1)
	if inch {
		whole = b.size(cut.Length)
	}
	b.upright(v.at(-r, -engaged), v.at(-r, length-engaged), wholeAt, whole)
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "stud "+s.Thread.String()+", cut to "+whole)
	title := "Stud " + s.Thread.String()
	if where != "" {
		title = where + ": stud " + s.Thread.String()
	}
	alt := fmt.Sprintf("A stud %v in its place, %s long: %s in the hole, cover %s, nut %s.",
		s.Thread, whole, b.size(cut.Engaged), b.size(s.Cover), b.size(cut.Nut))
	return b.figure(key, title, alt,
		"On the left, whole and the thread on its outer end at the least. The cover is with its washer and what else the stud passes.")
}

// sided are the corners of a rectangle on one side of an axis.
func sided(v scaledView, side, from, low, to, high float64) []sheet.Point {
	return []sheet.Point{v.at(side*from, low), v.at(side*to, low), v.at(side*to, high), v.at(side*from, high)}
}
