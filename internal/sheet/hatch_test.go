package sheet

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

// genLoop draws a star-shaped loop about the origin with arcs in some sides, so
// that it does not cross itself.
func genLoop(t *rapid.T) []Vertex {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	loop := make([]Vertex, n)
	for i := range loop {
		r := rapid.Float64Range(20, 60).Draw(t, "radius")
		bulge := 0.0
		if rapid.Bool().Draw(t, "curved") {
			bulge = rapid.Float64Range(-0.15, 0.15).Draw(t, "bulge")
		}
		loop[i] = Vertex{polar(r, 2*math.Pi*float64(i)/float64(n)), bulge}
	}
	return loop
}

// area returns the area of a loop: the triangles of its chords and, on each arc,
// the segment r^2 (sweep - sin sweep)/2 beyond the chord.
func area(loop []Vertex) float64 {
	sum := 0.0
	for s := range (polyline{loop, true}).sides() {
		sum += (s.from.X*s.to.Y - s.from.Y*s.to.X) / 2
		if s.bulge != 0 {
			a := s.arc()
			sum += a.radius * a.radius * (a.sweep - math.Sin(a.sweep)) / 2
		}
	}
	return sum
}

// TestHatchCoversTheArea compares the length of the hatch lines times their
// spacing with the area, at any angle, with a hole that has a gap round it.
func TestHatchCoversTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outside := genLoop(t)
		r := rapid.Float64Range(2, 6).Draw(t, "hole")
		hole := []Vertex{{Point{-r, 0}, 1}, {Point{r, 0}, 1}}
		d := New(MaxSize, MaxSize)
		const spacing = 0.05
		d.Hatch(thick, Hatch{
			Region: [][]Vertex{outside, hole}, Spacing: spacing,
			Angle: units.Angle(rapid.Float64Range(-4, 4).Draw(t, "angle")),
		})
		if d.Err() != nil {
			t.Fatal(d.Err())
		}
		length := 0.0
		for _, s := range d.shapes {
			l := s.form.(line)
			length += l.b.sub(l.a).abs()
		}
		want := math.Abs(area(outside)) - math.Pi*r*r
		// strips of width 0.05 mm over edges of some 400 mm
		if got := length * spacing; math.Abs(got-want) > 0.01*want {
			t.Fatalf("hatched %.2f mm2 of %.2f", got, want)
		}
	})
}

// TestHatchGap checks the two ends that a gap leaves.
func TestHatchGap(t *testing.T) {
	d := New(100, 100)
	square := straight([]Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}})
	d.Hatch(thick, Hatch{Region: [][]Vertex{square}, Spacing: 5, Gaps: []Box{{Point{3, 4}, Point{6, 6}}}})
	var got []line
	for _, s := range d.shapes {
		got = append(got, s.form.(line))
	}
	want := []line{{Point{0, 0}, Point{10, 0}}, {Point{0, 5}, Point{3, 5}}, {Point{6, 5}, Point{10, 5}}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
