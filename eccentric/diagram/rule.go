package diagram

import "github.com/valvechest/valvechest/units"

// A rule is the unit in which a picture is read, of lengths and of what goes with them.
type rule struct {
	inch bool

	length   units.LengthUnit
	pressure units.Pressure
	torque   units.Torque
	energy   units.Energy

	lengthName, pressureName, torqueName, energyName string
}

func ruleOf(o Options) rule {
	if o.Inch {
		return rule{true, units.Inches, units.PSI, units.PoundForceFoot / 12, units.FootPoundForce, "in", "psi", "lbf in", "ft lbf"}
	}
	return rule{false, units.Millimetres, units.Bar, units.NewtonMetre, units.Joule, "mm", "bar", "N m", "J"}
}

// size writes a length: to a hundredth of a millimetre, or to a thousandth of an inch,
// and below a tenth of an inch in thousandths of it.
func (r rule) size(l units.Length) string {
	switch {
	case !r.inch:
		return figure(l.In(units.Millimetres), 2) + " mm"
	case l.Abs().Cmp(units.Thou(100)) < 0:
		return figure(l.In(units.Thousandths), 1) + " thou"
	}
	return figure(l.In(units.Inches), 3) + " in"
}

// of returns what a number of millimetres is on the rule.
func (r rule) of(mm float64) float64 {
	if r.inch {
		return mm / 25.4
	}
	return mm
}
