package gasket

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket/internal/names"
	"github.com/valvechest/valvechest/units"
)

// An Action is what has to be done to a hole.
type Action int

// The actions of [Work].
const (
	Open  Action = iota // open the hole to the given diameter
	Drill               // drill a hole that is not there
	Plug                // a hole without a stud: plug it, or leave it if nothing can leak there
)

var actionNames = names.Set{Package: "gasket", What: "action", Texts: []string{"open", "drill", "plug"}}

// String returns "open", "drill" or "plug".
func (a Action) String() string { return actionNames.Text(int(a)) }

// MarshalText implements [encoding.TextMarshaler].
func (a Action) MarshalText() ([]byte, error) { return actionNames.Marshal(int(a)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (a *Action) UnmarshalText(text []byte) error { return actionNames.Unmarshal((*int)(a), text) }

// Work is one thing to do to the first part of a [Match].
type Work struct {
	Do       Action
	Hole     string       // the hole of the first part, or for Drill the stud of the second
	At       Point        // where, on the first part
	Diameter units.Length // to open or drill to
	Large    bool         // the opened hole is more than half as large again as the stud: plug it and drill it afresh at To
	To       Point        // where the hole belongs, on the first part
}

// String says what to do in one line.
func (w Work) String() string {
	at := func(p Point) string {
		return fmt.Sprintf("(%s, %s) mm", p.X.Decimal(units.Millimetres, 3), p.Y.Decimal(units.Millimetres, 3))
	}
	switch w.Do {
	case Open:
		text := fmt.Sprintf("open hole %s at %s to %s", w.Hole, at(w.At), w.Diameter.Text(units.Millimetres, 3))
		if w.Large {
			text += ", or plug it and drill it afresh at " + at(w.To)
		}
		return text
	case Drill:
		return fmt.Sprintf("drill a hole of %s at %s for stud %s", w.Diameter.Text(units.Millimetres, 3), at(w.At), w.Hole)
	case Plug:
		return fmt.Sprintf("hole %s at %s has no stud: plug it, or leave it if nothing can leak there", w.Hole, at(w.At))
	}
	return w.Do.String()
}

const (
	mostLeft  = 3    // holes that the search leaves out of the fit
	mostTries = 5000 // fits that it makes
)

// work returns what to do so that the first part goes on: the fewest holes to
// open, and among those the smallest opening, over the positions that are as
// good as the best. Where more than three holes are wrong it is the holes that
// have no room in the best position.
func (m *matcher) work(ps []Position) []Work {
	if len(ps) == 0 {
		return nil
	}
	best, open := ps[0], misfits(ps[0])
	if len(open) > 0 {
		tries := 0
		for k := 1; k <= min(mostLeft, len(open)-1) && k < len(open); k++ {
			if p, ok := m.leaveOut(ps, k, &tries); ok {
				best, open = p, misfits(p)
				break
			}
		}
		if len(open) == 1 && tries == 0 { // only one is wrong already; lay the part by the others
			if p, ok := m.leaveOut(ps, 1, &tries); ok {
				best, open = p, misfits(p)
			}
		}
	}
	var work []Work
	for _, pair := range open {
		h := m.a[pair.First]
		w := Work{Do: Open, Hole: h.Name, At: h.At, Diameter: pair.Hole, To: best.Back(m.b[pair.Second].At)}
		w.Large = pair.Hole.Cmp(m.fastener().Scale(1.5)) > 0
		work = append(work, w)
	}
	for _, j := range best.OnlySecond {
		at := best.Back(m.b[j].At)
		work = append(work, Work{Do: Drill, Hole: m.b[j].Name, At: at, To: at, Diameter: m.commonHole()})
	}
	for _, i := range best.OnlyFirst {
		work = append(work, Work{Do: Plug, Hole: m.a[i].Name, At: m.a[i].At, To: m.a[i].At})
	}
	return work
}

func misfits(p Position) []Pair {
	var out []Pair
	for _, pair := range p.Pairs {
		if !pair.Goes() {
			out = append(out, pair)
		}
	}
	return out
}

func (m *matcher) fastener() units.Length {
	if !m.o.Bolt.IsZero() {
		return m.o.Bolt
	}
	return m.o.Stud
}

// commonHole is the smallest of the first part's holes, for one that is not
// there.
func (m *matcher) commonHole() units.Length {
	least := m.a[0].Diameter
	for _, h := range m.a {
		if h.Diameter.Cmp(least) < 0 {
			least = h.Diameter
		}
	}
	return least
}

// leaveOut looks for a position in which all but k pairs have room, and returns
// the one whose worst pair needs the smallest hole.
func (m *matcher) leaveOut(ps []Position, k int, tries *int) (Position, bool) {
	var best Position
	found := false
	for _, p := range ps {
		if p.merit(true)-ps[0].merit(true) > 1e-3 {
			break
		}
		first := m.a
		if p.TurnedOver {
			first = m.a.Mirrored()
		}
		va := vecs(first)
		way := make([]int, len(m.a))
		for i := range way {
			way[i] = -1
		}
		for _, pair := range p.Pairs {
			way[pair.First] = pair.Second
		}
		for leave := range combinations(len(p.Pairs), k) {
			if *tries++; *tries > mostTries || len(p.Pairs)-k < 2 {
				return best, found
			}
			out := make([]int, k)
			for i, c := range leave {
				out[i] = p.Pairs[c].First
			}
			q, ok := m.position(va, way, out)
			if !ok || len(misfits(q)) > k || slices.ContainsFunc(misfits(q), func(pair Pair) bool { return !slices.Contains(out, pair.First) }) {
				continue
			}
			q.TurnedOver = p.TurnedOver
			if !found || q.HoleForAll.Cmp(best.HoleForAll) < 0 {
				best, found = q, true
			}
		}
	}
	return best, found
}

// combinations yields every choice of k of the numbers below n, in order. The
// slice is reused.
func combinations(n, k int) func(func([]int) bool) {
	return func(yield func([]int) bool) {
		c := make([]int, k)
		for i := range c {
			c[i] = i
		}
		for k <= n && yield(c) {
			i := k - 1
			for i >= 0 && c[i] == n-k+i {
				i--
			}
			if i < 0 {
				return
			}
			c[i]++
			for j := i + 1; j < k; j++ {
				c[j] = c[j-1] + 1
			}
		}
	}
}

// LeanOfStud returns how far a stud stands out of true at a given height above
// the face that it is screwed into.
//
//	lean = height tan(tilt)
//
// The tilt is from 0 to below 45 degrees. Geometry.
func LeanOfStud(height units.Length, tilt units.Angle) (units.Length, error) {
	if height.Sign() < 0 {
		return units.Length{}, outOfRange("height of the stud", height.String(), "zero or more")
	}
	if !(tilt >= 0 && tilt < 45*units.Degree) {
		return units.Length{}, outOfRange("tilt of the stud", tilt.String(), "0 to below 45 degrees")
	}
	return height.Scale(math.Tan(tilt.Radians())), nil
}

// ClearanceHole returns the smallest hole that goes over a stud whose foot is
// out of place and which leans, both in the worst direction.
//
//	hole = stud + 2 (out of place + lean)
//
// Geometry; it is the fixed-fastener formula H = F + T1 + T2 of ASME Y14.5 with
// the position zone of the clearance hole zero, T2 twice the distance out of
// place and a projected zone for the lean.
func ClearanceHole(stud, outOfPlace, lean units.Length) (units.Length, error) {
	for _, l := range []struct {
		name  string
		value units.Length
	}{{"stud diameter", stud}, {"distance out of place", outOfPlace}, {"lean", lean}} {
		if l.value.Sign() < 0 || l.value.IsZero() && l.name == "stud diameter" {
			return units.Length{}, outOfRange(l.name, l.value.String(), "above zero for the stud, zero or more for the rest")
		}
	}
	return stud.Add(outOfPlace.Add(lean).Scale(2)), nil
}

// A PositionTolerance is the diameter of the zone that the centre of a hole may
// lie in.
type PositionTolerance struct {
	Floating units.Length // of each part, when both have clearance holes for a loose bolt
	Fixed    units.Length // of each part, when one of them holds the stud: the clearance shared equally
}

// ToleranceFor returns the position tolerance that lets parts go together whose
// smallest hole and largest fastener are given.
//
//	floating T = H - F    fixed T1 + T2 = H - F, here T1 = T2 = (H - F)/2
//
// The centre may be out by half the zone in any direction. The fixed case takes
// a tapped hole square to the face, or a projected zone; both take the datums of
// the two parts as lying on each other. A hole no larger than the fastener is an
// error.
//
// Source: ASME Y14.5-2009, appendix B, by way of a textbook on geometric
// dimensioning and tolerancing (2021, p. 308).
func ToleranceFor(hole, fastener units.Length) (PositionTolerance, error) {
	if fastener.Sign() <= 0 {
		return PositionTolerance{}, outOfRange("fastener diameter", fastener.String(), "above zero")
	}
	clearance := hole.Sub(fastener)
	if clearance.Sign() < 0 {
		return PositionTolerance{}, outOfRange("hole diameter", hole.String(), "the fastener's diameter, "+fastener.String()+", or more")
	}
	return PositionTolerance{Floating: clearance, Fixed: clearance.Scale(0.5)}, nil
}
