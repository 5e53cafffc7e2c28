package book

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// width is the most characters of a line.
const width = 78

// longWord is the most characters of one text that stands in a column of values;
// a longer one runs on in lines of its own.
const longWord = 24

// WriteText writes the book for a person to read, in lines of at most 78
// characters: what is wrong, the sections, what is worth knowing, the sources, the
// precautions.
func (b Book) WriteText(w io.Writer) error {
	p := &printer{numbers: b.numbering()}
	p.hang("", b.Title)
	if b.From != "" {
		p.hang("", "from "+b.From)
	}
	all := b.All()
	serious := 0
	for serious < len(all) && all[serious].Severity > finding.Note {
		serious++
	}
	p.findings("WHAT IS WRONG", slipsFirst(all[:serious]))
	for _, s := range b.Sections {
		p.section(s)
	}
	p.findings("WORTH KNOWING", all[serious:])
	if len(p.numbers.refs) > 0 {
		p.heading("SOURCES")
		for i, ref := range p.numbers.refs {
			p.hang(fmt.Sprintf("%4s ", mark([]int{i + 1})), ref.String())
		}
	}
	if len(b.Precautions) > 0 {
		p.heading("MIND")
		for _, c := range b.Precautions {
			p.hang("  - ", c.Text+p.cited(source.Of(c.Ref)))
		}
	}
	_, err := w.Write(p.Bytes())
	return err
}

// severityHeads say over the findings of one severity what it does.
var severityHeads = map[finding.Severity]string{
	finding.Danger:  "CAN HURT SOMEBODY",
	finding.Fails:   "WILL NOT WORK",
	finding.Caution: "COSTS POWER OR LIFE",
}

type printer struct {
	bytes.Buffer
	numbers *numbering
}

func (p *printer) line(s string) { p.WriteString(fault.Visible(strings.TrimRight(s, " ")) + "\n") }

func (p *printer) heading(s string) {
	p.line("")
	p.line(s)
	p.line(strings.Repeat("-", width))
}

// hang sets text in lines that fit the page, the first behind a mark and the
// others under the first. A word that is longer than a line stays whole.
func (p *printer) hang(mark, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark))
	var line strings.Builder
	line.WriteString(mark)
	long, empty := utf8.RuneCountInString(mark), true
	for word := range strings.FieldsSeq(text) {
		word = fault.Visible(word) // as long as it is shown
		letters := utf8.RuneCountInString(word)
		if !empty && long+1+letters > width {
			p.line(line.String())
			line.Reset()
			line.WriteString(indent)
			long, empty = len(indent), true
		}
		if !empty {
			line.WriteByte(' ')
			long++
		}
		line.WriteString(word)
		long, empty = long+letters, false
	}
	p.line(line.String())
}

// mark returns numbers of works as they stand in the text: "[1, 3]".
func mark(numbers []int) string {
	return strings.ReplaceAll(fmt.Sprint(numbers), " ", ", ")
}

// cited returns the numbers of sources with a space before them, and says so
// where one of them was not read in a reviewed work; nothing for no sources.
func (p *printer) cited(refs source.Refs) string {
	if refs.IsZero() {
		return ""
	}
	text := " " + mark(p.numbers.of(refs))
	for _, kind := range []source.Kind{source.FromMemory, source.Unreviewed} {
		for ref := range refs.All() {
			if ref.Kind == kind {
				text += " (" + kind.String() + ")"
				break
			}
		}
	}
	return text
}

// headOf returns what stands over a finding; nothing over one that is worth
// knowing only.
func headOf(f finding.Finding) string {
	if isSlip(f) {
		return "LOOKS LIKE A SLIP: SEE TO IT FIRST"
	}
	return severityHeads[f.Severity]
}

func isSlip(f finding.Finding) bool { return f.Slip && f.Severity < finding.Danger }

// cureAlike reports whether two findings, of one kind or of one place, have the
// same remedies.
func cureAlike(a, b finding.Finding) bool {
	return (a.Code == b.Code || a.Where == b.Where) && slices.Equal(a.Remedies, b.Remedies)
}

// slipsFirst puts what looks like a slip before what it explains, and behind what
// can hurt somebody.
func slipsFirst(all finding.List) finding.List {
	place := func(f finding.Finding) int {
		switch {
		case f.Severity == finding.Danger:
			return 0
		case isSlip(f):
			return 1
		}
		return 2
	}
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b finding.Finding) int { return cmp.Compare(place(a), place(b)) })
	return all
}

func (p *printer) findings(title string, findings finding.List) {
	if len(findings) == 0 {
		return
	}
	p.heading(title)
	last := ""
	for i, f := range findings {
		head := headOf(f)
		if head != last && head != "" {
			p.line(head)
		}
		last = head
		text := f.Text + p.cited(f.Refs)
		if f.Where != "" {
			text = f.Where + ": " + text
		}
		p.hang("  - ", text)
		// What cures two is said once, after the second.
		if i+1 < len(findings) && headOf(findings[i+1]) == head && cureAlike(findings[i+1], f) {
			continue
		}
		for _, remedy := range f.Remedies {
			p.hang("    > ", remedy)
		}
	}
}

func (p *printer) section(s Section) {
	before := p.Len()
	if s.Title != "" {
		p.heading(s.Title)
	} else {
		p.line("")
	}
	head := p.Len()
	defer func() {
		if p.Len() == head && s.Title == "" { // all of it stands elsewhere in the text
			p.Truncate(before)
		}
	}()
	for _, text := range s.Intro {
		p.hang("", text)
	}
	for i, item := range s.Items {
		if i > 0 && isGrid(item.Values) || item.Title != "" && (i > 0 || len(s.Intro) > 0) {
			p.line("")
		}
		p.item(item)
	}
	if len(s.Notes) > 0 && len(s.Items) > 0 {
		p.line("")
	}
	for _, text := range s.Notes {
		p.hang("", text)
	}
}

// item sets an item. A formula that says what it gives needs no mark.
func (p *printer) item(i Item) {
	if i.Title != "" {
		p.hang("", i.Title)
	}
	p.values(i.Values)
	for _, t := range i.Tables {
		p.table(t)
	}
	for _, f := range i.Formulas {
		mark := "  = "
		if strings.Contains(f.Text, " = ") {
			mark = "  "
		}
		p.hang(mark, f.Text+p.cited(f.Refs))
	}
	for _, n := range i.Notes {
		p.hang("  ", n.Text+p.cited(n.Refs))
	}
	for _, f := range i.Figures {
		if f.File != "" { // a picture has no text
			p.hang("  ", f.Title+": "+f.File)
		}
	}
}

// values sets values in columns: a row each, or a row for each label where they
// have columns. A long text or a list does not widen its column.
func (p *printer) values(values []Value) {
	if isGrid(values) {
		p.columns(p.grid(values), false)
		return
	}
	var rows [][]string
	most := 0
	for _, v := range values {
		if v.Label != "" {
			most = max(most, len(v.What.texts))
		}
	}
	for _, v := range values {
		switch {
		case v.Label == "":
		case v.What.list() || len(v.What.texts) == 1 && utf8.RuneCountInString(v.What.texts[0]) > longWord:
			rows = append(rows, []string{v.Label, p.cell(v)})
		default:
			texts := append(append([]string{}, v.What.texts...), make([]string, most-len(v.What.texts))...)
			rows = append(rows, append(append([]string{v.Label}, texts...), p.behind(v)))
		}
	}
	p.columns(rows, true)
}

// isGrid reports whether values stand below the heads of columns.
func isGrid(values []Value) bool {
	return slices.ContainsFunc(values, func(v Value) bool { return v.Column != "" })
}

// grid sets the values of one label in one row, each below the head of its column.
// A head may come again, for the second of two things that are shown alike.
func (p *printer) grid(values []Value) [][]string {
	head := []string{""}
	var rows [][]string
	at := map[string]int{}
	for _, v := range values {
		if v.Label == "" {
			continue
		}
		i, known := at[v.Label]
		if !known {
			i = len(rows)
			at[v.Label] = i
			rows = append(rows, []string{v.Label})
		}
		column := len(rows[i])
		for column < len(head) && head[column] != v.Column {
			column++
		}
		if column == len(head) {
			head = append(head, v.Column)
		}
		for len(rows[i]) < column {
			rows[i] = append(rows[i], "")
		}
		rows[i] = append(rows[i], p.cell(v))
	}
	return append([][]string{head}, rows...)
}

// behind is what stands behind a value: the remark and the sources.
func (p *printer) behind(v Value) string {
	return strings.TrimSpace(v.Remark + p.cited(v.Refs))
}

// cell is all of a value in one cell.
func (p *printer) cell(v Value) string {
	return strings.TrimSpace(strings.Join(v.What.texts, "  ") + " " + p.behind(v))
}

// behindWidths returns the room behind the values of each column of a table, so
// that what stands there does not move them.
func (p *printer) behindWidths(rows []Row) []int {
	var widths []int
	for _, r := range rows {
		i := 0
		for _, v := range r.Values {
			if v.Label == "" {
				continue
			}
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(p.behind(v)))
			i++
		}
	}
	return widths
}

// silent reports whether a table has nothing to show: its text stands elsewhere.
func (t Table) silent() bool {
	for _, r := range t.Rows {
		if r.Label != "" || len(r.Below) > 0 || slices.ContainsFunc(r.Values, func(v Value) bool { return v.Label != "" }) {
			return false
		}
	}
	return true
}

func (p *printer) table(t Table) {
	if t.Title != "" {
		p.hang("  ", t.Title)
	}
	if len(t.Rows) == 0 || t.silent() {
		return
	}
	if t.Tick {
		p.ticked(t)
		return
	}
	widths := p.behindWidths(t.Rows)
	before := func(text, behind string, i int) string {
		if widths[i] == 0 {
			return text
		}
		return text + " " + behind + strings.Repeat(" ", widths[i]-utf8.RuneCountInString(behind))
	}
	head := []string{t.Label}
	for _, v := range t.Rows[0].Values {
		if v.Label != "" {
			head = append(head, before(v.Label, "", len(head)-1))
		}
	}
	rows, group := [][]string{head}, ""
	for _, r := range t.Rows {
		if r.Group != group {
			group = r.Group
			rows = append(rows, []string{group})
		}
		row := []string{r.Label}
		for _, v := range r.Values {
			if v.Label != "" {
				row = append(row, before(strings.Join(v.What.texts, "  "), p.behind(v), len(row)-1))
			}
		}
		rows = append(rows, row)
		for _, text := range r.Below {
			rows = append(rows, []string{"  " + text})
		}
	}
	p.columns(rows, false)
}

// parted is a value with a comma before its remark, for a table of work.
func (v Value) parted() Value {
	if v.Remark == "" || v.GoesOn || v.What.Text() == "" {
		return v
	}
	v.What.texts = slices.Clone(v.What.texts)
	v.What.texts[len(v.What.texts)-1] += ","
	return v
}

// ticked sets work that is to be ticked: a line says what is done, and behind it what
// there is of the columns, each with its head.
func (p *printer) ticked(t Table) {
	wide, group := 0, ""
	for _, r := range t.Rows {
		wide = max(wide, min(utf8.RuneCountInString(fault.Visible(r.Label)), width/2))
	}
	for _, r := range t.Rows {
		if r.Group != group {
			group = r.Group
			p.hang("  ", group)
		}
		var texts []string
		for _, v := range r.Values {
			if cell := p.cell(v.parted()); v.Label != "" && cell != "" {
				texts = append(texts, v.Label+" "+cell)
			}
		}
		says, label := strings.Join(append(texts, r.Below...), "; "), fault.Visible(r.Label)
		if long := utf8.RuneCountInString(label); long > wide {
			p.hang("  [ ] ", r.Label+" "+says)
		} else {
			p.hang("  [ ] "+label+strings.Repeat(" ", wide-long+3), says)
		}
	}
}

// columns sets rows in columns, the first to the left, the others to the right
// and the last, where it is words, behind them in lines that fit the page; a
// little closer where they would not. A row of one cell does not widen the columns.
func (p *printer) columns(rows [][]string, words bool) {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			cell = fault.Visible(cell)
			row[i] = cell
			if words && i == len(row)-1 && len(row) > 1 {
				continue
			}
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
	for len(gap) > 1 && total+len(gap)*(len(widths)-1) > width {
		gap = gap[1:]
	}
	for _, row := range rows {
		if len(row) == 1 {
			text := strings.TrimLeft(row[0], " ")
			p.hang("  "+row[0][:len(row[0])-len(text)], text)
			continue
		}
		line := "  " + row[0] + strings.Repeat(" ", max(0, widths[0]-utf8.RuneCountInString(row[0])))
		cells, last := row[1:], ""
		if words {
			cells, last = row[1:len(row)-1], row[len(row)-1]
		}
		for i, cell := range cells {
			line += gap + strings.Repeat(" ", max(0, widths[i+1]-utf8.RuneCountInString(cell))) + cell
		}
		fits := utf8.RuneCountInString(line+gap+last) <= width
		if short := strings.TrimRight(line, " "); !fits && utf8.RuneCountInString(short+gap+last) <= width {
			line, fits = short, true
		}
		switch {
		case last != "" && (fits || utf8.RuneCountInString(line) <= width*5/8):
			p.hang(line+gap, last)
		case last != "":
			p.line(line)
			p.hang("      ", last)
		default:
			p.line(line)
		}
	}
}
