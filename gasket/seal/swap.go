package seal

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Place is where a gasket lies in an engine.
type Place int

// The places. The zero value is none.
const (
	CylinderCover   Place = iota + 1 // between cylinder and cover
	ChestToCylinder                  // between cylinder and steam chest
	ChestCover                       // between steam chest and its cover
)

var placeNames = names.Set{
	Package: "seal", Type: "Place", Field: "place of the gasket",
	Texts: []string{"", "cylinder cover", "chest to cylinder", "chest cover"},
}

// Places returns all of them.
func Places() []Place { return []Place{CylinderCover, ChestToCylinder, ChestCover} }

// String returns "cylinder cover", "chest to cylinder" or "chest cover".
func (p Place) String() string { return placeNames.Text(int(p)) }

// ParsePlace returns the place of that name; another text is a
// [*units.ParseError] that lists them.
func ParsePlace(name string) (Place, error) {
	v, err := placeNames.Value(name)
	return Place(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (p Place) MarshalText() ([]byte, error) { return placeNames.Marshal(int(p)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (p *Place) UnmarshalText(text []byte) error { return names.Unmarshal(&placeNames, p, text) }

// A Change is what a gasket of another thickness does. Lengths that do not
// depend on it are zero.
type Change struct {
	EndClearance   units.Length // of the piston at that end
	SpindleHeight  units.Length // of the valve spindle above the port face
	ChestHeight    units.Length // inside, above the valve
	StudProjection units.Length // of the studs through the nuts
	Findings       finding.List
}

// Swap returns what changes when a gasket of thickness from, as it is under load,
// is replaced by one of thickness to. Zero stands for metal to metal, which some
// builders prefer, with a smear of compound; a gasket does not put right faces
// that are not flat.
//
//	each length changes by      to - from
//	the projection of the studs from - to
//
// Thicknesses are zero or more. Source: geometry. See the example.
func Swap(place Place, from, to units.Length) (Change, error) {
	if from.Sign() < 0 || to.Sign() < 0 {
		return Change{}, fail.OutOfRange("thickness of the gasket", from.String()+" and "+to.String(), "zero or more")
	}
	if err := fail.Within(fault.Named("thickness of the gasket", from), fault.Named("thickness of the gasket", to)); err != nil {
		return Change{}, err
	}
	d := to.Sub(from)
	c := Change{StudProjection: d.Neg()}
	say := func(code finding.Code, severity finding.Severity, text, remedy string) {
		c.Findings = append(c.Findings, finding.Finding{
			Code: code, Severity: severity, Text: text, Remedies: []string{remedy}, Refs: source.Shared(&practice),
		})
	}
	amount := d.Abs().Text(units.Millimetres, 2)
	switch place {
	case CylinderCover:
		c.EndClearance = d
		if d.Sign() < 0 {
			say(PistonStrikes, finding.Danger, "The piston comes "+amount+" nearer to the cover and may strike it.",
				"Turn the engine over by hand with something soft in the end before any steam, and share the clearance between the two ends.")
		}
	case ChestToCylinder:
		c.SpindleHeight, c.ChestHeight = d, d
		if d.Sign() != 0 {
			say(SpindleHeight, finding.Note, "The valve spindle stands "+amount+" "+higher(d)+" over the port face; the valve must still float on it.",
				"Leave the valve free to seat on the port face, whatever the spindle does.")
		}
	case ChestCover:
		c.ChestHeight = d
		if d.Sign() < 0 {
			say(ValveRoom, finding.Note, "The cover comes "+amount+" nearer to the valve.", "Look that the valve can still lift off its face.")
		}
	default:
		return Change{}, placeNames.Unknown(int(place))
	}
	return c, nil
}

func higher(d units.Length) string {
	if d.Sign() > 0 {
		return "higher"
	}
	return "lower"
}

// Squeezed returns the thickness of a gasket under load.
//
//	t = free thickness * (1 - crush)
//
// Crush is the share by which the material gives, measured on a piece of it
// between two flat faces: 0 for metal, to below 0.9. Source: geometry. See the
// example of [Swap].
func Squeezed(free units.Length, crush float64) (units.Length, error) {
	if err := fail.Above(fault.Named("thickness of the gasket", free)); err != nil {
		return units.Length{}, err
	}
	if err := fault.Finite(fail, "crush of the gasket", crush); err != nil {
		return units.Length{}, err
	}
	if crush < 0 || crush >= 0.9 {
		return units.Length{}, fail.OutOfRange("crush of the gasket", crush, "0 to below 0.9 of its thickness")
	}
	return free.Scale(1 - crush), nil
}
