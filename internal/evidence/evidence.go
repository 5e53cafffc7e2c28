// Package evidence counts what the numbers of this module are checked against, from
// its tables, check files, code and proof pages, for the program evidence and for
// testdata/EVIDENCE.md.
//
// A figure that is read in print and compared counts by the work that it is read in.
// If that is another than the works which the rows of the shipped table come from, it
// is checked; if it is one of them, it is typed twice, which finds slips of the hand
// alone. A later edition of a work is the same work. Which tables a file of printed
// figures bears on stands in its head, "# checks: thread/tables/ba.csv", or "# checks:
// formula" where it bears on what is computed. A row whose id is the first cell of rows
// of a table is held against the sources of those rows, any other against those of all
// rows of the table, so that in doubt a figure counts as typed twice.
//
// Which columns are compared, and how near, is recorded by the tests themselves, where
// VALVECHEST_COMPARED names a folder, and kept by .ci/long; so is what the tests find of
// mistakes put into tables and into code.
package evidence

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units/source"
)

// A Report is the evidence of a module.
type Report struct {
	Packages    []Package
	Open        []string // columns of shipped tables with numbers and neither a check file nor a line in UnwitnessedFile
	Unwitnessed int      // lines of UnwitnessedFile
}

// A Package is what there is to say of one package.
type Package struct {
	Folder      string
	Cells       map[source.Kind]int // numbers shipped, by how they are known
	Unwitnessed int                 // of these, that no other work was found to print
	Figures     [kinds]int          // distinct figures compared
	Largest     float64             // difference, as a share of what its figure allows
	At          string              // the check file, row and column of it
	Wide        int                 // figures that allow more than twice half their last place
	Functions   Functions
	CellsFound  float64 // share of mistakes in cells that a test finds
	CellsTried  int
	Code        Measure // mistakes in code
}

// Shipped is the number of cells.
func (p Package) Shipped() int {
	n := 0
	for _, cells := range p.Cells {
		n += cells
	}
	return n
}

// Compared is the number of figures.
func (p Package) Compared() int {
	n := 0
	for _, figures := range p.Figures {
		n += figures
	}
	return n
}

// Read reads the evidence in the source of a module. What contradicts itself there is
// an error: a list of tables, rows or columns that are not there, a measure that is not
// well formed.
func Read(module fs.FS) (*Report, error) {
	r := &reader{module: module, packages: map[string]*Package{}, report: &Report{}}
	for _, step := range []func() error{r.readPackages, r.readTables, r.readFigures, r.readCells, r.readMeasured} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	for _, folder := range slices.Sorted(maps.Keys(r.packages)) {
		r.report.Packages = append(r.report.Packages, *r.packages[folder])
	}
	return r.report, nil
}

type reader struct {
	module   fs.FS
	packages map[string]*Package
	tables   []*Table
	byPath   map[string]*Table
	checks   []*checkFile
	report   *Report
}

// readPackages reads the code of the library: neither programs nor what serves them.
func (r *reader) readPackages() error {
	return fs.WalkDir(r.module, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case !entry.IsDir():
			if folder := path.Dir(name); path.Ext(name) == ".go" && folder != "." && r.packages[folder] == nil {
				p := &Package{Folder: folder, Cells: map[source.Kind]int{}}
				r.packages[folder] = p
				if !strings.Contains(folder, "/internal/") { // of which nobody outside calls a function
					p.Functions, err = readFunctions(r.module, folder)
				}
				return err
			}
		case strings.HasPrefix(entry.Name(), ".") && name != ".", name == "internal", name == "examples", name == "testdata":
			return fs.SkipDir
		}
		return nil
	})
}

func (r *reader) readTables() (err error) {
	if r.tables, err = Tables(r.module); err != nil {
		return err
	}
	for _, t := range r.tables {
		p := r.packages[path.Dir(path.Dir(t.Path))]
		if p == nil {
			return fmt.Errorf("%s: no package of the library ships it", t.Path)
		}
		for _, c := range t.Cells {
			p.Cells[t.Kind(c.Row)]++
		}
	}
	if r.checks, err = readChecks(r.module); err == nil {
		r.byPath, err = tablesByPath(r.tables, r.checks)
	}
	return err
}

// readFigures counts the cells of check files in columns that the tests compare.
func (r *reader) readFigures() error {
	works, err := readWorks(r.module)
	if err != nil {
		return err
	}
	columns, err := readCompared(r.module)
	if err != nil {
		return err
	}
	for _, f := range r.checks {
		p := r.packages[path.Dir(f.name)]
		if p == nil { // of a package of programs
			continue
		}
		for _, c := range columns {
			if c.file != f.name || !slices.Contains(f.columns, c.column) {
				continue
			}
			for _, row := range f.rows {
				if row[c.column] != "" && !slices.Contains(c.leftOut, row["id"]) {
					p.Figures[f.independence(row, r.byPath, works)]++
				}
			}
			p.Wide += c.wide
			if c.largest > p.Largest {
				p.Largest, p.At = c.largest, fmt.Sprintf("%s, %s, %s", path.Base(f.name), c.at, c.column)
			}
		}
	}
	return nil
}

// readCells reads what no other work was found to print, and finds the columns of which
// nothing is said.
func (r *reader) readCells() error {
	lines, err := readUnwitnessed(r.module)
	if err != nil {
		return err
	}
	r.report.Unwitnessed = len(lines)
	cells := map[string]map[[2]int]bool{}
	var errs []error
	for _, line := range lines {
		t := r.byPath[line.table]
		if t == nil {
			errs = append(errs, fmt.Errorf("%s: %s is no shipped table", UnwitnessedFile, line.table))
			continue
		}
		of, err := line.cells(t)
		errs = append(errs, err)
		if cells[t.Path] == nil {
			cells[t.Path] = map[[2]int]bool{}
		}
		maps.Copy(cells[t.Path], of)
	}
	checked := map[string]bool{}
	for _, f := range r.checks {
		for _, name := range f.tables {
			checked[name] = true
		}
	}
	for _, t := range r.tables {
		r.packages[path.Dir(path.Dir(t.Path))].Unwitnessed += len(cells[t.Path])
		for _, column := range t.numeric() {
			told := slices.ContainsFunc(slices.Collect(maps.Keys(cells[t.Path])), func(c [2]int) bool { return c[1] == column })
			if !checked[t.Path] && !told {
				r.report.Open = append(r.report.Open, t.Path+" "+t.Columns[column])
			}
		}
	}
	return errors.Join(errs...)
}

func (r *reader) readMeasured() error {
	cells, err := ReadMeasures(r.module, CellsFile)
	if err != nil {
		return err
	}
	code, err := ReadMeasures(r.module, CodeFile)
	if err != nil {
		return err
	}
	byFolder := map[string][]Measure{}
	for _, m := range cells {
		if r.byPath[m.Of] == nil {
			return fmt.Errorf("%s: %s is no shipped table", CellsFile, m.Of)
		}
		folder := path.Dir(path.Dir(m.Of))
		byFolder[folder] = append(byFolder[folder], m)
	}
	for folder, measures := range byFolder {
		r.packages[folder].CellsFound = Whole(measures)
		r.packages[folder].CellsTried = Sum(folder, measures).Tried
	}
	for _, m := range code {
		p := r.packages[m.Of]
		if p == nil {
			return fmt.Errorf("%s: %s is no package of the library", CodeFile, m.Of)
		}
		p.Code = m
	}
	return nil
}
