package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func do(args ...string) (status int, out, errs string) {
	var stdout, stderr strings.Builder
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, tt := range []struct {
		args   []string
		status int
		want   []string
	}{
		// TH-12: 9/16-18 UNF over 0.0395 in wires: 0.5909 to 0.5954 in for class 2A.
		{[]string{"-wire", "0.0395in", "-class", "2A", "-step", "0.0001in", "9/16-18", "UNF"}, 0, []string{"M = E + W (1 + 1/sin A) - P/2 cot A", "32.08 thou", "p. 2130", "590.89 to 595.39 thou"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.586in", "9/16-18 UNF"}, 1, []string{"WILL NOT WORK", "too small by", "the micrometer reads", "-274.0 um"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.593in", "9/16-18 UNF"}, 0, []string{"inside"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.600in", "9/16-18 UNF"}, 1, []string{"still too large by"}},
		{[]string{"M8"}, 0, []string{"60.0 degrees", "0.7217 mm", "7.188 + 3.0000 x 0.7217 - 0.8660 x 1.2500", "basic size over the wires"}},
		{[]string{"M8", "-class", "6g"}, 0, []string{"on the micrometer"}},
		{[]string{"-reads", "8.3 mm", "M8"}, 0, []string{"the micrometer reads", "7.2175 mm", "+29.5 um"}},
		{[]string{"-lead", "helicoid", "Tr 10x2"}, 0, []string{"solved on the helicoid", "lead angle of 4.05 degrees", "p. 2136"}},
		{[]string{"-lead", "H28", "2 BA"}, 0, []string{"tan^2 B", "47.5 degrees", "FED-STD-H28"}},
		{[]string{"-h"}, 0, []string{"usage: wires [flags] THREAD"}},
	} {
		status, out, errs := do(tt.args...)
		if status != tt.status || errs != "" {
			t.Errorf("%q: status %d, %s", tt.args, status, errs)
		}
		for _, want := range tt.want {
			if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
				t.Errorf("%q: no %q in\n%s", tt.args, want, out)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	type ends struct{ Min, Max float64 }
	var answer struct {
		Over struct {
			Window ends    `json:"window_mm"`
			On     ends    `json:"on_micrometer_mm"`
			Basic  float64 `json:"basic_mm"`
		} `json:"over_wires"`
		Reading struct {
			PitchDiameter float64 `json:"pitch_diameter_mm"`
			FromBasic     float64 `json:"from_basic_um"`
		}
		Findings []struct{ Code, Severity string }
	}
	status, out, errs := do("-json", "-wire", "0.0395in", "-class", "2A", "-reads", "0.586in", "9/16-18 UNF")
	if err := json.Unmarshal([]byte(out), &answer); err != nil || status != 1 || errs != "" {
		t.Fatalf("status %d, %s, %v", status, errs, err)
	}
	near := func(got, want, by float64) bool { return math.Abs(got-want) <= by }
	if o := answer.Over; !near(o.Window.Min, 15.0085, 5e-5) || !near(o.Window.Max, 15.1228, 5e-5) || o.On != (ends{15.01, 15.12}) || !near(o.Basic, 15.1584, 5e-5) {
		t.Errorf("%+v", o)
	}
	if r := answer.Reading; !near(r.PitchDiameter, 13.0966, 5e-5) || !near(r.FromBasic, -274, 0.05) {
		t.Errorf("%+v", r)
	}
	if f := answer.Findings; len(f) != 1 || f[0].Code != "screw-under-size" || f[0].Severity != "fails" {
		t.Errorf("%+v", f)
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "wanted: a thread"},
		{[]string{"M8.8.8"}, `wires: thread: thread "M8.8.8": `},
		{[]string{""}, "wires: thread: "},
		{[]string{"-wire", "0.2mm", "M8"}, "-wire: wire for M8x1.25 0.2 mm: out of range; accepted: 0.6315 mm to 1.2630 mm, best 0.7217 mm"},
		{[]string{"-wire", "0mm", "M8"}, "-wire: wire for M8x1.25 0 mm"},
		{[]string{"-wire", "0.8", "M8"}, "accepted"},
		{[]string{"-class", "2A", "M8"}, `-class: tolerance class "2A"`},
		{[]string{"-class", "6H", "M8"}, "a nut's"},
		{[]string{"-lead", "some", "M8"}, "helicoid"},
		{[]string{"-reads", "80mm", "M8"}, "-reads: measurement over wires"},
		{[]string{"-class", "6g", "-step", "1mm", "M8"}, "-step: rounding step"},
		{[]string{"-step", "0mm", "M8"}, "-step: 0 mm: out of range; accepted: above zero"},
		{[]string{"1/8 NPT"}, "taper"},
		{[]string{"M8", "-glass", "6g"}, "-glass: no such flag"},
	} {
		status, out, errs := do(tt.args...)
		if status != 2 || out != "" || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, printed %q, %q; want %q", tt.args, status, out, errs, tt.want)
		}
	}
}
