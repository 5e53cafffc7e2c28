package gasket

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Measures are the area and centroid of a gasket, without its holes and
// openings.
type Measures struct {
	Area     units.Area
	Enclosed units.Area // inside the outside, as if nothing were cut out
	Centroid Point
	Edge     units.Length // length of every edge to cut: outside, openings and holes
	Min, Max Point        // corners of the rectangle that holds the outside: least X and Y, and greatest
}

// Measure returns the area, the centroid and the length to cut. Areas of arcs
// are those of circles, exactly; nothing is cut up into straight pieces. It
// refuses what Validate refuses. See the example.
func (o Outline) Measure() (Measures, error) {
	s, err := o.shape()
	if err != nil {
		return Measures{}, err
	}
	var m Measures
	var first vec
	for i, l := range s.loops {
		a, f := moments(l)
		sign := math.Copysign(1, a)
		if i > 0 {
			sign = -sign
		} else {
			m.Enclosed = units.Area(math.Abs(a)) * units.SquareMillimetre
		}
		m.Area += units.Area(sign*a) * units.SquareMillimetre
		first = first.add(f.scale(sign))
		for _, c := range l {
			m.Edge = m.Edge.Add(lengthOf(c.length()))
		}
	}
	for _, h := range s.holes {
		a := math.Pi * h.r * h.r
		m.Area -= units.Area(a) * units.SquareMillimetre
		first = first.sub(h.at.scale(a))
		m.Edge = m.Edge.Add(lengthOf(2 * math.Pi * h.r))
	}
	m.Centroid = first.scale(1 / m.Area.In(units.SquareMillimetre)).point()
	low, high := s.loops[0][0].box()
	for _, c := range s.loops[0] {
		l, h := c.box()
		low = vec{min(low.x, l.x), min(low.y, l.y)}
		high = vec{max(high.x, h.x), max(high.y, h.y)}
	}
	m.Min, m.Max = low.point(), high.point()
	return m, nil
}

// Validate returns nil for an outline that can be cut out: loops that do not
// cross themselves or each other, openings and holes inside the outside and
// outside one another, every hole with its diameter, all within 10,000 mm of the
// origin. Otherwise the error names what is wrong with it, up to the first ten
// things.
func (o Outline) Validate() error {
	_, err := o.shape()
	return err
}

// A shape is an outline in millimetres.
type shape struct {
	loops [][]curve // the outside first
	names []string
	holes []disc
}

const (
	maxFaults  = 10   // that one error names
	maxReachMM = 1e4  // of an outline from the origin
	leastArea  = 1e-6 // that a loop encloses, mm2
)

func (o Outline) shape() (shape, error) {
	s := shape{names: []string{"the outside"}}
	if len(o.Holes) > maxHoles || len(o.Cutouts) > maxHoles {
		accepted := fmt.Sprintf("up to %d of each", maxHoles)
		return s, fail.OutOfRange("holes and openings", len(o.Holes)+len(o.Cutouts), accepted)
	}
	vertices := len(o.Outside)
	for i := range o.Cutouts {
		s.names = append(s.names, fmt.Sprintf("opening %d", i+1))
		vertices += len(o.Cutouts[i])
	}
	if vertices > maxVertices {
		return s, fail.OutOfRange("vertices of the outline", vertices, fmt.Sprintf("up to %d", maxVertices))
	}
	far := func(p Point) bool { return max(math.Abs(p.X.MM()), math.Abs(p.Y.MM())) > maxReachMM }
	for i, l := range append([]Loop{o.Outside}, o.Cutouts...) {
		for _, v := range l {
			if far(v.Point) {
				corner := fmt.Sprintf("corner at %v, %v", v.X, v.Y)
				return s, fail.OutOfRange(s.names[i], corner, "within 10,000 mm of the origin")
			}
		}
		cs, err := curves(l)
		if err != nil {
			return s, fault.Of(s.names[i], err)
		}
		s.loops = append(s.loops, cs)
	}
	for i, h := range o.Holes {
		if h.Diameter.Sign() <= 0 {
			return s, fail.OutOfRange("diameter of "+o.holeName(i), h.Diameter, "above zero")
		}
		if far(h.At) {
			at := fmt.Sprintf("at %v, %v", h.At.X, h.At.Y)
			return s, fail.OutOfRange(o.holeName(i), at, "within 10,000 mm of the origin")
		}
		s.holes = append(s.holes, disc{h.At.vec(), h.Diameter.MM() / 2})
	}
	return s, errors.Join(o.faults(s)...)
}

func (o Outline) holeName(i int) string {
	if name := o.Holes[i].Name; name != "" {
		return "hole " + name
	}
	return fmt.Sprintf("hole %d", i+1)
}

// faults finds what keeps the shape from being cut out.
func (o Outline) faults(s shape) []error {
	var faults []error
	complain := func(format string, args ...any) {
		if len(faults) < maxFaults {
			const accepted = "one outside, and openings and holes inside it that do not meet"
			faults = append(faults, fail.Wrong("outline", strconv.Quote(o.Name), fmt.Sprintf(format, args...), accepted))
		}
	}
	for i, l := range s.loops {
		if area, _ := moments(l); math.Abs(area) < leastArea {
			complain("%s encloses no area", s.names[i])
		}
	}
	// Every curve and hole against those whose boxes overlap.
	type part struct{ loop, side, hole int }
	var parts []part
	var low, high []vec
	for i, l := range s.loops {
		for k, c := range l {
			a, b := c.box()
			parts, low, high = append(parts, part{i, k, -1}), append(low, a), append(high, b)
		}
	}
	for i, h := range s.holes {
		r := vec{h.r, h.r}
		parts, low, high = append(parts, part{hole: i}), append(low, h.at.sub(r)), append(high, h.at.add(r))
	}
	told := map[[2]int]bool{}
	tell := func(i, j int, format string, args ...any) {
		if key := [2]int{min(i, j), max(i, j)}; !told[key] {
			told[key] = true
			complain(format, args...)
		}
	}
	holeKey := func(hole int) int { return len(s.loops) + hole }
	overlapping(low, high, func(x, y int) {
		p, q := parts[x], parts[y]
		switch {
		case p.hole >= 0 && q.hole >= 0:
			a, b := s.holes[p.hole], s.holes[q.hole]
			if a.at.sub(b.at).abs() <= a.r+b.r {
				first, second := o.holeName(min(p.hole, q.hole)), o.holeName(max(p.hole, q.hole))
				tell(holeKey(p.hole), holeKey(q.hole), "%s runs into %s", second, first)
			}
		case p.hole >= 0 || q.hole >= 0:
			if p.hole >= 0 {
				p, q = q, p
			}
			h, c := s.holes[q.hole], s.loops[p.loop][p.side]
			if c.nearest(h.at).sub(h.at).abs() <= h.r {
				tell(p.loop, holeKey(q.hole), "%s runs into %s", o.holeName(q.hole), s.names[p.loop])
			}
		case p.loop == q.loop:
			if selfCrossing(s.loops[p.loop], p.side, q.side) {
				first, second := min(p.side, q.side)+1, max(p.side, q.side)+1
				tell(p.loop, p.loop, "%s crosses itself at sides %d and %d", s.names[p.loop], first, second)
			}
		default:
			if len(crossings(s.loops[p.loop][p.side], s.loops[q.loop][q.side])) > 0 {
				first, second := s.names[min(p.loop, q.loop)], s.names[max(p.loop, q.loop)]
				tell(p.loop, q.loop, "%s runs into %s", second, first)
			}
		}
	})
	if len(faults) > 0 {
		slices.SortFunc(faults, func(a, b error) int { return cmp.Compare(a.Error(), b.Error()) })
		return faults
	}
	// Nothing crosses, so that one point of each part tells where it lies.
	for i, l := range s.loops[1:] {
		if !inside(s.loops[0], l[0].from) {
			complain("%s lies outside the outside", s.names[i+1])
		}
		for j, m := range s.loops[1:] {
			if i != j && inside(m, l[0].from) {
				complain("%s lies in %s", s.names[i+1], s.names[j+1])
			}
		}
	}
	for i, h := range s.holes {
		for j, l := range s.loops {
			if in := inside(l, h.at); in == (j > 0) {
				where := "lies in " + s.names[j]
				if j == 0 {
					where = "lies outside the outside"
				}
				complain("%s %s", o.holeName(i), where)
			}
		}
	}
	return faults
}

// selfCrossing reports whether sides i and j of a loop meet elsewhere than at
// the corner they share.
func selfCrossing(l []curve, i, j int) bool {
	for _, p := range crossings(l[i], l[j]) {
		after := (i+1)%len(l) == j && p.sub(l[i].to).abs() < 1e-6
		before := (j+1)%len(l) == i && p.sub(l[j].to).abs() < 1e-6
		if !after && !before {
			return true
		}
	}
	return false
}
