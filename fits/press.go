package fits

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Press is a hub on a shaft, or a bush in a bore, with interference, however
// it was put together. All diameters and the interference are at the same
// temperature.
type Press struct {
	Diameter     units.Length // of the joint
	Interference units.Length // on the diameter, before assembly
	HubOutside   units.Length // outside diameter of the hub; the least wall counts
	ShaftBore    units.Length // bore of the shaft, or of the bush; zero for solid
	Length       units.Length // of the joint along the shaft
	Hub, Shaft   material.Material
	Friction     Friction // both ends of it; see [Frictions]

	// Smoothing is what the surfaces bed down by on the diameter and so lose of
	// the interference; zero leaves it out. DIN 7190 takes 0.8 times the sum of
	// both roughness depths Rz (from memory).
	Smoothing units.Length
}

// A PressResult is what the interference does. Stresses are tension above zero,
// compression below.
type PressResult struct {
	Pressure units.Pressure // between the parts

	HubHoop        units.Pressure // at the bore of the hub, its greatest
	HubHoopOutside units.Pressure
	HubShear       units.Pressure // equivalent stress at the bore of the hub by greatest shear, to hold against its yield; of grey iron HubHoop against its tensile strength
	ShaftHoop      units.Pressure // at the joint
	ShaftHoopBore  units.Pressure // at the bore of a hollow shaft, its greatest; of a solid one as at the joint
	ShaftShear     units.Pressure // equivalent stress of the shaft, by greatest shear

	CloseIn   units.Length // by which the bore of the shaft or bush closes, on the diameter
	HubGrowth units.Length // by which the outside of the hub grows, on the diameter

	Axial    Range[units.Force]  // to slide the parts, and so also to press them home at the full length
	Torque   Range[units.Torque] // to turn one in the other
	Greatest units.Length        // interference at which the first of the parts yields, or a hub of grey iron cracks; zero when no strength is known

	Findings []Finding
}

// Solve returns the state of the joint after assembly, by Lame's formulas for
// thick cylinders in plane stress, both parts as long as the joint:
//
//	p = delta / (d (Ch + Cs))
//	Ch = ((D^2+d^2)/(D^2-d^2) + nu_h)/E_h    Cs = ((d^2+b^2)/(d^2-b^2) - nu_s)/E_s
//	hub hoop at bore = p (D^2+d^2)/(D^2-d^2)   outside = 2 p d^2/(D^2-d^2)
//	shaft hoop = -p (d^2+b^2)/(d^2-b^2)        at its bore = -2 p d^2/(d^2-b^2)
//	greatest shear, hub 2 p D^2/(D^2-d^2)      hollow shaft 2 p d^2/(d^2-b^2), solid p
//	close-in = 2 p d^2 b/(E_s (d^2-b^2))       growth = 2 p d^2 D/(E_h (D^2-d^2))
//	axial force F = mu p pi d L                torque = F d/2
//
// d is the joint, D the outside of the hub, b the bore of the shaft, L the
// length, delta the interference less the smoothing, all diameters in one unit;
// E and nu the materials' modulus and Poisson's ratio.
//
// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th
// edition, equations 3-56 and 3-57. What yields is judged by Tresca's equivalent
// stress, on the safe side of von Mises' by up to 15 %; a hub of grey iron, which
// breaks without warning, by its hoop tension, the greatest principal stress. A
// shaft or liner of grey iron is in compression, which it bears some three times
// as well, and is not judged. A hub longer or shorter than the shaft is pressed
// harder at its ends than the formulas say. They hold while both parts are
// elastic; beyond that the findings say so, and the figures are no longer true.
//
// A missing dimension, material or friction, a hub not thicker than the joint
// and a bore not smaller than it are errors of type [*units.ArgumentError].
func (p Press) Solve() (PressResult, error) {
	if err := p.check(); err != nil {
		return PressResult{}, err
	}
	d, hub, bore := p.Diameter.Metres(), p.HubOutside.Metres(), p.ShaftBore.Metres()
	eh, es := float64(p.Hub.Elasticity.Value), float64(p.Shaft.Elasticity.Value)
	hubRatio := (hub*hub + d*d) / (hub*hub - d*d)
	shaftRatio := (d*d + bore*bore) / (d*d - bore*bore)
	delta := p.Interference.Sub(p.Smoothing).Metres()
	perDelta := 1 / (d * ((hubRatio+p.Hub.Poisson.Value)/eh + (shaftRatio-p.Shaft.Poisson.Value)/es)) // Shigley 3-56
	pressure := delta * perDelta

	wall, core := hub*hub-d*d, d*d-bore*bore
	hubShear, shaftShear, shaftHoopBore := 2*hub*hub/wall, 1.0, -shaftRatio
	if bore > 0 {
		shaftShear, shaftHoopBore = 2*d*d/core, -2*d*d/core
	}
	of := func(share float64) units.Pressure { return units.Pressure(share * pressure) }
	r := PressResult{
		Pressure: of(1),
		HubHoop:  of(hubRatio), HubHoopOutside: of(2 * d * d / wall), HubShear: of(hubShear),
		ShaftHoop: of(-shaftRatio), ShaftHoopBore: of(shaftHoopBore), ShaftShear: of(shaftShear),
	}
	area := math.Pi * d * p.Length.Metres()
	r.Axial = Range[units.Force]{units.Force(p.Friction.Low * pressure * area), units.Force(p.Friction.High * pressure * area)}
	r.Torque = Range[units.Torque]{units.Torque(float64(r.Axial.Low) * d / 2), units.Torque(float64(r.Axial.High) * d / 2)}
	var err error
	if r.CloseIn, err = units.LengthMM(2 * pressure * d * d * bore / (es * core) * 1000); err != nil {
		return PressResult{}, err
	}
	if r.HubGrowth, err = units.LengthMM(2 * pressure * d * d * hub / (eh * wall) * 1000); err != nil {
		return PressResult{}, err
	}
	r.judge(p, perDelta, p.limits(hubRatio, hubShear, shaftShear))
	return r, nil
}

// Ends returns the joint at both ends of a fit: with the least interference,
// which says what it holds, and with the most, which says what it stresses. A
// fit that may have clearance is an [*units.ArgumentError].
func (p Press) Ends(fit Result) (least, most PressResult, err error) {
	if fit.MaxClearance.Sign() >= 0 {
		return least, most, &units.ArgumentError{Package: "fits", Field: "fit", Value: "with clearance up to " + fit.MaxClearance.String(), Problem: "not always an interference", Accepted: "a fit whose greatest clearance is below zero", Err: units.ErrOutOfRange}
	}
	p.Interference = fit.MaxClearance.Neg()
	if least, err = p.Solve(); err != nil {
		return PressResult{}, PressResult{}, err
	}
	p.Interference = fit.MinClearance.Neg()
	most, err = p.Solve()
	return least, most, err
}

func (p Press) check() error {
	for _, l := range []struct {
		field string
		value units.Length
	}{{"diameter of the joint", p.Diameter}, {"interference", p.Interference}, {"outside diameter of the hub", p.HubOutside}, {"length of the joint", p.Length}} {
		if err := positive(l.field, l.value); err != nil {
			return err
		}
	}
	bad := func(field string, value units.Length, problem, accepted string) error {
		return &units.ArgumentError{Package: "fits", Field: field, Value: value.String(), Problem: problem, Accepted: accepted, Err: units.ErrOutOfRange}
	}
	switch {
	case p.HubOutside.Cmp(p.Diameter) <= 0:
		return bad("outside diameter of the hub", p.HubOutside, "the hub has no wall", "more than the joint, "+p.Diameter.String())
	case p.ShaftBore.Sign() < 0 || p.ShaftBore.Cmp(p.Diameter) >= 0:
		return bad("bore of the shaft", p.ShaftBore, "the shaft has no wall", "from zero, for solid, to less than the joint, "+p.Diameter.String())
	case p.Smoothing.Sign() < 0 || p.Smoothing.Cmp(p.Interference) >= 0:
		return bad("smoothing", p.Smoothing, "", "from zero to less than the interference, "+p.Interference.String())
	}
	if err := plausible(p.Interference, p.Diameter); err != nil {
		return err
	}
	if err := elastic("hub", p.Hub); err != nil {
		return err
	}
	if err := elastic("shaft", p.Shaft); err != nil {
		return err
	}
	return p.Friction.check()
}

// plausible refuses an interference that must be in another unit, or a diameter.
func plausible(interference, diameter units.Length) error {
	if interference.Cmp(diameter.Scale(0.05)) <= 0 {
		return nil
	}
	return &units.ArgumentError{Package: "fits", Field: "interference", Value: interference.String(), Problem: "more than a twentieth of the diameter", Accepted: "an interference, which is a few thousandths of the diameter at most", Err: units.ErrOutOfRange}
}

// elastic refuses a material whose stiffness is not known, or whose figures are
// none.
func elastic(part string, m material.Material) error {
	if !m.Elasticity.Known() || !m.Poisson.Known() {
		return &units.ArgumentError{Package: "fits", Field: "material of the " + part, Value: m.Name, Accepted: "a material with modulus and Poisson's ratio, such as material.Lookup gives", Err: units.ErrMissing}
	}
	if e, nu := float64(m.Elasticity.Value), m.Poisson.Value; !(e >= 1e6 && e <= 2e12) || !(nu >= 0 && nu < 0.5) {
		return &units.ArgumentError{Package: "fits", Field: "material of the " + part, Value: fmt.Sprintf("with modulus %v and Poisson's ratio %s", m.Elasticity.Value, plain(nu)), Accepted: "a modulus from 1 MPa to 2000 GPa and a ratio from 0 to below 0.5", Err: units.ErrOutOfRange}
	}
	for _, strength := range []material.Figure[units.Pressure]{m.Yield, m.Tensile} {
		if strength.Known() && !(strength.Value > 0 && strength.Value <= 1e10) {
			return &units.ArgumentError{Package: "fits", Field: "material of the " + part, Value: fmt.Sprintf("with strength %v", strength.Value), Accepted: "a strength above 0 up to 10 GPa, or none", Err: units.ErrOutOfRange}
		}
	}
	return nil
}

// A limit is the stress of a part, the strength that it is held against, and
// how it fails.
type limit struct {
	part     string
	material material.Material
	share    float64 // of the stress in the pressure
	strength units.Pressure
	fails    string
	careful  float64 // share of the strength from which the part is worth a caution
}

// limits returns what there is to hold the stresses against.
func (p Press) limits(hubHoop, hubShear, shaftShear float64) []limit {
	var out []limit
	switch {
	case p.Hub.Yield.Known():
		out = append(out, limit{"hub", p.Hub, hubShear, p.Hub.Yield.Value, "yields", 0.8})
	case p.Hub.Tensile.Known():
		// The tension at the bore exceeds the compression across it, so that the
		// greatest principal stress decides; half the strength is common practice.
		out = append(out, limit{"hub", p.Hub, hubHoop, p.Hub.Tensile.Value, "cracks", 0.5})
	}
	if p.Shaft.Yield.Known() {
		out = append(out, limit{"shaft", p.Shaft, shaftShear, p.Shaft.Yield.Value, "yields", 0.8})
	}
	return out
}

// judge holds the stresses against the strength of each part.
func (r *PressResult) judge(p Press, perDelta float64, limits []limit) {
	if !p.Hub.Yield.Known() && !p.Hub.Tensile.Known() {
		r.add(Caution, "no strength is known of the hub, %s; hold its hoop tension of %.0f MPa against that of the piece in hand", p.Hub.Name, r.HubHoop/units.Megapascal)
	}
	for _, l := range limits {
		greatest, err := units.LengthMM(1000*float64(l.strength)/(l.share*perDelta) + p.Smoothing.MM())
		if err != nil {
			continue // a strength without end
		}
		if r.Greatest.IsZero() || greatest.Cmp(r.Greatest) < 0 {
			r.Greatest = greatest
		}
		stress := units.Pressure(l.share) * r.Pressure
		switch share := float64(stress / l.strength); {
		case share >= 1:
			r.add(Stop, "the %s %s: %.0f MPa where %s bears %.0f MPa; it takes an interference up to %s", l.part, l.fails, stress/units.Megapascal, l.material.Name, l.strength/units.Megapascal, both(greatest))
		case share > l.careful && l.fails == "cracks":
			r.add(Caution, "the %s is at %.0f %% of the tensile strength of weak %s, %.0f MPa, and cracks without warning; half is enough, unless the strength of the casting in hand is known", l.part, 100*share, l.material.Name, l.strength/units.Megapascal)
		case share > l.careful:
			r.add(Caution, "the %s is at %.0f %% of the yield strength of %s, %.0f MPa", l.part, 100*share, l.material.Name, l.strength/units.Megapascal)
		}
	}
	if r.CloseIn.Sign() > 0 {
		r.add(Note, "the bore closes by %s; finish it by reamer or boring bar after assembly", both(r.CloseIn))
	}
	if p.Friction.Ref.Kind == source.FromMemory {
		r.add(Note, "the friction, %s to %s, is from memory", plain(p.Friction.Low), plain(p.Friction.High))
	}
	if e := p.Hub.Elasticity; e.Max > 1.3*e.Min {
		r.add(Note, "the modulus of %s is printed as %.0f to %.0f GPa; %.0f GPa was used", p.Hub.Name, e.Min/units.Gigapascal, e.Max/units.Gigapascal, e.Value/units.Gigapascal)
	}
	if ratio := p.Interference.Ratio(p.Diameter); ratio > 0.002 {
		r.add(Caution, "%.4f of the diameter, %.1f thou per inch; the rules of the trade are half a thou to two per inch", ratio, 1000*ratio)
	}
}

func (r *PressResult) add(s Severity, format string, args ...any) {
	r.Findings = append(r.Findings, Finding{s, fmt.Sprintf(format, args...)})
}
