package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func do(args ...string) (status int, out, errs string) {
	var stdout, stderr bytes.Buffer
	status = program().Do(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestAnswers(t *testing.T) {
	for _, tt := range []struct {
		name   string
		args   []string
		status int
		wants  []string
	}{
		{"six, as US Army OD1644 works it", []string{"6"}, 0, []string{"40 / 6 = 6.66667", "6 turns and 26 spaces on the 39 circle (sector over 27 holes)", "OD1644"}},
		{"eight", []string{"8"}, 0, []string{"  set   5 turns   [1]\n"}},
		{"seven on three plates", []string{"-own", "three", "7"}, 0, []string{"5 turns and 35 spaces on the 49 circle", "5 turns and 15 spaces on the 21 circle", "hobby society", "unreviewed: ", "count the holes of yours"}},
		{"own plates", []string{"9", "-own", "15 16 17 18 19 20", "-ratio", "60"}, 0, []string{"6 turns and 12 spaces on the 18 circle", "your plates   15 16 17 18 19 20\n"}},
		{"127 cannot be had", []string{"127"}, 1, []string{"WILL NOT WORK", "127 divisions cannot be had", "127 of them miss the start by -10.0", "> Take 125 or 130, which can be had", "nearest", "-0.08 arc minutes"}},
		{"no plates have 1009", []string{"-own", "15", "1009"}, 1, []string{"nearest", "1009 divisions cannot be had"}},
		{"an angle", []string{"-angle", "22.5deg"}, 0, []string{"22.5 x 40 / 360 = 2.5", "2 turns and 12 spaces on the 24 circle"}},
		{"an angle that no circle has", []string{"-angle", "24arcmin", "-own", "20 23"}, 0, []string{"1 space on the 23 circle", "out by   -0.52 arc minutes", "no circle has it exactly"}},
		{"a rotary table", []string{"-table", "-ratio", "90", "-d", "40 mm", "7"}, 0, []string{"51°25'43\"", "12        3.4286 deg", "4 degrees", "backlash", "17.355 mm   683.3 thou", "chord = d sin(180 / n) = 40 mm x sin(180 / 7) = 17.355 mm"}},
		{"help", []string{"-h"}, 0, []string{"usage: dividing [flags] NUMBER", "-own CIRCLES"}},
	} {
		status, out, errs := do(tt.args...)
		if status != tt.status || errs != "" {
			t.Errorf("%s: status %d, %s", tt.name, status, errs)
		}
		for _, want := range tt.wants {
			if !strings.Contains(strings.ReplaceAll(out, "\n    ", ""), want) && !strings.Contains(out, want) {
				t.Errorf("%s: nothing of %q in\n%s", tt.name, want, out)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	type move struct {
		Turns, Spaces int
		Circle        *int
		Out           *float64 `json:"out_arcmin"`
	}
	for _, tt := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"6"}, 0, `{"Turns":6,"Spaces":44,"Circle":66,"out_arcmin":null}`},
		{[]string{"8"}, 0, `{"Turns":5,"Spaces":0,"Circle":null,"out_arcmin":null}`},
		{[]string{"-angle", "22.5deg"}, 0, `{"Turns":2,"Spaces":12,"Circle":24,"out_arcmin":0}`},
		{[]string{"127"}, 1, `{"Turns":0,"Spaces":17,"Circle":54,"out_arcmin":-0.078740157}`},
	} {
		status, out, errs := do(append([]string{"-json"}, tt.args...)...)
		var answer struct {
			Moves   []move
			Nearest *move
		}
		if err := json.Unmarshal([]byte(out), &answer); err != nil || status != tt.status || errs != "" {
			t.Errorf("%q: status %d, %s, %v", tt.args, status, errs, err)
			continue
		}
		if answer.Nearest != nil {
			answer.Moves = append(answer.Moves, *answer.Nearest)
		}
		if len(answer.Moves) == 0 {
			t.Errorf("%q: no moves in\n%s", tt.args, out)
			continue
		}
		if out := answer.Moves[0].Out; out != nil {
			*out = math.Round(*out*1e9) / 1e9 // as processors differ in the last digits
		}
		if got, err := json.Marshal(answer.Moves[0]); err != nil || string(got) != tt.want {
			t.Errorf("%q: %s, want %s", tt.args, got, tt.want)
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{nil, "one number of divisions"},
		{[]string{"six"}, `number: count "six": not a whole number`},
		{[]string{"0"}, "number: divisions 0: out of range; accepted: 1 to 10,000"},
		{[]string{"6", "7"}, "one number of divisions"},
		{[]string{"-angle", "20deg", "6"}, "one number of divisions"},
		{[]string{"-angle", "20", "6"}, "-angle: angle \"20\": a number without a unit"},
		{[]string{"-angle", "0deg"}, "-angle: angle 0 deg: out of range; accepted: above 0"},
		{[]string{"-angle", "-20deg"}, "above 0"},
		{[]string{"-ratio", "0", "6"}, "-ratio: ratio 0: out of range; accepted: 1 to 360"},
		{[]string{"-own", "many", "6"}, "-own: circles \"many\""},
		{[]string{"-own", strings.Repeat("20 ", 201), "6"}, "-own: circles 201 of them: out of range; accepted: up to 200"},
		{[]string{"-d", "0.0 mm", "6"}, "-d: diameter 0 mm"},
		{[]string{"-d", "-4 mm", "6"}, "above zero"},
		{[]string{"-d", "4 mm", "1"}, "-d: number of points 1"},
		{[]string{"-d", "4 mm", "-d", "5 mm", "6"}, "-d: given twice"},
		{[]string{"-table", "0"}, "1 to 10,000"},
		{[]string{"-table", "-angle", "20deg"}, "-angle without -table"},
		{[]string{"-table", "-own", "three", "7"}, "without plates"},
		{[]string{"-d", "40 mm", "-angle", "20deg"}, "-d goes with a number"},
	} {
		status, out, errs := do(tt.args...)
		if status != 2 || out != "" || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: status %d, %q, %s", tt.args, status, out, errs)
		}
	}
}

// TH-16: a hexagon of 18 mm across the flats on bar of 22.23 mm.
func TestFlats(t *testing.T) {
	for _, tt := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"-d", "22.23 mm", "-flats", "18 mm", "6"}, 0, "depth of each flat 2.115 mm 83.3 thou smallest bar with sharp corners 20.785 mm"},
		{[]string{"-d", "20 mm", "-flats", "18 mm", "6"}, 0, "The corners stay round"},
		{[]string{"-d", "17 mm", "-flats", "18 mm", "6"}, 2, "-flats: across the flats 18 mm: not below the bar"},
		{[]string{"-d", "20 mm", "-flats", "18 mm", "7"}, 2, "an even number from 4 to 100"},
		{[]string{"-flats", "18 mm", "6"}, 2, "-flats with -d"},
	} {
		status, out, errs := do(tt.args...)
		if text := strings.Join(strings.Fields(out+errs), " "); status != tt.status || !strings.Contains(text, tt.want) {
			t.Errorf("%q: status %d, no %q in %s", tt.args, status, tt.want, text)
		}
	}
}
