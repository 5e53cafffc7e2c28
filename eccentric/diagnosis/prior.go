package diagnosis

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
)

// What the sizes of an engine without tolerances may be off by, either way, and what
// none is better known than, one standard deviation. Common practice.
const (
	usualOff    = 0.1 // mm
	usualTurned = 3 * math.Pi / 180
	leastOff    = 0.02
	leastTurned = 0.5 * math.Pi / 180
)

// A square is a matrix of the unknowns.
type square [unknowns]vector

// sizes are the sizes of the drawing that make up each unknown, with how much of
// each: a tolerance of the cavity moves the exhaust laps of both ends by half of it.
var sizes = [...]struct {
	of spread.Dimension
	by vector
}{
	{spread.Advance, vector{advance: 1}},
	{spread.ValveOffset, vector{shift: 1}},
	{spread.Travel, vector{reach: 0.5}},
	{spread.LostMotion, vector{lost: 1}},
	{spread.ValveLength, vector{steamHead: 0.5, steamCrank: 0.5}},
	{spread.ValveCavity, vector{exhaustHead: -0.5, exhaustCrank: -0.5}},
	{spread.CavityOffset, vector{exhaustHead: 1, exhaustCrank: -1}},
	{spread.PortExhaust, vector{steamHead: -0.5, steamCrank: -0.5, exhaustHead: 0.5, exhaustCrank: 0.5}},
	{spread.PortSteam, vector{steamHead: -1, portHead: 1}},
	{spread.CrankSteam, vector{steamCrank: -1, portCrank: 1}},
	{spread.PortBar, vector{steamHead: -1, exhaustHead: 1}},
	{spread.CrankBar, vector{steamCrank: -1, exhaustCrank: 1}},
}

// spreadOf returns how the unknowns are spread as long as nothing is wrong, as a
// covariance: a third of the tolerance is a standard deviation.
func (g *drawing) spreadOf(c *Case) (p square) {
	given := map[spread.Dimension]float64{}
	for _, t := range c.Tolerances {
		if t.Dimension == spread.Advance {
			given[t.Dimension] = float64(t.Upper.Angle-t.Lower.Angle) / 2
		} else {
			given[t.Dimension] = float64(t.Upper.Length.Sub(t.Lower.Length).Picometres()) / 2 / millimetre
		}
	}
	if _, own := given[spread.CrankSteam]; !own && c.Gear.Ports.CrankSteam.IsZero() {
		if t, ok := given[spread.PortSteam]; ok {
			given[spread.CrankSteam] = t
		}
	}
	if _, own := given[spread.CrankBar]; !own && c.Gear.Ports.CrankBar.IsZero() {
		if t, ok := given[spread.PortBar]; ok {
			given[spread.CrankBar] = t
		}
	}
	for _, size := range sizes {
		t, ok := given[size.of]
		if !ok {
			continue
		}
		by := size.by
		if g.inside {
			by = swapped(by)
		}
		p.widen(&by, t/3)
	}
	for i := range p {
		usual, least := usualOff/3, leastOff
		if i == advance {
			usual, least = usualTurned/3, leastTurned
		}
		switch {
		case p[i][i] == 0:
			p[i][i] = usual * usual
		case p[i][i] < least*least:
			p[i][i] = least * least
		}
	}
	return p
}

// swapped exchanges the steam and the exhaust edges, and turns the way of the valve
// round, as with admission inside.
func swapped(v vector) vector {
	v[steamHead], v[exhaustHead] = v[exhaustHead], v[steamHead]
	v[steamCrank], v[exhaustCrank] = v[exhaustCrank], v[steamCrank]
	v[shift] = -v[shift]
	return v
}

// widen adds a spread along a direction, of so many standard deviations of it.
func (p *square) widen(along *vector, sd float64) {
	for i := range p {
		for k := range p {
			p[i][k] += sd * sd * along[i] * along[k]
		}
	}
}

// rootTo puts the lower triangle L with L*L' = p (Cholesky).
func (p *square) rootTo(l *square) {
	for i := range p {
		row := &l[i]
		for k := range i {
			sum := p[i][k]
			if sum == 0 && k == 0 {
				row[k] = 0
				continue
			}
			other := &l[k]
			for j := range k {
				sum -= row[j] * other[j]
			}
			row[k] = sum / other[k]
		}
		sum := p[i][i]
		for j := range i {
			sum -= row[j] * row[j]
		}
		row[i] = math.Sqrt(max(sum, 1e-12))
	}
}

// A direction is how one fault moves the unknowns, by so much of its amount, and how
// the amount is read off them.
type direction struct {
	part   Part // fault and end alone
	along  vector
	read   vector
	sd     float64 // of the amount, one way as likely as the other
	tol    float64 // within which it is none
	upward bool    // the amount is not below zero
	edge   int     // the width of the port that an edge out of its place makes another too, or none
	weight float64
	angle  bool
	rare   bool    // it is in no pair
	whole  float64 // of the amount in a Part for one of the unknown: 2 for the travel
}

// none is no edge: it is no width of a port.
const none = advance

// A place is where a sheave stands that was set quite wrong.
type place struct {
	fault Fault
	at    float64 // advance
}

// howWide is the spread of the amount of a fault, as a share of the port's width, and
// howLoose that of lost motion, which is leastLoose at the least; now and then it is
// as wide as the others.
const (
	howWide    = 0.3
	howLoose   = 0.1
	leastLoose = 0.2 // mm
)

// turnedABit and turnedMuch are those of the sheave's place, and placed how near to
// its wrong place one stands that was set to it.
const (
	turnedABit = 15 * math.Pi / 180
	turnedMuch = 75 * math.Pi / 180
	placedAt   = 3 * math.Pi / 180
)

func (g *drawing) directions() []direction {
	port := (g.drawn[portHead] + g.drawn[portCrank]) / 2
	wide := howWide * port
	loose := max(howLoose*port, leastLoose)
	way := 1.0
	if g.inside {
		way = -1
	}
	d := []direction{
		{part: Part{Fault: WrongAdvance}, along: vector{advance: 1}, sd: turnedABit, weight: 1.2, angle: true, whole: 1},
		{part: Part{Fault: WrongAdvance}, along: vector{advance: 1}, sd: turnedMuch, weight: 0.8, angle: true, whole: 1},
		{part: Part{Fault: ValveOffCentre}, along: vector{shift: 1}, sd: wide, weight: 1.5, whole: way},
		{part: Part{Fault: WrongTravel}, along: vector{reach: 1}, sd: wide, weight: 1, whole: 2},
		{part: Part{Fault: LostMotion}, along: vector{lost: 1}, sd: loose, weight: 0.8, whole: 1, upward: true},
		{
			part: Part{Fault: LostMotion}, along: vector{lost: 1}, sd: max(wide, 2*loose), weight: 0.4, whole: 1,
			upward: true, rare: true,
		},
	}
	for _, lap := range [...]struct {
		fault       Fault
		head, crank int
	}{{WrongSteamLap, steamHead, steamCrank}, {WrongExhaustLap, exhaustHead, exhaustCrank}} {
		both, head, crank := vector{}, vector{}, vector{}
		both[lap.head], both[lap.crank] = 1, 1
		head[lap.head], head[portHead] = 1, -1
		crank[lap.crank], crank[portCrank] = 1, -1
		of := func(end eccentric.End, along vector, edge int) direction {
			return direction{part: Part{Fault: lap.fault, End: end}, along: along, edge: edge, sd: wide, weight: 1, whole: 1}
		}
		d = append(d, of(eccentric.BothEnds, both, none), of(eccentric.HeadEnd, head, portHead),
			of(eccentric.CrankEnd, crank, portCrank))
	}
	for i := range d {
		d[i].read = d[i].along
		switch {
		case d[i].edge != none:
			d[i].read[d[i].edge] = 0
		case d[i].part.Fault == WrongSteamLap || d[i].part.Fault == WrongExhaustLap:
			d[i].read = vector{}.add(0.5, &d[i].read)
		}
	}
	return d
}

func (g *drawing) places() []place {
	d := g.drawn[advance]
	return []place{
		{OtherHand, math.Pi - d}, {HalfTurnOut, d - math.Pi}, {InLine, math.Pi / 2}, {InLine, -math.Pi / 2}, {NoAdvance, 0},
	}
}

// beyond returns the chance that the amount of a fault is more than its tolerance.
func (d *direction) beyond(amount, sd float64) float64 {
	chance := tail((d.tol - amount) / sd)
	if !d.upward {
		chance += tail((d.tol + amount) / sd)
	}
	return chance
}

// tail returns the chance of more than z standard deviations.
func tail(z float64) float64 { return 0.5 * math.Erfc(z/math.Sqrt2) }
