package pages

import "testing"

// A figure that is printed has no exponent, however large or small.
func TestFigures(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		n    int
		want string
	}{
		{59.16666, 4, "59.17"}, {4774.648, 4, "4775"}, {97020.9, 4, "97021"}, {30, 3, "30"}, {0.2362, 4, "0.2362"},
		{98.425, 3, "98.4"}, {250.2, 2, "250"}, {0.0000123456, 3, "0.0000123"}, {0.00001, 3, "0.00001"}, {-1234.5, 2, "-1234"}, {0, 3, "0"},
	} {
		if got := figures(tt.v, tt.n); got != tt.want {
			t.Errorf("figures(%v, %d) = %s, want %s", tt.v, tt.n, got, tt.want)
		}
	}
}
