package thread

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// limitsTrapezoidal gives class 7e of the screw (ISO 2903) for pitches of 1.5 to
// 4 mm: the major diameter from its basic size down by Td, the pitch diameter
// from es below its basic size down by Td2, the minor diameter from its basic
// size down by Td3. Td3 is 1.25 Td2 + |es| in whole micrometres, where the
// standard makes 279.5 into 279 and 308.5 into 309.
func (t Thread) limitsTrapezoidal(class string) (Limits, error) {
	if class != "7e" {
		return Limits{}, t.noClass(class, "7e")
	}
	small := t.major.Cmp(units.MM(5.6)) > 0 && t.major.Cmp(units.MM(11.2)) <= 0
	middle := t.major.Cmp(units.MM(11.2)) > 0 && t.major.Cmp(units.MM(22.4)) <= 0
	var es, td, td2, td3 int // micrometres
	switch {
	case t.pitch == units.MM(1.5) && small:
		es, td, td2, td3 = 67, 150, 170, 279
	case t.pitch == units.MM(2) && small:
		es, td, td2, td3 = 71, 180, 190, 309
	case t.pitch == units.MM(2) && middle:
		es, td, td2, td3 = 71, 180, 200, 321
	case t.pitch == units.MM(3) && small:
		es, td, td2, td3 = 85, 236, 212, 350
	case t.pitch == units.MM(3) && middle:
		es, td, td2, td3 = 85, 236, 224, 365
	case t.pitch == units.MM(4) && middle:
		es, td, td2, td3 = 95, 300, 265, 426
	default:
		return Limits{}, wrong("limits of "+t.name, "", "no tolerance is held for this diameter and pitch", "Tr 8x1.5 to Tr 18x4", units.ErrOutOfRange)
	}
	return Limits{
		Class: class, External: true,
		Major:         below(t.major, micron(td)),
		PitchDiameter: below(t.pitchDiameter.Sub(micron(es)), micron(td2)),
		Minor:         below(t.root, micron(td3)),
		Ref: source.Ref{
			Kind: source.Published, Title: "External ISO metric trapezoidal screw threads Tr8 to Tr315 (ISO 2901 to 2904)",
			Edition: "engineering reference chart, class 7e", Locator: "rows Tr8 to Tr18", Note: "tolerances taken from the limits of the rows",
		},
	}, nil
}

// limitsAcme gives class 2G of the screw (ASME B1.5), p the pitch and D the
// diameter in inches:
//
//	allowance on the pitch diameter  0.008 D^(1/2)
//	pitch diameter tolerance         0.030 p^(1/2) + 0.006 D^(1/2)
//	major diameter tolerance         0.05 p, at least 0.005
//	minor diameter tolerance         1.5 times that of the pitch diameter
//
// The formulas are recalled and hold for the standard pitch of a diameter.
func (t Thread) limitsAcme(class string) (Limits, error) {
	if class != "2G" {
		return Limits{}, t.noClass(class, "2G")
	}
	d, p := t.major.Inch(), t.pitch.Inch()
	four := units.Thou(0.1)
	tolerance := units.Inch(0.030*math.Sqrt(p) + 0.006*math.Sqrt(d))
	top := round(t.pitchDiameter.Sub(units.Inch(0.008*math.Sqrt(d))), four)
	return Limits{
		Class: class, External: true,
		Major:         below(t.major, round(units.Inch(max(0.05*p, 0.005)), four)),
		PitchDiameter: below(top, round(tolerance, four)),
		Minor:         below(t.root, round(tolerance.Scale(1.5), four)),
		Ref: source.Ref{
			Kind: source.FromMemory, Title: "ASME B1.5",
			Note: "formulas recalled; they agree with a screw maker's table at the standard pitches",
		},
	}, nil
}
