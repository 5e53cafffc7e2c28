package alike

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"pgregory.net/rapid"
)

func TestIdentify(t *testing.T) {
	for _, tt := range []struct {
		name     string
		specimen Specimen
		among    []string // in this order, perhaps with others between and after
		tell     string   // in what separates the second from the first
	}{
		{"6 mm at 1.0 is M6 or 0 BA", Specimen{Diameter: units.MM(5.92), Pitch: units.MM(1)}, []string{"M6x1", "0 BA"}, "the angle"},
		{"2.75 mm at 0.53 is 6 BA or 4-48", Specimen{Diameter: units.MM(2.75), Pitch: units.MM(0.53), PitchMayBeOff: units.MM(0.02)}, []string{"6 BA", "4-48 UNF"}, "47.5 or 60 degrees"},
		{"1/4 at 20 is BSW or UNC", Specimen{Diameter: units.MM(6.26), Pitch: units.MM(1.27)}, []string{"1/4-20 UNC", "1/4 BSW"}, "60 or 55 degrees"},
		{"1/4 at 26", Specimen{Diameter: units.MM(6.30), Pitch: units.MM(0.977)}, []string{"1/4 BSF"}, ""},
		{"rough pitch leaves 1/8x40 and M3x0.5 apart", Specimen{Diameter: units.MM(3.12), Pitch: units.MM(0.635), PitchMayBeOff: units.MM(0.02)}, []string{"5-40 UNC", "1/8x40 ME"}, ""},
		{"a tapped hole of 5.05 mm at 1.0", Specimen{Diameter: units.MM(5.05), Pitch: units.MM(1), Internal: true}, []string{"M6x1"}, ""},
	} {
		found, err := tt.specimen.Identify()
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		position := -1
		for _, want := range tt.among {
			at := -1
			for i, c := range found {
				if c.Thread.Designation() == want {
					at = i
				}
			}
			if at < 0 {
				t.Errorf("%s: no %s among %v", tt.name, want, found)
			}
			if at >= 0 && at <= position {
				t.Errorf("%s: %s stands too early in %v", tt.name, want, found)
			}
			position = at
		}
		if len(found[0].Tell) != 0 {
			t.Errorf("%s: the first candidate is told from itself by %v", tt.name, found[0].Tell)
		}
		for i := range found[1:] {
			if found[i+1].Doubt < found[i].Doubt || found[i+1].Doubt > 1 {
				t.Errorf("%s: doubts %g, %g", tt.name, found[i].Doubt, found[i+1].Doubt)
			}
		}
		if tt.tell != "" {
			text := ""
			for _, c := range found[1:] {
				for _, how := range c.Tell {
					text += how.String() + "; "
				}
			}
			if !strings.Contains(text, tt.tell) {
				t.Errorf("%s: told apart by %q, want %q in it", tt.name, text, tt.tell)
			}
		}
	}
}

// A screw made to any thread in the lists is found again among the candidates.
func TestIdentifyFindsEveryThread(t *testing.T) {
	var all []thread.Thread
	for series := thread.MetricCoarse; series <= thread.Acme; series++ {
		for th := range series.All() {
			if _, taper := th.Taper(); !taper {
				all = append(all, th)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		th := rapid.SampledFrom(all).Draw(t, "thread")
		under := rapid.Float64Range(0, 0.8).Draw(t, "under size") * crestAllowance(th)
		s := Specimen{Diameter: th.Major().Sub(units.MM(under)), Pitch: th.Pitch().Scale(rapid.Float64Range(0.995,
			1.005).Draw(t, "pitch"))}
		found, err := s.Identify()
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range found {
			if c.Thread == th {
				return
			}
		}
		t.Fatalf("%v, as %v at %v, is not among %v", th, s.Diameter, s.Pitch, found)
	})
}

// A bore may lie above the basic minor diameter by half the depth: M6 from 4.917
// to 5.459 mm, and what it may be off.
func TestIdentifyBore(t *testing.T) {
	for bore, want := range map[float64]bool{4.90: true, 5.40: true, 5.50: false} {
		got, _ := Specimen{Diameter: units.MM(bore), Pitch: units.MM(1), Internal: true}.Identify()
		if found := slices.ContainsFunc(got,
			func(c Candidate) bool { return c.Thread == thread.MustParse("M6") }); found != want {
			t.Errorf("bore %.2f mm: %v", bore, got)
		}
	}
}

// What was measured so badly that everything fits it is everything.
func TestIdentifyAll(t *testing.T) {
	got, err := Specimen{Diameter: units.MM(150), Pitch: units.MM(3.5), DiameterMayBeOff: units.MM(149.9),
		PitchMayBeOff: units.MM(3.499)}.Identify()
	if err != nil || len(got) < 350 {
		t.Errorf("%d candidates, %v", len(got), err)
	}
}

func TestIdentifyRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		s    Specimen
		want string
	}{
		{"diameter below zero", Specimen{Diameter: units.MM(-6), Pitch: units.MM(1)}, "diameter of the specimen -6 mm: out of range; accepted: above zero up to 300 mm, or zero where it was not measured"},
		{"no diameter, and what it may be off", Specimen{Pitch: units.MM(1), DiameterMayBeOff: units.MM(0.1)}, "goes with a diameter"},
		{"a pitch as no thread has", Specimen{Pitch: units.MM(60)}, "above zero up to 50 mm"},
		{"a pitch alone that fits nothing", Specimen{Pitch: units.MM(3.3)}, "specimen pitch 3.3 mm: fits no thread listed here"},
		{"an angle that no form has", Specimen{Pitch: units.MM(1), Angle: 51 * units.Degree}, "within 2 deg of 60, 55, 47.5, 30 or 29 deg"},
		{"an angle that is none", Specimen{Pitch: units.MM(1), Angle: units.Angle(math.NaN())}, "angle of the specimen"},
		{"no thread of that angle", Specimen{Diameter: units.MM(6), Pitch: units.MM(1), Angle: 29 * units.Degree}, "fits no thread"},
		{"no pitch", Specimen{Diameter: units.MM(6)}, "pitch of the specimen"},
		{"pitch and diameter swapped", Specimen{Diameter: units.MM(1), Pitch: units.MM(6)}, "at most the diameter"},
		{"negative uncertainty", Specimen{Diameter: units.MM(6), Pitch: units.MM(1), PitchMayBeOff: units.MM(-1)}, "uncertainty"},
		{"knows nothing", Specimen{Diameter: units.MM(6), Pitch: units.MM(1), DiameterMayBeOff: units.MM(6)}, "below the diameter and the pitch"},
		{"fits nothing", Specimen{Diameter: units.MM(17.2), Pitch: units.MM(3.3)}, "fits no thread listed here; accepted: larger uncertainty, or look at the nearest: "},
	} {
		if got, err := tt.s.Identify(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, %v; want %q", tt.name, got, err, tt.want)
		}
	}
}

// Where no measurement tells a candidate from the first it says so; 1/4 BSF and
// 1/4 BSB are one thread under two names.
func TestIdentifyNotTold(t *testing.T) {
	found, err := Specimen{Diameter: units.MM(6.30), Pitch: units.MM(0.977)}.Identify()
	if err != nil {
		t.Fatal(err)
	}
	said := 0
	for i, c := range found {
		if c.Refs.IsZero() {
			t.Errorf("%v: no source", c)
		}
		if told := i == 0 || len(c.Tell) > 0; told != (len(c.Findings) == 0) {
			t.Errorf("%v: told by %v, findings %v", c, c.Tell, c.Findings)
		}
		for _, f := range c.Findings {
			said++
			if f.Code != NotTold || f.Severity != finding.Note || !strings.Contains(f.Text, "one thread under two names") {
				t.Errorf("%v: %v", c, f)
			}
		}
	}
	if said == 0 {
		t.Errorf("1/4 BSF and BSB are told apart: %v", found)
	}
}

// What Identify allows a crest is near what class 6g does.
func TestCrestAllowanceIsNear6g(t *testing.T) {
	compared := 0
	for th := range thread.MetricCoarse.All() {
		l, err := th.Limits("6g")
		if err != nil {
			continue
		}
		compared++
		if want := th.Major().Sub(l.Major.Min).MM(); math.Abs(crestAllowance(th)/want-1) > 0.1 {
			t.Errorf("%v: %.3f mm, 6g has %.3f", th, crestAllowance(th), want)
		}
	}
	if compared < 25 {
		t.Errorf("only %d sizes", compared)
	}
}

func BenchmarkIdentify(b *testing.B) {
	s := Specimen{Diameter: units.MM(5.92), Pitch: units.MM(1)}
	for b.Loop() {
		if _, err := s.Identify(); err != nil {
			b.Fatal(err)
		}
	}
}

// A specimen of exactly the basic size is that thread before any other: 5.3 mm at
// 0.90 mm is 1 BA, and not 12-28 UNF, which is 0.19 mm larger.
func TestIdentifyExactFirst(t *testing.T) {
	found, err := Specimen{Diameter: units.MM(5.3), Pitch: units.MM(0.9)}.Identify()
	if err != nil || found[0].Thread.Designation() != "1 BA" || found[0].Doubt != 0 ||
		!slices.ContainsFunc(found, func(c Candidate) bool { return c.Thread.Designation() == "12-28 UNF" }) {
		t.Errorf("exactly 1 BA: %v, %v", found, err)
	}
	for _, series := range thread.ListSeries() {
		for th := range series.All() {
			if _, taper := th.Taper(); taper {
				continue
			}
			screw, errScrew := Specimen{Diameter: th.Major(), Pitch: th.Pitch()}.Identify()
			nut, errNut := Specimen{Diameter: th.Minor(), Pitch: th.Pitch(), Internal: true}.Identify()
			if errScrew != nil || screw[0].Thread.Major() != th.Major() || screw[0].Thread.Pitch() != th.Pitch() {
				t.Errorf("a screw of exactly %v: %v, %v", th, screw, errScrew)
			}
			if errNut != nil || nut[0].Thread.Minor() != th.Minor() || nut[0].Thread.Pitch() != th.Pitch() {
				t.Errorf("a bore of exactly %v: %v, %v", th, nut, errNut)
			}
		}
	}
}

// A pitch gauge and no caliper: what has that pitch, the nearest pitch first, and
// the angle halves the list.
func TestIdentifyByPitch(t *testing.T) {
	found, err := Specimen{Pitch: units.Inch(1.0 / 26)}.Identify()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for i, c := range found {
		names[c.Thread.Designation()] = true
		if c.Doubt > 1 || !c.Diameter.IsZero() || i > 0 && c.Doubt < found[i-1].Doubt {
			t.Errorf("%v: %+v", c, c)
		}
		if math.Abs(c.Pitch.MM()) > 0.01*25.4/26+1e-9 {
			t.Errorf("%v is too far from 26 to the inch", c)
		}
	}
	for _, want := range []string{"1/4 BSF", "3/8 BSB", "3/8x26 BSC", "1/2x26 ME"} { // BS 84, BS 811 and constant pitches
		if !names[want] {
			t.Errorf("26 to the inch: no %s among %v", want, found)
		}
	}
	if names["M6x1"] || names["1/4-28 UNF"] {
		t.Errorf("26 to the inch: %v", found)
	}
	if text := found[0].String(); strings.Contains(text, "diameter") {
		t.Errorf("by its pitch alone: %q", text)
	}
	for _, c := range mustIdentify(t, Specimen{Pitch: units.Inch(1.0 / 26), Angle: 60 * units.Degree}) {
		if c.Thread.Form().Angle() != 60*units.Degree {
			t.Errorf("60 degrees: %v", c)
		}
	}
}

// A nut has no crests to measure over and takes no wires.
func TestIdentifyNutTells(t *testing.T) {
	for _, c := range mustIdentify(t, Specimen{Diameter: units.MM(5.5), Pitch: units.Inch(1.0 / 26), Internal: true}) {
		for _, how := range c.Tell {
			if strings.Contains(how.Measure, "wires") || strings.Contains(how.Measure, "crests") || strings.Contains(how.Measure, "light") {
				t.Errorf("%v is told from the first by %v", c, how)
			}
		}
	}
}

func mustIdentify(t *testing.T, s Specimen) []Candidate {
	t.Helper()
	found, err := s.Identify()
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// The sizes that ISO 261 has dropped are found again on old instruments.
func TestIdentifyOldMetric(t *testing.T) {
	for _, tt := range []struct {
		diameter, pitch float64
		want            string
	}{{1.68, 0.35, "M1.7x0.35"}, {2.28, 0.4, "M2.3x0.4"}, {2.58, 0.45, "M2.6x0.45"}} {
		found := mustIdentify(t, Specimen{Diameter: units.MM(tt.diameter), Pitch: units.MM(tt.pitch), Angle: 60 * units.Degree})
		if found[0].Thread.Designation() != tt.want {
			t.Errorf("%g mm at %g: %v, want %s first", tt.diameter, tt.pitch, found, tt.want)
		}
	}
}
