package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Limit is a speed that the work or its holding must not exceed, and why.
// Package holding has those of chucks.
type Limit struct {
	Speed  units.RotationalSpeed
	Reason string // "the speed marked on the chuck"
	Cure   string // what to do instead, in place of balancing the work; blank: that
	Ref    source.Ref

	routine bool // it goes with the operation, and is worth knowing, no fault
}

// Check says whether a spindle speed is above the limit, which is [AboveLimit];
// it says nothing of one that is not. A speed or a limit that is not above zero
// is an error. See the Example.
func (l Limit) Check(n units.RotationalSpeed) (finding.List, error) {
	if err := l.Validate(); err != nil {
		return nil, err
	}
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return nil, err
	}
	if n <= l.Speed {
		return nil, nil
	}
	return finding.List{l.exceeded(rpm(n) + " is")}, nil
}

// Validate returns an error for a limit without a speed.
func (l Limit) Validate() error { return fault.Positive(fail, "speed limit", l.Speed) }

func (l Limit) exceeded(what string) finding.Finding {
	cure := l.Cure
	if cure == "" {
		cure = "Take away the cause: balance the work, or hold it in something that stands the speed."
	}
	return finding.Finding{
		Code: AboveLimit, Severity: finding.Danger,
		Text: fmt.Sprintf("Do not run it. %s above the limit of %s (%s).", what, limitText(l.Speed), l.Reason),
		Remedies: []string{
			"Take back gear, a smaller driving pulley or a countershaft.", cure,
		},
		Refs: source.Of(l.Ref),
	}
}
