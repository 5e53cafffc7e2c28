package setting

import (
	"math"
	"math/rand/v2"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A bench is a gear set up piece by piece, in plain millimetres and radians: crank
// pin, sheave, eccentric rod on a straight line, lever, valve on its spindle, ports in
// the face. It shares no code with the library.
type bench struct {
	travel, rod, lever float64 // rod: zero for one without end
	stands             float64 // of the sheave, ahead of the crank
	lost               float64
	inside             bool
	valve, cavity      float64
	spindle            float64 // where the middle of the valve is put, towards the crank
	cavityOff          float64
	head, crank        [2]float64 // port: its edges from the middle of the face, the outer one first
}

// benchOf sets a gear up, with the sheave where the drawing has it.
func benchOf(g eccentric.Gear) *bench {
	b := &bench{
		travel: g.Travel.MM(), lever: g.LeverRatio, stands: g.EccentricLead().Radians(),
		lost: g.Valve.LostMotion.MM(), inside: g.InsideAdmission,
		valve: g.Valve.Length.MM(), cavity: g.Valve.Cavity.MM(),
		spindle: g.Valve.Offset.MM(), cavityOff: g.Valve.CavityOffset.MM(),
	}
	if l, ok := g.EccentricRod.Length(); ok {
		b.rod = l.MM()
	}
	if b.lever == 0 {
		b.lever = 1
	}
	port, bar := g.Ports.At(eccentric.HeadEnd)
	inner := -g.Ports.Exhaust.MM()/2 - bar.MM()
	b.head = [2]float64{inner - port.MM(), inner}
	port, bar = g.Ports.At(eccentric.CrankEnd)
	inner = g.Ports.Exhaust.MM()/2 + bar.MM()
	b.crank = [2]float64{inner + port.MM(), inner}
	return b
}

// drive is where the spindle is driven to with the crank at t from the head-end dead
// centre, towards the crank: the crank pin stands towards the cylinder there.
func (b *bench) drive(t float64) float64 {
	r := b.travel / 2 / math.Abs(b.lever)
	at := t + b.stands
	// The sheave's centre from the shaft, towards the cylinder and across.
	towards, across := r*math.Cos(at), r*math.Sin(at)
	end := towards // of the rod
	if b.rod > 0 {
		end += math.Sqrt(b.rod*b.rod-across*across) - b.rod
	}
	return -end * b.lever
}

// stand returns where the middle of the valve is at t, after it has been brought there
// from a turn and more before, in small steps, the way the engine runs.
func (b *bench) stand(t float64) float64 {
	if b.lost == 0 {
		return b.drive(t) + b.spindle
	}
	const steps = 4000
	x := b.drive(t - 3*math.Pi)
	for i := 0; i <= steps; i++ {
		d := b.drive(t - 3*math.Pi*float64(steps-i)/steps)
		x = min(max(x, d-b.lost/2), d+b.lost/2)
	}
	return x + b.spindle
}

// steam is how far the steam edge of an end has run past the port's edge with the
// middle of the valve at x.
func (b *bench) steam(x float64, end eccentric.End) float64 {
	switch {
	case end == eccentric.HeadEnd && !b.inside:
		return x - b.valve/2 - b.head[0]
	case end == eccentric.HeadEnd:
		return b.head[1] - (x + b.cavityOff - b.cavity/2)
	case !b.inside:
		return b.crank[0] - (x + b.valve/2)
	}
	return x + b.cavityOff + b.cavity/2 - b.crank[1]
}

// lead is read at a dead centre, both ways round zero.
func (b *bench) lead(end eccentric.End) float64 {
	t := 0.0
	if end == eccentric.CrankEnd {
		t = math.Pi
	}
	return b.steam(b.stand(t), end)
}

// random is a gear that an engine may have, in all that can be built, with its sheave
// for the direction in which it runs.
func random(r *rand.Rand) eccentric.Gear {
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	mm := func(low, high float64) units.Length { return units.MM(math.Round(100*between(low, high)) / 100) }
	g := eccentric.Gear{
		Stroke: mm(15, 60), ConnectingRod: eccentric.InfiniteRod(), EccentricRod: eccentric.InfiniteRod(),
		Ports:   eccentric.Ports{Steam: mm(1, 4), Bar: mm(1, 4), Exhaust: mm(2, 8), Length: mm(4, 20)},
		Advance: units.Angle(between(5, 55)) * units.Degree,
	}
	if r.IntN(4) > 0 {
		g.ConnectingRod = eccentric.RodOf(g.Stroke.Scale(between(1.5, 5)))
	}
	if r.IntN(3) == 0 {
		g.Ports.CrankSteam = g.Ports.Steam.Add(mm(-0.3, 0.3))
	}
	laps := eccentric.Laps{Steam: mm(0.3, 2), Exhaust: mm(-0.2, 0.3)}
	g.Valve = g.Ports.ValveWith(laps)
	if g.InsideAdmission = r.IntN(3) == 0; g.InsideAdmission {
		g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: laps.Exhaust, Exhaust: laps.Steam})
	}
	if r.IntN(3) == 0 {
		g.Valve.CavityOffset = mm(-0.1, 0.1)
	}
	g.Travel = laps.Steam.Add(g.Ports.Steam.Scale(between(0.8, 1.1))).Scale(2)
	if r.IntN(3) == 0 {
		g.Valve.LostMotion = mm(0, 0.3)
	}
	g.Valve.Offset = mm(-0.2, 0.2)
	if r.IntN(2) == 0 {
		g.LeverRatio = []float64{-1.25, -1, -0.8, 0.75, 1.5}[r.IntN(5)]
	}
	if r.IntN(4) > 0 {
		g.EccentricRod = eccentric.RodOf(g.EccentricOffset().Scale(between(6, 30)))
	}
	return g
}
