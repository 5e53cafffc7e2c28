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
)

// An angle of 22.5 degrees.
func ExampleHead_Angle() {
	head, _ := dividing.NewHead(40, dividing.TwoSidedPlate().Circles...)
	s, off, err := head.Angle(22.5 * units.Degree)
	fmt.Println(s, off, err)
	// Output: 2 turns and 12 spaces on the 24 circle (sector over 13 holes) 0 deg <nil>
}

// US Army OD1644: six divisions on a 40:1 head are six turns and 26 holes of the
// 39 circle, among others.
func ExampleHead_Divide_od1644() {
	head, _ := dividing.NewHead(40, dividing.TwoSidedPlate().Circles...)
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

func head(t *testing.T) dividing.Head {
	t.Helper()
	h, err := dividing.NewHead(40, dividing.TwoSidedPlate().Circles...)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestIndexing(t *testing.T) {
	h := head(t)
	f := check.Open(t, "speeds/dividing/indexing.csv")
	for r := range f.Rows() {
		n := int(r.Float("divisions"))
		all, err := h.Divide(n)
		r.Compare("degrees", 360/float64(n))
		if n > 1 {
			table, err := dividing.TablePositions(90, n)
			if err != nil {
				t.Fatal(r.ID, err)
			}
			r.Compare("degrees", table[1].Angle.Degrees())
		}
		near, errNear := h.Nearest(n)
		divides := r.Has("turns")
		if errNear != nil || divides != (near.Below == n && near.Above == n) || divides && near.Setting != all[0] {
			t.Errorf("%s: nearest %+v, %v", r.ID, near, errNear)
		}
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
	f := check.Open(t, "speeds/dividing/indexing_examples.csv")
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
			plates, err := dividing.NewHead(40, dividing.ThreePlates().Circles...)
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
	plates, err := dividing.NewHead(40, dividing.ThreePlates().Circles...)
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

// Seven divisions on a head of 40 to 1 with the usual three plates, as turns of the crank.
func ExampleSetting_Crank() {
	head, err := dividing.NewHead(40, dividing.ThreePlates().Circles...)
	if err != nil {
		fmt.Println(err)
		return
	}
	all, err := head.Divide(7)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d turns a turn of the work; %v: %.4f turns\n", head.Ratio(), all[0], all[0].Crank())
	// Output:
	// 40 turns a turn of the work; 5 turns and 35 spaces on the 49 circle (sector over 36 holes): 5.7143 turns
}
