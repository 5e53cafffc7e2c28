package strength

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// TH-09: how deep a stud goes into gunmetal, iron, aluminium: a trade handbook's note,
// 1.25 D in brass and in iron and steel below 160 Brinell, 2.5 D in other
// non-ferrous metal, threads of 1.5 D and 2.75 D. Common practice.
func TestEngagementByRule(t *testing.T) {
	for _, tt := range []struct {
		thread        string
		short, long   float64 // mm
		shortT, longT int     // turns
	}{
		{"M2.5", 3.125, 6.25, 7, 14},
		{"M3", 3.75, 7.5, 8, 15},
		{"5 BA", 4.0, 8.0, 7, 14},
	} {
		th := thread.MustParse(tt.thread)
		a, errA := StudLengthFor(th, BrassIronSteel)
		b, errB := StudLengthFor(th, OtherNonFerrous)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if math.Abs(a.Engaged.MM()-tt.short) > 0.0005 || math.Abs(b.Engaged.MM()-tt.long) > 0.0005 || a.Turns != tt.shortT ||
			b.Turns != tt.longT {
			t.Errorf("%s: %v in %d turns, %v in %d turns; want %g and %g mm", tt.thread, a.Engaged, a.Turns, b.Engaged, b.Turns,
				tt.short, tt.long)
		}
		if math.Abs(a.Threaded.Ratio(th.Major())-1.5) > 1e-9 || math.Abs(b.Threaded.Ratio(th.Major())-2.75) > 1e-9 {
			t.Errorf("%s: threaded %v and %v", tt.thread, a.Threaded, b.Threaded)
		}
	}
	if got, err := StudLengthFor(thread.MustParse("M3"), 7); err == nil {
		t.Errorf("rule 7: %v", got)
	}
}

// The rule stands beside the calculation: for a mild-steel stud the rule is the
// longer in iron and steel, and a strong stud in aluminium needs more than one
// diameter but less than the rule's two and a half.
func TestRuleBesideCalculation(t *testing.T) {
	for _, name := range []string{"M3", "M5", "2 BA", "4 BA", "1/4 BSF", "1/4x40 ME", "5-40 UNC"} {
		th := thread.MustParse(name)
		rule, _ := StudLengthFor(th, BrassIronSteel)
		same, err := Joint{Thread: th, Stud: 430 * units.Megapascal, Nut: 430 * units.Megapascal}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if same.Length.Cmp(rule.Engaged) >= 0 {
			t.Errorf("%s, steel in steel: needs %v, the rule gives %v", name, same.Length, rule.Engaged)
		}
		if same.NutThreads.Cmp(same.StudThreads) > 0 {
			t.Errorf("%s, one material: the nut's threads need %v, the stud's %v", name, same.NutThreads, same.StudThreads)
		}
		soft, err := Joint{Thread: th, Stud: 700 * units.Megapascal, Nut: 230 * units.Megapascal}.Solve()
		long, _ := StudLengthFor(th, OtherNonFerrous)
		if err != nil || soft.Length.Cmp(th.Major()) <= 0 || soft.Length.Cmp(long.Engaged) >= 0 ||
			soft.Length != soft.NutThreads {
			t.Errorf("%s, strong stud in aluminium: %v, rule %v, %v", name, soft.Length, long.Engaged, err)
		}
		if turns := float64(soft.Turns) * th.Pitch().MM(); turns < soft.Length.MM()-1e-6 ||
			turns > soft.Length.MM()+th.Pitch().MM() {
			t.Errorf("%s: %d turns for %v", name, soft.Turns, soft.Length)
		}
	}
}

// The rule by metal, and what it says of a length.
func TestStudLengthCheck(t *testing.T) {
	for _, tt := range []struct {
		thread, metal string
		full          units.Length
		want          finding.Severity
		none          bool
	}{
		{"M3", "brass", units.MM(3.75), 0, true}, // 1.25 x 3
		{"M3", "steel", units.MM(3.7), finding.Note, false},
		{"M3", "gunmetal", units.MM(3.75), finding.Note, false}, // half of 2.5 x 3
		{"M3", "gunmetal", units.MM(3.74), finding.Fails, false},
		{"1/4x40 ME", "gunmetal", units.MM(1), finding.Note, false},
	} {
		s, err := StudLengthFor(thread.MustParse(tt.thread), RuleFor(metal(t, tt.metal)))
		if err != nil {
			t.Fatal(err)
		}
		got := s.Check(tt.full)
		if worst, some := got.Worst(); some == tt.none || worst != tt.want {
			t.Errorf("%s in %s, %v: %v; want %v", tt.thread, tt.metal, tt.full, got, tt.want)
		}
	}
}

func TestEngagementRuleText(t *testing.T) {
	for r := EngagementRule(0); r <= OtherNonFerrous; r++ {
		text, err := r.MarshalText()
		var back EngagementRule
		if err != nil || back.UnmarshalText(text) != nil || back != r {
			t.Errorf("rule %d: %s, %v, back %v", int(r), text, err, back)
		}
	}
	if text, err := EngagementRule(-1).MarshalText(); err == nil {
		t.Errorf("EngagementRule(-1): %s", text)
	}
}
