package cutting

import (
	"math"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// GreatestChip returns the thickness of the chip where a milling cutter leaves
// it thickest, when the cut is narrower than half the cutter:
//
//	h = 2 fz sqrt(q (1 - q)), q = w/d up to 1/2;  h = fz beyond
//
// fz is the feed per tooth, w the width of cut across the feed, d the cutter.
// Geometry, for cuts up to the whole width of the cutter. A wider one, and
// lengths that are not above zero, are an [*units.ArgumentError].
func GreatestChip(perTooth, width, diameter units.Length) (units.Length, error) {
	q, err := engagement(perTooth, width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	if q > 0.5 {
		q = 0.5
	}
	return perTooth.Scale(2 * math.Sqrt(q*(1-q))), nil
}

// MeanChip returns the mean thickness of the chip by the rule of milling
// catalogues, which holds for narrow cuts:
//
//	hm = fz sqrt(w/d)
//
// Beyond half the cutter wide it is the feed times sqrt(1/2), and says little.
// Limits as for [GreatestChip].
func MeanChip(perTooth, width, diameter units.Length) (units.Length, error) {
	q, err := engagement(perTooth, width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	return perTooth.Scale(math.Sqrt(min(q, 0.5))), nil
}

// FeedForChip returns the feed per tooth that makes the thickest chip a wanted
// one, so that a narrow cut does not rub: the inverse of [GreatestChip]. Limits
// as for [GreatestChip].
func FeedForChip(chip, width, diameter units.Length) (units.Length, error) {
	unit, err := GreatestChip(units.MM(1), width, diameter)
	if err != nil {
		return units.Length{}, err
	}
	if err := above(arg.Named("chip", chip)); err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(chip.MM() / unit.MM())
}

func engagement(perTooth, width, diameter units.Length) (float64, error) {
	if err := above(arg.Named("feed per tooth", perTooth), arg.Named("width of cut", width), arg.Named("cutter", diameter)); err != nil {
		return 0, err
	}
	if width.Cmp(diameter) > 0 {
		return 0, bad("width of cut", width.String(), "wider than the cutter", "up to "+diameter.String(), units.ErrOutOfRange)
	}
	return width.Ratio(diameter), nil
}

// ChipThickness returns the thickness of the chip square to an edge that is
// set over:
//
//	h = f sin k
//
// f is the feed per turn or tooth, k the angle between the edge and the feed
// (90 degrees for a square shoulder). Geometry. An angle outside above 0 up to
// 90 degrees and a feed that is not above zero are an [*units.ArgumentError].
func ChipThickness(feed units.Length, approach units.Angle) (units.Length, error) {
	if err := above(arg.Named("feed", feed)); err != nil {
		return units.Length{}, err
	}
	if !(approach > 0 && approach <= 90*units.Degree) {
		return units.Length{}, bad("angle of the edge", approach.String(), "", "above 0 up to 90 degrees", units.ErrOutOfRange)
	}
	return feed.Scale(math.Sin(approach.Radians())), nil
}
