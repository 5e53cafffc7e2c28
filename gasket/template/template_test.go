package template

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// cover returns a round gasket with six holes for M3 studs, as invented as the
// engine of the example.
func cover(tb testing.TB) gasket.Outline {
	tb.Helper()
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		tb.Fatal(err)
	}
	o, err := gasket.Round("Cylinder cover", units.MM(36), units.MM(20.5), studs.Drilled(units.MM(3.4)))
	if err != nil {
		tb.Fatal(err)
	}
	return o
}

// plate returns a square gasket full of holes, 5 mm apart.
func plate(tb testing.TB, along int) gasket.Outline {
	tb.Helper()
	var p gasket.Pattern
	for i := range along * along {
		at := gasket.Point{X: units.MM(5 * float64(i%along+1)), Y: units.MM(5 * float64(i/along+1))}
		p = append(p, gasket.Hole{At: at, Diameter: units.MM(3)})
	}
	side := 5 * float64(along+1)
	centre := gasket.Point{X: units.MM(side / 2), Y: units.MM(side / 2)}
	o, err := gasket.Rectangular("Plate", gasket.Rect{Centre: centre, Width: units.MM(side), Height: units.MM(side)}, nil, p)
	if err != nil {
		tb.Fatal(err)
	}
	return o
}

func layoutOf(tb testing.TB, o gasket.Outline, options Options) *Template {
	tb.Helper()
	t, err := New(Part{Outline: o, Thickness: units.MM(0.25)}, options)
	if err != nil {
		tb.Fatal(err)
	}
	return t
}

func svg(tb testing.TB, t *Template, page int) string {
	tb.Helper()
	var b bytes.Buffer
	if err := t.WriteSVG(&b, page); err != nil {
		tb.Fatal(err)
	}
	return b.String()
}

// barEnds returns the ends of the two bars in an SVG sheet: the lines of 100 mm.
func barEnds(tb testing.TB, file string) (across, up int) {
	tb.Helper()
	line := regexp.MustCompile(`<line x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>`)
	group := regexp.MustCompile(`(?s)<g class="SCALE".*?</g>`).FindString(file)
	for _, m := range line.FindAllStringSubmatch(group, -1) {
		var v [4]float64
		for i := range v {
			var err error
			if v[i], err = strconv.ParseFloat(m[i+1], 64); err != nil {
				tb.Fatal(err)
			}
		}
		if v[1] == v[3] && math.Abs(math.Abs(v[2]-v[0])-100) < 1e-9 {
			across++
		}
		if v[0] == v[2] && math.Abs(math.Abs(v[3]-v[1])-100) < 1e-3 {
			up++
		}
	}
	return across, up
}

// TestEverySheet checks that each sheet of one, several and corrected ones says
// what it must.
func TestEverySheet(t *testing.T) {
	tests := []struct {
		name    string
		outline gasket.Outline
		options Options
		pages   int
		size    string
		also    []string
	}{
		{"one sheet", cover(t), Options{}, 1, `width="210mm" height="297mm"`, []string{"No correction", "HOLES FROM THE MIDDLE", ">6 × ø3.4 on ø28<", "12.12"}},
		{"letter, corrected", cover(t), Options{Paper: Letter, Correction: Correction{X: 132.0 / 114}}, 1, `width="215.9mm" height="279.4mm"`, []string{"X × 1.1579, Y × 1.0000", "factors × 100 / measured", "scale(1.15789"}},
		{"four sheets and a list", plate(t, 50), Options{}, 4, `width="210mm" height="297mm"`, []string{"join to sheet", "Places of the 2500 holes: in the DXF file"}},
		{"large paper", plate(t, 10), Options{Paper: A2}, 1, `width="420mm" height="594mm"`, []string{"HOLES FROM 0"}},
		{"list on the next sheet", plate(t, 8), Options{}, 2, `width="210mm" height="297mm"`, []string{"Places of the holes: sheet 2"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			layout := layoutOf(t, tt.outline, tt.options)
			if layout.Pages() != tt.pages {
				t.Errorf("%d sheets, want %d", layout.Pages(), tt.pages)
			}
			for page := 1; page <= layout.Pages(); page++ {
				file := svg(t, layout, page)
				if err := xml.Unmarshal([]byte(file), new(struct{})); err != nil {
					t.Fatal(err)
				}
				wants := []string{tt.size, "PRINT AT 100 % — MEASURE THIS", ">0.25 mm (10 thou)<", ">" + tt.outline.Name + "<", "PUNCH mm", fmt.Sprintf(">%d of %d, ", page, tt.pages), "asbestos"}
				if page == 1 {
					wants = append(wants, tt.also...)
				}
				for _, want := range wants {
					if !strings.Contains(file, want) {
						t.Errorf("sheet %d: missing %s", page, want)
					}
				}
				if across, up := barEnds(t, file); across != 1 || up != 1 {
					t.Errorf("sheet %d: %d bars across and %d up", page, across, up)
				}
			}
			for _, bad := range []int{0, layout.Pages() + 1} {
				if err := layout.WriteSVG(io.Discard, bad); !errors.Is(err, units.ErrOutOfRange) {
					t.Errorf("sheet %d: %v", bad, err)
				}
			}
			var a, b bytes.Buffer
			if err := errors.Join(layout.WritePDF(&a), layoutOf(t, tt.outline, tt.options).WritePDF(&b)); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(a.Bytes(), b.Bytes()) || bytes.Count(a.Bytes(), []byte("/Type /Page\n")) != tt.pages {
				t.Error("the PDF changes from run to run, or has another number of pages")
			}
		})
	}
}

func TestNewRefuses(t *testing.T) {
	good := Part{Outline: cover(t), Thickness: units.MM(0.25)}
	nameless, thin, outside := good, good, good
	nameless.Outline.Name = ""
	thin.Thickness = units.Length{}
	outside.Outline.Holes = gasket.Pattern{{At: gasket.Point{X: units.MM(40)}, Diameter: units.MM(3)}}
	million := good
	million.Outline.Outside = make(gasket.Loop, 1_000_000)
	huge := good
	huge.Outline.Outside = gasket.Circle(gasket.Point{}, units.MM(25_000))
	wide := good
	wide.Outline.Outside = gasket.Circle(gasket.Point{}, units.MM(5_000))
	tests := []struct {
		name    string
		part    Part
		options Options
		text    string
	}{
		{"no name", nameless, Options{}, "name of the part"},
		{"no thickness", thin, Options{}, "thickness"},
		{"hole outside", outside, Options{}, "outside"},
		{"a million points", million, Options{}, "100000"},
		{"beyond 10 m", huge, Options{}, "10,000 mm"},
		{"too many sheets", wide, Options{}, "200 sheets"},
		{"no such paper", good, Options{Paper: 77}, "Letter"},
		{"correction", good, Options{Correction: Correction{Y: 3}}, "correction along Y"},
		{"correction not a number", good, Options{Correction: Correction{X: math.NaN()}}, "correction along X"},
		{"too little paper left", good, Options{Correction: Correction{X: 1.5}}, "165 x 200 mm"},
		{"punch of no size", good, Options{Punches: []units.Length{{}}}, "punch"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := New(tt.part, tt.options); err == nil || !strings.Contains(err.Error(), tt.text) {
				t.Errorf("got %v, want %q", err, tt.text)
			}
		})
	}
}

// TestNamesAreText checks that a name cannot add to a file.
func TestNamesAreText(t *testing.T) {
	o := cover(t)
	o.Name = "</title><script>alert(1)</script>\r\n0\r\nLINE\r\n\u202e&"
	layout, err := New(Part{Outline: o, Engine: o.Name, Material: o.Name, Thickness: units.MM(1)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if file := svg(t, layout, 1); strings.Contains(file, "<script>") || xml.Unmarshal([]byte(file), new(struct{})) != nil {
		t.Error("SVG")
	}
	var honest, hostile bytes.Buffer
	if err := errors.Join(layoutOf(t, cover(t), Options{}).WriteDXF(&honest), layout.WriteDXF(&hostile)); err != nil {
		t.Fatal(err)
	}
	if a, b := bytes.Count(honest.Bytes(), []byte("\r\n")), bytes.Count(hostile.Bytes(), []byte("\r\n")); a != b {
		t.Errorf("DXF has %d lines with the name, %d without", b, a)
	}
	if err := layout.WritePDF(io.Discard); err != nil {
		t.Error(err)
	}
}

// TestLongNames checks that a long name in any writing is cut to its place in
// every format: DXF takes seven characters for a letter beyond ASCII.
func TestLongNames(t *testing.T) {
	long := strings.Repeat
	for _, name := range []string{long("W", 100_000), long("Ж", 80), long("直", 300), long("a ", 500)} {
		o := gasket.Outline{Name: name, Outside: cover(t).Outside}
		layout, err := New(Part{Outline: o, Engine: name, Material: name, Thickness: units.MM(1)}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		var dxf bytes.Buffer
		if err := errors.Join(layout.WriteDXF(&dxf), layout.WritePDF(io.Discard)); err != nil {
			t.Errorf("%.10s: %v", name, err)
		}
		if n := strings.Count(dxf.String(), "...\r\n"); n != 3 {
			t.Errorf("%.10s: %d texts are marked as cut, want 3", name, n)
		}
	}
}

// A caller that goes on with its outline does not change the template.
func TestTemplateKeepsItsPart(t *testing.T) {
	o := cover(t)
	sheet := layoutOf(t, o, Options{})
	files := func() string {
		var b bytes.Buffer
		for _, write := range []func(io.Writer) error{sheet.WriteDXF, sheet.WritePicture} {
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
		}
		return b.String()
	}
	before := files()
	o.Holes[0].At.X = units.MM(500)
	o.Outside[0].X = units.MM(100)
	o.Cutouts[0][0].X = units.MM(3)
	if files() != before {
		t.Error("the files changed with the caller's outline")
	}
}

func BenchmarkTemplate10000Holes(b *testing.B) {
	part := Part{Outline: plate(b, 100), Thickness: units.MM(0.25)}
	for name, write := range map[string]func(*Template) error{
		"PDF": func(t *Template) error { return t.WritePDF(io.Discard) },
		"DXF": func(t *Template) error { return t.WriteDXF(io.Discard) },
		"SVG": func(t *Template) error {
			for page := range t.Pages() {
				if err := t.WriteSVG(io.Discard, page+1); err != nil {
					return err
				}
			}
			return nil
		},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				t, err := New(part, Options{})
				if err != nil {
					b.Fatal(err)
				}
				if err := write(t); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
