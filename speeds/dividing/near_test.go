package dividing_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// 127 divisions cannot be had, and are needed for metric threads on inch lathes.
func ExampleHead_Nearest() {
	head, _ := dividing.NewHead(40, dividing.TwoSidedPlate().Circles...)
	_, err := head.Divide(127)
	fmt.Println(err)
	near, _ := head.Nearest(127)
	fmt.Printf("%v: %.1f minutes out at the end; %d and %d can be had\n", near.Setting, near.Closing.Degrees()*60,
		near.Below, near.Above)
	// Output:
	// dividing: not to be had with these plates: 127 divisions of a 40:1 head
	// 17 spaces on the 54 circle (sector over 18 holes): -10.0 minutes out at the end; 125 and 130 can be had
}

// n moves of any exact setting are one turn of the work, and Nearest never errs
// by more than half a space of the finest circle at each division.
func TestDivisionsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := rapid.SampledFrom([]int{40, 60, 72, 90}).Draw(t, "ratio")
		circles := rapid.SliceOfN(rapid.IntRange(15, 70), 1, 12).Draw(t, "circles")
		h, err := dividing.NewHead(ratio, circles...)
		if err != nil {
			t.Fatal(err)
		}
		n := rapid.IntRange(2, 400).Draw(t, "n")
		all, err := h.Divide(n)
		for _, s := range all {
			if s.Circle == 0 && s.Turns*n != ratio || s.Circle > 0 && (s.Turns*s.Circle+s.Spaces)*n != ratio*s.Circle {
				t.Fatalf("%d divisions of %d:1: %v", n, ratio, s)
			}
			if s.Circle > 0 && s.Spaces >= s.Circle {
				t.Fatalf("%v is more than a turn", s)
			}
		}
		near, err2 := h.Nearest(n)
		if err2 != nil {
			t.Fatal(err2)
		}
		if (err == nil) != near.Findings.OK() || err != nil && near.Findings[0].Code != dividing.NotDivisible {
			t.Fatalf("%d: %v, %v", n, near.Findings, err)
		}
		if err == nil {
			if near.Closing != 0 || near.Step != 0 || near.Findings != nil || near.Below != n || near.Above != n {
				t.Fatalf("%d: %+v", n, near)
			}
			return
		}
		fine := 0
		for _, c := range circles {
			fine = max(fine, c)
		}
		space := 360 * units.Degree / units.Angle(ratio) / units.Angle(fine)
		if math.Abs(float64(near.Step)) > float64(space)/2*(1+1e-9) ||
			math.Abs(float64(near.Closing-near.Step*units.Angle(n))) > 1e-12 {
			t.Fatalf("%d: %+v", n, near)
		}
		for _, m := range []int{near.Below, near.Above} {
			if m == 0 {
				continue
			}
			if _, err := h.Divide(m); err != nil {
				t.Fatalf("%d is said to be had: %v", m, err)
			}
		}
	})
}

// The nearest move is a move, even where the finest circle is far too coarse.
func TestNearestMoves(t *testing.T) {
	h := head(t)
	for n := 1; n <= 3000; n++ {
		near, err := h.Nearest(n)
		if err != nil || near.Setting.Crank() <= 0 {
			t.Fatalf("%d: %+v, %v", n, near, err)
		}
		for _, m := range []int{near.Below, near.Above} {
			if m == 0 {
				continue
			}
			if _, err := h.Divide(m); err != nil {
				t.Fatalf("beside %d: %v", n, err)
			}
		}
		if near.Above == 0 && n < 40*66 {
			t.Fatalf("%d: nothing above it", n)
		}
		// No move on any circle comes nearer.
		turns := 40 / float64(n)
		for _, c := range h.Circles() {
			for _, spaces := range []float64{math.Floor(turns * float64(c)), math.Ceil(turns * float64(c))} {
				if spaces > 0 && math.Abs(spaces/float64(c)-turns) < math.Abs(near.Setting.Crank()-turns)-1e-12 {
					t.Fatalf("%d: %v, but %v of %d is nearer", n, near.Setting, spaces, c)
				}
			}
		}
	}
	if s, off, err := h.Angle(1 * units.ArcMinute); err != nil || s.Spaces != 1 || s.Circle != 66 || off <= 0 {
		t.Errorf("a minute of arc: %v, %v, %v", s, off, err)
	}
	plain, err := dividing.NewHead(90)
	if err != nil {
		t.Fatal(err)
	}
	if s, _, err := plain.Angle(1 * units.Degree); err != nil || s.Turns != 1 {
		t.Errorf("a degree without plates: %v, %v", s, err)
	}
}
