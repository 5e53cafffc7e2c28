package main

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const pageWidth = 78

// A printer sets the text of the book: headings, paragraphs and tables that fit
// a page and can be read at arm's length.
type printer struct{ bytes.Buffer }

func (p *printer) blank() { p.WriteByte('\n') }

func (p *printer) line(s string) {
	p.WriteString(strings.TrimRight(s, " "))
	p.WriteByte('\n')
}

func (p *printer) heading(s string) {
	p.blank()
	p.line(s)
	p.line(strings.Repeat("-", pageWidth))
}

// para sets text in lines that fit the page.
func (p *printer) para(text string) { p.hang("", text) }

// hang sets text with its first line behind a mark and the others under the
// first.
func (p *printer) hang(mark, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark))
	line := mark
	empty := true
	for word := range strings.FieldsSeq(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > pageWidth {
			p.line(line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line += word
		empty = false
	}
	p.line(line)
}

// table sets rows in columns, the first to the left and the others to the
// right, a little closer where they would not fit the page. Rows may be of
// different length; a row of one cell does not widen the columns.
func (p *printer) table(rows [][]string) {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			if len(row) > 1 {
				widths[i] = max(widths[i], utf8.RuneCountInString(cell))
			}
		}
	}
	total, gap := 2, "   "
	for _, w := range widths {
		total += w
	}
	for len(gap) > 1 && total+len(gap)*(len(widths)-1) > pageWidth {
		gap = gap[1:]
	}
	for _, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			pad := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(cell)))
			if i == 0 {
				b.WriteString("  " + cell + pad)
			} else {
				b.WriteString(gap + pad + cell)
			}
		}
		p.line(b.String())
	}
}

// severityHeads say over the findings of one severity what it does.
var severityHeads = map[finding.Severity]string{
	finding.Danger:  "CAN HURT SOMEBODY",
	finding.Fails:   "WILL NOT WORK",
	finding.Caution: "COSTS POWER OR LIFE",
}

func (p *printer) findings(title string, findings finding.List) {
	p.heading(title)
	last := finding.Note
	for i, f := range findings {
		if f.Severity != last {
			p.line(severityHeads[f.Severity])
		}
		last = f.Severity
		mark, text := "  - ", f.Text
		if f.Where != "" {
			text = f.Where + ": " + text
		}
		if !f.Refs.IsZero() {
			text += " (" + f.Refs.String() + ")"
		}
		p.hang(mark, text)
		// What cures both ends alike is said once, after the second.
		if i+1 < len(findings) && findings[i+1].Code == f.Code && slices.Equal(findings[i+1].Remedies, f.Remedies) {
			continue
		}
		for _, remedy := range f.Remedies {
			p.hang("    > ", remedy)
		}
	}
}

// mm and inch print a length for a column, to a micron and to a tenth of a
// thou.
func mm(l units.Length) string   { return l.Text(units.Millimetres, 3) }
func inch(l units.Length) string { return l.Text(units.Inches, 4) }

// mmAndInch prints a length for a sentence.
func mmAndInch(l units.Length) string {
	return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Inches, 3) + ")"
}

// row is a line of a table of lengths: what it is, in millimetres, in inches,
// and a remark.
func row(what string, l units.Length, remark ...string) []string {
	return append([]string{what, mm(l), inch(l)}, remark...)
}
