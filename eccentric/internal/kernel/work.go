package kernel

import "math"

// A Cycle is what the ideal steam does in it: it has the chest's pressure while
// the port is open to steam, the back pressure while it is open to exhaust
// alone, and follows p*V^k while it is shut, from the state at the last closing.
// The pressure jumps where a port opens.
type Cycle struct {
	Chest, Back float64 // absolute, in the unit that the answer is to have
	Clearance   float64 // at each end, as a share of its swept volume; above zero
	Index       float64 // k
}

// reference is the cycle by which [Gear.Judge] tells whether a gear makes work:
// 2 bar on the gauge, a usual clearance, the hyperbola of the old books.
var reference = Cycle{Chest: 3, Back: 1, Clearance: 0.08, Index: 1}

// LeastWork is the share of the difference of pressure that a gear must make
// into mean net pressure. Gears that cut off after a third of the stroke give 0.4
// and more; a sheave in line with the crank gives 0.2 at the best, whichever way
// it turns, and most often a brake.
const LeastWork = 0.3

// LeastOfEarly is the least share of a gear whose eccentric stands right for its
// lap and whose valve cuts off early: 0.1 comes at a cut-off of about an eighth of
// the stroke. What friction leaves of less turns nothing.
const LeastOfEarly = 0.1

// MeanPressure returns the net work of the cycle at one end over that end's
// swept volume, the closed integral of p dV; below zero the end works as a brake.
// Shares of the stroke stand for volumes, so that no bore is wanted.
//
// The edges that open the port to steam and to exhaust move as one, so that the
// valve passes them in the same order whatever the advance: on its way back
// cut-off and then release, on its way out compression and then admission, the
// other way round where the land is narrower than the port. Only the crank
// angles at which it does so depend on where the sheave stands.
func (e *EndEvents) MeanPressure(c *Cycle) float64 {
	volume := func(at *Event) float64 { return c.Clearance + at.Stroke }
	steam, exhaust := e.Steam == OpensAndCloses, e.Exhaust == OpensAndCloses
	a, o := volume(&e.Admission), volume(&e.CutOff)
	r, k := volume(&e.Release), volume(&e.Compression)
	switch {
	case steam && (e.Exhaust == NeverCloses || exhaust && e.Release.Crank < e.CutOff.Crank):
		return (c.Chest - c.Back) * (o - a) // never shut: what is not open to steam is open to exhaust
	case steam && exhaust:
		return c.Chest*(o-a+c.along(o, r)) + c.Back*(k-r+c.along(k, a))
	case steam:
		return c.Chest * (o - a + c.along(o, a)) // shut from cut-off to admission
	case exhaust && e.Steam == NeverOpens:
		return c.Back * (k - r + c.along(k, r))
	}
	return 0 // one pressure all the way round, or what is shut in springs back
}

// along returns the integral of p dV from one volume to another along p*V^k, for
// a pressure of one at the first:
//
//	V1*ln(V2/V1)                              k = 1
//	V1*((V2/V1)^(1-k) - 1) / (1 - k)          otherwise
func (c *Cycle) along(from, to float64) float64 {
	log := math.Log(to / from)
	// With u = (1-k)*ln(V2/V1) both are V1*ln(V2/V1)*(e^u - 1)/u, which keeps its digits where k is all but 1.
	if u := (1 - c.Index) * log; u != 0 {
		log *= math.Expm1(u) / u
	}
	return from * log
}

// NetShare returns the mean of both ends' mean pressures as a share of the
// difference between chest and back pressure.
func (e *Events) NetShare(c *Cycle) float64 {
	return (e.Head.MeanPressure(c) + e.Crank.MeanPressure(c)) / 2 / (c.Chest - c.Back)
}

// Share is [Events.NetShare] in the cycle by which gears are judged.
func (e *Events) Share() float64 { return e.NetShare(&reference) }
