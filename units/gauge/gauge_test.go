package gauge_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

func TestPrintedSizes(t *testing.T) {
	for _, name := range []string{"units/gauge/drills.csv", "units/gauge/wire.csv"} {
		f := check.Open(t, name)
		for row := range f.Rows() {
			size, err := gauge.Parse(row.ID)
			if err != nil {
				t.Error(err)
				continue
			}
			row.Compare("diameter_in", size.Diameter.Inch())
		}
	}
}

func TestMisprints(t *testing.T) {
	check.Errata(t, "units/gauge", map[string]float64{
		"gauge-drill-40": size(t, "#40").Diameter.Inch(),
		"gauge-swg-6":    size(t, "6 SWG").Diameter.Inch(),
	})
}

func TestTables(t *testing.T) {
	check.Tables(t, os.DirFS("."), "tables/*.csv")
	for _, test := range []struct {
		name        string
		set         gauge.Set
		want        int
		first, last string
	}{
		{"number", gauge.Number(), 97, "#97", "#1"},
		{"letter", gauge.Letter(), 26, "A", "Z"},
		{"fraction", gauge.Fraction(), 64, "1/64 in", "1 in"},
		{"metric", gauge.Metric(), 227, "0.2 mm", "25 mm"},
		{"SWG", gauge.SWG.Set(), 57, "50 SWG", "7/0 SWG"},
		{"AWG", gauge.AWG.Set(), 44, "40 AWG", "4/0 AWG"},
		{"BWG", gauge.BWG.Set(), 37, "33 BWG", "4/0 BWG"},
		{"MSG", gauge.MSG.Set(), 24, "30 MSG", "7 MSG"},
		{"screw", gauge.ScrewNumber.Set(), 17, "#000 screw", "#14 screw"},
	} {
		t.Run(test.name, func(t *testing.T) {
			sizes := slices.Collect(test.set.All())
			if len(sizes) != test.want || sizes[0].Name != test.first || sizes[len(sizes)-1].Name != test.last {
				t.Fatalf("%d sizes from %v to %v, want %d from %s to %s", len(sizes), sizes[0], sizes[len(sizes)-1], test.want, test.first, test.last)
			}
			for i, s := range sizes {
				if i > 0 && s.Diameter.Cmp(sizes[i-1].Diameter) <= 0 {
					t.Errorf("%v is not above %v", s, sizes[i-1])
				}
				if s.Refs.IsZero() {
					t.Errorf("%v has no source", s)
				}
				if back, err := gauge.Parse(s.Name); err != nil || back.Name != s.Name || back.Diameter != s.Diameter {
					t.Errorf("%q reads back as %v %v, %v", s.Name, back, back.Diameter, err)
				}
			}
		})
	}
}

// The program GNU units holds the same sizes.
func TestAgainstGNUUnits(t *testing.T) {
	program := check.Peer(t, "units")
	var want []gauge.Size
	var ask strings.Builder
	add := func(set gauge.Set, unit func(gauge.Size) string) {
		for s := range set.All() {
			want = append(want, s)
			fmt.Fprintf(&ask, "%s\nin\n", unit(s))
		}
	}
	numbered := func(function string) func(gauge.Size) string {
		return func(s gauge.Size) string {
			number, _, _ := strings.Cut(strings.TrimPrefix(s.Name, "#"), " ")
			if zeros, ok := strings.CutSuffix(number, "/0"); ok {
				n, _ := strconv.Atoi(zeros)
				number = fmt.Sprintf("(-%d)", n-1)
			}
			return fmt.Sprintf("%s(%s)", function, number)
		}
	}
	add(gauge.Number(), numbered("drillgauge"))
	add(gauge.Letter(), func(s gauge.Size) string { return "drill" + s.Name })
	add(gauge.SWG.Set(), numbered("brwiregauge"))
	add(gauge.AWG.Set(), numbered("wiregauge"))
	cmd := exec.Command(program, "-t", "-o", "%.10g")
	cmd.Stdin = strings.NewReader(ask.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	answers := strings.Fields(string(out))
	if len(answers) != len(want) {
		t.Fatalf("%d answers for %d sizes", len(answers), len(want))
	}
	for i, s := range want {
		inches, err := strconv.ParseFloat(answers[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Diameter.Inch(); got-inches > 1e-9 || inches-got > 1e-9 {
			t.Errorf("%v is %.10f in, GNU units has %s", s, got, answers[i])
		}
	}
}

func TestParse(t *testing.T) {
	for _, test := range []struct {
		text, name string
		want       units.Length
	}{
		{"2.5mm", "2.5 mm", units.MM(2.5)},
		{" 2.50  mm ", "2.5 mm", units.MM(2.5)},
		{"250 um", "0.25 mm", units.MM(0.25)},
		{`1/4"`, "1/4 in", units.Inch(0.25)},
		{"0.25 in", "1/4 in", units.Inch(0.25)},
		{"5 thou", "0.005 in", units.Thou(5)},
		{"#7", "#7", units.Inch(0.2010)},
		{"No. 7", "#7", units.Inch(0.2010)},
		{"number 7", "#7", units.Inch(0.2010)},
		{"f", "F", units.Inch(0.257)},
		{"letter F", "F", units.Inch(0.257)},
		{"16 swg", "16 SWG", units.Inch(0.064)},
		{"SWG 16", "16 SWG", units.Inch(0.064)},
		{"00 SWG", "2/0 SWG", units.Inch(0.348)},
		{"20 MSG", "20 MSG", units.Inch(0.0359)},
		{"0 awg", "0 AWG", units.Picometres(8251462802)},
		{"#10 screw", "#10 screw", units.Inch(0.190)},
		{"screw #0", "#0 screw", units.Inch(0.060)},
		{"No. 00 screw", "#00 screw", units.Inch(0.047)},
	} {
		got, err := gauge.Parse(test.text)
		if err != nil || got.Name != test.name || got.Diameter != test.want {
			t.Errorf("Parse(%q) = %q %v, %v; want %q %v", test.text, got.Name, got.Diameter, err, test.name, test.want)
		}
	}
	for _, test := range []struct {
		text string
		want error
		says string
	}{
		{"", units.ErrMissing, "empty"},
		{"16 gauge", units.ErrUnknown, "16 SWG is 0.0640 in (1.626 mm), 16 AWG is 0.0508 in (1.291 mm), 16 BWG is 0.0650 in (1.651 mm), 16 MSG is 0.0598 in (1.519 mm)"},
		{"16", units.ErrUnknown, "without a unit"},
		{"#0", units.ErrOutOfRange, "#1 to #97"},
		{"#98", units.ErrOutOfRange, "#1 to #97"},
		{"#-3", units.ErrSyntax, "whole number"},
		{"#12.5", units.ErrSyntax, "whole number"},
		{"51 SWG", units.ErrOutOfRange, "7/0 to 50"},
		{"6 MSG", units.ErrOutOfRange, "7 to 30"},
		{"1.5 SWG", units.ErrOutOfRange, "whole numbers"},
		{"0 mm", units.ErrOutOfRange, "above zero"},
		{"-2 mm", units.ErrOutOfRange, "above zero"},
		{"2 m", units.ErrOutOfRange, "1000 mm"},
		{"AA", units.ErrSyntax, "accepted"},
		{"2.5 cubits", units.ErrSyntax, "cubits"},
	} {
		_, err := gauge.Parse(test.text)
		if !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("Parse(%q): %v; want %v saying %q", test.text, err, test.want, test.says)
		}
	}
}

func TestParseSet(t *testing.T) {
	for _, test := range []struct {
		text        string
		want        int
		first, last string
	}{
		{"1-6x0.1 mm", 51, "1 mm", "6 mm"},
		{"1 mm - 6 mm x 0.1 mm", 51, "1 mm", "6 mm"},
		{"1 to 6 mm × 0.1", 51, "1 mm", "6 mm"},
		{"1/16-1/2x1/64 in", 29, "1/16 in", "1/2 in"},
		{`1/16-1 1/2 x 1/16"`, 24, "1/16 in", "1 1/2 in"},
		{"#1-#60", 60, "#60", "#1"},
		{"#60-1", 60, "#60", "#1"},
		{"a-z", 26, "A", "Z"},
		{"10-20 SWG", 11, "20 SWG", "10 SWG"},
		{"1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in", 51 + 60 + 29, "1 mm", "1/2 in"},
		{"2.5 mm; 3.3 mm\n4.2 mm, 2.5 mm", 3, "2.5 mm", "4.2 mm"},
		{"1/4 in, E", 2, "1/4 in", "E"},
	} {
		set, err := gauge.ParseSet(test.text)
		if err != nil {
			t.Errorf("ParseSet(%q): %v", test.text, err)
			continue
		}
		sizes := slices.Collect(set.All())
		if len(sizes) != test.want || sizes[0].Name != test.first || sizes[len(sizes)-1].Name != test.last {
			t.Errorf("ParseSet(%q) has %d sizes from %v to %v; want %d from %s to %s", test.text, len(sizes), sizes[0], sizes[len(sizes)-1], test.want, test.first, test.last)
		}
	}
	for _, test := range []struct {
		text string
		want error
		says string
	}{
		{"", units.ErrMissing, "no sizes"},
		{" , ", units.ErrSyntax, "between two separators"},
		{"1-6 mm", units.ErrSyntax, "has a step"},
		{"1-6x0.3 mm", units.ErrOutOfRange, "reach 5.8 mm and not 6"},
		{"1-6x0 mm", units.ErrOutOfRange, "above zero"},
		{"6-1x0.1 mm", units.ErrOutOfRange, "backwards"},
		{"1-1/2x1/64 in", units.ErrOutOfRange, "backwards"},
		{"0-6x0.1 mm", units.ErrOutOfRange, "above zero"},
		{"1-6x0.1", units.ErrSyntax, "without a unit"},
		{"1-6x0.0001 mm", units.ErrOutOfRange, "more than 2000 sizes"},
		{"#0-#60", units.ErrOutOfRange, "#1 to #97"},
		{"#1-#99999999999999999999", units.ErrOutOfRange, "too large"},
		{"2.5 mm, 16 gauge", units.ErrUnknown, "16 SWG"},
		{"2.5 mm, 3.3", units.ErrSyntax, "without a unit"},
		{"6,8 mm", units.ErrUnknown, "a comma parts two sizes, each with its unit, and the decimal mark is a point"},
		{"2.5, 3.3 mm", units.ErrSyntax, "a comma parts two sizes"},
		{"#98", units.ErrOutOfRange, "accepted: #1 to #97"},
		{"1-NaNx0.1 mm", units.ErrSyntax, "no number"},
	} {
		_, err := gauge.ParseSet(test.text)
		if !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("ParseSet(%q): %v; want %v saying %q", test.text, err, test.want, test.says)
		}
	}
}

func TestChoosing(t *testing.T) {
	set, err := gauge.ParseSet("1-6x0.5 mm, 1/4 in, E")
	if err != nil {
		t.Fatal(err)
	}
	choose := map[string]func(units.Length) (gauge.Size, error){"nearest": set.Nearest, "at least": set.AtLeast, "at most": set.AtMost}
	for _, test := range []struct {
		how  string
		d    units.Length
		want string // blank: out of range
	}{
		{"nearest", units.MM(2.2), "2 mm"},
		{"nearest", units.MM(2.25), "2.5 mm"},
		{"nearest", units.MM(2.5), "2.5 mm"},
		{"nearest", units.MM(0.75), "1 mm"},
		{"nearest", units.MM(0.74), ""},
		{"nearest", units.MM(6.3), "1/4 in"},
		{"nearest", units.MM(6.5), "1/4 in"},
		{"nearest", units.MM(6.6), ""},
		{"nearest", units.MM(-1), ""},
		{"at least", units.MM(2.2), "2.5 mm"},
		{"at least", units.MM(2.5), "2.5 mm"},
		{"at least", units.MM(0.1), "1 mm"},
		{"at least", units.MM(6.36), ""},
		{"at most", units.MM(2.2), "2 mm"},
		{"at most", units.MM(100), "1/4 in"},
		{"at most", units.MM(6.35), "1/4 in"},
		{"at most", units.MM(0.99), ""},
	} {
		got, err := choose[test.how](test.d)
		if test.want == "" {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Errorf("%s %v: %v, %v; want out of range", test.how, test.d, got, err)
			}
		} else if err != nil || got.Name != test.want {
			t.Errorf("%s %v: %v, %v; want %s", test.how, test.d, got, err, test.want)
		}
	}
	between, err := set.Between(units.MM(5), units.MM(6.35))
	if want := "[5 mm 5.5 mm 6 mm 1/4 in E]"; err != nil || fmt.Sprint(between) != want {
		t.Errorf("Between = %v, %v; want %s", between, err, want)
	}
	if _, err := set.Between(units.MM(6), units.MM(5)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("Between backwards: %v", err)
	}
	for name, want := range map[string]string{"e": "E", "0.25 in": "1/4 in", "2.50mm": "2.5 mm", "6.35 mm": "1/4 in"} {
		if got, err := set.Lookup(name); err != nil || got.Name != want {
			t.Errorf("Lookup(%q) = %v, %v; want %s", name, got, err, want)
		}
	}
	if _, err := set.Lookup("2.6 mm"); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "13 sizes from 1 mm to E") {
		t.Errorf("Lookup of a size that is not there: %v", err)
	}
	for how, f := range map[string]func(units.Length) (gauge.Size, error){"nearest": gauge.Set{}.Nearest, "at least": gauge.Set{}.AtLeast, "at most": gauge.Set{}.AtMost} {
		if _, err := f(units.MM(1)); !errors.Is(err, units.ErrMissing) {
			t.Errorf("%s in an empty set: %v", how, err)
		}
	}
}

func TestNewSet(t *testing.T) {
	for name, sizes := range map[string][]gauge.Size{
		"no name":       {{Diameter: units.MM(1)}},
		"no diameter":   {{Name: "a"}},
		"two diameters": {{Name: "a", Diameter: units.MM(1)}, {Name: "a", Diameter: units.MM(2)}},
	} {
		if _, err := gauge.NewSet(sizes...); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	reamer, err := gauge.NewSet(gauge.Size{Name: "tapered reamer", Diameter: units.MM(4.9)})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := reamer.MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a name that does not read back: %v", err)
	}
	if both, err := reamer.With(gauge.Letter()); err != nil || both.Len() != 27 {
		t.Errorf("With = %d sizes, %v", both.Len(), err)
	}
}

func TestSetText(t *testing.T) {
	for _, text := range []string{"", "1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in, A-Z, 10-20 SWG, #6 screw, 0.013 in"} {
		var set, back gauge.Set
		if err := set.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		out, err := set.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if err := back.UnmarshalText(out); err != nil || back.String() != set.String() || back.Len() != set.Len() {
			t.Errorf("%q reads back as %v, %v", out, back, err)
		}
	}
	set := gauge.Letter()
	if err := set.UnmarshalText([]byte("nonsense")); err == nil || set.Len() != 26 {
		t.Errorf("bad text: %v, and the set now has %d sizes", err, set.Len())
	}
}

func TestSystemText(t *testing.T) {
	for _, s := range append(gauge.Systems(), 0) {
		text, err := s.MarshalText()
		back := gauge.SWG
		if err != nil || back.UnmarshalText(text) != nil || back != s {
			t.Errorf("%v: text %q, back %v, %v", s, text, back, err)
		}
		if known, err := gauge.ParseSystem(s.String()); known != s || (err == nil) != (s != 0) {
			t.Errorf("%v reads back as %v, %v", s, known, err)
		}
	}
	if _, err := gauge.System(9).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a system that there is not: %v", err)
	}
	if _, err := gauge.System(0).Size("16"); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no system: %v", err)
	}
	for name, want := range map[string]gauge.System{"B&S": gauge.AWG, " b&s ": gauge.AWG, "ISWG": gauge.SWG} {
		if s, err := gauge.ParseSystem(name); s != want || err != nil {
			t.Errorf("%s is %v, %v", name, s, err)
		}
	}
	s := gauge.BWG
	var bad *units.ParseError
	if err := s.UnmarshalText([]byte("gauge")); !errors.As(err, &bad) || s != gauge.BWG {
		t.Errorf("%v, %v", s, err)
	}
}

// What AtLeast, AtMost and Nearest choose, seen from every size of the set.
func TestChoiceProperties(t *testing.T) {
	set, err := gauge.Metric().With(gauge.Number(), gauge.Letter(), gauge.Fraction())
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := units.Picometres(rapid.Int64Range(200_000_000, 25_000_000_000).Draw(t, "d"))
		over, err1 := set.AtLeast(d)
		under, err2 := set.AtMost(d)
		near, err3 := set.Nearest(d)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		best := near.Diameter.Sub(d).Abs()
		for s := range set.All() {
			off := s.Diameter.Sub(d)
			switch {
			case off.Sign() >= 0 && s.Diameter.Cmp(over.Diameter) < 0, off.Sign() <= 0 && s.Diameter.Cmp(under.Diameter) > 0, off.Abs().Cmp(best) < 0:
				t.Fatalf("%v: %v is better than %v, %v or %v", d, s, over, under, near)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"#7", "16 gauge", "2/0 SWG", "1 1/2 in", "letter f", "-1 mm", "#10 screw"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		size, err := gauge.Parse(s)
		if err != nil {
			return
		}
		if size.Diameter.Sign() <= 0 {
			t.Fatalf("%q is %v", s, size.Diameter)
		}
		if back, err := gauge.Parse(size.Name); err != nil || back.Diameter != size.Diameter || back.Name != size.Name {
			t.Fatalf("%q is %q, which is %v, %v", s, size.Name, back, err)
		}
	})
}

func FuzzParseSet(f *testing.F) {
	for _, s := range []string{"1-6x0.1 mm, #1-#60", "1/16-1/2x1/64 in", "A-Z; 10-20 SWG", "1-1x1 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		set, err := gauge.ParseSet(s)
		if err != nil {
			return
		}
		if set.Len() == 0 {
			t.Fatalf("%q is an empty set", s)
		}
		if back, err := gauge.ParseSet(set.String()); err != nil || back.String() != set.String() {
			t.Fatalf("%q is %v, which is %v, %v", s, set, back, err)
		}
	})
}

func BenchmarkNearest(b *testing.B) {
	set := gauge.Metric()
	d := units.MM(7.26)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := set.Nearest(d); err != nil {
			b.Fatal(err)
		}
	}
}

func size(t *testing.T, name string) gauge.Size {
	t.Helper()
	s, err := gauge.Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func ExampleSet_Nearest() {
	own, err := gauge.ParseSet("1-13x0.5 mm, #1-#60")
	if err != nil {
		fmt.Println(err)
		return
	}
	want := units.MM(7.25)
	for _, choose := range []func(units.Length) (gauge.Size, error){own.Nearest, own.AtLeast, own.AtMost} {
		s, err := choose(want)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(s, s.Diameter.Sub(want))
	}
	// Output:
	// 7.5 mm 0.25 mm
	// 7.5 mm 0.25 mm
	// 7 mm -0.25 mm
}

func ExampleParse() {
	for _, text := range []string{"No. 7", "16 SWG", "16 gauge"} {
		s, err := gauge.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(s, "=", s.Diameter)
	}
	// Output:
	// #7 = 5.1054 mm
	// 16 SWG = 1.6256 mm
	// gauge: size "16 gauge": the gauge is not named: 16 SWG is 0.0640 in (1.626 mm), 16 AWG is 0.0508 in (1.291 mm), 16 BWG is 0.0650 in (1.651 mm), 16 MSG is 0.0598 in (1.519 mm); accepted: "2.5 mm", "1/4 in", "#7", "No. 7", "F", "16 SWG", "20 AWG", "16 BWG", "20 MSG", "#10 screw"
}
