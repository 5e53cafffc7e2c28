package joint

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func circleArea(d units.Length) units.Area {
	return units.Area(math.Pi / 4 * d.Metres() * d.Metres())
}

func TestWorkedLoads(t *testing.T) {
	got := map[string]map[string]float64{}
	loads := func(name string, g Gasket, p units.Pressure) Loads {
		t.Helper()
		l, err := g.Loads(p)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return l
	}
	metric := Gasket{Outside: units.MM(685.8), Inside: units.MM(628.7), M: 3, Y: 69 * units.Megapascal, Rule: MetricRule}
	l := loads("flange-metric", metric, 10.2*units.Megapascal)
	withMoment := loads("flange-metric", metric, (10.2+0.7276)*units.Megapascal)
	sheetEnd := float64(withMoment.EndForce/units.Kilonewton) * 0.785 / (math.Pi / 4) // the sheet's quarter of pi
	got["flange-metric"] = map[string]float64{
		"N mm": l.Width.MM(), "b0 mm": l.BasicWidth.MM(), "b mm": l.EffectiveWidth.MM(), "G mm": l.Reaction.MM(),
		"H kN": sheetEnd, "Hp kN": float64(l.Holding / units.Kilonewton), "Wm1 kN": sheetEnd + float64(l.Holding/units.Kilonewton),
		"Wm2 kN": float64(l.Seating / units.Kilonewton),
	}
	end, holding, seating := ringLoads(units.Inch(40.79), units.Inch(0.42), 5.5, 18000.666*units.PSI, 2900.76*units.PSI)
	got["ring-joint"] = map[string]float64{"H lbf": float64(end / units.PoundForce), "Hp lbf": float64(holding / units.PoundForce), "Wm2 lbf": float64(seating / units.PoundForce)}

	l = loads("flange-inch", Gasket{Outside: units.Inch(17.75), Inside: units.Inch(16.25), M: 3, Y: 10000 * units.PSI}, 0)
	got["flange-inch"] = map[string]float64{"b in": l.EffectiveWidth.Inch(), "G in": l.Reaction.Inch(), "Wm2 lbf": float64(l.Seating / units.PoundForce)}

	pipe, err := EndForce(3.5*units.Megapascal, circleArea(units.MM(430)))
	if err != nil {
		t.Fatal(err)
	}
	bolts, err := StudsNeeded(pipe, circleArea(units.MM(40)), (80-55)*units.Megapascal)
	if err != nil {
		t.Fatal(err)
	}
	// The page prints 16.19 bolts for 16.18, and 17 either way.
	check.Errata(t, "joint", map[string]float64{"singer-142-bolts": float64(pipe) / (25e6 * float64(circleArea(units.MM(40))))})
	got["steam-pipe"] = map[string]float64{"F N": float64(pipe), "n": float64(bolts)}

	kgfcm2 := units.Pressure(9.80665e4)
	head, err := EndForce(12.5*kgfcm2, circleArea(units.MM(350)))
	if err != nil {
		t.Fatal(err)
	}
	bolts, err = StudsNeeded(head, circleArea(units.MM(20)), 330*kgfcm2)
	if err != nil {
		t.Fatal(err)
	}
	kilograms, err := EndForce(8.5*kgfcm2, circleArea(units.MM(350)))
	if err != nil {
		t.Fatal(err)
	}
	area, err := RequiredArea(Loads{Operating: kilograms}, 200*kgfcm2, 200*kgfcm2)
	if err != nil {
		t.Fatal(err)
	}
	got["steam-head"] = map[string]float64{"n": float64(bolts), "d mm": 1000 * math.Sqrt(float64(area)/14*4/math.Pi)}

	iron, err := EndForce(0.12*units.Megapascal, circleArea(units.MM(400)))
	if err != nil {
		t.Fatal(err)
	}
	each, err := Studs{Number: 14, Diameter: units.MM(8), StressArea: 36.6 * units.SquareMillimetre, Proof: 225 * units.Megapascal}.Load(iron)
	if err != nil {
		t.Fatal(err)
	}
	got["iron-head"] = map[string]float64{"F N": float64(iron), "F1 N": float64(each.Working), "A mm2": float64(each.Working) / 35, "core mm": math.Sqrt(float64(each.Working) / 35 * 4 / math.Pi)}

	plate, err := EndForce(4*units.Megapascal, circleArea(units.MM(70)))
	if err != nil {
		t.Fatal(err)
	}
	got["plate-studs"] = map[string]float64{}
	for steel, strength := range map[string]units.Pressure{"EN1A n": 420 * units.Megapascal, "EN3 n": 460 * units.Megapascal} {
		n, err := StudsNeeded(plate, circleArea(units.MM(8.16)), strength/12)
		if err != nil {
			t.Fatal(err)
		}
		got["plate-studs"][steel] = float64(n)
	}

	l = loads("small-cover", Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 7.584 * units.Megapascal}, 0.55*units.Megapascal)
	got["small-cover"] = map[string]float64{
		"b0 mm": l.BasicWidth.MM(), "b mm": l.EffectiveWidth.MM(), "G mm": l.Reaction.MM(),
		"H N": float64(l.EndForce), "Hp N": float64(l.Holding), "Wm1 N": float64(l.Operating), "Wm2 N": float64(l.Seating),
	}
	if l.Greater() != l.Seating {
		t.Errorf("the seating load decides for paper at low pressure, got %v", l.Greater())
	}
	f := check.Open(t, "gasket/bolt_load.csv")
	for r := range f.Rows() {
		v, ok := got[r.Text("case")][r.Text("quantity")]
		if !ok {
			t.Errorf("%s: nothing computes it", r.ID)
		}
		r.Within("value", v, r.Float("tolerance"))
	}
}

// At the limit of the inch rule b and G go on without a step; the metric rule has
// a small one.
func TestWidthRules(t *testing.T) {
	width := func(rule WidthRule, b0 float64) Loads {
		t.Helper()
		l, err := Gasket{Outside: units.MM(200), Inside: units.MM(200 - 4*b0), M: 1, Y: 1, Rule: rule}.Loads(0)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	for _, test := range []struct {
		name        string
		rule        WidthRule
		limit, step float64
	}{
		{"inch", InchRule, 6.35, 0},
		{"metric", MetricRule, 6, 2.5*math.Sqrt(6) - 6},
	} {
		below, above := width(test.rule, test.limit), width(test.rule, test.limit+1e-6)
		if d := above.EffectiveWidth.Sub(below.EffectiveWidth).MM(); math.Abs(d-test.step) > 1e-5 {
			t.Errorf("%s: step in b of %g, want %g", test.name, d, test.step)
		}
		if g := below.Reaction.MM(); math.Abs(g-(200-2*test.limit)) > 1e-9 {
			t.Errorf("%s: G below the limit %g", test.name, g)
		}
		if g := above.Reaction.MM(); math.Abs(g-(200-2*above.EffectiveWidth.MM())) > 1e-8 {
			t.Errorf("%s: G above the limit %g", test.name, g)
		}
	}
}

// On both sides of the limits, by hand: sqrt(6.5/25.4)/2 in is 6.4246 mm, and 2.5
// sqrt(6.5) 6.3738 mm.
func TestWideGasket(t *testing.T) {
	for _, test := range []struct {
		rule     WidthRule
		b0, want float64
	}{{InchRule, 6.3, 6.3}, {InchRule, 6.5, 6.4246}, {MetricRule, 5.9, 5.9}, {MetricRule, 6.5, 6.3738}} {
		l, err := Gasket{Outside: units.MM(200), Inside: units.MM(200 - 4*test.b0), M: 1, Y: 1, Rule: test.rule}.Loads(0)
		if err != nil || math.Abs(l.EffectiveWidth.MM()-test.want) > 0.00005 {
			t.Errorf("%v, b0 %g mm: b %v, want %g mm; %v", test.rule, test.b0, l.EffectiveWidth, test.want, err)
		}
	}
}

// The code's metric and inch loads of the same gasket agree within 1 percent.
func TestLoadsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inside := rapid.Float64Range(5, 200).Draw(t, "inside")
		width := rapid.Float64Range(0.5, 60).Draw(t, "width")
		m, y := rapid.Float64Range(0, 6).Draw(t, "m"), rapid.Float64Range(0, 120).Draw(t, "y")
		p := units.Pressure(rapid.Float64Range(0, 20).Draw(t, "bar")) * units.Bar
		var both [2]Loads
		for rule := range both {
			var err error
			g := Gasket{Outside: units.MM(inside + 2*width), Inside: units.MM(inside), M: m, Y: units.Pressure(y) * units.Megapascal, Rule: WidthRule(rule)}
			if both[rule], err = g.Loads(p); err != nil {
				t.Fatal(err)
			}
			l := both[rule]
			if l.Operating < l.EndForce || l.Greater() < l.Seating || l.Reaction.MM() <= inside || l.Reaction.MM() >= inside+2*width {
				t.Fatalf("%+v", l)
			}
		}
		if a, b := float64(both[0].Seating), float64(both[1].Seating); math.Abs(a-b) > 0.05*a {
			t.Fatalf("seating %g and %g", a, b)
		}
	})
}

func TestTorque(t *testing.T) {
	f := check.Open(t, "gasket/torque.csv")
	for r := range f.Rows() {
		force := units.Force(r.Float("force_lbf")) * units.PoundForce
		if r.Has("stress_kpsi") {
			l, err := Studs{Number: 1, Diameter: units.Inch(0.75), StressArea: units.Area(r.Float("area_in2")) * units.SquareInch, Proof: units.Gigapascal}.Load(force)
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
	f = check.Open(t, "gasket/small_studs.csv")
	for r := range f.Rows() {
		core := units.MM(r.Float("diameter_mm") - 0.938194*r.Float("pitch_mm"))
		r.Compare("area_mm2", float64(circleArea(core)/units.SquareMillimetre))
		s := Studs{Number: 6, Diameter: units.MM(r.Float("diameter_mm")), StressArea: circleArea(core), Proof: 240 * units.Megapascal, Preload: 0.3}
		l, err := s.Load(0)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("preload_n", float64(l.Preload))
		torque, err := Torque(0.20, l.Preload, s.Diameter)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("torque_nm", float64(torque))
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
	witness := check.Open(t, "gasket/nut_factor.csv")
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
		remedy string // 2 x 1115 N over share x 225 x 5.03 N
	}{{0.325, finding.Caution, "7 such studs"}, {0.30, finding.Caution, "7 such studs"}, {0.20, finding.Danger, "10 such studs"}, {0.001, finding.Danger, "More studs"}} {
		s.Preload = test.share
		l, err := s.Load(total)
		if err != nil || len(l.Findings) != 1 || l.Findings[0].Severity != test.want || !strings.HasPrefix(l.Findings[0].Remedies[0], test.remedy) {
			t.Errorf("share %g: %+v, %v", test.share, l, err)
		}
	}
	// three quarters of the proof load when nothing is said: 0.75 * 225 * 5.03
	s.Preload = 0
	if l, err := s.Load(total); err != nil || math.Abs(float64(l.Preload)-848.8) > 0.1 || math.Abs(float64(l.Relaxed)-679.1) > 0.1 {
		t.Errorf("%+v, %v", l, err)
	}
	// any load needs one stud
	if n, err := StudsNeeded(1e-9, 1e-3, 1e9); err != nil || n != 1 {
		t.Errorf("%d studs, %v", n, err)
	}
	if l, err := s.Load(0); err != nil || !math.IsInf(l.Margin, 1) || len(l.Findings) != 0 {
		t.Errorf("no load: %+v, %v", l, err)
	}
}

func TestOrder(t *testing.T) {
	circle := func(n int) gasket.Pattern {
		p, err := gasket.BoltCircle(n, units.MM(40), 1.1)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	without := func(p gasket.Pattern, i int) gasket.Pattern { return slices.Delete(slices.Clone(p), i, i+1) }
	chest, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		t.Fatal(err)
	}
	slanting := gasket.Pattern{}
	for i, at := range []float64{0, 1, 2, 3, 5} {
		slanting = append(slanting, gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(0.7 * at), Y: units.MM(3.7 + 1.9*at)}})
	}
	measured := gasket.Pattern{}
	for i, at := range [][2]float64{{20.1, 0}, {14.1, 14.2}, {0, 20}, {-14.2, 14.1}, {-20, 0.1}, {-14.1, -14.1}, {0.1, -20}, {14.1, -14.2}} {
		measured = append(measured, gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(at[0]), Y: units.MM(at[1])}})
	}
	row := gasket.Pattern{{Name: "1"}, {Name: "2", At: gasket.Point{X: units.MM(10)}}, {Name: "3", At: gasket.Point{X: units.MM(20)}}}
	for _, test := range []struct {
		name string
		p    gasket.Pattern
		want string
	}{
		{"two", circle(2), "1 2"},
		{"three", circle(3), "1 2 3"},
		{"four", circle(4), "1 3 2 4"},
		{"five", circle(5), "1 3 5 2 4"},
		{"six", circle(6), "1 4 2 5 3 6"},
		{"eight", circle(8), "1 5 3 7 2 6 4 8"},
		{"seven", circle(7), "1 4 7 3 6 2 5"},
		{"ten", circle(10), "1 6 3 8 5 10 2 7 4 9"},
		// a flange of 12 as pages for pipe fitters have it
		{"twelve", circle(12), "1 7 4 10 2 8 5 11 3 9 6 12"},
		// with studs left out: opposite pairs wherever both are there
		{"eight less the third", without(circle(8), 2), "1 5 8 4 7 2 6"},
		{"six less the third", without(circle(6), 2), "1 4 6 2 5"},
		{"eight less the third and fourth", without(without(circle(8), 3), 2), "1 5 7 2 8 6"},
		{"chest of eight", chest, "2 6 4 8 1 5 3 7"},
		{"in a row", row, "2 1 3"},
		{"in a slanting row", slanting, "3 4 2 5 1"},
		// a circle as it was measured, to 0.1 mm
		{"eight, measured", measured, "1 5 3 7 2 6 4 8"},
	} {
		order, err := Order(test.p)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, i := range order {
			names = append(names, test.p[i].Name)
		}
		if got := strings.Join(names, " "); got != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
	}
	// Every stud once, whatever the pattern.
	rapid.Check(t, func(t *rapid.T) {
		var p gasket.Pattern
		for i := range rapid.IntRange(2, 30).Draw(t, "n") {
			p = append(p, gasket.Hole{At: gasket.Point{X: units.MM(float64(i)), Y: units.MM(rapid.Float64Range(-20, 20).Draw(t, "y"))}})
		}
		order, err := Order(p)
		if err != nil {
			t.Fatal(err)
		}
		slices.Sort(order)
		for i, k := range order {
			if i != k {
				t.Fatalf("order %v", order)
			}
		}
	})
}

// For 3 mm studs the three rules give 9 to 18, 15 to 30 and 33 to 49 mm.
func TestSpacingRules(t *testing.T) {
	rules, err := SpacingRules(units.MM(3))
	if err != nil {
		t.Fatal(err)
	}
	want := [][2]float64{{9, 18}, {15, 30}, {32.909, 49.363}}
	for i, r := range rules {
		if math.Abs(r.Least.MM()-want[i][0]) > 0.001 || math.Abs(r.Most.MM()-want[i][1]) > 0.001 {
			t.Errorf("%s: %v to %v, want %v", r.Name, r.Least, r.Most, want[i])
		}
		if !r.Keeps(r.Least) || !r.Keeps(r.Most) || r.Keeps(r.Most.Add(units.MM(0.1))) || r.Keeps(r.Least.Sub(units.MM(0.1))) {
			t.Errorf("%s: limits", r.Name)
		}
	}
}

func TestRefuses(t *testing.T) {
	second := func(_ any, err error) error { return err }
	third := func(_, _ any, err error) error { return err }
	good := Gasket{Outside: units.MM(38), Inside: units.MM(25), M: 1, Y: 1}
	with := func(f func(*Gasket)) error {
		g := good
		f(&g)
		return second(g.Loads(units.Bar))
	}
	studs := Studs{Number: 6, Diameter: units.MM(3), StressArea: 5 * units.SquareMillimetre, Proof: 200 * units.Megapascal}
	stud := func(f func(*Studs), load units.Force) error {
		s := studs
		f(&s)
		return second(s.Load(load))
	}
	nan := math.NaN()
	for _, test := range []struct {
		name string
		err  error
		want error
		text string
	}{
		{"pressure", second(EndForce(units.Pressure(nan), 1)), units.ErrNotFinite, "pressure"},
		{"vacuum", second(EndForce(-1, 1)), units.ErrOutOfRange, "pressure"},
		{"area", second(EndForce(1, 0)), units.ErrOutOfRange, "area"},
		{"inside", with(func(g *Gasket) { g.Inside = units.MM(0) }), units.ErrOutOfRange, "inside diameter"},
		{"outside", with(func(g *Gasket) { g.Outside = g.Inside }), units.ErrOutOfRange, "outside diameter"},
		{"m", with(func(g *Gasket) { g.M = nan }), units.ErrNotFinite, "factor m"},
		{"negative m", with(func(g *Gasket) { g.M = -1 }), units.ErrOutOfRange, "factor m -1"},
		{"absurd pressure", with(func(g *Gasket) { g.Y = 1e13 }), units.ErrOutOfRange, "1e-12 to 1e12"},
		{"absurd area", second(EndForce(1, 1e300)), units.ErrOutOfRange, "area under pressure"},
		{"stress area of a thicker stud", stud(func(s *Studs) { s.StressArea = 8 * units.SquareMillimetre }, 1), units.ErrOutOfRange, "0.4 to 1 of the circle of the diameter, 3 mm"},
		{"stress area of a thinner stud", stud(func(s *Studs) { s.StressArea = 2 * units.SquareMillimetre }, 1), units.ErrOutOfRange, "stress area 2 mm2"},
		{"negative diameter", stud(func(s *Studs) { s.Diameter = units.MM(-3) }, 1), units.ErrOutOfRange, "-3 mm"},
		{"loads not a number", second(RequiredArea(Loads{Operating: units.Force(nan)}, 1, 1)), units.ErrNotFinite, "operating load"},
		{"y", with(func(g *Gasket) { g.Y = -1 }), units.ErrOutOfRange, "factor y"},
		{"rule", with(func(g *Gasket) { g.Rule = 7 }), units.ErrUnknown, "inch, metric"},
		{"number", stud(func(s *Studs) { s.Number = 0 }, 1), units.ErrOutOfRange, "number of studs 0"},
		{"stress area", stud(func(s *Studs) { s.StressArea = 0 }, 1), units.ErrOutOfRange, "stress area"},
		{"proof", stud(func(s *Studs) { s.Proof = 0 }, 1), units.ErrOutOfRange, "proof strength"},
		{"share", stud(func(s *Studs) { s.Preload = 1.1 }, 1), units.ErrOutOfRange, "0.75 for a joint"},
		{"negative share", stud(func(s *Studs) { s.Preload = -1 }, 1), units.ErrOutOfRange, "share"},
		{"load", stud(func(*Studs) {}, -1), units.ErrOutOfRange, "load of the joint"},
		{"hot", second(RequiredArea(Loads{}, 0, 1)), units.ErrOutOfRange, "when hot"},
		{"cold", second(RequiredArea(Loads{}, 1, 0)), units.ErrOutOfRange, "when cold"},
		{"no stress", second(StudsNeeded(1, 1, 0)), units.ErrOutOfRange, "stress allowed"},
		{"too many studs", second(StudsNeeded(1e9, 1e-6, 1)), units.ErrOutOfRange, "up to 1000"},
		{"gasket area", second(StressOnGasket(1, 0)), units.ErrOutOfRange, "area of the gasket"},
		{"K", second(Torque(0, 1, units.MM(3))), units.ErrOutOfRange, "nut factor"},
		{"K of one", second(Torque(1, 1, units.MM(3))), units.ErrOutOfRange, "below 1"},
		{"no thread", second(Torque(0.2, 1, units.MM(0))), units.ErrOutOfRange, "diameter of the thread"},
		{"K the wrong way round", third(PreloadFor(1, 0.3, 0.2, units.MM(3))), units.ErrOutOfRange, "at most the upper"},
		{"no torque", third(PreloadFor(0, 0.1, 0.2, units.MM(3))), units.ErrOutOfRange, "torque"},
		{"one stud", second(Order(make(gasket.Pattern, 1))), units.ErrOutOfRange, "2 to 500"},
		{"two in one place", second(Order(make(gasket.Pattern, 2))), units.ErrOutOfRange, "place of stud 2 0 mm, 0 mm: out of range; accepted: a place of its own, not that of stud 1"},
		{"no diameter", second(SpacingRules(units.MM(0))), units.ErrOutOfRange, "diameter of the studs"},
		{"giant", second(SpacingRules(units.MM(1001))), units.ErrOutOfRange, "up to 1 m"},
	} {
		if !errors.Is(test.err, test.want) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %v with %q", test.name, test.err, test.want, test.text)
		}
	}
}

func TestRequiredArea(t *testing.T) {
	l, err := Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 7.584 * units.Megapascal}.Loads(0.55 * units.Megapascal)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 1038.0 N at 50 MPa needs 20.76 mm2, 2379.1 N at 100 MPa 23.79 mm2.
	a, err := RequiredArea(l, 50*units.Megapascal, 100*units.Megapascal)
	if err != nil || math.Abs(float64(a/units.SquareMillimetre)-23.791) > 0.001 {
		t.Errorf("%v, %v", a, err)
	}
	s, err := StressOnGasket(l.Seating, 626.9*units.SquareMillimetre)
	if err != nil || math.Abs(float64(s/units.Megapascal)-3.795) > 0.001 {
		t.Errorf("%v, %v", s, err)
	}
}

func TestWidthRuleText(t *testing.T) {
	for _, r := range []WidthRule{InchRule, MetricRule} {
		text, err := r.MarshalText()
		var back WidthRule
		if err != nil || back.UnmarshalText(text) != nil || back != r {
			t.Errorf("%v came back as %v, %v", r, back, err)
		}
		if parsed, err := ParseWidthRule(string(text)); err != nil || parsed != r {
			t.Errorf("%s is %v, %v", text, parsed, err)
		}
	}
}
