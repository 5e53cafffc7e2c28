package thread

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
	"pgregory.net/rapid"
)

func TestStrippingPublished(t *testing.T) {
	for r := range check.Open(t, "thread/stripping.csv").Rows() {
		th := MustParse(r.Text("thread"))
		s, from, _, err := Joint{Thread: th, StudClass: r.Text("external"), NutClass: r.Text("internal")}.shear()
		if err != nil {
			t.Fatalf("%s: %v", r.ID, err)
		}
		if want := r.Text("external") + " in " + r.Text("internal"); from != want {
			t.Errorf("%s: limits %q", r.ID, from)
		}
		length := th.Major().Metres()
		if r.Text("per") == "inch" {
			length = units.Inch(1).Metres()
		}
		square := float64(units.SquareInch)
		if r.Has("bolt_area") {
			// The area of the bolt's threads hangs on the nut's largest minor
			// diameter, which B1.1 rounds to three places in some sizes and editions
			// and to four in others: up to 2 %.
			r.Within("bolt_area", s.stud()*length/square, max(check.HalfLastPlace(r.Text("bolt_area")), 0.02*r.Float("bolt_area")))
		}
		// The nut's hangs on diameters that all print alike; the second table is
		// rounded from areas for an inch.
		r.Within("nut_area", s.nut()*length/square, max(1.2*check.HalfLastPlace(r.Text("nut_area")), 0.004*r.Float("nut_area")))
	}
}

// A handbook chapter's example: an M10x1.5 screw of class 10.9 in an aluminium
// of 130 MPa shear strength takes 21.6 mm of engagement for 69 600 N. It works
// with the largest major diameter of 6g, 9.968 mm, which it calls the least; the
// least is 9.732 mm.
func TestStrippingWorkedExample(t *testing.T) {
	th := MustParse("M10")
	s, _, _, err := Joint{Thread: th}.shear()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.nutPitch-9.206e-3) > 1e-9 || math.Abs(s.studMajor-9.732e-3) > 1e-9 {
		t.Errorf("nut's pitch diameter %.4f mm, stud's major %.4f mm; want 9.206, 9.732", s.nutPitch*1e3, s.studMajor*1e3)
	}
	printed := s
	printed.studMajor = 9.968e-3
	if got := 69600 / (130e6 * printed.nut()) * 1000; math.Abs(got-21.6) > 0.05 {
		t.Errorf("engagement %.2f mm, the example has 21.6", got)
	}
	if got := 69600 / (130e6 * s.nut()) * 1000; got < 22.5 {
		t.Errorf("engagement %.2f mm with the least major diameter; more than the example's is needed", got)
	}
}

// How deep a stud goes into gunmetal, iron, aluminium: a trade handbook's note,
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
		th := MustParse(tt.thread)
		a, errA := th.EngagementByRule(BrassIronSteel)
		b, errB := th.EngagementByRule(OtherNonFerrous)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if math.Abs(a.Engaged.MM()-tt.short) > 0.0005 || math.Abs(b.Engaged.MM()-tt.long) > 0.0005 || a.Turns != tt.shortT || b.Turns != tt.longT {
			t.Errorf("%s: %v in %d turns, %v in %d turns; want %g and %g mm", tt.thread, a.Engaged, a.Turns, b.Engaged, b.Turns, tt.short, tt.long)
		}
		if math.Abs(a.Threaded.Ratio(th.Major())-1.5) > 1e-9 || math.Abs(b.Threaded.Ratio(th.Major())-2.75) > 1e-9 {
			t.Errorf("%s: threaded %v and %v", tt.thread, a.Threaded, b.Threaded)
		}
	}
	if got, err := MustParse("M3").EngagementByRule(7); err == nil {
		t.Errorf("rule 7: %v", got)
	}
}

// The rule stands beside the calculation: for a mild-steel stud the rule is the
// longer in iron and steel, and a strong stud in aluminium needs more than one
// diameter but less than the rule's two and a half.
func TestRuleBesideCalculation(t *testing.T) {
	for _, name := range []string{"M3", "M5", "2 BA", "4 BA", "1/4 BSF", "1/4x40 ME", "5-40 UNC"} {
		th := MustParse(name)
		rule, _ := th.EngagementByRule(BrassIronSteel)
		same, err := Joint{Thread: th, Stud: 430 * units.Megapascal, Nut: 430 * units.Megapascal}.Engagement()
		if err != nil {
			t.Fatal(err)
		}
		if same.Length.Cmp(rule.Engaged) >= 0 {
			t.Errorf("%s, steel in steel: needs %v, the rule gives %v", name, same.Length, rule.Engaged)
		}
		if same.NutThreads.Cmp(same.StudThreads) > 0 {
			t.Errorf("%s, one material: the nut's threads need %v, the stud's %v", name, same.NutThreads, same.StudThreads)
		}
		soft, err := Joint{Thread: th, Stud: 700 * units.Megapascal, Nut: 230 * units.Megapascal}.Engagement()
		long, _ := th.EngagementByRule(OtherNonFerrous)
		if err != nil || soft.Length.Cmp(th.Major()) <= 0 || soft.Length.Cmp(long.Engaged) >= 0 || soft.Length != soft.NutThreads {
			t.Errorf("%s, strong stud in aluminium: %v, rule %v, %v", name, soft.Length, long.Engaged, err)
		}
		if turns := float64(soft.Turns) * th.Pitch().MM(); turns < soft.Length.MM()-1e-6 || turns > soft.Length.MM()+th.Pitch().MM() {
			t.Errorf("%s: %d turns for %v", name, soft.Turns, soft.Length)
		}
	}
}

func TestEngagementProperties(t *testing.T) {
	names := []string{"M2", "M6", "M20", "8 BA", "0 BA", "1/4 BSW", "3/8 BSF", "1/4x32 ME", "6-32 UNC", "1/2-20 UNF"}
	rapid.Check(t, func(t *rapid.T) {
		j := Joint{
			Thread: MustParse(rapid.SampledFrom(names).Draw(t, "thread")),
			Stud:   units.Pressure(rapid.Float64Range(100, 1200).Draw(t, "stud")) * units.Megapascal,
			Nut:    units.Pressure(rapid.Float64Range(100, 1200).Draw(t, "nut")) * units.Megapascal,
		}
		e, err := j.Engagement()
		if err != nil {
			t.Fatal(err)
		}
		// At the length given, the weaker thread holds just what breaks the stud.
		turns := e.Length.Ratio(j.Thread.Pitch())
		if weaker := min(float64(e.StudStrips), float64(e.NutStrips)) * turns; math.Abs(weaker-float64(e.Breaks)) > 1e-6*float64(e.Breaks) {
			t.Fatalf("%v holds %g N, the stud %v", e.Length, weaker, e.Breaks)
		}
		// A larger hole never shortens it.
		open := j
		open.Hole = j.Thread.Minor().Add(j.Thread.Major().Sub(j.Thread.Minor()).Scale(0.3))
		tight := j
		tight.Hole = j.Thread.Minor()
		a, errA := tight.Engagement()
		b, errB := open.Engagement()
		if errA != nil || errB != nil || b.Length.Cmp(a.Length) < 0 {
			t.Fatalf("hole %v: %v; hole %v: %v (%v, %v)", tight.Hole, a.Length, open.Hole, b.Length, errA, errB)
		}
	})
}

func TestEngagementRefuses(t *testing.T) {
	m6 := MustParse("M6")
	ok := 400 * units.Megapascal
	for _, tt := range []struct {
		name string
		j    Joint
		want string
	}{
		{"no thread", Joint{Stud: ok, Nut: ok}, "thread"},
		{"no strength", Joint{Thread: m6, Stud: ok}, "tensile strength of the nut"},
		{"strength not a number", Joint{Thread: m6, Stud: units.Pressure(math.NaN()), Nut: ok}, "tensile strength of the stud"},
		{"hole too large", Joint{Thread: m6, Stud: ok, Nut: ok, Hole: units.MM(6)}, "hole for M6x1"},
		{"hole below the minor diameter", Joint{Thread: m6, Stud: ok, Nut: ok, Hole: units.MM(4)}, "from 4.782 mm"},
		{"one class", Joint{Thread: m6, Stud: ok, Nut: ok, StudClass: "6g"}, "both or neither"},
		{"classes swapped", Joint{Thread: m6, Stud: ok, Nut: ok, StudClass: "6H", NutClass: "6g"}, "one of a screw"},
		{"unknown class", Joint{Thread: m6, Stud: ok, Nut: ok, StudClass: "2A", NutClass: "2B"}, "2A"},
	} {
		if got, err := tt.j.Engagement(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %+v, %v; want %q", tt.name, got, err, tt.want)
		}
	}
}

func TestErrataOfStrength(t *testing.T) {
	load, err := MustParse("M4").BoltStrength("10.9")
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "thread/strength", map[string]float64{
		"breaking-M4-10.9":    math.Round(float64(load.Breaking)/10) * 10, // printed to three figures
		"stress-area-7_16-14": float64(MustParse("7/16-14 UNC").StressArea().Area / units.SquareInch),
	})
}

func TestStrengthTables(t *testing.T) { check.Tables(t, tables, "tables/strength_*.csv") }
func TestHexagonSources(t *testing.T) { check.Tables(t, tables, "tables/hexagons_*.csv") }

// An engagement owns up to what was recalled behind it.
func TestEngagementRefOwnsUpToMemory(t *testing.T) {
	for _, tt := range []struct {
		thread, says string
		kind         source.Kind
	}{
		{"M2.5", "H28", source.Published},
		{"M12", "6g in 6H recalled in part", source.FromMemory}, // the crest of 6g
		{"2 BA", "H28", source.Published},
		{"1/4 BSF", "medium in normal nut recalled", source.FromMemory},
		{"10-32 UNF", "2A in 2B recalled in part", source.FromMemory},
		{"1/4x40 ME", "H28", source.Published},
		{"Tr 10x2", "7e in 7H recalled", source.FromMemory},
		{"1/2-10 Acme", "2G in 2G nut recalled", source.FromMemory},
		{"Tr 40x7", "H28", source.Published}, // no limits: basic sizes
	} {
		e, err := Joint{Thread: MustParse(tt.thread), Stud: 430 * units.Megapascal, Nut: 230 * units.Megapascal}.Engagement()
		if err != nil || e.Ref.Kind != tt.kind || !strings.Contains(e.Ref.String(), tt.says) {
			t.Errorf("%s: %v, %v", tt.thread, e.Ref, err)
		}
	}
}
