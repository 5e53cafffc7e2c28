package casting

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("casting")

const mostReadings = 360

var (
	farthest = units.MM(100_000) // of a point, or the diameter of a casting
	mostRead = units.MM(1000)    // of a dial
)

// A Ring is a round surface of a casting with what a dial reads round it.
type Ring struct {
	Readings []units.Length // from place 1 on; more where the metal comes towards the dial
	Inside   bool           // a bore or the inside of a rim, read with the dial pointing outwards
	Diameter units.Length   // its mean; zero: not known, and places count as far from the axis
	Stock    *units.Length  // the mean metal on it, on the radius; nil: not known
	Stays    bool           // it is left as cast, and is what must run true
}

// A Face is a face of a casting with what a dial reads round it.
type Face struct {
	Readings []units.Length // from place 1 on; more where the metal comes towards the dial
	Back     bool           // it faces the chuck
	Stock    *units.Length  // the mean metal on it; nil: not known
}

// A Casting is what is read of a casting as it is held.
type Casting struct {
	Rings        []Ring
	Faces        []Face
	FaceDiameter units.Length // of the circle on which the faces are read
}

// A Left is what comes off one surface.
type Left struct {
	Zone  units.Length  // the most less the least: what comes off the highest place for the lowest just to clean up
	Least *units.Length // where it is least, below zero where it does not clean up; nil: no stock is known
	Most  *units.Length // where it is most
}

// A Lie is how a casting lies, by one way of finding it.
type Lie struct {
	X, Y      units.Length // of its middle, towards place 1 and a quarter turn on; how far a face stands out there
	Off       units.Length // of both together: half of what the dial shows beside the roughness
	High      units.Angle  // where it is highest
	Surfaces  []Left       // in the order of the casting's
	Allowance units.Length // the greatest zone of those that do not stay, needed on the radius or the face
	CleansUp  bool         // the stock reaches all round; true where none is known, for then as much is taken as it needs
}

// A Centring is where the middle of a casting lies.
type Centring struct {
	Even         Lie  // leaves the most even cleaning-up
	LeastSquares Lie  // runs truest on the whole, as what stays as cast should
	Squares      bool // it is to be set by least squares, see [Casting.Centre]
	Findings     finding.List
	Refs         source.Refs
}

// Best returns the lie that the casting is to be set by.
func (c Centring) Best() Lie {
	if c.Squares {
		return c.LeastSquares
	}
	return c.Even
}

// DoesNotCleanUp is what [Casting.Centre] and [Casting.Tilt] find, Fails: the metal does not
// reach all round.
const DoesNotCleanUp finding.Code = "does-not-clean-up"

// Centre returns where the middle of the rings lies, from what was read of them:
//
//	least squares   x = 2/N sum a cos, y = 2/N sum a sin of one ring whose size is not known
//	even            the least metal anywhere, stock + a - x cos - y sin, greatest; without
//	                stocks the greatest zone of a ring least
//
//	a          reading at each place, above the mean; of an inside its metal goes the other way
//	cos, sin   of the angle of the place
//
// Where a ring stays as cast, both go by what stays alone, and the others are turned about
// it: then, and where one ring is all that is known and no stock, the casting is set by
// least squares, which one bump moves less, and otherwise by the even lie.
//
// From 4 to 360 readings of each ring, within 1 m; where the diameter is known it is more
// than ten times the readings' span, and the distances are exact. Stocks of all rings that
// are turned or of none. Of 8 readings or more one that does not go with the others is a
// finding. The even lie is a linear programme. See the Example.
func (c Casting) Centre() (Centring, error) {
	if len(c.Rings) == 0 {
		return Centring{}, fail.Missing("rings", "readings of one round surface or more")
	}
	var read reading
	for i, r := range c.Rings {
		s, err := r.surface()
		if err != nil {
			return Centring{}, fault.Of(ringName(i, r.Inside), err)
		}
		read.add(s, r.Stock, r.Stays)
	}
	even, truest, err := read.lies()
	if err != nil {
		return Centring{}, err
	}
	result := Centring{Even: even, LeastSquares: truest, Refs: source.Of(leastSquaresRef(), programmeRef())}
	result.Squares = len(read.stay) > 0 || len(c.Rings) == 1 && !read.stocked()
	how := "round, even as it lies best"
	if len(read.stay) > 0 {
		how = "round when it is set true by what stays as cast"
	}
	result.Findings = result.Best().check(how)
	for i, r := range c.Rings {
		name := "the outside"
		if r.Inside {
			name = "the inside"
		}
		result.Findings = append(result.Findings, read.all[i].checkAlone(ringName(i, r.Inside), name)...)
	}
	return result, nil
}

// surface checks what was read of the ring.
func (r Ring) surface() (*surface, error) {
	s, err := surfaceOf(r.Readings, r.Inside, r.Stock)
	if err != nil {
		return nil, err
	}
	if r.Diameter.Sign() < 0 || r.Diameter.Cmp(farthest) > 0 {
		return nil, fail.OutOfRange("diameter", r.Diameter, "above zero, up to 100 m; or zero, not known")
	}
	if r.Stays && r.Stock != nil {
		return nil, fail.Wrong("stock", *r.Stock, "nothing comes off what stays as cast", "a stock, or that it stays")
	}
	s.size = r.Diameter.In(units.Millimetres) / 2
	if span := 2 * scaleOf([]*surface{s}); s.size > 0 && !(2*s.size > 10*span) {
		return nil, fail.Wrong("diameter", r.Diameter, "the readings differ by too much for it",
			"more than ten times what they differ by")
	}
	return s, nil
}

func ringName(i int, inside bool) string {
	if inside {
		return fmt.Sprintf("ring %d, inside", i+1)
	}
	return fmt.Sprintf("ring %d", i+1)
}

// A Tilting is how a casting wobbles.
type Tilting struct {
	Even         Lie // leaves the most even cleaning-up
	LeastSquares Lie
	Diameter     units.Length // of the circle on which it was read
	Findings     finding.List
	Refs         source.Refs
}

// Tilt returns how the faces stand out of square, as [Casting.Centre] does the rings: place
// by place along the axis. The circle on which they are read is above zero.
func (c Casting) Tilt() (Tilting, error) {
	if len(c.Faces) == 0 {
		return Tilting{}, fail.Missing("faces", "readings of one face or of both")
	}
	if c.FaceDiameter.Sign() <= 0 || c.FaceDiameter.Cmp(farthest) > 0 {
		return Tilting{}, fail.OutOfRange("diameter on which the faces are read", c.FaceDiameter, "above zero, up to 100 m")
	}
	var read reading
	for i, f := range c.Faces {
		s, err := surfaceOf(f.Readings, f.Back, f.Stock)
		if err != nil {
			return Tilting{}, fault.Of(fmt.Sprintf("face %d", i+1), err)
		}
		read.add(s, f.Stock, false)
	}
	even, truest, err := read.lies()
	if err != nil {
		return Tilting{}, err
	}
	result := Tilting{Even: even, LeastSquares: truest, Diameter: c.FaceDiameter,
		Refs: source.Of(leastSquaresRef(), programmeRef())}
	result.Findings = even.check("across its faces, even as it lies best")
	for i, f := range c.Faces {
		name := "the face"
		if f.Back {
			name = "the back"
		}
		result.Findings = append(result.Findings, read.all[i].checkAlone(fmt.Sprintf("face %d", i+1), name)...)
	}
	return result, nil
}

// Shims returns what goes between the casting and each of the jaws, jaw 1 at place 1 and
// the others equally on, so that the even wobble goes out; none under the jaw where the
// casting stands out farthest:
//
//	shim = (p most - p) * d/D,   p = x cos + y sin of the jaw
//
//	x, y   of the even lie, on the circle D that was read
//	d      diameter of the circle on which the jaws or the faceplate touch it
//
// From 2 to 12 jaws, on a circle above zero. Centre the casting again when they are in: a
// tilt moves its rim. Geometry. See the Example.
func (t Tilting) Shims(jaws int, seats units.Length) ([]units.Length, error) {
	if jaws < 2 || jaws > 12 {
		return nil, fail.OutOfRange("number of jaws", jaws, "from 2 to 12")
	}
	if seats.Sign() <= 0 || seats.Cmp(farthest) > 0 {
		return nil, fail.OutOfRange("diameter of the seats", seats, "above zero, up to 100 m")
	}
	if t.Diameter.Sign() <= 0 {
		return nil, fail.Missing("tilt", "what Casting.Tilt returns")
	}
	x, y := t.Even.X.In(units.Millimetres), t.Even.Y.In(units.Millimetres)
	most, all := math.Inf(-1), make([]float64, jaws)
	for k := range all {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(jaws))
		all[k] = x*cos + y*sin
		most = max(most, all[k])
	}
	shims := make([]units.Length, jaws)
	for k, p := range all {
		shims[k] = units.MM((most - p) * seats.Ratio(t.Diameter))
	}
	return shims, nil
}

// surfaceOf checks readings and returns them about their mean.
func surfaceOf(readings []units.Length, inward bool, stock *units.Length) (*surface, error) {
	n := len(readings)
	if n < 4 || n > mostReadings {
		return nil, fail.Wrong("number of readings", n, "three places lie on a circle whatever the casting, and a dial is not read so often",
			"from 4 to 360, equally round it")
	}
	s := &surface{sign: 1}
	if inward {
		s.sign = -1
	}
	for i, r := range readings {
		if r.Abs().Cmp(mostRead) > 0 {
			return nil, fail.OutOfRange(fmt.Sprintf("reading %d", i+1), r, "up to 1 m either way")
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		s.cos, s.sin, s.above = append(s.cos, cos), append(s.sin, sin), append(s.above, r.In(units.Millimetres))
	}
	level := mean(s.above)
	for i := range s.above {
		s.above[i] -= level
	}
	if stock != nil {
		if stock.Abs().Cmp(mostRead) > 0 {
			return nil, fail.OutOfRange("stock", *stock, "up to 1 m; below zero, too little")
		}
		s.stock = stock.In(units.Millimetres)
	}
	return s, nil
}

// A reading is all surfaces that were read.
type reading struct {
	all, cut, stay []*surface
	stocks         int
}

func (r *reading) add(s *surface, stock *units.Length, stays bool) {
	r.all = append(r.all, s)
	if stays {
		r.stay = append(r.stay, s)
		return
	}
	r.cut = append(r.cut, s)
	if stock != nil {
		r.stocks++
	}
}

func (r *reading) stocked() bool { return r.stocks > 0 }

// lies returns both lies of the surfaces.
func (r *reading) lies() (evenly, truest Lie, err error) {
	if r.stocked() && r.stocks < len(r.cut) {
		return Lie{}, Lie{}, fail.Wrong("stock", r.stocks, "it is known of some surfaces only",
			"that of all of them that are turned, or of none")
	}
	lead, stocked := r.cut, r.stocked()
	if len(r.stay) > 0 {
		lead, stocked = r.stay, false
	}
	x, y := squares(lead)
	ex, ey, ok := aim{lead, stocked, tieWeight}.even(x, y, 2*scaleOf(lead))
	if !ok {
		return Lie{}, Lie{}, errors.New("casting: the linear programme of these readings has no answer") // none of 200,000 random ones
	}
	return r.lie(ex, ey), r.lie(x, y), nil
}

func (r *reading) lie(x, y float64) Lie {
	l := Lie{X: units.MM(x), Y: units.MM(y), Off: units.MM(math.Hypot(x, y)), CleansUp: true}
	if !l.Off.IsZero() {
		l.High = units.Angle(math.Mod(math.Atan2(y, x)+2*math.Pi, 2*math.Pi))
	}
	for _, s := range r.all {
		least, most := s.span(x, y)
		left := Left{Zone: units.MM(most - least)}
		turned := slices.Contains(r.cut, s)
		if turned && r.stocked() {
			low, high := units.MM(s.stock+least), units.MM(s.stock+most)
			left.Least, left.Most = &low, &high
			l.CleansUp = l.CleansUp && low.Sign() >= 0
		}
		if turned && left.Zone.Cmp(l.Allowance) > 0 {
			l.Allowance = left.Zone
		}
		l.Surfaces = append(l.Surfaces, left)
	}
	return l
}

// check says where the metal does not reach.
func (l Lie) check(how string) finding.List {
	var short units.Length
	for _, s := range l.Surfaces {
		if s.Least != nil && s.Least.Cmp(short) < 0 {
			short = *s.Least
		}
	}
	if short.IsZero() {
		return nil
	}
	return finding.List{{
		Code: DoesNotCleanUp, Severity: finding.Fails,
		Text: fmt.Sprintf("The casting does not clean up %s: %s (%s) of metal is missing at its lowest place.",
			how, short.Neg().Text(units.Millimetres, 3), short.Neg().Text(units.Thousandths, 1)),
		Remedies: []string{
			"Read it once more before it is given up, with sand and flash off: one grain under the dial looks like a hollow.",
			"Leave a hollow of the skin where nothing runs on it and nobody looks, or finish it to a smaller size.",
			"Otherwise it needs another casting.",
		},
		Refs: source.Of(source.Practice()),
	}}
}

func leastSquaresRef() source.Ref {
	return source.Ref{Kind: source.Derived, Note: "least squares of readings at equal angles: twice the means of the readings with cosine and sine"}
}

func programmeRef() source.Ref {
	return source.Ref{Kind: source.Derived, Note: "linear programme over the readings"}
}
