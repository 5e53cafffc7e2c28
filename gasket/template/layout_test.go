package template

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// TestTilesCover checks that the sheets cover the part, overlaps counted once, and
// that none is too many.
func TestTilesCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need, room := rapid.Float64Range(1, 3000).Draw(t, "need"), rapid.Float64Range(50, 400).Draw(t, "room")
		n := tiles(need, room)
		if covered := float64(n)*(room-overlap) + overlap; covered < need-1e-9 {
			t.Fatalf("%d sheets of %g cover %g of %g", n, room, covered, need)
		}
		if n > 1 && float64(n-1)*(room-overlap)+overlap >= need {
			t.Fatalf("%d sheets of %g for %g: one too many", n, room, need)
		}
	})
}

// TestBefore checks that match lines keep off the middle of the part, and that the
// sheets still cover the plan.
func TestBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, room := rapid.Float64Range(60, 2000).Draw(t, "plan"), rapid.Float64Range(100, 400).Draw(t, "room")
		middle := rapid.Float64Range(0.3, 0.7).Draw(t, "middle") * plan
		n := tiles(plan, room)
		at := before(n, room, plan, middle)
		spare := float64(n)*(room-overlap) + overlap - plan
		if at < -1e-9 || at > spare+1e-9 {
			t.Fatalf("%g before the plan of %g to spare", at, spare)
		}
		for k := 1; k < n && spare >= 20; k++ {
			if off := math.Abs(float64(k)*(room-overlap) + overlap/2 - at - middle); off < 2 {
				t.Fatalf("a match line is %g mm from the middle of the part", off)
			}
		}
	})
}

// TestTilesJoin checks that two sheets show the same where they overlap, when
// they are laid on each other by their targets.
func TestTilesJoin(t *testing.T) {
	layout := layoutOf(t, plate(t, 50), Options{})
	circle := regexp.MustCompile(`<circle cx="([^"]*)" cy="([^"]*)" r="([^"]*)"/>`)
	circles := func(page int, radius string) (at [][2]float64) {
		for _, m := range circle.FindAllStringSubmatch(svg(t, layout, page), -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			if m[3] == radius {
				at = append(at, [2]float64{x, y})
			}
		}
		return at
	}
	// the middle of the line across each filled mark; a circle would be punched
	line := regexp.MustCompile(`<line x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>`)
	marks := func(page int) (at [][2]float64) {
		group := regexp.MustCompile(`(?s)<g class="MARKS".*?</g>`).FindString(svg(t, layout, page))
		for _, m := range line.FindAllStringSubmatch(group, -1) {
			var v [4]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			at = append(at, [2]float64{(v[0] + v[2]) / 2, (v[1] + v[3]) / 2})
		}
		if strings.Contains(group, "<circle") || strings.Count(group, `fill="#000"`) != 2*len(at) {
			t.Errorf("sheet %d: marks that are not two filled triangles:\n%s", page, group)
		}
		return at
	}
	const hole = "1.5"
	for _, next := range []int{2, 3} { // beside the first sheet, and above it
		var step [2]float64
		for _, p := range marks(1) {
			for _, q := range marks(next) {
				across := p[0] > q[0]+100 && math.Abs(p[1]-q[1]) < 1e-3
				up := q[1] > p[1]+100 && math.Abs(p[0]-q[0]) < 1e-3
				if next == 2 && across || next == 3 && up {
					step = [2]float64{q[0] - p[0], q[1] - p[1]}
				}
			}
		}
		there := map[[2]int]bool{}
		key := func(x, y float64) [2]int { return [2]int{int(math.Round(x * 100)), int(math.Round(y * 100))} }
		for _, q := range circles(next, hole) {
			there[key(q[0], q[1])] = true
		}
		both := 0
		for _, p := range circles(1, hole) {
			if there[key(p[0]+step[0], p[1]+step[1])] {
				both++
			}
		}
		// 12 mm of overlap hold two or three rows of holes 5 mm apart, about 35 long
		if both < 50 {
			t.Errorf("sheets 1 and %d, %.3f apart: %d holes on both", next, step, both)
		}
	}
}

// TestListBeside checks that the list of places leaves the part its room: a part
// as wide as they allow stands clear of it.
func TestListBeside(t *testing.T) {
	studs, err := gasket.Rectangle(2, 2, units.MM(40), units.MM(100))
	if err != nil {
		t.Fatal(err)
	}
	outside := gasket.Rect{Width: units.MM(56), Height: units.MM(110)}
	o, err := gasket.Rectangular("x", outside, nil, studs.Drilled(units.MM(3)))
	if err != nil {
		t.Fatal(err)
	}
	file := svg(t, layoutOf(t, o, Options{}), 1)
	list := regexp.MustCompile(` x="([^"]*)"[^>]*>HOLES FROM THE MIDDLE, mm<`).FindStringSubmatch(file)
	height := regexp.MustCompile(` x="([^"]*)"[^>]*>110</text>`).FindStringSubmatch(file)
	if list == nil || height == nil {
		t.Fatal("no list beside the part, or no dimension")
	}
	from, _ := strconv.ParseFloat(list[1], 64)
	if x, _ := strconv.ParseFloat(height[1], 64); x+2 > from {
		t.Errorf("the list begins at %.2f, the dimension of the part stands at %.2f", from, x)
	}
}

// What is said of printing stays inside the frame of the narrowest sheet, in a font too
// that is wider by the share that is kept free.
func TestHowToPrintFits(t *testing.T) {
	const scale = 132.0 / 114
	file := svg(t, layoutOf(t, cover(t), Options{Correction: Correction{X: scale}}), 1)
	found := 0
	for _, m := range regexp.MustCompile(`x="([^"]*)" y="[^"]*" textLength="([^"]*)"[^>]*>(PRINT|Cut only|If not|Corrected)`).FindAllStringSubmatch(file, -1) {
		x, _ := strconv.ParseFloat(m[1], 64)
		long, _ := strconv.ParseFloat(m[2], 64)
		if found++; x+long/otherFont > 210/scale-margin {
			t.Errorf("%s ends at %.1f mm of %.1f", m[3], x+long/otherFont, 210/scale-margin)
		}
	}
	if found != 4 {
		t.Errorf("%d lines", found)
	}
}
