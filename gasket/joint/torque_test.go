package joint

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

func TestTorque(t *testing.T) {
	f := check.Open(t, "gasket/joint/torque.csv")
	for r := range f.Rows() {
		force := units.Force(r.Float("force_lbf")) * units.PoundForce
		if r.Has("stress_kpsi") {
			l, err := Studs{Number: 1, Diameter: units.Inch(0.75), StressArea: units.Area(r.Float("area_in2")) * units.SquareInch, Proof: units.Gigapascal, Preload: Reusable}.Load(force)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("stress_kpsi", float64(l.Stress/units.PSI)/1000)
			continue
		}
		d := units.Inch(r.Float("diameter_in"))
		torque, err := Torque(r.Float("k"), force, d)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("torque_lbf_in", float64(torque/units.PoundForceInch))
		least, most, err := PreloadFor(torque, r.Float("k"), 2*r.Float("k"), d)
		if err != nil || math.Abs(float64(most/force)-1) > 1e-12 || math.Abs(float64(least/force)-0.5) > 1e-12 {
			t.Errorf("%s: back to preloads of %v to %v, %v", r.ID, least, most, err)
		}
	}
}

func TestNutFactorTable(t *testing.T) {
	check.Tables(t, files, "tables/*.csv")
	rows, _, err := table.Read(files, "tables/nut_factor.csv", func(r *table.Row) [3]string {
		return [3]string{r.Text("condition") + r.Text("source"), r.Text("low"), r.Text("high")}
	})
	if err != nil || len(rows) != 11 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	seen := map[string]bool{}
	for _, r := range rows {
		if seen[r[0]] {
			t.Errorf("%s stands twice", r[0])
		}
		seen[r[0]] = true
	}
	ranges := map[string][2]float64{"lubricated": {1, 0}, "dry": {1, 0}}
	for _, f := range NutFactors() {
		condition := "dry"
		if f.Condition == "lubricated" {
			condition = f.Condition
		}
		r := ranges[condition]
		ranges[condition] = [2]float64{min(r[0], f.Low), max(r[1], f.High)}
	}
	witness := check.Open(t, "gasket/joint/nut_factor.csv")
	for r := range witness.Rows() {
		limits := ranges[r.Text("condition")]
		r.Within("k", (limits[0]+limits[1])/2, (limits[1]-limits[0])/2)
	}
	// Table 8-15 of Shigley's Mechanical Engineering Design, 9th edition, p. 439,
	// typed a second time.
	again := map[string]float64{"not plated, black": 0.30, "zinc plated": 0.20, "lubricated": 0.18, "cadmium plated": 0.16, "with anti-seize compound": 0.12, "with special-grip nuts": 0.09}
	for _, f := range NutFactors() {
		if !strings.Contains(f.Ref.Title, "Shigley") {
			continue
		}
		if k := again[f.Condition]; f.Low != k || f.High != k {
			t.Errorf("%s: %g to %g, want %g", f.Condition, f.Low, f.High, k)
		}
		delete(again, f.Condition)
	}
	if len(again) > 0 {
		t.Errorf("not in the table: %v", again)
	}
	// Two books that disagree both stand.
	var zinc []float64
	for _, f := range NutFactors() {
		if strings.HasPrefix(f.Condition, "zinc plated") {
			zinc = append(zinc, f.Low)
		}
	}
	if !slices.Equal(zinc, []float64{0.20, 0.295}) {
		t.Errorf("zinc plated: %v", zinc)
	}
}

func TestTorqueRefuses(t *testing.T) {
	second := func(_ any, err error) error { return err }
	third := func(_, _ any, err error) error { return err }
	for _, test := range []refusal{
		{"K", second(Torque(0, 1, units.MM(3))), units.ErrOutOfRange, "nut factor"},
		{"K of one", second(Torque(1, 1, units.MM(3))), units.ErrOutOfRange, "below 1"},
		{"no thread", second(Torque(0.2, 1, units.MM(0))), units.ErrOutOfRange, "diameter of the thread"},
		{"K the wrong way round", third(PreloadFor(1, 0.3, 0.2, units.MM(3))), units.ErrOutOfRange, "at most the upper"},
		{"no torque", third(PreloadFor(0, 0.1, 0.2, units.MM(3))), units.ErrOutOfRange, "torque"},
	} {
		test.check(t)
	}
}
