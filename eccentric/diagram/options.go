package diagram

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Options are what of a picture is a matter of taste or of the side one stands on. The
// zero value draws in millimetres an engine that turns clockwise, and says so.
type Options struct {
	Inch bool // figures in inches, and in thou below a hundredth of an inch

	Rotation setting.Rotation // which way the crank turns, seen from there; zero: not given
	SeenFrom string           // the side it is seen from: "flywheel side"; blank: not given
}

// The places of a figure: millimetres to a hundredth, and below a tenth to a micron;
// inches to a tenth of a thou, without zeros beyond the third place; below a hundredth of
// an inch thou to a tenth.
const (
	placesMM   = 2
	placesFine = 3
	placesInch = 4
	placesThou = 1
)

// length returns a length as it stands on a dimension line.
func (o Options) length(l units.Length) string {
	switch {
	case l.IsZero():
		return "0"
	case !o.Inch && l.Abs().Cmp(units.Micron(100)) < 0:
		return trimmed(l.Decimal(units.Millimetres, placesFine))
	case !o.Inch:
		return trimmed(l.Decimal(units.Millimetres, placesMM))
	case l.Abs().Cmp(units.Thou(10)) < 0:
		return trimmed(l.Decimal(units.Thousandths, placesThou)) + " thou"
	}
	return strings.TrimSuffix(l.Decimal(units.Inches, placesInch), "0")
}

// said returns a length with its unit, for a sentence.
func (o Options) said(l units.Length) string {
	text := o.length(l)
	switch {
	case !o.Inch:
		return text + " mm"
	case strings.HasSuffix(text, "thou"):
		return text
	}
	return text + " in"
}

// note says what unit the figures of a picture are in.
func (o Options) note() string {
	if o.Inch {
		return "figures in inches or thou"
	}
	return "figures in mm"
}

// degrees returns an angle to a tenth of a degree.
func degrees(a units.Angle) string { return fault.Decimal(math.Round(10*a.Degrees())/10, 1) + "°" }

// percent returns a share of the stroke to a tenth of a per cent.
func percent(share float64) string { return fault.Decimal(math.Round(1000*share)/10, 1) + " %" }

// trimmed takes the zeros off the end of a decimal number.
func trimmed(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
	}
	return s
}
