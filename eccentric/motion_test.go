package eccentric

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/diff/fd"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestPublishedPistonMotion(t *testing.T) {
	for r := range check.Open(t, "eccentric/piston.csv").Rows() {
		n := r.Float("rod_m") / r.Float("crank_m")
		g := demo()
		g.Stroke, g.ConnectingRod = units.MM(2000*r.Float("crank_m")), RodOf(units.MM(1000*r.Float("rod_m")))
		omega := r.Float("rev_per_min") * math.Pi / 30
		at := func(t0 float64) float64 { // metres
			s, err := g.PistonPosition(units.Angle(t0))
			if err != nil {
				t.Fatal(err)
			}
			return s.Metres()
		}
		speed := func(a float64) float64 {
			return omega * fd.Derivative(at, a, &fd.Settings{Formula: fd.Central, Step: 1e-3})
		}
		acceleration := func(a float64) float64 {
			return omega * omega * fd.Derivative(at, a, &fd.Settings{Formula: fd.Central2nd, Step: 1e-3})
		}
		// The source stops after 1/n in cos t + (1/n + 1/4n^3) cos 2t - 1/4n^3 cos 4t + ...
		rest := 1 / (4 * n * n * n)
		scale := r.Float("crank_m") * omega
		half := check.HalfLastPlace(r.Text("printed"))
		switch r.Text("quantity") {
		case "speed":
			r.Within("printed", speed(r.Float("angle")*math.Pi/180), half+scale*rest)
		case "acceleration":
			r.Within("printed", acceleration(r.Float("angle")*math.Pi/180), half+2*scale*omega*rest)
		default: // both are where the acceleration is zero
			low, high := 0.5, 2.0
			for range 50 {
				if mid := (low + high) / 2; acceleration(mid) > 0 {
					low = mid
				} else {
					high = mid
				}
			}
			r.Within("printed", low*180/math.Pi, half+2*rest*180/math.Pi)
		}
	}
}

// With a rod of six cranks the piston is half way at 85.22 degrees and 4.20 per
// cent past it at 90; a cut-off of 75 per cent at the head end comes at 115.58.
func TestRodSlant(t *testing.T) {
	g := demo()
	g.Stroke, g.ConnectingRod = units.MM(20), RodOf(units.MM(60))
	for share, want := range map[float64]float64{0.5: 85.22, 0.75: 115.58} {
		at, err := g.CrankAt(share)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("crank at %v", share), at.Degrees(), want, 0.005)
	}
	s, err := g.PistonPosition(90 * units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "past half way", 100*s.Ratio(g.Stroke)-50, 4.20, 0.005)
	// The lap for it, with no lead: S/r = sin(advance), cut-off at 180 - 2 advance.
	near(t, "S/r", math.Sin((180-115.58)/2*math.Pi/180), 0.533, 0.0005)
}

// Two cranks at right angles start from anywhere if neither end cuts off before
// 90 degrees; as a share of the stroke that is more at the head end than at the
// crank end.
func TestCutOffAtNinety(t *testing.T) {
	for n, want := range map[float64]float64{4: 56.4, 5: 55.1, 6: 54.2} {
		g := demo()
		g.Stroke, g.ConnectingRod = units.MM(20), RodOf(units.MM(10*n))
		s, err := g.PistonPosition(90 * units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "head end", 100*s.Ratio(g.Stroke), want, 0.05)
		if n == 5 {
			kick, err := g.PistonPosition(50 * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "piston after 50 degrees", 100*kick.Ratio(g.Stroke), 20.8, 0.05)
		}
	}
}

// What the valve stands at with the crank on dead centre tells what is wrong
// with the setting: r = 3, S = 1 and a lead of 0.2 want 1.2 mm.
func TestReadingsAtDeadCentre(t *testing.T) {
	right := simple(units.MM(6), units.MM(1), units.Length{}, units.MM(2), 0)
	right = withLead(t, right, units.MM(0.2))
	near(t, "advance", right.Advance.Degrees(), 23.6, 0.05)
	for _, test := range []struct {
		fault   string
		advance units.Angle
		want    float64
	}{
		{"right", right.Advance, 1.2},
		{"short by twice the advance", -right.Advance, -1.2},
		{"in line with the crank", 90 * units.Degree, 3},
		{"in line the other way", -90 * units.Degree, -3},
		{"no advance", 0, 0},
	} {
		g := right
		g.Advance = test.advance
		x, err := g.Displacement(0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, test.fault, x.MM(), test.want, 1e-6)
	}
}

// A crank angle that is none is refused, whatever kind of none it is.
func TestCrankAngleMustBeFinite(t *testing.T) {
	g := demo()
	for _, crank := range []units.Angle{units.Angle(math.NaN()), units.Angle(math.Inf(1)), units.Angle(math.Inf(-1))} {
		_, displacement := g.Displacement(crank)
		_, position := g.PistonPosition(crank)
		_, openings := g.OpeningsAt(crank)
		for name, err := range map[string]error{"displacement": displacement, "position": position, "openings": openings} {
			if !errors.Is(err, units.ErrNotFinite) || !strings.Contains(err.Error(), "crank angle") {
				t.Errorf("%s at %v: %v", name, float64(crank), err)
			}
		}
	}
}
