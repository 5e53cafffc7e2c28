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
}

// A Packing is what goes under one jaw, flat and straight.
type Packing struct {
	Thickness units.Length // for the jaws that there are
	Wide      units.Length // for faces of which the flat itself touches
	WideFrom  units.Length // how wide they are at the least
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
	p := Packing{WideFrom: c.Offset.Scale(2 * sin60), Refs: source.Of(packingRef())}
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
	return units.Picometres(int64(math.Round(packing))), 1.5 - sin60*beside/deep
}

// beside returns how far from the blank's axis the edges of the jaws touch it, u of
// [ThreeJaw.Packing].
func (c ThreeJaw) beside(jaw units.Length) float64 {
	return max(0, sin60*count(c.Offset)-count(jaw)/2) // u = max(0, e sin 60 - w/2)
}

// Validate returns an error for a blank or an offset that cannot be.
func (c ThreeJaw) Validate() error {
	if err := fail.Above(fault.Named("blank", c.Blank), fault.Named("offset", c.Offset)); err != nil {
		return err
	}
	if c.Jaw.Sign() < 0 || c.Jaw.Cmp(c.Blank) > 0 {
		return fail.OutOfRange("width of the jaws", c.Jaw, "from zero to the diameter of the blank")
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

func count(l units.Length) float64 { return float64(l.Picometres()) }
