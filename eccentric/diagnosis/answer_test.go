package diagnosis_test

import (
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// A part is what the package says of one part, in degrees or millimetres.
type part struct {
	fault, end string
	has        bool // an amount
	amount, sd float64
}

// A suspect is one part that may be wrong, or a pair.
type suspect struct {
	part
	also *part
	sure bool
}

// An answer is what the package says of readings.
type answer struct {
	suspects []suspect // the first is the verdict
	again    []int     // readings to take again
	doubts   int       // what cannot be told
	next     *taken    // what to read next, without its value
}

// asReading returns the reading in the terms of the package.
func (t taken) asReading() (r diagnosis.Reading) {
	for _, kind := range diagnosis.Kinds() {
		if kind.String() == t.kind {
			r.Kind = kind
		}
	}
	r.End = map[string]eccentric.End{"head": eccentric.HeadEnd, "crank": eccentric.CrankEnd}[t.end]
	_, event := passings[t.kind]
	switch {
	case t.never:
		r.Never = true
	case t.next != "":
		r.Opens = map[string]diagnosis.Side{"steam": diagnosis.Steam, "exhaust": diagnosis.Exhaust}[t.next]
	case t.share:
		r.ByStroke, r.Stroke, r.Within = true, t.value, spread.Deviation{Ratio: t.within}
	case event:
		r.Angle = units.Angle(t.value) * units.Degree
		r.Within = spread.Deviation{Angle: units.Angle(t.within) * units.Degree}
	default:
		r.Length, r.Within = units.MM(t.value), spread.Deviation{Length: units.MM(t.within)}
		r.Crank = units.Angle(t.crank) * units.Degree
	}
	return r
}

func asPart(p diagnosis.Part) part {
	is := part{fault: p.Fault.String(), end: p.End.String()}
	switch p.Fault {
	case diagnosis.WrongAdvance:
		is.has, is.amount, is.sd = true, p.Angle.Degrees(), p.AngleSD.Degrees()
	case diagnosis.ValveOffCentre, diagnosis.WrongTravel, diagnosis.WrongSteamLap, diagnosis.WrongExhaustLap,
		diagnosis.LostMotion:
		is.has, is.amount, is.sd = true, p.Length.MM(), p.LengthSD.MM()
	}
	return is
}

// diagnose asks the package.
func diagnose(t *testing.T, d *drawing, all []taken, tolerances ...spread.Tolerance) (a answer) {
	t.Helper()
	c := diagnosis.Case{Gear: d.gear(), Tolerances: tolerances}
	for _, one := range all {
		c.Readings = append(c.Readings, one.asReading())
	}
	found, err := c.Diagnose()
	if err != nil {
		t.Fatalf("%+v of %+v: %v", all, d, err)
	}
	for _, s := range found.Suspects {
		is := suspect{part: asPart(s.Part), sure: s.Sure}
		if s.Also != nil {
			also := asPart(*s.Also)
			is.also = &also
		}
		a.suspects = append(a.suspects, is)
	}
	a.again = found.MeasureAgain
	a.doubts = len(found.CannotTell)
	if n := found.Next; n != nil {
		a.next = &taken{kind: n.Kind.String(), end: n.End.String(), crank: n.Crank.Degrees()}
	}
	return a
}
