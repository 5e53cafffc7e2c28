package eccentric

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Gear is all that fixes the motion of the valve and the ports it works on.
type Gear struct {
	Stroke        units.Length // of the piston
	ConnectingRod units.Length // between centres; zero: infinitely long

	Travel       units.Length // full travel of the valve
	EccentricRod units.Length // between centres; zero: infinitely long
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
	bars := g.Ports.Bar.Add(g.Ports.Bar).Add(g.Ports.Exhaust)
	outer := g.Valve.Length.Sub(g.Ports.Steam.Add(g.Ports.Steam)).Sub(bars).Scale(0.5)
	inner := bars.Sub(g.Valve.Cavity).Scale(0.5)
	if g.InsideAdmission {
		return Laps{Steam: inner, Exhaust: outer}
	}
	return Laps{Steam: outer, Exhaust: inner}
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
	if g.LeverRatio != 0 && leverSound(g.LeverRatio) {
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
	if g.sound() {
		return nil
	}
	var problems []error
	refuse := func(field, value, problem, accepted string, err error) {
		problems = append(problems, &units.ArgumentError{Package: "eccentric", Field: field, Value: value, Problem: problem, Accepted: accepted, Err: err})
	}
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
			refuse(must.field, "", "missing or zero", "a length above zero", units.ErrMissing)
		case -1:
			refuse(must.field, must.value.String(), "", "a length above zero", units.ErrOutOfRange)
		}
	}
	absurd := g.longest() > longest
	if absurd {
		refuse("dimensions", "", "one of them is beyond 1 km", "lengths up to 1 km", units.ErrOutOfRange)
	}
	for _, may := range []struct {
		field string
		value units.Length
	}{{"port length", g.Ports.Length}, {"chest length", g.Chest}} {
		if may.value.Sign() < 0 {
			refuse(may.field, may.value.String(), "", "a length above zero, or none", units.ErrOutOfRange)
		}
	}
	if g.Stroke.Sign() > 0 && !rodReaches(g.ConnectingRod, g.Stroke, 1) {
		refuse("connecting rod", g.ConnectingRod.String(), "", "longer than half the stroke, "+g.Stroke.Scale(0.5).String()+", or none for infinitely long", units.ErrOutOfRange)
	}
	if g.Travel.Sign() > 0 && !absurd && leverSound(g.LeverRatio) && !rodReaches(g.EccentricRod, g.Travel, g.LeverRatio) {
		refuse("eccentric rod", g.EccentricRod.String(), "", "longer than the offset of the sheave, "+g.EccentricOffset().String()+", or none for infinitely long", units.ErrOutOfRange)
	}
	if g.Valve.Length.Sign() > 0 && g.Valve.Cavity.Cmp(g.Valve.Length) >= 0 {
		refuse("valve cavity", g.Valve.Cavity.String(), "", "shorter than the valve, "+g.Valve.Length.String(), units.ErrOutOfRange)
	}
	if !(math.Abs(float64(g.Advance)) <= math.Pi) {
		refuse("angle of advance", g.Advance.String(), "", "from -180 to 180 degrees", units.ErrOutOfRange)
	}
	if !leverSound(g.LeverRatio) {
		refuse("lever ratio", formatShare(g.LeverRatio), "", "from 0.1 to 10 either way, or zero for no lever", units.ErrOutOfRange)
	}
	return errors.Join(problems...)
}

// sound is Validate without the words, for the fast path.
func (g *Gear) sound() bool {
	return g.longest() <= longest && g.Stroke.Sign() > 0 && g.Travel.Sign() > 0 &&
		g.Ports.Steam.Sign() > 0 && g.Ports.Bar.Sign() > 0 && g.Ports.Exhaust.Sign() > 0 &&
		g.Ports.Length.Sign() >= 0 && g.Chest.Sign() >= 0 &&
		g.Valve.Cavity.Sign() > 0 && g.Valve.Cavity.Cmp(g.Valve.Length) < 0 &&
		leverSound(g.LeverRatio) && math.Abs(float64(g.Advance)) <= math.Pi &&
		rodReaches(g.ConnectingRod, g.Stroke, 1) && rodReaches(g.EccentricRod, g.Travel, g.LeverRatio)
}

const longest = 1e15 // picometres: 1 km, beyond which sums of lengths might not hold

// longest returns the greatest of the dimensions, in picometres.
func (g *Gear) longest() float64 {
	return max(count(g.Stroke), count(g.Travel), count(g.ConnectingRod), count(g.EccentricRod), count(g.Chest),
		count(g.Ports.Steam), count(g.Ports.Bar), count(g.Ports.Exhaust), count(g.Ports.Length),
		count(g.Valve.Length), count(g.Valve.Offset), -count(g.Valve.Offset))
}

func leverSound(ratio float64) bool {
	return ratio == 0 || math.Abs(ratio) >= 0.1 && math.Abs(ratio) <= 10
}

// rodReaches reports whether a rod is infinite or long enough to turn its crank
// over; the far end of a lever of the given ratio, if any, moves by travel.
func rodReaches(rod, travel units.Length, ratio float64) bool {
	if ratio == 0 {
		ratio = 1
	}
	return rod.IsZero() || 2*count(rod)*math.Abs(ratio) > count(travel)
}

// An End is an end of the cylinder.
type End int

// The ends of the cylinder.
const (
	BothEnds End = iota
	HeadEnd      // away from the crank
	CrankEnd
)

var endNames = names.Set{Package: "eccentric", Type: "End", Field: "end of the cylinder", Texts: []string{"both", "head", "crank"}}

// String returns "both", "head" or "crank".
func (e End) String() string { return endNames.Text(int(e)) }

// ParseEnd returns the end of that name, in capitals or not; see [End.String].
// Another text is an [*units.ArgumentError] that lists the accepted ones.
func ParseEnd(name string) (End, error) {
	v, err := endNames.Value(name)
	return End(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (e End) MarshalText() ([]byte, error) { return endNames.Marshal(int(e)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (e *End) UnmarshalText(text []byte) error { return names.Unmarshal(&endNames, e, text) }
