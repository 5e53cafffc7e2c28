package eccentric

import (
	"cmp"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// usualLead is the lead that a valve is cut for, of the port's width: small
// engines are given little, and what is cut off is not put back. Common practice.
const usualLead = 0.1

// toSize is the step of the sizes that are cut.
var toSize = units.Micron(10)

// rounding are the ways in which the sizes of a change are rounded, until one of
// them does what the change is for.
var rounding = [...]units.RoundMode{units.Nearest, units.Up, units.Down}

// try judges a changed gear, as it is and set anew, with the sizes rounded.
func (s *search) try(changed Gear, rank int) {
	s.tried++
	if changed.Validate() != nil {
		return
	}
	for i, g := range s.settings(changed) {
		for _, mode := range rounding {
			g := s.rounded(g, mode)
			if s.seen[g] || g.Validate() != nil {
				continue
			}
			s.seen[g] = true
			after, ok := s.judge(g)
			if ok {
				s.add(g, after, rank*8+i)
			}
			if ok && after.place == right {
				break
			}
		}
	}
}

// add adds the cures that make the gear such a one.
func (s *search) add(g Gear, after grade, rank int) {
	for _, way := range (job{s.gear, g, s.made}).ways() {
		c := Cure{Gear: g, grade: after, rank: rank}
		work := 0
		for _, st := range way {
			if st.kind > move {
				work++
			}
			if !st.canBeSet() {
				work = 3
			}
			c.Steps, c.cost = append(c.Steps, st.Step), append(c.cost, st.kind)
		}
		slices.SortFunc(c.cost, func(a, b kind) int { return cmp.Compare(b, a) })
		if work <= 2 {
			s.cures = append(s.cures, c)
		}
	}
}

// canBeSet reports whether a step is not too small for it.
func (s step) canBeSet() bool {
	switch s.kind {
	case restate, draw, takeUp:
		return true
	case turn:
		return max(s.Turn, -s.Turn) >= leastTurn
	}
	return s.Amount.Abs().Cmp(leastMove) >= 0
}

// restated adds the gear that was meant, where the sizes look to be stated amiss.
func (s *search) restated(code kernel.Code) {
	k, _ := s.base.k.Meant(code)
	meant := s.gear
	meant.Advance, meant.Travel = units.Angle(k.Advance), length(k.Travel)
	s.tried++
	if s.seen[meant] {
		return
	}
	s.seen[meant] = true
	after, ok := s.judge(meant)
	if !ok {
		return
	}
	var f Finding
	s.base.slip(&f, code)
	st := newStep(restate, meant.Travel.Sub(s.gear.Travel), "%s", f.Remedies[0])
	st.Turn = inTurn(meant.Advance - s.gear.Advance)
	s.cures = append(s.cures, Cure{
		Steps: []Step{st.Step}, Gear: meant, grade: after, cost: []kind{restate}, rank: -int(kernel.Codes) + int(code),
	})
}

// judge grades a gear after a change; false where it is no better than before, or
// something is wrong with it that was not.
func (s *search) judge(g Gear) (grade, bool) {
	j := g.judged()
	after, ok := s.count(&j.verdicts)
	after.cutOff, _ = meanCutOff(&j.found)
	if !ok || !s.before.worse(after) {
		return after, false
	}
	if after.place == right && s.spoilsCutOff(&j.found) {
		after.place = livedWith
	}
	return after, true
}

// steamSide are the codes of what is wrong with the steam edges or the setting, of
// which the cut-off depends.
var steamSide = [...]kernel.Code{
	kernel.RunsBackwards, kernel.LittleWork, kernel.SteamNeverOpens, kernel.SteamNeverCloses, kernel.NoSteamLap,
	kernel.SteamPartOpen, kernel.LateSteam, kernel.LargeLead,
}

// mayMove is by how much of the stroke the mean cut-off of a gear may move whose
// steam edges were right; a limit of ours.
const mayMove = 0.05

// spoilsCutOff reports whether a cure changes a cut-off that was right, or makes it
// one that a lap does not give.
func (s *search) spoilsCutOff(e *kernel.Events) bool {
	before, was := meanCutOff(&s.base.found)
	after, is := meanCutOff(e)
	if is && was && s.base.verdicts.Worst(steamSide[:]...) <= kernel.Worth && math.Abs(after-before) > mayMove {
		return true
	}
	strayed := 0.
	if was {
		strayed = strays(before)
	}
	return is && strays(after) > strayed
}

// count counts what is graver than worth knowing, of both ends twice; false where
// something of it is not so of the gear as it is.
func (s *search) count(v *kernel.Verdicts) (after grade, ok bool) {
	ok, after.place = true, right
	for code := kernel.Faults; int(code) < kernel.Codes; code++ {
		had := &s.base.verdicts[code]
		for end, found := range v[code] {
			if found <= kernel.Worth {
				continue
			}
			n, before := 1, max(had[end], had[kernel.Both])
			if kernel.End(end) == kernel.Both {
				n, before = 2, max(before, min(had[kernel.Head], had[kernel.Crank]))
			}
			ok = ok && found <= before
			after.place = notCured
			if found == kernel.Stops {
				after.stops += n
			} else {
				after.costs += n
			}
		}
	}
	return after, ok
}

// meanCutOff returns the mean of the cut-offs of both ends; false where there is none.
func meanCutOff(e *kernel.Events) (float64, bool) {
	return (e.Head.CutOff.Stroke + e.Crank.CutOff.Stroke) / 2, e.Head.CutOff.Occurs && e.Crank.CutOff.Occurs
}

// strays returns by how much of the stroke a mean cut-off lies outside what a valve
// has by its lap: not before two thirds of the stroke (J. Bourne, A Catechism of the
// Steam Engine), and not so late that nothing is left to expand in.
func strays(mean float64) float64 { return max(earliestCutOff-mean, mean-latestCutOff, 0) }

// A valve with another mean cut-off by its lap alone is most likely of the wrong
// length.
const (
	earliestCutOff = 2. / 3
	latestCutOff   = 0.98
)

// settings returns a changed gear as it is, with the advance set anew, with the
// valve placed, and with both.
func (s *search) settings(changed Gear) []Gear {
	all := []Gear{changed}
	set, anew := s.base.settled(changed)
	if !anew && changed.Valve.LostMotion != s.gear.Valve.LostMotion {
		if lead, err := changed.WithLead(units.Length{}, BothEnds); err == nil {
			set, anew = lead, true
		}
	}
	if anew {
		all = append(all, set)
	}
	for _, g := range all {
		if moved, text := placed(g); text != "" {
			all = append(all, moved)
		}
	}
	return all
}

// rounded returns a changed gear with the sizes of the changes as they can be set,
// and without those that are too small for it.
func (s *search) rounded(to Gear, mode units.RoundMode) Gear {
	from := s.gear
	if by := inTurn(to.Advance - from.Advance); max(by, -by) < leastTurn {
		to.Advance = from.Advance
	} else {
		to.Advance = toTenths(to.Advance)
	}
	if by := to.EccentricOffset().Sub(from.EccentricOffset()); by.Abs().Cmp(leastMove) < 0 {
		to.Travel = from.Travel
	} else {
		offset := step10(to.EccentricOffset(), mode)
		to.Travel = offset.Scale(2 * to.leverage())
	}
	if by := to.Chest.Sub(from.Chest); !by.IsZero() {
		to.Chest = from.Chest.Add(step10(by.Scale(0.5), mode).Scale(2))
	}
	s.roundRod(&to)
	s.roundValve(&to, mode)
	s.roundPorts(&to, mode)
	return to
}

// leverage is what the valve moves for one of the eccentric rod, without a sign.
func (g *Gear) leverage() float64 {
	if g.LeverRatio == 0 {
		return 1
	}
	return math.Abs(g.LeverRatio)
}

// step10 rounds to a hundredth of a millimetre, up or down by the amount.
func step10(l units.Length, mode units.RoundMode) units.Length {
	if l.Sign() < 0 {
		return step10(l.Neg(), mode).Neg()
	}
	if r, err := l.Round(toSize, mode); err == nil {
		return r
	}
	return l
}

// settable rounds a change, to nothing where it is too small to be set.
func settable(by units.Length, mode units.RoundMode) units.Length {
	if by.Abs().Cmp(leastMove) < 0 {
		return units.Length{}
	}
	return step10(by, mode)
}

func (s *search) roundRod(to *Gear) {
	is, known := to.EccentricRod.Length()
	was, still := s.gear.EccentricRod.Length()
	switch {
	case !known || !still || is == was:
	case s.made.Rods:
		to.EccentricRod = RodOf(was.Add(step10(is.Sub(was), units.Nearest)))
	default:
		to.EccentricRod = RodOf(step10(is, units.Nearest))
	}
}

func (s *search) roundValve(to *Gear, mode units.RoundMode) {
	v, was := &to.Valve, s.gear.Valve
	by := func(size, before units.Length, m units.RoundMode) units.Length {
		return before.Add(settable(size.Sub(before), m))
	}
	if s.made.Valve {
		half := func(size, before units.Length) units.Length {
			return before.Add(settable(size.Sub(before).Scale(0.5), mode).Scale(2))
		}
		v.Length, v.Cavity = half(v.Length, was.Length), half(v.Cavity, was.Cavity)
		v.CavityOffset = by(v.CavityOffset, was.CavityOffset, mode)
		v.Offset = by(v.Offset, was.Offset, mode)
		return
	}
	inner := mode // more of the valve and less of its cavity are both more lap
	switch mode {
	case units.Up:
		inner = units.Down
	case units.Down:
		inner = units.Up
	}
	whole := func(size, before units.Length, m units.RoundMode) units.Length {
		if size == before {
			return before
		}
		return step10(size, m)
	}
	v.Length, v.Cavity = whole(v.Length, was.Length, mode), whole(v.Cavity, was.Cavity, inner)
	v.CavityOffset = whole(v.CavityOffset, was.CavityOffset, units.Nearest)
	v.Offset = by(v.Offset, was.Offset, units.Nearest)
}

func (s *search) roundPorts(to *Gear, mode units.RoundMode) {
	from := s.gear.portEdges()
	e := to.portEdges()
	if e == from && to.Ports.Exhaust == s.gear.Ports.Exhaust {
		return
	}
	if !s.made.Ports {
		p, was := &to.Ports, s.gear.Ports
		for _, width := range []struct {
			is  *units.Length
			was units.Length
		}{
			{&p.Steam, was.Steam}, {&p.Bar, was.Bar}, {&p.Exhaust, was.Exhaust},
			{&p.CrankSteam, was.CrankSteam}, {&p.CrankBar, was.CrankBar},
		} {
			if *width.is != width.was {
				*width.is = step10(*width.is, mode)
			}
		}
		return
	}
	for i := range e {
		e[i] = from[i].Add(settable(e[i].Sub(from[i]), mode))
	}
	middle := settable(to.Ports.Exhaust.Sub(s.gear.Ports.Exhaust).Scale(0.5), mode)
	to.setPorts(s.gear.Ports.Exhaust.Add(middle.Scale(2)), e)
}

// shortlist returns the best cure of each kind of work, in the order in which they
// are to be thought of: what is stated otherwise; what stops the engine least; what
// leaves the ports and the sheave alone; what puts the gear right; what costs least.
func (s *search) shortlist() (list []Cure) {
	slices.SortStableFunc(s.cures, Cure.compare)
	isRight := func(c Cure) bool { return c.grade.place == right && c.cost[0] != restate }
	putsRight := slices.ContainsFunc(s.cures, isRight)
	for _, c := range s.cures {
		if putsRight && c.grade.place == livedWith && c.works() > 0 {
			continue // to be lived with is what is only set
		}
		if !slices.ContainsFunc(list, c.sparedBy) {
			list = append(list, c)
		}
	}
	return list
}

// compare says which of two cures is to be thought of first.
func (c Cure) compare(other Cure) int {
	return cmp.Or(cmp.Compare(min(c.cost[0], draw), min(other.cost[0], draw)),
		cmp.Compare(c.grade.stops, other.grade.stops), compareBools(c.lastResort(), other.lastResort()),
		cmp.Compare(c.grade.place, other.grade.place), cmp.Compare(c.grade.costs, other.grade.costs),
		compareCosts(c.cost, other.cost), cmp.Compare(c.rank, other.rank))
}

// compareCosts compares by the dearest work of each, and then by the next.
func compareCosts(a, b []kind) int {
	return slices.CompareFunc(a, b, func(a, b kind) int { return cmp.Compare(a.tier(), b.tier()) })
}

func compareBools(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// sparedBy reports whether a cure that comes before this one leaves no need of it.
func (c Cure) sparedBy(better Cure) bool {
	alone := len(c.cost) == 1 && len(better.cost) == 1
	switch dearer := compareCosts(c.cost, better.cost) >= 0; {
	case c.cost[0] == restate || better.cost[0] == restate:
		return false
	case slices.Equal(c.cost, better.cost) && slices.Equal(c.parts(), better.parts()):
		return true
	case better.grade.worse(c.grade):
		return false // as it leaves the ports and the sheave alone
	case c.grade.worse(better.grade):
		// To be lived with is what is only set, and leaves nothing that costs power.
		return dearer || c.works() > 0 || c.grade.place == notCured
	case c.does(better) && (dearer || c.grade.place != notCured):
		return true
	case c.grade.place == notCured:
		return dearer && (c.cost[0] != newValve || !better.lets())
	case alone && (better.cost[0] == move || better.cost[0] == packing) && (c.cost[0] == packing || c.cost[0] == newRod):
		return false // where it cannot be moved on its rod
	default:
		// The ports are not cut nor a sheave made where the valve does as well, or setting it, nor a valve where this
		// one does without strips; and nothing is cut where setting does and leaves a usual cut-off,
		// unless cutting leaves a much better one.
		anew := slices.Contains(c.cost, newValve)
		return dearer && (anew && better.works() > 0 && !better.lets() ||
			better.usualCutOff() && (c.lastResort() && !(anew && better.lets()) ||
				c.works() > better.works() && !c.cutsOffBetter(better)))
	}
}

// does reports whether a cure does all that another does to the same parts, or work of
// the same cost, and more.
func (c Cure) does(other Cure) bool {
	tiers := func(cost []kind) (all []int) {
		for _, k := range cost {
			all = append(all, k.tier())
		}
		return all
	}
	return holds(tiers(c.cost), tiers(other.cost)) && holds(c.parts(), other.parts())
}

// usualCutOff reports whether the mean cut-off is one that is aimed at, and not at the
// edge of what can be lived with.
func (c Cure) usualCutOff() bool {
	return c.grade.cutOff >= earliestUsual && c.grade.cutOff <= latestUsual
}

// Mean cut-offs that are aimed at. Common practice.
const earliestUsual, latestUsual = 0.7, 0.92

// cutsOffBetter reports whether the mean cut-off of a cure is much nearer to the middle
// of the usual ones than that of another.
func (c Cure) cutsOffBetter(other Cure) bool {
	off := func(c Cure) float64 { return math.Abs(c.grade.cutOff - (earliestUsual+latestUsual)/2) }
	return off(other)-off(c) > mayMove
}

// parts are the parts that the steps are of.
func (c Cure) parts() (parts []string) {
	for _, s := range c.Steps {
		parts = append(parts, s.Part)
	}
	return parts
}

// lets reports whether strips are let in, which not everybody cares to do.
func (c Cure) lets() bool {
	return slices.Contains(c.cost, stripsEnds) || slices.Contains(c.cost, stripsIn)
}

// works counts the steps that are more than setting.
func (c Cure) works() (n int) {
	for _, k := range c.cost {
		if k > move {
			n++
		}
	}
	return n
}

// lastResort reports whether something is altered that is left alone where another
// thing does as well.
func (c Cure) lastResort() bool {
	return slices.ContainsFunc(c.cost, func(k kind) bool { return k == packing || k >= longChest })
}

// holds reports whether all of a list are in another.
func holds[T comparable](all, of []T) bool {
	return !slices.ContainsFunc(of, func(v T) bool { return !slices.Contains(all, v) })
}
