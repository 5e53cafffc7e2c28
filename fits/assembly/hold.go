package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Cut is what a tool does to a part that is held by a joint: a flywheel
// turned on its own shaft, a crank web bored on its pin.
type Cut struct {
	Force    units.Force  // of the cut, along the speed; package speeds/cutting gives it
	Diameter units.Length // at which the tool cuts
	// Shock is by how much the blows of the cut exceed its steady force: 1 for a
	// steady cut, 2 to 3 when the tool meets spokes, ports or a web once a turn
	// (common practice).
	Shock float64
}

// A Hold says whether a joint holds.
type Hold struct {
	Needed    units.Torque        // of the cut, shock and all
	Available Range[units.Torque] // of the joint
	Margin    float64             // least torque of the joint over the needed one
	Findings  finding.List
}

// Torque returns the torque of the cut:
//
//	torque = force * diameter/2 * shock
//
// The shock is 1 to 10. See the Example.
func (c Cut) Torque() (units.Torque, error) {
	if err := fail.Above(fault.Named("diameter of the cut", c.Diameter)); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "force of the cut", c.Force); err != nil {
		return 0, err
	}
	if !(c.Shock >= 1 && c.Shock <= 10) {
		return 0, fail.OutOfRange("shock", c.Shock, "1 for a steady cut, 2 to 3 for an interrupted one, at most 10")
	}
	return units.Torque(float64(c.Force) * c.Diameter.Metres() / 2 * c.Shock), nil
}

// Holds holds the torque of a joint, from [PressResult], [BondResult] or
// [GrubScrewResult], against a cut. The least of the joint counts; twice the
// torque of the cut is enough (common practice). See the Example.
func Holds(joint Range[units.Torque], cut Cut) (Hold, error) {
	if !(joint.Min >= 0 && joint.Min <= joint.Max && joint.Max < 1e9) {
		return Hold{}, fail.OutOfRange("torque of the joint", fmt.Sprintf("%v to %v", joint.Min, joint.Max),
			"zero or more, the least first")
	}
	needed, err := cut.Torque()
	if err != nil {
		return Hold{}, err
	}
	h := Hold{Needed: needed, Available: joint, Margin: float64(joint.Min / needed)}
	switch {
	case h.Margin < 1:
		f := said(&h.Findings, JointSlips, finding.Danger,
			"The joint may slip under the tool, and the part then spins or climbs: "+
				"the cut takes %.4g N m and the joint bears %.4g N m at the least.", float64(needed), float64(joint.Min))
		f.Remedies = []string{"Drive the part by a dog or a bolt, or cut lighter."}
	case h.Margin < 2:
		f := said(&h.Findings, LittleMargin, finding.Caution,
			"The joint bears %.1f times the torque of the cut at the least; less than twice is little.", h.Margin)
		f.Remedies = []string{"Drive the part by a dog or a bolt, or cut lighter."}
		f.Refs = source.Of(source.Practice())
	}
	return h, nil
}
