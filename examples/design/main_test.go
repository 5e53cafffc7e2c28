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

	"github.com/valvechest/valvechest/internal/pages"
)

// do runs the program on a file of that text; blank: the demonstration.
func do(t *testing.T, text string, args ...string) (status int, out, errs string) {
	t.Helper()
	if text != "" {
		path := filepath.Join(t.TempDir(), "engine.toml")
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

type jsonEvent struct {
	Crank  float64 `json:"crank_deg"`
	Stroke float64 `json:"stroke"`
}

type jsonEnd struct {
	Admission   jsonEvent `json:"admission"`
	CutOff      jsonEvent `json:"cut_off"`
	Release     jsonEvent `json:"release"`
	Compression jsonEvent `json:"compression"`
	Lead        float64   `json:"lead_mm"`
	Opening     float64   `json:"opening_mm"`
}

type jsonGear struct {
	Steam   float64 `json:"steam_mm"`
	Bar     float64 `json:"bar_mm"`
	Exhaust float64 `json:"exhaust_mm"`
	Valve   float64 `json:"valve_mm"`
	Cavity  float64 `json:"cavity_mm"`
	Offset  float64 `json:"valve_offset_mm"`
	Travel  float64 `json:"travel_mm"`
	Advance float64 `json:"advance_deg"`
	Lap     float64 `json:"steam_lap_mm"`
	Step    float64 `json:"step_mm"`
	Length  float64 `json:"port_length_mm"`
	Events  struct{ Head, Crank jsonEnd }
}

type jsonBook struct {
	Exact, Rounded jsonGear
	Wish           []struct {
		Name, Unit               string
		Wanted, Reached, Rounded *float64
	}
	Findings []struct{ Code, Severity, Where, Text string }
}

func decode(t *testing.T, text string) (b jsonBook) {
	t.Helper()
	status, out, errs := do(t, text, "-json")
	if status != 0 || errs != "" {
		t.Fatalf("exit %d: %s", status, errs)
	}
	if err := json.Unmarshal([]byte(out), &b); err != nil {
		t.Fatal(err)
	}
	return b
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g within %.3g", what, got, want, tolerance)
	}
}

const ec16 = `units = "inch"
[cylinder]
bore = "5/8"
stroke = "3/4"
[motion]
connecting_rod = "infinite"
eccentric_rod = "infinite"
[ports]
bar = "3/32"
[wanted]
cut_off = "75 %"
travel = "1/4"
`

// EC-16: a cylinder of 5/8 by 3/4 in and a travel of 1/4 in, cut-off at 75 per cent
// and no lead: an advance of 30 degrees, a lap and ports of 1/16, an exhaust port of
// 3/32, a valve of 17/32 and a cavity of 9/32, exactly, and so in 64ths too.
func TestOwnCylinder(t *testing.T) {
	const inch = 25.4
	b := decode(t, ec16)
	for name, g := range map[string]jsonGear{"exact": b.Exact, "rounded": b.Rounded} {
		near(t, name+" advance", g.Advance, 30, 1e-12)
		near(t, name+" lap", g.Lap, inch/16, 0)
		near(t, name+" steam", g.Steam, inch/16, 0)
		near(t, name+" bar", g.Bar, inch*3/32, 0)
		near(t, name+" exhaust", g.Exhaust, inch*3/32, 0)
		near(t, name+" valve", g.Valve, inch*17/32, 0)
		near(t, name+" cavity", g.Cavity, inch*9/32, 0)
		near(t, name+" travel", g.Travel, inch/4, 0)
		near(t, name+" offset", g.Offset, 0, 0)
		near(t, name+" cut-off", g.Events.Head.CutOff.Stroke, 0.75, 1e-12)
		near(t, name+" cut-off", g.Events.Crank.CutOff.Crank, 120, 1e-9)
	}
	near(t, "step", b.Rounded.Step, inch/64, 0)
	status, out, errs := do(t, ec16)
	for _, want := range []string{"in steps of 1/64 in", `steam = "1/16 in"`, `length = "17/32 in"`, `cavity = "9/32 in"`, `travel = "1/4 in"`, `advance = "30 deg"`, "line on line"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if status != 0 || errs != "" {
		t.Errorf("exit %d: %s", status, errs)
	}
}

// EC-12: 75 per cent at the head end with a rod of six cranks comes at 115.58 degrees
// and wants a lap of 0.533 of half the travel with no lead.
func TestEndsThatDiffer(t *testing.T) {
	b := decode(t, "[cylinder]\nstroke = \"20 mm\"\n[motion]\nconnecting_rod = \"60 mm\"\neccentric_rod = \"infinite\"\n"+
		"[wanted]\ncut_off = \"75 %\"\ncut_off_at = \"head\"\ntravel = \"10 mm\"\n")
	near(t, "EC-12 cut-off", b.Exact.Events.Head.CutOff.Crank, 115.58, 0.005)
	near(t, "EC-12 lap", b.Exact.Lap/5, 0.533, 0.0005)
	if cut := b.Exact.Events; cut.Crank.CutOff.Stroke > cut.Head.CutOff.Stroke-0.05 {
		t.Errorf("EC-12: cut-offs %v and %v", cut.Head.CutOff.Stroke, cut.Crank.CutOff.Stroke)
	}
}

func TestDemo(t *testing.T) {
	b := decode(t, "")
	wish := map[string]float64{}
	for _, w := range b.Wish {
		if w.Wanted == nil || w.Reached == nil || w.Rounded == nil || w.Unit == "" {
			t.Fatalf("%+v", w)
		}
		wish[w.Name] = *w.Wanted
		near(t, w.Name, *w.Reached, *w.Wanted, 1e-8)
	}
	for name, want := range map[string]float64{"cut_off": 0.75, "lead": 0.1, "opening": 2, "compression": 0.08, "equal_lead": 0} {
		if got, there := wish[name]; !there || got != want {
			t.Errorf("wish %s = %v, want %v", name, got, want)
		}
	}
	e := b.Exact.Events
	near(t, "mean cut-off", (e.Head.CutOff.Stroke+e.Crank.CutOff.Stroke)/2, 0.75, 1e-8)
	near(t, "mean compression", (e.Head.Compression.Stroke+e.Crank.Compression.Stroke)/2, 0.08, 1e-8)
	near(t, "leads", e.Head.Lead, e.Crank.Lead, 1e-8)
	near(t, "opening", (e.Head.Opening+e.Crank.Opening)/2, 2, 1e-8)
	for name, v := range map[string]float64{"steam": b.Rounded.Steam, "bar": b.Rounded.Bar, "exhaust": b.Rounded.Exhaust, "valve": b.Rounded.Valve,
		"cavity": b.Rounded.Cavity, "offset": b.Rounded.Offset, "travel": b.Rounded.Travel} {
		near(t, name+" in steps", math.Remainder(v, 0.05), 0, 1e-9)
	}
	near(t, "advance in degrees", math.Remainder(b.Rounded.Advance, 1), 0, 1e-9)
	status, out, _ := do(t, "")
	for i, line := range strings.Split(out, "\n") {
		if len([]rune(line)) > 78 {
			t.Errorf("line %d too wide: %q", i+1, line)
		}
	}
	if !strings.Contains(out, "both cannot be equal") || status != 0 {
		t.Errorf("exit %d\n%s", status, out)
	}
}

// What is printed for the engine file gives the engine book the same numbers.
func TestPaste(t *testing.T) {
	for name, text := range map[string]string{
		"demonstration": string(demo), "inches": strings.Replace(ec16, "[ports]", "[ports]\nlength = \"1/2\"", 1),
		"piston valve": strings.NewReplacer("[ports]", "[valve]\nadmission = \"inside\"\nlost_motion = \"0.1 mm\"\n[ports]", `"lead"`, `"cut_off"`).Replace(string(demo)),
	} {
		b := decode(t, text)
		_, out, _ := do(t, text)
		_, paste, _ := strings.Cut(out, "FOR THE ENGINE FILE")
		_, paste, _ = strings.Cut(paste, "---\n")
		paste, _, _ = strings.Cut(paste, "WORTH KNOWING")
		head := regexp.MustCompile(`(?s)\[(valve|ports)\].*?(\[|$)`).ReplaceAllString(text, "$2") // what is to be replaced goes
		head = regexp.MustCompile(`(?s)\[(valve|ports)\].*?(\[|$)`).ReplaceAllString(head, "$2")
		made, err := pages.EngineFile("new.toml", []byte(head+"\n"+paste))
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, head+"\n"+paste)
		}
		var data bytes.Buffer
		if err := made.WriteJSON(&data); err != nil {
			t.Fatal(err)
		}
		var engine struct {
			Events     struct{ Head, Crank jsonEnd }
			Dimensions struct {
				Valve  float64 `json:"valve_mm"`
				Travel float64 `json:"travel_mm"`
			}
		}
		if err := json.Unmarshal(data.Bytes(), &engine); err != nil {
			t.Fatal(err)
		}
		if engine.Events != b.Rounded.Events || engine.Dimensions.Valve != b.Rounded.Valve || engine.Dimensions.Travel != b.Rounded.Travel {
			t.Errorf("%s: the book has %+v, the design %+v", name, engine.Events, b.Rounded.Events)
		}
	}
}

// The file of the engine book with what is wanted added to it is read too.
func TestFileOfTheBook(t *testing.T) {
	text, err := os.ReadFile("../enginebook/engines/demo.toml")
	if err != nil {
		t.Fatal(err)
	}
	b := decode(t, string(text)+"\n[wanted]\ncut_off = \"80 %\"\nlead = \"0.2 mm\"\nequal = \"cut_off\"\n")
	near(t, "steam", b.Exact.Steam, 2, 0)
	near(t, "opening", b.Exact.Events.Head.Opening, 2, 1e-8)
	near(t, "opening", b.Exact.Events.Crank.Opening, 2, 1e-8)
	near(t, "head cut-off", b.Exact.Events.Head.CutOff.Stroke, 0.8, 1e-8)
	near(t, "crank cut-off", b.Exact.Events.Crank.CutOff.Stroke, 0.8, 1e-8)
}

func TestByRule(t *testing.T) {
	const byRule = "[cylinder]\nbore = \"100 mm\"\nstroke = \"127 mm\"\n[motion]\nconnecting_rod = \"infinite\"\neccentric_rod = \"infinite\"\n" +
		"[wanted]\ncut_off = \"0.7\"\nspeed = \"480 rev/min\"\n"
	b := decode(t, byRule)
	// 400 ft/min, so a tenth of the piston's area: pi/4 x 100^2 / 10 / 75 = 10.472 mm.
	near(t, "steam", b.Exact.Steam, 10.4720, 0.00005)
	near(t, "length", b.Exact.Length, 75, 0)
	near(t, "opening", b.Exact.Events.Head.Opening, b.Exact.Steam, 1e-8)
	if _, out, _ := do(t, byRule); !strings.Contains(strings.Join(strings.Fields(out), " "), "pi/4 x 100^2 x 2.032 / 20.32 / 75 = 10.472 mm") {
		t.Error(out)
	}
	told := ""
	for _, f := range b.Findings {
		told += f.Text
	}
	if !strings.Contains(told, "over 4000 feet a minute") || !strings.Contains(told, "three quarters of the bore") {
		t.Error(told)
	}
}

// A step that nobody asked for gives way to ports that are narrower.
func TestNarrowPorts(t *testing.T) {
	b := decode(t, strings.Replace(ec16, `travel = "1/4"`, `opening = "0.01"`, 1))
	near(t, "step", b.Rounded.Step, 25.4/128, 0)
	near(t, "steam", b.Exact.Steam, 0.254, 1e-9)
	near(t, "steam", b.Rounded.Steam, 25.4/64, 1e-9)
}

func TestRefuses(t *testing.T) {
	const least = "[cylinder]\nstroke = \"25 mm\"\n[motion]\nconnecting_rod = \"63 mm\"\neccentric_rod = \"60 mm\"\n[wanted]\ncut_off = \"75 %\"\n"
	for _, test := range []struct{ text, want string }{
		{least, "engine.toml:6:2: wanted.opening: missing; accepted: the greatest opening to steam"},
		{least + "opening = \"2 mm\"\ntravel = \"6 mm\"\n", "wanted.travel: opening is given too"},
		{least + "opening = \"2 mm\"\nlead = \"3 mm\"\n", "9:8: wanted.lead: lead 3 mm: not below the greatest opening; accepted: up to 1.999 mm"},
		{least + "opening = \"2 mm\"\n[ports]\nsteam = \"1.5 mm\"\n", "wanted.opening: opening 2 mm: the ports are not so wide; accepted: up to 1.5 mm"},
		{strings.Replace(least, "75 %", "99.99 %", 1) + "lead = \"0.3 mm\"\nopening = \"2 mm\"\n", "wanted.cut_off: cut-off 99.99 %: with the lead and the opening that are wished, and these rods, no gear has it; accepted: at most 99.98 %"},
		{least + "opening = \"2 mm\"\nexhaust_lap = \"5 mm\"\n", "with it a port never opens to exhaust; accepted: from -3.991 mm to 3.991 mm"},
		{least + "opening = \"2 mm\"\ncompression = \"0.01 %\"\n", "wanted.compression: compression 0.01 %: with this cut-off and lead the exhaust of one end would shut past the dead centre; accepted: from "},
		{least + "opening = \"2 mm\"\nstep = \"20 mm\"\n", "wanted.step: step 20 mm: a gear has no sizes in such steps"},
		{least + "opening = \"2 mm\"\n[ports]\ncrank_bar = \"2 mm\"\n", "ports.crank_bar: bar is not given"},
	} {
		status, out, errs := do(t, test.text)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("exit %d, said %q, want %q", status, errs, test.want)
		}
	}
	if status, _, errs := do(t, "", "one.toml", "two.toml"); status != 2 || !strings.Contains(errs, "2 files") {
		t.Error(status, errs)
	}
	if status, _, errs := do(t, "", "no-such-engine.toml"); status != 2 || !strings.Contains(errs, "no such file") {
		t.Error(status, errs)
	}
}
