package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Polar draws Zeuner's diagram of the textbooks: on the crank, as it turns, is laid off
// how far the valve stands from mid-travel. With endless rods that gives the two valve
// circles, broken here; the whole line is the curve of these rods. The arcs about the
// shaft are the laps, and where the curve crosses them are the events. It is drawn the way
// the engine turns. It fails where [eccentric.Gear.Validate] does. See the Example.
func Polar(g eccentric.Gear, o Options) (Picture, error) {
	v, err := gearingOf(g, o)
	if err != nil {
		return Picture{}, err
	}
	return picture(roomy(v.polar), "polar", "Valve circles",
		fmt.Sprintf("Polar diagram: the valve's distance from mid-travel laid off on the crank, with the two valve circles of endless rods,"+
			" the arcs of the laps and the cranks at the eight events. Angle of advance %s. %s", inDegrees(v.Advance),
			v.told(func(m instant) string { return inDegrees(m.Crank) })),
		"Laid off on the crank as it turns: how far the valve stands from mid-travel. The circles, broken, are those of endless rods. "+
			o.turning())
}

func (v *gearing) polar(taller float64) *plate {
	radius := 40 + taller/10 // to which half the travel is drawn
	crank := radius + 4
	foot := 2 + tableUp
	p := newPlate(wide, foot+2*crank+16+taller)
	p.reserve(foot)
	centre := sheet.Point{X: wide / 2, Y: foot + crank + 9 + taller/2}
	low, high := v.reach()
	scale := radius / max(-low, high)
	on := func(t, r float64) sheet.Point { // the way the crank points
		way := v.options.direction(units.Angle(t))
		return centre.At(r*way.X, r*way.Y)
	}
	half := v.motion.Reach * pm * scale
	towards := math.Pi/2 - v.motion.Advance // where the circle of the head end's steam has its middle

	p.ring(sheet.Centre, centre, crank)
	p.line(sheet.Centre, on(0, crank+3), on(math.Pi, crank+3))
	p.line(sheet.Measure, on(math.Pi/2, crank+3), on(3*math.Pi/2, crank+3))
	p.line(sheet.Centre, on(towards, crank+3), on(towards+math.Pi, crank+3))
	p.ring(sheet.Other, on(towards, half/2), half/2)
	p.ring(sheet.Other, on(towards+math.Pi, half/2), half/2)

	for _, m := range v.instants {
		if m.Occurs {
			p.line(sheet.Measure, centre, on(m.turned, crank))
		}
	}
	opens := func(t float64) float64 { return v.motion.Valve(t) * pm * scale } // towards opening the head port to steam
	p.chain(sheet.Curve, true, smoothly(0, fullTurn, func(t float64) sheet.Point { return on(t, math.Abs(opens(t))) })...)
	var write []func()
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		laps := v.LapsAt(end)
		middle := towards // of the lobe in which its steam lap lies
		if end == eccentric.CrankEnd {
			middle += math.Pi
		}
		write = append(write, v.lap(p, on, laps.Steam, scale, middle, fmt.Sprintf("%s: steam lap %s", end, v.rule.size(laps.Steam))))
		word := "lap"
		if laps.Exhaust.Sign() < 0 {
			word = "clearance"
		}
		word = fmt.Sprintf("%s: exhaust %s %s", end, word, v.rule.size(laps.Exhaust.Abs()))
		write = append(write, v.lap(p, on, laps.Exhaust, scale, middle+math.Pi, word))
	}
	v.advance(p, on, crank, towards)
	for _, w := range write {
		w()
	}
	for _, m := range v.instants {
		if m.Occurs {
			if r := math.Abs(m.stands.In(units.Millimetres)) * scale; r > 1.5 {
				p.ring(sheet.Edge, on(m.turned, r), dot)
			}
			p.ringed(on(m.turned, crank), m.number)
		}
	}
	p.name(letters, "head end", on(0, crank+3), on(0, crank-4), on(0, crank-10), on(0, crank-16))
	p.name(letters, "crank end", on(math.Pi, crank+3), on(math.Pi, crank-4), on(math.Pi, crank-10), on(math.Pi, crank-16))
	p.name(letters, "head port opens to steam", v.lobe(on, opens, towards)...)
	p.name(letters, "crank port opens to steam", v.lobe(on, opens, towards+math.Pi)...)
	if mm := v.events.Head.Lead; mm.Sign() > 0 {
		lap := v.LapsAt(eccentric.HeadEnd).Steam.In(units.Millimetres)
		p.name(letters, "lead "+v.rule.size(mm), on(0, (lap+mm.In(units.Millimetres)/2)*scale))
	}
	up := max(0, p.lowest(foot)-foot-3) // the list stands under what is drawn
	v.table(p, up+2+tableUp-listUp+below*letters, ", from its dead centre",
		func(m instant) []string { return []string{"", inDegrees(m.Crank)} })
	return p
}

// lobe returns points of the curve about the crank angle at which it is widest.
func (v *gearing) lobe(on func(t, r float64) sheet.Point, opens func(float64) float64, middle float64) []sheet.Point {
	var points []sheet.Point
	for i := -3; i <= 3; i++ {
		t := middle + float64(i)*math.Pi/14
		points = append(points, on(t, math.Abs(opens(t))))
	}
	return points
}

// lap draws the arc of a lap about the shaft, in the half turn about a crank angle; one
// below zero lies in the other half.
func (v *gearing) lap(
	p *plate, on func(t, r float64) sheet.Point, lap units.Length, scale, middle float64, word string,
) (write func()) {
	r := lap.In(units.Millimetres) * scale
	if r < 0 {
		r, middle = -r, middle+math.Pi
	}
	low, high := v.reach()
	if most := 1.125 * scale * max(-low, high); r < 0.3 || r > most { // none, or one that the valve never comes to
		return func() {}
	}
	const over = 80 * math.Pi / 180 // either way
	p.chain(sheet.Measure, false, smoothly(middle-over, middle+over, func(t float64) sheet.Point { return on(t, r) })...)
	var anchors []sheet.Point
	for i := -4; i <= 4; i++ {
		anchors = append(anchors, on(middle+over*float64(i)/5, r))
	}
	return func() { p.name(letters, word, anchors...) }
}

// advance draws the angle of advance between the upright line and that of the circles,
// and the way the crank turns.
func (v *gearing) advance(p *plate, on func(t, r float64) sheet.Point, crank, towards float64) {
	from, to := towards, math.Pi/2
	outer := crank + 2
	p.chain(sheet.Measure, false, smoothly(from, to, func(t float64) sheet.Point { return on(t, outer) })...)
	const start, sweep = 305 * math.Pi / 180, 22 * math.Pi / 180
	outer = crank + 3
	p.chain(sheet.Measure, false, smoothly(start, start+sweep, func(t float64) sheet.Point { return on(t, outer) })...)
	tip, before := on(start+sweep, outer), on(start+sweep-0.03, outer)
	p.arrow(tip, sheet.Point{X: tip.X - before.X, Y: tip.Y - before.Y})
	p.name(letters, "angle of advance "+inDegrees(v.Advance), on((from+to)/2, crank+2), on(from, crank+2), on(to, crank+2))
	p.name(letters, "the crank turns", on(start+sweep/2, outer), on(start, outer))
}
