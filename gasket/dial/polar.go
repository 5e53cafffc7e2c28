package dial

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// A TurnSetting is how to bring a rotary table to one hole.
type TurnSetting struct {
	Hole             string
	Radius           units.Length // from the middle of the table
	Degrees, Minutes int          // to turn it to, anticlockwise from hole to spindle, 0 to below 360 degrees
	Seconds          float64
	Error            units.Length // how far the rounding of the angle puts the hole out, along its circle
}

// Angle returns the setting as an angle.
func (s TurnSetting) Angle() units.Angle {
	return units.Angle(s.Degrees)*units.Degree + units.Angle(s.Minutes)*units.ArcMinute + units.Angle(s.Seconds)*units.ArcSecond
}

// Turns returns the settings of a rotary table with its middle under the origin
// of the points: the angle of each, rounded to what the table can be set to, and
// its radius. Turn the table always the same way, to take up the backlash of the
// worm, and lock it.
//
//	angle = atan2(y, x)    error = radius * (set - angle)
//
// The step is above 0 and up to 10 degrees: a minute of arc, or the division of a
// dial. A point on the middle of the table has any angle and is given 0. A point
// more than 1,000 m away is an error.
func Turns(points []gasket.Point, names []string, step units.Angle) ([]TurnSetting, error) {
	if len(points) > maxPoints {
		return nil, bad("points", fmt.Sprint(len(points)), fmt.Sprintf("up to %d", maxPoints))
	}
	if len(names) != 0 && len(names) != len(points) {
		return nil, bad("names of the points", fmt.Sprint(len(names)), fmt.Sprintf("one for each of the %d points, or none", len(points)))
	}
	if !(step >= units.ArcSecond && step <= 10*units.Degree) {
		return nil, bad("step of the table", step.String(), "1 second of arc to 10 degrees")
	}
	settings := make([]TurnSetting, len(points))
	for i, p := range points {
		s := &settings[i]
		if s.Hole = fmt.Sprint(i + 1); len(names) > 0 {
			s.Hole = names[i]
		}
		if max(math.Abs(p.X.MM()), math.Abs(p.Y.MM())) > maxRadius {
			return nil, bad("point "+s.Hole, fmt.Sprintf("%v, %v", p.X, p.Y), "within 1,000 m of the middle of the table")
		}
		s.Radius = p.Distance(gasket.Point{})
		angle := math.Atan2(p.Y.MM(), p.X.MM())
		if angle < 0 {
			angle += 2 * math.Pi
		}
		set := math.Round(angle/step.Radians()) * step.Radians()
		s.Error = s.Radius.Scale(set - angle)
		tenths := int(math.Round(set/units.ArcSecond.Radians()*10)) % (360 * 36000)
		s.Degrees, s.Minutes, s.Seconds = tenths/36000, tenths/600%60, float64(tenths%600)/10
	}
	return settings, nil
}
