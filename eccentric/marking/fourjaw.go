package marking

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A FourJaw is work in a four-jaw chuck whose jaws move by themselves, with a dial on
// it. The jaws are 1 to 4 as they come by the dial.
type FourJaw struct {
	// Readings are taken at equal steps of one turn, the first at jaw 1: four are those
	// at the jaws.
	Readings []units.Length

	Falls bool // the dial reads less as its plunger is pushed in
	Bore  bool // it stands in a bore, and its plunger points outwards

	Diameter units.Length // of what it runs on; zero: not given, and the work is taken to be near its place
	Pitch    units.Length // of the jaws' screws; zero: no turns

	Offset  units.Length // wanted; zero: to run true
	Towards int          // the jaw towards which it is wanted; zero: jaw 1
}

// A Move is that of one pair of jaws: one is let back, and its opposite pushes the work
// as far.
type Move struct {
	Jaw, Loosen int          // that goes in, after the other was let back
	By          units.Length // both
	Turns       float64      // of each screw; zero without a pitch

	Reads, Opposite units.Length // what the dial then shows at the jaw that went in, and at the other
}

// A Trued is how work stands in the chuck, and what puts it where it is wanted.
type Trued struct {
	Eccentricity units.Length // of the work as it stands
	Reading      units.Length // what the dial goes over in a turn of it, were it round
	High         units.Angle  // where it stands furthest out, from jaw 1 towards jaw 2, below 360 degrees
	OutOfRound   units.Length // what the dial still goes over when the work runs true
	Moves        []Move       // the larger first; none where nothing is to be done
}

// Solve returns how the work stands and the moves of its jaws. With the readings a at
// the angles t from jaw 1 the work's centre is at
//
//	x = 2/N * sum(a * cos(t))    towards jaw 1
//	y = 2/N * sum(a * sin(t))    towards jaw 2
//
// which for four readings is half the difference of each opposite two, and each pair
// moves by how far that is from where it is wanted; the jaw where the work stands out
// goes in. What is left of the readings is out of round. Without a diameter some of that,
// up to e^2/(2*R), is only that work off centre does not go up and down as a sine. From 4
// to 360 readings, of work that is less than half its diameter off centre. Least squares;
// exact for a circle whose diameter is given. See the Example.
func (c FourJaw) Solve() (Trued, error) {
	if err := c.Validate(); err != nil {
		return Trued{}, err
	}
	out := c.outwards()
	x, y := c.centre(out)
	e := math.Hypot(x, y)
	radius := count(c.Diameter) / 2
	if radius > 0 && !(e < radius) {
		return Trued{}, fail.Wrong("readings", length(2*e), "more than the diameter of the work "+c.Diameter.String(),
			"readings of work that is less than half its diameter off centre")
	}
	t := Trued{Eccentricity: length(e), Reading: length(e).Scale(2), OutOfRound: c.outOfRound(out, x, y)}
	if e > 0 {
		t.High = units.Angle(math.Mod(math.Atan2(y, x)+2*math.Pi, 2*math.Pi))
	}
	wantX, wantY := c.wanted()
	pairs := []pair{{1, 3, wantX - x}, {2, 4, wantY - y}}
	if math.Abs(pairs[1].by) > math.Abs(pairs[0].by) {
		slices.Reverse(pairs)
	}
	toX, toY := x, y
	for _, p := range pairs {
		if length(p.by).IsZero() {
			continue
		}
		if p.by > 0 { // towards the first of the pair: its opposite pushes
			p.in, p.loosen = p.loosen, p.in
		}
		if p.in%2 == 1 {
			toX = wantX
		} else {
			toY = wantY
		}
		m := Move{Jaw: p.in, Loosen: p.loosen, By: length(math.Abs(p.by)),
			Reads: c.shown(out, p.in, x, y, toX, toY), Opposite: c.shown(out, p.loosen, x, y, toX, toY)}
		if !c.Pitch.IsZero() {
			m.Turns = m.By.Ratio(c.Pitch)
		}
		t.Moves = append(t.Moves, m)
	}
	return t, nil
}

// A pair is two opposite jaws, and how far the work goes towards the first of them.
type pair struct {
	in, loosen int
	by         float64
}

// sign is how the dial goes for work that stands further out.
func (c FourJaw) sign() float64 {
	if c.Falls != c.Bore {
		return -1
	}
	return 1
}

// outwards returns how far out the work stands at each reading, from some circle.
func (c FourJaw) outwards() []float64 {
	out := make([]float64, len(c.Readings))
	for i, reading := range c.Readings {
		out[i] = c.sign() * count(reading)
	}
	return out
}

// centre returns where the centre of the work is, towards jaw 1 and towards jaw 2.
func (c FourJaw) centre(out []float64) (x, y float64) {
	n := len(out)
	x, y = harmonic(n, func(i int) float64 { return out[i] })
	radius := count(c.Diameter) / 2
	for range 50 { // what a circle that stands there has beside its sine, taken off
		if !(math.Hypot(x, y) < radius) {
			break
		}
		nextX, nextY := harmonic(n, func(i int) float64 {
			at := turn(i, n)
			return out[i] - c.stands(at, x, y) + sine(at, x, y)
		})
		if math.Abs(nextX-x)+math.Abs(nextY-y) < 0.01 {
			return nextX, nextY
		}
		x, y = nextX, nextY
	}
	return x, y
}

// harmonic returns the first harmonic of n values at equal steps.
func harmonic(n int, value func(int) float64) (x, y float64) {
	for i := range n {
		sin, cos := math.Sincos(turn(i, n))
		x += 2 / float64(n) * value(i) * cos // x = 2/N sum(a cos t)
		y += 2 / float64(n) * value(i) * sin // y = 2/N sum(a sin t)
	}
	return x, y
}

func turn(i, n int) float64 { return 2 * math.Pi * float64(i) / float64(n) }

func sine(at, x, y float64) float64 {
	sin, cos := math.Sincos(at)
	return x*cos + y*sin
}

// stands returns how far out a circle whose centre is there stands at an angle, from
// its radius; without a diameter as a sine.
func (c FourJaw) stands(at, x, y float64) float64 {
	out, radius := sine(at, x, y), count(c.Diameter)/2
	if radius == 0 {
		return out
	}
	across := sine(at-math.Pi/2, x, y)
	if math.Abs(across) >= radius {
		return math.NaN()
	}
	return out - across*across/(radius+math.Sqrt(radius*radius-across*across))
}

// outOfRound returns what the readings go over beside those of a circle.
func (c FourJaw) outOfRound(out []float64, x, y float64) units.Length {
	least, most := math.Inf(1), math.Inf(-1)
	for i, o := range out {
		rest := o - c.stands(turn(i, len(out)), x, y)
		least, most = min(least, rest), max(most, rest)
	}
	return length(most - least)
}

// wanted returns where the centre is to be.
func (c FourJaw) wanted() (x, y float64) {
	e := count(c.Offset)
	switch c.Towards {
	case 2:
		return 0, e
	case 3:
		return -e, 0
	case 4:
		return 0, -e
	}
	return e, 0
}

// shown returns what the dial shows at a jaw when the centre has moved: its reading
// there, or where none was taken what a circle has, and the change.
func (c FourJaw) shown(out []float64, jaw int, x, y, toX, toY float64) units.Length {
	n, at := len(out), float64(jaw-1)*math.Pi/2
	before := c.stands(at, x, y)
	now := before
	if n%4 == 0 {
		now = out[(jaw-1)*n/4]
	} else {
		for i, o := range out {
			now += (o - c.stands(turn(i, n), x, y)) / float64(n)
		}
	}
	return length(c.sign() * (now + c.stands(at, toX, toY) - before))
}

// Validate returns an error for readings, a diameter or an offset that cannot be.
func (c FourJaw) Validate() error {
	if n := len(c.Readings); n < 4 || n > 360 {
		return fail.OutOfRange("readings", fmt.Sprintf("%d of them", n), "from 4 to 360, at equal steps of one turn from jaw 1")
	}
	for _, r := range c.Readings {
		if err := fail.Within(fault.Named("reading", r)); err != nil {
			return err
		}
	}
	for _, l := range []struct {
		field string
		value units.Length
	}{{"diameter of the work", c.Diameter}, {"pitch of the jaws' screws", c.Pitch}, {"offset", c.Offset}} {
		if l.value.IsZero() {
			continue
		}
		if err := fail.Above(fault.Named(l.field, l.value)); err != nil {
			return err
		}
	}
	if half := c.Diameter.Scale(0.5); !c.Diameter.IsZero() && c.Offset.Cmp(half) >= 0 {
		return fail.Wrong("offset", c.Offset, "the axis of turning lies outside the work", "below half of the diameter, "+half.String())
	}
	if c.Towards < 0 || c.Towards > 4 {
		return fail.OutOfRange("jaw towards which the work is set over", c.Towards, "1, 2, 3 or 4")
	}
	return nil
}

// count returns a length in picometres.
func count(l units.Length) float64 { return float64(l.Picometres()) }

// length is the inverse of count, to the nearest picometre.
func length(v float64) units.Length { return units.Picometres(int64(math.Round(v))) }
