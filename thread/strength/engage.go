package strength

import (
	"cmp"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Joint is a stud or screw in a tapped hole or a nut. Its strengths are given
// by two figures or by two materials.
type Joint struct {
	Thread thread.Thread

	// Stud and Nut are the tensile strengths of the two metals. StudOf and NutOf
	// take their place by name: then each counts with the strength at which its
	// weakest condition yields or, grey iron, breaks, and the answer is the length
	// at which the stud yields before a thread does.
	Stud, Nut     units.Pressure    `json:",omitzero"`
	StudOf, NutOf material.Material `json:",omitzero"`

	// Hole is the diameter that the nut was drilled or bored to. Zero takes
	// the largest minor diameter of its class.
	Hole units.Length `json:",omitzero"`

	// StudClass and NutClass are classes of [thread.Thread.Limits]. Both blank is
	// the usual pair: 6g and 6H, 2A and 2B, BA normal and nut, Whitworth medium
	// and normal nut, 7e and 7H, 2G and 2G nut; basic sizes for a thread without
	// limits there.
	StudClass, NutClass string `json:",omitempty"`
}

// Engagement says how long the threads must engage for the stud to give way
// before either of them strips.
type Engagement struct {
	Length      units.Length // the longer of the next two
	StudThreads units.Length // engagement at which the stud's threads hold as much as the stud
	NutThreads  units.Length // engagement at which the nut's threads do
	Turns       int          // whole turns that reach Length

	StudStrips units.Force // load that strips the stud's threads over one pitch of engagement
	NutStrips  units.Force // the same of the nut's threads
	Breaks     units.Force // load at which the stud gives way: its strength times the stress area

	Limits string // which sizes were taken: "6g in 6H", "basic sizes"
	Refs   source.Refs
}

// shearOfTensile is the share of its tensile strength at which H28 takes a
// thread to shear.
const shearOfTensile = 0.5

var engageRef = source.Ref{
	Kind: source.Published, Title: "Machinery's Handbook, after FED-STD-H28", Edition: "24th edition",
	Locator: "stress areas and length of engagement of screw threads",
	Note:    "read in a paraphrase; tan of half the angle for 0.57735",
}

// Solve finds the length of full threads that a joint needs so that the stud
// breaks rather than strips.
//
//	Le    = 2*At / (pi*Kn * [1/2 + n*tan A * (Es - Kn)])     stud's threads
//	J     = (As*Rs) / (An*Rn),  Q = J*Le                     nut's threads
//	As/Le = pi*n*Kn * [1/(2*n) + tan A * (Es - Kn)]
//	An/Le = pi*n*Ds * [1/(2*n) + tan A * (Ds - En)]
//
//	At      stress area; see [StressAreaOf]
//	n       threads to the unit of length
//	A       half the angle of thread
//	Kn      largest minor diameter of the nut
//	En      largest pitch diameter of the nut
//	Es, Ds  least pitch and least major diameter of the stud
//	Rs, Rn  strengths of stud and nut
//
// A form of Le without the pitch goes round; it is the same only for a pitch of
// one. Threads are taken to shear at half the strength, which is what the 2 in Le
// says, and to share the load. Count full threads only: add the chamfers, and a
// turn of screws that were run in with a die.
//
// Strengths are above zero. A hole beyond the stud's major diameter, or below the
// thread's minor diameter by more than an eighth of its depth, is an error.
//
// Source: FED-STD-H28/2B as Machinery's Handbook gives it; tan A stands for
// 0.57735 so that the formula serves 55 and 47.5 degree threads (derived).
// Checked against two published tables of shear areas and a worked example.
func (j Joint) Solve() (Engagement, error) {
	if err := j.Thread.Validate(); err != nil {
		return Engagement{}, err
	}
	studStrength, nutStrength, refs, err := j.strengths()
	if err != nil {
		return Engagement{}, err
	}
	s, from, limits, err := j.shear()
	if err != nil {
		return Engagement{}, err
	}
	area := StressAreaOf(j.Thread)
	pull := float64(studStrength) * float64(area.Area)
	perMetreStud := shearOfTensile * float64(studStrength) * s.stud()
	perMetreNut := shearOfTensile * float64(nutStrength) * s.nut()
	stud, errS := units.Millimetres.Of(pull / perMetreStud * 1000) // Le of H28
	nut, errN := units.Millimetres.Of(pull / perMetreNut * 1000)   // Q of H28
	if errS != nil || errN != nil {
		return Engagement{}, fail.OutOfRange("strengths", studStrength.String()+" and "+nutStrength.String(),
			"strengths of one order of size")
	}
	e := Engagement{
		Length: stud, StudThreads: stud, NutThreads: nut,
		StudStrips: units.Force(perMetreStud * s.pitch), NutStrips: units.Force(perMetreNut * s.pitch),
		Breaks: units.Force(pull),
		Limits: from, Refs: source.Shared(&engageRef).With(area.Refs, limits, refs),
	}
	if nut.Cmp(stud) > 0 {
		e.Length = nut
	}
	e.Turns = wholeTurns(e.Length, j.Thread.Pitch())
	return e, nil
}

// strengths returns the strengths of stud and nut and, by material, their
// sources.
func (j Joint) strengths() (stud, nut units.Pressure, refs source.Refs, err error) {
	byName := j.StudOf.Name != "" || j.NutOf.Name != ""
	if byName && (j.Stud != 0 || j.Nut != 0) {
		return 0, 0, refs, fail.Argument("strengths of stud and nut", "", "figures and materials are given",
			"two tensile strengths, or two materials", units.ErrOutOfRange)
	}
	if !byName {
		err = cmp.Or(
			fault.Positive(fail, "tensile strength of the stud", j.Stud),
			fault.Positive(fail, "tensile strength of the nut", j.Nut),
		)
		return j.Stud, j.Nut, refs, err
	}
	studFigure, errStud := weakest(j.StudOf)
	nutFigure, errNut := weakest(j.NutOf)
	if errStud != nil {
		return 0, 0, refs, fault.Of("stud", errStud)
	}
	if errNut != nil {
		return 0, 0, refs, fault.Of("nut", errNut)
	}
	return studFigure.Min, nutFigure.Min, studFigure.Refs.With(nutFigure.Refs), nil
}

// wholeTurns returns the turns that reach a length.
func wholeTurns(length, pitch units.Length) int {
	return int(math.Ceil(length.Ratio(pitch) - 1e-9))
}

// shear returns the sizes of the joint in metres, which they are, and the sources
// of the limits.
func (j Joint) shear() (s shear, from string, refs source.Refs, err error) {
	t := j.Thread
	s = shear{
		half: halfAngle(t), pitch: t.Pitch().Metres(),
		studMajor: t.Major().Metres(), studPitch: t.PitchDiameter().Metres(),
		nutPitch: t.PitchDiameter().Metres(), nutMinor: t.Minor().Metres(),
	}
	from = "basic sizes"
	studClass, nutClass := j.StudClass, j.NutClass
	usual := studClass == "" && nutClass == ""
	if usual {
		studClass, nutClass = t.UsualClasses()
	}
	if studClass == "" != (nutClass == "") {
		return s, from, refs, fail.Argument("classes of stud and nut", studClass+nutClass, "one is missing",
			"both or neither", units.ErrMissing)
	}
	if studClass != "" {
		stud, errStud := t.Limits(studClass)
		nut, errNut := t.Limits(nutClass)
		switch err := cmp.Or(errStud, errNut); {
		case err == nil && stud.External && !nut.External:
			s.studMajor, s.studPitch = stud.Major.Min.Metres(), stud.PitchDiameter.Min.Metres()
			s.nutPitch, s.nutMinor = nut.PitchDiameter.Max.Metres(), nut.Minor.Max.Metres()
			from, refs = studClass+" in "+nutClass, stud.Refs.With(nut.Refs)
		case err == nil:
			return s, from, refs, fail.Unknown("classes of stud and nut", studClass+", "+nutClass,
				"one of a screw and one of a nut")
		case !usual:
			return s, from, refs, err
		}
	}
	if !j.Hole.IsZero() {
		least := t.Minor().Sub(t.Major().Sub(t.Minor()).Scale(1.0 / 8))
		if j.Hole.Cmp(least) < 0 || j.Hole.Metres() >= s.studMajor {
			return s, from, refs, fail.OutOfRange("hole for "+t.Designation(), j.Hole,
				"from "+least.Text(units.Millimetres, 3)+" to below the stud's least major diameter")
		}
		s.nutMinor = j.Hole.Metres()
		from += ", hole as given"
	}
	return s, from, refs, nil
}
