package marking

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A PortFace is the three ports of a cylinder, to be milled with one cutter.
type PortFace struct {
	Ports  eccentric.Ports
	Cutter units.Length // its diameter, no larger than the narrowest port
}

// A PortCut is how one port is milled: where the middle of the spindle goes, counted
// from the middle of the exhaust port, above zero towards the crank.
type PortCut struct {
	Port     string       // "head end", "exhaust" or "crank end"
	From, To units.Length // along the travel, at the two sides; the same where the cutter is as wide as the port
	Across   units.Length // and to either side of the middle line, across the travel
	Low      units.Length // edges of the port itself
	High     units.Length
	Corner   units.Length // radius that the cutter leaves in the corners
	Full     bool         // the cutter is as wide as the port: one way along its middle
	Refs     source.Refs
}

// Cuts returns the settings for each port, from the head end to the crank end:
//
//	from   = low edge + c/2
//	to     = high edge - c/2
//	across = length/2 - c/2
//
//	c  cutter
//
// The exhaust port lies about zero, a steam port beyond it and the bar. A cutter up to
// the narrowest port and to the length of the ports. Geometry. See the Example.
func (f PortFace) Cuts() ([]PortCut, error) {
	p := f.Ports
	if err := fail.Above(fault.Named("steam port", p.Steam), fault.Named("bar", p.Bar), fault.Named("exhaust port", p.Exhaust),
		fault.Named("length of the ports", p.Length), fault.Named("cutter", f.Cutter)); err != nil {
		return nil, err
	}
	half, radius := p.Exhaust.Scale(0.5), f.Cutter.Scale(0.5)
	headSteam, headBar := p.At(eccentric.HeadEnd)
	crankSteam, crankBar := p.At(eccentric.CrankEnd)
	head, crank := half.Add(headBar), half.Add(crankBar)
	cuts := []PortCut{
		{Port: "head end", Low: head.Add(headSteam).Neg(), High: head.Neg()},
		{Port: "exhaust", Low: half.Neg(), High: half},
		{Port: "crank end", Low: crank, High: crank.Add(crankSteam)},
	}
	for i := range cuts {
		c := &cuts[i]
		width := c.High.Sub(c.Low)
		if f.Cutter.Cmp(width) > 0 || f.Cutter.Cmp(p.Length) > 0 {
			return nil, fail.OutOfRange("cutter", f.Cutter,
				fmt.Sprintf("no wider than the port of the %s, %v by %v", c.Port, width, p.Length))
		}
		c.From, c.To, c.Across = c.Low.Add(radius), c.High.Sub(radius), p.Length.Scale(0.5).Sub(radius)
		c.Corner, c.Full = radius, f.Cutter == width
		c.Refs = source.Shared(&geometryRef)
	}
	return cuts, nil
}

// Depths returns the depths to which a slot is cut pass by pass, all passes alike and
// none deeper than the one that the cutter stands:
//
//	passes = ceil(depth / pass)
//
// The pass is that of cutting.SlotPassFor. Up to 1000 passes.
func Depths(depth, pass units.Length) ([]units.Length, error) {
	if err := fail.Above(fault.Named("depth of the ports", depth), fault.Named("depth of a pass", pass)); err != nil {
		return nil, err
	}
	n := math.Ceil(depth.Ratio(pass) - 1e-9) // passes = ceil(depth/pass)
	if n > 1000 {
		return nil, fail.OutOfRange("depth of the ports", depth, "up to 1000 passes, "+pass.Scale(1000).String())
	}
	var all []units.Length
	for i := range int(n) {
		all = append(all, depth.Scale(float64(i+1)/n))
	}
	return all, nil
}
