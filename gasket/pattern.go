package gasket

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("gasket")

// A Hole is one round hole of a pattern.
type Hole struct {
	Name     string       // what it is called on the drawing: "1"
	At       Point        // its centre
	Diameter units.Length // zero: not known, a centre only
}

// A Pattern is a set of holes of one part, seen from one side: X to the right,
// Y up. The order is that of drilling or measuring.
type Pattern []Hole

// maxHoles is the largest number of holes that a pattern may have.
const maxHoles = 100_000

// HalfPitch returns half the angle between neighbours of n holes on a circle:
// add it to the first angle of [BoltCircle] to straddle a centre line. Fewer
// than one hole gives zero. See the example.
func HalfPitch(n int) units.Angle {
	if n < 1 {
		return 0
	}
	return 180 * units.Degree / units.Angle(n)
}

// BoltCircle returns n holes evenly spaced on a circle about the origin.
//
//	x = (d/2) * cos(first + (k-1) * 360°/n)
//	y = (d/2) * sin(first + (k-1) * 360°/n)
//
//	n      number of holes, 1 to 100,000
//	d      diameter of the circle on the hole centres, above zero, up to 1 km
//	first  angle of hole 1, anticlockwise from the X axis, up to 1000 turns
//	k      number of the hole; the numbers run anticlockwise
//
// Hole 1 at the top is 90*units.Degree; with the top straddled,
// 90*units.Degree + HalfPitch(n). Handbook tables count Y downwards; see [Datum].
//
// Source: Machinery's Handbook, 31st edition, pp. 709-710, which gives the same
// circle as coordinate factors. See the example.
func BoltCircle(n int, diameter units.Length, first units.Angle) (Pattern, error) {
	if err := checkCount("holes on the circle", n, 1); err != nil {
		return nil, err
	}
	if err := fail.Above(fault.Named("bolt circle diameter", diameter)); err != nil {
		return nil, err
	}
	if err := fault.Finite(fail, "angle of the first hole", first); err != nil {
		return nil, err
	}
	if most := 1000 * 360 * units.Degree; first < -most || first > most {
		return nil, fail.OutOfRange("angle of the first hole", first, "up to 1000 turns either way")
	}
	p := make(Pattern, n)
	radius := Point{X: diameter.Scale(0.5)}
	for k := range p {
		at := first + units.Angle(k)*360*units.Degree/units.Angle(n) // Machinery's Handbook, 31st edition, p. 709
		p[k] = Hole{Name: strconv.Itoa(k + 1), At: radius.Turned(at)}
	}
	return p, nil
}

// Rectangle returns the holes on the sides of a rectangle about the origin: nx
// along each side of the given width, ny along each side of the given height,
// the corners counted in both. Each of nx and ny is at least 2. Hole 1 is at
// the lower left; the numbers run anticlockwise. The sides are above zero, up to
// 1 km. See the example.
func Rectangle(nx, ny int, width, height units.Length) (Pattern, error) {
	if err := checkCount("holes along the width", nx, 2); err != nil {
		return nil, err
	}
	if err := checkCount("holes along the height", ny, 2); err != nil {
		return nil, err
	}
	err := fail.Above(fault.Named("width of the rectangle", width), fault.Named("height of the rectangle", height))
	if err != nil {
		return nil, err
	}
	x, y := width.Scale(0.5), height.Scale(0.5)
	corners := [...]Point{{x.Neg(), y.Neg()}, {x, y.Neg()}, {x, y}, {x.Neg(), y}}
	var p Pattern
	for side, from := range corners {
		steps := nx - 1
		if side%2 == 1 {
			steps = ny - 1
		}
		way := corners[(side+1)%4].Sub(from)
		for k := range steps {
			share := float64(k) / float64(steps)
			at := from.Add(Point{way.X.Scale(share), way.Y.Scale(share)})
			p = append(p, Hole{Name: strconv.Itoa(len(p) + 1), At: at})
		}
	}
	return p, nil
}

// Drilled returns the pattern with every hole of the given diameter.
func (p Pattern) Drilled(diameter units.Length) Pattern {
	q := slices.Clone(p)
	for i := range q {
		q[i].Diameter = diameter
	}
	return q
}

// Moved returns the pattern moved by d.
func (p Pattern) Moved(d Point) Pattern {
	q := slices.Clone(p)
	for i := range q {
		q[i].At = q[i].At.Add(d)
	}
	return q
}

// Turned returns the pattern turned anticlockwise about the origin, by a finite
// angle; see [Point.Turned].
func (p Pattern) Turned(by units.Angle) Pattern {
	q := slices.Clone(p)
	for i := range q {
		q[i].At = q[i].At.Turned(by)
	}
	return q
}

// Mirrored returns the pattern as it is seen from the other side of the part,
// turned over about the Y axis.
func (p Pattern) Mirrored() Pattern {
	q := slices.Clone(p)
	for i := range q {
		q[i].At.X = q[i].At.X.Neg()
	}
	return q
}

func checkCount(field string, n, least int) error {
	if n < least || n > maxHoles {
		return fail.OutOfRange(field, n, fmt.Sprintf("%d to %d", least, maxHoles))
	}
	return nil
}
