package screwcut_test

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// Where there are several wheels of one size each train comes once, with its wheels on
// the studs in the order that leaves the most room.
func TestTrainsOfRepeatedWheels(t *testing.T) {
	every := func(text string) []int { return wheels(t, text) }
	for _, test := range []struct {
		wheels []int
		thread string
	}{
		{every("20, 20, 20, 25, 40"), "1/4-20 UNC"}, {every("25, 40, 50, 50, 50"), "1/4-20 UNC"}, {every("20, 20, 20, 20, 25, 25, 25, 40, 40, 40, 50, 50, 50"), "1/4-20 UNC"},
		{every("20-65x5"), "1/4-20 UNC"}, {every("20-65x5"), "3/8-16 UNC"}, {every("20-65x5"), "1/2-13 UNC"}, {every("20-80x5"), "7/16-14 UNC"}, {every("20-75x5, 127"), "M6"},
	} {
		trainsOnce(t, test.wheels, test.thread)
	}
	rapid.Check(t, func(t *rapid.T) {
		set := rapid.SliceOfN(rapid.SampledFrom([]int{20, 25, 30, 40, 50, 60}), 2, 12).Draw(t, "wheels")
		trainsOnce(t, set, rapid.SampledFrom([]string{"1/4-20 UNC", "3/8-16 UNC", "M3", "M6"}).Draw(t, "thread"))
	})
}

func trainsOnce(t interface{ Fatalf(string, ...any) }, set []int, name string) {
	l := screwcut.Lathe{Leadscrew: screwcut.LeadOf(thread.MustParse("1-8 UNC")), Wheels: set}
	trains, err := l.Trains(screwcut.LeadOf(thread.MustParse(name)))
	if err != nil {
		t.Fatalf("%v: %v", set, err)
	}
	seen := map[string]bool{}
	for _, train := range trains.Exact {
		drivers, driven := slices.Sorted(slices.Values(train.Drivers)), slices.Sorted(slices.Values(train.Driven))
		key := fmt.Sprint(drivers, driven)
		if seen[key] {
			t.Fatalf("%v is given twice of %v", train, l.Wheels)
		}
		seen[key] = true
	}
	for _, train := range append(trains.Exact, trains.Closest...) {
		if len(train.Drivers) < 2 {
			continue
		}
		most := math.MinInt
		for _, d := range [][2]int{{0, 1}, {1, 0}} {
			for _, n := range [][2]int{{0, 1}, {1, 0}} {
				a, b, c, e := train.Drivers[d[0]], train.Drivers[d[1]], train.Driven[n[0]], train.Driven[n[1]]
				most = max(most, min(a+c-b, b+e-c))
			}
		}
		a, b, c, e := train.Drivers[0], train.Drivers[1], train.Driven[0], train.Driven[1]
		if train.Room != most || min(a+c-b, b+e-c) != most {
			t.Fatalf("%v has room %d, and there is %d", train, train.Room, most)
		}
		if cut := l.Leadscrew.Length().MM() * float64(a*b) / float64(c*e); math.Abs(train.Cut.MM()-cut) > 1e-8 {
			t.Fatalf("%v cuts %v, want %g mm", train, train.Cut, cut)
		}
	}
}

// Sixty wheels are the most that a set may have.
func TestMostWheels(t *testing.T) {
	l := screwcut.Lathe{Leadscrew: screwcut.LeadOf(thread.MustParse("1-8 UNC"))}
	for teeth := 20; teeth < 80; teeth++ {
		l.Wheels = append(l.Wheels, teeth)
	}
	if trains, err := l.Trains(l.Leadscrew); err != nil || len(trains.Exact) == 0 {
		t.Errorf("60 wheels: %d exact trains, %v", len(trains.Exact), err)
	}
}

func TestLeadBounds(t *testing.T) {
	for _, test := range []struct {
		travel units.Length
		turns  int
		says   string // blank: accepted
	}{
		{units.MM(1), 0, "turns 0: out of range; accepted: 1 to 1000000"}, {units.MM(1), -1, "turns -1: out of range"}, {units.MM(1), 1, ""},
		{units.MM(20000), 1_000_000, ""}, {units.MM(20000), 1_000_001, "turns 1000001: out of range"},
		{units.MM(1e6), 10_000, ""}, {units.MM(1e6).Add(units.Micron(1)), 20_000, "travel"}, {units.MM(0.01), 1, ""}, {units.MM(0.009999), 1, "lead"},
		{units.MM(100), 1, ""}, {units.MM(100.000001), 1, "lead"}, {units.MM(-1), 1, "lead"},
	} {
		l, err := screwcut.NewLead(test.travel, test.turns)
		if test.says == "" && err != nil || test.says != "" && (err == nil || !strings.Contains(err.Error(), test.says) || l != screwcut.Lead{}) {
			t.Errorf("%v in %d turns: %v, %v; want %q", test.travel, test.turns, l, err, test.says)
		}
		var kept bytes.Buffer
		var back screwcut.Lead
		if err := gob.NewEncoder(&kept).Encode(l); err != nil || gob.NewDecoder(&kept).Decode(&back) != nil || back != l {
			t.Errorf("%v comes back as %v, %v", l, back, err)
		}
	}
}

// The radius of the ISO root is H/6 and the crest lies 3H/8 over the pitch line (ISO
// 68-1), as near as the constants are written; the root of Unified is 3H/16 (ASME B1.1).
func TestConstantsOfTheForms(t *testing.T) {
	h := math.Sqrt(3) / 2
	for name, want := range map[string]float64{"M10x1 special": h / 6, "1-25.4 UNS": 3 * h / 16, "M40x1 special": h / 6} {
		th, err := thread.Parse(name)
		if err != nil {
			continue // 25.4 threads to the inch are none
		}
		tips, err := screwcut.GroundTips(th)
		if err != nil || math.Abs(tips[len(tips)-1].Tip.Radius.MM()-want) > 0.5e-7 {
			t.Errorf("%s: radius %v, %v; want %.9f", name, tips[len(tips)-1].Tip.Radius, err, want)
		}
	}
	th := thread.MustParse("M300x75 special")
	depth, err := screwcut.ToolTip{}.DepthFor(th)
	if want := 75 * (3*h/8 + h/2); err != nil || math.Abs(depth.Depth.MM()-want) > 4e-9 {
		t.Errorf("%v: a sharp tool goes %.12f mm deep, %v; want %.12f", th, depth.Depth.MM(), err, want)
	}
}
