package evidence

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
)

// Files of what was last measured, from the module's root.
const (
	CellsFile    = "testdata/internal/evidence/cells.csv"    // by table, of .ci/cells
	CodeFile     = "testdata/internal/evidence/code.csv"     // by package, of .ci/mutants
	ComparedFile = "testdata/internal/evidence/compared.csv" // by column of a check file
)

// A Measure is what the tests found of mistakes put into a table or a package.
type Measure struct {
	Of                string // path of the table, or folder of the package
	All, Tried, Found int    // mistakes that can be made, that were, and that a test noticed
}

// Share is the share of the mistakes that was found, and 0 of none.
func (m Measure) Share() float64 { return float64(m.Found) / float64(max(m.Tried, 1)) }

// String is the measure in words, without what it is of.
func (m Measure) String() string {
	return fmt.Sprintf("%5d mistakes, %4d tried, %4d found, %5.1f %%", m.All, m.Tried, m.Found, 100*m.Share())
}

// Sum adds measures up.
func Sum(of string, measures []Measure) Measure {
	sum := Measure{Of: of}
	for _, m := range measures {
		sum.All += m.All
		sum.Tried += m.Tried
		sum.Found += m.Found
	}
	return sum
}

// Whole is the share of the mistakes that is found, each measure's share counting
// by the number of all mistakes that it could have; 0 of none.
func Whole(measures []Measure) float64 {
	all, found := 0.0, 0.0
	for _, m := range measures {
		all += float64(m.All)
		found += m.Share() * float64(m.All)
	}
	return found / max(all, 1)
}

var measureColumns = []string{"of", "all", "tried", "found"}

// ReadMeasures reads one of the files.
func ReadMeasures(module fs.FS, name string) ([]Measure, error) {
	rows, err := readCSV(module, name, measureColumns...)
	if err != nil {
		return nil, err
	}
	var all []Measure
	for _, row := range rows {
		m := Measure{Of: row[0]}
		for i, to := range []*int{&m.All, &m.Tried, &m.Found} {
			var errNumber error
			*to, errNumber = strconv.Atoi(row[i+1])
			err = errors.Join(err, errNumber)
		}
		if len(all) > 0 && all[len(all)-1].Of >= m.Of || m.Found > m.Tried || m.Tried > m.All || m.Found < 0 || m.Tried == 0 {
			err = errors.Join(err, fmt.Errorf("%s: %s: out of order, or more found than tried, or none tried", name, m.Of))
		}
		all = append(all, m)
	}
	return all, err
}

// Keep puts measures into one of the files of the module in the working folder, in
// place of older ones of the same.
func Keep(name string, measures []Measure) error {
	kept, err := ReadMeasures(os.DirFS("."), name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	kept = slices.DeleteFunc(kept, func(old Measure) bool {
		return slices.ContainsFunc(measures, func(m Measure) bool { return m.Of == old.Of })
	})
	for _, m := range measures {
		if m.Tried > 0 {
			kept = append(kept, m)
		}
	}
	slices.SortFunc(kept, func(a, b Measure) int { return strings.Compare(a.Of, b.Of) })
	rows := [][]string{measureColumns}
	for _, m := range kept {
		rows = append(rows, []string{m.Of, strconv.Itoa(m.All), strconv.Itoa(m.Tried), strconv.Itoa(m.Found)})
	}
	var text strings.Builder
	if err := csv.NewWriter(&text).WriteAll(rows); err != nil {
		return err
	}
	return os.WriteFile(name, []byte(text.String()), 0o666)
}

// readCSV returns the rows of a file whose columns are those given, comments left out.
func readCSV(module fs.FS, name string, columns ...string) ([][]string, error) {
	f, err := module.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(rows) == 0 || columns != nil && !slices.Equal(rows[0], columns) {
		return nil, fmt.Errorf("%s: columns wanted: %s", name, strings.Join(columns, ", "))
	}
	if columns != nil {
		rows = rows[1:]
	}
	return rows, nil
}
