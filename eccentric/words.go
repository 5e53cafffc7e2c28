package eccentric

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// mm writes a length for a sentence, to a hundredth of a millimetre, and below
// a tenth to a micron.
func mm(l units.Length) string {
	places := 2
	if l.Abs().Cmp(units.Micron(100)) < 0 {
		places = 3
	}
	return trim(l.Decimal(units.Millimetres, places)) + " mm"
}

// both writes it in millimetres and, as the shop says it, in thou below a tenth
// of an inch and in inches above.
func both(l units.Length) string {
	if l.Abs().Cmp(units.Thou(100)) < 0 {
		return mm(l) + " (" + trim(l.Decimal(units.Thousandths, 1)) + " thou)"
	}
	return mm(l) + " (" + l.Text(units.Inches, 3) + ")"
}

// toSet writes a move as both does, but to no more than a hundredth of a
// millimetre.
func toSet(l units.Length) string {
	_, thou, _ := strings.Cut(both(l), " mm ")
	return trim(l.Decimal(units.Millimetres, 2)) + " mm " + thou
}

// toBeSet writes a move as both does, of the hundredths of a millimetre to which cures
// are rounded, so that one move has one figure wherever it is named.
func toBeSet(l units.Length) string { return both(step10(l, units.Nearest)) }

// size writes a length to cut to, rounded to the safe side at a hundredth of a
// millimetre and at a thou.
func size(l units.Length, mode units.RoundMode) string {
	metric, errMM := l.Round(units.Micron(10), mode)
	inch, errInch := l.Round(units.Thou(1), mode)
	if errMM != nil || errInch != nil {
		return l.String()
	}
	return mm(metric) + " (" + inch.Decimal(units.Inches, 3) + " in)"
}

// rounded returns what size prints for a length, in the unit in which it is
// further from it.
func rounded(l units.Length, mode units.RoundMode) units.Length {
	metric, errMM := l.Round(units.Micron(10), mode)
	inch, errInch := l.Round(units.Thou(1), mode)
	switch {
	case errMM != nil || errInch != nil:
		return l
	case metric.Sub(l).Abs().Cmp(inch.Sub(l).Abs()) > 0:
		return metric
	}
	return inch
}

// trim takes the zeros off the end of a decimal number.
func trim(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// deg writes an angle to a tenth of a degree, nothing without a sign.
func deg(a units.Angle) string { return fmt.Sprintf("%.1f deg", math.Round(10*a.Degrees())/10+0) }

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }

// towards says by how much and which way the valve is off, or is to be moved, on
// the line to the crank.
func towards(offset units.Length) string {
	if offset.Sign() < 0 {
		return both(offset.Neg()) + " away from"
	}
	return both(offset) + " towards"
}

// lowered returns a sentence for the middle of another.
func lowered(sentence string) string { return strings.ToLower(sentence[:1]) + sentence[1:] }

// fromCrank says where the eccentric stands.
func fromCrank(g Gear) string {
	if lead := g.EccentricLead(); lead < 0 {
		return deg(-lead) + " behind the crank in the direction of rotation"
	} else {
		return deg(lead) + " ahead of the crank in the direction of rotation"
	}
}
