package eccentric

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// MovedByExhaustLap returns by how much more exhaust lap moves release, which comes
// later, and compression, which comes as much earlier: the mean of both at both
// ends. With endless rods it is
//
//	asin((E + by) / r) - asin(E / r)
//
//	E    exhaust lap
//	r    half the travel
//
// What is less lap, or more clearance, is a by below zero. It is an error where
// release or compression does not happen, before or after, and where
// [Gear.Validate] fails. It is geometry. See the Example.
func (g Gear) MovedByExhaustLap(by units.Length) (units.Angle, error) {
	before, err := g.Events()
	if err != nil {
		return 0, err
	}
	if math.Abs(count(by)) > kernel.Longest {
		return 0, fail.OutOfRange("exhaust lap", by, "up to 1 km more or less")
	}
	after, err := g.withMoreExhaustLap(by).Events()
	if err != nil {
		return 0, err
	}
	sum := 0.0
	for _, end := range []End{HeadEnd, CrankEnd} {
		was, is := before.at(end), after.at(end)
		if !was.Release.Occurs || !is.Release.Occurs || !was.Compression.Occurs || !is.Compression.Occurs {
			return 0, fail.OutOfRange("exhaust lap", by, "with which both ports open to exhaust and shut again")
		}
		sum += float64(is.Release.Crank-was.Release.Crank) + float64(was.Compression.Crank-is.Compression.Crank)
	}
	return units.Angle(sum / 4), nil
}

// littleExhaustLap says of a lap that nobody can hold what it would do, and what
// the usual error of making does.
func (c *checker) littleExhaustLap(f *Finding) {
	held, lap := length(kernel.Held), "lap"
	head, crank := c.gear.LapsAt(HeadEnd).Exhaust, c.gear.LapsAt(CrankEnd).Exhaust
	switch {
	case f.End == BothEnds && head.Sign() != crank.Sign():
		lap = "lap at one end and clearance at the other"
	case c.gear.LapsAt(f.End).Exhaust.Sign() < 0:
		lap = "clearance"
	}
	// To a micron, as the two are near each other.
	micron := func(l units.Length) string {
		return trim(l.Decimal(units.Millimetres, 3)) + " mm" + strings.TrimPrefix(both(l), mm(l))
	}
	f.tell("The exhaust %s is %s. That is less than the %s to which a cavity and the ports under it are made with care, so that"+
		" nobody will know whether it is there.", lap, micron(f.Amount), micron(held))
	lineOnLine := c.gear.withExhaustLap(units.Length{})
	if moved, err := lineOnLine.MovedByExhaustLap(held); err == nil {
		f.tell(" From line on line an error of %s moves release and compression by %s", micron(held), deg(moved))
		if own, err := lineOnLine.MovedByExhaustLap(f.Amount); err == nil {
			f.tell(", and this %s by %s", lap, deg(own))
		}
		f.Text += "."
	}
	if head == crank {
		if sound, edge := exhaustEdge(lineOnLine); sound.Validate() == nil {
			f.remedy(c.then(sound, edge+", line on line with the ports."))
		}
	}
}
