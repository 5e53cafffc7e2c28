package pages_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

// withFits returns the file of the demonstration engine with other fits.
func withFits(t *testing.T, entries string) string {
	t.Helper()
	engine, _, _ := strings.Cut(demo(t, "", ""), "[[fits]]")
	return engine + entries
}

// fitsOf makes the page of some fits.
func fitsOf(t *testing.T, entries string) book.Book {
	t.Helper()
	b, err := pageOf(withFits(t, entries), pages.Fits)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// codes returns where each finding is and what it is about.
func codes(list finding.List) map[string]finding.Finding {
	all := map[string]finding.Finding{}
	for _, f := range list {
		all[f.Where+"/"+string(f.Code)] = f
	}
	return all
}

func TestFitsPage(t *testing.T) {
	b := fitsOf(t, `
[[fits]]
where = "main bearing"
nominal = "10 mm"
fit = "H7/g6"

[[fits]]
where = "inch bearing"
nominal = "3/4 in"
fit = "RC4"

[[fits]]
where = "aluminium piston"
nominal = "1.5 in"
clearance_least = "0.02 mm"
clearance_most = "0.09 mm"
hole_material = "cast iron"
shaft_material = "aluminium"
hole_at = "150 degC"
shaft_at = "302 degF"
hot_least = "0.02 mm"

[[fits]]
where = "bush in an aluminium frame"
nominal = "10 mm"
fit = "H7/p6"
hole_material = "aluminium"
shaft_material = "cast iron"
hole_at = "150 degC"
shaft_at = "150 degC"

[[fits]]
where = "guide"
nominal = "8 mm"
fit = "H8/f7"
hole_material = "gunmetal"
shaft_material = "stainless steel 304"
hole_at = "90 degC"
shaft_at = "90 degC"
hot_least = "0.006 mm"
`)
	said := codes(b.All())
	// 0.025 mm cold less 0.1169 mm is 0.0919 mm of interference, and 0.02 mm is to
	// be left.
	if got := strings.Join(said["aluminium piston/"+string(assembly.SeizesHot)].Remedies, " "); got !=
		"Give it 0.112 mm (4.4 thou) more clearance: a shaft of 37.963 mm (1.4946 in) at most." {
		t.Errorf("remedy %q", got)
	}
	for _, want := range []string{
		"aluminium piston/seizes-hot", "bush in an aluminium frame/loose-hot", "guide/tight-hot",
	} {
		if said[want].Text == "" {
			t.Errorf("no finding %s in %v", want, said)
		}
	}
	text, data := views(t, b)
	for _, want := range []string{
		"main bearing: 10 mm (0.3937 in) H7/g6, clearance fit", "9.986 to 9.995 mm", "0.005 to 0.029 mm", "sliding",
		"0.3938 to 0.3942 in", // 10 to 10.015 mm is 0.39370 to 0.39429 in
		"9.99 mm only", "9.0 of 9.0 um lost",
		"= 0.013 mm - 8 mm x (17.2 ppm/K x 70 K - 18 ppm/K x 70 K)",
		"inch bearing: 19.05 mm (0.7500 in) RC4", "shaft, to 1 thou 0.749 in only 0.80 of 0.80 thou lost", "0.7500 to 0.7512 in", "0.7484 to 0.7492 in",
		"19.010 to 19.029 mm", // 0.7484 to 0.7492 in is 19.00936 to 19.02968 mm
		"shaft hot, hole cold",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}

	// 38.1 mm x 23.6e-6/K x 130 K = 0.1169 mm that the piston closes while the
	// cylinder is cold; both hot (23.6 - 11.4)e-6/K leaves 0.0604 mm.
	piston := data["fits"].([]any)[2]
	mm := func(path string) float64 { return at(piston, path).(float64) }
	if math.Abs(mm("clearance_mm.min")-mm("clearance_shaft_hot_mm.min")-0.1169) > 0.0001 ||
		math.Abs(mm("clearance_mm.max")-mm("clearance_both_hot_mm.max")-0.0604) > 0.0001 ||
		at(piston, "where") != "aluminium piston" || at(piston, "shaft_heated.material") != "aluminium" ||
		at(piston, "shaft_heated.expansion_per_k") != 23.6e-6 || math.Abs(mm("hole_heated.rise_k")-130) > 1e-9 ||
		mm("clearance_wanted_mm.min") != 0.02 || mm("clearance_wanted_mm.max") != 0.09 {
		t.Errorf("%v", piston)
	}
	if bearing := data["fits"].([]any)[0]; at(bearing, "shaft_on_steps_mm.max") != 9.99 || at(bearing, "shaft_lost_um") != 9.0 ||
		at(bearing, "shaft_step_mm") != 0.01 || at(bearing, "fit") != "H7/g6" || at(bearing, "kind") != "clearance" {
		t.Errorf("%v", bearing)
	}
}

// A fit whose tightest parts are more than the trade presses is said to be so, as
// where two parts of those sizes are measured.
func TestFitsPageTightFit(t *testing.T) {
	said := codes(fitsOf(t, "[[fits]]\nwhere = \"crank pin\"\nnominal = \"6 mm\"\nfit = \"H7/s6\"\n").All())
	if f := said["crank pin/beyond-press-rules"]; f.Severity != finding.Caution || !strings.Contains(f.Text, "0.027 mm (1.06 thou), 4.5 thou per inch") {
		t.Errorf("%v", said)
	}
}

// Classes LC1 to LC5 were recalled, and a transition fit has no clearance to
// keep when hot.
func TestFitsPageWarnings(t *testing.T) {
	b := fitsOf(t, `
[[fits]]
where = "collar"
nominal = "1 in"
fit = "LC2"

[[fits]]
where = "crank web"
nominal = "10 mm"
fit = "H7/k6"
hole_material = "mild steel"
shaft_material = "mild steel"
hole_at = "80 degC"
shaft_at = "80 degC"
hot_least = "0.01 mm"
`)
	var kinds []string
	for _, f := range b.Findings {
		kinds = append(kinds, f.Where+"/"+string(f.Code))
	}
	if got, want := strings.Join(kinds, ", "), "collar/limits-from-memory, crank web/no-clearance-cold"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if text, _ := views(t, b); !strings.Contains(text, "[1] (from memory)") || !strings.Contains(text, "[1] from memory: ANSI B4.1") {
		t.Error(text)
	}
}

// The parts of an engine are not equally hot: a 20 mm iron piston at 150 degrees
// C in iron at 110 degrees C closes by 20 mm x 11.4e-6/K x 40 K = 0.0091 mm, by
// 0.0296 mm while the cylinder is cold, and gains 0.0205 mm while the piston is.
func TestFitsPageUnequalHeat(t *testing.T) {
	_, data := views(t, fitsOf(t, `
[[fits]]
where = "piston"
nominal = "20 mm"
fit = "H9/d9"
hole_material = "cast iron"
shaft_material = "cast iron"
hole_at = "110 degC"
shaft_at = "150 degC"
`))
	piston := data["fits"].([]any)[0]
	least := func(key string) float64 { return at(piston, key+"_mm.min").(float64) }
	cold := least("clearance")
	for key, want := range map[string]float64{
		"clearance_both_hot": 0.00912, "clearance_shaft_hot": 0.02964, "clearance_hole_hot": -0.02052,
	} {
		if got := cold - least(key); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: closes by %.5f mm, want %.5f", key, got, want)
		}
	}
}

func TestFitsPageWithoutFits(t *testing.T) {
	if b := fitsOf(t, ""); len(b.Sections)+len(b.Findings) != 0 {
		t.Error(b)
	}
}

func TestFitsPageComplaints(t *testing.T) {
	const good = `
[[fits]]
where = "bearing"
nominal = "10 mm"
fit = "H7/g6"
`
	for _, test := range []struct{ entries, want string }{
		{"[[fits]]\nfit = \"H7/g6\"\n", "fits[1].where: missing"},
		{"[[fits]]\nfit = \"H7/g6\"\n", "fits[1].nominal: missing"},
		{"[[fits]]\nwhere = \"a\"\nnominal = \"10 mm\"\n", "fits[1].fit: missing"},
		{good + "hot_least = \"-1 um\"\n", "fits[1].hot_least: -0.001 mm: out of range"},
		{good + "clearance_least = \"0.01 mm\"\n", "one of the two"},
		{"[[fits]]\nwhere = \"a\"\nnominal = \"10 mm\"\nclearance_least = \"0.01 mm\"\n", "together"},
		{"[[fits]]\nwhere = \"a\"\nnominal = \"10 mm\"\nclearance_least = \"1 mm\"\nclearance_most = \"0 mm\"\n", "the wrong way round"},
		{strings.Replace(good, "H7/g6", "H7/q6", 1), "no such letter"},
		{strings.Replace(good, "H7/g6", "RC99", 1), "or an inch fit, RC1 to RC9"},
		{strings.Replace(good, "10 mm", "0 mm", 1), "fits[1].nominal: 0 mm: out of range"},
		{strings.Replace(good, "H7/g6", "H14/g6", 1) + "\n" + strings.Replace(good, "10 mm", "5 m", 1), "fits[2].fit"},
		{strings.Replace(strings.Replace(good, "H7/g6", "RC4", 1), "10 mm", "900 mm", 1), "outside the table"},
		{good + "hole_at = \"100 degC\"\n", "fits[1].shaft_material: missing"},
		{good + "hole_at = \"100 degC\"\nshaft_at = \"5000 degC\"\nhole_material = \"brass\"\nshaft_material = \"brass\"\n", "1000 degrees C"},
		{good + "hole_material = \"red bronze\"\n", "gunmetal, phosphor bronze, bearing bronze"},
		{good + "hole_at = \"100\"\n", "fits"},
		{good + "colour = \"red\"\n", "unknown key"},
	} {
		_, err := pages.EngineFile("test.toml", []byte(withFits(t, test.entries)))
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "test.toml:") {
			t.Errorf("%s\n%v, want %q", test.entries, err, test.want)
		}
	}
	// All that is wrong comes in one run.
	_, err := pages.EngineFile("test.toml", []byte(withFits(t, good+"colour = \"red\"\n"+
		strings.Replace(good, "H7/g6", "H7/q6", 1)+strings.Replace(good, "H7/g6", "RC99", 1))))
	for _, want := range []string{"fits[2].fit", "fits[3].fit", "unknown key"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// A fit that runs with both parts hot and seizes only while one of them is still
// cold may also be warmed through.
func TestWarmThrough(t *testing.T) {
	for _, test := range []struct {
		shaftAt string
		warm    bool
	}{{"300 degF", true}, {"400 degF", false}} {
		b, err := pageOf(fmt.Sprintf(`
[[fits]]
where = "valve in liner"
nominal = "12 mm"
fit = "H6/g5"
hole_material = "gunmetal"
shaft_material = "stainless steel 303"
hole_at = "300 degF"
shaft_at = "%s"
hot_least = "2 um"
`, test.shaftAt), pages.Fits)
		if err != nil || len(b.Findings) != 2 {
			t.Fatalf("%v, %+v", err, b)
		}
		// 6 um less 12 mm x 17.2 ppm/K x 128.9 K = 26.6 um, and 2 um are to be left.
		f := b.Findings[0]
		if f.Code != assembly.SeizesHot || strings.Contains(strings.Join(f.Remedies, " "), "warm it through") != test.warm {
			t.Errorf("shaft at %s: %+v", test.shaftAt, f)
		}
		if test.warm &&
			!strings.HasPrefix(strings.Join(f.Remedies, " "), "Give it 0.023 mm (0.9 thou) more clearance: a shaft of 11.971 mm (0.4713 in) at most. Or") {
			t.Errorf("remedy %q", strings.Join(f.Remedies, " "))
		}
	}
}
