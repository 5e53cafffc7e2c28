package casting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func lengths(mm ...float64) (all []units.Length) {
	for _, v := range mm {
		all = append(all, units.MM(v))
	}
	return all
}

func pointer(l units.Length) *units.Length { return &l }

// EC-09: six readings of a rough rim. The high side is at 174 degrees, and the casting
// goes 0.570 mm away from it; what is left is within 0.05 mm either way. Worked by hand:
// x = (0 + 0.175 - 0.475 - 1.10 - 0.425 + 0.125)/3, y = sin 60 (0.35 + 0.95 - 0.85 - 0.25)/3.
func TestRoughRim(t *testing.T) {
	c, err := Casting{Rings: []Ring{{Readings: lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25)}}}.Centre()
	if err != nil {
		t.Fatal(err)
	}
	l := c.LeastSquares
	for _, test := range []struct {
		name                 string
		got, want, tolerance float64
	}{
		{"off", l.Off.MM(), 0.570, 0.0005}, {"high", l.High.Degrees(), 174, 1},
		{"x", l.X.MM(), -1.7 / 3, 1e-9}, {"y", l.Y.MM(), math.Sin(math.Pi/3) * 0.2 / 3, 1e-9},
		{"allowance", l.Allowance.MM(), 0.25 / 3, 1e-9}, // +0.0333 at 120 and 240 deg, -0.05 at 180
		{"even allowance", c.Even.Allowance.MM(), 0.075, 1e-9},
	} {
		if math.Abs(test.got-test.want) > test.tolerance {
			t.Errorf("%s: %v, want %v", test.name, test.got, test.want)
		}
	}
	if !l.CleansUp || len(c.Findings) > 0 {
		t.Errorf("no stock is known, but %v", c)
	}
}

// A rim of twelve readings on 120 mm: with its size, the centres of the circles of
// circles.csv; without, those of the estimators of equal angles and of a linear
// programme of scipy on the readings alone.
func TestRimOfTwelve(t *testing.T) {
	r := Ring{Readings: lengths(0.00, 0.08, 0.19, 0.22, 0.17, 0.03, -0.11, -0.20, -0.21, -0.14, -0.06, -0.02)}
	for _, diameter := range []float64{0, 2 * 59.995833333333} {
		r.Diameter = units.MM(diameter)
		c, err := Casting{Rings: []Ring{r}}.Centre()
		if err != nil {
			t.Fatal(err)
		}
		want := []float64{0.06569764, 0.1784327, 0.1277906, 0.06201, 0.16859, 0.1170062}
		if diameter > 0 {
			want = []float64{0.06561534, 0.1784839, 0, 0.06207, 0.16862, 0.1169865}
		}
		for i, got := range []units.Length{
			c.LeastSquares.X, c.LeastSquares.Y, c.LeastSquares.Allowance, c.Even.X, c.Even.Y, c.Even.Allowance,
		} {
			if want[i] != 0 && math.Abs(got.MM()-want[i]) > 6e-6 { // half of the last printed place
				t.Errorf("diameter %v, figure %d: %v, want %v", r.Diameter, i, got, want[i])
			}
		}
	}
}

// Random castings: of the lie that is the most even nothing near it is more so, and
// least squares never leaves more metal at the lowest place, nor a smaller zone.
func TestEvenIsTheMostEven(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 2))
	count, better := 10000, 0
	if testing.Short() {
		count = 1000
	}
	for n := range count {
		c, stocked := randomCasting(random)
		got, err := c.Centre()
		if err != nil {
			t.Fatal(n, c, err)
		}
		even, squares := found(c, got.Even.X.MM(), got.Even.Y.MM(), stocked), found(c, got.LeastSquares.X.MM(), got.LeastSquares.Y.MM(), stocked)
		told := -got.Even.Allowance.MM()
		if stocked {
			told = math.Inf(1)
			for _, s := range got.Even.Surfaces {
				told = min(told, s.Least.MM())
			}
		}
		if math.Abs(told-even) > 1e-8 {
			t.Fatalf("%d: %v told, %v found: %+v", n, told, even, c)
		}
		if even < squares-1e-8 {
			t.Fatalf("%d: %v, by least squares %v: %+v", n, even, squares, c)
		}
		if even > squares+1e-6 {
			better++
		}
		for step := 0.1; step > 1e-6; step /= 30 {
			for k := range 8 {
				sin, cos := math.Sincos(math.Pi * (float64(k) + 0.3) / 4)
				if other := found(c, got.Even.X.MM()+step*cos, got.Even.Y.MM()+step*sin, stocked); other > even+1e-7 {
					t.Fatalf("%d: %v, and %v a step of %g away: %+v", n, even, other, step, c)
				}
			}
		}
	}
	if better < count*8/10 {
		t.Errorf("better than least squares in %d of %d castings only", better, count)
	}
	t.Logf("%d castings, %d with more metal than least squares leaves", count, better)
}

// randomCasting draws one with an outside, an inside or both, of known size or not, read
// to the division of a dial or finer.
func randomCasting(random *rand.Rand) (c Casting, stocked bool) {
	stocked = random.IntN(2) == 0
	division := []float64{0.05, 0.01, 1e-6}[random.IntN(3)]
	x, y := random.NormFloat64()/2, random.NormFloat64()/2
	for k := range 1 + random.IntN(3) {
		r := Ring{Inside: k == 1}
		if random.IntN(2) == 0 {
			r.Diameter = units.MM(120 + 100*random.Float64())
		}
		if stocked {
			r.Stock = pointer(units.MM(1.5 + random.NormFloat64()/2))
		}
		sign := map[bool]float64{false: 1, true: -1}[r.Inside]
		coreX, coreY, rough := x+0.3*random.NormFloat64(), y+0.3*random.NormFloat64(), 0.2*random.Float64()
		places := []int{4, 5, 6, 8, 12, 24}[random.IntN(6)]
		for i := range places {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(places))
			v := sign*(coreX*cos+coreY*sin) + rough*random.NormFloat64() + 0.1
			r.Readings = append(r.Readings, units.MM(math.Round(v/division)*division))
		}
		c.Rings = append(c.Rings, r)
	}
	return c, stocked
}

// found scans the readings about a middle, from the places themselves: the least metal,
// or the greatest zone below zero.
func found(c Casting, x, y float64, stocked bool) float64 {
	worst := math.Inf(1)
	for _, r := range c.Rings {
		mean := 0.0
		for _, v := range r.Readings {
			mean += v.MM() / float64(len(r.Readings))
		}
		least, most := math.Inf(1), math.Inf(-1)
		for i, v := range r.Readings {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(r.Readings)))
			out := v.MM() - mean // away from the axis
			if r.Inside {
				out = -out
			}
			if radius := r.Diameter.MM() / 2; radius > 0 {
				out = math.Hypot((radius+out)*cos-x, (radius+out)*sin-y) - radius
			} else {
				out -= x*cos + y*sin
			}
			if r.Inside {
				out = -out
			}
			least, most = min(least, out), max(most, out)
		}
		if stocked {
			worst = min(worst, r.Stock.MM()+least)
		} else {
			worst = min(worst, least-most)
		}
	}
	return worst
}

// A round rim that is held off centre, of known size: the distances are exact, and
// nothing but the centre is found, outside and inside.
func TestRoundRimOffCentre(t *testing.T) {
	var c Casting
	for _, inside := range []bool{false, true} {
		radius := map[bool]float64{false: 50, true: 38}[inside]
		r := Ring{Inside: inside, Diameter: units.MM(2 * radius)}
		for i := range 16 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
			along, across := 0.8*cos-0.6*sin, 0.8*sin+0.6*cos // the middle at 0.8, -0.6
			v := along + math.Sqrt(radius*radius-across*across) - radius
			if inside {
				v = -v
			}
			r.Readings = append(r.Readings, units.MM(v))
		}
		c.Rings = append(c.Rings, r)
	}
	got, err := c.Centre()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range []Lie{got.Even, got.LeastSquares} {
		// 1/2 the square of the offset over the radius, the mean of which a dial cannot know, is in the size
		if math.Hypot(l.X.MM()-0.8, l.Y.MM()+0.6) > 2e-4 || l.Allowance.MM() > 2e-4 {
			t.Errorf("%+v", l)
		}
	}
}

// Faces that stand out of square, front and back, and the shims that put them right: a
// plane through the jaws with them in lies square.
func TestShims(t *testing.T) {
	var front, back Face
	back.Back = true
	for i := range 8 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 8)
		front.Readings = append(front.Readings, units.MM(0.3*cos-0.1*sin+5))
		back.Readings = append(back.Readings, units.MM(-0.3*cos+0.1*sin))
	}
	tilt, err := Casting{Faces: []Face{front, back}, FaceDiameter: units.MM(100)}.Tilt()
	if err != nil {
		t.Fatal(err)
	}
	if tilt.Even.Allowance.MM() > 1e-9 || math.Abs(tilt.Even.Off.MM()-math.Hypot(0.3, 0.1)) > 1e-9 {
		t.Errorf("%v", tilt)
	}
	for jaws := 2; jaws <= 12; jaws++ {
		shims, err := tilt.Shims(jaws, units.MM(60))
		if err != nil {
			t.Fatal(err)
		}
		least, sum := math.Inf(1), map[float64]int{}
		for k, s := range shims {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(jaws))
			stands := (0.3*cos-0.1*sin)*60/100 + s.MM() // the same for all
			sum[math.Round(stands*1e6)]++
			least = min(least, s.MM())
		}
		if len(sum) != 1 || math.Abs(least) > 1e-9 {
			t.Errorf("%d jaws: %v", jaws, shims)
		}
	}
}

func TestDoesNotCleanUp(t *testing.T) {
	r := Ring{Readings: lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25), Stock: pointer(units.MM(0.03))}
	c, err := Casting{Rings: []Ring{r}}.Centre()
	if err != nil {
		t.Fatal(err)
	}
	// even: 0.03 less half of the zone of 0.075, whose mean is not the readings' own
	if c.Even.CleansUp || c.Even.Surfaces[0].Least.Sign() >= 0 || len(c.Findings) != 1 || c.Findings[0].Code != DoesNotCleanUp {
		t.Errorf("%v", c)
	}
	r.Stock = pointer(units.MM(0.06))
	c, err = Casting{Rings: []Ring{r}}.Centre()
	if err != nil || !c.Even.CleansUp || len(c.Findings) > 0 {
		t.Errorf("%v, %v", c, err)
	}
}

func TestCastingsRefused(t *testing.T) {
	six := lengths(0, 1, 2, 3, 2, 1)
	for _, test := range []struct {
		name string
		c    Casting
		kind error
		want string
	}{
		{"nothing", Casting{}, units.ErrMissing, "rings"},
		{"three", Casting{Rings: []Ring{{Readings: six[:3]}}}, units.ErrOutOfRange, "from 4 to 360"},
		{"small", Casting{Rings: []Ring{{Readings: six, Diameter: units.MM(20)}}}, units.ErrOutOfRange, "ten times"},
		{"below zero", Casting{Rings: []Ring{{Readings: six, Diameter: units.MM(-20)}}}, units.ErrOutOfRange, "above zero"},
		{"far", Casting{Rings: []Ring{{Readings: append(lengths(2000), six...)}}}, units.ErrOutOfRange, "reading 1"},
		{"one stock", Casting{Rings: []Ring{{Readings: six, Stock: pointer(units.MM(1))}, {Readings: six, Inside: true}}},
			units.ErrOutOfRange, "turned, or of none"},
		{"a stock", Casting{Rings: []Ring{{Readings: six, Stock: pointer(units.MM(1001))}}}, units.ErrOutOfRange, "up to 1 m"},
	} {
		_, err := test.c.Centre()
		check.Refuses(t, test.name, err, test.kind, test.want)
	}
	_, err := Casting{}.Tilt()
	check.Refuses(t, "no face", err, units.ErrMissing, "faces")
	_, err = Casting{Faces: []Face{{Readings: six}}}.Tilt()
	check.Refuses(t, "no circle", err, units.ErrOutOfRange, "above zero")
	tilt, err := Casting{Faces: []Face{{Readings: six}}, FaceDiameter: units.MM(80)}.Tilt()
	if err != nil {
		t.Fatal(err)
	}
	_, err = tilt.Shims(1, units.MM(60))
	check.Refuses(t, "one jaw", err, units.ErrOutOfRange, "from 2 to 12")
	_, err = tilt.Shims(4, units.Length{})
	check.Refuses(t, "no seats", err, units.ErrOutOfRange, "seats")
	_, err = Tilting{}.Shims(4, units.MM(60))
	check.Refuses(t, "no tilt", err, units.ErrMissing, "Casting.Tilt")
}

// An inside that stays as cast decides alone, and the outside is judged about it.
func TestWhatStays(t *testing.T) {
	outside := Ring{Readings: lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25), Stock: pointer(units.MM(0.6))}
	inside := Ring{Readings: lengths(0.1, 0.02, -0.08, -0.1, 0, 0.06), Inside: true, Stays: true}
	alone, err := Casting{Rings: []Ring{inside}}.Centre()
	if err != nil {
		t.Fatal(err)
	}
	both, err := Casting{Rings: []Ring{outside, inside}}.Centre()
	if err != nil {
		t.Fatal(err)
	}
	if !both.Squares || both.Best().X != alone.LeastSquares.X || both.Even.Y != alone.Even.Y {
		t.Errorf("%v, alone %v", both, alone)
	}
	l := both.Best()
	if l.Surfaces[1].Least != nil || l.Allowance != l.Surfaces[0].Zone || math.Abs(l.Surfaces[0].Least.MM()-
		(0.6+found(Casting{Rings: []Ring{{Readings: outside.Readings, Stock: pointer(units.MM(0))}}}, l.X.MM(), l.Y.MM(), true))) > 1e-8 {
		t.Errorf("%v", l)
	}
	if !l.CleansUp {
		t.Errorf("cleans up not with 0.6 mm: %v", l)
	}
	outside.Stock = pointer(units.MM(0.4))
	if both, err = (Casting{Rings: []Ring{outside, inside}}).Centre(); err != nil || both.Best().CleansUp || len(both.Findings) != 1 {
		t.Errorf("0.4 mm: %v, %v", both, err)
	}
	inside.Stock = outside.Stock
	_, err = Casting{Rings: []Ring{outside, inside}}.Centre()
	check.Refuses(t, "stock of what stays", err, units.ErrOutOfRange, "nothing comes off")
}

func TestMoves(t *testing.T) {
	for _, test := range []struct {
		x, y          float64
		jaw, second   int
		first, turned float64
	}{{-0.5667, 0.0577, 3, 2, 0.5667, 0.5667 / 1.5}, {0.1, -0.2, 4, 1, 0.2, 0.2 / 1.5}} {
		moves, err := Lie{X: units.MM(test.x), Y: units.MM(test.y)}.Moves(units.MM(1.5))
		if err != nil || len(moves) != 2 || moves[0].Jaw != test.jaw || moves[1].Jaw != test.second ||
			moves[0].Loosen != (test.jaw+1)%4+1 || moves[0].By != units.MM(test.first) || math.Abs(moves[0].Turns-test.turned) > 1e-9 {
			t.Errorf("%+v: %v, %v", test, moves, err)
		}
	}
	if moves, err := (Lie{}).Moves(units.Length{}); err != nil || len(moves) > 0 {
		t.Errorf("%v, %v", moves, err)
	}
	_, err := Lie{}.Moves(units.MM(-1))
	check.Refuses(t, "pitch", err, units.ErrOutOfRange, "pitch")
}

// One reading that is wrong by a good deal more than the roughness is found, and hardly
// ever one where none is.
func TestReadingAlone(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 4))
	count := 2000
	if testing.Short() {
		count = 200
	}
	found, wrong := 0, 0
	for range count {
		n := 8 + random.IntN(9)
		r := Ring{Inside: random.IntN(2) == 0}
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r.Readings = append(r.Readings, units.MM(0.5*cos-0.8*sin+0.05*random.NormFloat64()))
		}
		c, err := Casting{Rings: []Ring{r}}.Centre()
		if err != nil {
			t.Fatal(err)
		}
		wrong += len(c.Findings)
		bad := random.IntN(n)
		r.Readings[bad] = r.Readings[bad].Add(units.MM(1)) // 20 deviations; a turn of a small dial
		if c, err = (Casting{Rings: []Ring{r}}).Centre(); err != nil {
			t.Fatal(err)
		}
		if len(c.Findings) == 1 && c.Findings[0].Code == ReadingAlone && strings.HasPrefix(c.Findings[0].Text, fmt.Sprintf("Reading %d of ", bad+1)) {
			found++
		}
	}
	if wrong > count/500 || found < count*9/10 {
		t.Errorf("%d of %d found, %d remarked where none was wrong", found, count, wrong)
	}
	t.Logf("%d of %d found, %d remarked where none was wrong", found, count, wrong)
	even := lengths(0, 0, 0, 0, 0, 0.2, 0, 0)
	tilt, err := Casting{Faces: []Face{{Readings: even}}, FaceDiameter: units.MM(80)}.Tilt()
	if err != nil || len(tilt.Findings) != 1 || tilt.Findings[0].Where != "face 1" {
		t.Errorf("%v, %v", tilt, err)
	}
}
