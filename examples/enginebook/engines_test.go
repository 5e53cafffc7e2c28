package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Every engine of engines/ makes a book that ends as it should and has the figures
// that were worked out by hand from its file, or read in print. A thou is 0.0254 mm.
func TestEngines(t *testing.T) {
	type figure struct {
		path string // in the JSON
		want any    // a number, within 5e-6, or what else stands there
		from string
	}
	deg := func(sine float64) float64 { return math.Asin(sine) * 180 / math.Pi }
	rows := map[string]struct {
		status   int
		findings []string // that are more than worth knowing, "severity code"
		figures  []figure
	}{
		"demo.toml": {0, nil, []figure{
			{"laps.steam_mm", 1.2, "(15.4 - 2 x 2 - 2 x 2.5 - 4) / 2"},
			{"eccentric.offset_mm", 3.2, "half of 6.4"},
			{"title", "ENGINE BOOK: Demonstration engine (invented)", "its file"},
		}},
		"minimal.toml": {0, nil, []figure{
			{"laps.steam_mm", 1.2, "the gear of demo.toml"},
			{"laps.exhaust_mm", 0.0, "(2 x 2.5 + 4 - 9) / 2"},
			{"eccentric.leads_crank_deg", 116.0, "90 + 26"},
		}},
		"inch.toml": {0, nil, []figure{
			{"laps.steam_mm", 25.4 / 16, "(13/16 - 2/8 - 2 x 3/32 - 1/4) / 2 = 1/16 in"},
			{"laps.exhaust_mm", 0.0, "(2 x 3/32 + 1/4 - 7/16) / 2"},
			{"eccentric.offset_mm", 25.4 * 3 / 16, "half of 3/8 in"},
			{"eccentric.advance_deg", deg(5.0 / 12), "sin d = (1/16 + 1/64) / (3/16)"},
			{"eccentric.mean_lead_mm", 25.4 / 64, "its file"},
			{"piston_room.head.clearance_mm", 25.4 * 3 / 64, "(1 11/16 + 1/32 - 1 1/4 - 3/8) / 2 = 3/64 in"},
			{"events.head.opening_mm", 25.4 / 8, "lap and port are half the travel: 1/16 + 1/8 = 3/16 in"},
		}},
		"wrong-cavity.toml": {1, []string{"fails narrow-land", "caution open-at-mid-travel"}, []figure{
			{"laps.exhaust_mm", -1.4, "(2 x 2.5 + 4 - 11.8) / 2"},
		}},
		"reversing-lever.toml": {0, nil, []figure{
			{"laps.steam_mm", 1.4, "(17.8 - 2 x 2.4 - 2 x 2.6 - 5) / 2"},
			{"eccentric.offset_mm", 3.04, "7.6 / 2 / 1.25"},
			{"eccentric.leads_crank_deg", deg(1.7/3.8) - 90, "sin d = (1.4 + 0.3) / 3.8; behind the crank, opposite to 90 + d"},
			{"eccentric.leads_crank_remark", "behind the crank", "the lever reverses"},
		}},
		"low-1890.toml": {0, nil, []figure{
			{"laps.steam_mm", 25.4 * 3 / 8, "Low, p. 73: the text has a lap of three eighths"},
			{"laps.exhaust_mm", 0.0, "Low, p. 73: no inside lap"},
			{"piston_room.head.clearance_mm", 25.4 / 4, "Low, p. 74: a quarter of an inch at each end"},
			{"piston_room.crank.clearance_mm", 25.4 / 4, "Low, p. 74: a quarter of an inch at each end"},
			{"sweep.ports_end_mm", 25.4 * 15 / 8, "Low, Fig. 58: 1 1/4 / 2 + 5/8 + 5/8"},
			{"eccentric.advance_deg", deg(7.0 / 16), "sin d = (3/8 + 1/16) / 1, of a gear of ours"},
		}},
		"as-built.toml": {0, nil, []figure{
			{"laps.head.steam_mm", 1.2, "15.4 / 2 - (4 / 2 + 2.5 + 2)"},
			{"laps.crank.steam_mm", 1.3, "15.4 / 2 - (4 / 2 + 2.6 + 1.8)"},
			{"laps.crank.exhaust_mm", 0.25, "4 / 2 + 2.6 - 8.8 / 2 + 0.05"},
		}},
		"shims.toml": {0, []string{"caution steam-part-open", "caution late-steam", "caution large-lead"}, []figure{
			{"laps.steam_mm", 25.4 * 3 / 64, "(17/32 - 2 x 1/16 - 2 x 3/32 - 1/8) / 2 = 3/64 in"},
			{"eccentric.advance_deg", deg((3.0/64 + 0.002) / (3.0 / 32)), "sin d = (3/64 + 0.002) / (3/32)"},
		}},
	}
	files, err := filepath.Glob("engines/*.toml")
	if err != nil || len(files) != len(rows) {
		t.Errorf("%d engines, %v, with %d rows", len(files), err, len(rows))
	}
	for _, file := range files {
		name := filepath.Base(file)
		row, known := rows[name]
		if !known {
			t.Errorf("%s has no row", name)
			continue
		}
		text, stderr, status := book1(t, "-json", file)
		if status != row.status || stderr != "" {
			t.Errorf("%s: exit %d, want %d: %s", name, status, row.status, stderr)
			continue
		}
		var answer any
		if err := json.Unmarshal([]byte(text), &answer); err != nil {
			t.Fatal(err)
		}
		for _, f := range row.figures {
			got := answer
			for _, key := range strings.Split(f.path, ".") {
				table, _ := got.(map[string]any)
				got = table[key]
			}
			want, number := f.want.(float64)
			value, ok := got.(float64)
			if number && !(ok && math.Abs(value-want) <= 5e-6) || !number && got != f.want {
				t.Errorf("%s: %s is %v, want %v (%s)", name, f.path, got, f.want, f.from)
			}
		}
		var worse []string
		for _, f := range decode(t, text).Findings {
			if f.Severity != "note" {
				worse = append(worse, f.Severity+" "+f.Code)
			}
		}
		if strings.Join(worse, ", ") != strings.Join(row.findings, ", ") {
			t.Errorf("%s: findings %q, want %q", name, worse, row.findings)
		}
	}
}

// An engine of engines/ says that it is invented, or what it is read from and what
// of it is ours.
func TestEnginesSayWhatTheyAre(t *testing.T) {
	files, _ := filepath.Glob("engines/*.toml")
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		head, _, _ := strings.Cut(strings.ReplaceAll(string(text), "\n# ", " "), "\n")
		if printed := strings.Contains(head, "1890") && strings.Contains(head, "p. 73") && strings.Contains(head, "are ours"); !printed &&
			!regexp.MustCompile(`(?i)\binvented\b`).MatchString(head) {
			t.Errorf("%s does not say what it is: %s", file, head)
		}
		if name := filepath.Base(file); name != "demo.toml" && !strings.Contains(head, "explained in demo.toml") {
			t.Errorf("%s does not say where its keys are explained", name)
		}
	}
}

// Every size of Low's cylinder that its file marks as printed is that of the printed
// drawing, as it is read in the figure and in the text beside it.
func TestLowAsPrinted(t *testing.T) {
	text, err := os.ReadFile("engines/low-1890.toml")
	if err != nil {
		t.Fatal(err)
	}
	want := "bore 6, stroke 12, length 14 1/2, piston 2, steam 5/8, bar 5/8, exhaust 1 1/4, length 4, length 4 1/2, cavity 2 1/2, " +
		"width 5 1/2, cavity_width 4, length 9"
	var got []string
	for _, m := range regexp.MustCompile(`(?m)^(\w+) = "([^"]+)" *# printed,`).FindAllStringSubmatch(string(text), -1) {
		got = append(got, m[1]+" "+m[2])
	}
	if strings.Join(got, ", ") != want {
		t.Errorf("printed: %s\nwant %s", strings.Join(got, ", "), want)
	}
	rest := regexp.MustCompile(`(?m)^\w+ = .*$`).FindAllString(string(text), -1)
	if len(rest) <= len(got) {
		t.Error("nothing of it is ours")
	}
}

// No key of the smallest engine can be left out, and each that is missing is named.
func TestMinimalIsMinimal(t *testing.T) {
	text, err := os.ReadFile("engines/minimal.toml")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	keys := 0
	for i, line := range lines {
		key, _, isKey := strings.Cut(line, " = ")
		if !isKey {
			continue
		}
		keys++
		path := filepath.Join(t.TempDir(), "engine.toml")
		without := strings.Join(append(append([]string{}, lines[:i]...), lines[i+1:]...), "\n")
		if err := os.WriteFile(path, []byte(without), 0o666); err != nil {
			t.Fatal(err)
		}
		stdout, stderr, status := book1(t, path)
		if status != 2 || stdout != "" || !strings.Contains(stderr, "."+key+": missing; accepted: ") {
			t.Errorf("without %s: exit %d, %s", strconv.Quote(line), status, stderr)
		}
	}
	if keys != 12 {
		t.Errorf("%d keys", keys)
	}
}
