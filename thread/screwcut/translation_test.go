package screwcut

import (
	"math"
	"testing"
)

func TestTranslations(t *testing.T) {
	pairs, err := Translations(127, 0.0003)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []Translation{{100, 127, 0}, {63, 80, 0.000125}, {37, 47, -1.0 / 4700}} {
		if !contains(pairs, want) {
			t.Errorf("translation %d/%d, error %g, is not among %v", want.Driver, want.Driven, want.Error, pairs)
		}
	}
	if pairs[0].Error != 0 || pairs[0].Driven != 127 {
		t.Errorf("the first is %v, want 100/127", pairs[0])
	}
	// All there are, by every pair of wheels.
	all := 0
	for driven := 1; driven <= 127; driven++ {
		for driver := 1; driver <= 127; driver++ {
			lowest := true
			for d := 2; d <= driver && lowest; d++ {
				lowest = driver%d != 0 || driven%d != 0
			}
			if lowest && math.Abs(1.27*float64(driver)/float64(driven)-1) <= 0.0003 {
				all++
			}
		}
	}
	if len(pairs) != all {
		t.Errorf("%d pairs, there are %d", len(pairs), all)
	}
	for _, p := range pairs {
		if got := float64(p.Driver)/float64(p.Driven)*1.27 - 1; math.Abs(got-p.Error) > 1e-12 {
			t.Errorf("%d/%d: error %g, want %g", p.Driver, p.Driven, p.Error, got)
		}
	}
}

func contains(pairs []Translation, w Translation) bool {
	for _, p := range pairs {
		if p.Driver == w.Driver && p.Driven == w.Driven && math.Abs(p.Error-w.Error) < 1e-12 {
			return true
		}
	}
	return false
}
