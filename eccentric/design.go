package eccentric

import (
	"errors"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Wish is what a gear is to do, and what is given of it.
type Wish struct {
	// Gear is what is given: the stroke, both rods, the lever, the admission, the
	// chest, the valve's Offset, CavityOffset and LostMotion, and of the ports what
	// is fixed. A width that is zero is found, as are the length and the cavity of
	// the valve and the advance, which are zero here. Travel is given where it is
	// wished in place of Opening.
	Gear Gear

	CutOff   float64      // share of the stroke
	CutOffAt End          // at which it is wished; BothEnds for the mean
	Lead     units.Length // the mean of both ends
	Opening  units.Length // greatest, to steam, the mean of both ends; with neither this nor Travel the ports open fully

	ExhaustLap  units.Length // the mean of both ends; zero, line on line, also where Compression is given in its place
	Compression float64      // share of the stroke before whose end the exhaust shuts, the mean of both ends

	// At most one of the two: the valve is set on its rod so that both ends have the
	// same. Where neither is asked for it stays at the Offset of Gear.
	EqualLead, EqualCutOff bool

	// Step is the size that can be held in the workshop; zero: 0.05 mm, or for ports
	// that are narrower a half or a quarter of it.
	Step units.Length

	// Where no width of the steam ports is given, and neither Opening nor Travel, it
	// comes by a rule from these.
	Bore  units.Length
	Speed units.RotationalSpeed
}

// A Designed is a gear for a wish.
type Designed struct {
	Gear     Gear
	Events   Events
	Findings []Finding // what Gear.Check says of it
	Chosen   []Finding // what was not given and how it was chosen, and what equal leads or cut-offs make of the other

	// What is reached of the wish, in its terms.
	CutOff, Compression       float64
	Lead, Opening, ExhaustLap units.Length

	Step   units.Length // to which the sizes are rounded; zero of the exact gear
	Closed bool         // whether the equations were solved by a closed form, or else by a bracketed root
}

// wishStep is a size that a small lathe or mill holds; common practice.
var wishStep = units.Micron(50)

// Design returns two gears for a wish: the exact one, in whole picometres, and one
// whose sizes are whole steps and whose advance is a whole degree, as a protractor
// sets it, the best of those round the exact one:
//
//	lead = r*sin(d) - S - b/2
//	A    = r - S - b/2
//
//	A      greatest opening to steam, if the port is wide enough, the mean of both ends
//	S      steam lap, the mean of both ends, as the lead is
//	r, d   half the travel and angle of advance
//	b      lost motion
//
// and the valve passes S on its way back where the piston has gone the wished share
// of the stroke, so that one unknown is left. For an endless eccentric rod and a
// cut-off whose crank angle t is known it has a closed form, without lead and lost
// motion d = 90 degrees - t/2 and S = r*cos(t/2), the construction of J. Rose (Modern
// Machine-Shop Practice, Figs. 3311 and 3312); else it is bracketed and found to its
// last digits. Either way the gear is put back through [Gear.Events]; the exact one
// does what is wished to 1e-8 of the stroke and of the travel.
//
// What of the ports is not given is as wide as the valve opens or comes by Bourne's
// rule from bore and speed; bars are as wide as the ports (D. A. Low, Introduction to
// Machine Drawing and Design, Fig. 58) and leave a quarter covered at full travel; the
// exhaust port has at full travel still the width of a steam port open (James and
// Dole; a German textbook after Weisbach). Chosen says so. Where all of them are free
// and the gear of the wish would not work, the rounded one is the nearest that does,
// and says so. A valve driven direct cannot have equal leads and equal cut-offs at
// once. A wish that no gear meets is an [*units.ArgumentError] with the nearest that
// one does. See the Examples.
func Design(w Wish) (exact, rounded Designed, err error) {
	d, err := newDesigner(w)
	if err != nil {
		return Designed{}, Designed{}, err
	}
	if err := d.solve(); err != nil {
		return Designed{}, Designed{}, err
	}
	if exact, err = d.designed(d.exact(), units.Length{}); err != nil {
		return Designed{}, Designed{}, err
	}
	port, _ := exact.Gear.Ports.At(HeadEnd)
	for d.wish.Step.IsZero() && d.stepped.Cmp(port) > 0 && d.stepped.Cmp(units.Micron(1)) > 0 {
		d.stepped = d.stepped.Scale(0.5)
	}
	best, ok := d.rounded()
	if !ok || d.step().Cmp(port) > 0 {
		return Designed{}, Designed{}, fail.Wrong("step", d.step(), "a gear has no sizes in such steps",
			"up to the width of the steam ports, "+port.String()+", and best a tenth of it or less")
	}
	if !d.works(best) {
		if t, ok := d.working(); ok {
			best = t
		}
	}
	if rounded, err = d.designed(best, d.step()); err != nil {
		return Designed{}, Designed{}, err
	}
	d.keeps(&exact, &rounded)
	return exact, rounded, nil
}

func (w *Wish) validate() error {
	var problems []error
	refuse := func(err error) {
		if err != nil {
			problems = append(problems, err)
		}
	}
	g := w.Gear
	refuse(fail.Above(fault.Named("stroke", g.Stroke)))
	for _, may := range []struct {
		field string
		value units.Length
	}{
		{"valve travel", g.Travel}, {"opening", w.Opening}, {"step", w.Step}, {"cylinder bore", w.Bore},
		{"chest length", g.Chest}, {"lost motion", g.Valve.LostMotion},
		{"steam port width", g.Ports.Steam}, {"bar width", g.Ports.Bar},
		{"exhaust port width", g.Ports.Exhaust}, {"port length", g.Ports.Length},
		{"steam port width of the crank end", g.Ports.CrankSteam}, {"bar width of the crank end", g.Ports.CrankBar},
	} {
		if !may.value.IsZero() {
			refuse(fail.Above(fault.Named(may.field, may.value)))
		}
	}
	for _, either := range []fault.Length{
		fault.Named("lead", w.Lead), fault.Named("exhaust lap", w.ExhaustLap),
		fault.Named("valve offset", g.Valve.Offset), fault.Named("cavity offset", g.Valve.CavityOffset),
	} {
		refuse(fail.Within(either))
	}
	if problems != nil { // the sums below might not hold
		return errors.Join(problems...)
	}
	switch rod := g.ConnectingRod; {
	case rod.IsZero():
		refuse(fail.Missing("connecting rod", rodAccepted))
	case g.Stroke.Sign() > 0 && !kernel.RodReaches(rod.count(), count(g.Stroke), 1):
		refuse(fail.OutOfRange("connecting rod", rod, longerThan("half the stroke", g.Stroke.Scale(0.5))))
	}
	lever := kernel.LeverSound(g.LeverRatio)
	if !lever {
		refuse(fail.OutOfRange("lever ratio", g.LeverRatio, "from 0.1 to 10 either way, or zero for no lever"))
	}
	switch rod := g.EccentricRod; {
	case rod.IsZero():
		refuse(fail.Missing("eccentric rod", rodAccepted))
	case lever && !kernel.RodReaches(rod.count(), count(g.Travel), g.LeverRatio):
		refuse(fail.OutOfRange("eccentric rod", rod, longerThan("the offset of the sheave", g.EccentricOffset())))
	}
	for _, pair := range []struct {
		name        string
		crank, head units.Length
	}{{"steam port width", g.Ports.CrankSteam, g.Ports.Steam}, {"bar width", g.Ports.CrankBar, g.Ports.Bar}} {
		if !pair.crank.IsZero() && pair.head.IsZero() {
			refuse(fail.Missing(pair.name, "that of the head end too, or neither, and both are found"))
		}
	}
	if !(w.CutOff > 0 && w.CutOff < 1) {
		refuse(fail.OutOfRange("cut-off", w.CutOff, "above 0 and below 1; 75 per cent is 0.75"))
	}
	if !endNames.Known(int(w.CutOffAt)) {
		refuse(endNames.Unknown(int(w.CutOffAt)))
	}
	if !(w.Compression >= 0 && w.Compression < 1) {
		refuse(fail.OutOfRange("compression", w.Compression, "above 0 and below 1; 8 per cent is 0.08"))
	}
	if w.Compression != 0 && !w.ExhaustLap.IsZero() {
		refuse(fail.Wrong("compression", w.Compression, "the exhaust lap is given too, and fixes it", "one of the two"))
	}
	if !w.Opening.IsZero() && !g.Travel.IsZero() {
		refuse(fail.Wrong("opening", w.Opening, "the travel is given too, and fixes it", "one of the two"))
	}
	if w.EqualLead && w.EqualCutOff {
		refuse(fail.Wrong("equal", "leads and cut-offs", "a valve driven by one eccentric cannot have both", "one of the two"))
	}
	if g.Advance != 0 || !g.Valve.Length.IsZero() || !g.Valve.Cavity.IsZero() {
		refuse(fail.Wrong("gear", nil, "advance, valve length or cavity is given", "none of them: they are found"))
	}
	if math.IsNaN(float64(w.Speed)) || w.Speed < 0 || w.Speed > 1e6 {
		refuse(fail.OutOfRange("speed", float64(w.Speed), "above zero, or none"))
	}
	if w.Opening.IsZero() && g.Travel.IsZero() && g.Ports.Steam.IsZero() && !(w.Speed > 0 && w.Bore.Sign() > 0) {
		refuse(fail.Missing("opening", "a length above zero; or the travel; or the width of the steam ports, which then open"+
			" fully; or bore and speed, for ports by a rule"))
	}
	return errors.Join(problems...)
}

// A designer is a wish in plain numbers.
type designer struct {
	wish   Wish
	wanted kernel.Wanted
	found  kernel.Found
	lap    float64 // exhaust lap found, the mean of both ends

	steam, bar [kernel.Ends]float64 // widths; zero: to be found
	middle     float64
	byRule     float64 // width of the steam ports by the rule; zero: not asked for

	stepped units.Length // step where none is given

	flip         float64 // of displacements, from those towards the crank to those of the kernel
	outer, inner float64 // by how much the laps of the head end are above those of the crank end, at both edges
}

func newDesigner(w Wish) (*designer, error) {
	if err := w.validate(); err != nil {
		return nil, err
	}
	d := &designer{wish: w, flip: 1, stepped: wishStep}
	g := w.Gear
	if g.InsideAdmission {
		d.flip = -1
	}
	k := g.Kernel()
	m := k.Motion()
	d.wanted = kernel.Wanted{
		Stroke: m.Stroke, Rod: m.Rod, EccentricRod: m.EccentricRod, LostMotion: k.LostMotion,
		CutOff: w.CutOff, At: kernel.End(w.CutOffAt), Lead: count(w.Lead),
		Reach: m.Reach, Opening: count(w.Opening), Full: w.Opening.IsZero() && g.Travel.IsZero(),
	}
	d.steam[kernel.Head], d.steam[kernel.Crank] = k.SteamPort, k.CrankSteamPort
	d.bar[kernel.Head], d.bar[kernel.Crank] = k.Bar, k.CrankBar
	d.middle = k.MiddlePort
	if d.wanted.Full && k.SteamPort == 0 {
		d.byRule = portByRule(w.Bore, g.Stroke, portLength(w), w.Speed)
		d.wanted.Ports = [kernel.Ends]float64{0, d.byRule, d.byRule}
	} else {
		d.wanted.Ports = d.steam
	}
	bars := d.bar[kernel.Crank] - d.bar[kernel.Head]
	d.outer = bars + d.steam[kernel.Crank] - d.steam[kernel.Head] // S = V/2 - (M/2 + bar + steam)
	d.inner = 2*k.CavityOffset - bars                             // E = M/2 + bar +- c - C/2
	switch {
	case w.EqualLead:
		d.wanted.Place = kernel.EqualLead
	case w.EqualCutOff:
		d.wanted.Place = kernel.EqualCutOff
	default:
		d.wanted.Shift = d.flip*count(g.Valve.Offset) - d.steamLaps()/2
	}
	return d, nil
}

// steamLaps returns by how much the steam lap of the head end is above that of the
// crank end.
func (d *designer) steamLaps() float64 {
	if d.wish.Gear.InsideAdmission {
		return d.inner
	}
	return d.outer
}

func (d *designer) exhaustLaps() float64 {
	if d.wish.Gear.InsideAdmission {
		return d.outer
	}
	return d.inner
}

func (d *designer) step() units.Length {
	if d.wish.Step.IsZero() {
		return d.stepped
	}
	return d.wish.Step
}

// reach returns half the way of the valve.
func (d *designer) reach(travel float64) float64 { return (travel - d.wanted.LostMotion) / 2 }

// solve finds the gear in plain numbers.
func (d *designer) solve() error {
	found, why, nearest := d.wanted.Solve()
	w := &d.wish
	switch why {
	case kernel.NoHindrance:
	case kernel.LeadTooLarge:
		return fail.Wrong("lead", w.Lead, "not below the greatest opening", "below "+length(nearest).String())
	case kernel.PortTooSmall:
		return fail.Wrong("opening", w.Opening, "the ports are not so wide", "up to "+length(nearest).String())
	default:
		return d.noCutOff()
	}
	d.found = found
	if found.Reach > kernel.Longest/8 {
		return absurd()
	}
	shift := found.Shift + d.steamLaps()/2 + d.exhaustLaps()/2 // of the exhaust edges
	if w.Compression == 0 {
		d.lap = count(w.ExhaustLap)
		if most := found.Reach - d.wanted.LostMotion/2 - math.Abs(shift); math.Abs(d.lap) >= most {
			problem := "with it a port never opens to exhaust"
			if d.lap < 0 {
				problem = "with it a port never shuts to exhaust"
			}
			return fail.Wrong("exhaust lap", w.ExhaustLap, problem, "less than "+length(most).String()+" either way")
		}
		return d.leavesCavity("exhaust lap", w.ExhaustLap)
	}
	if d.lap, why, nearest = d.wanted.ExhaustLap(&d.found, w.Compression, shift); why != kernel.NoHindrance {
		accepted := "from " + hundredth(nearest, math.Ceil) + " on"
		problem := "with this cut-off and lead the exhaust of one end would shut past the dead centre"
		if why == kernel.CompressionTooMuch {
			accepted = "up to " + hundredth(nearest, math.Floor)
			problem = "with this cut-off and lead a port would never open to exhaust"
		}
		return fail.Wrong("compression", wished(w.Compression), problem, accepted)
	}
	return d.leavesCavity("compression", wished(w.Compression))
}

// wished writes a share in per cent as it was given.
func wished(share float64) string { return fmt.Sprintf("%.6g %%", 100*share) }

// hundredth writes a share in per cent, rounded to a hundredth of one.
func hundredth(share float64, round func(float64) float64) string {
	return fmt.Sprintf("%.2f %%", round(1e4*share)/1e2)
}

// leavesCavity refuses an exhaust lap, or for inside admission a steam lap, that
// leaves nothing between the inner edges.
func (d *designer) leavesCavity(field string, value any) error {
	inner := d.lap
	if d.wish.Gear.InsideAdmission {
		inner = d.found.Steam
	}
	if d.middle == 0 || d.bar[kernel.Head] == 0 {
		return nil // found to suit
	}
	half := (d.bar[kernel.Head] + d.bar[kernel.Crank] + d.middle) / 2
	if inner < half {
		return nil
	}
	if d.wish.Gear.InsideAdmission {
		return fail.Wrong("cut-off", wished(d.wish.CutOff), "its steam lap, "+both(length(inner))+", leaves nothing between the inner"+
			" edges", "a middle port wider than "+length(d.middle+2*(inner-half)).String()+", or none, and it is found")
	}
	return fail.Wrong(field, value, "its exhaust lap, "+both(length(inner))+", leaves the valve no cavity between these ports",
		"an exhaust lap below "+length(half).String()+"; or a wider exhaust port")
}

// noCutOff says which cut-off is the nearest that a gear has.
func (d *designer) noCutOff() error {
	wish := d.wish.CutOff
	with := "the lead and the opening"
	if d.wanted.Reach > 0 {
		with = "the lead and the travel"
	}
	field, problem := "cut-off", "with "+with+" that are wished, and these rods, no gear has it"
	near, ok := d.nearestCutOff()
	switch {
	case !ok:
		return fail.Wrong(field, wished(wish), problem, "a smaller lead, a larger opening or travel, or longer rods")
	case near < wish:
		return fail.Wrong(field, wished(wish), problem, "at most "+hundredth(near, math.Floor))
	}
	return fail.Wrong(field, wished(wish), problem, "at least "+hundredth(near, math.Ceil))
}

// nearestCutOff returns the cut-off nearest to the wished one that a gear has with
// all else that is wished.
func (d *designer) nearestCutOff() (float64, bool) {
	has := func(share float64) bool {
		wanted := d.wanted
		wanted.CutOff = share
		_, why, _ := wanted.Solve()
		return share > 0 && share < 1 && why == kernel.NoHindrance
	}
	wish := d.wish.CutOff
	for i := 1; i < 200; i++ {
		for _, share := range [...]float64{wish - float64(i)/200, wish + float64(i)/200} {
			if !has(share) {
				continue
			}
			good, bad := share, wish
			for range 60 {
				if middle := (good + bad) / 2; has(middle) {
					good = middle
				} else {
					bad = middle
				}
			}
			return good, true
		}
	}
	return 0, false
}
