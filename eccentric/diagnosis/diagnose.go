package diagnosis

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// How likely each is before anything is read.
const (
	drawnWeight = 5
	placeWeight = 0.5 // of each place; that in line with the crank has two
	pairsShare  = 0.1 // of all pairs together
)

// What is sure.
const (
	leastOdds     = 20
	noneOdds      = 50 // that nothing is wrong, which is to be found in no reading, with less than manyReadings
	manyReadings  = 10
	leastReadings = 6
	leastFit      = 0.001 // chance of a chi-square as great
	mostOdds      = 1e6
)

// A search is all hypotheses of a case with their fits.
type search struct {
	solver
	nuisance square
	wide     []direction
	places   []place
	fits     []fit // the best of each hypothesis, and other places of the sheave
}

func newSearch(c *Case) *search {
	s := &search{}
	s.drawing, s.least = drawingOf(c.Gear), math.Inf(1)
	for i := range c.Readings {
		s.read = append(s.read, c.Readings[i].measured())
	}
	s.nuisance = s.spreadOf(c)
	s.wide, s.places = s.directions(), s.drawing.places()
	for i := range s.wide {
		d := &s.wide[i]
		d.tol = 3 * math.Sqrt(s.nuisance.along(&d.read))
	}
	return s
}

// along returns the variance of what is read off by v.
func (p *square) along(v *vector) (sum float64) {
	for i := range p {
		sum += v[i] * p[i].dot(v)
	}
	return sum
}

// hypothesis returns what is thought with some faults, and a place of the sheave or
// none.
func (s *search) hypothesis(at *place, weight float64, faults ...*direction) *hypothesis {
	h := &hypothesis{faults: faults, place: at, mean: s.drawn, weight: math.Log(weight)}
	p := s.nuisance
	if at != nil {
		h.mean[advance] = at.at
		for i := range p {
			p[i][advance], p[advance][i] = 0, 0
		}
		p[advance][advance] = placedAt * placedAt
	}
	for _, d := range faults {
		h.within += math.Log(d.beyond(0, math.Sqrt(p.along(&d.read)+d.sd*d.sd)))
	}
	for _, d := range faults {
		p.widen(&d.along, d.sd)
		if d.edge != none {
			p[d.edge][d.edge] += d.sd * d.sd / 4
		}
	}
	p.rootTo(&h.root)
	for i := range h.root {
		for k := range i + 1 {
			if by := h.root[i][k]; by != 0 {
				h.terms = append(h.terms, term{i, k, by})
			}
		}
	}
	return h
}

// best fits a hypothesis from all starts and keeps the best.
func (s *search) best(h *hypothesis, starts ...vector) fit { return s.modes(h, starts...)[0] }

// modes fits a hypothesis from all starts and returns the best, and after it the best
// of other places of the sheave.
func (s *search) modes(h *hypothesis, starts ...vector) (all []fit) {
	if h.starts == nil {
		h.starts = starts
	}
	for _, start := range starts {
		f := s.fit(h, start)
		same := slices.IndexFunc(all, func(o fit) bool { return near(&o, &f) })
		switch {
		case same < 0:
			all = append(all, f)
		case f.evidence > all[same].evidence:
			all[same] = f
		}
	}
	slices.SortStableFunc(all, func(a, b fit) int { return cmp.Compare(b.evidence, a.evidence) })
	return all
}

// near reports whether the sheave of two fits stands in the same place.
func near(a, b *fit) bool {
	return math.Abs(math.Remainder(a.at[advance]-b.at[advance], 2*math.Pi)) < samePlace
}

const samePlace = 15 * math.Pi / 180

// sheaveStarts returns the engines with the sheave turned round, of which the
// readings like those next to them less.
func (s *search) sheaveStarts(mean vector) (starts []vector) {
	const every = 24
	var costs [every]float64
	var at [every]vector
	for i := range costs {
		at[i] = mean
		at[i][advance] = math.Remainder(mean[advance]+2*math.Pi*float64(i)/every, 2*math.Pi)
		s.rows, costs[i] = s.residuals(&at[i], s.rows)
	}
	for i, c := range costs {
		if c <= costs[(i+1)%every] && c < costs[(i+every-1)%every] || i == 0 {
			starts = append(starts, at[i])
		}
	}
	return starts
}

// singles fits the drawing, each fault alone and each place of the sheave. It returns
// fits of the same with the sheave elsewhere.
func (s *search) singles() (others []fit) {
	s.fits = append(s.fits, s.best(s.hypothesis(nil, drawnWeight), s.drawn))
	for i := range s.wide {
		d := &s.wide[i]
		h := s.hypothesis(nil, d.weight, d)
		starts := []vector{s.drawn, s.drawn.add(d.sd, &d.along), s.drawn.add(-d.sd, &d.along)}
		if d.part.Fault == WrongAdvance {
			starts = s.sheaveStarts(s.drawn)
		} else if d.upward {
			starts = starts[:2]
		}
		modes := s.modes(h, starts...)
		s.fits = append(s.fits, modes[0])
		others = append(others, modes[1:]...)
	}
	for i := range s.places {
		h := s.hypothesis(&s.places[i], placeWeight)
		s.fits = append(s.fits, s.best(h, h.mean))
	}
	return others
}

// pairs fits two faults at once, from what each of them alone comes to.
func (s *search) pairs() {
	alone := s.fits[1 : 1+len(s.wide)]
	inPlace := s.fits[1+len(s.wide):]
	from := len(s.fits)
	for i := range s.wide {
		a := &s.wide[i]
		for k := i + 1; k < len(s.wide); k++ {
			b := &s.wide[k]
			if a.part.Fault == b.part.Fault || a.rare || b.rare {
				continue
			}
			h := s.hypothesis(nil, a.weight*b.weight, a, b)
			both := alone[i].at.add(1, &alone[k].at).add(-1, &s.drawn)
			s.fits = append(s.fits, s.best(h, alone[i].at, alone[k].at, both))
		}
	}
	for i := range s.places {
		for k := range s.wide {
			b := &s.wide[k]
			if b.part.Fault == WrongAdvance || b.rare {
				continue
			}
			h := s.hypothesis(&s.places[i], placeWeight*b.weight, b)
			at := inPlace[i].at
			s.fits = append(s.fits, s.best(h, at, at.add(b.sd, &b.along), at.add(-b.sd, &b.along)))
		}
	}
	total := 0.0
	for _, f := range s.fits[from:] {
		total += math.Exp(f.of.weight)
	}
	singles := 0.0
	for _, f := range s.fits[:from] {
		singles += math.Exp(f.of.weight)
	}
	share := math.Log(pairsShare / (1 - pairsShare) * singles / total)
	for i := from; i < len(s.fits); i++ {
		s.fits[i].extra = share
		s.fits[i].evidence += share
	}
}

// Diagnose returns the faults that explain the readings, by probability. Each is
// thought of with the unknowns that explain the readings best, and weighed by what
// its evidence is near them:
//
//	-cost - log(det(H)) / 2 - log(det(P)) / 2 + log(weight)
//
//	cost     half the sum of the squares of what the readings are off, and the unknowns, in standard deviations
//	H, P     the second derivatives of the cost; the covariance of the unknowns before anything is read
//	weight   how likely the fault is before
//
// (Laplace's method: D. J. C. MacKay, Information Theory, Inference, and Learning
// Algorithms, chapter 27). It fails only where [Case.Validate] does. See the
// Example.
func (c Case) Diagnose() (Diagnosis, error) {
	if err := c.Validate(); err != nil {
		return Diagnosis{}, err
	}
	s := newSearch(&c)
	others := s.singles()
	s.pairs()
	s.fits = append(s.fits, others...)
	d := s.diagnosis()
	s.tell(&d)
	return d, nil
}

// A key is what makes two hypotheses the same suspect.
type key struct {
	fault, also Fault
	end, alsoAt eccentric.End
}

func (h *hypothesis) key() (k key) {
	k.fault = AsDrawn
	if h.place != nil {
		k.fault = h.place.fault
	}
	for i, d := range h.faults {
		if i == 0 && h.place == nil {
			k.fault, k.end = d.part.Fault, d.part.End
		} else {
			k.also, k.alsoAt = d.part.Fault, d.part.End
		}
	}
	return k
}

// diagnosis weighs the fits.
func (s *search) diagnosis() Diagnosis {
	var d Diagnosis
	plain := weigh(s.fits)
	first := plain.best[plain.order[0]]
	d.ChiSquare = 2 * first.cost
	d.Fits = fits(d.ChiSquare, len(s.read))
	sure := s.sure(&plain, plain.order[0]) && d.Fits && len(s.read) >= leastReadings && s.agree(first)
	all := plain
	if sure || !d.Fits || !s.agree(first) {
		s.misread()
		all = weigh(s.fits)
		d.MeasureAgain = s.suspected(all)
	}
	for i, k := range all.order {
		p := all.chance[k]
		if i >= 1 && p < leastChance {
			break
		}
		to := s.suspect(all.best[k], p)
		to.Odds = odds(p, 1-p)
		if i == 0 {
			to.Odds = all.odds(k)
			to.Sure = sure && k == plain.order[0] && s.sure(&all, k) && len(d.MeasureAgain) == 0
		}
		d.Suspects = append(d.Suspects, to)
	}
	return d
}

// leastChance is that of a suspect that is told.
const leastChance = 1e-6

// fits reports whether a fit of so many readings is not refused.
func fits(chiSquare float64, readings int) bool {
	return readings == 0 || distuv.ChiSquared{K: float64(readings)}.Survival(chiSquare) > leastFit
}

// furthestOff is how far a reading may be from what all the others say, in standard
// deviations: one of ten is further by chance in half a per cent of engines.
const furthestOff = 3.5

// agree reports whether no reading stands alone against a fit and the others.
func (s *search) agree(f *fit) bool {
	s.rows, _ = s.residuals(&f.at, s.rows)
	for i := range s.rows {
		if s.rows[i].alone(f) > furthestOff {
			return false
		}
	}
	return true
}

// alone is by how many standard deviations a row is off a fit without it.
func (r *row) alone(f *fit) float64 {
	held := f.spread.along(&r.slope) // by the reading itself
	return math.Abs(r.off) / math.Sqrt(max(1-held, 0.01))
}

// alone is that of a reading.
func (s *search) alone(m *measured, f *fit) (most float64) {
	s.tried = s.drawing.rows(m, &f.at, s.tried[:0])
	for i := range s.tried {
		most = max(most, s.tried[i].alone(f))
	}
	return most
}

// weights are the fits by suspect.
type weights struct {
	fits   []fit
	each   []float64 // chance of each fit
	chance map[key]float64
	best   map[key]*fit
	order  []key
}

func weigh(all []fit) weights {
	greatest := math.Inf(-1)
	for i := range all {
		greatest = max(greatest, all[i].evidence)
	}
	w := weights{fits: all, each: make([]float64, len(all)), chance: map[key]float64{}, best: map[key]*fit{}}
	total := 0.0
	for i := range all {
		w.each[i] = math.Exp(all[i].evidence - greatest)
		total += w.each[i]
	}
	for i := range all {
		f, k := &all[i], all[i].of.key()
		w.each[i] /= total
		if w.best[k] == nil {
			w.order = append(w.order, k)
		}
		w.chance[k] += w.each[i]
		if w.best[k] == nil || f.evidence > w.best[k].evidence {
			w.best[k] = f
		}
	}
	slices.SortStableFunc(w.order, func(a, b key) int { return cmp.Compare(w.chance[b], w.chance[a]) })
	return w
}

// odds returns those that the part of a suspect is wrong, whether or not another is
// too. Where the sheave stands is one part, whatever it is called, if it is the same
// place.
func (w *weights) odds(first key) float64 {
	with := 0.0
	for i := range w.fits {
		f := &w.fits[i]
		k := f.of.key()
		switch {
		case first.fault.OfSheave():
			if k.fault.OfSheave() && near(f, w.best[first]) {
				with += w.each[i]
			}
		case k.fault == first.fault && k.end == first.end || k.also == first.fault && k.alsoAt == first.end:
			with += w.each[i]
		}
	}
	return odds(with, 1-with)
}

func (s *search) sure(w *weights, first key) bool {
	least := float64(leastOdds)
	if first.fault == AsDrawn && len(s.read) < manyReadings {
		least = noneOdds
	}
	return first.also == 0 && w.odds(first) > least
}

// wrongChance is how often a reading is plainly wrong.
const wrongChance = 0.01

// leftOut returns the logarithm of the chance that a reading is plainly wrong, and then
// as it is: it can be anything, and says nothing. It is in the measure of a row, where a
// standard deviation off costs a half.
func (s *search) leftOut(m *measured) float64 {
	if m.kind == OpensNext || m.never {
		return math.Log(wrongChance / 2) // one of two things is seen
	}
	anything := 2 * math.Pi
	switch {
	case m.kind.isLength():
		anything = 4 * s.drawn[reach]
	case m.byStroke:
		anything = 1
	}
	return math.Log(wrongChance * m.sd * math.Sqrt(2*math.Pi) / anything)
}

// morePairs is how many of them are fitted without a reading.
const morePairs = 6

// misread fits what is alone, and the best pairs, without one reading after the other.
// Where that one has led a fit astray it begins anew.
func (s *search) misread() {
	from := s.fits[:1+len(s.wide)+len(s.places)]
	better := func(a, b fit) int { return cmp.Compare(b.evidence, a.evidence) }
	pairs := slices.SortedFunc(slices.Values(s.fits[len(from):]), better)
	from = append(slices.Clone(from), pairs[:min(len(pairs), morePairs)]...)
	greatest := slices.MinFunc(from, better).evidence
	read := s.read
	defer func() { s.read = read }()
	for i := range read {
		s.read = slices.Delete(slices.Clone(read), i, i+1)
		cost := s.leftOut(&read[i])
		for k := range from {
			was := &from[k]
			starts := []vector{was.at}
			switch {
			case math.IsInf(was.evidence, -1) || s.off(&read[i], &was.at) > furthestOff:
				starts = append(starts, was.of.starts...)
			case was.evidence < greatest-outOfReach && s.alone(&read[i], was) < furthestOff:
				continue // without a reading that agrees it comes to no more
			}
			f := s.best(was.of, starts...)
			f.evidence += cost + was.extra
			f.extra, f.without = was.extra, i+1
			s.fits = append(s.fits, f)
		}
	}
}

// outOfReach is by how much the evidence of a fit is less than the greatest, which
// leaving out a reading that agrees does not make up.
const outOfReach = 20

// off is by how many standard deviations a reading misses an engine.
func (s *search) off(m *measured, v *vector) (most float64) {
	s.tried = s.drawing.rows(m, v, s.tried[:0])
	for i := range s.tried {
		most = max(most, math.Abs(s.tried[i].off))
	}
	return most
}

// suspected returns the readings that are plainly wrong rather than not, the likeliest
// first, if the others then agree.
func (s *search) suspected(w weights) (again []int) {
	greatest := math.Inf(-1)
	for i := range s.fits {
		greatest = max(greatest, s.fits[i].evidence)
	}
	chance := make([]float64, len(s.read)+1)
	fit := make([]bool, len(s.read)+1)
	total := 0.0
	for i := range s.fits {
		f := &s.fits[i]
		p := math.Exp(f.evidence - greatest)
		chance[f.without] += p
		total += p
		fit[f.without] = fit[f.without] || p > 0 && fits(2*f.cost, len(s.read)-1)
	}
	if chance[0] > total/2 {
		return nil
	}
	for i := range s.read {
		if fit[i+1] && chance[i+1] > total*leastWrong {
			again = append(again, i)
		}
	}
	slices.SortStableFunc(again, func(a, b int) int { return cmp.Compare(chance[b+1], chance[a+1]) })
	return again
}

// leastWrong is the chance that a reading is plainly wrong from which on it is to be
// taken again.
const leastWrong = 0.05

func odds(with, against float64) float64 {
	if with >= mostOdds*against {
		return mostOdds
	}
	return with / against
}

// suspect tells a fit.
func (s *search) suspect(f *fit, chance float64) Suspect {
	h := f.of
	var parts []Part
	if h.place != nil {
		sd := math.Sqrt(f.spread[advance][advance])
		p := Part{Fault: h.place.fault, AngleSD: units.Angle(sd)}
		p.Angle = units.Angle(math.Remainder(f.at[advance]-s.drawn[advance], 2*math.Pi))
		parts = append(parts, p)
	}
	for _, d := range h.faults {
		amount, sd := f.amount(d)
		p := d.part
		if d.angle {
			p.Angle, p.AngleSD = units.Angle(math.Remainder(amount, 2*math.Pi)), units.Angle(sd)
		} else {
			p.Length, p.LengthSD = millimetres(amount*d.whole), millimetres(sd*math.Abs(d.whole))
		}
		parts = append(parts, p)
	}
	if parts == nil {
		parts = []Part{{Fault: AsDrawn}}
	}
	to := Suspect{Part: parts[0], Probability: chance}
	gear, ok := s.put(s.gear, parts[0])
	if len(parts) > 1 {
		to.Also = &parts[1]
		if ok {
			gear, ok = s.put(gear, parts[1])
		}
	}
	if ok {
		to.Gear = gear
	}
	return to
}

// millimetres returns a length to the nearest micrometre.
func millimetres(v float64) units.Length {
	return units.Picometres(int64(math.Round(v*1000)) * 1e6)
}
