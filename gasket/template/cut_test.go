package template

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// What a machine cuts is the edges of the part, inside first, and nothing else: no
// paper, no text, no bar, and nothing of the correction for a printer.
func TestCutOnly(t *testing.T) {
	studs, err := gasket.Rectangle(2, 3, units.MM(23), units.MM(33))
	if err != nil {
		t.Fatal(err)
	}
	chest, err := gasket.Rectangular("Chest", gasket.Rect{Width: units.MM(30), Height: units.MM(40), Corner: units.MM(3)},
		[]gasket.Rect{{Width: units.MM(16), Height: units.MM(26)}}, studs.Drilled(units.MM(3.4)))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name           string
		outline        gasket.Outline
		size, corner   string
		circles, paths int
		firstX         string // of the first hole in the DXF file
	}{
		{"chest", chest, `width="32mm" height="42mm" viewBox="0 0 32 42"`, `<circle cx="4.5" cy="37.5" r="1.7"/>`, 6, 2, "-11.5"},
		{"cover", cover(t), `width="38mm" height="38mm" viewBox="0 0 38 38"`, `<circle cx="19" cy="19" r="18"/>`, 8, 0, "0.0"},
	} {
		layout := layoutOf(t, test.outline, Options{Correction: Correction{X: 1.1}})
		var svg, dxf bytes.Buffer
		if err := layout.WriteCutSVG(&svg); err != nil {
			t.Fatal(err)
		}
		if err := layout.WriteCutDXF(&dxf); err != nil {
			t.Fatal(err)
		}
		file := svg.String()
		if err := xml.Unmarshal(svg.Bytes(), new(struct{})); err != nil {
			t.Error(err)
		}
		if !strings.Contains(file, test.size) || !strings.Contains(file, test.corner) ||
			strings.Count(file, "<circle") != test.circles || strings.Count(file, "<path") != test.paths {
			t.Errorf("%s:\n%s", test.name, file)
		}
		for _, other := range []string{"<rect", "<text", "<line", "scale(", "clip", "dasharray", "%"} {
			if strings.Contains(file, other) {
				t.Errorf("%s: %s in\n%s", test.name, other, file)
			}
		}
		order := regexp.MustCompile(`class="([A-Z]*)"`).FindAllStringSubmatch(file, -1)
		if len(order) != 3 || order[0][1] != "HOLES" || order[1][1] != "OPENINGS" || order[2][1] != "OUTSIDE" {
			t.Errorf("%s: %v", test.name, order)
		}
		entities := strings.ReplaceAll(dxf.String(), "\r\n", "|")
		_, entities, _ = strings.Cut(entities, "|ENTITIES|")
		for _, other := range []string{"|LINE|", "|TEXT|", "|SOLID|", "|ARC|"} {
			if strings.Contains(entities, other) {
				t.Errorf("%s: %s in the DXF file", test.name, other)
			}
		}
		if !strings.HasPrefix(entities, "0|CIRCLE|8|HOLES|10|"+test.firstX+"|") || !strings.Contains(entities, "|8|OPENINGS|") || !strings.Contains(entities, "|8|OUTSIDE|") {
			t.Errorf("%s: %.200s", test.name, entities)
		}
	}
}

// A sheet notes the radius of rounded corners, those that are alike once.
func TestRadii(t *testing.T) {
	rect := func(w, h, corner float64) gasket.Rect {
		return gasket.Rect{Width: units.MM(w), Height: units.MM(h), Corner: units.MM(corner)}
	}
	outline := func(outside gasket.Rect, openings ...gasket.Rect) gasket.Outline {
		o, err := gasket.Rectangular("x", outside, openings, nil)
		if err != nil {
			t.Fatal(err)
		}
		return o
	}
	pair := gasket.Pattern{
		{At: gasket.Point{X: units.MM(-20)}, Diameter: units.MM(5)}, {At: gasket.Point{X: units.MM(20)}, Diameter: units.MM(5)},
	}
	oval, err := gasket.Oval("x", units.MM(24), units.MM(12), units.MM(10), pair)
	if err != nil {
		t.Fatal(err)
	}
	oddCorner := outline(rect(60, 40, 0))
	oddCorner.Outside = gasket.Loop{ // one corner rounded, one hollowed out
		{Point: gasket.Point{}}, {Point: gasket.Point{X: units.MM(50)}, Bulge: 0.4142135623730951}, {Point: gasket.Point{X: units.MM(60), Y: units.MM(10)}},
		{Point: gasket.Point{X: units.MM(60), Y: units.MM(40)}}, {Point: gasket.Point{X: units.MM(8), Y: units.MM(40)}, Bulge: -0.4142135623730951},
		{Point: gasket.Point{Y: units.MM(32)}},
	}
	for _, test := range []struct {
		name string
		o    gasket.Outline
		inch bool
		want []string
	}{
		{"sharp", outline(rect(30, 40, 0), rect(16, 26, 0)), false, nil},
		{"outside and opening", outline(rect(30, 40, 3), rect(16, 26, 2)), false, []string{"4 × R3", "4 × R2"}},
		{"in inches", outline(rect(25.4, 50.8, 3.175), rect(12.7, 25.4, 1.5875)), true, []string{"4 × R0.125", "4 × R0.063"}},
		{"a flange with two studs", oval, false, []string{"2 × R6", "2 × R12"}},
		{"one corner", oddCorner, false, []string{"R10"}},
	} {
		file := svg(t, layoutOf(t, test.o, Options{Inch: test.inch}), 1)
		var got []string
		for _, m := range regexp.MustCompile(`>((?:\d+ × )?R[\d.]+)<`).FindAllStringSubmatch(file, -1) {
			got = append(got, m[1])
		}
		if strings.Join(got, ", ") != strings.Join(test.want, ", ") {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// A sheet in inches has its sizes, its list, its punches and its bars in inches.
func TestInchSheet(t *testing.T) {
	studs, err := gasket.BoltCircle(6, units.Inch(1.125), 90*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Round("Cover", units.Inch(1.5), units.Inch(0.8125), studs.Drilled(units.Inch(0.15)))
	if err != nil {
		t.Fatal(err)
	}
	layout := layoutOf(t, o, Options{Inch: true})
	file := svg(t, layout, 1)
	for _, want := range []string{
		">ø1.5<", ">ø0.813<", ">6 × ø0.15 on ø1.125<", ">HOLES FROM THE MIDDLE, in<", ">-0.487<", ">0.000<", ">X 4 in (101.6 mm)<",
		">in<", ">PUNCH in<", ">5/32 (+0.006)<", ">Cut only when both bars measure 4 in.<", `<line x1="20" y1="232" x2="121.6" y2="232"/>`, ">10 thou (0.25 mm)<",
	} {
		if !strings.Contains(file, want) {
			t.Errorf("no %s", want)
		}
	}
	for _, other := range []string{" mm<", "-0.000", ">100<"} {
		if strings.Contains(strings.ReplaceAll(file, "0.25 mm", ""), other) {
			t.Errorf("%s on a sheet in inches", other)
		}
	}
	if h := layout.Holes(); h[0].Punch != units.InchFraction(5, 32) {
		t.Errorf("%+v", h)
	}
}

// What is wrong with a joint stands on every sheet and in every file that a person
// cuts by, clear of the part.
func TestWarnings(t *testing.T) {
	const bad = "Each stud must hold 1018 N, and a preload of 340 N leaves 272 N when the joint has relaxed: the cover lifts and lets steam out."
	for name, o := range map[string]gasket.Outline{"one sheet": cover(t), "many": plate(t, 50)} {
		layout, err := New(Part{Outline: o, Thickness: units.MM(0.25), Warnings: []string{bad, "It weeps."}}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		words := func(file string) string {
			var all []string
			for _, m := range regexp.MustCompile(`>([^<>]*)</text>`).FindAllStringSubmatch(file, -1) {
				all = append(all, m[1])
			}
			return strings.Join(all, " ")
		}
		var picture, dxf bytes.Buffer
		if err := layout.WritePicture(&picture); err != nil {
			t.Fatal(err)
		}
		if err := layout.WriteDXF(&dxf); err != nil {
			t.Fatal(err)
		}
		files := []string{words(picture.String()), strings.ReplaceAll(dxf.String(), "\r\n  1\r\n", " ")}
		for page := 1; page <= layout.Pages(); page++ {
			files = append(files, words(svg(t, layout, page)))
		}
		var machine bytes.Buffer
		if err := layout.WriteCutSVG(&machine); err != nil || !strings.Contains(machine.String(), ". DO NOT CUT BY THIS: Each stud must hold") {
			t.Errorf("%s: the title of the file for a machine does not warn, %v", name, err)
		}
		for i, file := range files {
			if i == 1 {
				warned, unit := strings.Index(file, "DO NOT CUT BY THIS: Each stud must hold"), strings.Index(file, "Read this file in as millimetres")
				if warned < 0 || unit < warned {
					t.Errorf("%s: the DXF file warns at %d and names its unit at %d", name, warned, unit)
				}
				continue
			}
			if !strings.Contains(file, "DO NOT CUT BY THIS: "+bad) || !strings.Contains(file, "DO NOT CUT BY THIS: It weeps.") {
				t.Errorf("%s: no warning in file %d: %s", name, i, file)
			}
		}
	}
	long := strings.Repeat("word ", 5000)
	if _, err := New(Part{Outline: cover(t), Thickness: units.MM(0.25), Warnings: []string{long}}, Options{}); err == nil {
		t.Error("warnings without end fit on a sheet")
	}
}
