package thread_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// Clearance holes of every class, what a hole forgives, and the drills that make it.
func TestClearanceKept(t *testing.T) {
	var p paper
	for _, name := range append(some, "M12", "M14", "M45", "M39", "M52", "M64", "M1", "0 BA", "16 BA", "17 BA", "1/4-28 UNF", "M1.2x0.2", "M100x2 special") {
		th := thread.MustParse(name)
		text := ""
		for _, class := range thread.ClearanceClasses() {
			c, err := th.ClearanceFor(class)
			if err != nil {
				text += fmt.Sprintf("; %v: %s", class, strings.TrimPrefix(err.Error(), "thread: "))
				continue
			}
			text += fmt.Sprintf("; %v %v, room %v, forgives %v, %d sources", c.Class, c.Hole, c.Room, c.Position, c.Refs.Len())
		}
		usual, err := th.UsualClearance()
		p.line("%s%s; usually %v, %v", name, text, usual.Class, err)
	}
	m6 := thread.MustParse("M6")
	for _, class := range []thread.ClearanceClass{0, 9} {
		_, err := m6.ClearanceFor(class)
		p.line("class %v: %v", class, err)
	}
	own := []struct {
		what string
		gauge.Set
	}{{"6.4 mm", set(t, "6.4 mm")}, {"6.8 mm", set(t, "6.8 mm")}, {"6.81 mm", set(t, "6.81 mm")}, {"6.39 mm", set(t, "6.39 mm")}, {"none", gauge.Set{}}}
	for _, hole := range []float64{6, 6.001, 6.1, 6.0999, 6.4} {
		c, err := m6.ClearanceOf(units.MM(hole))
		if err != nil {
			p.line("M6 through %g: %v", hole, err)
			continue
		}
		p.line("M6 through %g: %v", hole, c)
		for _, holes := range []int{3, 4, 6} {
			p.findings(c.Check(holes))
		}
		for _, drills := range own {
			size, said := c.Drill(drills.Set)
			p.line(" of %s: %v", drills.what, size.Name)
			p.findings(said)
		}
	}
	_, err := thread.Thread{}.ClearanceOf(units.MM(1))
	_, errFor := thread.Thread{}.ClearanceFor(thread.FineISO273)
	_, errUsual := thread.Thread{}.UsualClearance()
	p.line("none: %v; %v; %v", err, errFor, errUsual)
	p.keep(t, "clearance")
}

// Blind holes for three taps, to the tip and to what is below, at the bounds of each.
func TestBlindHolesKept(t *testing.T) {
	var p paper
	mm := units.MM
	for _, name := range []string{"M6", "2 BA", "1/4-20 UNC"} {
		th := thread.MustParse(name)
		for _, tap := range append(thread.Taps(), 0, 4) {
			for _, length := range []float64{0, 6, 1000, 1000.001} {
				h, err := th.BlindHole(mm(length), tap)
				p.answer(fmt.Sprintf("%s, %g of thread, %v", name, length, tap), h, err)
			}
			for _, depth := range []float64{-1, 0, 1, 1.5, 2.5, 2.501, 4, 10} {
				h, err := th.ThreadInBlindHole(mm(depth), tap)
				p.answer(fmt.Sprintf("%s, %g deep, %v", name, depth, tap), fmt.Sprintf("%v of thread, jams at %v, %.4g", h.Thread, h.Jam, h.Diameters), err)
				if depth == 1.5 || depth == 2.5 {
					p.findings(h.Findings)
				}
			}
		}
	}
	h := thread.BlindHole{Depth: mm(10)}
	for _, ask := range []struct{ drill, point, metal float64 }{
		{5, 0, 14}, {5, 118, 14.001}, {5, 118, 14.0019}, {5, 118, 13.95}, {5, 118, 13}, {5, 118, 11.502}, {5, 118, 11.5}, {5, 118, 10}, {5, 118, 2}, {5, 60, 20}, {5, 59.9, 20},
		{5, 179.9, 14}, {5, 180, 14}, {5, 90, 14}, {0, 118, 14}, {-1, 118, 14}, {5, 118, 0}, {5, 118, 1000}, {5, 118, 1000.001}, {1.5, 118, 11.4}, {1.5, 118, 11.45}, {1.5, 118, 11.3},
		{2, 118, 11.6}, {2.1, 118, 11.6}, {30, 118, 12},
	} {
		tip, errTip := h.Tip(mm(ask.drill), units.Angle(ask.point)*units.Degree)
		left, said, err := h.Left(mm(ask.drill), units.Angle(ask.point)*units.Degree, mm(ask.metal))
		p.line("drill %g of %g degrees in %g: tip %v, %v; left %v, %v", ask.drill, ask.point, ask.metal, tip, errTip, left, err)
		p.findings(said)
	}
	_, err := thread.Thread{}.BlindHole(mm(1), thread.SecondTap)
	_, errIn := thread.Thread{}.ThreadInBlindHole(mm(1), thread.SecondTap)
	p.line("none: %v; %v", err, errIn)
	p.keep(t, "blindholes")
}

// Holes for taper pipes with the drills in print and those of a drawer, as they are
// asked for, and what single drills leave.
func TestPipeHolesKept(t *testing.T) {
	var p paper
	for _, name := range []string{"R 1/16", "R 1/8", "R 1/2", "R 1", "R 5/8", "1/16 NPT", "1/8 NPT", "3/4 NPT", "2 NPT", "2 1/2 NPT", "G 1/8", "M6"} {
		th := thread.MustParse(name)
		taper, tapers := th.Taper()
		if tapers {
			p.line("%s: %v", name, taper)
		}
		for _, h := range th.PipeHoles() {
			p.line("%s %v, %s: %v to %v, mouth %v, length %v, open %v, %d sources", name, h.Kind, h.Internal, h.Min, h.Max, h.Mouth, h.Length, h.Open, h.Refs.Len())
			for _, d := range h.Printed {
				p.line(" %v; %.4f turns, open %v, suits %v", d, d.Turns, d.Open, d.Suits())
			}
		}
	}
	for _, drawer := range []struct {
		what string
		gauge.Set
	}{{"by 0.1", set(t, "1-13x0.1 mm")}, {"few", set(t, "6 mm, 8.4 mm, 8.6 mm, 8.7 mm")}} {
		for _, name := range []string{"R 1/8", "Rp 1/8", "rc1/8", "1/8 NPT", "R 1"} {
			plan, err := thread.MustParse(name).PlanDrill(drawer.Set, thread.TapDepth{})
			if err != nil {
				t.Fatal(err)
			}
			plan = plan.Named(name)
			p.line("%s of %s: %q, suits %v, %d sources", name, drawer.what, plan.Internal, plan.Suits(), plan.Refs.Len())
			for _, c := range plan.Pipe {
				p.line(" %v %s: %v", c.Kind, c.Internal, c.Choice)
				p.findings(c.Findings)
			}
			p.findings(plan.Check())
		}
	}
	for _, name := range []string{"R 1/8", "1/8 NPT", "G 1/8"} {
		for _, kind := range append(thread.PipeHoleKinds(), 0, 4) {
			for _, mm := range []float64{8, 8.3, 8.495, 8.5, 8.566, 8.567, 8.637, 8.638, 8.65, 8.75} {
				d, err := thread.MustParse(name).CheckPipeDrill(size(t, fmt.Sprintf("%g mm", mm)), kind)
				p.answer(fmt.Sprintf("%s %v, %g", name, kind, mm), fmt.Sprintf("%v; %.4f turns", d, d.Turns), err)
				if err != nil {
					break
				}
			}
		}
	}
	_, err := thread.Thread{}.CheckPipeDrill(size(t, "8 mm"), thread.ParallelHole)
	p.line("none: %v; %v, %v", err, thread.PipeDrill{}, thread.PipeDrill{}.Suits())
	p.keep(t, "pipes")
}

// Die blanks, hexagons, nuts, charts, holes for forming taps, unions and precautions.
func TestFastenersKept(t *testing.T) {
	var p paper
	for _, name := range append(some, "M1.6", "M1.4", "M64", "M68", "1/2 BSW", "2 1/4 BSW", "3/16 BSW", "12-24 UNC", "1 3/4-5 UNC", "1/4 BSW", "0 BA", "M2.6", "M8x1") {
		th := thread.MustParse(name)
		blank, err := th.DieBlank()
		p.answer(name+", blank", blank, err)
		hexagon, err := th.Hexagon()
		p.answer(name+", hexagon", hexagon, err)
		nut, err := th.NutHeight()
		p.answer(name+", nut", nut, err)
		for _, c := range th.ChartDrills() {
			p.line(" chart %v, %v, %d", c.Tapping, c.Clearance, c.Refs.Len())
		}
		text := ""
		for _, c := range append(th.TappingPrecautions(true), th.TappingPrecautions(false)...) {
			text += " " + string(c.Code)
		}
		p.line("%s", text)
	}
	for _, c := range thread.MustParse("1/16 NPT").TappingPrecautions(true) {
		p.line("%s: %s [%v]", c.Code, c.Text, c.Ref)
	}
	for _, c := range thread.MustParse("M3").TappingPrecautions(false) {
		p.line("%s: %s [%v]", c.Code, c.Text, c.Ref)
	}
	for _, name := range []string{"M3", "M6", "M5", "M10", "4-40 UNC", "1/4-20 UNC", "1/4 BSW", "2 BA"} {
		th := thread.MustParse(name)
		for _, share := range []float64{thread.FormingShare, 1, 0, 1.001, 65} {
			h, err := th.FormingHole(share)
			p.answer(fmt.Sprintf("%s forming %g", name, share), h, err)
			if err != nil {
				continue
			}
			for _, own := range []string{"1-13x0.1 mm", "2 mm, 9 mm"} {
				drill, said := h.Drill(set(t, own))
				p.line(" drill %q of %s", drill.Name, own)
				p.findings(said)
			}
		}
		for _, below := range []float64{0, 0.1, 0.65, 0.6799, 0.6801, 1, 20} {
			share, err := th.FormingDepth(th.Major().Sub(th.Pitch().Scale(below)))
			p.answer(fmt.Sprintf("%s, %g pitches below", name, below), fmt.Sprintf("%.6g", share), err)
		}
	}
	for _, s := range append(thread.ListSeries(), 99) {
		for _, tube := range []float64{0, 0.999, 1, 3.175, 4, 25, 25.001} {
			th, err := s.UnionFor(units.MM(tube))
			p.answer(fmt.Sprintf("%v for %g", s, tube), th, err)
		}
	}
	none := thread.Thread{}
	_, err := none.DieBlank()
	_, errHexagon := none.Hexagon()
	_, errNut := none.NutHeight()
	_, errForming := none.FormingHole(0.65)
	_, errDepth := none.FormingDepth(units.MM(1))
	p.line("none: %v; %v; %v; %v; %v", err, errHexagon, errNut, errForming, errDepth)
	p.keep(t, "fasteners")
}
