package gasket

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
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

var actionNames = names.Set{Package: "gasket", Type: "Action", Field: "action", Texts: []string{"open", "drill", "plug"}}

// String returns "open", "drill" or "plug".
func (a Action) String() string { return actionNames.Text(int(a)) }

// MarshalText implements [encoding.TextMarshaler].
func (a Action) MarshalText() ([]byte, error) { return actionNames.Marshal(int(a)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (a *Action) UnmarshalText(text []byte) error { return names.Unmarshal(&actionNames, a, text) }

// Work is one thing to do to the first part of a [Match].
type Work struct {
	Do       Action
	Hole     string       // the hole of the first part, or for Drill the stud of the second
	Over     string       // the stud or hole of the second part that it goes over; blank for Plug
	At       Point        // where, on the first part
	Diameter units.Length // to open or drill to
	Large    bool         // the opened hole is more than half as large again as the stud: plug it and drill it afresh at To
	To       Point        // where the hole belongs, on the first part
}

// String says what to do in one line; the diameter is rounded up.
func (w Work) String() string {
	at := func(p Point) string {
		return fmt.Sprintf("(%s, %s) mm", p.X.Decimal(units.Millimetres, 3), p.Y.Decimal(units.Millimetres, 3))
	}
	diameter := w.Diameter
	if up, err := diameter.Sub(goesBy).Round(units.Micron(1), units.Up); err == nil {
		diameter = up
	}
	switch w.Do {
	case Open:
		text := fmt.Sprintf("open hole %s at %s to %s for stud %s", w.Hole, at(w.At), diameter.Text(units.Millimetres, 3), w.Over)
		if w.Large {
			text += ", or plug it and drill it afresh at " + at(w.To)
		}
		return text
	case Drill:
		return fmt.Sprintf("drill a hole of %s at %s for stud %s", diameter.Text(units.Millimetres, 3), at(w.At), w.Hole)
	case Plug:
		return fmt.Sprintf("hole %s at %s has no stud: plug it, or leave it if nothing can leak there", w.Hole, at(w.At))
	}
	return w.Do.String()
}

// How far the search for the fewest holes to open goes before it takes the ones
// that have no room in the best position.
const (
	mostLeft  = 5      // holes that it leaves out of the fit
	mostWork  = 50_000 // fits that it makes, times the holes in each
	holdsByMM = 1e-6   // pairs that have as little room as the tightest, to this, hold the position
)

// work returns what to do so that the first part goes on: the fewest holes to
// open, and among those the smallest opening, over the positions that are as
// good as the best. Where more than five holes are wrong it is the holes that
// have no room in the best position.
func (m *matcher) work(ps []Position) []Work {
	if len(ps) == 0 {
		return nil
	}
	best := ps[0]
	if len(misfits(best)) > 0 {
		if p, ok := m.leaveOut(ps); ok {
			best = p
		}
	}
	open := misfits(best)
	var work []Work
	for _, pair := range open {
		h := m.a[pair.First]
		w := Work{Do: Open, Hole: h.Name, Over: m.b[pair.Second].Name, At: h.At, Diameter: pair.Hole, To: best.Back(m.b[pair.Second].At)}
		w.Large = pair.Hole.Cmp(m.fastener().Scale(1.5)) > 0
		work = append(work, w)
	}
	for _, j := range best.OnlySecond {
		at := best.Back(m.b[j].At)
		work = append(work, Work{Do: Drill, Hole: m.b[j].Name, Over: m.b[j].Name, At: at, To: at, Diameter: m.commonHole()})
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

// leaveOut looks for a position in which all but a few pairs have room: as few as
// can be, and then with the smallest hole. As long as a position is too tight, one
// of the pairs that hold it must be left out, and only those are tried.
func (m *matcher) leaveOut(ps []Position) (Position, bool) {
	type try struct {
		of    *Position // one of ps
		leave []int
	}
	budget := mostWork / len(m.a)
	level := map[string]try{}
	for i := range ps {
		if p := &ps[i]; p.merit(true)-ps[0].merit(true) <= alikeByMM {
			level[fmt.Sprint(i)] = try{p, nil}
		}
	}
	for range mostLeft + 1 {
		var best Position
		found := false
		next := map[string]try{}
		for _, key := range slices.Sorted(maps.Keys(level)) {
			t := level[key]
			if budget--; budget < 0 || len(t.of.Pairs)-len(t.leave) < 2 {
				return best, found
			}
			q := *t.of
			if len(t.leave) > 0 {
				var ok bool
				if q, ok = m.again(t.of, t.leave); !ok {
					continue
				}
			}
			if q.Room.Add(goesBy).Sign() >= 0 {
				if !found || q.HoleForAll.Cmp(best.HoleForAll) < 0 {
					best, found = q, true
				}
				continue
			}
			for _, pair := range q.Pairs {
				if slices.Contains(t.leave, pair.First) || pair.Allowance.Sub(pair.Distance).MM() > q.Room.MM()+holdsByMM {
					continue
				}
				leave := append(slices.Clone(t.leave), pair.First)
				slices.Sort(leave)
				of, _, _ := strings.Cut(key, " ")
				next[of+" "+fmt.Sprint(leave)] = try{t.of, leave}
			}
		}
		if found {
			return best, true
		}
		level = next
	}
	return Position{}, false
}

// again lays the first part as in p, but for the pairs of the holes in leave.
func (m *matcher) again(p *Position, leave []int) (Position, bool) {
	first := m.a
	if p.TurnedOver {
		first = m.a.Mirrored()
	}
	way := make([]int, len(m.a))
	for i := range way {
		way[i] = -1
	}
	for _, pair := range p.Pairs {
		way[pair.First] = pair.Second
	}
	q, ok := m.position(vecs(first), way, leave)
	q.TurnedOver = p.TurnedOver
	return q, ok
}

// LeanOfStud returns how far a stud stands out of true at a given height above
// the face that it is screwed into.
//
//	lean = height tan(tilt)
//
// The tilt is from 0 to below 45 degrees. Geometry. Another tilt, and a height
// that is negative, are an [*units.ArgumentError].
func LeanOfStud(height units.Length, tilt units.Angle) (units.Length, error) {
	if height.Sign() < 0 {
		return units.Length{}, outOfRange("height of the stud", height.String(), "zero or more")
	}
	if !(tilt >= 0 && tilt < 45*units.Degree) {
		return units.Length{}, outOfRange("tilt of the stud", tilt.String(), "0 to below 45 degrees")
	}
	return height.Scale(math.Tan(tilt.Radians())), nil
}

// TiltOfStud returns how far a stud is tilted that stands out of true by a
// distance at a given height above the face that it is screwed into: the reverse
// of [LeanOfStud], for a hole that had to be opened.
//
//	tilt = arctan(lean / height)
//
// The height is above zero, the lean from zero to below the height. Geometry.
// Others are an [*units.ArgumentError].
func TiltOfStud(height, lean units.Length) (units.Angle, error) {
	if height.Sign() <= 0 {
		return 0, outOfRange("height of the stud", height.String(), "above zero")
	}
	if lean.Sign() < 0 || lean.Cmp(height) >= 0 {
		return 0, outOfRange("lean of the stud", lean.String(), "zero to below its height, "+height.String())
	}
	return units.Angle(math.Atan(lean.Ratio(height))), nil
}

// ClearanceHole returns the smallest hole that goes over a stud whose foot is
// out of place and which leans, both in the worst direction.
//
//	hole = stud + 2 (out of place + lean)
//
// Geometry; it is the fixed-fastener formula H = F + T1 + T2 of ASME Y14.5 with
// the position zone of the clearance hole zero, T2 twice the distance out of
// place and a projected zone for the lean. A stud that is not above zero and a
// distance that is negative are an [*units.ArgumentError].
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
