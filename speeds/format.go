package speeds

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// both returns a length in millimetres and inches as the bench wants it.
func both(l units.Length) string {
	return trim(l.Decimal(units.Millimetres, 2)) + " mm (" + trim(l.Decimal(units.Inches, 3)) + " in)"
}

func trim(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func surface(v units.Speed) string {
	return fmt.Sprintf("%s m/min (%.0f ft/min)", trim(fmt.Sprintf("%.1f", v.In(units.MetrePerMinute))), v.In(units.FootPerMinute))
}

// limitText returns a limit of the spindle, rounded down to what rpm prints.
func limitText(n units.RotationalSpeed) string { return rpm(roundedDown(n)) }

// roundedDown returns the speed to the whole number at or below it, to a tenth below
// 100 rev/min; one below a tenth stays as it is.
func roundedDown(n units.RotationalSpeed) units.RotationalSpeed {
	const hair = 1e-9
	step := units.RevPerMinute
	if n < 100*step {
		step /= 10
	}
	down := units.RotationalSpeed(math.Floor(float64(n/step)+hair)) * step
	if down == 0 {
		return n
	}
	return min(down, n) // a hair over is none
}

func rpm(n units.RotationalSpeed) string {
	v := n.In(units.RevPerMinute)
	if v < 100 {
		return trim(fmt.Sprintf("%.1f", v)) + " rev/min"
	}
	return fmt.Sprintf("%.0f rev/min", math.Floor(v+0.5))
}
