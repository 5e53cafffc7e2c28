package diagnosis

import "math"

// A hypothesis is what may be wrong with an engine: where its unknowns are expected,
// and how they are spread.
type hypothesis struct {
	faults []*direction // none or up to two, wide
	place  *place       // of the sheave
	mean   vector
	root   square // of the spread
	terms  []term // those of it
	starts []vector
	weight float64 // logarithm
	within float64 // logarithm of the chance of faults beyond the tolerances, before anything is read
}

// A fit is a hypothesis with the unknowns that explain the readings best.
type fit struct {
	of       *hypothesis
	at       vector
	cost     float64 // half the sum of the squares, of the readings and of the unknowns
	spread   square  // of the unknowns, afterwards
	evidence float64 // logarithm
	extra    float64 // of it, for pairs
	without  int     // a reading that is taken to be plainly wrong, counted from 1; 0: none
}

// A solver fits hypotheses to readings.
type solver struct {
	drawing
	read  []measured
	rows  []row
	tried []row

	hess, damped, low square

	least float64 // cost of any fit up to now
}

// iterations is more than a fit takes that comes to anything, and hopeless how much
// more than the least a fit may cost that is to count.
const (
	iterations = 25
	hopeless   = 30
)

// residuals returns half the sum of the squares of the rows at v.
func (s *solver) residuals(v *vector, rows []row) ([]row, float64) {
	rows = rows[:0]
	for i := range s.read {
		rows = s.drawing.rows(&s.read[i], v, rows)
	}
	sum := 0.0
	for i := range rows {
		sum += rows[i].off * rows[i].off
	}
	return rows, sum / 2
}

// within returns the unknowns as far as an engine can have them.
func (g *drawing) kept(v vector) vector {
	v[reach] = min(max(v[reach], 0.1*g.drawn[reach]), 10*g.drawn[reach])
	if a := math.Abs(g.l); v[reach] > 0.99*a {
		v[reach] = 0.99 * a
	}
	if most := 1.8 * v[reach]; v[lost] > most {
		v[lost] = most
	}
	return v
}

// fit finds the unknowns of a hypothesis that explain the readings best, from a
// start: damped least squares (Levenberg and Marquardt) in the measure of the spread.
// It gives up what comes to nothing beside other fits.
func (s *solver) fit(h *hypothesis, start vector) fit {
	z := h.root.solved(start.add(-1, &h.mean))
	at := s.kept(h.from(&z))
	var half float64
	s.rows, half = s.residuals(&at, s.rows)
	cost := half + z.dot(&z)/2
	damping := 1e-3
	for i := range iterations {
		gradient := s.normal(h, &z)
		improved := false
		for range 8 {
			s.damped = s.hess
			for i := range s.damped {
				s.damped[i][i] *= 1 + damping
			}
			s.damped.rootTo(&s.low)
			step := s.low.backSolved(s.low.solved(gradient))
			if i >= 1 && cost-2*gradient.dot(&step) > s.least+hopeless {
				return fit{of: h, at: at, cost: cost, evidence: math.Inf(-1)}
			}
			next := z.add(-1, &step)
			there := s.kept(h.from(&next))
			s.tried, half = s.residuals(&there, s.tried)
			if c := half + next.dot(&next)/2; c < cost {
				gain := cost - c
				z, at, cost = next, there, c
				s.rows, s.tried = s.tried, s.rows
				damping = max(damping*0.2, 1e-9)
				improved = gain > enough
				break
			}
			damping *= 6
		}
		if !improved {
			break
		}
	}
	s.normal(h, &z)
	s.hess.rootTo(&s.low)
	s.least = min(s.least, cost)
	f := fit{of: h, at: at, cost: cost, evidence: h.weight - cost}
	for i := range s.low {
		f.evidence -= math.Log(s.low[i][i])
	}
	// L * H^-1 * L', of which each row of L is solved for the half.
	var rows square
	for i := range h.root {
		rows[i] = s.low.solved(h.root[i])
	}
	for i := range rows {
		for k := 0; k <= i; k++ {
			f.spread[i][k] = rows[i].dot(&rows[k])
			f.spread[k][i] = f.spread[i][k]
		}
	}
	f.evidence += f.beyond() - h.within
	return f
}

// enough is a gain of the cost that is worth another step.
const enough = 1e-3

// A term is a number of the root of a spread that is not zero.
type term struct {
	i, k int
	by   float64
}

// from returns the unknowns for so many standard deviations of each.
func (h *hypothesis) from(z *vector) vector {
	v := h.mean
	for _, t := range h.terms {
		v[t.i] += t.by * z[t.k]
	}
	return v
}

// normal puts the normal matrix at z, from the rows there, and returns the gradient.
func (s *solver) normal(h *hypothesis, z *vector) vector {
	gradient := *z
	n := &s.hess
	*n = square{}
	for i := range n {
		n[i][i] = 1
	}
	for r := range s.rows {
		row := &s.rows[r]
		var by vector // slope in the measure of the spread: slope * L
		for _, t := range h.terms {
			by[t.k] += row.slope[t.i] * t.by
		}
		for i, b := range by {
			if b == 0 {
				continue
			}
			gradient[i] += row.off * b
			for k := range i + 1 {
				n[i][k] += b * by[k]
			}
		}
	}
	return gradient
}

// solved returns x with L*x = v.
func (l *square) solved(v vector) vector {
	for i := range v {
		row := &l[i]
		sum := v[i]
		for k := range i {
			sum -= row[k] * v[k]
		}
		v[i] = sum / row[i]
	}
	return v
}

// backSolved returns x with L'*x = v.
func (l *square) backSolved(v vector) vector {
	for i := unknowns - 1; i >= 0; i-- {
		v[i] /= l[i][i]
		for k := range i {
			v[k] -= l[i][k] * v[i]
		}
	}
	return v
}

// beyond returns the logarithm of the chance that every fault of the hypothesis is
// larger than its tolerance.
func (f *fit) beyond() (sum float64) {
	for _, d := range f.of.faults {
		amount, sd := f.amount(d)
		sum += math.Log(max(d.beyond(amount, sd), 1e-30))
	}
	return sum
}

// amount returns what a fit has of a fault, and its standard deviation.
func (f *fit) amount(d *direction) (amount, sd float64) {
	v := f.at.add(-1, &f.of.mean)
	along := vector{}
	for i := range along {
		along[i] = f.spread[i].dot(&d.read)
	}
	return v.dot(&d.read), math.Sqrt(max(along.dot(&d.read), 0))
}
