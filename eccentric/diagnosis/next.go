package diagnosis

import (
	"cmp"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A Next is the reading that would tell most about which part is wrong.
type Next struct {
	Kind  Kind          `json:"kind"`
	End   eccentric.End `json:"end"`
	Crank units.Angle   `json:"crank,omitzero"` // of [ValveAt]
	Text  string        `json:"text"`           // what to read, and what it will be with each part that is in doubt
	Bits  float64       `json:"bits"`           // of information about which part it is, as is to be expected
}

// A guess is a fault, or a pair, with the engine that it stands for.
type guess struct {
	weight float64 // how probable it is
	cure   cure
	*fit
}

// A cure tells guesses apart by what puts them right: a sheave is turned from where it
// stands, whatever was meant there.
type cure struct {
	key
	turned int // which of the places of the sheave that are in question
}

func (k key) cure() cure {
	for _, f := range [...]*Fault{&k.fault, &k.also} {
		if f.OfSheave() {
			*f = WrongAdvance
		}
	}
	if k.also != 0 && k.also < k.fault {
		k.fault, k.also, k.end, k.alsoAt = k.also, k.fault, k.alsoAt, k.end
	}
	return cure{key: k}
}

// sameTurn is how far from each other two sheaves stand that one turn puts right.
const sameTurn = 15 * math.Pi / 180

// leastWeight is that of a guess that is looked at when the next reading is chosen.
const leastWeight = 1e-4

// guesses returns those that are not out of the question, with all readings taken as
// they are or without one of them, counted from 1.
func (s *search) guesses(without int) (all []guess) {
	greatest, total := math.Inf(-1), 0.0
	for i := range s.fits {
		if s.fits[i].without == without {
			greatest = max(greatest, s.fits[i].evidence)
		}
	}
	for i := range s.fits {
		f := &s.fits[i]
		if f.without == without {
			w := math.Exp(f.evidence - greatest)
			total += w
			all = append(all, guess{weight: w, cure: f.of.key().cure(), fit: f})
		}
	}
	all = slices.DeleteFunc(all, func(g guess) bool { return !(g.weight >= leastWeight*total) })
	for i := range all {
		all[i].weight /= total
	}
	slices.SortStableFunc(all, func(a, b guess) int { return cmp.Compare(b.weight, a.weight) })
	var places []float64
	for i := range all {
		c := &all[i].cure
		if c.fault != WrongAdvance { // of a pair too it comes first
			continue
		}
		at := all[i].at[advance]
		near := func(p float64) bool { return math.Abs(math.Remainder(at-p, 2*math.Pi)) < sameTurn }
		c.turned = slices.IndexFunc(places, near)
		if c.turned < 0 {
			c.turned = len(places)
			places = append(places, at)
		}
	}
	return all
}

// A forecast is what a guess says that a reading will be: a value with an error, or one
// of two things that are seen.
type forecast struct {
	weight   float64
	cure     cure
	seen     outcome
	mean, sd float64
}

type outcome int

const (
	value    outcome = iota
	notAtAll         // an event does not happen
	steam            // the port opens to steam next
	exhaust          // or to exhaust
)

// hermite are points and weights of the Gauss-Hermite rule for a normal distribution.
var hermite = [...]struct{ at, weight float64 }{
	{-3.7504397177257425, 0.000548268855972218}, {-2.3667594107345415, 0.03075712396758650},
	{-1.1544053947399682, 0.2401231786050127}, {0, 0.4571428571428571}, {1.1544053947399682, 0.2401231786050127},
	{2.3667594107345415, 0.03075712396758650}, {3.7504397177257425, 0.000548268855972218},
}

// surprise is the density of a reading that no guess has foreseen, to a millimetre or
// a radian.
const surprise = 1e-3

// information returns how many bits a reading is to be expected to tell about the cure:
//
//	sum of weight * E[log2(p(reading with the cure) / p(reading))]
//
// over the guesses, with the expectation over what each foresees. That is the mutual
// information of the two. turn is what the reading comes round by, zero for a length.
func information(all []forecast, turn float64) float64 {
	cures := map[cure]float64{}
	whole := 0.0
	for i := range all {
		cures[all[i].cure] += all[i].weight
		whole += all[i].weight
	}
	told := func(c cure, seen outcome, v float64) float64 {
		var with, any float64
		for i := range all {
			f := &all[i]
			chance := f.weight * f.chance(seen, v, turn)
			any += chance
			if f.cure == c {
				with += chance
			}
		}
		return math.Log2((with/cures[c] + surprise) / (any/whole + surprise))
	}
	bits := 0.0
	for i := range all {
		f := &all[i]
		if f.seen != value {
			bits += f.weight * told(f.cure, f.seen, 0)
			continue
		}
		for _, p := range hermite {
			bits += f.weight * p.weight * told(f.cure, value, f.mean+f.sd*p.at)
		}
	}
	return max(bits/whole, 0)
}

// chance returns the density of a value, or the chance of what is seen.
func (f *forecast) chance(seen outcome, v, turn float64) float64 {
	switch {
	case f.seen != seen:
		return 0
	case seen != value:
		return 1
	}
	off := v - f.mean
	if turn != 0 {
		off = math.Remainder(off, turn)
	}
	off /= f.sd
	return math.Exp(-off*off/2) / (f.sd * math.Sqrt(2*math.Pi))
}

// A candidate is a reading that might be taken next.
type candidate struct {
	kind   Kind
	end    eccentric.End
	crank  units.Angle
	effort int
}

// candidates are all of them, with what they take: at a dead centre or with a rule on
// the valve's rod; with a protractor and the chest open; with a protractor and air;
// and what a slide valve hides.
func candidates() (all []candidate) {
	all = []candidate{{kind: Travel, effort: 1}}
	for _, end := range [...]eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		all = append(all,
			candidate{kind: Lead, end: end, effort: 1}, candidate{kind: OpensNext, end: end, effort: 1},
			candidate{kind: Opening, end: end, effort: 1},
			candidate{kind: Admission, end: end, effort: 2}, candidate{kind: CutOff, end: end, effort: 2},
			candidate{kind: Release, end: end, effort: 3}, candidate{kind: Compression, end: end, effort: 3},
			candidate{kind: ExhaustOpening, end: end, effort: 4},
		)
	}
	for quarter := range 4 {
		all = append(all, candidate{kind: ValveAt, crank: units.Angle(quarter) * 90 * units.Degree, effort: 2})
	}
	return all
}

// foresee returns what a guess says of a reading that has that standard deviation.
func (g *drawing) foresee(c *candidate, of *guess, sd float64) (all []forecast) {
	f := forecast{weight: of.weight, cure: of.cure}
	split := func(chance float64, a, b outcome) {
		for _, half := range [...]struct {
			share float64
			seen  outcome
		}{{chance, a}, {1 - chance, b}} {
			if f.weight, f.seen = of.weight*half.share, half.seen; f.weight > 0 {
				all = append(all, f)
			}
		}
	}
	w := g.from(c.end, &of.at)
	if c.kind == OpensNext {
		d := math.Remainder(of.at[advance], 2*math.Pi)
		off := math.Hypot(turning, math.Sqrt(max(of.spread[advance][advance], 0)))
		split(likely((math.Pi/2-math.Abs(d))/off), steam, exhaust)
		return all
	}
	m := measured{kind: c.kind, end: c.end, at: float64(c.crank), sd: sd}
	r := g.rows(&m, &of.at, nil)[0]
	f.mean = r.off * sd
	f.sd = sd * math.Sqrt(1+max(of.quadratic(&r.slope), 0))
	if c.kind == Lead || c.kind == Opening || c.kind == ExhaustOpening {
		f.mean = min(f.mean, w.port) // a port is seen open as wide as it is
		if c.kind != Lead {
			f.mean = max(f.mean, 0)
		}
	}
	if !c.kind.isEvent() {
		return append(all, f)
	}
	var slope vector
	_, beyond := w.event(c.kind, &slope)
	slope = vector{}
	w.beyond(c.kind, 1, &slope)
	split(likely(beyond/math.Hypot(missing, math.Sqrt(max(of.quadratic(&slope), 0)))), value, notAtAll)
	return all
}

// quadratic returns the variance of what has those slopes.
func (g *guess) quadratic(slope *vector) (sum float64) {
	for i := range slope {
		if slope[i] != 0 {
			sum += slope[i] * g.spread[i].dot(slope)
		}
	}
	return sum
}

// likely is the chance that what is so many standard deviations above zero is above it.
func likely(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// error returns what readings of that kind are out by, one standard deviation: as those
// of the same measure that were taken, the best of them, or as is usual.
func (s *search) error(k Kind) float64 {
	r := Reading{Kind: k}
	m := r.measured()
	for i := range s.read {
		is := &s.read[i]
		if is.kind.isEvent() == k.isEvent() && is.kind != OpensNext && k != OpensNext && !is.byStroke && !is.never {
			m.sd = min(m.sd, is.sd)
		}
	}
	return m.sd
}

// taken reports whether the reading has been taken.
func (s *search) taken(c *candidate) bool {
	return slices.ContainsFunc(s.read, func(m measured) bool {
		return m.kind == c.kind && m.end == c.end && math.Abs(math.Remainder(m.at-float64(c.crank), 2*math.Pi)) < 0.1
	})
}

// asGood is what of the information of the best reading one is to give that takes less.
const asGood = 0.9

// next returns the reading that would tell most, the least trouble of those that tell
// about as much; nil where all have been taken.
func (s *search) next(guesses []guess) *Next {
	var best *candidate
	most, all := 0.0, candidates()
	bits := make([]float64, len(all))
	for i := range all {
		c := &all[i]
		if s.taken(c) {
			continue
		}
		var foreseen []forecast
		sd := s.error(c.kind)
		for k := range guesses {
			foreseen = append(foreseen, s.foresee(c, &guesses[k], sd)...)
		}
		turn := 0.0
		if c.kind.isEvent() {
			turn = 2 * math.Pi
		}
		bits[i] = information(foreseen, turn)
		most = max(most, bits[i])
	}
	at := -1
	for i := range all {
		if !s.taken(&all[i]) && bits[i] >= asGood*most && (at < 0 || all[i].effort < best.effort) {
			best, at = &all[i], i
		}
	}
	if best == nil {
		return nil
	}
	return &Next{Kind: best.kind, End: best.end, Crank: best.crank, Bits: bits[at], Text: s.asked(best, guesses)}
}

// asked says what to read, what it will be with the likeliest cure, and what it will be
// with the next or speaks for it.
func (s *search) asked(c *candidate, guesses []guess) string {
	heads := heads(guesses)
	first := s.likeliest(c, &heads[0])
	text := "Read " + c.text() + ": " + first.text(c.kind) + " with " + s.told(&heads[0])
	for i := 1; i < len(heads); i++ {
		other := &heads[i]
		switch f := s.likeliest(c, other); {
		case s.apart(c, &heads[0], other, s.error(c.kind)) >= clearly:
			return text + ", " + f.text(c.kind) + " with " + s.told(other) + "."
		case f.sd > 2*first.sd && s.unseen(other) != nil:
			return text + "; another figure speaks for " + s.unseen(other).part.named() + "."
		}
	}
	return text + "."
}

// heads returns the likeliest guess of each cure, with the weight of all of them, the
// greatest first.
func heads(guesses []guess) (all []guess) {
	best := map[cure]float64{}
	for _, g := range guesses {
		at := slices.IndexFunc(all, func(h guess) bool { return h.cure == g.cure })
		if at < 0 {
			all, best[g.cure] = append(all, g), g.weight
			continue
		}
		whole := all[at].weight + g.weight
		if g.weight > best[g.cure] {
			all[at], best[g.cure] = g, g.weight
		}
		all[at].weight = whole
	}
	slices.SortStableFunc(all, func(a, b guess) int { return cmp.Compare(b.weight, a.weight) })
	return all
}

// likeliest is what a guess foresees most.
func (s *search) likeliest(c *candidate, g *guess) forecast {
	return mostLikely(s.foresee(c, g, s.error(c.kind)))
}

func mostLikely(all []forecast) forecast {
	return slices.MaxFunc(all, func(a, b forecast) int { return cmp.Compare(a.weight, b.weight) })
}
