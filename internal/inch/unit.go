package inch

import (
	"math"
	"strings"
	"sync"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A unit is one of the metric ones, with what the inch trade has in its place.
type unit struct {
	metric, inch string
	factor       float64 // inch units in a metric one
	nought       float64 // of the inch unit, at 0 of the metric one
}

// lengths are those whose inch unit depends on their size.
const lengths = "mm"

// metrics returns the metric units, of two that begin alike the longer first.
var metrics = sync.OnceValue(func() []unit {
	perMinute := units.MetrePerSecond.In(units.FootPerMinute)
	cubicInch := units.CubicCentimetre.In(units.CubicInch)
	perPound := units.Kilogram.In(units.Pound)
	btu := (1000 * units.Joule).In(units.BTU)
	return []unit{
		{"mm/min", "in/min", 1 / 25.4, 0}, {"mm/s", "in/s", 1 / 25.4, 0},
		{"mm2", "in2", units.SquareMillimetre.In(units.SquareInch), 0},
		{"mm3", "in3", cubicInch / 1000, 0},
		{lengths, "", 0, 0},
		{"um", "thou", 1 / 25.4, 0},
		{"ml/s", "in3/s", cubicInch, 0}, {"ml/min", "in3/min", cubicInch, 0}, {"ml", "in3", cubicInch, 0},
		{"l/min", "ft3/min", units.LitrePerMinute.In(units.CubicFootPerMinute), 0},
		{"bar", "psi", units.Bar.In(units.PSI), 0},
		{"MPa", "psi", units.Megapascal.In(units.PSI), 0}, {"kPa", "psi", units.Megapascal.In(units.PSI) / 1000, 0},
		{"N m", "lbf in", units.NewtonMetre.In(units.PoundForceInch), 0},
		{"N", "lbf", units.Newton.In(units.PoundForce), 0},
		{"kJ/kg", "Btu/lb", btu / perPound, 0},
		{"kJ", "Btu", btu, 0}, {"J", "ft lbf", units.Joule.In(units.FootPoundForce), 0},
		{"W", "hp", units.Watt.In(units.Horsepower), 0},
		{"m/s", "ft/min", perMinute, 0}, {"m/min", "ft/min", perMinute / 60, 0},
		{"kg/h", "lb/h", perPound, 0}, {"kg", "lb", perPound, 0}, {"g", "oz", units.Gram.In(units.Ounce), 0},
		{"degrees C", "degrees F", 1.8, 32}, {"degC", "degF", 1.8, 32},
	}
})

// inches are the units of the inch trade as the texts write them, of two that
// begin alike the longer first.
var inches = [...]string{
	"in/min", "in/s", "in2", "in3/s", "in3/min", "in3", "in", "thou", "ft3/min", "ft/min", "ft/s", "ft lbf", "psi", "lbf in", "lbf ft", "lbf",
	"Btu/lb", "Btu", "hp", "lb/h", "lb", "oz", "degrees F", "degF",
}

// places returns the decimals of an inch unit that tell as much as so many of the
// metric one: a step of its last place is at most twice that of the metric one.
func (u unit) places(metric int) int {
	step := math.Pow10(-metric) * u.factor
	return max(0, int(math.Ceil(-math.Log10(step)-math.Log10(2))))
}

// of returns a figure of the metric unit in that of the inch trade.
func (u unit) of(v float64) float64 { return v*u.factor + u.nought }

// small is the length below which thou are said, and inches from there on.
var small = units.Inch(0.1)

// write returns lengths that stand in one list, in thou or in inches, that were
// printed in millimetres with so many decimals at the most.
func write(list []units.Length, metric int) (numbers []string, name string) {
	if fractions, ok := drawn(list); ok {
		return fractions, "in"
	}
	greatest, exact := units.Length{}, true
	for _, l := range list {
		if l.Abs().Cmp(greatest) > 0 {
			greatest = l.Abs()
		}
		exact = exact && l.Picometres()%(units.Thou(0.5).Picometres()) == 0
	}
	in, places, name := units.Inches, 3, "in"
	switch {
	case greatest.Cmp(small) < 0 && (metric > 2 || greatest.Cmp(units.MM(0.04)) < 0):
		in, places, name = units.Thousandths, max(1, metric-2), "thou"
	case greatest.Cmp(small) < 0:
		in, places, name = units.Thousandths, 0, "thou"
	case metric > 2:
		places = metric + 1
	}
	if exact {
		places = max(places, 4)
	}
	for _, l := range list {
		text := l.Decimal(in, places)
		if exact || l.IsZero() {
			text = trim(text)
		}
		numbers = append(numbers, text)
	}
	return numbers, name
}

// drawn returns lengths as fractions of an inch, as a drawing has them, if all of
// them are some.
func drawn(list []units.Length) (numbers []string, ok bool) {
	for _, l := range list {
		f, err := l.NearestFraction(64)
		if err != nil || !f.Rest.IsZero() || l.IsZero() {
			return nil, false
		}
		numbers = append(numbers, strings.TrimSuffix(f.String(), " in"))
	}
	return numbers, true
}

// trim takes the noughts from the end of a decimal.
func trim(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// significant writes v with so many decimals, but no digit beyond the figures that
// count: noughts stand in their place.
func significant(v float64, places, figures int) string {
	if v == 0 {
		return "0"
	}
	digits := int(math.Floor(math.Log10(math.Abs(v)))) + 1
	if digits > figures {
		step := math.Pow10(digits - figures)
		v = math.Round(v/step) * step
	}
	return fault.Decimal(v, max(0, min(max(places, 2-digits), figures-digits)))
}
