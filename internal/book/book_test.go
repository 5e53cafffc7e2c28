package book_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func work(title string) source.Ref { return source.Ref{Kind: source.Published, Title: title} }

// whole is a book with one of everything, each told apart from every other.
func whole() book.Book {
	return book.Book{
		Program: "demo", Title: "Whole title", From: "whole.toml",
		Findings: finding.List{
			{Code: "first", Severity: finding.Note, Where: "first place", Text: "First finding.", Remedies: []string{"First remedy.", "Second remedy."}, Refs: source.Of(work("Finding work"))},
			{Code: "second", Severity: finding.Danger, Text: "Second finding.", Remedies: []string{"Third remedy."}},
		},
		Sections: []book.Section{
			{
				Key: "laps", Title: "LAPS", Intro: []string{"Intro text."}, Notes: []string{"Closing text."},
				Items: []book.Item{
					{
						Values: []book.Value{
							{Key: "steam", Label: "steam lap", What: book.Length(units.MM(1.25), 3), Remark: "steam remark", Refs: source.Of(work("Lap work"))},
							{Key: "angle", Label: "lap angle", What: book.Angle(22*units.Degree, 2)},
							{Key: "band", Label: "band of it", What: book.Range(book.Length(units.MM(7), 2), book.Length(units.MM(8), 2))},
						},
						Formulas: []book.Formula{{Text: "Formula text", Refs: source.Of(work("Formula work"))}},
						Notes:    []book.Note{{Text: "Note text.", Refs: source.Of(work("Note work"))}},
						Figures:  []book.Figure{{Title: "Figure title", File: "figure.svg"}},
						Findings: finding.List{{Code: "third", Severity: finding.Fails, Text: "Third finding."}},
					},
				},
			},
			{
				Key: "events", Title: "EVENTS",
				Items: []book.Item{{Values: []book.Value{
					{Key: "head.admission.crank", Label: "admission", Column: "head end", What: book.Angle(-5.5*units.Degree, 1)},
					{Key: "head.admission.stroke", Label: "admission", Column: "stroke", What: book.Share(0.0125, 2)},
					{Key: "head.release.crank", Label: "release", Column: "head end", What: book.Never(book.Angle(0, 1), "never at all")},
				}}},
			},
			{
				Key: "parts", Title: "PARTS", List: true,
				Items: []book.Item{
					{Title: "first part", Values: []book.Value{{Key: "studs", Label: "studs", What: book.Count(6)}}, Tables: []book.Table{{
						Key: "holes", Title: "Holes of it", Rows: []book.Row{
							{Group: "Group of it", Label: "hole one", Values: []book.Value{{Key: "x", Label: "across", What: book.Length(units.MM(33), 1), Refs: source.Of(source.Ref{Kind: source.FromMemory, Title: "Row work"})}}, Below: []string{"Below text."}},
							{Group: "Group of it", Label: "hole two", Values: []book.Value{{Key: "x", Label: "across", What: book.Length(units.MM(44), 1)}}},
						},
					}}},
					{Title: "second part", Values: []book.Value{{Key: "material", Label: "made of", What: book.Word("gunmetal")}, {Key: "order", Label: "in order", What: book.Words([]string{"a1", "b2"})}, {Key: "kept", Label: "kept", What: book.Answer(true)}}},
				},
			},
		},
		Precautions: []finding.Precaution{{Code: "key", Text: "Precaution text.", Ref: work("Precaution work")}},
	}
}

// An element is one thing that a view must show: how to take it out of a book,
// and what it looks like in each view.
type element struct {
	name       string
	drop       func(*book.Book)
	text, json string
	html       string // where the page has it in other words than the text
}

// inHTML has what looks different in the page.
var inHTML = map[string]string{
	"finding":            "3 first place: First finding. [1] First remedy. Second remedy.",
	"danger":             "CAN HURT SOMEBODY 1 Second finding. Third remedy.",
	"finding of an item": "WILL NOT WORK 2 Third finding.",
	"source of a value":  "Finding work Lap work",
	"table":              "Holes of it across Group of it hole one",
	"formula":            "Working Formula text [3]",
	"source of a note":   "Note work from memory: Row work",
	"source of a row":    "33.0 mm 1.30 in [5 from memory]",
}

func elements() []element {
	var all []element
	add := func(name, text, json string, drop func(*book.Book)) {
		all = append(all, element{name: name, drop: drop, text: text, json: json, html: inHTML[name]})
	}
	item := func(b *book.Book, s, i int) *book.Item { return &b.Sections[s].Items[i] }
	add("title", "Whole title", `title="Whole title"`, func(b *book.Book) { b.Title = "" })
	add("from", "from whole.toml", `from="whole.toml"`, func(b *book.Book) { b.From = "" })
	add("finding", "first place: First finding. [1] > First remedy. > Second remedy.", `findings.2={"code":"first","remedies":["First remedy.","Second remedy."],"severity":"note","sources":[1],"text":"First finding.","where":"first place"}`, func(b *book.Book) { b.Findings = b.Findings[1:] })
	add("danger", "CAN HURT SOMEBODY - Second finding. > Third remedy.", `findings.0.severity="danger"`, func(b *book.Book) { b.Findings = b.Findings[:1] })
	add("finding of an item", "WILL NOT WORK - Third finding.", `findings.1.text="Third finding."`, func(b *book.Book) { item(b, 0, 0).Findings = nil })
	add("section", "EVENTS", `events.head.admission.crank_deg=-5.5`, func(b *book.Book) { b.Sections = slices.Delete(b.Sections, 1, 2) })
	add("intro", "Intro text.", `laps.notes.1="Intro text."`, func(b *book.Book) { b.Sections[0].Intro = nil })
	add("closing note", "Closing text.", `laps.notes.2="Closing text."`, func(b *book.Book) { b.Sections[0].Notes = nil })
	add("length", "steam lap 1.250 mm 0.0492 in steam remark [2]", `laps.steam_mm=1.25`, func(b *book.Book) { item(b, 0, 0).Values = item(b, 0, 0).Values[1:] })
	add("remark", "steam remark", `laps.steam_remark="steam remark"`, func(b *book.Book) { item(b, 0, 0).Values[0].Remark = "" })
	add("source of a value", "[2] Lap work", `laps.sources.steam_mm.0=2`, func(b *book.Book) { item(b, 0, 0).Values[0].Refs = source.Refs{} })
	add("angle", "lap angle 22.00 deg", `laps.angle_deg=22`, func(b *book.Book) { item(b, 0, 0).Values = slices.Delete(item(b, 0, 0).Values, 1, 2) })
	add("range", "band of it 7.00 to 8.00 mm 0.276 to 0.315 in", `laps.band_mm={"max":8,"min":7}`, func(b *book.Book) { item(b, 0, 0).Values = item(b, 0, 0).Values[:2] })
	add("formula", "= Formula text [3]", `laps.formulas.0="Formula text"`, func(b *book.Book) { item(b, 0, 0).Formulas = nil })
	add("note", "Note text. [4]", `laps.notes.0="Note text."`, func(b *book.Book) { item(b, 0, 0).Notes = nil })
	add("source of a note", "[4] Note work", `laps.sources.notes.0=4`, func(b *book.Book) { item(b, 0, 0).Notes[0].Refs = source.Refs{} })
	add("figure", "Figure title: figure.svg", `laps.figures.0="figure.svg"`, func(b *book.Book) { item(b, 0, 0).Figures = nil })
	add("cell", "admission -5.5 deg 1.25 %", `events.head.admission.stroke=0.0125`, func(b *book.Book) { item(b, 1, 0).Values = slices.Delete(item(b, 1, 0).Values, 1, 2) })
	add("never", "release never at all", `events.head.release.crank_deg=null`, func(b *book.Book) { item(b, 1, 0).Values = item(b, 1, 0).Values[:2] })
	add("item", "first part", `parts.0.title="first part"`, func(b *book.Book) { b.Sections[2].Items = b.Sections[2].Items[1:] })
	add("count", "studs 6", `parts.0.studs=6`, func(b *book.Book) { item(b, 2, 0).Values = nil })
	add("table", "Holes of it across Group of it hole one", `parts.0.holes.0.label="hole one"`, func(b *book.Book) { item(b, 2, 0).Tables = nil })
	add("row", "hole two 44.0 mm 1.73 in", `parts.0.holes.1.x_mm=44`, func(b *book.Book) { item(b, 2, 0).Tables[0].Rows = item(b, 2, 0).Tables[0].Rows[:1] })
	add("group of rows", "Group of it hole one", `parts.0.holes.0.group="Group of it"`, func(b *book.Book) {
		rows := item(b, 2, 0).Tables[0].Rows
		rows[0].Group, rows[1].Group = "", ""
	})
	add("source of a row", "33.0 mm 1.30 in [5] (from memory)", `parts.0.holes.0.sources.x_mm.0=5`, func(b *book.Book) { item(b, 2, 0).Tables[0].Rows[0].Values[0].Refs = source.Refs{} })
	add("text below a row", "Below text.", `parts.0.holes.0.notes.0="Below text."`, func(b *book.Book) { item(b, 2, 0).Tables[0].Rows[0].Below = nil })
	add("word", "made of gunmetal", `parts.1.material="gunmetal"`, func(b *book.Book) { item(b, 2, 1).Values = item(b, 2, 1).Values[1:] })
	add("words", "in order a1 b2", `parts.1.order=["a1","b2"]`, func(b *book.Book) { item(b, 2, 1).Values = slices.Delete(item(b, 2, 1).Values, 1, 2) })
	add("answer", "kept yes", `parts.1.kept=true`, func(b *book.Book) { item(b, 2, 1).Values = item(b, 2, 1).Values[:2] })
	add("precaution", "Precaution text. [", `precautions.0.text="Precaution text."`, func(b *book.Book) { b.Precautions = nil })
	return all
}

// texts returns both views, the text in one line and the JSON as one line a
// value, path=value.
func texts(t *testing.T, b book.Book) (text, flat string) {
	t.Helper()
	var plain, data bytes.Buffer
	if err := b.WriteText(&plain); err != nil {
		t.Fatal(err)
	}
	if err := b.WriteJSON(&data); err != nil {
		t.Fatal(err)
	}
	var all any
	if err := json.Unmarshal(data.Bytes(), &all); err != nil {
		t.Fatal(err)
	}
	var lines []string
	flatten("", all, &lines)
	return strings.Join(strings.Fields(plain.String()), " "), "\n" + strings.Join(lines, "\n") + "\n"
}

func flatten(path string, v any, lines *[]string) {
	text, _ := json.Marshal(v)
	*lines = append(*lines, strings.TrimPrefix(path, ".")+"="+string(text))
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			flatten(path+"."+key, inner, lines)
		}
	case []any:
		for i, inner := range v {
			flatten(fmt.Sprintf("%s.%d", path, i), inner, lines)
		}
	}
}

// Everything in a book stands in every view, and what is taken out of the book is
// gone from each: a view that lost one kind of thing could not pass both.
func TestViewsLoseNothing(t *testing.T) {
	text, flat := texts(t, whole())
	page := pageText(t, whole())
	for _, e := range elements() {
		inPage := cmp.Or(e.html, e.text)
		if !strings.Contains(page, inPage) {
			t.Errorf("%s: no %q in the page\n%s", e.name, inPage, page)
		}
		if !strings.Contains(text, e.text) {
			t.Errorf("%s: no %q in the text\n%s", e.name, e.text, text)
		}
		if !strings.Contains(flat, "\n"+e.json+"\n") {
			t.Errorf("%s: no %s in the JSON\n%s", e.name, e.json, flat)
		}
		without := whole()
		e.drop(&without)
		lessText, lessFlat := texts(t, without)
		if strings.Contains(lessText, e.text) {
			t.Errorf("%s: taken out, and still in the text", e.name)
		}
		if lessPage := pageText(t, without); strings.Contains(lessPage, inPage) {
			t.Errorf("%s: taken out, and still in the page\n%s", e.name, lessPage)
		}
		if strings.Contains(lessFlat, "\n"+e.json+"\n") {
			t.Errorf("%s: taken out, and still in the JSON", e.name)
		}
	}
}

func TestText(t *testing.T) {
	long := whole()
	long.Title = strings.Repeat("wo\u202erd ", 60) // wider than it is long
	long.Sections[0].Items[0].Values[0].Remark = strings.Repeat("remark ", 30)
	long.Sections[2].Items[0].Tables[0].Rows[0].Below = []string{strings.Repeat("below ", 30)}
	var b bytes.Buffer
	if err := long.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(b.String()) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > 78 || strings.HasSuffix(line, " \n") {
			t.Errorf("%d characters: %q", n, line)
		}
	}
	// Danger stands before everything else.
	if text := b.String(); strings.Index(text, "CAN HURT") > strings.Index(text, "WILL NOT") || strings.Index(text, "WILL NOT") > strings.Index(text, "LAPS") || strings.Index(text, "WORTH KNOWING") < strings.Index(text, "PARTS") {
		t.Error(text)
	}
}

// Rows that are work have a box to tick, and behind them what there is of the columns. A value without a key is for a person only.
func TestTickedText(t *testing.T) {
	cells := []book.Value{{Key: "set", Label: "set", What: book.Count(5)}, {Label: "feed", What: book.Word("by hand")}}
	b := book.Book{Sections: []book.Section{{Key: "card", Items: []book.Item{{Tables: []book.Table{{Key: "steps", Tick: true, Rows: []book.Row{
		{Group: "Cylinder", Label: "bore", Values: cells, Below: []string{"step 2"}}, {Group: "Cylinder", Label: "ream", Values: cells},
		{Group: "Valve", Label: "face", Values: cells},
	}}}}}}}}
	var out bytes.Buffer
	if err := b.WriteText(&out); err != nil {
		t.Fatal(err)
	}
	want := "\n  Cylinder\n  [ ] bore   set 5; feed by hand; step 2\n  [ ] ream   set 5; feed by hand\n  Valve\n  [ ] face   set 5; feed by hand\n"
	if !strings.HasSuffix(out.String(), want) {
		t.Errorf("got\n%s, want\n%s", out.String(), want)
	}
	if _, flat := texts(t, b); strings.Contains(flat, "by hand") || !strings.Contains(flat, "\ncard.steps.2.set=5\n") {
		t.Error(flat)
	}
}

// What stands behind a number does not move it out of its column, and a line
// below a row stands in a little.
func TestTableText(t *testing.T) {
	table := book.Table{Key: "rows", Rows: []book.Row{
		{Label: "one", Values: []book.Value{
			{Key: "x", Label: "across", What: book.Count(5), Refs: source.Of(work("One"))},
			{Key: "word", Label: "verdict", What: book.Word("suits")},
		}, Below: []string{"Why."}},
		{Label: "two", Values: []book.Value{
			{Key: "x", Label: "across", What: book.Count(123), Remark: "more", Refs: source.Of(work("Two"))},
			{Key: "word", Label: "verdict", What: book.Word("tight drill")},
		}},
	}}
	var b bytes.Buffer
	if err := (book.Book{Title: "Table", Sections: []book.Section{{Key: "s", Items: []book.Item{{Tables: []book.Table{table}}}}}}).WriteText(&b); err != nil {
		t.Fatal(err)
	}
	const want = `
        across                verdict
  one        5 [1]              suits
    Why.
  two      123 more [2]   tight drill
`
	if !strings.Contains(b.String(), want) {
		t.Errorf("%s\nwant%s", &b, want)
	}
}

func TestOK(t *testing.T) {
	b := whole()
	if b.OK() || !(book.Book{}).OK() {
		t.Error("whether a book is in order")
	}
	b.Findings = b.Findings[:1]
	if b.Sections[0].Items[0].Findings = nil; !b.OK() {
		t.Error("a note makes it fail")
	}
	if all := whole().All(); len(all) != 3 || all[0].Code != "second" || all[1].Code != "third" {
		t.Error(all)
	}
}

// A key that two values claim is a mistake of the program.
func TestDoubleKey(t *testing.T) {
	b := book.Book{Sections: []book.Section{{Key: "a", Items: []book.Item{{Values: []book.Value{{Key: "x", What: book.Count(1)}, {Key: "x", What: book.Count(2)}}}}}}}
	defer func() {
		if recover() == nil {
			t.Error("one of two values is lost")
		}
	}()
	_ = b.WriteJSON(&bytes.Buffer{})
}

// Nothing that is nought has a sign, in either view.
func TestNegativeZero(t *testing.T) {
	zero := math.Copysign(0, -1)
	b := book.Book{Title: "b", Sections: []book.Section{{Key: "s", Title: "s", Items: []book.Item{{Values: []book.Value{
		{Key: "number", Label: "number", What: book.Number(zero, 2, "N", "n")},
		{Key: "small", Label: "small", What: book.Signed(-1e-9, 4, "deg", "deg").Millimetres()},
		{Key: "share", Label: "share", What: book.Share(zero, 1)},
		{Key: "angle", Label: "angle", What: book.Angle(units.Angle(zero), 4)},
		{Key: "range", Label: "range", What: book.Range(book.Number(zero, 1, "mm", "mm"), book.Number(0, 1, "mm", "mm"))},
	}}}}}}
	var text, data bytes.Buffer
	if err := errors.Join(b.WriteText(&text), b.WriteJSON(&data)); err != nil {
		t.Fatal(err)
	}
	if s := strings.ReplaceAll(text.String()+data.String(), "-1e-09", ""); strings.Contains(s, "-0") {
		t.Error(s)
	}
}

func TestQuantities(t *testing.T) {
	var b bytes.Buffer
	values := []book.Value{
		{Key: "nought", Label: "nought", What: book.Number(-0.0001, 2, "N", "n")},
		{Key: "thou", Label: "thou", What: book.LengthThou(units.MM(0.0254), 4, 1)},
		{Key: "same", Label: "same", What: book.Range(book.Length(units.MM(2), 1), book.Length(units.MM(2), 1))},
		{Key: "open", Label: "open", What: book.Range(book.Length(units.MM(2), 1), book.Never(book.Length(units.MM(2), 1), "no end"))},
		{Key: "force", Label: "force", What: book.Number(1, 1, "N", "n").And(book.Number(0.2248, 2, "lbf", ""))},
		{Key: "silent", What: book.Count(5)},
		{Key: "over", Label: "over", What: book.Signed(0.5, 1, "um", "um")},
		{Key: "under", Label: "under", What: book.Signed(-0.5, 1, "um", "um")},
		{Key: "even", Label: "even", What: book.Signed(0.04, 1, "um", "um")},
		{Key: "place", Label: "place", What: book.Angle(45*units.Degree, 1).Shown("45°00'00\"")},
		{Key: "list", Label: "list", What: book.Counts([]int{15, 16, 17})},
		{Key: "heights", Label: "lines", What: book.Lengths([]units.Length{units.MM(14.142), units.MM(17.642)}, 2)},
		{Key: "tale", Label: "tale", What: book.Word(strings.Repeat("word ", 16) + "end"), Remark: "remark"},
	}
	formulas := []book.Formula{{Text: "a + b"}, {Text: "c = a + b"}}
	all := book.Book{Sections: []book.Section{{Key: "unseen", Items: []book.Item{{Values: values[5:6]}}}, {Key: "q", Items: []book.Item{{Values: values, Formulas: formulas}}}}}
	if err := all.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"nought             0.00 N\n", "0.0254 mm   1.0 thou\n", "same               2.0 mm    0.08 in\n", "open     2.0 mm to no end\n", "1.0 N   0.22 lbf\n",
		"over", "+0.5 um\n", "-0.5 um\n", " 0.0 um\n", "45°00'00\"\n", "  list     15 16 17\n", "  lines    14.14 mm, 17.64 mm\n", "  tale     word word", "\n           word word word end remark\n",
		"\n  = a + b\n  c = a + b\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in\n%s", want, &b)
		}
	}
	if strings.Contains(b.String(), "silent") {
		t.Errorf("a value without a label is in the text\n%s", &b)
	}
	if strings.Contains(b.String(), "\n\n\n") {
		t.Errorf("a section that shows nothing has a blank line\n%s", &b)
	}
	_, flat := texts(t, all)
	for _, want := range []string{"q.nought_n=-0.0001", "q.thou_mm=0.0254", `q.open_mm={"max":null,"min":2}`, "q.silent=5", "q.over_um=0.5", "q.under_um=-0.5", "q.place_deg=45", "q.list=[15,16,17]", "q.heights_mm=[14.142,17.642]"} {
		if !strings.Contains(flat, "\n"+want+"\n") {
			t.Errorf("no %s in\n%s", want, flat)
		}
	}
}

// What does not print, or changes how other text is shown, reaches no view raw.
func TestUnseenCharacters(t *testing.T) {
	const unseen = "a\u202eb\u200bc\x1b[2J\U000e0041\ufe0f°µ\ufffd"
	b := book.Book{Title: unseen, Sections: []book.Section{{Key: "s", Items: []book.Item{{Values: []book.Value{{Key: "v", Label: "v", What: book.Word(unseen)}}}}}}}
	var text, data bytes.Buffer
	if b.WriteText(&text) != nil || b.WriteJSON(&data) != nil {
		t.Fatal("not written")
	}
	for name, view := range map[string]string{"text": text.String(), "JSON": data.String()} {
		if strings.ContainsFunc(view, func(r rune) bool { return (!unicode.IsPrint(r) || r == 0xfe0f) && r != '\n' }) || !strings.Contains(view, `\u202e`) {
			t.Errorf("%s: %q", name, view)
		}
	}
	var back struct {
		Title string
		S     struct{ V string }
	}
	if err := json.Unmarshal(data.Bytes(), &back); err != nil || back.Title != unseen || back.S.V != unseen {
		t.Errorf("%q, %v", back, err)
	}
}

// What looks like a slip is told before all that it explains and after what can
// hurt somebody; what cures two of one place is told once, after the second.
func TestSlipsAndCures(t *testing.T) {
	turn := []string{"Turn it."}
	b := book.Book{Title: "B", Findings: finding.List{
		{Code: "late", Severity: finding.Fails, Text: "Late.", Remedies: turn},
		{Code: "slip", Severity: finding.Caution, Text: "Typed amiss.", Slip: true},
		{Code: "burst", Severity: finding.Danger, Text: "Bursts."},
		{Code: "early", Severity: finding.Caution, Text: "Early.", Remedies: turn},
		{Code: "large", Severity: finding.Caution, Text: "Large.", Remedies: turn},
		{Code: "large", Severity: finding.Caution, Where: "elsewhere", Text: "Large too.", Remedies: turn},
		{Code: "other", Severity: finding.Caution, Where: "away", Text: "Other.", Remedies: turn},
	}}
	var text, data bytes.Buffer
	if err := errors.Join(b.WriteText(&text), b.WriteJSON(&data)); err != nil {
		t.Fatal(err)
	}
	want := "CAN HURT SOMEBODY - Bursts. LOOKS LIKE A SLIP: SEE TO IT FIRST - Typed amiss." +
		" WILL NOT WORK - Late. > Turn it. COSTS POWER OR LIFE - Early. - Large. - elsewhere: Large too. > Turn it. - away: Other. > Turn it."
	if prose := strings.Join(strings.Fields(text.String()), " "); !strings.HasSuffix(prose, want) {
		t.Errorf("%s\nwant %s", prose, want)
	}
	var back struct {
		Findings []struct {
			Code     string
			Slip     bool
			Remedies []string
		}
	}
	if err := json.Unmarshal(data.Bytes(), &back); err != nil || len(back.Findings) != 7 {
		t.Fatal(err, data.String())
	}
	for _, f := range back.Findings {
		if f.Slip != (f.Code == "slip") || (len(f.Remedies) == 1) != (f.Code != "slip" && f.Code != "burst") {
			t.Errorf("%+v", f)
		}
	}
}
