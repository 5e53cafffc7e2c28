package assembly

import (
	"math"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A RingGap is the gap between the ends of a piston ring in its bore.
type RingGap struct {
	Bore           units.Length
	Ring, Cylinder material.Material
	Room           units.Temperature // at which the gap is measured
	RingHot        units.Temperature
	CylinderHot    units.Temperature
	Cold           units.Length // gap at room temperature, ring square in the bore; zero when none is filed yet
}

// A RingGapResult says how far the gap closes.
type RingGapResult struct {
	Closes   units.Length // below zero the gap opens
	Hot      units.Length // gap at work; below zero the ring has butted, and without a gap it is what closes
	Least    units.Length // gap that just does not butt in the worst case, ring hot and cylinder still cold
	Findings finding.List
	Refs     source.Refs `json:",omitzero"` // of the expansions
}

// Solve returns how far the gap closes when ring and cylinder warm up:
//
//	closes = pi * d * (alpha_r * (T_r - T0) - alpha_c * (T_c - T0))
//
//	d       the bore
//	alpha   mean expansion of ring and cylinder
//	T       their temperatures at work
//	T0      room temperature
//
// It is nothing when both share material and temperature, whatever the
// temperature is: rules in thou per inch differ by a factor of eight because
// they stand for different differences. A gap wider than all of them leaks. Source: linear expansion of the
// circumference. See the Example.
func (g RingGap) Solve() (RingGapResult, error) {
	if err := fail.Above(fault.Named("bore", g.Bore)); err != nil {
		return RingGapResult{}, err
	}
	if err := checkHeat(g.Room,
		heated{"ring", g.Ring, g.RingHot}, heated{"cylinder", g.Cylinder, g.CylinderHot}); err != nil {
		return RingGapResult{}, err
	}
	if err := fail.Within(fault.Named("gap at room temperature", g.Cold)); err != nil {
		return RingGapResult{}, err
	}
	if g.Cold.Sign() < 0 {
		return RingGapResult{}, fail.OutOfRange("gap at room temperature", g.Cold, "zero or more")
	}
	grows := func(m material.Material, hot units.Temperature) units.Length { // linear expansion of the circumference
		return g.Bore.Scale(math.Pi * float64(m.Expansion.Value) * float64(hot.Sub(g.Room)))
	}
	ring, cylinder := grows(g.Ring, g.RingHot), grows(g.Cylinder, g.CylinderHot)
	out := RingGapResult{
		Closes: ring.Sub(cylinder),
		Least:  longest(units.Length{}, ring, ring.Sub(cylinder)),
		Refs:   valuesOf(g.Ring.Expansion.Refs, g.Cylinder.Expansion.Refs),
	}
	out.Hot = g.Cold.Sub(out.Closes)
	remedies := []string{"File the gap to " + both(out.Least) + " cold at the least."}
	switch list := &out.Findings; {
	case g.Cold.IsZero():
		said(list, RingGapMissing, finding.Note, "No gap at room temperature was given.").Remedies = remedies
	case out.Hot.Sign() <= 0:
		said(list, RingButts, finding.Fails,
			"The ring butts at work and will score the bore or break.").Remedies = remedies
	case g.Cold.Cmp(out.Least) < 0:
		said(list, RingButtsEarly, finding.Caution,
			"The ring butts while the cylinder is still cold.").Remedies = remedies
	}
	rules, refs, err := fits.RuleSpan("ring gap", g.Bore)
	if err != nil {
		return RingGapResult{}, err
	}
	if most := longest(rules.Max, out.Least); g.Cold.Cmp(most) > 0 {
		f := said(&out.Findings, RingGapWide, finding.Caution, "The gap of %s never closes and is wider than any rule of practice "+
			"gives this bore, %s at the most: steam passes through it.", both(g.Cold), both(rules.Max))
		f.Remedies = []string{"Make the next ring with " + both(out.Least) + " at the least, and a little to spare."}
		f.Refs = refs
	}
	return out, nil
}
