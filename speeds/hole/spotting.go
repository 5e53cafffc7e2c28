package hole

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Spotting carries holes over from a cover to the part below, drill by drill.
type Spotting struct {
	Transfer units.Length // drill or punch that just passes the holes of the cover: it makes a spot and no more
	Tip      units.Length // how deep its point goes into the part below for a spot as wide as the tapping drill
	Most     units.Length // at which its full diameter begins to cut: never
	Tapping  units.Length // the drill that follows in the spot, with the cover off
	Refs     source.Refs
}

// SpotThrough returns how the tapped holes of a part are spotted through the clearance
// holes of its cover:
//
//	tip  = tapping / (2 * tan(point/2))
//	most = transfer / (2 * tan(point/2))
//
//	tapping, transfer  tapping drill, and the clearance drill that spots
//	point              of the transfer drill, 118 degrees where it is zero
//
// A spot that is wider than the tapping drill leaves a countersink larger than the
// thread, which a joint may have; one that goes beyond most is a hole that the thread
// does not fill. The point is from 60 to below 180 degrees, the tapping drill smaller
// than the clearance hole, up to 100 mm. Geometry; the order is common practice. See the
// Example.
func SpotThrough(clearance, tapping units.Length, point units.Angle) (Spotting, error) {
	if err := fail.Above(fault.Named("clearance hole", clearance), fault.Named("tapping drill", tapping)); err != nil {
		return Spotting{}, err
	}
	if point == 0 {
		point = 118 * units.Degree
	}
	switch {
	case tapping.Cmp(clearance) >= 0 || clearance.Cmp(units.MM(100)) > 0:
		return Spotting{}, fail.OutOfRange("tapping drill", tapping, "smaller than the clearance hole, which is up to 100 mm")
	case !(point >= 60*units.Degree && point < 180*units.Degree):
		return Spotting{}, fail.OutOfRange("point of the drill", point, "from 60 to below 180 degrees")
	}
	slope := 1 / (2 * math.Tan(point.Radians()/2))
	return Spotting{
		Transfer: clearance, Tip: tapping.Scale(slope), Most: clearance.Scale(slope), Tapping: tapping,
		Refs: source.Of(source.Ref{Kind: source.CommonPractice, Note: "spot through the cover with the drill that passes it, then the tapping drill, then the tap"}),
	}, nil
}
