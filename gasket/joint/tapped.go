package joint

import (
	"cmp"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// ThreadStrips is the code of the finding that the studs pull the thread out of
// the part that they are screwed into.
const ThreadStrips finding.Code = "thread-strips"

// A Tapped part is what the studs of a joint are screwed into.
type Tapped struct {
	Thread   thread.Thread
	Material material.Material // of the part
	Engaged  units.Length      // full thread that a stud engages; zero: as the rule for studs in the material has it
	Most     units.Force       // that tightening may bring a stud to, as strength.Tightened has it; zero: the preload
}

// A Grip is what the thread in the part holds.
type Grip struct {
	Engaged  units.Length
	Strength units.Pressure // of the weakest condition of the material: it yields or, grey iron, breaks
	Strips   units.Force    // pull at which the thread of one stud strips
	Pull     units.Force    // that a stud comes to at most: tightened, with the pressure on
	Needed   units.Length   // engagement that bears Pull
	Findings finding.List
	Refs     source.Refs
}

// Grip judges whether the thread that the studs are screwed into bears them.
//
//	strips = min(s / 2 * An, proof / 2 * As) * Le
//	pull   = max(preload, most) + working
//
//	s       strength of the part; the proof strength is that of the stud
//	An, As  areas in which the threads of part and stud shear, per length engaged: strength.Joint
//	Le      the length engaged
//
// A stud takes up to all of the working load on top of its preload, the more the
// softer the gasket is. The finding is a danger where the pressure alone strips the
// thread, fails where the preload with it does, and cautions where only tightening
// by torque may. Lengths and forces are zero or above. A material without a figure
// of its strength is an error, and a stud load without proof load.
//
// Source: FED-STD-H28/2B, as [strength.Joint.Solve] has it. See the example.
func (l StudLoad) Grip(t Tapped) (Grip, error) {
	err := cmp.Or(zeroOrMore("most that tightening may bring", t.Most), fault.Positive(fail, "proof load of a stud", l.Proof),
		fail.Within(fault.Named("length engaged", t.Engaged)))
	if err == nil && t.Engaged.Sign() < 0 {
		err = fail.OutOfRange("length engaged", t.Engaged, "zero or more")
	}
	if err == nil && t.Material.Name == "" {
		err = fail.Missing("material that is tapped", "one with a strength")
	}
	if err != nil {
		return Grip{}, err
	}
	e, err := strength.Joint{Thread: t.Thread, StudOf: t.Material, NutOf: t.Material}.Solve()
	if err != nil {
		return Grip{}, err
	}
	g := Grip{Engaged: t.Engaged, Refs: e.Refs, Pull: max(l.Preload, t.Most) + l.Working}
	if g.Engaged.IsZero() {
		rule, err := strength.StudLengthFor(t.Thread, strength.RuleFor(t.Material))
		if err != nil {
			return Grip{}, err
		}
		g.Engaged, g.Refs = rule.Engaged, g.Refs.With(rule.Refs)
	}
	g.Strength = units.Pressure(float64(e.Breaks) / float64(strength.StressAreaOf(t.Thread).Area))
	// both were solved with the strength of the part; the stud has its own
	turn := min(e.NutStrips, e.StudStrips*(l.Proof/e.Breaks))
	g.Strips = turn * units.Force(g.Engaged.Ratio(t.Thread.Pitch())) // H28
	if g.Needed, err = units.Millimetres.Of(float64(g.Pull/turn) * t.Thread.Pitch().MM()); err != nil {
		return Grip{}, err
	}
	g.judge(l, t)
	return g, nil
}

func (g *Grip) judge(l StudLoad, t Tapped) {
	engaged := g.Engaged.Text(units.Millimetres, 2)
	f := finding.Finding{Code: ThreadStrips, Refs: g.Refs}
	switch {
	case l.Working >= g.Strips:
		f.Severity = finding.Danger
		f.Text = fmt.Sprintf("The pressure pulls each stud with %.0f N, and the thread in %s, %s engaged, strips at %.0f N: the cover comes off.",
			l.Working, t.Material.Name, engaged, g.Strips)
	case l.Preload+l.Working >= g.Strips:
		f.Severity = finding.Fails
		f.Text = fmt.Sprintf("The thread in %s, %s engaged, strips at %.0f N, and a stud comes to %.0f N, tightened and with the pressure on.",
			t.Material.Name, engaged, g.Strips, l.Preload+l.Working)
	case g.Pull >= g.Strips:
		f.Severity = finding.Caution
		f.Text = fmt.Sprintf("By torque alone a stud may come to %.0f N with the pressure on, and the thread in %s, %s engaged, strips at %.0f N.",
			g.Pull, t.Material.Name, engaged, g.Strips)
	default:
		return
	}
	f.Remedies = []string{
		fmt.Sprintf("Let the studs engage %.1f mm of full thread or more, in a deeper hole.", math.Ceil(g.Needed.MM()*10)/10),
		"Or take more or larger studs, and tighten each less.",
	}
	g.Findings = finding.List{f}
}
