package pages_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

const roundCover = `
[[covers]]
where = "cover"
shape = "round"
diameter = "36 mm"
opening = "20.5 mm"
studs = 6
stud_circle = "28 mm"
thread = "M3"
hole = "3.4 mm"
stud_class = "4.6"
pressure = "4 bar"
gasket = "paper"
gasket_thickness = "0.25 mm"
cover_thickness = "3 mm"
cover_material = "brass"
`

const portCover = `
[[covers]]
where = "port face"
shape = "rectangular"
width = "34 mm"
height = "30 mm"
port_margin = "0.25 mm"
studs_across = 2
studs_along = 2
stud_width = "26 mm"
stud_height = "22 mm"
thread = "5 BA"
hole = "3.5 mm"
stud_proof = "150 MPa"
preload = 0.25
pressure = "60 psi"
`

// withCovers returns the demonstration engine with other covers.
func withCovers(t *testing.T, entries string) string {
	t.Helper()
	text, _, _ := strings.Cut(demo(t, "", ""), "[[covers]]")
	return text + entries
}

// coversOf makes the page of covers; it must be made.
func coversOf(t *testing.T, entries string) book.Book {
	t.Helper()
	b, err := pageOf(withCovers(t, entries), pages.Covers)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// number returns the number that JSON has at a path of keys of a cover.
func number(t *testing.T, data map[string]any, cover int, path string) float64 {
	t.Helper()
	v, ok := at(data["covers"].([]any)[cover], path).(float64)
	if !ok {
		t.Errorf("no number %s", path)
	}
	return v
}

func TestCoversPage(t *testing.T) {
	// 0.65 of 6 x 875 N is less than 12.4 MPa x 633 mm2 / 2 = 3930 N
	strong := strings.NewReplacer(`"paper"`, `"jointing without asbestos"`, `"4.6"`, `"8.8"`).Replace(roundCover)
	if text, _ := views(t, coversOf(t, strong)); !strings.Contains(text, "By torque alone all studs may come to no more than 3414 N") {
		t.Errorf("nothing of the least pull in\n%s", text)
	}
	b := coversOf(t, roundCover+portCover)
	text, data := views(t, b)
	for _, want := range []string{
		// pi/4 (36^2 - 20.5^2 - 6 x 3.4^2), pi/4 36^2, 14 - 1.7 - 10.25; 0.4 N/mm2 x 1018 mm2
		"gasket, area 633 mm2", "inside the edge of it 1018 mm2", "least web 2.050 mm",
		"4 bar x 1018 mm2 = 407 N", "F / n = 407 N / 6 = 67.9 N", "on each stud 68 N",
		"0.3 x 225.0 MPa x 5.03 mm2 = 340 N, 5.0 times the load", // 4.6: proof stress 225 MPa, ISO 898-1
		"torque, dry 0.20 N m 1.8 lbf in", "T = K F d = 0.2 x 340 N x 3.000 mm = 0.20 N m",
		"3 to 6 diameters 9 to 18 mm [", "kept 5 to 10 diameters 15 to 30 mm [", "tighten in the order 1 4 2 5 3 6 ",
		// y A / 2 of 1100 psi on 633 mm2; six studs of 340 N; 0.2037 N m at 50 mm
		"factor y here vegetable fibre 7.6 MPa", "not seated", "gasket, seated no", "all studs, to seat it 2402 N", "all studs, tightened 2037 N",
		"y A / 2 = 7.6 MPa x 633 mm2 / 2 = 2402 N; the studs give 6 x 340 N = 2037 N",
		"pull at the spanner 4 N 0.9 lbf", "at 50 mm from the nut", "bolted up, gasket 3.2 MPa",
		"port face: 34 mm by 30 mm, 4 studs 5 BA", "0.25 x 150.0 MPa", "proof strength as given",
		"Local codes" /* the page defers */, "never with compressed air", "asbestos", "three rounds", "joints relax by 10 to 20 percent",
		"ISO 898-1", "Carvill, Mechanical Engineer's Data Handbook, 1.10.1",
	} {
		if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	near := func(cover int, path string, want, within float64) {
		t.Helper()
		if got := number(t, data, cover, path); math.Abs(got-want) > within {
			t.Errorf("cover %d, %s: %v, want %v", cover+1, path, got, want)
		}
	}
	near(0, "gasket_area_mm2", math.Pi/4*(36*36-20.5*20.5-6*3.4*3.4), 1e-6)
	// ports 2, bars 2.5, exhaust 4, length 10 mm, each 0.25 mm larger all round
	near(1, "gasket_area_mm2", 34*30-10.5*(2.5+4.5+2.5)-4*math.Pi/4*3.5*3.5, 1e-6)
	near(1, "load_n", 34*30*60*6.894757293e-3, 1e-6)
	// 3 (3 + v)/8 p r^2/t^2 with the Poisson's ratio of brass, about 0.35
	near(0, "cover.supported.stress_mpa", 3*3.35/8*0.4*14*14/9, 0.2)
	near(0, "cover.stress_mpa.max", number(t, data, 0, "cover.supported.stress_mpa"), 0)
	near(0, "cover.stress_mpa.min", number(t, data, 0, "cover.clamped.stress_mpa"), 0)
	near(1, "preload_share", 0.25, 0)
	for path, want := range map[string]any{
		"where": "cover", "shape": "round", "thread": "M3x0.5", "studs": 6.0, "pressure_bar": 4.0, "diameter_mm": 36.0,
		"stud_class": "4.6", "gasket": "paper", "spacing_mm": 14.0, "cover.material": "brass", "cover.thickness_mm": 3.0,
	} {
		if got := at(data["covers"].([]any)[0], path); got != want {
			t.Errorf("%s is %v, want %v", path, got, want)
		}
	}
	if at(data["covers"].([]any)[1], "cover") != nil {
		t.Error("a cover of no thickness was bent")
	}
	near(0, "spanner_pull_n", 0.2*0.3*225*5.0306*3/50, 1e-3)
	near(0, "seating_force_n", 1100*6.894757e-3*math.Pi/8*(36*36-20.5*20.5-6*3.4*3.4), 1e-3)
	if seated := at(data["covers"].([]any)[0], "gasket_seated"); seated != false {
		t.Errorf("seated: %v", seated)
	}
	if at(data["covers"].([]any)[1], "gasket_seated") != nil {
		t.Error("a gasket of nobody knows what is seated or not")
	}
	if b.OK() {
		t.Errorf("%v", b.All())
	}
}

// What cures a gasket that its studs do not seat does cure it: stronger studs, or a
// ring that is narrower; at low pressure what is softer is named.
func TestSeating(t *testing.T) {
	told := func(b book.Book) string {
		for _, f := range b.All() {
			if f.Code == bolting.GasketStress {
				return f.String()
			}
		}
		return ""
	}
	jointing := strings.Replace(roundCover, `"paper"`, `"jointing without asbestos"`, 1)
	strong := strings.Replace(jointing, `"4.6"`, `"8.8"`, 1)
	for _, test := range []struct {
		name, entry, want string
		ok                bool
	}{
		{"studs of 4.6", jointing, "fails: cover: The studs do not seat the gasket: they press it with 3.2 MPa, and its softest grade takes 6.2 MPa", false},
		{"studs of 8.8", strong, "note: cover: The studs seat a gasket of up to 16.6 MPa", true},
		{"a narrower ring", strings.NewReplacer(`"20.5 mm"`, `"24 mm"`, `"36 mm"`, `"32 mm"`, "3.4 mm", "3.1 mm", `"0.25 mm"`, `"0.2 mm"`, "studs = 6", "studs = 8").Replace(jointing),
			"note: cover: The studs seat a gasket of up to ", true},
		{"low pressure, jointing", strings.NewReplacer(`"4 bar"`, `"1 bar"`, "studs = 6", "studs = 8").Replace(jointing), "Take what these studs do seat and what stands the heat: paper, oiled paper.", false},
		{"low pressure, paper", strings.NewReplacer(`"4 bar"`, `"1 bar"`, "studs = 6", "studs = 8").Replace(roundCover), "", true},
		{"no figure for cork", strings.NewReplacer(`"4 bar"`, `"0.5 bar"`, `"paper"`, `"cork"`).Replace(roundCover), "", true},
	} {
		b := coversOf(t, test.entry)
		if got := told(b); !strings.Contains(got, test.want) || test.want == "" && got != "" || b.OK() != test.ok {
			t.Errorf("%s: %q, in order %v; want %q\n%v", test.name, got, b.OK(), test.want, b.All())
		}
	}
}

func TestCoverFindings(t *testing.T) {
	for _, test := range []struct {
		name, old, replacement string
		code                   finding.Code
		severity               finding.Severity
	}{
		{"cover lifts", `pressure = "4 bar"`, `pressure = "80 bar"`, bolting.CoverLifts, finding.Danger},
		{"stud breaks", `pressure = "4 bar"`, `pressure = "80 bar"`, bolting.StudOverloaded, finding.Danger},
		{"little preload", `pressure = "4 bar"`, `pressure = "12 bar"`, bolting.LittlePreload, finding.Caution},
		{"narrow web", `opening = "20.5 mm"`, `opening = "22.5 mm"`, gasket.NarrowWeb, finding.Caution},
		{"paper", ``, ``, seal.GasketMaterial, finding.Fails},
		{"paper at low pressure", `pressure = "4 bar"`, `pressure = "2 bar"`, seal.GasketMaterial, finding.Caution},
		{"paper, little pressed", ``, ``, bolting.GasketStress, finding.Fails},
		{"too close", `thread = "M3"` + "\n" + `hole = "3.4 mm"`, `thread = "M5"` + "\n" + `hole = "5.3 mm"`, bolting.StudSpacing, finding.Note},
		{"thin cover", `cover_thickness = "3 mm"`, `cover_thickness = "0.8 mm"`, cover.CoverStress, finding.Danger},
		// 10.6 MPa in 3 mm, by the square of the thickness 23.9, 61.2 and 149 MPa
		{"iron, above one rule", `cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "2 mm"` + "\n" + `cover_material = "cast iron"`, cover.CoverStress, finding.Caution},
		{"iron, above both", `cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "1.25 mm"` + "\n" + `cover_material = "cast iron"`, cover.CoverStress, finding.Danger},
		{"no figure for the strength", `"brass"`, `"silver steel"`, cover.CoverStress, finding.Caution},
		{"thick cover", `cover_thickness = "3 mm"`, `cover_thickness = "12 mm"`, cover.ThickPlate, finding.Note},
	} {
		t.Run(test.name, func(t *testing.T) {
			all := coversOf(t, strings.Replace(roundCover, test.old, test.replacement, 1)).All()
			found := false
			for _, f := range all {
				found = found || f.Code == test.code && f.Severity == test.severity && f.Where == "cover"
			}
			if !found {
				t.Errorf("no %s, %v, in %v", test.code, test.severity, all)
			}
		})
	}
}

func TestCoverRefuses(t *testing.T) {
	for _, test := range []struct{ name, from, old, replacement, want string }{
		{"no place", roundCover, `where = "cover"`, ``, `covers[1].where: missing`},
		{"shape", roundCover, `"round"`, `"oval"`, `covers[1].shape: "oval"; accepted: "round" or "rectangular"`},
		{"no diameter", roundCover, `diameter = "36 mm"`, ``, `covers[1].diameter: missing`},
		{"no studs", roundCover, `studs = 6`, ``, `covers[1].studs: missing; accepted: a whole number`},
		{"width of a round cover", roundCover, `studs = 6`, "studs = 6\nwidth = \"3 mm\"", `covers[1].width: belongs to a rectangular cover`},
		{"circle of a rectangular cover", portCover, `studs_across = 2`, "studs_across = 2\nstud_circle = \"3 mm\"", `covers[1].stud_circle: belongs to a round cover`},
		{"half an opening", portCover, `port_margin = "0.25 mm"`, `opening_width = "3 mm"`, `opening_width and opening_height together`},
		{"a corner of nothing", portCover, `port_margin = "0.25 mm"`, `opening_corner = "1 mm"`, `covers[1].opening_corner: the opening itself is missing`},
		{"two openings", portCover, `port_margin = "0.25 mm"`, "port_margin = \"0.25 mm\"\nopening_width = \"3 mm\"\nopening_height = \"3 mm\"", `covers[1].port_margin: opening_width is given too`},
		{"margin too large", portCover, `"0.25 mm"`, `"2 mm"`, `opening 2 runs into opening 1`},
		{"margin negative", portCover, `"0.25 mm"`, `"-2 mm"`, `covers[1].port_margin: -2 mm would blind the ports`},
		{"margin a little negative", portCover, `"0.25 mm"`, `"-0.1 mm"`, `covers[1].port_margin: -0.1 mm would blind the ports`},
		{"hole over the edge", roundCover, `hole = "3.4 mm"`, `hole = "9 mm"`, `hole 1 runs into the outside`},
		{"hole for a thinner stud", roundCover, `hole = "3.4 mm"`, `hole = "3 mm"`, `covers[1].hole: 3 mm does not pass a stud M3x0.5; accepted: above 3 mm`},
		{"no preload", portCover, `preload = 0.25`, `preload = 0.0`, `covers[1].preload: 0; accepted: a share`},
		{"preload not a number", portCover, `preload = 0.25`, `preload = nan`, `covers[1].preload: NaN; accepted: a share`},
		{"class", roundCover, `"4.6"`, `"4.7"`, `covers[1].stud_class`},
		{"no class", roundCover, `stud_class = "4.6"`, ``, `covers[1].stud_class: missing; accepted: a property class`},
		{"class and proof", roundCover, `stud_class = "4.6"`, "stud_class = \"4.6\"\nstud_proof = \"200 MPa\"", `covers[1].stud_proof: stud_class is given too`},
		{"proof", portCover, `"150 MPa"`, `"0 MPa"`, `covers[1].stud_proof: 0`},
		{"preload", portCover, `preload = 0.25`, `preload = 1.5`, `0.75 for a joint`},
		{"no thread", roundCover, `thread = "M3"`, ``, `covers[1].thread: missing`},
		{"pressure", roundCover, `"4 bar"`, `"-4 bar"`, `covers[1].pressure: pressure`},
		{"a cover bent by nothing", roundCover, `"4 bar"`, `"0 bar"`, `covers[1].pressure: pressure`},
		{"no pressure", roundCover, `pressure = "4 bar"`, ``, `covers[1].pressure: missing`},
		{"gasket of brass", roundCover, `"paper"`, `"brass"`, `covers[1].gasket: material of the gasket brass: unknown; accepted: cork`},
		{"thickness", roundCover, `"0.25 mm"`, `"0 mm"`, `covers[1].gasket_thickness`},
		{"cover of paper", roundCover, `"brass"`, `"paper"`, `covers[1].cover_material: we have no modulus of elasticity of paper; accepted: a metal`},
		{"material alone", roundCover, `cover_thickness = "3 mm"`, ``, `cover_thickness and cover_material together`},
		{"cover of no thickness", roundCover, `"3 mm"`, `"0 mm"`, `covers[1].cover_thickness: thickness`},
	} {
		t.Run(test.name, func(t *testing.T) {
			entry := strings.Replace(test.from, test.old, test.replacement, 1)
			if entry == test.from {
				t.Fatalf("the entry has no %q", test.old)
			}
			_, err := pageOf(withCovers(t, entry), pages.Covers)
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "engine.toml:") {
				t.Errorf("error %v, want %q", err, test.want)
			} else if strings.Count(err.Error(), "pressure") > 2 {
				t.Errorf("one mistake, told more than once: %v", err)
			}
		})
	}
	e, err := engine.Parse("engine.toml", []byte(withCovers(t, "")))
	if err != nil {
		t.Fatal(err)
	}
	if p, err := pages.Covers(e); p != nil || err != nil {
		t.Errorf("no covers: %v, %v", p, err)
	}
}

// All that is wrong with all covers is told in one run.
func TestCoversTellAll(t *testing.T) {
	second := strings.NewReplacer(`"4.6"`, `"4.7"`, `"0.25 mm"`, `"0 mm"`, `"paper"`, `"brass"`, `"3 mm"`, `"0 mm"`).Replace(roundCover)
	third := strings.Replace(portCover, `thread = "5 BA"`, "", 1)
	_, err := pageOf(withCovers(t, roundCover+second+third), pages.Covers)
	if err == nil {
		t.Fatal("no complaint")
	}
	for _, want := range []string{
		"covers[2].stud_class", "covers[2].gasket: ", "covers[2].gasket_thickness", "covers[2].cover_thickness", "covers[3].thread",
	} {
		if strings.Count(err.Error(), want) != 1 {
			t.Errorf("not one %s in\n%v", want, err)
		}
	}
	if n := strings.Count(err.Error(), "\n") + 1; n != 5 {
		t.Errorf("%d complaints\n%v", n, err)
	}
}

// Iron that both rules allow its stress is not complained of, and a joint without
// pressure has no margin to print.
func TestQuietCovers(t *testing.T) {
	for _, f := range coversOf(t, strings.Replace(roundCover, `"brass"`, `"cast iron"`, 1)).All() {
		if f.Code == cover.CoverStress {
			t.Errorf("%+v", f)
		}
	}
	text, data := views(t, coversOf(t, strings.Replace(portCover, `"60 psi"`, `"0 bar"`, 1)))
	if strings.Contains(text, "Inf") || strings.Contains(text, "times the load") {
		t.Errorf("%s", text)
	}
	if c := data["covers"].([]any)[0].(map[string]any); c["load_n"] != 0.0 || c["preload_times_load"] != nil {
		t.Errorf("%v", c)
	}
	// A cover that lifts leaves nothing on its gasket: null, and a word for it.
	text, data = views(t, coversOf(t, strings.Replace(roundCover, `"4 bar"`, `"80 bar"`, 1)))
	c := data["covers"].([]any)[0].(map[string]any)
	if v, there := c["on_gasket_mpa"]; !there || v != nil || !strings.Contains(text, "left on the gasket nothing: the cover lifts") {
		t.Errorf("%v in\n%s", v, text)
	}
}

// A cover too thin is told how thick is enough, by the greater of its stresses:
// 10.65 MPa in 3 mm are 149 in 0.8 mm, and brass yields at 124 MPa.
func TestCoverRemedies(t *testing.T) {
	for _, test := range []struct{ old, replacement, text, remedy string }{
		{`cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "1.25 mm"` + "\n" + `cover_material = "cast iron"`, "and may break", "Make the cover 2.40 mm (0.094 in) thick, for 17.2 MPa"}, // 1.25 sqrt(61.3/17.2)
		{`cover_thickness = "3 mm"`, `cover_thickness = "0.8 mm"`, "it bends for good", "Make the cover "},
		{`"brass"`, `"silver steel"`, "no figure for the strength", ""},
	} {
		all := coversOf(t, strings.Replace(roundCover, test.old, test.replacement, 1)).All()
		found := false
		for _, f := range all {
			found = found || f.Code == cover.CoverStress && strings.Contains(f.Text, test.text) && strings.HasPrefix(strings.Join(f.Remedies, " "), test.remedy)
		}
		if !found {
			t.Errorf("no %q, %q in %+v", test.text, test.remedy, all)
		}
	}
	// Of a rectangular cover the clamped rim is the worse; both columns rise.
	plate := "cover_thickness = \"2 mm\"\ncover_material = \"mild steel\"\n"
	text, _ := views(t, coversOf(t, portCover+plate))
	var low, high float64
	_, row, _ := strings.Cut(text, "cover, stress")
	if _, err := fmt.Sscanf(row, "%f to %f MPa", &low, &high); err != nil || low > high {
		t.Errorf("%v: stress from %v to %v in\n%s", err, low, high, text)
	}
	b := coversOf(t, portCover+strings.Replace(plate, "2 mm", "0.2 mm", 1))
	_, data := views(t, b)
	clamped, supported := number(t, data, 0, "cover.clamped.stress_mpa"), number(t, data, 0, "cover.supported.stress_mpa")
	told := fmt.Sprintf("stressed to %.1f MPa,", max(clamped, supported))
	if clamped <= supported || !slices.ContainsFunc(b.All(), func(f finding.Finding) bool { return strings.Contains(f.Text, told) }) {
		t.Errorf("clamped %v, supported %v, nothing %q in %+v", clamped, supported, told, b.All())
	}
}

// A gasket goes by the names that its material has anywhere, and asbestos by none.
func TestCoverGaskets(t *testing.T) {
	for name, want := range map[string]string{
		"oiled paper": "oiled paper", "oiled brown paper": "oiled paper", "soft copper or brass": "soft copper",
		"flexible graphite sheet": "flexible graphite", "PTFE sheet": "PTFE", "cork with nitrile or neoprene": "cork with rubber",
	} {
		b, err := pageOf(withCovers(t, strings.Replace(roundCover, `"paper"`, `"`+name+`"`, 1)), pages.Covers)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		_, data := views(t, b)
		if got := at(data["covers"].([]any)[0], "gasket"); got != want {
			t.Errorf("%s is %v, want %s", name, got, want)
		}
	}
	_, err := pages.EngineFile("engine.toml", []byte(withCovers(t, strings.Replace(roundCover, `"paper"`, `"asbestos"`, 1))))
	if err == nil || !strings.HasPrefix(err.Error(), "engine.toml:") || !strings.Contains(err.Error(), `gasket: material "asbestos": never use it`) {
		t.Errorf("asbestos: %v", err)
	}
}

// With fifteen times the pressure in the demonstration's own file the book opens
// with what can hurt somebody, the studs before the covers that lift, and is not
// in order.
func TestCoversInDanger(t *testing.T) {
	b, err := pages.EngineFile("engine.toml", []byte(strings.NewReplacer(`pressure = "4 bar"`, `pressure = "60 bar"`, `"8.8"`, `"4.6"`).Replace(demo(t, "", ""))))
	if err != nil || b.OK() {
		t.Fatalf("%v, in order: %v", err, b.OK())
	}
	text, _ := views(t, b)
	place := -1
	for _, want := range []string{
		"WHAT IS WRONG", "CAN HURT SOMEBODY", "cylinder cover: Each stud must hold 1018 N", "the cover lifts",
		"cylinder cover: The cover would be stressed to 159.7 MPa and may break",
		"steam chest: The pressure stresses each stud to 237.0 MPa, above its proof strength of 225.0 MPa: it stretches for good and may break",
		"the cover lifts", "steam chest: The cover would be stressed to 171.2 MPa and may break", "DIMENSIONS AS GIVEN",
	} {
		next := strings.Index(text[place+1:], want)
		if next < 0 {
			t.Fatalf("no %q behind the one before it in\n%s", want, text)
		}
		place += 1 + next
	}
}

// Each fault of a shape has its place, and the sizes that would do stand by.
func TestCoverCircle(t *testing.T) {
	for _, test := range []struct{ circle, diameter, want string }{
		{"23 mm", "36 mm", "covers[1].stud_circle: 23 mm; accepted: 26.9 mm to 29.6 mm"}, // 20.5 + 3.4 + 3, 36 - 6.4
		{"28 mm", "30 mm", "33.3 mm or more, with the studs on 26.9 mm"},                 // 26.9 + 6.4
	} {
		entry := strings.NewReplacer(`"28 mm"`, `"`+test.circle+`"`, `"36 mm"`, `"`+test.diameter+`"`).Replace(roundCover)
		_, err := pageOf(withCovers(t, entry), pages.Covers)
		if err == nil || strings.Count(err.Error(), test.want) != 1 {
			t.Errorf("%v; want %q once", err, test.want)
			continue
		}
		for line := range strings.Lines(err.Error()) {
			if !strings.HasPrefix(line, "engine.toml:") {
				t.Errorf("no place: %s", line)
			}
		}
	}
}

// A circle that is not at fault is not complained of.
func TestCoverOfTooManyStuds(t *testing.T) {
	_, err := pageOf(withCovers(t, strings.Replace(roundCover, "studs = 6", "studs = 40", 1)), pages.Covers)
	if err == nil || !strings.Contains(err.Error(), "covers[1].shape: ") || strings.Contains(err.Error(), "stud_circle") {
		t.Error(err)
	}
}

// The openings of the ports stand where the ports are, in the middle and 5.5 mm
// to either side, 3 and 5 mm wide: what is left between them is 5.5 - 1.5 - 2.5.
func TestPortOpenings(t *testing.T) {
	_, data := views(t, coversOf(t, strings.Replace(portCover, `port_margin = "0.25 mm"`, `port_margin = "0.5 mm"`, 1)))
	if got, want := number(t, data, 0, "gasket_area_mm2"), 34*30-11*(3+5+3)-math.Pi*3.5*3.5; math.Abs(got-want) > 1e-6 {
		t.Errorf("area %v, want %v", got, want)
	}
	if got := number(t, data, 0, "least_web_mm"); math.Abs(got-1.5) > 1e-9 {
		t.Errorf("web %v", got)
	}
	if between := fmt.Sprint(at(data["covers"].([]any)[0], "least_web_between")); between != "[opening 1 opening 2]" {
		t.Errorf("between %s", between)
	}
}

// A limit that nobody has read says so where it is shown.
func TestCoverFindingsNameTheirSource(t *testing.T) {
	b, err := pages.EngineFile("engine.toml", []byte(demo(t, `gasket = "jointing without asbestos"`, `gasket = "silicone rubber"`)))
	if err != nil || !b.OK() {
		t.Fatalf("%v, in order: %v", err, b.OK())
	}
	text, _ := views(t, b)
	for _, want := range []string{"in steam; here it is 152 °C. [", "(from memory)", "from memory: general texts on sealing", "does not stand oil. [", "O-ring supplier's guide to high temperatures"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// GA-06: a cover of 4 mm came out 3 mm. (4/3)^2 = 1.78 times the stress, a plate of
// cbrt(21) = 2.76 mm behind it; where the spigot was cut the piston has 1 mm more room,
// and where the flange was, 1 mm less.
func TestCoverCutThin(t *testing.T) {
	thin := func(drawn, left, face string) string {
		return strings.Replace(roundCover, `cover_thickness = "3 mm"`,
			fmt.Sprintf("cover_thickness = %q\ncover_came_out = %q\ncover_cut = %q", drawn, left, face), 1)
	}
	for _, test := range []struct {
		name, drawn, left, face string
		times, clearance        float64
		code                    finding.Code
		severity                finding.Severity
		text                    string
	}{
		{"GA-06, outside", "4 mm", "3 mm", "outside", 16.0 / 9, 0, cover.StudsProject, finding.Note, "The studs stand out 1.00 mm further"},
		{"GA-06, 5 mm", "5 mm", "4 mm", "outside", 25.0 / 16, 0, cover.CoverThinned, finding.Caution, "stressed 1.56 times as much as drawn"},
		{"GA-06, the spigot", "4 mm", "3 mm", "spigot", 16.0 / 9, 1, cover.MoreClearance, finding.Note, "1.00 mm more room"},
		{"GA-06, the flange", "4 mm", "3 mm", "joint", 16.0 / 9, -1, cover.SpigotStrikes, finding.Danger, "the piston may strike it"},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := coversOf(t, thin(test.drawn, test.left, test.face))
			text, data := views(t, b)
			if got := number(t, data, 0, "cover.stress_times"); math.Abs(got-test.times) > 0.01 {
				t.Errorf("stress %v times, want %v", got, test.times)
			}
			if got := number(t, data, 0, "cover.end_clearance_change_mm"); math.Abs(got-test.clearance) > 1e-9 {
				t.Errorf("clearance %v, want %v", got, test.clearance)
			}
			if !strings.Contains(text, "cover, came out "+strings.Replace(test.left, " mm", ".00 mm", 1)) {
				t.Errorf("not said in\n%s", text)
			}
			found := false
			for _, f := range b.All() {
				found = found || f.Code == test.code && f.Severity == test.severity && strings.Contains(f.Text, test.text)
			}
			if !found {
				t.Errorf("no %s in %v", test.code, b.All())
			}
		})
	}
	// it bends as it came out, and not as it was drawn: 10.65 MPa in 3 mm
	_, data := views(t, coversOf(t, thin("4 mm", "3 mm", "outside")))
	_, drawn := views(t, coversOf(t, roundCover))
	if a, b := number(t, data, 0, "cover.supported.stress_mpa"), number(t, drawn, 0, "cover.supported.stress_mpa"); a != b {
		t.Errorf("%v and %v MPa", a, b)
	}
	for entry, want := range map[string]string{
		thin("3 mm", "3 mm", "outside"):    "covers[1].cover_came_out: 3 mm; accepted: above zero and below cover_thickness, 3 mm",
		thin("3 mm", "0 mm", "outside"):    "covers[1].cover_came_out: 0 mm",
		thin("3 mm", "2 mm", "underneath"): `covers[1].cover_cut`,
		strings.Replace(roundCover, `cover_thickness = "3 mm"`+"\n"+`cover_material = "brass"`, "cover_came_out = \"2 mm\"\ncover_cut = \"outside\"", 1): "covers[1].cover_came_out: the thickness as drawn is missing",
		strings.Replace(roundCover, `cover_thickness = "3 mm"`, "cover_thickness = \"3 mm\"\ncover_came_out = \"2 mm\"", 1):                              "cover_came_out and cover_cut together",
	} {
		if _, err := pageOf(withCovers(t, entry), pages.Covers); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
}

// GA-05: 50.8 mm at 5.5 bar on six studs is 1115 N, 186 N each; opposite pairs in
// order, twice the load as preload, looked at again cold.
func TestJointOfGA05(t *testing.T) {
	entry := strings.NewReplacer(`diameter = "36 mm"`, `diameter = "50.8 mm"`, `stud_circle = "28 mm"`, `stud_circle = "42 mm"`, `"20.5 mm"`, `"30 mm"`,
		`"4 bar"`, `"5.5 bar"`, `cover_thickness = "3 mm"`, `cover_thickness = "5 mm"`).Replace(roundCover)
	text, data := views(t, coversOf(t, entry))
	for path, want := range map[string]float64{"load_n": 1114.7, "stud_load_n": 185.8} {
		if got := number(t, data, 0, path); math.Abs(got/want-1) > 0.001 {
			t.Errorf("GA-05: %s %v, want %v", path, got, want)
		}
	}
	for _, want := range []string{"tighten in the order 1 4 2 5 3 6", "three rounds", "cold and without pressure, after the first steaming", "does not put right faces"} {
		if !strings.Contains(text, want) {
			t.Errorf("GA-05: no %q in\n%s", want, text)
		}
	}
	if times := number(t, data, 0, "preload_times_load"); times > 2 || !strings.Contains(text, "a builder's rule is twice") || !strings.Contains(text, "Or tighten each to 372 N") {
		t.Errorf("GA-05: %v times, and nothing of the rule in\n%s", times, text)
	}
}

// The thread that the studs are screwed into is judged with the fasteners of the place:
// in cast iron of 124 MPa M3 strips at 62 * 5.547 = 344 N to the millimetre, 1290 N at
// the 3.75 mm of the rule.
func TestStudsStripTheirThread(t *testing.T) {
	for _, test := range []struct {
		name, old, with string
		strips          float64
		severity        finding.Severity
		where           []string
	}{
		{"as it is", "", "", 1289.7, finding.Note, nil},
		{"studs too strong", `stud_class = "8.8"`, `stud_class = "12.9"`, 1289.7, finding.Fails, []string{"cylinder cover", "steam chest"}},
		{"tightened too hard", `stud_class = "8.8"`, "stud_class = \"8.8\"\npreload = 0.75", 1289.7, finding.Fails, []string{"cylinder cover", "steam chest"}},
		{"strong enough to mind", `stud_class = "8.8"`, `stud_class = "9.8"`, 1289.7, finding.Caution, []string{"cylinder cover", "steam chest"}},
		{"a thin wall", `through = "6 mm"`, `through = "3.5 mm"`, 1289.7, finding.Caution, []string{"steam chest"}},
	} {
		page, err := pageOf(strings.ReplaceAll(demo(t, "", ""), test.old, test.with), pages.Covers)
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		text, data := views(t, page)
		if got := number(t, data, 0, "thread_strips_n"); math.Abs(got-test.strips) > 1 {
			t.Errorf("%s: strips at %.1f N", test.name, got)
		}
		if !strings.Contains(text, "tapped thread strips at") {
			t.Errorf("%s: %s", test.name, text)
		}
		var where []string
		for _, f := range page.Findings {
			if f.Code == bolting.ThreadStrips {
				where = append(where, f.Where)
				if f.Severity != test.severity {
					t.Errorf("%s: %v", test.name, f)
				}
			}
		}
		if !slices.Equal(where, test.where) {
			t.Errorf("%s: at %v, want %v", test.name, where, test.where)
		}
	}
	// what is not known is not judged, and said
	for _, test := range []struct{ name, old, with, want string }{
		{"no fasteners", "[[fasteners]]\nwhere = \"steam chest\"", "[[fasteners]]\nwhere = \"foot\"", "what they are screwed into is not known here"},
		{"no figure", "count = 6\nmaterial = \"cast iron\"", "count = 6\nmaterial = \"cork\"", "we have no figure of the strength of cork"},
	} {
		before := demo(t, "", "")
		if !strings.Contains(before, test.old) {
			t.Fatalf("%s: %q is not in the file", test.name, test.old)
		}
		page, err := pageOf(strings.Replace(before, test.old, test.with, 1), pages.Covers)
		if err != nil {
			t.Fatal(err)
		}
		text, _ := views(t, page)
		if text = strings.Join(strings.Fields(text), " "); !strings.Contains(text, test.want) {
			t.Errorf("%s: nothing says %q", test.name, test.want)
		}
	}
}
