package spread

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Keep is how far what the valve does may wander from the drawing, either way and
// at both ends; zero: as far as it likes.
type Keep struct {
	CutOff      float64      // share of the stroke, as the next two are
	Release     float64      //
	Compression float64      //
	Lead        units.Length //
}

// A Widened is the tolerance that a dimension may have.
type Widened struct {
	Tolerance Tolerance
	Factor    float64 // of the tolerance that was stated
	Free      bool    // it could be wider still; what is kept does not depend on it
}

// Held returns the tolerance to hold to: rounded inwards to whole steps, such as a
// micron, or to a hundredth of a degree or a ten-thousandth of a ratio. The step is
// above zero; without one a length stays as it is.
func (w Widened) Held(step units.Length) Tolerance {
	inwards := func(by, steps float64) float64 { return math.Trunc(by*steps*(1+1e-12))/steps + 0 }
	t, d := w.Tolerance, w.Tolerance.Dimension
	for _, end := range [...]*Deviation{&t.Lower, &t.Upper} {
		switch d {
		case Advance:
			end.Angle = units.Angle(inwards(end.Angle.Degrees(), 100)) * units.Degree
		case LeverRatio:
			end.Ratio = inwards(end.Ratio, 1e4)
		default:
			if pm := step.Picometres(); pm > 0 {
				*end = Deviation{Length: units.Picometres(end.Length.Picometres() / pm * pm)}
			}
		}
	}
	return t
}

// most is how many times as wide as stated a tolerance gets at most: one that does
// nothing has no end.
const most = 10

// Widest returns the widest tolerances that keep what the valve does near the
// drawing, in the worst case of all of them together. A tolerance costs the more the
// finer it is, in inverse proportion to its width as against how it is stated:
//
//	least sum of 1/factor, with sum of slope*tolerance*factor <= keep for all that is kept
//
// so that what matters little is held less closely. That cost is common practice in
// allocating tolerances; nobody knows better what a size costs than who states its
// tolerance. The factors are then set right by the worst case itself, as of
// [Study.Worst]: none can be larger by itself. A factor is at most 10.
//
// Something must be kept. What does not happen at an end of the gear as drawn cannot
// be, which is a [units.ErrMissing]; each tolerance must include the drawing. It fails
// where [Study.Validate] does too. See the Example.
func (s Study) Widest(keep Keep) ([]Widened, error) {
	b, err := s.box()
	if err != nil {
		return nil, err
	}
	w, err := s.widening(b, keep)
	if err != nil {
		return nil, err
	}
	var factors []float64
	for range 5 { // until the slopes are those of the worst case; more do not change a digit that can be held
		if factors, err = w.cheapest(); err != nil {
			return nil, err
		}
		w.bend(factors)
	}
	w.setRight(factors)
	return w.widened(factors), nil
}

// A widening is the tolerances of a study, and what they are to keep.
type widening struct {
	box
	study *Study
	kept  []kept
	by    [][]float64 // shares of what is kept that each tolerance as stated uses up, downwards and upwards in turn
}

// A kept is one thing that is kept within limits either way.
type kept struct {
	end   kernel.End
	event Event // none: the lead
	drawn float64
	most  float64
}

func (s *Study) widening(b box, keep Keep) (*widening, error) {
	w := &widening{box: b, study: s}
	lead := float64(keep.Lead.Picometres())
	for _, k := range []struct {
		event Event
		field string
		most  float64
	}{{CutOff, "cut-off", keep.CutOff}, {Release, "release", keep.Release}, {Compression, "compression", keep.Compression},
		{0, "lead", lead}} {
		switch {
		case math.IsNaN(k.most) || math.IsInf(k.most, 0):
			return nil, fail.NotFinite(k.field+" that is kept", k.most)
		case k.most < 0:
			return nil, fail.OutOfRange(k.field+" that is kept", k.most, "above zero, or zero for as far as it likes")
		case k.most == 0:
			continue
		}
		for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
			drawn := eventsOf(&b.drawn, end)
			keeps := kept{end: end, event: k.event, drawn: drawn.Lead, most: k.most}
			if k.event != 0 {
				is := k.event.of(drawn)
				if !is.Occurs {
					return nil, fail.Argument(k.field+" that is kept", nil, "in the gear as drawn there is none at the "+
						endName(end)+" end", "what happens at both ends", units.ErrMissing)
				}
				keeps.drawn = is.Stroke
			}
			w.kept = append(w.kept, keeps)
		}
	}
	if len(w.kept) == 0 {
		return nil, fail.Missing("what is kept", "a cut-off, release, compression or lead above zero")
	}
	for _, v := range b.varied {
		if v.lower > v.drawn || v.upper < v.drawn {
			return nil, fail.Wrong("tolerance of "+v.dimension.String(), v.dimension.deviation(v.lower-v.drawn),
				"it does not include the drawing, from which things are kept", "tolerances about the size as drawn")
		}
	}
	for _, k := range w.kept {
		for _, sign := range signs {
			row := make([]float64, len(b.varied))
			for i, v := range b.varied {
				slope := s.slope(&v, k.end, max(k.event, Admission))
				var by float64
				if k.event == 0 {
					by = s.leads(k.end, slope)
				} else {
					_, by, _ = s.moves(k.end, k.event, slope)
				}
				row[i] = max(sign*by*(v.lower-v.drawn), sign*by*(v.upper-v.drawn)) / k.most
			}
			w.by = append(w.by, row)
		}
	}
	return w, nil
}

func endName(end kernel.End) string {
	if end == kernel.Crank {
		return "crank"
	}
	return "head"
}

// cheapest returns the factors of the least cost for what is linear, by an interior
// point method: the least of
//
//	sum of 1/factor - t*sum of log(left), left = 1 - sum of by*factor
//
// by Newton's method for smaller and smaller t. It is convex, and more than t a
// limit from the least cost it never ends.
func (w *widening) cheapest() ([]float64, error) {
	n := len(w.varied)
	unit := most / 2.0 // of the factors, half of what all could have alike
	for _, row := range w.by {
		unit = min(unit, 0.5/max(floats.Sum(row), 1e-12))
	}
	limits := mat.NewDense(len(w.by)+n, n, nil)
	for k, row := range w.by {
		for i, by := range row {
			limits.Set(k, i, unit*by)
		}
	}
	for i := range n {
		limits.Set(len(w.by)+i, i, unit/most)
	}
	factors := mat.NewVecDense(n, nil)
	for i := range n {
		factors.SetVec(i, 1)
	}
	for t := 1.0; t > 1e-10; t /= 8 {
		for range 100 {
			gained, err := newton(factors, limits, t)
			if err != nil {
				return nil, fail.Argument("tolerances", nil, "the widest are not found", "others", err)
			}
			if gained < 1e-12 {
				break
			}
		}
	}
	factors.ScaleVec(unit, factors)
	return factors.RawVector().Data, nil
}

// newton takes one step towards the least cost, and returns what it gains.
func newton(factors *mat.VecDense, limits *mat.Dense, t float64) (float64, error) {
	rows, n := limits.Dims()
	left := func(x mat.Vector) (*mat.VecDense, bool) {
		var v mat.VecDense
		v.MulVec(limits, x)
		inside := true
		for k := range rows {
			v.SetVec(k, 1-v.AtVec(k))
			inside = inside && v.AtVec(k) > 0
		}
		for i := range n {
			inside = inside && x.AtVec(i) > 0
		}
		return &v, inside
	}
	cost := func(x mat.Vector) float64 {
		v, inside := left(x)
		if !inside {
			return math.Inf(1)
		}
		sum := 0.0
		for i := range n {
			sum += 1 / x.AtVec(i)
		}
		for k := range rows {
			sum -= t * math.Log(v.AtVec(k))
		}
		return sum
	}
	at, _ := left(factors)
	down, bend := mat.NewVecDense(n, nil), mat.NewSymDense(n, nil)
	for i := range n {
		f := factors.AtVec(i)
		down.SetVec(i, 1/f/f)
		bend.SetSym(i, i, 2/f/f/f)
	}
	for k := range rows {
		v := at.AtVec(k)
		row := limits.RowView(k)
		down.AddScaledVec(down, -t/v, row)
		bend.SymRankOne(bend, t/v/v, row)
	}
	var solved mat.Cholesky
	if !solved.Factorize(bend) {
		return 0, units.ErrNotFinite
	}
	var step, next mat.VecDense
	// Near the limits a step has few right digits, which the search along it makes do with.
	if err, inexact := solved.SolveVecTo(&step, down), mat.Condition(0); err != nil && !errors.As(err, &inexact) {
		return 0, err
	}
	before, promised := cost(factors), mat.Dot(&step, down)
	for share := 1.0; share > 1e-12; share /= 2 {
		next.AddScaledVec(factors, share, &step)
		if after := cost(&next); after <= before-0.1*share*promised {
			factors.CopyVec(&next)
			return promised, nil
		}
	}
	return 0, nil // as near as numbers go
}

// used returns how much of what is kept is used up.
func used(row, factors []float64) float64 { return floats.Dot(row, factors) }

// bend makes the slopes of what is kept, with tolerances so many times as wide, those
// of its worst case.
func (w *widening) bend(factors []float64) {
	b := w.scaled(factors)
	for i, k := range w.kept {
		wander, ok := k.wander(&b)
		for j, row := range w.by[2*i : 2*i+2] {
			if linear := used(row, factors); ok && linear > 1e-3 && wander[j] > 1e-3 {
				for n := range row {
					row[n] *= wander[j] / linear
				}
			}
		}
	}
}

// wander returns how far something wanders down and up in the worst case, as a share
// of how far it may; false where it may not happen at all.
func (k *kept) wander(b *box) (by [2]float64, ok bool) {
	if k.event == 0 {
		lead, _ := b.worstLead(k.end)
		return k.shares(lead), true
	}
	m := b.search(k.end, k.event).moment()
	if !m.always {
		return by, false
	}
	return k.shares(m.stroke), true
}

func (k *kept) shares(limits [2]point) (by [2]float64) {
	for i, p := range limits {
		by[i] = signs[i] * (p.value - k.drawn) / k.most
	}
	return by
}

// keeps reports whether tolerances so many times as wide keep all that is to be kept
// in the worst case, and leave every gear a sound one.
func (w *widening) keeps(factors []float64) bool {
	b := w.scaled(factors)
	if w.study.sound(&b) != nil {
		return false
	}
	for _, k := range w.kept {
		if by, ok := k.wander(&b); !ok || max(by[0], by[1]) > 1+1e-9 {
			return false
		}
	}
	return true
}

// scaled returns the box with tolerances so many times as wide.
func (w *widening) scaled(factors []float64) box {
	b := box{drawn: w.drawn, varied: slices.Clone(w.varied)}
	for i := range b.varied {
		v := &b.varied[i]
		v.lower = v.drawn + factors[i]*(v.lower-v.drawn)
		v.upper = v.drawn + factors[i]*(v.upper-v.drawn)
	}
	return b
}

// setRight draws all factors in until the worst case keeps what it must, and lets
// each out by itself as far as that goes. The worst case of a wider box is not
// narrower, so what has no room to grow has none when others have grown.
func (w *widening) setRight(factors []float64) {
	stated := slices.Clone(factors)
	scale := largestThat(1, func(by float64) bool {
		for i := range factors {
			factors[i] = by * stated[i]
		}
		return w.keeps(factors)
	})
	for i := range factors {
		factors[i] = scale * stated[i]
	}
	for i := range factors {
		least := factors[i]
		if factors[i] = min(least*(1+hair), most); !w.keeps(factors) {
			factors[i] = least
			continue
		}
		factors[i] = least + largestThat(most-least, func(more float64) bool {
			factors[i] = least + more
			return w.keeps(factors)
		})
	}
}

// hair is by how much a tolerance might be wider still that is told as the widest.
const hair = 1e-6

// largestThat returns the largest number, from zero to the given one, for which
// something holds that holds for all smaller ones.
func largestThat(high float64, holds func(float64) bool) float64 {
	if holds(high) {
		return high
	}
	low := 0.0
	for range 50 {
		if middle := (low + high) / 2; holds(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// widened puts factors into tolerances, which are rounded inwards.
func (w *widening) widened(factors []float64) []Widened {
	all := make([]Widened, len(factors))
	for i, v := range w.varied {
		d, f := v.dimension, factors[i]
		all[i] = Widened{
			Tolerance: Tolerance{d, d.inwards(f * (v.lower - v.drawn)), d.inwards(f * (v.upper - v.drawn))},
			Factor:    f, Free: f > most*(1-2*hair),
		}
	}
	return all
}

// inwards is deviation for a count that is rounded towards nothing.
func (d Dimension) inwards(by float64) Deviation {
	if d == Advance || d == LeverRatio {
		return d.deviation(by)
	}
	return d.deviation(math.Trunc(by))
}
