package fits

import (
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
	Reamer   gauge.Size
	Result   FitLimits
	Outside  units.Length // how far the clearance may lie outside the wanted band, at the worse end; zero suits
	Findings finding.List
}

// Choose ranks the reamers by how well the fit they give lies in the wanted
// band, best first, as [Choose] ranks fits. A reamer that a drawer calls 3/8 in
// cuts a hole of class H7 at 3/8 in, that is from its size up: reamers for H7
// are ground to lie in the upper middle of the tolerance (DIN 1420, from
// memory), so that they stay in it until they are worn. One that is worn, or runs
// out, or is used dry in brass cuts another hole; try it in scrap and measure.
// See the Example.
func (r Reaming) Choose() ([]ReamerChoice, error) {
	if r.Reamers.Len() == 0 {
		return nil, fail.Missing("reamers", "a set of one or more")
	}
	if err := r.Shaft.validate("limits of the shaft"); err != nil {
		return nil, err
	}
	if err := r.Clearance.validate("wanted clearance"); err != nil {
		return nil, err
	}
	hole := r.Hole
	if hole == (Class{}) {
		hole = Class{letter: letterH, hole: true, grade: 7}
	}
	if hole.Feature() != Hole {
		return nil, fail.OutOfRange("class of the hole", hole, "a class for holes, such as H7")
	}
	var out []ReamerChoice
	for size := range r.Reamers.All() {
		limits, err := hole.LimitsFor(size.Diameter)
		if err != nil {
			return nil, err
		}
		c := ReamerChoice{Reamer: size, Result: mate(limits, r.Shaft)}
		c.Outside, c.Findings = outside("The "+size.Name+" reamer", c.Result, r.Clearance)
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b ReamerChoice) int {
		return better(a.Outside, a.Result, b.Outside, b.Result, r.Clearance)
	})
	return out, nil
}

// ReamerFor returns the reamer that a hole of a nominal size asks for, by the name
// that it goes by: a fraction of an inch if it is one to the 64th. Above 100 mm
// there is none, and the hole is bored (common practice). See the Example.
func ReamerFor(nominal units.Length) (gauge.Size, error) {
	if nominal.Sign() <= 0 {
		return gauge.Size{}, fail.OutOfRange("nominal size", nominal, "above zero")
	}
	if nominal.Cmp(units.MM(100)) > 0 {
		return gauge.Size{}, fail.Wrong("nominal size", nominal, "too large for a reamer",
			"up to 100 mm; bore the hole, and turn the shaft to suit")
	}
	name := nominal.String()
	if f, err := nominal.NearestFraction(64); err == nil && f.Rest.IsZero() {
		name = f.String()
	}
	return gauge.Size{Name: name, Diameter: nominal}, nil
}
