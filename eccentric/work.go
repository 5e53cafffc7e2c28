package eccentric

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A kind is a kind of work, in order of what it costs: what costs nothing, what
// is set, what metal comes off, what is let in, what is made new. The order is
// common practice; see testdata/eccentric/README.md.
type kind int

const (
	restate    kind = iota // the sizes are stated as they are, and nothing is done
	draw                   // a part that is not made yet gets another size
	turn                   // the sheave on the shaft
	move                   // the valve on its rod
	metalOff               // the ends of the valve
	metalOut               // of the cavity
	takeUp                 // lost motion
	stripsEnds             // let into the ends of the valve
	stripsIn               // let into the cavity
	packing                // under the bearings or the cylinder
	newValve
	longChest // metal out of the chest's ends
	widePorts
	newSheave
	newRod // the eccentric rod longer or shorter
)

// The parts that a step may be of.
const (
	partPorts     = "ports"
	partValve     = "valve"
	partEccentric = "eccentric"
	partRods      = "rods"
	partChest     = "chest"
	partBearings  = "bearings"
	partCylinder  = "cylinder"
)

// kinds have what [Step] says of each.
var kinds = [...]struct {
	part   string
	change string
}{
	restate:    {partEccentric, "stated otherwise"},
	draw:       {"", "drawn otherwise"},
	turn:       {partEccentric, "turned on the shaft"},
	move:       {partValve, "moved on its rod"},
	metalOff:   {partValve, "metal off the ends"},
	metalOut:   {partValve, "metal out of the cavity"},
	takeUp:     {partRods, "lost motion taken up"},
	stripsEnds: {partValve, "strips let into the ends"},
	stripsIn:   {partValve, "strips let into the cavity"},
	packing:    {partBearings, "packing"},
	newValve:   {partValve, "new valve"},
	longChest:  {partChest, "longer inside"},
	widePorts:  {partPorts, "wider ports"},
	newSheave:  {partEccentric, "new sheave"},
	newRod:     {partRods, "eccentric rod longer or shorter"},
}

// A step is one kind of work with its sizes.
type step struct {
	Step
	kind kind
}

// tier ranks a kind by its cost, with those that cost the same alike.
func (k kind) tier() int {
	switch k {
	case metalOut:
		k = metalOff
	case stripsIn:
		k = stripsEnds
	}
	return int(k)
}

// turnOf says when in a cure a kind of work has its turn.
func (k kind) turnOf() int {
	if k == turn || k == move {
		return 2 - int(k)
	}
	if k <= draw {
		return -100
	}
	return -int(k)
}

func newStep(k kind, amount units.Length, format string, args ...any) step {
	return step{Step{Part: kinds[k].part, Change: kinds[k].change, Amount: amount, Text: fmt.Sprintf(format, args...)}, k}
}

// A job is a gear that is to become another, under what is made.
type job struct {
	from, to Gear
	made     Made
}

// ways returns the ways of doing the job, each with its steps: what is drawn, what
// is cut or made, the dearest first, and what is set last; none where what is made
// cannot be altered so.
func (j job) ways() (ways [][]step) {
	rest, ok := j.rest()
	if !ok {
		return nil
	}
	for _, valve := range j.valve(len(rest) == 0) {
		way := append(slices.Clone(rest), valve...)
		slices.SortStableFunc(way, func(a, b step) int { return cmp.Compare(a.kind.turnOf(), b.kind.turnOf()) })
		ways = append(ways, way)
	}
	return ways
}

// rest returns the steps that are not of the valve.
func (j job) rest() (steps []step, ok bool) {
	steps, ok = j.ports()
	if !ok {
		return nil, false
	}
	steps = append(steps, j.sheave()...)
	if by := j.to.Chest.Sub(j.from.Chest); !by.IsZero() {
		if by.Sign() < 0 {
			return nil, false
		}
		steps = append(steps, newStep(longChest, by.Scale(0.5),
			"Take %s out of each end of the steam chest, or put a frame between chest and cover, so that it is %s long inside.",
			both(by.Scale(0.5)), sized(j.to.Chest)))
	}
	if by := j.from.Valve.LostMotion.Sub(j.to.Valve.LostMotion); !by.IsZero() {
		steps = append(steps, newStep(takeUp, by,
			"Take up the lost motion between sheave and valve, %s: the strap, the pins and the nut of the valve rod.", both(by)))
	}
	return steps, true
}

// sheave returns what is done to the sheave and its rod.
func (j job) sheave() (steps []step) {
	if j.to.Travel != j.from.Travel {
		offset := j.to.EccentricOffset()
		by := offset.Sub(j.from.EccentricOffset())
		kind, how := newSheave, "Make a new sheave,"
		if !j.made.Eccentric {
			kind, how = draw, "Draw the sheave, which is not made yet,"
		}
		s := newStep(kind, by, "%s offset by %s, for a travel of %s.", how, sized(offset), sized(j.to.Travel))
		s.Part = partEccentric
		steps = append(steps, s)
	}
	if by := j.rodBy(); !by.IsZero() {
		l, _ := j.to.EccentricRod.Length()
		way := "longer"
		if by.Sign() < 0 {
			way = "shorter"
		}
		s := newStep(newRod, by, "Make the eccentric rod %s %s, which is then %s between centres", both(by.Abs()), way, sized(l))
		if moves := j.byRod(); j.made.Rods {
			s.Text += fmt.Sprintf("; that moves the valve %s the crank.", towards(moves))
		} else {
			s = newStep(draw, by, "Draw the eccentric rod, which is not made yet, %s between centres.", sized(l))
			s.Part = partRods
		}
		steps = append(steps, s)
	}
	if by := inTurn(j.to.Advance - j.from.Advance); by != 0 {
		steps = append(steps, j.turn(by))
	}
	return steps
}

// turn says how to turn the sheave on the shaft.
func (j job) turn(by units.Angle) step {
	way := deg(max(by, -by)) + " forwards"
	switch by = toTenths(by); {
	case max(by, -by) > halfTurn-leastTurn/20:
		way, by = "half round", halfTurn
	case by < 0:
		way = deg(-by) + " backwards"
	}
	arc := units.MM(3).Scale(math.Abs(float64(by)))
	s := newStep(turn, units.Length{}, "Turn the eccentric on the shaft %s, an arc of %s on a shaft of 6 mm, until it stands %s"+
		" (advance %s).", way, both(arc), fromCrank(j.to), deg(j.to.Advance))
	if !j.made.Eccentric {
		s.Text = fmt.Sprintf("Set the eccentric to stand %s (advance %s).", fromCrank(j.to), deg(j.to.Advance))
	}
	s.Turn = by
	return s
}

// rodBy returns how much longer the eccentric rod gets.
func (j job) rodBy() units.Length {
	from, known := j.from.EccentricRod.Length()
	to, still := j.to.EccentricRod.Length()
	if !known || !still {
		return units.Length{}
	}
	return to.Sub(from)
}

// byRod returns how far a rod that is made moves the valve towards the crank as it
// gets longer.
func (j job) byRod() units.Length {
	if !j.made.Rods {
		return units.Length{}
	}
	by := j.rodBy().Neg()
	if j.from.LeverRatio != 0 {
		by = by.Scale(j.from.LeverRatio)
	}
	return by
}

// ports returns what is done to the port face; false where what is cut would have
// to be filled.
func (j job) ports() (steps []step, ok bool) {
	from, to := j.from.portEdges(), j.to.portEdges()
	middle := j.to.Ports.Exhaust.Sub(j.from.Ports.Exhaust).Scale(0.5)
	if from == to && middle.IsZero() {
		return nil, true
	}
	if !j.made.Ports {
		return []step{j.drawPorts()}, true
	}
	if middle.Sign() < 0 {
		return nil, false
	}
	var by [4]units.Length // cut away at each edge
	for i := range by {
		by[i] = to[i].Sub(from[i]).Scale(float64(grows[i]))
	}
	by[innerHead], by[innerCrank] = by[innerHead].Neg(), by[innerCrank].Neg()
	for _, b := range by {
		if b.Sign() < 0 {
			return nil, false
		}
	}
	for _, edge := range []struct {
		name        string
		head, crank units.Length
	}{{"outer", by[outerHead], by[outerCrank]}, {"inner", by[innerHead], by[innerCrank]}} {
		for _, e := range endsOf(edge.head, edge.crank) {
			steam, _ := j.to.Ports.At(e.end)
			which := "each steam port"
			if e.end != BothEnds {
				which = "the steam port of the " + e.end.String() + " end"
			}
			steps = append(steps, newStep(widePorts, e.by, "Widen %s by %s at its %s edge, to %s in all.",
				which, both(e.by), edge.name, sized(steam)))
		}
	}
	if middle.Sign() > 0 {
		steps = append(steps, newStep(widePorts, middle, "Widen the %s by %s at each edge, to %s in all.",
			middlePort(j.to), both(middle), sized(j.to.Ports.Exhaust)))
	}
	return steps, true
}

// drawPorts says how ports that are not cut yet are drawn.
func (j job) drawPorts() step {
	p, was := j.to.Ports, j.from.Ports
	greatest := p.Exhaust.Sub(was.Exhaust)
	for _, end := range []End{HeadEnd, CrankEnd} {
		steam, bar := p.At(end)
		steamWas, barWas := was.At(end)
		for _, by := range []units.Length{steam.Sub(steamWas), bar.Sub(barWas)} {
			if by.Abs().Cmp(greatest.Abs()) > 0 {
				greatest = by
			}
		}
	}
	steam, bar := p.At(HeadEnd)
	sizes := fmt.Sprintf("steam ports %s, bars %s", sized(steam), sized(bar))
	if crankSteam, crankBar := p.At(CrankEnd); crankSteam != steam || crankBar != bar {
		sizes = fmt.Sprintf("at the head end steam port %s and bar %s, at the crank end %s and %s",
			sized(steam), sized(bar), sized(crankSteam), sized(crankBar))
	}
	s := newStep(draw, greatest, "Draw the port face, which is not cut yet, with these widths: %s, %s %s.",
		sizes, middlePort(j.to), sized(p.Exhaust))
	s.Part = partPorts
	return s
}

// An edgeWork is by how much an edge is altered at one end, or at both alike.
type edgeWork struct {
	end End
	by  units.Length
}

func endsOf(head, crank units.Length) (work []edgeWork) {
	switch {
	case head == crank && head.IsZero():
	case head == crank:
		work = append(work, edgeWork{BothEnds, head})
	default:
		if !head.IsZero() {
			work = append(work, edgeWork{HeadEnd, head})
		}
		if !crank.IsZero() {
			work = append(work, edgeWork{CrankEnd, crank})
		}
	}
	return work
}

// valve returns the ways of coming by the valve and its place; one of no steps
// where nothing is done to it. Where it is moved, and nothing else is done, there
// is more than one way of moving it.
func (j job) valve(alone bool) [][]step {
	from, to := j.from.valveEdges(), j.to.valveEdges()
	body := j.to.Valve.Length != j.from.Valve.Length || j.to.Valve.Cavity != j.from.Valve.Cavity ||
		j.to.Valve.CavityOffset != j.from.Valve.CavityOffset
	switch {
	case body && !j.made.Valve:
		return [][]step{append([]step{j.newBody(draw, "Draw the valve, which is not made yet,")}, j.moved(
			j.to.Valve.Offset.Sub(j.from.Valve.Offset).Sub(j.byRod()))...)}
	case !body:
		by := to[outerHead].Sub(from[outerHead]).Sub(j.byRod())
		if alone {
			return j.placedWays(by)
		}
		return [][]step{j.moved(by)}
	}
	// The valve may be moved as a whole, so that there is as little work as can be at its edges.
	var by [4]units.Length
	for i := range by {
		by[i] = to[i].Sub(from[i]).Sub(j.byRod())
	}
	var whole units.Length
	var longer [4]units.Length // the valve at its ends, the cavity at its own; below zero shorter
	for i, m := range append([]units.Length{{}}, by[:]...) {
		var l [4]units.Length
		for i := range by {
			l[i] = by[i].Sub(m).Scale(float64(grows[i]))
		}
		if i == 0 || work(l) < work(longer) {
			whole, longer = m, l
		}
	}
	var steps []step
	strips := false
	for _, w := range endsOf(longer[outerHead], longer[outerCrank]) {
		steps = append(steps, j.endsAltered(w))
		strips = strips || w.by.Sign() > 0
	}
	for _, w := range endsOf(longer[innerHead], longer[innerCrank]) {
		steps = append(steps, j.cavityAltered(w))
		strips = strips || w.by.Sign() < 0
	}
	moved := j.moved(whole)
	anew := append([]step{j.newBody(newValve, "Make a new valve")},
		j.moved(j.to.Valve.Offset.Sub(j.from.Valve.Offset).Sub(j.byRod()))...)
	switch {
	case len(steps) > 2:
		return [][]step{anew}
	case strips:
		return [][]step{append(steps, moved...), anew}
	}
	return [][]step{append(steps, moved...)}
}

// work counts the steps that it takes to make the edges of a valve longer by so much.
func work(longer [4]units.Length) int {
	return len(endsOf(longer[outerHead], longer[outerCrank])) + len(endsOf(longer[innerHead], longer[innerCrank]))
}

// placedWays are the ways of moving the valve as it is.
func (j job) placedWays(by units.Length) [][]step {
	ways := [][]step{j.moved(by)}
	if by.IsZero() || j.from.LeverRatio != 0 {
		return ways
	}
	// An engine on a bed is packed as a vertical one: what lies between crank and cylinder gets longer or shorter.
	s := newStep(packing, by.Abs(), "Put %s of packing under the main bearings, towards the cylinder: the valve then stands as"+
		" much farther from the crank, and the piston nearer to the head cover.", both(by.Abs()))
	if by.Sign() > 0 {
		s = newStep(packing, by.Abs(), "Put %s of packing between the cylinder and what carries it, away from the crank: the valve"+
			" then stands as much nearer to the crank, and the piston nearer to the crank cover.", both(by.Abs()))
		s.Part = partCylinder
	}
	s.Text += " Look at the clearance there first."
	return append(ways, []step{s})
}

func (j job) moved(by units.Length) []step {
	if by.IsZero() {
		return nil
	}
	to := ""
	if j.to.Valve.Offset.IsZero() {
		to = ", to the centre"
	}
	return []step{newStep(move, by, "Move the valve %s the crank on its rod%s.", towards(by), to)}
}

// newBody says how a valve is made that is none yet.
func (j job) newBody(k kind, how string) step {
	v, was := j.to.Valve, j.from.Valve
	by := v.Length.Sub(was.Length)
	if by.IsZero() {
		by = v.Cavity.Sub(was.Cavity)
	}
	if by.IsZero() {
		by = v.CavityOffset.Sub(was.CavityOffset)
	}
	inner := "with a cavity of " + sized(v.Cavity)
	if j.to.InsideAdmission {
		inner = "with " + sized(v.Cavity) + " between its inner edges"
	}
	if !v.CavityOffset.IsZero() {
		inner += ", the middle of that " + towards(v.CavityOffset) + " the crank from the middle of the valve"
	}
	s := newStep(k, by, "%s %s long over its outer edges, %s.", how, sized(v.Length), inner)
	s.Part = partValve
	return s
}

// endsAltered says how the valve gets longer or shorter over its outer edges.
func (j job) endsAltered(w edgeWork) step {
	where := "each end"
	if w.end != BothEnds {
		where = "the " + w.end.String() + " end"
	}
	length := sized(j.to.Valve.Length)
	if w.by.Sign() < 0 {
		return newStep(metalOff, w.by.Neg(), "Take %s off %s of the valve, which is then %s long over its outer edges.",
			both(w.by.Neg()), where, length)
	}
	return newStep(stripsEnds, w.by, "Let strips into this valve, %s at %s, to make it %s long over its outer edges.",
		both(w.by), where, length)
}

// cavityAltered says how its cavity gets longer or shorter.
func (j job) cavityAltered(w edgeWork) step {
	where, what, then := "each end", "cavity", "which is then "+sized(j.to.Valve.Cavity)+" long"
	if w.end != BothEnds {
		where = "the " + w.end.String() + " end"
	}
	if j.to.InsideAdmission {
		what, then = "space between the inner edges", "which is then "+sized(j.to.Valve.Cavity)
	}
	if w.by.Sign() > 0 {
		return newStep(metalOut, w.by, "Take %s out of %s of the valve's %s, %s.", both(w.by), where, what, then)
	}
	return newStep(stripsIn, w.by.Neg(), "Let strips into this valve, %s at %s of its %s, %s.",
		both(w.by.Neg()), where, what, then)
}

// middlePort is what the middle port is called.
func middlePort(g Gear) string {
	if g.InsideAdmission {
		return "middle port"
	}
	return "exhaust port"
}

// sized writes a size to the nearest hundredth of a millimetre and thou.
func sized(l units.Length) string { return size(l, units.Nearest) }
