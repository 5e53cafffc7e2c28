// Package table reads the CSV tables that the packages of this module embed:
// on first use, and strictly, with file and line in every complaint.
//
// A table opens with comment lines that say what it is:
//
//	# title: Tapping drills for ISO metric coarse threads
//	# edition: ISO 2306:1972
//	# unit: mm
//	# held: digits as printed, read in a reprint
//	# errata: none known
//	# source iso2306 | published | Drills for use prior to tapping screw threads, ISO 2306 | 1972 | as reprinted in a handbook
//
// then the names of the columns and one row a line. The columns source (a key
// declared by a source line) and locator (the place in that work) end every
// row. A blank cell means that the source does not say; it never means zero.
// Further comment lines, "# note: ...", are free.
package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("table")

// A Header is what the comment lines of a table say.
type Header struct {
	Title, Edition, Unit, Held, Errata string
	Sources                            map[string]source.Ref // by key, without locator
}

// Read reads the table in file name and makes each row into a T. The function
// asks the row for every column it has; a cell that is not what it asks for, a
// column that no row was asked for, and anything else that is off come back
// joined in one error, each with file and line.
func Read[T any](fsys fs.FS, name string, row func(*Row) T) ([]T, Header, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, Header{}, fmt.Errorf("table: %w", err)
	}
	f := &file{name: name, column: map[string]int{}}
	f.readHeader(data)

	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	r.ReuseRecord = true
	names, err := r.Read()
	if err != nil {
		return nil, Header{}, fmt.Errorf("table: %s: no columns: %w", name, err)
	}
	for i, column := range names {
		if _, double := f.column[column]; double || column == "" {
			f.complain(1, "column %d: name %q is blank or given twice", i+1, column)
		}
		f.column[column] = i
	}
	f.used = make([]bool, len(names))
	for _, must := range []string{"source", "locator"} {
		if _, ok := f.column[must]; !ok {
			f.complain(1, "no column %q", must)
		}
	}
	if len(f.problems) > 0 {
		return nil, Header{}, errors.Join(f.problems...)
	}

	var rows []T
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			f.problems = append(f.problems, fmt.Errorf("table: %s: %w", name, err))
			break
		}
		line, _ := r.FieldPos(0)
		rows = append(rows, row(&Row{file: f, line: line, cells: cells}))
	}
	if len(rows) == 0 {
		f.complain(1, "no rows")
	}
	for column, i := range f.column {
		if !f.used[i] && column != "source" && column != "locator" {
			f.complain(1, "column %q is in the table but nothing reads it", column)
		}
	}
	return rows, f.header, errors.Join(f.problems...)
}

// ReadHeader reads and checks the comment lines of a table alone.
func ReadHeader(fsys fs.FS, name string) (Header, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return Header{}, fmt.Errorf("table: %w", err)
	}
	f := &file{name: name}
	f.readHeader(data)
	return f.header, errors.Join(f.problems...)
}

type file struct {
	name     string
	header   Header
	column   map[string]int
	used     []bool
	last     *source.Ref // of the row before
	problems []error
}

func (f *file) complain(line int, format string, args ...any) {
	f.problems = append(f.problems, fail.Text("file", fmt.Sprintf("%s:%d", f.name, line), fmt.Sprintf(format, args...), "", units.ErrSyntax))
}

func (f *file) readHeader(data []byte) {
	f.header.Sources = map[string]source.Ref{}
	fields := map[string]*string{
		"title": &f.header.Title, "edition": &f.header.Edition, "unit": &f.header.Unit,
		"held": &f.header.Held, "errata": &f.header.Errata,
	}
	line := 0
	for raw := range strings.Lines(string(data)) {
		line++
		text, comment := strings.CutPrefix(strings.TrimSpace(raw), "#")
		if !comment {
			continue
		}
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		if rest, ok := strings.CutPrefix(text, "source "); ok {
			f.readSource(line, rest)
			continue
		}
		key, value, ok := strings.Cut(text, ":")
		value = strings.TrimSpace(value)
		switch field := fields[key]; {
		case key == "note" && ok:
		case !ok || field == nil:
			f.complain(line, "comment %q is none of title, edition, unit, held, errata, note or source", key)
		case *field != "":
			f.complain(line, "%s given twice", key)
		default:
			*field = value
		}
	}
	for _, key := range []string{"title", "edition", "unit", "held", "errata"} {
		if *fields[key] == "" {
			f.complain(1, "the header does not say %q", key)
		}
	}
}

func (f *file) readSource(line int, text string) {
	parts := strings.Split(text, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if len(parts) < 4 || len(parts) > 5 {
		f.complain(line, "source: want KEY | kind | title | edition, and perhaps | note")
		return
	}
	kind, err := source.ParseKind(parts[1])
	if err != nil {
		f.complain(line, "%v", err)
	}
	if _, double := f.header.Sources[parts[0]]; double || parts[0] == "" || parts[2] == "" && kind != source.CommonPractice {
		f.complain(line, "source %q: key or title blank, or key given twice", parts[0])
	}
	ref := source.Ref{Kind: kind, Title: parts[2], Edition: parts[3]}
	if len(parts) == 5 {
		ref.Note = parts[4]
	}
	f.header.Sources[parts[0]] = ref
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
	i, ok := r.file.column[column]
	if !ok {
		r.Complain("no column %q", column)
		return ""
	}
	r.file.used[i] = true
	return strings.TrimSpace(r.cells[i])
}

// Has reports whether the cell is not blank.
func (r *Row) Has(column string) bool { return r.cell(column) != "" }

// Optional returns the text of a cell that may be blank.
func (r *Row) Optional(column string) string { return strings.Clone(r.cell(column)) }

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
