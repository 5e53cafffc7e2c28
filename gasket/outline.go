package gasket

import (
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// An Outline is the shape of a gasket or a cover: the outside, the openings cut
// in it, and the round holes for studs.
type Outline struct {
	Name    string
	Outside Loop
	Cutouts []Loop
	Holes   Pattern // every hole with its diameter
}

// Round returns a round gasket about the origin, with a round opening in the
// middle unless its diameter is zero. The outside is above zero, up to 1 km, the
// opening smaller; the holes are left to [Outline.Validate]. See the example.
func Round(name string, outside, opening units.Length, holes Pattern) (Outline, error) {
	if err := fail.Above(fault.Named("outside diameter", outside)); err != nil {
		return Outline{}, err
	}
	o := Outline{Name: name, Outside: Circle(Point{}, outside), Holes: slices.Clone(holes)}
	if opening.Sign() < 0 || opening.Cmp(outside) >= 0 {
		accepted := "zero to below the outside diameter, " + outside.String()
		return Outline{}, fail.OutOfRange("diameter of the opening", opening, accepted)
	}
	if !opening.IsZero() {
		o.Cutouts = []Loop{Circle(Point{}, opening)}
	}
	return o, nil
}

// Rectangular returns a gasket with the given rectangle for its outside and
// rectangular openings: the inside of a steam chest, or ports. Sides and corners
// are those of [Rect.Loop]; the rest is left to [Outline.Validate]. See the
// example.
func Rectangular(name string, outside Rect, openings []Rect, holes Pattern) (Outline, error) {
	o := Outline{Name: name, Holes: slices.Clone(holes)}
	var err error
	if o.Outside, err = outside.Loop(); err != nil {
		return Outline{}, err
	}
	for _, r := range openings {
		l, err := r.Loop()
		if err != nil {
			return Outline{}, err
		}
		o.Cutouts = append(o.Cutouts, l)
	}
	return o, nil
}

// Oval returns the gasket of a flange with two studs, as on a gland or a steam
// pipe: a boss midway between the studs, an end round each stud, and straight
// sides that touch both, with a round opening in the boss unless its diameter is
// zero.
//
// boss, end and opening are diameters, the end at most as large as the boss and
// not inside it. There are two holes. See the example.
func Oval(name string, boss, end, opening units.Length, holes Pattern) (Outline, error) {
	if len(holes) != 2 {
		return Outline{}, fail.OutOfRange("holes of an oval flange", len(holes), "2")
	}
	if end.Sign() <= 0 || end.Cmp(boss) > 0 {
		return Outline{}, fail.OutOfRange("diameter of the ends", end, "above zero and up to that of the boss, "+boss.String())
	}
	a, b := holes[0].At.vec(), holes[1].At.vec()
	middle, half := a.add(b).scale(0.5), b.sub(a).abs()/2
	large, small := boss.MM()/2, end.MM()/2
	if half <= large-small || half == 0 {
		accepted := "more than the boss is larger than the ends, " + boss.Sub(end).String()
		return Outline{}, fail.OutOfRange("distance of the studs", lengthOf(2*half), accepted)
	}
	along := b.sub(a).scale(1 / (2 * half))
	at := func(centre vec, r, angle float64) Point {
		sin, cos := math.Sincos(angle)
		return centre.add(along.turn(sin, cos).scale(r)).point()
	}
	// The sides touch boss and ends at the same angle from the line of the studs.
	touch := math.Acos((large - small) / half)
	endBulge, bossBulge := math.Tan(touch/2), math.Tan((math.Pi-2*touch)/4)
	l := Loop{{at(b, small, -touch), endBulge}, {at(b, small, touch), 0}}
	if large > small {
		l = append(l, Vertex{at(middle, large, touch), bossBulge}, Vertex{at(middle, large, math.Pi-touch), 0})
	}
	l = append(l, Vertex{at(a, small, math.Pi-touch), endBulge}, Vertex{at(a, small, math.Pi+touch), 0})
	if large > small {
		l = append(l, Vertex{at(middle, large, math.Pi+touch), bossBulge}, Vertex{at(middle, large, -touch), 0})
	}
	o := Outline{Name: name, Outside: l, Holes: slices.Clone(holes)}
	if opening.Sign() < 0 || opening.Cmp(boss) >= 0 {
		return Outline{}, fail.OutOfRange("diameter of the opening", opening, "zero to below that of the boss, "+boss.String())
	}
	if !opening.IsZero() {
		o.Cutouts = []Loop{Circle(middle.point(), opening)}
	}
	return o, nil
}
