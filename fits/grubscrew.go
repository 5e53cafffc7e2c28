package fits

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
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
	Clamp    units.Force         // with which the point presses, at a nut factor of 0.2
	Axial    Range[units.Force]  // that moves the hub along
	Torque   Range[units.Torque] // that turns the hub
	Findings []Finding
}

// Ends of the adhesion of a cup point that bites, as a share of its clamping
// force at nut factor 0.2: the least and the most over the sizes of the table
// of set screws, the least reduced by the 15 per cent that a shaft of
// unfavourable hardness costs.
const (
	nutFactor   = 0.2
	biteLow     = 0.48 * 0.85
	biteHigh    = 0.82
	cupPerScrew = 0.5 // diameter of the cup, ISO 4029 within a tenth, from memory
)

// Solve returns what one screw holds:
//
//	clamp = T / (0.2 d)         axial = m clamp, m from 0.41 to 0.82
//	torque, round shaft = axial D/2
//	torque, on a flat   = axial (D/2 - f) + clamp d/4
//
// with the tightening torque T, the screw d, the shaft D, the depth of the flat
// f, and m the share that a biting cup point holds. On a flat the hub cannot
// turn without the edge of the point, d/4 off the axis, being lifted by the flat;
// that part is derived here and is not in the tables. Source of m: the holding
// powers published for set screws at their seating torque, [SetScrews], the
// sizes from #4 up from memory; they were tests at 0.010 in of movement. The data sheet takes off up to 15 per
// cent for a hard shaft and asks for a factor of 1.5 to 2 under steady and of 4
// to 8 under changing loads.
//
// Missing dimensions or torque, and a flat deeper than a quarter of the shaft,
// are errors of type [*units.ArgumentError].
func (g GrubScrew) Solve() (GrubScrewResult, error) {
	if err := positive("diameter of the screw", g.Screw); err != nil {
		return GrubScrewResult{}, err
	}
	if err := positive("diameter of the shaft", g.Shaft); err != nil {
		return GrubScrewResult{}, err
	}
	if g.FlatDepth.Sign() < 0 || g.FlatDepth.Cmp(g.Shaft.Scale(0.25)) > 0 {
		return GrubScrewResult{}, &units.ArgumentError{Package: "fits", Field: "depth of the flat", Value: g.FlatDepth.String(), Accepted: "from zero to a quarter of the shaft", Err: units.ErrOutOfRange}
	}
	if !(g.Tightening > 0 && g.Tightening <= 1000) {
		e := &units.ArgumentError{Package: "fits", Field: "tightening torque", Value: g.Tightening.String(), Accepted: "above 0 up to 1000 N m", Err: units.ErrOutOfRange}
		if g.Tightening == 0 {
			e.Err = units.ErrMissing
		}
		return GrubScrewResult{}, e
	}
	clamp := float64(g.Tightening) / (nutFactor * g.Screw.Metres())
	r := GrubScrewResult{Clamp: units.Force(clamp), Axial: Range[units.Force]{units.Force(biteLow * clamp), units.Force(biteHigh * clamp)}}
	arm, lift := g.Shaft.Metres()/2-g.FlatDepth.Metres(), 0.0
	if !g.FlatDepth.IsZero() {
		lift = clamp * cupPerScrew * g.Screw.Metres() / 2
	}
	r.Torque = Range[units.Torque]{units.Torque(float64(r.Axial.Low)*arm + lift), units.Torque(float64(r.Axial.High)*arm + lift)}

	if ratio := g.Screw.Ratio(g.Shaft); ratio > 0.7 || ratio < 0.25 {
		r.Findings = append(r.Findings, Finding{Caution, fmt.Sprintf("the screw is %.2f of the shaft; about a half is the rule", ratio)})
	}
	if g.FlatDepth.IsZero() {
		r.Findings = append(r.Findings, Finding{Note, "on a round shaft the point raises a burr that scores the bore when the hub is pulled off; a shallow flat or a groove saves it"})
	}
	r.Findings = append(r.Findings, Finding{Note, "the spread is that of published holding powers, from memory for all but the smallest screws; ask the maker's sheet where it matters"})
	r.Findings = append(r.Findings, Finding{Note, "a grub screw works loose under a load that changes: allow a factor of 4 to 8, or pin or key what matters, a flywheel above all"})
	return r, nil
}

// A SetScrew is a size of socket set screw with its seating torque and, where a
// test was published, what a cup point then holds along the shaft.
type SetScrew struct {
	Name     string
	Diameter units.Length
	Seating  units.Torque
	Holding  units.Force // zero where the source gives none
	Ref      source.Ref
}

// SetScrews returns the published sizes, inch before metric.
func SetScrews() []SetScrew { return slices.Clone(setScrews.Rows()) }

var setScrews = table.Table[SetScrew]{FS: &tables, Name: "tables/setscrews.csv", Row: readSetScrew}

func readSetScrew(r *table.Row) SetScrew {
	unit, err := units.ParseLengthUnit(r.Text("unit"))
	if err != nil {
		r.Complain("%v", err)
	}
	s := SetScrew{Name: r.Text("size"), Diameter: table.As(r, "diameter", unit.Parse), Ref: r.Ref()}
	s.Seating = units.Torque(r.Float("torque")) * units.NewtonMetre
	if unit == units.Inches {
		s.Seating = units.Torque(r.Float("torque")) * units.PoundForceInch
	}
	if r.Has("holding") {
		s.Holding = units.Force(r.Float("holding")) * units.PoundForce
	}
	return s
}
