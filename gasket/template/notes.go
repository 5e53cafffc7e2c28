package template

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// dimensions draws the sizes that a rule or a caliper checks on the paper:
// straight ones first, so that the notes of circles keep clear of them.
func (p *plan) dimensions() {
	low, high := p.box.Min, p.box.Max
	centre, diameter, round := p.outline.Outside.Circle()
	if !round {
		p.across(low, sheet.Point{X: high.X, Y: low.Y}, low.Y-firstTier)
		p.upright(sheet.Point{X: high.X, Y: low.Y}, high, high.X+firstTier)
	}
	circle, ringed := ringOf(p.outline.Holes)
	var over, left []span
	if !ringed {
		over, left = p.holeSpans()
	}
	// one opening is sized; of more, the rest are checked against the paper itself
	opening := p.outline.Cutouts[:min(1, len(p.outline.Cutouts))]
	for _, o := range opening {
		if _, _, ok := o.Circle(); !ok {
			box := sheet.BoundsOf(vertices(o))
			topLeft := sheet.Point{X: box.Min.X, Y: box.Max.Y}
			over, left = append(over, span{topLeft, box.Max}), append(left, span{box.Min, topLeft})
		}
	}
	// the shorter ones nearer, so that no line crosses a dimension line
	slices.SortStableFunc(over, func(a, b span) int { return cmp.Compare(a.to.X-a.from.X, b.to.X-b.from.X) })
	slices.SortStableFunc(left, func(a, b span) int { return cmp.Compare(a.to.Y-a.from.Y, b.to.Y-b.from.Y) })
	for i, s := range over {
		p.across(s.from, s.to, high.Y+firstTier+nextTier*float64(i))
	}
	for i, s := range left {
		p.upright(s.from, s.to, low.X-firstTier-nextTier*float64(i))
	}
	if round {
		p.leader(place(centre), diameter.MM()/2, 30, "ø"+p.unit.size(diameter))
	}
	if ringed {
		holes := p.outline.Holes
		note := fmt.Sprintf("%d × ø%s on ø%s", len(holes), p.unit.size(holes[0].Diameter), p.unit.number(2*circle.radius))
		p.leader(circle.centre, circle.radius, 150, note)
	}
	for _, o := range opening {
		if centre, diameter, ok := o.Circle(); ok {
			p.leader(place(centre), diameter.MM()/2, 210, "ø"+p.unit.size(diameter))
		}
	}
	p.radii(p.outline.Outside)
	for _, o := range opening {
		p.radii(o)
	}
}

// A span is what a dimension measures.
type span struct{ from, to sheet.Point }

// holeSpans returns how far apart the outermost holes are, across above the part
// and up on its left.
func (p *plan) holeSpans() (over, left []span) {
	holes := p.outline.Holes
	if len(holes) < 2 {
		return nil, nil
	}
	first, last, bottom, top := holes[0], holes[0], holes[0], holes[0]
	for _, h := range holes {
		// of holes in line the one nearest to the dimension line is taken
		first = nearest(first, h, h.At.X.Cmp(first.At.X), h.At.Y.Cmp(first.At.Y))
		last = nearest(last, h, -h.At.X.Cmp(last.At.X), h.At.Y.Cmp(last.At.Y))
		bottom = nearest(bottom, h, h.At.Y.Cmp(bottom.At.Y), -h.At.X.Cmp(bottom.At.X))
		top = nearest(top, h, -h.At.Y.Cmp(top.At.Y), -h.At.X.Cmp(top.At.X))
	}
	if first.At.X != last.At.X {
		over = append(over, span{above(first), above(last)})
	}
	if bottom.At.Y != top.At.Y {
		left = append(left, span{beside(bottom), beside(top)})
	}
	return over, left
}

// nearest returns h when it lies further out, or as far out and further along.
func nearest(best, h gasket.Hole, out, along int) gasket.Hole {
	if out < 0 || out == 0 && along > 0 {
		return h
	}
	return best
}

// above and beside return where the extension line of a hole leaves it.
func above(h gasket.Hole) sheet.Point  { return place(h.At).At(0, h.Diameter.MM()/2+beyondHole) }
func beside(h gasket.Hole) sheet.Point { return place(h.At).At(-h.Diameter.MM()/2-beyondHole, 0) }

func (p *plan) across(from, to sheet.Point, y float64) {
	through, value := sheet.Point{Y: y}, p.unit.number(to.X-from.X)
	p.Dimension(dimLine, sheet.Dimension{From: from, To: to, Through: through, Value: value})
}

func (p *plan) upright(from, to sheet.Point, x float64) {
	through, value := sheet.Point{X: x}, p.unit.number(to.Y-from.Y)
	p.Dimension(dimLine, sheet.Dimension{From: from, To: to, Angle: 90 * units.Degree, Through: through, Value: value})
}

// leader notes the size of a circle from outside the part. The wanted angle, in
// degrees, gives way by up to 40 and the distance by up to two dimensions, to
// keep the line clear of holes, of the axes and of the direction of the hatching,
// in all of which it would be lost, and the note clear of all that is drawn.
func (p *plan) leader(centre sheet.Point, radius, wanted float64, note string) {
	best, _ := p.bestLeader(centre, radius, wanted, 40, note)
	p.note(best)
}

// note draws a leader, and keeps where it runs.
func (p *plan) note(m sheet.Leader) {
	p.Leader(dimLine, m)
	p.leaders = append(p.leaders, [2]sheet.Point{m.Tip, m.Elbow})
}

// bestLeader returns the leader that is clear of most, within a turn from the wanted
// angle, and how clear it is.
func (p *plan) bestLeader(
	centre sheet.Point, radius, wanted, most float64, note string,
) (best sheet.Leader, room float64) {
	const enough, aside, step = 12, 2.4, 5 // degrees, mm, degrees
	room = math.Inf(-1)
	for _, beyond := range [...]float64{9, 9 + nextTier, 9 + 2*nextTier} {
		for turn := 0.0; turn <= most; turn += step {
			for _, angle := range [...]float64{wanted + turn, wanted - turn} {
				if apart(angle, hatchAngle, 180) < 8 || apart(angle, 0, 90) < 8 {
					continue
				}
				way := direction(angle * math.Pi / 180)
				reach := max(radius, exit(centre, way, p.edge)) + beyond
				tip, elbow := centre.At(radius*way.X, radius*way.Y), centre.At(reach*way.X, reach*way.Y)
				m := sheet.Leader{Tip: tip, Elbow: elbow, Value: note}
				clear := min(enough, p.clearOfHoles(centre, angle), enough/aside*p.besideHoles(tip, elbow))
				if p.Touches(withShelf(m.Box())) {
					clear -= enough
				}
				if clear > room {
					best, room = m, clear
				}
			}
		}
	}
	return best, room
}

// clearOfHoles returns the least angle in degrees between a direction and a hole
// as seen from a centre, for a part with few enough holes to matter.
func (p *plan) clearOfHoles(centre sheet.Point, angle float64) float64 {
	clear := 180.0
	if len(p.outline.Holes) > mostLabels {
		return clear
	}
	for _, h := range p.outline.Holes {
		at := place(h.At)
		clear = min(clear, apart(angle, math.Atan2(at.Y-centre.Y, at.X-centre.X)*180/math.Pi, 360))
	}
	return clear
}

// besideHoles returns the least distance of a line from the edge of a hole, for a part
// with few enough holes to matter.
func (p *plan) besideHoles(from, to sheet.Point) float64 {
	clear := math.Inf(1)
	if len(p.outline.Holes) > mostLabels {
		return clear
	}
	for _, h := range p.outline.Holes {
		clear = min(clear, distance(place(h.At), from, to)-h.Diameter.MM()/2)
	}
	return clear
}

// distance returns how far a point is from the line between two others.
func distance(at, from, to sheet.Point) float64 {
	along := sheet.Point{X: to.X - from.X, Y: to.Y - from.Y}
	t := ((at.X-from.X)*along.X + (at.Y-from.Y)*along.Y) / max(along.X*along.X+along.Y*along.Y, 1e-12)
	t = min(1, max(0, t))
	return math.Hypot(from.X+t*along.X-at.X, from.Y+t*along.Y-at.Y)
}

// withShelf is the box round a note with some room and the line below it.
func withShelf(b sheet.Box) sheet.Box {
	return sheet.Box{Min: b.Min.At(-0.6, -1.5), Max: b.Max.At(0.6, 0.6)}
}

// apart returns how far two directions are apart, in a circle of the given size.
func apart(a, b, circle float64) float64 { return math.Abs(math.Remainder(a-b, circle)) }

// numbers writes the name or number of each hole outside the part, as seen from the
// middle, or beside a hole that lies far inside, and returns the boxes to keep
// free of hatching. A number that would be on a line gives way to one side.
func (p *plan) numbers() []sheet.Box {
	holes := p.outline.Holes
	if len(holes) > mostLabels {
		return nil
	}
	var boxes []sheet.Box
	mid := p.middle()
	for i, h := range holes {
		at, radius := place(h.At), h.Diameter.MM()/2
		straight := math.Pi / 3 // of a hole in the very middle
		if !near(at, mid) {
			straight = math.Atan2(at.Y-mid.Y, at.X-mid.X)
		}
		beside := exit(at, direction(straight), p.edge) > radius+far
		n := p.number(i, at, radius, straight, beside)
		for _, degrees := range [...]float64{15, -15, 25, -25, 35, -35, 50, -50} {
			if !p.hides(n, at) {
				break
			}
			if other := p.number(i, at, radius, straight+degrees*math.Pi/180, beside); !p.hides(other, at) {
				n = other
			}
		}
		p.Text(textLine, n.text)
		boxes = append(boxes, n.text.Box())
		if to := n.out - 0.9*labelHeight; to > radius+0.5 {
			p.Line(dimLine, at.At(n.way.X*radius, n.way.Y*radius), at.At(n.way.X*to, n.way.Y*to))
		}
	}
	return boxes
}

// hides reports whether a number would be on a line, or too near to a leader to tell
// which of the two is meant.
func (p *plan) hides(n number, at sheet.Point) bool {
	const room = 1.2 // mm
	if p.Touches(n.text.Box()) {
		return true
	}
	middle := n.text.At.At(0, labelHeight/2)
	for _, l := range p.leaders {
		if distance(middle, l[0], l[1]) < labelHeight/2+room || cross(at, middle, l[0], l[1]) {
			return true
		}
	}
	return false
}

// cross reports whether two lines cross.
func cross(a, b, c, d sheet.Point) bool {
	side := func(p, q, r sheet.Point) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

// A number is where the number of a hole may be: at a distance from the hole
// in some direction.
type number struct {
	text sheet.Text
	way  sheet.Point
	out  float64
}

// far is how far inside the part a hole has its number beside it, in millimetres
// from its edge.
const far = 9

func (p *plan) number(i int, at sheet.Point, radius, angle float64, beside bool) number {
	way := direction(angle)
	name := nameOf(p.outline.Holes[i], i, labelHeight)
	standby := labelStandby + max(0, sheet.TextWidth(name, labelHeight)-labelHeight)/2*math.Abs(way.X)
	out := radius + standby
	if !beside {
		out = exit(at, way, p.edge) + standby
	}
	label := sheet.Text{
		At: at.At(way.X*out, way.Y*out-labelHeight/2), Height: labelHeight, Anchor: sheet.Middle, Value: name,
	}
	return number{label, way, out - standby + labelStandby}
}

// nameOf returns what hole i is called, cut to the width of its column in the
// list, or its number when it has no name.
func nameOf(h gasket.Hole, i int, height float64) string {
	if h.Name == "" {
		return strconv.Itoa(i + 1)
	}
	return sheet.Fit(h.Name, height, nameWide)
}

func direction(angle float64) sheet.Point {
	return sheet.Point{X: math.Cos(angle), Y: math.Sin(angle)}
}

// exit returns how far from a point the outside is left for the last time along
// a direction of length 1.
func exit(from, way sheet.Point, outside []sheet.Point) float64 {
	last := 0.0
	for i, a := range outside {
		b := outside[(i+1)%len(outside)]
		ax, ay, sx, sy := a.X-from.X, a.Y-from.Y, b.X-a.X, b.Y-a.Y
		if across := way.X*sy - way.Y*sx; across != 0 {
			t, u := (ax*sy-ay*sx)/across, (ax*way.Y-ay*way.X)/across
			if u >= 0 && u <= 1 {
				last = max(last, t)
			}
		}
	}
	return last
}
