package book

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed page.html
var pageText string

//go:embed page.css
var pageStyle string

var pageTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Parse(pageText))
})

// pageWidth is the width in millimetres of a drawing that is as wide as the page; on
// paper, as wide as one of the two columns there, with letters of 2.5 mm still 2 mm high.
const pageWidth = 118

// WriteHTML writes the book as one page of HTML with its pictures in it, for a
// screen from that of a telephone up and for printing on A4 and Letter. It asks for
// nothing outside itself, runs no script, and is XML as well.
func (b Book) WriteHTML(w io.Writer) error {
	m := &pageMaker{book: b, numbers: b.numbering(), all: b.All()}
	view := m.page()
	if m.err != nil {
		return m.err
	}
	var text bytes.Buffer
	if err := pageTemplate().Execute(&text, view); err != nil {
		return err
	}
	for line := range strings.Lines(text.String()) {
		if _, err := io.WriteString(w, fault.Visible(strings.TrimSuffix(line, "\n"))+"\n"); err != nil {
			return err
		}
	}
	return nil
}

// What follows is the page as the template shows it.

type pageView struct {
	Program, Title, From string
	Style                template.CSS
	Contents             []entryView
	Wrong, Known         []groupView
	MindFirst            bool // something can hurt: right behind it
	MindFolded           bool // a booklet: on its first sheet, folded away on a screen
	Mind                 []lineView
	Front                []sectionView // before the first part
	Parts                []partView
	Works                []workView
}

// An entryView is a line of the contents.
type entryView struct{ ID, Text string }

// A headView is a heading, of the level that it has in the page.
type headView struct {
	Level    int
	ID, Text string
}

// A lineView is text with the works that it rests on.
type lineView struct {
	Text  string
	Cited []citeView
}

type citeView struct {
	Number int
	Kind   string // where it was not read in a reviewed work
}

type workView struct {
	Number int
	Text   string
}

// A groupView is findings below one head.
type groupView struct {
	Head     headView
	Class    string
	Findings []findingView
}

type findingView struct {
	Number   int
	Where    string
	Line     lineView
	Remedies []string
}

// A partView is a part of the booklet, which begins a sheet of paper, or what stands
// before the first.
type partView struct {
	Head     headView
	Name     string
	Number   int // 0: what stands before the first, or all of a book without parts
	Sections []sectionView
}

type sectionView struct {
	ID, Class string
	Head      headView
	Intro     []string
	Items     []itemView
	Notes     []string
}

type itemView struct {
	Head     headView
	Figures  []figureView
	Tables   []tableView
	Working  []lineView
	Notes    []lineView
	Files    []figureView
	Findings []int
}

type figureView struct {
	Title, Caption, File string
	Share                string // of the width of the page, in per cent
	Class                string
	Drawing              template.HTML
}

// A tableView is a table, or values one below the other, which have no heads.
type tableView struct {
	Title   string
	Class   string // "keep": not parted between two sheets of paper
	Heads   []cellView
	Labels  bool // the rows have labels
	Grouped bool // and ticked: the first column is that of the groups
	Label   string
	Group   string
	Ticks   bool
	Columns int // with that of the labels and the boxes
	Figures int // columns of values one below the other
	Rows    []rowView
}

type rowView struct {
	Group string // heading above it, or beside it and those below it where they are ticked
	Span  int    // rows of the group
	Label cellView
	Tick  string
	Cells []cellView
	Below []string
}

type cellView struct {
	Head   string   // of its column, where it is not seen
	Texts  []string // in each unit
	Remark string
	Cited  []citeView
	Class  string
	Span   int
}

// A pageMaker makes the page of a book.
type pageMaker struct {
	book    Book
	numbers *numbering
	all     finding.List
	figures int
	err     error
}

func (m *pageMaker) page() pageView {
	b := m.book
	v := pageView{
		Program: b.Program, Title: b.Title, From: b.From,
	}
	serious := 0
	for serious < len(m.all) && m.all[serious].Severity > finding.Note {
		serious++
	}
	m.all = append(slipsFirst(m.all[:serious]), m.all[serious:]...)
	v.Wrong = m.groups(0, m.all[:serious])
	v.Known = m.groups(serious, m.all[serious:])
	worst, _ := m.all.Worst()
	v.MindFirst = worst == finding.Danger
	for _, p := range b.Precautions {
		v.Mind = append(v.Mind, m.line(p.Text, source.Of(p.Ref)))
	}
	if v.Parts = m.parts(); len(v.Parts) > 1 && v.Parts[0].Number == 0 {
		v.Front, v.Parts = v.Parts[0].Sections, v.Parts[1:]
	}
	for i, ref := range m.numbers.refs {
		v.Works = append(v.Works, workView{i + 1, ref.String()})
	}
	v.MindFolded = !v.MindFirst && len(v.Parts) > 0 && v.Parts[0].Number > 0
	v.Contents = v.contents()
	v.Style = v.style()
	return v
}

// style is the style of the page, with what stands at the head of each sheet of
// paper: the title, and the part.
func (v pageView) style() template.CSS {
	var b strings.Builder
	b.WriteString(pageStyle)
	const room = 60 // characters
	fmt.Fprintf(&b, "@page { @top-left { content: %s; } }\n", quoted(short(v.Title, room)))
	for _, p := range v.Parts {
		if p.Number > 0 {
			fmt.Fprintf(&b, "@page part%d { @top-right { content: %s; } }\n", p.Number, quoted(short(p.Head.Text, room)))
		}
	}
	b.WriteString("@page :first { @top-left { content: none; } }\n")
	return template.CSS(b.String())
}

// quoted returns a text as a string of CSS, all but letters, digits and blanks of
// ASCII as escapes.
func quoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range fault.Visible(text) {
		if r == ' ' || r < utf8.RuneSelf && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\%x `, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// contents lists the parts, or where there are none the sections of a long page.
func (v pageView) contents() []entryView {
	var all []entryView
	for _, p := range v.Parts {
		if p.Head.Text != "" {
			all = append(all, entryView{p.Head.ID, p.Head.Text})
		}
	}
	few := 3
	if len(all) == 0 {
		few = 6
		for _, p := range v.Parts {
			for _, s := range p.Sections {
				if s.Head.Text != "" {
					all = append(all, entryView{s.Head.ID, s.Head.Text})
				}
			}
		}
	}
	if len(all) <= few {
		return nil
	}
	mind := []entryView{}
	if len(v.Mind) > 0 {
		mind = append(mind, entryView{"mind", "MIND"})
	}
	if v.MindFolded {
		all = append(mind, all...)
	}
	if len(v.Known) > 0 {
		all = append(all, entryView{"worth-knowing", "WORTH KNOWING"})
	}
	if len(v.Works) > 0 {
		all = append(all, entryView{"works", "SOURCES"})
	}
	if !v.MindFolded {
		all = append(all, mind...)
	}
	return all
}

// short cuts a text that has no room.
func short(text string, most int) string {
	if letters := []rune(text); len(letters) > most {
		return strings.TrimRight(string(letters[:most-1]), " ") + "…"
	}
	return text
}

func (m *pageMaker) line(text string, refs source.Refs) lineView {
	return lineView{text, m.cited(refs)}
}

func (m *pageMaker) cited(refs source.Refs) []citeView {
	var all []citeView
	numbers := m.numbers.of(refs)
	i := 0
	for ref := range refs.All() {
		c := citeView{Number: numbers[i]}
		if ref.Kind == source.FromMemory || ref.Kind == source.Unreviewed {
			c.Kind = ref.Kind.String()
		}
		all = append(all, c)
		i++
	}
	return all
}

// groups puts findings below their heads; the first of them has the given place in
// the book.
func (m *pageMaker) groups(first int, findings finding.List) []groupView {
	var all []groupView
	for i, f := range findings {
		text := headOf(f)
		if len(all) == 0 || all[len(all)-1].Head.Text != text {
			class := f.Severity.String()
			if isSlip(f) {
				class = "slip"
			}
			all = append(all, groupView{Head: headView{Level: 3, Text: text}, Class: class})
		}
		v := findingView{Number: first + i + 1, Where: f.Where, Line: m.line(f.Text, f.Refs), Remedies: f.Remedies}
		// What cures two is said once, after the second.
		if i+1 < len(findings) && headOf(findings[i+1]) == text && cureAlike(findings[i+1], f) {
			v.Remedies = nil
		}
		g := &all[len(all)-1]
		g.Findings = append(g.Findings, v)
	}
	return all
}

// parts puts the sections into the parts of the booklet.
func (m *pageMaker) parts() []partView {
	var all []partView
	level := 2
	number := 0
	for i, s := range m.book.Sections {
		if s.Page != "" {
			number++
			id := fmt.Sprintf("part-%d", number)
			all = append(all, partView{Head: headView{2, id, fmt.Sprintf("%d  %s", number, s.Page)}, Name: s.Page, Number: number})
			level = 3
		} else if len(all) == 0 {
			all = append(all, partView{})
		}
		p := &all[len(all)-1]
		if strings.EqualFold(s.Title, p.Name) { // it is said once
			s.Title = ""
		}
		if v := m.section(s, level, i); !v.empty() {
			p.Sections = append(p.Sections, v)
		}
	}
	return all
}

func (v sectionView) empty() bool {
	return v.Head.Text == "" && len(v.Intro) == 0 && len(v.Items) == 0 && len(v.Notes) == 0
}

func (m *pageMaker) section(s Section, level, number int) sectionView {
	v := sectionView{
		ID: s.Key, Class: s.Key, Head: headView{level, fmt.Sprintf("section-%d", number+1), s.Title}, Intro: s.Intro, Notes: s.Notes,
	}
	if s.Title != "" {
		level++
	}
	for _, i := range s.Items {
		if item := m.item(i, level); !item.empty() {
			v.Items = append(v.Items, item)
		}
	}
	return v
}

func (v itemView) empty() bool {
	shown := len(v.Figures) + len(v.Tables) + len(v.Working) + len(v.Notes) + len(v.Files) + len(v.Findings)
	return v.Head.Text == "" && shown == 0
}

func (m *pageMaker) item(i Item, level int) itemView {
	v := itemView{Head: headView{Level: level, Text: i.Title}}
	for _, f := range i.Figures {
		if f.Drawing != nil {
			v.Figures = append(v.Figures, m.figure(f))
		} else {
			v.Files = append(v.Files, figureView{Title: f.Title, File: f.File})
		}
	}
	if t := m.values(i.Values); len(t.Rows) > 0 {
		v.Tables = append(v.Tables, t)
	}
	for _, t := range i.Tables {
		if t := m.table(t); len(t.Rows) > 0 || t.Title != "" {
			v.Tables = append(v.Tables, t)
		}
	}
	for _, f := range i.Formulas {
		v.Working = append(v.Working, m.line(f.Text, f.Refs))
	}
	for _, n := range i.Notes {
		v.Notes = append(v.Notes, m.line(n.Text, n.Refs))
	}
	for _, f := range i.Findings {
		v.Findings = append(v.Findings, 1+slices.IndexFunc(m.all, func(g finding.Finding) bool {
			return f.Code == g.Code && f.Severity == g.Severity && f.Where == g.Where && f.Text == g.Text
		}))
	}
	slices.Sort(v.Findings)
	return v
}

func (m *pageMaker) figure(f Figure) figureView {
	m.figures++
	var svg bytes.Buffer
	err := sheet.WriteInlineSVG(&svg, fmt.Sprintf("figure-%d", m.figures), f.Title, f.Alt, f.Drawing)
	if err != nil && m.err == nil {
		m.err = fmt.Errorf("the picture %q cannot be drawn: %w", f.Key, err)
	}
	view := figureView{Title: f.Title, Caption: f.Caption, File: f.File, Drawing: template.HTML(svg.String())}
	paper := f.Drawing.Trimmed()
	view.Share = fault.Decimal(min(100, (paper.Max.X-paper.Min.X)/pageWidth*100), 2)
	if f.Large {
		view.Class = "large"
	}
	return view
}

// values sets values as [printer.values] does.
func (m *pageMaker) values(values []Value) tableView {
	if isGrid(values) {
		return m.grid(values)
	}
	t := tableView{Class: "values", Labels: true}
	most := 0
	for _, v := range values {
		if v.Label != "" {
			most = max(most, len(v.What.texts))
		}
	}
	t.Columns, t.Figures = most+2, most
	for _, v := range values {
		if v.Label == "" {
			continue
		}
		row := rowView{Label: cellView{Texts: []string{v.Label}}}
		if v.What.list() || len(v.What.texts) == 1 && utf8.RuneCountInString(v.What.texts[0]) > longWord {
			long := m.cell(v, "")
			long.Class, long.Span = "words", most+1
			row.Cells = []cellView{long}
		} else {
			for i := range most {
				c := cellView{Class: "figure"}
				if i < len(v.What.texts) {
					c.Texts = v.What.texts[i : i+1]
				}
				row.Cells = append(row.Cells, c)
			}
			behind := cellView{Remark: v.Remark, Cited: m.cited(v.Refs), Class: "behind"}
			if v.Remark == "" {
				behind.Class += " bare"
			}
			row.Cells = append(row.Cells, behind)
		}
		t.Rows = append(t.Rows, row)
	}
	t.lengthen()
	t.keep()
	return t
}

// grid sets values as [printer.grid] does.
func (m *pageMaker) grid(values []Value) tableView {
	t := tableView{Class: "grid", Labels: true}
	at := map[string]int{}
	for _, v := range values {
		if v.Label == "" {
			continue
		}
		i, known := at[v.Label]
		if !known {
			i = len(t.Rows)
			at[v.Label] = i
			t.Rows = append(t.Rows, rowView{Label: cellView{Texts: []string{v.Label}}})
		}
		row := &t.Rows[i]
		column := len(row.Cells)
		for column < len(t.Heads) && t.Heads[column].Texts[0] != v.Column {
			column++
		}
		if column == len(t.Heads) {
			t.Heads = append(t.Heads, cellView{Texts: []string{v.Column}})
		}
		for len(row.Cells) < column {
			row.Cells = append(row.Cells, cellView{})
		}
		row.Cells = append(row.Cells, m.cell(v, v.Column))
	}
	t.settle()
	return t
}

func (m *pageMaker) cell(v Value, head string) cellView {
	c := cellView{Head: head, Texts: v.What.texts, Remark: v.Remark, Cited: m.cited(v.Refs), Class: "figure"}
	for _, text := range v.What.texts {
		if v.What.list() || utf8.RuneCountInString(text) > longWord {
			c.Class = "words"
		}
	}
	return c
}

func (m *pageMaker) table(from Table) tableView {
	t := tableView{Title: from.Title, Class: "grid", Ticks: from.Tick, Group: from.Group, Label: from.Label}
	const most = 30 // rows that a sheet of paper has at the size of its text
	if t.Ticks {
		t.Class += " ticks"
	}
	if t.Ticks && len(from.Rows) > most {
		t.Class += " dense"
	}
	if from.silent() {
		return t
	}
	first := 0 // row of the group
	for i, r := range from.Rows {
		row := rowView{Label: cellView{Texts: []string{r.Label}}, Below: r.Below}
		if i == 0 || r.Group != from.Rows[first].Group {
			first = i
			row.Group = r.Group
		}
		t.Grouped = t.Grouped || t.Ticks && r.Group != ""
		t.Labels = t.Labels || r.Label != ""
		for _, v := range r.Values {
			if v.Label == "" {
				continue
			}
			if i == 0 {
				t.Heads = append(t.Heads, cellView{Texts: []string{v.Label}})
			}
			if from.Tick {
				v = v.parted()
			}
			row.Cells = append(row.Cells, m.cell(v, v.Label))
		}
		if from.Tick {
			row.Tick = "done: " + r.Label
			if r.Label == "" && len(row.Cells) > 0 {
				row.Tick = "done: " + strings.Join(row.Cells[0].Texts, " ")
			}
		}
		t.Rows = append(t.Rows, row)
		t.Rows[first].Span += 1 + len(r.Below)
	}
	t.settle()
	if t.Ticks {
		t.widen()
	}
	return t
}

// widen lets a cell with words behind its figure have the room of empty ones behind it,
// so that the row stays one line high.
func (t *tableView) widen() {
	for i := range t.Rows {
		cells := t.Rows[i].Cells[:0]
		for _, c := range t.Rows[i].Cells {
			if last := len(cells) - 1; last >= 0 && cells[last].Remark != "" && c.blank() {
				cells[last].Span = max(cells[last].Span, 1) + 1
				continue
			}
			cells = append(cells, c)
		}
		t.Rows[i].Cells = cells
	}
}

func (c cellView) blank() bool {
	return strings.Join(c.Texts, "") == "" && c.Remark == "" && len(c.Cited) == 0
}

// align sets a column of words to the left and of numbers to the right, with its head.
func (t *tableView) align(column int) {
	class := "figure"
	for _, r := range t.Rows {
		if c := r.Cells[column]; c.Class == "words" || len(c.Texts) > 0 && !isNumber(c.Texts[0]) {
			class = "words"
		}
	}
	t.Heads[column].Class = class
	for _, r := range t.Rows {
		r.Cells[column].Class = class
	}
}

func isNumber(text string) bool {
	text = strings.TrimLeft(text, "+-")
	return text == "" || '0' <= text[0] && text[0] <= '9'
}

// settle makes the rows of a table alike, and finds out whether it has room on a
// telephone.
func (t *tableView) settle() {
	most := len(t.Heads)
	for _, r := range t.Rows {
		most = max(most, len(r.Cells))
	}
	widths := make([]int, most+1)
	widest := func(column int, texts ...string) {
		widths[column] = max(widths[column], utf8.RuneCountInString(strings.Join(texts, " ")))
	}
	for len(t.Heads) < most {
		t.Heads = append(t.Heads, cellView{Texts: []string{""}})
	}
	for i, h := range t.Heads {
		widest(i+1, h.Texts...)
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		for len(r.Cells) < most {
			r.Cells = append(r.Cells, cellView{})
		}
		widest(0, r.Label.Texts...)
		for j, c := range r.Cells {
			widest(j+1, append([]string{c.Remark}, c.Texts...)...)
		}
	}
	t.broaden()
	for i := range t.Heads {
		t.align(i)
	}
	t.Columns = most
	total := 0
	for _, w := range widths {
		total += w + 2
	}
	if t.Labels {
		t.Columns++
	}
	if t.Ticks {
		t.Columns++
		total += 4
	}
	const narrow = 44 // characters that a telephone has room for
	if total > narrow {
		t.Class += " wide"
	}
	t.keep()
}

// What has room on paper in one of two columns, at the size of its letters there.
const (
	columnWidth = 92.3      // millimetres, on A4
	valueHeight = 8.6 * pt  // of the letters of values one below the other
	gridHeight  = 8.17 * pt // and of a table
	pt          = 1409.0 / 2048 * 25.4 / 72
	boldly      = 1.08 // as wide as plain letters
)

// broaden finds out whether a table has room in one of two columns on paper, when all is
// broken into lines that can be.
func (t *tableView) broaden() {
	const (
		between = 1.6 // millimetres
		label   = 27  // of a label in one line, at most
	)
	width := func(text string) float64 { return sheet.TextWidth(text, gridHeight) }
	total, first := 0.0, 0.0
	for i, h := range t.Heads {
		widest := longestWord(strings.Join(h.Texts, " "), width) * boldly
		for _, r := range t.Rows {
			c := r.Cells[i]
			widest = max(widest, longestWord(c.Remark, width))
			for _, text := range c.Texts {
				if c.Class == "words" {
					widest = max(widest, longestWord(text, width))
				} else {
					widest = max(widest, width(text))
				}
			}
		}
		total += widest + between
	}
	for _, r := range t.Rows {
		text := strings.Join(r.Label.Texts, " ")
		first = max(first, longestWord(text, width), min(label, width(text)))
	}
	if total+first > columnWidth {
		t.Class += " broad"
	}
}

// longestWord is the width of the longest word of a text.
func longestWord(text string, width func(string) float64) float64 {
	longest := 0.0
	for word := range strings.FieldsSeq(text) {
		longest = max(longest, width(word))
	}
	return longest
}

// lengthen finds out what stands behind the figures of values and is too long for their
// line in one of two columns on paper.
func (t *tableView) lengthen() {
	const (
		between = 2.1 // millimetres
		label   = 38  // of a label in one line, at most
	)
	width := func(text string) float64 { return sheet.TextWidth(text, valueHeight) }
	first, figures := 0.0, make([]float64, t.Figures)
	for _, r := range t.Rows {
		first = max(first, min(label, width(strings.Join(r.Label.Texts, ""))))
		for i := range r.Cells[:min(t.Figures, len(r.Cells))] {
			if c := r.Cells[i]; c.Class == "figure" {
				figures[i] = max(figures[i], width(strings.Join(c.Texts, "")))
			}
		}
	}
	room := columnWidth - first
	for i, f := range figures {
		if i == 0 {
			f *= boldly
		}
		room -= f + between
	}
	for _, r := range t.Rows {
		last := &r.Cells[len(r.Cells)-1]
		length := between + width(last.Remark)
		for _, cite := range last.Cited {
			length += width("[00" + cite.Kind)
		}
		if strings.HasPrefix(last.Class, "behind") && length > room {
			last.Class += " long"
		}
	}
}

// keep keeps a table whole that is no longer than a third of a sheet of paper.
func (t *tableView) keep() {
	const few = 14
	lines := len(t.Rows)
	for _, r := range t.Rows {
		lines += len(r.Below)
	}
	if lines <= few {
		t.Class += " keep"
	}
}
