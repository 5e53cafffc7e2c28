package kernel

import (
	"math"
	"testing"
)

// The root of functions whose roots are known, to the last digits; and none where the
// ends have one sign, or the function is no number.
func TestRoot(t *testing.T) {
	for _, test := range []struct {
		name       string
		f          func(float64) float64
		a, b, want float64
	}{
		{"square", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{"square from above", func(x float64) float64 { return 2 - x*x }, 2, 0, math.Sqrt2},
		{"cube that is flat there", func(x float64) float64 { return x * x * x }, -1, 2, 0},
		{"cosine", math.Cos, 0, 3, math.Pi / 2},
		{"at the first end", func(x float64) float64 { return x - 1 }, 1, 2, 1},
		{"at the second end", func(x float64) float64 { return x - 2 }, 1, 2, 2},
		{"steep", func(x float64) float64 { return math.Exp(20*x) - 5 }, -1, 1, math.Log(5) / 20},
		{"a step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
	} {
		calls := 0
		got, ok := root(func(x float64) float64 { calls++; return test.f(x) }, test.a, test.b)
		tolerance := 4e-16
		if test.want == 0 { // a triple root
			tolerance = 1e-15
		}
		if !ok || math.Abs(got-test.want) > tolerance || calls > 130 {
			t.Errorf("%s: %v %v in %d calls, want %v", test.name, got, ok, calls, test.want)
		}
	}
	for name, f := range map[string]func(float64) float64{
		"above": func(x float64) float64 { return 1 + x*x }, "no number": func(float64) float64 { return math.NaN() },
		"no number between": func(x float64) float64 { return x / math.Abs(math.Trunc(x)) },
	} {
		if got, ok := root(f, -1.5, 2.5); ok {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Most roots are found in far fewer steps than halving takes, which is what the
// inverse quadratic steps are for: 53 halvings to the last digit of a square root.
func TestRootIsQuick(t *testing.T) {
	for of := 2.0; of < 50; of++ {
		calls := 0
		got, ok := root(func(x float64) float64 { calls++; return x*x - of }, 0, of)
		if !ok || math.Abs(got-math.Sqrt(of)) > 2e-15 || calls > 20 {
			t.Errorf("root of %v: %v %v in %d calls", of, got, ok, calls)
		}
	}
}
