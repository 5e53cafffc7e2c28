package spread

import (
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// A point is a value with the sizes that make it.
type point struct {
	value float64
	sizes []float64
}

// furthest returns the point that lies furthest the way of a sign, the first of
// those that lie as far.
func furthest(points []point, sign float64) point {
	best := points[0]
	for _, p := range points[1:] {
		if sign*(p.value-best.value) > 0 {
			best = p
		}
	}
	return best
}

// signs are those of the smallest and of the largest value, as pairs of extremes
// have them.
var signs = [2]float64{-1, 1}

// A moment is what an event of one end may come to in a box.
type moment struct {
	always, ever  bool // happens in all of the box, in some of it
	crank, stroke [2]point
	searched      bool // and not proven
}

// A search finds it.
type search struct {
	*box
	end      kernel.End
	event    Event
	turns    float64   // as kernel.Motion.Events takes them off the gear as drawn
	changes  []passing // of the parts, along each size that varies
	travel   int       // where that size stands; -1 for exact
	searched bool
}

func (b *box) search(end kernel.End, e Event) *search {
	s := &search{
		box: b, end: end, event: e, turns: turnsOf(&b.drawn, end),
		changes: make([]passing, len(b.varied)), travel: b.place(Travel),
	}
	sizes := b.base()
	for i, v := range b.varied {
		s.changes[i] = s.at(with(sizes, i, v.upper)).less(s.at(with(sizes, i, v.lower)))
	}
	return s
}

// turnsOf returns the whole turns that kernel.Motion.Events takes off all events of
// an end, so that admission comes within half a turn of the dead centre. Every
// gear of a box is counted in the turn of the one as drawn: angles that follow each
// other do not jump.
func turnsOf(g *kernel.Gear, end kernel.End) float64 {
	p := passingOf(g, end, Admission)
	if !p.occurs() {
		return 0
	}
	switch t := p.crank(Admission, p.angle()); {
	case t >= math.Pi:
		return 2 * math.Pi
	case t < -math.Pi:
		return -2 * math.Pi
	}
	return 0
}

// at returns what the Event depends on in one gear of the box.
func (s *search) at(sizes []float64) passing {
	g := s.gear(sizes)
	return passingOf(&g, s.end, s.event)
}

// aim sets the sizes that a part depends on to the ends that make it large, or
// small for a sign below zero.
func (s *search) aim(sizes []float64, part func(*passing) float64, sign float64) {
	for i := range s.changes {
		if change := part(&s.changes[i]); change != 0 {
			sizes[i] = s.varied[i].toward(sign * change)
		}
	}
}

// crankAt returns the crank angle of the Event, in the turn of the gear as drawn.
// Where the valve just gets to the edge, its driver is furthest too, unless it has
// motion to lose.
func (s *search) crankAt(sizes []float64) point {
	p := s.at(sizes)
	angle := 0.0
	switch {
	case p.c >= p.r:
		angle = math.Pi
	case p.c > -p.r:
		angle = p.angle()
	}
	return point{p.crank(s.event, angle) - s.turns, sizes}
}

// room returns by how much the valve goes beyond the edge, the least or for a sign
// above zero the most of the box: towards opening the end to steam, or for a side
// below zero the other way.
func (s *search) room(side, sign float64) float64 {
	sizes := s.base()
	s.aim(sizes, func(p *passing) float64 { return p.reach - side*p.s }, sign)
	p := s.at(sizes)
	return p.reach - side*p.s
}

// moment finds the extremes; README.md of testdata has the proof.
func (s *search) moment() moment {
	m := moment{
		always: s.room(1, -1) > 0 && s.room(-1, -1) > 0,
		ever:   s.room(1, 1) > 0 && s.room(-1, 1) > 0,
	}
	if !m.ever {
		return m
	}
	for i, sign := range signs {
		m.crank[i] = s.crank(sign)
	}
	for i, sign := range signs {
		m.stroke[i] = s.stroke(m.crank, sign)
	}
	m.searched = s.searched
	return m
}

// crank returns the latest crank angle of the Event, or the earliest for a sign
// below zero. The eccentric's angle rises with c and with l, whatever the rest; as
// the travel grows it goes one way or turns back once. So the extreme is at an end
// of c and of l, and of the travel at an end or where it turns back.
func (s *search) crank(sign float64) point {
	ofAngle := -sign // on the valve's way back the crank angle falls with the eccentric's
	if s.event.out() {
		ofAngle = sign
	}
	sizes := s.base()
	s.aim(sizes, func(p *passing) float64 { return p.d }, -sign)
	s.aim(sizes, func(p *passing) float64 { return p.l }, ofAngle)
	s.aim(sizes, func(p *passing) float64 { return p.c }, ofAngle)
	if s.room(ofAngle, -1) <= 0 {
		return s.brink(sizes, sign, ofAngle)
	}
	var all []point
	for _, at := range s.travels(sizes) {
		if p := s.at(at); p.occurs() {
			all = append(all, s.crankAt(at))
		} else if s.place(LostMotion) >= 0 {
			return s.lost(sizes, sign, ofAngle)
		}
	}
	return furthest(all, sign)
}

// lost is crank where the lost motion that makes c large keeps the valve short of
// the edge on the other side: there less of it brings the extreme, which is
// searched.
func (s *search) lost(sizes []float64, sign, ofAngle float64) point {
	room := func(p *passing) float64 { return p.reach + ofAngle*p.s }
	most := slices.Clone(sizes)
	s.aim(most, room, 1)
	return furthest(s.along(most, sizes, func(sizes []float64) float64 {
		p := s.at(sizes)
		return room(&p)
	}), sign)
}

// along returns what comes, at each of many travels, of the last gear that gets to
// the edge on the way from one combination to another.
func (s *search) along(from, to []float64, room func(sizes []float64) float64) (all []point) {
	s.searched = true
	const steps = 1000
	for i := range steps + 1 {
		from, to := from, to
		if s.travel >= 0 {
			v := s.varied[s.travel]
			travel := v.lower + (v.upper-v.lower)*float64(i)/steps
			from, to = with(from, s.travel, travel), with(to, s.travel, travel)
		}
		switch {
		case room(to) > 0: // all of this travel get there
			all = append(all, s.crankAt(to))
		case room(from) > 0:
			all = append(all, s.crankAt(cross(from, to, room)))
		}
	}
	return all
}

// travels returns the combination with the travel at each of its ends, and where
// the angle turns back between them.
func (s *search) travels(sizes []float64) [][]float64 {
	if s.travel < 0 {
		return [][]float64{sizes}
	}
	v := s.varied[s.travel]
	all := [][]float64{with(sizes, s.travel, v.lower), with(sizes, s.travel, v.upper)}
	p := s.at(sizes)
	if r, ok := p.turning(); ok && 2*r > v.lower && 2*r < v.upper {
		all = append(all, with(sizes, s.travel, 2*r))
	}
	return all
}

// brink is crank where some gears of the box do not get to the edge at all. The
// extreme is that of the gears that just do: the eccentric then is at 0 or at 180
// degrees, beyond which nothing lies. Only with lost motion, where the driver has
// another place than the valve, need it be elsewhere on the brink, and that is
// searched.
func (s *search) brink(sizes []float64, sign, ofAngle float64) point {
	other := slices.Clone(sizes)
	s.aim(other, func(p *passing) float64 { return p.reach - ofAngle*p.s }, 1) // lost motion goes into both
	room := func(sizes []float64) float64 {
		p := s.at(sizes)
		return p.reach - ofAngle*p.s
	}
	least, most := 0.0, 0.0
	travelling := func(sizes []float64, travel float64) []float64 {
		if s.travel < 0 {
			return sizes
		}
		return with(sizes, s.travel, travel)
	}
	if s.travel >= 0 {
		least, most = s.varied[s.travel].lower, s.varied[s.travel].upper
	}
	on := cross(travelling(other, most), travelling(sizes, least), room)
	if p := s.at(on); p.r-ofAngle*p.c < 1e-9*p.r {
		return point{p.crank(s.event, math.Pi/2*(1+ofAngle)) - s.turns, on}
	}
	return furthest(append(s.along(other, sizes, room), s.crankAt(on)), sign)
}

// stroke returns the furthest place of the piston at the Event, as a share of the
// stroke, or the nearest for a sign below zero. It goes one way between dead
// centres, and falls with the rod, whatever the angle: the extreme is a dead centre
// if one lies between the extremes of the angle, or else at one of them.
func (s *search) stroke(crank [2]point, sign float64) point {
	for k := math.Ceil(crank[0].value / math.Pi); k*math.Pi <= crank[1].value; k++ {
		atEnd := math.Abs(math.Remainder(k, 2)) == 1 // the other end of the stroke
		if atEnd != (sign > 0) {
			continue
		}
		sizes := cross(crank[0].sizes, crank[1].sizes, func(sizes []float64) float64 {
			return s.crankAt(sizes).value - k*math.Pi
		})
		if atEnd {
			return point{1, sizes}
		}
		return point{0, sizes}
	}
	var all []point
	for _, p := range crank {
		sizes := slices.Clone(p.sizes)
		s.aim(sizes, func(p *passing) float64 { return p.rod }, -sign)
		all = append(all, point{kernel.Gone(p.value, s.at(sizes).rod), sizes})
	}
	return furthest(all, sign)
}
