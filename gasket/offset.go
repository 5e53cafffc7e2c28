package gasket

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Offset returns the outline with its outside moved out by one distance, its
// openings widened all round by another and its holes enlarged on the radius by
// a third: a gasket that stands back from the edge of its flange has a negative
// first distance, and ports that must not be blinded a positive second. It refuses
// what Validate refuses before or after, and a loop that closes up or falls apart.
// See the example.
func (o Outline) Offset(outside, openings, holes units.Length) (Outline, error) {
	if err := o.Validate(); err != nil {
		return Outline{}, err
	}
	if err := fail.Within(fault.Named("offset of the holes", holes)); err != nil {
		return Outline{}, err
	}
	r := Outline{Name: o.Name, Holes: slices.Clone(o.Holes)}
	var err error
	if r.Outside, err = o.Outside.Offset(outside); err != nil {
		return Outline{}, fault.Of("the outside", err)
	}
	for i, l := range o.Cutouts {
		c, err := l.Offset(openings)
		if err != nil {
			return Outline{}, fault.Of(fmt.Sprintf("opening %d", i+1), err)
		}
		r.Cutouts = append(r.Cutouts, c)
	}
	for i := range r.Holes {
		r.Holes[i].Diameter = r.Holes[i].Diameter.Add(holes.Scale(2))
	}
	return r, r.Validate()
}

// Offset returns the loop moved out by d, or in where d is negative: every
// point of it lies at that distance from the loop. Corners that stand out become
// arcs when it moves out. It takes up to 2,000 sides and a distance of zero, or of
// 0.1 um to 10 m; a loop that closes up or falls into several is an error. See the
// example.
func (l Loop) Offset(d units.Length) (Loop, error) {
	cs, err := curves(l)
	if err != nil {
		return nil, err
	}
	const most = 2000
	if len(cs) > most {
		return nil, fail.OutOfRange("sides of a loop to offset", len(cs), fmt.Sprintf("up to %d", most))
	}
	area, _ := moments(cs)
	if math.Abs(area) < leastArea {
		return nil, fail.OutOfRange("area of the loop", "", "above zero")
	}
	if d.IsZero() {
		return slices.Clone(l), nil
	}
	if most := units.MM(maxReachMM); d.Cmp(most) > 0 || d.Cmp(most.Neg()) < 0 {
		return nil, fail.OutOfRange("offset", d, "up to "+most.String()+" either way")
	}
	if least := units.Micron(0.1); d.Abs().Cmp(least) < 0 {
		return nil, fail.OutOfRange("offset", d, "zero, or at least "+least.String()+" either way")
	}
	if area < 0 { // work anticlockwise
		cs = reversed(cs)
	}
	loops := slices.DeleteFunc(chains(offsetPieces(cs, d.MM())), func(row chain) bool {
		area, _ := moments(row)
		return math.Abs(area) < leastArea // what is left just before it closes up
	})
	if len(loops) != 1 {
		problem := "the loop closes up"
		if len(loops) > 1 {
			problem = fmt.Sprintf("the loop falls into %d", len(loops))
		}
		return nil, fail.Wrong("offset", d, problem, "a smaller distance")
	}
	return loops[0].loop(), nil
}

func reversed(cs []curve) []curve {
	r := make([]curve, len(cs))
	for i, c := range cs {
		c.from, c.to = c.to, c.from
		c.start, c.sweep = c.start+c.sweep, -c.sweep
		r[len(cs)-1-i] = c
	}
	return r
}

// offsetPieces returns the pieces of line that lie at distance d outside an
// anticlockwise loop, or inside it where d is negative. They are parts of the
// shifted sides and of circles round the corners: all of these are cut where
// they cross, and the parts that lie nearer to the loop than d are dropped.
func offsetPieces(cs []curve, d float64) []curve {
	var raw []curve
	for i, c := range cs {
		if s, ok := shifted(c, d); ok {
			raw = append(raw, s)
		}
		next := cs[(i+1)%len(cs)]
		out, then := c.direction(1), next.direction(0)
		turn := math.Atan2(out.cross(then), out.dot(then))
		if turn*d > 0 && math.Abs(turn) > 1e-9 { // the corner stands out on this side
			start := out.left().scale(-d) // the normal, to the right of a forward direction
			raw = append(raw, arcAbout(c.to, start, turn))
		}
	}
	size := 0.0
	for _, c := range cs {
		size = max(size, math.Abs(c.from.x), math.Abs(c.from.y), c.r)
	}
	rounding := 1e-13 * (size + math.Abs(d))
	var pieces []curve
	for i, c := range raw {
		cuts := []float64{0, 1}
		for j, e := range raw {
			if i == j {
				continue
			}
			for _, p := range crossings(c, e) {
				cuts = append(cuts, c.share(p))
			}
		}
		slices.Sort(cuts)
		for k := range cuts[1:] {
			from, to := cuts[k], cuts[k+1]
			if (to-from)*c.length() < 1e-5 { // the chain closes the gap
				continue
			}
			piece := c.part(from, to)
			middle := c.at((from + to) / 2)
			distance := nearestOn(cs, middle).sub(middle).abs()
			if distance > math.Abs(d)-rounding && inside(cs, middle) == (d < 0) {
				pieces = append(pieces, piece)
			}
		}
	}
	return pieces
}

// shifted returns a side moved to its right by d; false for an arc that closes
// up.
func shifted(c curve, d float64) (curve, bool) {
	if c.straight() {
		step := unit(c.to.sub(c.from)).left().scale(-d)
		return curve{from: c.from.add(step), to: c.to.add(step)}, true
	}
	r := c.r + math.Copysign(d, d*c.sweep)
	if r <= touch {
		return curve{}, false
	}
	return arcAbout(c.centre, c.from.sub(c.centre).scale(r/c.r), c.sweep), true
}

func arcAbout(centre, start vec, sweep float64) curve {
	sin, cos := math.Sincos(sweep)
	return curve{
		from: centre.add(start), to: centre.add(start.turn(sin, cos)), centre: centre,
		r: start.abs(), start: math.Atan2(start.y, start.x), sweep: sweep,
	}
}

// direction returns the way a curve goes at its start (0) or end (1).
func (c curve) direction(t float64) vec {
	if c.straight() {
		return unit(c.to.sub(c.from))
	}
	sin, cos := math.Sincos(c.start + t*c.sweep)
	return vec{-sin, cos}.scale(math.Copysign(1, c.sweep))
}

// at returns the point at a share of the length.
func (c curve) at(t float64) vec {
	if c.straight() {
		return c.from.add(c.to.sub(c.from).scale(t))
	}
	sin, cos := math.Sincos(c.start + t*c.sweep)
	return c.centre.add(vec{cos, sin}.scale(c.r))
}

// share returns where along the curve a point of it lies, 0 to 1.
func (c curve) share(p vec) float64 {
	if c.straight() {
		d := c.to.sub(c.from)
		return min(max(p.sub(c.from).dot(d)/d.dot(d), 0), 1)
	}
	d := p.sub(c.centre)
	turn := math.Remainder(math.Atan2(d.y, d.x)-c.start, 2*math.Pi)
	if c.sweep < 0 {
		turn = -turn
	}
	if turn < -1e-9 {
		turn += 2 * math.Pi
	}
	return min(max(turn/math.Abs(c.sweep), 0), 1)
}

// part returns the piece of a curve between two shares of its length.
func (c curve) part(from, to float64) curve {
	if c.straight() {
		return curve{from: c.at(from), to: c.at(to)}
	}
	return arcAbout(c.centre, c.at(from).sub(c.centre), (to-from)*c.sweep)
}

// A chain is a row of curves that join.
type chain []curve

// chains joins pieces end to end into closed rows. What does not close is left
// out, as is a scrap shorter than a micrometre.
func chains(pieces []curve) []chain {
	const near, scrap = 3e-5, 1e-3
	used := make([]bool, len(pieces))
	var loops []chain
	for i := range pieces {
		if used[i] {
			continue
		}
		used[i] = true
		row := chain{pieces[i]}
		for {
			end := row[len(row)-1].to
			if end.sub(row[0].from).abs() < near {
				length := 0.0
				for _, c := range row {
					length += c.length()
				}
				if length > scrap {
					loops = append(loops, row)
				}
				break
			}
			next := -1
			for j := range pieces {
				gap := pieces[j].from.sub(end).abs()
				if !used[j] && gap < near && (next < 0 || gap < pieces[next].from.sub(end).abs()) {
					next = j
				}
			}
			if next < 0 {
				break
			}
			used[next] = true
			row = append(row, pieces[next])
		}
	}
	return loops
}

// loop returns the chain as a loop that starts at its lowest, then leftmost
// corner; pieces of one line or circle that follow each other become one.
func (row chain) loop() Loop {
	var merged chain
	for _, c := range row {
		if n := len(merged); n > 0 && merged[n-1].goesOnAs(c) {
			merged[n-1] = merged[n-1].joined(c)
			continue
		}
		merged = append(merged, c)
	}
	if n := len(merged); n > 2 && merged[n-1].goesOnAs(merged[0]) {
		merged[0] = merged[n-1].joined(merged[0])
		merged = merged[:n-1]
	}
	first := 0
	for i, c := range merged {
		a, b := c.from, merged[first].from
		lower := cmp.Compare(math.Round(a.y*1e6), math.Round(b.y*1e6))
		if cmp.Or(lower, cmp.Compare(a.x, b.x)) < 0 {
			first = i
		}
	}
	var l Loop
	for i := range merged {
		c := merged[(first+i)%len(merged)]
		l = append(l, Vertex{c.from.point(), math.Tan(c.sweep / 4)})
	}
	return l
}

// goesOnAs reports whether next continues the same line or the same circle, by
// no more than half a circle in all.
func (c curve) goesOnAs(next curve) bool {
	if c.straight() != next.straight() {
		return false
	}
	if c.straight() {
		return math.Abs(c.direction(1).cross(next.direction(0))) < 1e-9 && c.direction(1).dot(next.direction(0)) > 0
	}
	oneCircle := c.centre.sub(next.centre).abs() < 1e-7 && math.Abs(c.r-next.r) < 1e-7
	return oneCircle && c.sweep*next.sweep > 0 && math.Abs(c.sweep+next.sweep) <= math.Pi+1e-12
}

func (c curve) joined(next curve) curve {
	if c.straight() {
		return curve{from: c.from, to: next.to}
	}
	return arcAbout(c.centre, c.from.sub(c.centre), c.sweep+next.sweep)
}
