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
	const length = `a length with its unit, such as "20 mm" or "3/4 in"`
	missing := []error{
		e.Missing(length, "cylinder.bore", "cylinder.stroke"),
		e.Missing(length+`, or "infinite"`, "motion.connecting_rod", "motion.eccentric_rod"),
		e.Missing(length, "ports.steam", "ports.bar", "ports.exhaust", "ports.length",
			"valve.length", "valve.cavity", "eccentric.travel"),
	}
	switch {
	case e.Eccentric.Advance == nil && e.Eccentric.Lead == nil:
		missing = append(missing, e.Errorf("eccentric.advance",
			`missing; accepted: advance, such as "26 deg", or lead, such as "0.2 mm", but not both`))
	case e.Eccentric.Advance != nil && e.Eccentric.Lead != nil:
		missing = append(missing, e.Errorf("eccentric.lead",
			"advance is given too, and fixes the lead; accepted: one of the two"))
	}
	if e.Has("chest") && e.Chest.Length == nil {
		missing = append(missing, e.Missing(length+", or no chest at all", "chest.length"))
	}
	if err := errors.Join(missing...); err != nil {
		return eccentric.Gear{}, err
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
	if err := errors.Join(unusable(e), gearError(e, gear.Validate())); err != nil {
		return eccentric.Gear{}, err
	}
	if e.Eccentric.Lead == nil {
		return gear, nil
	}
	set, err := gear.WithLead(*e.Eccentric.Lead, eccentric.BothEnds)
	return set, gearError(e, err)
}

// unusable complains of what a gear takes for something that was left out.
func unusable(e *engine.Engine) error {
	var all []error
	above := func(key string, l *units.Length, accepted string) {
		if l != nil && l.Sign() <= 0 {
			all = append(all, e.Errorf(key, "%v; accepted: a length above zero%s", *l, accepted))
		}
	}
	above("cylinder.bore", e.Cylinder.Bore, "")
	above("ports.length", e.Ports.Length, "")
	above("chest.length", e.Chest.Length, ", or no chest at all")
	if e.Motion.LeverRatio != nil && *e.Motion.LeverRatio == 0 {
		all = append(all, e.Errorf("motion.lever_ratio", "0; accepted: the movement of the valve for one of the"+
			" eccentric rod, negative for a lever that reverses it; leave the key out where there is no lever"))
	}
	switch strings.ToLower(e.Valve.Admission) {
	case "", "outside", "inside":
	default:
		all = append(all, e.Errorf("valve.admission", `%q; accepted: "outside" for a slide valve, "inside" for a`+
			` piston valve that admits past its inner edges`, e.Valve.Admission))
	}
	return errors.Join(all...)
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
