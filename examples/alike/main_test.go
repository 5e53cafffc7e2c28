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
		name   string
		args   []string
		status int
		want   []string
	}{
		{"TH-05 7 BA from metric taps", []string{"-own", "metric coarse", "7 BA"}, 0, []string{
			"take M2.5x0.45", "diameter 0.000 mm", "pitch -6.2 %", "clearance hole 2.90 mm", "hexagon, across flats 5.00 mm", "flats, new less old +0.625 mm",
			"thread engaged 3.13 mm", "7 BA in M2.5x0.45: the bolt starts and jams", "M3x0.5 +0.500 mm", "anything else under pressure"}},
		{"TH-05 0 BA and M6 are not to be mixed", []string{"-own", "metric coarse", "0", "BA"}, 1, []string{
			"CAN HURT SOMEBODY - a screw left over: 0 BA in M6x1: the bolt runs in but does not belong", "Do not mix them", "take M6x1"}},
		{"TH-05 6 BA from a few dies", []string{"-own", "M2.5, M3, 4-48", "6 BA"}, 1, []string{"take 4-48 UNF", "diameter +0.045 mm", "pitch -0.2 %", "M3x0.5 +0.200 mm", "M2.5x0.45 -0.300 mm"}},
		{"substitutes from every series", []string{"-show", "3", "1/4x40"}, 0, []string{"take 1/4-32 UNEF", "M6x0.75", "flats, new less old not known"}},
		{"TH-11 5/16-18 in M8", []string{"-in", "M8", "5/16-18", "UNC"}, 1, []string{
			"WILL NOT WORK", "starts and jams within 2.0 turns", "0.161 mm 6.3 thou", "1.1 to 2.0 turns", "do not use them together", "the length of 5 threads 7.056 mm 6.250 mm"}},
		{"the same pitch at another angle", []string{"-in", "0 BA", "M6"}, 1, []string{"CAN HURT SOMEBODY", "on 100 % of the depth of thread, of the same pitch and with flanks of 60 degrees in 47.5. It may strip"}},
		{"the same pitch on a smaller screw", []string{"-in", "M6x0.5", "M5.8x0.5 special"}, 1, []string{"on 63 % of the depth of thread, of the same pitch. It may strip"}},
		{"TH-11 M6 in 1/4 BSF", []string{"-in", "1/4 BSF", "M6"}, 1, []string{"CAN HURT SOMEBODY", "runs in but does not belong", "0.023 mm", "-0.350 mm", "1/4 BSF in M6x1: the bolt does not start"}},
		{"TH-11 3/4-10 in M20", []string{"-in", "M20", "3/4-10 UNC"}, 1, []string{"CAN HURT SOMEBODY", "0.040 mm", "-0.950 mm"}},
		{"one thread under two names", []string{"-in", "1/4 BSB", "1/4 BSF"}, 0, []string{"one thread under two names", "never: the pitches agree"}},
		{"the same thread", []string{"-in", "M3", "M3"}, 0, []string{"the same thread"}},
		{"does not start", []string{"-in", "M6", "1/4 BSF"}, 1, []string{"WILL NOT WORK", "it does not start"}},
		{"exactly 1 BA", []string{"-pitch", "0.9 mm", "-d", "5.3 mm"}, 0, []string{"likeliest 1 BA", "12-28 UNF 60.0 deg"}},
		{"by the pitch alone", []string{"-pitch", "26 tpi"}, 0, []string{"1/4 BSF", "give it with -d", "26.00 tpi"}},
		{"by the length of many threads, and the angle", []string{"-pitch", "10 mm in 20 turns", "-angle", "60deg", "-show", "20"}, 0, []string{"likeliest M3x0.5", "10 of 10"}},
		{"a nut", []string{"-pitch", "26 tpi", "-nut", "-d", "5.5 mm"}, 0, []string{"A nut or tapped hole", "likeliest 1/4x26 BSC", "cast of the thread"}},
		{"worn", []string{"-pitch", "1 mm", "-d", "5.6 mm", "-d-off", "0.25 mm", "-pitch-off", "0.02 mm"}, 0, []string{"M6x1", "0 BA"}},
		{"help", []string{"-h"}, 0, []string{"usage: alike [flags] THREAD", "-pitch PITCH"}},
	} {
		status, out, errs := do(tt.args...)
		if status != tt.status || errs != "" {
			t.Errorf("%s: status %d, %s\n%s", tt.name, status, errs, out)
		}
		for _, want := range tt.want {
			if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
				t.Errorf("%s: no %q in\n%s", tt.name, want, out)
			}
		}
	}
	if _, out, _ := do("-show", "2", "7 BA"); strings.Contains(out, "M2.2x0.45") || !strings.Contains(out, "3-56 UNF") || !strings.Contains(out, "M2.5x0.45") {
		t.Errorf("-show 2 shows\n%s", out)
	}
}

func TestJSON(t *testing.T) {
	var answer struct {
		Substitute struct {
			Thread   string
			Diameter float64  `json:"diameter_change_mm"`
			Pitch    float64  `json:"pitch_change"`
			Hole     float64  `json:"clearance_hole_mm"`
			Hexagon  *float64 `json:"hexagon_mm"`
			Others   []struct {
				Label     string
				OldScrew  string  `json:"old_screw_in_it"`
				Clearance float64 `json:"clearance_hole_mm"`
			}
		}
		Mating struct {
			Mix   bool
			Turn  float64                     `json:"pitch_error_mm"`
			Locks *struct{ Min, Max float64 } `json:"locks_after_turns"`
			Tell  []struct {
				Label string
				Screw *float64 `json:"screw_mm"`
			} `json:"tell_apart"`
		}
		Identified struct {
			Likeliest  string
			Candidates int
			Threads    []struct {
				Label string
				Doubt float64
				Off   *float64 `json:"diameter_off_mm"`
				Tell  []string
			}
		}
	}
	read := func(status int, args ...string) {
		t.Helper()
		got, out, errs := do(append(args, "-json")...)
		if err := json.Unmarshal([]byte(out), &answer); err != nil || got != status || errs != "" {
			t.Fatalf("%q: status %d, %s, %v", args, got, errs, err)
		}
	}
	read(0, "-own", "metric coarse", "7 BA")
	s := answer.Substitute
	if s.Thread != "M2.5x0.45" || s.Diameter != 0 || math.Abs(s.Pitch+0.0625) > 1e-6 || s.Hole != 2.9 || s.Hexagon == nil || *s.Hexagon != 5 ||
		len(s.Others) != 3 || s.Others[1].Label != "M3x0.5" || s.Others[1].OldScrew != "LOOSE" || s.Others[1].Clearance != 3.4 {
		t.Errorf("%+v", s)
	}
	read(1, "-in", "M8", "5/16-18 UNC")
	if m := answer.Mating; m.Mix || math.Abs(m.Turn-0.1611) > 5e-5 || m.Locks == nil || !(m.Locks.Max > 1.9 && m.Locks.Max < 2.1) || len(m.Tell) != 3 || m.Tell[0].Screw == nil {
		t.Errorf("%+v", m)
	}
	read(0, "-pitch", "1 mm", "-d", "5.92 mm")
	if i := answer.Identified; i.Likeliest != "M6x1" || i.Candidates < 2 || len(i.Threads) < 2 || i.Threads[0].Doubt != 0 || i.Threads[0].Off == nil ||
		math.Abs(*i.Threads[0].Off+0.08) > 1e-9 || i.Threads[1].Label != "0 BA" || len(i.Threads[1].Tell) == 0 {
		t.Errorf("%+v", i)
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "wanted: a thread, such as 7 BA, or the -pitch of a specimen"},
		{[]string{"M3y"}, `thread: thread "M3y": not a designation`},
		{[]string{"-in", "M3y", "M3"}, `-in: thread "M3y": not a designation`},
		{[]string{"-in", "M20", "M3"}, "thread, -in: bolt M3x0.5 in M20x2.5: out of range; accepted: threads of which neither is twice the other"},
		{[]string{"-own", "M3y", "6 BA"}, `-own: thread "M3y": not a designation`},
		{[]string{"-own", "1/8 NPT", "6 BA"}, "-own: thread 1/8-27 NPT: it is a taper thread; accepted: parallel threads"},
		{[]string{"-own", "NPT", "6 BA"}, "-own: no parallel threads"},
		{[]string{"-own", "M20", "6 BA"}, "thread, -own: thread 6 BA: nothing to choose from is near it; accepted: threads within 20 % of its diameter"},
		{[]string{"-own", "", "6 BA"}, "-in and -own name threads"},
		{[]string{"-own", "M3", "-in", "M3", "6 BA"}, "-own or -in"},
		{[]string{"R 1/8"}, "taper thread"},
		{[]string{"-pitch", "26 tpi", "M3"}, "-pitch is of a specimen"},
		{[]string{"-pitch", "26 tpi", "-own", "M3"}, "-pitch is of a specimen"},
		{[]string{"-d", "3 mm"}, `-d is of a specimen; accepted: with -pitch`},
		{[]string{"-pitch", "26"}, `-pitch: lead "26"`},
		{[]string{"-pitch", "26 tpi", "-d", "-1 mm"}, "-d: length -1 mm: out of range; accepted: above zero"},
		{[]string{"-pitch", "26 tpi", "-d", "0 mm"}, "-d: length 0 mm: out of range"},
		{[]string{"-pitch", "26 tpi", "-d-off", "1 mm"}, "-d-off goes with a diameter"},
		{[]string{"-pitch", "26 tpi", "-angle", "51deg"}, "within 2 deg of 60, 55, 47.5, 30 or 29 deg"},
		{[]string{"-pitch", "26 tpi", "-angle", "0deg"}, "-angle: angle 0 deg: out of range"},
		{[]string{"-pitch", "3.3 mm"}, "specimen pitch 3.3 mm: fits no thread listed here"},
		{[]string{"-pitch", "6 mm", "-d", "1 mm"}, "at most the diameter"},
		{[]string{"-show", "0", "M3"}, "-show: threads 0: out of range"},
	} {
		status, out, errs := do(tt.args...)
		if status != 2 || out != "" || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, printed %q, %q; want %q", tt.args, status, out, errs, tt.want)
		}
	}
}
