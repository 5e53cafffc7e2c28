package fault

import (
	"strconv"
	"strings"
)

// Decimal returns a number to the given places, without a sign where it shows as
// nought: 0.00 and not -0.00.
func Decimal(v float64, places int) string {
	text := strconv.FormatFloat(v, 'f', places, 64)
	if nought(text) {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// Signed is [Decimal] with a plus before what shows above nought.
func Signed(v float64, places int) string {
	text := Decimal(v, places)
	if v > 0 && !nought(text) {
		text = "+" + text
	}
	return text
}

func nought(text string) bool { return strings.Trim(text, "-0.") == "" }
