package thread

import (
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// perInch returns the pitch of n threads to the inch, to the picometre.
func perInch(n float64) units.Length { return units.Inch(1 / n) }

// round rounds a diameter or a tolerance, which is not negative, to the nearest
// step, halves up.
func round(l, step units.Length) units.Length {
	n, s := l.Picometres(), step.Picometres()
	return units.Picometres((n + s/2) / s * s)
}

// roundEven is round with halves to the even step.
func roundEven(l, step units.Length) units.Length {
	n, s := l.Picometres(), step.Picometres()
	q := (n + s/2) / s
	if q%2 != 0 && 2*(q*s-n) == s {
		q--
	}
	return units.Picometres(q * s)
}

// number writes the millimetres of l without unit.
func number(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

// inches writes an inch size as it stands in a designation: "1 1/8", "1/4".
func inches(l units.Length) string {
	if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() {
		return strings.TrimSuffix(f.String(), " in")
	}
	return strings.TrimRight(l.Decimal(units.Inches, 4), "0")
}

// count writes a number of threads to the inch.
func count(tpi float64) string { return strconv.FormatFloat(tpi, 'f', -1, 64) }
