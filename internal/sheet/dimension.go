package sheet

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

// Sizes of dimensions in millimetres. Common drawing practice.
const (
	textHeight  = 2.5
	arrowLength = 2.5
	arrowWidth  = 0.8
	startGap    = 0.8 // between the part and an extension line
	overshoot   = 1.5 // of an extension line beyond the dimension line
	textGap     = 0.8 // between the dimension line and its text
)

// A Dimension is the distance between two points along a direction, with
// extension lines, arrowheads and text above the dimension line.
type Dimension struct {
	From, To Point
	Angle    units.Angle // of the dimension line: 0 measures across, 90 degrees up
	Through  Point       // a point on the dimension line
	Value    string      // "28", "ø36"
}

// Dimension draws a dimension. When the distance is too short for arrowheads
// and text, they are outside.
func (d *Drawing) Dimension(l Layer, m Dimension) {
	along := polar(1, m.Angle.Radians())
	if along.X < -1e-9 || math.Abs(along.X) <= 1e-9 && along.Y < 0 {
		along = along.scale(-1) // text is read from below or from the right
	}
	from, to := m.foot(m.From, along), m.foot(m.To, along)
	a, b := m.From, m.To
	if dot(to.sub(from), along) < 0 {
		from, to, a, b = to, from, b, a
	}
	d.extension(l, a, from)
	d.extension(l, b, to)
	length, width := to.sub(from).abs(), TextWidth(m.Value, textHeight)
	up := along.left().scale(textGap)
	text := Text{
		At: from.toward(to, 0.5).add(up), Height: textHeight, Anchor: Middle,
		Value: m.Value, Rotation: units.Angle(math.Atan2(along.Y, along.X)),
	}
	if length >= 2*arrowLength+1 && length >= width {
		d.Line(l, from, to)
		d.Arrow(l, from, along.scale(-1))
		d.Arrow(l, to, along)
	} else {
		const tail = 2 * arrowLength
		d.Line(l, from.sub(along.scale(tail)), from)
		d.Arrow(l, from, along)
		end := to.add(along.scale(tail))
		if length < width {
			end = end.add(along.scale(width))
			text.At = to.add(along.scale(tail)).add(up)
			text.Anchor = Start
		}
		d.Line(l, from, end)
		d.Arrow(l, to, along.scale(-1))
	}
	d.Text(l, text)
}

// foot returns the place of p on the dimension line.
func (m Dimension) foot(p, along Point) Point {
	return m.Through.add(along.scale(dot(p.sub(m.Through), along)))
}

// extension draws the line from a point of the part past the dimension line.
func (d *Drawing) extension(l Layer, p, foot Point) {
	way := foot.sub(p).unit()
	if foot.sub(p).abs() > startGap {
		d.Line(l, p.add(way.scale(startGap)), foot.add(way.scale(overshoot)))
	}
}

// Arrow draws a filled arrowhead with its tip at a point, pointing the given way.
func (d *Drawing) Arrow(l Layer, tip, way Point) {
	way = way.unit()
	base := tip.sub(way.scale(arrowLength))
	half := way.left().scale(arrowWidth / 2)
	d.Fill(l, tip, base.add(half), base.sub(half))
}

// A Leader is a note that points at a place: an arrowhead at the tip, a line to
// the elbow, and a shelf with the text on it that runs on away from the tip.
type Leader struct {
	Tip, Elbow Point
	Value      string
}

// Leader draws a leader.
func (d *Drawing) Leader(l Layer, m Leader) {
	d.Arrow(l, m.Tip, m.Tip.sub(m.Elbow))
	text := m.text()
	end := text.At.X + TextWidth(m.Value, textHeight) + 0.5
	if m.Elbow.X < m.Tip.X {
		end = text.At.X - 0.5
	}
	d.Line(l, m.Tip, m.Elbow)
	d.Line(l, m.Elbow, Point{end, m.Elbow.Y})
	d.Text(l, text)
}

// Box returns the box round the text of the leader.
func (m Leader) Box() Box { return m.text().Box() }

func (m Leader) text() Text {
	at := m.Elbow.At(0.5, textGap)
	if m.Elbow.X < m.Tip.X {
		at.X -= TextWidth(m.Value, textHeight) + 1
	}
	return Text{At: at, Height: textHeight, Value: m.Value}
}

// CentreMark draws the cross through the centre of a circle, beyond its edge by
// the given length. Each arm starts in the centre, so that a broken line
// is whole where the arms meet.
func (d *Drawing) CentreMark(l Layer, centre Point, radius, beyond float64) {
	arm := radius + beyond
	for _, end := range [...]Point{{arm, 0}, {0, arm}, {-arm, 0}, {0, -arm}} {
		d.Line(l, centre, centre.add(end))
	}
}

func dot(p, q Point) float64 { return p.X*q.X + p.Y*q.Y }
