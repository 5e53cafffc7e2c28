package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func do(args ...string) (status int, out, errs string) {
	var stdout, stderr strings.Builder
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, tt := range []struct {
		args   []string
		status int
		want   []string
	}{
		{[]string{"26 tpi"}, 0, []string{"= 0.38461538", "Exact trains, 6 of 10", "drivers over driven", "24 24 28 32 36 40", "96 100", "Stop the lathe"}},
		{[]string{"M8"}, 0, []string{"No train of these wheels is exact", "One more wheel makes an exact train: 127 teeth.", "44/80 x 68/76 1.249947 mm -4.2 um", "+12.5 um", "29.50 degrees", "ISO metric", "sharp 0.947 mm 37.3 thou", "by the tip of your tool", "radius of the form, 0.180 mm 0.767 mm"}},
		{[]string{"M8", "-show", "2", "-slide", "29 deg"}, 0, []string{"84/64 x 36/96", "29.00 degrees"}},
		{[]string{"-leadscrew", "3 mm", "-dial", "15", "1.25 mm"}, 0, []string{"every 5 threads", "3 places"}},
		{[]string{"-leadscrew", "6 tpi", "-own", "90,127", "3 mm"}, 0, []string{"90/127", "any idler", "without a dial"}},
		{[]string{"-leadscrew", "4 tpi", "-gear-drivers", "1", "-gear-driven", "2", "8 tpi"}, 0, []string{"in the lathe already 1/2", "24/24"}},
		{[]string{"-own", "20,25", "99.9 mm"}, 1, []string{"WILL NOT WORK", "comes within 2 %"}},
		{[]string{"-leadscrew", "8 tpi", "-own", "10,12,14,16", "15 in in 224 turns"}, 1, []string{"may foul a stud: 12 teeth to spare", "10/14 x 12/16 1.700893 mm 12 may foul"}},
		// TH-15: the tool decides, and none of the three goes in silence.
		{[]string{"-slide", "29.5deg", "4-40"}, 0, []string{"0.553 mm 21.8 thou", "0.474 mm 18.7 thou", "0.434 mm 17.1 thou", "give it with -tip"}},
		{[]string{"-slide", "29deg", "4-40"}, 0, []string{"0.550 mm 21.7 thou", "0.472 mm 18.6 thou", "0.432 mm 17.0 thou"}},
		{[]string{"-tip", "sharp", "4-40"}, 0, []string{"travel of the topslide 0.553 mm 21.8 thou"}},
		{[]string{"-tip", "flat 3 thou", "-slide", "29deg", "1/4x40"}, 0, []string{"travel of the topslide 0.497 mm 19.6 thou", "Whitworth",
			"COSTS POWER OR LIFE - The topslide is set over by 29 degrees, more than half the angle of the Whitworth form, 27.5: the trailing flank comes out in steps, and the groove 0.015 mm (0.6 thou) too wide at the crests.",
			"> Set it over by 27 degrees."}},
		{[]string{"-tip", "flat 0.36 mm", "M8"}, 1, []string{"WILL NOT WORK", "too shallow"}},
		{[]string{"Tr 10x2"}, 0, []string{"travel of the topslide 1.291 mm", "flat of the form, 0.598 mm"}},
		// Coming back between two passes.
		{[]string{"M8"}, 0, []string{"Withdraw the tool before you reverse the lathe", "withdraw the tool clear of the work", "A chuck that screws on can unscrew"}},
		// TH-10: what a train without a wheel of 127 costs.
		{[]string{"-leadscrew", "8 tpi", "-own", "63,80,20,50", "1 mm"}, 0, []string{"1.000125 mm", "+12.5 um", "+1.25 um"}},
		{[]string{"-leadscrew", "8 tpi", "-own", "37,47,20,50", "1 mm"}, 0, []string{"-21.3 um", "-2.13 um"}},
		{[]string{"-leadscrew", "8 tpi", "-own", "63,80,20,50", "M6"}, 0, []string{"+1.25 um", "2.17 um", "class 6g allows the pitch diameter 0.112 mm 4.4 thou", "the closest train takes of that 1.9 %"}},
		{[]string{"-leadscrew", "8 tpi", "-own", "63,80,20,50", "-engaged", "600 mm", "M6"}, 0, []string{"The error of pitch takes 0.130 mm of the pitch diameter, and class 6g allows 0.112 mm in all", "> Engage less of it"}},
		{[]string{"-leadscrew", "6 tpi", "-own", "90,127", "3 mm"}, 0, []string{"Exact trains, 1 of 1", "90/127"}},
		{[]string{"1/8 NPT"}, 0, []string{"tapers 1 in 16", "tailstock"}},
		{[]string{"-h"}, 0, []string{"usage: changewheels [flags] THREAD or LEAD", "-slide ANGLE"}},
	} {
		status, out, errs := do(tt.args...)
		if status != tt.status || errs != "" {
			t.Errorf("%q: status %d, %s", tt.args, status, errs)
		}
		for _, want := range tt.want {
			if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
				t.Errorf("%q: no %q in\n%s", tt.args, want, out)
			}
		}
	}
	// No more trains than were asked for.
	if _, out, _ := do("M8", "-show", "2"); strings.Count(out, " um  ") < 2 || strings.Contains(out, "65/55 x 30/90") {
		t.Errorf("-show 2 shows\n%s", out)
	}
}

func TestJSON(t *testing.T) {
	type train struct {
		Label           string
		Drivers, Driven []int
		Cuts            float64  `json:"cuts_mm"`
		OnDiameter      *float64 `json:"error_on_pitch_diameter_um"`
		Mounts          *bool
	}
	var answer struct {
		Trains struct {
			Count          int `json:"exact_trains"`
			Exact, Closest []train
		}
		HalfNuts struct{ Threads, Places *int } `json:"half_nuts"`
		Infeed   *struct {
			Travel *float64 `json:"travel_mm"`
			Tips   []struct {
				Label, Tip string
				Travel     float64 `json:"travel_mm"`
			}
		}
		Drive struct{ Ratio float64 }
	}
	read := func(args ...string) {
		t.Helper()
		status, out, errs := do(append(args, "-json")...)
		answer.Trains.Exact, answer.Trains.Closest, answer.Infeed = nil, nil, nil
		if err := json.Unmarshal([]byte(out), &answer); err != nil || status != 0 || errs != "" {
			t.Fatalf("%q: status %d, %s, %v", args, status, errs, err)
		}
	}
	read("M8")
	near := answer.Trains
	if near.Count != 0 || len(near.Exact) != 0 || len(near.Closest) != 6 || answer.HalfNuts.Threads != nil || answer.Infeed == nil ||
		answer.Infeed.Travel != nil || len(answer.Infeed.Tips) != 3 || math.Abs(answer.Infeed.Tips[2].Travel-0.881) > 5e-4 || math.Abs(answer.Drive.Ratio-0.49212598) > 5e-9 {
		t.Fatalf("%+v", answer)
	}
	if first := near.Closest[0]; first.Label != "44/80 x 68/76" || len(first.Drivers) != 2 || first.Driven[1] != 76 ||
		math.Abs(first.Cuts-1.249947368) > 1e-9 || first.OnDiameter == nil || math.Abs(*first.OnDiameter-0.73) > 0.005 {
		t.Errorf("%+v", first)
	}
	read("M8", "-tip", "radius 0.18 mm")
	if in := answer.Infeed; in == nil || in.Travel == nil || math.Abs(*in.Travel-0.881) > 1e-3 || len(in.Tips) != 1 || in.Tips[0].Tip != "radius 0.18 mm" {
		t.Errorf("%+v", answer)
	}
	read("-leadscrew", "3 mm", "-dial", "15", "1.25 mm")
	exact := answer.Trains
	if exact.Count != 31 || len(exact.Exact) != 6 || len(exact.Closest) != 0 || exact.Exact[0].Mounts == nil || !*exact.Exact[0].Mounts ||
		*answer.HalfNuts.Threads != 5 || *answer.HalfNuts.Places != 3 || answer.Infeed != nil {
		t.Errorf("%+v", answer)
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "wanted: a thread or a lead"},
		{[]string{"-own", "20", "M8"}, "-own: change wheels \"20\": fewer than two wheels"},
		{[]string{"-own", "", "M8"}, "fewer than two wheels"},
		{[]string{"-leadscrew", "8", "M8"}, "-leadscrew: lead \"8\""},
		{[]string{"-leadscrew", "", "M8"}, "-leadscrew: lead \"\""},
		{[]string{"M8y"}, `changewheels: thread: thread "M8y": not a designation`},
		{[]string{"0 tpi"}, "accepted"},
		{[]string{"-gear-drivers", "2", "M8"}, "or neither"},
		{[]string{"-dial", "-3", "8 tpi"}, "-dial: teeth of the indicator"},
		{[]string{"-dial", "-3", "M8"}, "-dial: teeth of the indicator"},
		{[]string{"-engaged", "-1 mm", "M8"}, "-engaged: length that the nut engages -1 mm: out of range; accepted: above zero"},
		{[]string{"-show", "0", "M8"}, "-show: trains 0: out of range; accepted: 1 train or more"},
		{[]string{"M8", "-n", "2"}, "-n: no such flag"},
		{[]string{"-slide", "60deg", "M8"}, "-slide: angle of the topslide 60 deg: out of range; accepted: 0 to 45 deg"},
		{[]string{"-slide", "29deg", "26 tpi"}, "-slide is for a thread"},
		{[]string{"-tip", "sharp", "26 tpi"}, "-tip is for a thread"},
		{[]string{"-tip", "", "M8"}, `-tip: tip of the tool "": neither sharp`},
		{[]string{"-tip", "flat 0.7 mm", "M8"}, "-tip: tip of the tool flat 0.7 mm: out of range; accepted: one that reaches below the pitch line"},
	} {
		status, out, errs := do(tt.args...)
		if status != 2 || out != "" || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, printed %q, %q; want %q", tt.args, status, out, errs, tt.want)
		}
	}
}
