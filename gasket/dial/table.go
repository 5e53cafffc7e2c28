package dial

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("dial")

// The most that a machine is taken to have.
const (
	maxHoles  = 100_000
	maxTurnMM = 1000      // travel per turn
	maxTurns  = 1_000_000 // of a screw, from the datum
)

// A Table is a machine table on two slides, square to each other.
type Table struct {
	X, Y    Handwheel
	Overrun units.Length // how far a slide goes past that has to come back; more than the backlash of either screw
}

// A Handwheel is the dial of one slide of a machine table.
type Handwheel struct {
	PerTurn  units.Length // travel per turn
	Division units.Length // travel per division of the dial
	Down     bool         // the dial counts up while the coordinate falls
}

// A TableSetting is how to bring a machine table to one hole.
type TableSetting struct {
	Hole string // its name, or its number where it has none
	X, Y SlideSetting
}

// A SlideSetting is how to bring one slide to a coordinate.
type SlideSetting struct {
	Turns   int          // whole turns from zero, in the direction of counting; negative: the other way
	Reading units.Length // what the dial shows then, a whole number of divisions
	Over    units.Length // how far to go past first, against the approach; zero: move straight there
	Error   units.Length // where the slide is, less where it should be
}

// Set returns the dial settings for each hole in order, the dials at zero at the
// datum. Backlash is always taken up in the direction of counting: a slide that
// has to come back goes past by the overrun and returns, so that every hole is
// approached from the same side. The datum must have been picked up the same way.
//
// A travel per turn is a whole number of divisions; it and the overrun are above
// zero, up to 1 m. It takes up to 100,000 holes within 1 km of the origin and a
// million turns of the datum. See the example.
func (t Table) Set(p gasket.Pattern, d gasket.Datum) ([]TableSetting, error) {
	if err := checkPlaces(p, d); err != nil {
		return nil, err
	}
	if t.Overrun.Sign() <= 0 || t.Overrun.Cmp(units.MM(maxTurnMM)) > 0 {
		return nil, fail.OutOfRange("overrun", t.Overrun, "more than the backlash of the screws, up to 1 m")
	}
	for _, w := range []struct {
		name string
		Handwheel
	}{{"X", t.X}, {"Y", t.Y}} {
		if w.PerTurn.Sign() <= 0 || w.PerTurn.Cmp(units.MM(maxTurnMM)) > 0 {
			return nil, fail.OutOfRange("travel per turn of the "+w.name+" screw", w.PerTurn, "above zero, up to 1 m")
		}
		if w.Division.Sign() <= 0 || w.PerTurn.Picometres()%w.Division.Picometres() != 0 {
			accepted := "a whole part of the travel per turn, " + w.PerTurn.String()
			return nil, fail.OutOfRange("division of the "+w.name+" dial", w.Division, accepted)
		}
	}
	settings := make([]TableSetting, len(p))
	var lastX, lastY units.Length // where the slides are, as counted: at the datum first
	for i, at := range p.From(d) {
		s := &settings[i]
		s.Hole = nameOf(p, i)
		var err error
		if s.X, lastX, err = t.X.set(at.X, lastX, t.Overrun); err != nil {
			return nil, fault.Of("hole "+s.Hole+", X", err)
		}
		if s.Y, lastY, err = t.Y.set(at.Y, lastY, t.Overrun); err != nil {
			return nil, fault.Of("hole "+s.Hole+", Y", err)
		}
	}
	return settings, nil
}

// checkPlaces refuses what cannot be counted from the datum.
func checkPlaces(p gasket.Pattern, d gasket.Datum) error {
	if len(p) > maxHoles {
		return fail.OutOfRange("number of holes", len(p), "up to "+strconv.Itoa(maxHoles))
	}
	if err := fail.Within(fault.Named("X", d.Origin.X), fault.Named("Y", d.Origin.Y)); err != nil {
		return fault.Of("datum", err)
	}
	for i, h := range p {
		if err := fail.Within(fault.Named("X", h.At.X), fault.Named("Y", h.At.Y)); err != nil {
			return fault.Of("hole "+nameOf(p, i), err)
		}
	}
	return nil
}

func nameOf(p gasket.Pattern, i int) string {
	if name := p[i].Name; name != "" {
		return name
	}
	return strconv.Itoa(i + 1)
}

// set moves the slide from where it is, as the dial counts, to a coordinate.
func (w Handwheel) set(to, from, overrun units.Length) (SlideSetting, units.Length, error) {
	if math.Abs(to.Ratio(w.PerTurn)) > maxTurns {
		return SlideSetting{}, from, fail.OutOfRange("coordinate", to, "within a million turns of the screw")
	}
	counted := to
	if w.Down {
		counted = to.Neg()
	}
	stand, err := counted.Round(w.Division, units.Nearest)
	if err != nil {
		return SlideSetting{}, from, err
	}
	down, err := stand.Round(w.PerTurn, units.Down)
	if err != nil {
		return SlideSetting{}, from, err
	}
	turns := int(down.Picometres() / w.PerTurn.Picometres())
	s := SlideSetting{Turns: turns, Reading: stand.Sub(down), Error: stand.Sub(counted)}
	if w.Down {
		s.Error = s.Error.Neg()
	}
	if stand.Cmp(from) < 0 {
		s.Over = overrun
	}
	return s, stand, nil
}

// InOrder returns the numbers of the holes, from 1, in the order in which the X slide
// never comes back, as its dial counts, and holes of one X in that of Y: with it
// [Table.Set] goes past first least often. It takes what Set takes.
func (t Table) InOrder(p gasket.Pattern, d gasket.Datum) ([]int, error) {
	if err := checkPlaces(p, d); err != nil {
		return nil, err
	}
	at, order := p.From(d), make([]int, len(p))
	for i := range order {
		order[i] = i + 1
	}
	// to a nanometre: the two holes of a circle with one X come out of sines
	counted := func(v units.Length, w Handwheel) int64 {
		n := int64(math.Round(v.MM() * 1e6))
		if w.Down {
			n = -n
		}
		return n
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(counted(at[a-1].X, t.X), counted(at[b-1].X, t.X)),
			cmp.Compare(counted(at[a-1].Y, t.Y), counted(at[b-1].Y, t.Y)))
	})
	return order, nil
}
