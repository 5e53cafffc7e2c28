package kernel

import "math"

// A Drive is an arc of the crank, of 0 to pi from an end's own dead centre, in which
// that end drives.
type Drive struct {
	End      End
	From, To float64
}

// Drives are those of a turn, the head end's before the crank end's, each in order.
type Drives struct {
	arcs [6]Drive // of each end at most two that are open, or what is left of one
	of   int
}

// All returns them.
func (d *Drives) All() []Drive { return d.arcs[:d.of] }

// Driven returns where the ends drive: an end does on the way out while its port is
// open to steam and the other end's is not, which would push as hard against it. A
// port opens once in a turn, and may stay open from the end of one stroke out to the
// beginning of the next.
func (e *Events) Driven() Drives {
	var d Drives
	for _, end := range [...]End{Head, Crank} {
		own, ownOpens := e.At(end).open()
		other, otherOpens := e.At(end.Other()).open()
		if !ownOpens {
			continue
		}
		for _, turn := range [...]float64{-2 * math.Pi, 0} { // opened in the turn before, or in this one
			at, to := max(own.from+turn, 0), min(own.to+turn, math.Pi)
			for _, by := range [...]float64{-math.Pi, math.Pi} { // its angles are half a turn ahead or behind
				if otherOpens {
					d.add(end, at, min(to, other.from+by))
					at = max(at, other.to+by)
				}
			}
			d.add(end, at, to)
		}
	}
	return d
}

func (d *Drives) add(end End, from, to float64) {
	if from < to {
		d.arcs[d.of] = Drive{end, from, to}
		d.of++
	}
}

// A span is an arc of the crank from an end's own dead centre.
type span struct{ from, to float64 }

// open returns the arc in which the port is open to steam, if it ever is: one that
// begins within half a turn of the dead centre.
func (e *EndEvents) open() (span, bool) {
	if e.Steam == NeverCloses {
		return span{0, 2 * math.Pi}, true
	}
	return span{e.Admission.Crank, e.CutOff.Crank}, e.Steam == OpensAndCloses
}
