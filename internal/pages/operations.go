package pages

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// Operations is the page of the engine book that says, part by part, what to set
// on the lathe and the mill, how long it takes and what to mind.
func Operations(e *engine.Engine) (*Page, error) {
	if len(e.Operations) == 0 {
		return nil, nil
	}
	var steps []*step
	var problems []error
	p := &Page{}
	for i := range e.Operations {
		if err := e.ValidateOperation(i); err != nil {
			problems = append(problems, err)
			continue
		}
		s, err := stepOf(e, i)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		steps = append(steps, s)
	}
	if err := errors.Join(problems...); err != nil {
		return nil, err
	}
	section := book.Section{Key: "operations", Title: "MACHINING", List: true,
		Intro: []string{"Spindle speed n = v / (pi d) at the diameter that governs, then the step of the machine at or" +
			" below it; the feed is the one to start from, and the minutes are cutting time at it. The figures are to" +
			" begin with on a light machine: let the sound, the chip and the edge say where to go."}}
	advice := adviceOf(steps)
	for _, s := range steps {
		section.Items = append(section.Items, s.item(advice))
		p.Precautions = addPrecautions(p.Precautions, s.precautions)
	}
	p.Sections = []book.Section{section}
	if shared := sharedAdvice(advice); len(shared.Items) > 0 {
		p.Sections = append(p.Sections, shared)
	}
	return p, nil
}

// A step is an operation worked out.
type step struct {
	entry       engine.Operation
	job         speeds.Job
	plan        speeds.Plan
	values      []book.Value // of the feed, the drills and the load
	feedSpeed   units.Speed  // zero without a spindle speed or a feed
	minutes     time.Duration
	passes      int
	remarks     []book.Note
	findings    finding.List
	precautions []finding.Precaution
}

// stepOf works one operation out.
func stepOf(e *engine.Engine, i int) (*step, error) {
	entry, key := e.Operations[i], fmt.Sprintf("operations[%d]", i)
	entry.Part = strings.Join(strings.Fields(entry.Part), " ")
	job, err := jobOf(e, entry)
	if err != nil {
		return nil, err
	}
	plan, err := job.Plan()
	if err != nil {
		return nil, e.Errorf(key, "%v", err)
	}
	s := &step{entry: entry, job: job, plan: plan, precautions: plan.Range.Precautions()}
	if err := judge(&s.plan, s.tool()); err != nil {
		return nil, e.Errorf(key+".diameter", "%v", err)
	}
	s.tell(s.plan.Findings, "")
	if s.remarks, err = addNotes(s.remarks, plan.Range); err != nil {
		return nil, e.Errorf(key, "%v", err)
	}
	if entry.RunsAt != nil {
		rimmed, turned := e.Rim(i)
		if !turned {
			return nil, e.Errorf(key+".runs_at", "%v, and nothing turns or faces the rim of the part; accepted: with an operation"+
				" on the same part that does, whose diameter is that of the wheel", entry.RunsAt)
		}
		wheel := e.Operations[rimmed]
		rim, err := holding.CheckRim(*wheel.Material, *wheel.Diameter, *entry.RunsAt)
		if err != nil {
			return nil, e.Errorf(key+".runs_at", "%v", err)
		}
		s.precautions = append(s.precautions, rim.Precautions...)
		s.tell(rim.Findings, "In the engine: ")
	}
	if err := s.drills(e, key); err != nil {
		return nil, err
	}
	return s, s.cut(e, key)
}

// addNotes adds what other sources give.
func addNotes(notes []book.Note, r speeds.Range) ([]book.Note, error) {
	others, err := differing(r)
	return append(notes, others...), err
}

// tell files what is more than worth knowing as findings of the book, and the
// rest as remarks on the operation.
func (s *step) tell(list finding.List, before string) {
	for _, f := range list {
		if f.Severity > finding.Note {
			s.findings = append(s.findings, finding.List{f}.At(s.where())...)
			continue
		}
		text := strings.Join(append([]string{f.Text}, f.Remedies...), " ")
		s.remarks = append(s.remarks, book.Note{Text: before + text, Refs: f.Refs})
	}
}

func (s *step) where() string { return s.entry.Part + ", " + s.job.Operation.String() }

// drills looks into the drawer: for the drill itself, or for the one that goes
// before a reamer.
func (s *step) drills(e *engine.Engine, key string) error {
	set := e.Drills.Set
	switch {
	case s.job.Operation == speeds.Reaming:
		holes, err := hole.ReamingFor(s.job.Diameter, s.job.Material)
		if err != nil {
			return e.Errorf(key+".diameter", "%v", err)
		}
		var drawer gauge.Set
		if set != nil {
			drawer = *set
		}
		values, _, err := drillFirst(holes[0], drawer)
		if err != nil {
			return e.Errorf("drills.set", "%v", err)
		}
		take, findings, err := takeFirst(s.job.Diameter, s.job.Material, drawer)
		if err != nil {
			return e.Errorf("drills.set", "%v", err)
		}
		s.values = append(append(s.values, take), values...)
		s.findings = append(s.findings, findings.At(s.where())...)
	case s.job.Operation == speeds.Drilling:
		tip, err := drilledTo(s.job)
		if err != nil {
			return e.Errorf(key+".depth", "%v", err)
		}
		s.values = append(s.values, tip...)
		if set == nil || set.Len() == 0 {
			return nil
		}
		mine, err := hole.DrillsFor(s.job.Diameter, *set)
		if err != nil {
			return e.Errorf(key+".diameter", "%v", err)
		}
		s.findings = append(s.findings, mine.Findings.At(s.where())...)
	}
	return nil
}

// set returns the spindle speed to set, zero without a machine and for what is
// refused.
func (s *step) set() units.RotationalSpeed {
	n, _ := s.plan.Set()
	return n
}

// sets returns the spindle speed to set, the most that suits where there is no machine,
// and zero for what is refused.
func (s *step) sets() units.RotationalSpeed {
	if s.job.Machine.Slowest().Speed == 0 && s.plan.Findings.OK() {
		return s.plan.Most()
	}
	return s.set()
}

// tool is the tool and its way, as far as the entry says it.
func (s *step) tool() cutting.Cut {
	given := func(l *units.Length) units.Length {
		if l == nil {
			return units.Length{}
		}
		return *l
	}
	return cutting.Cut{
		Operation: s.job.Operation, Material: s.job.Material, Diameter: s.job.Diameter, Teeth: s.entry.Teeth,
		Length: given(s.entry.Length), Width: given(s.entry.Width), Depth: given(s.entry.Depth),
		Deep: given(s.entry.Cut), Stock: given(s.entry.Stock),
	}
}

// cut works out feed, minutes and motor, as far as the entry says enough.
func (s *step) cut(e *engine.Engine, key string) error {
	f, values, err := feedOf(s.job, s.plan)
	if err != nil {
		return e.Errorf(key+".diameter", "%v", err)
	}
	s.values = append(s.values, values...)
	if n := s.sets(); s.job.Operation == speeds.Screwcutting && n > 0 {
		along, err := alongThread(s.job, n, s.entry.Length)
		if err != nil {
			return e.Errorf(key+".pitch", "%v", err)
		}
		s.values = append(s.values, along...)
	}
	cut := s.tool()
	cut.Feed, cut.Spindle = f, s.set()
	if cut.Operation == speeds.SlotMilling {
		var drawer gauge.Set
		if e.Drills.Set != nil {
			drawer = *e.Drills.Set
		}
		slot, err := slotOf(cut, drawer)
		if err != nil {
			return e.Errorf(key+".diameter", "%v", err)
		}
		s.values = append(s.values, slot...)
	}
	if f.Note != "" {
		s.remarks = append(s.remarks, book.Note{Text: "Feed: " + f.Note + "."})
	}
	if err := s.eachTooth(cut); err != nil {
		return e.Errorf(key+".teeth", "%v", err)
	}
	if f.Min.IsZero() || s.set() == 0 || f.PerTooth && s.entry.Teeth == 0 {
		return nil
	}
	if s.feedSpeed, err = cut.FeedSpeed(); err != nil {
		return e.Errorf(key+".teeth", "%v", err)
	}
	path, err := cut.Path()
	if err == nil {
		s.passes = max(path.Passes, 1)
		s.minutes, err = path.Time(s.feedSpeed)
	}
	if err != nil && !errors.Is(err, units.ErrMissing) {
		return e.Errorf(key, "%v", err)
	}
	_, motor := machineOf(e, s.entry)
	if motor == nil || s.entry.Cut == nil && s.job.Operation != speeds.Drilling {
		return nil
	}
	load, err := cut.Load()
	switch {
	case errors.Is(err, units.ErrUnknown) && cut.Operation.Mills(): // no method
		return nil
	case errors.Is(err, units.ErrUnknown):
		s.remarks = append(s.remarks, noForce(cut))
		return nil
	case err != nil:
		return e.Errorf(key+".cut", "%v", err)
	}
	check, err := cutting.CheckMotor(load, *motor, cutting.BeltDrive)
	if err != nil {
		return e.Errorf(key, "%v", err)
	}
	s.values = append(s.values, loadOf(load, check)...)
	s.tell(check.Findings, "")
	return nil
}

// eachTooth adds how fast the table moves where the speed of the spindle is known and
// the teeth of the cutter are not, and where there is no machine, at the most that suits.
func (s *step) eachTooth(cut cutting.Cut) error {
	remark := ""
	if !cut.Operation.Mills() || cut.Feed.Min.IsZero() || !s.plan.Findings.OK() {
		return nil
	}
	switch {
	case cut.Spindle == 0:
		cut.Spindle = s.sets()
		remark = "at " + figures(cut.Spindle.In(units.RevPerMinute), 4) + " rev/min"
	case !cut.Feed.PerTooth || cut.Teeth > 0: // told with the time
		return nil
	}
	v, err := tableFeed(cut, remark)
	s.values = append(s.values, v...)
	return err
}

// item is what the book has of an operation.
func (s *step) item(advice []*advised) book.Item {
	r, op := s.plan.Range, s.job.Operation
	wanted := "" // the machine has its own
	if s.job.Machine.Slowest().Speed == 0 {
		wanted = wantedLabel(s.plan)
	}
	i := book.Item{
		Title: fmt.Sprintf("%s: %v %s (%s), %v with %v", s.entry.Part, op,
			s.job.Diameter.Text(units.Millimetres, 3), s.job.Diameter.Text(units.Inches, 4), s.job.Material, s.job.Tool),
		Values: []book.Value{
			{Key: "part", What: book.Word(s.entry.Part)},
			{Key: "operation", What: book.Word(op.String())},
			{Key: "material", What: book.Word(s.job.Material.String())},
			{Key: "tool", What: book.Word(s.job.Tool.String())},
			{Key: "diameter", What: book.Length(s.job.Diameter, 3)},
		},
		Notes:    s.remarks,
		Findings: s.findings,
	}
	if !forHand(s.plan) {
		most := figures(s.plan.Max.In(units.RevPerMinute), 4)
		i.Formulas = []book.Formula{{
			Text: fmt.Sprintf("n = 1000 x %s / (pi x %s) = %s rev/min at most",
				figures(r.Max.In(units.MetrePerMinute), 4), figures(s.job.Diameter.MM(), 4), most),
			Inch: fmt.Sprintf("n = 12 x %s / (pi x %s) = %s rev/min at most",
				figures(r.Max.In(units.FootPerMinute), 4), figures(s.job.Diameter.In(units.Inches), 5), most),
		}}
	}
	i.Values = append(i.Values, spindleSetting(s.job, s.plan)...)
	i.Values = append(i.Values, s.values...)
	switch {
	case s.minutes > 0:
		remark := fmt.Sprintf("at %.1f mm/min, %.2f in/min", s.feedSpeed.In(units.MillimetrePerMinute), s.feedSpeed.In(units.InchPerMinute))
		if s.passes > 1 {
			remark += fmt.Sprintf(", %d cuts", s.passes)
		}
		i.Values = append(i.Values,
			book.Value{Key: "minutes", Label: "cutting time", Remark: remark,
				What: book.Number(s.minutes.Minutes(), 1, "min", "")},
			book.Value{Key: "passes", What: book.Count(s.passes)}, feedSpeedOf("", s.feedSpeed))
	case s.feedSpeed > 0:
		i.Values = append(i.Values, feedSpeedOf("slide or table moves", s.feedSpeed))
	}
	spindle, edge := wantedSpeeds(wanted, r.Basis, s.plan)
	i.Values = append(i.Values, edge, spindle)
	for _, a := range advice {
		if len(a.steps) == 1 && a.steps[0] == s {
			i.Notes = append(i.Notes, book.Note{Text: a.text, Refs: a.refs})
		}
	}
	return i
}

// An advised is a piece of advice and the steps that it is for.
type advised struct {
	text  string
	refs  source.Refs
	steps []*step
}

// adviceOf returns the advice for all steps, each piece once.
func adviceOf(steps []*step) []*advised {
	var all []*advised
	for _, s := range steps {
		for _, a := range s.plan.Range.Advice() {
			text := strings.ToUpper(a.Kind[:1]) + a.Kind[1:] + ": " + a.Text
			i := slices.IndexFunc(all, func(have *advised) bool { return have.text == text })
			if i < 0 {
				i = len(all)
				all = append(all, &advised{text: text, refs: a.Refs})
			}
			all[i].steps = append(all[i].steps, s)
		}
	}
	return all
}

// sharedAdvice is what is for more than one operation, said once.
func sharedAdvice(all []*advised) book.Section {
	section := book.Section{Key: "advice", Intro: []string{"For more than one of these operations:"}, List: true}
	for _, a := range all {
		if len(a.steps) < 2 {
			continue
		}
		var uses []string
		for _, s := range a.steps {
			if use := s.entry.Part + " (" + s.job.Operation.String() + ")"; !slices.Contains(uses, use) {
				uses = append(uses, use)
			}
		}
		text := a.text + " For " + strings.Join(uses, ", ") + "."
		section.Items = append(section.Items, book.Item{Notes: []book.Note{{Text: text, Refs: a.refs}}})
	}
	return section
}
