package fits

import (
	"cmp"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// A Reaming is a hole to be reamed for a shaft that is there already, a ground
// bar most often.
type Reaming struct {
	Reamers   gauge.Set // that somebody owns
	Shaft     Limits    // of the bar as it is
	Clearance Band      // wanted on the diameter; below zero is interference
	// Hole is what a reamer makes of a hole of its own nominal size; the zero
	// value is H7, to which hand and machine reamers are made.
	Hole Class
}

// A ReamerChoice is a reamer and what fit it gives.
type ReamerChoice struct {
	Reamer  gauge.Size
	Result  Result
	Outside units.Length // how far the clearance may lie outside the wanted band, at the worse end; zero suits
}

// Choose ranks the reamers by how well the fit they give lies in the wanted
// band, best first, as [Choose] ranks fits. A reamer that a drawer calls 3/8 in
// cuts a hole of class H7 at 3/8 in, that is from its size up: reamers for H7
// are ground to lie in the upper middle of the tolerance (DIN 1420, from
// memory), so that they stay in it until they are worn. One that is worn, or runs
// out, or is used dry in brass cuts another hole; try it in scrap and measure.
//
// No reamers, limits that are no part's and a band the wrong way round are errors of
// type [*units.ArgumentError]; so is a Hole that is a class for shafts.
func (r Reaming) Choose() ([]ReamerChoice, error) {
	if r.Reamers.Len() == 0 {
		return nil, &units.ArgumentError{Package: "fits", Field: "reamers", Accepted: "a set of one or more", Err: units.ErrMissing}
	}
	if err := r.Shaft.check("limits of the shaft"); err != nil {
		return nil, err
	}
	if err := r.Clearance.check("wanted clearance"); err != nil {
		return nil, err
	}
	hole := r.Hole
	if hole == (Class{}) {
		hole = Class{letter: letterH, hole: true, grade: 7}
	}
	if hole.Feature() != Hole {
		return nil, &units.ArgumentError{Package: "fits", Field: "class of the hole", Value: hole.String(), Accepted: "a class for holes, such as H7", Err: units.ErrOutOfRange}
	}
	var out []ReamerChoice
	for size := range r.Reamers.All() {
		limits, err := hole.At(size.Diameter)
		if err != nil {
			return nil, err
		}
		c := ReamerChoice{Reamer: size, Result: mate(limits, r.Shaft)}
		c.Outside = outside(c.Result, r.Clearance)
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b ReamerChoice) int {
		return cmp.Or(a.Outside.Cmp(b.Outside), offCentre(a.Result, r.Clearance).Cmp(offCentre(b.Result, r.Clearance)))
	})
	return out, nil
}

// outside returns how far the clearance of a fit may lie outside a band, at the
// worse end.
func outside(r Result, wanted Band) units.Length {
	return longest(units.Length{}, wanted.Low.Sub(r.MinClearance), r.MaxClearance.Sub(wanted.High))
}

// offCentre returns twice the distance of the middle of a fit from that of a
// band.
func offCentre(r Result, wanted Band) units.Length {
	return r.MinClearance.Add(r.MaxClearance).Sub(wanted.Low).Sub(wanted.High).Abs()
}
