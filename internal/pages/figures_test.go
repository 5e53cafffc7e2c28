package pages_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
)

// Every engine of the examples has the pictures of its gear, each in the section that
// it shows; no two pictures of a book have one key, and each says what there is to see.
func TestPicturesInTheirPlaces(t *testing.T) {
	engines, err := filepath.Glob("../../examples/enginebook/engines/*.toml")
	if err != nil || len(engines) < 4 {
		t.Fatal(engines, err)
	}
	for _, name := range engines {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		b, err := pages.EngineFile(name, text)
		if err != nil {
			t.Fatal(err)
		}
		in := map[string]string{} // sections by the keys of the pictures
		for _, s := range b.Sections {
			for _, i := range s.Items {
				for _, f := range i.Figures {
					if f.Drawing == nil {
						continue
					}
					if _, double := in[f.Key]; double || f.Key == "" || f.Title == "" || f.Alt == "" {
						t.Errorf("%s: the picture %q, %q, twice or without its words", name, f.Key, f.Title)
					}
					in[f.Key] = s.Key
				}
			}
		}
		for _, want := range [][2]string{
			{"valve-over-its-ports", "dimensions"}, {"valve-at-its-extremes", "events"}, {"valve-at-the-events-crank", "events"},
			{"displacement", "events"}, {"polar", "events"}, {"drive-at-the-dead-centres", "eccentric"}, {"drive-at-the-events-head", "eccentric"},
		} {
			if in[want[0]] != want[1] {
				t.Errorf("%s: %s is in the section %q", name, want[0], in[want[0]])
			}
		}
		if slices.Contains([]string{"demo.toml", "inch.toml"}, filepath.Base(name)) && len(in) < 15 {
			t.Errorf("%s: %d pictures", name, len(in))
		}
	}
}
