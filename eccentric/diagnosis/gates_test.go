package diagnosis

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// searchOf is a search on the plain gear with so many readings of its travel.
func searchOf(readings int) *search {
	c := Case{Gear: modelGears()["plain"]}
	for range readings {
		c.Readings = append(c.Readings, Reading{Kind: Travel, Length: units.MM(6.4)})
	}
	return newSearch(&c)
}

// Sure is what has odds over 20 to 1, of one part; that nothing is wrong takes 50 to 1
// with less than ten readings: our own choice.
func TestWhatIsSure(t *testing.T) {
	for _, test := range []struct {
		name     string
		readings int
		first    key
		odds     float64
		sure     bool
	}{
		{"a part", 6, key{fault: WrongTravel}, 20.01, true}, {"hardly a part", 6, key{fault: WrongTravel}, 19.99, false},
		{"nothing", 9, key{fault: AsDrawn}, 50.01, true}, {"hardly nothing", 9, key{fault: AsDrawn}, 49.99, false},
		{"nothing, of many readings", 10, key{fault: AsDrawn}, 20.01, true},
		{"hardly, of many", 10, key{fault: AsDrawn}, 19.99, false},
		{"a pair", 10, key{fault: WrongTravel, also: LostMotion}, 1000, false},
	} {
		s := searchOf(test.readings)
		first, other := s.hypothesis(nil, 1), s.hypothesis(nil, 1, &s.wide[2])
		for i := range s.wide {
			if test.first.fault == WrongTravel && s.wide[i].part.Fault == WrongTravel {
				first = s.hypothesis(nil, 1, &s.wide[i])
				if test.first.also != 0 {
					first = s.hypothesis(nil, 1, &s.wide[i], &s.wide[4])
				}
			}
		}
		w := weigh([]fit{{of: first, at: s.drawn, evidence: math.Log(test.odds)}, {of: other, at: s.drawn}})
		if got := s.sure(&w, test.first); got != test.sure {
			t.Errorf("%s at %v to 1 with %d readings: %v", test.name, test.odds, test.readings, got)
		}
	}
}

// A reading stands alone from 3.5 standard deviations on, with what it holds of the fit
// itself taken off it, a tenth at the least.
func TestStandsAlone(t *testing.T) {
	for _, side := range []float64{-1, 1} {
		for _, off := range []float64{3.4999, 3.5001} {
			s := searchOf(1)
			m := &s.read[0]
			m.value += side * off * m.sd
			f := &fit{at: s.drawn}
			if got := s.agree(f); got != (off < 3.5) {
				t.Errorf("a reading that is %v off: agrees %v", side*off, got)
			}
			if got := s.alone(m, f); !nearly(got, off, 1e-9) {
				t.Errorf("alone by %v, want %v", got, off)
			}
			if got := s.off(m, &s.drawn); !nearly(got, off, 1e-9) {
				t.Errorf("off by %v, want %v", got, off)
			}
		}
	}
	r := row{off: -2, slope: vector{reach: 1}}
	for held, want := range map[float64]float64{0: 2, 0.75: 4, 0.99: 20, 0.9999: 20, 1.5: 20} {
		f := fit{}
		f.spread[reach][reach] = held
		if got := r.alone(&f); !nearly(got, want, 1e-9) {
			t.Errorf("with %v of it held: %v, want %v", held, got, want)
		}
	}
}

// Readings are to be taken again that are plainly wrong with a chance over a twentieth,
// the likeliest first, if all taken together have no more than half of it and the others
// fit.
func TestSuspected(t *testing.T) {
	s := searchOf(4)
	h := s.hypothesis(nil, 1)
	for _, test := range []struct {
		name  string
		share [5]float64 // of all readings, and without each
		cost  float64
		want  []int
	}{
		{"two", [5]float64{0.2, 0.06, 0.04, 0.6, 0.1}, 1, []int{2, 3, 0}},
		{"nearly half for all", [5]float64{0.499, 0, 0, 0.501, 0}, 1, []int{2}},
		{"over half for all", [5]float64{0.501, 0, 0, 0.499, 0}, 1, nil},
		{"a twentieth", [5]float64{0.4, 0.0501, 0.0499, 0.4, 0.1}, 1, []int{2, 3, 0}},
		{"the others do not fit", [5]float64{0.2, 0.06, 0.04, 0.6, 0.1}, 8.2, nil},            // chi-square 16.4 with three: 0.0009
		{"the others hardly fit", [5]float64{0.2, 0.06, 0.04, 0.6, 0.1}, 8.1, []int{2, 3, 0}}, // 16.2: 0.00103
	} {
		s.fits = nil
		for without, share := range test.share {
			if share > 0 {
				s.fits = append(s.fits, fit{of: h, at: s.drawn, without: without, cost: test.cost, evidence: math.Log(share / 2)},
					fit{of: h, at: s.drawn, without: without, cost: 50, evidence: math.Log(share / 2)})
			}
		}
		if got := s.suspected(weigh(s.fits)); !slices.Equal(got, test.want) {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
	}
}

// Sheaves within 15 degrees stand in one place, over the half turn too.
func TestNearPlaces(t *testing.T) {
	for _, test := range []struct {
		a, b float64
		near bool
	}{{10, 24.99, true}, {10, 25.01, false}, {175, -170.01, true}, {175, -169.99, false}, {-3, 720, true}} {
		var a, b fit
		a.at[advance], b.at[advance] = test.a*math.Pi/180, test.b*math.Pi/180
		if near(&a, &b) != test.near || near(&b, &a) != test.near {
			t.Errorf("%v and %v: %v", test.a, test.b, near(&a, &b))
		}
		s := searchOf(1)
		h := s.hypothesis(nil, 1, &s.wide[0])
		a.of, b.of = h, h
		s.fits = []fit{a, b}
		if all := s.guesses(0); len(all) != 2 || (all[0].cure == all[1].cure) != test.near {
			t.Errorf("one turn puts %v and %v right: %v", test.a, test.b, all[0].cure == all[1].cure)
		}
	}
}

// What is not out of the question, a ten-thousandth of all, is looked at, with or
// without a reading, the likeliest first.
func TestGuesses(t *testing.T) {
	s := searchOf(2)
	a, b, c := s.hypothesis(nil, 1), s.hypothesis(nil, 1, &s.wide[2]), s.hypothesis(&s.places[0], 1, &s.wide[4])
	s.fits = []fit{
		{of: a, at: s.drawn, evidence: math.Log(0.2)}, {of: b, at: s.drawn, evidence: math.Log(0.7)},
		{of: c, at: s.drawn, evidence: math.Log(1.01e-4)}, {of: b, at: s.drawn, evidence: math.Log(0.9e-4)},
		{of: a, at: s.drawn, evidence: math.Log(0.1), without: 1},
	}
	s.fits[0].evidence = math.Log(1 - 0.7 - 1.91e-4)
	all := s.guesses(0)
	if len(all) != 3 || all[0].of != b || all[1].of != a || all[2].of != c || !nearly(all[0].weight, 0.7, 1e-9) {
		t.Errorf("%+v", all)
	}
	if k := all[2].cure; k.fault != WrongAdvance || k.also != LostMotion {
		t.Errorf("the cure of a sheave on the other hand and lost motion: %+v", k)
	}
	if all := s.guesses(1); len(all) != 1 || all[0].weight != 1 {
		t.Errorf("without a reading: %+v", all)
	}
	// A cure is named by the likeliest of its guesses and has the weight of all.
	one, other := cure{turned: 1}, cure{turned: 2}
	heads := heads([]guess{{weight: 0.3, cure: one, fit: &s.fits[0]}, {weight: 0.4, cure: other, fit: &s.fits[1]},
		{weight: 0.2, cure: one, fit: &s.fits[2]}, {weight: 0.1, cure: one, fit: &s.fits[3]}})
	if len(heads) != 2 || heads[0].cure != one || !nearly(heads[0].weight, 0.6, 1e-12) || heads[0].fit != &s.fits[0] ||
		heads[1].cure != other || heads[1].weight != 0.4 {
		t.Errorf("%+v", heads)
	}
}

// A pair is one cure in either order, and each place of the sheave is the cure of
// turning it.
func TestCureOfAKey(t *testing.T) {
	a := key{fault: LostMotion, also: ValveOffCentre, end: eccentric.HeadEnd, alsoAt: eccentric.CrankEnd}
	b := key{fault: ValveOffCentre, also: LostMotion, end: eccentric.CrankEnd, alsoAt: eccentric.HeadEnd}
	if a.cure() != b.cure() || a.cure().end != eccentric.CrankEnd || a.cure().fault != ValveOffCentre {
		t.Errorf("%+v and %+v", a.cure(), b.cure())
	}
	for _, f := range []Fault{WrongAdvance, OtherHand, HalfTurnOut, InLine, NoAdvance} {
		if got := (key{fault: f}).cure(); got.fault != WrongAdvance || got.also != 0 {
			t.Errorf("%v: %+v", f, got)
		}
	}
	if got := (key{fault: AsDrawn}).cure(); got.fault != AsDrawn {
		t.Errorf("%+v", got)
	}
}

// A fault is unseen whose spread is more than seven tenths of what it was, or whose
// amount is less than its standard deviation.
func TestUnseen(t *testing.T) {
	s := searchOf(1)
	d := &s.wide[2] // the valve off centre
	h := s.hypothesis(nil, 1, d)
	before := math.Sqrt(s.nuisance.along(&d.read) + d.sd*d.sd)
	for _, test := range []struct {
		amount, after float64
		unseen        bool
	}{
		{5 * before, 0.701 * before, true}, {5 * before, 0.699 * before, false}, {-5 * before, 0.5 * before, false},
		{0.125, 0.125, false}, {0.125 - 1e-12, 0.125, true}, {0.099, 0.1, true}, {0.101, 0.1, false}, {-0.099, 0.1, true}, {-0.101, 0.1, false},
	} {
		f := fit{of: h, at: s.drawn}
		f.at[shift] += test.amount
		f.spread[shift][shift] = test.after * test.after
		if got := s.unseen(&guess{fit: &f}); (got == d) != test.unseen || got != nil && got != d {
			t.Errorf("%v with %v, was %v: %v", test.amount, test.after, before, got)
		}
	}
}

// Another cure is told as long as the first has no more than 100 to 1 against it, another
// place of the sheave up to 1000 to 1, and three at the most.
func TestDoubts(t *testing.T) {
	s := searchOf(2)
	drawn := fit{of: s.hypothesis(nil, 1), at: s.drawn}
	placed := func(i int) *fit {
		f := fit{of: s.hypothesis(&s.places[i], 1), at: s.drawn}
		f.at[advance] = s.places[i].at
		return &f
	}
	sheave := func(turned int) cure { return cure{key: key{fault: WrongAdvance}, turned: turned} }
	asDrawn := cure{key: key{fault: AsDrawn}}
	for _, test := range []struct {
		name   string
		odds   float64
		turned bool
		told   bool
	}{
		{"another part", 99.9, false, true}, {"at the limit", 100, false, true}, {"far off", 100.1, false, false},
		{"another place", 999, true, true}, {"at its limit", 1000, true, true}, {"a far place", 1001, true, false},
	} {
		a := guess{weight: test.odds, cure: asDrawn, fit: &drawn}
		if test.turned {
			a.cure, a.fit = sheave(0), placed(0)
		}
		b := guess{weight: 1, cure: sheave(1), fit: placed(1)}
		all, twin := s.cannotTell([]guess{a, b})
		told := slices.ContainsFunc(all, func(text string) bool { return strings.Contains(text, "half a turn out") })
		if told != test.told || (twin != nil) != (test.turned && test.told) {
			t.Errorf("%s, %v to 1: %q, %v", test.name, test.odds, all, twin)
		}
	}
	all := []guess{{weight: 10, cure: asDrawn, fit: &drawn}}
	for i := range s.places {
		all = append(all, guess{weight: 1, cure: sheave(i), fit: placed(i)})
	}
	told, _ := s.cannotTell(all)
	doubts := 0
	for _, text := range told {
		if strings.HasPrefix(text, "It may be") {
			doubts++
		}
	}
	if doubts != 3 {
		t.Errorf("%d doubts: %q", doubts, told)
	}
}

// To the eye an edge stands on the other within five microns: our own choice.
func TestOnEdge(t *testing.T) {
	for micron, want := range map[float64]bool{0: true, 4.999: true, -4.999: true, 5: false, -5: false, 5.001: false} {
		if got := onEdge(units.Micron(micron)); got != want {
			t.Errorf("%v microns: %v", micron, got)
		}
	}
}

// A suspect prints what it is.
func TestSuspectPrints(t *testing.T) {
	s := Suspect{Part: Part{Fault: WrongAdvance, Angle: units.Degree}, Probability: 0.5}
	if text := s.String(); !strings.Contains(text, "probability 0.5") || !strings.Contains(text, "fault advance") {
		t.Error(text)
	}
}

// What readings are out by: the best of the same measure that were taken, else as usual.
func TestErrorOfTheNext(t *testing.T) {
	head := eccentric.HeadEnd
	c := Case{Gear: modelGears()["plain"], Readings: []Reading{
		{Kind: Travel, Length: units.MM(6.4), Within: spread.Deviation{Length: units.MM(0.06)}},
		{Kind: Lead, End: head, Length: units.MM(0.2), Within: spread.Deviation{Length: units.MM(0.04)}},
		{Kind: CutOff, End: head, Angle: 2, Within: spread.Deviation{Angle: units.Degree}},
		{Kind: Release, End: head, ByStroke: true, Stroke: 0.9, Within: spread.Deviation{Ratio: 1e-4}},
		{Kind: Compression, End: head, Never: true}, {Kind: OpensNext, End: head, Opens: Steam},
	}}
	s := newSearch(&c)
	degree := math.Pi / 180
	for kind, want := range map[Kind]float64{
		Opening: math.Hypot(0.02, 0.005), ValveAt: math.Hypot(0.02, 0.005), Admission: math.Hypot(0.5*degree, 0.1*degree),
		OpensNext: 0.1 * degree,
	} {
		if got := s.error(kind); !nearly(got, want, 1e-12) {
			t.Errorf("%v: %v, want %v", kind, got, want)
		}
	}
	bare := searchOf(0)
	for kind, want := range map[Kind]float64{Opening: math.Hypot(0.05, 0.005), Admission: math.Hypot(degree, 0.1*degree)} {
		if got := bare.error(kind); !nearly(got, want, 1e-12) {
			t.Errorf("%v without readings: %v, want %v", kind, got, want)
		}
	}
	for _, c := range candidates() {
		want := c.kind == Travel || c.end == head && (c.kind == Lead || c.kind == CutOff || c.kind == Release || c.kind == Compression ||
			c.kind == OpensNext)
		if got := s.taken(&c); got != want {
			t.Errorf("%v %v has been taken: %v", c.kind, c.end, got)
		}
	}
	s.read = append(s.read, measured{kind: ValveAt, at: math.Pi/2 + 0.0999})
	for crank, want := range map[float64]bool{0: false, 90: true, 180: false, 450: true, 101.5: true, 101.6: false, 90.1: true} {
		at := units.Angle(crank) * units.Degree
		if crank == 101.5 || crank == 101.6 {
			at = units.Angle(math.Pi/2 + 0.0999 + map[float64]float64{101.5: 0.0999, 101.6: 0.1001}[crank])
		}
		if got := s.taken(&candidate{kind: ValveAt, crank: at}); got != want {
			t.Errorf("the valve's place at %v has been taken: %v", crank, got)
		}
	}
}

// The pairs together have a tenth of all before anything is read, and of each two faults
// that can be thought of together there is one.
func TestPairsHaveATenth(t *testing.T) {
	s := searchOf(1)
	s.singles()
	from := len(s.fits)
	s.pairs()
	singles, pairs := 0.0, 0.0
	for i := range s.fits {
		f := &s.fits[i]
		if i < from {
			singles += math.Exp(f.of.weight)
			if f.extra != 0 {
				t.Errorf("fit %d has %v", i, f.extra)
			}
			continue
		}
		pairs += math.Exp(f.of.weight + f.extra)
		if n := len(f.of.faults); n != 2 && !(n == 1 && f.of.place != nil) {
			t.Errorf("fit %d is no pair", i)
		}
		for _, d := range f.of.faults {
			if d.rare || f.of.place != nil && d.part.Fault == WrongAdvance {
				t.Errorf("%v in a pair", d.part)
			}
		}
		if n := len(f.of.faults); n == 2 && f.of.faults[0].part.Fault == f.of.faults[1].part.Fault {
			t.Errorf("%v twice", f.of.faults[0].part)
		}
	}
	if share := pairs / (singles + pairs); !nearly(share, 0.1, 1e-9) {
		t.Errorf("the pairs have %v", share)
	}
	// 12 faults, 11 without the rare one: 55 pairs less those of one fault: 1 of the sheave's two
	// spreads, 3 of each lap; and 5 places with 9 other faults.
	if n := len(s.fits) - from; n != 55-1-3-3+45 {
		t.Errorf("%d pairs", n)
	}
	if s.fits[0].of.weight != math.Log(5) || len(s.fits[:from]) != 1+12+5 {
		t.Errorf("%d singles, the drawing weighs %v", from, s.fits[0].of.weight)
	}
}
