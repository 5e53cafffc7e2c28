package template

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/valvechest/valvechest/gasket"
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
