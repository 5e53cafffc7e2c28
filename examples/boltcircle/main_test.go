package main

import (
	"encoding/json"
	"math"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// do runs the program.
func do(args ...string) (stdout, stderr string, status int) {
	var out, errs strings.Builder
	status = program().Do(args, &out, &errs)
	return out.String(), errs.String(), status
}

func TestBoltCircle(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		wants  []string
	}{
		// 2 cos 30, 2 sin 30
		{"GA-01, three on 4 in", []string{"-d", "4 in", "-inch", "3"}, 0, []string{
			"hole 1 0.0000 2.0000 2.0000 4.0000", "hole 2 -1.7321 -1.0000", "hole 3 1.7321 -1.0000", "set the dividers to 87.988 mm 3464.1 thou",
			"3 holes on a circle of 4 in", "Places in inches", "d = 4 in", "4 in x sin(180 / 3) = 3.4641 in", "a third of the difference",
		}},
		{"GA-01, three straddling", []string{"-d", "4 in", "-inch", "-straddle", "3"}, 0, []string{
			"holes 1 and 3 beside 90 deg", "hole 1 -1.7321 1.0000", "hole 2 0.0000 -2.0000", "hole 3 1.7321 1.0000",
		}},
		// GA-07: X and Y of my bolt circle from the corner
		{"GA-01 and GA-07, six on 36 from the corner", []string{"-d", "36 mm", "6"}, 0, []string{
			"hole 1 0.000 18.000 18.000 36.000", "2.412 27.000", "2.412 9.000", "hole 4 0.000 -18.000 18.000 0.000", "33.588 9.000", "33.588 27.000",
			"hole 1 to 3 31.177 mm", "hole 1 to 4 36.000 mm", "half the other", "a 6th part", "1 4 2 5 3 6",
		}},
		// the middle 25 and 20 from the corner; 25 - 15.588 = 9.412 is 4 turns of 2 mm and 56.5 divisions of 0.025
		{"GA-01, dials from a corner datum", []string{"-d", "36 mm", "-centre-x", "25 mm", "-centre-y", "20 mm", "-screw", "2 mm", "-divisions", "80", "-past", "0.5 mm", "6"}, 0, []string{
			"hole 3 4 + 56 -0.012 5 + 40 0.000 hole 2 4 + 56 -0.012 14 + 40", "hole 4 12 + 40 0.000 1 + 0 * 0.000 hole 1 12 + 40 0.000 19 + 0 0.000",
			"go 0.5 mm past the reading", "more than the backlash", "Always come to a hole from the side of the smaller reading",
		}},
		{"pins and a rotary table", []string{"-d", "36 mm", "-hole", "3.4 mm", "-rotary", "1 arcmin", "7"}, 0, []string{
			"hole 1 to 2 15.620 mm 615.0 thou 19.020 mm", "141° 26' 0.0015", "spindle from the middle of the table 18.000 mm",
		}},
		// 1 / 2 in less 0.75 cos 36 = 0.6068 is -0.1068, and half of 1/8 more
		{"off the work, dials in inches", []string{"-d", "1 1/2 in", "-inch", "-screw", "0.1 in", "-divisions", "100", "-centre-x", "1 in", "-centre-y", "0.5 in", "-hole", "1/8 in", "5"}, 1, []string{
			"WILL NOT WORK - Holes 3 and 4 run over the edges of the work that meet in its corner, by up to 0.1693 in.", "Look at -centre-x and -centre-y",
			"a turn is 0.1 in, a division 0.001 in", "out by in", "hole 2 2 + 87 0.0003 7 + 32 0.0002", "go 0.05 in past",
		}},
		{"on the edge of the work", []string{"-d", "36 mm", "-centre-x", "18 mm", "-centre-y", "18 mm", "6"}, 0, []string{"hole 4 0.000 -18.000 18.000 0.000"}},
		{"cut by the edge", []string{"-d", "36 mm", "-centre-x", "18 mm", "-centre-y", "18 mm", "-hole", "3 mm", "6"}, 1, []string{"Hole 4 runs over the edges", "by up to 1.500 mm"}},
		{"no corner given", []string{"-d", "36 mm", "-hole", "3 mm", "6"}, 0, []string{"Where the middle lies on your work was not said"}},
		{"holes that meet", []string{"-d", "36 mm", "-hole", "18 mm", "6"}, 1, []string{"WILL NOT WORK", "Holes of 18 mm run into each other, as the next is 18.000 mm away."}},
	} {
		t.Run(test.name, func(t *testing.T) {
			text, errs, status := do(test.args...)
			if status != test.status || errs != "" {
				t.Fatalf("status %d: %s", status, errs)
			}
			words := strings.Join(strings.Fields(text), " ")
			for _, want := range test.wants {
				if !strings.Contains(words, want) {
					t.Errorf("no %q in\n%s", want, text)
				}
			}
			if regexp.MustCompile(`-0\.0+\s`).MatchString(text) {
				t.Errorf("a zero with a sign in\n%s", text)
			}
			for line := range strings.Lines(text) {
				if utf8.RuneCountInString(line) > 79 {
					t.Errorf("wider than 78: %s", line)
				}
			}
		})
	}
}

func TestJSON(t *testing.T) {
	text, errs, status := do("-json", "-d", "36 mm", "-screw", "2 mm", "-divisions", "80", "6")
	var a struct {
		Places struct {
			Holes []struct {
				X, Y   float64
				XMM    float64 `json:"x_mm"`
				Corner float64 `json:"corner_x_mm"`
			}
		}
		Dividers struct {
			Step float64 `json:"step_mm"`
		}
		Dials struct {
			Settings []struct {
				Turns     int     `json:"x_turns"`
				Divisions float64 `json:"x_divisions"`
				Back      bool    `json:"y_comes_back"`
			}
		}
		Order struct{ Order []string }
	}
	if err := json.Unmarshal([]byte(text), &a); err != nil || status != 0 || errs != "" {
		t.Fatalf("%v, status %d, %s\n%s", err, status, errs, text)
	}
	if len(a.Places.Holes) != 6 || math.Abs(a.Places.Holes[4].XMM-15.5885) > 1e-4 || math.Abs(a.Places.Holes[4].Corner-33.5885) > 1e-4 || a.Dividers.Step != 18 {
		t.Errorf("%+v", a)
	}
	if d := a.Dials.Settings; len(d) != 6 || d[0].Turns != 1 || d[0].Divisions != 16 || !d[2].Back || strings.Join(a.Order.Order, "") != "142536" {
		t.Errorf("%+v", a)
	}
}

func TestRefuses(t *testing.T) {
	for _, test := range []struct {
		args  []string
		wants string
	}{
		{[]string{"6"}, "-d DIAMETER: missing"},
		{[]string{"-d", "36 mm"}, "wanted: one number of holes"},
		{[]string{"-d", "36", "6"}, "-d: length \"36\": a number without a unit"},
		{[]string{"-d", "0 mm", "6"}, "-d: diameter of the circle 0 mm"},
		{[]string{"-d", "36 mm", "1"}, "number: number of holes 1: out of range; accepted: 2 to 1000"},
		{[]string{"-d", "36 mm", "501"}, "number: studs to tighten 501: out of range; accepted: 2 to 500"},
		{[]string{"-d", "36 mm", "6.5"}, "number: count \"6.5\""},
		{[]string{"-d", "36 mm", "-first", "1e9 deg", "6"}, "-first: "},
		{[]string{"-d", "36 mm", "-first", "NaN deg", "6"}, "-first: "},
		{[]string{"-d", "36 mm", "-screw", "2 mm", "6"}, "-screw and -divisions go together"},
		{[]string{"-d", "36 mm", "-past", "2 mm", "6"}, "-past is for the dials"},
		{[]string{"-d", "36 mm", "-screw", "2 mm", "-divisions", "7", "6"}, "-divisions: divisions of the dial 7"},
		{[]string{"-d", "36 mm", "-screw", "0 mm", "-divisions", "7", "6"}, "-screw: travel of a turn 0 mm"},
		{[]string{"-d", "36 mm", "-screw", "2 mm", "-divisions", "80", "-past", "0 mm", "6"}, "-past: "},
		{[]string{"-d", "36 mm", "-rotary", "20 deg", "6"}, "-rotary: "},
		{[]string{"-d", "36 mm", "-hole", "-1 mm", "6"}, "-hole: "},
		{[]string{"-d", "36 mm", "-centre-y", "0 mm", "6"}, "-centre-y: "},
	} {
		text, errs, status := do(test.args...)
		if status != 2 || text != "" || !strings.HasPrefix(errs, "boltcircle: ") || !strings.Contains(errs, test.wants) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%v: status %d, %q, %q; want 2 and %q", test.args, status, text, errs, test.wants)
		}
	}
}
