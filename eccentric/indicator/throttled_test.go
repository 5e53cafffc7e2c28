package indicator

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// At a crawl nothing is lost; the faster it runs, the earlier the ports count as shut,
// at the opening that the rule wants, and the less work is left.
func TestThrottled(t *testing.T) {
	r := demo()
	ideal, err := r.Cycle()
	if err != nil {
		t.Fatal(err)
	}
	last := ideal
	for _, rev := range []units.RotationalSpeed{0.001, 100, 300, 600, 1000, 2300} {
		r.Speed = rev * units.RevPerMinute
		c, err := r.Throttled(throttling)
		if err != nil {
			t.Fatal(err)
		}
		if rev < 1 {
			near(t, "work at a crawl", float64(c.Work), float64(ideal.Work), 1e-5*float64(ideal.Work))
		} else if c.Work >= last.Work || c.Head.CutOff.Crank >= last.Head.CutOff.Crank || c.Crank.Compression.Crank >= last.Crank.Compression.Crank {
			t.Errorf("at %v: %v after %v", r.Speed, c, last)
		}
		last = c
		open, err := r.Gear.OpeningsAt(c.Head.CutOff.Crank)
		if err != nil {
			t.Fatal(err)
		}
		mean := 2 * r.Gear.Stroke.MM() / 1000 * r.Speed.In(units.RevPerSecond)
		through := mean * float64(c.Head.Area) * 1e6 / (open.Head.Steam.MM() * r.Gear.Ports.Length.MM())
		if rev > 1 {
			near(t, "velocity at the effective cut-off, m/s", through, float64(throttling), 1e-5)
		}
		piston, err := r.Gear.PistonPosition(c.Head.CutOff.Crank)
		near(t, "stroke there", c.Head.CutOff.Stroke, piston.Ratio(r.Gear.Stroke), 1e-9)
		if err != nil {
			t.Fatal(err)
		}
	}
	r.Speed = 5000 * units.RevPerMinute
	_, err = r.Throttled(throttling)
	check.Refuses(t, "much too fast", err, units.ErrOutOfRange, "throttles all the way to steam; accepted: below 2329 rev/min")
	r.Speed = 300 * units.RevPerMinute
	_, err = r.Throttled(0)
	check.Refuses(t, "no limit", err, units.ErrOutOfRange, "limit of velocity")
	r.Gear.Ports.Length = units.Length{}
	_, err = r.Throttled(throttling)
	check.Refuses(t, "no port length", err, units.ErrMissing, "port length")
}

// Of any engine the ports count as shut no later than they are.
func TestThrottledIsEarlier(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		r.Speed = units.RotationalSpeed(rapid.Float64Range(10, 600).Draw(t, "rev/min")) * units.RevPerMinute
		ideal, err := r.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		c, err := r.Throttled(8000 * units.FootPerMinute)
		if err != nil {
			return
		}
		tried++
		for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
			a, b := ideal.At(end), c.At(end)
			if b.CutOff.Crank > a.CutOff.Crank || b.Compression.Crank > a.Compression.Crank || b.Admission.Crank != a.Admission.Crank ||
				b.CutOff.Occurs && b.CutOff.Crank < b.Admission.Crank || !(b.Lowest > 0) || math.IsNaN(float64(b.Work)) {
				t.Fatalf("%v: %v, and without: %v", end, b, a)
			}
		}
	})
	if tried < 5 {
		t.Errorf("only %d engines", tried)
	}
}

func BenchmarkCycle(b *testing.B) {
	r := demo()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Cycle(); err != nil {
			b.Fatal(err)
		}
		if _, err := r.Points(360); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTurning(b *testing.B) {
	r := demo()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Turning(); err != nil {
			b.Fatal(err)
		}
	}
}
