package check

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// smallestCapital is the least height of letters on a picture in a page.
const smallestCapital = 2.5 // mm

// Legible reports every text of a picture that runs off the sheet, stands on another
// one, is smaller than can be read on paper or stands on its head; every line that runs
// off the sheet; and every line that runs through a text, but those on the layers named.
func Legible(t testing.TB, p *Picture, through ...string) {
	t.Helper()
	LegibleFrom(t, p, smallestCapital, through...)
}

// LegibleFrom is [Legible] for a sheet that is read on the bench, with letters of another
// least height in millimetres.
func LegibleFrom(t testing.TB, p *Picture, least float64, through ...string) {
	t.Helper()
	for _, fault := range p.illegible(least, through) {
		t.Errorf("%s: %s", p.Title, fault)
	}
}

func (p *Picture) illegible(least float64, through []string) []string {
	var faults []string
	tell := func(format string, values ...any) { faults = append(faults, fmt.Sprintf(format, values...)) }
	on := func(s Spot) bool {
		const rounding = 1e-3
		return s.X >= -rounding && s.Y >= -rounding && s.X <= p.Width+rounding && s.Y <= p.Height+rounding
	}
	lines := slices.Concat(p.Strokes, p.Fills)
	for _, c := range p.Circles {
		lines = append(lines, c.stroke())
	}
	for _, s := range lines {
		if i := slices.IndexFunc(s.Spots, func(s Spot) bool { return !on(s) }); i >= 0 {
			tell("a line of %s runs off the sheet at %.2f, %.2f", s.Layer, s.Spots[i].X, s.Spots[i].Y)
		}
	}
	for i, w := range p.Texts {
		if w.Capital < least-0.01 {
			tell("%q is %.2f mm high", w.Value, w.Capital)
		}
		if math.Abs(w.Turn) > 90.01 {
			tell("%q stands on its head", w.Value)
		}
		for _, corner := range w.Box {
			if !on(corner) {
				tell("%q runs off the sheet at %.2f, %.2f", w.Value, corner.X, corner.Y)
				break
			}
		}
		box := w.shrunk(0.05)
		for _, other := range p.Texts[i+1:] {
			if meet(box, other.shrunk(0.05)) {
				tell("%q and %q overlap at %.1f, %.1f", w.Value, other.Value, w.Box[0].X, w.Box[0].Y)
			}
		}
		for _, s := range lines {
			if !slices.Contains(through, s.Layer) && s.crosses(box) {
				tell("a line of %s runs through %q at %.1f, %.1f", s.Layer, w.Value, w.Box[0].X, w.Box[0].Y)
				break
			}
		}
	}
	return faults
}

func (c Round) stroke() Stroke {
	s := Stroke{Layer: c.Layer, Closed: true}
	for i := range 256 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 256)
		s.Spots = append(s.Spots, Spot{c.Centre.X + c.Radius*cos, c.Centre.Y + c.Radius*sin})
	}
	return s
}

// shrunk returns the box of a text without a rim.
func (w Writing) shrunk(by float64) [4]Spot {
	sin, cos := math.Sincos(w.Turn * math.Pi / 180)
	box := w.Box
	for i, d := range [4]Spot{{by, by}, {-by, by}, {-by, -by}, {by, -by}} {
		box[i].X += d.X*cos - d.Y*sin
		box[i].Y += d.X*sin + d.Y*cos
	}
	return box
}

// crosses reports whether a line has something of it in a box.
func (s Stroke) crosses(box [4]Spot) bool {
	n := len(s.Spots)
	for i := range n {
		if i == n-1 && !s.Closed {
			break
		}
		a, b := s.Spots[i], s.Spots[(i+1)%n]
		if meet(box, [4]Spot{a, b, b, a}) {
			return true
		}
	}
	return false
}

// meet reports whether two convex shapes have a point in common: they have none if all
// of one lies beyond all of the other along the normal of a side.
func meet(a, b [4]Spot) bool {
	for _, sides := range [2][4]Spot{a, b} {
		for i := range 4 {
			p, q := sides[i], sides[(i+1)%4]
			normal := Spot{q.Y - p.Y, p.X - q.X}
			if normal == (Spot{}) {
				continue
			}
			lowA, highA := along(a, normal)
			lowB, highB := along(b, normal)
			if highA < lowB || highB < lowA {
				return false
			}
		}
	}
	return true
}

func along(shape [4]Spot, way Spot) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, s := range shape {
		v := s.X*way.X + s.Y*way.Y
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
