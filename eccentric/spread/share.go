package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// A Share is what one dimension has of the variance of each event and lead, from 0
// to 1: of one event those of all dimensions make 1, or all are zero where nothing
// moves it or it does not happen.
type Share struct {
	Dimension   Dimension
	Head, Crank EndShare
}

// An EndShare is the shares at one end of the cylinder.
type EndShare struct {
	Admission, CutOff, Release, Compression EventShare
	Lead                                    float64
}

// An EventShare is the shares of one event.
type EventShare struct {
	Crank  float64 // of the variance of the crank angle
	Stroke float64 // of the variance of the piston's place
}

// At returns the shares of one event; the zero EventShare of none.
func (s EndShare) At(e Event) EventShare {
	if !eventNames.Known(int(e)) {
		return EventShare{}
	}
	return [...]EventShare{s.Admission, s.CutOff, s.Release, s.Compression}[e-Admission]
}

// Shares returns what each dimension with a tolerance has of the variance:
//
//	share = (slope * tolerance)^2 / sum of (slope * tolerance)^2
//
// with the slopes of [Study.Sensitivities] and the widths of the tolerances, for
// dimensions that vary independently, each with a standard deviation in proportion
// to its tolerance. It is linear: where tolerances are wide or an event comes near a
// dead centre, [Study.Random] and [Study.Worst] say more. It fails only where
// [Study.Validate] does. See the Example of [Study.Hold].
func (s Study) Shares() ([]Share, error) {
	b, err := s.box()
	if err != nil {
		return nil, err
	}
	all := make([]Share, len(b.varied))
	for i, v := range b.varied {
		all[i].Dimension = v.dimension
	}
	for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		of := func(i int) *EndShare {
			if end == kernel.Crank {
				return &all[i].Crank
			}
			return &all[i].Head
		}
		crank, stroke := make([]float64, len(all)), make([]float64, len(all))
		for _, e := range Events() {
			for i, v := range b.varied {
				crank[i], stroke[i], _ = s.moves(end, e, s.slope(&v, end, e).times(v.upper-v.lower))
			}
			toShares(crank)
			toShares(stroke)
			for i := range all {
				*of(i).at(e) = EventShare{crank[i], stroke[i]}
			}
		}
		lead := crank
		for i, v := range b.varied {
			lead[i] = s.leads(end, s.slope(&v, end, Admission).times(v.upper-v.lower))
		}
		toShares(lead)
		for i := range all {
			of(i).Lead = lead[i]
		}
	}
	return all, nil
}

func (s *EndShare) at(e Event) *EventShare {
	return [...]*EventShare{&s.Admission, &s.CutOff, &s.Release, &s.Compression}[e-Admission]
}

// toShares makes of some numbers what the square of each has of the sum of all.
func toShares(all []float64) {
	largest := 0.0
	for _, v := range all {
		largest = max(largest, math.Abs(v))
	}
	if largest == 0 {
		return
	}
	sum := 0.0
	for i := range all {
		all[i] = (all[i] / largest) * (all[i] / largest) // so that no square gets lost
		sum += all[i]
	}
	for i := range all {
		all[i] /= sum
	}
}
