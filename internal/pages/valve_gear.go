package pages

import (
	"errors"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// gearOf returns the valve gear of an engine file.
func gearOf(e *engine.Engine) (eccentric.Gear, error) {
	unusable := e.ValidateGear()
	if !wholeGear(e) {
		return eccentric.Gear{}, unusable
	}
	gear := eccentric.Gear{
		Stroke:        *e.Cylinder.Stroke,
		ConnectingRod: *e.Motion.ConnectingRod,
		Travel:        *e.Eccentric.Travel,
		EccentricRod:  *e.Motion.EccentricRod,
		Ports: eccentric.Ports{
			Steam: *e.Ports.Steam, Bar: *e.Ports.Bar, Exhaust: *e.Ports.Exhaust, Length: *e.Ports.Length,
		},
		Valve: eccentric.Valve{Length: *e.Valve.Length, Cavity: *e.Valve.Cavity},
	}
	if e.Valve.Offset != nil {
		gear.Valve.Offset = *e.Valve.Offset
	}
	if e.Chest.Length != nil {
		gear.Chest = *e.Chest.Length
	}
	if e.Motion.LeverRatio != nil {
		gear.LeverRatio = *e.Motion.LeverRatio
	}
	gear.InsideAdmission = strings.EqualFold(e.Valve.Admission, "inside")
	if e.Eccentric.Advance != nil {
		gear.Advance = *e.Eccentric.Advance
	}
	if err := errors.Join(unusable, gearError(e, gear.Validate())); err != nil {
		return eccentric.Gear{}, err
	}
	if e.Eccentric.Lead == nil {
		return gear, nil
	}
	set, err := gear.WithLead(*e.Eccentric.Lead, eccentric.BothEnds)
	return set, gearError(e, err)
}

// wholeGear reports whether a file has all keys that a gear must have.
func wholeGear(e *engine.Engine) bool {
	for _, l := range []*units.Length{
		e.Cylinder.Bore, e.Cylinder.Stroke, e.Ports.Steam, e.Ports.Bar, e.Ports.Exhaust, e.Ports.Length,
		e.Valve.Length, e.Valve.Cavity, e.Eccentric.Travel,
	} {
		if l == nil {
			return false
		}
	}
	return e.Motion.ConnectingRod != nil && e.Motion.EccentricRod != nil &&
		(e.Eccentric.Advance == nil) != (e.Eccentric.Lead == nil)
}

// gearKeys are the keys of what package eccentric names in its errors.
var gearKeys = map[string]string{
	"stroke": "cylinder.stroke", "connecting rod": "motion.connecting_rod", "eccentric rod": "motion.eccentric_rod",
	"lever ratio": "motion.lever_ratio", "steam port width": "ports.steam", "bar width": "ports.bar",
	"exhaust port width": "ports.exhaust", "port length": "ports.length", "valve length": "valve.length",
	"valve cavity": "valve.cavity", "valve travel": "eccentric.travel", "angle of advance": "eccentric.advance",
	"lead": "eccentric.lead", "chest length": "chest.length",
}

// gearError gives an error of package eccentric, and each of those joined in one,
// the place of the key that it is about. What was complained of already is left
// out.
func gearError(e *engine.Engine, err error) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, inner := range joined.Unwrap() {
			all = append(all, gearError(e, inner))
		}
		return errors.Join(all...)
	}
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	if bad.Field == "lever ratio" && *e.Motion.LeverRatio == 0 ||
		bad.Field == "chest length" && e.Chest.Length.Sign() <= 0 || bad.Field == "port length" && e.Ports.Length.Sign() <= 0 {
		return nil
	}
	return e.Errorf(gearKeys[bad.Field], "%v", bad)
}
