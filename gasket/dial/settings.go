package dial

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// A Handwheel is the dial of one slide of a machine table.
type Handwheel struct {
	PerTurn  units.Length // travel per turn
	Division units.Length // travel per division of the dial
	Down     bool         // the dial counts up while the coordinate falls
}

// A DialSetting is how to bring one slide to a coordinate.
type DialSetting struct {
	Turns   int          // whole turns from zero, in the direction of counting; negative: the other way
	Reading units.Length // what the dial shows then, a whole number of divisions
	Over    units.Length // how far to go past first, against the approach; zero: move straight there
	Error   units.Length // where the slide stands, less where it should
}

// A TableSetting is how to bring a machine table to one hole.
type TableSetting struct {
	Hole string
	X, Y DialSetting
}

// Settings returns the dial settings for each point in order, the dials at zero
// at the datum. Backlash is always taken up in the direction of counting: a
// slide that has to come back goes past by overrun and returns, so that every
// hole is approached from the same side. The overrun must be more than the
// backlash of either screw, and the datum must have been picked up the same way.
//
// The points are what [gasket.Pattern.From] gives; names, one for each, or none.
// A travel per turn that is not a whole number of divisions, dimensions that are
// not above zero or beyond 1 m, and a reach of more than a million turns are
// errors.
func Settings(points []gasket.Point, names []string, x, y Handwheel, overrun units.Length) ([]TableSetting, error) {
	if len(points) > maxPoints {
		return nil, bad("points", fmt.Sprint(len(points)), fmt.Sprintf("up to %d", maxPoints))
	}
	if len(names) != 0 && len(names) != len(points) {
		return nil, bad("names of the points", fmt.Sprint(len(names)), fmt.Sprintf("one for each of the %d points, or none", len(points)))
	}
	if overrun.Sign() <= 0 || overrun.Cmp(units.MM(maxTurnMM)) > 0 {
		return nil, bad("overrun", overrun.String(), "more than the backlash of the screws, up to 1 m")
	}
	for _, w := range []struct {
		name string
		Handwheel
	}{{"X", x}, {"Y", y}} {
		if w.PerTurn.Sign() <= 0 || w.PerTurn.Cmp(units.MM(maxTurnMM)) > 0 {
			return nil, bad("travel per turn of the "+w.name+" screw", w.PerTurn.String(), "above zero, up to 1 m")
		}
		if w.Division.Sign() <= 0 || w.PerTurn.Picometres()%w.Division.Picometres() != 0 {
			return nil, bad("division of the "+w.name+" dial", w.Division.String(), "a whole part of the travel per turn, "+w.PerTurn.String())
		}
	}
	settings := make([]TableSetting, len(points))
	var lastX, lastY units.Length // where the slides stand, as counted: at the datum first
	for i, p := range points {
		s := &settings[i]
		if s.Hole = fmt.Sprint(i + 1); len(names) > 0 {
			s.Hole = names[i]
		}
		var err error
		if s.X, lastX, err = x.set(p.X, lastX, overrun); err != nil {
			return nil, err
		}
		if s.Y, lastY, err = y.set(p.Y, lastY, overrun); err != nil {
			return nil, err
		}
	}
	return settings, nil
}

// set moves the slide from where it stands, as the dial counts, to a coordinate.
func (w Handwheel) set(to, from, overrun units.Length) (DialSetting, units.Length, error) {
	if most := 1_000_000.0; math.Abs(to.Ratio(w.PerTurn)) > most {
		return DialSetting{}, from, bad("coordinate", to.String(), "within a million turns of the screw")
	}
	counted := to
	if w.Down {
		counted = to.Neg()
	}
	stand, err := counted.Round(w.Division, units.Nearest)
	if err != nil {
		return DialSetting{}, from, err
	}
	down, err := stand.Round(w.PerTurn, units.Down)
	if err != nil {
		return DialSetting{}, from, err
	}
	d := DialSetting{Turns: int(down.Picometres() / w.PerTurn.Picometres()), Reading: stand.Sub(down), Error: stand.Sub(counted)}
	if w.Down {
		d.Error = d.Error.Neg()
	}
	if stand.Cmp(from) < 0 {
		d.Over = overrun
	}
	return d, stand, nil
}
