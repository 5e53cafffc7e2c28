package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

func salvage(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = program().Do(args, &out, &errs)
	return out.String(), errs.String(), code
}

// engineWith writes the file of the demonstration engine, whose valve is 15.4 mm long,
// with texts in place of others.
func engineWith(t *testing.T, oldNew ...string) string {
	t.Helper()
	text := strings.Replace(string(demo), "17.4 mm", "15.4 mm", 1)
	for i := 0; i < len(oldNew); i += 2 {
		if !strings.Contains(text, oldNew[i]) {
			t.Fatalf("no %q in the demonstration", oldNew[i])
		}
		text = strings.Replace(text, oldNew[i], oldNew[i+1], 1)
	}
	path := filepath.Join(t.TempDir(), "engine.toml")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

type event struct{ Stroke float64 }

type end struct {
	CutOff  event   `json:"cut_off"`
	Lead    float64 `json:"lead_mm"`
	Opening float64 `json:"opening_mm"`
}

type step struct {
	Part, Change, Text string
	MM                 float64 `json:"amount_mm"`
	Deg                float64 `json:"amount_deg"`
}

type cure struct {
	step
	Gear     map[string]float64
	Events   struct{ Head, Crank end }
	Severity string `json:"severity_left"`
	Left     []string
	Right    bool
	Title    string
	Steps    []step
}

type answer struct {
	Cures    []cure
	Salvage  struct{ Made []string }
	Findings []struct{ Code, Severity string }
}

func read(t *testing.T, wantCode int, args ...string) answer {
	t.Helper()
	stdout, stderr, code := salvage(t, append([]string{"-json"}, args...)...)
	if code != wantCode || stderr != "" {
		t.Fatalf("exit %d, want %d: %s", code, wantCode, stderr)
	}
	var a answer
	if err := json.Unmarshal([]byte(stdout), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// A wanted is what a cure must be.
type wanted struct {
	change   string
	amount   float64 // mm, or degrees of a turn
	gear     string  // what is altered
	size     float64
	cutOffs  [2]float64 // per cent, zero: whatever they are
	severity string
}

// The cases of the bench and others: for each what the cures are, in their order. The
// sizes follow from the demonstration engine, whose valve of 15.4 and cavity of 9 mm at
// 26 degrees are right for its ports; the cut-offs of EC-21 were worked out beforehand.
func TestCases(t *testing.T) {
	const (
		valve   = `length = "15.4 mm"`
		cavity  = `cavity = "9 mm"`
		ports   = "steam = \"2 mm\"\nbar = \"2.5 mm\"\nexhaust = \"4 mm\""
		advance = `advance = "26 deg"`
		travel  = `travel = "6.4 mm"`
	)
	for _, test := range []struct {
		name   string
		change []string
		code   int
		want   []wanted
	}{
		{"EC-21 long", []string{valve, `length = "17.4 mm"`}, 0, []wanted{
			{"metal off the ends", 1, "valve_mm", 15.4, [2]float64{87.0, 79.6}, "note"},
			{"turned on the shaft", 17.4, "advance_deg", 43.4, [2]float64{58.7, 46.8}, "note"},
		}},
		{"EC-21 short", []string{valve, `length = "13.4 mm"`}, 0, []wanted{
			{"strips let into the ends", 1, "valve_mm", 15.4, [2]float64{87.0, 79.6}, "note"},
			{"new valve", 2, "valve_mm", 15.4, [2]float64{87.0, 79.6}, "note"},
			{"turned on the shaft", -22.4, "advance_deg", 3.6, [2]float64{99.8, 99.3}, "note"},
		}},
		{"EC-22 counted from the crank", []string{advance, `advance = "116 deg"`}, 1, []wanted{
			{"stated otherwise", -90, "advance_deg", 26, [2]float64{87.0, 79.6}, "note"},
			{"turned on the shaft", -94, "advance_deg", 22, [2]float64{}, "note"},
		}},
		{"EC-22 the offset as the travel", []string{travel, `travel = "3.2 mm"`}, 0, []wanted{
			{"stated otherwise", 3.2, "travel_mm", 6.4, [2]float64{87.0, 79.6}, "note"},
			{"metal off the ends", 0.7, "valve_mm", 14, [2]float64{}, "note"},
		}},
		// EC-10: a cavity that is line on line on ports of 3, bars of 3 and a middle port of 6 is 12 long
		{"EC-10 clearance scaled down and overdone", []string{ports, "steam = \"3 mm\"\nbar = \"3 mm\"\nexhaust = \"6 mm\"",
			valve, `length = "20 mm"`, cavity, `cavity = "12.6 mm"`, advance, `advance = "21 deg"`}, 0, []wanted{
			{"strips let into the cavity", 0.3, "cavity_mm", 12, [2]float64{}, "note"},
			{"new valve", -0.6, "cavity_mm", 12, [2]float64{}, "note"},
		}},
		{"cavity too long", []string{cavity, `cavity = "11.8 mm"`}, 1, []wanted{
			{"strips let into the cavity", 1.4, "cavity_mm", 9, [2]float64{87.0, 79.6}, "note"},
			{"new valve", -2.8, "cavity_mm", 9, [2]float64{87.0, 79.6}, "note"},
		}},
		{"cavity too short", []string{cavity, `cavity = "4.2 mm"`}, 0, []wanted{
			{"metal out of the cavity", 2.4, "cavity_mm", 9, [2]float64{87.0, 79.6}, "note"},
		}},
		{"valve off centre", []string{cavity, cavity + "\noffset = \"0.5 mm\""}, 0, []wanted{
			{"moved on its rod", -0.57, "valve_offset_mm", -0.07, [2]float64{}, "note"},
			{"packing", 0.57, "valve_offset_mm", -0.07, [2]float64{}, "note"},
			{"eccentric rod longer or shorter", 0.57, "valve_offset_mm", -0.07, [2]float64{}, "note"},
		}},
		{"sheave slipped", []string{advance, `advance = "16 deg"`}, 0, []wanted{
			{"turned on the shaft", 6, "advance_deg", 22, [2]float64{}, "note"},
		}},
		{"half a turn out", []string{advance, `advance = "-154 deg"`}, 1, []wanted{
			{"turned on the shaft", 180, "advance_deg", 26, [2]float64{87.0, 79.6}, "note"},
		}},
		// The inner edge of one land is 0.6 mm too far out.
		{"cavity off the middle", []string{cavity, cavity + "\ncavity_offset = \"0.6 mm\""}, 0, []wanted{
			{"strips let into the cavity", 0.6, "cavity_mm", 8.4, [2]float64{87.0, 79.6}, "note"},
			{"new valve", -0.6, "cavity_mm", 9, [2]float64{87.0, 79.6}, "note"},
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := read(t, test.code, engineWith(t, test.change...))
			for i, w := range test.want {
				if i >= len(a.Cures) {
					t.Errorf("no cure %q", w.change)
					continue
				}
				holds(t, a.Cures[i], w)
			}
			for _, c := range a.Cures[min(len(a.Cures), len(test.want)):] {
				t.Errorf("one more: %s", c.Title)
			}
		})
	}
}

func holds(t *testing.T, c cure, w wanted) {
	t.Helper()
	amount := c.MM
	if c.Deg != 0 {
		amount = c.Deg
	}
	if c.Change != w.change || math.Abs(amount-w.amount) > 0.005 || math.Abs(c.Gear[w.gear]-w.size) > 0.005 || c.Severity != w.severity {
		t.Errorf("%s: %s by %v, %s %v, leaves %s; want %+v", c.Title, c.Change, amount, w.gear, c.Gear[w.gear], c.Severity, w)
	}
	cutOffs := [2]float64{100 * c.Events.Head.CutOff.Stroke, 100 * c.Events.Crank.CutOff.Stroke}
	for i, want := range w.cutOffs {
		if want != 0 && math.Abs(cutOffs[i]-want) > 0.05 {
			t.Errorf("%s: cut-offs %v, want %v", c.Title, cutOffs, w.cutOffs)
		}
	}
	if c.Steps[0].Part != c.Part || c.Steps[0].MM != c.MM || !strings.Contains(c.Title, c.Steps[0].Text) {
		t.Errorf("%s: steps %+v", c.Title, c.Steps)
	}
}

// Ports that are cut 1/16 in too far on their outer edges, their inner edges or both,
// wider or out of place, at both ends or at one: a new valve, or strips in this one, and
// never a new sheave.
func TestPortsCutTooFar(t *testing.T) {
	const ports = "steam = \"2 mm\"\nbar = \"2.5 mm\""
	for _, test := range []struct {
		name, ports string
		code        int
		valve       float64 // over the outer edges, at the least and at the most
		most        float64
		cavity      float64
		opens       float64 // of the steam ports, at the least
	}{
		{"outer edges", "steam = \"3.5875 mm\"\nbar = \"2.5 mm\"", 1, 18.2, 18.6, 9, 1.99},
		{"inner edges", "steam = \"3.5875 mm\"\nbar = \"0.9125 mm\"", 1, 15.4, 15.4, 5.825, 1.99},
		{"both edges", "steam = \"5.175 mm\"\nbar = \"0.9125 mm\"", 1, 17, 18.6, 5.825, 1.9},
		{"both edges, as wide as drawn", "steam = \"2 mm\"\nbar = \"4.0875 mm\"", 0, 18.5, 18.6, 9, 1.99},
		{"outer edge of the crank end", "steam = \"2 mm\"\nbar = \"2.5 mm\"\ncrank_steam = \"3.5875 mm\"", 1, 16.8, 17, 9, 1.99},
		{"crank end out of place", "steam = \"2 mm\"\nbar = \"2.5 mm\"\ncrank_bar = \"4.0875 mm\"", 0, 16.9, 17.1, 9, 1.99},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := read(t, test.code, engineWith(t, ports, test.ports))
			found := false
			for _, c := range a.Cures {
				for _, s := range c.Steps {
					if s.Change == "new sheave" {
						t.Errorf("%s", c.Title)
					}
				}
				if found || c.Change != "new valve" {
					continue
				}
				found = true
				if v := c.Gear["valve_mm"]; v < test.valve || v > test.most || math.Abs(c.Gear["cavity_mm"]-test.cavity) > 0.011 {
					t.Errorf("%s", c.Title)
				}
				if min(c.Events.Head.Opening, c.Events.Crank.Opening) < test.opens || c.Severity == "fails" || c.Severity == "danger" {
					t.Errorf("%s: %+v, leaves %s", c.Title, c.Events, c.Severity)
				}
			}
			if !found || len(a.Cures) > 0 && a.Cures[0].Part != "valve" {
				t.Errorf("no new valve, or not the valve first: %+v", a.Cures)
			}
		})
	}
}

// The same in an engine with other proportions, 1 1/4 in stroke and ports of 1/8 in. With
// both inner edges too far in it takes a shorter cavity, which closes in on the exhaust
// port, and that is widened: the sheave stays. With the ports too near to each other the
// valve is made shorter and its cavity too, at both ends alike; a valve 2 mm too long may
// be lived with or made shorter.
func TestInchEngine(t *testing.T) {
	inch := []string{`stroke = "25 mm"`, `stroke = "1 1/4 in"`, "63 mm", "3.25 in", "60 mm", "3 in", `exhaust = "4 mm"`, `exhaust = "1/4 in"`,
		`length = "10 mm"`, `length = "1/2 in"`, `cavity = "9 mm"`, `cavity = "9/16 in"`, "6.4 mm", "3/8 in", "26 deg", "25 deg"}
	for _, test := range []struct {
		name, ports, valve string
		changes            [][]string // of each cure
	}{
		{"inner edges", "steam = \"3/16 in\"\nbar = \"3/32 in\"", "15/16 in", [][]string{
			{"wider ports", "strips let into the cavity"}, {"wider ports", "new valve"}}},
		{"both edges inwards", "steam = \"1/8 in\"\nbar = \"3/32 in\"", "15/16 in", [][]string{
			{"strips let into the cavity", "metal off the ends"}, {"new valve"}}},
		{"valve too long", "steam = \"1/8 in\"\nbar = \"5/32 in\"", "25.8125 mm", [][]string{
			{"turned on the shaft"}, {"metal off the ends"}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			change := slices.Concat([]string{"steam = \"2 mm\"\nbar = \"2.5 mm\"", test.ports, "15.4 mm", test.valve}, inch)
			var got [][]string
			for _, c := range read(t, 0, engineWith(t, change...)).Cures {
				var changes []string
				for _, s := range c.Steps {
					changes = append(changes, s.Change)
				}
				got = append(got, changes)
			}
			if !reflect.DeepEqual(got, test.changes) {
				t.Errorf("%q, want %q", got, test.changes)
			}
		})
	}
}

// A cure names the whole gear that it makes, also what is nothing after it.
func TestGearOfACure(t *testing.T) {
	path := engineWith(t, `cavity = "9 mm"`, "cavity = \"9 mm\"\noffset = \"0.8 mm\"\nlost_motion = \"0.3 mm\"\ncavity_offset = \"0.1 mm\"")
	for _, c := range read(t, 0, path).Cures {
		want := map[string]float64{"crank_steam_mm": 2, "crank_bar_mm": 2.5, "cavity_offset_mm": 0.1, "lost_motion_mm": 0.3, "eccentric_rod_mm": 60}
		for _, s := range c.Steps {
			switch s.Change {
			case "eccentric rod longer or shorter":
				want["eccentric_rod_mm"] += s.MM
			case "lost motion taken up":
				want["lost_motion_mm"] = 0
			}
		}
		for key, mm := range want {
			if got, ok := c.Gear[key]; !ok || math.Abs(got-mm) > 1e-9 {
				t.Errorf("%s: %s %v, want %v", c.Title, key, got, mm)
			}
		}
	}
}

// What is not made may still be any size, at no cost; what the file does not say is
// made.
func TestMade(t *testing.T) {
	const made = `made = ["ports", "valve", "eccentric", "rods"]`
	for _, test := range []struct{ made, says, first, part string }{
		{"", "so all of them count as made", "metal off the ends", "valve"},
		{"made = []", "No part is made yet", "drawn otherwise", "valve"},
		{`made = ["ports", "Eccentric", "rods"]`, "Made already: ports, eccentric, rods;", "drawn otherwise", "valve"},
		{`made = ["valve"]`, "Made already: valve;", "drawn otherwise", "ports"},
	} {
		name := engineWith(t, made, test.made, "15.4 mm", "17.4 mm")
		text, _, _ := salvage(t, name)
		if !strings.Contains(strings.Join(strings.Fields(text), " "), test.says) {
			t.Errorf("%s: no %q in\n%s", test.made, test.says, text)
		}
		if c := read(t, 0, name).Cures[0]; c.Change != test.first || c.Part != test.part {
			t.Errorf("%s: %s", test.made, c.Title)
		}
	}
	_, stderr, code := salvage(t, engineWith(t, made, `made = ["chest"]`))
	if code != 2 || !strings.Contains(stderr, "accepted: ports, valve, eccentric, rods") {
		t.Errorf("exit %d: %s", code, stderr)
	}
}

// Packing of 0.57 mm is left out where it makes the piston strike, which has 0.5 mm
// at each end, and named where the room is larger.
func TestPackingNeedsRoom(t *testing.T) {
	for length, want := range map[string]bool{"34 mm": false, "37 mm": true} {
		name := engineWith(t, `stroke = "25 mm"`, "stroke = \"25 mm\"\nlength = \""+length+"\"\npiston = \"8 mm\"",
			`cavity = "9 mm"`, "cavity = \"9 mm\"\noffset = \"0.5 mm\"")
		packs := false
		for _, c := range read(t, 0, name).Cures {
			packs = packs || c.Change == "packing"
		}
		text, _, _ := salvage(t, name)
		if packs != want || strings.Contains(text, "too near to a cover") == want {
			t.Errorf("%s between the covers: packing %v\n%s", length, packs, text)
		}
	}
}

// The book of an engine has the same cures where something is wrong, and none where
// nothing is.
func TestBookHasTheCures(t *testing.T) {
	for _, test := range []struct {
		length string
		cures  int
	}{{"17.4 mm", 2}, {"15.4 mm", 0}} {
		name := engineWith(t, "15.4 mm", test.length)
		b, err := pages.ReadEngine(name)
		if err != nil {
			t.Fatal(err)
		}
		var text bytes.Buffer
		b.Program = "enginebook"
		if err := b.WriteJSON(&text); err != nil {
			t.Fatal(err)
		}
		var a answer
		if err := json.Unmarshal(text.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		if len(a.Cures) != test.cures {
			t.Errorf("%s: %d cures", test.length, len(a.Cures))
		}
		if of := read(t, 0, name); test.cures > 0 && !reflect.DeepEqual(of.Cures, a.Cures) {
			t.Errorf("%+v\n%+v", of.Cures, a.Cures)
		}
	}
}

// A sound gear wants no cure, and one that is never told to turn the sheave to 154
// degrees is the one whose angle was counted from the crank.
func TestText(t *testing.T) {
	text, _, code := salvage(t, engineWith(t))
	if code != 0 || !strings.Contains(text, "Nothing is wrong with the gear that wants a cure.") {
		t.Errorf("exit %d\n%s", code, text)
	}
	text, _, _ = salvage(t, engineWith(t, `advance = "26 deg"`, `advance = "116 deg"`))
	if strings.Contains(text, "154") {
		t.Errorf("EC-22:\n%s", text)
	}
	text, stderr, code := salvage(t)
	if code != 0 || stderr != "" || !strings.Contains(text, "1. Take 1 mm (39.4 thou) off each end of the valve") {
		t.Errorf("exit %d: %s\n%s", code, stderr, text)
	}
	if _, stderr, code := salvage(t, "a.toml", "b.toml"); code != 2 || !strings.Contains(stderr, "accepted: one engine file") {
		t.Errorf("exit %d: %s", code, stderr)
	}
}
