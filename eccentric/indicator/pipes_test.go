package indicator

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The demonstration engine, invented, 20 by 25 at 300 rev/min: its pipes at 25 m/s.
func ExampleRunning_SteamPipe() {
	r := demo()
	in, err := r.SteamPipe(25 * units.MetrePerSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	out, err := r.ExhaustPipe(25 * units.MetrePerSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	cubic := func(q units.VolumeFlow) float64 { return q.In(units.CubicCentimetrePerMinute) / 60 }
	fmt.Printf("in  %.0f cm3/s, %.1f mm; %.0f at the most, %.1f mm, so %.0f\n", cubic(in.Flow), in.Bore.MM(), cubic(in.Peak), in.PeakBore.MM(), in.Take.MM())
	fmt.Println("tubes", in.Tubes[0], "or", in.Tubes[1])
	fmt.Printf("out %.0f cm3/s, %.1f mm, so %.0f\n", cubic(out.Flow), out.Bore.MM(), out.Take.MM())
	// Output:
	// in  66 cm3/s, 1.8 mm; 126 at the most, 2.5 mm, so 3
	// tubes 4 mm x 0.5 mm or 3.96875 mm x 0.7112 mm
	// out 197 cm3/s, 3.2 mm, so 4
}

func TestPipeByRule(t *testing.T) {
	for r := range check.Open(t, "eccentric/indicator/pipes.csv").Rows() {
		bore := r.Float("bore_ft") * 0.3048
		piston := 2 * r.Float("stroke_ft") * r.Float("strokes_min") * float64(units.FootPerMinute) // a stroke there is one out and one back
		got := boreFor(math.Pi/4*bore*bore*piston, units.Speed(r.Float("velocity_ft_min"))*units.FootPerMinute)
		r.Compare("share", got/bore)
		run := textbookEngine(units.MM(1000*bore), units.MM(304.8*r.Float("stroke_ft")), 1, 2*r.Float("strokes_min"))
		pipe, err := run.SteamPipe(units.Speed(r.Float("velocity_ft_min")) * units.FootPerMinute)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("share", pipe.Bore.MM()/run.Bore.MM())
	}
}

// The area goes by the flow over the velocity; what is taken is whole millimetres and
// no narrower; the exhaust is wider by the pressures on air and by the volumes on
// steam, which differ by less than a tenth.
func TestPipes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := demo()
		if rapid.Bool().Draw(t, "steam") {
			r.Medium, r.Index = Steam, 1.135
		}
		r.Chest = units.Pressure(rapid.Float64Range(0.3, 10).Draw(t, "chest")) * units.Bar
		r.Speed = units.RotationalSpeed(rapid.Float64Range(50, 3000).Draw(t, "speed")) * units.RevPerMinute
		w := units.Speed(rapid.Float64Range(5, 50).Draw(t, "velocity"))
		in := must(t, func() (Pipe, error) { return r.SteamPipe(w) })
		out := must(t, func() (Pipe, error) { return r.ExhaustPipe(w) })
		for _, p := range []Pipe{in, out} {
			bore := p.Bore.MM() / 1000
			if math.Abs(math.Pi/4*bore*bore*float64(w)/float64(p.Flow)-1) > 1e-6 {
				t.Fatalf("%v at %v", p, w)
			}
			for _, tube := range p.Tubes {
				if tube.Bore().Cmp(p.PeakBore) < 0 {
					t.Fatalf("%v in %v", p, tube)
				}
			}
			if (len(p.Tubes) == 0) != (p.PeakBore.MM() > 13) {
				t.Fatalf("%v has %v", p.PeakBore, p.Tubes)
			}
			if p.Take.Cmp(p.PeakBore) < 0 || p.Take.MM() != math.Round(p.Take.MM()) || p.Take.MM() > p.PeakBore.MM()+1 ||
				p.Peak < p.Flow || p.PeakBore.Cmp(p.Bore) < 0 {
				t.Fatalf("%v", p)
			}
		}
		ratio := float64(out.Flow/in.Flow) / float64(r.Absolute(r.Chest)/r.Absolute(r.Back))
		if r.Medium == Air && math.Abs(ratio-1) > 1e-12 || ratio > 1+1e-12 || ratio < 0.8 {
			t.Fatalf("on %v at %v the exhaust has %v of the pressures' share", r.Medium, r.Chest, ratio)
		}
	})
}

// With an endless rod the piston's speed is a sine, and its most, in the middle of the
// stroke, where one end is open to steam, is that of the crank.
func TestPeakOfASine(t *testing.T) {
	r := demo()
	r.Gear.ConnectingRod = eccentric.InfiniteRod()
	m := r.model()
	want := m.ends[kernel.Head].area * m.stroke / 2 * 10 * math.Pi // area * crank radius * speed
	near(t, "peak", m.peak(kernel.ToSteam, 300*units.RevPerMinute), want, 1e-9*want)
}

// The lists go up, in bore too, and the hoop stress in the widest at 40 bar is what
// the comment says: p * d / (2 * t) by the mean diameter.
func TestTubes(t *testing.T) {
	worst := 0.0
	for _, sold := range [][]Tube{metricTubes(), inchTubes()} {
		for i, tube := range sold {
			if i > 0 && (tube.Bore().Cmp(sold[i-1].Bore()) <= 0 || tube.Outside.Cmp(sold[i-1].Outside) <= 0) {
				t.Errorf("%v after %v", tube, sold[i-1])
			}
			worst = max(worst, 4*(tube.Outside.MM()-tube.Wall.MM())/(2*tube.Wall.MM())) // MPa
		}
	}
	near(t, "stress at 40 bar", worst, 28, 0.5)
}

func TestPipeRefuses(t *testing.T) {
	still, back := demo(), demo()
	still.Speed = 0
	back.Gear.Advance = -154 * units.Degree // the sheave half a turn out
	w := 25 * units.MetrePerSecond
	for name, call := range map[string]func() error{
		"no velocity": func() error { _, err := demo().SteamPipe(0); return err },
		"a breath":    func() error { _, err := demo().SteamPipe(0.5); return err },
		"a shot":      func() error { _, err := demo().ExhaustPipe(120); return err },
		"no number":   func() error { _, err := demo().ExhaustPipe(units.Speed(math.NaN())); return err },
		"no speed":    func() error { _, err := still.SteamPipe(w); return err },
		"a pump":      func() error { _, err := back.SteamPipe(w); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A port that is open for a moment on the way out draws the most where it shuts, to the
// last digit.
func TestPeakOfAShortOpening(t *testing.T) {
	r := demo()
	r.Gear.Travel = units.MM(2.722) // laps of 1.2: open for 56 degrees
	r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)})
	r.Gear.Advance, r.Gear.ConnectingRod, r.Gear.EccentricRod = 82*units.Degree, eccentric.InfiniteRod(), eccentric.InfiniteRod()
	r.PistonRod = units.Length{}
	p, c := got(r.SteamPipe(25)), got(r.Cycle())
	if !c.Head.CutOff.Occurs || c.Head.CutOff.Crank >= math.Pi/2 {
		t.Fatalf("%v", c.Head)
	}
	// V/s at the cut-off: area times half the stroke times sin t times w.
	want := float64(c.Head.Area) * 0.0125 * math.Sin(float64(c.Head.CutOff.Crank)) * 300 * 2 * math.Pi / 60
	near(t, "peak", float64(p.Peak)/want, 1, 1e-9)
}
