package joint

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestOrder(t *testing.T) {
	circle := func(n int) gasket.Pattern {
		p, err := gasket.BoltCircle(n, units.MM(40), 1.1)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	without := func(p gasket.Pattern, i int) gasket.Pattern { return slices.Delete(slices.Clone(p), i, i+1) }
	chest, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		t.Fatal(err)
	}
	slanting := gasket.Pattern{}
	for i, at := range []float64{0, 1, 2, 3, 5} {
		slanting = append(slanting, gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(0.7 * at), Y: units.MM(3.7 + 1.9*at)}})
	}
	measured := gasket.Pattern{}
	for i, at := range [][2]float64{{20.1, 0}, {14.1, 14.2}, {0, 20}, {-14.2, 14.1}, {-20, 0.1}, {-14.1, -14.1}, {0.1, -20}, {14.1, -14.2}} {
		measured = append(measured, gasket.Hole{Name: fmt.Sprint(i + 1), At: gasket.Point{X: units.MM(at[0]), Y: units.MM(at[1])}})
	}
	// the middle studs of the long sides, as measured: to 2 percent they are as far out
	uneven := slices.Clone(chest)
	uneven[1].At.Y = uneven[1].At.Y.Sub(units.MM(0.05))
	row := gasket.Pattern{{Name: "1"}, {Name: "2", At: gasket.Point{X: units.MM(10)}}, {Name: "3", At: gasket.Point{X: units.MM(20)}}}
	for _, test := range []struct {
		name string
		p    gasket.Pattern
		want string
	}{
		{"two", circle(2), "1 2"},
		{"three", circle(3), "1 2 3"},
		{"four", circle(4), "1 3 2 4"},
		{"five", circle(5), "1 3 5 2 4"},
		{"GA-05, six", circle(6), "1 4 2 5 3 6"},
		{"eight", circle(8), "1 5 3 7 2 6 4 8"},
		{"seven", circle(7), "1 4 7 3 6 2 5"},
		{"ten", circle(10), "1 6 3 8 5 10 2 7 4 9"},
		// a flange of 12 as pages for pipe fitters have it
		{"twelve", circle(12), "1 7 4 10 2 8 5 11 3 9 6 12"},
		// with studs left out: opposite pairs wherever both are there
		{"eight less the third", without(circle(8), 2), "1 5 8 4 7 2 6"},
		{"six less the third", without(circle(6), 2), "1 4 6 2 5"},
		{"eight less the third and fourth", without(without(circle(8), 3), 2), "1 5 7 2 8 6"},
		{"chest of eight", chest, "2 6 4 8 1 5 3 7"},
		{"chest of eight, measured", uneven, "2 6 4 8 1 5 3 7"},
		{"in a row", row, "2 1 3"},
		{"in a slanting row", slanting, "3 4 2 5 1"},
		// a circle as it was measured, to 0.1 mm
		{"eight, measured", measured, "1 5 3 7 2 6 4 8"},
	} {
		order, err := Order(test.p)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, i := range order {
			names = append(names, test.p[i-1].Name)
		}
		if got := strings.Join(names, " "); got != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
	}
	// Every stud once, whatever the pattern.
	rapid.Check(t, func(t *rapid.T) {
		var p gasket.Pattern
		for i := range rapid.IntRange(2, 30).Draw(t, "n") {
			p = append(p, gasket.Hole{At: gasket.Point{X: units.MM(float64(i)), Y: units.MM(rapid.Float64Range(-20, 20).Draw(t, "y"))}})
		}
		order, err := Order(p)
		if err != nil {
			t.Fatal(err)
		}
		slices.Sort(order)
		for i, k := range order {
			if i+1 != k {
				t.Fatalf("order %v", order)
			}
		}
	})
}

func TestOrderRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "one stud", second(Order(make(gasket.Pattern, 1))), units.ErrOutOfRange, "2 to 500")
	check.Refuses(t, "two in one place", second(Order(make(gasket.Pattern, 2))), units.ErrOutOfRange, "place of stud 2 0 mm, 0 mm: out of range; accepted: a place of its own, not that of stud 1")
}
