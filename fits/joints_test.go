package fits_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
	"pgregory.net/rapid"
)

func lookup(t testing.TB, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// given returns a material of round figures, as exercises have them.
func given(name string, e units.Pressure, nu, expansion float64) material.Material {
	ref := source.Ref{Kind: source.Published, Title: "the exercise"}
	return material.Material{Name: name, Elasticity: material.Given(e, ref), Poisson: material.Given(nu, ref), Expansion: material.Given(units.Expansivity(expansion), ref)}
}

// TestInterferenceExamples works the textbooks' examples of shrunk and pressed
// joints. Most ask for the interference of a pressure; the joint is linear, so
// the test scales one solution.
func TestInterferenceExamples(t *testing.T) {
	steel := given("steel", 207*units.Gigapascal, 0.3, 11.7e-6)
	press := func(b, d, D, interference float64, m material.Material) fits.PressResult {
		r, err := fits.Press{Diameter: units.MM(d), Interference: units.MM(interference), HubOutside: units.MM(D), ShaftBore: units.MM(b), Length: units.MM(d), Hub: m, Shaft: m, Friction: fits.Mu(0.12)}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	// interference that gives a pressure, in millimetres
	interference := func(b, d, D, mpa float64, m material.Material) float64 {
		return 0.01 * mpa / float64(press(b, d, D, 0.01, m).Pressure/units.Megapascal)
	}
	f := check.Open(t, "fits/interference.csv")
	for r := range f.Rows() {
		switch id := r.ID; {
		case id == "bhandari-22-6":
			// The book puts the pressure in rounded, which is worth 4e-7 mm.
			r.Within("value", 40-interference(20, 40, 60, 38.4615, steel), 1e-6)
			if got := press(20, 40, 60, 0.031711, steel).HubHoop / units.Megapascal; math.Abs(float64(got)-100) > 0.01 {
				t.Errorf("%s: hoop stress of the jacket %.3f, want 100", id, got)
			}
		case id == "bhandari-22-8-p":
			// Both bores bear the same hoop stress when the fluid is let in.
			p := press(50, 75, 100, 0.01, steel)
			inner, outer := float64(p.ShaftHoopBore/p.Pressure), float64(p.HubHoop/p.Pressure)
			fluid := func(at float64) float64 { return 35.0 * 50 * 50 / (100*100 - 50*50) * (100*100/(at*at) + 1) }
			r.Compare("value", (fluid(50)-fluid(75))/(outer-inner))
		case id == "bhandari-22-8-d":
			r.Within("value", 75-interference(50, 75, 100, 3.615169, steel), 1e-6)
		case id == "bhavikatti-8-16":
			r.Compare("value", interference(200, 250, 300, 30, given("steel", 200*units.Gigapascal, 0.3, 12e-6))/2)
		case strings.HasPrefix(id, "junnarkar"):
			p := press(6, 10, 12, 0.01, steel)
			whole := press(3, 6, 12, 0.01, steel)
			value, ok := map[string]float64{
				"junnarkar-10-11-inner-1": 1500 * float64(p.ShaftHoopBore/p.Pressure),
				"junnarkar-10-11-inner-2": 1500 * float64(p.ShaftHoop/p.Pressure),
				"junnarkar-10-11-outer-1": 1500 * float64(p.HubHoop/p.Pressure),
				"junnarkar-10-11-outer-2": 1500 * float64(p.HubHoopOutside/p.Pressure),
				"junnarkar-10-11-fluid-1": 12000 * float64(whole.HubHoop/whole.Pressure),
				"junnarkar-10-11-fluid-3": 12000 * float64(whole.HubHoopOutside/whole.Pressure),
			}[id]
			if !ok {
				r.Skip("stress inside a wall, which the package does not give")
				continue
			}
			r.Compare("value", value)
		case strings.HasPrefix(id, "singer"):
			// The book takes the tyre as thin, which is 1.5 % here, on a wheel that
			// does not give.
			tyre, rigid := given("steel", 200*units.Gigapascal, 0.3, 11.7e-6), given("rigid", 2e12, 0, 1e-6)
			p := fits.Press{Diameter: units.MM(2000), Interference: units.MM(2000 * 11.7e-6 * 55), HubOutside: units.MM(2024), Length: units.MM(90), Hub: tyre, Shaft: rigid, Friction: fits.Mu(0.3)}
			if id == "singer-208" {
				p.Diameter, p.Interference, p.HubOutside, p.Length = units.MM(1500), units.MM(0.5), units.MM(1520), units.MM(80)
			}
			got, err := p.Solve()
			if err != nil {
				t.Fatal(err)
			}
			value := float64(got.Pressure / units.Megapascal)
			if id == "singer-208" {
				value = float64(got.Torque.Low) / 1000
			}
			r.Within("value", value, 0.015*r.Float("value"))
		case id == "kaw-const-alpha":
			trunnion := given("trunnion steel", 30e6*units.PSI, 0.3, 6.47e-6*1.8)
			got, err := fits.Growth(units.Inch(12.363), trunnion, units.Fahrenheit(-108).Sub(units.Fahrenheit(80)))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", got.Inch())
		case id == "kaw-var-alpha":
			// The case study fits a parabola through the points; the package draws
			// straight lines, 0.3 % apart.
			strain, err := fits.ChilledSteel().Strain(units.Fahrenheit(80), units.Fahrenheit(-108))
			if err != nil {
				t.Fatal(err)
			}
			r.Within("value", 12.363*strain, 0.00005)
		case id == "philpot-ring" || id == "tire-72in":
			s := fits.Shrink{Diameter: units.MM(438), Interference: units.MM(2), Clearance: units.MM(0.5), Hub: given("aluminium", 70*units.Gigapascal, 0.33, 23e-6), Shaft: steel}
			unit := units.KelvinDifference
			if id == "tire-72in" {
				s.Diameter, s.Interference, s.Clearance, s.Hub, unit = units.Inch(71.94), units.Inch(0.06), units.Inch(0.04), given("steel", 207*units.Gigapascal, 0.3, 6.5e-6*1.8), units.FahrenheitDifference
			}
			s.Room, s.HubAt, s.ShaftAt = units.Celsius(20), units.Celsius(20), units.Celsius(20)
			got, err := s.Solve()
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(got.HubNeeded.Sub(s.Room)/unit))
		case strings.HasPrefix(id, "mh-factor"):
			// P = A a F/2 in tons of 2000 lbf, hub twice the shaft. The factors
			// stand for a friction of 0.04 to 0.045 and fall a little faster than
			// the diameter grows, which a formula of elastic rings does not.
			var inch float64
			if _, err := fmt.Sscanf(strings.TrimPrefix(id, "mh-factor-"), "%g", &inch); err != nil {
				t.Fatal(err)
			}
			p, err := fits.Press{Diameter: units.Inch(inch), Interference: units.Inch(0.001 * inch), HubOutside: units.Inch(2 * inch), Length: units.Inch(1), Hub: steel, Shaft: steel, Friction: fits.Mu(0.0424)}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			tons := float64(p.Axial.High/units.PoundForce) / 2000
			r.Within("value", 2*tons/(math.Pi*inch*0.001*inch), 0.065*r.Float("value"))
		case id == "calc-ci-hub":
			p, err := fits.Press{Diameter: units.MM(25), Interference: units.MM(0.025), HubOutside: units.MM(50), Length: units.MM(25), Hub: given("iron", 110*units.Gigapascal, 0.25, 1e-5), Shaft: given("steel", 200*units.Gigapascal, 0.3, 1e-5), Friction: fits.Mu(0.1)}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(p.Pressure/units.Megapascal))
		default:
			t.Errorf("%s: nothing works it", id)
		}
	}
}

// A magazine letter gives half a thou per inch on a three-quarter inch axle
// 3,000 lb. Whether it does depends on what it did not say: hub, length,
// material and friction.
func ExamplePress_axle() {
	steel, _ := material.Lookup("mild steel")
	iron, _ := material.Lookup("cast iron")
	axle := fits.Press{Diameter: units.Inch(0.75), Interference: units.Inch(0.000375), HubOutside: units.Inch(1.5), Length: units.Inch(0.75), Hub: steel, Shaft: steel, Friction: fits.Mu(0.12)}
	long := axle
	long.HubOutside, long.Length, long.Friction = units.Inch(2), units.Inch(1), fits.Mu(0.20)
	cast := axle
	cast.Hub = iron
	for _, p := range []fits.Press{axle, long, cast} {
		r, err := p.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s hub %s, %s long: %.0f psi, %.0f lbf\n", p.Hub.Name, p.HubOutside.Text(units.Inches, 2), p.Length.Text(units.Inches, 2), r.Pressure/units.PSI, r.Axial.Low/units.PoundForce)
	}
	// Output:
	// mild steel hub 1.50 in, 0.75 in long: 5629 psi, 1194 lbf
	// mild steel hub 2.00 in, 1.00 in long: 6450 psi, 3040 lbf
	// cast iron hub 1.50 in, 0.75 in long: 3465 psi, 735 lbf
}

// Figures of the axle worked by others: 5,625 psi and 1,190 lbf, 3,040 lbf, and
// about 700 lbf with an iron hub, all within 3 per cent (iron 6, its modulus
// being what it is). Common practice, no source.
func TestAxle(t *testing.T) {
	steel := given("steel", 30e6*units.PSI, 0.29, 11.7e-6)
	axle := fits.Press{Diameter: units.Inch(0.75), Interference: units.Inch(0.000375), HubOutside: units.Inch(1.5), Length: units.Inch(0.75), Hub: steel, Shaft: steel, Friction: fits.Mu(0.12)}
	near := func(what string, got, want, share float64) {
		t.Helper()
		if math.Abs(got-want) > share*want {
			t.Errorf("%s %.1f, want %.1f", what, got, want)
		}
	}
	r, err := axle.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near("pressure", float64(r.Pressure/units.PSI), 5625, 0.001)
	near("force", float64(r.Axial.Low/units.PoundForce), 1190, 0.03)
	axle.HubOutside, axle.Length, axle.Friction = units.Inch(2), units.Inch(1), fits.Mu(0.2)
	if r, err = axle.Solve(); err != nil {
		t.Fatal(err)
	}
	near("force", float64(r.Axial.Low/units.PoundForce), 3040, 0.03)
}

// The stress field of each part, sigma = A -/+ B/r^2 with A and B from the
// pressures on its faces, and its displacement u = r/E (hoop - nu radial): the
// faces must meet again and every figure of the result must be one of the field.
func TestPressField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := func(name string) material.Material {
			return given(name, units.Pressure(rapid.Float64Range(60e9, 220e9).Draw(t, "e "+name)), rapid.Float64Range(0.2, 0.4).Draw(t, "nu "+name), 11e-6)
		}
		p := fits.Press{Diameter: units.MM(20), Interference: units.MM(rapid.Float64Range(0.001, 0.03).Draw(t, "delta")), HubOutside: units.MM(rapid.Float64Range(24, 80).Draw(t, "hub outside")),
			ShaftBore: units.MM(rapid.Float64Range(2, 17).Draw(t, "bore")), Length: units.MM(20), Hub: e("hub"), Shaft: e("shaft"), Friction: fits.Mu(0.1)}
		r, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		pressure, joint := float64(r.Pressure), p.Diameter.Metres()/2
		type cylinder struct{ a, b, e, nu float64 }
		field := func(in, out, pin, pout float64, m material.Material) cylinder {
			wall := out*out - in*in
			return cylinder{(pin*in*in - pout*out*out) / wall, (pin - pout) * in * in * out * out / wall, float64(m.Elasticity.Value), m.Poisson.Value}
		}
		hoop := func(c cylinder, r float64) float64 { return c.a + c.b/(r*r) }
		radial := func(c cylinder, r float64) float64 { return c.a - c.b/(r*r) }
		wider := func(c cylinder, r float64) float64 { return 2 * r / c.e * (hoop(c, r) - c.nu*radial(c, r)) }
		outside, bore := p.HubOutside.Metres()/2, p.ShaftBore.Metres()/2
		hub, shaft := field(joint, outside, pressure, 0, p.Hub), field(bore, joint, 0, pressure, p.Shaft)
		for _, figure := range []struct {
			name      string
			got, want float64
		}{
			{"interference", p.Interference.Metres(), wider(hub, joint) - wider(shaft, joint)},
			{"hub hoop", float64(r.HubHoop), hoop(hub, joint)},
			{"hub hoop outside", float64(r.HubHoopOutside), hoop(hub, outside)},
			{"hub shear", float64(r.HubShear), hoop(hub, joint) - radial(hub, joint)},
			{"shaft hoop", float64(r.ShaftHoop), hoop(shaft, joint)},
			{"shaft hoop at its bore", float64(r.ShaftHoopBore), hoop(shaft, bore)},
			{"shaft shear", float64(r.ShaftShear), radial(shaft, bore) - hoop(shaft, bore)},
		} {
			if math.Abs(figure.got-figure.want) > 1e-9*math.Abs(figure.want) {
				t.Errorf("%s %v, want %v", figure.name, figure.got, figure.want)
			}
		}
		if grows, closes := wider(hub, outside), -wider(shaft, bore); math.Abs(r.HubGrowth.Metres()-grows) > 1e-11 || math.Abs(r.CloseIn.Metres()-closes) > 1e-11 {
			t.Errorf("grows %v, want %v m; closes in %v, want %v m", r.HubGrowth, grows, r.CloseIn, closes)
		}
	})
}

func TestPressJudges(t *testing.T) {
	steel, aluminium, iron := lookup(t, "mild steel"), lookup(t, "aluminium"), lookup(t, "cast iron")
	p := fits.Press{Diameter: units.MM(20), Interference: units.MM(0.12), HubOutside: units.MM(30), Length: units.MM(20), Hub: steel, Shaft: steel, Friction: fits.Mu(0.12)}
	r, err := p.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if !has(r.Findings, fits.Stop, "the hub yields") || !has(r.Findings, fits.Caution, "thou per inch") {
		t.Error(r.Findings)
	}
	// At nine tenths of the yield it is worth a caution, at seven it is not.
	for share, want := range map[float64]bool{0.9: true, 0.7: false} {
		near := p
		near.Interference = r.Greatest.Scale(share)
		if n, err := near.Solve(); err != nil || has(n.Findings, fits.Caution, "the hub is at 90 % of the yield strength") != want || has(n.Findings, fits.Stop, "") {
			t.Errorf("%g of the yield: %v, %v", share, n.Findings, err)
		}
	}
	// What the surfaces bed down by may come on top.
	rough := p
	rough.Smoothing = units.Micron(5)
	if n, err := rough.Solve(); err != nil || n.Greatest.Sub(r.Greatest).Sub(rough.Smoothing).Abs().Cmp(units.Picometres(2)) > 0 {
		t.Errorf("%v smooth, %v rough, %v", r.Greatest, n.Greatest, err)
	}
	// At the greatest interference the hub is just at its yield.
	p.Interference = r.Greatest
	if r, err = p.Solve(); err != nil || math.Abs(float64(r.HubShear/steel.Yield.Value)-1) > 1e-6 {
		t.Error(r.HubShear, err)
	}
	// A thin aluminium bush yields before its steel hub.
	p.Hub, p.Shaft, p.ShaftBore, p.HubOutside, p.Interference = steel, aluminium, units.MM(18), units.MM(60), units.MM(0.1)
	if r, err = p.Solve(); err != nil || !has(r.Findings, fits.Stop, "the shaft yields") || r.CloseIn.Cmp(p.Interference) > 0 {
		t.Error(r.Findings, r.CloseIn, err)
	}
	if !has(r.Findings, fits.Note, "the bore closes by") {
		t.Error(r.Findings)
	}
	// Grey iron has no yield: its hoop tension is held against the tensile
	// strength of the weakest grade, 124 MPa, and well before that.
	p.Hub, p.Shaft, p.ShaftBore, p.HubOutside = iron, steel, units.Length{}, units.MM(40)
	for _, test := range []struct {
		share    float64 // of the tensile strength
		severity fits.Severity
		text     string
	}{{1.01, fits.Stop, "the hub cracks: 125 MPa where cast iron bears 124 MPa"}, {0.7, fits.Caution, "70 % of the tensile strength of weak cast iron"}, {0.4, fits.Note, "62 to 159"}} {
		p.Interference = units.MM(0.01)
		if r, err = p.Solve(); err != nil {
			t.Fatal(err)
		}
		p.Interference = p.Interference.Scale(test.share * 124e6 / float64(r.HubHoop))
		if r, err = p.Solve(); err != nil || !has(r.Findings, test.severity, test.text) || has(r.Findings, fits.Stop, "") != (test.share > 1) || has(r.Findings, fits.Caution, "iron") != (test.share == 0.7) {
			t.Errorf("%g of the strength: %v, %v", test.share, r.Findings, err)
		}
		if want := p.Interference.MM() / test.share; math.Abs(r.Greatest.MM()-want) > 1e-6 {
			t.Errorf("it takes up to %v, want %.5f mm", r.Greatest, want)
		}
	}
	p.Hub, p.Shaft = lookup(t, "silver steel"), lookup(t, "silver steel")
	if r, err = p.Solve(); err != nil || !r.Greatest.IsZero() || !has(r.Findings, fits.Caution, "no strength is known of the hub, silver steel") {
		t.Error(r.Findings, err)
	}

	fit, err := fits.ParseFit("H7/s6")
	if err != nil {
		t.Fatal(err)
	}
	band, err := fit.At(units.MM(20))
	if err != nil {
		t.Fatal(err)
	}
	p = fits.Press{Diameter: units.MM(20), HubOutside: units.MM(40), Length: units.MM(20), Hub: steel, Shaft: steel, Friction: fits.Mu(0.12)}
	least, most, err := p.Ends(band)
	if err != nil || math.Abs(float64(most.Pressure/least.Pressure)-48.0/14) > 1e-9 {
		t.Error(least.Pressure, most.Pressure, err)
	}
	loose, _ := fits.ParseFit("H7/g6")
	band, _ = loose.At(units.MM(20))
	if _, _, err := p.Ends(band); !errors.Is(err, units.ErrOutOfRange) {
		t.Error("a sliding fit presses", err)
	}
}

func has(findings []fits.Finding, s fits.Severity, text string) bool {
	for _, f := range findings {
		if f.Severity == s && strings.Contains(f.Text, text) {
			return true
		}
	}
	return false
}

func TestPressErrors(t *testing.T) {
	steel := lookup(t, "mild steel")
	good := fits.Press{Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(30), Length: units.MM(20), Hub: steel, Shaft: steel, Friction: fits.Mu(0.12)}
	if _, err := good.Solve(); err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		change func(*fits.Press)
		want   error
		text   string
	}{
		"no diameter":     {func(p *fits.Press) { p.Diameter = units.Length{} }, units.ErrMissing, "diameter of the joint"},
		"no hub":          {func(p *fits.Press) { p.HubOutside = units.Length{} }, units.ErrMissing, "outside diameter of the hub"},
		"thin hub":        {func(p *fits.Press) { p.HubOutside = units.MM(20) }, units.ErrOutOfRange, "no wall"},
		"thick bore":      {func(p *fits.Press) { p.ShaftBore = units.MM(20) }, units.ErrOutOfRange, "no wall"},
		"negative bore":   {func(p *fits.Press) { p.ShaftBore = units.MM(-1) }, units.ErrOutOfRange, "bore"},
		"no length":       {func(p *fits.Press) { p.Length = units.Length{} }, units.ErrMissing, "length"},
		"no interference": {func(p *fits.Press) { p.Interference = units.Length{} }, units.ErrMissing, "interference"},
		"huge":            {func(p *fits.Press) { p.Interference = units.MM(2) }, units.ErrOutOfRange, "twentieth"},
		"no hub material": {func(p *fits.Press) { p.Hub = material.Material{} }, units.ErrMissing, "material of the hub"},
		"no material":     {func(p *fits.Press) { p.Shaft = material.Material{} }, units.ErrMissing, "material of the shaft"},
		"bad modulus": {func(p *fits.Press) {
			p.Shaft.Elasticity = material.Given(units.Pressure(math.NaN()), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "modulus"},
		"no strength": {func(p *fits.Press) {
			p.Hub.Yield = material.Given(units.Pressure(math.NaN()), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "strength"},
		"weak": {func(p *fits.Press) {
			p.Shaft.Tensile = material.Given(units.Pressure(-1), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "material of the shaft with strength"},
		"no friction":  {func(p *fits.Press) { p.Friction = fits.Friction{} }, units.ErrMissing, "friction"},
		"bad friction": {func(p *fits.Press) { p.Friction = fits.Mu(1.5) }, units.ErrOutOfRange, "friction"},
		"smoothed":     {func(p *fits.Press) { p.Smoothing = units.MM(0.02) }, units.ErrOutOfRange, "smoothing"},
	} {
		p := good
		test.change(&p)
		if _, err := p.Solve(); !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.text) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Lame's solution in equilibrium: the hoop forces of hub and of shaft balance
// the pressure, what the bore grows and the shaft shrinks makes up the
// interference, and everything is in proportion to it.
func TestPressProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(1, 200).Draw(t, "d")
		D := d * rapid.Float64Range(1.05, 5).Draw(t, "D/d")
		b := d * rapid.Float64Range(0, 0.95).Draw(t, "b/d")
		p := fits.Press{
			Diameter: units.MM(d), HubOutside: units.MM(D), ShaftBore: units.MM(b), Length: units.MM(d), Interference: units.MM(d * 0.001),
			Hub:      given("hub", units.Pressure(rapid.Float64Range(50e9, 250e9).Draw(t, "Eh")), 0.25, 1e-5),
			Shaft:    given("shaft", units.Pressure(rapid.Float64Range(50e9, 250e9).Draw(t, "Es")), 0.3, 1e-5),
			Friction: fits.Friction{Low: 0.1, High: 0.2},
		}
		r, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		eh, es := float64(p.Hub.Elasticity.Value), float64(p.Shaft.Elasticity.Value)
		grows := d * float64(r.HubHoop+0.25*r.Pressure) / eh
		shrinks := -d * float64(r.ShaftHoop+0.3*r.Pressure) / es
		if math.Abs(grows+shrinks-d*0.001) > 1e-8*d {
			t.Fatalf("bore grows %g, shaft shrinks %g, interference %g", grows, shrinks, d*0.001)
		}
		// The stress in Lame's wall is A + B/r^2; its mean times the wall is p d.
		A := float64(r.HubHoopOutside) / 2
		B := A * D * D / 4
		force := 2 * (A*(D/2-d/2) + B*(2/d-2/D))
		if math.Abs(force/(float64(r.Pressure)*d)-1) > 1e-6 {
			t.Fatalf("hoop force %g, pressure holds %g", force, float64(r.Pressure)*d)
		}
		if math.Abs(float64(r.Torque.Low)/(float64(r.Axial.Low)*d/2000)-1) > 1e-9 || r.Axial.High < r.Axial.Low || r.CloseIn.Sign() < 0 || r.HubGrowth.Sign() <= 0 {
			t.Fatalf("%+v", r)
		}
	})
}

func TestFrictions(t *testing.T) {
	all := fits.Frictions()
	if len(all) != 15 {
		t.Errorf("%d rows, want 15", len(all))
	}
	for _, f := range all {
		if !(0 < f.Low && f.Low <= f.High && f.High < 0.3) || f.Ref.Title == "" {
			t.Errorf("%+v", f)
		}
		p := fits.Press{Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(30), Length: units.MM(20), Hub: lookup(t, "mild steel"), Shaft: lookup(t, "mild steel"), Friction: f}
		if _, err := p.Solve(); err != nil {
			t.Error(err)
		}
	}
}

// A 3/8 in phosphor-bronze bush, a thou over size, is to drop into a steel rod
// end heated to 200 degrees C, with the bush from the freezer: 0.03 thou of
// clearance is left, and it will stick. With half the interference there is half a
// thou.
func ExampleShrink_bush() {
	bush := fits.Shrink{
		Diameter: units.Inch(0.375), Interference: units.Thou(1), Clearance: units.Thou(0.3),
		Hub: expanding("steel", 11.5e-6), Shaft: expanding("phosphor bronze", 17.5e-6),
		Room: units.Celsius(20), HubAt: units.Celsius(200), ShaftAt: units.Celsius(-18),
	}
	for _, interference := range []float64{1, 0.5} {
		bush.Interference = units.Thou(interference)
		r, err := bush.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f thou: %.2f thou left, grabs at %.0f K of difference, hub needed %.0f C\n", interference, r.AtAssembly.Thou(), float64(r.GrabsAt), r.HubNeeded.Celsius())
		for _, f := range r.Findings {
			if f.Severity == fits.Stop {
				fmt.Println(f)
			}
		}
	}
	// Output:
	// 1.0 thou: 0.03 thou left, grabs at 214 K of difference, hub needed 264 C
	// stop: the clearance at assembly is 0.001 mm (0.03 thou), less than the 0.008 mm (0.30 thou) that is wanted, and it will stick; the hub needs 264 degrees C (507 degrees F), or the interference must come down by 0.007 mm (0.27 thou)
	// 0.5 thou: 0.53 thou left, grabs at 138 K of difference, hub needed 148 C
}

func expanding(name string, alpha float64) material.Material {
	return material.Material{Name: name, Expansion: material.Given(units.Expansivity(alpha), source.Ref{Kind: source.FromMemory, Title: "figures in common use"})}
}

// An iron liner of 54 mm stuck 30 mm short of home in its block at 200 degrees
// C, put in solid and from the freezer, with 0.07 mm of interference from a
// handbook. The fit closes when the difference of temperature has fallen from
// 218 to 123 K; with 0.04 mm it would have been 71 K.
func ExampleShrink_liner() {
	iron := expanding("cast iron", 10.5e-6)
	liner := fits.Shrink{Diameter: units.MM(54), Hub: iron, Shaft: iron, Room: units.Celsius(20), HubAt: units.Celsius(200), ShaftAt: units.Celsius(-18), Clearance: units.MM(0.04)}
	for _, interference := range []float64{0.07, 0.04} {
		liner.Interference = units.MM(interference)
		r, err := liner.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f mm: starts with %s clearance, grabs at %.0f K\n", interference, r.AtAssembly.Text(units.Millimetres, 3), float64(r.GrabsAt))
		for _, f := range r.Findings {
			if f.Severity >= fits.Caution {
				fmt.Println(f)
			}
		}
	}
	// Output:
	// 0.07 mm: starts with 0.054 mm clearance, grabs at 123 K
	// caution: the fit grabs when the difference of temperature has fallen from 218 to 123 K: it must be home at once; use a guide and a stop, rehearse it cold, and think of a smaller interference
	// 0.04 mm: starts with 0.084 mm clearance, grabs at 71 K
}

// After the liner is bored to 50 mm the bore has closed by 0.059 mm and the
// liner stands under about 130 MPa; with 0.04 mm 0.034 mm and 74 MPa. Worked by
// others for a block of 85 mm, within 3 per cent.
func TestLinerClosesIn(t *testing.T) {
	iron := given("cast iron", 110*units.Gigapascal, 0.26, 10.5e-6)
	for _, test := range []struct{ interference, closeIn, hoop float64 }{{0.07, 0.059, -130}, {0.04, 0.034, -74}} {
		r, err := fits.Press{Diameter: units.MM(54), Interference: units.MM(test.interference), HubOutside: units.MM(85), ShaftBore: units.MM(50), Length: units.MM(90), Hub: iron, Shaft: iron, Friction: fits.Mu(0.1)}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if got := r.CloseIn.MM(); math.Abs(got/test.closeIn-1) > 0.03 {
			t.Errorf("%g mm: closes in %.4f mm, want %g", test.interference, got, test.closeIn)
		}
		if got := float64(r.ShaftHoopBore / units.Megapascal); math.Abs(got/test.hoop-1) > 0.03 {
			t.Errorf("%g mm: hoop %.1f MPa, want %g", test.interference, got, test.hoop)
		}
	}
	// A bush of 1/16 in wall on 3/8 in in a rod end of 5/8 in closes in by 0.67 of
	// the interference.
	steel, bronze := given("steel", 205*units.Gigapascal, 0.29, 11.5e-6), given("bronze", 110*units.Gigapascal, 0.34, 17.5e-6)
	r, err := fits.Press{Diameter: units.Inch(0.375), Interference: units.Thou(0.5), HubOutside: units.Inch(0.625), ShaftBore: units.Inch(0.25), Length: units.Inch(0.5), Hub: steel, Shaft: bronze, Friction: fits.Mu(0.07)}.Solve()
	if err != nil || math.Abs(r.CloseIn.Thou()/0.5-0.67) > 0.02 {
		t.Errorf("closes in %.3f thou of 0.5, want 0.67 of it (%v)", r.CloseIn.Thou(), err)
	}
}

// A 3 1/2 in liner, 3 thou over, into a block at 150 degrees C with the liner at
// -10 starts with 2.9 thou clear: a case that worked.
func TestLinerThatWentIn(t *testing.T) {
	iron := expanding("cast iron", 10.5e-6)
	r, err := fits.Shrink{Diameter: units.Inch(3.5), Interference: units.Thou(3), Clearance: units.Thou(2), Hub: iron, Shaft: iron, Room: units.Celsius(20), HubAt: units.Celsius(150), ShaftAt: units.Celsius(-10)}.Solve()
	if err != nil || math.Abs(r.AtAssembly.Thou()-2.9) > 0.05 || has(r.Findings, fits.Stop, "") {
		t.Errorf("%.2f thou clear, %v, %v", r.AtAssembly.Thou(), r.Findings, err)
	}
}

// An aluminium sleeve in an oven marked in Fahrenheit at 200 grew less than
// its interference. The same 200 in Celsius would have done.
func ExampleShrink_fahrenheit() {
	sleeve := fits.Shrink{
		Diameter: units.Inch(1), Interference: units.Thou(2), Clearance: units.Thou(1),
		Hub: expanding("aluminium", 23e-6), Shaft: expanding("steel", 11.5e-6),
		Room: units.Celsius(20), ShaftAt: units.Celsius(20), HubAt: units.Fahrenheit(200),
	}
	r, err := sleeve.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("grows %.2f thou; needed %.0f C, %.0f F\n", r.HubGrows.Thou(), r.HubNeeded.Celsius(), r.HubNeeded.Fahrenheit())
	fmt.Println(r.Findings[0])

	sleeve.Diameter = units.Length{}
	_, err = sleeve.Solve()
	fmt.Println(err)
	// Output:
	// grows 1.69 thou; needed 150 C, 303 F
	// stop: the parts do not go together: the interference is still 0.008 mm (0.31 thou); for a working clearance of 0.025 mm (1.00 thou) the hub needs 150 degrees C (303 degrees F), or the interference must come down by 0.033 mm (1.31 thou)
	// fits: diameter of the joint: missing; accepted: a length above zero
}

// Growth of an aluminium sleeve at 200 degrees F and what it takes to clear 2
// thou and 1 thou: worked by others, cut off at 0.01 thou, and within 3 degrees.
func TestSleeve(t *testing.T) {
	for _, test := range []struct {
		inch, grows, needed float64
		tooHot              bool
	}{{0.5, 0.84, 281, true}, {0.75, 1.26, 194, true}, {1, 1.68, 150, false}, {1.5, 2.52, 0, false}} {
		alu := lookup(t, "aluminium")
		alu.Expansion = material.Given(units.Expansivity(23e-6), source.Ref{Kind: source.FromMemory, Title: "figures in common use"})
		s := fits.Shrink{Diameter: units.Inch(test.inch), Interference: units.Thou(2), Clearance: units.Thou(1), Hub: alu, Shaft: lookup(t, "mild steel"), Room: units.Celsius(20), ShaftAt: units.Celsius(20), HubAt: units.Fahrenheit(200)}
		r, err := s.Solve()
		if err != nil || math.Abs(r.HubGrows.Thou()-test.grows) > 0.012 {
			t.Errorf("%g in: grows %.3f thou, want %g (%v)", test.inch, r.HubGrows.Thou(), test.grows, err)
		}
		if test.needed != 0 && math.Abs(r.HubNeeded.Celsius()-test.needed) > 3 {
			t.Errorf("%g in: needs %.0f C, want %g", test.inch, r.HubNeeded.Celsius(), test.needed)
		}
		if has(r.Findings, fits.Caution, "soften above about 175") != test.tooHot {
			t.Errorf("%g in at %.0f C: %v", test.inch, r.HubNeeded.Celsius(), r.Findings)
		}
	}
}

func TestShrinkErrorsAndCautions(t *testing.T) {
	iron, steel := lookup(t, "cast iron"), lookup(t, "mild steel")
	good := fits.Shrink{Diameter: units.MM(54), Interference: units.MM(0.04), Clearance: units.MM(0.03), Hub: iron, Shaft: steel, Room: units.Celsius(20), HubAt: units.Celsius(200), ShaftAt: units.Celsius(-78)}
	r, err := good.Solve()
	if err != nil || !has(r.Findings, fits.Caution, "ShaftCurve") || !has(r.Findings, fits.Note, "gloves") {
		t.Error(r.Findings, err)
	}
	// A twentieth of the diameter would take 4400 K, which no oven has, and more is
	// no interference;
	// an aluminium shaft at -200 degrees C shrinks far more than its iron hub.
	absurd := good
	absurd.Interference = units.MM(2.7)
	if r, err := absurd.Solve(); err != nil || r.HubNeeded != 0 || !has(r.Findings, fits.Stop, "no hub of cast iron gets there by heat") {
		t.Error(r, err)
	}
	cold := fits.Shrink{Diameter: units.MM(54), Interference: units.MM(0.01), Hub: iron, Shaft: lookup(t, "aluminium"), Room: units.Celsius(20), HubAt: units.Celsius(20), ShaftAt: units.Celsius(-200)}
	if r, err := cold.Solve(); err != nil || r.HubNeeded != cold.ShaftAt || r.HubGrabs != 0 || r.GrabsAt <= 0 {
		t.Errorf("%+v, %v", r, err)
	}
	good.ShaftCurve = fits.ChilledSteel()
	curved, err := good.Solve()
	if err != nil || curved.ShaftShrinks.Cmp(r.ShaftShrinks) >= 0 || has(curved.Findings, fits.Caution, "ShaftCurve") {
		t.Error(curved, err)
	}
	warm := good
	warm.ShaftAt, warm.ShaftCurve = warm.Room, nil
	if r, err := warm.Solve(); err != nil || !has(r.Findings, fits.Note, "gloves") {
		t.Error("an oven without gloves", r.Findings, err)
	}
	// What heat takes from a hub, at the temperature it is at and a little below.
	for name, limit := range map[string]float64{"brass": 250, "phosphor bronze": 250, "copper": 250, "silver steel": 250, "aluminium": 175, "PTFE": 200} {
		oven := fits.Shrink{Diameter: units.MM(20), Interference: units.MM(0.005), Hub: lookup(t, name), Shaft: steel, Room: units.Celsius(20), ShaftAt: units.Celsius(20)}
		for _, over := range []float64{-1, 1} {
			oven.HubAt = units.Celsius(limit + over)
			if r, err := oven.Solve(); err != nil || has(r.Findings, fits.Caution, "the hub of "+name) != (over > 0) {
				t.Errorf("%s at %v: %v, %v", name, oven.HubAt, r.Findings, err)
			}
		}
	}
	// A shaft cooled alone, along the curve: needed, and out of reach.
	alone := good
	alone.HubAt, alone.ShaftAt, alone.Interference, alone.Clearance = alone.Room, units.Celsius(0), units.MM(0.03), units.MM(0.02)
	if r, err = alone.Solve(); err != nil || r.ShaftNeeded == 0 {
		t.Fatal(r, err)
	}
	alone.ShaftAt = r.ShaftNeeded
	if again, err := alone.Solve(); err != nil || math.Abs(again.AtAssembly.Sub(alone.Clearance).MM()) > 1e-9 {
		t.Errorf("at %v: %v, %v", alone.ShaftAt, again.AtAssembly, err)
	}
	alone.Interference = units.MM(0.2)
	if r, err = alone.Solve(); err != nil || r.ShaftNeeded != 0 {
		t.Error("steel cooled to -340 degrees F does not shrink that far", r, err)
	}
	// A hub that is hot enough alone leaves the shaft as it is, curve or none.
	alone.HubAt, alone.Interference, alone.Clearance = units.Celsius(300), units.MM(0.02), units.MM(0.02)
	if r, err = alone.Solve(); err != nil || r.ShaftNeeded != alone.Room {
		t.Error("a shaft that need not be chilled is to be at", r.ShaftNeeded, err)
	}
	// Nobody asked for a working clearance, and there is next to none.
	alone.HubAt, alone.ShaftAt, alone.Interference, alone.Clearance = units.Celsius(60), alone.Room, units.MM(0.02), units.Length{}
	if r, err = alone.Solve(); err != nil || !has(r.Findings, fits.Caution, "no working clearance was asked for: parts that drop together want about a thousandth of the diameter, 0.054 mm") {
		t.Error(r.Findings, err)
	}
	alone.HubAt, alone.Interference = alone.Room, units.MM(0.2)
	alone.ShaftCurve = nil
	if r, err = alone.Solve(); err != nil || r.ShaftNeeded != 0 {
		t.Error("nor to absolute zero", r, err)
	}
	for name, test := range map[string]struct {
		change func(*fits.Shrink)
		want   error
	}{
		"no diameter":        {func(s *fits.Shrink) { s.Diameter = units.Length{} }, units.ErrMissing},
		"no interference":    {func(s *fits.Shrink) { s.Interference = units.Length{} }, units.ErrMissing},
		"huge":               {func(s *fits.Shrink) { s.Interference = units.MM(2.8) }, units.ErrOutOfRange},
		"negative clearance": {func(s *fits.Shrink) { s.Clearance = units.MM(-1) }, units.ErrOutOfRange},
		"no room":            {func(s *fits.Shrink) { s.Room = 0 }, units.ErrMissing},
		"no oven":            {func(s *fits.Shrink) { s.HubAt = 0 }, units.ErrMissing},
		"furnace":            {func(s *fits.Shrink) { s.HubAt = units.Celsius(1500) }, units.ErrOutOfRange},
		"NaN":                {func(s *fits.Shrink) { s.ShaftAt = units.Temperature(math.NaN()) }, units.ErrOutOfRange},
		"the wrong way":      {func(s *fits.Shrink) { s.HubAt, s.ShaftAt = units.Celsius(0), units.Celsius(20) }, units.ErrOutOfRange},
		"no hub":             {func(s *fits.Shrink) { s.Hub = material.Material{} }, units.ErrMissing},
		"no shaft":           {func(s *fits.Shrink) { s.Shaft = material.Material{} }, units.ErrMissing},
		"odd hub":            {func(s *fits.Shrink) { s.Hub = expanding("odd", math.Inf(1)) }, units.ErrOutOfRange},
		"colder than curve":  {func(s *fits.Shrink) { s.ShaftAt = units.Kelvin(10) }, units.ErrOutOfRange},
	} {
		s := good
		test.change(&s)
		if _, err := s.Solve(); !errors.Is(err, test.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// At the temperatures that the result names, a second solution has the
// clearance that they were worked out for.
func TestShrinkProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := fits.Shrink{
			Diameter: units.MM(rapid.Float64Range(5, 300).Draw(t, "d")), Interference: units.MM(rapid.Float64Range(0.005, 0.1).Draw(t, "delta")), Clearance: units.MM(rapid.Float64Range(0, 0.05).Draw(t, "c")),
			Hub: expanding("hub", rapid.Float64Range(9e-6, 25e-6).Draw(t, "ah")), Shaft: expanding("shaft", rapid.Float64Range(9e-6, 25e-6).Draw(t, "as")),
			Room: units.Celsius(20), HubAt: units.Celsius(rapid.Float64Range(20, 300).Draw(t, "th")), ShaftAt: units.Celsius(rapid.Float64Range(-60, 20).Draw(t, "ts")),
		}
		r, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if r.HubNeeded > s.ShaftAt && r.HubNeeded < units.Celsius(999) {
			again := s
			again.HubAt = r.HubNeeded
			if a, err := again.Solve(); err != nil || math.Abs(a.AtAssembly.Sub(s.Clearance).MM()) > 1e-8 {
				t.Fatalf("at %v: %v, %v; want %v", r.HubNeeded, a.AtAssembly, err, s.Clearance)
			}
		}
		if r.ShaftNeeded > s.Room {
			t.Fatalf("the shaft is to be chilled to %v", r.ShaftNeeded)
		}
		if r.ShaftNeeded != 0 && r.ShaftNeeded < s.Room {
			again := s
			again.ShaftAt = r.ShaftNeeded
			if a, err := again.Solve(); err != nil || math.Abs(a.AtAssembly.Sub(s.Clearance).MM()) > 1e-8 {
				t.Fatalf("shaft at %v: %v, %v; want %v", r.ShaftNeeded, a.AtAssembly, err, s.Clearance)
			}
		}
		if r.AtAssembly.Sign() > 0 && r.HubGrabs >= s.ShaftAt {
			again := s
			again.HubAt = r.HubGrabs
			if a, err := again.Solve(); err != nil || math.Abs(a.AtAssembly.MM()) > 1e-8 {
				t.Fatalf("at %v: %v, %v; want none", r.HubGrabs, a.AtAssembly, err)
			}
			if r.GrabsAt > s.HubAt.Sub(s.ShaftAt)+1e-9 || r.GrabsAt < r.HubGrabs.Sub(s.ShaftAt)-1e-9 {
				t.Fatalf("grabs at %v of %v", r.GrabsAt, s.HubAt.Sub(s.ShaftAt))
			}
		}
	})
}

// Pistons of 1 1/2 in from 20 to 150 degrees C: an aluminium one closes 2.4
// thou in an iron cylinder when both are hot, 4.5 thou while the cylinder is
// still cold; iron in iron 2.0 thou while it is cold; brass in iron 1.7 thou
// both hot.
func ExampleRunning() {
	alu, iron, brass := expanding("aluminium", 23e-6), expanding("cast iron", 10.5e-6), expanding("brass", 19e-6)
	piston := fits.Running{Diameter: units.Inch(1.5), Inner: alu, Outer: iron, Room: units.Celsius(20), InnerHot: units.Celsius(150), OuterHot: units.Celsius(150), Cold: units.Thou(3), Least: units.Thou(1)}
	for _, m := range []material.Material{alu, iron, brass} {
		piston.Inner = m
		r, err := piston.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: cold %.1f, both hot %.1f, cylinder still cold %.1f, needs %.1f thou\n", m.Name, r.Cold.Thou(), r.BothHot.Thou(), r.InnerOnly.Thou(), r.Needed.Thou())
		for _, f := range r.Findings {
			if f.Severity == fits.Stop {
				fmt.Println(f)
			}
		}
	}
	// Output:
	// aluminium: cold 3.0, both hot 0.6, cylinder still cold -1.5, needs 5.5 thou
	// stop: it seizes with the inner part hot and the outer one still at room temperature: the clearance is gone and 0.038 mm (1.49 thou) more is missing; it needs 0.139 mm (5.49 thou) cold
	// cast iron: cold 3.0, both hot 3.0, cylinder still cold 1.0, needs 3.0 thou
	// brass: cold 3.0, both hot 1.3, cylinder still cold -0.7, needs 4.7 thou
	// stop: it seizes with the inner part hot and the outer one still at room temperature: the clearance is gone and 0.018 mm (0.71 thou) more is missing; it needs 0.120 mm (4.71 thou) cold
}

// A cylinder of aluminium with an iron piston shows what a spread of published
// expansions is worth, and that heat can open a fit as well.
func TestRunning(t *testing.T) {
	r, err := fits.Running{Diameter: units.MM(40), Inner: lookup(t, "cast iron"), Outer: lookup(t, "aluminium"), Room: units.Celsius(20), InnerHot: units.Celsius(120), OuterHot: units.Celsius(120), Cold: units.MM(0.05)}.Solve()
	if err != nil || r.BothHot.Cmp(r.Cold) <= 0 || r.OuterOnly.Cmp(r.BothHot) <= 0 || r.NeededHigh.Cmp(r.Needed) < 0 {
		t.Errorf("%+v, %v", r, err)
	}
	// Worst case by hand: 40 mm x 11.4e-6 x 100 K = 0.0456 mm.
	if got := r.Needed.MM(); math.Abs(got-0.0456) > 1e-9 {
		t.Errorf("needs %.4f mm, want 0.0456", got)
	}
	// Of iron 12e-6 is the most that is printed.
	if got := r.NeededHigh.MM(); math.Abs(got-0.048) > 1e-9 {
		t.Errorf("needs up to %.4f mm, want 0.0480", got)
	}
	bush := fits.Running{Diameter: units.MM(10), Inner: lookup(t, "silver steel"), Outer: lookup(t, "gunmetal"), Room: units.Celsius(20), InnerHot: units.Celsius(20), OuterHot: units.Celsius(-30), Least: units.MM(0.01), Cold: units.MM(0.012)}
	if r, err = bush.Solve(); err != nil || !has(r.Findings, fits.Caution, "outer part chilled") {
		t.Error("a bush that is chilled closes on its spindle", r, err)
	}
	// A part that is chilled closes the more, the more its material expands:
	// 10 mm x 50 K x the most that is printed of the bush, and 0.01 mm left.
	most := float64(bush.Outer.Expansion.Max)
	if got := r.NeededHigh.MM(); most <= float64(bush.Outer.Expansion.Value) || math.Abs(got-(0.01+10*50*most)) > 1e-9 {
		t.Errorf("needs up to %.4f mm, want %.4f", got, 0.01+10*50*most)
	}
	// Both chilled: while the spindle is still warm the bush has closed on it. With
	// the spindle hot and the bush chilled both add up: 10 mm x (50 x 18.0 + 100 x
	// 11.5) ppm.
	bush.InnerHot = units.Celsius(-30)
	if r, err = bush.Solve(); err != nil || math.Abs(r.Needed.MM()-(0.01+10*50*18e-6)) > 1e-9 {
		t.Error(r, err)
	}
	bush.InnerHot = units.Celsius(120)
	if r, err = bush.Solve(); err != nil || math.Abs(r.Needed.MM()-(0.01+10*50*18e-6+10*100*11.5e-6)) > 1e-9 || math.Abs(r.BothHot.MM()-(0.012-10*50*18e-6-10*100*11.5e-6)) > 1e-9 {
		t.Error(r, err)
	}
	for name, change := range map[string]func(*fits.Running){
		"no diameter": func(r *fits.Running) { r.Diameter = units.Length{} },
		"no piston":   func(r *fits.Running) { r.Inner = material.Material{} },
		"no cylinder": func(r *fits.Running) { r.Outer = material.Material{} },
		"odd":         func(r *fits.Running) { r.Inner.Expansion.Max = units.Expansivity(math.NaN()) },
		"no room":     func(r *fits.Running) { r.Room = 0 },
		"no heat":     func(r *fits.Running) { r.InnerHot = 0 },
		"negative":    func(r *fits.Running) { r.Cold = units.MM(-1) },
		"less":        func(r *fits.Running) { r.Least = units.MM(-1) },
	} {
		bad := bush
		change(&bad)
		if _, err := bad.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A ring in a 2 in bore with a gap of just under a millimetre will not butt: if
// it is 130 degrees hotter than the cylinder the gap closes 0.22 mm, at 50 degrees
// 0.084 mm. The rules of the trade lie from a quarter of that to four times it.
func ExampleRingGap() {
	iron := expanding("cast iron", 10.5e-6)
	for _, hotter := range []float64{130, 50, 0} {
		r, err := fits.RingGap{Bore: units.Inch(2), Ring: iron, Cylinder: iron, Room: units.Celsius(20), RingHot: units.Celsius(20 + hotter), CylinderHot: units.Celsius(20), Cold: units.MM(0.95)}.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f K hotter: closes %.3f mm, %.2f mm left\n", hotter, r.Closes.MM(), r.Hot.MM())
	}
	rules, _ := fits.Rules("ring gap")
	for _, rule := range rules {
		low, high, _ := rule.At(units.Inch(2))
		fmt.Printf("%s: %.2f to %.2f mm\n", rule.Name, low.MM(), high.MM())
	}
	// Output:
	// 130 K hotter: closes 0.218 mm, 0.73 mm left
	// 50 K hotter: closes 0.084 mm, 0.87 mm left
	// 0 K hotter: closes 0.000 mm, 0.95 mm left
	// steam, a thou to two per inch of bore: 0.05 to 0.10 mm
	// two to three thou per inch of bore: 0.10 to 0.15 mm
	// least, three and a half thou per inch of bore: 0.18 to 0.18 mm
	// four thou per inch of bore: 0.20 to 0.20 mm
	// most, eight thou per inch of bore: 0.41 to 0.41 mm
}

func TestRingGap(t *testing.T) {
	iron := lookup(t, "cast iron")
	gap := fits.RingGap{Bore: units.Inch(2), Ring: iron, Cylinder: iron, Room: units.Celsius(20), RingHot: units.Celsius(180), CylinderHot: units.Celsius(150), Cold: units.Thou(2)}
	r, err := gap.Solve()
	if err != nil || !has(r.Findings, fits.Stop, "butts at work") {
		t.Error(r, err)
	}
	// pi x 50.8 mm x 11.4e-6 x (160 - 130) K by hand.
	if got := r.Closes.MM(); math.Abs(got-0.054581) > 1e-6 {
		t.Errorf("closes %.6f mm, want 0.054581", got)
	}
	gap.Cold = units.Thou(6)
	if r, err = gap.Solve(); err != nil || !has(r.Findings, fits.Caution, "still cold") || r.Least.Cmp(r.Closes) <= 0 {
		t.Error(r, err)
	}
	gap.Cold = units.Length{}
	if r, err = gap.Solve(); err != nil || len(r.Findings) != 0 || r.Least.IsZero() {
		t.Error(r, err)
	}
	if _, err := (fits.RingGap{}).Solve(); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
}

func TestGrowth(t *testing.T) {
	iron := lookup(t, "cast iron")
	if got, err := fits.Growth(units.MM(100), iron, 100); err != nil || got != units.MM(0.114) {
		t.Error(got, err)
	}
	for _, bad := range []units.TemperatureDifference{units.TemperatureDifference(math.NaN()), 2000, -2000} {
		if _, err := fits.Growth(units.MM(100), iron, bad); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(bad, err)
		}
	}
	if _, err := fits.Growth(units.MM(-1), iron, 1); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := fits.Growth(units.MM(1), material.Material{}, 1); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	curve := fits.ChilledSteel()
	for _, test := range []struct {
		c        fits.ExpansionCurve
		from, to units.Temperature
	}{
		{curve, units.Fahrenheit(80), units.Fahrenheit(200)},
		{curve, units.Fahrenheit(-400), units.Fahrenheit(0)},
		{nil, units.Celsius(0), units.Celsius(1)},
		{fits.ExpansionCurve{curve[1], curve[0]}, units.Fahrenheit(-200), units.Fahrenheit(-180)},
		{curve, units.Temperature(math.NaN()), units.Celsius(1)},
	} {
		if _, err := test.c.Strain(test.from, test.to); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v to %v: %v", test.from, test.to, err)
		}
	}
	there, _ := curve.Strain(units.Celsius(-100), units.Celsius(20))
	back, _ := curve.Strain(units.Celsius(20), units.Celsius(-100))
	if there != -back || there <= 0 {
		t.Error(there, back)
	}
}

// Torque of a bonded joint at 10 N/mm2: worked by others, within 2 per cent.
func ExampleBond() {
	joint := fits.Bond{Adhesive: fits.GenericRetainer(), Derating: 1, Gap: fits.Band{Low: units.MM(0.03), High: units.MM(0.08)}, Hottest: units.Celsius(60)}
	for _, size := range []units.Length{units.MM(6), units.Inch(0.25), units.MM(10)} {
		joint.Diameter, joint.Length = size, size
		r, err := joint.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s x %s: %.1f N m, %.0f N\n", size, size, r.Torque.Low, r.Axial.Low)
	}
	fmt.Println(joint.Adhesive.Ref)
	gaps, _ := fits.Rules("bond gap")
	for _, rule := range gaps {
		low, high, _ := rule.At(joint.Diameter)
		fmt.Printf("%s: %.1f to %.1f thou\n", rule.Name, low.Thou(), high.Thou())
	}
	// Output:
	// 6 mm x 6 mm: 3.4 N m, 1131 N
	// 6.35 mm x 6.35 mm: 4.0 N m, 1267 N
	// 10 mm x 10 mm: 15.7 N m, 3142 N
	// from memory: retaining compounds as a sort (take the data sheet of the grade in hand)
	// retaining compound at its full strength: 2.0 to 5.0 thou
	// retaining compound, the least that is of use: 0.4 to 0.4 thou
}

func TestBond(t *testing.T) {
	good := fits.Bond{Diameter: units.MM(10), Length: units.MM(20), Adhesive: fits.GenericRetainer(), Derating: 0.5, Gap: fits.Band{Low: units.MM(0.01), High: units.MM(0.2)}, Hottest: units.Celsius(160)}
	r, err := good.Solve()
	if err != nil || !has(r.Findings, fits.Caution, "starved") || !has(r.Findings, fits.Stop, "may not cure") || !has(r.Findings, fits.Stop, "above the limit") || !has(r.Findings, fits.Note, "fumes") || !has(r.Findings, fits.Note, "diameters") || !has(r.Findings, fits.Caution, "from memory") {
		t.Error(r.Findings, err)
	}
	good.Adhesive.Release = 0
	if r, err = good.Solve(); err != nil || !has(r.Findings, fits.Note, "the release temperature of the data sheet") || !has(r.Findings, fits.Note, "fumes") {
		t.Error("a sheet without a release temperature drops the caution on heat", r.Findings, err)
	}
	for name, change := range map[string]func(*fits.Bond){
		"no diameter":   func(b *fits.Bond) { b.Diameter = units.Length{} },
		"no length":     func(b *fits.Bond) { b.Length = units.Length{} },
		"no strength":   func(b *fits.Bond) { b.Adhesive.Shear = fits.Range[units.Pressure]{} },
		"no gap range":  func(b *fits.Bond) { b.Adhesive.GapMax = units.Length{} },
		"gap turned":    func(b *fits.Bond) { b.Gap = fits.Band{Low: units.MM(1)} },
		"release":       func(b *fits.Bond) { b.Adhesive.Release = units.Temperature(math.NaN()) },
		"no derating":   func(b *fits.Bond) { b.Derating = 0 },
		"derating":      func(b *fits.Bond) { b.Derating = 2 },
		"NaN":           func(b *fits.Bond) { b.Derating = math.NaN() },
		"no heat":       func(b *fits.Bond) { b.Hottest = 0 },
		"sheet is bare": func(b *fits.Bond) { b.Adhesive.Service = 0 },
	} {
		b := good
		change(&b)
		if _, err := b.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The seating torques against a second work.
func TestSetScrews(t *testing.T) {
	seating := map[string]units.Torque{}
	for _, s := range fits.SetScrews() {
		seating[s.Name] = s.Seating
	}
	f := check.Open(t, "fits/setscrews.csv")
	for r := range f.Rows() {
		name := r.Text("name")
		got := float64(seating[name] / units.PoundForceInch)
		if name == "#8" || name == "#10" {
			if got <= r.Float("torque_lbf_in") {
				t.Errorf("%s: %g lbf in, and the lower of two figures in print is %s", name, got, r.Text("torque_lbf_in"))
			}
			r.Skip("the works disagree")
			continue
		}
		r.Compare("torque_lbf_in", got)
	}
}

// The holding powers published for set screws lie within the spread that the
// formula states, at every size; and by them the torque on a shaft.
func TestGrubScrew(t *testing.T) {
	count := 0
	for _, s := range fits.SetScrews() {
		if s.Seating <= 0 || s.Ref.Title == "" {
			t.Errorf("%+v", s)
		}
		if s.Holding == 0 {
			continue
		}
		count++
		r, err := fits.GrubScrew{Screw: s.Diameter, Shaft: s.Diameter.Scale(2), Tightening: s.Seating}.Solve()
		if err != nil || s.Holding < r.Axial.Low || s.Holding > r.Axial.High {
			t.Errorf("%s: holds %.0f lbf, the formula gives %.0f to %.0f (%v)", s.Name, s.Holding/units.PoundForce, r.Axial.Low/units.PoundForce, r.Axial.High/units.PoundForce, err)
		}
	}
	if count != 11 {
		t.Errorf("%d sizes with a holding power, want 11", count)
	}
	// #0 at 1/16 in shaft holds 1.5, #1 2.0, #2 2.6 lbf in of torque (screw data
	// sheet): the axial load at the radius.
	for _, test := range []struct {
		name string
		want float64
	}{{"#0", 1.5}, {"#1", 2.0}, {"#2", 2.6}} {
		for _, s := range fits.SetScrews() {
			if got := float64(s.Holding/units.PoundForce) / 32; s.Name == test.name && math.Abs(got-test.want) > 0.07 {
				t.Errorf("%s: %.2f lbf in, want %g", s.Name, got, test.want)
			}
		}
	}
	round := fits.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2.2}
	flat := round
	flat.FlatDepth = units.MM(0.5)
	a, errA := round.Solve()
	b, errB := flat.Solve()
	if errA != nil || errB != nil || b.Torque.Low <= a.Torque.Low || !has(a.Findings, fits.Note, "from memory") || !has(a.Findings, fits.Note, "burr") || has(b.Findings, fits.Note, "burr") {
		t.Error(a, b, errA, errB)
	}
	// By hand: clamp 2.2/(0.2 x 0.004) = 2750 N, 0.408 of it at 3.5 mm and all of
	// it at 1 mm: 3.927 + 2.750 N m.
	if math.Abs(float64(b.Clamp)-2750) > 1e-6 || math.Abs(float64(b.Torque.Low)-6.677) > 1e-9 {
		t.Errorf("clamp %v, torque %v", b.Clamp, b.Torque.Low)
	}
	round.Shaft = units.MM(30)
	if a, errA = round.Solve(); errA != nil || !has(a.Findings, fits.Caution, "about a half") {
		t.Error(a, errA)
	}
	for name, bad := range map[string]fits.GrubScrew{
		"no screw":  {Shaft: units.MM(8), Tightening: 2},
		"no shaft":  {Screw: units.MM(4), Tightening: 2},
		"no torque": {Screw: units.MM(4), Shaft: units.MM(8)},
		"NaN":       {Screw: units.MM(4), Shaft: units.MM(8), Tightening: units.Torque(math.NaN())},
		"deep flat": {Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2, FlatDepth: units.MM(3)},
	} {
		if _, err := bad.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A flywheel is glued on its 8 mm shaft, 12 mm long, and skimmed at 90 mm with
// 150 N at the tool, the spokes hitting once in a while. The grub screw alone
// would let it slip. (Invented figures.)
func ExampleHolds() {
	cut := fits.Cut{Force: 150 * units.Newton, Diameter: units.MM(90), Shock: 2}
	bond, _ := fits.Bond{Diameter: units.MM(8), Length: units.MM(12), Adhesive: fits.GenericRetainer(), Derating: 0.5, Gap: fits.Band{Low: units.MM(0.02), High: units.MM(0.06)}, Hottest: units.Celsius(40)}.Solve()
	screw, _ := fits.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2.2 * units.NewtonMetre}.Solve()
	for _, joint := range []fits.Range[units.Torque]{bond.Torque, screw.Torque} {
		h, err := fits.Holds(joint, cut)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("needs %.1f N m, bears %.1f to %.1f: %v\n", h.Needed, h.Available.Low, h.Available.High, h.Findings)
	}
	// Output:
	// needs 13.5 N m, bears 6.0 to 18.1: [stop: the joint may slip: the cut takes 13.5 N m and it bears 6.032 N m at the least; drive the part by a dog or a bolt, or cut lighter]
	// needs 13.5 N m, bears 4.5 to 9.0: [stop: the joint may slip: the cut takes 13.5 N m and it bears 4.488 N m at the least; drive the part by a dog or a bolt, or cut lighter]
}

func TestHolds(t *testing.T) {
	cut := fits.Cut{Force: 100, Diameter: units.MM(20), Shock: 1} // 1 N m
	for _, test := range []struct {
		torque   units.Torque
		severity fits.Severity
		findings int
	}{{0.5, fits.Stop, 1}, {1.5, fits.Caution, 1}, {3, fits.Note, 0}} {
		h, err := fits.Holds(fits.Range[units.Torque]{Low: test.torque, High: 5}, cut)
		if err != nil || len(h.Findings) != test.findings || test.findings > 0 && h.Findings[0].Severity != test.severity || math.Abs(h.Margin-float64(test.torque)) > 1e-12 {
			t.Error(h, err)
		}
	}
	for name, bad := range map[string]fits.Cut{
		"no force":    {Diameter: units.MM(1), Shock: 1},
		"no diameter": {Force: 1, Shock: 1},
		"no shock":    {Force: 1, Diameter: units.MM(1)},
		"NaN":         {Force: units.Force(math.NaN()), Diameter: units.MM(1), Shock: 1},
	} {
		if _, err := fits.Holds(fits.Range[units.Torque]{Low: 1, High: 1}, bad); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := fits.Holds(fits.Range[units.Torque]{Low: 2, High: 1}, cut); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}

// End float of a crankshaft: the bearing block less the web and two washers.
// (Invented figures.)
func ExampleStack() {
	limits := func(nominal, lower, upper float64) fits.Limits {
		return fits.Limits{Nominal: units.MM(nominal), Min: units.MM(nominal + lower), Max: units.MM(nominal + upper)}
	}
	r, err := fits.Stack([]fits.Link{
		{Name: "block", Size: limits(40, 0.05, 0.15)},
		{Name: "web", Size: limits(37, -0.05, 0), Subtract: true},
		{Name: "washer, left", Size: limits(1.5, -0.02, 0.02), Subtract: true},
		{Name: "washer, right", Size: limits(1.5, -0.02, 0.02), Subtract: true},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("worst %s to %s, likely %s to %s\n", r.Worst.Min, r.Worst.Max, r.Likely.Min.Decimal(units.Millimetres, 3), r.Likely.Max.Text(units.Millimetres, 3))
	for _, s := range r.Shares {
		fmt.Printf("%s %.0f %% of the worst, %.0f %% of the likely\n", s.Name, 100*s.Worst, 100*s.Root)
	}
	// Output:
	// worst 0.01 mm to 0.24 mm, likely 0.062 to 0.188 mm
	// block 43 % of the worst, 64 % of the likely
	// web 22 % of the worst, 16 % of the likely
	// washer, left 17 % of the worst, 10 % of the likely
	// washer, right 17 % of the worst, 10 % of the likely
}

func TestStackProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var links []fits.Link
		for range rapid.IntRange(1, 8).Draw(t, "links") {
			lo := units.Picometres(rapid.Int64Range(-1e12, 1e12).Draw(t, "min"))
			links = append(links, fits.Link{Size: fits.Limits{Nominal: lo, Min: lo, Max: lo.Add(units.Picometres(rapid.Int64Range(0, 1e9).Draw(t, "tolerance")))}, Subtract: rapid.Bool().Draw(t, "subtract")})
		}
		r, err := fits.Stack(links)
		if err != nil {
			t.Fatal(err)
		}
		slack := units.Picometres(2)
		if r.Likely.Min.Cmp(r.Worst.Min.Sub(slack)) < 0 || r.Likely.Max.Cmp(r.Worst.Max.Add(slack)) > 0 {
			t.Fatalf("likely %v wider than worst %v", r.Likely, r.Worst)
		}
		if len(links) == 1 && (r.Likely.Min.Sub(r.Worst.Min).Abs().Cmp(slack) > 0 || r.Likely.Tolerance().Sub(r.Worst.Tolerance()).Abs().Cmp(slack) > 0) {
			t.Fatalf("one link: %v, %v", r.Likely, r.Worst)
		}
		var worst, root float64
		for _, s := range r.Shares {
			worst, root = worst+s.Worst, root+s.Root
		}
		if !r.Worst.Tolerance().IsZero() && (math.Abs(worst-1) > 1e-9 || math.Abs(root-1) > 1e-9) {
			t.Fatalf("shares %g and %g", worst, root)
		}
	})
	if _, err := fits.Stack(nil); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	if _, err := fits.Stack([]fits.Link{{Size: fits.Limits{Min: units.MM(2), Max: units.MM(1)}}}); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}

// Bushes sold as 5/16 measure 0.315 in and will not enter a hole of 0.3125 in:
// 8 thou per inch, far above any press fit. At 0.313 in it is 1.6.
func ExampleMeasured() {
	for _, bush := range []units.Length{units.Inch(0.315), units.Inch(0.313)} {
		r, err := fits.Measured(units.InchFraction(5, 16), bush)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s of %.1f thou\n", r.Kind, r.Clearance.Abs().Thou())
		for _, f := range r.Findings {
			fmt.Println(f)
		}
	}
	// A 16 mm shaft in a sprocket bored 5/8 in.
	r, _ := fits.Measured(units.InchFraction(5, 8), units.MM(16))
	fmt.Printf("%s of %s, %.2f thou\n", r.Kind, r.Clearance.Abs(), r.Clearance.Abs().Thou())
	fmt.Println(strings.Contains(r.Findings[0].Text, "Turning the shaft is easier, and truer, than opening the hole"))
	// Output:
	// interference of 2.5 thou
	// stop: interference of 0.064 mm (2.50 thou), 7.9 thou per inch, is far above any press fit: turn the shaft to between 7.941 mm (312.66 thou) and 7.953 mm (313.13 thou) for a press fit, below 7.938 mm (312.50 thou) for a running fit. Turning the shaft is easier, and truer, than opening the hole
	// interference of 0.5 thou
	// note: interference of 0.013 mm (0.50 thou), 1.6 thou per inch, is a press fit by the rules of the trade; the bore of a thin bush closes by most of it, so ream it after pressing
	// interference of 0.125 mm, 4.92 thou
	// true
}

func TestMeasured(t *testing.T) {
	if r, err := fits.Measured(units.MM(10), units.MM(10.003)); err != nil || !has(r.Findings, fits.Note, "carries little") {
		t.Error(r, err)
	}
	if r, err := fits.Measured(units.MM(10), units.MM(9.99)); err != nil || r.Kind != fits.Clearance || len(r.Findings) != 0 {
		t.Error(r, err)
	}
	if _, err := fits.Measured(units.MM(10), units.Length{}); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	if _, err := fits.Measured(units.MM(-10), units.MM(1)); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}

func TestSeverity(t *testing.T) {
	for _, s := range []fits.Severity{fits.Note, fits.Caution, fits.Stop} {
		if back, err := fits.ParseSeverity(s.String()); err != nil || back != s {
			t.Error(s, back, err)
		}
	}
}
