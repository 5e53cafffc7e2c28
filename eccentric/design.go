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
		if near, ok := d.nearestLead(); ok {
			return fail.Wrong("lead", w.Lead, "not below the greatest opening", near)
		}
		return fail.Wrong("lead", w.Lead, "not below the greatest opening", "below "+length(nearest).String())
	case kernel.PortTooSmall:
		err := fail.Wrong("opening", w.Opening, "the ports are not so wide", "up to "+length(nearest).String())
		fits := *d // what else is wrong then
		fits.wanted.Opening, fits.wish.Opening = nearest, length(nearest)
		return errors.Join(err, fits.solve())
	default:
		return d.noCutOff()
	}
	d.found = found
	if found.Reach > kernel.Longest/8 {
		return absurd()
	}
	if err := d.leavesInner(); err != nil {
		return err
	}
	return d.exhaust()
}

// exhaust finds the exhaust lap.
func (d *designer) exhaust() error {
	w, found := &d.wish, &d.found
	shift := found.Shift + d.steamLaps()/2 + d.exhaustLaps()/2 // of the exhaust edges
	reaches := found.Reach - d.wanted.LostMotion/2 - math.Abs(shift)
	room := math.Inf(1)
	if half, given := d.halfInner(); given && !w.Gear.InsideAdmission {
		room = half
	}
	const noCavity = "with it the valve has no cavity left between these ports"
	if reaches <= 0 {
		return fail.Wrong("valve offset", w.Gear.Valve.Offset, "the exhaust edges are off centre by "+both(length(math.Abs(shift)))+
			", and the valve does not reach so far", "exhaust edges nearer to the middle of the ports, or a longer travel")
	}
	// The cavity is shorter than the valve where steam lap, exhaust lap and port are more than nothing together.
	least, longCavity := -reaches, false
	if port := (d.wanted.Ports[kernel.Head] + d.wanted.Ports[kernel.Crank]) / 2; port > 0 && -found.Steam-port > least {
		least, longCavity = -found.Steam-port, true
	}
	if w.Compression == 0 {
		d.lap = count(w.ExhaustLap)
		problem := ""
		switch {
		case longCavity && d.lap <= least:
			problem = "with it the cavity is not shorter than the valve"
		case d.lap <= -reaches:
			problem = "with it a port never shuts to exhaust"
		case d.lap >= reaches:
			problem = "with it a port never opens to exhaust"
		case d.lap >= room:
			problem = noCavity
		default:
			return nil
		}
		return fail.Wrong("exhaust lap", w.ExhaustLap, problem, "from "+micronDown(-least).Neg().String()+" to "+
			micronDown(min(reaches, room)).String())
	}
	var why kernel.Hindrance
	var nearest float64
	d.lap, why, nearest = d.wanted.ExhaustLap(found, w.Compression, shift, room)
	switch {
	case why == kernel.NoHindrance && longCavity && d.lap <= least:
		return fail.Wrong("compression", wished(w.Compression), "with the exhaust lap for it, "+both(length(d.lap))+
			", the cavity is not shorter than the valve", "more, or an exhaust lap from "+micronDown(-least).Neg().String()+" on")
	case why == kernel.NoHindrance:
		return nil
	}
	accepted := "from " + hundredth(nearest, math.Ceil) + " on"
	problem := "with this cut-off and lead the exhaust of one end would shut past the dead centre"
	if why == kernel.CompressionTooMuch {
		accepted = "up to " + hundredth(nearest, math.Floor)
		problem = "with this cut-off and lead a port would never open to exhaust"
		if room < reaches {
			problem = "with the exhaust lap for it the valve has no cavity left between these ports"
			accepted += ", or a wider exhaust port"
		}
		if nearest < 5e-5 {
			accepted = "an exhaust lap in its place, or another cut-off or lead"
		}
	}
	return fail.Wrong("compression", wished(w.Compression), problem, accepted)
}

// wished writes a share in per cent as it was given.
func wished(share float64) string { return fmt.Sprintf("%.6g %%", 100*share) }

// hundredth writes a share in per cent, rounded to a hundredth of one.
func hundredth(share float64, round func(float64) float64) string {
	return fmt.Sprintf("%.2f %%", round(1e4*share)/1e2)
}

// micronDown returns a length that is just below so many picometres, a whole number
// of microns.
func micronDown(v float64) units.Length { return length(math.Floor((v-1)/1e6) * 1e6) }

// halfInner returns half the distance between the inner edges of the ports, which
// the lap there is to be below; false where it is found to suit.
func (d *designer) halfInner() (float64, bool) {
	_, inner := d.fixed()
	return inner / 2, d.middle > 0 && d.bar[kernel.Head] > 0
}

// leavesInner refuses a steam lap that for inside admission leaves nothing between
// the inner edges.
func (d *designer) leavesInner() error {
	half, given := d.halfInner()
	if !d.wish.Gear.InsideAdmission || !given || d.found.Steam < half {
		return nil
	}
	return fail.Wrong("exhaust port width", d.wish.Gear.Ports.Exhaust, "the steam lap that is wanted, "+both(length(d.found.Steam))+
		", leaves the valve nothing between its inner edges", "from "+micronDown(d.middle+2*(d.found.Steam-half)+2e6).String()+
		" on, or none, and it is found")
}

// noCutOff says which cut-off is the nearest that a gear has, or where it has none
// which lead, opening or travel.
func (d *designer) noCutOff() error {
	w := &d.wish
	other, field, size := "opening", "opening", w.Opening
	if d.wanted.Reach > 0 {
		other, field, size = "travel", "valve travel", w.Gear.Travel
	}
	problem := func(one, two string) string {
		return "with the " + one + " and the " + two + " that are wished, and these rods, no gear has it"
	}
	if near, ok := closestStep(w.CutOff, 1./200, 200, 1e-4, func(v float64) bool {
		wanted := d.wanted
		wanted.CutOff = v
		return v > 0 && v < 1 && has(&wanted)
	}); ok {
		accepted := "at least "
		if near < w.CutOff {
			accepted = "at most "
		}
		return fail.Wrong("cut-off", wished(w.CutOff), problem("lead", other), accepted+hundredth(near, math.Round))
	}
	if near, ok := d.nearestLead(); ok {
		return fail.Wrong("lead", w.Lead, problem("cut-off", other), near)
	}
	if near, ok := d.nearestSize(); ok {
		return fail.Wrong(field, size, problem("cut-off", "lead"), near)
	}
	accepted := "another lead, opening or travel, or longer rods"
	if d.wanted.LostMotion > 0 {
		accepted = "another lead, opening or travel, less lost motion, or longer rods"
	}
	return fail.Wrong("cut-off", wished(w.CutOff), problem("lead", other), accepted)
}

// has reports whether there is a gear that does what is wanted.
func has(wanted *kernel.Wanted) bool {
	_, why, _ := wanted.Solve()
	return why == kernel.NoHindrance
}

// closest returns what is nearest to a number of what does, so many steps from it at
// the most; false where nothing does.
func closest(wish, step float64, times int, does func(float64) bool) (float64, bool) {
	for i := range times {
		for _, good := range [...]float64{wish - float64(i+1)*step, wish + float64(i+1)*step} {
			if !does(good) {
				continue
			}
			bad := wish
			for range 60 {
				if middle := (good + bad) / 2; does(middle) {
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

// closestStep is closest to a whole step, in which it is printed, that does.
func closestStep(wish, apart float64, times int, step float64, does func(float64) bool) (float64, bool) {
	near, ok := closest(wish, apart, times, does)
	if !ok {
		return 0, false
	}
	whole, inwards := math.Floor(near/step), -1.0
	if near > wish {
		whole, inwards = math.Ceil(near/step), 1
	}
	for range 8 {
		if does(whole * step) {
			return whole * step, true
		}
		whole += inwards
	}
	return 0, false
}

// closestLength is closestStep for a length in microns, in words.
func closestLength(wish, apart float64, times int, does func(float64) bool) (string, bool) {
	near, ok := closestStep(wish, apart, times, 1e6, does)
	switch {
	case !ok:
		return "", false
	case near > wish:
		return fmt.Sprintf("from %v on", length(near)), true
	}
	return fmt.Sprintf("up to %v", length(near)), true
}

// nearestLead says which lead is the nearest with which a gear does the rest.
func (d *designer) nearestLead() (string, bool) {
	w := &d.wanted
	most := max(w.Reach, w.Opening, (w.Ports[kernel.Head]+w.Ports[kernel.Crank])/2)
	if most == 0 {
		return "", false
	}
	times := 200 + min(int(math.Abs(w.Lead)/most*50), 1000)
	return closestLength(w.Lead, most/50, times, func(v float64) bool {
		wanted := *w
		wanted.Lead = v
		return has(&wanted)
	})
}

// nearestSize says which opening or travel is the nearest with which a gear does
// the rest.
func (d *designer) nearestSize() (string, bool) {
	if d.wanted.Full {
		return "", false
	}
	wish := d.wanted.Opening + 2*d.wanted.Reach
	does := func(v float64) bool {
		wanted := d.wanted
		if wanted.Reach > 0 {
			wanted.Reach = v / 2
		} else {
			wanted.Opening = v
		}
		return v > 0 && has(&wanted)
	}
	if near, ok := closestLength(wish, wish/100, 400, does); ok {
		return near, true
	}
	for share := 0.01; share > 1e-8; share /= 2 { // of far more than the rod allows
		if does(share * wish) {
			return closestLength(wish, wish*(1-share), 1, does)
		}
	}
	return "", false
}
