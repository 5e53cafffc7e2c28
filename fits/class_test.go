package fits_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func class(t testing.TB, s string) fits.Class {
	t.Helper()
	c, err := fits.ParseClass(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// sizes returns nominal sizes of a range, over the first up to the second: just
// above its lower end, in its middle and at its upper end.
func sizes(over, upto float64) []units.Length {
	lo := units.MM(over).Add(units.Picometres(1))
	if over == 0 {
		lo = units.MM(upto).Scale(0.4) // above 1 mm, below which classes end
	}
	return []units.Length{lo, units.MM((over + upto) / 2), units.MM(upto)}
}

func TestLimits(t *testing.T) {
	f := check.Open(t, "fits/limits.csv")
	for r := range f.Rows() {
		c := class(t, r.Text("class"))
		switch r.Optional("note") {
		case "misprint", "older IT5":
			r.Skip(r.Text("note") + ", stands in errata.csv")
			continue
		}
		for _, nominal := range sizes(r.Float("over_mm"), r.Float("upto_mm")) {
			l, err := c.LimitsFor(nominal)
			if err != nil {
				t.Errorf("%s at %v: %v", c, nominal, err)
				continue
			}
			if r.Has("note") { // halves rounded to whole micrometres
				whole := fits.Limits{Nominal: nominal, Min: l.Min, Max: l.Max}
				lo, hi, err := units.RoundInward(whole.Lower(), whole.Upper(), units.Micron(1))
				if err != nil {
					t.Fatal(err)
				}
				r.Within("lower_um", lo.Micron(), 0)
				r.Within("upper_um", hi.Micron(), 0)
				continue
			}
			r.Within("lower_um", l.Lower().Micron(), 0)
			r.Within("upper_um", l.Upper().Micron(), 0)
		}
	}
}

func TestClassErrors(t *testing.T) {
	for text, problem := range map[string]string{
		"":           "empty",
		"7":          "no letter",
		"H":          "no grade",
		"H19":        "no grade",
		"H001":       "no grade",
		"H07":        "no grade",
		"L7":         "no such letter",
		"Js6":        "hole or shaft",
		"zd9":        "no such letter",
		"H7/g6":      "no grade",
		"H7 please":  "no grade",
		"H-7":        "no grade",
		"\u00c47":    "no letter",
		"abcdefgh7":  "no such letter",
		"hundred 99": "no such letter",
	} {
		_, err := fits.ParseClass(text)
		if !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), problem) {
			t.Errorf("%q: %v, want %q", text, err, problem)
		}
	}
	for _, test := range []struct{ class, size, accepted string }{
		{"H7", "0 mm", "3150 mm"},
		{"H7", "-1 mm", "3150 mm"},
		{"H7", "3150.000000001 mm", "3150 mm"},
		{"H14", "1 mm", "over 1 mm"},
		{"h01", "501 mm", "IT1"},
		{"a11", "1 mm", "over 1 mm"},
		{"B9", "0.5 mm", "over 1 mm"},
		{"N9", "1 mm", "IT8"},
		{"t6", "24 mm", "over 24 mm"},
		{"T6", "24 mm", "over 24 mm"},
		{"v6", "14 mm", "over 14 mm"},
		{"y6", "18 mm", "over 18 mm"},
		{"zc6", "501 mm", "500 mm"},
		{"a9", "501 mm", "over 1 mm up to 500 mm"},
		{"J8", "501 mm", "over 0 mm up to 500 mm"},
		{"j8", "501 mm", "over 0 mm up to 3 mm"},
		{"cd6", "11 mm", "10 mm"},
		{"FG6", "11 mm", "10 mm"},
		{"j8", "4 mm", "3 mm"},
		{"j4", "4 mm", "js"},
		{"J9", "4 mm", "JS"},
		{"J7", "600 mm", "500 mm"},
		{"K9", "10 mm", "K8"},
		{"P2", "10 mm", "IT3"},
		{"P5", "600 mm", "IT6"},
	} {
		_, err := class(t, test.class).LimitsFor(units.MustLength(test.size))
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(bad.Accepted, test.accepted) {
			t.Errorf("%s at %s: %v, want one that accepts %q", test.class, test.size, err, test.accepted)
		}
	}
	if _, err := (fits.Class{}).LimitsFor(units.MM(5)); !errors.Is(err, units.ErrMissing) {
		t.Error("the zero class has limits", err)
	}
	if _, err := fits.Grade(19).ToleranceFor(units.MM(5)); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	if _, err := fits.ParseGrade("7"); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

// Every class either has limits at a size, with the tolerance of its grade
// between them and a source for its figures, or an error that says why not.
func TestClassProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		letter := rapid.SampledFrom(fits.Letters).Draw(t, "letter")
		g := fits.Grade(rapid.IntRange(-1, 18).Draw(t, "grade"))
		digits := strings.TrimPrefix(g.String(), "IT")
		nominal := units.Picometres(rapid.Int64Range(1, 3_150_000_000_000).Draw(t, "size"))
		shaft, err := fits.ParseClass(letter + digits)
		if err != nil {
			t.Fatal(err)
		}
		hole, err := fits.ParseClass(strings.ToUpper(letter) + digits)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []fits.Class{shaft, hole} {
			text, _ := c.MarshalText()
			var back fits.Class
			if back.UnmarshalText(text) != nil || back != c {
				t.Fatalf("%v came back as %v", c, back)
			}
			l, err := c.LimitsFor(nominal)
			if err != nil && (!errors.Is(err, units.ErrOutOfRange) || !l.Refs.IsZero()) {
				t.Fatalf("%v at %v: %v, %v", c, nominal, l, err)
			}
			if err != nil {
				continue
			}
			it, err := g.ToleranceFor(nominal)
			if l.Min.Sign() <= 0 {
				t.Fatalf("%v at %v: %v", c, nominal, l)
			}
			if err != nil || l.Tolerance() != it.Width || l.Nominal != nominal || l.Refs.First().Title == "" ||
				!l.Refs.Equal(it.Refs.With(l.Refs)) {
				t.Fatalf("%v at %v: %v, tolerance %v", c, nominal, l, it)
			}
		}
		// Hole and shaft of one letter from a to h mirror each other.
		if letter <= "h" {
			s, errS := shaft.LimitsFor(nominal)
			h, errH := hole.LimitsFor(nominal)
			if errS != nil && errH == nil && strings.Contains(errS.Error(), "no part") {
				return // a shaft that its limits leave nothing of
			}
			if (errS == nil) != (errH == nil) || errS == nil && (s.Upper() != h.Lower().Neg() || s.Lower() != h.Upper().Neg()) {
				t.Fatalf("%v %v, %v %v at %v", shaft, s, hole, h, nominal)
			}
		}
	})
}

// The deviation of k is that of its column in grades 4 to 7 only, and zero in
// all finer and coarser ones (ISO 286-1, table 3).
func TestK(t *testing.T) {
	for text, want := range map[string]units.Length{"k3": {}, "k4": units.Micron(1), "k7": units.Micron(1), "k8": {}} {
		if l, err := class(t, text).LimitsFor(units.MM(10)); err != nil || l.Lower() != want {
			t.Errorf("%s: %v, want %v (%v)", text, l.Lower(), want, err)
		}
	}
}

// A shaft of 5 um less the 6 um of h6 is none.
func TestNoPart(t *testing.T) {
	if l, err := class(t, "h6").LimitsFor(units.Micron(5)); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(l, err)
	}
	if _, err := class(t, "H6").LimitsFor(units.Micron(5)); err != nil {
		t.Error(err)
	}
}

func FuzzParseClass(f *testing.F) {
	for _, s := range []string{"H7", "js6", "ZC9", "h01", "Js6", "", "H 7"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := fits.ParseClass(s)
		if err != nil {
			var parse *units.ParseError
			if !errors.As(err, &parse) {
				t.Errorf("%q: %v", s, err)
			}
			return
		}
		if back, err := fits.ParseClass(c.String()); err != nil || back != c {
			t.Errorf("%q is %v, which reads as %v, %v", s, c, back, err)
		}
	})
}

func BenchmarkClassAt(b *testing.B) {
	c, nominal := class(b, "P7"), units.MM(37)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.LimitsFor(nominal); err != nil {
			b.Fatal(err)
		}
	}
}

// The running shaft of a 10 mm bearing, and where its figures are from.
func ExampleClass_LimitsFor() {
	f7, err := fits.ParseClass("f7")
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := f7.LimitsFor(units.MM(10))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(l.Text(units.Millimetres, 3))
	for ref := range l.Refs.All() {
		fmt.Println(ref)
	}
	// Output:
	// 9.972 to 9.987 mm
	// Narayana, Kannaiah and Venkata Reddy, Machine Drawing, edition not stated in the reprint, Table 15.1 p.213 (prints the tables of IS 919 and ISO 286)
	// Machinery's Handbook, 31st edition, Table 6a p.768-769, hole letter with sign reversed
}

// Look-ups allocate nothing once the tables are read, fits of two classes that
// were read at four places among them.
func TestLookupsAllocateNothing(t *testing.T) {
	rc4, e7, nominal := inchFit(t, "RC4"), class(t, "E7"), units.MM(12)
	fit, err := fits.ParseFit("F8/f7")
	if err != nil {
		t.Fatal(err)
	}
	for name, ask := range map[string]func() error{
		"class": func() error { _, err := e7.LimitsFor(nominal); return err },
		"grade": func() error { _, err := fits.IT01.ToleranceFor(nominal); return err },
		"fit":   func() error { _, err := fit.LimitsFor(nominal); return err },
		"inch":  func() error { _, err := rc4.LimitsFor(nominal); return err },
	} {
		if err := ask(); err != nil {
			t.Error(name, err)
		}
		if n := testing.AllocsPerRun(100, func() { _ = ask() }); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}

// The sources of a fit are those of its hole and then of its shaft, each once.
func TestFitRefs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, letters []string) fits.Class {
			g := fits.Grade(rapid.IntRange(5, 9).Draw(t, name+" grade"))
			c, err := fits.ParseClass(rapid.SampledFrom(letters).Draw(t, name) + strings.TrimPrefix(g.String(), "IT"))
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		var capitals []string
		for _, l := range fits.Letters {
			capitals = append(capitals, strings.ToUpper(l))
		}
		fit := fits.Fit{Hole: draw("hole", capitals), Shaft: draw("shaft", fits.Letters)}
		r, err := fit.LimitsFor(units.MM(rapid.Float64Range(1, 3000).Draw(t, "size")))
		if err == nil && (!r.Refs.Equal(r.Hole.Refs.With(r.Shaft.Refs)) || r.Refs.IsZero()) {
			t.Fatalf("%v: %v of %v and %v", fit, r.Refs, r.Hole.Refs, r.Shaft.Refs)
		}
	})
}
