package thread

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
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

var clearanceClasses = names.Set{Package: "thread", Type: "ClearanceClass", Field: "class of clearance hole", Texts: []string{
	FineISO273: "ISO 273 fine", MediumISO273: "ISO 273 medium", CoarseISO273: "ISO 273 coarse",
	CloseBS4186: "BS 4186 close", MediumBS4186: "BS 4186 medium", FreeBS4186: "BS 4186 free",
	ChartClearance: "chart", CoverClearance: "cover",
}}

// String returns the name of the class: "ISO 273 fine", "ISO 273 medium",
// "ISO 273 coarse", "BS 4186 close", "BS 4186 medium", "BS 4186 free", "chart" or
// "cover".
func (c ClearanceClass) String() string { return clearanceClasses.Text(int(c)) }

// ParseClearanceClass returns the class of that name, in capitals or not; see
// [ClearanceClass.String]. Another text is an [*units.ArgumentError] that lists
// the accepted ones.
func ParseClearanceClass(name string) (ClearanceClass, error) {
	v, err := clearanceClasses.Value(name)
	return ClearanceClass(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (c ClearanceClass) MarshalText() ([]byte, error) { return clearanceClasses.Marshal(int(c)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (c *ClearanceClass) UnmarshalText(text []byte) error {
	return unmarshal(c, text, ParseClearanceClass)
}

// A Clearance is a hole that a screw passes through.
type Clearance struct {
	Hole     units.Length
	Room     units.Length // hole less major diameter
	Position units.Length // error of position forgiven, half of Room: how far the hole and the screw may stand apart, whatever the direction
	Ref      source.Ref
}

// ClearanceOf returns what a hole forgives. A hole that is not larger than the
// screw is an [*units.ArgumentError].
//
// Position is what one pair of a hole and a tapped hole may be out, together and
// with a screw of full size; a bolt through two clearance holes forgives twice
// that.
func (t Thread) ClearanceOf(hole units.Length) (Clearance, error) {
	if t.Form() == 0 {
		return Clearance{}, noThread()
	}
	if hole.Cmp(t.major) <= 0 {
		return Clearance{}, wrong("clearance hole for "+t.name, hole.String(), "the screw does not pass", "above "+t.major.String(), units.ErrOutOfRange)
	}
	room := hole.Sub(t.major)
	return Clearance{Hole: hole, Room: room, Position: room.Scale(0.5), Ref: source.Ref{Kind: source.Derived, Note: "hole less the major diameter " + t.major.String()}}, nil
}

type clearanceRow struct {
	diameter, fine, medium, coarse units.Length
	ref                            source.Ref
}

var (
	clearanceISO273 = table.Table[clearanceRow]{FS: &tables, Name: "tables/clearance_iso273.csv", Row: func(r *table.Row) clearanceRow {
		return readClearance(r, "fine", "medium", "coarse")
	}}
	clearanceBS4186 = table.Table[clearanceRow]{FS: &tables, Name: "tables/clearance_bs4186.csv", Row: func(r *table.Row) clearanceRow {
		return readClearance(r, "close", "medium", "free")
	}}
)

func readClearance(r *table.Row, fine, medium, coarse string) clearanceRow {
	mm := func(column string) units.Length { return table.As(r, column, units.Millimetres.Parse) }
	return clearanceRow{mm("diameter"), mm(fine), mm(medium), mm(coarse), r.Ref()}
}

// ClearanceHole returns the hole of a class. The two standards hold for ISO
// metric threads of either pitch. Charts may hold more than one answer; the one
// with the most room is returned, and [Thread.ChartDrills] gives all. A class
// that has nothing for the thread is an [*units.ArgumentError].
func (t Thread) ClearanceHole(class ClearanceClass) (Clearance, error) {
	if t.Form() == 0 {
		return Clearance{}, noThread()
	}
	rows := &clearanceISO273
	switch class {
	case FineISO273, MediumISO273, CoarseISO273:
	case CloseBS4186, MediumBS4186, FreeBS4186:
		rows = &clearanceBS4186
	case ChartClearance:
		return t.chartClearance()
	case CoverClearance:
		c, err := t.ClearanceOf(t.major.Add(units.MM(0.2)))
		c.Ref = source.Ref{Kind: source.CommonPractice, Note: "0.2 mm over the screw, from 0.15 to 0.25, so that a cover of six or more holes goes on"}
		return c, err
	default:
		return Clearance{}, clearanceClasses.Unknown(int(class))
	}
	if t.Form() != FormISO {
		return Clearance{}, wrong("class of clearance hole", class.String(), "is for ISO metric threads and not for "+t.name, "chart or cover", units.ErrUnknown)
	}
	for _, row := range rows.Rows() {
		if row.diameter != t.major {
			continue
		}
		hole := [3]units.Length{row.fine, row.medium, row.coarse}[(int(class)-1)%3]
		c, err := t.ClearanceOf(hole)
		c.Ref = row.ref
		return c, err
	}
	return Clearance{}, wrong("clearance hole for "+t.name, "", "not in the table of "+class.String(), "diameters of that table", units.ErrOutOfRange)
}

func (t Thread) chartClearance() (Clearance, error) {
	var best Clearance
	for _, d := range t.ChartDrills() {
		for _, size := range d.Clearance {
			if size.Diameter.Cmp(best.Hole) > 0 {
				c, err := t.ClearanceOf(size.Diameter)
				if err != nil {
					return Clearance{}, err
				}
				best, best.Ref = c, d.Ref
			}
		}
	}
	if best.Hole.IsZero() {
		return Clearance{}, wrong("clearance hole for "+t.name, "", "no chart that was found has one", "cover, or ISO 273 for metric threads", units.ErrUnknown)
	}
	return best, nil
}
