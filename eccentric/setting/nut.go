package setting

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Nut moves the valve along its spindle. The zero value is none: the valve is then
// set by any amount.
type Nut struct {
	Pitch units.Length // of the thread of the spindle
	// Places in which the nut seats in one turn: 2 of a flat one in a slot of the valve,
	// 4 of a square one, 6 of a hexagon. Zero: anywhere, as with two nuts that lock.
	Places int
}

// MostPlaces is more than any nut seats in.
const MostPlaces = 24

// IsZero reports whether there is none.
func (n Nut) IsZero() bool { return n == Nut{} }

// Validate reports a nut that cannot be as an [*units.ArgumentError].
func (n Nut) Validate() error {
	if err := fail.Above(fault.Named("pitch of the spindle", n.Pitch)); err != nil {
		return err
	}
	if n.Pitch.Cmp(units.MM(10)) > 0 {
		return fail.OutOfRange("pitch of the spindle", n.Pitch, "up to 10 mm")
	}
	if n.Places < 0 || n.Places > MostPlaces {
		return fail.OutOfRange("places of the nut", n.Places, "0 for anywhere, or from 1 to 24")
	}
	return nil
}

// Step returns the least by which the nut moves the valve; nothing where it seats
// anywhere.
func (n Nut) Step() units.Length {
	if n.Places == 0 {
		return units.Length{}
	}
	return n.Pitch.Scale(1 / float64(n.Places))
}

// A NutTurn is what a move of the valve asks of its nut.
type NutTurn struct {
	Turns    float64      // that the move is; the sign is the move's
	Set      float64      // that can be set, the nearest
	Moves    units.Length // by which that moves the valve
	Left     units.Length // of the move that it leaves undone; negative: too far
	MostLeft units.Length // that such a nut may leave of any move, half its step
	Finer    units.Length // pitch that would leave no move undone by more than 0.05 mm; zero: this one does not
}

// Set returns the turns of the nut for a move of the valve, and of those the nearest
// that can be set:
//
//	turns = move / pitch
//	set   = the nearest of 0, 1/places, 2/places ... , of two alike the smaller
//	left  = move - set*pitch
//
// A move is at most 1 m either way. It is geometry. See the Example.
func (n Nut) Set(move units.Length) (NutTurn, error) {
	if err := n.Validate(); err != nil {
		return NutTurn{}, err
	}
	if move.Abs().Cmp(units.MM(1000)) > 0 {
		return NutTurn{}, fail.OutOfRange("move of the valve", move, "up to 1 m either way")
	}
	t := NutTurn{Turns: move.Ratio(n.Pitch) + 0}
	if n.Places == 0 {
		t.Set, t.Moves = t.Turns, move
		return t, nil
	}
	steps := math.Ceil(math.Abs(t.Turns)*float64(n.Places) - 0.5)
	t.Set = math.Copysign(steps/float64(n.Places), t.Turns) + 0
	t.Moves = n.Pitch.Scale(t.Set)
	t.Left = move.Sub(t.Moves)
	t.MostLeft = n.Step().Scale(0.5)
	least := units.Picometres(kernel.LeastMove)
	if t.MostLeft.Cmp(least) > 0 {
		t.Finer = least.Scale(2 * float64(n.Places))
	}
	return t, nil
}
