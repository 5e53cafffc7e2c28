package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/evidence"
)

// A change is one digit of one cell, mistyped.
type change struct {
	line        int
	row, column string // the first cell of the row, and the column's name
	was, now    string
	at          int  // place of the digit in the file
	digit       byte // in its place
	draw        string
}

// changes returns a mistake for each number of a table, or for one of so many.
func changes(t *evidence.Table, every int) []change {
	var all []change
	for _, c := range t.Cells {
		row := t.Rows[c.Row]
		all = append(all, mistype(t, row, c))
	}
	if every > 1 {
		slices.SortFunc(all, func(a, b change) int { return strings.Compare(a.draw, b.draw) })
		all = all[:(len(all)+every-1)/every]
		slices.SortFunc(all, func(a, b change) int { return cmp.Compare(a.at, b.at) })
	}
	return all
}

// mistype draws the digit of a cell that is mistyped and what it becomes.
func mistype(t *evidence.Table, row evidence.TableRow, c evidence.Cell) change {
	column := t.Columns[c.Column]
	sum := sha256.Sum256([]byte(t.Path + "\n" + strings.Join(row.Texts, ",") + "\n" + column))
	var digits []int
	for i := range len(c.Text) {
		if '0' <= c.Text[i] && c.Text[i] <= '9' {
			digits = append(digits, i)
		}
	}
	i := digits[int(sum[0])%len(digits)]
	digit := '0' + (c.Text[i]-'0'+1+sum[1]%9)%10
	return change{
		line: row.Line, row: row.Texts[0], column: column,
		was: c.Text, now: c.Text[:i] + string(digit) + c.Text[i+1:],
		at: c.At + i, digit: digit, draw: hex.EncodeToString(sum[2:]),
	}
}
