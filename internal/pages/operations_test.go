package pages_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// operations makes the page of the demonstration engine in another workshop.
func operations(t *testing.T, workshop string) (book.Book, error) {
	t.Helper()
	engine, _, _ := strings.Cut(demo(t, "", ""), "# The workshop")
	return pageOf(engine+workshop, pages.Operations)
}

func machined(t *testing.T, workshop string) (b book.Book, text string, data map[string]any) {
	t.Helper()
	b, err := operations(t, workshop)
	if err != nil {
		t.Fatal(err)
	}
	text, data = views(t, b)
	return b, text, data
}

// A drawer that does not reach is worth knowing, and no reason to print nothing.
func TestDrawerTooSmall(t *testing.T) {
	for _, diameter := range []string{"7.8 mm", "0.4 mm"} {
		b, _, _ := machined(t, "[drills]\nset = \"1-6x0.5 mm\"\n[[operations]]\npart = \"cover\"\noperation = \"drilling\"\nmaterial = \"brass\"\ndiameter = \""+diameter+"\"\n")
		found := false
		for _, f := range b.All() {
			found = found || f.Severity == finding.Note && f.Text == "There is no drill of "+diameter+" in the set, which goes from 1 mm to 6 mm."
		}
		if !found {
			t.Errorf("%s: %+v", diameter, b.All())
		}
	}
}

// Small threads are cut by hand: no step is named for them.
func TestSmallThreadsByHand(t *testing.T) {
	for entry, byHand := range map[string]bool{ // SP-10
		"die cutting\"\ndiameter = \"3 mm": true, "die cutting\"\ndiameter = \"1/2 in": true, "tapping\"\ndiameter = \"3 mm": true,
		"tapping\"\ndiameter = \"4 mm": true, "tapping\"\ndiameter = \"6 mm": false,
	} {
		_, text, data := machined(t, "[lathe]\nspeeds = \"cone 100 60\"\n[[operations]]\npart = \"stud\"\nmaterial = \"mild steel\"\noperation = \""+entry+"\"\n")
		text, _, _ = strings.Cut(text, "SOURCES")
		set := at(data["operations"].([]any)[0], "set_rev_min")
		if strings.Contains(text, "no speed by hand feed") != byHand || strings.Contains(text, "cone step 1") == byHand || strings.Contains(text, "rev/min") == byHand ||
			strings.Contains(text, "turned by hand, the motor isolated") != byHand || (set == nil) != byHand || !strings.Contains(text, "feed by the pitch") {
			t.Errorf("%s: %v, %s", entry, set, text)
		}
	}
}

// SP-10: whoever asks for a tapped hole is told the same of taps, power and hands.
func TestTappingIsToldAlike(t *testing.T) {
	tapping, err := pages.Tapping(pages.TappingQuestion{Thread: "M3", Share: 0.75, Basis: thread.FullDepth})
	if err != nil {
		t.Fatal(err)
	}
	fasteners, err := pageOf(demo(t, "", ""), pages.Fasteners)
	if err != nil {
		t.Fatal(err)
	}
	iron, three := speeds.Materials()[0], units.MM(3)
	spindle, err := pages.Spindle(pages.SpindleQuestion{Operation: speeds.Tapping, Material: iron, Diameter: &three})
	if err != nil {
		t.Fatal(err)
	}
	operations, _, _ := machined(t, "[[operations]]\npart = \"stud\"\noperation = \"tapping\"\nmaterial = \"mild steel\"\ndiameter = \"3 mm\"\n")
	for name, b := range map[string]book.Book{"tapping": tapping, "fasteners": fasteners, "spindle": spindle, "operations": operations} {
		for _, want := range speeds.Tapping.Precautions() {
			if !slices.Contains(b.Precautions, want) {
				t.Errorf("%s: no %s among %v", name, want.Code, b.Precautions)
			}
		}
	}
	if n := len(speeds.Tapping.Precautions()); n != 2 {
		t.Errorf("%d precautions of tapping", n)
	}
}

func TestOperations(t *testing.T) {
	b, text, data := machined(t, `
[lathe]
speeds = "590 360 210"
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
	for _, want := range []string{
		// 150 mm: 18 m/min is 38 rev/min, below the slowest step.
		"flywheel: facing 150.000 mm (5.9055 in), cast iron, skin on with HSS", "cutting speed 10 to 18 m/min 32.8 to 59.1 ft/min", "no speed no step will do",
		"n = 1000 x 18 / (pi x 150) = 38.2 rev/min at most",
		// 30 mm of mild steel at 90 ft/min is 291 rev/min: the 210 step, 19.8 m/min; 5 mm
		// in 3 cuts of (12 + 2) mm at 0.01 in/rev: 3 x 14 / (0.254 x 210) = 0.79 min.
		"set 210 rev/min", "the edge meets 19.8 m/min", "feed 0.254 to", "cutting time 0.8 min at 53.3 mm/min, 2.10 in/min, 3 cuts",
		// 20 mm of brass is for 716 rev/min and more; the chuck is marked 500.
		"set 360 rev/min",
		// 4.2 mm at 61 m/min and more, on the mill: 1600; 0.002 in/rev.
		"set 1600 rev/min", "the edge meets 21.1 m/min", "drill down to 12.98 mm 0.511 in at the tip, point 130 deg",
		"This is the slowest of them, to start from.", "drill first 4.75 to 4.85 mm 0.1870 to 0.1909 in trade-training [", "unreviewed: Model engineering forum",
		"set 360 rev/min by power", "A hand reamer is turned by hand with a wrench, with the spindle stopped.",
		"drill feed table (drill press and lathe sections)", "flat about 0.8 mm",
		"clear of tool and slides, before the motor starts.", "Soluble oil and water, for cooling. [", "no speed by hand feed by the pitch of the thread",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
	// What more than one operation needs stands once.
	if n := strings.Count(text, "Chuck key out"); n != 1 {
		t.Errorf("the chuck key is mentioned %d times", n)
	}
	found := map[string]string{}
	for _, f := range b.All() {
		found[f.Where+"/"+string(f.Code)] += f.Severity.String() + ": " + f.Text + " > " + strings.Join(f.Remedies, " ") + "\n"
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
	all, _ := data["operations"].([]any)
	if len(all) != 7 {
		t.Fatalf("%d operations", len(all))
	}
	for _, test := range []struct {
		i    int
		path string
		want any
	}{
		{0, "set_rev_min", nil}, {0, "material", "cast iron, skin on"}, {0, "part", "flywheel"},
		{1, "feed_mm.min", 0.254}, {1, "feed_per", "rev"}, {1, "passes", 3.0}, {4, "feed_mm", nil}, {6, "set_rev_min", nil},
	} {
		if got := at(all[test.i], test.path); got != test.want {
			t.Errorf("operations %d %s: %v, want %v", test.i, test.path, got, test.want)
		}
	}
	near(t, at(all[0], "wanted_rev_min.max"), 38.197, 0.001)
	near(t, at(all[1], "set_rev_min"), 210, 1e-9)
	near(t, at(all[1], "minutes"), 3*14/(0.254*210), 1e-6)
}

func near(t *testing.T, got any, want, tolerance float64) {
	t.Helper()
	if v, ok := got.(float64); !ok || v < want-tolerance || v > want+tolerance {
		t.Errorf("%v, want %v", got, want)
	}
}

// What has no figure says so, in plain numbers, and stops nothing.
func TestOperationsWithoutFigures(t *testing.T) {
	_, text, data := machined(t, `
[lathe]
speeds = "50-2000"
motor = "200 W"
[[operations]]
part = "cover"
operation = "drilling"
diameter = "0.3 mm"
material = "brass"
[[operations]]
part = "ring"
operation = "turning"
diameter = "30 mm"
material = "PTFE"
cut = "1 mm"
length = "20 mm"
`)
	for _, want := range []string{
		"feed we have figures for 0.0135 in (0.34 mm) and larger", "n = 1000 x 91.44 / (pi x 0.3) = 97021 rev/min at most",
		"set 1270 rev/min on the dial, rounded down to 10 rev/min", "We have no figure of the cutting force in PTFE.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
	all := data["operations"].([]any)
	if at(all[0], "feed_mm") != nil || at(all[1], "needed_w") != nil || at(all[1], "set_rev_min") != 1270.0 {
		t.Errorf("%v", all)
	}
}

// What is refused has no speed to set and takes no minutes, though the lathe has a
// step that is slow enough.
func TestRefusedOperationHasNoSpeed(t *testing.T) {
	b, text, data := machined(t, `
[lathe]
speeds = "20 40 80"
centre_height = "70 mm"
[[operations]]
part = "flywheel"
operation = "facing"
diameter = "150 mm"
material = "cast iron, skin on"
`)
	o := data["operations"].([]any)[0]
	if !strings.Contains(text, "no speed refused feed 0.127") || at(o, "set_rev_min") != nil || at(o, "minutes") != nil {
		t.Errorf("%s", text)
	}
	if all := b.All(); len(all) != 1 || all[0].Code != speeds.WorkDoesNotSwing {
		t.Errorf("%+v", all)
	}
}

// A thread of M10 x 1.5 goes at 50 rev/min to its shoulder, and a cutter that breaks has
// no speed in the book either.
func TestThreadAndSlotInTheBook(t *testing.T) {
	b, text, data := machined(t, `
[lathe]
speeds = "50 110 200 360"
[mill]
speeds = "100-2000"
[[operations]]
part = "column"
operation = "screwcutting"
diameter = "10 mm"
material = "mild steel"
pitch = "1.5 mm"
length = "12 mm"
[[operations]]
part = "port"
operation = "slot milling"
diameter = "2 mm"
material = "cast iron"
length = "10 mm"
stock = "3 mm"
cut = "1.5 mm"
teeth = 2
[[operations]]
part = "port face"
operation = "fly cutting"
diameter = "63 mm"
material = "cast iron"
length = "60 mm"
`)
	for _, want := range []string{
		"set 50 rev/min", "the tool goes 1.25 mm/s along the thread at 50 rev/min to the shoulder 9.6 s", "Keep it not above 80 rev/min",
		"no speed refused", "A pass of 1.5 mm is too deep for a slot drill of 2 mm",
		"cutting time 6.5 min at 19.1 mm/min, 0.75 in/min", // (60 + 63) / (0.127 x 150)
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
	all := data["operations"].([]any)
	if at(all[0], "set_rev_min") != 50.0 || at(all[1], "set_rev_min") != nil || at(all[1], "minutes") != nil || b.OK() {
		t.Errorf("%v, %v", all, b.All())
	}
	near(t, at(all[0], "to_shoulder_s"), 9.6, 1e-9)
	near(t, at(all[2], "minutes"), 123/(0.127*150), 0.001)
}

// Without machines the page gives the range of the spindle, and nothing of
// steps.
func TestOperationsWithoutMachines(t *testing.T) {
	b, text, data := machined(t, `
[[operations]]
part = "valve"
operation = "milling"
diameter = "6 mm"
material = "gunmetal"
`)
	if o := data["operations"].([]any)[0]; !strings.Contains(text, "spindle 1857 rev/min") || at(o, "set_rev_min") != nil || at(o, "minutes") != nil {
		t.Errorf("%s", text)
	}
	if len(b.All()) != 0 {
		t.Errorf("%+v", b.All())
	}
	if b, err := operations(t, ""); len(b.Sections) != 0 || err != nil {
		t.Errorf("no operations: %v, %v", b, err)
	}
}

func TestOperationsRefuse(t *testing.T) {
	entry := func(lines ...string) string { return "[[operations]]\n" + strings.Join(lines, "\n") + "\n" }
	whole := []string{`part = "x"`, `operation = "turning"`, `diameter = "8 mm"`, `material = "brass"`}
	with := func(line string) string { return entry(append(append([]string(nil), whole...), line)...) }
	for _, tt := range []struct{ name, text, want string }{
		{"nothing but a part", entry(`part = "x"`), "operations[1].material: missing"},
		{"no part", entry(whole[1:]...), "operations[1].part: missing"},
		{"unknown material", entry(whole[0], whole[1], whole[2], `material = "unobtainium"`), "gunmetal"},
		{"unknown operation", entry(whole[0], `operation = "whittling"`, whole[2], whole[3]), "centre drilling"},
		{"a bare diameter", entry(whole[0], whole[1], `diameter = 8`, whole[3]), "a bare 8"},
		{"a thread without a pitch", entry(whole[0], `operation = "screwcutting"`, whole[2], whole[3]), "operations[1].pitch: missing"},
		{"a pitch below nothing", entry(whole[0], `operation = "screwcutting"`, whole[2], whole[3], `pitch = "-1 mm"`), "operations[1].pitch: -1 mm"},
		{"the pitch of turned work", with(`pitch = "1 mm"`), "1 mm for turning; accepted: the pitch of a thread that is screwcut"},
		{"the width of turned work", with(`width = "1 mm"`), "1 mm for turning; accepted: the width of a slot"},
		{"teeth of a fly cutter", entry(whole[0], `operation = "fly cutting"`, whole[2], whole[3], `teeth = 2`), "2 for fly cutting"},
		{"a slot over twice as wide as its cutter", "[mill]\nspeeds = \"100-2000\"\n" +
			entry(whole[0], `operation = "slot milling"`, `diameter = "2 mm"`, whole[3], `teeth = 2`, `length = "20 mm"`, `width = "5 mm"`), "up to twice the cutter, 4 mm"},
		{"no diameter at all", entry(whole[0], whole[1], `diameter = "0 mm"`, whole[3]), "operations[1].diameter: 0 mm; accepted"},
		{"unknown machine", with(`on = "planer"`), `"planer"; accepted: "lathe", "mill"`},
		{"a cutter of no teeth", entry(whole[0], `operation = "milling"`, whole[2], whole[3], `teeth = 0`), "operations[1].teeth: 0; accepted: 1 to 100"},
		{"teeth", with(`teeth = -2`), "operations[1].teeth: -2"},
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
		{"a drawer of words", "[drills]\nset = \"many\"\n" + entry(whole...), "drills.set"},
		{"an unknown key", with(`colour = "red"`), "unknown key"},
		{"a wheel that stands", with(`runs_at = "0 rev/min"`), "operations[1].runs_at"},
		{"an empty reamer", entry(whole[0], `operation = "reaming"`, `diameter = "0.5 mm"`, whole[3]), "1 mm to 100 mm"},
	} {
		if _, err := operations(t, tt.text); err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "engine.toml:") {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// The demonstration is machined, and nothing there is refused.
func TestDemonstrationIsMachined(t *testing.T) {
	b, err := pageOf(demo(t, "", ""), pages.Operations)
	if err != nil || !b.OK() {
		t.Fatal(err, b.All())
	}
	text, _ := views(t, b)
	for _, want := range []string{"MACHINING", "flywheel", "cone step 3, back gear", "from the drawer 4.8 mm",
		// The rim, 12 mm and 2 mm to start, at 0.127 mm and 43.08 rev/min; 0.5 mm out of the
		// cylinder in two cuts of 36 + 2 mm at 0.127 mm and 450 rev/min. A port of 10
		// by 2 mm with a cutter of 1.5 mm, 3 mm deep at 0.1875 mm: 16 laps of 2 x 8.5 + 2 x
		// 0.5 mm at twice 0.0005 in x 1.5/3.175 x 1/2 and 2000 rev/min: 24.0 min (SP-08).
		"set 720 rev/min", "feed 0.046 to 0.091 mm", "cutting time 0.5 min", // 0.002 in less 10 % for the depth
		// 1150 x 0.127^-0.2 N/mm2 x 1 mm x 0.127 mm at 13.5 m/min, with 0.75 of it arriving.
		"66 W at the motor of 300 W, 22 %",
		"set 43.08 rev/min", "cutting time 2.6 min", "set 450 rev/min", "cutting time 1.3 min at 57.2 mm/min, 2.25 in/min, 2 cuts",
		"set 2000 rev/min", "feed 0.003 to 0.006 mm", "depth of a pass 0.19 mm 7 thou 0.19 to 0.3 mm for this cutter",
		"chain drill first 1.80 mm 0.071 in at 1.00, 3.00, 5.00, 7.00, 9.00 mm from one end; its tip no deeper than the slot",
		"cutting time 24.0 min at 12.0 mm/min, 0.47 in/min, 16 cuts"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
}

// The book tells what a program for one operation tells: a table feed where there is no
// machine or the teeth are not given, the limit of a tap, where a feed comes from.
func TestBookFeedsTheTable(t *testing.T) {
	_, text, data := machined(t, `
[lathe]
speeds = "50 110 200 360"
[[operations]]
part = "port face"
operation = "fly cutting"
diameter = "2 1/2 in"
material = "aluminium"
[[operations]]
part = "bracket"
operation = "milling"
on = "lathe"
diameter = "30 mm"
material = "mild steel"
`)
	for _, want := range []string{
		"slide or table moves 95.5 mm/min 3.76 in/min at 751.9 rev/min", // 0.127 x 751.9, as spindle tells it
		"Feed: one tool: the finishing feed of turning, for each turn.",
		"set 360 rev/min", "slide or table moves 9.1 mm/min 0.36 in/min for each tooth of the cutter", // 0.0254 x 360
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
	all := data["operations"].([]any)
	if at(all[0], "feed_mm_min") == nil || at(all[1], "feed_mm_min") != nil || at(all[1], "feed_a_tooth_mm_min") == nil {
		t.Errorf("%v", all)
	}

	_, text, data = machined(t, `
[[operations]]
part = "column"
operation = "tapping"
diameter = "6 mm"
material = "cast iron"
`)
	if !strings.Contains(text, "the edge alone stands 1132 rev/min") || strings.Contains(text, "spindle 1132") {
		t.Errorf("what the edge stands as what to set: %s", text)
	}
	if !strings.Contains(text, "not above 100 rev/min") || !strings.Contains(text, "100 rev/min is the most") || at(data["operations"].([]any)[0], "most_rev_min") != 100.0 {
		t.Errorf("%s\n%v", text, data["operations"])
	}

	if _, text, _ = machined(t, `
[[operations]]
part = "column"
operation = "screwcutting"
diameter = "1/4 in"
pitch = "1/40 in"
length = "12 mm"
material = "brass"
`); !strings.Contains(text, "the tool goes 1.99 mm/s along the thread at 188 rev/min to the shoulder 6.0 s") { // 12 / 1.99
		t.Error(text)
	}
}
