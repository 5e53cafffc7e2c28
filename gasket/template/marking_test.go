package template

import (
	"bytes"
	"errors"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// within is how closely a sheet is measured, in millimetres.
const within = 0.01

// many is a number of random cases.
func many(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

// between is a length of whole hundredths of a millimetre, or of whole thou.
func between(r *rand.Rand, low, high float64) units.Length {
	mm := low + (high-low)*r.Float64()
	if r.IntN(2) == 0 {
		return units.Thou(math.Round(mm / 0.0254))
	}
	return units.MM(math.Round(mm*100) / 100)
}

// readSheet reads one sheet back with a reader that shares no code with the writer, and
// reports what cannot be read on it and a bar that is not true.
func readSheet(t *testing.T, m *Template, page int) *check.Picture {
	t.Helper()
	p := check.ReadPicture(t, svg(t, m, page))
	check.LegibleFrom(t, p, 1.4, "CENTRES", "HOLES", "LINES", "HIDDEN", "CUT")
	across, up := 0, 0
	for _, s := range p.On("SCALE") {
		a, b := s.Spots[0], s.Spots[1]
		if math.Abs(math.Abs(b.X-a.X)-m.unit.barMM()) < 1e-3 && a.Y == b.Y {
			across++
		}
		if math.Abs(math.Abs(b.Y-a.Y)-m.unit.barMM()) < 1e-3 && a.X == b.X {
			up++
		}
	}
	if across != 1 || up != 1 {
		t.Errorf("%d bars across, %d up", across, up)
	}
	return p
}

// randomFace is a face of ports and lines.
func randomFace(r *rand.Rand) Marking {
	m := Marking{Face: gasket.Outline{Name: "Face"}, Notes: []string{"The first line.", "The second."}}
	x := between(r, -40, -5)
	length := between(r, 2, 60)
	for range 1 + r.IntN(4) {
		width := between(r, 0.3, 15)
		loop, err := gasket.Rect{Centre: gasket.Point{X: x.Add(width.Scale(0.5))}, Width: width, Height: length}.Loop()
		if err != nil {
			panic(err)
		}
		m.Face.Cutouts = append(m.Face.Cutouts, loop)
		m.Lines = append(m.Lines, Line{Name: "an edge", At: x}, Line{Name: "the other", At: x.Add(width)})
		x = x.Add(width).Add(between(r, 0.2, 8))
	}
	m.Lines = append(m.Lines,
		Line{Name: "an end", Level: true, At: length.Scale(-0.5)}, Line{Name: "an end", Level: true, At: length.Scale(0.5)},
		Line{Name: "the middle", Level: true}, Line{Name: strings.Repeat("a long name ", 9), At: between(r, -50, 50), Unseen: true})
	return m
}

// The lines of a face are drawn where they are, each with its letter and its place, and
// the list has that place and the one from the first line to scribe.
func TestMarkedLines(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 4))
	for n := range many(150) {
		m, o := randomFace(r), Options{Inch: r.IntN(2) == 0, Paper: Paper(r.IntN(2) * int(Letter))}
		marked, err := NewMarking(m, o)
		if err != nil {
			t.Fatal(err)
		}
		if marked.Pages() > 2 {
			continue // over several sheets
		}
		p := readSheet(t, marked, 1)
		list := p
		if marked.Pages() == 2 {
			list = readSheet(t, marked, 2)
		}
		lines := m.ordered()
		ports := p.On("CUT")
		if len(ports) != len(m.Face.Cutouts) {
			t.Fatalf("case %d: %d ports, want %d", n, len(ports), len(m.Face.Cutouts))
		}
		// the first port is the leftmost: its lower left corner and its length fix the datum
		first := ports[0].Spots[0]
		for _, s := range ports[0].Spots {
			first.X, first.Y = min(first.X, s.X), min(first.Y, s.Y)
		}
		corner := vertices(m.Face.Cutouts[0])[0]
		for _, v := range vertices(m.Face.Cutouts[0]) {
			corner.X, corner.Y = min(corner.X, v.X), min(corner.Y, v.Y)
		}
		zero := check.Spot{X: first.X - corner.X, Y: first.Y - corner.Y}
		found := map[string][]check.Stroke{}
		for _, layer := range []string{"LINES", "HIDDEN", "CENTRES"} {
			found[layer] = p.On(layer)
		}
		upright, level := edges(lines)
		for i, l := range lines {
			layer := "LINES"
			switch {
			case l.Unseen:
				layer = "HIDDEN"
			case l.At.IsZero():
				layer = "CENTRES"
			}
			drawn := slices.ContainsFunc(found[layer], func(s check.Stroke) bool {
				a, b := s.Spots[0], s.Spots[1]
				if l.Level {
					return math.Abs(a.Y-zero.Y-l.At.MM()) < within && math.Abs(a.Y-b.Y) < within && math.Abs(b.X-a.X) > 2*pastFace
				}
				return math.Abs(a.X-zero.X-l.At.MM()) < within && math.Abs(a.X-b.X) < within && math.Abs(b.Y-a.Y) > 2*pastFace
			})
			if !drawn {
				t.Errorf("case %d: no line %s at %v on %s", n, letters[i:i+1], l.At, layer)
			}
			edge := lines[max(0, upright)]
			if l.Level {
				edge = lines[level]
			}
			inUnit := units.Millimetres
			if o.Inch {
				inUnit = units.Inches
			}
			if !p.Says(letters[i:i+1]) || !p.Says(strconv.FormatFloat(told(t, l.At, inUnit), 'f', -1, 64)) {
				t.Errorf("case %d: line %s at %v is not lettered, or its place is not told", n, letters[i:i+1], l.At)
			}
			if row := rowOf(list, letters[i:i+1]); !slices.Contains(row, places(l.At, inUnit)) || !slices.Contains(row, places(l.At.Sub(edge.At), inUnit)) {
				t.Errorf("case %d: line %s at %v, from the first %v: the list has %q", n, letters[i:i+1], l.At, l.At.Sub(edge.At), row)
			}
		}
		if t.Failed() {
			t.Fatalf("case %d: %+v", n, m)
		}
	}
}

// told and places are a length as a person reads it off a rule: 2 places of a
// millimetre, 3 of an inch.
func told(t *testing.T, l units.Length, in units.LengthUnit) float64 {
	v, err := strconv.ParseFloat(places(l, in), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v + 0
}

func places(l units.Length, in units.LengthUnit) string {
	n := 2
	if in == units.Inches {
		n = 3
	}
	text := l.Decimal(in, n)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// rowOf returns the texts of the row of a list that begins with a name.
func rowOf(p *check.Picture, name string) []string {
	for _, w := range p.Texts {
		if w.Value != name || w.Capital > 2.2 || w.Capital < 2 {
			continue
		}
		var row []string
		for _, other := range p.Texts {
			if math.Abs(other.Box[0].Y-w.Box[0].Y) < 0.8 && other.Box[0].X > w.Box[0].X {
				row = append(row, other.Value)
			}
		}
		if len(row) >= 3 {
			return row
		}
	}
	return nil
}

// The holes of a cover are where the pattern has them, and the list has their places
// from the middle and from the left and the lower edge.
func TestMarkedHoles(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 5))
	for n := range many(120) {
		var o gasket.Outline
		var err error
		if r.IntN(2) == 0 {
			circle := between(r, 20, 80)
			var studs gasket.Pattern
			if studs, err = gasket.BoltCircle(3+r.IntN(8), circle, units.Angle(r.Float64()*6)); err != nil {
				t.Fatal(err)
			}
			o, err = gasket.Round("Cover", circle.Add(between(r, 6, 20)), circle.Scale(0.6), studs.Drilled(between(r, 1.5, 4)))
		} else {
			wide, high := between(r, 15, 90), between(r, 15, 60)
			var studs gasket.Pattern
			if studs, err = gasket.Rectangle(2+r.IntN(2), 2+r.IntN(3), wide, high); err != nil {
				t.Fatal(err)
			}
			o, err = gasket.Rectangular("Cover", gasket.Rect{Width: wide.Add(units.MM(9)), Height: high.Add(units.MM(8)), Corner: units.MM(2)},
				nil, studs.Drilled(between(r, 1.5, 4)))
		}
		if err != nil {
			t.Fatal(err)
		}
		opening := o.Cutouts
		o.Cutouts = nil
		inch := r.IntN(2) == 0
		marked, err := NewMarking(Marking{Face: o, Unseen: opening, Notes: []string{"Dashed: an opening."}}, Options{Inch: inch})
		if err != nil {
			t.Fatal(err)
		}
		p := readSheet(t, marked, 1)
		var holes []check.Round
		var low check.Spot
		for _, c := range p.Circles {
			switch c.Layer {
			case "HOLES":
				holes = append(holes, c)
			case "CUT":
				low = check.Spot{X: c.Centre.X - c.Radius, Y: c.Centre.Y - c.Radius}
			}
		}
		for _, s := range p.On("CUT") {
			low = s.Spots[0]
			for _, at := range s.Spots {
				low.X, low.Y = min(low.X, at.X), min(low.Y, at.Y)
			}
		}
		if len(holes) != len(o.Holes) || len(p.On("HATCH")) > 0 {
			t.Fatalf("case %d: %d holes, want %d; %d lines of hatching", n, len(holes), len(o.Holes), len(p.On("HATCH")))
		}
		measures, err := o.Measure()
		if err != nil {
			t.Fatal(err)
		}
		in := units.Millimetres
		if inch {
			in = units.Inches
		}
		for i, h := range o.Holes {
			x, y := h.At.X.Sub(measures.Min.X), h.At.Y.Sub(measures.Min.Y)
			if !slices.ContainsFunc(holes, func(c check.Round) bool {
				return math.Abs(c.Centre.X-low.X-x.MM()) < within && math.Abs(c.Centre.Y-low.Y-y.MM()) < within &&
					math.Abs(c.Radius-h.Diameter.MM()/2) < within
			}) {
				t.Errorf("case %d: no hole %d at %v, %v of the edges", n, i+1, x, y)
			}
			row := rowOf(p, strconv.Itoa(i+1))
			for _, want := range []string{places(h.At.X, in), places(h.At.Y, in), places(x, in), places(y, in)} {
				if !slices.Contains(row, want) {
					t.Errorf("case %d: hole %d: %s is not in %q", n, i+1, want, row)
				}
			}
		}
		if t.Failed() {
			t.Fatalf("case %d: %+v", n, o)
		}
	}
}

// The same marking in DXF: its lines on layers of their own, in the axes of the face.
func TestMarkingDXF(t *testing.T) {
	m := Marking{
		Face: gasket.Outline{Name: "Face", Cutouts: []gasket.Loop{gasket.Circle(gasket.Point{}, units.MM(4))}}, Notes: []string{"Scribe."},
		Lines:    []Line{{Name: "a", At: units.MM(-6.5)}, {Name: "b"}, {Name: "c", Level: true, At: units.MM(5)}, {Name: "d", At: units.MM(10.9), Unseen: true}},
		Warnings: []string{"It is wrong."}, Remarks: []string{"it is odd."},
	}
	marked, err := NewMarking(m, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var file, pdf bytes.Buffer
	if err := errors.Join(marked.WriteDXF(&file), marked.WritePDF(&pdf)); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(pdf.Bytes(), []byte("/Type /Page\n")); n != marked.Pages() || n != 1 {
		t.Errorf("%d pages", n)
	}
	text := strings.ReplaceAll(file.String(), "\r\n", "|")
	for layer, want := range map[string]string{
		"LINES": `10\|-6\.5\|20\|[^|]*\|30\|0\.0\|11\|-6\.5\|`, "CENTRES": `10\|0\.0\|20\|[^|]*\|30\|0\.0\|11\|0\.0\|`,
		"HIDDEN": `10\|10\.9\|20\|[^|]*\|30\|0\.0\|11\|10\.9\|`,
	} {
		if !regexp.MustCompile(`\|0\|LINE\|8\|` + layer + `\|` + want).MatchString(text) {
			t.Errorf("no line on %s", layer)
		}
	}
	for _, want := range []string{"|CIRCLE|8|CUT|10|0.0|20|0.0|30|0.0|40|2.0|", "DO NOT CUT BY THIS: It is wrong.", "Mind: it is odd.", "|1|Scribe.|"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s", want)
		}
	}
	if strings.Contains(text, "asbestos") {
		t.Error("a caution for jointing")
	}
	if err := marked.WriteCutSVG(io.Discard); !errors.Is(err, units.ErrMissing) {
		t.Errorf("cut without an outside: %v", err)
	}
	for _, page := range []string{svg(t, marked, 1)} {
		for _, want := range []string{">DO NOT CUT BY THIS: It is wrong.<", ">Mind: it is odd.<", ">Use it only when both bars measure 100 mm.<", "not through the paper"} {
			if !strings.Contains(page, want) {
				t.Errorf("no %s", want)
			}
		}
	}
	if err := marked.WritePicture(io.Discard); err != nil {
		t.Error(err)
	}
}

func TestMarkingRefuses(t *testing.T) {
	hole := gasket.Pattern{{Diameter: units.MM(3)}}
	circle := gasket.Circle(gasket.Point{}, units.MM(30))
	line := []Line{{Name: "a"}}
	for _, test := range []struct {
		name string
		m    Marking
		text string
	}{
		{"no name", Marking{Face: gasket.Outline{Outside: circle}}, "name of the face"},
		{"nothing", Marking{Face: gasket.Outline{Name: "x"}}, "openings or lines"},
		{"holes without an edge", Marking{Face: gasket.Outline{Name: "x", Holes: hole}, Lines: line}, "outside of the face"},
		{"lines on a cover", Marking{Face: gasket.Outline{Name: "x", Outside: circle}, Lines: line}, "lines"},
		{"depth", Marking{Face: gasket.Outline{Name: "x", Outside: circle}, Depth: units.MM(-1)}, "depth"},
		{"hole outside", Marking{Face: gasket.Outline{Name: "x", Outside: gasket.Circle(gasket.Point{X: units.MM(90)}, units.MM(5)), Holes: hole}}, "outside"},
		{"lines without end", Marking{Face: gasket.Outline{Name: "x"}, Lines: make([]Line, 25)}, "24"},
		{"a line far off", Marking{Face: gasket.Outline{Name: "x"}, Lines: []Line{{At: units.MM(1e5)}}}, "10,000 mm"},
		{"an opening of nothing", Marking{Face: gasket.Outline{Name: "x", Cutouts: []gasket.Loop{{}}}}, "outside"},
		{"notes without end", Marking{Face: gasket.Outline{Name: "x"}, Lines: line, Notes: []string{strings.Repeat("word ", 500)}}, "notes"},
	} {
		if _, err := NewMarking(test.m, Options{}); err == nil || !strings.Contains(err.Error(), test.text) {
			t.Errorf("%s: %v, want %q", test.name, err, test.text)
		}
	}
	if _, err := NewMarking(Marking{Face: gasket.Outline{Name: "x", Outside: circle}}, Options{Correction: Correction{X: 9}}); err == nil {
		t.Error("a correction of 9")
	}
	if _, err := NewMarking(Marking{Face: gasket.Outline{Name: "x", Outside: circle}}, Options{Paper: 77}); err == nil {
		t.Error("paper 77")
	}
}
