package hole_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
)

// M3 through a cover with holes of 3.4 mm.
func ExampleSpotThrough() {
	s, err := hole.SpotThrough(units.MM(3.4), units.MM(2.5), 0)
	fmt.Println("spot with", s.Transfer, "until its point is", s.Tip.Text(units.Millimetres, 2), "deep, then drill", s.Tapping, err)
	// Output: spot with 3.4 mm until its point is 0.75 mm deep, then drill 2.5 mm <nil>
}

// A cone with its point so deep is as wide at the surface as the drill that follows: by
// its area, which a drill of 118 degrees has in a cut through its axis.
func TestSpotThrough(t *testing.T) {
	for _, point := range []float64{0, 60, 90, 118, 135, 179} {
		s, err := hole.SpotThrough(units.MM(5.5), units.MM(4.2), units.Angle(point)*units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		angle := point
		if angle == 0 {
			angle = 118
		}
		// Two sides from the tip that stand at the angle, to the surface: the law of cosines.
		side := s.Tip.MM() / math.Cos(angle/2*math.Pi/180)
		wide := math.Sqrt(2 * side * side * (1 - math.Cos(angle*math.Pi/180)))
		if math.Abs(wide-4.2) > 1e-6 || s.Most.Cmp(s.Tip) <= 0 || math.Abs(s.Most.Ratio(s.Tip)-5.5/4.2) > 1e-6 {
			t.Errorf("%v degrees: %v, %.4f wide", point, s, wide)
		}
	}
	for name, tt := range map[string]struct{ clearance, tapping, point float64 }{
		"no hole": {0, 2.5, 0}, "no drill": {3.4, 0, 0}, "wide drill": {3.4, 3.4, 0}, "large": {101, 4, 0}, "point": {3.4, 2.5, 59},
		"flat": {3.4, 2.5, 180},
	} {
		_, err := hole.SpotThrough(units.MM(tt.clearance), units.MM(tt.tapping), units.Angle(tt.point)*units.Degree)
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
}
