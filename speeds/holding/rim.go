package holding

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// What [CheckRim] finds, one of the two.
const (
	RimTooFast     finding.Code = "rim-too-fast"     // Danger
	RimWithinLimit finding.Code = "rim-within-limit" // Note
)

// A RimLimit is a highest rim speed of a one-piece wheel.
type RimLimit struct {
	Name  string
	Speed units.Speed
	Refs  source.Refs
}

// RimLimits returns what we have for cast iron, the lowest first; their Refs say
// which were published and which nobody reviewed. They run from 5000 to 6140 ft/min.
func RimLimits() []RimLimit {
	var all []RimLimit
	for _, row := range rimTable.Rows() {
		all = append(all, row.limit)
	}
	slices.SortStableFunc(all, func(a, b RimLimit) int { return cmp.Compare(a.Speed, b.Speed) })
	return all
}

// rimMargin is taken of the published limit: a tenth off the speed is a fifth off
// the stress. It is ours, for an engine that runs away when its load comes off
// and a counter that is read by eye.
const rimMargin = 0.9

// RimLimitFor returns the highest rim speed of a one-piece wheel of a metal:
//
//	grey cast iron  v = 0.9 * v0
//	other metals    v = 0.9 * v0 * min(1, sqrt((R / density) / (R0 / density0)))
//
//	v0             5280 ft/min, the inspectors' rule of 1921 for cast iron
//	0.9            our margin: a tenth off the speed, a fifth off the stress
//	R              yield of the weakest condition that we have
//	R0, density0   tensile strength of the weakest grey iron, and its density
//
// No limit was found in print for a metal other than cast iron. A thin ring is
// stressed by density * v^2 (Carvill, p. 15), so that a weaker or heavier metal
// gets less, and keeps the reserve of iron; a stronger one gets no more. A metal
// without a figure for strength or density is refused, and named with those that
// have both. See the Example.
func RimLimitFor(metal material.Material) (RimLimit, error) {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		return RimLimit{}, err
	}
	var limit RimLimit
	for _, row := range rimTable.Rows() {
		if row.chosen {
			limit = row.limit
		}
	}
	limit.Name += ", less a tenth"
	limit.Speed *= rimMargin
	if isGreyIron(metal) {
		return limit, nil
	}
	if !metal.Yield.Known() || !metal.Density.Known() {
		return RimLimit{}, fail.OutOfRange("metal of the wheel", cmp.Or(metal.Name, "none"),
			"a metal whose strength and density we have: "+strings.Join(rimMetals(), ", "))
	}
	limit.Name += ", for cast iron"
	own := float64(metal.Yield.Value) / float64(metal.Density.Value)
	of := float64(iron.Tensile.Value) / float64(CastIronDensity)
	limit.Speed *= units.Speed(min(1, math.Sqrt(own/of))) // Carvill, p. 15: v = sqrt(stress/density)
	if own < of {
		limit.Name += fmt.Sprintf(", brought down to the strength of %s", metal.Name)
	}
	limit.Refs = limit.Refs.And(metal.Yield.Refs.First(), metal.Density.Refs.First(), iron.Tensile.Refs.First())
	return limit, nil
}

// isGreyIron reports whether the published limits are for this metal.
func isGreyIron(m material.Material) bool {
	return m.Name == "cast iron" || m.Name == "cast iron, skin on"
}

// rimMetals returns the names of the metals that [RimLimitFor] answers for.
func rimMetals() []string {
	var all []string
	for _, m := range material.All() {
		if isGreyIron(m) || m.Yield.Known() && m.Density.Known() {
			all = append(all, m.Name)
		}
	}
	return all
}

// A RimCheck is the state of the rim of a wheel at a speed.
type RimCheck struct {
	Speed       units.Speed           // of the rim
	Stress      units.Pressure        // hoop stress of a thin ring
	Max         units.RotationalSpeed // at which the rim is at its limit
	Limit       RimLimit              // of its metal
	Findings    finding.List          // RimTooFast or RimWithinLimit
	Precautions []finding.Precaution
	Refs        source.Refs
}

// CheckRim looks at the rim of a one-piece wheel of a metal at a speed against
// [RimLimitFor] that metal, 4752 ft/min (24.1 m/s) for cast iron. The hoop stress
// is then 4.2 MPa, a thirtieth of what the weakest grey iron stands; spokes that
// bend the rim between them, keyways, and flaws that nobody sees use up the rest.
// Diameters and speeds above zero. See the Example.
func CheckRim(metal material.Material, diameter units.Length, n units.RotationalSpeed) (RimCheck, error) {
	v, err := rimSpeed(diameter, n)
	if err != nil {
		return RimCheck{}, err
	}
	c := RimCheck{Speed: v, Precautions: rimPrecautions()}
	if c.Limit, err = RimLimitFor(metal); err != nil {
		return RimCheck{}, err
	}
	density := metal.Density.Value
	if isGreyIron(metal) {
		density = CastIronDensity
	}
	if c.Stress, err = RingStress(density, v); err != nil {
		return RimCheck{}, err
	}
	c.Refs = c.Limit.Refs
	c.Max = units.RotationalSpeed(2 * float64(c.Limit.Speed) / diameter.Metres()) // n = v/(pi d), as 2 v/d
	at := fmt.Sprintf("at %.1f m/s (%.0f ft/min)", float64(v), v.In(units.FootPerMinute))
	limit := fmt.Sprintf("the limit of %.1f m/s (%.0f ft/min: %s)", float64(c.Limit.Speed),
		c.Limit.Speed.In(units.FootPerMinute), c.Limit.Name)
	stress := fmt.Sprintf("hoop stress %.3f MPa.", c.Stress.In(units.Megapascal))
	f := finding.Finding{Code: RimWithinLimit, Text: "The rim runs " + at + ", within " + limit + "; " + stress, Refs: c.Refs}
	if v > c.Limit.Speed {
		f.Code, f.Severity = RimTooFast, finding.Danger
		f.Text = fmt.Sprintf("The wheel may fly apart: its rim runs %s, above %s, not over %.0f rev/min with this wheel; %s",
			at, limit, math.Floor(c.Max.In(units.RevPerMinute)), stress)
		f.Remedies = []string{"Do not run it at that speed: run it slower, with a governor or a load that cannot come off.", "Make the wheel smaller."}
	}
	c.Findings = finding.List{f}
	return c, nil
}

func rimPrecautions() []finding.Precaution {
	return []finding.Precaution{
		{Code: "loose-parts-fly-first", Text: "On a small engine what is loose flies long before the rim bursts: a grub screw or key of the wheel," +
			" a crank pin, and in the lathe the casting off its faceplate. Pull on each of them before every run.", Ref: source.Practice()},
		{Code: "plane-of-the-wheel", Text: "Stand out of the plane of the wheel, and run a new one up behind a guard.", Ref: source.Practice()},
		{Code: "wheel-of-unknown-iron", Text: "A wheel built up of segments, cracked, repaired or of unknown iron " +
			"stands much less than the limits.", Ref: source.Practice()},
	}
}

func rimSpeed(diameter units.Length, n units.RotationalSpeed) (units.Speed, error) {
	if diameter.Sign() <= 0 {
		return 0, fail.OutOfRange("diameter", diameter, "above zero")
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return 0, err
	}
	return units.Speed(float64(n) * diameter.Metres() / 2), nil // v = pi d n, as w d/2
}
