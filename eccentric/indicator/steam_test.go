package indicator

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// onSteam is the demonstration engine, invented, on dry saturated steam of 2 bar.
func onSteam() Running {
	r := demo()
	r.Medium, r.Index = Steam, 1.135
	return r
}

// The demonstration engine, invented, on steam at 2 bar and 300 rev/min.
func ExampleRunning_SteamUse() {
	use, err := onSteam().SteamUse()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f g a turn, %.2f kg an hour by the cycle\n", use.PerTurn.In(units.Gram), use.PerHour.In(units.Kilogram))
	fmt.Printf("water: %.2f kg an hour, %.2f to %.2f\n", use.Water.In(units.Kilogram), use.Min.In(units.Kilogram), use.Max.In(units.Kilogram))
	// Output:
	// 0.0219 g a turn, 0.39 kg an hour by the cycle
	// water: 0.79 kg an hour, 0.52 to 0.98
}

// Half a kilogram of the demonstration engine warmed by its first steam at 4 bar.
func ExampleRunning_ColdEngine() {
	r := onSteam()
	r.Chest = 4 * units.Bar
	cold, err := r.ColdEngine(0.5*units.Kilogram, units.Celsius(20), units.Celsius(130))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v, %.1f ml in a clearance of %.2f ml\n", cold.Water, cold.Volume.In(units.CubicCentimetre), cold.Room.In(units.CubicCentimetre))
	fmt.Println(cold.Findings[0].Severity, cold.Findings[0].Code)
	// Output:
	// 11.7 g (11.0 to 14.2 g), 12.5 ml in a clearance of 0.59 ml
	// caution water-in-cylinder
}

// Printed amounts of steam: those of volumes by steam tables, and the missing
// quantity on top.
func TestSteamUsePrinted(t *testing.T) {
	for r := range check.Open(t, "eccentric/indicator/steam.csv").Rows() {
		hour := units.Mass(0)
		if r.Has("accounted") {
			hour = units.Mass(r.Float("accounted"))
		}
		if r.Has("bore_mm") {
			bore, stroke := r.Float("bore_mm")/1000, r.Float("stroke_mm")/1000
			filled := contents{r.Float("chest_abs_bar") * 1e5, math.Pi / 4 * bore * bore * stroke * r.Float("cut_off")}
			mass, err := filled.weight()
			if err != nil {
				t.Fatal(err)
			}
			hour = units.Mass(mass * r.Float("strokes_h"))
			run := textbookEngine(units.MM(1000*bore), units.MM(1000*stroke), r.Float("cut_off"), r.Float("strokes_h")/60)
			run.Medium, run.Chest = Steam, run.Gauge(units.Pressure(r.Float("chest_abs_bar"))*units.Bar)
			use := must(t, run.SteamUse)
			// The clearance is filled at every stroke, less the exhaust steam that stays in it.
			stays, err := contents{float64(run.Absolute(0)), math.Pi / 4 * bore * bore * stroke}.weight()
			if err != nil {
				t.Fatal(err)
			}
			clearance := leastClearance * (mass/r.Float("cut_off") - stays) * r.Float("strokes_h")
			r.Compare("steam", float64(supplied(use.PerHour-units.Mass(clearance), r.Float("missing"))))
		}
		r.Compare("steam", float64(supplied(hour, r.Float("missing"))))
	}
}

// What the cycle lets in is between what would fill the cylinder to cut-off and that
// less the same room full of exhaust steam; the water is more, by the missing share.
func TestSteamUseInProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := onSteam()
		r.Chest = units.Pressure(rapid.Float64Range(0.3, 12).Draw(t, "chest")) * units.Bar
		use := must(t, r.SteamUse)
		c := must(t, r.Cycle)
		filled, err1 := contents{float64(r.Absolute(r.Chest)), float64(c.Head.CutOff.Volume + c.Crank.CutOff.Volume)}.weight()
		left, err2 := contents{float64(r.Absolute(0)), float64(c.Head.Compression.Volume + c.Crank.Compression.Volume)}.weight()
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(use.PerTurn)/(filled-left)-1) > 1e-9 || math.Abs(float64(use.PerHour/use.PerTurn)/18000-1) > 1e-9 ||
			math.Abs(float64(use.Water/use.PerHour)-2) > 1e-9 || !(use.Min < use.Water && use.Water < use.Max) {
			t.Fatalf("%v", use)
		}
		later := r
		later.Gear.Advance -= 5 * units.Degree
		if !(must(t, later.SteamUse).PerTurn > use.PerTurn) {
			t.Fatalf("a later cut-off takes %v, %v before", must(t, later.SteamUse).PerTurn, use.PerTurn)
		}
	})
}

func TestSteamRefuses(t *testing.T) {
	still, vacuum := onSteam(), onSteam()
	still.Speed, vacuum.Back = 0, -1.2*units.Bar
	twenty := units.Celsius(20)
	for name, call := range map[string]func() error{
		"no speed":       func() error { _, err := still.SteamUse(); return err },
		"air":            func() error { _, err := demo().SteamUse(); return err },
		"below nothing":  func() error { _, err := vacuum.SteamUse(); return err },
		"air, cold":      func() error { _, err := demo().ColdEngine(1, twenty, units.Celsius(100)); return err },
		"no iron":        func() error { _, err := onSteam().ColdEngine(0, twenty, units.Celsius(100)); return err },
		"hotter":         func() error { _, err := onSteam().ColdEngine(1, twenty, units.Celsius(160)); return err },
		"nothing stated": func() error { _, err := Running{}.ColdEngine(1, twenty, units.Celsius(100)); return err },
		"no medium":      func() error { _, err := Running{}.Oiling(0); return err },
		"less than none": func() error { _, err := onSteam().Oiling(-1); return err },
		"a barrel":       func() error { _, err := onSteam().Oiling(1); return err },
		"no room":        func() error { _, err := onSteam().Oiling(units.Volume(math.NaN())); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A warm engine, or one with room, is not told of a danger that it has not.
func TestColdEngineQuiet(t *testing.T) {
	r := onSteam()
	e, err := r.ColdEngine(0.02*units.Kilogram, units.Celsius(100), units.Celsius(105))
	if err != nil || len(e.Findings) != 0 || !(e.Share < 1) {
		t.Errorf("%v, %v", e, err)
	}
	if e, err = r.ColdEngine(0.5*units.Kilogram, units.Celsius(20), units.Celsius(130)); err != nil || len(e.Findings) != 1 ||
		e.Findings[0].Severity != finding.Caution || len(e.Findings[0].Remedies) != 2 {
		t.Errorf("%v, %v", e, err)
	}
	// Water at 130 degrees has 1.0697 dm3/kg (steam tables, from memory); the crank end has the smaller clearance.
	near(t, "litres", e.Volume.In(units.Litre), 1.0697*float64(e.Water.Water), 1e-4*e.Volume.In(units.Litre))
	near(t, "room, cm3", e.Room.In(units.CubicCentimetre), 0.08*math.Pi/4*(2*2-0.5*0.5)*2.5, 1e-9)
	near(t, "share", e.Share, float64(e.Volume/e.Room), 1e-12)
}

// A pot of 3 ml, emptied in 15 to 20 minutes: three to four drops of 0.05 ml a minute.
func ExampleRunning_Oiling() {
	o, err := onSteam().Oiling(3 * units.CubicCentimetre)
	fmt.Printf("%.2f to %.2f ml a minute, %.0f to %.0f drops %v\n", o.Min.In(units.CubicCentimetrePerMinute),
		o.Max.In(units.CubicCentimetrePerMinute), o.MinDrops, o.MaxDrops, err)
	// Output: 0.15 to 0.20 ml a minute, 3 to 4 drops <nil>
}

func TestOilingByMedium(t *testing.T) {
	air, err := demo().Oiling(3 * units.CubicCentimetre)
	if err != nil || air.Max != 0 || air.Text == "" || air.Refs.IsZero() {
		t.Errorf("%v, %v", air, err)
	}
	unknown, err := onSteam().Oiling(0)
	if err != nil || unknown.Max != 0 || unknown.Text == "" || unknown.Text == air.Text {
		t.Errorf("%v, %v", unknown, err)
	}
}
