package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// do runs the program; the output comes in one line.
func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
}

// Heights in millimetres, worked out as R/sin(a/2) by another program.
func TestHeights(t *testing.T) {
	for _, test := range []struct {
		bar, vee    string
		centre, top float64
	}{
		{"20 mm", "90 deg", 14.14214, 24.14214}, {"25 mm", "90 deg", 17.67767, 30.17767}, {"30 mm", "90 deg", 21.2132, 36.2132},
		{"25 mm", "60 deg", 25, 37.5}, {"25 mm", "120 deg", 14.43376, 26.93376},
	} {
		status, out, errs := do("-json", "-bar", test.bar, "-vee", test.vee, "-offset", "3.5 mm")
		var answer struct {
			Heights []float64 `json:"heights_mm"`
			Top     float64   `json:"bar_top_height_mm"`
		}
		if status != 0 || json.Unmarshal([]byte(out), &answer) != nil || len(answer.Heights) != 2 {
			t.Fatal(status, out, errs)
		}
		for i, want := range []float64{test.centre, test.centre + 3.5} {
			if math.Abs(answer.Heights[i]-want) > 1e-5 {
				t.Errorf("%v: %v", test, answer)
			}
		}
		if math.Abs(answer.Top-test.top) > 1e-5 {
			t.Errorf("%v: top %v", test, answer.Top)
		}
	}
}

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		name string
		args []string
		want []string
	}{
		{"on the gauge", []string{"-bar", "0.748 in", "-top", "2 in", "-offset", "0.0938 in"}, []string{"line of the axis 1.6260 in 41.300 mm on the gauge", "1.7198 in"}},
		{"taken for another", []string{"-bar", "0.750 in", "-is", "0.748 in", "-offset", "3/32 in"}, []string{"-1.0 thou", "+1.4 thou", "-2.0 thou"}},
		{"of an engine", []string{"-bar", "20 mm", "../enginebook/engines/demo.toml"}, []string{"the two lines differ by 3.200 mm"}},
		{"help", []string{"-h"}, []string{"usage: marking"}},
	} {
		status, out, errs := do(test.args...)
		for _, want := range test.want {
			if status != 0 || errs != "" || !strings.Contains(out, want) {
				t.Errorf("%s: status %d, no %q in %s%s", test.name, status, want, errs, out)
			}
		}
	}
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"-offset", "3 mm"}, "-bar DIAMETER: missing"},
		{[]string{"-bar", "20 mm"}, "wanted: -offset"},
		{[]string{"-bar", "20 mm", "-offset", "10 mm"}, "-offset: offset 10 mm"},
		{[]string{"-bar", "20 mm", "-offset", "3 mm", "-vee", "5 deg"}, "-vee: angle of the vee"},
		{[]string{"-bar", "20 mm", "-offset", "3 mm", "-is", "0 mm"}, "-is: diameter that"},
		{[]string{"-bar", "20 mm", "-offset", "3 mm", "../enginebook/engines/demo.toml"}, "fix one size"},
		{[]string{"-bar", "20 mm", "a", "b"}, "2 files"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%v: status %d, no %q in %q", test.args, status, test.want, errs)
		}
	}
}
