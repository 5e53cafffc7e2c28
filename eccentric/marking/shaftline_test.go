package marking

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Lineham's table of sines, on a shaft of two metres, with its misprints.
func TestLinehamSines(t *testing.T) {
	sine := func(degrees float64) float64 {
		h, err := LineHeight(units.MM(2000), units.Angle(degrees)*units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		return h.Metres()
	}
	f := check.Open(t, "eccentric/marking/sines.csv")
	for r := range f.Rows() {
		r.Compare("sine", sine(r.Float("angle_deg")))
	}
	check.Errata(t, "eccentric/marking", map[string]float64{"lineham-sine-13": sine(13), "lineham-sine-32": sine(32)})
}

func TestLineHeightRefused(t *testing.T) {
	_, err := LineHeight(units.Length{}, 0)
	check.Refuses(t, "no shaft", err, units.ErrOutOfRange, "diameter of the shaft")
	_, err = LineHeight(units.MM(6), 91*units.Degree)
	check.Refuses(t, "beyond", err, units.ErrOutOfRange, "-90 to 90")
}
