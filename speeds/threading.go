package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// How fast a thread is cut under power on a machine that a hand stops, whatever
// the edge would stand. Common practice; nobody prints it for light machines.
const (
	powerTapping = 100 * units.RevPerMinute   // a tap over 4 mm
	toShoulder   = units.MetrePerSecond / 500 // 2 mm a second, of a tool that is screwcutting, along the work
)

// limits are those of the job and the one of threading under power, if it is that.
func (j Job) limits() []Limit {
	own := Limit{Ref: source.Practice(), routine: true}
	switch {
	case j.Operation == Tapping:
		own.Speed = powerTapping
		own.Reason = "a tap that binds or comes to the bottom breaks before a hand has stopped a machine that does not reverse by itself"
		own.Cure = "Tap by hand: motor isolated, the tap guided upright and turned with a wrench."
	case j.Operation == Screwcutting: // Validate wants its pitch
		own.Speed = units.RotationalSpeed(float64(toShoulder)/j.Pitch.Metres()) * units.RevPerSecond // n = v/p
		own.Reason = "the tool then goes 2 mm a second, about what a hand stops within a millimetre of a shoulder or of the chuck"
		own.Cure = "Turn the spindle with a mandrel handle, the motor isolated, and take the handle off before the power comes on."
	default:
		return j.Limits
	}
	return append(j.Limits[:len(j.Limits):len(j.Limits)], own)
}

// ThreadSpeed returns how fast a tool goes along a thread:
//
//	v = p * n
//
//	p  pitch, or the lead of a thread with several starts
//	n  spindle speed
//
// M10 x 1.5 at 360 rev/min is 9 mm a second, more than a hand stops at a shoulder.
// Any pitch and speed above zero. Geometry. See the Example.
func ThreadSpeed(pitch units.Length, n units.RotationalSpeed) (units.Speed, error) {
	if err := fail.Above(fault.Named("pitch", pitch)); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return 0, err
	}
	return units.Speed(pitch.Metres() * n.In(units.RevPerSecond)), nil // v = p n
}

// byHand reports whether the job has no speed; see [Operation.ByHand].
func (j Job) byHand() bool { return j.Operation.ByHand(j.Diameter) }

// what the job is called in a finding: "Taps up to 4 mm" or "Dies".
func (j Job) threadTool() string {
	if j.Operation == DieCutting {
		return "Dies"
	}
	return "Taps up to 4 mm"
}

// guided says how such a thread is cut.
func (j Job) guided() string {
	if j.Operation == DieCutting {
		return "With the motor isolated, keep the die square in a tailstock holder or against the tailstock barrel, and turn the" +
			" holder or the chuck by hand; half a turn back for each turn."
	}
	return "With the motor isolated, guide the tap upright, in the tailstock or in the chuck of a drilling machine, and turn it" +
		" by hand; half a turn back for each turn."
}

// handPlan is the plan of a job without a speed.
func (j Job) handPlan() Plan {
	refs := source.Of(source.Practice())
	p := Plan{Range: Range{Operation: j.Operation, Material: j.Material, Tool: j.tool()}, Feed: 1, Refs: refs}
	p.add(ByHand, finding.Note, refs, j.threadTool()+" are turned by hand, the motor isolated: no speed is set.", j.guided())
	return p
}

// underPower is what is said of a job for the hand at a speed at which it runs.
func (j Job) underPower(n units.RotationalSpeed) finding.Finding {
	return finding.Finding{
		Code: ThreadUnderPower, Severity: finding.Danger,
		Text: fmt.Sprintf("Do not run it. %s are turned by hand, and this one would run at %s: it breaks, and takes the work or the wrench"+
			" round with it, before a hand is at the switch.", j.threadTool(), rpm(n)),
		Remedies: []string{j.guided()},
		Refs:     source.Of(source.Practice()),
	}
}
