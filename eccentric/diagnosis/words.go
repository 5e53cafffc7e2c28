package diagnosis

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// both writes a length in hundredths of a millimetre and in tenths of a thou.
func both(l units.Length) string {
	return trim(l.Decimal(units.Millimetres, 2)) + " mm (" + trim(l.Decimal(units.Thousandths, 1)) + " thou)"
}

// trim takes off closing zeros, and the sign of nothing.
func trim(number string) string {
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	if number == "-0" {
		return "0"
	}
	return number
}

// degrees writes an angle to whole degrees.
func degrees(a units.Angle) string {
	v := math.Round(a.Degrees())
	if v == 1 || v == -1 {
		return trim(fmt.Sprint(v)) + " degree"
	}
	return trim(fmt.Sprintf("%.0f", v)) + " degrees"
}

// at names the end of a sentence about one end or both.
func at(e eccentric.End) string {
	switch e {
	case eccentric.HeadEnd:
		return "at the head end"
	case eccentric.CrankEnd:
		return "at the crank end"
	}
	return "at both ends"
}

// tooMuch says of an amount which way it is wrong.
func tooMuch(l units.Length) string {
	if l.Sign() < 0 {
		return both(l.Neg()) + " too little"
	}
	return both(l) + " too much"
}

// Text names the part and what is wrong with it, for a sentence; without the amount
// where the readings hardly say anything of it.
func (p Part) Text() string {
	if p.Length.Abs().Cmp(p.LengthSD) < 0 || math.Abs(float64(p.Angle)) < float64(p.AngleSD) {
		return p.named()
	}
	switch p.Fault {
	case WrongAdvance:
		if p.Angle < 0 {
			return "a sheave " + degrees(-p.Angle) + " behind its place"
		}
		return "a sheave " + degrees(p.Angle) + " ahead of its place"
	case ValveOffCentre:
		if p.Length.Sign() < 0 {
			return "a valve " + both(p.Length.Neg()) + " off centre towards the head end"
		}
		return "a valve " + both(p.Length) + " off centre towards the crank"
	case WrongTravel:
		return "a sheave with " + tooMuch(p.Length) + " travel"
	case WrongSteamLap:
		return tooMuch(p.Length) + " steam lap " + at(p.End)
	case WrongExhaustLap:
		return tooMuch(p.Length) + " exhaust lap " + at(p.End)
	case LostMotion:
		if p.Length.Sign() < 0 {
			return both(p.Length.Neg()) + " less lost motion than was reckoned with"
		}
		return both(p.Length) + " of lost motion beyond what was reckoned with"
	}
	return p.named()
}

// named names the part without an amount.
func (p Part) named() string {
	switch p.Fault {
	case AsDrawn:
		return "a gear as it is drawn"
	case WrongAdvance:
		return "a sheave that is not in its place on the shaft"
	case ValveOffCentre:
		return "a valve off centre on its rod"
	case WrongTravel:
		return "a sheave with another travel"
	case WrongSteamLap:
		return "a wrong steam lap " + at(p.End)
	case WrongExhaustLap:
		return "a wrong exhaust lap " + at(p.End)
	case LostMotion:
		return "lost motion"
	case OtherHand:
		return "a sheave on the other hand, mirrored about the crank"
	case HalfTurnOut:
		return "a sheave half a turn out"
	case InLine:
		return "a sheave in line with the crank"
	case NoAdvance:
		return "a sheave square to the crank, without advance"
	}
	return p.Fault.String()
}

// Text names the part that is wrong, or both, for a sentence.
func (s Suspect) Text() string {
	if s.Also == nil {
		return s.Part.Text()
	}
	return s.Part.Text() + " together with " + s.Also.Text()
}

// text names what is to be read, for a sentence.
func (c *candidate) text() string {
	end := "head"
	if c.end == eccentric.CrankEnd {
		end = "crank"
	}
	centre := "the " + end + "-end dead centre"
	port := "the " + end + " end's port"
	angle := "the crank angle from " + centre + " at which " + port
	switch c.kind {
	case Admission:
		return angle + " cracks open to steam"
	case CutOff:
		return angle + " shuts to steam"
	case Release:
		return angle + " cracks open to exhaust"
	case Compression:
		return angle + " shuts to exhaust"
	case Lead:
		return "how far " + port + " is open to steam, or still shut, at " + centre
	case Opening:
		return "how far " + port + " opens to steam at the most"
	case ExhaustOpening:
		return "how far " + port + " opens to exhaust at the most"
	case Travel:
		return "how far the valve travels in all"
	case OpensNext:
		return "whether " + port + " goes on towards steam or towards exhaust as the crank leaves " + centre
	}
	at := "at the head-end dead centre"
	if c.crank != 0 {
		at = degrees(c.crank) + " past the head-end dead centre"
	}
	return "how far the middle of the valve stands from the middle of the ports towards the crank, with the crank " + at
}

// eventAngle returns the crank angle of an event as it is told everywhere: that of an
// admission from half a turn before the dead centre on, of the others from there on.
func eventAngle(k Kind, a float64) units.Angle {
	a = math.Remainder(a, 2*math.Pi)
	if a < 0 && k != Admission {
		a += 2 * math.Pi
	}
	return units.Angle(a)
}

// text writes what a reading of that kind will be.
func (f *forecast) text(k Kind) string {
	switch f.seen {
	case notAtAll:
		return "never"
	case steam:
		return "towards steam"
	case exhaust:
		return "towards exhaust"
	}
	if k.isEvent() {
		return degrees(eventAngle(k, f.mean))
	}
	l := millimetres(f.mean)
	if k == Lead && l.Sign() < 0 {
		return "still shut by " + both(l.Neg())
	}
	return both(l)
}
