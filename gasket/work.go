package gasket

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// An Action is what has to be done to a hole.
type Action int

// The actions of a [Work].
const (
	Open  Action = iota // open the hole to the given diameter
	Drill               // drill a hole that is not there
	Plug                // a hole without a stud: plug it, or leave it if nothing can leak there
)

var actionNames = names.Set{Package: "gasket", Type: "Action", Field: "action", Texts: []string{"open", "drill", "plug"}}

// Actions returns all of them.
func Actions() []Action { return []Action{Open, Drill, Plug} }

// ParseAction returns the action of that name.
func ParseAction(text string) (Action, error) {
	v, err := actionNames.Value(text)
	return Action(v), err
}

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
	Large    bool         // the opened hole is more than 1.5 times the stud: better plug it and drill it afresh at To
	To       Point        // where the hole belongs, on the first part
}

// Size returns the diameter rounded up to a micrometre, as a person opens or
// drills to it; zero for Plug. See the example.
func (w Work) Size() units.Length {
	if w.Diameter.IsZero() {
		return w.Diameter
	}
	up, err := w.Diameter.Sub(goesBy).Round(units.Micron(1), units.Up)
	if err != nil {
		return w.Diameter
	}
	return up
}

// String says what to do in one line, with [Work.Size].
func (w Work) String() string {
	size := w.Size().Text(units.Millimetres, 3)
	switch w.Do {
	case Open:
		text := fmt.Sprintf("open %s to %s for stud %s", w.hole(), size, w.Over)
		if w.Large {
			text += ", or plug it and drill it afresh at " + place(w.To)
		}
		return text
	case Drill:
		return fmt.Sprintf("drill a hole of %s at %s for stud %s", size, place(w.At), w.Hole)
	case Plug:
		return w.hole() + " has no stud: plug it, or leave it if nothing can leak there"
	}
	return w.Do.String()
}

// hole names the hole and its place.
func (w Work) hole() string { return "hole " + w.Hole + " at " + place(w.At) }

func place(p Point) string {
	return fmt.Sprintf("(%s, %s) mm", p.X.Decimal(units.Millimetres, 3), p.Y.Decimal(units.Millimetres, 3))
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
		h, stud := m.a[pair.First-1], m.b[pair.Second-1]
		work = append(work, Work{
			Do: Open, Hole: h.Name, Over: stud.Name, At: h.At, To: best.back(stud.At),
			Diameter: pair.Hole, Large: pair.Hole.Cmp(m.fastener().Scale(1.5)) > 0,
		})
	}
	for _, number := range best.OnlySecond {
		stud := m.b[number-1]
		at := best.back(stud.At)
		w := Work{Do: Drill, Hole: stud.Name, Over: stud.Name, At: at, To: at, Diameter: m.commonHole()}
		work = append(work, w)
	}
	for _, number := range best.OnlyFirst {
		h := m.a[number-1]
		work = append(work, Work{Do: Plug, Hole: h.Name, At: h.At, To: h.At})
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
				i, room := pair.First-1, pair.Allowance.Sub(pair.Distance)
				if slices.Contains(t.leave, i) || room.MM() > q.Room.MM()+holdsByMM {
					continue
				}
				leave := append(slices.Clone(t.leave), i)
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
		way[pair.First-1] = pair.Second - 1
	}
	q, ok := m.position(vecs(first), way, leave)
	q.TurnedOver = p.TurnedOver
	return q, ok
}
