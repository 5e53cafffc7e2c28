package strength

import (
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A NutFactor is the K of the torque formula for one condition of thread and
// face, and how far the pull may be from what it gives. The zero value is none.
type NutFactor struct {
	Condition string  // as its source names it: "zinc plated"
	K         float64 // torque = K * pull * nominal diameter; the middle where the source prints a range
	Min, Max  float64 // range of K that the source prints; both zero: none is known
	Scatter   float64 // share by which the pull may be more or less from bolt to bolt at one K
	Refs      source.Refs
}

// Validate says whether the factor is usable: K from 0.05 to 0.5, within its
// range if it has one, and a scatter from 0 to below 1.
func (k NutFactor) Validate() error {
	switch {
	case k.K == 0:
		return fail.Missing("nut factor", "K from 0.05 to 0.5, such as 0.2 for dry steel")
	case !(k.K >= 0.05 && k.K <= 0.5):
		return fail.OutOfRange("nut factor", k.K, "K from 0.05 to 0.5")
	case (k.Min != 0 || k.Max != 0) && !(k.Min > 0 && k.Min <= k.K && k.K <= k.Max && k.Max < 1):
		return fail.Wrong("range of the nut factor", []float64{k.Min, k.Max}, "K does not lie within it",
			"both ends above zero and below 1, or neither")
	case !(k.Scatter >= 0 && k.Scatter < 1):
		return fail.OutOfRange("scatter of the pull", k.Scatter, "a share from 0 to below 1, such as 0.35")
	}
	return nil
}

type scatter struct {
	lubricated bool
	share      float64
	ref        source.Ref
}

var scatters = table.Table[scatter]{FS: &files, Name: "tables/torque_scatter.csv", Row: func(r *table.Row) scatter {
	return scatter{yes(r, "lubricated"), r.Float("scatter"), r.Ref()}
}}

type nutFactorRow struct {
	factor     NutFactor
	lubricated bool
	ref        source.Ref
}

var nutFactorRows = table.Table[nutFactorRow]{FS: &files, Name: "tables/nut_factors.csv",
	Row: func(r *table.Row) nutFactorRow {
		low, high := r.Float("low"), r.Float("high")
		if !(low > 0 && low <= high && high < 1) {
			r.Complain("K from %g to %g", low, high)
		}
		row := nutFactorRow{NutFactor{Condition: r.Text("condition"), K: (low + high) / 2}, yes(r, "lubricated"), r.Ref()}
		if low < high {
			row.factor.Min, row.factor.Max = low, high
		}
		return row
	}}

func yes(r *table.Row, column string) bool {
	text := r.Text(column)
	if text != "yes" && text != "no" {
		r.Complain("%s is %q, not yes or no", column, text)
	}
	return text == "yes"
}

var nutFactors table.Once[[]NutFactor]

func readNutFactors() []NutFactor {
	rows := nutFactorRows.Rows()
	all := make([]NutFactor, len(rows))
	for i := range rows {
		all[i] = rows[i].factor
		all[i].Refs = source.Shared(&rows[i].ref)
		for j := range scatters.Rows() {
			if s := &scatters.Rows()[j]; s.lubricated == rows[i].lubricated {
				all[i].Scatter = s.share
				all[i].Refs = source.Shared(&rows[i].ref, &s.ref)
			}
		}
	}
	return all
}

// NutFactors returns the values of K that we have read, those of common practice
// first. They disagree: zinc plate is 0.20 in one book and 0.295 in another, and
// both are here. The scatter is that which an aerospace specification states for
// fasteners without and with a lubricant, 35 and 25 %; ten lubricated bolts at
// one torque that Shigley prints, 30.3 to 40.5 kN, lie within the second
// (Mechanical Engineering Design, 9th edition, table 8-14, p. 439).
func NutFactors() []NutFactor { return slices.Clone(nutFactors.Get(readNutFactors)) }

// DryThreads is the factor of common practice for plain steel as it comes: K
// 0.20, with 35 % of scatter.
func DryThreads() NutFactor { return nutFactors.Get(readNutFactors)[0] }

// OiledThreads is the factor of common practice for steel with oil on thread and
// face: K 0.15, with 25 % of scatter.
func OiledThreads() NutFactor { return nutFactors.Get(readNutFactors)[1] }

// A Friction is what rubs while a nut is turned: to put a figure on dirt, oil or
// a washer.
type Friction struct {
	Thread           thread.Thread
	InThread, OnFace float64      // coefficients of friction of the thread, and under the nut
	FaceDiameter     units.Length // mean diameter that the nut turns on, 1.25 diameters for an ordinary hexagon
}

var frictionRef = source.Ref{
	Kind: source.Derived,
	Note: "from friction, by the wedge: dm/(2 d) * (tan B + f sec A)/(1 - f tan B sec A) + fc dc/(2 d)",
}

// NutFactor returns the nut factor that coefficients of friction amount to.
//
//	K = dm/(2*d) * (tan B + f * sec A)/(1 - f * tan B * sec A) + fc * dc/(2*d)
//
//	dm     pitch diameter
//	d      nominal diameter
//	B      lead angle at the pitch diameter
//	A      half the angle of thread
//	f, fc  friction of the thread and under the nut, 0 to 0.5
//	dc     mean diameter under the nut, d to 4 d
//
// The result has no scatter; state one. It holds for a single start. Source:
// Shigley, Mechanical Engineering Design, chapter on screws.
func (f Friction) NutFactor() (NutFactor, error) {
	if err := f.Thread.Validate(); err != nil {
		return NutFactor{}, err
	}
	for _, c := range []float64{f.InThread, f.OnFace} {
		if !(c >= 0 && c <= 0.5) {
			return NutFactor{}, fail.OutOfRange("coefficient of friction", c, "0 to 0.5")
		}
	}
	d, dc := f.Thread.Major().Metres(), f.FaceDiameter.Metres()
	if dc < d || dc > 4*d {
		return NutFactor{}, fail.OutOfRange("mean diameter under the nut", f.FaceDiameter,
			"from the nominal diameter to four times it")
	}
	dm := f.Thread.PitchDiameter().Metres()
	tanB := f.Thread.Pitch().Metres() / (math.Pi * dm)
	sec := 1 / math.Cos(halfAngle(f.Thread))
	k := dm/(2*d)*(tanB+f.InThread*sec)/(1-f.InThread*tanB*sec) + f.OnFace*dc/(2*d) // Shigley, chapter on screws
	return NutFactor{Condition: "by friction", K: k, Refs: source.Shared(&frictionRef)}, nil
}
