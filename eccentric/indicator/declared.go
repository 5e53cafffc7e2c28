package indicator

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// CheckPressure compares the pressures of the engine with what its cylinder is
// declared for, above the atmosphere: by its maker or by whoever tested it, with water
// and under the rules of the place. More is AboveDeclared, in the chest or in a
// cylinder whose compression goes up so far. Zero is a cylinder of which nothing was
// declared, which is NotDeclared. It fails where [Running.Validate] does or the
// declared pressure is below zero. See the Example.
func (r Running) CheckPressure(declared units.Pressure) (finding.List, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	if !(declared >= 0 && !math.IsInf(float64(declared), 0)) {
		return nil, fail.OutOfRange("pressure that the cylinder is declared for", declared, "above zero, or none")
	}
	m := r.model()
	c := checker{r: &r, m: m, cycle: m.cycle()}
	if declared == 0 {
		c.tell(finding.Finding{
			Code: NotDeclared, Severity: finding.Note, Where: "cylinder", Refs: source.Of(practice),
			Text: "Nobody has said what pressure the cylinder is for, so that nothing here can say whether " + c.both(r.Absolute(r.Chest)) +
				" is too much for it.",
			Remedies: []string{"State what its maker, or whoever tested it with water under the rules of the place, declared."},
		})
		return c.list, nil
	}
	if r.Chest > declared {
		c.tell(finding.Finding{
			Code: AboveDeclared, Severity: finding.Danger, Where: "cylinder", Refs: source.Of(practice),
			Text: fmt.Sprintf("The chest has %s, and the cylinder is declared for %s: it, its covers or its studs may let go.",
				c.both(r.Absolute(r.Chest)), c.both(r.Absolute(declared))),
			Remedies: []string{
				"Do not run it so. Keep the pressure to what the cylinder is declared for, with a safety valve that is set to it.",
			},
		})
	}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		e := c.cycle.At(end)
		if e.Highest <= r.Absolute(max(r.Chest, declared))*(1+nothing) {
			continue
		}
		c.tell(finding.Finding{
			Code: AboveDeclared, Severity: finding.Danger, Where: place(kernel.End(end)), Refs: source.Of(practice),
			Text: fmt.Sprintf("Compression goes up to %s, and the cylinder is declared for %s. A slide valve may lift before that; nothing"+
				" says that it does.", c.both(e.Highest), c.both(r.Absolute(declared))),
			Remedies: []string{
				"Do not run it so. Let it shut later, by less exhaust lap, or give it more clearance.", "Fit a relief valve to that end.",
			},
		})
	}
	c.list.Sort()
	return c.list, nil
}

// What [Precautions] are of.
const (
	LicensedSteam finding.Code = "licensed-steam"
	WaterTestOnly finding.Code = "water-test-only"
	KeepClear     finding.Code = "keep-clear"
	DrainFirst    finding.Code = "drain-first"
)

// Precautions returns what to mind before an engine runs, on air and on steam: common
// practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{
		{Code: LicensedSteam, Ref: practice, Text: "Steam comes from a boiler that is tested and certified by the rules of the place, with its" +
			" safety valve set; those rules, your insurer and a licensed or club inspector come before any figure here."},
		{Code: WaterTestOnly, Ref: practice, Text: "Compressed air turns an engine over; it never tests one. A cylinder, a chest or a receiver is" +
			" proved with cold water, all air let out: what bursts full of air throws pieces."},
		{Code: KeepClear, Ref: practice, Text: "Stand clear of flywheel, crank and sleeves' reach, out of the plane of the wheel, and open the stop" +
			" valve slowly from a regulator that is set to the stated pressure: an engine starts by itself."},
		{Code: DrainFirst, Ref: practice, Text: "Before steam open the drain cocks and turn by hand until no water comes. Drain the oil that a run" +
			" on air left."},
	}
}
