package alike

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Substitute is a thread that may take another's place on the drawing, screw
// and hole together, and what follows from the change.
type Substitute struct {
	Thread         thread.Thread
	DiameterChange units.Length     // new major diameter less old
	PitchChange    float64          // share by which the new pitch is longer
	WallChange     units.Length     // metal left beside or behind the hole: less half the change of diameter
	Clearance      thread.Clearance // the usual hole for the new screw
	HoleChange     units.Length     // that hole less the usual one of the old
	Engagement     units.Length     // 1.25 new diameters, the rule for brass, iron and steel
	Hexagon        thread.Hexagon   // zero where there is no table
	HexagonChange  units.Length     // across flats, new less old; zero where either is unknown
	AreaChange     float64          // share by which the new stress area is larger

	// What becomes of a screw that was left over. Neither is ever a fit.
	OldInNew, NewInOld Mating

	Findings finding.List // of the left-over screws, a danger where they run loose, and of what the new one costs
	Refs     source.Refs  // of the sizes
	distance float64
}

// The findings of [Substitutes], beside those of [Mate].
const (
	WeakerScrew finding.Code = "weaker-screw" // the new stress area is the smaller
	ThinnerWall finding.Code = "thinner-wall" // the new hole is the larger
)

// String returns the change in one line.
func (s Substitute) String() string {
	return fmt.Sprintf("%v: %s mm on the diameter, pitch %s %%", s.Thread, fault.Signed(s.DiameterChange.MM(), 3),
		fault.Signed(100*s.PitchChange, 1))
}

// furthest is the share of diameter beyond which a thread is no substitute.
const furthest = 0.20

// Substitutes returns the threads of the given series nearest to a thread,
// nearest first, none more than a fifth away in diameter. With no series it
// looks through all parallel fastening series but the thread's own.
//
//	distance = ((dD/D)^2 + (dP/(4*P))^2)^(1/2)
//
//	D, dD  diameter and its change
//	P, dP  pitch and its change
//
// Diameter counts four times as much as pitch, share for share, because holes,
// hexagon and wall go by it; the weight is a choice and no standard's. A
// substitute replaces screw, tapped hole and nut together. Errors: a taper
// thread, a series without parallel threads, and no thread within reach.
func Substitutes(t thread.Thread, among ...thread.Series) ([]Substitute, error) {
	if err := checkParallel(t); err != nil {
		return nil, err
	}
	if len(among) == 0 {
		among = slices.DeleteFunc(fasteningSeries(), func(s thread.Series) bool { return s == t.Series() })
	}
	var own []thread.Thread
	for _, series := range among {
		if fastening := fasteningSeries(); !slices.Contains(fastening, series) {
			return nil, fail.Unknown("series", series, "the parallel fastening series: "+listed(fastening))
		}
		own = slices.AppendSeq(own, series.All())
	}
	return SubstitutesAmong(t, own...)
}

// SubstitutesAmong is [Substitutes] for the threads for which somebody has taps and
// dies, of any parallel series. The thread itself is passed over.
func SubstitutesAmong(t thread.Thread, own ...thread.Thread) ([]Substitute, error) {
	if err := checkParallel(t); err != nil {
		return nil, err
	}
	oldHexagon, errOld := t.Hexagon()
	oldClearance, err := t.UsualClearance()
	if err != nil {
		return nil, err
	}
	var found []Substitute
	for _, other := range own {
		if err := checkParallel(other); err != nil {
			return nil, err
		}
		if other == t || math.Abs(other.Major().Ratio(t.Major())-1) > furthest {
			continue
		}
		s, err := substitute(t, other)
		if err != nil {
			return nil, err
		}
		s.HoleChange = s.Clearance.Hole.Sub(oldClearance.Hole)
		if errOld == nil && s.Hexagon.Standard != "" {
			s.HexagonChange = s.Hexagon.Flats.Max.Sub(oldHexagon.Flats.Max)
		}
		found = append(found, s)
	}
	if len(found) == 0 {
		return nil, fail.Wrong("thread", t, "nothing to choose from is near it",
			fmt.Sprintf("threads within %.0f %% of its diameter to choose from", 100*furthest))
	}
	slices.SortStableFunc(found, func(a, b Substitute) int { return cmp.Compare(a.distance, b.distance) })
	return found, nil
}

// substitute works one of them out; what is compared with the old thread's hole
// and hexagon is the caller's.
func substitute(t, other thread.Thread) (Substitute, error) {
	oldArea, newArea := strength.StressAreaOf(t), strength.StressAreaOf(other)
	stud, err := strength.StudLengthFor(other, strength.BrassIronSteel)
	if err != nil {
		return Substitute{}, err
	}
	s := Substitute{
		Thread:         other,
		DiameterChange: other.Major().Sub(t.Major()),
		PitchChange:    other.Pitch().Ratio(t.Pitch()) - 1,
		WallChange:     t.Major().Sub(other.Major()).Scale(0.5),
		Engagement:     stud.Engaged,
		AreaChange:     float64(newArea.Area/oldArea.Area) - 1,
		Refs:           other.Refs().With(t.Refs(), newArea.Refs, oldArea.Refs),
	}
	s.distance = math.Hypot(s.DiameterChange.Ratio(t.Major()), s.PitchChange/4)
	if s.Clearance, err = other.UsualClearance(); err != nil {
		return Substitute{}, err
	}
	if hexagon, err := other.Hexagon(); err == nil {
		s.Hexagon = hexagon
	}
	if s.OldInNew, err = Mate(t, other); err != nil {
		return Substitute{}, err
	}
	if s.NewInOld, err = Mate(other, t); err != nil {
		return Substitute{}, err
	}
	s.Findings = append(leftOver(s.OldInNew, "a screw left over"), leftOver(s.NewInOld, "a nut left over")...)
	if less := math.Round(-100 * s.AreaChange); less > 0 { // what rounds to nothing is not worth a word
		s.Findings = append(s.Findings, finding.Finding{
			Code: WeakerScrew, Severity: finding.Caution, Refs: newArea.Refs,
			Text: fmt.Sprintf("A screw of %v has %.0f %% less stress area than one of %v and holds that much less.",
				other, less, t),
			Remedies: []string{"Take more screws, or a stronger steel."},
		})
	}
	if s.WallChange.Sign() < 0 {
		s.Findings = append(s.Findings, finding.Finding{
			Code: ThinnerWall, Severity: finding.Note,
			Text: fmt.Sprintf("The hole for %v leaves %s less metal beside it.", other,
				s.WallChange.Abs().Text(units.Millimetres, 3)),
		})
	}
	s.Findings.Sort()
	return s, nil
}

// leftOver is what becomes of a screw or nut of the old thread that stays in the
// box. One that jams or does not start shows itself, and is worth a note; one that
// runs loose stays the danger that it is.
func leftOver(m Mating, where string) finding.List {
	list := m.Findings.At(where)
	for i := range list {
		if list[i].Severity == finding.Fails {
			list[i].Severity = finding.Note
		}
	}
	return list
}

// fasteningSeries returns the series of screws and nuts that are still made: no pipe
// and traversing threads, and no sizes that the standard has dropped.
func fasteningSeries() []thread.Series {
	return slices.DeleteFunc(thread.ListSeries(), func(s thread.Series) bool {
		form := s.Form()
		none := s == thread.Special || s == thread.UNS
		return none || s == thread.MetricOld || s.Pipe() || form == thread.FormTrapezoidal || form == thread.FormAcme
	})
}

func listed(series []thread.Series) string {
	var names []string
	for _, s := range series {
		names = append(names, s.String())
	}
	return strings.Join(names, ", ")
}
