package pages

import (
	"io"
	"os"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
)

// Every page that a maker names is one of the booklet, or its sections would be lost;
// and the sections of one page stand together, in the order in which they were made.
func TestInOrder(t *testing.T) {
	for _, m := range makers {
		if !slices.Contains(booklet, m.page) {
			t.Errorf("%q is not a page of the booklet", m.page)
		}
	}
	made := []book.Section{
		{Key: "all well"}, {Key: "steam", Page: "Before steam"}, {Key: "valve", Page: valvePage}, {Key: "laps"},
		{Key: "offset", Page: eccentricPage}, {Key: "face", Page: valvePage},
	}
	var order []string
	for _, s := range inOrder(made) {
		order = append(order, s.Key+"/"+s.Page)
	}
	want := []string{"all well/", "valve/" + valvePage, "laps/", "face/", "offset/" + eccentricPage, "steam/Before steam"}
	if !slices.Equal(order, want) {
		t.Errorf("%q, want %q", order, want)
	}
}

const demonstration = "../../examples/enginebook/engines/demo.toml"

// A counter counts what is written.
type counter int

func (c *counter) Write(text []byte) (int, error) {
	*c += counter(len(text))
	return len(text), nil
}

// written writes a book in every view.
func written(w io.Writer, b book.Book) error {
	for _, view := range []func(io.Writer) error{b.WriteHTML, b.WriteText, b.WriteJSON} {
		if err := view(w); err != nil {
			return err
		}
	}
	return nil
}

// The whole booklet of the demonstration is under 1.5 MB.
func TestBookletSize(t *testing.T) {
	b, files, _, err := Booklet(demonstration, nil, template.A4, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	var size counter
	for _, f := range files {
		size += counter(len(f.Text))
	}
	if err := written(&size, b); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes", size)
	if size < 200_000 || size > 1_500_000 {
		t.Errorf("%d bytes", size)
	}
}

// BenchmarkBooklet makes the booklet of the demonstration from its file, with its sheets,
// and writes it in every view.
func BenchmarkBooklet(b *testing.B) {
	text, err := os.ReadFile(demonstration)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	var size counter
	for b.Loop() {
		size = 0
		made, files, _, err := Booklet(demonstration, text, template.A4, func(string) {})
		for _, f := range files {
			size += counter(len(f.Text))
		}
		if err == nil {
			err = written(&size, made)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(size), "bytes")
}
