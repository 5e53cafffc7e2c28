package sheet

import "testing"

func TestTouches(t *testing.T) {
	d := New(100, 100)
	d.Circle(thick, Point{50, 50}, 10)
	d.Line(thick, Point{0, 0}, Point{20, 20})
	d.Polyline(thick, false, Vertex{Point{70, 0}, 0}, Vertex{Point{70, 20}, -1}, Vertex{Point{90, 20}, 0})
	d.Text(thick, Text{At: Point{10, 90}, Height: 3, Value: "M3"})
	for _, tt := range []struct {
		name string
		at   Point
		want bool
	}{
		{"inside a circle", Point{50, 50}, false}, {"on a circle", Point{60, 50}, true}, {"in its corner", Point{58.5, 58.5}, false},
		{"on a line", Point{10, 10}, true}, {"beside a line", Point{16, 4}, false},
		{"on a side", Point{70, 10}, true}, {"on the arc of a side", Point{80, 30}, true}, {"under that arc", Point{80, 22}, false}, {"between the ends of an open line", Point{80, 10}, false},
		{"on a text", Point{11, 91}, true},
	} {
		if got := d.Touches(Box{tt.at.At(-1, -1), tt.at.At(1, 1)}); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}
