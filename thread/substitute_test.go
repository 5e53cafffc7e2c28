package thread

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A builder owns metric, or US, taps and dies and the plans call for BA. The
// figures are those of the standard sizes, BS 93, ISO 261 and ASME B1.1.
func TestSubstitutesForBA(t *testing.T) {
	for _, tt := range []struct {
		old    string
		among  []Series
		nearby string // one of the first two
		change float64
		pitch  float64 // per cent
	}{
		{"8 BA", []Series{MetricCoarse}, "M2.2x0.45", 0, 4.7},
		{"8 BA", []Series{MetricCoarse}, "M2x0.4", -0.2, -7.0},
		{"7 BA", []Series{MetricCoarse}, "M2.5x0.45", 0, -6.2},
		{"6 BA", []Series{MetricCoarse}, "M3x0.5", 0.2, -5.7},
		{"6 BA", []Series{MetricCoarse}, "M2.5x0.45", -0.3, -15.1},
		{"5 BA", []Series{MetricCoarse}, "M3x0.5", -0.2, -15.3},
		{"4 BA", []Series{MetricCoarse}, "M3.5x0.6", -0.1, -9.1},
		{"3 BA", []Series{MetricCoarse}, "M4x0.7", -0.1, -4.1},
		{"2 BA", []Series{MetricCoarse}, "M5x0.8", 0.3, -1.2},
		{"0 BA", []Series{MetricCoarse}, "M6x1", 0, 0},
		{"7 BA", []Series{UNC, UNF}, "3-48 UNC", 0.015, 10.2},
		{"8 BA", []Series{UNC, UNF}, "2-56 UNC", -0.016, 5.5},
		{"5 BA", []Series{UNC, UNF}, "5-44 UNF", -0.025, -2.2},
		{"6 BA", []Series{UNC, UNF}, "4-48 UNF", 0.045, -0.2},
		{"2 BA", []Series{UNC, UNF}, "10-32 UNF", 0.126, -2.0},
		{"1 BA", []Series{UNC, UNF}, "12-28 UNF", 0.186, 0.8},
	} {
		found, err := Substitutes(MustParse(tt.old), tt.among...)
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
	found, err := Substitutes(MustParse("7 BA"), MetricCoarse)
	if err != nil {
		t.Fatal(err)
	}
	s := found[0]
	// 7 BA: hexagon 4.375 mm, M2.5: 5 mm (ISO 4032).
	if s.Thread.Designation() != "M2.5x0.45" || math.Abs(s.HexagonChange.MM()-0.625) > 1e-9 || math.Abs(s.Engagement.MM()-3.125) > 1e-9 {
		t.Errorf("M2.5 for 7 BA: %+v", s)
	}
	// ISO 273 medium for M2.5 is 2.9 mm.
	if s.Clearance.Hole != units.MM(2.9) || s.Clearance.Ref.Title == "" || s.HoleChange.Abs().Cmp(units.MM(0.5)) > 0 {
		t.Errorf("clearance hole for M2.5: %+v, %v", s.Clearance, s.HoleChange)
	}
	for i := range found[1:] {
		if found[i+1].distance < found[i].distance {
			t.Errorf("%v stands after %v", found[i+1], found[i])
		}
	}
	if _, err := Substitutes(MustParse("1/8 NPT")); err == nil || !strings.Contains(err.Error(), "parallel") {
		t.Errorf("taper thread: %v", err)
	}
	if _, err := Substitutes(MustParse("M3"), NPT); err == nil || !strings.Contains(err.Error(), "series") {
		t.Errorf("taper series: %v", err)
	}
	if _, err := Substitutes(MustParse("M68"), BA); err == nil || !strings.Contains(err.Error(), "20 %") {
		t.Errorf("nothing near: %v", err)
	}
	if _, err := Substitutes(Thread{}); err == nil {
		t.Error("no thread is accepted")
	}
	// With no series named, all but the thread's own are looked through.
	found, err = Substitutes(MustParse("1/4x40 ME"))
	if err != nil {
		t.Fatal(err)
	}
	series := map[Series]bool{}
	for _, s := range found {
		series[s.Thread.Series()] = true
	}
	if series[ME] || !series[UNF] || !series[BSF] || !series[MetricCoarse] || !series[BA] {
		t.Errorf("for 1/4x40 ME: series %v", series)
	}
}

// Look-alike threads of which builders say that the nut starts and then jams.
// What the pitches lose at a turn is from the standard sizes; the verdicts
// are what was reported.
func TestLookAlikes(t *testing.T) {
	for _, tt := range []struct {
		bolt, nut string
		perTurn   float64 // mm
		verdict   MatingVerdict
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
		{"M3", "M3x0.5", 0, SameThread, 0},
		{"1/4 BSF", "1/4 BSB", 0, SameThread, 0},
	} {
		m, err := Mate(MustParse(tt.bolt), MustParse(tt.nut))
		if err != nil {
			t.Errorf("%s in %s: %v", tt.bolt, tt.nut, err)
			continue
		}
		if m.Verdict != tt.verdict || math.Abs(math.Abs(m.PitchError.MM())-tt.perTurn) > 0.0006 {
			t.Errorf("%v; want %v at %.3f mm a turn", m, tt.verdict, tt.perTurn)
		}
		if tt.verdict == Jams && !(m.Loosest >= 1 && m.Loosest <= tt.within && m.Snug <= m.Loosest) {
			t.Errorf("%v: %.2f to %.2f turns", m, m.Snug, m.Loosest)
		}
		if m.Mix() != (tt.verdict == SameThread) || m.Mix() == strings.Contains(m.String(), "do not mix") {
			t.Errorf("%v: Mix() = %v", m, m.Mix())
		}
	}
	if m, err := Mate(MustParse("1/8 NPT"), MustParse("G 1/8")); err == nil {
		t.Errorf("taper in parallel: %v", m)
	}
	if m, err := Mate(MustParse("M3"), MustParse("M8")); err == nil {
		t.Errorf("M3 in M8: %v", m)
	}
	if m, err := Mate(Thread{}, MustParse("M8")); err == nil {
		t.Errorf("nothing in M8: %v", m)
	}
}

func TestAxialPlayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pitch := rapid.Float64Range(0.3, 3).Draw(t, "pitch")
		d := pitch * rapid.Float64Range(5, 12).Draw(t, "diameters")
		half := rapid.Float64Range(20, 30).Draw(t, "half angle") * math.Pi / 180
		p := profile{major: d, pitchDiameter: d - 0.65*pitch, minor: d - 1.1*pitch, pitch: pitch, half: half}
		if play := axialPlay(p, p, 0); math.Abs(play) > 1e-12 {
			t.Fatalf("a thread in itself has play %g", play)
		}
		// Clearance on the diameter becomes axial play by the tangent of the angle.
		extra := rapid.Float64Range(0, 0.3).Draw(t, "extra")
		if play := axialPlay(p, p, extra); math.Abs(play-extra*math.Tan(half)) > 1e-12 {
			t.Fatalf("clearance %g makes play %g", extra, play)
		}
		if depth := sharedDepth(p, p); math.Abs(depth-1) > 0.1 {
			t.Fatalf("a thread shares %g of its own depth", depth)
		}
		other := p
		other.half = half + 0.03
		if play := axialPlay(p, other, 0); play >= 0 {
			t.Fatalf("another angle leaves play %g", play)
		}
	})
}

func TestEnumText(t *testing.T) {
	for v := SameThread; v <= FallsThrough; v++ {
		text, err := v.MarshalText()
		var back MatingVerdict
		if err != nil || back.UnmarshalText(text) != nil || back != v {
			t.Errorf("verdict %d: %s, %v, back %v", int(v), text, err, back)
		}
	}
	for r := BrassIronSteel; r <= OtherNonFerrous; r++ {
		text, err := r.MarshalText()
		var back EngagementRule
		if err != nil || back.UnmarshalText(text) != nil || back != r {
			t.Errorf("rule %d: %s, %v, back %v", int(r), text, err, back)
		}
	}
	if (Mating{}).Mix() {
		t.Error("the zero Mating may be mixed")
	}
	if text, err := MatingVerdict(9).MarshalText(); err == nil {
		t.Errorf("MatingVerdict(9): %s", text)
	}
	if text, err := EngagementRule(-1).MarshalText(); err == nil {
		t.Errorf("EngagementRule(-1): %s", text)
	}
}

func BenchmarkSubstitutes(b *testing.B) {
	th := MustParse("2 BA")
	for b.Loop() {
		if _, err := Substitutes(th); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkIdentify(b *testing.B) {
	s := Specimen{Diameter: units.MM(5.92), Pitch: units.MM(1)}
	for b.Loop() {
		if _, err := Identify(s); err != nil {
			b.Fatal(err)
		}
	}
}
