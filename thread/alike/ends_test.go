package alike

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
)

// A screw is not larger than its basic size: 3.4 mm by 0.5 mm is no M3, and 6.4 mm by
// 1 mm no M6, though a worn crest makes them smaller.
func TestScrewIsNotOverItsSize(t *testing.T) {
	for _, s := range []Specimen{{Diameter: units.MM(3.4), Pitch: units.MM(0.5)}, {Diameter: units.MM(6.4), Pitch: units.MM(1)}} {
		found, err := s.Identify()
		if err != nil {
			continue // nothing is near
		}
		for _, c := range found {
			if c.Thread.Major().Sub(s.Diameter).MM() < -0.1 {
				t.Errorf("%v by %v may be %v", s.Diameter, s.Pitch, c.Thread)
			}
		}
	}
}

// What was recalled about worn crests is a source of screws whose diameter counted, and
// of those alone.
func TestSourcesOfCandidates(t *testing.T) {
	for name, tt := range map[string]struct {
		s     Specimen
		crest bool
	}{
		"screw":    {Specimen{Diameter: units.MM(5.9), Pitch: units.MM(1)}, true},
		"bore":     {Specimen{Diameter: units.MM(5), Pitch: units.MM(1), Internal: true}, false},
		"by pitch": {Specimen{Pitch: units.MM(1)}, false},
	} {
		found, err := tt.s.Identify()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, c := range found {
			if more := c.Refs.Len() > c.Thread.Refs().Len(); more != tt.crest {
				t.Errorf("%s: %v rests on %v", name, c.Thread, c.Refs)
			}
		}
	}
}

// What is not told apart is told of the first candidate and this one, and only what is
// the same in form, diameter and pitch goes under two names.
func TestNotToldNamesBoth(t *testing.T) {
	seen := 0
	for _, s := range []Specimen{
		{Diameter: units.Inch(0.25), Pitch: units.Inch(1.0 / 26)}, {Diameter: units.Inch(0.5), Pitch: units.Inch(1.0 / 26)},
		{Diameter: units.MM(5.9), Pitch: units.MM(1)}, {Diameter: units.Inch(0.125), Pitch: units.Inch(1.0 / 40)},
	} {
		found, err := s.Identify()
		if err != nil {
			t.Error(err)
			continue
		}
		first := found[0].Thread
		for _, c := range found {
			for _, f := range c.Findings {
				seen++
				same := first.Form() == c.Thread.Form() && first.Major() == c.Thread.Major() && first.Pitch() == c.Thread.Pitch()
				if !strings.Contains(f.Text, first.String()) || !strings.Contains(f.Text, c.Thread.String()) ||
					strings.Contains(f.Text, "two names") != same {
					t.Errorf("%v and %v: %s", first, c.Thread, f.Text)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("nothing is left untold")
	}
}

// Turns until a bolt jams are told where pitches differ and it starts, and nowhere
// else.
func TestTurnsOfMatings(t *testing.T) {
	codes := map[string]int{}
	for bolt := range thread.MetricCoarse.All() {
		for _, series := range []thread.Series{thread.BA, thread.BSF, thread.MetricCoarse} {
			for nut := range series.All() {
				m, err := Mate(bolt, nut)
				if err != nil {
					continue
				}
				code := "belongs"
				if len(m.Findings) > 0 {
					code = string(m.Findings[0].Code)
				}
				codes[code]++
				if none := m.PitchError.IsZero() || code == string(DoesNotStart); none && (m.Loosest != 0 || m.Snug != 0) ||
					m.Loosest != 0 && m.Loosest < 1 || m.Snug > m.Loosest {
					t.Errorf("%v in %v, %s: jams after %g to %g turns", bolt, nut, code, m.Snug, m.Loosest)
				}
			}
		}
	}
	for _, code := range []string{"belongs", string(DoesNotStart), string(Jams), string(RunsLoose), string(FallsThrough)} {
		if codes[code] == 0 {
			t.Errorf("no pair of which it is said: %s; %v", code, codes)
		}
	}
}

// How much weaker a substitute is said to be is what the stress areas say, and no
// hexagon is compared with none.
func TestSubstituteIsWeaker(t *testing.T) {
	old := thread.MustParse("6 BA")
	found, err := Substitutes(old, thread.MetricCoarse)
	if err != nil {
		t.Fatal(err)
	}
	weaker := 0
	for _, s := range found {
		less := 1 - float64(strength.StressAreaOf(s.Thread).Area/strength.StressAreaOf(old).Area)
		for _, f := range s.Findings {
			if f.Code != WeakerScrew {
				continue
			}
			weaker++
			if want := fmt.Sprintf("A screw of %v has %.0f %% less", s.Thread, 100*less); less <= 0 || !strings.HasPrefix(f.Text, want) {
				t.Errorf("%s; want %s", f.Text, want)
			}
		}
	}
	if weaker == 0 {
		t.Error("no substitute is weaker")
	}
	fitting, err := Substitutes(thread.MustParse("1/8 x 40 ME"), thread.BA, thread.BSB, thread.ME)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range fitting {
		if !s.HexagonChange.IsZero() {
			t.Errorf("%v: the hexagon changes by %v, and the old one has none", s.Thread, s.HexagonChange)
		}
	}
}
