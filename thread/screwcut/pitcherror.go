package screwcut

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// PitchErrorOnDiameter returns by how much an error of pitch, over the length
// that a nut engages, makes a screw's pitch diameter too large for the nut (a
// nut's too small), whichever way the error goes.
//
//	dE = error * cot A
//
//	A  half the angle of thread
//
// That is 1.732 times for 60 degrees, 1.921 for 55 and 2.273 for 47.5. It puts a
// near train of change wheels beside the tolerance of the pitch diameter. It is
// zero for no thread. A result beyond 1 km is an error. Source: geometry.
func PitchErrorOnDiameter(t thread.Thread, overEngagement units.Length) (units.Length, error) {
	if t.Form() == 0 {
		return units.Length{}, nil
	}
	onDiameter, err := units.Millimetres.Of(overEngagement.Abs().MM() / math.Tan(t.Form().Angle().Radians()/2))
	if err != nil {
		return units.Length{}, fail.OutOfRange("error over the engagement", overEngagement, "less than 400 m either way")
	}
	return onDiameter, nil
}

// PitchBinds is the finding of [PitchErrorShare]: the error of pitch takes all that the
// class allows.
const PitchBinds finding.Code = "pitch-binds"

// A PitchShare sets an error of pitch beside the tolerance of the pitch diameter.
type PitchShare struct {
	OnDiameter units.Length  // see [PitchErrorOnDiameter]
	Limits     thread.Limits `json:",omitzero"` // of the usual class of screw; zero where the thread has none
	Tolerance  units.Length  `json:",omitzero"` // of the pitch diameter in that class
	Share      float64       // OnDiameter over Tolerance; zero where there are no limits
	Findings   finding.List  // that it takes all of the tolerance
	Refs       source.Refs   // of the limits
}

// String returns the share in one line: "2.17 um on the pitch diameter, 1.9 % of what class 6g
// allows".
func (p PitchShare) String() string {
	text := fmt.Sprintf("%.2f um on the pitch diameter", p.OnDiameter.Micron())
	if !p.Tolerance.IsZero() {
		text += fmt.Sprintf(", %.1f %% of what %s allows", 100*p.Share, p.Limits.Name())
	}
	return text
}

// PitchErrorShare returns what an error of pitch, over the length that a nut engages,
// takes of the tolerance that the usual class of screw has on its pitch diameter.
//
//	share = dE / tolerance
//
// A thread without limits has no share. Errors are those of [PitchErrorOnDiameter] and
// of a thread that is none. Source: geometry, and the standard of the limits.
func PitchErrorShare(t thread.Thread, overEngagement units.Length) (PitchShare, error) {
	if err := t.Validate(); err != nil {
		return PitchShare{}, err
	}
	onDiameter, err := PitchErrorOnDiameter(t, overEngagement)
	if err != nil {
		return PitchShare{}, err
	}
	p := PitchShare{OnDiameter: onDiameter}
	screw, _ := t.UsualClasses()
	limits, err := t.Limits(screw)
	if err != nil || limits.PitchDiameter.Tolerance().IsZero() {
		return p, nil // British pipe, model engineers' threads and others have no limits
	}
	p.Limits, p.Tolerance, p.Refs = limits, limits.PitchDiameter.Tolerance(), limits.Refs
	p.Share = onDiameter.Ratio(p.Tolerance)
	if p.Share >= 1 {
		p.Findings = finding.List{{
			Code: PitchBinds, Severity: finding.Caution,
			Text: fmt.Sprintf("The error of pitch takes %s of the pitch diameter, and %s allows %s in all: a screw of that class "+
				"binds in its nut before the whole length is engaged.", onDiameter.Text(units.Millimetres, 3), limits.Name(),
				p.Tolerance.Text(units.Millimetres, 3)),
			Remedies: []string{"Engage less of it, or cut the screw that much smaller on the pitch diameter."}, Refs: p.Refs,
		}}
	}
	return p, nil
}
