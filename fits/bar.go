package fits

import (
	"slices"

	"github.com/valvechest/valvechest/units"
)

// OnBar returns the fit of the same character for a shaft that is bought ground or
// bright and left as it is: on shaft basis, with the hole of the letter that the
// shaft had.
//
//	H8/f7 on a bar of h6 is F8/h6
//
// The clearance is a little smaller, or the interference a little larger, where the
// bar is of another grade than the shaft. The fit must be on hole basis, H with any
// shaft, and the bar of class h; a fit that has the bar as its shaft stays as it is.
// Source: ISO 286-1, the deviations of holes A to H mirror those of the shafts; of
// the tighter letters the preferred fits have the pairs, H7/p6 and P7/h6. See the
// Example.
func (f Fit) OnBar(bar Class) (Fit, error) {
	switch {
	case !f.known():
		return Fit{}, fail.Argument("fit", f.String(), notAFit, acceptedFit, units.ErrUnknown)
	case bar.hole || bar.letter != letterH:
		return Fit{}, fail.Wrong("class of the bar", bar.String(), "not one that ground or bright bar is made to",
			"h with its grade, such as h6, h8, h9 or h11")
	case f.Shaft == bar:
		return f, nil
	case f.Hole.letter != letterH:
		return Fit{}, fail.Wrong("fit", f.String(), "not on hole basis", "H with any shaft, such as H8/f7")
	}
	return Fit{Class{letter: f.Shaft.letter, hole: true, grade: f.Hole.grade}, bar}, nil
}

// ChooseHole ranks the holes of the preferred fits on shaft basis for a shaft of this
// class that is bought and left as it is, by how well the clearance lies within a
// wanted band, best first, as [Choose] ranks fits. The bar is of class h. See the
// Example.
func (c Class) ChooseHole(nominal units.Length, wanted Band) ([]Choice, error) {
	if err := wanted.validate("wanted clearance"); err != nil {
		return nil, err
	}
	if _, err := c.LimitsFor(nominal); err != nil {
		return nil, err
	}
	var out []Choice
	for _, row := range preferred.Rows() {
		p := row[ShaftBasis]
		fit, err := row[HoleBasis].Fit.OnBar(c)
		if err != nil {
			return nil, err
		}
		p.Fit = Fit{p.Fit.Hole, fit.Shaft}
		if r, err := p.Fit.LimitsFor(nominal); err == nil {
			by, said := outside(p.Fit.String(), r, wanted)
			out = append(out, Choice{p, r, by, said})
		}
	}
	slices.SortStableFunc(out, func(a, b Choice) int { return better(a.Outside, a.Result, b.Outside, b.Result, wanted) })
	return out, nil
}
