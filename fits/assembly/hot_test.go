package assembly_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// heated is a hub of some material that is heated for a shaft of 20 mm.
func heatedHub(t *testing.T, name string, at float64) assembly.ShrinkResult {
	t.Helper()
	room, hub := units.Celsius(20), lookup(t, name)
	if !hub.Expansion.Known() {
		hub.Expansion = expanding(name, 27e-6).Expansion
	}
	r, err := assembly.Shrink{
		Diameter: units.MM(20), Interference: units.MM(0.02), Clearance: units.MM(0.02), Hub: hub,
		Shaft: lookup(t, "mild steel"), Room: room, HubAt: units.Celsius(at), ShaftAt: room,
	}.Solve()
	if err != nil {
		t.Fatal(name, err)
	}
	return r
}

// A hub at its melting point is a danger, told first; nothing is worked out from an
// expansion that ends long before.
func TestHubMelts(t *testing.T) {
	for _, test := range []struct {
		name   string
		at     float64
		code   finding.Code
		severe finding.Severity
	}{
		{"aluminium", 950, assembly.HubMelts, finding.Danger}, {"aluminium", 583, assembly.HubMelts, finding.Danger},
		{"aluminium", 581, assembly.BeyondExpansion, finding.Fails}, {"gunmetal", 900, assembly.HubMelts, finding.Danger},
		{"cast iron", 950, assembly.BeyondExpansion, finding.Fails}, {"mild steel", 301, assembly.BeyondExpansion, finding.Fails},
		{"mild steel", 299, assembly.HubTooHot, finding.Caution},
	} {
		r := heatedHub(t, test.name, test.at)
		f := r.Findings[0]
		if f.Code != test.code || f.Severity != test.severe || !strings.HasPrefix(strings.Join(f.Remedies, " "), "Heat ") {
			t.Errorf("%s at %g: %+v", test.name, test.at, r.Findings)
		}
		if unknown := test.at > 300; r.Unknown != unknown || r.AtAssembly.IsZero() != unknown || (r.GrabsAt == 0) != unknown ||
			r.HubGrows.IsZero() != unknown || r.HubNeeded == 0 {
			t.Errorf("%s at %g: %+v", test.name, test.at, r)
		}
	}
}

// What is heated gives off what harms, and what is near it burns.
func TestHotPrecautions(t *testing.T) {
	all := []finding.Code{assembly.HotMetal, assembly.HotSolvent, assembly.HotSeals, assembly.HotPlating, assembly.LeadSweats, assembly.ZincFume}
	for _, test := range []struct {
		name string
		at   float64
		want int // of them, from the first
	}{
		{"mild steel", 59, 0}, {"mild steel", 61, 2}, {"mild steel", 151, 3}, {"mild steel", 201, 4}, {"mild steel", 420, 4},
		{"gunmetal", 299, 4}, {"gunmetal", 301, 5}, {"brass", 401, 6},
	} {
		r := heatedHub(t, test.name, test.at)
		said := map[finding.Code]bool{}
		for _, p := range r.Precautions {
			said[p.Code] = true
		}
		for i, code := range all {
			if said[code] != (i < test.want) {
				t.Errorf("%s at %g: %s is said: %v", test.name, test.at, code, said[code])
			}
		}
	}
}

// A chilled shaft burns, and what chills it takes the place of the air, whether the
// hub is hot or not.
func TestColdPrecautions(t *testing.T) {
	room := units.Celsius(20)
	for at, want := range map[float64]bool{-29: false, -31: true} {
		for _, hub := range []units.Temperature{room, units.Celsius(100)} {
			r, err := assembly.Shrink{
				Diameter: units.MM(54), Interference: units.MM(0.02), Hub: lookup(t, "cast iron"), Shaft: lookup(t, "gunmetal"),
				Room: room, HubAt: hub, ShaftAt: units.Celsius(at),
			}.Solve()
			if err != nil || warned(r.Precautions, "burns like hot metal") != want || warned(r.Precautions, "take the place of the air") != want ||
				warned(r.Precautions, "does not look hot") != (hub > room) {
				t.Errorf("%g, hub at %v: %v, %v", at, hub, r.Precautions, err)
			}
		}
	}
}

// No expansion is used where it is not known: a shaft in liquid nitrogen without a
// curve, and parts that run hotter than the figures go.
func TestExpansionEnds(t *testing.T) {
	room := units.Celsius(20)
	s := assembly.Shrink{
		Diameter: units.MM(54), Interference: units.MM(0.05), Hub: lookup(t, "cast iron"), Shaft: lookup(t, "gunmetal"),
		Room: room, HubAt: room, ShaftAt: units.Celsius(-196),
	}
	r, err := s.Solve()
	if err != nil || !r.Unknown || !has(r.Findings, finding.Fails, "How far the shaft of gunmetal goes at -196 degrees C") ||
		r.ShaftNeeded == 0 || r.HubNeeded != 0 || !r.AtAssembly.IsZero() {
		t.Errorf("%+v, %v", r, err)
	}
	s.ShaftAt, s.Interference = room, units.MM(0.2)
	if r, err = s.Solve(); err != nil || !r.ShaftColder || r.ShaftNeeded != 0 {
		t.Errorf("%+v, %v", r, err)
	}
	// 54 mm x 11.4e-6/K x 280 K is 0.172 mm: no hub that is known grows by 0.2 mm.
	if r.HubNeeded != 0 || r.HubGrabs != 0 {
		t.Errorf("hub needed %v, grabs at %v", r.HubNeeded, r.HubGrabs)
	}
	hot := units.Celsius(301)
	iron := lookup(t, "cast iron")
	_, running := assembly.Running{
		Diameter: units.MM(20), Inner: iron, Outer: iron, Room: room, InnerHot: hot, OuterHot: room,
	}.Solve()
	_, ring := assembly.RingGap{Bore: units.MM(20), Ring: iron, Cylinder: iron, Room: room, RingHot: hot, CylinderHot: room}.Solve()
	for _, err := range []error{running, ring} {
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "the expansion of cast iron is not known there") {
			t.Error(err)
		}
	}
	s.ShaftAt, s.Interference = units.Celsius(-80), units.MM(0.02)
	if r, err = s.Solve(); err != nil || r.Unknown || math.Abs(float64(material.ExpansionTo-units.Celsius(300))) > 1e-6 {
		t.Errorf("%+v, %v", r, err)
	}
}

// Two parts of one temperature are pressed: as far as fits of the standards go that
// is a way of assembly, and beyond them it is none.
func TestPressedCold(t *testing.T) {
	room := units.Celsius(20)
	steel := lookup(t, "mild steel")
	for _, test := range []struct {
		diameter, over units.Length
		code           finding.Code
		ok             bool
	}{
		{units.MM(20), units.MM(0.02), assembly.PressedCold, true},
		{units.Inch(0.125), units.Thou(1), assembly.PressedCold, true}, // FN2
		{units.MM(6), units.Micron(27), assembly.PressedCold, true},    // H7/s6
		{units.Inch(0.125), units.Thou(5), assembly.DoesNotPress, false},
	} {
		r, err := assembly.Shrink{
			Diameter: test.diameter, Interference: test.over, Clearance: test.diameter.Scale(0.001), Hub: steel, Shaft: steel,
			Room: room, HubAt: room, ShaftAt: room,
		}.Solve()
		if err != nil || !r.Pressed || r.Findings.OK() != test.ok {
			t.Errorf("%v: %+v, %v", test.over, r, err)
		}
		found := false
		for _, f := range r.Findings {
			found = found || f.Code == test.code
			if strings.Contains(strings.Join(f.Remedies, " "), "down by") {
				t.Errorf("%v: %v", test.over, f) // what is to be taken off is more than there is
			}
		}
		if !found || !warned(r.Precautions, "stand clear of the line of the press") {
			t.Errorf("%v: %v %v", test.over, r.Findings, r.Precautions)
		}
	}
}

// From where each metal loses what it was bought for, a degree below and above.
func TestHeatLimits(t *testing.T) {
	for name, limit := range map[string]float64{
		"aluminium": 175, "mild steel": 250, "stainless steel 304": 425, "cast iron": 400, "brass": 250, "gunmetal": 250,
		"copper": 250, "zinc alloy": 100, "PTFE": 200,
	} {
		for _, above := range []float64{-1, 1} {
			said := false
			for _, f := range heatedHub(t, name, limit+above).Findings {
				said = said || f.Code == assembly.HubTooHot && f.Severity >= finding.Caution
			}
			if said != (above > 0) {
				t.Errorf("%s at %g: too hot %t", name, limit+above, said)
			}
		}
	}
}

// Zinc alloys give off zinc fume, plastics their own; an alloy that melts below the
// end of the expansions is no longer a hub there.
func TestHotZincPlasticAndLowMelting(t *testing.T) {
	for _, test := range []struct {
		name string
		at   float64
		code finding.Code
		want bool
	}{
		{"zinc alloy", 399, assembly.ZincFume, false}, {"zinc alloy", 401, assembly.ZincFume, true}, {"cast iron", 401, assembly.ZincFume, false},
		{"PTFE", 59, assembly.HotPlastic, false}, {"PTFE", 61, assembly.HotPlastic, true}, {"brass", 61, assembly.HotPlastic, false},
	} {
		said := false
		for _, p := range heatedHub(t, test.name, test.at).Precautions {
			said = said || p.Code == test.code
		}
		if said != test.want {
			t.Errorf("%s at %g: %s %t", test.name, test.at, test.code, said)
		}
	}
	soft := expanding("zinc alloy", 27e-6)
	soft.Melts = lookup(t, "zinc alloy").Melts
	soft.Melts.Value = units.Celsius(220)
	s := assembly.Shrink{
		Diameter: units.MM(20), Interference: units.MM(0.02), Hub: soft, Shaft: lookup(t, "mild steel"),
		Room: units.Celsius(20), HubAt: units.Celsius(230), ShaftAt: units.Celsius(20),
	}
	r, err := s.Solve()
	if err != nil || !r.Unknown || !r.AtAssembly.IsZero() || !has(r.Findings, finding.Danger, "begins to melt at 220 degrees C") {
		t.Errorf("%+v, %v", r, err)
	}
}
