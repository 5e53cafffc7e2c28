package main

import (
	"bytes"
	"strings"
	"testing"
)

func do(args ...string) (code int, out, errs string) {
	var stdout, stderr bytes.Buffer
	code = run(args, &stdout, &stderr)
	return code, stdout.String(), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, tt := range []struct {
		name  string
		args  []string
		code  int
		wants []string
	}{
		{"six, as US Army OD1644 works it", []string{"6"}, 0, []string{"40 / 6 = 6.66667", "6 turns and 26 spaces on the 39 circle (sector over 27 holes)", "OD1644"}},
		{"eight", []string{"8"}, 0, []string{"set     5 turns\n"}},
		{"seven on three plates", []string{"-plates", "three", "7"}, 0, []string{"5 turns and 35 spaces on the 49 circle", "5 turns and 15 spaces on the 21 circle", "hobby society", "unreviewed: ", "count the holes of yours"}},
		{"own plates", []string{"-plates", "15 16 17 18 19 20", "-ratio", "60", "9"}, 0, []string{"6 turns and 12 spaces on the 18 circle", "circles as given"}},
		{"127 cannot be had", []string{"127"}, 1, []string{"127 divisions cannot be had", "127 of them miss the start by -10.0", "Take 125 or 130, which can be had"}},
		{"an angle", []string{"-angle", "22.5deg"}, 0, []string{"22.5 x 40 / 360 = 2.5", "2 turns and 12 spaces on the 24 circle"}},
		{"an angle that no circle has", []string{"-angle", "24arcmin", "-plates", "20 23"}, 0, []string{"1 space on the 23 circle", "out by -0.52 arc minutes"}},
		{"a rotary table", []string{"-table", "-ratio", "90", "-d", "40 mm", "7"}, 0, []string{"51°25'43\"", "handwheel 12 turns and 3.4286 deg", "backlash", "chord   d sin(180 / n) = 40 mm x sin(180 / 7) = 17.355 mm (683.3 thou)"}},
	} {
		code, out, errs := do(tt.args...)
		if code != tt.code || errs != "" {
			t.Errorf("%s: exit %d, %s", tt.name, code, errs)
		}
		for _, want := range tt.wants {
			if !strings.Contains(out, want) {
				t.Errorf("%s: nothing of %q in\n%s", tt.name, want, out)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "one number of divisions"},
		{[]string{"six"}, `"six" is not a whole number`},
		{[]string{"0"}, "1 to 10,000"},
		{[]string{"6", "7"}, "one number of divisions"},
		{[]string{"-angle", "20deg", "6"}, "one number of divisions"},
		{[]string{"-angle", "20", "6"}, "without a unit"},
		{[]string{"-angle", "-20deg"}, "above 0"},
		{[]string{"-ratio", "0", "6"}, "1 to 360"},
		{[]string{"-plates", "many", "6"}, "whole numbers of holes"},
		{[]string{"-d", "0.0 mm", "-d", "-4 mm", "6"}, "above zero"},
		{[]string{"-table", "0"}, "1 to 10,000"},
		{[]string{"-table", "-angle", "20deg"}, "-angle without -table"},
		{[]string{"-table", "-plates", "three", "7"}, "without plates"},
		{[]string{"-d", "40 mm", "-angle", "20deg"}, "-d goes with a number"},
	} {
		code, out, errs := do(tt.args...)
		if code != 2 || out != "" || !strings.Contains(errs, tt.want) {
			t.Errorf("%q: exit %d, %q, %s", tt.args, code, out, errs)
		}
	}
	if code, _, errs := do("-h"); code != 0 || !strings.Contains(errs, "-plates") {
		t.Errorf("help: exit %d, %s", code, errs)
	}
}
