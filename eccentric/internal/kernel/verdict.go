package kernel

import "math"

// A Grade says what a thing does to the engine.
type Grade uint8

// The grades, from the least.
const (
	Absent Grade = iota // the thing is not so
	Worth               // knowing, no more
	Costs               // power
	Stops               // the engine
)

// Where the lines are drawn. The geometry is exact; how much of a thing is too
// much is common practice of the trade, and a builder may differ.
const (
	LargestLead  = 0.25              // of the port's width
	LateByLittle = 5 * math.Pi / 180 // of crank past the dead centre, still worth knowing only
	FullOpening  = 0.2               // of the travel, by which a usual one is more or less than opens the ports fully
	SmallOpening = 0.5               // of the port's width
	SmallShow    = 0.02              // of the travel: exhaust clearance that builders make on purpose
	Slightly     = 0.05              // of the port's width: a passage too narrow by so little is worth knowing only
	LeastSeal    = 0.25              // of the bar's width, left at full travel
	LeastBar     = 0.5               // of the port's width: a published rule, less what it adds in large engines
	ChestMargin  = 500e6             // half a millimetre at each end
	Held         = 127e6             // 5 thou, to which a cavity and the ports under it are made with care
	EqualCutOffs = 0.005             // of the stroke
	LateByHair   = math.Pi / 180     // of crank, by which lost motion makes the valve late, not worth knowing
	hair         = 1e3               // picometres, a millionth of a millimetre: what rounding leaves is nothing
)

// Verdicts are the grade of each code, by the end that it concerns.
type Verdicts [Codes][Ends]Grade

// Judge returns the verdicts on a sound gear, the slips of statement included.
func (g *Gear) Judge(m *Motion, e *Events) (v Verdicts) {
	v = g.judge(m, e)
	g.judgeSlips(&v, e)
	return v
}

// judge looks at the gear as it is stated.
func (g *Gear) judge(m *Motion, e *Events) (v Verdicts) {
	is := func(code Code, end End, so bool, grade Grade) {
		if so {
			v[code][end] = grade
		}
	}
	v.ends(NarrowLand, func(end End) Grade { return or(m.Steam[end]+m.Exhaust[end] < -hair, Stops, Absent) })
	v.ends(ThinBars, func(end End) Grade { return or(g.barShort(end) > hair, Worth, Absent) })
	is(RunsBackwards, Both, m.Backwards(), Stops)
	little := Absent
	if opensAndCloses(e) {
		little = m.littleWork(e)
	}
	v[LittleWork][Both] = little
	idle := little == Stops
	runs := !idle && !m.Backwards()
	is(OffCentre, Both, math.Abs(m.Shift) >= hair, Worth)
	if lag := m.Lag(); lag > LateByHair {
		v[LostMotion][Both] = or(lag > LateByLittle, Costs, Worth)
		if m.keepsShut(e, Head, m.Shift) || m.keepsShut(e, Crank, -m.Shift) {
			v[LostMotion][Both] = Stops
		}
	}
	if free, given := g.ChestFree(); given {
		is(FoulsChest, Both, free < ChestMargin, or(free < 0, Stops, Worth))
	}
	v.ends(OpenAtMidTravel, func(end End) Grade {
		_, exhaust := m.MidLaps(end)
		return or(exhaust > -hair, Absent, or(-exhaust > SmallShow*g.Travel, Costs, Worth))
	})
	v.ends(LittleExhaustLap, func(end End) Grade {
		lap := math.Abs(m.Exhaust[end])
		return or(lap >= hair && lap < Held, Worth, Absent)
	})
	v.ends(NoSteamLap, func(end End) Grade {
		steam, _ := m.MidLaps(end)
		return or(steam < -hair, Costs, Absent)
	})
	for _, end := range [...]End{Head, Crank} {
		g.judgePorts(&v, end, e.At(end))
		g.judgeMiddle(&v, end)
		if runs {
			g.judgeLead(&v, end, e.At(end))
		}
	}
	is(UnequalCutOff, Both, runs && (g.Slants() || m.Steam[Head] != m.Steam[Crank]) &&
		math.Abs(e.CutOffDifference()) >= EqualCutOffs, Worth)
	starts := runs && e.Head.Steam == OpensAndCloses && e.Crank.Steam == OpensAndCloses
	is(BlindArc, Both, starts && e.BlindArc() >= LeastBlind, Worth)
	return v
}

// MidLaps returns the laps of one end, or for [Both] their means, with the valve in
// mid-travel: of a gear whose ends are alike those of a valve in the middle, as it
// is off centre then and no part is wrong; of another as the valve stands, which is
// set off centre to suit.
func (m *Motion) MidLaps(end End) (steam, exhaust float64) {
	steam, exhaust = m.Steam[end], m.Exhaust[end]
	alike := m.Steam[Head] == m.Steam[Crank] && m.Exhaust[Head] == m.Exhaust[Crank]
	switch {
	case end == Head && !alike:
		return steam - m.Shift, exhaust + m.Shift
	case end == Crank && !alike:
		return steam + m.Shift, exhaust - m.Shift
	}
	return steam, exhaust
}

// ends sets what is judged of each end: where it is so of both, of the whole gear
// and as grave as the graver of the two.
func (v *Verdicts) ends(code Code, grade func(End) Grade) {
	head, crank := grade(Head), grade(Crank)
	if head != Absent && crank != Absent {
		v[code][Both] = max(head, crank)
		return
	}
	v[code][Head], v[code][Crank] = head, crank
}

// barShort returns by how much the bar of one end is too thin; below zero it is
// wide enough.
func (g *Gear) barShort(end End) float64 {
	port, bar := g.Port(end)
	return LeastBar*port - bar
}

func (g *Gear) judgePorts(v *Verdicts, end End, e *EndEvents) {
	port, _ := g.Port(end)
	switch {
	case e.Steam == NeverOpens:
		v[SteamNeverOpens][end] = Stops
	case e.Steam == NeverCloses:
		v[SteamNeverCloses][end] = Stops
	case e.OverTravel < -hair:
		v[SteamPartOpen][end] = or(e.Opening < SmallOpening*port, Costs, Worth)
	}
	switch {
	case e.Exhaust == NeverOpens:
		v[ExhaustNeverOpens][end] = Stops
	case e.Exhaust == NeverCloses:
		v[ExhaustNeverCloses][end] = Stops
	case e.ExhaustOpening < port-hair:
		v[ExhaustPartOpen][end] = or(e.ExhaustOpening < SmallOpening*port, Costs, Worth)
	}
}

// judgeMiddle looks at full travel of the valve towards opening one end to steam.
// There one land has moved in towards the middle port. Its outer edge must still
// cover part of the bar, and its inner edge must leave enough of the middle port
// open.
func (g *Gear) judgeMiddle(v *Verdicts, end End) {
	if port, _ := g.Port(g.Fed(end)); g.Passage(end) < port-hair {
		v[MiddleThrottled][g.Fed(end)] = or(g.Passage(end) <= (1-Slightly)*port, Costs, Worth)
	}
	if _, bar := g.Port(g.Land(end)); g.Seal(end) < LeastSeal*bar-hair {
		seal := g.Seal(end)
		v[SteamPastValve][g.Land(end)] = or(seal < -hair, Stops, Costs)
	}
}

func (g *Gear) judgeLead(v *Verdicts, end End, e *EndEvents) {
	port, _ := g.Port(end)
	switch {
	case e.Steam != OpensAndCloses:
	case e.Lead <= -hair:
		v[LateSteam][end] = or(e.Admission.Crank > LateByLittle, Costs, Worth)
	case e.Lead < hair:
		v[NoLead][end] = Worth
	case e.Lead > LargestLead*port:
		v[LargeLead][end] = Costs
	}
}

// opensAndCloses reports whether both ports do so, to steam and to exhaust.
func opensAndCloses(e *Events) bool {
	return e.Head.Steam|e.Crank.Steam|e.Head.Exhaust|e.Crank.Exhaust == OpensAndCloses
}

// WorkShare returns [Events.Share] in the direction for which the eccentric
// stands.
func (m *Motion) WorkShare(e *Events) float64 {
	if !m.Backwards() {
		return e.Share()
	}
	reversed, found := *m, Events{}
	reversed.Advance = Reversed(m.Advance)
	reversed.Events(&found)
	return found.Share()
}

// littleWork judges the work of a gear whose ports all open and close. Below
// [LeastWork] it does not run; but where the eccentric stands right for its lap,
// so that the lead is a small part of what the port opens, it is the valve that
// cuts off early, and down to [LeastOfEarly] that costs power only.
func (m *Motion) littleWork(e *Events) Grade {
	share := m.WorkShare(e)
	if share >= LeastWork {
		return Absent
	}
	opens := min(m.Reach-m.Late-m.Steam[Both], m.Port[Both])
	return or(math.Abs(e.MeanLead()) <= LargestLead*opens && share >= LeastOfEarly, Costs, Stops)
}

// Reversed returns the angle of advance that an eccentric has, where it stands,
// for the other direction of rotation: 180 degrees less what it has for this.
func Reversed(advance float64) float64 { return math.Remainder(math.Pi-advance, 2*math.Pi) }

// or returns the grade for a condition and the one for its absence.
func or(so bool, then, otherwise Grade) Grade {
	if so {
		return then
	}
	return otherwise
}

// Amount returns by how much a thing that is so at an end is so: a length along
// the valve's travel, for [UnequalCutOff] along the stroke, and nothing where no
// length says it. Of a thing that is so at both ends it is the greater.
func (g *Gear) Amount(m *Motion, e *Events, code Code, end End) float64 {
	at := e.At(end)
	port, _ := g.Port(end)
	switch code {
	case NarrowLand, ThinBars, OpenAtMidTravel, LittleExhaustLap, NoSteamLap:
		if end == Both {
			return max(g.Amount(m, e, code, Head), g.Amount(m, e, code, Crank))
		}
	}
	switch code {
	case NarrowLand:
		return -(m.Steam[end] + m.Exhaust[end])
	case ThinBars:
		return g.barShort(end)
	case OffCentre:
		return math.Abs(m.Shift)
	case LostMotion:
		return g.LostMotion
	case SteamNeverOpens:
		return m.Steam[end] - g.Reach(end)
	case SteamNeverCloses:
		return -m.Steam[end] - g.Reach(end.Other())
	case ExhaustNeverOpens:
		return m.Exhaust[end] - g.Reach(end.Other())
	case ExhaustNeverCloses:
		return -m.Exhaust[end] - g.Reach(end)
	case SteamPastValve:
		return math.Abs(g.Seal(g.Land(end)))
	case FoulsChest:
		free, _ := g.ChestFree()
		return math.Abs(free)
	case OpenAtMidTravel:
		_, exhaust := m.MidLaps(end)
		return -exhaust
	case LittleExhaustLap:
		return math.Abs(m.Exhaust[end])
	case NoSteamLap:
		steam, _ := m.MidLaps(end)
		return -steam
	case MiddleThrottled:
		return port - g.Passage(g.Fed(end))
	case ExhaustPartOpen:
		return port - at.ExhaustOpening
	case SteamPartOpen:
		return -at.OverTravel
	case LateSteam:
		return -at.Lead
	case LargeLead:
		return at.Lead
	case UnequalCutOff:
		return g.Stroke * math.Abs(e.CutOffDifference())
	}
	return 0
}

// Backwards reports whether the eccentric stands for the other direction.
func (m *Motion) Backwards() bool { return math.Abs(m.Advance) > math.Pi/2 }

// keepsShut reports whether a port of one end, from which the valve is so far off
// centre, never opens for the lost motion alone.
func (m *Motion) keepsShut(e *Events, end End, shift float64) bool {
	at := e.At(end)
	return at.Steam == NeverOpens && m.Reach+shift > m.Steam[end] ||
		at.Exhaust == NeverOpens && m.Reach-shift > m.Exhaust[end]
}

// Lag returns the crank angle by which lost motion makes the valve late in
// mid-travel: asin(b / 2r).
func (m *Motion) Lag() float64 { return math.Asin(m.Late / m.Reach) }

// Slants reports whether a rod is not infinitely long.
func (g *Gear) Slants() bool {
	return !math.IsInf(g.ConnectingRod, 1) || !math.IsInf(g.EccentricRod, 1)
}

// CutOffDifference returns by how much of the stroke the head end cuts off later
// than the crank end; nothing where one of them does not.
func (e *Events) CutOffDifference() float64 {
	if !e.Head.CutOff.Occurs || !e.Crank.CutOff.Occurs {
		return 0
	}
	return e.Head.CutOff.Stroke - e.Crank.CutOff.Stroke
}

// BlindArcAgainst returns the crank angle in which the engine does not start by
// itself against a friction that is the given share of the greatest moment with
// which it starts: an end pushes as the piston moves with the crank, ds/dt, so
// that near the dead centres it hardly does.
func (m *Motion) BlindArcAgainst(e *Events, friction float64) float64 {
	driven := e.Driven()
	greatest := 0.0
	for _, d := range driven.All() {
		greatest = max(greatest, m.moves(d.End, min(max(m.fastest(d.End), d.From), d.To)))
	}
	blind := 2 * math.Pi
	for _, d := range driven.All() {
		top := m.fastest(d.End)
		short := func(t float64) bool { return m.moves(d.End, t) < friction*greatest }
		if short(top) {
			continue
		}
		from, to := max(d.From, firstNot(short, 0, top)), min(d.To, firstNot(short, math.Pi, top))
		blind -= max(0, to-from)
	}
	return blind
}

// moves returns ds/dt at crank angle t from one end's dead centre, in strokes:
//
//	ds/dt = (sin(t) +- sin(t)*cos(t) / sqrt(n^2 - sin(t)^2)) / 2
//
// with n the rod in cranks, + at the head end.
func (m *Motion) moves(end End, t float64) float64 {
	sin, cos := math.Sincos(t)
	n := 2 * m.Rod / m.Stroke
	slant := sin * cos / math.Sqrt(n*n-sin*sin)
	if end == Crank {
		slant = -slant
	}
	return (sin + slant) / 2
}

// fastest returns the crank angle from one end's dead centre at which the piston
// moves fastest. It is where the crank and the rod, all but at right angles,
// change from gaining to losing.
func (m *Motion) fastest(end End) float64 {
	slower := func(t float64) bool { return m.moves(end, t+1e-4) > m.moves(end, t-1e-4) }
	return firstNot(slower, 0.1, math.Pi-0.1)
}

// firstNot returns where on the way from one angle to another a thing that is so
// at the first stops being so, or the first if it is not.
func firstNot(so func(float64) bool, from, to float64) float64 {
	for range 40 {
		if middle := (from + to) / 2; so(middle) {
			from = middle
		} else {
			to = middle
		}
	}
	return to
}

// BlindArc returns the crank angle in which neither end drives.
func (e *Events) BlindArc() float64 {
	blind, driven := 2*math.Pi, e.Driven()
	for _, d := range driven.All() {
		blind -= d.To - d.From
	}
	return blind
}

// LeastBlind is the crank angle in which nobody stops a crank.
const LeastBlind = math.Pi / 360

// OpenTogether returns the crank angle in which both ends are open to steam.
func (e *Events) OpenTogether() float64 {
	head, headOpens := e.Head.open()
	crank, crankOpens := e.Crank.open()
	if !headOpens || !crankOpens {
		return 0
	}
	both := 0.0
	for _, by := range [...]float64{-math.Pi, math.Pi} {
		both += max(0, min(head.to, crank.to+by)-max(head.from, crank.from+by))
	}
	return both
}
