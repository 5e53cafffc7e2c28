package holding

import (
	"embed"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

var rimTable = table.Table[rimRow]{FS: &tables, Name: "tables/rim_limits.csv", Row: readRim}

// A RimLimit is somebody's highest rim speed of a one-piece cast-iron wheel.
type RimLimit struct {
	Name  string
	Speed units.Speed
	Ref   source.Ref
}

type rimRow struct {
	limit  RimLimit
	chosen bool
}

func readRim(r *table.Row) rimRow {
	row := rimRow{limit: RimLimit{r.Text("name"), units.Speed(r.Float("limit")) * units.FootPerMinute, r.Ref()}, chosen: r.Optional("default") == "yes"}
	if row.limit.Speed <= 0 {
		r.Complain("want a speed above zero")
	}
	return row
}

// RimLimits returns the published limits, the lowest first. They run from 5000
// to 6000 ft/min.
func RimLimits() []RimLimit {
	var all []RimLimit
	for _, row := range rimTable.Rows() {
		all = append(all, row.limit)
	}
	slices.SortStableFunc(all, func(a, b RimLimit) int { return int(math.Copysign(1, float64(a.Speed-b.Speed))) })
	return all
}

// A RimCheck is the state of the rim of a wheel at a speed.
type RimCheck struct {
	Speed  units.Speed           // of the rim
	Stress units.Pressure        // hoop stress of a thin ring
	Most   units.RotationalSpeed // at which the rim is at the lowest published limit
	Limit  RimLimit              // that limit
	Safe   bool                  // the rim is not above it
	Text   string
}

// CastIronDensity is what the rim stress of [CheckRim] goes by: 7200 kg/m3, or
// 0.26 lb/in3, as the pulley text's coefficient needs (its print has 0.20).
const CastIronDensity = 7200 * units.KilogramPerCubicMetre

// CheckRim looks at the rim of a one-piece cast-iron wheel at a speed and
// refuses above the lowest of the published limits, 5000 ft/min. The hoop stress
// is then 4.6 MPa, some thirtieth of what sound grey iron stands; spokes that bend
// the rim between them, keyways, and flaws that nobody sees use up the rest.
func CheckRim(diameter units.Length, n units.RotationalSpeed) (RimCheck, error) {
	v, err := rimSpeed(diameter, n)
	if err != nil {
		return RimCheck{}, err
	}
	c := RimCheck{Speed: v}
	if c.Stress, err = RingStress(CastIronDensity, v); err != nil {
		return RimCheck{}, err
	}
	for _, row := range rimTable.Rows() {
		if row.chosen {
			c.Limit = row.limit
		}
	}
	c.Most = units.RotationalSpeed(2 * float64(c.Limit.Speed) / diameter.Metres())
	c.Safe = v <= c.Limit.Speed
	verdict, most := "within", ""
	if !c.Safe {
		verdict, most = "above", fmt.Sprintf(", not over %.0f rev/min with this wheel", math.Floor(float64(c.Most/units.RevPerMinute)))
	}
	c.Text = fmt.Sprintf("rim at %.1f m/s (%.0f ft/min), %s the lowest published limit of %.0f ft/min (%s)%s; hoop stress %.2f MPa", float64(v), float64(v/units.FootPerMinute), verdict, float64(c.Limit.Speed/units.FootPerMinute), c.Limit.Name, most, float64(c.Stress/units.Megapascal))
	return c, nil
}

func rimSpeed(diameter units.Length, n units.RotationalSpeed) (units.Speed, error) {
	if diameter.Sign() <= 0 {
		return 0, bad("diameter", diameter.String(), "above zero", units.ErrOutOfRange)
	}
	if err := positive("speed", n); err != nil {
		return 0, err
	}
	return units.Speed(float64(n) * diameter.Metres() / 2), nil
}

// RingStress returns the hoop stress of a thin ring that runs at a rim speed:
//
//	stress = density v^2
//
// whatever its section and radius (Carvill, p. 15; for cast iron 0.097 v^2 psi
// with v in ft/s). A reference table that prints density w^2 r has lost a square:
// it is density w^2 r^2.
// A density or speed that is not above zero is an [*units.ArgumentError].
func RingStress(density units.Density, v units.Speed) (units.Pressure, error) {
	if err := positive("density", density); err != nil {
		return 0, err
	}
	if err := positive("rim speed", v); err != nil {
		return 0, err
	}
	return units.Pressure(float64(density) * float64(v) * float64(v)), nil
}

// DiscStress returns the stress at the centre of a plain solid disc, the highest
// in it, by Carvill (p. 15, 1.2.7):
//
//	stress = density v^2 (3 + m)/8
//
// with the rim speed v and Poisson's ratio m, 0 to 0.5 (0.27 for grey iron). The
// smallest hole at the centre doubles it. Other arguments are an
// [*units.ArgumentError].
func DiscStress(density units.Density, v units.Speed, poisson float64) (units.Pressure, error) {
	ring, err := RingStress(density, v)
	if err != nil {
		return 0, err
	}
	if !(poisson >= 0 && poisson <= 0.5) {
		return 0, bad("Poisson's ratio", fmt.Sprint(poisson), "0 to 0.5", units.ErrOutOfRange)
	}
	return ring * units.Pressure((3+poisson)/8), nil
}

func bad(field, value, accepted string, err error) error {
	return &units.ArgumentError{Package: "holding", Field: field, Value: value, Accepted: accepted, Err: err}
}

func positive[Q arg.Quantity](field string, v Q) error { return arg.Positive("holding", field, v) }
