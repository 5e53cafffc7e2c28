package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Sensitivities are what a step of each size, by itself, does to a gear.
type Sensitivities struct {
	Sizes []Sensitivity // in the order of [Dimensions]

	SteamLap, ExhaustLap Sensitivity // of both ends at once, whichever edge of the valve makes it
}

// A Sensitivity is what changes with one size, in proportion.
type Sensitivity struct {
	Dimension   Dimension // none of a lap
	Step        Deviation // that makes the changes
	Head, Crank Changes
}

// Changes are what changes at one end of the cylinder.
type Changes struct {
	Admission, CutOff, Release, Compression Change
	Lead                                    units.Length
}

// A Change is by how much an event comes later.
type Change struct {
	Occurs bool // false if there is no such event; the rest is then zero
	Crank  units.Angle
	Stroke float64 // by how much further from that end the piston stands, as a share of the stroke
}

// At returns the change of one event; the zero Change of none.
func (c Changes) At(e Event) Change {
	if !eventNames.Known(int(e)) {
		return Change{}
	}
	return [...]Change{c.Admission, c.CutOff, c.Release, c.Compression}[e-Admission]
}

// Sensitivities returns what a step of each size by itself changes, in proportion
// to the slope at the sizes of the drawing: of lengths the given step, of the
// advance a degree, of the lever ratio 0.01. With the angle p of the eccentric at
// the event,
//
//	cos(p) = (r^2 - 2*l*c + c^2) / (2*r*(l - c))
//	dp = ((1/r - cos(p)/(l - c))*dc - (1 + c*(2*l - c)/r^2)/(2*(l - c))*dr + (r^2 - c^2)/(2*r*(l - c)^2)*dl) / sin(p)
//	dt = dp - dd on the valve's way out, -dp - dd on its way back
//	ds = (sin(t)/2 + sin(t)*cos(t)/(4*w))*dt + (1 - n/w)*dn
//
//	c      displacement at which the edges pass, as in [eccentric.Gear.Events]
//	r, l   half the travel and eccentric rod
//	d, t   angle of advance and crank angle
//	n, w   connecting rod over stroke, below zero at the crank end, and n less the rod's slant
//
// Small steps add up; of large ones [Study.Worst] has the truth. The step is above
// zero. It is geometry. See the Example.
func (s Study) Sensitivities(step units.Length) (Sensitivities, error) {
	if _, err := s.box(); err != nil {
		return Sensitivities{}, err
	}
	if err := fail.Above(fault.Named("step", step)); err != nil {
		return Sensitivities{}, err
	}
	var all Sensitivities
	for _, v := range s.sizes() {
		by := Deviation{Length: step}
		switch v.dimension {
		case Advance:
			by = Deviation{Angle: units.Degree}
		case LeverRatio:
			by = Deviation{Ratio: 0.01}
		}
		slope := func(end kernel.End, e Event) passing { return s.slope(&v, end, e) }
		all.Sizes = append(all.Sizes, s.sensitivity(v.dimension, by, slope))
	}
	lap := func(moves func(Event) bool, sign float64) Sensitivity {
		return s.sensitivity(0, Deviation{Length: step}, func(_ kernel.End, e Event) (p passing) {
			if moves(e) {
				p.c, p.s = sign, sign
			}
			return p
		})
	}
	all.SteamLap = lap(func(e Event) bool { return e == Admission || e == CutOff }, 1)
	all.ExhaustLap = lap(func(e Event) bool { return e == Release || e == Compression }, -1)
	return all, nil
}

// sizes returns the sizes of the gear that its events depend on.
func (s *Study) sizes() []varied {
	toleranced := map[Dimension]bool{}
	for _, t := range s.Tolerances {
		toleranced[t.Dimension] = true
	}
	k := s.Gear.Kernel()
	var all []varied
	for _, d := range Dimensions() {
		v := varied{dimension: d, drawn: *d.in(&k)}
		switch {
		case d.absent(&s.Gear) || d == ChestLength:
			continue
		case d == PortSteam:
			v.both = s.Gear.Ports.CrankSteam.IsZero() && !toleranced[CrankSteam]
		case d == PortBar:
			v.both = s.Gear.Ports.CrankBar.IsZero() && !toleranced[CrankBar]
		case d == CrankSteam && s.Gear.Ports.CrankSteam.IsZero() && !toleranced[d],
			d == CrankBar && s.Gear.Ports.CrankBar.IsZero() && !toleranced[d]:
			continue
		}
		all = append(all, v)
	}
	return all
}

// slope returns by how much each part that an event depends on changes for one of a
// size. All are linear in it, but for the connecting rod over the stroke.
func (s *Study) slope(v *varied, end kernel.End, e Event) passing {
	by := 1e6 // a micron
	switch v.dimension {
	case Advance, LeverRatio:
		by = 1e-3
	}
	g := s.Gear.Kernel()
	p := passingOf(&g, end, e)
	v.set(&g, v.drawn+by)
	slope := passingOf(&g, end, e).less(p).times(1 / by)
	if v.dimension == Stroke {
		slope.rod = -p.rod / v.drawn
	}
	return slope
}

// sensitivity makes the changes of a step from the slopes of the parts.
func (s *Study) sensitivity(d Dimension, step Deviation, slope func(kernel.End, Event) passing) Sensitivity {
	all := Sensitivity{Dimension: d, Step: step}
	by := d.count(step)
	for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		changes := [...]*Changes{&all.Head, &all.Crank}[i]
		for _, e := range Events() {
			crank, stroke, occurs := s.moves(end, e, slope(end, e))
			if occurs {
				*changes.at(e) = Change{true, units.Angle(by * crank), by * stroke}
			}
		}
		changes.Lead = toLength(by * s.leads(end, slope(end, Admission)))
	}
	return all
}

func (c *Changes) at(e Event) *Change {
	return [...]*Change{&c.Admission, &c.CutOff, &c.Release, &c.Compression}[e-Admission]
}

// moves returns by how much an event comes later, in radians and as a share of the
// stroke, where the parts that it depends on change so; false where there is none.
func (s *Study) moves(end kernel.End, e Event, by passing) (crank, stroke float64, occurs bool) {
	g := s.Gear.Kernel()
	p := passingOf(&g, end, e)
	if !p.occurs() {
		return 0, 0, false
	}
	angle := p.angle()
	sin, cos := math.Sincos(angle)
	byC, byR, byL := p.cosines(cos)
	turned := -(byC*by.c + byR*by.r + byL*by.l) / sin
	if !e.out() {
		turned = -turned
	}
	crank = turned - by.d
	// s = sin(t/2)^2 + n - sqrt(n^2 - sin(t)^2/4), below zero n with the other sign of the root
	t := p.crank(e, angle)
	sin, cos = math.Sincos(t)
	root := math.Copysign(math.Sqrt((p.rod-sin/2)*(p.rod+sin/2)), p.rod)
	stroke = (sin/2+sin*cos/4/root)*crank + (1-p.rod/root)*by.rod
	return crank, stroke + 0, true
}

// leads returns by how much the lead of an end grows.
func (s *Study) leads(end kernel.End, by passing) float64 {
	g := s.Gear.Kernel()
	p := passingOf(&g, end, Admission)
	sin, cos := math.Sincos(p.d)
	aside := p.r * cos
	root := math.Copysign(math.Sqrt((p.l-aside)*(p.l+aside)), p.l)
	driver := p.r*sin + aside*aside/(p.l+root) // r*sin(d) + l - sqrt(l^2 - (r*cos(d))^2)
	switch {
	case cos >= 0 && driver-p.late < p.late-p.r: // at rest since it turned back
		return by.late - by.r - by.s
	case cos < 0 && driver+p.late > p.r-p.late:
		return by.r - by.late - by.s
	}
	moved := (sin+aside*cos/root)*by.r + (p.r*cos-p.r*aside*sin/root)*by.d + (1-p.l/root)*by.l - by.s
	if cos >= 0 {
		return moved - by.late
	}
	return moved + by.late
}
