package template

import (
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

const (
	leastWide  = 165.0 // of the sheet: room for the title and the list beside it
	leastHigh  = 200.0
	overlap    = 12.0 // of neighbouring sheets
	mostSheets = 200
	mostLists  = 3 // sheets of places, beyond which they are in the DXF file alone
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
		const format = "holds %.0f x %.0f mm after the correction, too little for the bars and the title"
		accepted := fmt.Sprintf("a paper with %.0f x %.0f mm or more", leastWide, leastHigh)
		return nil, fail.Wrong("paper", paper, fmt.Sprintf(format, width, height), accepted)
	}
	l := &layout{template: t, plan: p, paper: paper, width: width, height: height, scaleX: scaleX, scaleY: scaleY}
	l.list, l.warnings = t.listing(p), warningLines(t.part.Warnings, t.part.Remarks, width-2*margin-8)
	if most := int((height - leastHigh + 40) / warningUp); len(l.warnings) > most {
		return nil, fail.OutOfRange("warnings", fmt.Sprintf("of %d lines", len(l.warnings)), fmt.Sprintf("up to %d lines on %s", most, paper))
	}
	l.share()
	if l.count() > mostSheets {
		on := fmt.Sprintf("on %d sheets of %s", l.count(), paper)
		return nil, fail.OutOfRange("part", on, fmt.Sprintf("up to %d sheets", mostSheets))
	}
	if t.marking != nil {
		n := len(l.noteLines(width-2*margin-titleWide-1.5)) + min(len(t.holes), mostSizes)
		if n > mostNotes {
			return nil, fail.OutOfRange("notes", fmt.Sprintf("of %d lines", n), fmt.Sprintf("up to %d lines on %s", mostNotes, paper))
		}
	}
	pages := append(l.plans(), l.placeLists()...)
	for _, d := range pages {
		if err := d.Err(); err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// A layout is how a plan and the list of its holes are shared out over sheets.
type layout struct {
	template       *Template
	warnings       []string // lines of them, on every sheet
	plan           *plan
	list           listing
	paper          Paper
	width, height  float64 // of the sheet, in millimetres of the drawing
	scaleX, scaleY float64
	nx, ny         int       // sheets of the plan, across and up
	where          sheet.Box // of a plan on one sheet: what the list leaves
	beside         bool      // the list of places is on the sheet of the plan
	lists          int       // sheets of places after those of the plan
}

// field is the part of the sheet that the plan may take.
func (l *layout) field() sheet.Box {
	const strip = margin + stripUp
	return sheet.Box{
		Min: sheet.Point{X: margin + 18, Y: strip + 24},
		Max: sheet.Point{X: l.width - margin - 6, Y: l.height - margin - 6 - warningUp*float64(len(l.warnings))},
	}
}

// share works out how many sheets it takes.
func (l *layout) share() {
	field, need := l.field(), l.plan.Bounds()
	room, size := extent(field), extent(need)
	l.nx, l.ny = tiles(size.X, room.X), tiles(size.Y, room.Y)
	l.where = field
	rows := len(l.list.rows)
	if rows == 0 {
		return
	}
	if up := float64(rows+3) * rowUp; l.nx*l.ny == 1 && up <= room.Y {
		const gap = 6
		switch {
		case room.X-l.list.wide-gap >= size.X:
			l.where.Max.X -= l.list.wide + gap
			l.beside = true
			return
		case room.Y-up-gap >= size.Y:
			l.where.Max.Y -= up + gap
			l.beside = true
			return
		}
	}
	onSheet := l.listRows() * l.listColumns()
	if l.lists = (rows + onSheet - 1) / onSheet; l.lists > mostLists {
		l.lists = 0
	}
}

// tiles returns the number of sheets that cover a length.
func tiles(need, room float64) int {
	if need <= room {
		return 1
	}
	return 1 + int(math.Ceil((need-room)/(room-overlap)))
}

func (l *layout) count() int { return l.nx*l.ny + l.lists }

func (l *layout) listRows() int { return int(extent(l.field()).Y/rowUp) - 3 }

func (l *layout) listColumns() int {
	return int((extent(l.field()).X + listGap) / (l.list.wide + listGap))
}

// whereListed says on which sheet the places of the holes are, if on another.
func (l *layout) whereListed() string {
	rows := len(l.list.rows)
	switch {
	case rows == 0 || l.beside:
		return ""
	case l.lists == 0:
		return fmt.Sprintf("Places of the %d %s: in the DXF file", rows, l.list.things)
	case l.lists == 1:
		return fmt.Sprintf("Places of the %s: sheet %d", l.list.things, l.count())
	}
	return fmt.Sprintf("Places of the %s: sheets %d to %d", l.list.things, l.nx*l.ny+1, l.count())
}

// plans draws the sheets that show the part.
func (l *layout) plans() []*sheet.Drawing {
	var pages []*sheet.Drawing
	for row := range l.ny {
		for column := range l.nx {
			d := l.sheet(len(pages) + 1)
			if l.nx*l.ny > 1 {
				l.tile(d, column, row)
			} else {
				l.single(d)
			}
			if l.beside {
				corner := l.field().Max
				l.places(d, sheet.Point{X: corner.X - l.list.wide, Y: corner.Y}, 0, len(l.list.rows))
			}
			pages = append(pages, d)
		}
	}
	return pages
}

// placeLists draws the sheets that list the holes alone.
func (l *layout) placeLists() []*sheet.Drawing {
	var pages []*sheet.Drawing
	field, rows, next := l.field(), len(l.list.rows), 0
	for i := range l.lists {
		d := l.sheet(l.nx*l.ny + i + 1)
		for column := range l.listColumns() {
			n := min(l.listRows(), rows-next)
			if n > 0 {
				l.places(d, sheet.Point{X: field.Min.X + float64(column)*(l.list.wide+listGap), Y: field.Max.Y}, next, n)
			}
			next += n
		}
		pages = append(pages, d)
	}
	return pages
}

// single places the plan in the middle of its part of the field.
func (l *layout) single(d *sheet.Drawing) {
	need, where := l.plan.Bounds(), l.where
	wide, high := need.Max.X-need.Min.X, need.Max.Y-need.Min.Y
	x, y := (where.Min.X+where.Max.X-wide)/2, (where.Min.Y+where.Max.Y-high)/2
	box := sheet.Box{Min: sheet.Point{X: x - 1, Y: y - 1}, Max: sheet.Point{X: x + wide + 1, Y: y + high + 1}}
	d.View(sheet.View{Of: l.plan.Drawing, From: need.Min.At(-1, -1), Box: box})
}

// tile draws one of several sheets, counted from the lower left: the part of the
// plan that it shows, match lines in the middle of each overlap, and targets that
// come to lie on those of the neighbour.
func (l *layout) tile(d *sheet.Drawing, column, row int) {
	field, need := l.field(), l.plan.Bounds()
	wide, high := field.Max.X-field.Min.X, field.Max.Y-field.Min.Y
	mid := l.plan.middle()
	from := need.Min.At(
		float64(column)*(wide-overlap)-before(l.nx, wide, need.Max.X-need.Min.X, mid.X-need.Min.X),
		float64(row)*(high-overlap)-before(l.ny, high, need.Max.Y-need.Min.Y, mid.Y-need.Min.Y))
	d.View(sheet.View{Of: l.plan.Drawing, From: from, Box: field})
	rectangle(d, ruleLine, field)
	d.Text(textLine, sheet.Text{
		At:     sheet.Point{X: (field.Min.X + field.Max.X) / 2, Y: field.Min.Y - 1.5 - caption},
		Height: caption, Anchor: sheet.Middle,
		Value: "Lay sheets on each other by the filled marks: they are no holes.",
	})
	number := func(column, row int) string { return strconv.Itoa(row*l.nx + column + 1) }
	var xs, ys []float64 // of the match lines
	if column > 0 {
		xs = append(xs, field.Min.X+overlap/2)
	}
	if column < l.nx-1 {
		xs = append(xs, field.Max.X-overlap/2)
	}
	if row > 0 {
		ys = append(ys, field.Min.Y+overlap/2)
	}
	if row < l.ny-1 {
		ys = append(ys, field.Max.Y-overlap/2)
	}
	share := [...]float64{0.25, 0.75}
	for _, x := range xs {
		d.Line(joinLine, sheet.Point{X: x, Y: field.Min.Y}, sheet.Point{X: x, Y: field.Max.Y})
		for _, s := range share {
			joinMark(d, sheet.Point{X: x, Y: field.Min.Y + s*high})
		}
		// inside the edge, clear of the label round the corner
		other, edge, anchor := column-1, field.Min.X, sheet.Start
		if x > (field.Min.X+field.Max.X)/2 {
			other, edge, anchor = column+1, field.Max.X, sheet.End
		}
		d.Text(textLine, sheet.Text{
			At: sheet.Point{X: edge, Y: field.Min.Y - 1.5 - caption}, Height: caption, Anchor: anchor,
			Value: "join to sheet " + number(other, row),
		})
	}
	for _, y := range ys {
		d.Line(joinLine, sheet.Point{X: field.Min.X, Y: y}, sheet.Point{X: field.Max.X, Y: y})
		for _, s := range share {
			joinMark(d, sheet.Point{X: field.Min.X + s*wide, Y: y})
		}
		other, edge, anchor := row-1, field.Min.Y, sheet.Start
		if y > (field.Min.Y+field.Max.Y)/2 {
			other, edge, anchor = row+1, field.Max.Y, sheet.End
		}
		d.Text(textLine, sheet.Text{
			At: sheet.Point{X: field.Max.X + 1.5 + caption, Y: edge}, Height: caption, Anchor: anchor,
			Rotation: 90 * units.Degree, Value: "join to sheet " + number(column, other),
		})
	}
}

// before returns how much of n sheets of a length lies before a plan whose
// part has its middle at a distance from the start of the plan. The plan is in the
// middle of the sheets, or a little off it where a match line would come to lie
// on the middle of the part, whose centre line it would hide.
func before(n int, room, plan, middle float64) float64 {
	const aside, clear = 10, 8
	spare := (float64(n)*(room-overlap) + overlap - plan) / 2
	best, far := spare, -1.0
	for _, at := range [...]float64{spare, max(0, spare-aside), min(2*spare, spare+aside)} {
		least := math.Inf(1) // from a match line to the middle
		for k := 1; k < n; k++ {
			least = min(least, math.Abs(float64(k)*(room-overlap)+overlap/2-at-middle))
		}
		if least = min(least, clear); least > far {
			best, far = at, least
		}
	}
	return best
}

func extent(b sheet.Box) sheet.Point { return sheet.Point{X: b.Max.X - b.Min.X, Y: b.Max.Y - b.Min.Y} }
