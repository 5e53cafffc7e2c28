package check_test

import (
	"io/fs"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread/screwcut"
)

// The lathe of the demonstration and of the commands to try is nobody's: its steps
// go up in one ratio from the back gear to the open belt, its wheels in even steps,
// and the figures that it had before stand nowhere any more.
func TestLatheIsInvented(t *testing.T) {
	root := os.DirFS(check.Path(t, ".."))
	read := func(name string) string {
		text, err := fs.ReadFile(root, name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	cone := regexp.MustCompile(`(?m)^speeds = "(cone [^"]+)"$`).FindStringSubmatch(read("examples/enginebook/engines/demo.toml"))
	lathe := must(speeds.ParseLadder(cone[1]))
	steps := lathe.Steps()
	if len(steps) != 8 {
		t.Errorf("%d steps in %s", len(steps), cone[1])
	}
	for i := 1; i < len(steps); i++ {
		if ratio := float64(steps[i].Speed / steps[i-1].Speed); math.Abs(ratio-1.6) > 0.03 {
			t.Errorf("%v is %.3f of the step below it, not 1.6", steps[i], ratio)
		}
	}
	for _, name := range []string{"examples/spindle/main.go", "README.md"} {
		if !strings.Contains(read(name), cone[1]) {
			t.Errorf("%s has another lathe than %s", name, cone[1])
		}
	}
	own := regexp.MustCompile(`Own: "([^"]+)", Engaged`).FindStringSubmatch(read("examples/changewheels/main.go"))
	wheels := must(screwcut.ParseWheels(own[1]))
	for i := 2; i < len(wheels); i++ {
		if wheels[0] != wheels[1] || wheels[i]-wheels[i-1] != wheels[2]-wheels[1] {
			t.Errorf("the wheels %v do not go up evenly", wheels)
		}
	}
	before := regexp.MustCompile(`600,? ` + `355,? 210|20, ?20, ?` + `25-100x5`)
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			if entry != nil && entry.Name() == ".git" {
				return fs.SkipDir
			}
			return err
		}
		if text := read(name); before.MatchString(text) {
			t.Errorf("%s: %s", name, before.FindString(text))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
