package template

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// TestDimensionsNest checks that the shorter of two dimensions on one side is the
// one nearer to the part, so that its line is not crossed.
func TestDimensionsNest(t *testing.T) {
	studs, err := gasket.Rectangle(2, 2, units.MM(30), units.MM(34))
	if err != nil {
		t.Fatal(err)
	}
	for _, opening := range []float64{20, 24} {
		outside := gasket.Rect{Width: units.MM(40), Height: units.MM(44)}
		inside := gasket.Rect{Width: units.MM(opening), Height: units.MM(opening)}
		o, err := gasket.Rectangular("x", outside, []gasket.Rect{inside}, studs.Drilled(units.MM(3)))
		if err != nil {
			t.Fatal(err)
		}
		text := regexp.MustCompile(`x="([^"]*)" y="([^"]*)"[^>]*>(30|34|20|24)</text>`)
		place := map[string][]float64{}
		for _, m := range text.FindAllStringSubmatch(svg(t, layoutOf(t, o, Options{}), 1), -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			place[m[3]] = append(place[m[3]], x, y)
		}
		inner, outer := place[fmt.Sprint(opening)], append(place["30"], place["34"]...)
		if len(inner) != 4 || len(outer) != 4 || inner[1] <= outer[1] || inner[2] <= outer[2] {
			t.Errorf("opening of %g: its dimensions at %v, those of the holes at %v", opening, inner, outer)
		}
	}
}

// TestLeaderClear checks that the note of an opening keeps off the dimension
// beside the part.
func TestLeaderClear(t *testing.T) {
	studs := gasket.Pattern{
		{At: gasket.Point{X: units.MM(8), Y: units.MM(8)}, Diameter: units.MM(3)},
		{At: gasket.Point{X: units.MM(8), Y: units.MM(92)}, Diameter: units.MM(3)},
	}
	middle := gasket.Point{X: units.MM(40), Y: units.MM(50)}
	o, err := gasket.Rectangular("x", gasket.Rect{Centre: middle, Width: units.MM(80), Height: units.MM(100)}, nil, studs)
	if err != nil {
		t.Fatal(err)
	}
	o.Cutouts = []gasket.Loop{gasket.Circle(gasket.Point{X: units.MM(30), Y: units.MM(20)}, units.MM(20))}
	place := map[string]float64{}
	for _, m := range regexp.MustCompile(` x="([^"]*)"[^>]*>(84|ø20)</text>`).FindAllStringSubmatch(svg(t, layoutOf(t, o, Options{}), 1), -1) {
		place[m[2]], _ = strconv.ParseFloat(m[1], 64)
	}
	if note, line := place["ø20"], place["84"]; note == 0 || line == 0 || note < line+1 && note+6.5 > line-1 {
		t.Errorf("the note begins at %.2f, the dimension line stands near %.2f", note, line)
	}
}

// TestLeaderOffHatch checks that a leader does not run along the hatching when it
// gives way to a hole at its own angle.
func TestLeaderOffHatch(t *testing.T) {
	studs, err := gasket.BoltCircle(3, units.MM(28), 30*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Round("x", units.MM(36), units.MM(20), studs.Drilled(units.MM(3)))
	if err != nil {
		t.Fatal(err)
	}
	file := svg(t, layoutOf(t, o, Options{}), 1)
	group := regexp.MustCompile(`(?s)<g class="DIMENSIONS".*?</g>`).FindString(file)
	leaders := 0
	for _, m := range regexp.MustCompile(`<line x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>`).FindAllStringSubmatch(group, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		if v[1] == v[3] {
			continue // the shelf of a note
		}
		leaders++
		if angle := math.Atan2(v[1]-v[3], v[2]-v[0]) * 180 / math.Pi; apart(angle, hatchAngle, 180) < 8 {
			t.Errorf("a leader at %.1f degrees", angle)
		}
	}
	if leaders < 3 {
		t.Errorf("%d leaders, want those of the outside, the holes and the opening", leaders)
	}
}

// Leaders of corners keep off the holes beside them, and the numbers of the holes off
// the leaders: an opening 16 by 26 mm with corners of 2 mm has a hole of 3.4 mm on the
// diagonal of each.
func TestLeadersKeepOffHoles(t *testing.T) {
	holes, err := gasket.Rectangle(2, 3, units.MM(23), units.MM(33))
	if err != nil {
		t.Fatal(err)
	}
	chest, err := gasket.Rectangular("Chest", gasket.Rect{Width: units.MM(30), Height: units.MM(40), Corner: units.MM(3)},
		[]gasket.Rect{{Width: units.MM(16), Height: units.MM(26), Corner: units.MM(2)}}, holes.Drilled(units.MM(3.4)))
	if err != nil {
		t.Fatal(err)
	}
	for _, inch := range []bool{false, true} {
		p, err := newPlan(chest, rulerOf(inch))
		if err != nil || len(p.leaders) != 2 {
			t.Fatalf("%v, %d leaders", err, len(p.leaders))
		}
		for _, l := range p.leaders {
			if clear := p.besideHoles(l[0], l[1]); clear < 1.5 {
				t.Errorf("inch %v: a leader %.2f mm from a hole", inch, clear)
			}
		}
	}
	p := &plan{Drawing: sheet.New(100, 100), leaders: [][2]sheet.Point{{{X: 0, Y: 0}, {X: 10, Y: 10}}}}
	for _, test := range []struct {
		x, y float64 // of the middle of a number
		hole sheet.Point
		want bool
	}{
		{5, 5, sheet.Point{X: 20, Y: 5}, true},   // on it
		{5, 8, sheet.Point{X: 0, Y: 8}, true},    // 2.1 mm from it
		{5, 8.5, sheet.Point{X: 0, Y: 8}, false}, // 2.5 mm
		{5, 9, sheet.Point{X: 9, Y: 2}, true},    // its own line crosses it
		{14, 14, sheet.Point{X: 20, Y: 14}, false},
	} {
		n := number{text: sheet.Text{At: sheet.Point{X: test.x, Y: test.y - labelHeight/2}, Height: labelHeight, Value: "1", Anchor: sheet.Middle}}
		if got := p.hides(n, test.hole); got != test.want {
			t.Errorf("number at %g, %g: %v", test.x, test.y, got)
		}
	}
}

// The shelf of a note counts: an outline with an extension line just below a note takes
// another place for it.
func TestNotesKeepOffLines(t *testing.T) {
	b := withShelf(sheet.Leader{Tip: sheet.Point{}, Elbow: sheet.Point{X: 10, Y: 10}, Value: "R5"}.Box())
	d := sheet.New(100, 100)
	d.Line(dimLine, sheet.Point{X: 0, Y: 9.5}, sheet.Point{X: 50, Y: 9.5})
	if !d.Touches(b) {
		t.Errorf("a line half a millimetre below the shelf does not count: %v", b)
	}
}
