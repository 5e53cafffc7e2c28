package joint

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
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
	sheetEnd := withMoment.EndForce.In(units.Kilonewton) * 0.785 / (math.Pi / 4) // the sheet's quarter of pi
	got["flange-metric"] = map[string]float64{
		"N mm": l.Width.MM(), "b0 mm": l.BasicWidth.MM(), "b mm": l.EffectiveWidth.MM(), "G mm": l.Reaction.MM(),
		"H kN": sheetEnd, "Hp kN": float64(l.Holding / units.Kilonewton), "Wm1 kN": sheetEnd + l.Holding.In(units.Kilonewton),
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
	check.Errata(t, "gasket/joint", map[string]float64{"singer-142-bolts": float64(pipe) / (25e6 * float64(circleArea(units.MM(40))))})
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
	each, err := Studs{Number: 14, Diameter: units.MM(8), StressArea: 36.6 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: Reusable}.Load(iron)
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
	f := check.Open(t, "gasket/joint/bolt_load.csv")
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

func TestWidthRuleText(t *testing.T) {
	for _, r := range WidthRules() {
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

// The loads say whose they are, and text that is no rule comes back as such.
func TestLoadsRefs(t *testing.T) {
	l, err := Gasket{Outside: units.MM(38), Inside: units.MM(25), M: 1, Y: 1}.Loads(units.Bar)
	if err != nil || l.Refs.First().Kind != source.Published {
		t.Errorf("%v, %v", l.Refs, err)
	}
	var bad *units.ParseError
	if _, err := ParseWidthRule("cubit"); !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("cubit: %v", err)
	}
}

func TestLoadsRefuses(t *testing.T) {
	second := check.Only
	good := Gasket{Outside: units.MM(38), Inside: units.MM(25), M: 1, Y: 1}
	with := func(f func(*Gasket)) error {
		g := good
		f(&g)
		return second(g.Loads(units.Bar))
	}
	nan := math.NaN()
	check.Refuses(t, "inside", with(func(g *Gasket) { g.Inside = units.MM(0) }), units.ErrOutOfRange, "inside diameter")
	check.Refuses(t, "outside", with(func(g *Gasket) { g.Outside = g.Inside }), units.ErrOutOfRange, "outside diameter")
	check.Refuses(t, "m", with(func(g *Gasket) { g.M = nan }), units.ErrNotFinite, "factor m")
	check.Refuses(t, "negative m", with(func(g *Gasket) { g.M = -1 }), units.ErrOutOfRange, "factor m -1")
	check.Refuses(t, "absurd pressure", with(func(g *Gasket) { g.Y = 1e16 }), units.ErrOutOfRange, "up to 1e15")
	check.Refuses(t, "y", with(func(g *Gasket) { g.Y = -1 }), units.ErrOutOfRange, "factor y")
	check.Refuses(t, "rule", with(func(g *Gasket) { g.Rule = 7 }), units.ErrUnknown, "inch, metric")
	check.Refuses(t, "absurd m", with(func(g *Gasket) { g.M = 1e9 }), units.ErrOutOfRange, "up to 100")
	check.Refuses(t, "endless", with(func(g *Gasket) { g.Outside = units.Picometres(math.MaxInt64) }), units.ErrOutOfRange, "1 km")
	check.Refuses(t, "no pressure", second(good.Loads(units.Pressure(nan))), units.ErrNotFinite, "pressure")
}
