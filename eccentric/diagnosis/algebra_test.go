package diagnosis

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

func nearly(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*max(1, math.Abs(want))
}

// Seven points of a Gauss-Hermite rule have the moments of the normal distribution up to
// the thirteenth: (n-1)!! of the even ones, nothing of the odd.
func TestHermiteMoments(t *testing.T) {
	want := 1.0
	for n := 0; n <= 13; n++ {
		sum, size := 0.0, 0.0
		for _, p := range hermite {
			sum += p.weight * math.Pow(p.at, float64(n))
			size += p.weight * math.Pow(math.Abs(p.at), float64(n))
		}
		if n%2 == 0 && n > 0 {
			want *= float64(n - 1)
		}
		if is := map[int]float64{0: want}[n%2]; math.Abs(sum-is) > 1e-12*size {
			t.Errorf("moment %d: %.15g, want %v", n, sum, is)
		}
	}
}

// The chances are those of the normal distribution as gonum has it.
func TestChances(t *testing.T) {
	for z := -6.0; z <= 6; z += 0.37 {
		if got, want := tail(z), distuv.UnitNormal.Survival(z); !nearly(got, want, 1e-12) {
			t.Errorf("tail(%v) = %v, want %v", z, got, want)
		}
		if got, want := likely(z), distuv.UnitNormal.CDF(z); !nearly(got, want, 1e-12) {
			t.Errorf("likely(%v) = %v, want %v", z, got, want)
		}
		off, slope := seen(z)
		// One of ten thousand is told the wrong way round: our own choice.
		chance := 1e-4 + (1-2e-4)*distuv.UnitNormal.CDF(z)
		if want := math.Sqrt(-2 * math.Log(chance)); !nearly(off, want, 1e-9) {
			t.Errorf("seen(%v) = %v, want %v", z, off, want)
		}
		up, _ := seen(z + 1e-6)
		down, _ := seen(z - 1e-6)
		if want := (up - down) / 2e-6; math.Abs(slope-want) > 1e-5*max(1, math.Abs(want)) {
			t.Errorf("seen(%v) has slope %v, by differences %v", z, slope, want)
		}
		for _, amount := range []float64{-0.3, 0, 0.8} {
			d := direction{tol: 0.4}
			n := distuv.Normal{Mu: amount, Sigma: 0.5 + z*z}
			if got, want := d.beyond(amount, n.Sigma), n.Survival(0.4)+n.CDF(-0.4); !nearly(got, want, 1e-12) {
				t.Errorf("beyond 0.4 of %v with %v: %v, want %v", amount, n.Sigma, got, want)
			}
			d.upward = true
			if got, want := d.beyond(amount, n.Sigma), n.Survival(0.4); !nearly(got, want, 1e-12) {
				t.Errorf("above 0.4 of %v with %v: %v, want %v", amount, n.Sigma, got, want)
			}
			f := forecast{mean: amount, sd: n.Sigma}
			if got, want := f.chance(value, z, 0), n.Prob(z); !nearly(got, want, 1e-12) {
				t.Errorf("density at %v: %v, want %v", z, got, want)
			}
			if got, want := f.chance(value, z+4*math.Pi, 2*math.Pi), n.Prob(math.Remainder(z-amount, 2*math.Pi)+amount); !nearly(got, want, 1e-9) {
				t.Errorf("density two turns from %v: %v, want %v", z, got, want)
			}
		}
	}
	if f := (forecast{seen: steam}); f.chance(steam, 0, 0) != 1 || f.chance(exhaust, 0, 0) != 0 || f.chance(value, 0, 0) != 0 {
		t.Error("what is seen is certain")
	}
}

// The root of a spread times its transpose is the spread, and both solve.
func TestRootOfASpread(t *testing.T) {
	var p square
	for i := range p {
		p[i][i] = 0.5 + 0.1*float64(i)
	}
	for k := range 4 {
		var along vector
		for i := range along {
			along[i] = math.Sin(float64(3*k+2*i*i)) * float64((i+k)%3) // with zeros among them
		}
		was := p
		p.widen(&along, 0.7)
		for i := range p {
			for j := range p {
				if want := was[i][j] + 0.49*along[i]*along[j]; !nearly(p[i][j], want, 1e-12) {
					t.Fatalf("widened %d, %d: %v, want %v", i, j, p[i][j], want)
				}
			}
		}
	}
	var l square
	p.rootTo(&l)
	var v vector
	for i := range v {
		v[i] = math.Cos(float64(i * i))
	}
	x, y := l.solved(v), l.backSolved(v)
	for i := range p {
		forth, back := 0.0, 0.0
		for k := range p {
			sum := 0.0
			for j := range p {
				sum += l[i][j] * l[k][j]
			}
			if !nearly(sum, p[i][k], 1e-12) || k > i && l[i][k] != 0 {
				t.Errorf("root %d, %d: %v, want %v", i, k, sum, p[i][k])
			}
			forth += l[i][k] * x[k]
			back += l[k][i] * y[k]
		}
		if !nearly(forth, v[i], 1e-12) || !nearly(back, v[i], 1e-12) {
			t.Errorf("solved %d: %v and %v, want %v", i, forth, back, v[i])
		}
	}
	if got, want := p.along(&v), v.dot(&vector{}); got == want {
		t.Error("no variance")
	}
	dense := mat.NewDense(int(unknowns), int(unknowns), nil)
	for i := range p {
		for k := range p {
			dense.Set(i, k, p[i][k])
		}
	}
	vec := mat.NewVecDense(int(unknowns), v[:])
	if got, want := p.along(&v), mat.Inner(vec, dense, vec); !nearly(got, want, 1e-12) {
		t.Errorf("variance along: %v, want %v", got, want)
	}
	var nothing square
	nothing.rootTo(&l) // a size without any spread stays solvable
	for i := range l {
		if l[i][i] != 1e-6 {
			t.Errorf("root of nothing: %v", l[i][i])
		}
	}
}

// turned is a gear with one size of it larger by so much, in mm or radians.
func turned(g eccentric.Gear, of spread.Dimension, by float64) eccentric.Gear {
	mm := units.MM(by)
	switch of {
	case spread.Advance:
		g.Advance += units.Angle(by)
	case spread.ValveOffset:
		g.Valve.Offset = g.Valve.Offset.Add(mm)
	case spread.Travel:
		g.Travel = g.Travel.Add(mm)
	case spread.LostMotion:
		g.Valve.LostMotion = g.Valve.LostMotion.Add(mm)
	case spread.ValveLength:
		g.Valve.Length = g.Valve.Length.Add(mm)
	case spread.ValveCavity:
		g.Valve.Cavity = g.Valve.Cavity.Add(mm)
	case spread.CavityOffset:
		g.Valve.CavityOffset = g.Valve.CavityOffset.Add(mm)
	case spread.PortExhaust:
		g.Ports.Exhaust = g.Ports.Exhaust.Add(mm)
	case spread.PortSteam:
		g.Ports.Steam = g.Ports.Steam.Add(mm)
	case spread.CrankSteam:
		g.Ports.CrankSteam = g.Ports.CrankSteam.Add(mm)
	case spread.PortBar:
		g.Ports.Bar = g.Ports.Bar.Add(mm)
	case spread.CrankBar:
		g.Ports.CrankBar = g.Ports.CrankBar.Add(mm)
	}
	return g
}

// The spread before anything is read is what tolerances on the sizes make of the
// unknowns, each a third of its tolerance, moved in the gear itself; without them a third
// of 0.1 mm and of 3 degrees, and never less than 0.02 mm and half a degree: our own
// choice.
func TestSpreadOfTheSizes(t *testing.T) {
	for name, g := range modelGears() {
		g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(2.2), units.MM(2.4) // so that each end has its own
		d := drawingOf(g)
		p := d.spreadOf(&Case{Gear: g})
		for i := range p {
			for k := range p {
				want := map[bool]float64{true: math.Pow(0.1/3, 2)}[i == k]
				if i == k && i == advance {
					want = math.Pow(math.Pi/180, 2)
				}
				if !nearly(p[i][k], want, 1e-15) {
					t.Errorf("%s, without tolerances %d, %d: %v, want %v", name, i, k, p[i][k], want)
				}
			}
		}
		tight := spread.Tolerance{Dimension: spread.Advance, Lower: spread.Deviation{Angle: -1e-3}, Upper: spread.Deviation{Angle: 1e-3}}
		fine := spread.Tolerance{
			Dimension: spread.ValveOffset,
			Lower:     spread.Deviation{Length: units.MM(-0.01)}, Upper: spread.Deviation{Length: units.MM(0.01)},
		}
		p = d.spreadOf(&Case{Gear: g, Tolerances: []spread.Tolerance{tight, fine}})
		if !nearly(p[advance][advance], math.Pow(0.5*math.Pi/180, 2), 1e-15) || !nearly(p[shift][shift], 0.02*0.02, 1e-15) {
			t.Errorf("%s, least: %v and %v", name, p[advance][advance], p[shift][shift])
		}
		// All sizes with tolerances of their own.
		var want square
		c := Case{Gear: g}
		for i, of := range []spread.Dimension{
			spread.Advance, spread.ValveOffset, spread.Travel, spread.LostMotion, spread.ValveLength, spread.ValveCavity,
			spread.CavityOffset, spread.PortExhaust, spread.PortSteam, spread.CrankSteam, spread.PortBar, spread.CrankBar,
		} {
			half := 0.15 + 0.02*float64(i)
			tolerance := spread.Tolerance{
				Dimension: of, Lower: spread.Deviation{Length: units.MM(-0.05)}, Upper: spread.Deviation{Length: units.MM(2*half - 0.05)},
			}
			if of == spread.Advance {
				tolerance.Lower, tolerance.Upper = spread.Deviation{Angle: -0.05}, spread.Deviation{Angle: units.Angle(2*half - 0.05)}
			}
			c.Tolerances = append(c.Tolerances, tolerance)
			const step = 0.01
			moved := drawingOf(turned(g, of, step))
			by := moved.drawn.add(-1, &d.drawn)
			for i := range by {
				for k := range by {
					want[i][k] += by[i] / step * by[k] / step * half * half / 9
				}
			}
		}
		p = d.spreadOf(&c)
		for i := range p {
			for k := range p {
				if !nearly(p[i][k], want[i][k], 1e-9) {
					t.Errorf("%s, unknowns %d and %d: %v, want %v", name, i, k, p[i][k], want[i][k])
				}
			}
		}
	}
	// Ends that are drawn alike have one tolerance, unless the crank end has its own.
	g := modelGears()["plain"]
	d := drawingOf(g)
	at := func(of spread.Dimension, half float64) spread.Tolerance {
		return spread.Tolerance{
			Dimension: of, Lower: spread.Deviation{Length: units.MM(-half)}, Upper: spread.Deviation{Length: units.MM(half)},
		}
	}
	for _, test := range []struct {
		given       []spread.Tolerance
		port, inner float64 // of the crank end, half
	}{
		{[]spread.Tolerance{at(spread.PortSteam, 0.3), at(spread.PortBar, 0.6)}, 0.3, 0.6},
		{[]spread.Tolerance{at(spread.PortSteam, 0.3), at(spread.PortBar, 0.6), at(spread.CrankSteam, 0.9), at(spread.CrankBar, 1.2)}, 0.9, 1.2},
		{nil, 0.1, 0.1},
	} {
		p := d.spreadOf(&Case{Gear: g, Tolerances: test.given})
		if got := 3 * math.Sqrt(p[portCrank][portCrank]); !nearly(got, test.port, 1e-12) {
			t.Errorf("%v: the crank end's port has %v", test.given, got)
		}
		if got := 3 * math.Sqrt(p[exhaustCrank][exhaustCrank]); !nearly(got, test.inner, 1e-12) {
			t.Errorf("%v: the crank end's bar has %v", test.given, got)
		}
	}
}

// Each fault moves the unknowns as the gear with that fault in it has them, and its
// amount is read off where it moves them to.
func TestDirectionsArePutIntoTheGear(t *testing.T) {
	for name, g := range modelGears() {
		c := Case{Gear: g}
		s := newSearch(&c)
		if len(s.wide) != 12 || len(s.places) != 5 {
			t.Fatalf("%s: %d faults, %d places", name, len(s.wide), len(s.places))
		}
		for _, d := range s.wide {
			const amount = 0.25
			p := d.part
			if d.angle {
				p.Angle = amount
			} else {
				p.Length = units.MM(amount * d.whole)
			}
			is, ok := s.put(g, p)
			if !ok {
				t.Fatalf("%s: %v cannot be", name, p)
			}
			moved := drawingOf(is)
			by := moved.drawn.add(-1, &s.drawn)
			if d.part.Fault == WrongTravel { // an amount is that of half the travel
				if math.Abs(is.Travel.Sub(g.Travel).MM()-2*amount) > 1e-9 {
					t.Errorf("%s: travel %v", name, is.Travel)
				}
			}
			for i := range by {
				factor := 1.0
				if d.part.Fault == WrongTravel && g.LeverRatio != 0 {
					factor = by[reach] / amount // of the lever
				}
				if !nearly(by[i], factor*amount*d.along[i], 1e-9) {
					t.Errorf("%s, %v %v: unknown %d moves by %v, want %v", name, d.part.Fault, d.part.End, i, by[i], amount*d.along[i])
				}
			}
			if read := d.read.dot(&d.along); read != 1 {
				t.Errorf("%s, %v %v: of an amount of 1 %v is read", name, d.part.Fault, d.part.End, read)
			}
			if want := 3 * math.Sqrt(s.nuisance.along(&d.read)); !nearly(d.tol, want, 1e-12) {
				t.Errorf("%s, %v %v: within %v, want %v", name, d.part.Fault, d.part.End, d.tol, want)
			}
			if d.upward != (d.part.Fault == LostMotion) || d.angle != (d.part.Fault == WrongAdvance) {
				t.Errorf("%s: %+v", name, d)
			}
		}
		for _, place := range s.places {
			is, ok := s.put(g, Part{Fault: place.fault, Angle: units.Angle(place.at - s.drawn[advance])})
			if off := math.Remainder(drawingOf(is).drawn[advance]-place.at, 2*math.Pi); !ok || math.Abs(off) > 1e-12 {
				t.Errorf("%s, %v: the sheave is %v off its place", name, place.fault, off)
			}
		}
	}
	// The places of a sheave that is drawn at 26 degrees.
	want := map[float64]Fault{154: OtherHand, -154: HalfTurnOut, 90: InLine, -90: InLine, 0: NoAdvance}
	d := drawingOf(modelGears()["plain"])
	for _, p := range d.places() {
		at := math.Round(p.at*180/math.Pi*1e9) / 1e9
		if want[at] != p.fault {
			t.Errorf("%v at %v degrees", p.fault, at)
		}
		delete(want, at)
	}
	if len(want) > 0 {
		t.Errorf("no place of %v", want)
	}
}
