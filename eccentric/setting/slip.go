package setting

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A Slip is the stop of a slip eccentric: a pin in the slot of a collar, or the other
// way about. The zero value is none.
type Slip struct {
	Pin    units.Length // its diameter, that of the cutter too
	Radius units.Length // of the circle on which the pin's centre turns
	Slot   units.Angle  // that is milled, end to end; zero: none yet
}

// IsZero reports whether there is none.
func (s Slip) IsZero() bool { return s == Slip{} }

// A Stop is what the slot of a slip eccentric is to be, and what the one that is
// milled makes of the gear.
type Stop struct {
	Travel units.Angle // of the pin between its two places, and of the cutter: 180 degrees less twice the advance
	Slot   units.Angle // end to end

	Made *Milled // nil where no slot is milled yet
}

// Milled is what a slot that is there gives.
type Milled struct {
	Gear    eccentric.Gear // with the advance that the slot gives
	Events  eccentric.Events
	Longer  units.Angle  // to make the slot by, for the advance that is wanted; negative: it is too long by so much
	Packing units.Length // at the pin's circle on one end of a slot that is too long
}

// stop returns what the slot is to be.
func (s Slip) stop(g eccentric.Gear) (*Stop, error) {
	slot, err := g.SlotFor(s.Pin, s.Radius)
	if err != nil {
		return nil, err
	}
	stop := &Stop{Slot: slot, Travel: math.Pi - 2*g.Advance}
	if s.Slot == 0 {
		return stop, nil
	}
	made, err := g.WithSlot(s.Slot, s.Pin, s.Radius)
	if err != nil {
		return nil, err
	}
	events, err := made.Events()
	if err != nil {
		return nil, err
	}
	stop.Made = &Milled{Gear: made, Events: events, Longer: slot - s.Slot}
	if over := float64(s.Slot - slot); over > 0 {
		stop.Made.Packing = s.Radius.Scale(over)
	}
	return stop, nil
}
