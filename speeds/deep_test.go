package speeds_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

// A 6 mm hole 30 mm deep.
func ExampleDeepHoleFor() {
	deep, err := speeds.DeepHoleFor(units.MM(30), units.MM(6))
	fmt.Printf("%.2f of the speed, %.2f of the feed (%v) %v\n", deep.Speed, deep.Feed, deep.Refs, err)
	pecks, err := speeds.PecksFor(units.MM(30), units.MM(6))
	fmt.Println(pecks.Depths, err)
	fmt.Println("tip at the end", pecks.Tips[3].Text(units.Millimetres, 2))
	// Output:
	// 0.70 of the speed, 0.80 of the feed (Drill maker's metal drilling guide, undated, deep-hole table) <nil>
	// [12 mm 18 mm 24 mm 30 mm] <nil>
	// tip at the end 31.80 mm
}

func TestDeepHoleFor(t *testing.T) {
	for _, tt := range []struct{ ratio, speed, feed float64 }{{1, 1, 1}, {2.99, 1, 1}, {3, 0.9, 0.9}, {3.5, 0.8, 0.9},
		{5, 0.7, 0.8}, {6, 0.65, 0.8}} {
		got, err := speeds.DeepHoleFor(units.MM(10*tt.ratio), units.MM(10))
		if err != nil || got.Speed != tt.speed || got.Feed != tt.feed || got.Refs.First().Title == "" {
			t.Errorf("%v diameters: %+v, %v", tt.ratio, got, err)
		}
	}
	for _, tt := range []struct{ depth, drill units.Length }{{units.MM(61), units.MM(10)},
		{units.Length{}, units.MM(10)}, {units.MM(1), units.Length{}}} {
		if _, err := speeds.DeepHoleFor(tt.depth, tt.drill); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v in %v: %v", tt.drill, tt.depth, err)
		}
	}
}

func TestPecksFor(t *testing.T) {
	got, err := speeds.PecksFor(units.MM(36), units.MM(5))
	want := []float64{10, 15, 20, 25, 30, 32.5, 35, 36}
	if err != nil || len(got.Depths) != len(want) || len(got.Tips) != len(want) {
		t.Fatalf("%v, %v", got, err)
	}
	for i := range want {
		if got.Depths[i] != units.MM(want[i]) {
			t.Errorf("peck %d at %v, want %v", i, got.Depths[i], want[i])
		}
	}
	if got, err := speeds.PecksFor(units.MM(4), units.MM(5)); err != nil || len(got.Depths) != 1 ||
		got.Depths[0] != units.MM(4) {
		t.Errorf("shallow: %v, %v", got, err)
	}
	for _, tt := range []struct{ depth, drill units.Length }{{units.MM(201), units.MM(5)},
		{units.Length{}, units.MM(5)}, {units.MM(5), units.Length{}}} {
		if _, err := speeds.PecksFor(tt.depth, tt.drill); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v in %v: %v", tt.drill, tt.depth, err)
		}
	}
}
