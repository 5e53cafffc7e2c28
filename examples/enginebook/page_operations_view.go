package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

func (s *step) data() map[string]any {
	d := map[string]any{
		"part": s.entry.Part, "operation": s.job.Operation, "material": s.job.Material, "tool": s.job.Tool,
		"diameter_mm":    s.job.Diameter.MM(),
		"speed_m_min":    []float64{s.plan.Range.Min.In(units.MetrePerMinute), s.plan.Range.Max.In(units.MetrePerMinute)},
		"wanted_rev_min": []float64{s.plan.Min.In(units.RevPerMinute), s.plan.Max.In(units.RevPerMinute)},
		"source":         s.plan.Range.Refs.First(), "basis": s.plan.Range.Basis,
		"set_rev_min": nil, "minutes": nil, "feed_mm": nil,
		"worked": s.worked(),
	}
	if n := s.set(); n > 0 {
		d["set_rev_min"] = n.In(units.RevPerMinute)
		d["set_step"] = s.plan.Choice.Step.Name
		d["set_m_min"] = s.plan.Speed.In(units.MetrePerMinute)
		d["by_hand"] = s.job.Operation.ByHand(s.job.Diameter)
	}
	if s.feedSpeed > 0 {
		d["feed_mm_min"] = s.feedSpeed.In(units.MetrePerMinute) * 1000
	}
	if s.minutes > 0 {
		d["minutes"] = s.minutes.Minutes()
		d["passes"] = s.passes
	}
	if s.feed.Min.Sign() > 0 {
		d["feed_mm"] = []float64{s.feed.Min.MM(), s.feed.Max.MM()}
		d["feed_per"] = s.feed.Per()
		d["feed_source"] = s.feed.Refs.First()
	}
	if all := slices.Concat(s.remarks, s.motor); all != nil {
		d["remarks"] = all
	}
	var mind []string
	for _, c := range cautions([]*step{s}) {
		mind = append(mind, c.text)
	}
	d["mind"] = mind
	return d
}

// worked returns the formula for the faster end of the range with the numbers
// in it, and the step that was set.
func (s *step) worked() string {
	text := fmt.Sprintf("%v, %v: n = 1000 x %.4g / (pi x %.4g) = %.4g rev/min at most",
		s.job.Material, s.job.Tool, s.plan.Range.Max.In(units.MetrePerMinute), s.job.Diameter.MM(),
		s.plan.Max.In(units.RevPerMinute))
	if name := s.plan.Choice.Step.Name; name != "" && s.plan.Findings.OK() && !s.job.Operation.ByHand(s.job.Diameter) {
		text += "; set " + name
	}
	if f := s.feed; f.Min.Sign() > 0 {
		text += fmt.Sprintf("; feed from %s to %s per %s", mmAndThou(f.Min), mmAndThou(f.Max), f.Per())
	}
	return text
}

// set returns the spindle speed to set, zero without a machine and for what is
// refused.
func (s *step) set() units.RotationalSpeed {
	if !s.plan.Findings.OK() {
		return 0
	}
	return s.plan.Choice.Step.Speed
}

// feedText returns what stands in the column of feeds.
func (s *step) feedText() string {
	switch op := s.job.Operation; {
	case s.feed.Min.Sign() > 0:
		return fmt.Sprintf("%s/%s", s.feed.Min.Decimal(units.Millimetres, 3), s.feed.Per())
	case op == speeds.Tapping || op == speeds.DieCutting || op == speeds.Screwcutting:
		return "the pitch"
	}
	return "by feel"
}

// span prints a range in whole numbers, or one of them when its ends print alike.
func span(low, high float64) string {
	a, b := fmt.Sprintf("%.0f", low), fmt.Sprintf("%.0f", high)
	if a == b {
		return a
	}
	return a + " to " + b
}

func writePart(pr *printer, steps []*step, all []*caution) {
	rows := [][]string{{"", "diameter", "m/min", "set, rev/min", "feed, mm", "minutes"}}
	for _, s := range steps {
		set := "no step will do"
		surface := span(s.plan.Range.Min.In(units.MetrePerMinute), s.plan.Range.Max.In(units.MetrePerMinute))
		switch n := s.set(); {
		case n > 0:
			set = fmt.Sprintf("%.0f", n.In(units.RevPerMinute))
			switch {
			case s.job.Operation.ByHand(s.job.Diameter):
				set = "by hand"
			case s.job.Operation.ByHandToo():
				set += " by power"
			}
			surface = fmt.Sprintf("%.1f", s.plan.Speed.In(units.MetrePerMinute))
			if s.job.Operation.ByHand(s.job.Diameter) {
				surface = "-"
			}
		case s.plan.Choice.Step.Speed > 0:
			set = "refused"
		case s.plan.Findings.OK():
			set = span(s.plan.Min.In(units.RevPerMinute), s.plan.Max.In(units.RevPerMinute))
		}
		minutes := "-"
		if s.minutes > 0 {
			minutes = fmt.Sprintf("%.1f", s.minutes.Minutes())
			if s.passes > 1 {
				minutes += fmt.Sprintf(", %d cuts", s.passes)
			}
		}
		rows = append(rows, []string{s.job.Operation.String(), mm(s.job.Diameter), surface, set, s.feedText(), minutes})
	}
	pr.table(rows)
	for _, s := range steps {
		for _, text := range slices.Concat([]string{s.worked()}, s.remarks, s.motor) {
			pr.hang("  - ", fmt.Sprintf("%v: %s", s.job.Operation, text))
		}
	}
	for _, c := range all {
		if len(c.uses) > 1 || c.uses[0].part != steps[0].entry.Part {
			continue
		}
		text := c.text
		if ops := c.uses[0].operations; len(ops) > 0 {
			text += " For " + strings.Join(ops, ", ") + "."
		}
		pr.hang("  * ", text)
	}
}
