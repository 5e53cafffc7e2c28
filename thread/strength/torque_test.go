package strength

import (
	"math"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A textbook's example: a 3/4-16 UNF screw at 25 000 lbf, friction 0.15 in the
// thread and on a collar of 1.25 d.
func TestTorqueWorkedExample(t *testing.T) {
	th := thread.MustParse("3/4-16 UNF")
	pull := 25000 * units.PoundForce
	k, err := Friction{th, 0.15, 0.15, th.Major().Scale(1.25)}.NutFactor()
	if err != nil {
		t.Fatal(err)
	}
	friction, errF := Tightening{Diameter: th.Major(), Factor: k, Pull: pull}.Solve()
	short, errS := Tightening{Diameter: th.Major(), Factor: DryThreads(), Pull: pull}.Solve()
	if errF != nil || errS != nil {
		t.Fatal(errF, errS)
	}
	for r := range check.Open(t, "thread/strength/torque_worked.csv").Rows() {
		// The book works from an area of three figures and a mean diameter from
		// the core, 0.0001 in from the pitch diameter.
		tolerance := r.Float("tolerance")
		switch r.Text("quantity") {
		case "stress, kpsi":
			r.Within("value", float64(pull)/float64(StressAreaOf(th).Area)/float64(units.PSI)/1000, tolerance)
		case "mean diameter, in":
			r.Within("value", th.PitchDiameter().Inch(), tolerance)
		case "tangent of lead angle":
			r.Within("value", math.Tan(th.LeadAngle().Radians()), tolerance)
		case "torque by friction, lbf in":
			r.Within("value", float64(friction.Torque/units.PoundForceInch), tolerance)
		case "torque at K 0.20, lbf in":
			r.Within("value", float64(short.Torque/units.PoundForceInch), tolerance)
		default:
			t.Fatalf("%s: quantity %q", r.ID, r.Text("quantity"))
		}
	}
}

func TestTorqueArticle(t *testing.T) {
	// A trade article's figures for a 3/8-16 screw: 4940 lbf takes 23 lbf ft at K
	// 0.15 (and 30 at 0.20, cut off from 30.9).
	th := thread.MustParse("3/8-16 UNC")
	if got, err := (Tightening{Diameter: th.Major(), Factor: OiledThreads(),
		Pull: 4940 * units.PoundForce}).Solve(); err != nil || math.Abs(float64(got.Torque/units.PoundForceFoot)-23) > 0.5 {
		t.Errorf("3/8-16 oiled: %v, %v; the article has 23 lbf ft", got, err)
	}
}

func TestTorqueProperties(t *testing.T) {
	threads := slices.Collect(thread.MetricCoarse.All())
	rapid.Check(t, func(t *rapid.T) {
		th := rapid.SampledFrom(threads).Draw(t, "thread")
		k := NutFactor{K: rapid.Float64Range(0.05, 0.5).Draw(t, "K"), Scatter: rapid.Float64Range(0, 0.5).Draw(t, "scatter")}
		pull := units.Force(rapid.Float64Range(1, 1e6).Draw(t, "pull"))
		a, err := Tightening{Diameter: th.Major(), Factor: k, Pull: pull}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		b, err := Tightening{Diameter: th.Major(), Factor: k, Torque: a.Torque}.Solve()
		if err != nil || math.Abs(float64(b.Pull-pull)) > 1e-9*float64(pull) {
			t.Fatalf("%v comes back as %v, %v", pull, b.Pull, err)
		}
		if a.PullMin > a.Pull || a.PullMax < a.Pull || math.Abs(float64(a.PullMax+a.PullMin-2*a.Pull)) > 1e-9*float64(pull) {
			t.Fatalf("%v: %v to %v", a.Pull, a.PullMin, a.PullMax)
		}
	})
	m6 := units.MM(6)
	for _, bad := range []NutFactor{{}, {K: 20}, {K: math.NaN()}, {K: 0.2, Scatter: 35}, {K: 0.2, Scatter: -1}} {
		if got, err := (Tightening{Diameter: m6, Factor: bad, Pull: 1000}).Solve(); err == nil {
			t.Errorf("%+v: %v", bad, got)
		}
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if got, err := (Tightening{Diameter: m6, Factor: DryThreads(), Pull: units.Force(bad)}).Solve(); err == nil {
			t.Errorf("pull %g: %v", bad, got)
		}
		if got, err := (Tightening{Diameter: m6, Factor: DryThreads(), Torque: units.Torque(bad)}).Solve(); err == nil {
			t.Errorf("torque %g: %v", bad, got)
		}
	}
	if k, err := (Friction{thread.MustParse("M6"), 15, 0.15, units.MM(8)}).NutFactor(); err == nil {
		t.Errorf("friction in percent: %v", k)
	}
	if k, err := (Friction{thread.MustParse("M6"), 0.15, 0.15, units.MM(5)}).NutFactor(); err == nil {
		t.Errorf("face smaller than the screw: %v", k)
	}
	if got, err := (Tightening{Diameter: m6, Factor: NutFactor{K: 20}, Torque: 5}).Solve(); err == nil {
		t.Errorf("K in per cent: %v", got)
	}
	if got, _ := (Tightening{Diameter: m6, Factor: DryThreads(),
		Pull: 1000}).Solve(); got.String() != "1.2 N·m for 1000 N (650 to 1350 N)" {
		t.Errorf("String() = %q", got)
	}
}

// Both spreads tell of one thing: the wider counts at either end, and they are
// not multiplied.
func TestPullSpread(t *testing.T) {
	for _, tt := range []struct {
		factor    NutFactor
		low, high float64
	}{
		{NutFactor{K: 0.2, Scatter: 0.35}, 0.65, 1.35},
		{NutFactor{K: 0.2, Min: 0.15, Max: 0.25, Scatter: 0.35}, 0.65, 1.35},    // 0.8 to 1.333 by K alone
		{NutFactor{K: 0.1125, Min: 0.075, Max: 0.15, Scatter: 0.25}, 0.75, 1.5}, // 0.75 to 1.25 by scatter alone
		{NutFactor{K: 0.2, Min: 0.1, Max: 0.4}, 0.5, 2},
	} {
		got, err := Tightening{Diameter: units.MM(6), Factor: tt.factor, Pull: 1000}.Solve()
		if err != nil || math.Abs(float64(got.PullMin)/1000-tt.low) > 1e-9 ||
			math.Abs(float64(got.PullMax)/1000-tt.high) > 1e-9 {
			t.Errorf("%+v: %v, %v; want %g to %g", tt.factor, got, err, tt.low, tt.high)
		}
	}
	// Ten lubricated bolts at one torque, 30.3 to 40.5 kN (Shigley, 9th edition,
	// table 8-14, p. 439), lie within the scatter for a lubricant.
	middle := units.Force(30.3+40.5) / 2
	got, err := Tightening{Diameter: units.MM(12), Factor: OiledThreads(), Pull: middle}.Solve()
	if err != nil || got.PullMin > 30.3 || got.PullMax < 40.5 {
		t.Errorf("%v, %v", got, err)
	}
	both := Tightening{Diameter: units.MM(6), Factor: DryThreads(), Pull: 1000, Torque: 1}
	if got, err := both.Solve(); err == nil {
		t.Errorf("torque and pull given: %v", got)
	}
	if got, err := (Tightening{Factor: DryThreads(), Pull: 1000}).Solve(); err == nil {
		t.Errorf("no diameter: %v", got)
	}
}

// Each published torque, from the K and the pull printed with it.
func TestTorquePublished(t *testing.T) {
	for r := range check.Open(t, "thread/strength/torque.csv").Rows() {
		got, err := Tightening{
			Diameter: units.Inch(r.Float("diameter_in")), Factor: NutFactor{K: r.Float("k")},
			Pull: units.Force(r.Float("force_lbf")) * units.PoundForce,
		}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("torque_lbf_in", got.Torque.In(units.PoundForceInch))
	}
}
