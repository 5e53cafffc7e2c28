package pages_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units/source"
)

// All that is wrong with a file comes in one error, in order of the file: what
// cannot be read, what is missing, what contradicts itself and what a page cannot
// use.
func TestEngineFileTellsAll(t *testing.T) {
	text := demo(t, `connecting_rod = "63 mm"`, `connecting_rod = "12 mm"`)
	for _, change := range [][2]string{
		{"[[fasteners]]\nwhere = \"cylinder covers\"\nthread = \"M3\"", "[[fasteners]]\nwhere = \"cylinder covers\"\nthread = \"5 BA\""},
		{"nominal = \"20 mm\"", "nominal = \"19 mm\""},
		{"tap = \"bottoming\"", "tap = \"third\""},
	} {
		if !strings.Contains(text, change[0]) {
			t.Fatalf("no %q in the demonstration", change[0])
		}
		text = strings.Replace(text, change[0], change[1], 1)
	}
	_, err := pages.EngineFile("e.toml", []byte(text))
	if err == nil {
		t.Fatal("nothing wrong")
	}
	got := strings.Split(err.Error(), "\n")
	want := []string{
		"e.toml:13:18: motion.connecting_rod: connecting rod 12 mm: out of range; accepted: longer than half the stroke",
		"e.toml:45:11: fits[2].nominal: 19 mm, but e.toml:5:8: cylinder.bore: 20 mm; accepted: ",
		`e.toml:66:7: fasteners[1].tap: tap "third"`,
		"covers[1].thread: 6 of M3x0.5, but e.toml:62:10: fasteners[1].thread: 12 of 5 BA; accepted: ",
	}
	if len(got) != len(want) {
		t.Errorf("%d complaints, want %d", len(got), len(want))
	}
	for i, line := range got {
		if i < len(want) && !strings.Contains(line, want[i]) {
			t.Errorf("%s\nwant %s", line, want[i])
		}
	}
}

func TestReadEngine(t *testing.T) {
	name := filepath.Join(t.TempDir(), "engine.toml")
	if _, err := pages.ReadEngine(name); err == nil || !strings.Contains(err.Error(), "no such file") || !strings.Contains(err.Error(), "; accepted: an engine file") {
		t.Error(err)
	}
	if err := os.WriteFile(name, []byte(demo(t, "", "")), 0o666); err != nil {
		t.Fatal(err)
	}
	if b, err := pages.ReadEngine(name); err != nil || b.From != name || len(b.Sections) == 0 {
		t.Error(b, err)
	}
}

// The book of the demonstration: that nothing is wrong comes first, what to do
// before steam last, and each precaution once.
func TestEngineFile(t *testing.T) {
	b, err := pages.EngineFile("engines/demo.toml", []byte(demo(t, "", "")))
	if err != nil {
		t.Fatal(err)
	}
	text, data := views(t, b)
	if !strings.HasPrefix(text, "ENGINE BOOK: Demonstration engine (invented) from engines/demo.toml Nothing found that can hurt somebody, ") {
		t.Errorf("it begins %.200s", text)
	}
	if !b.OK() || at(data, "from") != "engines/demo.toml" {
		t.Error("the demonstration has faults", b.All())
	}
	if last := b.Precautions[len(b.Precautions)-1]; last.Code != "before-steam" || last.Ref.Kind != source.CommonPractice {
		t.Errorf("last is %v", last)
	}
	if !strings.HasSuffix(text, "Engine, pipes and drains stay hot after the steam is shut off. ["+text[len(text)-2:]) {
		t.Errorf("it ends %q", text[max(0, len(text)-200):])
	}
	told := map[string]bool{}
	for _, p := range b.Precautions {
		if told[p.Text] {
			t.Errorf("told twice: %s", p.Text)
		}
		told[p.Text] = true
	}
	keys := map[string]bool{}
	for _, s := range b.Sections {
		keys[s.Key] = true
	}
	for _, key := range []string{"dimensions", "laps", "events", "sweep", "eccentric", "fits", "fasteners", "operations", "covers"} {
		if !keys[key] {
			t.Errorf("no %s in the book", key)
		}
	}
}

// What is wrong stands in place of the line that nothing is; a file needs no name
// of an engine.
func TestEngineFileWithFaults(t *testing.T) {
	b, err := pages.EngineFile("", []byte(strings.Replace(demo(t, `cavity = "9 mm"`, `cavity = "11.8 mm"`), `name = "Demonstration engine (invented)"`, "", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := views(t, b); !strings.HasPrefix(text, "ENGINE BOOK WHAT IS WRONG") || strings.Contains(text, "Nothing found") || b.OK() {
		t.Errorf("it begins %.200s", text)
	}
	if b, err := pages.EngineFile("e.toml", []byte(demo(t, `bore = "20 mm"`, ""))); err == nil || len(b.Sections)+len(b.Precautions) > 0 || b.Title != "" {
		t.Errorf("half a book: %v %v", b, err)
	}
}

// Every number of the JSON has its unit in its key, or is of those that have none.
func TestEngineUnits(t *testing.T) {
	b, err := pages.EngineFile("e.toml", []byte(demo(t, `eccentric_rod = "60 mm"`, "eccentric_rod = \"60 mm\"\nlever_ratio = 1.1")))
	if err != nil {
		t.Fatal(err)
	}
	_, data := views(t, b)
	unit := regexp.MustCompile(`_(mm|mm2|um|deg|n|nm|mpa|bar|m_min|mm_min|rev_min|m_s|ml_s|ml_min|l_min|kg_h|j|k|degc|ppm_k|w|min|s|kg|g|kj|ml)$`)
	pure := regexp.MustCompile(`^(stroke|index|expansion|swing|wanted|clearance_share|count|turns|rule_turns|passes|studs|depth|depth_of_full|lever_ratio|preload_share|motor_share` +
		`|preload_times_load|torque_factor|schema|number|sources|minutes|share|factor)$`)
	numbers := 0
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, inner := range v {
				switch {
				case key == "sources", k == "min" || k == "max": // works by the key of a value; ends of a range
					k = key
				}
				walk(k, inner)
			}
		case []any:
			for _, inner := range v {
				walk(key, inner)
			}
		case float64:
			numbers++
			if !unit.MatchString(key) && !pure.MatchString(key) {
				t.Errorf("%s: %v has no unit", key, v)
			}
		}
	}
	walk("", data)
	if numbers < 100 {
		t.Errorf("%d numbers", numbers)
	}
}

// The largest books that a file can ask for are made in little memory.
func TestHostileBooks(t *testing.T) {
	gear, _, _ := strings.Cut(demo(t, "", ""), "[[fits]]")
	drills := "[drills]\nset = \"" + strings.Repeat("1-99x0.1 mm, ", 9) + "1-99x0.1 mm\"\n"
	for name, table := range map[string]string{
		"covers": "[[covers]]\nwhere = \"a\"\nshape = \"round\"\ndiameter = \"3.1 m\"\nopening = \"2.5 m\"\nstuds = 60\nstud_circle = \"2.8 m\"\n" +
			"thread = \"M3\"\nhole = \"3.4 mm\"\nstud_class = \"4.6\"\npressure = \"4 bar\"\n",
		"fits": "[[fits]]\nwhere = \"" + strings.Repeat("w", 999) + "\"\nnominal = \"6 mm\"\nclearance_least = \"0.05 mm\"\nclearance_most = \"0.18 mm\"\n",
		"fasteners": "[[fasteners]]\nwhere = \"a\"\nthread = \"M3\"\ncount = 10000\nmaterial = \"cast iron\"\nblind = \"7 mm\"\n" +
			"tap = \"bottoming\"\n",
		"operations": "[[operations]]\npart = \"p\"\noperation = \"reaming\"\ndiameter = \"6 mm\"\nmaterial = \"cast iron\"\n",
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		b, err := pages.EngineFile("e.toml", []byte(gear+drills+strings.Repeat(table, 190)))
		if err != nil {
			t.Fatal(err)
		}
		if err := b.WriteText(io.Discard); err != nil {
			t.Error(err)
		}
		runtime.ReadMemStats(&after)
		if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 50 {
			t.Errorf("%d MiB for 190 %s", used, name)
		}
	}
}

// Whatever a file holds, it becomes a book in both views or an error.
func FuzzEngineFile(f *testing.F) {
	for _, name := range []string{"demo.toml", "wrong-cavity.toml", "shims.toml", "as-built.toml", "inch.toml", "reversing-lever.toml", "low-1890.toml"} {
		text, err := os.ReadFile("../../examples/enginebook/engines/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte("[[a]]\nb = {c = [1, {d = 2}]}\n"))
	f.Add([]byte("\"b\\u006fre\" = \"a\\nb\"\n"))
	f.Add([]byte("cylinder = {bore = \"20 mm\"}\nname = 1979-05-27\n"))
	f.Add([]byte(`"
[[fasteners]]
linder covers"
threid = "M3"
count = 12
material = "cast iron"
blind = "7 mm"
tap = "bottoming"

[[fasteners]]
where = "steam chest"
thread = "M3"
count = 6
material = "cast iron"
through = "6 mm"`))
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := pages.EngineFile("fuzz.toml", text)
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := b.WriteText(&out); err != nil {
			t.Error(err)
		}
		if err := b.WriteJSON(&out); err != nil {
			t.Error(err)
		}
	})
}
