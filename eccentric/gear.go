package eccentric

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("eccentric")

// A Gear is all that fixes the motion of the valve and the ports it works on.
type Gear struct {
	Stroke        units.Length // of the piston
	ConnectingRod Rod          // between centres

	Travel       units.Length // full travel of the valve
	EccentricRod Rod          // between centres
	Advance      units.Angle  // angle of advance

	Ports Ports
	Valve Valve
	Chest units.Length // inside length of the chest along the travel, centred on the ports; zero: not given

	// LeverRatio is the movement of the valve for one of the eccentric rod
	// where a lever stands between them: negative for a lever that reverses
	// the motion, -1 for one of equal arms. Zero: no lever.
	//
	// The angle of advance d means the same whatever lies between the
	// eccentric and the valve; where the sheave goes does not, and
	// EccentricLead tells it:
	//
	//	                     outside admission     inside admission
	//	direct               leads by 90 + d       follows by 90 - d
	//	reversing lever      follows by 90 - d     leads by 90 + d
	//
	// What turns round the sheave turns round the sign of the terms in l of
	// the package comment too, and inside admission that of Offset, seen from
	// the port that is to open. With a lever r and l are those of the
	// eccentric times its ratio.
	LeverRatio float64

	// InsideAdmission is for a valve that admits past its inner edges, as most
	// piston valves do; steam then comes in by the middle port.
	InsideAdmission bool
}

// Ports are the openings in the port face, widths along the travel.
type Ports struct {
	Steam   units.Length // width of each port to the cylinder
	Bar     units.Length // width between a cylinder port and the middle port
	Exhaust units.Length // width of the middle port
	Length  units.Length // of the ports, across the travel; no event depends on it
}

// A Valve is a valve's working faces, along the travel.
type Valve struct {
	Length units.Length // over the outer edges: the steam edges of a slide valve
	Cavity units.Length // between the inner edges: the exhaust edges of a slide valve
	Offset units.Length // how far the valve is set off centre towards the crank
}

// Laps are how far the valve in mid position overlaps the edges of the cylinder
// ports.
type Laps struct {
	Steam   units.Length // S, on the side that admits
	Exhaust units.Length // E, on the side that exhausts; negative: clearance
}

// Laps returns the laps of the gear's valve on its ports. For a slide valve
//
//	S = (length - 2 steam - 2 bar - exhaust) / 2
//	E = (2 bar + exhaust - cavity) / 2
//
// and for inside admission the two change places.
func (g Gear) Laps() Laps {
	k := g.Kernel()
	steam, exhaust := k.Laps()
	return Laps{Steam: length(steam), Exhaust: length(exhaust)}
}

// ValveWith returns the slide valve that has the given laps on these ports:
//
//	length = exhaust + 2 bar + 2 steam + 2 S
//	cavity = exhaust + 2 bar - 2 E
func (p Ports) ValveWith(l Laps) Valve {
	bars := p.Bar.Scale(2).Add(p.Exhaust)
	return Valve{
		Length: bars.Add(p.Steam.Scale(2)).Add(l.Steam.Scale(2)),
		Cavity: bars.Sub(l.Exhaust.Scale(2)),
	}
}

// EccentricOffset returns the eccentricity of the sheave: half the travel of
// the valve, divided by the ratio of the lever if there is a sound one. A dial
// indicator on the turning sheave reads twice this.
func (g Gear) EccentricOffset() units.Length {
	offset := g.Travel.Scale(0.5)
	if g.LeverRatio != 0 && kernel.LeverSound(g.LeverRatio) {
		offset = offset.Scale(1 / math.Abs(g.LeverRatio))
	}
	return offset
}

// EccentricLead returns the angle by which the high point of the eccentric
// leads the crank in the direction of rotation, from -180 to 180 degrees;
// negative if it follows; [Gear] has the four cases under LeverRatio.
func (g Gear) EccentricLead() units.Angle {
	lead := g.Advance + 90*units.Degree
	if (g.LeverRatio < 0) != g.InsideAdmission {
		lead -= 180 * units.Degree
	}
	return units.Angle(math.Remainder(float64(lead), 2*math.Pi))
}

// TurnToReverse returns the angle by which to turn the eccentric on the shaft,
// in the direction in which the engine runs now, so that it does the same the
// other way round:
//
//	turn = 180 degrees - 2 d
//
// with the angle of advance d, from -180 to 180 degrees; in direct drive the high
// point passes the place opposite the crankpin. It is geometry and holds for any
// lever and either admission. Half a turn is right only with neither lap nor
// lead: it admits steam 2 d late, which a gear with the advance -d shows. See
// the Example.
func (g Gear) TurnToReverse() units.Angle {
	return units.Angle(math.Remainder(math.Pi-2*float64(g.Advance), 2*math.Pi))
}

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
	if g.Valve.Length.Sign() > 0 && g.Valve.Cavity.Cmp(g.Valve.Length) >= 0 {
		refuse(fail.OutOfRange("valve cavity", g.Valve.Cavity, "shorter than the valve, "+g.Valve.Length.String()))
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
		count(g.Valve.Length), count(g.Valve.Offset), -count(g.Valve.Offset))
}

// Kernel returns the gear in plain numbers, for the packages under this one.
func (g Gear) Kernel() kernel.Gear {
	var k kernel.Gear
	g.set(&k)
	return k
}

func (g *Gear) set(k *kernel.Gear) {
	k.Stroke, k.ConnectingRod = count(g.Stroke), g.ConnectingRod.count()
	k.Travel, k.EccentricRod, k.Advance = count(g.Travel), g.EccentricRod.count(), float64(g.Advance)
	k.SteamPort, k.Bar, k.MiddlePort = count(g.Ports.Steam), count(g.Ports.Bar), count(g.Ports.Exhaust)
	k.ValveLength, k.Cavity, k.Offset = count(g.Valve.Length), count(g.Valve.Cavity), count(g.Valve.Offset)
	k.Chest, k.Lever, k.Inside = count(g.Chest), g.LeverRatio, g.InsideAdmission
}

func count(l units.Length) float64 { return float64(l.Picometres()) }

// length is the inverse of count, to the nearest picometre.
func length(v float64) units.Length { return units.Picometres(int64(v + math.Copysign(0.5, v))) }
