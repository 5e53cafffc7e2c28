package gasket

import (
	"cmp"
	"math"
	"slices"
)

// A curve is a straight line or an arc in millimetres, for the geometry inside
// the package.
type curve struct {
	from, to vec
	centre   vec
	r        float64 // 0: straight
	start    float64 // angle of from about the centre
	sweep    float64 // signed, anticlockwise positive
}

func curves(l Loop) ([]curve, error) {
	edges, err := l.Edges()
	if err != nil {
		return nil, err
	}
	cs := make([]curve, len(edges))
	for i, e := range edges {
		c := curve{from: e.From.vec(), to: e.To.vec()}
		if !e.Straight() {
			// not from the edge's centre, which is rounded to a picometre
			c.centre, c.r = arcOf(c.from, c.to, l[i].Bulge)
			c.sweep = e.Sweep.Radians()
			d := c.from.sub(c.centre)
			c.start = math.Atan2(d.y, d.x)
		}
		cs[i] = c
	}
	return cs, nil
}

func (c curve) straight() bool { return c.r == 0 }

func (c curve) length() float64 {
	if c.straight() {
		return c.to.sub(c.from).abs()
	}
	return c.r * math.Abs(c.sweep)
}

// spans reports whether the arc passes the direction of d from its centre.
func (c curve) spans(d vec) bool {
	turn := math.Remainder(math.Atan2(d.y, d.x)-c.start, 2*math.Pi)
	if c.sweep < 0 {
		turn = -turn
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	const slack = 1e-12
	return turn <= math.Abs(c.sweep)+slack || turn >= 2*math.Pi-slack
}

// nearest returns the point of the curve nearest to p.
func (c curve) nearest(p vec) vec {
	if c.straight() {
		d := c.to.sub(c.from)
		t := p.sub(c.from).dot(d) / d.dot(d)
		return c.from.add(d.scale(min(max(t, 0), 1)))
	}
	if d := p.sub(c.centre); d.abs() > 0 && c.spans(d) {
		return c.centre.add(d.scale(c.r / d.abs()))
	}
	if p.sub(c.from).abs() <= p.sub(c.to).abs() {
		return c.from
	}
	return c.to
}

// box returns the corners of a box that holds the curve.
func (c curve) box() (low, high vec) {
	low = vec{min(c.from.x, c.to.x), min(c.from.y, c.to.y)}
	high = vec{max(c.from.x, c.to.x), max(c.from.y, c.to.y)}
	if !c.straight() {
		for _, d := range []vec{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			if c.spans(d) {
				p := c.centre.add(d.scale(c.r))
				low = vec{min(low.x, p.x), min(low.y, p.y)}
				high = vec{max(high.x, p.x), max(high.y, p.y)}
			}
		}
	}
	return low, high
}

// touch is the distance in millimetres below which two points are one, a
// picometre.
const touch = 1e-9

// crossings returns the points that two curves have in common; of straight lines
// or arcs that run along each other, the ends of the common piece.
func crossings(a, b curve) []vec {
	var points []vec
	switch {
	case a.straight() && b.straight():
		d, e, off := a.to.sub(a.from), b.to.sub(b.from), b.from.sub(a.from)
		det := d.cross(e)
		if math.Abs(det) > 1e-14*d.abs()*e.abs() {
			t, u := off.cross(e)/det, off.cross(d)/det
			if t >= 0 && t <= 1 && u >= 0 && u <= 1 {
				points = append(points, a.from.add(d.scale(t)))
			}
		}
	case a.straight() || b.straight():
		line, arc := a, b
		if b.straight() {
			line, arc = b, a
		}
		d := line.to.sub(line.from)
		off := line.from.sub(arc.centre)
		for _, t := range quadraticRoots(d.dot(d), 2*off.dot(d), off.dot(off)-arc.r*arc.r) {
			if p := off.add(d.scale(t)); t >= 0 && t <= 1 && arc.spans(p) {
				points = append(points, arc.centre.add(p))
			}
		}
	default:
		d := b.centre.sub(a.centre)
		gap := d.abs()
		if gap > 0 && gap <= a.r+b.r && gap >= math.Abs(a.r-b.r) {
			along := (gap*gap + a.r*a.r - b.r*b.r) / (2 * gap)
			across := math.Sqrt(max(a.r*a.r-along*along, 0))
			unit := d.scale(1 / gap)
			for _, side := range []float64{1, -1} {
				p := unit.scale(along).add(unit.left().scale(side * across))
				if a.spans(p) && b.spans(p.sub(d)) {
					points = append(points, a.centre.add(p))
				}
			}
		}
	}
	for _, end := range []vec{a.from, a.to} {
		if b.nearest(end).sub(end).abs() <= touch {
			points = append(points, end)
		}
	}
	for _, end := range []vec{b.from, b.to} {
		if a.nearest(end).sub(end).abs() <= touch {
			points = append(points, end)
		}
	}
	return points
}

// closest returns the points of two curves that lie nearest to each other.
func closest(a, b curve) (p, q vec) {
	if points := crossings(a, b); len(points) > 0 {
		return points[0], points[0]
	}
	best := math.Inf(1)
	try := func(onA, onB vec) {
		if d := onA.sub(onB).abs(); d < best {
			best, p, q = d, onA, onB
		}
	}
	for _, end := range []vec{a.from, a.to} {
		try(end, b.nearest(end))
	}
	for _, end := range []vec{b.from, b.to} {
		try(a.nearest(end), end)
	}
	// Inside both curves the shortest way runs through the centres of the arcs.
	switch {
	case !a.straight() && !b.straight():
		d := b.centre.sub(a.centre)
		for _, s := range []float64{1, -1} {
			for _, u := range []float64{1, -1} {
				if d.abs() > 0 && a.spans(d.scale(s)) && b.spans(d.scale(u)) {
					try(a.centre.add(d.scale(s*a.r/d.abs())), b.centre.add(d.scale(u*b.r/d.abs())))
				}
			}
		}
	case !a.straight():
		foot := b.nearest(a.centre)
		try(a.nearest(foot), foot)
	case !b.straight():
		foot := a.nearest(b.centre)
		try(foot, b.nearest(foot))
	}
	return p, q
}

// moments returns the signed area of a loop, anticlockwise positive, and its
// first moments about the axes.
func moments(cs []curve) (area float64, first vec) {
	for _, c := range cs {
		a := c.from.cross(c.to) / 2
		area += a
		first = first.add(c.from.add(c.to).scale(a / 3))
		if c.straight() {
			continue
		}
		// The segment between chord and arc has the area r^2/2 (sweep - sin sweep).
		// Its moment about the centre is 2/3 r^3 sin^3(sweep/2), in the direction of
		// the middle of the arc.
		segment := c.r * c.r / 2 * (c.sweep - math.Sin(c.sweep))
		sin, cos := math.Sincos(c.start + c.sweep/2)
		half := math.Sin(c.sweep / 2)
		area += segment
		first = first.add(c.centre.scale(segment)).add(vec{cos, sin}.scale(2.0 / 3 * c.r * c.r * c.r * half * half * half))
	}
	return area, first
}

// inside reports whether p lies inside a loop; a point on the loop may be either.
func inside(cs []curve, p vec) bool {
	winding := 0.0
	for _, c := range cs {
		from, to := c.from.sub(p), c.to.sub(p)
		turn := math.Atan2(from.cross(to), from.dot(to))
		// Seen from inside its circle an arc always turns the way it sweeps; from
		// outside it turns as its chord does.
		if !c.straight() && p.sub(c.centre).abs() < c.r {
			if c.sweep > 0 && turn < 0 {
				turn += 2 * math.Pi
			}
			if c.sweep < 0 && turn > 0 {
				turn -= 2 * math.Pi
			}
		}
		winding += turn
	}
	return math.Abs(winding) > math.Pi
}

// overlapping calls f with every two of the boxes that overlap, in no
// particular order.
func overlapping(low, high []vec, f func(i, j int)) {
	order := make([]int, len(low))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(low[i].x, low[j].x) })
	for k, i := range order {
		for _, j := range order[k+1:] {
			if low[j].x > high[i].x {
				break
			}
			if low[j].y <= high[i].y && low[i].y <= high[j].y {
				f(i, j)
			}
		}
	}
}
