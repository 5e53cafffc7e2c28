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
