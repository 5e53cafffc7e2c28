package spread

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// Tolerances and options at the limits of what is accepted, and a step beyond.
func TestToleranceAtItsLimits(t *testing.T) {
	pm := func(v int64) Deviation { return Deviation{Length: units.Picometres(v)} }
	const kilometre = 1e15
	long := demo()
	long.ConnectingRod, long.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	for _, test := range []struct {
		name    string
		in, out Study
		says    string
	}{
		{"as long as may be", Study{Gear: long, Tolerances: []Tolerance{{Stroke, pm(0), pm(kilometre - 25e9)}}},
			Study{Gear: long, Tolerances: []Tolerance{{Stroke, pm(0), pm(kilometre - 25e9 + 1)}}}, "cylinder.stroke"},
		{"a deviation of a km", Study{Gear: long, Tolerances: []Tolerance{{ValveOffset, pm(-kilometre), pm(kilometre)}}},
			Study{Gear: long, Tolerances: []Tolerance{{ValveOffset, pm(-kilometre - 1), pm(0)}}}, "accepted: up to 1 km"},
		{"one size", Study{Gear: long, Tolerances: []Tolerance{{Travel, pm(5), pm(5)}}},
			Study{Gear: long, Tolerances: []Tolerance{{Travel, pm(5), pm(4)}}}, "the lower deviation is above the upper"},
		{"all of a stroke", Study{Gear: long, Tolerances: []Tolerance{{Stroke, pm(1 - 25e9), pm(0)}}},
			Study{Gear: long, Tolerances: []Tolerance{{Stroke, pm(-25e9), pm(0)}}}, "stroke: missing or zero"},
		{"the most runs", Study{Gear: long, Runs: 1_000_000}, Study{Gear: long, Runs: 1_000_001}, "1 to 1,000,000"},
		{"no workers", Study{Gear: long}, Study{Gear: long, Workers: -1}, "1 or more, or zero for one each core"},
		{"no runs", Study{Gear: long}, Study{Gear: long, Runs: -1}, "or zero for 100,000"},
		{"an angle", Study{Gear: long, Tolerances: []Tolerance{{Advance, Deviation{Angle: -0.1}, Deviation{Angle: 0.1}}}},
			Study{Gear: long, Tolerances: []Tolerance{{Advance, Deviation{}, Deviation{Angle: units.Angle(math.Inf(1))}}}}, "eccentric.advance"},
	} {
		if err := test.in.Validate(); err != nil {
			t.Errorf("%s: %v", test.name, err)
		}
		if err := test.out.Validate(); err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v, want %s", test.name, err, test.says)
		}
	}
	// A chest of 22 mm and a lever of 1.25 may lose all but a little of themselves.
	for _, test := range []struct {
		d        Dimension
		in, out  Deviation
		asLittle bool
	}{
		{ChestLength, pm(1 - 22e9), pm(-22e9), true}, {CrankSteam, pm(1 - 1.8e9), pm(-1.8e9), true},
		{CrankBar, pm(1 - 2.6e9), pm(-2.6e9), true}, {LeverRatio, Deviation{Ratio: -1.125}, Deviation{Ratio: -1.25}, true},
		{LeverRatio, Deviation{Ratio: -1.15}, Deviation{Ratio: -1.16}, false},
	} {
		g := long
		g.Chest, g.LeverRatio, g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(22), 1.25, units.MM(1.8), units.MM(2.6)
		if err := (Study{Gear: g, Tolerances: []Tolerance{{test.d, test.in, Deviation{}}}}).Validate(); err != nil {
			t.Errorf("%v: %v", test.d, err)
		}
		err := Study{Gear: g, Tolerances: []Tolerance{{test.d, test.out, Deviation{}}}}.Validate()
		if err == nil || test.asLittle != strings.Contains(err.Error(), "it leaves nothing of the size") {
			t.Errorf("%v: %v", test.d, err)
		}
	}
}

// What may be kept is a number above zero, of what happens at both ends.
func TestKeepAtItsLimits(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: []Tolerance{within(t, Travel, "0.05 mm")}}
	for _, test := range []struct {
		keep Keep
		says string
	}{
		{Keep{}, "what is kept: missing"}, {Keep{CutOff: -1e-9}, "cut-off that is kept"}, {Keep{Release: math.NaN()}, "release that is kept"},
		{Keep{Compression: math.Inf(1)}, "compression that is kept"}, {Keep{Lead: units.Picometres(-1)}, "lead that is kept"},
	} {
		if _, err := s.Widest(test.keep); err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%v: %v", test.keep, err)
		}
	}
	for _, keep := range []Keep{{CutOff: 1e-3}, {Release: 1e-3}, {Compression: 1e-3}, {Lead: units.Micron(10)}} {
		if all, err := s.Widest(keep); err != nil || len(all) != 1 || !(all[0].Factor > 0) {
			t.Errorf("%v: %v %v", keep, all, err)
		}
	}
	for name, gear := range map[string]func(*eccentric.Gear){
		"head":  func(g *eccentric.Gear) { g.Travel, g.Valve.Offset = units.MM(2.4), units.MM(-0.1) },
		"crank": func(g *eccentric.Gear) { g.Travel, g.Valve.Offset = units.MM(2.4), units.MM(0.1) },
	} {
		other := s
		gear(&other.Gear)
		if _, err := other.Widest(Keep{CutOff: 0.01}); err == nil || !strings.Contains(err.Error(), "none at the "+name+" end") {
			t.Errorf("%s: %v", name, err)
		}
	}
	aside := s
	for _, tolerance := range []Tolerance{
		{Travel, Deviation{Length: units.Picometres(1)}, Deviation{Length: units.MM(0.1)}},
		{Travel, Deviation{Length: units.MM(-0.1)}, Deviation{Length: units.Picometres(-1)}},
	} {
		aside.Tolerances = []Tolerance{tolerance}
		if _, err := aside.Widest(Keep{CutOff: 0.01}); err == nil || !strings.Contains(err.Error(), "it does not include the drawing") {
			t.Error(err)
		}
	}
	for _, side := range []Tolerance{{Travel, Deviation{}, Deviation{Length: units.MM(0.1)}}, {Travel, Deviation{Length: units.MM(-0.1)}, Deviation{}}} {
		aside.Tolerances = []Tolerance{side}
		if _, err := aside.Widest(Keep{CutOff: 0.01}); err != nil {
			t.Error(err)
		}
	}
}

// A size by itself: a lever ten times too wide is free at ten.
func TestWidestAtMostTenTimes(t *testing.T) {
	s := Study{Gear: demo(), Tolerances: []Tolerance{within(t, Travel, "0.05 mm"), within(t, Stroke, "0.01 mm")}}
	all, err := s.Widest(Keep{Lead: units.Micron(10)}) // which the stroke does nothing to
	if err != nil || all[1].Tolerance.Dimension != Travel || all[1].Free || all[0].Factor != most || !all[0].Free {
		t.Fatalf("%v, %v", all, err)
	}
	// The lead of the head end grows by half of sin(26 deg) of the travel, and the slant.
	b, _ := s.box()
	by := s.leads(kernel.Head, s.slope(&b.varied[1], kernel.Head, Admission)) * 0.05
	near := func(what string, got, want, tolerance float64) {
		if !(math.Abs(got-want) <= tolerance) {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	sin, cos := math.Sincos(26 * math.Pi / 180)
	near("lead", by, 0.05*(sin+3.2*cos*cos/math.Sqrt(60*60-3.2*cos*3.2*cos))/2, 1e-9)
	near("factor", all[1].Factor, 0.01/by, 5e-4) // the lead is not quite linear
}

// What does nothing is told so, what does least is told as less than a tenth.
func TestHoldIsTold(t *testing.T) {
	for want, h := range map[string]Hold{
		"nothing that the valve does":                                                                   {},
		"cut-off at the head end by 0.1 % of the stroke":                                                {Event: CutOff, End: eccentric.HeadEnd, Stroke: 0.001},
		"release at the crank end by less than 0.1 % of the stroke":                                     {Event: Release, End: eccentric.CrankEnd, Stroke: 0.0009999},
		"admission at the head end may not happen at all":                                               {Event: Admission, End: eccentric.HeadEnd, Missed: true},
		"the lead by 0.001 mm (0.0 thou)":                                                               {Lead: units.Micron(1)},
		"compression at the head end by 2.5 % of the stroke, the lead by 0.100 mm (3.9 thou)":           {Event: Compression, End: eccentric.HeadEnd, Stroke: 0.025, Lead: units.Micron(100)},
		"compression at the head end may not happen at all, the lead by 0.100 mm (3.9 thou)":            {Event: Compression, End: eccentric.HeadEnd, Missed: true, Lead: units.Micron(100)},
		"admission at the crank end by less than 0.1 % of the stroke, the lead by 1.000 mm (39.4 thou)": {Event: Admission, End: eccentric.CrankEnd, Stroke: 1e-5, Lead: units.MM(1)},
	} {
		if got := h.text(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if got := (&Hold{Lead: units.Micron(1).Sub(units.Picometres(1))}).text(); got != "nothing that the valve does" {
		t.Error(got)
	}
}

// Nothing is asked for by its number alone: each answer's At gives what its fields have,
// and nothing for no event.
func TestAtEachEvent(t *testing.T) {
	w := WorstEnd{Admission: WorstEvent{Ever: true}, CutOff: WorstEvent{Always: true}, Release: WorstEvent{Searched: true}}
	c := Changes{Admission: Change{true, 1, 0}, CutOff: Change{true, 2, 0}, Release: Change{true, 3, 0}, Compression: Change{true, 4, 0}}
	e := EndShare{Admission: EventShare{Crank: 1}, CutOff: EventShare{Crank: 2}, Release: EventShare{Crank: 3}, Compression: EventShare{Crank: 4}}
	s := EndSpread{Admission: EventSpread{Occurs: 0.1}, CutOff: EventSpread{Occurs: 0.2}, Release: EventSpread{Occurs: 0.3}, Compression: EventSpread{Occurs: 0.4}}
	for i, event := range Events() {
		n := float64(i + 1)
		if c.At(event).Crank != units.Angle(n) || e.At(event).Crank != n || s.At(event).Occurs != n/10 {
			t.Errorf("%v: %v %v %v", event, c.At(event), e.At(event), s.At(event))
		}
	}
	if !w.At(Admission).Ever || !w.At(CutOff).Always || !w.At(Release).Searched || w.At(Compression).Ever {
		t.Errorf("%+v", w)
	}
	for _, none := range []Event{0, 5, -1} {
		if w.At(none).Ever || c.At(none).Occurs || e.At(none) != (EventShare{}) || s.At(none).Occurs != 0 {
			t.Errorf("event %d is one", none)
		}
	}
}

// Deviations are written with their unit, and what is nothing as 0.
func TestDeviationsAreWritten(t *testing.T) {
	for want, d := range map[string]Deviation{
		"0": {}, "0.05 mm": {Length: units.MM(0.05)}, "-0.05 mm": {Length: units.MM(-0.05)}, "+0.0100": {Ratio: 0.01}, "-0.0200": {Ratio: -0.02},
		(units.Degree / 2).String(): {Angle: units.Degree / 2},
	} {
		if got := d.String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if got := (Off{ValveLength, Deviation{Length: units.MM(-0.1)}}).String(); got != "valve.length -0.1 mm" {
		t.Error(got)
	}
	if got := (Limits{units.MM(1), units.MM(2)}).String(); got != "1 mm to 2 mm" {
		t.Error(got)
	}
	d := Deviation{Angle: units.Angle(1e-12), Ratio: 0.30000000004}.tidied()
	if d.Angle != 0 || d.Ratio != 0.3 || math.Signbit(float64(Deviation{Angle: -1e-13}.tidied().Angle)) {
		t.Errorf("%v", d)
	}
}

// An event always happens where the valve goes a picometre beyond the edge at the least,
// and ever where it does so at the most; on the edge it does not happen. S is 1.2 mm and
// E 0.3, so that a travel of 2.4 just gets to the steam edges and one of 0.6 to the others.
func TestAlwaysAndEverByAPicometre(t *testing.T) {
	pm := func(v int64) Deviation { return Deviation{Length: units.Picometres(v)} }
	for _, test := range []struct {
		travel       float64 // mm
		lower, upper int64   // pm
		steam        bool
		always, ever bool
	}{
		{2.4, 2, 1e9, true, true, true}, {2.4, 0, 1e9, true, false, true}, {2.4, -1e9, 2, true, false, true}, {2.4, -1e9, 0, true, false, false},
		{0.6, 2, 1e9, false, true, true}, {0.6, 0, 1e9, false, false, true}, {0.6, -1e8, 2, false, false, true}, {0.6, -1e8, 0, false, false, false},
	} {
		g := demo()
		g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
		g.Travel, g.Valve.Cavity = units.MM(test.travel), units.MM(8.4)
		w, err := (Study{Gear: g, Tolerances: []Tolerance{{Travel, pm(test.lower), pm(test.upper)}}}).Worst()
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range []WorstEnd{w.Head, w.Crank} {
			events := []Event{Admission, CutOff}
			if !test.steam {
				events = []Event{Release, Compression}
			}
			for _, e := range events {
				if is := end.At(e); is.Always != test.always || is.Ever != test.ever {
					t.Errorf("%+v: %v always %v, ever %v", test, e, is.Always, is.Ever)
				}
			}
		}
	}
	// And the other way: with a steam clearance of 1.2 mm the port just shuts.
	for lower, always := range map[int64]bool{2: true, 0: false} {
		g := demo()
		g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
		g.Travel, g.Valve.Length, g.Valve.Cavity = units.MM(2.4), units.MM(10.6), units.MM(8.4)
		w, err := (Study{Gear: g, Tolerances: []Tolerance{{Travel, pm(lower), pm(1e9)}}}).Worst()
		if err != nil || w.Head.CutOff.Always != always || w.Crank.Admission.Always != always || !w.Head.CutOff.Ever {
			t.Errorf("from %d: %v %v, %v", lower, w.Head.CutOff.Always, w.Crank.Admission.Always, err)
		}
	}
}

// A size with which an event may not happen is told first, with that event and no more.
func TestHoldOfWhatMayBeMissed(t *testing.T) {
	g := demo()
	g.Travel = units.MM(2.5)
	all, err := (Study{Gear: g, Tolerances: []Tolerance{within(t, ValveCavity, "0.5 mm"), within(t, Travel, "0.3 mm")}}).Hold()
	if err != nil || len(all) != 2 {
		t.Fatal(all, err)
	}
	h := all[0]
	if h.Tolerance.Dimension != Travel || !h.Missed || h.Event != Admission || h.End != eccentric.HeadEnd || h.Stroke != 0 || h.Crank != 0 ||
		!strings.HasPrefix(h.Text, "admission at the head end may not happen at all") {
		t.Errorf("%+v", h)
	}
	if h := all[1]; h.Missed || !(h.Stroke > 0) || !(h.Crank > 0) || !h.Lead.IsZero() {
		t.Errorf("%+v", h)
	}
}

// What is printed has its figures.
func TestPrinted(t *testing.T) {
	for want, got := range map[string]string{
		"valve.length": Tolerance{Dimension: ValveLength}.String(), "always yes": WorstEvent{Always: true}.String(),
		"always yes, ever": Worst{Head: WorstEnd{Admission: WorstEvent{Always: true}}}.String(), "runs 7": Random{Runs: 7}.String(),
		"1 mm to 2 mm": WorstPlace{Valve: Limits{units.MM(1), units.MM(2)}}.String(), "occurs yes": Change{Occurs: true}.String(),
		"dimension eccentric.travel": Sensitivity{Dimension: Travel}.String(), "dimension eccentric.advance": Share{Dimension: Advance}.String(),
		"crank 0.25": EventShare{Crank: 0.25}.String(), "factor 2.5": Widened{Factor: 2.5}.String(), "occurs 0.5": EventSpread{Occurs: 0.5}.String(),
		"valve.cavity": Sensitivities{Sizes: []Sensitivity{{Dimension: ValveCavity}}}.String(), "cylinder.stroke: all": Hold{
			Tolerance: Tolerance{Dimension: Stroke}, Text: "all"}.String(),
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %s", want, got)
		}
	}
}

// Sizes that are each within what can be may not be so together: a rod of 3.5 mm behind a
// lever of 0.85 does not go over its dead centres at a travel of 6.4, though either does
// with the other as large as it may be.
func TestCornerOfRodAndLever(t *testing.T) {
	for _, lever := range []float64{1, -1} {
		for _, rod := range []float64{4, 4.8} {
			g := demo()
			g.EccentricRod, g.LeverRatio = eccentric.RodOf(units.MM(rod)), lever
			s := Study{Gear: g, Tolerances: []Tolerance{
				{EccentricRod, Deviation{Length: units.MM(-0.5)}, Deviation{Length: units.MM(0.5)}},
				{LeverRatio, Deviation{Ratio: -0.15}, Deviation{Ratio: 0.15}},
			}}
			if err := s.Validate(); (err == nil) != (2*(rod-0.5)*0.85 > 6.4) {
				t.Errorf("rod %v, lever %v: %v", rod, lever, err)
			}
		}
	}
}

// Where a lead turns back within a tolerance of the travel its limit is the one of a scan:
// with a rod of 8 mm and an advance of 20 degrees at a travel of 2*8*tan(20) = 5.82 mm, at
// the end that the slant works against.
func TestLeadThatTurnsBack(t *testing.T) {
	for _, inside := range []bool{false, true} {
		g := demo()
		g.Travel, g.EccentricRod, g.Advance = units.MM(5.8), eccentric.RodOf(units.MM(8)), 20*units.Degree
		if g.InsideAdmission = inside; inside {
			g.Valve = eccentric.Valve{Length: units.MM(13), Cavity: units.MM(6.6)}
		}
		w, err := (Study{Gear: g, Tolerances: []Tolerance{within(t, Travel, "0.5 mm")}}).Worst()
		if err != nil {
			t.Fatal(err)
		}
		limits := [2][2]float64{{math.Inf(1), math.Inf(-1)}, {math.Inf(1), math.Inf(-1)}}
		for i := range 1001 {
			at := g
			at.Travel = units.MM(5.3 + float64(i)/1000)
			e, err := at.Events()
			if err != nil {
				t.Fatal(err)
			}
			for end, lead := range []float64{e.Head.Lead.MM(), e.Crank.Lead.MM()} {
				limits[end] = [2]float64{min(limits[end][0], lead), max(limits[end][1], lead)}
			}
		}
		for end, l := range []WorstLength{w.Head.Lead, w.Crank.Lead} {
			if math.Abs(l.Min.Length.MM()-limits[end][0]) > 1e-6 || math.Abs(l.Max.Length.MM()-limits[end][1]) > 1e-6 {
				t.Errorf("inside %v, end %d: %v to %v, by a scan %v", inside, end, l.Min.Length, l.Max.Length, limits[end])
			}
		}
	}
}
