package table

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"github.com/valvechest/valvechest/units/source"
)

// A Header is what the comment lines of a table say.
type Header struct {
	Title, Edition, Unit, Held, Errata string
	Sources                            map[string]source.Ref // by key, without locator
}

// ReadHeader reads and checks the comment lines of a table alone.
func ReadHeader(fsys fs.FS, name string) (Header, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return Header{}, fmt.Errorf("table: %w", err)
	}
	f := &file{name: name, text: string(data)}
	f.readHeader()
	return f.header, errors.Join(f.problems...)
}

func (f *file) readHeader() {
	f.header.Sources = map[string]source.Ref{}
	for line, text := range f.lines() {
		text, comment := strings.CutPrefix(text, "#")
		if text = strings.TrimSpace(text); !comment || text == "" {
			continue
		}
		if declared, ok := strings.CutPrefix(text, "source "); ok {
			f.readSource(line, declared)
		} else {
			f.readField(line, text)
		}
	}
	for _, field := range f.header.fields() {
		if *field.value == "" {
			f.complain(1, "the header does not say %q", field.key)
		}
	}
}

// A field is one of the lines that every header has.
type field struct {
	key   string
	value *string
}

func (h *Header) fields() []field {
	return []field{
		{"title", &h.Title}, {"edition", &h.Edition}, {"unit", &h.Unit}, {"held", &h.Held}, {"errata", &h.Errata},
	}
}

func (f *file) readField(line int, text string) {
	key, value, ok := strings.Cut(text, ":")
	if ok && key == "note" {
		return
	}
	for _, field := range f.header.fields() {
		switch {
		case !ok || field.key != key:
			continue
		case *field.value != "":
			f.complain(line, "%s given twice", key)
		default:
			*field.value = strings.TrimSpace(value)
		}
		return
	}
	f.complain(line, "comment %q is none of title, edition, unit, held, errata, note or source", key)
}

func (f *file) readSource(line int, text string) {
	parts := strings.Split(text, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if len(parts) < 4 || len(parts) > 5 {
		f.complain(line, "source: want KEY | kind | title | edition, and perhaps | note")
		return
	}
	key := parts[0]
	kind, err := source.ParseKind(parts[1])
	if err != nil {
		f.complain(line, "%v", err)
	}
	ref := source.Ref{Kind: kind, Title: parts[2], Edition: parts[3]}
	if len(parts) == 5 {
		ref.Note = parts[4]
	}
	if _, double := f.header.Sources[key]; double || key == "" || ref.Title == "" && kind != source.CommonPractice {
		f.complain(line, "source %q: key or title blank, or key given twice", key)
	}
	f.header.Sources[key] = ref
}
