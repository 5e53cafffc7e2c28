package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a box cuts off a shape is what lies outside it: points along the shape are on a
// part that is left when they are inside, and on none when they are outside.
func TestCut(t *testing.T) {
	box := Box{Point{-10, -6}, Point{12, 8}}
	along := func(form any) func(float64) Point {
		switch f := form.(type) {
		case line:
			return func(t float64) Point { return f.a.toward(f.b, t) }
		case circle:
			return arc{f.centre, f.radius, 0, fullTurn}.at
		case arc:
			return f.at
		}
		t.Fatalf("%T", form)
		return nil
	}
	// on returns whether a point is on one of the parts, within a micrometre.
	on := func(p Point, parts []part) bool {
		for _, part := range parts {
			switch f := part.form.(type) {
			case line:
				way := f.b.sub(f.a)
				share := min(1, max(0, dot(p.sub(f.a), way)/dot(way, way)))
				if f.a.toward(f.b, share).sub(p).abs() < 1e-6 {
					return true
				}
			case circle:
				return math.Abs(p.sub(f.centre).abs()-f.radius) < 1e-6
			case arc:
				if math.Abs(p.sub(f.centre).abs()-f.radius) > 1e-6 {
					continue
				}
				q := p.sub(f.centre)
				turn := math.Mod((math.Atan2(q.Y, q.X)-f.start)*math.Copysign(1, f.sweep), fullTurn)
				if turn < 0 {
					turn += fullTurn
				}
				if turn <= math.Abs(f.sweep)+1e-7 || turn > fullTurn-1e-7 {
					return true
				}
			}
		}
		return false
	}
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, most float64) float64 { return rapid.Float64Range(-most, most).Draw(t, name) }
		centre, radius := Point{number("x", 20), number("y", 20)}, 0.5+math.Abs(number("r", 25))
		var form any
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			form = line{centre, centre.At(1+number("dx", 30), 31+number("dy", 30))}
		case 1:
			form = circle{centre, radius}
		case 2:
			form = arc{centre, radius, number("start", 4), math.Copysign(0.1+math.Abs(number("sweep", 6)), number("way", 1))}
		}
		parts, at := box.cut(form), along(form)
		for i := 0; i <= 40; i++ {
			p := at(float64(i) / 40)
			inside := p.X > box.Min.X+1e-6 && p.X < box.Max.X-1e-6 && p.Y > box.Min.Y+1e-6 && p.Y < box.Max.Y-1e-6
			outside := p.X < box.Min.X-1e-6 || p.X > box.Max.X+1e-6 || p.Y < box.Min.Y-1e-6 || p.Y > box.Max.Y+1e-6
			if got := on(p, parts); inside && !got || outside && got {
				t.Fatalf("%+v at %v is left: %v, in %+v", form, p, got, parts)
			}
		}
		for _, part := range parts { // each begins as far along as it says
			first, length := along(part.form)(0), 0.0
			switch f := form.(type) {
			case line:
				length = f.b.sub(f.a).abs()
			case circle:
				length = fullTurn * f.radius
			case arc:
				length = math.Abs(f.sweep) * f.radius
			}
			if there := at(part.from / length); there.sub(first).abs() > 1e-6 {
				t.Fatalf("%+v begins at %v, said to be at %v", part, first, there)
			}
		}
	})
}

// A polyline that is inside stays one, and keeps its corners; one that is not comes in
// parts, with what is filled and written left whole.
func TestCutPolyline(t *testing.T) {
	box := Box{Point{0, 0}, Point{10, 10}}
	inside := polyline{[]Vertex{{Point: Point{1, 1}}, {Point: Point{9, 1}, Bulge: 0.2}, {Point: Point{5, 9}}}, true}
	if parts := box.cut(inside); len(parts) != 1 {
		t.Errorf("%+v", parts)
	}
	square := polyline{[]Vertex{{Point: Point{5, 5}}, {Point: Point{15, 5}}, {Point: Point{15, 15}}, {Point: Point{5, 15}}}, true}
	parts := box.cut(square)
	if len(parts) != 2 || parts[0].form != any(line{Point{5, 5}, Point{10, 5}}) || parts[0].from != 0 ||
		parts[1].form != any(line{Point{5, 10}, Point{5, 5}}) || parts[1].from != 35 {
		t.Errorf("%+v", parts)
	}
	if parts := box.cut(Text{At: Point{9, 9}, Value: "long"}); len(parts) != 1 {
		t.Errorf("%+v", parts)
	}
}
