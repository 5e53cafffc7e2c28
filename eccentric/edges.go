package eccentric

import "github.com/valvechest/valvechest/units"

// edges are where the four edges of a valve in mid-travel stand, or of the ports
// that they work on, from the middle of the middle port and positive towards the
// crank: outer and inner at the head end, inner and outer at the crank end.
type edges [4]units.Length

const (
	outerHead = iota
	innerHead
	innerCrank
	outerCrank
)

// grows is 1 for an edge that goes towards the crank as its part gets longer, or
// as the cavity does, and -1 for one that goes away from it.
var grows = [4]int{outerHead: -1, innerHead: -1, innerCrank: 1, outerCrank: 1}

func (g *Gear) valveEdges() (e edges) {
	o, half := g.Valve.Offset, g.Valve.Length.Scale(0.5)
	middle, inner := o.Add(g.Valve.CavityOffset), g.Valve.Cavity.Scale(0.5)
	return edges{o.Sub(half), middle.Sub(inner), middle.Add(inner), o.Add(half)}
}

// setValve gives the gear the valve with these edges.
func (g *Gear) setValve(e edges) {
	g.Valve.Length, g.Valve.Cavity = e[outerCrank].Sub(e[outerHead]), e[innerCrank].Sub(e[innerHead])
	g.Valve.Offset = e[outerCrank].Add(e[outerHead]).Scale(0.5)
	g.Valve.CavityOffset = e[innerCrank].Add(e[innerHead]).Scale(0.5).Sub(g.Valve.Offset)
}

func (g *Gear) portEdges() (e edges) {
	middle := g.Ports.Exhaust.Scale(0.5)
	steam, bar := g.Ports.At(HeadEnd)
	e[innerHead] = middle.Add(bar).Neg()
	e[outerHead] = e[innerHead].Sub(steam)
	steam, bar = g.Ports.At(CrankEnd)
	e[innerCrank] = middle.Add(bar)
	e[outerCrank] = e[innerCrank].Add(steam)
	return e
}

// setPorts gives the gear a middle port of that width and cylinder ports with
// these edges.
func (g *Gear) setPorts(middle units.Length, e edges) {
	g.Ports.Exhaust = middle
	middle = middle.Scale(0.5)
	g.Ports.Bar, g.Ports.CrankBar = e[innerHead].Neg().Sub(middle), e[innerCrank].Sub(middle)
	g.Ports.Steam, g.Ports.CrankSteam = e[innerHead].Sub(e[outerHead]), e[outerCrank].Sub(e[innerCrank])
	if g.Ports.CrankBar == g.Ports.Bar {
		g.Ports.CrankBar = units.Length{}
	}
	if g.Ports.CrankSteam == g.Ports.Steam {
		g.Ports.CrankSteam = units.Length{}
	}
}
