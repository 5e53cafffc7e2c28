package gasket

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// MatchOptions say what is known of the two parts of a [Match]. The zero value
// asks for the geometry alone, of holes measured in any order.
type MatchOptions struct {
	// Ordered says that hole k of one part belongs to hole k of the other.
	Ordered bool
	// TurnOver says that the first part may also go on with its other face down.
	TurnOver bool
	// Stud is the largest diameter of the studs or screws fixed in the second
	// part, the fixed case. The diameters of the second part's holes then do not
	// count.
	Stud units.Length
	// Bolt is the largest diameter of loose bolts through clearance holes in both
	// parts, the floating case. Give Stud or Bolt, or neither for no verdict.
	Bolt units.Length
	// Lean is how far a stud may stand out of true where the first part sits; see
	// [LeanOfStud].
	Lean units.Length
	// Reach is how far a hole may lie from another and still be thought its
	// partner. Zero takes half the least distance between holes of one part; for
	// more than 24 holes in no order it may not be more than that.
	Reach units.Length
	// Weights of the first part's holes in the least squares; nil weighs all alike.
	Weights []float64
}

// A Matching is how two patterns go together.
type Matching struct {
	Positions []Position   // best first; none when no two holes agree with two of the other part
	Alike     int          // how many of them are as good as the best to a micrometre: above 1 in a symmetric pattern
	Goes      bool         // the first part goes on in the best position, as it is
	Decided   bool         // the sizes needed for a verdict were given
	Mirrored  bool         // turned over, the patterns would agree far better
	Work      []Work       // what to do to the first part so that it goes on; none while Mirrored
	Findings  finding.List // what is to be said of it, the worst first
}

// A Position is one way to lay the first part on the second.
type Position struct {
	TurnedOver   bool // left and right of the first part exchanged, before the turn
	Turn         units.Angle
	Shift        Point        // after the turn about the first part's origin
	Greatest     units.Length // greatest distance from a hole to its partner
	Room         units.Length // least room that a hole has left, on its radius; negative: it does not go on
	Goes         bool         // every partner has room and none of the second part is left over
	HoleForAll   units.Length // the one size that does for all holes of the first part; zero without Stud and Bolt
	LeastSquares Placement
	Pairs        []Pair
	OnlyFirst    []int // numbers of the holes of the first part without a partner, from 1
	OnlySecond   []int // and of the second
}

// A Placement is where least squares lays the first part; zero where the pairs fix
// no angle.
type Placement struct {
	Turn          units.Angle
	Shift         Point
	RMS, Greatest units.Length // of the distances from hole to partner
}

// A Pair is a hole of each part that belong together.
type Pair struct {
	First, Second int   // numbers of the holes in their patterns, from 1
	Off           Point // from the placed hole of the first part to its partner
	Distance      units.Length
	Allowance     units.Length // largest distance at which it goes, when sizes were given
	Hole          units.Length // the hole of the first part needed at this distance; zero without Stud and Bolt
}

// Place returns where a point of the first part comes to lie on the second. The point
// and the shift are within 1000 km of the origin either way, the turn is finite.
func (p Position) Place(q Point) (Point, error) {
	if err := p.check(q); err != nil {
		return Point{}, err
	}
	if p.TurnedOver {
		q.X = q.X.Neg()
	}
	return q.Turned(p.Turn).Add(p.Shift), nil
}

// Back returns the point of the first part that lies on q of the second. What it takes
// is as for [Position.Place].
func (p Position) Back(q Point) (Point, error) {
	if err := p.check(q); err != nil {
		return Point{}, err
	}
	return p.back(q), nil
}

func (p Position) back(q Point) Point {
	q = q.Sub(p.Shift).Turned(-p.Turn)
	if p.TurnedOver {
		q.X = q.X.Neg()
	}
	return q
}

// check refuses what a sum of lengths cannot hold.
func (p Position) check(q Point) error {
	if !finite(p.Turn.Radians()) {
		return fail.NotFinite("turn of the position", p.Turn)
	}
	for _, l := range []units.Length{q.X, q.Y, p.Shift.X, p.Shift.Y} {
		if math.Abs(l.MM()) > 1e9 {
			return fail.OutOfRange("point or shift", l, "within 1000 km")
		}
	}
	return nil
}

// merit is small where a position is good, in millimetres.
func (p Position) merit(decided bool) float64 {
	if decided {
		return -p.Room.MM()
	}
	return p.Greatest.MM()
}

// maxMatch is the largest number of holes that Match takes.
const maxMatch = 500

// Match lays pattern a, of a cover or gasket, on pattern b, of the part that it
// goes on, and says how well they agree: a rigid turn and shift in the plane,
// never turned over unless asked.
//
// The position is the one of the smallest greatest error (minimax), which
// answers whether the cover goes over the studs. The position of least squares,
// which spreads the error and may refuse a part that goes on, is given beside it.
// Where holes differ in size the position is the one that leaves most room at the
// tightest hole, where a hole may be off by
//
//	room = (hole - stud)/2 - lean               studs fixed in b
//	room = (hole a + hole b)/2 - bolt - lean    loose bolts
//
// It is the global best over all angles, to 0.000001 mm. The partner of each hole
// is found when the holes were measured in any order, as long as errors are small
// against the distance between holes: half of it is the most (see
// [MatchOptions.Reach]). As many holes as can have a partner have one; every
// position that pairs as many is listed, so that a symmetric pattern has several:
// a hundred holes spaced evenly on a circle have a hundred.
//
// It takes patterns of 2 to 500 holes each, no two holes of one pattern in one
// place. A cover of two dozen holes takes milliseconds, a hundred holes some tenths
// of a second, 500 spaced evenly on a circle a few seconds. Patterns of hundreds of
// holes that do not belong together, such as circles of 499 and 500, are tried in
// every way and may take minutes: when the context is done before the match, its
// cause is the error. See the example.
func Match(ctx context.Context, a, b Pattern, o MatchOptions) (Matching, error) {
	m, err := newMatcher(a, b, o)
	if err != nil {
		return Matching{}, err
	}
	m.ctx = ctx
	r := m.match()
	if ctx.Err() != nil {
		return Matching{}, fmt.Errorf("gasket: the match was stopped: %w", context.Cause(ctx))
	}
	return r, nil
}

// match is the answer, or what of it was found when the context was done.
func (m *matcher) match() Matching {
	o := m.o
	var r Matching
	r.Decided = m.decided
	r.Positions = m.positions(false, 0)
	if o.TurnOver {
		r.Positions = append(r.Positions, m.positions(true, pairsOf(r.Positions))...)
	}
	m.sort(r.Positions)
	most := pairsOf(r.Positions)
	r.Positions = slices.DeleteFunc(r.Positions, func(p Position) bool { return len(p.Pairs) < most })
	for _, p := range r.Positions {
		if p.merit(m.decided)-r.Positions[0].merit(m.decided) <= alikeByMM {
			r.Alike++
		}
	}
	r.Goes = m.decided && len(r.Positions) > 0 && r.Positions[0].Goes
	if !o.TurnOver && !r.Goes && !m.exact(r.Positions) {
		turned := m.positions(true, pairsOf(r.Positions))
		m.sort(turned)
		r.Mirrored = farBetter(turned, r.Positions)
	}
	if m.decided && !r.Mirrored {
		r.Work = m.work(r.Positions)
	}
	r.Findings = m.judge(r)
	return r
}

// alikeByMM is the difference in millimetres below which two positions are alike.
const alikeByMM = 1e-3

// exact reports whether the best position pairs all holes that can be paired with
// so little error that no other can be far better.
func (m *matcher) exact(ps []Position) bool {
	return pairsOf(ps) == min(len(m.a), len(m.b)) && ps[0].Greatest.MM() <= alikeByMM
}

// pairsOf returns how many holes are paired in the first of the positions.
func pairsOf(ps []Position) int {
	if len(ps) == 0 {
		return 0
	}
	return len(ps[0].Pairs)
}

// farBetter reports whether the best of p pairs more holes than the best of q,
// or the same number with errors at most half as large.
func farBetter(p, q []Position) bool {
	if len(p) == 0 || len(q) == 0 {
		return len(p) > 0
	}
	if len(p[0].Pairs) != len(q[0].Pairs) {
		return len(p[0].Pairs) > len(q[0].Pairs)
	}
	g, h := p[0].Greatest.MM(), q[0].Greatest.MM()
	return h-g > alikeByMM && g <= h/2
}

type matcher struct {
	ctx     context.Context
	a, b    Pattern
	o       MatchOptions
	decided bool
	reach   float64
	vb      []vec
}

func newMatcher(a, b Pattern, o MatchOptions) (*matcher, error) {
	m := &matcher{a: a, b: b, o: o, vb: vecs(b)}
	for _, side := range []struct {
		name string
		p    Pattern
	}{{"first pattern", a}, {"second pattern", b}} {
		if len(side.p) < 2 || len(side.p) > maxMatch {
			return nil, fail.OutOfRange("holes of the "+side.name, len(side.p), fmt.Sprintf("2 to %d", maxMatch))
		}
		if spacing(vecs(side.p)) == 0 {
			return nil, fail.Wrong(side.name, nil, "two holes in one place", "holes in different places")
		}
		for _, h := range side.p {
			hole := fmt.Sprintf("hole %q of the %s", h.Name, side.name)
			if max(math.Abs(h.At.X.MM()), math.Abs(h.At.Y.MM())) > maxRadiusMM {
				at := fmt.Sprintf("%v, %v", h.At.X, h.At.Y)
				return nil, fail.OutOfRange("place of "+hole, at, "within 1 km of the origin")
			}
			if h.Diameter.Sign() < 0 || h.Diameter.MM() > maxRadiusMM {
				const accepted = "above zero up to 1 km, or zero where it is not known"
				return nil, fail.OutOfRange("diameter of "+hole, h.Diameter, accepted)
			}
		}
	}
	if o.Ordered && len(a) != len(b) {
		accepted := fmt.Sprintf("as many as the first has, %d, when they are in order", len(a))
		return nil, fail.OutOfRange("holes of the second pattern", len(b), accepted)
	}
	for _, l := range []struct {
		name  string
		value units.Length
	}{{"stud diameter", o.Stud}, {"bolt diameter", o.Bolt}, {"lean of the studs", o.Lean}, {"reach", o.Reach}} {
		if l.value.Sign() < 0 || l.value.MM() > maxRadiusMM {
			return nil, fail.OutOfRange(l.name, l.value, "zero to 1 km")
		}
	}
	if !o.Stud.IsZero() && !o.Bolt.IsZero() {
		const accepted = "studs fixed in one part, or loose bolts"
		return nil, fail.Wrong("bolt diameter", o.Bolt, "given beside a stud diameter", accepted)
	}
	if err := checkWeights(o.Weights, len(a)); err != nil {
		return nil, err
	}
	m.decided = !o.Stud.IsZero() || !o.Bolt.IsZero()
	for _, h := range a {
		m.decided = m.decided && !h.Diameter.IsZero()
	}
	if !o.Bolt.IsZero() {
		for _, h := range b {
			m.decided = m.decided && !h.Diameter.IsZero()
		}
	}
	m.reach = o.Reach.MM()
	half := min(spacing(vecs(a)), spacing(m.vb)) / 2
	if o.Reach.IsZero() {
		m.reach = half
	} else if most := 24; m.reach > half && max(len(a), len(b)) > most && !o.Ordered {
		const format = "up to half the least distance between holes, %.4g mm, for more than %d holes"
		return nil, fail.OutOfRange("reach", o.Reach, fmt.Sprintf(format, half, most))
	}
	return m, nil
}

func checkWeights(weights []float64, n int) error {
	if weights == nil {
		return nil
	}
	if len(weights) != n {
		return fail.OutOfRange("weights", len(weights), fmt.Sprintf("one for each of the %d holes, or none", n))
	}
	positive := 0
	for _, w := range weights {
		switch {
		case !finite(w):
			return fail.NotFinite("weight", w)
		case w < 0 || w > 1e12:
			return fail.OutOfRange("weight", w, "0 to 1e12")
		case w > 0:
			positive++
		}
	}
	if positive < 2 {
		return fail.OutOfRange("weights above zero", positive, "at least 2")
	}
	return nil
}

// positions returns the positions that pair most holes, and no fewer than least,
// in no order.
func (m *matcher) positions(turnedOver bool, least int) []Position {
	first := m.a
	if turnedOver {
		first = m.a.Mirrored()
	}
	va := vecs(first)
	var ways [][]int
	switch {
	case m.o.Ordered:
		way := make([]int, len(va))
		for i := range way {
			way[i] = i
		}
		ways = [][]int{way}
	case len(va) <= len(m.vb):
		ways = pairings(m.ctx, va, m.vb, m.reach, least)
	default:
		for _, way := range pairings(m.ctx, m.vb, va, m.reach, least) {
			ways = append(ways, inverse(way, len(va)))
		}
	}
	var ps []Position
	for _, way := range ways {
		if m.ctx.Err() != nil {
			return nil
		}
		if p, ok := m.position(va, way, nil); ok {
			p.TurnedOver = turnedOver
			ps = append(ps, p)
		}
	}
	return ps
}

func inverse(way []int, n int) []int {
	back := make([]int, n)
	for i := range back {
		back[i] = -1
	}
	for j, i := range way {
		if i >= 0 {
			back[i] = j
		}
	}
	return back
}

// position lays the first part by the pairs of way, but for the ones in leave,
// which are measured all the same.
func (m *matcher) position(va []vec, way []int, leave []int) (Position, bool) {
	var p Position
	var pa, pb []vec
	var rooms, weights []float64
	most := math.Inf(-1)
	taken := make([]bool, len(m.b))
	for i, j := range way {
		if j < 0 {
			p.OnlyFirst = append(p.OnlyFirst, i+1)
			continue
		}
		taken[j] = true
		p.Pairs = append(p.Pairs, Pair{First: i + 1, Second: j + 1})
		if slices.Contains(leave, i) {
			continue
		}
		room := 0.0
		if m.decided {
			room = m.allowance(i, j).MM()
		}
		w := 1.0
		if m.o.Weights != nil {
			w = m.o.Weights[i]
		}
		pa, pb = append(pa, va[i]), append(pb, m.vb[j])
		rooms, weights = append(rooms, room), append(weights, w)
		most = max(most, room)
	}
	for j, taken := range taken {
		if !taken {
			p.OnlySecond = append(p.OnlySecond, j+1)
		}
	}
	ls, ok := leastSquares(pa, pb, func(i int) float64 { return weights[i] })
	start := ls.turn
	if ok {
		p.LeastSquares = placement(ls, pa, pb)
	} else if m.o.Weights != nil {
		return p, false
	}
	for i := range rooms {
		rooms[i] = most - rooms[i]
	}
	best, f := minimax(pa, pb, rooms, start)
	p.Turn, p.Shift = units.Angle(best.turn), best.shift.point()
	p.Room = lengthOf(most - f)
	p.Goes = len(p.OnlySecond) == 0 && m.decided && len(leave) == 0
	if !m.decided {
		p.Room = units.Length{}
	}
	for k := range p.Pairs {
		pair := &p.Pairs[k]
		i, j := pair.First-1, pair.Second-1
		off := m.vb[j].sub(best.of(va[i]))
		pair.Off, pair.Distance = off.point(), lengthOf(off.abs())
		pair.Hole = m.hole(j, pair.Distance)
		if pair.Distance.Cmp(p.Greatest) > 0 {
			p.Greatest = pair.Distance
		}
		if pair.Hole.Cmp(p.HoleForAll) > 0 {
			p.HoleForAll = pair.Hole
		}
		if m.decided {
			pair.Allowance = m.allowance(i, j)
			p.Goes = p.Goes && pair.Goes()
		}
	}
	return p, true
}

// goesBy is how much more than its allowance may lie between a pair, for the
// rounding of arithmetic.
var goesBy = units.Picometres(1000)

// Goes reports whether the pair lies within its allowance, to a nanometre.
func (p Pair) Goes() bool { return p.Distance.Sub(p.Allowance).Cmp(goesBy) <= 0 }

func placement(p pose, a, b []vec) Placement {
	var sum, greatest float64
	for i := range a {
		d := p.of(a[i]).sub(b[i]).abs()
		sum += d * d
		greatest = max(greatest, d)
	}
	return Placement{
		Turn: units.Angle(p.turn), Shift: p.shift.point(),
		RMS: lengthOf(math.Sqrt(sum / float64(len(a)))), Greatest: lengthOf(greatest),
	}
}

// allowance is how far hole i of a may lie from hole j of b.
func (m *matcher) allowance(i, j int) units.Length {
	if !m.o.Bolt.IsZero() {
		return m.a[i].Diameter.Add(m.b[j].Diameter).Scale(0.5).Sub(m.o.Bolt).Sub(m.o.Lean)
	}
	return m.a[i].Diameter.Sub(m.o.Stud).Scale(0.5).Sub(m.o.Lean)
}

// hole is the size that a hole of a needs at a distance from hole j of b.
func (m *matcher) hole(j int, distance units.Length) units.Length {
	off := distance.Add(m.o.Lean).Scale(2)
	switch {
	case !m.o.Bolt.IsZero() && !m.b[j].Diameter.IsZero():
		return m.o.Bolt.Scale(2).Sub(m.b[j].Diameter).Add(off)
	case !m.o.Stud.IsZero():
		return m.o.Stud.Add(off)
	}
	return units.Length{}
}

// sort puts the positions in order: more pairs first, then the better fit, then
// the face as it is, then the smaller turn.
func (m *matcher) sort(ps []Position) {
	nanometres := func(p Position) float64 { return math.Round(p.merit(m.decided) * 1e6) }
	slices.SortStableFunc(ps, func(p, q Position) int {
		over := func(p Position) int {
			if p.TurnedOver {
				return 1
			}
			return 0
		}
		return cmp.Or(
			cmp.Compare(len(q.Pairs), len(p.Pairs)),
			cmp.Compare(nanometres(p), nanometres(q)),
			cmp.Compare(over(p), over(q)),
			cmp.Compare(math.Round(math.Abs(p.Turn.Radians())*1e9), math.Round(math.Abs(q.Turn.Radians())*1e9)),
			cmp.Compare(q.Turn, p.Turn),
		)
	})
}

func vecs(p Pattern) []vec {
	vs := make([]vec, len(p))
	for i, h := range p {
		vs[i] = h.At.vec()
	}
	return vs
}
