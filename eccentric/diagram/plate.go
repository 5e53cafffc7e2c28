package diagram

import (
	"math"

	"github.com/valvechest/valvechest/internal/sheet"
)

// Sizes of letters and of what stands beside them, in millimetres.
const (
	letters    = 2.5 // height of capitals
	names      = 3.0 // of the names of curves
	below      = 0.3 // of their height, that letters hang below their line
	spare      = 0.4 // from a letter to the middle of a line
	balloon    = 2.4 // radius of the ring round a number
	dot        = 0.7 // radius of the mark of a place
	square     = 0.5 // side of a square of the plate that is free or not
	fullTurn   = 2 * math.Pi
	smooth     = 0.002 // from a curve to the chords that it is drawn by
	farthest   = 60.0  // from what it names to a word
	nearEnough = 3.2   // from there on a word has a line to what it names
)

// A plate is a drawing of curves that knows which of its places are taken, so that
// words and numbers find one that is free.
type plate struct {
	*sheet.Drawing
	across, up int
	taken      []byte      // by lines, texts or both, for each square
	texts      []sheet.Box // for hatching to leave free
	without    []string    // what found no place of its own
}

// What takes a place.
const (
	byLine byte = 1 << iota
	byText
)

func newPlate(width, height float64) *plate {
	p := &plate{Drawing: sheet.New(width, height), across: int(width/square) + 1, up: int(height/square) + 1}
	p.taken = make([]byte, p.across*p.up)
	return p
}

// take marks the squares that a straight line runs through.
func (p *plate) take(by byte, a, b sheet.Point) {
	n := int(math.Hypot(b.X-a.X, b.Y-a.Y)/(square/2)) + 1
	for i := range n + 1 {
		share := float64(i) / float64(n)
		p.mark(by, a.X+(b.X-a.X)*share, a.Y+(b.Y-a.Y)*share)
	}
}

func (p *plate) mark(by byte, x, y float64) {
	if i, j := int(x/square), int(y/square); x >= 0 && y >= 0 && i < p.across && j < p.up {
		p.taken[j*p.across+i] |= by
	}
}

// free reports whether a box lies on the sheet and nothing of the given kinds runs
// through it.
func (p *plate) free(b sheet.Box, of byte) bool {
	width, height := p.Size()
	const edge = 0.5
	if b.Min.X < edge || b.Min.Y < edge || b.Max.X > width-edge || b.Max.Y > height-edge {
		return false
	}
	for j := int(b.Min.Y / square); j <= int(b.Max.Y/square); j++ {
		for i := int(b.Min.X / square); i <= int(b.Max.X/square); i++ {
			if p.taken[j*p.across+i]&of != 0 {
				return false
			}
		}
	}
	return true
}

// reserve keeps words off the foot of the sheet.
func (p *plate) reserve(high float64) {
	for i := range int(high/square) * p.across {
		p.taken[i] |= byText
	}
}

// lowest returns the height of the lowest that takes a place above another height.
func (p *plate) lowest(above float64) float64 {
	for i := int(above/square) * p.across; i < len(p.taken); i++ {
		if p.taken[i] != 0 {
			return float64(i/p.across) * square
		}
	}
	return above
}

// line draws a straight line and takes its place.
func (p *plate) line(l sheet.Layer, a, b sheet.Point) {
	p.Line(l, a, b)
	p.take(byLine, a, b)
}

// chain draws a line through the points and takes its place; a single point, and a line
// that does not move, is none.
func (p *plate) chain(l sheet.Layer, closed bool, points ...sheet.Point) {
	points = apart(points)
	if len(points) < 2 {
		return
	}
	vertices := make([]sheet.Vertex, len(points))
	for i, at := range points {
		vertices[i].Point = at
		if i > 0 {
			p.take(byLine, points[i-1], at)
		}
	}
	if closed {
		p.take(byLine, points[len(points)-1], points[0])
	}
	p.Polyline(l, closed, vertices...)
}

// apart leaves out points that are where the one before is.
func apart(points []sheet.Point) []sheet.Point {
	var kept []sheet.Point
	for _, at := range points {
		if n := len(kept); n == 0 || math.Hypot(at.X-kept[n-1].X, at.Y-kept[n-1].Y) > 1e-5 {
			kept = append(kept, at)
		}
	}
	return kept
}

// ring draws a circle and takes its place.
func (p *plate) ring(l sheet.Layer, centre sheet.Point, radius float64) {
	if !(radius > 0.01) {
		return
	}
	p.Circle(l, centre, radius)
	n := int(radius*fullTurn/(square/2)) + 4
	for i := range n {
		sin, cos := math.Sincos(fullTurn * float64(i) / float64(n))
		p.mark(byLine, centre.X+radius*cos, centre.Y+radius*sin)
	}
}

// text writes a line of text where it is told to, and takes its place.
func (p *plate) text(at sheet.Point, height float64, anchor sheet.Anchor, value string) {
	p.write(sheet.Text{At: at, Height: height, Anchor: anchor, Value: value})
}

func (p *plate) write(t sheet.Text) {
	if t.Value == "" {
		return
	}
	p.Text(sheet.Lettering, t)
	p.takeBox(t.Box())
}

func (p *plate) takeBox(b sheet.Box) {
	p.texts = append(p.texts, grown(b, spare))
	for y := b.Min.Y; ; y = min(y+square/2, b.Max.Y) {
		for x := b.Min.X; ; x = min(x+square/2, b.Max.X) {
			p.mark(byText, x, y)
			if x >= b.Max.X {
				break
			}
		}
		if y >= b.Max.Y {
			break
		}
	}
}

func grown(b sheet.Box, by float64) sheet.Box {
	return sheet.Box{Min: b.Min.At(-by, -by), Max: b.Max.At(by, by)}
}

// along writes a text on a level line, above it or below, as far towards the end as
// there is room; it reports whether there was.
func (p *plate) along(from, to sheet.Point, value string) bool {
	width := sheet.TextWidth(value, letters)
	const above, under = below*letters + 0.6, -letters - 0.9
	step := math.Copysign(1, from.X-to.X)
	for _, up := range [...]float64{above, under} {
		x := to.X
		if step < 0 {
			x -= width
		}
		for ; (x-from.X)*step <= 0 && x+width <= max(from.X, to.X) && x >= min(from.X, to.X); x += step {
			t := sheet.Text{At: sheet.Point{X: x, Y: to.Y + up}, Height: letters, Value: value}
			if p.free(grown(t.Box(), spare-0.1), byLine|byText) {
				p.write(t)
				return true
			}
		}
	}
	return false
}

// place finds the free place for a box of the given size that is nearest to one of the
// points, and how far its middle is from that point.
func (p *plate) place(width, height, least float64, anchors ...sheet.Point) (middle, from sheet.Point, ok bool) {
	const rays = 24
	for reach := least; reach <= farthest; reach += 0.8 {
		for _, from := range anchors {
			for i := range rays {
				sin, cos := math.Sincos(fullTurn * (float64(i) + 0.5) / rays)
				// the box outside a ring of that size
				middle := from.At(reach*cos+width/2*squash(cos), reach*sin+height/2*squash(sin))
				box := sheet.Box{Min: middle.At(-width/2, -height/2), Max: middle.At(width/2, height/2)}
				if !p.free(grown(box, spare-0.1), byLine|byText) {
					continue
				}
				if !p.open(from, nearest(box, from)) || !p.open(from, middle) {
					continue
				}
				return middle, from, true
			}
		}
	}
	return sheet.Point{}, sheet.Point{}, false
}

// squash is the way along an axis that a box stands off in a direction: all of its
// half, but for directions nearly across.
func squash(c float64) float64 { return max(-1, min(1, 1.6*c)) }

// nearest returns the point of a box that is nearest to another.
func nearest(b sheet.Box, to sheet.Point) sheet.Point {
	return sheet.Point{X: max(b.Min.X, min(b.Max.X, to.X)), Y: max(b.Min.Y, min(b.Max.Y, to.Y))}
}

// open reports whether a leader from one point to another runs through no text.
func (p *plate) open(a, b sheet.Point) bool {
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	for at := dot; at < length; at += square / 2 {
		x, y := a.X+(b.X-a.X)*at/length, a.Y+(b.Y-a.Y)*at/length
		i, j := int(x/square), int(y/square)
		if i < 0 || j < 0 || i >= p.across || j >= p.up || p.taken[j*p.across+i]&byText != 0 {
			return false
		}
	}
	return true
}

// name writes a word at the free place that is nearest to one of the points, with a thin
// line to that where it is not beside it.
func (p *plate) name(height float64, value string, anchors ...sheet.Point) {
	width, high := sheet.TextWidth(value, height), height*(1+below)
	middle, from, ok := p.place(width, high, 1.0, anchors...)
	if !ok {
		p.without = append(p.without, value)
		return
	}
	box := sheet.Box{Min: middle.At(-width/2, -high/2), Max: middle.At(width/2, high/2)}
	p.write(sheet.Text{At: box.Min.At(0, below*height), Height: height, Value: value})
	p.lead(from, nearest(box, from))
}

// lead draws a thin line from a place to what names it, where they are apart.
func (p *plate) lead(from, to sheet.Point) {
	const short = 0.7 // of the word
	if length := math.Hypot(to.X-from.X, to.Y-from.Y); length > nearEnough {
		share := 1 - short/length
		p.line(sheet.Measure, from, from.At((to.X-from.X)*share, (to.Y-from.Y)*share))
	}
}

// ringed writes a number in a ring at the free place that is nearest to a point.
func (p *plate) ringed(at sheet.Point, n string) {
	const side = 2 * balloon
	middle, _, ok := p.place(side, side, dot+0.4, at)
	if !ok {
		p.without = append(p.without, "the number "+n)
		return
	}
	p.Circle(sheet.Measure, middle, balloon)
	box := sheet.Box{Min: middle.At(-balloon, -balloon), Max: middle.At(balloon, balloon)}
	p.Text(sheet.Lettering, sheet.Text{At: middle.At(0, -letters/2), Height: letters, Anchor: sheet.Middle, Value: n})
	p.takeBox(box)
	dx, dy := middle.X-at.X, middle.Y-at.Y
	apart := math.Hypot(dx, dy)
	if gap := apart - balloon - dot; gap > 0.5 {
		a := at.At(dx/apart*dot, dy/apart*dot)
		b := at.At(dx/apart*(apart-balloon), dy/apart*(apart-balloon))
		p.line(sheet.Measure, a, b)
	}
}

// arrow draws an arrowhead on a curve, at one of its points, the way it goes there.
func (p *plate) arrow(at, way sheet.Point) {
	length := math.Hypot(way.X, way.Y)
	if !(length > 0) {
		return
	}
	const half, side = 1.7, 1.0
	x, y := way.X/length, way.Y/length
	tip, tail := at.At(x*half, y*half), at.At(-x*half, -y*half)
	left, right := tail.At(-y*side, x*side), tail.At(y*side, -x*side)
	p.Fill(sheet.Curve, tip, left, right)
	p.take(byLine, tip, left)
	p.take(byLine, tip, right)
	p.take(byLine, left, right)
}

// smoothly returns points along a curve between two values of what it runs over, as
// close as the chords between them want to be.
func smoothly(from, to float64, at func(float64) sheet.Point) []sheet.Point {
	n := max(2, int(math.Ceil(math.Abs(to-from)/(math.Pi/24))))
	points := []sheet.Point{at(from)}
	for i := range n {
		a, b := from+(to-from)*float64(i)/float64(n), from+(to-from)*float64(i+1)/float64(n)
		points = closer(points, at, a, b, points[len(points)-1], at(b), 9)
	}
	return points
}

// closer goes on with points up to b, in halves while a chord is not close enough.
func closer(
	points []sheet.Point, at func(float64) sheet.Point, a, b float64, pa, pb sheet.Point, deeper int,
) []sheet.Point {
	flat := true
	for _, share := range [...]float64{0.5, 0.27, 0.81} { // not one alone, which may lie on the chord by chance
		if deviation(at(a+(b-a)*share), pa, pb) > smooth {
			flat = false
			break
		}
	}
	if flat || deeper == 0 {
		return append(points, pb)
	}
	middle := (a + b) / 2
	pm := at(middle)
	points = closer(points, at, a, middle, pa, pm, deeper-1)
	return closer(points, at, middle, b, pm, pb, deeper-1)
}

// deviation is how far a point is from the line between two others.
func deviation(p, a, b sheet.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	length := math.Hypot(dx, dy)
	if length < 1e-9 {
		return math.Hypot(p.X-a.X, p.Y-a.Y)
	}
	share := max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(length*length)))
	return math.Hypot(p.X-a.X-share*dx, p.Y-a.Y-share*dy)
}
