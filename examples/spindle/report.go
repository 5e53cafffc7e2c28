package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// report prints the plan and what goes with it, and says whether the job stands.
func (q *question) report(w io.Writer, plan speeds.Plan) (bool, error) {
	j, r, ok := q.job, plan.Range, plan.OK()
	heading(w, strings.ToUpper(j.Operation.String())+" "+j.Material.String()+" with "+j.Tool.String())
	line(w, "diameter", fmt.Sprintf("%s: %s", both(j.Diameter), j.Operation.GoverningDiameter()))
	line(w, "cutting speed", fmt.Sprintf("%s (%s)", span(float64(r.Low/units.MetrePerMinute), float64(r.High/units.MetrePerMinute), "m/min"), span(float64(r.Low/units.FootPerMinute), float64(r.High/units.FootPerMinute), "ft/min")))
	if r.Basis != "" {
		line(w, "", r.Basis)
	}
	if r.Published.Ref.Kind != 0 {
		line(w, "source", fmt.Sprintf("%v; there for %s with %s (%s)", r.Published.Ref, r.Published.Material, r.Published.Tool, r.Published.Period))
	}
	if r.Rules.Kind != 0 {
		line(w, "", "share: "+r.Rules.String())
	}
	worked := func(v units.Speed, n units.RotationalSpeed) string {
		return fmt.Sprintf("= 1000 x %.4g / (3.1416 x %.5g) = %.4g rev/min", float64(v/units.MetrePerMinute), j.Diameter.MM(), float64(n/units.RevPerMinute))
	}
	line(w, "spindle", "n = 1000 V / (pi d)")
	line(w, "", worked(r.Low, plan.Low))
	if plan.High != plan.Low {
		line(w, "", worked(r.High, plan.High))
	}
	if err := q.machine(w); err != nil {
		return false, err
	}
	switch {
	case !ok:
		line(w, "set", "nothing: the job is refused, see below")
	case plan.Choice.Step.Speed > 0:
		line(w, "set", fmt.Sprintf("%v: the edge meets %s", plan.Choice.Step, surface(plan.Speed)))
	}
	if err := q.rules(w, r); err != nil {
		return false, err
	}
	if q.running != 0 {
		v, err := speeds.CuttingSpeed(q.running, j.Diameter)
		if err != nil {
			return false, err
		}
		verdict := "within the range"
		if v > r.High {
			verdict = fmt.Sprintf("%.1f times the most: it burns the edge", float64(v/r.High))
		} else if v < r.Low {
			verdict = "below the range: slow, and harmless"
		}
		line(w, "as it runs", fmt.Sprintf("v = pi d n / 1000 = %s: %s", surface(v), verdict))
	}
	if err := q.feed(w, plan); err != nil {
		return false, err
	}
	q.drilling(w)
	if err := q.balance(w, plan); err != nil {
		return false, err
	}
	if err := q.reaming(w); err != nil {
		return false, err
	}
	if q.wheel != 0 {
		rim, err := holding.CheckRim(j.Diameter, q.wheel)
		if err != nil {
			return false, err
		}
		line(w, "in the engine", rim.Text)
		line(w, "", "limit: "+rim.Limit.Ref.String())
		ok = ok && rim.Safe
	}
	if q.published {
		all, err := speeds.PublishedRanges(j.Operation, j.Material, j.Tool)
		if err != nil {
			return false, err
		}
		heading(w, "PUBLISHED FOR THIS PAIRING")
		if len(all) == 0 {
			bullet(w, "", "none was read for the pairing itself; the figure follows from another, as said above")
		}
		for _, p := range all {
			bullet(w, "", fmt.Sprintf("%s, %s (%s) %v %s", span(float64(p.Low/units.MetrePerMinute), float64(p.High/units.MetrePerMinute), "m/min"), p.Material, p.Period, p.Ref, p.Bound))
		}
	}
	if len(plan.Findings) > 0 {
		heading(w, "FINDINGS")
		for _, f := range plan.Findings {
			from := ""
			if f.Ref.Kind == source.CommonPractice {
				from = " (common practice)"
			}
			bullet(w, f.Severity.String()+": ", f.Text+from)
			for _, remedy := range f.Remedies {
				hang(w, "      > ", remedy)
			}
		}
	}
	if advice := r.Advice(); len(advice) > 0 {
		heading(w, "MIND")
		for _, a := range advice {
			from := "common practice"
			if a.Ref.Kind != source.CommonPractice {
				from = a.Ref.String()
			}
			bullet(w, a.Kind+": ", a.Text+" ("+from+")")
		}
	}
	return ok, nil
}

// machine lists the speeds of the machine, or the ends of each gear, with the
// surface speed that each of them gives.
func (q *question) machine(w io.Writer) error {
	var all []string
	for _, s := range q.job.Machine.Steps() {
		v, err := speeds.CuttingSpeed(s.Speed, q.job.Diameter)
		if err != nil {
			return err
		}
		all = append(all, fmt.Sprintf("%.4g (%.3g)", float64(s.Speed/units.RevPerMinute), float64(v/units.MetrePerMinute)))
	}
	if all != nil {
		line(w, "machine", strings.Join(all, ", ")+" rev/min (m/min)")
	}
	return nil
}

// rules shows what the rules of the shop make of the faster end.
func (q *question) rules(w io.Writer, r speeds.Range) error {
	rule := speeds.FourVOverD
	if q.job.Operation == speeds.Drilling && q.job.Material == speeds.MildSteel && q.job.Tool == speeds.HSS {
		rule = speeds.TenThousandOverD
	}
	n, err := rule.SpindleSpeed(r.High, q.job.Diameter)
	if err != nil {
		return err
	}
	excess, err := rule.Excess(r.High)
	if err != nil {
		return err
	}
	worked, in := fmt.Sprintf("4 x %.4g / %.4g", float64(r.High/units.FootPerMinute), q.job.Diameter.Inch()), "V in ft/min, D in inches"
	if rule == speeds.TenThousandOverD {
		worked, in = fmt.Sprintf("10,000 / %.4g", q.job.Diameter.MM()), "D in mm"
	}
	line(w, "rule of thumb", fmt.Sprintf("n = %v = %s = %.4g rev/min, %+.1f %%; %s", rule, worked, float64(n/units.RevPerMinute), 100*excess, in))
	return nil
}

// feed prints the feed to start from and, where the step is known, how long the
// cut takes and whether the motor carries it. Operations that have no feed say
// so.
func (q *question) feed(w io.Writer, plan speeds.Plan) error {
	j := q.job
	f, err := speeds.Feeds(j.Operation, j.Material, j.Diameter)
	if err != nil {
		reason := err.Error()
		var bad *units.ArgumentError
		if errors.As(err, &bad) && bad.Problem != "" {
			reason = bad.Problem
		}
		line(w, "feed", reason)
		return nil
	}
	f.Low, f.High = f.Low.Scale(plan.Feed), f.High.Scale(plan.Feed)
	line(w, "feed", fmt.Sprintf("%s per %s (%s); %v", spanOf(f.Low, f.High, units.Millimetres, 3), f.Per(), spanOf(f.Low, f.High, units.Thousandths, 1), f.Ref))
	for _, more := range []string{f.Stands, f.Note} {
		if more != "" {
			line(w, "", more)
		}
	}
	step := plan.Choice.Step.Speed
	if step == 0 || !plan.OK() {
		if q.length.Sign() > 0 || q.motor > 0 {
			line(w, "time, motor", "not without a machine that can do it: say -machine")
		}
		return nil
	}
	if err := q.time(w, f, step); err != nil {
		return err
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
	vf, err := cutting.TableFeed(step, f.Low, max(q.teeth, 1))
	if err != nil {
		return err
	}
	path := cutting.Path{Length: q.length, Approach: units.MM(2)} // a hand's caution
	switch q.job.Operation {
	case speeds.Drilling:
		path.Approach, err = cutting.PointLength(q.job.Diameter, 118*units.Degree)
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
	formula, factors := "(f n)", fmt.Sprintf("(%.3f x %.4g)", f.Low.MM(), float64(step/units.RevPerMinute))
	if f.PerTooth {
		formula, factors = "(fz z n)", fmt.Sprintf("(%.3f x %d x %.4g)", f.Low.MM(), q.teeth, float64(step/units.RevPerMinute))
	}
	line(w, "time", fmt.Sprintf("t = (l + approach) / %s = (%.4g + %.2f) / %s = %s a pass", formula, q.length.MM(), path.Approach.MM(), factors, t.Round(time.Second)))
	return nil
}

// load prints the force of the cut and whether the motor carries it.
func (q *question) load(w io.Writer, f speeds.Feed, step units.RotationalSpeed) error {
	if q.motor == 0 {
		return nil
	}
	k, err := cutting.KienzleFor(q.job.Material)
	if err != nil {
		line(w, "motor", "no figure of the cutting force in "+q.job.Material.String()+" is held")
		return nil
	}
	var load cutting.Load
	var worked string
	if q.job.Operation == speeds.Drilling {
		const point = 118 * units.Degree
		if load, err = cutting.DrillingLoad(k, q.job.Diameter, f.Low, point, step); err != nil {
			return err
		}
		worked = fmt.Sprintf("T = kc f d^2 / 8 = %.2g N m", float64(load.Torque))
	} else {
		const shoulder = 90 * units.Degree
		if load, err = cutting.TurningLoad(k, q.job.Diameter, q.cut, f.Low, shoulder, step); err != nil {
			return err
		}
		kc, err := k.At(f.Low)
		if err != nil {
			return err
		}
		worked = fmt.Sprintf("F = kc a f = %.0f N/mm2 x %.4g x %.3f = %.0f N, %.2g N m at the spindle", float64(kc/units.Megapascal), q.cut.MM(), f.Low.MM(), float64(load.Force), float64(load.Torque))
	}
	check, err := cutting.CheckMotor(load, q.motor, 0.75)
	if err != nil {
		return err
	}
	line(w, "force", fmt.Sprintf("%s, give or take 30 %%; %v", worked, k.Ref))
	line(w, "motor", check.Text+" (drive taken at 0.75)")
	return nil
}

// drilling prints how to grind the drill and how large its hole comes out, as far
// as there are figures.
func (q *question) drilling(w io.Writer) {
	if q.job.Operation != speeds.Drilling {
		return
	}
	if p, err := speeds.DrillPointFor(q.job.Material); err != nil {
		line(w, "drill point", "the usual 118 deg")
	} else {
		line(w, "drill point", fmt.Sprintf("%.0f deg, lip clearance %.0f to %.0f deg, %s helix, for %s; %v", p.Point.Degrees(), p.ClearanceLow.Degrees(), p.ClearanceHigh.Degrees(), p.Helix, p.Material, p.Ref))
	}
	if h, err := speeds.DrilledHoleSize(q.job.Diameter); err == nil {
		line(w, "hole", fmt.Sprintf("%s (%s); %v", spanOf(h.Min, h.Max, units.Millimetres, 2), spanOf(h.Min, h.Max, units.Inches, 4), h.Ref))
	}
}

// balance prints what goes round with work that is set over.
func (q *question) balance(w io.Writer, plan speeds.Plan) error {
	if q.work.Mass == 0 {
		return nil
	}
	n := plan.Choice.Step.Speed
	if n == 0 {
		n = plan.High
	}
	force, err := q.work.Force(n)
	if err != nil {
		return err
	}
	opposite, err := q.work.Counterweight(q.job.Diameter.Scale(0.5))
	if err != nil {
		return err
	}
	line(w, "out of balance", fmt.Sprintf("F = m e w^2 = %.3g kg x %.4g mm x (%.4g rev/min)^2 = %.3g N, round and round; %.2g kg opposite, %s from the axis, balances it", float64(q.work.Mass), q.work.Offset.MM(), float64(n/units.RevPerMinute), float64(force), float64(opposite), both(q.job.Diameter.Scale(0.5))))
	line(w, "", "what a lathe stands nobody prints: balance by hand with the belt off, start at the lowest speed, stop at the first tremble (common practice)")
	return nil
}

// reaming prints the hole to drill, by rule, and the drills at hand.
func (q *question) reaming(w io.Writer) error {
	if q.job.Operation != speeds.Reaming {
		return nil
	}
	holes, err := speeds.ReamingHoles(q.job.Diameter, q.job.Material)
	if err != nil {
		return err
	}
	for _, h := range holes {
		line(w, "drill first", fmt.Sprintf("%s (%s): %s; %v", spanOf(h.Low, h.High, units.Millimetres, 2), spanOf(h.Low, h.High, units.Inches, 4), h.Rule, h.Ref))
		if q.drills.Len() == 0 {
			continue
		}
		mine, err := h.Drills(q.drills)
		if err != nil {
			return err
		}
		text := "none of your drills is inside it"
		if len(mine) > 0 {
			var all []string
			for _, d := range mine {
				all = append(all, d.String())
			}
			text = "yours: " + strings.Join(all, ", ")
		}
		line(w, "", text)
	}
	line(w, "", "never below "+both(holes[0].Least)+"; try it in scrap first, and do not mix up hand and machine reamers: a hand reamer starts tapered and wants the lighter cut")
	return nil
}
