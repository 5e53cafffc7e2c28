package strength

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Stud holds a cover with a nut.
type Stud struct {
	Thread thread.Thread
	Cover  units.Length // thickness that the stud passes, with the washer if there is one
	Gasket units.Length `json:",omitzero"` // its thickness when it is pressed

	// Nut is the height of the nut; zero takes that of the ordinary nut,
	// [thread.Thread.NutHeight].
	Nut units.Length `json:",omitzero"`

	// Engaged is the length in the hole; zero takes that of the rule for studs in
	// Material, which the stud is screwed into.
	Engaged  units.Length      `json:",omitzero"`
	Material material.Material `json:",omitzero"`

	// Hole is the full thread that the hole has, [thread.BlindHole.Thread]; zero where
	// that is not known. By the rule a stud goes in no farther.
	Hole units.Length `json:",omitzero"`
}

// StudTooLong is the finding of [Stud.Length]: the hole has less thread than the stud
// is to go in.
const StudTooLong finding.Code = "stud-too-long"

// A CutStud is how long to cut a stud.
type CutStud struct {
	Length       units.Length
	Engaged, Nut units.Length // as given or found
	Beyond       units.Length // the nut: one and a half turns
	Outer        units.Length // thread on the outer end, at the least: the nut and Beyond
	Turns        int          // whole turns in Engaged
	Findings     finding.List // that Engaged is more than the hole has, or less than the rule asks for
	Refs         source.Refs
}

var beyondRef = source.Ref{Kind: source.CommonPractice, Note: "one and a half turns of a stud stand out of its nut"}

// Length returns how long to cut the stud.
//
//	length = engaged + gasket + cover + nut + 1.5 * p
//
//	p  pitch
//
// Engaged that is given is judged by the rule for its material, [StudLength.Check].
// The hole must hold it with the lead of the tap and the chips:
// [TappedHole.FullThread]. Lengths are above zero, that of the gasket zero or above,
// and up to 1 m.
//
// Source: the nut's standard, and common practice.
func (s Stud) Length() (CutStud, error) {
	if err := s.Thread.Validate(); err != nil {
		return CutStud{}, err
	}
	if err := fail.Above(fault.Named("thickness of the cover", s.Cover)); err != nil {
		return CutStud{}, err
	}
	cut := CutStud{
		Engaged: s.Engaged, Nut: s.Nut, Beyond: s.Thread.Pitch().Scale(1.5), Refs: source.Shared(&beyondRef),
	}
	for _, l := range []struct {
		field string
		units.Length
	}{
		{"thickness of the gasket", s.Gasket}, {"height of the nut", s.Nut}, {"length engaged", s.Engaged},
		{"thickness of the cover", s.Cover}, {"full thread in the hole", s.Hole},
	} {
		if l.Sign() < 0 || l.Cmp(units.MM(1000)) > 0 {
			return CutStud{}, fail.OutOfRange(l.field, l.Length, "zero or above, up to 1 m")
		}
	}
	if s.Nut.IsZero() {
		nut, err := s.Thread.NutHeight()
		if err != nil {
			return CutStud{}, err
		}
		cut.Nut, cut.Refs = nut.Height.Max, cut.Refs.With(nut.Refs)
	}
	if s.Material.Name == "" && s.Engaged.IsZero() {
		return CutStud{}, fail.Missing("length engaged or material", "the length in the hole, or the material it is screwed into")
	}
	if s.Material.Name != "" {
		rule, err := StudLengthFor(s.Thread, RuleFor(s.Material))
		if err != nil {
			return CutStud{}, err
		}
		if s.Engaged.IsZero() {
			cut.Engaged = rule.Engaged
			if !s.Hole.IsZero() && s.Hole.Cmp(rule.Engaged) < 0 {
				cut.Engaged = s.Hole
			}
		}
		cut.Findings = rule.Check(cut.Engaged)
		cut.Refs = cut.Refs.With(rule.Refs)
	}
	if proud := cut.Engaged.Sub(s.Hole); !s.Hole.IsZero() && proud.Sign() > 0 {
		has := s.Hole.Text(units.Millimetres, 3)
		cut.Findings = append(finding.List{{
			Code: StudTooLong, Severity: finding.Fails,
			Text: fmt.Sprintf("The stud is to go %s into its hole, which has %s of full thread: it stops there and stands out %s too far.",
				cut.Engaged.Text(units.Millimetres, 3), has, proud.Text(units.Millimetres, 3)),
			Remedies: []string{"Drill and tap the hole deeper.", "Let the stud engage " + has + ", if that is enough."},
			Refs:     source.Shared(&beyondRef),
		}}, cut.Findings...)
	}
	cut.Turns = int(cut.Engaged.Ratio(s.Thread.Pitch()))
	cut.Outer = cut.Nut.Add(cut.Beyond)
	cut.Length = cut.Engaged.Add(s.Gasket).Add(s.Cover).Add(cut.Outer)
	return cut, nil
}
