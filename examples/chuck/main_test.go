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

// asked answers in JSON.
func asked(t *testing.T, to any, args ...string) {
	t.Helper()
	status, out, errs := do(append([]string{"-json"}, args...)...)
	if status == 2 || errs != "" || json.Unmarshal([]byte(out), to) != nil {
		t.Fatalf("%v: status %d, %s: %s", args, status, errs, out)
	}
}

// EC-07: 3.5 mm on 20 and on 19 mm, and the worked example of the society.
func TestPacking(t *testing.T) {
	for _, test := range []struct {
		blank, offset, jaw string
		packing, wide      float64
	}{
		{"20 mm", "3.5 mm", "0 mm", 4.78, 5.25},
		{"20 mm", "3.5 mm", "3 mm", 5.13, 5.25},
		{"20 mm", "3.5 mm", "5 mm", 5.24, 5.25},
		{"20 mm", "3.5 mm", "6.07 mm", 5.25, 5.25},
		{"19 mm", "3.5 mm", "0 mm", 4.75, 5.25},
		{"3.375 in", "0.313 in", "0 mm", 0.448 * 25.4, 0.4695 * 25.4},
	} {
		var answer struct {
			Packing float64 `json:"packing_mm"`
			Wide    float64 `json:"packing_wide_mm"`
		}
		asked(t, &answer, "-blank", test.blank, "-offset", test.offset, "-jaw", test.jaw)
		if math.Abs(answer.Packing-test.packing) > 0.0127 || math.Abs(answer.Wide-test.wide) > 0.0127 {
			t.Errorf("%v: %v", test, answer)
		}
	}
}

// A pair moves by half the difference of its readings; keys by which a program knows
// the answer.
func TestFourJaw(t *testing.T) {
	type move struct {
		Jaw, Loosen int
		MM, Turns   float64
		Reads       float64 `json:"reads_mm"`
	}
	var answer struct {
		Moves        []move
		Eccentricity float64 `json:"eccentricity_mm"`
		Reading      float64 `json:"reading_mm"`
		OutOfRound   float64 `json:"out_of_round_mm"`
	}
	asked(t, &answer, "-dial", "0 12 30 20 thou", "-pitch", "1/20 in") // EC-08
	if len(answer.Moves) != 2 || answer.Moves[0].Jaw != 3 || answer.Moves[0].Loosen != 1 || answer.Moves[1].Jaw != 4 {
		t.Fatal(answer)
	}
	for what, pair := range map[string][2]float64{
		"first": {answer.Moves[0].MM, 0.015}, "second": {answer.Moves[1].MM, 0.004}, "then reads": {answer.Moves[0].Reads, 0.015},
		"eccentricity": {answer.Eccentricity, 0.0155}, "reading": {answer.Reading, 0.031}, "left": {answer.OutOfRound, 0.001},
	} {
		if math.Abs(pair[0]/25.4-pair[1]) > 0.0001 {
			t.Errorf("EC-08 %s: %v mm, want %v in", what, pair[0], pair[1])
		}
	}
	if math.Abs(answer.Moves[0].Turns-0.3) > 1e-9 || math.Abs(answer.Moves[1].Turns-0.08) > 1e-9 {
		t.Errorf("EC-08 turns: %v", answer.Moves)
	}
	asked(t, &answer, "-dial", "0 0 0 0 mm")
	if len(answer.Moves) != 0 || answer.Reading != 0 {
		t.Errorf("work that runs true is moved: %v", answer)
	}
	asked(t, &answer, "-dial", "0 0 0 0 mm", "-blank", "20 mm", "-offset", "3.5 mm", "-towards", "2")
	if len(answer.Moves) != 1 || answer.Moves[0].Jaw != 4 || math.Abs(answer.Moves[0].MM-3.5) > 1e-9 {
		t.Errorf("towards jaw 2: %v", answer)
	}
}

const engineFile = "../enginebook/engines/demo.toml"

func TestAnswers(t *testing.T) {
	for _, test := range []struct {
		name   string
		args   []string
		status int
		want   string
	}{
		{"correct it", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-jaw", "8 mm", "-packing", "4.78 mm", "-reads", "6.37 mm"}, 0, "+0.472 mm +18.6 thou thicker"}, // 1.5 x 0.315
		{"what it gives", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-jaw", "8 mm", "-packing", "4.78 mm"}, 0, "that packing gives an offset of 3.187 mm"},
		{"pushed off", []string{"-blank", "20 mm", "-offset", "7 mm", "-jaw", "1 mm"}, 1, "CAN HURT SOMEBODY - Jaws 1 mm wide"},
		{"too fast", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-n", "2000 rev/min"}, 1, "it may come off"},
		{"true already", []string{"-dial", "5 5 5 5 mm"}, 0, "No jaw has to move. it stands off centre 0.000 mm 0.0 thou a dial goes over"},
		{"slower than it flies", []string{"-blank", "20 mm", "-offset", "3.5 mm"}, 0, // sqrt(g/e), sqrt(10 g/e)
			"unbalanced, keep below 505 rev/min slower if anything trembles [2] never faster than 1598 rev/min"},
		{"too much offset", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-reads", "7.2 mm"}, 0, "still missing of it -0.100 mm -3.9 thou below zero: it is too large"},
		{"larger than drawn", []string{"-reads", "6.6 mm", engineFile}, 0, "less than drawn by -0.100 mm -3.9 thou below zero: it is too large"},
		{"too far out", []string{"-blank", "60 mm", "-offset", "5 mm", "-jaw", "12 mm", "-opens", "60 mm"}, 1, "and the chuck opens to 60 mm"},
		{"short dial", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-range", "5 mm"}, 0, "block under the plunger 2.00 to 7.00 mm"},
		{"long dial", []string{"-blank", "20 mm", "-offset", "3.5 mm", "-range", "10 mm"}, 0, "dial reaches that far yes"},
		{"of an engine", []string{"-blank", "20 mm", engineFile}, 0, "1 thou more 3.225 26.00 0.284 0.144"},
		{"as it came out", []string{"-reads", "6.3 mm", engineFile}, 0, "less than drawn by +0.050 mm"},
		{"with its packing", []string{"-blank", "20 mm", "-reads", "6.3 mm", engineFile}, 0, "as it is 3.150 26.00 0.248"},
		{"falls", []string{"-dial", "0 12 30 20 thou", "-falls"}, 0, "1. 3 1 15.0 0.381"},
		{"by the travel", []string{"-blank", "20 mm", "-travel", "7 mm"}, 0, "packing under one jaw 4.780 mm"}, // EC-06
		{"help", []string{"-h"}, 0, "-dial READINGS"},
	} {
		status, out, errs := do(test.args...)
		if status != test.status || errs != "" || !strings.Contains(out, test.want) {
			t.Errorf("%s: status %d, want %d and %q; %s%s", test.name, status, test.status, test.want, errs, out)
		}
	}
	for _, test := range []struct {
		args []string
		want string
	}{
		{nil, "wanted: -blank with -offset"},
		{[]string{"-blank", "20 mm"}, "wanted: -offset, -travel or an engine file"},
		{[]string{"-offset", "3.5 mm", engineFile}, "fix one size"},
		{[]string{"-blank", "20 mm", "-offset", "3.5"}, "-offset"},
		{[]string{"-blank", "20 mm", "-offset", "10 mm"}, "outside the blank"},
		{[]string{"-dial", "0 1 2 mm"}, "-dial"},
		{[]string{"-dial", "0 1 2 3"}, "without a unit"},
		{[]string{"-dial", "0 1 2 1 mm", "-offset", "3.5 mm", "-range", "5 mm"}, "-range goes for nothing here"},
		{[]string{"-dial", "0 1 2 1 mm", "-offset", "3 mm", "-towards", "5"}, "-towards"},
		{[]string{"-dial", "0 1 2 1 mm", "-pitch", "0 mm"}, "-pitch"},
		{[]string{"-reads", "0 mm", engineFile}, "-reads"},
		{[]string{"-dial", "0 1 2 1 mm", "-jaw", "4 mm"}, "-jaw goes for nothing here"},
		{[]string{"-blank", "20 mm", "-offset", "3.5 mm", "-falls"}, "-falls goes for nothing here"},
		{[]string{"-reads", "6.4 mm", "-n", "300 rev/min", engineFile}, "-n goes for nothing here"},
		{[]string{"-dial", "0 1 2 1 mm", "-offset", "3.5 mm", "-towards", "0"}, "-towards"},
		{[]string{"-face", "0 1 2 1 mm", "-face-d", "80 mm", "-jaws", "0"}, "-jaws: number of jaws 0"},
		{[]string{"-blank", "20 mm", "-travel", "7 mm", "-offset", "3.5 mm"}, "fix one size"},
		{[]string{"-blank", "20 mm", "-travel", "0 mm"}, "-travel: 0 mm"},
		{[]string{"a", "b"}, "2 files"},
		{[]string{"-reads", "6 mm", "no-such-engine.toml"}, "no such file"},
	} {
		status, out, errs := do(test.args...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%v: status %d, no %q in %q", test.args, status, test.want, errs)
		}
	}
}
