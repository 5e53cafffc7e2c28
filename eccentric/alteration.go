package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// An Alteration is what has been put in, or made longer, between the crankshaft
// and the cylinder since the sizes of an engine were drawn or measured. It moves
// the piston between its covers and the valve on its ports, away from the crank
// where it is above zero:
//
//	piston by  Shims + ConnectingRod
//	valve by   (Shims + EccentricRod) * lever ratio, 1 for none
//
// The fulcrum of a lever is taken to stay with the cylinder.
type Alteration struct {
	Shims         units.Length // under the main bearings: the crank comes nearer to the cylinder; negative: taken out
	ConnectingRod units.Length // how much longer it is made; negative: shorter
	EccentricRod  units.Length // the same
}

// IsZero reports whether nothing has been altered.
func (a Alteration) IsZero() bool { return a == Alteration{} }

// Undone returns the alteration that takes this one back.
func (a Alteration) Undone() Alteration {
	return Alteration{Shims: a.Shims.Neg(), ConnectingRod: a.ConnectingRod.Neg(), EccentricRod: a.EccentricRod.Neg()}
}

// validate refuses what sums of lengths might not hold.
func (a Alteration) validate() error {
	for _, part := range []struct {
		field string
		size  units.Length
	}{
		{"shims", a.Shims}, {"change of the connecting rod", a.ConnectingRod},
		{"change of the eccentric rod", a.EccentricRod},
	} {
		if math.Abs(count(part.size)) > kernel.Longest {
			return fail.OutOfRange(part.field, part.size, "up to 1 km either way")
		}
	}
	return nil
}

// Altered returns the gear after an alteration: its valve moved and its rods
// longer. An infinitely long rod stays one, but what drives through it is moved
// all the same. What does not move is the advance: the sheave stands where it
// stood on the shaft. It fails where [Gear.Validate] does, before or after. It is
// geometry. See the Example.
func (g Gear) Altered(a Alteration) (Gear, error) {
	if err := g.Validate(); err != nil {
		return Gear{}, err
	}
	if err := a.validate(); err != nil {
		return Gear{}, err
	}
	away := a.Shims.Add(a.EccentricRod)
	if g.LeverRatio != 0 {
		away = away.Scale(g.LeverRatio)
	}
	g.Valve.Offset = g.Valve.Offset.Sub(away)
	var problems [2]error
	g.ConnectingRod, problems[0] = g.ConnectingRod.longerBy(a.ConnectingRod, "change of the connecting rod")
	g.EccentricRod, problems[1] = g.EccentricRod.longerBy(a.EccentricRod, "change of the eccentric rod")
	for _, err := range problems {
		if err != nil {
			return Gear{}, err
		}
	}
	if err := g.Validate(); err != nil {
		return Gear{}, err
	}
	return g, nil
}

// longerBy returns the rod made longer.
func (r Rod) longerBy(by units.Length, field string) (Rod, error) {
	if r.infinite {
		return r, nil
	}
	l := r.length.Add(by)
	if l.Sign() <= 0 {
		return r, fail.OutOfRange(field, by, "what leaves something of the rod, "+r.String())
	}
	return RodOf(l), nil
}
