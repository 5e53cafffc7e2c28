package pages

import (
	"errors"
	"fmt"
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
func (s spindle) feed(plan speeds.Plan) (book.Section, finding.List, error) {
	f, values, err := feedOf(s.job, plan)
	if err != nil {
		return book.Section{}, nil, cli.Named("-d", err)
	}
	section := func(i book.Item) book.Section { return book.Section{Key: "cut", Items: []book.Item{i}} }
	i := book.Item{Values: values}
	if s.job.Operation == speeds.Screwcutting {
		return s.threading(i, plan)
	}
	if f.Min.IsZero() {
		if s.Length != nil {
			i.Notes = append(i.Notes, book.Note{Text: "The time is not known where the feed is not."})
		}
		return section(i), nil, nil
	}
	if f.Note != "" {
		i.Notes = append(i.Notes, book.Note{Text: "Feed: " + f.Note + "."})
	}
	step, ok, err := s.cutsAt(plan)
	if err != nil {
		return book.Section{}, nil, cli.Named("-n", err)
	}
	if s.job.Operation == speeds.SlotMilling {
		values, err := slotOf(s.cut(f, step), s.Drills)
		if err != nil {
			return book.Section{}, nil, cli.Named("-d", err)
		}
		i.Values = append(i.Values, values...)
	}
	if !ok {
		return s.withoutSpeed(i, f, plan)
	}
	cut := s.cut(f, step)
	if err := s.time(&i, cut); err != nil {
		return book.Section{}, nil, err
	}
	findings, err := s.motor(&i, cut)
	return section(i), findings, err
}

// cutsAt is the spindle speed that feed, minutes and motor are worked out at: the one
// that runs, else the one to set; not where there is none, or what there is is refused.
func (s spindle) cutsAt(plan speeds.Plan) (n units.RotationalSpeed, ok bool, err error) {
	if s.Running == nil {
		n, ok = plan.Set()
		return n, ok, nil
	}
	found, err := s.job.Check(*s.Running)
	return *s.Running, plan.Findings.OK() && found.OK(), err
}

// withoutSpeed is what is known of a cut that has no spindle speed: how fast the table
// moves under a milling cutter, at the most that suits.
func (s spindle) withoutSpeed(i book.Item, f speeds.Feed, plan speeds.Plan) (book.Section, finding.List, error) {
	refused := s.Running != nil || !plan.Findings.OK()
	switch {
	case s.Length == nil && s.Motor == nil:
	case refused:
		i.Notes = append(i.Notes, book.Note{Text: "Time and motor are not told of what is refused."})
	default:
		i.Notes = append(i.Notes, book.Note{Text: "Time and motor are not known without a spindle speed: say -machine, or -n."})
	}
	if !refused && s.job.Operation.Mills() {
		n := plan.Most()
		vf, err := tableFeed(s.cut(f, n), "at "+figures(n.In(units.RevPerMinute), 4)+" rev/min")
		if err != nil {
			return book.Section{}, nil, cli.Named("-teeth", err)
		}
		i.Values = append(i.Values, vf...)
	}
	return book.Section{Key: "cut", Items: []book.Item{i}}, nil, nil
}

// threading adds how fast the tool goes along, at the speed at which the machine
// runs, else at the one that is set, else at the most that is wanted.
func (s spindle) threading(i book.Item, plan speeds.Plan) (book.Section, finding.List, error) {
	n := s.runs(plan)
	values, err := alongThread(s.job, n, s.Length)
	if err != nil {
		return book.Section{}, nil, cli.Named("-pitch", err)
	}
	i.Values = append(i.Values, values...)
	i.Formulas = append(i.Formulas, book.Formula{Text: fmt.Sprintf("v = p n = %s mm x %s / 60 s = %s mm/s", figures(s.job.Pitch.MM(), 4),
		figures(n.In(units.RevPerMinute), 4), figures(s.job.Pitch.MM()*n.In(units.RevPerSecond), 3))})
	if s.Length == nil {
		i.Notes = append(i.Notes, book.Note{Text: "For the time to the shoulder say how long the thread is: -length."})
	}
	return book.Section{Key: "cut", Items: []book.Item{i}}, nil, nil
}

func (s spindle) cut(f speeds.Feed, step units.RotationalSpeed) cutting.Cut {
	c := cutting.Cut{Operation: s.job.Operation, Material: s.job.Material, Diameter: s.job.Diameter, Feed: f,
		Spindle: step, Depth: s.job.Depth}
	if s.Length != nil {
		c.Length = *s.Length
	}
	if s.Teeth != nil {
		c.Teeth = *s.Teeth
	}
	if s.Deep != nil {
		c.Deep = *s.Deep
	}
	if s.Width != nil {
		c.Width = *s.Width
	}
	if c.Operation == speeds.SlotMilling {
		c.Stock, c.Depth = c.Depth, units.Length{}
	}
	return c
}

// time adds how long the tool is on its way, where a length was given or a hole
// has its depth.
func (s spindle) time(i *book.Item, cut cutting.Cut) error {
	known := cut.Operation == speeds.Parting || cut.Operation == speeds.Drilling && !cut.Depth.IsZero() // of itself
	each := cut.Feed.PerTooth && cut.Teeth == 0
	if cut.Operation.Mills() && (each || s.Length == nil) {
		remark := ""
		if s.Running != nil {
			remark = "at " + figures(cut.Spindle.In(units.RevPerMinute), 4) + " rev/min"
		}
		v, err := tableFeed(cut, remark)
		if err != nil {
			return cli.Named("-teeth", err)
		}
		i.Values = append(i.Values, v...)
	}
	if s.Length == nil && !known {
		return nil
	}
	if cut.Operation == speeds.Milling && cut.Teeth == 1 {
		i.Notes = append(i.Notes, book.Note{Text: "A cutter of one tooth is a fly cutter: ask for fly cutting, which feeds it as a turning tool."})
	}
	if each {
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
	name := "time of a pass"
	if path.Passes > 1 {
		name = "cutting time"
	}
	n := figures(cut.Spindle.In(units.RevPerMinute), 4)
	formula, factors := "(f n)", fmt.Sprintf("(%.3f x %s)", cut.Feed.Min.MM(), n)
	if cut.Feed.PerTooth {
		formula, factors = "(fz z n)", fmt.Sprintf("(%.3f x %d x %s)", cut.Feed.Min.MM(), cut.Teeth, n)
	}
	i.Values = append(i.Values,
		feedSpeedOf("slide or table moves", vf),
		book.Value{Key: "seconds", Label: name, What: book.Number(t.Seconds(), 0, "s", "").Shown(t.Round(time.Second).String())})
	worked := fmt.Sprintf("t = (l + approach) / %s = (%s + %.2f) / %s = %s a pass",
		formula, figures(path.Length.MM(), 4), path.Approach.MM(), factors, t.Round(time.Second))
	switch {
	case cut.Operation == speeds.SlotMilling:
		i.Values = append(i.Values, book.Value{Key: "passes", Label: "passes", What: book.Count(max(path.Passes, 1)),
			Remark: "down, without the hands and the chips"})
		worked = fmt.Sprintf("t = passes l / %s = %d x %s / %s = %s", formula, max(path.Passes, 1), figures(path.Length.MM(), 4), factors,
			t.Round(time.Second))
	case path.Overrun.Sign() > 0:
		worked = fmt.Sprintf("t = (l + d) / %s = (%s + %s) / %s = %s a pass, clear of the work at both ends", formula,
			figures(path.Length.MM(), 4), figures(cut.Diameter.MM(), 4), factors, t.Round(time.Second))
	}
	i.Formulas = append(i.Formulas, book.Formula{Text: worked})
	return nil
}

// motor adds the force of the cut and says whether the motor carries it.
func (s spindle) motor(i *book.Item, cut cutting.Cut) (finding.List, error) {
	if s.Motor == nil {
		return nil, nil
	}
	load, err := cut.Load()
	switch {
	case errors.Is(err, units.ErrUnknown):
		i.Notes = append(i.Notes, noForce(cut))
		return nil, nil
	case err != nil:
		return nil, cli.Named("-cut", err)
	}
	worked := "T = kc f d^2 / 8 = " + figures(load.Torque.In(units.NewtonMetre), 2) + " N m"
	if cut.Operation != speeds.Drilling {
		k, err := cutting.KienzleFor(cut.Material)
		if err != nil {
			return nil, err
		}
		kc, err := k.At(cut.Feed.Min) // the chip of a square edge is as thick as the feed
		if err != nil {
			return nil, cli.Named("-cut", err)
		}
		worked = fmt.Sprintf("F = kc a f = %.0f N/mm2 x %s x %.3f = %.0f N, %s N m at the spindle",
			kc.In(units.Megapascal), figures(cut.Deep.MM(), 4), cut.Feed.Min.MM(),
			load.Force.In(units.Newton), figures(load.Torque.In(units.NewtonMetre), 2))
	}
	check, err := cutting.CheckMotor(load, *s.Motor, cutting.BeltDrive)
	if err != nil {
		return nil, cli.Named("-motor", err)
	}
	i.Values = append(i.Values, loadOf(load, check)...)
	i.Formulas = append(i.Formulas, book.Formula{Refs: load.Refs,
		Text: fmt.Sprintf("%s, give or take 30 %%; the drive taken at %.2f", worked, cutting.BeltDrive)})
	return check.Findings, nil
}

// drilling is how to grind the drill and how large its hole comes out, as far as
// there are figures.
func (s spindle) drilling(speeds.Plan) (book.Section, finding.List, error) {
	if s.job.Operation != speeds.Drilling {
		return book.Section{}, nil, nil
	}
	i := book.Item{Values: []book.Value{
		{Key: "point", Label: "drill point", What: book.Angle(cutting.UsualPoint, 0), Remark: "as drills are sold", Refs: source.Of(source.Practice())},
	}}
	if p, err := hole.PointFor(s.job.Material); err == nil {
		i.Values = []book.Value{
			{Key: "point", Label: "drill point", What: book.Angle(p.Angle, 0), Remark: fmt.Sprintf("%s helix, for %s", p.Helix, p.Material), Refs: p.Refs},
			{Key: "lip_clearance", Label: "lip clearance", What: book.Range(book.Angle(p.ClearanceMin, 0), book.Angle(p.ClearanceMax, 0))},
		}
	}
	if h, err := hole.DrilledFor(s.job.Diameter); err == nil {
		size := book.Range(inchFour(h.Min), inchFour(h.Max))
		i.Values = append(i.Values, book.Value{Key: "hole", Label: "hole", What: size, Refs: h.Refs})
	}
	tip, err := drilledTo(s.job)
	i.Values = append(i.Values, tip...)
	return book.Section{Key: "drilling", Items: []book.Item{i}}, nil, err
}

// reaming is the hole to drill, by rule, and the drills at hand.
func (s spindle) reaming(speeds.Plan) (book.Section, finding.List, error) {
	if s.job.Operation != speeds.Reaming {
		return book.Section{}, nil, nil
	}
	holes, err := hole.ReamingFor(s.job.Diameter, s.job.Material)
	if err != nil {
		return book.Section{}, nil, cli.Named("-d", err)
	}
	section := book.Section{Key: "reaming", List: true}
	var findings finding.List
	for n, h := range holes {
		values, _, err := drillFirst(h, s.Drills)
		if err != nil {
			return book.Section{}, nil, cli.Named("-own", err)
		}
		if n == 0 { // the rule that is followed
			var take book.Value
			if take, findings, err = takeFirst(s.job.Diameter, s.job.Material, s.Drills); err != nil {
				return book.Section{}, nil, cli.Named("-own", err)
			}
			values = append([]book.Value{take}, values...)
			values = append(values, book.Value{Key: "never_below", Label: "never below", What: book.Length(h.NeverBelow, 2)})
		}
		section.Items = append(section.Items, book.Item{Values: values})
	}
	section.Items[0].Notes = []book.Note{{Text: "Try it in scrap first, and do not mix up hand and machine reamers: a hand reamer" +
		" starts tapered and wants the lighter cut.", Refs: source.Of(source.Practice())}}
	return section, findings, nil
}
