package check

import (
	"regexp"
	"strconv"
	"strings"
)

var decimals = regexp.MustCompile(`-?\d+\.\d+(e[-+]\d+)?`)

// Rounded returns a text with its decimal fractions rounded to six significant digits,
// so that it is the same on machines that multiply and add at once.
func Rounded(text string) string {
	return decimals.ReplaceAllStringFunc(text, func(printed string) string {
		if significant(printed) <= 6 {
			return printed
		}
		v, err := strconv.ParseFloat(printed, 64)
		if err != nil {
			return printed
		}
		return strconv.FormatFloat(v, 'g', 6, 64)
	})
}

// significant counts the digits of a number from the first that is not zero.
func significant(printed string) int {
	mantissa, _, _ := strings.Cut(printed, "e")
	return len(strings.TrimLeft(strings.NewReplacer("-", "", ".", "").Replace(mantissa), "0"))
}
