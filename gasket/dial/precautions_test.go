package dial

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units/source"
)

// Whoever drills is told to clamp the work and to keep his hands off what turns.
func TestPrecautions(t *testing.T) {
	all := Precautions()
	if len(all) != 2 || all[0].Code != ClampThinWork || all[1].Code != StopToMove {
		t.Fatalf("%+v", all)
	}
	for _, want := range []string{"Clamp the work", "breaks through", "eye protection", "stop the spindle"} {
		if !strings.Contains(all[0].Text+all[1].Text, want) {
			t.Errorf("nothing of %q", want)
		}
	}
	if all[0].Ref != source.Practice() || all[1].Ref != source.Practice() {
		t.Error("no source")
	}
}
