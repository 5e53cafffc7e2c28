package gauge_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// What is made of the texts of sizes and sets, and what is said of those that are none:
// kept. The diameters are checked in TestPrintedSizes.
func TestReadingsKept(t *testing.T) {
	var all strings.Builder
	line := func(text string, v any, err error) {
		said := fmt.Sprint(v)
		if err != nil {
			said, _, _ = strings.Cut(err.Error(), `; accepted: sizes and ranges`)
			said, _, _ = strings.Cut(said, `; accepted: "2.5 mm", "1/4 in"`)
		}
		fmt.Fprintf(&all, "%.60q: %s\n", text, said)
	}
	for _, text := range []string{
		"", "  ", "2.5mm", "2.5", "2.5 mm", "1000 mm", "1000.0001 mm", "0 mm", "-1 mm", "250 um", "250 micron", "250 microns", "0.25 m", "1.5 cm", "3/64 in", "1/128 in",
		"0.0001 in", "0.123456789 in", "1/3 in", "5 thou", "1.5 thou", "1 1/2\"", "2 ft", "#7", "# 7", "#07", "no. 7", "No.7", "no 7", "number 7", "no7", "NUMBER 7", "#", "#x", "#-1",
		"#1.5", "#0", "#1", "#97", "#98", "f", "F", "letter f", "Letter Z", "letters f", "ff", "@", "[", "`", "{", "16 gauge", "16 gage", "16ga", "16 g", "16g", "0 gauge", "2/0 gauge", "99 gauge",
		"41 gauge", "36 gauge", "ga", "16", "00", "1/0", "0/0", "08", "16 swg", "16swg", "SWG 16", "swg", "swg ", "iswg 16", "B&S 16", "b&s", "16 b&s", "7 b&s", "#7 b&s", "10screw", "#10screw", "1 swg", "16 iswg", "16b&s", "16 awg", "AWG #16", "16 bwg", "16 msg",
		"00 swg", "2/0 swg", "0000000 swg", "7/0 swg", "8/0 swg", "00000000 swg", "0/0 swg", "-1/0 swg", "1/0 swg", "50 swg", "51 swg", "016 swg", "x swg", "1.5 swg", "6 msg", "7 msg", "30 msg",
		"31 msg", "5/0 bwg", "36 bwg", "37 bwg", "4/0 awg", "5/0 awg", "40 awg", "41 awg", "#10 screw", "10 screw", "No. 10 screw", "screw 10", "screw #10", "#0 screw", "#00 screw",
		"#000 screw", "#0000 screw", "#14 screw", "#15 screw", "2/0 screw", "3/0 screw", "#1/0 screw", "AA", "2 cubits", "1e3 mm", "1,5 mm",
	} {
		v, err := gauge.Parse(text)
		line(text, fmt.Sprint(v, " = ", v.Diameter, ", ", v.Refs), err)
	}
	all.WriteString("\nsets\n")
	for _, text := range []string{
		"", " ", ",", "1 mm,", ",1 mm", "1 mm,,2 mm", "1 mm; 2 mm\n3 mm", "1 mm\r\n2 mm", "1-2x0.5 mm", "1 mm-2 mm x 0.5 mm", "1 to 2 x 0.5 mm", "1–2×0.5 mm", "1-2x0.5", "1-2 mm", "1-2x mm",
		"1-2x0.5 in", "1/16-1/8x1/64 in", "1/16 - 1/8 x 1/64\"", "1-1 1/2x1/4 in", "1-1/2x1/4 in", "0-2x0.5 mm", "-1-2x0.5 mm", "-1 mm", "-1", "-", "-x", "1-2x0 mm", "1-2x-1 mm", "1-2x0.3 mm",
		"2-1x0.5 mm", "1-1x0.5 mm", "1-2 cm x 1 mm", "1 cm-2 cm x 1 mm", "1 mm-2 mmx0.5", "1 in-50.8 mmx1", "1-2 m x 1 um", "1-2 m x 1", "0.1-1.9x0.0001 m", "100-200x50 um", "100-200x50 micron", "100-200x50 microns", "100-120x10 thou", "1-2 ftx1 ft", "1-3 in x 1 mm", "1-x x0.1 mm",
		"999-1001x1 mm", "#1-#3", "#3-#1", "#3-1", "no1-no3", "no. 1-3", "number 1 to number 3", "1-3", "#96-#98", "#0-#2", "#1-#2001", "#1-#2002", "#1-#99999999999999999999", "#a-#b", "#1-b",
		"A-C", "c-a", "letter A-C", "letters a to c", "A-", "A-1", "A-CC", "@-B", "1-3 SWG", "3-1 swg", "1 - 3 B&S", "49-51 SWG", "1-9999 SWG", "x-3 SWG", "1-x SWG", "99999999999999999999-1 SWG", "99999999999999999999-99999999999999999999 SWG", "1-3 xyz", "1-3 gauge", "16 gauge", "6,8 mm", "6 , 8 mm",
		"1,a,8 mm", "6.8, 7 mm", "6,8", "a,6,8 mm", "1 mm, 16", "16, 1 mm", "2.5 mm, 2.50 mm", "1/4 in, E, 6.35 mm",
	} {
		v, err := gauge.ParseSet(text)
		line(text, v, err)
	}
	for _, text := range []string{"1-2001x1 um", "1-2002x1 um", strings.Repeat("1-1000x0.5 mm, ", 5) + "1 mm-4 mmx1 mm, 1 mm", strings.Repeat("1-1000x0.5 mm, ", 5) + "1 mm-6 mmx1 mm"} {
		v, err := gauge.ParseSet(text)
		line(text, v.Len(), err)
	}
	all.WriteString("\nsystems and sets\n")
	for _, text := range []string{"", "swg", "SWG", " B&S ", "iswg", "screw", "gauge", "awg x"} {
		v, err := gauge.ParseSystem(text)
		line(text, v, err)
	}
	for _, s := range append(gauge.Systems(), 0, 6, -1) {
		_, err := s.Size("x")
		_, errText := s.MarshalText()
		line(s.String(), fmt.Sprint(s.Set().Len()), errText)
		line(s.String(), "", err)
	}
	named := func(name string, d units.Length) gauge.Size { return gauge.Size{Name: name, Diameter: d} }
	for name, sizes := range map[string][]gauge.Size{
		"": {named("", units.MM(1))}, "a comma": {named("a,b", units.MM(1))}, "a semicolon": {named("a;b", units.MM(1))}, "a line end": {named("a\nb", units.MM(1))},
	} {
		_, err := gauge.NewSet(sizes...)
		if want := fmt.Sprintf("gauge: name of a size %q: missing; accepted: a name without comma, semicolon or line end", sizes[0].Name); fmt.Sprint(err) != want {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, sizes := range [][]gauge.Size{
		nil, {named("a", units.Length{})}, {named("a", units.MM(-1))}, {named("a", units.MM(1000))}, {named("a", units.MM(1000).Add(units.Picometres(1)))}, {named("a", units.Picometres(1))},
		{named("a", units.MM(1)), named("a", units.MM(2))}, {named("a", units.MM(1)), named("a", units.MM(1))}, {named("b", units.MM(1)), named("a", units.MM(1))},
	} {
		v, err := gauge.NewSet(sizes...)
		text, errText := v.MarshalText()
		line(fmt.Sprint(sizes), fmt.Sprint(v, " ", string(text), " ", errText), err)
	}
	check.Kept(t, "units/gauge/kept/readings.txt", all.String())
}

// What is said where a set has no size to choose.
func TestNothingToChoose(t *testing.T) {
	one, _ := gauge.NewSet(gauge.Size{Name: "a", Diameter: units.MM(2)})
	two, _ := gauge.NewSet(gauge.Size{Name: "a", Diameter: units.MM(2)}, gauge.Size{Name: "b", Diameter: units.MM(3)}, gauge.Size{Name: "c", Diameter: units.MM(3)})
	said := func(_ any, err error) string { return fmt.Sprint(err) }
	const hair = 1
	at := func(mm float64, pm int64) units.Length { return units.MM(mm).Add(units.Picometres(pm)) }
	for _, test := range [][2]string{
		{said(gauge.Set{}.Nearest(units.MM(1))), "gauge: set: empty; accepted: a set with at least one size"},
		{said(gauge.Set{}.Lookup("1 mm")), "gauge: size 1 mm: not in the set; accepted: nothing, the set is empty"},
		{said(one.Lookup("1 mm")), "gauge: size 1 mm: not in the set; accepted: a only"},
		{said(two.Lookup("1 mm")), "gauge: size 1 mm: not in the set; accepted: 3 sizes from a to c"},
		{said(two.AtLeast(units.Length{})), "gauge: diameter 0 mm: out of range; accepted: above zero"},
		{said(two.AtMost(units.MM(-1))), "gauge: diameter -1 mm: out of range; accepted: above zero"},
		{said(two.Nearest(units.MM(-1))), "gauge: diameter -1 mm: out of range; accepted: above zero"},
		{said(two.AtLeast(at(3, hair))), "gauge: diameter 3.000000001 mm: above the set; accepted: 3 sizes from a to c"},
		{said(two.AtLeast(units.MM(3))), "<nil>"},
		{said(two.AtMost(at(2, -hair))), "gauge: diameter 1.999999999 mm: below the set; accepted: 3 sizes from a to c"},
		{said(two.AtMost(units.MM(2))), "<nil>"},
		{said(two.Nearest(at(1.5, -hair))), "gauge: diameter 1.499999999 mm: below the set; accepted: 3 sizes from a to c"},
		{said(two.Nearest(units.MM(1.5))), "<nil>"},
		{said(two.Nearest(units.MM(3.5))), "<nil>"},
		{said(two.Nearest(at(3.5, hair))), "gauge: diameter 3.500000001 mm: above the set; accepted: 3 sizes from a to c"},
		{said(one.Nearest(units.MM(2))), "<nil>"},
		{said(one.Nearest(at(2, hair))), "gauge: diameter 2.000000001 mm: above the set; accepted: a only"},
		{said(one.Nearest(at(2, -hair))), "gauge: diameter 1.999999999 mm: below the set; accepted: a only"},
		{said(two.Between(units.MM(3), at(3, -hair))), "gauge: lower end 3 mm: above the upper end 2.999999999 mm; accepted: at most the upper end"},
		{said(two.Between(units.MM(3), units.MM(3))), "<nil>"},
	} {
		if test[0] != test[1] {
			t.Errorf("%s, want %s", test[0], test[1])
		}
	}
	low, _ := gauge.NewSet(gauge.Size{Name: "a", Diameter: units.MM(2)}, gauge.Size{Name: "b", Diameter: units.MM(3)})
	if got, err := low.Nearest(units.MM(2.4)); err != nil || got.Name != "a" {
		t.Errorf("below the last: %v, %v", got, err)
	}
	system := gauge.BWG
	if err := system.UnmarshalText([]byte("x")); err == nil || system != gauge.BWG {
		t.Errorf("a system of one letter: %v, %v", system, err)
	}
	if got, err := two.Nearest(units.MM(2.5)); err != nil || got.Name != "b" {
		t.Errorf("half way: %v, %v", got, err)
	}
	if got, err := two.Between(units.MM(2), units.MM(3)); err != nil || len(got) != 3 {
		t.Errorf("between: %v, %v", got, err)
	}
}

// What is chosen of any set, found by looking at every size: of names that share a
// diameter always the first.
func TestChoiceByScan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sizes []gauge.Size
		for i, n := range rapid.SliceOfN(rapid.IntRange(1, 40), 1, 12).Draw(t, "sizes") {
			sizes = append(sizes, gauge.Size{Name: fmt.Sprintf("%c", 'a'+i), Diameter: units.Micron(float64(100 * n))})
		}
		set, err := gauge.NewSet(sizes...)
		if err != nil {
			t.Fatal(err)
		}
		slices.SortFunc(sizes, func(a, b gauge.Size) int {
			if c := a.Diameter.Cmp(b.Diameter); c != 0 {
				return c
			}
			return strings.Compare(a.Name, b.Name)
		})
		d := units.Micron(float64(50 * rapid.IntRange(1, 90).Draw(t, "d")))
		var least, most, near string
		best := math.Inf(1)
		for i, s := range sizes {
			if s.Diameter.Cmp(d) >= 0 && least == "" {
				least = s.Name
			}
			if s.Diameter.Cmp(d) <= 0 && (i == 0 || sizes[i-1].Diameter != s.Diameter) {
				most = s.Name
			}
			if off := s.Diameter.Sub(d).Abs().Micron(); off < best || off == best && s.Diameter.Cmp(d) > 0 && (i == 0 || sizes[i-1].Diameter != s.Diameter) {
				best, near = off, s.Name
			}
		}
		low, high := sizes[0].Diameter, sizes[len(sizes)-1].Diameter
		second, last := low, high
		for _, s := range sizes {
			if second == low {
				second = s.Diameter
			}
			if s.Diameter != high {
				last = s.Diameter
			}
		}
		if last == high {
			second, last = low, high // one diameter
		}
		if low.Sub(d).Micron() > second.Sub(low).Micron()/2 || d.Sub(high).Micron() > high.Sub(last).Micron()/2 {
			near = ""
		}
		name := func(s gauge.Size, err error) string { return s.Name }
		if got := name(set.AtLeast(d)); got != least {
			t.Fatalf("at least %v of %v: %s, want %s", d, set, got, least)
		}
		if got := name(set.AtMost(d)); got != most {
			t.Fatalf("at most %v of %v: %s, want %s", d, set, got, most)
		}
		if got := name(set.Nearest(d)); got != near {
			t.Fatalf("nearest to %v of %v: %s, want %s", d, set, got, near)
		}
		lo, hi := d, d.Add(units.Micron(float64(50*rapid.IntRange(0, 30).Draw(t, "span"))))
		var want []string
		for _, s := range sizes {
			if s.Diameter.Cmp(lo) >= 0 && s.Diameter.Cmp(hi) <= 0 {
				want = append(want, s.Name)
			}
		}
		between, err := set.Between(lo, hi)
		if fmt.Sprint(between) != fmt.Sprint(want) || err != nil {
			t.Fatalf("%v to %v of %v: %v, want %v", lo, hi, set, between, want)
		}
	})
}

// The size rules by their words: AWG steps by the 39th root of 92 from 0.005 in (ASTM
// B258), screws by 13 thou from 60 (ASME B1.1), BS 328 by hundredths of a millimetre.
func TestSizeRules(t *testing.T) {
	sizes := slices.Collect(gauge.AWG.Set().All())
	for i, s := range sizes { // from 40
		if want := 0.005 * math.Pow(92, float64(i-4)/39); math.Abs(s.Diameter.Inch()-want) > 1e-10 || s.Refs.First().Title != "ASTM B258" {
			t.Errorf("%v is %v in, want %v", s, s.Diameter.Inch(), want)
		}
	}
	if thick, err := gauge.Parse("4/0 AWG"); err != nil || math.Abs(thick.Diameter.Inch()-0.46) > 1e-9 {
		t.Errorf("4/0 AWG is %v", thick.Diameter)
	}
	for i, s := range slices.Collect(gauge.ScrewNumber.Set().All()) {
		if want := units.Thou(float64(34 + 13*i)); s.Diameter != want || s.Refs.First().Title != "ASME B1.1" {
			t.Errorf("%v is %v, want %v", s, s.Diameter, want)
		}
	}
	want := map[int]bool{}
	for n := 20; n <= 2500; n++ {
		tenth := n % 10
		want[n] = n < 1400 && tenth == 0 || n < 100 && (tenth == 2 || tenth == 5 || tenth == 8) || n >= 100 && n < 300 && tenth == 5 ||
			n >= 1400 && n%25 == 0
	}
	for s := range gauge.Metric().All() {
		n := int(math.Round(100 * s.Diameter.MM()))
		if !want[n] || units.Picometres(int64(n)*1e7) != s.Diameter {
			t.Errorf("%v is in the set", s)
		}
		delete(want, n)
	}
	for n, missing := range want {
		if missing {
			t.Errorf("%v mm is not in the set", float64(n)/100)
		}
	}
	for i, s := range slices.Collect(gauge.Fraction().All()) {
		if s.Diameter != units.InchFraction(i+1, 64) || s.Refs.First().Note != fmt.Sprintf("%d/64 of 25.4 mm", i+1) {
			t.Errorf("%v: %v", s, s.Refs)
		}
	}
}

// A set goes through gob's methods, and refuses text that a name does not read back from.
func TestSetGob(t *testing.T) {
	set, err := gauge.ParseSet("1-3x0.5 mm, #7, E")
	if err != nil {
		t.Fatal(err)
	}
	data, err := set.GobEncode()
	var back gauge.Set
	if err != nil || back.GobDecode(data) != nil || back.String() != set.String() || back.Len() != 7 {
		t.Errorf("%s: %v, %v", data, back, err)
	}
	if err := back.UnmarshalText([]byte(" \n")); err != nil || back.Len() != 0 {
		t.Errorf("blank text: %v, %v", back, err)
	}
}
