package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/units"
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
func withCovers(t *testing.T, entries string) *input {
	t.Helper()
	engine, _, _ := strings.Cut(string(demo), "[[covers]]")
	in, err := parse("test.toml", []byte(engine+entries))
	if err != nil {
		t.Fatal(err)
	}
	return in
}

func TestCoversPage(t *testing.T) {
	p, err := coversPage(withCovers(t, roundCover+portCover))
	if err != nil {
		t.Fatal(err)
	}
	pr := &printer{}
	p.write(pr)
	text := strings.Join(strings.Fields(pr.String()), " ")
	for _, want := range []string{
		// pi/4 (36^2 - 20.5^2 - 6 x 3.4^2), pi/4 36^2, 14 - 1.7 - 10.25; 0.4 N/mm2 x 1018 mm2
		"gasket, area 633 mm2", "inside its edge 1018 mm2", "least web 2.050 mm",
		"4 bar x 1018 mm2 = 407 N; F/n = 407 N/6 = 68 N",
		"0.3 x 225.0 MPa x 5.03 mm2 = 340 N", // 4.6: proof stress 225 MPa, ISO 898-1
		"3 to 6 diameters, 9 to 18 mm: kept", "Tighten 1 4 2 5 3 6.",
		"inside the studs paper would be seated by 7.6 MPa, an indication only",
		"port face: 34 mm by 30 mm, 4 studs", "Local codes" /* the page defers */, "never with compressed air", "asbestos",
	} {
		if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
			t.Errorf("no %q in\n%s", want, pr.String())
		}
	}
	for _, line := range strings.Split(pr.String(), "\n") {
		if len([]rune(line)) > pageWidth+4 {
			t.Errorf("too wide: %q", line)
		}
	}
	encoded, err := json.Marshal(p.data)
	if err != nil {
		t.Fatal(err)
	}
	var back struct {
		Covers []struct {
			Where string
			Area  float64 `json:"gasket_area_mm2"`
			Load  float64 `json:"load_n"`
			Order []string
			Cover *struct {
				Supported struct {
					Stress float64 `json:"stress_mpa"`
				}
			}
		}
	}
	if err := json.Unmarshal(encoded, &back); err != nil || len(back.Covers) != 2 {
		t.Fatalf("%v, %s", err, encoded)
	}
	area := math.Pi / 4 * (36*36 - 20.5*20.5 - 6*3.4*3.4)
	near(t, "area", &back.Covers[0].Area, area, 1e-6)
	// ports 2, bars 2.5, exhaust 4, length 10 mm, each 0.25 mm larger all round
	ports := 34*30 - 10.5*(2.5+4.5+2.5) - 4*math.Pi/4*3.5*3.5
	near(t, "area round the ports", &back.Covers[1].Area, ports, 1e-6)
	load := 34 * 30 * 60 * 6.894757293e-3
	near(t, "load", &back.Covers[1].Load, load, 1e-6)
	// 3 (3 + v)/8 p r^2/t^2 with the Poisson's ratio of brass, about 0.35
	near(t, "stress", &back.Covers[0].Cover.Supported.Stress, 3*3.35/8*0.4*14*14/9, 0.2)
	if back.Covers[1].Cover != nil {
		t.Error("a cover of no thickness was bent")
	}
	// paper in steam of 4 bar is above its guide values, which is no ban
	if !p.findings.OK() {
		t.Errorf("%v", p.findings)
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
		{"paper", ``, ``, seal.GasketMaterial, finding.Caution},
		{"paper, little pressed", ``, ``, bolting.GasketStress, finding.Note},
		{"too close", `thread = "M3"` + "\n" + `hole = "3.4 mm"`, `thread = "M5"` + "\n" + `hole = "5.3 mm"`, bolting.StudSpacing, finding.Note},
		{"thin cover", `cover_thickness = "3 mm"`, `cover_thickness = "0.8 mm"`, cover.CoverStress, finding.Danger},
		// 10.6 MPa in 3 mm, by the square of the thickness 23.9, 61.2 and 149 MPa
		{"iron, above one rule", `cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "2 mm"` + "\n" + `cover_material = "cast iron"`, cover.CoverStress, finding.Note},
		{"iron, above both", `cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "1.25 mm"` + "\n" + `cover_material = "cast iron"`, cover.CoverStress, finding.Danger},
		{"no strength held", `"brass"`, `"silver steel"`, cover.CoverStress, finding.Note},
		{"thick cover", `cover_thickness = "3 mm"`, `cover_thickness = "12 mm"`, cover.ThickPlate, finding.Note},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, err := coversPage(withCovers(t, strings.Replace(roundCover, test.old, test.replacement, 1)))
			if err != nil {
				t.Fatal(err)
			}
			found := false
			for _, f := range p.findings {
				found = found || f.Code == test.code && f.Severity == test.severity && f.Where == "cover"
			}
			if !found {
				t.Errorf("no %s, %v, in %v", test.code, test.severity, p.findings)
			}
		})
	}
}

func TestCoverRefuses(t *testing.T) {
	for _, test := range []struct{ name, from, old, replacement, want string }{
		{"no place", roundCover, `where = "cover"`, ``, `covers[0].where: missing`},
		{"shape", roundCover, `"round"`, `"oval"`, `covers[0].shape: "oval"; accepted: "round" or "rectangular"`},
		{"no diameter", roundCover, `diameter = "36 mm"`, ``, `covers[0].diameter: missing`},
		{"no studs", roundCover, `studs = 6`, ``, `covers[0].studs: missing; accepted: a whole number`},
		{"width of a round cover", roundCover, `studs = 6`, "studs = 6\nwidth = \"3 mm\"", `covers[0].width: belongs to a rectangular cover`},
		{"circle of a rectangular cover", portCover, `studs_across = 2`, "studs_across = 2\nstud_circle = \"3 mm\"", `covers[0].stud_circle: belongs to a round cover`},
		{"half an opening", portCover, `port_margin = "0.25 mm"`, `opening_width = "3 mm"`, `opening_width and opening_height together`},
		{"a corner of nothing", portCover, `port_margin = "0.25 mm"`, `opening_corner = "1 mm"`, `covers[0].opening_corner: the opening itself is missing`},
		{"two openings", portCover, `port_margin = "0.25 mm"`, "port_margin = \"0.25 mm\"\nopening_width = \"3 mm\"\nopening_height = \"3 mm\"", `covers[0].port_margin: opening_width is given too`},
		{"margin too large", portCover, `"0.25 mm"`, `"2 mm"`, `opening 2 runs into opening 1`},
		{"margin negative", portCover, `"0.25 mm"`, `"-2 mm"`, `covers[0].shape`},
		{"hole over the edge", roundCover, `hole = "3.4 mm"`, `hole = "9 mm"`, `hole 1 runs into the outside`},
		{"hole for a thinner stud", roundCover, `hole = "3.4 mm"`, `hole = "3 mm"`, `covers[0].hole: 3 mm does not pass a stud M3x0.5; accepted: above 3 mm`},
		{"no preload", portCover, `preload = 0.25`, `preload = 0.0`, `covers[0].preload: 0; accepted: a share`},
		{"preload not a number", portCover, `preload = 0.25`, `preload = nan`, `covers[0].preload: NaN; accepted: a share`},
		{"class", roundCover, `"4.6"`, `"4.7"`, `covers[0].stud_class`},
		{"no class", roundCover, `stud_class = "4.6"`, ``, `covers[0].stud_class: missing; accepted: a property class`},
		{"class and proof", roundCover, `stud_class = "4.6"`, "stud_class = \"4.6\"\nstud_proof = \"200 MPa\"", `covers[0].stud_proof: stud_class is given too`},
		{"proof", portCover, `"150 MPa"`, `"0 MPa"`, `covers[0].preload`},
		{"preload", portCover, `preload = 0.25`, `preload = 1.5`, `0.75 for a joint`},
		{"no thread", roundCover, `thread = "M3"`, ``, `covers[0].thread: missing`},
		{"pressure", roundCover, `"4 bar"`, `"-4 bar"`, `covers[0].pressure: pressure`},
		{"no pressure", roundCover, `pressure = "4 bar"`, ``, `covers[0].pressure: missing`},
		{"gasket of brass", roundCover, `"paper"`, `"brass"`, `covers[0].gasket: material of the gasket brass: unknown; accepted: cork`},
		{"thickness", roundCover, `"0.25 mm"`, `"0 mm"`, `covers[0].gasket_thickness`},
		{"cover of paper", roundCover, `"brass"`, `"paper"`, `covers[0].cover_material: we have no modulus of elasticity of paper; accepted: a metal`},
		{"material alone", roundCover, `cover_thickness = "3 mm"`, ``, `cover_thickness and cover_material together`},
		{"cover of no thickness", roundCover, `"3 mm"`, `"0 mm"`, `covers[0].cover_thickness: thickness`},
	} {
		t.Run(test.name, func(t *testing.T) {
			entry := strings.Replace(test.from, test.old, test.replacement, 1)
			if entry == test.from {
				t.Fatalf("the entry has no %q", test.old)
			}
			_, err := coversPage(withCovers(t, entry))
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "test.toml:") {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
	if p, err := coversPage(withCovers(t, "")); p != nil || err != nil {
		t.Errorf("no covers: %v, %v", p, err)
	}
}

// Iron that both rules allow its stress is not complained of, and a joint without
// pressure has no margin to print.
func TestQuietCovers(t *testing.T) {
	entry := strings.Replace(roundCover, `"brass"`, `"cast iron"`, 1)
	p, err := coversPage(withCovers(t, entry))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range p.findings {
		if f.Code == cover.CoverStress {
			t.Errorf("%+v", f)
		}
	}
	entry = strings.Replace(portCover, `"60 psi"`, `"0 bar"`, 1)
	if p, err = coversPage(withCovers(t, entry)); err != nil {
		t.Fatal(err)
	}
	pr := &printer{}
	p.write(pr)
	if text := pr.String(); strings.Contains(text, "Inf") || strings.Contains(text, "times the load") {
		t.Errorf("%s", text)
	}
}

// A cover too thin is told how thick is enough, by the greater of its stresses:
// 10.65 MPa in 3 mm are 149 in 0.8 mm, and brass yields at 75 MPa.
func TestCoverRemedies(t *testing.T) {
	for _, test := range []struct{ old, replacement, text, remedy string }{
		{`cover_thickness = "3 mm"` + "\n" + `cover_material = "brass"`, `cover_thickness = "1.25 mm"` + "\n" + `cover_material = "cast iron"`, "and may break", "A cover 2.40 mm (0.094 in) thick, for 17.2 MPa"}, // 1.25 sqrt(61.3/17.2)
		{`cover_thickness = "3 mm"`, `cover_thickness = "0.8 mm"`, "it bends for good", "A cover "},
		{`"brass"`, `"silver steel"`, "no figure for the strength", ""},
	} {
		p, err := coversPage(withCovers(t, strings.Replace(roundCover, test.old, test.replacement, 1)))
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range p.findings {
			found = found || f.Code == cover.CoverStress && strings.Contains(f.Text, test.text) && strings.HasPrefix(strings.Join(f.Remedies, " "), test.remedy)
		}
		if !found {
			t.Errorf("no %q, %q in %+v", test.text, test.remedy, p.findings)
		}
	}
	// Of a rectangular cover the clamped rim is the worse; both columns rise.
	plate := "cover_thickness = \"2 mm\"\ncover_material = \"mild steel\"\n"
	p, err := coversPage(withCovers(t, portCover+plate))
	if err != nil {
		t.Fatal(err)
	}
	pr := &printer{}
	p.write(pr)
	var low, high float64
	_, row, _ := strings.Cut(pr.String(), "cover, stress")
	if _, err := fmt.Sscanf(row, "%f to %f MPa", &low, &high); err != nil || low > high {
		t.Errorf("%v: stress from %v to %v in\n%s", err, low, high, pr.String())
	}
	if p, err = coversPage(withCovers(t, portCover+strings.Replace(plate, "2 mm", "0.2 mm", 1))); err != nil {
		t.Fatal(err)
	}
	bent := p.data["covers"].([]any)[0].(map[string]any)["cover"].(map[string]any)
	clamped, supported := bent["clamped"].(map[string]any)["stress_mpa"].(float64), bent["supported"].(map[string]any)["stress_mpa"].(float64)
	if told := fmt.Sprintf("stressed to %.1f MPa,", max(clamped, supported)); clamped <= supported || !slices.ContainsFunc(p.findings, func(f finding.Finding) bool { return strings.Contains(f.Text, told) }) {
		t.Errorf("clamped %v, supported %v, nothing %q in %+v", clamped, supported, told, p.findings)
	}
}

// A gasket goes by the names that its material has anywhere, and asbestos by none.
func TestCoverGaskets(t *testing.T) {
	for name, want := range map[string]string{
		"oiled paper": "oiled paper", "oiled brown paper": "oiled paper", "soft copper or brass": "soft copper",
		"flexible graphite sheet": "flexible graphite", "PTFE sheet": "PTFE", "cork with nitrile or neoprene": "cork with rubber",
	} {
		p, err := coversPage(withCovers(t, strings.Replace(roundCover, `"paper"`, `"`+name+`"`, 1)))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := p.data["covers"].([]any)[0].(map[string]any)["gasket"]; got != want {
			t.Errorf("%s is %v, want %s", name, got, want)
		}
	}
	engine, _, _ := strings.Cut(string(demo), "[[covers]]")
	_, err := parse("test.toml", []byte(engine+strings.Replace(roundCover, `"paper"`, `"asbestos"`, 1)))
	if err == nil || !strings.HasPrefix(err.Error(), "test.toml:") || !strings.Contains(err.Error(), `gasket: material "asbestos": never use it`) {
		t.Errorf("asbestos: %v", err)
	}
}

// With fifteen times the pressure in the demonstration's own file the book opens
// with what can hurt somebody, the studs before the covers that lift, and the
// program says that it is not to be built.
func TestDanger(t *testing.T) {
	stdout, stderr, code := book1(t, everywhere(t, `pressure = "4 bar"`, `pressure = "60 bar"`))
	if code != 1 || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	text := strings.Join(strings.Fields(stdout), " ")
	at := -1
	for _, want := range []string{
		"WHAT IS WRONG", "CAN HURT SOMEBODY", "cylinder cover: Each stud must hold 1018 N", "the cover lifts",
		"cylinder cover: The cover would be stressed to 159.7 MPa and may break",
		"steam chest: The pressure stresses each stud to 237.0 MPa, above its proof strength of 225.0 MPa: it stretches for good and may break",
		"the cover lifts", "steam chest: The cover would be stressed to 171.2 MPa and may break", "DIMENSIONS AS GIVEN",
	} {
		next := strings.Index(text[at+1:], want)
		if next < 0 {
			t.Fatalf("no %q behind the one before it in\n%s", want, stdout)
		}
		at += 1 + next
	}
}

// Each fault of a shape has its place, and the sizes that would do stand by.
func TestCoverCircle(t *testing.T) {
	for _, test := range []struct{ circle, diameter, want string }{
		{"23 mm", "36 mm", "stud_circle from 26.9 mm to 29.6 mm"},                   // 20.5 + 3.4 + 3, 36 - 6.4
		{"28 mm", "30 mm", "a diameter of 33.3 mm does, with the studs on 26.9 mm"}, // 26.9 + 6.4
	} {
		entry := strings.NewReplacer(`"28 mm"`, `"`+test.circle+`"`, `"36 mm"`, `"`+test.diameter+`"`).Replace(roundCover)
		_, err := coversPage(withCovers(t, entry))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%v; want %q", err, test.want)
			continue
		}
		for line := range strings.Lines(err.Error()) {
			if !strings.HasPrefix(line, "test.toml:") {
				t.Errorf("no place: %s", line)
			}
		}
	}
}

// The openings of the ports stand where the ports are.
func TestPortOpenings(t *testing.T) {
	got := portOpenings(eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)}, units.MM(0.5))
	for i, want := range []struct{ x, width float64 }{{-5.5, 3}, {0, 5}, {5.5, 3}} {
		if got[i].Centre.X != units.MM(want.x) || got[i].Width != units.MM(want.width) || got[i].Height != units.MM(11) {
			t.Errorf("opening %d: %+v", i+1, got[i])
		}
	}
}

// A limit that nobody has read says so where it is shown.
func TestCoverFindingsNameTheirSource(t *testing.T) {
	stdout, stderr, code := book1(t, engineWith(t, `gasket = "jointing without asbestos"`, `gasket = "silicone rubber"`))
	text := strings.Join(strings.Fields(stdout), " ")
	for _, want := range []string{"in steam; here it is 152 °C. (from memory: general texts on sealing", "does not stand oil. (O-ring supplier's guide to high temperatures"} {
		if code != 0 || !strings.Contains(text, want) {
			t.Errorf("exit %d, %s, no %q\n%s", code, stderr, want, stdout)
		}
	}
}

// everywhere writes the demonstration with each of its lines of one kind replaced.
func everywhere(t *testing.T, old, replacement string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "engine.toml")
	if err := os.WriteFile(path, bytes.ReplaceAll(demo, []byte(old), []byte(replacement)), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}
