package casting

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func numbers(t *testing.T, text string) (list []float64) {
	t.Helper()
	for word := range strings.FieldsSeq(text) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
	return list
}

// pointsOf reads the points of a row: coordinates, or a radius and what a dial reads.
func pointsOf(t *testing.T, r *check.Row) []Point {
	t.Helper()
	x, y := numbers(t, r.Text("x")), numbers(t, r.Text("y"))
	var points []Point
	for i := range y {
		if len(x) > 1 {
			points = append(points, Point{units.MM(x[i]), units.MM(y[i])})
			continue
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(y)))
		points = append(points, Point{units.MM((x[0] + y[i]) * cos), units.MM((x[0] + y[i]) * sin)})
	}
	return points
}

// The public sets of points, each by the way that is named.
func TestCirclesInPrint(t *testing.T) {
	f := check.Open(t, "eccentric/marking/casting/circles.csv")
	for r := range f.Rows() {
		fit, err := ParseCircleFit(r.Text("fit"))
		if err != nil {
			t.Fatal(err)
		}
		points := pointsOf(t, r)
		c, err := FitCircle(fit, points)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		sum := 0.0
		for _, p := range points {
			d := math.Hypot(p.X.MM()-c.Centre.X.MM(), p.Y.MM()-c.Centre.Y.MM()) - c.Radius.MM()
			sum += d * d
		}
		r.Compare("value", map[string]float64{
			"xc": c.Centre.X.MM(), "yc": c.Centre.Y.MM(), "r": c.Radius.MM(), "mean": c.Mean.MM(),
			"zone": c.Inside.Add(c.Outside).MM(), "ssq": sum,
		}[r.Text("quantity")])
	}
}

// What each circle is the best at, no point of a fine net about its centre is better at;
// the three of the zone hold, touch and enclose the points.
func TestCirclesAreTheBest(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 1))
	count := 1000
	if testing.Short() {
		count = 100
	}
	for range count {
		points := make([]Point, 4+random.IntN(20))
		rough := math.Pow(10, -3+3*random.Float64())
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.3*random.Float64()) / float64(len(points)))
			radius := 30 + rough*random.NormFloat64()
			points[i] = Point{units.MM(5 + radius*cos), units.MM(radius*sin - 2)}
		}
		for _, fit := range []CircleFit{Geometric, MinimumZone, LargestInscribed, SmallestEnclosing} {
			c, err := FitCircle(fit, points)
			if err != nil {
				t.Fatal(fit, err)
			}
			least, most, at := measures(points, c.Centre.X.MM(), c.Centre.Y.MM())
			if math.Abs(c.Radius.MM()-c.Inside.MM()-least) > 4e-9 || math.Abs(c.Radius.MM()+c.Outside.MM()-most) > 4e-9 {
				t.Fatalf("%v: %v, points from %v to %v", fit, c, least, most)
			}
			for step := rough; step > 1e-7; step /= 10 {
				for k := range 16 {
					sin, cos := math.Sincos(math.Pi * float64(k) / 8)
					_, _, other := measures(points, c.Centre.X.MM()+step*cos, c.Centre.Y.MM()+step*sin)
					if other[fit] < at[fit]-1e-9 {
						t.Fatalf("%v of %d points: %v at %v, %v a step of %g away", fit, len(points), at[fit], c.Centre, other[fit], step)
					}
				}
			}
		}
	}
}

// measures returns the least and most distance from a place, and what each circle has
// least.
func measures(points []Point, x, y float64) (least, most float64, of map[CircleFit]float64) {
	var d []float64
	for _, p := range points {
		d = append(d, math.Hypot(p.X.MM()-x, p.Y.MM()-y))
	}
	r, sum := mean(d), 0.0
	for _, v := range d {
		sum += (v - r) * (v - r)
	}
	least, most = slices.Min(d), slices.Max(d)
	return least, most, map[CircleFit]float64{Geometric: sum, MinimumZone: most - least, LargestInscribed: -least, SmallestEnclosing: most}
}

// Points on a circle, whole or an arc of it, give it back, each way alike.
func TestCircleGivenBack(t *testing.T) {
	for _, arc := range []float64{2 * math.Pi * 11 / 12, 2, 0.7} {
		var points []Point
		for i := range 12 {
			sin, cos := math.Sincos(0.4 + arc*float64(i)/11)
			points = append(points, Point{units.MM(40 + 25*cos), units.MM(25*sin - 30)})
		}
		for _, fit := range CircleFits() {
			if arc < math.Pi && (fit == LargestInscribed || fit == SmallestEnclosing) {
				continue // they are other circles
			}
			c, err := FitCircle(fit, points)
			if err != nil {
				t.Errorf("%v of an arc of %.2g: %v", fit, arc, err)
			} else if math.Hypot(c.Centre.X.MM()-40, c.Centre.Y.MM()+30) > 1e-6 || math.Abs(c.Radius.MM()-25) > 1e-6 {
				t.Errorf("%v of an arc of %.2g: %v", fit, arc, c)
			}
		}
	}
}

func TestCirclesRefused(t *testing.T) {
	line := []Point{{}, {X: units.MM(1)}, {X: units.MM(2)}, {X: units.MM(5)}}
	same := []Point{{}, {}, {}}
	for _, fit := range CircleFits() {
		_, err := FitCircle(fit, line)
		check.Refuses(t, "a line", err, units.ErrOutOfRange, "straight line")
		_, err = FitCircle(fit, same)
		check.Refuses(t, "one point", err, units.ErrOutOfRange, "straight line")
		_, err = FitCircle(fit, line[:2])
		check.Refuses(t, "two points", err, units.ErrOutOfRange, "from 3 to 360")
	}
	_, err := FitCircle(0, line)
	check.Refuses(t, "no way", err, units.ErrUnknown, "geometric")
	_, err = FitCircle(Geometric, []Point{{}, {X: units.MM(1)}, {Y: units.MM(200_000)}})
	check.Refuses(t, "far", err, units.ErrOutOfRange, "100 m")
}
