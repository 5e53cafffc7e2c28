package gasket_test

import (
	"math"
	"strings"
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

// Circles at both ends of the range leave just the web; 26.9 + 6.4 is the least
// gasket that has any.
func TestStudCircles(t *testing.T) {
	mm := units.MM
	least, greatest, err := gasket.StudCircles(mm(36), mm(20.5), mm(3.4), mm(1.5))
	if err != nil || least != mm(26.9) || greatest != mm(29.6) {
		t.Errorf("%v to %v, %v", least, greatest, err)
	}
	for _, circle := range []units.Length{least, greatest} {
		studs, err := gasket.BoltCircle(6, circle, 0)
		if err != nil {
			t.Fatal(err)
		}
		o, err := gasket.Round("cover", mm(36), mm(20.5), studs.Drilled(mm(3.4)))
		if err != nil {
			t.Fatal(err)
		}
		webs, err := o.Webs()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "web", webs[0].Width.MM(), 1.5, 1e-8)
	}
	for _, test := range []struct {
		outside, opening, hole, web float64
		want                        string
	}{
		{30, 20.5, 3.4, 1.5, "33.3 mm or more, with the studs on 26.9 mm"},
		{0, 20.5, 3.4, 1.5, "outside diameter"},
		{36, -1, 3.4, 1.5, "diameter of the opening"},
		{36, 20.5, 0, 1.5, "diameter of the holes"},
		{36, 20.5, 3.4, -1, "web"},
	} {
		_, _, err := gasket.StudCircles(mm(test.outside), mm(test.opening), mm(test.hole), mm(test.web))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%+v: %v", test, err)
		}
	}
	if _, _, err := gasket.StudCircles(mm(36), mm(1e6).Scale(2), mm(3.4), mm(1.5)); err == nil {
		t.Error("an opening of 2 km")
	}
}
