package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// At any crank angle no gear of a box lies beyond the limits of valve and ports: dense
// sampling, corners among it, by the kernel's own motion. Without lost motion the gears
// come near to them.
func TestWorstAtHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 16))
	boxes, met, wide := 0, 0, 0
	for range 250 {
		s := anyStudy(random)
		b, err := s.box()
		if err != nil {
			continue
		}
		boxes++
		var cranks []units.Angle
		for range 4 {
			cranks = append(cranks, units.Angle(14*random.Float64()-7))
		}
		places, err := s.WorstAt(cranks...)
		if err != nil {
			t.Fatal(err)
		}
		lost := b.drawn.LostMotion != 0 || b.place(LostMotion) >= 0
		for i, w := range places {
			crank := float64(cranks[i])
			low, high := math.Inf(1), math.Inf(-1)
			within := func(what string, v float64, l Limits) {
				if !(v >= count(l.Min)-1 && v <= count(l.Max)+1) {
					t.Errorf("%s is %v at %v, not within %v to %v", what, v, crank, l.Min, l.Max)
				}
			}
			for range 400 {
				g := b.gear(anySizes(random, &b))
				m := g.Motion()
				o := m.Openings(crank)
				valve := m.TowardsCrank(m.Valve(crank))
				low, high = min(low, valve), max(high, valve)
				within("valve", valve, w.Valve)
				within("head steam", o.Head.Steam, w.Head.Steam)
				within("head exhaust", o.Head.Exhaust, w.Head.Exhaust)
				within("crank steam", o.Crank.Steam, w.Crank.Steam)
				within("crank exhaust", o.Crank.Exhaust, w.Crank.Exhaust)
			}
			if span := count(w.Valve.Max) - count(w.Valve.Min); !lost && span > 1 {
				wide++
				if high-low > 0.9*span {
					met++
				}
			}
		}
		if t.Failed() {
			t.Fatalf("%+v", s)
		}
	}
	t.Logf("%d boxes; %d of %d spans of the valve are met", boxes, met, wide)
	if boxes < 200 || wide < 100 || float64(met) < 0.9*float64(wide) {
		t.Error("too few")
	}
}

// Turned on by an angle, a gear is one with as much more advance, of which Worst has the
// lead: where the port is open and not wide open it is the opening there.
func TestWorstAtIsTheLead(t *testing.T) {
	random := rand.New(rand.NewPCG(18, 16))
	compared := 0
	for range 600 {
		s := anyStudy(random)
		turn := units.Angle(2*math.Pi*random.Float64() - math.Pi)
		ahead := s
		ahead.Gear.Advance = units.Angle(math.Remainder(float64(s.Gear.Advance+turn), 2*math.Pi))
		b, err := s.box()
		if err != nil || b.drawn.LostMotion != 0 || b.place(LostMotion) >= 0 {
			continue
		}
		places, err := s.WorstAt(turn, turn+math.Pi)
		if err != nil {
			t.Fatal(err)
		}
		w, err := ahead.Worst()
		if err != nil {
			t.Fatal(err)
		}
		for i, end := range [...]struct {
			open Limits
			lead WorstLength
			port kernel.End
		}{{places[0].Head.Steam, w.Head.Lead, kernel.Head}, {places[1].Crank.Steam, w.Crank.Lead, kernel.Crank}} {
			for _, pair := range [...][2]units.Length{{end.open.Min, end.lead.Min.Length}, {end.open.Max, end.lead.Max.Length}} {
				if pair[1].Sign() <= 0 && !pair[0].IsZero() {
					t.Errorf("end %d: shut by %v, open by %v", i, pair[1], pair[0])
				}
				if pair[1].Sign() > 0 && pair[0].Cmp(units.MM(1)) < 0 { // no port is as narrow
					compared++
					if off := pair[0].Sub(pair[1]); off.Abs().Cmp(units.Picometres(2)) > 0 {
						t.Errorf("end %d: open by %v, and the lead is %v", i, pair[0], pair[1])
					}
				}
			}
		}
	}
	if compared < 30 {
		t.Errorf("only %d openings compared", compared)
	}
}

// No gear and no angle.
func TestWorstAtNothing(t *testing.T) {
	if _, err := (Study{}).WorstAt(0); err == nil {
		t.Error("no gear is somewhere")
	}
	if _, err := (Study{Gear: demo()}).WorstAt(units.Angle(math.NaN())); err == nil {
		t.Error("no angle")
	}
	if places, err := (Study{Gear: demo()}).WorstAt(); err != nil || places != nil {
		t.Error(places, err)
	}
}
