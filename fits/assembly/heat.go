package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("assembly")

// The temperatures that are taken: from liquid helium to bright heat, wider than
// any workshop and than the expansions hold.
const (
	coldest = units.Temperature(4)
	hottest = units.Temperature(1273.15)
)

// temperature refuses absolute zero, which is a temperature that nobody set,
// and what is beyond any oven.
func temperature(field string, t units.Temperature) error {
	switch {
	case t == 0:
		return fail.Missing(field, "a temperature with its scale, units.Celsius or units.Fahrenheit")
	case !(t >= coldest && t <= hottest):
		return fail.OutOfRange(field, degrees(t), "from 4 K to 1000 degrees C")
	}
	return nil
}

// expands refuses a material whose expansion is not known.
func expands(part string, m material.Material) error {
	field := "material of the " + part
	if !m.Expansion.Known() {
		return fail.Argument(field, m.Name, "", "a material with an expansion, such as material.Lookup gives",
			units.ErrMissing)
	}
	value, most := m.Expansion.Value.In(units.MillionthPerKelvin), m.Expansion.Max.In(units.MillionthPerKelvin)
	if !(value > 0 && value < 1000 && most < 1000) {
		return fail.OutOfRange(field, "with expansion "+m.Expansion.Value.String()+", at most "+m.Expansion.Max.String(),
			"an expansion above 0 up to 1000 ppm/K")
	}
	return nil
}

// valuesOf returns where the values in use of figures are from.
func valuesOf(figures ...source.Refs) source.Refs {
	var refs source.Refs
	for _, f := range figures {
		refs = refs.And(f.First())
	}
	return refs
}

// degrees returns a temperature on both scales, so that no oven is misread.
func degrees(t units.Temperature) string {
	return fmt.Sprintf("%.0f degrees C (%.0f degrees F)", t.Celsius(), t.Fahrenheit())
}

// both returns a length as the two halves of the trade read it.
func both(l units.Length) string {
	return l.Decimal(units.Millimetres, 3) + " mm (" + l.Decimal(units.Thousandths, 2) + " thou)"
}

func longest(lengths ...units.Length) units.Length {
	out := lengths[0]
	for _, l := range lengths[1:] {
		if l.Cmp(out) > 0 {
			out = l
		}
	}
	return out
}

// A Range is a quantity at both ends.
type Range[Q ~float64] struct{ Min, Max Q }

// Contains reports whether a value is within the range, its ends included.
func (r Range[Q]) Contains(v Q) bool { return v >= r.Min && v <= r.Max }

// times returns both ends multiplied by a share above zero, as a quantity of
// another sort.
func times[P, Q ~float64](r Range[Q], share float64) Range[P] {
	return Range[P]{P(float64(r.Min) * share), P(float64(r.Max) * share)}
}
