package template

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// The layers of a template: thick lines twice as wide as thin ones.
var (
	cutLine    = sheet.Layer{Name: "CUT", Width: 0.35, Colour: 7}
	holeLine   = sheet.Layer{Name: "HOLES", Width: 0.35, Colour: 1}
	centreLine = sheet.Layer{Name: "CENTRES", Width: 0.18, Pattern: sheet.Chain, Colour: 3}
	hatchLine  = sheet.Layer{Name: "HATCH", Width: 0.13, Colour: 8}
	dimLine    = sheet.Layer{Name: "DIMENSIONS", Width: 0.18, Colour: 5}
	textLine   = sheet.Layer{Name: "TEXT", Width: 0.18, Colour: 2}
	scaleLine  = sheet.Layer{Name: "SCALE", Width: 0.25, Colour: 6}
	frameLine  = sheet.Layer{Name: "FRAME", Width: 0.5, Colour: 9}
	ruleLine   = sheet.Layer{Name: "RULES", Width: 0.18, Colour: 9}
	joinLine   = sheet.Layer{Name: "JOINS", Width: 0.18, Pattern: sheet.Dashed, Colour: 4}
)

const (
	beyondHole   = 1.2 // arm of a centre cross past the edge of its hole, mm
	labelHeight  = 2.0
	labelStandby = 3.2 // from the outline to the middle of a hole's number
	firstTier    = 10  // from the outline to the nearest dimension line
	nextTier     = 7
	mostLabels   = 60 // holes, beyond which numbers would cover the part
)

// A plan is the part drawn in the axes of its outline.
type plan struct {
	*sheet.Drawing
	part Part
	box  sheet.Box // of the part alone
}

// newPlan draws the part with its centre lines, hatching and dimensions.
func newPlan(part Part) (*plan, error) {
	p := &plan{Drawing: sheet.New(sheet.MaxSize, sheet.MaxSize), part: part}
	o := part.Outline
	outside, err := vertices(o.Outside)
	if err != nil {
		return nil, fmt.Errorf("template: outside of the part: %w", err)
	}
	region := [][]sheet.Vertex{outside}
	p.loop(cutLine, o.Outside, outside)
	p.box = p.Bounds()
	for i, c := range o.Cutouts {
		v, err := vertices(c)
		if err != nil {
			return nil, fmt.Errorf("template: opening %d: %w", i+1, err)
		}
		region = append(region, v)
		p.loop(cutLine, c, v)
	}
	for _, h := range o.Holes {
		at, radius := place(h.At), h.Diameter.MM()/2
		p.Circle(holeLine, at, radius)
		region = append(region, circle(at, radius))
		p.CentreMark(centreLine, at, radius, beyondHole)
	}
	p.centreLines(o)
	if p.datum() == markedDatum {
		p.Circle(dimLine, sheet.Point{}, 0.8)
		p.CentreMark(dimLine, sheet.Point{}, 0.8, 1.2)
		p.Text(textLine, sheet.Text{At: sheet.Point{X: -1.3, Y: -1.3 - labelHeight}, Height: labelHeight, Anchor: sheet.End, Value: "0"})
	}
	p.dimensions(o)
	var gaps []sheet.Box
	if len(o.Holes) <= mostLabels {
		gaps = p.numbers(o.Holes, sheet.Corners(outside))
	}
	if p.Err() == nil {
		p.Hatch(hatchLine, sheet.Hatch{Region: region, Angle: 45 * units.Degree, Spacing: p.hatchSpacing(), Gaps: gaps})
	}
	return p, p.Err()
}

// A datum is where the places of the holes are counted from: the origin of the
// outline, wherever that lies.
type datum int

const (
	middleDatum datum = iota // the middle of the part
	markedDatum              // a point on the part, with a mark
	farDatum                 // a point off the part
)

func (p *plan) datum() datum {
	switch {
	case near(p.middle(), sheet.Point{}):
		return middleDatum
	case p.box.Min.X <= 0 && p.box.Max.X >= 0 && p.box.Min.Y <= 0 && p.box.Max.Y >= 0:
		return markedDatum
	}
	return farDatum
}

// hatchSpacing widens the hatching with the part.
func (p *plan) hatchSpacing() float64 {
	return min(6, max(1.8, math.Hypot(p.box.Max.X-p.box.Min.X, p.box.Max.Y-p.box.Min.Y)/30))
}

// loop draws a closed line, a circle as one.
func (p *plan) loop(l sheet.Layer, loop gasket.Loop, v []sheet.Vertex) {
	if centre, diameter, ok := loop.Circle(); ok {
		p.Circle(l, place(centre), diameter.MM()/2)
		return
	}
	p.Polyline(l, true, v...)
}

// centreLines draws the axes of a part that is the same on both sides of them,
// the circle through evenly spaced holes, and the centres of round openings.
func (p *plan) centreLines(o gasket.Outline) {
	const past = 3
	low, high := p.box.Min, p.box.Max
	mid := p.middle()
	across, up := symmetric(o.Outside, mid)
	if up { // about the upright axis
		p.Line(centreLine, mid, sheet.Point{X: mid.X, Y: high.Y + past})
		p.Line(centreLine, mid, sheet.Point{X: mid.X, Y: low.Y - past})
	}
	if across {
		p.Line(centreLine, mid, sheet.Point{X: high.X + past, Y: mid.Y})
		p.Line(centreLine, mid, sheet.Point{X: low.X - past, Y: mid.Y})
	}
	for _, c := range o.Cutouts {
		centre, diameter, ok := c.Circle()
		if ok && !(across && up && near(place(centre), mid)) {
			p.CentreMark(centreLine, place(centre), diameter.MM()/2, beyondHole)
		}
	}
	if ring, ok := ringOf(o.Holes); ok {
		p.Circle(centreLine, ring.centre, ring.radius)
	}
}

// dimensions draws the sizes that a rule or a caliper checks on the paper.
func (p *plan) dimensions(o gasket.Outline) {
	if centre, diameter, ok := o.Outside.Circle(); ok {
		p.leader(o.Holes, place(centre), diameter.MM()/2, diameter.MM()/2, 30, "ø"+size(diameter))
	} else {
		low, high := p.box.Min, p.box.Max
		p.across(low, sheet.Point{X: high.X, Y: low.Y}, low.Y-firstTier)
		p.upright(sheet.Point{X: high.X, Y: low.Y}, high, high.X+firstTier)
	}
	p.holeDimensions(o)
	if len(o.Cutouts) == 0 {
		return
	}
	// one opening is sized; a part with more is checked against the paper itself
	c := o.Cutouts[0]
	if centre, diameter, ok := c.Circle(); ok {
		reach := math.Hypot(p.box.Max.X-p.box.Min.X, p.box.Max.Y-p.box.Min.Y) / 2
		if round, d, ok := o.Outside.Circle(); ok && near(place(round), place(centre)) {
			reach = d.MM() / 2
		}
		p.leader(o.Holes, place(centre), diameter.MM()/2, reach, 210, "ø"+size(diameter))
		return
	}
	v, err := vertices(c)
	if err != nil {
		return // New has refused the part by now
	}
	scratch := sheet.New(sheet.MaxSize, sheet.MaxSize)
	scratch.Polyline(cutLine, true, v...)
	box := scratch.Bounds()
	if box.Max.X-box.Min.X > 0 {
		p.across(sheet.Point{X: box.Min.X, Y: box.Max.Y}, box.Max, p.box.Max.Y+firstTier+nextTier)
		p.upright(box.Min, sheet.Point{X: box.Min.X, Y: box.Max.Y}, p.box.Min.X-firstTier-nextTier)
	}
}

// holeDimensions notes the circle of evenly spaced holes, or else how far apart
// the outermost holes are.
func (p *plan) holeDimensions(o gasket.Outline) {
	if len(o.Holes) < 2 {
		return
	}
	if ring, ok := ringOf(o.Holes); ok {
		reach := math.Hypot(p.box.Max.X-p.box.Min.X, p.box.Max.Y-p.box.Min.Y) / 2
		if centre, d, ok := o.Outside.Circle(); ok && near(place(centre), ring.centre) {
			reach = d.MM() / 2
		}
		note := fmt.Sprintf("%d × ø%s on ø%s", len(o.Holes), size(o.Holes[0].Diameter), millimetres(2*ring.radius))
		p.leader(o.Holes, ring.centre, ring.radius, reach, 150, note)
		return
	}
	left, right, bottom, top := o.Holes[0], o.Holes[0], o.Holes[0], o.Holes[0]
	for _, h := range o.Holes {
		// of holes in line the one nearest to the dimension line is taken
		left = nearest(left, h, h.At.X.Cmp(left.At.X), h.At.Y.Cmp(left.At.Y))
		right = nearest(right, h, -h.At.X.Cmp(right.At.X), h.At.Y.Cmp(right.At.Y))
		bottom = nearest(bottom, h, h.At.Y.Cmp(bottom.At.Y), -h.At.X.Cmp(bottom.At.X))
		top = nearest(top, h, -h.At.Y.Cmp(top.At.Y), -h.At.X.Cmp(top.At.X))
	}
	if left.At.X != right.At.X {
		p.across(above(left), above(right), p.box.Max.Y+firstTier)
	}
	if bottom.At.Y != top.At.Y {
		p.upright(beside(bottom), beside(top), p.box.Min.X-firstTier)
	}
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
	p.Dimension(dimLine, sheet.Dimension{From: from, To: to, Through: sheet.Point{Y: y}, Value: millimetres(to.X - from.X)})
}

func (p *plan) upright(from, to sheet.Point, x float64) {
	p.Dimension(dimLine, sheet.Dimension{From: from, To: to, Angle: 90 * units.Degree, Through: sheet.Point{X: x}, Value: millimetres(to.Y - from.Y)})
}

// leader notes the size of a circle from outside the part. The wanted angle, in
// degrees, gives way by up to 40 to keep clear of holes.
func (p *plan) leader(holes gasket.Pattern, centre sheet.Point, radius, reach, wanted float64, note string) {
	const enough = 12.0 // degrees from a hole
	best, room := wanted, -1.0
	for turn := -40.0; turn <= 40; turn += 5 {
		clear := enough
		for i, h := range holes {
			if i == mostLabels {
				break
			}
			at := place(h.At)
			angle := math.Atan2(at.Y-centre.Y, at.X-centre.X) * 180 / math.Pi
			clear = min(clear, math.Abs(math.Remainder(angle-wanted-turn, 360)))
		}
		// along the hatching or an axis the line would be lost in another
		if angle := wanted + turn; math.Abs(math.Remainder(angle-45, 180)) < 8 || math.Abs(math.Remainder(angle, 90)) < 8 {
			continue
		}
		if clear > room+1e-9 || clear > room-1e-9 && math.Abs(turn) < math.Abs(best-wanted) {
			best, room = wanted+turn, clear
		}
	}
	sin, cos := math.Sincos(best * math.Pi / 180)
	p.Leader(dimLine, sheet.Leader{Tip: centre.At(radius*cos, radius*sin), Elbow: centre.At((reach+9)*cos, (reach+9)*sin), Value: note})
}

// numbers writes the number of each hole outside the part, as seen from the
// middle, or beside a hole that lies far inside, and returns the boxes to keep free of hatching. A number that would
// stand on a line gives way to one side.
func (p *plan) numbers(holes gasket.Pattern, outside []sheet.Point) []sheet.Box {
	var boxes []sheet.Box
	mid := p.middle()
	for i, h := range holes {
		at, radius := place(h.At), h.Diameter.MM()/2
		straight := math.Pi / 3 // of a hole in the very middle
		if !near(at, mid) {
			straight = math.Atan2(at.Y-mid.Y, at.X-mid.X)
		}
		beside := exit(at, direction(straight), outside) > radius+far
		n := p.number(i, at, radius, straight, beside, outside)
		for _, degrees := range [...]float64{15, -15, 25, -25, 35, -35, 50, -50} {
			if !p.Touches(n.text.Box()) {
				break
			}
			if other := p.number(i, at, radius, straight+degrees*math.Pi/180, beside, outside); !p.Touches(other.text.Box()) {
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

// A number is where the number of a hole may stand: at a distance from the hole
// in some direction.
type number struct {
	text sheet.Text
	way  sheet.Point
	out  float64
}

// far is how far inside the part a hole has its number beside it, in millimetres
// from its edge.
const far = 9

func (p *plan) number(i int, at sheet.Point, radius, angle float64, beside bool, outside []sheet.Point) number {
	way := direction(angle)
	out := radius + labelStandby
	if !beside {
		out = exit(at, way, outside) + labelStandby
	}
	return number{sheet.Text{At: at.At(way.X*out, way.Y*out-labelHeight/2), Height: labelHeight, Anchor: sheet.Middle, Value: strconv.Itoa(i + 1)}, way, out}
}

func direction(angle float64) sheet.Point { return sheet.Point{X: math.Cos(angle), Y: math.Sin(angle)} }

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

func (p *plan) middle() sheet.Point {
	return sheet.Point{X: (p.box.Min.X + p.box.Max.X) / 2, Y: (p.box.Min.Y + p.box.Max.Y) / 2}
}

// A ring is the circle through evenly spaced holes.
type ring struct {
	centre sheet.Point
	radius float64
}

// ringOf returns the circle on which three or more holes of one size are evenly
// spaced, to a hundredth of a millimetre.
func ringOf(holes gasket.Pattern) (ring, bool) {
	const within = 0.01
	n := len(holes)
	if n < 3 || n > 1000 {
		return ring{}, false
	}
	var r ring
	for _, h := range holes {
		if h.Diameter != holes[0].Diameter {
			return ring{}, false
		}
		r.centre = r.centre.At(h.At.X.MM()/float64(n), h.At.Y.MM()/float64(n))
	}
	angles := make([]float64, n)
	for i, h := range holes {
		at := place(h.At)
		radius := math.Hypot(at.X-r.centre.X, at.Y-r.centre.Y)
		if i == 0 {
			r.radius = radius
		}
		if math.Abs(radius-r.radius) > within {
			return ring{}, false
		}
		angles[i] = math.Atan2(at.Y-r.centre.Y, at.X-r.centre.X)
	}
	slices.Sort(angles)
	for i, a := range angles {
		if math.Abs(a-angles[0]-2*math.Pi*float64(i)/float64(n))*r.radius > within {
			return ring{}, false
		}
	}
	return r, r.radius > within
}

// symmetric reports whether the vertices of a loop are the same on both sides of
// the axis across and of the axis up through a point.
func symmetric(l gasket.Loop, mid sheet.Point) (across, up bool) {
	if _, _, ok := l.Circle(); ok {
		return true, true
	}
	type key struct{ x, y int64 }
	round := func(x, y float64) key { return key{int64(math.Round(x * 1e4)), int64(math.Round(y * 1e4))} }
	have := map[key]bool{}
	for _, v := range l {
		at := place(v.Point)
		have[round(at.X-mid.X, at.Y-mid.Y)] = true
	}
	across, up = true, true
	for k := range have {
		across = across && have[key{k.x, -k.y}]
		up = up && have[key{-k.x, k.y}]
	}
	return across, up
}

// vertices returns a loop for the drawing, once its sides are known to be good.
func vertices(l gasket.Loop) ([]sheet.Vertex, error) {
	if _, err := l.Edges(); err != nil {
		return nil, err
	}
	v := make([]sheet.Vertex, len(l))
	for i := range l {
		v[i] = sheet.Vertex{Point: place(l[i].Point), Bulge: l[i].Bulge}
	}
	return v, nil
}

func circle(at sheet.Point, radius float64) []sheet.Vertex {
	return []sheet.Vertex{{Point: at.At(-radius, 0), Bulge: 1}, {Point: at.At(radius, 0), Bulge: 1}}
}

func place(p gasket.Point) sheet.Point { return sheet.Point{X: p.X.MM(), Y: p.Y.MM()} }

func near(a, b sheet.Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < 1e-3 }

// size returns a length in millimetres to a hundredth, as paper is measured.
func size(l units.Length) string { return millimetres(l.MM()) }

func millimetres(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}
