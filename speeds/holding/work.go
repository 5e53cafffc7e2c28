package holding

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Work is work set over on a faceplate or in a chuck.
type Work struct {
	Mass   units.Mass
	Offset units.Length // of its centre of mass from the axis
}

// Force returns the force that goes round with the work:
//
//	F = m * e * w^2
//
//	m  mass
//	e  offset
//	w  angular speed
//
// It shakes the lathe once a turn; what a lathe stands, nobody prints: [Work.Check] and
// [Work.Limit] have bounds of our own, [Work.Precautions] what is common practice. Mechanics. See the Example.
func (w Work) Force(n units.RotationalSpeed) (units.Force, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return 0, err
	}
	return units.Force(float64(w.Mass) * w.Offset.Metres() * float64(n) * float64(n)), nil // F = m e w^2
}

// What is let go by without a word, and what is not run, in weights of the work. Nobody
// prints what a lathe stands: both bounds are of our own.
const (
	heavySwing   = 1
	violentSwing = 10
	gravity      = float64(units.KilogramForce) // g in m/s2
)

func swingRef() source.Ref {
	return source.Ref{Kind: source.Derived, Note: "m e w^2 over the weight m g; nobody prints a limit, and once and ten times the weight are bounds of our own"}
}

// SwingsHeavily is what [Work.Check] finds, a Caution.
const SwingsHeavily finding.Code = "swings-heavily"

// Check says whether the force that goes round at a spindle speed is above the weight
// of the work itself, which is [SwingsHeavily]:
//
//	F / (m g) = e * w^2 / g
//
//	g  9.80665 m/s2; the other symbols as for [Work.Force]
//
// It says nothing of less. Nobody prints what a lathe stands: the bound is of our own,
// and a light lathe may tremble below it. [Work.Limit] is what must not be exceeded.
// Errors as for [Work.Force]. Mechanics. See the Example.
func (w Work) Check(n units.RotationalSpeed) (finding.List, error) {
	force, err := w.Force(n)
	if err != nil {
		return nil, err
	}
	times := float64(force) / (float64(w.Mass) * gravity) // F/(m g)
	if !(times > heavySwing) {
		return nil, nil
	}
	return finding.List{{
		Code: SwingsHeavily, Severity: finding.Caution,
		Text: fmt.Sprintf("At %.0f rev/min the work pulls round and round with %.0f N, %.1f times its own weight: it shakes the lathe and works its clamps loose.",
			n.In(units.RevPerMinute), float64(force), times),
		Remedies: []string{
			"Balance it with a weight bolted on opposite, with the belt off.",
			fmt.Sprintf("Unbalanced, keep it below %.0f rev/min, and slower if anything trembles.", math.Floor(w.pulls(heavySwing).In(units.RevPerMinute))),
		},
		Refs: source.Of(swingRef()),
	}}, nil
}

// Limit returns the speed that work which is set over must not exceed, for
// [speeds.Job]: where it pulls with ten times its weight.
//
//	w = sqrt(10 * g / e)
//
// Symbols as for [Work.Check]; 20 mm off the axis it is 668 rev/min. Nobody prints a
// limit: this one is of our own, and balancing the work comes first. Mechanics. See the
// Example.
func (w Work) Limit() (speeds.Limit, error) {
	if err := w.Validate(); err != nil {
		return speeds.Limit{}, err
	}
	return speeds.Limit{Speed: w.pulls(violentSwing), Ref: swingRef(),
		Reason: "the work, out of balance, then pulls with ten times its weight: it may come off, or take the lathe off its feet"}, nil
}

// Steady returns the speed up to which the work may be left out of balance: where it pulls
// with its own weight, and [Work.Check] begins to find something.
//
//	w = sqrt(g / e)
//
// Symbols as for [Work.Check]. The bound is of our own, as that of [Work.Limit] is, and
// the lathe is slowed where anything trembles. Mechanics. See the Example of
// [Work.Check].
func (w Work) Steady() (speeds.Limit, error) {
	if err := w.Validate(); err != nil {
		return speeds.Limit{}, err
	}
	return speeds.Limit{Speed: w.pulls(heavySwing), Ref: swingRef(),
		Reason: "the work, out of balance, then pulls with its own weight: it shakes the lathe and works its clamps loose"}, nil
}

// pulls returns the speed at which the force is so many weights of the work.
func (w Work) pulls(weights float64) units.RotationalSpeed {
	return units.RotationalSpeed(math.Sqrt(weights * gravity / w.Offset.Metres())) // w = sqrt(k g/e)
}

// Speed returns the speed at which the force that goes round reaches the given
// one:
//
//	w = sqrt(F / (m * e))
//
// Symbols as for [Work.Force]. Mechanics. See the Example.
func (w Work) Speed(most units.Force) (units.RotationalSpeed, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "force", most); err != nil {
		return 0, err
	}
	moment := float64(w.Mass) * w.Offset.Metres()
	return units.RotationalSpeed(math.Sqrt(float64(most) / moment)), nil // w = sqrt(F/(m e))
}

// Counterweight returns the mass that balances the work at a radius on the
// other side: mass times offset over radius. See the Example of [Work].
func (w Work) Counterweight(radius units.Length) (units.Mass, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if radius.Sign() <= 0 {
		return 0, fail.OutOfRange("radius of the counterweight", radius, "above zero")
	}
	return w.Mass * units.Mass(w.Offset.Ratio(radius)), nil
}

// Validate returns an error for work without a mass or an offset.
func (w Work) Validate() error {
	if err := fault.Positive(fail, "mass", w.Mass); err != nil {
		return err
	}
	if w.Offset.Sign() <= 0 {
		return fail.OutOfRange("offset", w.Offset, "above zero")
	}
	return nil
}

// Precautions returns what keeps work that is set over on the faceplate.
func (w Work) Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: "balance-by-hand",
		Text: "What a lathe stands nobody prints: balance by hand with the belt off, start at the lowest speed, stop at the first tremble.",
		Ref:  source.Practice(),
	}, {
		Code: "bolted-and-driven",
		Text: "Bolt the casting down in three places and drive it by a pin, a guard round it; turn it round once by hand with the" +
			" motor isolated, and stand out of its plane when it starts: a casting off its faceplate is what flies.",
		Ref: source.Practice(),
	}}
}
