package alike

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// same stands for no finding.
const same finding.Code = ""

func code(m Mating) finding.Code {
	if m.Mix() {
		return same
	}
	return m.Findings[0].Code
}

// TH-11: look-alike threads of which the nut starts and then jams, or runs loose.
// What the pitches lose at a turn is from the standard sizes; the verdicts are
// those of the geometry, worn threads aside.
func TestLookAlikes(t *testing.T) {
	for _, tt := range []struct {
		bolt, nut string
		perTurn   float64 // mm
		verdict   finding.Code
		within    float64 // turns
	}{
		{"5/16-18 UNC", "M8", 0.161, Jams, 2.1},
		{"M8", "5/16-18 UNC", 0.161, Jams, 2.1},
		{"M6", "1/4 BSF", 0.023, RunsLoose, 0},
		{"1/4 BSF", "M6", 0.023, DoesNotStart, 0},
		{"3/4-10 UNC", "M20", 0.040, RunsLoose, 0},
		{"M20", "3/4-10 UNC", 0.040, DoesNotStart, 0},
		{"1/2 BSW", "1/2-13 UNC", 0.163, Jams, 2},
		{"M8", "M8x1", 0.25, Jams, 2},
		{"0 BA", "M6", 0, RunsLoose, 0},
		{"M6", "0 BA", 0, RunsLoose, 0},
		{"1/4 BSW", "1/4-20 UNC", 0, RunsLoose, 0},
		{"2 BA", "M6", 0.19, FallsThrough, 0},
		{"M3", "M3x0.5", 0, same, 0},
		{"1/4 BSF", "1/4 BSB", 0, same, 0},
	} {
		m, err := Mate(thread.MustParse(tt.bolt), thread.MustParse(tt.nut))
		if err != nil {
			t.Errorf("%s in %s: %v", tt.bolt, tt.nut, err)
			continue
		}
		if code(m) != tt.verdict || math.Abs(math.Abs(m.PitchError.MM())-tt.perTurn) > 0.0006 {
			t.Errorf("%v; want %v at %.3f mm a turn", m, tt.verdict, tt.perTurn)
		}
		if tt.verdict == Jams && !(m.Loosest >= 1 && m.Loosest <= tt.within && m.Snug <= m.Loosest) {
			t.Errorf("%v: %.2f to %.2f turns", m, m.Snug, m.Loosest)
		}
		if m.Mix() != (tt.verdict == same) || m.Mix() != strings.Contains(m.String(), "same thread") {
			t.Errorf("%v: Mix() = %v", m, m.Mix())
		}
	}
	if m, err := Mate(thread.MustParse("1/8 NPT"), thread.MustParse("G 1/8")); err == nil {
		t.Errorf("taper in parallel: %v", m)
	}
	if m, err := Mate(thread.MustParse("M3"), thread.MustParse("M8")); err == nil {
		t.Errorf("M3 in M8: %v", m)
	}
	if m, err := Mate(thread.Thread{}, thread.MustParse("M8")); err == nil {
		t.Errorf("nothing in M8: %v", m)
	}
}

// A bolt that runs loose can hurt somebody; the others show themselves.
func TestMatingSeverity(t *testing.T) {
	for _, tt := range []struct {
		bolt, nut string
		want      finding.Severity
	}{
		{"M6", "1/4 BSF", finding.Danger}, {"M8", "5/16-18 UNC", finding.Fails}, {"1/4 BSF", "M6", finding.Fails}, {"2 BA", "M6", finding.Fails},
	} {
		m, err := Mate(thread.MustParse(tt.bolt), thread.MustParse(tt.nut))
		if worst, _ := m.Findings.Worst(); err != nil || worst != tt.want || m.Refs.IsZero() {
			t.Errorf("%v, %v; want %v", m, err, tt.want)
		}
	}
	if (Mating{}).Mix() {
		t.Error("the zero Mating may be mixed")
	}
}

// A bolt larger than the nut's whole thread never falls through it, whichever the pitches,
// and one that the nut's bore passes does nothing else.
func TestOnlyASmallBoltFallsThrough(t *testing.T) {
	names := []string{"M7x0.5", "1/4x40 ME", "M6x0.5", "M8", "M5x0.5", "0 BA", "M9x0.5", "M10", "G 1/8"}
	for _, bolt := range names {
		for _, nut := range names {
			b, n := thread.MustParse(bolt), thread.MustParse(nut)
			m, err := Mate(b, n)
			if err != nil {
				continue // one is twice the other
			}
			falls := len(m.Findings) > 0 && m.Findings[0].Code == FallsThrough
			if want := b.Major().Cmp(n.Minor()) <= 0; falls != want {
				t.Errorf("%v; %v is %v and the bore %v", m, bolt, b.Major(), n.Minor())
			}
		}
	}
}

// A bolt of a finer traversing thread whose crest is larger than the nut and its sharp
// root, H/8 at either end, does not start, though its flanks would have room. The most
// that the sizes may be off is 2.6 times the tolerance of class 2A, ASME B1.1.
func TestCrestBeyondTheRoot(t *testing.T) {
	nut := thread.MustParse("1-4 Acme")
	tolerance := 0.0015*math.Cbrt(1) + 0.0015 + 0.015*math.Pow(0.25, 2.0/3)
	most := 25.4 * (1 + 2.6*tolerance + 2*(0.25*math.Sqrt(3)/2)/8)
	for thou := 1000; thou < 1130; thou++ {
		bolt, err := thread.New(thread.FormAcme, units.Inch(float64(thou)/1000), units.Inch(1.0/6))
		if err != nil {
			t.Fatal(err)
		}
		m, err := Mate(bolt, nut)
		if err != nil {
			t.Fatal(err)
		}
		if off := bolt.Major().MM() - most; math.Abs(off) > 0.002 && (m.Findings[0].Code == DoesNotStart) != (off > 0) {
			t.Errorf("%v, %.3f mm over the root: %v", bolt, off, m)
		}
	}
}

// The share of the diameter beyond which a thread is no substitute is a fifth, either way.
func TestAFifthOfTheDiameter(t *testing.T) {
	old := thread.MustParse("M10")
	for mm := 7.5; mm < 12.5; mm += 0.1 {
		if math.Abs(math.Abs(mm-10)-2) < 0.01 {
			continue
		}
		other, err := thread.New(thread.FormISO, units.MM(math.Round(mm*10)/10), units.MM(1))
		if err != nil {
			t.Fatal(err)
		}
		_, err = SubstitutesAmong(old, other)
		if (err == nil) != (math.Abs(mm-10) < 2) {
			t.Errorf("%v for %v: %v", other, old, err)
		}
	}
}

// A run of 40 threads is the longest that is measured: twice what the pitch may be off
// over the difference of the pitches, rounded up.
func TestLongestRun(t *testing.T) {
	first, second := thread.MustParse("M8x1"), thread.MustParse("M8x1.25")
	for um := 500; um < 5300; um += 83 {
		off := units.Micron(float64(um))
		n := int(math.Ceil(float64(2*um)/250 - 1e-9))
		text := ""
		for _, how := range Distinguish(first, second, units.MM(0.03), off) {
			text += how.Measure + "; "
		}
		want := fmt.Sprintf("the length of %d threads; ", max(n, 5))
		if has := strings.Contains(text, want); has != (n <= 40) || !has && strings.Contains(text, "the length of") {
			t.Errorf("off by %d um: %s; want %s", um, text, want)
		}
	}
	for um, n := range map[float64]string{5000: "the length of 40 threads", 5001: ""} {
		how := Distinguish(first, second, units.MM(0.03), units.Micron(um))
		if got := how[0].Measure; n != "" && got != n || n == "" && strings.Contains(got, "length") {
			t.Errorf("off by %g um: %v", um, how)
		}
	}
}
