package symptom

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// A sheet is what is kept, line by line; a line that is the same for several engines or
// questions stands with the first of them.
type sheet struct {
	strings.Builder
	told map[string]bool
}

func (s *sheet) line(format string, values ...any) {
	for i, v := range values {
		if x, ok := v.(float64); ok && math.Abs(x) < 1e-9 { // what rounding leaves of nothing
			values[i] = 0.0
		}
	}
	text := fmt.Sprintf(format, values...)
	if s.told == nil {
		s.told = map[string]bool{}
	}
	if !s.told[text] {
		s.told[text] = true
		s.WriteString(text + "\n")
	}
}

// keptEngines are invented engines of several makes.
func keptEngines() map[string]indicator.Running {
	all := map[string]indicator.Running{"demo": demo()}
	with := func(name string, change func(r *indicator.Running)) {
		r := demo()
		change(&r)
		all[name] = r
	}
	with("twin", func(r *indicator.Running) {
		r.Cranks, r.PistonRod = []units.Angle{90 * units.Degree}, units.Length{}
		r.Medium, r.Index, r.Chest, r.Back = indicator.Steam, 1.135, 4*units.Bar, 0.2*units.Bar
		r.Clearance = indicator.Shares{Head: 0.06, Crank: 0.11}
	})
	with("inside", func(r *indicator.Running) {
		r.Gear.InsideAdmission, r.Gear.LeverRatio = true, -1.2
		r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(0.2), Exhaust: units.MM(1.2)})
		r.Gear.Ports.CrankSteam = units.MM(1.9)
	})
	return all
}

// How surely each fault shows each symptom, in hundredths, on engines of several makes:
// the cycle of a fault has its tests, the figures for what a builder notices are our
// own, and this tells of any change in either.
func TestShownIsKept(t *testing.T) {
	var s sheet
	for _, name := range slices.Sorted(maps.Keys(keptEngines())) {
		c := Case{Running: keptEngines()[name], Symptoms: []Symptom{WrongWay}}
		x := newExplainer(&c)
		s.line("== %s", name)
		for _, of := range slices.Concat(misplaced(c.Running.Gear), worn(c.Running.Gear)) {
			if name != "demo" && len(of.sizes) == 1 && of.sizes[0] == (state{gear: c.Running.Gear}) {
				continue // it does nothing to the cycle
			}
			text := ""
			for i := range of.sizes {
				o := x.outcome(&of.sizes[i])
				text += " |"
				for symptom, by := range shows(&o, &x.drawn, x.number) {
					if by >= 0.0005 {
						text += fmt.Sprintf(" %d:%.3g", symptom, by)
					}
				}
			}
			s.line("%s, %s%s", of.fault, of.name(), text)
		}
	}
	check.Kept(t, "eccentric/diagnosis/symptom/kept/shown.txt", s.String())
}

// What a turn of the cycle comes to with each fault, slowly and fast.
func TestTurnsAreKept(t *testing.T) {
	var s sheet
	for _, name := range slices.Sorted(maps.Keys(keptEngines())) {
		r := keptEngines()[name]
		p := newPlayer(&r)
		s.line("== %s", name)
		for _, of := range worn(r.Gear) {
			for i := range of.sizes {
				for _, at := range []pace{slowly, atSpeed} {
					turn := p.play(&of.sizes[i], at)
					text := ""
					if at == slowly {
						on, against := pushed(turn.rest, 0.02)
						text = fmt.Sprintf(", blows %.4g, pushed %.4g on and %.4g back, falls %.4g", turn.blows, on, against, turn.fall(0.05))
					}
					s.line("%s %d %d: work %.4g, use %.4g, beats %.4g, highest %.4g, uneven %.4g, knocks %.4g%s", of.fault, i, at, turn.work,
						turn.use, turn.beat, turn.highest, turn.uneven(), turn.knocks(), text)
				}
			}
		}
	}
	check.Kept(t, "eccentric/diagnosis/symptom/kept/turns.txt", s.String())
}

func (s *sheet) explanation(t *testing.T, name string, c Case, most int) {
	t.Helper()
	e := explained(t, c)
	s.line("== %s: %v", name, c.Symptoms)
	for i, x := range e.Causes {
		if i >= most {
			break
		}
		s.line("%d %s %v %s: fits %.4g, share %.4g, lacks %v, also %v", i+1, x.Fault, x.End, x.Way, x.Fits, x.Share, x.Lacks, x.Also)
		s.line("  %s | %s", x.Text, x.Cure)
		s.line("  %v, ear %v: %s", x.Test.Effort, x.Test.Ear, x.Test.Text)
	}
	for _, f := range e.Findings {
		s.line("  %s %v: %s | %s", f.Code, f.Severity, f.Text, strings.Join(f.Remedies, " | "))
	}
	for _, p := range e.Precautions {
		s.line("  %s: %s", p.Code, p.Text)
	}
}

// What is made of each symptom alone and of some together, with readings and without:
// the faults in order, what each lacks and shows besides, the test that parts it from
// the first, and what is to be minded.
func TestExplanationsAreKept(t *testing.T) {
	var s sheet
	engines := keptEngines()
	for i, symptom := range Symptoms() {
		name := []string{"demo", "twin", "inside"}[i%3]
		s.explanation(t, name, Case{Running: engines[name], Symptoms: []Symptom{symptom}}, 4)
	}
	for _, told := range [][]Symptom{
		{Knocks, RanWell}, {BeatsUneven, Weak, StopsAtCentre, NeedsAPush}, {WillNotTurn, HissesStanding}, {TurnsWithShut, BlowsAtGland},
		{StiffByHand, SpitsWater}, {Weak, UsesMuch, HissesInPlaces, BeatsChange}, {JerksOnly, RanWell, Knocks},
	} {
		s.explanation(t, "demo", Case{Running: engines["demo"], Symptoms: told}, 3)
	}
	for i, fault := range []string{"advance", "valve_off_centre", "lost_motion", "eccentric_other_hand", "as_drawn", "steam_lap"} {
		run := engines["demo"]
		var wrong eccentric.Gear
		for _, of := range misplaced(run.Gear) {
			if of.fault == fault {
				wrong = of.sizes[min(1, len(of.sizes)-1)].gear
				break
			}
		}
		d := diagnosed(t, run.Gear, wrong)
		for _, told := range [][]Symptom{{BeatsUneven, Weak}, {StiffByHand}} {
			s.explanation(t, fmt.Sprintf("readings of %s, %d", fault, i), Case{Running: run, Symptoms: told, Readings: &d}, 3)
		}
	}
	check.Kept(t, "eccentric/diagnosis/symptom/kept/explanations.txt", s.String())
}

// diagnosed reads all events, the leads and the travel of a gear that is not as drawn.
func diagnosed(t *testing.T, drawn, stands eccentric.Gear) diagnosis.Diagnosis {
	t.Helper()
	c := diagnosis.Case{Gear: drawn}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		for _, kind := range []diagnosis.Kind{
			diagnosis.Admission, diagnosis.CutOff, diagnosis.Release, diagnosis.Compression, diagnosis.Lead, diagnosis.OpensNext,
		} {
			r := diagnosis.Reading{Kind: kind, End: end}
			if kind == diagnosis.OpensNext {
				r.Opens = diagnosis.Steam
			}
			on, err := r.On(stands)
			if err != nil {
				t.Fatal(err)
			}
			c.Readings = append(c.Readings, on)
		}
	}
	d, err := c.Diagnose()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Names, efforts, and what an ear decides.
func TestNamesOfSymptoms(t *testing.T) {
	if n := len(Symptoms()); n != 21 || Symptoms()[0] != WillNotTurn || Symptoms()[20] != RanWell {
		t.Errorf("%d symptoms: %v", n, Symptoms())
	}
	var s sheet
	for _, symptom := range Symptoms() {
		s.line("%d %v, heard %v, still %v, turning %v, hisses %v", symptom, symptom, symptom.Heard(), symptom.still(), symptom.turning(),
			symptom.hisses())
		var not []Symptom
		for _, other := range Symptoms() {
			if exclude(symptom, other) != exclude(other, symptom) {
				t.Errorf("%v excludes %v, but not the other way", symptom, other)
			}
			if exclude(symptom, other) {
				not = append(not, other)
			}
		}
		s.line("  not with %v", not)
	}
	for _, e := range Efforts() {
		data, err := json.Marshal(e)
		var back Effort
		if err != nil || json.Unmarshal(data, &back) != nil || back != e {
			t.Errorf("%v came back from %s as %v", e, data, back)
		}
		s.line("%d %v: %s", e, e, watching[e])
	}
	var none Symptom
	if err := none.UnmarshalText(nil); err == nil {
		t.Error("no symptom is one")
	}
	for _, text := range []string{"wont turn", "stops", "hiss", "runs", "w", "", "the exhaust", "turns the wrong", "jerk without turn"} {
		s.line("near %q: %v", text, near(text))
	}
	for _, v := range []float64{-64, 0, 116.4} {
		s.line("%v: %s; %s; %s", v, ahead(v), degrees(v), length(v))
	}
	c := Case{Running: demo(), Symptoms: []Symptom{Weak}}
	e := explained(t, c)
	for name, v := range map[string]fmt.Stringer{"symptoms": c, "causes": e, "fault": e.Causes[0], "effort": e.Causes[1].Test} {
		if text := v.String(); !strings.Contains(text, name) {
			t.Errorf("no %s in %q", name, text)
		}
	}
	check.Kept(t, "eccentric/diagnosis/symptom/kept/names.txt", s.String())
}

// What cannot be asked.
func TestRefusesCases(t *testing.T) {
	for name, test := range map[string]struct {
		c    Case
		want string
	}{
		"no engine":       {Case{Symptoms: []Symptom{Weak}}, "bore: missing"},
		"nothing told":    {Case{Running: demo()}, "one or more of will not turn, jerks without turning"},
		"unknown":         {Case{Running: demo(), Symptoms: []Symptom{Weak, 22}}, "symptom"},
		"none":            {Case{Running: demo(), Symptoms: []Symptom{0}}, "symptom"},
		"twice":           {Case{Running: demo(), Symptoms: []Symptom{Weak, Knocks, Weak}}, "it is told twice"},
		"still and turns": {Case{Running: demo(), Symptoms: []Symptom{Weak, WillNotTurn}}, `no engine "weak" and "will not turn" at once`},
		"two hisses": {Case{Running: demo(), Symptoms: []Symptom{HissesInPlaces, HissesStanding}},
			`no engine "hisses in some positions" and "hisses at the exhaust standing still" at once`},
		"no diagnosis": {Case{Running: demo(), Symptoms: []Symptom{Weak}, Readings: &diagnosis.Diagnosis{}}, "suspects of the readings"},
	} {
		if _, err := test.c.Explain(); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", name, err, test.want)
		}
	}
}

// A ramp is 0 up to the one value and 1 from the other on, and straight between.
func TestRamp(t *testing.T) {
	for _, test := range []struct{ v, from, to, want float64 }{
		{0.5, 1, 2, 0}, {1, 1, 2, 0}, {1.25, 1, 2, 0.25}, {2, 1, 2, 1}, {3, 1, 2, 1}, {0.9, 0.95, 0.6, 0.05 / 0.35}, {0.5, 0.95, 0.6, 1}, {1, 0.95, 0.6, 0},
	} {
		if got := ramp(test.v, test.from, test.to); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("ramp(%v, %v, %v) = %v, want %v", test.v, test.from, test.to, got, test.want)
		}
	}
}

// The wheel gives what the moment lacks in the longest want of a turn, also through the
// dead centre.
func TestFall(t *testing.T) {
	of := func(moment func(i int) float64) *turn {
		u := &turn{moment: make([]float64, steps)}
		for i := range u.moment {
			u.moment[i] = moment(i)
		}
		return u
	}
	for name, test := range map[string]struct {
		turn           *turn
		friction, want float64
	}{
		"always driven": {of(func(int) float64 { return 1 }), 0.5, 0},
		"a quarter not, through the dead centre": {of(func(i int) float64 {
			if i < steps/8 || i >= steps*7/8 {
				return 0
			}
			return 1
		}), 0.5, 0.5 * math.Pi / 2},
		"two wants with a small gain between": {of(func(i int) float64 {
			switch {
			case i < 100, i >= 110 && i < 210:
				return -1
			case i < 110:
				return 2
			}
			return 1
		}), 0, (100 - 20 + 100) * dt},
	} {
		if got := test.turn.fall(test.friction); math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
	on, against := pushed(of(func(i int) float64 { return float64(i%4) - 1.5 }).rest, 0)
	if on != 0 || against != 0 {
		t.Errorf("nothing pushes: %v, %v", on, against)
	}
	rest := make([]float64, steps)
	for i := range rest {
		rest[i] = []float64{-2, -1, 1, 2}[i%4]
	}
	if on, against := pushed(rest, 1); math.Abs(on-0.25) > 1e-9 || math.Abs(against-0.25) > 1e-9 {
		t.Errorf("a quarter each: %v, %v", on, against)
	}
}

// Beats differ in strength or in their places, over a quarter of a turn and over the
// dead centre too; one that is missing counts for six tenths.
func TestUneven(t *testing.T) {
	of := func(head, crank, a, b float64, both bool) *turn {
		u := &turn{}
		u.releases[kernel.Head], u.releases[kernel.Crank] = true, both
		u.beat[kernel.Head], u.beat[kernel.Crank] = head, crank
		u.release[kernel.Head], u.release[kernel.Crank] = a*math.Pi/180, b*math.Pi/180
		return u
	}
	for name, test := range map[string]struct {
		turn *turn
		want float64
	}{
		"alike": {of(0.8, 0.8, 150, 150, true), 0}, "in strength": {of(0.8, 0.5, 150, 153, true), 0.3},
		"in place": {of(0.8, 0.7, 150, 168, true), 0.2}, "over the dead centre": {of(0.8, 0.8, 175, -176, true), 0.1},
		"one alone": {of(0.8, 0, 150, 0, false), 0.08 + 0.6*(0.35-0.08)},
	} {
		if got := test.turn.uneven(); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// Of each fault the one that fits best is left, of equals the first, in the order of
// the faults.
func TestOneOfEachFault(t *testing.T) {
	of := func(fault, way string, weight float64) candidate {
		return candidate{suspect: suspect{fault: fault, way: way}, weight: weight}
	}
	one := new(explainer).oneEach([]candidate{
		of("advance", "a", 0.2), of("advance", "b", 0.5), of("travel", "a", 0.3), of("advance", "c", 0.5), of("travel", "b", 0.1),
	})
	if len(one) != 2 || one[0].fault != "advance" || one[0].way != "b" || one[1].fault != "travel" || one[1].way != "a" {
		t.Errorf("%+v", one)
	}
}
