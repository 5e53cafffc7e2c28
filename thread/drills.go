package thread

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Choice is a drill for a tapping hole and what becomes of the thread.
type Choice struct {
	Drill    gauge.Size
	Depth    float64 // share of a full thread, on Basis
	Basis    Basis
	PerPitch float64      // depth of a full thread on the diameter, in pitches
	Over     units.Length // drill less the hole asked for: positive is the larger, safer side
	Full     float64      // share of the full depth, by which it is judged
	Min, Max float64      // the shares of the full depth that suit
	Findings finding.List // one, or none where the drill suits and the usual class allows the hole
	Refs     source.Refs  // of the shares that suit
	Class    string       `json:",omitempty"` // of the usual nut, where it has limits: "6H"
	Allowed  Range        `json:",omitzero"`  // the minor diameter of that class
}

// Suits reports whether the drill leaves enough depth and spares the tap. A hole
// outside the limits of the usual class may suit work that is not gauged, which a
// note says.
func (c Choice) Suits() bool {
	worst, some := c.Findings.Worst()
	return c.Depth > 0 && (!some || worst == finding.Note)
}

// Gauged reports whether the usual class allows the hole, or has no limits.
func (c Choice) Gauged() bool { return c.Class == "" || c.Allowed.Contains(c.Drill.Diameter) }

// Verdict returns "suits", "suits, outside class 6H" or "suits, outside nut limits" where
// the usual class does not allow the hole, or what is wrong with the drill in a word or two, as the code of
// its finding says it; nothing for no choice.
func (c Choice) Verdict() string {
	switch {
	case c.Suits() && !c.Gauged():
		return "suits, outside " + Limits{Class: c.Class}.Name()
	case c.Suits():
		return "suits"
	case len(c.Findings) == 0:
		return ""
	}
	return strings.ReplaceAll(string(c.Findings[0].Code), "-", " ")
}

// String returns the choice in one line.
func (c Choice) String() string {
	text := fmt.Sprintf("%s: %.1f %% of %v", c.Drill.Name, 100*c.Depth, c.Basis)
	if c.Suits() {
		return text + fmt.Sprintf(", %s: from %.0f to %.0f %% of the full depth", c.Verdict(), 100*c.Min, 100*c.Max)
	}
	for _, f := range c.Findings {
		text += ". " + f.Text
	}
	return text
}

// The shares of the full depth that suit. They are common practice and no
// standard's: 85 % breaks no sharp tap in free-cutting metal. Taps below 3 mm, which
// are turned by hand, need more room in iron, steel and bronze and where the metal is
// not known, those below 2 mm in any metal. In hard metal a shallower thread is the
// price of a whole tap.
type depthLimits struct{ min, max float64 }

var depthPractice = source.Ref{Kind: source.CommonPractice}

// depthLimitsFor returns the limits for a thread in what the advice is for; the
// zero advice stands for a metal that is not known.
func depthLimitsFor(t Thread, advice DepthAdvice) depthLimits {
	switch {
	case advice.Hard:
		return depthLimits{0.45, 0.75}
	case t.major.Cmp(units.MM(2)) < 0, t.major.Cmp(units.MM(3)) < 0 && !advice.Free:
		return depthLimits{0.50, 0.80}
	}
	return depthLimits{0.50, 0.85}
}

// TappingDrills ranks the drills of a set for a cutting tap: first those that
// suit, the nearest to the wanted share of a full thread in front, of two
// equally near the larger; then the next one below, with the reason it is
// refused or risky, because it is what a hurried hand reaches for. When no drill
// suits, the nearest shallow, tight and too small ones are returned with their
// findings, and the answer is to buy one: [Thread.PlanDrill] says which. Forming
// taps take another hole: see [Thread.FormingHole].
//
// The share is checked as in [Thread.TappingHole]. An empty set, or one with no
// drill below the major diameter and above half of it, is an error.
func (t Thread) TappingDrills(set gauge.Set, share float64, basis Basis) ([]Choice, error) {
	return t.rank(set, share, basis, depthLimitsFor(t, DepthAdvice{}), false)
}

// TappingDrillsIn is [Thread.TappingDrills] with the depth and the limit that a
// material calls for; the choices are on the full depth. In hard metal, and for
// threads below 3 mm in any metal, a drill smaller than the hole for the most
// depth advised ranks behind all that are not. The three-quarter height of the
// advice is read as 1.2990 pitches on the diameter for every form.
func (t Thread) TappingDrillsIn(m material.Material, set gauge.Set) ([]Choice, error) {
	advice, err := AdvisedDepthFor(m)
	if err != nil {
		return nil, err
	}
	share, basis, err := t.advisedShare(advice)
	if err != nil {
		return nil, err
	}
	return t.rank(set, share, basis, depthLimitsFor(t, advice), t.careful(advice))
}

// careful reports whether the larger drill is always the better one.
func (t Thread) careful(advice DepthAdvice) bool { return advice.Hard || t.major.Cmp(units.MM(3)) < 0 }

// advisedShare returns the share of the full depth that the advice asks for: the
// middle of its range, or with care its most.
func (t Thread) advisedShare(advice DepthAdvice) (float64, Basis, error) {
	full, err := t.fullOn(FullDepth)
	if err != nil {
		return 0, 0, err
	}
	return t.advised(advice) * threeQuarters / full, FullDepth, nil
}

// advised returns the share of three quarters of the height that is taken of the
// advice. It is no more than what suits.
func (t Thread) advised(advice DepthAdvice) float64 {
	share := (advice.Min + advice.Max) / 2
	if t.careful(advice) {
		share = advice.Max
	}
	if full, err := t.fullOn(FullDepth); err == nil {
		share = min(share, depthLimitsFor(t, advice).max*full/threeQuarters)
	}
	return share
}

// rank does the work of TappingDrills. When largerOnly is set, drills below the
// wanted hole come behind all that are not.
func (t Thread) rank(set gauge.Set, share float64, basis Basis, limits depthLimits, largerOnly bool) ([]Choice, error) {
	hole, err := t.TappingHole(share, basis)
	if err != nil {
		return nil, err
	}
	if set.Len() == 0 {
		return nil, fail.Missing("set of drills", "a set with at least one drill")
	}
	sizes, err := set.Between(t.major.Scale(0.5), t.major.Sub(units.Micron(1)))
	if err != nil {
		return nil, err
	}
	if len(sizes) == 0 {
		return nil, fail.Wrong("set of drills", "", "no drill near "+hole.Text(units.Millimetres, 2)+", the hole for "+t.name,
			"a drill from "+t.major.Scale(0.5).Text(units.Millimetres, 2)+" to below "+t.major.Text(units.Millimetres, 2))
	}
	var suited []Choice
	unsuited := map[finding.Code][]Choice{}
	for _, size := range sizes {
		c, err := t.judge(size, hole, basis, limits)
		if err != nil {
			return nil, err
		}
		if c.Suits() {
			suited = append(suited, c)
			continue
		}
		code := c.Findings[0].Code
		unsuited[code] = append(unsuited[code], c)
	}
	slices.SortStableFunc(suited, func(a, b Choice) int {
		if largerOnly && (a.Over.Sign() < 0) != (b.Over.Sign() < 0) {
			return cmp.Compare(b.Over.Sign(), a.Over.Sign())
		}
		return cmp.Or(a.Over.Abs().Cmp(b.Over.Abs()), b.Over.Cmp(a.Over))
	})
	// The sizes run upwards: the last tight or too small drill is the next one
	// below, the first shallow one the next above.
	choices := suited
	if shallow := unsuited[ShallowThread]; len(suited) == 0 && len(shallow) > 0 {
		choices = append(choices, shallow[0])
	}
	if tight, small := unsuited[TightDrill], unsuited[SmallDrill]; len(tight) > 0 {
		choices = append(choices, tight[len(tight)-1])
	} else if len(small) > 0 {
		choices = append(choices, small[len(small)-1])
	}
	return choices, nil
}

// CheckTappingDrill says what one drill does, whoever recommends it, on the
// given basis, in a metal that is not known. Errors are those of
// [Thread.DepthOfThread].
func (t Thread) CheckTappingDrill(drill gauge.Size, basis Basis) (Choice, error) {
	return t.judge(drill, drill.Diameter, basis, depthLimitsFor(t, DepthAdvice{}))
}

// CheckTappingDrillIn is [Thread.CheckTappingDrill] in a material; one for which
// there is no practice is taken as not known.
func (t Thread) CheckTappingDrillIn(m material.Material, drill gauge.Size, basis Basis) (Choice, error) {
	advice, err := AdvisedDepthFor(m)
	if err != nil {
		advice = DepthAdvice{}
	}
	return t.judge(drill, drill.Diameter, basis, depthLimitsFor(t, advice))
}

func (t Thread) judge(drill gauge.Size, hole units.Length, basis Basis, limits depthLimits) (Choice, error) {
	depth, err := t.DepthOfThread(drill.Diameter, basis)
	if err != nil {
		return Choice{}, err
	}
	full, err := t.DepthOfThread(drill.Diameter, FullDepth)
	if err != nil {
		return Choice{}, err
	}
	perPitch, err := t.fullOn(basis)
	if err != nil {
		return Choice{}, err
	}
	c := Choice{
		Drill: drill, Depth: depth, Basis: basis, PerPitch: perPitch, Over: drill.Diameter.Sub(hole),
		Full: full, Min: limits.min, Max: limits.max, Refs: source.Shared(&depthPractice),
	}
	say := func(code finding.Code, severity finding.Severity, format string, args ...any) {
		c.Findings = finding.List{{
			Code: code, Severity: severity, Text: fmt.Sprintf("Drill %s ", drill.Name) + fmt.Sprintf(format, args...),
			Refs: c.Refs,
		}}
	}
	switch {
	case drill.Diameter.Cmp(t.minor) < 0:
		say(SmallDrill, finding.Fails,
			"is below the minor diameter %s, over 100 %% of the internal height, and not for a cutting tap.",
			t.minor.Text(units.Millimetres, 3))
	case full > limits.max:
		say(TightDrill, finding.Caution,
			"leaves %.1f %% of the full depth, over the limit of %.0f %%, and the tap may break.",
			100*full, 100*limits.max)
	case full < limits.min/2:
		say(ShallowThread, finding.Fails, "leaves %.1f %% of the full depth, less than half of the %.0f %% that is usual: it strips.",
			100*full, 100*limits.min)
	case full < limits.min:
		say(ShallowThread, finding.Caution, "leaves %.1f %% of the full depth, less than %.0f %%: easy on the tap, and weak.",
			100*full, 100*limits.min)
	}
	if _, class := t.UsualClasses(); class != "" {
		if l, err := t.Limits(class); err == nil { // BA from 17 and the finest ISO pitches have none
			c.Class, c.Allowed = class, l.Minor
			if len(c.Findings) == 0 && !l.Minor.Contains(drill.Diameter) {
				say(OutsideClass, finding.Note, "is over the largest minor diameter of %s, %s: a gauge refuses the thread,"+
					" and it serves for work without one.", l.Name(), l.Minor.Max.Text(units.Millimetres, 3))
				c.Findings[0].Refs = l.Refs
			}
		}
	}
	return c, nil
}
