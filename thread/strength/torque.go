package strength

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Tightening asks for the torque that gives a pull, or the pull that a torque
// gives: give one of the two. This is the one place of the module where
// T = K F d is worked out.
type Tightening struct {
	Diameter units.Length // nominal diameter of the thread, its major diameter
	Factor   NutFactor    // from [NutFactors], [DryThreads], [OiledThreads], [Friction.NutFactor] or a test of one's own
	Torque   units.Torque `json:",omitzero"`
	Pull     units.Force  `json:",omitzero"` // preload of the stud
}

// A Tightened joint is a torque and the pull that it makes, with both ends of
// what the pull may be.
type Tightened struct {
	Torque           units.Torque
	Pull             units.Force // at the nut factor itself
	PullMin, PullMax units.Force
	Factor           NutFactor
	Refs             source.Refs
}

// String returns the torque and its pull in one line.
func (t Tightened) String() string {
	return fmt.Sprintf("%.3g N·m for %.0f N (%.0f to %.0f N)",
		t.Torque.In(units.NewtonMetre), t.Pull.In(units.Newton), t.PullMin.In(units.Newton), t.PullMax.In(units.Newton))
}

// Solve finds the torque or the pull, whichever was not given.
//
//	T = K * F * d
//
//	T  torque on the nut
//	K  nut factor
//	F  pull in the stud
//	d  nominal diameter
//
// Nine tenths of the torque go into friction, so that K, and with it the pull, is
// a guess, and the result has both ends of it. They come from the wider of two
// spreads, which tell of one thing and are not multiplied: that of K, where its
// source prints a range,
//
//	PullMin = T / (Kmax * d)
//	PullMax = T / (Kmin * d)
//
// and the scatter s of the pull from bolt to bolt at one K,
//
//	PullMin = (1 - s) * F
//	PullMax = (1 + s) * F
//
// It is no method for the joint of a boiler or a pressure vessel, which is for
// its code and a qualified person. K is from 0.05 to 0.5. Source: Shigley's
// Mechanical Engineering Design, 9th edition, chapter 8, p. 439, and every
// handbook of bolting; checked against published examples.
func (t Tightening) Solve() (Tightened, error) {
	if err := fail.Above(fault.Named("nominal diameter of the thread", t.Diameter)); err != nil {
		return Tightened{}, err
	}
	if err := t.Factor.Validate(); err != nil {
		return Tightened{}, err
	}
	d, k := t.Diameter.Metres(), t.Factor.K
	r := Tightened{Torque: t.Torque, Pull: t.Pull, Factor: t.Factor, Refs: t.Factor.Refs}
	switch {
	case t.Torque != 0 && t.Pull != 0:
		return Tightened{}, fail.Argument("torque and pull", t.Torque.String()+", "+t.Pull.String(), "both are given",
			"one of the two", units.ErrOutOfRange)
	case t.Torque == 0 && t.Pull == 0:
		return Tightened{}, fail.Missing("torque or pull", "one of the two, above zero")
	case t.Torque != 0:
		if err := fault.Positive(fail, "torque", t.Torque); err != nil {
			return Tightened{}, err
		}
		r.Pull = units.Force(float64(t.Torque) / (k * d))
	default:
		if err := fault.Positive(fail, "pull", t.Pull); err != nil {
			return Tightened{}, err
		}
		r.Torque = units.Torque(k * float64(t.Pull) * d) // Shigley, 9th edition, p. 439
	}
	low, high := t.Factor.spread()
	r.PullMin, r.PullMax = units.Force(low)*r.Pull, units.Force(high)*r.Pull
	return r, nil
}

// spread returns the ends of the pull as shares of it.
func (k NutFactor) spread() (low, high float64) {
	low, high = 1-k.Scatter, 1+k.Scatter
	if k.Max > 0 {
		low, high = math.Min(low, k.K/k.Max), math.Max(high, k.K/k.Min)
	}
	return low, high
}
