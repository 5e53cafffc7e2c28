package pages

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A SpindleQuestion asks what to set on a machine for one operation. What is nil
// is not looked at.
type SpindleQuestion struct {
	Operation speeds.Operation
	Material  material.Material
	Tool      speeds.Tool // zero: HSS
	Diameter  *units.Length
	Machine   speeds.Ladder          // none: the exact speeds only
	Own       *units.Speed           // the builder's own cutting speed
	Running   *units.RotationalSpeed // what the machine runs at now, to be judged
	Depth     *units.Length          // of a hole
	Pitch     *screwcut.Lead         // of the thread that is screwcut
	Length    *units.Length          // of the cut, for the minutes
	Width     *units.Length          // of a slot that is wider than its cutter
	Deep      *units.Length          // of the cut on the radius, for the motor
	Motor     *units.Power
	Teeth     *int                   // of a milling cutter, for the minutes
	Centre    *units.Length          // height of the centres
	Reach     *units.Length          // of a parting blade
	Overhang  *units.Length          // of the tool or bar
	Section   *units.Length          // height of it
	Chuck     *units.RotationalSpeed // marked on the chuck
	Unmarked  *units.Length          // diameter of a chuck without a mark
	Mass      *units.Mass            // of work that is set over
	Offset    *units.Length          // from the axis to the middle of its weight
	Wheel     *units.RotationalSpeed // of the flywheel that the part is
	Drills    gauge.Set              // for the hole before a reamer
	Published bool                   // list every published cutting speed for the pairing
}

// A spindle is a question and the job that it asks for.
type spindle struct {
	SpindleQuestion
	job   speeds.Job
	wheel holding.RimCheck // of the flywheel in its engine; zero for none
}

// Spindle answers the question.
func Spindle(ask SpindleQuestion) (book.Book, error) {
	if err := ask.check(); err != nil {
		return book.Book{}, err
	}
	job, err := ask.job()
	if err != nil {
		return book.Book{}, err
	}
	if ask.Mass != nil {
		limit, err := ask.work().Limit()
		if err != nil {
			return book.Book{}, cli.Named("-offset", err)
		}
		job.Limits = append(job.Limits, limit)
	}
	s := spindle{SpindleQuestion: ask, job: job}
	if ask.Wheel != nil {
		if s.wheel, err = holding.CheckRim(job.Material, job.Diameter, *ask.Wheel); err != nil {
			return book.Book{}, ask.blameWheel(err)
		}
		s.job.Limits = append(s.job.Limits, speeds.Limit{Speed: s.wheel.Max, Reason: "the rim of the wheel, in the lathe as in its engine",
			Ref: s.wheel.Limit.Refs.First(), Cure: "Nothing else makes a wheel of this size stand it."})
		job = s.job
	}
	plan, err := job.Plan()
	if err != nil {
		return book.Book{}, ask.blame(err)
	}
	if err := judge(&plan, s.cut(speeds.Feed{}, 0)); err != nil {
		return book.Book{}, cli.Named("-d", err)
	}
	b := book.Book{
		Title:       fmt.Sprintf("%v %v with %v", capitalised(job.Operation.String()), job.Material, job.Tool),
		Findings:    slices.Clone(plan.Findings),
		Precautions: plan.Range.Precautions(),
	}
	answer, err := s.answer(plan)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = []book.Section{answer}
	for _, part := range []func(speeds.Plan) (book.Section, finding.List, error){
		s.running, s.feed, s.drilling, s.reaming, s.rim, s.balance, s.rule, s.machine, s.published,
	} {
		section, findings, err := part(plan)
		if err != nil {
			return book.Book{}, err
		}
		b.Findings = append(b.Findings, findings...)
		if section.Key != "" {
			b.Sections = append(b.Sections, section)
		}
	}
	b.Precautions = addPrecautions(b.Precautions, s.wheel.Precautions)
	if ask.Mass != nil {
		b.Precautions = addPrecautions(b.Precautions, ask.work().Precautions())
	}
	var notes []book.Note
	for _, a := range plan.Range.Advice() {
		notes = append(notes, book.Note{Text: capitalised(a.Kind) + ": " + a.Text, Refs: a.Refs})
	}
	b.Sections = append(b.Sections, book.Section{Key: "advice", Items: []book.Item{{Notes: notes}}})
	return b, nil
}

func capitalised(text string) string {
	_, first := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:first]) + text[first:]
}

func (ask SpindleQuestion) work() holding.Work {
	return holding.Work{Mass: *ask.Mass, Offset: *ask.Offset}
}

// job is what the question asks of package speeds.
func (ask SpindleQuestion) job() (speeds.Job, error) {
	j := speeds.Job{
		Operation: ask.Operation, Material: ask.Material, Tool: cmp.Or(ask.Tool, speeds.HSS),
		Diameter: *ask.Diameter, Machine: ask.Machine,
	}
	if ask.Own != nil {
		j.Min, j.Max = *ask.Own, *ask.Own
	}
	if ask.Pitch != nil {
		j.Pitch = ask.Pitch.Length()
	}
	for _, l := range []struct{ to, from *units.Length }{
		{&j.Depth, ask.Depth}, {&j.CentreHeight, ask.Centre}, {&j.Reach, ask.Reach}, {&j.Overhang, ask.Overhang},
		{&j.Section, ask.Section},
	} {
		if l.from != nil {
			*l.to = *l.from
		}
	}
	if ask.Unmarked != nil {
		limit, err := holding.UnmarkedChuck(*ask.Unmarked)
		if err != nil {
			return j, cli.Named("-unmarked", err)
		}
		j.Limits = append(j.Limits, limit)
	}
	if ask.Chuck != nil {
		limit, err := holding.MarkedChuck(*ask.Chuck)
		if err != nil {
			return j, cli.Named("-chuck", err)
		}
		j.Limits = append(j.Limits, limit)
	}
	return j, nil
}

// blame names the flag that an error of the plan is about.
func (ask SpindleQuestion) blame(err error) error {
	var bad *units.ArgumentError
	switch {
	case !errors.As(err, &bad):
	case bad.Field == "pairing":
		return cli.Named("-tool", err)
	case bad.Field == "cutting speed" && ask.Own != nil:
		return cli.Named("-v", err)
	}
	return cli.Named("-d", err)
}

// blameWheel names the flag that an error of the wheel in its engine is about.
func (ask SpindleQuestion) blameWheel(err error) error {
	var bad *units.ArgumentError
	if errors.As(err, &bad) && bad.Field == "metal of the wheel" {
		return cli.Named("-wheel with -material", err)
	}
	return cli.Named("-wheel", err)
}

// check refuses what was asked in vain: a flag that says nothing, or that the
// operation has no use for.
func (ask SpindleQuestion) check() error {
	op := ask.Operation
	if ask.Material.Name == "" {
		var names []string
		for _, m := range speeds.Materials() {
			names = append(names, m.Name)
		}
		return cli.ErrUsage("-material NAME: missing; accepted: %s", strings.Join(names, "; "))
	}
	if ask.Diameter == nil {
		return cli.ErrUsage(`-d DIAMETER: missing; accepted: %s, such as "80 mm" or "3 1/8 in"`, op.GoverningDiameter())
	}
	if op == speeds.Screwcutting && ask.Pitch == nil {
		return cli.ErrUsage(`-pitch LEAD: missing; accepted: that of the thread, such as "1.5 mm" or "26 tpi", for how soon the tool is at the shoulder`)
	}
	const underPower = "what runs under power: taps up to 4 mm and dies are turned by hand"
	byHand := op.ByHand(*ask.Diameter)
	for _, f := range []struct {
		flag   string
		err    error
		given  bool
		useful bool
		goes   string
	}{
		{"-d", above(ask.Diameter), true, true, ""},
		{"-v", positive(ask.Own), ask.Own != nil, !byHand, underPower},
		{"-published", nil, ask.Published, !byHand, underPower},
		{"-pitch", nil, ask.Pitch != nil, op == speeds.Screwcutting, "screwcutting"},
		{"-n", positive(ask.Running), ask.Running != nil, true, ""},
		{"-depth", above(ask.Depth), ask.Depth != nil, op == speeds.Drilling || op == speeds.Reaming || op == speeds.SlotMilling,
			"drilling, reaming and slot milling"},
		{"-length", above(ask.Length), ask.Length != nil, !byHand, underPower},
		{"-width", above(ask.Width), ask.Width != nil, op == speeds.SlotMilling, "slot milling"},
		{"-cut", above(ask.Deep), ask.Deep != nil, ask.Motor != nil && op.TurnsWork() || op == speeds.SlotMilling,
			"turning, facing, boring or parting and -motor, and with slot milling"},
		{"-motor", positive(ask.Motor), ask.Motor != nil, op == speeds.Drilling || ask.Deep != nil && op.TurnsWork(), "drilling, or with -cut"},
		{"-teeth", positive(ask.Teeth), ask.Teeth != nil, op.Mills() && op != speeds.FlyCutting, "milling; a fly cutter has one"},
		{"-centre", above(ask.Centre), ask.Centre != nil, true, ""},
		{"-reach", above(ask.Reach), ask.Reach != nil, op == speeds.Parting, "parting"},
		{"-overhang", above(ask.Overhang), ask.Overhang != nil, ask.Section != nil, "-section"},
		{"-section", above(ask.Section), ask.Section != nil, ask.Overhang != nil, "-overhang"},
		{"-chuck", positive(ask.Chuck), ask.Chuck != nil, true, ""},
		{"-wheel", positive(ask.Wheel), ask.Wheel != nil, op.TurnsWork() && op != speeds.Boring, "turning or facing the rim, whose diameter -d then is"},
		{"-own", nil, ask.Drills.Len() > 0, op == speeds.Reaming || op == speeds.SlotMilling, "reaming and slot milling"},
		{"-mass", positive(ask.Mass), ask.Mass != nil, ask.Offset != nil && op.TurnsWork() && !byHand, "work that turns under power and -offset"},
		{"-offset", above(ask.Offset), ask.Offset != nil, ask.Mass != nil, "-mass"},
	} {
		switch {
		case f.err != nil:
			return cli.Named(f.flag, f.err)
		case f.given && !f.useful:
			return cli.ErrUsage("%s goes with %s", f.flag, f.goes)
		}
	}
	return nil
}

// above returns an error for a length that is given and not above zero.
func above(l *units.Length) error {
	if l == nil {
		return nil
	}
	return fail.Above(fault.Named("length", *l))
}

// positive returns an error for another quantity that is given and not above zero.
func positive[Q ~float64 | ~int](v *Q) error {
	if v != nil && !(*v > 0) {
		return fail.OutOfRange("value", *v, "above zero")
	}
	return nil
}

// answer is the spindle speed: the step to set, or the range where there is no
// machine, and how it comes about.
func (s spindle) answer(plan speeds.Plan) (book.Section, error) {
	j, r := s.job, plan.Range
	i := book.Item{Values: []book.Value{
		{Key: "operation", What: book.Word(j.Operation.String())},
		{Key: "material", What: book.Word(j.Material.String())},
		{Key: "tool", What: book.Word(j.Tool.String())},
	}}
	i.Values = append(i.Values, spindleSetting(j, plan)...)
	wanted, edge := wantedSpeeds(wantedLabel(plan), "", plan)
	i.Values = append(i.Values, wanted, edge,
		book.Value{Key: "diameter", Label: "diameter", What: book.Length(j.Diameter, 2), Remark: j.Operation.GoverningDiameter()})
	if forHand(plan) {
		return book.Section{Key: "spindle", Items: []book.Item{i}}, nil
	}
	because := r.Basis
	if r.Published.Material != "" {
		printed := fmt.Sprintf("printed for %s with %s (%s)", r.Published.Material, r.Published.Tool, r.Published.Period)
		because = strings.TrimPrefix(because+"; "+printed, "; ")
	}
	i.Formulas = append(i.Formulas, book.Formula{Text: workedSpeed(r.Min, j.Diameter, plan.Min)})
	if plan.Max != plan.Min {
		i.Formulas = append(i.Formulas, book.Formula{Text: workedSpeed(r.Max, j.Diameter, plan.Max)})
	}
	if because != "" {
		i.Notes = append(i.Notes, book.Note{Text: "Cutting speed: " + because + "."})
	}
	others, err := differing(r)
	i.Notes = append(i.Notes, others...)
	return book.Section{Key: "spindle", Items: []book.Item{i}}, err
}

func workedSpeed(v units.Speed, d units.Length, n units.RotationalSpeed) string {
	return fmt.Sprintf("n = 1000 V / (pi d) = 1000 x %s / (3.1416 x %s) = %s rev/min",
		figures(v.In(units.MetrePerMinute), 4), figures(d.MM(), 5), figures(n.In(units.RevPerMinute), 4))
}

// running says what the speed at which the machine runs now does.
func (s spindle) running(speeds.Plan) (book.Section, finding.List, error) {
	if s.Running == nil {
		return book.Section{}, nil, nil
	}
	v, err := speeds.CuttingSpeed(*s.Running, s.job.Diameter)
	if err != nil {
		return book.Section{}, nil, cli.Named("-n", err)
	}
	findings, err := s.job.Check(*s.Running)
	if err != nil {
		return book.Section{}, nil, cli.Named("-n", err)
	}
	remark := ""
	if len(findings) == 0 {
		remark = "within the range"
	}
	return book.Section{Key: "as_it_runs", Items: []book.Item{{
		Values: []book.Value{
			{Key: "speed", Label: "as it runs", What: turning(*s.Running)},
			{Key: "surface", Label: "the edge meets", What: surface(v), Remark: remark},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("v = pi d n / 1000 = 3.1416 x %s x %s / 1000 = %.1f m/min",
			figures(s.job.Diameter.MM(), 5), figures(s.Running.In(units.RevPerMinute), 5), v.In(units.MetrePerMinute))}},
	}}}, findings, nil
}

// machine lists the speeds of the machine, or the ends of each gear, with the
// surface speed that each of them gives.
func (s spindle) machine(plan speeds.Plan) (book.Section, finding.List, error) {
	if forHand(plan) {
		return book.Section{}, nil, nil
	}
	table := book.Table{Key: "steps", Title: "Speeds of the machine"}
	for _, step := range s.job.Machine.Steps() {
		v, err := speeds.CuttingSpeed(step.Speed, s.job.Diameter)
		if err != nil {
			return book.Section{}, nil, err
		}
		table.Rows = append(table.Rows, book.Row{Values: []book.Value{
			{Key: "spindle", Label: "spindle", What: turning(step.Speed)},
			{Key: "surface", Label: "surface", What: published(v).Millimetres()},
			{Key: "name", Label: "step", What: book.Word(step.Name)},
		}})
	}
	if table.Rows == nil {
		return book.Section{}, nil, nil
	}
	return book.Section{Key: "machine", Items: []book.Item{{Tables: []book.Table{table}}}}, nil, nil
}

// rule shows what the rules of the shop make of the faster end.
func (s spindle) rule(plan speeds.Plan) (book.Section, finding.List, error) {
	if op := s.job.Operation; op == speeds.Tapping || op == speeds.Screwcutting || forHand(plan) {
		// the edge does not govern them
		return book.Section{}, nil, nil
	}
	rule, v := speeds.FourVOverD, plan.Range.Max
	if s.job.Operation == speeds.Drilling && s.job.Material.Name == "mild steel" && s.job.Tool == speeds.HSS {
		rule = speeds.TenThousandOverD
	}
	n, err := rule.SpindleSpeed(v, s.job.Diameter)
	if err != nil {
		return book.Section{}, nil, err
	}
	excess, err := rule.Excess(v)
	if err != nil {
		return book.Section{}, nil, err
	}
	worked := "4 x " + figures(v.In(units.FootPerMinute), 4) + " / " + figures(s.job.Diameter.Inch(), 4)
	in := "V in ft/min, D in inches"
	if rule == speeds.TenThousandOverD {
		worked, in = "10,000 / "+figures(s.job.Diameter.MM(), 4), "D in mm"
	}
	return book.Section{Key: "rule_of_thumb", Items: []book.Item{{
		Values: []book.Value{
			{Key: "speed", Label: "rule of thumb", What: turning(n)},
			{Key: "excess", Label: "above the formula by", What: book.Signed(100*excess, 1, "%", "percent")},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("n = %v = %s = %s rev/min, %s", rule, worked, figures(n.In(units.RevPerMinute), 4), in),
			Refs: source.Of(source.Practice())}},
	}}}, nil, nil
}

// rim judges the rim of the flywheel that the part is.
func (s spindle) rim(speeds.Plan) (book.Section, finding.List, error) {
	if s.Wheel == nil {
		return book.Section{}, nil, nil
	}
	return book.Section{Key: "in_the_engine", Items: []book.Item{{Values: []book.Value{
		{Key: "wheel", Label: "in the engine", What: turning(*s.Wheel)},
		{Key: "rim", Label: "its rim at", What: book.Number(s.wheel.Speed.In(units.MetrePerSecond), 1, "m/s", "m_s").
			And(book.Number(s.wheel.Speed.In(units.FootPerMinute), 0, "ft/min", "")), Refs: s.wheel.Refs},
	}}}}, s.wheel.Findings, nil
}

// runs is the speed that runs: the one that the machine has now, else the one to
// set, else the most that edge and limits allow.
func (s spindle) runs(plan speeds.Plan) units.RotationalSpeed {
	if s.Running != nil {
		return *s.Running
	}
	if n, ok := plan.Set(); ok {
		return n
	}
	return plan.Most()
}

// balance is what goes round with work that is set over, at the speed that runs.
func (s spindle) balance(plan speeds.Plan) (book.Section, finding.List, error) {
	if s.Mass == nil {
		return book.Section{}, nil, nil
	}
	n := s.runs(plan)
	force, err := s.work().Force(n)
	if err != nil {
		return book.Section{}, nil, cli.Named("-mass", err)
	}
	radius := s.job.Diameter.Scale(0.5)
	swing, err := s.work().Check(n)
	if err != nil {
		return book.Section{}, nil, cli.Named("-mass", err)
	}
	opposite, err := s.work().Counterweight(radius)
	if err != nil {
		return book.Section{}, nil, cli.Named("-offset", err)
	}
	return book.Section{Key: "out_of_balance", Items: []book.Item{{
		Values: []book.Value{
			{Key: "force", Label: "out of balance", Remark: "round and round",
				What: book.Number(force.In(units.Newton), 2, "N", "n")},
			{Key: "counterweight", Label: "balanced by", Remark: "opposite",
				What: book.Number(opposite.In(units.Kilogram), 2, "kg", "kg")},
			{Key: "radius", Label: "from the axis", What: book.Length(radius, 2)},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("F = m e w^2 = %s kg x %s mm x (%s rev/min)^2 = %s N",
			figures(s.Mass.In(units.Kilogram), 3), figures(s.Offset.MM(), 4), figures(n.In(units.RevPerMinute), 4),
			figures(force.In(units.Newton), 3))}},
	}}}, swing, nil
}

// published lists every published cutting speed for the pairing, when asked to.
func (s spindle) published(speeds.Plan) (book.Section, finding.List, error) {
	if !s.Published {
		return book.Section{}, nil, nil
	}
	all, err := speeds.PublishedFor(s.job.Operation, s.job.Material, s.job.Tool)
	if err != nil {
		return book.Section{}, nil, err
	}
	i := book.Item{Tables: []book.Table{{Key: "speeds"}}}
	if len(all) == 0 {
		i.Notes = []book.Note{{Text: "None was read for the pairing itself; the figure follows from another, as said above."}}
	}
	for _, p := range all {
		row := book.Row{Values: []book.Value{
			{Key: "speed", Label: "cutting speed", Refs: p.Refs,
				What: book.Range(published(p.Min).Millimetres(), published(p.Max).Millimetres())},
			{Key: "period", Label: "period", What: book.Word(p.Period)},
			{Key: "bound", Label: "is", What: book.Word(p.Bound)},
		}, Below: []string{p.Material}}
		i.Tables[0].Rows = append(i.Tables[0].Rows, row)
	}
	return book.Section{Key: "published", Title: "PUBLISHED FOR THIS PAIRING", Items: []book.Item{i}}, nil, nil
}
