package wires_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s: %s", f.Severity, f.Code, f.Text)
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

// The wires of threads of every form, what is measured over the best of them with each
// correction, its window, and each bound just inside and just outside. Kept for its texts
// and edges; the other tests have figures of handbooks.
func TestWiresKept(t *testing.T) {
	var p paper
	um := units.Micron(0.001)
	for _, name := range []string{"M6", "M20", "2 BA", "1/4 BSW", "1/4-20 UNC", "1/2x26 BSC", "G 1/8", "Tr 10x2", "1-5 Acme", "Tr 40x7", "1/8 NPT"} {
		th := thread.MustParse(name)
		r, err := wires.RangeOf(th)
		p.line("%s: %v %v %v, %v", name, r.Min, r.Best, r.Max, err)
		if err != nil {
			_, err = wires.Set{Thread: th, Wire: units.MM(0.5)}.Over(th.PitchDiameter())
			p.line(" %v", err)
			continue
		}
		for _, wire := range []units.Length{r.Min.Sub(um), r.Min, r.Max, r.Max.Add(um), {}} {
			p.line(" %v: serves %v", wire, r.Contains(wire))
		}
		for _, c := range append(wires.LeadCorrections(), 3, -1) {
			s := wires.Set{Thread: th, Wire: r.Best, Lead: c}
			m, err := s.Measure(th.PitchDiameter())
			p.line(" %v: %v, %v", c, m, err)
			back, err := s.PitchDiameter(m.Over)
			p.line("  back %.6f, %v", back.MM(), err)
		}
		s := wires.Set{Thread: th, Wire: r.Best}
		low, high := th.Major().Sub(th.Depth().Scale(2)), th.Major()
		for _, e := range []units.Length{low, low.Add(um), high.Sub(um), high, {}} {
			over, err := s.Over(e)
			p.line(" pitch diameter %v: %v, %v", e, over, err)
		}
		over, err := s.Over(th.PitchDiameter())
		if err != nil {
			t.Fatal(err)
		}
		for _, off := range []float64{0.999, 1.001, 50} {
			for _, sign := range []float64{1, -1} {
				e, err := s.PitchDiameter(over.Add(th.Depth().Scale(off * sign)))
				p.line(" %+g depths off: %v, %v", off*sign, e, err)
			}
		}
		if _, err := (wires.Set{Thread: th, Wire: r.Max.Add(um)}).Over(th.PitchDiameter()); err != nil {
			p.line(" %v", err)
		}
		class, _ := th.UsualClasses()
		limits, err := th.Limits(class)
		if err != nil {
			continue
		}
		w, err := s.Window(limits.PitchDiameter)
		p.line(" window %v to %v, %v", w.Min, w.Max, err)
		for _, over := range []units.Length{w.Min.Sub(um), w.Min, w.Max, w.Max.Add(um), w.Max.Add(units.MM(0.02)), w.Min.Sub(units.MM(0.02))} {
			p.line(" measures %v: good %v", over, w.Contains(over))
			p.findings(w.Check(over))
		}
	}
	s := wires.Set{Thread: thread.MustParse("M6"), Wire: units.MM(0.58)}
	for _, r := range []thread.Range{
		{}, {Min: units.MM(5.3), Max: units.MM(5.2)}, {Min: units.MM(5.3), Max: units.MM(5.3)}, {Min: units.MM(5.3)}, {Max: units.MM(5.3)},
		{Min: units.MM(5.3), Max: units.MM(7)}, {Min: units.MM(4), Max: units.MM(5.3)},
	} {
		w, err := s.Window(r)
		p.line("window of %v: %v to %v, %v", r, w.Min, w.Max, err)
	}
	_, err := s.PitchDiameter(units.MM(1e6))
	p.line("far: %v", err)
	_, err = wires.RangeOf(thread.Thread{})
	_, errOver := wires.Set{Wire: units.MM(1)}.Over(units.MM(1))
	_, errBack := wires.Set{Wire: units.MM(1)}.PitchDiameter(units.MM(1))
	p.line("none: %v; %v; %v", err, errOver, errBack)
	check.Kept(t, "thread/wires/kept/wires.txt", check.Rounded(p.String()))
}

// A wire of the least diameter stands flush with the crest: over three of them the
// micrometer reads the major diameter, whatever the form.
func TestLeastWireIsFlush(t *testing.T) {
	for _, series := range thread.ListSeries() {
		for th := range series.All() {
			r, err := wires.RangeOf(th)
			if err != nil {
				continue
			}
			over, err := wires.Set{Thread: th, Wire: r.Min}.Over(th.PitchDiameter())
			if off := over.Sub(th.Major()).MM(); err != nil || math.Abs(off) > 1e-8 {
				t.Errorf("%v: %v over wires of %v, the major diameter is %v, %v", th, over, r.Min, th.Major(), err)
			}
		}
	}
}
