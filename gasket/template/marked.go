package template

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// The layers of a marking beside those of a template.
var (
	scribeLine = sheet.Layer{Name: "LINES", Width: 0.25, Colour: 1}
	unseenLine = sheet.Layer{Name: "HIDDEN", Width: 0.25, Pattern: sheet.Dashed, Colour: 8}
)

const (
	pastFace   = 3.0 // of the lines beyond what they are on
	toLabel    = 5.0 // from there to their letters and figures
	markHigh   = 2.5 // height of those
	labelsUp   = 3.8 // from one to the next
	longestRow = 44  // of the name of a line in the list, mm
)

// newMarkingPlan draws a face with what is to be marked on it.
func newMarkingPlan(m Marking, unit ruler) (*plan, error) {
	p := &plan{Drawing: sheet.New(sheet.MaxSize, sheet.MaxSize), outline: m.Face, unit: unit, box: m.bounds()}
	for _, l := range m.Unseen {
		p.loop(unseenLine, l)
	}
	for _, c := range m.Face.Cutouts {
		p.loop(cutLine, c)
	}
	if len(m.Face.Outside) == 0 {
		p.lines(m.ordered())
		return p, p.Err()
	}
	p.edge = sheet.Corners(vertices(m.Face.Outside))
	p.loop(cutLine, m.Face.Outside)
	for _, h := range m.Face.Holes {
		at, radius := place(h.At), h.Diameter.MM()/2
		p.Circle(holeLine, at, radius)
		p.CentreMark(centreLine, at, radius, beyondHole)
	}
	p.centreLines()
	p.markDatum()
	p.dimensions()
	p.numbers()
	return p, p.Err()
}

// bounds are the box round the face, or round what is on it.
func (m Marking) bounds() sheet.Box {
	if len(m.Face.Outside) > 0 {
		return sheet.BoundsOf(vertices(m.Face.Outside))
	}
	box := sheet.Box{Min: sheet.Point{X: math.Inf(1), Y: math.Inf(1)}, Max: sheet.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	along := func(x float64) { box.Min.X, box.Max.X = min(box.Min.X, x), max(box.Max.X, x) }
	up := func(y float64) { box.Min.Y, box.Max.Y = min(box.Min.Y, y), max(box.Max.Y, y) }
	for _, loops := range [][]gasket.Loop{m.Face.Cutouts, m.Unseen} {
		for _, l := range loops {
			b := sheet.BoundsOf(vertices(l))
			along(b.Min.X)
			along(b.Max.X)
			up(b.Min.Y)
			up(b.Max.Y)
		}
	}
	for _, l := range m.Lines {
		if l.Level {
			up(l.At.MM())
		} else {
			along(l.At.MM())
		}
	}
	if math.IsInf(box.Min.X, 0) { // level lines alone
		along(0)
	}
	if math.IsInf(box.Min.Y, 0) {
		up(0)
	}
	return box
}

// lines draws the lines of a face over all of it, each with its letter at one end and
// its place at the other.
func (p *plan) lines(lines []Line) {
	low, high := p.box.Min.At(-pastFace, -pastFace), p.box.Max.At(pastFace, pastFace)
	var across, up []float64
	for _, l := range lines {
		if l.Level {
			up = append(up, l.At.MM())
		} else {
			across = append(across, l.At.MM())
		}
	}
	free := math.Inf(1)
	upright := sheet.Apart(across, labelsUp, -free, free)
	places := append(upright, sheet.Apart(up, labelsUp, -free, free)...)
	for i, l := range lines {
		layer := scribeLine
		switch {
		case l.Unseen:
			layer = unseenLine
		case l.At.IsZero():
			layer = centreLine
		}
		letter := sheet.Text{Height: markHigh, Value: letters[i : i+1]}
		figure := sheet.Text{Height: markHigh, Anchor: sheet.End, Value: short(p.unit.coordinate(l.At))}
		at, shown := l.At.MM(), places[i]
		if l.Level {
			p.Line(layer, sheet.Point{X: low.X, Y: at}, sheet.Point{X: high.X, Y: at})
			p.Line(dimLine, sheet.Point{X: high.X, Y: at}, sheet.Point{X: high.X + toLabel, Y: shown})
			p.Line(dimLine, sheet.Point{X: low.X, Y: at}, sheet.Point{X: low.X - toLabel, Y: shown})
			letter.At = sheet.Point{X: high.X + toLabel + 0.8, Y: shown - markHigh/2}
			figure.At = sheet.Point{X: low.X - toLabel - 0.8, Y: shown - markHigh/2}
		} else {
			p.Line(layer, sheet.Point{X: at, Y: low.Y}, sheet.Point{X: at, Y: high.Y})
			p.Line(dimLine, sheet.Point{X: at, Y: high.Y}, sheet.Point{X: shown, Y: high.Y + toLabel})
			p.Line(dimLine, sheet.Point{X: at, Y: low.Y}, sheet.Point{X: shown, Y: low.Y - toLabel})
			letter.At, letter.Anchor = sheet.Point{X: shown, Y: high.Y + toLabel + 0.8}, sheet.Middle
			figure.At = sheet.Point{X: shown + markHigh/2, Y: low.Y - toLabel - 0.8}
			figure.Rotation = 90 * units.Degree
		}
		p.Text(textLine, letter)
		p.Text(textLine, figure)
	}
}

// short is a number without the zeros behind it.
func short(number string) string { return strings.TrimSuffix(strings.TrimRight(number, "0"), ".") }

// listing is the list of places of the part.
func (t *Template) listing(p *plan) listing {
	if t.marking == nil {
		return p.listing()
	}
	return p.placesOf(*t.marking)
}

// placesOf lists the lines and holes of a marking, from the datum and from the edge.
func (p *plan) placesOf(m Marking) listing {
	const gap, high = 1.5, 2.1
	l := listing{things: "holes", high: high, title: "HOLES FROM 0 AND FROM THE LEFT AND LOWER EDGE, " + p.unit.name}
	if p.datum() == middleDatum {
		l.title = "HOLES FROM THE MIDDLE AND FROM THE LEFT AND LOWER EDGE, " + p.unit.name
	}
	heads := [...]string{"X", "Y", "X, EDGE", "Y, EDGE"}
	x0, y0 := units.MM(p.box.Min.X), units.MM(p.box.Min.Y)
	lines := m.ordered()
	if len(lines) > 0 {
		l.things, l.title = "lines", "LINES, "+p.unit.name
		heads = [...]string{"X FROM 0", "Y FROM 0", "", ""}
		upright, level := edges(lines)
		if upright >= 0 {
			x0, heads[2] = lines[upright].At, "X FROM "+letters[upright:upright+1]
		}
		if level >= 0 {
			y0, heads[3] = lines[level].At, "Y FROM "+letters[level:level+1]
		}
	}
	for i, line := range lines {
		name := sheet.Fit(line.Name, high, longestRow)
		here, edge := p.unit.coordinate(line.At), p.unit.coordinate(line.At.Sub(x0))
		row := []string{letters[i : i+1], name, here, "", edge, ""}
		if line.Level {
			row = []string{letters[i : i+1], name, "", here, "", p.unit.coordinate(line.At.Sub(y0))}
		}
		l.rows = append(l.rows, row)
	}
	for i, h := range m.Face.Holes {
		l.rows = append(l.rows, []string{
			nameOf(h, i, high), "ø" + p.unit.size(h.Diameter), p.unit.coordinate(h.At.X), p.unit.coordinate(h.At.Y),
			p.unit.coordinate(h.At.X.Sub(x0)), p.unit.coordinate(h.At.Y.Sub(y0)),
		})
	}
	number, name := sheet.TextWidth("NO.", caption), 0.0
	for _, r := range l.rows {
		number, name = max(number, sheet.TextWidth(r[0], high)), max(name, sheet.TextWidth(r[1], high))
	}
	at := number + gap + name
	figure := max(15, (sheet.TextWidth(l.title, caption)-at)/float64(len(heads)))
	l.columns = []column{{"NO.", 0, sheet.Start}, {"", number + gap, sheet.Start}}
	for _, head := range heads {
		at += figure
		l.columns = append(l.columns, column{head, at, sheet.End})
	}
	l.wide = at
	return l
}
