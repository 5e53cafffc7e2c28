package setting

import (
	"strings"

	"github.com/valvechest/valvechest/eccentric"
)

// Done returns what a step of a cure comes to on this engine, in a sentence: a turn of
// the sheave as an arc on its shaft, a move of the valve as turns of its nut, the
// nearest that can be set and what that leaves. It is blank for any other step, and
// where the shaft or the nut was not told. It fails only where [Nut.Set] does. See the
// Example.
func (s Setting) Done(step eccentric.Step) (string, error) {
	switch {
	case step.Turn != 0 && !s.Shaft.IsZero() && !strings.Contains(step.Text, " on a shaft of "+mm(s.Shaft)+","): // said already
		return "On this shaft of " + mm(s.Shaft) + " that is an arc of " + mmThou(arc(s.Shaft, step.Turn)) + ".", nil
	case step.Part == "valve" && step.Change == "moved on its rod" && !s.Nut.IsZero():
		turn, err := s.Nut.Set(step.Amount)
		if err != nil {
			return "", err
		}
		return "That is " + turn.String() + ".", nil
	}
	return "", nil
}
