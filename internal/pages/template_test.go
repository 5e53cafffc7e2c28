package pages_test

import (
	"reflect"
	"testing"

	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// The sheets of the invented engine and its book say the same of its joints: every
// figure of the one stands in the other.
func TestTemplateAndCoversAgree(t *testing.T) {
	m, err := material.Lookup("jointing without asbestos")
	if err != nil {
		t.Fatal(err)
	}
	true100 := pages.Printed{Drawn: units.MM(100), Measured: units.MM(100)}
	sheets, files, err := pages.Template(pages.TemplateQuestion{
		Part: "both", Times: 1, Material: m, Thickness: units.MM(0.25), Pressure: 4 * units.Bar, X: true100, Y: true100,
	})
	if err != nil || len(files) != 6 {
		t.Fatalf("%v, %d files", err, len(files))
	}
	for _, f := range files {
		if len(f.Text) < 1000 {
			t.Errorf("%s has %d bytes", f.Name, len(f.Text))
		}
	}
	ofBook, err := pageOf(demo(t, "", ""), pages.Covers)
	if err != nil {
		t.Fatal(err)
	}
	_, a := views(t, sheets)
	_, b := views(t, ofBook)
	covers, joints := b["covers"].([]any), a["joints"].([]any)
	for joint, cover := range []int{1, 0} { // the chest comes first on the sheets
		in, of := covers[cover].(map[string]any), joints[joint].(map[string]any)
		if len(of) < 25 {
			t.Errorf("%d keys", len(of))
		}
		for key, want := range unnumbered(of).(map[string]any) {
			got := in[key]
			if notes, ok := got.([]any); ok && key == "notes" {
				got = notes[:len(notes)-1] // the cover bends, the gasket does not
			}
			if key != "title" && !reflect.DeepEqual(unnumbered(got), want) {
				t.Errorf("%s: %v on the sheet, %v in the book", key, want, got)
			}
		}
	}
	// What is said of the chest and the cover is the same but for their names.
	said := func(code string, list []any) (texts []any) {
		for _, f := range list {
			if f := f.(map[string]any); f["code"] == code {
				texts = append(texts, f["text"], f["remedies"])
			}
		}
		return texts
	}
	one, other := said("gasket-stress", a["findings"].([]any)), said("gasket-stress", b["findings"].([]any))
	if len(one) != 4 || !reflect.DeepEqual(one, append(other[2:], other[:2]...)) {
		t.Errorf("%v, %v", one, other)
	}
}

// unnumbered returns JSON without the numbers of sources, which are those of one book.
func unnumbered(v any) any {
	switch v := v.(type) {
	case map[string]any:
		less := map[string]any{}
		for key, inner := range v {
			if key != "sources" {
				less[key] = unnumbered(inner)
			}
		}
		return less
	case []any:
		less := []any{}
		for _, inner := range v {
			less = append(less, unnumbered(inner))
		}
		return less
	}
	return v
}
