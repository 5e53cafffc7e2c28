package setting

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Setting is a gear that is to be set, and what it is set by.
type Setting struct {
	Gear eccentric.Gear // as it is to stand: advance, and offset of the valve

	Nut   Nut          // on the valve spindle; zero: the valve is moved by any amount
	Shaft units.Length // its diameter under the sheave, for arcs on it; zero: not told
	Wheel units.Length // diameter of the flywheel over its rim, for arcs on it; zero: not told

	Rotation Rotation // seen from SeenFrom; zero: not told
	SeenFrom string   // a side of the engine, such as "the flywheel"

	Slip Slip // the stop of a slip eccentric; zero: the sheave is held by a screw

	// Step is of the crank end's lead from one of the Splits to the next; zero: 0.15 mm.
	// The example of a valve off its place is off by two.
	Step units.Length
}

// quarter is what the angle of advance is less than.
const quarter = 90 * units.Degree

// Validate reports what cannot be set as [*units.ArgumentError] joined: what
// [eccentric.Gear.Validate] refuses, an angle of advance that is not between -90 and 90
// degrees, which is of a gear that turns the other way, and a nut, a shaft, a wheel or a
// stop that cannot be.
func (s Setting) Validate() error {
	if err := s.Gear.Validate(); err != nil {
		return err
	}
	var problems []error
	if !(s.Gear.Advance > -quarter && s.Gear.Advance < quarter) {
		problems = append(problems, fail.OutOfRange("angle of advance", s.Gear.Advance,
			"between -90 and 90 degrees; a sheave that stands otherwise is set for the other direction"))
	}
	if !s.Nut.IsZero() {
		problems = append(problems, s.Nut.Validate())
	}
	most := units.MM(10_000)
	for _, may := range []struct {
		field string
		size  units.Length
	}{{"shaft diameter", s.Shaft}, {"flywheel diameter", s.Wheel}} {
		if may.size.Sign() < 0 || may.size.Cmp(most) > 0 {
			problems = append(problems, fail.OutOfRange(may.field, may.size, "above zero, up to 10 m"))
		}
	}
	if s.Rotation != 0 && !rotationNames.Known(int(s.Rotation)) {
		problems = append(problems, rotationNames.Unknown(int(s.Rotation)))
	}
	if (s.Rotation == 0) != (s.SeenFrom == "") {
		problems = append(problems, fail.Missing("rotation", "the way round and the side from which it is seen, both or neither"))
	}
	if err := errors.Join(problems...); err != nil {
		return err
	}
	if !s.Slip.IsZero() {
		_, err := s.Slip.stop(s.Gear)
		return err
	}
	return nil
}

// A DeadCentre is how one dead centre is found: between two places of the crank at
// which the crosshead stands at one mark.
type DeadCentre struct {
	Piston units.Length // of the mark from the end of the stroke, with the crank 45 degrees either side
	Arc    units.Length // between the two marks on the rim of the wheel; zero where it was not told
	Blind  units.Angle  // either side, in which the piston stands within 0.05 mm of the end of its stroke
	Off    units.Length // what that makes of the lead there
	Tenth  units.Angle  // by which the dead centre is off where the crosshead stands 0.1 mm off at one of its marks
}

// marks is where the crank stands, either side of its dead centre, when the crosshead
// is marked.
const marks = 45 * units.Degree

// on is how far the crank is turned on from its dead centre to see the port open.
const on = 10 * units.Degree

// A Sheet is what is to be read when a gear is set, and what its parts do to that.
type Sheet struct {
	Stages []Stage // in the order of work

	Events eccentric.Events // of the gear as it is to stand

	Head, Crank DeadCentre

	Stands units.Angle        // the high point of the sheave, ahead of the crank; negative: behind it
	Arc    units.Length       // of that on the shaft; zero where it was not told
	Opens  eccentric.Openings // 10 degrees past each end's dead centre: to steam wider than its lead

	PerDegree    units.Length // by which a degree of the sheave, forwards, makes the mean lead larger
	DegreeOnArc  units.Length // of the shaft
	PerLeastMove units.Angle  // of the sheave for 0.05 mm of lead, the leaf of a feeler

	// Equal is the move of the valve, towards the crank, from where it is to stand to
	// where both leads are equal, and EqualLead is that lead: what halving the leads ends in.
	Equal     units.Length
	EqualLead units.Length

	// Halved is how far off a valve may be for half the difference of its greatest
	// openings, less that of the drawing, to be what it is off; nothing where that is
	// blind, as a port is fully open. Misread is what that half is of a valve that is off
	// by Planted, towards the crank.
	Halved, Planted, Misread units.Length

	// Splits are what to do where the head end's lead was set right and the crank end's
	// is out by so much: half of it belongs to the valve, half to the sheave.
	Splits []Split

	Reverse units.Angle // by which the sheave is turned on the shaft, forwards, for the other direction
	Stop    *Stop       // of a slip eccentric; nil where the sheave is held by a screw
}

// A Split is what to do where the lead of the crank end is out.
type Split struct {
	Out units.Length // by which it is more than in the drawing; negative: less
	Correction
}

// Sheet returns the sheet of a setting. It fails only where [Setting.Validate] does. It
// is geometry; the order of work is common practice. See the Example.
func (s Setting) Sheet() (Sheet, error) {
	if err := s.Validate(); err != nil {
		return Sheet{}, err
	}
	g := s.Gear
	k := g.Kernel()
	m := k.Motion()
	events, err := g.Events()
	if err != nil {
		return Sheet{}, err
	}
	sheet := Sheet{Events: events, Stands: g.EccentricLead(), Reverse: g.TurnToReverse(), EqualLead: events.MeanLead()}
	sheet.Arc = arc(s.Shaft, sheet.Stands)
	sheet.Head, sheet.Crank = s.deadCentre(&m, eccentric.HeadEnd), s.deadCentre(&m, eccentric.CrankEnd)
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		at := on
		if end == eccentric.CrankEnd {
			at += 2 * quarter
		}
		open, err := g.OpeningsAt(at)
		if err != nil {
			return Sheet{}, err
		}
		if end == eccentric.HeadEnd {
			sheet.Opens.Head = open.Head
		} else {
			sheet.Opens.Crank = open.Crank
		}
	}
	sheet.PerDegree = rate(&m)
	sheet.DegreeOnArc = arc(s.Shaft, units.Degree)
	if per := count(sheet.PerDegree); per > 0 {
		sheet.PerLeastMove = units.Angle(kernel.LeastMove / per * float64(units.Degree))
	}
	equal, err := g.OffsetForEqualLead()
	if err != nil {
		return Sheet{}, err
	}
	sheet.Equal = equal.Sub(g.Valve.Offset)
	step := s.Step
	if step.IsZero() {
		step = units.Micron(150)
	}
	if err := sheet.openings(g, step.Scale(2)); err != nil {
		return Sheet{}, err
	}
	if !s.Slip.IsZero() {
		if sheet.Stop, err = s.Slip.stop(g); err != nil {
			return Sheet{}, err
		}
	}
	for _, steps := range []float64{-2, -1, 1, 2} {
		split := Split{Out: step.Scale(steps)}
		split.Correction, err = s.Correct(Leads{events.Head.Lead, events.Crank.Lead.Add(split.Out)})
		if err == nil { // or the port is not as wide, or the travel does not reach it
			sheet.Splits = append(sheet.Splits, split)
		}
	}
	sheet.Stages = s.stages(&sheet)
	return sheet, nil
}

// rate returns by how much a degree of the sheave makes the mean lead larger: half of
// it either side.
func rate(m *kernel.Motion) units.Length {
	mean := func(turn float64) float64 {
		turned := *m
		turned.Advance += turn
		var e kernel.Events
		turned.Events(&e)
		return e.MeanLead()
	}
	return length(mean(kernel.LeastTurn/2) - mean(-kernel.LeastTurn/2))
}

// deadCentre says how one is found.
func (s *Setting) deadCentre(m *kernel.Motion, end eccentric.End) DeadCentre {
	t := float64(marks)
	piston := m.Piston(t) // from the end of its stroke
	if end == eccentric.CrankEnd {
		piston = m.Stroke - m.Piston(math.Pi-t)
	}
	d := DeadCentre{
		Piston: length(piston), Arc: arc(s.Wheel, 2*marks),
		Blind: units.Angle(before(m, end, kernel.LeastMove)),
	}
	turned := *m
	turned.Advance += float64(d.Blind)
	var is, off kernel.Events
	m.Events(&is)
	turned.Events(&off)
	d.Off = length(math.Abs(off.At(kernel.End(end)).Lead - is.At(kernel.End(end)).Lead))
	// Half of what one of the two marks is out by.
	d.Tenth = units.Angle((before(m, end, piston+tenth) - t) / 2)
	return d
}

// tenth of a millimetre is what the crosshead can be brought to its mark within.
const tenth = 100e6

// before returns the crank angle from a dead centre at which the piston stands so far
// from the end of its stroke there; half a turn where it does not get that far.
func before(m *kernel.Motion, end eccentric.End, piston float64) float64 {
	share := min(piston/m.Stroke, 1)
	if end == eccentric.CrankEnd {
		return math.Pi - m.CrankAt(1-share)
	}
	return m.CrankAt(share)
}

// openings says what the greatest openings tell of the place of the valve: to the
// width of a port, and not below nothing; an example stands off by so much more.
func (sheet *Sheet) openings(g eccentric.Gear, past units.Length) error {
	h, c := sheet.Events.Head, sheet.Events.Crank
	// What the valve may be off before a port shows no more, towards the head end's and
	// towards the crank end's.
	head, crank := lesser(h.OverTravel.Neg(), c.Opening), lesser(c.OverTravel.Neg(), h.Opening)
	sheet.Halved = lesser(head, crank)
	if sheet.Halved.Sign() < 0 {
		sheet.Halved = units.Length{}
	}
	sheet.Planted = sheet.Halved.Add(past)
	if (head.Cmp(crank) > 0) != g.InsideAdmission {
		sheet.Planted = sheet.Planted.Neg()
	}
	off := g
	off.Valve.Offset = g.Valve.Offset.Add(sheet.Planted)
	events, err := off.Events()
	if err != nil {
		return err
	}
	// What the halving would find, from the difference that the drawing has.
	is := h.Opening.Sub(c.Opening)
	sheet.Misread = events.Head.Opening.Sub(events.Crank.Opening).Sub(is).Scale(0.5).Abs()
	return nil
}

func lesser(a, b units.Length) units.Length {
	if b.Cmp(a) < 0 {
		return b
	}
	return a
}

// arc returns the arc of an angle on a circle of that diameter, without a sign.
func arc(diameter units.Length, a units.Angle) units.Length {
	return diameter.Scale(math.Abs(a.Radians()) / 2)
}

func count(l units.Length) float64 { return float64(l.Picometres()) }

func length(v float64) units.Length { return units.Picometres(int64(math.Round(v))) }
