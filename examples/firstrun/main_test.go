package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

type fault struct {
	Fault, End, Text  string
	Sure              bool
	Odds, Probability float64
	MM                *float64 `json:"amount_mm"`
	Deg               *float64 `json:"amount_deg"`
	SDMM              *float64 `json:"sd_mm"`
	SDDeg             *float64 `json:"sd_deg"`
	Cures             []string
}

type answer struct {
	Verdict      fault
	Faults       []fault
	Next         *struct{ Kind, End, Text string }
	CannotTell   []string `json:"cannot_tell"`
	MeasureAgain []string `json:"measure_again"`
	Explained    []struct {
		Fault, Test string
		Fits        float64
	}
	FirstRun []struct {
		Number            int
		Key, By, Try, See string
		IfNot             string `json:"if_not"`
	} `json:"first_run"`
	Findings    []struct{ Code, Severity, Text string }
	Precautions []struct{ Code, Text string }
}

func run(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = program().Do(args, &out, &errs)
	return out.String(), errs.String(), code
}

// read asks for the answer, and wants what holds of every one: the verdict is the first
// of the faults, and the words of safety are there.
func read(t *testing.T, wantCode int, args ...string) answer {
	t.Helper()
	stdout, stderr, code := run(t, append([]string{"-json"}, args...)...)
	if code != wantCode || stderr != "" {
		t.Fatalf("exit %d, want %d: %s", code, wantCode, stderr)
	}
	var a answer
	if err := json.Unmarshal([]byte(stdout), &a); err != nil {
		t.Fatal(err)
	}
	if len(a.Faults) == 0 || !reflect.DeepEqual(a.Faults[0], a.Verdict) || a.Verdict.Text == "" {
		t.Errorf("the verdict %+v is not the first of the faults %+v", a.Verdict, a.Faults)
	}
	for key := range map[string]bool{"cannot_tell": true, "measure_again": true, "explained": true, "first_run": true, "next": true} {
		if !strings.Contains(stdout, "\n  \""+key+"\": ") {
			t.Errorf("no %s", key)
		}
	}
	for _, f := range a.Faults {
		if angle, length := f.Deg != nil && f.SDDeg != nil, f.MM != nil && f.SDMM != nil; angle == length && f.Fault != "as_drawn" {
			t.Errorf("%s: angle %v, length %v", f.Fault, angle, length)
		}
		if !slices.Contains([]string{"head", "crank", "both"}, f.End) || f.Cures == nil {
			t.Errorf("%+v", f)
		}
	}
	told := fmt.Sprint(a.Precautions)
	for _, want := range []string{"Stand clear", "Low-pressure air first", "Steam last", "block the flywheel"} {
		if !strings.Contains(told, want) {
			t.Errorf("no %q in %s", want, told)
		}
	}
	return a
}

func demoEngine(t *testing.T) string {
	return check.Path(t, "../examples/enginebook/engines/demo.toml")
}

// write writes a file: of readings, each "kind end value within" with - for none, or of
// other text.
func write(t *testing.T, name, text string, readings ...string) string {
	t.Helper()
	for _, one := range readings {
		text += "[[readings]]\n"
		for i, field := range strings.Fields(one) {
			if field != "-" {
				text += fmt.Sprintf("%s = %q\n", []string{"kind", "end", "value", "within", "crank"}[i], strings.ReplaceAll(field, "_mm", " mm"))
			}
		}
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// engineWith writes the demonstration engine with texts in place of others.
func engineWith(t *testing.T, oldNew ...string) string {
	t.Helper()
	text, err := os.ReadFile(demoEngine(t))
	if err != nil {
		t.Fatal(err)
	}
	changed := string(text)
	for i := 0; i < len(oldNew); i += 2 {
		if !strings.Contains(changed, oldNew[i]) {
			t.Fatalf("no %q in the demonstration", oldNew[i])
		}
		changed = strings.Replace(changed, oldNew[i], oldNew[i+1], 1)
	}
	return write(t, "engine.toml", changed)
}

// What the demonstration engine reads with a fault in it, worked out beforehand by
// geometry: EC-17, and the leads of a mirrored sheave, which are right.
func TestFaults(t *testing.T) {
	leads := []string{"lead head 0.271_mm 0.05_mm", "lead crank 0.135_mm 0.05_mm"}
	for _, test := range []struct {
		name       string
		code       int
		readings   []string
		fault, end string
		sure       bool
		cure       string
	}{
		{"slipped back 10 degrees, EC-17", 0, []string{"lead head -0.239_mm 0.05_mm", "lead crank -0.397_mm 0.05_mm", "opens_next head steam",
			"travel - 6.4_mm", "cut_off head 143deg 1deg", "cut_off crank 141deg 1deg", "release head 165deg 1deg"},
			"advance", "both", true, "deg forwards"},
		{"off the middle, EC-17", 0, []string{"lead head -0.028_mm 0.05_mm", "lead crank 0.434_mm 0.05_mm", "opens_next head steam",
			"travel - 6.4_mm", "cut_off head 126.9deg 1deg", "cut_off crank 136.6deg 1deg", "release head 149.5deg 1deg"},
			"valve_off_centre", "both", true, "towards the crank on its rod. That is 0."},
		{"mirrored, leads and which way both ports go", 0, slices.Concat(leads, []string{"opens_next head exhaust", "opens_next crank exhaust"}),
			"eccentric_other_hand", "both", false, "128.0 deg backwards"},
		{"mirrored, surely, and it does not run", 1, slices.Concat(leads, []string{"opens_next head exhaust", "opens_next crank exhaust",
			"travel - 6.4_mm", "valve_at - -2.92_mm 0.1_mm 90deg", "opening head 2_mm"}), "eccentric_other_hand", "both", true, "deg backwards"},
		{"the wrong cavity from three exhaust readings", 0, []string{"release head 146deg 1deg", "compression head 342deg 1deg",
			"release crank 143deg 1deg"}, "exhaust_lap", "both", false, "cavity"},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := read(t, test.code, demoEngine(t), write(t, "readings.toml", "", test.readings...))
			v := a.Verdict
			if v.Fault != test.fault || v.End != test.end || v.Sure != test.sure || len(v.Cures) == 0 || !strings.Contains(v.Cures[0], test.cure) {
				t.Errorf("%+v", v)
			}
			if !v.Sure && len(a.CannotTell) == 0 && a.Next == nil {
				t.Errorf("not sure, and nothing to read next: %+v", a)
			}
		})
	}
	// Leads alone do not show on which hand the sheave is.
	a := read(t, 0, demoEngine(t), write(t, "readings.toml", "", leads...))
	if a.Verdict.Sure || len(a.CannotTell) == 0 || a.Next == nil || !strings.Contains(strings.Join(a.CannotTell, " "), "other hand") {
		t.Errorf("%+v", a)
	}
}

// A reading that does not go with the others is named, and nothing is sure.
func TestMeasureAgain(t *testing.T) {
	a := read(t, 0, demoEngine(t), write(t, "readings.toml", "", "admission head -5.4deg 1deg", "cut_off head 133.4deg 1deg",
		"release head 155.5deg 1deg", "compression head 332.5deg 1deg", "cut_off crank 150.6deg 1deg", "release crank 152.5deg 1deg",
		"compression crank 335.5deg 1deg", "lead head 0.27_mm 0.05_mm", "lead crank 0.13_mm 0.05_mm",
		"admission crank -2.5deg 1deg", "opening crank 2_mm"))
	if a.Verdict.Sure || len(a.MeasureAgain) == 0 || !strings.HasPrefix(a.MeasureAgain[0], "cut-off at the crank end, read as 150.6 deg") {
		t.Errorf("%+v, %q", a.Verdict, a.MeasureAgain)
	}
}

// Readings inside the engine file and beside it have the same answer.
func TestInsideAndBeside(t *testing.T) {
	readings := []string{"lead head -0.239_mm 0.05_mm", "lead crank -0.397_mm 0.05_mm", "opens_next head steam"}
	text, err := os.ReadFile(demoEngine(t))
	if err != nil {
		t.Fatal(err)
	}
	inside := read(t, 0, write(t, "engine.toml", string(text)+"\n", readings...))
	beside := read(t, 0, demoEngine(t), write(t, "readings.toml", "", readings...))
	if !reflect.DeepEqual(inside, beside) {
		t.Errorf("%+v\n%+v", inside, beside)
	}
}

// Symptoms are explained, with the readings or without them.
func TestSymptoms(t *testing.T) {
	alone := read(t, 0, demoEngine(t), write(t, "readings.toml", "symptoms = [\"weak\", \"beats uneven\"]\n"))
	if len(alone.Explained) < 10 || alone.Explained[0].Fault == "" || alone.Explained[0].Test == "" || !(alone.Explained[0].Fits > 0) {
		t.Errorf("%+v", alone.Explained)
	}
	with := read(t, 0, demoEngine(t), write(t, "readings.toml", "symptoms = [\"weak\", \"beats uneven\"]\n", "lead head -0.028_mm 0.05_mm",
		"lead crank 0.434_mm 0.05_mm", "travel - 6.4_mm"))
	first := []string{with.Explained[0].Fault, with.Explained[1].Fault}
	if !slices.Contains(first, "valve_off_centre") || with.Verdict.Fault != "valve_off_centre" {
		t.Errorf("%+v, %+v", with.Verdict, first)
	}
}

// A file that does not say what the engine runs on is tried on the air of a first run,
// and that is told.
func TestSymptomsWithoutRunning(t *testing.T) {
	text, err := os.ReadFile("demo/slipped.toml")
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "weak.toml")
	if err := os.WriteFile(name, append([]byte("symptoms = [\"weak\"]\n"), text...), 0o600); err != nil {
		t.Fatal(err)
	}
	a := read(t, 0, name)
	if len(a.Explained) < 10 || a.Explained[0].Fault != "advance" {
		t.Errorf("%+v", a.Explained)
	}
	out, complaint, status := run(t, name)
	if status != 0 || !strings.Contains(strings.Join(strings.Fields(out), " "), "air of a first run: air at 1 bar above the atmosphere") {
		t.Errorf("%d %s%s", status, out, complaint)
	}
}

// From a drawing alone: the sizes of a model engine of about 1911 contradict each other
// (A. Williams, Things To Make, chapter XV), as the valve shuts the exhaust port
// altogether at full travel, 1/16 in past its edge.
func TestDrawingAlone(t *testing.T) {
	a := read(t, 0, write(t, "model.toml", `[cylinder]
bore = "1 in"
stroke = "2 1/4 in"
[motion]
connecting_rod = "5 in"
eccentric_rod = "5 in"
[ports]
steam = "3/32 in"
bar = "1/8 in"
exhaust = "3/32 in"
length = "7/8 in"
[valve]
length = "29/32 in"
cavity = "11/32 in"
[eccentric]
travel = "9/16 in"
lead = "0 in"
`))
	found := false
	for _, f := range a.Findings {
		found = found || f.Code == "middle-throttled" && strings.Contains(f.Text, "62.5 thou (1.59 mm) past its edge")
	}
	if !found || a.Verdict.Sure || len(a.FirstRun) < 10 {
		t.Errorf("%+v", a)
	}
}

// Where the file itself looks like a slip the engine is compared with what was meant: a
// sheave that stands right is not called wrong, and nobody is told to turn it.
func TestSlipOfTheFile(t *testing.T) {
	a := read(t, 1, engineWith(t, `advance = "26 deg"`, `advance = "116 deg"`), write(t, "readings.toml", "", "lead head 0.271_mm 0.05_mm",
		"lead crank 0.135_mm 0.05_mm", "opens_next head steam", "opens_next crank steam", "cut_off head 133.4deg 1deg"))
	if a.Verdict.Fault != "as_drawn" {
		t.Errorf("%+v", a.Verdict)
	}
}

// No air and no steam is told of for an engine whose piston strikes its cover.
func TestNoAirInDanger(t *testing.T) {
	a := read(t, 1, engineWith(t, `piston = "8 mm"`, `piston = "9.1 mm"`))
	for _, trial := range a.FirstRun {
		if trial.By == "air" || trial.Key == "steam" {
			t.Errorf("%+v", trial)
		}
	}
	b := read(t, 0, demoEngine(t))
	if first, last := b.FirstRun[0], b.FirstRun[len(b.FirstRun)-1]; first.By != "hand" || last.Key != "steam" || last.Number != len(b.FirstRun) {
		t.Errorf("%+v, %+v", first, last)
	}
}

// What cannot be used ends with 2, the place, and nothing else.
func TestRefusals(t *testing.T) {
	bad := write(t, "readings.toml", "", "lead head 3deg", "travel head 6.4_mm", "valve_at - 1_mm")
	for _, test := range []struct {
		args []string
		want []string
	}{
		{[]string{"a.toml", "b.toml", "c.toml"}, []string{"3 files; accepted: an engine file"}},
		{[]string{"no-such-engine.toml"}, []string{"no such file"}},
		{[]string{demoEngine(t), bad}, []string{`:4:9: readings[1].value: length "3deg"`, `:7:7: readings[2].end: "head"`, `:9:3: readings[3].crank: missing`}},
		{[]string{demoEngine(t), demoEngine(t)}, []string{"cylinder: unknown key; accepted: [[readings]], symptoms, units"}},
		{[]string{demoEngine(t), write(t, "r.toml", "symptoms = [\"will not turn\", \"weak\"]\n")}, []string{"r.toml:1:", "no engine"}},
	} {
		stdout, stderr, code := run(t, test.args...)
		if code != 2 || stdout != "" {
			t.Errorf("%v: exit %d, %q", test.args, code, stdout)
		}
		for _, want := range test.want {
			if !strings.Contains(stderr, want) {
				t.Errorf("%v: %s; want %s", test.args, stderr, want)
			}
		}
	}
}

// The demonstration is of a sheave that has slipped, and says how to put it back.
func TestDemo(t *testing.T) {
	if a := read(t, 0); a.Verdict.Fault != "advance" || !a.Verdict.Sure || a.Next != nil {
		t.Errorf("%+v", a)
	}
	text, _, _ := run(t)
	for _, want := range []string{"10.0 deg forwards", "FIRST RUN, what to try in this order", "WHAT WAS READ"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}
