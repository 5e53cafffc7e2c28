package diagram

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Drive draws crank, connecting rod and piston, and sheave, eccentric rod, lever and
// valve, as they stand at both dead centres and at the events of each end, a picture
// each; with the first is the shaft seen from its end, with the angle between crank and
// sheave. Rods have their true length beside what turns; an endless one is drawn as the
// slot that moves like it. Thickness of the parts, bore, length of the piston rod and
// the sheave's diameter are only drawn. It fails only where [eccentric.Gear.Validate] does. See the
// Example.
func Drive(g eccentric.Gear, o Options) ([]Picture, error) {
	return series{
		names: [3]string{"drive-at-the-dead-centres", "drive-at-the-events-head", "drive-at-the-events-crank"},
		titles: [3]string{
			"Crank, sheave and rods at both dead centres",
			"Crank, sheave and rods at the events of the head end",
			"Crank, sheave and rods at the events of the crank end",
		},
		caption: "Each half has a scale of its own; thickness of the parts, bore and the sheave's diameter are" +
			" only drawn. The dashed line at the sheave is the crank.",
		first: func(e eccentric.Events, _ [2]moment) []moment { return deadCentres(e) },
		draw:  func(moments []moment, first bool) (Picture, error) { return strips(g, o, moments, first) },
	}.of(g)
}

const (
	stripHigh = 29.0 // of one moment, its halves side by side
	stackHigh = 51.0 // of one, they one above the other
	stripHead = 5.5
	halfWide  = 56.0 // of either half
	endHigh   = 44.0 // of the shaft seen from its end
	nameRow   = 3.5  // for names above a half
)

// turns returns +1 for an engine that is drawn turning clockwise, and -1.
func (o Options) turns() float64 {
	if o.Rotation == setting.Anticlockwise {
		return -1
	}
	return 1
}

// seen says which way round the engine turns, and from where that is seen.
func (o Options) seen() []string {
	if o.Rotation == 0 {
		return []string{"drawn turning clockwise:", "no rotation is given"}
	}
	from := "side not given"
	if o.SeenFrom != "" {
		from = "seen from " + o.SeenFrom
	}
	return []string{"turns " + o.Rotation.String() + ",", from}
}

// turning is the same in a sentence.
func (o Options) turning() string {
	if o.Rotation == 0 {
		return "No rotation is given: it is drawn turning clockwise."
	}
	text := "It is drawn turning " + o.Rotation.String()
	if o.SeenFrom == "" {
		return text + ", as the engine does."
	}
	return text + ", as the engine does seen from " + o.SeenFrom + "."
}

func strips(g eccentric.Gear, o Options, moments []moment, end bool) (Picture, error) {
	each, foot := stripHigh, 5.0
	if end {
		each, foot = stackHigh, endHigh
	}
	high := 2*rim + each*float64(len(moments)) + foot
	d := sheet.New(wide, high)
	var told []string
	for i, m := range moments {
		text, err := strip(d, g, o, m, high-rim-each*float64(i), end)
		if err != nil {
			return Picture{}, err
		}
		told = append(told, text)
	}
	if end {
		told = append(told, shaftEnd(d, g, o, sheet.Point{X: rim + 33, Y: rim + endHigh/2 - 2}))
	} else {
		seen := sheet.Fit(strings.Join(o.seen(), " "), small, wide-2*rim)
		words(d, sheet.Point{X: rim, Y: rim + 0.7}, small, sheet.Start, seen)
	}
	return Picture{Alt: strings.Join(told, " "), drawing: d}, d.Err()
}

// strip draws the gear at one moment below a height, and says what there is to see.
// Its halves are side by side, or stacked and larger, with the lengths of the rods.
func strip(d *sheet.Drawing, g eccentric.Gear, o Options, m moment, top float64, stacked bool) (string, error) {
	piston, err := g.PistonPosition(m.crank)
	if err != nil {
		return "", err
	}
	at, err := g.Displacement(m.crank)
	if err != nil {
		return "", err
	}
	words(d, sheet.Point{X: rim, Y: top - large}, large, sheet.Start, m.name)
	beside := "valve " + o.said(at.Abs()) + " off the middle"
	switch {
	case m.still:
		beside = "does not happen"
	case len(m.lines) == 2:
		beside = m.lines[1]
	}
	words(d, sheet.Point{X: wide - rim, Y: top - large}, small, sheet.End, beside)
	top -= stripHead
	bottom := top - stripHigh + stripHead + 1
	left, right := box(rim, bottom, rim+halfWide, top), box(wide-rim-halfWide, bottom, wide-rim, top)
	if stacked {
		const each = (stackHigh - stripHead - 2) / 2
		left, right = box(rim, top-each, wide-rim, top), box(rim, top-2*each, wide-rim, top-each)
	}
	crankSide(d, g, o, m.crank, piston, left, stacked)
	sheaveSide(d, g, o, m.crank, at, right, stacked)
	when := m.name
	if len(m.lines) == 2 {
		when += ", " + strings.Join(m.lines, ", ")
	}
	return fmt.Sprintf("%s: the piston is %s from the head end, the valve %s towards the %s.",
		when, o.said(piston), o.said(at.Abs()), side(at)), nil
}

// direction returns the way that points by an angle ahead of the head-end dead centre, to
// which the cylinder lies on the left.
func (o Options) direction(a units.Angle) sheet.Point {
	sin, cos := math.Sincos(a.Radians())
	return sheet.Point{X: -cos, Y: o.turns() * sin}
}

// Nominal sizes of what is only drawn, in strokes.
const (
	pistonRodStrokes = 1.2
	endlessStrokes   = 1.2 // from an endless rod's slot to the crosshead
)

// crankSide draws cylinder, piston, connecting rod and crank in a box.
func crankSide(
	d *sheet.Drawing, g eccentric.Gear, o Options, t units.Angle, piston units.Length, in sheet.Box, named bool,
) {
	stroke := g.Stroke.MM()
	r := stroke / 2
	rod := endlessStrokes * stroke
	if l, finite := g.ConnectingRod.Length(); finite {
		rod = l.MM()
	}
	reach := r + rod + pistonRodStrokes*stroke + 0.3*stroke // to the left of the shaft
	const right = 3.2                                       // for the arrow that shows the rotation
	width, height := in.Max.X-in.Min.X, in.Max.Y-in.Min.Y
	above := 0.0 // for names
	if named {
		above = nameRow
	}
	k := min((width-right)/(reach+r), ((height-above)/2-1.8)/r)
	shaft := sheet.Point{X: (in.Min.X + in.Max.X + k*(reach-r) - right) / 2, Y: (in.Min.Y + in.Max.Y - above) / 2}
	way := o.direction(t)
	pin := shaft.At(k*r*way.X, k*r*way.Y)
	cross := shaft.At(-k*(r+rod-piston.MM()), 0)
	const eye = 0.9
	d.Circle(sheet.Centre, shaft, k*r)
	// the cylinder with its piston
	face := cross.X - k*pistonRodStrokes*stroke
	thick := 0.16 * stroke * k
	first := shaft.X - k*(r+rod+pistonRodStrokes*stroke) - thick/2 // of the piston at the head end
	last := first + k*stroke + thick
	bore := min(0.42*k*stroke, (height-above)/2-1)
	gap := 0.04 * k * stroke
	y := shaft.Y
	d.Polyline(sheet.Edge, false, at(last+gap, y+bore), at(first-gap, y+bore), at(first-gap, y-bore), at(last+gap, y-bore))
	d.Line(sheet.Edge, sheet.Point{X: last + gap, Y: y + bore}, sheet.Point{X: last + gap, Y: y + 0.6})
	d.Line(sheet.Edge, sheet.Point{X: last + gap, Y: y - bore}, sheet.Point{X: last + gap, Y: y - 0.6})
	inside := bore - 0.3
	body := []sheet.Vertex{
		at(face-thick/2, y-inside), at(face+thick/2, y-inside), at(face+thick/2, y+inside), at(face-thick/2, y+inside),
	}
	d.Polyline(sheet.Edge, true, body...)
	d.Hatch(sheet.Hatching, sheet.Hatch{Region: [][]sheet.Vertex{body}, Angle: 45 * units.Degree, Spacing: 0.8})
	d.Line(sheet.Centre, sheet.Point{X: in.Min.X, Y: y}, sheet.Point{X: in.Max.X - right + 1, Y: y})
	d.Line(sheet.Edge, sheet.Point{X: face + thick/2, Y: y}, sheet.Point{X: cross.X - eye, Y: y})
	link(d, g.ConnectingRod.Infinite(), pin, cross, k*r, eye)
	d.Line(sheet.Edge, shaft, pin)
	d.Circle(sheet.Edge, shaft, 1.4)
	d.Circle(sheet.Edge, pin, eye)
	if named {
		rodText := "endless connecting rod"
		if l, finite := g.ConnectingRod.Length(); finite {
			rodText = "connecting rod " + o.length(l)
		}
		names := []label{
			{from: first, to: last, lines: []string{"stroke " + o.length(g.Stroke)}},
			{from: last, to: shaft.X - k*r, lines: []string{rodText}},
		}
		middles, _ := sideBySide(names, in.Min.X, in.Max.X)
		for i, name := range names {
			words(d, sheet.Point{X: middles[i], Y: in.Max.Y - small - 0.3}, small, sheet.Middle, name.lines[0])
		}
	}
	// which way it turns
	arrowRound(d, shaft, k*r+1.6, -o.turns())
}

// link draws a rod from the pin that turns to the one that slides, or for an endless one
// the slot in which the turning pin goes up and down.
func link(d *sheet.Drawing, endless bool, pin, slides sheet.Point, radius, eye float64) {
	d.Circle(sheet.Edge, slides, eye)
	if !endless {
		d.Line(sheet.Edge, pin, slides)
		return
	}
	for _, x := range []float64{pin.X - eye, pin.X + eye} {
		d.Line(sheet.Edge, sheet.Point{X: x, Y: slides.Y - radius - 1}, sheet.Point{X: x, Y: slides.Y + radius + 1})
	}
	d.Line(sheet.Edge, sheet.Point{X: pin.X - eye, Y: slides.Y}, slides.At(eye, 0))
}

// arrowRound draws an arc to the right of a centre with an arrowhead, anticlockwise for a
// way of 1.
func arrowRound(d *sheet.Drawing, centre sheet.Point, radius, way float64) {
	const span = 0.6 // radians
	d.Arc(sheet.Measure, centre, radius, -span, span)
	sin, cos := math.Sincos(way * span)
	// the head lies along the chord of its own length
	sinHead, cosHead := math.Sincos(way * (span - arrowAlong/radius/2))
	arrow(d, centre.At(radius*cos, radius*sin), -way*sinHead, way*cosHead)
}

func at(x, y float64) sheet.Vertex { return sheet.Vertex{Point: sheet.Point{X: x, Y: y}} }

// sheaveSide draws sheave, eccentric rod, lever and valve in a box.
func sheaveSide(
	d *sheet.Drawing, g eccentric.Gear, o Options, t units.Angle, valve units.Length, in sheet.Box, named bool,
) {
	offset := g.EccentricOffset().MM()
	rod := 8 * offset
	length, finite := g.EccentricRod.Length()
	if finite {
		rod = length.MM()
	}
	furthest, err := runs(g)
	if err != nil {
		return // the gear was validated
	}
	run := furthest.MM()
	height := in.Max.Y - in.Min.Y
	const stub = 4.0 // of the valve rod
	ratio, arm, up := g.LeverRatio, 0.0, 0.0
	y := (in.Min.Y + in.Max.Y) / 2
	round := min(10, height/2-1.5) // radius in which the sheave turns
	if named {
		y -= nameRow / 2
		round -= nameRow / 2
	}
	if ratio != 0 { // the lever's arms from its pivot: to the eccentric rod, and to the valve
		arm = 8.5 / (1 + math.Abs(ratio))
		if ratio > 0 {
			arm = 8 / max(1, ratio)
		}
		up = (math.Abs(ratio) + 1) * arm
		if ratio > 0 {
			up = (ratio - 1) * arm
		}
		y = in.Min.Y + 9
	}
	if ratio != 0 {
		round = min(round, y-in.Min.Y-1.2)
	}
	// the shaft has room for the sheave to its right; the valve, for its way and that of the
	// lever's end to its left
	sheave, moves := 3*offset, 2*run+max(1, math.Abs(ratio))*offset
	across := in.Max.X - in.Min.X - stub - 3
	k := min(across/(sheave+rod+moves), round/sheave)
	left := in.Min.X + 1 + (across-k*(sheave+rod+moves))/2
	shaft := sheet.Point{X: left + k*(moves+rod) + stub, Y: y}
	way := o.direction(t + g.EccentricLead())
	centre := shaft.At(k*offset*way.X, k*offset*way.Y)
	fall := centre.Y - shaft.Y
	joint := sheet.Point{X: centre.X - math.Sqrt(max(0, k*rod*k*rod-fall*fall)), Y: y}
	rest := shaft.X - k*rod // of the joint
	if !finite {
		joint.X = centre.X - k*rod
	}
	// the crank, of which only the direction is drawn here, and the sheave on the shaft
	crank := o.direction(t)
	far := 3 * k * offset
	d.Line(sheet.Hidden, shaft, shaft.At(far*crank.X, far*crank.Y))
	d.Line(sheet.Centre, shaft, shaft.At((far+1)*way.X, (far+1)*way.Y))
	d.Line(sheet.Centre, sheet.Point{X: in.Min.X, Y: y + up}, sheet.Point{X: rest + 2*k*offset, Y: y + up})
	d.Circle(sheet.Edge, centre, 2*k*offset)
	d.Circle(sheet.Edge, shaft, 0.55*k*offset)
	const eye = 0.7
	if finite {
		d.Line(sheet.Edge, centre, joint)
	} else {
		link(d, true, centre, joint, k*offset, eye)
	}
	d.Circle(sheet.Edge, joint, eye)
	valveJoint := joint
	if ratio != 0 {
		pivot := sheet.Point{X: rest, Y: y + arm}
		valveJoint = pivot.At(ratio*(joint.X-pivot.X), ratio*(joint.Y-pivot.Y))
		if ratio > 0 { // the pivot is at the end of the lever
			pivot = sheet.Point{X: rest, Y: y - arm}
			valveJoint = pivot.At(ratio*(joint.X-pivot.X), ratio*arm)
		}
		tip := joint
		if ratio > 0 && ratio > 1 {
			tip = valveJoint
		}
		d.Line(sheet.Edge, tip, pivot)
		d.Line(sheet.Edge, pivot, valveJoint)
		d.Circle(sheet.Edge, pivot, eye)
		d.Circle(sheet.Edge, valveJoint, eye)
		fixed(d, pivot)
	}
	if named {
		text := "endless eccentric rod"
		if finite {
			text = "eccentric rod " + o.length(length)
		}
		w := sheet.TextWidth(text, small) / 2
		middle := min(max((rest+shaft.X)/2, rest+3+w), in.Max.X-w)
		words(d, sheet.Point{X: middle, Y: in.Max.Y - small - 0.3}, small, sheet.Middle, text)
	}
	// the valve on its ports, which the rod reaches
	line := y + up
	middle := sheet.Point{X: left + k*run, Y: line - 1.6}
	valveX := middle.X + k*valve.MM()
	long, cavity := k*g.Valve.Length.MM()/2, k*g.Valve.Cavity.MM()/2
	inner := valveX + k*g.Valve.CavityOffset.MM()
	const tall = 3.2
	d.Polyline(sheet.Edge, true, at(valveX-long, middle.Y), at(valveX-long, middle.Y+tall), at(valveX+long, middle.Y+tall),
		at(valveX+long, middle.Y), at(inner+cavity, middle.Y), at(inner+cavity, middle.Y+tall/2),
		at(inner-cavity, middle.Y+tall/2), at(inner-cavity, middle.Y))
	edge := middle.X - k*run
	for _, p := range places(g) {
		from, to := middle.X+k*p.from.MM(), middle.X+k*p.to.MM()
		d.Polyline(sheet.Edge, false, at(edge, middle.Y), at(from, middle.Y), at(from, middle.Y-2.4))
		edge = to
		d.Line(sheet.Edge, sheet.Point{X: to, Y: middle.Y}, sheet.Point{X: to, Y: middle.Y - 2.4})
	}
	d.Line(sheet.Edge, sheet.Point{X: edge, Y: middle.Y}, sheet.Point{X: middle.X + k*run, Y: middle.Y})
	if end := valveX + long; valveJoint.X-eye > end {
		d.Line(sheet.Edge, sheet.Point{X: end, Y: line}, valveJoint.At(-eye, 0))
	}
}

// fixed marks a pin that stays where it is.
func fixed(d *sheet.Drawing, pin sheet.Point) {
	d.Line(sheet.Edge, pin.At(0.7, 0), pin.At(3, 0))
	for _, y := range []float64{-1.2, 0, 1.2} {
		d.Line(sheet.Measure, pin.At(3, y+0.6), pin.At(4, y-0.6))
	}
	d.Line(sheet.Edge, pin.At(3, -1.8), pin.At(3, 1.8))
}

// shaftEnd draws the angle between crank and sheave on the shaft seen from its end, with
// the crank at the head end's dead centre, and says it.
func shaftEnd(d *sheet.Drawing, g eccentric.Gear, o Options, shaft sheet.Point) string {
	const radius = 15.0
	lead := g.EccentricLead()
	crank, sheave := o.direction(0), o.direction(lead)
	d.Circle(sheet.Centre, shaft, radius)
	d.Circle(sheet.Edge, shaft, 2)
	ray := func(l sheet.Layer, way sheet.Point, far float64) {
		d.Line(l, shaft.At(2*way.X, 2*way.Y), shaft.At(far*way.X, far*way.Y))
	}
	square := 90 * units.Degree
	if lead < 0 {
		square = -square
	}
	ray(sheet.Edge, crank, radius)
	ray(sheet.Edge, sheave, radius)
	ray(sheet.Centre, o.direction(square), radius+1)
	arcBetween(d, o, shaft, 4.5, 0, lead)
	arcBetween(d, o, shaft, radius, square, lead)
	// labels outside, each as near its ray as those before it let it come; where one has no
	// room it is left to the words beside the picture
	var taken []sheet.Box
	put := func(a units.Angle, text string) {
		way := o.direction(a)
		for far := radius + 3.5; far < radius+30; far++ {
			t := sheet.Text{At: shaft.At(far*way.X, far*way.Y-small/2), Height: small, Value: text, Anchor: sheet.Middle}
			t.At.X += way.X * sheet.TextWidth(text, small) / 2
			free := t.Box().Min.Y > rim && t.Box().Max.X < rim+65
			for _, b := range taken {
				free = free && !overlap(b, t.Box())
			}
			if free {
				taken = append(taken, t.Box())
				d.Text(sheet.Lettering, t)
				return
			}
		}
	}
	put(0, "crank")
	put(lead, "sheave")
	if math.Abs(g.Advance.Degrees()) >= 12 {
		put((square+lead)/2, degrees(g.Advance))
	}
	if math.Abs(lead.Degrees()) >= 60 {
		way := o.direction(lead * 0.42)
		words(d, shaft.At(10*way.X, 10*way.Y-small/2), small, sheet.Middle, degrees(units.Angle(math.Abs(float64(lead)))))
	}
	arrowRound(d, shaft, radius+1.8, -o.turns())

	text := []string{"Shaft seen from its end", "sheave leads crank by " + degrees(lead)}
	if lead < 0 {
		text[1] = "sheave follows by " + degrees(-lead)
	}
	text = append(text, "angle of advance "+degrees(g.Advance), "offset of the sheave "+o.said(g.EccentricOffset()))
	if g.LeverRatio != 0 {
		text = append(text, "lever "+trimmed(fmt.Sprintf("%.3f", g.LeverRatio))+" to 1"+map[bool]string{true: ", reverses"}[g.LeverRatio < 0])
	}
	told := "The " + strings.Join(text[1:], ", ") + "; " + strings.Join(o.seen(), " ") + "."
	text = append(text, o.seen()...)
	for i, line := range text {
		height := small
		if i == 0 {
			height = large
		}
		line = sheet.Fit(line, height, wide-2*rim-66)
		words(d, sheet.Point{X: rim + 66, Y: shaft.Y + 13 - 4.6*float64(i)}, height, sheet.Start, line)
	}
	return told
}

// arcBetween draws an arc from one angle ahead of the dead centre to another, with an
// arrowhead where it ends.
func arcBetween(d *sheet.Drawing, o Options, centre sheet.Point, radius float64, from, to units.Angle) {
	const least = 0.02 // radians
	if math.Abs(float64(to-from)) < least {
		return
	}
	vertex := func(a units.Angle) sheet.Vertex {
		way := o.direction(a)
		return sheet.Vertex{Point: centre.At(radius*way.X, radius*way.Y)}
	}
	// an angle that grows goes clockwise on the sheet for an engine that turns so
	first := vertex(from)
	first.Bulge = math.Tan(-o.turns() * float64(to-from) / 4)
	d.Polyline(sheet.Measure, false, first, vertex(to))
	if span := math.Abs(float64(to - from)); span*radius > 2*arrowAlong {
		before := vertex(to - units.Angle(math.Copysign(arrowAlong/radius, float64(to-from))))
		tip := vertex(to)
		arrow(d, tip.Point, tip.X-before.X, tip.Y-before.Y)
	}
}

func overlap(a, b sheet.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}
