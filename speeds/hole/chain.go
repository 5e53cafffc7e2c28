package hole

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Chain is a row of holes drilled along a slot, to take most of the metal out before
// a slot drill makes its width and its ends.
type Chain struct {
	Drill   units.Length
	Centres []units.Length // from one end of the slot, along its middle line
	Pitch   units.Length   // from hole to hole; zero for a single hole
	Refs    source.Refs
}

// ChainDrill returns the largest drill for a chain of holes along a slot: nine tenths
// of its width, so that a drill that wanders stays inside it (common practice).
func ChainDrill(width units.Length) (units.Length, error) {
	if width.Sign() <= 0 {
		return units.Length{}, fail.OutOfRange("width of the slot", width, "above zero")
	}
	return width.Scale(0.9), nil
}

// ChainFor returns a chain of holes along a slot with round ends, the first and the
// last at the centres of its ends, the others evenly between them:
//
//	n = floor((L - w) / (1.1 * d)) + 1
//	p = (L - w) / (n - 1)
//
//	L  length of the slot over its ends
//	w  its width
//	d  the drill, up to [ChainDrill]
//	n  holes, up to 1000
//	p  from hole to hole
//
// A tenth of the drill stays between two holes, so that it does not run into the one
// before (common practice). The drill goes no deeper than the slot at its tip, so that
// the holes are shallower at their full diameter by the point. A slot longer than
// wide. See the Example.
func ChainFor(length, width, drill units.Length) (Chain, error) {
	most, err := ChainDrill(width)
	if err != nil {
		return Chain{}, err
	}
	switch {
	case length.Cmp(width) < 0:
		return Chain{}, fail.OutOfRange("length of the slot", length, "not below its width, "+width.String())
	case drill.Sign() <= 0 || drill.Cmp(most) > 0:
		return Chain{}, fail.OutOfRange("drill", drill, "above zero, up to nine tenths of the width, "+most.String())
	}
	span := length.Sub(width)
	between := math.Floor(span.Ratio(drill.Scale(1.1)) + 1e-9) // n - 1
	if between > 999 {
		return Chain{}, fail.OutOfRange("drill", drill, "one that needs up to 1000 holes")
	}
	c := Chain{Drill: drill, Refs: source.Of(source.Practice())}
	first := width.Scale(0.5)
	if between < 1 {
		c.Centres = []units.Length{length.Scale(0.5)}
		return c, nil
	}
	c.Pitch = span.Scale(1 / between) // p = (L - w)/(n - 1)
	for i := range int(between) + 1 {
		c.Centres = append(c.Centres, first.Add(span.Scale(float64(i)/between)))
	}
	return c, nil
}
