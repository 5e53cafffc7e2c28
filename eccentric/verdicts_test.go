package eccentric

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A verdict is what Check should say under a code of an end.
type verdict struct {
	severity finding.Severity
	amount   float64 // mm
}

// A jury judges a gear on the bench by the words that the codes are explained with and
// the lines that common practice draws, all our own choice where no source is named:
// it knows no formula of the library. What comes too near to a line is not judged.
type jury struct {
	g      Gear
	b      *bench
	ends   [2]verdictEnd
	says   map[string]verdict
	unsure map[finding.Code]bool
}

// A verdictEnd is what one end of the gear on the bench shows.
type verdictEnd struct {
	name                string
	port, bar           float64
	steam, exhaust      float64 // laps of a valve in the middle
	midSteam, midBack   float64 // and as it stands in mid-travel
	lead                float64
	opens, shuts        bool // to steam
	lets, holds         bool // to exhaust
	most, least         float64
	mostBack, leastBack float64
}

// over reports whether a size is above a limit, and has the code left out where it is
// hardly.
func (j *jury) over(code finding.Code, size, limit float64) bool {
	if math.Abs(size-limit) < 2e-6 {
		j.unsure[code] = true
	}
	return size > limit
}

func (j *jury) say(code finding.Code, end string, so bool, severity finding.Severity, amount float64) {
	if so {
		j.says[fmt.Sprint(code, " ", end)] = verdict{severity, amount}
	}
}

// each says what is so of each end, or of both where it is.
func (j *jury) each(code finding.Code, judge func(*verdictEnd) (bool, finding.Severity, float64)) {
	head, headIs, headBy := judge(&j.ends[0])
	crank, crankIs, crankBy := judge(&j.ends[1])
	if head && crank {
		j.say(code, "both", true, max(headIs, crankIs), max(headBy, crankBy))
		return
	}
	j.say(code, "head", head, headIs, headBy)
	j.say(code, "crank", crank, crankIs, crankBy)
}

func pick(so bool, then, otherwise finding.Severity) finding.Severity {
	if so {
		return then
	}
	return otherwise
}

func judgeOnTheBench(g Gear) *jury {
	j := &jury{g: g, b: benchOf(g, g.EccentricLead()), says: map[string]verdict{}, unsure: map[finding.Code]bool{}}
	b := j.b
	b.run()
	middle := *b
	middle.middle = 0
	laps, mid := middle.past(0), b.past(0)
	if math.Abs(laps["head steam"]-laps["crank steam"])+math.Abs(laps["head exhaust"]-laps["crank exhaust"]) < 1e-9 {
		mid = laps // nothing is wrong with a valve but its place
	}
	for i, name := range []string{"head", "crank"} {
		e := &j.ends[i]
		*e = verdictEnd{
			name: name, port: b.port[i], bar: b.bar[i],
			steam: -laps[name+" steam"], exhaust: -laps[name+" exhaust"],
			midSteam: -mid[name+" steam"], midBack: -mid[name+" exhaust"],
			lead: b.past(b.rests(float64(i) * math.Pi))[name+" steam"],
			most: b.greatest[name+" steam"], least: b.least[name+" steam"],
			mostBack: b.greatest[name+" exhaust"], leastBack: b.least[name+" exhaust"],
		}
		e.opens, e.shuts = j.over(SteamNeverOpens, e.most, 0), !j.over(SteamNeverCloses, e.least, 0)
		e.lets, e.holds = j.over(ExhaustNeverOpens, e.mostBack, 0), !j.over(ExhaustNeverCloses, e.leastBack, 0)
	}
	j.sizes()
	for i := range j.ends {
		j.ports(&j.ends[i])
	}
	j.face()
	j.setting()
	return j
}

// works reports whether both ports of both ends open and shut.
func (j *jury) works() bool {
	for _, e := range j.ends {
		if !e.opens || !e.shuts || !e.lets || !e.holds {
			return false
		}
	}
	return true
}

// sizes judges what the sizes alone tell.
func (j *jury) sizes() {
	b := j.b
	j.each(NarrowLand, func(e *verdictEnd) (bool, finding.Severity, float64) {
		return j.over(NarrowLand, -e.steam-e.exhaust, 1e-6), finding.Fails, -e.steam - e.exhaust
	})
	j.each(ThinBars, func(e *verdictEnd) (bool, finding.Severity, float64) {
		return j.over(ThinBars, e.port/2-e.bar, 1e-6), finding.Note, e.port/2 - e.bar
	})
	j.each(OpenAtMidTravel, func(e *verdictEnd) (bool, finding.Severity, float64) {
		much := j.over(OpenAtMidTravel, -e.midBack, 0.02*j.g.Travel.MM())
		return j.over(OpenAtMidTravel, -e.midBack, 1e-6), pick(much, finding.Caution, finding.Note), -e.midBack
	})
	j.each(NoSteamLap, func(e *verdictEnd) (bool, finding.Severity, float64) {
		return j.over(NoSteamLap, -e.midSteam, 1e-6), finding.Caution, -e.midSteam
	})
	j.each(LittleExhaustLap, func(e *verdictEnd) (bool, finding.Severity, float64) {
		lap := math.Abs(e.exhaust)
		is := j.over(LittleExhaustLap, lap, 1e-6)
		return is && !j.over(LittleExhaustLap, lap, 0.127), finding.Note, lap // 5 thou
	})
	j.say(OffCentre, "both", j.over(OffCentre, math.Abs(b.middle), 1e-6), finding.Note, math.Abs(b.middle))
	late := math.Asin(b.play/j.g.Travel.MM()) * 180 / math.Pi // in mid-travel
	severity := pick(j.over(LostMotion, late, 5), finding.Caution, finding.Note)
	for _, e := range j.ends { // that would open without it
		steam, back := j.over(LostMotion, e.most+b.play/2, 0), j.over(LostMotion, e.mostBack+b.play/2, 0)
		if !e.opens && steam || !e.lets && back {
			severity = finding.Fails
		}
	}
	j.say(LostMotion, "both", j.over(LostMotion, late, 1), severity, b.play)
	if chest := j.g.Chest.MM(); chest > 0 {
		free := chest/2 - b.length/2 - math.Abs(b.middle) - (j.g.Travel.MM()-b.play)/2
		strikes := j.over(FoulsChest, -free, 0)
		j.say(FoulsChest, "both", !j.over(FoulsChest, free, 0.5), pick(strikes, finding.Fails, finding.Note), math.Abs(free))
	}
}

// ports judges how one end's port opens and shuts.
func (j *jury) ports(e *verdictEnd) {
	half := func(code finding.Code, open float64) finding.Severity {
		return pick(j.over(code, open, e.port/2), finding.Note, finding.Caution)
	}
	part := !j.over(SteamPartOpen, e.most, e.port)
	j.say(SteamNeverOpens, e.name, !e.opens, finding.Fails, -e.most)
	j.say(SteamNeverCloses, e.name, !e.shuts, finding.Fails, e.least)
	j.say(SteamPartOpen, e.name, e.opens && e.shuts && part, half(SteamPartOpen, e.most), e.port-e.most)
	part = !j.over(ExhaustPartOpen, e.mostBack, e.port)
	j.say(ExhaustNeverOpens, e.name, !e.lets, finding.Fails, -e.mostBack)
	j.say(ExhaustNeverCloses, e.name, !e.holds, finding.Fails, e.leastBack)
	j.say(ExhaustPartOpen, e.name, e.lets && e.holds && part, half(ExhaustPartOpen, e.mostBack), e.port-e.mostBack)
}

// face judges what is left of the middle port and of the bars at full travel.
func (j *jury) face() {
	b := j.b
	reach := (j.g.Travel.MM() - b.play) / 2
	for in, valve := range []float64{b.middle + reach, b.middle - reach} { // the land of which end has moved in
		low, high := valve+b.off-b.cavity/2, valve+b.off+b.cavity/2
		open := min(b.exhaust/2, high) - max(-b.exhaust/2, low)
		covered := -b.exhaust/2 - (valve - b.length/2)
		if in == 1 {
			covered = valve + b.length/2 - b.exhaust/2
		}
		// The middle port then takes the exhaust of the other end, or feeds it.
		fed := &j.ends[1-in]
		costs := !j.over(MiddleThrottled, open, 0.95*fed.port)
		j.say(MiddleThrottled, fed.name, !j.over(MiddleThrottled, open, fed.port), pick(costs, finding.Caution, finding.Note),
			fed.port-open)
		e := &j.ends[in]
		blows := j.over(SteamPastValve, -covered, 0)
		j.say(SteamPastValve, e.name, !j.over(SteamPastValve, covered, e.bar/4), pick(blows, finding.Fails, finding.Caution),
			math.Abs(covered))
	}
}

// setting judges what the place of the eccentric and of the valve do.
func (j *jury) setting() {
	b, g := j.b, j.g
	moves := b.drives(1e-6) - b.drives(-1e-6) // at the head-end dead centre, towards the crank
	if g.InsideAdmission {
		moves = -moves
	}
	backwards := moves < 0
	if math.Abs(moves) < 1e-9 {
		j.unsure[RunsBackwards] = true
	}
	j.say(RunsBackwards, "both", backwards, finding.Fails, 0)
	idle := false
	if j.works() {
		turned := b
		if backwards { // judged as it runs
			turned = benchOf(g, g.EccentricLead())
			turned.stands = 0
			other := g
			other.Advance = halfTurn - g.Advance
			turned.stands = float64(other.EccentricLead())
			turned.run()
		}
		share, least := turned.work(), 0.3
		opens := min((g.Travel.MM()-b.play)/2-(j.ends[0].steam+j.ends[1].steam)/2, (j.ends[0].port+j.ends[1].port)/2)
		early := !j.over(LittleWork, math.Abs(j.ends[0].lead+j.ends[1].lead)/2, opens/4) && share >= 0.1
		for _, line := range []float64{0.1, 0.3} {
			if math.Abs(share-line) < 0.01 { // as near as steps of a quarter of a degree come
				j.unsure[LittleWork] = true
			}
		}
		idle = share < least && !early
		j.say(LittleWork, "both", share < least, pick(early, finding.Caution, finding.Fails), 0)
	}
	if backwards || idle {
		return
	}
	for i := range j.ends {
		e := &j.ends[i]
		if !e.opens || !e.shuts {
			continue
		}
		at := math.Remainder(b.passed[e.name+" steam opens"]-float64(i)*math.Pi, 2*math.Pi) * 180 / math.Pi
		late := j.over(LateSteam, -e.lead, 1e-6)
		j.say(LateSteam, e.name, late, pick(j.over(LateSteam, at, 5), finding.Caution, finding.Note), -e.lead)
		j.say(NoLead, e.name, !late && !j.over(NoLead, e.lead, 1e-6), finding.Note, 0)
		j.say(LargeLead, e.name, j.over(LargeLead, e.lead, e.port/4), finding.Caution, e.lead)
	}
	head, cuts := b.passed["head steam shuts"]
	crank, also := b.passed["crank steam shuts"]
	if cuts && also {
		differ := math.Abs(b.piston(head) - (1 - b.piston(crank)))
		j.say(UnequalCutOff, "both", j.over(UnequalCutOff, differ, 0.005), finding.Note, g.Stroke.MM()*differ)
	}
	if j.ends[0].opens && j.ends[0].shuts && j.ends[1].opens && j.ends[1].shuts {
		blind := b.blind()
		if math.Abs(blind-0.5) < 0.5 {
			j.unsure[BlindArc] = true
		}
		j.say(BlindArc, "both", blind > 0.5, finding.Note, 0)
	}
}

// scan turns the shaft once more by quarters of a degree.
func (b *bench) scan(at func(t float64, past map[string]float64)) {
	c := *b
	c.passed, c.greatest, c.least = map[string]float64{}, map[string]float64{}, map[string]float64{}
	const step = math.Pi / 720
	c.at = c.at - math.Mod(c.at, 2*math.Pi)
	for range 1440 {
		c.valve = c.pushed(c.at + step)
		c.at += step
		at(c.at, c.past(c.valve))
	}
}

// blind is in how many degrees of a turn neither end drives: one does while its port
// is open to steam, the other's is not, and the piston goes away from it.
func (b *bench) blind() (degrees float64) {
	b.scan(func(t float64, past map[string]float64) {
		head, crank := past["head steam"] > 0, past["crank steam"] > 0
		if out := math.Sin(t) > 0; !(head && !crank && out || crank && !head && !out) {
			degrees += 0.25
		}
	})
	return degrees
}

// work is the net mean pressure of an ideal cycle at both ends, as a share of the
// difference between 3 bar in the chest and 1 behind the exhaust, with 8 per cent of
// clearance: the chest's pressure while open to steam, that of the exhaust while open
// to it alone, and p*v constant while shut.
func (b *bench) work() float64 {
	sum := 0.0
	for _, end := range []string{"head", "crank"} {
		p, v := 0.0, 0.0
		for round := range 2 { // the first to come to what the second begins with
			net := 0.0
			b.scan(func(t float64, past map[string]float64) {
				gone := b.piston(t)
				if end == "crank" {
					gone = 1 - gone
				}
				was, before := p, v
				v = 0.08 + gone
				switch {
				case past[end+" steam"] > 0:
					p = 3
				case past[end+" exhaust"] > 0:
					p = 1
				case before > 0:
					p = was * before / v
				}
				if before > 0 {
					net += (v - before) * p
				}
			})
			if round == 1 {
				sum += net
			}
		}
	}
	return sum / 2 / 2
}

// What Check finds, how grave it is and by how much it is so, is what the gear shows
// on the bench; and nothing else is found.
func TestVerdictsOnTheBench(t *testing.T) {
	judged := map[finding.Code]int{}
	rapid.Check(t, func(t *rapid.T) {
		g := anyBuilt(t)
		if rapid.Bool().Draw(t, "set") {
			if set, err := g.WithLead(g.Ports.Steam.Scale(rapid.Float64Range(-0.1, 0.5).Draw(t, "lead")), BothEnds); err == nil {
				g = set
			}
		}
		if rapid.Bool().Draw(t, "chest") {
			g.Chest = g.Valve.Length.Add(g.Travel).Add(units.MM(rapid.Float64Range(-1, 1.5).Draw(t, "room in the chest")))
		}
		j := judgeOnTheBench(g)
		found := map[string]bool{}
		for _, f := range g.Check() {
			if f.Slip {
				continue
			}
			name := fmt.Sprint(f.Code, " ", f.End)
			found[name] = true
			if j.unsure[f.Code] || (j.unsure[LittleWork] || j.unsure[RunsBackwards]) && !f.Refs.IsZero() {
				continue
			}
			want, ok := j.says[name]
			if !ok || f.Severity != want.severity {
				t.Fatalf("%s %v: on the bench %v %v\n%v", name, f.Severity, ok, want, g)
			}
			judged[f.Code]++
			near(t, name, f.Amount.MM(), want.amount, 1e-7)
			if f.Code == BlindArc {
				near(t, "blind", f.Arc.Degrees(), j.b.blind(), 1.6)
			}
		}
		for name := range j.says {
			var code, end string
			fmt.Sscan(name, &code, &end)
			if !found[name] && !j.unsure[finding.Code(code)] && !j.unsure[LittleWork] && !j.unsure[RunsBackwards] {
				t.Fatalf("%s is not found\n%v", name, g)
			}
		}
	})
	t.Log(judged)
}
