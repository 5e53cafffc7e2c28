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
// not changed. Pictures are drawn by who makes them; see [Book.Inch].
func (b Book) InchFirst() Book {
	b.Inch = true
	b.Findings = inchFindings(b.Findings)
	b.Sections = each(b.Sections, func(s Section) Section {
		s.Title, s.Intro, s.Notes = inch.Text(s.Title), each(s.Intro, inch.Text), each(s.Notes, inch.Text)
		s.Items = each(s.Items, Item.inchFirst)
		return s
	})
	b.Precautions = each(b.Precautions, func(p finding.Precaution) finding.Precaution {
		p.Text = inch.Text(p.Text)
		return p
	})
	return b
}

// each returns a list with f of all that is in one.
func each[T any](list []T, f func(T) T) []T {
	list = slices.Clone(list)
	for i, v := range list {
		list[i] = f(v)
	}
	return list
}

func inchFindings(all finding.List) finding.List {
	return each(all, func(f finding.Finding) finding.Finding {
		f.Text, f.Remedies = inch.Text(f.Text), each(f.Remedies, inch.Text)
		return f
	})
}

func (i Item) inchFirst() Item {
	i.Title, i.Findings = inch.Text(i.Title), inchFindings(i.Findings)
	large := largeColumns(i.Values, func(v Value) string { return v.Column })
	i.Values = each(i.Values, func(v Value) Value { return v.inchFirst(v.Column != "" && large[v.Column]) })
	i.Tables = each(i.Tables, Table.inchFirst)
	i.Formulas = each(i.Formulas, func(f Formula) Formula {
		f.Text, f.Inch = cmp.Or(f.Inch, inch.Text(f.Text)), ""
		return f
	})
	i.Notes = each(i.Notes, func(n Note) Note {
		n.Text, n.Inch = cmp.Or(n.Inch, inch.Text(n.Text)), ""
		return n
	})
	i.Figures = each(i.Figures, func(f Figure) Figure {
		f.Title, f.Alt, f.Caption = inch.Text(f.Title), inch.Text(f.Alt), inch.Text(f.Caption)
		return f
	})
	return i
}

func (t Table) inchFirst() Table {
	t.Title = inch.Text(t.Title)
	var all []Value
	for _, r := range t.Rows {
		all = append(all, r.Values...)
	}
	large := largeColumns(all, func(v Value) string { return v.Label })
	t.Rows = each(t.Rows, func(r Row) Row {
		r.Label, r.Below = inch.Text(r.Label), each(r.Below, inch.Text)
		r.Values = each(r.Values, func(v Value) Value { return v.inchFirst(large[v.Label]) })
		return r
	})
	return t
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

// inchFirst is v with inch units first, a length in inches where it stands below
// large ones.
func (v Value) inchFirst(large bool) Value {
	v.Label, v.Column, v.Remark = inch.Head(v.Label), inch.Head(v.Column), inch.Text(v.Remark)
	v.What = v.What.inchFirst(large)
	return v
}

// isName reports whether a word is what something is called: it begins with a figure
// and says nothing of it in brackets.
func isName(word string) bool {
	return word != "" && unicode.IsDigit([]rune(word)[0]) && !strings.Contains(word, "(")
}

// inchFirst has the text of q in inch units first, and its value where that is the
// text; a name stays.
func (q Quantity) inchFirst(large bool) Quantity {
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
			q.value = inch.Text(v)
		}
		q.texts = each(texts, inch.Text)
		return q
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
			texts[0] = inch.Text(texts[0])
		}
	default:
		texts[0] = inch.Text(texts[0])
	}
	for i := range texts[1:] {
		texts[i+1] = inch.Text(texts[i+1])
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
