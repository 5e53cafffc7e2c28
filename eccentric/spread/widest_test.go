package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// The widest tolerances keep what they must in the worst case of all of them, as
// Worst has it, and none of them can be wider by itself.
func TestWidest(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	count, tight := 0, 0
	for i := range 16 {
		s := Study{Gear: demo(), Tolerances: usual(t)}
		keep := Keep{CutOff: 0.02 * random.Float64(), Lead: units.MM(0.1 * random.Float64())}
		if i > 0 {
			s = aboutDrawing(anyStudy(random))
			keep.Release, keep.Compression = 0.02*random.Float64(), 0.02*random.Float64()
		}
		all, err := s.Widest(keep)
		if err != nil {
			continue
		}
		count++
		wide := s
		wide.Tolerances = nil
		for _, w := range all {
			wide.Tolerances = append(wide.Tolerances, w.Tolerance)
		}
		if most := wanders(t, wide, keep); !(most <= 1+2e-8) {
			t.Fatalf("%v uses up %v of %+v", all, most, keep)
		} else if most > 1-1e-5 {
			tight++
		}
		b, _ := s.box()
		open, err := s.widening(b, keep)
		if err != nil {
			t.Fatal(err)
		}
		factors := make([]float64, len(all)) // before they are rounded to a picometre
		for j, w := range all {
			factors[j] = w.Factor
		}
		if !open.keeps(factors) {
			t.Errorf("%v does not keep %+v", all, keep)
		}
		for j, w := range all {
			if factors[j] *= 1.0001; !w.Free && open.keeps(factors) {
				t.Errorf("%v could be wider", w.Tolerance)
			}
			factors[j] = w.Factor
		}
	}
	if t.Logf("%d allocations, %d of them to the limit", count, tight); count < 10 || tight < 10 {
		t.Error("too few")
	}
}

// aboutDrawing returns the study with tolerances that include the drawing.
func aboutDrawing(s Study) Study {
	for i := range s.Tolerances {
		if tol := &s.Tolerances[i]; tol.Dimension.count(tol.Lower) > 0 {
			tol.Lower = Deviation{}
		}
	}
	return s
}

func TestHeld(t *testing.T) {
	for _, test := range []struct {
		d    Dimension
		by   Deviation
		want string
	}{
		{ValveLength, Deviation{Length: units.MM(0.0219999)}, "0.021 mm"}, {ValveLength, Deviation{Length: units.MM(-0.0219999)}, "-0.021 mm"},
		{ValveLength, Deviation{Length: units.MM(0.022)}, "0.022 mm"}, {ValveLength, Deviation{}, "0"},
		{Advance, Deviation{Angle: 0.4199 * units.Degree}, "0.41 deg"}, {LeverRatio, Deviation{Ratio: -0.00129}, "-0.0012"},
	} {
		if got := (Widened{Tolerance: Tolerance{Dimension: test.d, Upper: test.by}}).Held(units.MM(0.001)).Upper.String(); got != test.want {
			t.Errorf("%v: held to %s, want %s", test.by, got, test.want)
		}
	}
}

// wanders returns how much of what is kept the worst case uses up, by the answer that
// a user gets.
func wanders(t *testing.T, s Study, keep Keep) float64 {
	t.Helper()
	w, err := s.Worst()
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := s.Gear.Events()
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for i, e := range []WorstEnd{w.Head, w.Crank} {
		at := drawn.Head
		if i == 1 {
			at = drawn.Crank
		}
		for _, k := range []struct {
			limits WorstEvent
			at     float64
			keep   float64
		}{{e.CutOff, at.CutOff.Stroke, keep.CutOff}, {e.Release, at.Release.Stroke, keep.Release},
			{e.Compression, at.Compression.Stroke, keep.Compression}} {
			switch {
			case k.keep == 0:
			case !k.limits.Always:
				return math.Inf(1)
			default:
				most = max(most, (k.limits.MaxStroke.Stroke-k.at)/k.keep, (k.at-k.limits.MinStroke.Stroke)/k.keep)
			}
		}
		if !keep.Lead.IsZero() {
			most = max(most, e.Lead.Max.Length.Sub(at.Lead).Ratio(keep.Lead), at.Lead.Sub(e.Lead.Min.Length).Ratio(keep.Lead))
		}
	}
	return most
}

// Worked by hand where things are linear: a lead of r*sin(d) - S within 0.05 mm, of a
// valve +/-0.02 mm, whose half counts, and bars +/-0.03 mm, which count once, is used up
// by 0.2 f + 0.6 g = 1. The sum of 1/f and 1/g is least at f = 1/(sqrt(0.2)*(sqrt(0.2) +
// sqrt(0.6))), g with 0.6 for the first 0.2.
func TestWidestByHand(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: []Tolerance{
		within(t, ValveLength, "0.02 mm"), within(t, PortBar, "0.03 mm"), within(t, ValveCavity, "0.02 mm")}}
	all, err := s.Widest(Keep{Lead: units.MM(0.05)})
	if err != nil {
		t.Fatal(err)
	}
	sum := math.Sqrt(0.2) + math.Sqrt(0.6)
	want := map[Dimension]float64{ValveCavity: 10, ValveLength: 1 / math.Sqrt(0.2) / sum, PortBar: 1 / math.Sqrt(0.6) / sum}
	for _, w := range all {
		d := w.Tolerance.Dimension
		if math.Abs(w.Factor-want[d]) > 1e-4 || w.Free != (d == ValveCavity) {
			t.Errorf("%+v, want %v times", w, want[d])
		}
	}
	for name, bad := range map[string]struct {
		s    Study
		keep Keep
	}{
		"nothing":      {s, Keep{}},
		"below zero":   {s, Keep{CutOff: -0.1}},
		"no number":    {s, Keep{Release: math.NaN()}},
		"no gear":      {Study{}, Keep{CutOff: 0.1}},
		"off the size": {Study{Gear: demo(), Tolerances: []Tolerance{{ValveLength, Deviation{Length: units.MM(-0.2)}, Deviation{Length: units.MM(-0.1)}}}}, Keep{CutOff: 0.1}},
	} {
		if got, err := bad.s.Widest(bad.keep); err == nil {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func BenchmarkWorst(b *testing.B) {
	s := Study{Gear: demo(), Tolerances: usual(b)}
	for b.Loop() {
		if _, err := s.Worst(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWidest(b *testing.B) {
	s := Study{Gear: demo(), Tolerances: usual(b)}
	for b.Loop() {
		if _, err := s.Widest(Keep{CutOff: 0.02, Lead: units.MM(0.15)}); err != nil {
			b.Fatal(err)
		}
	}
}
