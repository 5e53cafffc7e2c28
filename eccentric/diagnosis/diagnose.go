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
	drawnWeight = 2
	placeWeight = 0.5 // of each place; that in line with the crank has two
	pairsShare  = 0.1 // of all pairs together
)

// What is sure.
const (
	leastOdds     = 20
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
	fits     []fit // the best of each hypothesis
}

func newSearch(c *Case) *search {
	s := &search{}
	s.drawing = drawingOf(c.Gear)
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
	h.root = p.root()
	return h
}

// best fits a hypothesis from all starts and keeps the best.
func (s *search) best(h *hypothesis, starts ...vector) fit {
	var best fit
	for i, start := range starts {
		if f := s.fit(h, start); i == 0 || f.evidence > best.evidence {
			best = f
		}
	}
	return best
}

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

// singles fits the drawing, each fault alone and each place of the sheave.
func (s *search) singles() {
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
		s.fits = append(s.fits, s.best(h, starts...))
	}
	for i := range s.places {
		h := s.hypothesis(&s.places[i], placeWeight)
		s.fits = append(s.fits, s.best(h, h.mean))
	}
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
			if a.part.Fault == b.part.Fault {
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
			if b.part.Fault == WrongAdvance {
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
	s.singles()
	s.pairs()
	return s.diagnosis(), nil
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
	greatest := math.Inf(-1)
	for i := range s.fits {
		greatest = max(greatest, s.fits[i].evidence)
	}
	total := 0.0
	chance := map[key]float64{}
	best := map[key]*fit{}
	for i := range s.fits {
		f := &s.fits[i]
		k := f.of.key()
		p := math.Exp(f.evidence - greatest)
		total += p
		chance[k] += p
		if best[k] == nil || f.evidence > best[k].evidence {
			best[k] = f
		}
	}
	var d Diagnosis
	var order []key
	for k := range chance {
		order = append(order, k)
	}
	slices.SortFunc(order, func(a, b key) int {
		return cmp.Or(cmp.Compare(chance[b], chance[a]), cmp.Compare(a.fault, b.fault), cmp.Compare(a.end, b.end),
			cmp.Compare(a.also, b.also), cmp.Compare(a.alsoAt, b.alsoAt))
	})
	for i, k := range order {
		p := chance[k] / total
		if i >= 1 && p < 1e-6 {
			break
		}
		d.Suspects = append(d.Suspects, s.suspect(best[k], p))
	}
	first := best[order[0]]
	d.ChiSquare = 2 * first.cost
	d.Fits = len(s.read) == 0 || distuv.ChiSquared{K: float64(len(s.read))}.Survival(d.ChiSquare) > leastFit
	s.judge(&d, order[0], chance, total)
	return d
}

// judge says whether the verdict is sure.
func (s *search) judge(d *Diagnosis, first key, chance map[key]float64, total float64) {
	v := &d.Suspects[0]
	for i := range d.Suspects {
		d.Suspects[i].Odds = odds(d.Suspects[i].Probability, 1-d.Suspects[i].Probability)
	}
	with := 0.0
	for k, p := range chance {
		alike := k.also == 0 && (k.fault == first.fault && k.end == first.end || k.fault.OfSheave() && first.fault.OfSheave())
		if alike {
			with += p
		}
	}
	v.Odds = odds(with, total-with)
	v.Sure = v.Also == nil && v.Odds > leastOdds && d.Fits && len(s.read) >= leastReadings
}

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
