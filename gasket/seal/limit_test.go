package seal

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

func TestCheckMaterial(t *testing.T) {
	steam := Service{Medium: Steam, Pressure: 4 * units.Bar}
	for _, test := range []struct {
		material string
		service  Service
		want     []string // part of each finding, in order
	}{
		// 152 degrees at 4 bar: both sources on paper object, and practice differs
		{"paper", steam, []string{"does not last at 152 °C: 121 °C", "guide limit of 121 °C", "guide limit of 100 °C", "guide limit of 1 bar", "have always had"}},
		{"paper", Service{Medium: Steam}, nil}, // 99.97 degrees
		// 134 degrees at 2 bar: short-lived, as practice has it
		{"paper", Service{Medium: Steam, Pressure: 2 * units.Bar}, []string{"guide limit of 121 °C", "guide limit of 100 °C", "guide limit of 1 bar", "have always had"}},
		{"flexible graphite sheet", steam, nil},
		{"flexible graphite sheet", Service{Medium: Steam, Temperature: units.Celsius(400)}, []string{"guide limit of 399 °C in steam; here it is 400 °C"}},
		{"jointing without asbestos", steam, nil},
		{"jointing without asbestos", Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Celsius(250)}, []string{"guide limit of 230 °C in steam"}},
		{"jointing without asbestos", Service{Medium: Air, Pressure: 4 * units.Bar, Temperature: units.Celsius(250)}, nil},
		{"FKM rubber", steam, []string{"FKM rubber is not for steam"}},
		{"EPDM rubber", Service{Medium: Steam, Pressure: 3 * units.Bar}, nil},
		{"EPDM rubber", Service{Medium: Steam, Pressure: 3 * units.Bar, Oiled: true}, []string{"does not stand oil"}},
		// annealed copper, as some bed the cylinder on the boiler
		{"soft copper", Service{Medium: Steam, Pressure: 7 * units.Bar, Oiled: true}, nil},
		{"soft brass", Service{Medium: Steam, Temperature: units.Celsius(300)}, []string{"guide limit of 260 °C"}},
		{"EPDM rubber", Service{Medium: Steam, Pressure: 5 * units.Bar}, []string{"guide limit of 150 °C; here it is 159 °C", "guide limit of 150 °C in steam; here it is 159 °C"}},
		{"EPDM rubber", Service{Medium: Oil, Temperature: units.Celsius(20)}, []string{"does not stand oil"}},
		{"nitrile rubber", Service{Medium: Oil, Temperature: units.Celsius(120)}, nil},
		{"nitrile rubber", Service{Medium: Steam}, []string{"not for steam"}},
		{"FKM rubber", Service{Medium: Air, Temperature: units.Celsius(201)}, []string{"guide limit of 200 °C; here it is 201 °C"}},
		{"silicone rubber", steam, []string{"guide limit of 130 °C in steam", "guide limit of 120 °C in steam"}},
		// superheated, and saturated to the rounding of a steam table
		{"jointing without asbestos", Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Celsius(151.9)}, nil},
		{"PTFE sheet", Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Celsius(261)}, []string{"guide limit of 260 °C"}},
		{"rubber", Service{Medium: Water, Pressure: 5 * units.Bar, Temperature: units.Celsius(20)}, []string{"guide limit of 4 bar"}},
	} {
		fs, err := Check(of(t, test.material), test.service)
		if err != nil {
			t.Fatal(err)
		}
		// each of them in this order; a further source may have more to say
		left, ok := test.want, test.want != nil || fs == nil
		for _, f := range fs {
			ok = ok && !f.Refs.IsZero() && f.Code == GasketMaterial
			if len(left) > 0 && strings.Contains(f.Text, left[0]) {
				left = left[1:]
			}
		}
		if !ok || len(left) > 0 {
			t.Errorf("%s, %+v: %+v; want %q", test.material, test.service, fs, test.want)
		}
	}
	for _, test := range []struct {
		material string
		service  Service
		worst    finding.Severity
	}{
		{"oiled paper", Service{Medium: Steam, Pressure: 2 * units.Bar, Oiled: true}, finding.Caution}, // a guide limit: short-lived
		{"oiled paper", Service{Medium: Steam, Pressure: 3 * units.Bar, Oiled: true}, finding.Caution}, // 144 °C
		{"oiled paper", steam, finding.Fails}, // 152 °C, 31 above the highest
		{"soft copper", Service{Medium: Steam, Temperature: units.Celsius(300)}, finding.Caution},
		{"nitrile rubber", Service{Medium: Steam}, finding.Fails},
		{"FKM rubber", steam, finding.Fails},
		{"silicone rubber", Service{Medium: Steam, Oiled: true}, finding.Caution},
	} {
		fs, err := Check(of(t, test.material), test.service)
		if worst, any := fs.Worst(); err != nil || !any || worst != test.worst {
			t.Errorf("%s: %v, %v, want %v", test.material, fs, err, test.worst)
		}
	}
}

func TestCheckRefuses(t *testing.T) {
	second := check.Only
	paper := of(t, "paper")
	check.Refuses(t, "no limits", second(Check(of(t, "gunmetal"), Service{Medium: Steam})), units.ErrUnknown, "oiled paper")
	check.Refuses(t, "no material", second(Check(material.Material{}, Service{Medium: Steam})), units.ErrMissing, "oiled paper")
	check.Refuses(t, "no such medium", second(Check(paper, Service{Medium: 9, Temperature: 300})), units.ErrUnknown, "steam, air, water, oil")
	check.Refuses(t, "no medium", second(Check(paper, Service{Temperature: 300})), units.ErrMissing, "steam, air, water or oil")
	check.Refuses(t, "how hot", second(Check(paper, Service{Medium: Air})), units.ErrMissing, "temperature of the air")
	check.Refuses(t, "vacuum", second(Check(paper, Service{Medium: Steam, Pressure: -1})), units.ErrOutOfRange, "pressure")
	check.Refuses(t, "beyond the boiler", second(Check(paper, Service{Medium: Steam, Pressure: 201 * units.Bar})), units.ErrOutOfRange, "0 to 200 bar")
	check.Refuses(t, "too cold", second(Check(paper, Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Celsius(120)})), units.ErrOutOfRange, "temperature of the steam 120 °C")
	check.Refuses(t, "a little cold", second(Check(paper, Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Celsius(150)})), units.ErrOutOfRange, "151.9 °C, or more")
	check.Refuses(t, "not a number", second(Check(paper, Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: units.Temperature(math.NaN())})), units.ErrNotFinite, "temperature")
	check.Refuses(t, "endless", second(Check(paper, Service{Medium: Water, Temperature: units.Temperature(math.Inf(1))})), units.ErrNotFinite, "temperature")
	check.Refuses(t, "colder than can be", second(Check(paper, Service{Medium: Water, Temperature: -1})), units.ErrOutOfRange, "above absolute zero")
}

// Asbestos has no name here, and is refused with the reason where names are read.
func TestAsbestos(t *testing.T) {
	var bad *units.ParseError
	if _, err := material.Lookup("asbestos sheet"); !errors.As(err, &bad) || !strings.Contains(err.Error(), "never use it") {
		t.Errorf("asbestos: %v", err)
	}
	p := Precautions()
	if len(p) != 1 || p[0].Code != OldAsbestos || p[0].Ref != source.Practice() || !strings.Contains(p[0].Text, "damp") {
		t.Errorf("the precaution does not say what to do: %+v", p)
	}
}

// An open limit is not a limit of nought.
func TestOpenLimits(t *testing.T) {
	rows, err := LimitsFor(of(t, "cork"))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(rows[0])
	if err != nil || strings.Contains(string(text), "Pressure") || strings.Contains(string(text), "Steam\":\"") || !strings.Contains(string(text), "135 °C") {
		t.Errorf("%s, %v", text, err)
	}
	for _, zero := range []any{&Limit{}, &Groove{}, &Service{}, &Seat{}, &Packing{}, &Change{}, &Ring{}, &Factor{}, &Sheet{}} {
		text, err := json.Marshal(zero)
		if err != nil || json.Unmarshal(text, zero) != nil {
			t.Errorf("%T: %s, %v", zero, text, err)
		}
	}
}

func TestTexts(t *testing.T) {
	roundTrip(t, ParseMedium, Media()...)
	roundTrip(t, ParseDuty, Duties()...)
	roundTrip(t, ParsePlace, Places()...)
	var m Medium
	var bad *units.ParseError
	if err := m.UnmarshalText([]byte("gravy")); !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "steam, air, water, oil") {
		t.Errorf("gravy: %v", err)
	}
	if _, err := Medium(9).MarshalText(); !errors.Is(err, units.ErrUnknown) || Medium(9).String() != "Medium(9)" {
		t.Errorf("medium 9: %v, %v", Medium(9), err)
	}
}

func roundTrip[T interface {
	comparable
	MarshalText() ([]byte, error)
}, P interface {
	*T
	UnmarshalText([]byte) error
}](t *testing.T, parse func(string) (T, error), values ...T) {
	t.Helper()
	for _, v := range values {
		text, err := v.MarshalText()
		var back T
		if err != nil || P(&back).UnmarshalText(text) != nil || back != v {
			t.Errorf("%v came back as %v", v, back)
		}
		if back, err = parse(string(text)); err != nil || back != v {
			t.Errorf("%s is %v, %v", text, back, err)
		}
	}
}

var findings finding.List

func BenchmarkCheck(b *testing.B) {
	paper := of(b, "paper")
	for b.Loop() {
		fs, err := Check(paper, Service{Medium: Steam, Pressure: 4 * units.Bar})
		if err != nil {
			b.Fatal(err)
		}
		findings = fs
	}
}

// What suits is named, and nothing is named that a source objects to.
func TestSuits(t *testing.T) {
	hot, err := Check(of(t, "oiled paper"), Service{Medium: Steam, Pressure: 4 * units.Bar, Oiled: true})
	if err != nil || len(hot) == 0 || len(hot[0].Remedies) != 1 {
		t.Fatal(hot, err)
	}
	for name, want := range map[string]bool{
		"jointing without asbestos": true, "flexible graphite": true, "PTFE": true, "soft copper": true,
		"EPDM": false, "paper": false, "FKM": false, "silicone": false, "cork": false, "soft iron": false,
	} {
		if got := strings.Contains(hot[0].Remedies[0], name); got != want {
			t.Errorf("%s: %v in %s", name, got, hot[0].Remedies[0])
		}
	}
	// 600 °C is beyond all of them
	if fs, err := Check(of(t, "PTFE"), Service{Medium: Air, Temperature: units.Celsius(600)}); err != nil || len(fs) != 1 || fs[0].Remedies != nil {
		t.Error(fs, err)
	}
}

func TestSeatedBy(t *testing.T) {
	warm, hot := Service{Medium: Steam, Pressure: 0.9 * units.Bar, Oiled: true}, Service{Medium: Steam, Pressure: 4 * units.Bar, Oiled: true}
	for _, test := range []struct {
		stress units.Pressure
		in     Service
		want   string
	}{
		{2 * units.Megapascal, warm, ""},
		{8 * units.Megapascal, warm, "paper, oiled paper"}, // 118 °C: 121 by one source, 100 by another
		{8 * units.Megapascal, Service{Medium: Air, Temperature: units.Celsius(60), Pressure: 1 * units.Bar, Oiled: true}, "rubber, FKM rubber, nitrile rubber, rubber with cloth, paper, oiled paper"},
		// 400 psi, but for water and air; 1100 psi: vegetable fibre
		{8 * units.Megapascal, Service{Medium: Water, Temperature: units.Celsius(20)}, "rubber, EPDM rubber, FKM rubber, nitrile rubber, silicone rubber, rubber with cloth, paper, oiled paper"},
		{8 * units.Megapascal, Service{Medium: Steam, Oiled: true}, "paper, oiled paper"}, // 100 °C
		{8 * units.Megapascal, hot, ""},
		{12 * units.Megapascal, hot, "PTFE"},                                                                        // 1650 psi
		{18 * units.Megapascal, hot, "PTFE, jointing without asbestos, flexible graphite"},                          // 1800 and 2500 psi
		{32 * units.Megapascal, hot, "PTFE, jointing without asbestos, flexible graphite, soft copper, soft brass"}, // corrugated: 3700 psi
	} {
		rows, err := SeatedBy(test.stress, test.in)
		if err != nil {
			t.Fatal(err)
		}
		// those in this order; a further row may seat another material
		var left []string
		if test.want != "" {
			left = strings.Split(test.want, ", ")
		}
		for i, f := range rows {
			if len(left) > 0 && f.Material == left[0] {
				left = left[1:]
			}
			if f.Y <= 0 || f.Y > test.stress || f.Refs.IsZero() || i > 0 && f.Y < rows[i-1].Y || test.want == "" {
				t.Errorf("%v: %+v", test.stress, f)
			}
			for _, other := range rows[:i] {
				if other.Material == f.Material {
					t.Errorf("%v: %s is named twice", test.stress, f.Material)
				}
			}
			if most, _ := mostOf(mustLimits(t, f.Material), test.in); most == 0 {
				t.Errorf("%v: %s has no limit for %v", test.stress, f.Material, test.in.Medium)
			}
		}
		if len(left) > 0 {
			t.Errorf("%v: %v; %v is missing", test.stress, rows, left)
		}
	}
	for _, test := range []struct {
		stress units.Pressure
		in     Service
		not    string
	}{
		{32 * units.Megapascal, hot, "paper"}, {32 * units.Megapascal, hot, "FKM rubber"}, {10 * units.Megapascal, hot, "PTFE"},
		{32 * units.Megapascal, hot, "EPDM rubber"}, {5 * units.Megapascal, warm, "paper"}, {32 * units.Megapascal, hot, "soft iron"},
	} {
		rows, err := SeatedBy(test.stress, test.in)
		if err != nil || slices.ContainsFunc(rows, func(f Factor) bool { return f.Material == test.not }) {
			t.Errorf("%v: %s does not belong in %v, %v", test.stress, test.not, rows, err)
		}
	}
	second := check.Only
	check.Refuses(t, "no stress", second(SeatedBy(0, hot)), units.ErrOutOfRange, "stress that seats the gasket")
	check.Refuses(t, "no medium", second(SeatedBy(1, Service{})), units.ErrMissing, "steam, air, water or oil")
}

func mustLimits(t *testing.T, name string) []Limit {
	t.Helper()
	rows, err := LimitsFor(of(t, name))
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// At a limit nothing is said, and above it something is; fibre fails when it is more than
// 25 degrees above the highest of its limits, which is 121 °C.
func TestCheckAtTheLimits(t *testing.T) {
	for _, test := range []struct {
		material      string
		pressure, at  float64 // bar, °C
		want          bool
		text, another string
	}{
		{"rubber", 4, 121, false, "guide limit", ""},
		{"rubber", 4.01, 121, true, "guide limit of 4 bar", "guide limit of 121"},
		{"rubber", 4, 121.6, true, "guide limit of 121 °C", "guide limit of 4 bar"},
		{"paper", 0, 146, true, "guide limit of 121 °C", "does not last"},
		{"paper", 0, 146.1, true, "does not last", ""},
	} {
		fs, err := Check(of(t, test.material), Service{Medium: Water, Pressure: units.Pressure(test.pressure) * units.Bar, Temperature: units.Celsius(test.at)})
		var text []string
		for _, f := range fs {
			text = append(text, f.Text)
		}
		all := strings.Join(text, "\n")
		if err != nil || strings.Contains(all, test.text) != test.want || test.another != "" && strings.Contains(all, test.another) {
			t.Errorf("%s at %g bar and %g °C: %s, %v", test.material, test.pressure, test.at, all, err)
		}
	}
	// a whole degree below saturated steam may be the rounding of a table, more is not
	paper := of(t, "paper")
	saturated, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	for below, want := range map[units.Temperature]bool{0: true, 0.99: true, 1.01: false} {
		if _, err := Check(paper, Service{Medium: Steam, Pressure: 4 * units.Bar, Temperature: saturated.Temperature - below}); (err == nil) != want {
			t.Errorf("%v K below saturated steam: %v", float64(below), err)
		}
	}
	for _, crush := range []float64{0, 0.899} {
		if _, err := Squeezed(units.MM(1), crush); err != nil {
			t.Errorf("crush %g: %v", crush, err)
		}
	}
}

// What is named in the place of a material is itself objected to by nothing.
func TestNamedInstead(t *testing.T) {
	named := 0
	for _, bar := range []float64{0, 1, 2, 4, 7, 10} {
		s := Service{Medium: Steam, Pressure: units.Pressure(bar) * units.Bar, Oiled: bar > 2}
		for _, l := range limits.all() {
			list, err := Check(material.Material{Name: l.Material}, s)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range list {
				for _, remedy := range f.Remedies {
					_, names, _ := strings.Cut(strings.TrimSuffix(remedy, "."), ": ")
					for name := range strings.SplitSeq(names, ", ") {
						named++
						if other, err := Check(material.Material{Name: name}, s); err != nil || len(other) > 0 {
							t.Errorf("%g bar, for %s: %s, of which %v (%v)", bar, l.Material, name, other, err)
						}
					}
				}
			}
		}
	}
	if named < 100 {
		t.Errorf("%d materials named", named)
	}
}
