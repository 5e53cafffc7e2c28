package template

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A ruler is the unit that the sizes on a sheet are in.
type ruler struct {
	name   string
	in     units.LengthUnit
	mm     float64 // of one unit
	places int
	bar    float64 // length of the bars, in the unit
	step   float64 // from tick to tick of them
	other  string  // what the bars are in the other unit
}

func rulerOf(inch bool) ruler {
	if inch {
		return ruler{name: "in", in: units.Inches, mm: 25.4, places: 3, bar: 4, step: 0.5, other: "101.6 mm"}
	}
	return ruler{name: "mm", in: units.Millimetres, mm: 1, places: 2, bar: 100, step: 10, other: "3.937 in"}
}

// size returns a length with as many places as paper is measured to, and no zeros
// behind them.
func (r ruler) size(l units.Length) string { return r.number(l.MM()) }

// number returns the same of a plain number of millimetres.
func (r ruler) number(mm float64) string {
	scale := math.Pow(10, float64(r.places))
	v := math.Round(mm/r.mm*scale) / scale
	return strconv.FormatFloat(v+0, 'f', -1, 64) // +0: no negative zero
}

// coordinate returns a length with its zeros, so that points are under each other.
func (r ruler) coordinate(l units.Length) string {
	text := l.Decimal(r.in, r.places)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// punch returns the size of a punch: of those in inches the fraction that is on it.
func (r ruler) punch(l units.Length) string {
	if r.in == units.Inches {
		if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() {
			return strings.TrimSuffix(f.String(), " in")
		}
	}
	return r.size(l)
}

// barMM is the length of the bars in millimetres.
func (r ruler) barMM() float64 { return r.bar * r.mm }

func (r ruler) barText() string { return fmt.Sprintf("%g %s", r.bar, r.name) }
