package wires

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const fail = fault.Package("wires")

// A Range is the range of wires that measure the pitch diameter of a thread.
type Range struct {
	Min  units.Length // stands just proud of the crests
	Best units.Length // touches the flanks at the pitch line, where an error of angle does least
	Max  units.Length // touches at the outer end of the straight flank
}

// Contains reports whether a wire serves.
func (r Range) Contains(wire units.Length) bool { return wire.Cmp(r.Min) >= 0 && wire.Cmp(r.Max) <= 0 }

// RangeOf returns the wires that serve for a thread.
//
//	Best = P/2 * sec A
//	Min  = 2 * sin A * (c + P/4 * cot A) / (1 + sin A)
//	Max  = 2 * sin A * (f + P/4 * cot A) / cos^2 A
//
//	P  pitch
//	A  half the angle of thread
//	c  height of the crest over the pitch line, (d - d2)/2
//	f  height of the outer end of the straight flank, c less the rounding, r * (1 - sin A)
//
// The groove is taken as ring-shaped. Wires are all of one diameter, hard,
// straight and round. Source: geometry. For 60 degrees it gives 0.57735, 0.50518
// and 1.01036 P, as handbooks print. A taper thread has no such range, which is
// an error.
func RangeOf(t thread.Thread) (Range, error) {
	if err := checkThread(t); err != nil {
		return Range{}, err
	}
	return rangeOf(t)
}

func rangeOf(t thread.Thread) (Range, error) {
	g := grooveOf(t)
	crest := (t.Major().MM() - t.PitchDiameter().MM()) / 2
	flank := crest - crestRadius(t)*(1-math.Sin(g.half))
	low, high := g.wires(crest, flank)
	var r Range
	for _, wire := range []struct {
		into *units.Length
		mm   float64
	}{{&r.Min, low}, {&r.Best, g.bestWire()}, {&r.Max, high}} {
		var err error
		if *wire.into, err = units.Millimetres.Of(wire.mm); err != nil {
			return Range{}, err
		}
	}
	return r, nil
}

// A Set is three wires of one diameter in the grooves of a screw. The wire lies
// in [RangeOf] the thread.
type Set struct {
	Thread thread.Thread
	Wire   units.Length
	Lead   LeadCorrection // none unless it is asked for
}

// Over returns the measurement over the wires of a screw whose pitch diameter is
// what is given.
//
//	M = E + W * (1 + 1/sin A) - P/2 * cot A     and the correction for lead angle
//
//	E  pitch diameter
//	W  wire
//	A  half the angle of thread
//	P  pitch
//
// E and M are at 20 degrees Celsius and at a light touch: on small threads a
// micrometer's ratchet presses the wires in by a micrometre or more. E is between
// the bottom of the groove and the crest; taper threads are refused. The lead
// angle is that of E. Source: general theory. Checked against 111 figures that
// handbooks print for 60 degrees and 28 of an Acme thread at steep leads.
func (s Set) Over(pitchDiameter units.Length) (units.Length, error) {
	m, err := s.Measure(pitchDiameter)
	return m.Over, err
}

// PitchDiameter returns the pitch diameter of a screw that measures so much over
// the wires; it inverts [Set.Over], whose limits hold.
func (s Set) PitchDiameter(over units.Length) (units.Length, error) {
	if err := s.check(); err != nil {
		return units.Length{}, err
	}
	t, g := s.Thread, grooveOf(s.Thread)
	plain := g.pitchDiameter(over.MM(), s.Wire.MM(), NoLeadCorrection)
	if !(math.Abs(plain-t.PitchDiameter().MM()) < t.Depth().MM()) {
		usual, err := units.Millimetres.Of(g.over(t.PitchDiameter().MM(), s.Wire.MM(), NoLeadCorrection))
		if err != nil {
			return units.Length{}, err
		}
		return units.Length{}, fail.OutOfRange("measurement over wires of "+t.Designation(), over,
			"near "+usual.Text(units.Millimetres, 3)+", which is the basic size over that wire")
	}
	e, err := units.Millimetres.Of(g.pitchDiameter(over.MM(), s.Wire.MM(), s.Lead))
	if err != nil {
		return units.Length{}, err
	}
	if err := checkPitchDiameter(t, e); err != nil {
		return units.Length{}, err
	}
	return e, nil
}

// A Window is what a good screw measures over three wires.
type Window struct {
	Min, Max units.Length
}

// Contains reports whether a measurement lies in the window.
func (w Window) Contains(over units.Length) bool { return over.Cmp(w.Min) >= 0 && over.Cmp(w.Max) <= 0 }

// The findings of [Window.Check].
const (
	OverSize  finding.Code = "screw-over-size"  // metal is left to take off
	UnderSize finding.Code = "screw-under-size" // too much is gone: it is loose, and holds by less
)

// Check says what a measurement outside the window means.
func (w Window) Check(over units.Length) finding.List {
	off := func(l units.Length) string {
		return l.Text(units.Millimetres, 4) + " (" + l.Text(units.Thousandths, 2) + ")"
	}
	switch {
	case over.Cmp(w.Max) > 0:
		return finding.List{{
			Code: OverSize, Severity: finding.Fails,
			Text:     "The screw is still too large by " + off(over.Sub(w.Max)) + " on the diameter.",
			Remedies: []string{"Take off no more than " + off(over.Sub(w.Min)) + ", and measure again."},
		}}
	case over.Cmp(w.Min) < 0:
		return finding.List{{
			Code: UnderSize, Severity: finding.Fails,
			Text:     "The screw is too small by " + off(w.Min.Sub(over)) + " on the diameter: it is loose in its nut and holds by less.",
			Remedies: []string{"Make another, or take a wider class where a loose thread will do."},
		}}
	}
	return nil
}

// Window returns the limits over wires that belong to limits of the pitch
// diameter, such as those that a class of fit gives. It is the pitch diameter
// that makes the fit: limits of the major diameter, which are wider, say
// nothing about it. Round the window inwards, with [units.RoundInward], to what
// the micrometer shows. A side without a limit is an error, as a screw is
// measured between two. Errors are those of [Set.Over].
func (s Set) Window(pitchDiameter thread.Range) (Window, error) {
	if pitchDiameter.Min.Cmp(pitchDiameter.Max) > 0 {
		return Window{}, fail.Wrong("least pitch diameter", pitchDiameter.Min,
			"above the largest, "+pitchDiameter.Max.String(), "at most the largest, and both given")
	}
	low, err := s.Over(pitchDiameter.Min)
	if err != nil {
		return Window{}, err
	}
	high, err := s.Over(pitchDiameter.Max)
	if err != nil {
		return Window{}, err
	}
	return Window{Min: low, Max: high}, nil
}

func (s Set) check() error {
	r, err := RangeOf(s.Thread)
	if err != nil {
		return err
	}
	if !leadCorrections.Known(int(s.Lead)) {
		return leadCorrections.Unknown(int(s.Lead))
	}
	if !r.Contains(s.Wire) {
		return fail.OutOfRange("wire for "+s.Thread.Designation(), s.Wire,
			r.Min.Text(units.Millimetres, 4)+" to "+r.Max.Text(units.Millimetres, 4)+", best "+r.Best.Text(units.Millimetres, 4))
	}
	return nil
}

func checkThread(t thread.Thread) error {
	if err := t.Validate(); err != nil {
		return err
	}
	if _, taper := t.Taper(); taper {
		return fail.Wrong("thread", t, "taper threads need the plane of measurement and a correction for the taper",
			"parallel threads")
	}
	return nil
}

func checkPitchDiameter(t thread.Thread, e units.Length) error {
	low, high := t.Major().Sub(t.Depth().Scale(2)), t.Major()
	if e.Cmp(low) <= 0 || e.Cmp(high) >= 0 {
		return fail.OutOfRange("pitch diameter of "+t.Designation(), e,
			"between "+low.Text(units.Millimetres, 3)+" and "+high.Text(units.Millimetres, 3))
	}
	return nil
}

// grooveOf returns the groove of the thread in millimetres.
func grooveOf(t thread.Thread) groove {
	p := t.Pitch().MM()
	return groove{half: t.Form().Angle().Radians() / 2, pitch: p, lead: p}
}

// crestRadius is the radius of the screw's crest in millimetres; zero where the
// form has a flat.
func crestRadius(t thread.Thread) float64 {
	share := 0.0
	switch t.Form() {
	case thread.FormWhitworth:
		share = 0.137329 // BS 84
	case thread.FormBA:
		share = 0.1808346 // BS 93
	case thread.FormCycle:
		share = 1.0 / 6 // BS 811, from memory; the depth of 0.5327 P follows from it
	}
	return share * t.Pitch().MM()
}
