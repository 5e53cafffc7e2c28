package main

import (
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want []string
	}{
		{[]string{"26 tpi"}, []string{"= 0.30769231", "exact", "drivers over driven", "20,20,25-100x5,38,63", "Stop the lathe"}},
		{[]string{"M8"}, []string{"No exact train.", "One more wheel would make one: 127 teeth.", "+12.5 um", "29.5 degrees", "ISO metric", "A sharp tool"}},
		{[]string{"-leadscrew", "3 mm", "-dial", "15", "1.25 mm"}, []string{"every 5 threads", "3 places"}},
		{[]string{"-leadscrew", "6 tpi", "-wheels", "90,127", "3 mm"}, []string{"90/127", "any idler", "without a dial"}},
		{[]string{"-leadscrew", "4 tpi", "-gear-drivers", "1", "-gear-driven", "2", "8 tpi"}, []string{"1/2 is in the lathe already", "20/20"}},
		{[]string{"-wheels", "20,25", "99.9 mm"}, []string{"Nothing comes within 2 %."}},
	} {
		var out, errs strings.Builder
		if code := run(tt.args, &out, &errs); code != 0 {
			t.Errorf("%q: exit %d, %s", tt.args, code, errs.String())
		}
		for _, want := range tt.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%q: no %q in\n%s", tt.args, want, out.String())
			}
		}
	}
}

func TestRunRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "usage: changewheels"},
		{[]string{"-wheels", "20", "M8"}, "fewer than two wheels"},
		{[]string{"-leadscrew", "8", "M8"}, "accepted"},
		{[]string{"M8y"}, "thread:"},
		{[]string{"0 tpi"}, "accepted"},
		{[]string{"-gear-drivers", "2", "M8"}, "or neither"},
		{[]string{"-dial", "-3", "8 tpi"}, "indicator"},
		{[]string{"-engaged", "-1 mm", "M8"}, "above zero"},
		{[]string{"-n", "0", "M8"}, "1 train or more"},
		{[]string{"M8", "-n", "2"}, "flags first"},
		{[]string{"-set", "60deg", "M8"}, "0 to 45 deg"},
	} {
		var out, errs strings.Builder
		if code := run(tt.args, &out, &errs); code != 2 || out.Len() != 0 || !strings.Contains(errs.String(), tt.want) {
			t.Errorf("%q: exit %d, printed %q, %q; want %q", tt.args, code, out.String(), errs.String(), tt.want)
		}
	}
}
