package gasket_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func TestSpans(t *testing.T) {
	p, err := gasket.BoltCircle(4, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	p[0].Diameter = units.MM(4)
	spans, err := p.Spans(units.MM(3))
	if err != nil {
		t.Fatal(err)
	}
	side := 20 * math.Sqrt2
	want := []struct {
		pair                   string
		centres, over, between float64
	}{
		{"1-2", side, side + 3.5, side - 3.5}, {"2-3", side, side + 3, side - 3}, {"3-4", side, side + 3, side - 3},
		{"1-4", side, side + 3.5, side - 3.5}, {"1-3", 40, 43.5, 36.5}, {"2-4", 40, 43, 37},
	}
	if len(spans) != len(want) {
		t.Fatalf("spans %v", spans)
	}
	for i, w := range want {
		s := spans[i]
		if got := s.First + "-" + s.Second; got != w.pair {
			t.Errorf("span %d is %s, want %s", i, got, w.pair)
		}
		near(t, w.pair, s.Centres.MM(), w.centres, 1e-8)
		near(t, w.pair+" over pins", s.OverPins.MM(), w.over, 1e-8)
		near(t, w.pair+" between pins", s.BetweenPins.MM(), w.between, 1e-8)
	}
}
