package book

import (
	"bytes"
	"encoding/json"
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestInchFirstOfQuantities(t *testing.T) {
	word := Word("4 mm x 0.5 mm") // a metric tube, by its name
	for _, row := range []struct {
		q    Quantity
		want []string
	}{
		{Length(units.Inch(1.5), 3), []string{"1.5000 in", "38.100 mm"}},
		{LengthThou(units.MM(0.05), 3, 1), []string{"2.0 thou", "0.050 mm"}},
		{LengthThou(units.MM(3.2), 3, 1), []string{"0.1260 in", "3.200 mm"}},
		{Range(LengthThou(units.MM(5.05), 2, 0), LengthThou(units.MM(5.1), 2, 0)), []string{"0.199 to 0.201 in", "5.05 to 5.10 mm"}},
		{Length(units.MM(0.27159), 3).Millimetres(), []string{"0.0107 in"}},
		{Length(units.MM(0.27159), 3).Shown("0.272"), []string{"0.0107"}},
		{Length(units.MM(4), 3).Inches(), []string{"0.1575 in"}},
		{Number(2, 2, "bar", "bar"), []string{"29.0 psi"}},
		{Number(10.5, 0, "N", "n").And(Number(2.36, 1, "lbf", "")), []string{"2.4 lbf", "10 N"}},
		{Signed(-0.15, 2, "mm", "mm"), []string{"-5.9 thou"}},
		{Never(Length(units.MM(1), 3), "never"), []string{"never"}},
		{Angle(units.Angle(1), 2), []string{"57.30 deg"}},
		{Share(0.25, 1), []string{"25.0 %"}},
		{Word("open by 0.27 mm (10.7 thou)"), []string{"open by 10.7 thou (0.27 mm)"}},
		{Word("to 0.01 mm only").And(Word("17.8 um lost")), []string{"to 0.4 thou only", "0.70 thou lost"}},
		{word, word.texts},
	} {
		before := slices.Clone(row.q.texts)
		got, value := turner{}.quantity(row.q, false), row.q.value
		if _, word := value.(string); word { // the same as it is read
			value = row.want[0]
		}
		if !slices.Equal(got.texts, row.want) || !reflect.DeepEqual(got.value, value) {
			t.Errorf("%v: %q, want %q", before, got.texts, row.want)
		}
		if !slices.Equal(before, row.q.texts) {
			t.Errorf("%v was changed", before)
		}
	}
}

// Every text of a book is turned round, and no number or key of it is changed.
func TestInchFirst(t *testing.T) {
	const metric, inches = "leave 0.05 mm (2.0 thou)", "leave 2.0 thou (0.05 mm)"
	made := func(text string, first Quantity, inch bool) Book {
		return Book{
			Inch:     inch,
			Findings: finding.List{{Code: "a", Text: text, Remedies: []string{text}}},
			Sections: []Section{{
				Key: "s", Title: text, Intro: []string{text}, Notes: []string{text},
				Items: []Item{{
					Title:    text,
					Values:   []Value{{Key: "v", Label: text, Column: text, Remark: text, What: first}},
					Tables:   []Table{{Key: "t", Title: text, Rows: []Row{{Label: text, Values: []Value{{Key: "w", What: first}}, Below: []string{text}}}}},
					Formulas: []Formula{{Text: text}}, Notes: []Note{{Text: text}},
					Figures:  []Figure{{Key: "f", Title: text, Alt: text, Caption: text}},
					Findings: finding.List{{Code: "b", Text: text, Remedies: []string{text}}},
				}},
			}},
			Precautions: []finding.Precaution{{Code: "c", Text: text}},
		}
	}
	length := Length(units.MM(0.05), 3)
	turned := Quantity{length.suffix, length.value, []string{length.texts[1], length.texts[0]}}
	b := made(metric, length, false)
	all := cmp.Exporter(func(reflect.Type) bool { return true })
	if diff := cmp.Diff(made(inches, turned, true), b.InchFirst(), all); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(made(metric, length, false), b, all); diff != "" {
		t.Error("the book itself was changed", diff)
	}
	numbers := func(b Book) any {
		var text bytes.Buffer
		if err := b.WriteJSON(&text); err != nil {
			t.Fatal(err)
		}
		var all struct {
			S struct {
				V float64 `json:"v_mm"`
			} `json:"s"`
		}
		if err := json.Unmarshal(text.Bytes(), &all); err != nil {
			t.Fatal(err)
		}
		return all
	}
	if a, b := numbers(b), numbers(b.InchFirst()); a != b {
		t.Errorf("%v and %v", a, b)
	}
}

// A name that reads as a size stays as the builder gave it.
func TestInchFirstKeepsNames(t *testing.T) {
	b := Book{Title: "BOOK: Engine of 3 mm", Sections: []Section{{Key: "s", Items: []Item{{
		Title: "the 3 mm holes: 3 mm (118 thou) deep", Notes: []Note{{Text: "the 3 mm holes are 3 mm deep"}}}}}}}
	got := b.InchFirst("Engine of 3 mm", "", "the 3 mm holes", "gland")
	item := got.Sections[0].Items[0]
	if got.Title != b.Title || item.Title != "the 3 mm holes: 0.118 in (3 mm) deep" ||
		item.Notes[0].Text != "the 3 mm holes are 0.118 in deep" {
		t.Errorf("%q, %q, %q", got.Title, item.Title, item.Notes[0].Text)
	}
}
