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
		"dimensions.advance_deg":                   26.0,
		"dimensions.bar_mm":                        2.5,
		"dimensions.bore_mm":                       20.0,
		"dimensions.cavity_mm":                     9.0,
		"dimensions.connecting_rod_mm":             63.0,
		"dimensions.eccentric_rod_mm":              60.0,
		"dimensions.exhaust_port_mm":               4.0,
		"dimensions.inside_admission":              false,
		"dimensions.port_length_mm":                10.0,
		"dimensions.steam_port_mm":                 2.0,
		"dimensions.stroke_mm":                     25.0,
		"dimensions.travel_mm":                     6.4,
		"dimensions.valve_mm":                      15.4,
		"dimensions.valve_offset_mm":               0.0,
		"eccentric.advance_deg":                    26.0,
		"eccentric.dial_reading_mm":                6.4,
		"eccentric.leads_crank_deg":                116.00000000000001,
		"eccentric.mean_lead_mm":                   0.20278767,
		"eccentric.offset_mm":                      3.2,
		"eccentric.valve_offset_for_equal_lead_mm": -0.068974535,
		"events.crank.admission.crank_deg":         -2.5800563812823736,
		"events.crank.admission.piston_mm":         0.010158344,
		"events.crank.admission.stroke":            0.0004063337700194128,
		"events.crank.compression.crank_deg":       335.5280685946107,
		"events.crank.compression.piston_mm":       0.909786687,
		"events.crank.compression.stroke":          0.03639146749623111,
		"events.crank.cut_off.crank_deg":           130.58005638128233,
		"events.crank.cut_off.piston_mm":           19.911942311,
		"events.crank.cut_off.stroke":              0.7964776924309944,
		"events.crank.exhaust_opening_mm":          2.0,
		"events.crank.lead_mm":                     0.133813134,
		"events.crank.opening_mm":                  2.0,
		"events.crank.release.crank_deg":           152.47193140538923,
		"events.crank.release.piston_mm":           23.319349911,
		"events.crank.release.stroke":              0.9327739964416603,
		"events.crank.steam_edge_past_port_mm":     0.0,
		"events.head.admission.crank_deg":          -5.413832861324404,
		"events.head.admission.piston_mm":          0.066799557,
		"events.head.admission.stroke":             0.0026719822824858622,
		"events.head.compression.crank_deg":        332.4719314053892,
		"events.head.compression.piston_mm":        1.680650089,
		"events.head.compression.stroke":           0.06722600355834006,
		"events.head.cut_off.crank_deg":            133.41383286132438,
		"events.head.cut_off.piston_mm":            21.74857263,
		"events.head.cut_off.stroke":               0.8699429051988525,
		"events.head.exhaust_opening_mm":           2.0,
		"events.head.lead_mm":                      0.271762205,
		"events.head.opening_mm":                   2.0,
		"events.head.release.crank_deg":            155.52806859461074,
		"events.head.release.piston_mm":            24.090213313,
		"events.head.release.stroke":               0.9636085325037692,
		"events.head.steam_edge_past_port_mm":      0.0,
		"laps.exhaust_mm":                          0.0,
		"laps.steam_mm":                            1.2,
		"sweep.inner_mm":                           4.5,
		"sweep.outer_mm":                           10.9,
		"sweep.ports_end_mm":                       6.5,
	} {
		got := at(data, path)
		g, number := got.(float64)
		w, wantNumber := want.(float64)
		if number != wantNumber || !number && got != want || number && math.Abs(g-w) > 1e-12*math.Abs(w) {
			t.Errorf("%s = %v, want %v", path, got, want)
		}
	}
}
