package sheet

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// TestDimension checks where the arrowheads stand and how the text is turned.
func TestDimension(t *testing.T) {
	tests := []struct {
		name     string
		m        Dimension
		outside  bool // the arrowheads point inwards from outside
		rotation float64
	}{
		{"across", Dimension{From: Point{0, 0}, To: Point{30, 5}, Through: Point{0, -10}, Value: "30"}, false, 0},
		{"up, read from the right", Dimension{From: Point{0, 0}, To: Point{0, 40}, Angle: 90 * units.Degree, Through: Point{-10, 0}, Value: "40"}, false, 90},
		{"down is up", Dimension{From: Point{0, 40}, To: Point{0, 0}, Angle: -90 * units.Degree, Through: Point{-10, 0}, Value: "40"}, false, 90},
		{"narrow", Dimension{From: Point{0, 0}, To: Point{2, 0}, Through: Point{0, -10}, Value: "2"}, true, 0},
		{"text wider than the distance", Dimension{From: Point{0, 0}, To: Point{7, 0}, Through: Point{0, -10}, Value: "7.0625"}, true, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := New(100, 100)
			d.Dimension(thick, tt.m)
			var tips, tails []Point
			var text Text
			for _, s := range d.shapes {
				switch f := s.form.(type) {
				case fill:
					tips = append(tips, f.corners[0])
					tails = append(tails, f.corners[1].toward(f.corners[2], 0.5))
				case Text:
					text = f
				}
			}
			if len(tips) != 2 {
				t.Fatalf("%d arrowheads", len(tips))
			}
			inside := tails[0].sub(tails[1]).abs() < tips[0].sub(tips[1]).abs()
			if inside == tt.outside {
				t.Errorf("arrowheads from %v to %v", tails, tips)
			}
			if math.Abs(text.Rotation.Degrees()-tt.rotation) > 1e-9 {
				t.Errorf("text turned by %v", text.Rotation)
			}
		})
	}
}
