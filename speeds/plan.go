package speeds

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// What [Job.Plan] and [Job.Check] find.
const (
	AboveLimit       finding.Code = "above-limit"           // Danger: something lets go, or the tool meets the shoulder
	ThreadUnderPower finding.Code = "thread-under-power"    // Danger: a thread for the hand, at a speed
	WorkDoesNotSwing finding.Code = "work-does-not-swing"   // Fails
	BladeTooShort    finding.Code = "blade-too-short"       // Fails
	MachineTooFast   finding.Code = "machine-too-fast"      // Fails: no step is slow enough for the edge
	SpeedLimited     finding.Code = "speed-limited"         // Caution: a limit holds the speed down; in threading a Note
	EdgeTooFast      finding.Code = "edge-too-fast"         // Caution
	PartingJams      finding.Code = "parting-jams"          // Caution
	ToolStandsOut    finding.Code = "tool-stands-out"       // Caution
	DeeperThanTable  finding.Code = "deeper-than-table"     // Caution
	DeepHoleSlower   finding.Code = "deep-hole-slower"      // Note
	NothingAtCentre  finding.Code = "nothing-at-the-centre" // Note
	SlowStep         finding.Code = "slow-step"             // Note
	NoMachine        finding.Code = "no-machine"            // Note
	ByHand           finding.Code = "by-hand"               // Note: a small thread or a die; there is no speed
)

// A Plan is what to set for a job; [Plan.Set] has the speed, where there is one.
type Plan struct {
	Range    Range                 // the cutting speed it aims for; without speeds for what is done by hand
	Min, Max units.RotationalSpeed // the spindle speeds that give that range at the diameter, whatever the limits
	Feed     float64               // factor on the feed for the depth of a hole; 1 elsewhere
	Choice   Choice                // the step to set; zero without a machine, and when none will do
	Limit    Limit                 // the lowest of the job, where it is below Max; zero elsewhere
	Speed    units.Speed           // the surface speed that the step gives; zero when there is none
	Findings finding.List          // the worst first
	Refs     source.Refs           // of the range, of what the depth of a hole takes off it, of the limit that holds
}

// Set returns the spindle speed to set, and whether there is one: there is none
// without a machine, for what is done by hand, where no step is slow enough and
// where a finding fails or endangers.
func (p Plan) Set() (n units.RotationalSpeed, ok bool) {
	if !p.Findings.OK() || p.Choice.Step.Speed == 0 {
		return 0, false
	}
	return p.Choice.Step.Speed, true
}

// Most returns the highest spindle speed that both the edge and the limits stand, on
// whatever machine; zero for what is done by hand. That of a limit is rounded down, to
// what the findings print of it.
func (p Plan) Most() units.RotationalSpeed {
	if p.Limit.Speed > 0 {
		return roundedDown(p.Limit.Speed)
	}
	return p.Max
}

// Plan works out the spindle speed for the job and looks for trouble: the
// machine that cannot run slowly enough, with the surface speed its slowest
// step would give and what to do instead; the step that is well below the
// range; limits; work that fouls the bed; a blade that does not reach; a slender
// bar; a deep hole. What will not work is a result with a finding, not an error:
// Findings.OK tells, and [Plan.Set] whether there is a speed. Errors are those of
// [Job.Validate] and [Recommend].
//
// The step chosen is the fastest that does not exceed the top of the range,
// nor a limit. Threading has limits of its own (common practice): taps up to 4 mm
// and dies are for the hand and have no speed, a larger tap runs up to 100 rev/min,
// a tool that is screwcutting up to 2 mm a second. See the Examples.
func (j Job) Plan() (Plan, error) {
	j.Tool = j.tool()
	if err := j.Validate(); err != nil {
		return Plan{}, err
	}
	if j.byHand() {
		return j.handPlan(), nil
	}
	r, err := j.speedRange()
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Range: r, Feed: 1, Refs: r.Refs}
	if j.Depth.Sign() > 0 && (j.Operation == Drilling || j.Operation == Reaming) {
		if err := j.deepen(&p); err != nil {
			return Plan{}, err
		}
	}
	if p.Min, err = SpindleSpeed(p.Range.Min, j.Diameter); err != nil {
		return Plan{}, err
	}
	if p.Max, err = SpindleSpeed(p.Range.Max, j.Diameter); err != nil {
		return Plan{}, err
	}
	j.fit(&p)
	if err := j.choose(&p); err != nil {
		return Plan{}, err
	}
	p.Findings.Sort()
	return p, nil
}

func (p *Plan) add(code finding.Code, s finding.Severity, refs source.Refs, text string, remedies ...string) {
	p.Findings = append(p.Findings, finding.Finding{Code: code, Severity: s, Text: text, Remedies: remedies, Refs: refs})
}

// deepen takes off speed and feed for the depth of the hole.
func (j Job) deepen(p *Plan) error {
	deep, err := DeepHoleFor(j.Depth, j.Diameter)
	beyond := errors.Is(err, units.ErrOutOfRange)
	if beyond {
		deep = deepest()
	} else if err != nil {
		return err
	}
	p.Range.Min *= units.Speed(deep.Speed)
	p.Range.Max *= units.Speed(deep.Speed)
	p.Feed = deep.Feed
	diameters := fmt.Sprintf("The hole is %.3g diameters deep", j.Depth.Ratio(j.Diameter))
	off := fmt.Sprintf("%.0f %% off the speed, %.0f %% off the feed", 100*(1-deep.Speed), 100*(1-deep.Feed))
	switch {
	case beyond:
		p.add(DeeperThanTable, finding.Caution, deep.Refs,
			diameters+", deeper than the table goes; with its last line, "+off+", the figures are still too fast.",
			j.clearing("Drill from both ends, or open it in stages with a stiff drill first.")...)
	case deep.Speed < 1:
		p.add(DeepHoleSlower, finding.Note, deep.Refs, diameters+": "+off+".", j.clearing()...)
	default:
		return nil
	}
	p.Refs = p.Refs.With(deep.Refs)
	return nil
}

// clearing returns how to get the chips out of a deep hole, after what else to
// do for a drill.
func (j Job) clearing(drill ...string) []string {
	if j.Operation == Reaming {
		return []string{"Bring the reamer out, still turning forwards, to clear the flutes."}
	}
	pecks, err := PecksFor(j.Depth, j.Diameter)
	if err != nil || len(pecks.Depths) > 8 {
		return append(drill, "Bring the drill out to clear the flutes, beyond six diameters every half diameter.")
	}
	var at []string
	for _, l := range pecks.Depths[:len(pecks.Depths)-1] {
		at = append(at, trim(l.Decimal(units.Millimetres, 1)))
	}
	return append(drill, fmt.Sprintf("Bring the drill out at %s mm deep, at its full diameter, to clear the flutes: "+
		"with a point of 118 degrees its tip is %s mm deeper.",
		strings.Join(at, ", "), trim(pecks.Tips[0].Sub(pecks.Depths[0]).Decimal(units.Millimetres, 1))))
}

// fit looks at what the sizes alone rule out.
func (j Job) fit(p *Plan) {
	practice := source.Of(source.Practice())
	radius := j.Diameter.Scale(0.5)
	if j.CentreHeight.Sign() > 0 && j.Operation.TurnsWork() && j.Operation != Boring && radius.Cmp(j.CentreHeight) > 0 {
		p.add(WorkDoesNotSwing, finding.Fails, source.Refs{},
			fmt.Sprintf("The work does not swing: its radius %s is more than the centre height %s.", both(radius), both(j.CentreHeight)),
			"Take a gap bed with the gap piece out, raising blocks, or a larger lathe.",
			"Turn it on a faceplate on the mill or a rotary table instead.")
	}
	if j.Operation == Parting {
		if j.Reach.Sign() > 0 && j.Reach.Cmp(radius) < 0 {
			p.add(BladeTooShort, finding.Fails, source.Refs{},
				fmt.Sprintf("The blade reaches %s and the radius is %s.", both(j.Reach), both(radius)),
				"Saw the bar and face the end.", "Take a longer and deeper blade, from the back, if the lathe is rigid enough.")
		}
		if j.Diameter.Cmp(units.MM(50)) > 0 {
			p.add(PartingJams, finding.Caution, practice,
				fmt.Sprintf("Parting %s on a small lathe jams more often than it succeeds.", both(j.Diameter)), "Saw the bar and face the end.")
		}
		p.add(NothingAtCentre, finding.Note, practice,
			"The surface speed falls to nothing at the centre: the last of the cut tears and the part drops.",
			"Leave a pip and saw it, or catch the part on a rod.")
	}
	if ratio := j.Overhang.Ratio(j.Section); ratio > 4 { // no number where neither is given
		p.add(ToolStandsOut, finding.Caution, practice,
			fmt.Sprintf("The tool stands out %.1f times its section: it will chatter.", ratio),
			"Halve the depth of cut and the speed and raise the feed.",
			"Take a stouter bar, or draw the tool back to four times its section.")
	}
}

// choose picks the step and says what is wrong with it.
func (j Job) choose(p *Plan) error {
	most := p.Max
	var lowest *Limit
	for _, l := range j.limits() {
		if lowest == nil || l.Speed < lowest.Speed {
			lowest = &l
		}
	}
	limited := false
	if lowest != nil && lowest.Speed < most {
		most, p.Limit = lowest.Speed, *lowest
		top := j.Machine.Fastest().Speed
		limited = top == 0 || top > most // else the machine does not get there
	}
	if limited {
		refs, severity := source.Of(lowest.Ref), finding.Caution
		if lowest.routine {
			severity = finding.Note
		}
		p.Refs = p.Refs.With(refs)
		p.add(SpeedLimited, severity, refs,
			fmt.Sprintf("Keep it not above %s: %s; the edge alone would stand %s.", limitText(lowest.Speed), lowest.Reason, rpm(p.Max)))
	}
	if len(j.Machine.steps) == 0 {
		text := "No machine was given: the spindle speeds are those that suit the edge, and no step was chosen."
		if p.Limit.Speed > 0 {
			text = "No machine was given, and no step was chosen: whatever the edge would stand, " + limitText(p.Limit.Speed) + " is the most."
		}
		p.add(NoMachine, finding.Note, source.Refs{}, text, "Give the spindle speeds of the machine.")
		return nil
	}
	choice, err := j.Machine.Choose(most)
	var fast *TooFastError
	switch {
	case errors.As(err, &fast):
		return j.refuse(p, fast.Slowest, lowest)
	case err != nil:
		return err
	}
	p.Choice = choice
	if p.Speed, err = CuttingSpeed(choice.Step.Speed, j.Diameter); err != nil {
		return err
	}
	slow := choice.Step.Speed+choice.Dial < p.Min*(1-1e-9) // what a dial rounds off is not slow
	if slow && !limited && j.Operation != Reaming {        // a reamer wants it slow
		j.slow(p, most)
	}
	return nil
}

// refuse says that no step is slow enough for the limit, if there is one, or for
// the edge.
func (j Job) refuse(p *Plan, slowest Step, limit *Limit) error {
	if limit != nil && slowest.Speed > limit.Speed {
		f := limit.exceeded(fmt.Sprintf("The machine does not run slowly enough: its slowest, %v, is", slowest))
		p.Findings = append(p.Findings, f)
		if slowest.Speed <= p.Max || limit.routine {
			return nil
		}
	}
	v, err := CuttingSpeed(slowest.Speed, j.Diameter)
	if err != nil {
		return err
	}
	p.add(MachineTooFast, finding.Fails, p.Range.Refs,
		fmt.Sprintf("The machine does not run slowly enough: at its slowest, %v, the edge meets %s at %s; %s with %v is for %s to %s, at most %s here.",
			slowest, both(j.Diameter), surface(v), j.Material, j.Tool, surface(p.Range.Min), surface(p.Range.Max), rpm(p.Max)),
		j.slower(slowest.Speed, v)...)
	return nil
}

// slow says that the step is below the range, and what to make of it.
func (j Job) slow(p *Plan, most units.RotationalSpeed) {
	step := "step"
	if p.Choice.Findings != nil {
		step = "machine's fastest step"
	}
	text := fmt.Sprintf("The %s gives %s, below the range: it does no harm and takes longer.", step, surface(p.Speed))
	var remedies []string
	switch {
	case j.Operation.Mills():
		remedies = []string{"Keep the feed per tooth, so that the table goes slower in proportion: a cutter that turns without cutting wears."}
	case j.Tool == Carbide:
		remedies = []string{"HSS gives the better finish at this speed."}
	case j.Operation.TurnsWork():
		remedies = []string{"A finer feed keeps the finish."}
	case j.Operation == Drilling && j.Diameter.Cmp(units.MM(3)) < 0:
		remedies = []string{"A small drill wants a light hand all the more when it turns slowly."}
	}
	if above := p.Choice.Above; above.Speed <= most*1.2 { // none has no cutting speed
		if v, err := CuttingSpeed(above.Speed, j.Diameter); err == nil {
			remedies = append(remedies, fmt.Sprintf("Perhaps %v, with a light cut and an eye on the edge: it gives %s, %.0f %% over.",
				above, surface(v), 100*(float64(above.Speed/most)-1)))
		}
	}
	p.add(SlowStep, finding.Note, p.Range.Refs, text, remedies...)
}

// slower returns what to do when the slowest step is too fast and gives the edge
// the speed v.
func (j Job) slower(slowest units.RotationalSpeed, v units.Speed) []string {
	remedies := []string{"Take back gear, a smaller driving pulley or a countershaft."}
	if j.Operation.TurnsWork() {
		remedies = append(remedies, "Isolate the motor and turn the spindle by a mandrel handle, for a short cut; take "+
			"the handle off before the power comes on again, or it flies.")
	}
	if j.Tool != Carbide {
		if r, err := Recommend(j.Operation, j.Material, Carbide); err == nil && r.Max >= v {
			remedies = append(remedies, fmt.Sprintf("Take carbide, which stands %s to %s, if the work runs true and is well held.", surface(r.Min), surface(r.Max)))
		}
	}
	switch j.Operation {
	case Turning, RoughTurning, Facing, Boring, Parting, Grooving:
		remedies = append(remedies, "A narrower tool, a lighter cut and a coarser feed spare the edge, not the speed: expect to sharpen it.")
		if d, err := j.LargestDiameter(slowest); err == nil {
			remedies = append(remedies, fmt.Sprintf("On this step do nothing over %s diameter.", both(d)))
		}
	case Tapping:
		remedies = append(remedies, "Isolate the motor, and turn the chuck by hand.")
	}
	if j.Material.Name == ironSkin {
		remedies = append(remedies, "Bore and face the hub here, up to that diameter, and take the rim to somebody whose lathe has back gear.")
	}
	return remedies
}
