package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// A Packing is what keeps the steam from passing a piston. The zero value is none.
type Packing int

// The packings that there are rules of practice for.
const (
	MetalRings Packing = iota + 1
	SoftPacking
	ORing
)

var packings = names.Set{Package: "assembly", Type: "Packing", Field: "packing", Texts: []string{
	MetalRings: "metal rings", SoftPacking: "soft packing", ORing: "O-ring",
}}

// Packings returns all of them.
func Packings() []Packing { return []Packing{MetalRings, SoftPacking, ORing} }

// String returns "metal rings", "soft packing" or "O-ring".
func (p Packing) String() string { return packings.Text(int(p)) }

// ParsePacking returns the packing of that name; see [Packing.String].
func ParsePacking(s string) (Packing, error) {
	v, err := packings.Value(s)
	return Packing(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (p Packing) MarshalText() ([]byte, error) { return packings.Marshal(int(p)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (p *Packing) UnmarshalText(text []byte) error { return names.Unmarshal(&packings, p, text) }

// PistonRule returns the rule of practice that decides the clearance of a piston in
// its bore, by its packing and, with metal rings, by the metal of the piston in a
// cylinder of cast iron: iron, brass or bronze, aluminium. An O-ring in a bore up
// to half an inch wants less than in a larger one. Source: [fits.RulesFor] "piston".
// See the Example.
func PistonRule(bore units.Length, packing Packing, piston material.Family) (fits.Rule, error) {
	if err := fail.Above(fault.Named("bore", bore)); err != nil {
		return fits.Rule{}, err
	}
	var name string
	switch {
	case !packings.Known(int(packing)):
		return fits.Rule{}, packings.Unknown(int(packing))
	case packing == ORing && bore.Cmp(units.Inch(0.5)) <= 0:
		name = "with an O-ring in a half-inch bore"
	case packing != MetalRings:
		name = "soft packed or with an O-ring"
	case piston == material.Iron:
		name = "cast iron with rings in cast iron, steam"
	case piston == material.Brass || piston == material.Bronze:
		name = "brass or gunmetal in cast iron, steam"
	case piston == material.Aluminium:
		name = "aluminium in cast iron, steam"
	default:
		return fits.Rule{}, fail.Unknown("metal of a piston with metal rings", piston.String(), "iron, brass, bronze, aluminium")
	}
	rules, err := fits.RulesFor("piston")
	for _, r := range rules {
		if r.Name == name {
			return r, nil
		}
	}
	panic(fmt.Sprintf("assembly: no rule %q, %v", name, err)) // a mistake in the shipped table
}

// CheckPiston says whether the clearance of a piston in its bore lies outside all
// rules of practice, whatever keeps it tight.
func CheckPiston(bore units.Length, clearance fits.Band) (finding.List, error) {
	if err := fault.Of("clearance of the piston", clearance.Validate()); err != nil {
		return nil, err
	}
	span, refs, err := fits.RuleSpan("piston", bore)
	if err != nil || clearance.Min.Cmp(span.Min) >= 0 && clearance.Max.Cmp(span.Max) <= 0 {
		return nil, err
	}
	return finding.List{{
		Code: OutsidePistonRules, Severity: finding.Caution, Refs: refs,
		Text: fmt.Sprintf("A clearance of %s to %s is outside all rules of practice for a piston in this bore, %s to %s.",
			both(clearance.Min), both(clearance.Max), both(span.Min), both(span.Max)),
		Remedies: []string{"Say what the piston is packed with, bore first, and turn the piston to the bore as it came out."},
	}}, nil
}
