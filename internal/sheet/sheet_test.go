package sheet

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

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
	d.Polyline(thick, true, Vertex{Point{0, 0}, 0}, Vertex{Point{10, 0}, 1}, Vertex{Point{10, 10}, 0}, Vertex{Point{0, 10}, -0.5})
	d.Fill(thick, Point{1, 1}, Point{2, 1}, Point{2, 3})
	d.Text(thin, Text{At: Point{100, 200}, Height: 2.5, Anchor: Middle, Rotation: 90 * units.Degree, Value: "ø36 <&> 5°"})
	return d
}

func TestSVG(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSVG(&b, `Cover "A" & B`, everything()); err != nil {
		t.Fatal(err)
	}
	// Y is turned over on a sheet of 297 mm; the half circle runs anticlockwise,
	// which is sweep flag 0, and the last side clockwise, which is 1.
	const want = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="210mm" height="297mm" viewBox="0 0 210 297">
<title>Cover &quot;A&quot; &amp; B</title>
<rect class="PAPER" width="100%" height="100%" fill="#fff"/>
<g class="THICK" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.35">
<line x1="10" y1="277" x2="110" y2="277"/>
<circle cx="50" cy="197" r="20"/>
<path d="M0 297L10 297A5 5 0 0 0 10 287L0 287A6.25 6.25 0 0 1 0 297Z"/>
<path fill="#000" stroke="none" d="M1 296L2 296L2 294Z"/>
</g>
<g class="THIN" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.18" stroke-dasharray="6 0.8 1.2 0.8">
<path d="M80 197A30 30 0 0 0 71.2132 175.7868A30 30 0 0 0 50 167"/>
<text fill="#000" stroke="none" font-family="Liberation Sans, Arial, Helvetica, sans-serif" font-size="3.6338" x="100" y="97" textLength="18.4233" lengthAdjust="spacingAndGlyphs" text-anchor="middle" transform="rotate(-90 100 97)">ø36 &lt;&amp;&gt; 5°</text>
</g>
</svg>
`
	if got := b.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestDXF(t *testing.T) {
	var b bytes.Buffer
	if err := WriteDXF(&b, everything()); err != nil {
		t.Fatal(err)
	}
	file := strings.ReplaceAll(b.String(), "\r\n", "|")
	for _, want := range []string{
		"9|$ACADVER|1|AC1009|",
		"0|LAYER|2|THICK|70|0|62|7|6|CONTINUOUS|0|LAYER|2|THIN|70|0|62|3|6|CHAIN|0|ENDTAB|",
		"0|LINE|8|THICK|10|10.0|20|20.0|30|0.0|11|110.0|21|20.0|31|0.0|",
		"0|CIRCLE|8|THICK|10|50.0|20|100.0|30|0.0|40|20.0|",
		"0|ARC|8|THIN|10|50.0|20|100.0|30|0.0|40|30.0|50|0.0|51|90.0|",
		"0|POLYLINE|8|THICK|66|1|10|0.0|20|0.0|30|0.0|70|1|0|VERTEX|8|THICK|10|0.0|20|0.0|30|0.0|42|0.0|0|VERTEX|8|THICK|10|10.0|20|0.0|30|0.0|42|1.0|",
		"42|-0.5|0|SEQEND|8|THICK|",
		"0|SOLID|8|THICK|10|1.0|20|1.0|30|0.0|11|2.0|21|1.0|31|0.0|12|2.0|22|3.0|32|0.0|13|2.0|23|3.0|33|0.0|",
		"0|TEXT|8|THIN|10|100.0|20|200.0|30|0.0|40|2.5|1|%%c36 <&> 5%%d|50|90.0|7|STANDARD|72|1|11|100.0|21|200.0|31|0.0|",
	} {
		if !strings.Contains(file, want) {
			t.Errorf("missing %s", want)
		}
	}
	if !strings.HasSuffix(file, "0|ENDSEC|0|EOF|") {
		t.Errorf("ends in %q", file[len(file)-40:])
	}
}

// TestPDF checks what the file says about itself: its cross references point at
// the objects, it is the same when written again, and it asks not to be scaled.
func TestPDF(t *testing.T) {
	var a, b bytes.Buffer
	for _, w := range []io.Writer{&a, &b} {
		if err := WritePDF(w, "Cover", everything(), New(215.9, 279.4)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two files of the same drawing differ")
	}
	file := a.String()
	if strings.Count(file, "Date (D:20000101000000") != 2 {
		t.Error("a date that changes from day to day")
	}
	if !strings.Contains(content(t, file), "\n1 j\n") {
		t.Error("the line joins are not round")
	}
	if !strings.HasPrefix(file, "%PDF-1.7\n") || strings.Count(file, "/ViewerPreferences <</PrintScaling /None>>") != 1 {
		t.Error("version 1.7 or print scaling missing")
	}
	start := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindStringSubmatch(file)
	if start == nil {
		t.Fatal("no startxref")
	}
	offset, _ := strconv.Atoi(start[1])
	references := regexp.MustCompile(`(?s)^xref\n0 (\d+)\n(.*?)trailer`).FindStringSubmatch(file[offset:])
	if references == nil {
		t.Fatalf("startxref points at %.20q", file[offset:])
	}
	for i, entry := range strings.Split(strings.TrimRight(references[2], "\n"), "\n") {
		at, _ := strconv.Atoi(entry[:10])
		if want := fmt.Sprintf("%d 0 obj\n", i); i > 0 && !strings.HasPrefix(file[at:], want) {
			t.Errorf("object %d is said to be at %d: %.20q", i, at, file[at:])
		}
	}
}

// content returns the first stream of a PDF, what stands on its first page.
func content(t *testing.T, file string) string {
	t.Helper()
	_, after, _ := strings.Cut(file, "stream\n")
	packed, err := zlib.NewReader(strings.NewReader(after))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(packed)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestUnscaledRefuses(t *testing.T) {
	for name, file := range map[string]string{
		"no catalog":        "%PDF-1.3\nxref\ntrailer\nstartxref\n9\n%%EOF\n",
		"catalog not last":  "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nendobj\n2 0 obj\n<<>>\nendobj\nxref\nstartxref\n64\n%%EOF\n",
		"no number":         "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\nx\n%%EOF\n",
		"another header":    "%!PS\n/Type /Catalog\nstartxref\n30\n",
		"cut off":           "%PDF-1.3\n/Type /Catalog\nstartxref\n",
		"offset before it":  "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\n3\n%%EOF\n",
		"offset beyond end": "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\n99999\n%%EOF\n",
	} {
		t.Run(name, func(t *testing.T) {
			if out, err := unscaled([]byte(file)); err == nil {
				t.Errorf("got %q", out)
			}
		})
	}
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

// TestDXFRefusals checks what release 12 cannot hold.
func TestDXFRefusals(t *testing.T) {
	stretched, viewing, wordy := New(10, 10), New(10, 10), New(10, 10)
	stretched.Stretch(1.1, 1)
	viewing.View(View{Of: New(5, 5), Box: Box{Max: Point{1, 1}}})
	wordy.Text(thick, Text{Height: 1, Value: strings.Repeat("é", 40)})
	for name, d := range map[string]*Drawing{"stretched": stretched, "view": viewing, "long text": wordy} {
		if err := WriteDXF(io.Discard, d); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "release 12") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestView checks that a view moves what it shows, cuts it off and leaves out
// what lies elsewhere.
func TestView(t *testing.T) {
	plan := New(1000, 1000)
	plan.Circle(thick, Point{500, 500}, 5)
	plan.Circle(thick, Point{900, 500}, 5)
	d := New(100, 100)
	d.View(View{Of: plan, From: Point{480, 490}, Box: Box{Min: Point{10, 10}, Max: Point{60, 60}}})
	var b bytes.Buffer
	if err := WriteSVG(&b, "", d); err != nil {
		t.Fatal(err)
	}
	svg := b.String()
	for _, want := range []string{`<rect x="10" y="40" width="50" height="50"/>`, `clip-path="url(#view1)"`, `<circle cx="30" cy="80" r="5"/>`} {
		if !strings.Contains(svg, want) {
			t.Errorf("missing %s in\n%s", want, svg)
		}
	}
	if strings.Count(svg, "<circle") != 1 {
		t.Errorf("a circle outside the view is drawn:\n%s", svg)
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

// genLoop draws a star-shaped loop about the origin with arcs in some sides, so
// that it does not cross itself.
func genLoop(t *rapid.T) []Vertex {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	loop := make([]Vertex, n)
	for i := range loop {
		r := rapid.Float64Range(20, 60).Draw(t, "radius")
		bulge := 0.0
		if rapid.Bool().Draw(t, "curved") {
			bulge = rapid.Float64Range(-0.15, 0.15).Draw(t, "bulge")
		}
		loop[i] = Vertex{polar(r, 2*math.Pi*float64(i)/float64(n)), bulge}
	}
	return loop
}

// area returns the area of a loop: the triangles of its chords and, on each arc,
// the segment r^2 (sweep - sin sweep)/2 beyond the chord.
func area(loop []Vertex) float64 {
	sum := 0.0
	for s := range (polyline{loop, true}).sides() {
		sum += (s.from.X*s.to.Y - s.from.Y*s.to.X) / 2
		if s.bulge != 0 {
			a := s.arc()
			sum += a.radius * a.radius * (a.sweep - math.Sin(a.sweep)) / 2
		}
	}
	return sum
}

// TestHatchCoversTheArea compares the length of the hatch lines times their
// spacing with the area, at any angle, with a hole that has a gap round it.
func TestHatchCoversTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outside := genLoop(t)
		r := rapid.Float64Range(2, 6).Draw(t, "hole")
		hole := []Vertex{{Point{-r, 0}, 1}, {Point{r, 0}, 1}}
		d := New(MaxSize, MaxSize)
		const spacing = 0.05
		d.Hatch(thick, Hatch{
			Region: [][]Vertex{outside, hole}, Spacing: spacing,
			Angle: units.Angle(rapid.Float64Range(-4, 4).Draw(t, "angle")),
		})
		if d.Err() != nil {
			t.Fatal(d.Err())
		}
		length := 0.0
		for _, s := range d.shapes {
			l := s.form.(line)
			length += l.b.sub(l.a).abs()
		}
		want := math.Abs(area(outside)) - math.Pi*r*r
		// strips of width 0.05 mm over edges of some 400 mm
		if got := length * spacing; math.Abs(got-want) > 0.01*want {
			t.Fatalf("hatched %.2f mm2 of %.2f", got, want)
		}
	})
}

// TestHatchGap checks the two ends that a gap leaves.
func TestHatchGap(t *testing.T) {
	d := New(100, 100)
	square := straight([]Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}})
	d.Hatch(thick, Hatch{Region: [][]Vertex{square}, Spacing: 5, Gaps: []Box{{Point{3, 4}, Point{6, 6}}}})
	var got []line
	for _, s := range d.shapes {
		got = append(got, s.form.(line))
	}
	want := []line{{Point{0, 0}, Point{10, 0}}, {Point{0, 5}, Point{3, 5}}, {Point{6, 5}, Point{10, 5}}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// TestBeziers checks how near the curves keep to the arc: with n to the turn the
// radial error is about 4/27 sin^6(a/4)/cos^2(a/4) of the radius, a = 360/n degrees,
// which for eight is 4.2e-6 (derived; a standard result for four is 2.73e-4).
func TestBeziers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := arc{Point{3, 4}, 10, rapid.Float64Range(0, 6).Draw(t, "start"), rapid.Float64Range(-2*math.Pi, 2*math.Pi).Draw(t, "sweep")}
		from := a.at(0)
		for _, b := range a.beziers() {
			for s := 0.0; s <= 1; s += 0.125 {
				u := 1 - s
				p := from.scale(u * u * u).add(b.control1.scale(3 * u * u * s)).add(b.control2.scale(3 * u * s * s)).add(b.to.scale(s * s * s))
				if err := math.Abs(p.sub(a.centre).abs()-a.radius) / a.radius; err > 4.4e-6 {
					t.Fatalf("radius off by %.2g", err)
				}
			}
			from = b.to
		}
		if end := a.at(1); end.sub(from).abs() > 1e-9 {
			t.Fatalf("ends at %v, want %v", from, end)
		}
	})
}

// TestArcOfBulge checks centre, radius and bounds against points of a known arc.
func TestArcOfBulge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := arc{Point{rapid.Float64Range(-50, 50).Draw(t, "x"), 7}, rapid.Float64Range(1, 50).Draw(t, "r"),
			rapid.Float64Range(-3, 3).Draw(t, "start"), rapid.Float64Range(0.1, 6).Draw(t, "sweep")}
		if rapid.Bool().Draw(t, "clockwise") {
			want.sweep = -want.sweep
		}
		s := side{want.at(0), want.at(1), math.Tan(want.sweep / 4)}
		got := s.arc()
		if got.centre.sub(want.centre).abs() > 1e-7 || math.Abs(got.radius-want.radius) > 1e-7 || math.Abs(got.sweep-want.sweep) > 1e-9 {
			t.Fatalf("got %+v, want %+v", got, want)
		}
		low, high := s.bounds()
		for share := 0.0; share <= 1; share += 1.0 / 64 {
			p := want.at(share)
			if p.X < low.X-1e-7 || p.Y < low.Y-1e-7 || p.X > high.X+1e-7 || p.Y > high.Y+1e-7 {
				t.Fatalf("%v lies outside %v %v", p, low, high)
			}
		}
	})
}

func TestTouches(t *testing.T) {
	d := New(100, 100)
	d.Circle(thick, Point{50, 50}, 10)
	d.Line(thick, Point{0, 0}, Point{20, 20})
	d.Polyline(thick, false, Vertex{Point{70, 0}, 0}, Vertex{Point{70, 20}, -1}, Vertex{Point{90, 20}, 0})
	d.Text(thick, Text{At: Point{10, 90}, Height: 3, Value: "M3"})
	for _, tt := range []struct {
		name string
		at   Point
		want bool
	}{
		{"inside a circle", Point{50, 50}, false}, {"on a circle", Point{60, 50}, true}, {"in its corner", Point{58.5, 58.5}, false},
		{"on a line", Point{10, 10}, true}, {"beside a line", Point{16, 4}, false},
		{"on a side", Point{70, 10}, true}, {"on the arc of a side", Point{80, 30}, true}, {"under that arc", Point{80, 22}, false}, {"between the ends of an open line", Point{80, 10}, false},
		{"on a text", Point{11, 91}, true},
	} {
		if got := d.Touches(Box{tt.at.At(-1, -1), tt.at.At(1, 1)}); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}

// TestDimension checks where the arrowheads stand and how the text is turned.
func TestDimension(t *testing.T) {
	tests := []struct {
		name     string
		m        Dimension
		outside  bool // the arrowheads point inwards from outside
		rotation float64
	}{
		{"across", Dimension{From: Point{0, 0}, To: Point{30, 5}, Through: Point{0, -10}, Value: "30"}, false, 0},
		{"up, read from the right", Dimension{From: Point{0, 0}, To: Point{0, 40}, Angle: 90 * units.Degree, Through: Point{-10, 0}, Value: "40"}, false, 90},
		{"down is up", Dimension{From: Point{0, 40}, To: Point{0, 0}, Angle: -90 * units.Degree, Through: Point{-10, 0}, Value: "40"}, false, 90},
		{"narrow", Dimension{From: Point{0, 0}, To: Point{2, 0}, Through: Point{0, -10}, Value: "2"}, true, 0},
		{"text wider than the distance", Dimension{From: Point{0, 0}, To: Point{7, 0}, Through: Point{0, -10}, Value: "7.0625"}, true, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := New(100, 100)
			d.Dimension(thick, tt.m)
			var tips, tails []Point
			var text Text
			for _, s := range d.shapes {
				switch f := s.form.(type) {
				case fill:
					tips = append(tips, f.corners[0])
					tails = append(tails, f.corners[1].toward(f.corners[2], 0.5))
				case Text:
					text = f
				}
			}
			if len(tips) != 2 {
				t.Fatalf("%d arrowheads", len(tips))
			}
			inside := tails[0].sub(tails[1]).abs() < tips[0].sub(tips[1]).abs()
			if inside == tt.outside {
				t.Errorf("arrowheads from %v to %v", tails, tips)
			}
			if math.Abs(text.Rotation.Degrees()-tt.rotation) > 1e-9 {
				t.Errorf("text turned by %v", text.Rotation)
			}
		})
	}
}

func TestFit(t *testing.T) {
	long := "A cover with a very long name that never ends"
	got := Fit(long, 2.5, 40)
	if TextWidth(got, 2.5) > 40 || !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) {
		t.Errorf("%q", got)
	}
	if Fit("M3", 2.5, 40) != "M3" || Fit("M3", 2.5, 0.1) != "" {
		t.Error("short text changed, or text in no room kept")
	}
	// Seven characters of DXF for a letter: 35 of them and three points are 248.
	if got := FitDXF(strings.Repeat("Ж", 100), 2.5, 1000); len(escapeDXF(got)) > mostDXFText || got != strings.Repeat("Ж", 36)+"…" || FitDXF(long, 2.5, 1000) != long {
		t.Errorf("%q is %d characters of DXF", got, len(escapeDXF(got)))
	}
	// widths of the letters in Liberation Sans, 2048 units to the em: H 1479, i 455
	if got, want := TextWidth("Hi", 2.5), (1479.0+455)/2048*2.5/capHeight; math.Abs(got-want) > 0.01 {
		t.Errorf("width %.4f, want %.4f", got, want)
	}
}

// decodeDXF reads a DXF text as readers do.
func decodeDXF(s string) string {
	s = strings.NewReplacer("%%c", "ø", "%%d", "°", "%%p", "±", "^ ", "^").Replace(s)
	return regexp.MustCompile(`\\U\+[0-9A-F]{4}`).ReplaceAllStringFunc(s, func(code string) string {
		r, _ := strconv.ParseUint(code[3:], 16, 32)
		return string(rune(r))
	})
}

// FuzzText holds that no text breaks out of its place in any format, and that
// what can be shown reads back.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Cover", `<script>alert("x")</script>`, "a & b 'c'", "%%c20 50 % ^J %ø %%%%° ^ ^^ \\ \\U+0041", "\x00\r\nSECTION\r\n", "\u202egnp.exe", "ø ° ± ½ 直径 🚂 20 × 25 – 3 …", "]]>", "\xff\xfe", ") Tj ET (", "\ufffe\u2028"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 1000 {
			s = s[:1000]
		}
		shown := printable(s)
		d := New(100, 100)
		d.Text(thick, Text{At: Point{1, 1}, Height: 0.1, Value: s})
		if d.Err() != nil {
			t.Skip(d.Err()) // wider than a sheet may be
		}
		var svg bytes.Buffer
		if err := WriteSVG(&svg, s, d); err != nil {
			t.Fatal(err)
		}
		var doc struct {
			Title string `xml:"title"`
			Text  string `xml:"g>text"`
		}
		if err := xml.Unmarshal(svg.Bytes(), &doc); err != nil {
			t.Fatalf("%v in\n%s", err, svg.String())
		}
		if doc.Title != shown || doc.Text != shown {
			t.Errorf("SVG reads back %q and %q, want %q", doc.Title, doc.Text, shown)
		}
		value := escapeDXF(shown)
		for _, c := range []byte(value) {
			if c < ' ' || c > '~' {
				t.Fatalf("DXF holds byte %#x", c)
			}
		}
		want := strings.NewReplacer("Ø", "ø", "⌀", "ø", "×", "x", "–", "-", "—", "-", "…", "...").Replace(shown)
		want = regexp.MustCompile(`%[%ø°±]`).ReplaceAllStringFunc(want, func(two string) string { return "% " + two[1:] })
		want = regexp.MustCompile(`%[%ø°±]`).ReplaceAllStringFunc(want, func(two string) string { return "% " + two[1:] }) // of three in a row
		if got := decodeDXF(value); got != want {
			t.Errorf("DXF reads back %q, want %q", got, want)
		}
		var dxf bytes.Buffer
		if err := WriteDXF(&dxf, d); err != nil {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Fatal(err)
			}
		} else if lines := strings.Count(dxf.String(), "\r\n"); lines%2 != 0 {
			t.Errorf("DXF of %d lines: not pairs", lines)
		}
		var pdf bytes.Buffer
		if err := WritePDF(&pdf, s, d); err != nil {
			t.Fatal(err)
		}
	})
}

func TestPrintable(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"ø3.4 × 6, 90° ± ½", "ø3.4 × 6, 90° ± ½"},
		{"a\x00b\tc\nd", "a�b�c�d"},
		{"\u202Etxt.exe", "�txt.exe"},
		{"zero\u200bwidth", "zero�width"},
		{"engine 🚂", "engine �"},
		{"\xff", "�"},
	} {
		if got := printable(tt.in); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.in, got, tt.want)
		}
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
	for _, err := range []error{WriteSVG(&svg, "", everything()), WriteDXF(&dxf, everything()), WritePDF(&pdf, "", everything())} {
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
