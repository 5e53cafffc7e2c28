package sheet

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A Hatch fills a region with thin parallel lines, as a part is shown where it
// is cut.
type Hatch struct {
	Region  [][]Vertex  // closed lines; what lies inside an odd number of them is hatched
	Angle   units.Angle // of the lines, anticlockwise from the X axis
	Spacing float64     // between the lines, in millimetres
	Gaps    []Box       // left free, for dimensions and text
}

// maxHatchLines is the largest number of parallel lines in one region.
const maxHatchLines = 20_000

// Hatch draws the lines of a hatch. They keep step with the origin of the sheet,
// so that neighbouring regions of one part match.
func (d *Drawing) Hatch(l Layer, h Hatch) {
	vertices := 0
	for _, loop := range h.Region {
		vertices += len(loop)
	}
	switch {
	case d.err != nil:
		return
	case !(h.Spacing > 0):
		d.refuse(fail.OutOfRange("hatch spacing", millimetres(h.Spacing), "above zero"))
		return
	case vertices > MaxPoints:
		accepted := fmt.Sprintf("up to %d points", MaxPoints)
		d.refuse(fail.OutOfRange("hatched region", fmt.Sprintf("of %d points", vertices), accepted))
		return
	}
	sin, cos := math.Sincos(h.Angle.Radians())
	pieces := h.pieces(sin, cos)
	if len(pieces) == 0 {
		return
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range pieces {
		low, high = min(low, p.from.Y, p.to.Y), max(high, p.from.Y, p.to.Y)
	}
	first, last := math.Ceil(low/h.Spacing), math.Floor(high/h.Spacing)
	if !(last-first < maxHatchLines) {
		accepted := fmt.Sprintf("up to %d lines", maxHatchLines)
		d.refuse(fail.OutOfRange("hatch", fmt.Sprintf("of %.3g lines", last-first+1), accepted))
		return
	}
	if last < first {
		return
	}
	crossings := make([][]float64, int(last-first)+1)
	for _, p := range pieces {
		a, b := min(p.from.Y, p.to.Y), max(p.from.Y, p.to.Y)
		for k := math.Ceil(a / h.Spacing); k <= last; k++ {
			v := k * h.Spacing
			if v >= b {
				break
			}
			if v >= a {
				crossings[int(k-first)] = append(crossings[int(k-first)], p.crosses(v))
			}
		}
	}
	for i, us := range crossings {
		slices.Sort(us)
		v := (first + float64(i)) * h.Spacing
		for j := 0; j+1 < len(us); j += 2 {
			a := Point{us[j]*cos - v*sin, us[j]*sin + v*cos}
			b := Point{us[j+1]*cos - v*sin, us[j+1]*sin + v*cos}
			d.hatchLine(l, a, b, h.Gaps)
		}
	}
}

// hatchLine draws what the gaps leave of the line from a to b.
func (d *Drawing) hatchLine(l Layer, a, b Point, gaps []Box) {
	type span struct{ from, to float64 }
	left := []span{{0, 1}}
	for _, box := range gaps {
		from, to, ok := box.clip(a, b)
		if !ok {
			continue
		}
		var next []span
		for _, s := range left {
			if from > s.from {
				next = append(next, span{s.from, min(s.to, from)})
			}
			if to < s.to {
				next = append(next, span{max(s.from, to), s.to})
			}
		}
		left = next
	}
	const speck = 0.05 // mm; shorter lines are dirt
	for _, s := range left {
		if p, q := a.toward(b, s.from), a.toward(b, s.to); s.to > s.from && q.sub(p).abs() > speck {
			d.Line(l, p, q)
		}
	}
}

// clip returns the shares of the line from a to b between which it is inside the
// box (Liang and Barsky's clipping).
func (b Box) clip(p, q Point) (from, to float64, ok bool) {
	from, to = 0, 1
	way := q.sub(p)
	for _, edge := range [...]struct{ way, room float64 }{
		{-way.X, p.X - b.Min.X}, {way.X, b.Max.X - p.X}, {-way.Y, p.Y - b.Min.Y}, {way.Y, b.Max.Y - p.Y},
	} {
		switch {
		case edge.way == 0 && edge.room < 0:
			return 0, 0, false
		case edge.way < 0:
			from = max(from, edge.room/edge.way)
		case edge.way > 0:
			to = min(to, edge.room/edge.way)
		}
	}
	return from, to, from < to
}

// A piece is a side, or a part of an arc, that a line of constant v meets at
// most once. Its points are u and v: along the hatch lines and across them.
type piece struct {
	from, to Point
	arc      arc // radius zero: straight
	right    bool
}

// crosses returns u where the piece is at v.
func (p piece) crosses(v float64) float64 {
	if p.arc.radius == 0 {
		return p.from.X + (p.to.X-p.from.X)*(v-p.from.Y)/(p.to.Y-p.from.Y)
	}
	rise := v - p.arc.centre.Y
	half := math.Sqrt(max(0, p.arc.radius*p.arc.radius-rise*rise))
	if p.right {
		return p.arc.centre.X + half
	}
	return p.arc.centre.X - half
}

// pieces returns the region turned so that the hatch lines lie along u. Ends
// that two pieces share are the same numbers in both, so that a line through
// one of them is counted once.
func (h Hatch) pieces(sin, cos float64) []piece {
	turn := func(p Point) Point { return Point{p.X*cos + p.Y*sin, p.Y*cos - p.X*sin} }
	var pieces []piece
	for _, loop := range h.Region {
		turned := polyline{slices.Clone(loop), true}
		for i := range turned.vertices {
			turned.vertices[i].Point = turn(loop[i].Point)
		}
		for s := range turned.sides() {
			if !s.curved() {
				pieces = append(pieces, piece{from: s.from, to: s.to})
				continue
			}
			a, from, share := s.arc(), s.from, 0.0
			for _, next := range a.quarters() {
				to := a.at(next)
				if next == 1 {
					to = s.to
				}
				right := a.at((share+next)/2).X > a.centre.X
				pieces = append(pieces, piece{from, to, a, right})
				from, share = to, next
			}
		}
	}
	return pieces
}
