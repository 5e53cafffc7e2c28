package pages_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
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
		"e.toml:9:18: motion.connecting_rod: connecting rod 12 mm: out of range; accepted: longer than half the stroke",
		"e.toml:37:11: fits[1].nominal: 19 mm, but e.toml:5:8: cylinder.bore: 20 mm; accepted: ",
		`e.toml:57:7: fasteners[0].tap: tap "third"`,
		"covers[0].thread: 6 of M3x0.5, but e.toml:53:10: fasteners[0].thread: 12 of 5 BA; accepted: ",
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

// Whatever a file holds, it becomes a book in both views or an error.
func FuzzEngineFile(f *testing.F) {
	for _, name := range []string{"engine.toml", "long-cavity.toml"} {
		text, err := os.ReadFile("../../examples/enginebook/demo/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte("cylinder = {bore = \"20 mm\"}\nname = 1979-05-27\n"))
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
