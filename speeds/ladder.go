package speeds

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
	maxSteps   = 64
	maxSpindle = 100_000 * units.RevPerMinute
)

// NewLadder returns the ladder of the given steps, 1 to 64 of them in any order,
// each speed once and up to 100,000 rev/min. See the Example.
func NewLadder(steps ...Step) (Ladder, error) {
	if len(steps) == 0 || len(steps) > maxSteps {
		return Ladder{}, fail.OutOfRange("spindle speeds", fmt.Sprintf("%d of them", len(steps)), "1 to 64 speeds")
	}
	steps = slices.Clone(steps)
	for _, s := range steps {
		if err := checkStep(s.Speed); err != nil {
			return Ladder{}, err
		}
	}
	slices.SortStableFunc(steps, func(a, b Step) int { return cmp.Compare(a.Speed, b.Speed) })
	for i := 1; i < len(steps); i++ {
		if steps[i].Speed == steps[i-1].Speed {
			return Ladder{}, fail.Wrong("spindle speed", steps[i], "given twice", "each speed once")
		}
	}
	return Ladder{steps: steps}, nil
}

func checkStep(n units.RotationalSpeed) error {
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return err
	}
	if n > maxSpindle {
		return fail.OutOfRange("spindle speed", n, "up to 100,000 rev/min")
	}
	return nil
}

// ConeLadder returns the ladder of a cone pulley with the given open-belt
// speeds and a back gear that divides each of them by its ratio, above 1 up to
// 100; ratio zero is no back gear. See the Example of [NewLadder].
func ConeLadder(backGear float64, open ...units.RotationalSpeed) (Ladder, error) {
	var steps []Step
	for i, n := range open {
		steps = append(steps, Step{n, fmt.Sprintf("cone step %d", i+1)})
	}
	if backGear != 0 {
		if !(backGear > 1 && backGear <= 100) {
			return Ladder{}, fail.OutOfRange("back gear", fmt.Sprintf("%g:1", backGear), "a ratio above 1, up to 100")
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
// between two gears is a gap in the ladder. Speeds as for [NewLadder]; see its
// Example.
func Stepless(ends ...Step) (Ladder, error) {
	if len(ends) == 0 || len(ends)%2 != 0 || len(ends) > maxSteps {
		return Ladder{}, fail.OutOfRange("stepless range", fmt.Sprintf("%d ends", len(ends)), "the slow and the fast end of each gear")
	}
	for i := 0; i < len(ends); i += 2 {
		for _, n := range []units.RotationalSpeed{ends[i].Speed, ends[i+1].Speed} {
			if err := checkStep(n); err != nil {
				return Ladder{}, err
			}
		}
		if ends[i].Speed >= ends[i+1].Speed {
			return Ladder{}, fail.OutOfRange("stepless range", fmt.Sprintf("%v to %v", ends[i], ends[i+1]), "the slow end first")
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
	Dial   units.RotationalSpeed // the speed is rounded down to a whole number of these; zero where it is not rounded

	Findings finding.List // FastestStep, or none
}

// FastestStep, a Note, is a wanted speed above what the machine has.
const FastestStep finding.Code = "fastest-step"

// ErrTooFast marks a ladder whose slowest step is faster than what is wanted.
// The error is a [*TooFastError], which wraps [units.ErrOutOfRange] too.
var ErrTooFast = errors.New("the slowest spindle speed is too fast")

// A TooFastError says that a machine cannot run slowly enough.
type TooFastError struct {
	Wanted  units.RotationalSpeed
	Slowest Step
}

func (e *TooFastError) Error() string {
	text := fmt.Sprintf("speeds: wanted at most %s; the slowest step, %v, is ", rpm(e.Wanted), e.Slowest)
	if e.Wanted <= 0 {
		return text + "too fast"
	}
	return text + fmt.Sprintf("%.3g times too fast", float64(e.Slowest.Speed/e.Wanted))
}

func (e *TooFastError) Unwrap() []error { return []error{ErrTooFast, units.ErrOutOfRange} }

// Choose returns the step at or below the wanted speed: the next slower one,
// as an Army manual on lathe work has it (OD1645, 1988, p. 52). When the
// slowest step is still too fast it does not take it: the error is a
// [*TooFastError]. A drive without steps is set to what can be read on its dial,
// rounded down: whole rev/min below 100, fives below 1000, else tens (common
// practice); its ends are set as they are. A speed above the fastest step gives
// the fastest one, with the finding [FastestStep]. See the Example.
func (l Ladder) Choose(n units.RotationalSpeed) (Choice, error) {
	if len(l.steps) == 0 {
		return Choice{}, fail.Argument("machine", "", "it has no speeds", ladderForms, units.ErrMissing)
	}
	if err := fault.Positive(fail, "wanted speed", n); err != nil {
		return Choice{}, err
	}
	const hair = 1 + 1e-12 // a step that was computed to be the wanted speed is that speed
	c := Choice{Wanted: n}
	if l.stepless {
		for i := 0; i < len(l.steps); i += 2 {
			slow, fast := l.steps[i], l.steps[i+1]
			below := slow.Speed <= n*hair
			at, dial := fast.Speed, units.RotationalSpeed(0)
			if n < fast.Speed {
				at, dial = dialled(n)
			}
			if at <= slow.Speed {
				at, dial = slow.Speed, 0
			}
			if below && at > c.Step.Speed {
				c.Step, c.Dial = Step{at, slow.Name}, dial
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
	if top := l.Fastest().Speed; c.Wanted > top*(1+1e-9) && c.Step.Speed == top {
		c.Findings = finding.List{{
			Code: FastestStep,
			Text: fmt.Sprintf("The machine has nothing faster than %v: it does no harm and takes longer.", c.Step),
		}}
	}
	return c, nil
}

// dialled returns the speed to set on a dial without steps: the wanted one, down
// to what can be read there (common practice), and what that is.
func dialled(n units.RotationalSpeed) (at, dial units.RotationalSpeed) {
	switch v := n.In(units.RevPerMinute); {
	case v < 100:
		dial = units.RevPerMinute
	case v < 1000:
		dial = 5 * units.RevPerMinute
	default:
		dial = 10 * units.RevPerMinute
	}
	const hair = 1e-9 // of a mark: a speed that was computed to be one is that one
	return units.RotationalSpeed(math.Floor(float64(n/dial)+hair)) * dial, dial
}
