package steam_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units/steam"
)

// The verification values have nine digits of the fourteen that a coefficient has, and a
// term that is small in them shows fewer: here the tables are held digit by digit to
// what two other libraries read in the release. All are there, in order.
func TestCoefficients(t *testing.T) {
	rows := map[string]int{}
	for _, r := range check.Given(t, "units/steam/coefficients.csv") {
		table := r.Text("table")
		own := steam.Coefficients(table)
		if rows[table] >= len(own) {
			t.Errorf("%s: table %s has no such row", r.ID, table)
			continue
		}
		want := [3]float64{2: r.Float("n")}
		if r.Has("i") {
			want[0], want[1] = r.Float("i"), r.Float("j")
		}
		if got := own[rows[table]]; got != want {
			t.Errorf("%s: %v, the release has %v", r.ID, got, want)
		}
		rows[table]++
	}
	for _, table := range []string{"2", "6", "8", "10", "11", "19", "20", "21", "22", "25", "26", "27", "34"} {
		if own := steam.Coefficients(table); rows[table] != len(own) || len(own) == 0 {
			t.Errorf("table %s: %d rows, the release has %d", table, len(own), rows[table])
		}
	}
}

// Where the subregions meet the backward equations agree to their 25 mK and no better:
// the step tells on which side of the border each lies. Section 6.3: 2a up to 4 MPa,
// 2b below 5.85 kJ/(kg K) no more, and equation 20, which has 100 MPa at 3516.004323 kJ/kg.
func TestBorders(t *testing.T) {
	for _, test := range []struct {
		name string
		by   func(p, value float64) float64
		p, v float64
		dp   float64 // a step in the pressure
		dv   float64 // or in the entropy
		up   bool    // the border itself belongs to what lies above
	}{
		{"2a by enthalpy", steam.SteamByEnthalpy, 4, 3200, 1e-9, 0, false},
		{"2a by entropy", steam.SteamByEntropy, 4, 6.5, 1e-9, 0, false},
		{"2b by enthalpy", steam.SteamByEnthalpy, 100, 3516.004323, 1e-6, 0, false},
		{"2b by entropy", steam.SteamByEntropy, 20, 5.85, 0, 1e-9, true},
	} {
		at := func(k float64) float64 { return test.by(test.p+k*test.dp, test.v+k*test.dv) }
		from, to := 0.0, 1.0
		switch {
		case test.up:
			from, to = -1, 0
		case test.dp == 1e-6: // equation 20 is printed to 1e-7 MPa
			from = -1
		}
		across, below, above := math.Abs(at(to)-at(from)), math.Abs(at(from)-at(from-1)), math.Abs(at(to+1)-at(to))
		if !(across > 5*below && across > 5*above && across < 0.025) {
			t.Errorf("%s: the step at the border is %.3g K, below it %.3g K, above it %.3g K", test.name, across, below, above)
		}
	}
}
