package gasket

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A Datum is where dimensions are counted from and which way. The zero Datum
// counts from the origin, X to the right and Y up.
type Datum struct {
	Origin Point
	XLeft  bool // X grows to the left
	YDown  bool // Y grows downwards, as in handbook tables and on screens
}

// From returns where each hole lies as counted from a datum, in order. With one
// axis turned round the numbers are those of the mirror image: they are
// dimensions for a drawing or a dial, and no pattern for [Match].
func (p Pattern) From(d Datum) []Point {
	points := make([]Point, len(p))
	for i, h := range p {
		q := h.At.Sub(d.Origin)
		if d.XLeft {
			q.X = q.X.Neg()
		}
		if d.YDown {
			q.Y = q.Y.Neg()
		}
		points[i] = q
	}
	return points
}

// Chord returns the distance between neighbours of n holes on a bolt circle, to
// step off with dividers.
//
//	chord = d sin(180°/n)
//
// n is 2 to 100,000 and d, the diameter of the circle, above zero. Stepped off
// n times, an error in the dividers adds up n times: the last step must close.
// Geometry; hobby tables print the factor sin(180°/n).
func Chord(n int, diameter units.Length) (units.Length, error) {
	if err := checkCount("holes on the circle", n, 2); err != nil {
		return units.Length{}, err
	}
	if diameter.Sign() <= 0 {
		return units.Length{}, outOfRange("bolt circle diameter", diameter.String(), "above zero")
	}
	return diameter.Scale(math.Sin(math.Pi / float64(n))), nil
}

// A Span is what a caliper must read between two holes of a pattern.
type Span struct {
	First, Second string // names of the holes
	Centres       units.Length
	OverPins      units.Length // over pins that fill the holes
	BetweenPins   units.Length // between them; negative where they would overlap
}

// Spans returns the distances that prove a pattern: each hole to the next in
// order, the last to the first, and each hole to the one furthest from it. The
// pins fill holes of the diameters given; a hole without a diameter is measured
// by a pin of the given one. Fewer than two holes, and a hole without a diameter
// when no pin is given, are errors.
func (p Pattern) Spans(pin units.Length) ([]Span, error) {
	const most = 2000
	if len(p) < 2 || len(p) > most {
		return nil, outOfRange("holes to measure", fmt.Sprint(len(p)), fmt.Sprintf("2 to %d", most))
	}
	if pin.Sign() < 0 {
		return nil, outOfRange("pin diameter", pin.String(), "zero or more")
	}
	diameters := make([]units.Length, len(p))
	for i, h := range p {
		diameters[i] = h.Diameter
		if h.Diameter.IsZero() {
			diameters[i] = pin
		}
		if diameters[i].Sign() <= 0 {
			return nil, &units.ArgumentError{Package: "gasket", Field: fmt.Sprintf("diameter of hole %q", h.Name), Accepted: "a diameter, or the diameter of a pin", Err: units.ErrMissing}
		}
	}
	var pairs [][2]int
	add := func(i, j int) {
		if pair := [2]int{min(i, j), max(i, j)}; i != j && !slices.Contains(pairs, pair) {
			pairs = append(pairs, pair)
		}
	}
	for i := range p {
		add(i, (i+1)%len(p))
	}
	for i := range p {
		furthest, far := i, 0.0
		for j := range p {
			// a nanometre of difference is none: the first in order is taken
			if d := p[i].At.vec().sub(p[j].At.vec()).abs(); d > far+1e-6 {
				furthest, far = j, d
			}
		}
		add(i, furthest)
	}
	spans := make([]Span, len(pairs))
	for k, pair := range pairs {
		a, b := p[pair[0]], p[pair[1]]
		centres := a.At.Distance(b.At)
		radii := diameters[pair[0]].Add(diameters[pair[1]]).Scale(0.5)
		spans[k] = Span{First: a.Name, Second: b.Name, Centres: centres, OverPins: centres.Add(radii), BetweenPins: centres.Sub(radii)}
	}
	return spans, nil
}

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
// The points are what [Pattern.From] gives; names, one for each, or none.
// A travel per turn that is not a whole number of divisions, dimensions that are
// not above zero, and a reach of more than a million turns are errors.
func Settings(points []Point, names []string, x, y Handwheel, overrun units.Length) ([]TableSetting, error) {
	if len(points) > maxHoles {
		return nil, outOfRange("points", fmt.Sprint(len(points)), fmt.Sprintf("up to %d", maxHoles))
	}
	if len(names) != 0 && len(names) != len(points) {
		return nil, outOfRange("names of the points", fmt.Sprint(len(names)), fmt.Sprintf("one for each of the %d points, or none", len(points)))
	}
	if overrun.Sign() <= 0 {
		return nil, outOfRange("overrun", overrun.String(), "more than the backlash of the screws")
	}
	for _, w := range []struct {
		name string
		Handwheel
	}{{"X", x}, {"Y", y}} {
		if w.PerTurn.Sign() <= 0 {
			return nil, outOfRange("travel per turn of the "+w.name+" screw", w.PerTurn.String(), "above zero")
		}
		if w.Division.Sign() <= 0 || w.PerTurn.Picometres()%w.Division.Picometres() != 0 {
			return nil, outOfRange("division of the "+w.name+" dial", w.Division.String(), "a whole part of the travel per turn, "+w.PerTurn.String())
		}
	}
	settings := make([]TableSetting, len(points))
	var lastX, lastY units.Length // where the slides stand, as counted
	for i, p := range points {
		s := &settings[i]
		if s.Hole = fmt.Sprint(i + 1); len(names) > 0 {
			s.Hole = names[i]
		}
		var err error
		if s.X, lastX, err = x.set(p.X, lastX, overrun, i == 0); err != nil {
			return nil, err
		}
		if s.Y, lastY, err = y.set(p.Y, lastY, overrun, i == 0); err != nil {
			return nil, err
		}
	}
	return settings, nil
}

// set moves the slide from where it stands, as the dial counts, to a coordinate.
func (w Handwheel) set(to, from, overrun units.Length, first bool) (DialSetting, units.Length, error) {
	counted := to
	if w.Down {
		counted = to.Neg()
	}
	if most := 1_000_000.0; math.Abs(counted.Ratio(w.PerTurn)) > most {
		return DialSetting{}, from, outOfRange("coordinate", to.String(), "within a million turns of the screw")
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
	if stand.Cmp(from) < 0 || first && stand.Sign() < 0 {
		d.Over = overrun
	}
	return d, stand, nil
}

// An IndexMove is the turning of the crank of a dividing head or rotary table
// from one hole to the next.
type IndexMove struct {
	Turns  int
	Spaces int // further holes of the index circle
	Circle int // holes of the index circle; 0 when whole turns do
}

// Indexing returns the moves of the crank that divide a circle into n: every
// circle of the plates that divides it, the one with most holes first.
//
//	turns = ratio/n
//
// The ratio is the crank's turns for one turn of the work: 40 for most dividing
// heads, 60 or 90 for many rotary tables. Circles lists the hole circles of the
// plates at hand. No circle that serves is an error that names the multiples
// wanted. Arithmetic; see also the indexing tables of package speeds.
func Indexing(n, ratio int, circles []int) ([]IndexMove, error) {
	if err := checkCount("divisions", n, 1); err != nil {
		return nil, err
	}
	if ratio < 1 || ratio > 1000 {
		return nil, outOfRange("ratio of the worm", fmt.Sprint(ratio), "1 to 1000")
	}
	turns, left := ratio/n, ratio%n
	if left == 0 {
		return []IndexMove{{Turns: turns}}, nil
	}
	part := n / gcd(left, n) // the circle must be a multiple of it
	var moves []IndexMove
	for _, c := range circles {
		if c < 1 {
			return nil, outOfRange("holes of an index circle", fmt.Sprint(c), "above zero")
		}
		if c%part == 0 {
			moves = append(moves, IndexMove{Turns: turns, Spaces: left * c / n, Circle: c})
		}
	}
	if len(moves) == 0 {
		return nil, &units.ArgumentError{Package: "gasket", Field: "index circles", Value: fmt.Sprint(circles), Problem: fmt.Sprintf("none divides a circle into %d with a ratio of %d", n, ratio), Accepted: fmt.Sprintf("a circle whose holes are a multiple of %d", part), Err: units.ErrUnknown}
	}
	slices.SortFunc(moves, func(a, b IndexMove) int { return cmp.Compare(b.Circle, a.Circle) })
	return moves, nil
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
