package units

import (
	"math/bits"
	"strconv"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"
)

const commaProblem = "a comma in the number: write a point for the decimal, and nothing between thousands"

const lengthAccepted = `a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ` +
	`ft, such as "6.35 mm", "1 3/8 in" or "5 thou"`

// MustLength is [ParseLength] for literals; it panics on an error.
func MustLength(s string) Length {
	l, err := ParseLength(s)
	if err != nil {
		panic(err)
	}
	return l
}

// ParseLength reads a length with its unit:
//
//	6.35 mm   1/4 in   1 3/8"   1-3/8 in   1½ in   0.250in   5 thou   12 um   12 µm
//
// The number is decimal, with up to 15 digits on either side of the point and
// no exponent; fractions go with inches. The minus sign, the fraction slash,
// the marks and the spaces that word processors put in are read as their plain
// forms. Digits finer than a picometre round to
// the nearest one. Lengths beyond 1 km, a number without a unit, and the unit
// "mil", which means a thousandth of an inch to some and a millimetre to
// others, are errors of type [*ParseError].
func ParseLength(s string) (Length, error) {
	fail := func(err error, problem string) (Length, error) {
		return Length{}, &ParseError{What: "length", Text: s, Problem: problem, Accepted: lengthAccepted, Err: err}
	}
	text := strings.TrimSpace(plainForms(s))
	negative := false
	switch {
	case text == "":
		return fail(ErrSyntax, "empty")
	case text[0] == '-' || text[0] == '+':
		negative = text[0] == '-'
		text = strings.TrimSpace(text[1:])
	}
	number, symbol := splitUnit(text)
	switch {
	case number == "":
		return fail(ErrSyntax, "no number before the unit")
	case symbol == "":
		return fail(ErrUnknownUnit, "a number without a unit")
	case isExponent(symbol):
		return fail(ErrSyntax, "an exponent: write the number out")
	}
	if symbol == "mil" || symbol == "mils" {
		return fail(ErrUnknownUnit, "mil means a thousandth of an inch to some and a millimetre to others")
	}
	unit, ok := lengthUnit(symbol)
	if !ok {
		return fail(ErrUnknownUnit, "unknown unit "+quoteShort(symbol))
	}
	if pm, ok := exactly(number, unit); ok {
		if negative {
			pm = -pm
		}
		return Length{pm}, nil
	}
	top, bottom, problem := parseNumber(number)
	if problem != "" {
		return fail(ErrSyntax, problem)
	}
	if bottom != 1 && unit != pmPerInch {
		return fail(ErrSyntax, "a fraction goes with inches only")
	}
	pm := top.Mul(decimal.New(unit, 0)).DivRound(decimal.New(bottom, 0), 0)
	if pm.GreaterThan(decimal.New(maxLength, 0)) {
		return fail(ErrOutOfRange, "longer than 1 km")
	}
	if pm.IsZero() && !top.IsZero() {
		return fail(ErrOutOfRange, "shorter than a picometre")
	}
	l := Length{pm.IntPart()}
	if negative {
		l = l.Neg()
	}
	return l, nil
}

// lengthUnit returns the picometres in the unit that people write as symbol.
func lengthUnit(symbol string) (pm int64, ok bool) {
	switch symbol {
	case "mm":
		return pmPerMM, true
	case "cm":
		return pmPerCM, true
	case "m":
		return pmPerMetre, true
	case "um", "µm", "μm", "micron", "microns": // the micro sign and the Greek letter
		return pmPerMicron, true
	case "in", `"`, "″", "”", "inch", "inches":
		return pmPerInch, true
	case "thou":
		return pmPerThou, true
	case "ft":
		return pmPerFoot, true
	}
	return 0, false
}

// splitUnit cuts text where its number ends.
func splitUnit(text string) (number, symbol string) {
	end := 0
	for i, r := range text {
		if (r < '0' || r > '9') && !strings.ContainsRune(".,/- ", r) && vulgar(r) == "" {
			break
		}
		end = i + len(string(r))
	}
	return strings.TrimSpace(text[:end]), strings.TrimSpace(text[end:])
}

// exactly returns a decimal number of up to 18 digits, none of them lost, or an
// inch fraction, times the picometres of a unit; false for everything that needs
// another look.
func exactly(number string, unit int64) (pm int64, ok bool) {
	top, bottom, ok := shortDecimal(number)
	if !ok && unit == pmPerInch {
		top, bottom, ok = fraction(number)
	}
	if !ok {
		return 0, false
	}
	high, low := bits.Mul64(top, uint64(unit))
	if high >= bottom {
		return 0, false
	}
	quotient, rest := bits.Div64(high, low, bottom)
	if rest >= bottom-rest { // half and more away from zero
		quotient++
	}
	if quotient > maxLength || quotient == 0 && top != 0 {
		return 0, false
	}
	return int64(quotient), true
}

// shortDecimal reads a decimal number that 64 bits hold as a quotient.
func shortDecimal(s string) (top, bottom uint64, ok bool) {
	const most = 18 // digits
	if len(s) > most+1 || !plainDecimal(s) {
		return 0, 0, false
	}
	bottom = 1
	point := false
	for _, r := range []byte(s) {
		if r == '.' {
			point = true
			continue
		}
		top = 10*top + uint64(r-'0')
		if point {
			bottom *= 10
		}
	}
	return top, bottom, true
}

// fraction reads "3/8", "1 3/8" and "1-3/8" as a quotient.
func fraction(s string) (top, bottom uint64, ok bool) {
	before, denominator, ok := strings.Cut(s, "/")
	whole, numerator := "0", strings.TrimSpace(before)
	if i := strings.LastIndexByte(numerator, '-'); i >= 0 { // with spaces round it, it may be a minus
		whole, numerator = numerator[:i], numerator[i+1:]
	} else if i := strings.LastIndexByte(numerator, ' '); i >= 0 {
		whole, numerator = strings.TrimRight(numerator[:i], " "), numerator[i+1:]
	}
	w, okW := plainInteger(whole)
	n, okN := plainInteger(numerator)
	d, okD := plainInteger(strings.TrimSpace(denominator))
	return w*d + n, d, ok && okW && okN && okD && d != 0
}

// parseNumber reads "6.35", "3/8", "1 3/8", "1-3/8" and "1½" as a quotient.
func parseNumber(s string) (top decimal.Decimal, bottom int64, problem string) {
	if strings.Contains(s, ",") {
		return top, 0, commaProblem
	}
	for i, r := range s {
		if v := vulgar(r); v != "" {
			if i+len(string(r)) != len(s) {
				return top, 0, "something after the fraction"
			}
			s = s[:i] + " " + v
			break
		}
	}
	s = strings.TrimSpace(s)
	if !strings.Contains(s, "/") {
		if !plainDecimal(s) {
			return top, 0, "not a decimal number of at most 15 digits on either side of the point"
		}
		return decimal.RequireFromString(s), 1, ""
	}
	over, under, ok := fraction(s)
	if !ok {
		return top, 0, "not a fraction such as 3/8 or 1 3/8 with numbers of at most six digits"
	}
	return decimal.New(int64(over), 0), int64(under), ""
}

// plainForms returns text with plain characters for those that typesetting and
// word processors use in their place.
func plainForms(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\u2212': // minus sign
			return '-'
		case r == '\u2044': // fraction slash
			return '/'
		case r > unicode.MaxASCII && unicode.IsSpace(r):
			return ' '
		}
		return r
	}, s)
}

// isExponent reports whether what follows a number begins like 'e3' or 'E-3'.
func isExponent(symbol string) bool {
	rest := strings.TrimLeft(symbol[1:], "+-")
	return (symbol[0] == 'e' || symbol[0] == 'E') && rest != "" && rest[0] >= '0' && rest[0] <= '9'
}

func plainDecimal(s string) bool {
	before, after, _ := strings.Cut(s, ".")
	return len(before)+len(after) > 0 && len(before) <= 15 && len(after) <= 15 && allDigits(before) && allDigits(after)
}

func plainInteger(s string) (uint64, bool) {
	if s == "" || len(s) > 6 || !allDigits(s) {
		return 0, false
	}
	n, err := strconv.ParseUint(s, 10, 64)
	return n, err == nil
}

func allDigits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

func vulgar(r rune) string {
	switch r {
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	}
	return ""
}

// quoteShort quotes a piece of the user's text, cut to a sensible length, with
// what does not print escaped.
func quoteShort(s string) string {
	const most = 20
	return strconv.Quote(cut(s, most))
}

// cut returns the first runes of a text, with dots for the rest of it.
func cut(s string, most int) string {
	if runes := []rune(s); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return s
}
