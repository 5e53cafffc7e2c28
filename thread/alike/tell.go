package alike

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
)

// A Telling is a measurement that separates two threads, with what each would
// show.
type Telling struct {
	Measure       string         // what to measure
	First, Second units.Length   `json:",omitzero"` // what the threads would show; zero for the angle
	Angles        [2]units.Angle `json:",omitzero"` // of the threads, where the angle tells them apart
}

// String returns the measurement and the two readings in one line.
func (t Telling) String() string {
	if t.Angles != [2]units.Angle{} {
		return fmt.Sprintf("%s: %.4g or %.4g degrees", t.Measure, t.Angles[0].Degrees(), t.Angles[1].Degrees())
	}
	return fmt.Sprintf("%s: %s or %s", t.Measure, t.First.Text(units.Millimetres, 3), t.Second.Text(units.Millimetres, 3))
}

// mostThreads is the longest run of threads that it is sensible to measure.
const mostThreads = 40

// Distinguish returns the measurements that separate two threads, easiest
// first, given what a diameter and the pitch of a single thread, or the length
// of many, may be off: the length of more threads, the angle, the major
// diameter, and the measurement over a wire that serves both. It is empty when
// they are one thread under two names.
func Distinguish(first, second thread.Thread, diameterMayBeOff, pitchMayBeOff units.Length) []Telling {
	return distinguish(first, second, diameterMayBeOff, pitchMayBeOff, false)
}

// distinguish is Distinguish, of two nuts or tapped holes if they are internal: there
// are no crests and no wires to measure over, and a gauge needs a cast of the thread.
func distinguish(first, second thread.Thread, diameterMayBeOff, pitchMayBeOff units.Length, internal bool) []Telling {
	var tell []Telling
	add := func(measure string, a, b units.Length) {
		tell = append(tell, Telling{Measure: measure, First: a, Second: b})
	}
	if step := math.Abs(first.Pitch().Sub(second.Pitch()).MM()); step > 0 && pitchMayBeOff.MM() > 0 {
		// A length of many threads is off by as much as one of a single thread;
		// twice that must lie between the two readings.
		n := math.Ceil(2 * pitchMayBeOff.MM() / step)
		if n = max(n, 5); n <= mostThreads {
			add(fmt.Sprintf("the length of %.0f threads", n), first.Pitch().Scale(n), second.Pitch().Scale(n))
		}
	}
	if a, b := first.Form().Angle(), second.Form().Angle(); a != b {
		how := "the angle, with a gauge against the light"
		if internal {
			how = "the angle, with a gauge on a cast of the thread"
		}
		tell = append(tell, Telling{Measure: how, Angles: [2]units.Angle{a, b}})
	}
	if internal {
		return tell
	}
	if first.Major().Sub(second.Major()).Abs().Scale(0.5).Cmp(diameterMayBeOff) > 0 {
		add("the diameter over the crests of an unworn screw", first.Major(), second.Major())
	}
	if wire, ok := commonWire(first, second); ok {
		a, errA := wires.Set{Thread: first, Wire: wire}.Over(first.PitchDiameter())
		b, errB := wires.Set{Thread: second, Wire: wire}.Over(second.PitchDiameter())
		if errA == nil && errB == nil && a.Sub(b).Abs().Scale(0.5).Cmp(diameterMayBeOff) > 0 {
			add("over wires of "+wire.Text(units.Millimetres, 3), a, b)
		}
	}
	return tell
}

// commonWire returns a wire that both threads take, the best of the first if
// the second allows it.
func commonWire(first, second thread.Thread) (units.Length, bool) {
	a, errA := wires.RangeOf(first)
	b, errB := wires.RangeOf(second)
	if errA != nil || errB != nil {
		return units.Length{}, false
	}
	low, high := a.Min, a.Max
	if b.Min.Cmp(low) > 0 {
		low = b.Min
	}
	if b.Max.Cmp(high) < 0 {
		high = b.Max
	}
	if low.Cmp(high) > 0 {
		return units.Length{}, false
	}
	switch best := a.Best; {
	case best.Cmp(low) < 0:
		return low, true
	case best.Cmp(high) > 0:
		return high, true
	default:
		return best, true
	}
}
