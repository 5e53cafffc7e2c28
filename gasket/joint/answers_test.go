package joint

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// answers collects what is said, a line for each.
type answers struct{ strings.Builder }

func (a *answers) tell(name string, v any, fs finding.List, err error) {
	said, _, _ := strings.Cut(fmt.Sprint(v), ", findings ")
	said, _, _ = strings.Cut(said, ", from ")
	if err != nil {
		said = err.Error()
	}
	fmt.Fprintf(a, "%s: %s\n", name, said)
	for _, f := range fs {
		fmt.Fprintf(a, "  %s %s: %s | %s\n", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
	}
}

// What is printed of every result, said of it and advised, with the figures in it.
func TestAnswers(t *testing.T) {
	var said answers
	for _, rule := range WidthRules() {
		for _, side := range []float64{3, 25.4, 25.41, 24, 24.01, 40} {
			g := Gasket{Outside: units.MM(100 + 2*side), Inside: units.MM(100), M: 2.75, Y: 25.5 * units.Megapascal, Rule: rule}
			l, err := g.Loads(6 * units.Bar)
			said.tell(fmt.Sprintf("%v rule, %g mm wide", rule, side), l, nil, err)
		}
	}
	studs := Studs{Number: 6, Diameter: units.MM(3), StressArea: 5.03 * units.SquareMillimetre,
		Proof: 225 * units.Megapascal}
	for _, share := range []float64{0.05, 0.3, 0.75, 1} {
		for _, total := range []units.Force{0, 600, 1115, 1500, 4000, 6800} {
			studs.Preload = share
			l, err := studs.Load(total)
			said.tell(fmt.Sprintf("load %.0f N at %.2f", float64(total), share), l, l.Findings, err)
		}
	}
	iron, err := material.Lookup("cast iron")
	if err != nil {
		t.Fatal(err)
	}
	studs.Preload, studs.Proof = 0.3, 580*units.Megapascal
	for _, engaged := range []float64{0, 0.35, 1, 1.3, 2, 3} {
		for _, most := range []units.Force{0, 2200} {
			l, err := studs.Load(1500)
			if err != nil {
				t.Fatal(err)
			}
			g, err := l.Grip(Tapped{Thread: thread.MustParse("M3"), Material: iron, Engaged: units.MM(engaged), Most: most})
			said.tell(fmt.Sprintf("grip of %g mm, %.0f N", engaged, float64(most)), g, g.Findings, err)
		}
	}
	l := StudLoad{Number: 6, Preload: 340, Total: 407, Proof: 1000}
	for _, of := range []Seating{
		{}, {Min: 4e6, Max: 6e6, Hold: 2e6}, {Min: 4e6, Max: 8e6, Hold: 2e6}, {Min: 4e6, Max: 8e6, Hold: 3e6},
		{Min: 7.6e6, Max: 8e6}, {Min: 7.6e6, Max: 8e6, Softer: []string{"oiled paper", "cork"}}, {Min: 20e6, Max: 20e6}, {Min: 2000e6},
	} {
		p, err := l.Press(633*units.SquareMillimetre, of)
		said.tell(fmt.Sprintf("press for %.1f to %.1f, hold %.1f MPa", of.Min.In(units.Megapascal), of.Max.In(units.Megapascal), of.Hold.In(units.Megapascal)),
			p, p.Findings, err)
	}
	p, err := StudLoad{Number: 4}.Press(500*units.SquareMillimetre, Seating{Min: 1e6, Hold: 1e5})
	said.tell("press without preload", p, p.Findings, err)
	circle, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []float64{1, 2, 3, 4.5, 5} {
		s, err := SpacingOf(circle, units.MM(d))
		said.tell(fmt.Sprintf("spacing of %g mm", d), s, s.Findings, err)
		fmt.Fprintln(&said, "  kept:", s.Kept())
	}
	check.Kept(t, "gasket/joint/kept/answers.txt", check.Rounded(said.String()))
}

// The order for patterns of all sorts: whole circles, circles whose studs stand as they
// may, frames, rows and places at random. Beside the cases of TestOrder, it tells when
// one of them changes.
func TestOrderOfMany(t *testing.T) {
	var said strings.Builder
	tell := func(name string, p gasket.Pattern) {
		order, err := Order(p)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintln(&said, name, order)
	}
	for n := 2; n <= 26; n++ {
		tell(fmt.Sprint("circle of ", n), ring(n, func(i int) (float64, float64) { return 20, 2 * math.Pi * float64(i) / float64(n) }))
	}
	r := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{4, 6, 8, 10, 12, 14, 16, 20, 24, 30, 40, 60, 100} {
		angle := 0.0
		tell(fmt.Sprint("uneven circle of ", n), ring(n, func(int) (float64, float64) {
			angle += math.Pi / float64(n) * (1.2 + 1.5*r.Float64()) / 1.1
			return 20, angle
		}))
		tell(fmt.Sprint("places at random, ", n), ring(n, func(int) (float64, float64) { return 5 + 40*r.Float64(), 6.3 * r.Float64() }))
	}
	for _, n := range [][2]int{{2, 2}, {3, 2}, {4, 3}, {5, 4}, {6, 3}} {
		p, err := gasket.Rectangle(n[0], n[1], units.MM(60), units.MM(34))
		if err != nil {
			t.Fatal(err)
		}
		tell(fmt.Sprint("frame of ", n), p)
	}
	// Two fiftieths of the way to the furthest stud are told apart, and no less.
	cross := func(y float64) gasket.Pattern {
		return gasket.Pattern{{At: gasket.Point{X: units.MM(50)}}, {At: gasket.Point{Y: units.MM(y)}},
			{At: gasket.Point{X: units.MM(-50)}}, {At: gasket.Point{Y: units.MM(-y)}}}
	}
	for _, y := range []float64{48.9, 49, 49.1} {
		tell(fmt.Sprint("cross of 50 and ", y), cross(y))
	}
	check.Kept(t, "gasket/joint/kept/orders.txt", said.String())
}

// ring returns n studs at a radius in millimetres and an angle.
func ring(n int, at func(i int) (radius, angle float64)) gasket.Pattern {
	p := make(gasket.Pattern, n)
	for i := range p {
		radius, angle := at(i)
		sin, cos := math.Sincos(angle)
		p[i] = gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(radius * cos), Y: units.MM(radius * sin)}}
	}
	return p
}

// Studs of a circle that were drilled and measured a little out, each by up to a
// twentieth of the pitch, are tightened in the order of the true circle.
func TestOrderOfADrilledCircle(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := 4; n <= 64; n += 2 {
		pitch := 2 * math.Pi / float64(n)
		want, err := Order(ring(n, func(i int) (float64, float64) { return 20, pitch * float64(i) }))
		if err != nil {
			t.Fatal(err)
		}
		off := min(0.005, 0.04*pitch)
		got, err := Order(ring(n, func(i int) (float64, float64) {
			return 20 * (1 + off*(r.Float64()-0.5)), pitch*float64(i) + off*(r.Float64()-0.5)
		}))
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%d studs: %v, %v, want %v", n, got, err, want)
		}
	}
}

// A row is one while its studs stand off it by less than 1/31,600 of how they stand apart,
// along it and root mean square: 1e-9 of the square. Past that it is the arc of a huge
// circle or nothing. Its widest gap is found in whatever order the studs are named, and
// whichever way it runs.
func TestRow(t *testing.T) {
	for _, way := range []float64{0, 0.3, math.Pi / 4, math.Pi / 2, 2, 3 * math.Pi / 4} {
		row := func(off float64) gasket.Pattern {
			along := []float64{0, 30, -10, -30, 10} // of which the first is the middle: the spread is sqrt(2000)
			side := []float64{0, 1, -1, 1, -1}
			return ring(5, func(i int) (float64, float64) {
				x, y := along[i], off*side[i]*math.Sqrt(500)
				return math.Hypot(x, y), math.Atan2(y, x) + way
			})
		}
		for _, test := range []struct {
			off  float64
			want bool
		}{{0, true}, {2.9e-5, true}, {3.5e-5, false}} {
			if _, how := around(row(test.off)); (how == inRow) != test.want {
				t.Errorf("a row at %g, %g off: %v, want %v", way, test.off, how, test.want)
			}
		}
		gap := row(0)
		gap = append(gap[:4:4], ring(1, func(int) (float64, float64) { return 9, way })...)
		s, err := SpacingOf(gap, units.MM(3))
		if err != nil || math.Abs(s.Widest.MM()-21) > 1e-6 {
			t.Errorf("a row at %g: %v, %v, want 21 mm", way, s.Widest, err)
		}
	}
}
