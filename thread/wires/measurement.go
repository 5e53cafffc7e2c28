package wires

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Measurement is what a screw measures over the wires, with the terms that it
// is made of:
//
//	Over = E + PerWire * W - PerPitch * P + ForLead
type Measurement struct {
	Over     units.Length
	PerWire  float64      // 1 + 1/sin A
	PerPitch float64      // cot A / 2
	ForLead  units.Length // what the correction for lead angle adds; zero where it is ignored
	Refs     source.Refs  // of the correction, or of leaving it out
}

const handbook, edition = "Machinery's Handbook", "31st edition"

var (
	ringShaped = source.Ref{
		Kind: source.Published, Title: handbook, Edition: edition, Locator: "p. 2130",
		Note: "geometry of a ring-shaped groove, checked in print for 60 degrees",
	}
	termOfH28 = source.Ref{
		Kind: source.Published, Title: handbook, Edition: edition, Locator: "p. 2127",
		Note: "names the term of FED-STD-H28; the rest is geometry",
	}
	onHelicoid = source.Ref{Kind: source.Derived, Note: "touch of a round wire on the helicoid"}
	steepAcme  = source.Ref{
		Kind: source.Published, Title: handbook, Edition: edition, Locator: "p. 2136", Note: "agrees for a steep Acme thread",
	}
)

// Measure is [Set.Over] with its terms and sources. See the Example.
func (s Set) Measure(pitchDiameter units.Length) (Measurement, error) {
	if err := s.check(); err != nil {
		return Measurement{}, err
	}
	if err := checkPitchDiameter(s.Thread, pitchDiameter); err != nil {
		return Measurement{}, err
	}
	g, e, w := grooveOf(s.Thread), pitchDiameter.MM(), s.Wire.MM()
	over, err := units.Millimetres.Of(g.over(e, w, s.Lead))
	if err != nil {
		return Measurement{}, err
	}
	plain, err := units.Millimetres.Of(g.over(e, w, NoLeadCorrection))
	if err != nil {
		return Measurement{}, err
	}
	sin, cos := math.Sincos(g.half)
	m := Measurement{Over: over, PerWire: 1 + 1/sin, PerPitch: cos / sin / 2, ForLead: over.Sub(plain)}
	switch s.Lead {
	case H28LeadCorrection:
		m.Refs = source.Shared(&termOfH28)
	case HelicoidLeadCorrection:
		m.Refs = source.Shared(&onHelicoid, &steepAcme)
	default:
		m.Refs = source.Shared(&ringShaped)
	}
	return m, nil
}
