package indicator

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Pipe is what the medium of an engine comes or goes by.
type Pipe struct {
	Flow     units.VolumeFlow // on the average, at the pressure in it
	Peak     units.VolumeFlow // at the crank angle that draws the most
	Bore     units.Length     // for the flow on the average, at the stated velocity
	PeakBore units.Length     // for the peak at that velocity
	Take     units.Length     // whole millimetres, no narrower than PeakBore
	// Tubes are no narrower than PeakBore, one as it is sold in millimetres and one in
	// inches; none where it is wider than all.
	Tubes []Tube
	Refs  source.Refs
}

// A Tube is a copper or brass tube as it is sold. Its wall is far more than these
// pressures ask for: 40 bar stress that of the widest here by 28 MPa.
type Tube struct{ Outside, Wall units.Length }

// Bore returns what is inside the wall.
func (t Tube) Bore() units.Length { return t.Outside.Sub(t.Wall.Scale(2)) }

var (
	tredgoldPipe = source.Ref{
		Kind: source.Published, Title: "Tredgold, The Steam Engine", Edition: "volume 1, 19th century", Locator: "p. 95",
		Note: "both pipes, the square root of stroke in feet times strokes a minute over 2400: 24 m/s",
	}
	babcockPipe = source.Ref{
		Kind: source.Published, Title: "Babcock and Wilcox, Steam: its generation and use", Edition: "35th edition, 1919", Locator: "Piping, size of steam lines",
		Note: "6000 ft/min, once good practice: 30 m/s",
	}
)

const (
	usualVelocity = "15 to 30 m/s is usual in the pipes of an engine: Tredgold has 24 m/s for both, works of 1919 30 m/s for steam"
	leastVelocity = 1 * units.MetrePerSecond
	mostVelocity  = 100 * units.MetrePerSecond
	mostBore      = 1e3 // m
)

// SteamPipe returns the bore of the pipe to the chest, on steam or on air, for a
// velocity in it from 1 to 100 m/s:
//
//	Q = n * (Vo - Vk*pb/ps)    of all ends
//	d = sqrt(4 * Q / (pi * w))
//
//	Q       flow at the pressure in the chest, of air; on steam Vk*vs/vb for the second term
//	Vo, Vk  volumes at cut-off and at compression, clearance and all
//	ps, pb  pressures in the chest and of the exhaust, absolute
//	vs, vb  volumes of a kilogram of dry saturated steam at both
//	w       velocity
//	n       turns in a given time
//
// The peak is what the pistons draw together where they draw the most, while their
// ports are open to steam: a chest that is small beside the cylinder hands it on to
// the pipe. Source: continuity; Tredgold's rule for pipes is the flow of whole strokes
// at 24 m/s. The speed must be given. See the Example.
func (r Running) SteamPipe(velocity units.Speed) (Pipe, error) {
	flow, m, err := r.drawn(velocity)
	if err != nil {
		return Pipe{}, err
	}
	return pipe(flow, m.peak(kernel.ToSteam, r.Speed), velocity)
}

// ExhaustPipe is [Running.SteamPipe] for the pipe behind the exhaust: the same medium
// at the pressure of the exhaust, Q*ps/pb for air, Q*vb/vs for steam as if it were dry
// there. The puff at release is faster still, and what is left of it is the back
// pressure.
func (r Running) ExhaustPipe(velocity units.Speed) (Pipe, error) {
	flow, m, err := r.drawn(velocity)
	if err != nil {
		return Pipe{}, err
	}
	chest, back := contents{m.ends[kernel.Head].cycle.Chest, 1}, contents{m.ends[kernel.Head].cycle.Back, 1}
	thicker := chest.pressure / back.pressure
	if r.Medium == Steam {
		in, err := chest.weight()
		if err != nil {
			return Pipe{}, err
		}
		out, err := back.weight()
		if err != nil {
			return Pipe{}, err
		}
		thicker = in / out
	}
	return pipe(flow*thicker, m.peak(kernel.ToExhaust, r.Speed), velocity)
}

// drawn returns the flow on the average at the pressure in the chest, in m3/s.
func (r *Running) drawn(velocity units.Speed) (float64, *model, error) {
	if err := r.spinning(); err != nil {
		return 0, nil, err
	}
	if velocity == 0 {
		return 0, nil, fail.Missing("velocity in the pipe", usualVelocity)
	}
	if !(velocity >= leastVelocity && velocity <= mostVelocity) {
		return 0, nil, fail.OutOfRange("velocity in the pipe", velocity, "1 to 100 m/s; "+usualVelocity)
	}
	m := r.model()
	turn := 0.0
	for _, end := range []kernel.End{kernel.Head, kernel.Crank} {
		charge, rest := m.charge(end), m.rest(end)
		if r.Medium == Air {
			turn += free(charge, rest, m.ends[end].cycle.Chest)
			continue
		}
		left, err := rest.weight()
		if err != nil {
			return 0, nil, err
		}
		one, err := contents{m.ends[end].cycle.Chest, 1}.weight()
		if err != nil {
			return 0, nil, err
		}
		turn += charge.volume - left/one
	}
	if turn <= 0 {
		return 0, nil, fail.Wrong("gear", fmt.Sprintf("%.3g cm3 a turn", 1e6*turn), "takes nothing from the chest", "a gear that drives the engine")
	}
	return turn * float64(r.Cylinders()) * turns(r.Speed), m, nil
}

// peak returns the greatest volume in m3/s by which the pistons move away from the
// ends that are open to steam, or towards those that are open to exhaust.
func (m *model) peak(open kernel.Supply, speed units.RotationalSpeed) float64 {
	way := 1.0
	if open == kernel.ToExhaust {
		way = -1
	}
	drawn := func(p *piece, t float64) float64 {
		sum := 0.0
		for i, ahead := range m.cylinders {
			moves := m.motion.Place(t+ahead).Moves * m.stroke
			if p.arcs[i][0].State == open {
				sum += m.ends[kernel.Head].area * moves
			}
			if p.arcs[i][1].State == open {
				sum -= m.ends[kernel.Crank].area * moves
			}
		}
		return way * sum
	}
	most := extreme(m.pieces(), drawn, 1)
	return max(0, float64(most.Torque)) * speed.In(units.RadianPerSecond)
}

func pipe(flow, peak float64, velocity units.Speed) (Pipe, error) {
	bore, widest := boreFor(flow, velocity), boreFor(max(flow, peak), velocity)
	if !(widest <= mostBore) {
		return Pipe{}, fail.OutOfRange("bore of the pipe", fmt.Sprintf("%.3g m", widest), "up to 1 km")
	}
	p := Pipe{
		Flow: units.VolumeFlow(flow), Peak: units.VolumeFlow(max(flow, peak)),
		Bore: units.MM(1000 * bore), PeakBore: units.MM(1000 * widest), Take: units.MM(math.Ceil(1000*widest - 1e-9)),
		Refs: source.Of(tredgoldPipe, babcockPipe, source.Practice()),
	}
	for _, sold := range [][]Tube{metricTubes(), inchTubes()} {
		if i := slices.IndexFunc(sold, func(t Tube) bool { return t.Bore().Cmp(p.PeakBore) >= 0 }); i >= 0 {
			p.Tubes = append(p.Tubes, sold[i])
		}
	}
	return p, nil
}

// metricTubes returns the tubes that are sold in millimetres, and inchTubes those in
// inches with walls of 24, 22, 20 and 18 in the standard wire gauge, the narrowest
// bore first: common practice.
func metricTubes() []Tube {
	var sold []Tube
	for _, t := range [][2]float64{{2, 0.5}, {3, 0.5}, {4, 0.5}, {5, 0.5}, {6, 0.5}, {8, 1}, {10, 1}, {12, 1}, {15, 1}} {
		sold = append(sold, Tube{units.MM(t[0]), units.MM(t[1])})
	}
	return sold
}

func inchTubes() []Tube {
	var sold []Tube
	for _, t := range []struct {
		thirtySeconds int
		wall          float64
	}{{3, 0.022}, {4, 0.028}, {5, 0.028}, {6, 0.028}, {7, 0.028}, {8, 0.036}, {10, 0.036}, {12, 0.036}, {16, 0.048}} {
		sold = append(sold, Tube{units.InchFraction(t.thirtySeconds, 32), units.Inch(t.wall)})
	}
	return sold
}

// boreFor returns the bore in m for a flow in m3/s.
func boreFor(flow float64, velocity units.Speed) float64 {
	return math.Sqrt(4 * flow / (math.Pi * float64(velocity)))
}
