package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A trial is a gear on the way to its sizes, in picometres: laps are the means of
// both ends, the offset is towards the crank.
type trial struct {
	travel, steam, exhaust, offset float64
	advance                        float64
	step                           float64
}

// up returns the next whole step, or the number itself where it is one but for the
// last digits.
func up(v, step float64) float64 { return math.Ceil((v-0.01)/step) * step }

// gear returns the gear of a trial. What of the ports is not given is made to suit.
func (d *designer) gear(t trial) Gear {
	g := d.wish.Gear
	g.Travel, g.Advance = length(t.travel), units.Angle(t.advance)
	g.Valve.Offset = length(t.offset)
	reach := d.reach(t.travel)
	steam, bar, middle := d.steam, d.bar, d.middle
	if steam[kernel.Head] == 0 {
		width := d.byRule
		if width == 0 { // as wide as the valve opens
			width = reach - t.steam + math.Abs(d.flip*t.offset-d.steamLaps()/2)
		}
		width = up(max(width, 1), t.step)
		steam[kernel.Head], steam[kernel.Crank] = width, width
		g.Ports.Steam = length(width)
	}
	// With the valve at full travel towards the crank the land of the head end has moved in, and the other way round.
	in := [kernel.Ends]float64{kernel.Head: reach + t.offset, kernel.Crank: reach - t.offset}
	outer, inner := t.steam, t.exhaust
	if g.InsideAdmission {
		outer, inner = inner, outer
	}
	outerAt := [kernel.Ends]float64{kernel.Head: outer + d.outer/2, kernel.Crank: outer - d.outer/2}
	innerAt := [kernel.Ends]float64{kernel.Head: inner + d.inner/2, kernel.Crank: inner - d.inner/2}
	port := max(steam[kernel.Head], steam[kernel.Crank])
	if bar[kernel.Head] == 0 {
		width := port
		for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} { // a quarter of it stays covered
			width = max(width, (in[end]-outerAt[end]-steam[end])/(1-kernel.LeastSeal))
		}
		width = up(width, t.step)
		bar[kernel.Head], bar[kernel.Crank] = width, width
		g.Ports.Bar = length(width)
	}
	bars := bar[kernel.Head] + bar[kernel.Crank]
	if middle == 0 {
		middle = max(port, port-bars+2*inner)
		for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} { // E + bar - e - r is not below the port's width
			middle = max(middle, port+in[end]+innerAt[end]-bar[end])
		}
		middle = up(middle, t.step)
		g.Ports.Exhaust = length(middle)
	}
	if g.Ports.Length.IsZero() && !d.wish.Bore.IsZero() {
		g.Ports.Length = length(up(count(portLength(d.wish)), t.step))
	}
	g.Valve.Length = length(steam[kernel.Head] + steam[kernel.Crank] + bars + middle + 2*outer)
	g.Valve.Cavity = length(bars + middle - 2*inner)
	return g
}

// fixed returns the sum of the given widths between the outer edges of the ports,
// and between the inner ones.
func (d *designer) fixed() (outer, inner float64) {
	inner = d.bar[kernel.Head] + d.bar[kernel.Crank] + d.middle
	return d.steam[kernel.Head] + d.steam[kernel.Crank] + inner, inner
}

// lapsNear returns the laps nearest to the given ones for which the valve's length
// and cavity are whole steps, and with more than one those round them.
func (d *designer) lapsNear(steam, exhaust, step float64, round []float64) (steams, exhausts []float64) {
	outer, inner := d.fixed()
	near := func(lap, start float64) (all []float64) {
		first := math.Round((lap - start) / (step / 2))
		for _, k := range round {
			all = append(all, start+(first+k)*step/2)
		}
		return all
	}
	outerStart, innerStart := math.Mod(-outer/2, step/2), math.Mod(inner/2, step/2)
	if d.wish.Gear.InsideAdmission {
		return near(steam, innerStart), near(exhaust, outerStart)
	}
	return near(steam, outerStart), near(exhaust, innerStart)
}

// offset returns how far the valve is set towards the crank for a shift of its
// steam edges.
func (d *designer) offset(shift float64) float64 { return d.flip * (shift + d.steamLaps()/2) }

// exact returns the gear that was found in whole picometres, and set for the lead
// once more.
func (d *designer) exact() trial {
	f := &d.found
	steam, exhaust := d.lapsNear(f.Steam, d.lap, 1, []float64{0})
	t := trial{
		travel: math.Round(2 * f.Reach), steam: steam[0], exhaust: exhaust[0], offset: math.Round(d.offset(f.Shift)),
		advance: f.Advance, step: 1,
	}
	k := d.gear(t).Kernel()
	m := k.Motion()
	if advance, ok := m.AdvanceFor(d.wanted.Lead, kernel.Both); ok {
		t.advance = advance
	}
	return t
}

// rounded returns the best gear in whole steps round the exact one: one that
// nothing stops, with as few troubles as may be, and near to the wish. False if
// there is none.
func (d *designer) rounded() (best trial, ok bool) {
	step, f := count(d.step()), &d.found
	travels := []float64{count(d.wish.Gear.Travel)}
	if travels[0] == 0 {
		travels = around(2*f.Reach, step, 2)
	}
	offsets := []float64{count(d.wish.Gear.Valve.Offset)}
	if d.wanted.Place != kernel.AsGiven {
		offsets = around(d.offset(f.Shift), step, 1)
	}
	steams, exhausts := d.lapsNear(f.Steam, d.lap, step, []float64{0, 1, -1, 2, -2})
	g := d.gear(d.exact())
	wished := g.judged().verdicts
	least := math.Inf(1)
	for _, travel := range travels {
		for _, offset := range offsets {
			for _, steam := range steams {
				sin := (steam + d.wanted.Lead + d.wanted.LostMotion/2) / (travel / 2)
				if !(math.Abs(sin) < 1) {
					continue
				}
				for _, advance := range around(math.Asin(sin), math.Pi/180, 1) {
					for _, exhaust := range append(exhausts, d.wideLand(steam, exhausts[0], step)) {
						t := trial{travel, steam, exhaust, offset, advance, step}
						if off, sound := d.off(t, &wished, least); sound && off < least {
							best, least, ok = t, off, true
						}
					}
				}
			}
		}
	}
	return best, ok
}

// wideLand returns the least exhaust lap of whole steps with which the lands are as
// wide as the ports.
func (d *designer) wideLand(steam, near, step float64) float64 {
	return near + math.Ceil((-steam-near)/(step/2)-1e-9)*step/2
}

// works reports whether nothing stops the gear of a trial.
func (d *designer) works(t trial) bool {
	g := d.gear(t)
	for _, ends := range g.judged().verdicts {
		for _, grade := range ends {
			if grade == kernel.Stops {
				return false
			}
		}
	}
	return true
}

// working returns the rounded gear of the nearest wish, with a later cut-off, whose
// gear works, for ports that are all free; false where there is none.
func (d *designer) working() (trial, bool) {
	p := d.wish.Gear.Ports
	if !p.Steam.IsZero() || !p.Bar.IsZero() || !p.Exhaust.IsZero() {
		return trial{}, false
	}
	for w := d.wish; w.CutOff < 0.95; {
		w.CutOff += 0.01
		later, err := newDesigner(w)
		if err != nil || later.solve() != nil {
			continue
		}
		later.stepped = d.stepped
		if t, ok := later.rounded(); ok && later.works(t) {
			return t, true
		}
	}
	return trial{}, false
}

// around returns the whole steps next to a number, so many on each side.
func around(v, step float64, each int) (all []float64) {
	first := math.Floor(v/step + 1e-9)
	if math.Abs(v/step-math.Round(v/step)) < 1e-9 && each == 1 {
		return []float64{first * step}
	}
	for k := 1 - each; k <= each; k++ {
		all = append(all, (first+float64(k))*step)
	}
	return all
}

// The weights of what is wrong with a rounded gear, beside how far it is off the wish.
const (
	weightOfFault   = 1e6
	weightOfTrouble = 100
	weightOfShort   = 25 // of a port that was to open fully
)

// off returns how far a trial is off what was wished: the squares of the shares of
// what is much, one per cent of the stroke or one step, with a trouble counted as
// far more, if the exact gear has not got it. False where no gear has such sizes.
// What is over the given least need not be judged.
func (d *designer) off(t trial, wished *kernel.Verdicts, least float64) (float64, bool) {
	w := &d.wanted
	k := d.gear(t).Kernel()
	if !k.Sound() {
		return 0, false
	}
	var m kernel.Motion
	var e kernel.Events
	m.Set(&k)
	m.Events(&e)
	if e.Head.Steam|e.Crank.Steam|e.Head.Exhaust|e.Crank.Exhaust != kernel.OpensAndCloses {
		return 0, false
	}
	step, sum := count(d.step()), 0.0
	add := func(by, much float64) { sum += (by / much) * (by / much) }
	add(cutOffAt(&e, w.At)-w.CutOff, 0.01)
	lead, opens := e.MeanLead()-w.Lead, d.reach(t.travel)-t.steam-d.found.Opens(w)
	add(lead, step/2)
	add(opens, step)
	if lead < 0 { // rather early than late, and rather fully open than not
		add(lead, step/2)
	}
	if w.Full { // as nearly as the steps allow
		if past := min(e.Head.OverTravel, e.Crank.OverTravel); past < -1e3 {
			sum += weightOfShort
		}
	}
	if d.wish.Compression > 0 {
		add(compressionOf(&e)-d.wish.Compression, 0.01)
	} else {
		add(t.exhaust-d.lap, step/2)
	}
	switch w.Place {
	case kernel.EqualLead:
		add((e.Head.Lead-e.Crank.Lead)/2, step/2)
	case kernel.EqualCutOff:
		add((e.Head.CutOff.Stroke-e.Crank.CutOff.Stroke)/2, 0.01)
	}
	if sum >= least {
		return sum, true
	}
	for code, ends := range k.Judge(&m, &e) {
		for end, grade := range ends {
			switch {
			case grade == kernel.Stops:
				sum += weightOfFault
			case grade == kernel.Costs && wished[code][end] < kernel.Costs:
				sum += weightOfTrouble
			}
		}
	}
	return sum, true
}

// cutOffAt returns the cut-off at an end, or the mean of both.
func cutOffAt(e *kernel.Events, at kernel.End) float64 {
	if at == kernel.Both {
		return (e.Head.CutOff.Stroke + e.Crank.CutOff.Stroke) / 2
	}
	return e.At(at).CutOff.Stroke
}

// compressionOf returns the mean compression of both ends; what shuts past the
// dead centre counts against it.
func compressionOf(e *kernel.Events) float64 {
	sum := 0.0
	for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		at := e.At(end).Compression
		if at.Crank > 2*math.Pi {
			at.Stroke = -at.Stroke
		}
		sum += at.Stroke
	}
	return sum / 2
}

// designed returns what there is to say of a trial.
func (d *designer) designed(t trial, step units.Length) (Designed, error) {
	g := d.gear(t)
	j := Designed{Gear: g, Step: step, Closed: d.found.Closed}
	if err := g.Validate(); err != nil {
		return Designed{}, err
	}
	k := g.Kernel()
	var m kernel.Motion
	var found kernel.Events
	m.Set(&k)
	m.Events(&found)
	j.Events.set(&found)
	j.Findings = g.Check()
	j.CutOff, j.Compression = cutOffAt(&found, d.wanted.At), compressionOf(&found)
	j.Lead, j.ExhaustLap = j.Events.MeanLead(), g.Laps().Exhaust
	j.Opening = j.Events.Head.Opening.Add(j.Events.Crank.Opening).Scale(0.5)
	j.Chosen = d.chosen(&j)
	return j, nil
}
