package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// leftAt is what is left between the piston and a cover.
func leftAt(end string, l units.Length, b *board) string {
	if l.Sign() < 0 {
		return "IT STRIKES at the " + end + " end, by " + b.size(l.Neg())
	}
	return "left at the " + end + " end " + b.size(l)
}

// roomPicture is the piston between the covers, at both ends of its stroke.
func roomPicture(
	r eccentric.Room, c eccentric.Clearance, bore units.Length, rod *units.Length, inch bool,
) (book.Figure, error) {
	long := r.Length.Add(r.Gaskets).MM() // from face to face, the joints bolted up
	head, piston, stroke := c.Head.MM(), r.Piston.MM(), r.Gear.Stroke.MM()
	first, last := min(0, head), max(long, head+stroke+piston) // where it strikes, beyond the covers
	const edge, wide, texts = 12.0, 58.0, 76.0
	by := wide / (last - first)
	left := edge - first*by
	half := max(6, min(20, bore.MM()/2*by))
	const below, cover, flange = 21.0, 5.0, 4.0
	high := below + 2*half + 2*flange + 20
	b := newBoard(high, inch)
	y := below + flange + half // of the axis
	at := func(along, up float64) sheet.Point { return sheet.Point{X: left + along*by, Y: y + up} }
	for _, side := range [...]float64{-1, 1} { // the wall of the cylinder
		low, top := at(0, side*half), at(long, side*(half+flange))
		b.solid(45*units.Degree, 1.8, low, sheet.Point{X: top.X, Y: low.Y}, top, sheet.Point{X: low.X, Y: top.Y})
	}
	rodHalf := 0.0
	if rod != nil {
		rodHalf = min(half*0.6, rod.MM()/2*half/(bore.MM()/2))
	}
	out := half + flange
	b.solid(135*units.Degree, 1.8, at(0, -out), at(0, out), at(0, out).At(-cover, 0), at(0, -out).At(-cover, 0))
	for _, side := range [...]float64{-1, 1} {
		low, top := at(long, side*max(rodHalf, 0.01)), at(long, side*out).At(cover, 0)
		b.solid(135*units.Degree, 1.8, low, sheet.Point{X: top.X, Y: low.Y}, top, sheet.Point{X: low.X, Y: top.Y})
	}
	b.rect(sheet.Edge, at(head, -half), at(head+piston, half))
	b.rect(sheet.Hidden, at(head+stroke, -half), at(head+stroke+piston, half))
	if rodHalf > 0 {
		for _, side := range [...]float64{-1, 1} {
			b.Line(sheet.Edge, at(head+piston, side*rodHalf), at(long, side*rodHalf).At(cover+8, 0))
		}
	}
	b.Line(sheet.Centre, at(0, 0).At(-cover-3, 0), at(long, 0).At(cover+10, 0))
	foot := at(0, -out).Y
	b.row(at(0, -out), at(long, -out), foot-18, texts, "cover to cover "+b.size(r.Length.Add(r.Gaskets)))
	b.row(at(head, -half), at(head+stroke, -half), foot-12, texts, "stroke "+b.size(r.Gear.Stroke))
	b.row(at(head, -half), at(head+piston, -half), foot-6, texts, "piston "+b.size(r.Piston))
	top := y + out
	for _, end := range []struct {
		at, shelf, aside float64
		anchor           sheet.Anchor
		text             string
	}{
		{head / 2, top + 2.5 + rowsApart, -8, sheet.Start, leftAt("head", c.Head, b)},
		{head + stroke + piston + c.Crank.MM()/2, top + 2.5, 30, sheet.End, leftAt("crank", c.Crank, b)},
	} {
		tip := at(end.at, half*0.5)
		elbow := sheet.Point{X: tip.X, Y: end.shelf}
		b.Line(sheet.Measure, tip, elbow)
		b.word(elbow.At(end.aside, 1), end.anchor, end.text)
	}
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "the piston between the covers")
	alt := fmt.Sprintf("The piston between the covers, %s apart with the gaskets: %s, %s.",
		b.size(r.Length.Add(r.Gaskets)), leftAt("head", c.Head, b), leftAt("crank", c.Crank, b))
	return b.figure("piston-room", "The piston between the covers", alt,
		"At its head-end dead centre, on the left; dashed, at the other. From cover to cover is with the gaskets bolted up.")
}
