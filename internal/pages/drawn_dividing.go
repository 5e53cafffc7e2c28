package pages

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
)

// A dividingPicture is the work with its divisions, and the plate with the move of the
// crank from one to the next.
type dividingPicture struct {
	divisions int         // zero: by an angle
	angle     units.Angle // where there are none
	move      *dividing.Setting
	across    units.Length // of flats; zero: none
	diameter  units.Length // of the bar with flats
	below     []string     // lines under the work
}

// Places on the sheet of a dividing head.
const (
	workAt, plateAt = 31.0, 89.0
	dividedRadius   = 21.0
	dividedHigh     = 43.0 // height of the centres
)

func (p dividingPicture) picture() (book.Figure, error) {
	b := newBoard(dividedHigh+dividedRadius+15, false)
	work := sheet.Point{X: workAt, Y: dividedHigh}
	if p.move == nil {
		work.X = pictureWide / 2
	}
	b.Circle(sheet.Edge, work, dividedRadius)
	b.CentreMark(sheet.Centre, work, 2, 1)
	top := sheet.Point{X: work.X, Y: dividedHigh + dividedRadius + 9}
	name, alt := "the work", ""
	if p.divisions > 0 {
		name = fmt.Sprintf("%d divisions", p.divisions)
		alt = fmt.Sprintf("A circle with %d divisions, number 1 above and the others clockwise.", p.divisions)
		p.divided(b, work)
	} else {
		name = plainDegrees(p.angle) + "°"
		alt = "A circle turned by " + plainDegrees(p.angle) + " degrees."
		p.turned(b, work)
	}
	b.name(top, sheet.Middle, name)
	for i, line := range p.below {
		b.word(sheet.Point{X: work.X, Y: 11.5 - float64(i)*rowsApart}, sheet.Middle, line)
	}
	if p.move != nil {
		alt += " " + p.plate(b)
	}
	return b.figure("dividing", "The divisions and the plate", alt, "Numbers and move go clockwise here; either way does, but always the same.")
}

// at is a point of a circle by the clock: turns from the top.
func clock(centre sheet.Point, r, turns float64) sheet.Point {
	sin, cos := math.Sincos(turns * 2 * math.Pi)
	return centre.At(r*sin, r*cos)
}

// every is the least of 1, 2, 5, 10 ... that leaves at most so many of n.
func every(n, most int) int {
	for unit := 1; ; unit *= 10 {
		for _, step := range [...]int{1, 2, 5} {
			if n <= most*step*unit {
				return step * unit
			}
		}
	}
}

// divided marks the divisions, and numbers them.
func (p dividingPicture) divided(b *board, work sheet.Point) {
	n := float64(p.divisions)
	for i := 0; i < p.divisions; i += every(p.divisions, 360) {
		at := float64(i) / n
		b.Line(sheet.Measure, clock(work, dividedRadius-2, at), clock(work, dividedRadius+1.5, at))
	}
	step := every(p.divisions, 24)
	for i := 0; i < p.divisions; i++ {
		number := i + 1
		if number != 1 && (number%step != 0 || step > 1 && float64(p.divisions-i) < 0.6*float64(step)) {
			continue
		}
		text := fmt.Sprint(number)
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		far := dividedRadius + 2.5 + math.Hypot(sheet.TextWidth(text, lettersHigh)/2*sin, lettersHigh/2*cos)
		b.word(clock(work, far, float64(i)/n).At(0, -lettersHigh/2), sheet.Middle, text)
	}
	if p.across.IsZero() {
		return
	}
	by := dividedRadius / (p.diameter.MM() / 2)
	flat := p.across.MM() / 2 * by
	half := min(math.Sqrt(max(0, dividedRadius*dividedRadius-flat*flat)), flat*math.Tan(math.Pi/n))
	if p.divisions < 3 {
		half = math.Sqrt(max(0, dividedRadius*dividedRadius-flat*flat))
	}
	for i := range p.divisions {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		at := func(aside float64) sheet.Point { return work.At(flat*sin+aside*cos, flat*cos-aside*sin) }
		b.Line(sheet.Edge, at(-half), at(half))
	}
}

// turned marks an angle.
func (p dividingPicture) turned(b *board, work sheet.Point) {
	turns := math.Mod(p.angle.Degrees()/360, 1)
	for _, at := range [...]float64{0, turns} {
		b.Line(sheet.Measure, work, clock(work, dividedRadius+2, at))
	}
	b.swing(work, dividedRadius*0.6, turns)
}

// swing is an arrow round a centre, clockwise from the top.
func (b *board) swing(centre sheet.Point, r, turns float64) {
	if turns*2*math.Pi*r < 0.5 {
		return
	}
	b.Arc(sheet.Measure, centre, r, units.Angle(math.Pi/2-turns*2*math.Pi), 90*units.Degree)
	if turns*2*math.Pi*r > arrowsLength {
		end := clock(centre, r, turns)
		before := clock(centre, r, turns-arrowsLength/(2*math.Pi*r))
		b.Arrow(sheet.Measure, end, sheet.Point{X: end.X - before.X, Y: end.Y - before.Y})
	}
}

// plate draws the circle of holes with the arms about the move, and says what it is.
func (p dividingPicture) plate(b *board) string {
	m, at := *p.move, sheet.Point{X: plateAt, Y: dividedHigh}
	top := sheet.Point{X: plateAt, Y: dividedHigh + dividedRadius + 9}
	turns := fmt.Sprintf("%d whole turns", m.Turns)
	if m.Turns == 1 {
		turns = "1 whole turn"
	}
	if m.Circle == 0 {
		b.name(top, sheet.Middle, "the crank")
		b.Circle(sheet.Edge, at, dividedRadius*0.5)
		b.CentreMark(sheet.Centre, at, 2, 1)
		b.word(sheet.Point{X: plateAt, Y: 11.5}, sheet.Middle, turns+" of the crank,")
		b.word(sheet.Point{X: plateAt, Y: 11.5 - rowsApart}, sheet.Middle, "on any circle")
		return "The crank: " + turns + ", on any circle."
	}
	circle, spaces := float64(m.Circle), float64(m.Spaces)
	b.name(top, sheet.Middle, fmt.Sprintf("plate, circle of %d holes", m.Circle))
	hole := min(0.8, 0.32*2*math.Pi*dividedRadius/circle)
	for i := range m.Circle {
		b.Circle(sheet.Measure, clock(at, dividedRadius, float64(i)/circle), hole)
	}
	b.CentreMark(sheet.Centre, at, 2, 1)
	aside := (hole + 0.35) / (2 * math.Pi * dividedRadius) // the arms stand beside the holes that they show
	for _, arm := range [...]float64{-aside, spaces/circle + aside} {
		b.Line(sheet.Edge, clock(at, 3, arm), clock(at, dividedRadius+2.5, arm))
	}
	for _, end := range [...]float64{0, spaces / circle} {
		b.Circle(sheet.Edge, clock(at, dividedRadius, end), hole)
	}
	b.swing(at, dividedRadius*0.6, spaces/circle)
	said := fmt.Sprintf("%d spaces", m.Spaces)
	if m.Spaces == 1 {
		said = "1 space"
	}
	if m.Turns > 0 {
		said = turns + " and " + said
	}
	arms := fmt.Sprintf("between the arms %d holes,", m.Spaces+1)
	const counted = "both ends counted"
	b.word(sheet.Point{X: plateAt, Y: 11.5}, sheet.Middle, said)
	b.word(sheet.Point{X: plateAt, Y: 11.5 - rowsApart}, sheet.Middle, arms)
	b.word(sheet.Point{X: plateAt, Y: 11.5 - 2*rowsApart}, sheet.Middle, counted)
	return fmt.Sprintf("A plate with a circle of %d holes: %s, %s %s.", m.Circle, said, arms, counted)
}
