package casting

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// figures writes numbers to a millionth, so that they are the same on all machines.
func figures(values ...float64) string {
	var all []string
	for _, v := range values {
		all = append(all, fmt.Sprintf("%.7g", math.Round(v*1e6)/1e6+0))
	}
	return strings.Join(all, " ")
}

func (l Lie) kept() string {
	text := fmt.Sprintf("x,y,off %s high %.4f allowance %s cleans up %v:",
		figures(l.X.MM(), l.Y.MM(), l.Off.MM()), l.High.Degrees(), figures(l.Allowance.MM()), l.CleansUp)
	for _, s := range l.Surfaces {
		text += " zone " + figures(s.Zone.MM())
		if s.Least != nil {
			text += " from " + figures(s.Least.MM()) + " to " + figures(s.Most.MM())
		}
	}
	return text
}

func keptFindings(b *strings.Builder, all finding.List) {
	for _, f := range all {
		fmt.Fprintf(b, "  %s %v %s: %s\n    %s\n    %v\n", f.Code, f.Severity, f.Where, f.Text, strings.Join(f.Remedies, " | "), f.Refs)
	}
}

// Kept is what is answered and said of a number of castings, circles, wheels and seats; that
// the figures are right is held by the other tests.
func TestAnswersKept(t *testing.T) {
	var b strings.Builder
	rough := lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25)
	twelve := lengths(0.00, 0.08, 0.19, 0.22, 0.17, 0.03, -0.11, -0.20, -0.21, -0.14, -0.06, -0.02)
	high, low := append(lengths(), twelve...), append(lengths(), twelve...)
	high[4], low[9] = units.MM(0.87), units.MM(-0.74)
	metal := func(mm float64) *units.Length { return pointer(units.MM(mm)) }
	mm := units.MM
	castings := []struct {
		name string
		Casting
	}{
		{"rough", Casting{Rings: []Ring{{Readings: rough}}}},
		{"inside", Casting{Rings: []Ring{{Readings: rough, Inside: true}}}},
		{"of a size", Casting{Rings: []Ring{{Readings: twelve, Diameter: mm(70)}}}},
		{"with stock", Casting{Rings: []Ring{{Readings: rough, Stock: metal(0.6)}, {Readings: twelve, Inside: true, Stock: metal(0.2)}}}},
		{"short", Casting{Rings: []Ring{{Readings: rough, Stock: metal(0.02)}, {Readings: twelve, Inside: true, Stock: metal(-0.1), Diameter: mm(50)}}}},
		{"stays", Casting{Rings: []Ring{{Readings: rough, Stock: metal(0.3)}, {Readings: twelve, Inside: true, Stays: true}}}},
		{"two", Casting{Rings: []Ring{{Readings: rough, Diameter: mm(90)}, {Readings: twelve, Inside: true}}}},
		{"a high one", Casting{Rings: []Ring{{Readings: high}}}},
		{"a low one", Casting{Rings: []Ring{{Readings: rough}, {Readings: low, Inside: true}}}},
		{"round", Casting{Rings: []Ring{{Readings: make([]units.Length, 8)}}}},
	}
	for _, c := range castings {
		got, err := c.Centre()
		if err != nil {
			t.Fatal(c.name, err)
		}
		fmt.Fprintf(&b, "%s, squares %v\n  even %s\n  squares %s\n  best %s\n  %v\n", c.name, got.Squares, got.Even.kept(),
			got.LeastSquares.kept(), figures(got.Best().X.MM(), got.Best().Y.MM()), got.Refs)
		keptFindings(&b, got.Findings)
		for _, pitch := range []float64{0, 1.5} {
			moves, err := got.Best().Moves(mm(pitch))
			for _, m := range moves {
				fmt.Fprintf(&b, "  pitch %v: jaw %d in by %s, %d out, %s turns\n", pitch, m.Jaw, figures(m.By.MM()), m.Loosen, figures(m.Turns))
			}
			if err != nil {
				t.Error(err)
			}
		}
	}
	for _, c := range []Casting{
		{Faces: []Face{{Readings: rough}}, FaceDiameter: mm(80)},
		{Faces: []Face{{Readings: high, Stock: metal(0.3)}, {Readings: low, Back: true, Stock: metal(0.4)}}, FaceDiameter: mm(120)},
	} {
		got, err := c.Tilt()
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "tilt on %v\n  even %s\n  squares %s\n  %v\n", got.Diameter, got.Even.kept(), got.LeastSquares.kept(), got.Refs)
		keptFindings(&b, got.Findings)
		for _, jaws := range []int{2, 3, 4, 12} {
			shims, err := got.Shims(jaws, mm(60))
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&b, "  %d jaws:", jaws)
			for _, s := range shims {
				fmt.Fprint(&b, " ", figures(s.MM()))
			}
			fmt.Fprintln(&b)
		}
	}
	var whole, arc []Point
	for i, off := range twelve {
		for k, list := range []*[]Point{&whole, &arc} {
			sin, cos := math.Sincos(0.2 + float64(i)*[...]float64{math.Pi / 6, 0.1}[k])
			r := 30 + off.MM()/[...]float64{1, 10}[k]
			*list = append(*list, Point{mm(4 + r*cos), mm(r*sin - 7)})
		}
	}
	for i, points := range [][]Point{whole, arc, whole[:3], {whole[0], whole[5], whole[9], whole[1]}} {
		for _, fit := range CircleFits() {
			c, err := FitCircle(fit, points)
			fmt.Fprintf(&b, "circle %d %v: %s %v\n", i, fit,
				figures(c.Centre.X.MM(), c.Centre.Y.MM(), c.Radius.MM(), c.Mean.MM(), c.Inside.MM(), c.Outside.MM()), err)
		}
	}
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	hollow, errHollow := HollowOff(iron, mm(80), mm(12), mm(0.5), 5)
	balance, errBalance := Balance(mm(45), hollow, Weight{Mass: 0.03, Radius: mm(30), At: 1})
	work, errWork := balance.Of(0.8 * units.Kilogram)
	grade, errGrade := BalanceGrade(0.0063, 3000*units.RevPerMinute)
	for _, err := range []error{errHollow, errBalance, errWork, errGrade} {
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, w := range []Weight{hollow, balance} {
		fmt.Fprintf(&b, "weight %s kg at %s mm, %.4f\n", figures(float64(w.Mass)), figures(w.Radius.MM()), w.At.Degrees())
	}
	fmt.Fprintf(&b, "wheel %s kg %s mm; grade %s mm\n", figures(float64(work.Mass)), figures(work.Offset.MM()), figures(grade.MM()))
	taper := MandrelTaperFor()
	for _, s := range []Seat{{Clearance: mm(0.02), Length: mm(15)}, {Taper: taper.Min, Length: mm(30)}, {Clearance: mm(0.01), Taper: taper.Max, Length: mm(20)}} {
		r, err := s.RunOut(mm(100))
		fmt.Fprintf(&b, "seat %+v: offset, rim, tilt, face %s; %v %v\n", s, figures(r.Offset.MM(), r.Rim.MM(), r.Tilt.Degrees(), r.Face.MM()), r.Refs, err)
	}
	edges, err := EdgesAgree(mm(100), mm(12), mm(0.04))
	fmt.Fprintf(&b, "edges %v %v; mandrels %v\n", edges, err, taper)
	check.Kept(t, "eccentric/marking/casting/kept/answers.txt", b.String())
}

// What prints has each field by its name.
func TestStrings(t *testing.T) {
	c, err := Casting{Rings: []Ring{{Readings: lengths(0, 1, 0, -1), Stock: pointer(units.MM(2))}}}.Centre()
	if err != nil {
		t.Fatal(err)
	}
	moves, err := c.Best().Moves(units.MM(2))
	if err != nil {
		t.Fatal(err)
	}
	seat, err := Seat{Clearance: units.MM(0.02), Length: units.MM(10)}.RunOut(units.MM(50))
	if err != nil {
		t.Fatal(err)
	}
	circle := Circle{Centre: Point{units.MM(1), units.MM(2)}, Radius: units.MM(3), Mean: units.MM(4), Inside: units.MM(5), Outside: units.MM(6)}
	tilting := Tilting{Even: Lie{X: units.MM(1)}, Diameter: units.MM(80)}
	for _, s := range []struct {
		what fmt.Stringer
		want string
	}{
		{circle, "centre (x 1 mm, y 2 mm), radius 3 mm, mean 4 mm, inside 5 mm, outside 6 mm"},
		{moves[0], "jaw 2, loosen 4, by 1 mm, turns 0.5"},
		{seat, "offset 0.01 mm, rim 0.02 mm, tilt 0.1145"},
		{MandrelTaper{Min: 0.0005, Max: 0.001, Refs: source.Refs{}}, "min 0.0005, max 0.001"},
		{Weight{Mass: 0.1, Radius: units.MM(40)}, "radius 40 mm"},
		{c.Best(), "high 90"}, {c, "squares no"}, {tilting, "diameter 80 mm"},
	} {
		if !strings.Contains(s.what.String(), s.want) {
			t.Errorf("%T prints %q, want %q", s.what, s.what, s.want)
		}
	}
}
