package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Worst is between which limits the tolerances let the Events, the leads and the
// openings of a gear lie.
type Worst struct{ Head, Crank WorstEnd }

// A WorstEnd is the worst of one end of the cylinder.
type WorstEnd struct {
	Admission, CutOff, Release, Compression WorstEvent

	Lead           WorstLength
	Opening        WorstLength // greatest opening to steam, at most the width of the port
	ExhaustOpening WorstLength // greatest opening to exhaust, at most the width of the port
}

// A WorstEvent is between which limits one event lies.
type WorstEvent struct {
	Always   bool // it happens in every gear that the tolerances allow
	Ever     bool // it happens in some of them; the limits are those of these, and zero if there are none
	Searched bool // the limits are searched, not proven: with lost motion, where it does not always happen

	MinCrank, MaxCrank   AngleLimit
	MinStroke, MaxStroke StrokeLimit
}

// A WorstLength is between which limits a length lies.
type WorstLength struct {
	Min, Max LengthLimit
	Searched bool // and not proven
}

// An AngleLimit is the earliest or latest crank angle of an event from that end's
// own dead centre, counted in the turn of the gear as drawn, with the deviations
// that make it.
type AngleLimit struct {
	Crank units.Angle
	With  Combination
}

// A StrokeLimit is how near or how far the piston stands at the Event, as a share
// of the stroke from that end.
type StrokeLimit struct {
	Stroke float64
	With   Combination
}

// A LengthLimit is the least or the greatest length.
type LengthLimit struct {
	Length units.Length
	With   Combination
}

// A Combination is the sizes that are off the drawing, and by how much; those that
// are not named do not matter or are as drawn.
type Combination []Off

// An Off is one size that is off, and by how much.
type Off struct {
	Dimension Dimension
	By        Deviation
}

// Worst returns the limits between which the tolerances let each event, lead and
// opening lie, and the combination of deviations that makes each limit. Between
// them lies every gear whose sizes are within their tolerances, however they fall
// together; some gear comes to each limit, or as near to it as one likes where an
// event does not always happen. It is geometry: the proof that no gear lies beyond
// is in testdata/eccentric/spread/README.md, and what is searched says so. It fails
// only where [Study.Validate] does. See the Example.
func (s Study) Worst() (Worst, error) {
	b, err := s.box()
	if err != nil {
		return Worst{}, err
	}
	return b.worst(), nil
}

func (b *box) worst() Worst {
	return Worst{Head: b.worstEnd(kernel.Head), Crank: b.worstEnd(kernel.Crank)}
}

func (b *box) worstEnd(end kernel.End) WorstEnd {
	w := WorstEnd{Lead: b.lengths(b.worstLead(end)), Opening: b.worstOpening(end), ExhaustOpening: b.worstExhaust(end)}
	for _, e := range Events() {
		m := b.search(end, e).moment()
		*w.at(e) = WorstEvent{Always: m.always, Ever: m.ever, Searched: m.searched}
		if !m.ever {
			continue
		}
		limits := w.at(e)
		limits.MinCrank, limits.MaxCrank = b.angleLimit(m.crank[0]), b.angleLimit(m.crank[1])
		limits.MinStroke, limits.MaxStroke = b.strokeLimit(m.stroke[0]), b.strokeLimit(m.stroke[1])
	}
	return w
}

// At returns the limits of one event; the zero WorstEvent of none.
func (w WorstEnd) At(e Event) WorstEvent {
	if !eventNames.Known(int(e)) {
		return WorstEvent{}
	}
	return *w.at(e)
}

func (w *WorstEnd) at(e Event) *WorstEvent {
	return [...]*WorstEvent{&w.Admission, &w.CutOff, &w.Release, &w.Compression}[e-Admission]
}

func (b *box) angleLimit(p point) AngleLimit {
	return AngleLimit{Crank: units.Angle(p.value), With: b.combination(p.sizes)}
}

func (b *box) strokeLimit(p point) StrokeLimit {
	return StrokeLimit{Stroke: p.value, With: b.combination(p.sizes)}
}

// combination names the sizes that are off.
func (b *box) combination(sizes []float64) Combination {
	var c Combination
	for i, v := range b.varied {
		if by := v.dimension.deviation(sizes[i] - v.drawn).tidied(); by != (Deviation{}) {
			c = append(c, Off{v.dimension, by})
		}
	}
	return c
}

// tidied rounds off what the difference of two sizes has lost: beyond a billionth of
// a degree or of a ratio.
func (d Deviation) tidied() Deviation {
	d.Angle = units.Angle(math.Round(d.Angle.Degrees()*1e9)/1e9+0) * units.Degree
	d.Ratio = math.Round(d.Ratio*1e9)/1e9 + 0
	return d
}

// limitsOf returns the least and the greatest of some combinations, of what the
// kernel has among the events of an end.
func (b *box) limitsOf(end kernel.End, all [2][][]float64, of func(*kernel.EndEvents) float64) (limits [2]point) {
	for i, sign := range signs {
		var points []point
		for _, sizes := range all[i] {
			g := b.gear(sizes)
			points = append(points, point{of(eventsOf(&g, end)), sizes})
		}
		limits[i] = furthest(points, sign)
	}
	return limits
}

// lengths puts limits into lengths.
func (b *box) lengths(limits [2]point, searched bool) WorstLength {
	limit := func(p point) LengthLimit { return LengthLimit{toLength(p.value), b.combination(p.sizes)} }
	return WorstLength{Min: limit(limits[0]), Max: limit(limits[1]), Searched: searched}
}

// toLength returns the length nearest to a number of picometres.
func toLength(v float64) units.Length { return units.Picometres(int64(math.Round(v))) }

// worstOpening and worstExhaust: an opening goes one way along each size, as a port
// that is wider is opened further.
func (b *box) worstOpening(end kernel.End) WorstLength {
	return b.worstPassage(end, Admission, func(p *passing) float64 { return p.reach - p.s },
		func(e *kernel.EndEvents) float64 { return e.Opening })
}

func (b *box) worstExhaust(end kernel.End) WorstLength {
	return b.worstPassage(end, Release, func(p *passing) float64 { return p.reach + p.s },
		func(e *kernel.EndEvents) float64 { return e.ExhaustOpening })
}

func (b *box) worstPassage(end kernel.End, e Event, past func(*passing) float64,
	of func(*kernel.EndEvents) float64) WorstLength {
	s := b.search(end, e)
	var all [2][][]float64
	for i, sign := range signs {
		sizes := b.base()
		s.aim(sizes, func(p *passing) float64 { return p.port }, sign)
		s.aim(sizes, past, sign)
		all[i] = [][]float64{sizes}
	}
	return b.lengths(b.limitsOf(end, all, of), false)
}

// worstLead: the lead is, without lost motion,
//
//	r*sin(d) + l - sqrt(l^2 - (r*cos(d))^2) - s
//
// It falls with l and with s, whatever the rest. Along d it turns back at right
// angles alone, whatever r; along r at r = |l*tan(d)| alone. Lost motion takes half
// of itself off, as long as the valve is on its way out at the dead centre and not
// at rest; what it does elsewhere is searched.
func (b *box) worstLead(end kernel.End) (limits [2]point, searched bool) {
	s := b.search(end, Admission)
	var all [2][][]float64
	for i, sign := range signs {
		sizes := b.base()
		for _, falls := range [...]func(*passing) float64{
			func(p *passing) float64 { return p.l }, func(p *passing) float64 { return p.s },
			func(p *passing) float64 { return p.late },
		} {
			s.aim(sizes, falls, -sign)
		}
		for _, sizes := range b.advances(sizes) {
			all[i] = append(all[i], sizes)
			if s.travel < 0 {
				continue
			}
			v := b.varied[s.travel]
			all[i] = append(all[i], with(sizes, s.travel, v.lower), with(sizes, s.travel, v.upper))
			p := s.at(sizes)
			if travel := 2 * math.Abs(p.l*math.Tan(p.d)); travel > v.lower && travel < v.upper {
				all[i] = append(all[i], with(sizes, s.travel, travel))
			}
		}
	}
	rests := s.rests()
	if rests {
		var along []int // l and s are where they belong
		for i, change := range s.changes {
			if change.late != 0 || change.r != 0 || change.d != 0 {
				along = append(along, i)
			}
		}
		for i, sign := range signs {
			found := b.searchFor(all[i], along, sign, func(g *kernel.Gear) float64 { return eventsOf(g, end).Lead })
			all[i] = append(all[i], found)
		}
	}
	return b.limitsOf(end, all, func(e *kernel.EndEvents) float64 { return e.Lead }), rests
}

// rests reports whether the valve may be at rest at the dead centre, or on its way
// back, in some gear of the box, as only one with lost motion can be.
func (s *search) rests() bool {
	var ends [2]passing
	for i, sign := range signs {
		sizes := s.base()
		for _, part := range [...]func(*passing) float64{
			func(p *passing) float64 { return p.late }, func(p *passing) float64 { return p.r },
			func(p *passing) float64 { return p.d }, func(p *passing) float64 { return p.l },
		} {
			s.aim(sizes, part, sign)
		}
		ends[i] = s.at(sizes)
	}
	least, most := ends[0], ends[1]
	switch {
	case most.late == 0:
		return false
	case least.d <= -math.Pi/2 || most.d >= math.Pi/2:
		return true
	}
	// The driver goes all of the lost motion before it takes the valve along; the slant of the rod moves it by less
	// than r^2/|l|.
	slant := most.r * most.r / min(math.Abs(least.l), math.Abs(most.l))
	return least.r*(1+math.Sin(least.d))-slant <= 2*most.late
}

// eventsOf returns what a gear does at one end.
func eventsOf(g *kernel.Gear, end kernel.End) *kernel.EndEvents {
	m := g.Motion()
	var e kernel.Events
	m.Events(&e)
	return e.At(end)
}

// advances returns the combination with the advance at each of its ends, and at the
// right angles between them.
func (b *box) advances(sizes []float64) [][]float64 {
	i := b.place(Advance)
	if i < 0 {
		return [][]float64{sizes}
	}
	v := b.varied[i]
	all := [][]float64{with(sizes, i, v.lower), with(sizes, i, v.upper)}
	for _, right := range [...]float64{-math.Pi / 2, math.Pi / 2} {
		if right > v.lower && right < v.upper {
			all = append(all, with(sizes, i, right))
		}
	}
	return all
}
