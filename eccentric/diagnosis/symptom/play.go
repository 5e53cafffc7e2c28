package symptom

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A state is the engine with one fault in it, in one size.
type state struct {
	gear eccentric.Gear

	rings  float64 // conductance past the piston, in swept volumes a radian when it turns slowly
	valve  float64 // the same past the valve, from the chest
	hollow bool    // the valve leaks near the middle of its travel alone
	lifted bool    // the valve is off its face
	fixed  bool    // the valve stands still

	blocked [kernel.Ends]bool // the passage of an end lets nothing through

	friction float64 // beside what is usual; zero: as much as usual
	exhaust  float64 // what the exhaust holds up at speed, as a share of the pressure difference, beside what ports do
	supply   float64 // the same of the supply
}

// A turn is what an engine does in one, with forces in areas of the piston times the
// difference of the pressures in chest and exhaust, and work in those times the stroke.
type turn struct {
	work    float64 // of one cylinder
	use     float64 // of air or steam, in swept volumes at the pressure of the chest
	highest float64 // pressure, above the exhaust

	beat     [kernel.Ends]float64 // pressure that the exhaust opens at, above its own; none where it does not
	release  [kernel.Ends]float64 // crank angle from the end's own dead centre
	opensAt  [kernel.Ends]float64 // crank angle of admission
	admits   [kernel.Ends]bool
	releases [kernel.Ends]bool

	moment []float64 // of all cylinders, at each step
	rest   []float64 // standing still with the supply on
	blows  float64   // share of the turn in which it then blows from the chest into the exhaust
}

// A player runs faults through a turn of one engine.
type player struct {
	chest, back float64 // absolute, over their difference
	air         float64
	clearance   [kernel.Ends]float64
	index       float64
	area        [kernel.Ends]float64 // of the head end's
	shifts      []int                // of the cylinders, in steps
	opening     [kernel.Ends]float64 // of the drawn gear, to steam
	exhausting  [kernel.Ends]float64
	places      []place // at each step
	between     []kernel.Place
}

// A place is the volumes behind the piston, in swept ones, and their powers of the
// index.
type place struct{ volume, power [kernel.Ends]float64 }

// steps are those of a turn: half a degree each.
const (
	steps = 720
	dt    = 2 * math.Pi / steps
)

// openAir is what a gauge shows there.
const openAir = 0 * units.Bar

func newPlayer(run *indicator.Running) *player {
	chest, back := float64(run.Absolute(run.Chest)), float64(run.Absolute(run.Back))
	rod := float64(run.PistonRod.Picometres()) / float64(run.Bore.Picometres())
	p := &player{
		chest: chest / (chest - back), back: back / (chest - back), air: float64(run.Absolute(openAir)) / (chest - back),
		clearance: [kernel.Ends]float64{kernel.Head: run.Clearance.Head, kernel.Crank: run.Clearance.Crank},
		index:     run.Index, area: [kernel.Ends]float64{kernel.Head: 1, kernel.Crank: 1 - rod*rod}, shifts: []int{0},
	}
	for _, ahead := range run.Cranks {
		p.shifts = append(p.shifts, int(math.Round(math.Remainder(float64(ahead), 2*math.Pi)/(2*math.Pi)*steps)))
	}
	k := run.Gear.Kernel()
	var e kernel.Events
	m := k.Motion()
	m.Events(&e)
	for _, end := range ends {
		p.opening[end], p.exhausting[end] = e.At(end).Opening, e.At(end).ExhaustOpening
	}
	for i := range steps {
		gone := m.Place(float64(i) * dt).Stroke
		var at place
		at.volume[kernel.Head], at.volume[kernel.Crank] = p.clearance[kernel.Head]+gone, p.clearance[kernel.Crank]+1-gone
		for _, end := range ends {
			at.power[end] = math.Pow(at.volume[end], p.index)
		}
		p.places = append(p.places, at)
		p.between = append(p.between, m.Place((float64(i)+0.5)*dt))
	}
	return p
}

var ends = [...]kernel.End{kernel.Head, kernel.Crank}

// What ports take of the difference of the pressures when the drawn engine runs fast:
// our own figures, in the measure of what a throttled engine loses.
const (
	takenIn  = 0.08
	takenOut = 0.05
	mostHeld = 0.9
)

// turned returns the gear as it is met when the engine turns the other way.
func turned(g eccentric.Gear) eccentric.Gear {
	g.Advance = inTurn(math.Pi - float64(g.Advance)) // the sheave follows where it led
	return g
}

// A pace is how a turn is run.
type pace int

const (
	slowly    pace = iota // at work and at rest
	workAlone             // slowly, at work alone
	atSpeed               // at work, where passages take their share
)

// play runs a state through two turns, of which the second counts.
func (p *player) play(s *state, at pace) *turn {
	k := s.gear.Kernel()
	m := k.Motion()
	var e kernel.Events
	m.Events(&e)
	t := &turn{}
	var rounds [kernel.Ends]kernel.Round
	var in, out [kernel.Ends]float64
	slow := 1.0
	fast := at == atSpeed
	if fast {
		slow = 0.2 // leaks have less time
	}
	for _, end := range ends {
		e := e.At(end)
		in[end], out[end] = p.chest, p.back
		if fast {
			in[end] -= min(mostHeld, taken(takenIn, p.opening[end], e.Opening)+s.supply)
			out[end] += min(mostHeld, taken(takenOut, p.exhausting[end], e.ExhaustOpening)+s.exhaust)
		}
		in[end] -= 0.5 * slow * (1 - 1/(1+s.rings+s.valve)) // what leaks comes through the supply
		c := kernel.Cycle{Chest: in[end], Back: out[end], Clearance: p.clearance[end], Index: p.index}
		rounds[end] = e.Round(&c)
		if s.blocked[end] {
			continue
		}
		t.admits[end], t.opensAt[end] = e.Admission.Occurs, e.Admission.Crank
		t.releases[end], t.release[end] = e.Release.Occurs, e.Release.Crank
	}
	one := make([]float64, steps)
	var states [kernel.Ends][]kernel.Supply
	for _, end := range ends {
		states[end] = supplies(&rounds[end], end, s)
		if s.lifted {
			in[end] = (p.chest + p.back) / 2
		}
	}
	pressure, before := out, [kernel.Ends]kernel.Supply{kernel.Head: kernel.ToExhaust, kernel.Crank: kernel.ToExhaust}
	last := p.places[0]
	for i := 1 - steps; i <= steps; i++ { // the first turn only fills the cylinder
		step := (i + steps) % steps
		at, was := &p.places[step], pressure
		for _, end := range ends {
			v, grows, supply := at.volume[end], at.volume[end]-last.volume[end], states[end][step]
			shut := was[end] * last.power[end] / at.power[end]                                        // p*V^k stays
			shut += dt * slow * (s.rings*(was[other(end)]-was[end]) + s.valve*(p.chest-was[end])) / v // and what leaks
			next := shut
			switch supply {
			case kernel.ToSteam:
				next = in[end]
			case kernel.ToExhaust:
				next = out[end]
			}
			if supply == before[end] {
				shut = next // as a port that is open holds it
			}
			pressure[end] = next
			if i <= 0 {
				continue
			}
			t.highest = max(t.highest, shut-p.back, next-p.back)
			done := p.area[end] * (shut + was[end]) / 2 * grows
			t.work += done
			one[i-1] += done / dt
			switch opens := supply != before[end]; {
			case supply == kernel.ToSteam && opens:
				t.use += p.area[end] * (next - shut) * v / p.index
			case supply == kernel.ToSteam:
				t.use += p.area[end] * next * grows
			case supply == kernel.ToExhaust && opens:
				t.beat[end] = max(t.beat[end], shut-next)
			}
		}
		for _, end := range ends {
			before[end] = states[end][step]
		}
		if last = *at; i > 0 { // the rod's end has the air on it
			t.use += dt * slow * (s.rings + s.valve)
			one[i-1] -= p.air * (p.area[kernel.Head] - p.area[kernel.Crank]) * p.between[i-1].Moves
		}
	}
	if at == slowly {
		p.standing(t, s, &m, &states, one)
	}
	return t
}

// taken returns what a port takes of the pressure, more as it opens less.
func taken(share, drawn, opening float64) float64 {
	if !(opening > 0) {
		return mostHeld
	}
	return min(mostHeld, share*(drawn/opening)*(drawn/opening))
}

func other(e kernel.End) kernel.End { return e.Other() }

// stuck is the crank angle where a valve that is not driven stands as it would there: in
// the middle of the head end's admission.
const stuck = math.Pi / 3

// supplies returns what the port of an end is open to at each step.
func supplies(r *kernel.Round, end kernel.End, s *state) []kernel.Supply {
	all := make([]kernel.Supply, steps)
	for i := range all {
		switch {
		case s.blocked[end]:
			all[i] = kernel.Shut
		case s.lifted:
			all[i] = kernel.ToSteam
		case s.fixed:
			all[i] = r.At(stuck - math.Pi*float64(end-kernel.Head)).State
		default:
			all[i] = r.At(float64(i)*dt - math.Pi*float64(end-kernel.Head)).State
		}
	}
	return all
}

// standing fills in the moments of all cylinders, at work and at rest, and where it
// blows through.
func (p *player) standing(t *turn, s *state, m *kernel.Motion, states *[kernel.Ends][]kernel.Supply, one []float64) {
	still, blows := make([]float64, steps), make([]bool, steps)
	t.moment, t.rest = make([]float64, steps), make([]float64, steps)
	for i := range steps {
		angle := (float64(i) + 0.5) * dt
		head, crank := states[kernel.Head][i], states[kernel.Crank][i]
		across := s.rings > 0 && head != crank && head != kernel.Shut && crank != kernel.Shut
		near := !s.hollow || math.Abs(m.Valve(angle)-m.Shift) < m.Reach/2
		blows[i] = s.lifted || s.valve > 0 && near || across || through(m, angle)
		if s.lifted || head != kernel.ToSteam && crank != kernel.ToSteam {
			continue
		}
		push := (p.back - p.air) * (p.area[kernel.Head] - p.area[kernel.Crank])
		if head == kernel.ToSteam {
			push += p.area[kernel.Head]
		}
		if crank == kernel.ToSteam {
			push -= p.area[kernel.Crank]
		}
		still[i] = push * p.between[i].Moves / (1 + s.rings)
	}
	for i := range steps {
		blown := false
		for _, by := range p.shifts {
			at := ((i+by)%steps + steps) % steps
			t.moment[i] += one[at]
			t.rest[i] += still[at]
			blown = blown || blows[at]
		}
		if blown {
			t.blows += 1.0 / steps
		}
	}
}

// through reports whether a port is open to steam and to exhaust at once.
func through(m *kernel.Motion, angle float64) bool {
	open := m.Openings(angle)
	return open.Head.Steam > 0 && open.Head.Exhaust > 0 || open.Crank.Steam > 0 && open.Crank.Exhaust > 0
}
