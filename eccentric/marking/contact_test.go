package marking_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// rounds is how many random cases a test tries.
func rounds(all int) int {
	if testing.Short() {
		return all / 10
	}
	return all
}

// A point is a place in the plane of the chuck's face, the spindle at its origin.
type point struct{ x, y float64 }

// toSegment returns how far a point is from the segment between two others.
func toSegment(p, a, b point) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	along := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		along = max(0, min(1, ((p.x-a.x)*dx+(p.y-a.y)*dy)/l))
	}
	return math.Hypot(p.x-a.x-along*dx, p.y-a.y-along*dy)
}

// pads are three jaws with flat faces.
type pads struct{ radius, face, packing float64 }

// opens returns how far out the jaws have to be for a blank whose centre is there: each
// is drawn back by halving until its face, or the packing on the first, clears the blank.
func (p pads) opens(centre point) float64 {
	most := 0.0
	for jaw := range 3 {
		sin, cos := math.Sincos(2 * math.Pi / 3 * float64(jaw))
		clears := func(q float64) bool {
			if jaw == 0 {
				q -= p.packing
			}
			return toSegment(centre, point{q*cos - p.face/2*sin, q*sin + p.face/2*cos}, point{q*cos + p.face/2*sin, q*sin - p.face/2*cos}) >= p.radius
		}
		low, high := centre.x*cos+centre.y*sin, 6*p.radius
		for range 60 {
			if middle := (low + high) / 2; clears(middle) {
				high = middle
			} else {
				low = middle
			}
		}
		most = max(most, high)
	}
	return most
}

// least returns where a function of one variable is least between two places.
func least(low, high float64, of func(float64) float64) float64 {
	const golden = 0.6180339887498949
	a, b := high-golden*(high-low), low+golden*(high-low)
	fa, fb := of(a), of(b)
	for high-low > 1e-7 {
		if fa < fb {
			high, b, fb = b, a, fa
			a = high - golden*(high-low)
			fa = of(a)
		} else {
			low, a, fa = a, b, fb
			b = low + golden*(high-low)
			fb = of(b)
		}
	}
	return (low + high) / 2
}

// The packing sets the blank over by its offset: three jaws are closed on a blank that
// is free to go where it likes, with nothing taken from the formula. It comes to rest
// where the jaws get no closer; a blank that the jaws push off does not.
func TestPackingByContact(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 7))
	held, pushed, edges := 0, 0, 0
	for range rounds(60) {
		c := marking.ThreeJaw{
			Blank:  units.MM(10 + 50*random.Float64()),
			Offset: units.MM(0.5),
		}
		c.Offset = c.Blank.Scale(0.02 + 0.44*random.Float64())
		if random.IntN(4) > 0 {
			c.Jaw = c.Blank.Scale(0.6 * random.Float64())
		}
		p, err := c.Packing()
		if err != nil {
			t.Fatal(err)
		}
		found, err := c.Check()
		if err != nil {
			t.Fatal(err)
		}
		jaws := pads{c.Blank.MM() / 2, c.Jaw.MM(), p.Thickness.MM()}
		e := c.Offset.MM()
		aside := func(x float64) float64 {
			y := least(-e/4, e/4, func(y float64) float64 { return jaws.opens(point{x, y}) })
			return jaws.opens(point{x, y})
		}
		if !found.OK() {
			if aside(-e*1.02) >= aside(-e) {
				t.Errorf("%v: told to be pushed off, and it stays: %v", c, found)
			}
			pushed++
			continue
		}
		if len(found) > 0 {
			edges++
		}
		held++
		near(t, c.String(), -least(-1.01*e, -0.99*e, aside), e, 1e-5*c.Blank.MM()+1e-4)
		near(t, "jaws grip "+c.String(), p.JawsGrip.MM(), 2*aside(-e), 1e-4)
	}
	t.Logf("%d held, %d of them with a caution, %d pushed off", held, edges, pushed)
	if !testing.Short() && (held < 30 || pushed < 3 || edges < 3) {
		t.Errorf("%d held, %d with a caution, %d pushed off", held, edges, pushed)
	}
}

// The offset of a packing is that whose packing it is, and its slope is that of a
// difference.
func TestPackingBack(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 8))
	for range rounds(20000) {
		c := marking.ThreeJaw{Blank: units.MM(5 + 100*random.Float64()), Jaw: units.MM(5 * random.Float64())}
		c.Offset = c.Blank.Scale(0.49 * random.Float64()).Add(units.Micron(1))
		p, err := c.Packing()
		if err != nil {
			t.Fatal(err)
		}
		back, err := c.OffsetFor(p.Thickness)
		if err != nil || back.Sub(c.Offset).Abs().Cmp(units.Micron(0.01)) > 0 {
			t.Fatalf("%v: offset %v, %v", c, back, err)
		}
		more := c
		more.Offset = c.Offset.Add(units.Micron(0.1))
		q, err := more.Packing()
		if err != nil {
			continue // at the limit
		}
		near(t, c.String(), q.Thickness.Sub(p.Thickness).Ratio(units.Micron(0.1)), p.PerOffset, 2e-4)
		if p.Thickness.Cmp(p.Wide) > 0 {
			t.Errorf("%v: more packing %v than wide jaws need, %v", c, p.Thickness, p.Wide)
		}
	}
}

// dialled returns how far a circle reaches from the spindle in a direction, by halving.
func dialled(radius float64, centre point, at float64) float64 {
	sin, cos := math.Sincos(at)
	low, high := 0.0, 3*radius
	for range 70 {
		if middle := (low + high) / 2; math.Hypot(middle*cos-centre.x, middle*sin-centre.y) < radius {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// The moves of a four-jaw bring a circle that stands anywhere where it is wanted, and
// the dial then shows what it was said to; nothing but the circle is known.
func TestFourJawMoves(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 9))
	moved := 0
	for range rounds(4000) {
		radius := 3 + 30*random.Float64()
		far, way := 0.7*radius*math.Sqrt(random.Float64()), 2*math.Pi*random.Float64()
		centre := point{far * math.Cos(way), far * math.Sin(way)}
		c := marking.FourJaw{Diameter: units.MM(2 * radius), Falls: random.IntN(2) == 0, Bore: random.IntN(2) == 0, Pitch: units.MM(1.5)}
		if random.IntN(2) == 0 {
			c.Offset, c.Towards = units.MM(0.6*radius*random.Float64()), random.IntN(5)
		}
		sign := 1.0
		if c.Falls {
			sign = -sign
		}
		if c.Bore {
			sign = -sign
		}
		shows := func(at float64) float64 { return sign * (dialled(radius, centre, at) - radius) }
		n := 4 + random.IntN(21)
		for i := range n {
			c.Readings = append(c.Readings, units.MM(shows(2*math.Pi*float64(i)/float64(n))))
		}
		solved, err := c.Solve()
		if err != nil {
			t.Fatal(c, err)
		}
		near(t, "eccentricity", solved.Eccentricity.MM(), far, 1e-6)
		near(t, "out of round", solved.OutOfRound.MM(), 0, 1e-6)
		if far > 0.01 {
			near(t, "high", math.Remainder(solved.High.Radians()-way, 2*math.Pi), 0, 1e-5)
		}
		for _, m := range solved.Moves {
			by := m.By.MM()
			switch m.Jaw {
			case 1:
				centre.x -= by
			case 2:
				centre.y -= by
			case 3:
				centre.x += by
			case 4:
				centre.y += by
			}
			near(t, "reads", m.Reads.MM(), shows(math.Pi/2*float64(m.Jaw-1)), 1e-6)
			near(t, "opposite", m.Opposite.MM(), shows(math.Pi/2*float64(m.Loosen-1)), 1e-6)
			near(t, "turns", m.Turns, by/1.5, 1e-9)
			if (m.Jaw+1)%4+1 != m.Loosen {
				t.Errorf("jaws %d and %d", m.Jaw, m.Loosen)
			}
			moved++
		}
		want := point{c.Offset.MM(), 0}
		switch c.Towards {
		case 2:
			want = point{0, c.Offset.MM()}
		case 3:
			want = point{-c.Offset.MM(), 0}
		case 4:
			want = point{0, -c.Offset.MM()}
		}
		near(t, "x", centre.x, want.x, 1e-6)
		near(t, "y", centre.y, want.y, 1e-6)
		if t.Failed() {
			t.Fatalf("%+v", c)
		}
	}
	t.Logf("%d moves", moved)
}

// A dial goes over what a point on the turning work does, and its range is used up at
// the angle that was said; a block brings it back.
func TestDialScanned(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 10))
	for range rounds(500) {
		radius := 3 + 30*random.Float64()
		e := radius * (0.01 + 0.9*random.Float64())
		d := marking.Dial{Range: units.MM(0.1 + 2.5*e*random.Float64()), Offset: units.MM(e), Diameter: units.MM(2 * radius)}
		s, err := d.Sweep()
		if err != nil {
			t.Fatal(err)
		}
		goesDown := func(at float64) float64 {
			return dialled(radius, point{e, 0}, 0) - dialled(radius, point{e, 0}, at)
		}
		near(t, "reading", s.Reading.MM(), goesDown(math.Pi), 1e-6)
		if s.Short != (d.Range.MM() < goesDown(math.Pi)-1e-9) {
			t.Errorf("%+v: %v", d, s)
		}
		if s.Short {
			near(t, "turn", goesDown(s.Turn.Radians()), d.Range.MM(), 1e-5)
			near(t, "block", s.Max.Sub(s.Min).MM(), d.Range.MM(), 1e-9)
		}
	}
}

// What [marking.ThreeJaw.Check] says of a chuck that is opened too far.
func TestJawsTooFar(t *testing.T) {
	c := marking.ThreeJaw{Blank: units.MM(60), Offset: units.MM(5), Jaw: units.MM(12), Opens: units.MM(64.999)}
	found, err := c.Check()
	if worst, _ := found.Worst(); err != nil || worst != finding.Danger || found[0].Code != marking.JawsTooFar {
		t.Errorf("%v, %v", found, err)
	}
	c.Opens = units.MM(65)
	if found, err = c.Check(); err != nil || len(found) > 0 {
		t.Errorf("%v, %v", found, err) // 60 - 2 x 5 + 2 x 7.5 = 65
	}
}
