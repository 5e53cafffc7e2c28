package book

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/internal/inch"
	"github.com/valvechest/valvechest/units/finding"
)

// InchFirst is the book for a person whose rule is in inches: what is told in
// both units has the inch unit first, and what is told in a metric one alone is
// told in inches, pounds or degrees Fahrenheit. Keys and values stay, and with
// them all numbers in JSON; names stay too, such as that of a metric drill. b is
// not changed. Pictures are drawn by who makes them; see [Book.Inch]. So do names that
// the builder gave, which are told here, though they read as a size: "the 3 mm holes".
func (b Book) InchFirst(names ...string) Book {
	t := turnerOf(names)
	b.Inch, b.Title = true, t.text(b.Title)
	b.Findings = t.findings(b.Findings)
	b.Sections = each(b.Sections, func(s Section) Section {
		s.Title, s.Intro, s.Notes = t.text(s.Title), each(s.Intro, t.text), each(s.Notes, t.text)
		s.Items = each(s.Items, t.item)
		return s
	})
	b.Precautions = each(b.Precautions, func(p finding.Precaution) finding.Precaution {
		p.Text = t.text(p.Text)
		return p
	})
	return b
}

// A turner turns texts round, and leaves names as they are.
type turner struct{ hide, show *strings.Replacer }

// turnerOf is the turner of a book in which those names stand.
func turnerOf(names []string) turner {
	var hide, show []string
	for i, name := range names {
		if inch.Text(name) != name {
			mark := string(rune(0xE000 + i%0x1900)) // of private use
			hide, show = append(hide, name, mark), append(show, mark, name)
		}
	}
	if hide == nil {
		return turner{}
	}
	return turner{strings.NewReplacer(hide...), strings.NewReplacer(show...)}
}

func (t turner) text(s string) string { return t.round(s, inch.Text) }

// move turns what is to be done.
func (t turner) move(s string) string { return t.round(s, inch.Move) }

func (t turner) head(s string) string { return t.round(s, inch.Head) }

func (t turner) round(s string, turn func(string) string) string {
	if t.hide == nil {
		return turn(s)
	}
	return t.show.Replace(turn(t.hide.Replace(s)))
}

// each returns a list with f of all that is in one.
func each[T any](list []T, f func(T) T) []T {
	list = slices.Clone(list)
	for i, v := range list {
		list[i] = f(v)
	}
	return list
}

func (t turner) findings(all finding.List) finding.List {
	return each(all, func(f finding.Finding) finding.Finding {
		f.Text, f.Remedies = t.text(f.Text), each(f.Remedies, t.move)
		return f
	})
}

func (t turner) item(i Item) Item {
	i.Title, i.Findings = t.move(i.Title), t.findings(i.Findings) // a title may be a cure
	large := largeColumns(i.Values, func(v Value) string { return v.Column })
	i.Values = each(i.Values, func(v Value) Value { return t.value(v, v.Column != "" && large[v.Column]) })
	i.Tables = each(i.Tables, t.table)
	i.Formulas = each(i.Formulas, func(f Formula) Formula {
		f.Text, f.Inch = cmp.Or(f.Inch, t.text(f.Text)), ""
		return f
	})
	i.Notes = each(i.Notes, func(n Note) Note {
		n.Text, n.Inch = cmp.Or(n.Inch, t.text(n.Text)), ""
		return n
	})
	i.Figures = each(i.Figures, func(f Figure) Figure {
		f.Title, f.Alt, f.Caption = t.text(f.Title), t.text(f.Alt), t.text(f.Caption)
		return f
	})
	return i
}

func (t turner) table(table Table) Table {
	table.Title = t.text(table.Title)
	var all []Value
	for _, r := range table.Rows {
		all = append(all, r.Values...)
	}
	large := largeColumns(all, func(v Value) string { return v.Label })
	table.Rows = each(table.Rows, func(r Row) Row {
		r.Label, r.Below = t.text(r.Label), each(r.Below, t.text)
		r.Values = each(r.Values, func(v Value) Value { return t.value(v, large[v.Label]) })
		return r
	})
	return table
}

// largeColumns are those with a length that is not told in thou, by their heads:
// all of a column is told in one unit.
func largeColumns(values []Value, head func(Value) string) map[string]bool {
	large := map[string]bool{}
	for _, v := range values {
		if mm, ok := v.What.value.(float64); ok && v.What.suffix == "mm" && inch.Large(mm) {
			large[head(v)] = true
		}
	}
	return large
}

// value is v with inch units first, a length in inches where it stands below
// large ones.
func (t turner) value(v Value, large bool) Value {
	v.Label, v.Column, v.Remark = t.head(v.Label), t.head(v.Column), t.text(v.Remark)
	v.What = t.quantity(v.What, large)
	return v
}

// isName reports whether a word is what something is called: it begins with a figure
// and says nothing of it in brackets.
func isName(word string) bool {
	return word != "" && unicode.IsDigit([]rune(word)[0]) && !strings.Contains(word, "(")
}

// quantity has the text of q in inch units first, and its value where that is the
// text; a name stays.
func (t turner) quantity(q Quantity, large bool) Quantity {
	if len(q.texts) == 0 {
		return q
	}
	texts := slices.Clone(q.texts)
	switch v := q.value.(type) {
	case string:
		if isName(v) {
			return q
		}
		if texts[0] == v {
			q.value = t.text(v)
		}
		q.texts = each(texts, t.text)
		return q
	case []string:
		if texts[0] == strings.Join(v, " ") {
			v = each(v, t.text)
			return Quantity{q.suffix, v, []string{strings.Join(v, " ")}}
		}
	case float64:
		if number, ok := inch.Bare(texts[0], v, q.suffix); ok {
			texts[0] = number
		} else if large {
			texts[0] = inch.InInches(texts[0], v)
		} else {
			texts[0] = inch.Of(texts[0], v)
		}
	case limits:
		low, first := v.Min.(float64)
		high, last := v.Max.(float64)
		if first && last {
			texts[0] = inch.Of(texts[0], low, high)
		} else {
			texts[0] = t.text(texts[0])
		}
	default:
		texts[0] = t.text(texts[0])
	}
	for i := range texts[1:] {
		texts[i+1] = t.text(texts[i+1])
	}
	if said, first := inch.Said(q.texts[0]); first {
		texts[0] = said
	} else if len(texts) > 1 && texts[0] != q.texts[0] { // a metric one
		if said, second := inch.Said(q.texts[1]); second {
			texts[0], texts[1] = said, q.texts[0]
		}
	}
	q.texts = texts
	return q
}
