package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Of what may lie before a plan the middle way is taken, or 10 mm less or more where a match
// line is then further from the middle of the part, up to 8 mm.
func TestMatchLinesAside(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 16))
	aside := 0
	for range 2000 {
		room, plan := 100+300*r.Float64(), 60+1500*r.Float64()
		middle := plan * (0.3 + 0.4*r.Float64())
		n := tiles(plan, room)
		spare := (float64(n)*(room-12) + 12 - plan) / 2
		clear := func(at float64) float64 {
			least := 8.0
			for k := 1; k < n; k++ {
				least = min(least, math.Abs(float64(k)*(room-12)+6-at-middle))
			}
			return least
		}
		want := spare
		for _, at := range []float64{max(0, spare-10), min(2*spare, spare+10)} {
			if clear(at) > clear(want) {
				want = at
			}
		}
		if got := before(n, room, plan, middle); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%d sheets of %v for %v about %v: %v before it, want %v", n, room, plan, middle, got, want)
		}
		if want != spare {
			aside++
		}
	}
	if aside < 100 {
		t.Errorf("%d of 2000 plans stand aside", aside)
	}
	for _, c := range []struct {
		need, room float64
		n          int
	}{{100, 100, 1}, {100.001, 100, 2}, {188, 100, 2}, {188.001, 100, 3}} {
		if got := tiles(c.need, c.room); got != c.n {
			t.Errorf("%v on sheets of %v: %d", c.need, c.room, got)
		}
	}
}

// A leader keeps its angle where that is 8 degrees off the hatching and the axes, and turns
// by 5 degrees or more where it is nearer; and it turns away from holes.
func TestLeaderAngles(t *testing.T) {
	p := &plan{Drawing: sheet.New(1000, 1000), edge: sheet.Corners(circle(sheet.Point{}, 30))} // nothing in the way
	for _, c := range []struct {
		wanted float64
		stays  bool
	}{{53.5, true}, {52.5, false}, {36.5, true}, {37.5, false}, {8.5, true}, {7.5, false}, {81.5, true}, {82.5, false},
		{98.5, true}, {97.5, false}, {233.5, true}, {232.5, false}, {150, true}, {188.5, true}, {172.5, false}} {
		leader, _ := p.bestLeader(sheet.Point{}, 15, c.wanted, 40, "a")
		angle := math.Atan2(leader.Elbow.Y, leader.Elbow.X) * 180 / math.Pi
		if off := apart(angle, c.wanted, 360); (off < 1e-6) != c.stays || off > 40.001 {
			t.Errorf("a leader wanted at %v stands at %v", c.wanted, angle)
		}
		if tip := math.Hypot(leader.Tip.X, leader.Tip.Y); math.Abs(tip-15) > 1e-9 {
			t.Errorf("its tip is %v from the middle", tip)
		}
	}
	r := rand.New(rand.NewPCG(33, 16))
	for _, n := range []int{0, 1, 9, 60, 61} {
		q := &plan{Drawing: sheet.New(100, 100)}
		for range n {
			q.outline.Holes = append(q.outline.Holes, drilled("", 40*r.Float64()-20, 40*r.Float64()-20, 2))
		}
		for range 20 {
			centre, angle := sheet.Point{X: 4 * r.Float64(), Y: 4 * r.Float64()}, 360*r.Float64()-180
			to := centre.At(20*math.Cos(angle*math.Pi/180), 20*math.Sin(angle*math.Pi/180))
			seen, beside := 180.0, math.Inf(1)
			for _, h := range q.outline.Holes {
				at := place(h.At)
				x, y := at.X-centre.X, at.Y-centre.Y
				way := direction(angle * math.Pi / 180) // of the leader: the angle between both by their product
				seen = min(seen, math.Acos(max(-1, min(1, (x*way.X+y*way.Y)/math.Hypot(x, y))))*180/math.Pi)
				beside = min(beside, distance(at, centre, to)-1)
			}
			if n > 60 { // too many to matter
				seen, beside = 180, math.Inf(1)
			}
			if got := q.clearOfHoles(centre, angle); math.Abs(got-seen) > 1e-6 {
				t.Errorf("%d holes: the nearest is %v degrees off, want %v", n, got, seen)
			}
			if got := q.besideHoles(centre, to); got != beside && math.Abs(got-beside) > 1e-9 {
				t.Errorf("%d holes: the nearest is %v mm off, want %v", n, got, beside)
			}
		}
	}
}

// Where the places are counted from: the middle, a point on the part or its edge, or one off
// it.
func TestDatums(t *testing.T) {
	for _, c := range []struct {
		x, y float64 // of the middle of 20 by 10 mm
		want datum
	}{
		{0, 0, middleDatum}, {0.0009, 0, middleDatum}, {0.0011, 0, markedDatum}, {10, 5, markedDatum}, {-10, -5, markedDatum},
		{10.001, 0, farDatum}, {-10.001, 0, farDatum}, {0, 5.001, farDatum}, {0, -5.001, farDatum}, {-10, 5, markedDatum}, {10, -5, markedDatum},
	} {
		o, err := gasket.Rectangular("x", gasket.Rect{Centre: at(c.x, c.y), Width: units.MM(20), Height: units.MM(10)}, nil,
			gasket.Pattern{drilled("", c.x, c.y, 3)})
		if err != nil {
			t.Fatal(err)
		}
		m := layoutOf(t, o, Options{})
		p := &plan{box: sheet.BoundsOf(vertices(o.Outside))}
		if got := p.datum(); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
		title := [...]string{"HOLES FROM THE MIDDLE, mm", "HOLES FROM 0, mm", "HOLES FROM 0, OFF THE PART, mm"}[c.want]
		picture := pictureOf(t, m) // lists one hole as well as more
		if !picture.Says(title) {
			t.Errorf("%+v: %q is not said", c, title)
		}
		marked := 0
		for _, round := range picture.Circles {
			if round.Layer == "DIMENSIONS" && math.Abs(round.Radius-0.8) < 1e-3 {
				marked++
			}
		}
		if (marked == 1) != (c.want == markedDatum) {
			t.Errorf("%+v: %d marks of the datum", c, marked)
		}
	}
}

// A loop of two arcs is cut as a circle only where both are halves of one; corners are noted
// on the smallest of parts; and what is refused gives no figures.
func TestSmallAndOddLoops(t *testing.T) {
	for _, c := range []struct {
		first, second float64
		circles       int
	}{{1, 1, 1}, {-1, -1, 1}, {1, 0.3, 0}, {0.3, 1, 0}, {0.5, 0.5, 0}} {
		o := gasket.Outline{Name: "x", Outside: gasket.Loop{{Point: at(-10, 0), Bulge: c.first}, {Point: at(10, 0), Bulge: c.second}}}
		m := layoutOf(t, o, Options{})
		var file strings.Builder
		if err := m.WriteCutSVG(&file); err != nil {
			t.Fatal(err)
		}
		if got := len(check.ReadPicture(t, file.String()).Circles); got != c.circles {
			t.Errorf("%+v: %d circles", c, got)
		}
	}
	loop, err := gasket.Rect{Width: units.MM(0.5), Height: units.MM(0.5), Corner: units.MM(0.1)}.Loop()
	if err != nil {
		t.Fatal(err)
	}
	if all := roundings(loop); len(all) != 1 || len(all[0].arcs) != 4 || math.Abs(all[0].radius.MM()-0.1) > 1e-9 {
		t.Errorf("%+v", all)
	}
	if f, err := Factor(units.MM(100), units.MM(10)); f != 0 || err == nil {
		t.Errorf("%v, %v", f, err)
	}
	if x, y, err := (Correction{X: 1, Y: 3}).scale(); x != 0 || y != 0 || err == nil {
		t.Errorf("%v, %v, %v", x, y, err)
	}
	seen := gasket.Circle(gasket.Point{}, units.MM(5))
	for name, m := range map[string]Marking{
		"outside":                       {Face: gasket.Outline{Name: "x", Outside: seen}, Unseen: []gasket.Loop{seen, seen[:1]}},
		"an outside, openings or lines": {Face: gasket.Outline{Name: "x"}, Unseen: []gasket.Loop{seen}},
	} {
		if _, err := NewMarking(m, Options{}); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// lineCount is how many lines words of a height take in a width, one after the other.
func lineCount(text string, height, width float64) int {
	n, line := 1, ""
	for word := range strings.FieldsSeq(text) {
		if longer := strings.TrimSpace(line + " " + word); sheet.TextWidth(longer, height) <= width {
			line = longer
		} else {
			n, line = n+1, word
		}
	}
	return n
}

// Notes and warnings are broken where they reach the frame, so that with so many words a
// sheet is just full: notes in the strip beside the title, 98 mm wide, and warnings between
// the sides, all in 0.85 of the width for wider fonts.
func TestJustFull(t *testing.T) {
	full, fuller := 0, 0
	for words := 20; words < 1200; words += 31 {
		text := strings.Repeat("or ", words)
		lines := lineCount(text, 2.1, 0.85*(210-2*10-98-1.5))
		_, err := NewMarking(Marking{Face: gasket.Outline{Name: "x"}, Lines: []Line{{Name: "a"}}, Notes: []string{text}}, Options{})
		if (err == nil) != (lines <= 12) || err != nil && !strings.Contains(err.Error(), fmt.Sprintf("notes of %d lines", lines)) {
			t.Errorf("%d words in %d lines: %v", words, lines, err)
		}
		if err == nil {
			full++
		}
		_, err = New(Part{Outline: cover(t), Thickness: units.MM(1), Remarks: []string{strings.Repeat(text, 3)}}, Options{})
		lines = lineCount("Mind: "+strings.Repeat(text, 3), 2.5, 0.85*(210-2*10-8))
		if (err == nil) != (lines <= 34) || err != nil && !strings.Contains(err.Error(), fmt.Sprintf("warnings of %d lines", lines)) {
			t.Errorf("%d words of warnings in %d lines: %v", 3*words, lines, err)
		}
		if err == nil {
			fuller++
		}
	}
	if full < 5 || fuller < 5 {
		t.Errorf("%d and %d texts had room", full, fuller)
	}
}
