package gasket_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func TestReadPattern(t *testing.T) {
	for _, test := range []struct {
		name, text string
		want       gasket.Pattern
	}{
		{"millimetres", "# a made-up chest\nhole, x mm, y mm, diameter mm\n1, -24, -16, 3.4\n2, 24.5, -16,\n",
			gasket.Pattern{{"1", mm(-24, -16), units.MM(3.4)}, {"2", mm(24.5, -16), units.Length{}}}},
		{"inches, no names", "x,y\n15/16 in,0.25 in\n1 1/2 in,-5 thou\n",
			gasket.Pattern{{"1", gasket.Point{X: units.InchFraction(15, 16), Y: units.Inch(0.25)}, units.Length{}}, {"2", gasket.Point{X: units.Inch(1.5), Y: units.Thou(-5)}, units.Length{}}}},
		{"columns in another order", "\ufeffDiameter in,y mm,X in,Hole\n0.125,1,2,\"a, b\"\n",
			gasket.Pattern{{"a, b", gasket.Point{X: units.Inch(2), Y: units.MM(1)}, units.Inch(0.125)}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, err := gasket.ReadPattern(strings.NewReader(test.text))
			if err != nil || fmt.Sprint(got) != fmt.Sprint(test.want) {
				t.Errorf("%v, %v; want %v", got, err, test.want)
			}
		})
	}
	for _, test := range []struct {
		name, text string
		want       error
		says       string
	}{
		{"nothing", "", units.ErrMissing, "empty"},
		{"no rows", "x mm,y mm\n", units.ErrMissing, "at least one hole"},
		{"no y", "hole,x mm\n1,2\n", units.ErrMissing, `"y"`},
		{"unknown column", "x mm,y mm,z mm\n1,2,3\n", units.ErrUnknown, `"z"`},
		{"semicolons", "x;y\n1;2\n", units.ErrUnknown, "comma between columns"},
		{"column twice", "x mm,y mm,x mm\n1,2,3\n", units.ErrOutOfRange, "each column once"},
		{"unknown unit", "x furlong,y mm\n1,2\n", units.ErrUnknownUnit, "furlong"},
		{"unit of a name", "hole mm,x mm,y mm\n1,2,3\n", units.ErrOutOfRange, "for lengths only"},
		{"no unit", "x,y\n1,2\n", units.ErrUnknownUnit, "line 2, x"},
		{"not a number", "x mm,y mm\n1,2\n1,b\n", units.ErrSyntax, "line 3, y"},
		{"missing cell", "x mm,y mm\n1\n", units.ErrSyntax, "line 2, y"},
		{"cell too many", "x mm,y mm\n1,2,3\n", units.ErrOutOfRange, "no more cells"},
		{"name twice", "hole,x mm,y mm\na,1,2\na,3,4\n", units.ErrOutOfRange, "given in line 2"},
		{"name that clears the screen", "hole,x mm,y mm\n\x1b[2J,1,2\n", units.ErrOutOfRange, "printable"},
		{"diameter zero", "x mm,y mm,diameter mm\n1,2,0\n", units.ErrOutOfRange, "not above zero"},
		{"quote left open", "x mm,y mm\n\"1,2\n", units.ErrSyntax, "quot"},
		{"inch mark", "x,y\n1/4\",2 in\n", units.ErrSyntax, `line 2 "1/4\",2 in": `},
		{"too many lines", "x mm,y mm\n" + strings.Repeat("1,2\n", 100_001), units.ErrOutOfRange, "100000"},
		{"too much text", "x mm,y mm\n" + strings.Repeat(strings.Repeat(" ", 1<<20)+"1,2\n", 17), units.ErrOutOfRange, "16 MB"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := gasket.ReadPattern(strings.NewReader(test.text))
			var unreadable *units.ParseError
			told := strings.HasPrefix(fmt.Sprint(err), "gasket: ") && strings.Contains(fmt.Sprint(err), test.says)
			if !errors.As(err, &unreadable) || !errors.Is(err, test.want) || !told {
				t.Errorf("error %v, want %v with %q", err, test.want, test.says)
			}
		})
	}
}

func TestReadOutline(t *testing.T) {
	const text = `part, x mm, y mm, bulge, diameter mm
# a plate with one round end
outside, 0, 0
outside, 60, 0, 1
outside, 60, 40
outside, 0, 40
bore, 20, 20, 1
bore, 40, 20, 1
hole, 6, 6, , 3.4
hole, 6, 34, , 3.4
`
	o, err := gasket.ReadOutline("plate", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	m, err := o.Measure()
	if err != nil {
		t.Fatal(err)
	}
	const pi = 3.141592653589793
	near(t, "area", m.Area.In(units.SquareMillimetre), 60*40+pi*200-pi*100-2*pi*1.7*1.7, 1e-8)
	if centre, d, ok := o.Cutouts[0].Circle(); !ok || centre != mm(30, 20) || d != units.MM(20) {
		t.Errorf("opening %v %v %v", centre, d, ok)
	}
	for _, test := range []struct {
		name, rows, says string
	}{
		{"no outside", "bore,1,2,,\n", "part outside"},
		{"outside in pieces", "outside,1,2,,\nbore,1,2,,\noutside,1,3,,\n", "goes on after something else"},
		{"opening in pieces", "bore,1,2,,\noutside,1,2,,\nbore,1,3,,\n", "goes on after something else"},
		{"no part", ",1,2,,\n", "blank"},
		{"corner with a diameter", "outside,1,2,,3\n", "a corner has none"},
		{"hole with a bulge", "hole,1,2,1,3\n", "a hole has none"},
		{"hole without a diameter", "hole,1,2,,\n", "diameter"},
		{"bulge not finite", "outside,1,2,NaN,\n", "not a finite number"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := gasket.ReadOutline("x", strings.NewReader("part,x mm,y mm,bulge,diameter mm\n"+test.rows))
			var unreadable *units.ParseError
			if !errors.As(err, &unreadable) || !strings.Contains(err.Error(), test.says) {
				t.Errorf("error %v, want %q", err, test.says)
			}
		})
	}
}

// A hole of an outline has a name of its own, as one of a pattern has.
func TestReadOutlineNames(t *testing.T) {
	const head = "part, hole, x mm, y mm, diameter mm\noutside,,0,0\noutside,,9,0\noutside,,0,9\n"
	o, err := gasket.ReadOutline("x", strings.NewReader(head+"hole,a,2,2,1\nhole,,4,2,1\n"))
	if err != nil || o.Holes[0].Name != "a" || o.Holes[1].Name != "2" {
		t.Errorf("%v, %v", o.Holes, err)
	}
	for _, rows := range []string{"hole,a,2,2,1\nhole,a,4,2,1\n", "hole,2,2,2,1\nhole,,4,2,1\n"} {
		var unreadable *units.ParseError
		if _, err := gasket.ReadOutline("x", strings.NewReader(head+rows)); !errors.As(err, &unreadable) || !strings.Contains(err.Error(), "given in line 5") {
			t.Errorf("%q: %v", rows, err)
		}
	}
}

func FuzzReadPattern(f *testing.F) {
	f.Add("hole, x mm, y mm, diameter mm\n1, -24, -16, 3.4\n")
	f.Add("x,y\n15/16 in,0.25 in\n")
	f.Add("part,x mm,y mm,bulge,diameter mm\noutside,0,0,1,\nhole,1,1,,2\n")
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := gasket.ReadPattern(strings.NewReader(text)); (err == nil) != (len(p) > 0) {
			t.Errorf("%d holes and error %v", len(p), err)
		}
		if o, err := gasket.ReadOutline("o", strings.NewReader(text)); err == nil {
			if m, err := o.Measure(); err == nil && !(m.Area > 0) {
				t.Errorf("valid, but of area %v", m.Area)
			}
			_, _ = o.Webs()
			_, _ = o.Offset(units.MM(-0.5), units.MM(0.2), units.MM(0.1))
		}
	})
}
