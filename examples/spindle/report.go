package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// report prints the plan and what goes with it, what can hurt somebody first, and
// says whether the job stands.
func (q *question) report(w io.Writer, plan speeds.Plan) (bool, error) {
	findings := slices.Clone(plan.Findings)
	var body bytes.Buffer
	q.speeds(&body, plan)
	for _, part := range []func(io.Writer, speeds.Plan) (finding.List, error){
		q.machine, q.rules, q.judge, q.feed, q.drilling, q.balance, q.reaming, q.rim, q.all,
	} {
		more, err := part(&body, plan)
		if err != nil {
			return false, err
		}
		findings = append(findings, more...)
	}
	findings.Sort()
	dangers := 0
	for dangers < len(findings) && findings[dangers].Severity == finding.Danger {
		dangers++
	}
	heading(w, strings.ToUpper(q.job.Operation.String())+" "+q.job.Material.String()+" with "+q.job.Tool.String())
	q.findings(w, plan, findings[:dangers])
	if _, err := body.WriteTo(w); err != nil {
		return false, err
	}
	if dangers < len(findings) {
		heading(w, "FINDINGS")
		q.findings(w, plan, findings[dangers:])
	}
	heading(w, "MIND")
	for _, p := range plan.Range.Precautions() {
		bullet(w, "safety: ", fmt.Sprintf("%s (%v)", p.Text, p.Ref))
	}
	for _, a := range plan.Range.Advice() {
		bullet(w, a.Kind+": ", fmt.Sprintf("%s (%v)", a.Text, a.Refs))
	}
	return findings.OK(), nil
}

// findings prints findings with remedies and, where it is not that of the cutting
// speed, which is printed already, the source.
func (q *question) findings(w io.Writer, plan speeds.Plan, all finding.List) {
	for _, f := range all {
		from := ""
		if !f.Refs.IsZero() && !f.Refs.Equal(plan.Range.Refs) {
			from = " (" + f.Refs.String() + ")"
		}
		bullet(w, f.Severity.String()+": ", f.Text+from)
		for _, remedy := range f.Remedies {
			hang(w, "      > ", remedy)
		}
	}
}

// speeds prints the cutting speed, where it is from, and the spindle speeds with
// the formula worked.
func (q *question) speeds(w io.Writer, plan speeds.Plan) {
	j, r := q.job, plan.Range
	line(w, "diameter", both(j.Diameter)+": "+j.Operation.GoverningDiameter())
	line(w, "cutting speed", fmt.Sprintf("%s (%s)", span(r.Min.In(units.MetrePerMinute), r.Max.In(units.MetrePerMinute), "m/min"),
		span(r.Min.In(units.FootPerMinute), r.Max.In(units.FootPerMinute), "ft/min")))
	if r.Basis != "" {
		line(w, "", r.Basis)
	}
	first := true
	for ref := range r.Refs.All() {
		if first {
			line(w, "source", fmt.Sprintf("%v; there for %s with %s (%s)", ref, r.Published.Material, r.Published.Tool, r.Published.Period))
		} else {
			line(w, "", "share: "+ref.String())
		}
		first = false
	}
	worked := func(v units.Speed, n units.RotationalSpeed) string {
		return fmt.Sprintf("= 1000 x %.4g / (3.1416 x %.5g) = %.4g rev/min", v.In(units.MetrePerMinute), j.Diameter.MM(), n.In(units.RevPerMinute))
	}
	line(w, "spindle", "n = 1000 V / (pi d)")
	line(w, "", worked(r.Min, plan.Min))
	if plan.Max != plan.Min {
		line(w, "", worked(r.Max, plan.Max))
	}
}

// machine lists the speeds of the machine, or the ends of each gear, with the
// surface speed that each of them gives, and the step to set.
func (q *question) machine(w io.Writer, plan speeds.Plan) (finding.List, error) {
	var all []string
	for _, s := range q.job.Machine.Steps() {
		v, err := speeds.CuttingSpeed(s.Speed, q.job.Diameter)
		if err != nil {
			return nil, err
		}
		all = append(all, fmt.Sprintf("%.4g (%.3g)", s.Speed.In(units.RevPerMinute), v.In(units.MetrePerMinute)))
	}
	if all != nil {
		line(w, "machine", strings.Join(all, ", ")+" rev/min (m/min)")
	}
	switch {
	case !plan.Findings.OK():
		line(w, "no speed", "the job is refused: the findings say why")
	case plan.Choice.Step.Speed > 0:
		line(w, "set", fmt.Sprintf("%v: the edge meets %s", plan.Choice.Step, surface(plan.Speed)))
	}
	return nil, nil
}

// rules shows what the rules of the shop make of the faster end.
func (q *question) rules(w io.Writer, plan speeds.Plan) (finding.List, error) {
	rule, v := speeds.FourVOverD, plan.Range.Max
	if q.job.Operation == speeds.Drilling && q.job.Material.Name == "mild steel" && q.job.Tool == speeds.HSS {
		rule = speeds.TenThousandOverD
	}
	n, err := rule.SpindleSpeed(v, q.job.Diameter)
	if err != nil {
		return nil, err
	}
	excess, err := rule.Excess(v)
	if err != nil {
		return nil, err
	}
	worked, in := fmt.Sprintf("4 x %.4g / %.4g", v.In(units.FootPerMinute), q.job.Diameter.Inch()), "V in ft/min, D in inches"
	if rule == speeds.TenThousandOverD {
		worked, in = fmt.Sprintf("10,000 / %.4g", q.job.Diameter.MM()), "D in mm"
	}
	line(w, "rule of thumb", fmt.Sprintf("n = %v = %s = %.4g rev/min, %+.1f %%; %s", rule, worked, n.In(units.RevPerMinute), 100*excess, in))
	return nil, nil
}

// judge says what the speed at which the machine runs now does.
func (q *question) judge(w io.Writer, _ speeds.Plan) (finding.List, error) {
	if q.running == 0 {
		return nil, nil
	}
	v, err := speeds.CuttingSpeed(q.running, q.job.Diameter)
	if err != nil {
		return nil, err
	}
	findings, err := q.job.Check(q.running)
	if err != nil {
		return nil, err
	}
	verdict := ""
	if findings == nil {
		verdict = ": within the range"
	}
	line(w, "as it runs", "v = pi d n / 1000 = "+surface(v)+verdict)
	return findings, nil
}

// balance prints what goes round with work that is set over.
func (q *question) balance(w io.Writer, plan speeds.Plan) (finding.List, error) {
	if q.work.Mass == 0 {
		return nil, nil
	}
	n := plan.Choice.Step.Speed
	if n == 0 {
		n = plan.Max
	}
	force, err := q.work.Force(n)
	if err != nil {
		return nil, err
	}
	radius := q.job.Diameter.Scale(0.5)
	opposite, err := q.work.Counterweight(radius)
	if err != nil {
		return nil, err
	}
	line(w, "out of balance", fmt.Sprintf("F = m e w^2 = %.3g kg x %.4g mm x (%.4g rev/min)^2 = %.3g N, round and round; %.2g kg opposite, %s from the axis, balances it",
		float64(q.work.Mass), q.work.Offset.MM(), n.In(units.RevPerMinute), float64(force), float64(opposite), both(radius)))
	for _, p := range q.work.Precautions() {
		line(w, "", fmt.Sprintf("%s (%v)", p.Text, p.Ref))
	}
	return nil, nil
}

// rim judges the rim of the flywheel that the part is.
func (q *question) rim(w io.Writer, _ speeds.Plan) (finding.List, error) {
	if q.wheel == 0 {
		return nil, nil
	}
	rim, err := holding.CheckRim(q.job.Diameter, q.wheel)
	if err != nil {
		return nil, err
	}
	line(w, "in the engine", fmt.Sprintf("rim at %.1f m/s (%.0f ft/min)", float64(rim.Speed), rim.Speed.In(units.FootPerMinute)))
	for _, p := range rim.Precautions {
		line(w, "", fmt.Sprintf("%s (%v)", p.Text, p.Ref))
	}
	return rim.Findings, nil
}

// all lists every published cutting speed for the pairing, when asked to.
func (q *question) all(w io.Writer, _ speeds.Plan) (finding.List, error) {
	if !q.published {
		return nil, nil
	}
	all, err := speeds.PublishedFor(q.job.Operation, q.job.Material, q.job.Tool)
	if err != nil {
		return nil, err
	}
	heading(w, "PUBLISHED FOR THIS PAIRING")
	if len(all) == 0 {
		bullet(w, "", "none was read for the pairing itself; the figure follows from another, as said above")
	}
	for _, p := range all {
		speed := span(p.Min.In(units.MetrePerMinute), p.Max.In(units.MetrePerMinute), "m/min")
		bullet(w, "", fmt.Sprintf("%s, %s (%s) %v %s", speed, p.Material, p.Period, p.Refs, p.Bound))
	}
	return nil, nil
}
