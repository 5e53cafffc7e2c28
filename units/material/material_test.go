package material_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

func ExampleLookup() {
	iron, err := material.Lookup("grey cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(iron.Name, iron.Expansion.Value, iron.Expansion.Refs.First())
	fmt.Printf("E %.0f GPa, printed as %.0f to %.0f\n", iron.Elasticity.Value/units.Gigapascal, iron.Elasticity.Min/units.Gigapascal, iron.Elasticity.Max/units.Gigapascal)

	bronze, _ := material.Lookup("bronze")
	fmt.Println(bronze.Name)
	_, err = material.Lookup("red bronze") // the error goes on with what comes near
	said, _, _ := strings.Cut(err.Error(), ";")
	fmt.Println(said)
	// Output:
	// cast iron 11.4 ppm/K Callister, Fundamentals of Materials Science and Engineering, 3rd edition, 2007, table B.6 (read in reprints of its appendix B; G1800 to G4000)
	// E 110 GPa, printed as 62 to 159
	// bearing bronze
	// material: material "red bronze": unknown
}

// A test certificate gives the proof stress of the bar in hand.
func ExampleGiven() {
	bar, _ := material.Lookup("EN8")
	bar.Yield = material.Given(530*units.Megapascal, source.Ref{Kind: source.Published, Title: "certificate of the bar"})
	fmt.Printf("%.0f MPa, %v\n", bar.Yield.Value/units.Megapascal, bar.Yield.Refs.First())
	// Output: 530 MPa, certificate of the bar
}

func TestTables(t *testing.T) {
	check.Tables(t, material.Tables, "tables/*.csv")
	all := material.All()
	order := map[string]int{}
	for i, m := range all {
		order[m.Name] = i
	}
	for _, file := range material.Files {
		whole := file != "yield" && file != "tensile" && file != "melting" // has every material with figures, in order
		seen, last := map[string]bool{}, -1
		rows, err := material.ShippedRows(file)
		if err != nil {
			t.Error(err)
		}
		for _, r := range rows {
			i, ok := order[r.Material]
			switch {
			case !ok:
				t.Errorf("%s.csv: %q is not in names.csv", file, r.Material)
			case !seen[r.Material] && r.Value == 0:
				t.Errorf("%s.csv: the first row of %q has no value", file, r.Material)
			case i < last && whole:
				t.Errorf("%s.csv: %q is not in the order of names.csv", file, r.Material)
			}
			seen[r.Material], last = true, i
		}
		for _, m := range all {
			if seen[m.Name] != m.Expansion.Known() && whole {
				t.Errorf("%s.csv has nothing on %q", file, m.Name)
			}
		}
	}
	names := map[string]string{}
	for _, m := range all {
		for _, name := range append(m.OtherNames(), m.Name) {
			if other, double := names[strings.ToLower(name)]; double {
				t.Errorf("%q is both %q and %q", name, other, m.Name)
			}
			names[strings.ToLower(name)] = m.Name
			if got, err := material.Lookup(name); err != nil || got.Name != m.Name {
				t.Errorf("Lookup(%q) = %q, %v; want %q", name, got.Name, err, m.Name)
			}
		}
	}
}

// Physics that every row has to keep, whoever printed it: a metal's ratio of
// Poisson lies from 0.2 to 0.4, what expands more melts lower and is softer, and
// no two works may be further apart than a factor of three.
func TestPlausible(t *testing.T) {
	for _, m := range material.All() {
		if m.Poisson.Known() && m.Family != material.Plastic && (m.Poisson.Min < 0.2 || m.Poisson.Max > 0.4) {
			t.Errorf("%s: Poisson's ratio %g to %g", m.Name, m.Poisson.Min, m.Poisson.Max)
		}
		for _, r := range []struct {
			name             string
			value, low, high float64
		}{
			{"elasticity", float64(m.Elasticity.Value), float64(m.Elasticity.Min), float64(m.Elasticity.Max)},
			{"expansion", float64(m.Expansion.Value), float64(m.Expansion.Min), float64(m.Expansion.Max)},
			{"density", float64(m.Density.Value), float64(m.Density.Min), float64(m.Density.Max)},
			{"yield", float64(m.Yield.Value), float64(m.Yield.Min), float64(m.Yield.Max)},
			{"tensile", float64(m.Tensile.Value), float64(m.Tensile.Min), float64(m.Tensile.Max)},
		} {
			if r.value < r.low || r.value > r.high || r.high > 3*r.low && m.Name != "copper" {
				t.Errorf("%s: %s %g in %g to %g", m.Name, r.name, r.value, r.low, r.high)
			}
		}
		if m.Yield.Known() && m.Yield.Value != m.Yield.Min {
			t.Errorf("%s: yield %v is not of the weakest condition, %v", m.Name, m.Yield.Value, m.Yield.Min)
		}
		for _, refs := range []source.Refs{m.Elasticity.Refs, m.Poisson.Refs, m.Expansion.Refs, m.Density.Refs} {
			for ref := range refs.All() {
				if ref.Kind == 0 || ref.Title == "" {
					t.Errorf("%s: a figure without a source: %v", m.Name, refs)
				}
			}
			if refs.IsZero() == m.Expansion.Known() {
				t.Errorf("%s: sources: %v", m.Name, refs)
			}
		}
	}
	for _, m := range material.All() {
		if m.Tensile.Known() != (m.Name == "cast iron") || m.Tensile.Known() && (m.Yield.Known() || !m.Yield.Refs.IsZero() || m.Tensile.Value != m.Tensile.Min) {
			t.Errorf("%s: yield %v, tensile strength %v; grey iron breaks before it yields, and it alone", m.Name, m.Yield.Value, m.Tensile.Value)
		}
	}
}

// TestWitness compares the values in use with the tables of four other works.
func TestWitness(t *testing.T) {
	f := check.Open(t, "units/material/figures.csv")
	for r := range f.Rows() {
		m, err := material.Lookup(r.Text("material"))
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		value, ok := map[string]float64{
			"elasticity": float64(m.Elasticity.Value / units.Gigapascal),
			"poisson":    m.Poisson.Value,
			"expansion":  float64(m.Expansion.Value / units.MillionthPerKelvin),
			"density":    float64(m.Density.Value),
			"yield":      float64(m.Yield.Value / units.Megapascal),
			"tensile":    float64(m.Tensile.Value / units.Megapascal),
		}[r.Text("property")]
		if !ok {
			t.Errorf("%s: property %q", r.ID, r.Text("property"))
		}
		nearest := "low"
		if value > r.Float("high") {
			nearest = "high"
		} else if value > r.Float("low") {
			nearest, value = "low", r.Float("low") // inside the printed range
		}
		r.Within(nearest, value, r.Float("allowed")/100*r.Float(nearest))
	}
}

// Every row of the tables against the print that has the same figure.
func TestRowsAgainstPrints(t *testing.T) {
	type key struct {
		property, material, source string
		nth                        int
	}
	shipped := map[key]material.Shipped{}
	for _, file := range material.Files {
		rows, err := material.ShippedRows(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			k := key{file, r.Material, r.Source, 1}
			for ; shipped[k] != (material.Shipped{}); k.nth++ {
			}
			shipped[k] = r
		}
	}
	kelvins := func(f float64) float64 { return units.Fahrenheit(f).Celsius() }
	for r := range check.Open(t, "units/material/rows.csv").Rows() {
		k := key{r.Text("property"), r.Text("material"), r.Text("of"), 1}
		if r.Has("nth") {
			k.nth = int(r.Float("nth"))
		}
		row, ok := shipped[k]
		if !ok {
			t.Errorf("%s: no such row is shipped", r.ID)
			continue
		}
		in, ok := map[string]func(float64) float64{
			"":       func(v float64) float64 { return v },
			"g/cm3":  func(v float64) float64 { return v / 1000 },
			"lb/in3": func(v float64) float64 { return units.Density(v).In(units.PoundPerCubicInch) },
			"ppm/F":  func(v float64) float64 { return v / 1.8 },
			"F":      func(v float64) float64 { return (v - kelvins(0)) * 1.8 },
			"ksi": func(v float64) float64 {
				unit := units.Megapascal
				if k.property == "elasticity" {
					unit = units.Gigapascal
				}
				return (units.Pressure(v) * unit).In(1000 * units.PSI)
			},
			"Mpsi": func(v float64) float64 { return (units.Pressure(v) * units.Gigapascal).In(1e6 * units.PSI) },
		}[r.Optional("unit")]
		if !ok {
			t.Errorf("%s: unit %q", r.ID, r.Text("unit"))
			continue
		}
		for column, v := range map[string]float64{"value": row.Value, "low": row.Low, "high": row.High} {
			if r.Has(column) {
				r.Compare(column, in(v))
			}
		}
	}
}

// Strength goes with the size of the bar, and the spread says so.
func TestBarSize(t *testing.T) {
	bar, err := material.Lookup("alloy steel")
	if err != nil || bar.Yield.Min.In(units.Megapascal) > 485 || bar.Yield.Max.In(units.Megapascal) < 655 {
		t.Errorf("alloy steel by the size of its bar: %v to %v, %v", bar.Yield.Min, bar.Yield.Max, err)
	}
}

// The words that the trade uses alone mean what it means by them.
func TestBareWords(t *testing.T) {
	for word, want := range map[string]string{
		"steel": "mild steel", "stainless steel": "stainless steel 304", "iron": "cast iron", "bronze": "bearing bronze",
		"brass": "brass", "copper": "copper", "aluminum": "aluminium", "Stainless-Steel": "stainless steel 304",
	} {
		if m, err := material.Lookup(word); err != nil || m.Name != want || !m.Elasticity.Known() {
			t.Errorf("%s is %v, %v; want %s, with figures", word, m, err, want)
		}
	}
}

func TestFamilies(t *testing.T) {
	used := map[material.Family]bool{}
	for _, m := range material.All() {
		used[m.Family] = true
	}
	for i, f := range material.Families() {
		back, err := material.ParseFamily(f.String())
		if int(f) != i+1 || err != nil || back != f || !used[f] {
			t.Errorf("family %d: %v reads back as %v, %v; in use: %v", i, f, back, err, used[f])
		}
	}
	if n := len(material.Families()); used[0] || len(used) != n {
		t.Errorf("%d families are listed and %d are in use", n, len(used))
	}
}

func TestLookupErrors(t *testing.T) {
	for _, name := range []string{"", "unobtainium", strings.Repeat("x", 1000), "magnetic stainless steel"} {
		_, err := material.Lookup(name)
		var bad *units.ParseError
		if !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) || bad.Accepted == "" || len(err.Error()) > 900 {
			t.Errorf("Lookup(%.20q): %v", name, err)
		}
	}
	var m material.Material
	if m.UnmarshalText([]byte("brick")) == nil || m.Name != "" {
		t.Errorf("brick read as %q", m.Name)
	}
	if (material.Material{}).Expansion.Known() || (material.Material{}).OtherNames() != nil {
		t.Error("the zero material is not empty")
	}
}

// Asbestos is refused with the reason, under whatever name; what is free of it is
// not.
func TestAsbestos(t *testing.T) {
	for _, name := range []string{"asbestos", "Asbestos sheet", "compressed-asbestos jointing"} {
		_, err := material.Lookup(name)
		var bad *units.ParseError
		if !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "never use it: its dust kills") {
			t.Errorf("Lookup(%q): %v", name, err)
		}
	}
	for _, name := range []string{"asbestos-free rope", "no asbestos, please", "felt without asbestos"} {
		if _, err := material.Lookup(name); err == nil || strings.Contains(err.Error(), "never use it") {
			t.Errorf("Lookup(%q): %v", name, err)
		}
	}
	if m, err := material.Lookup("Asbestos-free jointing"); err != nil || m.Name != "jointing without asbestos" {
		t.Errorf("%v, %v", m, err)
	}
}

func TestText(t *testing.T) {
	for _, m := range material.All() {
		text, err := m.MarshalText()
		var back material.Material
		if err != nil || back.UnmarshalText(text) != nil || back.Name != m.String() {
			t.Errorf("%q came back as %q", m.Name, back.Name)
		}
		family, err := material.ParseFamily(m.Family.String())
		if err != nil || family != m.Family {
			t.Errorf("%v came back as %v, %v", m.Family, family, err)
		}
	}
	var f material.Family
	if err := f.UnmarshalText([]byte("none")); err == nil || f != 0 {
		t.Error("none is not a family to ask for")
	}
	if got := material.Family(99).String(); got != "Family(99)" {
		t.Error(got)
	}
}

// What is handed out can be changed without changing the table.
func TestCopies(t *testing.T) {
	all := material.All()
	all[0].Name = "changed"
	all[1].OtherNames()[0] = "changed"
	again := material.All()
	if again[0].Name == "changed" || again[1].OtherNames()[0] == "changed" {
		t.Error("the table has changed")
	}
}

func FuzzLookup(f *testing.F) {
	for _, m := range material.All() {
		f.Add(m.Name)
	}
	f.Add("Grey-Cast_Iron")
	f.Fuzz(func(t *testing.T, name string) {
		m, err := material.Lookup(name)
		if (err == nil) != (m.Name != "") {
			t.Errorf("Lookup(%q) = %q, %v", name, m.Name, err)
		}
	})
}

func BenchmarkLookup(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := material.Lookup("cast iron"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFirstUse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if err := material.ReadTables(); err != nil {
			b.Fatal(err)
		}
	}
}

// One foundry's sheet prints 17.3 per kelvin beside 10 per degree Fahrenheit.
func TestErrata(t *testing.T) {
	m, err := material.Lookup("C83600")
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "units/material", map[string]float64{"c83600-expansion": float64(m.Expansion.Value / units.MillionthPerKelvin)})
}

func TestBlankReadsBack(t *testing.T) {
	text, err := material.Material{}.MarshalText()
	m := material.All()[0]
	if err != nil || m.UnmarshalText(text) != nil || m.Name != "" || m.Elasticity.Known() {
		t.Errorf("%q came back as %v, %v", text, m, err)
	}
}
