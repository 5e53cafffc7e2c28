package joint

import (
	"cmp"
	"embed"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A NutFactor is the K of a torque formula for one condition of the thread.
type NutFactor struct {
	Condition string
	Low, High float64 // equal where the source gives one value
	Ref       source.Ref
}

//go:embed tables/*.csv
var files embed.FS

var nutFactors = table.Table[NutFactor]{FS: &files, Name: "tables/nut_factor.csv", Row: func(r *table.Row) NutFactor {
	f := NutFactor{Condition: r.Text("condition"), Low: r.Float("low"), High: r.Float("high"), Ref: r.Ref()}
	if !(f.Low > 0 && f.Low <= f.High && f.High < 1) {
		r.Complain("K from %g to %g", f.Low, f.High)
	}
	return f
}}

// NutFactors returns the published values of K. They disagree: zinc plate is 0.20
// in one book and 0.295 in another, and within one condition the preload still
// scatters: ten lubricated bolts came out at 30.3 to 40.5 kN for the same torque
// (Shigley's Mechanical Engineering Design, 9th edition, table 8-14, p. 439).
func NutFactors() []NutFactor { return slices.Clone(nutFactors.Rows()) }

// Torque returns the torque that gives a preload.
//
//	T = K F d
//
// K is the nut factor, F the preload and d the nominal diameter of the thread.
// All are above zero, K below 1. Source: Shigley's Mechanical Engineering
// Design, 9th edition, chapter 8, p. 439. Anything else is an
// [*units.ArgumentError]. See the example.
func Torque(k float64, preload units.Force, diameter units.Length) (units.Torque, error) {
	if err := cmp.Or(checkTorque(k, diameter), fault.Positive(fail, "preload", preload)); err != nil {
		return 0, err
	}
	return units.Torque(k * float64(preload) * diameter.Metres()), nil
}

// PreloadFor returns the preload that a torque gives: between the values for the
// two nut factors, which is how little a torque says about it.
//
//	F = T/(K d)
//
// T is the torque, K the lower and the upper nut factor and d the nominal diameter
// of the thread; all above zero, K below 1 and the lower at most the upper.
// Anything else is an error. Source: as [Torque].
func PreloadFor(torque units.Torque, low, high float64, diameter units.Length) (least, most units.Force, err error) {
	if low > high {
		return 0, 0, fail.OutOfRange("lower nut factor", low, "at most the upper one")
	}
	for _, k := range []float64{low, high} {
		if err := cmp.Or(checkTorque(k, diameter), fault.Positive(fail, "torque", torque)); err != nil {
			return 0, 0, err
		}
	}
	f := float64(torque) / diameter.Metres()
	return units.Force(f / high), units.Force(f / low), nil
}

func checkTorque(k float64, diameter units.Length) error {
	if err := cmp.Or(fault.Finite(fail, "nut factor K", k), fail.Above(fault.Named("diameter of the thread", diameter))); err != nil {
		return err
	}
	if k <= 0 || k >= 1 {
		return fail.OutOfRange("nut factor K", k, "above 0 and below 1, usually 0.1 to 0.3")
	}
	return nil
}
