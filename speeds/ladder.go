package speeds

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/units"
)

// A Ladder is the spindle speeds that a machine really has. Its zero value has
// none; make one with [NewLadder], [Stepless], [ConeLadder] or [ParseLadder].
type Ladder struct {
	steps    []Step // from slow to fast
	stepless bool   // steps are the two ends of each gear
	cone     string // how ParseLadder reads it, of a cone pulley
}

// A Step is one speed and how to get it.
type Step struct {
	Speed units.RotationalSpeed
	Name  string // "cone step 3, back gear"; blank where the speed says it all
}

// String returns the speed to the nearest tenth of a turn, and the name.
func (s Step) String() string {
	text := strconv.FormatFloat(math.Round(10*float64(s.Speed/units.RevPerMinute))/10, 'f', -1, 64) + " rev/min"
	if s.Name != "" {
		text += " (" + s.Name + ")"
	}
	return text
}

const (
	maxSteps    = 64
	maxSpindle  = 100_000 * units.RevPerMinute
	ladderForms = `"60 110 200 360 rev/min", "50-2500", "low 50-1100, high 100-2500", "cone 600 355 210, back gear 6:1", "R20/3 31.5-2000"`
)

// NewLadder returns the ladder of the given steps, in any order. No steps, more
// than 64, or a speed that is not above zero and at most 100,000 rev/min is an
// [*units.ArgumentError], as are two steps of one speed.
func NewLadder(steps ...Step) (Ladder, error) {
	if len(steps) == 0 || len(steps) > maxSteps {
		return Ladder{}, bad("spindle speeds", fmt.Sprintf("%d of them", len(steps)), "", "1 to 64 speeds", units.ErrOutOfRange)
	}
	steps = slices.Clone(steps)
	for _, s := range steps {
		if err := checkStep(s.Speed); err != nil {
			return Ladder{}, err
		}
	}
	slices.SortStableFunc(steps, func(a, b Step) int {
		switch {
		case a.Speed < b.Speed:
			return -1
		case a.Speed > b.Speed:
			return 1
		}
		return 0
	})
	for i := 1; i < len(steps); i++ {
		if steps[i].Speed == steps[i-1].Speed {
			return Ladder{}, bad("spindle speed", steps[i].String(), "stands twice", "each speed once", units.ErrOutOfRange)
		}
	}
	return Ladder{steps: steps}, nil
}

func checkStep(n units.RotationalSpeed) error {
	if err := positive("spindle speed", n); err != nil {
		return err
	}
	if n > maxSpindle {
		return bad("spindle speed", n.String(), "", "up to 100,000 rev/min", units.ErrOutOfRange)
	}
	return nil
}

// ConeLadder returns the ladder of a cone pulley with the given open-belt
// speeds and a back gear that divides each of them by its ratio; ratio zero is
// no back gear. A ratio of 1 or less is an [*units.ArgumentError].
func ConeLadder(backGear float64, open ...units.RotationalSpeed) (Ladder, error) {
	var steps []Step
	for i, n := range open {
		steps = append(steps, Step{n, fmt.Sprintf("cone step %d", i+1)})
	}
	if backGear != 0 {
		if !(backGear > 1 && backGear <= 100) {
			return Ladder{}, bad("back gear", fmt.Sprintf("%g:1", backGear), "", "a ratio above 1, up to 100", units.ErrOutOfRange)
		}
		for i, n := range open {
			steps[i].Name += ", open belt"
			steps = append(steps, Step{n / units.RotationalSpeed(backGear), fmt.Sprintf("cone step %d, back gear", i+1)})
		}
	}
	l, err := NewLadder(steps...)
	if err != nil {
		return Ladder{}, err
	}
	l.cone = "cone"
	for _, n := range open {
		l.cone += " " + revs(n)
	}
	if backGear != 0 {
		l.cone += ", back gear " + strconv.FormatFloat(backGear, 'f', -1, 64) + ":1"
	}
	return l, nil
}

// Stepless returns the ladder of a drive without steps: the names and ends of
// its gears come in pairs, slow end and fast end. Gears may overlap; a gap
// between two gears is a gap in the ladder. Another number of ends, ends that
// are not in order, and speeds that [NewLadder] refuses are an
// [*units.ArgumentError].
func Stepless(ends ...Step) (Ladder, error) {
	if len(ends) == 0 || len(ends)%2 != 0 || len(ends) > maxSteps {
		return Ladder{}, bad("stepless range", fmt.Sprintf("%d ends", len(ends)), "", "the slow and the fast end of each gear", units.ErrOutOfRange)
	}
	for i := 0; i < len(ends); i += 2 {
		for _, n := range []units.RotationalSpeed{ends[i].Speed, ends[i+1].Speed} {
			if err := checkStep(n); err != nil {
				return Ladder{}, err
			}
		}
		if ends[i].Speed >= ends[i+1].Speed {
			return Ladder{}, bad("stepless range", fmt.Sprintf("%v to %v", ends[i], ends[i+1]), "", "the slow end first", units.ErrOutOfRange)
		}
	}
	return Ladder{steps: slices.Clone(ends), stepless: true}, nil
}

// Steps returns the steps from slow to fast, or the ends of each gear of a
// stepless drive.
func (l Ladder) Steps() []Step { return slices.Clone(l.steps) }

// Slowest returns the slowest step; a ladder without steps has a zero one.
func (l Ladder) Slowest() Step { return l.end(func(a, b Step) bool { return a.Speed < b.Speed }) }

// Fastest returns the fastest step; a ladder without steps has a zero one.
func (l Ladder) Fastest() Step { return l.end(func(a, b Step) bool { return a.Speed > b.Speed }) }

func (l Ladder) end(better func(a, b Step) bool) Step {
	var best Step
	for i, s := range l.steps {
		if i == 0 || better(s, best) {
			best = s
		}
	}
	return best
}

// A Choice is the step for a wanted speed.
type Choice struct {
	Step   Step                  // at the wanted speed, or the nearest one below
	Wanted units.RotationalSpeed // what was asked for
	Above  Step                  // the next faster step, zero if there is none
	AtTop  bool                  // the machine has nothing faster than Step, and Wanted is above it
}

// ErrTooFast marks a ladder whose slowest step is faster than what is wanted.
// The error is a [*TooFastError], which wraps [units.ErrOutOfRange] too.
var ErrTooFast = errors.New("the slowest spindle speed is too fast")

// A TooFastError says that a machine cannot run slowly enough.
type TooFastError struct {
	Wanted  units.RotationalSpeed
	Slowest Step
}

func (e *TooFastError) Error() string {
	text := fmt.Sprintf("speeds: wanted at most %.4g rev/min; the slowest step, %v, is ", e.Wanted.In(units.RevPerMinute), e.Slowest)
	if e.Wanted <= 0 {
		return text + "too fast"
	}
	return text + fmt.Sprintf("%.3g times too fast", float64(e.Slowest.Speed/e.Wanted))
}

func (e *TooFastError) Unwrap() []error { return []error{ErrTooFast, units.ErrOutOfRange} }

// Choose returns the step at or below the wanted speed: the next slower one,
// as an Army manual on lathe work has it (OD1645, 1988, p. 52). When the
// slowest step is still too fast it does not take it: the error is a
// [*TooFastError]. A speed above the fastest step gives the fastest one, marked
// AtTop, which does no harm but takes longer.
func (l Ladder) Choose(n units.RotationalSpeed) (Choice, error) {
	if len(l.steps) == 0 {
		return Choice{}, bad("machine", "", "it has no speeds", ladderForms, units.ErrMissing)
	}
	if err := positive("wanted speed", n); err != nil {
		return Choice{}, err
	}
	const hair = 1 + 1e-12 // a step that was computed to be the wanted speed is that speed
	c := Choice{Wanted: n}
	if l.stepless {
		for i := 0; i < len(l.steps); i += 2 {
			slow, fast := l.steps[i], l.steps[i+1]
			below := slow.Speed <= n*hair
			if at := max(slow.Speed, min(n, fast.Speed)); below && at > c.Step.Speed {
				c.Step = Step{at, slow.Name}
			}
			if !below && (c.Above.Speed == 0 || slow.Speed < c.Above.Speed) {
				c.Above = slow
			}
		}
	} else {
		for _, s := range l.steps {
			if s.Speed <= n*hair {
				c.Step = s
			} else {
				c.Above = s
				break
			}
		}
	}
	if c.Step.Speed == 0 {
		return Choice{}, &TooFastError{Wanted: n, Slowest: l.Slowest()}
	}
	c.AtTop = c.Above.Speed == 0 && n > c.Step.Speed*(1+1e-9)
	return c, nil
}

// ParseLadder reads the speeds of a machine as people write them, in rev/min:
//
//	60 110 200 360 650            steps, parted by blanks or commas
//	50-2500                       stepless
//	low 50-1100, high 100-2500    stepless in gears
//	cone 600 355 210, back gear 6:1
//	R20/3 31.5-2000               every third preferred number of series R20
//
// "rev/min" or "rpm" may follow. Anything else is an [*units.ArgumentError] that
// says what is accepted.
func ParseLadder(s string) (Ladder, error) {
	fail := func(problem string) (Ladder, error) {
		return Ladder{}, bad("machine", quote(s), problem, ladderForms, units.ErrSyntax)
	}
	if len(s) > 1000 {
		return fail("longer than 1000 characters")
	}
	text := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(s)), "\u2013", "-") // the dash of a printed range
	for _, unit := range []string{"rev/min", "rpm"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, unit))
	}
	if rest, ok := strings.CutPrefix(text, "cone"); ok {
		speeds, gear, geared := strings.Cut(rest, "back gear")
		ratio := 0.0
		if geared {
			number, one, _ := strings.Cut(strings.TrimSpace(gear), ":")
			v, ok := number64(strings.TrimSpace(number))
			if !ok || one != "" && strings.TrimSpace(one) != "1" {
				return fail("the back gear wants a ratio such as 6:1")
			}
			ratio = v
		}
		open, problem := numbers(speeds)
		if problem != "" {
			return fail(problem)
		}
		return ConeLadder(ratio, open...)
	}
	if strings.HasPrefix(text, "r") {
		return parsePreferred(text, fail)
	}
	if !strings.Contains(text, "-") {
		speeds, problem := numbers(text)
		if problem != "" {
			return fail(problem)
		}
		var steps []Step
		for _, n := range speeds {
			steps = append(steps, Step{Speed: n})
		}
		return NewLadder(steps...)
	}
	var ends []Step
	for gear := range strings.SplitSeq(text, ",") {
		name, span := "", strings.TrimSpace(gear)
		if i := strings.LastIndexByte(span, ' '); i >= 0 && !strings.Contains(span[:i], "-") && strings.Contains(span[i:], "-") {
			name, span = strings.TrimSpace(span[:i]), span[i+1:]
		}
		low, high, ok := strings.Cut(span, "-")
		a, okA := number64(strings.TrimSpace(low))
		b, okB := number64(strings.TrimSpace(high))
		if !ok || !okA || !okB {
			return fail("a stepless gear wants two numbers such as 50-2500")
		}
		ends = append(ends, Step{units.RotationalSpeed(a) * units.RevPerMinute, name}, Step{units.RotationalSpeed(b) * units.RevPerMinute, name})
	}
	return Stepless(ends...)
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
		return nil, bad("machine", quote(text), "its steps or gears have names that the text cannot hold", ladderForms, units.ErrUnknown)
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

func numbers(s string) (speeds []units.RotationalSpeed, problem string) {
	for word := range strings.FieldsSeq(s) {
		if word = strings.Trim(word, ","); strings.Contains(word, ",") && strings.ContainsFunc(strings.TrimSpace(s), unicode.IsSpace) {
			return nil, quote(word) + " may be one number or two: write a point for the decimal, and a blank behind a comma"
		}
	}
	for field := range strings.FieldsFuncSeq(s, func(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' }) {
		v, ok := number64(field)
		if !ok {
			return nil, quote(field) + " is not a speed in rev/min"
		}
		speeds = append(speeds, units.RotationalSpeed(v)*units.RevPerMinute)
	}
	if len(speeds) == 0 {
		return nil, "no speeds"
	}
	return speeds, ""
}

// number64 reads a plain decimal number.
func number64(s string) (float64, bool) {
	if len(s) > 20 || strings.Trim(s, ".0123456789") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

func parsePreferred(text string, fail func(string) (Ladder, error)) (Ladder, error) {
	series, span, _ := strings.Cut(text, " ")
	number, every, derived := strings.Cut(series[1:], "/")
	r, errR := strconv.Atoi(number)
	step := 1
	var errS error
	if derived {
		step, errS = strconv.Atoi(every)
	}
	low, high, ok := strings.Cut(strings.NewReplacer(" to ", "-", " ", "").Replace(span), "-")
	a, okA := number64(low)
	b, okB := number64(high)
	if errR != nil || errS != nil || !ok || !okA || !okB {
		return fail("preferred numbers want a series and its ends such as R20/3 31.5-2000")
	}
	speeds, err := PreferredNumbers(r, step, a, b)
	if err != nil {
		return Ladder{}, err
	}
	var steps []Step
	for _, v := range speeds {
		steps = append(steps, Step{Speed: units.RotationalSpeed(v) * units.RevPerMinute})
	}
	return NewLadder(steps...)
}
