package screwcut

import (
	"errors"
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// A Lead is how far one turn of a screw moves its nut: the pitch times the
// number of starts. It is exact, a whole number of picometres over a whole
// number, because a 6 tpi leadscrew is not a whole number of anything metric
// and a train of wheels is exact or it is not. The zero value is no lead.
type Lead struct{ pm, turns int64 }

const (
	leadAccepted = `"8 tpi", "11 1/2 tpi", "1.5 mm", "1/8 in" or "10 mm in 3 turns", from 0.01 mm to 100 mm`
	maxTurns     = 1_000_000
)

// NewLead returns the lead of a screw that moves its nut by travel in a whole
// number of turns: an inch in 8 turns, two inches in 23 (11 1/2 tpi), 1.5 mm in
// one. A lead outside 0.01 mm to 100 mm, more than a million turns, or a travel
// over 1 km, the longest that [units.ParseLength] reads back, is an error.
func NewLead(travel units.Length, turns int) (Lead, error) {
	if turns <= 0 || turns > maxTurns {
		return Lead{}, fail.OutOfRange("turns", turns, "1 to 1000000")
	}
	if travel.Cmp(units.MM(1e6)) > 0 {
		return Lead{}, fail.OutOfRange("travel", travel, "up to 1 km")
	}
	l := Lead{travel.Picometres(), int64(turns)}
	if mm := float64(l.pm) / float64(l.turns) / 1e9; mm < 0.01 || mm > 100 {
		return Lead{}, fail.OutOfRange("lead", fmt.Sprintf("%v in %d turns", travel, turns), leadAccepted)
	}
	d := gcd(l.pm, l.turns)
	return Lead{l.pm / d, l.turns / d}, nil
}

// ParseLead reads what stands on a lathe or a drawing: threads per inch ("8
// tpi", "11.5 tpi", "11 1/2 tpi"), the distance of one turn ("1.5 mm", "1/8
// in") or of a whole number of turns ("10 mm in 3 turns"), within what [NewLead]
// takes.
func ParseLead(s string) (Lead, error) {
	l, problem := readLead(strings.ToLower(strings.TrimSpace(s)))
	switch {
	case problem == nil:
		return l, nil
	case errors.Is(problem, units.ErrOutOfRange):
		return Lead{}, fail.Text("lead", s, "", leadAccepted, units.ErrOutOfRange)
	}
	return Lead{}, fail.Unreadable("lead", s, problem.Error(), leadAccepted)
}

func readLead(text string) (Lead, error) {
	if rest, counted := strings.CutSuffix(text, " turns"); counted {
		at := strings.LastIndex(rest, " in ")
		if at < 0 {
			return Lead{}, errors.New("turns without a distance")
		}
		travel, err := units.ParseLength(rest[:at])
		if err != nil {
			return Lead{}, errors.New("the distance cannot be read")
		}
		turns, err := strconv.Atoi(strings.TrimSpace(rest[at+len(" in "):]))
		if err != nil {
			return Lead{}, errors.New("not a whole number of turns")
		}
		return NewLead(travel, turns)
	}
	number, perInch := strings.CutSuffix(text, "tpi")
	if !perInch {
		travel, err := units.ParseLength(text)
		if err != nil {
			return Lead{}, errors.New("neither threads to the inch nor a distance")
		}
		return NewLead(travel, 1)
	}
	// An inch has the most divisors of the units that take fractions: the
	// threads are read as inches, exact, and turned over.
	threads, err := units.ParseLength(strings.TrimSpace(number) + " in")
	if err != nil {
		return Lead{}, errors.New("the threads to the inch cannot be read")
	}
	if threads.Cmp(units.Inch(0.25)) < 0 {
		return Lead{}, units.ErrOutOfRange
	}
	inch := units.Inch(1).Picometres()
	d := gcd(inch, threads.Picometres())
	turns := threads.Picometres() / d
	if turns > maxTurns {
		return Lead{}, units.ErrOutOfRange
	}
	return NewLead(units.Inch(1).Scale(float64(inch/d)), int(turns))
}

// LeadOf returns the lead of a thread, exact where it is so many threads to the
// inch; no lead for no thread.
func LeadOf(t thread.Thread) Lead {
	for inches := 1; inches <= 4; inches++ { // threads to the inch come in halves and quarters
		turns := float64(inches) * t.TPI()
		if turns == 0 || turns != math.Trunc(turns) || units.Inch(1/t.TPI()) != t.Pitch() {
			continue
		}
		if l, err := NewLead(units.Inch(float64(inches)), int(turns)); err == nil {
			return l
		}
	}
	l, err := NewLead(t.Pitch(), 1)
	if err != nil {
		return Lead{}
	}
	return l
}

// Length returns the lead to the nearest picometre.
func (l Lead) Length() units.Length {
	if l.turns == 0 {
		return units.Length{}
	}
	return units.Picometres((l.pm + l.turns/2) / l.turns)
}

// TPI returns the turns to the inch, which are the threads to the inch of a
// screw of one start; none for no lead.
func (l Lead) TPI() float64 {
	if l.pm == 0 {
		return 0
	}
	inch := units.Inch(1).Picometres()
	d := gcd(inch, l.pm)
	return float64(inch/d*l.turns) / float64(l.pm/d)
}

// isInch reports whether the lead is a whole number of eighths of a thread to
// the inch. The inch, 127/5 mm, shows in the factor 127; without it 0.8 mm would
// count as 31 3/4 threads.
func (l Lead) isInch() bool {
	return l.pm != 0 && l.pm%127 == 0 && 8*units.Inch(1).Picometres()*l.turns%l.pm == 0
}

// String returns the lead as [ParseLead] reads it: "8 tpi", "1.5 mm", "10 mm in
// 3 turns".
func (l Lead) String() string {
	if l.isInch() {
		return strconv.FormatFloat(l.TPI(), 'f', -1, 64) + " tpi"
	}
	if l.turns > 1 {
		return fmt.Sprintf("%v in %d turns", units.Picometres(l.pm), l.turns)
	}
	return l.Length().String()
}

// MarshalText implements [encoding.TextMarshaler]; no lead has blank text.
func (l Lead) MarshalText() ([]byte, error) {
	if l.turns == 0 {
		return nil, nil
	}
	return []byte(l.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseLead].
func (l *Lead) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*l = Lead{}
		return nil
	}
	v, err := ParseLead(string(text))
	if err == nil {
		*l = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Lead.MarshalText].
func (l Lead) GobEncode() ([]byte, error) { return l.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Lead.UnmarshalText].
func (l *Lead) GobDecode(text []byte) error { return l.UnmarshalText(text) }

// over returns the quotient of two leads in lowest terms. It reports false
// when the terms do not fit, which no train of wheels could then match.
func (l Lead) over(m Lead) (num, den int64, ok bool) {
	a, b, c, d := l.pm, m.pm, m.turns, l.turns
	g, h := gcd(a, b), gcd(c, d)
	a, b, c, d = a/g, b/g, c/h, d/h
	num, okN := product(a, c)
	den, okD := product(b, d)
	return num, den, okN && okD
}

func product(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	return int64(lo), hi == 0 && lo <= 1<<62
}

func gcd[T int | int64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}
