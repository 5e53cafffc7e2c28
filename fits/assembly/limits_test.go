package assembly_test

import (
	"errors"
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
)

// What a material loses by heat it loses above the very limit, and what is to be minded
// begins above its temperature: common practice, as the texts say.
func TestHeatAtTheLimits(t *testing.T) {
	solve := func(hub string, hot, cold float64) assembly.ShrinkResult {
		t.Helper()
		s := assembly.Shrink{
			Diameter: units.MM(20), Interference: units.MM(0.004), Hub: of(t, hub), Shaft: of(t, "mild steel"),
			Room: units.Celsius(20), HubAt: units.Celsius(hot), ShaftAt: units.Celsius(cold),
		}
		r, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	has := func(r assembly.ShrinkResult, code finding.Code) bool {
		return slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Code == code })
	}
	minds := func(r assembly.ShrinkResult, code finding.Code) bool {
		return slices.ContainsFunc(r.Precautions, func(p finding.Precaution) bool { return p.Code == code })
	}
	for hub, limit := range map[string]float64{"aluminium": 175, "mild steel": 250, "stainless steel 304": 425, "cast iron": 400, "brass": 250, "gunmetal": 250, "copper": 250, "PTFE": 200} {
		if has(solve(hub, limit, 20), assembly.HubTooHot) || !has(solve(hub, limit+0.001, 20), assembly.HubTooHot) {
			t.Errorf("%s at %g C: %v, above: %v", hub, limit, solve(hub, limit, 20).Findings, solve(hub, limit+0.001, 20).Findings)
		}
	}
	melts := of(t, "aluminium").Melts.Value.Celsius()
	if !has(solve("aluminium", melts, 20), assembly.HubMelts) || has(solve("aluminium", melts-0.001, 20), assembly.HubMelts) {
		t.Errorf("aluminium at %g C", melts)
	}
	for _, test := range []struct {
		hub       string
		hot, cold float64 // at which nothing is minded yet
		code      finding.Code
	}{
		{"mild steel", 60, 20, assembly.HotMetal}, {"mild steel", 60, 20, assembly.HotSolvent}, {"PTFE", 60, 20, assembly.HotPlastic},
		{"mild steel", 150, 20, assembly.HotSeals}, {"mild steel", 200, 20, assembly.HotPlating}, {"brass", 300, 20, assembly.LeadSweats},
		{"gunmetal", 400, 20, assembly.ZincFume}, {"mild steel", 20, -30, assembly.ColdMetal}, {"mild steel", 20, -30, assembly.BoilOff},
	} {
		hot, cold := test.hot+0.001, test.cold
		if test.cold < 0 {
			hot, cold = test.hot, test.cold-0.001
		}
		if minds(solve(test.hub, test.hot, test.cold), test.code) || !minds(solve(test.hub, hot, cold), test.code) {
			t.Errorf("%s of %s at %g and %g C", test.code, test.hub, test.hot, test.cold)
		}
	}
	// Expansions are known up to 300 degrees and down to -80, and no further.
	for _, at := range []struct {
		hot, cold float64
		unknown   bool
	}{{300, 20, false}, {300.001, 20, true}, {100, -80, false}, {100, -80.001, true}} {
		if r := solve("mild steel", at.hot, at.cold); r.Unknown != at.unknown {
			t.Errorf("at %g and %g C: %v", at.hot, at.cold, r)
		}
	}
}

// What is accepted at its end, and refused beyond, with no figure beside the error.
func TestAcceptedAtTheLimits(t *testing.T) {
	pm := units.Picometres(1)
	cut := func(force units.Force, d units.Length, shock float64) error {
		return check.Only(assembly.Cut{Force: force, Diameter: d, Shock: shock}.Torque())
	}
	point := func(celsius, ppm float64) assembly.ExpansionPoint {
		return assembly.ExpansionPoint{At: units.Celsius(celsius),
			Expansion: units.Expansivity(ppm) * units.MillionthPerKelvin}
	}
	strain := func(from, to float64, points ...assembly.ExpansionPoint) error {
		return check.Only(assembly.ExpansionCurve{Points: points}.Strain(units.Celsius(from), units.Celsius(to)))
	}
	expands := func(value, most float64) error {
		m := material.Material{Name: "x"}
		m.Expansion = of(t, "mild steel").Expansion
		m.Expansion.Value, m.Expansion.Max = units.Expansivity(value)*units.MillionthPerKelvin,
			units.Expansivity(most)*units.MillionthPerKelvin
		return check.Only(assembly.Growth(units.MM(1), m, 1))
	}
	bond := func(least units.Pressure) error {
		a := assembly.GenericRetainer()
		a.Shear.Min = least
		return check.Only(assembly.Bond{
			Diameter: units.MM(10), Length: units.MM(10), Gap: fits.Band{Max: units.MM(0.1)}, Adhesive: a, Derating: 1,
			Hottest: units.Celsius(20),
		}.Solve())
	}
	press := assembly.Press{Diameter: units.MM(12), HubOutside: units.MM(24), Length: units.MM(10), Hub: of(t, "mild steel"),
		Shaft: of(t, "mild steel"), Friction: assembly.Mu(0.1)}
	ends := func(loosest units.Length) error {
		least, _, err := press.Ends(fits.FitLimits{Clearance: fits.Band{Min: units.MM(-0.01), Max: loosest}})
		return check.Only(least, err)
	}
	a, b := point(0, 10), point(100, 12)
	for name, test := range map[string][2]error{
		"cut":           {cut(1, pm, 1), cut(1, units.Length{}, 1)},
		"force":         {cut(1e-9, pm, 1), cut(0, pm, 1)},
		"shock":         {cut(1, pm, 1), cut(1, pm, 0.999999)},
		"shock, upper":  {cut(1, pm, 10), cut(1, pm, 10.000001)},
		"curve":         {strain(0, 100, a, b), strain(-0.001, 100, a, b)},
		"curve, upper":  {strain(0, 100, a, b), strain(0, 100.001, a, b)},
		"curve, back":   {strain(100, 0, a, b), strain(100, -0.001, a, b)},
		"points":        {strain(0, 0, a, b), strain(0, 0, a)},
		"no points":     {strain(0, 100, a, b), strain(0, 0)},
		"order":         {strain(0, 100, a, b), strain(0, 0, b, a)},
		"twice":         {strain(0, 100, a, point(50, 11), b), strain(0, 100, a, a, b)},
		"absolute zero": {strain(0, 100, point(-273.15, 0), a, b), strain(0, 100, point(-273.2, 0), a, b)},
		"endless": {strain(0, 100, a, b),
			strain(0, 100, a, assembly.ExpansionPoint{At: b.At, Expansion: units.Expansivity(math.NaN())})},
		"expansion":        {expands(999.9, 999.9), expands(1000, 1000)},
		"expansion, least": {expands(1e-9, 1), expands(0, 1)},
		"expansion, most":  {expands(10, 999.9), expands(10, 1000)},
		"shear":            {bond(0.5), bond(0)},
		"always a press":   {ends(pm.Neg()), ends(units.Length{})},
	} {
		if test[0] != nil || test[1] == nil {
			t.Errorf("%s: %v, %v", name, test[0], test[1])
		}
	}
	// A friction that is given half is no friction that is missing.
	for f, want := range map[[2]float64]error{{0, 0}: units.ErrMissing, {0, 0.1}: units.ErrOutOfRange,
		{0.1, 0}: units.ErrOutOfRange, {0.1, 1.1}: units.ErrOutOfRange, {0.2, 0.1}: units.ErrOutOfRange, {0.1, 1}: nil} {
		if err := (assembly.Friction{Min: f[0], Max: f[1]}).Validate(); !errors.Is(err, want) {
			t.Errorf("%v: %v", f, err)
		}
	}
	// A piston as tight and as loose as the rules go keeps them, and a picometre more does not.
	span, _, err := fits.RuleSpan("piston", units.MM(25))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		band fits.Band
		want int
	}{{span, 0}, {fits.Band{Min: span.Min.Sub(pm), Max: span.Max}, 1},
		{fits.Band{Min: span.Min, Max: span.Max.Add(pm)}, 1}, {fits.Band{Min: span.Min.Add(pm), Max: span.Min.Add(pm)}, 0}} {
		if fs, err := assembly.CheckPiston(units.MM(25), test.band); err != nil || len(fs) != test.want {
			t.Errorf("%v: %v, %v", test.band, fs, err)
		}
	}
}

// Where the outer part stays as it is the tightest state is that of work itself; and to
// warm it through helps where both hot leave just what is wanted.
func TestRunningAtTheLimits(t *testing.T) {
	run := func(clearance, least float64, innerHot, outerHot float64) assembly.RunningResult {
		t.Helper()
		fit, err := fits.Mate(fits.Exact(units.MM(20+clearance)), fits.Exact(units.MM(20)))
		if err != nil {
			t.Fatal(err)
		}
		iron := of(t, "cast iron")
		r, err := assembly.Running{
			Diameter: units.MM(20), Inner: iron, Outer: iron, Room: units.Celsius(20), InnerHot: units.Celsius(innerHot),
			OuterHot: units.Celsius(outerHot),
			Fit:      fit, Least: units.MM(least),
		}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	said := func(r assembly.RunningResult) string {
		if len(r.Findings) == 0 {
			return ""
		}
		return r.Findings[0].Text + " " + strings.Join(r.Findings[0].Remedies, " ")
	}
	if text := said(run(0.005, 0.004, 120, 20)); !strings.Contains(text, "It seizes with both parts at their working temperatures") || strings.Contains(text, "warm it through") {
		t.Error(text)
	}
	// Of one metal and as hot as each other the parts have hot what they have cold.
	for _, test := range []struct {
		clearance, least float64
		warm             bool
	}{{0.01, 0.01, true}, {0.01, 0.010001, false}, {0.01, 0, true}} {
		text := said(run(test.clearance, test.least, 120, 120))
		if !strings.Contains(text, "inner part hot and the outer one still") || strings.Contains(text, "warm it through") != test.warm {
			t.Errorf("%+v: %s", test, text)
		}
	}
	if text := said(run(0, 0, 120, 120)); strings.Contains(text, "warm it through") {
		t.Error(text)
	}
}

// What holds is printed with each of its figures.
func TestHoldPrints(t *testing.T) {
	h, err := assembly.Holds(assembly.Range[units.Torque]{Min: 3, Max: 5},
		assembly.Cut{Force: 100, Diameter: units.MM(40), Shock: 1})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := h.String(), "needed 2 N·m, available (min 3 N·m, max 5 N·m), margin 1.5, findings "; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
