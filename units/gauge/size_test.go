package gauge_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

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

func FuzzParse(f *testing.F) {
	for _, s := range []string{"#7", "16 gauge", "2/0 SWG", "1 1/2 in", "letter f", "-1 mm", "#10 screw"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if in, err := gauge.Number().Lookup(s); err == nil && in.Name[0] != '#' {
			t.Fatalf("%q is %q, which is no number drill", s, in.Name)
		}
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
