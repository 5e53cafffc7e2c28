package indicator

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A PortFlow is how fast steam or air has to go through the ports at Speed.
type PortFlow struct {
	PistonSpeed units.Speed // mean
	Head, Crank EndFlow
	Limits      []PortLimit // the lowest first
}

// An EndFlow is the mean velocity through the port of one end, in at its greatest
// opening to steam and out at its greatest to exhaust; none where it never opens.
type EndFlow struct {
	Steam, Exhaust units.Speed

	// The engine speeds at which they are 6000 ft/min, from where the port throttles.
	SteamThrottles, ExhaustThrottles units.RotationalSpeed
}

// A PortLimit is a velocity through ports that is not to be exceeded.
type PortLimit struct {
	Name  string
	Speed units.Speed
	Refs  source.Refs
}

// throttling is Rankine's limit, the one between the others.
const throttling = 6000 * units.FootPerMinute

var (
	bournePort = source.Ref{Kind: source.Published, Title: "A Catechism of the Steam Engine, by J. Bourne",
		Edition: "new and revised edition", Locator: "Q. 320"}
	rankinePort = source.Ref{Kind: source.Published, Title: "Lineham, A Text-Book of Mechanical Engineering",
		Edition: "edition not seen", Locator: "p. 681", Note: "100 ft/s, after Rankine"}
	burrisPort = source.Ref{Kind: source.Published, Title: "How to Design a Slide Valve, by F. Burris",
		Edition: "a magazine, September and October 1972", Locator: "opening"}
)

// PortLimits returns the velocities at which books stop, the lowest first: 4000, 6000
// and 8000 ft/min. They are rules of practice and differ by two.
func PortLimits() []PortLimit {
	return []PortLimit{
		{"Bourne", 4000 * units.FootPerMinute, source.Shared(&bournePort)},
		{"Rankine", throttling, source.Shared(&rankinePort)},
		{"Burris", 8000 * units.FootPerMinute, source.Shared(&burrisPort)},
	}
}

// PortFlow returns how fast steam or air goes through the ports:
//
//	velocity = area of the piston * mean piston speed / (opening * port length)
//
//	opening   greatest of that end, to steam or to exhaust
//
// and the speed at which that is 6000 ft/min, 100 ft/s, which Rankine has as the limit;
// Bourne stops at 4000 and Burris at 8000 (see [PortLimits]). Above it the pressure in
// the cylinder is no longer that of the chest, and the cycle gives less than is
// computed here. Speed and the length of the ports must be there. See the Example.
func (r Running) PortFlow() (PortFlow, error) {
	if err := r.spinning(); err != nil {
		return PortFlow{}, err
	}
	if r.Gear.Ports.Length.IsZero() {
		return PortFlow{}, fail.Missing("port length", "above zero, across the travel; half to three quarters of the bore is usual")
	}
	m, long := r.model(), float64(r.Gear.Ports.Length.Picometres())*metres
	flow := PortFlow{PistonSpeed: r.meanPistonSpeed(), Limits: PortLimits()}
	through := func(area, opening float64) (units.Speed, units.RotationalSpeed) {
		if opening <= 0 {
			return 0, 0
		}
		v := units.Speed(float64(flow.PistonSpeed) * area / (opening * metres * long))
		return v, r.Speed * units.RotationalSpeed(throttling/v)
	}
	of := func(end kernel.End) (f EndFlow) {
		s := &m.ends[end]
		f.Steam, f.SteamThrottles = through(s.area, s.events.Opening)
		f.Exhaust, f.ExhaustThrottles = through(s.area, s.events.ExhaustOpening)
		return f
	}
	flow.Head, flow.Crank = of(kernel.Head), of(kernel.Crank)
	return flow, nil
}
