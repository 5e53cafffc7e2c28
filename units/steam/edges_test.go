package steam_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/steam"
)

// next returns the number beside another, up or down.
func next[T ~float64](v T, up bool) T {
	return T(math.Nextafter(float64(v), math.Inf(map[bool]int{true: 1, false: -1}[up])))
}

// Each end of each range is taken in, and the number beside it, or a billionth of the
// allowance for rounding further, is not. The ranges are those of the release's regions
// and of the comments.
func TestEdges(t *testing.T) {
	const zero = units.Temperature(273.15)
	bar := units.Bar
	at := func(p units.Pressure) steam.Saturated {
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	ten := at(10 * bar)
	dry := dryAt(t, 10*bar)
	boils := ten.Temperature
	onLine := func(share float64) steam.Saturated {
		return steam.Saturated{Pressure: 10 * bar, Temperature: boils * units.Temperature(1+share)}
	}
	latent := func(degrees units.Temperature) error {
		_, err := steam.Saturated{Pressure: 100 * bar, Temperature: degrees}.LatentHeat(1)
		return err
	}
	condensed := func(iron units.Mass, cold, hot units.Temperature) error {
		_, err := ten.Condensed(iron, cold, hot)
		return err
	}
	pressed := func(p units.Pressure) error { _, err := steam.SteamAt(p, units.Celsius(300)); return err }
	gauge := func(p units.Pressure) error { _, err := steam.AtGauge(p); return err }
	absolute := func(p units.Pressure) error { _, err := steam.AtPressure(p); return err }
	warm := func(k units.Temperature) error { _, err := steam.AtTemperature(k); return err }
	water := func(k units.Temperature) error { _, err := steam.WaterAt(10*bar, k); return err }
	hot := func(k units.Temperature) error { _, err := steam.SteamAt(10*bar, k); return err }
	wet := func(x float64) error { _, err := ten.Wet(x); return err }
	throttled := func(to units.Pressure) error { _, err := dry.Throttled(to); return err }
	most := units.Celsius(800)
	for _, test := range []struct {
		name       string
		taken, not error
		field      string
		accepted   string
	}{
		{"gauge, none", gauge(0), gauge(next(0.0*bar, false)), "pressure of the steam", "0 to 200 bar above that of the air"},
		{"gauge, most", gauge(200 * bar), gauge(next(200*bar, true)), "pressure of the steam", "0 to 200 bar above that of the air"},
		{"least", absolute(611.213), absolute(next[units.Pressure](611.213, false)), "pressure of the steam", "611.213 Pa to 22.064 MPa, absolute"},
		{"critical", absolute(22.064 * units.Megapascal), absolute(next(22.064*units.Megapascal, true)), "pressure of the steam",
			"611.213 Pa to 22.064 MPa, absolute"},
		{"frozen", warm(zero), warm(next(zero, false)), "temperature of the steam", "0 to 373.946 °C"},
		{"hottest", warm(647.096), warm(next[units.Temperature](647.096, true)), "temperature of the steam", "0 to 373.946 °C"},
		{"thin", pressed(0.01 * bar * (1 - 0.9e-9)), pressed(0.01 * bar * (1 - 1.1e-9)), "pressure of the steam", "0.01 to 40 bar, absolute"},
		{"thick", pressed(40 * bar * (1 + 0.9e-9)), pressed(40 * bar * (1 + 1.1e-9)), "pressure of the steam", "0.01 to 40 bar, absolute"},
		{"ice", water(zero), water(next(zero, false)), "temperature of the water", "from 0 °C to that of steam of the pressure, " + boils.String()},
		{"boiling", water(boils), water(next(boils, true)), "temperature of the water", "to that of steam of the pressure, " + boils.String()},
		{"condensing", hot(boils), hot(next(boils, false)), "temperature of the steam", boils.String() + ", to 800 °C"},
		{"glowing", hot(most), hot(next(most, true)), "temperature of the steam", boils.String() + ", to 800 °C"},
		{"colder than the line", onLine(-0.9e-6).Validate(), onLine(-1.1e-6).Validate(), "temperature of the steam", boils.String()},
		{"hotter than the line", onLine(0.9e-6).Validate(), onLine(1.1e-6).Validate(), "temperature of the steam",
			"is not that of saturated steam of the pressure"},
		{"water alone", wet(0), wet(next(0.0, false)), "dryness of the steam", "0 to 1"},
		{"no water", wet(1), wet(next(1.0, true)), "dryness of the steam", "0 to 1"},
		{"as it was", throttled(10 * bar), throttled(next(10*bar, true)), "pressure after it", "0.01 bar to that before, " + (10 * bar).String()},
		{"to the least", throttled(0.01 * bar * (1 - 0.9e-9)), throttled(0.01 * bar * (1 - 1.1e-9)), "pressure after it", "0.01 bar to that before"},
		{"latent of cold steam", latent(zero), latent(next(zero, false)), "temperature of the steam", "0 to 350 °C"},
		{"latent of hot steam", latent(623.15), latent(next[units.Temperature](623.15, true)), "temperature of the steam", "0 to 350 °C"},
		{"no iron", condensed(1e-15, zero, boils), condensed(0, zero, boils), "mass of the iron", "above zero"},
		{"cold iron", condensed(1, zero, boils), condensed(1, next(zero, false), boils), "temperature of the cold iron", "from 0 °C to below"},
		{"iron as hot as steam", condensed(1, next(boils, false), boils), condensed(1, boils, boils), "temperature of the cold iron",
			"to below that of the steam, " + boils.String()},
		{"no warmer", condensed(1, 300, next[units.Temperature](300, true)), condensed(1, 300, 300), "temperature of the warm iron",
			"above the cold, " + units.Temperature(300).String()},
		{"as warm as steam", condensed(1, 300, boils), condensed(1, 300, next(boils, true)), "temperature of the warm iron",
			"and not above that of the steam, " + boils.String()},
	} {
		if test.taken != nil {
			t.Errorf("%s: the end of the range: %v", test.name, test.taken)
		}
		var argument *units.ArgumentError
		switch text := fmt.Sprint(test.not); {
		case !errors.As(test.not, &argument):
			t.Errorf("%s: beyond the end: %v", test.name, test.not)
		case argument.Field != test.field || !strings.Contains(text, test.accepted):
			t.Errorf("%s: %v, want the %s and %q", test.name, text, test.field, test.accepted)
		}
	}
}

// What is refused because it is no number names what it is of.
func TestNotFinite(t *testing.T) {
	nan, dry := math.NaN(), dryAt(t, 10*units.Bar)
	refused := func(name string, err error, field string) {
		t.Helper()
		check.Refuses(t, name, err, units.ErrNotFinite, field)
	}
	_, err := steam.WaterAt(units.Pressure(nan), 300)
	refused("water", err, "pressure of the water")
	_, err = steam.SteamAt(units.Pressure(math.Inf(1)), 500)
	refused("steam", err, "pressure of the steam")
	_, err = steam.State{Pressure: dry.Pressure, Enthalpy: units.Energy(math.Inf(-1))}.Throttled(units.Bar)
	refused("enthalpy", err, "state of the steam")
	_, err = steam.State{Pressure: dry.Pressure, Entropy: nan}.Expanded(units.Bar)
	refused("entropy", err, "state of the steam")
	for _, far := range []float64{1e300, -1e300} { // of which the sums are no number
		_, err = steam.State{Pressure: dry.Pressure, Enthalpy: units.Energy(far)}.Throttled(units.Bar)
		check.Refuses(t, "far enthalpy", err, units.ErrOutOfRange, "leads out of the formulation")
		_, err = steam.State{Pressure: dry.Pressure, Entropy: far}.Expanded(units.Bar)
		check.Refuses(t, "far entropy", err, units.ErrOutOfRange, "leads out of the formulation")
	}
	_, err = steam.State{Pressure: units.Pressure(nan)}.Expanded(units.Bar)
	refused("pressure before", err, "pressure of the steam")
	refused("line", steam.Saturated{Pressure: units.Pressure(nan)}.Validate(), "pressure of the steam")
}

// A state that leads to an end of the regions may miss it by 1e-5 K, which is what the
// step of Newton's leaves, and stands on the end then; further out there is nothing.
func TestEndsOfTheFormulation(t *testing.T) {
	const p = 2 * units.Bar
	least, most := units.Celsius(0), units.Celsius(800)
	ice, err1 := steam.WaterAt(p, least)
	hot, err2 := steam.SteamAt(p, most)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		from steam.State
		sign float64
		at   units.Temperature
	}{{"water", ice, -1, least}, {"steam", hot, 1, most}} {
		for _, out := range []float64{-0.9e-5, 0.8e-5, 1.2e-5} { // K beyond the end
			from := test.from
			from.Enthalpy += units.Energy(test.sign * out * from.HeatCapacity)
			from.Entropy += test.sign * out * from.HeatCapacity / from.Temperature.Kelvin()
			for name, go_ := range map[string]func(units.Pressure) (steam.State, error){"throttled": from.Throttled, "expanded": from.Expanded} {
				after, err := go_(p)
				if out > 1e-5 {
					check.Refuses(t, test.name+" "+name, err, units.ErrOutOfRange, "leads out of the formulation")
					continue
				}
				want := test.at + units.Temperature(test.sign*min(out, 0))
				if err != nil || math.Abs(float64(after.Temperature-want)) > 1e-6 || out > 0 && after.Temperature != want {
					t.Errorf("%s %s, %v K beyond the end: %v, %v; want %v", test.name, name, out, after.Temperature, err, want)
				}
			}
		}
	}
}
