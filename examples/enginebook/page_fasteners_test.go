package main

import (
	"encoding/json"
	"github.com/valvechest/valvechest/units/finding"
	"math"
	"strings"
	"testing"
)

func TestFastenersPage(t *testing.T) {
	in, err := parse("test.toml", []byte(`
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
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := fastenersPage(in)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]finding.Finding{}
	for _, f := range p.findings {
		found[f.Where+"/"+string(f.Code)] = f
	}
	for want, severity := range map[string]finding.Severity{
		"soleplate/no-tapping-drill":    finding.Note,  // none near 8.6 mm among 1 to 6 mm
		"cover/short-thread":            finding.Note,  // 5 - 1.5 x 0.53 - 0.53 = 3.675 mm, the rule asks for 7.0
		"chest/no-thread-in-blind-hole": finding.Fails, // lead and chips of a second tap take 1.81 mm
		"soleplate/no-clearance-drill":  finding.Note,
		"flange/short-thread":           finding.Fails, // 3 mm of 8
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
	if len(found) != 7 {
		t.Errorf("%d findings: %v", len(found), found)
	}
	pr := &printer{}
	p.write(pr)
	text := strings.Join(strings.Fields(pr.String()), " ")
	for _, want := range []string{
		"bearing caps: 4 off M3x0.5 in mild steel, blind, 10.000 mm deep", "your drills",
		"tapping drill 2.6 mm 2.600 mm 0.1024 in 65 % suits", "ISO 273 medium 3.400 mm", "position 0.200 mm", "clearance drill 3.4 mm", "clearance drill 2.9 mm", "across flats 5.500 mm",
		"full thread 16 turns, 2.67 D 8.000 mm 0.3150 in", "by rule 8 turns, 1.25 D 3.750 mm 0.1476 in",
		"to buy", "BS 4186 free 12.000 mm",
		"tapping drill, chart 8.6 mm",
		"3 mm and below",
		"which metric inch depth verdict",
		"depth = (D - drill) / (k p) = (3.000 - 2.600) / (1.2269 x 0.5000) = 65 %",
		"full thread = hole - lead of the tap - one pitch for chips = 10.000 - 1.500 - 0.500 = 8.000 mm",
		"chart (memory) 2.900 mm",
		"sources: size [1], depth [2], clearance [3], hexagon to ISO 4032 [4], rule [5]",
		"(from memory)",
		"from memory: BS 1157",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, pr.String())
		}
	}

	data, err := json.Marshal(p.data)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Fasteners []struct {
			Where, Thread string
			Count, Turns  int
			Full          float64 `json:"full_thread_mm"`
			Drills        []struct {
				Drill   string
				Verdict string
			} `json:"tapping_drills"`
			Clearance struct {
				Class string
				Hole  float64 `json:"hole_mm"`
			}
		}
	}
	if err := json.Unmarshal(data, &got); err != nil || len(got.Fasteners) != 7 {
		t.Fatalf("%v: %s", err, data)
	}
	if f := got.Fasteners[1]; f.Thread != "6 BA" || f.Count != 8 || math.Abs(f.Full-3.675) > 1e-9 || f.Turns != 6 ||
		f.Clearance.Class != "chart" || f.Clearance.Hole != 2.9 {
		t.Errorf("%+v", f)
	}
}

func TestFastenersRefuse(t *testing.T) {
	good := "[[fasteners]]\nwhere = \"cover\"\nthread = \"M3\"\ncount = 6\nmaterial = \"gunmetal\"\nblind = \"8 mm\"\n"
	for _, test := range []struct{ name, old, replacement, want string }{
		{"no place", "where = \"cover\"\n", "", `fasteners[0].where: missing; accepted: the place`},
		{"no thread", "thread = \"M3\"\n", "", `fasteners[0].thread: missing; accepted: a thread`},
		{"unknown thread", `"M3"`, `"M3.2"`, `M3x0.5`},
		{"ambiguous thread", `"M3"`, `"1/4"`, `1/4-20 UNC`},
		{"no count", "count = 6\n", "", `fasteners[0].count: 0; accepted: a whole number from 1`},
		{"no screws", "count = 6", "count = -6", `-6; accepted`},
		{"no material", "material = \"gunmetal\"\n", "", `fasteners[0].material: missing`},
		{"unknown material", `"gunmetal"`, `"cheese"`, `cheese`},
		{"no depth", "blind = \"8 mm\"\n", "", `accepted: through, the thickness tapped right through, or blind`},
		{"both depths", "count = 6", "count = 6\nthrough = \"8 mm\"", `through is given too`},
		{"depth below zero", `"8 mm"`, `"-8 mm"`, `fasteners[0].blind: -8 mm; accepted: a length above zero`},
		{"bare depth", `"8 mm"`, `8`, `quotes`},
		{"thickness of nothing", `blind = "8 mm"`, `through = "0 mm"`, `fasteners[0].through: 0 mm; accepted`},
		{"tap in a through hole", `blind = "8 mm"`, "through = \"8 mm\"\ntap = \"taper\"", `the hole goes through`},
		{"unknown tap", "count = 6", "count = 6\ntap = \"plug\"", `taper, second, bottoming`},
		{"unknown clearance", "count = 6", "count = 6\nclearance = \"loose\"", `ISO 273 medium, ISO 273 coarse, BS 4186 close`},
		{"clearance of another form", "thread = \"M3\"", "thread = \"2 BA\"\nclearance = \"ISO 273 fine\"", `fasteners[0].clearance: class of clearance hole`},
		{"unknown key", "count = 6", "count = 6\nlength = \"8 mm\"", `unknown key`},
	} {
		t.Run(test.name, func(t *testing.T) {
			if !strings.Contains(good, test.old) {
				t.Fatalf("no %q to replace", test.old)
			}
			in, err := parse("test.toml", []byte(strings.Replace(good, test.old, test.replacement, 1)))
			if err == nil {
				_, err = fastenersPage(in)
			}
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "test.toml:") {
				t.Errorf("%v; want %q", err, test.want)
			}
		})
	}
	in, err := parse("test.toml", []byte("[drills]\nset = \"\"\n"+good))
	if err == nil {
		_, err = fastenersPage(in)
	}
	if err == nil || !strings.Contains(err.Error(), "test.toml:2:7: drills.set: no drills in it") {
		t.Errorf("an empty set: %v", err)
	}
	in, err = parse("test.toml", []byte("name = \"no screws\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if p, err := fastenersPage(in); p != nil || err != nil {
		t.Errorf("no fasteners: %v, %v", p, err)
	}
}

// A metal without a practice is tapped to a depth that says where it is from,
// and the drill to buy is named.
func TestFastenersWithoutPractice(t *testing.T) {
	in, err := parse("test.toml", []byte(`
[drills]
set = "1-6x0.5 mm"

[[fasteners]]
where = "lubricator"
thread = "1/4 x 40"
count = 1
material = "copper"
through = "8 mm"
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := fastenersPage(in)
	if err != nil {
		t.Fatal(err)
	}
	pr := &printer{}
	p.write(pr)
	if text := strings.Join(strings.Fields(pr.String()), " "); !strings.Contains(text,
		"common practice (75 % of the full depth, as we have no practice for the metal)") {
		t.Error(text)
	}
	if len(p.findings) == 0 || !strings.HasPrefix(strings.Join(p.findings[0].Remedies, " "), "Buy drill ") {
		t.Errorf("%+v", p.findings)
	}
}
