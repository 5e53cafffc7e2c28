package pages_test

import (
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/pages"
)

// withSetting puts another table [setting] into the file of the demonstration.
func withSetting(t *testing.T, lines string) string {
	t.Helper()
	file := demo(t, "", "")
	head, rest, ok := strings.Cut(file, "\n[setting]\n")
	_, rest, more := strings.Cut(rest, "\n\n")
	if !ok || !more {
		t.Fatal("no [setting] in the demonstration")
	}
	return head + "\n[setting]\n" + lines + "\n\n" + rest
}

// The book has the sheet: what is read after each stage stands in both views, and
// nothing is an arc that nobody can work out.
func TestSettingInTheBook(t *testing.T) {
	text, data := views(t, engineBook(t, demo(t, "", "")))
	for path, want := range map[string]float64{
		"setting.dead_centres.number": 1, "setting.dead_centres.head.rim_between_marks_mm": 78.539816,
		"setting.sheave.stands_deg": 116, "setting.sheave.arc_mm": 6.073746, "setting.middle.head.steam_edge_past_port_mm": 0,
		"setting.middle.openings_serve_within_mm": 0, "setting.lead.lead_mm": 0.271762205, "setting.other_end.lead_mm": 0.133812994,
		"setting.lead.lead_for_a_degree_mm": 0.050197492, "setting.split.to_equal_leads_mm": -0.0689746,
		"setting.prove.head.cut_off.crank_deg": 133.41, "setting.prove.crank.admission.crank_deg": -2.58,
		"setting.fasten.turn_to_reverse_deg": 128, "setting.fasten.number": 8,
	} {
		within := 1e-6
		if strings.HasSuffix(path, "crank_deg") {
			within = 0.005
		}
		near(t, at(data, path), want, within)
	}
	for _, want := range []string{
		"SETTING THE VALVE", "The sheave stands 116.00 deg ahead of the crankpin; the lead is 0.27 mm at the head end and 0.13 mm at the crank end.",
		"By hand, without steam or air", "clockwise from the crankpin", "is blind here", "by 1/2 turn, 0.3 mm (11.6 thou) of the valve",
		"block the flywheel first",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in the book", want)
		}
	}
	unstated := withSetting(t, "")
	_, data = views(t, engineBook(t, unstated))
	near(t, at(data, "setting.sheave.arc_mm"), 6.073746, 1e-6) // of the bore of the sheave
	before, rest, _ := strings.Cut(unstated, "\n[sheave]\n")
	_, after, _ := strings.Cut(rest, "\n\n")
	text, data = views(t, engineBook(t, before+"\n"+after))
	if at(data, "setting.sheave.arc_mm") != nil || strings.Contains(text, "Seen from") || strings.Contains(text, "The nut goes by") {
		t.Error("a shaft, a side or a nut that nobody stated")
	}
	// What the file has wrong, and setting puts right, is not what is set: EC-18, and a
	// sheave for the other direction. Where setting does not, that is told.
	shims, err := os.ReadFile(check.Path(t, "../examples/enginebook/engines/shims.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text, data = views(t, engineBook(t, string(shims)))
	near(t, at(data, "setting.middle.valve_offset_mm"), 0, 0.006)
	if !strings.Contains(text, "The sheet is for what puts it right: Move the valve 25.2 thou (0.64 mm)") {
		t.Error(text)
	}
	text, data = views(t, engineBook(t, demo(t, `advance = "26 deg"`, `advance = "154 deg"`)))
	near(t, at(data, "setting.sheave.advance_deg"), 26, 1e-9)
	if !strings.Contains(text, "The sheet is for what puts it right: Turn the eccentric on the shaft") {
		t.Error(text)
	}
	text, _ = views(t, engineBook(t, demo(t, "cavity = \"9 mm\"\n", "cavity = \"13 mm\"\n")))
	if !strings.Contains(text, "setting alone puts none of that right") {
		t.Error(text)
	}
	both := strings.Replace(demo(t, "cavity = \"9 mm\"\n", "cavity = \"13 mm\"\n"), `advance = "26 deg"`, `advance = "154 deg"`, 1)
	text, data = views(t, engineBook(t, both))
	if at(data, "setting.lead") != nil || !strings.Contains(text, "No sheet: setting: angle of advance") {
		t.Error("a sheet of a gear for the other direction")
	}
}

func TestSettingOfTheFileRefused(t *testing.T) {
	for _, row := range []struct{ lines, said string }{
		{`rotation = "clockwise"`, "rotation and seen_from together"},
		{`rotation = "widdershins"` + "\n" + `seen_from = "the flywheel"`, "clockwise, anticlockwise"},
		{`rotation = "clockwise"` + "\n" + `seen_from = "  "`, "seen_from: missing"},
		{`shaft = "0 mm"`, "shaft: 0 mm"},
		{`nut_places = 2`, "spindle: missing"},
		{`spindle = "5 BA"` + "\nnut_places = 0", "nut_places: 0"},
		{`spindle = "5 BA"` + "\nnut_places = 25", "nut_places: 25"},
		{`spindle = "5 XX"`, "spindle"},
		{`stop_pin = "3 mm"`, "stop_pin and stop_radius together"},
		{`slot = "128 deg"`, "stop_pin: missing"},
		{`stop_pin = "8 mm"` + "\n" + `stop_radius = "8 mm"`, "thinner than the radius"},
		{`stop_pin = "3 mm"` + "\n" + `stop_radius = "8 mm"` + "\n" + `slot = "12 deg"`, "longer than the pin"},
	} {
		file := withSetting(t, row.lines)
		_, book := pages.EngineFile("engine.toml", []byte(file))
		_, sheet := pages.SettingFile("engine.toml", []byte(file), pages.SettingQuestion{})
		for name, err := range map[string]error{"book": book, "sheet": sheet} {
			if err == nil || !strings.Contains(err.Error(), row.said) || !strings.Contains(err.Error(), "engine.toml:") {
				t.Errorf("%s: %q: %v", name, row.lines, err)
			}
		}
	}
}
