package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// A csvTable is a shipped table with what can be changed in it.
type csvTable struct {
	name  string // path from the module's root
	text  []byte
	cells []cell
}

// A cell is one number of a table and one mistake in it.
type cell struct {
	line        int
	row, column string // the first cell of the row, and the column's name
	was, now    string
	at          int    // place of the digit in the file
	digit       byte   // in its place
	draw        string // puts the cells of a sample in order
	field       int
}

// number is a cell that is a number, of what unit it may be.
var number = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+|\d+/\d+|\d+ \d+/\d+)( mm| in)?$`)

func readTable(folder, name string) (*csvTable, error) {
	t := &csvTable{name: folder + "/" + name}
	var err error
	if t.text, err = os.ReadFile(filepath.FromSlash(t.name)); err != nil {
		return nil, err
	}
	starts := []int{0, 0} // of the lines, from 1
	for i, b := range t.text {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	r := csv.NewReader(bytes.NewReader(t.text))
	r.Comment = '#'
	columns, err := r.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", t.name, err)
	}
	filled, numbers := make([]int, len(columns)), make([]int, len(columns))
	var all []cell
	for {
		row, err := r.Read()
		if err == io.EOF {
			break
		} else if err != nil {
			return nil, fmt.Errorf("%s: %w", t.name, err)
		}
		for i, text := range row {
			if text == "" || columns[i] == "source" || columns[i] == "locator" {
				continue
			}
			filled[i]++
			if !number.MatchString(text) {
				continue
			}
			numbers[i]++
			line, column := r.FieldPos(i)
			c := cell{line: line, row: row[0], column: columns[i], was: text, field: i}
			at := starts[line] + column - 1
			if t.text[at] == '"' {
				at++
			}
			c.mistake(t.name, strings.Join(row, ","), at)
			all = append(all, c)
		}
	}
	for _, c := range all {
		if 2*numbers[c.field] > filled[c.field] {
			t.cells = append(t.cells, c)
		}
	}
	return t, nil
}

// mistake draws the digit that is mistyped and what it becomes.
func (c *cell) mistake(table, row string, at int) {
	sum := sha256.Sum256([]byte(table + "\n" + row + "\n" + c.column))
	c.draw = hex.EncodeToString(sum[2:])
	var digits []int
	for i := range len(c.was) {
		if '0' <= c.was[i] && c.was[i] <= '9' {
			digits = append(digits, i)
		}
	}
	i := digits[int(sum[0])%len(digits)]
	c.digit = '0' + (c.was[i]-'0'+1+sum[1]%9)%10
	c.now = c.was[:i] + string(c.digit) + c.was[i+1:]
	c.at = at + i
}
