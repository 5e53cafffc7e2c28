package kernel

import "math"

// A Wanted is what a gear is to do and what is given of it, as the formulas want
// it: displacements are as in [Motion]. The ports are given by their widths; what
// makes the two ends' laps differ is in Shift, so that the laps are the means.
type Wanted struct {
	Stroke, Rod  float64 // as in Motion
	EccentricRod float64
	LostMotion   float64

	CutOff float64 // share of the stroke
	At     End     // the end that it is wanted at, or Both for the mean
	Lead   float64 // mean of both ends

	// One of the three is given: half the travel, the mean of the greatest openings
	// of both ends, or both ports fully open with the least travel.
	Reach   float64
	Opening float64
	Full    bool

	Ports [Ends]float64 // widths; zero: as wide as the valve opens

	Place Placing
	Shift float64 // of the steam edges, where Place is AsGiven
}

// A Placing is how the valve is put on its rod.
type Placing uint8

// The ways.
const (
	AsGiven Placing = iota
	EqualLead
	EqualCutOff
)

// A Found is the gear for what is wanted.
type Found struct {
	Reach, Steam, Advance float64
	Shift                 float64 // of the steam edges
	Closed                bool    // by the closed form
}

// A Hindrance is why a wish cannot be.
type Hindrance uint8

// The hindrances.
const (
	NoHindrance  Hindrance = iota
	LeadTooLarge           // the lead is not below the opening; nearest is the opening
	PortTooSmall           // the ports are narrower than the opening; nearest is their mean width
	CutOffTooLate
	CutOffTooEarly
	NotTogether // no gear does all of it
	CompressionTooLittle
	CompressionTooMuch
)

// Opens returns how far the valve opens the ports to steam, the mean of both
// ends, as if they were wide enough.
func (f *Found) Opens(w *Wanted) float64 { return f.Reach - w.LostMotion/2 - f.Steam }

// Solve returns the gear that does what is wanted. Where there is none it says why,
// with the nearest value of what is named that can be had.
//
// With the angle of advance d everything else follows: from the lead
//
//	S = r*sin(d) - lead - b/2
//
// and, where the opening A is given and not the half travel r,
//
//	r = (A - lead) / (1 - sin(d))
//
// so that one unknown is left, and the cut-off comes the earlier the larger it is.
//
// What is found has been put back through [Motion.Events].
func (w *Wanted) Solve() (f Found, why Hindrance, nearest float64) {
	f, why, nearest = w.forPorts()
	if why == NoHindrance && !w.meets(&f) {
		why = NotTogether
	}
	return f, why, nearest
}

// meets reports whether a gear does what is wanted.
func (w *Wanted) meets(f *Found) bool {
	const wide = 8 * Longest // so that no port is fully open
	m := Motion{
		Stroke: w.Stroke, Rod: w.Rod, Reach: f.Reach, EccentricRod: w.EccentricRod,
		Advance: f.Advance, Shift: f.Shift, Late: w.LostMotion / 2,
		Steam: [Ends]float64{f.Steam, f.Steam, f.Steam}, Port: [Ends]float64{wide, wide, wide},
	}
	var e Events
	m.Events(&e)
	head, crank := e.Head.CutOff, e.Crank.CutOff
	cut := [Ends]float64{(head.Stroke + crank.Stroke) / 2, head.Stroke, crank.Stroke}
	good := func(is, want, of float64) bool { return math.Abs(is-want) <= 1e-9*of }
	return head.Occurs && crank.Occurs && good(cut[w.At], w.CutOff, 1) && good(e.MeanLead(), w.Lead, f.Reach) &&
		(w.Place != EqualLead || good(e.Head.Lead, e.Crank.Lead, f.Reach)) &&
		(w.Place != EqualCutOff || good(cut[Head], cut[Crank], 1))
}

// forPorts is Solve for ports as wide as they are.
func (w *Wanted) forPorts() (f Found, why Hindrance, nearest float64) {
	if w.Reach > 0 {
		return w.solve(0)
	}
	if w.Full && w.Ports[Head] == 0 {
		return f, NotTogether, 0
	}
	opening := w.Opening
	if w.Ports[Head] > 0 {
		widest := (w.Ports[Head] + w.Ports[Crank]) / 2
		if opening > widest {
			return f, PortTooSmall, widest
		}
		if w.Full {
			opening = widest
		}
	}
	if w.Lead >= opening {
		return f, LeadTooLarge, opening
	}
	opens := opening
	if w.Ports[Head] > 0 && w.Place == AsGiven {
		opens = w.opensFor(w.Shift)
	}
	f, why, nearest = w.solve(opens)
	if why != NoHindrance || w.Ports[Head] == 0 || w.opensFor(f.Shift) <= opens {
		return f, why, nearest
	}
	// A port that is fully open at one end takes part of the mean away, by as much as the place of the valve decides,
	// and that hangs on the travel.
	short := func(opens float64) float64 {
		trial, why, _ := w.solve(opens)
		if why != NoHindrance {
			return math.NaN()
		}
		return opens - w.opensFor(trial.Shift)
	}
	more := w.opensFor(f.Shift) - opens
	low, high := opens, opens+2*more
	for range 40 {
		if s := short(high); !(s < 0) {
			break
		}
		low, high = high, high+2*(high-opens)
	}
	opens, ok := root(short, low, high)
	if !ok {
		return f, NotTogether, 0
	}
	return w.solve(opens)
}

// opensFor returns how far the valve must open the ports, as if they were wide
// enough, for the wanted mean opening of ports as wide as they are.
func (w *Wanted) opensFor(shift float64) float64 {
	head, crank := w.Ports[Head], w.Ports[Crank]
	switch {
	case w.Full || w.Opening >= (head+crank)/2:
		return max(head-shift, crank+shift)
	case w.Opening+shift > head:
		return 2*w.Opening - head + shift
	case w.Opening-shift > crank:
		return 2*w.Opening - crank - shift
	}
	return w.Opening
}

// at returns the gear of an angle of advance, for the opening where the half
// travel is not given.
func (w *Wanted) at(advance, opens float64) Found {
	f := Found{Reach: w.Reach, Advance: advance}
	sin, cos := math.Sincos(advance)
	if f.Reach == 0 {
		half := math.Sin(math.Pi/4 - advance/2) // 1 - sin(d) = 2*sin(45 degrees - d/2)^2
		f.Reach = (opens - w.Lead) / (2 * half * half)
		f.Steam = f.Reach - w.LostMotion/2 - opens
	} else {
		f.Steam = f.Reach*sin - w.Lead - w.LostMotion/2
	}
	switch w.Place {
	case AsGiven:
		f.Shift = w.Shift
	case EqualLead:
		f.Shift = -rise(f.Reach*cos, w.EccentricRod) // -(l - sqrt(l^2 - (r*cos(d))^2))
	case EqualCutOff:
		head, crank := w.drives(&f)
		f.Shift = -(head + crank) / 2
	}
	return f
}

// drives returns where the eccentric has brought the valve, before its shift, when
// the crank stands where both ends are to cut off.
func (w *Wanted) drives(f *Found) (head, crank float64) {
	m := Motion{Stroke: w.Stroke, Rod: w.Rod}
	headAt, crankAt := m.CrankAt(w.CutOff), math.Pi-m.CrankAt(1-w.CutOff)
	sin, cos := math.Sincos(headAt + f.Advance)
	head = f.Reach*sin + rise(f.Reach*cos, w.EccentricRod)
	sin, cos = math.Sincos(crankAt + f.Advance)
	return head, -f.Reach*sin + rise(f.Reach*cos, w.EccentricRod)
}

// late returns by how much a gear cuts off later than is wanted, below zero
// earlier: a number that falls as the advance grows.
func (w *Wanted) late(f *Found) float64 {
	if w.Place == EqualCutOff {
		head, crank := w.drives(f)
		return ((head-crank)/2 - f.Steam + w.LostMotion/2) / f.Reach
	}
	return w.cutOff(f) - w.CutOff
}

// cutOff returns the share of the stroke at which a gear cuts off; past the dead
// centre it counts on.
func (w *Wanted) cutOff(f *Found) float64 {
	head, crank := w.Share(w.cutOffAngle(f, Head), Head), w.Share(w.cutOffAngle(f, Crank), Crank)
	switch w.At {
	case Head:
		return head
	case Crank:
		return crank
	}
	return (head + crank) / 2
}

// cutOffAngle returns the crank angle of cut-off at one end.
func (w *Wanted) cutOffAngle(f *Found, end End) float64 {
	return 3*math.Pi/2 - w.phase(f, f.Steam-w.LostMotion/2, f.Shift, end) - f.Advance
}

// phase returns the eccentric's angle, as passing has it, at which the valve with
// the given shift is at c; at the end of its way where it does not get there.
func (w *Wanted) phase(f *Found, c, shift float64, end End) float64 {
	l := w.EccentricRod
	if end == Crank {
		l, shift = -l, -shift
	}
	sin, cos := passing(max(-f.Reach, min(c-shift, f.Reach)), f.Reach, l)
	return 2 * math.Atan2(sin, cos)
}

// Share returns the share of the stroke at which the piston stands at crank angle
// t from one end's dead centre, counted on past the other and back before it.
func (w *Wanted) Share(t float64, end End) float64 {
	if t > math.Pi {
		return 2 - w.Share(2*math.Pi-t, end)
	}
	if t < 0 {
		return -w.Share(-t, end)
	}
	rod := w.Rod / w.Stroke
	if end == Crank {
		rod = -rod
	}
	sin, cos := math.Sincos(t / 2)
	return sin*sin + rise(sin*cos, rod)
}

// furthest returns the greatest half travel: the eccentric rod goes over its dead
// centres, and no length is one that no workshop has.
func (w *Wanted) furthest() float64 {
	return min(math.Abs(w.EccentricRod), Longest/8) * (1 - 1e-9)
}

// solve is Solve for a given opening, as if the ports were wide enough, or for the
// half travel.
func (w *Wanted) solve(opens float64) (f Found, why Hindrance, nearest float64) {
	low, high := -math.Pi/2, math.Pi/2
	if w.Reach == 0 {
		// r = (A - lead) / (1 - sin(d)) is not beyond what the rod allows.
		sin := 1 - (opens-w.Lead)/w.furthest()
		if !(sin > -1) {
			return f, NotTogether, 0
		}
		high = math.Asin(sin)
	}
	if f, ok := w.closed(opens); ok && f.Advance > low && f.Advance <= high {
		return f, NoHindrance, 0
	}
	late := func(d float64) float64 { f := w.at(d, opens); return w.late(&f) }
	if late(low) < 0 {
		return w.hindered(CutOffTooLate, low, opens)
	}
	// A large travel on a short eccentric rod makes the cut-off later again: of several gears the smallest is the one.
	const parts = 64
	step, early, least := (high-low)/parts, low, math.Inf(1)
	bracket := -1
	for i := 1; i <= parts && bracket < 0; i++ {
		d := low + float64(i)*step
		if v := late(d); v < 0 {
			bracket = i
		} else if v < least {
			early, least = d, v
		}
	}
	if bracket < 0 {
		return w.hindered(CutOffTooEarly, early, opens)
	}
	d, ok := root(late, low+float64(bracket-1)*step, low+float64(bracket)*step)
	if !ok {
		return f, NotTogether, 0
	}
	f = w.at(d, opens)
	if w.past(&f) > 0 { // then one end has no cut-off in its stroke
		past := func(d float64) float64 { f := w.at(d, opens); return w.past(&f) }
		if d, ok = root(past, d, high); !ok {
			return f, NotTogether, 0
		}
		return w.hindered(CutOffTooLate, d, opens)
	}
	return f, NoHindrance, 0
}

func (w *Wanted) hindered(why Hindrance, advance, opens float64) (Found, Hindrance, float64) {
	f := w.at(advance, opens)
	if w.Place == EqualCutOff {
		return f, NotTogether, 0
	}
	return f, why, w.cutOff(&f)
}

// past returns by how much the later of the cut-offs that are wanted comes past
// the dead centre.
func (w *Wanted) past(f *Found) float64 {
	head, crank := w.cutOffAngle(f, Head), w.cutOffAngle(f, Crank)
	switch {
	case w.Place == EqualCutOff:
		return -1
	case w.At == Head:
		crank = head
	case w.At == Crank:
		head = crank
	}
	return max(head, crank) - math.Pi
}

// closed returns the gear by the closed form, which there is where the crank angle
// t of cut-off is known and the eccentric rod does not slant. Of
//
//	r*k*sin(t + d) = S - b/2 - z      r*sin(d) = S + lead + b/2
//
// with z the shift towards opening that end, and for equal cut-offs no z, t the
// mean of both angles and k the cosine of half their difference, the difference is
//
//	r*(sin(d)*(1 - k*cos(t)) - cos(d)*k*sin(t)) = lead + b + z
//
// or, with r = S + b/2 + A,
//
//	sin(d)*(a - e*k*cos(t)) - cos(d)*e*k*sin(t) = a - e      a = A + b + z, e = A - lead
//
// For no lead, lost motion or shift it is d = 90 degrees - t/2 and S = r*cos(t/2):
// the construction of J. Rose, Modern Machine-Shop Practice, Figs. 3311 and 3312.
func (w *Wanted) closed(opens float64) (Found, bool) {
	if w.slants() {
		return Found{}, false
	}
	m := Motion{Stroke: w.Stroke, Rod: w.Rod}
	head, crank := m.CrankAt(w.CutOff), math.Pi-m.CrankAt(1-w.CutOff)
	t, k, z := head, 1.0, 0.0
	switch {
	case w.Place == EqualCutOff:
		t, k = (head+crank)/2, math.Cos((head-crank)/2)
	case w.Place == AsGiven && w.At == Head:
		z = w.Shift
	case w.Place == AsGiven && w.At == Crank:
		t, z = crank, -w.Shift
	case w.At == Crank:
		t = crank
	case w.At == Both && (w.Rod < endless || w.Place == AsGiven && w.Shift != 0):
		// each end has an angle of its own
		return Found{}, false
	}
	sin, cos := math.Sincos(t)
	across, along, over := k*sin, 1-k*cos, 0.0
	if w.Reach > 0 {
		over = (w.Lead + w.LostMotion + z) / w.Reach
	} else {
		a, e := opens+w.LostMotion+z, opens-w.Lead
		across, along, over = e*k*sin, a-e*k*cos, a-e
	}
	sum := math.Hypot(across, along)
	if !(math.Abs(over) <= sum) {
		return Found{}, false
	}
	f := w.at(math.Atan2(across, along)+math.Asin(over/sum), opens)
	f.Closed = true
	return f, math.Abs(w.late(&f)) < 1e-12 && w.past(&f) <= 0
}

// slants reports whether the eccentric rod does: an endless one times the ratio of
// a lever is far longer than any that does.
func (w *Wanted) slants() bool { return math.Abs(w.EccentricRod) < endless/(2*MaxLever) }

// ExhaustLap returns the exhaust lap, the mean of both ends, with which a gear
// shuts its exhaust at the given share of the stroke before the end of it, the
// mean of both ends; shift is that of the exhaust edges, and room is what the lap
// must be below for other reasons. The nearest compression is zero where there is
// none at all.
func (w *Wanted) ExhaustLap(f *Found, compression, shift, room float64) (lap float64, why Hindrance, nearest float64) {
	angle := func(lap float64, end End) float64 { // of closing, from the dead centre behind it
		return w.phase(f, w.LostMotion/2-lap, shift, end) - math.Pi/2 - f.Advance
	}
	over := func(lap float64) float64 {
		return -(w.Share(angle(lap, Head), Head)+w.Share(angle(lap, Crank), Crank))/2 - compression
	}
	late := func(lap float64) float64 { return max(angle(lap, Head), angle(lap, Crank)) }
	most := f.Reach - w.LostMotion/2 - math.Abs(shift)
	least := -most
	most = min(most, room) - 1e-9*f.Reach // beyond which it never opens
	if least >= most {
		return 0, CompressionTooMuch, 0
	}
	if late(least) > 0 {
		var ok bool
		if least, ok = root(late, least, most); !ok {
			return 0, CompressionTooMuch, 0
		}
		if late(least) > 0 {
			least += 1e-12 * f.Reach
		}
	}
	switch {
	case over(least) > 0:
		return least, CompressionTooLittle, compression + over(least)
	case over(most) < 0:
		return most, CompressionTooMuch, compression + over(most)
	}
	lap, ok := root(over, least, most)
	if !ok {
		return 0, NotTogether, 0
	}
	return lap, NoHindrance, 0
}

// root returns where between two numbers a function that has other signs there is
// nothing, to the last digits that tell it; false where it has not, or does not
// settle. It takes inverse quadratic steps where they are safe and halves
// otherwise: T. R. Chandrupatla, Advances in Engineering Software 28 (1997).
func root(f func(float64) float64, a, b float64) (float64, bool) {
	fa, fb := f(a), f(b)
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case !(fa*fb < 0):
		return 0, false
	}
	c, fc, t := a, fa, 0.5
	least := 1e-16 * (math.Abs(a) + math.Abs(b))
	for range 200 {
		x := a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) {
			return 0, false
		}
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best, fBest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fBest = b, fb
		}
		share := least / math.Abs(b-a)
		if share > 0.5 || fBest == 0 {
			return best, true
		}
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = min(max(t, share), 1-share)
	}
	return 0, false
}
