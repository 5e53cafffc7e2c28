package evidence

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

// A Table is a shipped table as its file has it.
type Table struct {
	Path    string // from the module's root
	Text    []byte
	Columns []string
	Rows    []TableRow
	Cells   []Cell // its numbers, in the order of the file
	header  table.Header
}

// A TableRow is one row of a table.
type TableRow struct {
	Line  int
	Texts []string
	kind  source.Kind
	work  string // the title of its source
}

// A Cell is a number of a table.
type Cell struct {
	Row, Column int
	At          int // place of its text in the file
	Text        string
}

// Kind tells how the figures of a row are known.
func (t *Table) Kind(row int) source.Kind { return t.Rows[row].kind }

// number is a text that is a number, in what unit it may be.
var number = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+|\d+/\d+|\d+ \d+/\d+)( mm| in)?$`)

// ReadTable reads a shipped table. Its numbers are the filled cells that are a
// decimal number, a fraction or a mixed number, with mm or in behind it or not, of
// a column most of whose filled cells are; the columns source and locator have none.
func ReadTable(module fs.FS, name string) (*Table, error) {
	header, errHeader := table.ReadHeader(module, name)
	text, err := fs.ReadFile(module, name)
	if err = errors.Join(errHeader, err); err != nil {
		return nil, err
	}
	t := &Table{Path: name, Text: text, header: header}
	starts := []int{0, 0} // of the lines, from 1
	for i, b := range text {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	if t.Columns, err = r.Read(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	from := slices.Index(t.Columns, "source")
	if from < 0 {
		return nil, fmt.Errorf("%s: no column source", name)
	}
	filled, numbers := make([]int, len(t.Columns)), make([]int, len(t.Columns))
	var all []Cell
	for {
		texts, err := r.Read()
		if err == io.EOF {
			break
		} else if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		for i, text := range texts {
			if text == "" || t.Columns[i] == "source" || t.Columns[i] == "locator" {
				continue
			}
			if filled[i]++; !number.MatchString(text) {
				continue
			}
			numbers[i]++
			line, column := r.FieldPos(i)
			at := starts[line] + column - 1
			if t.Text[at] == '"' {
				at++
			}
			all = append(all, Cell{len(t.Rows), i, at, text})
		}
		line, _ := r.FieldPos(0)
		ref := header.Sources[texts[from]]
		t.Rows = append(t.Rows, TableRow{line, texts, ref.Kind, work(texts[from], ref.Title)})
	}
	for _, c := range all {
		if 2*numbers[c.Column] > filled[c.Column] {
			t.Cells = append(t.Cells, c)
		}
	}
	return t, nil
}

// Tables returns the shipped tables of a module in order.
func Tables(module fs.FS) ([]*Table, error) {
	var all []*Table
	err := fs.WalkDir(module, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (strings.HasPrefix(entry.Name(), ".") && name != "." || name == "testdata"):
			return fs.SkipDir
		case path.Base(path.Dir(name)) != "tables" || path.Ext(name) != ".csv":
			return nil
		}
		t, err := ReadTable(module, name)
		all = append(all, t)
		return err
	})
	return all, err
}

// numeric returns the columns of the table that have numbers, by their place.
func (t *Table) numeric() []int {
	var all []int
	for _, c := range t.Cells {
		if !slices.Contains(all, c.Column) {
			all = append(all, c.Column)
		}
	}
	slices.Sort(all)
	return all
}

// work tells works apart: a later edition is the same one.
func work(key, title string) string {
	if title == "" {
		return key
	}
	return title
}
