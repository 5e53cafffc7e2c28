package check_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"slices"
	"sync"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/fits/keys"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/gasket/dial"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/alike"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/figure"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/steam"
)

// must is for calls that the tests of their own package show to have no error.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// all is for the answers of several calls in one.
func all(v ...any) []any { return v }

// questions ask every table of the library, and every call that hands out a
// slice.
var questions = map[string]func() any{
	"keys": func() any {
		return all(must(keys.For(units.MM(12))), must(keys.PinsFor(units.MM(6), units.MM(14))), must(keys.PinFor("#0", units.Inch(1))),
			must(keys.DimpleFor("M3", units.MM(6))))
	},
	"the bench": func() any {
		end := marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3)}
		clevis := marking.Clevis{Pin: units.MM(4), Eye: end, Fork: end, Swing: 8 * units.Degree, Slot: units.MM(3), Thickness: units.MM(3), Gap: units.MM(3)}
		slot := marking.NutSlot{Height: units.MM(8), Cavity: units.MM(4.2), Length: units.MM(15), Width: units.MM(16), Rod: units.MM(2.5),
			RodAbove: units.MM(7.5), Thick: units.MM(5), High: units.MM(5), Long: units.MM(4), Lift: units.MM(0.5)}
		face := marking.PortFace{Cutter: units.MM(1.5), Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)}}
		left, found, err := must(thread.MustParse("M3").BlindHole(units.MM(5), thread.SecondTap)).Left(units.MM(2.5), 0, units.MM(7.5))
		return all(clevis, must(clevis.Solve()), slot, must(slot.Solve()), face, must(face.Cuts()), must(marking.Depths(units.MM(3), units.MM(0.2))),
			left, must(found, err))
	},
	"gauge": func() any {
		sets := []gauge.Set{gauge.Metric(), gauge.Number(), gauge.Letter(), gauge.Fraction(), gauge.SWG.Set(), gauge.AWG.Set(), gauge.BWG.Set(), gauge.MSG.Set(), gauge.ScrewNumber.Set()}
		var sizes [][]gauge.Size
		for _, set := range sets {
			sizes = append(sizes, must(set.Between(units.MM(1), units.MM(2))), slices.Collect(set.All()))
		}
		return sizes
	},
	"figures": func() any {
		a, b := must(figure.Parse("28.5 mm")), must(figure.Parse("1.125 in"))
		return all(a, b, figure.Differences(a, b), figure.Check(a, b))
	},
	"material": func() any {
		brass := must(material.Lookup("brass"))
		return all(material.All(), brass.OtherNames(), brass.Elasticity.Refs, must(material.Lookup("EN8")).Name)
	},
	"thread sizes": func() any {
		var threads []thread.Thread
		for s := thread.MetricCoarse; s <= thread.Acme; s++ {
			threads = append(threads, slices.Collect(s.All())...)
		}
		return threads
	},
	"thread limits": func() any {
		var limits []thread.Limits
		for _, of := range [][]string{
			{"M6", "6g", "6H"}, {"1/4-20 UNC", "2A", "2B"}, {"1/4 BSW", "medium", "normal nut"}, {"2 BA", "normal", "nut"},
			{"Tr 10x2", "7e", "7H"}, {"1/2-10 Acme", "2G", "2G nut"},
		} {
			for _, class := range of[1:] {
				limits = append(limits, must(thread.MustParse(of[0]).Limits(class)))
			}
		}
		return limits
	},
	"thread holes": func() any {
		m6, ba := thread.MustParse("M6"), thread.MustParse("6 BA")
		iron := must(material.Lookup("cast iron"))
		return all(must(m6.TappingDrills(gauge.Metric(), 0.7, thread.FullDepth)), must(m6.TappingDrillsIn(iron, gauge.Number())), must(m6.PlanDrill(gauge.Number(), thread.TapDepth{Material: iron})), ba.ChartDrills(), must(thread.MustParse("R 1/8").PlanDrill(gauge.Set{}, thread.TapDepth{})),
			must(m6.ClearanceFor(thread.MediumISO273)), must(m6.ClearanceFor(thread.FreeBS4186)), must(thread.AdvisedDepthFor(iron)), m6.TappingPrecautions(true), strength.BrokenTap(iron))
	},
	"thread strength": func() any {
		m6 := thread.MustParse("M6")
		return all(must(strength.BoltFor(m6, "8.8")), must(strength.BoltOf(m6, must(material.Lookup("steel")))), strength.NutFactors(), strength.Joint{}, strength.Tapping{}, strength.Tightening{}, strength.Tightened{}, strength.Friction{}, strength.StudLength{}, strength.Engagement{}, thread.BlindHole{}, thread.FormingHole{}, thread.Taper{}, must(m6.Hexagon()), must(thread.MustParse("1/4"+
			" BSW").Hexagon()), must(strength.Tapping{Thread: m6, Hole: units.MM(5), Material: must(material.Lookup("iron")), Tap: thread.SecondTap}.Torque()),
			must(strength.TappedHole{Thread: m6, Material: must(material.Lookup("iron")), Blind: units.MM(8)}.FullThread()), strength.TappedHole{})
	},
	"thread substitutes": func() any {
		subs := must(alike.Substitutes(thread.MustParse("7 BA")))
		return all(len(subs), subs[0].String(), must(alike.Specimen{Diameter: units.MM(5.9), Pitch: units.MM(1)}.Identify()))
	},
	"change wheels": func() any {
		lathe := screwcut.Lathe{Leadscrew: must(screwcut.ParseLead("10 tpi")), Wheels: must(screwcut.ParseWheels("24-64x4," +
			" 63"))}
		want := must(screwcut.ParseLead("1 mm"))
		m6 := thread.MustParse("M6")
		over := must(wires.Set{Thread: m6, Wire: units.MM(0.58)}.Measure(m6.PitchDiameter()))
		return all(over, must(lathe.Check(must(lathe.Trains(want)))), screwcut.PickUp{}, screwcut.CutDepth{}, screwcut.ToolTip{}, must(screwcut.GroundTips(m6)), lathe, must(lathe.Trains(want)), must(lathe.WheelsToBuy(want)), must(screwcut.Translations(80, 0.001)))
	},
	"fits": func() any {
		fit := must(fits.ParseFit("P7/h6"))
		part := must(fit.Hole.LimitsFor(units.MM(25)))
		reaming := fits.Reaming{Reamers: gauge.Metric(), Shaft: part, Clearance: fits.Band{Max: units.MM(0.05)}}
		return all(must(fit.LimitsFor(units.MM(25))), part, must(fits.Grade(7).ToleranceFor(units.MM(25))), fits.InchFits(),
			must(fits.InchFits()[0].LimitsFor(units.Inch(1))), must(fits.PreferredFits(fits.HoleBasis)), must(fits.PreferredFits(fits.ShaftBasis)),
			must(fits.RulesFor("bearing")), fits.RuleTopics(), must(fits.Measured(units.MM(10), units.MM(10.1))), must(reaming.Choose())[:3],
			must(fits.Choose(units.MM(10), fits.Band{Max: units.MM(0.05)}, fits.HoleBasis)), fits.Grades(), fits.Kinds(), fits.Features(), fits.Bases(),
			must(fits.ChooseInch(units.Inch(1), fits.Band{Max: units.Thou(2)})), must(fits.Stack([]fits.Link{{Name: "web",
				Size: part}})))
	},
	"fits assembly": func() any {
		iron := must(material.Lookup("cast iron"))
		room, hot := units.Celsius(20), units.Celsius(200)
		shrink := assembly.Shrink{Diameter: units.MM(20), Interference: units.MM(0.02), Hub: iron, Shaft: iron, Room: room, HubAt: hot, ShaftAt: room}
		press := assembly.Press{Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(40), Length: units.MM(15), Hub: iron, Shaft: iron, Friction: assembly.Frictions()[0]}
		fit := must(must(fits.ParseFit("H7/f7")).LimitsFor(units.MM(20)))
		running := assembly.Running{Diameter: units.MM(20), Inner: iron, Outer: iron, Room: room, InnerHot: hot, OuterHot: room, Fit: fit}
		ring := assembly.RingGap{Bore: units.MM(20), Ring: iron, Cylinder: iron, Room: room, RingHot: hot, CylinderHot: room, Cold: units.MM(0.01)}
		bond := assembly.Bond{Diameter: units.MM(8), Length: units.MM(12), Adhesive: assembly.GenericRetainer(), Derating: 0.5, Gap: fits.Band{Max: units.MM(0.06)}, Hottest: room}
		screw := assembly.GrubScrew{Screw: units.MM(4), Shaft: units.MM(8), Tightening: 2}
		pressed := must(press.Solve())
		return all(assembly.Frictions(), assembly.SetScrews(), assembly.ChilledSteel(), assembly.GenericRetainer(), must(shrink.Solve()), shrink, press, pressed,
			must(running.Solve()), running, must(ring.Solve()), ring, must(bond.Solve()), bond, must(screw.Solve()), screw,
			must(assembly.Holds(pressed.Torque, assembly.Cut{Force: 1000, Diameter: units.MM(90), Shock: 2})))
	},
	"speeds": func() any {
		iron, skin, steel := must(material.Lookup("cast iron")), must(material.Lookup("cast iron, skin on")), must(material.Lookup("mild steel"))
		ladder := must(speeds.ParseLadder("100 200 400 800"))
		speed := must(speeds.Recommend(speeds.Drilling, iron, speeds.HSS))
		job := speeds.Job{
			Operation: speeds.Facing, Material: skin, Diameter: units.MM(150), Machine: ladder,
			Limits: []speeds.Limit{must(holding.UnmarkedChuck(units.MM(100)))},
		}
		return all(speed, speed.Advice(), speed.Precautions(), must(speeds.PublishedFor(speeds.Turning, steel, speeds.HSS)),
			must(speeds.FeedFor(speeds.Drilling, steel, units.MM(6))), must(speeds.PublishedFeedsFor(speeds.Milling, steel, units.MM(6))),
			must(speeds.DeepHoleFor(units.MM(20), units.MM(5))), must(speeds.PreferredNumbers(20, 3, 31.5, 2000)),
			must(speeds.PecksFor(units.MM(30), units.MM(3))), speeds.Materials(), speeds.Operations(), speeds.Tools(), speeds.ShopRules(),
			ladder.Steps(), job, must(job.Plan()), must(job.Check(5000*units.RevPerMinute)), must(ladder.Choose(150*units.RevPerMinute)))
	},
	"holes": func() any {
		steel, drills := must(material.Lookup("mild steel")), gauge.Metric()
		reaming := must(hole.ReamingFor(units.MM(6), steel))
		return all(must(hole.SpotThrough(units.MM(3.4), units.MM(2.5), 0)), reaming, must(reaming[0].Drills(drills)), must(hole.ReamingDrillFor(units.MM(6), steel, drills)), must(hole.DrilledFor(units.MM(6))), must(hole.PointFor(must(material.Lookup("copper")))),
			must(hole.DrillsFor(units.MM(200), drills)))
	},
	"cutting, holding, dividing": func() any {
		iron, steel := must(material.Lookup("cast iron")), must(material.Lookup("mild steel"))
		head := must(dividing.NewHead(40, dividing.ThreePlates().Circles...))
		k := must(cutting.KienzleFor(steel))
		load := must(cutting.TurningLoad(k, units.MM(40), units.MM(1), units.MM(0.1), 90*units.Degree, 200*units.RevPerMinute))
		return all(k, must(cutting.ForcesFor(steel)), must(cutting.UnitPowerFor(iron)), load, must(cutting.CheckMotor(load, 100, 0.75)), cutting.Path{},
			must(cutting.TurnedFinish(units.MM(0.1), units.MM(0.4))),
			holding.RimLimits(), must(holding.RimLimitFor(must(material.Lookup("brass")))), must(holding.CheckRim(must(material.Lookup("cast iron")), units.MM(150), 1000*units.RevPerMinute)), must(holding.UnmarkedChuck(units.MM(100))),
			holding.Chuck{}, holding.Work{}, holding.Work{}.Precautions(), holding.Wheel{}, setting.Taper{}, dividing.ThreePlates(), dividing.TwoSidedPlate(),
			head, head.Circles(), must(head.Divide(36)), must(head.Nearest(127)), must(dividing.TablePositions(90, 7)))
	},
	"gasket": func() any {
		p := must(gasket.BoltCircle(6, units.MM(36), 0)).Drilled(units.MM(3))
		o := must(gasket.Round("cover", units.MM(46), units.MM(25), p))
		wheel := dial.Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
		return all(p, must(gasket.Match(context.Background(), p, p, gasket.MatchOptions{Stud: units.MM(2.5)})), must(o.Check(units.MM(0.5))), must(o.Webs()), must(o.Measure()), must(p.Spans(units.Length{})), must(gasket.PositionZones(units.MM(3.4), units.MM(3))),
			must(dial.Table{X: wheel, Y: wheel, Overrun: units.MM(3)}.Set(p, gasket.Datum{})), must(dial.Rotary{Step: units.Degree}.Set(p, gasket.Datum{})))
	},
	"joint, cover, seal": func() any {
		thinned := must(cover.CutThin(units.MM(5), units.MM(1), cover.OutsideFace))
		copper := must(material.Lookup("soft copper"))
		p := must(gasket.BoltCircle(6, units.MM(28), 0))
		studs := joint.Studs{Number: 6, StressArea: 5 * units.SquareMillimetre, Proof: 200 * units.Megapascal, Preload: joint.InCasting}
		load := must(studs.Load(8000))
		plate := must(cover.Round{Diameter: units.MM(28), Thickness: units.MM(1), Elastic: 100 * units.Gigapascal, Poisson: 0.3}.Under(20 * units.Bar))
		bearing := all(load, must(load.Press(1e-4, joint.Seating{Min: units.Gigapascal})), must(joint.SpacingOf(p, units.MM(6))), must(joint.Order(p)), joint.Precautions(),
			must(joint.Gasket{Outside: units.MM(38), Inside: units.MM(25), M: 1, Y: 1}.Loads(units.Bar)), plate, plate.Check(copper), plate.Check(must(material.Lookup("cast"+
				" iron"))),
			must(seal.FactorsFor(copper)), must(seal.LimitsFor(copper)), must(seal.SheetsFor(must(material.Lookup("paper")))), must(seal.PressedFor(must(material.Lookup("jointing without asbestos")))), must(seal.Rings()[9].InGland(units.MM(7), seal.Dynamic)),
			must(seal.StuffingBox{Rod: units.MM(4), Bore: units.MM(8)}.Packing()), must(seal.Swap(seal.CylinderCover, units.MM(1), units.MM(0))))
		return all(bearing, must(joint.SpacingRules(units.MM(3))), cover.HeadStresses(), must(cover.HeadRules(units.MM(40), 6*units.Bar, 20*units.Megapascal)), cover.TestPractices(),
			cover.TestPrecautions(), joint.Precautions(), seal.Precautions(), cover.ThinLimits(), thinned, seal.Factors(), seal.Grooves(), seal.Grooves()[0].Advice(), seal.Limits(), seal.Rings(), seal.Sheets(),
			must(seal.RingsOnPiston(units.MM(25), seal.Dynamic)), must(seal.Check(must(material.Lookup(seal.Limits()[0].Material)), seal.Service{Medium: seal.Steam, Pressure: 3 * units.Bar})), must(steam.AtGauge(5*units.Bar)))
	},
	"template": func() any {
		p := must(gasket.BoltCircle(6, units.MM(36), 0)).Drilled(units.MM(3))
		part := template.Part{Outline: must(gasket.Round("cover", units.MM(46), units.MM(25), p)), Thickness: units.MM(0.5)}
		sheet := must(template.New(part, template.Options{}))
		var files []string
		for _, write := range []func(io.Writer) error{sheet.WriteDXF, sheet.WritePDF, sheet.WritePicture, func(w io.Writer) error { return sheet.WriteSVG(w, 1) }} {
			var b bytes.Buffer
			must(0, write(&b))
			files = append(files, b.String())
		}
		return all(template.CommonPunches(), sheet.Holes(), files)
	},
	"eccentric": func() any {
		ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
		gear := eccentric.Gear{
			Stroke: units.MM(40), ConnectingRod: eccentric.RodOf(units.MM(90)),
			Travel: units.MM(6), EccentricRod: eccentric.InfiniteRod(),
			Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1)}),
		}
		exact, rounded, err := eccentric.Design(eccentric.Wish{
			Gear:   eccentric.Gear{Stroke: gear.Stroke, ConnectingRod: gear.ConnectingRod, EccentricRod: gear.EccentricRod},
			CutOff: 0.75, Opening: units.MM(2),
		})
		must(0, err)
		long := gear
		long.Valve.Length = units.MM(22)
		saved := must(eccentric.Salvage(long, eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true}))
		return all(gear, gear.Check(), must(gear.CheckProportions(units.MM(3))), must(gear.Events()), gear.Laps(), gear.Sweep(),
			must(gear.OpeningsAt(units.Degree)), eccentric.Ends(), eccentric.PortStates(), exact, rounded, saved)
	},
	"tolerances": func() any {
		ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
		study := spread.Study{
			Gear: eccentric.Gear{
				Stroke: units.MM(40), ConnectingRod: eccentric.RodOf(units.MM(90)),
				Travel: units.MM(8), EccentricRod: eccentric.InfiniteRod(), Advance: 20 * units.Degree,
				Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1)}),
			},
			Tolerances: []spread.Tolerance{must(spread.Travel.PlusMinus("0.1 mm")), must(spread.Advance.PlusMinus("1 deg"))},
			Runs:       500,
		}
		return all(must(study.Random(context.Background())), must(study.Worst()), must(study.Sensitivities(units.Thou(1))),
			must(study.Shares()), must(study.Hold()), study.Tolerances, spread.Dimensions())
	},
	"an engine at work": func() any {
		ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6), Length: units.MM(14)}
		run := indicator.Running{
			Gear: eccentric.Gear{
				Stroke: units.MM(40), ConnectingRod: eccentric.RodOf(units.MM(90)), Advance: 30 * units.Degree,
				Travel: units.MM(8), EccentricRod: eccentric.InfiniteRod(),
				Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.5)}),
			},
			Bore: units.MM(25), PistonRod: units.MM(6), Medium: indicator.Steam, Chest: 3 * units.Bar, Index: 1.135,
			Clearance: indicator.Both(0.08), Speed: 400 * units.RevPerMinute, Moving: 150 * units.Gram, Cranks: []units.Angle{90 * units.Degree},
		}
		return all(must(run.Cycle()), must(run.Points(12)), must(run.Turning()), must(run.Starting(0.1)), must(run.Forces(1)), must(run.Inertia()),
			must(run.Power()), must(run.PortFlow()), must(run.Hold(units.MM(18), units.MM(14))), must(run.Check()), indicator.Media(),
			must(run.CheckPressure(2*units.Bar)), must(run.Excess()), must(run.Evenness(must(run.WheelFor(0.02, units.MM(40))))))
	},
}

// Tables are read on first use and may be used at once by many goroutines, and
// what a caller does to a slice that it was given is its own affair: each of
// four goroutines asks everything, spoils the answer and asks again. The race
// detector sees what the comparison does not.
func TestConcurrentUse(t *testing.T) {
	const askers = 4
	var wg sync.WaitGroup
	texts := make([]map[string]string, askers)
	for i := range texts {
		texts[i] = map[string]string{}
		wg.Go(func() {
			for name, ask := range questions {
				answer := ask()
				texts[i][name] = fmt.Sprintf("%+v", answer)
				spoil(reflect.ValueOf(answer))
				if again := fmt.Sprintf("%+v", ask()); again != texts[i][name] {
					t.Errorf("%s: the answer is not the same after a caller has changed the last one", name)
				}
			}
		})
	}
	wg.Wait()
	for name, text := range texts[0] {
		for _, other := range texts[1:] {
			if other[name] != text {
				t.Errorf("%s: two goroutines got different answers", name)
			}
		}
	}
}

// What the library answers can be kept as JSON, the findings with no source and
// the fields that stand for a default among it.
func TestAnswersAreJSON(t *testing.T) {
	for name, ask := range questions {
		if _, err := json.Marshal(ask()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	job := speeds.Job{Operation: speeds.Facing, Material: must(material.Lookup("cast iron, skin on")), Diameter: units.MM(150), Machine: must(speeds.ParseLadder("cone 720 450 280 175, back gear 6.5:1"))}
	var sameJob speeds.Job
	readBack(t, job, &sameJob)
	if got, want := fmt.Sprintf("%+v", must(sameJob.Plan())), fmt.Sprintf("%+v", must(job.Plan())); got != want {
		t.Errorf("the job that was read back is planned as\n%s, not as\n%s", got, want)
	}
	iron := must(material.Lookup("cast iron"))
	press := assembly.Press{Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(40), Length: units.MM(15), Hub: iron, Shaft: iron, Friction: assembly.Mu(0.12)}
	var samePress assembly.Press
	readBack(t, press, &samePress)
	if got, want := fmt.Sprintf("%+v", must(samePress.Solve())), fmt.Sprintf("%+v", must(press.Solve())); got != want {
		t.Errorf("the joint that was read back solves to\n%s, not to\n%s", got, want)
	}
}

func readBack(t *testing.T, from, to any) {
	t.Helper()
	data, err := json.Marshal(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, to); err != nil {
		t.Fatalf("%s: %v", data, err)
	}
}

// spoil sets every element of every slice in v to its zero value, as deep as a
// caller from outside can.
func spoil(v reflect.Value) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		spoil(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				spoil(v.Field(i))
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			spoil(v.Index(i))
			if e := v.Index(i); e.CanSet() {
				e.SetZero()
			}
		}
	}
}
