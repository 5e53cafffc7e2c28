package indicator

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// up and down are the numbers beside one.
func up[T ~float64](v T) T   { return T(math.Nextafter(float64(v), math.Inf(1))) }
func down[T ~float64](v T) T { return T(math.Nextafter(float64(v), math.Inf(-1))) }

// Each end of what is accepted of an engine is taken, and what is next to it is not.
// The ranges are our own choice, the usual figures in the texts those of the sources in
// the package.
func TestBoundsOfAnEngine(t *testing.T) {
	pm := units.Picometres(1)
	thousand := 0.001 * units.RevPerMinute
	for _, test := range []struct {
		name       string
		taken, not func(r *Running)
		field      string
		accepted   string
	}{
		{"thick rod", func(r *Running) { r.PistonRod = r.Bore.Sub(pm) }, func(r *Running) { r.PistonRod = r.Bore },
			"piston rod", "thinner than the bore, 20 mm"},
		{"no rod", func(r *Running) { r.PistonRod = units.Length{} }, func(r *Running) { r.PistonRod = pm.Neg() }, "piston rod", "or none"},
		{"bore", func(r *Running) { r.Bore, r.PistonRod = pm, units.Length{} }, func(r *Running) { r.Bore = pm.Neg() }, "bore", "above zero"},
		{"index of 1", func(r *Running) { r.Index = 1 }, func(r *Running) { r.Index = down(1.0) }, "index of expansion", "from 1 to 1.4"},
		{"index of 1.4", func(r *Running) { r.Index = 1.4 }, func(r *Running) { r.Index = up(1.4) }, "index of expansion", "from 1 to 1.4"},
		{"small clearance at the head", func(r *Running) { r.Clearance.Head = 0.001 },
			func(r *Running) { r.Clearance.Head = down(0.001) }, "clearance of the head end", "0.001 to 1"},
		{"great clearance at the head", func(r *Running) { r.Clearance.Head = 1 }, func(r *Running) { r.Clearance.Head = up(1.0) },
			"clearance of the head end", "0.001 to 1"},
		{"small clearance at the crank", func(r *Running) { r.Clearance.Crank = 0.001 },
			func(r *Running) { r.Clearance.Crank = down(0.001) }, "clearance of the crank end", "up to 0.15 on small engines"},
		{"great clearance at the crank", func(r *Running) { r.Clearance.Crank = 1 }, func(r *Running) { r.Clearance.Crank = up(1.0) },
			"clearance of the crank end", "0.03 to 0.10 is usual"},
		{"slow", func(r *Running) { r.Speed = thousand }, func(r *Running) { r.Speed = down(thousand) }, "speed", "0.001 to 100,000 rev/min"},
		{"fast", func(r *Running) { r.Speed = 100_000 * units.RevPerMinute },
			func(r *Running) { r.Speed = up(100_000 * units.RevPerMinute) }, "speed", "0.001 to 100,000 rev/min"},
		{"no speed", func(r *Running) { r.Speed = 0 }, func(r *Running) { r.Speed = down[units.RotationalSpeed](0) }, "speed", "or none"},
		{"light", func(r *Running) { r.Moving = 1e-6 * units.Kilogram }, func(r *Running) { r.Moving = down(1e-6 * units.Kilogram) },
			"mass of the moving parts", "1 mg to 1000 t"},
		{"heavy", func(r *Running) { r.Moving = 1e6 * units.Kilogram }, func(r *Running) { r.Moving = up(1e6 * units.Kilogram) },
			"mass of the moving parts", "1 mg to 1000 t"},
		{"no mass", func(r *Running) { r.Moving = 0 }, func(r *Running) { r.Moving = down[units.Mass](0) }, "mass of the moving parts", "or none"},
		{"twelve cylinders", func(r *Running) { r.Cranks = make([]units.Angle, 11) }, func(r *Running) { r.Cranks = make([]units.Angle, 12) },
			"cylinders", "up to 12"},
		{"crank a turn ahead", func(r *Running) { r.Cranks = []units.Angle{2 * math.Pi} },
			func(r *Running) { r.Cranks = []units.Angle{up[units.Angle](2 * math.Pi)} }, "angle between cranks", "-360 to 360 degrees"},
		{"crank a turn back", func(r *Running) { r.Cranks = []units.Angle{-2 * math.Pi} },
			func(r *Running) { r.Cranks = []units.Angle{0, down[units.Angle](-2 * math.Pi)} }, "angle between cranks", "-360 to 360 degrees"},
		{"thin air", func(r *Running) { r.Atmosphere = 0.4 * units.Bar }, func(r *Running) { r.Atmosphere = down(0.4 * units.Bar) },
			"pressure of the atmosphere", "0.4 to 1.1 bar"},
		{"thick air", func(r *Running) { r.Atmosphere = 1.1 * units.Bar }, func(r *Running) { r.Atmosphere = up(1.1 * units.Bar) },
			"pressure of the atmosphere", "none for 1.01325 bar"},
		{"forty bar", func(r *Running) { r.Chest, r.Atmosphere = 39*units.Bar, units.Bar },
			func(r *Running) { r.Chest, r.Atmosphere = 39.000001*units.Bar, units.Bar }, "pressure in the chest", "up to 40 bar absolute"},
		{"a vacuum", func(r *Running) { r.Back, r.Atmosphere = -0.98999*units.Bar, units.Bar },
			func(r *Running) { r.Back, r.Atmosphere = -0.99001*units.Bar, units.Bar }, "back pressure", "from a vacuum"},
		{"a chest below the air", func(r *Running) { r.Chest, r.Back, r.Atmosphere = -0.9*units.Bar, -0.98*units.Bar, units.Bar },
			func(r *Running) { r.Chest, r.Back, r.Atmosphere = -0.9901*units.Bar, -0.99*units.Bar, units.Bar }, "pressure in the chest", "up to 40 bar"},
		{"hardly any fall", func(r *Running) { r.Back = r.Chest * (1 - 1e-9) }, func(r *Running) { r.Back = r.Chest }, "back pressure",
			"below the pressure in the chest, 2 bar"},
	} {
		r := demo()
		test.taken(&r)
		if err := r.Validate(); err != nil {
			t.Errorf("%s: at the end of the range: %v", test.name, err)
		}
		r = demo()
		test.not(&r)
		refused(t, test.name, r.Validate(), test.field, test.accepted)
	}
	inside := demo()
	inside.Bore = units.Length{}
	if err := inside.Validate(); err == nil || strings.Contains(err.Error(), "thinner") {
		t.Errorf("without a bore the rod is not judged: %v", err)
	}
}

// refused wants the argument and what is accepted.
func refused(t *testing.T, name string, err error, field, accepted string) {
	t.Helper()
	var bad *units.ArgumentError
	if !errors.As(err, &bad) || bad.Field != field || !strings.Contains(err.Error(), accepted) {
		t.Errorf("%s: %v, want the %s and %q", name, err, field, accepted)
	}
}

// The same of what is asked of an engine.
func TestBoundsOfQuestions(t *testing.T) {
	r, pm, tenth := demo(), units.Picometres(1), 0.1*units.RevPerMinute
	ms := units.MetrePerSecond
	steamy := demo()
	steamy.Medium, steamy.Chest = Steam, 3*units.Bar
	inf := math.Inf(1)
	use := got(r.AirUse())
	mm := units.MM
	wheelOf := func(mass units.Mass, k units.Length) error {
		return second(r.Evenness(holding.Wheel{Mass: mass, Gyration: k}))
	}
	lasts := func(v units.Volume, from, to units.Pressure, q units.VolumeFlow) error {
		return second(use.Lasts(v, from, to, q))
	}
	litre, bar := units.Litre, units.Bar
	short := r
	short.Gear.Ports.Length = mm(10).Add(pm)
	for _, test := range []struct {
		name       string
		taken, not error
		field      string
		accepted   string
	}{
		{"one point", second(r.Points(1)), second(r.Points(0)), "points of a turn", "1 to 36,000"},
		{"many points", second(r.Points(36_000)), second(r.Points(36_001)), "points of a turn", "1 to 36,000"},
		{"no friction", second(r.Starting(0)), second(r.Starting(down[units.Torque](0))), "friction", "zero or more"},
		{"friction", second(r.Starting(9.99e14)), second(r.Starting(1e15)), "friction", "zero or more"},
		{"friction is no number", nil, second(r.Starting(units.Torque(math.NaN()))), "friction", "zero or more"},
		{"slow pipe", second(r.SteamPipe(ms)), second(r.SteamPipe(down(ms))), "velocity in the pipe", "1 to 100 m/s; 15 to 30 m/s is usual"},
		{"fast pipe", second(r.SteamPipe(100 * ms)), second(r.SteamPipe(up(100 * ms))), "velocity in the pipe", "1 to 100 m/s"},
		{"no velocity", second(r.ExhaustPipe(ms)), second(r.ExhaustPipe(0)), "velocity in the pipe", "Tredgold has 24 m/s"},
		{"wide valve", second(r.Hold(mm(10).Add(pm), mm(10))), second(r.Hold(mm(10), mm(10))), "width of the cavity", "less than the valve's, 10 mm"},
		{"wide cavity", second(r.Hold(mm(14), mm(10))), second(short.Hold(mm(14), mm(10))), "width of the cavity", "the length of the ports or more"},
		{"no cavity", second(r.Hold(mm(14), mm(10))), second(r.Hold(mm(14), units.Length{})), "width of the cavity", "above zero"},
		{"declared", second(r.CheckPressure(0)), second(r.CheckPressure(down(0 * bar))), "pressure that the cylinder is declared for", "or none"},
		{"declared endless", second(r.CheckPressure(1e9 * bar)), second(r.CheckPressure(units.Pressure(inf))),
			"pressure that the cylinder is declared for", "above zero, or none"},
		{"no oil", second(r.Oiling(0)), second(r.Oiling(-1e-12 * litre)), "room for oil", "zero to 10 litres"},
		{"much oil", second(r.Oiling(10 * litre)), second(r.Oiling(up(10 * litre))), "room for oil", "1 to 10 ml is usual"},
		{"oil is no number", nil, second(r.Oiling(units.Volume(inf))), "room for oil", "finite"},
		{"oil of nothing", nil, second(Running{}.Oiling(1)), "medium", "air or steam"},
		{"oil of both", nil, second(Running{Medium: 3}.Oiling(1)), "medium", "air or steam"},
		{"dry", second(WetSteam(1)), second(WetSteam(up(1.0))), "dryness of the steam", "0.7 to 1"},
		{"wet", second(WetSteam(0.7)), second(WetSteam(down(0.7))), "dryness of the steam", "0.7 to 1"},
		{"limit", second(r.Throttled(30 * ms)), second(r.Throttled(0)), "limit of velocity", "above zero"},
		{"uneven", second(r.WheelFor(1.0/3, mm(40))), second(r.WheelFor(up(1.0/3), mm(40))), "evenness", "to a third of the mean speed"},
		{"even", second(r.WheelFor(0.0001, mm(40))), second(r.WheelFor(down(0.0001), mm(40))), "evenness", "0.01 % to a third"},
		{"gyration", second(r.WheelFor(0.1, mm(1e-3))), second(r.WheelFor(0.1, pm.Neg())), "radius of gyration", "above zero"},
		{"no wheel", wheelOf(0.5, mm(40)), wheelOf(0, mm(40)), "mass", ""},
		{"receiver", lasts(litre, 4*bar, 0, 0), lasts(0, 4*bar, 0, 0), "volume of the receiver", "above zero"},
		{"full receiver", lasts(litre, 400*bar, bar, 0), lasts(litre, up(400*bar), bar, 0), "pressures of the receiver", "0 to 400 bar"},
		{"receiver that falls", lasts(litre, up(bar), bar, 0), lasts(litre, bar, bar, 0), "pressures of the receiver", "from the higher to the lower"},
		{"receiver below the air", lasts(litre, bar, 0, 0), lasts(litre, bar, down(0*bar), 0), "pressures of the receiver", "from 0"},
		{"compressor", lasts(litre, bar, 0, 0), lasts(litre, bar, 0, down[units.VolumeFlow](0)), "air that the compressor delivers", "zero or more"},
		{"endless compressor", lasts(litre, bar, 0, 1e9), lasts(litre, bar, 0, units.VolumeFlow(inf)), "air that the compressor delivers", "zero"},
		{"air of steam", second(r.AirUse()), second(steamy.AirUse()), "medium", "air"},
		{"steam of air", second(steamy.SteamUse()), second(r.SteamUse()), "medium", "steam"},
		{"cold engine on air", second(steamy.ColdEngine(1, 300, 350)), second(r.ColdEngine(1, 300, 350)), "medium", "steam"},
	} {
		if test.taken != nil {
			t.Errorf("%s: at the end of the range: %v", test.name, test.taken)
		}
		refused(t, test.name, test.not, test.field, test.accepted)
	}
	// A receiver lasts up to a year, and a compressor that gives as much runs it for good.
	if d, err := use.Lasts(litre, bar, 0, use.Max); d != 0 || err != nil {
		t.Errorf("a compressor that delivers all: %v, %v", d, err)
	}
	if d, err := use.Lasts(litre, bar, 0, down(use.Max)); err == nil {
		t.Errorf("a compressor that delivers nearly all: %v", d)
	}
	year := AirUse{Max: 1, Atmosphere: bar}
	const seconds = 365 * 24 * 3600
	if d, err := year.Lasts(seconds*(1-1e-12), bar, 0, 0); err != nil || math.Abs(d.Seconds()-seconds) > 1 {
		t.Errorf("a year: %v, %v", d, err)
	}
	if d, err := year.Lasts(seconds, bar, 0, 0); err != nil || d.Seconds() != seconds {
		t.Errorf("just a year: %v, %v", d, err)
	}
	_, err := year.Lasts(seconds*(1+1e-12), bar, 0, 0)
	refused(t, "over a year", err, "time that the receiver lasts", "up to a year")
	for _, none := range []AirUse{{Atmosphere: bar}, {Max: 1}, {}} {
		_, err := none.Lasts(1, bar, 0, 0)
		refused(t, "nothing taken", err, "air that the engine takes", "as Running.AirUse gives it")
	}
	slow := r
	slow.Speed = tenth
	for name, call := range map[string]func(Running) error{
		"PortFlow": func(r Running) error { return second(r.PortFlow()) }, "Power": func(r Running) error { return second(r.Power()) },
		"AirUse": func(r Running) error { return second(r.AirUse()) }, "SteamPipe": func(r Running) error { return second(r.SteamPipe(20)) },
		"Throttled": func(r Running) error { return second(r.Throttled(20)) },
		"WheelFor":  func(r Running) error { return second(r.WheelFor(0.1, mm(40))) },
		"Evenness":  func(r Running) error { return second(r.Evenness(holding.Wheel{Mass: 1, Gyration: mm(40)})) },
	} {
		if err := call(slow); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		refused(t, name, call(still()), "speed", "200 to 600 rev/min is usual")
	}
}

// Each bound of a wheel's sizes, and the sizes that go together.
func TestBoundsOfAWheel(t *testing.T) {
	pm := units.Picometres(1)
	metre := units.MM(1000)
	base := wheel(t)
	hollow := base.Diameter.Sub(base.RimDepth.Scale(2))
	for _, test := range []struct {
		name            string
		taken, not      func(f *Flywheel)
		field, accepted string
	}{
		{"greatest", func(f *Flywheel) { f.Diameter = metre.Scale(100) }, func(f *Flywheel) { f.Diameter = metre.Scale(100).Add(pm) },
			"diameter of the flywheel", "up to 100 m"},
		{"widest", func(f *Flywheel) { f.RimWidth = metre.Scale(100) }, func(f *Flywheel) { f.RimWidth = metre.Scale(100).Add(pm) },
			"width of the rim", "up to 100 m"},
		{"web", func(f *Flywheel) { f.Web = units.Length{} }, func(f *Flywheel) { f.Web = pm.Neg() }, "thickness of the web", "above zero"},
		{"disc", func(f *Flywheel) {
			f.RimDepth, f.Boss, f.BossWidth, f.Bore = f.Diameter.Scale(0.5), units.Length{}, units.Length{}, units.Length{}
		},
			func(f *Flywheel) { f.RimDepth = f.Diameter.Scale(0.5).Add(pm) }, "depth of the rim", "up to half the diameter"},
		{"boss", func(f *Flywheel) { f.Boss = hollow }, func(f *Flywheel) { f.Boss = hollow.Add(pm) }, "diameter of the boss", "up to that inside the rim"},
		{"bore in the boss", func(f *Flywheel) { f.Bore = f.Boss.Sub(pm) }, func(f *Flywheel) { f.Bore = f.Boss }, "bore of the flywheel",
			"less than the boss"},
		{"no boss", func(f *Flywheel) { f.Boss, f.BossWidth, f.Bore = units.Length{}, units.Length{}, hollow },
			func(f *Flywheel) { f.Boss, f.BossWidth, f.Bore = units.Length{}, units.Length{}, hollow.Add(pm) }, "bore of the flywheel",
			"less than that inside the rim"},
		{"disc with a bore", func(f *Flywheel) {
			f.RimDepth, f.Boss, f.BossWidth, f.Bore = f.Diameter.Scale(0.5), units.Length{}, units.Length{}, units.Length{}
		},
			func(f *Flywheel) {
				f.RimDepth, f.Boss, f.BossWidth, f.Bore = f.Diameter.Scale(0.5), units.Length{}, units.Length{}, pm
			},
			"bore of the flywheel", "less than that inside the rim, 0 mm"},
		{"half a boss", func(f *Flywheel) { f.Boss, f.BossWidth, f.Bore = units.Length{}, units.Length{}, units.Length{} },
			func(f *Flywheel) { f.Boss, f.Bore = units.Length{}, units.Length{} }, "width of the boss", "both or none"},
		{"no width", func(f *Flywheel) { f.RimWidth = pm }, func(f *Flywheel) { f.RimWidth = units.Length{} }, "width of the rim", "above zero"},
		{"no depth", func(f *Flywheel) { f.RimDepth = pm }, func(f *Flywheel) { f.RimDepth = units.Length{} }, "depth of the rim", "above zero"},
	} {
		f := base
		test.taken(&f)
		if _, err := f.Wheel(); err != nil {
			t.Errorf("%s: at the end of the range: %v", test.name, err)
		}
		f = base
		test.not(&f)
		_, err := f.Wheel()
		refused(t, test.name, err, test.field, test.accepted)
	}
}

// Of several places that are as good the first of the turn is told.
func TestFirstOfTheSame(t *testing.T) {
	if low, high, span := fluctuation([]float64{-1, 2, -2, 2, -1}); low != 0 || high != 1 || span != 2 {
		t.Errorf("after %d and %d: %v", low, high, span)
	}
	r := demo()
	flat := extreme(r.model().pieces(), func(*piece, float64) float64 { return -2 }, 1)
	if flat.Turned != 0 || flat.Torque != -2 {
		t.Errorf("what is the same all round: %v", flat)
	}
	// Water that fills the clearance and no more is none too much.
	r.Medium, r.Chest = Steam, 3*units.Bar
	cold := func(iron units.Mass) ColdEngine { return got(r.ColdEngine(iron, 300, 350)) }
	iron := units.Mass(1 / cold(1).Share)
	for range 100 {
		switch e := cold(iron); {
		case e.Share < 1:
			iron = up(iron)
		case e.Share > 1:
			iron = down(iron)
		}
	}
	full := cold(iron)
	if full.Share <= 1 != (len(full.Findings) == 0) || math.Abs(full.Share-1) > 1e-12 {
		t.Errorf("a share of %v: %v", full.Share, full.Findings)
	}
	if more := cold(iron * (1 + 1e-9)); len(more.Findings) != 1 || len(cold(iron*(1-1e-9)).Findings) != 0 {
		t.Errorf("a share of %v: %v", more.Share, more.Findings)
	}
}

// An edge of a wheel that is all rim, and of one with nothing in the middle.
func TestWheelOfRings(t *testing.T) {
	f := Flywheel{Diameter: units.MM(100), RimWidth: units.MM(20), RimDepth: units.MM(50), Metal: metal(t, "cast iron")}
	solid, err := f.Wheel()
	density := float64(f.Metal.Density.Value)
	near(t, "a solid disc, kg", float64(solid.Mass), density*math.Pi*0.05*0.05*0.02, 1e-12)
	near(t, "its radius of gyration, mm", solid.Gyration.MM(), 50/math.Sqrt2, 1e-9)
	f.RimDepth, f.Bore, f.Web = units.MM(10), units.MM(30), units.MM(5)
	webbed, err2 := f.Wheel()
	mass := density * math.Pi * ((0.05*0.05-0.04*0.04)*0.02 + (0.04*0.04-0.015*0.015)*0.005)
	inertia := density * math.Pi / 2 * ((math.Pow(0.05, 4)-math.Pow(0.04, 4))*0.02 + (math.Pow(0.04, 4)-math.Pow(0.015, 4))*0.005)
	near(t, "rim and web, kg", float64(webbed.Mass), mass, 1e-12)
	near(t, "their radius of gyration, mm", webbed.Gyration.MM(), 1000*math.Sqrt(inertia/mass), 1e-6)
	if err != nil || err2 != nil {
		t.Error(err, err2)
	}
}
