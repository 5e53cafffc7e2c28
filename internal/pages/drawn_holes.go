package pages

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Places on the sheets of patterns of holes: the pattern on the left, a list beside it.
const (
	patternLeft, patternRight = 9.0, 66.0
	patternBottom             = 10.0
	patternHigh               = 56.0
	listAt                    = 76.0
	listRows                  = 12
	fewestHolesUnnamed        = 60 // more have no names: they would not be read
)

// A pattern is holes on the sheet, and what their names must keep clear of.
type pattern struct {
	*board
	v      scaledView
	middle sheet.Point
	taken  []sheet.Box
}

// newPattern fits a box of the part onto the left of a sheet.
func newPattern(low, high sheet.Point, inch bool) *pattern {
	wide, tall := max(high.X-low.X, 1e-3), max(high.Y-low.Y, 1e-3)
	by := min((patternRight-patternLeft)/wide, patternHigh/tall)
	b := newBoard(max(tall*by+patternBottom+16, listRows*rowsApart+14), inch)
	_, sheetHigh := b.Size()
	centre := sheet.Point{X: (patternLeft + patternRight) / 2, Y: (sheetHigh + patternBottom - 12) / 2}
	origin := centre.At(-(low.X+high.X)/2*by, -(low.Y+high.Y)/2*by)
	return &pattern{board: b, v: scaledView{origin, by}, middle: centre}
}

// named puts a name beside a hole, away from the middle of the pattern and clear of all
// that is drawn; it is left out where there is no such place.
func (p *pattern) named(at sheet.Point, radius float64, name string) bool {
	away := math.Atan2(at.Y-p.middle.Y, at.X-p.middle.X)
	width := sheet.TextWidth(name, lettersHigh)
	for _, far := range [...]float64{1, 2.5, 4.5} {
		for _, turn := range [...]float64{0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2, math.Pi / 2, -math.Pi / 2, 2.2, -2.2, math.Pi} {
			sin, cos := math.Sincos(away + turn)
			reach := radius + far
			centre := at.At((reach+width/2)*cos, (reach+lettersHigh/2)*sin)
			text := sheet.Text{At: centre.At(-width/2, -lettersHigh/2), Height: lettersHigh, Value: name}
			box := text.Box()
			box = sheet.Box{Min: box.Min.At(-0.3, -0.2), Max: box.Max.At(0.3, 0.3)}
			if p.free(box) {
				p.Text(sheet.Lettering, text)
				p.taken = append(p.taken, box)
				return true
			}
		}
	}
	return false
}

func (p *pattern) free(box sheet.Box) bool {
	wide, tall := p.Size()
	if box.Min.X < 1 || box.Min.Y < 1 || box.Max.X > min(wide-1, listAt-2) || box.Max.Y > tall-7 || p.Touches(box) {
		return false
	}
	return !slices.ContainsFunc(p.taken, func(t sheet.Box) bool {
		return box.Min.X < t.Max.X && box.Max.X > t.Min.X && box.Min.Y < t.Max.Y && box.Max.Y > t.Min.Y
	})
}

// list writes lines beside the pattern, from the top.
func (p *pattern) list(lines []string) {
	_, high := p.Size()
	for i, l := range lines {
		p.word(sheet.Point{X: listAt, Y: high - 9.5 - float64(i)*rowsApart}, sheet.Start, l)
	}
}

// picture is the first part on the second as it lies best, with how far each of its holes
// is off, drawn larger than it is.
func (m holeMatch) picture(inch bool) (book.Figure, error) {
	best := m.Positions[0]
	placed := make([]gasket.Point, len(m.cover))
	for i, h := range m.cover {
		var err error
		if placed[i], err = best.Place(h.At); err != nil {
			return book.Figure{}, err
		}
	}
	low, high := sheet.Point{X: math.Inf(1), Y: math.Inf(1)}, sheet.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	reach := func(at gasket.Point, r float64) {
		x, y := at.X.MM(), at.Y.MM()
		low = sheet.Point{X: min(low.X, x-r), Y: min(low.Y, y-r)}
		high = sheet.Point{X: max(high.X, x+r), Y: max(high.Y, y+r)}
	}
	for i, at := range placed {
		reach(at, m.cover[i].Diameter.MM()/2)
	}
	for _, h := range m.chest {
		reach(h.At, h.Diameter.MM()/2)
	}
	p := newPattern(low, high, inch)
	larger := 1
	if most := best.Greatest.MM() * p.v.by; most > 1e-6 {
		for _, n := range [...]int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
			if most*float64(n) <= 7 {
				larger = n
			}
		}
	}
	p.holes(m, placed)
	p.offs(best, placed, float64(larger))
	unnamed := p.names(m, best, placed)
	_, tall := p.Size()
	p.name(sheet.Point{X: pictureEdge, Y: tall - 5}, sheet.Start, "each hole and its partner")
	p.list(m.offList(best, inch))
	caption := fmt.Sprintf("Wide: the first part's holes, as it lies best; dashed: the second part's holes or studs."+
		" The arrows go from hole to partner, %d times as long as they are.", larger)
	if larger == 1 {
		caption = "Wide: the first part's holes, as it lies best; dashed: the second part's holes or studs. The arrows go from hole to partner."
	}
	if unnamed > 0 {
		caption += fmt.Sprintf(" %d names have no room here: they are in the table.", unnamed)
	}
	goes := ""
	if m.Decided {
		goes = " It does not go on as it is."
		if m.Goes {
			goes = " It goes on as it is."
		}
	}
	alt := fmt.Sprintf("%d holes of the first part over %d of the second, with an arrow at each for how far it is off, at most %s.%s",
		len(m.cover), len(m.chest), sizeText(best.Greatest, inch), goes)
	return p.figure("holes", "Each hole and its partner", alt, caption)
}

// holes draws those of both parts; one without a size as a small cross.
func (p *pattern) holes(m holeMatch, placed []gasket.Point) {
	draw := func(l sheet.Layer, at sheet.Point, diameter units.Length) {
		if diameter.Sign() > 0 {
			p.Circle(l, at, diameter.MM()/2*p.v.by)
			return
		}
		p.CentreMark(sheet.Measure, at, 0.8, 0)
	}
	stud := m.options.Stud
	for _, h := range m.chest {
		if stud.Sign() > 0 {
			draw(sheet.Other, p.v.at(h.At.X.MM(), h.At.Y.MM()), stud)
			continue
		}
		draw(sheet.Other, p.v.at(h.At.X.MM(), h.At.Y.MM()), h.Diameter)
	}
	for i, at := range placed {
		draw(sheet.Edge, p.v.at(at.X.MM(), at.Y.MM()), m.cover[i].Diameter)
	}
}

// offs draws an arrow at each hole.
func (p *pattern) offs(best gasket.Position, placed []gasket.Point, larger float64) {
	for _, pair := range best.Pairs {
		from := placed[pair.First-1]
		tail := p.v.at(from.X.MM(), from.Y.MM())
		way := sheet.Point{X: pair.Off.X.MM() * p.v.by * larger, Y: pair.Off.Y.MM() * p.v.by * larger}
		if math.Hypot(way.X, way.Y) < 0.1 {
			continue
		}
		p.Line(sheet.Measure, tail, tail.At(way.X, way.Y))
		if math.Hypot(way.X, way.Y) > 1.2*arrowsLength {
			p.Arrow(sheet.Measure, tail.At(way.X, way.Y), way)
		}
	}
}

// names puts the name of every hole of the first part, and returns how many have no room.
func (p *pattern) names(m holeMatch, best gasket.Position, placed []gasket.Point) int {
	if len(placed) > fewestHolesUnnamed {
		return len(placed)
	}
	unnamed := 0
	for i, at := range placed {
		r := m.cover[i].Diameter.MM() / 2
		if !p.named(p.v.at(at.X.MM(), at.Y.MM()), r*p.v.by, shortName(m.cover[i].Name)) {
			unnamed++
		}
	}
	return unnamed
}

// offList is how far the holes are off, the furthest first.
func (m holeMatch) offList(best gasket.Position, inch bool) []string {
	pairs := slices.Clone(best.Pairs)
	slices.SortStableFunc(pairs, func(a, b gasket.Pair) int { return b.Distance.Cmp(a.Distance) })
	lines := []string{"off, the furthest first:"}
	for i, p := range pairs {
		if i == listRows-2 && len(pairs) > listRows-1 {
			lines = append(lines, fmt.Sprintf("and %d more", len(pairs)-i))
			break
		}
		const wide = 7.5 // for each name; the table has them whole
		name := func(h gasket.Hole) string { return sheet.Fit(shortName(h.Name), lettersHigh, wide) }
		line := fmt.Sprintf("%s on %s  %s", name(m.cover[p.First-1]), name(m.chest[p.Second-1]), offText(p.Distance, inch))
		if m.Decided && !p.Goes() {
			line += ": no"
		}
		lines = append(lines, line)
	}
	return lines
}

// offText is a distance to a thousandth, as the table has it.
func offText(l units.Length, inch bool) string {
	if inch {
		return l.Text(units.Thousandths, 1)
	}
	return l.Text(units.Millimetres, 3)
}

// picture is the holes of a circle with their numbers and places.
func (c boltCircle) picture() (book.Figure, error) {
	radius := c.Diameter.MM() / 2
	hole := 0.0
	if c.Hole != nil {
		hole = c.Hole.MM() / 2
	}
	low, high := sheet.Point{X: -radius - hole, Y: -radius - hole}, sheet.Point{X: radius + hole, Y: radius + hole}
	corner := sheet.Point{X: c.corner.Origin.X.MM(), Y: c.corner.Origin.Y.MM()}
	fromCorner := c.CentreX != nil || c.CentreY != nil
	if fromCorner {
		low = sheet.Point{X: min(low.X, corner.X), Y: min(low.Y, corner.Y)}
		high = sheet.Point{X: max(high.X, corner.X), Y: max(high.Y, corner.Y)}
	}
	p := newPattern(low, high, c.Inch)
	centre := p.v.at(0, 0)
	p.middle = centre
	if fromCorner {
		at := p.v.at(corner.X, corner.Y)
		p.Line(sheet.Edge, at, sheet.Point{X: p.v.at(high.X, 0).X, Y: at.Y})
		p.Line(sheet.Edge, at, sheet.Point{X: at.X, Y: p.v.at(0, high.Y).Y})
	}
	p.Circle(sheet.Centre, centre, radius*p.v.by)
	p.CentreMark(sheet.Centre, centre, min(2, radius*p.v.by/3), 1)
	places, where := c.holes.From(gasket.Datum{}), "from the middle"
	if fromCorner {
		places, where = c.holes.From(c.corner), "from the corner"
	}
	for _, h := range c.holes {
		at := p.v.at(h.At.X.MM(), h.At.Y.MM())
		if hole > 0 {
			p.Circle(sheet.Edge, at, hole*p.v.by)
		}
		p.CentreMark(sheet.Measure, at, max(hole*p.v.by, 0.8), 0.7)
	}
	unnamed := len(c.holes)
	if len(c.holes) <= fewestHolesUnnamed {
		unnamed = 0
		for _, h := range c.holes {
			if !p.named(p.v.at(h.At.X.MM(), h.At.Y.MM()), max(hole*p.v.by, 0.8)+0.7, h.Name) {
				unnamed++
			}
		}
	}
	_, tall := p.Size()
	p.name(sheet.Point{X: pictureEdge, Y: tall - 5}, sheet.Start, fmt.Sprintf("%d holes on a circle of %s", c.Number, c.text(c.Diameter)))
	alt := fmt.Sprintf("%d holes on a circle of %s.", c.Number, c.text(c.Diameter))
	caption := "X to the right, Y up, " + where + ", seen from the face that is drilled."
	if unnamed > 0 {
		caption += fmt.Sprintf(" %d numbers have no room here: the places are in the table.", unnamed)
	}
	p.coordinates(c, places, where)
	return p.figure("bolt-circle", "The holes and their places", alt, caption)
}

// coordinates lists the places of the holes in columns.
func (p *pattern) coordinates(c boltCircle, places []gasket.Point, where string) {
	_, tall := p.Size()
	y := tall - 5
	p.word(sheet.Point{X: listAt, Y: y}, sheet.Start, where+", "+c.unit())
	row := func(number, x, up string) {
		y -= rowsApart
		p.word(sheet.Point{X: listAt + 5.5, Y: y}, sheet.End, number)
		p.word(sheet.Point{X: listAt + 22, Y: y}, sheet.End, x)
		p.word(sheet.Point{X: listAt + 40, Y: y}, sheet.End, up)
	}
	row("", "X", "Y")
	if c.CentreX != nil || c.CentreY != nil {
		middle := c.corner.Origin
		row("mid", c.coordinate(middle.X.Neg()), c.coordinate(middle.Y.Neg()))
	}
	for i, at := range places {
		if i == listRows-2 && len(places) > listRows-1 {
			p.word(sheet.Point{X: listAt, Y: y - rowsApart}, sheet.Start, fmt.Sprintf("and %d more: see the table", len(places)-i))
			return
		}
		row(c.holes[i].Name, c.coordinate(at.X), c.coordinate(at.Y))
	}
}

// coordinate is one as the table has it.
func (c boltCircle) coordinate(l units.Length) string {
	if c.Inch {
		return plainZero(l.Decimal(units.Inches, 4))
	}
	return plainZero(l.Decimal(units.Millimetres, 3))
}
