package inch

import (
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Text returns a text for a person whose rule is in inches. Of a pair, "0.07 mm
// (2.7 thou)" or "5.5 mm/min, 0.22 in/min", the inch unit comes first; from a
// tenth of an inch on thou are told as inches. What stands in a metric unit alone
// is told in that of the inch trade alone, and lengths in thou below a tenth of
// an inch.
func Text(s string) string { return turn(s, false) }

// Move is [Text] of what is to be done: a length that the metric text rounds to what is
// set there, to 0.01 mm, is told to the half thou where that is it as well, "25 thou
// (0.64 mm)", as nobody sets 25.2.
func Move(s string) string { return turn(s, true) }

func turn(s string, move bool) string {
	s = words().Replace(s)
	if !strings.ContainsAny(s, "0123456789") {
		return s
	}
	var out strings.Builder
	quoted := false
	for at := 0; at < len(s); {
		if s[at] == '"' {
			quoted = !quoted && strings.Contains(s[at+1:], `"`)
		}
		if quoted || !startsNumber(s, at) {
			out.WriteByte(s[at])
			at++
			continue
		}
		first, ok := read(s, at)
		if !ok { // the number is passed whole, so that nothing starts within it
			end := at + len(numberAt(s, at))
			out.WriteString(s[at:end])
			at = end
			continue
		}
		second, between, paired := partner(s, first)
		switch {
		case first.inch && paired && !second.inch: // turned round already
			out.WriteString(s[at:second.end])
			at = second.end
		case !first.inch && paired && second.inch:
			if move {
				second = second.setAs(first)
			}
			out.WriteString(second.beside(first) + between + first.text)
			at = second.end
		case first.inch:
			out.WriteString(first.text)
			at = first.end
		default:
			out.WriteString(first.turned())
			at = first.end
		}
	}
	return out.String()
}

// words are those that name the unit of figures without one, and a way of speaking.
var words = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer(
		"(d in mm)", "(d in mm)", // a rule that counts so
		"in millimetres", "in inches", "in mm,", "in inches,", "in mm;", "in inches;", "spindle, mm;", "spindle, in;",
		"Some tenths less", "Some hundredths of an inch less",
	)
})

// Head returns the head of a column of bare numbers, or the label of a row, with
// the unit of the inch trade in it.
func Head(s string) string {
	switch {
	case s == "J" || strings.HasPrefix(s, "J "):
		return "ft lbf" + s[1:]
	case s == "W":
		return "hp"
	case strings.HasSuffix(s, ", mm"):
		return strings.TrimSuffix(s, "mm") + "in"
	}
	return Text(s)
}

// A figure is what stands in a text with its unit: a number, both ends of a range,
// or a list.
type figure struct {
	text     string // all of it
	end      int    // where it ends in the text that it stands in
	numbers  []string
	between  []string // of one number and the next: " to "
	inch     bool
	unit     unit   // of a metric one
	inchUnit string // of another
}

// startsNumber reports whether a number starts at a place of s: not within a word,
// a thread, another number or behind the sign of one.
func startsNumber(s string, at int) bool {
	if number := numberAt(s, at); number == "" {
		return false
	}
	if at == 0 {
		return true
	}
	before := s[at-1]
	return before < 0x80 && !isWord(before) && !strings.ContainsRune("./#-_", rune(before))
}

func isWord(c byte) bool { return unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c)) }

// numberAt returns the number that starts at a place of s: a decimal, a fraction
// or both of an inch, with a sign or without; nothing where there is none.
func numberAt(s string, at int) string {
	end := at
	if end < len(s) && (s[end] == '+' || s[end] == '-') {
		end++
	}
	digits := func() bool {
		start := end
		for end < len(s) && '0' <= s[end] && s[end] <= '9' {
			end++
		}
		return end > start
	}
	if !digits() {
		return ""
	}
	whole := end
	if end < len(s) && s[end] == '.' {
		if end++; !digits() {
			return s[at:whole]
		}
		return s[at:end]
	}
	if end < len(s) && s[end] == ' ' { // 1 3/8
		end++
		if digits() && end < len(s) && s[end] == '/' {
			if end++; digits() {
				return s[at:end]
			}
		}
		end = whole
	}
	if end < len(s) && s[end] == '/' {
		if end++; digits() {
			return s[at:end]
		}
	}
	return s[at:whole]
}

// joints stand between the numbers of one figure.
var joints = [...]string{" to ", ", ", " and ", " or ", " of "}

// read reads the figure that starts at a place of s.
func read(s string, at int) (figure, bool) {
	f := figure{numbers: []string{numberAt(s, at)}}
	end := at + len(f.numbers[0])
	for {
		if f.unitAt(s, end) {
			f.text, f.end = s[at:end+1+len(f.name())], end+1+len(f.name())
			return f, true
		}
		joint, next := "", ""
		for _, j := range joints {
			if !strings.HasPrefix(s[end:], j) {
				continue
			}
			joint, next = j, numberAt(s, end+len(j))
			if j != " to " && (decimals(next) == 0 || decimals(next) != decimals(f.numbers[0])) {
				next = "" // two things, and not two sizes of one
			}
		}
		if next == "" {
			return figure{}, false
		}
		f.numbers, f.between = append(f.numbers, next), append(f.between, joint)
		end += len(joint) + len(next)
	}
}

func (f figure) name() string {
	if f.inch {
		return f.inchUnit
	}
	return f.unit.metric
}

// unitAt reads the unit behind a space at a place of s.
func (f *figure) unitAt(s string, at int) bool {
	if at >= len(s) || s[at] != ' ' {
		return false
	}
	rest := s[at+1:]
	ends := func(name string) bool {
		if !strings.HasPrefix(rest, name) {
			return false
		}
		tail := rest[len(name):]
		return tail == "" || !strings.ContainsAny(tail[:1], "_^/-") && !isWord(tail[0])
	}
	for _, name := range inches {
		if ends(name) {
			f.inch, f.inchUnit = true, name
			return name != "in" || !strings.HasPrefix(rest, "in the ") && !strings.HasPrefix(rest, "in a ") // the word
		}
	}
	for _, u := range metrics() {
		if strings.Contains(f.numbers[0], "/") {
			return false
		}
		if ends(u.metric) {
			f.unit = u
			return true
		}
	}
	return false
}

// partner reads the figure that says the same in the other unit: in brackets
// behind it, or behind a comma.
func partner(s string, first figure) (second figure, between string, ok bool) {
	for _, between := range []string{" (", ", "} {
		at := first.end + len(between)
		if !strings.HasPrefix(s[first.end:], between) || !startsNumber(s, at) {
			continue
		}
		second, ok := read(s, at)
		if ok && second.inch != first.inch && alike(first, second) {
			return second, between, true
		}
	}
	return figure{}, "", false
}

// alike reports whether a metric and an inch figure say the same, within what both
// may have been rounded by.
func alike(a, b figure) bool {
	if a.inch {
		a, b = b, a
	}
	if len(a.numbers) != len(b.numbers) {
		return false
	}
	for i := range a.numbers {
		metric, inch := value(a.numbers[i]), value(b.numbers[i])
		u := a.unit
		if u.metric == lengths {
			u.factor, u.inch = 1/25.4, "in"
		}
		scale := 1.0
		switch {
		case u.inch == "in" && b.inchUnit == "thou":
			scale = 0.001
		case u.inch == "lbf in" && b.inchUnit == "lbf ft":
			scale = 12
		case u.inch == "ft/min" && b.inchUnit == "ft/s":
			scale = 60
		case u.inch != b.inchUnit:
			return false
		}
		inch *= scale
		rounding := 0.6 * (math.Pow10(-decimals(a.numbers[i]))*u.factor + math.Pow10(-decimals(b.numbers[i]))*scale)
		if math.Abs(u.of(metric)-inch) > max(rounding, 0.05*math.Abs(inch)) {
			return false
		}
	}
	return true
}

// said is an inch figure as it is told first: thou only where they are few.
func (f figure) said() string {
	if f.inchUnit != "thou" {
		return f.text
	}
	most := 0.0
	for _, n := range f.numbers {
		most = max(most, math.Abs(value(n)))
	}
	if most < small.Thou() {
		return f.text
	}
	var numbers []string
	for _, n := range f.numbers {
		l, err := units.Thousandths.Parse(n)
		if err != nil {
			return f.text
		}
		numbers = append(numbers, l.Decimal(units.Inches, 3+decimals(n)))
	}
	return f.joined(numbers) + " in"
}

// setAs is a figure in thou to the half thou, where that is the metric one that it is
// paired with to its last place, and the figure is no closer than that.
func (f figure) setAs(metric figure) figure {
	if f.inchUnit != "thou" || len(f.numbers) != 1 || decimals(f.numbers[0]) != 1 {
		return f
	}
	mm, places := value(metric.numbers[0]), decimals(metric.numbers[0])
	half := math.Round(value(f.numbers[0])*2) / 2
	if half == value(f.numbers[0]) || places != 2 || fault.Decimal(mm/0.0254, 1) != f.numbers[0] ||
		math.Abs(half*0.0254-mm) > 0.0051 {
		return f
	}
	number := trim(fault.Decimal(half, 1))
	f.numbers, f.text = []string{number}, number+strings.TrimPrefix(f.text, f.numbers[0])
	return f
}

// beside is an inch figure as it is told before the metric one that it is paired with:
// the size of a drawing, in 64ths, where both are that size to their last places.
func (f figure) beside(metric figure) string {
	if f.inchUnit != "in" {
		return f.said()
	}
	var numbers []string
	for i, n := range f.numbers {
		mm := value(metric.numbers[i])
		drawn := math.Round(mm/25.4*64) / 64
		number := trim(fault.Decimal(drawn, 4))
		if decimals(n) < 3 || decimals(number) <= decimals(n) || math.Abs(drawn-value(n)) > math.Pow10(-decimals(n)) ||
			fault.Decimal(drawn*25.4, decimals(metric.numbers[i])) != strings.TrimPrefix(metric.numbers[i], "+") {
			return f.said()
		}
		numbers = append(numbers, number)
	}
	return f.joined(numbers) + " in"
}

// turned is a metric figure in the unit of the inch trade.
func (f figure) turned() string {
	metric := 0
	for _, n := range f.numbers {
		metric = max(metric, decimals(n))
	}
	var numbers []string
	name := f.unit.inch
	if f.unit.metric == lengths {
		var list []units.Length
		for _, n := range f.numbers {
			l, err := units.Millimetres.Parse(strings.TrimPrefix(n, "+"))
			if err != nil {
				return f.text
			}
			list = append(list, l)
		}
		numbers, name = write(list, metric)
	} else {
		for _, n := range f.numbers {
			figures, places := len(strings.TrimLeft(strings.Map(digit, n), "0")), f.unit.places(metric)
			if step := math.Pow10(-places); places > 0 && step < math.Pow10(-metric)*f.unit.factor/2 && figures > 2 {
				places-- // a step as fine would tell more than was rounded
			}
			if metric == 0 {
				figures = max(figures, 3) // a round figure, as it was stated
			}
			numbers = append(numbers, significant(f.unit.of(value(n)), places, min(5, max(2, figures))))
		}
	}
	for i, n := range f.numbers {
		if strings.HasPrefix(n, "+") && strings.Trim(numbers[i], "0.") != "" {
			numbers[i] = "+" + numbers[i]
		}
	}
	return f.joined(numbers) + " " + name
}

func (f figure) joined(numbers []string) string {
	text := numbers[0]
	for i, joint := range f.between {
		text += joint + numbers[i+1]
	}
	return text
}

func digit(r rune) rune {
	if '0' <= r && r <= '9' {
		return r
	}
	return -1
}

// decimals counts the digits behind the point of a number.
func decimals(number string) int {
	_, behind, _ := strings.Cut(number, ".")
	return len(behind)
}

// value reads a number as [numberAt] returns it.
func value(number string) float64 {
	whole, fraction, mixed := strings.Cut(number, " ")
	if !mixed {
		whole, fraction = "0", number
	}
	above, below, parted := strings.Cut(fraction, "/")
	if !parted {
		v, _ := strconv.ParseFloat(number, 64) // digits, which were looked at
		return v
	}
	w, _ := strconv.ParseFloat(whole, 64)
	n, _ := strconv.ParseFloat(above, 64)
	d, _ := strconv.ParseFloat(below, 64)
	if d == 0 {
		return math.Inf(1) // is like nothing
	}
	return w + n/d
}
