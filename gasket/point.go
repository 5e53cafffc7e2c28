package gasket

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

// A Point is a place on the face of a part: X to the right, Y up, as the face
// is looked at. The zero Point is the origin.
type Point struct{ X, Y units.Length }

// Add returns the point moved by q.
func (p Point) Add(q Point) Point { return Point{p.X.Add(q.X), p.Y.Add(q.Y)} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X.Sub(q.X), p.Y.Sub(q.Y)} }

// Turned returns the point turned anticlockwise about the origin. An angle that is
// not finite is a mistake of the program and panics.
func (p Point) Turned(by units.Angle) Point {
	sin, cos := math.Sincos(by.Radians())
	return Point{p.X.Scale(cos).Sub(p.Y.Scale(sin)), p.X.Scale(sin).Add(p.Y.Scale(cos))}
}

// Distance returns the distance from p to q.
func (p Point) Distance(q Point) units.Length {
	return lengthOf(p.Sub(q).vec().abs())
}

// vec returns the point in millimetres, for the geometry inside the package.
func (p Point) vec() vec { return vec{p.X.MM(), p.Y.MM()} }

// A vec is a point or a step in millimetres.
type vec struct{ x, y float64 }

func (a vec) add(b vec) vec             { return vec{a.x + b.x, a.y + b.y} }
func (a vec) sub(b vec) vec             { return vec{a.x - b.x, a.y - b.y} }
func (a vec) scale(f float64) vec       { return vec{a.x * f, a.y * f} }
func (a vec) dot(b vec) float64         { return a.x*b.x + a.y*b.y }
func (a vec) cross(b vec) float64       { return a.x*b.y - a.y*b.x }
func (a vec) abs() float64              { return math.Sqrt(a.dot(a)) } // the squares do not overflow
func (a vec) left() vec                 { return vec{-a.y, a.x} }
func (a vec) turn(sin, cos float64) vec { return vec{a.x*cos - a.y*sin, a.x*sin + a.y*cos} }

func (a vec) point() Point { return Point{lengthOf(a.x), lengthOf(a.y)} }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// lengthOf returns a length of v millimetres, for results of arithmetic on
// lengths: v is finite and far below what a Length can hold.
func lengthOf(v float64) units.Length { return units.MM(1).Scale(v) }
