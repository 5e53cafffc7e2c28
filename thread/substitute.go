package thread

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A Substitute is a thread that may take another's place on the drawing, screw
// and hole together, and what follows from the change.
type Substitute struct {
	Thread         Thread
	DiameterChange units.Length // new major diameter less old
	PitchChange    float64      // share by which the new pitch is longer
	WallChange     units.Length // metal left beside or behind the hole: less half the change of diameter
	Clearance      Clearance    // the usual hole for the new screw
	HoleChange     units.Length // that hole less the usual one of the old
	Engagement     units.Length // 1.25 new diameters, the rule for brass, iron and steel
	Hexagon        Hexagon      // zero where there is no table
	HexagonChange  units.Length // across flats, new less old; zero where either is unknown
	AreaChange     float64      // share by which the new stress area is larger

	// What becomes of a screw that was left over. Neither is ever a fit.
	OldInNew, NewInOld Mating
	distance           float64
}

// String returns the change in one line.
func (s Substitute) String() string {
	return fmt.Sprintf("%v: %+.3f mm on the diameter, pitch %+.1f %%", s.Thread, s.DiameterChange.MM(), 100*s.PitchChange)
}

// usualClearance returns ISO 273 medium for a metric thread, a chart's hole for
// another, and the hole for a small cover where neither has one.
func (t Thread) usualClearance() (Clearance, error) {
	class := ChartClearance
	if t.Form() == FormISO {
		class = MediumISO273
	}
	if c, err := t.ClearanceHole(class); err == nil {
		return c, nil
	}
	return t.ClearanceHole(CoverClearance)
}

// furthest is the share of diameter beyond which a thread is no substitute.
const furthest = 0.20

// Substitutes returns the threads of the given series nearest to a thread,
// nearest first, none more than a fifth away in diameter. With no series it
// looks through all parallel fastening series but the thread's own.
//
//	distance = ((dD/D)^2 + (dP/4P)^2)^(1/2)
//
// Diameter counts four times as much as pitch, share for share, because holes,
// hexagon and wall go by it; the weight is a choice and no standard's. A
// substitute replaces screw, tapped hole and nut together. Errors: a taper
// thread, a series without parallel threads, and no thread within reach.
func Substitutes(t Thread, among ...Series) ([]Substitute, error) {
	if t.Form() == 0 {
		return nil, noThread()
	}
	if _, taper := t.Taper(); taper {
		return nil, argument("thread", t.Designation(), "parallel threads", units.ErrOutOfRange)
	}
	if len(among) == 0 {
		for _, s := range fasteningSeries {
			if s != t.Series() {
				among = append(among, s)
			}
		}
	}
	oldHexagon, errOld := t.Hexagon()
	oldClearance, err := t.usualClearance()
	if err != nil {
		return nil, err
	}
	var found []Substitute
	for _, series := range among {
		if !slices.Contains(fasteningSeries[:], series) {
			return nil, argument("series", series.String(), "the parallel fastening series: metric coarse, metric fine, UNC, UNF, UNEF, BSW, BSF, BA, ME, BSB, BSC", units.ErrUnknown)
		}
		for other := range series.All() {
			if other == t || math.Abs(other.Major().Ratio(t.Major())-1) > furthest {
				continue
			}
			s := Substitute{
				Thread:         other,
				DiameterChange: other.Major().Sub(t.Major()),
				PitchChange:    other.Pitch().Ratio(t.Pitch()) - 1,
				WallChange:     t.Major().Sub(other.Major()).Scale(0.5),
				Engagement:     other.Major().Scale(ruledDiameters[BrassIronSteel].engaged),
				AreaChange:     float64(other.StressArea().Area/t.StressArea().Area) - 1,
			}
			s.distance = math.Hypot(s.DiameterChange.Ratio(t.Major()), s.PitchChange/4)
			var err error
			if s.Clearance, err = other.usualClearance(); err != nil {
				return nil, err
			}
			s.HoleChange = s.Clearance.Hole.Sub(oldClearance.Hole)
			if hexagon, err := other.Hexagon(); err == nil {
				s.Hexagon = hexagon
				if errOld == nil {
					s.HexagonChange = hexagon.Flats.Sub(oldHexagon.Flats)
				}
			}
			if s.OldInNew, err = Mate(t, other); err != nil {
				return nil, err
			}
			if s.NewInOld, err = Mate(other, t); err != nil {
				return nil, err
			}
			found = append(found, s)
		}
	}
	if len(found) == 0 {
		return nil, argument("thread", t.Designation(), fmt.Sprintf("one with another of the series within %.0f %% of its diameter", 100*furthest), units.ErrOutOfRange)
	}
	slices.SortStableFunc(found, func(a, b Substitute) int { return cmp.Compare(a.distance, b.distance) })
	return found, nil
}

var fasteningSeries = [...]Series{MetricCoarse, MetricFine, UNC, UNF, UNEF, BSW, BSF, BA, ME, BSB, BSC}
