package thread

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A MatingVerdict says what becomes of a bolt of one thread in a nut of another.
// The zero value is no verdict.
type MatingVerdict int

// The verdicts, worst last but one: what jams shows itself, what runs loose
// does not.
const (
	SameThread   MatingVerdict = iota + 1 // one form, diameter and pitch: they belong together
	Jams                                  // starts, then locks within the engagement
	RunsLoose                             // runs the whole engagement on part of the flanks
	DoesNotStart                          // the ridge is too thick for the groove at the first turn
	FallsThrough                          // the bolt does not reach the nut's thread
)

var matingVerdicts = names.Set{Package: "thread", Type: "MatingVerdict", Field: "verdict on a bolt in a nut", Texts: []string{
	SameThread: "same thread", Jams: "jams", RunsLoose: "runs, but does not belong", DoesNotStart: "does not start", FallsThrough: "falls through",
}}

// String returns "same thread", "jams", "runs, but does not belong", "does not
// start" or "falls through".
func (v MatingVerdict) String() string { return matingVerdicts.Text(int(v)) }

// ParseMatingVerdict returns the verdict of that text, in capitals or not; see
// [MatingVerdict.String]. Another text is an [*units.ArgumentError] that lists
// the accepted ones.
func ParseMatingVerdict(name string) (MatingVerdict, error) {
	v, err := matingVerdicts.Value(name)
	return MatingVerdict(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (v MatingVerdict) MarshalText() ([]byte, error) { return matingVerdicts.Marshal(int(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *MatingVerdict) UnmarshalText(text []byte) error {
	return unmarshal(v, text, ParseMatingVerdict)
}

// A Mating is a bolt of one thread tried in a nut of another.
type Mating struct {
	Bolt, Nut  Thread
	PitchError units.Length // by which the bolt's pitch is longer than the nut's: lost at each turn
	Loosest    float64      // turns at which a loose pair locks; zero if it never starts or the pitches agree
	Snug       float64      // turns at which a pair at basic sizes locks; zero likewise
	Depth      float64      // share of the nut's depth of thread that the bolt reaches
	Verdict    MatingVerdict
}

// Mix reports whether the two may be used together: only as the same thread.
func (m Mating) Mix() bool { return m.Verdict == SameThread }

// String returns the verdict with its figures in one line.
func (m Mating) String() string {
	text := fmt.Sprintf("%v in %v: %v", m.Bolt, m.Nut, m.Verdict)
	switch m.Verdict {
	case SameThread:
		return text
	case Jams:
		text += fmt.Sprintf(" within %.1f turns, %.3f mm out at each", m.Loosest, math.Abs(m.PitchError.MM()))
	case RunsLoose:
		text += fmt.Sprintf(", on %.0f %% of the depth of thread, %.3f mm out at each turn", 100*m.Depth, math.Abs(m.PitchError.MM()))
	}
	return text + "; do not mix"
}

// Mate returns what becomes of a bolt of one thread in a nut of another, over
// an engagement of one diameter of the bolt.
//
//	play  = 2 min over r of (groove of nut - ridge of bolt)
//	turns = 1 + play / |P - Q|
//
// with ridge P/4 - (r - E/2) tan A to either side at radius r, the groove
// likewise, and P and Q the two pitches. Snug is for basic sizes. Loosest adds
// the most that class 2 of Unified would allow on the pitch diameter, 2.6 times
// its tolerance; worn or home-cut threads go further. Tight by a few hundredths
// of play counts as a start only in the loose pair.
//
// Anything but the same thread is not to be mixed, however well it feels: the
// flanks of two angles touch along a line, two pitches at one turn, and a bolt
// that is loose strips without warning. Taper threads, and a pair of which one
// is more than twice the other, are an error. The source is geometry; the
// figure for looseness is from ASME B1.1.
func Mate(bolt, nut Thread) (Mating, error) {
	for _, t := range []Thread{bolt, nut} {
		if t.Form() == 0 {
			return Mating{}, noThread()
		}
		if _, taper := t.Taper(); taper {
			return Mating{}, argument("thread", t.Designation(), "parallel threads", units.ErrOutOfRange)
		}
	}
	if ratio := bolt.Major().Ratio(nut.Major()); ratio > 2 || ratio < 0.5 {
		return Mating{}, argument("bolt", bolt.Designation()+" in "+nut.Designation(), "threads of which neither is twice the other", units.ErrOutOfRange)
	}
	b, n := bolt.profile(), nut.profile()
	m := Mating{Bolt: bolt, Nut: nut, PitchError: bolt.Pitch().Sub(nut.Pitch()), Depth: sharedDepth(b, n)}
	snug, loose := axialPlay(b, n, 0), axialPlay(b, n, looseness(n))
	miss := math.Abs(m.PitchError.MM())
	if miss > 0 && loose >= 0 {
		m.Loosest = 1 + loose/miss
		if snug >= 0 {
			m.Snug = 1 + snug/miss
		}
	}
	switch {
	case bolt.Form() == nut.Form() && bolt.Major() == nut.Major() && bolt.Pitch() == nut.Pitch():
		m.Verdict = SameThread
	case m.Depth == 0:
		m.Verdict = FallsThrough
	case loose < 0 || b.major-looseness(n) > n.major+nutRootRoom*n.pitch:
		m.Verdict, m.Loosest, m.Snug = DoesNotStart, 0, 0
	case miss > 0 && m.Loosest < b.major/b.pitch:
		m.Verdict = Jams
	default:
		m.Verdict = RunsLoose
	}
	return m, nil
}

// nutRootRoom is the room beyond the basic major diameter that the sharp root
// of a tapped thread leaves on the diameter, over the pitch: an eighth of the
// triangle's height at either end, for 60 degrees.
const nutRootRoom = 2 * 0.866 / 8

func (t Thread) profile() profile {
	return profile{
		major: t.Major().MM(), pitchDiameter: t.PitchDiameter().MM(), minor: t.Minor().MM(),
		pitch: t.Pitch().MM(), half: t.halfAngle(),
	}
}
