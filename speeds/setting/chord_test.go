package setting_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

func ExampleChord() {
	c, err := setting.Chord(units.MM(40), 6)
	fmt.Println(c, err)
	across, err := setting.ChordAcross(units.MM(40), 6, 3)
	fmt.Println(across, err)
	// Output:
	// 20 mm <nil>
	// 40 mm <nil>
}

func TestChords(t *testing.T) {
	f := check.Open(t, "speeds/setting/chords.csv")
	for r := range f.Rows() {
		c, err := setting.Chord(units.MM(r.Float("diameter")), int(r.Float("n")))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("chord", c.MM())
		next, err := setting.ChordAcross(units.MM(r.Float("diameter")), int(r.Float("n")), 1)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("chord", next.MM())
	}
}
