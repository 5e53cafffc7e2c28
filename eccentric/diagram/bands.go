package diagram

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Bands draws between which limits the tolerances of a study let the valve stand over a
// turn, and the ports of both ends be open: hatched bands from the least to the greatest
// of the worst case, as of [spread.Study.WorstAt], with the limits of the events, the
// leads and the greatest openings as of [spread.Study.Worst]. It fails where
// [spread.Study.Validate] does. See the Example.
func Bands(s spread.Study, o Options) ([]Picture, error) {
	b := &banding{study: s}
	var err error
	if b.worst, err = s.Worst(); err != nil {
		return nil, err
	}
	if b.gearing, err = gearingOf(s.Gear, o); err != nil {
		return nil, err
	}
	if err := b.sample(); err != nil {
		return nil, err
	}
	valve, err := picture(roomy(b.place), "valve-within-its-tolerances", "The valve over a turn, within the tolerances",
		"Band over the crank angle in which the tolerances let the valve stand. "+b.furthest(),
		"The band is between the least and the greatest of the worst case: a valve that stands outside is not within the tolerances.")
	if err != nil {
		return nil, err
	}
	open, err := picture(roomy(b.openings), "openings-within-their-tolerances", "How far the ports are open, within the tolerances",
		"Bands over the crank angle in which the tolerances let both ports be open to steam and to exhaust."+b.told(),
		"The bands are between the least and the greatest of the worst case. Numbers are those of the events, as drawn.")
	return []Picture{valve, open}, err
}

type banding struct {
	*gearing
	study   spread.Study
	worst   spread.Worst
	samples []sample // over a turn from the head-end dead centre
}

// A sample is where valve and ports may be at one crank angle, in radians.
type sample struct {
	crank float64
	spread.WorstPlace
}

// sample works out the turn: at the limits of the events, where the bands begin and end,
// and between them as close as the chords want to be.
func (b *banding) sample() error {
	turns := []float64{0, fullTurn}
	for i := range 180 {
		turns = append(turns, fullTurn*float64(i)/180)
	}
	for i, end := range [...]spread.WorstEnd{b.worst.Head, b.worst.Crank} {
		for _, e := range spread.Events() {
			if at := end.At(e); at.Ever {
				half := float64(i) * math.Pi
				turns = append(turns, turned(float64(at.MinCrank.Crank)+half), turned(float64(at.MaxCrank.Crank)+half))
			}
		}
	}
	slices.Sort(turns)
	turns = slices.CompactFunc(turns, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	at := func(turns ...float64) ([]sample, error) {
		var angles []units.Angle
		for _, t := range turns {
			angles = append(angles, units.Angle(t))
		}
		places, err := b.study.WorstAt(angles...)
		var samples []sample
		for i, p := range places {
			samples = append(samples, sample{turns[i], p})
		}
		return samples, err
	}
	var err error
	b.samples, err = at(turns...)
	for deeper := 0; err == nil && deeper < 6; deeper++ {
		var between []float64
		for i := 1; i < len(b.samples); i++ {
			p, q := b.samples[i-1], b.samples[i]
			if q.crank-p.crank > 1e-5 && (deeper == 0 || b.bends(i)) {
				between = append(between, (p.crank+q.crank)/2)
			}
		}
		var more []sample
		if more, err = at(between...); err == nil {
			b.samples = append(b.samples, more...)
			slices.SortFunc(b.samples, func(p, q sample) int { return cmp.Compare(p.crank, q.crank) })
		}
	}
	return err
}

// bends reports whether a limit bends near the end of a step, as where a port is just
// wide open.
func (b *banding) bends(i int) bool {
	if i < 2 || i+1 >= len(b.samples) {
		return false
	}
	allowed := b.Travel.In(units.Millimetres) * 1e-4
	off := func(i int) bool {
		p, q, r := b.samples[i-1], b.samples[i], b.samples[i+1]
		share := (q.crank - p.crank) / (r.crank - p.crank)
		before, here, after := p.all(), q.all(), r.all()
		for k := range here {
			if math.Abs(before[k]+share*(after[k]-before[k])-here[k]) > allowed {
				return true
			}
		}
		return false
	}
	return off(i-1) || off(i)
}

// all returns every limit in millimetres.
func (s sample) all() [10]float64 {
	var all [10]float64
	for i, l := range [...]spread.Limits{s.Valve, s.Head.Steam, s.Head.Exhaust, s.Crank.Steam, s.Crank.Exhaust} {
		all[2*i], all[2*i+1] = l.Min.In(units.Millimetres), l.Max.In(units.Millimetres)
	}
	return all
}

// A ribbon is a band on a chart: places along it, and its limits there.
type ribbon struct{ x, low, high []float64 }

// draw outlines a ribbon and marks its place; what it returns hatches it, clear of all
// that is written until then.
func (r ribbon) draw(c chart) (hatch func()) {
	var below, above []sheet.Point
	for i, x := range r.x {
		below, above = append(below, c.at(x, r.low[i])), append(above, c.at(x, r.high[i]))
	}
	below, above = straightened(below), straightened(above)
	c.chain(sheet.Measure, false, below...)
	c.chain(sheet.Measure, false, above...)
	var region []sheet.Vertex
	for _, at := range above {
		region = append(region, sheet.Vertex{Point: at})
	}
	for _, at := range slices.Backward(below) {
		region = append(region, sheet.Vertex{Point: at})
	}
	return func() {
		hatch := sheet.Hatch{Region: [][]sheet.Vertex{region}, Angle: 45 * units.Degree, Spacing: 0.7, Gaps: c.texts}
		c.Hatch(sheet.Hatching, hatch)
	}
}

// straightened leaves out points from which the line through the others is not to be told.
func straightened(points []sheet.Point) []sheet.Point {
	var kept []sheet.Point
	for i, at := range points {
		if n := len(kept); n > 0 && i+1 < len(points) && points[i+1].X-kept[n-1].X < 6 &&
			deviation(at, kept[n-1], points[i+1]) < smooth/10 {
			continue
		}
		kept = append(kept, at)
	}
	return apart(kept)
}

func (b *banding) place(taller float64) *plate {
	const told = 2 * listUp
	foot, high := 2+told+footUp+1, 62+taller
	p := newPlate(wide, foot+high+7)
	least, most := b.ends()
	columns := []column{{2, sheet.Start}, {wide - 2, sheet.End}}
	p.list(2+told-listUp+below*letters, columns, []string{"furthest to the head end", b.span(least)},
		[]string{"furthest to the crank", b.span(most)})
	r := ribbon{}
	for _, s := range b.samples {
		r.x = append(r.x, s.crank*180/math.Pi)
		r.low = append(r.low, b.rule.of(s.Valve.Min.In(units.Millimetres)))
		r.high = append(r.high, b.rule.of(s.Valve.Max.In(units.Millimetres)))
	}
	low, top := slices.Min(r.low), slices.Max(r.high)
	step := stepFor(top-low, 8)
	low, top = widened(low, top, step)
	c := chart{p, axis{0, 360, max(sideWide(low, top, step), 12), wide - 4}, axis{low, top, foot, foot + high}}
	c.side(step, "valve from mid-travel, "+b.rule.lengthName+", above zero towards the crank")
	c.foot(30, "crank angle from the head-end dead centre, degrees")
	c.level(sheet.Measure, 0)
	r.draw(c)()
	return p
}

// ends returns between which limits the valve turns round: away from the crank, and
// towards it.
func (b *banding) ends() (head, crank spread.Limits) {
	head, crank = b.samples[0].Valve, b.samples[0].Valve
	for _, s := range b.samples {
		head = spread.Limits{Min: least(head.Min, s.Valve.Min), Max: least(head.Max, s.Valve.Max)}
		crank = spread.Limits{Min: most(crank.Min, s.Valve.Min), Max: most(crank.Max, s.Valve.Max)}
	}
	return head, crank
}

// span writes from what to what a length goes, the smaller amount first.
func (b *banding) span(l spread.Limits) string {
	if l.Max.Sign() <= 0 && l.Min.Sign() < 0 {
		l.Min, l.Max = l.Max.Neg(), l.Min.Neg()
	}
	return b.fromTo(l.Min, l.Max)
}

// fromTo writes two lengths, with the unit once where both are in it.
func (b *banding) fromTo(low, high units.Length) string {
	from, to := b.rule.size(low), b.rule.size(high)
	if number, unit, _ := strings.Cut(from, " "); strings.HasSuffix(to, " "+unit) {
		from = number
	}
	return from + " to " + to
}

func (b *banding) furthest() string {
	head, crank := b.ends()
	return fmt.Sprintf("It turns round %s from mid-travel towards the head end and %s towards the crank.", b.span(head), b.span(crank))
}

// limits are what is told of an end below the picture.
func (b *banding) limits(w spread.WorstEnd) []string {
	var all []string
	for _, e := range spread.Events() {
		at := w.At(e)
		text := inDegrees(at.MinCrank.Crank) + " to " + inDegrees(at.MaxCrank.Crank)
		switch {
		case !at.Ever:
			text = "never"
		case !at.Always:
			text += " or never"
		}
		all = append(all, text)
	}
	for _, l := range [...]spread.WorstLength{w.Lead, w.Opening, w.ExhaustOpening} {
		all = append(all, b.fromTo(l.Min.Length, l.Max.Length))
	}
	return all
}

// limited are the names of those.
var limited = [...]string{"admission", "cut-off", "release", "compression", "lead", "greatest to steam", "greatest to exhaust"}

func (b *banding) told() string {
	text := ""
	for i, end := range [...]spread.WorstEnd{b.worst.Head, b.worst.Crank} {
		text += [...]string{" Head end:", " Crank end:"}[i]
		for k, limits := range b.limits(end) {
			text += " " + limited[k] + " " + limits + map[bool]string{true: ";", false: "."}[k+1 < len(limited)]
		}
	}
	return text
}

// before is where the crank's turn begins on the picture, ahead of the dead centre, for
// the admission.
const before = -30

func (b *banding) openings(taller float64) *plate {
	const told = (1 + float64(len(limited))) * listUp
	const apart = footUp + 7
	high := 36 + taller/2
	p := newPlate(wide, 2+told+2*high+2*apart)
	columns := []column{{2, sheet.Start}, {9, sheet.Start}, {76, sheet.End}, {wide - 2, sheet.End}}
	rows := [][]string{{"from its dead centre", "", "head end", "crank end"}}
	head, crank := b.limits(b.worst.Head), b.limits(b.worst.Crank)
	for i, name := range limited {
		numbers := ""
		if i < 4 {
			numbers = b.instants[i].number + " " + b.instants[i+4].number
		}
		rows = append(rows, []string{numbers, name, head[i], crank[i]})
	}
	p.list(2+told-listUp+below*letters, columns, rows...)
	port := units.Length{}
	for _, s := range b.samples {
		for _, l := range [...]spread.Limits{s.Head.Steam, s.Head.Exhaust, s.Crank.Steam, s.Crank.Exhaust} {
			port = most(port, l.Max)
		}
	}
	widest := b.rule.of(port.In(units.Millimetres))
	if widest <= 0 { // no port ever opens
		widest = b.rule.of(b.Ports.Steam.In(units.Millimetres))
	}
	for i, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		b.openingsOf(p, end, 2+told+float64(1-i)*(high+apart)+footUp, high, 1.12*widest)
	}
	return p
}

func (b *banding) openingsOf(p *plate, end eccentric.End, foot, high, widest float64) {
	step := stepFor(2*widest, 6)
	left := max(sideWide(-widest, widest, step), 8)
	c := chart{p, axis{before, 360, left, wide - 4}, axis{-widest, widest, foot, foot + high}}
	c.openingSide(step, fmt.Sprintf("%s port open, %s, to steam above the line and to exhaust below", end, b.rule.lengthName))
	c.foot(30, fmt.Sprintf("crank angle from the %s-end dead centre, degrees", end))
	c.level(sheet.Measure, 0)
	c.line(sheet.Centre, c.at(0, -widest), c.at(0, widest))
	var hatches, words []func()
	for i, way := range [...]float64{1, -1} {
		for _, r := range b.ribbons(end, way) {
			hatches = append(hatches, r.draw(c))
			middle := len(r.x) / 2
			inside := c.at(r.x[middle], way*max(math.Abs(r.low[middle]), math.Abs(r.high[middle]))/2)
			if r.x[len(r.x)-1]-r.x[0] > 40 {
				words = append(words, func() { c.name(names, [...]string{"to steam", "to exhaust"}[i], inside) })
			}
		}
	}
	for _, m := range b.instants {
		if m.end == end && m.Occurs {
			for _, turn := range [...]float64{0, -360} {
				if at := turned(float64(m.Crank))*180/math.Pi + turn; c.x.has(at) {
					c.ring(sheet.Edge, c.at(at, 0), dot)
				}
			}
		}
	}
	for _, write := range words {
		write()
	}
	for _, m := range b.instants {
		if m.end == end && m.Occurs {
			at := turned(float64(m.Crank)) * 180 / math.Pi
			if m.name == "admission" && c.x.has(at-360) {
				at -= 360
			}
			c.ringed(c.at(at, 0), m.number)
		}
	}
	lead := b.worst.Head.Lead
	if end == eccentric.CrankEnd {
		lead = b.worst.Crank.Lead
	}
	if lead.Min.Length.Sign() > 0 {
		c.name(letters, "lead", c.at(0, b.rule.of(lead.Max.Length.In(units.Millimetres))))
	}
	for _, hatch := range hatches {
		hatch()
	}
}

// ribbons returns the bands of a port over the turn of its own end, to steam, or for a way
// below zero to exhaust: where it may be open at all.
func (b *banding) ribbons(end eccentric.End, way float64) []ribbon {
	var all []ribbon
	var r ribbon
	finish := func() {
		if len(r.x) > 1 {
			all = append(all, r)
		}
		r = ribbon{}
	}
	put := func(x float64, l spread.Limits) {
		low, high := way*b.rule.of(l.Min.In(units.Millimetres)), way*b.rule.of(l.Max.In(units.Millimetres))
		r.x, r.low, r.high = append(r.x, x), append(r.low, low), append(r.high, high)
	}
	last := spread.Limits{}
	lastX, first := 0.0, true
	for _, s := range b.over(end) {
		l := s.Head.Steam
		switch {
		case end == eccentric.CrankEnd && way < 0:
			l = s.Crank.Exhaust
		case end == eccentric.CrankEnd:
			l = s.Crank.Steam
		case way < 0:
			l = s.Head.Exhaust
		}
		switch {
		case l.Max.Sign() > 0:
			if len(r.x) == 0 && !first {
				put(lastX, last)
			}
			put(s.crank, l)
		case len(r.x) > 0:
			put(s.crank, l)
			finish()
		}
		last, lastX, first = l, s.crank, false
	}
	finish()
	return all
}

// over returns the samples in degrees from an end's own dead centre, from a little before
// it to a turn on.
func (b *banding) over(end eccentric.End) []sample {
	half := 0.0
	if end == eccentric.CrankEnd {
		half = 180
	}
	var all []sample
	for _, s := range b.samples {
		for turn := -720.0; turn <= 360; turn += 360 {
			if at := s.crank*180/math.Pi - half + turn; at >= before-1e-9 && at <= 360+1e-9 {
				all = append(all, sample{at, s.WorstPlace})
			}
		}
	}
	slices.SortFunc(all, func(p, q sample) int { return cmp.Compare(p.crank, q.crank) })
	return slices.CompactFunc(all, func(p, q sample) bool { return math.Abs(q.crank-p.crank) < 1e-9 })
}
