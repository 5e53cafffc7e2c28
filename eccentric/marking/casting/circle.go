package casting

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Point is a place across the axis of the work.
type Point struct{ X, Y units.Length }

// A CircleFit is a way in which a circle goes through points that do not lie on one.
// They differ, so that the name of the way belongs to the answer.
type CircleFit int

// The circles through points.
const (
	Geometric         CircleFit = iota + 1 // least squares of the distances from the circle
	LinearAlgebraic                        // least squares of x^2 + y^2 + D x + E y + F
	UnitAlgebraic                          // of A (x^2 + y^2) + B x + C y + D with A^2 + B^2 + C^2 + D^2 = 1, in mm
	MinimumZone                            // midway between the two circles of one centre that hold all points closest
	LargestInscribed                       // the largest, near the middle of the points, with none inside
	SmallestEnclosing                      // the smallest with none outside
)

var circleFits = names.Set{Package: "casting", Type: "CircleFit", Field: "circle through points",
	Texts: []string{"", "geometric", "linear algebraic", "unit algebraic", "minimum zone", "largest inscribed", "smallest enclosing"}}

// CircleFits returns all ways, in order.
func CircleFits() []CircleFit {
	return []CircleFit{Geometric, LinearAlgebraic, UnitAlgebraic, MinimumZone, LargestInscribed, SmallestEnclosing}
}

// ParseCircleFit reads what String writes; a text that it cannot read is a
// [*units.ParseError] that says what is accepted.
func ParseCircleFit(s string) (CircleFit, error) {
	v, err := circleFits.Value(s)
	return CircleFit(v), err
}

// String returns the name of the way.
func (f CircleFit) String() string { return circleFits.Text(int(f)) }

// MarshalText writes what String does; a value that is none is an error.
func (f CircleFit) MarshalText() ([]byte, error) { return circleFits.Marshal(int(f)) }

// UnmarshalText reads what MarshalText writes.
func (f *CircleFit) UnmarshalText(text []byte) error { return names.Unmarshal(&circleFits, f, text) }

// A Circle is a circle through points.
type Circle struct {
	Centre  Point
	Radius  units.Length
	Mean    units.Length // of the distances of the points from the centre; the radius of many books' algebraic circle
	Inside  units.Length // how far the innermost point lies inside the circle; below zero, outside it
	Outside units.Length // how far the outermost lies outside; below zero, inside it
}

// FitCircle returns the circle that goes through points in one of the ways of
// [CircleFits]. With d the distance of a point from the centre:
//
//	geometric            sum (d - r)^2 least
//	linear algebraic     sum (x^2 + y^2 + D x + E y + F)^2 least
//	unit algebraic       the same with a factor A of x^2 + y^2, A^2 + D^2 + E^2 + F^2 = 1
//	minimum zone         max d - min d least; r midway
//	largest inscribed    min d greatest
//	smallest enclosing   max d least
//
// The unit algebraic circle changes with the origin and the unit: it goes by
// millimetres from the origin given. The largest inscribed circle is that which is
// reached from the geometric one without leaving the points, which are all round it.
// From 3 points on, none beyond 100 m, not on one line. The geometric circle is that of
// Gander, Golub and Strebel (BIT 34, 1994), found with steps of Newton to 1e-9 of its
// radius. An arc that is as near to a straight line as to a circle is refused. See the
// Example.
func FitCircle(fit CircleFit, points []Point) (Circle, error) {
	if !circleFits.Known(int(fit)) {
		return Circle{}, circleFits.Unknown(int(fit))
	}
	x, y, err := plain(points)
	if err != nil {
		return Circle{}, err
	}
	centre, wrong := fit.centre(x, y)
	if wrong == "" && math.Hypot(centre[0]-mean(x), centre[1]-mean(y)) > 1e4*spread(x, y) {
		wrong = nearlyStraight
	}
	if wrong != "" {
		return Circle{}, fail.Wrong("points", len(points), wrong, "points on more of the circle, or other ones")
	}
	return fit.circle(centre, x, y), nil
}

// What is wrong with points that have no circle.
const (
	nearlyStraight = "they lie as near to a straight line as to a circle"
	sideOpen       = "they leave a side open, to which a circle with none of them inside grows for ever"
)

// plain returns coordinates in millimetres.
func plain(points []Point) (x, y []float64, err error) {
	if n := len(points); n < 3 || n > mostReadings {
		return nil, nil, fail.OutOfRange("number of points", n, "from 3 to 360")
	}
	for _, p := range points {
		for _, v := range []units.Length{p.X, p.Y} {
			if v.Abs().Cmp(farthest) > 0 {
				return nil, nil, fail.OutOfRange("place of a point", v, "up to 100 m either way")
			}
		}
		x, y = append(x, p.X.In(units.Millimetres)), append(y, p.Y.In(units.Millimetres))
	}
	return x, y, nil
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// spread returns the greatest distance from the middle of the points.
func spread(x, y []float64) float64 {
	mx, my, most := mean(x), mean(y), 0.0
	for i := range x {
		most = max(most, math.Hypot(x[i]-mx, y[i]-my))
	}
	return most
}

// centre returns the centre of the circle, and its radius where the way has one of its
// own; what is wrong where there is none.
func (f CircleFit) centre(x, y []float64) (c [3]float64, wrong string) {
	c, ok := linearCircle(x, y)
	if !ok {
		return c, nearlyStraight
	}
	switch f {
	case LinearAlgebraic:
		return c, ""
	case UnitAlgebraic:
		if c, ok = unitCircle(x, y); !ok {
			return c, nearlyStraight
		}
		return c, ""
	case SmallestEnclosing:
		return enclosing(x, y), ""
	}
	if c, ok = geometricCircle(x, y, c); !ok {
		return c, nearlyStraight
	}
	if f == Geometric {
		return c, ""
	}
	a := aim{all: []*surface{pointed(x, y)}, stocked: f == LargestInscribed}
	c[0], c[1], ok = a.even(c[0]-mean(x), c[1]-mean(y), spread(x, y)/4)
	if !ok {
		return c, sideOpen
	}
	c[0], c[1] = c[0]+mean(x), c[1]+mean(y)
	return c, ""
}

// circle returns the circle about a centre as the way has it.
func (f CircleFit) circle(c [3]float64, x, y []float64) Circle {
	var d []float64
	for i := range x {
		d = append(d, math.Hypot(x[i]-c[0], y[i]-c[1]))
	}
	least, most := slices.Min(d), slices.Max(d)
	r := mean(d)
	switch f {
	case LinearAlgebraic, UnitAlgebraic:
		r = c[2]
	case MinimumZone:
		r = (least + most) / 2
	case LargestInscribed:
		r = least
	case SmallestEnclosing:
		r = most
	}
	return Circle{Centre: Point{units.MM(c[0]), units.MM(c[1])}, Radius: units.MM(r), Mean: units.MM(mean(d)),
		Inside: units.MM(r - least), Outside: units.MM(most - r)}
}

// linearCircle is least squares of x^2 + y^2 + D x + E y + F, about the middle of the
// points.
func linearCircle(x, y []float64) (c [3]float64, ok bool) {
	mx, my, size := mean(x), mean(y), spread(x, y)
	var uu, uv, vv, u3, v3 float64
	for i := range x {
		u, v := (x[i]-mx)/size, (y[i]-my)/size
		q := u*u + v*v
		uu, uv, vv, u3, v3 = uu+u*u, uv+u*v, vv+v*v, u3+q*u, v3+q*v
	}
	det := uu*vv - uv*uv
	if !(det > 1e-12*(uu+vv)*(uu+vv)) { // on a line, or all in one place
		return c, false
	}
	a, b := (u3*vv-v3*uv)/det/2, (v3*uu-u3*uv)/det/2 // 2 a S_uu + 2 b S_uv = sum q u, and so with v
	r := math.Sqrt(a*a + b*b + (uu+vv)/float64(len(x)))
	return [3]float64{mx + a*size, my + b*size, r * size}, true
}

// unitCircle is least squares of A (x^2 + y^2) + B x + C y + D with A^2 + B^2 + C^2 +
// D^2 = 1, by singular values.
func unitCircle(x, y []float64) (c [3]float64, ok bool) {
	m := mat.NewDense(max(len(x), 4), 4, nil)
	for i := range x {
		m.SetRow(i, []float64{x[i]*x[i] + y[i]*y[i], x[i], y[i], 1})
	}
	var svd mat.SVD
	if !svd.Factorize(m, mat.SVDThin) {
		return c, false
	}
	var v mat.Dense
	svd.VTo(&v)
	k, p, q, f := v.At(0, 3), v.At(1, 3), v.At(2, 3), v.At(3, 3)
	square := (p*p+q*q)/(4*k*k) - f/k
	if !(math.Abs(k) > 1e-12) || !(square > 0) {
		return c, false
	}
	return [3]float64{-p / (2 * k), -q / (2 * k), math.Sqrt(square)}, true
}

// geometricCircle is least squares of d - r, from a start on, with steps of Newton that
// are held back until the sum falls.
func geometricCircle(x, y []float64, c [3]float64) ([3]float64, bool) {
	size, held := spread(x, y), 0.0
	sum := squaresAt(x, y, c[0], c[1])
	for range 500 {
		var h, g [3]float64 // xx, xy, yy; and x, y
		r := 0.0
		n := float64(len(x))
		for i := range x {
			r += math.Hypot(x[i]-c[0], y[i]-c[1]) / n
		}
		var mx, my float64
		for i := range x {
			d := math.Hypot(x[i]-c[0], y[i]-c[1])
			if d == 0 {
				return c, false
			}
			ux, uy := (x[i]-c[0])/d, (y[i]-c[1])/d
			mx, my = mx+ux/n, my+uy/n
			g[0], g[1] = g[0]-(d-r)*ux, g[1]-(d-r)*uy
			w := 1 - r/d // of the second derivative of (d - r)^2 / 2 across the line of sight
			h[0], h[1], h[2] = h[0]+ux*ux+w*uy*uy, h[1]+ux*uy-w*ux*uy, h[2]+uy*uy+w*ux*ux
		}
		h[0], h[1], h[2] = h[0]-n*mx*mx, h[1]-n*mx*my, h[2]-n*my*my
		for { // least squares of the mean radius leaves the Hessian less n m m^T
			a, d := h[0]+held, h[2]+held
			det := a*d - h[1]*h[1]
			if a > 0 && det > 1e-14*a*d {
				dx, dy := -(d*g[0]-h[1]*g[1])/det, -(a*g[1]-h[1]*g[0])/det
				next := squaresAt(x, y, c[0]+dx, c[1]+dy)
				if moved := math.Hypot(dx, dy); moved < 1e-13*size {
					return c, true
				} else if next <= sum {
					c[0], c[1], sum = c[0]+dx, c[1]+dy, next
					held /= 4
					break
				} else if moved < 1e-10*size {
					return c, true // the sum no longer tells them apart
				}
			}
			held = max(4*held, 1e-6)
		}
		if math.Hypot(c[0]-mean(x), c[1]-mean(y)) > 1e5*size {
			return c, false
		}
	}
	return c, false
}

func squaresAt(x, y []float64, a, b float64) float64 {
	var d []float64
	for i := range x {
		d = append(d, math.Hypot(x[i]-a, y[i]-b))
	}
	r, sum := mean(d), 0.0
	for _, v := range d {
		sum += (v - r) * (v - r)
	}
	return sum
}

// pointed is points as a surface about their middle, whose metal is the distance.
func pointed(x, y []float64) *surface {
	s := &surface{sign: 1}
	mx, my := mean(x), mean(y)
	for i := range x {
		d := math.Hypot(x[i]-mx, y[i]-my)
		s.size += d / float64(len(x))
		if d == 0 {
			s.cos, s.sin = append(s.cos, 1), append(s.sin, 0)
		} else {
			s.cos, s.sin = append(s.cos, (x[i]-mx)/d), append(s.sin, (y[i]-my)/d)
		}
		s.above = append(s.above, d)
	}
	for i := range s.above {
		s.above[i] -= s.size
	}
	return s
}

// enclosing returns the smallest circle that holds all points: each that lies outside
// lies on the circle of those before it and itself.
func enclosing(x, y []float64) [3]float64 {
	outside := func(c [3]float64, i int) bool { return math.Hypot(x[i]-c[0], y[i]-c[1]) > c[2]*(1+1e-12) }
	c := [3]float64{x[0], y[0], 0}
	for i := range x {
		if !outside(c, i) {
			continue
		}
		c = [3]float64{x[i], y[i], 0}
		for j := range i {
			if !outside(c, j) {
				continue
			}
			c = [3]float64{(x[i] + x[j]) / 2, (y[i] + y[j]) / 2, math.Hypot(x[i]-x[j], y[i]-y[j]) / 2}
			for k := range j {
				if outside(c, k) {
					c = through(x[i], y[i], x[j], y[j], x[k], y[k])
				}
			}
		}
	}
	return c
}

// through returns the circle through three points.
func through(ax, ay, bx, by, cx, cy float64) [3]float64 {
	bx, by, cx, cy = bx-ax, by-ay, cx-ax, cy-ay
	d := 2 * (bx*cy - by*cx)
	x, y := (cy*(bx*bx+by*by)-by*(cx*cx+cy*cy))/d, (bx*(cx*cx+cy*cy)-cx*(bx*bx+by*by))/d
	return [3]float64{ax + x, ay + y, math.Hypot(x, y)}
}
