package main

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

func do(args ...string) (status int, out, errs string) {
	var stdout, stderr strings.Builder
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		says   []string // in this order
	}{
		{"M3 from tenths", []string{"-own", "1-6x0.1 mm", "M3"}, 0, []string{
			"drill 2.5 mm 2.500 mm 98.4 thou depth of thread 81.5 % of the full depth what suits 50 to 85 %",
			"2.6 mm 2.600 mm 102.4 thou 65.2 % suits, outside class 6H 2.4 mm 2.400 mm 94.5 thou 97.8 % drill too small Drill 2.4 mm is below the minor diameter 2.459 mm", "Outside class 6H: over its largest minor diameter, 2.599 mm. A gauge refuses the thread, and it serves for work without one.",
			"hole wanted 2.540 mm 100.0 thou depth of thread 75.0 % of the full depth", "85.0 % of the internal height",
			"70.8 % of the three-quarter height",
			"3.000 - 0.75 x 1.2269 x 0.5000 = 2.540 mm, k for the full depth", "class 6H allows 2.459 to 2.599 mm 96.8 to 102.3 thou",
			"major diameter D 3.000 mm 118.1 thou", "pitch p 0.5000 mm 19.7 thou", "minor diameter of the nut 2.459 mm 96.8 thou",
			"2.5 mm 2.500 mm 98.4 thou", "(from memory) 81.5 % suits", "2.779 mm 109.4 thou", "2.790 mm 109.8 thou",
			"ISO 965", "ISO 2306", "common practice (two rules", "breaks at less than a hand can feel",
		}},
		{"M3 from all metric drills", []string{"M3"}, 0, []string{"drill 2.55 mm", "verdict suits", "2.5 mm 2.500 mm 98.4 thou 81.5 % suits 2.6 mm 2.600 mm 102.4 thou 65.2 % suits, outside class 6H 2.65 mm 2.650 mm 104.3 thou 57.1 % suits, outside class 6H", "class 6H allows 2.459 to 2.599 mm"}},
		{"M8x0.75", []string{"M8x0.75"}, 0, []string{"drill 7.3 mm", "7.5 mm 7.500 mm 295.3 thou 54.3 % suits, outside class 6H", "7.378 mm"}},
		{"TH-13, 8 BA in iron", []string{"-own", "#1-#80, 1.75 mm, 1.8 mm, 1.85 mm", "-material", "cast iron", "8", "BA"}, 0, []string{"drill 1.8 mm 1.800 mm 70.9 thou", "77.5 % of the full depth", "1.85 mm 1.850 mm 72.8 thou 67.8 % suits", "#50 1.778 mm 70.0 thou 81.8 % tight drill Drill #50 leaves 81.8 % of the full depth, over the limit of 80 %, and the tap may break"}},
		{"standard drills", []string{"2", "BA"}, 0, []string{"drill 4 mm", "Others of the metric drills of BS 328", "suits", "WHAT CHARTS SAY", "#22", "#24", "tight"}},
		{"another basis", []string{"-basis", "three-quarter height", "-share", "0.7", "1/4-20"}, 0, []string{"drill 5.2 mm", "of the three-quarter height or", "of the full depth", "6.350 - 0.7 x 1.2990 x 1.2700 = 5.195 mm"}},
		{"a material", []string{"-material", "stainless steel 304", "-own", "#1-#60", "1/4-20"}, 0, []string{"in stainless steel 304", "drill #2", "50.0 % of the three-quarter height", "advised 50 %", "6.350 - 0.5 x 1.2990 x 1.2700 = 5.525 mm", "the drill is over that"}},
		{"a range of depths", []string{"-material", "mild steel", "M5"}, 0, []string{"62.5 % of the three-quarter height", "advised 60 to 65 %"}},
		{"no practice for the metal", []string{"-material", "copper", "1/4 x 40"}, 0, []string{"drill 5.7 mm", "75.0 % of the full depth", "as we have no practice for the metal"}},
		{"per cent with their sign", []string{"-share", "70 %", "-basis", "Internal Height", "M3"}, 0, []string{"3.000 - 0.7 x 1.0825 x 0.5000 = 2.621 mm", "Machinery's Handbook"}},
		{"a blind hole", []string{"-blind", "6 mm", "-tap", "bottoming", "M3"}, 0, []string{"hole, without its point 7.250 mm 285.4 thou", "6.000 mm + 0.750 mm + 0.500 mm = 7.250 mm", "Mark the depth"}},
		{"a taper pipe is three holes", []string{"R", "1/8"}, 0, []string{
			"Rp 1/8, parallel 8.6 mm 8.600 mm 338.6 thou", "Rc 1/8, taper, no reamer 8.1 mm", "Rc 1/8, taper, reamed first 8.1 mm",
			"the drill of one leaks as another", "Rp 1/8, PARALLEL", "hole 8.495 to 8.637 mm", "8.6 mm 8.600 mm 338.6 thou [", "(unreviewed)",
			"Rc 1/8, TAPER, NO REAMER", "hole 8.100 to 8.179 mm", "8.1 mm 8.100 mm 318.9 thou [2] 7.5 mm 6.2 mm 8.2",
			"8.2 mm 8.200 mm 322.8 thou [2] 5.9 mm 4.4 mm 6.5 For a thread that runs out in the open",
			"8.566 - 6.200 / 16 = 8.179 mm", "ream, 1 in 16, to 8.566 mm 337.2 thou at the face", "Catalogue of a maker of thread tools",
			"Prove it with cold water before steam",
		}},
		{"by the name of the parallel hole", []string{"Rp 1/4"}, 0, []string{"Rp 1/4, parallel 11.5 mm", "Rc 1/4, taper, no reamer 10.8 mm"}},
		{"American pipe", []string{"-own", "A-Z, 1/16-1/2x1/64 in", "1/8 NPT"}, 0, []string{
			"1/8-27 NPT, taper, no reamer Q 8.433 mm", "1/8-27 NPT, taper, reamed first P 8.204 mm",
			"R 8.611 mm 339.0 thou", "Drill R leaves 2.0 mm of whole thread in 1/8-27 NPT, 2.1 turns from the mouth; 4.1 mm are wanted",
			"ream, 1 in 16, to 8.737 mm 344.0 thou at the face",
		}},
		{"a drill for one pipe hole alone", []string{"-own", "8.6 mm", "R 1/8"}, 0, []string{
			"Rp 1/8, parallel 8.6 mm", "Rc 1/8, taper, no reamer none suits For Rc 1/8 without a reamer, take a drill from 8.100 mm to 8.179 mm (0.3189 in to 0.3220 in)",
		}},
		{"no drill for a taper pipe", []string{"-own", "8.2 mm", "R 1/8"}, 1, []string{"WILL NOT WORK", "None of the drills makes a hole for R 1/8",
			"For Rc 1/8 before the taper reamer, take a drill from 7.791 mm to 8.179 mm"}},
		{"nothing suits", []string{"-own", "2.4 mm, 2.8 mm", "M3"}, 1, []string{"None of the drills suits M3x0.5. Drill 2.8 mm leaves 32.6 %", "> Buy drill 2.55 mm (2.550 mm), which leaves 73 %", "drill none suits drill to buy 2.55 mm 2.550 mm", "2.8 mm 2.800 mm 110.2 thou 32.6 % shallow thread 2.4 mm 2.400 mm 94.5 thou 97.8 % drill too small"}},
		{"no drill near", []string{"-own", "1-6x0.1 mm", "M16"}, 1, []string{"None of the drills suits M16x2.", "Buy drill 14.25 mm"}},
		{"flags behind the thread", []string{"M3", "-own", "1-6x0.1 mm"}, 0, []string{"drill 2.5 mm"}},
		{"help", []string{"-h"}, 0, []string{"usage: tapping [flags] THREAD", "-share SHARE"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			status, out, errs := do(test.args...)
			if status != test.status || errs != "" {
				t.Fatalf("status %d, %q; want %d", status, errs, test.status)
			}
			for line := range strings.Lines(out) {
				if utf8.RuneCountInString(line) > 79 {
					t.Errorf("too long: %q", line)
				}
			}
			rest := strings.Join(strings.Fields(out), " ")
			for _, want := range test.says {
				_, after, ok := strings.Cut(rest, want)
				if !ok {
					t.Fatalf("no %q after what came before it, in\n%s", want, out)
				}
				rest = after
			}
		})
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		name, says string
		args       []string
	}{
		{"no thread", "tapping: wanted: a thread, such as M3; see -h", nil},
		{"unknown thread", "M12x1.75", []string{"M13"}},
		{"ambiguous", "1/4-20 UNC", []string{"1/4"}},
		{"per cent", "-share: depth of thread 75: looks like per cent; write 0.75", []string{"-share", "75", "M3"}},
		{"over one, and no per cent", "-share: depth of thread 1.4: out of range; accepted: a share above 0", []string{"-share", "1.4", "M3"}},
		{"no number", "75 %", []string{"-share", "lots", "M3"}},
		{"nothing of it", "-share: depth of thread 0: out of range", []string{"-share", "0", "M3"}},
		{"more than there is", "-share: depth of thread 0.95: needs a hole below the minor diameter", []string{"-share", "0.95", "M3"}},
		{"not finite", "-share: depth of thread", []string{"-share", "NaN", "M3"}},
		{"negative drill", "below zero", []string{"-own", "-1-6x0.1 mm", "M3"}},
		{"bad set", "has a step", []string{"-own", "1-6 mm", "M3"}},
		{"bad basis", "internal height", []string{"-basis", "percent", "M3"}},
		{"3H/4 of BA", "-basis: basis of the depth three-quarter height: belongs to the ISO metric and Unified forms; accepted: full depth or internal height", []string{"-basis", "three-quarter height", "2 BA"}},
		{"two depths", "brings its own depth", []string{"-material", "brass", "-share", "0.7", "M3"}},
		{"two depths again", "brings its own depth", []string{"-material", "brass", "M3", "-basis", "full depth"}},
		{"unknown material", `-material: material "cheese"`, []string{"-material", "cheese", "M3"}},
		{"negative depth of hole", "-blind: length of thread -2 mm: out of range; accepted: above zero", []string{"-blind", "-2 mm", "M3"}},
		{"no depth of hole", "above zero", []string{"-blind", "0 mm", "M3"}},
		{"a blind taper thread", "-blind: not for a taper thread", []string{"-blind", "8 mm", "R 1/8"}},
		{"a tap for no blind hole", "-tap with -blind", []string{"-tap", "taper", "M3"}},
		{"unknown tap", "taper, second, bottoming", []string{"-tap", "plug", "-blind", "6 mm", "M3"}},
		{"unknown flag", "-size", []string{"-size", "3"}},
		{"a flag of old", "-depth: no such flag", []string{"-depth", "0.7", "M3"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			status, out, errs := do(test.args...)
			if status != 2 || out != "" || !strings.Contains(errs, test.says) || strings.Count(errs, "\n") != 1 {
				t.Errorf("status %d, %q, %q; want %q", status, out, errs, test.says)
			}
		})
	}
}

func TestJSON(t *testing.T) {
	var answer struct {
		Drill struct {
			Name     string
			Diameter *float64 `json:"diameter_mm"`
			Depth    float64
			Suits    struct{ Min, Max float64 }
			Others   []struct {
				Label, Verdict string
				Diameter       float64 `json:"diameter_mm"`
			}
			Buy *struct{ Name string }
		}
		Hole struct {
			Wanted  float64 `json:"wanted_mm"`
			Share   float64
			Basis   string
			Class   string
			Allowed struct{ Min, Max float64 } `json:"allowed_mm"`
		}
		Thread struct {
			Designation string
			Major       float64 `json:"major_mm"`
		}
		Blind   struct{ Tap string }
		Forming struct {
			ByDepth float64 `json:"by_depth_mm"`
		}
		Findings []struct{ Code, Severity string }
	}
	read := func(wanted int, args ...string) {
		t.Helper()
		status, out, errs := do(append(args, "-json")...)
		if status != wanted || errs != "" {
			t.Fatalf("%q: status %d, %s", args, status, errs)
		}
		if err := json.Unmarshal([]byte(out), &answer); err != nil {
			t.Fatal(err)
		}
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 5e-4 }
	read(0, "-own", "1-6x0.1 mm", "-blind", "6 mm", "M3")
	d, h := answer.Drill, answer.Hole
	if d.Name != "2.5 mm" || *d.Diameter != 2.5 || !near(d.Depth, 0.8151) || d.Suits.Min != 0.5 || d.Suits.Max != 0.85 ||
		len(d.Others) != 2 || d.Others[1].Label != "2.4 mm" || d.Others[1].Verdict != "drill too small" || d.Buy != nil {
		t.Errorf("%+v", d)
	}
	if !near(h.Wanted, 2.5399) || h.Share != 0.75 || h.Basis != "full depth" || h.Class != "6H" || !near(h.Allowed.Max, 2.599) {
		t.Errorf("%+v", h)
	}
	if answer.Thread.Designation != "M3x0.5" || answer.Thread.Major != 3 || answer.Blind.Tap != "second" ||
		!near(answer.Forming.ByDepth, 2.779) || len(answer.Findings) != 0 {
		t.Errorf("%+v", answer)
	}
	read(1, "-own", "2.4 mm, 2.8 mm", "M3")
	if d := answer.Drill; d.Diameter != nil || d.Buy == nil || d.Buy.Name != "2.55 mm" {
		t.Errorf("%+v", d)
	}
	if f := answer.Findings; len(f) != 1 || f[0].Code != "no-tapping-drill" || f[0].Severity != "fails" {
		t.Errorf("%+v", f)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestFailedWrite(t *testing.T) {
	var stderr strings.Builder
	if status := program().Do([]string{"M3"}, full{}, &stderr); status != 2 || !strings.Contains(stderr.String(), "no space left on device") {
		t.Errorf("status %d, %q", status, stderr.String())
	}
}
