package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// SlotFor returns how long the slot of a slip eccentric is, from end to end, in
// which a stop pin turns from the place for one direction to that for the other:
//
//	slot = 180 degrees - 2*d + 2*asin(pin / (2*radius))
//
//	d        angle of advance
//	pin      diameter of the pin, and of the cutter that mills the slot
//	radius   of the circle on which the pin's centre turns
//
// It is the angle at the shaft between the lines that touch the slot's ends; the
// cutter itself is fed through 180 degrees - 2*d, as the pin goes. A pin that is not
// thinner than the radius, and an advance that leaves the pin no way to go or the
// slot no end, are an [*units.ArgumentError]. It is geometry. See the Example.
func (g Gear) SlotFor(pin, radius units.Length) (units.Angle, error) {
	ends, err := g.slotEnds(pin, radius)
	if err != nil {
		return 0, err
	}
	slot := halfTurn - 2*g.Advance + ends
	if !(slot > ends && slot < 2*halfTurn) {
		return 0, fail.OutOfRange("angle of advance", g.Advance,
			"below 90 degrees and, for ends that do not meet, above "+(ends/2-halfTurn/2).String())
	}
	return slot, nil
}

// WithSlot returns the gear with the angle of advance that a slot of the given
// length, from end to end, gives a slip eccentric both ways round:
//
//	d = (180 degrees - slot + 2*asin(pin / (2*radius))) / 2
//
// in the terms of [Gear.SlotFor], whose inverse it is. A slot that is not longer
// than the pin, or not shorter than 360 degrees, is an [*units.ArgumentError]. It
// is geometry. See the Example of [Gear.SlotFor].
func (g Gear) WithSlot(slot units.Angle, pin, radius units.Length) (Gear, error) {
	ends, err := g.slotEnds(pin, radius)
	switch {
	case err != nil:
		return Gear{}, err
	case !(slot > ends && slot < 2*halfTurn):
		return Gear{}, fail.OutOfRange("slot", slot, "longer than the pin, "+ends.String()+", and shorter than 360 degrees")
	}
	g.Advance = (halfTurn - (slot - ends)) / 2
	return g, nil
}

// slotEnds returns the angle by which a slot is longer than the way of its pin.
func (g Gear) slotEnds(pin, radius units.Length) (ends units.Angle, err error) {
	if err := g.Validate(); err != nil {
		return ends, err
	}
	if err := fail.Above(fault.Named("pin diameter", pin), fault.Named("radius of the pin's circle", radius)); err != nil {
		return ends, err
	}
	if pin.Cmp(radius) >= 0 {
		return ends, fail.OutOfRange("pin diameter", pin, "thinner than the radius of its circle, "+radius.String())
	}
	return 2 * units.Angle(math.Asin(pin.Ratio(radius)/2)), nil
}
