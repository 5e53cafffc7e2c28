package engine

import (
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// Gear returns the valve gear as it stands after what the file says has been
// altered, with no advance where the file has the lead instead; false where a size
// is missing. It is not checked; one that cannot be altered so is that of
// [Engine.Drawn].
func (e *Engine) Gear() (eccentric.Gear, bool) {
	gear, ok := e.Drawn()
	if a := e.Alteration(); ok && !a.IsZero() {
		if altered, err := gear.Altered(a); err == nil {
			return altered, true
		}
	}
	return gear, ok
}

// Drawn returns the valve gear as it was drawn or measured before anything was
// altered; otherwise as [Engine.Gear].
func (e *Engine) Drawn() (eccentric.Gear, bool) {
	for _, size := range []*units.Length{
		e.Cylinder.Bore, e.Cylinder.Stroke, e.Ports.Steam, e.Ports.Bar, e.Ports.Exhaust, e.Ports.Length,
		e.Valve.Length, e.Valve.Cavity, e.Eccentric.Travel,
	} {
		if size == nil {
			return eccentric.Gear{}, false
		}
	}
	if e.Motion.ConnectingRod == nil || e.Motion.EccentricRod == nil ||
		e.Eccentric.Advance == nil && e.Eccentric.Lead == nil && e.Eccentric.Stands == nil {
		return eccentric.Gear{}, false
	}
	gear := eccentric.Gear{
		Stroke:        *e.Cylinder.Stroke,
		ConnectingRod: *e.Motion.ConnectingRod,
		Travel:        *e.Eccentric.Travel,
		EccentricRod:  *e.Motion.EccentricRod,
		Ports: eccentric.Ports{
			Steam: *e.Ports.Steam, Bar: *e.Ports.Bar, Exhaust: *e.Ports.Exhaust, Length: *e.Ports.Length,
		},
		Valve:           eccentric.Valve{Length: *e.Valve.Length, Cavity: *e.Valve.Cavity},
		InsideAdmission: strings.EqualFold(e.Valve.Admission, "inside"),
	}
	for _, may := range []struct{ to, from *units.Length }{
		{&gear.Ports.CrankSteam, e.Ports.CrankSteam}, {&gear.Ports.CrankBar, e.Ports.CrankBar},
		{&gear.Valve.Offset, e.Valve.Offset}, {&gear.Valve.CavityOffset, e.Valve.CavityOffset},
		{&gear.Valve.LostMotion, e.Valve.LostMotion}, {&gear.Chest, e.Chest.Length},
	} {
		if may.from != nil {
			*may.to = *may.from
		}
	}
	if e.Motion.LeverRatio != nil {
		gear.LeverRatio = *e.Motion.LeverRatio
	}
	if e.Eccentric.Advance != nil {
		gear.Advance = *e.Eccentric.Advance
	}
	if e.Eccentric.Stands != nil {
		if set, err := gear.WithEccentricAt(*e.Eccentric.Stands); err == nil { // another is refused by who checks the gear
			gear = set
		}
	}
	return gear, true
}

// doubled suspects the travel where the valve sweeps too far, in words for the end
// of a complaint; none where the gear itself gives no reason to.
func (e *Engine) doubled() string {
	gear, ok := e.Gear()
	if !ok || e.Eccentric.Lead != nil {
		return ""
	}
	for _, f := range gear.Check() {
		if f.Code == eccentric.TravelForOffset {
			return "; or a travel of " + gear.EccentricOffset().String() + ", as this one looks doubled"
		}
	}
	return ""
}
