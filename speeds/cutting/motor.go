package cutting

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [CheckMotor] finds, one of the three.
const (
	MotorStalls   finding.Code = "motor-stalls"    // Fails
	MotorMayStall finding.Code = "motor-may-stall" // Caution: with the scatter of the figures
	MotorCarries  finding.Code = "motor-carries"   // Note
)

// A MotorCheck says whether a motor carries a cut.
type MotorCheck struct {
	Needed   units.Power  // at the motor: the load divided by the efficiency of the drive
	Share    float64      // of the motor's power
	Findings finding.List // one of MotorStalls, MotorMayStall, MotorCarries
	Refs     source.Refs
}

// CheckMotor compares a load with a motor of the given output:
//
//	needed = load / efficiency
//
// The efficiency of the drive is 0.3 to 1 ([BeltDrive] for a belt and plain
// bearings), the margin is [Scatter]. Powers above zero. See the Example.
func CheckMotor(l Load, motor units.Power, efficiency float64) (MotorCheck, error) {
	if err := fault.Positive(fail, "load", l.Power); err != nil {
		return MotorCheck{}, err
	}
	if err := fault.Positive(fail, "motor", motor); err != nil {
		return MotorCheck{}, err
	}
	if !(efficiency >= 0.3 && efficiency <= 1) {
		return MotorCheck{}, fail.OutOfRange("efficiency of the drive", efficiency, "0.3 to 1")
	}
	c := MotorCheck{Needed: l.Power / units.Power(efficiency), Refs: l.Refs}
	c.Share = float64(c.Needed / motor)
	verdict, f := "the motor carries it", finding.Finding{Code: MotorCarries}
	lighter := []string{"Take a lighter cut, or back gear and a finer feed."}
	switch {
	case c.Share > 1:
		verdict, f = "the motor stalls or the belt slips", finding.Finding{Code: MotorStalls, Severity: finding.Fails, Remedies: lighter}
	case c.Share*(1+Scatter) > 1:
		verdict = "it may stall a motor of this size, as the figures scatter by 30 %"
		f = finding.Finding{Code: MotorMayStall, Severity: finding.Caution, Remedies: lighter}
	}
	f.Text = fmt.Sprintf("The cut takes %.0f W at the motor of %.0f W, %.0f %%: %s.", float64(c.Needed), float64(motor), 100*c.Share, verdict)
	f.Refs = c.Refs
	c.Findings = finding.List{f}
	return c, nil
}
