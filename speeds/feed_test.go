package speeds_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A 5 mm drill in gunmetal by the drill feed table of a manual; for turning, the
// feed of bronze stands in.
func ExampleFeedFor() {
	gunmetal, _ := material.Lookup("gunmetal")
	f, err := speeds.FeedFor(speeds.Drilling, gunmetal, units.MM(5))
	fmt.Printf("%v to %v per %s, %v %v\n", f.Min.Text(units.Millimetres, 3), f.Max.Text(units.Millimetres, 3), f.Per(),
		f.Refs.First().Title, err)
	f, err = speeds.FeedFor(speeds.Turning, gunmetal, units.MM(20))
	fmt.Printf("%v to %v per %s, %s %v\n", f.Min.Text(units.Millimetres, 3), f.Max.Text(units.Millimetres, 3), f.Per(),
		f.Stands, err)
	all, err := speeds.PublishedFeedsFor(speeds.Drilling, gunmetal, units.MM(5))
	fmt.Println(len(all), "published", err)
	// Output:
	// 0.051 mm to 0.102 mm per rev, US Navy training manual NAVEDTRA 14345 <nil>
	// 0.076 mm to 0.254 mm per rev, as bearing bronze <nil>
	// 2 published <nil>
}

func TestFeedsPublished(t *testing.T) {
	f := check.Open(t, "speeds/feeds.csv")
	printed := map[[2]units.Length]bool{}
	var starts []speeds.Feed
	for r := range f.Rows() {
		op, err := speeds.ParseOperation(r.Text("operation"))
		if err != nil {
			t.Fatal(err)
		}
		unit, per, _ := strings.Cut(r.Text("unit"), "/")
		name, _, _ := strings.Cut(r.Text("materials"), ";")
		m := metal("mild steel")
		if name != "any" {
			if m, err = material.Lookup(name); err != nil {
				t.Fatal(err)
			}
		}
		d := units.MM(10)
		if r.Has("size_unit") {
			d = units.MustLength(r.Text("size_low") + " " + r.Text("size_unit"))
			if d.IsZero() {
				d = units.Thou(20)
			}
		}
		feeds, err := speeds.PublishedFeedsFor(op, m, d)
		if err != nil {
			t.Fatal(err)
		}
		l, err := units.ParseLengthUnit(unit)
		if err != nil {
			t.Fatal(err)
		}
		in := func(x units.Length) float64 { return x.Ratio(units.MustLength("1 " + l.String())) }
		// this is the row's own feed among those of a diameter
		its := func(feeds []speeds.Feed) int {
			return slices.IndexFunc(feeds, func(got speeds.Feed) bool {
				return got.Per() == per && got.Min == units.MustLength(r.Text("low")+" "+unit) &&
					got.Max == units.MustLength(r.Text("high")+" "+unit) && got.Refs.First().Locator == r.Text("locator")
			})
		}
		ends := [2]units.Length{units.MustLength(r.Text("low") + " " + unit), units.MustLength(r.Text("high") + " " + unit)}
		printed[ends] = true
		if start, err := speeds.FeedFor(op, m, d); err == nil {
			starts = append(starts, start)
		}
		i := its(feeds)
		if i < 0 {
			t.Errorf("%s: not among %v", r.ID, feeds)
			continue
		}
		r.Compare("low", in(feeds[i].Min))
		r.Compare("high", in(feeds[i].Max))
		if !r.Has("size_unit") {
			continue
		}
		// A hair outside its sizes the feed is not that of the row: a band ends
		// below its upper end, which belongs to the next.
		outside := []units.Length{d.Sub(units.Micron(1))}
		if r.Text("size_low") == "0" {
			outside = nil
		}
		switch high := r.Optional("size_high"); high {
		case "":
		case r.Text("size_low"):
			outside = append(outside, d.Add(units.Micron(1)))
		default:
			end := units.MustLength(high + " " + r.Text("size_unit"))
			outside = append(outside, end)
			inside, err := speeds.PublishedFeedsFor(op, m, end.Sub(units.Micron(1)))
			if err != nil || its(inside) < 0 {
				t.Errorf("%s: not up to %v: %v, %v", r.ID, end, inside, err)
			}
		}
		for _, at := range outside {
			if feeds, err := speeds.PublishedFeedsFor(op, m, at); err != nil || its(feeds) >= 0 {
				t.Errorf("%s: also at %v: %v, %v", r.ID, at, feeds, err)
			}
		}
	}
	// What is started from is in print; of a milling cutter it goes down to half of that.
	for _, s := range starts {
		if !printed[[2]units.Length{s.Min, s.Max}] && !(s.PerTooth && printed[[2]units.Length{s.Min.Scale(2), s.Max}]) {
			t.Errorf("%v is printed nowhere", s)
		}
	}
	if len(starts) == 0 {
		t.Error("nothing to start from")
	}
}

func TestFeeds(t *testing.T) {
	for _, tt := range []struct {
		op        speeds.Operation
		m         material.Material
		d         units.Length
		low, high units.Length
		per       string
	}{
		{speeds.Drilling, metal("brass"), units.MM(5), units.Thou(2), units.Thou(4), "rev"}, // NAVEDTRA 14345, drill feed table
		{speeds.Drilling, metal("brass"), units.Inch(0.125), units.Thou(2), units.Thou(4), "rev"},
		{speeds.Drilling, metal("copper"), units.Inch(3), units.Thou(15), units.Thou(25), "rev"},
		{speeds.Turning, metal("mild steel"), units.MM(20), units.Thou(3), units.Thou(10), "rev"}, // university workshop sheet, finish
		{speeds.Boring, metal("mild steel"), units.MM(20), units.Thou(3), units.Thou(10), "rev"},  // as turning
		{speeds.RoughTurning, metal("mild steel"), units.MM(20), units.Thou(10), units.Thou(20), "rev"},
		{speeds.Facing, metal("cast iron, skin on"), units.MM(150), units.Thou(5), units.Thou(10), "rev"}, // university workshop sheet, cast iron: a finer feed would rub in the skin
		{speeds.RoughTurning, metal("cast iron, skin on"), units.MM(150), units.Thou(15), units.Thou(25), "rev"},
		{speeds.Turning, metal("plastic"), units.MM(20), units.MM(0.1), units.MM(0.1), "rev"},            // university tutorial sheet, Table 2
		{speeds.FinishTurning, metal("gunmetal"), units.MM(20), units.Thou(3), units.Thou(10), "rev"},    // university workshop sheet, as bronze
		{speeds.Turning, metal("copper"), units.MM(20), units.Thou(4), units.Thou(8), "rev"},             // finish figure
		{speeds.Milling, metal("silver steel"), units.MM(10), units.Thou(1), units.Thou(2), "tooth"},     // 4 V / D sheet, finishing
		{speeds.FlyCutting, metal("cast iron"), units.MM(63), units.Thou(5), units.Thou(10), "rev"},      // as finish turning
		{speeds.FaceMilling, metal("cast iron"), units.MM(50), units.Thou(2), units.Thou(16), "tooth"},   // half of 4
		{speeds.FaceMilling, metal("mild steel"), units.MM(50), units.Thou(3.5), units.Thou(7), "tooth"}, // half of 7
		{speeds.SlotMilling, metal("cast iron"), units.Inch(0.125), units.Thou(0.25), units.Thou(0.5), "tooth"},
		{speeds.SlotMilling, metal("cast iron"), units.Inch(0.1875), units.Thou(0.375), units.Thou(0.75), "tooth"}, // between 0.5 and 1
		{speeds.SlotMilling, metal("cast iron"), units.Inch(0.0625), units.Thou(0.125), units.Thou(0.25), "tooth"}, // in proportion
		{speeds.SlotMilling, metal("gunmetal"), units.Inch(0.25), units.Thou(1), units.Thou(2), "tooth"},           // as bearing bronze
		{speeds.SlotMilling, metal("cast iron"), units.Inch(2), units.Thou(3.5), units.Thou(7), "tooth"},           // that of 1 in
		{speeds.Parting, metal("stainless steel 303"), units.MM(10), units.Thou(2), units.Thou(2), "rev"},          // TM 1-420
	} {
		f, err := speeds.FeedFor(tt.op, tt.m, tt.d)
		if err != nil || f.Min != tt.low || f.Max != tt.high || f.Per() != tt.per || f.Refs.First().Title == "" {
			t.Errorf("%v in %v, %v: %+v, %v", tt.op, tt.m, tt.d, f, err)
		}
	}
	small, err := speeds.FeedFor(speeds.Milling, metal("cast iron"), units.MM(3))
	if err != nil || small.Min != units.Thou(0.5) || small.Max != units.Thou(1) ||
		!strings.Contains(small.Note, "in proportion") {
		t.Errorf("3 mm cutter: %+v, %v", small, err)
	}
	for _, tt := range []struct {
		op   speeds.Operation
		m    material.Material
		d    units.Length
		want error
	}{
		{speeds.Tapping, metal("brass"), units.MM(3), units.ErrUnknown},
		{speeds.Reaming, metal("brass"), units.MM(3), units.ErrUnknown},
		{speeds.Drilling, metal("brass"), units.MM(0.2), units.ErrOutOfRange},
		{speeds.Drilling, metal("brass"), units.Length{}, units.ErrOutOfRange},
		{speeds.Drilling, material.Material{}, units.MM(3), units.ErrMissing},
		{speeds.Drilling, metal("paper"), units.MM(3), units.ErrUnknown},
		{speeds.Turning, metal("zinc alloy"), units.MM(3), units.ErrUnknown},
		{speeds.SlotMilling, metal("zinc alloy"), units.MM(3), units.ErrUnknown},
		{speeds.FlyCutting, metal("zinc alloy"), units.MM(3), units.ErrUnknown},
	} {
		if f, err := speeds.FeedFor(tt.op, tt.m, tt.d); !errors.Is(err, tt.want) {
			t.Errorf("%v in %v, %v: %+v, %v", tt.op, tt.m, tt.d, f, err)
		}
	}
}
