package fits_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A bore came out at 24.02 mm, and its piston is to run with 0.06 to 0.1 mm.
// (Invented figures.)
func ExampleLimits_MakeMate() {
	r, err := fits.Exact(units.MM(24.02)).MakeMate(fits.Hole, fits.Band{Min: units.MM(0.06), Max: units.MM(0.1)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Shaft.Min, "to", r.Shaft.Max)
	// Output:
	// 23.92 mm to 23.96 mm
}

func TestMakeMate(t *testing.T) {
	mm := func(least, most float64) fits.Band { return fits.Band{Min: units.MM(least), Max: units.MM(most)} }
	for _, test := range []struct {
		name        string
		part        fits.Feature
		came, band  fits.Band
		least, most float64 // of the mate
	}{
		{"FI-12, a bore of 20.03", fits.Hole, mm(20.03, 20.03), mm(0.05, 0.08), 19.95, 19.98},
		{"a bore that tapers", fits.Hole, mm(20.02, 20.03), mm(0.05, 0.08), 19.95, 19.97},
		{"a bar", fits.Shaft, mm(5.995, 5.995), mm(0.01, 0.03), 6.005, 6.025},
		{"a pin to be pressed", fits.Shaft, mm(6.01, 6.01), mm(-0.012, -0.003), 5.998, 6.007},
	} {
		r, err := fits.Limits{Nominal: test.came.Min, Min: test.came.Min, Max: test.came.Max}.MakeMate(test.part, test.band)
		mate := r.Shaft
		if test.part == fits.Shaft {
			mate = r.Hole
		}
		if err != nil || mate.Min != units.MM(test.least) || mate.Max != units.MM(test.most) {
			t.Errorf("%s: %+v, %v", test.name, r, err)
		}
	}
	for _, bad := range []struct {
		part       fits.Feature
		came, band fits.Band
		want       error
		text       string
	}{
		{fits.Hole, mm(20, 20.04), mm(0.05, 0.08), units.ErrOutOfRange, "it varies by more than the clearance may"},
		{fits.Hole, mm(0.01, 0.01), mm(0.05, 0.08), units.ErrOutOfRange, "size of its mate"},
		{fits.Hole, mm(20, 20), mm(0.08, 0.05), units.ErrOutOfRange, "the wrong way round"},
		{0, mm(20, 20), mm(0.05, 0.08), units.ErrUnknown, "feature"},
	} {
		_, err := fits.Limits{Min: bad.came.Min, Max: bad.came.Max}.MakeMate(bad.part, bad.band)
		if !errors.Is(err, bad.want) || !strings.Contains(err.Error(), bad.text) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	// Whatever the part came out at, its mate keeps the clearance at both ends.
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.SampledFrom(fits.Features()).Draw(t, "part")
		least := rapid.IntRange(-50, 100).Draw(t, "least")
		band := fits.Band{Min: units.Micron(float64(least)), Max: units.Micron(float64(least + rapid.IntRange(0, 80).Draw(t, "width")))}
		size := units.Micron(float64(rapid.IntRange(1000, 100000).Draw(t, "size")))
		came := fits.Limits{Nominal: size, Min: size, Max: size.Add(units.Micron(float64(rapid.IntRange(0, 80).Draw(t, "varies"))))}
		r, err := came.MakeMate(part, band)
		if wide := came.Tolerance().Cmp(band.Max.Sub(band.Min)) > 0; wide != (err != nil) {
			t.Fatalf("%v for %v: %v", came, band, err)
		}
		if err == nil && r.Clearance != band {
			t.Fatalf("%v, want %v", r.Clearance, band)
		}
	})
}

// A crankshaft is 8 mm ground bar, h6: the close running fit with the hole to suit.
func ExampleFit_OnBar() {
	fit, _ := fits.ParseFit("H8/f7")
	bar, _ := fits.ParseClass("h6")
	onBar, err := fit.OnBar(bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := onBar.LimitsFor(units.MM(8))
	fmt.Println(onBar, r.Hole.Min, "to", r.Hole.Max, err)
	// Output:
	// F8/h6 8.013 mm to 8.035 mm <nil>
}

// On a bar of h6, F8 is 6.010 to 6.028 mm at 6 mm (ISO 286-2 as every handbook
// prints it); the preferred pairs are those of the standard.
func TestOnBar(t *testing.T) {
	h6 := class(t, "h6")
	for hole, want := range map[string]string{
		"H8/f7": "F8/h6", "H7/g6": "G7/h6", "H9/d9": "D9/h6", "H7/h6": "H7/h6", "H7/h7": "H7/h6", "H7/p6": "P7/h6", "F8/h6": "F8/h6",
	} {
		fit, err := fits.ParseFit(hole)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := fit.OnBar(h6); err != nil || got.String() != want {
			t.Errorf("%s: %v, %v; want %s", hole, got, err, want)
		}
	}
	f8, _ := fits.ParseFit("F8/h6")
	r, err := f8.LimitsFor(units.MM(6))
	if err != nil || r.Hole.Min != units.MM(6.01) || r.Hole.Max != units.MM(6.028) {
		t.Errorf("%+v, %v", r, err)
	}
	both := func(b fits.Basis) []fits.PreferredFit {
		list, err := fits.PreferredFits(b)
		if err != nil {
			t.Fatal(err)
		}
		return list
	}
	shaftBasis := both(fits.ShaftBasis)
	for i, p := range both(fits.HoleBasis) {
		got, err := p.Fit.OnBar(shaftBasis[i].Fit.Shaft)
		if want := shaftBasis[i].Fit; err != nil || got.Hole.String()[:1] != want.Hole.String()[:1] {
			t.Errorf("%v: %v, %v; the standard pairs it with %v", p.Fit, got, err, want)
		}
	}
	for _, bad := range []struct{ fit, bar string }{{"H8/f7", "H7"}, {"H8/f7", "k6"}, {"F8/h7", "h6"}} {
		fit, _ := fits.ParseFit(bad.fit)
		if got, err := fit.OnBar(class(t, bad.bar)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%+v: %v, %v", bad, got, err)
		}
	}
	if _, err := (fits.Fit{}).OnBar(h6); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

func ExampleClass_ChooseHole() {
	bar, _ := fits.ParseClass("h6")
	best, err := bar.ChooseHole(units.MM(6), fits.Band{Min: units.MM(0.01), Max: units.MM(0.04)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(best[0].Fit, best[0].Name, best[0].Outside.IsZero())
	// Output:
	// F8/h6 close running true
}

func TestChooseHole(t *testing.T) {
	band := fits.Band{Min: units.MM(0.01), Max: units.MM(0.04)}
	for _, bad := range []struct {
		nominal float64
		band    fits.Band
		bar     string
	}{{0, band, "h6"}, {6, fits.Band{Min: units.MM(1)}, "h6"}, {6, band, "H7"}, {4000, band, "h6"}} {
		if _, err := class(t, bad.bar).ChooseHole(units.MM(bad.nominal), bad.band); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	list, err := class(t, "h9").ChooseHole(units.MM(6), band)
	if err != nil || len(list) < 8 {
		t.Fatal(list, err)
	}
	for i, c := range list {
		if c.Fit.Shaft != class(t, "h9") || i > 0 && c.Outside.Cmp(list[i-1].Outside) < 0 {
			t.Errorf("%v behind %v", c, list[max(i-1, 0)])
		}
	}
}
