package inch

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

func TestText(t *testing.T) {
	for text, want := range map[string]string{
		// Pairs are turned round, from a tenth of an inch on into inches.
		"by 0.07 mm (2.7 thou) away":          "by 2.7 thou (0.07 mm) away",
		"-0.24 mm (-9.4 thou)":                "-9.4 thou (-0.24 mm)",
		"6.7 mm (263.9 thou) on a shaft":      "0.2639 in (6.7 mm) on a shaft",
		"0.8 mm (1/32 in) wide":               "1/32 in (0.8 mm) wide",
		"0.02 to 0.05 mm (1 to 2 thou)":       "1 to 2 thou (0.02 to 0.05 mm)",
		"34.925 mm (1 3/8 in)":                "1 3/8 in (34.925 mm)",
		"at 5.5 mm/min, 0.22 in/min":          "at 0.22 in/min, 5.5 mm/min",
		"24.1 m/s (4752 ft/min: inspectors)":  "4752 ft/min (24.1 m/s: inspectors)",
		"facing 100.000 mm (3.9370 in), skin": "facing 3.9370 in (100.000 mm), skin",
		"4 bar (58 psi) above the air":        "58 psi (4 bar) above the air",
		"0.51 mm, 20 thou":                    "20 thou, 0.51 mm",
		"20 degrees C (68 degrees F)":         "68 degrees F (20 degrees C)",
		// What is turned round stays, and so does what was never metric.
		"2.7 thou (0.07 mm)":                  "2.7 thou (0.07 mm)",
		"below 3/32 in (2.38 mm) a hole":      "below 3/32 in (2.38 mm) a hole",
		"4000 ft/min (20 m/s)":                "4000 ft/min (20 m/s)",
		"M3x0.5 in cast iron, ISO 273, H7/g6": "M3x0.5 in cast iron, ISO 273, H7/g6",
		`accepted: "20 mm", "3/4 in"`:         `accepted: "20 mm", "3/4 in"`,
		"drills 1-13x0.1 mm":                  "drills 1-13x0.1 mm",
		"10.4 ppm/K x 40 K":                   "10.4 ppm/K x 40 K",
		"a pair that is none: 5 mm (3 thou)":  "a pair that is none: 0.197 in (3 thou)",
		"300 rev/min, 26 deg":                 "300 rev/min, 26 deg",
		"":                                    "",
		"Leads in mm, cut-off in %":           "Leads in inches, cut-off in %",
		"of the stroke and in millimetres; c": "of the stroke and in inches; c",
		"19 times sqrt(d in mm)":              "19 times sqrt(d in mm)",
		// Metric alone: with no more digits than it has.
		"0.27 mm":              "11 thou",
		"0.02 mm":              "0.8 thou",
		"0.012 mm":             "0.5 thou",
		"+0.272 mm":            "+10.7 thou",
		"4.28 mm from the end": "0.169 in from the end",
		"4.285 mm.":            "0.1687 in.",
		"9.525 mm":             "3/8 in",
		"6.35 mm":              "1/4 in",
		"at 9.6, 14.4 mm deep": "at 0.378, 0.567 in deep",
		"9 to 18 mm":           "0.354 to 0.709 in",
		"0 mm":                 "0 thou",
		"-0.30 mm":             "-12 thou",
		"4 bar":                "58 psi",
		"1.01325 bar":          "14.696 psi",
		"12.4 MPa":             "1800 psi",
		"100 N and 0.53 N m":   "22 lbf and 4.7 lbf in",
		"25 m/s":               "4920 ft/min",
		"20 to 100 degrees C":  "68 to 212 degrees F",
		"-10 degC":             "14 degF",
		"0.98 g":               "0.035 oz",
		"0.5 kg of iron":       "1.1 lb of iron",
		"18 um lost":           "0.71 thou lost",
		"1018 mm2":             "1.578 in2",
	} {
		if got := Text(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Once turned round a text stays, every digit of another unit stays, and a length
// is as near as its digits tell.
func TestTextRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 4).Draw(t, "places")
		l := units.Picometres(rapid.Int64Range(-200e9, 200e9).Draw(t, "length"))
		metric := l.Decimal(units.Millimetres, places)
		got := Text("x " + metric + " mm; 7.200 deg")
		if again := Text(got); again != got {
			t.Fatalf("%q, and again %q", got, again)
		}
		number, ok := strings.CutSuffix(strings.TrimPrefix(got, "x "), "; 7.200 deg")
		if !ok {
			t.Fatal(got)
		}
		back, err := units.ParseLength(number)
		if err != nil {
			t.Fatal(err)
		}
		shown, _ := units.Millimetres.Parse(metric)
		// Half a thou is the coarsest step, but for what was printed with more places.
		most := units.Thou(0.5)
		if places > 2 {
			most = units.Thou(0.05)
		}
		if back.Sub(shown).Abs().Cmp(most) > 0 {
			t.Errorf("%s mm: %s", metric, number)
		}
	})
}

func TestOf(t *testing.T) {
	for _, row := range []struct {
		text, want string
		values     []float64
	}{
		{"2.00 bar", "29.0 psi", []float64{2}},
		{"11 N", "2.4 lbf", []float64{10.51}},
		{"-0.088 N m", "-0.78 lbf in", []float64{-0.0880}},
		{"+0.0100 mm", "+0.00039 in", []float64{0.01}},
		{"1.43 mm", "56.3 thou", []float64{1.4299}},
		{"8.45 to 11.41 W", "0.01134 to 0.01530 hp", []float64{8.454, 11.408}},
		{"2.00 bar", "29.0 psi", []float64{3}}, // not its value
		{"by feel", "by feel", nil},
	} {
		if got := Of(row.text, row.values...); got != row.want {
			t.Errorf("%q: %q, want %q", row.text, got, row.want)
		}
	}
	if got, ok := Bare("0.272", 0.2721, "mm"); got != "0.0107" || !ok {
		t.Error(got, ok)
	}
	if got, ok := Bare("-0.100", -0.1, "mm"); got != "-0.0039" || !ok {
		t.Error(got, ok)
	}
	if _, ok := Bare("12", 14, "mm"); ok {
		t.Error("another value was taken")
	}
}

// Nothing that a file may name stops it, and what has no figure stays.
func FuzzText(f *testing.F) {
	for _, text := range []string{"0.07 mm (2.7 thou)", "1/0 in (3 mm)", "9999999999999999999999 mm", "+- 1 mm", `"3 mm`, "1 2/3 mm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got := Text(text)
		if Text(got) != Text(Text(got)) {
			t.Errorf("%q: %q does not settle", text, got)
		}
	})
}
