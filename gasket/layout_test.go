package gasket_test

import (
	"math"
	"strings"
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

// Each hole is measured to the one furthest from it however small the pattern; of two that
// differ by a millionth of a millimetre at the most the first is taken, and not of two
// that differ by more.
func TestSpansToTheFurthest(t *testing.T) {
	pairs := func(points ...gasket.Point) string {
		t.Helper()
		var p gasket.Pattern
		for i, at := range points {
			p = append(p, gasket.Hole{Name: string(rune('a' + i)), At: at, Diameter: units.MM(0.5)})
		}
		spans, err := p.Spans(units.Length{})
		if err != nil {
			t.Fatal(err)
		}
		text := ""
		for _, s := range spans {
			text += " " + s.First + s.Second
		}
		return text
	}
	if got := pairs(mm(0, 0), mm(2, 0), mm(2, 2), mm(0, 2)); got != " ab bc cd ad ac bd" {
		t.Error(got)
	}
	// a is 10 mm from c and a little more from d; b and e stand close by it.
	for more, want := range map[float64]string{0: "ac", 0.0000009: "ac", 0.000002: "ad"} {
		got := pairs(mm(0, 0), mm(1, 0), mm(0, 10), mm(0, -10-more), mm(-1, 0))
		if !strings.Contains(got, want) || strings.Contains(got, map[string]string{"ac": "ad", "ad": "ac"}[want]) {
			t.Errorf("%g: %s, want %s", more, got, want)
		}
	}
}
