package wires

import "github.com/valvechest/valvechest/internal/names"

// A LeadCorrection says what is done about wires that lie across a groove at
// the lead angle, not square to the axis.
type LeadCorrection int

// The corrections for lead angle. They are three methods that differ, not
// three degrees of care: say which one a figure is from.
const (
	// NoLeadCorrection takes the groove as ring-shaped:
	// M = E + W * (1 + 1/sin A) - P/2 * cot A. It is what most charts print.
	NoLeadCorrection LeadCorrection = iota

	// H28LeadCorrection adds W/2 * tan^2 B * cos A * cot A, the term of the
	// screw-thread handbook H28. H28 leaves it out below 0.00015 in (3.8 um);
	// here it is always added.
	H28LeadCorrection

	// HelicoidLeadCorrection solves for a round wire that touches both flanks
	// of a screw whose flanks are straight in the axial plane, as a tool set at
	// centre height cuts them. Use it for steep threads: trapezoidal, Acme and
	// threads of several starts.
	HelicoidLeadCorrection
)

var leadCorrections = names.Set{
	Package: "wires", Type: "LeadCorrection", Field: "correction for lead angle", Texts: []string{"none", "H28",
		"helicoid"},
}

// String returns "none", "H28" or "helicoid".
func (c LeadCorrection) String() string { return leadCorrections.Text(int(c)) }

// ParseLeadCorrection returns the correction of that name, in capitals or not;
// see [LeadCorrection.String].
func ParseLeadCorrection(name string) (LeadCorrection, error) {
	v, err := leadCorrections.Value(name)
	return LeadCorrection(v), err
}

// LeadCorrections returns all of them, in order.
func LeadCorrections() []LeadCorrection {
	return []LeadCorrection{NoLeadCorrection, H28LeadCorrection, HelicoidLeadCorrection}
}

// MarshalText implements [encoding.TextMarshaler].
func (c LeadCorrection) MarshalText() ([]byte, error) { return leadCorrections.Marshal(int(c)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (c *LeadCorrection) UnmarshalText(text []byte) error {
	return names.Unmarshal(&leadCorrections, c, text)
}
