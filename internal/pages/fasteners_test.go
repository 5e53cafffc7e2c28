package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

func TestFastenersPage(t *testing.T) {
	b, err := pageOf(`
[drills]
set = "1-6x0.1 mm"

[[fasteners]]
where = "bearing caps"
thread = "M3"
count = 4
material = "mild steel"
blind = "10 mm"

[[fasteners]]
where = "cover"
thread = "6 BA"
count = 8
material = "gunmetal"
blind = "5 mm"
tap = "bottoming"

[[fasteners]]
where = "soleplate"
thread = "M10"
count = 4
material = "cast iron"
through = "15 mm"
clearance = "BS 4186 free"

[[fasteners]]
where = "steam pipe"
thread = "R 1/8"
count = 1
material = "gunmetal"
through = "8 mm"

[[fasteners]]
where = "chest"
thread = "2-56"
count = 6
material = "aluminium"
blind = "1.8 mm"

[[fasteners]]
where = "flange"
thread = "5 BA"
count = 6
material = "gunmetal"
through = "3 mm"

[[fasteners]]
where = "oiler"
thread = "1/4 x 40 ME"
count = 1
material = "gunmetal"
through = "3/16 in"
`, pages.Fasteners)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]finding.Finding{}
	for _, f := range b.All() {
		found[f.Where+"/"+string(f.Code)] = f
	}
	for want, severity := range map[string]finding.Severity{
		"soleplate/no-tapping-drill":    finding.Note,  // none near 8.6 mm among 1 to 6 mm
		"cover/short-thread":            finding.Note,  // 5 - 1.5 x 0.53 - 0.53 = 3.675 mm, the rule asks for 7.0
		"chest/no-thread-in-blind-hole": finding.Fails, // lead and chips of a second tap take 1.81 mm
		"soleplate/no-clearance-drill":  finding.Note,
		"flange/short-thread":           finding.Fails, // 3 mm of 8
		"steam pipe/no-tapping-drill":   finding.Note,
		"oiler/no-clearance-drill":      finding.Note,
		"oiler/short-thread":            finding.Note, // a fitting, though 4.8 mm of 15.9
	} {
		f, ok := found[want]
		if !ok || f.Severity != severity {
			t.Errorf("%s: %+v in %v", want, f, found)
		}
	}
	for of, want := range map[string][2]string{
		"cover/short-thread": {"asks for 7.000 mm. Below it the thread may strip",
			"Drill the hole 8.40 mm (0.331 in) deep"}, // 7 + 1.5 x 0.53 + 0.53 = 8.325
		"flange/short-thread": {"the rule for studs in other non-ferrous metal",
			"Make the metal 8.00 mm (0.315 in) thick"},
		"oiler/short-thread":            {"holds by less", "Make the metal 15.90 mm"},
		"chest/no-thread-in-blind-hole": {"1.800 mm deep holds no full thread for 2-56 UNC: the lead of the second tap and the chips take all of it", "Drill the hole 7.30 mm"}, // 2.5 x 2.184 + 4 x 0.4536
	} {
		if f := found[of]; !strings.Contains(f.Text, want[0]) || !strings.HasPrefix(strings.Join(f.Remedies, " "), want[1]) {
			t.Errorf("%s: %s > %s; want %q", of, f.Text, strings.Join(f.Remedies, " "), want)
		}
	}
	if len(found) != 8 {
		t.Errorf("%d findings: %v", len(found), found)
	}
	text, data := views(t, b)
	for _, want := range []string{
		"bearing caps: 4 off M3x0.5 in mild steel, blind, 10.000 mm deep", "chosen from your drills",
		"tapping drill 2.6 mm 2.600 mm 0.1024 in depth of thread 65 % [", "clearance hole, ISO 273 medium 3.400 mm",
		"forgives of position 0.200 mm", "clearance drill 3.4 mm 3.400 mm", "clearance drill 2.9 mm 2.900 mm",
		"hexagon ISO 4032, flats 5.500 mm",
		"full thread 8.000 mm 0.3150 in 16 turns, 2.67 diameters", "by rule 3.750 mm 0.1476 in 8 turns, 1.25 diameters [",
		"tapping drill none suits drill to buy", "clearance hole, BS 4186 free 12.000 mm",
		"Tapping drill for each hole; one leaks as another drill Rp 1/8, parallel none suits",
		"diameter depth verdict 2.5 mm 2.500 mm 0.0984 in 82 % suits",
		"depth = (D - drill) / (k p) = (3.000 - 2.600) / (1.2269 x 0.5000) = 65 %",
		"the tap jams at 8.500 mm 0.3346 in lead of the second tap 1.50 mm hole to the drill's tip 10.781 mm 0.4245 in 2.6 mm, 118 deg",
		"full thread = hole - lead of the second tap - one pitch for chips = 10.000 - 1.500 - 0.500 = 8.000 mm",
		"clearance hole, chart 2.900 mm 0.1142 in [", "(from memory)",
		"from memory: BS 1157", "3 mm and below", "Mark the depth",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	sets, _ := data["fasteners"].([]any)
	if len(sets) != 7 {
		t.Fatalf("%d sets of fasteners", len(sets))
	}
	for _, tt := range []struct {
		set  int
		path string
		want any
	}{
		{0, "where", "bearing caps"}, {0, "material", "mild steel"}, {0, "major_mm", 3.0}, {0, "pitch_mm", 0.5},
		{0, "tapping_drill.name", "2.6 mm"}, {0, "tapping_drill.diameter_mm", 2.6}, {0, "tapping_drill.depth", 0.4 / 0.5 / 1.226869322},
		{0, "hexagon.standard", "ISO 4032"}, {0, "hexagon.flats_mm", 5.5}, {0, "rule_mm", 3.75}, {0, "rule_turns", 8.0},
		{0, "blind.depth_mm", 10.0}, {0, "blind.tap", "second"}, {0, "blind.tap_lead_mm", 1.5}, {0, "blind.chip_room_mm", 0.5},
		{0, "blind.jam_mm", 8.5}, {0, "blind.tip_mm", 10 + 2.6/2/math.Tan(59*math.Pi/180)}, // 118 degrees
		{0, "clearance.drill.name", "3.4 mm"}, {0, "clearance.drill.diameter_mm", 3.4}, {0, "clearance.position_mm", 0.2},
		{1, "thread", "6 BA"}, {1, "count", 8.0}, {1, "full_thread_mm", 3.675}, {1, "turns", 6.0},
		{1, "clearance.class", "chart"}, {1, "clearance.hole_mm", 2.9},
		{2, "tapping_drill.diameter_mm", nil}, {2, "buy.name", "8.6 mm"}, {2, "through_mm", 15.0}, {2, "clearance.drill", nil},
		{3, "clearance", nil}, {3, "rule_mm", nil}, {4, "full_thread_mm", 0.0},
	} {
		got := at(sets[tt.set], tt.path)
		number, isNumber := got.(float64)
		want, wantNumber := tt.want.(float64)
		if isNumber != wantNumber || !isNumber && got != tt.want || isNumber && math.Abs(number-want) > 1e-9 {
			t.Errorf("set %d: %s = %v, want %v", tt.set, tt.path, got, tt.want)
		}
	}
}

func TestFastenersRefuse(t *testing.T) {
	good := "[[fasteners]]\nwhere = \"cover\"\nthread = \"M3\"\ncount = 6\nmaterial = \"gunmetal\"\nblind = \"8 mm\"\n"
	for _, test := range []struct{ name, old, replacement, want string }{
		{"no place", "where = \"cover\"\n", "", `fasteners[1].where: missing; accepted: the place`},
		{"no thread", "thread = \"M3\"\n", "", `fasteners[1].thread: missing; accepted: a thread`},
		{"unknown thread", `"M3"`, `"M3.2"`, `M3x0.5`},
		{"ambiguous thread", `"M3"`, `"1/4"`, `1/4-20 UNC`},
		{"no count", "count = 6\n", "", `fasteners[1].count: missing; accepted: a whole number from 1`},
		{"none", "count = 6", "count = 0", `fasteners[1].count: 0; accepted: a whole number from 1`},
		{"more than there are", "count = 6", "count = 9223372036854775807", `fasteners[1].count: 9223372036854775807; accepted: a whole number from 1 to 10000`},
		{"one more than there are", "count = 6", "count = 10001", `fasteners[1].count: 10001; accepted: a whole number from 1 to 10000`},
		{"no screws", "count = 6", "count = -6", `-6; accepted`},
		{"no material", "material = \"gunmetal\"\n", "", `fasteners[1].material: missing`},
		{"unknown material", `"gunmetal"`, `"cheese"`, `cheese`},
		{"no depth", "blind = \"8 mm\"\n", "", `accepted: through, the thickness tapped right through, or blind`},
		{"both depths", "count = 6", "count = 6\nthrough = \"8 mm\"", `through is given too`},
		{"depth below zero", `"8 mm"`, `"-8 mm"`, `fasteners[1].blind: -8 mm; accepted: a length above zero`},
		{"bare depth", `"8 mm"`, `8`, `quotes`},
		{"thickness of nothing", `blind = "8 mm"`, `through = "0 mm"`, `fasteners[1].through: 0 mm; accepted`},
		{"tap in a through hole", `blind = "8 mm"`, "through = \"8 mm\"\ntap = \"taper\"", `the hole goes through`},
		{"taper pipe in a blind hole", `"M3"`, `"R 1/8"`, `fasteners[1].blind: R 1/8 is a taper thread`},
		{"unknown tap", "count = 6", "count = 6\ntap = \"plug\"", `taper, second, bottoming`},
		{"unknown clearance", "count = 6", "count = 6\nclearance = \"loose\"", `ISO 273 medium, ISO 273 coarse, BS 4186 close`},
		{"clearance of another form", "thread = \"M3\"", "thread = \"2 BA\"\nclearance = \"ISO 273 fine\"", `fasteners[1].clearance: class of clearance hole`},
		{"unknown key", "count = 6", "count = 6\nlength = \"8 mm\"", `unknown key`},
	} {
		t.Run(test.name, func(t *testing.T) {
			if !strings.Contains(good, test.old) {
				t.Fatalf("no %q to replace", test.old)
			}
			_, err := pageOf(strings.Replace(good, test.old, test.replacement, 1), pages.Fasteners)
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "engine.toml:") {
				t.Errorf("%v; want %q", err, test.want)
			}
		})
	}
	_, err := pageOf("[drills]\nset = \"\"\n"+good+strings.Replace(good, "count = 6\n", "", 1), pages.Fasteners)
	if err == nil || !strings.Contains(err.Error(), "engine.toml:2:7: drills.set: no drills in it") ||
		!strings.Contains(err.Error(), "fasteners[2].count: missing") {
		t.Errorf("an empty set, and no count: %v", err)
	}
	british := strings.Replace(good, "M3", "2 BA", 1)
	_, err = pageOf(british+"clearance = \"ISO 273 fine\"\n"+british+"clearance = \"BS 4186 free\"\n", pages.Fasteners)
	if err == nil || strings.Count(err.Error(), "engine.toml:") != 2 {
		t.Errorf("two mistakes: %v", err)
	}
	e, err := engine.Parse("engine.toml", []byte("name = \"no screws\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if p, err := pages.Fasteners(e); p != nil || err != nil {
		t.Errorf("no fasteners: %v, %v", p, err)
	}
}

// A metal without a practice is tapped to a depth that says where it is from,
// and the drill to buy is named.
func TestFastenersWithoutPractice(t *testing.T) {
	b, err := pageOf(`
[drills]
set = "1-6x0.5 mm"

[[fasteners]]
where = "lubricator"
thread = "1/4 x 40"
count = 1
material = "copper"
through = "8 mm"
`, pages.Fasteners)
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := views(t, b); !strings.Contains(text, "common practice (75 % of the full depth, as we have no practice for the metal)") {
		t.Error(text)
	}
	if all := b.All(); len(all) == 0 || !strings.HasPrefix(strings.Join(all[0].Remedies, " "), "Buy drill ") {
		t.Errorf("%+v", all)
	}
}
