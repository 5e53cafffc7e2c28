package diagram

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Labels in a row stand in their order, apart from each other and within the row, and none
// or no run of them could stand nearer to the middles of their spans.
func TestLabelsSideBySide(t *testing.T) {
	r := rand.New(rand.NewPCG(45, 16))
	full := 0
	for range 300 {
		var labels []label
		var from []float64
		for range 1 + r.IntN(6) {
			from = append(from, 10+90*r.Float64())
		}
		slices.Sort(from)
		for _, x := range from {
			words := strings.Repeat("word ", 1+r.IntN(3))
			labels = append(labels, label{from: x, to: x + 6*r.Float64(), lines: []string{words, "1"}})
		}
		slices.SortFunc(labels, func(a, b label) int { return int(math.Copysign(1, a.middle()-b.middle())) })
		const low, high = 5, 115
		middles, fits := sideBySide(labels, low, high)
		room := 0.0
		for _, l := range labels {
			if got, want := l.width(), sheet.TextWidth(l.lines[0], small); got != want {
				t.Errorf("a label is %v wide, want %v", got, want)
			}
			room += l.width()
		}
		room += between * float64(len(labels)-1)
		if fits != (room <= high-low) {
			t.Errorf("%v mm of labels have room on 110: %v", room, fits)
		}
		if !fits {
			full++
			continue
		}
		off := func(m []float64) (sum float64, ok bool) { // by how much they stand off, squared
			ok = true
			for i, l := range labels {
				sum += math.Pow(m[i]-l.middle(), 2)
				left := low + l.width()/2
				if i > 0 {
					left = m[i-1] + (labels[i-1].width()+l.width())/2 + between
				}
				ok = ok && m[i] > left-1e-9 && m[i] < high-l.width()/2+1e-9
			}
			return sum, ok
		}
		sum, ok := off(middles)
		if !ok {
			t.Fatalf("%v are not in order or within the row: %+v", middles, labels)
		}
		for first := range labels {
			for last := first; last < len(labels); last++ {
				for _, by := range []float64{-0.01, 0.01} {
					moved := slices.Clone(middles)
					for i := first; i <= last; i++ {
						moved[i] += by
					}
					if other, ok := off(moved); ok && other < sum-1e-9 {
						t.Fatalf("labels %d to %d would stand nearer by %v: %v, %+v", first, last, by, middles, labels)
					}
				}
			}
		}
	}
	if full > 150 {
		t.Errorf("%d of 300 rows are too full", full)
	}
}

// Of a text no line runs through and that stays within its span the nearest place is taken,
// to what a scan of places 0.01 mm apart finds.
func TestTextClearOfLines(t *testing.T) {
	r := rand.New(rand.NewPCG(46, 16))
	for range 300 {
		var lines []float64
		for range r.IntN(5) {
			lines = append(lines, 100*r.Float64())
		}
		low := 40 * r.Float64()
		high, width := low+60*r.Float64(), 4+20*r.Float64()
		want := (low + high) / 2
		free := func(x float64) bool {
			for _, l := range lines {
				if math.Abs(l-x) < width/2+0.7 { // clear of it by 0.7 mm
					return false
				}
			}
			return x-width/2 >= low && x+width/2 <= high
		}
		nearest := math.Inf(1)
		for x := low; x <= high; x += 0.01 {
			if free(x) {
				nearest = min(nearest, math.Abs(x-want))
			}
		}
		got := clearOf(lines, want, width, low, high)
		off := math.Abs(got - want)
		if math.IsInf(nearest, 1) && off > 0 && !free(got+1e-9) && !free(got-1e-9) || off > nearest+0.01 {
			t.Errorf("a text of %v between %v and %v, lines %v: at %v, one is free %v off", width, low, high, lines, got, nearest)
		}
	}
}

// What gaps leave of a row, and of a line up through texts, by a scan.
func TestWhatGapsLeave(t *testing.T) {
	r := rand.New(rand.NewPCG(47, 16))
	for range 200 {
		var gaps []sheet.Box
		l := &ladder{d: sheet.New(60, 60)}
		for range r.IntN(5) {
			at := sheet.Point{X: 40 * r.Float64(), Y: 40 * r.Float64()}
			box := sheet.Box{Min: at, Max: at.At(2+20*r.Float64(), 2+20*r.Float64())}
			gaps, l.texts = append(gaps, box), append(l.texts, box)
		}
		x, y := 60*r.Float64(), 60*r.Float64()
		left := spans(3, 57, y, gaps)
		l.upright(sheet.Edge, x, 3, 57)
		drawn := readDrawing(t, l.d).Strokes
		for k := range 540 {
			at := 3.05 + 0.1*float64(k)
			covered, near, between, close := false, false, false, false
			for _, g := range gaps {
				covered = covered || y >= g.Min.Y && y <= g.Max.Y && at > g.Min.X && at < g.Max.X
				near = near || math.Min(math.Abs(at-g.Min.X), math.Abs(at-g.Max.X)) < 1e-6
				across := x >= g.Min.X-0.3 && x <= g.Max.X+0.3
				between = between || across && at > g.Min.Y-0.3 && at < g.Max.Y+0.3
				close = close || across && math.Min(math.Abs(at-g.Min.Y+0.3), math.Abs(at-g.Max.Y-0.3)) < 0.25 // crumbs are left out
			}
			kept := slices.ContainsFunc(left, func(s [2]float64) bool { return at > s[0] && at < s[1] })
			if kept == covered && !near {
				t.Fatalf("a row at %v, at %v: kept %v of %v", y, at, kept, gaps)
			}
			up := slices.ContainsFunc(drawn, func(s check.Stroke) bool {
				return at > min(s.Spots[0].Y, s.Spots[1].Y) && at < max(s.Spots[0].Y, s.Spots[1].Y)
			})
			if up == between && !close {
				t.Fatalf("a line at %v, at %v: drawn %v of %v", x, at, up, gaps)
			}
		}
	}
}

func readDrawing(t *testing.T, d *sheet.Drawing) *check.Picture {
	t.Helper()
	var b strings.Builder
	if err := sheet.WriteSVG(&b, "x", d); err != nil {
		t.Fatal(err)
	}
	return check.ReadPicture(t, b.String())
}

// A dimension has its arrowheads inside where two have room, outside where not, and none
// where there is nothing to measure.
func TestDimensionArrows(t *testing.T) {
	for _, span := range []struct {
		long         float64
		heads, lines int
		out          float64 // from the span to the ends of the line
	}{{20, 2, 1, 0}, {3.21, 2, 1, 0}, {3.19, 2, 1, 2.5}, {0.051, 2, 1, 2.5}, {0.049, 0, 0, 0}} {
		d := sheet.New(60, 20)
		row{line: 10}.arrows(d, label{from: 20, to: 20 + span.long})
		p := readDrawing(t, d)
		if len(p.Fills) != span.heads || len(p.Strokes) != span.lines {
			t.Errorf("%v: %d heads, %d lines", span.long, len(p.Fills), len(p.Strokes))
			continue
		}
		for i, f := range p.Fills { // the tip first, then the corners 0.3 mm either side 1.4 mm behind
			tip := 20 + span.long*float64(i)
			way := float64(2*i-1) * math.Copysign(1, 1-2*span.out)
			for k, want := range []check.Spot{{X: tip, Y: 10}, {X: tip - 1.4*way, Y: 10 + 0.3*way}, {X: tip - 1.4*way, Y: 10 - 0.3*way}} {
				if math.Hypot(f.Spots[k].X-want.X, f.Spots[k].Y-want.Y) > 1e-3 {
					t.Errorf("%v: corner %d of head %d at %v, want %v", span.long, k, i, f.Spots[k], want)
				}
			}
		}
		if span.lines > 0 {
			a, b := p.Strokes[0].Spots[0], p.Strokes[0].Spots[1]
			if math.Abs(a.X-20+span.out) > 1e-3 || math.Abs(b.X-20-span.long-span.out) > 1e-3 || a.Y != 10 || b.Y != 10 {
				t.Errorf("%v: a line from %v to %v", span.long, a, b)
			}
		}
	}
}

// A cavity or a lip past its port needs rows of its own from there on, at either end.
func TestLapsOverOneAnother(t *testing.T) {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)} // from 4.5 to 6.5 mm
	for _, c := range []struct {
		length, cavity, off float64
		want                bool
	}{
		{16, 13, 0, false}, {16, 13.001, 0, true}, {16, 9, 2, false}, {16, 9, 2.001, true}, {16, 9, -2, false}, {16, 9, -2.001, true},
		{9, 7, 0, false}, {8.999, 7, 0, true}, {15.4, 9, 0, false},
	} {
		g := eccentric.Gear{Stroke: units.MM(25), Travel: units.MM(7), Ports: ports,
			Valve: eccentric.Valve{Length: units.MM(c.length), Cavity: units.MM(c.cavity), CavityOffset: units.MM(c.off)}}
		if got := sharesSpan(g); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
