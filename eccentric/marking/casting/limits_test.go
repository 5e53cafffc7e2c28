package casting

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// least is what a length can be more.
const least = 1e-9 // mm

// The nearest that is taken and the nearest that is refused, of each limit.
func TestCastingLimits(t *testing.T) {
	mm := units.MM
	reads := func(n int) []units.Length { return make([]units.Length, n) }
	span := lengths(0.1, -0.1, 0.1, -0.1) // 0.1 either way of its mean: ten times 0.2 is 2 mm
	ring := func(r Ring) func() error {
		return func() error { _, err := Casting{Rings: []Ring{r}}.Centre(); return err }
	}
	face := func(d float64, f Face) func() error {
		return func() error { _, err := Casting{Faces: []Face{f}, FaceDiameter: mm(d)}.Tilt(); return err }
	}
	tilt, err := Casting{Faces: []Face{{Readings: lengths(1, 0, -1, 0)}}, FaceDiameter: mm(80)}.Tilt()
	if err != nil {
		t.Fatal(err)
	}
	shims := func(jaws int, seats float64) func() error {
		return func() error { _, err := tilt.Shims(jaws, mm(seats)); return err }
	}
	circle := func(n int, far float64) func() error {
		points := []Point{{mm(far), mm(0)}}
		for i := 1; i < n; i++ {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			points = append(points, Point{mm(far * cos), mm(far * sin)})
		}
		return func() error { _, err := FitCircle(LinearAlgebraic, points); return err }
	}
	balance := func(radius float64, w Weight) func() error {
		return func() error { _, err := Balance(mm(radius), w); return err }
	}
	of := func(w Weight, wheel units.Mass) func() error {
		return func() error { _, err := w.Of(wheel); return err }
	}
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	hollow := func(off float64, at float64) func() error {
		return func() error { _, err := HollowOff(iron, mm(80), mm(12), mm(off), units.Angle(at)); return err }
	}
	seat := func(s Seat, d float64) func() error { return func() error { _, err := s.RunOut(mm(d)); return err } }
	grade := func(g units.Speed, n units.RotationalSpeed) func() error {
		return func() error { _, err := BalanceGrade(g, n); return err }
	}
	edges := func(parallel float64) func() error {
		return func() error { _, err := EdgesAgree(mm(100), mm(10), mm(parallel)); return err }
	}
	moves := func(pitch float64) func() error { return func() error { _, err := Lie{}.Moves(mm(pitch)); return err } }
	for _, l := range []struct {
		name        string
		taken, less func() error
		want        string // in the error of the second
	}{
		{"4 readings", ring(Ring{Readings: reads(4)}), ring(Ring{Readings: reads(3)}), "ring 1, number of readings 3"},
		{"360 readings", ring(Ring{Readings: reads(360)}), ring(Ring{Readings: reads(361)}), "from 4 to 360, equally round it"},
		{"1 m read", ring(Ring{Readings: lengths(1000, 0, 0, 0)}), ring(Ring{Readings: lengths(1000+least, 0, 0, 0)}), "up to 1 m either way"},
		{"-1 m read", ring(Ring{Readings: lengths(0, -1000, 0, 0)}), ring(Ring{Readings: lengths(0, -1000-least, 0, 0)}), "ring 1, reading 2 -1000.000000001 mm"},
		{"1 m of stock", ring(Ring{Readings: reads(4), Stock: pointer(mm(1000))}), ring(Ring{Readings: reads(4), Stock: pointer(mm(1000 + least))}), "stock"},
		{"1 m too little", ring(Ring{Readings: reads(4), Stock: pointer(mm(-1000))}), ring(Ring{Inside: true, Readings: reads(4), Stock: pointer(mm(-1000 - least))}), "ring 1, inside, stock"},
		{"100 m across", ring(Ring{Readings: span, Diameter: mm(100_000)}), ring(Ring{Readings: span, Diameter: mm(100_000 + least)}), "up to 100 m"},
		{"ten times the span", ring(Ring{Readings: span, Diameter: mm(2.0001)}), ring(Ring{Readings: span, Diameter: mm(1.9999)}), "more than ten times"},
		{"a size or none", ring(Ring{Readings: span}), ring(Ring{Readings: span, Diameter: mm(-least)}), "zero, not known"},
		{"a circle of faces", face(least, Face{Readings: span}), face(0, Face{Readings: span}), "above zero"},
		{"the largest", face(100_000, Face{Readings: span}), face(100_000+least, Face{Readings: span}), "up to 100 m"},
		{"readings of a face", face(80, Face{Readings: span}), face(80, Face{Readings: span[:3]}), "face 1"},
		{"2 jaws", shims(2, 60), shims(1, 60), "number of jaws"}, {"12 jaws", shims(12, 60), shims(13, 60), "from 2 to 12"},
		{"seats", shims(3, least), shims(3, 0), "diameter of the seats"}, {"far seats", shims(3, 100_000), shims(3, 100_000+least), "up to 100 m"},
		{"3 points", circle(3, 10), circle(2, 10), "from 3 to 360"}, {"360 points", circle(360, 10), circle(361, 10), "number of points"},
		{"100 m off", circle(4, 100_000), circle(4, 100_000+least), "up to 100 m either way"},
		{"a radius", balance(least, Weight{}), balance(0, Weight{}), "radius of the balance weight"},
		{"a far one", balance(100_000, Weight{}), balance(100_000+least, Weight{}), "above zero, up to 100 m"},
		{"no mass", balance(1, Weight{}), balance(1, Weight{Mass: -1e-9}), "from zero to 1e9 kg"},
		{"much mass", balance(1, Weight{Mass: 1e9}), balance(1, Weight{Mass: 1.000001e9}), "mass"},
		{"in the middle", balance(1, Weight{Mass: 1}), balance(1, Weight{Mass: 1, Radius: mm(-least)}), "from zero to 100 m"},
		{"far off", balance(1, Weight{Radius: mm(100_000)}), balance(1, Weight{Radius: mm(100_000 + least)}), "radius"},
		{"an angle", balance(1, Weight{At: -9}), balance(1, Weight{At: units.Angle(math.NaN())}), "angle"},
		{"a mass that is one", balance(1, Weight{Mass: 1}), balance(1, Weight{Mass: units.Mass(math.NaN())}), "mass"},
		{"wheel to 100 m off", of(Weight{Mass: 1, Radius: mm(1000)}, 0.010001), of(Weight{Mass: 1, Radius: mm(1000)}, 0.009999), "up to 100 m off"},
		{"weight of a wheel", of(Weight{Mass: 1, Radius: mm(1)}, 1), of(Weight{Mass: -1, Radius: mm(1)}, 1), "mass"},
		{"hollow by half", hollow(40-1e-6, 0), hollow(40, 0), "half of its diameter"}, {"hollow true", hollow(0, 0), hollow(-least, 0), "offset of the inside"},
		{"hollow at", hollow(1, 9), hollow(1, math.Inf(-1)), "angle"},
		{"bore", seat(Seat{Length: mm(least)}, 1), seat(Seat{}, 1), "above zero, up to 100 m"},
		{"long bore", seat(Seat{Length: mm(100_000)}, 1), seat(Seat{Length: mm(100_000 + least)}, 1), "length of the bore"},
		{"clearance", seat(Seat{Length: mm(20), Clearance: mm(2)}, 1), seat(Seat{Length: mm(20), Clearance: mm(2 + least)}, 1), "a tenth"},
		{"no clearance", seat(Seat{Length: mm(20)}, 1), seat(Seat{Length: mm(20), Clearance: mm(-least)}, 1), "clearance"},
		{"taper", seat(Seat{Length: mm(20), Taper: 0.02}, 1), seat(Seat{Length: mm(20), Taper: 0.02000001}, 1), "taper"},
		{"parallel", seat(Seat{Length: mm(20)}, 1), seat(Seat{Length: mm(20), Taper: -1e-9}, 1), "from zero to 0.02"},
		{"diameter", seat(Seat{Length: mm(20)}, least), seat(Seat{Length: mm(20)}, 0), "diameter"},
		{"far diameter", seat(Seat{Length: mm(20)}, 100_000), seat(Seat{Length: mm(20)}, 100_000+least), "up to 100 m"},
		{"a metre off", grade(1, 1), grade(1.000001, 1), "up to a metre off"}, {"a grade", grade(1e-9, 1), grade(0, 1), "grade of balance"},
		{"a speed", grade(1, 2), grade(1, 0), "speed"},
		{"parallel within", edges(100 - 1e-6), edges(100), "below the diameter"}, {"edges", edges(least), edges(0), "parallel within"},
		{"no pitch", moves(0), moves(-least), "zero, not known"},
	} {
		if err := l.taken(); err != nil {
			t.Errorf("%s: %v", l.name, err)
		}
		err := l.less()
		if !errors.As(err, new(*units.ArgumentError)) || !strings.Contains(err.Error(), l.want) {
			t.Errorf("%s: %v, want %q", l.name, err, l.want)
		}
	}
}

// An arc is taken for a circle up to 10,000 times as far to its middle as the points are
// apart, and refused beyond: our own choice.
func TestFlatArcs(t *testing.T) {
	for fit, most := range map[CircleFit]float64{Geometric: 1000, LinearAlgebraic: 9000} { // steps of Newton want more of an arc
		for _, times := range []float64{most, 11000} {
			var points []Point
			for i := range 9 { // to 50 mm either side; the tops sag by x^2/(2 r)
				x := 12.5 * float64(i-4)
				r := 50 * times
				points = append(points, Point{units.MM(x), units.MM(-x * x / (r + math.Sqrt(r*r-x*x)))})
			}
			c, err := FitCircle(fit, points)
			if times > 10000 {
				check.Refuses(t, fit.String(), err, units.ErrOutOfRange, "straight line")
			} else if err != nil || math.Abs(c.Radius.MM()/(50*times)-1) > 0.01 {
				t.Errorf("%v of %v times: %v, %v", fit, times, c, err)
			}
		}
	}
}

// Points that leave a side open have no largest circle between them: it grows for ever.
func TestOpenArcsRefused(t *testing.T) {
	for _, arc := range []struct {
		turn float64
		open bool
	}{{0.1, true}, {0.3, true}, {0.49, true}, {0.6, false}, {0.9, false}} {
		var points []Point
		for i := range 13 {
			sin, cos := math.Sincos(0.4 + 2*math.Pi*arc.turn*float64(i)/12)
			points = append(points, Point{units.MM(40 + 25*cos), units.MM(25*sin - 30)})
		}
		c, err := FitCircle(LargestInscribed, points)
		if arc.open {
			check.Refuses(t, "an open arc", err, units.ErrOutOfRange, "a side open")
		} else if err != nil || math.Abs(c.Radius.MM()-25) > 1e-6 {
			t.Errorf("%v of a turn: %v, %v", arc.turn, c, err)
		}
	}
}

// Points that bend a little are on a circle from a share of their spread on: the smallest
// enclosing one shows where, as the others lie too far off there all the same. Our own choice.
func TestHardlyBent(t *testing.T) {
	for _, share := range []float64{0.97e-12, 1.03e-12} { // det of the second moments over the square of their sum
		var x, y []float64
		for i := range 9 {
			x, y = append(x, 12.5*float64(i-4)), append(y, math.Pow(float64(i-4)/4, 2))
		}
		var xx, yy float64 // the moments for a bend of 1 mm; x*y has none
		for i := range x {
			xx, yy = xx+x[i]*x[i], yy+math.Pow(y[i]-mean(y), 2)
		}
		bend := math.Sqrt(share * xx / yy)
		var points []Point
		for i := range x {
			points = append(points, Point{units.MM(x[i]), units.MM(bend * y[i])})
		}
		c, err := FitCircle(SmallestEnclosing, points)
		if share < 1e-12 {
			check.Refuses(t, "straight", err, units.ErrOutOfRange, "straight line")
		} else if err != nil || math.Abs(c.Radius.MM()-50) > 1e-6 {
			t.Errorf("%v: %v, %v", share, c, err)
		}
	}
	// circles of a fraction of a millimetre are found as well as others
	for _, fit := range CircleFits() {
		var points []Point
		for i := range 7 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 7)
			points = append(points, Point{units.MM(0.1 + 0.04*cos), units.MM(0.04*sin - 0.2)})
		}
		c, err := FitCircle(fit, points)
		if err != nil || math.Abs(c.Radius.MM()-0.04) > 1e-8 || math.Hypot(c.Centre.X.MM()-0.1, c.Centre.Y.MM()+0.2) > 1e-8 {
			t.Errorf("%v: %v, %v", fit, c, err)
		}
	}
	// nothing to balance, and metal that just reaches
	if w, err := Balance(units.MM(10), Weight{}); err != nil || w != (Weight{Radius: units.MM(10)}) {
		t.Errorf("%+v, %v", w, err)
	}
	c, err := Casting{Rings: []Ring{{Readings: make([]units.Length, 6), Stock: &units.Length{}}}}.Centre()
	if err != nil || !c.Even.CleansUp || len(c.Findings) > 0 {
		t.Errorf("%v, %v", c, err)
	}
}

// studentTail is the chance of a t of Student beyond a value, both ways, by the sum of its
// density 1/sqrt(k*pi) * gamma((k+1)/2)/gamma(k/2) * (1+t^2/k)^(-(k+1)/2), with t = sqrt(k) tan a.
func studentTail(k, t float64) float64 {
	up, _ := math.Lgamma((k + 1) / 2)
	down, _ := math.Lgamma(k / 2)
	const steps = 1000
	from := math.Atan(t / math.Sqrt(k))
	h, sum := (math.Pi/2-from)/steps, 0.0
	for i := range steps {
		sum += math.Pow(math.Cos(from+(float64(i)+0.5)*h), k-1) * h
	}
	return 2 * sum * math.Exp(up-down) / math.Sqrt(math.Pi)
}

// Places at equal angles have one leverage, h = 3/n, all of them: by how much a reading is
// off the others' is its own residual over 1 - h, and its t follows from the sum of squares
// of all (Cook and Weisberg's deletion formulas, from memory). A reading is remarked from
// 0.05 mm on and where so far a one is chance in one of a thousand surfaces.
func TestAloneByDeletion(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 6))
	remarked := 0
	for range 120 {
		n := 7 + r.IntN(10)
		rough := []float64{0.002, 0.02, 0.1}[r.IntN(3)]
		readings, bad := make([]units.Length, n), r.IntN(n)
		for i := range readings {
			v := rough * r.NormFloat64()
			if i == bad {
				v += (r.Float64() - 0.5) * 60 * rough
			}
			readings[i] = units.MM(v)
		}
		s, err := surfaceOf(readings, false, nil)
		if err != nil {
			t.Fatal(err)
		}
		var mean, x, y float64
		for i, v := range readings {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			mean, x, y = mean+v.MM()/float64(n), x+2*v.MM()*cos/float64(n), y+2*v.MM()*sin/float64(n)
		}
		residual, squares := make([]float64, n), 0.0
		for i, v := range readings {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			residual[i] = v.MM() - mean - x*cos - y*sin
			squares += residual[i] * residual[i]
		}
		h := 3 / float64(n)
		reading, by, lowest := 0, 0.0, 0.001
		for i, e := range residual {
			off := e / (1 - h)
			student := math.Abs(e) / math.Sqrt((squares-e*e/(1-h))/float64(n-4)*(1-h))
			chance := studentTail(float64(n-4), student)
			got, gotChance := s.without(i)
			if math.Abs(got-off) > 1e-9 || math.Abs(gotChance-chance) > 1e-6+1e-3*chance {
				t.Fatalf("reading %d of %d: %v by chance of %v, want %v, %v", i+1, n, got, gotChance, off, chance)
			}
			if n >= 8 && math.Abs(off) > 0.05 && float64(n)*chance < lowest {
				reading, by, lowest = i+1, off, float64(n)*chance
			}
		}
		got, gotBy := s.alone()
		if got != reading || math.Abs(gotBy-by) > 1e-9 {
			t.Errorf("%d readings: %d is off by %v, want %d by %v", n, got, gotBy, reading, by)
		}
		if reading > 0 {
			remarked++
		}
	}
	if remarked < 12 || remarked > 108 {
		t.Errorf("%d of 120 surfaces have a reading alone", remarked)
	}
	// seven places are too few; of eight that agree to the last digit one is remarked above 0.05 mm
	for _, c := range []struct {
		n    int
		off  float64
		want int
	}{{7, 5, 0}, {8, 5, 3}, {8, 0.0501, 3}, {8, 0.0499, 0}, {8, -0.0501, 3}, {8, -0.0499, 0}} {
		readings := make([]units.Length, c.n)
		readings[2] = units.MM(c.off)
		s, err := surfaceOf(readings, false, nil)
		if err != nil {
			t.Fatal(err)
		}
		if got, by := s.alone(); got != c.want || got > 0 && math.Abs(by-c.off) > 1e-9 {
			t.Errorf("%+v: reading %d by %v", c, got, by)
		}
		words := map[bool]string{true: "more", false: "less"}[c.off > 0]
		list := s.checkAlone("ring 2", "the outside")
		if len(list) != min(1, c.want) || len(list) > 0 && (list[0].Where != "ring 2" || list[0].Severity != finding.Caution ||
			!strings.HasPrefix(list[0].Text, "Reading 3 of the outside is ") || !strings.Contains(list[0].Text, words+" than the others")) {
			t.Errorf("%+v: %v", c, list)
		}
	}
}

// Least squares has the least sum of squares of the metal about its mean, with the place
// itself gone over; the circles of x^2 + y^2 have theirs.
func TestLeastSquaresAreLeast(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 7))
	for range 40 {
		c, _ := randomCasting(random)
		got, err := c.Centre()
		if err != nil {
			t.Fatal(err)
		}
		sum := func(x, y float64) float64 {
			all := 0.0
			for _, r := range c.Rings {
				s, err := r.surface()
				if err != nil {
					t.Fatal(err)
				}
				var metal []float64
				for i := range s.above {
					v, _, _ := s.metal(i, x, y)
					metal = append(metal, v)
				}
				for _, v := range metal {
					all += (v - mean(metal)) * (v - mean(metal))
				}
			}
			return all
		}
		x, y := got.LeastSquares.X.MM(), got.LeastSquares.Y.MM()
		at := sum(x, y)
		for _, step := range []float64{1e-2, 1e-4} {
			for k := range 8 {
				sin, cos := math.Sincos(math.Pi * float64(k) / 4)
				if other := sum(x+step*cos, y+step*sin); other < at {
					t.Fatalf("%v, and %v a step of %v away: %+v", at, other, step, c)
				}
			}
		}
		var points []Point
		for i := range 6 + random.IntN(6) {
			sin, cos := math.Sincos(0.5 * float64(i))
			radius := 3 + 0.1*random.NormFloat64()
			points = append(points, Point{units.MM(1 + radius*cos), units.MM(radius*sin - 2)})
		}
		for _, fit := range []CircleFit{LinearAlgebraic, UnitAlgebraic} {
			circle, err := FitCircle(fit, points)
			if err != nil {
				t.Fatal(err)
			}
			off := func(x, y, r float64) float64 {
				all := 0.0
				for _, p := range points {
					v := math.Pow(p.X.MM()-x, 2) + math.Pow(p.Y.MM()-y, 2) - r*r
					all += v * v
				}
				if free := x*x + y*y - r*r; fit == UnitAlgebraic { // A = 1 and what it divides by
					all /= 1 + 4*x*x + 4*y*y + free*free
				}
				return all
			}
			x, y, r := circle.Centre.X.MM(), circle.Centre.Y.MM(), circle.Radius.MM()
			at := off(x, y, r)
			for _, step := range []float64{1e-2, 1e-4} {
				for k := range 27 {
					dx, dy, dr := float64(k%3-1)*step, float64(k/3%3-1)*step, float64(k/9-1)*step
					if other := off(x+dx, y+dy, r+dr); other < at {
						t.Fatalf("%v: %v, and %v a step of %v away", fit, at, other, step)
					}
				}
			}
		}
	}
}
