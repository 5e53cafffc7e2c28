package marking

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Turned is a gear with its sheave as it came out.
type Turned struct {
	Offset units.Length // of the sheave
	Missed units.Length // more than drawn; below zero, less

	// Kept is the gear with that sheave at the drawn angle of advance. Relaid has it
	// turned on the shaft until the mean lead is as drawn; where the travel does not
	// reach that, Reached is false and Relaid is Kept.
	Kept, Relaid eccentric.Gear
	Reached      bool
}

// AsTurned returns what a sheave of another offset makes of a gear:
//
//	travel = 2 * e * |lever ratio|
//
// A dial that goes over a reading in a turn of the sheave has e as half of it. The rest
// of the gear is as drawn; [eccentric.Gear.Events] of both tells what moves. An offset
// above zero; it fails too where [eccentric.Gear.Validate] does for the gear before or
// after. Geometry. See the Example.
func AsTurned(g eccentric.Gear, offset units.Length) (Turned, error) {
	drawn, err := g.Events()
	if err != nil {
		return Turned{}, err
	}
	if err := fail.Above(fault.Named("offset", offset)); err != nil {
		return Turned{}, err
	}
	t := Turned{Offset: offset, Missed: offset.Sub(g.EccentricOffset()), Kept: g}
	t.Kept.Travel = offset.Scale(2)
	if g.LeverRatio != 0 {
		t.Kept.Travel = t.Kept.Travel.Scale(math.Abs(g.LeverRatio)) // travel = 2 e |lever ratio|
	}
	if err := t.Kept.Validate(); err != nil {
		return Turned{}, err
	}
	t.Relaid = t.Kept
	if relaid, err := t.Kept.WithLead(drawn.MeanLead(), eccentric.BothEnds); err == nil {
		t.Relaid, t.Reached = relaid, true
	}
	return t, nil
}
