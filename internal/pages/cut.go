package pages

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// surface is a cutting speed that a spindle speed gives.
func surface(v units.Speed) book.Quantity {
	return book.Number(v.In(units.MetrePerMinute), 1, "m/min", "m_min").
		And(book.Number(v.In(units.FootPerMinute), 0, "ft/min", ""))
}

// published is a cutting speed as printed, to three figures.
func published(v units.Speed) book.Quantity {
	m, ft := figures(v.In(units.MetrePerMinute), 3)+" m/min", figures(v.In(units.FootPerMinute), 3)+" ft/min"
	return surface(v).Shown(m).And(book.Word(ft))
}

// turning is a spindle speed, to four figures.
func turning(n units.RotationalSpeed) book.Quantity {
	v := n.In(units.RevPerMinute)
	return book.Number(v, 0, "rev/min", "rev_min").Shown(figures(v, 4) + " rev/min")
}

// figures prints a number to so many figures, without an exponent, and to the whole
// number where it has more before the point.
func figures(v float64, n int) string {
	text := strconv.FormatFloat(v, 'g', n, 64)
	switch {
	case !strings.Contains(text, "e"):
		return text
	case math.Abs(v) >= 1:
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	mantissa, exponent, _ := strings.Cut(text, "e-")
	places, _ := strconv.Atoi(exponent)
	_, decimals, _ := strings.Cut(mantissa, ".")
	return strconv.FormatFloat(v, 'f', places+len(decimals), 64)
}

// spindleSetting is what is set on the machine, or why nothing is; in JSON alone
// where there is no machine.
func spindleSetting(j speeds.Job, plan speeds.Plan) []book.Value {
	never := func(label, text string) []book.Value {
		return []book.Value{{Key: "set", Label: label, What: book.Never(turning(0), text)}}
	}
	step := plan.Choice.Step
	_, ok := plan.Set()
	switch {
	case ok:
	case forHand(plan):
		return never("no speed", "by hand")
	case plan.Findings.OK() && plan.Limit.Speed > 0: // no machine, and a limit below the edge
		return append(never("", ""), book.Value{Key: "most", Label: "not above", What: turning(plan.Most())})
	case plan.Findings.OK():
		return never("", "")
	case step.Speed == 0 && j.Machine.Slowest().Speed > 0:
		return never("no speed", "no step will do")
	default:
		return never("no speed", "refused")
	}
	remark := []string{step.Name}
	if dial := plan.Choice.Dial; dial > 0 {
		remark = append(remark, fmt.Sprintf("on the dial, rounded down to %.0f rev/min", dial.In(units.RevPerMinute)))
	}
	if j.Operation.ByHandToo() {
		remark = append(remark, "by power")
	}
	return []book.Value{
		{Key: "set", Label: "set", What: turning(step.Speed), Remark: strings.TrimPrefix(strings.Join(remark, ", "), ", ")},
		{Key: "set", Label: "the edge meets", What: surface(plan.Speed)},
	}
}

// forHand reports whether the plan is of what is done by hand, which has no speed of
// any sort.
func forHand(plan speeds.Plan) bool { return plan.Max == 0 }

// wantedLabel is what the spindle speeds that a plan aims for are called: what the edge
// stands is nothing to set where a limit is below it.
func wantedLabel(plan speeds.Plan) string {
	if plan.Limit.Speed > 0 {
		return "the edge alone stands"
	}
	return "spindle"
}

// wantedSpeeds are the spindle speeds and the cutting speed that a plan aims for.
func wantedSpeeds(label, remark string, plan speeds.Plan) (spindle, edge book.Value) {
	r := plan.Range
	spindle = book.Value{Key: "wanted", Label: label, What: book.Range(turning(plan.Min), turning(plan.Max))}
	edge = book.Value{Key: "speed", Label: "cutting speed", What: book.Range(published(r.Min), published(r.Max)),
		Remark: remark, Refs: r.Refs}
	if forHand(plan) { // in JSON alone
		spindle.Label, spindle.What = "", book.Never(turning(0), "")
		edge = book.Value{Key: "speed", What: book.Never(surface(0), "")}
	}
	return spindle, edge
}

// alongThread is how fast the tool goes along a thread, and how long it takes to the
// shoulder where the length of the thread is known.
func alongThread(j speeds.Job, n units.RotationalSpeed, length *units.Length) ([]book.Value, error) {
	v, err := speeds.ThreadSpeed(j.Pitch, n)
	if err != nil {
		return nil, err
	}
	values := []book.Value{{Key: "along", Label: "the tool goes", Remark: fmt.Sprintf("along the thread at %s rev/min", figures(n.In(units.RevPerMinute), 4)),
		What: book.Number(1000*v.In(units.MetrePerSecond), 2, "mm/s", "mm_s")}}
	if length != nil {
		values = append(values, book.Value{Key: "to_shoulder", Label: "to the shoulder", Remark: "from the start of the thread",
			What: book.Number(length.Metres()/v.In(units.MetrePerSecond), 1, "s", "s")})
	}
	return values, nil
}

// differing tells what other sources give for reaming where it is far from the figure
// that is followed.
func differing(r speeds.Range) ([]book.Note, error) {
	if r.Operation != speeds.Reaming || r.Published.Refs.IsZero() { // the builder's own speed
		return nil, nil
	}
	others, err := r.Differing()
	if err != nil {
		return nil, err
	}
	if len(others) == 0 {
		return nil, nil
	}
	low, fast, refs := others[0].Min, others[len(others)-1], source.Refs{}
	for _, o := range others {
		low, refs = min(low, o.Min), refs.With(o.Refs)
	}
	from := "printed for " + fast.Published.Material
	if fast.Basis != "" {
		from = fast.Basis
	}
	elsewhere, most := figures(low.In(units.MetrePerMinute), 3), figures(fast.Max.In(units.MetrePerMinute), 3)
	if most != elsewhere {
		elsewhere += " to " + most
	}
	return []book.Note{{Refs: refs, Text: fmt.Sprintf("Sources differ twofold and more: elsewhere it is %s m/min (the fastest: %s)."+
		" This is the slowest of them, to start from.", elsewhere, from)}}, nil
}

// feedOf is the feed to start from, less what the depth of a hole takes off it. An
// operation that is fed by hand or by the pitch, and a drill that is too small for
// the table, have a zero one and a value that says so.
func feedOf(j speeds.Job, plan speeds.Plan) (speeds.Feed, []book.Value, error) {
	if j.Operation == speeds.Screwcutting {
		return speeds.Feed{}, []book.Value{{Key: "feed", Label: "feed", Remark: "per rev, by the pitch of the thread",
			What: book.LengthThou(j.Pitch, 3, 1)}, {Key: "feed_per", What: book.Word("rev")}}, nil
	}
	f, err := speeds.FeedFor(j.Operation, j.Material, j.Diameter)
	if err != nil {
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || !errors.Is(err, units.ErrUnknown) && !errors.Is(err, units.ErrOutOfRange) {
			return speeds.Feed{}, nil, err
		}
		why := bad.Problem
		if errors.Is(err, units.ErrOutOfRange) {
			why = "we have figures for " + bad.Accepted
		}
		none := book.Never(book.Length(units.Length{}, 3), why)
		return speeds.Feed{}, []book.Value{{Key: "feed", Label: "feed", What: none}}, nil
	}
	f.Min, f.Max = f.Min.Scale(plan.Feed), f.Max.Scale(plan.Feed)
	return f, []book.Value{
		{Key: "feed", Label: "feed", What: book.Range(book.LengthThou(f.Min, 3, 1), book.LengthThou(f.Max, 3, 1)),
			Remark: strings.TrimSuffix("per "+f.Per()+", "+f.Stands, ", "), Refs: f.Refs},
		{Key: "feed_per", What: book.Word(f.Per())},
	}, nil
}

// feedSpeedOf is how fast the tool moves along.
func feedSpeedOf(label string, v units.Speed) book.Value {
	return book.Value{Key: "feed", Label: label, What: book.Number(v.In(units.MillimetrePerMinute), 1, "mm/min", "mm_min").
		And(book.Number(v.In(units.InchPerMinute), 2, "in/min", ""))}
}

// tableFeed is how fast the table moves under a milling cutter, whatever the length: at
// the speed of the spindle that the cut has, for each tooth where their number is not
// given. The remark says at which speed, where no speed is set.
func tableFeed(cut cutting.Cut, remark string) ([]book.Value, error) {
	each := cut.Feed.PerTooth && cut.Teeth == 0
	if each {
		cut.Teeth = 1
		remark = strings.TrimPrefix(remark+", for each tooth of the cutter", ", ")
	}
	vf, err := cut.FeedSpeed()
	v := feedSpeedOf("slide or table moves", vf)
	v.Remark = remark
	switch {
	case each:
		v.Key = "feed_a_tooth"
	case remark != "": // the feed has a remark of its own
		v.Key = "table"
		return []book.Value{v, feedSpeedOf("", vf)}, err
	}
	return []book.Value{v}, err
}

// drilledTo is how deep the tip of a drill goes for a depth at the full diameter, with the
// point that its metal wants.
func drilledTo(j speeds.Job) ([]book.Value, error) {
	if j.Depth.IsZero() {
		return nil, nil
	}
	point := cutting.UsualPoint
	if p, err := hole.PointFor(j.Material); err == nil {
		point = p.Angle
	}
	length, err := cutting.PointLength(j.Diameter, point)
	if err != nil {
		return nil, err
	}
	return []book.Value{{Key: "tip", Label: "drill down to", What: book.Length(j.Depth.Add(length), 2),
		Remark: fmt.Sprintf("at the tip, point %.0f deg", point.In(units.Degree))}}, nil
}

// loadOf is what a cut asks of the spindle and of the motor, for programs: the
// text has it in the finding on the motor.
func loadOf(load cutting.Load, check cutting.MotorCheck) []book.Value {
	return []book.Value{
		{Key: "force", What: book.Number(load.Force.In(units.Newton), 0, "N", "n")},
		{Key: "torque", What: book.Number(load.Torque.In(units.NewtonMetre), 2, "N m", "nm")},
		{Key: "needed", What: book.Number(check.Needed.In(units.Watt), 0, "W", "w")},
		{Key: "motor_share", What: book.Share(check.Share, 0)},
	}
}

// noForce says that a material has no figure of the cutting force.
func noForce(c cutting.Cut) book.Note {
	return book.Note{Text: "We have no figure of the cutting force in " + c.Material.String() + "."}
}

// drillFirst is the hole to drill before a reamer by one rule, and the drills of a
// set that are inside it; a set without any is not looked at.
func drillFirst(h hole.Reaming, set gauge.Set) ([]book.Value, finding.List, error) {
	values := []book.Value{
		{Key: "drill", Label: "drill first", What: book.Range(inchFour(h.Min), inchFour(h.Max)), Remark: h.Rule, Refs: h.Refs},
	}
	if set.Len() == 0 {
		return values, nil, nil
	}
	mine, err := h.Drills(set)
	if err != nil {
		return nil, nil, err
	}
	names := []string{}
	for _, d := range mine.Sizes {
		names = append(names, d.String())
	}
	what := book.Words(names).Shown("none is inside it")
	if len(names) > 0 {
		what = book.Words(names).Shown(strings.Join(names, ", "))
	}
	return append(values, book.Value{Key: "own", Label: "from the drawer", What: what}), mine.Findings, nil
}

// takeFirst is the one drill to take before a reamer, of a set, or of the metric drills
// where there is no set.
func takeFirst(reamer units.Length, m material.Material, set gauge.Set) (book.Value, finding.List, error) {
	whose := "from the drawer"
	if set.Len() == 0 {
		set, whose = gauge.Metric(), "of the metric drills of BS 328"
	}
	d, err := hole.ReamingDrillFor(reamer, m, set)
	if err != nil {
		return book.Value{}, nil, err
	}
	v := book.Value{Key: "take", Label: "take", What: book.Never(book.Length(units.Length{}, 2), "none of the drills will do"), Remark: whose}
	if !d.Drill.Diameter.IsZero() {
		v.What, v.Refs = book.Length(d.Drill.Diameter, 2).Shown(d.Drill.String()), d.By.Refs
	}
	return v, d.Findings, nil
}

// inchFour is a length to hundredths of a millimetre and tenths of a thou.
func inchFour(l units.Length) book.Quantity {
	return book.Length(l, 2).Millimetres().And(book.Length(l, 3).Inches())
}
