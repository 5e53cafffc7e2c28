package thread

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A ClearanceClass says how freely a screw passes its hole, and by which
// standard. The zero value is no class.
type ClearanceClass int

// The classes. The two standards are kept apart: for M12, M14 and M16 they
// differ by half a millimetre.
const (
	FineISO273   ClearanceClass = iota + 1
	MediumISO273                // the usual one
	CoarseISO273
	CloseBS4186
	MediumBS4186
	FreeBS4186
	ChartClearance // what trade charts give for BA, BSW, BSF, model engineer and brass threads
	CoverClearance // common practice for a small cover with six or more holes: 0.15 to 0.25 mm over the screw
)

var clearanceClasses = names.Set{
	Package: "thread", Type: "ClearanceClass", Field: "class of clearance hole",
	Texts: []string{
		FineISO273: "ISO 273 fine", MediumISO273: "ISO 273 medium", CoarseISO273: "ISO 273 coarse",
		CloseBS4186: "BS 4186 close", MediumBS4186: "BS 4186 medium", FreeBS4186: "BS 4186 free",
		ChartClearance: "chart", CoverClearance: "cover",
	},
}

// String returns the name of the class: "ISO 273 fine", "ISO 273 medium",
// "ISO 273 coarse", "BS 4186 close", "BS 4186 medium", "BS 4186 free", "chart" or
// "cover".
func (c ClearanceClass) String() string { return clearanceClasses.Text(int(c)) }

// ParseClearanceClass returns the class of that name, in capitals or not; see
// [ClearanceClass.String].
func ParseClearanceClass(name string) (ClearanceClass, error) {
	v, err := clearanceClasses.Value(name)
	return ClearanceClass(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (c ClearanceClass) MarshalText() ([]byte, error) { return clearanceClasses.Marshal(int(c)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (c *ClearanceClass) UnmarshalText(text []byte) error {
	return names.Unmarshal(&clearanceClasses, c, text)
}

// ClearanceClasses returns all of them, in order.
func ClearanceClasses() []ClearanceClass {
	return []ClearanceClass{
		FineISO273, MediumISO273, CoarseISO273, CloseBS4186, MediumBS4186, FreeBS4186, ChartClearance, CoverClearance,
	}
}

// A Clearance is a hole that a screw passes through.
type Clearance struct {
	Class    ClearanceClass `json:",omitempty"` // none where the hole was given
	Hole     units.Length
	Room     units.Length // hole less major diameter
	Position units.Length // error of position forgiven, whatever the direction: half of Room
	Refs     source.Refs
}

// ClearanceOf returns what a hole forgives. It is larger than the screw.
//
// Position is what one pair of a hole and a tapped hole may be out, together and
// with a screw of full size; a bolt through two clearance holes forgives twice
// that.
func (t Thread) ClearanceOf(hole units.Length) (Clearance, error) {
	if err := t.Validate(); err != nil {
		return Clearance{}, err
	}
	if hole.Cmp(t.major) <= 0 {
		return Clearance{}, fail.Wrong("clearance hole for "+t.name, hole, "the screw does not pass",
			"above "+t.major.String())
	}
	c := t.clearance(hole)
	c.Refs = source.Of(source.Ref{Kind: source.Derived, Note: "hole less the major diameter " + t.major.String()})
	return c, nil
}

func (t Thread) clearance(hole units.Length) Clearance {
	room := hole.Sub(t.major)
	return Clearance{Hole: hole, Room: room, Position: room.Scale(0.5)}
}

// Check says whether so many such holes in one part go over their screws: four
// or more that forgive less than 0.05 mm each are hard to drill in place.
func (c Clearance) Check(holes int) finding.List {
	if holes < 4 || c.Position.Cmp(units.MM(0.05)) >= 0 {
		return nil
	}
	return finding.List{{
		Code: TightClearance, Severity: finding.Caution,
		Text: fmt.Sprintf("The %s hole forgives %s of position, and %d of them must agree.",
			c.Hole.Text(units.Millimetres, 3), c.Position.Text(units.Millimetres, 3), holes),
		Remedies: []string{`Take the class "cover", or spot the tapped holes through the part.`},
		Refs:     source.Of(source.Practice()),
	}}
}

// Drill returns the drill of a set that makes the hole, or one that is larger by
// no more than 0.1 mm and a twentieth of the screw. With none it returns the zero
// size and a finding.
func (c Clearance) Drill(own gauge.Set) (gauge.Size, finding.List) {
	most := c.Hole.Add(units.MM(0.1)).Add(c.Hole.Sub(c.Room).Scale(0.05))
	if size, err := own.AtLeast(c.Hole); err == nil && size.Diameter.Cmp(most) <= 0 {
		return size, nil
	}
	return gauge.Size{}, finding.List{{
		Code: NoClearanceDrill, Severity: finding.Note,
		Text: fmt.Sprintf("None of the drills makes the %s clearance hole.", c.Hole.Text(units.Millimetres, 3)),
		Remedies: []string{fmt.Sprintf("Take a drill from %s to %s, or a boring tool.",
			c.Hole.Text(units.Millimetres, 3), most.Text(units.Millimetres, 3))},
		Refs: source.Of(source.Practice()),
	}}
}

type clearanceRow struct {
	diameter, fine, medium, coarse units.Length
	ref                            source.Ref
}

var (
	clearanceISO273 = table.Table[clearanceRow]{
		FS: &tables, Name: "tables/clearance_iso273.csv",
		Row: func(r *table.Row) clearanceRow { return readClearance(r, "fine", "medium", "coarse") },
	}
	clearanceBS4186 = table.Table[clearanceRow]{
		FS: &tables, Name: "tables/clearance_bs4186.csv",
		Row: func(r *table.Row) clearanceRow { return readClearance(r, "close", "medium", "free") },
	}
)

func readClearance(r *table.Row, fine, medium, coarse string) clearanceRow {
	mm := func(column string) units.Length { return table.As(r, column, units.Millimetres.Parse) }
	return clearanceRow{mm("diameter"), mm(fine), mm(medium), mm(coarse), r.Ref()}
}

var coverRef = source.Ref{
	Kind: source.CommonPractice,
	Note: "0.2 mm over the screw, from 0.15 to 0.25, so that a cover of six or more holes goes on",
}

// ClearanceFor returns the hole of a class. The two standards hold for ISO metric
// threads of either pitch. Charts may hold more than one answer; the one with the
// most room is returned, and [Thread.ChartDrills] gives all. A class that has
// nothing for the thread is an error.
func (t Thread) ClearanceFor(class ClearanceClass) (Clearance, error) {
	if err := t.Validate(); err != nil {
		return Clearance{}, err
	}
	rows := &clearanceISO273
	switch class {
	case FineISO273, MediumISO273, CoarseISO273:
	case CloseBS4186, MediumBS4186, FreeBS4186:
		rows = &clearanceBS4186
	case ChartClearance:
		return t.chartClearance()
	case CoverClearance:
		c := t.clearance(t.major.Add(units.MM(0.2)))
		c.Class, c.Refs = class, source.Shared(&coverRef)
		return c, nil
	default:
		return Clearance{}, clearanceClasses.Unknown(int(class))
	}
	if t.Form() != FormISO {
		return Clearance{}, fail.Argument("class of clearance hole", class, "is for ISO metric threads and not for "+t.name,
			"chart or cover", units.ErrUnknown)
	}
	all := rows.Rows()
	for i := range all {
		row := &all[i]
		if row.diameter != t.major {
			continue
		}
		c := t.clearance([3]units.Length{row.fine, row.medium, row.coarse}[(int(class)-1)%3])
		c.Class, c.Refs = class, source.Shared(&row.ref)
		return c, nil
	}
	return Clearance{}, fail.Wrong("clearance hole for "+t.name, "", "not in the table of "+class.String(),
		"diameters of that table")
}

// UsualClearance returns the hole of ISO 273 medium for a metric thread, that of
// a chart for another, and the hole for a small cover where neither has one.
func (t Thread) UsualClearance() (Clearance, error) {
	class := ChartClearance
	if t.Form() == FormISO {
		class = MediumISO273
	}
	if c, err := t.ClearanceFor(class); err == nil {
		return c, nil
	}
	return t.ClearanceFor(CoverClearance)
}

func (t Thread) chartClearance() (Clearance, error) {
	var best Clearance
	for _, d := range t.ChartDrills() {
		for _, size := range d.Clearance {
			if size.Diameter.Cmp(best.Hole) > 0 {
				best = t.clearance(size.Diameter)
				best.Class, best.Refs = ChartClearance, d.Refs
			}
		}
	}
	if best.Hole.IsZero() {
		return Clearance{}, fail.Argument("clearance hole for "+t.name, "", "no chart that was found has one",
			"cover, or ISO 273 for metric threads", units.ErrUnknown)
	}
	return best, nil
}
