package fits

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// An AsCut is two parts that have been made and measured.
type AsCut struct {
	Clearance units.Length // below zero it is interference
	Share     float64      // of the diameter of the shaft: 0.001 is a thou per inch
	Kind      Kind
	Findings  []Finding
}

// Measured returns what two parts that are already made do to each other, and
// what can be done about it. Interference of half a thou to two thou per inch
// of diameter is what the rules for press fits reach from and to; see [Rules].
// Sizes that are not above zero are an [*units.ArgumentError].
func Measured(hole, shaft units.Length) (AsCut, error) {
	if err := positive("hole", hole); err != nil {
		return AsCut{}, err
	}
	if err := positive("shaft", shaft); err != nil {
		return AsCut{}, err
	}
	r := AsCut{Clearance: hole.Sub(shaft), Share: hole.Sub(shaft).Ratio(shaft), Kind: Clearance}
	if r.Clearance.Sign() >= 0 {
		return r, nil
	}
	r.Kind = Interference
	low, high := hole.Scale(0.0005), hole.Scale(0.002)
	over := r.Clearance.Neg()
	switch {
	case over.Cmp(high) > 0:
		r.Findings = append(r.Findings, Finding{Stop, fmt.Sprintf("interference of %s, %.1f thou per inch, is far above any press fit: turn the shaft to between %s and %s for a press fit, below %s for a running fit. Turning the shaft is easier, and truer, than opening the hole",
			both(over), -1000*r.Share, both(hole.Add(low)), both(hole.Add(high)), both(hole))})
	case over.Cmp(low) < 0:
		r.Findings = append(r.Findings, Finding{Note, fmt.Sprintf("interference of %s, %.1f thou per inch, locates but carries little; retaining compound or a pin makes it safe", both(over), -1000*r.Share)})
	default:
		r.Findings = append(r.Findings, Finding{Note, fmt.Sprintf("interference of %s, %.1f thou per inch, is a press fit by the rules of the trade; the bore of a thin bush closes by most of it, so ream it after pressing", both(over), -1000*r.Share)})
	}
	return r, nil
}
