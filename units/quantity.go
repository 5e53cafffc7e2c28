package units

import (
	"math"
	"math/big"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A quantity is what the float64 types of this package have in common: a name,
// and the units that people write. The first unit is the one it prints in.
type quantity struct {
	name     string
	units    []unitDef
	absolute bool // whether zero is absolute, with nothing below it
}

// A unitDef says that one unit is factor SI units, counted from zero.
type unitDef struct {
	symbols string // spellings, separated by spaces; the first one prints
	factor  float64
	zero    float64 // added before the factor: 459.67 for Fahrenheit
}

// find returns the unit with the given spelling. Inner spaces and the dot of
// a product do not count, so "lbf ft" and "lbf·ft" are one.
func (q *quantity) find(symbol string) (unitDef, bool) {
	symbol = strings.Map(func(r rune) rune {
		if r == ' ' || r == '·' || r == '*' {
			return -1
		}
		return r
	}, symbol)
	for _, u := range q.units {
		for s := range strings.FieldsSeq(u.symbols) {
			if s == symbol {
				return u, true
			}
		}
	}
	return unitDef{}, false
}

// accepted lists the units for an error message.
func (q *quantity) accepted() string {
	var names []string
	for _, u := range q.units {
		first, others, _ := strings.Cut(u.symbols, " ")
		if first[0] >= utf8.RuneSelf { // not on every keyboard
			first += " (or " + strings.ReplaceAll(others, " ", ", ") + ")"
		}
		names = append(names, first)
	}
	return "a decimal number and one of " + strings.Join(names, ", ")
}

func (q *quantity) parse(s string) (float64, error) {
	fail := func(err error, problem string) (float64, error) {
		return 0, &ParseError{What: q.name, Text: s, Problem: problem, Accepted: q.accepted(), Err: err}
	}
	text := strings.TrimSpace(plainForms(s))
	if text == "" {
		return fail(ErrSyntax, "empty")
	}
	end := numberEnd(text)
	number, symbol := text[:end], strings.TrimSpace(text[end:])
	switch {
	case number == "":
		lower := strings.ToLower(strings.TrimLeft(text, "+-"))
		if strings.HasPrefix(lower, "nan") || strings.HasPrefix(lower, "inf") {
			return fail(ErrNotFinite, "not a finite number")
		}
		return fail(ErrSyntax, "no number before the unit")
	case len(number) > 64:
		return fail(ErrSyntax, "more than 64 characters in the number")
	case symbol == "":
		return fail(ErrUnknownUnit, "a number without a unit")
	case strings.HasPrefix(symbol, ","):
		return fail(ErrSyntax, commaProblem)
	}
	u, ok := q.find(symbol)
	switch {
	case ok:
	case symbol[0] >= '0' && symbol[0] <= '9':
		return fail(ErrSyntax, "a space in the number: write nothing between thousands")
	case symbol[0] == '/':
		return fail(ErrSyntax, "a fraction goes with inches only")
	default:
		return fail(ErrUnknownUnit, "unknown unit "+quoteShort(symbol))
	}
	v, ok := u.value(number)
	if !ok {
		return fail(ErrOutOfRange, "too large or too small to hold")
	}
	if q.absolute && v < 0 {
		return fail(ErrOutOfRange, "below absolute zero")
	}
	return v, nil // no -0: what is added before the factor takes the sign off
}

// numberEnd returns the length of the longest decimal number, with or without
// sign, point and exponent, at the start of s.
func numberEnd(s string) int {
	digits := func(i int) int {
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
		return i
	}
	start := 0
	if s[0] == '+' || s[0] == '-' {
		start = 1
	}
	i := digits(start)
	n := i - start
	if i < len(s) && s[i] == '.' {
		j := digits(i + 1)
		n += j - i - 1
		i = j
	}
	if n == 0 {
		return 0
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		if k := digits(j); k > j {
			i = k
		}
	}
	return i
}

// value returns the SI value of a number in unit u, as a Go program that
// multiplies the literal by the unit would have it. Text of more than 17 digits
// is multiplied before it is rounded, which reaches the values that lie between
// two such products. It reports false for what float64 cannot hold.
func (u unitDef) value(number string) (float64, bool) {
	n, err := strconv.ParseFloat(number, 64)
	if err != nil || n == 0 && significant(number) > 0 {
		return 0, false
	}
	v, nonzero := (n+u.zero)*u.factor, n+u.zero != 0
	if significant(number) > 17 {
		exact, _, _ := big.ParseFloat(number, 10, 256, big.ToNearestEven) // strconv has read it already
		exact.Add(exact, big.NewFloat(u.zero))
		v, _ = exact.Mul(exact, big.NewFloat(u.factor)).Float64()
		nonzero = exact.Sign() != 0
	}
	return v, !math.IsInf(v, 0) && (v != 0) == nonzero
}

// significant counts the digits of a number from the first that is not zero.
func significant(number string) int {
	mantissa, _, _ := strings.Cut(strings.ToLower(number), "e")
	count := 0
	for _, r := range mantissa {
		if r >= '0' && r <= '9' && (count > 0 || r != '0') {
			count++
		}
	}
	return count
}

// text returns the shortest decimal text of v in the first unit that reads back
// to v exactly.
func (q *quantity) text(v float64) string {
	u := q.units[0]
	symbol, _, _ := strings.Cut(u.symbols, " ")
	n := v/u.factor - u.zero
	if n == 0 {
		n = 0 // not -0
	}
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return strconv.FormatFloat(n, 'g', -1, 64) + " " + symbol
	}
	for digits := range 17 {
		s := plainFloat(n, digits)
		if back, ok := u.value(s); ok && back == v {
			return s + " " + symbol
		}
	}
	exact := new(big.Float).SetPrec(256).Quo(big.NewFloat(v), big.NewFloat(u.factor))
	exact.Sub(exact, big.NewFloat(u.zero))
	const most = 36
	for digits := 17; digits < most; digits++ {
		s := plainBig(exact, digits)
		if back, ok := u.value(s); ok && back == v {
			return s + " " + symbol
		}
	}
	return exact.Text('e', most) + " " + symbol
}

// plainFloat writes n with the given number of digits after the first, without
// an exponent where that stays readable.
func plainFloat(n float64, digits int) string {
	s := strconv.FormatFloat(n, 'e', digits, 64)
	short, _ := strconv.ParseFloat(s, 64)
	if readable(short) {
		return strconv.FormatFloat(short, 'f', -1, 64)
	}
	return s
}

// plainBig is plainFloat for more digits than a float64 holds.
func plainBig(n *big.Float, digits int) string {
	s := n.Text('e', digits)
	if near, _ := n.Float64(); readable(near) {
		_, exponent, _ := strings.Cut(s, "e")
		power, _ := strconv.Atoi(exponent)
		return n.Text('f', digits-power)
	}
	return s
}

// readable reports whether n is read more easily without an exponent.
func readable(n float64) bool {
	a := math.Abs(n)
	return a == 0 || a >= 1e-6 && a < 1e15
}

func (q *quantity) marshal(v float64) ([]byte, error) {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return nil, &ArgumentError{
			Package: "units", Field: q.name, Value: q.text(v), Accepted: "finite numbers", Err: ErrNotFinite,
		}
	case math.IsInf(v/q.units[0].factor, 0):
		return nil, &ArgumentError{
			Package: "units", Field: q.name, Value: q.text(v), Problem: "too large to print",
			Accepted: "what float64 holds in the unit that is printed", Err: ErrOutOfRange,
		}
	}
	return []byte(q.text(v)), nil
}

// unmarshal sets *p to what parse makes of text, or leaves it as it was.
func unmarshal[T any](p *T, parse func(string) (T, error), text []byte) error {
	v, err := parse(string(text))
	if err == nil {
		*p = v
	}
	return err
}
