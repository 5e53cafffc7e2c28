package engine_test

import (
	"bytes"
	"fmt"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// A small schema with every kind of place.
type shed struct {
	Name  string      `toml:"name"`
	Units engine.Unit `toml:"units"`
	Bench struct {
		Width *units.Length `toml:"width"`
		Slope *units.Angle  `toml:"slope"`
		Legs  int           `toml:"legs"`
		Share *float64      `toml:"share"`
	} `toml:"bench"`
	Shelves []struct {
		Height *units.Length `toml:"height"`
		Label  string        `toml:"label"`
	} `toml:"shelves"`
	left int // no key of the file
}

const good = `name = "shed"
bench.legs = 4
bench.width = '3 1/4"'
[[shelves]]
height = "300 mm"
label = "taps"
[[shelves]]
label = 'dies'
`

func TestDecode(t *testing.T) {
	var s shed
	d, err := engine.Decode("shed.toml", []byte("\uFEFF"+good), &s)
	if err != nil {
		t.Fatal(err)
	}
	if s.Name != "shed" || s.Bench.Legs != 4 || *s.Bench.Width != units.Inch(3.25) || s.Bench.Slope != nil ||
		len(s.Shelves) != 2 || *s.Shelves[0].Height != units.MM(300) || s.Shelves[1].Height != nil || s.Shelves[1].Label != "dies" || s.left != 0 {
		t.Errorf("%+v", s)
	}
	for key, want := range map[string]bool{"name": true, "bench.width": true, "bench.slope": false, "shelves[0].height": true, "shelves[1].height": false, "shelves[2]": false} {
		if d.Has(key) != want {
			t.Errorf("%s: %v", key, !want)
		}
	}
	for key, want := range map[string]string{
		"bench.width":       "shed.toml:3:15: bench.width: small",
		"shelves[1].height": "shed.toml:7:3: shelves[2].height: small", // missing: its table
		"colour":            "shed.toml:1:1: colour: small",
	} {
		if err := d.Errorf(key, "%s", "small"); err.Error() != want {
			t.Errorf("%v; want %s", err, want)
		}
	}
	keys := engine.Keys(shed{})
	if want := []string{"name", "units", "bench.width", "bench.slope", "bench.legs", "bench.share", "shelves.height", "shelves.label"}; !slices.Equal(keys, want) {
		t.Error(keys)
	}
	// Tables in braces say the same.
	var braces shed
	if _, err := engine.Decode("braces.toml", []byte(`name = "shed"
bench = {legs = 4, width = "3.25 in"}
shelves = [{height = "300 mm", label = "taps"}, {label = "dies"}]
`), &braces); err != nil || *braces.Bench.Width != *s.Bench.Width || len(braces.Shelves) != 2 || braces.Shelves[1] != s.Shelves[1] {
		t.Errorf("%+v, %v", braces, err)
	}
}

// A file that names its unit once may leave it out.
func TestUnits(t *testing.T) {
	for text, want := range map[string]units.Length{
		"units = \"inch\"\nbench.width = 3":              units.Inch(3),
		"units = \"inch\"\nbench.width = 0.250":          units.Inch(0.25),
		"units = \"inch\"\nbench.width = \"1 3/8\"":      units.Inch(1.375),
		"units = \"inch\"\nbench.width = \"35 mm\"":      units.MM(35),
		"units = \"mm\"\nbench = {width = 35, legs = 4}": units.MM(35),
		"units = \"MM\"\nbench.width = \"3/4 in\"":       units.Inch(0.75),
	} {
		var s shed
		if _, err := engine.Decode("shed.toml", []byte(text), &s); err != nil || *s.Bench.Width != want {
			t.Errorf("%q: %v, %v", text, s.Bench.Width, err)
		}
	}
	for text, want := range map[string]string{
		"bench.width = 3":                            "shed.toml:1:15: bench.width: a bare 3; accepted: text in quotes, a length with its unit",
		"units = \"mm\"\nbench.slope = 3":            "shed.toml:2:15: bench.slope: a bare 3; accepted: text in quotes, a quantity",
		"units = \"cm\"":                             `shed.toml:1:9: units: units "cm": unknown; accepted: mm, inch`,
		"units = \"mm\"\nbench.width = \"3/8\"":      "a fraction goes with inches only",
		"units = \"mm\"\nbench.width = 1e3":          "an exponent",
		"units = \"mm\"\nbench.width = true":         "a bare true",
		"bench.width = \"3\"\nunits = \"mm\"":        "a number without a unit",
		"units = \"inch\"\nunits = \"mm\"":           "shed.toml:2:1: units: given twice",
		"units = \"inch\"\nbench.width = 1979-05-27": "a bare 1979-05-27",
		"units = \"inch\"\nbench.width = nan":        "no number before the unit",
	} {
		var s shed
		if _, err := engine.Decode("shed.toml", []byte(text), &s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %s", text, err, want)
		}
	}
}

// Numbers are read as TOML has them, and nothing is cut or rounded to fit.
func TestNumbers(t *testing.T) {
	for text, want := range map[string]int{"12": 12, "1_2": 12, "+3": 3, "0x10": 16, "-4": -4} {
		var s shed
		if _, err := engine.Decode("", []byte("bench.legs = "+text), &s); err != nil || s.Bench.Legs != want {
			t.Errorf("%s: %d, %v", text, s.Bench.Legs, err)
		}
	}
	for text, want := range map[string]float64{"12": 12, "1_2.5": 12.5, "1e3": 1000, "0x10": 16, "-4": -4} {
		var s shed
		if _, err := engine.Decode("", []byte("bench.share = "+text), &s); err != nil || *s.Bench.Share != want {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{"legs = 1.5", "legs = 99999999999999999999", "legs = true", `legs = "4"`, "legs = 1979-05-27", "share = [1]", "share = {a = 1}", "share = 1e999"} {
		var s shed
		if _, err := engine.Decode("", []byte("bench."+text), &s); err == nil || !strings.Contains(err.Error(), "not of the right kind; accepted: a ") {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// One run finds every mistake, in order of the file, each in its place.
func TestAllMistakes(t *testing.T) {
	const text = `nam = "shed"
[bench]
width = 30 mm
width = “30 mm”
slope = "3 mm"
legs = "four"
[[bench]]
legs = 3
[sheves]
height = "3 mm"
[[shelves]
label = "lost"
[[shelves]]
  Label = "drills"
label = "dr` + "\\u0007" + `ills"
label = "taps"
height = 3
`
	want := []string{
		"shed.toml:1:1: nam: unknown key; accepted: [[shelves]], [bench], name, units",
		"shed.toml:3:12: text without quotes, or something after a value; accepted: text in quotes, a quantity",
		"shed.toml:4:9: typographic quotes; accepted: straight ones",
		`shed.toml:5:9: bench.slope: angle "3 mm": unknown unit "mm"`,
		"shed.toml:6:8: bench.legs: not of the right kind; accepted: a whole number without quotes",
		"shed.toml:7:3: bench: not of the right kind; accepted: one table, under [bench]",
		"shed.toml:9:2: sheves: unknown key; accepted: [[shelves]], [bench], name, units",
		"shed.toml:11:",
		"shed.toml:14:3: Label: unknown key; accepted: label",
		"shed.toml:15:9: shelves[1].label: \\u0007 in it, a line break or another character that does not print",
		"shed.toml:16:1: shelves[1].label: given twice; accepted: once",
		"shed.toml:17:10: shelves[1].height: a bare 3; accepted: text in quotes, a length",
	}
	var s shed
	_, err := engine.Decode("shed.toml", []byte(text), &s)
	if err == nil {
		t.Fatal("nothing wrong")
	}
	got := strings.Split(err.Error(), "\n")
	for i, line := range got {
		if i >= len(want) || !strings.HasPrefix(line, want[i]) {
			t.Errorf("mistake %d: %s", i+1, line)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d mistakes, want %d", len(got), len(want))
	}
}

// Columns count characters as an editor does, and what does not print is shown
// as an escape.
func TestPlaces(t *testing.T) {
	for text, want := range map[string]string{
		"bench = {legs = 4, \"h\u00f6he\" = 1, wide = 2}":   "shed.toml:1:20: bench.h\u00f6he: unknown key",
		"\"\\u202ename\" = 1":                               `shed.toml:1:1: \u202ename: unknown key`,
		"name = \"a\u202eb\"":                               `shed.toml:1:8: name: \u202e in it, a line break or another character that does not print; accepted`,
		"name = \"a\u200bb\"":                               `\u200b in it`,
		"name = \"" + strings.Repeat("\u00e4", 1001) + "\"": `shed.toml:1:8: name: longer than 1000 characters; accepted: text`,
		"name = \"\u00e4\" x":                               "shed.toml:1:12: text without quotes",
		"name = \"a\xff\"":                                  "shed.toml:1:10: not UTF-8",
		"bench.legs.left = 3":                               "shed.toml:1:7: bench.legs: not of the right kind; accepted: a plain number",
		"shelves.label = \"a\"":                             "shed.toml:1:1: shelves: not of the right kind; accepted: a table for each, under [[shelves]]",
		"shelves = [1]":                                     "shed.toml:1:1: shelves: not of the right kind",
		"[name]":                                            "shed.toml:1:2: name: not of the right kind; accepted: text in quotes",
		"[bench]\n[bench]":                                  "shed.toml:2:2: bench: given twice; accepted: once",
		"[[shelves]]\n[shelves]":                            "shed.toml:2:2: shelves: given twice; accepted: once",
		"bench.legs = 3\n[bench]":                           "shed.toml:2:2: bench: given twice",
		"[bench]\nthrow = 3":                                "bench.throw: the word means the offset of the sheave to some",
	} {
		var s shed
		if _, err := engine.Decode("shed.toml", []byte(text), &s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %s", text, err, want)
		}
	}
}

// Whatever is in a file of the greatest length, reading it takes little memory.
func TestHostileFiles(t *testing.T) {
	const most = 256 << 10
	fill := func(text string) string { return strings.Repeat(text, most/len(text)) }
	for name, text := range map[string]string{
		"a key of many names": "a" + fill(".a")[2:] + "=1",
		"a known key of many": "bench" + fill(".a")[6:] + "=1",
		"unknown keys":        fill("k = 1\n"),
		"different unknown keys": func() (s string) {
			for i := range 16000 {
				s += fmt.Sprintf("k%d = 1\n", i)
			}
			return s
		}(),
		"known keys":               fill("name = \"a\"\n"),
		"tables":                   fill("[[shelves]]\n"),
		"unknown tables":           fill("[x]\n"),
		"a table of many names":    "[a" + fill(".a")[4:] + "]",
		"lists in lists":           "shelves = " + fill("[")[10:],
		"tables in tables":         "bench = " + fill("{a=")[12:],
		"tables in one list":       "shelves = [" + fill("{},")[15:] + "]",
		"lines that are no TOML":   fill("=\n"),
		"one line that is no TOML": fill("= "),
		"open quotes":              fill("a = \"\n"),
		"comments":                 fill("#\n"),
		"nothing but zeros":        fill("\x00"),
		"a long name":              "name = \"" + fill("a")[10:] + "\"",
		"a long number":            "bench.legs = " + fill("1")[20:],
		"a long length":            "bench.width = \"" + fill("1")[30:] + " mm\"",
	} {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			var s shed
			_, err := engine.Decode("shed.toml", []byte(text), &s)
			runtime.ReadMemStats(&after)
			if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 50 {
				t.Errorf("%d MiB for a file of %d KiB", used, len(text)>>10)
			}
			if (err == nil) != (name == "comments") {
				t.Errorf("%.200v", err)
			}
			if err != nil && len(err.Error()) > 40000 {
				t.Errorf("%d characters of complaints", len(err.Error()))
			}
		})
	}
}

func TestLargestFile(t *testing.T) {
	var s shed
	for size, want := range map[int]string{engine.Largest: "", engine.Largest + 1: "shed.toml:1:1: larger than 256 KiB; accepted: "} {
		_, err := engine.Decode("shed.toml", bytes.Repeat([]byte("#"), size), &s)
		if (err == nil) != (want == "") || err != nil && !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%d bytes: %v", size, err)
		}
	}
}

// Names of files are shown as the text in them is.
func TestFileNames(t *testing.T) {
	for name, want := range map[string]string{
		"a\x1b[2Jb\u202e.toml":               `a\u001b[2Jb\u202e.toml:1:1: x: unknown key`,
		"a\nb.toml":                          `a\u000ab.toml:1:1: `,
		"\xff.toml":                          `\xff.toml:1:1: `,
		strings.Repeat("a/", 200) + "b.toml": "..." + strings.Repeat("a/", 47) + "b.toml:1:1: ",
	} {
		var s shed
		if _, err := engine.Decode(name, []byte("x = 1"), &s); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(good))
	f.Add([]byte("[[a]]\nb = {c = [1, {d = 2}]}\n"))
	f.Add([]byte("bench = {width = \"20 mm\"}\nname = 1979-05-27\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var s shed
		d, err := engine.Decode("fuzz.toml", text, &s)
		if d == nil {
			t.Error("no document")
		}
		if err != nil {
			looksGood(t, err.Error())
		}
	})
}

// looksGood wants complaints that can be read on any terminal: each in a line of
// its own, with its place, none too long, all characters ones that print.
func looksGood(t *testing.T, complaints string) {
	t.Helper()
	for line := range strings.SplitSeq(complaints, "\n") {
		if !place.MatchString(line) || len(line) > 2000 || strings.ContainsFunc(line, func(r rune) bool { return !unicode.IsPrint(r) }) {
			t.Errorf("%.3000q", line)
		}
	}
}

var place = regexp.MustCompile(`^[^:]+:[0-9]+:[0-9]+: .`)
