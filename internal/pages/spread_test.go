package pages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

// without returns the demonstration without its tolerances.
func without(t *testing.T) string {
	text := demo(t, "[tolerances]", "[tolerances]")
	before, after, _ := strings.Cut(text, "[tolerances]\n")
	_, after, _ = strings.Cut(after, "# ALL KEYS")
	return before + after
}

// The engine book says which sizes to hold, and in a file without tolerances what a
// step of each does.
func TestHoldPage(t *testing.T) {
	b, err := pageOf(demo(t, "valve.offset", "valve.offset"), pages.Hold)
	if err != nil {
		t.Fatal(err)
	}
	text, data := views(t, b)
	for _, want := range []string{
		"1. valve.offset, +/- 0.1 mm: cut-off at the crank end by 1.5 % of the stroke, the lead by 0.100 mm (3.9 thou)",
		"keep cut-off within 2.0 % and lead within 0.15 mm", "valve.cavity +/- 0.03 mm -0.300 mm 0.300 mm 10 or more",
		"exhaust lap 0.00 deg 0.00 % +0.18 deg +0.05 %",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	first := data["hold"].([]any)[0].(map[string]any)
	if first["dimension"] != "valve.offset" || first["event"] != "cut_off" || first["end"] != "crank" || first["lead_mm"] != 0.1 ||
		math.Abs(first["stroke"].(float64)-0.01458) > 1e-5 || first["upper_mm"] != 0.1 {
		t.Errorf("%v", first)
	}
	if len(data["sensitivity"].([]any)) < 2*12 || len(data["widest"].([]any)) != 9 {
		t.Errorf("%v", data)
	}

	b, err = pageOf(without(t), pages.Hold)
	if err != nil {
		t.Fatal(err)
	}
	text, data = views(t, b)
	if !strings.HasPrefix(strings.TrimSpace(text), "HOLD THESE SIZES") || data["hold"] != nil || data["widest"] != nil || data["sensitivity"] == nil {
		t.Errorf("%s", text)
	}
}

// What cannot be used is told at its place, once, with what else is wrong.
func TestHoldComplains(t *testing.T) {
	for _, test := range []struct{ old, put, want string }{
		{`valve.cavity = "0.03 mm"`, `valve.cavity = "9.5 mm"`, "tolerances: they allow a gear that cannot be (valve cavity"},
		{`cylinder.stroke = "js12"`, `chest.length = "0.1 mm"`, "tolerances.chest.length: the file does not state chest.length itself"},
		{`lead = "0.15 mm"`, `lead = "-0.15 mm"`, "keep.lead: -0.15 mm; accepted: a length above zero"},
		{`ports.bar = "0.05 mm"`, `ports.bar = "f7"`, "tolerances.ports.bar: "},
	} {
		b, err := pages.EngineFile("e.toml", []byte(demo(t, test.old, test.put)))
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Count(err.Error(), "\n") > 0 || len(b.Sections) > 0 {
			t.Errorf("%s: %v; want %s", test.put, err, test.want)
		}
	}
	// Two mistakes of one file come together, and a gear that is none is told once.
	text := strings.Replace(demo(t, `travel = "6.4 mm"`, ""), `valve.length = "0.03 mm"`, `valve.length = "-1 mm"`, 1)
	if _, err := pages.EngineFile("e.toml", []byte(text)); err == nil || strings.Count(err.Error(), "\n") != 1 ||
		!strings.Contains(err.Error(), "eccentric.travel: missing") || !strings.Contains(err.Error(), "not below zero") {
		t.Errorf("%v", err)
	}
}

// The program has what the JSON of it promises, and its answers go together.
func TestSpread(t *testing.T) {
	ask := pages.SpreadQuestion{Runs: 20_000, Seed: 1}
	b, err := pages.SpreadFile("e.toml", []byte(demo(t, "valve.offset", "valve.offset")), ask)
	if err != nil {
		t.Fatal(err)
	}
	_, data := views(t, b)
	at := func(path string) any {
		var v any = data
		for key := range strings.SplitSeq(path, ".") {
			v = v.(map[string]any)[key]
		}
		return v
	}
	for _, end := range []string{"head", "crank"} {
		for _, event := range []string{"admission", "cut_off", "release", "compression"} {
			worst, random := "worst."+end+"."+event+".", "random."+end+"."+event+"."
			least, most := at(worst+"stroke_min").(float64), at(worst+"stroke_max").(float64)
			p05, p50, p95 := at(random+"stroke_p05").(float64), at(random+"stroke_p50").(float64), at(random+"stroke_p95").(float64)
			if !(least <= p05 && p05 <= p50 && p50 <= p95 && p95 <= most) {
				t.Errorf("%s of the %s end: %v, %v, %v, %v, %v", event, end, least, p05, p50, p95, most)
			}
			if !(at(worst+"crank_deg_min").(float64) < at(worst+"crank_deg_max").(float64)) {
				t.Errorf("%s of the %s end: %v", event, end, at("worst."+end+"."+event))
			}
			sum := 0.0
			for _, share := range data["share"].([]any) {
				sum += share.(map[string]any)[end].(map[string]any)[event].(map[string]any)["stroke"].(float64)
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("the shares of the %s of the %s end make %v", event, end, sum)
			}
		}
		if !(at("worst."+end+".lead_mm_min").(float64) <= at("random."+end+".lead_mm_p05").(float64)) {
			t.Errorf("leads of the %s end: %v, %v", end, at("worst."+end), at("random."+end))
		}
	}
	if chance := data["chance"].([]any); len(chance) == 0 || chance[0].(map[string]any)["code"] == "" {
		t.Errorf("%v", chance)
	}
	again, err := pages.SpreadFile("e.toml", []byte(demo(t, "valve.offset", "valve.offset")), ask)
	if text, _ := views(t, b); err != nil || text != first(views(t, again)) {
		t.Error("the same seed answers something else")
	}
	// A gear that hardly opens to exhaust says so of its events.
	b, err = pages.SpreadFile("e.toml", []byte(demo(t, `cavity = "9 mm"`, `cavity = "2.65 mm"`)), ask)
	if err != nil {
		t.Fatal(err)
	}
	if text, data := views(t, b); !strings.Contains(text, "if at all") || at2(data, "worst", "head", "release", "always") != false {
		t.Errorf("%s", text)
	}
	for name, bad := range map[string]struct {
		text string
		ask  pages.SpreadQuestion
		want string
	}{
		"no runs":       {demo(t, "valve", "valve"), pages.SpreadQuestion{}, "-runs: number of runs 0: out of range; accepted: 1 to 1,000,000"},
		"too many":      {demo(t, "valve", "valve"), pages.SpreadQuestion{Runs: 1e9}, "accepted: 1 to 1,000,000"},
		"seed":          {demo(t, "valve", "valve"), pages.SpreadQuestion{Runs: 1, Seed: -1}, "-seed: seed -1"},
		"no tolerances": {without(t), ask, "e.toml:1:1: tolerances: missing; accepted: a table [tolerances]"},
		"no gear":       {demo(t, `travel = "6.4 mm"`, `travel = "-6.4 mm"`), ask, "eccentric.travel"},
		"nothing there": {demo(t, `advance = "26 deg"`, `advance = "26"`), ask, "a number without a unit"},
		"kept": {demo(t, `cavity = "9 mm"`, `cavity = "1 mm"`) + "\n[keep]\nrelease = \"1 %\"\n", ask,
			"keep: given twice"},
	} {
		if _, err := pages.SpreadFile("e.toml", []byte(bad.text), bad.ask); err == nil || !strings.Contains(err.Error(), bad.want) {
			t.Errorf("%s: %v; want %s", name, err, bad.want)
		}
	}
	b, err = pages.SpreadFile("e.toml", []byte(strings.Replace(demo(t, `cavity = "9 mm"`, `cavity = "1 mm"`), `cut_off = "2 %"`,
		`release = "2 %"`, 1)), ask)
	if text, data := views(t, b); err != nil || data["widest"] != nil || !strings.Contains(text, "as not all of this happens in the gear as drawn") {
		t.Errorf("%v, %s", err, text)
	}
}

// What is told of a gear and how often it is told go together, in the terms in which
// the file has the place of the eccentric.
func TestSpreadOfPlace(t *testing.T) {
	text := demo(t, `advance = "26 deg"`, `stands = "26 deg"`)
	b, err := pages.SpreadFile("e.toml", []byte(text), pages.SpreadQuestion{Runs: 500, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	told, chance := map[any]bool{}, map[any]any{}
	_, data := views(t, b)
	for _, f := range data["findings"].([]any) {
		told[f.(map[string]any)["code"]] = true
	}
	for _, c := range data["chance"].([]any) {
		chance[c.(map[string]any)["code"]] = c.(map[string]any)["chance"]
	}
	if !told["advance-for-place"] || chance["advance-for-place"] != 1.0 || chance["angle-from-crank"] != nil {
		t.Errorf("told %v, chances %v", told, chance)
	}
}

func first(text string, _ map[string]any) string { return text }

func at2(data map[string]any, path ...string) any {
	var v any = data
	for _, key := range path {
		v = v.(map[string]any)[key]
	}
	return v
}
