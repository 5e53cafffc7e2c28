package pages

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// picture is the port face with the cutter where each port begins and ends.
func (p portFace) picture(inch bool) (book.Figure, error) {
	first, last := p.cuts[0], p.cuts[len(p.cuts)-1]
	half := p.ports.Length.MM() / 2
	far := max(math.Abs(first.Low.MM()), math.Abs(last.High.MM()))
	by := min(21/half, 66/(2*far))
	below := 13.0
	high := max(2*far*by+below+12, below+6*rowsApart+8)
	b := newBoard(high, inch)
	v := scaledView{sheet.Point{X: 46, Y: (high + below - 12) / 2}, by}
	along := func(l units.Length) float64 { return -l.MM() } // the head end above
	x, y := orZero(p.CentreX), orZero(p.CentreY)
	var left, right []mark
	for _, c := range p.cuts {
		corner := c.Corner.MM() * by
		b.slot(v.at(-half, along(c.High)), v.at(half, along(c.Low)), corner)
		across := c.Across.MM()
		path := corners(v.at(-across, along(c.To)), v.at(across, along(c.From)))
		cutter := p.Cutter.MM() / 2 * by
		b.Circle(sheet.Other, path[3], cutter)
		b.Circle(sheet.Other, path[1], cutter)
		left = append(left, mark{from: v.at(-half, (along(c.Low)+along(c.High))/2), text: c.Port})
		right = append(right, mark{from: path[2], text: b.fine(c.From.Add(x))})
		if c.From == c.To {
			b.Line(sheet.Centre, path[0], path[1])
			continue
		}
		b.Loop(sheet.Centre, path...)
		right = append(right, mark{from: path[1], text: b.fine(c.To.Add(x))})
	}
	b.climb(ladder{line: 22, text: 20, plain: true, low: 2, high: high - 7}, left)
	bottom := v.at(0, -far).Y
	b.climb(ladder{line: 74, text: 77, datum: v.origin.Y, plain: !x.IsZero(), low: bottom - 3.5, high: high - 7}, right)
	across := first.Across
	for _, side := range []struct {
		at     units.Length
		anchor sheet.Anchor
	}{{across.Neg(), sheet.End}, {across, sheet.Start}} {
		from := v.at(side.at.MM(), along(last.From))
		foot := sheet.Point{X: from.X, Y: bottom - 7}
		b.Line(sheet.Measure, from, foot)
		shift := 1.0
		if side.anchor == sheet.End {
			shift = -1
		}
		b.word(foot.At(shift, 0), side.anchor, b.fine(y.Add(side.at)))
	}
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "where the spindle goes, cutter "+b.size(p.Cutter))
	alt := fmt.Sprintf("The port face with the cutter of %s where each port begins and ends.", b.size(p.Cutter))
	for _, c := range p.cuts {
		alt += fmt.Sprintf(" The %s port: along from %s to %s.", c.Port, b.fine(c.From.Add(x)), b.fine(c.To.Add(x)))
	}
	alt += fmt.Sprintf(" Across from %s to %s.", b.fine(y.Sub(across)), b.fine(y.Add(across)))
	zero := "the middle of the exhaust port"
	if p.CentreX != nil || p.CentreY != nil {
		zero = "where your dials are zero"
	}
	return b.figure("port-milling", "Milling the ports", alt,
		"Dashed: the cutter; chain line: the way of the middle of its spindle. On the right along the travel, below across it, both from "+zero+".")
}

// slot is a rectangle with round corners.
func (b *board) slot(low, high sheet.Point, corner float64) {
	corner = max(0, min(corner, (high.X-low.X)/2-1e-6, (high.Y-low.Y)/2-1e-6))
	if corner < 1e-3 {
		b.rect(sheet.Edge, low, high)
		return
	}
	quarter := math.Tan(math.Pi / 8)
	turn := func(x, y, bulge float64) sheet.Vertex {
		return sheet.Vertex{Point: sheet.Point{X: x, Y: y}, Bulge: bulge}
	}
	b.Polyline(sheet.Edge, true,
		turn(low.X+corner, low.Y, 0), turn(high.X-corner, low.Y, quarter),
		turn(high.X, low.Y+corner, 0), turn(high.X, high.Y-corner, quarter),
		turn(high.X-corner, high.Y, 0), turn(low.X+corner, high.Y, quarter),
		turn(low.X, high.Y-corner, 0), turn(low.X, low.Y+corner, quarter))
}
