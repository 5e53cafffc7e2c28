package diagnosis_test

import (
	"math"
	"math/rand/v2"
)

// A plant is a fault that an engine is built with, and by how much: degrees for
// advance, millimetres at the valve for the others, nothing for a place.
type plant struct {
	fault  string
	end    string
	amount float64
}

// kinds are the fourteen single faults.
var kinds = []plant{
	{fault: "advance"}, {fault: "valve_off_centre"}, {fault: "travel"}, {fault: "lost_motion"},
	{fault: "steam_lap", end: "both"}, {fault: "steam_lap", end: "head"}, {fault: "steam_lap", end: "crank"},
	{fault: "exhaust_lap", end: "both"}, {fault: "exhaust_lap", end: "head"}, {fault: "exhaust_lap", end: "crank"},
	{fault: "eccentric_other_hand"}, {fault: "eccentric_opposite"},
	{fault: "eccentric_in_line"}, {fault: "eccentric_no_advance"},
}

// places are where a sheave of that advance may have been put, in degrees.
func places(advance float64) map[string][]float64 {
	return map[string][]float64{
		"eccentric_other_hand": {180 - advance},
		"eccentric_opposite":   {advance - 180},
		"eccentric_in_line":    {90, -90},
		"eccentric_no_advance": {0},
	}
}

const (
	usualLength  = 0.1 // tolerances that stand where none are given: mm
	usualAdvance = 3   // and degrees
)

// scatter returns an engine that is as drawn within the usual tolerances, of which a
// third is a standard deviation.
func scatter(r *rand.Rand) (m mistakes) {
	length := func() float64 { return usualLength / 3 * r.NormFloat64() }
	m.advance = usualAdvance / 3 * r.NormFloat64()
	m.offset, m.sheave = length(), length()
	for end := range 2 {
		m.steam[end], m.exhaust[end] = length(), length()
	}
	m.played = math.Abs(length())
	return m
}

// sized draws the amount of a fault of that kind: larger than anybody's tolerance.
func (p plant) sized(r *rand.Rand, d *drawing) plant {
	in := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	width := math.Min(d.port[0], d.port[1])
	sign := float64(2*r.IntN(2) - 1)
	switch p.fault {
	case "advance":
		for near := true; near; {
			p.amount = sign * in(6, 40)
			near = false
			for _, at := range places(d.advance) {
				for _, place := range at {
					near = near || math.Abs(math.Remainder(d.advance+p.amount-place, 360)) < 9
				}
			}
			sign = -sign
		}
	case "lost_motion":
		p.amount = in(0.2, 0.6)
	case "travel": // twice what the sheave is out
		p.amount = sign * 2 * in(0.2, 0.5*width)
	case "valve_off_centre", "steam_lap", "exhaust_lap":
		p.amount = sign * in(0.2, 0.5*width)
	}
	return p
}

// into puts the fault into the engine.
func (p plant) into(m *mistakes, r *rand.Rand, d *drawing) {
	ends := map[string][]int{"head": {0}, "crank": {1}}[p.end]
	switch p.fault {
	case "advance":
		m.advance += p.amount
	case "valve_off_centre":
		m.offset += p.amount
	case "travel":
		m.sheave += p.amount / 2
	case "lost_motion":
		m.played += p.amount
	case "steam_lap":
		if p.end == "both" {
			m.valveSteam += p.amount
		}
		for _, end := range ends {
			m.steam[end] += p.amount
		}
	case "exhaust_lap":
		if p.end == "both" {
			m.valveExhaust += p.amount
		}
		for _, end := range ends {
			m.exhaust[end] += p.amount
		}
	default:
		at := places(d.advance)[p.fault]
		m.advance += at[r.IntN(len(at))] - d.advance
	}
}

// in returns how much of the fault there is in the engine in all.
func (p plant) in(m *mistakes) float64 {
	end := ends[p.end]
	switch p.fault {
	case "advance":
		return m.advance
	case "valve_off_centre":
		return m.offset
	case "travel":
		return 2 * m.sheave
	case "lost_motion":
		return m.played
	case "steam_lap":
		if p.end == "both" {
			return m.valveSteam + (m.steam[0]+m.steam[1])/2
		}
		return m.steam[end]
	case "exhaust_lap":
		if p.end == "both" {
			return m.valveExhaust + (m.exhaust[0]+m.exhaust[1])/2
		}
		return m.exhaust[end]
	}
	return 0
}

// A taken reading has its kind and end by name, and its value in degrees, millimetres
// or as a share of the stroke.
type taken struct {
	kind, end   string
	crank       float64 // of valve_at, degrees
	value       float64
	never       bool
	share       bool
	next        string // of opens_next: steam or exhaust
	within      float64
	cannotBeHad bool
}

// again reports whether both are readings of the same thing.
func (t taken) again(u taken) bool { return t.kind == u.kind && t.end == u.end && t.crank == u.crank }

// A builder takes readings off an engine, with an error each.
type builder struct {
	*engine
	angles, lengths, shares float64 // two standard deviations: degrees, mm, of the stroke
	r                       *rand.Rand
}

func (b *builder) off(within float64) float64 { return within / 2 * b.r.NormFloat64() }

var ends = map[string]int{"head": 0, "crank": 1}

var passings = map[string]struct {
	to    side
	opens bool
}{
	"admission": {toSteam, true}, "cut_off": {toSteam, false},
	"release": {toExhaust, true}, "compression": {toExhaust, false},
}

// read takes one reading: crank is for valve_at, in degrees, and share asks for an
// event by where the piston stands.
func (b *builder) read(kind, end string, crank float64, share bool) taken {
	t := taken{kind: kind, end: end, crank: crank, within: b.lengths}
	at := ends[end]
	if p, ok := passings[kind]; ok {
		angle, happens := b.passes(at, p.to, p.opens)
		switch {
		case !happens:
			t.never, t.within = true, 0
		case share:
			t.share, t.within = true, b.shares
			t.value = min(max(b.piston(at, angle)+b.off(b.shares), 0), 1)
		default:
			t.within = b.angles
			t.value = math.Mod((angle-centre(at))*180/math.Pi+b.off(b.angles)+720, 360)
		}
		return t
	}
	switch kind {
	case "lead":
		t.value = b.lead(at) + b.off(b.lengths)
	case "opening":
		t.value = max(b.greatest(at, toSteam)+b.off(b.lengths), 0)
	case "exhaust_opening":
		t.value = max(b.greatest(at, toExhaust)+b.off(b.lengths), 0)
	case "travel":
		t.end, t.value = "both", max(b.travels()+b.off(b.lengths), 0)
	case "valve_at":
		t.end, t.value = "both", b.at(crank*math.Pi/180)+b.off(b.lengths)
	case "opens_next":
		t.within = 0
		goes := b.goesOn(at, 10)
		t.next, t.cannotBeHad = "steam", math.Abs(goes) < 2*b.lengths
		if goes < 0 {
			t.next = "exhaust"
		}
	default:
		panic(kind)
	}
	return t
}

// eightAngles are the four events of both ends.
func (b *builder) eightAngles() (all []taken) {
	for _, kind := range []string{"admission", "cut_off", "release", "compression"} {
		all = append(all, b.read(kind, "head", 0, false), b.read(kind, "crank", 0, false))
	}
	return all
}

// leadsAndTravel are the two leads and the travel.
func (b *builder) leadsAndTravel() []taken {
	return []taken{b.read("lead", "head", 0, false), b.read("lead", "crank", 0, false), b.read("travel", "both", 0, false)}
}

// some takes that many readings of different things.
func (b *builder) some(count int) (all []taken) {
	type thing struct {
		kind, end string
		crank     float64
	}
	things := []thing{{"travel", "both", 0}}
	for _, kind := range []string{
		"admission", "cut_off", "release", "compression", "lead", "opening", "exhaust_opening", "opens_next",
	} {
		things = append(things, thing{kind, "head", 0}, thing{kind, "crank", 0})
	}
	for crank := 0.0; crank < 360; crank += 45 {
		things = append(things, thing{"valve_at", "both", crank})
	}
	b.r.Shuffle(len(things), func(i, j int) { things[i], things[j] = things[j], things[i] })
	for _, is := range things {
		if len(all) == count {
			break
		}
		t := b.read(is.kind, is.end, is.crank, b.r.IntN(6) == 0)
		if !t.cannotBeHad {
			all = append(all, t)
		}
	}
	return all
}
