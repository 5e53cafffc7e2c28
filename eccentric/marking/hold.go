package marking

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [ThreeJaw.Check] and [TooFast] find.
const (
	NotHeld        finding.Code = "not-held"          // the jaws push the blank off its packing
	JawsTooFar     finding.Code = "jaws-too-far"      // they stand further out than the chuck's maker lets them
	SetOverTooFast finding.Code = "set-over-too-fast" // the work may come off
)

// Check finds what lets the blank come out of the chuck. Without friction the two jaws
// press it on the packing with a share of what flat faces would
//
//	2 * sin(30 degrees - asin(u/R))
//
// with u and R of [ThreeJaw.Packing]. From u = R/2 on they push it off, a Danger; less
// than a half is a Caution, a bound of our own, which is not told of jaws whose width
// was not given. Jaws that stand further out than Opens are a Danger. It fails where
// [ThreeJaw.Validate] does. See the Example of [ThreeJaw.Packing].
func (c ThreeJaw) Check() (finding.List, error) {
	p, err := c.Packing()
	if err != nil {
		return nil, err
	}
	var found finding.List
	push := 2 * math.Sin(math.Pi/6-math.Asin(c.beside(c.Jaw)/(count(c.Blank)/2)))
	jaws := "Narrow jaws, as none were given,"
	if !c.Jaw.IsZero() {
		jaws = fmt.Sprintf("Jaws %v wide", c.Jaw)
	}
	remedies := []string{
		fmt.Sprintf("Use jaws with flat faces of %s or more, a four-jaw chuck, or a larger blank.", p.WideFrom.Text(units.Millimetres, 1)),
	}
	refs := source.Of(source.Ref{Kind: source.Derived, Note: "balance of three forces without friction: 2 sin(30 deg - asin(u/R))"})
	switch {
	case !(push > 1e-9):
		found = append(found, finding.Finding{
			Code: NotHeld, Severity: finding.Danger, Refs: refs, Remedies: remedies,
			Text: fmt.Sprintf("%s touch the blank with their edges so far round that they push it off the packing: nothing but friction holds it.", jaws),
		})
	case push < leastPush && !c.Jaw.IsZero():
		found = append(found, finding.Finding{
			Code: NotHeld, Severity: finding.Caution, Refs: refs, Remedies: remedies,
			Text: fmt.Sprintf("%s touch the blank with their edges and press it on the packing with only %.0f %% of what flat faces would.", jaws, 100*push),
		})
	}
	if !c.Opens.IsZero() && p.JawsGrip.Cmp(c.Opens) > 0 {
		found = append(found, finding.Finding{
			Code: JawsTooFar, Severity: finding.Danger, Refs: source.Of(source.Practice()),
			Text: fmt.Sprintf("The jaws stand as for work of %s, and the chuck opens to %s: too few teeth of the scroll hold them, and they come off.",
				p.JawsGrip.Text(units.Millimetres, 1), c.Opens),
			Remedies: []string{"Use the outside jaws or a larger chuck, or set it over on the faceplate."},
		})
	}
	return found, nil
}

// leastPush is the least share of the grip that should press the blank on the packing; of
// our own.
const leastPush = 0.5

// SpeedLimit returns the speed that work so far off centre must not exceed, of
// [holding.Work.Limit], whatever its mass is. An offset above zero. See the Example.
func SpeedLimit(offset units.Length) (speeds.Limit, error) {
	if err := fail.Above(fault.Named("offset", offset)); err != nil {
		return speeds.Limit{}, err
	}
	return setOver(offset).Limit()
}

// SteadySpeed returns the speed up to which work so far off centre may be left out of
// balance, of [holding.Work.Steady]. An offset above zero. See the Example of [SpeedLimit].
func SteadySpeed(offset units.Length) (speeds.Limit, error) {
	if err := fail.Above(fault.Named("offset", offset)); err != nil {
		return speeds.Limit{}, err
	}
	return setOver(offset).Steady()
}

// setOver is the work; what is asked of it does not depend on its mass.
func setOver(offset units.Length) holding.Work {
	return holding.Work{Mass: units.Kilogram, Offset: offset}
}

// TooFast finds what a spindle speed is for work so far off centre: above
// [SpeedLimit] a Danger, SetOverTooFast; below it what [holding.Work.Check] says. See
// the Example of [SpeedLimit].
func TooFast(offset units.Length, n units.RotationalSpeed) (finding.List, error) {
	limit, err := SpeedLimit(offset)
	if err != nil {
		return nil, err
	}
	found, err := setOver(offset).Check(n)
	if err != nil || !(n > limit.Speed) {
		return found, err
	}
	return finding.List{{
		Code: SetOverTooFast, Severity: finding.Danger, Refs: source.Of(limit.Ref),
		Text:     fmt.Sprintf("%.0f rev/min is too fast for work %v off centre: %s.", n.In(units.RevPerMinute), offset, limit.Reason),
		Remedies: []string{fmt.Sprintf("Keep it below %.0f rev/min, and balance it before it goes near that.", math.Floor(limit.Speed.In(units.RevPerMinute)))},
	}}, nil
}
