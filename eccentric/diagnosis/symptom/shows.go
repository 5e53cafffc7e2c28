package symptom

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// What a turn of the cycle means to the builder. No work has figures for how little an
// engine must do to be called weak, nor for how uneven a beat must be to be heard: all
// of these are our own, wide on purpose.
const (
	leastFriction, mostFriction = 0.10, 0.45 // of the work of a sound gear, slowly and at the pressure that turns it
	weakFrom, weakTo            = 0.95, 0.6  // of the drawn engine's work: hardly, plainly
	fastFrom, fastTo            = 0.05, 0.3  // of it lost between slow and fast
	muchFrom, muchTo            = 1.05, 1.6  // of the drawn engine's use for the same work
	beatFrom, beatTo            = 0.08, 0.35 // difference of the beats' pressures, or of their places in the turn
	earlyFrom, earlyTo          = 12, 35     // degrees before the dead centre at which steam is let in
	lateFrom, lateTo            = 3, 20      // and after it
	fallFrom, fallTo            = 0.1, 0.4   // of a turn's work, that the wheel must give more than in the drawn engine
	aboveFrom, aboveTo          = 1.0, 1.6   // of the chest's pressure, that compression rises to
)

// An outcome is what a state does slowly, fast and backwards, and the drawn engine
// beside it.
type outcome struct {
	slow, fast, back *turn
	against          *[2]*turn // where it may run the wrong way: slowly and fast
	friction         float64   // in multiples of what is usual
}

// ramp goes from 0 to 1 as v goes from one value to another, which may be the lower.
func ramp(v, from, to float64) float64 { return min(1, max(0, (v-from)/(to-from))) }

// runs returns how likely the engine is to turn by so much work, with friction that
// nobody knows. The measure is the work of a sound gear.
func runs(work, friction, measure float64) float64 {
	return ramp(work/measure, leastFriction*friction, mostFriction*friction)
}

// shows returns how surely each symptom is met, from 0 to 1.
func shows(o, drawn *outcome, cylinders int) (s [symptomCount]float64) {
	measure := drawn.measure()
	forwards, backwards := runs(o.slow.work, o.friction, measure), runs(o.back.work, o.friction, measure)
	s[WillNotTurn] = (1 - forwards) * (1 - backwards/2)
	s[WrongWay] = (1 - forwards) * backwards
	s[OneWayOnly] = forwards * (1 - backwards)

	friction := o.friction * (leastFriction + mostFriction) / 2 * measure * float64(cylinders) / (2 * math.Pi)
	on, against := pushed(o.slow.rest, friction)
	s[JerksOnly] = (1 - forwards) * (1 - backwards) * ramp(on+against, 0.05, 0.5)

	switch blows := o.slow.blows; {
	case blows > 0.95:
		s[HissesStanding] = 1
	case blows > 0.02:
		s[HissesInPlaces] = 1
	}

	for i, v := range running(o.slow, o.fast, drawn, friction, cylinders) {
		s[i] = max(s[i], forwards*v)
	}
	if o.against != nil {
		for i, v := range running(o.against[0], o.against[1], drawn, friction, cylinders) {
			s[i] = max(s[i], s[WrongWay]*v)
		}
	}
	return s
}

// running returns how surely the symptoms of an engine that runs are met, in the
// direction in which it does.
func running(slow, fast *turn, drawn *outcome, friction float64, cylinders int) (s [symptomCount]float64) {
	measure := drawn.measure()
	on, _ := pushed(slow.rest, friction)
	s[NeedsAPush] = 1 - on
	s[StopsAtCentre] = ramp((slow.fall(friction)-drawn.slow.fall(friction))/(float64(cylinders)*measure), fallFrom, fallTo)
	s[BeatsUneven] = ramp(slow.uneven(), beatFrom, beatTo)
	s[Knocks] = slow.knocks()
	s[Weak] = ramp(slow.work/measure, weakFrom, weakTo)
	lost, usual := slow.work-fast.work, drawn.slow.work-drawn.fast.work
	s[WeakAtSpeed] = ramp((lost-usual)/measure, fastFrom, fastTo)
	if slow.work > 0 && drawn.slow.work > 0 && drawn.slow.use > 0 {
		s[UsesMuch] = ramp(slow.use/slow.work*drawn.slow.work/drawn.slow.use, muchFrom, muchTo)
	}
	return s
}

// measure is the work of a sound gear: the drawn one's, or if that does none the least
// that package eccentric asks of one.
func (o *outcome) measure() float64 { return max(o.slow.work, 2*kernel.LeastWork) }

// pushed returns the shares of the turn in which the engine, standing, is pushed on and
// back harder than friction holds it.
func pushed(rest []float64, friction float64) (on, against float64) {
	for _, m := range rest {
		switch {
		case m > friction:
			on += 1.0 / steps
		case m < -friction:
			against += 1.0 / steps
		}
	}
	return on, against
}

// fall returns the energy that the wheel must give in its worst stretch of a turn.
func (t *turn) fall(friction float64) float64 {
	worst, left := 0.0, 0.0
	for i := range 2 * steps {
		left = min(0, left+(t.moment[i%steps]-friction)*dt)
		worst = min(worst, left)
	}
	return -worst
}

// uneven returns how unlike the two beats of a turn are: in strength, over the
// difference of the pressures, or in their places, over a quarter of a turn.
func (t *turn) uneven() float64 {
	if !t.releases[kernel.Head] || !t.releases[kernel.Crank] {
		return beatFrom + often*(beatTo-beatFrom) // a beat that is missing is not always told as uneven
	}
	strength := math.Abs(t.beat[kernel.Head] - t.beat[kernel.Crank])
	place := math.Abs(math.Remainder(t.release[kernel.Head]-t.release[kernel.Crank], 2*math.Pi)) / (math.Pi / 2)
	return max(strength, place)
}

// knocks returns how surely the pressures alone give a blow: steam let in well before
// the dead centre or after it, or squeezed above the chest's.
func (t *turn) knocks() (knock float64) {
	for _, end := range ends {
		if t.admits[end] {
			at := t.opensAt[end] * 180 / math.Pi
			knock = max(knock, ramp(-at, earlyFrom, earlyTo), ramp(at, lateFrom, lateTo))
		}
	}
	return max(knock, ramp(t.highest, aboveFrom, aboveTo))
}
