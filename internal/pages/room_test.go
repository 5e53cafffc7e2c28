package pages_test

import (
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/finding"
)

const roomOfDemo = "length = \"33.5 mm\" # between the covers\npiston = \"8 mm\"\n"

// noRoom takes the room of the piston out of the file of the demonstration.
func noRoom(file string) string { return strings.Replace(file, roomOfDemo, "", 1) }

// withRoom puts another room in, and more below [motion].
func withRoom(t *testing.T, cylinder, motion string) string {
	t.Helper()
	file := demo(t, roomOfDemo, cylinder+"\n")
	return strings.Replace(file, "[motion]\n", "[motion]\n"+motion+"\n", 1)
}

func roomBook(t *testing.T, file string) (text string, data map[string]any, found finding.List) {
	t.Helper()
	b := engineBook(t, file)
	text, data = views(t, b)
	return text, data, b.All()
}

// EC-14: spigots that leave 1.0 mm, 0.5 at each end; 1.5 mm off each leave 4.0, 2.0
// at each, and gaskets of 0.25 mm 2.25. The figures are of the question.
func TestRoomShared(t *testing.T) {
	noGasket := "\ngaskets = \"0 mm\""
	for _, test := range []struct {
		cylinder, motion string
		total, each      float64
	}{
		{"length = \"34 mm\"\npiston = \"8 mm\"" + noGasket, "", 1, 0.5},
		{"length = \"37 mm\"\npiston = \"8 mm\"" + noGasket, "", 4, 2},
		{"length = \"37 mm\"\npiston = \"8 mm\"", "", 4.5, 2.25}, // those of the cylinder cover
		{"length = \"37 mm\"\npiston = \"8 mm\"\ngaskets = \"0.5 mm\"", "", 4.5, 2.25},
		// Measured with 0.5 mm at the head end, and the rod made shorter by 1.75.
		{"length = \"37 mm\"\npiston = \"8 mm\"\nhead_clearance = \"0.5 mm\"", `connecting_rod_longer = "-1.75 mm"`, 4.5, 2.25},
		{"length = \"37 mm\"\npiston = \"8 mm\"\nhead_clearance = \"2.5 mm\"", "shims = \"0.25 mm\"", 4.5, 2.25},
	} {
		file := withRoom(t, test.cylinder, test.motion)
		if strings.Contains(test.cylinder, "gaskets = \"0 mm\"") {
			file = strings.ReplaceAll(file, "gasket_thickness = \"0.25 mm\"\n", "")
		}
		_, data, _ := roomBook(t, file)
		near(t, at(data, "piston_room.total_mm"), test.total, 1e-9)
		near(t, at(data, "piston_room.head.clearance_mm"), test.each, 1e-9)
		near(t, at(data, "piston_room.crank.clearance_mm"), test.each, 1e-9)
		near(t, at(data, "piston_room.head.share"), test.each/25, 1e-9)
		near(t, at(data, "piston_room.equal_mm"), test.each, 1e-9)
	}
}

// A piston that strikes is told first, as a danger, with what shares the room and
// what each way does to the valve, but for shims alone, with which it would not run;
// the book then does not say how to run the engine.
func TestRoomStrikes(t *testing.T) {
	text, data, found := roomBook(t, withRoom(t, "length = \"37 mm\"\npiston = \"8 mm\"\nhead_clearance = \"0 mm\"", ""))
	if f := found[0]; f.Code != eccentric.PistonStrikes || f.Severity != finding.Danger || len(f.Remedies) != 2 {
		t.Errorf("%v", f)
	}
	mustShow(t, text, "The piston touches the cover of the head end at its dead centre", "turn it only by hand",
		"Make the connecting rod 2.25 mm (88.6 thou) shorter", "the valve stays where it is", "Do not run this engine",
		"con rod -2.25 2.250 2.250")
	near(t, at(data, "piston_room.shift_mm"), -2.25, 1e-9)
	ways := data["piston_room"].(map[string]any)["to_share"].([]any)
	if len(ways) != 3 {
		t.Fatalf("%v", ways)
	}
	for i, w := range ways {
		way := w.(map[string]any)
		near(t, at(way, "head.clearance_mm"), 2.25, 1e-9)
		near(t, at(way, "valve_offset_mm"), []float64{0, 0, 2.25}[i], 1e-9)
	}
	b := engineBook(t, withRoom(t, "length = \"33.5 mm\"\npiston = \"8 mm\"\nwear = \"0.5 mm\"", ""))
	if f := b.All()[0]; b.OK() || f.Code != eccentric.LittleClearance || f.Severity != finding.Fails {
		t.Errorf("%v", f)
	}
	text, data = views(t, b)
	mustShow(t, text, "wear of the brasses 0.500 mm", "left at the nearer, worn 0.000 mm")
	near(t, at(data, "piston_room.head.worn_mm"), 0, 1e-9)
}

// EC-18: shims of 25 thou under the main bearings of a vertical engine of 3/4 by 3/4
// in: every page is of the gear after them. The same figures come of a scan of the
// mechanism; see package eccentric.
func TestRoomShims(t *testing.T) {
	made, err := os.ReadFile("../../examples/enginebook/engines/shims.toml")
	if err != nil {
		t.Fatal(err)
	}
	file := string(made)
	const thou = 0.0254
	text, data, _ := roomBook(t, file)
	near(t, at(data, "events.head.lead_mm"), (-21.6)*thou, 0.05*thou)
	near(t, at(data, "events.crank.lead_mm"), (25.6)*thou, 0.05*thou)
	near(t, at(data, "events.head.cut_off.stroke"), 0.632, 0.0005)
	near(t, at(data, "events.crank.cut_off.stroke"), 0.820, 0.0005)
	near(t, at(data, "dimensions.shims_mm"), 25*thou, 1e-9)
	near(t, at(data, "dimensions.valve_offset_mm"), -25*thou, 1e-9)
	mustShow(t, text, "shims under bearings 0.0250 in 0.635 mm", "valve off centre 0.0250 in 0.635 mm away from crank")
	stands := data["piston_room"].(map[string]any)["stands"].([]any)
	if len(stands) != 2 {
		t.Fatalf("%v", stands)
	}
	near(t, at(stands[0].(map[string]any), "head.lead_mm"), (3.42)*thou, 0.005*thou)
	near(t, at(stands[1].(map[string]any), "head.lead_mm"), (-21.6)*thou, 0.05*thou)
	near(t, at(stands[1].(map[string]any), "shims_mm"), (25)*thou, 1e-9*thou)

	// The piston comes 25 thou nearer to the far cover: 1 5/32 and 1/64 less 3/4 and
	// 5/16 in are 7/64, shared equally before.
	near(t, at(data, "piston_room.head.clearance_mm"), (1000*7./128-25)*thou, 1e-6*thou)
	near(t, at(data, "piston_room.crank.clearance_mm"), (1000*7./128+25)*thou, 1e-6*thou)
	// An eccentric rod shorter by as much puts the valve back.
	_, data, _ = roomBook(t, strings.Replace(file, "[ports]", "eccentric_rod_longer = \"-25 thou\"\n[ports]", 1))
	near(t, at(data, "dimensions.valve_offset_mm"), 0, 0)
	near(t, at(data, "dimensions.eccentric_rod_mm"), (2225)*thou, 1e-6*thou)
}

// What cannot be is refused at its place.
func TestRoomRefuses(t *testing.T) {
	room := "length = \"33.5 mm\"\npiston = \"8 mm\""
	for _, test := range []struct{ name, cylinder, motion, want string }{
		{"length alone", `length = "33.5 mm"`, "", "engine.toml:7:10: cylinder.length: accepted: length and piston together"},
		{"piston alone", `piston = "8 mm"`, "", "cylinder.length: accepted: length and piston together"},
		{"piston too long", "length = \"33.5 mm\"\npiston = \"33.5 mm\"", "", "engine.toml:8:10: cylinder.piston: piston length 33.5 mm: out of range; accepted: shorter than"},
		{"no length", "length = \"0 mm\"\npiston = \"8 mm\"", "", "cylinder.length: 0 mm; accepted: a length above zero"},
		{"gaskets below nothing", room + "\ngaskets = \"-0.5 mm\"", "", "engine.toml:9:11: cylinder.gaskets: -0.5 mm; accepted: zero or more"},
		{"wear below nothing", room + "\nwear = \"-0.5 mm\"", "", "cylinder.wear: -0.5 mm"},
		{"no least", room + "\nleast_clearance = \"0 mm\"", "", "cylinder.least_clearance: 0 mm; accepted: a length above zero; left out, 1/64 in"},
		{"wear of no room", `wear = "0.1 mm"`, "", "cylinder.wear: the room itself is missing; accepted: beside length and piston"},
		{"other gaskets", room + "\ngaskets = \"0.3 mm\"", "", "covers[1].gasket_thickness: 0.25 mm, but engine.toml:9:11: cylinder.gaskets: 0.3 mm"},
		{"head clearance alone", `head_clearance = "1 mm"`, "", "engine.toml:7:18: cylinder.head_clearance: the room itself is missing"},
		{"shims of half the engine", room, `shims = "13 mm"`, "motion.shims: 13 mm; accepted: how much is put in, or made longer, from -12.5 mm to 12.5 mm, half the stroke"},
		{"far shims", "length = \"1000 m\"\npiston = \"1000 m\"", `shims = "-1000 m"`, "motion.shims: -1000000 mm; accepted"},
		{"a rod of nothing", room, "eccentric_rod_longer = \"-12 mm\"\nshims = \"1 mm\"", ""},
	} {
		file := withRoom(t, test.cylinder, test.motion)
		if test.name == "a rod of nothing" {
			file = strings.Replace(file, `eccentric_rod = "60 mm"`, `eccentric_rod = "12 mm"`, 1)
			test.want = "motion.shims: change of the eccentric rod -12 mm: out of range; accepted: what leaves something of the rod, 12 mm"
		}
		_, err := pages.EngineFile("engine.toml", []byte(file))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v\nwant %s", test.name, err, test.want)
		}
	}
}

// The gear that shims leave is the one that the chest's cover has to clear.
func TestRoomShimsAndChest(t *testing.T) {
	file := strings.Replace(demo(t, "[motion]\n", "[motion]\nshims = \"3 mm\"\n"), roomOfDemo, "", 1)
	_, err := pages.EngineFile("engine.toml", []byte(file))
	if err == nil || !strings.Contains(err.Error(), "3 mm off centre") {
		t.Errorf("%v", err)
	}
}

// The page fits the width of the others, also where all is altered at once and
// sizes are of inches.
func TestRoomWidth(t *testing.T) {
	for _, file := range []string{
		withRoom(t, "length = \"1.5 in\"\npiston = \"5/16 in\"\nhead_clearance = \"1/64 in\"",
			"shims = \"25 thou\"\nconnecting_rod_longer = \"-1/64 in\"\neccentric_rod_longer = \"-12.5 thou\""),
		withRoom(t, "length = \"37 mm\"\npiston = \"8 mm\"\nhead_clearance = \"-1.255 mm\"", "shims = \"-0.635 mm\""),
	} {
		b := engineBook(t, file)
		var out strings.Builder
		if err := b.WriteText(&out); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(out.String()) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 78 {
				t.Errorf("%d characters: %s", n, line)
			}
		}
	}
}
