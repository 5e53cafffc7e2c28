package diagram

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/internal/sheet"
)

// Each square that a line or a ring runs through by more than a little is taken, and none
// that it stays away from; text takes all squares of its box.
func TestPlacesTaken(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 16))
	for n := range 60 {
		p := newPlate(30, 20)
		at := func() sheet.Point { return sheet.Point{X: 2 + 26*r.Float64(), Y: 2 + 16*r.Float64()} }
		a, b, radius, kind := at(), at(), 1+3*r.Float64(), n%3
		off := func(q sheet.Point) float64 { return deviation(q, a, b) } // from what is drawn
		by := byLine
		switch kind {
		case 0:
			p.line(sheet.Edge, a, b)
		case 1:
			a.X, a.Y = min(max(a.X, radius), 30-radius), min(max(a.Y, radius), 20-radius)
			p.ring(sheet.Edge, a, radius)
			off = func(q sheet.Point) float64 { return math.Abs(math.Hypot(q.X-a.X, q.Y-a.Y) - radius) }
		default:
			by = byText
			box := sheet.Box{Min: sheet.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, Max: sheet.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}}
			p.takeBox(box)
			off = func(q sheet.Point) float64 {
				near := nearest(box, q)
				return math.Hypot(q.X-near.X, q.Y-near.Y)
			}
			if got := p.texts[0]; got != grown(box, spare) {
				t.Errorf("the place of the text is %v, of %v", got, box)
			}
		}
		for j := range p.up {
			for i := range p.across {
				middle := sheet.Point{X: (float64(i) + 0.5) * square, Y: (float64(j) + 0.5) * square}
				taken := p.taken[j*p.across+i]
				switch d := off(middle); {
				case d < square/4 && taken != by:
					t.Fatalf("case %d: the square about %v is free", n, middle)
				case d > square && taken != 0:
					t.Fatalf("case %d: the square about %v is taken, %.2f mm off", n, middle, d)
				}
			}
		}
	}
}

// A box is free on the sheet, half a millimetre from its edges, where it touches nothing of
// the kind.
func TestFreePlaces(t *testing.T) {
	p := newPlate(30, 20)
	p.line(sheet.Edge, sheet.Point{X: 10.2, Y: 2}, sheet.Point{X: 10.2, Y: 18})
	box := func(x, y, wide, high float64) sheet.Box {
		return sheet.Box{Min: sheet.Point{X: x, Y: y}, Max: sheet.Point{X: x + wide, Y: y + high}}
	}
	for _, b := range []struct {
		sheet.Box
		of   byte
		free bool
	}{
		{box(0.5, 0.5, 9, 19), byLine | byText, true}, {box(0.49, 0.5, 9, 19), byLine, false}, {box(0.5, 0.49, 9, 19), byLine, false},
		{box(11, 5, 18.5, 3), byLine, true}, {box(11, 5, 18.51, 3), byLine, false}, {box(11, 16, 3, 3.5), byLine, true}, {box(11, 16, 3, 3.51), byLine, false},
		{box(9, 5, 0.99, 3), byLine, true}, {box(9, 5, 1.01, 3), byLine, false}, {box(10.51, 5, 3, 3), byLine, true}, {box(10.49, 5, 3, 3), byLine, false},
		{box(9, 5, 3, 3), byText, true}, {box(9, 18.6, 3, 0.5), byLine, true}, {box(9, 18.2, 3, 0.5), byLine, false}, {box(9, 1, 3, 0.9), byLine, true},
	} {
		if got := p.free(b.Box, b.of); got != b.free {
			t.Errorf("%v is free of %d: %v", b.Box, b.of, got)
		}
	}
	p.reserve(3) // and nothing above it
	if p.free(box(1, 2.4, 2, 0.5), byText) || !p.free(box(1, 3, 2, 0.5), byText) || !p.free(box(1, 2.4, 2, 0.5), byLine) {
		t.Error("the foot is not what was reserved")
	}
	if low := p.lowest(1); low != 1 {
		t.Errorf("the lowest taken above 1 mm is %v", low)
	}
	q := newPlate(30, 20)
	q.line(sheet.Edge, sheet.Point{X: 2, Y: 7.2}, sheet.Point{X: 20, Y: 7.2})
	if low := q.lowest(3); low != 7 {
		t.Errorf("the lowest taken above 3 mm is %v, want 7", low)
	}
	if low := q.lowest(8); low != 8 {
		t.Errorf("nothing is taken above 8 mm: %v", low)
	}
	q.mark(byLine, -0.1, 5)
	q.mark(byLine, 5, -0.1)
	q.mark(byLine, 30.6, 5)
	q.mark(byLine, 5, 20.6) // off the sheet: nothing is taken, and nothing fails
	if low := q.lowest(8); low != 8 || q.taken[0] != 0 {
		t.Error("a place off the sheet takes one on it")
	}
}

// A word is put where it is free of all that is drawn, as near as a scan of all places finds
// one, to a step of the search; and no text is between it and what it names.
func TestNearestPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(42, 16))
	found := 0
	for range 40 {
		p := newPlate(60, 50)
		for range 12 {
			a := sheet.Point{X: 60 * r.Float64(), Y: 50 * r.Float64()}
			p.line(sheet.Edge, a, a.At(20*r.Float64()-10, 20*r.Float64()-10))
		}
		p.text(sheet.Point{X: 30 * r.Float64(), Y: 40 * r.Float64()}, letters, sheet.Start, "a word in the way")
		from := sheet.Point{X: 10 + 40*r.Float64(), Y: 10 + 30*r.Float64()}
		wide, high := 4+8*r.Float64(), 3.0
		middle, anchor, ok := p.place(wide, high, 1, from)
		about := func(m sheet.Point) sheet.Box {
			return sheet.Box{Min: m.At(-wide/2, -high/2), Max: m.At(wide/2, high/2)}
		}
		least := math.Inf(1) // of all free places
		for x := wide / 2; x < 60-wide/2; x += 0.25 {
			for y := high / 2; y < 50-high/2; y += 0.25 {
				m := sheet.Point{X: x, Y: y}
				if near := nearest(about(m), from); p.free(grown(about(m), spare), byLine|byText) && p.open(from, near) && p.open(from, m) {
					least = min(least, math.Hypot(near.X-from.X, near.Y-from.Y))
				}
			}
		}
		if !ok {
			if least < 30 {
				t.Errorf("no place is found, and one is free %v mm off", least)
			}
			continue
		}
		found++
		box := about(middle)
		near := nearest(box, from)
		if anchor != from || !p.free(grown(box, spare-0.1), byLine|byText) || !p.open(from, near) {
			t.Errorf("the place %v is not free, or not for %v", middle, from)
		}
		if got := math.Hypot(near.X-from.X, near.Y-from.Y); got > max(least, 1)+6 {
			t.Errorf("a place %v mm off, and one is free %v mm off", got, least)
		}
	}
	if found < 30 {
		t.Errorf("%d of 40 words found a place", found)
	}
	full := newPlate(20, 20)
	full.reserve(20)
	full.name(letters, "nowhere", sheet.Point{X: 10, Y: 10})
	full.ringed(sheet.Point{X: 10, Y: 10}, "7")
	if len(full.without) != 2 || full.without[0] != "nowhere" || full.without[1] != "the number 7" {
		t.Errorf("without a place: %q", full.without)
	}
}

// A smooth curve is drawn by chords that stay as near to it as they are to, and not by many
// more of them than that takes.
func TestChords(t *testing.T) {
	for _, radius := range []float64{0.5, 5, 40} {
		for _, turn := range []float64{0.3, 2, -4, fullTurn} {
			at := func(a float64) sheet.Point {
				return sheet.Point{X: 50 + radius*math.Cos(a), Y: 50 + radius*math.Sin(a)}
			}
			points := smoothly(1, 1+turn, at)
			if points[0] != at(1) || points[len(points)-1] != at(1+turn) {
				t.Errorf("%v: from %v to %v", turn, points[0], points[len(points)-1])
			}
			worst := 0.0
			for i := 1; i < len(points); i++ { // an arc stands off its chord in the middle most
				half := math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y) / 2
				worst = max(worst, radius-math.Sqrt(radius*radius-half*half))
			}
			if worst > 1.001*smooth {
				t.Errorf("radius %v, %v radians: chords %v mm off", radius, turn, worst)
			}
			chord := 2 * math.Acos(1-smooth/radius) // as long as it may be
			if n := float64(len(points) - 1); n > max(2, 2.1*math.Abs(turn)/chord, math.Abs(turn)/(math.Pi/24)+1) {
				t.Errorf("radius %v, %v radians: %v chords, %v would do", radius, turn, n, math.Abs(turn)/chord)
			}
		}
	}
	// a step ends the halving
	jump := smoothly(0, 1, func(a float64) sheet.Point { return sheet.Point{X: a, Y: 10 * math.Floor(a+0.3)} })
	if len(jump) > 200 {
		t.Errorf("a step is drawn by %d points", len(jump))
	}
	r := rand.New(rand.NewPCG(43, 16))
	for range 100 {
		at := func() sheet.Point { return sheet.Point{X: 10 * r.Float64(), Y: 10 * r.Float64()} }
		p, a, b := at(), at(), at()
		least := math.Inf(1)
		for i := range 1001 {
			s := float64(i) / 1000
			least = min(least, math.Hypot(a.X+s*(b.X-a.X)-p.X, a.Y+s*(b.Y-a.Y)-p.Y))
		}
		if got := deviation(p, a, b); got > least+1e-9 || got < least-0.02 {
			t.Errorf("%v is %v from the line from %v to %v, want %v", p, got, a, b, least)
		}
		if got := deviation(p, a, a); math.Abs(got-math.Hypot(p.X-a.X, p.Y-a.Y)) > 1e-9 {
			t.Errorf("%v is %v from %v", p, got, a)
		}
	}
	if got := apart([]sheet.Point{{}, {X: 9e-6}, {X: 2e-5}, {X: 2e-5}, {Y: 1}}); len(got) != 3 {
		t.Errorf("apart: %v", got)
	}
}
