package template

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// sized is a square of 130 mm with holes of so many sizes, one more 0.1 mm larger than
// the other from 1 mm on, or all of 2 mm.
func sized(t *testing.T, holes, sizes int) gasket.Outline {
	t.Helper()
	var p gasket.Pattern
	for i := range holes {
		x, y := float64(i%20)*6-57, float64(i/20)*6-57
		p = append(p, drilled("", x, y, 2+0.1*float64(i%sizes)))
	}
	o, err := gasket.Rectangular("Plate", gasket.Rect{Width: units.MM(130), Height: units.MM(130)}, nil, p)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func pictureOf(t *testing.T, m *Template) *check.Picture {
	t.Helper()
	var b bytes.Buffer
	if err := m.WritePicture(&b); err != nil {
		t.Fatal(err)
	}
	return check.ReadPicture(t, b.String())
}

// wholeOf is the text of the DXF file with its lines joined by strokes.
func wholeOf(t *testing.T, m *Template) string {
	t.Helper()
	var b bytes.Buffer
	if err := m.WriteDXF(&b); err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(b.String(), "\r\n", "|")
}

// Where a list is too long for its place it is cut off there and no earlier: 5 sizes in
// the strip and 12 in the DXF file, 60 numbers on the part, 24 places on a picture, and
// places on 3 sheets of 88. All are our own choice.
func TestListsAreCut(t *testing.T) {
	for _, n := range []struct {
		sizes int
		strip string
		whole string
	}{{5, "", ""}, {6, "and 2 holes of 2 more sizes", ""}, {7, "and 3 holes of 3 more sizes", ""},
		{12, "and 8 holes of 8 more sizes", ""}, {13, "and 9 holes of 9 more sizes", "|and 2 more sizes of hole|"}} {
		m := layoutOf(t, sized(t, n.sizes, n.sizes), Options{})
		p := check.ReadPicture(t, svg(t, m, 1))
		told := ""
		for _, w := range p.Texts {
			if strings.HasPrefix(w.Value, "and ") {
				told = w.Value
			}
		}
		if told != n.strip {
			t.Errorf("%d sizes: %q, want %q", n.sizes, told, n.strip)
		}
		rows := n.sizes
		if n.sizes > 5 {
			rows = 4
		}
		if got := strings.Count(svg(t, m, 1), ">1 ×<"); got != rows {
			t.Errorf("%d sizes: %d rows of sizes, want %d", n.sizes, got, rows)
		}
		file := wholeOf(t, m)
		if cut := strings.Contains(file, " more sizes of hole|"); cut != (n.whole != "") || !strings.Contains(file, n.whole) {
			t.Errorf("%d sizes: the DXF file cuts its list: %v, want %q", n.sizes, cut, n.whole)
		}
		if last := strings.Contains(file, "2, punch 2|"); last != (n.sizes <= 12) {
			t.Errorf("%d sizes: the smallest is in the DXF file: %v", n.sizes, last)
		}
	}
	for holes, numbered := range map[int]bool{60: true, 61: false} {
		m := layoutOf(t, sized(t, holes, 1), Options{Paper: A2})
		if got := strings.Count(svg(t, m, 1), ">37<") == 2; got != numbered {
			t.Errorf("%d holes are numbered: %v", holes, got)
		}
	}
	for holes, listed := range map[int]bool{24: true, 25: false} {
		p := pictureOf(t, layoutOf(t, sized(t, holes, 1), Options{}))
		if p.Says("HOLES FROM THE MIDDLE, mm") != listed || p.Says(fmt.Sprintf("Places of the %d holes: in the DXF file", holes)) == listed {
			t.Errorf("the picture of %d holes lists them: %v", holes, !listed)
		}
	}
	for holes, want := range map[int]string{88: "Places of the holes: sheet 2", 89: "Places of the holes: sheets 2 to 3",
		264: "Places of the holes: sheets 2 to 4", 265: "Places of the 265 holes: in the DXF file"} {
		m := layoutOf(t, sized(t, holes, 1), Options{})
		if p := check.ReadPicture(t, svg(t, m, 1)); !p.Says(want) {
			t.Errorf("%d holes on %d sheets: no %q", holes, m.Pages(), want)
		}
		// all places in order, 44 to a column and two columns to a sheet
		next := 1
		for page := 2; page <= m.Pages(); page++ {
			p := check.ReadPicture(t, svg(t, m, page))
			for column := range 2 {
				for row := range 44 {
					if next > holes {
						break
					}
					found := false
					for _, w := range p.Texts {
						found = found || w.Value == fmt.Sprint(next) && math.Abs(w.Box[1].X-(28+float64(column)*70+12)) < 0.01 &&
							math.Abs(w.Box[0].Y-(281-9.4-1.2-4.2*float64(row)+1.2-2.2)) < 3
					}
					if !found {
						t.Fatalf("%d holes: number %d is not in row %d of column %d of sheet %d", holes, next, row, column, page)
					}
					next++
				}
			}
		}
		if want := holes + 1; next != want && holes <= 264 {
			t.Errorf("%d of %d holes are listed", next-1, holes)
		}
	}
}

// What is refused, and the nearest that is taken: paper of 165 x 200 mm after the
// correction, lines of warnings, notes of a marking, and 200 sheets. Our own choice.
func TestNearestThatIsTaken(t *testing.T) {
	refused := func(name string, err error, texts ...string) {
		t.Helper()
		for _, text := range texts {
			if err == nil || !strings.Contains(err.Error(), text) {
				t.Errorf("%s: %v, want %q", name, err, text)
			}
		}
		if err != nil && !errors.As(err, new(*units.ArgumentError)) {
			t.Errorf("%s: %T", name, err)
		}
	}
	part := Part{Outline: cover(t), Thickness: units.MM(0.25)}
	for _, c := range []struct {
		Options
		text string
	}{
		{Options{Correction: Correction{X: 210 / 165.01}}, ""},
		{Options{Correction: Correction{X: 210 / 164.99}}, "holds 165 x 297 mm after the correction, too little for the bars and the title"},
		{Options{Correction: Correction{Y: 297 / 200.01}}, ""},
		{Options{Correction: Correction{Y: 297 / 199.99}}, "holds 210 x 200 mm after the correction"},
		{Options{Paper: A0, Correction: Correction{X: 2, Y: 2}}, ""},
		{Options{Paper: A0, Correction: Correction{X: 2.0001, Y: 2}}, `correction along X 2.0001: out of range; accepted: 0.5 to 2, or 0 for none`},
		{Options{Correction: Correction{X: 0.5, Y: 0.5}}, ""},
		{Options{Correction: Correction{Y: 0.4999}}, "correction along Y 0.4999"},
		{Options{Punches: []units.Length{units.MM(1), units.MM(-1)}}, "punch -1 mm"},
		{Options{Paper: -1}, "A4, A3, A2"},
	} {
		_, err := New(part, c.Options)
		if c.text == "" {
			if err != nil {
				t.Errorf("%+v: %v", c.Options, err)
			}
			continue
		}
		refused(fmt.Sprintf("%+v", c.Options), err, c.text)
	}
	// A4 has room for (297 - 200 + 40) / 4 lines
	warned := part
	warned.Warnings, warned.Remarks = make([]string, 30), make([]string, 4)
	if _, err := New(warned, Options{}); err != nil {
		t.Error(err)
	}
	warned.Remarks = make([]string, 5)
	_, err := New(warned, Options{})
	refused("warnings", err, "warnings of 35 lines", "up to 34 lines on A4")

	marked := Marking{Face: cover(t), Notes: make([]string, 11)} // and a size of hole
	for i := range marked.Notes {
		marked.Notes[i] = "A note."
	}
	if _, err := NewMarking(marked, Options{Paper: A3}); err != nil {
		t.Error(err)
	}
	marked.Notes = append(marked.Notes, "One more.")
	_, err = NewMarking(marked, Options{Paper: A3})
	refused("notes", err, "notes of 13 lines", "up to 12 lines on A3")

	lines := Marking{Face: gasket.Outline{Name: "x"}, Lines: make([]Line, 24), Depth: units.MM(0)}
	for i := range lines.Lines {
		lines.Lines[i] = Line{Name: fmt.Sprint("line ", i), At: units.MM(float64(i))}
	}
	m, err := NewMarking(lines, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if row := rowOf(check.ReadPicture(t, svg(t, m, 1)), "Z"); len(row) == 0 || row[0] != "line 23" {
		t.Errorf("the last of 24 lines: %q", row)
	}

	// sheets lie 154 and 189 mm apart: of 166 x 201 mm, less 12 of overlap
	many := func(holes gasket.Pattern) (*Template, error) {
		sides := gasket.Rect{Width: units.MM(166 + 154*9 - 20), Height: units.MM(201 + 189*19 - 30)}
		o, err := gasket.Rectangular("Plate", sides, nil, holes)
		if err != nil {
			t.Fatal(err)
		}
		return New(Part{Outline: o, Thickness: units.MM(1)}, Options{})
	}
	if m, err := many(nil); err != nil || m.Pages() != 200 {
		t.Error(m.Pages(), err)
	}
	_, err = many(gasket.Pattern{drilled("", 0, 0, 3)}) // and a sheet with its place
	refused("sheets", err, "part on 201 sheets of A4", "up to 200 sheets")
}

// The ratios of the units, both ways, with what the one is taken for: a hair within 0.1 %
// is told and a hair beyond is not; 0.3 % of those of printers.
func TestScaleTold(t *testing.T) {
	const mm, inch, px, old, pt = 1.0, 25.4, 25.4 / 96, 25.4 / 90, 25.4 / 72
	type slip struct {
		ratio, within float64
		text          string
	}
	slips := []slip{
		{inch / mm, 0.001, "Millimetres were read as inches."}, {mm / inch, 0.001, "Inches were read as millimetres."},
		{px / mm, 0.001, "Millimetres were read as pixels of 1/96 in."}, {mm / px, 0.001, "Pixels of 1/96 in were read as millimetres."},
		{pt / mm, 0.001, "Millimetres were read as points of 1/72 in."}, {mm / pt, 0.001, "Points of 1/72 in were read as millimetres."},
		{old / px, 0.001, "Pixels of 1/96 in were read as pixels of 1/90 in."}, {px / old, 0.001, "Pixels of 1/90 in were read as pixels of 1/96 in."},
		{px / pt, 0.001, "Points of 1/72 in were read as pixels of 1/96 in."}, {pt / px, 0.001, "Pixels of 1/96 in were read as points of 1/72 in."},
		// a border of 3 mm all round A4, ISO 216: 210 x 297 mm
		{(297.0 - 6) / 297, 0.003, "The page was probably shrunk to fit inside a border."},
		{(210.0 - 6) / 210, 0.003, "The page was probably shrunk to fit inside a border."},
		{1.02, 0.003, "The page was probably blown up to print without borders."}, // common practice
	}
	for _, s := range slips {
		for _, off := range []float64{0, -0.99, 0.99, -1.01, 1.01} {
			drawn := units.MM(1000)
			got, err := CheckScale(drawn, drawn.Scale(s.ratio*(1+off*s.within)))
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(off) > 1 {
				if len(got) > 0 && got[0].Text == s.text && s.within == 0.001 {
					t.Errorf("%s is told at %g of what is allowed", s.text, off)
				}
				if len(got) > 0 && s.within == 0.003 && !nearOther(s.ratio*(1+off*s.within)) {
					t.Errorf("%s is told at %g of what is allowed", got[0].Text, off)
				}
				continue
			}
			want := finding.Finding{Code: FittedToPage, Severity: finding.Caution, Text: s.text, Remedies: []string{"Print at 100 %."}}
			if s.within == 0.001 {
				want.Code = UnitsMistaken
				want.Remedies = []string{"Choose the unit of the drawing when it is read in, and measure the bars."}
			}
			if len(got) != 1 || got[0].Code != want.Code || got[0].Severity != want.Severity || got[0].Text != want.Text ||
				len(got[0].Remedies) != 1 || got[0].Remedies[0] != want.Remedies[0] || got[0].Refs.IsZero() != (s.within == 0.001) {
				t.Errorf("%g of %s: %+v", off, s.text, got)
			}
		}
	}
	for _, half := range []struct{ drawn, printed float64 }{{100, 200}, {200, 100}, {1, 1}} {
		if f, err := Factor(units.MM(half.drawn), units.MM(half.printed)); err != nil || f != half.drawn/half.printed {
			t.Errorf("%v: %v, %v", half, f, err)
		}
	}
	_, err := Factor(units.MM(100), units.MM(49.999))
	if err == nil || err.Error() != "template: correction 2: out of range; accepted: 0.5 to 2" {
		t.Error(err)
	}
}

// nearOther reports whether a ratio is within what is allowed of one of the printers'.
func nearOther(ratio float64) bool {
	for _, other := range []float64{291.0 / 297, 204.0 / 210, 1.02} {
		if math.Abs(ratio/other-1) < 0.003 {
			return true
		}
	}
	return false
}

// The punches, by the rule in words.
func TestPunchRacks(t *testing.T) {
	var mm, inch []string
	for d := 2.0; d <= 12; d += 0.5 {
		mm = append(mm, fmt.Sprint(d))
	}
	for d := 13; d <= 25; d++ {
		mm = append(mm, fmt.Sprint(d))
	}
	for n := 4; n <= 32; n++ {
		if n <= 16 || n%2 == 0 {
			inch = append(inch, fmt.Sprint(float64(n)/32))
		}
	}
	for _, rack := range []struct {
		got  []units.Length
		unit units.LengthUnit
		want []string
	}{{CommonPunches(), units.Millimetres, mm}, {InchPunches(), units.Inches, inch}} {
		var got []string
		for _, p := range rack.got {
			got = append(got, fmt.Sprint(p.In(rack.unit)))
		}
		if fmt.Sprint(got) != fmt.Sprint(rack.want) {
			t.Errorf("%v, want %v", got, rack.want)
		}
	}
	// half a millimetre above the hole is just right, and of holes of 5 mm and more a tenth
	for _, p := range []struct{ hole, punch, want float64 }{
		{3, 3.5, 3.5}, {3, 3.51, 0}, {5, 5.5, 5.5}, {5, 5.51, 0}, {6, 6.6, 6.6}, {6, 6.61, 0}, {3, 2.99, 0}, {3, 3, 3},
	} {
		if got := punchFor(units.MM(p.hole), []units.Length{units.MM(p.punch)}); got != units.MM(p.want) {
			t.Errorf("%v: %v", p, got)
		}
	}
}
