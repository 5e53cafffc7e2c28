package gasket

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Web is the material left between two edges of an outline.
type Web struct {
	From, To     string // what it lies between: "hole 3", "opening 1", "the outside"
	Width        units.Length
	AtFrom, AtTo Point // where it is narrowest
}

// Webs returns the material left between each hole or opening and the outside,
// the nearest opening and the nearest hole, the narrowest first. It refuses what
// Validate refuses. See the example.
func (o Outline) Webs() ([]Web, error) {
	s, err := o.shape()
	if err != nil {
		return nil, err
	}
	var webs []Web
	add := func(from, to string, p, q vec, width float64) {
		w := Web{From: from, To: to, Width: lengthOf(width), AtFrom: p.point(), AtTo: q.point()}
		webs = append(webs, w)
	}
	// between openings, and from them to the outside
	for i := 1; i < len(s.loops); i++ {
		nearest, width := -1, math.Inf(1)
		var p, q vec
		for j := range s.loops {
			if j == i {
				continue
			}
			a, b := closestLoops(s.loops[i], s.loops[j])
			w := a.sub(b).abs()
			switch {
			case j == 0:
				add(s.names[i], s.names[0], a, b, w)
			case w < width:
				nearest, width, p, q = j, w, a, b
			}
		}
		// Two openings that are nearest to each other have one web between them.
		told := func(w Web) bool { return nearest > 0 && w.From == s.names[nearest] && w.To == s.names[i] }
		if nearest > 0 && !slices.ContainsFunc(webs, told) {
			add(s.names[i], s.names[nearest], p, q, width)
		}
	}
	// from holes to the outside and the nearest opening
	for i, h := range s.holes {
		best, width := -1, math.Inf(1)
		var at vec
		for j, l := range s.loops {
			p := nearestOn(l, h.at)
			w := p.sub(h.at).abs() - h.r
			if j == 0 {
				add(o.holeName(i), s.names[0], h.at.add(unit(p.sub(h.at)).scale(h.r)), p, w)
			} else if w < width {
				best, width, at = j, w, p
			}
		}
		if best > 0 {
			add(o.holeName(i), s.names[best], h.at.add(unit(at.sub(h.at)).scale(h.r)), at, width)
		}
	}
	for _, pair := range nearestHoles(s.holes) {
		a, b := s.holes[pair[0]], s.holes[pair[1]]
		d := unit(b.at.sub(a.at))
		width := b.at.sub(a.at).abs() - a.r - b.r
		add(o.holeName(pair[0]), o.holeName(pair[1]), a.at.add(d.scale(a.r)), b.at.sub(d.scale(b.r)), width)
	}
	slices.SortStableFunc(webs, func(a, b Web) int { return a.Width.Cmp(b.Width) })
	return webs, nil
}

func unit(v vec) vec { return v.scale(1 / v.abs()) }

func nearestOn(l []curve, p vec) vec {
	best, distance := vec{}, math.Inf(1)
	for _, c := range l {
		if q := c.nearest(p); q.sub(p).abs() < distance {
			best, distance = q, q.sub(p).abs()
		}
	}
	return best
}

// closestLoops returns the points of two loops that lie nearest to each other.
func closestLoops(a, b []curve) (p, q vec) {
	best := math.Inf(1)
	type boxed struct{ low, high vec }
	boxes := make([]boxed, len(b))
	for j, d := range b {
		boxes[j].low, boxes[j].high = d.box()
	}
	for _, c := range a {
		low, high := c.box()
		for j, d := range b {
			box := boxes[j]
			gap := vec{max(box.low.x-high.x, low.x-box.high.x, 0), max(box.low.y-high.y, low.y-box.high.y, 0)}
			if gap.abs() >= best {
				continue
			}
			if x, y := closest(c, d); x.sub(y).abs() < best {
				best, p, q = x.sub(y).abs(), x, y
			}
		}
	}
	return p, q
}

// nearestHoles returns for each hole the pair with the hole whose edge is
// nearest, each pair once, the lower index first.
func nearestHoles(holes []disc) [][2]int {
	order := make([]int, len(holes))
	largest := 0.0
	for i, h := range holes {
		order[i], largest = i, max(largest, h.r)
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(holes[i].at.x, holes[j].at.x), cmp.Compare(i, j))
	})
	seen := map[[2]int]bool{}
	var pairs [][2]int
	for k, i := range order {
		best, width := -1, math.Inf(1)
		look := func(j int) bool { // whether to go on
			if math.Abs(holes[j].at.x-holes[i].at.x)-holes[i].r-largest > width {
				return false
			}
			if w := holes[j].at.sub(holes[i].at).abs() - holes[i].r - holes[j].r; w < width || w == width && j < best {
				best, width = j, w
			}
			return true
		}
		for n := k + 1; n < len(order) && look(order[n]); n++ {
		}
		for n := k - 1; n >= 0 && look(order[n]); n-- {
		}
		if pair := [2]int{min(i, best), max(i, best)}; best >= 0 && !seen[pair] {
			seen[pair] = true
			pairs = append(pairs, pair)
		}
	}
	slices.SortFunc(pairs, func(p, q [2]int) int { return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1])) })
	return pairs
}

// StudCircles returns the least and the greatest circle on which the studs of a
// round gasket may stand, so that a web is left on both sides of their holes.
//
//	least    = opening + hole + 2 * web
//	greatest = outside - hole - 2 * web
//
// The opening may be zero. A gasket too small for any such circle is an error that
// says how large it must be. Source: geometry. See the example.
func StudCircles(outside, opening, hole, web units.Length) (least, greatest units.Length, err error) {
	err = cmp.Or(
		fail.Above(fault.Named("outside diameter", outside), fault.Named("diameter of the holes", hole)),
		fail.Within(fault.Named("diameter of the opening", opening), fault.Named("web", web)),
	)
	if err != nil {
		return least, greatest, err
	}
	if opening.Sign() < 0 {
		return least, greatest, fail.OutOfRange("diameter of the opening", opening, "zero or more")
	}
	if web.Sign() < 0 {
		return least, greatest, fail.OutOfRange("web", web, "zero or more")
	}
	beside := hole.Add(web.Scale(2))
	least, greatest = opening.Add(beside), outside.Sub(beside)
	if least.Cmp(greatest) > 0 {
		accepted := fmt.Sprintf("%v or more, with the studs on %v: no circle leaves %v on both sides of the holes",
			least.Add(beside), least, web)
		return units.Length{}, units.Length{}, fail.OutOfRange("outside diameter", outside, accepted)
	}
	return least, greatest, nil
}
