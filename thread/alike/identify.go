package alike

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
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
	Thread   thread.Thread
	Diameter units.Length // specimen less basic size, major of a screw and minor of a nut
	Pitch    units.Length // specimen's pitch less the thread's
	Doubt    float64      // 0 in the middle of what the thread would show, 1 at its edge
	Tell     []Telling    // measurements that separate it from the first candidate; none for the first
	Findings finding.List // NotTold, where no measurement does
	Refs     source.Refs  // of the thread's size, and of what its crest may be under it
}

// NotTold is the finding of [Specimen.Identify]: no measurement tells a candidate
// from the first.
const NotTold finding.Code = "look-alikes-not-told-apart"

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
func (s Specimen) Identify() ([]Candidate, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	offDiameter, offPitch := s.uncertainty()
	var all []Candidate
	for series := thread.MetricCoarse; series <= thread.Acme; series++ {
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
			c.Doubt = max(math.Abs(c.Diameter.MM()-middle)/(reach+offDiameter.MM()), math.Abs(c.Pitch.MM())/offPitch.MM())
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
		return nil, fail.Argument("specimen", fmt.Sprintf("diameter %v, pitch %v", s.Diameter, s.Pitch),
			"fits no thread listed here", "larger uncertainty, or look at the nearest: "+strings.Join(near,
				"; "), units.ErrUnknown)
	}
	if fit < 0 {
		fit = len(all)
	}
	found := slices.Clip(all[:fit])
	for i := range found {
		c := &found[i]
		c.Refs = c.Thread.Refs().With(source.Shared(&crestRef))
		if i == 0 {
			continue
		}
		c.Tell = Distinguish(found[0].Thread, c.Thread, offDiameter, offPitch)
		if len(c.Tell) == 0 {
			c.Findings = finding.List{notTold(found[0].Thread, c.Thread)}
		}
	}
	return found, nil
}

func notTold(first, second thread.Thread) finding.Finding {
	if first.Form() == second.Form() && first.Major() == second.Major() && first.Pitch() == second.Pitch() {
		return finding.Finding{Code: NotTold, Severity: finding.Note,
			Text: fmt.Sprintf("%v and %v are one thread under two names.", first, second)}
	}
	return finding.Finding{
		Code: NotTold, Severity: finding.Caution,
		Text:     fmt.Sprintf("No measurement as close as this one tells %v from %v.", second, first),
		Remedies: []string{"Measure the pitch over more threads, or try a screw or nut that is known; do not force it."},
	}
}

// Validate says whether the specimen is usable.
func (s Specimen) Validate() error {
	switch off := s.DiameterMayBeOff.String() + ", " + s.PitchMayBeOff.String(); {
	case s.Diameter.Sign() <= 0 || s.Diameter.Cmp(units.MM(300)) > 0:
		return fail.OutOfRange("diameter of the specimen", s.Diameter, "above zero up to 300 mm")
	case s.Pitch.Sign() <= 0 || s.Pitch.Cmp(s.Diameter) > 0:
		return fail.OutOfRange("pitch of the specimen", s.Pitch, "above zero, at most the diameter")
	case s.DiameterMayBeOff.Sign() < 0 || s.PitchMayBeOff.Sign() < 0:
		return fail.OutOfRange("uncertainty", off, "zero or more")
	case s.DiameterMayBeOff.Cmp(s.Diameter) >= 0 || s.PitchMayBeOff.Cmp(s.Pitch) >= 0:
		return fail.OutOfRange("uncertainty", off, "below the diameter and the pitch")
	}
	return nil
}

// uncertainty returns what the specimen may be off.
func (s Specimen) uncertainty() (diameter, pitch units.Length) {
	diameter, pitch = s.DiameterMayBeOff, s.PitchMayBeOff
	if diameter.IsZero() {
		diameter = units.MM(0.03)
	}
	if pitch.IsZero() {
		pitch = s.Pitch.Scale(0.01)
	}
	return diameter, pitch
}

var crestRef = source.Ref{
	Kind: source.FromMemory, Title: "ISO 965-1", Edition: "1998",
	Note: "es of position g and Td of grade 6 by their formulas; the order of the candidates is a choice of this module",
}

// crestAllowance is the most by which a screw's crest lies below the basic
// size, in millimetres: es(g) and Td(6) of ISO 965-1, whose formulas are
// recalled and near enough here.
func crestAllowance(t thread.Thread) float64 {
	p := t.Pitch().MM()
	return (15 + 11*p + 180*math.Pow(p, 2.0/3)) / 1000
}
