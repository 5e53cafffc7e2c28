package screwcut

import (
	"cmp"
	"math"
	"slices"
)

// A Translation is a pair of wheels that turns inches into millimetres, or
// nearly: with the driver over the driven wheel in the train, and a wheel or a
// factor of 20, one thread to the inch of the leadscrew becomes a millimetre.
type Translation struct {
	Driver, Driven int
	Error          float64 // share by which the lead comes out too long; 0 for 100/127
}

// Translations returns the pairs of wheels of up to so many teeth (20 to 400)
// that stand for 100/127 within a share of error, closest first. It shows that
// nothing exact does without a multiple of 127, and what comes near: 63/80 is
// 0.0125 % long, 37/47 0.0213 % short. Each ratio is given once, in its lowest
// terms; multiply both wheels alike to reach wheels there are.
func Translations(largest int, within float64) ([]Translation, error) {
	if largest < 20 || largest > mostTeeth {
		return nil, fail.OutOfRange("teeth of the largest wheel", largest, "20 to 400")
	}
	if !(within >= 0 && within <= 0.05) {
		return nil, fail.OutOfRange("share of error", within, "0 to 0.05, which is 5 %")
	}
	var pairs []Translation
	for driven := 1; driven <= largest; driven++ {
		middle := driven * 100 / 127
		reach := int(float64(driven)*within) + 1
		for driver := max(1, middle-reach); driver <= min(driven, middle+reach); driver++ {
			off := float64(127*driver-100*driven) / float64(100*driven)
			if math.Abs(off) <= within && gcd(driver, driven) == 1 {
				pairs = append(pairs, Translation{driver, driven, off})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b Translation) int {
		return cmp.Or(cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)), cmp.Compare(a.Driven, b.Driven))
	})
	return pairs, nil
}
