package table

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("table")

// Read reads the table in file name and makes each row into a T. The function
// asks the row for every column it has; a cell that is not what it asks for, a
// column that no row was asked for, and anything else that is off come back
// joined in one error, each with file and line.
func Read[T any](fsys fs.FS, name string, row func(*Row) T) ([]T, Header, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, Header{}, fmt.Errorf("table: %w", err)
	}
	f := &file{name: name, text: string(data)}
	f.readHeader()
	rows := make([]T, 0, strings.Count(f.text, "\n")) // a line each, but for the header
	for line, cells := range f.rows() {
		switch {
		case f.columns == nil:
			if f.readColumns(line, cells); len(f.problems) > 0 {
				return nil, Header{}, errors.Join(f.problems...)
			}
		case len(cells) != len(f.columns):
			f.complain(line, "cells: %d, where the table has %d columns", len(cells), len(f.columns))
		default:
			rows = append(rows, made(row, &Row{file: f, line: line, cells: cells}))
		}
	}
	switch {
	case f.columns == nil:
		f.complain(1, "no columns")
	case len(rows) == 0:
		f.complain(1, "no rows")
	default:
		f.checkUse()
	}
	return rows, f.header, errors.Join(f.problems...)
}

// made makes a row into a T. A cell that was complained of is zero for the function,
// which may panic for it; that, and any other panic, is a complaint of the row.
func made[T any](row func(*Row) T, r *Row) (v T) {
	before := len(r.file.problems)
	defer func() {
		if problem := recover(); problem != nil && len(r.file.problems) == before {
			r.Complain("%v", problem)
		}
	}()
	return row(r)
}

type file struct {
	name, text string
	header     Header
	columns    []string
	used       []bool      // columns that a row was asked for
	last       *source.Ref // of the row before
	problems   []error
}

func (f *file) complain(line int, format string, args ...any) {
	place, problem := fmt.Sprintf("%s:%d", f.name, line), fmt.Sprintf(format, args...)
	f.problems = append(f.problems, fail.Unreadable("file", place, problem, ""))
}

// readColumns takes the names of the columns.
func (f *file) readColumns(line int, names []string) {
	f.columns, f.used = slices.Clone(names), make([]bool, len(names))
	for i, name := range names {
		if name == "" || slices.Contains(names[:i], name) {
			f.complain(line, "column %d: name %q is blank or given twice", i+1, name)
		}
	}
	for _, must := range []string{"source", "locator"} {
		if !slices.Contains(names, must) {
			f.complain(line, "no column %q", must)
		}
	}
}

// checkUse complains of columns that no row was asked for.
func (f *file) checkUse() {
	for i, name := range f.columns {
		if !f.used[i] && name != "source" && name != "locator" {
			f.complain(1, "column %q is in the table but nothing reads it", name)
		}
	}
}

// A Row is one row of a table while it is read. Its methods record a complaint
// and return a zero value when the cell is not what was asked for.
type Row struct {
	file  *file
	line  int
	cells []string
}

// Complain records a problem of this row.
func (r *Row) Complain(format string, args ...any) { r.file.complain(r.line, format, args...) }

func (r *Row) cell(column string) string {
	i := slices.Index(r.file.columns, column)
	if i < 0 {
		r.Complain("no column %q", column)
		return ""
	}
	r.file.used[i] = true
	return r.cells[i]
}

// Has reports whether the cell is not blank.
func (r *Row) Has(column string) bool { return r.cell(column) != "" }

// Optional returns the text of a cell that may be blank.
func (r *Row) Optional(column string) string { return r.cell(column) }

// Text returns the text of a cell.
func (r *Row) Text(column string) string {
	s := r.Optional(column)
	if s == "" {
		r.Complain("column %q is blank", column)
	}
	return s
}

// Float returns a cell's plain decimal number.
func (r *Row) Float(column string) float64 {
	s := r.Text(column)
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.Trim(s, "+-.0123456789") != "" {
		r.Complain("column %q: %q is not a decimal number", column, s)
		return 0
	}
	return v
}

// Int returns a cell's whole number.
func (r *Row) Int(column string) int {
	s := r.Text(column)
	v, err := strconv.Atoi(s)
	if err != nil {
		r.Complain("column %q: %q is not a whole number", column, s)
	}
	return v
}

// As returns what read makes of the text of a cell; what read cannot read is a
// complaint.
func As[T any](r *Row, column string, read func(string) (T, error)) T {
	v, err := read(r.Text(column))
	if err != nil {
		r.Complain("column %q: %v", column, err)
	}
	return v
}

// Refs is [Row.Ref] as the sources of a result; rows that follow each other and
// come from one place share theirs.
func (r *Row) Refs() source.Refs {
	if ref := r.Ref(); r.file.last == nil || *r.file.last != ref {
		r.file.last = &ref
	}
	return source.Shared(r.file.last)
}

// Ref returns the source of the row with its place in it.
func (r *Row) Ref() source.Ref {
	key := r.Text("source")
	ref, ok := r.file.header.Sources[key]
	if !ok {
		r.Complain("source %q is not declared in the header", key)
	}
	ref.Locator = r.Optional("locator")
	if ref.Locator == "" && (ref.Kind == source.Published || ref.Kind == source.Unreviewed) {
		r.Complain("no locator for %v source %q", ref.Kind, key)
	}
	return ref
}
