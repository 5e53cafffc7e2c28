package units_test

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A kind drives one of the float64 quantities through its text.
type kind struct {
	name  string
	parse func(string) (float64, error)
	text  func(float64) string
	units []string
	gnu   []string // the same units as GNU units has them
	js    []string // the same units as mathjs has them; "-" for what it has not
}

func of[T interface {
	~float64
	fmt.Stringer
}](name string, parse func(string) (T, error), units, gnu, js string) kind {
	return kind{
		name:  name,
		parse: func(s string) (float64, error) { v, err := parse(s); return float64(v), err },
		text:  func(v float64) string { return T(v).String() },
		units: strings.Fields(units), gnu: strings.Fields(gnu), js: strings.Fields(js),
	}
}

var kinds = []kind{
	of("angle", units.ParseAngle, "deg rad arcmin arcsec", "degree radian arcmin arcsec",
		"deg rad arcmin arcsec"),
	of("pressure", units.ParsePressure, "bar Pa kPa MPa GPa psi atm", "bar Pa kPa MPa GPa psi atm",
		"bar Pa kPa MPa GPa psi atm"),
	of("force", units.ParseForce, "N kN lbf kgf", "N kN lbf kgf",
		"N kN lbf kgf"),
	of("torque", units.ParseTorque, "N·m N·mm lbf·ft lbf·in", "N*m N*mm lbf*ft lbf*in",
		"N*m N*mm lbf*ft lbf*in"),
	of("power", units.ParsePower, "W kW hp PS", "W kW hp metrichorsepower",
		"W kW hp -"),
	of("energy", units.ParseEnergy, "J kJ ft·lbf Wh Btu", "J kJ ft*lbf W*hr btu",
		"J kJ ft*lbf W*h BTU"),
	of("mass", units.ParseMass, "kg g lb oz", "kg g lb oz",
		"kg g lbm oz"),
	of("density", units.ParseDensity, "kg/m3 g/cm3 lb/in3 lb/ft3", "kg/m^3 g/cm^3 lb/in^3 lb/ft^3",
		"kg/m^3 g/cm^3 lbm/in^3 lbm/ft^3"),
	of("speed", units.ParseSpeed, "m/s m/min mm/min ft/min ft/s in/min", "m/s m/min mm/min ft/min ft/s in/min",
		"m/s m/minute mm/minute ft/minute ft/s in/minute"),
	of("rotational speed", units.ParseRotationalSpeed, "rad/s rev/min rev/s", "radian/s rpm 2*pi*radian/s",
		"rad/s cycle/minute cycle/s"),
	of("temperature difference", units.ParseTemperatureDifference, "K °F", "K degF",
		"- -"),
	of("area", units.ParseArea, "m2 mm2 cm2 in2", "m^2 mm^2 cm^2 in^2",
		"m^2 mm^2 cm^2 in^2"),
	of("volume", units.ParseVolume, "m3 mm3 cm3 L in3 ft3 imp.gal US.gal", "m^3 mm^3 cm^3 liter in^3 ft^3 brgallon gallon",
		"m^3 mm^3 cm^3 L in^3 ft^3 - gallon"),
	of("volume flow", units.ParseVolumeFlow, "m3/s L/min cm3/min in3/min ft3/min", "m^3/s liter/min cm^3/min in^3/min ft^3/min",
		"m^3/s L/minute cm^3/minute in^3/minute ft^3/minute"),
	of("linear expansion", units.ParseExpansivity, "1/K ppm/K ppm/°F 1/°F", "1/K 1e-6/K 1e-6/degF 1/degF",
		"- - - -"),
}

func TestPublishedConversions(t *testing.T) {
	for r := range check.Open(t, "units/conversions.csv").Rows() {
		if r.Text("quantity") == "length" {
			from, to := units.MustLength("1 "+r.Text("from")), units.MustLength("1 "+r.Text("to"))
			r.Compare("printed", from.Ratio(to))
			// By the names of the units in Go, and as one of a unit that is read.
			one := map[string]func(float64) units.Length{"in": units.Inch, "thou": units.Thou}[r.Text("from")]
			plain := map[string]func(units.Length) float64{"mm": units.Length.MM, "m": units.Length.Metres}[r.Text("to")]
			if one == nil { // feet are read and not written
				continue
			}
			r.Compare("printed", plain(one(1)))
			unit, err := units.ParseLengthUnit(r.Text("from"))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("printed", plain(unit.Length()))
			thousand, err := unit.Of(1000)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("printed", plain(thousand)/1000)
			continue
		}
		if r.Text("quantity") == "temperature" {
			from, err := units.ParseTemperature(r.Text("from"))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("printed", from.Celsius())
			r.Compare("printed", units.Fahrenheit(from.Fahrenheit()).Celsius())
			// Half a degree Celsius is 0.9 Fahrenheit.
			if back := units.Celsius(r.Float("printed")).Fahrenheit(); math.Abs(back-from.Fahrenheit()) > 0.9 {
				t.Errorf("%s: back %v", r.ID, back)
			}
			continue
		}
		known := false
		for _, k := range kinds {
			if k.name == r.Text("quantity") {
				known = true
				from, err := k.parse("1 " + r.Text("from"))
				if err != nil {
					t.Fatal(err)
				}
				to, err := k.parse("1 " + r.Text("to"))
				if err != nil {
					t.Fatal(err)
				}
				r.Compare("printed", from/to)
			}
		}
		if !known {
			t.Errorf("%s: no quantity %q", r.ID, r.Text("quantity"))
		}
	}
}

// Two programs have the same unit for every unit of every quantity; GNU units has them
// all, mathjs lacks metric horsepower, the imperial gallon and differences of temperature.
func TestAgainstGNUUnits(t *testing.T) {
	cmd := exec.Command(check.Peer(t, "units"), "-t", "-o", "%.17g")
	compareUnits(t, cmd, "\n", 1e-12, func(k kind) []string { return k.gnu }) // both work in float64
}

func TestAgainstMathJS(t *testing.T) {
	cmd := exec.Command(check.LongPeer(t, "node", "mathjs"), check.Path(t, "units/mathjs.cjs"))
	// It holds the psi and the horsepower to 15 and 13 digits, 6e-11 off.
	compareUnits(t, cmd, " ", 1e-10, func(k kind) []string { return k.js })
}

// compareUnits gives the program each unit and the first of its quantity, and reads
// back their ratios, which agree to the tolerance.
func compareUnits(t *testing.T, cmd *exec.Cmd, between string, tolerance float64, theirs func(kind) []string) {
	t.Helper()
	var names []string
	var ours []float64
	var ask strings.Builder
	add := func(name, one, base string, ratio float64) {
		if one != "-" {
			names, ours = append(names, name), append(ours, ratio)
			fmt.Fprintf(&ask, "%s%s%s\n", one, between, base)
		}
	}
	for _, u := range []struct{ ours, theirs string }{{"in", "in"}, {"thou", "mil"}, {"um", "um"}, {"cm", "cm"}, {"m", "m"}, {"ft", "ft"}} {
		add(u.ours, u.theirs, "mm", units.MustLength("1 "+u.ours).MM())
	}
	for _, k := range kinds {
		same := theirs(k)
		if len(k.units) != len(same) {
			t.Fatalf("%s: %d units, %d of the program", k.name, len(k.units), len(same))
		}
		base, err := k.parse("1 " + k.units[0])
		if err != nil {
			t.Fatal(err)
		}
		for i, unit := range k.units[1:] {
			one, err := k.parse("1 " + unit)
			if err != nil {
				t.Fatal(err)
			}
			add(unit+" in "+k.units[0], same[i+1], same[0], one/base)
		}
	}
	cmd.Stdin = strings.NewReader(ask.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	answers := strings.Fields(string(out))
	if len(answers) != len(ours) {
		t.Fatalf("%d answers for %d units", len(answers), len(ours))
	}
	for i, answer := range answers {
		ratio, err := strconv.ParseFloat(answer, 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(ours[i]-ratio) > tolerance*ratio {
			t.Errorf("1 %s = %.17g, the program has %s", names[i], ours[i], answer)
		}
	}
	t.Logf("%d units agree to %g", len(ours), tolerance)
}

func TestQuantityRoundTrip(t *testing.T) {
	for _, k := range kinds {
		rapid.Check(t, func(t *rapid.T) {
			v := rapid.Float64().Draw(t, "v")
			if math.IsInf(v*1e12, 0) || math.Abs(v) < 1e-290 && v != 0 { // the printing unit must hold it too
				return
			}
			back, err := k.parse(k.text(v))
			if err != nil || back != v {
				t.Fatalf("%s: %v printed as %q reads back as %v, %v", k.name, v, k.text(v), back, err)
			}
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		v := units.Temperature(rapid.Float64Range(1e-6, 1e6).Draw(t, "v")) // nobody writes a millionth of a kelvin in degrees Celsius
		back, err := units.ParseTemperature(v.String())
		if err != nil || back != v {
			t.Fatalf("%v printed as %q reads back as %v, %v", float64(v), v.String(), float64(back), err)
		}
	})
}

// A computed value, whose neighbours are closer than 17 digits of the unit that
// it prints in can tell, is still printed without an exponent and with no more
// digits than it takes to read back.
func TestComputedText(t *testing.T) {
	angle := 30 * units.Degree
	angle += 180 * units.Degree
	for _, v := range []fmt.Stringer{angle, units.Pressure(-118733905.05332365), 27 * units.MetrePerMinute / 7} {
		if text := v.String(); len(text) > 32 || strings.Contains(text, "e+") || strings.Contains(text, "e-") {
			t.Errorf("%q is not easily read", text)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := units.Pressure(rapid.Float64Range(10, 1e10).Draw(t, "v"))
		if text := v.String(); len(text) > 40 || strings.Contains(text, "e") {
			t.Fatalf("%q is not easily read", text)
		}
	})
}

// In is the inverse of multiplying by a unit, in every quantity; the factors are
// held by TestPublishedConversions.
func TestIn(t *testing.T) {
	for name, got := range map[string]float64{
		"angle":                  (3 * units.Degree).In(units.Degree),
		"area":                   (3 * units.SquareInch).In(units.SquareInch),
		"density":                (3 * units.PoundPerCubicFoot).In(units.PoundPerCubicFoot),
		"energy":                 (3 * units.BTU).In(units.BTU),
		"expansion":              (3 * units.PerDegreeFahrenheit).In(units.PerDegreeFahrenheit),
		"force":                  (3 * units.PoundForce).In(units.PoundForce),
		"mass":                   (3 * units.Ounce).In(units.Ounce),
		"power":                  (3 * units.Horsepower).In(units.Horsepower),
		"pressure":               (3 * units.PSI).In(units.PSI),
		"rotational speed":       (3 * units.RevPerMinute).In(units.RevPerMinute),
		"speed":                  (3 * units.FootPerMinute).In(units.FootPerMinute),
		"temperature difference": (3 * units.FahrenheitDifference).In(units.FahrenheitDifference),
		"torque":                 (3 * units.PoundForceInch).In(units.PoundForceInch),
		"volume":                 (3 * units.CubicInch).In(units.CubicInch),
		"volume flow":            (3 * units.CubicFootPerMinute).In(units.CubicFootPerMinute),
	} {
		if math.Abs(got-3) > 1e-12 {
			t.Errorf("%s: three units are %v of the unit", name, got)
		}
	}
}

func ExamplePressure_In() {
	p := 6 * units.Bar
	fmt.Println(p)
	fmt.Printf("%.1f psi\n", p.In(units.PSI))
	// Output:
	// 6 bar
	// 87.0 psi
}

// What a builder writes comes back as it was written, with no tail of digits.
func TestQuantityText(t *testing.T) {
	for want, v := range map[string]fmt.Stringer{
		"26 deg":        26 * units.Degree,
		"0.1 deg":       0.1 * units.Degree,
		"6 bar":         6 * units.Bar,
		"20 °C":         units.Celsius(20),
		"-273.15 °C":    units.Kelvin(0),
		"150 K":         150 * units.KelvinDifference,
		"30 m/min":      30 * units.MetrePerMinute,
		"210 rev/min":   210 * units.RevPerMinute,
		"1.5 N·m":       1.5 * units.NewtonMetre,
		"205000000 bar": 20.5e12 * units.Pascal,
		"1e-07 N":       1e-7 * units.Newton,
		"0 J":           units.Energy(0),
		"0 bar":         units.Pressure(math.Copysign(0, -1)),
	} {
		if got := v.String(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestParseQuantity(t *testing.T) {
	for _, test := range []struct {
		parse string
		got   func(string) (float64, error)
		want  float64
	}{
		{"26°", kinds[0].parse, 26 * math.Pi / 180},
		{"26.5 degrees", kinds[0].parse, 26.5 * math.Pi / 180},
		{"26°30'", kinds[0].parse, 26.5 * math.Pi / 180},
		{"-26° 30' 36\"", kinds[0].parse, -26.51 * math.Pi / 180},
		{"+26°30'", kinds[0].parse, 26.5 * math.Pi / 180},
		{"\u221226°30′36″", kinds[0].parse, -26.51 * math.Pi / 180},
		{"6\u00a0bar", kinds[1].parse, 6e5},
		{"\u22126 bar", kinds[1].parse, -6e5},
		{"  +1.5e2 psi ", kinds[1].parse, 150 * 4.4482216152605 / (0.0254 * 0.0254)},
		{"100psi", kinds[1].parse, 100 * 4.4482216152605 / (0.0254 * 0.0254)},
		{".5 bar", kinds[1].parse, 5e4},
		{"12 lbf ft", kinds[3].parse, 12 * 4.4482216152605 * 0.3048},
		{"12 N m", kinds[3].parse, 12},
		{"600 rpm", kinds[9].parse, 20 * math.Pi},
	} {
		got, err := test.got(test.parse)
		if err != nil || math.Abs(got-test.want) > 1e-13*math.Abs(test.want) {
			t.Errorf("%q = %v, %v; want %v", test.parse, got, err, test.want)
		}
	}
	if v, err := units.ParseTemperature("200 °F"); err != nil || math.Abs(v.Celsius()-93.0+1.0/3-0.6666666667) > 1 || math.Abs(v.Celsius()-93.333333333) > 1e-8 {
		t.Errorf("200 °F = %v, %v", v, err)
	}
	for _, test := range []struct {
		text    string
		parse   func(string) (float64, error)
		err     error
		problem string
	}{
		{"", kinds[1].parse, units.ErrSyntax, "empty"},
		{"6", kinds[1].parse, units.ErrUnknownUnit, "without a unit"},
		{"bar", kinds[1].parse, units.ErrSyntax, "no number"},
		{"6,5 bar", kinds[1].parse, units.ErrSyntax, "comma"},
		{"6 BAR", kinds[1].parse, units.ErrUnknownUnit, `"BAR"`},
		{"6 bar gauge", kinds[1].parse, units.ErrUnknownUnit, `"bar gauge"`},
		{"NaN bar", kinds[1].parse, units.ErrNotFinite, "finite"},
		{"-Inf bar", kinds[1].parse, units.ErrNotFinite, "finite"},
		{"1e999 bar", kinds[1].parse, units.ErrOutOfRange, "too large"},
		{"1e308 GPa", kinds[1].parse, units.ErrOutOfRange, "too large"},
		{"1e-999 bar", kinds[1].parse, units.ErrOutOfRange, "too small"},
		{"1.00000000000000000001e999999999 bar", kinds[1].parse, units.ErrOutOfRange, "too large"},
		{strings.Repeat("9", 65) + " bar", kinds[1].parse, units.ErrSyntax, "64 characters"},
		{"1 000 psi", kinds[1].parse, units.ErrSyntax, "a space in the number"},
		{"1/2 deg", kinds[0].parse, units.ErrSyntax, "inches only"},
		{"26°75'", kinds[0].parse, units.ErrSyntax, "minutes and seconds below 60"},
	} {
		_, err := test.parse(test.text)
		if !errors.Is(err, test.err) || !strings.Contains(err.Error(), test.problem) || !strings.Contains(err.Error(), "accepted: ") {
			t.Errorf("%q: %v", test.text, err)
		}
	}
	for _, text := range []string{"-300 °C", "-1 K", "20"} {
		if _, err := units.ParseTemperature(text); err == nil {
			t.Errorf("%q accepted", text)
		}
	}
	// The accepted units are named as any keyboard has them.
	if _, err := units.ParseTemperature("200"); err == nil || !strings.HasSuffix(err.Error(), "°C (or C, degC), °F (or F, degF), K") {
		t.Errorf("a bare temperature: %v", err)
	}
	// What is quoted of a long text is cut short.
	for _, text := range []string{strings.Repeat("9", 1e6) + " mm", "5 " + strings.Repeat("m", 1e6), strings.Repeat("µ", 1e6)} {
		if _, err := units.ParseLength(text); err == nil || len(err.Error()) > 500 {
			t.Errorf("a long text makes an error of %d bytes", len(err.Error()))
		}
		if _, err := units.ParsePressure(text); err == nil || len(err.Error()) > 500 {
			t.Errorf("a long text makes an error of %d bytes", len(err.Error()))
		}
	}
	for _, unknown := range []encoding.TextMarshaler{units.LengthUnit(-1), units.LengthUnit(5), units.RoundMode(3)} {
		if text, err := unknown.MarshalText(); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "accepted: ") {
			t.Errorf("%v has the text %q, %v", unknown, text, err)
		}
	}
	if text, err := units.Angle(math.MaxFloat64).MarshalText(); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("the largest angle has the text %q, %v", text, err)
	}
	if _, err := units.Pressure(math.NaN()).MarshalText(); !errors.Is(err, units.ErrNotFinite) {
		t.Errorf("marshalling NaN: %v", err)
	}
}

func TestTemperature(t *testing.T) {
	// Common practice: 0, 37 and 100 degrees Celsius are 32, 98.6 and 212 Fahrenheit.
	for c, f := range map[float64]float64{0: 32, 37: 98.6, 100: 212, -40: -40} {
		if got := units.Celsius(c).Fahrenheit(); math.Abs(got-f) > 1e-10 {
			t.Errorf("%v °C = %v °F, want %v", c, got, f)
		}
		if got := units.Fahrenheit(f).Celsius(); math.Abs(got-c) > 1e-10 {
			t.Errorf("%v °F = %v °C, want %v", f, got, c)
		}
	}
	if d := units.Fahrenheit(68).Sub(units.Fahrenheit(32)); math.Abs(float64(d-20)) > 1e-10 {
		t.Errorf("36 °F of difference = %v", d)
	}
	if got := units.Celsius(20).Add(130 * units.KelvinDifference).Celsius(); math.Abs(got-150) > 1e-10 {
		t.Errorf("20 °C + 130 K = %v", got)
	}
}

// Every quantity works as a flag, in JSON and in TOML through its text.
func TestFlagAndJSON(t *testing.T) {
	var v struct {
		Bore     units.Length
		Pressure units.Pressure
		Oven     units.Temperature
		Mode     units.RoundMode
	}
	flags := flag.NewFlagSet("test", flag.ContinueOnError)
	flags.SetOutput(&bytes.Buffer{})
	flags.TextVar(&v.Bore, "bore", units.MM(20), "")
	flags.TextVar(&v.Pressure, "p", 3*units.Bar, "")
	if err := flags.Parse([]string{"-bore", "3/4 in", "-p", "40 psi"}); err != nil {
		t.Fatal(err)
	}
	v.Oven, v.Mode = units.Fahrenheit(400), units.Down
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	back := v
	back.Bore, back.Pressure, back.Oven, back.Mode = units.Length{}, 0, 0, 0
	if err := json.Unmarshal(text, &back); err != nil || back != v {
		t.Errorf("%s: %+v, want %+v (%v)", text, back, v, err)
	}
	if err := json.Unmarshal([]byte(`{"Bore": "20"}`), &back); !errors.Is(err, units.ErrUnknownUnit) || back.Bore != v.Bore {
		t.Errorf("a bare number: %v, %v", err, back.Bore)
	}
	if err := flags.Parse([]string{"-bore", "20"}); err == nil || !strings.Contains(err.Error(), "thou") {
		t.Errorf("a bare number as a flag: %v", err)
	}
}

func FuzzParseQuantity(f *testing.F) {
	for _, seed := range []string{"26 deg", "26°30'", "6 bar", "-1e-3 lbf ft", "1.23456789012345678901 psi", "x", "1 ", "20 °C", "9e999 K"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, k := range kinds {
			v, err := k.parse(s)
			if err != nil {
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %q = %v", k.name, s, v)
			}
			if math.Abs(v) < 1e-290 || math.Abs(v) > 1e290 {
				continue // the printing unit may not hold it
			}
			if back, err := k.parse(k.text(v)); err != nil || back != v {
				t.Fatalf("%s: %q = %v, printed %q, reads back as %v, %v", k.name, s, v, k.text(v), back, err)
			}
		}
		if v, err := units.ParseTemperature(s); err == nil && v < 0 {
			t.Fatalf("%q below absolute zero", s)
		}
	})
}

var _ = []encoding.TextUnmarshaler{new(units.Length), new(units.Angle), new(units.Temperature), new(units.VolumeFlow), new(units.LengthUnit), new(units.RoundMode)}

func TestZeroErrors(t *testing.T) {
	for _, err := range []error{&units.ArgumentError{}, &units.ParseError{}} {
		if err.Error() == "" || errors.Unwrap(err) != nil {
			t.Errorf("%T: %q", err, err)
		}
	}
}
