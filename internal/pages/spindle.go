package pages

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A SpindleQuestion asks what to set on a machine for one operation.
type SpindleQuestion struct {
	Job       speeds.Job
	Own       *units.Speed           // the builder's own cutting speed
	Running   *units.RotationalSpeed // what the machine runs at now, to be judged
	Length    *units.Length          // of the cut, for the minutes
	Deep      *units.Length          // of the cut on the radius, for the motor
	Motor     *units.Power
	Teeth     *int                   // of a milling cutter, for the minutes
	Chuck     *units.RotationalSpeed // marked on the chuck
	Unmarked  *units.Length          // diameter of a chuck without a mark
	Mass      *units.Mass            // of work that is set over
	Offset    *units.Length          // from the axis to the middle of its weight
	Wheel     *units.RotationalSpeed // of the flywheel that the part is
	Drills    gauge.Set              // for the hole before a reamer
	Published bool                   // list every published cutting speed for the pairing
}

// Spindle answers the question.
func Spindle(ask SpindleQuestion) (book.Book, error) {
	if err := ask.check(); err != nil {
		return book.Book{}, err
	}
	if err := ask.limits(); err != nil {
		return book.Book{}, err
	}
	if ask.Own != nil {
		ask.Job.Min, ask.Job.Max = *ask.Own, *ask.Own
	}
	plan, err := ask.Job.Plan()
	if err != nil {
		return book.Book{}, err
	}
	b := book.Book{
		Title:       fmt.Sprintf("%v %v with %v", capitalised(ask.Job.Operation.String()), ask.Job.Material, ask.Job.Tool),
		Findings:    slices.Clone(plan.Findings),
		Precautions: plan.Range.Precautions(),
	}
	b.Sections = []book.Section{ask.answer(plan)}
	for _, part := range []func(speeds.Plan) (book.Section, finding.List, error){
		ask.running, ask.feed, ask.drilling, ask.reaming, ask.rim, ask.balance, ask.rule, ask.machine, ask.published,
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
	if ask.Wheel != nil {
		rim, err := holding.CheckRim(ask.Job.Diameter, *ask.Wheel)
		if err != nil {
			return book.Book{}, err
		}
		b.Precautions = addPrecautions(b.Precautions, rim.Precautions)
	}
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

func capitalised(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

func (ask SpindleQuestion) work() holding.Work {
	return holding.Work{Mass: *ask.Mass, Offset: *ask.Offset}
}

// limits adds what the chuck must not exceed.
func (ask *SpindleQuestion) limits() error {
	ask.Job.Limits = slices.Clone(ask.Job.Limits)
	if ask.Unmarked != nil {
		limit, err := holding.UnmarkedChuck(*ask.Unmarked)
		if err != nil {
			return cli.Named("-unmarked", err)
		}
		ask.Job.Limits = append(ask.Job.Limits, limit)
	}
	if ask.Chuck != nil {
		limit, err := holding.MarkedChuck(*ask.Chuck)
		if err != nil {
			return cli.Named("-chuck", err)
		}
		ask.Job.Limits = append(ask.Job.Limits, limit)
	}
	return nil
}

// check refuses what was asked in vain: a flag that says nothing, or that the
// operation has no use for.
func (ask SpindleQuestion) check() error {
	op := ask.Job.Operation
	if ask.Job.Material.Name == "" {
		var names []string
		for _, m := range speeds.Materials() {
			names = append(names, m.Name)
		}
		return cli.ErrUsage("-material is missing; accepted: %s", strings.Join(names, "; "))
	}
	if ask.Job.Diameter.IsZero() {
		return cli.ErrUsage(`-d is missing; accepted: %s, such as "80 mm" or "3 1/8 in"`, op.GoverningDiameter())
	}
	for _, f := range []struct {
		name   string
		given  bool
		above  bool
		useful bool
		goes   string
	}{
		{"v", ask.Own != nil, positive(ask.Own), true, ""},
		{"n", ask.Running != nil, positive(ask.Running), true, ""},
		{"length", ask.Length != nil, ask.Length == nil || ask.Length.Sign() > 0, true, ""},
		{"cut", ask.Deep != nil, ask.Deep == nil || ask.Deep.Sign() > 0, ask.Motor != nil && op.TurnsWork(),
			"turning, facing, boring or parting and -motor"},
		{"motor", ask.Motor != nil, positive(ask.Motor), op == speeds.Drilling || ask.Deep != nil, "drilling, or with -cut"},
		{"chuck", ask.Chuck != nil, positive(ask.Chuck), true, ""},
		{"wheel", ask.Wheel != nil, positive(ask.Wheel), true, ""},
		{"teeth", ask.Teeth != nil, ask.Teeth == nil || *ask.Teeth > 0, op == speeds.Milling, "milling"},
		{"depth", !ask.Job.Depth.IsZero(), ask.Job.Depth.Sign() > 0, op == speeds.Drilling || op == speeds.Reaming, "drilling and reaming"},
		{"reach", !ask.Job.Reach.IsZero(), true, op == speeds.Parting, "parting"},
		{"own", ask.Drills.Len() > 0, true, op == speeds.Reaming, "reaming"},
		{"mass", ask.Mass != nil, positive(ask.Mass), ask.Offset != nil && op.TurnsWork(), "work that turns and -offset"},
		{"offset", ask.Offset != nil, ask.Offset == nil || ask.Offset.Sign() > 0, ask.Mass != nil, "-mass"},
	} {
		switch {
		case f.given && !f.above:
			return cli.ErrUsage("-%s: accepted: above zero", f.name)
		case f.given && !f.useful:
			return cli.ErrUsage("-%s goes with %s", f.name, f.goes)
		}
	}
	return nil
}

func positive[Q ~float64](v *Q) bool { return v == nil || *v > 0 }

// surface is a cutting speed, in ft/min to three figures.
func surface(v units.Speed) book.Quantity {
	return book.Number(v.In(units.MetrePerMinute), 1, "m/min", "m_min").
		And(book.Number(0, 0, "", "").Shown(figures(v.In(units.FootPerMinute), 3) + " ft/min"))
}

// turning is a spindle speed, to four figures.
func turning(n units.RotationalSpeed) book.Quantity {
	v := n.In(units.RevPerMinute)
	return book.Number(v, 0, "rev/min", "rev_min").Shown(figures(v, 4) + " rev/min")
}

// figures prints a number to so many figures, and to the whole number where it has
// more before the point.
func figures(v float64, n int) string {
	if text := strconv.FormatFloat(v, 'g', n, 64); !strings.Contains(text, "e") {
		return text
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

// answer is the spindle speed: the step to set, or the range where there is no
// machine, and how it comes about.
func (ask SpindleQuestion) answer(plan speeds.Plan) book.Section {
	j, r := ask.Job, plan.Range
	i := book.Item{Values: []book.Value{
		{Key: "operation", What: book.Word(j.Operation.String())},
		{Key: "material", What: book.Word(j.Material.String())},
		{Key: "tool", What: book.Word(j.Tool.String())},
	}}
	switch {
	case !plan.Findings.OK():
		i.Values = append(i.Values, book.Value{Key: "set", Label: "no speed",
			What: book.Never(turning(0), "the job is refused: what is wrong says why")})
	case plan.Choice.Step.Speed > 0:
		i.Values = append(i.Values,
			book.Value{Key: "set", Label: "set", What: turning(plan.Choice.Step.Speed), Remark: plan.Choice.Step.Name},
			book.Value{Key: "set", Label: "the edge meets", What: surface(plan.Speed)})
	default:
		i.Values = append(i.Values, book.Value{Key: "set", What: book.Never(turning(0), "")})
	}
	because := r.Basis
	if r.Published.Material != "" {
		printed := fmt.Sprintf("printed for %s with %s (%s)", r.Published.Material, r.Published.Tool, r.Published.Period)
		because = strings.TrimPrefix(because+"; "+printed, "; ")
	}
	i.Values = append(i.Values,
		book.Value{Key: "wanted", Label: "spindle", What: book.Range(turning(plan.Min), turning(plan.Max))},
		book.Value{Key: "speed", Label: "cutting speed", What: book.Range(surface(r.Min), surface(r.Max))},
		book.Value{Key: "diameter", Label: "diameter", What: book.Length(j.Diameter, 2), Remark: j.Operation.GoverningDiameter()},
	)
	i.Formulas = append(i.Formulas, book.Formula{Text: workedSpeed(r.Min, j.Diameter, plan.Min), Refs: r.Refs})
	if plan.Max != plan.Min {
		i.Formulas = append(i.Formulas, book.Formula{Text: workedSpeed(r.Max, j.Diameter, plan.Max)})
	}
	if because != "" {
		i.Notes = append(i.Notes, book.Note{Text: "Cutting speed: " + because + ".", Refs: r.Refs})
	}
	return book.Section{Key: "spindle", Items: []book.Item{i}}
}

func workedSpeed(v units.Speed, d units.Length, n units.RotationalSpeed) string {
	return fmt.Sprintf("n = 1000 V / (pi d) = 1000 x %.4g / (3.1416 x %.5g) = %.4g rev/min",
		v.In(units.MetrePerMinute), d.MM(), n.In(units.RevPerMinute))
}

// running says what the speed at which the machine runs now does.
func (ask SpindleQuestion) running(speeds.Plan) (book.Section, finding.List, error) {
	if ask.Running == nil {
		return book.Section{}, nil, nil
	}
	v, err := speeds.CuttingSpeed(*ask.Running, ask.Job.Diameter)
	if err != nil {
		return book.Section{}, nil, cli.Named("-n", err)
	}
	findings, err := ask.Job.Check(*ask.Running)
	if err != nil {
		return book.Section{}, nil, cli.Named("-n", err)
	}
	remark := ""
	if len(findings) == 0 {
		remark = "within the range"
	}
	return book.Section{Key: "as_it_runs", Items: []book.Item{{
		Values: []book.Value{
			{Key: "speed", Label: "as it runs", What: turning(*ask.Running)},
			{Key: "surface", Label: "the edge meets", What: surface(v), Remark: remark},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("v = pi d n / 1000 = 3.1416 x %.5g x %.5g / 1000 = %.1f m/min",
			ask.Job.Diameter.MM(), ask.Running.In(units.RevPerMinute), v.In(units.MetrePerMinute))}},
	}}}, findings, nil
}

// machine lists the speeds of the machine, or the ends of each gear, with the
// surface speed that each of them gives.
func (ask SpindleQuestion) machine(speeds.Plan) (book.Section, finding.List, error) {
	table := book.Table{Key: "steps", Title: "Speeds of the machine"}
	for _, s := range ask.Job.Machine.Steps() {
		v, err := speeds.CuttingSpeed(s.Speed, ask.Job.Diameter)
		if err != nil {
			return book.Section{}, nil, err
		}
		table.Rows = append(table.Rows, book.Row{Values: []book.Value{
			{Key: "spindle", Label: "spindle", What: turning(s.Speed)},
			{Key: "surface", Label: "surface", What: surface(v).Millimetres()},
			{Key: "name", Label: "step", What: book.Word(s.Name)},
		}})
	}
	if table.Rows == nil {
		return book.Section{}, nil, nil
	}
	return book.Section{Key: "machine", Items: []book.Item{{Tables: []book.Table{table}}}}, nil, nil
}

// rule shows what the rules of the shop make of the faster end.
func (ask SpindleQuestion) rule(plan speeds.Plan) (book.Section, finding.List, error) {
	rule, v := speeds.FourVOverD, plan.Range.Max
	if ask.Job.Operation == speeds.Drilling && ask.Job.Material.Name == "mild steel" && ask.Job.Tool == speeds.HSS {
		rule = speeds.TenThousandOverD
	}
	n, err := rule.SpindleSpeed(v, ask.Job.Diameter)
	if err != nil {
		return book.Section{}, nil, err
	}
	excess, err := rule.Excess(v)
	if err != nil {
		return book.Section{}, nil, err
	}
	worked, in := fmt.Sprintf("4 x %.4g / %.4g", v.In(units.FootPerMinute), ask.Job.Diameter.Inch()), "V in ft/min, D in inches"
	if rule == speeds.TenThousandOverD {
		worked, in = fmt.Sprintf("10,000 / %.4g", ask.Job.Diameter.MM()), "D in mm"
	}
	return book.Section{Key: "rule_of_thumb", Items: []book.Item{{
		Values: []book.Value{
			{Key: "speed", Label: "rule of thumb", What: turning(n)},
			{Key: "excess", Label: "above the formula by", What: book.Signed(100*excess, 1, "%", "percent")},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("n = %v = %s = %.4g rev/min, %s", rule, worked, n.In(units.RevPerMinute), in),
			Refs: source.Of(source.Practice())}},
	}}}, nil, nil
}

// rim judges the rim of the flywheel that the part is.
func (ask SpindleQuestion) rim(speeds.Plan) (book.Section, finding.List, error) {
	if ask.Wheel == nil {
		return book.Section{}, nil, nil
	}
	rim, err := holding.CheckRim(ask.Job.Diameter, *ask.Wheel)
	if err != nil {
		return book.Section{}, nil, cli.Named("-wheel", err)
	}
	return book.Section{Key: "in_the_engine", Items: []book.Item{{Values: []book.Value{
		{Key: "wheel", Label: "in the engine", What: turning(*ask.Wheel)},
		{Key: "rim", Label: "its rim at", What: book.Number(rim.Speed.In(units.MetrePerSecond), 1, "m/s", "m_s").
			And(book.Number(rim.Speed.In(units.FootPerMinute), 0, "ft/min", "")), Refs: rim.Refs},
	}}}}, rim.Findings, nil
}

// balance is what goes round with work that is set over, at the speed that runs.
func (ask SpindleQuestion) balance(plan speeds.Plan) (book.Section, finding.List, error) {
	if ask.Mass == nil {
		return book.Section{}, nil, nil
	}
	n := plan.Choice.Step.Speed
	switch {
	case ask.Running != nil:
		n = *ask.Running
	case n == 0:
		n = plan.Max
	}
	force, err := ask.work().Force(n)
	if err != nil {
		return book.Section{}, nil, cli.Named("-mass", err)
	}
	radius := ask.Job.Diameter.Scale(0.5)
	opposite, err := ask.work().Counterweight(radius)
	if err != nil {
		return book.Section{}, nil, cli.Named("-offset", err)
	}
	return book.Section{Key: "out_of_balance", Items: []book.Item{{
		Values: []book.Value{
			{Key: "force", Label: "out of balance", What: book.Number(force.In(units.Newton), 2, "N", "n"), Remark: "round and round"},
			{Key: "counterweight", Label: "balanced by", What: book.Number(opposite.In(units.Kilogram), 2, "kg", "kg"), Remark: "opposite"},
			{Key: "radius", Label: "from the axis", What: book.Length(radius, 2)},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("F = m e w^2 = %.3g kg x %.4g mm x (%.4g rev/min)^2 = %.3g N",
			ask.Mass.In(units.Kilogram), ask.Offset.MM(), n.In(units.RevPerMinute), force.In(units.Newton))}},
	}}}, nil, nil
}

// published lists every published cutting speed for the pairing, when asked to.
func (ask SpindleQuestion) published(speeds.Plan) (book.Section, finding.List, error) {
	if !ask.Published {
		return book.Section{}, nil, nil
	}
	all, err := speeds.PublishedFor(ask.Job.Operation, ask.Job.Material, ask.Job.Tool)
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
				What: book.Range(surface(p.Min).Millimetres(), surface(p.Max).Millimetres())},
			{Key: "period", Label: "period", What: book.Word(p.Period)},
			{Key: "bound", Label: "is", What: book.Word(p.Bound)},
		}, Below: []string{p.Material}}
		i.Tables[0].Rows = append(i.Tables[0].Rows, row)
	}
	return book.Section{Key: "published", Title: "PUBLISHED FOR THIS PAIRING", Items: []book.Item{i}}, nil, nil
}
