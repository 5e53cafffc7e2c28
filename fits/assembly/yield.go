package assembly

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A limit is the stress of a part, the strength that it is held against, and
// how it fails.
type limit struct {
	part     string
	code     finding.Code
	material material.Material
	share    float64 // of the stress in the pressure
	strength material.Figure[units.Pressure]
	brittle  bool         // it cracks and does not yield
	through  units.Length // interference from which the whole wall yields
	carries  float64      // most pressure that the yielding part carries, as a share of its strength
	most     float64      // most pressure that a tough hub gives it, in pascals
}

// careful is the share of the strength from which a part is worth a caution.
// Half the strength is common practice for what is brittle.
func (l limit) careful() float64 {
	if l.brittle {
		return 0.5
	}
	return 0.8
}

// cracking is the share of the tensile strength from which a hub may crack, as
// castings of one grade differ by more than a fifth.
const cracking = 0.8

// limits returns what there is to hold the stresses against.
func (p Press) limits(hubHoop, hubShear, shaftShear, cs float64) ([]limit, error) {
	var out []limit
	switch ratio := p.HubOutside.Ratio(p.Diameter); {
	case p.Hub.Yield.Known():
		// The plastic zone has reached the outside when the outermost ring yields; the
		// flow of metal keeps its volume, which gives the displacement at the bore.
		e, nu := float64(p.Hub.Elasticity.Value), p.Hub.Poisson.Value
		give := float64(p.Hub.Yield.Value) * (ratio*ratio/e + math.Log(ratio)*(cs-(1-nu)/e))
		through, err := units.Millimetres.Of(p.Diameter.MM()*give + p.Smoothing.MM())
		if err != nil {
			return nil, err
		}
		out = append(out, limit{
			part: "hub", code: HubPastStrength, material: p.Hub, share: hubShear, strength: p.Hub.Yield,
			through: through, carries: min(math.Log(ratio), 1), most: math.Inf(1),
		})
	case p.Hub.Tensile.Known():
		// The tension at the bore exceeds the compression across it, so that the
		// greatest principal stress decides.
		out = append(out, limit{
			part: "hub", code: HubPastStrength, material: p.Hub, share: hubHoop, strength: p.Hub.Tensile, brittle: true,
			most: math.Inf(1),
		})
	}
	if p.Shaft.Yield.Known() {
		l := limit{
			part: "shaft", code: ShaftPastStrength, material: p.Shaft, share: shaftShear, strength: p.Shaft.Yield,
			carries: 1 - p.ShaftBore.Ratio(p.Diameter), // by equilibrium of half of it
			most:    math.Inf(1),
		}
		if len(out) > 0 && !out[0].brittle {
			l.most = out[0].carries * float64(out[0].strength.Value)
		}
		out = append(out, l)
	}
	return out, nil
}

// held returns the least pressure that can be counted on where parts yield.
func held(pressure float64, limits []limit) float64 {
	for _, l := range limits {
		if !l.brittle {
			pressure = min(pressure, float64(l.strength.Value)/l.share)
		}
	}
	return pressure
}

// beyondAny reports whether an interference is more than any fit of a standard has.
func beyondAny(f finding.Finding) bool { return f.Code == fits.BeyondPress }

// past says what a part does that is stressed past its strength. A tough hub that
// yields at its bore alone is no broken joint: rules of the trade and fits of the
// standards go so far in mild steel, and it grips at least as at its yield.
func (l limit) past(list *finding.List, p Press, tight finding.List, stress float64) *finding.Finding {
	bears := fmt.Sprintf("it is stressed to %.0f MPa where %s bears %.0f MPa.",
		stress, l.material.Name, l.strength.Value.In(units.Megapascal))
	if l.brittle {
		return said(list, l.code, finding.Danger, "The %s cracks: %s It can burst, on the press or as it turns.", l.part, bears)
	}
	mean := l.share * l.carries // of the shaft, the greatest stress over the mean one
	whole := l.part == "shaft" && stress >= mean*l.strength.Value.In(units.Megapascal) ||
		l.part == "hub" && p.Interference.Cmp(l.through) >= 0
	switch {
	case whole && l.part == "hub" && len(tight) > 0:
		return said(list, l.code, finding.Danger, "The %s yields through its whole wall: %s It can burst, on the press or as it turns.",
			l.part, bears)
	case whole:
		return said(list, l.code, finding.Fails, "The %s yields through its whole wall: %s It gives and holds no more.", l.part, bears)
	case slices.ContainsFunc(tight, beyondAny):
		return said(list, l.code, finding.Fails, "The %s yields at its bore: %s", l.part, bears)
	}
	goes := "Rules of the trade go so far:"
	if len(tight) > 0 {
		goes = "Fits of the standards allow as much, and count on a tougher metal on so small a part:"
	}
	return said(list, l.code, finding.Caution, "The %s yields at its bore: %s %s it holds at least what it holds at its yield, "+
		"and is not to be taken apart and used again.", l.part, bears, goes)
}

// judgePush says whether the force that presses the parts home is more than the
// shaft bears along, pushed on its end:
//
//	stress = F / (pi/4 * (d^2 - b^2))
func (r *PressResult) judgePush(p Press) {
	d, bore := p.Diameter.Metres(), p.ShaftBore.Metres()
	along := units.Pressure(float64(r.Axial.Max) / (math.Pi / 4 * (d*d - bore*bore)))
	bears := p.Shaft.Yield
	if !bears.Known() || along < bears.Value {
		return
	}
	part := "shaft"
	if bore > 0 {
		part = "shaft or bush"
	}
	f := said(&r.Findings, PushBends, finding.Caution, "Pressed home by its end, the %s is stressed to %.0f MPa along, "+
		"where %s bears %.0f MPa: it swells in the hole, or bends, and one that stands out far bends at less.",
		part, along.In(units.Megapascal), p.Shaft.Name, bears.Value.In(units.Megapascal))
	f.Remedies = []string{"Take less interference or a shorter joint, or heat the hub; oil it, and guide it square as it goes in."}
	f.Refs = source.Of(bears.Refs.First())
}

// pressing is what to mind at the press, whatever the sizes.
func pressing(hub material.Material) []finding.Precaution {
	text := "Press square, with the hub borne close to its bore, and stand clear of the line of the press: " +
		"eye protection and a guard, as parts fly when they slip or burst."
	if hub.Tensile.Known() {
		text += " Grey iron cracks without warning: press slowly, and stop when the force stops rising as it should."
	}
	return []finding.Precaution{care(PressWork, text)}
}
