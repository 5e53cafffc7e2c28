package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Gear is all that fixes the motion of the valve and the ports it works on.
type Gear struct {
	Stroke        units.Length // of the piston
	ConnectingRod Rod          // between centres

	Travel       units.Length // full travel of the valve
	EccentricRod Rod          // between centres
	Advance      units.Angle  // angle of advance

	Ports Ports
	Valve Valve
	Chest units.Length // inside length of the chest along the travel, centred on the middle port; zero: not given

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

// Ports are the openings in the port face, widths along the travel. The middle of
// the middle port is the middle of the face.
type Ports struct {
	Steam   units.Length // width of each port to the cylinder
	Bar     units.Length // width between a cylinder port and the middle port
	Exhaust units.Length // width of the middle port
	Length  units.Length // of the ports, across the travel; no event depends on it

	CrankSteam units.Length `json:",omitzero"` // width of the crank end's port where it differs; zero: as at the head end
	CrankBar   units.Length `json:",omitzero"` // and of its bar
}

// At returns the widths of one end's port to the cylinder and of its bar, or for
// [BothEnds] the mean of both ends. See the Example of [Gear.LapsAt].
func (p Ports) At(end End) (steam, bar units.Length) {
	crankSteam, crankBar := p.CrankSteam, p.CrankBar
	if crankSteam.IsZero() {
		crankSteam = p.Steam
	}
	if crankBar.IsZero() {
		crankBar = p.Bar
	}
	switch end {
	case HeadEnd:
		return p.Steam, p.Bar
	case CrankEnd:
		return crankSteam, crankBar
	}
	return p.Steam.Add(crankSteam).Scale(0.5), p.Bar.Add(crankBar).Scale(0.5)
}

// A Valve is a valve's working faces, along the travel, and how it follows what
// drives it. See the Example.
type Valve struct {
	Length units.Length // over the outer edges: the steam edges of a slide valve
	Cavity units.Length // between the inner edges: the exhaust edges of a slide valve
	Offset units.Length // how far the valve is set off centre towards the crank

	CavityOffset units.Length `json:",omitzero"` // of the middle of the cavity from the middle of the valve, towards the crank

	// LostMotion is what the valve does not follow of what drives it, in all its
	// joints together and measured at the valve, from push to pull. The valve is
	// late by half of it each way, at rest at each turn until it is taken up, and
	// moves by all of it less than Gear.Travel, which is the travel without it.
	LostMotion units.Length `json:",omitzero"`
}

// Laps are how far the valve in mid position overlaps the edges of the cylinder
// ports.
type Laps struct {
	Steam   units.Length // S, on the side that admits
	Exhaust units.Length // E, on the side that exhausts; negative: clearance
}

// Laps returns the laps of the gear's valve on its ports. For a slide valve
//
//	S = (length - 2*steam - 2*bar - exhaust) / 2
//	E = (2*bar + exhaust - cavity) / 2
//
// and for inside admission the two change places. Of a gear whose ends differ it
// is the mean of both ends; [Gear.LapsAt] has each. It is geometry. See the Example.
func (g Gear) Laps() Laps { return g.LapsAt(BothEnds) }

// LapsAt returns the laps of one end, or for [BothEnds] the mean of both. For a
// slide valve
//
//	S = length/2 - (exhaust/2 + bar + steam)
//	E = exhaust/2 + bar + c - cavity/2
//
//	steam, bar   of that end
//	c            CavityOffset at the head end, -CavityOffset at the crank end
//
// and for inside admission the two change places. It is geometry. See the Example.
func (g Gear) LapsAt(end End) Laps {
	k := g.Kernel()
	steam, exhaust := k.Laps(kernel.End(end))
	return Laps{Steam: length(steam), Exhaust: length(exhaust)}
}

// ValveWith returns the slide valve that has the given laps on these ports:
//
//	length = exhaust + 2*bar + 2*steam + 2*S
//	cavity = exhaust + 2*bar - 2*E
//
// Where the ports of the two ends differ these are the means of both ends. It is
// geometry. See the Example.
func (p Ports) ValveWith(l Laps) Valve {
	steam, bar := p.twice()
	bars := bar.Add(p.Exhaust)
	return Valve{
		Length: bars.Add(steam).Add(l.Steam.Scale(2)),
		Cavity: bars.Sub(l.Exhaust.Scale(2)),
	}
}

// twice returns the widths of both cylinder ports together, and of both bars.
func (p Ports) twice() (steam, bar units.Length) {
	crankSteam, crankBar := p.At(CrankEnd)
	return p.Steam.Add(crankSteam), p.Bar.Add(crankBar)
}

// EccentricOffset returns the eccentricity of the sheave: half the travel of
// the valve, divided by the ratio of the lever if there is a sound one. A dial
// indicator on the turning sheave reads twice this. See the Example of
// [Gear.EccentricLead].
func (g Gear) EccentricOffset() units.Length {
	offset := g.Travel.Scale(0.5)
	if g.LeverRatio != 0 && kernel.LeverSound(g.LeverRatio) {
		offset = offset.Scale(1 / math.Abs(g.LeverRatio))
	}
	return offset
}

// EccentricLead returns the angle by which the high point of the eccentric
// leads the crank in the direction of rotation, from -180 to 180 degrees;
// negative if it follows; [Gear] has the four cases under LeverRatio. It and the
// other methods without an error are for gears that [Gear.Validate] accepts; an
// advance that is not finite counts as none. See the Example.
func (g Gear) EccentricLead() units.Angle {
	lead := inTurn(g.Advance) + 90*units.Degree
	if g.follows() {
		lead -= 180 * units.Degree
	}
	return inTurn(lead)
}

// WithEccentricAt returns the gear whose eccentric stands there: the angle by which
// its high point leads the crank in the direction of rotation, from -180 to 180
// degrees, negative if it follows. It is the inverse of [Gear.EccentricLead], with
// the lever and the admission that the gear has:
//
//	d = stands - 90 degrees    direct, or a reversing lever with inside admission
//	d = stands + 90 degrees    a reversing lever, or inside admission
//
// and d, the angle of advance, from -180 to 180 degrees. It fails only where
// [Gear.Validate] does or the angle is out of range. It is geometry. See the
// Example.
func (g Gear) WithEccentricAt(stands units.Angle) (Gear, error) {
	if err := g.Validate(); err != nil {
		return Gear{}, err
	}
	if !(math.Abs(float64(stands)) <= math.Pi) {
		return Gear{}, fail.OutOfRange("place of the eccentric", stands,
			"from -180 to 180 degrees ahead of the crank in the direction of rotation")
	}
	ahead := 90 * units.Degree
	if g.follows() {
		ahead = -ahead
	}
	g.Advance = inTurn(stands - ahead)
	return g, nil
}

// follows reports whether the eccentric follows the crank by 90 degrees less the
// advance.
func (g *Gear) follows() bool { return (g.LeverRatio < 0) != g.InsideAdmission }

// inTurn returns the angle of -180 to 180 degrees that points the same way, and
// nothing, without a sign, for one that is not finite.
func inTurn(a units.Angle) units.Angle {
	v := math.Remainder(float64(a), 2*math.Pi)
	if math.IsNaN(v) || v == 0 {
		return 0
	}
	return units.Angle(v)
}

// TurnToReverse returns the angle by which to turn the eccentric on the shaft,
// in the direction in which the engine runs now, so that it does the same the
// other way round:
//
//	turn = 180 degrees - 2*d
//
// with the angle of advance d, from -180 to 180 degrees; in direct drive the high
// point passes the place opposite the crankpin. It is geometry and holds for any
// lever, either admission and lost motion, which is as much the other way. Half a
// turn is right only with neither lap nor lead: it admits steam 2 d late, which a
// gear with the advance -d shows. See the Example.
func (g Gear) TurnToReverse() units.Angle {
	return inTurn(halfTurn - 2*inTurn(g.Advance))
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
	k.CrankSteamPort, k.CrankBar = k.SteamPort, k.Bar
	if !g.Ports.CrankSteam.IsZero() {
		k.CrankSteamPort = count(g.Ports.CrankSteam)
	}
	if !g.Ports.CrankBar.IsZero() {
		k.CrankBar = count(g.Ports.CrankBar)
	}
	k.ValveLength, k.Cavity, k.Offset = count(g.Valve.Length), count(g.Valve.Cavity), count(g.Valve.Offset)
	k.CavityOffset, k.LostMotion = count(g.Valve.CavityOffset), count(g.Valve.LostMotion)
	k.Chest, k.Lever, k.Inside = count(g.Chest), g.LeverRatio, g.InsideAdmission
}

func count(l units.Length) float64 { return float64(l.Picometres()) }

// length is the inverse of count, to the nearest picometre.
func length(v float64) units.Length { return units.Picometres(int64(v + math.Copysign(0.5, v))) }
