package spread

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// What each size does by itself is in the order of its harm, and is what the gear does
// that is off by it.
func TestHold(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: usual(t)}
	all, err := s.Hold()
	if err != nil || len(all) != len(s.Tolerances) {
		t.Fatal(all, err)
	}
	for i, h := range all {
		if i > 0 && h.Stroke > all[i-1].Stroke {
			t.Errorf("%v after %v", h, all[i-1])
		}
		stroke, lead := 0.0, 0.0
		for _, by := range []Deviation{h.Tolerance.Lower, h.Tolerance.Upper} { // monotonic, so small
			for end, at := range map[kernel.End]*kernel.EndEvents{kernel.Head: {}, kernel.Crank: {}} {
				drawn, _ := eventWith(s, nil, end, h.Event)
				off, _ := eventWith(s, Combination{{h.Tolerance.Dimension, by}}, end, h.Event)
				if end == kernel.End(h.End) {
					stroke = max(stroke, math.Abs(off.Stroke-drawn.Stroke))
				}
				b, _ := s.box()
				k := b.drawn
				*at = *eventsOf(&k, end)
				v := b.varied[b.place(h.Tolerance.Dimension)]
				v.set(&k, v.drawn+h.Tolerance.Dimension.count(by))
				lead = max(lead, math.Abs(eventsOf(&k, end).Lead-at.Lead))
			}
		}
		if math.Abs(stroke-h.Stroke) > 1e-9 || math.Abs(lead-float64(h.Lead.Picometres())) > 1 {
			t.Errorf("%+v: its gear has %v and %v", h, stroke, lead)
		}
	}
	if first := all[0]; first.Tolerance.Dimension != Advance || first.Text != "cut-off at the crank end by 0.8 % of the stroke, "+
		"the lead by 0.052 mm (2.0 thou)" {
		t.Errorf("first %+v", first)
	}
	// A valve that hardly opens to exhaust may miss it.
	s.Gear.Valve.Cavity = s.Gear.Valve.Cavity.Sub(units.MM(6.35))
	if all, err = s.Hold(); err != nil || !all[0].Missed || !strings.Contains(all[0].Text, "may not happen at all") {
		t.Errorf("%+v, %v", all, err)
	}
	still := Study{Gear: demo(), Tolerances: []Tolerance{within(t, ValveCavity, "0 mm")}}
	if all, err = still.Hold(); err != nil || all[0].Event != 0 || all[0].Text != "nothing that the valve does" {
		t.Errorf("%+v, %v", all, err)
	}
	for _, f := range []func(Study) error{
		func(s Study) error { _, err := s.Hold(); return err }, func(s Study) error { _, err := s.Shares(); return err },
	} {
		if f(Study{}) == nil {
			t.Error("no gear, and no complaint")
		}
	}
}

// The shares make one, and are those of the random run: with a dimension alone the
// square of the width is its share of that with all of them.
func TestShares(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: usual(t), EventsOnly: true, Runs: 60_000}
	shares, err := s.Shares()
	if err != nil {
		t.Fatal(err)
	}
	for _, end := range []func(Share) EndShare{func(s Share) EndShare { return s.Head }, func(s Share) EndShare { return s.Crank }} {
		for _, e := range Events() {
			crank, stroke, lead := 0.0, 0.0, 0.0
			for _, share := range shares {
				crank += end(share).At(e).Crank
				stroke += end(share).At(e).Stroke
				lead += end(share).Lead
			}
			if math.Abs(crank-1) > 1e-12 || math.Abs(stroke-1) > 1e-12 || math.Abs(lead-1) > 1e-12 {
				t.Errorf("%v: %v, %v, lead %v", e, crank, stroke, lead)
			}
		}
	}
	whole, err := s.Random(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	width := func(p Percentiles[units.Angle]) float64 { return float64(p.P95 - p.P05) }
	for i, share := range shares {
		alone := s
		alone.Tolerances = nil
		for _, tol := range s.Tolerances {
			if tol.Dimension == share.Dimension {
				alone.Tolerances = []Tolerance{tol}
			}
		}
		run, err := alone.Random(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		got := width(run.Head.CutOff.Crank) / width(whole.Head.CutOff.Crank)
		if want := shares[i].Head.CutOff.Crank; math.Abs(got*got-want) > 0.03 {
			t.Errorf("%v has %v of the cut-off, the random run %v", share.Dimension, want, got*got)
		}
	}
	// An event that never happens is moved by nothing.
	s.Gear.Valve = s.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2), Exhaust: units.MM(4)})
	if shares, err = s.Shares(); err != nil || shares[0].Head.Release != (EventShare{}) {
		t.Errorf("%+v, %v", shares, err)
	}
}
