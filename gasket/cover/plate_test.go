package cover

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestRoundCover(t *testing.T) {
	f := check.Open(t, "gasket/cover/plate.csv")
	for r := range f.Rows() {
		c := Round{units.MM(r.Float("diameter_mm")), units.MM(r.Float("thickness_mm")), units.Pressure(r.Float("elastic_gpa")) * units.Gigapascal, r.Float("poisson")}
		p := units.Pressure(r.Float("pressure_mpa")) * units.Megapascal
		plate, err := c.Under(p)
		if err != nil {
			t.Fatal(err)
		}
		b := plate.Supported
		if r.Text("edge") == "clamped" {
			b = plate.Clamped
		}
		r.Within("stress_mpa", b.Stress.In(units.Megapascal), r.Float("stress_tolerance"))
		if r.Has("deflection_mm") {
			r.Within("deflection_mm", b.Deflection.MM(), r.Float("deflection_tolerance"))
		}
		if b.AtCentre != (r.Text("edge") == "supported") {
			t.Errorf("%s: greatest stress at the wrong place", r.ID)
		}
	}
}

func TestRectangularCover(t *testing.T) {
	f := check.Open(t, "gasket/cover/roark.csv")
	for r := range f.Rows() {
		beta, alpha := factors(t, r.Float("long_over_short"), func(p Plate) Bending { return p.Supported })
		// a fit: 5 percent
		r.Within("beta", beta, 0.05*r.Float("beta"))
		r.Within("alpha", alpha, 0.05*r.Float("alpha"))
	}
}

// The fit for clamped plates errs on the safe side, by up to 8 percent.
func TestClampedCover(t *testing.T) {
	f := check.Open(t, "gasket/cover/clamped_plate.csv")
	for r := range f.Rows() {
		beta, alpha := factors(t, r.Float("long_over_short"), func(p Plate) Bending { return p.Clamped })
		r.Within("beta", beta, 0.083*r.Float("beta"))
		r.Within("alpha", alpha, 0.083*r.Float("alpha"))
		if beta < 0.985*r.Float("beta") || alpha < 0.985*r.Float("alpha") {
			t.Errorf("%s: beta %.4f, alpha %.5f: below the true ones", r.ID, beta, alpha)
		}
	}
}

// factors returns beta and alpha of a rectangular cover: stress = beta p a^2/t^2
// and deflection = alpha p a^4/(E t^3), a the short side.
func factors(t *testing.T, ratio float64, edge func(Plate) Bending) (beta, alpha float64) {
	t.Helper()
	const e, p = 207 * units.Gigapascal, 0.2 * units.Megapascal
	plate, err := Rectangular{Short: units.MM(100), Long: units.MM(100 * ratio), Thickness: units.MM(5), Elastic: e}.Under(p)
	if err != nil {
		t.Fatal(err)
	}
	b := edge(plate)
	return float64(b.Stress/p) * 25 / 10000, b.Deflection.MM() * float64(e/p) * 125 / 1e8
}

// A stress or deflection that a book prints as a factor, to its last place.
func TestPlateFactors(t *testing.T) {
	f := check.Open(t, "gasket/cover/plate_factors.csv")
	for r := range f.Rows() {
		const e = 100 * units.Gigapascal
		var plate Plate
		var err error
		if r.Text("shape") == "round" {
			plate, err = Round{Diameter: units.MM(20), Thickness: units.MM(1), Elastic: e, Poisson: 0.3}.Under(units.Bar)
		} else {
			plate, err = Rectangular{Short: units.MM(10), Long: units.MM(10), Thickness: units.MM(1), Elastic: e}.Under(units.Bar)
		}
		if err != nil {
			t.Fatal(err)
		}
		b := plate.Supported
		if r.Text("edge") == "clamped" {
			b = plate.Clamped
		}
		if r.Has("stress") {
			r.Compare("stress", b.Stress.In(units.Bar)/100)
		}
		r.Within("deflection", b.Deflection.MM()*e.In(units.Bar)/1e4, r.Float("deflection_tolerance"))
	}
}

// Machinery's Handbook, 31st edition, p. 289, equations (11) to (14), in its own
// letters: the whole load W = p L l, the long side L and the short side l. Its
// 0.1422 is Carvill's 0.142.
func TestRectangularCoverByTheHandbook(t *testing.T) {
	for _, ratio := range []float64{1, 1.2, 1.5, 2, 3.5} {
		const p, e, th, l = 0.5, 100e3, 3.0, 30.0 // MPa and mm
		long := l * ratio
		w := p * long * l
		plate, err := Rectangular{Short: units.MM(l), Long: units.MM(long), Thickness: units.MM(th), Elastic: e * units.Megapascal}.Under(p * units.Megapascal)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []struct {
			name      string
			got, want float64
			tolerance float64
		}{
			{"(11)", float64(plate.Supported.Stress / units.Megapascal), 0.75 * w / (th * th * (long/l + 1.61*l*l/(long*long))), 1e-9},
			{"(12)", plate.Supported.Deflection.MM(), 0.1422 * w / (e * th * th * th * (long/(l*l*l) + 2.21/(long*long))), 0.0015},
			{"(13)", float64(plate.Clamped.Stress / units.Megapascal), 0.5 * w / (th * th * (long/l + 0.623*math.Pow(l/long, 5))), 1e-9},
			{"(14)", plate.Clamped.Deflection.MM(), 0.0284 * w / (e * th * th * th * (long/(l*l*l) + 1.056*l*l/math.Pow(long, 4))), 1e-6},
		} {
			if math.Abs(x.got/x.want-1) > x.tolerance {
				t.Errorf("L/l = %g, %s: %g, want %g", ratio, x.name, x.got, x.want)
			}
		}
	}
}

// A very long cover is a beam: p a^2/8 supported and p a^2/12 clamped, per unit
// of width, with a section modulus of t^2/6.
func TestLongCoverIsABeam(t *testing.T) {
	c := Rectangular{Short: units.MM(40), Long: units.MM(4000), Thickness: units.MM(3), Elastic: 100 * units.Gigapascal}
	plate, err := c.Under(units.Megapascal)
	if err != nil {
		t.Fatal(err)
	}
	q := 40.0 * 40 / 9
	for _, test := range []struct {
		name      string
		got, want float64
	}{{"supported", float64(plate.Supported.Stress / units.Megapascal), 6 * q / 8}, {"clamped", float64(plate.Clamped.Stress / units.Megapascal), 6 * q / 12}} {
		if math.Abs(test.got/test.want-1) > 1e-4 {
			t.Errorf("%s %g, beam %g", test.name, test.got, test.want)
		}
	}
}

// The thickness for a stress gives that stress back, and the clamped cover is
// never worse than the supported.
func TestPlateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Round{Diameter: units.MM(rapid.Float64Range(10, 300).Draw(t, "d")), Elastic: 100 * units.Gigapascal, Poisson: rapid.Float64Range(0.01, 0.5).Draw(t, "v")}
		p := units.Pressure(rapid.Float64Range(0.1, 20).Draw(t, "bar")) * units.Bar
		s := units.Pressure(rapid.Float64Range(5, 100).Draw(t, "stress")) * units.Megapascal
		supported, clamped, err := c.Solve(p, s)
		if err != nil {
			t.Fatal(err)
		}
		for _, test := range []struct {
			thickness units.Length
			stress    func(Plate) units.Pressure
		}{
			{supported, func(p Plate) units.Pressure { return p.Supported.Stress }},
			{clamped, func(p Plate) units.Pressure { return p.Clamped.Stress }},
		} {
			c.Thickness = test.thickness
			plate, err := c.Under(p)
			if err != nil {
				t.Fatal(err)
			}
			if got := test.stress(plate); math.Abs(float64(got/s)-1) > 1e-6 {
				t.Fatalf("stress %v, want %v", got, s)
			}
			if plate.Clamped.Stress > plate.Supported.Stress || plate.Clamped.Deflection.Cmp(plate.Supported.Deflection) > 0 {
				t.Fatalf("%+v", plate)
			}
		}
	})
}

func TestPlateFindings(t *testing.T) {
	for _, test := range []struct {
		thickness float64
		want      []finding.Severity
	}{{3, nil}, {9, nil}, {10, []finding.Severity{finding.Note}}, {1.1, nil}, {1, []finding.Severity{finding.Danger}}, {0.3, []finding.Severity{finding.Danger}}} {
		c := Round{units.MM(38), units.MM(test.thickness), 100 * units.Gigapascal, 0.34}
		plate, err := c.Under(7 * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		var got []finding.Severity
		for _, f := range plate.Findings {
			got = append(got, f.Severity)
		}
		if fmt.Sprint(got) != fmt.Sprint(test.want) {
			t.Errorf("%g mm: %v, want %v", test.thickness, got, test.want)
		}
	}
}

func TestPlateRefuses(t *testing.T) {
	second := check.Only
	third := func(_, _ any, err error) error { return err }
	nan := units.Pressure(math.NaN())
	good := Round{units.MM(38), units.MM(3), 100 * units.Gigapascal, 0.3}
	round := func(f func(*Round)) error {
		c := good
		f(&c)
		return second(c.Under(units.Bar))
	}
	rect := Rectangular{units.MM(38), units.MM(50), units.MM(3), 100 * units.Gigapascal}
	check.Refuses(t, "pressure", second(good.Under(nan)), units.ErrNotFinite, "pressure")
	check.Refuses(t, "no pressure", second(good.Under(0)), units.ErrOutOfRange, "pressure")
	check.Refuses(t, "diameter", round(func(c *Round) { c.Diameter = units.MM(0) }), units.ErrOutOfRange, "diameter of the cover")
	check.Refuses(t, "thickness", round(func(c *Round) { c.Thickness = units.MM(-1) }), units.ErrOutOfRange, "thickness of the cover")
	check.Refuses(t, "modulus", round(func(c *Round) { c.Elastic = 0 }), units.ErrOutOfRange, "modulus")
	check.Refuses(t, "no poisson", round(func(c *Round) { c.Poisson = 0 }), units.ErrOutOfRange, "above 0 to 0.5")
	check.Refuses(t, "endless", round(func(c *Round) { c.Diameter = units.Picometres(math.MaxInt64) }), units.ErrOutOfRange, "up to 1 km")
	check.Refuses(t, "endless thickness", third(Round{Diameter: units.MM(1000), Poisson: 0.3}.Solve(1e12, 1e-12)), units.ErrOutOfRange, "thickness that the stress asks for")
	check.Refuses(t, "endless side", second(Rectangular{rect.Short, units.Picometres(math.MaxInt64), rect.Thickness, rect.Elastic}.Under(1)), units.ErrOutOfRange, "up to 1 km")
	check.Refuses(t, "poisson", round(func(c *Round) { c.Poisson = 0.6 }), units.ErrOutOfRange, "Poisson")
	check.Refuses(t, "far too thin", round(func(c *Round) { c.Thickness = units.Micron(0.001) }), units.ErrOutOfRange, "deflection")
	check.Refuses(t, "stress", third(good.Solve(1, 0)), units.ErrOutOfRange, "stress allowed")
	check.Refuses(t, "poisson not a number", third(Round{Diameter: units.MM(1), Poisson: math.NaN()}.Solve(1, 1)), units.ErrNotFinite, "Poisson")
	check.Refuses(t, "long side", second(Rectangular{rect.Long, rect.Short, rect.Thickness, rect.Elastic}.Under(1)), units.ErrOutOfRange, "long side")
	check.Refuses(t, "short side", second(Rectangular{units.MM(0), rect.Short, rect.Thickness, rect.Elastic}.Under(1)), units.ErrOutOfRange, "short side")
	check.Refuses(t, "absurd pressure", second(good.Under(1e16)), units.ErrOutOfRange, "1e-15 to 1e15")
}
