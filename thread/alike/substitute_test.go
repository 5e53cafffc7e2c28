package alike

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// TH-05: there are metric, or US, taps and dies and the plans call for BA. The
// figures are those of the standard sizes, BS 93, ISO 261 and ASME B1.1.
func TestSubstitutesForBA(t *testing.T) {
	for _, tt := range []struct {
		old    string
		among  []thread.Series
		nearby string // one of the first two
		change float64
		pitch  float64 // per cent
	}{
		{"8 BA", []thread.Series{thread.MetricCoarse}, "M2.2x0.45", 0, 4.7},
		{"8 BA", []thread.Series{thread.MetricCoarse}, "M2x0.4", -0.2, -7.0},
		{"7 BA", []thread.Series{thread.MetricCoarse}, "M2.5x0.45", 0, -6.2},
		{"6 BA", []thread.Series{thread.MetricCoarse}, "M3x0.5", 0.2, -5.7},
		{"6 BA", []thread.Series{thread.MetricCoarse}, "M2.5x0.45", -0.3, -15.1},
		{"5 BA", []thread.Series{thread.MetricCoarse}, "M3x0.5", -0.2, -15.3},
		{"4 BA", []thread.Series{thread.MetricCoarse}, "M3.5x0.6", -0.1, -9.1},
		{"3 BA", []thread.Series{thread.MetricCoarse}, "M4x0.7", -0.1, -4.1},
		{"2 BA", []thread.Series{thread.MetricCoarse}, "M5x0.8", 0.3, -1.2},
		{"0 BA", []thread.Series{thread.MetricCoarse}, "M6x1", 0, 0},
		{"7 BA", []thread.Series{thread.UNC, thread.UNF}, "3-48 UNC", 0.015, 10.2},
		{"8 BA", []thread.Series{thread.UNC, thread.UNF}, "2-56 UNC", -0.016, 5.5},
		{"5 BA", []thread.Series{thread.UNC, thread.UNF}, "5-44 UNF", -0.025, -2.2},
		{"6 BA", []thread.Series{thread.UNC, thread.UNF}, "4-48 UNF", 0.045, -0.2},
		{"2 BA", []thread.Series{thread.UNC, thread.UNF}, "10-32 UNF", 0.126, -2.0},
		{"1 BA", []thread.Series{thread.UNC, thread.UNF}, "12-28 UNF", 0.186, 0.8},
	} {
		found, err := Substitutes(thread.MustParse(tt.old), tt.among...)
		if err != nil {
			t.Errorf("%s: %v", tt.old, err)
			continue
		}
		seen := false
		for _, s := range found[:min(2, len(found))] {
			if s.Thread.Designation() != tt.nearby {
				continue
			}
			seen = true
			if math.Abs(s.DiameterChange.MM()-tt.change) > 0.0005+1e-9 || math.Abs(100*s.PitchChange-tt.pitch) > 0.06 {
				t.Errorf("%s for %s: %v; want %+.3f mm, %+.1f %%", tt.nearby, tt.old, s, tt.change, tt.pitch)
			}
			if s.OldInNew.Mix() || s.NewInOld.Mix() {
				t.Errorf("%s for %s: a left-over screw is said to fit", tt.nearby, tt.old)
			}
			if got := s.WallChange.MM(); math.Abs(got+s.DiameterChange.MM()/2) > 1e-9 {
				t.Errorf("%s for %s: wall %+.3f mm", tt.nearby, tt.old, got)
			}
		}
		if !seen {
			t.Errorf("%s: %s is not among the first two of %v", tt.old, tt.nearby, found)
		}
	}
}

func TestSubstitutesKnockOn(t *testing.T) {
	found, err := Substitutes(thread.MustParse("7 BA"), thread.MetricCoarse)
	if err != nil {
		t.Fatal(err)
	}
	s := found[0]
	// 7 BA: hexagon 4.375 mm, M2.5: 5 mm (ISO 4032).
	if s.Thread.Designation() != "M2.5x0.45" || math.Abs(s.HexagonChange.MM()-0.625) > 1e-9 ||
		math.Abs(s.Engagement.MM()-3.125) > 1e-9 {
		t.Errorf("M2.5 for 7 BA: %+v", s)
	}
	// ISO 273 medium for M2.5 is 2.9 mm.
	if s.Clearance.Hole != units.MM(2.9) || s.Clearance.Refs.IsZero() || s.HoleChange.Abs().Cmp(units.MM(0.5)) > 0 {
		t.Errorf("clearance hole for M2.5: %+v, %v", s.Clearance, s.HoleChange)
	}
	for i := range found[1:] {
		if found[i+1].distance < found[i].distance {
			t.Errorf("%v stands after %v", found[i+1], found[i])
		}
	}
	if _, err := Substitutes(thread.MustParse("1/8 NPT")); err == nil || !strings.Contains(err.Error(), "parallel") {
		t.Errorf("taper thread: %v", err)
	}
	if _, err := Substitutes(thread.MustParse("M3"), thread.NPT); err == nil || !strings.Contains(err.Error(), "series") {
		t.Errorf("taper series: %v", err)
	}
	if _, err := Substitutes(thread.MustParse("M68"), thread.BA); err == nil || !strings.Contains(err.Error(), "20 %") {
		t.Errorf("nothing near: %v", err)
	}
	if _, err := Substitutes(thread.Thread{}); err == nil {
		t.Error("no thread is accepted")
	}
	// With no series named, all but the thread's own are looked through.
	found, err = Substitutes(thread.MustParse("1/4x40 ME"))
	if err != nil {
		t.Fatal(err)
	}
	series := map[thread.Series]bool{}
	for _, s := range found {
		series[s.Thread.Series()] = true
	}
	if series[thread.ME] || !series[thread.UNF] || !series[thread.BSF] || !series[thread.MetricCoarse] ||
		!series[thread.BA] {
		t.Errorf("for 1/4x40 ME: series %v", series)
	}
}

// Only what there are taps for is looked through; what is left over and jams is a
// note, what runs loose a danger.
func TestSubstitutesAmong(t *testing.T) {
	own := []thread.Thread{thread.MustParse("M3"), thread.MustParse("5-44 UNF"), thread.MustParse("5 BA"), thread.MustParse("M8")}
	found, err := SubstitutesAmong(thread.MustParse("5 BA"), own...)
	if err != nil || len(found) != 2 || found[0].Thread != own[1] || found[1].Thread != own[0] {
		t.Errorf("5 BA from %v: %v, %v", own, found, err)
	}
	if _, err := SubstitutesAmong(thread.MustParse("5 BA"), thread.MustParse("1/8 NPT")); err == nil || !strings.Contains(err.Error(), "parallel") {
		t.Errorf("a taper thread to choose from: %v", err)
	}
	if _, err := SubstitutesAmong(thread.MustParse("5 BA")); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("nothing to choose from: %v", err)
	}
	for name, want := range map[string]finding.Severity{"7 BA": finding.Note, "0 BA": finding.Danger} {
		found, err := Substitutes(thread.MustParse(name), thread.MetricCoarse)
		if err != nil {
			t.Fatal(err)
		}
		worst := finding.Note
		for _, f := range found[0].Findings {
			if f.Where != "" && f.Severity > worst {
				worst = f.Severity
			}
		}
		if worst != want || len(found[0].Findings) == 0 {
			t.Errorf("%s: %v; want at worst %v of what is left over", name, found[0].Findings, want)
		}
	}
}

func BenchmarkSubstitutes(b *testing.B) {
	th := thread.MustParse("2 BA")
	for b.Loop() {
		if _, err := Substitutes(th); err != nil {
			b.Fatal(err)
		}
	}
}
