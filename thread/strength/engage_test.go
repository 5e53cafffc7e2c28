package strength

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"pgregory.net/rapid"
)

func TestStrippingPublished(t *testing.T) {
	for r := range check.Open(t, "thread/strength/stripping.csv").Rows() {
		th := thread.MustParse(r.Text("thread"))
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
			r.Within("bolt_area", s.stud()*length/square, max(check.HalfLastPlace(r.Text("bolt_area")),
				0.02*r.Float("bolt_area")))
		}
		// The nut's hangs on diameters that all print alike; the second table is
		// rounded from areas for an inch.
		r.Within("nut_area", s.nut()*length/square, max(1.2*check.HalfLastPlace(r.Text("nut_area")),
			0.004*r.Float("nut_area")))
	}
}

// A handbook chapter's example: an M10x1.5 screw of class 10.9 in an aluminium
// of 130 MPa shear strength takes 21.6 mm of engagement for 69 600 N. It works
// with the largest major diameter of 6g, 9.968 mm, which it calls the least; the
// least is 9.732 mm.
func TestStrippingWorkedExample(t *testing.T) {
	th := thread.MustParse("M10")
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

func TestEngagementProperties(t *testing.T) {
	names := []string{"M2", "M6", "M20", "8 BA", "0 BA", "1/4 BSW", "3/8 BSF", "1/4x32 ME", "6-32 UNC", "1/2-20 UNF"}
	rapid.Check(t, func(t *rapid.T) {
		j := Joint{
			Thread: thread.MustParse(rapid.SampledFrom(names).Draw(t, "thread")),
			Stud:   units.Pressure(rapid.Float64Range(100, 1200).Draw(t, "stud")) * units.Megapascal,
			Nut:    units.Pressure(rapid.Float64Range(100, 1200).Draw(t, "nut")) * units.Megapascal,
		}
		e, err := j.Solve()
		if err != nil {
			t.Fatal(err)
		}
		// At the length given, the weaker thread holds just what breaks the stud.
		turns := e.Length.Ratio(j.Thread.Pitch())
		if weaker := min(float64(e.StudStrips),
			float64(e.NutStrips)) * turns; math.Abs(weaker-float64(e.Breaks)) > 1e-6*float64(e.Breaks) {
			t.Fatalf("%v holds %g N, the stud %v", e.Length, weaker, e.Breaks)
		}
		// A larger hole never shortens it.
		open := j
		open.Hole = j.Thread.Minor().Add(j.Thread.Major().Sub(j.Thread.Minor()).Scale(0.3))
		tight := j
		tight.Hole = j.Thread.Minor()
		a, errA := tight.Solve()
		b, errB := open.Solve()
		if errA != nil || errB != nil || b.Length.Cmp(a.Length) < 0 {
			t.Fatalf("hole %v: %v; hole %v: %v (%v, %v)", tight.Hole, a.Length, open.Hole, b.Length, errA, errB)
		}
	})
}

func TestEngagementRefuses(t *testing.T) {
	m6 := thread.MustParse("M6")
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
		if got, err := tt.j.Solve(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %+v, %v; want %q", tt.name, got, err, tt.want)
		}
	}
}

func TestErrataOfStrength(t *testing.T) {
	load, err := BoltFor(thread.MustParse("M4"), "10.9")
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "thread/strength", map[string]float64{
		"breaking-M4-10.9":    math.Round(float64(load.Breaking)/10) * 10, // printed to three figures
		"stress-area-7_16-14": float64(StressAreaOf(thread.MustParse("7/16-14 UNC")).Area / units.SquareInch),
	})
}

func TestStrengthTables(t *testing.T) { check.Tables(t, files, "tables/*.csv") }

// An engagement owns up to what was recalled behind it.
func TestEngagementRefsOwnUpToMemory(t *testing.T) {
	for _, tt := range []struct {
		thread, says string
		recalled     bool
	}{
		{"M2.5", "unreviewed: Metric Pitch Diameter, Roll Threads", true}, // the crest and the deviation of 6g
		{"M12", "tolerance of the crest diameter recalled", true},         // the crest of 6g
		{"2 BA", "H28", false},
		{"1/4 BSF", "BS 84", true},
		{"10-32 UNF", "ASME B1.1", true},
		{"1/4x40 ME", "H28", false},
		{"Tr 10x2", "ISO 2903", true},
		{"1/2-10 Acme", "ASME B1.5", true},
		{"Tr 40x7", "H28", false}, // no limits: basic sizes
	} {
		e, err := Joint{Thread: thread.MustParse(tt.thread), Stud: 430 * units.Megapascal,
			Nut: 230 * units.Megapascal}.Solve()
		if err != nil || e.Refs.Recalled() != tt.recalled || !strings.Contains(e.Refs.String(),
			tt.says) || e.Refs.First() != engageRef {
			t.Errorf("%s: %v, %v", tt.thread, e.Refs, err)
		}
	}
}

// By material both count with the strength at which they give way: mild steel
// yields at 210 MPa, grey iron breaks at 124, gunmetal yields at 97.
func TestEngagementByMaterial(t *testing.T) {
	m4 := thread.MustParse("M4")
	for nut, mpa := range map[string]float64{"cast iron": 124, "gunmetal": 97} {
		byName, err := Joint{Thread: m4, StudOf: metal(t, "steel"), NutOf: metal(t, nut)}.Solve()
		byFigure, _ := Joint{Thread: m4, Stud: 210 * units.Megapascal, Nut: units.Pressure(mpa) * units.Megapascal}.Solve()
		if err != nil || byName.Length != byFigure.Length || byName.Refs.Len() <= byFigure.Refs.Len() {
			t.Errorf("%s: %+v, %v; by figure %v", nut, byName, err, byFigure.Length)
		}
	}
	for _, bad := range []Joint{
		{Thread: m4, StudOf: metal(t, "steel")},
		{Thread: m4, StudOf: metal(t, "steel"), NutOf: metal(t, "cork")},
		{Thread: m4, StudOf: metal(t, "steel"), NutOf: metal(t, "brass"), Nut: units.Megapascal},
	} {
		if got, err := bad.Solve(); err == nil {
			t.Errorf("%+v: %+v", bad, got)
		}
	}
}

// The zero Thread is no thread: errors and zero sizes, never a panic.
func TestNoThread(t *testing.T) {
	var none thread.Thread
	if StressAreaOf(none).Area != 0 {
		t.Error("no thread has a stress area")
	}
	for name, err := range map[string]error{
		"BoltFor":       second(BoltFor(none, "8.8")),
		"BoltOf":        second(BoltOf(none, material.Material{})),
		"NutFactor":     second(Friction{none, 0.1, 0.1, units.Length{}}.NutFactor()),
		"Tapping":       second(Tapping{none, units.MM(5), thread.SecondTap, material.Material{}, "Ck 45"}.Torque()),
		"StudLengthFor": second(StudLengthFor(none, BrassIronSteel)),
		"Joint":         second(Joint{Stud: units.Megapascal, Nut: units.Megapascal}.Solve()),
	} {
		if err == nil || err.Error() != none.Validate().Error() {
			t.Errorf("%s: error %v, want %v", name, err, none.Validate())
		}
	}
}

func second[T any](_ T, err error) error { return err }
