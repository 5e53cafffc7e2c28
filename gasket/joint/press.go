package joint

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// GasketStress is the code of the finding that a gasket is pressed less than
// seats it.
const GasketStress finding.Code = "gasket-stress"

// A Seating is the stress that seats a gasket inside the studs, the factor y, by
// all sources that give one. The zero value is a gasket of which none does.
type Seating struct {
	Min, Max units.Pressure
	Refs     source.Refs
}

// A Pressing is how hard studs press a gasket, as a mean over its area.
type Pressing struct {
	Bolted   units.Pressure // before there is pressure
	Left     units.Pressure // with the pressure on; zero where the cover lifts
	Findings finding.List
}

// Press returns the mean stress that the studs put on a gasket.
//
//	bolted = n * preload / A
//	left   = (n * preload - F) / A
//
//	n  the number of studs
//	F  the load of the joint
//	A  the area of contact: gasket.Measures of the outline
//
// The finding says when bolting up does not reach the least of the stresses that
// seat the gasket, if one is given. That is a note and no more: the code's factor
// is for a gasket inside the studs. A full-face gasket is far from evenly loaded;
// most of it is near the studs. Source: mechanics. See the example.
func (l StudLoad) Press(area units.Area, seating Seating) (Pressing, error) {
	if err := zeroOrMore("stress that seats the gasket", seating.Min); err != nil {
		return Pressing{}, err
	}
	all := units.Force(l.Number) * l.Preload
	bolted, err := StressOnGasket(all, area)
	if err != nil {
		return Pressing{}, err
	}
	left, err := StressOnGasket(max(all-l.Total, 0), area)
	if err != nil {
		return Pressing{}, err
	}
	p := Pressing{Bolted: bolted, Left: left}
	if bolted < seating.Min {
		p.Findings = finding.List{{
			Code: GasketStress, Severity: finding.Note,
			Text: fmt.Sprintf("The studs press the gasket with %.1f MPa. Inside the studs it would be seated by %.1f MPa; with the studs through it no code gives a figure, and this one is an indication only.",
				bolted.In(units.Megapascal), seating.Min.In(units.Megapascal)),
			Remedies: []string{"Prove the joint with cold water; if it weeps, a softer or narrower gasket seats with less."},
			Refs:     seating.Refs,
		}}
	}
	return p, nil
}

// StressOnGasket returns the mean stress that a force puts on a gasket.
//
//	s = F / A
//
//	F  the force of all studs less what the pressure takes off, zero or more
//	A  the area of contact
//
// Source: mechanics. [StudLoad.Press] has both forces.
func StressOnGasket(force units.Force, area units.Area) (units.Pressure, error) {
	if err := zeroOrMore("force on the gasket", force); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "area of the gasket", area); err != nil {
		return 0, err
	}
	return units.Pressure(float64(force) / float64(area)), nil
}
