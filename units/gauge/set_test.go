package gauge_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

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

// The drills from which a hole of 6.3 to 6.4 mm can be made.
func ExampleSet_Between() {
	all, err := gauge.Metric().With(gauge.Letter(), gauge.Fraction())
	if err != nil {
		fmt.Println(err)
		return
	}
	sizes, err := all.Between(units.MM(6.3), units.MM(6.4))
	fmt.Println(sizes, err)
	// Output: [6.3 mm 1/4 in E 6.4 mm] <nil>
}
