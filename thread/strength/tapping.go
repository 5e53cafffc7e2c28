package strength

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Tapping is a hole to be tapped by hand with a straight-fluted tap.
type Tapping struct {
	Thread thread.Thread
	Hole   units.Length // diameter that was drilled
	Tap    thread.Tap   // second or bottoming; the source has no factor for a taper tap

	// Material is what is tapped, and stands for all the grades that the source
	// prints of it; Grade is one of them by what is printed, or enough of it, such
	// as "GG-25" or "42 CrMo 4, 30 HRC". One of the two is given.
	Material material.Material `json:",omitzero"`
	Grade    string            `json:",omitempty"`
}

// A TappingTorque is what it takes to turn a sharp tap, by rule. What it takes
// in the vice is anything from half to twice of it, more with a dull tap, a
// full flute or a hole gone out of line.
type TappingTorque struct {
	Torque   units.Torque // in the hardest of Grades
	Min, Max units.Torque // half of that in the easiest of Grades, and twice Torque
	Grades   []string     // rows of the table that were used, the hardest to tap first
	Refs     source.Refs
}

type tapped struct {
	grade                         string // with its hardness
	material                      string
	resistance                    float64 // MPa
	factorSecond, factorBottoming float64
	ref                           source.Ref
}

var tappedGrades = table.Table[tapped]{FS: &files, Name: "tables/tapping.csv", Row: func(r *table.Row) tapped {
	grade := r.Text("grade")
	if hardness := r.Optional("hardness"); hardness != "" {
		grade += ", " + hardness
	}
	m := table.As(r, "material", material.Lookup)
	if m.Name != r.Text("material") {
		r.Complain("material %q goes by the name %q", r.Text("material"), m.Name)
	}
	return tapped{grade, m.Name, r.Float("resistance"), r.Float("factor_plug"), r.Float("factor_bottoming"), r.Ref()}
}}

// Torque returns the torque that the tap takes.
//
//	T = tan A * kc * K * (D - d)^2 * (D + 2*d) / 24
//
//	A   half the angle of thread
//	kc  specific cutting resistance of the material
//	K   factor of the tap's lead
//	D   diameter of the thread
//	d   diameter of the hole
//
// That is the area which the tap cuts, times the resistance, times the radius it
// acts at. It shows what a larger hole saves: the torque goes with the square of
// the depth. The hole lies between the thread's minor diameter less a quarter of
// the depth, and its major diameter. Where the source prints several grades of a
// material, Torque is that of the hardest to tap and Min reaches down to the
// easiest; a material of which it prints none is an error that names those it has.
//
// Source: technical pages of a tap maker's catalogue, which print the formula in
// millimetres. A second published rule, T = kc * P^2 * D / 8 with resistances of
// its own, gives 0.4 to 1.1 times as much. Forming taps take two to three times
// the torque of cutting taps (the same pages).
func (q Tapping) Torque() (TappingTorque, error) {
	if err := q.Thread.Validate(); err != nil {
		return TappingTorque{}, err
	}
	major, minor := q.Thread.Major(), q.Thread.Minor()
	if least := minor.Sub(major.Sub(minor).Scale(1.0 / 8)); q.Hole.Cmp(least) < 0 || q.Hole.Cmp(major) >= 0 {
		return TappingTorque{}, fail.OutOfRange("hole for "+q.Thread.Designation(), q.Hole,
			"from "+least.Text(units.Millimetres, 3)+" to below "+major.Text(units.Millimetres, 3))
	}
	rows, err := q.rows()
	if err != nil {
		return TappingTorque{}, err
	}
	if q.Tap != thread.SecondTap && q.Tap != thread.BottomingTap {
		return TappingTorque{}, fail.Unknown("tap", q.Tap, "second, bottoming")
	}
	var r TappingTorque
	for _, row := range rows {
		torque := q.in(row)
		if r.Grades == nil || torque/2 < r.Min {
			r.Min = torque / 2
		}
		if torque > r.Torque {
			r.Torque, r.Max = torque, 2*torque
			r.Grades = append([]string{row.grade}, r.Grades...)
		} else {
			r.Grades = append(r.Grades, row.grade)
		}
		r.Refs = r.Refs.With(source.Shared(&row.ref))
	}
	return r, nil
}

// in returns the torque in one grade.
func (q Tapping) in(row *tapped) units.Torque {
	factor := row.factorSecond
	if q.Tap == thread.BottomingTap {
		factor = row.factorBottoming
	}
	d, h := q.Thread.Major().Metres(), q.Hole.Metres() // the catalogue's formula, in metres and pascals
	return units.Torque(math.Tan(halfAngle(q.Thread)) * row.resistance * 1e6 * factor * (d - h) * (d - h) * (d + 2*h) / 24)
}

// rows returns the rows of the table that are asked for.
func (q Tapping) rows() ([]*tapped, error) {
	switch byName, byGrade := q.Material.Name != "", q.Grade != ""; {
	case byName && byGrade:
		return nil, fail.Argument("material and grade", q.Material.Name+", "+q.Grade, "both are given", "one of the two",
			units.ErrOutOfRange)
	case !byName && !byGrade:
		return nil, fail.Missing("material or grade", "one of the two")
	}
	all := tappedGrades.Rows()
	var found []*tapped
	var grades, materials []string
	wanted := names.Plain(q.Grade)
	for i := range all {
		row := &all[i]
		grades = append(grades, row.grade)
		if len(materials) == 0 || materials[len(materials)-1] != row.material { // the rows of one stand together
			materials = append(materials, row.material)
		}
		switch name := names.Plain(row.grade); {
		case q.Grade == "" && row.material == q.Material.Name, q.Grade != "" && strings.Contains(name, wanted):
			found = append(found, row)
		}
		if names.Plain(row.grade) == wanted {
			return []*tapped{row}, nil
		}
	}
	switch {
	case q.Grade == "" && found == nil:
		return nil, fail.Argument("material to tap", q.Material.Name, "we have no figure for it",
			strings.Join(materials, ", "), units.ErrUnknown)
	case q.Grade != "" && found == nil:
		return nil, fail.UnknownName("grade to tap", q.Grade, strings.Join(grades, "; "))
	case q.Grade != "" && len(found) > 1:
		var near []string
		for _, row := range found {
			near = append(near, row.grade)
		}
		return nil, fail.Text("grade to tap", q.Grade, "fits more than one", "", units.ErrAmbiguous, near...)
	}
	return found, nil
}
