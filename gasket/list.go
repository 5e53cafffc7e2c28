package gasket

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/units"
)

// A listRow is a line of a list while it is read. Its methods keep the first
// complaint in err.
type listRow struct {
	line  int
	cells []string
	head  *listHead
	err   error
}

// A listHead is the first line of a list, which names the columns.
type listHead struct {
	column map[string]int
	unit   map[string]string
}

func (r *listRow) text(column string) string {
	i, ok := r.head.column[column]
	if !ok {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

// complain keeps and returns the complaint about a cell, unless there is one.
func (r *listRow) complain(column, problem, accepted string) error {
	if r.err == nil {
		r.err = fail.Text(r.place(column), r.text(column), problem, accepted, units.ErrOutOfRange)
	}
	return r.err
}

func (r *listRow) place(column string) string { return fmt.Sprintf("line %d, %s", r.line, column) }

func (r *listRow) length(column string) units.Length {
	text := r.text(column)
	if unit := r.head.unit[column]; unit != "" {
		text += " " + unit
	}
	l, err := units.ParseLength(text)
	if err != nil && r.err == nil {
		r.err = placed(r.place(column), err)
	}
	return l
}

// name returns the name of the hole in the column hole, or its number where it has
// none. seen has the line in which each name was given.
func (r *listRow) name(number int, seen map[string]int) string {
	name := r.text("hole")
	if name == "" {
		name = strconv.Itoa(number)
	}
	first, twice := seen[name]
	switch {
	case !printable(name):
		r.complain("hole", "not a name", "up to 40 printable characters")
	case twice:
		r.complain("hole", fmt.Sprintf("the name was given in line %d", first), "each name once")
	}
	seen[name] = r.line
	return name
}

func printable(name string) bool {
	unseen := func(r rune) bool { return !unicode.IsPrint(r) }
	return utf8.ValidString(name) && utf8.RuneCountInString(name) <= 40 && !strings.ContainsFunc(name, unseen)
}

func (r *listRow) number(column string) float64 {
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.complain(column, "not a finite number", "a number such as 0.4142")
	}
	return v
}

// placed returns an error about unreadable text with the place that it was read
// from.
func placed(where string, err error) error {
	var bad *units.ParseError
	if !errors.As(err, &bad) {
		return err
	}
	named := *bad
	named.Package, named.What = string(fail), where
	return &named
}

const (
	mostBytes = 16 << 20
	mostLines = maxHoles
)

// readRows reads a list and hands each line to f.
func readRows(r io.Reader, must, may []string, f func(*listRow) error) error {
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return fmt.Errorf("gasket: list: %w", err)
	}
	if len(data) > mostBytes {
		return fail.Text("list", "", "more than 16 MB of text", "at most 16 MB", units.ErrOutOfRange)
	}
	c := csv.NewReader(bytes.NewReader(data))
	c.Comment = '#'
	c.TrimLeadingSpace = true
	c.FieldsPerRecord = -1
	names, err := c.Read()
	if err == io.EOF {
		accepted := "a line that names the columns " + strings.Join(must, ", ")
		return fail.Text("list", "", "empty", accepted, units.ErrMissing)
	}
	if err != nil {
		return notAList(data, err)
	}
	head, err := readHead(names, must, may)
	if err != nil {
		return err
	}
	for count := 1; ; count++ {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return notAList(data, err)
		}
		line, _ := c.FieldPos(0)
		row := &listRow{line: line, cells: cells, head: head}
		for i := len(cells); i < len(names); i++ {
			row.cells = append(row.cells, "")
		}
		for _, extra := range cells[min(len(cells), len(names)):] {
			if strings.TrimSpace(extra) != "" {
				accepted := fmt.Sprintf("no more cells than the %d columns", len(names))
				return fail.Text(fmt.Sprintf("line %d, cell", line), extra, "one cell too many", accepted, units.ErrOutOfRange)
			}
		}
		if count > mostLines {
			problem := fmt.Sprintf("more than %d lines", mostLines)
			return fail.Text("list", "", problem, fmt.Sprintf("up to %d", mostLines), units.ErrOutOfRange)
		}
		if err := f(row); err != nil {
			return err
		}
	}
}

// readHead reads the names of the columns and the units that some of them give.
func readHead(names, must, may []string) (*listHead, error) {
	h := &listHead{map[string]int{}, map[string]string{}}
	known := slices.Concat(must, may)
	for i, cell := range names {
		name, unit, _ := strings.Cut(strings.TrimSpace(strings.TrimPrefix(cell, "\ufeff")), " ")
		name, unit = strings.ToLower(name), strings.TrimSpace(unit)
		_, twice := h.column[name]
		switch {
		case name == "" && i == len(names)-1:
			continue
		case twice:
			return nil, fail.Text("column", name, "given twice", "each column once", units.ErrOutOfRange)
		case !slices.Contains(known, name):
			accepted := strings.Join(known, ", ") + ", with a comma between columns"
			return nil, fail.UnknownName("column", name, accepted)
		}
		h.column[name] = i
		if unit == "" {
			continue
		}
		if name != "x" && name != "y" && name != "diameter" {
			return nil, fail.Text("column", name+" "+unit, "has a unit", "a unit for lengths only", units.ErrOutOfRange)
		}
		if _, err := units.ParseLength("1 " + unit); err != nil {
			return nil, placed(fmt.Sprintf("column %s, of which the unit", name), err)
		}
		h.unit[name] = unit
	}
	for _, name := range must {
		if _, ok := h.column[name]; !ok {
			accepted := "columns " + strings.Join(must, ", ")
			return nil, fail.Text("column", name, "", accepted, units.ErrMissing)
		}
	}
	return h, nil
}

// notAList says what may be done about a line that is not comma-separated values:
// an inch mark in a cell is the usual reason.
func notAList(data []byte, err error) error {
	var bad *csv.ParseError
	if !errors.As(err, &bad) {
		return fmt.Errorf("gasket: list: %w", err)
	}
	line := bytes.Split(data, []byte("\n"))[bad.StartLine-1]
	problem := "not comma-separated values: " + bad.Err.Error()
	const accepted = "inches as 1/4 in, and quotation marks only round a whole cell"
	return fail.Unreadable(fmt.Sprintf("line %d", bad.StartLine), strings.TrimRight(string(line), "\r"), problem, accepted)
}
