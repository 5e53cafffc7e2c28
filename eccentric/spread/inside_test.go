package spread

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// corners calls do with each gear whose sizes are all at an end of their tolerance.
func (b *box) corners(do func(kernel.Gear)) {
	sizes := b.base()
	for bits := range 1 << len(b.varied) {
		for i, v := range b.varied {
			sizes[i] = v.lower
			if bits>>i&1 != 0 {
				sizes[i] = v.upper
			}
		}
		do(b.gear(sizes))
	}
}

// As the travel grows, the release of a valve with an exhaust lap comes later and then
// earlier again with a rod that slants: all corners of the box miss the extreme. With
// the symbols of the package, it is at r = sqrt(E*(2*l + E)).
func TestExtremeThatCornersMiss(t *testing.T) {
	s := Study{Gear: demo()}
	s.Gear.Valve.Cavity = units.MM(9 - 2*0.085)
	s.Tolerances = []Tolerance{within(t, Travel, "0.6 mm"), within(t, Advance, "1 deg"), within(t, ValveOffset, "0.001 mm")}
	b, err := s.box()
	if err != nil {
		t.Fatal(err)
	}
	w := b.worst()
	earliest, nearest := math.Inf(1), math.Inf(1)
	b.corners(func(g kernel.Gear) {
		e := eventsOf(&g, kernel.Head).Release
		earliest, nearest = min(earliest, e.Crank), min(nearest, e.Stroke)
	})
	limit := w.Head.Release.MinCrank
	if missed := earliest - float64(limit.Crank); !(missed > 1e-4) {
		t.Errorf("release from %v, the corners have %v", limit.Crank, units.Angle(earliest))
	}
	if !(w.Head.Release.MinStroke.Stroke < nearest-1e-5) {
		t.Errorf("release from %v of the stroke, the corners have %v", w.Head.Release.MinStroke.Stroke, nearest)
	}
	travel := units.Length{}
	for _, off := range limit.With {
		if off.Dimension == Travel {
			travel = s.Gear.Travel.Add(off.By.Length)
		}
	}
	want := 2 * math.Sqrt(0.084*(120+0.084)) // at an exhaust lap of 0.085 mm less the offset of 0.001 mm
	if math.Abs(travel.MM()-want) > 1e-6 {
		t.Errorf("earliest at a travel of %v, want %v mm", travel, want)
	}
	// A fine scan along the travel finds no earlier one.
	g := b.gear([]float64{1e6, 6.4e9, 27 * math.Pi / 180})
	for travel := 5.8e9; travel <= 7e9; travel += 1e6 {
		g.Travel = travel
		if e := eventsOf(&g, kernel.Head).Release.Crank; e < float64(limit.Crank)-1e-14 {
			t.Fatalf("a travel of %v releases at %v, before %v", travel, e, limit.Crank)
		}
	}
	if w.Head.Release.Searched {
		t.Error("it is proven")
	}
}

// Where admission may come before or behind the dead centre, the piston is nearest to
// its end at the dead centre itself, which no corner has.
func TestDeadCentreThatCornersMiss(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: []Tolerance{within(t, Advance, "4 deg"), within(t, ValveLength, "0.1 mm")}}
	b, err := s.box()
	if err != nil {
		t.Fatal(err)
	}
	limits := b.worst().Crank.Admission
	nearest := math.Inf(1)
	b.corners(func(g kernel.Gear) { nearest = min(nearest, eventsOf(&g, kernel.Crank).Admission.Stroke) })
	if limits.MinStroke.Stroke != 0 || !(nearest > 1e-6) {
		t.Errorf("admission from %v, the corners have %v", limits.MinStroke.Stroke, nearest)
	}
	if is, ok := eventWith(s, limits.MinStroke.With, kernel.Crank, Admission); !ok || math.Abs(is.Crank) > 1e-9 {
		t.Errorf("with %v admission is at %v", limits.MinStroke.With, is)
	}
}

// A gear without tolerances has no spread, and one that cannot be has no worst.
func TestWorstOfNothing(t *testing.T) {
	w, err := Study{Gear: demo()}.Worst()
	if err != nil {
		t.Fatal(err)
	}
	events, err := demo().Events()
	if err != nil {
		t.Fatal(err)
	}
	c := w.Head.CutOff
	if c.MinCrank.Crank != c.MaxCrank.Crank || math.Abs(float64(c.MinCrank.Crank-events.Head.CutOff.Crank)) > 1e-14 ||
		c.MinStroke.With != nil || w.Crank.Lead.Min.Length != events.Crank.Lead {
		t.Errorf("%+v", w)
	}
	if _, err := (Study{}).Worst(); err == nil {
		t.Error("the worst of no gear")
	}
}

// The extremes of events over random boxes against scipy, which searches a mechanism
// of its own: never beyond, and where the events come to most often the same.
func TestWorstAgainstScipy(t *testing.T) {
	python := check.LongPeer(t, "python3", "scipy")
	var text bytes.Buffer
	var limits []WorstEnd
	for _, wide := range []float64{1, 3} {
		for _, lap := range []float64{-0.1, 0.085, 0.2} {
			s := Study{Gear: demo()}
			s.Gear.Valve.Cavity = units.MM(9 - 2*lap)
			for _, d := range Dimensions() {
				size := map[Dimension]float64{Travel: 2e8, Advance: 0.017}[d]
				if size == 0 {
					size = 3e7
				}
				if d.absent(&s.Gear) || d == CrankSteam || d == CrankBar || d == CavityOffset || d == LostMotion {
					continue
				}
				s.Tolerances = append(s.Tolerances, Tolerance{d, d.deviation(-wide * size), d.deviation(wide * size)})
			}
			b, err := s.box()
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range b.varied {
				scale := 1e9
				if v.dimension == Advance {
					scale = 1
				}
				fmt.Fprint(&text, v.lower/scale, " ", v.upper/scale, " ")
			}
			fmt.Fprintln(&text)
			limits = append(limits, b.worst().Head)
		}
	}
	cmd := exec.Command(python, check.Path(t, "eccentric/spread/extremes.py"))
	cmd.Stdin = &text
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(limits) {
		t.Fatalf("%d answers for %d boxes", len(lines), len(limits))
	}
	worst, count := 0.0, 0
	for i, line := range lines {
		var found [16]float64
		for j, word := range strings.Fields(line) {
			if _, err := fmt.Sscan(word, &found[j]); err != nil {
				t.Fatal(err)
			}
		}
		for _, e := range Events() {
			l := limits[i].at(e)
			own := [4]float64{float64(l.MinCrank.Crank), float64(l.MaxCrank.Crank), l.MinStroke.Stroke, l.MaxStroke.Stroke}
			for j, v := range own {
				sign := []float64{-1, 1, -1, 1}[j]
				if beyond := sign * (found[4*int(e-Admission)+j] - v); beyond > 1e-9 || beyond < -1e-6 {
					t.Errorf("box %d, event %d, limit %d: %v, scipy found %v", i, e, j, v, found[4*int(e-Admission)+j])
				} else {
					worst, count = max(worst, math.Abs(beyond)), count+1
				}
			}
		}
	}
	t.Logf("%d limits of %d boxes: largest difference from scipy %.2g", count, len(lines), worst)
}
