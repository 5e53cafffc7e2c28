package indicator

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// An Expansion is how a medium expands behind a closed valve: the index k with which
// p*V^k stays, and what it is the index of.
type Expansion struct {
	Index    float64
	Medium   Medium
	Of       string // "dry saturated steam"
	Findings finding.List
	Refs     source.Refs
}

var (
	hyperbola = source.Ref{
		Kind: source.Published, Title: "Machinery's Reference Series, no. 70, Steam Engines", Edition: "1911",
		Locator: "chapter II, table II", Note: "mean pressures by the hyperbola",
	}
	britannica = source.Ref{
		Kind: source.Published, Title: "Encyclopaedia Britannica", Edition: "11th edition, 1910", Locator: "volume 14, Hydraulics, work of expansion",
		Note: "a hyperbola at one temperature; without heat 1.135 for dry steam and 1.408 for air",
	}
	callendar = source.Ref{
		Kind: source.Published, Title: "Callendar, Steam tables and equations, extended by direct experiment", Edition: "Proceedings of the Royal Society A, 1928",
		Locator: "abstract", Note: "p / T^(13/3) stays, which is an index of 1.3",
	}
	zeuner = source.Ref{
		Kind: source.Published, Title: "Lineham, A Text-Book of Mechanical Engineering", Edition: "edition not seen",
		Locator: "appendix I, note to p. 608", Note: "Zeuner's rule",
	}
	airMotor = source.Ref{
		Kind: source.Unreviewed, Title: "Air motors, page of a formula collection", Edition: "undated", Locator: "worked example", Note: "1.25",
	}
)

// Expansions returns the indices that are usual, the smallest first: of air 1 at one
// temperature, 1.25 as one worked example of an air motor takes it and 1.4 without
// heat; of steam 1 as the old books have it, 1.135 dry saturated and 1.3
// superheated, both without heat. For wet steam there is [WetSteam]. A small engine
// at low speed gives and takes heat through its walls, and lies nearer to 1.
func (m Medium) Expansions() []Expansion {
	switch m {
	case Air:
		return []Expansion{
			{Index: 1, Medium: Air, Of: "air at one temperature", Refs: source.Of(britannica)},
			{Index: 1.25, Medium: Air, Of: "air in a motor", Refs: source.Of(airMotor)},
			{Index: 1.4, Medium: Air, Of: "air without heat", Refs: source.Of(britannica)},
		}
	case Steam:
		return []Expansion{
			{Index: 1, Medium: Steam, Of: "steam as the old books have it, a hyperbola", Refs: source.Of(hyperbola)},
			{Index: 1.135, Medium: Steam, Of: "dry saturated steam", Refs: source.Of(britannica)},
			{Index: 1.3, Medium: Steam, Of: "superheated steam", Refs: source.Of(callendar)},
		}
	}
	return nil
}

// WetSteam returns the index of steam with water in it, without heat:
//
//	k = 1.035 + 0.1 * x
//
//	x  dryness at cut-off, the share of steam in the mass, from 0.7 to 1
//
// Source: Zeuner's rule, as Lineham prints it; the range of the dryness is recalled.
// Accuracy: within 0.01 of IAPWS-IF97 from 2 to 10 bar, to a third of the pressure.
func WetSteam(dryness float64) (Expansion, error) {
	if !(dryness >= leastDry && dryness <= 1) {
		return Expansion{}, fail.OutOfRange("dryness of the steam", dryness, "0.7 to 1")
	}
	return Expansion{
		Index: zeunerFirst + zeunerSecond*dryness, Medium: Steam,
		Of: fmt.Sprintf("steam that is %.0f %% dry", 100*dryness), Refs: source.Of(zeuner),
	}, nil
}

const (
	zeunerFirst, zeunerSecond = 1.035, 0.1
	leastDry                  = 0.7
	sameIndex                 = 5e-5 // the fourth decimal, further than any source prints
)

// Expansion returns what the index of the engine is the index of: one of
// [Medium.Expansions], steam of some dryness by [WetSteam], or what lies between two of
// them. An index above that of superheated steam is a caution on steam. See the Example.
func (r Running) Expansion() (Expansion, error) {
	if err := r.Validate(); err != nil {
		return Expansion{}, err
	}
	var below, above *Expansion
	for _, e := range r.Medium.Expansions() {
		switch {
		case math.Abs(e.Index-r.Index) < sameIndex:
			return e, nil
		case e.Index < r.Index:
			below = &e
		case above == nil:
			above = &e
		}
	}
	if x := (r.Index - zeunerFirst) / zeunerSecond; r.Medium == Steam && x >= leastDry && x <= 1 {
		return WetSteam(x)
	}
	e := Expansion{Index: r.Index, Medium: r.Medium}
	switch {
	case below == nil: // the least that Validate takes is the first of the list
		e.Of = "stated"
	case above == nil:
		e.Of, e.Refs = "more than "+below.Of, below.Refs
		e.Findings = finding.List{{
			Code: SteamIndex, Severity: finding.Caution, Refs: below.Refs,
			Text:     fmt.Sprintf("An index of expansion of %.4g is more than superheated steam has, %.4g.", r.Index, below.Index),
			Remedies: []string{fmt.Sprintf("Take %.4g for superheated steam, 1.135 for dry saturated, 1 to be on the side of the old books.", below.Index)},
		}}
	default:
		e.Of = fmt.Sprintf("between %s, %.4g, and %s, %.4g", below.Of, below.Index, above.Of, above.Index)
		e.Refs = below.Refs.With(above.Refs)
	}
	return e, nil
}
