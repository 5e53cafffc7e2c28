package fits_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
)

func TestParseSized(t *testing.T) {
	for _, test := range []struct {
		text string
		size units.Length
		want string
	}{
		{"25H7/g6", units.MM(25), "H7/g6"},
		{"34 H11/c11", units.MM(34), "H11/c11"},
		{"25.4 mm H7-g6", units.MM(25.4), "H7/g6"},
		{"1/2 in H7 / s6", units.Inch(0.5), "H7/s6"},
		{" 6.35mm C11/h11 ", units.MM(6.35), "C11/h11"},
		{"3m H7/h6", units.MM(3000), "H7/h6"},
		{"\u230025 H7/g6", units.MM(25), "H7/g6"}, // as on a drawing
		{"\u00d8 25H7/g6", units.MM(25), "H7/g6"},
		{"\u00f825H7/g6", units.MM(25), "H7/g6"},
	} {
		f, err := fits.ParseSizedFit(test.text)
		if err != nil || f.Nominal != test.size || f.Fit.String() != test.want {
			t.Errorf("%q: %v, %v", test.text, f, err)
		}
	}
	c, err := fits.ParseSizedClass("16 js6")
	if err != nil || c.Nominal != units.MM(16) || c.Class.String() != "js6" || c.String() != "16 mm js6" {
		t.Errorf("16 js6: %v, %v", c, err)
	}
	for _, text := range []string{
		"", "H7/g6", "25", "25 H7", "25H7/g6x", "25 g6/H7", "25 H7/H6", "-H7", "x H7/g6", strings.Repeat("9", 500),
	} {
		if f, err := fits.ParseSizedFit(text); err == nil || f != (fits.SizedFit{}) {
			t.Errorf("%q: %v, %v", text, f, err)
		}
	}
	// What is wrong behind the size is said, not that it cannot be read.
	for text, want := range map[string]string{
		"25 H19/g6": `tolerance class "H19"`, "25 mm Q7/g6": "no such letter",
		"25H7/g6 or so": `tolerance class "g6 or so"`, "25 H7": "not a hole and a shaft",
		"25,4 H7/g6": "cannot be read", "25mm": "cannot be read",
	} {
		if _, err := fits.ParseSizedFit(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	for _, text := range []string{"", "H7", "H7/", "/g6", "g6/H7", "H7/H7", "H7:g6"} {
		if f, err := fits.ParseFit(text); err == nil || f != (fits.Fit{}) {
			t.Errorf("%q: %v", text, f)
		}
	}
}

// Whatever has a name goes out as text and comes back the same, and text that is
// none leaves what was there.
func TestTextRoundTrips(t *testing.T) {
	fit, err := fits.ParseFit("H7/g6")
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, fits.IT01)
	roundTrip(t, fits.Grade(7))
	roundTrip(t, class(t, "JS6"))
	roundTrip(t, fit)
	roundTrip(t, inchFit(t, "FN2"))
	roundTrip(t, fits.SizedFit{Nominal: units.MM(25), Fit: fit})
	roundTrip(t, fits.SizedClass{Nominal: units.Inch(0.5), Class: class(t, "JS6")})
	roundTrip(t, fits.SizedFit{})
	roundTrip(t, fits.SizedClass{})
	roundTrip(t, fits.Transition)
	roundTrip(t, fits.Shaft)
	roundTrip(t, fits.ShaftBasis)
	roundTrip(t, fits.Class{}) // and the zero values
	roundTrip(t, fits.Fit{})
	roundTrip(t, fits.InchFit{})
	roundTrip(t, fits.Kind(0))
	roundTrip(t, fits.Feature(0))
	roundTrip(t, fits.Basis(0))
	roundTrip(t, fits.Grade(0))
	for _, bad := range []encoding.TextMarshaler{
		fits.Fit{Hole: fit.Shaft, Shaft: fit.Hole}, fits.Fit{Hole: fit.Hole},
		fits.SizedFit{Fit: fits.Fit{Hole: fit.Shaft, Shaft: fit.Hole}},
		fits.Grade(19), fits.Kind(9), fits.Feature(9), fits.Basis(9),
	} {
		if text, err := bad.MarshalText(); !errors.Is(err, units.ErrUnknown) {
			t.Errorf("%#v goes out as %q, %v", bad, text, err)
		}
	}
}

// The same text is caught by one type, with what it may have meant.
func TestParseErrors(t *testing.T) {
	_, sized := fits.ParseSizedFit("25 nonsense of 3")
	_, unreadable := fits.ParseSizedClass("twenty")
	_, class := fits.ParseClass("Js6")
	_, turned := fits.ParseFit("g6/H7")
	_, inch := fits.ParseInchFit("ln9")
	_, grade := fits.ParseGrade("7")
	_, kind := fits.ParseKind("loose")
	_, topic := fits.RulesFor("boiler")
	for _, test := range []struct {
		err  error
		near string
	}{
		{sized, ""}, {unreadable, ""}, {class, "JS6, js6"}, {turned, "H7/g6"}, {inch, "LN1, LN2, LN3"},
		{grade, "IT7"}, {kind, ""}, {topic, ""},
	} {
		var parse *units.ParseError
		if !errors.As(test.err, &parse) || parse.Package != "fits" || parse.Accepted == "" ||
			strings.Join(parse.Near, ", ") != test.near {
			t.Errorf("%v, near %q; want near %q", test.err, parse, test.near)
		}
	}
}

// A zero result can be kept as JSON and read back, as can one with everything.
func TestResultsReadBack(t *testing.T) {
	fit, err := fits.ParseFit("H7/g6")
	if err != nil {
		t.Fatal(err)
	}
	whole, err := fit.LimitsFor(units.MM(25))
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []fits.FitLimits{{}, whole} {
		data, err := json.Marshal(from)
		var back fits.FitLimits
		if err != nil || json.Unmarshal(data, &back) != nil || !cmp.Equal(from, back, lengths) {
			t.Errorf("%s, %v: %s", data, err, cmp.Diff(from, back, lengths))
		}
	}
	for _, zero := range []any{
		&fits.Limits{}, &fits.Tolerance{}, &fits.InchLimits{}, &fits.Choice{}, &fits.InchChoice{}, &fits.ReamerChoice{},
		&fits.Rule{}, &fits.AsCut{}, &fits.StackResult{}, &fits.Measurable{}, &fits.Gauges{}, &fits.Band{},
		&fits.PreferredFit{},
	} {
		data, err := json.Marshal(zero)
		if err != nil {
			t.Errorf("%T: %v", zero, err)
			continue
		}
		if err := json.Unmarshal(data, zero); err != nil {
			t.Errorf("%T: %s: %v", zero, data, err)
		}
	}
}

func roundTrip[T comparable, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, v T) {
	t.Helper()
	text, err := any(v).(encoding.TextMarshaler).MarshalText()
	if err != nil {
		t.Errorf("%v: %v", v, err)
	}
	var back T
	if err := P(&back).UnmarshalText(text); err != nil || back != v {
		t.Errorf("%q came back as %v, %v", text, back, err)
	}
	if err := P(&back).UnmarshalText([]byte("no such thing")); !errors.Is(err, units.ErrUnknown) && !errors.Is(err, units.ErrSyntax) || back != v {
		t.Errorf("%T: no such thing read as %v, %v", v, back, err)
	}
}

func TestNames(t *testing.T) {
	for _, k := range fits.Kinds() {
		if back, err := fits.ParseKind(k.String()); err != nil || back != k {
			t.Error(k, back, err)
		}
	}
	for i, g := range fits.Grades() {
		if back, err := fits.ParseGrade(g.String()); err != nil || back != g || g != fits.IT01+fits.Grade(i) {
			t.Error(g, back, err)
		}
	}
	if n := len(fits.Grades()); n != 20 {
		t.Errorf("%d grades, want 20", n)
	}
	for _, f := range fits.Features() {
		if back, err := fits.ParseFeature(f.String()); err != nil || back != f {
			t.Error(f, back, err)
		}
	}
	if _, err := fits.ParseKind("none"); err == nil {
		t.Error("none is not a kind to ask for")
	}
	if got := fits.Kind(9).String(); got != "Kind(9)" {
		t.Error(got)
	}
	var g fits.Grade
	if err := g.UnmarshalText([]byte("it01")); err != nil || g != fits.IT01 {
		t.Error(g, err)
	}
	if class(t, "H7").Feature() != fits.Hole || class(t, "h7").Feature() != fits.Shaft ||
		(fits.Class{}).Feature() != 0 || (fits.Class{}).String() != "" {
		t.Error("features")
	}
}

// A struct with a class that was left out survives JSON: the zero class of
// Reaming.Hole stands for H7.
func TestBlankClassReadsBack(t *testing.T) {
	data, err := json.Marshal(fits.Reaming{Shaft: fits.Exact(units.MM(6))})
	if err != nil {
		t.Fatal(err)
	}
	h8, err := fits.ParseClass("H8")
	if err != nil {
		t.Fatal(err)
	}
	back := fits.Reaming{Hole: h8}
	if err := json.Unmarshal(data, &back); err != nil || back.Hole != (fits.Class{}) ||
		!cmp.Equal(back.Shaft, fits.Exact(units.MM(6)), lengths) {
		t.Errorf("%s came back as %+v, %v", data, back, err)
	}
	fit := fits.InchFits()[0]
	if err := fit.UnmarshalText(nil); err != nil || fit != (fits.InchFit{}) {
		t.Errorf("blank is %v, %v", fit, err)
	}
}

func FuzzParseSizedFit(f *testing.F) {
	for _, s := range []string{"25H7/g6", "34 H11/c11", "1/2 in H7-g6", "3m H7/h6", "H7/g6", "µH7/g6"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fit, err := fits.ParseSizedFit(s)
		if err != nil {
			var parse *units.ParseError
			if !errors.As(err, &parse) {
				t.Errorf("%q: %v", s, err)
			}
			return
		}
		again, err := fits.ParseSizedFit(fit.String())
		if err != nil || again != fit {
			t.Errorf("%q is %v, which reads as %v, %v", s, fit, again, err)
		}
	})
}

func FuzzParseSizedClass(f *testing.F) {
	for _, s := range []string{"25H7", "34 js11", "1/2 in H7", "3m h6", "H7", "\u23005 ZC9"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { readsBack(t, s, fits.ParseSizedClass) })
}

func FuzzParseInchFit(f *testing.F) {
	for _, s := range []string{"RC4", "fn 2", "LC11", "LT7", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { readsBack(t, s, fits.ParseInchFit) })
}

func FuzzParseGrade(f *testing.F) {
	for _, s := range []string{"IT7", "it01", "IT0", "IT19", "7", "IT+7"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { readsBack(t, s, fits.ParseGrade) })
}

// readsBack is what every parser owes: an error of the one type, or a value that
// reads back as itself.
func readsBack[T interface {
	comparable
	String() string
}](t *testing.T, s string, read func(string) (T, error)) {
	v, err := read(s)
	if err != nil {
		var parse *units.ParseError
		if !errors.As(err, &parse) || parse.Accepted == "" && len(parse.Near) == 0 {
			t.Errorf("%q: %v", s, err)
		}
		return
	}
	if back, err := read(v.String()); err != nil || back != v {
		t.Errorf("%q is %v, which reads as %v, %v", s, v, back, err)
	}
}
