package gasket

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A Datum is where dimensions are counted from and which way. The zero Datum
// counts from the origin, X to the right and Y up.
type Datum struct {
	Origin Point
	XLeft  bool // X grows to the left
	YDown  bool // Y grows downwards, as in handbook tables and on screens
}

// From returns where each hole lies as counted from a datum, in order. With one
// axis turned round the numbers are those of the mirror image: they are
// dimensions for a drawing or a dial, and no pattern for [Match]. See the example.
func (p Pattern) From(d Datum) []Point {
	points := make([]Point, len(p))
	for i, h := range p {
		q := h.At.Sub(d.Origin)
		if d.XLeft {
			q.X = q.X.Neg()
		}
		if d.YDown {
			q.Y = q.Y.Neg()
		}
		points[i] = q
	}
	return points
}

// A Span is what a caliper must read between two holes of a pattern.
type Span struct {
	First, Second string // names of the holes
	Centres       units.Length
	OverPins      units.Length // over pins that fill the holes
	BetweenPins   units.Length // between them; negative where they would overlap
}

// Spans returns the distances that prove a pattern: each hole to the next in
// order, the last to the first, and each hole to the one furthest from it. The
// pins fill holes of the diameters given; a hole without a diameter is measured
// by a pin of the given one, which may be zero where there are none such. It takes
// 2 to 2000 holes within 1 km. See the example.
func (p Pattern) Spans(pin units.Length) ([]Span, error) {
	const most = 2000
	if len(p) < 2 || len(p) > most {
		return nil, fail.OutOfRange("holes to measure", len(p), fmt.Sprintf("2 to %d", most))
	}
	if pin.Sign() < 0 || pin.MM() > maxRadiusMM {
		return nil, fail.OutOfRange("pin diameter", pin, "zero to 1 km")
	}
	diameters := make([]units.Length, len(p))
	for i, h := range p {
		diameters[i] = h.Diameter
		if h.Diameter.IsZero() {
			diameters[i] = pin
		}
		if at := h.At.vec(); max(math.Abs(at.x), math.Abs(at.y), diameters[i].MM()) > maxRadiusMM {
			return nil, fail.OutOfRange(fmt.Sprintf("place or diameter of hole %q", h.Name), "", "within 1 km")
		}
		if diameters[i].Sign() <= 0 {
			return nil, fail.Missing(fmt.Sprintf("diameter of hole %q", h.Name), "a diameter, or the diameter of a pin")
		}
	}
	var pairs [][2]int
	add := func(i, j int) {
		if pair := [2]int{min(i, j), max(i, j)}; i != j && !slices.Contains(pairs, pair) {
			pairs = append(pairs, pair)
		}
	}
	for i := range p {
		add(i, (i+1)%len(p))
	}
	for i := range p {
		furthest, far := i, 0.0
		for j := range p {
			// a nanometre of difference is none: the first in order is taken
			if d := p[i].At.vec().sub(p[j].At.vec()).abs(); d > far+1e-6 {
				furthest, far = j, d
			}
		}
		add(i, furthest)
	}
	spans := make([]Span, len(pairs))
	for k, pair := range pairs {
		a, b := p[pair[0]], p[pair[1]]
		centres := a.At.Distance(b.At)
		radii := diameters[pair[0]].Add(diameters[pair[1]]).Scale(0.5)
		spans[k] = Span{
			First: a.Name, Second: b.Name,
			Centres: centres, OverPins: centres.Add(radii), BetweenPins: centres.Sub(radii),
		}
	}
	return spans, nil
}
