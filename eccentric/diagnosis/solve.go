package diagnosis

import "math"

// A hypothesis is what may be wrong with an engine: where its unknowns are expected,
// and how they are spread.
type hypothesis struct {
	faults []*direction // none or up to two, wide
	place  *place       // of the sheave
	mean   vector
	root   square  // of the spread
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
}

// A solver fits hypotheses to readings.
type solver struct {
	drawing
	read  []measured
	rows  []row
	tried []row
}

// iterations is more than a fit takes that comes to anything.
const iterations = 25

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
func (s *solver) fit(h *hypothesis, start vector) fit {
	z := h.root.solved(start.add(-1, &h.mean))
	at := s.kept(h.from(&z))
	var half float64
	s.rows, half = s.residuals(&at, s.rows)
	cost := half + z.dot(&z)/2
	damping := 1e-3
	var hess, low square
	for range iterations {
		var gradient vector
		hess, gradient = s.normal(h, &z)
		improved := false
		for range 8 {
			damped := hess
			for i := range damped {
				damped[i][i] *= 1 + damping
			}
			low = damped.root()
			step := low.backSolved(low.solved(gradient))
			next := z.add(-1, &step)
			there := s.kept(h.from(&next))
			s.tried, half = s.residuals(&there, s.tried)
			if c := half + next.dot(&next)/2; c < cost {
				gain := cost - c
				z, at, cost = next, there, c
				s.rows, s.tried = s.tried, s.rows
				damping = max(damping*0.2, 1e-9)
				improved = gain > 1e-4*(1+cost*1e-3)
				break
			}
			damping *= 6
		}
		if !improved {
			break
		}
	}
	hess, _ = s.normal(h, &z)
	low = hess.root()
	f := fit{of: h, at: at, cost: cost, evidence: h.weight - cost}
	for i := range low {
		f.evidence -= math.Log(low[i][i])
	}
	// spread = L * hess^-1 * L'
	var half1 square // rows of L, solved
	for i := range h.root {
		half1[i] = low.solved(h.root[i])
	}
	for i := range half1 {
		for k := 0; k <= i; k++ {
			f.spread[i][k] = half1[i].dot(&half1[k])
			f.spread[k][i] = f.spread[i][k]
		}
	}
	f.evidence += f.beyond() - h.within
	return f
}

// from returns the unknowns for so many standard deviations of each.
func (h *hypothesis) from(z *vector) vector {
	v := h.mean
	for i := range v {
		for k := 0; k <= i; k++ {
			v[i] += h.root[i][k] * z[k]
		}
	}
	return v
}

// normal returns the normal matrix and the gradient at z, from the rows there.
func (s *solver) normal(h *hypothesis, z *vector) (n square, gradient vector) {
	gradient = *z
	for r := range s.rows {
		row := &s.rows[r]
		var by vector // slope in the measure of the spread: slope * L
		for k := range by {
			for i := k; i < unknowns; i++ {
				by[k] += row.slope[i] * h.root[i][k]
			}
		}
		for i := range by {
			if by[i] == 0 {
				continue
			}
			gradient[i] += row.off * by[i]
			for k := 0; k <= i; k++ {
				n[i][k] += by[i] * by[k]
			}
		}
	}
	for i := range n {
		n[i][i]++
		for k := range i {
			n[k][i] = n[i][k]
		}
	}
	return n, gradient
}

// solved returns x with L*x = v.
func (l *square) solved(v vector) vector {
	for i := range v {
		for k := range i {
			v[i] -= l[i][k] * v[k]
		}
		v[i] /= l[i][i]
	}
	return v
}

// backSolved returns x with L'*x = v.
func (l *square) backSolved(v vector) vector {
	for i := unknowns - 1; i >= 0; i-- {
		for k := i + 1; k < unknowns; k++ {
			v[i] -= l[k][i] * v[k]
		}
		v[i] /= l[i][i]
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
