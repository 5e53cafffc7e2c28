package thread

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// isoTolerances are the tables of ISO 965-1 in whole micrometres.
type isoTolerances struct {
	pitchDiameter []isoCell // Td2 of grade 6
	major, minor  []isoCell // Td and TD1 of grade 6; by pitch alone
	deviation     []isoDeviation
}

type isoCell struct {
	over, to, pitch units.Length
	rank            int // of the tolerance in the R40 series
	ref             source.Ref
	refs            [len(isoPlaces)]source.Refs // of limits whose pitch and crest diameter are in one position
}

// isoPlaces are the positions that ISO 965-1 classes are made of.
const isoPlaces = "efghGH"

type isoDeviation struct {
	pitch    units.Length
	position byte
	micron   int
	ref      source.Ref
}

var isoOnce table.Once[*isoTolerances]

func isoTables() *isoTolerances { return isoOnce.Get(readISOTables) }

func readISOTables() *isoTolerances {
	var t isoTolerances
	cells := func(name, column string, banded bool) []isoCell {
		rows, _, err := table.Read(tables, "tables/"+name, func(r *table.Row) isoCell {
			c := isoCell{pitch: table.As(r, "pitch", units.Millimetres.Parse), ref: r.Ref()}
			if banded {
				c.over, c.to = table.As(r, "over", units.Millimetres.Parse), table.As(r, "to", units.Millimetres.Parse)
			}
			var ok bool
			if c.rank, ok = rankR40(r.Int(column)); !ok {
				r.Complain("%s is not a preferred number", r.Text(column))
			}
			return c
		})
		if err != nil {
			panic(err) // the shipped tables are read by the tests
		}
		return rows
	}
	t.pitchDiameter = cells("iso965_pitch_diameter.csv", "td2", true)
	t.major = cells("iso965_major.csv", "td", false)
	t.minor = cells("iso965_minor.csv", "td1", false)
	deviations, _, err := table.Read(tables, "tables/iso965_deviation.csv", func(r *table.Row) isoDeviation {
		d := isoDeviation{pitch: table.As(r, "pitch", units.Millimetres.Parse), micron: r.Int("deviation"), ref: r.Ref()}
		if position := r.Text("position"); len(position) == 1 {
			d.position = position[0]
		}
		return d
	})
	if err != nil {
		panic(err)
	}
	t.deviation = deviations
	for i := range t.pitchDiameter {
		cell := &t.pitchDiameter[i]
		for at := range isoPlaces {
			place := isoPlaces[at]
			_, move := t.move(place, cell.pitch)
			if move != nil { // else there are no limits to have a source
				cell.refs[at] = source.Shared(&cell.ref, move, t.crest(place, cell.pitch))
			}
		}
	}
	return &t
}

// crest returns the source of the tolerance of the crest diameter in a position.
func (t *isoTolerances) crest(place byte, pitch units.Length) *source.Ref {
	rows := t.minor
	if place >= 'a' {
		rows = t.major
	}
	for i := range rows {
		if rows[i].pitch == pitch {
			return &rows[i].ref
		}
	}
	return &byDefinition
}

// r40 holds a decade of the R40 series of preferred numbers (ISO 3) as ISO 965-1
// rounds them, times 100.
var r40 = [40]int{
	100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
	315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
}

// valueR40 returns the preferred number of a rank, 0 for 10, in whole units,
// halves to even: 37.5 is 38 and 42.5 is 42.
func valueR40(rank int) int {
	v := r40[rank%40]
	switch rank / 40 {
	case 0:
		return int(math.RoundToEven(float64(v) / 10))
	case 1:
		return v
	}
	return 10 * v
}

func rankR40(value int) (int, bool) {
	for rank := range 120 {
		if valueR40(rank) == value {
			return rank, true
		}
	}
	return 0, false
}

// isoClass is a tolerance class of ISO 965-1 taken apart.
type isoClass struct {
	pitchGrade, crestGrade int
	pitchPlace, crestPlace byte
}

func (c isoClass) external() bool { return c.pitchPlace >= 'a' }

// parseISOClass reads "6g", "4g6g", "6H" or "4H5H".
func parseISOClass(class string) (c isoClass, ok bool) {
	if len(class) != 2 && len(class) != 4 {
		return c, false
	}
	c = isoClass{int(class[0]) - '0', int(class[0]) - '0', class[1], class[1]}
	if len(class) == 4 {
		c.crestGrade, c.crestPlace = int(class[2])-'0', class[3]
	}
	for _, place := range []byte{c.pitchPlace, c.crestPlace} {
		switch place {
		case 'e', 'f', 'g', 'h', 'G', 'H':
		default:
			return c, false
		}
	}
	return c, (c.pitchPlace >= 'a') == (c.crestPlace >= 'a')
}

// leastPitch returns the smallest pitch that ISO 965-1 gives a grade for, in
// micrometres; zero for grades that do not exist.
func leastPitch(quantity byte, grade int) int {
	switch quantity {
	case 'm': // Td, major diameter of the screw
		switch grade {
		case 4, 6:
			return 200
		case 8:
			return 800
		}
	case 'p': // Td2, pitch diameter of the screw
		switch grade {
		case 3, 4, 5, 6:
			return 200
		case 7:
			return 350
		case 8, 9:
			return 800
		}
	case 'n': // TD1, minor diameter of the nut
		switch grade {
		case 4:
			return 200
		case 5:
			return 250
		case 6:
			return 300
		case 7:
			return 500
		case 8:
			return 800
		}
	case 'q': // TD2, pitch diameter of the nut
		switch grade {
		case 4:
			return 200
		case 5, 6:
			return 250
		case 7:
			return 500
		case 8:
			return 800
		}
	}
	return 0
}

func (t Thread) limitsISO(class string) (Limits, error) {
	c, ok := parseISOClass(class)
	if !ok {
		return Limits{}, t.noClass(class, "6g", "6h", "4g6g", "6e", "6H", "5H", "4H5H", "6G", "and the like")
	}
	tables := isoTables()
	var cell *isoCell
	for i := range tables.pitchDiameter {
		if p := &tables.pitchDiameter[i]; p.pitch == t.pitch && t.major.Cmp(p.over) > 0 && t.major.Cmp(p.to) <= 0 {
			cell = p
			break
		}
	}
	if cell == nil {
		return Limits{}, fail.Wrong("limits of "+t.name, "",
			"the table of pitch diameter tolerances has no such diameter and pitch",
			"the pitches of ISO 965-1 from M1 to M90")
	}
	crestTable, crest, pitch := tables.major, byte('m'), byte('p')
	if !c.external() {
		crestTable, crest, pitch = tables.minor, 'n', 'q'
	}
	for _, wanted := range []struct {
		quantity byte
		grade    int
	}{{pitch, c.pitchGrade}, {crest, c.crestGrade}} {
		least := leastPitch(wanted.quantity, wanted.grade)
		if least == 0 || t.pitch.Cmp(micron(least)) < 0 {
			return Limits{}, fail.Wrong("tolerance class", class, fmt.Sprintf("grade %d is not given for a pitch of %v",
				wanted.grade, t.pitch),
				"a finer grade, such as 4g6g or 5H")
		}
	}
	crestRank := 4 * (c.crestGrade - 6)
	for i := range crestTable {
		if crestTable[i].pitch == t.pitch {
			crestRank += crestTable[i].rank
			break
		}
	}
	pitchRank := cell.rank + 4*(c.pitchGrade-6)
	if !c.external() {
		pitchRank += 5
	}
	crestMove, crestMoveRef := tables.move(c.crestPlace, t.pitch)
	pitchMove, pitchMoveRef := tables.move(c.pitchPlace, t.pitch)
	if crestMoveRef == nil || pitchMoveRef == nil {
		return Limits{}, fail.Wrong("tolerance class", class, fmt.Sprintf("its position is not given for a pitch of %v",
			t.pitch),
			"position g, h, G or H")
	}
	crestTolerance, pitchTolerance := micron(valueR40(crestRank)), micron(valueR40(pitchRank))
	l := Limits{Class: class, External: c.external(), Refs: cell.refs[strings.IndexByte(isoPlaces, c.pitchPlace)]}
	if c.crestPlace != c.pitchPlace {
		l.Refs = l.Refs.With(source.Shared(crestMoveRef))
	}
	if c.external() {
		l.Major = below(t.major.Add(crestMove), crestTolerance)
		l.PitchDiameter = below(t.pitchDiameter.Add(pitchMove), pitchTolerance)
		// The largest minor diameter is that of the flat root and lies es below the
		// basic one; the smallest is that of the rounded root (ASME B1.13M).
		l.Minor = Range{
			Min: round(l.PitchDiameter.Min.Sub(t.pitch.Scale(0.616025)), units.Micron(1)), // ASME B1.13M
			Max: t.minor.Add(pitchMove),
		}
		return l, nil
	}
	l.Minor = above(t.minor.Add(crestMove), crestTolerance)
	l.PitchDiameter = above(t.pitchDiameter.Add(pitchMove), pitchTolerance)
	l.Major = Range{Min: t.major.Add(pitchMove)}
	return l, nil
}

// byDefinition is the source of the deviation of positions h and H, which is
// zero: none.
var byDefinition source.Ref

// move returns the signed fundamental deviation of a position and its source, nil
// where the table does not have it.
func (t *isoTolerances) move(position byte, pitch units.Length) (units.Length, *source.Ref) {
	if position == 'h' || position == 'H' {
		return units.Length{}, &byDefinition
	}
	sign, want := -1, position
	if position == 'G' {
		sign, want = 1, 'g'
	}
	for i := range t.deviation {
		if d := &t.deviation[i]; d.position == want && d.pitch == pitch {
			return micron(sign * d.micron), &d.ref
		}
	}
	return units.Length{}, nil
}

func micron(n int) units.Length { return units.Picometres(int64(n) * 1_000_000) }
