package thread

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Specimen is a thread with no name: what was measured on it, and how far
// each figure may be off.
type Specimen struct {
	Diameter         units.Length // over the crests of a screw, or the bore of a tapped hole or nut
	DiameterMayBeOff units.Length // either way; zero: 0.03 mm, a good caliper
	Pitch            units.Length // the length of n threads over n
	PitchMayBeOff    units.Length // either way; zero: 1 % of the pitch
	Internal         bool         // a tapped hole or a nut
}

// A Candidate is a thread that a specimen may be.
type Candidate struct {
	Thread   Thread
	Diameter units.Length // specimen less basic size, major of a screw and minor of a nut
	Pitch    units.Length // specimen's pitch less the thread's
	Doubt    float64      // 0 in the middle of what the thread would show, 1 at its edge
	Tell     []Telling    // measurements that separate it from the first candidate; none for the first
}

// String returns the candidate and how it differs in one line.
func (c Candidate) String() string {
	return fmt.Sprintf("%v: diameter %+.3f mm, pitch %+.4f mm from it", c.Thread, c.Diameter.MM(), c.Pitch.MM())
}

// Identify returns the threads that a specimen may be, likeliest first, with
// the measurements that tell each from the first.
//
// A screw's crest lies below the basic size by up to the tolerance that ISO 965
// class 6g would leave, es + 180 P^(2/3) micrometres; a tapped hole's bore lies
// above the basic minor diameter by up to half the depth of thread, as holes
// are drilled. What the specimen may be off is added at both ends. Doubt is the
// larger of the two distances from the middle of what the thread would show, as
// a share of the way to the edge; beyond 1 it is no candidate. Wear makes
// screws smaller still: allow for it in DiameterMayBeOff.
//
// All series are searched, taper threads excepted, which need their taper
// measured. Lengths must be above zero, and what they may be off below them.
// When nothing fits, the error names the nearest three. The order is a
// judgement, not a proof: the measurements under Tell are.
func Identify(s Specimen) ([]Candidate, error) {
	if s.Diameter.Sign() <= 0 || s.Diameter.Cmp(units.MM(300)) > 0 {
		return nil, argument("diameter of the specimen", s.Diameter.String(), "above zero up to 300 mm", units.ErrOutOfRange)
	}
	if s.Pitch.Sign() <= 0 || s.Pitch.Cmp(s.Diameter) > 0 {
		return nil, argument("pitch of the specimen", s.Pitch.String(), "above zero, at most the diameter", units.ErrOutOfRange)
	}
	if s.DiameterMayBeOff.Sign() < 0 || s.PitchMayBeOff.Sign() < 0 {
		return nil, argument("uncertainty", s.DiameterMayBeOff.String()+", "+s.PitchMayBeOff.String(), "zero or more", units.ErrOutOfRange)
	}
	if s.DiameterMayBeOff.Cmp(s.Diameter) >= 0 || s.PitchMayBeOff.Cmp(s.Pitch) >= 0 {
		return nil, argument("uncertainty", s.DiameterMayBeOff.String()+", "+s.PitchMayBeOff.String(), "below the diameter and the pitch", units.ErrOutOfRange)
	}
	offDiameter, offPitch := s.uncertainty()
	var all []Candidate
	for series := MetricCoarse; series <= Acme; series++ {
		for t := range series.All() {
			if _, taper := t.Taper(); taper {
				continue
			}
			c := Candidate{Thread: t, Pitch: s.Pitch.Sub(t.Pitch())}
			c.Diameter = s.Diameter.Sub(t.Major())
			middle, reach := -crestAllowance(t)/2, crestAllowance(t)/2
			if s.Internal {
				c.Diameter = s.Diameter.Sub(t.Minor())
				reach = (t.Major().MM() - t.Minor().MM()) / 4
				middle = reach
			}
			c.Doubt = max(math.Abs(c.Diameter.MM()-middle)/(reach+offDiameter), math.Abs(c.Pitch.MM())/offPitch)
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Candidate) int { return cmp.Compare(a.Doubt, b.Doubt) })
	fit := slices.IndexFunc(all, func(c Candidate) bool { return c.Doubt > 1 })
	if fit == 0 {
		var near []string
		for _, c := range all[:3] {
			near = append(near, c.String())
		}
		return nil, wrong("specimen", fmt.Sprintf("diameter %v, pitch %v", s.Diameter, s.Pitch), "fits no thread listed here", "larger uncertainty, or look at the nearest: "+strings.Join(near, "; "), units.ErrUnknown)
	}
	if fit < 0 {
		fit = len(all)
	}
	found := slices.Clip(all[:fit])
	for i := range found[1:] {
		found[i+1].Tell = Distinguish(found[0].Thread, found[i+1].Thread, mm(offDiameter), mm(offPitch))
	}
	return found, nil
}

// uncertainty returns what the specimen may be off in millimetres.
func (s Specimen) uncertainty() (diameter, pitch float64) {
	diameter, pitch = s.DiameterMayBeOff.MM(), s.PitchMayBeOff.MM()
	if diameter == 0 {
		diameter = 0.03
	}
	if pitch == 0 {
		pitch = s.Pitch.MM() / 100
	}
	return diameter, pitch
}

// crestAllowance is the most by which a screw's crest lies below the basic
// size, in millimetres: es(g) and Td(6) of ISO 965-1, whose formulas are
// recalled and near enough here.
func crestAllowance(t Thread) float64 {
	p := t.Pitch().MM()
	return (15 + 11*p + 180*math.Pow(p, 2.0/3)) / 1000
}
