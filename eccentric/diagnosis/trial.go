package diagnosis

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// A Trial is one thing to try on an engine that has not run yet.
type Trial struct {
	Key   string `json:"key"` // "turns", "travel", "head_lead", "head_opens", "crank_lead", "openings", "cut_offs", ...
	Air   bool   `json:"air"` // with low-pressure air on; else by hand
	Try   string `json:"try"`
	See   string `json:"see"`    // what this engine does, in its sizes
	IfNot string `json:"if_not"` // what it means where it does something else

	Expect []Reading `json:"expect,omitempty"` // what is read where the gear is as it is drawn
}

// FirstRun returns what to try on a new engine with this gear before it has steam, in
// order: first by hand, with nothing on the engine, then with low-pressure air. Each
// trial says what is to be seen, and which part is wrong where it is not; the figures
// are those of this gear. All is tried turning the way the engine is to run, and a gear
// that does not start that way is not told to run. It fails only where
// [eccentric.Gear.Validate] does. The geometry is exact, the order is common practice.
// See the Example.
func FirstRun(g eccentric.Gear) ([]Trial, error) {
	events, err := g.Events()
	if err != nil {
		return nil, err
	}
	f := first{g, events}
	list := []Trial{
		f.turns(), f.travel(), f.headLead(), f.opens(), f.crankLead(),
		f.openings(), f.cutOffs(), f.exhausts(), f.standing(), f.starts(),
	}
	if f.startsItself() {
		list = append(list, f.runs(), f.steam())
	}
	return list, nil
}

// A first is an engine before its first run.
type first struct {
	g      eccentric.Gear
	events eccentric.Events
}

// furthest is where the crank stands, from the head-end dead centre, when the valve has
// gone furthest to open the port of an end to steam.
func (f *first) furthest(end eccentric.End) units.Angle {
	t := math.Remainder(math.Pi/2-float64(f.g.Advance), 2*math.Pi)
	if end == eccentric.CrankEnd {
		t += math.Pi
	}
	if t < 0 {
		t += 2 * math.Pi
	}
	return units.Angle(t)
}

func (f *first) turns() Trial {
	return Trial{
		Key: "turns",
		Try: "Oil it, open the drain cocks, and turn it over by hand through two whole turns, with no air or steam on it.",
		See: fmt.Sprintf("It turns alike all the way round. The piston goes %s and the valve %s, and neither touches anything.",
			mm(f.g.Stroke), mm(f.moves())),
		IfNot: fmt.Sprintf("Do not force it. What is tight at a dead centre is the piston at a cover, or a nut at a gland; what is"+
			" tight with the crank near %s or %s past the head-end dead centre is the valve at the end of its chest; what is tight in"+
			" mid-stroke, both ways, is a rod, a guide or a gland out of line.",
			tenths(f.furthest(eccentric.HeadEnd)), tenths(f.furthest(eccentric.CrankEnd))),
	}
}

// moves is how far the valve itself goes.
func (f *first) moves() units.Length { return f.g.Travel.Sub(f.g.Valve.LostMotion) }

func (f *first) travel() Trial {
	offset := f.g.EccentricOffset()
	return Trial{
		Key: "travel",
		Try: "With the cover of the chest off measure how far the valve goes from end to end.",
		See: fmt.Sprintf("%s, from a sheave that is offset by %s.", mmThou(f.moves()), mmThou(offset)),
		IfNot: fmt.Sprintf("Half or twice as much: travel and offset were taken for each other, and the sheave is offset by %s or %s."+
			" Some tenths less: play between sheave and valve, where the valve rests at each end while the crank turns on; or a small"+
			" offset, where it does not.", mm(offset.Scale(0.5)), mm(offset.Scale(2))),
		Expect: []Reading{{Kind: Travel, Length: f.moves()}},
	}
}

// lead is what is seen of a port at the dead centre of its end.
func (f *first) lead(end eccentric.End) units.Length { return seenLead(f.g, f.events, end) }

func seenLead(g eccentric.Gear, e eccentric.Events, end eccentric.End) units.Length {
	lead := e.Head.Lead
	if end == eccentric.CrankEnd {
		lead = e.Crank.Lead
	}
	if port, _ := g.Ports.At(end); lead.Cmp(port) > 0 {
		return port
	}
	return lead
}

// shown says what is seen of it.
func (f *first) shown(lead units.Length, end eccentric.End) string {
	port, _ := f.g.Ports.At(end)
	switch {
	case lead.Cmp(port) >= 0:
		return "wide open with " + mmThou(port)
	case onEdge(lead):
		return "just on its edge"
	case lead.Sign() > 0:
		return "open by " + mmThou(lead)
	}
	return "shut by " + mmThou(lead)
}

// with is what the head end's port shows at its dead centre with the sheave elsewhere.
func (f *first) with(advance units.Angle) string {
	g := f.g
	g.Advance = units.Angle(math.Remainder(float64(advance), 2*math.Pi))
	e, err := g.Events()
	if err != nil { // the same sizes were sound before
		return "elsewhere"
	}
	return f.shown(seenLead(g, e, eccentric.HeadEnd), eccentric.HeadEnd)
}

func (f *first) headLead() Trial {
	d := f.g.Advance
	lead := f.lead(eccentric.HeadEnd)
	hidden := ""
	if f.g.InsideAdmission {
		hidden = " A piston valve hides its ports: measure how far it stands from where both were shut alike."
	}
	return Trial{
		Key: "head_lead",
		Try: "Stand the crank at the head-end dead centre, coming to it the way the engine runs, and look at the head end's port." + hidden,
		See: "It is " + f.shown(lead, eccentric.HeadEnd) + ", and the valve stands " + f.stands(0) + ".",
		IfNot: fmt.Sprintf("Half a turn out shows it %s; an advance that was left out shows it %s; a sheave in line with the crank shows"+
			" it %s, or %s. The right figure may still be that of a sheave on the other hand: see the next.",
			f.with(d-math.Pi), f.with(0), f.with(math.Pi/2), f.with(-math.Pi/2)),
		Expect: f.leads(eccentric.HeadEnd, 0),
	}
}

// leads are what is read at a dead centre.
func (f *first) leads(end eccentric.End, crank units.Angle) []Reading {
	at := f.at(crank)
	return []Reading{{Kind: Lead, End: end, Length: f.lead(end)}, {Kind: ValveAt, Length: at, Crank: crank}}
}

// at is how far the valve stands from the middle of the ports towards the crank.
func (f *first) at(crank units.Angle) units.Length {
	x, err := f.g.Displacement(crank)
	if err != nil { // the gear is sound and the angle finite
		return units.Length{}
	}
	return x
}

// stands says so.
func (f *first) stands(crank units.Angle) string {
	x := f.at(crank)
	switch {
	case onEdge(x):
		return "in the middle of the ports"
	case x.Sign() < 0:
		return mmThou(x) + " from the middle of the ports, away from the crank"
	}
	return mmThou(x) + " from the middle of the ports, towards the crank"
}

// on is how far the crank is turned on to see which way a port goes.
const on = 10 * units.Degree

func (f *first) opens() Trial {
	t := Trial{
		Key: "head_opens",
		Try: fmt.Sprintf("Turn on by %s from there, the way the engine is to run.", tenths(on)),
	}
	turn := -f.g.TurnToReverse()
	way := "forwards"
	if turn < 0 {
		way = "backwards"
	}
	otherHand := fmt.Sprintf("the sheave is on the other hand, which reads the right leads: turn it %s %s on the shaft, or run the"+
		" engine the other way", tenths(turn), way)
	if math.Abs(math.Cos(float64(f.g.Advance))) < math.Sin(float64(on)) {
		t.See = "The valve is about at its turn, and hardly moves."
		t.IfNot = "It moves on clearly, one way or the other: the sheave is not where it is drawn."
		return t
	}
	opens := Steam
	if f.goesOn() {
		t.See, t.IfNot = f.goingOn()+".", f.goingBack(math.Pi-f.g.Advance)+": "+otherHand+"."
	} else {
		opens = Exhaust
		t.See = f.goingBack(f.g.Advance) + ", as the gear is drawn for the other direction."
		t.IfNot = "It goes on towards opening: the sheave is not where it is drawn, and stands for this direction."
	}
	t.Expect = []Reading{{Kind: OpensNext, End: eccentric.HeadEnd, Opens: opens}}
	return t
}

// goingOn says what the head end's port is seen to do, from its dead centre, while the
// valve goes on to open it.
func (f *first) goingOn() string {
	port, _ := f.g.Ports.At(eccentric.HeadEnd)
	was, is := f.lead(eccentric.HeadEnd), f.opened(f.g)
	switch {
	case was.Cmp(port) >= 0:
		return "The port stays wide open, and the valve goes on past it"
	case is.IsZero():
		return "The valve goes on towards opening the port to steam, which is still shut"
	case onEdge(is):
		return "The port comes just to its edge, and begins to open"
	case was.Sign() <= 0 || onEdge(was):
		return "The port opens, to " + mmThou(is)
	}
	return "The port opens further, to " + mmThou(is)
}

// goingBack says what it is seen to do where the valve goes back, with the sheave at an
// angle of advance that reads the same lead.
func (f *first) goingBack(advance units.Angle) string {
	g := f.g
	g.Advance = units.Angle(math.Remainder(float64(advance), 2*math.Pi))
	was, is := f.lead(eccentric.HeadEnd), f.opened(g)
	switch {
	case was.Sign() <= 0 || onEdge(was):
		return "The valve goes back, further over the port"
	case is.IsZero():
		return "The valve goes back and shuts the port"
	case onEdge(is):
		return "The valve goes back, until the port is all but shut"
	}
	return "The valve goes back, towards shutting the port"
}

// opened is how far the head end's port of a gear is open to steam with the crank on
// from its dead centre.
func (f *first) opened(g eccentric.Gear) units.Length {
	o, err := g.OpeningsAt(on)
	if err != nil { // the same sizes were sound before
		return units.Length{}
	}
	return o.Head.Steam
}

// onEdge reports whether a length is nothing to the eye: an edge stands on the other.
func onEdge(l units.Length) bool { return l.Abs().Cmp(units.Micron(5)) < 0 }

// goesOn reports whether the valve goes on to open the head end's port to steam as the
// crank moves on from that dead centre.
func (f *first) goesOn() bool { return opensNext(f.g) == Steam }

// slipped is how far the sheave is taken to be back, for an example of what that reads.
const slipped = 10 * units.Degree

func (f *first) crankLead() Trial {
	lead := f.lead(eccentric.CrankEnd)
	back := f.g
	back.Advance = units.Angle(math.Remainder(float64(back.Advance-slipped), 2*math.Pi))
	example := ""
	if e, err := back.Events(); err == nil {
		head, crank := seenLead(back, e, eccentric.HeadEnd), seenLead(back, e, eccentric.CrankEnd)
		example = fmt.Sprintf(" A sheave that has slipped back %s shows the head end's port %s and the crank end's %s.",
			tenths(slipped), f.shown(head, eccentric.HeadEnd), f.shown(crank, eccentric.CrankEnd))
	}
	return Trial{
		Key: "crank_lead",
		Try: "Do both at the crank-end dead centre, with the crank end's port.",
		See: fmt.Sprintf("It is %s, the valve stands %s; and it goes on as the head end's did.",
			f.shown(lead, eccentric.CrankEnd), f.stands(180*units.Degree)),
		IfNot: "One end shows more than it should and the other less by as much: the valve is off centre on its rod by that," +
			" which is half of what the difference of the leads is out by. Both show less, or both more: the sheave has slipped," +
			" or the valve is of another length, and the greatest openings tell which." + example,
		Expect: f.leads(eccentric.CrankEnd, 180*units.Degree),
	}
}

func (f *first) openings() Trial {
	e := f.events
	ends := []struct {
		end  eccentric.End
		does eccentric.EndEvents
	}{{eccentric.HeadEnd, e.Head}, {eccentric.CrankEnd, e.Crank}}
	t := Trial{
		Key: "openings",
		Try: fmt.Sprintf("Turn on until each port is open furthest, near %s past the head-end dead centre for the head end and %s for the"+
			" crank end.", tenths(f.furthest(eccentric.HeadEnd)), tenths(f.furthest(eccentric.CrankEnd))),
	}
	blind := false
	for i, of := range ends {
		if i > 0 {
			t.See += " "
		}
		port, _ := f.g.Ports.At(of.end)
		switch past := of.does.OverTravel; {
		case of.does.Steam == eccentric.NeverOpens:
			t.See += fmt.Sprintf("The port of the %v end never opens.", of.end)
		case of.does.Opening == port && onEdge(past):
			t.See += fmt.Sprintf("The port of the %v end is just wide open, %s.", of.end, mmThou(port))
		case past.Sign() > 0:
			blind = true
			t.See += fmt.Sprintf("The port of the %v end is wide open, %s, and the valve's edge has gone %s past it.", of.end,
				mmThou(of.does.Opening), mmThou(past))
		case onEdge(of.does.Opening):
			t.See += fmt.Sprintf("The port of the %v end comes just to its edge.", of.end)
		default:
			t.See += fmt.Sprintf("The port of the %v end is open by %s.", of.end, mmThou(of.does.Opening))
		}
		t.Expect = append(t.Expect, Reading{Kind: Opening, End: of.end, Length: of.does.Opening})
	}
	t.IfNot = "As it should be, with leads that are both short: the sheave has slipped. Less at both ends: the valve is too long where" +
		" its travel is right, and the sheave's offset too small where it is not. More at one end and less at the other: the" +
		" valve is off centre."
	if blind {
		t.IfNot += " Where the port is wide open it is the place of the edge past it that tells."
	}
	return t
}

// when says where an event happens.
func (f *first) when(e eccentric.Event) string {
	if !e.Occurs {
		return "never"
	}
	return fmt.Sprintf("at %s, the piston %s (%.1f %%) from that end", signedDegrees(inReach(e.Crank)), mm(f.g.Stroke.Scale(e.Stroke)),
		100*e.Stroke)
}

func signedDegrees(a units.Angle) string {
	if text := tenths(a); a >= 0 || text == tenths(0) {
		return text
	}
	return "-" + tenths(a)
}

func (f *first) cutOffs() Trial {
	h, c := f.events.Head.CutOff, f.events.Crank.CutOff
	t := Trial{
		Key: "cut_offs",
		Try: "Turn on until each port has just shut again, and read the crank from that end's own dead centre.",
		See: fmt.Sprintf("The head end %s; the crank end %s.", f.when(h), f.when(c)),
		IfNot: "Both early: the valve is long, or the sheave ahead; both late: the other way about; the leads tell which. One early and" +
			" one late: the valve is off centre.",
		Expect: []Reading{event(CutOff, eccentric.HeadEnd, h), event(CutOff, eccentric.CrankEnd, c)},
	}
	if h.Occurs && c.Occurs {
		t.IfNot += fmt.Sprintf(" That the ends differ by %.1f %% of the stroke is no fault where both are as they are here.",
			100*math.Abs(h.Stroke-c.Stroke))
	}
	return t
}

// inReach returns the angle from -180 to 360 degrees that is as many whole turns away.
func inReach(a units.Angle) units.Angle {
	switch {
	case a > 2*math.Pi:
		return a - 2*math.Pi
	case a < -math.Pi:
		return a + 2*math.Pi
	}
	return a
}

// event is the reading of an event.
func event(kind Kind, end eccentric.End, e eccentric.Event) Reading {
	return Reading{Kind: kind, End: end, Never: !e.Occurs, Angle: inReach(e.Crank)}
}

func (f *first) exhausts() Trial {
	h, c := f.events.Head, f.events.Crank
	return Trial{
		Key: "exhausts",
		Try: "Blow with your mouth through a tube into the drain cock of each end while somebody turns the engine by hand: breath that" +
			" begins to go through to the exhaust is release, where it stops again compression.",
		See: fmt.Sprintf("Release: the head end %s; the crank end %s. Compression: the head end %s; the crank end %s.",
			f.when(h.Release), f.when(c.Release), f.when(h.Compression), f.when(c.Compression)),
		IfNot: "With the leads and cut-offs right it is the cavity: release early and compression late at both ends where it is too" +
			" long, the other way about where it is too short. A cavity changes no lead and no cut-off.",
		Expect: []Reading{
			event(Release, eccentric.HeadEnd, h.Release), event(Compression, eccentric.HeadEnd, h.Compression),
			event(Release, eccentric.CrankEnd, c.Release), event(Compression, eccentric.CrankEnd, c.Compression),
		},
	}
}

// open is where the crank stands, past the head-end dead centre, with the head end's
// port widest open to steam and the crank end's to exhaust; false where they are not so
// at once.
func (f *first) open() (at units.Angle, ok bool) {
	widest := units.Length{}
	for fives := range 37 { // from one dead centre to the other
		t := units.Angle(fives) * 5 * units.Degree
		o, err := f.g.OpeningsAt(t)
		if err != nil {
			return 0, false
		}
		both := o.Head.Steam
		if o.Crank.Exhaust.Cmp(both) < 0 {
			both = o.Crank.Exhaust
		}
		if both.Cmp(widest) > 0 {
			at, widest = t, both
		}
	}
	return at, widest.Sign() > 0
}

func (f *first) standing() Trial {
	t := Trial{
		Key: "standing", Air: true,
		See: "It blows out of the head end's cock, and neither at the exhaust nor at the crank end's cock.",
		IfNot: "A hiss at the exhaust alone goes past the valve: it is held off its face by spindle, nut or buckle, or the faces are not" +
			" flat. A hiss at the crank end's cock too goes past the piston. Nothing at the head end's cock: the port or its" +
			" passage is shut.",
	}
	at, ok := f.open()
	if !ok {
		t.Try = "No place of the crank opens the head end's port to steam and the crank end's to exhaust at once: there is nothing to" +
			" try with air before the gear is right."
		t.See, t.IfNot, t.Air = "", "", false
		return t
	}
	t.Try = fmt.Sprintf("Block the flywheel with the crank %s past the head-end dead centre, where the head end has steam and the crank"+
		" end exhaust, open both drain cocks, and give it as little air as the regulator gives.", tenths(at))
	return t
}

func (f *first) starts() Trial {
	t := Trial{Key: "starts", Air: true}
	var from []string
	at := units.Angle(0)
	for _, of := range []struct {
		end  string
		does eccentric.EndEvents
	}{{"head", f.events.Head}, {"crank", f.events.Crank}} {
		if a, b := of.does.Driven(); b > a {
			from = append(from, fmt.Sprintf("%s to %s past the %s-end dead centre", tenths(a), tenths(b), of.end))
			if of.end == "head" {
				at = (a + b) / 2
			}
		}
	}
	if !f.startsItself() {
		t.Try = "Do not give this engine air before the gear is right: it would not start, or turn the other way."
		t.Air = false
		return t
	}
	t.Try = fmt.Sprintf("With the air off stand the crank near %s past the head-end dead centre, take away the block and your hands, shut"+
		" the drain cocks and open the air slowly, at low pressure.", tenths(at))
	t.See = fmt.Sprintf("It starts by itself, the right way round. It does so from %s. From elsewhere it wants a turn by hand, with the air"+
		" off.", joined(from))
	t.IfNot = "It turns the other way: the sheave is on the other hand. It jerks, hisses at the exhaust and stops: half a turn out, or" +
		" in line with the crank. It does not move and hisses: as the trial before. It does not move and is still: it is tight;" +
		" look for what binds, and do not raise the pressure."
	return t
}

// startsItself reports whether it does, the way it is drawn for.
func (f *first) startsItself() bool {
	from, to := f.events.Head.Driven()
	return to > from && f.goesOn()
}

func joined(list []string) string {
	if len(list) == 2 {
		return list[0] + ", and from " + list[1]
	}
	return list[0]
}

func (f *first) runs() Trial {
	t := Trial{
		Key: "runs", Air: true,
		Try: "Let it run slowly on air for some minutes, and listen at the exhaust, standing clear.",
		See: "Two beats in each turn, alike; it goes on as slowly as before when it is warm.",
		IfNot: "One beat strong and one weak: the valve is off centre. A knock: play in a bearing, or water or oil before the piston." +
			" Slower as it runs: piston, gland or a bearing is tight. Your ear decides; the readings above tell why.",
	}
	if h, c := f.events.Head.CutOff, f.events.Crank.CutOff; h.Occurs && c.Occurs {
		t.See = fmt.Sprintf("Two beats in each turn, nearly alike: the head end takes air for %.0f %% of its stroke and the crank end for"+
			" %.0f %%. It goes on as slowly as before when it is warm.", 100*h.Stroke, 100*c.Stroke)
	}
	return t
}

func (f *first) steam() Trial {
	return Trial{
		Key: "steam",
		Try: "Steam last, from a tested boiler: warm it through slowly with the drain cocks open and turn it by hand until no water comes.",
		See: "It runs as it did on air.",
		IfNot: "It knocks and stops: water; shut the steam off and drain it. It stops when it is hot and runs again cold: piston or" +
			" valve is too close a fit when warm.",
	}
}
