package thread

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
)

// WireRange is the range of wires that measure the pitch diameter of a thread.
type WireRange struct {
	Least units.Length // stands just proud of the crests
	Best  units.Length // touches the flanks at the pitch line, where an error of angle does least
	Most  units.Length // touches at the outer end of the straight flank
}

// Wires returns the wires that serve for a thread.
//
//	best   W = P/2 sec A
//	least  W = 2 sin A (c + P/4 cot A)/(1 + sin A)
//	most   W = 2 sin A (f + P/4 cot A)/cos^2 A
//
// with P the pitch, A half the angle of thread, c the height of the crest over
// the pitch line, (d - d2)/2, and f that of the outer end of the straight flank,
// which is c less the rounding, r (1 - sin A). The groove is taken as
// ring-shaped. Wires are all of one diameter, hard, straight and round.
//
// Source: geometry. For 60 degrees it gives 0.57735, 0.50518 and 1.01036 P, as
// handbooks print. Taper threads have no such range: [Thread.OverWires] refuses
// them. The range is zero for no thread.
func (t Thread) Wires() WireRange {
	if t.Form() == 0 {
		return WireRange{}
	}
	g := t.groove()
	crest := (t.Major().MM() - t.PitchDiameter().MM()) / 2
	flank := crest - t.crestRadius()*(1-math.Sin(g.half))
	least, most := g.wires(crest, flank)
	return WireRange{Least: mm(least), Best: t.BestWire(), Most: mm(most)}
}

// BestWire returns the wire that touches the flanks at the pitch line; see
// [Thread.Wires].
func (t Thread) BestWire() units.Length { return mm(t.groove().bestWire()) }

// OverWires returns the measurement over three wires of a screw whose pitch
// diameter is what is given.
//
//	M = E + W (1 + 1/sin A) - P/2 cot A  (+ the correction for lead angle)
//
// with E the pitch diameter, W the wire, A half the angle of thread and P the
// pitch. E and M are at 20 degrees Celsius and at a light touch: on small
// threads a micrometer's ratchet presses the wires in by a micrometre or more.
// The wire must lie in [Thread.Wires], and E between the bottom of the groove
// and the crest; taper threads are refused. The lead angle is that of E.
//
// Source: general theory. Checked against 111 figures that handbooks print for 60
// degrees and 28 of an Acme thread at steep leads.
func (t Thread) OverWires(pitchDiameter, wire units.Length, c LeadCorrection) (units.Length, error) {
	if err := t.checkWire(wire, c); err != nil {
		return units.Length{}, err
	}
	if err := t.checkPitchDiameter(pitchDiameter); err != nil {
		return units.Length{}, err
	}
	return mm(t.groove().over(pitchDiameter.MM(), wire.MM(), c)), nil
}

// PitchDiameterOverWires returns the pitch diameter of a screw that measures so
// much over three wires; it inverts [Thread.OverWires], whose limits hold.
func (t Thread) PitchDiameterOverWires(over, wire units.Length, c LeadCorrection) (units.Length, error) {
	if err := t.checkWire(wire, c); err != nil {
		return units.Length{}, err
	}
	g := t.groove()
	if plain := g.pitchDiameter(over.MM(), wire.MM(), NoLeadCorrection); !(math.Abs(plain-t.PitchDiameter().MM()) < t.Depth().MM()) {
		usual := mm(g.over(t.PitchDiameter().MM(), wire.MM(), NoLeadCorrection))
		return units.Length{}, argument("measurement over wires of "+t.Designation(), over.String(), "near "+usual.Text(units.Millimetres, 3)+", which is the basic size over that wire", units.ErrOutOfRange)
	}
	e := mm(g.pitchDiameter(over.MM(), wire.MM(), c))
	return e, t.checkPitchDiameter(e)
}

// A WireWindow is what a good screw measures over three wires.
type WireWindow struct {
	Min, Max   units.Length
	Wire       units.Length
	Correction LeadCorrection
}

// Holds reports whether a measurement lies in the window.
func (w WireWindow) Holds(over units.Length) bool {
	return over.Cmp(w.Min) >= 0 && over.Cmp(w.Max) <= 0
}

// WireWindow returns the limits over wires that belong to limits of the pitch
// diameter, such as those that a class of fit gives. It is the pitch diameter
// that makes the fit: limits of the major diameter, which are wider, say
// nothing about it. Round the window inwards, with [units.RoundInward], to what
// the micrometer shows. Errors are those of [Thread.OverWires].
func (t Thread) WireWindow(pitchMin, pitchMax, wire units.Length, c LeadCorrection) (WireWindow, error) {
	if pitchMin.Cmp(pitchMax) > 0 {
		return WireWindow{}, wrong("least pitch diameter", pitchMin.String(), "above the largest, "+pitchMax.String(), "at most the largest", units.ErrOutOfRange)
	}
	low, err := t.OverWires(pitchMin, wire, c)
	if err != nil {
		return WireWindow{}, err
	}
	high, err := t.OverWires(pitchMax, wire, c)
	if err != nil {
		return WireWindow{}, err
	}
	return WireWindow{Min: low, Max: high, Wire: wire, Correction: c}, nil
}

// PitchErrorOnDiameter returns by how much an error of pitch, over the length
// that a nut engages, makes a screw's pitch diameter too large for the nut (a
// nut's too small), whichever way the error goes.
//
//	dE = error * cot A
//
// that is 1.732 times for 60 degrees, 1.921 for 55 and 2.273 for 47.5. It puts a
// near train of change wheels beside the tolerance of the pitch diameter. It is
// zero for no thread. The source is geometry.
func (t Thread) PitchErrorOnDiameter(overEngagement units.Length) units.Length {
	if t.Form() == 0 {
		return units.Length{}
	}
	return overEngagement.Abs().Scale(1 / math.Tan(t.groove().half))
}

func (t Thread) checkWire(wire units.Length, c LeadCorrection) error {
	if t.Form() == 0 {
		return noThread()
	}
	if _, taper := t.Taper(); taper {
		return wrong("thread "+t.Designation(), "", "taper threads need the plane of measurement and a correction for the taper", "parallel threads", units.ErrOutOfRange)
	}
	if !leadCorrections.Known(int(c)) {
		return leadCorrections.Unknown(int(c))
	}
	r := t.Wires()
	if wire.Cmp(r.Least) < 0 || wire.Cmp(r.Most) > 0 {
		return argument("wire for "+t.Designation(), wire.String(), fmt.Sprintf("%s to %s, best %s", r.Least.Text(units.Millimetres, 4), r.Most.Text(units.Millimetres, 4), r.Best.Text(units.Millimetres, 4)), units.ErrOutOfRange)
	}
	return nil
}

func (t Thread) checkPitchDiameter(e units.Length) error {
	low, high := t.Major().Sub(t.Depth().Scale(2)), t.Major()
	if e.Cmp(low) <= 0 || e.Cmp(high) >= 0 {
		return argument("pitch diameter of "+t.Designation(), e.String(), "between "+low.Text(units.Millimetres, 3)+" and "+high.Text(units.Millimetres, 3), units.ErrOutOfRange)
	}
	return nil
}

// groove returns the groove of the thread in millimetres.
func (t Thread) groove() groove {
	p := t.Pitch().MM()
	return groove{half: t.halfAngle(), pitch: p, lead: p}
}

// halfAngle is half the angle of thread in radians.
func (t Thread) halfAngle() float64 { return t.Form().Angle().Radians() / 2 }

// crestRadius is the radius of the screw's crest in millimetres; zero where the
// form has a flat.
func (t Thread) crestRadius() float64 {
	share := 0.0
	switch t.Form() {
	case FormWhitworth:
		share = 0.137329 // BS 84
	case FormBA:
		share = 0.1808346 // BS 93
	case FormCycle:
		share = 1.0 / 6 // BS 811, from memory; the depth of 0.5327 P follows from it
	}
	return share * t.Pitch().MM()
}

// mm returns a computed length that follows from lengths and so is one.
func mm(v float64) units.Length {
	l, err := units.LengthMM(v)
	if err != nil {
		panic(err)
	}
	return l
}
