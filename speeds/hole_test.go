package speeds_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// Before a 6 mm reamer 5.7 mm, before a 1/4 in one 6.1 mm, and never below 5.56
// mm; 15/64 in is inside the rule of a text of 1914.
func ExampleReamingHoles() {
	for _, reamer := range []units.Length{units.MM(6), units.InchFraction(1, 4)} {
		holes, err := speeds.ReamingHoles(reamer, speeds.Gunmetal)
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, h := range holes {
			if h.Rule != "carbide-tipped" {
				fmt.Printf("%v, %s: %s to %s, never below %s\n", reamer, h.Rule, h.Low.Text(units.Millimetres, 2), h.High.Text(units.Millimetres, 2), h.Least.Text(units.Millimetres, 2))
			}
		}
		fmt.Println("15/64 in by the usual stock:", holes[2].Contains(units.InchFraction(15, 64)))
	}
	// Output:
	// 6 mm, trade-training: 5.65 mm to 5.75 mm, never below 5.21 mm
	// 6 mm, machine reamer: 5.75 mm to 5.87 mm, never below 5.21 mm
	// 6 mm, usual stock: 5.60 mm to 5.75 mm, never below 5.21 mm
	// 15/64 in by the usual stock: false
	// 6.35 mm, trade-training: 6.00 mm to 6.10 mm, never below 5.56 mm
	// 6.35 mm, machine reamer: 6.10 mm to 6.22 mm, never below 5.56 mm
	// 6.35 mm, usual stock: 5.95 mm to 6.10 mm, never below 5.56 mm
	// 15/64 in by the usual stock: true
}

// A builder with drills in steps of 0.05 mm has three for a 6 mm reamer.
func ExampleReamingHole_Drills() {
	mine, _ := gauge.ParseSet("1-6x0.05 mm")
	holes, _ := speeds.ReamingHoles(units.MM(6), speeds.Gunmetal)
	drills, err := holes[0].Drills(mine)
	fmt.Println(drills, err)
	// Output: [5.65 mm 5.7 mm 5.75 mm] <nil>
}

func TestReamingHoles(t *testing.T) {
	aluminium, err := speeds.ReamingHoles(units.MM(10), speeds.Aluminium)
	if err != nil || aluminium[0].Low != units.MM(9.5) || aluminium[0].High != units.MM(9.65) {
		t.Errorf("aluminium: %+v, %v", aluminium, err)
	}
	for _, d := range []units.Length{units.Length{}, units.MM(-6), units.MM(0.5), units.MM(120)} {
		if _, err := speeds.ReamingHoles(d, speeds.Brass); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
	if _, err := aluminium[0].Drills(gauge.Set{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no drills: %v", err)
	}
	if _, err := speeds.ReamingHoles(units.MM(6), 0); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no material: %v", err)
	}
	// Bands join without a gap: every size from 1 to 100 mm has the default rule
	// first, and every hole is below its reamer and in order.
	for um := 1000; um <= 100_000; um += 50 {
		reamer := units.Micron(float64(um))
		holes, err := speeds.ReamingHoles(reamer, speeds.MildSteel)
		if err != nil || len(holes) == 0 || holes[0].Rule != "trade-training" {
			t.Fatalf("%v: %+v, %v", reamer, holes, err)
		}
		for _, h := range holes {
			if h.Low.Cmp(h.High) > 0 || h.High.Cmp(reamer) >= 0 {
				t.Fatalf("%v: %+v", reamer, h)
			}
		}
	}
}

func TestDrilledHoleSize(t *testing.T) {
	for _, tt := range []struct{ drill, min, max units.Length }{
		{units.Thou(13.5), units.Thou(12.5), units.Thou(17.5)},
		{units.Inch(0.125), units.Inch(0.124), units.Inch(0.129)},
		{units.Inch(0.126), units.Inch(0.125), units.Inch(0.131)},
		{units.Inch(0.5), units.Inch(0.499), units.Inch(0.506)},
		{units.Inch(2), units.Inch(1.999), units.Inch(2.012)},
	} { // AND10387, drilled hole size tolerance
		got, err := speeds.DrilledHoleSize(tt.drill)
		if err != nil || got.Min != tt.min || got.Max != tt.max || got.Ref.Title == "" {
			t.Errorf("%v: %+v, %v", tt.drill, got, err)
		}
	}
	for _, d := range []units.Length{units.Length{}, units.Thou(13), units.Inch(2.001)} {
		if _, err := speeds.DrilledHoleSize(d); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
}

func TestDeepHoleFactors(t *testing.T) {
	for _, tt := range []struct{ ratio, speed, feed float64 }{{1, 1, 1}, {2.99, 1, 1}, {3, 0.9, 0.9}, {3.5, 0.8, 0.9}, {5, 0.7, 0.8}, {6, 0.65, 0.8}} {
		got, err := speeds.DeepHoleFactors(units.MM(10*tt.ratio), units.MM(10))
		if err != nil || got.Speed != tt.speed || got.Feed != tt.feed {
			t.Errorf("%v diameters: %+v, %v", tt.ratio, got, err)
		}
	}
	for _, tt := range []struct{ depth, drill units.Length }{{units.MM(61), units.MM(10)}, {units.Length{}, units.MM(10)}, {units.MM(1), units.Length{}}} {
		if _, err := speeds.DeepHoleFactors(tt.depth, tt.drill); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v in %v: %v", tt.drill, tt.depth, err)
		}
	}
}

func TestPecks(t *testing.T) {
	got, err := speeds.Pecks(units.MM(36), units.MM(5))
	want := []float64{10, 15, 20, 25, 30, 32.5, 35, 36}
	if err != nil || len(got) != len(want) {
		t.Fatalf("%v, %v", got, err)
	}
	for i := range want {
		if got[i] != units.MM(want[i]) {
			t.Errorf("peck %d at %v, want %v", i, got[i], want[i])
		}
	}
	if got, err := speeds.Pecks(units.MM(4), units.MM(5)); err != nil || len(got) != 1 || got[0] != units.MM(4) {
		t.Errorf("shallow: %v, %v", got, err)
	}
	for _, tt := range []struct{ depth, drill units.Length }{{units.MM(201), units.MM(5)}, {units.Length{}, units.MM(5)}, {units.MM(5), units.Length{}}} {
		if _, err := speeds.Pecks(tt.depth, tt.drill); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v in %v: %v", tt.drill, tt.depth, err)
		}
	}
}

func TestDrillPointFor(t *testing.T) {
	p, err := speeds.DrillPointFor(speeds.Brass)
	if err != nil || p.Point != 130*units.Degree || p.Helix != "slow" { // Carvill, p. 182
		t.Errorf("%+v, %v", p, err)
	}
	if p, err := speeds.DrillPointFor(speeds.Plastics); err != nil || p.Point != 30*units.Degree || p.Material != "phenolic plastic" {
		t.Errorf("plastics: %+v, %v", p, err)
	}
	if p, err := speeds.DrillPointFor(speeds.CastAluminium); err != nil || p.Point != 140*units.Degree {
		t.Errorf("cast aluminium: %+v, %v", p, err)
	}
	if _, err := speeds.DrillPointFor(speeds.MildSteel); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("mild steel: %v", err)
	}
}

func TestFeeds(t *testing.T) {
	for _, tt := range []struct {
		op        speeds.Operation
		m         speeds.Material
		d         units.Length
		low, high units.Length
		per       string
	}{
		{speeds.Drilling, speeds.Brass, units.MM(5), units.Thou(2), units.Thou(4), "rev"}, // NAVEDTRA 14345, drill feed table
		{speeds.Drilling, speeds.Brass, units.Inch(0.125), units.Thou(2), units.Thou(4), "rev"},
		{speeds.Drilling, speeds.Copper, units.Inch(3), units.Thou(15), units.Thou(25), "rev"},
		{speeds.Turning, speeds.MildSteel, units.MM(20), units.Thou(3), units.Thou(10), "rev"}, // university workshop sheet, finish
		{speeds.Boring, speeds.MildSteel, units.MM(20), units.Thou(3), units.Thou(10), "rev"},  // as turning
		{speeds.RoughTurning, speeds.MildSteel, units.MM(20), units.Thou(10), units.Thou(20), "rev"},
		{speeds.Facing, speeds.CastIronSkin, units.MM(150), units.Thou(5), units.Thou(10), "rev"}, // university workshop sheet, cast iron: a finer feed would rub in the skin
		{speeds.RoughTurning, speeds.CastIronSkin, units.MM(150), units.Thou(15), units.Thou(25), "rev"},
		{speeds.Turning, speeds.Plastics, units.MM(20), units.MM(0.1), units.MM(0.1), "rev"},        // university tutorial sheet, Table 2
		{speeds.FinishTurning, speeds.Gunmetal, units.MM(20), units.Thou(3), units.Thou(10), "rev"}, // university workshop sheet, as bronze
		{speeds.Turning, speeds.Copper, units.MM(20), units.Thou(4), units.Thou(8), "rev"},          // finish figure
		{speeds.Milling, speeds.SilverSteel, units.MM(10), units.Thou(1), units.Thou(2), "tooth"},   // 4 V / D sheet, finishing
		{speeds.Parting, speeds.Stainless303, units.MM(10), units.Thou(2), units.Thou(2), "rev"},    // TM 1-420
	} {
		f, err := speeds.Feeds(tt.op, tt.m, tt.d)
		if err != nil || f.Low != tt.low || f.High != tt.high || f.Per() != tt.per || f.Ref.Title == "" {
			t.Errorf("%v in %v, %v: %+v, %v", tt.op, tt.m, tt.d, f, err)
		}
	}
	small, err := speeds.Feeds(speeds.Milling, speeds.CastIron, units.MM(3))
	if err != nil || small.Low != units.Thou(0.5) || small.High != units.Thou(1) || !strings.Contains(small.Note, "in proportion") {
		t.Errorf("3 mm cutter: %+v, %v", small, err)
	}
	for _, tt := range []struct {
		op   speeds.Operation
		m    speeds.Material
		d    units.Length
		want error
	}{
		{speeds.Tapping, speeds.Brass, units.MM(3), units.ErrUnknown},
		{speeds.Reaming, speeds.Brass, units.MM(3), units.ErrUnknown},
		{speeds.Drilling, speeds.Brass, units.MM(0.2), units.ErrOutOfRange},
		{speeds.Drilling, speeds.Brass, units.Length{}, units.ErrOutOfRange},
		{speeds.Drilling, 0, units.MM(3), units.ErrUnknown},
		{speeds.Turning, speeds.ZincAlloy, units.MM(3), units.ErrUnknown},
	} {
		if f, err := speeds.Feeds(tt.op, tt.m, tt.d); !errors.Is(err, tt.want) {
			t.Errorf("%v in %v, %v: %+v, %v", tt.op, tt.m, tt.d, f, err)
		}
	}
}
