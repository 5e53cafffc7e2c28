package gasket_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Moved out by d, every point of the new loop lies d from the old one, and the
// areas agree with Steiner's formula where no side is hollow.
func TestOffset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := star(t)
		d := rapid.Float64Range(0.001, 3).Draw(t, "offset") * rapid.SampledFrom([]float64{-1, 1, 2}).Draw(t, "sense")
		before, err := gasket.Outline{Outside: l}.Measure()
		if err != nil {
			t.Skip("crosses itself")
		}
		moved, err := l.Offset(units.MM(d))
		if err != nil {
			t.Fatalf("%v", err)
		}
		after, err := gasket.Outline{Outside: moved}.Measure()
		if err != nil {
			t.Fatalf("%v: %v", err, moved)
		}
		grown := float64((after.Area - before.Area) / units.SquareMillimetre)
		if (grown > 0) != (d > 0) && math.Abs(d) > 1e-6 {
			t.Fatalf("area grew by %g for %g", grown, d)
		}
		old := flattened(t, l)
		for i, p := range flattened(t, moved) {
			if i%97 != 0 {
				continue
			}
			least := math.Inf(1)
			for j, a := range old {
				b := old[(j+1)%len(old)]
				dx, dy := b[0]-a[0], b[1]-a[1]
				s := min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/(dx*dx+dy*dy), 0), 1)
				least = min(least, math.Hypot(a[0]+s*dx-p[0], a[1]+s*dy-p[1]))
			}
			if math.Abs(least-math.Abs(d)) > 1e-4 {
				t.Fatalf("a point lies %.9g away, want %.9g", least, math.Abs(d))
			}
		}
	})
}

// By hand: a square of 20 mm moved out by 3 mm has 400 + 80*3 + pi 9 mm2, and in
// by 3 mm 196; an L of 40 x 40 with arms of 15 mm moved in by 3 mm two arms of
// 9 mm and the corner between them, which is round.
func TestOffsetByHand(t *testing.T) {
	square := polygon(0, 0, 20, 0, 20, 20, 0, 20)
	ell := polygon(0, 0, 40, 0, 40, 15, 15, 15, 15, 40, 0, 40)
	round := gasket.Circle(mm(1, 2), units.MM(30))
	for _, test := range []struct {
		name  string
		l     gasket.Loop
		d     float64
		area  float64
		sides int
	}{
		{"square out", square, 3, 400 + 240 + 9*math.Pi, 8},
		{"square in", square, -3, 196, 4},
		{"ell in", ell, -3, 34*9 + 9*25 + 9 - 9*math.Pi/4, 7},
		{"ell out", ell, 2, 975 + 160*2 + 5*math.Pi - 4, 11},
		{"circle out", round, 5, math.Pi * 400, 2},
		{"circle in", round, -5, math.Pi * 100, 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			for _, l := range []gasket.Loop{test.l, backwards(test.l)} {
				moved, err := l.Offset(units.MM(test.d))
				if err != nil {
					t.Fatal(err)
				}
				m, err := gasket.Outline{Outside: moved}.Measure()
				if err != nil {
					t.Fatal(err)
				}
				near(t, "area", m.Area.In(units.SquareMillimetre), test.area, 1e-5)
				if len(moved) != test.sides {
					t.Errorf("%d sides, want %d: %v", len(moved), test.sides, moved)
				}
			}
		})
	}
	for _, test := range []struct {
		name string
		l    gasket.Loop
		d    float64
		text string
	}{
		{"square closes up", square, -10.5, "closes up"},
		{"square all but closes up", square, -9.9998, "closes up"}, // 0.0004 mm are left each way
		{"circle closes up", round, -15.5, "closes up"},
		{"dumb-bell falls apart", polygon(0, 0, 20, 0, 20, 8, 40, 8, 40, 0, 60, 0, 60, 20, 40, 20, 40, 12, 20, 12, 20, 20, 0, 20), -3, "falls into 2"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.l.Offset(units.MM(test.d))
			if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.text) {
				t.Errorf("error %v, want %q", err, test.text)
			}
		})
	}
}

// backwards is the loop drawn the other way round.
func backwards(l gasket.Loop) gasket.Loop {
	var r gasket.Loop
	for i := range l {
		r = append(r, gasket.Vertex{Point: l[(2*len(l)-i)%len(l)].Point, Bulge: -l[(2*len(l)-i-1)%len(l)].Bulge})
	}
	return r
}

// Places that no sum can hold are refused where they come in, and do not panic.
func TestEndlessOutlines(t *testing.T) {
	endless, least := units.Picometres(math.MaxInt64), units.Picometres(math.MinInt64)
	square := polygon(0, 0, 20, 0, 20, 20, 0, 20)
	far := polygon(0, 0, 20, 0, 20, 20, 0, 20)
	far[1].X = endless
	outline := gasket.Outline{Name: "square", Outside: square}
	rect := gasket.Rect{Centre: gasket.Point{Y: endless}, Width: units.MM(2), Height: units.MM(2)}
	for name, call := range map[string]func() error{
		"a loop":      func() error { _, err := far.Edges(); return err },
		"an offset":   func() error { _, err := square.Offset(least); return err },
		"holes":       func() error { _, err := outline.Offset(units.Length{}, units.Length{}, endless); return err },
		"a rectangle": func() error { _, err := rect.Loop(); return err },
		"a zone":      func() error { _, err := gasket.PositionZones(least, units.MM(2)); return err },
	} {
		var bad *units.ArgumentError
		if err := call(); !errors.As(err, &bad) || bad.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
