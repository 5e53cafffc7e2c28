package main

import (
	"math"
	"strings"
	"testing"
)

// EC-09, and an inside beside it that lies elsewhere; the figures of both are invented.
func TestCasting(t *testing.T) {
	rim, inside := "0.00 0.35 0.95 1.10 0.85 0.25 mm", "0.1 0.02 -0.08 -0.1 0 0.06 mm"
	for _, test := range []struct {
		args            []string
		x, y, allowance float64
		cleans          bool
		jaw             int
		move            float64
	}{
		{[]string{"-rim", rim}, -0.567, 0.058, 0.083, true, 3, 0.567},
		{[]string{"-rim", rim, "-inside", inside, "-inside-stays"}, -0.0933, 0.0346, 0.9133, true, 3, 0.0933},
		{[]string{"-rim", rim, "-stock", "0.03 mm"}, -0.55, 0.0577, 0.075, false, 3, 0.55},
		{[]string{"-rim", rim, "-stock", "0.06 mm"}, -0.55, 0.0577, 0.075, true, 3, 0.55},
		{[]string{"-inside", inside}, -0.0933, 0.0346, 0.0333, true, 3, 0.0933},
	} {
		var answer struct {
			Centre struct {
				X float64 `json:"x_mm"`
				Y float64 `json:"y_mm"`
			} `json:"centre"`
			Allowance float64 `json:"allowance_mm"`
			CleansUp  bool    `json:"cleans_up"`
			Moves     []struct {
				Jaw int
				MM  float64
			}
		}
		asked(t, &answer, test.args...)
		if math.Abs(answer.Centre.X-test.x) > 0.0005 || math.Abs(answer.Centre.Y-test.y) > 0.0005 ||
			math.Abs(answer.Allowance-test.allowance) > 0.0005 || answer.CleansUp != test.cleans ||
			len(answer.Moves) != 2 || answer.Moves[0].Jaw != test.jaw || math.Abs(answer.Moves[0].MM-test.move) > 0.0005 {
			t.Errorf("%v: %+v", test.args, answer)
		}
	}
	if _, out, _ := do("-json", "-rim", "0 0 0 0 mm"); !strings.Contains(out, `"moves": []`) {
		t.Error(out)
	}
	// a dial that reads less as its plunger is pushed in, and screws of 1.5 mm
	var falling struct {
		Centre struct {
			X float64 `json:"x_mm"`
		} `json:"centre"`
		Moves []struct{ Turns float64 }
	}
	asked(t, &falling, "-rim", rim, "-falls", "-pitch", "1.5 mm")
	if math.Abs(falling.Centre.X-0.567) > 0.0005 || math.Abs(falling.Moves[0].Turns-0.378) > 0.0005 {
		t.Errorf("%+v", falling)
	}
	if status, out, _ := do("-rim", "0 0 0 0 0.3 0 0 0 mm"); status != 0 || !strings.Contains(out, "Reading 5 of the outside is 0.30 mm (11.8 thou) more") {
		t.Errorf("%d: %s", status, out)
	}
	// least squares has less to come off and does not clean up: the other lie keeps more where it is barest
	if status, out, _ := do("-rim", "0 1 2 3 4 3 2 mm", "-stock", "0.5 mm"); status != 0 ||
		!strings.Contains(out, "1.968 mm 77.5 thou for most metal on its barest place") || !strings.Contains(out, "must come off 1.000 mm") ||
		!strings.Contains(out, "must come off there 0.914 mm 36.0 thou cleans up there no") {
		t.Errorf("%d: %s", status, out)
	}
	if status, out, _ := do("-rim", rim, "-stock", "0.03 mm"); status != 1 || !strings.Contains(out, "does not clean up round, even as it lies best") {
		t.Errorf("%d: %s", status, out)
	}
}

// A wobble, with shims under three jaws and the rim beside it.
func TestWobble(t *testing.T) {
	var answer struct {
		Shims []struct {
			Jaw  int
			Shim float64 `json:"shim_mm"`
		}
		Wobble struct {
			Off float64 `json:"eccentricity_mm"`
		}
		Centre *struct{}
	}
	// a plane of 0.3 mm at place 1, on 90 mm; under jaws on 60 mm: 0.2 (1 - cos), jaws a third of a turn apart
	face := []string{"-face", "0.3 0 -0.3 0 mm", "-face-d", "90 mm", "-seats", "60 mm", "-jaws", "3"}
	asked(t, &answer, append(face, "-rim", "0 1 2 1 mm")...)
	if answer.Centre == nil || len(answer.Shims) != 3 || math.Abs(answer.Wobble.Off-0.3) > 1e-6 ||
		math.Abs(answer.Shims[0].Shim) > 1e-6 || math.Abs(answer.Shims[1].Shim-0.3) > 1e-6 || math.Abs(answer.Shims[2].Shim-0.3) > 1e-6 {
		t.Errorf("%+v", answer)
	}
}

func TestCastingRefused(t *testing.T) {
	for _, test := range []struct{ args, want string }{
		{"-rim|0 1 2 mm", "-rim: ring 1, number of readings 3"},
		{"-rim|0 1 2 1", "numbers without a unit"},
		{"-inside|0 1 2 mm", "-inside: ring 1, inside, number of readings 3"},
		{"-stock|1 mm|-inside|0 1 2 1 mm", "-stock without -rim"},
		{"-rim|0 1 2 1 mm|-jaws|3", "without -face"},
		{"-face|0 1 2 1 mm", "wanted: -face-d"},
		{"-face|0 1 2 1 mm|-face-d|90 mm|-jaws|1", "-jaws: number of jaws 1"},
		{"-rim|0 1 2 1 mm|-inside|0 1 2 1 mm|-stock|1 mm", "that of all of them that are turned"},
		{"-rim|0 1 2 1 mm|-d|10 mm", "-d: ring 1, diameter 10 mm"},
		{"-inside|0 1 2 1 mm|-inside-stays|-inside-stock|1 mm", "nothing comes off what stays as cast"},
		{"-rim|0 1 2000 1 mm", "-rim: ring 1, reading 3"},
		{"-rim|0 1 2 1 mm|-blank|20 mm|-offset|3 mm", "-blank beside what is of a casting"},
		{"-stock|1 mm|-dial|0 1 2 1 mm", "-dial beside"}, {"-stock|1 mm", "-stock without -rim"}, {"-jaws|3", "without -face"},
		{"-rim|0 1 2 1 mm|-pitch|-1 mm", "-pitch: "}, {"-rim|0 1 2 1 mm|-pitch|0 mm", "-pitch: "}, {"-rim|0 1 2 1 mm|engine.toml", "one question"},
	} {
		status, out, errs := do(strings.Split(test.args, "|")...)
		if status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%s: %d %s, want %q", test.args, status, errs, test.want)
		}
	}
}

// A blank of 0.1 kg that is 3.5 mm off: 0.35 g m, which at 600 rev/min pulls with m e w^2 and
// is balanced by 0.1 kg x 3.5/35 at 35 mm.
func TestOutOfBalance(t *testing.T) {
	var answer struct {
		SetOver struct {
			Force  float64 `json:"force_n"`
			Weight float64 `json:"counterweight_g"`
		} `json:"set_over"`
	}
	args := []string{"-blank", "20 mm", "-offset", "3.5 mm", "-mass", "0.1 kg", "-weight-at", "35 mm"}
	asked(t, &answer, append(args, "-n", "600 rev/min")...)
	if want := 0.1 * 0.0035 * math.Pow(20*math.Pi, 2); math.Abs(answer.SetOver.Force-want) > 1e-9 || math.Abs(answer.SetOver.Weight-10) > 1e-9 {
		t.Errorf("%+v, want %v N and 10 g", answer, want)
	}
	asked(t, &answer, args...)
	if want := 10 * 0.1 * 9.80665; math.Abs(answer.SetOver.Force-want) > 1e-9 { // at the limit, ten times its weight
		t.Errorf("%+v, want %v N", answer, want)
	}
	for _, test := range []struct{ args, want string }{
		{"-mass|0.1 kg", "-mass goes for nothing"}, {"-blank|20 mm|-offset|3.5 mm|-weight-at|35 mm", "-weight-at goes for nothing"},
		{"-blank|20 mm|-offset|3.5 mm|-mass|0 kg", "-mass: mass 0"}, {"-blank|20 mm|-offset|3.5 mm|-mass|1 kg|-weight-at|0 mm", "-weight-at: radius"},
	} {
		if status, out, errs := do(strings.Split(test.args, "|")...); status != 2 || out != "" || !strings.Contains(errs, test.want) {
			t.Errorf("%s: %d %s, want %q", test.args, status, errs, test.want)
		}
	}
}
