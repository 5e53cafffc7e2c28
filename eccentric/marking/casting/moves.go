package casting

import "github.com/valvechest/valvechest/units"

// A JawMove is how one jaw of a four-jaw chuck pushes the work, once its opposite is let
// back as far.
type JawMove struct {
	Jaw, Loosen int // the jaw that goes in, and its opposite; 1 at place 1, the others a quarter turn on each
	By          units.Length
	Turns       float64 // of the jaw's screw; zero without a pitch
}

// Moves returns the moves of a four-jaw chuck that bring the casting, held from outside, to
// the middle; the larger first, none where it lies there. The casting goes away from the
// side to which its middle lies, so that the jaw of that side pushes:
//
//	jaw 1 by x, or jaw 3 by -x; jaw 2 by y, or jaw 4 by -y
//
// A pitch of the jaws' screws above zero for the turns, or zero. Geometry. See the Example
// of [Casting.Centre].
func (l Lie) Moves(pitch units.Length) ([]JawMove, error) {
	if pitch.Sign() < 0 {
		return nil, fail.OutOfRange("pitch of the jaws' screws", pitch, "above zero; or zero, not known")
	}
	var moves []JawMove
	for i, by := range []units.Length{l.X, l.Y} {
		m := JawMove{Jaw: 1 + i, Loosen: 3 + i, By: by}
		if by.IsZero() {
			continue
		}
		if by.Sign() < 0 {
			m.Jaw, m.Loosen, m.By = 3+i, 1+i, by.Neg()
		}
		if !pitch.IsZero() {
			m.Turns = m.By.Ratio(pitch)
		}
		moves = append(moves, m)
	}
	if len(moves) == 2 && moves[1].By.Cmp(moves[0].By) > 0 {
		moves[0], moves[1] = moves[1], moves[0]
	}
	return moves, nil
}
