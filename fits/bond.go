package fits

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// An Adhesive is a retaining compound, by the data sheet of its grade.
type Adhesive struct {
	Name           string
	Shear          Range[units.Pressure] // strength, cured, on steel
	GapMin, GapMax units.Length          // on the diameter
	Service        units.Temperature     // highest at work
	Release        units.Temperature     // at which the joint comes apart; zero when the sheet does not say
	Ref            source.Ref
}

// GenericRetainer returns the figures of retaining compounds as a sort, for a
// first estimate: 10 to 30 N/mm2, gaps from 0.02 to 0.15 mm, to 150 degrees C,
// released from 250 degrees C. They are from memory, no grade is so, and the
// data sheet of the one in the bottle goes before them.
func GenericRetainer() Adhesive {
	return Adhesive{
		Name:  "retaining compound, generic figures",
		Shear: Range[units.Pressure]{10 * units.Megapascal, 30 * units.Megapascal}, GapMin: units.MM(0.02), GapMax: units.MM(0.15),
		Service: units.Celsius(150), Release: units.Celsius(250),
		Ref: source.Ref{Kind: source.FromMemory, Title: "retaining compounds as a sort", Note: "take the data sheet of the grade in hand"},
	}
}

// A Bond is a shaft or bush fixed in a bore with a retaining compound.
type Bond struct {
	Diameter units.Length
	Length   units.Length // of the joint along the shaft
	Gap      Band         // on the diameter, least and most
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
	Area     units.Area
	Axial    Range[units.Force]
	Torque   Range[units.Torque]
	Findings []Finding
}

// Solve returns what the joint bears:
//
//	area = pi d L    axial = tau k area    torque = axial d/2
//
// with the diameter d, the length L, the shear strength tau of the data sheet
// and the derating k. Source: the strength of a pin-and-collar specimen as ISO
// 10123 tests it, spread evenly; common practice. A joint much longer than its
// diameter bears less than this, as its ends take the load first.
//
// A gap outside the sheet's range and a temperature above its limit are
// findings. Missing dimensions, strength, derating or temperature are errors of
// type [*units.ArgumentError].
func (b Bond) Solve() (BondResult, error) {
	if err := b.check(); err != nil {
		return BondResult{}, err
	}
	d := b.Diameter.Metres()
	area := math.Pi * d * b.Length.Metres()
	k := b.Derating * area
	axial := Range[units.Force]{units.Force(k * float64(b.Adhesive.Shear.Low)), units.Force(k * float64(b.Adhesive.Shear.High))}
	r := BondResult{Area: units.Area(area), Axial: axial, Torque: Range[units.Torque]{units.Torque(float64(axial.Low) * d / 2), units.Torque(float64(axial.High) * d / 2)}}

	add := func(s Severity, format string, args ...any) {
		r.Findings = append(r.Findings, Finding{s, fmt.Sprintf(format, args...)})
	}
	if a := b.Adhesive; b.Gap.Low.Cmp(a.GapMin) < 0 {
		add(Caution, "the gap may be as small as %s, below the %s of the data sheet: the compound is scraped out and the joint starved, unless the parts hold by their interference", both(b.Gap.Low), both(a.GapMin))
	}
	if a := b.Adhesive; b.Gap.High.Cmp(a.GapMax) > 0 {
		add(Stop, "the gap may be as large as %s, beyond the %s of the data sheet: it may not cure and will not hold", both(b.Gap.High), both(a.GapMax))
	}
	if b.Hottest > b.Adhesive.Service {
		add(Stop, "%s at work is above the limit of the compound, %s", degrees(b.Hottest), degrees(b.Adhesive.Service))
	}
	if b.Length.Cmp(b.Diameter.Scale(1.5)) > 0 {
		add(Note, "a joint longer than one and a half diameters does not bear in proportion to its length")
	}
	if b.Adhesive.Ref.Kind == source.FromMemory {
		add(Caution, "the strength of the %s is from memory: a first estimate, to be replaced by the data sheet of the grade in hand", b.Adhesive.Name)
	}
	add(Note, "assemble one joint at a time: the compound takes hold in a minute or less on steel and brass; parts clean and free from oil")
	release := "the release temperature of the data sheet"
	if b.Adhesive.Release != 0 {
		release = degrees(b.Adhesive.Release)
	}
	add(Note, "to take it apart heat the joint to %s and pull it hot, with good air: the fumes of hot adhesive harm, and a flame near uncured compound or solvent is a fire", release)
	return r, nil
}

func (b Bond) check() error {
	if err := positive("diameter of the joint", b.Diameter); err != nil {
		return err
	}
	if err := positive("length of the joint", b.Length); err != nil {
		return err
	}
	if s := b.Adhesive.Shear; !(s.Low > 0 && s.Low <= s.High && s.High <= 200*units.Megapascal) {
		return &units.ArgumentError{Package: "fits", Field: "shear strength of the adhesive", Value: fmt.Sprintf("%.4g to %.4g MPa", s.Low/units.Megapascal, s.High/units.Megapascal), Accepted: "above 0 up to 200 MPa, low end first, from its data sheet", Err: units.ErrOutOfRange}
	}
	if a := b.Adhesive; a.GapMin.Sign() < 0 || a.GapMin.Cmp(a.GapMax) >= 0 {
		return &units.ArgumentError{Package: "fits", Field: "gap of the adhesive", Value: a.GapMin.String() + " to " + a.GapMax.String(), Accepted: "the least and the most gap of its data sheet", Err: units.ErrOutOfRange}
	}
	if err := b.Gap.check("gap"); err != nil {
		return err
	}
	if !(b.Derating > 0 && b.Derating <= 1) {
		e := &units.ArgumentError{Package: "fits", Field: "derating", Value: plain(b.Derating), Accepted: "above 0 up to 1: the data sheet's factors for temperature, surface and gap, multiplied", Err: units.ErrOutOfRange}
		if b.Derating == 0 {
			e.Err = units.ErrMissing
		}
		return e
	}
	if err := temperature("hottest temperature at work", b.Hottest); err != nil {
		return err
	}
	if err := temperature("service temperature of the adhesive", b.Adhesive.Service); err != nil || b.Adhesive.Release == 0 {
		return err
	}
	return temperature("release temperature of the adhesive", b.Adhesive.Release)
}
