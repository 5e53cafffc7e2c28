package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

var (
	thick = Layer{Name: "THICK", Width: 0.35, Colour: 7}
	thin  = Layer{Name: "THIN", Width: 0.18, Pattern: Chain, Colour: 3}
)

// everything returns a drawing with one of each thing on it.
func everything() *Drawing {
	d := New(210, 297)
	d.Line(thick, Point{10, 20}, Point{110, 20})
	d.Circle(thick, Point{50, 100}, 20)
	d.Arc(thin, Point{50, 100}, 30, 0, 90*units.Degree)
	corners := []Vertex{{Point{0, 0}, 0}, {Point{10, 0}, 1}, {Point{10, 10}, 0}, {Point{0, 10}, -0.5}}
	d.Polyline(thick, true, corners...)
	d.Fill(thick, Point{1, 1}, Point{2, 1}, Point{2, 3})
	d.Text(thin, Text{At: Point{100, 200}, Height: 2.5, Anchor: Middle, Rotation: 90 * units.Degree, Value: "ø36 <&> 5°"})
	return d
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		draw func(*Drawing)
		kind error
		text string
	}{
		{"not a number", func(d *Drawing) { d.Line(thick, Point{nan, 0}, Point{1, 1}) }, units.ErrNotFinite, "coordinate"},
		{"infinite", func(d *Drawing) { d.Circle(thick, Point{0, inf}, 1) }, units.ErrNotFinite, "coordinate"},
		{"too far", func(d *Drawing) { d.Line(thick, Point{}, Point{0, -10001}) }, units.ErrOutOfRange, "10,000 mm"},
		{"no radius", func(d *Drawing) { d.Circle(thick, Point{}, 0) }, units.ErrOutOfRange, "radius"},
		{"radius not a number", func(d *Drawing) { d.Arc(thick, Point{}, nan, 0, 1) }, units.ErrOutOfRange, "radius"},
		{"angle not a number", func(d *Drawing) { d.Arc(thick, Point{}, 1, 0, units.Angle(nan)) }, units.ErrNotFinite, "angle"},
		{"one vertex", func(d *Drawing) { d.Polyline(thick, true, Vertex{}) }, units.ErrMissing, "two vertices"},
		{"wild bulge", func(d *Drawing) { d.Polyline(thick, false, Vertex{Bulge: 1e6}, Vertex{Point: Point{1, 1}}) }, units.ErrOutOfRange, "bulge"},
		{"bulge not a number", func(d *Drawing) { d.Polyline(thick, false, Vertex{Bulge: nan}, Vertex{Point: Point{1, 1}}) }, units.ErrOutOfRange, "bulge"},
		{"arc far beyond its ends", func(d *Drawing) { d.Polyline(thick, false, Vertex{Bulge: 900}, Vertex{Point: Point{100, 0}}) }, units.ErrOutOfRange, "coordinate"},
		{"five corners", func(d *Drawing) { d.Fill(thick, make([]Point, 5)...) }, units.ErrOutOfRange, "corners"},
		{"layer in small letters", func(d *Drawing) { d.Line(Layer{Name: "cut", Width: 1, Colour: 1}, Point{}, Point{}) }, units.ErrOutOfRange, "layer name"},
		{"line of no width", func(d *Drawing) { d.Line(Layer{Name: "CUT", Colour: 1}, Point{}, Point{}) }, units.ErrOutOfRange, "line width"},
		{"no colour", func(d *Drawing) { d.Line(Layer{Name: "CUT", Width: 1}, Point{}, Point{}) }, units.ErrOutOfRange, "colour"},
		{"text of no height", func(d *Drawing) { d.Text(thick, Text{Value: "a"}) }, units.ErrOutOfRange, "text height"},
		{"text turned nowhere", func(d *Drawing) { d.Text(thick, Text{Height: 1, Rotation: units.Angle(inf)}) }, units.ErrNotFinite, "rotation"},
		{"stretch", func(d *Drawing) { d.Stretch(1, 3) }, units.ErrOutOfRange, "0.5 to 2"},
		{"hatch without spacing", func(d *Drawing) { d.Hatch(thick, Hatch{}) }, units.ErrOutOfRange, "spacing"},
		{"hatch too dense", func(d *Drawing) {
			d.Hatch(thick, Hatch{Region: [][]Vertex{straight([]Point{{0, 0}, {0, 100}, {100, 0}})}, Spacing: 1e-4})
		}, units.ErrOutOfRange, "20000 lines"},
		{"view of itself", func(d *Drawing) { d.View(View{Of: d}) }, units.ErrMissing, "view"},
		{"view of nothing", func(d *Drawing) { d.View(View{Of: New(1, 1)}) }, units.ErrOutOfRange, "box"},
		{"view of a failed drawing", func(d *Drawing) { d.View(View{Of: New(-1, 1)}) }, units.ErrOutOfRange, "side of the sheet"},
		{"a million points", func(d *Drawing) {
			for range 500_001 {
				d.Line(thick, Point{}, Point{1, 1})
			}
		}, units.ErrOutOfRange, "500000 points"},
		{"a million vertices", func(d *Drawing) { d.Polyline(thick, true, make([]Vertex, 1_000_000)...) }, units.ErrOutOfRange, "500000 points"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := New(100, 100)
			tt.draw(d)
			d.Line(thick, Point{}, Point{1, 1}) // too late
			for name, err := range map[string]error{
				"Err": d.Err(), "SVG": WriteSVG(io.Discard, "", d), "DXF": WriteDXF(io.Discard, d), "PDF": WritePDF(io.Discard, "", d),
			} {
				if !errors.Is(err, tt.kind) || !strings.Contains(fmt.Sprint(err), tt.text) {
					t.Errorf("%s: %v, want %v with %q", name, err, tt.kind, tt.text)
				}
			}
		})
	}
}

func TestSheetSize(t *testing.T) {
	for _, d := range []*Drawing{New(0, 10), New(10, -1), New(math.NaN(), 1), New(1, 10001)} {
		if !errors.Is(d.Err(), units.ErrOutOfRange) {
			t.Errorf("%v", d.Err())
		}
	}
	for _, pages := range [][]*Drawing{nil, make([]*Drawing, 201)} {
		if err := WritePDF(io.Discard, "", pages...); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%d pages: %v", len(pages), err)
		}
	}
}

// TestStretch checks that the sheet and all on it grow together.
func TestStretch(t *testing.T) {
	d := New(200, 250)
	d.Stretch(132.0/114, 1)
	d.Line(thick, Point{10, 10}, Point{110, 10})
	var b bytes.Buffer
	if err := WriteSVG(&b, "", d); err != nil {
		t.Fatal(err)
	}
	if svg := b.String(); !strings.Contains(svg, `width="231.5789mm" height="250mm" viewBox="0 0 231.5789 250"`) || !strings.Contains(svg, `scale(1.1578947368421053 1)`) {
		t.Error(svg)
	}
	var plain, wide bytes.Buffer
	for w, x := range map[*bytes.Buffer]float64{&plain: 1, &wide: 1.25} {
		d := New(200, 250)
		d.Stretch(x, 2*x/(1+x))
		if err := WritePDF(w, "", d); err != nil {
			t.Fatal(err)
		}
	}
	// 200 mm are 566.93 pt, 250 mm 708.66 pt; upwards 2.5/2.25 times as much
	if !strings.Contains(plain.String(), "/MediaBox [0 0 566.93 708.66]") || !strings.Contains(wide.String(), "/MediaBox [0 0 708.66 787.40]") {
		t.Error("the page does not grow with the stretch")
	}
	if !regexp.MustCompile(`\n1\.25000 0\.00000 0\.00000 1\.11111 `).MatchString(content(t, wide.String())) {
		t.Error("what is on the page does not grow with the stretch")
	}
}

// plate returns a sheet with n holes, each with its cross, all hatched round.
func plate(n int) *Drawing {
	side := int(math.Ceil(math.Sqrt(float64(n))))
	d := New(MaxSize, MaxSize)
	size := 6 * float64(side)
	region := [][]Vertex{straight([]Point{{0, 0}, {size, 0}, {size, size}, {0, size}})}
	for i := range n {
		at := Point{6*float64(i%side) + 3, 6*float64(i/side) + 3}
		d.Circle(thick, at, 1.7)
		d.CentreMark(thin, at, 1.7, 1.2)
		region = append(region, []Vertex{{at.At(-1.7, 0), 1}, {at.At(1.7, 0), 1}})
	}
	d.Hatch(thin, Hatch{Region: region, Angle: 45 * units.Degree, Spacing: 6})
	return d
}

func BenchmarkSheet10000Holes(b *testing.B) {
	for name, write := range map[string]func(*Drawing) error{
		"SVG": func(d *Drawing) error { return WriteSVG(io.Discard, "", d) },
		"DXF": func(d *Drawing) error { return WriteDXF(io.Discard, d) },
		"PDF": func(d *Drawing) error { return WritePDF(io.Discard, "", d) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := write(plate(10_000)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestFormatFacts checks the files against what the formats' own references say.
func TestFormatFacts(t *testing.T) {
	var svg, dxf, pdf bytes.Buffer
	d := everything()
	for _, err := range []error{WriteSVG(&svg, "", d), WriteDXF(&dxf, d), WritePDF(&pdf, "", d)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	files := map[string]string{"SVG": svg.String(), "DXF": strings.ReplaceAll(dxf.String(), "\r\n", "|"), "PDF": pdf.String()}
	for r := range check.Open(t, "internal/sheet/format_facts.csv").Rows() {
		file := files[r.Text("format")]
		if must := r.Optional("must"); must != "" {
			got := ""
			if strings.Contains(file, must) {
				got = must
			}
			r.Equal("must", got)
		}
		if not := r.Optional("must_not"); not != "" {
			if strings.Contains(file, not) {
				t.Errorf("%s: the file holds %s", r.ID, not)
			}
			if !r.Has("must") {
				r.Skip("something that must be absent, and is looked for here")
			}
		}
	}
}
