package eccentric

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Room is the room of the piston between the covers of the cylinder, with the
// gear whose stroke it makes and whose valve moves with it when something is
// altered.
type Room struct {
	Gear    Gear
	Length  units.Length // between the faces of the covers' spigots, both joints metal to metal
	Piston  units.Length // its length over all that could strike: nut and rod end too
	Gaskets units.Length // thickness of all joints together: two of 0.25 mm are 0.5 mm; zero: none

	// Shift is how far the piston stands off towards the crank, at its dead
	// centres, from where it shares the room equally between both ends. Zero:
	// equally. WithHeadClearance sets it from what has been measured.
	Shift units.Length

	// Wear is how much nearer to a cover the piston may come by the play of the
	// main bearings and of both ends of the connecting rod before they are taken up.
	Wear units.Length

	// Least is the clearance to be left at each end when all is so worn. Zero: 1/64
	// in (0.4 mm), which is common practice.
	Least units.Length
}

// leastClearance is what small engines are given at each end at the least; common
// practice.
func leastClearance() units.Length { return units.InchFraction(1, 64) }

// least returns the clearance that is to be left.
func (r *Room) least() units.Length {
	if r.Least.IsZero() {
		return leastClearance()
	}
	return r.Least
}

// Validate reports what no engine can have, as [*units.ArgumentError] joined: what
// [Gear.Validate] refuses, and sizes of the cylinder that do not go together. A
// piston that has no room is not refused; [Room.Check] says so.
func (r Room) Validate() error {
	problems := []error{r.Gear.Validate(), fail.Above(
		fault.Named("cylinder length", r.Length), fault.Named("piston length", r.Piston))}
	for _, may := range []struct {
		field string
		value units.Length
	}{{"gaskets", r.Gaskets}, {"wear", r.Wear}, {"least clearance", r.Least}} {
		if may.value.Sign() < 0 {
			problems = append(problems, fail.OutOfRange(may.field, may.value, "zero or more"))
		}
	}
	for _, l := range []units.Length{r.Length, r.Piston, r.Gaskets, r.Wear, r.Least, r.Shift} {
		if math.Abs(count(l)) > kernel.Longest {
			return errors.Join(append(problems, absurd())...)
		}
	}
	if r.Piston.Sign() > 0 && r.Length.Sign() > 0 && r.Piston.Cmp(r.Length) >= 0 {
		problems = append(problems, fail.OutOfRange("piston length", r.Piston,
			"shorter than the cylinder between its covers, "+r.Length.String()))
	}
	return errors.Join(problems...)
}

// Clearance is what is left between the piston at its dead centre and the cover,
// at each end; negative where it strikes first.
type Clearance struct {
	Head, Crank units.Length

	// Shares of the swept volume that they are: the clearance over the stroke.
	// What the ports and passages hold comes to it.
	HeadShare, CrankShare float64
}

// Total returns both ends together: the free movement beyond the stroke.
func (c Clearance) Total() units.Length { return c.Head.Add(c.Crank) }

// At returns the clearance of one end, for [BothEnds] the smaller one.
func (c Clearance) At(end End) units.Length {
	switch end {
	case HeadEnd:
		return c.Head
	case CrankEnd:
		return c.Crank
	}
	return lesser(c.Head, c.Crank)
}

// Clearance returns the clearance at each end:
//
//	total = length + gaskets - stroke - piston
//	head  = total/2 + shift
//	crank = total/2 - shift
//
// It fails only where [Room.Validate] does. It is geometry. See the Example.
func (r Room) Clearance() (Clearance, error) {
	if err := r.Validate(); err != nil {
		return Clearance{}, err
	}
	return r.clearance(), nil
}

func (r *Room) total() units.Length {
	return r.Length.Add(r.Gaskets).Sub(r.Gear.Stroke).Sub(r.Piston)
}

func (r *Room) clearance() Clearance {
	total := r.total()
	c := Clearance{Head: total.Scale(0.5).Add(r.Shift)}
	c.Crank = total.Sub(c.Head)
	c.HeadShare, c.CrankShare = c.Head.Ratio(r.Gear.Stroke), c.Crank.Ratio(r.Gear.Stroke)
	return c
}

// WithHeadClearance returns the room with the piston where the clearance at the
// head end is the given one, as measured with the gaskets in or as drawn: half the
// difference of the two ends is its shift. One beyond 1 km is an error. See the
// Example of [Room.Clearance].
func (r Room) WithHeadClearance(head units.Length) (Room, error) {
	if err := r.Validate(); err != nil {
		return Room{}, err
	}
	if math.Abs(count(head)) > kernel.Longest {
		return Room{}, fail.OutOfRange("clearance at the head end", head, "up to 1 km")
	}
	r.Shift = head.Sub(r.total().Scale(0.5))
	return r, nil
}

// Altered returns the room after an alteration, with its piston and the valve of
// its gear moved; see [Gear.Altered], with which it fails, and its Example. It is
// geometry.
func (r Room) Altered(a Alteration) (Room, error) {
	if err := r.Validate(); err != nil {
		return Room{}, err
	}
	gear, err := r.Gear.Altered(a)
	if err != nil {
		return Room{}, err
	}
	r.Gear, r.Shift = gear, r.Shift.Sub(a.Shims).Sub(a.ConnectingRod)
	if err := r.Validate(); err != nil {
		return Room{}, err
	}
	return r, nil
}

// ToShare returns the alterations each of which shares the room equally between
// the two ends, as they are set, to a hundredth of a millimetre. First the
// connecting rod longer or shorter, which leaves the valve where it is; then
// shims, with the eccentric rod altered against them so that the valve stays; then
// shims alone, which move the valve too. There are none where the ends differ by
// less than twice 0.05 mm, which nobody sets. Shims below zero are taken out, or the
// cylinder is packed up by as much instead. It fails only where [Room.Validate]
// does. See the Example of [Room.Clearance].
func (r Room) ToShare() ([]Alteration, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	return r.toShare(), nil
}

func (r *Room) toShare() []Alteration {
	if r.Shift.Abs().Cmp(leastMove) < 0 {
		return nil
	}
	by := r.Shift
	if set, err := by.Round(units.Micron(10), units.Nearest); err == nil {
		by = set
	}
	var ways []Alteration
	for _, a := range []Alteration{
		{ConnectingRod: by}, {Shims: by, EccentricRod: by.Neg()}, {Shims: by},
	} {
		if _, err := r.Altered(a); err == nil {
			ways = append(ways, a)
		}
	}
	return ways
}
