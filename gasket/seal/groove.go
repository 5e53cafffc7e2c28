package seal

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Duty is what an O-ring does.
type Duty int

// The duties. The zero value is none.
const (
	Dynamic Duty = iota + 1 // round a moving piston or rod
	Static                  // round a part that does not move
	Face                    // between two faces
)

var dutyNames = names.Set{
	Package: "seal", Type: "Duty", Field: "duty of the O-ring", Texts: []string{"", "dynamic", "static", "face"},
}

// Duties returns all of them.
func Duties() []Duty { return []Duty{Dynamic, Static, Face} }

// String returns "dynamic", "static" or "face".
func (d Duty) String() string { return dutyNames.Text(int(d)) }

// ParseDuty returns the duty of that name; another text is a
// [*units.ParseError] that lists them.
func ParseDuty(name string) (Duty, error) {
	v, err := dutyNames.Value(name)
	return Duty(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (d Duty) MarshalText() ([]byte, error) { return dutyNames.Marshal(int(d)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (d *Duty) UnmarshalText(text []byte) error { return names.Unmarshal(&dutyNames, d, text) }

// A Groove is the published groove for one section and duty. A face groove has
// neither clearance nor runout.
type Groove struct {
	Section                units.Length
	Duty                   Duty
	DepthMin, DepthMax     units.Length // from the groove's bottom to the surface that the ring seals against
	Width, WidthTolerance  units.Length
	ClearanceMax           units.Length `json:",omitzero"` // on the diameter, of piston in bore or of rod in gland
	CornerMin, CornerMax   units.Length // radius in the bottom corners
	RunoutMax              units.Length `json:",omitzero"` // of the groove to the surface beside it, full reading
	SqueezeMin, SqueezeMax float64      // share of the section, as printed
	Refs                   source.Refs
}

var grooves = table.Table[Groove]{FS: &files, Name: "tables/groove.csv", Row: readGroove}

func readGroove(r *table.Row) Groove {
	in := func(column string) units.Length { return table.As(r, column, units.Inches.Parse) }
	g := Groove{
		Section: in("section"), Duty: table.As(r, "duty", ParseDuty), Refs: source.Of(r.Ref()),
		DepthMin: in("depth_min"), DepthMax: in("depth_max"), Width: in("width"), WidthTolerance: units.Thou(5),
		CornerMin: in("corner_min"), CornerMax: in("corner_max"),
		SqueezeMin: r.Float("squeeze_min") / 100, SqueezeMax: r.Float("squeeze_max") / 100,
	}
	if g.Duty != Face {
		g.ClearanceMax, g.RunoutMax = in("clearance_max"), in("runout_max")
	}
	if g.DepthMin.Cmp(g.DepthMax) > 0 || g.Width.Cmp(g.Section) <= 0 {
		r.Complain("groove of %v", g.Section)
	}
	return g
}

// Grooves returns the groove table. Not all agree with it: an unreviewed table in
// print makes the groove of a moving ring 0.113 to 0.115 in deep for the section
// of 0.139 in, and 0.083 to 0.085 in for that of 0.103 in, which squeezes more.
func Grooves() []Groove { return slices.Clone(grooves.Rows()) }

// GrooveFor returns the published groove for a section and duty; a section that
// is not in the table is an error that lists those that are. See the example.
func GrooveFor(section units.Length, duty Duty) (Groove, error) {
	for _, g := range grooves.Rows() {
		if g.Section == section && g.Duty == duty {
			return g, nil
		}
	}
	return Groove{}, fail.Unknown("section and duty of the O-ring", section.String()+", "+duty.String(),
		"dynamic, static or face, of "+strings.Join(sections(), ", ")+" in")
}

// sections returns the sections of the table, in inches.
func sections() []string {
	var list []string
	for _, g := range grooves.Rows() {
		if text := g.Section.Decimal(units.Inches, 3); !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}

// Advice returns what to mind when the groove is cut: the clearance and corners
// of the table, and the finish of the surfaces. Source: the finishes and what is
// said of silicone and back-up rings, an O-ring maker's handbook, section IV, and
// for moving rings an O-ring supplier's design page; the rest is common practice.
func (g Groove) Advice() finding.List {
	both := func(l units.Length) string {
		return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Thousandths, 0) + ")"
	}
	var list finding.List
	say := func(code finding.Code, refs source.Refs, text string) {
		list = append(list, finding.Finding{Code: code, Text: text, Refs: refs})
	}
	common := source.Shared(&practice)
	say(GrooveCorners, g.Refs, fmt.Sprintf("The bottom corners of the groove have a radius of %s to %s (%s to %s). "+
		"Break every edge that the ring passes and give bore or rod a lead-in.",
		g.CornerMin.Decimal(units.Millimetres, 2), g.CornerMax.Text(units.Millimetres, 2),
		g.CornerMin.Decimal(units.Thousandths, 0), g.CornerMax.Text(units.Thousandths, 0)))
	switch g.Duty {
	case Dynamic:
		say(GrooveFinish, common, "The surface that the ring slides on wants a finish of 0.2 to 0.4 um Ra (8 to 16 "+
			"microinch). Never run it dry, and lubricate it with what its rubber stands: no mineral oil on "+
			"EPDM.")
	case Static:
		say(GrooveFinish, common, "The surfaces that the ring touches want a finish of 0.8 um Ra (32 microinch) or finer.")
	case Face:
		say(GrooveFinish, common, "The faces that the ring touches want a finish of 0.4 um Ra (16 microinch) or finer for gas and steam.")
		say(GrooveFaces, common, "The faces meet metal to metal, and the studs must hold them so under pressure: a gap is where the ring is pushed out.")
		return list
	}
	say(GrooveClearance, g.Refs, fmt.Sprintf("The clearance on the diameter is %s at most, half of that for silicone; "+
		"the runout of the groove is %s at most.", both(g.ClearanceMax), both(g.RunoutMax)))
	say(NoBackUpRing, common, "No back-up ring is needed below about 100 bar.")
	return list
}
