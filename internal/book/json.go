package book

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// schema is the number of the dialect; it goes up when a key changes its meaning.
const schema = 1

type object = map[string]any

type jsonFinding struct {
	Code     finding.Code     `json:"code"`
	Severity finding.Severity `json:"severity"`
	Where    string           `json:"where"`
	Text     string           `json:"text"`
	Remedies []string         `json:"remedies"`
	Sources  []int            `json:"sources"`
	Slip     bool             `json:"slip,omitempty"`
}

type jsonPrecaution struct {
	Code    finding.Code `json:"code"`
	Text    string       `json:"text"`
	Sources []int        `json:"sources"`
}

type jsonSource struct {
	Number int `json:"number"`
	source.Ref
}

// WriteJSON writes the book for a program to read; see the package comment.
func (b Book) WriteJSON(w io.Writer) error {
	numbers := b.numbering()
	all := object{"schema": schema, "program": b.Program, "title": b.Title}
	if b.From != "" {
		all["from"] = b.From
	}
	for _, s := range b.Sections {
		if s.Top {
			for _, i := range s.Items {
				i.object(all, numbers)
			}
		}
		if s.Key == "" {
			continue
		}
		if s.List {
			items := []any{}
			for _, i := range s.Items {
				items = append(items, i.object(object{}, numbers))
			}
			put(all, s.Key, items)
			continue
		}
		section := object{}
		for _, i := range s.Items {
			at := section
			if i.Key != "" {
				at = within(section, i.Key)
			}
			i.object(at, numbers)
		}
		addTexts(section, "notes", append(append([]string{}, s.Intro...), s.Notes...))
		put(all, s.Key, section)
	}
	findings := []jsonFinding{}
	for _, f := range b.All() {
		findings = append(findings, jsonFinding{
			f.Code, f.Severity, f.Where, f.Text, listOf(f.Remedies), listOf(numbers.of(f.Refs)), f.Slip,
		})
	}
	all["findings"] = findings
	precautions := []jsonPrecaution{}
	for _, p := range b.Precautions {
		precautions = append(precautions, jsonPrecaution{p.Code, p.Text, listOf(numbers.of(source.Of(p.Ref)))})
	}
	all["precautions"] = precautions
	works := []jsonSource{}
	for i, ref := range numbers.refs {
		works = append(works, jsonSource{i + 1, ref})
	}
	all["sources"] = works
	var text bytes.Buffer
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(all); err != nil {
		return err
	}
	_, err := io.WriteString(w, escaped(text.String()))
	return err
}

// escaped writes what does not print in the escapes of JSON, which mean the same.
func escaped(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch first, second := utf16.EncodeRune(r); {
		case ' ' <= r && r <= '~' || r == '\n' || r > '~' && fault.Visible(string(r)) == string(r):
			b.WriteRune(r)
		case first == unicode.ReplacementChar:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			fmt.Fprintf(&b, `\u%04x\u%04x`, first, second)
		}
	}
	return b.String()
}

func listOf[T any](list []T) []T { return append([]T{}, list...) }

// object puts an item into an object.
func (i Item) object(at object, numbers *numbering) object {
	if i.Title != "" && i.Key == "" {
		put(at, "title", i.Title)
	}
	for _, v := range i.Values {
		v.put(at, numbers)
	}
	for _, t := range i.Tables {
		rows := []any{}
		for _, r := range t.Rows {
			row := object{}
			if r.Group != "" {
				row["group"] = r.Group
			}
			if r.Label != "" {
				row["label"] = r.Label
			}
			for _, v := range r.Values {
				v.put(row, numbers)
			}
			addTexts(row, "notes", r.Below)
			rows = append(rows, row)
		}
		put(at, t.Key, rows)
	}
	var formulas, notes, figures []string
	for _, f := range i.Formulas {
		formulas = append(formulas, f.Text)
		cite(at, "formulas", numbers.of(f.Refs))
	}
	for _, n := range i.Notes {
		notes = append(notes, n.Text)
		cite(at, "notes", numbers.of(n.Refs))
	}
	for _, f := range i.Figures {
		figures = append(figures, cmp.Or(f.File, f.Key))
	}
	addTexts(at, "formulas", formulas)
	addTexts(at, "notes", notes)
	addTexts(at, "figures", figures)
	return at
}

func addTexts(at object, key string, texts []string) {
	if len(texts) > 0 {
		have, _ := at[key].([]string)
		at[key] = append(have, texts...)
	}
}

// put writes a value into an object, and the numbers of its sources.
func (v Value) put(at object, numbers *numbering) {
	if v.Key == "" {
		return
	}
	path, name := "", v.Key
	if end := strings.LastIndexByte(v.Key, '.'); end >= 0 {
		path, name = v.Key[:end], v.Key[end+1:]
	}
	if path != "" {
		at = within(at, path)
	}
	key := v.What.key(name)
	put(at, key, v.What.value)
	if v.Remark != "" {
		put(at, name+"_remark", v.Remark)
	}
	cite(at, key, numbers.of(v.Refs))
}

// cite adds the numbers of works to those that an object gives for a key.
func cite(at object, key string, works []int) {
	if len(works) == 0 {
		return
	}
	sources, ok := at["sources"].(object)
	if !ok {
		sources = object{}
		at["sources"] = sources
	}
	have, _ := sources[key].([]int)
	sources[key] = append(have, works...)
}

// within returns the object at a path of names with points between them.
func within(at object, path string) object {
	for name := range strings.SplitSeq(path, ".") {
		inner, ok := at[name].(object)
		if !ok {
			inner = object{}
			put(at, name, inner)
		}
		at = inner
	}
	return at
}

// put sets a key that is not there yet: two values under one key are a mistake
// of the program that made the book.
func put(at object, key string, value any) {
	if _, double := at[key]; double || key == "" {
		panic("book: two values under the key " + key)
	}
	at[key] = value
}
