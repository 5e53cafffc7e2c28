package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const shoulder = 90 * units.Degree // the edge of a tool that cuts one

// feed prints the feed to start from and, where the step is known, how long the
// cut takes and whether the motor carries it. Operations that have no feed say
// so.
func (q *question) feed(w io.Writer, plan speeds.Plan) (finding.List, error) {
	j := q.job
	f, err := speeds.FeedFor(j.Operation, j.Material, j.Diameter)
	if err != nil {
		reason := err.Error()
		var bad *units.ArgumentError
		if errors.As(err, &bad) && bad.Problem != "" {
			reason = bad.Problem
		}
		line(w, "feed", reason)
		return nil, nil
	}
	f.Min, f.Max = f.Min.Scale(plan.Feed), f.Max.Scale(plan.Feed)
	line(w, "feed", fmt.Sprintf("%s per %s (%s); %v", spanOf(f.Min, f.Max, units.Millimetres, 3), f.Per(),
		spanOf(f.Min, f.Max, units.Thousandths, 1), f.Refs.First()))
	for _, more := range []string{f.Stands, f.Note} {
		if more != "" {
			line(w, "", more)
		}
	}
	step := plan.Choice.Step.Speed
	if step == 0 || !plan.Findings.OK() {
		if !q.length.IsZero() || q.motor != 0 {
			line(w, "time, motor", "not without a machine that can do it: say -machine")
		}
		return nil, nil
	}
	if err := q.time(w, f, step); err != nil {
		return nil, err
	}
	return q.load(w, f, step)
}

// time prints how long the tool is on its way.
func (q *question) time(w io.Writer, f speeds.Feed, step units.RotationalSpeed) error {
	if q.length.IsZero() && q.job.Operation == speeds.Drilling {
		q.length = q.job.Depth
	}
	if q.length.IsZero() {
		return nil
	}
	if f.PerTooth && q.teeth == 0 {
		line(w, "time", "not without the teeth of the cutter: say -teeth")
		return nil
	}
	vf, err := cutting.TableFeed(step, f.Min, max(q.teeth, 1))
	if err != nil {
		return err
	}
	path := cutting.Path{Length: q.length, Approach: units.MM(2)} // a hand's caution
	switch q.job.Operation {
	case speeds.Drilling:
		path.Approach, err = cutting.PointLength(q.job.Diameter, cutting.UsualPoint)
	case speeds.Milling:
		path.Approach = q.job.Diameter.Scale(0.5)
	}
	if err != nil {
		return err
	}
	t, err := path.Time(vf)
	if err != nil {
		return err
	}
	formula, factors := "(f n)", fmt.Sprintf("(%.3f x %.4g)", f.Min.MM(), step.In(units.RevPerMinute))
	if f.PerTooth {
		formula, factors = "(fz z n)", fmt.Sprintf("(%.3f x %d x %.4g)", f.Min.MM(), q.teeth, step.In(units.RevPerMinute))
	}
	line(w, "time", fmt.Sprintf("t = (l + approach) / %s = (%.4g + %.2f) / %s = %s a pass",
		formula, q.length.MM(), path.Approach.MM(), factors, t.Round(time.Second)))
	return nil
}

// load prints the force of the cut and whether the motor carries it.
func (q *question) load(w io.Writer, f speeds.Feed, step units.RotationalSpeed) (finding.List, error) {
	if q.motor == 0 {
		return nil, nil
	}
	k, err := cutting.KienzleFor(q.job.Material)
	if err != nil {
		line(w, "motor", "we have no figure of the cutting force in "+q.job.Material.String())
		return nil, nil
	}
	var load cutting.Load
	var worked string
	if q.job.Operation == speeds.Drilling {
		if load, err = cutting.DrillingLoad(k, q.job.Diameter, f.Min, cutting.UsualPoint, step); err != nil {
			return nil, err
		}
		worked = fmt.Sprintf("T = kc f d^2 / 8 = %.2g N m", float64(load.Torque))
	} else {
		if load, err = cutting.TurningLoad(k, q.job.Diameter, q.cut, f.Min, shoulder, step); err != nil {
			return nil, err
		}
		kc, err := k.At(f.Min)
		if err != nil {
			return nil, err
		}
		worked = fmt.Sprintf("F = kc a f = %.0f N/mm2 x %.4g x %.3f = %.0f N, %.2g N m at the spindle",
			kc.In(units.Megapascal), q.cut.MM(), f.Min.MM(), float64(load.Force), float64(load.Torque))
	}
	check, err := cutting.CheckMotor(load, q.motor, cutting.BeltDrive)
	if err != nil {
		return nil, err
	}
	line(w, "force", fmt.Sprintf("%s, give or take 30 %%; %v", worked, load.Refs))
	line(w, "motor", fmt.Sprintf("%.0f W at the motor of %.0f W, %.0f %% (drive taken at %.2f)",
		float64(check.Needed), float64(q.motor), 100*check.Share, cutting.BeltDrive))
	return check.Findings, nil
}

// drilling prints how to grind the drill and how large its hole comes out, as far
// as there are figures.
func (q *question) drilling(w io.Writer, _ speeds.Plan) (finding.List, error) {
	if q.job.Operation != speeds.Drilling {
		return nil, nil
	}
	if p, err := hole.PointFor(q.job.Material); err != nil {
		line(w, "drill point", "the usual 118 deg")
	} else {
		line(w, "drill point", fmt.Sprintf("%.0f deg, lip clearance %.0f to %.0f deg, %s helix, for %s; %v",
			p.Angle.Degrees(), p.ClearanceMin.Degrees(), p.ClearanceMax.Degrees(), p.Helix, p.Material, p.Refs))
	}
	if h, err := hole.DrilledFor(q.job.Diameter); err == nil {
		line(w, "hole", fmt.Sprintf("%s; %v", inBoth(h.Min, h.Max), h.Refs))
	}
	return nil, nil
}

// reaming prints the hole to drill, by rule, and the drills at hand.
func (q *question) reaming(w io.Writer, _ speeds.Plan) (finding.List, error) {
	if q.job.Operation != speeds.Reaming {
		return nil, nil
	}
	holes, err := hole.ReamingFor(q.job.Diameter, q.job.Material)
	if err != nil {
		return nil, err
	}
	var findings finding.List
	for i, h := range holes {
		line(w, "drill first", fmt.Sprintf("%s: %s; %v", inBoth(h.Min, h.Max), h.Rule, h.Refs.First()))
		if q.drills.Len() == 0 {
			continue
		}
		mine, err := h.Drills(q.drills)
		if err != nil {
			return nil, err
		}
		text := "none of your drills is inside it"
		if len(mine.Sizes) > 0 {
			var all []string
			for _, d := range mine.Sizes {
				all = append(all, d.String())
			}
			text = "yours: " + strings.Join(all, ", ")
		}
		line(w, "", text)
		if i == 0 { // the rule that is followed
			findings = mine.Findings
		}
	}
	line(w, "", "never below "+both(holes[0].NeverBelow)+"; try it in scrap first, and do not mix up hand and machine reamers: a hand reamer starts tapered and wants the lighter cut")
	return findings, nil
}
