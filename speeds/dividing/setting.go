package dividing

import (
	"fmt"
)

// A Setting is one move of the crank.
type Setting struct {
	Turns  int // whole turns
	Spaces int // and so many spaces
	Circle int // on the circle of so many holes; zero when whole turns are all
}

// Crank returns the move in turns.
func (s Setting) Crank() float64 {
	if s.Circle == 0 {
		return float64(s.Turns)
	}
	return float64(s.Turns) + float64(s.Spaces)/float64(s.Circle)
}

// String returns the move in words: "6 turns and 26 spaces on the 39 circle
// (sector over 27 holes)". A sector spans one hole more than there are spaces,
// which is the usual slip.
func (s Setting) String() string {
	turns := fmt.Sprintf("%d turns", s.Turns)
	if s.Turns == 1 {
		turns = "1 turn"
	}
	if s.Circle == 0 || s.Spaces == 0 {
		return turns
	}
	word := "spaces"
	if s.Spaces == 1 {
		word = "space"
	}
	spaces := fmt.Sprintf("%d %s on the %d circle (sector over %d holes)", s.Spaces, word, s.Circle, s.Spaces+1)
	if s.Turns == 0 {
		return spaces
	}
	return turns + " and " + spaces
}
