package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
)

// The engines of these tests do what gears do that are as drawn, to the steps in which
// they turn.
func TestEngineAsDrawn(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	worst := 0.0
	for range 500 {
		d := anyDrawing(r)
		events, err := d.gear().Events()
		if err != nil {
			t.Fatal(err)
		}
		e := d.built(mistakes{})
		for end, is := range []eccentric.EndEvents{events.Head, events.Crank} {
			for _, event := range []struct {
				eccentric.Event
				to    side
				opens bool
			}{
				{is.Admission, toSteam, true}, {is.CutOff, toSteam, false},
				{is.Release, toExhaust, true}, {is.Compression, toExhaust, false},
			} {
				at, happens := e.passes(end, event.to, event.opens)
				if happens != event.Occurs {
					t.Fatalf("%+v: end %d: %v, want %v", d, end, happens, event.Occurs)
				}
				if happens {
					worst = max(worst, math.Abs(math.Remainder(at-centre(end)-float64(event.Crank), 2*math.Pi)))
					near(t, "piston", e.piston(end, at), event.Stroke, 1e-4)
				}
			}
			near(t, "lead", e.past(end, toSteam, e.at(centre(end))), is.Lead.MM(), 2e-4)
			near(t, "opening", e.greatest(end, toSteam), is.Opening.MM(), 1e-3)
			near(t, "exhaust opening", e.greatest(end, toExhaust), is.ExhaustOpening.MM(), 1e-3)
		}
	}
	if worst > 2e-4 {
		t.Errorf("events are off by %.3g rad", worst)
	}
}

// The signatures of thirteen single faults, by a script of another hand, are those of
// these engines.
func TestEngineSignatures(t *testing.T) {
	for r := range check.Open(t, "eccentric/fault_signatures.csv").Rows() {
		d, m := signature(r)
		e := d.built(m)
		for end, name := range []string{"head", "crank"} {
			at := func(to side, opens bool) float64 { angle, _ := e.passes(end, to, opens); return angle }
			// By steps of a degree, so that a turn of the valve is met to 1e-4 of its travel.
			r.Within(name+"_lead", e.lead(end), 2e-4)
			r.Within(name+"_open", e.greatest(end, toSteam), 1e-3)
			turn := (at(toSteam, true)-centre(end))*180/math.Pi - r.Float(name+"_adm")
			near(t, r.ID+" admission", math.Remainder(turn, 360), 0, 0.002)
			r.Within(name+"_cut", 100*e.piston(end, at(toSteam, false)), 1e-3)
			r.Within(name+"_rel", 100*e.piston(end, at(toExhaust, true)), 1e-3)
			r.Within(name+"_clo", 100*e.piston(end, at(toExhaust, false)), 1e-3)
		}
	}
}

// signature returns the gear of the table, and what is wrong in that row.
func signature(r *check.Row) (*drawing, mistakes) {
	const travel, steam, exhaust, port, bar, middle = 6, 2, 0.3, 2.5, 2.5, 5
	d := &drawing{
		stroke: 25, rod: 62.5, travel: travel, advance: math.Asin(2.15/3) * 180 / math.Pi,
		port: [2]float64{port, port}, bar: [2]float64{bar, bar}, exhaust: middle,
		length: middle + 2*bar + 2*port + 2*steam, cavity: middle + 2*bar - 2*exhaust,
	}
	m := mistakes{
		sheave: r.Float("half_travel") - travel/2., valveSteam: r.Float("steam_lap") - steam,
		valveExhaust: r.Float("exhaust_lap") - exhaust,
	}
	switch turned := r.Optional("turned"); turned {
	case "":
	case "mirrored":
		m.advance = 180 - 2*d.advance
	case "in line":
		m.advance = -90 - d.advance
	case "square":
		m.advance = -d.advance
	default:
		m.advance = r.Float("turned")
	}
	if r.Has("shift") {
		m.offset = r.Float("shift")
	}
	return d, m
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.6g, want %.6g within %.2g", what, got, want, tolerance)
	}
}
