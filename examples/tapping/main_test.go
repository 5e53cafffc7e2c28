package main

import (
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	for _, test := range []struct {
		name string
		args []string
		code int
		says []string // in this order
	}{
		{"M3 from tenths", []string{"-own", "1-6x0.1 mm", "M3"}, 0, []string{
			"3.000 - 0.75 x 1.2269 x 0.5000 = 2.540 mm (100.0 thou), k for the full depth", "85.0 % of the internal height",
			"1. 2.5 mm", "98.4 thou", "81.5 %", "2. 2.6 mm", "65.2 %", "3. 2.4 mm", "97.8 %", "too small", "6H allows a hole from 2.459 mm", "2.599 mm", "ISO 965",
			"ISO 2306", "2.779 mm", "common practice", "breaks at less than a hand can feel",
		}},
		{"standard drills", []string{"2", "BA"}, 0, []string{"Metric drills of BS 328", "1. 4 mm", "suits", "What charts say", "#22", "#24", "tight"}},
		{"another basis", []string{"-basis", "three-quarter height", "-depth", "0.7", "1/4-20"}, 0, []string{"6.350 - 0.7 x 1.2990 x 1.2700 = 5.195 mm (204.5 thou)", "1. 5.2 mm"}},
		{"a material", []string{"-material", "stainless steel 304", "-own", "#1-#60", "1/4-20"}, 0, []string{"50 % of the three-quarter height", "6.350 - 0.5 x 1.2990 x 1.2700 = 5.525 mm", "1. #2"}},
		{"per cent with their sign", []string{"-depth", "70 %", "-basis", "Internal Height", "M3"}, 0, []string{"3.000 - 0.7 x 1.0825 x 0.5000 = 2.621 mm", "Machinery's Handbook"}},
		{"a blind hole", []string{"-blind", "6 mm", "-tap", "bottoming", "M3"}, 0, []string{"6.000 mm + 0.750 mm + 0.500 mm = 7.250 mm", "Mark the depth"}},
		{"a taper thread", []string{"R", "1/8"}, 0, []string{"no one depth", "8.6 mm"}},
		{"nothing suits", []string{"-own", "2.4 mm, 2.8 mm", "M3"}, 1, []string{"1. 2.8 mm", "shallow", "2. 2.4 mm", "too small", "None of them suits. Buy drill 2.55 mm (2.550 mm), which leaves 73 %"}},
		{"no drill near", []string{"-own", "1-6x0.1 mm", "M16"}, 1, []string{"None of them suits. Buy drill 14.25 mm"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var out, errs strings.Builder
			if code := run(test.args, &out, &errs); code != test.code || errs.Len() > 0 {
				t.Fatalf("exit %d, stderr %q; want %d", code, &errs, test.code)
			}
			rest := out.String()
			for _, want := range test.says {
				_, after, ok := strings.Cut(rest, want)
				if !ok {
					t.Fatalf("no %q after what came before it, in\n%s", want, &out)
				}
				rest = after
			}
		})
	}
}

func TestRunRefuses(t *testing.T) {
	for _, test := range []struct {
		name, says string
		args       []string
	}{
		{"no thread", "usage", nil},
		{"unknown thread", "M12x1.75", []string{"M13"}},
		{"ambiguous", "1/4-20 UNC", []string{"1/4"}},
		{"per cent", "write 0.75", []string{"-depth", "75", "M3"}},
		{"no number", "75 %", []string{"-depth", "lots", "M3"}},
		{"flag behind the thread", "flags first", []string{"M3", "-own", "2 mm"}},
		{"negative drill", "below zero", []string{"-own", "-1-6x0.1 mm", "M3"}},
		{"not a number", "not a finite number", []string{"-depth", "NaN", "M3"}},
		{"bad set", "has a step", []string{"-own", "1-6 mm", "M3"}},
		{"bad basis", "internal height", []string{"-basis", "percent", "M3"}},
		{"3H/4 of BA", "full depth or internal height", []string{"-basis", "three-quarter height", "2 BA"}},
		{"two depths", "brings its own depth", []string{"-material", "brass", "-depth", "0.7", "M3"}},
		{"unknown material", "cheese", []string{"-material", "cheese", "M3"}},
		{"negative depth of hole", "above zero", []string{"-blind", "-2 mm", "M3"}},
		{"unknown flag", "-size", []string{"-size", "3"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var out, errs strings.Builder
			if code := run(test.args, &out, &errs); code != 2 || out.Len() > 0 || !strings.Contains(errs.String(), test.says) {
				t.Errorf("exit %d, stdout %q, stderr %q; want 2 and %q", code, &out, &errs, test.says)
			}
		})
	}
}
