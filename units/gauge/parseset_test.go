package gauge_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

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
		{strings.Repeat("1-99x0.1 mm, ", 11), units.ErrOutOfRange, "more than 10000 sizes"},
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

func ExampleParseSet() {
	own, err := gauge.ParseSet("1-3x0.5 mm, #60-#58, A-C")
	fmt.Println(own, err)
	_, err = gauge.ParseSet("6,8 mm")
	fmt.Println(err)
	// Output:
	// 1 mm, #60, #59, #58, 1.5 mm, 2 mm, 2.5 mm, 3 mm, A, B, C <nil>
	// gauge: size "6": a number without a unit or a gauge; a comma parts two sizes, each with its unit, and the decimal mark is a point; accepted: sizes and ranges separated by commas, such as "1-6x0.1 mm", "1/16-1/2x1/64 in", "#1-#60", "A-Z", "10-20 SWG", "6.8 mm"
}
