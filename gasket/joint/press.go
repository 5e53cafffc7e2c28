package joint

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// GasketStress is the code of the finding that a gasket is pressed less than
// seats it, or less than keeps it tight.
const GasketStress finding.Code = "gasket-stress"

// A Seating is what a gasket asks of its joint, by all sources that know its
// material. The zero value asks for nothing.
type Seating struct {
	Min, Max units.Pressure // factor y of the softest grade and of the hardest; zero: no source gives one
	Hold     units.Pressure // that keeps the softest tight: factor m times the pressure
	Softer   []string       // materials that the studs do seat and that stand the service, the first choice first
	Refs     source.Refs
}

// A Pressing is how hard studs press a gasket, as a mean over its area.
type Pressing struct {
	Bolted   units.Pressure // before there is pressure
	Left     units.Pressure // with the pressure on; zero where the cover lifts
	Seats    units.Pressure // the greatest factor y that bolting up seats
	Needed   units.Force    // of all studs together, to seat the softest grade; zero: no figure
	Seated   bool           // the studs seat the softest grade and keep it tight, or no source says what that takes
	Findings finding.List
}

// halfOfIt is the share of the width of a gasket on which its factor y counts:
// b0 = N/2 of ASME VIII-1, appendix 2, in which b = b0 up to a width of 1/2 in. Of
// a wider one less counts, so that half is the safe side.
const halfOfIt = 0.5

// Press judges how the studs press a gasket: whether bolting up seats it, and
// whether the pressure leaves enough to keep it tight.
//
//	bolted = n * preload / A
//	left   = (n * preload - F) / A
//	seats  = n * preload / (A / 2)     the factor y may be so much
//	needed = y * A / 2                 of all studs
//
//	n  the number of studs
//	F  the load of the joint
//	A  the area of contact: gasket.Measures of the outline
//	y  the factor of the softest grade
//
// The finding fails where the studs do not seat the softest grade, or leave less
// than m times the pressure, and notes where they do not seat the hardest. The
// factors are those of a code for gaskets inside the studs, where half of the width
// counts; with the studs through the gasket no code that we have read gives a
// figure, it is far from evenly loaded, and what is said is an indication. Source:
// mechanics, and ASME VIII-1, appendix 2, as in [Gasket.Loads]. See the example.
func (l StudLoad) Press(area units.Area, seating Seating) (Pressing, error) {
	err := cmp.Or(zeroOrMore("stress that seats the gasket", seating.Min), zeroOrMore("stress that seats the gasket", seating.Max),
		zeroOrMore("stress that keeps the gasket tight", seating.Hold))
	if err != nil {
		return Pressing{}, err
	}
	all := units.Force(l.Number) * l.Preload
	bolted, err := StressOnGasket(all, area)
	if err != nil {
		return Pressing{}, err
	}
	if l.Number < 1 {
		return Pressing{}, fail.OutOfRange("number of studs", l.Number, "1 to 1000")
	}
	left, err := StressOnGasket(max(all-l.Total, 0), area)
	if err != nil {
		return Pressing{}, err
	}
	p := Pressing{
		Bolted: bolted, Left: left, Seated: true,
		Seats:  bolted / halfOfIt,                                            // appendix 2: Wm2 = pi b G y
		Needed: units.Force(float64(seating.Min) * float64(area) * halfOfIt), // of which pi b G is A/2
	}
	switch {
	case p.Seats < seating.Min:
		p.unseated(l, area, seating)
	case left < seating.Hold:
		p.loose(seating)
	case p.Seats < seating.Max:
		p.Findings = finding.List{{
			Code: GasketStress, Severity: finding.Note,
			Text: fmt.Sprintf("The studs seat a gasket of up to %s, by which the softest grade is seated and the hardest, of %s, is not.",
				megapascals(p.Seats), megapascals(seating.Max)),
			Remedies: []string{"Ask for the factor y of the grade that you buy."},
			Refs:     seating.Refs.With(source.Shared(&appendix2)),
		}}
	}
	return p, nil
}

// unseated says that the studs do not seat the gasket, and what cures it.
func (p *Pressing) unseated(l StudLoad, area units.Area, seating Seating) {
	p.Seated = false
	all := units.Force(l.Number) * l.Preload
	var cures []string
	if len(seating.Softer) > 0 {
		cures = append(cures, "Take what these studs do seat and what stands the heat: "+strings.Join(seating.Softer, ", ")+".")
	}
	cures = append(cures,
		"Take no sheet at all: lap both faces flat and joint them with a liquid jointing that its maker gives for the heat.")
	if all > 0 {
		cures = append(cures, fmt.Sprintf("Make it narrower: these studs seat %.0f mm2 of it, and it has %.0f.",
			math.Floor(float64(all/p.Needed)*area.In(units.SquareMillimetre)), area.In(units.SquareMillimetre)))
	}
	each := units.Force(math.Ceil(float64(p.Needed) / float64(l.Number)))
	stronger := fmt.Sprintf("stronger ones that bear %.0f N each in place of %.0f", float64(each), float64(l.Preload))
	if n := math.Ceil(float64(p.Needed / l.Preload)); n <= mostStuds {
		cures = append(cures, fmt.Sprintf("Take %.0f such studs, or %s.", n, stronger))
	} else {
		cures = append(cures, "Take "+stronger+".")
	}
	cures = append(cures, l.harder(each)...)
	p.Findings = finding.List{{
		Code: GasketStress, Severity: finding.Fails,
		Text: fmt.Sprintf("The studs do not seat the gasket: they press it with %s, and its softest grade takes %s, "+
			"half of its factor y as a code has it for gaskets inside the studs. It weeps.",
			megapascals(p.Bolted), megapascals(seating.Min*halfOfIt)),
		Remedies: cures,
		Refs:     seating.Refs.With(source.Shared(&appendix2)),
	}}
}

// loose says that the pressure takes too much of the load off the gasket.
func (p *Pressing) loose(seating Seating) {
	p.Seated = false
	if p.Left <= 0 { // the cover lifts, as Load says
		return
	}
	p.Findings = finding.List{{
		Code: GasketStress, Severity: finding.Fails,
		Text: fmt.Sprintf("The pressure leaves %s on the gasket, and %s keep its softest grade tight, by the factor m "+
			"of a code for gaskets inside the studs. It leaks.",
			megapascals(p.Left), megapascals(seating.Hold)),
		Remedies: []string{"Take more or stronger studs, or make the gasket narrower."},
		Refs:     seating.Refs.With(source.Shared(&appendix2)),
	}}
}

func megapascals(p units.Pressure) string { return fmt.Sprintf("%.1f MPa", p.In(units.Megapascal)) }

// StressOnGasket returns the mean stress that a force puts on a gasket.
//
//	s = F / A
//
//	F  the force of all studs less what the pressure takes off, zero or more
//	A  the area of contact
//
// Source: mechanics. [StudLoad.Press] has both forces.
func StressOnGasket(force units.Force, area units.Area) (units.Pressure, error) {
	if err := zeroOrMore("force on the gasket", force); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "area of the gasket", area); err != nil {
		return 0, err
	}
	return units.Pressure(float64(force) / float64(area)), nil
}

// SpannerPull returns how hard to pull at a spanner for a torque.
//
//	F = T / l
//
//	T  the torque, zero or more
//	l  from the middle of the nut to the hand, above zero
//
// Source: mechanics. See the example.
func SpannerPull(torque units.Torque, length units.Length) (units.Force, error) {
	if err := cmp.Or(zeroOrMore("torque", torque), fail.Above(fault.Named("length of the spanner", length))); err != nil {
		return 0, err
	}
	return units.Force(float64(torque) / length.Metres()), nil
}
