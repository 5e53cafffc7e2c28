package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

// The runs and the seed are those that were asked for.
func TestFlags(t *testing.T) {
	var answer struct {
		Random struct{ Runs, Seed int }
	}
	if status, out, errs := do("-json", "-runs", "500", "-seed", "7"); status != 0 || errs != "" || json.Unmarshal([]byte(out), &answer) != nil ||
		answer.Random.Runs != 500 || answer.Random.Seed != 7 {
		t.Errorf("exit %d, %q, %+v", status, errs, answer)
	}
	_, one, _ := do("-runs", "500", "-seed", "7")
	if _, again, _ := do("-runs", "500", "-seed", "7"); again != one {
		t.Error("the same seed answers something else")
	}
	if _, other, _ := do("-runs", "500", "-seed", "8"); other == one {
		t.Error("another seed answers the same")
	}
	for want, args := range map[string][]string{
		"-runs: number of runs 0: out of range; accepted: 1 to 1,000,000":              {"-runs", "0"},
		"-runs: number of runs -3: out of range; accepted: 1 to 1,000,000":             {"-runs", "-3"},
		"-runs: number of runs 99999999: out of range; accepted: 1 to 1,000,000":       {"-runs", "99999999"},
		"-seed: seed -1: out of range; accepted: a whole number, not below zero":       {"-seed", "-1"},
		"2 files; accepted: one engine file or none":                                   {"a.toml", "b.toml"},
		"an engine file in TOML with a table [tolerances]":                             {"no-such-engine.toml"},
		`-runs: count "1e5": not a whole number; accepted: a whole number, such as 12`: {"-runs", "1e5"},
	} {
		if status, out, errs := do(args...); status != 2 || out != "" || !strings.Contains(errs, want) {
			t.Errorf("%v: exit %d, %q; want %s", args, status, errs, want)
		}
	}
}

// A file in inches is answered in thou, without rows of nothing; the JSON has the steps
// of both units.
func TestInThou(t *testing.T) {
	_, out, _ := do("-runs", "100")
	out = strings.Join(strings.Fields(out), " ")
	for _, want := range []string{
		"lead within 6 thou of the drawing", "ports.steam +/- 2 thou -0.7 thou 0.7 thou 0.40 times", "lead, head end -3.4 thou 23.8 thou",
		"At the crank end, steps of 1 thou", "valve.length -0.25 deg -0.14 % 0.00 deg 0.00 % -0.50 thou",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in %s", want, out)
		}
	}
	for _, not := range []string{"steps of 0.01 mm", "motion.eccentric_rod"} {
		if strings.Contains(out, not) {
			t.Errorf("%q in %s", not, out)
		}
	}
	var answer struct {
		Sensitivity []struct{ Dimension, Step string }
	}
	_, out, _ = do("-json", "-runs", "100")
	steps := map[string]string{}
	if err := json.Unmarshal([]byte(out), &answer); err != nil {
		t.Fatal(err)
	}
	for _, s := range answer.Sensitivity {
		steps[s.Dimension] += s.Step + ", "
	}
	if steps["exhaust lap"] != "0.01 mm, 1 thou, " || steps["eccentric.advance"] != "1 deg, " || steps["motion.eccentric_rod"] == "" {
		t.Errorf("%v", steps)
	}
}
