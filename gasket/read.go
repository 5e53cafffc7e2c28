package gasket

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/units"
)

// ReadPattern reads a list of holes: comma-separated values, lines that start
// with # apart. The first line names the columns, x and y and, where wanted,
// hole (a name) and diameter, in capitals or not; a column of lengths may name its
// unit, and its cells are then plain numbers:
//
//	hole, x mm, y mm, diameter mm        hole, x, y
//	1, -24, -16, 3.4                     1, 15/16 in, 0.25 in
//
// Cells of a column without a unit carry their own. A blank diameter is not
// known; a blank name becomes the number of the row. A file that is not like
// this, a name that stands twice or is not 40 printable characters at most, and
// more than 100,000 holes are errors that name the line.
func ReadPattern(r io.Reader) (Pattern, error) {
	var p Pattern
	seen := map[string]int{}
	err := readRows(r, []string{"x", "y"}, []string{"hole", "diameter"}, func(row *listRow) error {
		h := Hole{Name: row.text("hole"), At: Point{row.length("x"), row.length("y")}}
		if row.text("diameter") != "" {
			if h.Diameter = row.length("diameter"); row.err == nil && h.Diameter.Sign() <= 0 {
				return row.fail("diameter", "not above zero")
			}
		}
		if h.Name == "" {
			h.Name = strconv.Itoa(len(p) + 1)
		}
		if !printable(h.Name) {
			return row.fail("hole", "not a printable name of at most 40 characters")
		}
		if first, twice := seen[h.Name]; twice {
			return row.fail("hole", fmt.Sprintf("the name stands in line %d too", first))
		}
		seen[h.Name] = row.line
		p = append(p, h)
		return row.err
	})
	if err == nil && len(p) == 0 {
		err = &units.ArgumentError{Package: "gasket", Field: "list of holes", Accepted: "at least one hole", Err: units.ErrMissing}
	}
	if err != nil {
		return nil, err
	}
	return p, nil
}

// ReadOutline reads the corners of an outline in the form of [ReadPattern], one
// corner or hole a line in order. The column part says what the line belongs to:
// outside, an opening by any other name, or hole. A corner may have a bulge, the
// tangent of a quarter of the angle of the arc to the next corner, positive
// anticlockwise; a hole has a diameter and may have a name in the column hole:
//
//	part, x mm, y mm, bulge, diameter mm
//	outside, 0, 0, , ,
//	outside, 60, 0, 1,
//	hole, 6, 20, , 3.4
//
// The outline need not be valid; see [Outline.Valid]. Errors are those of
// ReadPattern.
func ReadOutline(name string, r io.Reader) (Outline, error) {
	o := Outline{Name: name}
	openings := map[string]int{}
	last := ""
	err := readRows(r, []string{"part", "x", "y"}, []string{"bulge", "diameter", "hole"}, func(row *listRow) error {
		part := row.text("part")
		at := Point{row.length("x"), row.length("y")}
		if part == "hole" {
			if row.text("bulge") != "" {
				return row.fail("bulge", "a hole has none")
			}
			h := Hole{Name: row.text("hole"), At: at, Diameter: row.length("diameter")}
			if h.Name == "" {
				h.Name = strconv.Itoa(len(o.Holes) + 1)
			}
			if !printable(h.Name) {
				return row.fail("hole", "not a printable name of at most 40 characters")
			}
			o.Holes = append(o.Holes, h)
			last = part
			return row.err
		}
		if part == "" {
			return row.fail("part", "blank")
		}
		if row.text("diameter") != "" {
			return row.fail("diameter", "a corner has none")
		}
		v := Vertex{Point: at}
		if row.text("bulge") != "" {
			v.Bulge = row.number("bulge")
		}
		switch k, known := openings[part]; {
		case part == "outside":
			if last != part && len(o.Outside) > 0 {
				return row.fail("part", "the outside goes on after something else")
			}
			o.Outside = append(o.Outside, v)
		case known && last != part:
			return row.fail("part", "the opening goes on after something else")
		case known:
			o.Cutouts[k] = append(o.Cutouts[k], v)
		default:
			openings[part] = len(o.Cutouts)
			o.Cutouts = append(o.Cutouts, Loop{v})
		}
		last = part
		return row.err
	})
	if err == nil && len(o.Outside) == 0 {
		err = &units.ArgumentError{Package: "gasket", Field: "outline", Value: strconv.Quote(name), Accepted: "lines of the part outside", Err: units.ErrMissing}
	}
	if err != nil {
		return Outline{}, err
	}
	return o, nil
}

func printable(name string) bool {
	return utf8.ValidString(name) && utf8.RuneCountInString(name) <= 40 && !strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) })
}

// A listRow is a line of a list while it is read. Its methods keep the first
// complaint in err.
type listRow struct {
	line   int
	cells  []string
	column map[string]int
	unit   map[string]string
	err    error
}

func (r *listRow) text(column string) string {
	i, ok := r.column[column]
	if !ok {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

func (r *listRow) fail(column, problem string) error {
	if r.err == nil {
		r.err = &units.ArgumentError{Package: "gasket", Field: fmt.Sprintf("line %d, %s", r.line, column), Value: strconv.Quote(r.text(column)), Problem: problem, Accepted: "a list as ReadPattern and ReadOutline describe it", Err: units.ErrOutOfRange}
	}
	return r.err
}

func (r *listRow) length(column string) units.Length {
	text := r.text(column)
	if unit := r.unit[column]; unit != "" {
		text += " " + unit
	}
	l, err := units.ParseLength(text)
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("gasket: line %d, %s: %w", r.line, column, err)
	}
	return l
}

func (r *listRow) number(column string) float64 {
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil || !finite(v) {
		r.fail(column, "not a finite number")
	}
	return v
}

// listError says what may be done about a line that is not comma-separated
// values: an inch mark in a cell is the usual reason.
func listError(err error) error {
	if errors.Is(err, csv.ErrBareQuote) || errors.Is(err, csv.ErrQuote) {
		return fmt.Errorf("gasket: list: %w; accepted: inches as 1/4 in, and quotation marks only round a whole cell", err)
	}
	return fmt.Errorf("gasket: list: %w", err)
}

// readRows reads a list and hands each line to f.
func readRows(r io.Reader, must, may []string, f func(*listRow) error) error {
	const mostBytes = 16 << 20
	limited := &io.LimitedReader{R: r, N: mostBytes + 1}
	c := csv.NewReader(limited)
	c.Comment = '#'
	c.TrimLeadingSpace = true
	c.FieldsPerRecord = -1
	names, err := c.Read()
	if err == io.EOF {
		return &units.ArgumentError{Package: "gasket", Field: "list", Problem: "empty", Accepted: "a line that names the columns " + strings.Join(must, ", "), Err: units.ErrMissing}
	}
	if err != nil {
		return listError(err)
	}
	column, unit := map[string]int{}, map[string]string{}
	for i, name := range names {
		name, u, _ := strings.Cut(strings.TrimSpace(strings.TrimPrefix(name, "\ufeff")), " ")
		name = strings.ToLower(name)
		accepted := strings.Join(append(must, may...), ", ")
		_, twice := column[name]
		switch {
		case name == "" && i == len(names)-1:
			continue
		case twice:
			return outOfRange("column", strconv.Quote(name), "each column once")
		case !strings.Contains(", "+accepted+", ", ", "+name+", ") || name == "":
			return &units.ArgumentError{Package: "gasket", Field: "column", Value: strconv.Quote(name), Accepted: accepted + ", with a comma between columns", Err: units.ErrUnknown}
		}
		column[name] = i
		if u = strings.TrimSpace(u); u != "" {
			if name != "x" && name != "y" && name != "diameter" {
				return outOfRange("column", strconv.Quote(name+" "+u), "a unit for lengths only")
			}
			if _, err := units.ParseLength("1 " + u); err != nil {
				return fmt.Errorf("gasket: column %q: %w", name+" "+u, err)
			}
			unit[name] = u
		}
	}
	for _, name := range must {
		if _, ok := column[name]; !ok {
			return &units.ArgumentError{Package: "gasket", Field: "column", Value: strconv.Quote(name), Accepted: "columns " + strings.Join(must, ", "), Err: units.ErrMissing}
		}
	}
	for count := 1; ; count++ {
		cells, err := c.Read()
		if limited.N == 0 {
			return outOfRange("list", "", "at most 16 MB")
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return listError(err)
		}
		line, _ := c.FieldPos(0)
		row := &listRow{line: line, cells: cells, column: column, unit: unit}
		for i := len(cells); i < len(names); i++ {
			row.cells = append(row.cells, "")
		}
		for _, extra := range cells[min(len(cells), len(names)):] {
			if strings.TrimSpace(extra) != "" {
				return outOfRange(fmt.Sprintf("line %d", line), strconv.Quote(extra), fmt.Sprintf("no more cells than the %d columns", len(names)))
			}
		}
		if count > maxHoles {
			return outOfRange("list", fmt.Sprintf("more than %d lines", maxHoles), fmt.Sprintf("up to %d", maxHoles))
		}
		if err := f(row); err != nil {
			return err
		}
	}
}
