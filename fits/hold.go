package fits

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// A Cut is what a tool does to a part that is held by a joint: a flywheel
// turned on its own shaft, a crank web bored on its pin.
type Cut struct {
	Force    units.Force  // of the cut, along the speed; package speeds gives it
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
	Findings  []Finding
}

// Torque returns the torque of the cut, force x radius x shock. A missing force
// or diameter, or a shock below one or beyond ten, is an
// [*units.ArgumentError].
func (c Cut) Torque() (units.Torque, error) {
	if err := positive("diameter of the cut", c.Diameter); err != nil {
		return 0, err
	}
	if !(c.Force > 0 && c.Force < 1e7) {
		e := &units.ArgumentError{Package: "fits", Field: "force of the cut", Value: c.Force.String(), Accepted: "a force above zero", Err: units.ErrOutOfRange}
		if c.Force == 0 {
			e.Err = units.ErrMissing
		}
		return 0, e
	}
	if !(c.Shock >= 1 && c.Shock <= 10) {
		return 0, &units.ArgumentError{Package: "fits", Field: "shock", Value: plain(c.Shock), Accepted: "1 for a steady cut, 2 to 3 for an interrupted one, at most 10", Err: units.ErrOutOfRange}
	}
	return units.Torque(float64(c.Force) * c.Diameter.Metres() / 2 * c.Shock), nil
}

// Holds holds the torque of a joint, from [PressResult], [BondResult] or
// [GrubScrewResult], against a cut. The low end of the joint counts. A torque
// below zero, ends the wrong way round and what [Cut.Torque] refuses are errors of
// type [*units.ArgumentError].
func Holds(joint Range[units.Torque], cut Cut) (Hold, error) {
	if !(joint.Low >= 0 && joint.Low <= joint.High && joint.High < 1e9) {
		return Hold{}, &units.ArgumentError{Package: "fits", Field: "torque of the joint", Value: fmt.Sprintf("%v to %v", joint.Low, joint.High), Accepted: "zero or more, low end first", Err: units.ErrOutOfRange}
	}
	needed, err := cut.Torque()
	if err != nil {
		return Hold{}, err
	}
	h := Hold{Needed: needed, Available: joint, Margin: float64(joint.Low / needed)}
	switch {
	case h.Margin < 1:
		h.Findings = append(h.Findings, Finding{Stop, fmt.Sprintf("the joint may slip: the cut takes %.4g N m and it bears %.4g N m at the least; drive the part by a dog or a bolt, or cut lighter", float64(needed), float64(joint.Low))})
	case h.Margin < 2:
		h.Findings = append(h.Findings, Finding{Caution, fmt.Sprintf("the joint bears %.1f times the torque of the cut at the least; less than twice is little", h.Margin)})
	}
	return h, nil
}
