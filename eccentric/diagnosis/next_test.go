package diagnosis

import (
	"math"
	"testing"
)

// What a reading tells is nothing where all cures foresee the same, the whole question
// where each foresees another figure, and what is known of the binary channel and of
// two normal distributions between.
func TestInformation(t *testing.T) {
	one, other := cure{turned: 1}, cure{turned: 2}
	for _, test := range []struct {
		name string
		all  []forecast
		turn float64
		want float64
	}{
		{"the same", []forecast{{0.5, one, value, 2, 0.1}, {0.5, other, value, 2, 0.1}}, 0, 0},
		{"one cure", []forecast{{0.5, one, value, 2, 0.1}, {0.5, one, value, 3, 0.1}}, 0, 0},
		{"far apart", []forecast{{0.5, one, value, 2, 0.1}, {0.5, other, value, 4, 0.1}}, 0, 1},
		{"three to one", []forecast{{0.75, one, value, 2, 0.1}, {0.25, other, value, 4, 0.1}}, 0, 0.8113},
		{"a turn apart", []forecast{{0.5, one, value, 0, 0.1}, {0.5, other, value, 2 * math.Pi, 0.1}}, 2 * math.Pi, 0},
		{"seen or not", []forecast{{0.5, one, steam, 0, 0}, {0.5, other, exhaust, 0, 0}}, 0, 1},
		// 1 - H(0.11), the channel that is wrong 11 times in 100.
		{"mostly seen", []forecast{{0.445, one, steam, 0, 0}, {0.055, one, exhaust, 0, 0},
			{0.055, other, steam, 0, 0}, {0.445, other, exhaust, 0, 0}}, 0, 0.5001},
		// Antipodal signalling at amplitude over noise of 1: by quadrature, 0.4859 bits.
		{"two apart", []forecast{{0.5, one, value, -1, 1}, {0.5, other, value, 1, 1}}, 0, 0.4859},
	} {
		if got := information(test.all, test.turn); !(math.Abs(got-test.want) <= 0.01) {
			t.Errorf("%s: %.4f bits, want %.4f", test.name, got, test.want)
		}
	}
}
