package book_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/sheet"
)

func writePage(t *testing.T, b book.Book) []byte {
	t.Helper()
	var text bytes.Buffer
	if err := b.WriteHTML(&text); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}

func pageText(t *testing.T, b book.Book) string {
	t.Helper()
	return parsePage(t, writePage(t, b)).Words()
}

// drawn is a picture with lines, letters and a view that clips.
func drawn(width float64) *sheet.Drawing {
	inner := sheet.New(50, 50)
	inner.Circle(sheet.Edge, sheet.Point{X: 25, Y: 25}, 30)
	d := sheet.New(width, 40)
	d.Line(sheet.Edge, sheet.Point{X: 1, Y: 1}, sheet.Point{X: width - 1, Y: 30})
	d.Text(sheet.Lettering, sheet.Text{At: sheet.Point{X: 5, Y: 5}, Height: 3, Value: "a < b & c"})
	d.View(sheet.View{Of: inner, Box: sheet.Box{Min: sheet.Point{X: 2, Y: 2}, Max: sheet.Point{X: 20, Y: 20}}})
	return d
}

// pictured is the whole book in parts, with pictures.
func pictured() book.Book {
	b := whole()
	b.Sections[0].Page, b.Sections[2].Page = "First part", "Last part"
	b.Sections[0].Items[0].Figures = []book.Figure{
		{Key: "one", Title: "One & only", Alt: "What <one> shows", Caption: "Caption of it.", Drawing: drawn(120)},
		{Key: "two", Title: "Two", Alt: "What two shows", Drawing: drawn(58), File: "sheets/two.svg"},
	}
	b.Sections[2].Items[1].Figures = []book.Figure{{Key: "three", Title: "Three", Alt: "What three shows", Drawing: drawn(58)}}
	b.Sections[2].Items[0].Tables[0].Tick = true
	return b
}

// The page is made as one for every reader is: one language, headings in order,
// names for pictures and boxes, heads for tables, no id twice, every link to
// something that is there, nothing that runs and nothing from elsewhere.
func TestPage(t *testing.T) {
	text := writePage(t, pictured())
	if !bytes.HasPrefix(text, []byte("<!DOCTYPE html>\n<html lang=\"en-GB\"")) {
		t.Errorf("%.80s", text)
	}
	checkPage(t, parsePage(t, text))
}

func checkPage(t *testing.T, page *check.Node) {
	t.Helper()
	for _, fault := range page.Faults() {
		t.Error(fault)
	}
}

func parsePage(t *testing.T, text []byte) *check.Node {
	t.Helper()
	page, err := check.ReadPage(text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return page
}

// Pictures are in the page once, as wide as they are drawn, with what is said of
// them, and what clips in one is not that of another.
func TestPagePictures(t *testing.T) {
	page := parsePage(t, writePage(t, pictured()))
	figures := page.Named("figure")
	if len(figures) != 3 || len(page.Named("svg")) != 3 {
		t.Fatalf("%d figures, %d pictures", len(figures), len(page.Named("svg")))
	}
	for i, want := range []struct{ share, title, alt, caption string }{
		{"--share: 100.00%", "One & only", "What <one> shows", "One & only Caption of it."},
		{"--share: 49.15%", "Two", "What two shows", "Two sheets/two.svg"},
		{"--share: 49.15%", "Three", "What three shows", "Three"},
	} {
		f := figures[i]
		svg := f.Named("svg")[0]
		if f.Attr["style"] != want.share || svg.Named("title")[0].Words() != want.title || svg.Named("desc")[0].Words() != want.alt ||
			f.Named("figcaption")[0].Words() != want.caption {
			t.Errorf("%v %q %q %q; want %v", f.Attr, svg.Named("title")[0].Words(), svg.Named("desc")[0].Words(), f.Named("figcaption")[0].Words(), want)
		}
		clip := svg.Named("clipPath")
		if len(clip) != 1 || !strings.HasPrefix(clip[0].Attr["id"], svg.Attr["id"]+"-") || !strings.HasSuffix(svg.Attr["height"], "mm") {
			t.Errorf("%v %v", svg.Attr, clip)
		}
		if letters := svg.Named("text"); len(letters) != 1 || letters[0].Words() != "a < b & c" {
			t.Error(letters)
		}
	}
	if boxes := page.Named("input"); len(boxes) != 2 || boxes[1].Attr["aria-label"] != "done: hole two" {
		t.Error(boxes)
	}
	bad := pictured()
	bad.Sections[0].Items[0].Figures[0].Drawing = sheet.New(-1, 1)
	var out bytes.Buffer
	if err := bad.WriteHTML(&out); err == nil || out.Len() > 0 || !strings.Contains(err.Error(), `the picture "one" cannot be drawn`) {
		t.Errorf("%v, %d bytes", err, out.Len())
	}
}

// Every text of a book that a person is to read stands in its page, and each number
// of a work leads to it and says what it is where nobody reviewed it.
func TestPageHasAll(t *testing.T) {
	b := pictured()
	page := parsePage(t, writePage(t, b))
	words := page.Words()
	var text bytes.Buffer
	if err := b.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	for word := range strings.FieldsSeq(text.String()) {
		word = strings.Trim(word, "-[]().,:;>=")
		if !strings.Contains(words, word) {
			t.Errorf("no %q in\n%s", word, words)
		}
	}
	for _, a := range page.Named("a") {
		if a.Attr["href"] == "#work-5" {
			return
		}
	}
	t.Error("nothing leads to the work from memory")
}

// What can hurt somebody stands first, and then what to mind, before anything else.
func TestPageDanger(t *testing.T) {
	order := func(b book.Book, texts ...string) bool {
		words, at := pageText(t, b), 0
		for _, text := range texts {
			next := strings.Index(words[at:], text)
			if next < 0 {
				return false
			}
			at += next
		}
		return true
	}
	b := whole()
	if !order(b, "CAN HURT SOMEBODY", "WILL NOT WORK", "Precaution text.", "LAPS", "WORTH KNOWING", "SOURCES") {
		t.Error(pageText(t, b))
	}
	b.Findings = b.Findings[:1]
	if !order(b, "WILL NOT WORK", "LAPS", "WORTH KNOWING", "SOURCES", "Precaution text.") {
		t.Error(pageText(t, b))
	}
}

// Whatever text comes in is shown as text.
func TestPageHostile(t *testing.T) {
	for _, hostile := range []string{
		`</svg><script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</style><script>x</script>`, `{{.}} <!-- --> <![CDATA[ ]]>`,
		`"; } @import "x"; \"`, "a\u202eb\u200bc\x1b[2J", "a\x00b\u0085\u2028\xff", "'&amp;&lt;\\", "javascript:alert(1)", strings.Repeat("x", 10000), strings.Repeat("<b>& ", 2000),
		"</title>\n\n</head>", "π ° µ ≤ 𝜋",
	} {
		b := pictured()
		b.Program, b.Title, b.From = hostile, hostile, hostile
		s := &b.Sections[0]
		s.Title, s.Page, s.Intro, s.Notes = hostile, hostile, []string{hostile}, []string{hostile}
		i := &s.Items[0]
		i.Title = hostile
		i.Values[0].Label, i.Values[0].Remark, i.Values[0].What = hostile, hostile, book.Word(hostile)
		i.Formulas[0].Text, i.Notes[0].Text = hostile, hostile
		i.Figures[0].Title, i.Figures[0].Alt, i.Figures[0].Caption, i.Figures[1].File = hostile, hostile, hostile, hostile
		b.Findings[0].Where, b.Findings[0].Text, b.Findings[0].Remedies = hostile, hostile, []string{hostile}
		b.Sections[2].Items[0].Tables[0].Title = hostile
		row := &b.Sections[2].Items[0].Tables[0].Rows[0]
		row.Label, row.Group, row.Below, row.Values[0].Label = hostile, hostile, []string{hostile}, hostile
		b.Precautions[0].Text = hostile
		text := writePage(t, b)
		page := parsePage(t, text)
		checkPage(t, page)
		if i := bytes.IndexFunc(text, func(r rune) bool { return r != '\n' && !fault.Prints(r) }); i >= 0 {
			t.Errorf("%q: %q", hostile, text[i:min(len(text), i+20)])
		}
		// As often as it was put in, the title of the page aside, which may be cut.
		want := strings.Join(strings.Fields(fault.Visible(strings.NewReplacer("\x00", "\ufffd", "\n", " ").Replace(hostile))), " ")
		if n := strings.Count(page.Words(), want); n < 22 {
			t.Errorf("%.60q: %d times in the page\n%.3000s", want, n, page.Words())
		}
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestPageFails(t *testing.T) {
	if err := pictured().WriteHTML(failing{}); err == nil {
		t.Error("an error of the writer is lost")
	}
}
