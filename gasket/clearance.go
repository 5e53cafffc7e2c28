package gasket

import (
	"cmp"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// LeanOfStud returns how far a stud stands out of true at a given height above
// the face that it is screwed into.
//
//	lean = height * tan(tilt)
//
// The tilt is from 0 to below 45 degrees, the height zero or more. Geometry. See
// the example.
func LeanOfStud(height units.Length, tilt units.Angle) (units.Length, error) {
	if height.Sign() < 0 {
		return units.Length{}, fail.OutOfRange("height of the stud", height, "zero or more")
	}
	if !(tilt >= 0 && tilt < 45*units.Degree) {
		return units.Length{}, fail.OutOfRange("tilt of the stud", tilt, "0 to below 45 degrees")
	}
	return height.Scale(math.Tan(tilt.Radians())), nil
}

// TiltOfStud returns how far a stud is tilted that stands out of true by a
// distance at a given height above the face that it is screwed into: the reverse
// of [LeanOfStud], for a hole that had to be opened.
//
//	tilt = arctan(lean / height)
//
// The height is above zero, the lean from zero to below the height. Geometry. See
// the example.
func TiltOfStud(height, lean units.Length) (units.Angle, error) {
	if height.Sign() <= 0 {
		return 0, fail.OutOfRange("height of the stud", height, "above zero")
	}
	if lean.Sign() < 0 || lean.Cmp(height) >= 0 {
		return 0, fail.OutOfRange("lean of the stud", lean, "zero to below its height, "+height.String())
	}
	return units.Angle(math.Atan(lean.Ratio(height))), nil
}

// ClearanceHole returns the smallest hole that goes over a stud whose foot is
// out of place and which leans, both in the worst direction.
//
//	hole = stud + 2 * (out of place + lean)
//
// Geometry; it is the fixed-fastener formula H = F + T1 + T2 of ASME Y14.5 with
// the position zone of the clearance hole zero, T2 twice the distance out of
// place and a projected zone for the lean. The stud is above zero, the distances
// are zero or more, all up to 1 km. See the example.
func ClearanceHole(stud, outOfPlace, lean units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("stud diameter", stud)); err != nil {
		return units.Length{}, err
	}
	distances := []fault.Length{fault.Named("distance out of place", outOfPlace), fault.Named("lean", lean)}
	if err := fail.Within(distances...); err != nil {
		return units.Length{}, err
	}
	if outOfPlace.Sign() < 0 {
		return units.Length{}, fail.OutOfRange("distance out of place", outOfPlace, "zero or more")
	}
	if lean.Sign() < 0 {
		return units.Length{}, fail.OutOfRange("lean", lean, "zero or more")
	}
	return stud.Add(outOfPlace.Add(lean).Scale(2)), nil
}

// Zones are the diameters of the zones that the centres of holes may lie in.
type Zones struct {
	Floating units.Length // of each part, when both have clearance holes for a loose bolt
	Fixed    units.Length // of each part, when one of them holds the stud: the clearance shared equally
	Refs     source.Refs
}

var fixedAndFloating = source.Ref{
	Kind: source.Published, Title: "Tip on floating and fixed features, quoting ASME Y14.5M-1994", Edition: "tip 110",
	Locator: "fixed features",
}

// PositionZones returns the position tolerances with which parts go together whose
// smallest hole and largest fastener are given.
//
//	floating  T = H - F
//	fixed     T1 + T2 = H - F, here T1 = T2 = (H - F)/2
//
//	T  diameter of the zone of a part; the centre may be out by half of it in any direction
//	H  diameter of the smallest hole
//	F  diameter of the largest fastener, above zero and up to H
//
// The fixed case takes a tapped hole square to the face, or a projected zone; both
// take the datums of the two parts as lying on each other.
//
// Sources: ASME Y14.5M-1994 as a tip on floating and fixed features quotes it, tip
// 110; ASME Y14.5-2009, appendix B, by way of a textbook on geometric dimensioning
// and tolerancing (2021, p. 308). See the example.
func PositionZones(hole, fastener units.Length) (Zones, error) {
	err := cmp.Or(fail.Above(fault.Named("fastener diameter", fastener)), fail.Within(fault.Named("hole diameter", hole)))
	if err != nil {
		return Zones{}, err
	}
	clearance := hole.Sub(fastener) // ASME Y14.5-2009, appendix B
	if clearance.Sign() < 0 {
		return Zones{}, fail.OutOfRange("hole diameter", hole, "the fastener's diameter, "+fastener.String()+", or more")
	}
	return Zones{Floating: clearance, Fixed: clearance.Scale(0.5), Refs: source.Shared(&fixedAndFloating)}, nil
}
