package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Oval draws the valve's distance from mid-travel over the place of the piston, out and
// back, with the edges of the ports and the eight events: the valve ellipse of the
// textbooks, which both rods make an egg of. It fails where [eccentric.Gear.Validate]
// does. See the Example.
func Oval(g eccentric.Gear, o Options) (Picture, error) {
	v, err := gearingOf(g, o)
	if err != nil {
		return Picture{}, err
	}
	return picture(roomy(v.oval), "oval", "The valve over the piston",
		fmt.Sprintf("Oval of the valve's distance from mid-travel over the place of the piston, with the laps and the eight events. %s",
			v.told(func(m instant) string { return percent(m.Stroke) })),
		"Arrowheads show which way a turn goes round. The piston's places in the list are from that end, in shares of the stroke.")
}

func (v *gearing) oval(taller float64) *plate {
	foot := 2 + tableUp + footUp + 1
	high := 68 + taller
	p := newPlate(wide, foot+high+7)
	v.table(p, 2+tableUp-listUp+below*letters, ", piston from that end", func(m instant) []string {
		return []string{v.rule.size(v.Stroke.Scale(m.Stroke)), percent(m.Stroke)}
	})
	low, top, step := v.valveScale(8)
	stroke := v.rule.of(v.Stroke.In(units.Millimetres))
	along := stepFor(stroke, 10)
	left := max(sideWide(low, top, step), 8)
	margin := 0.04 * stroke // the curve keeps off the side
	c := chart{p, axis{-margin, stroke + margin, left, wide - 4}, axis{low, top, foot, foot + high}}
	c.side(step, "valve from mid-travel, "+v.rule.lengthName+", above zero towards the crank")
	c.foot(along, "piston from its head-end dead centre, "+v.rule.lengthName)
	v.edges(c)
	at := func(t float64) sheet.Point { return c.at(v.gone(t)*stroke, v.rule.of(v.valve(t))) }
	c.chain(sheet.Curve, true, smoothly(0, fullTurn, at)...)
	for _, t := range [...]float64{math.Pi / 2, 3 * math.Pi / 2} {
		const a = 0.01
		before, after := at(t-a), at(t+a)
		c.arrow(at(t), sheet.Point{X: after.X - before.X, Y: after.Y - before.Y})
	}
	v.say(c)
	v.numbers(c, func(m instant) sheet.Point { return c.at(m.piston*stroke, v.rule.of(m.stands.In(units.Millimetres))) })
	v.halves(c, at)
	return p
}

// halves writes at the two halves of the oval which stroke they are.
func (v *gearing) halves(c chart, at func(float64) sheet.Point) {
	const most = 9
	for i, word := range [...]string{"towards the crank", "back"} {
		var anchors []sheet.Point
		for k := range most {
			anchors = append(anchors, at(math.Pi*(float64(i)+(float64(k)+1)/(most+1))))
		}
		c.name(names, word, anchors...)
	}
}
