// Spindle says what to set on a lathe, drill or mill: the cutting speed and
// where it is from, the spindle speed with the formula worked, the step of the
// machine, feed and minutes, and what to mind.
//
//	go run ./examples/spindle -machine "cone 600 355 210, back gear 6:1" -d "80 mm" -material "cast iron" facing
//
// It exits with 1 when the job is refused, with reasons and remedies, and with
// 2, and nothing but the reason, when it was asked something it cannot answer.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// A question is what the command line asks.
type question struct {
	job       speeds.Job
	running   units.RotationalSpeed // what it runs at now
	speed     units.Speed           // the builder's own cutting speed
	length    units.Length
	cut       units.Length
	motor     units.Power
	chuck     units.RotationalSpeed
	wheel     units.RotationalSpeed
	drills    gauge.Set
	published bool
}

func run(args []string, stdout, stderr io.Writer) int {
	q := question{job: speeds.Job{Tool: speeds.HSS}}
	flags := flag.NewFlagSet("spindle", flag.ContinueOnError)
	flags.SetOutput(stderr)
	text(flags, &q.job.Machine, "machine", `spindle speeds in rev/min: "60 110 200 360", "50-2500", "low 50-1100, high 100-2500" or "cone 600 355 210, back gear 6:1"`)
	text(flags, &q.job.Diameter, "d", "`diameter` that governs: of the work, the bore, the rim that is faced, the drill or the cutter")
	text(flags, &q.job.Material, "material", "what is cut: `name`, such as \"mild steel\", \"cast iron, skin on\", \"gunmetal\" or EN8")
	text(flags, &q.job.Tool, "tool", "what cuts: HSS, carbide, \"carbon steel\" or \"early HSS\"; HSS without it")
	text(flags, &q.speed, "v", "the builder's own cutting `speed`, such as \"25 m/min\", in place of the published one")
	text(flags, &q.running, "n", "a `speed` the machine runs at now, to be judged")
	text(flags, &q.job.Depth, "depth", "`depth` of a hole")
	text(flags, &q.length, "length", "`length` of the cut, for the minutes; a disc that is faced has half its diameter")
	text(flags, &q.cut, "cut", "`depth` of cut on the radius, for the motor")
	text(flags, &q.motor, "motor", "`power` of the motor, such as \"350 W\"")
	text(flags, &q.job.CentreHeight, "centre", "`height` of the centres over the bed or slide")
	text(flags, &q.job.Reach, "reach", "`length` that a parting blade reaches")
	text(flags, &q.job.Overhang, "overhang", "`length` that a tool or boring bar stands out")
	text(flags, &q.job.Section, "section", "`height` of that tool or bar")
	text(flags, &q.chuck, "chuck", "`speed` marked on the chuck")
	text(flags, &q.wheel, "wheel", "the part is an iron flywheel and will run at this `speed`")
	text(flags, &q.drills, "own", "drills in the `drawer`, for the hole before a reamer: \"1-13x0.1 mm, #1-#60\"")
	flags.BoolVar(&q.published, "published", false, "list every published cutting speed for the pairing")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: spindle -d DIAMETER -material NAME [flags] OPERATION; -h lists the flags")
	}
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		fmt.Fprintln(stderr, "OPERATION is one of", names(speeds.Operations()))
		flags.PrintDefaults()
		return 0
	case err != nil:
		return 2
	}
	fail := func(err error) int {
		fmt.Fprintln(stderr, "spindle:", err)
		return 2
	}
	var err error
	if q.job.Operation, err = speeds.ParseOperation(strings.Join(flags.Args(), " ")); err != nil {
		return fail(err)
	}
	if q.job.Material == 0 {
		return fail(fmt.Errorf("-material is missing; accepted: %s", names(speeds.Materials())))
	}
	if q.job.Diameter.IsZero() {
		return fail(fmt.Errorf("-d is missing; accepted: %s, such as \"80 mm\" or \"3 1/8 in\"", q.job.Operation.GoverningDiameter()))
	}
	if q.speed != 0 {
		q.job.Low, q.job.High = q.speed, q.speed
	}
	if q.chuck != 0 {
		q.job.Limits = append(q.job.Limits, speeds.Limit{Speed: q.chuck, Reason: "the speed marked on the chuck", Ref: source.Ref{Kind: source.CommonPractice}})
	}
	plan, err := q.job.Plan()
	if err != nil {
		return fail(err)
	}
	var out bytes.Buffer
	ok, err := q.report(&out, plan)
	if err != nil {
		return fail(err)
	}
	if _, err := stdout.Write(out.Bytes()); err != nil {
		return fail(err)
	}
	if !ok {
		return 1
	}
	return 0
}

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
		line(w, "source", fmt.Sprintf("%v; there for %s, %s, %s", r.Published.Ref, r.Published.Material, r.Published.Tool, r.Published.Period))
	}
	if r.Rules.Kind != 0 {
		line(w, "", "share: "+r.Rules.String())
	}
	worked := func(v units.Speed, n units.RotationalSpeed) string {
		return fmt.Sprintf("n = 1000 V / (pi d) = 1000 x %.4g / (3.1416 x %.5g) = %.4g rev/min", float64(v/units.MetrePerMinute), j.Diameter.MM(), float64(n/units.RevPerMinute))
	}
	line(w, "spindle", worked(r.Low, plan.Low))
	if plan.High != plan.Low {
		line(w, "", worked(r.High, plan.High))
	}
	if plan.Choice.Step.Speed > 0 {
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
	line(w, "rule of thumb", fmt.Sprintf("%v gives %.4g rev/min, %+.1f %%", rule, float64(n/units.RevPerMinute), 100*excess))
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
	if f.Note != "" {
		line(w, "", f.Note)
	}
	step := plan.Choice.Step.Speed
	if step == 0 || f.PerTooth {
		return nil
	}
	if q.length.Sign() > 0 {
		vf, err := cutting.FeedSpeed(step, f.Low)
		if err != nil {
			return err
		}
		path := cutting.Path{Length: q.length, Approach: units.MM(2)}
		if j.Operation == speeds.Drilling {
			if path.Approach, err = cutting.PointLength(j.Diameter, 118*units.Degree); err != nil {
				return err
			}
		}
		t, err := path.Time(vf)
		if err != nil {
			return err
		}
		line(w, "time", fmt.Sprintf("t = (l + approach) / (f n) = (%.4g + %.2f) / (%.3f x %.4g) = %s a pass", q.length.MM(), path.Approach.MM(), f.Low.MM(), float64(step/units.RevPerMinute), t.Round(time.Second)))
	}
	if q.cut.Sign() > 0 && q.motor > 0 {
		k, err := cutting.KienzleFor(j.Material)
		if err != nil {
			return err
		}
		load, err := cutting.TurningLoad(k, j.Diameter, q.cut, f.Low, 90*units.Degree, step)
		if err != nil {
			return err
		}
		check, err := cutting.CheckMotor(load, q.motor, 0.75)
		if err != nil {
			return err
		}
		line(w, "force", fmt.Sprintf("%.0f N, %.2g N m at the spindle, give or take 30 %%; %v", float64(load.Force), float64(load.Torque), k.Ref))
		line(w, "motor", check.Text+" (drive taken at 0.75)")
	}
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
