package indicator

import (
	"fmt"
	"math"
	"time"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// An AirUse is the air that an engine takes, all its cylinders together, as free air:
// at the pressure of the atmosphere and as warm as in the chest. Below zero the gear
// is so wrong that the engine pumps air into the chest; then Min and Max are zero.
type AirUse struct {
	PerTurn      units.Volume
	Free         units.VolumeFlow // at the speed of the engine
	Min, Max     units.VolumeFlow // that a compressor should deliver, as free air
	Atmosphere   units.Pressure
	BlowsThrough bool // some goes straight from the chest to the exhaust, of which nothing here knows how much
	Refs         source.Refs
}

// Small engines leak past valve, piston and rod as much again as they use, and more:
// common practice.
const (
	leakyLeast = 2
	leakyMost  = 3
)

// AirUse returns the air that the engine takes at its speed:
//
//	V    = (ps*Vo - pb*Vk) / pa    of each end in a turn
//	Q    = n * V                   of all ends
//	Min  = 2 * Q, Max = 3 * Q
//
//	Vo, Vk      volumes at cut-off and at compression, clearance and all
//	ps, pb, pa  pressures in the chest, of the exhaust and of the atmosphere, absolute
//	n           turns in a given time
//
// in whatever order the events are: what is behind the piston as the port closes to
// steam less what was shut in before it opened. The air is taken to be as warm in the
// cylinder as in the chest. The speed must be given, and the medium be air. A
// compressor must deliver more, by what small engines leak, two to three times as much:
// common practice. Source: mechanics; Sullivan's consumption of a cylinder is the
// case without pb and clearance. See the Example.
func (r Running) AirUse() (AirUse, error) {
	if err := r.on(Air); err != nil {
		return AirUse{}, err
	}
	m := r.model()
	turn, through := 0.0, false
	for _, end := range []kernel.End{kernel.Head, kernel.Crank} {
		turn += free(m.charge(end), m.rest(end), m.air)
		through = through || passes(m.ends[end].events) > nothing
	}
	turn *= float64(r.Cylinders())
	flow := turn * turns(r.Speed)
	return AirUse{
		PerTurn: units.Volume(turn), Free: units.VolumeFlow(flow),
		Min: units.VolumeFlow(leakyLeast * max(flow, 0)), Max: units.VolumeFlow(leakyMost * max(flow, 0)),
		Atmosphere: r.air(), BlowsThrough: through, Refs: source.Of(source.Practice()),
	}, nil
}

// on is spinning for a question about one medium.
func (r *Running) on(m Medium) error {
	if err := r.spinning(); err != nil {
		return err
	}
	if r.Medium != m {
		return fail.Wrong("medium", r.Medium, "is not what was asked about", m.String())
	}
	return nil
}

// turns returns how many turns a second a speed is.
func turns(speed units.RotationalSpeed) float64 { return speed.In(units.RevPerSecond) }

// A contents is what is behind the piston.
type contents struct{ pressure, volume float64 }

// free returns the volume at a pressure of what comes in, at one temperature.
func free(charge, rest contents, at float64) float64 {
	return (charge.pressure*charge.volume - rest.pressure*rest.volume) / at // (ps Vo - pb Vk) / pa
}

// charge is what is behind the piston as its port closes to steam; nothing where it
// never closes or never opens.
func (m *model) charge(end kernel.End) contents {
	s := &m.ends[end]
	if s.events.Steam != kernel.OpensAndCloses {
		return contents{}
	}
	return contents{s.cycle.Chest, (s.cycle.Clearance + s.events.CutOff.Stroke) * s.area * m.stroke}
}

// rest is what was behind it when the port had last been closed before it opens to
// steam, or as it opens, where it is open to exhaust up to then.
func (m *model) rest(end kernel.End) contents {
	s := &m.ends[end]
	if s.events.Steam != kernel.OpensAndCloses {
		return contents{}
	}
	before := &s.round.Arcs[s.round.Of-1] // the first is the one open to steam
	if before.State == kernel.Shut {
		return contents{before.Pressure, before.Volume * s.area * m.stroke}
	}
	return contents{s.cycle.Back, (s.cycle.Clearance + s.events.Admission.Stroke) * s.area * m.stroke}
}

// Lasts returns how long a receiver runs the engine while its pressure falls, with a
// compressor at work beside it or not:
//
//	t = V * (p1 - p2) / (pa * (Q - Q1))
//
//	V       volume of the receiver, above zero
//	p1, p2  its pressure before and after, above the atmosphere, p1 the greater
//	Q       free air that goes out, Max of the [AirUse]: with what small engines leak
//	Q1      free air that the compressor delivers, zero for none
//
// Zero stands for as long as the compressor runs: it delivers all there is need of.
// The air is taken to stay as warm as it was. Source: mechanics; Sullivan's example
// 16.4. See the Example of [Running.AirUse].
func (a AirUse) Lasts(
	receiver units.Volume, from, to units.Pressure, delivered units.VolumeFlow,
) (time.Duration, error) {
	if err := fault.Positive(fail, "volume of the receiver", receiver); err != nil {
		return 0, err
	}
	if !(from > to && to >= 0 && from <= mostReceiver) {
		return 0, fail.OutOfRange("pressures of the receiver", fmt.Sprintf("%v to %v", from, to),
			"from the higher to the lower, both from 0 to 400 bar above the atmosphere")
	}
	if !(delivered >= 0 && !math.IsInf(float64(delivered), 0)) {
		return 0, fail.OutOfRange("air that the compressor delivers", delivered, "zero or more")
	}
	if !(a.Max > 0 && a.Atmosphere > 0) {
		return 0, fail.OutOfRange("air that the engine takes", a.Max, "above zero, as Running.AirUse gives it")
	}
	if delivered >= a.Max {
		return 0, nil
	}
	return lasts(receiver, from-to, a.Atmosphere, a.Max-delivered)
}

const mostReceiver = 400 * units.Bar

func lasts(receiver units.Volume, fall, atmosphere units.Pressure, out units.VolumeFlow) (time.Duration, error) {
	seconds := float64(receiver) * float64(fall) / (float64(atmosphere) * float64(out)) // t = V (p1 - p2) / (pa Q)
	if !(seconds <= mostSeconds) {
		return 0, fail.OutOfRange("time that the receiver lasts", fmt.Sprintf("%.3g s", seconds), "up to a year")
	}
	return time.Duration(seconds * float64(time.Second)), nil
}

const mostSeconds = 365 * 24 * 3600
