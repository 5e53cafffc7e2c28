package gauge

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

const setAccepted = `sizes and ranges separated by commas, ` +
	`such as "1-6x0.1 mm", "1/16-1/2x1/64 in", "#1-#60", "A-Z", "10-20 SWG", "6.8 mm"`

// maxRange is the number of sizes a range may have, maxSet that of a set; more is
// a slip of the step.
const (
	maxRange = 2000
	maxSet   = 10000
)

// ParseSet reads a set of sizes, separated by commas, semicolons or line ends.
// Each is a size that [Parse] reads or a range, both ends included:
//
//	1-6x0.1 mm          lengths, with the step between them
//	1/16-1/2x1/64 in    the same in inches
//	#1-#60              number drills, in either order
//	A-Z                 letter drills
//	10-20 SWG           gauge numbers of one system
//
// A range whose step does not lead from one end to the other exactly is an
// error, as are empty text, an item without a unit, a diameter that is not above
// zero and more than 10,000 sizes. Errors are of type [*units.ParseError].
func ParseSet(s string) (Set, error) {
	var sizes []Size
	for item := range strings.FieldsFuncSeq(s, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		item = strings.Join(strings.Fields(item), " ")
		if item == "" {
			return Set{}, fail.Unreadable("set", s, "nothing between two separators", setAccepted)
		}
		more, err := parseItem(item)
		if err != nil {
			var bad *units.ParseError
			errors.As(err, &bad) // as every error of an item is
			if strings.Trim(item, "0123456789.") == "" && commaBetweenDigits(s) {
				bad.Problem += "; a comma parts two sizes, each with its unit, and the decimal mark is a point"
			}
			return Set{}, err
		}
		if sizes = append(sizes, more...); len(sizes) > maxSet {
			return Set{}, fail.Text("set", s, fmt.Sprintf("more than %d sizes", maxSet), setAccepted, units.ErrOutOfRange)
		}
	}
	if len(sizes) == 0 {
		return Set{}, fail.Text("set", s, "no sizes", setAccepted, units.ErrMissing)
	}
	set, err := NewSet(sizes...)
	if err != nil {
		return Set{}, fail.Text("set", s, err.Error(), setAccepted, units.ErrOutOfRange)
	}
	return set, nil
}

// commaBetweenDigits reports whether text is like "6,8", which may be meant for
// six and eight tenths.
func commaBetweenDigits(text string) bool {
	before, rest, found := strings.Cut(text, ",")
	for found {
		before, rest = strings.TrimSpace(before), strings.TrimSpace(rest)
		if before != "" && rest != "" && allDigits(before[len(before)-1:]) && allDigits(rest[:1]) {
			return true
		}
		before, rest, found = strings.Cut(rest, ",")
	}
	return false
}

// parseItem reads a range or a size.
func parseItem(item string) ([]Size, error) {
	if len(item) > 1 && item[0] == '-' && allDigits(item[1:2]) {
		return nil, fail.Text("set", item, "a size is not below zero", setAccepted, units.ErrOutOfRange)
	}
	if from, to, ok := cutRange(strings.ToLower(item)); ok {
		if sizes, known, err := parseRange(item, from, to); known {
			return sizes, err
		}
	}
	size, err := Parse(item)
	var bad *units.ParseError
	if errors.As(err, &bad) {
		if strings.Contains(item, "-") {
			bad.Problem += `; a range of lengths has a step, "1-6x0.1 mm", and one and a half is "1 1/2"`
		}
		if bad.Err != units.ErrOutOfRange { // that names the range itself
			bad.Accepted = setAccepted
		}
	}
	return []Size{size}, err
}

// cutRange cuts a range at its first hyphen, dash or "to".
func cutRange(text string) (from, to string, ok bool) {
	for i := 1; i < len(text); i++ {
		for _, between := range []string{"-", "–", "to"} {
			if rest, found := strings.CutPrefix(text[i:], between); found {
				return strings.TrimSuffix(text[:i], " "), strings.TrimPrefix(rest, " "), true
			}
		}
	}
	return "", "", false
}

// parseRange reads the four sorts of range; it reports false for text that is
// none of them.
func parseRange(item, from, to string) (sizes []Size, known bool, err error) {
	if first, signed := cutNumber(from); signed && allDigits(first) {
		if last, _ := cutNumber(to); allDigits(last) {
			sizes, err = countedRange(item, first, last, func(n int) (Size, error) { return numberDrill(n, item) })
			return sizes, true, err
		}
	}
	if first := cutLetter(from); first != 0 && len(to) == 1 && cutLetter(to) != 0 {
		sizes, err = letterRange(first, to[0])
		return sizes, true, err
	}
	if last, name, ok := strings.Cut(to, " "); ok && allDigits(from) && allDigits(last) {
		if system, ok := systemCalled(name); ok {
			sizes, err = countedRange(item, from, last, func(n int) (Size, error) { return system.Size(strconv.Itoa(n)) })
			return sizes, true, err
		}
	}
	if to, by, ok := cutStep(to); ok {
		sizes, err = steppedRange(item, from, to, by)
		return sizes, true, err
	}
	return nil, false, nil
}

// cutNumber returns what follows the sign of a number drill, which in a range
// may stand close to it, "no1", and whether there was one.
func cutNumber(text string) (number string, signed bool) {
	if number, signed = cutNumberSign(text); signed {
		return number, true
	}
	return strings.CutPrefix(text, "no")
}

// cutLetter returns the letter of a letter drill, or zero.
func cutLetter(text string) byte {
	for _, word := range []string{"letter ", "letters "} {
		text = strings.TrimPrefix(text, word)
	}
	if len(text) != 1 || text[0] < 'a' || text[0] > 'z' {
		return 0
	}
	return text[0]
}

// cutStep cuts "6x0.1 mm" into the end of a range and its step.
func cutStep(text string) (to, by string, ok bool) {
	for i, r := range text {
		if i > 0 && (r == 'x' || r == '×') {
			by = strings.TrimPrefix(text[i+len(string(r)):], " ")
			return strings.TrimSuffix(text[:i], " "), by, by != ""
		}
	}
	return "", "", false
}

// letterRange returns the letter drills from one to another, in either order.
func letterRange(from, to byte) ([]Size, error) {
	var sizes []Size
	for letter := min(from, to); letter <= max(from, to); letter++ {
		size, err := Parse(string(letter))
		if err != nil {
			return nil, err
		}
		sizes = append(sizes, size)
	}
	return sizes, nil
}

// countedRange returns the sizes from one whole number to another, in either
// order.
func countedRange(item, from, to string, size func(int) (Size, error)) ([]Size, error) {
	a, err := strconv.Atoi(from)
	b, _ := strconv.Atoi(to) // one that is too large is the largest
	if err != nil || max(a, b)-min(a, b) > maxRange {
		return nil, fail.Text("set", item, "the numbers are too large", setAccepted, units.ErrOutOfRange)
	}
	var sizes []Size
	for n := min(a, b); n <= max(a, b); n++ {
		s, err := size(n)
		if err != nil {
			return nil, err
		}
		sizes = append(sizes, s)
	}
	return sizes, nil
}

// steppedRange returns the sizes from one length to another. A unit that is
// given alone counts for all three lengths.
func steppedRange(item, from, to, by string) ([]Size, error) {
	wrong := func(kind error, problem string) ([]Size, error) {
		return nil, fail.Text("set", item, problem, setAccepted, kind)
	}
	unit, several := "", false
	for _, text := range []string{from, to, by} {
		if u := strings.TrimLeft(text, "0123456789./ "); u != "" {
			several = several || unit != "" && u != unit
			unit = u
		}
	}
	var lengths []units.Length
	bare := ""
	for _, text := range []string{from, to, by} {
		if strings.TrimLeft(text, "0123456789./ ") == "" {
			bare = text
			text += " " + unit
		}
		l, err := units.ParseLength(text)
		if e, ok := err.(*units.ParseError); ok {
			return wrong(units.ErrSyntax, fmt.Sprintf("%q: %s", strings.TrimSpace(text), e.Problem))
		}
		lengths = append(lengths, l)
	}
	lo, hi, step := lengths[0], lengths[1], lengths[2]
	switch {
	case several && bare != "":
		return wrong(units.ErrAmbiguous, fmt.Sprintf("%q has no unit, and there are two: write one behind each", bare))
	case step.Sign() <= 0:
		return wrong(units.ErrOutOfRange, "the step must be above zero")
	case lo.Cmp(hi) > 0:
		return wrong(units.ErrOutOfRange, `the range runs backwards (one and a half is "1 1/2")`)
	case hi.Sub(lo).Ratio(step) > maxRange:
		return wrong(units.ErrOutOfRange, fmt.Sprintf("more than %d sizes", maxRange))
	}
	steps := hi.Sub(lo).Picometres() / step.Picometres()
	if last := lo.Add(units.Picometres(steps * step.Picometres())); last != hi {
		return wrong(units.ErrOutOfRange, fmt.Sprintf("steps of %s from %s reach %s and not %s", by, from, last, strings.TrimSpace(to)))
	}
	inches := !strings.HasSuffix(unit, "m") && !strings.HasPrefix(unit, "micron")
	var sizes []Size
	for n := range steps + 1 {
		s, err := lengthSize(lo.Add(units.Picometres(n*step.Picometres())), inches, item)
		if err != nil {
			return nil, err
		}
		sizes = append(sizes, s)
	}
	return sizes, nil
}
