package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A step is an engine.Operation worked out.
type step struct {
	entry     engine.Operation
	job       speeds.Job
	plan      speeds.Plan
	feed      speeds.Feed   // zero: fed by hand or by the pitch
	feedSpeed units.Speed   // zero without a spindle speed or a feed
	minutes   time.Duration // zero: not known
	passes    int
	remarks   []string // what is worth knowing, in sentences
	motor     []string // what the motor says of the cut; none when nothing is known

	precautions []finding.Precaution
}

// operationsPage says, part by part, what to set on the lathe and the mill, how
// long it takes and what to mind.
func operationsPage(in *input) (*page, error) {
	if len(in.File.Operations) == 0 {
		return nil, nil
	}
	var steps []*step
	var problems []error
	p := &page{}
	for i, entry := range in.File.Operations {
		s, findings, err := in.step(fmt.Sprintf("operations[%d]", i), entry)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		steps = append(steps, s)
		p.findings = append(p.findings, findings...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	var parts []string
	for _, s := range steps {
		data = append(data, s.data())
		if !slices.Contains(parts, s.entry.Part) {
			parts = append(parts, s.entry.Part)
		}
	}
	p.data = map[string]any{"operations": data}
	p.write = func(pr *printer) {
		pr.heading("MACHINING")
		pr.para("Spindle speed n = v / (pi d) at the diameter that governs, then the step of the machine at or below it; the feed is the one to start from, and the minutes are cutting time at it. The figures are to begin with on a light machine: let the sound, the chip and the edge say where to go. Advice (*) without a source behind it is common practice.")
		all := cautions(steps)
		if slices.ContainsFunc(all, func(c *caution) bool { return len(c.uses) > 1 }) {
			pr.blank()
			pr.line("for more than one part")
			for _, c := range all {
				if len(c.uses) > 1 {
					pr.hang("  * ", c.text+" For "+list(c.uses)+".")
				}
			}
		}
		for _, part := range parts {
			pr.blank()
			pr.line(part)
			writePart(pr, slices.DeleteFunc(slices.Clone(steps), func(s *step) bool { return s.entry.Part != part }), all)
		}
		pr.blank()
		pr.line("where the figures are from")
		for _, f := range origins(steps) {
			pr.hang("  - ", f.ref.String()+": "+strings.Join(f.figures, "; "))
		}
	}
	return p, nil
}

// step works one entry out.
func (in *input) step(key string, e engine.Operation) (*step, finding.List, error) {
	e.Part = strings.Join(strings.Fields(e.Part), " ")
	job, problems := in.job(key, e)
	if problems != nil {
		return nil, nil, problems
	}
	plan, err := job.Plan()
	if err != nil {
		return nil, nil, in.Errorf(key, "%v", err)
	}
	s := &step{entry: e, job: job, plan: plan, precautions: plan.Range.Precautions()}
	var findings finding.List
	tell := func(list finding.List) { findings = append(findings, list.At(e.Part+", "+e.Operation.String())...) }
	for _, f := range plan.Findings {
		if f.Severity > finding.Note {
			tell(finding.List{f})
		} else {
			s.remarks = append(s.remarks, sentences(f))
		}
	}
	if e.RunsAt != nil {
		rim, err := holding.CheckRim(*e.Diameter, *e.RunsAt)
		if err != nil {
			return nil, nil, in.Errorf(key+".runs_at", "%v", err)
		}
		s.precautions = append(s.precautions, rim.Precautions...)
		for _, f := range rim.Findings {
			if s.remarks = append(s.remarks, "In the engine: "+sentences(f)); f.Severity > finding.Note {
				tell(finding.List{f})
			}
		}
	}
	if err := in.drills(key, s, tell); err != nil {
		return nil, nil, err
	}
	if err := in.cut(key, s, tell); err != nil {
		return nil, nil, err
	}
	return s, findings, nil
}

// sentences returns a finding with its remedies, and with its sources where nobody
// has read them in a reviewed work.
func sentences(f finding.Finding) string {
	text := strings.Join(append([]string{f.Text}, f.Remedies...), " ")
	if f.Refs.Recalled() {
		text += " (" + f.Refs.String() + ")"
	}
	return text
}

// job returns what the entry asks, with every key that is missing or wrong.
func (in *input) job(key string, e engine.Operation) (speeds.Job, error) {
	const length = `a length with its unit above zero, such as "20 mm" or "3/4 in"`
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.Errorf(key+"."+field, format, args...))
	}
	if e.Part == "" {
		complain("part", `missing; accepted: the part's name, such as "flywheel"`)
	}
	if e.Operation == nil {
		complain("operation", `missing; accepted: an operation, such as "turning" or "drilling"`)
	}
	if e.Material == nil {
		complain("material", `missing; accepted: a material, such as "cast iron, skin on" or "gunmetal"`)
	}
	if e.Diameter == nil {
		complain("diameter", "missing; accepted: %s", length)
	}
	if e.On != "" && e.On != "lathe" && e.On != "mill" {
		complain("on", `%q; accepted: "lathe", "mill"`, e.On)
	}
	if e.Teeth < 0 || e.Teeth > 100 {
		complain("teeth", "%d; accepted: 1 to 100, or none", e.Teeth)
	}
	for _, l := range []struct {
		name  string
		value *units.Length
	}{{"diameter", e.Diameter}, {"length", e.Length}, {"depth", e.Depth}, {"cut", e.Cut}, {"stock", e.Stock}} {
		if l.value != nil && l.value.Sign() <= 0 {
			complain(l.name, "%v; accepted: %s", l.value, length)
		}
	}
	if e.Operation != nil {
		op := *e.Operation
		if e.Teeth != 0 && op != speeds.Milling {
			complain("teeth", "%d for %v; accepted: the teeth of a milling cutter", e.Teeth, op)
		}
		if e.On == "mill" && op.TurnsWork() && op != speeds.Boring {
			complain("on", `%q for %v, which turns the work; accepted: "lathe"`, e.On, op)
		}
		hole := op == speeds.Drilling || op == speeds.Reaming || op == speeds.Tapping
		if e.Depth != nil && !hole {
			complain("depth", "%v for %v; accepted: the depth of a hole that is drilled, reamed or tapped", e.Depth, op)
		}
		if e.Cut != nil && (hole || op == speeds.CentreDrilling || op == speeds.Countersinking) {
			complain("cut", "%v for %v; accepted: the depth of a cut that is turned or milled", e.Cut, op)
		}
	}
	turned := e.Operation != nil && e.Operation.TurnsWork()
	if turned && e.Cut != nil && e.Diameter != nil && e.Cut.Scale(2).Cmp(*e.Diameter) > 0 {
		complain("cut", "%v is more than the radius; accepted: a depth on the radius, up to %v", e.Cut, e.Diameter.Scale(0.5))
	}
	if e.Stock != nil && e.Cut == nil {
		complain("stock", "there is no cut to take it off in; accepted: stock and cut together")
	}
	if problems != nil {
		return speeds.Job{}, errors.Join(problems...)
	}
	j := speeds.Job{Operation: *e.Operation, Material: *e.Material, Diameter: *e.Diameter, Tool: speeds.HSS}
	if e.Tool != nil {
		j.Tool = *e.Tool
	}
	if e.Depth != nil {
		j.Depth = *e.Depth
	}
	if ladder, _ := in.spindle(e); ladder != nil {
		j.Machine = *ladder
	}
	lathe := in.File.Lathe
	if !onMill(e) {
		if lathe.CentreHeight != nil {
			j.CentreHeight = *lathe.CentreHeight
		}
		if lathe.ChuckSpeed != nil && j.Operation.TurnsWork() {
			limit, err := holding.MarkedChuck(*lathe.ChuckSpeed)
			if err != nil {
				return speeds.Job{}, in.Errorf("lathe.chuck_speed", "%v", err)
			}
			j.Limits = append(j.Limits, limit)
		}
	}
	return j, nil
}

func onMill(e engine.Operation) bool {
	return e.On == "mill" || e.On == "" && *e.Operation == speeds.Milling
}

// spindle returns the speeds and the motor of the machine that the operation is
// done on; either may be nil.
func (in *input) spindle(e engine.Operation) (*speeds.Ladder, *units.Power) {
	if onMill(e) {
		return in.File.Mill.Speeds, in.File.Mill.Motor
	}
	return in.File.Lathe.Speeds, in.File.Lathe.Motor
}

// drills looks into the drawer: for the drill itself, or for the one that goes
// before a reamer.
func (in *input) drills(key string, s *step, tell func(finding.List)) error {
	set := in.File.Drills.Set
	switch s.job.Operation {
	case speeds.Reaming:
		holes, err := hole.ReamingFor(s.job.Diameter, s.job.Material)
		if err != nil {
			return in.Errorf(key+".diameter", "%v", err)
		}
		first := holes[0]
		s.remarks = append(s.remarks, fmt.Sprintf("Drill %s to %s first (%v).",
			first.Min.Text(units.Millimetres, 2), first.Max.Text(units.Millimetres, 2), first.Refs.First()))
		if set == nil {
			return nil
		}
		mine, err := first.Drills(*set)
		if err != nil {
			return in.Errorf("drills.set", "%v", err)
		}
		tell(mine.Findings)
		if len(mine.Sizes) > 0 {
			s.remarks = append(s.remarks, "From the drawer: "+list(mine.Sizes)+".")
		}
	case speeds.Drilling:
		if set == nil || set.Len() == 0 {
			return nil
		}
		mine, err := hole.DrillsFor(s.job.Diameter, *set)
		if err != nil {
			return in.Errorf(key+".diameter", "%v", err)
		}
		tell(mine.Findings)
	}
	return nil
}

// list names things, with commas.
func list[T fmt.Stringer](all []T) string {
	var names []string
	for _, v := range all {
		names = append(names, v.String())
	}
	return strings.Join(names, ", ")
}

// cut works out feed, minutes and motor, as far as the entry says enough.
func (in *input) cut(key string, s *step, tell func(finding.List)) error {
	f, err := speeds.FeedFor(s.job.Operation, s.job.Material, s.job.Diameter)
	n := s.set()
	switch {
	case errors.Is(err, units.ErrUnknown): // by hand, by the pitch, or we have no figure
		return nil
	case err != nil:
		return in.Errorf(key+".diameter", "%v", err)
	}
	f.Min, f.Max = f.Min.Scale(s.plan.Feed), f.Max.Scale(s.plan.Feed)
	s.feed = f
	if n == 0 || f.PerTooth && s.entry.Teeth == 0 {
		return nil
	}
	s.feedSpeed, err = cutting.TableFeed(n, f.Min, max(s.entry.Teeth, 1))
	if err != nil {
		return in.Errorf(key+".teeth", "%v", err)
	}
	path, ok, err := s.path()
	if err != nil {
		return in.Errorf(key, "%v", err)
	}
	if ok {
		s.passes = max(path.Passes, 1)
		if s.minutes, err = path.Time(s.feedSpeed); err != nil {
			return in.Errorf(key, "%v", err)
		}
	}
	_, motor := in.spindle(s.entry)
	if motor == nil || s.entry.Cut == nil && s.job.Operation != speeds.Drilling || f.PerTooth {
		return nil
	}
	return in.motor(key, s, *motor, tell)
}

// path returns the way of the tool, if the entry gives enough to know it.
func (s *step) path() (cutting.Path, bool, error) {
	p := cutting.Path{Approach: units.MM(2)} // a hand's caution
	switch op := s.job.Operation; {
	case s.entry.Length != nil:
		p.Length = *s.entry.Length
	case op == speeds.Facing || op == speeds.Parting:
		p.Length = s.job.Diameter.Scale(0.5)
	case op == speeds.Drilling && s.entry.Depth != nil:
		p.Length = *s.entry.Depth
	default:
		return p, false, nil
	}
	var err error
	switch s.job.Operation {
	case speeds.Drilling:
		p.Approach, err = cutting.PointLength(s.job.Diameter, cutting.UsualPoint)
	case speeds.Milling:
		p.Approach = s.job.Diameter.Scale(0.5)
	}
	if err == nil && s.entry.Stock != nil {
		p.Passes, _, err = cutting.Passes(*s.entry.Stock, *s.entry.Cut)
	}
	return p, true, err
}

// motor compares the cut with the motor of the machine.
func (in *input) motor(key string, s *step, motor units.Power, tell func(finding.List)) error {
	k, err := cutting.KienzleFor(s.job.Material)
	if err != nil {
		return nil // no figure for the force in this material: nothing is said
	}
	n := s.set()
	var load cutting.Load
	if s.job.Operation == speeds.Drilling {
		load, err = cutting.DrillingLoad(k, s.job.Diameter, s.feed.Min, cutting.UsualPoint, n)
	} else {
		load, err = cutting.TurningLoad(k, s.job.Diameter, *s.entry.Cut, s.feed.Min, 90*units.Degree, n)
	}
	if err != nil {
		return in.Errorf(key+".cut", "%v", err)
	}
	check, err := cutting.CheckMotor(load, motor, cutting.BeltDrive)
	if err != nil {
		return in.Errorf(key, "%v", err)
	}
	for _, f := range check.Findings {
		if s.motor = append(s.motor, f.Text); f.Severity > finding.Note {
			tell(finding.List{f})
		}
	}
	return nil
}
