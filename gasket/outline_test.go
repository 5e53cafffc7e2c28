package gasket_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func mm(x, y float64) gasket.Point { return gasket.Point{X: units.MM(x), Y: units.MM(y)} }

func polygon(xy ...float64) gasket.Loop {
	var l gasket.Loop
	for i := 0; i < len(xy); i += 2 {
		l = append(l, gasket.Vertex{Point: mm(xy[i], xy[i+1])})
	}
	return l
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %.12g, want %.12g", what, got, want)
	}
}

// An oval flange by hand: with ends as large as the boss it is a slot, and in
// general boss and ends are cut where the sides touch them. Its area is that of
// the trapezia between, and of the sectors.
func TestOval(t *testing.T) {
	studs := gasket.Pattern{{Name: "1", At: mm(-12, 1)}, {Name: "2", At: mm(12, 1)}}.Drilled(units.MM(3))
	plain := func(o gasket.Outline) float64 {
		m, err := o.Measure()
		if err != nil {
			t.Fatal(err)
		}
		return m.Enclosed.In(units.SquareMillimetre)
	}
	slot, err := gasket.Oval("slot", units.MM(8), units.MM(8), units.Length{}, studs)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slot", plain(slot), 24*8+math.Pi*16, 1e-7)
	gland, err := gasket.Oval("gland", units.MM(18), units.MM(8), units.MM(10), studs)
	if err != nil {
		t.Fatal(err)
	}
	angle := math.Acos((9 - 4) / 12.0)
	side := 12 * math.Sin(angle) // length of each straight side
	want := 4*side*(9+4)/2 + 2*angle*16 + (math.Pi-2*angle)*81
	near(t, "gland", plain(gland), want, 1e-7)
	turned, err := gasket.Oval("turned", units.MM(18), units.MM(8), units.MM(10), studs.Turned(0.7))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "turned gland", plain(turned), want, 1e-7)
	webs, err := gland.Webs()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "web outside a stud", webs[0].Width.MM(), 2.5, 1e-8)
	for _, test := range []struct {
		name               string
		boss, end, opening float64
		holes              gasket.Pattern
		text               string
	}{
		{"one hole", 18, 8, 0, studs[:1], "holes of an oval flange 1"},
		{"ends too large", 8, 18, 0, studs, "diameter of the ends"},
		{"no ends", 8, 0, 0, studs, "diameter of the ends"},
		{"ends inside the boss", 40, 8, 0, studs, "distance of the studs"},
		{"opening", 18, 8, 18, studs, "diameter of the opening"},
	} {
		_, err := gasket.Oval("x", units.MM(test.boss), units.MM(test.end), units.MM(test.opening), test.holes)
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(fmt.Sprint(err), test.text) {
			t.Errorf("%s: error %v, want %q", test.name, err, test.text)
		}
	}
}

// An outline has holes of its own: drilling the pattern afresh does not change
// the gasket.
func TestOutlineKeepsItsHoles(t *testing.T) {
	p, err := gasket.BoltCircle(2, units.MM(30), 0)
	if err != nil {
		t.Fatal(err)
	}
	p = p.Drilled(units.MM(3))
	round, err := gasket.Round("round", units.MM(50), units.Length{}, p)
	if err != nil {
		t.Fatal(err)
	}
	oval, err := gasket.Oval("oval", units.MM(20), units.MM(10), units.Length{}, p)
	if err != nil {
		t.Fatal(err)
	}
	plate, err := gasket.Rectangular("plate", gasket.Rect{Width: units.MM(50), Height: units.MM(20)}, nil, p)
	if err != nil {
		t.Fatal(err)
	}
	p[0].Diameter = units.MM(9)
	for _, o := range []gasket.Outline{round, oval, plate} {
		if o.Holes[0].Diameter != units.MM(3) {
			t.Errorf("%s: the hole became %v", o.Name, o.Holes[0].Diameter)
		}
	}
}

// An opening as large as the outside leaves nothing, and one a picometre smaller is
// one.
func TestRoundOpening(t *testing.T) {
	side := units.MM(20)
	for opening, good := range map[units.Length]bool{
		{}: true, units.MM(10): true, side.Sub(units.Picometres(1)): true, side: false, side.Add(units.Picometres(1)): false, units.MM(-1): false,
	} {
		o, err := gasket.Round("x", side, opening, nil)
		if (err == nil) != good || good && len(o.Cutouts) != map[bool]int{true: 0, false: 1}[opening.IsZero()] {
			t.Errorf("opening of %v: %v, %v", opening, o.Cutouts, err)
		}
	}
}
