package casting

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// stuck is by how much the worst corner of a straight bore of diameter d and length l, that
// stands slanting by an angle and off its middle by an offset, cuts into a mandrel that
// tapers by t from the diameter d - c on.
func stuck(d, l, c, t, slant, offset float64) float64 {
	sin, cos := math.Sincos(slant)
	worst := math.Inf(-1)
	for _, end := range []float64{-1, 1} {
		for _, side := range []float64{-1, 1} {
			x, y := end*l/2*cos-side*d/2*sin, end*l/2*sin+side*d/2*cos+offset // a corner of the bore
			radius := (d - c - t*(x+l/2)) / 2                                 // of the mandrel there
			worst = max(worst, radius-side*y)
		}
	}
	return worst
}

// slack is by how much the bore is free, with the best offset.
func slack(d, l, c, t, slant float64) float64 {
	low, high := -d, d // of a convex function
	for range 200 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if stuck(d, l, c, t, slant, a) < stuck(d, l, c, t, slant, b) {
			high = b
		} else {
			low = a
		}
	}
	return -stuck(d, l, c, t, slant, (low+high)/2)
}

// The greatest slant of a bore whose corners touch, found by halving. On a taper that grips
// all round there is none but by what the metal gives, for which 0.1 um stands.
func TestSeatTouches(t *testing.T) {
	for _, s := range []struct{ d, l, c, taper float64 }{
		{6, 15, 0.02, 0}, {6, 15, 0.005, 0}, {12, 10, 0.05, 0}, {25, 40, 0.1, 0},
		{6, 15, 0.0001, 0.0005}, {12, 30, 0.0001, 0.01 / 12}, {6, 15, 0.01, 0.001},
	} {
		low, high := 0.0, 0.2
		for range 100 {
			if mid := (low + high) / 2; slack(s.d, s.l, s.c, s.taper, mid) >= 0 {
				low = mid
			} else {
				high = mid
			}
		}
		got, err := Seat{Clearance: units.MM(s.c), Taper: s.taper, Length: units.MM(s.l)}.RunOut(units.MM(100))
		if err != nil {
			t.Fatal(err)
		}
		if want := (low + high) / 2; math.Abs(float64(got.Tilt)-want) > 0.005*want {
			t.Errorf("%+v: tilt %v, corners touch at %v", s, float64(got.Tilt), want)
		}
		if math.Abs(got.Face.MM()-100*float64(got.Tilt)) > 1e-9 || math.Abs(got.Rim.MM()-2*got.Offset.MM()) > 1e-9 {
			t.Errorf("%+v: %v", s, got)
		}
		if s.taper == 0 && math.Abs(got.Offset.MM()-s.c/2) > 1e-9 {
			t.Errorf("%+v: %v", s, got)
		}
	}
}

// A rim that slants, turned under two dials: what they go over differs by no more than
// EdgesAgree for a face that comes out as far from parallel.
func TestEdgesAgree(t *testing.T) {
	const d, w, slant = 100, 12, 0.0004
	var swing [2]float64
	for edge, z := range []float64{-w / 2, w / 2} {
		low, high := math.Inf(1), math.Inf(-1)
		for k := range 360 { // the centre of the rim at z goes round at z*slant
			at := float64(k) * math.Pi / 180
			x, y := z*math.Sin(slant)*math.Cos(at), z*math.Sin(slant)*math.Sin(at)
			v := x + math.Sqrt(d*d/4-y*y)
			low, high = min(low, v), max(high, v)
		}
		swing[edge] = high - low
	}
	got, err := EdgesAgree(units.MM(d), units.MM(w), units.MM(d*math.Tan(slant)))
	if err != nil {
		t.Fatal(err)
	}
	// the two swings are opposite ways
	if math.Abs(got.MM()-(swing[0]+swing[1])) > 1e-6 {
		t.Errorf("%v, the dials go over %v and %v", got, swing[0], swing[1])
	}
}

func TestSeatsRefused(t *testing.T) {
	bore := units.MM(15)
	for _, test := range []struct {
		s    Seat
		want string
	}{
		{Seat{}, "length of the bore"}, {Seat{Length: bore, Clearance: units.MM(2)}, "a tenth"},
		{Seat{Length: bore, Clearance: units.MM(-1)}, "from zero"}, {Seat{Length: bore, Taper: 0.03}, "0.0005"},
		{Seat{Length: bore, Taper: -0.01}, "0.0005"},
	} {
		_, err := test.s.RunOut(units.MM(100))
		check.Refuses(t, test.want, err, units.ErrOutOfRange, test.want)
	}
	_, err := Seat{Length: bore, Taper: math.NaN()}.RunOut(units.MM(100))
	check.Refuses(t, "taper", err, units.ErrNotFinite, "taper")
	_, err = Seat{Length: bore}.RunOut(units.Length{})
	check.Refuses(t, "diameter", err, units.ErrOutOfRange, "diameter")
	_, err = EdgesAgree(units.MM(100), units.MM(12), units.MM(100))
	check.Refuses(t, "parallel", err, units.ErrOutOfRange, "below the diameter")
	_, err = EdgesAgree(units.MM(100), units.Length{}, units.MM(1))
	check.Refuses(t, "width", err, units.ErrOutOfRange, "width")
}
