package fits

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// Growth returns by how much a length or a diameter of a material grows when it
// is warmed by a difference of temperature, alpha x length x difference; below
// zero when it is cooled. A bore grows as the material round it would.
//
// The mean expansion of [material.Material] holds from about 0 to 200 degrees C.
// A material without one, a negative length and a difference that is not finite
// or beyond 1000 K are errors of type [*units.ArgumentError].
func Growth(length units.Length, m material.Material, difference units.TemperatureDifference) (units.Length, error) {
	if err := expands("part", m); err != nil {
		return units.Length{}, err
	}
	if length.Sign() < 0 {
		return units.Length{}, &units.ArgumentError{Package: "fits", Field: "length", Value: length.String(), Accepted: "zero or more", Err: units.ErrOutOfRange}
	}
	if !(difference >= -1000 && difference <= 1000) {
		return units.Length{}, &units.ArgumentError{Package: "fits", Field: "difference of temperature", Value: difference.String(), Accepted: "from -1000 K to 1000 K", Err: units.ErrOutOfRange}
	}
	return length.Scale(float64(m.Expansion.Value) * float64(difference)), nil
}

// A Running is a part that moves in another and gets hot: piston in cylinder,
// spindle in bush, shaft in bearing.
type Running struct {
	Diameter     units.Length
	Inner, Outer material.Material // of the piston or shaft, and of the cylinder or bush
	Room         units.Temperature // at which the clearance is measured
	InnerHot     units.Temperature // of the inner part at work
	OuterHot     units.Temperature // of the outer part at work
	Cold         units.Length      // clearance at room temperature, on the diameter; zero when it is asked for
	Least        units.Length      // clearance that must be left at the worst, on the diameter
}

// A RunningResult is the clearance in the states that the engine goes through.
// Below zero the parts have seized.
type RunningResult struct {
	Cold      units.Length // as measured; on air the engine runs with this
	BothHot   units.Length // at their working temperatures
	InnerOnly units.Length // inner part hot, outer part still at room temperature: the worst, just after starting
	OuterOnly units.Length // outer part hot, inner part still cold: the widest

	// Needed is the clearance at room temperature that leaves Least at the
	// worst, with the expansions in use; NeededHigh with the least favourable of
	// the published ones.
	Needed, NeededHigh units.Length
	Findings           []Finding
}

// Solve returns the clearance cold and hot:
//
//	both hot   c - d (alpha_i (T_i - T0) - alpha_o (T_o - T0))
//	inner hot  c - d alpha_i (T_i - T0)
//	outer hot  c + d alpha_o (T_o - T0)
//	needed     least + the greatest closing of the three
//
// with the diameter d, the clearance c at room temperature T0, the working
// temperatures T_i and T_o and the mean expansions alpha of the inner and the
// outer part. An aluminium piston in an iron cylinder that is right on air can
// seize within seconds of the steam being turned on: the piston is hot long
// before the cylinder. Source: linear expansion; that the worst case is the hot
// part in the cold one is common practice.
//
// Missing diameter, materials or temperatures are errors of type [*units.ArgumentError].
func (r Running) Solve() (RunningResult, error) {
	if err := positive("diameter", r.Diameter); err != nil {
		return RunningResult{}, err
	}
	if err := checkHeat(r.Room, heated{"inner part", r.Inner, r.InnerHot}, heated{"outer part", r.Outer, r.OuterHot}); err != nil {
		return RunningResult{}, err
	}
	for _, l := range []struct {
		field string
		value units.Length
	}{{"clearance at room temperature", r.Cold}, {"least clearance", r.Least}} {
		if l.value.Sign() < 0 {
			return RunningResult{}, &units.ArgumentError{Package: "fits", Field: l.field, Value: l.value.String(), Accepted: "zero or more", Err: units.ErrOutOfRange}
		}
	}
	innerRise, outerRise := float64(r.InnerHot.Sub(r.Room)), float64(r.OuterHot.Sub(r.Room))
	inner := func(a units.Expansivity) units.Length { return r.Diameter.Scale(float64(a) * innerRise) }
	outer := func(a units.Expansivity) units.Length { return r.Diameter.Scale(float64(a) * outerRise) }
	// The clearance closes by what the inner part grows, and by what the outer one
	// shrinks if it is chilled; that the outer one grows as well helps only once it
	// is hot.
	needed := func(in, out units.Expansivity) units.Length {
		return r.Least.Add(longest(units.Length{}, inner(in))).Add(longest(units.Length{}, outer(out).Neg()))
	}
	in, bore := inner(r.Inner.Expansion.Value), outer(r.Outer.Expansion.Value)
	out := RunningResult{
		Cold: r.Cold, BothHot: r.Cold.Sub(in).Add(bore), InnerOnly: r.Cold.Sub(in), OuterOnly: r.Cold.Add(bore),
		Needed:     needed(r.Inner.Expansion.Value, r.Outer.Expansion.Value),
		NeededHigh: needed(max(r.Inner.Expansion.Value, r.Inner.Expansion.Max), max(r.Outer.Expansion.Value, r.Outer.Expansion.Max)),
	}

	if !r.Cold.IsZero() {
		for _, state := range []struct {
			name      string
			clearance units.Length
		}{{"with both parts at their working temperatures", out.BothHot}, {"with the inner part " + warmth(innerRise) + " and the outer one still at room temperature", out.InnerOnly}, {"with the outer part " + warmth(outerRise) + " and the inner one still at room temperature", out.OuterOnly}} {
			switch {
			case state.clearance.Sign() <= 0:
				out.Findings = append(out.Findings, Finding{Stop, fmt.Sprintf("it seizes %s: the clearance is gone and %s more is missing; it needs %s cold", state.name, both(state.clearance.Neg()), both(out.Needed))})
			case state.clearance.Cmp(r.Least) < 0:
				out.Findings = append(out.Findings, Finding{Caution, fmt.Sprintf("%s is left %s, less than the %s wanted; it needs %s cold", both(state.clearance), state.name, both(r.Least), both(out.Needed))})
			}
		}
		if out.BothHot.Cmp(r.Cold) < 0 {
			out.Findings = append(out.Findings, Finding{Note, "on air it runs with the cold clearance; that it runs on air does not show that it will on steam"})
		}
	}
	return out, nil
}

// A heated is a part at its working temperature.
type heated struct {
	name     string
	material material.Material
	at       units.Temperature
}

// checkHeat refuses parts whose expansion or temperature is not known.
func checkHeat(room units.Temperature, parts ...heated) error {
	if err := temperature("room temperature", room); err != nil {
		return err
	}
	for _, p := range parts {
		if err := expands(p.name, p.material); err != nil {
			return err
		}
		if err := temperature("working temperature of the "+p.name, p.at); err != nil {
			return err
		}
	}
	return nil
}

func warmth(rise float64) string {
	if rise < 0 {
		return "chilled"
	}
	return "hot"
}

func longest(lengths ...units.Length) units.Length {
	out := lengths[0]
	for _, l := range lengths[1:] {
		if l.Cmp(out) > 0 {
			out = l
		}
	}
	return out
}

// A RingGap is the gap between the ends of a piston ring in its bore.
type RingGap struct {
	Bore           units.Length
	Ring, Cylinder material.Material
	Room           units.Temperature // at which the gap is measured
	RingHot        units.Temperature
	CylinderHot    units.Temperature
	Cold           units.Length // gap at room temperature, ring square in the bore; zero when the least is asked for
}

// A RingGapResult says how far the gap closes.
type RingGapResult struct {
	Closes   units.Length // below zero the gap opens
	Hot      units.Length // gap at work
	Least    units.Length // gap that just does not butt in the worst case, ring hot and cylinder still cold
	Findings []Finding
}

// Solve returns how far the gap closes when ring and cylinder warm up:
//
//	closes = pi d (alpha_r (T_r - T0) - alpha_c (T_c - T0))
//
// It is nothing when both share material and temperature, whatever the
// temperature is: rules in thou per inch differ by a factor of eight because
// they stand for different differences. Source: linear expansion of the
// circumference. Missing bore, materials or temperatures are errors of
// type [*units.ArgumentError].
func (g RingGap) Solve() (RingGapResult, error) {
	if err := positive("bore", g.Bore); err != nil {
		return RingGapResult{}, err
	}
	if err := checkHeat(g.Room, heated{"ring", g.Ring, g.RingHot}, heated{"cylinder", g.Cylinder, g.CylinderHot}); err != nil {
		return RingGapResult{}, err
	}
	if g.Cold.Sign() < 0 {
		return RingGapResult{}, &units.ArgumentError{Package: "fits", Field: "gap at room temperature", Value: g.Cold.String(), Accepted: "zero or more", Err: units.ErrOutOfRange}
	}
	ring := g.Bore.Scale(math.Pi * float64(g.Ring.Expansion.Value) * float64(g.RingHot.Sub(g.Room)))
	cylinder := g.Bore.Scale(math.Pi * float64(g.Cylinder.Expansion.Value) * float64(g.CylinderHot.Sub(g.Room)))
	out := RingGapResult{Closes: ring.Sub(cylinder), Least: longest(units.Length{}, ring, ring.Sub(cylinder))}
	out.Hot = g.Cold.Sub(out.Closes)
	if g.Cold.IsZero() {
		return out, nil
	}
	switch {
	case out.Hot.Sign() <= 0:
		out.Findings = append(out.Findings, Finding{Stop, "the ring butts at work and will score the bore or break; the gap needs " + both(out.Least) + " cold"})
	case g.Cold.Cmp(out.Least) < 0:
		out.Findings = append(out.Findings, Finding{Caution, "the ring butts while the cylinder is still cold; the gap needs " + both(out.Least) + " cold"})
	}
	return out, nil
}
