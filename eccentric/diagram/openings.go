package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// PortOpenings draws how far the ports of both ends are open, to steam upwards and to
// exhaust downwards, over the place of the piston from that end. It fails where
// [eccentric.Gear.Validate] does. See the Example.
func PortOpenings(g eccentric.Gear, o Options) (Picture, error) {
	v, err := gearingOf(g, o)
	if err != nil {
		return Picture{}, err
	}
	told := ""
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		e := v.at(end)
		told += fmt.Sprintf(" %s end: lead %s, greatest opening to steam %s, to exhaust %s.", capital(end.String()),
			v.rule.size(e.Lead), v.rule.size(e.Opening), v.rule.size(e.ExhaustOpening))
	}
	return picture(roomy(v.openings), "openings", "How far the ports are open",
		"Openings of both ports to steam and to exhaust over the stroke."+told,
		"Above the line to steam, below it to exhaust; the piston counts from that end, out and back. Numbers are those of the events.")
}

func (v *gearing) openings(taller float64) *plate {
	const told = 4 * listUp
	high := 34 + taller/2
	const apart = footUp + 7
	p := newPlate(wide, 2+told+2*high+2*apart)
	port := 0.0
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		width, _ := v.Ports.At(end)
		port = max(port, v.rule.of(width.In(units.Millimetres)))
	}
	step := stepFor(2*port, 6)
	for i, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		v.openingsAt(p, end, 2+told+float64(1-i)*(high+apart)+footUp, high, 1.12*port, step)
	}
	columns := []column{{2, sheet.Start}, {86, sheet.End}, {wide - 2, sheet.End}}
	h, k := v.events.Head, v.events.Crank
	p.list(2+told-listUp+below*letters, columns, []string{"", "head end", "crank end"},
		[]string{"lead", v.rule.size(h.Lead), v.rule.size(k.Lead)},
		[]string{"greatest opening to steam", v.rule.size(h.Opening), v.rule.size(k.Opening)},
		[]string{"greatest opening to exhaust", v.rule.size(h.ExhaustOpening), v.rule.size(k.ExhaustOpening)})
	return p
}

func (v *gearing) openingsAt(p *plate, end eccentric.End, foot, high, most, step float64) {
	stroke := v.rule.of(v.Stroke.In(units.Millimetres))
	margin := 0.04 * stroke
	left := max(sideWide(-most, most, step), 8)
	c := chart{p, axis{-margin, stroke + margin, left, wide - 4}, axis{-most, most, foot, foot + high}}
	c.openingSide(step, fmt.Sprintf("%s port open, %s, to steam above the line and to exhaust below", end, v.rule.lengthName))
	c.foot(stepFor(stroke, 10), fmt.Sprintf("piston from its %s-end dead centre, %s", end, v.rule.lengthName))
	c.level(sheet.Measure, 0)
	width, _ := v.Ports.At(end)
	port := v.rule.of(width.In(units.Millimetres))
	c.level(sheet.Centre, port)
	c.level(sheet.Centre, -port)
	e := v.at(end)
	var words []func()
	for _, m := range v.instants {
		if m.end == end && m.Occurs {
			c.ring(sheet.Edge, c.at(m.Stroke*stroke, 0), dot)
		}
	}
	for _, way := range [...]struct {
		state       eccentric.PortState
		opens, shut eccentric.Event
		steam       bool
	}{{e.Steam, e.Admission, e.CutOff, true}, {e.Exhaust, e.Release, e.Compression, false}} {
		at := func(t float64) sheet.Point {
			open := v.opening(end, t)
			y := v.rule.of(open.Steam * pm)
			if !way.steam {
				y = -v.rule.of(open.Exhaust * pm)
			}
			return c.at(v.goneFrom(end, t)*stroke, y)
		}
		from, to := float64(way.opens.Crank), float64(way.shut.Crank)
		switch way.state {
		case eccentric.NeverOpens:
			continue
		case eccentric.NeverCloses:
			from, to = 0, fullTurn
		}
		if to < from {
			to += fullTurn
		}
		points := smoothly(from, to, at)
		c.chain(sheet.Curve, way.state == eccentric.NeverCloses, points...)
		word := "to steam"
		if !way.steam {
			word = "to exhaust"
		}
		inside := at((from + to) / 2)
		inside.Y = (inside.Y + c.y.at(0)) / 2
		words = append(words, func() { c.name(names, word, inside) })
	}
	for _, write := range words {
		write()
	}
	c.said(port, "wide open "+v.rule.size(width))
	for _, m := range v.instants {
		if m.end == end && m.Occurs {
			c.ringed(c.at(m.Stroke*stroke, 0), m.number)
		}
	}
}

// openingSide is side with the figures of both ways from the middle above zero.
func (c chart) openingSide(step float64, name string) {
	c.line(sheet.Measure, sheet.Point{X: c.x.from, Y: c.y.from}, sheet.Point{X: c.x.from, Y: c.y.to})
	for _, v := range c.y.ticks(step) {
		y := c.y.at(v)
		c.line(sheet.Measure, sheet.Point{X: c.x.from, Y: y}, sheet.Point{X: c.x.from - tick, Y: y})
		value := figure(math.Abs(v), decimals(step))
		c.text(sheet.Point{X: c.x.from - tick - 0.8, Y: y - letters/2}, letters, sheet.End, value)
	}
	c.text(sheet.Point{X: 1, Y: c.y.to + 2.6}, letters, sheet.Start, name)
}

// An opened is how far a port is open, in the kernel's unit.
type opened struct{ Steam, Exhaust float64 }

// opening returns how far the port of an end is open at a crank angle from that end's
// own dead centre.
func (v *gearing) opening(end eccentric.End, t float64) opened {
	if end == eccentric.CrankEnd {
		o := v.motion.Openings(t + math.Pi).Crank
		return opened{o.Steam, o.Exhaust}
	}
	o := v.motion.Openings(t).Head
	return opened{o.Steam, o.Exhaust}
}

// goneFrom returns the share of the stroke gone from an end at such an angle.
func (v *gearing) goneFrom(end eccentric.End, t float64) float64 {
	if end == eccentric.CrankEnd {
		return 1 - v.gone(t+math.Pi)
	}
	return v.gone(t)
}

// capital begins a word with a capital.
func capital(s string) string { return string(s[0]-'a'+'A') + s[1:] }
