package assembly

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
	Friction     Friction // both ends of it; see [Frictions] and [Mu]

	// Smoothing is what the surfaces bed down by on the diameter and so lose of
	// the interference; zero leaves it out. DIN 7190 takes 0.8 times the sum of
	// both roughness depths Rz (from memory).
	Smoothing units.Length
}

// A PressResult is what the interference does. Stresses are tension above zero,
// compression below, as if the parts stayed elastic.
type PressResult struct {
	Pressure units.Pressure // between the parts
	// Holding is the pressure that can be counted on: Pressure, or where a part
	// yields that from which it does, as it holds at least as much from there on.
	Holding units.Pressure

	HubHoop        units.Pressure // at the bore of the hub, its greatest
	HubHoopOutside units.Pressure
	HubShear       units.Pressure // equivalent stress at the bore of the hub by greatest shear, to hold against its yield
	ShaftHoop      units.Pressure // at the joint
	ShaftHoopBore  units.Pressure // at the bore of a hollow shaft, its greatest; of a solid one as at the joint
	ShaftShear     units.Pressure // equivalent stress of the shaft, by greatest shear

	CloseIn   units.Length // by which the bore of the shaft or bush closes, on the diameter
	HubGrowth units.Length // by which the outside of the hub grows, on the diameter

	// Axial is the force to slide the parts: the least is what the joint bears, by
	// Holding, the most what the press must have to push them home.
	Axial  Range[units.Force]
	Torque Range[units.Torque] // to turn one in the other

	// Greatest is the interference at which the first of the parts yields, or a
	// hub of grey iron cracks; zero when no strength is known.
	Greatest units.Length
	// Through is the interference at which a tough hub yields through its whole
	// wall, from where it stretches without gripping harder; zero for one of grey
	// iron, and when no strength is known.
	Through units.Length

	Findings    finding.List
	Precautions []finding.Precaution // of the press
	Refs        source.Refs          `json:",omitzero"` // of the materials' figures and the friction
}

// Solve returns the state of the joint after assembly, by Lame's formulas for
// thick cylinders in plane stress, both parts as long as the joint:
//
//	p = delta / (d * (Ch + Cs))
//	Ch = ((D^2 + d^2)/(D^2 - d^2) + nu_h) / E_h
//	Cs = ((d^2 + b^2)/(d^2 - b^2) - nu_s) / E_s
//	hub hoop at its bore    = p * (D^2 + d^2)/(D^2 - d^2)
//	hub hoop outside        = 2 * p * d^2/(D^2 - d^2)
//	shaft hoop at the joint = -p * (d^2 + b^2)/(d^2 - b^2)
//	shaft hoop at its bore  = -2 * p * d^2/(d^2 - b^2)
//	greatest shear, hub     = 2 * p * D^2/(D^2 - d^2)
//	greatest shear, shaft   = 2 * p * d^2/(d^2 - b^2), of a solid one p
//	close-in                = 2 * p * d^2 * b/(E_s * (d^2 - b^2))
//	growth                  = 2 * p * d^2 * D/(E_h * (D^2 - d^2))
//	axial force F           = mu * p * pi * d * L
//	torque                  = F * d/2
//	through                 = d * Y * ((D/d)^2/E_h + ln(D/d) * (Cs - (1 - nu_h)/E_h))
//
//	d       the joint
//	D       outside of the hub
//	b       bore of the shaft
//	L       length of the joint
//	delta   interference less the smoothing
//	E, nu   modulus and Poisson's ratio of each material
//	Y       yield strength of the hub
//
// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th
// edition, equations 3-56 and 3-57; through by equilibrium and Tresca's condition
// in plane stress, worked out here, for hubs up to about 2.7 times the joint. What
// yields is judged by Tresca's equivalent stress, on the safe side of von Mises' by
// up to 15 %; a hub of grey iron, which breaks without warning, by its hoop
// tension, the greatest principal stress. A shaft or liner of grey iron is in
// compression, which it bears some three times as well, and is not judged. A hub
// longer or shorter than the shaft is pressed harder at its ends than the formulas
// say. A joint that is shrunk together is not pushed, and what the findings say of
// that does not touch it. The stresses hold while both parts are elastic; where one yields the
// findings say so, and Holding and Axial are bounds that stay true. See the
// Example.
func (p Press) Solve() (PressResult, error) {
	if err := p.validate(); err != nil {
		return PressResult{}, err
	}
	d, hub, bore := p.Diameter.Metres(), p.HubOutside.Metres(), p.ShaftBore.Metres()
	eh, es := float64(p.Hub.Elasticity.Value), float64(p.Shaft.Elasticity.Value)
	hubRatio := (hub*hub + d*d) / (hub*hub - d*d)
	shaftRatio := (d*d + bore*bore) / (d*d - bore*bore)
	delta := p.Interference.Sub(p.Smoothing).Metres()
	ch, cs := (hubRatio+p.Hub.Poisson.Value)/eh, (shaftRatio-p.Shaft.Poisson.Value)/es
	perDelta := 1 / (d * (ch + cs)) // Shigley, 9th edition, eq. 3-56
	pressure := delta * perDelta

	wall, core := hub*hub-d*d, d*d-bore*bore
	hubShear, shaftShear, shaftHoopBore := 2*hub*hub/wall, 1.0, -shaftRatio // Lame, hoop less radial stress
	if bore > 0 {
		shaftShear, shaftHoopBore = 2*d*d/core, -2*d*d/core
	}
	of := func(share float64) units.Pressure { return units.Pressure(share * pressure) }
	limits, err := p.limits(hubRatio, hubShear, shaftShear, cs)
	if err != nil {
		return PressResult{}, err
	}
	holding := held(pressure, limits)
	r := PressResult{
		Pressure: of(1), Holding: units.Pressure(holding),
		HubHoop: of(hubRatio), HubHoopOutside: of(2 * d * d / wall), HubShear: of(hubShear),
		ShaftHoop: of(-shaftRatio), ShaftHoopBore: of(shaftHoopBore), ShaftShear: of(shaftShear),
		Refs: valuesOf(p.Hub.Elasticity.Refs, p.Hub.Poisson.Refs, p.Shaft.Elasticity.Refs, p.Shaft.Poisson.Refs,
			p.Friction.Refs, p.Hub.Yield.Refs, p.Hub.Tensile.Refs, p.Shaft.Yield.Refs),
	}
	area := math.Pi * d * p.Length.Metres()
	r.Axial = Range[units.Force]{
		units.Force(p.Friction.Min * holding * area), units.Force(p.Friction.Max * pressure * area),
	}
	r.Torque = times[units.Torque](r.Axial, d/2)
	closeIn := 2 * pressure * d * d * bore / (es * core) // Lame, displacement at the bore
	if r.CloseIn, err = units.Millimetres.Of(closeIn * 1000); err != nil {
		return PressResult{}, err
	}
	growth := 2 * pressure * d * d * hub / (eh * wall) // Lame, displacement outside
	if r.HubGrowth, err = units.Millimetres.Of(growth * 1000); err != nil {
		return PressResult{}, err
	}
	if err := r.judge(p, perDelta, limits); err != nil {
		return PressResult{}, err
	}
	r.Precautions = pressing(p.Hub)
	return r, nil
}

// Ends returns the joint at both ends of a fit: with the least interference,
// which says what it holds, and with the most, which says what it stresses. A
// fit that may have clearance is an error. See the Example.
func (p Press) Ends(fit fits.FitLimits) (least, most PressResult, err error) {
	if err := fault.Of("fit", fit.Clearance.Validate()); err != nil {
		return least, most, err
	}
	if fit.Clearance.Max.Sign() >= 0 {
		return least, most, fail.Wrong("fit", "with clearance up to "+fit.Clearance.Max.String(),
			"not always an interference", "a fit whose greatest clearance is below zero")
	}
	p.Interference = fit.Clearance.Max.Neg()
	if least, err = p.Solve(); err != nil {
		return PressResult{}, PressResult{}, err
	}
	p.Interference = fit.Clearance.Min.Neg()
	if most, err = p.Solve(); err != nil {
		return PressResult{}, PressResult{}, err
	}
	least.Refs, most.Refs = least.Refs.With(fit.Refs), most.Refs.With(fit.Refs)
	return least, most, nil
}

func (p Press) validate() error {
	if err := fail.Above(
		fault.Named("diameter of the joint", p.Diameter), fault.Named("interference", p.Interference),
		fault.Named("outside diameter of the hub", p.HubOutside), fault.Named("length of the joint", p.Length),
	); err != nil {
		return err
	}
	switch {
	case p.HubOutside.Cmp(p.Diameter) <= 0:
		return fail.Wrong("outside diameter of the hub", p.HubOutside, "the hub has no wall",
			"more than the joint, "+p.Diameter.String())
	case p.ShaftBore.Sign() < 0 || p.ShaftBore.Cmp(p.Diameter) >= 0:
		return fail.Wrong("bore of the shaft", p.ShaftBore, "the shaft has no wall",
			"from zero, for solid, to less than the joint, "+p.Diameter.String())
	case p.Smoothing.Sign() < 0 || p.Smoothing.Cmp(p.Interference) >= 0:
		return fail.OutOfRange("smoothing", p.Smoothing,
			"from zero to less than the interference, "+p.Interference.String())
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
	return p.Friction.Validate()
}

// plausible refuses an interference that must be in another unit, or a diameter.
func plausible(interference, diameter units.Length) error {
	if interference.Cmp(diameter.Scale(0.05)) <= 0 {
		return nil
	}
	return fail.Wrong("interference", interference, "more than a twentieth of the diameter",
		"an interference, which is a few thousandths of the diameter at most")
}

// elastic refuses a material whose stiffness is not known, or whose figures are
// none.
func elastic(part string, m material.Material) error {
	field := "material of the " + part
	if !m.Elasticity.Known() || !m.Poisson.Known() {
		return fail.Argument(field, m.Name, "",
			"a material with modulus and Poisson's ratio, such as material.Lookup gives", units.ErrMissing)
	}
	if e, nu := float64(m.Elasticity.Value), m.Poisson.Value; !(e >= 1e6 && e <= 2e12) || !(nu >= 0 && nu < 0.5) {
		return fail.OutOfRange(field, fmt.Sprintf("with modulus %v and Poisson's ratio %.6g", m.Elasticity.Value, nu),
			"a modulus from 1 MPa to 2000 GPa and a ratio from 0 to below 0.5")
	}
	for _, strength := range []material.Figure[units.Pressure]{m.Yield, m.Tensile} {
		if strength.Known() && !(strength.Value > 0 && strength.Value <= 1e10) {
			return fail.OutOfRange(field, fmt.Sprintf("with strength %v", strength.Value),
				"a strength above 0 up to 10 GPa, or none")
		}
	}
	return nil
}

// judge holds the stresses against the strength of each part.
func (r *PressResult) judge(p Press, perDelta float64, limits []limit) error {
	list := &r.Findings
	tight, err := fits.CheckInterference(p.Diameter, p.Interference)
	if err != nil {
		return err
	}
	if !p.Hub.Yield.Known() && !p.Hub.Tensile.Known() {
		f := said(list, HubUnknown, finding.Caution, "We have no figure for the strength of the hub, %s.", p.Hub.Name)
		f.Remedies = []string{fmt.Sprintf("Hold its hoop tension of %.0f MPa against the strength of the piece in hand.",
			r.HubHoop.In(units.Megapascal))}
	}
	for _, l := range limits {
		strength, worst := l.strength.Value.In(units.Megapascal), min(float64(r.Pressure), l.most)
		if l.share*l.most <= float64(l.strength.Value)*(1+1e-9) {
			continue // the hub gives first
		}
		greatest, err := units.Millimetres.Of(1000*float64(l.strength.Value)/(l.share*perDelta) + p.Smoothing.MM())
		if err != nil {
			continue // a strength without end
		}
		if r.Greatest.IsZero() || greatest.Cmp(r.Greatest) < 0 {
			r.Greatest = greatest
		}
		if l.part == "hub" {
			r.Through = l.through
		}
		stress := units.Pressure(l.share * worst).In(units.Megapascal)
		var f *finding.Finding
		switch share := stress / strength; {
		case share >= 1:
			f = l.past(list, p, tight, stress)
			f.Remedies = []string{fmt.Sprintf("It takes an interference up to %s.", both(greatest))}
		case share > l.careful() && l.brittle:
			f = said(list, NearStrength, finding.Caution,
				"The %s is at %.0f %% of the tensile strength of weak %s, %.0f MPa, and cracks without warning.",
				l.part, 100*share, l.material.Name, strength)
			f.Remedies = []string{"Half the strength is enough, unless that of the casting in hand is known; " +
				"for a wheel that turns fast it is the most."}
			if share >= cracking {
				f.Severity = finding.Danger
				f.Text += " Castings of one grade differ by more than is left: it may crack, on the press or as it turns."
			}
		case share > l.careful():
			f = said(list, NearStrength, finding.Caution, "The %s is at %.0f %% of the yield strength of %s, %.0f MPa.",
				l.part, 100*share, l.material.Name, strength)
			f.Remedies = []string{fmt.Sprintf(
				"It gives for good from an interference of %s: keep the limits of both parts below that.", both(greatest))}
		default:
			continue
		}
		f.Refs = source.Of(l.strength.Refs.First())
	}
	r.judgePush(p)
	*list = append(*list, tight...)
	if r.CloseIn.Sign() > 0 {
		f := said(list, BoreCloses, finding.Note, "The bore closes by %s.", both(r.CloseIn))
		f.Remedies = []string{"Finish it by reamer or boring bar after assembly."}
	}
	if p.Friction.Refs.Recalled() {
		f := said(list, FrictionRecalled, finding.Note, "The friction, %.6g to %.6g, is from memory.",
			p.Friction.Min, p.Friction.Max)
		f.Refs = p.Friction.Refs
	}
	if e := p.Hub.Elasticity; e.Max > 1.3*e.Min {
		f := said(list, ModulusSpread, finding.Note,
			"The modulus of %s is printed as %.0f to %.0f GPa; %.0f GPa was used.",
			p.Hub.Name, e.Min.In(units.Gigapascal), e.Max.In(units.Gigapascal), e.Value.In(units.Gigapascal))
		f.Refs = e.Refs
	}
	list.Sort()
	return nil
}
