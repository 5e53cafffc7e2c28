package pages

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Places on the sheets of a sheave: how large the bar is drawn, and the column of texts.
const (
	barDrawn   = 32.0
	barX       = 35.0
	besideBar  = 68.0 // the dimension line, or the ends of leaders
	textsOfBar = 71.0
)

// markedPicture is the end of a bar in a vee block, with the lines that are drawn on it
// at their heights, which are above the root of the vee or on the gauge.
func markedPicture(v marking.Vee, told marking.Heights, onGauge, inch bool) (book.Figure, error) {
	above, err := v.Heights() // the root of the vee
	if err != nil {
		return book.Figure{}, err
	}
	radius := v.Bar.MM() / 2
	by := barDrawn / 2 / radius
	half := v.Included.Radians() / 2
	centre := above.Centre.MM()
	touch := centre - radius*math.Sin(half)                             // where the bar lies in the vee
	lip := min(touch+radius*0.35, centre-radius*0.05)                   // top of the block
	lip = max(lip, touch+radius*0.05)                                   // of a vee that is wide open
	wide := max(lip*math.Tan(half)+radius*0.4, radius*1.25)             // half of its width
	low := max(6, radius*by*0.35)                                       // of metal below the root
	offsetAt := max(told.Offset.Sub(told.Centre).MM(), 0)               // above the axis
	top := max(above.Top.MM(), (above.Centre.MM()+offsetAt)+radius*0.1) // of what is drawn
	if wide*by > 27 {
		by *= 27 / (wide * by)
	}
	high := low + top*by + 14
	b := newBoard(high, inch)
	x := max(barX, sheet.TextWidth(b.size(v.Offset), lettersHigh)+7+radius*by)
	s := scaledView{sheet.Point{X: x, Y: low + 3}, by}
	aside := lip * math.Tan(half)
	b.solid(45*units.Degree, 1.8, s.at(-wide, -low/by), s.at(wide, -low/by), s.at(wide, lip), s.at(aside, lip),
		s.at(0, 0), s.at(-aside, lip), s.at(-wide, lip))
	b.Circle(sheet.Edge, s.at(0, centre), radius*by)
	b.Line(sheet.Centre, s.at(0, centre-radius*1.12), s.at(0, centre+radius*1.12))
	end := math.Sqrt(max(0, radius*radius-offsetAt*offsetAt))
	b.Line(sheet.Edge, s.at(-radius, centre), s.at(radius, centre))
	b.Line(sheet.Edge, s.at(0, centre-radius), s.at(0, centre+radius))
	if end > 0 {
		b.Line(sheet.Edge, s.at(-end, centre+offsetAt), s.at(end, centre+offsetAt))
	}
	b.Circle(sheet.Measure, s.at(0, centre+offsetAt), 1.2)
	root, how := "root of the vee", "above the root of the vee"
	if onGauge {
		how = "on the gauge"
	}
	marks := []mark{
		{from: s.at(radius, centre), text: "line of the axis " + b.fine(told.Centre)},
		{from: s.at(end, centre+offsetAt), text: "line of the offset " + b.fine(told.Offset)},
		{from: s.at(0, above.Top.MM()), text: "top of the bar " + b.fine(told.Top)},
	}
	if !onGauge {
		marks = append(marks, mark{from: s.at(0, 0), text: root, name: true})
	}
	texts := beside(textsOfBar, marks...)
	b.climb(ladder{line: texts - 3, text: texts, datum: s.at(0, 0).Y, plain: onGauge, low: 2, high: high - 6}, marks)
	b.upright(s.at(-radius, centre), s.at(-end, centre+offsetAt), s.at(-radius, 0).X-3.5, b.size(v.Offset))
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "bar "+b.size(v.Bar)+" in a vee of "+plainDegrees(v.Included)+"°")
	alt := fmt.Sprintf("The end of a bar of %s in a vee block: the line of its axis at %s and the line of the offset at %s %s; the top of the bar at %s.",
		b.size(v.Bar), b.fine(told.Centre), b.fine(told.Offset), how, b.fine(told.Top))
	return b.figure("marked-out", "Marking out the end of the bar", alt,
		"The ring is where the bore, or the sheave, has its centre. Heights are "+how+".")
}

// sheavePicture is the sheave from its end, with its bar about it.
func sheavePicture(s marking.Sheave, w marking.Walls, inch bool) (book.Figure, error) {
	outer := s.Bar.MM()
	if outer == 0 {
		outer = w.Blank.MM()
	}
	rim := s.Diameter.MM()/2 + s.Lip.MM()
	radius := max(outer/2, rim, s.Offset.MM()+max(s.Boss.MM(), s.Bore.MM())/2)
	by := barDrawn / 2 / radius
	const below = 21.0
	high := below + 2*radius*by + 14
	b := newBoard(high, inch)
	v := scaledView{sheet.Point{X: barX, Y: below + radius*by}, by}
	e := s.Offset.MM()
	b.Circle(sheet.Other, v.at(0, 0), outer/2*by)
	b.Circle(sheet.Edge, v.at(0, 0), rim*by)
	marks := []mark{{from: v.at(outer/2*math.Cos(1.2), outer/2*math.Sin(1.2)), text: "bar " + b.size(s.Bar)}}
	if s.Bar.IsZero() {
		marks[0].text = "bar, at least " + b.size(w.Blank)
	}
	place := func(r, turn float64) sheet.Point { return v.at(r*math.Cos(turn), r*math.Sin(turn)) }
	if s.Lip.Sign() > 0 {
		b.Circle(sheet.Hidden, v.at(0, 0), s.Diameter.MM()/2*by)
		marks = append(marks, mark{from: place(rim, 0.75), text: "over the lips " + b.size(s.Diameter.Add(s.Lip.Scale(2)))})
	}
	marks = append(marks, mark{from: place(s.Diameter.MM()/2, 0.35), text: "the strap runs on " + b.size(s.Diameter)})
	bore := func(r, turn float64) sheet.Point { return v.at(-e+r*math.Cos(turn), r*math.Sin(turn)) }
	if s.Boss.Sign() > 0 {
		b.Circle(sheet.Edge, v.at(-e, 0), s.Boss.MM()/2*by)
		marks = append(marks, mark{from: bore(s.Boss.MM()/2, -0.35), text: "boss " + b.size(s.Boss)})
	}
	b.Circle(sheet.Edge, v.at(-e, 0), s.Bore.MM()/2*by)
	marks = append(marks, mark{from: bore(s.Bore.MM()/2, -0.6), text: "bore " + b.size(s.Bore)})
	b.Line(sheet.Centre, v.at(-radius*1.08, 0), v.at(radius*1.08, 0))
	b.Line(sheet.Centre, v.at(0, -radius*1.05), v.at(0, radius*1.05))
	b.Line(sheet.Centre, v.at(-e, -s.Bore.MM()*0.75), v.at(-e, s.Bore.MM()*0.75))
	b.climb(ladder{line: besideBar - 8, text: textsOfBar - 4, plain: true, low: 2, high: high - 6}, marks)
	bottom := v.at(0, -radius).Y
	b.across(v.at(-e, 0), v.at(0, 0), bottom-7, b.size(s.Offset))
	b.across(v.at(-s.Diameter.MM()/2, 0), v.at(-e-s.Bore.MM()/2, 0), bottom-15, b.size(w.Thin))
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "the sheave from its end")
	alt := fmt.Sprintf("The sheave from its end: bore of %s, its centre %s from that of the sheave; the strap runs on %s; %s of metal on the thin side.",
		b.size(s.Bore), b.size(s.Offset), b.size(s.Diameter), b.size(w.Thin))
	return b.figure("sheave", "The sheave and its bar", alt,
		"Above: the offset, from the centre of the sheave to that of the bore. Below: the metal left beside the bore on the thin side.")
}

// Places on the sheets of a chuck.
const (
	chuckX       = 44.0
	chuckDrawn   = 32.0 // the work
	jawLong      = 0.55 // of the radius of the work
	textsOfChuck = 81.0
)

// threeJawPicture is a blank in a three-jaw chuck, set over by packing under one jaw.
func threeJawPicture(c marking.ThreeJaw, p marking.Packing, inch bool) (book.Figure, error) {
	r, e, pack := c.Blank.MM()/2, c.Offset.MM(), p.Thickness.MM()
	faces := p.JawsGrip.MM() / 2 // of the jaws from the axis of the lathe
	reach := faces + jawLong*r
	by := min(chuckDrawn/2/r, 27/reach)
	high := 2*reach*by + 14
	b := newBoard(high, inch)
	x := max(chuckX, sheet.TextWidth(b.size(c.Offset), lettersHigh)+6.5+reach*0.9*by)
	v := scaledView{sheet.Point{X: x, Y: 3 + reach*by}, by}
	wide := c.Jaw.MM()
	if c.Jaw.IsZero() { // they touch along one line
		wide = 0.02 * r
	}
	flat := max(wide, 0.3*r) // width of the packing, which is what one has
	for i := range 3 {
		turn := math.Pi/2 + float64(i)*2*math.Pi/3
		b.jaw(v, turn, faces, wide, jawLong*r, fmt.Sprint(i+1))
	}
	b.solid(135*units.Degree, 1, corners(v.at(-flat/2, faces-pack), v.at(flat/2, faces))...)
	b.Circle(sheet.Edge, v.at(0, -e), r*by)
	b.centres(v, sheet.Point{Y: -e}, r)
	marks := []mark{
		{from: v.at(flat/2, faces-pack/2), text: "packing " + b.size(p.Thickness)},
		{from: v.at(0, 0).At(1, 0), text: "axis of the lathe"},
		{from: v.at(0, -e).At(1, 0), text: "axis of the bar"},
		{from: v.at(r*math.Cos(0.9), -e-r*math.Sin(0.9)), text: "bar " + b.size(c.Blank)},
	}
	b.climb(ladder{line: textsOfChuck - 3, text: textsOfChuck, plain: true, low: 2, high: high - 7}, marks)
	b.upright(v.at(-0.3*r, 0), v.at(-0.3*r, -e), v.at(-reach*0.9, 0).X-3, b.size(c.Offset))
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, "three-jaw chuck: packing under jaw 1")
	alt := fmt.Sprintf("A bar of %s in a three-jaw chuck, with packing of %s under jaw 1: its axis is %s from that of the lathe, away from that jaw.",
		b.size(c.Blank), b.size(p.Thickness), b.size(c.Offset))
	return b.figure("three-jaw", "Set over in a three-jaw chuck", alt,
		"Seen from the tailstock; the ring is the axis of the lathe. The bar stands off on the side away from the packing.")
}

// centres draws the axis of the lathe as a cross, and that of the work.
func (b *board) centres(v scaledView, work sheet.Point, r float64) {
	b.Line(sheet.Centre, v.at(-1.06*r, 0), v.at(1.06*r, 0))
	b.Line(sheet.Centre, v.at(0, work.Y-1.06*r), v.at(0, max(work.Y+1.06*r, 0.2*r)))
	at := v.at(work.X, work.Y)
	b.Line(sheet.Centre, v.at(work.X-0.5*r, work.Y), v.at(work.X+0.5*r, work.Y))
	b.Circle(sheet.Edge, at, 0.5)
	b.Circle(sheet.Edge, v.at(0, 0), 1)
}

// jaw draws one jaw: its face so far from the axis, its number on it.
func (b *board) jaw(v scaledView, turn, face, wide, long float64, number string) {
	sin, cos := math.Sincos(turn)
	at := func(out, aside float64) sheet.Point { return v.at(out*cos-aside*sin, out*sin+aside*cos) }
	broad := max(wide, 5/v.by) // behind its face
	points := []sheet.Point{at(face, -wide/2), at(face+min(long*0.3, (broad-wide)/2), -broad/2), at(face+long, -broad/2),
		at(face+long, broad/2), at(face+min(long*0.3, (broad-wide)/2), broad/2), at(face, wide/2)}
	b.Loop(sheet.Edge, points...)
	middle := at(face+long*0.62, 0)
	b.word(middle.At(0, -lettersHigh/2), sheet.Middle, number)
}

// A fourJawPicture is work in a four-jaw chuck: what the dial reads at each jaw, and what
// the jaws do.
type fourJawPicture struct {
	diameter units.Length
	readings []units.Length // at the jaws; nil: none
	moves    []marking.Move
	offset   units.Length // wanted; zero: to run true
	towards  int          // the jaw towards which it is wanted
	turns    bool
	inch     bool
}

func (p fourJawPicture) picture() (book.Figure, error) {
	r, e := 10.0, 0.0 // where the diameter is not known
	if !p.diameter.IsZero() {
		r, e = p.diameter.MM()/2, p.offset.MM()
	}
	long := jawLong * r
	reach := r + e + long
	by := min(chuckDrawn/2/r, 26/reach)
	high := 2*reach*by + 24
	b := newBoard(high, p.inch)
	v := scaledView{sheet.Point{X: chuckX, Y: 9 + reach*by}, by}
	work := sheet.Point{}
	out := [4]float64{r, r, r, r}
	if e > 0 {
		sin, cos := math.Sincos(jawTurn(p.towards))
		work = sheet.Point{X: e * cos, Y: e * sin}
		beside := math.Sqrt(max(0, r*r-e*e)) // where the narrow faces of the other pair touch
		for i, far := range [4]float64{r + e, beside, r - e, beside} {
			out[(p.towards-1+i)%4] = far
		}
	}
	for i := range 4 {
		b.jaw(v, jawTurn(i+1), out[i], 0.12*r, reach-out[i], fmt.Sprint(i+1))
	}
	b.Circle(sheet.Edge, v.at(work.X, work.Y), r*by)
	b.centres(v, work, r)
	p.readingsAt(b, v, reach)
	p.movesBeside(b, high)
	b.name(sheet.Point{X: pictureEdge, Y: high - 5}, sheet.Start, p.title())
	return b.figure("four-jaw", "Set in a four-jaw chuck", p.alt(),
		"Seen from the tailstock, as the jaws stand when it is done. The ring is the axis of the lathe; the jaws are numbered as they come by the dial.")
}

// jawTurn is where a jaw stands: jaw 1 above, the others as they come by a dial there
// while the chuck, seen from the tailstock, turns anticlockwise.
func jawTurn(number int) float64 { return math.Pi/2 - float64(number-1)*math.Pi/2 }

// readingsAt puts what the dial reads at the ends of the jaws.
func (p fourJawPicture) readingsAt(b *board, v scaledView, reach float64) {
	if len(p.readings) != 4 {
		return
	}
	end := reach*v.by + 1.5
	for i, at := range []sheet.Point{
		v.origin.At(0, end), v.origin.At(end, 0.8), v.origin.At(0, -end-lettersHigh), v.origin.At(-end, 0.8),
	} {
		b.word(at, [...]sheet.Anchor{sheet.Middle, sheet.Start, sheet.Middle, sheet.End}[i], p.reading(p.readings[i]))
	}
}

func (p fourJawPicture) reading(l units.Length) string {
	if p.inch {
		return plainZero(l.Decimal(units.Thousandths, 1))
	}
	return plainZero(l.Decimal(units.Millimetres, 2))
}

// movesBeside lists what the jaws do.
func (p fourJawPicture) movesBeside(b *board, high float64) {
	lines := p.lines(b)
	y := high/2 + float64(len(lines))*rowsApart/2 - rowsApart
	for _, l := range lines {
		x := textsOfChuck
		if rest := strings.TrimPrefix(l, " "); rest != l {
			x, l = x+3, rest
		}
		b.word(sheet.Point{X: x, Y: y}, sheet.Start, l)
		y -= rowsApart
	}
}

func (p fourJawPicture) lines(b *board) []string {
	if len(p.moves) == 0 {
		return []string{"no jaw has to move"}
	}
	var lines []string
	for i, m := range p.moves {
		lines = append(lines, fmt.Sprintf("%d. let jaw %d back,", i+1, m.Loosen), fmt.Sprintf(" jaw %d in by %s", m.Jaw, b.size(m.By)))
		if p.turns {
			lines = append(lines, fmt.Sprintf(" %.2f turns of each", m.Turns))
		}
	}
	if !p.offset.IsZero() {
		lines = append(lines, "a dial then goes", "over "+b.size(p.offset.Scale(2)))
	}
	return lines
}

func (p fourJawPicture) title() string {
	unit := "mm"
	if p.inch {
		unit = "thou"
	}
	switch {
	case len(p.readings) == 4:
		return "four-jaw chuck: the dial reads, " + unit
	case !p.offset.IsZero():
		return "four-jaw chuck: from running true"
	}
	return "four-jaw chuck"
}

func (p fourJawPicture) alt() string {
	text := "Work in a four-jaw chuck, jaw 1 above, the others clockwise."
	if len(p.moves) == 0 {
		return text + " No jaw has to move."
	}
	for _, m := range p.moves {
		text += fmt.Sprintf(" Jaw %d goes in by %s after jaw %d was let back.", m.Jaw, sizeText(m.By, p.inch), m.Loosen)
	}
	return text
}
