package casting

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// A programme is a linear programme in free unknowns y:
//
//	least c*y   with   G*y <= h
//
// solved through its dual, h*w least with G^T*w = -c and w >= 0, which has a row for
// each unknown and a column for each reading.
type programme struct {
	cost  []float64   // c
	rows  [][]float64 // of G
	right []float64   // h
}

func (p *programme) row(right float64, left ...float64) {
	p.rows, p.right = append(p.rows, left), append(p.right, right)
}

// nudge is by how much each weight of the dual is pushed off zero at the most: readings
// that are rounded to the dial's divisions tie, and a tie would not tell which readings
// decide.
const nudge = 1e-10

// solve returns the unknowns; false where there are none.
func (p *programme) solve() ([]float64, bool) {
	unknowns, scale := len(p.cost), 0.0
	for _, v := range p.right {
		scale = max(scale, math.Abs(v))
	}
	if scale == 0 {
		return make([]float64, unknowns), true // all readings are alike: nothing is to be moved
	}
	h, dual := make([]float64, len(p.rows)), mat.NewDense(unknowns, len(p.rows), nil)
	for j, row := range p.rows {
		h[j] = p.right[j] / scale
		for i, g := range row {
			dual.Set(i, j, g)
		}
	}
	random := rand.New(rand.NewPCG(1, 1)) // the same for the same readings
	for range 5 {                         // a weight may come out as good as zero all the same
		b := make([]float64, unknowns)
		for i, c := range p.cost {
			b[i] = -c
		}
		for _, row := range p.rows {
			push := nudge * (0.5 + random.Float64())
			for i, g := range row {
				b[i] += push * g
			}
		}
		if _, weights, err := lp.Simplex(h, dual, b, 1e-12, nil); err == nil {
			if y, ok := p.vertex(weights, scale); ok {
				return y, true
			}
		}
	}
	return nil, false
}

// vertex returns the unknowns at which the readings of weight decide.
func (p *programme) vertex(weights []float64, scale float64) ([]float64, bool) {
	unknowns := len(p.cost)
	var left, right []float64
	for j, w := range weights {
		if w > 0 { // of the others it is zero itself
			left, right = append(left, p.rows[j]...), append(right, p.right[j]/scale)
		}
	}
	if len(right) != unknowns {
		return nil, false
	}
	var y mat.VecDense
	if err := y.SolveVec(mat.NewDense(unknowns, unknowns, left), mat.NewVecDense(unknowns, right)); err != nil {
		return nil, false
	}
	for i := range unknowns {
		y.SetVec(i, y.AtVec(i)*scale)
	}
	for j, row := range p.rows {
		at := 0.0
		for i, g := range row {
			at += g * y.AtVec(i)
		}
		if at > p.right[j]+1e-7*scale {
			return nil, false
		}
	}
	return y.RawVector().Data, true
}
