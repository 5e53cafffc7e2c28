package thread_test

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// Heights of nuts by works apart from the shipped ones.
func TestNutHeights(t *testing.T) {
	for r := range check.Open(t, "thread/nut_heights.csv").Rows() {
		nut, err := thread.MustParse(r.Text("thread")).NutHeight()
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		unit := units.MM(1)
		if r.Text("unit") == "in" {
			unit = units.Inch(1)
		}
		r.Compare("height_max", nut.Height.Max.Ratio(unit))
		r.Compare("height_min", nut.Height.Min.Ratio(unit))
	}
	// A nut is as high as the same hexagon is wide, more or less.
	nuts := 0
	for s := thread.MetricCoarse; s <= thread.BSF; s++ {
		for th := range s.All() {
			nut, err := th.NutHeight()
			if err != nil {
				continue
			}
			nuts++
			if h := nut.Height.Max.Ratio(th.Major()); h < 0.65 || h > 1 || nut.Height.Min.Cmp(nut.Height.Max) >= 0 || nut.Refs.IsZero() {
				t.Errorf("%v: %v high, %.2f of the diameter", th, nut.Height, h)
			}
		}
	}
	if nuts < 150 {
		t.Errorf("%d threads with nuts", nuts)
	}
	for name, want := range map[string]error{"2 BA": units.ErrUnknown, "1/4 x 40 ME": units.ErrUnknown, "M4.5": units.ErrOutOfRange} {
		if n, err := thread.MustParse(name).NutHeight(); !errors.Is(err, want) {
			t.Errorf("%s: %v, %v; want %v", name, n, err, want)
		}
	}
	if _, err := (thread.Thread{}).NutHeight(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no thread: %v", err)
	}
}
