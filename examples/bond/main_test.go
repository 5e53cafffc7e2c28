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

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		want   []string
	}{
		// 10 MPa x pi x d^2 x L/2.
		{"FI-07, 6 mm", []string{"-d", "6 mm", "-seat", "6 mm", "-shear", "10 MPa", "-share", "1", "H7/f7"}, 0, []string{"turns at 3.4 N m", "gap, on the diameter 0.010 to 0.034 mm",
			"below the 0.020 mm (0.79 thou) of the data sheet", "takes hold in a minute or less", "Assemble one joint at a time", "pull it hot", "off the skin",
			"0.051 to 0.127 mm 2.00 to 5.00 thou retaining compound at its full strength", "0.40 thou retaining compound, the least that is of use"}},
		{"FI-07, 1/4 in", []string{"-d", "1/4 in", "-seat", "1/4 in", "-shear", "10 MPa", "-share", "1", "RC5"}, 0, []string{"turns at 4.0 N m", "slides at 1267 N"}},
		{"FI-07, 10 mm", []string{"-hole", "10.05 mm", "-shaft", "10 mm", "-seat", "10 mm", "-shear", "10 MPa", "-share", "100 %"}, 0, []string{"turns at 15.7 N m", "0.050 mm 1.97 thou"}},
		{"half of what is recalled", []string{"-d", "6 mm", "-seat", "6 mm", "H8/e8"}, 0, []string{"turns at 1.7 to 5.1 N m", "of which is left 50 %",
			"Figures of the generic retaining compound are from memory"}},
		{"its own sheet", []string{"-d", "6 mm", "-seat", "6 mm", "-shear", "20 MPa", "-gap-least", "0 mm", "-gap-most", "0.1 mm", "-service", "150 degC", "H7/f7"}, 0, []string{
			"turns at 3.4 N m", "strength of the sheet 20 MPa of which", "heat it to the release temperature of the data sheet"}},
		{"too wide", []string{"-hole", "6.3 mm", "-shaft", "6 mm", "-seat", "6 mm"}, 1, []string{"WILL NOT WORK - The gap may be as large as 0.300 mm"}},
		{"too hot", []string{"-d", "6 mm", "-seat", "6 mm", "-hottest", "160 degC", "H8/e8"}, 1, []string{"above the limit of the compound, 150 degrees C"}},
		{"pressed and glued", []string{"-hole", "6 mm", "-shaft", "6.005 mm", "-seat", "6 mm"}, 0, []string{"unless the parts hold by their interference"}},
		// No glue makes a shaft go into a hole that it does not go into.
		{"does not go in", []string{"-hole", "5/8 in", "-shaft", "16 mm", "-seat", "6 mm"}, 1, []string{"WILL NOT WORK - The interference is 0.125 mm (4.92 thou)"}},
		{"FN2", []string{"-d", "1/8 in", "-seat", "6 mm", "FN2"}, 0, []string{"8.0 thou per inch, above the rules of the trade"}},
		{"help", []string{"-h"}, 0, []string{"usage: bond [flags] FIT", "-share SHARE"}},
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
	if _, out, _ := do("-d", "6 mm", "-seat", "6 mm", "-shear", "20 MPa", "-gap-least", "0 mm", "-gap-most", "0.1 mm", "-service", "150 degC", "H7/f7"); strings.Contains(out, "memory: retaining") || strings.Contains(out, "are from memory") {
		t.Errorf("a data sheet is from memory: %s", out)
	}
}

func TestJSON(t *testing.T) {
	type ends struct{ Min, Max float64 }
	var answer struct {
		Bond struct {
			Turns ends `json:"turns_at_n_m"`
			Gap   ends `json:"gap_mm"`
		}
	}
	status, out, errs := do("-json", "-d", "6 mm", "-seat", "6 mm", "-share", "1", "H7/f7")
	if err := json.Unmarshal([]byte(out), &answer); err != nil || status != 0 || errs != "" {
		t.Fatal(status, err, errs)
	}
	if b := answer.Bond; math.Abs(b.Turns.Min-3.3929) > 0.0001 || math.Abs(b.Turns.Max-10.1788) > 0.0001 || b.Gap != (ends{0.01, 0.034}) {
		t.Errorf("%+v", b)
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "-seat LENGTH: missing"},
		{[]string{"-seat", "6 mm"}, "no gap; accepted: a fit and -d"},
		{[]string{"-seat", "6 mm", "H7/f7"}, "-d: no size"},
		{[]string{"-seat", "6 mm", "-hole", "6 mm"}, "both -hole and -shaft"},
		{[]string{"-seat", "6 mm", "-hole", "6 mm", "-shaft", "6 mm", "H7/f7"}, "a fit beside -hole or -shaft"},
		{[]string{"-seat", "6 mm", "-d", "6 mm", "-hole", "6 mm", "-shaft", "6 mm"}, "-d: beside -hole and -shaft"},
		{[]string{"-seat", "6 mm", "-hole", "0 mm", "-shaft", "6 mm"}, "-hole: hole 0 mm"},
		{[]string{"-seat", "0 mm", "-d", "6 mm", "H7/f7"}, "-seat: length of the joint 0 mm"},
		{[]string{"-seat", "6 mm", "-d", "6 mm", "-share", "2", "H7/f7"}, "-share: derating 2"},
		{[]string{"-seat", "6 mm", "-d", "6 mm", "-shear", "10", "H7/f7"}, "-shear: "},
		{[]string{"-seat", "6 mm", "-d", "6 mm", "-gap-most", "0.01 mm", "H7/f7"}, "-gap-least: gap of the adhesive"},
		{[]string{"-seat", "6 mm", "-d", "6 mm", "H7/q6"}, "fit: tolerance class"},
		{[]string{"-seat", "6 mm", "-d", "4000 mm", "H7/f7"}, "-d: nominal size"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%q: status %d, printed %q, said %q; want %q", test.args, status, out, errs, test.want)
		}
	}
}
