package evidence

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// An Independence tells what a figure is compared with.
type Independence int

// From the best to what is no evidence at all.
const (
	OtherWork  Independence = iota // read in another work than the rows of the tables it bears on
	Formula                        // read, and it bears on what is computed, on no shipped table
	Program                        // computed by an independent program
	SameWork                       // read a second time in a work that the rows of its tables come from
	Recalled                       // from memory, or common practice of the trade
	Undeclared                     // read, but its file does not say what it bears on
	kinds
)

// A checkFile is a file of printed figures below testdata.
type checkFile struct {
	name    string   // below testdata
	tables  []string // that it bears on
	formula bool
	columns []string
	rows    []map[string]string
}

// readChecks reads the check files of a module, which are those below testdata that
// say how each row is known.
func readChecks(module fs.FS) ([]*checkFile, error) {
	var all []*checkFile
	err := fs.WalkDir(module, "testdata", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Ext(name) != ".csv" {
			return err
		}
		rows, err := readCSV(module, name)
		if err != nil || !slices.Contains(rows[0], "how") || !slices.Contains(rows[0], "id") {
			return err
		}
		f := &checkFile{name: strings.TrimPrefix(name, "testdata/"), columns: rows[0]}
		for _, cells := range rows[1:] {
			row := map[string]string{}
			for i, column := range rows[0] {
				row[column] = strings.TrimSpace(cells[i])
			}
			f.rows = append(f.rows, row)
		}
		text, err := fs.ReadFile(module, name)
		f.readHeader(string(text))
		all = append(all, f)
		return err
	})
	return all, err
}

// readHeader reads the lines "# checks: thread/tables/ba.csv, formula".
func (f *checkFile) readHeader(text string) {
	for line := range strings.Lines(text) {
		list, ok := strings.CutPrefix(strings.TrimSpace(line), "# checks:")
		if !ok {
			continue
		}
		for name := range strings.SplitSeq(list, ",") {
			if name = strings.TrimSpace(name); name == "formula" {
				f.formula = true
			} else {
				f.tables = append(f.tables, name)
			}
		}
	}
}

// independence tells what the figures of a row of a check file are compared with. A
// row whose id is the key of rows of a table, its first cell, is held against their
// sources, any other against those of the whole table.
func (f *checkFile) independence(
	row map[string]string, tables map[string]*Table, works map[string]string,
) Independence {
	switch row["how"] {
	case "computed":
		return Program
	case "memory", "practice":
		return Recalled
	}
	if len(f.tables) == 0 && !f.formula {
		return Undeclared
	}
	own := works[row["source"]]
	for _, name := range f.tables {
		var whole, joined []string
		for _, r := range tables[name].Rows {
			whole = append(whole, r.work)
			if r.Texts[0] == row["id"] {
				joined = append(joined, r.work)
			}
		}
		if joined != nil {
			whole = joined
		}
		if slices.Contains(whole, own) {
			return SameWork
		}
	}
	if len(f.tables) == 0 {
		return Formula
	}
	return OtherWork
}

// A compared is what the tests compared in one column of a check file.
type compared struct {
	file, column string
	leftOut      []string // rows that have a figure there and were not compared
	largest      float64  // difference, as a share of the tolerance
	at           string   // the row of it
	wide         int      // figures with a tolerance over twice half their last place
}

var comparedColumns = []string{"file", "column", "left_out", "largest", "at", "wide"}

func readCompared(module fs.FS) ([]compared, error) {
	rows, err := readCSV(module, ComparedFile, comparedColumns...)
	if err != nil {
		return nil, err
	}
	var all []compared
	for _, row := range rows {
		largest, errLargest := strconv.ParseFloat(row[3], 64)
		wide, errWide := strconv.Atoi(row[5])
		err = errors.Join(err, errLargest, errWide)
		c := compared{file: row[0], column: row[1], largest: largest, at: row[4], wide: wide}
		if row[2] != "" {
			c.leftOut = strings.Split(row[2], ";")
		}
		all = append(all, c)
	}
	return all, err
}

// KeepCompared gathers what the tests wrote into a folder, which VALVECHEST_COMPARED
// named, and keeps it in the module in the working folder.
func KeepCompared(folder string) error {
	module := os.DirFS(".")
	files, err := readChecks(module)
	if err != nil {
		return err
	}
	told, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil {
		return err
	}
	type place struct{ file, column string }
	found := map[place]*compared{}
	seen := map[[3]string]bool{}
	for _, name := range told {
		rows, err := readTold(name)
		if err != nil {
			return err
		}
		for _, row := range rows {
			at := place{row[0], row[2]}
			c := found[at]
			if c == nil {
				c = &compared{file: at.file, column: at.column}
				found[at] = c
			}
			share, errShare := strconv.ParseFloat(row[3], 64)
			wide, errWide := strconv.ParseFloat(row[4], 64)
			if err := errors.Join(errShare, errWide); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			if share > c.largest || share == c.largest && (c.at == "" || row[1] < c.at) {
				c.largest, c.at = share, row[1]
			}
			if first := !seen[[3]string(row[:3])]; first && wide > 2 {
				c.wide++
			}
			seen[[3]string(row[:3])] = true
		}
	}
	rows := [][]string{comparedColumns}
	for _, f := range files {
		for _, column := range f.columns {
			c := found[place{f.name, column}]
			if c == nil {
				continue
			}
			for _, row := range f.rows {
				if row[column] != "" && !seen[[3]string{f.name, row["id"], column}] {
					c.leftOut = append(c.leftOut, row["id"])
				}
			}
			rows = append(rows, []string{
				f.name, column, strings.Join(c.leftOut, ";"), strconv.FormatFloat(c.largest, 'g', 3, 64), c.at, strconv.Itoa(c.wide),
			})
		}
	}
	if len(rows) == 1 {
		return fmt.Errorf("%s has nothing that was compared", folder)
	}
	var text strings.Builder
	if err := csv.NewWriter(&text).WriteAll(rows); err != nil {
		return err
	}
	return os.WriteFile(filepath.FromSlash(ComparedFile), []byte(text.String()), 0o666)
}

func readTold(name string) ([][]string, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = 5
	return r.ReadAll()
}

// readWorks returns the works by their keys in testdata/sources.csv.
func readWorks(module fs.FS) (map[string]string, error) {
	rows, err := readCSV(module, "testdata/sources.csv", "key", "kind", "title", "edition", "note")
	works := map[string]string{}
	for _, row := range rows {
		works[row[0]] = work(row[0], row[2])
	}
	return works, err
}

// tablesByPath returns the shipped tables by path, and what is wrong with the tables
// that check files name.
func tablesByPath(tables []*Table, files []*checkFile) (map[string]*Table, error) {
	byPath := map[string]*Table{}
	for _, t := range tables {
		byPath[t.Path] = t
	}
	var errs []error
	for _, f := range files {
		for _, name := range f.tables {
			if byPath[name] == nil {
				errs = append(errs, fmt.Errorf("testdata/%s: # checks: %s is no shipped table; there are those of %s",
					f.name, name, strings.Join(slices.Sorted(maps.Keys(foldersOf(tables))), ", ")))
			}
		}
	}
	return byPath, errors.Join(errs...)
}

func foldersOf(tables []*Table) map[string]bool {
	folders := map[string]bool{}
	for _, t := range tables {
		folders[path.Dir(t.Path)] = true
	}
	return folders
}
