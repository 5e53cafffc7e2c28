package setting

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// mm writes a length to a hundredth of a millimetre, and below a tenth to a micron.
func mm(l units.Length) string {
	places := 2
	if l.Abs().Cmp(units.Micron(100)) < 0 {
		places = 3
	}
	return trim(l.Decimal(units.Millimetres, places)) + " mm"
}

// mmThou writes it in thou too.
func mmThou(l units.Length) string {
	return mm(l) + " (" + trim(l.Decimal(units.Thousandths, 1)) + " thou)"
}

// moved writes a move and its way.
func moved(l units.Length) string {
	if l.Sign() < 0 {
		return mmThou(l.Neg()) + " away from"
	}
	return mmThou(l) + " towards"
}

// deg writes an angle to a tenth of a degree, without its sign.
func deg(a units.Angle) string { return fmt.Sprintf("%.1f deg", math.Abs(a.Degrees())) }

// trim takes the zeros off the end of a decimal number.
func trim(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// turns writes turns of a nut: halves, thirds, quarters and sixths as such.
func turns(v float64) string {
	v = math.Abs(v)
	whole, part := math.Modf(v)
	for _, f := range []struct {
		of   float64
		text string
	}{{0.5, "1/2"}, {1.0 / 3, "1/3"}, {2.0 / 3, "2/3"}, {0.25, "1/4"}, {0.75, "3/4"}, {1.0 / 6, "1/6"}, {5.0 / 6, "5/6"}} {
		if math.Abs(part-f.of) < 1e-12 {
			if whole == 0 {
				return f.text + " turn"
			}
			return fmt.Sprintf("%.0f %s turns", whole, f.text)
		}
	}
	unit := " turns"
	if v == 1 {
		unit = " turn"
	}
	return trim(fault.Decimal(v, 3)) + unit
}
