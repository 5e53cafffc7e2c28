package diagnosis

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
)

// Validate reports what cannot be a reading as an [*units.ArgumentError]: an end that it
// does not have or that is missing, an angle or a length out of range, what belongs to
// another kind, and one that may be out by nothing, or by too much to tell anything.
func (r Reading) Validate() error { return r.validate() }

// On returns what the reading would be on a gear: of its kind and end, and by its
// measure. Of a lead and of the openings it is what is seen, not more than the port is
// wide. It fails only where [Reading.Validate] does or [eccentric.Gear.Validate].
func (r Reading) On(g eccentric.Gear) (Reading, error) {
	if err := r.Validate(); err != nil {
		return Reading{}, err
	}
	events, err := g.Events()
	if err != nil {
		return Reading{}, err
	}
	of := Reading{Kind: r.Kind, End: r.End, Crank: r.Crank, Within: r.Within}
	does := events.Head
	if r.End == eccentric.CrankEnd {
		does = events.Crank
	}
	switch r.Kind {
	case Admission, CutOff, Release, Compression:
		e := map[Kind]eccentric.Event{
			Admission: does.Admission, CutOff: does.CutOff, Release: does.Release, Compression: does.Compression,
		}[r.Kind]
		switch {
		case !e.Occurs:
			of.Never = true
		case r.ByStroke:
			of.ByStroke, of.Stroke = true, e.Stroke
		default:
			of.Angle = inReach(e.Crank)
		}
	case Lead:
		of.Length = seenLead(g, events, r.End)
	case Opening:
		of.Length = does.Opening
	case ExhaustOpening:
		of.Length = does.ExhaustOpening
	case Travel:
		of.Length = g.Travel.Sub(g.Valve.LostMotion)
	case ValveAt:
		of.Length, err = g.Displacement(r.Crank)
	case OpensNext:
		of.Opens = opensNext(g)
	}
	return of, err
}

// opensNext is to what the port of either end opens as the crank moves on from that
// end's dead centre: with the sheave ahead of the crank, or where a lever or inside
// admission has it behind, as long as cos(d) > 0.
func opensNext(g eccentric.Gear) Side {
	if math.Cos(float64(g.Advance)) > 0 {
		return Steam
	}
	return Exhaust
}

// Name says what the reading is of: "cut-off of the head end".
func (r Reading) Name() string {
	name := map[Kind]string{
		Admission: "admission", CutOff: "cut-off", Release: "release", Compression: "compression", Lead: "lead",
		Opening: "greatest opening to steam", ExhaustOpening: "greatest opening to exhaust", Travel: "travel of the valve",
		ValveAt: "place of the valve", OpensNext: "way in which the port goes next",
	}[r.Kind]
	if r.Kind == ValveAt {
		name += " with the crank at " + signedDegrees(r.Crank)
	}
	if r.End != eccentric.BothEnds {
		name += fmt.Sprintf(" at the %v end", r.End)
	}
	return name
}

// Value says what was read: "-4 deg", "87 %", "-0.2 mm (-7.9 thou)", "never", "to steam".
func (r Reading) Value() string {
	switch {
	case r.Kind == OpensNext:
		return "to " + r.Opens.String()
	case r.Never:
		return "never"
	case r.ByStroke:
		return trim(fmt.Sprintf("%.1f", 100*r.Stroke)) + " %"
	case r.Kind.isEvent():
		return trim(strings.TrimSuffix(signedDegrees(r.Angle), " deg")) + " deg"
	}
	return both(r.Length)
}
