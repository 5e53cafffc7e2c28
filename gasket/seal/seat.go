package seal

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Seat is an O-ring in its groove.
type Seat struct {
	Groove                   Groove
	DiameterMin, DiameterMax units.Length // of the groove's bottom
	Stretch                  float64      // of the ring, at the nominal inside diameter; negative: it is compressed
	SqueezeMin, SqueezeMax   float64      // share of the section, with all tolerances and the thinning by stretch
	FillMax                  float64      // greatest share of the groove that the ring takes up
	Findings                 finding.List
	Refs                     source.Refs // of ring and groove
}

var (
	guide = source.Ref{
		Kind: source.Published, Title: "Seal maker's design guide", Edition: "first published 1989, later edition",
		Locator: "section 3", Note: "stretch of 1 to 5 percent, 2 as the ideal",
	}
	smallGlands = source.Ref{
		Kind: source.Published, Title: "O-ring supplier's page on dynamic glands", Note: "diameters below 0.500 in",
	}
	fitting = source.Ref{
		Kind: source.Published, Title: "O-ring supplier's page on dynamic glands", Note: "stretch in fitting",
	}
	filling = source.Ref{
		Kind: source.Published, Title: "O-ring supplier's page on dynamic glands",
		Note: "fill up to 85 percent moving, 90 percent static",
	}
)

// OnPiston returns the groove for a ring on a piston in a bore, and how the ring
// sits in it.
//
//	bottom  = bore - 2 * depth
//	stretch = bottom / inside - 1
//	squeeze = (w - depth) / w
//	fill    = (pi / 4) * w^2 / (depth * width)
//	w^2 * (inside + w) is the same before and after the ring is stretched
//
// The depth is that of the published groove and has the clearance of the piston
// in it. The section w is thinned by the stretch: the ring keeps its volume, and
// its section stays round, as the seal maker's design guide takes it (section 5).
// The findings judge stretch, squeeze, fill and how the ring goes over the piston.
// Duty Face is an error, as is a bore in which no groove is left. See the example
// of [RingsOnPiston].
func (r Ring) OnPiston(bore units.Length, duty Duty) (Seat, error) {
	g, err := r.groove(bore, duty)
	if err != nil {
		return Seat{}, err
	}
	s := Seat{Groove: g, DiameterMin: bore.Sub(g.DepthMax.Scale(2)), DiameterMax: bore.Sub(g.DepthMin.Scale(2))}
	if s.DiameterMin.Sign() <= 0 {
		return Seat{}, fail.OutOfRange("bore", bore, "more than twice the depth of the groove, "+g.DepthMax.Scale(2).String())
	}
	middle := s.DiameterMin.Add(s.DiameterMax).Scale(0.5)
	// the deepest groove has the smallest bottom
	s.fit(r, middle.Ratio(r.Inside)-1, s.DiameterMin, s.DiameterMax)
	if over := bore.Ratio(r.Inside) - 1; over > mostFitting {
		s.Findings = append(s.Findings, finding.Finding{
			Code: RingFitting, Severity: finding.Caution,
			Text:     fmt.Sprintf("To go over the piston the ring is stretched by %.0f percent; more than 50 is not recommended.", 100*over),
			Remedies: []string{"Make the piston in two parts, or give the ring time to draw in again before it goes into the bore."},
			Refs:     source.Shared(&fitting),
		})
	}
	return s, nil
}

// InGland returns the groove for a ring in a gland round a rod, and how the ring
// sits in it.
//
//	bottom  = rod + 2 * depth
//	stretch = rod / inside - 1
//
// The rest is as in [Ring.OnPiston]. See the example.
func (r Ring) InGland(rod units.Length, duty Duty) (Seat, error) {
	g, err := r.groove(rod, duty)
	if err != nil {
		return Seat{}, err
	}
	s := Seat{Groove: g, DiameterMin: rod.Add(g.DepthMin.Scale(2)), DiameterMax: rod.Add(g.DepthMax.Scale(2))}
	s.fit(r, rod.Ratio(r.Inside)-1, rod, rod)
	return s, nil
}

func (r Ring) groove(diameter units.Length, duty Duty) (Groove, error) {
	if err := radial(duty); err != nil {
		return Groove{}, err
	}
	err := fail.Above(fault.Named("diameter", diameter), fault.Named("inside diameter of the O-ring", r.Inside))
	if err != nil {
		return Groove{}, err
	}
	if r.InsideTolerance.Sign() < 0 || r.InsideTolerance.Cmp(r.Inside) >= 0 ||
		r.SectionTolerance.Sign() < 0 || r.SectionTolerance.Cmp(r.Section) >= 0 {
		tolerances := r.InsideTolerance.String() + " and " + r.SectionTolerance.String()
		return Groove{}, fail.OutOfRange("tolerances of the O-ring", tolerances,
			"zero or more, and less than its inside diameter and section")
	}
	return GrooveFor(r.Section, duty)
}

// radial returns an error for a duty that no ring of a piston or gland has.
func radial(duty Duty) error {
	if duty != Dynamic && duty != Static {
		return fail.OutOfRange("duty of the O-ring", duty, "dynamic or static for a piston or gland")
	}
	return nil
}

const (
	// mostStretch is the seal maker's: 1 to 5 percent, 2 as the ideal, and no more.
	mostStretch = 0.05
	// Below 1/2 in the sizes lie so far apart that the published grooves stretch
	// rings more; 006 on its 1/8 in comes to 9.6 percent.
	smallStretch = 0.10
	mostFitting  = 0.50 // of a ring while it is fitted; O-ring supplier's page on dynamic glands
)

// small reports whether what a ring goes round is below 1/2 in.
func small(round units.Length) bool { return round.Cmp(units.InchFraction(1, 2)) < 0 }

// mostFill is the upper end of an O-ring supplier's range.
func mostFill(d Duty) float64 {
	if d == Dynamic {
		return 0.85
	}
	return 0.90
}

// leastStretch is the stretch, below zero, at which a ring at its lower limit is
// just on size.
func (r Ring) leastStretch() float64 { return -r.InsideTolerance.Ratio(r.Inside) }

// fit works out the seat of a ring round a diameter: deep, where the groove is
// deepest, and shallow, where it is least so.
func (s *Seat) fit(r Ring, stretch float64, deep, shallow units.Length) {
	s.Stretch = stretch
	s.Refs = r.Refs.With(s.Groove.Refs)
	// at its thinnest the ring is the smallest there is, and stretched the most
	least := thinned(r.Section.Sub(r.SectionTolerance), r.Inside.Sub(r.InsideTolerance), deep)
	most := thinned(r.Section.Add(r.SectionTolerance), r.Inside.Add(r.InsideTolerance), shallow)
	s.SqueezeMin = 1 - s.Groove.DepthMax.MM()/least
	s.SqueezeMax = 1 - s.Groove.DepthMin.MM()/most
	narrowest := s.Groove.Width.Sub(s.Groove.WidthTolerance)
	s.FillMax = math.Pi / 4 * most * most / (s.Groove.DepthMin.MM() * narrowest.MM())
	s.judge(r, stretch, shallow)
}

// judge says what is wrong with the seat, the fault before what follows from it.
func (s *Seat) judge(r Ring, stretch float64, round units.Length) {
	say := func(code finding.Code, severity finding.Severity, ref *source.Ref, text string, remedies ...string) {
		s.Findings = append(s.Findings, finding.Finding{
			Code: code, Severity: severity, Text: text, Remedies: remedies, Refs: source.Shared(ref),
		})
	}
	switch {
	case stretch > mostStretch && stretch <= smallStretch && small(round):
		say(RingStretch, finding.Note, &smallGlands, fmt.Sprintf("The ring is stretched by %.1f percent. The guides "+
			"want 5 at most and make an exception below 1/2 in, where the sizes lie far apart; it wears out "+
			"sooner.", 100*stretch))
	case stretch > mostStretch:
		say(RingStretch, finding.Caution, &guide, fmt.Sprintf("The ring is stretched by %.1f percent; more than 5 thins it and shortens its life.", 100*stretch),
			"Take the next larger ring.")
	case stretch < r.leastStretch():
		say(RingLoose, finding.Caution, &guide, fmt.Sprintf("The ring is %.1f percent larger than what it sits on; it "+
			"may be pinched when the parts go together.", -100*stretch),
			"Take the next smaller ring.")
	}
	if s.SqueezeMin <= 0 {
		s.Findings = append(s.Findings, finding.Finding{
			Code: RingSqueeze, Severity: finding.Fails, Text: "At its thinnest the ring is not squeezed at all, and leaks.",
			Remedies: []string{"Take a ring that is stretched less, or a shallower groove."}, Refs: s.Groove.Refs,
		})
	}
	if limit := mostFill(s.Groove.Duty); s.FillMax > limit {
		say(RingFill, finding.Caution, &filling, fmt.Sprintf("The ring may fill %.0f percent of the groove, and %.0f "+
			"is the most for %s rings; it swells in service and then has nowhere to go.", 100*s.FillMax, 100*limit, s.Groove.Duty),
			"Widen the groove.")
	}
	s.Findings.Sort()
}

// thinned returns the section, in millimetres, of a ring that is stretched until
// it goes round a diameter: of the same volume, and still round. A ring that is
// not stretched keeps its section.
func thinned(section, inside, round units.Length) float64 {
	w, d, to := section.MM(), inside.MM(), round.MM()
	if to <= d {
		return w
	}
	volume := w * w * (d + w)
	for range 6 { // Newton, from above: the digits right double each time
		w -= (w*w*(to+w) - volume) / (w * (2*to + 3*w))
	}
	return w
}
