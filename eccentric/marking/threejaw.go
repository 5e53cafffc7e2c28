package marking

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("marking")

// A ThreeJaw is a round blank in a self-centring three-jaw chuck, set over by
// packing under one jaw.
type ThreeJaw struct {
	Blank  units.Length // its diameter
	Offset units.Length // wanted, of the blank's axis from the spindle's
	Jaw    units.Length // width of the flat faces of the jaws; zero: jaws that touch along one line
	Opens  units.Length // the largest diameter that the jaws may grip, of the chuck's maker; zero: not given
}

// A Packing is what goes under one jaw, flat and straight.
type Packing struct {
	Thickness units.Length // for the jaws that there are
	Wide      units.Length // for faces of which the flat itself touches
	WideFrom  units.Length // how wide they are at the least
	Beside    units.Length // how far from the blank's axis an edge touches it: u; nothing where the flat does
	PerOffset float64      // how much more of it for more offset: dP/de
	JawsGrip  units.Length // the diameter of round work for which the jaws stand as far out
	Refs      source.Refs
}

// Packing returns the thickness under one jaw that sets the blank over:
//
//	P = 1.5*e + sqrt(R^2 - u^2) - R
//	u = max(0, e*sin(60 degrees) - w/2)
//	dP/de = 1.5 - sin(60 degrees) * u / sqrt(R^2 - u^2)
//
//	e, R   offset and half the blank
//	w      width of the jaws' flat faces
//
// The blank is R - e from the axis under the packed jaw, and the other two touch it
// beside their middle line, with their faces where these are wide enough and with an
// edge if not. An offset from zero to half of the blank. Geometry; a society of live
// steamers prints the form for w = 0. See the Example.
func (c ThreeJaw) Packing() (Packing, error) {
	if err := c.Validate(); err != nil {
		return Packing{}, err
	}
	p := Packing{WideFrom: c.Offset.Scale(2 * sin60), Beside: length(c.beside(c.Jaw)), Refs: source.Of(packingRef())}
	p.Thickness, p.PerOffset = c.packing(c.Jaw)
	p.Wide, _ = c.packing(p.WideFrom)
	p.JawsGrip = c.Blank.Sub(c.Offset.Scale(2)).Add(p.Thickness.Scale(2)) // 2 (R - e + P)
	return p, nil
}

const sin60 = 0.86602540378443864676372317075294

// packing returns the thickness for faces of the given width, and its slope.
func (c ThreeJaw) packing(jaw units.Length) (units.Length, float64) {
	radius, beside := count(c.Blank)/2, c.beside(jaw)
	deep := math.Sqrt(radius*radius - beside*beside)
	packing := 1.5*count(c.Offset) + deep - radius // P = 1.5 e + sqrt(R^2 - u^2) - R
	return length(packing), 1.5 - sin60*beside/deep
}

// beside returns how far from the blank's axis the edges of the jaws touch it, u of
// [ThreeJaw.Packing].
func (c ThreeJaw) beside(jaw units.Length) float64 {
	return max(0, sin60*count(c.Offset)-count(jaw)/2) // u = max(0, e sin 60 - w/2)
}

// OffsetFor returns the offset that a packing gives, the inverse of [ThreeJaw.Packing]
// in closed form: c.Offset does not matter. A packing that gives less than half of the
// blank. See the Example of [ThreeJaw.Correct].
func (c ThreeJaw) OffsetFor(packing units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("packing", packing)); err != nil {
		return units.Length{}, err
	}
	c.Offset = units.Micron(1) // as none was given yet
	if err := c.Validate(); err != nil {
		return units.Length{}, err
	}
	c.Offset = c.Blank.Scale(0.5)
	if most, _ := c.packing(c.Jaw); packing.Cmp(most) >= 0 {
		return units.Length{}, fail.OutOfRange("packing", packing, "below that for half of the blank, "+most.String())
	}
	radius, half := count(c.Blank)/2, count(c.Jaw)/2
	e := count(packing) / 1.5
	if e*sin60 > half { // an edge touches: 4 u^2 - 2 sqrt(3) m u + m^2 - R^2 = 0
		m := count(packing) + radius - math.Sqrt(3)*half
		e = ((math.Sqrt(3)*m-math.Sqrt(4*radius*radius-m*m))/4 + half) / sin60
	}
	return length(e), nil
}

// A Correction is what a dial on the packed blank says.
type Correction struct {
	Offset  units.Length // that there is
	Missing units.Length // of the wanted one; below zero, too much
	Change  units.Length // of the packing: thicker, below zero thinner
	Packing units.Length // that is needed
}

// Correct returns what to change after a turn in which the dial went over a reading:
//
//	change = dP/de * (e - reading/2)
//
// dP/de is that of [ThreeJaw.Packing]: 1.5 for wide flat jaws, less for an edge. The
// dial knows what the formula does not: hollow jaws, a blank out of round, packing that
// beds in. A reading from zero to the diameter of the blank. Geometry. See the Example.
func (c ThreeJaw) Correct(used, reading units.Length) (Correction, error) {
	p, err := c.Packing()
	if err != nil {
		return Correction{}, err
	}
	if err := fail.Above(fault.Named("packing", used)); err != nil {
		return Correction{}, err
	}
	if reading.Sign() < 0 || reading.Cmp(c.Blank) >= 0 {
		return Correction{}, fail.OutOfRange("reading", reading, "from zero to below the diameter of the blank, "+c.Blank.String())
	}
	offset := reading.Scale(0.5)
	missing := c.Offset.Sub(offset)
	change := missing.Scale(p.PerOffset)
	if need := used.Add(change); need.Sign() <= 0 {
		return Correction{}, fail.Wrong("packing", used, "with so much too much offset nothing of it would be left",
			"the packing that was in when the dial read "+reading.String())
	}
	return Correction{Offset: offset, Missing: missing, Change: change, Packing: used.Add(change)}, nil
}

// Validate returns an error for a blank or an offset that cannot be.
func (c ThreeJaw) Validate() error {
	if err := fail.Above(fault.Named("blank", c.Blank), fault.Named("offset", c.Offset)); err != nil {
		return err
	}
	if c.Jaw.Sign() < 0 || c.Jaw.Cmp(c.Blank) > 0 {
		return fail.OutOfRange("width of the jaws", c.Jaw, "from zero to the diameter of the blank")
	}
	if !c.Opens.IsZero() {
		if err := fail.Above(fault.Named("opening of the chuck", c.Opens)); err != nil {
			return err
		}
	}
	if most := c.Blank.Scale(0.5); c.Offset.Cmp(most) >= 0 {
		return fail.Wrong("offset", c.Offset, "the axis of turning lies outside the blank", "below half of the blank, "+most.String())
	}
	return nil
}

func packingRef() source.Ref {
	return source.Ref{Kind: source.Unreviewed, Title: "Live-steam society wiki, Turning an Eccentric Hole in a 3-Jaw Chuck", Edition: "2000",
		Locator: "formula and worked example", Note: "for jaws that touch along one line; the width of the faces is geometry"}
}
