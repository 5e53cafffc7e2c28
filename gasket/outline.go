package gasket

import "github.com/valvechest/valvechest/units"

// An Outline is the shape of a gasket or a cover: the outside, the openings cut
// in it, and the round holes for studs.
type Outline struct {
	Name    string
	Outside Loop
	Cutouts []Loop
	Holes   Pattern // every hole with its diameter
}

// Round returns a round gasket about the origin, with a round opening in the
// middle unless its diameter is zero.
func Round(name string, outside, opening units.Length, holes Pattern) (Outline, error) {
	if outside.Sign() <= 0 {
		return Outline{}, outOfRange("outside diameter", outside.String(), "above zero")
	}
	o := Outline{Name: name, Outside: Circle(Point{}, outside), Holes: holes}
	if opening.Sign() < 0 || opening.Cmp(outside) >= 0 {
		return Outline{}, outOfRange("diameter of the opening", opening.String(), "zero to below the outside diameter, "+outside.String())
	}
	if !opening.IsZero() {
		o.Cutouts = []Loop{Circle(Point{}, opening)}
	}
	return o, nil
}

// Rectangular returns a gasket with the given rectangle for its outside and
// rectangular openings: the inside of a steam chest, or ports.
func Rectangular(name string, outside Rect, openings []Rect, holes Pattern) (Outline, error) {
	o := Outline{Name: name, Holes: holes}
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
