package cover

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// CoverStress is the code of the finding that a cover is stressed more than its
// material should be.
const CoverStress finding.Code = "cover-stress"

// A HeadStress is the stress that a rule in print allows a flat cylinder cover.
type HeadStress struct {
	Rule     string
	Material string // a name of package material
	Min, Max units.Pressure
	Refs     source.Refs
}

// HeadStresses returns the stresses that the rules of [HeadRules] allow. They are
// for covers of cast iron, which has no yield to reckon from, and of wrought
// iron; the rules are old and the stresses low, as iron is brittle and castings
// are not sound all through.
func HeadStresses() []HeadStress {
	const mpa = units.Megapascal
	return []HeadStress{
		{lobbenHead, "cast iron", 1500 * units.PSI, 2500 * units.PSI, source.Shared(&lobben)},    // p. 220
		{lobbenHead, "wrought iron", 4000 * units.PSI, 6000 * units.PSI, source.Shared(&lobben)}, // p. 220
		{gasHead, "cast iron", 30 * mpa, 50 * mpa, source.Shared(&headText)},                     // cylinder heads
	}
}

// Check says whether a cover of a material stands the greater of its stresses,
// with the thickness that would be right.
//
// A material that yields may be stressed to half of that: common practice. Grey
// iron breaks before it yields, and covers of it go by [HeadStresses]. Above
// every limit a cover may break, which is a danger; above half the yield it does
// not hold its shape; above one rule of two, or of a material without a figure,
// there is a caution. See the example.
func (p Plate) Check(of material.Material) finding.List {
	stress := p.Stress()
	if of.Yield.Known() {
		return p.checkYield(stress, of)
	}
	var above []HeadStress
	kept := 0
	for _, s := range HeadStresses() {
		switch {
		case s.Material != of.Name:
		case stress > s.Max:
			above = append(above, s)
		default:
			kept++
		}
	}
	f := finding.Finding{Code: CoverStress, Severity: finding.Caution}
	switch {
	case len(above) == 0 && kept > 0:
		return nil
	case len(above) == 0:
		f.Text = fmt.Sprintf("The cover may be stressed to %s, and we have no figure for the strength of %s to compare it with.", mpa(stress), named(of))
		f.Remedies = []string{"Take the strength of the piece in hand, or a metal that is known."}
		return finding.List{f}
	}
	allowed := above[0].Max
	var ranges []string
	for _, s := range above {
		ranges = append(ranges, fmt.Sprintf("%.1f to %s", s.Min.In(units.Megapascal), mpa(s.Max)))
		f.Refs = f.Refs.With(s.Refs)
		allowed = min(allowed, s.Max)
	}
	f.Remedies = []string{p.thicker(stress, allowed)}
	if kept > 0 {
		f.Text = fmt.Sprintf("The cover may be stressed to %s; for covers of %s one rule allows %s, another more.", mpa(stress), of, strings.Join(ranges, ", "))
		return finding.List{f}
	}
	f.Severity = finding.Danger
	f.Text = fmt.Sprintf("The cover would be stressed to %s and may break; the rules for covers of %s allow %s.", mpa(stress), of, strings.Join(ranges, " and "))
	return finding.List{f}
}

func (p Plate) checkYield(stress units.Pressure, of material.Material) finding.List {
	yield := of.Yield.Value
	if stress <= yield/2 {
		return nil
	}
	f := finding.Finding{
		Code: CoverStress, Severity: finding.Fails,
		Text:     fmt.Sprintf("The cover would be stressed to %s, more than half the yield of %s, %s: it may stay bent.", mpa(stress), named(of), mpa(yield)),
		Remedies: []string{p.thicker(stress, yield/2)},
		Refs:     source.Of(of.Yield.Refs.First(), source.Practice()),
	}
	if stress > yield {
		f.Severity = finding.Danger
		f.Text = fmt.Sprintf("The cover would be stressed to %s, above the yield of %s, %s: it bends for good and may break.", mpa(stress), named(of), mpa(yield))
	}
	return finding.List{f}
}

// thicker is the remedy for a stress: it falls with the square of the thickness.
func (p Plate) thicker(stress, allowed units.Pressure) string {
	enough, err := thickness(p.Thickness.MM() * math.Sqrt(float64(stress/allowed)))
	if err == nil {
		enough, err = enough.Round(units.MM(0.1), units.Up)
	}
	if err != nil {
		return "Make the cover thicker, or set the studs closer in."
	}
	return fmt.Sprintf("Make the cover %s (%s) thick, for %s, or set the studs closer in.",
		enough.Text(units.Millimetres, 2), enough.Text(units.Inches, 3), mpa(allowed))
}

func mpa(p units.Pressure) string { return fmt.Sprintf("%.1f MPa", p.In(units.Megapascal)) }

func named(m material.Material) string {
	if m.Name == "" {
		return "the material"
	}
	return m.Name
}
