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

// A TappedHole is a hole for a screw or stud, right through the metal or blind:
// one of Through and Blind is given.
type TappedHole struct {
	Thread   thread.Thread
	Material material.Material // that is tapped
	Through  units.Length      `json:",omitzero"` // thickness of the metal
	Blind    units.Length      `json:",omitzero"` // depth of the hole to its full diameter
	Tap      thread.Tap        `json:",omitzero"` // the last one into a blind hole; the second unless given
}

// A FullThread is the full thread that a tapped hole has, and what it is judged
// by.
type FullThread struct {
	Length    units.Length     // zero where a blind hole has none
	Turns     int              // whole turns in it
	Diameters float64          // Length in major diameters
	Blind     thread.BlindHole `json:",omitzero"` // zero of a hole right through
	Rule      StudLength       `json:",omitzero"` // zero of a pipe thread, which seals and goes by lengths of its own
	Findings  finding.List
	Refs      source.Refs
}

// FullThread returns the length of full thread in the hole and judges it by the
// rule for studs in its metal, [StudLength.Check]; what it lacks comes with how
// thick the metal or how deep the hole must be, rounded up to 0.1 mm. See
// [thread.Thread.ThreadInBlindHole] for a blind hole. Lengths are above zero.
func (h TappedHole) FullThread() (FullThread, error) {
	var full FullThread
	if err := h.Thread.Validate(); err != nil {
		return FullThread{}, err
	}
	switch through, blind := !h.Through.IsZero(), !h.Blind.IsZero(); {
	case through && blind:
		return FullThread{}, fail.Argument("tapped hole", "", "both a thickness and a depth", "one of them", units.ErrOutOfRange)
	case blind:
		hole, err := h.Thread.ThreadInBlindHole(h.Blind, h.lastTap())
		if err != nil {
			return FullThread{}, err
		}
		full.Length, full.Blind, full.Findings, full.Refs = hole.Thread, hole, hole.Findings, hole.Refs
	default:
		if err := fail.Above(fault.Named("thickness of the metal", h.Through)); err != nil {
			return FullThread{}, err
		}
		full.Length = h.Through
	}
	full.Turns = int(full.Length.Ratio(h.Thread.Pitch()))
	full.Diameters = full.Length.Ratio(h.Thread.Major())
	if h.Thread.Series().Pipe() {
		return full, nil
	}
	rule, err := StudLengthFor(h.Thread, RuleFor(h.Material))
	if err != nil {
		return FullThread{}, err
	}
	full.Rule, full.Refs = rule, full.Refs.With(rule.Refs)
	if len(full.Findings) == 0 {
		full.Findings = rule.Check(full.Length)
	}
	if len(full.Findings) == 0 {
		return full, nil
	}
	remedy, err := h.longer(rule.Engaged)
	if err != nil {
		return FullThread{}, err
	}
	for i := range full.Findings { // the same remedy with the sizes of this hole
		full.Findings[i].Remedies = []string{remedy}
	}
	return full, nil
}

func (h TappedHole) lastTap() thread.Tap {
	if h.Tap == 0 {
		return thread.SecondTap
	}
	return h.Tap
}

// longer says how deep the hole or how thick the metal must be for a length of
// full thread.
func (h TappedHole) longer(length units.Length) (string, error) {
	need, remedy := length, "Make the metal %s (%s) thick there, or put a nut behind the hole."
	if !h.Blind.IsZero() {
		hole, err := h.Thread.BlindHole(length, h.lastTap())
		if err != nil {
			return "", err
		}
		need, remedy = hole.Depth, "Drill the hole %s (%s) deep, or right through with a nut behind it."
	}
	need, err := need.Round(units.MM(0.1), units.Up)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf(remedy, need.Text(units.Millimetres, 2), need.Text(units.Inches, 3)), nil
}
