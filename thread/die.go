package thread

import (
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A DieBlank is the diameter that a rod is turned to before a die cuts its
// thread.
type DieBlank struct {
	Turn   units.Length // as common practice has it
	Middle units.Length `json:",omitzero"`  // of Limits, as makers of dies list it
	Class  string       `json:",omitempty"` // of the usual screw; none where it has no limits
	Limits Range        `json:",omitzero"`  // of the major diameter in that class
	Refs   source.Refs
}

var (
	dieRef = source.Ref{Kind: source.CommonPractice,
		Note: "a little under the middle of the limits, by a quarter of the tolerance, as a die raises the crests"}
	dieNominalRef = source.Ref{Kind: source.CommonPractice,
		Note: "nominal less 5 % of the pitch, as we have no limits for the thread"}
)

// DieBlank returns the diameter to turn before the die.
//
//	turn = (Max + Min) / 2 - (Max - Min) / 4     with limits of the usual class of screw
//	turn = D - 0.05 * p                          without
//
//	Max, Min  of the major diameter
//	D         major diameter
//	p         pitch
//
// It is rounded down to 0.01 mm, or to half a thou for inch threads. The middle
// itself is what makers of dies list; a die raises the crests, and a blank over the
// middle binds in it. The quarter is common practice, as are the 5 % for model
// engineer, brass, cycle and pipe threads, which have no limits here. A taper pipe
// is turned to its cone and is an error, as are traversing threads, which no die
// cuts in one pass.
func (t Thread) DieBlank() (DieBlank, error) {
	if err := t.Validate(); err != nil {
		return DieBlank{}, err
	}
	if _, taper := t.Taper(); taper || t.Form() == FormTrapezoidal || t.Form() == FormAcme {
		return DieBlank{}, fail.Argument("thread for a die", t.name, "is not cut by a die on a plain rod",
			"parallel threads but trapezoidal and Acme", units.ErrUnknown)
	}
	blank := DieBlank{Refs: source.Shared(&dieNominalRef)}
	blank.Turn = t.major.Sub(t.pitch.Scale(0.05))
	class, _ := t.UsualClasses()
	if l, err := t.Limits(class); class != "" && err == nil && !l.Major.Min.IsZero() && !l.Major.Max.IsZero() {
		blank.Middle, blank.Class, blank.Limits = l.Major.Min.Add(l.Major.Max).Scale(0.5), l.Class, l.Major
		blank.Turn = blank.Middle.Sub(l.Major.Max.Sub(l.Major.Min).Scale(0.25))
		blank.Refs = source.Shared(&dieRef).With(l.Refs)
	}
	step := units.MM(0.01)
	if t.tpi != 0 {
		step = units.Thou(0.5)
	}
	var err error
	blank.Turn, err = blank.Turn.Round(step, units.Down)
	return blank, err
}
