package joint

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A cover of 50.8 mm at 5.5 bar on six studs: 1,115 N, 186 N each, and twice that
// of preload. Mechanics; twice is common practice.
func TestStudsOfACover(t *testing.T) {
	total, err := EndForce(5.5*units.Bar, circleArea(units.MM(50.8)))
	if err != nil || math.Abs(float64(total)-1115) > 11 {
		t.Fatalf("%v, %v", total, err)
	}
	s := Studs{Number: 6, Diameter: units.MM(3), StressArea: 5.03 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: 0.33}
	l, err := s.Load(total)
	if err != nil || math.Abs(float64(l.Working)-186) > 2 || math.Abs(float64(l.Preload)-373) > 4 || len(l.Findings) != 0 {
		t.Errorf("%+v, %v", l, err)
	}
	for _, test := range []struct {
		share  float64
		want   finding.Severity
		code   finding.Code
		remedy string // 2 x 1115 N over share x 225 x 5.03 N
	}{
		{0.325, finding.Caution, LittlePreload, "Take 7 such studs"}, {0.30, finding.Caution, LittlePreload, "Take 7 such studs"},
		{0.20, finding.Danger, CoverLifts, "Take 10 such studs"}, {0.001, finding.Danger, CoverLifts, "Take more studs"},
	} {
		s.Preload = test.share
		l, err := s.Load(total)
		if err != nil || len(l.Findings) != 1 || l.Findings[0].Severity != test.want || l.Findings[0].Code != test.code ||
			!strings.HasPrefix(l.Findings[0].Remedies[0], test.remedy) || !strings.Contains(l.Findings[0].Remedies[1], "to 372 N, 33 percent") {
			t.Errorf("share %g: %+v, %v", test.share, l, err)
		}
	}
	// three quarters of the proof load for a joint that comes apart: 0.75 * 225 * 5.03
	s.Preload = Reusable
	if l, err := s.Load(total); err != nil || math.Abs(float64(l.Preload)-848.8) > 0.1 || math.Abs(float64(l.Relaxed)-679.1) > 0.1 {
		t.Errorf("%+v, %v", l, err)
	}
	// any load needs one stud
	if n, err := StudsNeeded(1e-9, 1e-3, 1e9); err != nil || n != 1 {
		t.Errorf("%d studs, %v", n, err)
	}
	if l, err := s.Load(0); err != nil || len(l.Findings) != 0 {
		t.Errorf("no load: %+v, %v", l, err)
	} else if times, loaded := l.Margin(); loaded || times != 0 {
		t.Errorf("no load has a margin of %g", times)
	}
}

// Studs that the load alone stretches are the fault, the cover that lifts what
// follows. By hand: 7200 N on six of 5.03 mm2 are 238.6 MPa, and the proof 225.
func TestOverloaded(t *testing.T) {
	s := Studs{Number: 6, Diameter: units.MM(3), StressArea: 5.03 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: InCasting}
	l, err := s.Load(7200)
	if err != nil || len(l.Findings) != 2 || l.Findings[0].Code != StudOverloaded || l.Findings[1].Code != CoverLifts {
		t.Fatalf("%+v, %v", l, err)
	}
	if worst, _ := l.Findings.Worst(); worst != finding.Danger || l.Findings.OK() || !strings.Contains(l.Findings[0].Text, "238.6 MPa") {
		t.Errorf("%v", l.Findings)
	}
	l.Findings[0].Remedies[0] = "changed"
	if l.Findings[1].Remedies[0] == "changed" {
		t.Error("two findings share their remedies")
	}
	if l, err = s.Load(6700); err != nil || len(l.Findings) != 1 || l.Findings[0].Code != CoverLifts { // 222 MPa
		t.Errorf("%+v, %v", l, err)
	}
}

// What a joint without load answers can be kept as JSON.
func TestStudLoadReadsBack(t *testing.T) {
	l, err := Studs{Number: 2, StressArea: 5e-6, Proof: 2e8, Preload: InCasting}.Load(0)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(l)
	var back StudLoad
	if err != nil || json.Unmarshal(text, &back) != nil || back.Preload != l.Preload || !back.Refs.Equal(l.Refs) {
		t.Errorf("%s came back as %+v, %v", text, back, err)
	}
}

func TestStudStress(t *testing.T) {
	f := check.Open(t, "gasket/joint/stud_stress.csv")
	for r := range f.Rows() {
		s := Studs{Number: 1, Diameter: units.Inch(0.75), StressArea: units.Area(r.Float("area_in2")) * units.SquareInch, Proof: units.Gigapascal, Preload: Reusable}
		l, err := s.Load(units.Force(r.Float("force_lbf")) * units.PoundForce)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("stress_kpsi", l.Stress.In(units.PSI)/1000)
	}
}

// Small soft steel studs tightened to 30 percent of their yield.
func TestSmallStuds(t *testing.T) {
	f := check.Open(t, "gasket/joint/small_studs.csv")
	for r := range f.Rows() {
		core := units.MM(r.Float("diameter_mm") - 0.938194*r.Float("pitch_mm"))
		s := Studs{Number: 6, Diameter: units.MM(r.Float("diameter_mm")), StressArea: circleArea(core), Proof: 240 * units.Megapascal, Preload: InCasting}
		l, err := s.Load(0)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("preload_n", float64(l.Preload))
		torque, err := strength.Tightening{Diameter: s.Diameter, Factor: strength.DryThreads(), Pull: l.Preload}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("torque_nm", torque.Torque.In(units.NewtonMetre))
	}
}

func TestRequiredArea(t *testing.T) {
	l, err := Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 7.584 * units.Megapascal}.Loads(0.55 * units.Megapascal)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 1038.0 N at 50 MPa needs 20.76 mm2, 2379.1 N at 100 MPa 23.79 mm2.
	a, err := RequiredArea(l, 50*units.Megapascal, 100*units.Megapascal)
	if err != nil || math.Abs(a.In(units.SquareMillimetre)-23.791) > 0.001 {
		t.Errorf("%v, %v", a, err)
	}
}

func TestStudsRefuses(t *testing.T) {
	second := check.Only
	nan := math.NaN()
	studs := Studs{Number: 6, Diameter: units.MM(3), StressArea: 5 * units.SquareMillimetre, Proof: 200 * units.Megapascal, Preload: Reusable}
	stud := func(f func(*Studs), load units.Force) error {
		s := studs
		f(&s)
		return second(s.Load(load))
	}
	check.Refuses(t, "stress area of a thicker stud", stud(func(s *Studs) { s.StressArea = 8 * units.SquareMillimetre }, 1), units.ErrOutOfRange, "0.4 to 1 of the circle of the diameter, 3 mm")
	check.Refuses(t, "stress area of a thinner stud", stud(func(s *Studs) { s.StressArea = 2 * units.SquareMillimetre }, 1), units.ErrOutOfRange, "stress area 2 mm2")
	check.Refuses(t, "negative diameter", stud(func(s *Studs) { s.Diameter = units.MM(-3) }, 1), units.ErrOutOfRange, "-3 mm")
	check.Refuses(t, "loads not a number", second(RequiredArea(Loads{Operating: units.Force(nan)}, 1, 1)), units.ErrNotFinite, "operating load")
	check.Refuses(t, "number", stud(func(s *Studs) { s.Number = 0 }, 1), units.ErrOutOfRange, "number of studs 0")
	check.Refuses(t, "stress area", stud(func(s *Studs) { s.StressArea = 0 }, 1), units.ErrOutOfRange, "stress area")
	check.Refuses(t, "proof", stud(func(s *Studs) { s.Proof = 0 }, 1), units.ErrOutOfRange, "proof strength")
	check.Refuses(t, "share", stud(func(s *Studs) { s.Preload = 1.1 }, 1), units.ErrOutOfRange, "0.75 for a joint")
	check.Refuses(t, "negative share", stud(func(s *Studs) { s.Preload = -1 }, 1), units.ErrOutOfRange, "share")
	check.Refuses(t, "load", stud(func(*Studs) {}, -1), units.ErrOutOfRange, "load of the joint")
	check.Refuses(t, "hot", second(RequiredArea(Loads{}, 0, 1)), units.ErrOutOfRange, "when hot")
	check.Refuses(t, "cold", second(RequiredArea(Loads{}, 1, 0)), units.ErrOutOfRange, "when cold")
	check.Refuses(t, "no stress", second(StudsNeeded(1, 1, 0)), units.ErrOutOfRange, "stress allowed")
	check.Refuses(t, "too many studs", second(StudsNeeded(1e9, 1e-6, 1)), units.ErrOutOfRange, "up to 1000")
	check.Refuses(t, "no share", stud(func(s *Studs) { s.Preload = 0 }, 1), units.ErrMissing, "0.3 in a casting")
	check.Refuses(t, "share not a number", stud(func(s *Studs) { s.Preload = nan }, 1), units.ErrNotFinite, "share")
}
