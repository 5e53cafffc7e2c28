package main

import (
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	for _, tt := range []struct {
		args []string
		code int
		want []string
	}{
		// 9/16-18 UNF over 0.0395 in wires: 0.5909 to 0.5954 in for class 2A.
		{[]string{"-wire", "0.0395in", "-class", "2A", "-step", "0.0001in", "9/16-18", "UNF"}, 0, []string{"M = E + W (1 + 1/sin A) - P/2 cot A", "32.08 thou", "p. 2130", "590.89 thou", "595.39 thou"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.586in", "9/16-18 UNF"}, 1, []string{"too small by", "Reading"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.593in", "9/16-18 UNF"}, 0, []string{"inside"}},
		{[]string{"-wire", "0.0395in", "-class", "2A", "-reads", "0.600in", "9/16-18 UNF"}, 1, []string{"still too large by"}},
		{[]string{"M8"}, 0, []string{"60 degrees", "0.7217 mm", "7.188 + 3.0000 x 0.7217 - 0.8660 x 1.2500", "basic pitch diameter"}},
		{[]string{"-lead", "helicoid", "Tr 10x2"}, 0, []string{"solved on the helicoid", "lead angle of 4.05 degrees"}},
		{[]string{"-lead", "H28", "2 BA"}, 0, []string{"tan^2 B", "47.5 degrees", "FED-STD-H28"}},
	} {
		var out, errs strings.Builder
		if code := run(tt.args, &out, &errs); code != tt.code {
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
		{nil, "usage: wires"},
		{[]string{"M8.8.8"}, "thread:"},
		{[]string{"-wire", "0.2mm", "M8"}, "best 0.7217 mm"},
		{[]string{"-wire", "0.8", "M8"}, "accepted"},
		{[]string{"-class", "2A", "M8"}, "2A"},
		{[]string{"-class", "6H", "M8"}, "a nut's"},
		{[]string{"-lead", "some", "M8"}, "helicoid"},
		{[]string{"-reads", "80mm", "M8"}, "measurement over wires"},
		{[]string{"-class", "6g", "-step", "1mm", "M8"}, "rounding step"},
		{[]string{"1/8 NPT"}, "taper"},
		{[]string{"M8", "-class", "6g"}, "flags first"},
	} {
		var out, errs strings.Builder
		if code := run(tt.args, &out, &errs); code != 2 || out.Len() != 0 || !strings.Contains(errs.String(), tt.want) {
			t.Errorf("%q: exit %d, printed %q, %q; want %q", tt.args, code, out.String(), errs.String(), tt.want)
		}
	}
}
