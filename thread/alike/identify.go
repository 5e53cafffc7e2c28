package alike

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Specimen is a thread with no name: what was measured on it, and how far
// each figure may be off.
type Specimen struct {
	Diameter         units.Length // over the crests of a screw, or the bore of a tapped hole or nut; zero: not measured
	DiameterMayBeOff units.Length // either way; zero: 0.03 mm, a good caliper
	Pitch            units.Length // the length of n threads over n
	PitchMayBeOff    units.Length // either way; zero: 1 % of the pitch
	Angle            units.Angle  // between the flanks, by a gauge against the light; zero: not looked at
	Internal         bool         // a tapped hole or a nut
}

// A Candidate is a thread that a specimen may be.
type Candidate struct {
	Thread   thread.Thread
	Diameter units.Length // specimen less basic size, major of a screw and minor of a nut; zero where none was measured
	Pitch    units.Length // specimen's pitch less the thread's
	Doubt    float64      // 0 for what the thread would show, 1 as far off as the measurements may be
	Tell     []Telling    // measurements that separate it from the first candidate; none for the first
	Findings finding.List // NotTold, where no measurement does
	Refs     source.Refs  // of the thread's size, and of what its crest may be under it
	byPitch  bool         // no diameter was measured
}

// NotTold is the finding of [Specimen.Identify]: no measurement tells a candidate
// from the first.
const NotTold finding.Code = "look-alikes-not-told-apart"

// String returns the candidate and how it differs in one line.
func (c Candidate) String() string {
	if c.byPitch {
		return fmt.Sprintf("%v: pitch %s mm from it", c.Thread, fault.Signed(c.Pitch.MM(), 4))
	}
	return fmt.Sprintf("%v: diameter %s mm, pitch %s mm from it", c.Thread, fault.Signed(c.Diameter.MM(), 3),
		fault.Signed(c.Pitch.MM(), 4))
}

// Identify returns the threads that a specimen may be, likeliest first, with
// the measurements that tell each from the first.
//
// A screw's crest lies below the basic size by up to the tolerance that ISO 965
// class 6g would leave, es + 180 P^(2/3) micrometres; a tapped hole's bore lies
// above the basic minor diameter by up to half the depth of thread, as holes
// are drilled. Inside that, and with the very pitch, there is no doubt. What the
// specimen is outside it counts as a share of what it may be off; the larger of
// the shares of diameter and pitch is the Doubt, and beyond 1 it is no candidate.
// Where two are in equal doubt the one nearest to its basic size is first. Wear
// makes screws smaller still: allow for it in DiameterMayBeOff.
//
// Without a diameter the pitch alone decides, and the list is long: the threads of
// one pitch stand series by series, from the smallest. An angle leaves the forms
// within 2 degrees of it.
//
// All series are searched, taper threads excepted, which need their taper
// measured. Pitches are above zero, diameters not below them, and what they may be
// off is less than they are. When nothing fits, the error names the nearest three.
// The order is a judgement, not a proof: the measurements under Tell are.
func (s Specimen) Identify() ([]Candidate, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	offDiameter, offPitch := s.uncertainty()
	var all []Candidate
	for _, series := range thread.ListSeries() {
		for t := range series.All() {
			if _, taper := t.Taper(); taper || s.Angle != 0 && !angleFits(s.Angle, t.Form()) {
				continue
			}
			c := Candidate{Thread: t, Pitch: s.Pitch.Sub(t.Pitch()), byPitch: s.Diameter.IsZero()}
			c.Doubt = math.Abs(c.Pitch.MM()) / offPitch.MM()
			if !c.byPitch {
				low, high := -crestAllowance(t), 0.0
				c.Diameter = s.Diameter.Sub(t.Major())
				if s.Internal {
					c.Diameter = s.Diameter.Sub(t.Minor())
					low, high = 0, (t.Major().MM()-t.Minor().MM())/2
				}
				outside := max(low-c.Diameter.MM(), c.Diameter.MM()-high, 0)
				c.Doubt = max(c.Doubt, outside/offDiameter.MM())
			}
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(a.Doubt, b.Doubt), a.Diameter.Abs().Cmp(b.Diameter.Abs()))
	})
	fit := slices.IndexFunc(all, func(c Candidate) bool { return c.Doubt > 1 })
	if fit == 0 {
		var near []string
		for _, c := range all[:min(3, len(all))] {
			near = append(near, c.String())
		}
		given := fmt.Sprintf("diameter %v, pitch %v", s.Diameter, s.Pitch)
		if s.Diameter.IsZero() {
			given = fmt.Sprintf("pitch %v", s.Pitch)
		}
		return nil, fail.Argument("specimen", given, "fits no thread listed here",
			"larger uncertainty, or look at the nearest: "+strings.Join(near, "; "), units.ErrUnknown)
	}
	if fit < 0 {
		fit = len(all)
	}
	found := slices.Clip(all[:fit])
	for i := range found {
		c := &found[i]
		c.Refs = c.Thread.Refs()
		if !s.Internal && !c.byPitch {
			c.Refs = c.Refs.With(source.Shared(&crestRef))
		}
		if i == 0 {
			continue
		}
		c.Tell = distinguish(found[0].Thread, c.Thread, offDiameter, offPitch, s.Internal)
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
	case s.Diameter.Sign() < 0 || s.Diameter.Cmp(units.MM(300)) > 0:
		return fail.OutOfRange("diameter of the specimen", s.Diameter, "above zero up to 300 mm, or zero where it was not measured")
	case s.Diameter.IsZero() && !s.DiameterMayBeOff.IsZero():
		return fail.Wrong("uncertainty of the diameter", s.DiameterMayBeOff, "goes with a diameter", "both, or neither")
	case s.Pitch.Sign() <= 0 || s.Pitch.Cmp(units.MM(50)) > 0:
		return fail.OutOfRange("pitch of the specimen", s.Pitch, "above zero up to 50 mm")
	case !s.Diameter.IsZero() && s.Pitch.Cmp(s.Diameter) > 0:
		return fail.OutOfRange("pitch of the specimen", s.Pitch, "above zero, at most the diameter")
	case s.Angle != 0 && !slices.ContainsFunc(thread.Forms(), func(f thread.Form) bool { return angleFits(s.Angle, f) }):
		return fail.OutOfRange("angle of the specimen", s.Angle, "within 2 deg of 60, 55, 47.5, 30 or 29 deg")
	case s.DiameterMayBeOff.Sign() < 0 || s.PitchMayBeOff.Sign() < 0:
		return fail.OutOfRange("uncertainty", off, "zero or more")
	case !s.Diameter.IsZero() && s.DiameterMayBeOff.Cmp(s.Diameter) >= 0, s.PitchMayBeOff.Cmp(s.Pitch) >= 0:
		return fail.OutOfRange("uncertainty", off, "below the diameter and the pitch")
	}
	return nil
}

// angleFits reports whether an angle is that of a form, as a gauge tells it.
func angleFits(a units.Angle, f thread.Form) bool {
	return math.Abs((a - f.Angle()).Degrees()) <= 2
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
