package cover

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestWalls(t *testing.T) {
	f := check.Open(t, "gasket/cover/cylinder.csv")
	for r := range f.Rows() {
		bore, p := units.MM(r.Float("bore")), units.Pressure(r.Float("inside"))*units.Megapascal
		quantity := r.Text("quantity")
		if name, stress, ok := strings.Cut(quantity, " wall for "); ok {
			var s float64
			fmt.Sscan(stress, &s)
			w, err := Wall{Bore: bore}.Solve(p, units.Pressure(s)*units.Megapascal)
			if err != nil {
				t.Fatal(err)
			}
			r.Within("value", map[string]units.Length{"thin": w.Thin, "barlow": w.Barlow, "lame": w.Lame}[name].MM(), r.Float("tolerance"))
			continue
		}
		w := Wall{bore, units.MM(r.Float("wall"))}
		if r.Has("radius") {
			l, err := w.Lame(p, units.Pressure(r.Float("outside"))*units.Megapascal, units.MM(r.Float("radius")))
			if err != nil {
				t.Fatal(err)
			}
			v := l.Hoop
			if quantity == "long" {
				v = l.Longitudinal
			}
			r.Within("value", v.In(units.Megapascal), r.Float("tolerance"))
			continue
		}
		h, err := w.Hoop(p)
		if err != nil {
			t.Fatal(err)
		}
		v, ok := map[string]units.Pressure{"thin": h.Thin, "barlow": h.Barlow, "lame": h.Lame, "longitudinal": h.Longitudinal}[quantity]
		if !ok {
			t.Fatalf("%s: quantity %q", r.ID, quantity)
		}
		r.Within("value", v.In(units.Megapascal), r.Float("tolerance"))
	}
}

// Thin is below Lamé at the bore and Barlow above it; the radial stress is the
// pressure at each face; each wall gives its stress back.
func TestWallProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Wall{units.MM(rapid.Float64Range(2, 200).Draw(t, "bore")), units.MM(rapid.Float64Range(0.5, 50).Draw(t, "wall"))}
		p := units.Pressure(rapid.Float64Range(0.01, 20).Draw(t, "p")) * units.Megapascal
		h, err := w.Hoop(p)
		if err != nil {
			t.Fatal(err)
		}
		if !(h.Thin < h.Lame && h.Lame < h.Barlow) {
			t.Fatalf("%+v", h)
		}
		for _, face := range []struct {
			radius units.Length
			want   units.Pressure
		}{{w.Bore.Scale(0.5), -p}, {w.Bore.Scale(0.5).Add(w.Thickness), 0}} {
			l, err := w.Lame(p, 0, face.radius)
			if err != nil || math.Abs(float64(l.Radial-face.want)) > 1e-6*float64(p) {
				t.Fatalf("radial %v, want %v (%v)", l.Radial, face.want, err)
			}
		}
		s := p * units.Pressure(rapid.Float64Range(1.1, 50).Draw(t, "ratio"))
		walls, err := w.Solve(p, s)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []struct {
			wall   units.Length
			stress func(Hoop) units.Pressure
		}{
			{walls.Thin, func(h Hoop) units.Pressure { return h.Thin }},
			{walls.Barlow, func(h Hoop) units.Pressure { return h.Barlow }},
			{walls.Lame, func(h Hoop) units.Pressure { return h.Lame }},
		} {
			back, err := Wall{w.Bore, x.wall}.Hoop(p)
			if err != nil || math.Abs(float64(x.stress(back)/s)-1) > 1e-6 {
				t.Fatalf("%v gives %v, want %v (%v)", x.wall, x.stress(back), s, err)
			}
		}
	})
}

// Machinery's Handbook, p. 290: a tenth of the bore. Huston: a tenth of the
// radius, as a lecture note's twentieth of the bore.
func TestThinLimits(t *testing.T) {
	want := []float64{0.1, 0.05}
	limits := ThinLimits()
	if len(limits) != len(want) {
		t.Fatalf("%+v", limits)
	}
	for i, l := range limits {
		if l.Share != want[i] || l.Refs.First().Locator == "" {
			t.Errorf("%+v, want %g", l, want[i])
		}
	}
}

// In the smallest bore that there is, half of which is no length, no stress is
// "not a number".
func TestSmallestBore(t *testing.T) {
	w := Wall{units.Picometres(1), units.MM(1)}
	for _, r := range []units.Length{{}, units.Picometres(1)} {
		l, err := w.Lame(units.Bar, 0, r)
		if err != nil || !(float64(l.Hoop) >= float64(units.Bar)*0.1) || math.IsInf(float64(l.Hoop), 0) || math.IsNaN(float64(l.Radial)) {
			t.Errorf("at %v: %+v, %v", r, l, err)
		}
	}
}

func TestWallRefuses(t *testing.T) {
	second := check.Only
	wall := Wall{units.MM(25), units.MM(4)}
	nan := units.Pressure(math.NaN())
	check.Refuses(t, "absurd outside", second(wall.Lame(1, 1e13, units.MM(13))), units.ErrOutOfRange, "pressure")
	check.Refuses(t, "bore", second(Wall{units.MM(0), units.MM(1)}.Hoop(1)), units.ErrOutOfRange, "bore")
	check.Refuses(t, "wall", second(Wall{units.MM(1), units.MM(0)}.Hoop(1)), units.ErrOutOfRange, "thickness of the wall")
	check.Refuses(t, "radius", second(wall.Lame(1, 0, units.MM(30))), units.ErrOutOfRange, "in the wall, 12.5 to 16.5 mm")
	check.Refuses(t, "vacuum", second(wall.Lame(-1, 0, units.MM(13))), units.ErrOutOfRange, "pressure")
	check.Refuses(t, "not a number outside", second(wall.Lame(1, nan, units.MM(13))), units.ErrNotFinite, "pressure")
	check.Refuses(t, "no wall does", second(Wall{Bore: units.MM(25)}.Solve(2, 1)), units.ErrOutOfRange, "above the pressure")
}

// A foil of a picometre round a vessel of a kilometre has its stress, p r / t, and
// no quotient of noughts.
func TestLameOfAFoil(t *testing.T) {
	w := Wall{Bore: units.MM(1e6), Thickness: units.Picometres(1)}
	l, err := w.Lame(units.Bar, 0, units.MM(5e5))
	want := 1e5 * 500 / 1e-12
	if err != nil || math.Abs(float64(l.Hoop)/want-1) > 1e-9 || math.IsNaN(float64(l.Radial)) || math.IsInf(float64(l.Longitudinal), 0) {
		t.Errorf("%+v, %v; want %g", l, err, want)
	}
}
