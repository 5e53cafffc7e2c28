package dial

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// A Rotary is a rotary table under the spindle.
type Rotary struct {
	Step units.Angle // what it can be set to: a minute of arc, or the division of a dial
}

// A TurnSetting is how to bring a rotary table to one hole.
type TurnSetting struct {
	Hole             string       // its name, or its number where it has none
	Radius           units.Length // from the middle of the table
	Degrees, Minutes int          // to turn it to, anticlockwise from hole to spindle, 0 to below 360 degrees
	Seconds          float64
	Error            units.Length // how far the rounding of the angle puts the hole out, along its circle
}

// Angle returns the setting as an angle.
func (s TurnSetting) Angle() units.Angle {
	return units.Angle(s.Degrees)*units.Degree + units.Angle(s.Minutes)*units.ArcMinute +
		units.Angle(s.Seconds)*units.ArcSecond
}

const maxRadiusMM = 1e6 // of a hole on a rotary table

// Set returns the settings of a rotary table with its middle under the datum: the
// angle of each hole, rounded to what the table can be set to, and its radius. Turn
// the table always the same way, to take up the backlash of the worm, and lock it.
//
//	angle = atan2(y, x)
//	error = radius * (set - angle)
//
// The step is from a second of arc to 10 degrees. A hole on the middle of the table
// has any angle and is given 0. It takes up to 100,000 holes within 1 km of the
// middle. See the example.
func (r Rotary) Set(p gasket.Pattern, d gasket.Datum) ([]TurnSetting, error) {
	if err := checkPlaces(p, d); err != nil {
		return nil, err
	}
	if !(r.Step >= units.ArcSecond && r.Step <= 10*units.Degree) {
		return nil, fail.OutOfRange("step of the table", r.Step, "1 second of arc to 10 degrees")
	}
	settings := make([]TurnSetting, len(p))
	for i, at := range p.From(d) {
		s := &settings[i]
		s.Hole = nameOf(p, i)
		if max(math.Abs(at.X.MM()), math.Abs(at.Y.MM())) > maxRadiusMM {
			place := fmt.Sprintf("at %v, %v", at.X, at.Y)
			return nil, fail.OutOfRange("hole "+s.Hole, place, "within 1 km of the middle of the table")
		}
		s.Radius = at.Distance(gasket.Point{})
		angle := math.Atan2(at.Y.MM(), at.X.MM())
		if angle < 0 {
			angle += 2 * math.Pi
		}
		set := math.Round(angle/r.Step.Radians()) * r.Step.Radians()
		s.Error = s.Radius.Scale(set - angle)
		tenths := int(math.Round(set/units.ArcSecond.Radians()*10)) % (360 * 36000)
		s.Degrees, s.Minutes, s.Seconds = tenths/36000, tenths/600%60, float64(tenths%600)/10
	}
	return settings, nil
}
