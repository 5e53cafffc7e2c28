package indicator

import (
	"errors"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Flywheel is a one-piece wheel by its sizes: a rim, a web or none, a boss or none.
type Flywheel struct {
	Diameter units.Length // over the rim
	RimWidth units.Length // along the shaft
	RimDepth units.Length // along the radius

	Web units.Length // its thickness along the shaft; zero: spokes, which are left out

	Boss, BossWidth units.Length // its diameter and its width along the shaft; zero: none
	Bore            units.Length // zero: none

	Metal material.Material // with a density
}

// mostWheel is more than any flywheel measures.
var mostWheel = units.MM(100_000)

// Validate reports every size that no flywheel can have, and a metal without a
// density, as [*units.ArgumentError] joined.
func (f Flywheel) Validate() error {
	var problems []error
	refuse := func(err error) { problems = append(problems, err) }
	sound := true
	for _, must := range []struct {
		field string
		size  units.Length
	}{{"diameter of the flywheel", f.Diameter}, {"width of the rim", f.RimWidth}, {"depth of the rim", f.RimDepth}} {
		if must.size.IsZero() {
			refuse(fail.Missing(must.field, "a length above zero"))
			sound = false
		}
	}
	for _, may := range []struct {
		field string
		size  units.Length
	}{
		{"diameter of the flywheel", f.Diameter}, {"width of the rim", f.RimWidth}, {"depth of the rim", f.RimDepth},
		{"thickness of the web", f.Web}, {"diameter of the boss", f.Boss}, {"width of the boss", f.BossWidth},
		{"bore of the flywheel", f.Bore},
	} {
		if may.size.Sign() < 0 || may.size.Cmp(mostWheel) > 0 {
			refuse(fail.OutOfRange(may.field, may.size, "above zero, up to 100 m"))
			sound = false
		}
	}
	if !f.Metal.Density.Known() {
		refuse(fail.Missing("metal of the flywheel", "a material whose density we have, such as cast iron"))
	}
	if !sound {
		return errors.Join(problems...)
	}
	hollow := f.Diameter.Sub(f.RimDepth.Scale(2)) // inside the rim
	switch {
	case hollow.Sign() < 0:
		refuse(fail.OutOfRange("depth of the rim", f.RimDepth, "up to half the diameter, "+f.Diameter.Scale(0.5).String()))
	case f.Boss.Cmp(hollow) > 0:
		refuse(fail.OutOfRange("diameter of the boss", f.Boss, "up to that inside the rim, "+hollow.String()))
	}
	if f.Boss.IsZero() != f.BossWidth.IsZero() {
		refuse(fail.Wrong("width of the boss", f.BossWidth, "diameter and width of the boss go together", "both or none"))
	}
	if within := f.Boss; !f.Bore.IsZero() && !within.IsZero() && f.Bore.Cmp(within) >= 0 {
		refuse(fail.OutOfRange("bore of the flywheel", f.Bore, "less than the boss, "+within.String()))
	}
	if f.Boss.IsZero() && hollow.Sign() >= 0 && f.Bore.Cmp(hollow) > 0 {
		refuse(fail.OutOfRange("bore of the flywheel", f.Bore, "less than that inside the rim, "+hollow.String()))
	}
	return errors.Join(problems...)
}

// Wheel returns the mass of the wheel and its radius of gyration, each part a ring of
// its own:
//
//	m = density * pi * (R^2 - r^2) * b
//	k = sqrt(sum of m * (R^2 + r^2)/2 / sum of m)
//
//	R, r  outer and inner radius: of the rim; of the web, from boss to rim; of the boss, with its bore
//	b     width of the part along the shaft
//
// A web is taken as a plain disc without holes. Spokes are left out: they add little
// to k. It is geometry. See the Example.
func (f Flywheel) Wheel() (holding.Wheel, error) {
	if err := f.Validate(); err != nil {
		return holding.Wheel{}, err
	}
	density := f.Metal.Density.Value
	outer := f.Diameter.Metres() / 2
	inner := max(0, outer-f.RimDepth.Metres())
	boss, bore := f.Boss.Metres()/2, f.Bore.Metres()/2
	mass, inertia := 0.0, 0.0
	ring := func(R, r, b float64) {
		if R <= r || b <= 0 {
			return
		}
		m := float64(density) * math.Pi * (R - r) * (R + r) * b
		mass += m
		inertia += m * (R*R + r*r) / 2
	}
	ring(outer, inner, f.RimWidth.Metres())
	ring(inner, max(boss, bore), f.Web.Metres())
	ring(boss, bore, f.BossWidth.Metres())
	return holding.Wheel{Mass: units.Mass(mass), Gyration: units.MM(1000 * math.Sqrt(inertia/mass))}, nil
}

// An Excess is the energy that the turning moment gives and takes back in a turn while
// the load takes the mean.
type Excess struct {
	Energy   units.Energy // between the slowest and the fastest place of the turn
	Share    float64      // of the work of a turn; the books' coefficient of fluctuation of energy
	Slowest  units.Angle  // of the first crank, 0 to 360 degrees after the head-end dead centre
	Fastest  units.Angle
	Crossing []units.Angle // where the moment goes through the mean, in order; at a jump too
}

// Excess returns the energy that a flywheel has to store. Between the angles at which
// the turning moment crosses its mean it gives
//
//	a = integral of (T - mean) dt
//	E = greatest - least of (a1, a1 + a2, a1 + a2 + a3, ...)
//
//	T     turning moment of [Running.At], of all cylinders, with the inertia of Moving at Speed
//	mean  work of a turn / (2*pi), which the load takes evenly
//
// each a in closed form. An engine that gives no work has no such load: that is an
// error, as is what [Running.Validate] refuses. Source: T. Bevan, The Theory of
// Machines, chapter 12. See the Example.
func (r Running) Excess() (Excess, error) {
	if err := r.Validate(); err != nil {
		return Excess{}, err
	}
	m := r.model()
	return m.excess()
}

func (m *model) excess() (Excess, error) {
	work := float64(m.cycle().Work) * float64(len(m.cylinders))
	if !(work > 0) {
		return Excess{}, fail.Wrong("gear", fmt.Sprintf("%.3g J a turn", work), "gives no work that a flywheel could even out",
			"a gear and pressures that drive the engine")
	}
	mean := work / (2 * math.Pi)
	pieces := m.pieces()
	var at, areas []float64 // up to which angle, and the energy above the mean since the one before
	e := Excess{}
	above := func(p *piece, t float64) bool { return m.moment(p, t) > mean }
	last := above(&pieces[len(pieces)-1], pieces[len(pieces)-1].stop(1, 1))
	for i := range pieces {
		p := &pieces[i]
		from, of := p.from, p.stops()
		cut := func(to float64) {
			areas = append(areas, m.given(p, from, to)-mean*(to-from))
			at = append(at, to)
			from = to
		}
		was, t := above(p, p.stop(0, of)), p.stop(0, of)
		if was != last {
			e.Crossing = append(e.Crossing, units.Angle(turned(p.from)))
		}
		for s := 1; s <= of; s++ {
			next := p.stop(s, of)
			is := above(p, next)
			if is != was {
				change := crossing(func(t float64) bool { return above(p, t) != was }, t, next)
				cut(change)
				e.Crossing = append(e.Crossing, units.Angle(turned(change)))
			}
			t, was = next, is
		}
		cut(p.to)
		last = was
	}
	low, high, span := fluctuation(areas)
	e.Energy, e.Share = units.Energy(span), span/work
	e.Slowest, e.Fastest = units.Angle(turned(at[low])), units.Angle(turned(at[high]))
	return e, nil
}

// fluctuation returns after which of some energies, added up in order round a turn, the
// sum is the least and the greatest, and how far apart they are.
func fluctuation(areas []float64) (low, high int, span float64) {
	sum, least, most := 0.0, math.Inf(1), math.Inf(-1)
	for i, a := range areas {
		sum += a
		if sum < least {
			low, least = i, sum
		}
		if sum > most {
			high, most = i, sum
		}
	}
	return low, high, most - least
}

// An Evenness is how evenly a flywheel keeps the engine turning.
type Evenness struct {
	Excess Excess
	Wheel  holding.Wheel
	Share  float64 // swing over the mean speed; the books' coefficient of fluctuation of speed

	// Fastest less slowest in a turn, and both; zero where the wheel is too light for
	// the speed to have such a mean, which is then in Findings.
	Swing    units.RotationalSpeed
	Min, Max units.RotationalSpeed

	Steady   units.RotationalSpeed // from which on the swing is a third of the mean or less
	Findings finding.List
}

// Evenness returns how far the speed swings in a turn about Speed, which must be there,
// while the load takes the mean moment:
//
//	Cs = (w1 - w2) / w = E / (m * k^2 * w^2)
//
//	E     energy of [Running.Excess]
//	m, k  mass of the wheel and its radius of gyration: of a [Flywheel] by [Flywheel.Wheel]
//	w     Speed in radians a second
//
// A swing of more than a third of the mean is WheelTooLight. A load that is not even,
// and the masses of crank and shaft, are left out. Source: T. Bevan, The Theory of
// Machines, chapter 12; [holding.Wheel.SpeedSwing]. See the Example of
// [Flywheel.Wheel].
func (r Running) Evenness(w holding.Wheel) (Evenness, error) {
	if err := r.spinning(); err != nil {
		return Evenness{}, err
	}
	if err := w.Validate(); err != nil {
		return Evenness{}, err
	}
	excess, err := r.Excess()
	if err != nil {
		return Evenness{}, err
	}
	k := w.Gyration.Metres()
	inertia := float64(w.Mass) * k * k
	e := Evenness{
		Excess: excess, Wheel: w,
		Share:  float64(excess.Energy) / (inertia * float64(r.Speed) * float64(r.Speed)), // Cs = E / (m k^2 w^2)
		Steady: units.RotationalSpeed(math.Sqrt(float64(excess.Energy) / (inertia * mostEvenness))),
	}
	if math.IsInf(e.Share, 0) || math.IsInf(float64(e.Steady), 0) {
		return Evenness{}, fail.OutOfRange("mass", w.Mass, "that of a wheel, such as 0.5 kg")
	}
	if e.Share > mostEvenness {
		e.Findings = finding.List{{
			Code: WheelTooLight, Severity: finding.Note, Where: "flywheel",
			Text: fmt.Sprintf("At %.0f rev/min the wheel is too light to carry the whole load of the cycle over a turn: the speed would swing"+
				" by %.0f %% of its mean. From %.0f rev/min on it is a third or less; lightly loaded the engine turns below that too.",
				r.Speed.In(units.RevPerMinute), 100*e.Share, math.Ceil(e.Steady.In(units.RevPerMinute))),
			Remedies: []string{"A larger or heavier rim cures it, or a higher speed or a light load."},
			Refs:     source.Shared(&bevanWheels),
		}}
		return e, nil
	}
	if e.Swing, err = w.SpeedSwing(excess.Energy, r.Speed); err != nil {
		return Evenness{}, err
	}
	e.Min, e.Max = r.Speed-e.Swing/2, r.Speed+e.Swing/2
	return e, nil
}

var bevanWheels = source.Ref{Kind: source.Published, Title: "The Theory of Machines, by T. Bevan", Edition: "edition not known",
	Locator: "chapter 12", Note: "crank effort and flywheels"}

// The shares of the mean speed by which it may swing.
const (
	leastEvenness, mostEvenness = 0.0001, 1.0 / 3

	usualEvenness = "above 0.01 % to a third of the mean speed; 2 to 5 % is usual for machines, a model that shows its motion does with 10 %"
)

// WheelFor returns the mass that a wheel needs, at a radius of gyration, for the speed
// to swing by no more than a share of the mean, such as 0.02:
//
//	m = E / (Cs * k^2 * w^2)
//
//	Cs  share, 0.0001 to 1/3
//	k   radius of gyration, above zero: nearly the mean radius of a rim
//
// with E and w as for [Running.Evenness]. Speed must be there. See the Example.
func (r Running) WheelFor(share float64, gyration units.Length) (holding.Wheel, error) {
	if err := r.spinning(); err != nil {
		return holding.Wheel{}, err
	}
	if share == 0 {
		return holding.Wheel{}, fail.Missing("evenness", usualEvenness)
	}
	if !(share >= leastEvenness && share <= mostEvenness) {
		return holding.Wheel{}, fail.OutOfRange("evenness", share, usualEvenness)
	}
	if err := fail.Above(fault.Named("radius of gyration", gyration)); err != nil {
		return holding.Wheel{}, err
	}
	excess, err := r.Excess()
	if err != nil {
		return holding.Wheel{}, err
	}
	mass := massFor(float64(excess.Energy), share, gyration.Metres(), float64(r.Speed))
	if math.IsInf(mass, 0) {
		return holding.Wheel{}, fail.OutOfRange("radius of gyration", gyration, "a radius of a wheel, such as 40 mm")
	}
	return holding.Wheel{Mass: units.Mass(mass), Gyration: gyration}, nil
}

// massFor returns the mass in kg that evens out an energy to a share of the speed w, at
// a radius of gyration k.
func massFor(energy, share, k, w float64) float64 {
	return energy / (share * k * k * w * w) // m = E / (Cs k^2 w^2)
}
