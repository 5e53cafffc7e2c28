package dividing_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// US Army OD1644: six divisions on a 40:1 head are six turns and 26 holes of the
// 39 circle, among others.
func ExampleHead_Divide_od1644() {
	head, _ := dividing.NewHead(40, dividing.TwoSidedPlate()...)
	all, err := head.Divide(6)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range all {
		if s.Circle == 39 {
			fmt.Println(s)
		}
	}
	// Output: 6 turns and 26 spaces on the 39 circle (sector over 27 holes)
}

// 127 divisions cannot be had, and are needed for metric threads on inch lathes.
func ExampleHead_Nearest() {
	head, _ := dividing.NewHead(40, dividing.TwoSidedPlate()...)
	_, err := head.Divide(127)
	fmt.Println(err)
	near, _ := head.Nearest(127)
	fmt.Printf("%v: %.1f minutes out at the end; %d and %d can be had\n", near.Setting, near.Closing.Degrees()*60, near.Below, near.Above)
	// Output:
	// dividing: not to be had with these plates: 127 divisions of a 40:1 head
	// 17 spaces on the 54 circle (sector over 18 holes): -10.0 minutes out at the end; 125 and 130 can be had
}

func ExampleTablePositions() {
	all, err := dividing.TablePositions(90, 7)
	fmt.Println(all[1], err)
	// Output: 51°25'43", handwheel 12 turns and 3.4286 deg <nil>
}

func head(t *testing.T) dividing.Head {
	t.Helper()
	h, err := dividing.NewHead(40, dividing.TwoSidedPlate()...)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestIndexing(t *testing.T) {
	h := head(t)
	f := check.Open(t, "speeds/indexing.csv")
	for r := range f.Rows() {
		n := int(r.Float("divisions"))
		all, err := h.Divide(n)
		r.Compare("degrees", 360/float64(n))
		if !r.Has("turns") {
			if !errors.Is(err, dividing.ErrNotDivisible) {
				t.Errorf("%s: %v, %v", r.ID, all, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		r.Within("turns", float64(all[0].Turns), 0)
		r.Within("holes", float64(all[0].Spaces), 0)
		circle := "any"
		if all[0].Circle > 0 {
			circle = fmt.Sprint(all[0].Circle)
		}
		r.Equal("circle", circle)
		var others []string
		for i := len(all) - 1; i > 0; i-- {
			others = append(others, fmt.Sprintf("%d/%d", all[i].Spaces, all[i].Circle))
		}
		if got := strings.Join(others, " "); got != r.Optional("others") {
			t.Errorf("%s: other circles %q, want %q", r.ID, got, r.Optional("others"))
		}
	}
}

func TestExamples(t *testing.T) {
	h := head(t)
	f := check.Open(t, "speeds/indexing_examples.csv")
	for r := range f.Rows() {
		switch kind := r.Text("kind"); kind {
		case "divide":
			all, err := h.Divide(int(r.Float("n")))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("turns", all[0].Crank())
		case "angle":
			// The manual's head has other plates for angles: circles of 20 and 23.
			small, err := dividing.NewHead(40, 20, 23)
			if err != nil {
				t.Fatal(err)
			}
			s, off, err := small.Angle(units.Angle(r.Float("n")) * units.ArcMinute)
			if err != nil {
				t.Fatal(err)
			}
			exact := s.Crank() - float64(off/(9*units.Degree))
			r.Compare("turns", exact)
			switch r.Text("n") {
			case "54":
				if s != (dividing.Setting{Spaces: 2, Circle: 20}) || off != 0 {
					t.Errorf("%s: %v, %v", r.ID, s, off)
				}
			case "24": // one space of 23 is 23.478 minutes
				if s != (dividing.Setting{Spaces: 1, Circle: 23}) || math.Abs((off/units.ArcMinute).Radians()+24-23.478) > 0.0005 {
					t.Errorf("%s: %v, %v", r.ID, s, off)
				}
			}
		case "degrees":
			plates, err := dividing.NewHead(40, dividing.ThreePlates()...)
			if err != nil {
				t.Fatal(err)
			}
			s, off, err := plates.Angle(units.Angle(r.Float("n")) * units.ArcMinute)
			if err != nil || off != 0 {
				t.Errorf("%s: %v, %v out, %v", r.ID, s, off, err)
			}
			r.Compare("turns", s.Crank())
		default:
			t.Fatalf("%s: kind %q", r.ID, kind)
		}
	}
}

// A quarter of a degree cannot be had on the three plates (the milling treatise,
// p. 54), nor on a 40:1 head without a circle of 36 or a multiple of it.
func TestQuarterDegree(t *testing.T) {
	plates, err := dividing.NewHead(40, dividing.ThreePlates()...)
	if err != nil {
		t.Fatal(err)
	}
	if s, off, err := plates.Angle(15 * units.ArcMinute); err != nil || off == 0 {
		t.Errorf("%v, %v out, %v", s, off, err)
	}
	if s, off, err := head(t).Angle(15 * units.ArcMinute); err != nil || off == 0 {
		t.Errorf("%v, %v out, %v", s, off, err)
	}
}

// On the plate that was read every number from 2 to 60 can be had.
func TestEveryNumberToSixty(t *testing.T) {
	h := head(t)
	for n := 2; n <= 60; n++ {
		if _, err := h.Divide(n); err != nil {
			t.Error(err)
		}
	}
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
		if err == nil {
			if near.Closing != 0 || near.Step != 0 || near.Below != n || near.Above != n {
				t.Fatalf("%d: %+v", n, near)
			}
			return
		}
		fine := 0
		for _, c := range circles {
			fine = max(fine, c)
		}
		space := 360 * units.Degree / units.Angle(ratio) / units.Angle(fine)
		if math.Abs(float64(near.Step)) > float64(space)/2*(1+1e-9) || math.Abs(float64(near.Closing-near.Step*units.Angle(n))) > 1e-12 {
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

func TestTablePositions(t *testing.T) {
	all, err := dividing.TablePositions(72, 11)
	if err != nil || len(all) != 11 {
		t.Fatal(err)
	}
	for i, p := range all {
		back := float64(p.Turns)*5 + p.Rest.Degrees()
		if math.Abs(back-p.Angle.Degrees()) > 1e-9 || math.Abs(p.Angle.Degrees()-360*float64(i)/11) > 1e-9 {
			t.Errorf("position %d: %+v", i, p)
		}
		dms := float64(p.Degrees) + float64(p.Minutes)/60 + float64(p.Seconds)/3600
		if math.Abs(dms-p.Angle.Degrees()) > 0.51/3600 || p.Minutes > 59 || p.Seconds > 59 {
			t.Errorf("position %d: %v", i, p)
		}
	}
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

func TestRefuses(t *testing.T) {
	h := head(t)
	for name, call := range map[string]func() error{
		"no ratio":          func() error { _, err := dividing.NewHead(0, 20); return err },
		"a circle of one":   func() error { _, err := dividing.NewHead(40, 1); return err },
		"a thousand holes":  func() error { _, err := dividing.NewHead(40, 1000); return err },
		"plates upon plate": func() error { _, err := dividing.NewHead(40, make([]int, 201)...); return err },
		"no head":           func() error { _, err := (dividing.Head{}).Divide(5); return err },
		"no divisions":      func() error { _, err := h.Divide(0); return err },
		"too many":          func() error { _, err := h.Nearest(10_001); return err },
		"no angle":          func() error { _, _, err := h.Angle(0); return err },
		"not an angle":      func() error { _, _, err := h.Angle(units.Angle(math.NaN())); return err },
		"no table":          func() error { _, err := dividing.TablePositions(0, 5); return err },
		"table, none":       func() error { _, err := dividing.TablePositions(90, 0); return err },
		"words for circles": func() error { _, err := dividing.ParseCircles("fifteen"); return err },
		"nothing":           func() error { _, err := dividing.ParseCircles(" / "); return err },
		"a book":            func() error { _, err := dividing.ParseCircles(strings.Repeat("20 ", 1000)); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzParseCircles(f *testing.F) {
	f.Add("15 16 17 18 19 20 / 21 23 27 29 31 33 / 37 39 41 43 47 49")
	f.Add("24,25;28")
	f.Fuzz(func(t *testing.T, s string) {
		circles, err := dividing.ParseCircles(s)
		if err != nil {
			return
		}
		if len(circles) > 200 {
			return
		}
		h, err := dividing.NewHead(40, circles...)
		if err != nil {
			t.Fatal(err)
		}
		if len(h.Circles()) == 0 {
			t.Fatal("circles lost")
		}
	})
}
