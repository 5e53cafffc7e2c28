package pages

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// feed is the feed to start from and, where the step is known, how long the cut
// takes and whether the motor carries it. Operations that have no feed say so.
func (ask SpindleQuestion) feed(plan speeds.Plan) (book.Section, finding.List, error) {
	j := ask.Job
	section := func(i book.Item) book.Section { return book.Section{Key: "cut", Items: []book.Item{i}} }
	f, err := speeds.FeedFor(j.Operation, j.Material, j.Diameter)
	if err != nil {
		reason := err.Error()
		var bad *units.ArgumentError
		if errors.As(err, &bad) && bad.Problem != "" {
			reason = bad.Problem
		}
		return section(book.Item{Values: []book.Value{
			{Key: "feed", Label: "feed", What: book.Never(book.Length(units.Length{}, 3), reason)},
		}}), nil, nil
	}
	f.Min, f.Max = f.Min.Scale(plan.Feed), f.Max.Scale(plan.Feed)
	i := book.Item{Values: []book.Value{
		{Key: "feed", Label: "feed", What: book.Range(book.LengthThou(f.Min, 3, 1), book.LengthThou(f.Max, 3, 1)),
			Remark: strings.TrimSuffix("per "+f.Per()+", "+f.Stands, ", "), Refs: f.Refs},
		{Key: "feed_per", What: book.Word(f.Per())},
	}}
	if f.Note != "" {
		i.Notes = append(i.Notes, book.Note{Text: "Feed: " + f.Note + "."})
	}
	step := plan.Choice.Step.Speed
	if step == 0 || !plan.Findings.OK() {
		if ask.Length != nil || ask.Motor != nil {
			i.Notes = append(i.Notes, book.Note{Text: "Time and motor are not known without a machine that can do it: say -machine."})
		}
		return section(i), nil, nil
	}
	cut := ask.cut(f, step)
	if err := ask.time(&i, cut); err != nil {
		return book.Section{}, nil, err
	}
	findings, err := ask.motor(&i, cut)
	return section(i), findings, err
}

func (ask SpindleQuestion) cut(f speeds.Feed, step units.RotationalSpeed) cutting.Cut {
	c := cutting.Cut{Operation: ask.Job.Operation, Material: ask.Job.Material, Diameter: ask.Job.Diameter, Feed: f,
		Spindle: step, Depth: ask.Job.Depth}
	if ask.Length != nil {
		c.Length = *ask.Length
	}
	if ask.Teeth != nil {
		c.Teeth = *ask.Teeth
	}
	if ask.Deep != nil {
		c.Deep = *ask.Deep
	}
	return c
}

// time adds how long the tool is on its way, where a length was given or a hole
// has its depth.
func (ask SpindleQuestion) time(i *book.Item, cut cutting.Cut) error {
	if ask.Length == nil && (ask.Job.Operation != speeds.Drilling || ask.Job.Depth.IsZero()) {
		return nil
	}
	if cut.Feed.PerTooth && cut.Teeth == 0 {
		i.Notes = append(i.Notes, book.Note{Text: "The time is not known without the teeth of the cutter: say -teeth."})
		return nil
	}
	vf, err := cut.FeedSpeed()
	if err != nil {
		return cli.Named("-teeth", err)
	}
	path, err := cut.Path()
	if err != nil {
		return cli.Named("-length", err)
	}
	t, err := path.Time(vf)
	if err != nil {
		return cli.Named("-length", err)
	}
	n := cut.Spindle.In(units.RevPerMinute)
	formula, factors := "(f n)", fmt.Sprintf("(%.3f x %.4g)", cut.Feed.Min.MM(), n)
	if cut.Feed.PerTooth {
		formula, factors = "(fz z n)", fmt.Sprintf("(%.3f x %d x %.4g)", cut.Feed.Min.MM(), cut.Teeth, n)
	}
	i.Values = append(i.Values,
		book.Value{Key: "feed", Label: "slide or table moves", What: book.Number(vf.In(units.MillimetrePerMinute), 1, "mm/min", "mm_min")},
		book.Value{Key: "seconds", Label: "time of a pass", What: book.Number(t.Seconds(), 0, "s", "").Shown(t.Round(time.Second).String())})
	i.Formulas = append(i.Formulas, book.Formula{Text: fmt.Sprintf("t = (l + approach) / %s = (%.4g + %.2f) / %s = %s a pass",
		formula, path.Length.MM(), path.Approach.MM(), factors, t.Round(time.Second))})
	return nil
}

// motor adds the force of the cut and says whether the motor carries it.
func (ask SpindleQuestion) motor(i *book.Item, cut cutting.Cut) (finding.List, error) {
	if ask.Motor == nil {
		return nil, nil
	}
	load, err := cut.Load()
	switch {
	case errors.Is(err, units.ErrUnknown):
		i.Notes = append(i.Notes, book.Note{Text: "We have no figure of the cutting force in " + cut.Material.String() + "."})
		return nil, nil
	case err != nil:
		return nil, cli.Named("-cut", err)
	}
	worked := fmt.Sprintf("T = kc f d^2 / 8 = %.2g N m", load.Torque.In(units.NewtonMetre))
	if cut.Operation != speeds.Drilling {
		worked = fmt.Sprintf("F = kc a f = %.0f N/mm2 x %.4g x %.3f = %.0f N, %.2g N m at the spindle",
			load.Force.In(units.Newton)/(cut.Deep.MM()*cut.Feed.Min.MM()), cut.Deep.MM(), cut.Feed.Min.MM(),
			load.Force.In(units.Newton), load.Torque.In(units.NewtonMetre))
	}
	check, err := cutting.CheckMotor(load, *ask.Motor, cutting.BeltDrive)
	if err != nil {
		return nil, cli.Named("-motor", err)
	}
	i.Values = append(i.Values,
		book.Value{Key: "torque", What: book.Number(load.Torque.In(units.NewtonMetre), 2, "N m", "nm")},
		book.Value{Key: "needed", Label: "at the motor", What: book.Number(check.Needed.In(units.Watt), 0, "W", "w"),
			Remark: fmt.Sprintf("of %.0f W, %.0f %% (drive taken at %.2f)", ask.Motor.In(units.Watt), 100*check.Share, cutting.BeltDrive)},
		book.Value{Key: "motor_share", What: book.Share(check.Share, 0)})
	i.Formulas = append(i.Formulas, book.Formula{Text: worked + ", give or take 30 %", Refs: load.Refs})
	return check.Findings, nil
}

// drilling is how to grind the drill and how large its hole comes out, as far as
// there are figures.
func (ask SpindleQuestion) drilling(speeds.Plan) (book.Section, finding.List, error) {
	if ask.Job.Operation != speeds.Drilling {
		return book.Section{}, nil, nil
	}
	i := book.Item{Values: []book.Value{
		{Key: "point", Label: "drill point", What: book.Angle(cutting.UsualPoint, 0), Remark: "as drills are sold", Refs: source.Of(source.Practice())},
	}}
	if p, err := hole.PointFor(ask.Job.Material); err == nil {
		i.Values = []book.Value{
			{Key: "point", Label: "drill point", What: book.Angle(p.Angle, 0), Remark: fmt.Sprintf("%s helix, for %s", p.Helix, p.Material), Refs: p.Refs},
			{Key: "lip_clearance", Label: "lip clearance", What: book.Range(book.Angle(p.ClearanceMin, 0), book.Angle(p.ClearanceMax, 0))},
		}
	}
	if h, err := hole.DrilledFor(ask.Job.Diameter); err == nil {
		size := book.Range(inchFour(h.Min), inchFour(h.Max))
		i.Values = append(i.Values, book.Value{Key: "hole", Label: "hole", What: size, Refs: h.Refs})
	}
	return book.Section{Key: "drilling", Items: []book.Item{i}}, nil, nil
}

// inchFour is a length to hundredths of a millimetre and tenths of a thou.
func inchFour(l units.Length) book.Quantity {
	return book.Length(l, 2).Millimetres().And(book.Length(l, 3).Inches())
}

// reaming is the hole to drill, by rule, and the drills at hand.
func (ask SpindleQuestion) reaming(speeds.Plan) (book.Section, finding.List, error) {
	if ask.Job.Operation != speeds.Reaming {
		return book.Section{}, nil, nil
	}
	holes, err := hole.ReamingFor(ask.Job.Diameter, ask.Job.Material)
	if err != nil {
		return book.Section{}, nil, cli.Named("-d", err)
	}
	s := book.Section{Key: "reaming", List: true}
	var findings finding.List
	for n, h := range holes {
		i := book.Item{Values: []book.Value{
			{Key: "drill", Label: "drill first", What: book.Range(inchFour(h.Min), inchFour(h.Max)), Remark: h.Rule, Refs: h.Refs},
		}}
		if ask.Drills.Len() > 0 {
			mine, err := h.Drills(ask.Drills)
			if err != nil {
				return book.Section{}, nil, cli.Named("-own", err)
			}
			var names []string
			for _, d := range mine.Sizes {
				names = append(names, d.String())
			}
			what := book.Never(book.Words(nil), "none is inside it")
			if names != nil {
				what = book.Words(names).Shown(strings.Join(names, ", "))
			}
			i.Values = append(i.Values, book.Value{Key: "own", Label: "yours", What: what})
			if n == 0 { // the rule that is followed
				findings = mine.Findings
			}
		}
		s.Items = append(s.Items, i)
	}
	first := &s.Items[0]
	first.Values = append(first.Values, book.Value{Key: "never_below", Label: "never below", What: book.Length(holes[0].NeverBelow, 2)})
	first.Notes = []book.Note{{Text: "Try it in scrap first, and do not mix up hand and machine reamers: a hand reamer starts" +
		" tapered and wants the lighter cut.", Refs: source.Of(source.Practice())}}
	return s, findings, nil
}
