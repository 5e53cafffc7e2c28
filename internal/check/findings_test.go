package check_test

import (
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/alike"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// troubles are questions with bad news in the answer, beside those of the other
// tests.
var troubles = map[string]func() any{
	"a chuck above its mark": func() any {
		job := speeds.Job{Operation: speeds.Turning, Material: must(material.Lookup("brass")), Diameter: units.MM(6),
			Machine: must(speeds.ParseLadder("800 1600")), Limits: []speeds.Limit{must(holding.MarkedChuck(500 * units.RevPerMinute))}}
		return all(must(job.Plan()), must(job.Check(3000*units.RevPerMinute)))
	},
	"a wheel that flies apart": func() any {
		return must(holding.CheckRim(must(material.Lookup("cast iron")), units.MM(300), 6000*units.RevPerMinute))
	},
	"a fit that seizes hot": func() any {
		iron, alloy := must(material.Lookup("cast iron")), must(material.Lookup("aluminium"))
		return must(assembly.Running{Diameter: units.MM(40), Fit: must(must(fits.ParseFit("H8/f7")).LimitsFor(units.MM(40))), Inner: alloy, Outer: iron,
			Room: units.Celsius(20), InnerHot: units.Celsius(200), OuterHot: units.Celsius(60)}.Solve())
	},
	"a hub that splits": func() any {
		iron := must(material.Lookup("cast iron"))
		return must(assembly.Press{Diameter: units.MM(20), Interference: units.MM(0.2), HubOutside: units.MM(24),
			Length: units.MM(15), Hub: iron, Shaft: must(material.Lookup("steel")), Friction: assembly.Mu(0.12)}.Solve())
	},
	"studs that stretch": func() any {
		studs := joint.Studs{Number: 6, Diameter: units.MM(3), StressArea: 5.03e-6, Proof: 225 * units.Megapascal, Preload: joint.InCasting}
		return must(studs.Load(7500))
	},
	"a cover thinned": func() any { return must(cover.CutThin(units.MM(3), units.MM(1), cover.OutsideFace)) },
	"rubber in steam": func() any {
		return must(seal.Check(must(material.Lookup("nitrile rubber")), seal.Service{Medium: seal.Steam, Pressure: 4 * units.Bar}))
	},
	"a bolt that strips": func() any {
		return must(alike.Mate(thread.MustParse("1/4 BSW"), thread.MustParse("1/4-20 UNC")))
	},
	"a narrow land": func() any {
		p := must(gasket.BoltCircle(6, units.MM(42), 0)).Drilled(units.MM(3))
		return must(must(gasket.Round("cover", units.MM(46), units.MM(25), p)).Check(units.MM(1)))
	},
	"a drill too small": func() any {
		m6, drill := thread.MustParse("M6"), must(gauge.Parse("4 mm"))
		plan := must(m6.PlanDrill(must(gauge.ParseSet("4 mm")), thread.TapDepth{Material: must(material.Lookup("brass"))}))
		return all(must(m6.CheckTappingDrill(drill, thread.FullDepth)), plan, plan.Check())
	},
	"an engine that does not run": func() any {
		ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6), Length: units.MM(14)}
		run := indicator.Running{Bore: units.MM(25), Medium: indicator.Air, Chest: 1 * units.Bar, Index: 1.4, Clearance: indicator.Both(0.02),
			Speed: 4000 * units.RevPerMinute, Moving: 400 * units.Gram, Cranks: []units.Angle{180 * units.Degree},
			Gear: eccentric.Gear{Stroke: units.MM(40), Travel: units.MM(8), Ports: ports, Advance: 90 * units.Degree,
				ConnectingRod: eccentric.RodOf(units.MM(90)), EccentricRod: eccentric.RodOf(units.MM(90)),
				Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.5), Exhaust: units.MM(1)})}}
		driven := run
		driven.Gear.Advance = 20 * units.Degree
		return all(must(run.Check()), must(run.Hold(units.MM(15), units.MM(14))).Check(), must(run.CheckPressure(0)),
			must(run.CheckPressure(0.5*units.Bar)), must(driven.Evenness(holding.Wheel{Mass: 1 * units.Gram, Gyration: units.MM(20)})).Findings)
	},
	"a gear with everything wrong": func() any {
		ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(1), Exhaust: units.MM(2), Length: units.MM(10)}
		gear := eccentric.Gear{Stroke: units.MM(40), Travel: units.MM(6), Ports: ports, Advance: 200 * units.Degree,
			ConnectingRod: eccentric.RodOf(units.MM(90)), EccentricRod: eccentric.RodOf(units.MM(90)), Chest: units.MM(12),
			Valve: eccentric.Valve{Length: units.MM(11), Cavity: units.MM(9), Offset: units.MM(1)}}
		return all(gear.Check(), finding.ListOf(gear.Check()))
	},
}

// What the library has to say is said in full sentences, by a code, the worst
// first.
func TestFindings(t *testing.T) {
	sentence := regexp.MustCompile(`^[A-Z0-9].*[.]$`)
	declared, seen := map[finding.Code]bool{}, map[finding.Code]bool{}
	for _, c := range codes(t) {
		declared[finding.Code(c.code)] = true
	}
	one := func(name string, f finding.Finding) {
		seen[f.Code] = true
		for _, text := range append([]string{f.Text}, f.Remedies...) {
			if !sentence.MatchString(text) || strings.Contains(text, "%!") || strings.Contains(text, "  ") || len(text) > 600 {
				t.Errorf("%s: %s: not a plain sentence: %q", name, f.Code, text)
			}
		}
		if _, err := f.Severity.MarshalText(); err != nil || !declared[f.Code] {
			t.Errorf("%s: code %q is declared: %t; %v", name, f.Code, declared[f.Code], err)
		}
	}
	for _, asked := range []map[string]func() any{questions, troubles} {
		for name, ask := range asked {
			collect(reflect.ValueOf(ask()), func(v reflect.Value) {
				switch x := v.Interface().(type) {
				case finding.List:
					for i, f := range x {
						if i > 0 && f.Severity > x[i-1].Severity {
							t.Errorf("%s: %s stands behind %s", name, f.Code, x[i-1].Code)
						}
					}
				case finding.Finding:
					one(name, x)
				case finding.Precaution:
					if !sentence.MatchString(x.Text) || x.Code == "" || x.Ref.Kind == 0 {
						t.Errorf("%s: precaution %q: %q (%v)", name, x.Code, x.Text, x.Ref)
					}
				}
			})
		}
	}
	if len(seen) < 50 {
		t.Errorf("only %d codes were met", len(seen))
	}
	for _, code := range []finding.Code{speeds.AboveLimit, holding.RimTooFast, joint.CoverLifts, alike.RunsLoose,
		assembly.SeizesHot, gasket.NarrowWeb, thread.SmallDrill, thread.NoTappingDrill} {
		if !seen[code] {
			t.Errorf("%s was not met", code)
		}
	}
}
