package gauge

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

const setAccepted = `sizes and ranges separated by commas, such as "1-6x0.1 mm", "1/16-1/2x1/64 in", "#1-#60", "A-Z", "10-20 SWG", "6.8 mm"`

// maxRange is the number of sizes a range may have; more is a slip of the
// step.
const maxRange = 2000

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
// error, as are empty text, an item without a unit and a diameter that is not
// above zero. Errors are of type [*units.ParseError].
func ParseSet(s string) (Set, error) {
	var sizes []Size
	for item := range strings.FieldsFuncSeq(s, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		item = strings.Join(strings.Fields(item), " ")
		if item == "" {
			return Set{}, &units.ParseError{Package: "gauge", What: "set", Text: s, Problem: "nothing between two separators", Accepted: setAccepted, Err: units.ErrSyntax}
		}
		more, err := parseItem(item)
		if err != nil {
			if e, ok := err.(*units.ParseError); ok && strings.Trim(item, "0123456789.") == "" && patterns().comma.MatchString(s) {
				e.Problem += "; a comma parts two sizes, each with its unit, and the decimal mark is a point"
			}
			return Set{}, err
		}
		sizes = append(sizes, more...)
	}
	if len(sizes) == 0 {
		return Set{}, &units.ParseError{Package: "gauge", What: "set", Text: s, Problem: "no sizes", Accepted: setAccepted, Err: units.ErrMissing}
	}
	set, err := NewSet(sizes...)
	if err != nil {
		return Set{}, fmt.Errorf("gauge: set %.40q: %w", s, err)
	}
	return set, nil
}

type rangePatterns struct{ stepped, numbers, letters, system, comma *regexp.Regexp }

var patternsOnce table.Once[*rangePatterns]

func patterns() *rangePatterns { return patternsOnce.Get(compilePatterns) }

func compilePatterns() *rangePatterns {
	var p rangePatterns
	const to = ` ?(?:-|–|to) ?`
	p.stepped = regexp.MustCompile(`^(.+?)` + to + `(.+?) ?[x×] ?(.+)$`)
	p.numbers = regexp.MustCompile(`^(?:#|no\.? ?|number )(\d+)` + to + `(?:#|no\.? ?|number )?(\d+)$`)
	p.letters = regexp.MustCompile(`^(?:letters? )?([a-z])` + to + `([a-z])$`)
	p.system = regexp.MustCompile(`^(\d+)` + to + `(\d+) ([a-z]+)$`)
	p.comma = regexp.MustCompile(`\d\s*,\s*\d`)
	return &p
}

func parseItem(item string) ([]Size, error) {
	lower := strings.ToLower(item)
	if len(item) > 1 && item[0] == '-' && item[1] >= '0' && item[1] <= '9' {
		return nil, &units.ParseError{Package: "gauge", What: "set", Text: item, Problem: "a size is not below zero", Accepted: setAccepted, Err: units.ErrOutOfRange}
	}
	p := patterns()
	if m := p.numbers.FindStringSubmatch(lower); m != nil {
		return countedRange(item, m[1], m[2], func(n int) (Size, error) { return numberDrill(n, item) })
	}
	if m := p.letters.FindStringSubmatch(lower); m != nil {
		var sizes []Size
		for letter := min(m[1][0], m[2][0]); letter <= max(m[1][0], m[2][0]); letter++ {
			size, err := Parse(string(letter))
			if err != nil {
				return nil, err
			}
			sizes = append(sizes, size)
		}
		return sizes, nil
	}
	if m := p.system.FindStringSubmatch(lower); m != nil {
		if system, err := ParseSystem(m[3]); err == nil {
			return countedRange(item, m[1], m[2], func(n int) (Size, error) { return system.Size(strconv.Itoa(n)) })
		}
	}
	if m := p.stepped.FindStringSubmatch(lower); m != nil {
		return steppedRange(item, m[1], m[2], m[3])
	}
	size, err := Parse(item)
	if e, ok := err.(*units.ParseError); ok {
		if strings.Contains(item, "-") {
			e.Problem += `; a range of lengths has a step, "1-6x0.1 mm", and one and a half is "1 1/2"`
		}
		if e.Err != units.ErrOutOfRange { // that names the range itself
			e.Accepted = setAccepted
		}
	}
	if err != nil {
		return nil, err
	}
	return []Size{size}, nil
}

// countedRange returns the sizes from one whole number to another, in either
// order.
func countedRange(item, from, to string, size func(int) (Size, error)) ([]Size, error) {
	a, errA := strconv.Atoi(from)
	b, errB := strconv.Atoi(to)
	if errA != nil || errB != nil || max(a, b)-min(a, b) > maxRange {
		return nil, &units.ParseError{Package: "gauge", What: "set", Text: item, Problem: "the numbers are too large", Accepted: setAccepted, Err: units.ErrOutOfRange}
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

// steppedRange returns the sizes from one length to another. A unit that
// stands once counts for all three lengths.
func steppedRange(item, from, to, by string) ([]Size, error) {
	fail := func(err error, problem string) ([]Size, error) {
		return nil, &units.ParseError{Package: "gauge", What: "set", Text: item, Problem: problem, Accepted: setAccepted, Err: err}
	}
	unit := ""
	for _, text := range []string{from, to, by} {
		if u := strings.TrimLeft(text, "0123456789./ "); u != "" {
			unit = u
		}
	}
	var lengths [3]units.Length
	for i, text := range []string{from, to, by} {
		if strings.TrimLeft(text, "0123456789./ ") == "" {
			text += " " + unit
		}
		l, err := units.ParseLength(text)
		if e, ok := err.(*units.ParseError); ok {
			return fail(units.ErrSyntax, fmt.Sprintf("%q: %s", strings.TrimSpace(text), e.Problem))
		}
		lengths[i] = l
	}
	lo, hi, step := lengths[0], lengths[1], lengths[2]
	switch {
	case step.Sign() <= 0:
		return fail(units.ErrOutOfRange, "the step must be above zero")
	case lo.Cmp(hi) > 0:
		return fail(units.ErrOutOfRange, `the range runs backwards (one and a half is "1 1/2")`)
	case hi.Sub(lo).Ratio(step) > maxRange:
		return fail(units.ErrOutOfRange, fmt.Sprintf("more than %d sizes", maxRange))
	}
	steps := hi.Sub(lo).Picometres() / step.Picometres()
	if last := lo.Add(units.Picometres(steps * step.Picometres())); last != hi {
		return fail(units.ErrOutOfRange, fmt.Sprintf("steps of %s from %s reach %s and not %s", by, from, last, strings.TrimSpace(to)))
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
