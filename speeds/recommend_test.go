package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A US Navy manual drills mild steel at 80 to 110 ft/min with HSS.
func ExampleRecommend() {
	steel, _ := material.Lookup("mild steel")
	r, err := speeds.Recommend(speeds.Drilling, steel, speeds.HSS)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f to %.1f m/min, %v\n", r.Min/units.MetrePerMinute, r.Max/units.MetrePerMinute,
		r.Published.Refs.First().Title)

	gunmetal, _ := material.Lookup("gunmetal")
	r, err = speeds.Recommend(speeds.Reaming, gunmetal, speeds.HSS)
	fmt.Printf("%.1f m/min, %v %v\n", r.Max/units.MetrePerMinute, r.Published.Material, err)

	brass, _ := material.Lookup("brass")
	_, err = speeds.Recommend(speeds.Knurling, brass, speeds.Carbide)
	fmt.Println(err)
	// Output:
	// 24.4 to 33.5 m/min, US Navy training manual NAVEDTRA 14345
	// 4.5 m/min, phosphor bronze <nil>
	// speeds: pairing knurling in brass with carbide: a knurl presses and does not cut; its wheels are hardened steel; accepted: HSS, carbon steel
}

// A book for boys of 1914 turns brass at 25 to 50 ft/min and means carbon steel;
// a tutorial sheet of today turns it three to six times as fast.
func ExampleRecommend_oldBooks() {
	brass, _ := material.Lookup("brass")
	for _, tool := range []speeds.Tool{speeds.CarbonSteel, speeds.HSS} {
		r, err := speeds.Recommend(speeds.Turning, brass, tool)
		if err != nil {
			fmt.Println(err)
			return
		}
		low, _ := speeds.SpindleSpeed(r.Min, units.Inch(1))
		high, _ := speeds.SpindleSpeed(r.Max, units.Inch(1))
		fmt.Printf("%v: %.0f to %.0f rev/min on 1 in, %s, %s\n", tool, low/units.RevPerMinute, high/units.RevPerMinute,
			r.Published.Period, r.Published.Refs.First().Title)
	}
	// Output:
	// carbon steel: 95 to 191 rev/min on 1 in, 1914, Zerbe, Practical Mechanics for Boys
	// HSS: 564 to 1504 rev/min on 1 in, modern, University tutorial sheet, nominal cutting speeds and feeds
}

// Whatever an engine is made of, every operation with HSS has a figure, with a
// source, in order, and slower operations are slower.
func TestRecommendCovers(t *testing.T) {
	engine := []material.Material{
		metal("free-cutting mild steel"), metal("mild steel"), metal("medium carbon steel"), metal("silver steel"),
		metal("tool steel"),
		metal("stainless steel 303"), metal("stainless steel 304"), metal("cast iron"), metal("brass"), metal("gunmetal"),
		metal("bearing bronze"),
		metal("phosphor bronze"), metal("copper"), metal("aluminium"), metal("cast aluminium"),
	}
	get := func(op speeds.Operation, m material.Material) speeds.Range {
		t.Helper()
		r, err := speeds.Recommend(op, m, speeds.HSS)
		if err != nil {
			t.Fatal(err)
		}
		if !(0 < r.Min && r.Min <= r.Max) || r.Refs.First().Kind == 0 || r.Published.Refs.First().Title == "" {
			t.Errorf("%v in %v: %+v", op, m, r)
		}
		if r.Max > 250*units.MetrePerMinute {
			t.Errorf("%v in %v with HSS: %v", op, m, r.Max)
		}
		return r
	}
	for _, m := range engine {
		for _, op := range speeds.Operations() {
			if op != speeds.DieCutting { // by hand
				get(op, m)
			}
		}
		turning, drilling := get(speeds.Turning, m), get(speeds.Drilling, m)
		for _, op := range []speeds.Operation{speeds.Parting, speeds.Grooving, speeds.Screwcutting,
			speeds.Knurling} {
			if r := get(op, m); r.Max >= turning.Max || r.Refs.Len() < 2 {
				t.Errorf("%v in %v at %v, turning at %v, rule of %v", op, m, r.Max, turning.Max, r.Refs)
			}
		}
		if r := get(speeds.Reaming, m); r.Max >= drilling.Max {
			t.Errorf("reaming %v at %v, drilling at %v", m, r.Max, drilling.Max)
		}
		if r := get(speeds.FinishTurning, m); r.Max < get(speeds.RoughTurning, m).Max {
			t.Errorf("finish turning %v slower than roughing", m)
		}
		if r, err := speeds.Recommend(speeds.Turning, m, speeds.Carbide); err != nil || r.Max <= turning.Max {
			t.Errorf("carbide turns %v at %v, %v; HSS at %v", m, r.Max, err, turning.Max)
		}
	}
	// The skin is no faster than the iron below it, whatever is done to it.
	for _, op := range speeds.Operations() {
		skin, err := speeds.Recommend(op, metal("cast iron, skin on"), speeds.HSS)
		if err != nil {
			continue // nobody taps a skin
		}
		if clean := get(op, metal("cast iron")); skin.Max >= clean.Max {
			t.Errorf("%v: skin at %v, clean iron at %v", op, skin.Max, clean.Max)
		}
	}
	skin := get(speeds.Facing, metal("cast iron, skin on"))
	if clean := get(speeds.Facing, metal("cast iron")); skin.Max >= clean.Max || !skin.Refs.Recalled() {
		t.Errorf("skin %v, clean %v, %v", skin.Max, clean.Max, skin.Published.Refs)
	}
}

// Where sources of a reaming speed are twofold and more apart it starts from the
// slowest, and says what the others are: gunmetal at a handbook's 4.5 m/min, not at
// half of a modern drilling speed.
func TestReamingStartsFromTheSlowest(t *testing.T) {
	apart := 0
	for _, m := range speeds.Materials() {
		for _, tool := range speeds.Tools() {
			r, err := speeds.Recommend(speeds.Reaming, m, tool)
			if err != nil {
				continue
			}
			others, err := r.Differing()
			if err != nil {
				t.Fatal(err)
			}
			for i, o := range others {
				apart++
				if o.Max < 2*r.Max || i > 0 && o.Max < others[i-1].Max || o.Refs.IsZero() || o.Material.Name != m.Name {
					t.Errorf("%v with %v at %v to %v; another %v to %v, %v", m, tool, r.Min, r.Max, o.Min, o.Max, o.Refs)
				}
			}
		}
	}
	if apart < 20 {
		t.Errorf("%d figures apart, want 20 and more", apart)
	}
	for name, want := range map[string]float64{"gunmetal": 4.5, "bearing bronze": 4.5, "phosphor bronze": 4.5, "brass": 18, "cast iron": 7.5} {
		r, err := speeds.Recommend(speeds.Reaming, metal(name), speeds.HSS)
		if err != nil || math.Abs(r.Max.In(units.MetrePerMinute)-want) > 1e-9 {
			t.Errorf("%s: %v, %v; want %v m/min", name, r.Max, err, want)
		}
	}
	if _, err := (speeds.Range{}).Differing(); err == nil {
		t.Error("what differs from nothing")
	}
}

// What is said of reaming bearing bronze: a handbook, a starting point, an old rule.
func ExampleRange_Differing() {
	bronze, _ := material.Lookup("bearing bronze")
	r, _ := speeds.Recommend(speeds.Reaming, bronze, speeds.HSS)
	fmt.Printf("%.1f m/min\n", r.Max.In(units.MetrePerMinute))
	others, err := r.Differing()
	for _, o := range others {
		fmt.Printf("%.1f to %.1f m/min, %v\n", o.Min.In(units.MetrePerMinute), o.Max.In(units.MetrePerMinute), o.Basis)
	}
	fmt.Println(err)
	// Output:
	// 4.5 m/min
	// 30.5 to 45.7 m/min, 0.5 of drilling (machine reamer)
	// 20.1 to 45.7 m/min, 0.33 to 0.5 of drilling (one third to one half, a starting point)
	// <nil>
}

func TestRecommendRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		op   speeds.Operation
		m    material.Material
		tool speeds.Tool
		want error
		text string
	}{
		{"no operation", 0, metal("brass"), speeds.HSS, units.ErrUnknown, "centre drilling"},
		{"no material", speeds.Turning, material.Material{}, speeds.HSS, units.ErrMissing, "phosphor bronze"},
		{"no tool", speeds.Turning, metal("brass"), 0, units.ErrUnknown, "carbide"},
		{"a material of no table", speeds.Turning, material.Material{Name: "unobtainium"}, speeds.HSS, units.ErrUnknown, "cast iron"},
		{"knurling with carbide", speeds.Knurling, metal("mild steel"), speeds.Carbide, units.ErrOutOfRange, "presses"},
		{"tapping with carbide", speeds.Tapping, metal("cast iron"), speeds.Carbide, units.ErrOutOfRange, "break"},
		{"tapping chilled iron", speeds.Tapping, metal("chilled iron"), speeds.HSS, units.ErrOutOfRange, "ground"},
		{"early HSS drills", speeds.Drilling, metal("mild steel"), speeds.EarlyHSS, units.ErrUnknown, "no figure"},
	} {
		_, err := speeds.Recommend(tt.op, tt.m, tt.tool)
		if !errors.Is(err, tt.want) || !strings.Contains(err.Error(), tt.text) {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// The figure that Recommend picks has to agree with the rest of the trade:
// wherever two or more sources give the pairing, the default overlaps one of the
// others, or lies within a quarter of it. Three stand alone, each because it is
// the cautious one of two figures that are far apart.
func TestDefaultsAgree(t *testing.T) {
	compared := 0
	cautious := map[string]bool{
		"drilling silver steel": true, // as tool steel of 1.2 % carbon; annealed W1 is given 85 ft/min
		"drilling chilled iron": true, // chilled; the other source means hard grey iron
		"tapping plastic":       true, // thermosetting; thermoplastics take twice that

		"drilling phosphor bronze": true, // a handbook's; a drill maker's high tensile bronze is drilled faster
	}
	for _, op := range speeds.Operations() {
		for _, m := range speeds.Materials() {
			for _, tool := range speeds.Tools() {
				got, err := speeds.Recommend(op, m, tool)
				if err != nil || got.Basis != "" {
					continue
				}
				rows, err := speeds.PublishedFor(op, m, tool)
				if err != nil || len(rows) < 2 {
					continue
				}
				compared++
				if !slices.ContainsFunc(rows, func(p speeds.Published) bool {
					return !reflect.DeepEqual(p, got.Published) && p.Min*0.75 <= got.Max && p.Max*1.25 >= got.Min
				}) {
					slowest := !slices.ContainsFunc(rows, func(p speeds.Published) bool { return p.Min < got.Min })
					if slowest && cautious[op.String()+" "+m.String()] {
						continue
					}
					t.Errorf("%v in %v with %v: %v to %v stands alone", op, m, tool, got.Min, got.Max)
				}
			}
		}
	}
	if compared < 25 {
		t.Errorf("%d pairings compared, want 25 and more", compared)
	}
	t.Logf("%d defaults compared with other sources", compared)
}

func TestRecommendAllocatesNothing(t *testing.T) {
	brass := metal("brass")
	if _, err := speeds.Recommend(speeds.Turning, brass, speeds.HSS); err != nil {
		t.Fatal(err)
	}
	allocs := testing.AllocsPerRun(100, func() {
		r, err := speeds.Recommend(speeds.Turning, brass, speeds.HSS)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := speeds.SpindleSpeed(r.Max, units.MM(20)); err != nil {
			t.Fatal(err)
		}
	})
	if allocs != 0 {
		t.Errorf("%v allocations", allocs)
	}
}

func BenchmarkRecommend(b *testing.B) {
	brass := metal("brass")
	if _, err := speeds.Recommend(speeds.Turning, brass, speeds.HSS); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := speeds.Recommend(speeds.Turning, brass, speeds.HSS); err != nil {
			b.Fatal(err)
		}
	}
}

// What the first call of Recommend costs.
func BenchmarkFirstUse(b *testing.B) {
	for b.Loop() {
		if n, err := speeds.FirstUse(); err != nil || n == 0 {
			b.Fatal(n, err)
		}
	}
}

func TestErrata(t *testing.T) {
	brass, err := speeds.Recommend(speeds.RoughTurning, metal("brass"), speeds.HSS)
	if err != nil {
		t.Fatal(err)
	}
	n, err := speeds.SpindleSpeed(0.9*units.MetrePerSecond, units.MM(150))
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "speeds", map[string]float64{
		"carvill-units": float64(brass.Max / units.MetrePerMinute),
		"student-rpm":   float64(n / units.RevPerMinute),
	})
}
