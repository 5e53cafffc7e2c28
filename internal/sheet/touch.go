package sheet

import "math"

// Touches reports whether any line, arc or text of the drawing runs through the
// box. Arcs within polylines are taken as a chain of chords.
func (d *Drawing) Touches(b Box) bool {
	for _, s := range d.shapes {
		if b.overlaps(s.low, s.high) && b.touched(s.form) {
			return true
		}
	}
	return false
}

func (b Box) touched(form any) bool {
	through := func(p, q Point) bool {
		_, _, ok := b.clip(p, q)
		return ok
	}
	switch f := form.(type) {
	case line:
		return through(f.a, f.b)
	case circle:
		nearest := f.centre.max(b.Min).min(b.Max)
		farthest := Point{b.Min.X, b.Min.Y}
		if math.Abs(b.Max.X-f.centre.X) > math.Abs(farthest.X-f.centre.X) {
			farthest.X = b.Max.X
		}
		if math.Abs(b.Max.Y-f.centre.Y) > math.Abs(farthest.Y-f.centre.Y) {
			farthest.Y = b.Max.Y
		}
		return nearest.sub(f.centre).abs() <= f.radius && farthest.sub(f.centre).abs() >= f.radius
	case polyline:
		points := Corners(f.vertices)
		for i, p := range points {
			if (i+1 < len(points) || f.closed) && through(p, points[(i+1)%len(points)]) {
				return true
			}
		}
		return false
	}
	return true // the box round an arc, a filled shape, a text or a view
}
