package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A family is a sort of changes, of which a pair has one each, in this order.
type family int

const (
	ofPlace family = iota // of the valve on its rod: laps that differ at the ends are then other laps
	ofPorts
	ofTravel
	ofSteam
	ofExhaust
	ofMiddle // port, for what the others do to it
	ofSetting
	ofRest
)

// A change is a gear that one change makes of another, before it is rounded and
// set.
type change struct {
	gear   Gear
	family family
}

// changes returns the changes of a gear. Those that come first are preferred where
// two do as well.
func (s *search) changes(g Gear) (all []change) {
	add := func(of family, gears ...Gear) {
		for _, g := range gears {
			all = append(all, change{g, of})
		}
	}
	only := func(g Gear, _ string) Gear { return g }

	add(ofSetting, mirrored(g), opposite(g))
	for _, lead := range []float64{0, usualLead} {
		if set, err := g.WithLead(meanPort(g).Scale(lead), BothEnds); err == nil {
			add(ofSetting, set)
		}
	}
	add(ofPlace, only(placed(g)))

	steam := steamLaps(g)
	for _, lap := range steam {
		add(ofSteam, lapped(g, &lap, nil)...)
	}
	add(ofSteam, only(quarterLap(g)), only(noSteamLap(g)))
	for _, lap := range exhaustLaps(g) {
		add(ofExhaust, lapped(g, nil, &lap)...)
	}
	for _, lap := range steam[:min(len(steam), 3)] {
		add(ofExhaust, lapped(g, &lap, new(units.Length))...)
	}
	add(ofExhaust, landed(g), only(noExhaustLap(g)), only(middleCavity(g)), landed(only(middleCavity(g))))
	if c, err := g.centredCavity(); err == nil {
		add(ofExhaust, c)
	}

	for _, travel := range travels(g) {
		add(ofTravel, g.withTravel(travel))
	}
	add(ofTravel, only(fullTravel(g)))
	if sealShort(g).Sign() > 0 {
		add(ofTravel, lessForBars(g))
		add(ofSteam, longerForBars(g))
	}
	if middleShort(g).Sign() > 0 {
		add(ofTravel, lessForMiddle(g))
	}
	add(ofPorts, s.portChanges(g)...)
	add(ofMiddle, s.middleChanges(g)...)

	if !g.Chest.IsZero() {
		add(ofRest, longerChest(g))
	}
	add(ofRest, tight(g))
	if moved, text := placed(g); text != "" && !g.EccentricRod.Infinite() {
		away := g.Valve.Offset.Sub(moved.Valve.Offset)
		if g.LeverRatio != 0 {
			away = step10(away.Scale(1/g.LeverRatio), units.Nearest)
		}
		if c, err := g.Altered(Alteration{EccentricRod: away}); err == nil {
			add(ofRest, c)
		}
	}
	return all
}

// travels returns travels that are worth trying: what opens the ports fully, what
// opens them enough, and what covers the bars and leaves the middle port open.
func travels(g Gear) (all []units.Length) {
	lap := greaterLap(g)
	for _, end := range []End{HeadEnd, CrankEnd} {
		port, _ := g.Ports.At(end)
		for _, opening := range []units.Length{port, enoughOf(port)} {
			all = append(all, lap.Add(opening).Add(g.Valve.Offset.Abs()).Scale(2).Add(g.Valve.LostMotion))
		}
	}
	if over := greater(sealShort(g), middleShort(g)); over.Sign() > 0 {
		all = append(all, g.Travel.Sub(over.Scale(2)))
	}
	return all
}

// meanPort is the mean width of the cylinder ports.
func meanPort(g Gear) units.Length {
	port, _ := g.Ports.At(BothEnds)
	return port
}

// steamLaps returns steam laps that are worth trying: for the usual lead and for
// none with the eccentric where it is, none at all, what opens the ports fully,
// what opens them enough, and what covers the bars.
func steamLaps(g Gear) (laps []units.Length) {
	k := g.Kernel()
	m := k.Motion()
	port := meanPort(g)
	for _, lead := range []float64{usualLead, 0} {
		if lap := lapForLead(g, port.Scale(lead)); lap.Sign() > 0 {
			laps = append(laps, lap)
		}
	}
	laps = append(laps, units.Length{})
	reach := length(m.Reach - m.Late)
	for _, opening := range []units.Length{port, enoughOf(port)} {
		if lap := reach.Sub(opening); lap.Sign() > 0 {
			laps = append(laps, lap)
		}
	}
	if short := sealShort(g); short.Sign() > 0 && !g.InsideAdmission {
		laps = append(laps, g.Laps().Steam.Add(short))
	}
	return laps
}

// exhaustLaps returns exhaust laps that are worth trying: none, what leaves lands as
// wide as the ports, and what opens the ports and the middle port fully.
func exhaustLaps(g Gear) (laps []units.Length) {
	now := g.Laps()
	laps = append(laps, units.Length{})
	if least := now.Steam.Neg(); least.Sign() > 0 {
		laps = append(laps, least)
	}
	k := g.Kernel()
	m := k.Motion()
	if lap := length(m.Reach - m.Late).Sub(meanPort(g)); lap.Sign() > 0 {
		laps = append(laps, lap)
	}
	if short := middleShort(g); short.Sign() > 0 && !g.InsideAdmission {
		laps = append(laps, now.Exhaust.Sub(short))
	}
	if short := sealShort(g); short.Sign() > 0 && g.InsideAdmission {
		laps = append(laps, now.Exhaust.Add(short))
	}
	return laps
}

// greaterLap is the greatest of the laps.
func greaterLap(g Gear) units.Length {
	head, crank := g.LapsAt(HeadEnd), g.LapsAt(CrankEnd)
	return greater(greater(head.Steam, head.Exhaust), greater(crank.Steam, crank.Exhaust))
}

// lapped returns gears whose valve has other laps: at both ends, and where they
// differ at one end alone, or as the mean of both.
func lapped(g Gear, steam, exhaust *units.Length) (all []Gear) {
	if g.LapsAt(HeadEnd) == g.LapsAt(CrankEnd) {
		if steam != nil {
			g = g.withSteamLap(*steam)
		}
		if exhaust != nil {
			g = g.withExhaustLap(*exhaust)
		}
		return []Gear{g}
	}
	outer, inner := steam, exhaust
	if g.InsideAdmission {
		outer, inner = exhaust, steam
	}
	ports := g.portEdges()
	set := func(which ...int) {
		e := g.valveEdges()
		for _, i := range which {
			switch lap := [...]*units.Length{outer, inner, inner, outer}[i]; {
			case lap == nil:
			case i == innerHead || i == innerCrank:
				e[i] = ports[i].Sub(lap.Scale(float64(grows[i])))
			default:
				e[i] = ports[i].Add(lap.Scale(float64(grows[i])))
			}
		}
		c := g
		c.setValve(e)
		all = append(all, c)
	}
	set(outerHead, innerHead, innerCrank, outerCrank)
	set(outerHead, innerHead)
	set(innerCrank, outerCrank)
	mean := g
	if steam != nil {
		mean = mean.withSteamLap(*steam)
	}
	if exhaust != nil {
		mean = mean.withExhaustLap(*exhaust)
	}
	return append(all, mean)
}

// centredCavity returns the gear with the cavity of its valve in the middle, made
// so by taking metal out of one end of it.
func (g Gear) centredCavity() (Gear, error) {
	g.Valve.Cavity = g.Valve.Cavity.Add(g.Valve.CavityOffset.Abs().Scale(2))
	g.Valve.CavityOffset = units.Length{}
	return g, g.Validate()
}

// portChanges returns gears with other ports: cut farther, or where they are not
// cut yet to any width.
func (s *search) portChanges(g Gear) (all []Gear) {
	now := g.portEdges()
	set := func(e edges) {
		if c, ok := g.withPorts(g.Ports.Exhaust, e); ok {
			all = append(all, c)
		}
	}
	// The steam edges for the usual lead and for none, the exhaust edges for no lap.
	edge, other := [2]int{outerHead, outerCrank}, [2]int{innerHead, innerCrank}
	sign := 1.0
	if g.InsideAdmission {
		edge, other, sign = other, edge, -1
	}
	for _, lap := range steamLaps(g)[:1] {
		e := now
		for i, end := range []End{HeadEnd, CrankEnd} {
			by := g.LapsAt(end).Steam.Sub(lap).Scale(sign * float64(grows[edge[i]]))
			e[edge[i]] = e[edge[i]].Add(by)
		}
		set(e)
	}
	e := now
	for i, end := range []End{HeadEnd, CrankEnd} {
		by := g.LapsAt(end).Exhaust.Scale(-sign * float64(grows[other[i]]))
		e[other[i]] = e[other[i]].Add(by)
	}
	set(e)
	// One end's port as the other's.
	for _, pair := range [][2]int{
		{outerHead, outerCrank}, {outerCrank, outerHead}, {innerHead, innerCrank}, {innerCrank, innerHead},
	} {
		if e := now; e[pair[0]] != e[pair[1]].Neg() {
			e[pair[0]] = e[pair[1]].Neg()
			set(e)
		}
	}
	if short := sealShort(g); short.Sign() > 0 && !s.made.Ports {
		all = append(all, g.withWiderBars(short.Scale(1/(1-kernel.LeastSeal)))) // with a valve that has the same laps on them
	}
	return all
}

// middleChanges returns gears with a middle port that is wide enough: into the bars,
// and where it is not cut yet with a valve to suit.
func (s *search) middleChanges(g Gear) (all []Gear) {
	short := middleShort(g)
	if short.Sign() <= 0 {
		return nil
	}
	if c, ok := g.withPorts(g.Ports.Exhaust.Add(short.Scale(2)), g.portEdges()); ok {
		all = append(all, c)
	}
	if !s.made.Ports {
		all = append(all, widerMiddle(g))
	}
	return all
}

// withPorts returns the gear with other ports; false where one has no width.
func (g Gear) withPorts(middle units.Length, e edges) (Gear, bool) {
	g.setPorts(middle, e)
	for _, end := range []End{HeadEnd, CrankEnd} {
		if steam, bar := e.widths(middle, end); steam.Sign() <= 0 || bar.Sign() <= 0 {
			return g, false
		}
	}
	return g, middle.Sign() > 0
}

// widths returns the widths of one end's port and bar.
func (e edges) widths(middle units.Length, end End) (steam, bar units.Length) {
	if end == CrankEnd {
		return e[outerCrank].Sub(e[innerCrank]), e[innerCrank].Sub(middle.Scale(0.5))
	}
	return e[innerHead].Sub(e[outerHead]), e[innerHead].Neg().Sub(middle.Scale(0.5))
}
