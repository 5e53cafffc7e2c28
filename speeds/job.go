package speeds

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Job is one operation on one part, on the machine that is there.
type Job struct {
	Operation Operation
	Material  Material
	Tool      Tool         `json:",omitzero"` // zero: HSS
	Diameter  units.Length // the one that governs: see [Operation.GoverningDiameter]
	Machine   Ladder       // its spindle speeds; the zero value asks for the exact speed only

	// Low and High replace the published range, when the builder knows better.
	Low, High units.Speed

	// What is zero is not looked at; Overhang and Section go together.
	Depth        units.Length // of a drilled or reamed hole
	Overhang     units.Length // of a boring bar or tool from its support
	Section      units.Length // height of that bar or tool
	CentreHeight units.Length // of the lathe over its bed or slide
	Reach        units.Length // of a parting blade
	Limits       []Limit      // speeds that the work or its holding must not exceed
}

// A Limit is a speed that must not be exceeded, and why.
type Limit struct {
	Speed  units.RotationalSpeed
	Reason string // "the chuck is marked 2500 rev/min"
	Ref    source.Ref
}

// A Severity says how much a finding matters.
type Severity int

// The severities, from the least.
const (
	Note    Severity = iota + 1 // worth knowing
	Warning                     // the work or the tool will suffer
	Stop                        // do not do it this way
)

var severityNames = names.Set{Package: "speeds", Type: "Severity", Field: "severity", Texts: []string{"", "note", "warning", "stop"}}

// String returns "note", "warning" or "stop".
func (s Severity) String() string { return severityNames.Text(int(s)) }

// MarshalText implements [encoding.TextMarshaler].
func (s Severity) MarshalText() ([]byte, error) {
	return severityNames.Marshal(int(s))
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Severity) UnmarshalText(text []byte) error {
	i, err := severityNames.Value(string(text))
	if err == nil {
		*s = Severity(i)
	}
	return err
}

// A Finding is something wrong with a job, or worth knowing, with what puts it
// right.
type Finding struct {
	Severity Severity
	Text     string
	Remedies []string
	Ref      source.Ref // zero: arithmetic
}

// String returns the severity, the text, the remedies and the source in one
// line.
func (f Finding) String() string {
	text := f.Severity.String() + ": " + f.Text
	if len(f.Remedies) > 0 {
		text += "; remedies: " + strings.Join(f.Remedies, "; ")
	}
	if f.Ref != (source.Ref{}) {
		text += " (" + f.Ref.String() + ")"
	}
	return text
}

// A Plan is what to set for a job.
type Plan struct {
	Range     Range                 // the cutting speed it aims for
	Low, High units.RotationalSpeed // the spindle speeds that give that range at the diameter, whatever the limits
	Feed      float64               // factor on the feed for the depth of a hole; 1 elsewhere
	Choice    Choice                // the step to set; zero without a machine, and when none will do
	Speed     units.Speed           // the surface speed that the step gives; zero when there is none
	Findings  []Finding             // the gravest first
}

// OK reports whether there is a speed to set and nothing forbids it.
func (p Plan) OK() bool {
	for _, f := range p.Findings {
		if f.Severity == Stop {
			return false
		}
	}
	return true
}

// Plan works out the spindle speed for the job and looks for trouble: the
// machine that cannot run slowly enough, with the surface speed its slowest
// step would give and what to do instead; the step that is well below the
// range; limits; work that fouls the bed; a blade that does not reach; a slender
// bar; a deep hole. Stop findings are results, not errors: an error is an
// argument that makes no sense ([*units.ArgumentError]).
//
// The step chosen is the fastest that does not exceed the top of the range,
// nor a limit.
func (j Job) Plan() (Plan, error) {
	if j.Tool == 0 {
		j.Tool = HSS
	}
	if err := j.check(); err != nil {
		return Plan{}, err
	}
	p := Plan{Feed: 1}
	r, err := j.speedRange()
	if err != nil {
		return Plan{}, err
	}
	if j.Depth.Sign() > 0 && (j.Operation == Drilling || j.Operation == Reaming) {
		deep, err := DeepHoleFactors(j.Depth, j.Diameter)
		beyond := errors.Is(err, units.ErrOutOfRange)
		if beyond {
			deep = deepest()
		} else if err != nil {
			return Plan{}, err
		}
		r.Low *= units.Speed(deep.Speed)
		r.High *= units.Speed(deep.Speed)
		p.Feed = deep.Feed
		diameters := fmt.Sprintf("the hole is %.3g diameters deep", j.Depth.Ratio(j.Diameter))
		off := fmt.Sprintf("%.0f %% off the speed, %.0f %% off the feed", 100*(1-deep.Speed), 100*(1-deep.Feed))
		switch {
		case beyond:
			p.add(Warning, deep.Ref, diameters+", deeper than the table goes; with its last line, "+off+", the figures are still too fast", j.clearing("drill from both ends, or open it in stages with a stiff drill first")...)
		case deep.Speed < 1:
			p.add(Note, deep.Ref, diameters+": "+off, j.clearing()...)
		}
	}
	p.Range = r
	if p.Low, err = SpindleSpeed(r.Low, j.Diameter); err != nil {
		return Plan{}, err
	}
	if p.High, err = SpindleSpeed(r.High, j.Diameter); err != nil {
		return Plan{}, err
	}
	j.fit(&p)
	if err := j.set(&p); err != nil {
		return Plan{}, err
	}
	p.sort()
	return p, nil
}

// clearing returns how to get the chips out of a deep hole, after what else to
// do for a drill.
func (j Job) clearing(drill ...string) []string {
	if j.Operation == Reaming {
		return []string{"bring the reamer out, still turning forwards, to clear the flutes"}
	}
	pecks, err := Pecks(j.Depth, j.Diameter)
	if err != nil || len(pecks) > 8 {
		return append(drill, "bring the drill out to clear the flutes, beyond six diameters every half diameter")
	}
	var at []string
	for _, l := range pecks[:len(pecks)-1] {
		at = append(at, trim(l.Decimal(units.Millimetres, 1)))
	}
	return append(drill, "bring the drill out at "+strings.Join(at, ", ")+" mm deep to clear the flutes")
}

func (j Job) check() error {
	if j.Diameter.Sign() <= 0 {
		return badDiameter(j.Diameter)
	}
	for _, l := range []struct {
		field string
		value units.Length
	}{{"depth", j.Depth}, {"overhang", j.Overhang}, {"section", j.Section}, {"centre height", j.CentreHeight}, {"reach", j.Reach}} {
		if l.value.Sign() < 0 {
			return bad(l.field, l.value.String(), "", "above zero, or zero when it is not looked at", units.ErrOutOfRange)
		}
	}
	if j.Overhang.IsZero() != j.Section.IsZero() {
		return bad("overhang and section", j.Overhang.String()+", "+j.Section.String(), "one says nothing without the other", "both, or neither", units.ErrMissing)
	}
	return nil
}

func (j Job) speedRange() (Range, error) {
	if j.Low == 0 && j.High == 0 {
		return Recommend(j.Operation, j.Material, j.Tool)
	}
	if err := checkPairing(j.Operation, j.Material, j.Tool); err != nil {
		return Range{}, err
	}
	if err := positive("cutting speed", j.Low); err != nil {
		return Range{}, err
	}
	if err := positive("cutting speed", j.High); err != nil {
		return Range{}, err
	}
	if j.High < j.Low {
		return Range{}, bad("cutting speed", fmt.Sprintf("%v to %v", j.Low, j.High), "", "the lower figure first", units.ErrOutOfRange)
	}
	return Range{
		Operation: j.Operation, Material: j.Material, Tool: j.Tool, Low: j.Low, High: j.High,
		Basis: "as given",
	}, nil
}

// fit looks at what the sizes alone rule out.
func (j Job) fit(p *Plan) {
	radius := j.Diameter.Scale(0.5)
	if j.CentreHeight.Sign() > 0 && j.Operation.TurnsWork() && j.Operation != Boring && radius.Cmp(j.CentreHeight) > 0 {
		p.add(Stop, source.Ref{}, fmt.Sprintf("the work does not swing: its radius %s is more than the centre height %s", both(radius), both(j.CentreHeight)),
			"a gap bed with the gap piece out, raising blocks, or a larger lathe", "turn it on a faceplate on the mill or a rotary table instead")
	}
	if j.Operation == Parting {
		p.add(Note, source.Ref{Kind: source.CommonPractice}, "the surface speed falls to nothing at the centre: the last of the cut tears and the part drops", "leave a pip and saw it, or catch the part on a rod")
		if j.Reach.Sign() > 0 && j.Reach.Cmp(radius) < 0 {
			p.add(Stop, source.Ref{}, fmt.Sprintf("the blade reaches %s and the radius is %s", both(j.Reach), both(radius)), "saw the bar and face the end", "a longer and deeper blade, from the back, if the lathe is rigid enough")
		}
		if j.Diameter.Cmp(units.MM(50)) > 0 {
			p.add(Warning, source.Ref{Kind: source.CommonPractice}, fmt.Sprintf("parting %s on a small lathe jams more often than it succeeds", both(j.Diameter)), "saw the bar and face the end")
		}
	}
	if j.Overhang.Sign() > 0 && j.Section.Sign() > 0 {
		if ratio := j.Overhang.Ratio(j.Section); ratio > 4 {
			p.add(Warning, source.Ref{Kind: source.CommonPractice}, fmt.Sprintf("the tool stands out %.1f times its section: it will chatter", ratio), "halve the depth of cut and the speed and raise the feed", "a stouter bar, or the tool drawn back to four times its section")
		}
	}
}

// set picks the step and says what is wrong with it.
func (j Job) set(p *Plan) error {
	most := p.High
	var limit *Limit
	for i, l := range j.Limits {
		if err := positive("speed limit", l.Speed); err != nil {
			return err
		}
		if l.Speed < most {
			most, limit = l.Speed, &j.Limits[i]
		}
	}
	if limit != nil {
		p.add(Warning, limit.Ref, fmt.Sprintf("not above %s: %s; the edge alone would stand %s", rpm(limit.Speed), limit.Reason, rpm(p.High)))
	}
	if len(j.Machine.steps) == 0 {
		return nil
	}
	choice, err := j.Machine.Choose(most)
	var fast *TooFastError
	switch {
	case errors.As(err, &fast):
		v, err := CuttingSpeed(fast.Slowest.Speed, j.Diameter)
		if err != nil {
			return err
		}
		if limit != nil && fast.Slowest.Speed <= p.High {
			p.add(Stop, limit.Ref, fmt.Sprintf("the machine does not run slowly enough: its slowest, %v, is above the limit", fast.Slowest),
				"back gear, a smaller driving pulley or a countershaft", "take away the cause: balance the work, or hold it in something that stands the speed")
			return nil
		}
		p.add(Stop, p.Range.Published.Ref, fmt.Sprintf("the machine does not run slowly enough: at its slowest, %v, the edge meets %s at %s; %s with %v is for %s to %s, at most %s here",
			fast.Slowest, both(j.Diameter), surface(v), j.Material, j.Tool, surface(p.Range.Low), surface(p.Range.High), rpm(most)), j.slower(fast.Slowest.Speed)...)
		return nil
	case err != nil:
		return err
	}
	p.Choice = choice
	if p.Speed, err = CuttingSpeed(choice.Step.Speed, j.Diameter); err != nil {
		return err
	}
	if choice.Step.Speed < p.Low*(1-1e-9) && limit == nil {
		text := fmt.Sprintf("the step gives %s, below the range: it does no harm and takes longer", surface(p.Speed))
		if choice.AtTop {
			text = fmt.Sprintf("the machine's fastest step gives %s, below the range: it does no harm and takes longer", surface(p.Speed))
		}
		var remedies []string
		switch {
		case j.Tool == Carbide:
			remedies = []string{"HSS gives the better finish at this speed"}
		case j.Operation.TurnsWork():
			remedies = []string{"a finer feed keeps the finish"}
		case j.Operation == Drilling && j.Diameter.Cmp(units.MM(3)) < 0:
			remedies = []string{"a small drill wants a light hand all the more when it turns slowly"}
		}
		if choice.Above.Speed > 0 {
			if v, err := CuttingSpeed(choice.Above.Speed, j.Diameter); err == nil && choice.Above.Speed <= most*1.2 {
				remedies = append(remedies, fmt.Sprintf("%v gives %s, %.0f %% over: with a light cut and an eye on the edge, perhaps", choice.Above, surface(v), 100*(float64(choice.Above.Speed/most)-1)))
			}
		}
		p.add(Note, source.Ref{}, text, remedies...)
	}
	return nil
}

// slower returns what to do when the slowest step is too fast.
func (j Job) slower(slowest units.RotationalSpeed) []string {
	remedies := []string{"back gear, a smaller driving pulley or a countershaft"}
	if j.Operation.TurnsWork() {
		remedies = append(remedies, "turn the spindle by hand with a mandrel handle, for a short cut")
	}
	if v, err := CuttingSpeed(slowest, j.Diameter); err == nil && j.Tool != Carbide {
		if r, err := Recommend(j.Operation, j.Material, Carbide); err == nil && r.High >= v {
			remedies = append(remedies, fmt.Sprintf("carbide, which stands %s to %s, if the work runs true and is well held", surface(r.Low), surface(r.High)))
		}
	}
	switch j.Operation {
	case Turning, RoughTurning, Facing, Boring, Parting, Grooving:
		remedies = append(remedies, "a narrower tool, a lighter cut and a coarser feed spare the edge, not the speed: expect to sharpen it")
		if r, err := j.LargestDiameter(slowest); err == nil {
			remedies = append(remedies, fmt.Sprintf("on this step nothing over %s diameter", both(r)))
		}
	case Tapping, DieCutting:
		remedies = append(remedies, "motor off, and turn the chuck by hand")
	}
	if j.Material == CastIronSkin {
		remedies = append(remedies, "bore and face the hub here, up to that diameter, and take the rim to somebody whose lathe has back gear")
	}
	return remedies
}

// LargestDiameter returns the largest diameter that a spindle speed suits
// for the job: where it reaches the top of the range.
//
//	d = v / (pi n)
//
// d is the diameter, v the top of the range, n the spindle speed. Errors are
// those of [Recommend], and a speed that is not above zero.
func (j Job) LargestDiameter(n units.RotationalSpeed) (units.Length, error) {
	if j.Tool == 0 {
		j.Tool = HSS
	}
	if err := positive("spindle speed", n); err != nil {
		return units.Length{}, err
	}
	r, err := j.speedRange()
	if err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(2000 * float64(r.High) / float64(n))
}

func (p *Plan) add(s Severity, ref source.Ref, text string, remedies ...string) {
	p.Findings = append(p.Findings, Finding{s, text, remedies, ref})
}

// sort puts the gravest findings first and keeps the order among equals.
func (p *Plan) sort() {
	var all []Finding
	for s := Stop; s >= Note; s-- {
		for _, f := range p.Findings {
			if f.Severity == s {
				all = append(all, f)
			}
		}
	}
	p.Findings = all
}

// both returns a length in millimetres and inches as the bench wants it.
func both(l units.Length) string {
	return trim(l.Decimal(units.Millimetres, 2)) + " mm (" + trim(l.Decimal(units.Inches, 3)) + " in)"
}

func trim(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func surface(v units.Speed) string {
	return fmt.Sprintf("%s m/min (%.0f ft/min)", trim(fmt.Sprintf("%.1f", float64(v/units.MetrePerMinute))), float64(v/units.FootPerMinute))
}

func rpm(n units.RotationalSpeed) string {
	v := float64(n / units.RevPerMinute)
	if v < 100 {
		return trim(fmt.Sprintf("%.1f", v)) + " rev/min"
	}
	return fmt.Sprintf("%.0f rev/min", math.Floor(v+0.5))
}
