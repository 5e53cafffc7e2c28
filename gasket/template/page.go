package template

import (
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Sizes of the sheet in millimetres of the drawing.
const (
	margin     = 10.0 // from the edge of the paper to the frame, which most printers reach
	stripUp    = 46.0 // height of the strip with the hole list and the title
	titleWide  = 98.0
	leastWide  = 165.0 // of the sheet: room for the title and the list beside it
	leastHigh  = 200.0
	overlap    = 12.0 // of neighbouring sheets
	mostSheets = 200
	barLength  = 100.0
	listWide   = 62.0
	rowUp      = 4.2
	caption    = 1.8 // height of small capitals over a field
	plainText  = 2.5
)

// layOut draws the printed sheets.
func layOut(t *Template, p *plan, paper Paper, scaleX, scaleY float64) ([]*sheet.Drawing, error) {
	paperX, paperY := paper.Size()
	if paperX.IsZero() {
		_, err := paper.MarshalText()
		return nil, err
	}
	width, height := paperX.MM()/scaleX, paperY.MM()/scaleY
	if width < leastWide || height < leastHigh {
		return nil, &units.ArgumentError{
			Package: "template", Field: "paper", Value: paper.String(),
			Problem:  fmt.Sprintf("holds %.0f x %.0f mm after the correction, too little for the bars and the title", width, height),
			Accepted: fmt.Sprintf("a paper with %.0f x %.0f mm or more", leastWide, leastHigh), Err: units.ErrOutOfRange,
		}
	}
	l := &layout{template: t, plan: p, paper: paper, width: width, height: height, scaleX: scaleX, scaleY: scaleY}
	return l.sheets()
}

// A layout is the set of sheets while it is drawn.
type layout struct {
	template       *Template
	plan           *plan
	paper          Paper
	width, height  float64
	scaleX, scaleY float64
	count          int // of sheets
}

// field is the part of the sheet that the plan may take.
func (l *layout) field() sheet.Box {
	bottom := margin + stripUp
	return sheet.Box{Min: sheet.Point{X: margin + 18, Y: bottom + 24}, Max: sheet.Point{X: l.width - margin - 6, Y: l.height - margin - 6}}
}

func (l *layout) sheets() ([]*sheet.Drawing, error) {
	field, need := l.field(), l.plan.Bounds()
	wide, high := field.Max.X-field.Min.X, field.Max.Y-field.Min.Y
	nx := tiles(need.Max.X-need.Min.X, wide)
	ny := tiles(need.Max.Y-need.Min.Y, high)
	holes := len(l.template.part.Outline.Holes)
	where, spread := l.beside(need, field)
	lists := 0
	if holes > 0 && !(nx*ny == 1 && spread) {
		lists = (holes + l.rowsOnSheet() - 1) / l.rowsOnSheet()
	}
	if holes > l.rowsOnSheet()*3 {
		lists = 0 // the DXF file has them; the strip says so
	}
	l.count = nx*ny + lists
	if l.count > mostSheets {
		return nil, &units.ArgumentError{Package: "template", Field: "part", Value: fmt.Sprintf("on %d sheets of %s", l.count, l.paper), Accepted: fmt.Sprintf("up to %d sheets", mostSheets), Err: units.ErrOutOfRange}
	}
	var pages []*sheet.Drawing
	listed := spread && nx*ny == 1
	note := ""
	if holes > 0 && !listed {
		switch {
		case lists == 1:
			note = fmt.Sprintf("Places of the holes: sheet %d", l.count)
		case lists > 1:
			note = fmt.Sprintf("Places of the holes: sheets %d to %d", nx*ny+1, l.count)
		default:
			note = fmt.Sprintf("Places of the %d holes: in the DXF file", holes)
		}
	}
	for row := range ny {
		for column := range nx {
			d := l.sheet(len(pages)+1, note)
			if nx*ny > 1 {
				l.tile(d, column, row, nx, ny)
			} else {
				l.single(d, need, where)
				if listed && holes > 0 {
					l.places(d, sheet.Point{X: field.Max.X - listWide, Y: field.Max.Y}, 0, holes)
				}
			}
			pages = append(pages, d)
		}
	}
	for i := range lists {
		d := l.sheet(len(pages)+1, note)
		rows := l.rowsInColumn()
		for column := range l.columns() {
			first := i*l.rowsOnSheet() + column*rows
			if first < holes {
				l.places(d, sheet.Point{X: field.Min.X + float64(column)*(listWide+8), Y: field.Max.Y}, first, min(rows, holes-first))
			}
		}
		pages = append(pages, d)
	}
	for _, d := range pages {
		if err := d.Err(); err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// tiles returns the number of sheets that cover a length.
func tiles(need, room float64) int {
	if need <= room {
		return 1
	}
	return 1 + int(math.Ceil((need-room)/(room-overlap)))
}

// beside returns the part of the field that is left for the plan beside or below
// the list of places, and whether both have room on one sheet.
func (l *layout) beside(need, field sheet.Box) (sheet.Box, bool) {
	holes := len(l.template.part.Outline.Holes)
	if holes == 0 {
		return field, true
	}
	up := l.listHeight(holes)
	if up > field.Max.Y-field.Min.Y {
		return field, false
	}
	wide, high := need.Max.X-need.Min.X, need.Max.Y-need.Min.Y
	left := field
	left.Max.X -= listWide + 6
	if left.Max.X-left.Min.X >= wide && field.Max.Y-field.Min.Y >= high {
		return left, true
	}
	below := field
	below.Max.Y -= up + 6
	return below, below.Max.Y-below.Min.Y >= high && below.Max.X-below.Min.X >= wide
}

func (l *layout) listHeight(holes int) float64 { return float64(holes+3) * rowUp }

func (l *layout) rowsInColumn() int {
	field := l.field()
	return int((field.Max.Y-field.Min.Y)/rowUp) - 3
}

func (l *layout) columns() int {
	field := l.field()
	return int((field.Max.X - field.Min.X + 8) / (listWide + 8))
}

func (l *layout) rowsOnSheet() int { return l.rowsInColumn() * l.columns() }

// sheet draws what every sheet carries: frame, bars, hole sizes, title.
func (l *layout) sheet(number int, note string) *sheet.Drawing {
	d := sheet.New(l.width, l.height)
	d.Stretch(l.scaleX, l.scaleY)
	left, right, bottom, top := margin, l.width-margin, margin, l.height-margin
	rectangle(d, frameLine, sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right, Y: top}})
	strip := bottom + stripUp
	d.Line(frameLine, sheet.Point{X: left, Y: strip}, sheet.Point{X: right, Y: strip})
	d.Line(frameLine, sheet.Point{X: right - titleWide, Y: bottom}, sheet.Point{X: right - titleWide, Y: strip})
	l.title(d, sheet.Box{Min: sheet.Point{X: right - titleWide, Y: bottom}, Max: sheet.Point{X: right, Y: strip}}, number)
	l.sizes(d, sheet.Box{Min: sheet.Point{X: left, Y: bottom}, Max: sheet.Point{X: right - titleWide, Y: strip}}, note)
	origin := sheet.Point{X: left + 10, Y: strip + 9}
	bars(d, origin)
	l.howToPrint(d, origin.At(barLength+8, 0), right-3)
	return d
}

// bars draws the two bars of 100 mm from a common corner.
func bars(d *sheet.Drawing, origin sheet.Point) {
	for _, up := range [...]bool{false, true} {
		at := func(along, beside float64) sheet.Point {
			if up {
				return origin.At(beside, along)
			}
			return origin.At(along, beside)
		}
		d.Line(scaleLine, at(0, 0), at(barLength, 0))
		for mm := 10; mm <= barLength; mm += 10 {
			tick := 1.5
			if mm%50 == 0 {
				tick = 3
			}
			d.Line(scaleLine, at(float64(mm), 0), at(float64(mm), tick))
		}
		d.Line(scaleLine, at(barLength, 0), at(barLength, -2))
		d.Line(scaleLine, at(0, 0), at(0, -2))
		for _, mm := range [...]float64{0, 50, 100} {
			text := sheet.Text{At: origin.At(mm, -5), Height: caption, Anchor: sheet.Middle, Value: strconv.Itoa(int(mm))}
			if up {
				text.At, text.Anchor = origin.At(-2.6, mm-caption/2), sheet.End
				if mm == 0 {
					continue // the corner belongs to both
				}
			}
			if mm == 0 {
				text.At = origin.At(-2.6, -5)
			}
			d.Text(textLine, text)
		}
	}
	d.Text(textLine, sheet.Text{At: origin.At(25, -5), Height: caption, Anchor: sheet.Middle, Value: "X 100 mm"})
	d.Text(textLine, sheet.Text{At: origin.At(-3, 25), Height: caption, Anchor: sheet.Middle, Rotation: 90 * units.Degree, Value: "Y 100 mm"})
}

// howToPrint tells what to do with the bars.
func (l *layout) howToPrint(d *sheet.Drawing, at sheet.Point, right float64) {
	room := right - at.X
	lines := []struct {
		height float64
		text   string
	}{
		{plainText, "PRINT AT 100 % — MEASURE THIS"},
		{2.1, "Both bars measure 100 mm before you cut."},
		{2.1, "If not, enter what they measure and print again."},
		{2.1, "No correction in this sheet."},
	}
	if l.scaleX != 1 || l.scaleY != 1 {
		lines[3].text = fmt.Sprintf("Corrected for the printer: X × %.4f, Y × %.4f.", l.scaleX, l.scaleY)
	}
	y := at.Y + 6.2
	for _, line := range lines {
		height := min(line.height, line.height*room/sheet.TextWidth(line.text, line.height))
		d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X, Y: y}, Height: height, Value: line.text})
		y -= 4
	}
}

// title draws the block that says what the sheet is.
func (l *layout) title(d *sheet.Drawing, b sheet.Box, number int) {
	part := l.template.part
	left, right, y := b.Min.X, b.Max.X, b.Max.Y
	field := func(x, wide, up float64, name, value string, height float64) {
		d.Text(textLine, sheet.Text{At: sheet.Point{X: x + 1.5, Y: y - 1.3 - caption}, Height: caption, Value: name})
		d.Text(textLine, sheet.Text{At: sheet.Point{X: x + 1.5, Y: y - up + 1.9}, Height: height, Value: sheet.Fit(value, height, wide-3)})
	}
	rule := func(x0, x1 float64) {
		d.Line(ruleLine, sheet.Point{X: x0, Y: y}, sheet.Point{X: x1, Y: y})
	}
	column := func(x, up float64) {
		d.Line(ruleLine, sheet.Point{X: x, Y: y}, sheet.Point{X: x, Y: y - up})
	}
	wide := right - left
	field(left, wide, 13, "PART", part.Outline.Name, 4)
	y -= 13
	rule(left, right)
	field(left, wide-32, 9, "FOR", orDash(part.Engine), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SCALE", "1 : 1", plainText)
	y -= 9
	rule(left, right)
	field(left, wide-32, 9, "MATERIAL", orDash(part.Material), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SHEET", fmt.Sprintf("%d of %d, %s", number, l.count, l.paper), plainText)
	y -= 9
	rule(left, right)
	field(left, wide-32, 9, "THICKNESS", thickness(part.Thickness), plainText)
	column(right-32, 9)
	field(right-32, 32, 9, "SIZES IN", "mm", plainText)
	y -= 9
	rule(left, right)
	d.Text(textLine, sheet.Text{At: sheet.Point{X: left + 1.5, Y: b.Min.Y + 1.9}, Height: caption, Value: "Hatched: stays.  White: cut away.  Cut to the middle of the line."})
}

func thickness(l units.Length) string {
	return l.Text(units.Millimetres, 2) + "  (" + l.Text(units.Thousandths, 0) + ")"
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// sizes draws the list of hole sizes and punches, and the caution.
func (l *layout) sizes(d *sheet.Drawing, b sheet.Box, note string) {
	left, right, y := b.Min.X, b.Max.X, b.Max.Y
	wide := right - left
	columns := [...]float64{left + 1.5, left + 0.18*wide, left + 0.46*wide, left + 0.68*wide}
	row := func(height float64, cells ...string) {
		y -= rowUp
		for i, cell := range cells {
			end := right
			if i+1 < len(columns) {
				end = columns[i+1]
			}
			d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[i], Y: y}, Height: height, Value: sheet.Fit(cell, height, end-columns[i]-0.5)})
		}
	}
	row(caption, "HOLES", "mm", "thou", "PUNCH mm")
	d.Line(ruleLine, sheet.Point{X: left, Y: y - 1.2}, sheet.Point{X: right, Y: y - 1.2})
	y -= 1.2
	const most = 5
	sizes := l.template.holes
	for i, h := range sizes {
		if i == most-1 && len(sizes) > most {
			rest := 0
			for _, more := range sizes[i:] {
				rest += more.Count
			}
			y -= rowUp
			text := fmt.Sprintf("and %d of %d more sizes", rest, len(sizes)-i)
			d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[0], Y: y}, Height: 2.1, Value: text})
			break
		}
		row(2.1, fmt.Sprintf("%d ×", h.Count), holeSize(h), holeThou(h), punchText(h))
	}
	if len(sizes) == 0 {
		row(2.1, "none")
	}
	line := b.Min.Y + 3*rowUp
	d.Line(ruleLine, sheet.Point{X: left, Y: line}, sheet.Point{X: right, Y: line})
	notes := []string{note, "Jointing of unknown age may hold asbestos:", "do not scrape, cut or sand it dry."}
	if note == "" {
		notes = notes[1:]
	}
	for i, text := range notes {
		height := min(caption, caption*(wide-3)/max(1, sheet.TextWidth(text, caption)))
		d.Text(textLine, sheet.Text{At: sheet.Point{X: columns[0], Y: line - float64(i)*3.8 - 3.2}, Height: height, Value: text})
	}
}

func holeSize(h Holes) string {
	if h.Diameter.IsZero() {
		return "centre"
	}
	return "ø" + size(h.Diameter)
}

func holeThou(h Holes) string {
	if h.Diameter.IsZero() {
		return ""
	}
	return h.Diameter.Decimal(units.Thousandths, 0)
}

func punchText(h Holes) string {
	switch {
	case h.Diameter.IsZero():
		return ""
	case h.Punch.IsZero():
		return "none: by knife"
	case h.Punch == h.Diameter:
		return size(h.Punch)
	}
	return fmt.Sprintf("%s (+%s)", size(h.Punch), millimetres(h.Punch.MM()-h.Diameter.MM()))
}

// places draws n rows of the list of places with its upper left corner at a
// point.
func (l *layout) places(d *sheet.Drawing, at sheet.Point, first, n int) {
	columns := [...]float64{9, 27, 45, listWide - 1.5} // right ends
	row := func(y, height float64, cells ...string) {
		for i, cell := range cells {
			d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X + columns[i], Y: y}, Height: height, Anchor: sheet.End, Value: cell})
		}
	}
	y := at.Y - rowUp + 1
	d.Text(textLine, sheet.Text{At: sheet.Point{X: at.X, Y: y}, Height: caption, Value: sheet.Fit("HOLES FROM "+l.datum()+", mm", caption, listWide)})
	y -= rowUp
	row(y, caption, "NO.", "X", "Y", "HOLE")
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
	y -= 1.2
	for i, h := range l.template.part.Outline.Holes[first : first+n] {
		y -= rowUp
		row(y, 2.1, strconv.Itoa(first+i+1), coordinate(h.At.X), coordinate(h.At.Y), holeSize(Holes{Diameter: h.Diameter}))
	}
	d.Line(ruleLine, sheet.Point{X: at.X, Y: y - 1.2}, sheet.Point{X: at.X + listWide, Y: y - 1.2})
}

// datum says where the places are counted from.
func (l *layout) datum() string {
	if near(l.plan.middle(), sheet.Point{}) {
		return "THE MIDDLE"
	}
	return "0"
}

// coordinate returns a length to a hundredth of a millimetre with its zeros, so
// that points stand under each other.
func coordinate(l units.Length) string { return l.Decimal(units.Millimetres, 2) }

// single places the plan in the middle of its part of the field.
func (l *layout) single(d *sheet.Drawing, need, where sheet.Box) {
	wide, high := need.Max.X-need.Min.X, need.Max.Y-need.Min.Y
	x, y := (where.Min.X+where.Max.X-wide)/2, (where.Min.Y+where.Max.Y-high)/2
	d.View(sheet.View{Of: l.plan.Drawing, From: need.Min.At(-1, -1), Box: sheet.Box{Min: sheet.Point{X: x - 1, Y: y - 1}, Max: sheet.Point{X: x + wide + 1, Y: y + high + 1}}})
}

// tile draws one of several sheets, counted from the lower left: the part of the
// plan that it shows, match lines in the middle of each overlap, and targets that
// come to lie on those of the neighbour.
func (l *layout) tile(d *sheet.Drawing, column, row, nx, ny int) {
	field, need := l.field(), l.plan.Bounds()
	wide, high := field.Max.X-field.Min.X, field.Max.Y-field.Min.Y
	// the plan stands in the middle of all sheets together
	spareX := float64(nx)*(wide-overlap) + overlap - (need.Max.X - need.Min.X)
	spareY := float64(ny)*(high-overlap) + overlap - (need.Max.Y - need.Min.Y)
	from := need.Min.At(float64(column)*(wide-overlap)-spareX/2, float64(row)*(high-overlap)-spareY/2)
	d.View(sheet.View{Of: l.plan.Drawing, From: from, Box: field})
	rectangle(d, ruleLine, field)
	number := func(column, row int) string { return strconv.Itoa(row*nx + column + 1) }
	var xs, ys []float64 // of the match lines
	if column > 0 {
		xs = append(xs, field.Min.X+overlap/2)
	}
	if column < nx-1 {
		xs = append(xs, field.Max.X-overlap/2)
	}
	if row > 0 {
		ys = append(ys, field.Min.Y+overlap/2)
	}
	if row < ny-1 {
		ys = append(ys, field.Max.Y-overlap/2)
	}
	share := [...]float64{0.25, 0.75}
	for _, x := range xs {
		d.Line(joinLine, sheet.Point{X: x, Y: field.Min.Y}, sheet.Point{X: x, Y: field.Max.Y})
		for _, s := range share {
			target(d, sheet.Point{X: x, Y: field.Min.Y + s*high})
		}
		other := column - 1
		if x > (field.Min.X+field.Max.X)/2 {
			other = column + 1
		}
		d.Text(textLine, sheet.Text{At: sheet.Point{X: x, Y: field.Min.Y - 1.5 - caption}, Height: caption, Anchor: sheet.Middle, Value: "join to sheet " + number(other, row)})
	}
	for _, y := range ys {
		d.Line(joinLine, sheet.Point{X: field.Min.X, Y: y}, sheet.Point{X: field.Max.X, Y: y})
		for _, s := range share {
			target(d, sheet.Point{X: field.Min.X + s*wide, Y: y})
		}
		other := row - 1
		if y > (field.Min.Y+field.Max.Y)/2 {
			other = row + 1
		}
		d.Text(textLine, sheet.Text{At: sheet.Point{X: field.Max.X + 1.5 + caption, Y: y}, Height: caption, Anchor: sheet.Middle, Rotation: 90 * units.Degree, Value: "join to sheet " + number(column, other)})
	}
}

// target draws a mark to lay one sheet on another by.
func target(d *sheet.Drawing, at sheet.Point) {
	const r = 2
	d.Circle(scaleLine, at, r)
	d.Line(scaleLine, at.At(-2*r, 0), at.At(2*r, 0))
	d.Line(scaleLine, at.At(0, -2*r), at.At(0, 2*r))
}

func rectangle(d *sheet.Drawing, l sheet.Layer, b sheet.Box) {
	d.Loop(l, b.Min, sheet.Point{X: b.Max.X, Y: b.Min.Y}, b.Max, sheet.Point{X: b.Min.X, Y: b.Max.Y})
}

// wholePlan returns the drawing for DXF: the plan with the bars and the notes
// below it.
func wholePlan(t *Template) (*sheet.Drawing, error) {
	p, err := newPlan(t.part)
	if err != nil {
		return nil, err
	}
	b := p.Bounds()
	origin := sheet.Point{X: b.Min.X, Y: b.Min.Y - barLength - 20}
	bars(p.Drawing, origin)
	y := origin.Y + barLength
	lines := []string{
		sheet.Fit(t.part.Outline.Name, 3.5, 160),
		sheet.Fit("For: "+orDash(t.part.Engine), plainText, 160),
		sheet.Fit("Material: "+orDash(t.part.Material), plainText, 160),
		"Thickness: " + thickness(t.part.Thickness),
		"Scale 1 : 1, one unit is 1 mm. Measure the bars: each is 100.",
	}
	for i, h := range t.holes {
		if i == 12 {
			lines = append(lines, fmt.Sprintf("and %d more sizes of hole", len(t.holes)-i))
			break
		}
		text := fmt.Sprintf("%d × %s", h.Count, holeSize(h))
		if !h.Diameter.IsZero() {
			text += ", punch " + punchText(h)
		}
		lines = append(lines, text)
	}
	for i, text := range lines {
		height := plainText
		if i == 0 {
			height = 3.5
		}
		p.Text(textLine, sheet.Text{At: sheet.Point{X: origin.X + 12, Y: y - 4}, Height: height, Value: text})
		y -= 5.5
	}
	return p.Drawing, p.Err()
}
