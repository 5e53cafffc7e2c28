package spread

import (
	"cmp"
	"context"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A Chance is how often engines have a finding, as shares of all engines, whichever
// end it concerns.
type Chance struct {
	Code    finding.Code `json:"code"`
	Chance  float64      `json:"chance"`  // that Gear.Check says it, or Gear.CheckPlaced where the study is Placed
	Caution float64      `json:"caution"` // that it costs power or is graver
	Fails   float64      `json:"fails"`   // that it stops the engine
}

// answer sums up a run.
func (r *run) answer(ctx context.Context) (Random, error) {
	var all tally
	for i := range r.blocks {
		all.add(&r.blocks[i])
	}
	var found [columns][len(shares)]float64
	err := r.share(ctx, columns, func() func(int) {
		var p picker
		parts := make([][]float64, len(r.blocks))
		return func(c int) {
			for i := range r.blocks {
				parts[i] = r.columns[i][c][:r.blocks[i].kept(c, r.size(i))]
			}
			found[c] = p.percentiles(parts)
		}
	})
	if err != nil {
		return Random{}, err
	}
	answer := Random{Runs: r.runs, Fails: share(all.fails, r.runs)}
	for end, e := range [...]*EndSpread{&answer.Head, &answer.Crank} {
		found := found[end*endColumns:][:endColumns]
		for i, event := range [...]*EventSpread{&e.Admission, &e.CutOff, &e.Release, &e.Compression} {
			event.Occurs = share(all.kept(end*endColumns+2*i, r.runs), r.runs)
			event.Crank = told(found[2*i], func(v float64) units.Angle { return units.Angle(v) })
			event.Stroke = told(found[2*i+1], func(v float64) float64 { return v })
		}
		length := func(v float64) units.Length { return units.Picometres(int64(math.RoundToEven(v))) }
		e.Lead, e.Opening = told(found[lead], length), told(found[opening], length)
		e.ExhaustOpening = told(found[exhaustOpening], length)
	}
	answer.Chances = all.chances(r.runs)
	return answer, nil
}

// kept returns how many of some engines have left something in a column.
func (t *tally) kept(column, of int) int {
	switch end, at := column/endColumns, column%endColumns; {
	case at < lead/2: // admission and cut-off
		return t.steam[end]
	case at < lead: // release and compression
		return t.exhaust[end]
	}
	return of
}

// add adds what another tally counts.
func (t *tally) add(other *tally) {
	for end := range t.steam {
		t.steam[end] += other.steam[end]
		t.exhaust[end] += other.exhaust[end]
	}
	for code := range other.grades {
		for grade, n := range other.grades[code] {
			t.grades[code][grade] += n
		}
	}
	t.fails += other.fails
}

// chances returns those of the codes that some engine has.
func (t *tally) chances(runs int) []Chance {
	var all []Chance
	for code, grades := range t.grades {
		fails := grades[kernel.Stops]
		caution := fails + grades[kernel.Costs]
		if any := caution + grades[kernel.Worth]; any > 0 {
			all = append(all, Chance{
				Code:   finding.Code(kernel.Code(code).String()),
				Chance: share(any, runs), Caution: share(caution, runs), Fails: share(fails, runs),
			})
		}
	}
	slices.SortStableFunc(all, func(x, y Chance) int {
		return cmp.Or(cmp.Compare(y.Fails, x.Fails), cmp.Compare(y.Caution, x.Caution), cmp.Compare(y.Chance, x.Chance))
	})
	return all
}

func share(n, of int) float64 { return float64(n) / float64(of) }

// told returns percentiles in their unit.
func told[T any](p [len(shares)]float64, as func(float64) T) Percentiles[T] {
	return Percentiles[T]{P05: as(p[0]), P50: as(p[1]), P95: as(p[2])}
}
