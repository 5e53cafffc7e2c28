package indicator

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

func metal(t interface{ Fatal(...any) }, name string) material.Material {
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// wheel is the invented flywheel of the demonstration.
func wheel(t interface{ Fatal(...any) }) Flywheel {
	return Flywheel{
		Diameter: units.MM(100), RimWidth: units.MM(12), RimDepth: units.MM(10), Web: units.MM(4),
		Boss: units.MM(16), BossWidth: units.MM(15), Bore: units.MM(6), Metal: metal(t, "cast iron"),
	}
}

// Energies between the crossings of moment curves that books print, and what the books
// make of them.
func TestFluctuation(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/flywheel.csv")
	for r := range f.Rows() {
		var areas []float64
		for text := range strings.FieldsSeq(r.Text("areas")) {
			areas = append(areas, share(t, text)*r.Float("scale_j"))
		}
		_, _, span := fluctuation(areas)
		n := units.RotationalSpeed(r.Float("rev_per_min")) * units.RevPerMinute
		k := units.MM(1000 * r.Float("gyration_m"))
		switch r.Text("quantity") {
		case "mass":
			r.Compare("printed", massFor(span, r.Float("share"), k.Metres(), float64(n)))
		case "inertia":
			r.Compare("printed", massFor(span, r.Float("share"), 1, float64(n)))
		case "swing":
			w := holding.Wheel{Mass: units.Mass(r.Float("mass_kg")), Gyration: k}
			swing, err := w.SpeedSwing(units.Energy(span), n)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("printed", float64(swing/n))
		default:
			t.Fatal(r.ID)
		}
	}
}

// The energy above the mean, closed form against quadrature of the moment, for any
// gear; round the turn it comes to nothing.
func TestExcess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := demo()
		r.Gear.Advance = units.Angle(rapid.Float64Range(10, 60).Draw(rt, "advance")) * units.Degree
		r.Chest = units.Pressure(rapid.Float64Range(0.5, 6).Draw(rt, "chest")) * units.Bar
		r.Index = rapid.Float64Range(1, 1.4).Draw(rt, "index")
		r.Moving = units.Mass(rapid.Float64Range(0, 0.3).Draw(rt, "moving"))
		if rapid.Bool().Draw(rt, "twin") {
			r.Cranks = []units.Angle{units.Angle(rapid.Float64Range(-180, 180).Draw(rt, "ahead")) * units.Degree}
		}
		e, err := r.Excess()
		if err != nil {
			if bad := new(*units.ArgumentError); !errors.As(err, bad) {
				rt.Fatal(err)
			}
			return
		}
		m := r.model()
		turning := m.turning()
		// By quadrature, between stops that are not those of the code.
		sum, least, most, pieces := 0.0, 0.0, 0.0, m.pieces()
		for i := range pieces {
			p := &pieces[i]
			const steps = 400
			for s := range steps {
				a, b := p.from+(p.to-p.from)*float64(s)/steps, p.from+(p.to-p.from)*float64(s+1)/steps
				sum += quad.Fixed(func(t float64) float64 { return m.moment(p, t) - float64(turning.Mean) }, a, b, 8, nil, 0)
				least, most = min(least, sum), max(most, sum)
			}
		}
		near(rt, "round the turn", sum, 0, 1e-9)
		// Stops miss the crossings themselves, by less than the moment there times half a step.
		near(rt, "excess", float64(e.Energy), most-least, 1e-4*float64(turning.Work)+1e-9)
		if float64(e.Energy) < most-least-1e-9 {
			rt.Errorf("excess %v below %v", float64(e.Energy), most-least)
		}
		near(rt, "share", e.Share*float64(turning.Work), float64(e.Energy), 1e-12)
		if len(e.Crossing)%2 != 0 {
			rt.Errorf("%d crossings", len(e.Crossing))
		}
	})
}

// A wheel that is found for an evenness keeps it, and the sizes of a rim come back.
func TestWheels(t *testing.T) {
	r := demo()
	w, err := r.WheelFor(0.02, units.MM(40))
	if err != nil {
		t.Fatal(err)
	}
	even, err := r.Evenness(w)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "share", even.Share, 0.02, 1e-12)
	near(t, "mean", float64(even.Min+even.Max)/2, float64(r.Speed), 1e-12)
	if len(even.Findings) != 0 || even.Steady >= r.Speed {
		t.Errorf("%+v", even)
	}
	w.Mass /= 50 // swings by the whole of the mean
	light, err := r.Evenness(w)
	if err != nil || light.Swing != 0 || len(light.Findings) != 1 || light.Findings[0].Code != WheelTooLight {
		t.Fatal(light, err)
	}
	near(t, "share", light.Share, 1, 1e-12)
	r.Speed = light.Steady * (1 + 1e-9)
	steady, err := r.Evenness(w)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "swing from there on", float64(steady.Swing/r.Speed), 1.0/3, 1e-8)
	// Khurmi's example 16.16: a rim of 58.6 mm by twice that, which has 0.92 of the energy of 32.7 kg m2 at 28.8 m/s and 600
	// rev/min, at 7250 kg/m3: about the mean diameter, whose thin ring is stressed by 6 MPa.
	const inertia, speed, density = 32.66, 28.768, 7250
	mean := 2 * speed / (600 * 2 * math.Pi / 60)
	rim := Flywheel{Diameter: units.MM(1000*mean + 58.622), RimDepth: units.MM(58.622), RimWidth: units.MM(2 * 58.622)}
	rim.Metal.Density = material.Given(density*units.KilogramPerCubicMetre, source.Practice())
	ring, err := rim.Wheel()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "KH 16.16, mass of the rim by its mean radius", float64(ring.Mass)*mean*mean/4, 0.92*inertia, 0.02)
	// A plain disc: half the radius squared; a boss of the same width fills it.
	disc := wheel(t)
	disc.Boss, disc.BossWidth, disc.Bore, disc.Web = units.Length{}, units.Length{}, units.Length{}, disc.RimWidth
	plain, err := disc.Wheel()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "disc", plain.Gyration.MM(), 50/math.Sqrt2, 1e-9)
	near(t, "disc", float64(plain.Mass), float64(disc.Metal.Density.Value)*math.Pi*0.05*0.05*0.012, 1e-12)
	disc.Boss, disc.BossWidth = units.MM(20), disc.RimWidth
	if bossed, err := disc.Wheel(); err != nil || math.Abs(float64(bossed.Mass-plain.Mass)) > 1e-12 {
		t.Error(bossed, err)
	}
}

func TestFlywheelRefuses(t *testing.T) {
	for _, test := range []struct {
		want   string
		change func(*Flywheel)
	}{
		{"diameter of the flywheel: missing", func(f *Flywheel) { f.Diameter = units.Length{} }},
		{"depth of the rim 60 mm", func(f *Flywheel) { f.RimDepth = units.MM(60) }},
		{"width of the rim -1 mm", func(f *Flywheel) { f.RimWidth = units.MM(-1) }},
		{"up to 100 m", func(f *Flywheel) { f.Diameter = units.MM(200_000) }},
		{"diameter of the boss 90 mm", func(f *Flywheel) { f.Boss = units.MM(90) }},
		{"both or none", func(f *Flywheel) { f.BossWidth = units.Length{} }},
		{"less than the boss, 16 mm", func(f *Flywheel) { f.Bore = units.MM(16) }},
		{"a material whose density we have", func(f *Flywheel) { f.Metal = material.Material{} }},
	} {
		f := wheel(t)
		test.change(&f)
		if _, err := f.Wheel(); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%v, want %q", err, test.want)
		}
	}
	r := demo()
	for want, err := range map[string]error{
		"2 to 5 % is usual":     second(r.WheelFor(0, units.MM(40))),
		"evenness 0.5":          second(r.WheelFor(0.5, units.MM(40))),
		"radius of gyration 0":  second(r.WheelFor(0.02, units.Length{})),
		"mass 0":                second(r.Evenness(holding.Wheel{Gyration: units.MM(40)})),
		"flywheel could even":   second(inLine().Excess()),
		"speed: missing":        second(still().WheelFor(0.02, units.MM(40))),
		"above zero, or none":   second(r.CheckPressure(-1 * units.Bar)),
		"bore: missing; accept": second(Running{Gear: r.Gear}.Excess()),
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func inLine() Running {
	r := demo()
	r.Gear.Advance = -90 * units.Degree
	return r
}

func still() Running {
	r := demo()
	r.Speed = 0
	return r
}

// Above what the cylinder is declared for is a danger, in the chest or by compression.
func TestCheckPressure(t *testing.T) {
	tight := demo()
	tight.Clearance = Both(0.004)
	for _, test := range []struct {
		run      Running
		declared units.Pressure
		want     []finding.Code
	}{
		{demo(), 4 * units.Bar, nil},
		{demo(), 0, []finding.Code{NotDeclared}},
		{demo(), 1.5 * units.Bar, []finding.Code{AboveDeclared}},
		{demo(), 2 * units.Bar, nil},
		{tight, 4 * units.Bar, []finding.Code{AboveDeclared, AboveDeclared}},
	} {
		list, err := test.run.CheckPressure(test.declared)
		if err != nil {
			t.Fatal(err)
		}
		var got []finding.Code
		for _, f := range list {
			got = append(got, f.Code)
			if danger := f.Severity == finding.Danger; danger != (f.Code == AboveDeclared) || f.Text == "" || len(f.Remedies) == 0 {
				t.Errorf("%+v", f)
			}
		}
		if len(got) != len(test.want) || len(got) > 0 && got[0] != test.want[0] {
			t.Errorf("declared %v: %v, want %v", test.declared, got, test.want)
		}
	}
}

// Khurmi's example 16.13 with a load of 5000 + 600 sin t against 5000 + 1500 sin 3t: they
// cross where sin t is nothing and where its square is 0.65.
func TestErrata(t *testing.T) {
	first := math.Asin(math.Sqrt(0.65))
	above := func(t float64) float64 { return -500*math.Cos(3*t) + 600*math.Cos(t) } // integral of 1500 sin 3t - 600 sin t
	crossings := []float64{0, first, math.Pi - first, math.Pi, math.Pi + first, 2*math.Pi - first, 2 * math.Pi}
	var areas []float64
	for i, to := range crossings[1:] {
		areas = append(areas, above(to)-above(crossings[i]))
	}
	_, _, span := fluctuation(areas)
	w := (300 * units.RevPerMinute).In(units.RadianPerSecond)
	check.Errata(t, "eccentric/indicator", map[string]float64{"khurmi-16-13": 100 * span / (1000 * w * w)})
}
