package casting

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Random points and castings against scipy: its least squares, its constrained minimum
// from nine starts and its linear programme.
func TestRoundnessAgainstScipy(t *testing.T) {
	python := check.LongPeer(t, "python3", "scipy")
	random := rand.New(rand.NewPCG(15, 3))
	var text bytes.Buffer
	var own [][]float64
	for range 40 {
		var points []Point
		fmt.Fprint(&text, "points")
		n := 5 + random.IntN(16)
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			radius := 30 + 0.2*random.NormFloat64()
			p := Point{units.MM(1 + radius*cos), units.MM(radius*sin - 2)}
			points = append(points, p)
			fmt.Fprint(&text, " ", p.X.MM(), " ", p.Y.MM())
		}
		fmt.Fprintln(&text)
		var circles [4]Circle
		for i, fit := range []CircleFit{Geometric, MinimumZone, LargestInscribed, SmallestEnclosing} {
			c, err := FitCircle(fit, points)
			if err != nil {
				t.Fatal(err)
			}
			circles[i] = c
		}
		own = append(own, []float64{circles[0].Centre.X.MM(), circles[0].Centre.Y.MM(), circles[0].Radius.MM(),
			circles[1].Inside.Add(circles[1].Outside).MM(), circles[2].Radius.MM(), circles[3].Radius.MM()})
	}
	for range 500 {
		c, stocked := randomCasting(random)
		fmt.Fprint(&text, "casting ", map[bool]int{false: 0, true: 1}[stocked])
		for i := range c.Rings {
			r := &c.Rings[i]
			r.Diameter = units.Length{}
			stock := 0.0
			if stocked {
				stock = r.Stock.MM()
			}
			fmt.Fprint(&text, " ", len(r.Readings), " ", map[bool]int{false: 1, true: -1}[r.Inside], " ", stock)
			for _, v := range r.Readings {
				fmt.Fprint(&text, " ", v.MM())
			}
		}
		fmt.Fprintln(&text)
		solved, err := c.Centre()
		if err != nil {
			t.Fatal(err)
		}
		reached := solved.Even.Allowance.MM()
		if stocked {
			reached = math.Inf(1)
			for _, s := range solved.Even.Surfaces {
				reached = min(reached, s.Least.MM())
			}
		}
		own = append(own, []float64{reached})
	}
	program := exec.Command(python, check.Path(t, "eccentric/marking/casting/roundness.py"))
	program.Stdin = &text
	out, err := program.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(own) {
		t.Fatalf("%d answers to %d questions", len(lines), len(own))
	}
	worst := 0.0
	for i, line := range lines {
		found := numbers(t, line)
		if len(found) != len(own[i]) {
			t.Fatalf("%d: %q", i, line)
		}
		for j, v := range found {
			difference := math.Abs(v - own[i][j])
			worst = max(worst, difference)
			if difference > 2e-6 { // where scipy stops
				t.Errorf("%d, figure %d: %v, scipy %v", i, j, own[i][j], v)
			}
		}
	}
	t.Logf("%d figures of scipy, largest difference %.2g mm", len(lines), worst)
}
