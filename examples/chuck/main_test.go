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
