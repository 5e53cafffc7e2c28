package assembly

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// An Adhesive is a retaining compound, by the data sheet of its grade.
type Adhesive struct {
	Name    string
	Shear   Range[units.Pressure] // strength, cured, on steel
	Gap     fits.Band             // that it fills, on the diameter
	Service units.Temperature     // highest at work
	Release units.Temperature     // at which the joint comes apart; zero when the sheet does not say
	Refs    source.Refs           `json:",omitzero"`
}

// GenericRetainer returns the figures of retaining compounds as a sort, for a
// first estimate: 10 to 30 N/mm2, gaps from 0.02 to 0.15 mm, to 150 degrees C,
// released from 250 degrees C. They are from memory, no grade is so, and the
// data sheet of the one in the bottle goes before them.
func GenericRetainer() Adhesive {
	return Adhesive{
		Name:    "generic retaining compound",
		Shear:   Range[units.Pressure]{10 * units.Megapascal, 30 * units.Megapascal},
		Gap:     fits.Band{Min: units.MM(0.02), Max: units.MM(0.15)},
		Service: units.Celsius(150), Release: units.Celsius(250),
		Refs: source.Of(source.Ref{
			Kind: source.FromMemory, Title: "retaining compounds as a sort", Note: "take the data sheet of the grade in hand",
		}),
	}
}

// A Bond is a shaft or bush fixed in a bore with a retaining compound.
type Bond struct {
	Diameter units.Length
	Length   units.Length // of the joint along the shaft
	Gap      fits.Band    // on the diameter, least and most
	Adhesive Adhesive
	// Derating is the share of the sheet's strength that is left for this joint:
	// its factors for temperature, surface, material and gap multiplied. One is the
	// sheet's own joint at room temperature; half is usual for cast iron, brass,
	// aluminium, plated parts or oily bores.
	Derating float64
	Hottest  units.Temperature // that the joint gets at work
}

// A BondResult is what the joint bears at both ends of the strength.
type BondResult struct {
	Area        units.Area
	Axial       Range[units.Force]
	Torque      Range[units.Torque]
	Findings    finding.List
	Precautions []finding.Precaution
	Refs        source.Refs `json:",omitzero"` // of the adhesive
}

// Solve returns what the joint bears:
//
//	area   = pi * d * L
//	axial  = tau * k * area
//	torque = axial * d/2
//
//	d     diameter
//	L     length
//	tau   shear strength of the data sheet
//	k     derating
//
// Source: the strength of a pin-and-collar specimen as ISO 10123 tests it, spread
// evenly; common practice. A joint much longer than its diameter bears less than
// this, as its ends take the load first. A gap outside the sheet's range and a
// temperature above its limit are findings. See the Example.
func (b Bond) Solve() (BondResult, error) {
	if err := b.validate(); err != nil {
		return BondResult{}, err
	}
	d := b.Diameter.Metres()
	area := math.Pi * d * b.Length.Metres()
	r := BondResult{
		Area:  units.Area(area),
		Axial: times[units.Force](b.Adhesive.Shear, b.Derating*area), // ISO 10123: force over area
		Refs:  b.Adhesive.Refs,
	}
	r.Torque = times[units.Torque](r.Axial, d/2)
	b.judge(&r)
	return r, nil
}

func (b Bond) judge(r *BondResult) {
	list, a := &r.Findings, b.Adhesive
	if b.Gap.Max.Cmp(a.Gap.Max) > 0 {
		f := said(list, GapTooLarge, finding.Fails, "The gap may be as large as %s, beyond the %s of the data sheet: "+
			"the compound may not cure and will not hold.", both(b.Gap.Max), both(a.Gap.Max))
		f.Refs = a.Refs
	}
	if b.Hottest > a.Service {
		f := said(list, TooHotForBond, finding.Fails, "%s at work is above the limit of the compound, %s.",
			degrees(b.Hottest), degrees(a.Service))
		f.Refs = a.Refs
	}
	if b.Gap.Min.Cmp(a.Gap.Min) < 0 {
		f := said(list, GapTooSmall, finding.Caution, "The gap may be as small as %s, below the %s of the data sheet: "+
			"the compound is scraped out and the joint starved, unless the parts hold by their interference.",
			both(b.Gap.Min), both(a.Gap.Min))
		f.Refs = a.Refs
	}
	if a.Refs.Recalled() {
		f := said(list, AdhesiveRecalled, finding.Caution,
			"Figures of the %s are from memory and give a first estimate.", a.Name)
		f.Remedies, f.Refs = []string{"Put in the data sheet of the grade in hand."}, a.Refs
	}
	if b.Length.Cmp(b.Diameter.Scale(1.5)) > 0 {
		f := said(list, LongBond, finding.Note,
			"A joint longer than one and a half diameters does not bear in proportion to its length.")
		f.Refs = source.Of(source.Practice())
	}
	f := said(list, TakesHold, finding.Note, "The compound takes hold in a minute or less on steel and brass.")
	f.Remedies = []string{"Assemble one joint at a time, the parts clean and free from oil."}
	f.Refs = source.Of(source.Practice())
	list.Sort()

	r.Precautions = append(r.Precautions, care(WetAdhesive, "Keep the uncured compound off the skin and out of the eyes, "+
		"with good air: it makes many people sensitive to it for good. Its safety sheet goes before this."))
	release := "the release temperature of the data sheet"
	if a.Release != 0 {
		release = degrees(a.Release)
	}
	r.Precautions = append(r.Precautions, care(HotAdhesive, "To take the joint apart heat it to "+release+
		" and pull it hot, with good air: the fumes of hot adhesive harm, "+
		"and a flame near uncured compound or solvent is a fire."))
}

func (b Bond) validate() error {
	if err := fail.Above(
		fault.Named("diameter of the joint", b.Diameter), fault.Named("length of the joint", b.Length),
	); err != nil {
		return err
	}
	a := b.Adhesive
	if s := a.Shear; !(s.Min > 0 && s.Min <= s.Max && s.Max <= 200*units.Megapascal) {
		return fail.OutOfRange("shear strength of the adhesive",
			fmt.Sprintf("%.4g to %.4g MPa", s.Min.In(units.Megapascal), s.Max.In(units.Megapascal)),
			"above 0 up to 200 MPa, the least first, from its data sheet")
	}
	if a.Gap.Min.Sign() < 0 || a.Gap.Min.Cmp(a.Gap.Max) >= 0 {
		return fail.OutOfRange("gap of the adhesive", a.Gap.Min.String()+" to "+a.Gap.Max.String(),
			"the least and the most gap of its data sheet")
	}
	if err := fault.Of("gap", b.Gap.Validate()); err != nil {
		return err
	}
	if !(b.Derating > 0 && b.Derating <= 1) {
		return fail.OutOfRange("derating", b.Derating,
			"above 0 up to 1: the data sheet's factors for temperature, surface and gap, multiplied")
	}
	if err := temperature("hottest temperature at work", b.Hottest); err != nil {
		return err
	}
	if err := temperature("service temperature of the adhesive", a.Service); err != nil || a.Release == 0 {
		return err
	}
	return temperature("release temperature of the adhesive", a.Release)
}
