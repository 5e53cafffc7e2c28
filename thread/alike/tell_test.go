package alike

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func TestDistinguish(t *testing.T) {
	caliper, gauge := units.MM(0.02), units.MM(0.01)
	for _, tt := range []struct{ a, b, want string }{
		// 11 threads of 1/4 BSF are 10.746 mm, of M6 11 mm; the caliper needs only a few.
		{"1/4 BSF", "M6", "the length of 5 threads: 4.885 mm or 5.000 mm"},
		{"4-48 UNF", "6 BA", "the length of 25 threads"},
		{"1/4 BSW", "1/4-20 UNC", "55 or 60 degrees"},
		{"M6", "0 BA", "over wires of 0.577 mm"},
		{"8 BA", "M2", "the diameter over the crests"},
	} {
		text := ""
		for _, how := range Distinguish(thread.MustParse(tt.a), thread.MustParse(tt.b), caliper, gauge) {
			text += how.String() + "; "
		}
		if !strings.Contains(text, tt.want) {
			t.Errorf("%s or %s: %q, want %q in it", tt.a, tt.b, text, tt.want)
		}
	}
	if got := Distinguish(thread.MustParse("1/4 BSF"), thread.MustParse("1/4 BSB"), caliper, gauge); len(got) != 0 {
		t.Errorf("one thread under two names: %v", got)
	}
	// What it names does separate them: the readings lie further apart than what
	// they may be off.
	rapid.Check(t, func(t *rapid.T) {
		names := []string{"M3", "M4", "M5", "M6", "2 BA", "4 BA", "6 BA", "8-32 UNC", "10-32 UNF", "3/16 BSW", "1/4 BSF",
			"1/4x40 ME"}
		a, b := thread.MustParse(rapid.SampledFrom(names).Draw(t, "a")), thread.MustParse(rapid.SampledFrom(names).Draw(t,
			"b"))
		for _, how := range Distinguish(a, b, caliper, gauge) {
			if how.Angles != [2]units.Angle{} {
				if how.Angles[0] == how.Angles[1] {
					t.Fatalf("%v, %v: %v", a, b, how)
				}
				continue
			}
			if math.Abs(how.First.Sub(how.Second).MM()) < 2*gauge.MM() {
				t.Fatalf("%v, %v: %v", a, b, how)
			}
		}
	})
}

// A wire that serves both threads: the best of the first where the second takes it,
// else the end of what both take that is nearest to it. The ranges are 0.50518 to
// 1.01036 P of 60 degrees, the best 0.57735 P.
func TestCommonWire(t *testing.T) {
	for _, tt := range []struct {
		first, second string
		over          float64 // pitches of the one that decides, mm; zero: none serves both
	}{
		{"M8", "M8x1", 0.57735 * 1.25}, // the best of the first serves
		{"M8x1", "M8", 0.50518 * 1.25}, // it is too thin for the second
		{"M24", "M24x2", 0.57735 * 3},  // it serves
		{"M24x2", "M24", 0.50518 * 3},
		{"1/2-13 UNC", "M12x1", 1.01036}, // it is too thick for the second
		{"M12x1", "1/2-13 UNC", 0.50518 * 25.4 / 13},
		{"M64", "M64x2", 0},
		{"M64x2", "M64", 0},
	} {
		first, second := thread.MustParse(tt.first), thread.MustParse(tt.second)
		wire, ok := commonWire(first, second)
		if ok != (tt.over != 0) || ok && math.Abs(wire.MM()-tt.over) > 0.002 {
			t.Errorf("%s, %s: %v, %v; want %.4f mm", tt.first, tt.second, wire, ok, tt.over)
		}
	}
	if wire, ok := commonWire(thread.MustParse("M8"), thread.MustParse("1/8 NPT")); ok {
		t.Errorf("a taper thread: %v", wire)
	}
}
