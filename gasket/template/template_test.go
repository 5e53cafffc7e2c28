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

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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

func TestPaper(t *testing.T) {
	for r := range check.Open(t, "gasket/template/paper.csv").Rows() {
		if r.ID == "A5" || r.ID == "A6" {
			r.Skip("too small for the bars and the title")
			continue
		}
		p, err := ParsePaper(strings.ToLower(r.ID))
		if err != nil {
			t.Error(err)
			continue
		}
		width, height := p.Size()
		r.Within("width_mm", width.MM(), 0) // exact by definition
		r.Within("height_mm", height.MM(), 0)
		r.Compare("width_pt", width.Inch()*72)
		r.Compare("height_pt", height.Inch()*72)
	}
}

func TestPaperNames(t *testing.T) {
	for _, p := range Papers() {
		var back Paper
		text, err := p.MarshalText()
		if err == nil {
			err = back.UnmarshalText(text)
		}
		if err != nil || back != p {
			t.Errorf("%v: %v, %v", p, back, err)
		}
	}
	for _, bad := range []string{"", "A5", "A44", "Quarto\x00"} {
		var unreadable *units.ParseError
		_, err := ParsePaper(bad)
		if !errors.As(err, &unreadable) || !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "A4, A3") {
			t.Errorf("%q: %v", bad, err)
		}
	}
	none := Paper(99)
	if _, err := none.MarshalText(); !errors.Is(err, units.ErrUnknown) || none.String() != "Paper(99)" {
		t.Errorf("%v: %v", none, err)
	}
}

// TestFactor uses a builder's print: a line of 132 mm came out at 114 mm. Not
// noticed, a bolt circle of 40 mm becomes 34.5 mm (common arithmetic).
func TestFactor(t *testing.T) {
	got, err := Factor(units.MM(132), units.MM(114))
	if err != nil || math.Abs(got-1.158) > 0.0005 {
		t.Errorf("factor %v, %v; want 1.158", got, err)
	}
	if wrong := 40 / got; math.Abs(wrong-34.5) > 0.05 {
		t.Errorf("a circle of 40 mm comes out at %.2f, want 34.5", wrong)
	}
	for _, tt := range []struct{ drawn, printed float64 }{{0, 100}, {100, 0}, {-1, -1}, {100, 49.9}, {49.9, 100}} {
		if _, err := Factor(units.MM(tt.drawn), units.MM(tt.printed)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", tt, err)
		}
	}
}

// TestCheckScale names the reasons for files that came in at the wrong size, as
// builders have met them: the ratios are those of the units.
func TestCheckScale(t *testing.T) {
	for _, tt := range []struct {
		drawn, measured float64
		code            finding.Code
		want            string
	}{
		{500, 132.292, UnitsMistaken, "Millimetres were read as pixels of 1/96 in."},
		{479, 12166.6, UnitsMistaken, "Millimetres were read as inches."},
		{40, 42.667, UnitsMistaken, "Pixels of 1/96 in were read as pixels of 1/90 in."},
		{96, 72, UnitsMistaken, "Points of 1/72 in were read as pixels of 1/96 in."},
		{40, 39.2, FittedToPage, "shrunk to fit"},
		{100, 97.1, FittedToPage, "shrunk to fit"},
		{100, 102, FittedToPage, "without borders"},
		{132, 114, "", ""},
		{100, 100, "", ""},
	} {
		got, err := CheckScale(units.MM(tt.drawn), units.MM(tt.measured))
		if err != nil {
			t.Fatal(err)
		}
		if tt.want == "" {
			if got != nil {
				t.Errorf("%g came out at %g: %v, want nothing", tt.drawn, tt.measured, got)
			}
			continue
		}
		if len(got) != 1 || got[0].Code != tt.code || !strings.Contains(got[0].Text, tt.want) || len(got[0].Remedies) != 1 {
			t.Errorf("%g came out at %g: %v, want %q", tt.drawn, tt.measured, got, tt.want)
		}
	}
	for _, tt := range []struct{ drawn, measured float64 }{{0, 100}, {100, 0}, {-1, -1}} {
		if _, err := CheckScale(units.MM(tt.drawn), units.MM(tt.measured)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", tt, err)
		}
	}
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

// TestTilesCover checks that the sheets cover the part, overlaps counted once, and
// that none is too many.
func TestTilesCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need, room := rapid.Float64Range(1, 3000).Draw(t, "need"), rapid.Float64Range(50, 400).Draw(t, "room")
		n := tiles(need, room)
		if covered := float64(n)*(room-overlap) + overlap; covered < need-1e-9 {
			t.Fatalf("%d sheets of %g cover %g of %g", n, room, covered, need)
		}
		if n > 1 && float64(n-1)*(room-overlap)+overlap >= need {
			t.Fatalf("%d sheets of %g for %g: one too many", n, room, need)
		}
	})
}

// TestBefore checks that match lines keep off the middle of the part, and that the
// sheets still cover the plan.
func TestBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, room := rapid.Float64Range(60, 2000).Draw(t, "plan"), rapid.Float64Range(100, 400).Draw(t, "room")
		middle := rapid.Float64Range(0.3, 0.7).Draw(t, "middle") * plan
		n := tiles(plan, room)
		at := before(n, room, plan, middle)
		spare := float64(n)*(room-overlap) + overlap - plan
		if at < -1e-9 || at > spare+1e-9 {
			t.Fatalf("%g before the plan of %g to spare", at, spare)
		}
		for k := 1; k < n && spare >= 20; k++ {
			if off := math.Abs(float64(k)*(room-overlap) + overlap/2 - at - middle); off < 2 {
				t.Fatalf("a match line is %g mm from the middle of the part", off)
			}
		}
	})
}

// TestTilesJoin checks that two sheets show the same where they overlap, when
// they are laid on each other by their targets.
func TestTilesJoin(t *testing.T) {
	layout := layoutOf(t, plate(t, 50), Options{})
	circle := regexp.MustCompile(`<circle cx="([^"]*)" cy="([^"]*)" r="([^"]*)"/>`)
	circles := func(page int, radius string) (at [][2]float64) {
		for _, m := range circle.FindAllStringSubmatch(svg(t, layout, page), -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			if m[3] == radius {
				at = append(at, [2]float64{x, y})
			}
		}
		return at
	}
	const hole, mark = "1.5", "2"
	for _, next := range []int{2, 3} { // beside the first sheet, and above it
		var step [2]float64
		for _, p := range circles(1, mark) {
			for _, q := range circles(next, mark) {
				across := p[0] > q[0]+100 && math.Abs(p[1]-q[1]) < 1e-3
				up := q[1] > p[1]+100 && math.Abs(p[0]-q[0]) < 1e-3
				if next == 2 && across || next == 3 && up {
					step = [2]float64{q[0] - p[0], q[1] - p[1]}
				}
			}
		}
		there := map[[2]int]bool{}
		key := func(x, y float64) [2]int { return [2]int{int(math.Round(x * 100)), int(math.Round(y * 100))} }
		for _, q := range circles(next, hole) {
			there[key(q[0], q[1])] = true
		}
		both := 0
		for _, p := range circles(1, hole) {
			if there[key(p[0]+step[0], p[1]+step[1])] {
				both++
			}
		}
		// 12 mm of overlap hold two or three rows of holes 5 mm apart, about 35 long
		if both < 50 {
			t.Errorf("sheets 1 and %d, %.3f apart: %d holes on both", next, step, both)
		}
	}
}

// TestListBeside checks that the list of places leaves the part its room: a part
// as wide as they allow stands clear of it.
func TestListBeside(t *testing.T) {
	studs, err := gasket.Rectangle(2, 2, units.MM(40), units.MM(100))
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Rectangular("x", gasket.Rect{Width: units.MM(56), Height: units.MM(110)}, nil, studs.Drilled(units.MM(3)))
	if err != nil {
		t.Fatal(err)
	}
	file := svg(t, layoutOf(t, o, Options{}), 1)
	list := regexp.MustCompile(` x="([^"]*)"[^>]*>HOLES FROM THE MIDDLE, mm<`).FindStringSubmatch(file)
	height := regexp.MustCompile(` x="([^"]*)"[^>]*>110</text>`).FindStringSubmatch(file)
	if list == nil || height == nil {
		t.Fatal("no list beside the part, or no dimension")
	}
	from, _ := strconv.ParseFloat(list[1], 64)
	if x, _ := strconv.ParseFloat(height[1], 64); x+2 > from {
		t.Errorf("the list begins at %.2f, the dimension of the part stands at %.2f", from, x)
	}
}

// TestDXFHoles checks that circles stand where the pattern has its holes, each
// with a cross, and that the file is never corrected.
func TestDXFHoles(t *testing.T) {
	outline := cover(t)
	var plain, corrected bytes.Buffer
	if err := errors.Join(
		layoutOf(t, outline, Options{}).WriteDXF(&plain),
		layoutOf(t, outline, Options{Correction: Correction{1.1, 1.2}}).WriteDXF(&corrected),
	); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(plain.Bytes(), corrected.Bytes()) {
		t.Error("the correction of a printer is in the DXF file")
	}
	file := strings.ReplaceAll(plain.String(), "\r\n", "|")
	circles := regexp.MustCompile(`0\|CIRCLE\|8\|HOLES\|10\|([^|]*)\|20\|([^|]*)\|30\|0\.0\|40\|([^|]*)\|`).FindAllStringSubmatch(file, -1)
	if !strings.Contains(file, "|1|Jointing of unknown age may hold asbestos:|") {
		t.Error("no caution")
	}
	if len(circles) != 6 {
		t.Fatalf("%d circles on the layer of holes", len(circles))
	}
	for i, c := range circles {
		var v [3]float64
		for j := range v {
			v[j], _ = strconv.ParseFloat(c[j+1], 64)
		}
		angle := math.Pi/2 + float64(i)*math.Pi/3
		if want := [3]float64{14 * math.Cos(angle), 14 * math.Sin(angle), 1.7}; !cmp.Equal(v, want, nearly) {
			t.Errorf("hole %d at %v, want %v", i+1, v, want)
		}
		arms := regexp.MustCompile(`0\|LINE\|8\|CENTRES\|10\|`+c[1]+`\|20\|`+c[2]+`\|30\|0\.0\|11\|([^|]*)\|21\|([^|]*)\|`).FindAllStringSubmatch(file, -1)
		if len(arms) != 4 {
			t.Errorf("hole %d: %d arms of the cross", i+1, len(arms))
		}
		for _, arm := range arms {
			x, _ := strconv.ParseFloat(arm[1], 64)
			y, _ := strconv.ParseFloat(arm[2], 64)
			if past := math.Hypot(x-v[0], y-v[1]) - v[2]; past < 1 {
				t.Errorf("hole %d: an arm reaches %.3f mm past its edge", i+1, past)
			}
		}
	}
	for _, layer := range regexp.MustCompile(`\|8\|([^|]*)\|`).FindAllStringSubmatch(file, -1) {
		if layer[1] != strings.ToUpper(layer[1]) {
			t.Fatalf("layer %s", layer[1])
		}
	}
}

var nearly = cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-8 })

func TestPunches(t *testing.T) {
	mm := units.MM
	tests := []struct {
		name string
		hole float64
		set  []units.Length
		want float64
	}{
		{"exact", 3.5, nil, 3.5},
		{"next above", 3.4, nil, 3.5},
		{"half a millimetre above", 3.5, []units.Length{mm(4)}, 4},
		{"too large", 3.4, []units.Length{mm(4)}, 0},
		{"too small", 3.4, []units.Length{mm(3)}, 0},
		{"a tenth above a large hole", 20.5, []units.Length{mm(22)}, 22},
		{"in any order", 3.4, []units.Length{mm(4), mm(3.4), mm(3.6)}, 3.4},
		{"none", 3.4, []units.Length{}, 0},
		{"larger than the rack", 40, nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o, err := gasket.Round("x", mm(90), units.Length{}, gasket.Pattern{{Diameter: mm(tt.hole)}})
			if err != nil {
				t.Fatal(err)
			}
			got := layoutOf(t, o, Options{Punches: tt.set}).Holes()
			if want := []Holes{{Diameter: mm(tt.hole), Count: 1, Punch: mm(tt.want)}}; !cmp.Equal(got, want, cmp.Comparer(func(a, b units.Length) bool { return a == b })) {
				t.Errorf("got %v, want %v", got, want)
			}
		})
	}
}

// TestHoleNames checks that holes go by their names, in the list and beside the
// part, and by their numbers without one.
func TestHoleNames(t *testing.T) {
	o := cover(t)
	o.Holes[0].Name, o.Holes[1].Name, o.Holes[2].Name = "top", "", "a <b> of a very long name"
	file := svg(t, layoutOf(t, o, Options{}), 1)
	for _, want := range []string{">top<", ">2<", ">a &lt;b&gt;"} {
		if n := strings.Count(file, want); n != 2 {
			t.Errorf("%s stands %d times, want 2", want, n)
		}
	}
	if strings.Contains(file, ">1<") || strings.Contains(file, "very long name") {
		t.Error("a number where there is a name, or a name beyond its column")
	}
}

// TestManySizes checks that sizes beyond the room of the strip are counted.
func TestManySizes(t *testing.T) {
	o := plate(t, 4)
	for i := range o.Holes {
		o.Holes[i].Diameter = units.MM(1 + float64(i%8)/4)
	}
	if file := svg(t, layoutOf(t, o, Options{}), 1); !strings.Contains(file, ">and 8 holes of 4 more sizes<") {
		t.Error("the rest of the sizes is not counted")
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

// TestPicture checks what stands on a picture, and that many holes are left to
// the DXF file.
func TestPicture(t *testing.T) {
	bare := cover(t)
	bare.Holes = nil
	for name, tt := range map[string]struct {
		outline gasket.Outline
		wants   []string
	}{
		"cover":    {cover(t), []string{`class="PAPER"`, ">Cylinder cover<", ">HOLES FROM THE MIDDLE, mm<", ">3.5 (+0.1)<", ">X 100 mm (3.937 in)<", ">not to cut from<", "asbestos"}},
		"no holes": {bare, []string{">none<"}},
		"many":     {plate(t, 6), []string{"Places of the 36 holes: in the DXF file"}},
	} {
		var b bytes.Buffer
		if err := layoutOf(t, tt.outline, Options{Correction: Correction{1.1, 1.2}}).WritePicture(&b); err != nil {
			t.Fatal(err)
		}
		for _, want := range tt.wants {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: missing %s", name, want)
			}
		}
		if across, up := barEnds(t, b.String()); across != 1 || up != 0 {
			t.Errorf("%s: %d bars across and %d up, want 1 and 0", name, across, up)
		}
		if strings.Contains(b.String(), "scale(") {
			t.Errorf("%s: the correction of a printer is in the picture", name)
		}
	}
}

// TestLongNames checks that a long name in any writing is cut to its place in
// every format: DXF takes seven characters for a letter beyond ASCII.
func TestLongNames(t *testing.T) {
	for _, name := range []string{strings.Repeat("W", 100_000), strings.Repeat("Ж", 80), strings.Repeat("直", 300), strings.Repeat("a ", 500)} {
		layout, err := New(Part{Outline: gasket.Outline{Name: name, Outside: cover(t).Outside}, Engine: name, Material: name, Thickness: units.MM(1)}, Options{})
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

// TestDimensionsNest checks that the shorter of two dimensions on one side is the
// one nearer to the part, so that its line is not crossed.
func TestDimensionsNest(t *testing.T) {
	studs, err := gasket.Rectangle(2, 2, units.MM(30), units.MM(34))
	if err != nil {
		t.Fatal(err)
	}
	for _, opening := range []float64{20, 24} {
		o, err := gasket.Rectangular("x", gasket.Rect{Width: units.MM(40), Height: units.MM(44)}, []gasket.Rect{{Width: units.MM(opening), Height: units.MM(opening)}}, studs.Drilled(units.MM(3)))
		if err != nil {
			t.Fatal(err)
		}
		text := regexp.MustCompile(`x="([^"]*)" y="([^"]*)"[^>]*>(30|34|20|24)</text>`)
		place := map[string][]float64{}
		for _, m := range text.FindAllStringSubmatch(svg(t, layoutOf(t, o, Options{}), 1), -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			place[m[3]] = append(place[m[3]], x, y)
		}
		inner, outer := place[fmt.Sprint(opening)], append(place["30"], place["34"]...)
		if len(inner) != 4 || len(outer) != 4 || inner[1] <= outer[1] || inner[2] <= outer[2] {
			t.Errorf("opening of %g: its dimensions at %v, those of the holes at %v", opening, inner, outer)
		}
	}
}

// TestLeaderClear checks that the note of an opening keeps off the dimension
// beside the part.
func TestLeaderClear(t *testing.T) {
	studs := gasket.Pattern{{At: gasket.Point{X: units.MM(8), Y: units.MM(8)}, Diameter: units.MM(3)}, {At: gasket.Point{X: units.MM(8), Y: units.MM(92)}, Diameter: units.MM(3)}}
	middle := gasket.Point{X: units.MM(40), Y: units.MM(50)}
	o, err := gasket.Rectangular("x", gasket.Rect{Centre: middle, Width: units.MM(80), Height: units.MM(100)}, nil, studs)
	if err != nil {
		t.Fatal(err)
	}
	o.Cutouts = []gasket.Loop{gasket.Circle(gasket.Point{X: units.MM(30), Y: units.MM(20)}, units.MM(20))}
	place := map[string]float64{}
	for _, m := range regexp.MustCompile(` x="([^"]*)"[^>]*>(84|ø20)</text>`).FindAllStringSubmatch(svg(t, layoutOf(t, o, Options{}), 1), -1) {
		place[m[2]], _ = strconv.ParseFloat(m[1], 64)
	}
	if note, line := place["ø20"], place["84"]; note == 0 || line == 0 || note < line+1 && note+6.5 > line-1 {
		t.Errorf("the note begins at %.2f, the dimension line stands near %.2f", note, line)
	}
}

// TestLeaderOffHatch checks that a leader does not run along the hatching when it
// gives way to a hole at its own angle.
func TestLeaderOffHatch(t *testing.T) {
	studs, err := gasket.BoltCircle(3, units.MM(28), 30*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Round("x", units.MM(36), units.MM(20), studs.Drilled(units.MM(3)))
	if err != nil {
		t.Fatal(err)
	}
	file := svg(t, layoutOf(t, o, Options{}), 1)
	group := regexp.MustCompile(`(?s)<g class="DIMENSIONS".*?</g>`).FindString(file)
	leaders := 0
	for _, m := range regexp.MustCompile(`<line x1="([^"]*)" y1="([^"]*)" x2="([^"]*)" y2="([^"]*)"/>`).FindAllStringSubmatch(group, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		if v[1] == v[3] {
			continue // the shelf of a note
		}
		leaders++
		if angle := math.Atan2(v[1]-v[3], v[2]-v[0]) * 180 / math.Pi; apart(angle, hatchAngle, 180) < 8 {
			t.Errorf("a leader at %.1f degrees", angle)
		}
	}
	if leaders < 3 {
		t.Errorf("%d leaders, want those of the outside, the holes and the opening", leaders)
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
