package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Displacement draws how far the valve stands from mid-travel over one turn of the
// crank, both rods at their true length, with the edges of the ports, the eight events
// and what each port carries. It fails where [eccentric.Gear.Validate] does. See the Example.
func Displacement(g eccentric.Gear, o Options) (Picture, error) {
	v, err := gearingOf(g, o)
	if err != nil {
		return Picture{}, err
	}
	d := roomy(v.displacement)
	return picture(d, "displacement", "The valve over a turn of the crank",
		fmt.Sprintf("Curve of the valve's distance from mid-travel over the crank angle, with the laps and the eight events. %s",
			v.told(func(m instant) string { return inDegrees(m.Crank) })),
		"The crank turns from the head-end dead centre. Angles of each end are from its own dead centre.")
}

// roomy draws on plates that grow until everything has found its place. What finds none
// on the tallest either is told below the picture.
func roomy(draw func(taller float64) *plate) *plate {
	var p *plate
	for _, taller := range [...]float64{0, 15, 30, 45} {
		if p = draw(taller); len(p.without) == 0 {
			break
		}
	}
	return p
}

func (v *gearing) displacement(taller float64) *plate {
	const stripUp, gap = 5.0, 1.2
	foot := 2 + tableUp + footUp + 2*(stripUp+gap) + 1
	high := 62 + taller
	p := newPlate(wide, foot+high+7)
	v.table(p, 2+tableUp-listUp+below*letters, ", from its dead centre", func(m instant) []string { return []string{"", inDegrees(m.Crank)} })
	low, top, step := v.valveScale(8)
	left := max(sideWide(low, top, step), 12)
	c := chart{p, axis{0, 360, left, wide - 4}, axis{low, top, foot, foot + high}}
	c.side(step, "valve from mid-travel, "+v.rule.lengthName+", above zero towards the crank")
	base := c
	base.y.from -= 2 * (stripUp + gap)
	base.foot(30, "crank angle from the head-end dead centre, degrees")
	v.edges(c)
	curve := smoothly(0, fullTurn, func(t float64) sheet.Point { return c.at(t*180/math.Pi, v.rule.of(v.valve(t))) })
	c.chain(sheet.Curve, false, curve...)
	for i, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		up := foot - gap - float64(i)*(stripUp+gap)
		v.strip(c, end, up-stripUp, up)
	}
	v.say(c)
	v.numbers(c, func(m instant) sheet.Point {
		return c.at(m.turned*180/math.Pi, v.rule.of(m.stands.In(units.Millimetres)))
	})
	return p
}

// valveScale returns the scale of the valve's place: all of its travel, and the outer
// edges of the ports where that is not much more.
func (v *gearing) valveScale(most int) (low, high, step float64) {
	low, high = v.reach()
	span := high - low
	for _, l := range v.lines() {
		if mm := l.at.In(units.Millimetres); mm > low-0.25*span && mm < high+0.25*span {
			low, high = min(low, mm), max(high, mm)
		}
	}
	low, high = v.rule.of(low), v.rule.of(high)
	step = stepFor(high-low, most)
	low, high = widened(low, high, step)
	return low, high, step
}

// A line is a place of the valve that matters, and what happens there.
type edge struct {
	at    units.Length // towards the crank
	text  string
	layer sheet.Layer
}

// lines returns the places at which an edge of the valve passes one of a port.
func (v *gearing) lines() []edge {
	var lines []edge
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		port, _ := v.Ports.At(end)
		laps := v.LapsAt(end)
		steam, exhaust := v.steamEdge(end), v.exhaustEdge(end)
		lines = append(lines,
			edge{steam, fmt.Sprintf("%s: steam lap %s", end, v.rule.size(laps.Steam)), sheet.Measure},
			edge{steam.Add(port.Scale(v.out(end))), fmt.Sprintf("%s: wide open", end), sheet.Centre})
		word := fmt.Sprintf("%s: exhaust lap %s", end, v.rule.size(laps.Exhaust))
		if laps.Exhaust.Sign() < 0 {
			word = fmt.Sprintf("%s: exhaust clearance %s", end, v.rule.size(laps.Exhaust.Abs()))
		}
		lines = append(lines, edge{exhaust, word, sheet.Hidden})
	}
	if a, b := &lines[2], &lines[5]; a.at == b.at { // both exhaust edges at one place, as with no lap
		a.text = "exhaust: line on line"
		lines = lines[:5]
	}
	return lines
}

// edges draws those places, and the line of mid-travel.
func (v *gearing) edges(c chart) {
	drawn := map[units.Length]bool{}
	for _, l := range v.lines() {
		if y := v.rule.of(l.at.In(units.Millimetres)); c.y.has(y) && !drawn[l.at] {
			c.level(l.layer, y)
			drawn[l.at] = true
		}
	}
	if !drawn[units.Length{}] {
		c.level(sheet.Measure, 0)
	}
}

// say writes what they are.
func (v *gearing) say(c chart) {
	for _, l := range v.lines() {
		if y := v.rule.of(l.at.In(units.Millimetres)); c.y.has(y) {
			c.said(y, l.text)
		}
	}
}

// strip draws over the crank angle what a port carries.
func (v *gearing) strip(c chart, end eccentric.End, low, high float64) {
	c.text(sheet.Point{X: c.x.from - 1.2, Y: (low + high - letters) / 2}, letters, sheet.End, end.String())
	c.chain(sheet.Measure, true, sheet.Point{X: c.x.from, Y: low}, sheet.Point{X: c.x.to, Y: low},
		sheet.Point{X: c.x.to, Y: high}, sheet.Point{X: c.x.from, Y: high})
	for _, part := range v.carried(end) {
		from, to := c.x.at(part.from*180/math.Pi), c.x.at(part.to*180/math.Pi)
		if part.from > 0 {
			c.line(sheet.Measure, sheet.Point{X: from, Y: low}, sheet.Point{X: from, Y: high})
		}
		box := sheet.Box{Min: sheet.Point{X: from, Y: low}, Max: sheet.Point{X: to, Y: high}}
		if width := sheet.TextWidth(part.word(), letters); width < to-from-2 {
			c.text(sheet.Point{X: (from + to) / 2, Y: (low + high - letters) / 2}, letters, sheet.Middle, part.word())
		}
		gaps := c.texts
		if part.steam {
			fillSpace(c.Drawing, sheet.Steam, []sheet.Box{box}, gaps)
		}
		if part.exhaust {
			fillSpace(c.Drawing, sheet.Exhaust, []sheet.Box{box}, gaps)
		}
	}
}

// A part of a turn in which a port carries one thing.
type carriage struct {
	from, to       float64
	steam, exhaust bool
}

func (c carriage) word() string {
	switch {
	case c.steam && c.exhaust:
		return "both"
	case c.steam:
		return "steam"
	case c.exhaust:
		return "exhaust"
	}
	return "shut"
}

// carried returns what the port of an end carries over a turn.
func (v *gearing) carried(end eccentric.End) []carriage {
	breaks := []float64{0}
	for _, m := range v.instants {
		if m.end == end && m.Occurs {
			breaks = append(breaks, m.turned)
		}
	}
	breaks = sorted(append(breaks, fullTurn))
	var parts []carriage
	for i := 1; i < len(breaks); i++ {
		from, to := breaks[i-1], breaks[i]
		if to-from < 1e-9 {
			continue
		}
		open := v.motion.Openings((from + to) / 2).Head
		if end == eccentric.CrankEnd {
			open = v.motion.Openings((from + to) / 2).Crank
		}
		part := carriage{from, to, open.Steam > 0, open.Exhaust > 0}
		if n := len(parts); n > 0 && parts[n-1].steam == part.steam && parts[n-1].exhaust == part.exhaust {
			parts[n-1].to = to
			continue
		}
		parts = append(parts, part)
	}
	return parts
}

// told says in words where the events are, for who does not see the picture.
func (v *gearing) told(where func(instant) string) string {
	text := ""
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		for i, m := range v.instants {
			if m.end != end {
				continue
			}
			if i%4 == 0 {
				text += map[eccentric.End]string{eccentric.HeadEnd: "Head end: ", eccentric.CrankEnd: "; crank end: "}[end]
			} else {
				text += ", "
			}
			if text += m.name + " "; m.Occurs {
				text += where(m)
			} else {
				text += "never"
			}
		}
	}
	return text + "."
}
