package assembly

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A GrubScrew is a set screw that holds a hub on a shaft by its cup point.
type GrubScrew struct {
	Screw      units.Length // thread diameter
	Shaft      units.Length // diameter
	FlatDepth  units.Length // of the flat under the point, below the round; zero for a round shaft
	Tightening units.Torque // see [SetScrews]
}

// A GrubScrewResult is what the screw holds, at both ends of the published
// spread, without any factor of safety.
type GrubScrewResult struct {
	Clamp       units.Force         // with which the point presses, at a nut factor of 0.2
	Axial       Range[units.Force]  // that moves the hub along
	Torque      Range[units.Torque] // that turns the hub
	Findings    finding.List
	Precautions []finding.Precaution
	Refs        source.Refs `json:",omitzero"` // of the holding powers
}

// Ends of the adhesion of a cup point that bites, as a share of its clamping
// force at nut factor 0.2: the least and the most over the sizes of the table
// of set screws, the least reduced by the 15 per cent that a shaft of
// unfavourable hardness costs.
const (
	nutFactor   = 0.2
	biteMin     = 0.48 * 0.85
	biteMax     = 0.82
	cupPerScrew = 0.5 // diameter of the cup, ISO 4029 within a tenth, from memory
)

// Solve returns what one screw holds:
//
//	clamp  = T / (0.2 * d)
//	axial  = m * clamp
//	torque = axial * D/2                        on a round shaft
//	torque = axial * (D/2 - f) + clamp * d/4    on a flat
//
//	T   tightening torque
//	d   the screw
//	D   the shaft
//	f   depth of the flat, at most a quarter of the shaft
//	m   the share that a biting cup point holds, from 0.41 to 0.82
//
// On a flat the hub cannot turn without the edge of the point, d/4 off the axis,
// being lifted by the flat; that part is derived here and is not in the tables.
// Source of m: the holding powers published for set screws at their seating
// torque, [SetScrews], the sizes from #4 up from memory; they were tests at 0.010
// in of movement. The data sheet takes off up to 15 per cent for a hard shaft and
// asks for a factor of 1.5 to 2 under steady and of 4 to 8 under changing loads.
// The torque is up to 1000 N m. See the Example.
func (g GrubScrew) Solve() (GrubScrewResult, error) {
	if err := fail.Above(
		fault.Named("diameter of the screw", g.Screw), fault.Named("diameter of the shaft", g.Shaft),
	); err != nil {
		return GrubScrewResult{}, err
	}
	if g.FlatDepth.Sign() < 0 || g.FlatDepth.Cmp(g.Shaft.Scale(0.25)) > 0 {
		return GrubScrewResult{}, fail.OutOfRange("depth of the flat", g.FlatDepth, "from zero to a quarter of the shaft")
	}
	if !(g.Tightening > 0 && g.Tightening <= 1000) {
		return GrubScrewResult{}, fail.OutOfRange("tightening torque", g.Tightening, "above 0 up to 1000 N m")
	}
	clamp := float64(g.Tightening) / (nutFactor * g.Screw.Metres()) // T = K F d, K = 0.2
	r := GrubScrewResult{
		Clamp: units.Force(clamp),
		Axial: Range[units.Force]{units.Force(biteMin * clamp), units.Force(biteMax * clamp)},
	}
	arm, lift := g.Shaft.Metres()/2-g.FlatDepth.Metres(), 0.0
	if !g.FlatDepth.IsZero() {
		lift = clamp * cupPerScrew * g.Screw.Metres() / 2 // the edge of the cup lifted by the flat
	}
	r.Torque = Range[units.Torque]{
		units.Torque(float64(r.Axial.Min)*arm + lift), units.Torque(float64(r.Axial.Max)*arm + lift),
	}
	for _, s := range setScrews.Rows() {
		if s.Holding > 0 {
			r.Refs = r.Refs.With(s.Refs)
		}
	}

	list := &r.Findings
	if ratio := g.Screw.Ratio(g.Shaft); ratio > 0.7 || ratio < 0.25 {
		f := said(list, ScrewProportion, finding.Caution, "The screw is %.2f of the shaft; about a half is the rule.", ratio)
		f.Refs = source.Of(source.Practice())
	}
	f := said(list, HoldingSpread, finding.Note,
		"The spread is that of published holding powers, from memory for all but the smallest screws.")
	f.Remedies, f.Refs = []string{"Ask the maker's sheet where it matters."}, r.Refs
	if g.FlatDepth.IsZero() {
		f := said(list, BurrOnShaft, finding.Note,
			"On a round shaft the point raises a burr that scores the bore when the hub is pulled off.")
		f.Remedies = []string{"A shallow flat or a groove saves the bore."}
		f.Refs = source.Of(source.Practice())
	}
	r.Precautions = []finding.Precaution{care(ScrewWorksLoose, "A grub screw works loose under a load that changes: "+
		"allow a factor of 4 to 8, or pin or key what matters, a flywheel above all.")}
	return r, nil
}
