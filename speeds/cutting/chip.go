package cutting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// GreatestChip returns the thickness of the chip where a milling cutter leaves
// it thickest, when the cut is narrower than half the cutter:
//
//	h = 2 * fz * sqrt(q * (1 - q))
//
//	fz  feed per tooth
//	q   w/d, up to 1/2; beyond it h = fz
//	w   width of cut across the feed, up to d
//	d   the cutter
//
// Geometry. See the Example.
func GreatestChip(perTooth, width, diameter units.Length) (units.Length, error) {
	q, err := engagement(perTooth, width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	if q > 0.5 {
		q = 0.5
	}
	return perTooth.Scale(2 * math.Sqrt(q*(1-q))), nil // h = 2 fz sqrt(q (1 - q))
}

// MeanChip returns the mean thickness of the chip by the rule of milling
// catalogues, which holds for narrow cuts:
//
//	hm = fz * sqrt(w/d)
//
// Beyond half the cutter wide it is the feed times sqrt(1/2), and says little.
// Symbols and limits as for [GreatestChip]; see its Example.
func MeanChip(perTooth, width, diameter units.Length) (units.Length, error) {
	q, err := engagement(perTooth, width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	return perTooth.Scale(math.Sqrt(min(q, 0.5))), nil // hm = fz sqrt(w/d)
}

// FeedForChip returns the feed per tooth that makes the thickest chip a wanted
// one, so that a narrow cut does not rub: the inverse of [GreatestChip]. Limits
// as for [GreatestChip]; see its Example.
func FeedForChip(chip, width, diameter units.Length) (units.Length, error) {
	unit, err := GreatestChip(units.MM(1), width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	if err := fail.Above(fault.Named("chip", chip)); err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(chip.MM() / unit.MM())
}

func engagement(perTooth, width, diameter units.Length) (float64, error) {
	if err := fail.Above(fault.Named("feed per tooth", perTooth), fault.Named("width of cut", width), fault.Named("cutter", diameter)); err != nil {
		return 0, err
	}
	if width.Cmp(diameter) > 0 {
		return 0, fail.Wrong("width of cut", width, "wider than the cutter", "up to "+diameter.String())
	}
	return width.Ratio(diameter), nil
}

// ChipThickness returns the thickness of the chip square to an edge that is
// set over:
//
//	h = f * sin(k)
//
//	f  feed per turn or tooth
//	k  angle between the edge and the feed, above 0 up to 90 degrees (a square shoulder)
//
// Geometry. See the Example.
func ChipThickness(feed units.Length, approach units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("feed", feed)); err != nil {
		return units.Length{}, err
	}
	if !(approach > 0 && approach <= 90*units.Degree) {
		return units.Length{}, fail.OutOfRange("angle of the edge", approach, "above 0 up to 90 degrees")
	}
	return feed.Scale(math.Sin(approach.Radians())), nil // h = f sin k
}
