package indicator

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The demonstration engine, invented, on air at 2 bar and 300 rev/min, and how long a
// receiver of 24 l that is filled to 8 bar runs it on its own.
func ExampleRunning_AirUse() {
	r := demo()
	use, err := r.AirUse()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f cm3 of free air a turn\n", use.PerTurn.In(units.CubicCentimetre))
	fmt.Printf("%.1f l/min, %.2f ft3/min\n", use.Free.In(units.LitrePerMinute), use.Free.In(units.CubicFootPerMinute))
	fmt.Printf("compressor %.0f to %.0f l/min\n", use.Min.In(units.LitrePerMinute), use.Max.In(units.LitrePerMinute))
	lasts, err := use.Lasts(24*units.Litre, 8*units.Bar, r.Chest, 0)
	fmt.Println(lasts.Round(time.Second), err)
	// Output:
	// 39.4 cm3 of free air a turn
	// 11.8 l/min, 0.42 ft3/min
	// compressor 24 to 35 l/min
	// 4m1s <nil>
}

// Printed consumption of a cylinder: full admission, one side, no clearance.
func TestFreeAir(t *testing.T) {
	f := check.Open(t, "eccentric/indicator/air.csv")
	for r := range f.Rows() {
		bore, stroke := r.Float("bore"), r.Float("stroke")
		volume := math.Pi / 4 * bore * bore * stroke * r.Float("strokes_min") // in cubes of the length
		in := volume * math.Pow(map[string]float64{"in": 1.0 / 12, "cm": 0.01}[r.Text("unit")], 3)
		got := free(contents{r.Float("chest_abs"), in}, contents{}, r.Float("atmosphere"))
		r.Compare("free_air", got)
		// The same of an engine, less what its clearance takes.
		long, scale := units.Inch, units.CubicFootPerMinute
		pressure := units.PSI
		if r.Text("unit") == "cm" {
			long = func(cm float64) units.Length { return units.MM(10 * cm) }
			scale, pressure = units.CubicMetrePerSecond/60, units.Kilopascal
		}
		run := textbookEngine(long(bore), long(stroke), 1, r.Float("strokes_min"))
		run.Atmosphere = units.Pressure(r.Float("atmosphere")) * pressure
		run.Chest = run.Gauge(units.Pressure(r.Float("chest_abs")) * pressure)
		use := must(t, run.AirUse)
		clearance := leastClearance * in * (r.Float("chest_abs") - r.Float("atmosphere")) / r.Float("atmosphere")
		r.Compare("free_air", use.Free.In(scale)-clearance)
		if got := run.Absolute(run.Chest); math.Abs(got.In(pressure)-r.Float("chest_abs")) > 1e-9 {
			t.Errorf("%s: %v in the chest", r.ID, got)
		}
	}
}

func TestReceiver(t *testing.T) {
	for r := range check.Open(t, "eccentric/indicator/receiver.csv").Rows() {
		flow := func(column string) units.VolumeFlow {
			return units.VolumeFlow(r.Float(column)) * units.CubicFootPerMinute
		}
		psi := func(column string) units.Pressure { return units.Pressure(r.Float(column)) * units.PSI }
		volume := units.Volume(r.Float("volume")) * units.CubicFoot
		if r.Text("unit") == "gal" {
			volume = units.Volume(r.Float("volume")) * units.USGallon
		}
		use := AirUse{Max: flow("engine_ft3_min"), Atmosphere: psi("atmosphere_psi")}
		got, err := use.Lasts(volume, psi("from_psi"), psi("to_psi"), flow("compressor_ft3_min"))
		if err != nil {
			t.Fatal(err)
		}
		r.Within("minutes", got.Minutes(), r.Float("minutes")*2e-4) // the volume is printed to 4 digits, by 7.48 gallons to the cubic foot
	}
}

// A longer cut-off takes more air, and so does a higher pressure; two cylinders take
// twice what one does, whatever the angle between them; at twice the speed twice as
// much a minute.
func TestAirUseInProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := demo()
		r.Chest = units.Pressure(rapid.Float64Range(0.3, 8).Draw(t, "chest")) * units.Bar
		r.Index = rapid.Float64Range(1, 1.4).Draw(t, "index")
		use := must(t, r.AirUse)
		higher := r
		higher.Chest *= 1.5
		early := r
		early.Gear.Advance += 5 * units.Degree // events come sooner, cut-off with them
		twin := r
		twin.Cranks = []units.Angle{units.Angle(rapid.Float64Range(0, 360).Draw(t, "ahead")) * units.Degree}
		faster := r
		faster.Speed *= 2
		if !(must(t, higher.AirUse).PerTurn > use.PerTurn && must(t, early.AirUse).PerTurn < use.PerTurn) {
			t.Errorf("%v", use)
		}
		for name, got := range map[string]AirUse{"twin": must(t, twin.AirUse), "faster": must(t, faster.AirUse)} {
			if math.Abs(float64(got.Free/use.Free)-2) > 1e-12 {
				t.Errorf("%s: %v, one has %v", name, got.Free, use.Free)
			}
		}
		if use.Min != 2*use.Free || use.Max != 3*use.Free || use.BlowsThrough {
			t.Errorf("%v", use)
		}
	})
}

// By the volumes that the cycle itself gives, at both ends.
func TestAirUseByTheCycle(t *testing.T) {
	r := demo()
	c := must(t, r.Cycle)
	want := 0.0
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		e := c.At(end)
		want += (3.01325*float64(e.CutOff.Volume) - 1.01325*float64(e.Compression.Volume)) / 1.01325
	}
	near(t, "free air a turn", float64(must(t, r.AirUse).PerTurn), want, 1e-12)
}

// A gear in any order of events, with lost motion and ends that differ: what goes in
// is never more than the chest could fill the cylinder and its clearance with, and
// never a number that is none, on air and on steam.
func TestUseOfAnyGear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := demo()
		r.Gear.Advance = units.Angle(rapid.Float64Range(-180, 180).Draw(t, "advance")) * units.Degree
		r.Gear.Valve.Length = units.MM(rapid.Float64Range(9.5, 22).Draw(t, "valve"))
		r.Gear.Valve.Cavity = units.MM(rapid.Float64Range(1, 9.4).Draw(t, "cavity"))
		r.Gear.Valve.Offset = units.MM(rapid.Float64Range(-3, 3).Draw(t, "offset"))
		r.Gear.Valve.LostMotion = units.MM(rapid.Float64Range(0, 2).Draw(t, "lost motion"))
		r.Gear.Ports.CrankSteam = units.MM(rapid.Float64Range(1, 3).Draw(t, "crank port"))
		if rapid.Bool().Draw(t, "twin") {
			r.Cranks = []units.Angle{90 * units.Degree}
		}
		if r.Validate() != nil {
			return
		}
		use := must(t, r.AirUse)
		c := must(t, r.Cycle)
		most, steamed := 0.0, r
		steamed.Medium = Steam
		for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			most += float64(c.At(end).Swept+c.At(end).Clearance) * float64(r.Cylinders())
		}
		if v := float64(use.PerTurn); !(math.Abs(v) <= most*3.01325/1.01325) || use.Min < 0 || !(use.Max >= use.Min) {
			t.Fatalf("%v of %v at the most", use, most)
		}
		weighs, err := contents{3.01325e5, most}.weight()
		if err != nil {
			t.Fatal(err)
		}
		water := must(t, steamed.SteamUse)
		if v := float64(water.PerTurn); !(math.Abs(v) <= weighs) || water.Min < 0 || !(water.Max >= water.Min) {
			t.Fatalf("%v of %v at the most", water, weighs)
		}
		for _, r := range []Running{r, steamed} {
			pipe, err := r.SteamPipe(25 * units.MetrePerSecond)
			var argument *units.ArgumentError
			if err != nil && !errors.As(err, &argument) || err == nil && !(pipe.Flow > 0 && pipe.Bore.Sign() > 0) {
				t.Fatalf("%v, %v", pipe, err)
			}
		}
	})
}

// Steam ports that are open to the exhaust too are told.
func TestBlowsThrough(t *testing.T) {
	r := demo()
	r.Gear.Valve.Cavity = units.MM(14) // no land is as wide as a port
	if use := must(t, r.AirUse); !use.BlowsThrough {
		t.Errorf("%v", use)
	}
}

// must returns what a question has as its answer.
func must[A any](t interface {
	Helper()
	Fatal(...any)
}, question func() (A, error)) A {
	t.Helper()
	answer, err := question()
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

func TestAirUseRefuses(t *testing.T) {
	still, steam, wrong := demo(), demo(), demo()
	still.Speed, steam.Medium, wrong.Bore = 0, Steam, units.Length{}
	use := must(t, demo().AirUse)
	for name, call := range map[string]func() error{
		"no speed":    func() error { _, err := still.AirUse(); return err },
		"steam":       func() error { _, err := steam.AirUse(); return err },
		"no bore":     func() error { _, err := wrong.AirUse(); return err },
		"no receiver": func() error { _, err := use.Lasts(0, 8*units.Bar, 2*units.Bar, 0); return err },
		"rising":      func() error { _, err := use.Lasts(units.Litre, 2*units.Bar, 8*units.Bar, 0); return err },
		"vacuum":      func() error { _, err := use.Lasts(units.Litre, 2*units.Bar, -1*units.Bar, 0); return err },
		"too high":    func() error { _, err := use.Lasts(units.Litre, 500*units.Bar, 2*units.Bar, 0); return err },
		"sucks":       func() error { _, err := use.Lasts(units.Litre, 8*units.Bar, 2*units.Bar, -1); return err },
		"no engine":   func() error { _, err := AirUse{}.Lasts(units.Litre, 8*units.Bar, 2*units.Bar, 0); return err },
		"a gasometer": func() error { _, err := use.Lasts(1e9, 8*units.Bar, 2*units.Bar, 0); return err },
		"endless supply": func() error {
			_, err := use.Lasts(1, 8*units.Bar, 2*units.Bar, units.VolumeFlow(math.Inf(1)))
			return err
		},
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if lasts, err := use.Lasts(units.Litre, 8*units.Bar, 2*units.Bar, use.Max); err != nil || lasts != 0 {
		t.Errorf("a compressor that keeps up: %v, %v", lasts, err)
	}
}
