package eccentric

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("eccentric")

// Validate reports every dimension that no gear can have, as
// [*units.ArgumentError] joined. All methods that return an error call it.
func (g Gear) Validate() error {
	if k := g.Kernel(); k.Sound() {
		return g.validatePorts()
	}
	return g.validate()
}

// validatePorts is what of Validate the motion does not depend on.
func (g *Gear) validatePorts() error {
	switch {
	case g.Ports.Length.Sign() < 0:
		return fail.OutOfRange("port length", g.Ports.Length, "a length above zero, or none")
	case count(g.Ports.Length) > kernel.Longest:
		return absurd()
	}
	return nil
}

func longerThan(what string, l units.Length) string {
	return "longer than " + what + ", " + l.String() + `, or "` + infinite + `"`
}

func absurd() error {
	return fail.Argument("dimensions", nil, "one of them is beyond 1 km", "lengths up to 1 km", units.ErrOutOfRange)
}

func (g *Gear) validate() error {
	var problems []error
	refuse := func(err error) { problems = append(problems, err) }
	for _, must := range []struct {
		field string
		value units.Length
	}{
		{"stroke", g.Stroke}, {"valve travel", g.Travel},
		{"steam port width", g.Ports.Steam}, {"bar width", g.Ports.Bar}, {"exhaust port width", g.Ports.Exhaust},
		{"valve length", g.Valve.Length}, {"valve cavity", g.Valve.Cavity},
	} {
		switch must.value.Sign() {
		case 0:
			refuse(fail.Argument(must.field, nil, "missing or zero", "a length above zero", units.ErrMissing))
		case -1:
			refuse(fail.OutOfRange(must.field, must.value, "a length above zero"))
		}
	}
	beyond := g.longest() > kernel.Longest
	if beyond {
		refuse(absurd())
	}
	for _, may := range []struct {
		field string
		value units.Length
	}{{"port length", g.Ports.Length}, {"chest length", g.Chest}} {
		if may.value.Sign() < 0 {
			refuse(fail.OutOfRange(may.field, may.value, "a length above zero, or none"))
		}
	}
	for _, may := range []struct {
		field string
		value units.Length
	}{{"steam port width of the crank end", g.Ports.CrankSteam}, {"bar width of the crank end", g.Ports.CrankBar}} {
		if may.value.Sign() < 0 {
			refuse(fail.OutOfRange(may.field, may.value, "a length above zero, or none where it is as at the head end"))
		}
	}
	switch lost := g.Valve.LostMotion; {
	case lost.Sign() < 0:
		refuse(fail.OutOfRange("lost motion", lost, "a length of zero or more"))
	case g.Travel.Sign() > 0 && lost.Cmp(g.Travel) >= 0:
		refuse(fail.OutOfRange("lost motion", lost, "less than the travel, "+g.Travel.String()+", or the valve does not move"))
	}
	lever := kernel.LeverSound(g.LeverRatio)
	switch rod := g.ConnectingRod; {
	case rod.IsZero():
		refuse(fail.Missing("connecting rod", rodAccepted))
	case g.Stroke.Sign() > 0 && !beyond && !kernel.RodReaches(rod.count(), count(g.Stroke), 1):
		refuse(fail.OutOfRange("connecting rod", rod, longerThan("half the stroke", g.Stroke.Scale(0.5))))
	}
	switch rod := g.EccentricRod; {
	case rod.IsZero():
		refuse(fail.Missing("eccentric rod", rodAccepted))
	case g.Travel.Sign() > 0 && !beyond && lever && !kernel.RodReaches(rod.count(), count(g.Travel), g.LeverRatio):
		refuse(fail.OutOfRange("eccentric rod", rod, longerThan("the offset of the sheave", g.EccentricOffset())))
	}
	switch {
	case g.Valve.Length.Sign() <= 0 || beyond: // refused above
	case g.Valve.Cavity.Cmp(g.Valve.Length) >= 0:
		refuse(fail.OutOfRange("valve cavity", g.Valve.Cavity, "shorter than the valve, "+g.Valve.Length.String()))
	case g.Valve.Cavity.Sign() > 0:
		land := g.Valve.Length.Sub(g.Valve.Cavity).Scale(0.5)
		if math.Abs(count(g.Valve.CavityOffset)) >= count(land) {
			refuse(fail.OutOfRange("cavity offset", g.Valve.CavityOffset,
				"less than "+land.String()+" either way, which leaves a land at each end of the valve"))
		}
	}
	if !(math.Abs(float64(g.Advance)) <= math.Pi) {
		refuse(fail.OutOfRange("angle of advance", g.Advance, "from -180 to 180 degrees"))
	}
	if !lever {
		refuse(fail.OutOfRange("lever ratio", g.LeverRatio, "from 0.1 to 10 either way, or zero for no lever"))
	}
	return errors.Join(problems...)
}

// longest returns the greatest of the dimensions, in picometres.
func (g *Gear) longest() float64 {
	return max(count(g.Stroke), count(g.Travel),
		count(g.ConnectingRod.length), count(g.EccentricRod.length), count(g.Chest),
		count(g.Ports.Steam), count(g.Ports.Bar), count(g.Ports.Exhaust), count(g.Ports.Length),
		count(g.Ports.CrankSteam), count(g.Ports.CrankBar), count(g.Valve.LostMotion),
		math.Abs(count(g.Valve.CavityOffset)),
		count(g.Valve.Length), count(g.Valve.Offset), -count(g.Valve.Offset))
}
