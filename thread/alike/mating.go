package alike

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("alike")

// The findings of [Mate]. A bolt that belongs in its nut has none. One that runs
// loose is the dangerous one: what jams, or does not start, shows itself.
const (
	RunsLoose    finding.Code = "bolt-runs-loose"     // runs the whole engagement on part of the flanks
	Jams         finding.Code = "bolt-jams"           // starts, then locks within the engagement
	DoesNotStart finding.Code = "bolt-does-not-start" // the ridge is too thick for the groove at the first turn
	FallsThrough finding.Code = "bolt-falls-through"  // the bolt does not reach the nut's thread
)

// A Mating is a bolt of one thread tried in a nut of another.
type Mating struct {
	Bolt, Nut  thread.Thread
	PitchError units.Length // by which the bolt's pitch is longer than the nut's: lost at each turn
	Loosest    float64      // turns at which a loose pair locks; zero if it never starts or the pitches agree
	Snug       float64      // turns at which a pair at basic sizes locks; zero likewise
	Depth      float64      // share of the nut's depth of thread that the bolt reaches
	Findings   finding.List // one, or none for the same thread
	Refs       source.Refs
}

// Mix reports whether the two may be used together: only as the same thread, in
// form, diameter and pitch.
func (m Mating) Mix() bool { return len(m.Findings) == 0 && m.Bolt.Form() != 0 }

// String returns what becomes of the bolt in one line.
func (m Mating) String() string {
	if len(m.Findings) == 0 {
		return fmt.Sprintf("%v in %v: same thread", m.Bolt, m.Nut)
	}
	return m.Findings[0].Text
}

// Mate returns what becomes of a bolt of one thread in a nut of another, over
// an engagement of one diameter of the bolt.
//
//	play  = 2 * min over r of (groove of nut - ridge of bolt)
//	turns = 1 + play / |P - Q|
//
//	ridge   P/4 - (r - E/2) * tan A to either side at radius r, the groove likewise
//	E       pitch diameter
//	A       half the angle of thread
//	P, Q    the two pitches
//
// Snug is for basic sizes. Loosest adds the most that class 2 of Unified would
// allow on the pitch diameter, 2.6 times its tolerance; worn or home-cut threads
// go further. Tight by a few hundredths of play counts as a start only in the
// loose pair.
//
// Anything but the same thread is not to be mixed, however well it feels: the
// flanks of two angles touch along a line, two pitches at one turn, and a bolt
// that is loose strips without warning. Taper threads, and a pair of which one
// is more than twice the other, are an error. Source: geometry; the figure for
// looseness is from ASME B1.1.
func Mate(bolt, nut thread.Thread) (Mating, error) {
	for _, t := range []thread.Thread{bolt, nut} {
		if err := checkParallel(t); err != nil {
			return Mating{}, err
		}
	}
	if ratio := bolt.Major().Ratio(nut.Major()); ratio > 2 || ratio < 0.5 {
		return Mating{}, fail.OutOfRange("bolt", bolt.Designation()+" in "+nut.Designation(),
			"threads of which neither is twice the other")
	}
	b, n := profileOf(bolt), profileOf(nut)
	m := Mating{
		Bolt: bolt, Nut: nut, PitchError: bolt.Pitch().Sub(nut.Pitch()), Depth: sharedDepth(b, n),
		Refs: source.Shared(&loosenessRef),
	}
	snug, loose := axialPlay(b, n, 0), axialPlay(b, n, looseness(n))
	miss := math.Abs(m.PitchError.MM())
	if miss > 0 && loose >= 0 {
		m.Loosest = 1 + loose/miss
		if snug >= 0 {
			m.Snug = 1 + snug/miss
		}
	}
	say := func(code finding.Code, severity finding.Severity, format string, args ...any) {
		m.Findings = finding.List{{
			Code: code, Severity: severity, Refs: m.Refs,
			Text:     fmt.Sprintf("%v in %v: ", bolt, nut) + fmt.Sprintf(format, args...),
			Remedies: []string{"Do not mix them: change the bolt or the nut."},
		}}
	}
	switch {
	case bolt.Form() == nut.Form() && bolt.Major() == nut.Major() && bolt.Pitch() == nut.Pitch():
	case b.major <= n.minor:
		say(FallsThrough, finding.Fails, "the bolt does not reach the nut's thread and falls through.")
	case m.Depth == 0 || loose < 0 || b.major-looseness(n) > n.major+nutRootRoom*n.pitch:
		m.Loosest, m.Snug = 0, 0
		say(DoesNotStart, finding.Fails, "the bolt does not start.")
	case miss > 0 && m.Loosest < b.major/b.pitch:
		say(Jams, finding.Fails, "the bolt starts and jams within %.1f turns, %.3f mm out at each.", m.Loosest, miss)
	default:
		out := fmt.Sprintf("%.3f mm out at each turn", miss)
		switch angles := [...]float64{bolt.Form().Angle().Degrees(), nut.Form().Angle().Degrees()}; {
		case miss > 0:
		case math.Abs(angles[0]-angles[1]) > 0.01:
			out = fmt.Sprintf("of the same pitch and with flanks of %.4g degrees in %.4g", angles[0], angles[1])
		default:
			out = "of the same pitch"
		}
		say(RunsLoose, finding.Danger, "the bolt runs in but does not belong, on %.0f %% of the depth of thread,"+
			" %s. It may strip under load without warning.", 100*m.Depth, out)
	}
	return m, nil
}

// nutRootRoom is the room beyond the basic major diameter that the sharp root
// of a tapped thread leaves on the diameter, over the pitch: an eighth of the
// triangle's height at either end, for 60 degrees.
const nutRootRoom = 2 * 0.866 / 8

func checkParallel(t thread.Thread) error {
	if err := t.Validate(); err != nil {
		return err
	}
	if _, taper := t.Taper(); taper {
		return fail.Wrong("thread", t, "it is a taper thread", "parallel threads")
	}
	return nil
}

func profileOf(t thread.Thread) profile {
	return profile{
		major: t.Major().MM(), pitchDiameter: t.PitchDiameter().MM(), minor: t.Minor().MM(),
		pitch: t.Pitch().MM(), half: t.Form().Angle().Radians() / 2,
	}
}
