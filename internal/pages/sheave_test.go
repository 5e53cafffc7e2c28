package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

// The page has heights, packing, dial readings and what one thou does, as the packages
// answer them; worked out by hand for an offset of 3.5 mm on 20 mm, EC-07.
func TestMaking(t *testing.T) {
	text := strings.Replace(demo(t, `travel = "6.4 mm"`, `travel = "7 mm"`), `jaw = "4 mm"`, `jaw = "3 mm"`, 1)
	b, err := pageOf(text, pages.Making)
	if err != nil {
		t.Fatal(err)
	}
	_, data := views(t, b)
	for key, want := range map[string]float64{
		"making_eccentric.sheave.offset_mm": 3.5, "making_eccentric.sheave.dial_reading_mm": 7, "making_eccentric.sheave.bar_least_mm": 20,
		"making_eccentric.sheave.thin_wall_mm": 2.5, "making_eccentric.sheave.boss_wall_mm": 2.5,
		"making_eccentric.marked_out.centre_height_mm": 14.142, "making_eccentric.marked_out.offset_height_mm": 17.642,
		"making_eccentric.set_over.packing_mm": 5.13, "making_eccentric.set_over.packing_wide_mm": 5.25, "making_eccentric.set_over.factor": 1.37,
		"making_eccentric.set_over.jaw_move_mm": 3.5, "making_eccentric.set_over.turns": 2.333, "making_eccentric.set_over.speed_limit_rev_min": 1598.4,
		"making_eccentric.set_over.block_mm.min": 2, "making_eccentric.set_over.block_mm.max": 7,
	} {
		near(t, at(data, key), want, 0.005*max(1, want/100))
	}
	rows, _ := at(data, "eccentric_by_thou.turned").([]any)
	if len(rows) != 5 {
		t.Fatal(rows)
	}
	near(t, at(rows[1], "offset_mm"), 3.5254, 1e-6)
	near(t, at(rows[3], "offset_mm"), 3.4746, 1e-6)
	near(t, at(rows[1], "head.lead_mm"), at(rows[0], "head.lead_mm").(float64)+0.0254*math.Sin(26*math.Pi/180), 1.5e-3) // dx = de sin d
	for name, test := range map[string]struct{ old, new, want string }{
		"a bar too small":       {"\nbar = \"20 mm\"", "\nbar = \"19 mm\"", "The bar of 19 mm is 1.00 mm (39 thou) too small"},
		"a bore at the side":    {`diameter = "18 mm"`, `diameter = "12.5 mm"`, "comes out through the side"},
		"jaws that push it off": {`jaw = "3 mm"`, `jaw = "0.5 mm"`, "press it on the packing with only"},
	} {
		b, err := pageOf(strings.Replace(text, test.old, test.new, 1), pages.Making)
		if err != nil {
			t.Fatal(name, err)
		}
		if told := finding.List(b.Findings); len(told) == 0 || !strings.Contains(told[0].Text, test.want) {
			t.Errorf("%s: no %q in %v", name, test.want, told)
		}
	}
	for name, test := range map[string]struct{ old, new, want string }{
		"no bar":              {"\nbar = \"20 mm\"", "", "sheave.bar: missing"},
		"a bar for no sheave": {"\nbar = \"20 mm\"", "\nbar = \"6 mm\"", "below half of the bar"},
		"a boss in the bore":  {`boss = "11 mm"`, `boss = "5 mm"`, "sheave.boss"},
		"a wide jaw":          {`jaw = "3 mm"`, `jaw = "30 mm"`, "sheave.jaw"},
		"a flat vee":          {`jaw = "3 mm"`, `vee = "180 deg"`, "sheave.vee"},
	} {
		if _, err := pageOf(strings.Replace(text, test.old, test.new, 1), pages.Making); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", name, err, test.want)
		}
	}
}
