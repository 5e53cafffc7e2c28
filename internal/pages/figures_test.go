package pages_test

import (
	"path/filepath"
	"slices"
	"testing"
)

// Every engine of the examples has the pictures of its gear, each in the section that
// it shows; no two pictures of a book have one key, and each says what there is to see.
func TestPicturesInTheirPlaces(t *testing.T) {
	for name, b := range exampleBooks(t) {
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
