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
	for _, want := range []string{`<rect x="10" y="40" width="50" height="50"/>`, `clip-path="url(#view1)"`, `<circle cx="30" cy="80" r="5"/>`} {
		if !strings.Contains(svg, want) {
			t.Errorf("missing %s in\n%s", want, svg)
		}
	}
	if strings.Count(svg, "<circle") != 1 {
		t.Errorf("a circle outside the view is drawn:\n%s", svg)
	}
}
