package dividing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"pgregory.net/rapid"
)

// told is findings with all that they say.
func told(all finding.List) string {
	var texts []string
	for _, f := range all {
		texts = append(texts, fmt.Sprintf("%v %s: %s %q [%v]", f.Severity, f.Code, f.Text, f.Remedies, f.Refs))
	}
	return strings.Join(texts, " | ")
}

// Answers just inside what is accepted and refusals just outside, moves in words, and
// what is said where a number cannot be had: kept. TestMovesByScan checks the figures.
func TestAnswersKept(t *testing.T) {
	var all strings.Builder
	line := func(name string, v any, err error) {
		said := fmt.Sprint(v)
		if err != nil {
			said = err.Error()
		}
		fmt.Fprintf(&all, "%s: %s\n", name, said)
	}
	many := func(n int) []int {
		var circles []int
		for i := range n {
			circles = append(circles, 2+i)
		}
		return circles
	}
	for _, h := range []struct {
		ratio   int
		circles []int
	}{{0, nil}, {1, nil}, {360, nil}, {361, nil}, {40, []int{1}}, {40, []int{2}}, {40, []int{500}}, {40, []int{501}}, {40, []int{20, 15, 20}}} {
		v, err := dividing.NewHead(h.ratio, h.circles...)
		line(fmt.Sprint("head ", h), fmt.Sprintf("%v %d %v %v", v, v.Ratio(), v.Circles(), v.Validate()), err)
	}
	for _, n := range []int{200, 201} {
		v, err := dividing.NewHead(40, many(n)...)
		line(fmt.Sprint("head of circles ", n), len(v.Circles()), err)
	}
	var none dividing.Head
	_, errDivide := none.Divide(3)
	_, errNearest := none.Nearest(3)
	_, _, errAngle := none.Angle(1)
	line("no head", fmt.Sprint(none.String() == "", none.Validate()), nil)
	line("no head divides", nil, errDivide)
	line("no head near", nil, errNearest)
	line("no head by angle", nil, errAngle)
	for _, text := range []string{
		"", " ", "15 16 17 / 21", "15,16;17\t18\n19", "2", "1", "500", "501", "x", "15 1.5", "-3", "15 / / 16", strings.Repeat(" ", 1998) + "20", strings.Repeat(" ", 1999) + "20",
	} {
		v, err := dividing.ParseCircles(text)
		line(fmt.Sprintf("circles %.20q", text), v, err)
	}
	for _, text := range []string{
		"", "40:1", "40", " 40:1 ", "40:1, 15 16 17", "40:1,20 15", "40:1,", "0:1", "1:1", "360:1", "361:1", "x:1", "40:2", "40:1, x", "40:1, 1", ":1, 15",
		"90:1, " + strings.TrimSpace(strings.Repeat("20 ", 201)),
	} {
		var h dividing.Head
		err := h.UnmarshalText([]byte(text))
		if err != nil && len(text) > 30 {
			err = fmt.Errorf("%.60s...%s", err.Error(), err.Error()[len(err.Error())-60:])
		}
		line(fmt.Sprintf("head of text %.20q", text), h, err)
	}
	plated, err := dividing.NewHead(40, dividing.ThreePlates().Circles...)
	if err != nil {
		t.Fatal(err)
	}
	two, _ := dividing.NewHead(90, dividing.TwoSidedPlate().Circles...)
	plain, _ := dividing.NewHead(60)
	for _, h := range []dividing.Head{plated, two, plain} {
		for _, n := range []int{0, 1, 2, 3, 7, 39, 40, 41, 51, 53, 60, 61, 67, 101, 127, 360, 3600, 4410, 9999, 10000, 10001} {
			moves, err := h.Divide(n)
			line(fmt.Sprintf("%d:1 by %d", h.Ratio(), n), moves, err)
			near, err := h.Nearest(n)
			line("  nearest", fmt.Sprintf("%v, %.5g and %.5g arcmin, %d %d %s", near.Setting, near.Step.In(units.ArcMinute), near.Closing.In(units.ArcMinute),
				near.Below, near.Above, told(near.Findings)), err)
		}
		for _, degrees := range []float64{0, 1e-5, 0.05, 0.5, 1, 7.3, 9, 10, 22.5, 45.004, 359.999, 360, 360.001, math.NaN()} {
			move, off, err := h.Angle(units.Angle(degrees) * units.Degree)
			line(fmt.Sprintf("%d:1 by %g degrees", h.Ratio(), degrees), fmt.Sprintf("%v, off by %.4g arcsec", move, off.In(units.ArcSecond)), err)
		}
	}
	for _, tt := range [][2]int{{0, 3}, {361, 3}, {360, 1}, {1, 2}, {90, 0}, {90, 10001}, {90, 7}, {72, 13}, {40, 3}} {
		positions, err := dividing.TablePositions(tt[0], tt[1])
		line(fmt.Sprint("table ", tt), positions, err)
	}
	long, err := dividing.TablePositions(90, 10000)
	line("table of 10000", long[len(long)-1], err)
	line("position", dividing.Position{Turns: 1}, nil)
	for _, s := range []dividing.Setting{{}, {Turns: 1}, {Turns: 2, Circle: 20}, {Spaces: 1, Circle: 20}, {Turns: 1, Spaces: 2, Circle: 20}, {Turns: 3, Spaces: 1, Circle: 15}} {
		line("move", fmt.Sprintf("%v, %.6g turns", s, s.Crank()), nil)
	}
	line("plates", dividing.TwoSidedPlate(), nil)
	line("plates", dividing.ThreePlates(), nil)
	line("to mind", fmt.Sprint(dividing.Precautions()[0].Code, dividing.Precautions()), nil)
	check.Kept(t, "speeds/dividing/kept/answers.txt", all.String())
}

// The next larger number is found up to the finest move of the only circle, and none
// above 10,000; a refusal has nothing beside it, and a head goes through gob's methods.
func TestNextLarger(t *testing.T) {
	for _, tt := range []struct{ ratio, circle, n, below, above int }{
		{40, 20, 41, 40, 50}, {40, 20, 799, 400, 800}, {40, 20, 801, 800, 0}, {360, 286, 10000, 9360, 0}, {360, 286, 9359, 8580, 9360},
	} {
		h, _ := dividing.NewHead(tt.ratio, tt.circle)
		if near, err := h.Nearest(tt.n); err != nil || near.Below != tt.below || near.Above != tt.above {
			t.Errorf("%v by %d: %d and %d, %v; want %d and %d", h, tt.n, near.Below, near.Above, err, tt.below, tt.above)
		}
	}
	seven, _ := dividing.NewHead(7)
	if near, err := seven.Nearest(3); err != nil || near.Below != 1 || near.Above != 7 {
		t.Errorf("%v", near)
	}
	h, _ := dividing.NewHead(40, 20)
	for _, head := range []dividing.Head{h, {}} {
		if move, off, err := head.Angle(0); err == nil || off != 0 || move != (dividing.Setting{}) {
			t.Errorf("%v, %v beside %v", move, off, err)
		}
	}
	data, err := h.GobEncode()
	var back dividing.Head
	if err != nil || back.GobDecode(data) != nil || back.String() != "40:1, 20" {
		t.Errorf("%s, %v: %v", data, err, back)
	}
}

// Moves found by trying every hole of every circle, on heads of any ratio.
func TestMovesByScan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := rapid.IntRange(1, 120).Draw(t, "ratio")
		circles := rapid.SliceOfN(rapid.IntRange(2, 60), 0, 5).Draw(t, "circles")
		h, err := dividing.NewHead(ratio, circles...)
		if err != nil {
			t.Fatal(err)
		}
		// exact reports whether n moves of some spaces of a circle are ratio turns.
		exact := func(n int) bool {
			for _, c := range append([]int{1}, circles...) {
				if ratio*c%n == 0 {
					return true
				}
			}
			return false
		}
		n := rapid.IntRange(1, 200).Draw(t, "n")
		moves, err := h.Divide(n)
		if (err == nil) != exact(n) {
			t.Fatalf("%v by %d: %v, %v", h, n, moves, err)
		}
		seen := map[int]bool{}
		for i, m := range moves {
			c := max(m.Circle, 1)
			if (m.Turns*c+m.Spaces)*n != ratio*c || m.Spaces >= c || i > 0 && m.Circle >= moves[i-1].Circle {
				t.Fatalf("%v by %d: %v", h, n, moves)
			}
			seen[m.Circle] = true
		}
		if ratio%n != 0 {
			for _, c := range circles {
				if (ratio*c%n == 0) != seen[c] {
					t.Fatalf("%v by %d: the %d circle in %v", h, n, c, moves)
				}
			}
		}
		// The nearest move to any angle: no hole of any circle is nearer.
		turns := rapid.Float64Range(1e-3, float64(ratio)).Draw(t, "turns")
		best := math.Inf(1)
		for _, c := range append([]int{1}, circles...) {
			spaces := math.Round(turns * float64(c))
			for _, s := range []float64{spaces - 1, spaces, spaces + 1} {
				if s >= 1 {
					best = min(best, math.Abs(s/float64(c)-turns))
				}
			}
		}
		move, off, err := h.Angle(units.Angle(turns/float64(ratio)) * 360 * units.Degree)
		if got := move.Crank() - turns; err != nil || math.Abs(got) > best+1e-9 || math.Abs(off.Degrees()-got*360/float64(ratio)) > 1e-9 ||
			move.Circle != 0 && move.Spaces == 0 {
			t.Fatalf("%v at %v turns: %v, %v off, %v; the nearest is %v off", h, turns, move, off, err, best)
		}
		near, err := h.Nearest(n)
		if err != nil {
			t.Fatal(err)
		}
		step := near.Setting.Crank()*360/float64(ratio) - 360/float64(n)
		if math.Abs(near.Step.Degrees()-step) > 1e-9 || math.Abs(near.Closing.Degrees()-step*float64(n)) > 1e-7 {
			t.Fatalf("%v near %d: %v", h, n, near)
		}
		below, above := n, n
		for below > 0 && !exact(below) {
			below--
		}
		for above <= 10000 && !exact(above) {
			above++
		}
		if above > 10000 {
			above = 0
		}
		if near.Below != below || near.Above != above || (len(near.Findings) == 0) != exact(n) {
			t.Fatalf("%v near %d: %d and %d, want %d and %d", h, n, near.Below, near.Above, below, above)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		ratio, n := rapid.IntRange(1, 360).Draw(t, "ratio"), rapid.IntRange(1, 400).Draw(t, "n")
		all, err := dividing.TablePositions(ratio, n)
		if err != nil || len(all) != n {
			t.Fatal(len(all), err)
		}
		for i, p := range all {
			angle := 360 * float64(i) / float64(n)
			handwheel := (float64(p.Turns) + p.Rest.Degrees()*float64(ratio)/360) * 360 / float64(ratio)
			clock := float64(p.Degrees) + float64(p.Minutes)/60 + float64(p.Seconds)/3600
			if math.Abs(p.Angle.Degrees()-angle) > 1e-9 || math.Abs(handwheel-angle) > 1e-9 || math.Abs(clock-angle) > 0.5001/3600 ||
				p.Rest < 0 || p.Rest.Degrees() >= 360/float64(ratio) || p.Minutes > 59 || p.Seconds > 59 {
				t.Fatalf("%d:1, %d of %d: %v", ratio, i, n, p)
			}
		}
	})
}
