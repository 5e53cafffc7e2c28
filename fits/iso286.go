package fits

import (
	"embed"
	"sort"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// The editions that the tables hold. ISO 286-1 has the same numbers in both; ANSI
// B4.1 has not: in ASA B4.1-1955 RC3 was H6/f6 and RC4 was H7/f7.
const (
	ISOEdition  = "ISO 286-1:1988 and 2010"
	InchEdition = "ANSI B4.1-1967"
)

//go:embed tables/*.csv
var tables embed.FS

// The ranges of nominal size, over the one before up to and including: the main
// and the intermediate ones of ISO 286-1 in one row. The first begins over 0.
var ranges = [...]int{3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500,
	560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150}

// Columns of the shaft table beyond one for each letter: j has one per grade.
const (
	columnJ6 = int(letterJ) // j5 and j6
	columnJ7 = len(letters) + iota - 1
	columnJ8
	columns
)

// A cell is one figure of a table and where it was read; refs are counted from
// one, so that the zero cell is blank.
type cell struct {
	value units.Length
	ref   uint8
}

func (c cell) known() bool { return c.ref != 0 }

type isoTables struct {
	grades [coarsest - finest + 1][len(ranges)]cell
	shafts [columns][len(ranges)]cell
	holes  [3][len(ranges)]cell // J6, J7, J8
	refs   []source.Ref
}

var isoOnce table.Once[*isoTables]

func iso() *isoTables { return isoOnce.Get(mustReadISO) }

func mustReadISO() *isoTables {
	t, err := readISO()
	if err != nil {
		panic(err)
	}
	return t
}

func readISO() (*isoTables, error) {
	t := &isoTables{refs: make([]source.Ref, 1)}
	index := map[source.Ref]uint8{}
	ref := func(r source.Ref) uint8 {
		i, ok := index[r]
		if !ok {
			i = uint8(len(t.refs))
			index[r] = i
			t.refs = append(t.refs, r)
		}
		return i
	}
	read := func(name string, column map[string]*[len(ranges)]cell) error {
		_, _, err := table.Read(tables, name, func(r *table.Row) struct{} {
			from, to := rangeIndex(r.Int("over_mm"))+1, rangeIndex(r.Int("upto_mm"))
			if to < from {
				r.Complain("no range of the standard runs from over_mm to upto_mm")
				return struct{}{}
			}
			k := ref(r.Ref())
			for head, cells := range column {
				if !r.Has(head) {
					continue
				}
				v := table.As(r, head, units.Micrometres.Parse)
				for i := from; i <= to; i++ {
					if cells[i].known() {
						r.Complain("column %q: a second figure for sizes up to %d mm", head, ranges[i])
					}
					cells[i] = cell{v, k}
				}
			}
			return struct{}{}
		})
		return err
	}

	grades := map[string]*[len(ranges)]cell{}
	for g := finest; g <= coarsest; g++ {
		grades[g.String()] = &t.grades[g-finest]
	}
	shafts := map[string]*[len(ranges)]cell{"j5_j6": &t.shafts[columnJ6], "j7": &t.shafts[columnJ7], "j8": &t.shafts[columnJ8]}
	for l, name := range letters {
		if letter(l) != noLetter && letter(l) != letterJ && letter(l) != letterJS {
			shafts[name] = &t.shafts[l]
		}
	}
	if err := read("tables/iso286_grades.csv", grades); err != nil {
		return nil, err
	}
	if err := read("tables/iso286_shafts.csv", shafts); err != nil {
		return nil, err
	}
	return t, read("tables/iso286_holes.csv", map[string]*[len(ranges)]cell{"J6": &t.holes[0], "J7": &t.holes[1], "J8": &t.holes[2]})
}

// reach returns the sizes between which the table that a class goes by has
// figures.
func (t *isoTables) reach(c Class) (over, upto units.Length) {
	cells := &t.shafts[c.column()]
	if c.hole && c.letter == letterJ {
		cells = &t.holes[c.grade-6]
	}
	first := 0
	for first < len(cells)-1 && !cells[first].known() {
		first++
	}
	last := len(cells) - 1
	for last > 0 && !cells[last].known() {
		last--
	}
	switch {
	case first > 0:
		over = units.MM(float64(ranges[first-1]))
	case c.letter <= letterB:
		over = units.Picometres(oneMM)
	}
	return over, units.MM(float64(ranges[last]))
}

// rangeIndex returns the range that ends at mm, -1 for zero, and a number that
// makes an empty span for a size that no range ends at.
func rangeIndex(mm int) int {
	for i, end := range ranges {
		if end == mm {
			return i
		}
	}
	if mm == 0 {
		return -1
	}
	return len(ranges)
}

// rangeOf returns the range that a nominal size lies in; a size on a boundary
// is in the lower one.
func rangeOf(nominal units.Length) (int, error) {
	pm := nominal.Picometres()
	if pm <= 0 || pm > int64(ranges[len(ranges)-1])*oneMM {
		return 0, &units.ArgumentError{Package: "fits", Field: "nominal size", Value: nominal.String(), Accepted: "over 0 up to 3150 mm", Err: units.ErrOutOfRange}
	}
	return sort.Search(len(ranges), func(i int) bool { return pm <= int64(ranges[i])*oneMM }), nil
}
