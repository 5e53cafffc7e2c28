package sheet

import (
	"bytes"
	"strings"
	"testing"
)

// TestView checks that a view moves what it shows, cuts it off and leaves out
// what lies elsewhere.
func TestView(t *testing.T) {
	plan := New(1000, 1000)
	plan.Circle(thick, Point{500, 500}, 5)
	plan.Circle(thick, Point{900, 500}, 5)
	d := New(100, 100)
	d.View(View{Of: plan, From: Point{480, 490}, Box: Box{Min: Point{10, 10}, Max: Point{60, 60}}})
	var b bytes.Buffer
	if err := WriteSVG(&b, "", d); err != nil {
		t.Fatal(err)
	}
	svg := b.String()
	for _, want := range []string{`<clipPath id="view1"><rect fill="none" x="10" y="40" width="50" height="50"/></clipPath>`, `clip-path="url(#view1)"`, `<circle cx="30" cy="80" r="5"/>`} {
		if !strings.Contains(svg, want) {
			t.Errorf("missing %s in\n%s", want, svg)
		}
	}
	if strings.Count(svg, "<circle") != 1 {
		t.Errorf("a circle outside the view is drawn:\n%s", svg)
	}
}

// Nothing clips where nothing runs out of the box, to the width of the lines, and
// sizes but those of the sheet itself are plain numbers.
func TestViewUnclipped(t *testing.T) {
	plan := New(1000, 1000)
	plan.Circle(thick, Point{500, 500}, 5)
	for _, test := range []struct {
		side float64 // of the box about the circle
		clip int
	}{{9, 1}, {10, 1}, {10.9, 1}, {11, 0}, {40, 0}} {
		d := New(100, 100)
		d.Stretch(1.02, 1)
		from, half := Point{500 - test.side/2, 500 - test.side/2}, test.side/2
		d.View(View{Of: plan, From: from, Box: Box{Min: Point{50 - half, 50 - half}, Max: Point{50 + half, 50 + half}}})
		var b bytes.Buffer
		if err := WriteSVG(&b, "", d); err != nil {
			t.Fatal(err)
		}
		svg := b.String()
		left := `<circle cx="50" cy="50" r="5"/>`
		if test.side < 10 { // four arcs of it; half of 9 is 5 cos 25.84, and 5 sin 25.84 = 2.1794
			left = `<path d="M54.5 47.8206A5 5 0 0 0 53.5355 46.4645A5 5 0 0 0 52.1794 45.5"/>`
		}
		if strings.Count(svg, "clipPath id=") != test.clip || strings.Count(svg, "clip-path=") != test.clip || !strings.Contains(svg, left) {
			t.Errorf("a box of %v mm:\n%s", test.side, svg)
		}
		if strings.Contains(svg, "%") || !strings.Contains(svg, `width="102mm" height="100mm" viewBox="0 0 102 100"`) ||
			!strings.Contains(svg, `<rect class="PAPER" width="102" height="100" fill="#fff"/>`) {
			t.Errorf("sizes:\n%s", svg)
		}
		if test.clip == 1 && !strings.Contains(svg, `<rect fill="none"`) {
			t.Errorf("what clips is filled:\n%s", svg)
		}
	}
}
