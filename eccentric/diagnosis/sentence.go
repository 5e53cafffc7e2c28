package diagnosis

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// mm writes a length without its sign to a hundredth of a millimetre, and mmThou in
// thou too.
func mm(l units.Length) string { return trim(l.Abs().Decimal(units.Millimetres, 2)) + " mm" }

func mmThou(l units.Length) string { return both(l.Abs()) }

// tenths writes an angle without its sign to a tenth of a degree.
func tenths(a units.Angle) string {
	return trim(fmt.Sprintf("%.1f", math.Abs(a.Degrees()))) + " deg"
}

// Sentence says what is wrong and by how much, give or take a standard deviation.
func (s Suspect) Sentence() string {
	text := s.Part.sentence(s.Gear)
	if s.Also != nil {
		other := s.Also.sentence(s.Gear)
		text += ", and " + strings.ToLower(other[:1]) + other[1:]
	}
	return text + "."
}

// sentence says what is wrong with one part.
func (p Part) sentence(g eccentric.Gear) string {
	way := func(more, less string) string {
		if p.Length.Sign() < 0 || p.Angle < 0 {
			return less
		}
		return more
	}
	by := mmThou(p.Length) + giveOrTake(p)
	switch p.Fault {
	case AsDrawn:
		return "The gear stands as it is drawn, within its tolerances"
	case WrongAdvance:
		return fmt.Sprintf("The sheave stands %s%s %s its place on the shaft, in the direction of rotation", tenths(p.Angle),
			giveOrTake(p), way("ahead of", "behind"))
	case ValveOffCentre:
		return fmt.Sprintf("The valve stands %s %s the crank from its place", by, way("towards", "away from"))
	case WrongTravel:
		return fmt.Sprintf("The valve travels %s %s than it is drawn to: the sheave is offset too %s", by, way("more", "less"),
			way("far", "little"))
	case LostMotion:
		if p.Length.Sign() < 0 {
			return fmt.Sprintf("The lost motion is %s less than the drawing has", by)
		}
		return fmt.Sprintf("The valve follows its sheave late, by %s of lost motion more than is drawn", by)
	case WrongSteamLap, WrongExhaustLap:
		return p.lap(g, by, way("more", "less"), way("long", "short"), way("short", "long"), way("narrow", "wide"))
	case OtherHand:
		return "The sheave is of the other hand, mirrored about the crank: it stands for the other direction of rotation"
	case HalfTurnOut:
		return "The sheave stands half a turn out"
	case InLine:
		return "The sheave stands in line with the crank: the right angle between them was left out"
	case NoAdvance:
		return "The sheave stands square to the crank: the angle of advance was left out"
	}
	return "No fault is known"
}

// lap says what is wrong with a lap: of both ends the valve, of one the edge of a port.
func (p Part) lap(g eccentric.Gear, by, more, long, short, narrow string) string {
	name, outer := "steam", !g.InsideAdmission
	if p.Fault == WrongExhaustLap {
		name, outer = "exhaust", !outer
	}
	twice := mmThou(p.Length.Scale(2))
	switch {
	case p.End != eccentric.BothEnds:
		edge := "inner"
		if outer {
			edge = "outer"
		}
		return fmt.Sprintf("The %s lap of the %v end is %s %s than drawn: the port there is too %s at its %s edge", name, p.End, by,
			more, narrow, edge)
	case outer:
		return fmt.Sprintf("The %s lap is %s %s than drawn at both ends: the valve is %s too %s over its outer edges", name, by,
			more, twice, long)
	case g.InsideAdmission:
		return fmt.Sprintf("The %s lap is %s %s than drawn at both ends: the valve is %s too %s between its inner edges", name, by,
			more, twice, short)
	}
	return fmt.Sprintf("The %s lap is %s %s than drawn at both ends: the valve's cavity is %s too %s", name, by, more, twice, short)
}

func giveOrTake(p Part) string {
	switch {
	case p.AngleSD > 0:
		return " (give or take " + tenths(p.AngleSD) + ")"
	case p.LengthSD.Sign() > 0:
		return ", give or take " + mm(p.LengthSD) + ","
	}
	return ""
}
