package indicator

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Hold is what keeps a slide valve on its face, where it is held the least in a
// turn. The forces are those of the pressures above the exhaust's.
type Hold struct {
	Down   units.Force // of the steam in the chest on the back of the valve
	Up     units.Force // of what is under it
	Turned units.Angle // crank angle at which it is
	Lifts  bool        // Up is more than Down
}

// Hold returns what keeps the slide valve on its face, at the crank angle at which it
// is held the least:
//
//	down = (ps - pb) * length * width
//	up   = (pc - pb) * cavity * cavity width + sum of (pi - pb) * (covered part of the port) * port length
//
//	ps, pb         pressures in the chest and of the exhaust
//	pc             that in the cavity: at release, of the cylinder that is let out, and
//	               that of the chest while a port is open to both
//	pi             that in the port, of the cylinder behind it
//	length, width  of the valve, along the travel and across it
//	cavity         its length, and its width
//
// The metal of the faces that bear on each other is taken to have nothing between
// them; if steam creeps there it holds less. Weight and springs are left out. The
// widths must be there, and the length of the ports; the valve is wider than its
// cavity, which is as wide as the ports are long or wider. A valve with admission
// inside is pushed off its face, as piston valves may be, and is refused. It is
// statics. See the Example.
func (r Running) Hold(width, cavityWidth units.Length) (Hold, error) {
	if err := r.Validate(); err != nil {
		return Hold{}, err
	}
	if err := fail.Above(fault.Named("width of the valve", width), fault.Named("width of the cavity", cavityWidth)); err != nil {
		return Hold{}, err
	}
	ports := r.Gear.Ports.Length
	switch {
	case r.Gear.InsideAdmission:
		return Hold{}, fail.Wrong("admission", "inside", "steam in the cavity pushes the valve off its face", "outside admission")
	case cavityWidth.Cmp(width) >= 0:
		return Hold{}, fail.OutOfRange("width of the cavity", cavityWidth, "less than the valve's, "+width.String())
	case ports.IsZero():
		return Hold{}, fail.Missing("port length", "above zero, across the travel; half to three quarters of the bore is usual")
	case ports.Cmp(cavityWidth) > 0:
		return Hold{}, fail.OutOfRange("width of the cavity", cavityWidth, "the length of the ports or more, "+ports.String())
	}
	m := r.model()
	square := func(a, b units.Length) float64 {
		return float64(a.Picometres()) * metres * float64(b.Picometres()) * metres
	}
	f := face{
		plan: square(r.Gear.Valve.Length, width), cavity: square(r.Gear.Valve.Cavity, cavityWidth),
		portLength: float64(ports.Picometres()) * metres,
	}
	return m.hold(&f), nil
}

// A face is the areas of a slide valve in square metres.
type face struct{ plan, cavity, portLength float64 }

func (m *model) hold(f *face) Hold {
	head := &m.ends[kernel.Head].cycle
	down := (head.Chest - head.Back) * f.plan
	best := Hold{Up: units.Force(math.Inf(-1))}
	try := func(t, cavity float64) {
		open, place, arcs := m.motion.Openings(t), m.motion.Place(t), m.arcsAt(t)
		if open.Head.Steam > 0 && open.Head.Exhaust > 0 || open.Crank.Steam > 0 && open.Crank.Exhaust > 0 {
			cavity = head.Chest
		}
		up := (cavity - head.Back) * f.cavity
		atHead, atCrank := m.pressures(arcs[0], arcs[1], &place)
		up += (atHead - head.Back) * m.covered(kernel.Head, open.Head) * f.portLength
		up += (atCrank - head.Back) * m.covered(kernel.Crank, open.Crank) * f.portLength
		if units.Force(up) > best.Up {
			best.Up, best.Turned = units.Force(up), units.Angle(turned(t))
		}
	}
	const steps = 720
	for i := range steps {
		try(2*math.Pi*float64(i)/steps, head.Back)
	}
	// Where a port opens, and its pressure is the highest just before, and reaches the cavity at release.
	const before = 1e-9
	for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		s, from := &m.ends[end], float64(i)*math.Pi
		if e := &s.events.Admission; e.Occurs {
			try(e.Crank+from-before, head.Back)
		}
		if e := &s.events.Release; e.Occurs {
			arc := s.round.At(e.Crank - before)
			try(e.Crank+from-before, max(head.Back, arc.At(s.cycle.Clearance+e.Stroke, s.cycle.Index)))
		}
	}
	best.Down = units.Force(down)
	best.Up += 0
	best.Lifts = best.Up > best.Down
	return best
}

// covered returns how much of the width of a port is under the valve's face.
func (m *model) covered(end kernel.End, open kernel.Opening) float64 {
	return max(0, m.motion.Port[end]-open.Steam-open.Exhaust) * metres
}

// turned returns a crank angle of 0 to 360 degrees that points the same way.
func turned(t float64) float64 {
	const turn = 2 * math.Pi
	if t -= turn * math.Floor(t/turn); t >= turn {
		t = 0
	}
	return t + 0
}
