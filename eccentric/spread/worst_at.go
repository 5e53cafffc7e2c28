package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A WorstPlace is between which limits the tolerances let valve and ports be at one
// crank angle.
type WorstPlace struct {
	Valve       Limits // from mid-travel, towards the crank
	Head, Crank WorstOpening
}

// A WorstOpening is between which limits one port is open, from zero to its width.
type WorstOpening struct{ Steam, Exhaust Limits }

// Limits are the least and the greatest of a length.
type Limits struct{ Min, Max units.Length }

// WorstAt returns, for each crank angle from the head-end dead centre, the limits between
// which the tolerances let the valve stand and the ports be open:
//
//	x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2)
//	a = d + t
//
// with the symbols of [Study.Sensitivities]. Beyond them lies no gear whose sizes are
// within their tolerances, however they fall together; some gear comes to each of them,
// but near the ends of the travel of a valve with lost motion, where it may be at rest.
// It is the way of [Study.Worst], whose lead is that at 0. It is geometry, and fails where
// [Study.Validate] does or an angle is not finite. See the Example.
func (s Study) WorstAt(cranks ...units.Angle) ([]WorstPlace, error) {
	b, err := s.box()
	if err != nil {
		return nil, err
	}
	var edges [2][2]*search // of each end, to steam and to exhaust
	for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		edges[i] = [2]*search{b.search(end, Admission), b.search(end, Release)}
	}
	var places []WorstPlace
	for _, t := range cranks {
		if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
			return nil, fail.NotFinite("crank angle", t)
		}
		head, crank := float64(t), float64(t)-math.Pi
		places = append(places, WorstPlace{
			Valve: edges[0][0].stands(head),
			Head:  WorstOpening{edges[0][0].open(head, 1), edges[0][1].open(head, -1)},
			Crank: WorstOpening{edges[1][0].open(crank, 1), edges[1][1].open(crank, -1)},
		})
	}
	return places, nil
}

// open returns how far the port is open at a crank angle from the end's dead centre: to
// steam as far as the valve has gone past the edge, or for a way below zero to exhaust.
func (s *search) open(t, way float64) Limits {
	past := s.beyond(t, true)
	if way < 0 {
		past[0], past[1] = -past[1], -past[0]
	}
	var open [2]units.Length
	for i, sign := range signs {
		sizes := s.base()
		s.aim(sizes, func(p *passing) float64 { return p.port }, sign)
		open[i] = toLength(kernel.Uncovered(past[i], s.at(sizes).port))
	}
	return Limits{open[0], open[1]}
}

// stands returns where the valve is, towards the crank; the search is one of the head end.
func (s *search) stands(t float64) Limits {
	at := s.beyond(t, false)
	for i, sign := range signs {
		sizes := s.base()
		if k := s.place(ValveOffset); k >= 0 {
			low, high := s.gear(with(sizes, k, s.varied[k].lower)), s.gear(with(sizes, k, s.varied[k].upper))
			at[i] += sign * max(sign*low.Motion().Shift, sign*high.Motion().Shift)
		} else {
			g := s.gear(sizes)
			at[i] += g.Motion().Shift
		}
	}
	m := s.drawn.Motion()
	ends := [2]float64{m.TowardsCrank(at[0]), m.TowardsCrank(at[1])}
	return Limits{toLength(min(ends[0], ends[1])), toLength(max(ends[0], ends[1]))}
}

// beyond returns the least and the greatest that the valve, before its offset, stands
// towards opening the end to steam, or past the edge, at a crank angle from the end's
// dead centre. Between right angles of the eccentric it is on its way out or back.
func (s *search) beyond(t float64, edge bool) [2]float64 {
	var angles [2]float64
	for i, sign := range signs {
		sizes := s.base()
		s.aim(sizes, func(p *passing) float64 { return p.d }, sign)
		angles[i] = s.at(sizes).d + t
	}
	limits := [2]float64{math.Inf(1), math.Inf(-1)}
	half := math.Floor(angles[0]/math.Pi + 0.5) // of a turn of the eccentric; out in the even ones
	for from := angles[0]; ; half++ {
		to := min(angles[1], (half+0.5)*math.Pi)
		for i, sign := range signs {
			v := s.between(from, to, math.Remainder(half, 2) == 0, edge, sign)
			limits[i] = sign * max(sign*limits[i], sign*v)
		}
		if from = to; to >= angles[1] {
			return limits
		}
	}
}

// between returns the limit of one sign between two angles of the eccentric with no right
// angle inside. With lost motion the valve is at rest or follows, whichever is further on
// (kernel.Motion.follow); the limits of both are taken by themselves.
func (s *search) between(from, to float64, out, edge bool, sign float64) float64 {
	way := -1.0
	if out {
		way = 1
	}
	aimed := func(parts func(p *passing) (less, more float64)) []float64 {
		sizes := s.base()
		s.aim(sizes, func(p *passing) float64 {
			less, more := parts(p)
			if edge {
				less += p.s
			}
			return more - less
		}, sign)
		return sizes
	}
	past := func(p *passing) float64 {
		if edge {
			return p.s
		}
		return 0
	}
	follows := aimed(func(p *passing) (float64, float64) { return p.l + way*p.late, 0 })
	best := math.Inf(-1)
	for _, a := range [2]float64{from, to} {
		sin, cos := math.Sincos(a)
		for _, sizes := range s.travelsAt(follows, sin, cos) {
			p := s.at(sizes)
			best = max(best, sign*(p.r*sin+slant(p.r*cos, p.l)-way*p.late-past(&p)))
		}
	}
	best *= sign
	if s.place(LostMotion) < 0 && s.drawn.LostMotion == 0 {
		return best
	}
	p := s.at(aimed(func(p *passing) (float64, float64) { return way * p.r, way * p.late }))
	rests := way*(p.late-p.r) - past(&p)
	return way * max(way*best, way*rests)
}

// travelsAt returns the combination with the travel at each of its ends, and where the
// displacement at that angle turns back between them: r = |l*sin/cos|.
func (s *search) travelsAt(sizes []float64, sin, cos float64) [][]float64 {
	if s.travel < 0 {
		return [][]float64{sizes}
	}
	v := s.varied[s.travel]
	all := [][]float64{with(sizes, s.travel, v.lower), with(sizes, s.travel, v.upper)}
	if travel := 2 * math.Abs(s.at(sizes).l*sin/cos); travel > v.lower && travel < v.upper {
		all = append(all, with(sizes, s.travel, travel))
	}
	return all
}

// slant returns l - sqrt(l^2 - y^2) without what large numbers lose, for l below zero its
// opposite.
func slant(y, l float64) float64 { return y * (y / l) / (1 + math.Sqrt(1-y/l*(y/l))) }
