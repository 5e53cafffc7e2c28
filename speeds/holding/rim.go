package holding

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [CheckRim] finds, one of the two.
const (
	RimTooFast     finding.Code = "rim-too-fast"     // Danger
	RimWithinLimit finding.Code = "rim-within-limit" // Note
)

// A RimLimit is somebody's highest rim speed of a one-piece cast-iron wheel.
type RimLimit struct {
	Name  string
	Speed units.Speed
	Refs  source.Refs
}

// RimLimits returns the limits that we have, the lowest first; their Refs say
// which were published and which nobody reviewed. They run from 5000 to 6000 ft/min.
func RimLimits() []RimLimit {
	var all []RimLimit
	for _, row := range rimTable.Rows() {
		all = append(all, row.limit)
	}
	slices.SortStableFunc(all, func(a, b RimLimit) int { return cmp.Compare(a.Speed, b.Speed) })
	return all
}

// A RimCheck is the state of the rim of a wheel at a speed.
type RimCheck struct {
	Speed       units.Speed           // of the rim
	Stress      units.Pressure        // hoop stress of a thin ring
	Max         units.RotationalSpeed // at which the rim is at the lowest limit we have
	Limit       RimLimit              // that limit
	Findings    finding.List          // RimTooFast or RimWithinLimit
	Precautions []finding.Precaution
	Refs        source.Refs
}

// CheckRim looks at the rim of a one-piece cast-iron wheel at a speed against
// the lowest limit that we have, 5000 ft/min. The hoop stress is then 4.6
// MPa, some thirtieth of what sound grey iron stands; spokes that bend the rim
// between them, keyways, and flaws that nobody sees use up the rest. Diameters
// and speeds above zero. See the Example.
func CheckRim(diameter units.Length, n units.RotationalSpeed) (RimCheck, error) {
	v, err := rimSpeed(diameter, n)
	if err != nil {
		return RimCheck{}, err
	}
	c := RimCheck{Speed: v, Precautions: rimPrecautions()}
	if c.Stress, err = RingStress(CastIronDensity, v); err != nil {
		return RimCheck{}, err
	}
	for _, row := range rimTable.Rows() {
		if row.chosen {
			c.Limit = row.limit
		}
	}
	c.Refs = c.Limit.Refs
	c.Max = units.RotationalSpeed(2 * float64(c.Limit.Speed) / diameter.Metres()) // n = v/(pi d), as 2 v/d
	at := fmt.Sprintf("at %.1f m/s (%.0f ft/min)", float64(v), v.In(units.FootPerMinute))
	limit := fmt.Sprintf("the lowest limit we have of %.0f ft/min (%s)", c.Limit.Speed.In(units.FootPerMinute), c.Limit.Name)
	stress := fmt.Sprintf("hoop stress %.2f MPa.", c.Stress.In(units.Megapascal))
	f := finding.Finding{Code: RimWithinLimit, Text: "The rim runs " + at + ", within " + limit + "; " + stress, Refs: c.Refs}
	if v > c.Limit.Speed {
		f.Code, f.Severity = RimTooFast, finding.Danger
		f.Text = fmt.Sprintf("The wheel may fly apart: its rim runs %s, above %s, not over %.0f rev/min with this wheel; %s",
			at, limit, math.Floor(c.Max.In(units.RevPerMinute)), stress)
		f.Remedies = []string{"Run it slower.", "Make the wheel smaller, or of steel."}
	}
	c.Findings = finding.List{f}
	return c, nil
}

func rimPrecautions() []finding.Precaution {
	return []finding.Precaution{
		{Code: "plane-of-the-wheel", Text: "Stand out of the plane of the wheel, and run a new one up behind a guard.", Ref: source.Practice()},
		{Code: "wheel-of-unknown-iron", Text: "A wheel built up of segments, cracked, repaired or of unknown iron stands much less than the limits.", Ref: source.Practice()},
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
