package speeds_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A paper is a kept text that is being written.
type paper struct{ strings.Builder }

func (p *paper) line(format string, args ...any) {
	fmt.Fprintf(p, strings.TrimRight(format, "\n")+"\n", args...)
}

// findings writes findings with all that they say.
func (p *paper) findings(list finding.List) {
	for _, f := range list {
		p.line("  %v %s%s: %s [%d sources]", f.Severity, f.Code, f.Where, f.Text, f.Refs.Len())
		for _, r := range f.Remedies {
			p.line("    - %s", r)
		}
	}
}

// turns is a spindle speed to five digits.
func turns(n units.RotationalSpeed) string { return fmt.Sprintf("%.5g", n.In(units.RevPerMinute)) }

func metres(v units.Speed) string { return fmt.Sprintf("%.4g", v.In(units.MetrePerMinute)) }

// Every range in m/min, with the number of its sources and of those that differ, for
// carbon steel, early HSS, HSS and carbide; then how ranges of three metals follow
// from others. Kept, so that no figure is filed under another pairing unseen;
// TestPublished and TestSpeeds check the figures.
func TestRangesKept(t *testing.T) {
	var p, bases paper
	for _, op := range speeds.Operations() {
		p.line("%v", op)
		for _, m := range speeds.Materials() {
			text := "  " + m.Name + ":"
			for _, tool := range speeds.Tools() {
				r, err := speeds.Recommend(op, m, tool)
				if err != nil {
					text += " -"
					continue
				}
				differing, err := r.Differing()
				if err != nil || r.Operation != op || r.Material.Name != m.Name || r.Tool != tool {
					t.Errorf("%v, %v", r, err)
				}
				text += fmt.Sprintf(" %s-%s/%d", metres(r.Min), metres(r.Max), r.Refs.Len())
				if len(differing) > 0 {
					text += fmt.Sprintf("/%d", len(differing))
				}
				if slices.Contains([]string{"mild steel", "gunmetal", "cold-work tool steel"}, m.Name) && tool >= speeds.HSS {
					bases.line("%v, %s, %v: %s", op, m.Name, tool, r.Basis)
				}
			}
			p.line("%s", text)
		}
	}
	check.Kept(t, "speeds/kept/ranges.txt", p.String()+bases.String())
}

// What other sources give, in the order in which it is told.
func TestDifferingKept(t *testing.T) {
	var p paper
	for _, of := range []struct {
		op   speeds.Operation
		name string
		tool speeds.Tool
	}{
		{speeds.Reaming, "gunmetal", speeds.HSS}, {speeds.Reaming, "phosphor bronze", speeds.HSS},
		{speeds.Turning, "cast iron", speeds.HSS}, {speeds.Turning, "tool steel", speeds.HSS},
		{speeds.Knurling, "mild steel", speeds.HSS}, {speeds.Drilling, "aluminium", speeds.HSS},
		{speeds.Tapping, "brass", speeds.HSS}, {speeds.Parting, "brass", speeds.Carbide},
	} {
		r, err := speeds.Recommend(of.op, metal(of.name), of.tool)
		if err != nil {
			t.Fatal(err)
		}
		all, err := r.Differing()
		if err != nil {
			t.Fatal(err)
		}
		p.line("%v, %s, %v: %s to %s m/min", of.op, of.name, of.tool, metres(r.Min), metres(r.Max))
		for _, d := range all {
			p.line("  %v %s %v %s to %s: %q of %q, %v", d.Operation, d.Material.Name, d.Tool, metres(d.Min), metres(d.Max),
				d.Basis, d.Published.Material, d.Refs)
		}
	}
	check.Kept(t, "speeds/kept/differing.txt", p.String())
}

// Every feed to start from, with its notes, for diameters on both sides of where its
// rule changes.
func TestFeedsKept(t *testing.T) {
	var p paper
	for _, op := range speeds.Operations() {
		for _, name := range []string{"gunmetal", "cast iron, skin on", "stainless steel 303", "zinc alloy"} {
			last := ""
			for _, d := range []string{"0.3 mm", "0.0135 in", "1 mm", "1/16 in", "1/8 in", "4 mm", "5.999 mm", "6 mm", "1/4 in",
				"10 mm", "1/2 in", "20 mm", "1 in", "100 mm"} {
				f, err := speeds.FeedFor(op, metal(name), units.MustLength(d))
				text := fmt.Sprint(err)
				if err == nil {
					text = fmt.Sprintf("%.5g to %.5g mm a %s", f.Min.In(units.Millimetres), f.Max.In(units.Millimetres), f.Per())
					for _, more := range []string{f.Stands, f.Note} {
						if more != "" {
							text += "; " + more
						}
					}
					text += fmt.Sprintf(" [%d]", f.Refs.Len())
				}
				if text != last {
					p.line("%v, %s, %s: %s", op, name, d, text)
				}
				last = text
			}
		}
	}
	check.Kept(t, "speeds/kept/feeds.txt", p.String())
}

// What is set and what is said of many jobs on three lathes and without one.
func TestPlansKept(t *testing.T) {
	var p paper
	marked := speeds.Limit{Speed: 250.06 * units.RevPerMinute, Reason: "marked on the chuck", Ref: source.Practice()}
	cured := speeds.Limit{Speed: 1000 * units.RevPerMinute, Reason: "the belt", Cure: "Mend the belt."}
	two := []speeds.Limit{cured, marked}
	mm, wobbles := units.MM, []speeds.Limit{{Speed: 12.34 * units.RevPerMinute, Reason: "it wobbles"}}
	jobs := []speeds.Job{
		{Operation: speeds.Turning, Diameter: mm(20)},
		{Operation: speeds.Turning, Diameter: mm(20), Tool: speeds.Carbide},
		{Operation: speeds.Turning, Diameter: mm(1)},
		{Operation: speeds.Turning, Diameter: mm(400), CentreHeight: mm(90)},
		{Operation: speeds.Boring, Diameter: mm(400), CentreHeight: mm(90), Overhang: mm(41), Section: mm(10)},
		{Operation: speeds.FinishTurning, Diameter: mm(50), Overhang: mm(40), Section: mm(10), Limits: two},
		{Operation: speeds.Facing, Diameter: mm(180), Limits: wobbles},
		{Operation: speeds.Facing, Diameter: mm(180.02), CentreHeight: mm(90)},
		{Operation: speeds.Facing, Diameter: mm(180), CentreHeight: mm(90)},
		{Operation: speeds.Parting, Diameter: mm(50), Reach: mm(25)},
		{Operation: speeds.Parting, Diameter: mm(50.1), Reach: mm(25)},
		{Operation: speeds.Grooving, Diameter: mm(300)},
		{Operation: speeds.Knurling, Diameter: mm(15)},
		{Operation: speeds.Screwcutting, Diameter: mm(10), Pitch: mm(1.5)},
		{Operation: speeds.Screwcutting, Diameter: mm(100), Pitch: mm(0.1)},
		{Operation: speeds.DieCutting, Diameter: mm(6)},
		{Operation: speeds.Tapping, Diameter: mm(4)},
		{Operation: speeds.Tapping, Diameter: mm(4.01)},
		{Operation: speeds.Tapping, Diameter: mm(40)},
		{Operation: speeds.Reaming, Diameter: mm(6), Depth: mm(30)},
		{Operation: speeds.Reaming, Diameter: mm(3)},
		{Operation: speeds.Drilling, Diameter: mm(2.9)},
		{Operation: speeds.Drilling, Diameter: mm(3)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(17.9)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(18)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(36)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(36.1)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(42)},
		{Operation: speeds.Drilling, Diameter: mm(6), Depth: mm(45.1)},
		{Operation: speeds.Drilling, Diameter: mm(2.5), Depth: mm(12)},
		{Operation: speeds.Turning, Diameter: mm(10), Limits: []speeds.Limit{{Speed: 450 * units.RevPerMinute, Reason: "as the top step"}}},
		{Operation: speeds.CentreDrilling, Diameter: mm(3)},
		{Operation: speeds.Countersinking, Diameter: mm(12)},
		{Operation: speeds.Milling, Diameter: mm(6)},
		{Operation: speeds.Milling, Diameter: mm(2), Depth: mm(50)},
		{Operation: speeds.FaceMilling, Diameter: mm(300)},
		{Operation: speeds.FlyCutting, Diameter: mm(60)},
		{Operation: speeds.SlotMilling, Diameter: mm(3)},
		{Operation: speeds.Turning, Diameter: mm(20), Min: 0.5, Max: 1},
	}
	const mild, skin = "mild steel", "cast iron, skin on"
	for _, machine := range []string{"", "cone 720 450 280 175, back gear 6.5:1", "low 50-1100, high 100-2500", "175 450"} {
		for _, name := range []string{mild, skin} {
			if machine == "" && name == skin || machine == "175 450" && name == mild ||
				machine != "175 450" && name == skin {
				continue
			}
			p.line("%s: %q", name, machine)
			for _, j := range jobs {
				j.Material = metal(name)
				if j.Machine = (speeds.Ladder{}); machine != "" {
					j.Machine = ladder(t, machine)
				}
				plan, err := j.Plan()
				if err != nil {
					p.line("%v %s: %v", j.Operation, j.Diameter, err)
					continue
				}
				n, ok := plan.Set()
				text := fmt.Sprintf("%v %v: %s-%s, most %s, feed %.3g [%d %v]", j.Operation, j.Diameter, turns(plan.Min),
					turns(plan.Max), turns(plan.Most()), plan.Feed, plan.Refs.Len(), plan.Limit.Reason != "")
				if machine != "" {
					text += fmt.Sprintf("; %v, then %v, of %s on %s; set %s %v, %s m/min", plan.Choice.Step, plan.Choice.Above,
						turns(plan.Choice.Wanted), turns(plan.Choice.Dial), turns(n), ok, metres(plan.Speed))
				}
				p.line("%s", text)
				switch {
				case machine == "" && len(plan.Findings) > 1, machine == "175 450", strings.HasPrefix(machine, "cone") && name == mild:
					p.findings(plan.Findings)
					p.findings(plan.Choice.Findings)
				}
			}
		}
	}
	check.Kept(t, "speeds/kept/plans.txt", p.String())
}

// What is said of a speed at which a job runs now, from much too slow to much too fast.
func TestChecksKept(t *testing.T) {
	var p paper
	chuck := speeds.Limit{Speed: 1200 * units.RevPerMinute, Reason: "marked", Ref: source.Practice()}
	for _, j := range []speeds.Job{
		{Operation: speeds.Turning, Diameter: units.MM(20), Limits: []speeds.Limit{chuck}},
		{Operation: speeds.Reaming, Diameter: units.MM(8)},
		{Operation: speeds.Drilling, Diameter: units.MM(12), Tool: speeds.Carbide},
		{Operation: speeds.Tapping, Diameter: units.MM(3)},
		{Operation: speeds.Tapping, Diameter: units.MM(12)},
		{Operation: speeds.DieCutting, Diameter: units.MM(6), Limits: []speeds.Limit{chuck}},
		{Operation: speeds.Screwcutting, Diameter: units.MM(12), Pitch: units.MM(1)},
		{Operation: speeds.Turning, Diameter: units.MM(25), Min: 0.5, Max: 1},
	} {
		j.Material = metal("brass")
		for _, n := range []float64{0.05, 30, 99.96, 103.4, 120, 300, 900, 1200, 1200.5, 6000} {
			all, err := j.Check(units.RotationalSpeed(n) * units.RevPerMinute)
			p.line("%v at %g: %v", j.Operation, n, err)
			p.findings(all)
		}
	}
	check.Kept(t, "speeds/kept/checks.txt", p.String())
}

// What is said to mind with each operation, material and tool, and in what order; the
// texts are those of the tables.
func TestAdviceKept(t *testing.T) {
	var p paper
	for _, op := range speeds.Operations() {
		p.line("%v: %s; turns work %v, mills %v, by hand too %v", op, op.GoverningDiameter(), op.TurnsWork(), op.Mills(),
			op.ByHandToo())
		for _, precaution := range op.Precautions() {
			p.line("    %s", precaution.Code)
		}
		for _, name := range []string{"mild steel", "brass", "gunmetal", "cast iron, skin on", "aluminium", "plastic"} {
			for _, tool := range []speeds.Tool{speeds.CarbonSteel, speeds.HSS, speeds.Carbide} {
				r := speeds.Range{Operation: op, Material: metal(name), Tool: tool}
				var words []string
				for _, a := range r.Advice() {
					words = append(words, a.Kind)
				}
				for _, precaution := range r.Precautions() {
					words = append(words, string(precaution.Code))
				}
				p.line("  %s, %v: %s", name, tool, strings.Join(words, ", "))
			}
		}
	}
	for _, m := range material.All() {
		for _, precaution := range speeds.MaterialPrecautions(m) {
			p.line("%s: %s", m.Name, precaution.Text)
		}
	}
	check.Kept(t, "speeds/kept/advice.txt", p.String())
}
