package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
)

func book1(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = program().Do(args, &out, &errs)
	return out.String(), errs.String(), code
}

// engine writes an engine file: the demonstration with one line replaced, or
// with lines added where old is blank.
func engineWith(t *testing.T, old, replacement string) string {
	t.Helper()
	text := string(demo)
	if old == "" {
		text += "\n" + replacement
	} else if text = strings.Replace(text, old, replacement, 1); text == string(demo) {
		t.Fatalf("the demonstration has no %q", old)
	}
	path := filepath.Join(t.TempDir(), "engine.toml")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

type jsonEvent struct {
	Crank  *float64 `json:"crank_deg"`
	Stroke *float64 `json:"stroke"`
}

type jsonEnd struct {
	Admission      jsonEvent `json:"admission"`
	CutOff         jsonEvent `json:"cut_off"`
	Release        jsonEvent `json:"release"`
	Compression    jsonEvent `json:"compression"`
	Lead           float64   `json:"lead_mm"`
	Opening        float64   `json:"opening_mm"`
	ExhaustOpening float64   `json:"exhaust_opening_mm"`
}

type jsonBook struct {
	Name string `json:"name"`
	Laps struct {
		Steam   float64 `json:"steam_mm"`
		Exhaust float64 `json:"exhaust_mm"`
	} `json:"laps"`
	Events    struct{ Head, Crank jsonEnd } `json:"events"`
	Eccentric struct {
		Offset float64 `json:"offset_mm"`
		Dial   float64 `json:"dial_reading_mm"`
	} `json:"eccentric"`
	Findings []struct {
		Code, Severity, Where, Text string
		Remedies                    []string
	} `json:"findings"`
}

func decode(t *testing.T, text string) jsonBook {
	t.Helper()
	var b jsonBook
	if err := json.Unmarshal([]byte(text), &b); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return b
}

func near(t *testing.T, what string, got *float64, want, tolerance float64) {
	t.Helper()
	if got == nil || !(math.Abs(*got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}

func TestDemo(t *testing.T) {
	stdout, stderr, code := book1(t)
	if code != 0 || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	for _, want := range []string{
		"(invented)", "Nothing found that can hurt somebody", "steam lap     1.200 mm",
		"cut-off      133.41 deg  86.99 %", "130.58 deg  79.65 %", "0.272 mm", "offset of the sheave           3.200 mm   0.1260 in",
		"dial reading over one turn     6.400 mm", "ahead of the crank", "T. Bevan", "Turn the engine over by hand",
		"angle of advance      26.00 deg", "18.75 offsets",
	} {
		if !strings.Contains(stdout, want) {
			t.Errorf("no %q in\n%s", want, stdout)
		}
	}
	prose := strings.Join(strings.Fields(stdout), " ")
	for _, want := range []string{
		"= (15.4 - 2 x 2 - 2 x 2.5 - 4) / 2 = 1.2 mm", "(2 x 2.5 + 4 - 9) / 2 = 0 mm", "offset = travel / 2 = 6.4 / 2 = 3.2 mm",
		"S / half travel = 1.2 / 3.2, the sine of 22.02 deg", "= 131.98 deg", "3.2 x sin 26.00 - 1.2 = 0.203 mm", "comes in to 4.500 mm 0.1772 in and goes out to 10.900 mm 0.4291 in the ports end at 6.500 mm", "shows 0.27 mm (10.7 thou)",
	} {
		if !strings.Contains(prose, want) {
			t.Errorf("no %q in\n%s", want, prose)
		}
	}
	for i, line := range strings.Split(stdout, "\n") {
		if len([]rune(line)) > 78 || strings.TrimRight(line, " ") != line {
			t.Errorf("line %d too wide or ends in blanks: %q", i+1, line)
		}
	}
}

func TestDemoJSON(t *testing.T) {
	stdout, _, code := book1(t, "-json")
	if code != 0 {
		t.Fatalf("exit %d", code)
	}
	b := decode(t, stdout)
	// From a scan and bisection that shares no code with the library.
	near(t, "head admission", b.Events.Head.Admission.Crank, -5.4138, 0.00005)
	near(t, "head cut-off", b.Events.Head.CutOff.Stroke, 0.869943, 0.0000005)
	near(t, "head compression", b.Events.Head.Compression.Stroke, 0.067226, 0.0000005)
	near(t, "crank release", b.Events.Crank.Release.Crank, 152.4719, 0.00005)
	near(t, "crank lead", &b.Events.Crank.Lead, 0.13381, 0.000005)
	near(t, "steam lap", &b.Laps.Steam, 1.2, 0)
	near(t, "dial", &b.Eccentric.Dial, 6.4, 0)
}

// Every number of the JSON is finite and has its unit in its key, or is of those
// that have none.
func TestJSONUnits(t *testing.T) {
	stdout, _, _ := book1(t, "-json")
	var all any
	if err := json.Unmarshal([]byte(stdout), &all); err != nil {
		t.Fatal(err)
	}
	unit := regexp.MustCompile(`_(mm|mm2|um|deg|n|nm|mpa|bar|m_min|mm_min|rev_min|m_s|ml_s|ml_min|l_min|kg_h|j|k|w|kg|g|kj|ml)$|^minutes$`)
	pure := regexp.MustCompile(`^(stroke|index|expansion|swing|wanted|clearance_share|count|turns|rule_turns|passes|studs|depth|depth_of_full|lever_ratio|preload_share|motor_share|` +
		`preload_times_load|torque_factor|schema|number|share|factor)$`)
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, inner := range v {
				switch k {
				case "sources": // numbers of works
				case "min", "max": // of the quantity that the range is of
					walk(key, inner)
				default:
					walk(k, inner)
				}
			}
		case []any:
			for _, inner := range v {
				walk(key, inner)
			}
		case float64:
			if !unit.MatchString(key) && !pure.MatchString(key) {
				t.Errorf("%s: %v has no unit", key, v)
			}
		}
	}
	walk("", all)
	for _, want := range []string{
		"never with compressed air", "a broken tap is brittle", "may hold asbestos", "Turn the engine over by hand",
		`"bore_mm": 20`, `"steam_edge_past_port_mm": 0`, `"outer_mm": 10.9`, `"mean_lead_mm": 0.20278`, `"valve_offset_for_equal_lead_mm": -0.06897`,
		`"piston_mm": 21.74857`, `"rise_k": 40`, `"tap_lead_mm": 0.75`, `"rule_turns": 8`, `"set_m_min": 13.53`, `"feed_mm_min": `,
		`"stud_stress_mpa": 13.488`, `"spacing_mm": 14`, `"min": 568.9`, `"on_gasket_mpa": 7.65`, `"gasket_seated": true`,
		`"spanner_pull_n": 10.5`, `"thickness_mm": 3`,
	} {
		if !strings.Contains(stdout, want) {
			t.Errorf("no %s in the JSON", want)
		}
	}
}

// A size that does not go with the bore is told before anything else, as it is
// most often a slip of the pen.
func TestProportions(t *testing.T) {
	for _, test := range []struct{ old, replacement, want string }{
		{`bore = "20 mm"`, `bore = "0.787 mm"`, "the stroke, 25.00 mm (0.984 in), is 32 times the bore (usual: 0.7 to 4); the steam port's width"},
		{`stroke = "25 mm"`, `stroke = "12.5 mm"`, "For a bore of 20.00 mm (0.787 in) the stroke, 12.50 mm (0.492 in), is 0.62 times the bore"},
		{`length = "15.4 mm"`, `length = "15.4 in"`, "the valve, 391.16 mm (15.400 in), is 20 times the bore (usual: 0.2 to 3)"},
		{`length = "10 mm"`, `length = "0.4 mm"`, "the length of the ports, 0.40 mm (0.016 in), is 0.02 times the bore"},
	} {
		// Nothing else says what the bore and the valve are.
		alone := strings.NewReplacer("piston in cylinder", "piston", `part = "cylinder"`, `part = "casting"`, `where = "steam chest"`, `where = "casing"`, `piston_rod = "5 mm"`, "", test.old, test.replacement)
		stdout, _, _ := book1(t, engineWith(t, string(demo), alone.Replace(string(demo))))
		wrong, _, _ := strings.Cut(stdout, "DIMENSIONS AS GIVEN")
		if text := strings.Join(strings.Fields(wrong), " "); !strings.Contains(text, test.want) || !strings.Contains(text, "25.4 times too small") {
			t.Errorf("%s: no %q in\n%s", test.replacement, test.want, wrong)
		}
	}
	if stdout, _, _ := book1(t); strings.Contains(stdout, "times the bore") {
		t.Error("the demonstration is out of proportion")
	}
}

func TestLongCavity(t *testing.T) {
	stdout, _, code := book1(t, "-json", "engines/wrong-cavity.toml")
	b := decode(t, stdout)
	if code != 1 || len(b.Findings) == 0 {
		t.Fatalf("exit %d, findings %v", code, b.Findings)
	}
	if f := b.Findings[0]; f.Code != string(eccentric.NarrowLand) || f.Severity != "fails" || f.Where != "" || !strings.Contains(f.Text, "cavity") || len(f.Remedies) != 2 || !strings.Contains(f.Remedies[0], "9 mm") || !strings.Contains(f.Remedies[1], "9 mm") {
		t.Errorf("first finding %+v", f)
	}
	near(t, "exhaust lap", &b.Laps.Exhaust, -1.4, 0)
	near(t, "head release", b.Events.Head.Release.Crank, 129.4541, 0.00005)

	stdout, _, code = book1(t, "engines/wrong-cavity.toml")
	wrong := strings.Index(stdout, "WHAT IS WRONG")
	if !strings.Contains(stdout, "A compression past 360 deg is none") {
		t.Errorf("the crank end shuts its exhaust after the dead centre, and nothing says so:\n%s", stdout)
	}
	if dims := strings.Index(stdout, "DIMENSIONS"); code != 1 || wrong < 0 || wrong > dims {
		t.Errorf("exit %d; what is wrong does not come first", code)
	}
}

func TestEventThatNeverHappens(t *testing.T) {
	path := engineWith(t, `travel = "6.4 mm"`, `travel = "2.2 mm"`)
	stdout, _, code := book1(t, "-json", path)
	b := decode(t, stdout)
	if code != 1 || b.Events.Head.Admission != (jsonEvent{}) || b.Events.Crank.CutOff != (jsonEvent{}) || b.Events.Head.Release.Crank == nil {
		t.Errorf("exit %d, events %+v", code, b.Events)
	}
	stdout, _, _ = book1(t, path)
	if !strings.Contains(stdout, "never") || strings.Contains(stdout, "NaN") {
		t.Error(stdout)
	}
}

func TestRemedyOfBothEndsStandsOnce(t *testing.T) {
	stdout, _, _ := book1(t, engineWith(t, `exhaust = "4 mm"`, `exhaust = "2 mm"`))
	if both, once := strings.Count(stdout, "port is still shut by"), strings.Count(stdout, "an advance of 43.4 deg"); both != 2 || once != 1 {
		t.Errorf("%d findings, %d remedies in\n%s", both, once, stdout)
	}
}

func TestOptions(t *testing.T) {
	// A lead in place of the advance.
	stdout, _, code := book1(t, "-json", engineWith(t, `advance = "26 deg"`, `lead = "0.1 mm"`))
	b := decode(t, stdout)
	mean := (b.Events.Head.Lead + b.Events.Crank.Lead) / 2
	if code != 0 {
		t.Errorf("exit %d", code)
	}
	near(t, "mean lead", &mean, 0.1, 1e-8)
	text, _, _ := book1(t, engineWith(t, `advance = "26 deg"`, `lead = "0.1 mm"`))
	for _, want := range []string{"lead                   0.100 mm   0.0039 in   mean of both ends", "angle of advance d            23.97 deg", "- 1.2 = 0.1 mm;"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	// Every figure that the file gives stands among the dimensions.
	text, _, _ = book1(t, engineWith(t, `cavity = "9 mm"`, "cavity = \"9 mm\"\noffset = \"-0.2 mm\"\nadmission = \"Inside\"\n[chest]\nlength = \"30 mm\""))
	for _, want := range []string{"valve off centre 0.200 mm 0.0079 in away from crank", "admission past the inner edges yes", "chest, inside", "middle port", "between inner edges"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	// Infinite rods make both ends alike.
	stdout, _, _ = book1(t, "-json", engineWith(t, `connecting_rod = "63 mm"`+"\n"+`eccentric_rod = "60 mm"`, `connecting_rod = "infinite"`+"\n"+`eccentric_rod = "infinite"`))
	b = decode(t, stdout)
	near(t, "cut-off at both ends", b.Events.Head.CutOff.Stroke, *b.Events.Crank.CutOff.Stroke, 1e-12)
	// The mark that some editors put before UTF-8.
	if _, stderr, code := book1(t, engineWith(t, "# A small", "\uFEFF# A small")); code != 0 {
		t.Errorf("byte order mark: exit %d %s", code, stderr)
	}
	// The mean lead, and what makes it differ at the two ends.
	for _, test := range []struct{ rod, offset, want, not string }{
		{"60 mm", "0 mm", "the slant of the eccentric rod makes it 0.272 at the head end and 0.134 at the crank end", "compression past 360"},
		{"60 mm", "0.1 mm", "the slant of the eccentric rod and the valve off centre make it 0.372 at the head end and 0.034 at the crank end", ""},
		{"infinite", "-0.1 mm", "0.203 mm; the valve off centre makes it 0.103 at the head end and 0.303 at the crank end", ""},
		{"infinite", "0.1 mm", "With the valve moved 0.10 mm (3.9 thou) away from the crank, to its centre, both ends have that mean lead", ""},
		{"infinite", "0 mm", "- 1.2 = 0.203 mm Ahead", "both ends have that mean lead"},
		{"60 mm", "-0.069 mm", "", "both ends have that mean lead"},
	} {
		b, err := pages.EngineFile("test", []byte(strings.NewReplacer(
			`eccentric_rod = "60 mm"`, `eccentric_rod = "`+test.rod+`"`,
			`cavity = "9 mm"`, `cavity = "9 mm"`+"\noffset = \""+test.offset+`"`).Replace(string(demo))))
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := b.WriteText(&out); err != nil {
			t.Fatal(err)
		}
		stdout := out.String()
		prose := strings.Join(strings.Fields(stdout), " ")
		if !strings.Contains(prose, test.want) || test.not != "" && strings.Contains(prose, test.not) {
			t.Errorf("rod %s, offset %s: want %q and not %q in\n%s", test.rod, test.offset, test.want, test.not, stdout)
		}
	}
	// A size in fractions of an inch is shown as one.
	if stdout, _, _ := book1(t, engineWith(t, `steam = "2 mm"`, `steam = "3/32 in"`)); !strings.Contains(stdout, "2.381 mm   0.0938 in   3/32 in\n") || strings.Contains(stdout, "25.000 mm   0.9843 in,") {
		t.Error(stdout)
	}
	// The sign of an advance below zero is told from a subtraction.
	if stdout, _, _ := book1(t, engineWith(t, `advance = "26 deg"`, `advance = "-26 deg"`)); !strings.Contains(strings.Join(strings.Fields(stdout), " "), "22.02 - (-26.00) = 48.02 deg and cut-off at t = 180 - 22.02 - (-26.00)") {
		t.Error(stdout)
	}
	// A piston valve runs in a liner, and wears no ridge in a port face.
	for admission, groove := range map[string]bool{"outside": true, "inside": false} {
		if stdout, _, _ := book1(t, engineWith(t, `cavity = "9 mm"`, "cavity = \"9 mm\"\nadmission = \""+admission+`"`)); strings.Contains(stdout, "relief groove") != groove {
			t.Errorf("%s: %s", admission, stdout)
		}
	}
	// A short chest stops the engine; inches and a piston valve are read.
	if _, _, code := book1(t, engineWith(t, "", "[chest]\nlength = \"3/4 in\"")); code != 1 {
		t.Errorf("short chest: exit %d", code)
	}
	stdout, stderr, code := book1(t, engineWith(t, `length = "15.4 mm"`+"\n"+`cavity = "9 mm"`, `length = "13 mm"`+"\n"+`cavity = "6.6 mm"`+"\n"+`admission = "inside"`))
	if code != 0 || !strings.Contains(stdout, "behind the crank") {
		t.Errorf("piston valve: exit %d %s\n%s", code, stderr, stdout)
	}
	if stdout, _, code := book1(t, engineWith(t, `eccentric_rod = "60 mm"`, `eccentric_rod = "60 mm"`+"\nlever_ratio = -1.6")); code != 0 || !strings.Contains(stdout, "behind the crank") || !strings.Contains(stdout, "6.4 / 2 / 1.6 = 2 mm") || !strings.Contains(stdout, "lever ratio                -1.6") {
		t.Errorf("lever: exit %d\n%s", code, stdout)
	}
}

func TestBadFiles(t *testing.T) {
	for _, test := range []struct{ name, old, replacement, want string }{
		{"no unit", `bore = "20 mm"`, `bore = "20"`, `engine.toml:5:8: cylinder.bore: length "20": a number without a unit; accepted: a number or an inch fraction and one of mm`},
		{"bare number", `bore = "20 mm"`, `bore = 20`, `engine.toml:5:8: cylinder.bore: a bare 20; accepted: text in quotes`},
		{"list", `bore = "20 mm"`, `bore = [20]`, `engine.toml:5:1: cylinder.bore: a list; accepted: text in quotes, a length with its unit`},
		{"wrong unit", `advance = "26 deg"`, `advance = "26 mm"`, `engine.toml:30:11: eccentric.advance: angle "26 mm": unknown unit "mm"; accepted: a decimal number and one of deg, rad`},
		{"unknown key", `bore = "20 mm"`, `boore = "20 mm"`, "engine.toml:5:1: cylinder.boore: unknown key; accepted: bore, gaskets, head_clearance, iron, least_clearance, length, piston, piston_rod, pressure, stroke, wear\n"},
		{"unknown table", `[cylinder]`, "[wheel]\nspokes = 6\n[cylinder]", `wheel: unknown key; accepted: [[covers]], [[fasteners]], [[fits]], [[operations]], [[readings]], [chest], [cylinder]`},
		{"other case", `bore = "20 mm"`, `BORE = "20 mm"`, `engine.toml:5:1: BORE: unknown key; accepted: bore`},
		{"twice", `bore = "20 mm"`, "bore = \"20 mm\"\nbore = \"20 mm\"", `engine.toml:6:1: cylinder.bore: given twice; accepted: once`},
		{"twice in two cases", `bore = "20 mm"`, "bore = \"20 mm\"\nBore = \"30 mm\"", `engine.toml:6:1: Bore: unknown key`},
		{"missing", `bar = "2.5 mm"`, ``, `engine.toml:16:2: ports.bar: missing; accepted: a length`},
		{"missing table", "[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"", ``, `motion.connecting_rod: missing; accepted: a length with its unit, such as "20 mm" or "3/4 in", or "infinite"`},
		{"neither advance nor lead", `advance = "26 deg"`, ``, `engine.toml:28:2: eccentric.advance: missing; accepted: advance, such as "26 deg", or lead`},
		{"both", `advance = "26 deg"`, "advance = \"26 deg\"\nlead = \"0.2 mm\"", `engine.toml:31:8: eccentric.lead: advance is given too`},
		{"rod too short", `"63 mm"`, `"12 mm"`, `engine.toml:13:18: motion.connecting_rod: connecting rod 12 mm: out of range; accepted: longer than half the stroke, 12.5 mm, or "infinite"`},
		{"negative rod", `"63 mm"`, `"-63 mm"`, `engine.toml:13:18: motion.connecting_rod: rod "-63 mm": out of range; accepted: a length above zero, or "infinite"`},
		{"zero stroke", `stroke = "25 mm"`, `stroke = "0 mm"`, `engine.toml:6:10: cylinder.stroke: stroke: missing or zero`},
		{"negative bore", `bore = "20 mm"`, `bore = "-20 mm"`, `engine.toml:5:8: cylinder.bore: -20 mm; accepted: a length above zero`},
		{"lead too large", `advance = "26 deg"`, `lead = "3 mm"`, `engine.toml:30:8: eccentric.lead: lead 3 mm: the travel does not reach it; accepted: between -4.4 mm and 2 mm`},
		{"admission", `cavity = "9 mm"`, "cavity = \"9 mm\"\nadmission = \"sideways\"", `engine.toml:27:13: valve.admission: "sideways"; accepted: "outside"`},
		{"lever", `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = 0.0", `engine.toml:15:15: motion.lever_ratio: 0; accepted`},
		{"lever not finite", `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = nan", `engine.toml:15:15: motion.lever_ratio: lever ratio NaN`},
		{"zero chest", "", "[chest]\nlength = \"0 mm\"", `: chest.length: 0 mm; accepted`},
		{"lever in quotes", `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = \"-1\"", `engine.toml:15:15: motion.lever_ratio: not of the right kind; accepted: a plain number`},
		{"table written as a list", "[cylinder]", "[[cylinder]]", `cylinder: not of the right kind; accepted: one table, under [cylinder]`},
		{"list written as a value", "[cylinder]", "fits = 3\n[cylinder]", `fits: not of the right kind; accepted: a table for each, under [[fits]]`},
		{"chest without a length", "", "[chest]", `chest.length: missing; accepted: a length`},
		{"no quotes", `bore = "20 mm"`, `bore = 20 mm`, `engine.toml:5:11: text without quotes, or something after a value; accepted: text in quotes, a quantity`},
		{"a quote too many", `bore = "20 mm"`, `bore = "3/4""`, `engine.toml:5:13: a quote too many; accepted: text in quotes; where it holds an inch mark, in single quotes, '1 3/8"'`},
		{"no equals sign", `bore = "20 mm"`, `bore "20 mm"`, `engine.toml:5:6: expected '=' after key; accepted: a name in brackets, [cylinder], or key = value`},
		{"table for a quantity", `bore = "20 mm"`, `bore = {mm = 20}`, `engine.toml:5:8: cylinder.bore: a table; accepted: text in quotes, a length`},
		{"unknown key in one line", "[cylinder]", "chest = {lenght = \"30 mm\"}\n[cylinder]", `chest.lenght: unknown key; accepted: length`},
		{"number for a name", `name = "Demonstration engine (invented)"`, `name = 3`, "engine.toml:2:8: name: a bare 3; accepted: text in quotes\n"},
		{"line break in a name", `name = "Demonstration engine (invented)"`, `name = "Demo\n\u001b[2J"`, "engine.toml:2:8: name: \\u000a in it, a line break or another character that does not print; accepted: text in quotes\n"},
		{"rod in words", `"60 mm"`, `"endless"`, `engine.toml:14:17: motion.eccentric_rod: rod "endless": no number before the unit; accepted: a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ft, such as "6.35 mm", "1 3/8 in" or "5 thou"; or "infinite"`},
		{"bad value in one line", "[cylinder]", "chest = {length = \"30\"}\n[cylinder]", `chest.length: length "30": a number without a unit`},
		{"table and list", "", `[fits]`, `fits: given twice; accepted: once`},
		{"key with an escape", `bore = "20 mm"`, `"b\u006fred" = "20 mm"`, `engine.toml:5:1: cylinder.bored: unknown key; accepted: bore, gaskets, head_clearance, iron, least_clearance, length, piston, piston_rod, pressure, stroke, wear`},
		{"a word of two meanings", `travel = "6.4 mm"`, `throw = "6.4 mm"`, `eccentric.throw: the word means the offset of the sheave to some and the full travel, twice that, to others; accepted: advance, lead, stands, travel`},
		{"endless key", `bore = "20 mm"`, strings.Repeat("k", 100000) + ` = "20 mm"`, `kkk...: unknown key; accepted: bore, gaskets, head_clearance, iron, least_clearance, length, piston, piston_rod, pressure, stroke, wear`},
		{"exponent", `"20 mm"`, `"2e1 mm"`, `cylinder.bore: length "2e1 mm": an exponent: write the number out`},
		{"decimal comma", `"20 mm"`, `"20,5 mm"`, `cylinder.bore: length "20,5 mm": a comma in the number: write a point`},
		{"broken text", `bore = "20 mm"`, `bore = "20 mm`, `engine.toml:5:14:`},
	} {
		t.Run(test.name, func(t *testing.T) {
			stdout, stderr, code := book1(t, engineWith(t, test.old, test.replacement))
			if code != 2 || stdout != "" || !strings.Contains(stderr, test.want) {
				t.Errorf("exit %d, stdout %q, stderr %q; want %q", code, stdout, stderr, test.want)
			}
		})
	}
}

func TestUsage(t *testing.T) {
	for _, args := range [][]string{{"-colour"}, {"a.toml", "b.toml"}, {"-demo", "a.toml"}, {"no-such-file.toml"}, {"."}} {
		stdout, stderr, code := book1(t, args...)
		if code != 2 || stdout != "" || stderr == "" {
			t.Errorf("%v: exit %d, %q, %q", args, code, stdout, stderr)
		}
	}
	whole, _, _ := book1(t, "-json")
	if stdout, stderr, code := book1(t, "-demo", "-json"); code != 0 || stderr != "" || stdout != whole {
		t.Errorf("-demo -json: exit %d, %s", code, stderr)
	}
	if stdout, stderr, code := book1(t, "-h"); code != 0 || stderr != "" || !strings.Contains(stdout, "usage: enginebook") {
		t.Errorf("-h: exit %d, %q", code, stderr)
	}
	large := filepath.Join(t.TempDir(), "large.toml")
	if err := os.WriteFile(large, bytes.Repeat([]byte("#\n"), 1<<18), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, stderr, code := book1(t, large); code != 2 || !strings.Contains(stderr, "256 KiB") {
		t.Errorf("large file: exit %d, %q", code, stderr)
	}
}

// The file to start from explains every key of every table, and no other.
func TestDemoExplainsEveryKey(t *testing.T) {
	stdout, _, code := book1(t, "-demo")
	if code != 0 || stdout != string(demo) {
		t.Fatalf("exit %d", code)
	}
	_, help, _ := strings.Cut(stdout, "# ALL KEYS\n")
	explained := map[string]bool{}
	tables := []string{""}
	table := regexp.MustCompile(`\[(\w+)\]`)
	for line := range strings.Lines(help) {
		line = strings.TrimPrefix(strings.TrimSuffix(line, "\n"), "# ")
		if len([]rune(line))+2 > 78 {
			t.Errorf("too wide: %s", line)
		}
		keys, _, _ := strings.Cut(line, "  ")
		switch {
		case strings.HasPrefix(line, "["):
			tables = nil
			for _, m := range table.FindAllStringSubmatch(line, -1) {
				tables = append(tables, m[1]+".")
			}
		default:
			for key := range strings.SplitSeq(strings.ReplaceAll(keys, " (-)", ""), ", ") {
				for _, in := range tables {
					explained[in+key] = true
				}
			}
		}
	}
	known := map[string]bool{}
	for _, name := range engine.Keys(engine.File{}) {
		known[name] = true
		if !explained[name] {
			t.Errorf("%s is not explained", name)
		}
	}
	for name := range explained {
		if key := name[strings.LastIndexByte(name, '.')+1:]; regexp.MustCompile(`^[a-z]+_[a-z_]+$`).MatchString(key) && !known[name] && name != "mill.centre_height" && name != "mill.chuck_speed" {
			t.Errorf("%s is no key", name)
		}
	}
}

// With -o the sheets at true size lie beside the book, on the paper that is asked for, in
// the unit of the file; what is left out is told, with the reason.
func TestBooklet(t *testing.T) {
	place := filepath.Join(t.TempDir(), "book")
	for _, test := range []struct {
		args   []string
		dxf    int
		sheet  []string
		answer string
	}{
		{[]string{"-demo"}, 5, []string{`width="210mm"`, ">100<"}, "cylinder-cover-marking.pdf"},
		{[]string{"-paper", "Letter", "engines/inch.toml"}, 5, []string{`width="215.9mm"`, "4 in (101.6 mm)"}, "steam-chest-gasket-1.svg"},
		{[]string{"engines/minimal.toml"}, 1, []string{">100<"}, "Left out: Sheets of covers: the file has no [[covers]]."},
	} {
		out, told, code := book1(t, append([]string{"-o", place}, test.args...)...)
		if code != 0 || !strings.Contains(strings.Join(strings.Fields(out), " "), test.answer) || !strings.Contains(told, "sheet of the port face") {
			t.Errorf("%q: exit %d, %s%s", test.args, code, out, told)
		}
		cuts, err := filepath.Glob(filepath.Join(place, "sheets", "*.dxf"))
		if err != nil || len(cuts) != test.dxf {
			t.Errorf("%q: %v, %q", test.args, err, cuts)
		}
		sheet, err := os.ReadFile(filepath.Join(place, "sheets", "port-face-1.svg"))
		for _, want := range test.sheet {
			if err != nil || !strings.Contains(string(sheet), want) {
				t.Errorf("%q: %v, no %s", test.args, err, want)
			}
		}
		page, err := os.ReadFile(filepath.Join(place, "book.html"))
		if err != nil || !strings.Contains(string(page), "sheets/port-face.pdf") {
			t.Errorf("%q: the page does not name its sheets: %v", test.args, err)
		}
	}
	if out, told, code := book1(t, "-paper", "Letter"); code != 2 || out != "" || !strings.Contains(told, "accepted: with -o") {
		t.Errorf("-paper without -o: exit %d, %s", code, told)
	}
	if out, told, code := book1(t, "-paper", "A9", "-o", place); code != 2 || out != "" || !strings.Contains(told, "Letter") {
		t.Errorf("-paper A9: exit %d, %s", code, told)
	}
}
