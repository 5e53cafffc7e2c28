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
			"drill 2.5 mm 2.500 mm 98.4 thou depth of thread 81.5 % of the full depth", "what suits 50 to 85 %",
			"2.6 mm 2.600 mm 102.4 thou 65.2 % suits, outside class 6H 2.4 mm 2.400 mm 94.5 thou 97.8 % drill too small Drill 2.4 mm is below the minor diameter 2.459 mm", "Outside class 6H: over the largest minor diameter, 2.599 mm. A gauge refuses the thread, and it serves for work without one.",
			"hole wanted 2.540 mm 100.0 thou depth of thread 75.0 % of the full depth", "85.0 % of the internal height",
			"70.8 % of the three-quarter height",
			"3.000 - 0.75 x 1.2269 x 0.5000 = 2.540 mm, k for the full depth", "class 6H allows 2.459 to 2.599 mm 96.8 to 102.3 thou",
			"major diameter D 3.000 mm 118.1 thou", "pitch p 0.5000 mm 19.7 thou", "minor diameter of the nut 2.459 mm 96.8 thou",
			"2.5 mm 2.500 mm 98.4 thou", "81.5 % suits", "2.779 mm 109.4 thou", "2.790 mm 109.8 thou",
			"ISO 965", "Tap drill size chart", "common practice (two rules", "breaks at less than a hand can feel",
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
		{"a blind hole", []string{"-blind", "6 mm", "-tap", "bottoming", "M3"}, 0, []string{"hole, without its point 7.250 mm 285.4 thou", "to the tip of the drill 8.016 mm", "the tap jams at 6.500 mm", "6.000 mm + 0.750 mm + 0.500 mm = 7.250 mm", "Mark the depth"}},
		{"TH-01, one hole and three percentages", []string{"-own", "5 mm", "M6"}, 0, []string{"drill 5 mm 5.000 mm", "81.5 % of the full depth or 92.4 % of the internal height or 77.0 % of the three-quarter height"}},
		{"TH-02, 1/4-20 from number drills in brass", []string{"-own", "#1-#60", "-material", "brass", "1/4-20"}, 0, []string{"drill #6 5.182 mm 204.0 thou", "or 70.8 % of the three-quarter height", "hole wanted 5.195 mm 204.5 thou", "70.0 % of the three-quarter height"}},
		{"TH-02, in stainless steel never the smaller", []string{"-own", "#1-#60", "-material", "stainless steel 304", "1/4-20"}, 0, []string{"drill #2 5.613 mm 221.0 thou", "or 44.6 % of the three-quarter height", "hole wanted 5.525 mm 217.5 thou"}},
		{"TH-03, a chart's drill for 14 BA", []string{"-own", "#70", "14 BA"}, 1, []string{"WILL NOT WORK", "None of the drills suits 14 BA. Drill #70 is below the minor diameter 0.720 mm", "Buy drill"}},
		{"TH-03, and for 10 BA", []string{"-own", "#55", "10 BA"}, 1, []string{"Drill #55 leaves 90.3 % of the full depth, over the limit of 80 %, and the tap may break"}},
		{"TH-04, a tight clearance drill", []string{"-clear", "#34", "6 BA"}, 0, []string{"The 2.819 mm hole forgives 0.010 mm of position, and 6 of them must agree", `Take the class "cover"`, "your drill #34 2.819 mm 111.0 thou", "room 0.019 mm 0.8 thou forgives of position 0.010 mm 0.4 thou", "cover 3.000 mm 0.1181 in", "0.100 mm"}},
		{"TH-06, drills in steps of 0.5 mm", []string{"-own", "1-13x0.5 mm", "-basis", "internal height", "M7x0.75"}, 0, []string{"drill 6.5 mm", "61.6 % of the internal height", "nearer, to buy: 6.4 mm", "73.9 %", "6 mm 6.000 mm 236.2 thou 123.2 % drill too small"}},
		{"TH-06, and in steps of 0.1 mm", []string{"-own", "1-13x0.1 mm", "-share", "0.9", "-basis", "internal height", "M7x0.75"}, 0, []string{"drill 6.3 mm", "86.2 % of the internal height or 76.1 % of the full depth or 71.8 % of the three-quarter height", "6.2 mm 6.200 mm 244.1 thou 98.5 % tight drill"}},
		{"TH-07, a forming tap", []string{"M10x1.5"}, 0, []string{"A FORMING TAP NEEDS ANOTHER HOLE", "drill 9.3 mm 9.300 mm 366.1 thou forms 69 % of a thread", "9.337 mm", "9.265 mm"}},
		{"TH-07, of 1/4-20", []string{"-own", "#1-#60", "1/4-20"}, 0, []string{"drill #1 5.791 mm 228.0 thou forms 65 % of a thread", "5.789 mm 227.9 thou"}},
		{"TH-07, no drill for it", []string{"-own", "2.5 mm", "M3"}, 0, []string{"A FORMING TAP NEEDS ANOTHER HOLE", "drill none suits"}},
		{"TH-08, a hole that there is", []string{"-hole", "0.3 in", "-material", "aluminium", "-broken", "M3"}, 0, []string{
			"hole, without its point 7.620 mm 300.0 thou", "to the tip of the drill 8.401 mm", "drill 2.6 mm, point of 118 deg",
			"full thread 5.620 mm 221.3 thou 11 turns, 1.87 diameters", "the tap jams at 6.120 mm", "by rule in aluminium 7.500 mm",
			"taper 3.50 mm 0.138 in 3.62 mm 0.143 in 4.12 mm", "second 1.50 mm 0.059 in 5.62 mm 0.221 in 6.12 mm", "bottoming 0.75 mm 0.030 in 6.37 mm 0.251 in 6.87 mm",
			"7.620 mm - 1.500 mm - 0.500 mm = 5.620 mm", "alum",
		}},
		{"a hole that holds no thread", []string{"-hole", "2 mm", "M3"}, 1, []string{"WILL NOT WORK", "holds no full thread for M3x0.5", "Drill it deeper than 2.000 mm", "full thread 0.000 mm"}},
		{"TH-09, studs in gunmetal", []string{"-hole", "8 mm", "-material", "gunmetal", "M2.5"}, 0, []string{"by rule in gunmetal 6.250 mm 246.1 thou 14 turns", "There is 6.200 mm of full thread for M2.5x0.45; the rule for studs in other non-ferrous metal asks for 6.250 mm"}},
		{"TH-09, and in iron", []string{"-hole", "8 mm", "-material", "cast iron", "5 BA"}, 0, []string{"by rule in cast iron 4.000 mm 157.5 thou 7 turns"}},
		{"8 BA, in words", []string{"8", "BA"}, 0, []string{"67.8 % suits, outside nut limits", "Outside nut limits: over the largest minor diameter, 1.841 mm. A gauge refuses", "nut limits allow 1.680 to 1.841 mm", "normal class allows 2.089 to 2.175 mm"}},
		{"TH-14, asked by itself", []string{"-die", "M3"}, 0, []string{"Rod for M3x0.5, ISO metric form, before the die turn the rod to 2.90 mm 114.2 thou", "class 6g allows 2.874 to 2.980 mm"}},
		{"TH-14, an inch thread", []string{"-die", "3/8-16"}, 0, []string{"class 2A allows 9.253 to 9.492 mm 364.3 to 373.7 thou"}},
		{"spotting through", []string{"-spot", "-clear", "3.2 mm", "-own", "2.5 mm", "M3"}, 0, []string{"spot with drill 3.2 mm 3.200 mm 126.0 thou", "its point goes in 0.75 mm", "never as far as 0.96 mm", "then drill 2.5 mm 2.500 mm"}},
		{"metal below a blind hole", []string{"-hole", "7 mm", "-metal", "7.5 mm", "-own", "2.5 mm", "M3"}, 1, []string{"The point of the drill, 7.75 mm (305 thou) deep, comes through"}},
		{"TH-14, before the die", []string{"M3"}, 0, []string{"BEFORE THE DIE", "turn the rod to 2.90 mm 114.2 thou", "class 6g allows 2.874 to 2.980 mm", "its middle 2.927 mm"}},
		{"TH-14, of an inch thread", []string{"3/8-16"}, 0, []string{"turn the rod to 9.31 mm 366.5 thou", "class 2A allows 9.253 to 9.492 mm 364.3 to 373.7 thou"}},
		{"TH-14, of a model engineer thread", []string{"1/4 x 40"}, 0, []string{"turn the rod to 6.31 mm 248.5 thou", "no limits for this thread here: nominal less 5 % of the pitch is common practice"}},
		{"GA-08, a stud", []string{"-cover", "3 mm", "-gasket", "0.25 mm", "-engaged", "4.5 mm", "M3"}, 0, []string{"ISO metric form STUD", "cut the stud to 10.9 mm 429 thou", "in the hole 4.50 mm 177 thou 9 turns nut 2.40 mm", "4.50 mm + 0.25 mm + 3.00 mm + 2.40 mm + 0.75 mm = 10.90 mm", "BS EN ISO 4032"}},
		{"GA-08, by the rule", []string{"-cover", "3 mm", "-gasket", "0.25 mm", "-material", "gunmetal", "M3"}, 0, []string{"cut the stud to 13.9 mm", "in the hole 7.50 mm"}},
		{"GA-08, too short for its metal", []string{"-cover", "3 mm", "-engaged", "3 mm", "-material", "gunmetal", "M3"}, 1, []string{"WILL NOT WORK", "There is 3.000 mm of full thread for M3x0.5"}},
		{"GA-08, no farther than its hole", []string{"-cover", "3 mm", "-hole", "7 mm", "-material", "gunmetal", "M2.5"}, 0, []string{"cut the stud to 10.9 mm", "in the hole 5.20 mm 205 thou 11.6 turns", "There is 5.200 mm of full thread"}},
		{"GA-08, farther than its hole", []string{"-cover", "3 mm", "-hole", "5.5 mm", "-engaged", "4.5 mm", "M3"}, 1, []string{"WILL NOT WORK - The stud is to go 4.500 mm into its hole, which has 3.500 mm of full thread: it stops there and stands out 1.000 mm too far."}},
		{"GA-08, a hole without a thread", []string{"-cover", "3 mm", "-hole", "1 mm", "-engaged", "4.5 mm", "M3"}, 1, []string{"cut the stud to nothing: the hole holds no full thread"}},
		{"GA-08, a BA stud with its nut", []string{"-cover", "3 mm", "-engaged", "4 mm", "-nut", "2.2 mm", "8 BA"}, 0, []string{"cut the stud to 9.8 mm", "4.00 mm + 0.00 mm + 3.00 mm + 2.20 mm + 0.65 mm = 9.85 mm"}},
		{"a clearance hole and its drill", []string{"M3"}, 0, []string{"CLEARANCE HOLE", "ISO 273 medium, usual 3.400 mm 0.1339 in [", "3.4 mm 0.200 mm", "cover 3.200 mm"}},
		{"a taper pipe is three holes", []string{"R", "1/8"}, 0, []string{
			"Rp 1/8, parallel 8.6 mm 8.600 mm 338.6 thou", "Rc 1/8, taper, no reamer 8.1 mm", "Rc 1/8, taper, reamed first 8.1 mm",
			"the drill of one leaks as another", "Rp 1/8, PARALLEL", "hole 8.495 to 8.637 mm", "8.6 mm 8.600 mm 338.6 thou [", "(unreviewed)",
			"Rc 1/8, TAPER, NO REAMER", "hole 8.100 to 8.179 mm", "8.1 mm 8.100 mm 318.9 thou [2] 7.5 mm 6.2 mm 8.2",
			"8.2 mm 8.200 mm 322.8 thou [2] 5.9 mm 4.4 mm 6.5 For a thread that runs out in the open",
			"8.566 - 6.200 / 16 = 8.179 mm", "ream, 1 in 16, to 8.566 mm 337.2 thou at the face", "Catalogue of a maker of thread tools",
			"Prove it with cold water before steam",
		}},
		{"by the name of the parallel hole", []string{"Rp 1/4"}, 0, []string{"Rp 1/4, parallel 11.5 mm", "Rc 1/4, taper, no reamer 10.8 mm"}},
		{"the drill of Rp in Rc", []string{"-own", "8.6 mm", "Rc 1/8"}, 1, []string{"Tapping drill for Rc 1/8", "WILL NOT WORK - None of the drills makes a hole for Rc 1/8",
			"drill Rc 1/8, taper, no reamer none suits Rc 1/8, taper, reamed first none suits Rp 1/8, parallel 8.6 mm"}},
		{"a drill for a thread that goes through", []string{"-own", "8.2 mm", "Rc 1/8"}, 1, []string{"> Only where the thread of Rc 1/8 runs out in the open, into a recess or right through, drill 8.2 mm serves."}},
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
		{"two depths of hole", "-blind is the thread wanted and -hole the hole there is", []string{"-blind", "6 mm", "-hole", "7 mm", "M3"}},
		{"no hole", "-hole: depth of hole for M3x0.5 0 mm", []string{"-hole", "0 mm", "M3"}},
		{"a clearance hole for a pipe", "-clear: not for a pipe thread", []string{"-clear", "10 mm", "G 1/8"}},
		{"a cover on a pipe", "-cover: not for a pipe thread", []string{"-cover", "10 mm", "G 1/8"}},
		{"a hole in a taper pipe", "-hole: not for a taper thread", []string{"-hole", "8 mm", "R 1/8"}},
		{"TH-04, smaller than the screw", "-clear: clearance hole for 9 BA 1.778 mm: the screw does not pass; accepted: above 1.9 mm", []string{"-clear", "#50", "9 BA"}},
		{"no drill of that name", "-clear: size", []string{"-clear", "lots", "M3"}},
		{"a gasket without a cover", "-gasket, -nut and -engaged belong to a stud", []string{"-gasket", "0.5 mm", "M3"}},
		{"a stud of no length", "how far the stud goes into its hole is missing", []string{"-cover", "3 mm", "M3"}},
		{"a cover of nothing", "-cover: thickness of the cover 0 mm", []string{"-cover", "0 mm", "-engaged", "4 mm", "M3"}},
		{"engaged in nothing", "-engaged: 0 mm; accepted: a length above zero", []string{"-cover", "3 mm", "-engaged", "0 mm", "M3"}},
		{"a negative gasket", "thickness of the gasket -1 mm", []string{"-cover", "3 mm", "-engaged", "4 mm", "-gasket", "-1 mm", "M3"}},
		{"no table of nuts", "-nut: missing, as we have no table of nuts for 8 BA", []string{"-cover", "3 mm", "-engaged", "4 mm", "8 BA"}},
		{"broken in nothing", "-broken asks for the metal", []string{"-broken", "M3"}},
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
