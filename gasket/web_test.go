package gasket_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// The web between a round bore and a square outside turned by 45 degrees, and
// the webs of a chest: by hand.
func TestWebsByHand(t *testing.T) {
	half := 20 * math.Sqrt2 // of the diagonal
	diamond := polygon(half, 0, 0, half, -half, 0, 0, -half)
	bore, slot := gasket.Circle(mm(0, 0), units.MM(24)), polygon(14, -1, 20, -1, 20, 1, 14, 1)
	o := gasket.Outline{Outside: diamond, Cutouts: []gasket.Loop{bore, slot}}
	webs, err := o.Webs()
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		from, to string
		width    float64
	}{
		{"opening 1", "opening 2", 2},
		{"opening 2", "the outside", (half - 21) / math.Sqrt2},
		{"opening 1", "the outside", 8},
	}
	if len(webs) != len(want) {
		t.Fatalf("webs %v", webs)
	}
	for i, w := range want {
		if webs[i].From != w.from || webs[i].To != w.to {
			t.Errorf("web %d from %s to %s, want %s to %s", i, webs[i].From, webs[i].To, w.from, w.to)
		}
		near(t, w.from, webs[i].Width.MM(), w.width, 1e-8)
		near(t, "distance of its ends", webs[i].AtFrom.Distance(webs[i].AtTo).MM(), w.width, 1e-8)
	}
}

func BenchmarkWebs(b *testing.B) {
	p, err := gasket.Rectangle(2501, 2501, units.MM(9000), units.MM(9000))
	if err != nil {
		b.Fatal(err)
	}
	outside := gasket.Rect{Width: units.MM(9100), Height: units.MM(9100)}
	o, err := gasket.Rectangular("sheet", outside, nil, p.Drilled(units.MM(2)))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := o.Webs(); err != nil {
			b.Fatal(err)
		}
	}
}
