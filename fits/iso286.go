package fits

import (
	"embed"
	"slices"
	"sort"
	"sync/atomic"

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
var ranges = [...]int{
	3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500,
	560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150,
}

// Columns of the shaft table beyond one for each letter: j has one per grade.
const (
	columnJ6 = int(letterJ) // j5 and j6
	columnJ7 = len(letters) + iota - 1
	columnJ8
	columns
)

// A cell is one figure of a table and where it was read, counted from one, so
// that the zero cell is blank.
type cell struct {
	value units.Length
	place uint8
}

func (c *cell) known() bool { return c.place != 0 }

// Places are the works and pages that one kind of table was read from; nought is
// none.
type places struct{ refs []source.Ref }

// number returns the number of a place, a new one for a place not seen before.
func (p *places) number(r source.Ref) uint8 {
	if p.refs == nil {
		p.refs = make([]source.Ref, 1)
	}
	i := slices.Index(p.refs, r)
	if i < 0 {
		i = len(p.refs)
		p.refs = append(p.refs, r)
	}
	return uint8(i)
}

// A sourced says where the tolerance and the deviation of a part were read.
type sourced struct{ grade, deviation uint8 }

type isoTables struct {
	grades [coarsest - finest + 1][len(ranges)]cell
	shafts [columns][len(ranges)]cell
	holes  [3][len(ranges)]cell // J6, J7, J8

	// Sources are put together once, as that takes longer than a look-up: of a
	// part when the tables are read, of a fit when it is first asked for.
	ofGrades, ofDeviations places
	parts                  []source.Refs // by place of the grade, then of the deviation
	fits                   []atomic.Pointer[source.Refs]
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
	t := &isoTables{}
	read := func(name string, from *places, column map[string]*[len(ranges)]cell) error {
		_, _, err := table.Read(tables, name, func(r *table.Row) struct{} {
			first, last := rangeIndex(r.Int("over_mm"))+1, rangeIndex(r.Int("upto_mm"))
			if last < first {
				r.Complain("no range of the standard runs from over_mm to upto_mm")
				return struct{}{}
			}
			place := from.number(r.Ref())
			for head, cells := range column {
				if !r.Has(head) {
					continue
				}
				v := table.As(r, head, units.Micrometres.Parse)
				for i := first; i <= last; i++ {
					if cells[i].known() {
						r.Complain("column %q: a second figure for sizes up to %d mm", head, ranges[i])
					}
					cells[i] = cell{v, place}
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
	shafts := map[string]*[len(ranges)]cell{
		"j5_j6": &t.shafts[columnJ6], "j7": &t.shafts[columnJ7], "j8": &t.shafts[columnJ8],
	}
	for l, name := range letters {
		if letter(l) != noLetter && letter(l) != letterJ && letter(l) != letterJS {
			shafts[name] = &t.shafts[l]
		}
	}
	if err := read("tables/iso286_grades.csv", &t.ofGrades, grades); err != nil {
		return nil, err
	}
	if err := read("tables/iso286_shafts.csv", &t.ofDeviations, shafts); err != nil {
		return nil, err
	}
	holes := map[string]*[len(ranges)]cell{"J6": &t.holes[0], "J7": &t.holes[1], "J8": &t.holes[2]}
	if err := read("tables/iso286_holes.csv", &t.ofDeviations, holes); err != nil {
		return nil, err
	}
	t.join()
	return t, nil
}

// join puts the sources of every part together and makes room for those of fits.
func (t *isoTables) join() {
	grades, deviations := t.ofGrades.refs, t.ofDeviations.refs
	for g := range grades {
		for d := range deviations {
			t.parts = append(t.parts, source.Shared(&grades[g], &deviations[d]))
		}
	}
	t.fits = make([]atomic.Pointer[source.Refs], len(t.parts)*len(t.parts))
}

func (t *isoTables) index(s sourced) int {
	return int(s.grade)*len(t.ofDeviations.refs) + int(s.deviation)
}

// part returns the sources of one part.
func (t *isoTables) part(s sourced) *source.Refs { return &t.parts[t.index(s)] }

// fit returns the sources of both parts of a fit.
func (t *isoTables) fit(hole, shaft sourced) *source.Refs {
	at := &t.fits[t.index(hole)*len(t.parts)+t.index(shaft)]
	refs := at.Load()
	if refs == nil {
		both := t.part(hole).With(*t.part(shaft))
		refs = &both
		at.Store(refs)
	}
	return refs
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
		return 0, fail.OutOfRange("nominal size", nominal, "over 0 up to 3150 mm")
	}
	return sort.Search(len(ranges), func(i int) bool { return pm <= int64(ranges[i])*oneMM }), nil
}
