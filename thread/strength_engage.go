package thread

import (
	"cmp"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Joint is a stud or screw in a tapped hole or a nut.
type Joint struct {
	Thread    Thread
	Stud, Nut units.Pressure // tensile strengths of the two materials

	// Hole is the diameter that the nut was drilled or bored to. Zero takes
	// the largest minor diameter of its class.
	Hole units.Length

	// StudClass and NutClass are classes of [Thread.Limits]. Both blank is the
	// usual pair: 6g and 6H, 2A and 2B, BA normal and nut, Whitworth medium
	// and normal nut, 7e and 7H, 2G and 2G nut; basic sizes for a thread without
	// limits here.
	StudClass, NutClass string
}

// Engagement says how long the threads must engage for the stud to break
// before either of them strips.
type Engagement struct {
	Length      units.Length // the longer of the next two
	StudThreads units.Length // engagement at which the stud's threads hold as much as the stud
	NutThreads  units.Length // engagement at which the nut's threads do
	Turns       int          // whole turns that reach Length

	StudStrips units.Force // load that strips the stud's threads over one pitch of engagement
	NutStrips  units.Force // the same of the nut's threads
	Breaks     units.Force // load that breaks the stud: tensile strength times stress area

	Limits string     // where the sizes come from
	Ref    source.Ref // of the formula; from memory where the limits or the stress area are
}

// shearOfTensile is the share of its tensile strength at which H28 takes a
// thread to shear.
const shearOfTensile = 0.5

// Engagement returns the length of full threads that a joint needs so that
// the stud breaks rather than strips.
//
//	Le = 2 At / (pi Kn [1/2 + n tan A (Es - Kn)])            stud's threads
//	J  = (As Rs) / (An Rn),  Q = J Le                        nut's threads
//	As/Le = pi n Kn [1/(2n) + tan A (Es - Kn)]
//	An/Le = pi n Ds [1/(2n) + tan A (Ds - En)]
//
// with At the stress area, n the threads to the unit of length, A half the angle
// of thread, Kn the largest minor diameter of the nut, Es the least pitch
// diameter and Ds the least major diameter of the stud, En the largest pitch
// diameter of the nut, Rs and Rn the tensile strengths. A form of Le without the
// pitch goes round; it is the same only for a pitch of one. Threads are taken to
// shear at half the tensile strength, which is what the 2 in Le says, and to
// share the load. Count full threads only: add the chamfers, and a turn of
// screws that were run in with a die.
//
// Strengths are above zero. A hole beyond the stud's major diameter, or below
// the thread's minor diameter by more than an eighth of its depth, is an error.
//
// Source: FED-STD-H28/2B as Machinery's Handbook gives it; tan A stands for
// 0.57735 so that the formula serves 55 and 47.5 degree threads (derived).
// Checked against two published tables of shear areas and a worked example.
func (j Joint) Engagement() (Engagement, error) {
	for _, m := range []struct {
		name     string
		strength units.Pressure
	}{{"tensile strength of the stud", j.Stud}, {"tensile strength of the nut", j.Nut}} {
		if !(m.strength > 0) || math.IsInf(float64(m.strength), 0) {
			return Engagement{}, argument(m.name, m.strength.String(), "above zero", units.ErrOutOfRange)
		}
	}
	s, from, recalled, err := j.shear()
	if err != nil {
		return Engagement{}, err
	}
	area := j.Thread.StressArea()
	ref := source.Ref{Kind: source.Published, Title: "Machinery's Handbook, after FED-STD-H28", Edition: "24th edition", Locator: "stress areas and length of engagement of screw threads", Note: "read in a paraphrase; tan of half the angle for 0.57735"}
	switch {
	case recalled:
		ref.Kind = source.FromMemory
		ref.Note += "; limits " + from + " recalled in part"
	case area.Ref.Kind == source.FromMemory:
		ref.Kind = source.FromMemory
		ref.Note += "; formula of the stress area recalled"
	}
	pull := float64(j.Stud) * float64(area.Area)
	perMetreStud := shearOfTensile * float64(j.Stud) * s.stud()
	perMetreNut := shearOfTensile * float64(j.Nut) * s.nut()
	stud, errS := units.LengthMM(pull / perMetreStud * 1000)
	nut, errN := units.LengthMM(pull / perMetreNut * 1000)
	if errS != nil || errN != nil {
		return Engagement{}, argument("strengths", fmt.Sprintf("%v and %v", j.Stud, j.Nut), "strengths of one order of size", units.ErrOutOfRange)
	}
	e := Engagement{
		Length: stud, StudThreads: stud, NutThreads: nut,
		StudStrips: units.Force(perMetreStud * s.pitch), NutStrips: units.Force(perMetreNut * s.pitch), Breaks: units.Force(pull),
		Limits: from, Ref: ref,
	}
	if nut.Cmp(stud) > 0 {
		e.Length = nut
	}
	e.Turns = wholeTurns(e.Length, j.Thread.Pitch())
	return e, nil
}

// wholeTurns returns the turns that reach a length.
func wholeTurns(length, pitch units.Length) int {
	return int(math.Ceil(length.Ratio(pitch) - 1e-9))
}

// An EngagementRule is a rule of thumb for studs, by what they are screwed
// into. The zero value is no rule.
type EngagementRule int

// The rules of a trade handbook's note on studs.
const (
	BrassIronSteel  EngagementRule = iota + 1 // 1.25 diameters in brass, and in iron and steel below 160 Brinell
	OtherNonFerrous                           // 2.5 diameters in bronze, gunmetal, aluminium and the rest
)

var engagementRules = names.Set{Package: "thread", Type: "EngagementRule", Field: "rule of engagement", Texts: []string{BrassIronSteel: "brass, iron and steel", OtherNonFerrous: "other non-ferrous metal"}}

// ruledDiameters are the lengths of the rules in major diameters.
var ruledDiameters = [...]struct{ engaged, threaded float64 }{BrassIronSteel: {1.25, 1.5}, OtherNonFerrous: {2.5, 2.75}}

// String returns what the rule is for.
func (r EngagementRule) String() string { return engagementRules.Text(int(r)) }

// ParseEngagementRule returns the rule for what is named, in capitals or not;
// see [EngagementRule.String]. Another text is an [*units.ArgumentError] that
// lists the accepted ones.
func ParseEngagementRule(name string) (EngagementRule, error) {
	v, err := engagementRules.Value(name)
	return EngagementRule(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (r EngagementRule) MarshalText() ([]byte, error) { return engagementRules.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *EngagementRule) UnmarshalText(text []byte) error {
	return unmarshal(r, text, ParseEngagementRule)
}

// A RuledEngagement is what a rule of thumb asks for.
type RuledEngagement struct {
	Engaged  units.Length // stud in the hole
	Threaded units.Length // thread on the stud's end, and in the hole
	Turns    int          // whole turns that reach Engaged
	Ref      source.Ref
}

// EngagementByRule returns how deep a stud goes by rule of thumb.
//
//	engaged 1.25 d, threaded 1.5 d;  other non-ferrous 2.5 d and 2.75 d
//
// Source: a trade handbook's note on studs, common practice; other rules from 1
// to 2 diameters go round. The rule knows nothing of the stud's strength: set
// it beside [Joint.Engagement]. A rule that there is not is an
// [*units.ArgumentError].
func (t Thread) EngagementByRule(rule EngagementRule) (RuledEngagement, error) {
	if t.Form() == 0 {
		return RuledEngagement{}, noThread()
	}
	if !engagementRules.Known(int(rule)) {
		return RuledEngagement{}, engagementRules.Unknown(int(rule))
	}
	r := ruledDiameters[rule]
	engaged := t.Major().Scale(r.engaged)
	return RuledEngagement{
		Engaged: engaged, Threaded: t.Major().Scale(r.threaded), Turns: wholeTurns(engaged, t.Pitch()),
		Ref: source.Ref{Kind: source.CommonPractice, Note: "a trade handbook's note on studs"},
	}, nil
}

// shear returns the sizes of the joint in metres, where they come from, and
// whether any of them was recalled.
func (j Joint) shear() (s shear, from string, recalled bool, err error) {
	t := j.Thread
	if t.Form() == 0 {
		return shear{}, "", false, noThread()
	}
	s = shear{
		half: t.halfAngle(), pitch: t.Pitch().Metres(),
		studMajor: t.Major().Metres(), studPitch: t.PitchDiameter().Metres(),
		nutPitch: t.PitchDiameter().Metres(), nutMinor: t.Minor().Metres(),
	}
	from = "basic sizes"
	studClass, nutClass := j.StudClass, j.NutClass
	usual := studClass == "" && nutClass == ""
	if usual {
		studClass, nutClass = t.usualClasses()
	}
	if studClass == "" != (nutClass == "") {
		return shear{}, "", false, argument("classes of stud and nut", studClass+nutClass, "both or neither", units.ErrMissing)
	}
	if studClass != "" {
		stud, errStud := t.Limits(studClass)
		nut, errNut := t.Limits(nutClass)
		switch err := cmp.Or(errStud, errNut); {
		case err == nil && stud.External && !nut.External:
			s.studMajor, s.studPitch = stud.Major.Min.Metres(), stud.PitchDiameter.Min.Metres()
			s.nutPitch, s.nutMinor = nut.PitchDiameter.Max.Metres(), nut.Minor.Max.Metres()
			from = studClass + " in " + nutClass
			recalled = stud.Ref.Kind == source.FromMemory || nut.Ref.Kind == source.FromMemory
		case err == nil:
			return shear{}, "", false, argument("classes of stud and nut", studClass+", "+nutClass, "one of a screw and one of a nut", units.ErrUnknown)
		case !usual:
			return shear{}, "", false, err
		}
	}
	if !j.Hole.IsZero() {
		least := t.Minor().Sub(t.Major().Sub(t.Minor()).Scale(1.0 / 8))
		if j.Hole.Cmp(least) < 0 || j.Hole.Metres() >= s.studMajor {
			return shear{}, "", false, argument("hole for "+t.Designation(), j.Hole.String(), "from "+least.Text(units.Millimetres, 3)+" to below the stud's least major diameter", units.ErrOutOfRange)
		}
		s.nutMinor = j.Hole.Metres()
		from += ", hole as given"
	}
	return s, from, recalled, nil
}

// usualClasses returns the classes of ordinary screws and nuts, none where
// [Thread.Limits] has none.
func (t Thread) usualClasses() (stud, nut string) {
	switch {
	case t.Form() == FormISO:
		return "6g", "6H"
	case t.Form() == FormUnified:
		return "2A", "2B"
	case t.Form() == FormBA:
		return "normal", "nut"
	case t.Series() == BSW, t.Series() == BSF:
		return "medium", "normal nut"
	case t.Form() == FormTrapezoidal:
		return "7e", "7H"
	case t.Form() == FormAcme:
		return "2G", "2G nut"
	}
	return "", ""
}
