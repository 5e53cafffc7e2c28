package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A 5 in wheel at 60 ft/min: Jones, Turning and Boring (1914), rules for
// calculating cutting speeds, gives 46.
func ExampleSpindleSpeed_jones() {
	n, err := speeds.SpindleSpeed(60*units.FootPerMinute, units.Inch(5))
	fmt.Printf("%.1f rev/min %v\n", n/units.RevPerMinute, err)
	// Output: 45.8 rev/min <nil>
}

// A 12 mm drill at 2800 rev/min.
func ExampleCuttingSpeed() {
	v, err := speeds.CuttingSpeed(2800*units.RevPerMinute, units.MM(12))
	fmt.Printf("%.1f m/min %v\n", v.In(units.MetrePerMinute), err)
	// Output: 105.6 m/min <nil>
}

func TestSpindleSpeed(t *testing.T) {
	f := check.Open(t, "speeds/spindle.csv")
	for r := range f.Rows() {
		n, err := speeds.SpindleSpeed(parse(t, r.Text("speed")+" "+r.Text("speed_unit")),
			units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("rpm", float64(n/units.RevPerMinute))
	}
}

func TestCuttingSpeed(t *testing.T) {
	f := check.Open(t, "speeds/surface_speed.csv")
	for r := range f.Rows() {
		v, err := speeds.CuttingSpeed(units.RotationalSpeed(r.Float("rpm"))*units.RevPerMinute,
			units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("speed", float64(v/parse(t, "1 "+r.Text("unit"))))
	}
}

func TestSpindleSpeedRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		v    units.Speed
		d    units.Length
		want error
	}{
		{"no diameter", 1, units.Length{}, units.ErrOutOfRange},
		{"negative diameter", 1, units.MM(-5), units.ErrOutOfRange},
		{"no speed", 0, units.MM(5), units.ErrOutOfRange},
		{"negative speed", -1, units.MM(5), units.ErrOutOfRange},
		{"not a number", units.Speed(math.NaN()), units.MM(5), units.ErrNotFinite},
		{"endless", units.Speed(math.Inf(1)), units.MM(5), units.ErrNotFinite},
	} {
		n, err := speeds.SpindleSpeed(tt.v, tt.d)
		var argument *units.ArgumentError
		if n != 0 || !errors.Is(err, tt.want) || !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("SpindleSpeed, %s: %v, %v", tt.name, n, err)
		}
		v, err := speeds.CuttingSpeed(units.RotationalSpeed(tt.v), tt.d)
		if v != 0 || !errors.Is(err, tt.want) {
			t.Errorf("CuttingSpeed, %s: %v, %v", tt.name, v, err)
		}
	}
}

func TestSpindleSpeedInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := units.Speed(rapid.Float64Range(1e-3, 100).Draw(t, "v"))
		d := units.Micron(float64(rapid.IntRange(50, 2_000_000).Draw(t, "d")))
		n, err := speeds.SpindleSpeed(v, d)
		if err != nil {
			t.Fatal(err)
		}
		back, err := speeds.CuttingSpeed(n, d)
		if err != nil || math.Abs(float64(back/v)-1) > 1e-14 {
			t.Fatalf("%v on %v: %v and back %v, %v", v, d, n, back, err)
		}
		twice, _ := speeds.SpindleSpeed(v, d.Scale(2))
		if math.Abs(float64(n/twice)-2) > 1e-12 {
			t.Fatalf("twice the diameter: %v and %v", n, twice)
		}
	})
}

func parse(t *testing.T, speed string) units.Speed {
	t.Helper()
	v, err := units.ParseSpeed(speed)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
