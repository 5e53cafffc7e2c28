package seal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A ring 111 (0.424 x 0.103 in) on a piston of 5/8 in, dynamic, by hand: bottom
// 0.625 - 2 (0.087 to 0.090) = 0.445 to 0.451 in, stretch 0.448/0.424 - 1 =
// 5.66 percent; ring 112 (0.487) is 8.0 percent too large. A ring 108 in a gland
// round a 1/4 in rod: bottom 0.424 to 0.430, stretch 0.250/0.237 - 1 = 5.5.
func TestSeatByHand(t *testing.T) {
	ring, err := LookupRing("111")
	if err != nil {
		t.Fatal(err)
	}
	s, err := ring.OnPiston(units.Inch(0.625), Dynamic)
	if err != nil {
		t.Fatal(err)
	}
	if s.DiameterMin != units.Inch(0.445) || s.DiameterMax != units.Inch(0.451) || math.Abs(s.Stretch-0.0566) > 0.00005 {
		t.Errorf("%+v", s)
	}
	// The thinnest ring, 0.419 x 0.100 in, goes round 0.445 in; t^2 (0.445 + t) =
	// 0.1^2 (0.419 + 0.1) has t = 0.09778. The thickest, 0.429 x 0.106 in, goes round
	// 0.451 in: 0.10407.
	if math.Abs(s.SqueezeMin-(1-0.090/0.09778)) > 1e-4 || math.Abs(s.SqueezeMax-(1-0.087/0.10407)) > 1e-4 {
		t.Errorf("squeeze %g to %g", s.SqueezeMin, s.SqueezeMax)
	}
	if want := math.Pi / 4 * 0.10407 * 0.10407 / (0.087 * 0.140); math.Abs(s.FillMax-want) > 1e-4 {
		t.Errorf("fill %g, want %g", s.FillMax, want)
	}
	if len(s.Findings) != 1 || !strings.Contains(s.Findings[0].Text, "stretched by 5.7 percent") || s.Findings[0].Refs.First().Kind != source.Published {
		t.Errorf("findings %+v", s.Findings)
	}
	larger, err := LookupRing("112")
	if err != nil {
		t.Fatal(err)
	}
	if s, err := larger.OnPiston(units.Inch(0.625), Dynamic); err != nil || math.Abs(s.Stretch+0.0801) > 0.0001 || !strings.Contains(fmt.Sprint(s.Findings), "may be pinched") {
		t.Errorf("%+v, %v", s, err)
	}
	gland, err := LookupRing("108")
	if err != nil {
		t.Fatal(err)
	}
	s, err = gland.InGland(units.Inch(0.25), Dynamic)
	if err != nil || s.DiameterMin != units.Inch(0.424) || s.DiameterMax != units.Inch(0.430) || math.Abs(s.Stretch-0.0549) > 0.0001 {
		t.Errorf("%+v, %v", s, err)
	}
	// 0.232 x 0.100 and 0.242 x 0.106 in, both round 0.250 in
	if math.Abs(s.SqueezeMin-(1-0.090/0.09771)) > 1e-4 || math.Abs(s.SqueezeMax-(1-0.087/0.10496)) > 1e-4 {
		t.Errorf("squeeze %g to %g", s.SqueezeMin, s.SqueezeMax)
	}
}

// A stretched ring keeps its volume, pi^2/4 w^2 (d + w), whatever its size.
func TestThinned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := units.MM(rapid.Float64Range(0.5, 6).Draw(t, "section"))
		d := units.MM(rapid.Float64Range(0.5, 100).Draw(t, "inside"))
		to := d.Scale(rapid.Float64Range(0.9, 2).Draw(t, "round"))
		got := thinned(w, d, to)
		if to.Cmp(d) <= 0 {
			if got != w.MM() {
				t.Fatalf("not stretched, %g of %v", got, w)
			}
			return
		}
		before, after := w.MM()*w.MM()*(d.MM()+w.MM()), got*got*(to.MM()+got)
		if math.Abs(after/before-1) > 1e-12 || got >= w.MM() {
			t.Fatalf("%v by %v round %v: %g, volume %g for %g", d, w, to, got, after, before)
		}
	})
}

// The published static groove for the smallest ring is filled to 0.7854 * 0.043^2
// over 0.027 * 0.055 in, 98 percent, and those of the next sections less; the
// moving ones all stay below their 85.
func TestFill(t *testing.T) {
	for _, test := range []struct {
		size string
		duty Duty
		fill float64
		want bool
	}{{"001", Static, 0.978, true}, {"001", Dynamic, 0.808, false}, {"003", Static, 0.873, false}, {"012", Dynamic, 0.846, false}} {
		r, err := LookupRing(test.size)
		if err != nil {
			t.Fatal(err)
		}
		s, err := r.InGland(r.Inside, test.duty)
		if err != nil || math.Abs(s.FillMax-test.fill) > 0.0005 || strings.Contains(fmt.Sprint(s.Findings), "nowhere to go") != test.want {
			t.Errorf("%s %v: %+v, %v", test.size, test.duty, s, err)
		}
	}
}

// On a piston of 3/8 in a ring 010 goes over 0.375 in from 0.239, 57 percent; a
// ring 017 on one of 20 mm over 20 from 17.17 mm, 16 percent.
func TestFittingOverThePiston(t *testing.T) {
	for _, test := range []struct {
		size string
		bore units.Length
		want string
	}{{"010", units.InchFraction(3, 8), "stretched by 57 percent"}, {"017", units.MM(20), ""}} {
		r, err := LookupRing(test.size)
		if err != nil {
			t.Fatal(err)
		}
		s, err := r.OnPiston(test.bore, Dynamic)
		text := fmt.Sprint(s.Findings)
		if err != nil || strings.Contains(text, "go over the piston") != (test.want != "") || !strings.Contains(text, test.want) {
			t.Errorf("%s: %s, %v", test.size, text, err)
		}
	}
}

func TestSeatRefuses(t *testing.T) {
	second := check.Only
	ring := Rings()[10]
	check.Refuses(t, "face on a piston", second(ring.OnPiston(units.MM(20), Face)), units.ErrOutOfRange, "face")
	check.Refuses(t, "endless bore", second(ring.OnPiston(units.Picometres(math.MaxInt64), Dynamic)), units.ErrOutOfRange, "up to 1 km")
	check.Refuses(t, "no bore", second(ring.OnPiston(units.MM(0), Dynamic)), units.ErrOutOfRange, "diameter")
	check.Refuses(t, "tiny bore", second(ring.OnPiston(units.MM(2), Dynamic)), units.ErrOutOfRange, "twice the depth")
	check.Refuses(t, "no ring", second(Ring{}.InGland(units.MM(5), Dynamic)), units.ErrOutOfRange, "inside diameter")
	check.Refuses(t, "tolerance of the inside", second(Ring{Inside: units.MM(5), Section: units.Inch(0.07), InsideTolerance: units.MM(5)}.InGland(units.MM(5), Dynamic)), units.ErrOutOfRange, "tolerances of the O-ring")
	check.Refuses(t, "tolerance below zero", second(Ring{Inside: units.MM(5), Section: units.Inch(0.07), SectionTolerance: units.MM(-1)}.OnPiston(units.MM(9), Dynamic)), units.ErrOutOfRange, "tolerances of the O-ring")
}
