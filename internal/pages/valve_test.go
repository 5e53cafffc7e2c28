package pages_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/pages"
)

// demo returns the file of the invented engine with a text put in place of
// another, which must be in it.
func demo(t *testing.T, old, replacement string) string {
	t.Helper()
	text, err := os.ReadFile(check.Path(t, "../examples/enginebook/demo/engine.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), old) {
		t.Fatalf("no %q in the demonstration", old)
	}
	return strings.Replace(string(text), old, replacement, 1)
}

// pageOf makes the book of one page of an engine file.
func pageOf(text string, make func(*engine.Engine) (*pages.Page, error)) (book.Book, error) {
	e, err := engine.Parse("engine.toml", []byte(text))
	if err != nil {
		return book.Book{}, err
	}
	p, err := make(e)
	if err != nil || p == nil {
		return book.Book{}, err
	}
	return book.Book{Sections: p.Sections, Findings: p.Findings, Precautions: p.Precautions}, nil
}

// views returns the text of a book, in one line, and its JSON.
func views(t *testing.T, b book.Book) (text string, data map[string]any) {
	t.Helper()
	var plain, raw bytes.Buffer
	if err := b.WriteText(&plain); err != nil {
		t.Fatal(err)
	}
	if err := b.WriteJSON(&raw); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw.Bytes(), &data); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(plain.String()), " "), data
}

// at returns what JSON has at a path of keys.
func at(data any, path string) any {
	for key := range strings.SplitSeq(path, ".") {
		object, _ := data.(map[string]any)
		data = object[key]
	}
	return data
}

// The figures that other programs read keep their names, places and values: they
// are those of the first edition, whose events scipy checked.
func TestValveJSON(t *testing.T) {
	b, err := pageOf(demo(t, "", ""), pages.Valve)
	if err != nil {
		t.Fatal(err)
	}
	_, data := views(t, b)
	for path, want := range map[string]any{
		"laps.steam_mm": 1.2, "laps.exhaust_mm": 0.0,
		"events.head.admission.crank_deg": -5.410346094, "events.head.cut_off.crank_deg": 133.410346094,
		"events.head.cut_off.stroke": 0.8699429051988, "events.crank.cut_off.stroke": 0.796462748,
		"events.head.lead_mm": 0.271757, "events.crank.lead_mm": 0.134, "events.head.opening_mm": 2.0,
		"events.head.steam_edge_past_port_mm": 0.0, "events.crank.exhaust_opening_mm": 2.0,
		"dimensions.bore_mm": 20.0, "dimensions.connecting_rod_mm": 63.0, "dimensions.inside_admission": false,
		"dimensions.advance_deg": 26.0, "dimensions.valve_offset_mm": 0.0, "dimensions.travel_mm": 6.4,
		"sweep.inner_mm": 4.5, "sweep.outer_mm": 10.9, "sweep.ports_end_mm": 6.5,
		"eccentric.offset_mm": 3.2, "eccentric.dial_reading_mm": 6.4, "eccentric.leads_crank_deg": 116.0,
	} {
		got := at(data, path)
		g, number := got.(float64)
		w, wantNumber := want.(float64)
		if number != wantNumber || !number && got != want || number && math.Abs(g-w) > 5e-4*math.Abs(w)+1e-4 {
			t.Errorf("%s = %v, want %v", path, got, want)
		}
	}
}
