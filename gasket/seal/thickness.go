package seal

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Sheet is the thickness of a material that gaskets are cut from.
type Sheet struct {
	Name        string
	Least, Most units.Length
	Ref         source.Ref
}

var sheets = table.Table[Sheet]{FS: &files, Name: "tables/sheet.csv", Row: func(r *table.Row) Sheet {
	s := Sheet{Name: r.Text("sheet"), Least: table.As(r, "least", units.Millimetres.Parse), Most: table.As(r, "most", units.Millimetres.Parse), Ref: r.Ref()}
	if s.Least.Sign() <= 0 || s.Most.Cmp(s.Least) < 0 {
		r.Complain("thickness from %v to %v", s.Least, s.Most)
	}
	return s
}}

// Sheets returns the thicknesses that were found in print, and one that was
// not. Measure your own.
func Sheets() []Sheet { return slices.Clone(sheets.Rows()) }

// Squeezed returns the thickness of a gasket under load.
//
//	t = free thickness * (1 - crush)
//
// Crush is the share by which the material gives, measured on a piece of it
// between two flat faces: 0 for metal, from 0 to below 0.9. Geometry. Another
// crush, and a thickness that is not above zero, are an [*units.ArgumentError].
func Squeezed(free units.Length, crush float64) (units.Length, error) {
	if err := positive("thickness of the gasket", free); err != nil {
		return units.Length{}, err
	}
	if !(crush >= 0 && crush < 0.9) {
		return units.Length{}, bad("crush of the gasket", fmt.Sprint(crush), "0 to below 0.9 of its thickness")
	}
	return free.Scale(1 - crush), nil
}

// A Place is where a gasket lies in an engine.
type Place int

// The places.
const (
	CylinderCover   Place = iota // between cylinder and cover
	ChestToCylinder              // between cylinder and steam chest
	ChestCover                   // between steam chest and its cover
)

var placeNames = names.Set{Package: "seal", Type: "Place", Field: "place of the gasket", Texts: []string{"cylinder cover", "chest to cylinder", "chest cover"}}

// String returns "cylinder cover", "chest to cylinder" or "chest cover".
func (p Place) String() string { return placeNames.Text(int(p)) }

// ParsePlace returns the place of that name, in capitals or not; see
// [Place.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
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
//	each length changes by to - from, the projection of the studs by from - to
//
// Thicknesses are zero or more and up to 10 m, anything else is an error.
// Geometry.
func Swap(place Place, from, to units.Length) (Change, error) {
	if from.Sign() < 0 || to.Sign() < 0 {
		return Change{}, bad("thickness of the gasket", from.String()+" and "+to.String(), "zero or more")
	}
	for _, l := range []units.Length{from, to} {
		if err := notLong("thickness of the gasket", l); err != nil {
			return Change{}, err
		}
	}
	d := to.Sub(from)
	c := Change{StudProjection: d.Neg()}
	say := func(severity finding.Severity, text, remedy string) {
		c.Findings = append(c.Findings, finding.Finding{Severity: severity, Text: text, Remedies: []string{remedy}, Refs: source.Of(source.Practice())})
	}
	amount := d.Abs().Text(units.Millimetres, 2)
	switch place {
	case CylinderCover:
		c.EndClearance = d
		if d.Sign() < 0 {
			say(finding.Fails, "The piston comes "+amount+" nearer to the cover.", "Turn the engine over by hand with something soft in the end before any steam, and share the clearance between the two ends.")
		}
	case ChestToCylinder:
		c.SpindleHeight, c.ChestHeight = d, d
		if d.Sign() != 0 {
			say(finding.Note, "The valve spindle stands "+amount+" "+higher(d)+" over the port face; the valve must still float on it.", "Leave the valve free to seat on the port face, whatever the spindle does.")
		}
	case ChestCover:
		c.ChestHeight = d
		if d.Sign() < 0 {
			say(finding.Note, "The cover comes "+amount+" nearer to the valve.", "Look that the valve can still lift off its face.")
		}
	default:
		_, err := place.MarshalText() // which knows the places there are
		return Change{}, err
	}
	return c, nil
}

func higher(d units.Length) string {
	if d.Sign() > 0 {
		return "higher"
	}
	return "lower"
}
