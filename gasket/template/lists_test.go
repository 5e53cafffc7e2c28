package template

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// TestHoleNames checks that holes go by their names, in the list and beside the
// part, and by their numbers without one.
func TestHoleNames(t *testing.T) {
	o := cover(t)
	o.Holes[0].Name, o.Holes[1].Name, o.Holes[2].Name = "top", "", "a <b> of a very long name"
	file := svg(t, layoutOf(t, o, Options{}), 1)
	for _, want := range []string{">top<", ">2<", ">a &lt;b&gt;"} {
		if n := strings.Count(file, want); n != 2 {
			t.Errorf("%s is there %d times, want 2", want, n)
		}
	}
	if strings.Contains(file, ">1<") || strings.Contains(file, "very long name") {
		t.Error("a number where there is a name, or a name beyond its column")
	}
}

// TestManySizes checks that sizes beyond the room of the strip are counted.
func TestManySizes(t *testing.T) {
	o := plate(t, 4)
	for i := range o.Holes {
		o.Holes[i].Diameter = units.MM(1 + float64(i%8)/4)
	}
	if file := svg(t, layoutOf(t, o, Options{}), 1); !strings.Contains(file, ">and 8 holes of 4 more sizes<") {
		t.Error("the rest of the sizes is not counted")
	}
}
