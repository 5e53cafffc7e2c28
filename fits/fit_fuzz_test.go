package fits_test

import (
	"testing"

	"github.com/valvechest/valvechest/fits"
)

// A fit that is read is printed so that it reads back.
func FuzzParseFit(f *testing.F) {
	for _, text := range []string{"H7/g6", "h7-G6", "P7/h6", "H8 / js7", "10H7/f7", "x"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		fit, err := fits.ParseFit(text)
		if err != nil {
			return
		}
		if back, err := fits.ParseFit(fit.String()); err != nil || back != fit {
			t.Fatalf("%q is %v, which is %v, %v", text, fit, back, err)
		}
	})
}
