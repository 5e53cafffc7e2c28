package speeds

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

const ladderForms = `"60 110 200 360 rev/min", "50-2500", "low 50-1100, high 100-2500", ` +
	`"cone 720 450 280 175, back gear 6.5:1", "R20/3 31.5-2000"`

// ParseLadder reads the speeds of a machine as people write them, in rev/min:
//
//	60 110 200 360 650            steps, parted by blanks or commas
//	50-2500                       stepless
//	low 50-1100, high 100-2500    stepless in gears
//	cone 720 450 280 175, back gear 6.5:1
//	R20/3 31.5-2000               every third preferred number of series R20
//
// "rev/min" or "rpm" may follow. Anything else is a [*units.ParseError] that says
// what is accepted. See the Example of [Ladder.Choose].
func ParseLadder(s string) (Ladder, error) {
	if len(s) > 1000 {
		return Ladder{}, fail.Unreadable("machine", s, "longer than 1000 characters", ladderForms)
	}
	l, err := readLadder(s)
	if err == nil {
		return l, nil
	}
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return Ladder{}, fail.Unreadable("machine", s, err.Error(), ladderForms)
	}
	problem := bad.Problem
	if problem == "" {
		problem = bad.Err.Error()
	}
	return Ladder{}, fail.Text("machine", s, bad.Field+" "+bad.Value+": "+problem, bad.Accepted, bad.Err)
}

// A problem is what is wrong with the text of a ladder.
type problem string

func (p problem) Error() string { return string(p) }

func readLadder(s string) (Ladder, error) {
	text := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(s)), "\u2013", "-") // the dash of a printed range
	for _, unit := range []string{"rev/min", "rpm"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, unit))
	}
	switch {
	case strings.HasPrefix(text, "cone"):
		return readCone(strings.TrimPrefix(text, "cone"))
	case strings.HasPrefix(text, "r"):
		return readPreferredLadder(text)
	case strings.Contains(text, "-"):
		return readStepless(text)
	}
	speeds, err := readSpeeds(text)
	if err != nil {
		return Ladder{}, err
	}
	var steps []Step
	for _, n := range speeds {
		steps = append(steps, Step{Speed: n})
	}
	return NewLadder(steps...)
}

func readCone(text string) (Ladder, error) {
	speeds, gear, geared := strings.Cut(text, "back gear")
	ratio := 0.0
	if geared {
		number, one, _ := strings.Cut(strings.TrimSpace(gear), ":")
		v, ok := readNumber(strings.TrimSpace(number))
		if !ok || one != "" && strings.TrimSpace(one) != "1" {
			return Ladder{}, problem("the back gear wants a ratio such as 6:1")
		}
		ratio = v
	}
	open, err := readSpeeds(speeds)
	if err != nil {
		return Ladder{}, err
	}
	return ConeLadder(ratio, open...)
}

func readStepless(text string) (Ladder, error) {
	var ends []Step
	for gear := range strings.SplitSeq(text, ",") {
		name, span := "", strings.TrimSpace(gear)
		i := strings.LastIndexByte(span, ' ')
		if i >= 0 && !strings.Contains(span[:i], "-") && strings.Contains(span[i:], "-") {
			name, span = strings.TrimSpace(span[:i]), span[i+1:]
		}
		slow, fast, ok := strings.Cut(span, "-")
		a, okA := readNumber(strings.TrimSpace(slow))
		b, okB := readNumber(strings.TrimSpace(fast))
		if !ok || !okA || !okB {
			return Ladder{}, problem("a stepless gear wants two numbers such as 50-2500")
		}
		for _, n := range []float64{a, b} {
			ends = append(ends, Step{units.RotationalSpeed(n) * units.RevPerMinute, name})
		}
	}
	return Stepless(ends...)
}

func readPreferredLadder(text string) (Ladder, error) {
	series, span, _ := strings.Cut(text, " ")
	number, every, derived := strings.Cut(series[1:], "/")
	r, errR := strconv.Atoi(number)
	step := 1
	var errS error
	if derived {
		step, errS = strconv.Atoi(every)
	}
	least, most, ok := strings.Cut(strings.NewReplacer(" to ", "-", " ", "").Replace(span), "-")
	a, okA := readNumber(least)
	b, okB := readNumber(most)
	if errR != nil || errS != nil || !ok || !okA || !okB {
		return Ladder{}, problem("preferred numbers want a series and its ends such as R20/3 31.5-2000")
	}
	preferred, err := PreferredNumbers(r, step, a, b)
	if err != nil {
		return Ladder{}, err
	}
	var steps []Step
	for _, v := range preferred.Numbers {
		steps = append(steps, Step{Speed: units.RotationalSpeed(v) * units.RevPerMinute})
	}
	return NewLadder(steps...)
}

func readSpeeds(s string) ([]units.RotationalSpeed, error) {
	several := strings.ContainsFunc(strings.TrimSpace(s), unicode.IsSpace)
	for word := range strings.FieldsSeq(s) {
		if word = strings.Trim(word, ","); several && strings.Contains(word, ",") {
			return nil, problem(quote(word) + " may be one number or two: write a point for the decimal, and a blank behind a comma")
		}
	}
	var speeds []units.RotationalSpeed
	for field := range strings.FieldsFuncSeq(s, func(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' }) {
		v, ok := readNumber(field)
		if !ok {
			return nil, problem(quote(field) + " is not a speed in rev/min")
		}
		speeds = append(speeds, units.RotationalSpeed(v)*units.RevPerMinute)
	}
	if len(speeds) == 0 {
		return nil, problem("no speeds")
	}
	return speeds, nil
}

func quote(s string) string {
	if len(s) > 40 {
		s = s[:40] + "..."
	}
	return fmt.Sprintf("%q", s)
}

// readNumber reads a plain decimal number.
func readNumber(s string) (v float64, ok bool) {
	if len(s) > 20 || strings.Trim(s, ".0123456789") != "" {
		return
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// String returns the speeds as [ParseLadder] reads them, to 12 digits and without
// the names of single steps; a ladder without steps is blank.
func (l Ladder) String() string {
	if len(l.steps) == 0 {
		return ""
	}
	if l.cone != "" {
		return l.cone + " rev/min"
	}
	var parts []string
	if l.stepless {
		for i := 0; i < len(l.steps); i += 2 {
			parts = append(parts, strings.TrimLeft(l.steps[i].Name+" "+revs(l.steps[i].Speed)+"-"+revs(l.steps[i+1].Speed), " "))
		}
		return strings.Join(parts, ", ") + " rev/min"
	}
	for _, s := range l.steps {
		parts = append(parts, revs(s.Speed))
	}
	return strings.Join(parts, " ") + " rev/min"
}

func revs(n units.RotationalSpeed) string {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(n.In(units.RevPerMinute), 'e', 11, 64), 64)
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// MarshalText implements [encoding.TextMarshaler] with [Ladder.String]. Steps
// with names that would be lost are an [*units.ArgumentError].
func (l Ladder) MarshalText() ([]byte, error) {
	text := l.String()
	var back Ladder
	err := back.UnmarshalText([]byte(text))
	if err != nil || !slices.EqualFunc(l.steps, back.steps, func(a, b Step) bool { return a.Name == b.Name }) {
		return nil, fail.Argument("machine", quote(text), "its steps or gears have names that the text cannot hold", ladderForms, units.ErrUnknown)
	}
	return []byte(text), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseLadder]; blank
// text is the ladder without steps.
func (l *Ladder) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*l = Ladder{}
		return nil
	}
	v, err := ParseLadder(string(text))
	if err == nil {
		*l = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Ladder.MarshalText].
func (l Ladder) GobEncode() ([]byte, error) { return l.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Ladder.UnmarshalText].
func (l *Ladder) GobDecode(text []byte) error { return l.UnmarshalText(text) }
