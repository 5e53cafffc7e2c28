package pages_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/pages"
)

// One ground bar has one size, the rules of practice decide the piston, and a part
// is made to its mate as that came out.
func TestFitsPageBarPackingCameOut(t *testing.T) {
	const bar = "[[fits]]\nwhere = \"bearing\"\nnominal = \"6 mm\"\nbar = \"h6\"\n"
	const piston = "[[fits]]\nwhere = \"piston in cylinder\"\nnominal = \"20 mm\"\n"
	for _, test := range []struct {
		name, entry string
		hole, shaft [2]float64
		code        string
	}{
		{"bar", bar + "fit = \"F8/h6\"\n", [2]float64{6.01, 6.028}, [2]float64{5.992, 6}, ""},
		{"bar, a clearance", bar + "clearance_least = \"0.01 mm\"\nclearance_most = \"0.04 mm\"\n", [2]float64{6.01, 6.028}, [2]float64{5.992, 6}, ""},
		{"soft packing", piston + "packing = \"soft packing\"\n", [2]float64{20, 20.033}, [2]float64{19.9314, 19.9492}, ""},
		{"rings", piston + "packing = \"metal rings\"\n", [2]float64{20, 20}, [2]float64{19.96, 19.98}, ""},
		{"FI-12", piston + "clearance_least = \"0.05 mm\"\nclearance_most = \"0.08 mm\"\nhole_came_out = \"20.03 mm\"\n", [2]float64{20.03, 20.03}, [2]float64{19.95, 19.98}, ""},
		{"looser than any rule", piston + "fit = \"H9/d9\"\n", [2]float64{20, 20.052}, [2]float64{19.883, 19.935}, string(assembly.OutsidePistonRules)},
	} {
		b := fitsOf(t, test.entry)
		_, data := views(t, b)
		item := data["fits"].([]any)[0]
		for path, want := range map[string]float64{
			"hole_mm.min": test.hole[0], "hole_mm.max": test.hole[1], "shaft_mm.min": test.shaft[0], "shaft_mm.max": test.shaft[1],
		} {
			if got := at(item, path).(float64); got-want > 1e-9 || want-got > 1e-9 {
				t.Errorf("%s: %s is %v, want %v", test.name, path, got, want)
			}
		}
		if said := b.All(); (len(said) > 0) != (test.code != "") || len(said) > 0 && string(said[0].Code) != test.code {
			t.Errorf("%s: %v", test.name, said)
		}
	}
	for entry, want := range map[string]string{
		bar + "fit = \"H8/f7\"\n":                                         "accepted: F8/h6, on shaft basis",
		bar + "fit = \"RC4\"\n":                                           "is no fit of ISO 286",
		piston + "packing = \"soft packing\"\nfit = \"H9/d9\"\n":          "packing is given too",
		piston + "fit = \"H9/d9\"\nhole_came_out = \"2.03 mm\"\n":         "within a twentieth of it",
		piston + "packing = \"metal rings\"\nhole_came_out = \"25 mm\"\n": "within a twentieth of it",
	} {
		if _, err := pages.EngineFile("test.toml", []byte(withFits(t, entry))); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n%v, want %q", entry, err, want)
		}
	}
}

// FI-05: an aluminium piston of 1.5 in in a cylinder of iron loses 2.4 thou of its
// clearance with both parts at 150 degrees C, and 4.5 while the cylinder is still
// cold; one of brass 1.7 with both hot, and one of iron in a cold cylinder 2.0 by an
// expansion of 10.5 ppm/K, 2.2 by the 11.4 of grey iron here.
func TestPistonRunsHot(t *testing.T) {
	for _, test := range []struct {
		metal, key string
		thou       float64
	}{
		{"aluminium", "clearance_both_hot_mm", 2.4}, {"aluminium", "clearance_shaft_hot_mm", 4.5},
		{"cast iron", "clearance_shaft_hot_mm", 2.2}, {"brass", "clearance_both_hot_mm", 1.7},
	} {
		b := fitsOf(t, fmt.Sprintf(`
[[fits]]
where = "piston"
nominal = "1.5 in"
fit = "H9/d9"
hole_material = "cast iron"
shaft_material = "%s"
hole_at = "150 degC"
shaft_at = "150 degC"
`, test.metal))
		_, data := views(t, b)
		list, _ := data["fits"].([]any)
		if len(list) != 1 {
			t.Fatal(data)
		}
		least := func(key string) float64 {
			mm, ok := at(list[0], key+".min").(float64)
			if !ok {
				t.Fatal(key, list[0])
			}
			return mm / 0.0254
		}
		if got := least("clearance_mm") - least(test.key); math.Abs(got-test.thou) > 0.11 {
			t.Errorf("FI-05, %s, %s: loses %.2f thou, want %.1f", test.metal, test.key, got, test.thou)
		}
	}
}
