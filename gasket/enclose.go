package gasket

import "math"

// A disc is a point with a radius, in millimetres.
type disc struct {
	at vec
	r  float64
}

// An enclosure is the smallest circle round a set of discs and the discs that
// hold it, at most three.
type enclosure struct {
	at      vec
	r       float64
	support [3]int
	n       int
}

// reach returns how far d reaches from the centre of the circle.
func (e enclosure) reach(d disc) float64 { return d.at.sub(e.at).abs() + d.r }

// enclose returns the smallest circle that encloses every disc. The problem is
// of the kind that linear programming is: at most three discs decide it, and
// taking in the disc that sticks out furthest makes the circle grow until none
// does (Sharir and Welzl 1992).
func enclose(discs []disc) enclosure {
	e := enclosure{at: discs[0].at, r: discs[0].r, n: 1}
	for {
		worst, out := -1, 1e-13+1e-14*e.r
		for i, d := range discs {
			if o := e.reach(d) - e.r; o > out {
				worst, out = i, o
			}
		}
		if worst < 0 {
			return e
		}
		next := e.takeIn(discs, worst)
		if next.r <= e.r { // rounding: the circle cannot grow any more
			return e
		}
		e = next // which has grown, so that it comes to an end
	}
}

// takeIn returns the smallest circle round the discs that hold e and disc j.
func (e enclosure) takeIn(discs []disc, j int) enclosure {
	all := append(e.support[:e.n:e.n], j)
	best := enclosure{r: math.Inf(1)}
	leastOut := math.Inf(1)
	for mask := range 1 << e.n {
		var set [4]int
		n := 0
		for k := range e.n {
			if mask>>k&1 == 1 {
				set[n] = all[k]
				n++
			}
		}
		set[n] = j
		n++
		if n > 3 {
			continue
		}
		c, ok := around(discs, set[:n])
		if !ok {
			continue
		}
		out := 0.0
		for _, i := range all {
			out = max(out, c.reach(discs[i])-c.r)
		}
		out = max(out-1e-12-1e-13*c.r, 0)
		if out < leastOut || out == leastOut && (c.r < best.r || c.r == best.r && c.n < best.n) {
			best, leastOut = c, out
		}
	}
	return best
}

// around returns the smallest circle that one, two or three discs touch from
// inside, if there is one.
func around(discs []disc, set []int) (enclosure, bool) {
	e := enclosure{n: len(set)}
	copy(e.support[:], set)
	a := discs[set[0]]
	if len(set) == 1 {
		e.at, e.r = a.at, a.r
		return e, true
	}
	b := discs[set[1]]
	if len(set) == 2 {
		d := b.at.sub(a.at)
		gap := d.abs()
		e.r = (gap + a.r + b.r) / 2
		if gap == 0 || e.r < max(a.r, b.r) {
			return e, false // one lies in the other
		}
		e.at = a.at.add(d.scale((e.r - a.r) / gap))
		return e, true
	}
	// The centre is u + R v from the first disc's: the differences of the three
	// equations |centre - p| = R - r are linear in it.
	c := discs[set[2]]
	p, q := b.at.sub(a.at), c.at.sub(a.at)
	det := p.cross(q)
	if math.Abs(det) <= 1e-14*(p.dot(p)+q.dot(q)) {
		return e, false
	}
	solve := func(kp, kq float64) vec { return vec{(kp*q.y - kq*p.y) / det, (kq*p.x - kp*q.x) / det} }
	u := solve((p.dot(p)-b.r*b.r+a.r*a.r)/2, (q.dot(q)-c.r*c.r+a.r*a.r)/2)
	v := solve(b.r-a.r, c.r-a.r)
	least := max(a.r, b.r, c.r)
	e.r = math.Inf(1)
	for _, r := range quadraticRoots(v.dot(v)-1, 2*(u.dot(v)+a.r), u.dot(u)-a.r*a.r) {
		if r >= least && r < e.r {
			e.r = r
		}
	}
	if math.IsInf(e.r, 1) {
		return e, false
	}
	e.at = a.at.add(u).add(v.scale(e.r))
	return e, true
}

// quadraticRoots returns the real roots of a x^2 + b x + c.
func quadraticRoots(a, b, c float64) []float64 {
	if a == 0 {
		if b == 0 {
			return nil
		}
		return []float64{-c / b}
	}
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	h := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	if h == 0 {
		return []float64{0}
	}
	return []float64{h / a, c / h}
}
