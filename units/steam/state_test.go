package steam_test

import (
	"errors"
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/steam"
)

// A litre of the chest of an engine on 2 bar: how much of the boiler's water it is.
func ExampleSaturated_Steam() {
	s, err := steam.AtGauge(2 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	dry, err := s.Steam()
	fmt.Printf("%.1f °C, %.4f m3/kg %v\n", dry.Temperature.Celsius(), dry.Volume.In(units.CubicMetre), err)
	fmt.Printf("%.2f g in a litre\n", 1/dry.Volume.In(units.Litre)*1000)
	// Output:
	// 133.7 °C, 0.6033 m3/kg <nil>
	// 1.66 g in a litre
}

// Dry steam of 3 bar that expands to 1 bar in a cylinder, and the same behind a
// half-closed stop valve.
func ExampleState_Expanded() {
	s, err := steam.AtPressure(3 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	dry, err := s.Steam()
	if err != nil {
		fmt.Println(err)
		return
	}
	wet, err := dry.Expanded(1 * units.Bar)
	fmt.Printf("%.0f %% dry, %.3f m3/kg %v\n", 100*wet.Dryness, wet.Volume.In(units.CubicMetre), err)
	hot, err := dry.Throttled(1 * units.Bar)
	fmt.Printf("%.1f °C, where saturated steam has %.1f °C %v\n", hot.Temperature.Celsius(), wet.Temperature.Celsius(), err)
	// Output:
	// 94 % dry, 1.591 m3/kg <nil>
	// 124.1 °C, where saturated steam has 99.6 °C <nil>
}

// With enthalpy.csv, temperature.csv and pressure.csv these are the 66 values by
// which the release has regions 1, 2 and 4 verified.
func TestProperties(t *testing.T) {
	for r := range check.Open(t, "units/steam/properties.csv").Rows() {
		r.Compare("value", steam.Property(int(r.Float("region")), r.Text("property"), r.Float("pressure_mpa"), r.Float("temperature_k")))
		s, ok := stateOf(t, r)
		if !ok {
			continue
		}
		switch r.Text("property") {
		case "v":
			r.Compare("value", float64(s.Volume))
		case "u":
			r.Compare("value", s.Energy.In(units.Kilojoule))
		case "s":
			r.Compare("value", s.Entropy/1000)
		case "cp":
			r.Compare("value", s.HeatCapacity/1000)
		case "w":
			r.Compare("value", float64(s.Sound))
		}
	}
}

// stateOf returns the water or steam of a row, if it lies in the range of the package.
func stateOf(t *testing.T, r *check.Row) (steam.State, bool) {
	t.Helper()
	of := steam.WaterAt
	if r.Text("region") == "2" {
		of = steam.SteamAt
	}
	p := units.Pressure(r.Float("pressure_mpa")) * units.Megapascal
	if p > 40*units.Bar {
		return steam.State{}, false
	}
	s, err := of(p, units.Kelvin(r.Float("temperature_k")))
	if err != nil {
		t.Fatalf("%s: %v", r.ID, err)
	}
	return s, true
}

func TestBackward(t *testing.T) {
	by := map[string]func(p, x float64) float64{
		"1h": steam.WaterByEnthalpy, "1s": steam.WaterByEntropy, "2h": steam.SteamByEnthalpy, "2s": steam.SteamByEntropy,
	}
	for r := range check.Open(t, "units/steam/backward.csv").Rows() {
		r.Compare("temperature_k", by[r.Text("region")+r.Text("by")](r.Float("pressure_mpa"), r.Float("value")))
	}
}

func dryAt(t interface {
	Helper()
	Fatal(...any)
}, p units.Pressure) steam.State {
	t.Helper()
	s, err := steam.AtPressure(p)
	if err != nil {
		t.Fatal(err)
	}
	dry, err := s.Steam()
	if err != nil {
		t.Fatal(err)
	}
	return dry
}

func TestVolume(t *testing.T) {
	for r := range check.Open(t, "units/steam/volume.csv").Rows() {
		unit, per := units.Bar, 1.0
		if r.Text("unit") == "psi" {
			unit = units.PSI
		}
		if r.Text("per") == "ft3/lb" {
			per = float64(units.CubicFoot) / float64(units.Pound)
		}
		dry := dryAt(t, units.Pressure(r.Float("pressure"))*unit)
		r.Within("volume", float64(dry.Volume)/per, r.Float("tolerance"))
	}
}

func TestSaturation(t *testing.T) {
	for r := range check.Open(t, "units/steam/saturation.csv").Rows() {
		s, err := steam.AtPressure(units.Pressure(r.Float("pressure_bar")) * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		dry, err1 := s.Steam()
		water, err2 := s.Water()
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		r.Compare("temperature_c", s.Temperature.Celsius())
		r.Compare("steam_m3_kg", float64(dry.Volume))
		r.Compare("steam_kj_kg", dry.Enthalpy.In(units.Kilojoule))
		r.Compare("water_kj_kg", water.Enthalpy.In(units.Kilojoule))
	}
}

// An independent program has the same formulation: saturation, water and hot steam
// over the range of the package.
func TestAgainstAnotherProgram(t *testing.T) {
	python := check.LongPeer(t, "python3", "iapws")
	type point struct {
		p units.Pressure
		t units.Temperature // zero: saturated
	}
	var points []point
	var text strings.Builder
	for i := range 41 {
		p := units.Pressure(math.Pow(10, 3+float64(i)/40*math.Log10(4000))) // 0.01 to 40 bar
		p = min(p, 40*units.Bar)
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range []units.Temperature{0, s.Temperature - 5, s.Temperature + 0.1, s.Temperature + 60, s.Temperature + 300} {
			points = append(points, point{p, at})
			fmt.Fprintf(&text, "%.17g %.17g\n", p.In(units.Megapascal), at.Kelvin())
		}
	}
	cmd := exec.Command(python, check.Path(t, "units/steam/peer.py"))
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(points) {
		t.Fatalf("%d answers for %d points", len(lines), len(points))
	}
	worst := 0.0
	for i, at := range points {
		var got []float64
		for field := range strings.FieldsSeq(lines[i]) {
			var v float64
			if _, err := fmt.Sscan(field, &v); err != nil {
				t.Fatal(err)
			}
			got = append(got, v)
		}
		var states []steam.State
		if at.t == 0 {
			s, err := steam.AtPressure(at.p)
			water, err1 := s.Water()
			dry, err2 := s.Steam()
			if err := errors.Join(err, err1, err2); err != nil {
				t.Fatal(err)
			}
			states = []steam.State{water, dry}
		} else {
			single, err := steam.SteamAt(at.p, at.t)
			if s, _ := steam.AtPressure(at.p); at.t < s.Temperature {
				single, err = steam.WaterAt(at.p, at.t)
			}
			if err != nil {
				t.Fatal(err)
			}
			states = []steam.State{single}
		}
		var want []float64
		for _, s := range states {
			want = append(want, s.Temperature.Kelvin(), float64(s.Volume), s.Enthalpy.In(units.Kilojoule), s.Entropy/1000)
		}
		if len(got) != len(want) {
			t.Fatalf("%v: %d figures for %d", at, len(got), len(want))
		}
		for j := range want {
			// Near the triple point enthalpy and entropy of water are all but zero: 1e-9 of a degree's worth.
			d := math.Abs(got[j]-want[j]) / max(math.Abs(want[j]), 1)
			if worst = max(worst, d); d > 1e-9 {
				t.Errorf("%v K, %v, figure %d: %v, it has %v", at.t, at.p, j, want[j], got[j])
			}
		}
	}
	t.Logf("%d states, largest difference %.2g", len(points), worst)
}

// What stays does stay, within what the Newton step leaves, and the state lies on
// the right side of the line of saturation.
func TestThrottledAndExpanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := units.Pressure(rapid.Float64Range(0.02, 40).Draw(t, "bar")) * units.Bar
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		var from steam.State
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			from, err = s.Wet(rapid.Float64Range(0, 1).Draw(t, "dryness"))
		case 1:
			from, err = steam.SteamAt(p, min(s.Temperature+units.Temperature(rapid.Float64Range(0, 500).Draw(t, "superheat")), units.Celsius(800)))
		case 2:
			from, err = steam.WaterAt(p, units.Kelvin(rapid.Float64Range(278, s.Temperature.Kelvin()).Draw(t, "water")))
		}
		if err != nil {
			t.Fatal(err)
		}
		to := units.Pressure(rapid.Float64Range(0.01, 1).Draw(t, "share")) * p
		to = max(to, 0.01*units.Bar)
		throttled, err1 := from.Throttled(to)
		expanded, err2 := from.Expanded(to)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatalf("%v to %v: %v", from, to, err)
		}
		if d := math.Abs(float64(throttled.Enthalpy - from.Enthalpy)); d > 0.1 { // J/kg, 25 microkelvin
			t.Fatalf("%v to %v: enthalpy off by %v", from, to, d)
		}
		if d := math.Abs(expanded.Entropy - from.Entropy); d > 1e-4 {
			t.Fatalf("%v to %v: entropy off by %v", from, to, d)
		}
		// Energy is lost to work in the one and not in the other, and the entropy grows behind a valve.
		if expanded.Enthalpy > from.Enthalpy+0.1 || throttled.Entropy < from.Entropy-1e-4 {
			t.Fatalf("%v to %v: %v, %v", from, to, expanded, throttled)
		}
	})
}

// The heat of the steam above its feed, by two worked examples of a text: dry, and wet.
func TestEfficiency(t *testing.T) {
	for r := range check.Open(t, "units/steam/efficiency.csv").Rows() {
		in, err1 := steam.AtPressure(units.Pressure(r.Float("pressure_bar")) * units.Bar)
		out, err2 := steam.AtPressure(units.Pressure(r.Float("exhaust_bar")) * units.Bar)
		wet, err3 := in.Wet(r.Float("dryness"))
		feed, err4 := out.Water()
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			t.Fatal(err)
		}
		heat := (wet.Enthalpy - feed.Enthalpy).In(units.Kilojoule) * r.Float("steam_kg_h") / 3600
		r.Compare("efficiency_percent", 100*r.Float("power_kw")/heat)
	}
}

// Wet steam has what its two parts have.
func TestWet(t *testing.T) {
	s, err := steam.AtPressure(5 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	water, err1 := s.Water()
	dry, err2 := s.Steam()
	wet, err3 := s.Wet(0.9)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	for name, pair := range map[string][2]float64{
		"volume":   {float64(wet.Volume), 0.9*float64(dry.Volume) + 0.1*float64(water.Volume)},
		"enthalpy": {float64(wet.Enthalpy), 0.9*float64(dry.Enthalpy) + 0.1*float64(water.Enthalpy)},
		"energy":   {float64(wet.Energy), 0.9*float64(dry.Energy) + 0.1*float64(water.Energy)},
		"entropy":  {wet.Entropy, 0.9*dry.Entropy + 0.1*water.Entropy},
		"h = u+pv": {float64(wet.Enthalpy), float64(wet.Energy) + float64(wet.Pressure)*float64(wet.Volume)},
	} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, pair[0], pair[1])
		}
	}
}

// What equation 31 makes of the ends of the range, equation 30 takes back, and there
// are properties there and none beyond.
func TestEndsOfTheRange(t *testing.T) {
	for _, p := range []units.Pressure{0.01 * units.Bar, 40 * units.Bar} {
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := steam.AtTemperature(s.Temperature)
		if err != nil || math.Abs(float64(back.Pressure/p)-1) > 1e-9 {
			t.Errorf("%v: %v, %v", p, back, err)
		}
		if _, err := back.Steam(); err != nil {
			t.Error(err)
		}
		for _, share := range []units.Pressure{0.9999, 1.0001} {
			s, err := steam.AtPressure(share * p)
			if err != nil {
				t.Fatal(err)
			}
			inside := (share < 1) == (p > units.Bar)
			if _, err := s.Steam(); (err == nil) != inside {
				t.Errorf("%v: %v", s.Pressure, err)
			}
		}
	}
}

func TestStateRefuses(t *testing.T) {
	s, err := steam.AtPressure(3 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	dry := dryAt(t, 3*units.Bar)
	nan := math.NaN()
	for name, call := range map[string]func() error{
		"cold water":        func() error { _, err := steam.WaterAt(units.Bar, units.Celsius(-1)); return err },
		"water too hot":     func() error { _, err := steam.WaterAt(units.Bar, units.Celsius(100)); return err },
		"no degrees":        func() error { _, err := steam.WaterAt(units.Bar, units.Kelvin(nan)); return err },
		"steam too cold":    func() error { _, err := steam.SteamAt(units.Bar, units.Celsius(99)); return err },
		"steam too hot":     func() error { _, err := steam.SteamAt(units.Bar, units.Celsius(801)); return err },
		"pressure of water": func() error { _, err := steam.WaterAt(41*units.Bar, units.Celsius(20)); return err },
		"thin steam":        func() error { _, err := steam.SteamAt(500, units.Celsius(20)); return err },
		"too dry":           func() error { _, err := s.Wet(1.1); return err },
		"no dryness":        func() error { _, err := s.Wet(nan); return err },
		"upwards":           func() error { _, err := dry.Throttled(4 * units.Bar); return err },
		"into nothing":      func() error { _, err := dry.Expanded(0); return err },
		"to no pressure":    func() error { _, err := dry.Expanded(units.Pressure(nan)); return err },
		"no state":          func() error { _, err := steam.State{}.Expanded(units.Bar); return err },
		"no enthalpy": func() error {
			_, err := steam.State{Pressure: units.Bar, Enthalpy: units.Energy(nan)}.Throttled(units.Bar)
			return err
		},
		"beyond all steam": func() error {
			_, err := steam.State{Pressure: units.Bar, Entropy: 1e9}.Expanded(0.5 * units.Bar)
			return err
		},
		"beside the line": func() error {
			_, err := steam.Saturated{Pressure: 5 * units.Bar, Temperature: units.Celsius(160)}.Steam()
			return err
		},
		"ice": func() error {
			_, err := steam.State{Pressure: units.Bar, Enthalpy: -1e6}.Throttled(units.Bar)
			return err
		},
		"water of nothing": func() error { _, err := steam.Saturated{}.Water(); return err },
		"steam of nothing": func() error { _, err := steam.Saturated{}.Steam(); return err },
		"wet nothing":      func() error { _, err := steam.Saturated{}.Wet(0.5); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func BenchmarkSaturatedSteam(b *testing.B) {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Steam(); err != nil {
			b.Fatal(err)
		}
	}
}
