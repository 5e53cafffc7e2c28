package diagnosis

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// Readings on which the unknowns act straight have one answer, that of two normal
// distributions: with the slopes a, the spread P and the error s of a reading that is y
// off the drawing
//
//	at = P a y / (s^2 + a P a)    cost = y^2 / 2 / (s^2 + a P a)    spread = P - P a a P / (s^2 + a P a)
//
// and the evidence is that of so large a y.
func TestFitOfAStraightReading(t *testing.T) {
	g := modelGears()["plain"]
	for _, test := range []struct {
		name    string
		reading Reading
		slope   vector
		off     float64 // mm
		sd      float64 // finest and half of what it may be out by
	}{
		{"travel", Reading{Kind: Travel, Length: units.MM(6.7)}, vector{reach: 2, lost: -1}, 0.3, math.Hypot(0.05, 0.005)},
		{"travel, finer", Reading{Kind: Travel, Length: units.MM(6.25), Within: spread.Deviation{Length: units.MM(0.02)}},
			vector{reach: 2, lost: -1}, -0.15, math.Hypot(0.01, 0.005)},
	} {
		s := newSearch(&Case{Gear: g, Readings: []Reading{test.reading}})
		if got := s.read[0].sd; !nearly(got, test.sd, 1e-12) {
			t.Errorf("%s: a standard deviation of %v, want %v", test.name, got, test.sd)
		}
		all := []*hypothesis{s.hypothesis(nil, 5)}
		for i := range s.wide {
			if !s.wide[i].angle && !s.wide[i].upward {
				all = append(all, s.hypothesis(nil, 0.7, &s.wide[i]))
			}
		}
		all = append(all, s.hypothesis(nil, 0.35, &s.wide[2], &s.wide[3]))
		for n, h := range all {
			p := s.nuisance
			for _, d := range h.faults {
				p.widen(&d.along, d.sd)
				if d.edge != none {
					p[d.edge][d.edge] += d.sd * d.sd / 4
				}
			}
			var pa vector
			for i := range p {
				pa[i] = p[i].dot(&test.slope)
			}
			whole := test.sd*test.sd + pa.dot(&test.slope)
			f := s.fit(h, s.drawn)
			if want := test.off * test.off / 2 / whole; math.Abs(f.cost-want) > 2e-3*want {
				t.Errorf("%s, hypothesis %d: a cost of %v, want %v", test.name, n, f.cost, want)
			}
			beyond := 0.0
			for _, d := range h.faults {
				var along vector
				for i := range p {
					for k := range p {
						along[i] += (p[i][k] - pa[i]*pa[k]/whole) * d.read[k]
					}
				}
				amount, sd := pa.dot(&d.read)*test.off/whole, math.Sqrt(along.dot(&d.read))
				before := math.Sqrt(s.nuisance.along(&d.read) + d.sd*d.sd)
				after, was := distuv.Normal{Mu: amount, Sigma: sd}, distuv.Normal{Sigma: before}
				beyond += math.Log(after.Survival(d.tol)+after.CDF(-d.tol)) - math.Log(2*was.Survival(d.tol))
				gotAmount, gotSD := f.amount(d)
				if math.Abs(gotAmount-amount) > 1e-3*math.Abs(test.off) || math.Abs(gotSD-sd) > 1e-9 {
					t.Errorf("%s, hypothesis %d, %v: %v with %v, want %v with %v", test.name, n, d.part, gotAmount, gotSD, amount, sd)
				}
			}
			weight := map[int]float64{0: 5, len(all) - 1: 0.35}[n]
			if weight == 0 {
				weight = 0.7
			}
			want := math.Log(weight) - test.off*test.off/2/whole - math.Log(whole/(test.sd*test.sd))/2 + beyond
			if math.Abs(f.evidence-want) > 0.01 {
				t.Errorf("%s, hypothesis %d: evidence %v, want %v", test.name, n, f.evidence, want)
			}
			for i := range p {
				if got, want := f.at[i]-s.drawn[i], pa[i]*test.off/whole; math.Abs(got-want) > 1e-3*math.Abs(test.off) {
					t.Errorf("%s, hypothesis %d: unknown %d at %v, want %v", test.name, n, i, got, want)
				}
				for k := range p {
					if want := p[i][k] - pa[i]*pa[k]/whole; math.Abs(f.spread[i][k]-want) > 1e-9 {
						t.Errorf("%s, hypothesis %d: spread %d, %d is %v, want %v", test.name, n, i, k, f.spread[i][k], want)
					}
				}
			}
		}
	}
}

// A sheave in a named place has 3 degrees about it, our own choice, and no part in what
// the tolerances tie together.
func TestHypothesisOfAPlace(t *testing.T) {
	s := newSearch(&Case{Gear: modelGears()["plain"]})
	for i := range s.places {
		p := &s.places[i]
		h := s.hypothesis(p, placeWeight, &s.wide[2])
		if h.mean[advance] != p.at || h.place != p || h.weight != math.Log(0.5) {
			t.Errorf("%v: %+v", p.fault, h)
		}
		for k := range h.root {
			sum := h.root[advance].dot(&h.root[k])
			want := 0.0
			if k == advance {
				want = math.Pow(3*math.Pi/180, 2)
			}
			if !nearly(sum, want, 1e-15) {
				t.Errorf("%v: spread with unknown %d: %v", p.fault, k, sum)
			}
		}
		for k := range h.root {
			for j := range h.root {
				found := 0.0
				for _, term := range h.terms {
					if term.i == k && term.k == j {
						found = term.by
					}
				}
				if found != h.root[k][j] {
					t.Errorf("%v: term %d, %d is %v, the root has %v", p.fault, k, j, found, h.root[k][j])
				}
			}
		}
	}
}

// An engine has no travel of less than a tenth of what is drawn or over ten times it,
// none beyond its rod, and no more lost motion than nine tenths of its travel.
func TestKept(t *testing.T) {
	d := drawingOf(modelGears()["plain"]) // half the travel 3.2, rod 60
	for _, test := range []struct{ reach, lost, wantReach, wantLost float64 }{
		{3, 0.2, 3, 0.2}, {0.31, 0, 0.32, 0}, {0.33, 0, 0.33, 0}, {31, 0, 31, 0}, {33, 0, 32, 0},
		{1, 1.79, 1, 1.79}, {1, 1.81, 1, 1.8}, {-3, 5, 0.32, 0.576},
	} {
		at := d.drawn
		at[reach], at[lost] = test.reach, test.lost
		got := d.kept(at)
		if !nearly(got[reach], test.wantReach, 1e-12) || !nearly(got[lost], test.wantLost, 1e-12) {
			t.Errorf("%v, %v: %v, %v", test.reach, test.lost, got[reach], got[lost])
		}
	}
	d.l = -20
	for _, reaching := range []float64{19.7, 19.9} {
		at := d.drawn
		at[reach] = reaching
		if got, want := d.kept(at)[reach], min(reaching, 0.99*20); got != want {
			t.Errorf("half a travel of %v on a rod of 20: %v, want %v", reaching, got, want)
		}
	}
}

// The chance of a chi-square as great is 0.001 at 10.828 with one degree of freedom, at
// 22.458 with six and at 29.588 with ten: the table of that distribution, from memory.
func TestFitsByChiSquare(t *testing.T) {
	for n, at := range map[int]float64{1: 10.828, 6: 22.458, 10: 29.588} {
		if !fits(at-0.002, n) || fits(at+0.002, n) {
			t.Errorf("%d readings: %v is no border", n, at)
		}
	}
	if !fits(1e9, 0) {
		t.Error("no readings fit all")
	}
}

// What a reading that says nothing costs is one in a hundred times its density if it can
// be anything, beside that of one that agrees: any angle, any length of twice the travel,
// any share.
func TestLeftOut(t *testing.T) {
	s := newSearch(&Case{Gear: modelGears()["plain"]})
	const sd = 0.03
	peak := distuv.Normal{Sigma: sd}.Prob(0)
	for _, test := range []struct {
		m    measured
		want float64
	}{
		{measured{kind: CutOff, sd: sd}, 0.01 / (2 * math.Pi) / peak},
		{measured{kind: CutOff, byStroke: true, sd: sd}, 0.01 / peak},
		{measured{kind: CutOff, never: true, sd: sd}, 0.005},
		{measured{kind: OpensNext, sd: sd}, 0.005},
		{measured{kind: Lead, sd: sd}, 0.01 / (2 * 6.4) / peak},
		{measured{kind: Travel, sd: sd}, 0.01 / (2 * 6.4) / peak},
		{measured{kind: ValveAt, sd: sd}, 0.01 / (2 * 6.4) / peak},
	} {
		if got := s.leftOut(&test.m); !nearly(got, math.Log(test.want), 1e-12) {
			t.Errorf("%+v: %v, want %v", test.m, got, math.Log(test.want))
		}
	}
}

// A reading is in millimetres, radians or shares, with half of what it may be out by and
// the finest of its measure: 0.1 degree, 5 microns and a thousandth, our own choice.
func TestMeasured(t *testing.T) {
	for _, test := range []struct {
		r         Reading
		value, sd float64
	}{
		{Reading{Kind: CutOff, End: eccentric.HeadEnd, Angle: 2}, 2, math.Hypot(math.Pi/180, 0.1*math.Pi/180)},
		{Reading{Kind: CutOff, Angle: 2, Within: spread.Deviation{Angle: 0.1}}, 2, math.Hypot(0.05, 0.1*math.Pi/180)},
		{Reading{Kind: Lead, Length: units.MM(-0.3)}, -0.3, math.Hypot(0.05, 0.005)},
		{Reading{Kind: ValveAt, Length: units.MM(3), Within: spread.Deviation{Length: units.MM(0.4)}}, 3, math.Hypot(0.2, 0.005)},
		{Reading{Kind: Release, ByStroke: true, Stroke: 0.9}, 0.9, math.Hypot(0.005, 0.001)},
		{Reading{Kind: Release, ByStroke: true, Stroke: 0.9, Within: spread.Deviation{Ratio: 0.04}}, 0.9, math.Hypot(0.02, 0.001)},
		{Reading{Kind: Release, Never: true}, 0, 0.1 * math.Pi / 180},
		{Reading{Kind: OpensNext, Opens: Steam}, 0, 0.1 * math.Pi / 180},
	} {
		m := test.r.measured()
		if !nearly(m.value, test.value, 1e-12) || !nearly(m.sd, test.sd, 1e-12) {
			t.Errorf("%v: %v with %v, want %v with %v", test.r, m.value, m.sd, test.value, test.sd)
		}
		if m.kind != test.r.Kind || m.end != test.r.End || m.never != test.r.Never || m.byStroke != test.r.ByStroke ||
			m.steam != (test.r.Opens == Steam) {
			t.Errorf("%v: %+v", test.r, m)
		}
	}
	if m := (&Reading{Kind: ValveAt, Crank: 1.5}).measured(); m.at != 1.5 || m.crank() != 1.5 {
		t.Errorf("crank %v", m)
	}
	if m := (&measured{kind: Lead, at: 1.5}); m.crank() != 0 {
		t.Errorf("the crank angle of a lead: %v", m.crank())
	}
}

// Odds are what speaks for it to what speaks against, up to a million.
func TestOdds(t *testing.T) {
	for _, test := range []struct{ with, against, want float64 }{
		{0.75, 0.25, 3}, {0, 1, 0}, {1, 0, 1e6}, {1, 1e-9, 1e6}, {1, 1.01e-6, 1 / 1.01e-6}, {1, 1e-6, 1e6},
	} {
		if got := odds(test.with, test.against); got != test.want {
			t.Errorf("%v to %v: %v, want %v", test.with, test.against, got, test.want)
		}
	}
}

// Fits of one suspect add up, the best stands for it, and the shares make one.
func TestWeigh(t *testing.T) {
	s := newSearch(&Case{Gear: modelGears()["plain"]})
	a, b := s.hypothesis(nil, 1, &s.wide[0]), s.hypothesis(nil, 1, &s.wide[1]) // both the sheave's place
	c, none := s.hypothesis(nil, 1, &s.wide[2]), s.hypothesis(nil, 1)
	both, placed := s.hypothesis(nil, 1, &s.wide[2], &s.wide[3]), s.hypothesis(&s.places[0], 1, &s.wide[4])
	all := []fit{
		{of: none, evidence: math.Log(0.1)}, {of: a, evidence: math.Log(0.2)}, {of: b, evidence: math.Log(0.3)},
		{of: c, evidence: math.Log(0.25)}, {of: both, evidence: math.Log(0.05)}, {of: placed, evidence: math.Log(0.1)},
	}
	for i := range all {
		all[i].at = s.drawn
	}
	all[5].at[advance] = s.places[0].at
	w := weigh(all)
	sheave, valve := key{fault: WrongAdvance}, key{fault: ValveOffCentre}
	pair, hand := key{fault: ValveOffCentre, also: WrongTravel}, key{fault: OtherHand, also: LostMotion}
	for k, want := range map[key]float64{sheave: 0.5, valve: 0.25, {fault: AsDrawn}: 0.1, pair: 0.05, hand: 0.1} {
		if !nearly(w.chance[k], want, 1e-12) {
			t.Errorf("%+v: %v, want %v", k, w.chance[k], want)
		}
	}
	if w.best[sheave] != &all[2] || w.order[0] != sheave || w.order[1] != valve || len(w.order) != 5 {
		t.Errorf("best %v, order %v", w.best[sheave], w.order)
	}
	// The valve is wrong alone or with the travel; the sheave in its own place alone, as the
	// mirrored one stands elsewhere; lost motion only beside another.
	for k, want := range map[key]float64{valve: 0.3 / 0.7, sheave: 1} {
		if got := w.odds(k); !nearly(got, want, 1e-12) {
			t.Errorf("odds of %+v: %v, want %v", k, got, want)
		}
	}
	if got := w.odds(hand); !nearly(got, 0.1/0.9, 1e-12) {
		t.Errorf("odds of the other hand: %v", got)
	}
}
