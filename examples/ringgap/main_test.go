package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

// do runs the program; the output comes in one line.
func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		want   []string
	}{
		// pi x 50.8 mm x 11.4e-6 x 130 K = 0.2365 mm by hand; a thou per inch is less than that,
		// four are about as much.
		{"FI-06", []string{"-d", "2 in", "-gap", "0.98 mm", "-ring-at", "150 degC"}, 0, []string{"the ends meet no", "gap at work 0.980 mm",
			"least gap, cold 0.237 mm 9.3 thou ring hot, cylinder still cold", "less 0.051 to 0.102 mm 2.00 to 4.00 thou", "less 0.203 mm 8.00 thou four thou per inch of bore",
			"enough 0.406 mm", "wider than any rule of practice gives this bore, 0.406 mm (16.00 thou) at the most: steam passes"}},
		// pi x 50.8 mm x 11.4e-6 x 50 K = 0.0910 mm.
		{"FI-06, 50 K", []string{"-d", "2 in", "-gap", "0.2 mm", "-ring-at", "150 degC", "-cylinder-at", "100 degC"}, 0, []string{
			"closes at work by 0.091 mm 3.6 thou", "gap at work 0.109 mm", "The ring butts while the cylinder is still cold."}},
		{"none filed", []string{"-d", "30 mm", "-ring-at", "150 degC"}, 0, []string{"No gap at room temperature was given", "File the gap to 0.140 mm", "least gap, cold 0.140 mm"}},
		{"no gap to speak of", []string{"-d", "30 mm", "-gap", "0.05 mm", "-ring", "bronze", "-ring-at", "150 degC"}, 1, []string{
			"WILL NOT WORK - The ring butts at work", "the ends meet yes", "gap at work -0.031 mm"}},
		{"opens", []string{"-d", "30 mm", "-gap", "0.2 mm", "-cylinder", "aluminium", "-ring-at", "150 degC"}, 0, []string{"opens at work by 0.149 mm"}},
		{"help", []string{"-h"}, 0, []string{"usage: ringgap [flags]", "-ring-at TEMPERATURE"}},
	} {
		status, out, errs := do(test.args...)
		if status != test.status || errs != "" {
			t.Errorf("%s: status %d, want %d; %s", test.name, status, test.status, errs)
		}
		for _, want := range test.want {
			if !strings.Contains(out, want) {
				t.Errorf("%s: no %q in\n%s", test.name, want, out)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	var answer struct {
		Ring struct {
			Butts *bool
			Hot   *float64 `json:"gap_hot_mm"`
			Least float64  `json:"least_gap_mm"`
		} `json:"ring_gap"`
	}
	for _, gap := range []string{"", "0.5 mm"} {
		args := []string{"-json", "-d", "2 in", "-ring-at", "150 degC"}
		if gap != "" {
			args = append(args, "-gap", gap)
		}
		status, out, errs := do(args...)
		if err := json.Unmarshal([]byte(out), &answer); err != nil || status != 0 || errs != "" {
			t.Fatal(status, err, errs)
		}
		if r := answer.Ring; (r.Butts == nil) != (gap == "") || (r.Hot == nil) != (gap == "") || r.Least < 0.236 || r.Least > 0.237 {
			t.Errorf("%q: %+v", gap, r)
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "-d BORE: missing"},
		{[]string{"-d", "2 in"}, "-ring-at TEMPERATURE: missing"},
		{[]string{"-d", "0 mm", "-ring-at", "150 degC"}, "-d: bore 0 mm"},
		{[]string{"-d", "2 in", "-ring-at", "150"}, "-ring-at: temperature"},
		{[]string{"-d", "2 in", "-ring-at", "400 degC"}, "-ring-at: working temperature of the ring 400 degrees C"},
		{[]string{"-d", "2 in", "-ring-at", "150 degC", "-cylinder-at", "400 degC"}, "-cylinder-at: working temperature of the cylinder"},
		{[]string{"-d", "2 in", "-ring-at", "150 degC", "-gap", "0 mm"}, "-gap: 0 mm: out of range"},
		{[]string{"-d", "2 in", "-ring-at", "150 degC", "-ring", "cheese"}, "-ring: "},
		{[]string{"-d", "2 in", "-ring-at", "150 degC", "FIT"}, "no such argument"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out, errs, test.want)
		}
	}
}
