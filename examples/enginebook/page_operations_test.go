package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units/finding"
)

// withOperations returns the demonstration engine with another workshop.
func withOperations(text string) (*input, error) {
	engine, _, _ := strings.Cut(string(demo), "# The workshop")
	return parse("test.toml", []byte(engine+text))
}

func operations(t *testing.T, text string) *page {
	t.Helper()
	in, err := withOperations(text)
	if err != nil {
		t.Fatal(err)
	}
	p, err := operationsPage(in)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func printed(p *page) string {
	pr := &printer{}
	p.write(pr)
	return strings.Join(strings.Fields(pr.String()), " ")
}

// A drawer that does not reach is worth knowing, and no reason to print nothing.
func TestDrawerTooSmall(t *testing.T) {
	for _, diameter := range []string{"7.8 mm", "0.4 mm"} {
		p := operations(t,
			"[drills]\nset = \"1-6x0.5 mm\"\n[[operations]]\npart = \"cover\"\noperation = \"drilling\"\nmaterial = \"brass\"\ndiameter = \""+diameter+"\"\n")
		found := false
		for _, f := range p.findings {
			found = found || f.Severity == finding.Note &&
				f.Text == "There is no drill of "+diameter+" in the set, which goes from 1 mm to 6 mm."
		}
		if !found {
			t.Errorf("%s: %+v", diameter, p.findings)
		}
	}
}

// Small threads are cut by hand: no step is named for them.
func TestSmallThreadsByHand(t *testing.T) {
	for diameter, byHand := range map[string]bool{"3 mm": true, "1/8 in": false} {
		text := printed(operations(t,
			"[lathe]\nspeeds = \"cone 600 355 210\"\n[[operations]]\npart = \"stud\"\noperation = \"die cutting\"\nmaterial = \"mild steel\"\ndiameter = \""+diameter+"\"\n"))
		if strings.Contains(text, "by hand the pitch") != byHand || strings.Contains(text, "set cone step 1") == byHand {
			t.Errorf("%s: %s", diameter, text)
		}
	}
}

func TestOperationsPage(t *testing.T) {
	p := operations(t, `
[lathe]
speeds = "600 355 210"
motor = "100 W"
centre_height = "70 mm"
chuck_speed = "500 rev/min"
[mill]
speeds = "200 400 800 1600"
[drills]
set = "1-6x0.5 mm"

[[operations]]
part = "flywheel"
operation = "facing"
diameter = "150 mm"
material = "cast iron, skin on"
runs_at = "12000 rev/min"

[[operations]]
part = "crank disc"
operation = "rough turning"
diameter = "30 mm"
material = "mild steel"
length = "12 mm"
cut = "2 mm"
stock = "5 mm"

[[operations]]
part = "crank disc"
operation = "facing"
diameter = "20 mm"
material = "brass"

[[operations]]
part = "cover"
operation = "drilling"
diameter = "4.2 mm"
material = "brass"
depth = "12 mm"
on = "mill"

[[operations]]
part = "cover"
operation = "reaming"
diameter = "5 mm"
material = "brass"

[[operations]]
part = "cover"
operation = "milling"
diameter = "8 mm"
material = "brass"
length = "40 mm"
teeth = 2

[[operations]]
part = "cover"
operation = "tapping"
diameter = "3 mm"
material = "brass"
`)
	text := printed(p)
	for _, want := range []string{
		// 150 mm: 18 m/min is 38 rev/min, below the slowest step.
		"facing 150.000 mm 10 to 18 no step will do",
		// 30 mm of mild steel at 90 ft/min is 291 rev/min: the 210 step, 19.8 m/min; 5 mm
		// in 3 cuts of (12 + 2) mm at 0.01 in/rev: 3 x 14 / (0.254 x 210) = 0.79 min.
		"rough turning 30.000 mm 19.8 210 0.254/rev 0.8, 3 cuts",
		// 20 mm of brass is for 716 rev/min and more; the chuck is marked 500.
		"355 0.076/rev 0.4",
		// 4.2 mm at 61 m/min and more, on the mill: 1600; 0.002 in/rev.
		"drilling 4.200 mm 21.1 1600 0.051/rev 0.2",
		"Drill 4.75 mm to 4.85 mm first", "(unreviewed: Model engineering forum",
		"milling 8.000 mm 40.2 1600 0.025/tooth 0.5",
		"reaming 5.000 mm 9.4 600 by power by feel -", "A hand reamer is turned by hand with a wrench, with the spindle stopped. For reaming.",
		"Table 3: speed of milling in brass", "chip load: feed of milling", "drill feed table (drill press and lathe sections): feed of drilling",
		"0.254/rev 0.8, 3 cuts", "cast iron, skin on, HSS: n = ",
		"flat about 0.8 mm", "without a source behind it is common practice",
		"n = 1000 x 18 / (pi x 150) = 38.2 rev/min at most",
		"clear of tool and slides, before the motor starts. For flywheel, crank disc.",
		"Soluble oil and water, for cooling. (US Army OD1645, Lathe Operations) For rough turning.",
		"tapping 3.000 mm - by hand the pitch -",
		"feed from 0.254 mm (10.0 thou) to 0.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
	// What more than one part needs stands once.
	if n := strings.Count(text, "Chuck key out"); n != 1 {
		t.Errorf("the chuck key is mentioned %d times", n)
	}
	found := map[string]string{}
	for _, f := range p.findings {
		found[f.Where+"/"+string(f.Code)] += f.Severity.String() + ": " + f.Text + " > " + 
			strings.Join(f.Remedies, " ") + "\n"
	}
	for key, want := range map[string]string{
		"flywheel, facing/machine-too-fast":      "fails: The machine does not run slowly enough",
		"flywheel, facing/work-does-not-swing":   "fails: The work does not swing",
		"flywheel, facing/rim-too-fast":          "danger: The wheel may fly apart: its rim runs at",
		"crank disc, facing/speed-limited":       "caution: Keep it not above 500 rev/min: the speed marked on the chuck",
		"crank disc, rough turning/motor-stalls": "fails: The cut takes 402 W at the motor of 100 W",
		"cover, drilling/no-drill":               "note: There is no drill of 4.2 mm in the set. > The drill of 4 mm is nearest, -0.200 mm",
		"cover, reaming/no-drill":                "note: No drill of the set lies from 4.75 mm",
	} {
		if !strings.Contains(found[key], want) {
			t.Errorf("%s: nothing of %q in %q", key, want, found[key])
		}
	}
	data, err := json.Marshal(p.data)
	if err != nil {
		t.Fatal(err)
	}
	var back struct {
		Operations []struct {
			Part, Operation, Material string
			Set                       *float64  `json:"set_rev_min"`
			Wanted                    []float64 `json:"wanted_rev_min"`
			Minutes                   *float64
			Source                    struct{ Kind, Title string }
			Feed                      []float64 `json:"feed_mm"`
			Mind                      []string
		}
	}
	if err := json.Unmarshal(data, &back); err != nil || len(back.Operations) != 7 {
		t.Fatalf("%s, %v", data, err)
	}
	o := back.Operations
	if o[0].Set != nil || o[0].Material != "cast iron, skin on" || o[0].Source.Kind != "from memory" ||
		math.Abs(o[0].Wanted[1]-38.197) > 0.001 {
		t.Errorf("%+v", o[0])
	}
	if len(o[0].Mind) != 9 || len(o[1].Feed) != 2 || o[1].Feed[0] != 0.254 || o[4].Feed != nil {
		t.Errorf("%+v", o)
	}
	if o[1].Set == nil || math.Abs(*o[1].Set-210) > 1e-9 || o[1].Minutes == nil ||
		math.Abs(*o[1].Minutes-3*14/(0.254*210)) > 1e-6 {
		t.Errorf("%+v", o[1])
	}
}

// What is refused has no speed to set and takes no minutes, though the lathe has a
// step that is slow enough.
func TestRefusedOperationHasNoSpeed(t *testing.T) {
	p := operations(t, `
[lathe]
speeds = "20 40 80"
centre_height = "70 mm"
[[operations]]
part = "flywheel"
operation = "facing"
diameter = "150 mm"
material = "cast iron, skin on"
`)
	text := printed(p)
	if !strings.Contains(text, "facing 150.000 mm 10 to 18 refused 0.127/rev -") || strings.Contains(text, "; set ") {
		t.Errorf("%s", text)
	}
	if len(p.findings) != 1 || p.findings[0].Code != speeds.WorkDoesNotSwing {
		t.Errorf("%+v", p.findings)
	}
}

// Without machines the page gives the range of the spindle, and nothing of
// steps.
func TestOperationsWithoutMachines(t *testing.T) {
	p := operations(t, `
[[operations]]
part = "valve"
operation = "milling"
diameter = "6 mm"
material = "gunmetal"
`)
	if text := printed(p); !strings.Contains(text, "milling 6.000 mm 35 1857 0.025/tooth -") {
		t.Errorf("%s", text)
	}
	if len(p.findings) != 0 {
		t.Errorf("%+v", p.findings)
	}
	in, err := withOperations("")
	if err != nil {
		t.Fatal(err)
	}
	if p, err := operationsPage(in); p != nil || err != nil {
		t.Errorf("no operations: %v, %v", p, err)
	}
}

func TestOperationsRefuse(t *testing.T) {
	entry := func(lines ...string) string { return "[[operations]]\n" + strings.Join(lines, "\n") + "\n" }
	whole := []string{`part = "x"`, `operation = "turning"`, `diameter = "8 mm"`, `material = "brass"`}
	with := func(line string) string { return entry(append(append([]string(nil), whole...), line)...) }
	for _, tt := range []struct{ name, text, want string }{
		{"nothing but a part", entry(`part = "x"`), "operations[0].material: missing"},
		{"no part", entry(whole[1:]...), "operations[0].part: missing"},
		{"unknown material", entry(whole[0], whole[1], whole[2], `material = "unobtainium"`), "gunmetal"},
		{"unknown operation", entry(whole[0], `operation = "whittling"`, whole[2], whole[3]), "centre drilling"},
		{"a bare diameter", entry(whole[0], whole[1], `diameter = 8`, whole[3]), "a bare 8"},
		{"no diameter at all", entry(whole[0], whole[1], `diameter = "0 mm"`, whole[3]), "operations[0].diameter: 0 mm; accepted"},
		{"unknown machine", with(`on = "planer"`), `"planer"; accepted: "lathe", "mill"`},
		{"teeth", with(`teeth = -2`), "operations[0].teeth: -2"},
		{"teeth for turning", with(`teeth = 4`), "4 for turning; accepted: the teeth of a milling cutter"},
		{"turning on the mill", with(`on = "mill"`), `"mill" for turning, which turns the work; accepted: "lathe"`},
		{"the depth of no hole", with(`depth = "4 mm"`), "depth of a hole"},
		{"a deep cut and no motor", with(`cut = "6 mm"`), "more than the radius"},
		{"the depth of a milled slot", entry(whole[0], `operation = "milling"`, whole[2], whole[3], `depth = "4 mm"`), "4 mm for milling; accepted: the depth of a hole"},
		{"a cut of a drill", entry(whole[0], `operation = "drilling"`, whole[2], whole[3], `cut = "4 mm"`), "4 mm for drilling; accepted: the depth of a cut that is turned or milled"},
		{"stock without cut", with(`stock = "2 mm"`), "stock and cut together"},
		{"a cut deeper than the work", "[lathe]\nspeeds = \"100-2000\"\nmotor = \"200 W\"\n" + with(`cut = "6 mm"`), "more than the radius"},
		{"knurling with carbide", entry(whole[0], `operation = "knurling"`, whole[2], whole[3], `tool = "carbide"`), "presses and does not cut"},
		{"a lathe of words", "[lathe]\nspeeds = \"fast\"\n" + entry(whole...), "50-2500"},
		{"a drawer of words", "[drills]\nset = \"many\"\n" + entry(whole...), "test.toml:"},
		{"an unknown key", with(`colour = "red"`), "unknown key"},
		{"a wheel that stands", with(`runs_at = "0 rev/min"`), "operations[0].runs_at"},
		{"an empty reamer", entry(whole[0], `operation = "reaming"`, `diameter = "0.5 mm"`, whole[3]), "1 mm to 100 mm"},
	} {
		in, err := withOperations(tt.text)
		if err == nil {
			_, err = operationsPage(in)
		}
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "test.toml:") {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// The demonstration prints its machining, and nothing there is refused.
func TestDemonstrationIsMachined(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(nil, &out, &errs); code != 0 {
		t.Fatalf("exit %d, %s", code, errs.String())
	}
	for _, want := range []string{"MACHINING", "flywheel", "cone step 3, back gear", "From the drawer: 4.8 mm",
		// The rim, 12 mm and 2 mm to start, at 0.127 mm and 35 rev/min; 0.5 mm out of the
		// cylinder in two cuts of 36 + 2 mm at 0.127 mm and 355 rev/min; three cuts of 10 +
		// 1 mm at twice 0.0085 mm and 2000 rev/min.
		"drilling 4.800 mm 9.0 600 0.046/rev 0.6", // 0.002 in less 10 % for the depth
		// 1150 x 0.127^-0.2 N/mm2 x 1 mm x 0.127 mm at 11 m/min, with 0.75 of it arriving.
		"54 W at the motor of 350 W, 15 %",
		"facing 100.000 mm 11.0 35 0.127/rev 3.1", "boring 20.000 mm 22.3 355 0.127/rev 1.7, 2 cuts", "milling 2.000 mm 12.6 2000 0.008/tooth 1.0, 3 cuts"} {
		if !strings.Contains(strings.Join(strings.Fields(out.String()), " "), want) {
			t.Errorf("nothing of %q", want)
		}
	}
}
