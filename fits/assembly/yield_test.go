package assembly_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
	"pgregory.net/rapid"
)

// A hub of mild steel on a shaft of 1 in at the 1.5 thou that the rules of the
// trade and FN2 allow is past its yield at the bore, and is no broken joint: the
// finding says how both can be so. What no fit has is not excused, nor is a thin
// ring whose whole wall yields.
func TestYieldWithinTheRules(t *testing.T) {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		over, outside float64
		severity      finding.Severity
		text          string
	}{
		{1.5, 6, finding.Caution, "The hub yields at its bore: it is stressed to 310 MPa where mild steel bears 210 MPa. Rules of the trade go so far"},
		{6, 6, finding.Fails, "The hub yields at its bore"},
		{1.9, 1.3, finding.Fails, "The hub yields through its whole wall"},
		{3, 1.3, finding.Danger, "It can burst, on the press or as it turns."},
	} {
		p := assembly.Press{
			Diameter: units.Inch(1), Interference: units.Thou(test.over), HubOutside: units.Inch(test.outside), Length: units.Inch(1),
			Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
		}
		r, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if !has(r.Findings, test.severity, test.text) || !warned(r.Precautions, "eye protection") {
			t.Errorf("%g thou: %v", test.over, r.Findings)
		}
	}
}

// A shaft that its hub cannot press so hard is not said to yield, and a bush yields
// at its bore before it does through its wall: of 10 on 20 mm from 2/3 of it.
func TestShaftYields(t *testing.T) {
	weak, strong := lookup(t, "mild steel"), lookup(t, "mild steel")
	strong.Yield = material.Given(900*units.Megapascal, source.Ref{Kind: source.Derived, Title: "test"})
	p := assembly.Press{
		Diameter: units.MM(20), Interference: units.MM(0.06), HubOutside: units.MM(40), Length: units.MM(20),
		Hub: weak, Shaft: weak, Friction: assembly.Mu(0.12),
	}
	// 232 MPa as if elastic, and the hub carries ln 2 of 210; a thick one no more than
	// its strength, whatever its wall.
	for _, outside := range []float64{40, 200} {
		p.HubOutside = units.MM(outside)
		r, err := p.Solve()
		if err != nil || has(r.Findings, finding.Fails, "") || r.Pressure < 210e6 ||
			math.Abs(float64(r.Axial.Max)/(0.12*float64(r.Pressure)*math.Pi*0.02*0.02)-1) > 1e-9 {
			t.Errorf("%v, %v, %v, %v", r.Pressure, r.Axial, r.Findings, err)
		}
	}
	p.Hub, p.ShaftBore = strong, units.MM(10)
	for pressure, want := range map[float64]finding.Severity{0.36: finding.Note, 0.38: finding.Caution, 0.49: finding.Caution, 0.51: finding.Fails} {
		p.Interference = units.MM(0.01)
		one, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		p.Interference = units.MM(0.01 * pressure * 210e6 / float64(one.Pressure))
		if r, err := p.Solve(); err != nil || has(r.Findings, want, "The shaft yields") != (want > finding.Note) {
			t.Errorf("%g of the yield: %v, %v", pressure, r.Findings, err)
		}
	}
}

// The interference from which the whole wall of a hub yields, by integrating
// equilibrium and the flow of metal inward from the outside, where the last ring is
// at its yield, in small steps (worked out apart; no step is shared).
func TestThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hub := given("hub", units.Pressure(rapid.Float64Range(70e9, 210e9).Draw(t, "eh")), rapid.Float64Range(0.25, 0.35).Draw(t, "nuh"), 1e-5)
		shaft := given("shaft", units.Pressure(rapid.Float64Range(70e9, 210e9).Draw(t, "es")), rapid.Float64Range(0.25, 0.35).Draw(t, "nus"), 1e-5)
		y := rapid.Float64Range(80e6, 400e6).Draw(t, "yield")
		hub.Yield = material.Given(units.Pressure(y), source.Ref{Kind: source.Derived, Title: "test"})
		ratio, bore := rapid.Float64Range(1.2, 2.7).Draw(t, "ratio"), rapid.Float64Range(0, 15).Draw(t, "bore")
		p := assembly.Press{
			Diameter: units.MM(20), Interference: units.MM(0.001), HubOutside: units.MM(20 * ratio), ShaftBore: units.MM(bore),
			Length: units.MM(20), Hub: hub, Shaft: shaft, Friction: assembly.Mu(0.1),
		}
		r, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		eh, nh, es, ns := float64(hub.Elasticity.Value), hub.Poisson.Value, float64(shaft.Elasticity.Value), shaft.Poisson.Value
		a, b := 0.01, 0.01*ratio
		// Outside: no radial stress, the hoop stress is the yield.
		radial, u := 0.0, y*b/eh
		const steps = 20000
		h := (b - a) / steps
		for i := range steps {
			x := b - (float64(i)+0.5)*h
			mid := radial - y/x*h/2 // dsr/dr = Y/r, half a step
			hoop := mid + y
			u -= ((1-nh)/eh*(mid+hoop) - u/x) * h // du/dr + u/r is elastic: the flow keeps its volume
			radial -= y / x * h
		}
		inner := bore / 2000
		shaftIn := -radial * a / es * ((a*a+inner*inner)/(a*a-inner*inner) - ns)
		want := 2000 * (u + shaftIn)
		if math.Abs(r.Through.MM()/want-1) > 2e-3 {
			t.Fatalf("through at %v, want %.6f mm", r.Through, want)
		}
	})
}
