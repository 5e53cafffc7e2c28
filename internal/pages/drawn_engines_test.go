package pages

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Engines with a size that is far off are refused or are drawn all the same, and what is
// told on their pictures can be read: nothing runs off a sheet or over another text.
func TestPicturesOfSpoiltEngines(t *testing.T) {
	files, err := filepath.Glob("../../examples/enginebook/engines/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatalf("%v, %v", files, err)
	}
	length := regexp.MustCompile(`(?m)^(\w+ = ")[\d./ ]+ (mm|in)"`)
	of := regexp.MustCompile(`^(tapped-hole|stud|fit|sheave|marked-out|three-jaw|four-jaw|port-milling|piston-room|flywheel)`)
	r := rand.New(rand.NewPCG(16, 11))
	drawings := 0
	for range many(100) {
		name := files[r.IntN(len(files))]
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		places := length.FindAllSubmatchIndex(text, -1)
		if len(places) == 0 { // of an engine whose sizes are bare numbers
			continue
		}
		at := places[r.IntN(len(places))]
		with := []string{`1000 mm"`, `0.01 mm"`, `0 mm"`, `17.77 mm"`, `3 1/64 in"`}[r.IntN(5)]
		spoilt := string(text[:at[3]]) + with + string(text[at[1]:])
		b, err := EngineFile(name, []byte(spoilt))
		if err != nil {
			if strings.Contains(err.Error(), "sheet:") {
				t.Fatalf("%s, %s: %v", name, spoilt[at[0]:at[3]+len(with)], err)
			}
			continue
		}
		for _, s := range b.Sections {
			for _, i := range s.Items {
				for _, f := range i.Figures {
					if f.Drawing != nil && of.MatchString(f.Key) {
						drawn(t, []string{name, spoilt[at[0] : at[3]+len(with)], f.Key}, f, nil)
						drawings++
					}
				}
			}
		}
	}
	if !testing.Short() && drawings < 60 {
		t.Errorf("%d pictures", drawings)
	}
}
