package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
	"pgregory.net/rapid"
)

// TestInterferenceExamples works the textbooks' examples of shrunk and pressed
// joints. Many ask for the interference of a pressure; the joint is linear, so the
// test scales one solution.
func TestInterferenceExamples(t *testing.T) {
	f := check.Open(t, "fits/assembly/interference.csv")
	for r := range f.Rows() {
		switch what := r.Text("what"); what {
		case "hoop inside the wall":
			r.Skip("stress inside a wall, which the package does not give")
			continue
		case "press factor":
			// A friction of 0.044 at an inch, falling to 0.040 at five, would give it.
			r.Skip("a force with a friction that the source does not print")
			continue
		}
		number := func(column string) float64 {
			if !r.Has(column) {
				return 0
			}
			return r.Float(column)
		}
		unit, err := units.ParseLength("1 " + r.Text("unit"))
		if err != nil {
			t.Fatal(err)
		}
		stress, err := units.ParsePressure("1 " + r.Text("stress"))
		if err != nil {
			t.Fatal(err)
		}
		length := func(v float64) units.Length { return unit.Scale(v) }
		const trial = 1e-4 // of the joint, where the interference is not given
		joint := r.Float("joint")
		interference := number("interference")
		if interference == 0 {
			interference = trial * joint
		}
		p := assembly.Press{
			Diameter: length(joint), Interference: length(interference), HubOutside: length(r.Float("outside")),
			ShaftBore: length(number("bore")), Length: length(joint),
			Hub:      given("outer part", units.Pressure(r.Float("e_hub"))*stress, r.Float("nu_hub"), 1e-6),
			Shaft:    given("wheel that does not give", 2e12, 0, 1e-6),
			Friction: assembly.Mu(0.1),
		}
		if r.Has("length") {
			p.Length = length(r.Float("length"))
		}
		if r.Has("mu") {
			p.Friction = assembly.Mu(r.Float("mu"))
		}
		if r.Has("e_shaft") {
			p.Shaft = given("inner part", units.Pressure(r.Float("e_shaft"))*stress, r.Float("nu_shaft"), 1e-6)
		}
		s, err := p.Solve()
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		at := func(of units.Pressure) float64 { return r.Float("pressure") * float64(of/s.Pressure) } // at the pressure of the row
		needed := interference * number("pressure") / float64(s.Pressure/stress)
		switch what := r.Text("what"); what {
		case "jacket":
			r.Within("value", joint-needed, 1e-6) // the book puts the pressure in rounded, which is worth up to 4e-7 mm
		case "radial":
			r.Compare("value", needed/2)
		case "bores alike":
			bore, outside := r.Float("bore"), r.Float("outside")
			fluid := func(at float64) float64 { // Lame, the whole wall
				return r.Float("pressure") * bore * bore / (outside*outside - bore*bore) * (outside*outside/(at*at) + 1)
			}
			inner, outer := float64(s.ShaftHoopBore/s.Pressure), float64(s.HubHoop/s.Pressure)
			r.Compare("value", (fluid(bore)-fluid(joint))/(outer-inner))
		case "hoop inner bore":
			r.Compare("value", at(s.ShaftHoopBore))
		case "hoop inner joint":
			r.Compare("value", at(s.ShaftHoop))
		case "hoop outer joint":
			r.Compare("value", at(s.HubHoop))
		case "hoop outer outside":
			r.Compare("value", at(s.HubHoopOutside))
		case "pressure":
			r.Compare("value", float64(s.Pressure/stress))
			// A fit with the interference of the example at its least, and twice that at its most.
			fit := fits.FitLimits{Clearance: fits.Band{Min: p.Interference.Scale(-2), Max: p.Interference.Neg()}}
			least, most, err := p.Ends(fit)
			if err != nil {
				t.Fatal(r.ID, err)
			}
			r.Compare("value", float64(least.Pressure/stress))
			r.Compare("value", float64(most.Pressure/stress)/2)
		case "tyre pressure": // the book takes the tyre as thin, which is 1.5 % here
			r.Within("value", float64(s.Pressure/stress), 0.015*r.Float("value"))
		case "tyre torque":
			r.Within("value", float64(s.Torque.Min)/1000, 0.015*r.Float("value")) // the same
		default:
			t.Errorf("%s: nothing works %q", r.ID, what)
		}
	}
}

// TestHeatExamples works examples of linear expansion: of a length, of a hub that is
// heated for its shaft and of a shaft that is chilled for its hub.
func TestHeatExamples(t *testing.T) {
	f := check.Open(t, "fits/assembly/heat.csv")
	for r := range f.Rows() {
		unit, err := units.ParseLength("1 " + r.Text("unit"))
		if err != nil {
			t.Fatal(err)
		}
		length := func(column string) units.Length { return unit.Scale(r.Float(column)) }
		degrees, degree := units.Celsius, units.KelvinDifference
		read := func(at units.Temperature) float64 { return at.Celsius() }
		if r.Text("scale") == "F" {
			degrees, degree = units.Fahrenheit, units.FahrenheitDifference
			read = func(at units.Temperature) float64 { return at.Fahrenheit() }
		}
		room := degrees(r.Float("room"))
		var m material.Material
		if r.Has("expansion") {
			m = expanding("metal", r.Float("expansion")*1e-6/float64(degree))
		}
		switch what := r.Text("what"); what {
		case "grows", "stress":
			by, err := assembly.Growth(length("length"), m, degrees(r.Float("at")).Sub(room))
			if err != nil {
				t.Fatal(r.ID, err)
			}
			if what == "grows" {
				r.Compare("value", by.Ratio(unit))
				continue
			}
			r.Compare("value", r.Float("modulus")*(by.Ratio(unit)-r.Float("clearance"))/r.Float("length"))
		case "curve":
			// The case study fits a parabola through the points; the package draws
			// straight lines, 0.3 % apart.
			strain, err := assembly.ChilledSteel().Strain(room, degrees(r.Float("at")))
			if err != nil {
				t.Fatal(r.ID, err)
			}
			r.Within("value", r.Float("length")*strain, 0.00005)
		case "hub", "shaft", "rise":
			s, err := assembly.Shrink{
				Diameter: length("length"), Interference: length("interference"), Clearance: length("clearance"),
				Hub: m, Shaft: m, Room: room, HubAt: room, ShaftAt: room,
			}.Solve()
			if err != nil {
				t.Fatal(r.ID, err)
			}
			switch what {
			case "hub":
				r.Compare("value", read(s.HubNeeded))
			case "shaft":
				r.Compare("value", read(s.ShaftNeeded))
			case "rise":
				r.Compare("value", float64(s.HubNeeded.Sub(room)/degree))
			}
		default:
			t.Errorf("%s: nothing works %q", r.ID, what)
		}
	}
}

// What half a thou per inch holds on an axle of 20 mm depends on hub, length,
// material and friction. (Invented figures.)
func ExamplePress_Solve_axle() {
	steel, _ := material.Lookup("mild steel")
	iron, _ := material.Lookup("cast iron")
	axle := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.01), HubOutside: units.MM(36),
		Length: units.MM(18), Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
	long := axle
	long.HubOutside, long.Length, long.Friction = units.MM(50), units.MM(26), assembly.Mu(0.20)
	cast := axle
	cast.Hub = iron
	for _, p := range []assembly.Press{axle, long, cast} {
		r, err := p.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf(
			"%s hub %s, %s long: %.1f MPa, %.0f N\n", p.Hub.Name, p.HubOutside, p.Length,
			r.Pressure.In(units.Megapascal), r.Axial.Min.In(units.Newton),
		)
	}
	// Output:
	// mild steel hub 36 mm, 18 mm long: 35.8 MPa, 4856 N
	// mild steel hub 50 mm, 26 mm long: 43.5 MPa, 14203 N
	// cast iron hub 36 mm, 18 mm long: 21.8 MPa, 2952 N
}

// FI-04: half a thou per inch on an axle of 3/4 in: 5,625 psi and 1,190 lbf, 3,040 lbf, and
// about 700 lbf with an iron hub, all within 3 per cent (iron 6, its modulus
// being what it is). Common practice, no source.
func TestAxle(t *testing.T) {
	steel := given("steel", 30e6*units.PSI, 0.29, 11.7e-6)
	axle := assembly.Press{
		Diameter: units.Inch(0.75), Interference: units.Inch(0.000375), HubOutside: units.Inch(1.5),
		Length: units.Inch(0.75), Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
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
	near("force", float64(r.Axial.Min/units.PoundForce), 1190, 0.03)
	axle.HubOutside, axle.Length, axle.Friction = units.Inch(2), units.Inch(1), assembly.Mu(0.2)
	if r, err = axle.Solve(); err != nil {
		t.Fatal(err)
	}
	near("force", float64(r.Axial.Min/units.PoundForce), 3040, 0.03)
}

// The stress field of each part, sigma = A -/+ B/r^2 with A and B from the
// pressures on its faces, and its displacement u = r/E (hoop - nu radial): the
// faces must meet again and every figure of the result must be one of the field.
func TestPressField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := func(name string) material.Material {
			return given(
				name, units.Pressure(rapid.Float64Range(60e9, 220e9).Draw(t, "e "+name)),
				rapid.Float64Range(0.2, 0.4).Draw(t, "nu "+name), 11e-6,
			)
		}
		p := assembly.Press{
			Diameter: units.MM(20), Interference: units.MM(rapid.Float64Range(0.001, 0.03).Draw(t, "delta")),
			HubOutside: units.MM(rapid.Float64Range(24, 80).Draw(t, "hub outside")),
			ShaftBore:  units.MM(rapid.Float64Range(2, 17).Draw(t, "bore")),
			Length:     units.MM(20), Hub: e("hub"), Shaft: e("shaft"), Friction: assembly.Mu(0.1),
		}
		r, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		pressure, joint := float64(r.Pressure), p.Diameter.Metres()/2
		type cylinder struct{ a, b, e, nu float64 }
		field := func(in, out, pin, pout float64, m material.Material) cylinder {
			wall := out*out - in*in
			return cylinder{
				(pin*in*in - pout*out*out) / wall, (pin - pout) * in * in * out * out / wall,
				float64(m.Elasticity.Value), m.Poisson.Value,
			}
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
		if grows, closes := wider(hub, outside), -wider(shaft, bore); math.Abs(r.HubGrowth.Metres()-grows) > 1e-11 ||
			math.Abs(r.CloseIn.Metres()-closes) > 1e-11 {
			t.Errorf("grows %v, want %v m; closes in %v, want %v m", r.HubGrowth, grows, r.CloseIn, closes)
		}
	})
}

func TestPressJudges(t *testing.T) {
	steel, aluminium, iron := lookup(t, "mild steel"), lookup(t, "aluminium"), lookup(t, "cast iron")
	p := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.12), HubOutside: units.MM(30), Length: units.MM(20),
		Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
	r, err := p.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if !has(r.Findings, finding.Danger, "The hub yields") || !has(r.Findings, finding.Caution, "thou per inch") {
		t.Error(r.Findings)
	}
	// A steel hub that is past its yield at the bore alone gives and does not burst; its
	// whole wall yields from (30/20)^2 = 2.25 times as much. The fit is pressed with no
	// more than E delta/d allows, and holds what it holds at its yield.
	for share, want := range map[float64]finding.Severity{1.01: finding.Caution, 2.24: finding.Caution, 2.26: finding.Danger} {
		near := p
		near.Interference = r.Greatest.Scale(share)
		n, err := near.Solve()
		if err != nil || !has(n.Findings, want, "The hub yields") ||
			has(n.Findings, finding.Danger, "can burst") != (want == finding.Danger) || n.Findings.OK() != (want == finding.Caution) {
			t.Errorf("%g of the yield: %v, %v", share, n.Findings, err)
		}
		if got := float64(n.Holding) / float64(n.Pressure); math.Abs(got*share-1) > 1e-6 ||
			math.Abs(float64(n.Axial.Min)-0.12*float64(n.Holding)*math.Pi*0.02*0.02) > 1e-6*float64(n.Axial.Min) {
			t.Errorf("%g of the yield: holds by %v of %v, %v", share, n.Holding, n.Pressure, n.Axial)
		}
	}
	// At nine tenths of the yield it is worth a caution, at seven it is not.
	for share, want := range map[float64]bool{0.9: true, 0.7: false} {
		near := p
		near.Interference = r.Greatest.Scale(share)
		if n, err := near.Solve(); err != nil ||
			has(n.Findings, finding.Caution, "The hub is at 90 % of the yield strength") != want ||
			has(n.Findings, finding.Danger, "") || want && len(n.Findings[0].Remedies) != 1 {
			t.Errorf("%g of the yield: %v, %v", share, n.Findings, err)
		}
	}
	// What the surfaces bed down by may come on top.
	rough := p
	rough.Smoothing = units.Micron(5)
	if n, err := rough.Solve(); err != nil ||
		n.Greatest.Sub(r.Greatest).Sub(rough.Smoothing).Abs().Cmp(units.Picometres(2)) > 0 {
		t.Errorf("%v smooth, %v rough, %v", r.Greatest, n.Greatest, err)
	}
	// At the greatest interference the hub is just at its yield.
	p.Interference = r.Greatest
	if r, err = p.Solve(); err != nil || math.Abs(float64(r.HubShear/steel.Yield.Value)-1) > 1e-6 {
		t.Error(r.HubShear, err)
	}
	// A thin aluminium bush yields before its steel hub.
	p.Hub, p.Shaft, p.ShaftBore, p.HubOutside, p.Interference = steel, aluminium, units.MM(18), units.MM(60), units.MM(0.1)
	if r, err = p.Solve(); err != nil || !has(r.Findings, finding.Fails, "The shaft yields") ||
		r.CloseIn.Cmp(p.Interference) > 0 {
		t.Error(r.Findings, r.CloseIn, err)
	}
	if !has(r.Findings, finding.Note, "The bore closes by") {
		t.Error(r.Findings)
	}
	// Grey iron has no yield: its hoop tension is held against the tensile
	// strength of the weakest grade, 124 MPa, and well before that.
	p.Hub, p.Shaft, p.ShaftBore, p.HubOutside = iron, steel, units.Length{}, units.MM(40)
	for _, test := range []struct {
		share    float64 // of the tensile strength
		severity finding.Severity
		text     string
	}{
		{1.01, finding.Danger, "The hub cracks: it is stressed to 125 MPa where cast iron bears 124 MPa. It can burst"},
		{0.81, finding.Danger, "81 % of the tensile strength of weak cast iron, 124 MPa, and cracks without warning. Castings of one grade"},
		{0.79, finding.Caution, "79 % of the tensile strength of weak cast iron"},
		{0.7, finding.Caution, "70 % of the tensile strength of weak cast iron"}, {0.4, finding.Note, "62 to 159"},
	} {
		p.Interference = units.MM(0.01)
		if r, err = p.Solve(); err != nil {
			t.Fatal(err)
		}
		p.Interference = p.Interference.Scale(test.share * 124e6 / float64(r.HubHoop))
		if r, err = p.Solve(); err != nil || !has(r.Findings, test.severity, test.text) ||
			has(r.Findings, finding.Danger, "") != (test.share > 0.8) ||
			has(r.Findings, finding.Caution, "iron") != (test.share > 0.5 && test.share < 0.8) {
			t.Errorf("%g of the strength: %v, %v", test.share, r.Findings, err)
		}
		if want := p.Interference.MM() / test.share; math.Abs(r.Greatest.MM()-want) > 1e-6 {
			t.Errorf("it takes up to %v, want %.5f mm", r.Greatest, want)
		}
	}
	p.Hub, p.Shaft = lookup(t, "silver steel"), lookup(t, "silver steel")
	if r, err = p.Solve(); err != nil || !r.Greatest.IsZero() ||
		!has(r.Findings, finding.Caution, "We have no figure for the strength of the hub, silver steel.") {
		t.Error(r.Findings, err)
	}

	fit, err := fits.ParseFit("H7/s6")
	if err != nil {
		t.Fatal(err)
	}
	band, err := fit.LimitsFor(units.MM(20))
	if err != nil {
		t.Fatal(err)
	}
	p = assembly.Press{
		Diameter: units.MM(20), HubOutside: units.MM(40), Length: units.MM(20), Hub: steel, Shaft: steel,
		Friction: assembly.Mu(0.12),
	}
	least, most, err := p.Ends(band)
	if err != nil || math.Abs(float64(most.Pressure/least.Pressure)-48.0/14) > 1e-9 {
		t.Error(least.Pressure, most.Pressure, err)
	}
	loose, _ := fits.ParseFit("H7/g6")
	band, _ = loose.LimitsFor(units.MM(20))
	if _, _, err := p.Ends(band); !errors.Is(err, units.ErrOutOfRange) {
		t.Error("a sliding fit presses", err)
	}
}

// Force and torque at both ends of a friction, by hand: 77.625 MPa on pi x 20 x 20
// mm, and 10 mm to the joint.
func TestPressEnds(t *testing.T) {
	steel := given("steel", 207*units.Gigapascal, 0.3, 11.7e-6)
	r, err := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(40), Length: units.MM(20),
		Hub: steel, Shaft: steel, Friction: assembly.Friction{Min: 0.1, Max: 0.15},
	}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	const force = 77.625e6 * math.Pi * 0.02 * 0.02
	for _, v := range []struct{ got, want float64 }{
		{float64(r.Axial.Min), 0.1 * force}, {float64(r.Axial.Max), 0.15 * force},
		{float64(r.Torque.Min), 0.1 * force * 0.01}, {float64(r.Torque.Max), 0.15 * force * 0.01},
	} {
		if math.Abs(v.got-v.want) > 1e-9*v.want {
			t.Errorf("%v, want %v", v.got, v.want)
		}
	}
}

func TestPressErrors(t *testing.T) {
	steel := lookup(t, "mild steel")
	good := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(30), Length: units.MM(20),
		Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}
	if _, err := good.Solve(); err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		change func(*assembly.Press)
		want   error
		text   string
	}{
		"no diameter":     {func(p *assembly.Press) { p.Diameter = units.Length{} }, units.ErrOutOfRange, "diameter of the joint"},
		"no hub":          {func(p *assembly.Press) { p.HubOutside = units.Length{} }, units.ErrOutOfRange, "outside diameter of the hub"},
		"thin hub":        {func(p *assembly.Press) { p.HubOutside = units.MM(20) }, units.ErrOutOfRange, "no wall"},
		"thick bore":      {func(p *assembly.Press) { p.ShaftBore = units.MM(20) }, units.ErrOutOfRange, "no wall"},
		"negative bore":   {func(p *assembly.Press) { p.ShaftBore = units.MM(-1) }, units.ErrOutOfRange, "bore"},
		"no length":       {func(p *assembly.Press) { p.Length = units.Length{} }, units.ErrOutOfRange, "length"},
		"no interference": {func(p *assembly.Press) { p.Interference = units.Length{} }, units.ErrOutOfRange, "interference"},
		"huge":            {func(p *assembly.Press) { p.Interference = units.MM(2) }, units.ErrOutOfRange, "twentieth"},
		"no hub material": {func(p *assembly.Press) { p.Hub = material.Material{} }, units.ErrMissing, "material of the hub"},
		"no material":     {func(p *assembly.Press) { p.Shaft = material.Material{} }, units.ErrMissing, "material of the shaft"},
		"bad modulus": {func(p *assembly.Press) {
			p.Shaft.Elasticity = material.Given(units.Pressure(math.NaN()), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "modulus"},
		"no strength": {func(p *assembly.Press) {
			p.Hub.Yield = material.Given(units.Pressure(math.NaN()), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "strength"},
		"weak": {func(p *assembly.Press) {
			p.Shaft.Tensile = material.Given(units.Pressure(-1), source.Ref{Kind: source.Derived})
		}, units.ErrOutOfRange, "material of the shaft with strength"},
		"no friction":  {func(p *assembly.Press) { p.Friction = assembly.Friction{} }, units.ErrMissing, "friction"},
		"bad friction": {func(p *assembly.Press) { p.Friction = assembly.Mu(1.5) }, units.ErrOutOfRange, "friction"},
		"smoothed":     {func(p *assembly.Press) { p.Smoothing = units.MM(0.02) }, units.ErrOutOfRange, "smoothing"},
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
		p := assembly.Press{
			Diameter: units.MM(d), HubOutside: units.MM(D), ShaftBore: units.MM(b), Length: units.MM(d),
			Interference: units.MM(d * 0.001),
			Hub:          given("hub", units.Pressure(rapid.Float64Range(50e9, 250e9).Draw(t, "Eh")), 0.25, 1e-5),
			Shaft:        given("shaft", units.Pressure(rapid.Float64Range(50e9, 250e9).Draw(t, "Es")), 0.3, 1e-5),
			Friction:     assembly.Friction{Min: 0.1, Max: 0.2},
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
		if math.Abs(float64(r.Torque.Min)/(float64(r.Axial.Min)*d/2000)-1) > 1e-9 ||
			r.Axial.Max < r.Axial.Min || r.CloseIn.Sign() < 0 || r.HubGrowth.Sign() <= 0 {
			t.Fatalf("%+v", r)
		}
	})
}

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
	return material.Material{
		Name: name, Elasticity: material.Given(e, ref), Poisson: material.Given(nu, ref),
		Expansion: material.Given(units.Expansivity(expansion), ref),
	}
}

func has(findings finding.List, s finding.Severity, text string) bool {
	if !slices.IsSortedFunc(findings, func(a, b finding.Finding) int { return int(b.Severity - a.Severity) }) {
		panic(fmt.Sprint("not the worst first: ", findings))
	}
	for _, f := range findings {
		if f.Severity == s && strings.Contains(f.Text, text) {
			return true
		}
	}
	return false
}

func warned(precautions []finding.Precaution, text string) bool {
	return slices.ContainsFunc(precautions, func(p finding.Precaution) bool {
		return strings.Contains(p.Text, text) && p.Ref == source.Practice() && p.Code != ""
	})
}

// A crank pin of 10 mm pressed into its web, H7/s6: what it holds at the least and
// what it stresses at the most. (Invented web.)
func ExamplePress_Ends() {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		fmt.Println(err)
		return
	}
	fit, err := fits.ParseSizedFit("10H7/s6")
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, err := fit.Limits()
	if err != nil {
		fmt.Println(err)
		return
	}
	web := assembly.Press{
		Diameter: fit.Nominal, HubOutside: units.MM(20), Length: units.MM(10),
		Hub: steel, Shaft: steel, Friction: assembly.Mu(0.1),
	}
	least, most, err := web.Ends(limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf(
		"holds %.1f N m, hub at %.0f MPa\n", least.Torque.Min.In(units.NewtonMetre),
		most.HubShear.In(units.Megapascal),
	)
	for _, f := range most.Findings {
		if f.Severity >= finding.Caution {
			fmt.Println(f.Severity, f.Text, f.Remedies[0])
		}
	}
	// Output:
	// holds 9.8 N m, hub at 662 MPa
	// caution The hub yields at its bore: it is stressed to 662 MPa where mild steel bears 210 MPa. Fits of the standards allow as much, and count on a tougher metal on so small a part: it holds at least what it holds at its yield, and is not to be taken apart and used again. It takes an interference up to 0.010 mm (0.40 thou).
	// caution The interference is 0.032 mm (1.26 thou), 3.2 thou per inch, above the rules of the trade, 0.5 to 2.0 thou per inch. At this size H7/s6 of ISO 286 and FN2 of ANSI B4.1 allow as much, because tolerances weigh more on a small part. A steel hub that bears it is pressed home cold, as the heat that frees it softens or colours it; iron and soft metal bear less. Measure the hole and make the shaft 0.005 to 0.020 mm (0.20 to 0.79 thou) larger, a press fit by the rules of the trade.
}
