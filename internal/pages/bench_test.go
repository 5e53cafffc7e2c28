package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
)

// GA-08: the studs of the demonstration engine, 3.75 mm in iron by the rule, 0.25 of
// gasket, 3 of cover, 2.4 of nut and 0.75 beyond it; and what a file may change of that.
func TestStudsPage(t *testing.T) {
	for name, tt := range map[string]struct {
		old, new string
		length   float64 // of the first cover's; 0: none
		says     string
	}{
		"as it is":       {"cover_material", "cover_material", 10.15, "= 3.75 + 0.25 + 3.00 + 2.40 + 0.75 = 10.15 mm"},
		"a thin nut":     {"stud_circle = ", "nut = \"1.8 mm\"\nstud_circle = ", 9.55, "cut each to 9.6 mm"},
		"a washer":       {"stud_circle = ", "washer = \"0.5 mm\"\nstud_circle = ", 10.65, "+ 3.50 + 2.40"},
		"a loose chest":  {"stud_circle = ", "passes = \"12.25 mm\"\nstud_circle = ", 22.4, "+ 15.25 + 2.40"},
		"a shallow hole": {`blind = "7 mm"`, `blind = "4 mm"`, 9.15, "in the hole 2.75 mm"},
		"no hole":        {`blind = "7 mm"`, `blind = "1 mm"`, 0, "its hole holds no full thread"},
	} {
		b, err := pageOf(demo(t, tt.old, tt.new), pages.Studs)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		text, data := views(t, b)
		first := data["studs"].([]any)[0].(map[string]any)
		length, there := first["length_mm"].(float64)
		if there != (tt.length > 0) || math.Abs(length-tt.length) > 1e-9 || !strings.Contains(text, tt.says) {
			t.Errorf("%s: %v, wanted %v and %q in %s", name, first["length_mm"], tt.length, tt.says, text)
		}
		if first["where"] != "cylinder cover" || first["count"] != 6.0 {
			t.Errorf("%s: %v", name, first)
		}
	}
	text, data := views(t, must(pageOf(demo(t, "cover_material", "cover_material"), pages.Studs)))
	tightened := data["studs"].([]any)[1].(map[string]any)["gasket_tightened_mm"].(map[string]any)
	if math.Abs(tightened["min"].(float64)-0.2075) > 1e-9 || tightened["max"] != 0.25 || !strings.Contains(text, "0.21 to 0.25 mm") {
		t.Errorf("%v in %s", tightened, text)
	}
}

// Of paper no source says how far it gives.
func TestGasketWithoutFigure(t *testing.T) {
	text, data := views(t, must(pageOf(demo(t, `gasket = "jointing without asbestos"`, `gasket = "paper"`), pages.Studs)))
	value, there := data["studs"].([]any)[0].(map[string]any)["gasket_tightened_mm"]
	if !there || value != nil || !strings.Contains(text, "no figure for it: count with the sheet, 0.25 mm") {
		t.Errorf("%v, %s", value, text)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// A stud too short for its metal is told by the program, which no page of the fasteners
// stands beside; a file without covers is refused, and one that says nothing of the holes.
func TestStudsFile(t *testing.T) {
	b, err := pages.StudsFile("e.toml", []byte(demo(t, `blind = "7 mm"`, `blind = "4 mm"`)))
	if err != nil || len(b.Findings) != 1 || b.Findings[0].Code != strength.ShortThread || b.Findings[0].Where != "cylinder cover" {
		t.Errorf("%v, %v", b.Findings, err)
	}
	for name, tt := range map[string]struct{ text, says string }{
		"no covers": {"name = \"e\"\n", "covers: missing"},
		"a mistake": {demo(t, `hole = "3.4 mm"`, `hole = "2 mm"`), "does not pass a stud"},
		"no nut":    {demo(t, `stud_circle = "28 mm"`, "stud_circle = \"28 mm\"\nnut = \"0 mm\""), "nut"},
	} {
		if _, err := pages.StudsFile("e.toml", []byte(tt.text)); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	b, err = pages.StudsFile("e.toml", []byte(demo(t, "where = \"cylinder covers\"", "where = \"chimney\"")))
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := views(t, b); !strings.Contains(text, "give [[fasteners]] of the same place and thread") {
		t.Error(text)
	}
}

// The metal below a blind hole: 9 mm, of which a drill of 2.5 mm that goes 7 mm deep
// leaves 1.25 mm; 8.5 mm, of which it leaves too little; 7.5 mm, which it comes through.
func TestMetalBelowHole(t *testing.T) {
	for metal, tt := range map[string]struct {
		left float64
		says string
	}{"12 mm": {4.2489, ""}, "9 mm": {1.2489, ""}, "8.5 mm": {0.7489, "leaves 0.75 mm (29 thou) of metal"}, "7.5 mm": {-0.2511, "comes through the metal"}} {
		p, err := pageOf(demo(t, `blind = "7 mm"`, "blind = \"7 mm\"\nmetal = \""+metal+"\""), pages.Fasteners)
		if err != nil {
			t.Fatal(err)
		}
		text, data := views(t, p)
		left := data["fasteners"].([]any)[0].(map[string]any)["blind"].(map[string]any)["left_mm"].(float64)
		if math.Abs(left-tt.left) > 1e-3 || !strings.Contains(text, tt.says) {
			t.Errorf("%s: %v, %s", metal, left, text)
		}
	}
	_, err := pageOf(demo(t, `through = "6 mm"`, "through = \"6 mm\"\nmetal = \"9 mm\""), pages.Fasteners)
	if err == nil || !strings.Contains(err.Error(), "accepted: metal with blind") {
		t.Errorf("%v", err)
	}
}

// The settings of the port face in the book and by the dials; ends that differ; and what
// cannot be milled.
func TestPortFace(t *testing.T) {
	text, data := views(t, must(pageOf(demo(t, "cutter", "cutter"), pages.PortFace)))
	face := data["port_face"].(map[string]any)
	if r := face["steam_mm"].(map[string]any); r["min"] != 5.25 || r["max"] != 5.75 || !strings.Contains(text, "-4.250 to 4.250 mm") ||
		!strings.Contains(text, "head end -5.750 -5.250") {
		t.Errorf("%v in %s", r, text)
	}
	text, data = views(t, must(pageOf(demo(t, `diameter = "1.5 mm" # smaller`, `diameter = "2.2 mm" # smaller`), pages.PortFace)))
	if face := data["port_face"].(map[string]any); face["steam_mm"] != nil || !strings.Contains(text, "no wider than the port of the head end, 2 mm by 10 mm") {
		t.Errorf("a wide cutter: %s", text)
	}
	unequal := []byte(demo(t, `length = "10 mm"`+"\n\n[valve]", `length = "10 mm"`+"\ncrank_steam = \"2.5 mm\"\ncrank_bar = \"2 mm\"\n\n[valve]"))
	length := func(mm float64) *units.Length { l := units.MM(mm); return &l }
	b, err := pages.PortFaceFile("e.toml", unequal, pages.PortFaceQuestion{
		Cutter: units.MM(1.5), CentreX: length(20), CentreY: length(12), Screw: length(2), Divisions: 80, Depth: length(3),
	})
	if err != nil {
		t.Fatal(err)
	}
	text, data = views(t, b)
	// The crank end's port lies from 4 to 6.5 mm: 24.75 to 25.75 on the scale, 12 turns and 30 divisions of 0.025 mm.
	if crank := data["face"].(map[string]any)["crank_mm"].(map[string]any); crank["min"] != 4.75 || crank["max"] != 5.75 {
		t.Errorf("%v", crank)
	}
	port := data["face"].(map[string]any)["ports"].([]any)[2].(map[string]any)
	if port["from_mm"] != 24.75 || port["to_mm"] != 25.75 || port["across_from_mm"] != 7.75 || port["across_to_mm"] != 16.25 {
		t.Errorf("%v", port)
	}
	settings := data["dials"].(map[string]any)["settings"].([]any)
	last := settings[4].(map[string]any)
	if len(settings) != 6 || last["along_turns"] != 12.0 || last["along_divisions"] != 30.0 || last["across_comes_back"] != true || last["along_out_mm"] != 0.0 {
		t.Errorf("%v in %s", last, text)
	}
	if n := data["passes"].(map[string]any)["passes"]; n != 16.0 {
		t.Errorf("%v passes", n)
	}
	for name, ask := range map[string]pages.PortFaceQuestion{
		"-cutter":    {Cutter: units.MM(2.1)},
		"-divisions": {Cutter: units.MM(1), Screw: length(2), Divisions: 7},
		"-past":      {Cutter: units.MM(1), Past: length(1)},
		"-depth":     {Cutter: units.MM(1), Depth: length(-1)},
		"-screw":     {Cutter: units.MM(1), Divisions: 80},
	} {
		if _, err := pages.PortFaceFile("e.toml", unequal, ask); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What holds a hub, at a shaft that the standards of keys do not have and at one they do.
func TestKeys(t *testing.T) {
	hub := units.MM(14)
	text, data := views(t, must(pages.Keys(pages.KeysQuestion{Shaft: units.MM(6), Hub: &hub, Screw: "M3"})))
	if data["keys"].([]any)[0].(map[string]any)["width_mm"] != nil || !strings.Contains(text, "pin 1.5 x 14, small end 1.500 mm") ||
		!strings.Contains(text, "dimple, point of the drill 0.50 mm") || !strings.Contains(text, "on the flat it holds 2.8 to 4.4 N m") {
		t.Errorf("%v, %s", data["keys"], text)
	}
	again, _ := views(t, must(pages.Keys(pages.KeysQuestion{Shaft: units.MM(6), Hub: &hub, Screw: "M3 x 0.5"})))
	if again != text {
		t.Errorf("M3 x 0.5 is not M3: %s", again)
	}
	_, data = views(t, must(pages.Keys(pages.KeysQuestion{Shaft: units.MM(12)})))
	if k := data["keys"].([]any); len(k) != 2 || k[0].(map[string]any)["width_mm"] != 4.0 || k[1].(map[string]any)["width_mm"] != 3.175 {
		t.Errorf("%v", k)
	}
	thin := units.MM(6)
	for name, ask := range map[string]pages.KeysQuestion{
		"-d": {}, "-hub": {Shaft: units.MM(6), Hub: &thin}, "-screw": {Shaft: units.MM(6), Screw: "2 BA"},
	} {
		if _, err := pages.Keys(ask); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A nut that lies above the back of its valve has no slot, and no formula says 0 of less.
func TestNutSlotAbove(t *testing.T) {
	length, width := units.MM(15.4), units.MM(16)
	text, data := views(t, must(pages.NutSlot(pages.NutSlotQuestion{Length: &length, Width: &width, Slot: marking.NutSlot{
		Height: units.MM(8), Cavity: units.MM(3), Rod: units.MM(2.5), RodAbove: units.MM(12), Thick: units.MM(5), High: units.MM(5), Long: units.MM(8),
		Lift: units.MM(0.5), Wear: units.MM(0.3),
	}})))
	if data["slot"].(map[string]any)["depth_mm"] != 0.0 ||
		!strings.Contains(strings.Join(strings.Fields(text), " "), "8.00 - (12.00 - 5.00 / 2 - 0.50), which is not above zero: no slot") {
		t.Error(text)
	}
}

// A fork with the swing that was given, and what is wrong with the one that there is.
func TestClevisBook(t *testing.T) {
	swing, slot := 8*units.Degree, units.MM(3.2)
	ask := pages.ClevisQuestion{Pin: units.MM(3), Width: units.MM(6), Swing: &swing}
	_, data := views(t, must(pages.Clevis(ask)))
	// 3 cos 8 + 3 sin 8 + 0.2 = 3.5883 mm, rounded up
	if c := data["clevis"].(map[string]any); c["slot_mm"] != 3.59 || c["corner_mm"] != nil {
		t.Errorf("%v", c)
	}
	if hole := data["pin"].(map[string]any)["eye"].(map[string]any)["hole_mm"].(map[string]any); hole["min"] != 3.002 || hole["max"] != 3.012 {
		t.Errorf("%v", hole)
	}
	ask.Slot = &slot
	if b := must(pages.Clevis(ask)); b.Findings.OK() || b.Findings[0].Code != marking.ClevisBinds {
		t.Errorf("%v", b.Findings)
	}
	short := units.MM(2.5)
	ask.Slot = &short
	text, data := views(t, must(pages.Clevis(ask)))
	if c := data["clevis"].(map[string]any); c["corner_mm"] != nil || !strings.Contains(text, "none does") {
		t.Errorf("%v", c)
	}
	ask.Swing = nil
	if _, err := pages.Clevis(ask); err == nil || !strings.Contains(err.Error(), "-swing") {
		t.Errorf("no swing: %v", err)
	}
	ask.Swing, ask.Pin = &swing, units.MM(7)
	if _, err := pages.Clevis(ask); err == nil || !strings.Contains(err.Error(), "-pin") {
		t.Errorf("fat pin: %v", err)
	}
}
