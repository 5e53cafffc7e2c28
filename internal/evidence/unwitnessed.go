package evidence

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

// UnwitnessedFile lists the shipped cells that no other work was found to print.
const UnwitnessedFile = "testdata/unwitnessed.csv"

// An unwitnessed is one line of it.
type unwitnessed struct {
	table         string
	rows, columns []string // keys of rows, or ranges of them, or *; names
}

// mostUnwitnessed is the most lines that the file may have.
const mostUnwitnessed = 600

func readUnwitnessed(module fs.FS) ([]unwitnessed, error) {
	rows, err := readCSV(module, UnwitnessedFile, "table", "rows", "column", "looked_in")
	if err != nil {
		return nil, err
	}
	if len(rows) > mostUnwitnessed {
		err = fmt.Errorf("%s: %d lines; at most %d", UnwitnessedFile, len(rows), mostUnwitnessed)
	}
	var all []unwitnessed
	for i, row := range rows {
		if slices.Contains(row, "") {
			err = errors.Join(err, fmt.Errorf("%s: a blank cell in %q", UnwitnessedFile, row))
		}
		if i > 0 && row[0] < rows[i-1][0] {
			err = errors.Join(err, fmt.Errorf("%s: %s does not sort after %s", UnwitnessedFile, row[0], rows[i-1][0]))
		}
		all = append(all, unwitnessed{row[0], split(row[1]), split(row[2])})
	}
	return all, err
}

func split(list string) []string {
	var all []string
	for one := range strings.SplitSeq(list, ";") {
		all = append(all, strings.TrimSpace(one))
	}
	return all
}

// cells returns the numbers of the table that the line stands for, by row and
// column; every row and column of it must be there.
func (u unwitnessed) cells(t *Table) (map[[2]int]bool, error) {
	rows, err := u.places(t)
	for _, name := range u.columns {
		if !slices.Contains(t.Columns, name) {
			err = errors.Join(err, fmt.Errorf("%s: %s has no column %q; there are %s",
				UnwitnessedFile, u.table, name, strings.Join(t.Columns, ", ")))
		}
	}
	cells := map[[2]int]bool{}
	for _, c := range t.Cells {
		if rows[c.Row] && slices.Contains(u.columns, t.Columns[c.Column]) {
			cells[[2]int{c.Row, c.Column}] = true
		}
	}
	return cells, err
}

// places returns the rows of the table.
func (u unwitnessed) places(t *Table) (map[int]bool, error) {
	rows := map[int]bool{}
	var errs []error
	for _, key := range u.rows {
		from, to, between := strings.Cut(key, "..")
		if !between {
			to = from
		}
		first, last := -1, -1
		for i, row := range t.Rows {
			if first < 0 && row.named(from) {
				first = i
			}
			if row.named(to) {
				last = i
			}
		}
		if first < 0 || last < first {
			errs = append(errs, fmt.Errorf("%s: %s has no row %q, named by its first cell", UnwitnessedFile, u.table, key))
			continue
		}
		for i := first; i <= last; i++ {
			if between || t.Rows[i].named(from) {
				rows[i] = true
			}
		}
	}
	return rows, errors.Join(errs...)
}

// named reports whether a key is the first cell of the row, one of a list there, or *.
func (r TableRow) named(key string) bool {
	return key == "*" || key == r.Texts[0] || slices.Contains(split(r.Texts[0]), key)
}
