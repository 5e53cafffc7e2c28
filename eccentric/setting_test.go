package eccentric

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func withLead(t tester, g Gear, lead units.Length) Gear {
	t.Helper()
	g, err := g.WithLead(lead, BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// A valve is moved to where the leads are equal, and left alone where nobody could
// move it by so little.
func TestMoveForEqualLead(t *testing.T) {
	g := demo()
	where, err := g.OffsetForEqualLead()
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		off  units.Length // from where the leads are equal
		want bool
	}{
		{"as drawn", where.Neg(), true},
		{"just short", units.Micron(-51), true},
		{"just past", units.Micron(51), true},
		{"within what can be set", units.Micron(49), false},
		{"within, short", units.Micron(-49), false},
		{"there", units.Length{}, false},
	} {
		g.Valve.Offset = where.Add(test.off)
		move, err := g.MoveForEqualLead()
		if err != nil || move.IsZero() == test.want || test.want && move != test.off.Neg() {
			t.Errorf("%s: move %v, %v", test.name, move, err)
		}
		g.Valve.Offset = g.Valve.Offset.Add(move)
		e := events(t, g)
		near(t, test.name, e.Head.Lead.Sub(e.Crank.Lead).MM(), 0, 0.0981)
	}
	if _, err := (Gear{}).MoveForEqualLead(); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
}
