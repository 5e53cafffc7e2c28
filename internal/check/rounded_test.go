package check

import "testing"

func TestRounded(t *testing.T) {
	const text = "6.628067461 mm, -0.000123456789, 12, 1234567, 1.5, 100.0000001, 0.000000001 mm, 1.23456789e-05, -9999999.5"
	const want = "6.62807 mm, -0.000123457, 12, 1234567, 1.5, 100, 0.000000001 mm, 1.23457e-05, -1e+07"
	if got := Rounded(text); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
