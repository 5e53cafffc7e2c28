package thread

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A TappingTorque is what it takes to turn a sharp tap, by rule. What it takes
// in the vice is anything from half to twice of it, more with a dull tap, a
// full flute or a hole gone out of line.
type TappingTorque struct {
	Torque      units.Torque
	Least, Most units.Torque // half and twice
	Material    string       // the row of the table that was used
	Ref         source.Ref
}

type tapped struct {
	material                      string
	resistance                    float64 // MPa
	factorSecond, factorBottoming float64
	ref                           source.Ref
}

var tappedMaterials = table.Table[tapped]{FS: &tables, Name: "tables/strength_tapping.csv", Row: func(r *table.Row) tapped {
	m := r.Text("material")
	if hardness := r.Optional("hardness"); hardness != "" {
		m += ", " + hardness
	}
	return tapped{m, r.Float("resistance"), r.Float("factor_plug"), r.Float("factor_bottoming"), r.Ref()}
}}

func tappedNames() []string {
	var names []string
	for _, m := range tappedMaterials.Rows() {
		names = append(names, m.material)
	}
	return names
}

// TappingTorque returns the torque on a straight-fluted hand tap in a hole
// drilled to a diameter.
//
//	T = tan A * kc * K * (D - d)^2 * (D + 2 d) / 24
//
// with A half the angle of thread, kc the specific cutting resistance of the
// material, K a factor of the tap's lead, D the thread's diameter and d the
// hole's: the area that the tap cuts, times the resistance, times the radius it
// acts at. It shows what a larger hole saves: the torque goes with the square of
// the depth. The hole lies between the thread's minor diameter less a quarter of
// the depth, and its major diameter. Material is a row of the table, such as
// "cast iron GG-25", or enough of one to tell it; the error for another names
// them all. The tap is [SecondTap] or [BottomingTap]; the source has no factor for
// a taper tap, which is an error.
//
// Source: technical pages of a tap maker's catalogue, which print the formula in
// millimetres. A second published rule, T = kc P^2 D / 8 with resistances of its
// own, gives 0.4 to 1.1 times as much. Forming taps take two to three times the
// torque of cutting taps (the same pages).
func (t Thread) TappingTorque(hole units.Length, material string, tap Tap) (TappingTorque, error) {
	if t.Form() == 0 {
		return TappingTorque{}, noThread()
	}
	d, h := t.Major().Metres(), hole.Metres()
	least := t.Minor().Metres() - (d-t.Minor().Metres())/8
	if !(h >= least && h < d) {
		low, _ := units.LengthMM(least * 1000)
		return TappingTorque{}, argument("hole for "+t.Designation(), hole.String(), "from "+low.Text(units.Millimetres, 3)+" to below "+t.Major().Text(units.Millimetres, 3), units.ErrOutOfRange)
	}
	m, err := findTapped(material)
	if err != nil {
		return TappingTorque{}, err
	}
	var factor float64
	switch tap {
	case SecondTap:
		factor = m.factorSecond
	case BottomingTap:
		factor = m.factorBottoming
	default:
		return TappingTorque{}, argument("tap", tap.String(), "second, bottoming", units.ErrUnknown)
	}
	torque := units.Torque(math.Tan(t.halfAngle()) * m.resistance * 1e6 * factor * (d - h) * (d - h) * (d + 2*h) / 24)
	return TappingTorque{Torque: torque, Least: torque / 2, Most: torque * 2, Material: m.material, Ref: m.ref}, nil
}

func findTapped(material string) (tapped, error) {
	var found []tapped
	wanted := strings.ToLower(strings.TrimSpace(material))
	for _, m := range tappedMaterials.Rows() {
		name := strings.ToLower(m.material)
		if name == wanted {
			return m, nil
		}
		if wanted != "" && strings.Contains(name, wanted) {
			found = append(found, m)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return tapped{}, argument("material", `"`+material+`"`, strings.Join(tappedNames(), "; "), units.ErrUnknown)
	}
	var names []string
	for _, m := range found {
		names = append(names, m.material)
	}
	return tapped{}, wrong("material", `"`+material+`"`, "fits more than one", strings.Join(names, "; "), units.ErrUnknown)
}
