package template

import (
	"math"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// The layers of a template: thick lines twice as wide as thin ones.
var (
	cutLine    = sheet.Layer{Name: "CUT", Width: 0.35, Colour: 7}
	holeLine   = sheet.Layer{Name: "HOLES", Width: 0.35, Colour: 1}
	centreLine = sheet.Layer{Name: "CENTRES", Width: 0.18, Pattern: sheet.Chain, Colour: 3}
	hatchLine  = sheet.Layer{Name: "HATCH", Width: 0.13, Colour: 8}
	dimLine    = sheet.Layer{Name: "DIMENSIONS", Width: 0.18, Colour: 5}
	textLine   = sheet.Layer{Name: "TEXT", Width: 0.18, Colour: 2}
	scaleLine  = sheet.Layer{Name: "SCALE", Width: 0.25, Colour: 6}
	frameLine  = sheet.Layer{Name: "FRAME", Width: 0.5, Colour: 9}
	ruleLine   = sheet.Layer{Name: "RULES", Width: 0.18, Colour: 9}
	markLine   = sheet.Layer{Name: "MARKS", Width: 0.18, Colour: 4}
	joinLine   = sheet.Layer{Name: "JOINS", Width: 0.18, Pattern: sheet.Dashed, Colour: 4}
)

const (
	hatchAngle   = 45.0 // degrees
	beyondHole   = 1.2  // arm of a centre cross past the edge of its hole, mm
	labelHeight  = 2.0
	labelStandby = 3.2 // from the outline to the middle of a hole's number
	firstTier    = 10  // from the outline to the nearest dimension line
	nextTier     = 7
	mostLabels   = 60 // holes, beyond which numbers would cover the part
)

// A plan is the part drawn in the axes of its outline.
type plan struct {
	*sheet.Drawing
	outline gasket.Outline
	unit    ruler
	box     sheet.Box        // of the part alone
	edge    []sheet.Point    // points along its outside
	leaders [][2]sheet.Point // from tip to elbow
}

// newPlan draws a part with its centre lines, hatching and dimensions.
func newPlan(o gasket.Outline, unit ruler) (*plan, error) {
	outside := vertices(o.Outside)
	p := &plan{
		Drawing: sheet.New(sheet.MaxSize, sheet.MaxSize),
		outline: o, unit: unit, box: sheet.BoundsOf(outside), edge: sheet.Corners(outside),
	}
	region := [][]sheet.Vertex{outside}
	p.loop(cutLine, o.Outside)
	for _, c := range o.Cutouts {
		region = append(region, vertices(c))
		p.loop(cutLine, c)
	}
	for _, h := range o.Holes {
		at, radius := place(h.At), h.Diameter.MM()/2
		p.Circle(holeLine, at, radius)
		region = append(region, circle(at, radius))
		p.CentreMark(centreLine, at, radius, beyondHole)
	}
	p.centreLines()
	p.markDatum()
	p.dimensions()
	gaps := p.numbers()
	p.Hatch(hatchLine, sheet.Hatch{
		Region: region, Angle: hatchAngle * units.Degree, Spacing: p.hatchSpacing(), Gaps: gaps,
	})
	return p, p.Err()
}

// A datum is where the places of the holes are counted from: the origin of the
// outline, wherever that lies.
type datum int

const (
	middleDatum datum = iota // the middle of the part
	markedDatum              // a point on the part, with a mark
	farDatum                 // a point off the part
)

func (p *plan) datum() datum {
	switch {
	case near(p.middle(), sheet.Point{}):
		return middleDatum
	case p.box.Min.X <= 0 && p.box.Max.X >= 0 && p.box.Min.Y <= 0 && p.box.Max.Y >= 0:
		return markedDatum
	}
	return farDatum
}

// markDatum draws the datum unless it is the middle, which the axes mark.
func (p *plan) markDatum() {
	if p.datum() == markedDatum {
		p.Circle(dimLine, sheet.Point{}, 0.8)
		p.CentreMark(dimLine, sheet.Point{}, 0.8, 1.2)
		at := sheet.Point{X: -1.3, Y: -1.3 - labelHeight}
		p.Text(textLine, sheet.Text{At: at, Height: labelHeight, Anchor: sheet.End, Value: "0"})
	}
}

// hatchSpacing widens the hatching with the part.
func (p *plan) hatchSpacing() float64 {
	return min(6, max(1.8, math.Hypot(p.box.Max.X-p.box.Min.X, p.box.Max.Y-p.box.Min.Y)/30))
}

// loop draws a closed line, a circle as one.
func (p *plan) loop(l sheet.Layer, loop gasket.Loop) {
	if centre, diameter, ok := loop.Circle(); ok {
		p.Circle(l, place(centre), diameter.MM()/2)
		return
	}
	p.Polyline(l, true, vertices(loop)...)
}

// centreLines draws the axes of a part that is the same on both sides of them,
// the circle through evenly spaced holes, and the centres of round openings.
func (p *plan) centreLines() {
	const past = 3 // mm beyond the part
	o := p.outline
	low, high := p.box.Min, p.box.Max
	mid := p.middle()
	across, up := symmetric(o.Outside, mid)
	if up { // about the upright axis
		p.Line(centreLine, mid, sheet.Point{X: mid.X, Y: high.Y + past})
		p.Line(centreLine, mid, sheet.Point{X: mid.X, Y: low.Y - past})
	}
	if across {
		p.Line(centreLine, mid, sheet.Point{X: high.X + past, Y: mid.Y})
		p.Line(centreLine, mid, sheet.Point{X: low.X - past, Y: mid.Y})
	}
	for _, c := range o.Cutouts {
		centre, diameter, ok := c.Circle()
		if ok && !(across && up && near(place(centre), mid)) {
			p.CentreMark(centreLine, place(centre), diameter.MM()/2, beyondHole)
		}
	}
	if ring, ok := ringOf(o.Holes); ok {
		p.Circle(centreLine, ring.centre, ring.radius)
	}
}

func (p *plan) middle() sheet.Point {
	return sheet.Point{X: (p.box.Min.X + p.box.Max.X) / 2, Y: (p.box.Min.Y + p.box.Max.Y) / 2}
}
