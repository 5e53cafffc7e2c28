package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"sync"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("sheet")

// MaxPoints is the largest number of points in one drawing: two for a line, one
// for a circle, an arc or a text, the vertices of a polyline.
const MaxPoints = 500_000

// MaxSize is the largest size of a sheet, and the largest coordinate either
// way, in millimetres.
const MaxSize = 10_000

// A Drawing is a sheet of the given size in millimetres and what is on it.
type Drawing struct {
	width, height    float64
	scaleX, scaleY   float64
	layers           []Layer
	shapes           []shape
	points           int
	err              error
	low, high        Point // of everything drawn
	drawnOn, clipped bool
}

// A Point is a place on the sheet in millimetres, Y up.
type Point struct{ X, Y float64 }

// A Vertex is a corner of a polyline and the shape of the side that leaves it.
type Vertex struct {
	Point
	Bulge float64 // tan(sweep/4) of the side to the next vertex, positive anticlockwise
}

// A Box is a rectangle along the axes.
type Box struct{ Min, Max Point }

// A Layer says how the lines on it look. Drawings know a layer by its name: 1 to
// 31 of the letters A to Z, digits, dollar, hyphen and low line.
type Layer struct {
	Name    string
	Width   float64 // of the line, in millimetres
	Pattern Pattern
	Colour  int // number of the colour in DXF, 1 to 255; SVG and PDF are black
}

// A Pattern says how a line is broken.
type Pattern int

// The line patterns.
const (
	Continuous Pattern = iota
	Dashed             // hidden edges, edges of something else
	Chain              // centre lines: long and short dashes
	Dotted             // rows of dots, for what fills a space
)

// lengths returns the dashes and gaps of the pattern in millimetres. Common
// practice for lines of 0.18 to 0.35 mm.
func (p Pattern) lengths() []float64 {
	switch p {
	case Dashed:
		return []float64{3, 1}
	case Chain:
		return []float64{6, 0.8, 1.2, 0.8}
	case Dotted:
		return []float64{0.5, 1.5}
	}
	return nil
}

// New returns an empty sheet of the given size.
func New(width, height float64) *Drawing {
	d := &Drawing{width: width, height: height, scaleX: 1, scaleY: 1}
	for _, side := range [...]float64{width, height} {
		if !(side > 0 && side <= MaxSize) {
			d.refuse(fail.OutOfRange("side of the sheet", millimetres(side), "above 0 to 10,000 mm"))
		}
	}
	return d
}

// Size returns the width and height of the sheet in millimetres.
func (d *Drawing) Size() (width, height float64) { return d.width, d.height }

// Stretch makes SVG and PDF come out x times as wide and y times as high, sheet
// and all, against a printer that shrinks. DXF refuses a stretched drawing.
func (d *Drawing) Stretch(x, y float64) {
	for _, factor := range [...]float64{x, y} {
		if !(factor >= 0.5 && factor <= 2) {
			d.refuse(fail.OutOfRange("stretch", factor, "0.5 to 2"))
			return
		}
	}
	d.scaleX, d.scaleY = x, y
}

// Err returns the first thing that could not be drawn.
func (d *Drawing) Err() error { return d.err }

// Bounds returns the box round everything drawn, text by the width of the font.
func (d *Drawing) Bounds() Box { return Box{d.low, d.high} }

// Trimmed returns the sheet without its blank edges, but for a millimetre that is left of
// each; all of it where nothing is drawn.
func (d *Drawing) Trimmed() Box {
	const edge = 1
	sheet := Box{Max: Point{d.width, d.height}}
	if !d.drawnOn {
		return sheet
	}
	return Box{d.low.At(-edge, -edge).max(sheet.Min), d.high.At(edge, edge).min(sheet.Max)}
}

// Points returns the number of points drawn so far.
func (d *Drawing) Points() int { return d.points }

// Line draws a straight line.
func (d *Drawing) Line(l Layer, a, b Point) {
	d.add(&l, 2, line{a, b}, a, b)
}

// Circle draws a circle.
func (d *Drawing) Circle(l Layer, centre Point, radius float64) {
	if d.checkRadius(radius) {
		r := Point{radius, radius}
		d.add(&l, 1, circle{centre, radius}, centre.sub(r), centre.add(r))
	}
}

// Arc draws an arc anticlockwise from one angle to the other, both counted
// anticlockwise from the X axis.
func (d *Drawing) Arc(l Layer, centre Point, radius float64, from, to units.Angle) {
	start, sweep := math.Mod(from.Radians(), 2*math.Pi), math.Mod((to-from).Radians(), 2*math.Pi)
	if start < 0 {
		start += 2 * math.Pi
	}
	if sweep <= 0 {
		sweep += 2 * math.Pi
	}
	if math.IsNaN(start + sweep) {
		d.refuse(fail.NotFinite("angle of an arc", nil))
		return
	}
	if d.checkRadius(radius) {
		a := arc{centre, radius, start, sweep}
		low, high := a.bounds()
		d.add(&l, 1, a, low, high)
	}
}

// Polyline draws a line through the vertices, with arcs where they bulge.
func (d *Drawing) Polyline(l Layer, closed bool, vertices ...Vertex) {
	if len(vertices) < 2 {
		given := fmt.Sprintf("of %d vertices", len(vertices))
		d.refuse(fail.Argument("polyline", given, "", "two vertices or more", units.ErrMissing))
		return
	}
	if !d.room(len(vertices)) {
		return
	}
	p := polyline{slices.Clone(vertices), closed}
	low, high := vertices[0].Point, vertices[0].Point
	for s := range p.sides() {
		if math.IsNaN(s.bulge) || math.Abs(s.bulge) > 1000 {
			d.refuse(fail.OutOfRange("bulge", s.bulge, "-1000 to 1000"))
			return
		}
		a, b := s.bounds()
		low, high = low.min(a), high.max(b)
	}
	d.add(&l, len(vertices), p, low, high)
}

// Loop draws a closed polyline with straight sides through the points.
func (d *Drawing) Loop(l Layer, points ...Point) {
	d.Polyline(l, true, straight(points)...)
}

// Fill draws a filled triangle or four-sided shape.
func (d *Drawing) Fill(l Layer, corners ...Point) {
	if len(corners) != 3 && len(corners) != 4 {
		d.refuse(fail.OutOfRange("filled shape", fmt.Sprintf("of %d corners", len(corners)), "3 or 4 corners"))
		return
	}
	low, high := corners[0], corners[0]
	for _, c := range corners {
		low, high = low.min(c), high.max(c)
	}
	d.add(&l, len(corners), fill{slices.Clone(corners)}, low, high)
}

// A shape is one thing on a layer.
type shape struct {
	layer     int // in the layers of the drawing
	low, high Point
	form      any // line, circle, arc, polyline, fill, Text or View
}

type (
	line   struct{ a, b Point }
	circle struct {
		centre Point
		radius float64
	}
	arc struct {
		centre       Point
		radius       float64
		start, sweep float64 // radians, sweep above zero: anticlockwise
	}
	polyline struct {
		vertices []Vertex
		closed   bool
	}
	fill struct{ corners []Point }
)

// layerName is what DXF release 12 allows.
var layerName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Z0-9$_-]{1,31}$`) })

// noLayer stands for the layer of a view, which has none of its own.
const noLayer = -1

// add puts a form of n points on a layer unless the drawing has failed already.
func (d *Drawing) add(l *Layer, n int, form any, low, high Point) {
	if !d.room(n) {
		return
	}
	for _, v := range [...]float64{low.X, low.Y, high.X, high.Y} {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			d.refuse(fail.NotFinite("coordinate", v))
			return
		case math.Abs(v) > MaxSize:
			d.refuse(fail.OutOfRange("coordinate", millimetres(v), "-10,000 to 10,000 mm"))
			return
		}
	}
	d.points += n
	low, high = low.min(high), low.max(high)
	if d.drawnOn {
		d.low, d.high = d.low.min(low), d.high.max(high)
	} else {
		d.low, d.high, d.drawnOn = low, high, true
	}
	on := noLayer
	if l != nil {
		on = d.layer(*l)
	}
	d.shapes = append(d.shapes, shape{on, low, high, form})
}

// room reports whether n more points may be drawn.
func (d *Drawing) room(n int) bool {
	if d.err == nil && d.points+n > MaxPoints {
		accepted := fmt.Sprintf("up to %d points", MaxPoints)
		d.refuse(fail.OutOfRange("drawing", fmt.Sprintf("of %d points or more", d.points+n), accepted))
	}
	return d.err == nil
}

func (d *Drawing) checkRadius(radius float64) bool {
	if d.err == nil && !(radius > 0) {
		d.refuse(fail.OutOfRange("radius", millimetres(radius), "above zero"))
	}
	return d.err == nil
}

// layer returns the number of the layer in the drawing.
func (d *Drawing) layer(l Layer) int {
	for i, have := range d.layers {
		if have.Name == l.Name {
			return i
		}
	}
	switch {
	case !layerName().MatchString(l.Name):
		d.refuse(fail.OutOfRange("layer name", strconv.Quote(l.Name), "1 to 31 of A-Z, 0-9, $, - and _"))
	case !(l.Width > 0 && l.Width <= 5):
		d.refuse(fail.OutOfRange("line width of layer "+l.Name, millimetres(l.Width), "above 0 to 5 mm"))
	case l.Colour < 1 || l.Colour > 255:
		d.refuse(fail.OutOfRange("colour of layer "+l.Name, l.Colour, "1 to 255"))
	}
	d.layers = append(d.layers, l)
	return len(d.layers) - 1
}

// refuse keeps the first error.
func (d *Drawing) refuse(err error) {
	if d.err == nil {
		d.err = err
	}
}

func millimetres(v float64) string { return fmt.Sprintf("%.6g mm", v) }

// At returns the point dx to the right of p and dy above it.
func (p Point) At(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

func (p Point) add(q Point) Point                { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point                { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) scale(f float64) Point            { return Point{p.X * f, p.Y * f} }
func (p Point) abs() float64                     { return math.Hypot(p.X, p.Y) }
func (p Point) left() Point                      { return Point{-p.Y, p.X} }
func (p Point) min(q Point) Point                { return Point{min(p.X, q.X), min(p.Y, q.Y)} }
func (p Point) max(q Point) Point                { return Point{max(p.X, q.X), max(p.Y, q.Y)} }
func polar(r, angle float64) Point               { return Point{r * math.Cos(angle), r * math.Sin(angle)} }
func (p Point) toward(q Point, at float64) Point { return p.add(q.sub(p).scale(at)) }

// unit returns the direction of p, or zero when p is zero.
func (p Point) unit() Point {
	if r := p.abs(); r > 0 {
		return p.scale(1 / r)
	}
	return Point{}
}

func straight(points []Point) []Vertex {
	vertices := make([]Vertex, len(points))
	for i, p := range points {
		vertices[i].Point = p
	}
	return vertices
}

func (b Box) overlaps(low, high Point) bool {
	return low.X <= b.Max.X && high.X >= b.Min.X && low.Y <= b.Max.Y && high.Y >= b.Min.Y
}
