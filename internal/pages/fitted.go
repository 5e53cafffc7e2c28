package pages

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// An asked is a fit that somebody asked for, of ISO 286 or of ANSI B4.1, worked
// out.
type asked struct {
	name, use   string
	hole, shaft string // classes of the parts; blank where an inch fit has none
	limits      fits.FitLimits
	inch        bool // of ANSI B4.1
	findings    finding.List
}

// askedFit reads a fit and works it out.
func askedFit(text string, nominal units.Length) (asked, error) {
	if inch, err := fits.ParseInchFit(text); err == nil {
		r, err := inch.LimitsFor(nominal)
		return asked{inch.String(), inch.Use(), r.HoleSymbol, r.ShaftSymbol, r.FitLimits, true, r.Check()}, err
	}
	fit, err := fits.ParseFit(text)
	if err != nil {
		return asked{}, eitherStandard(err)
	}
	r, err := fit.LimitsFor(nominal)
	return askedISO(fit, r), err
}

// askedISO is a fit of ISO 286, and what it is for if it is a preferred one.
func askedISO(fit fits.Fit, r fits.FitLimits) asked {
	a := asked{fit.String(), "", fit.Hole.String(), fit.Shaft.String(), r, false, r.Check()}
	if p, ok := fit.Preferred(); ok {
		a.use = p.Name + ": " + p.Use
	}
	return a
}

// eitherStandard is the error of a fit that ISO 286 does not know, with the inch
// fits among what is accepted.
func eitherStandard(err error) error {
	var bad *units.ParseError
	if !errors.As(err, &bad) {
		return err
	}
	both := *bad
	both.Accepted += "; or an inch fit, RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5"
	return &both
}

// sizes are the limits of a part, rounded inward to the last place so that they
// can be worked to in either column.
func sizes(l fits.Limits, mm int, unit units.LengthUnit, places int) book.Quantity {
	q := book.Range(book.Length(l.Min, mm), book.Length(l.Max, mm))
	return q.Shown(l.Text(units.Millimetres, mm)).And(book.Word(l.Text(unit, places)))
}

// clearanceRange is a range of clearance, to the nearest of the last place.
func clearanceRange(b fits.Band) book.Quantity {
	return book.Range(book.Length(b.Min, 3), book.Length(b.Max, 3))
}

// A scale is what an instrument shows, and in what the tolerance that it costs is
// told.
type scale struct {
	step       units.Length
	unit       units.LengthUnit
	places     int
	fine       units.LengthUnit
	finePlaces int
}

// onMicrometer says to which steps of a micrometer a part is made, and how much of
// its tolerance that costs.
func onMicrometer(part string, l fits.Limits, s scale) ([]book.Value, error) {
	v := book.Value{Key: part + "_on_steps", Label: part}
	tolerance := l.Tolerance().Text(s.fine, s.finePlaces)
	m, err := l.RoundInward(s.step)
	switch {
	case errors.Is(err, units.ErrOutOfRange) && s.step.Sign() > 0:
		v.What = book.Never(book.Length(l.Min, 3), "too coarse").And(book.Word("for " + tolerance))
		return []book.Value{v}, nil
	case err != nil:
		return nil, err
	}
	v.What = book.Range(book.Length(m.Min, 3), book.Length(m.Max, 3))
	text := m.Min.Decimal(s.unit, s.places) + " to " + m.Max.Text(s.unit, s.places)
	if m.Min == m.Max {
		text = m.Min.Text(s.unit, s.places) + " only"
	}
	v.What = v.What.Shown(text).And(book.Word(m.Lost.Decimal(s.fine, s.finePlaces) + " of " + tolerance + " lost"))
	return []book.Value{v,
		{Key: part + "_lost", What: book.Number(m.Lost.Micron(), 1, "um", "um")},
		{Key: part + "_step", What: book.Length(s.step, 3)},
	}, nil
}

// scaleOf is the scale of an instrument by its step: in thou, where the step is no
// whole number of microns, and in millimetres; with four decimal places at most.
func scaleOf(step units.Length) scale {
	s := scale{step: step, unit: units.Millimetres, fine: units.Micrometres, finePlaces: 1}
	if step.Picometres()%units.Micron(1).Picometres() != 0 {
		s.unit = units.Thousandths
	}
	for s.places < 4 && step.Picometres()*int64(math.Pow10(s.places))%s.unit.Length().Picometres() != 0 {
		s.places++
	}
	return s
}

// text is the step in the unit of the instrument.
func (s scale) text() string { return s.step.Text(s.unit, s.places) }
