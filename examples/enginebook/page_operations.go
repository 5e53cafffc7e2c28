package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A step is an engine.Operation worked out.
type step struct {
	entry     engine.Operation
	job       speeds.Job
	plan      speeds.Plan
	feed      speeds.Feed   // zero: fed by hand or by the pitch
	feedSpeed units.Speed   // zero without a spindle speed or a feed
	minutes   time.Duration // zero: not known
	passes    int
	motor     []string // what it says of the cut; none when nothing is known
	remarks   []string
}

// operationsPage says, part by part, what to set on the lathe and the mill, how
// long it takes and what to mind.
func operationsPage(in *input) (*page, error) {
	if len(in.File.Operations) == 0 {
		return nil, nil
	}
	var steps []*step
	var problems []error
	p := &page{}
	for i, entry := range in.File.Operations {
		s, findings, err := in.step(fmt.Sprintf("operations[%d]", i), entry)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		steps = append(steps, s)
		p.findings = append(p.findings, findings...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	var parts []string
	for _, s := range steps {
		data = append(data, s.data())
		if !slices.Contains(parts, s.entry.Part) {
			parts = append(parts, s.entry.Part)
		}
	}
	p.data = map[string]any{"operations": data}
	p.write = func(pr *printer) {
		pr.heading("MACHINING")
		pr.para("Spindle speed n = v / (pi d) at the diameter that governs, then the step of the machine at or below it; the feed is the one to start from, and the minutes are cutting time at it. The figures are to begin with on a light machine: let the sound, the chip and the edge say where to go. Advice (*) without a source behind it is common practice.")
		all := cautions(steps)
		if slices.ContainsFunc(all, func(c *caution) bool { return len(c.uses) > 1 }) {
			pr.blank()
			pr.line("for more than one part")
			for _, c := range all {
				if len(c.uses) > 1 {
					pr.hang("  * ", c.text+" For "+list(c.uses)+".")
				}
			}
		}
		for _, part := range parts {
			pr.blank()
			pr.line(part)
			writePart(pr, slices.DeleteFunc(slices.Clone(steps), func(s *step) bool { return s.entry.Part != part }), all)
		}
		pr.blank()
		pr.line("where the figures are from")
		for _, f := range origins(steps) {
			pr.hang("  - ", f.ref.String()+": "+strings.Join(f.figures, "; "))
		}
	}
	return p, nil
}

// An origin is a source and the figures that are from it.
type origin struct {
	ref     source.Ref
	figures []string
}

// origins returns where the speeds and feeds of all steps are from, each source
// once.
func origins(steps []*step) []origin {
	var all []origin
	add := func(ref source.Ref, figure string) {
		i := slices.IndexFunc(all, func(o origin) bool { return o.ref == ref })
		if i < 0 {
			i = len(all)
			all = append(all, origin{ref: ref})
		}
		if !slices.Contains(all[i].figures, figure) {
			all[i].figures = append(all[i].figures, figure)
		}
	}
	for _, s := range steps {
		r := s.plan.Range
		figure := fmt.Sprintf("speed of %v in %v", r.Operation, r.Material)
		if r.Basis != "" {
			figure += ", " + r.Basis
		}
		add(r.Published.Ref, figure)
		if s.feed.Low.Sign() > 0 {
			figure := "feed of " + r.Operation.String()
			if s.feed.Stands != "" {
				figure += " in " + r.Material.String() + ", " + s.feed.Stands
			}
			add(s.feed.Ref, figure)
		}
	}
	return all
}

// A caution is a piece of advice and the parts that it is for.
type caution struct {
	safety bool
	text   string
	uses   []use
}

// A use is a part and those of its operations that a caution is for; none when
// it is for all of them.
type use struct {
	part       string
	operations []string
}

func (u use) String() string {
	if len(u.operations) == 0 {
		return u.part
	}
	return u.part + " (" + strings.Join(u.operations, ", ") + ")"
}

// cautions returns the advice for all steps, each piece once, with what can hurt
// somebody first.
func cautions(steps []*step) []*caution {
	var all []*caution
	done := map[string][]string{} // by part
	for _, s := range steps {
		op := s.job.Operation.String()
		if part := s.entry.Part; !slices.Contains(done[part], op) {
			done[part] = append(done[part], op)
		}
		for _, a := range s.plan.Range.Advice() {
			text := a.Kind + ": " + a.Text
			if a.Ref.Kind != source.CommonPractice {
				text += " (" + a.Ref.Title + ")"
			}
			i := slices.IndexFunc(all, func(c *caution) bool { return c.text == text })
			if i < 0 {
				i = len(all)
				all = append(all, &caution{safety: a.Kind == "safety", text: text})
			}
			c := all[i]
			j := slices.IndexFunc(c.uses, func(u use) bool { return u.part == s.entry.Part })
			if j < 0 {
				j = len(c.uses)
				c.uses = append(c.uses, use{part: s.entry.Part})
			}
			if !slices.Contains(c.uses[j].operations, op) {
				c.uses[j].operations = append(c.uses[j].operations, op)
			}
		}
	}
	for _, c := range all {
		for i, u := range c.uses {
			if len(u.operations) == len(done[u.part]) {
				c.uses[i].operations = nil
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *caution) int {
		switch {
		case a.safety == b.safety:
			return 0
		case a.safety:
			return -1
		}
		return 1
	})
	return all
}

// step works one entry out.
func (in *input) step(key string, e engine.Operation) (*step, finding.List, error) {
	e.Part = strings.Join(strings.Fields(e.Part), " ")
	job, problems := in.job(key, e)
	if problems != nil {
		return nil, nil, problems
	}
	plan, err := job.Plan()
	if err != nil {
		return nil, nil, in.Errorf(key, "%v", err)
	}
	s := &step{entry: e, job: job, plan: plan}
	var findings finding.List
	add := func(code finding.Code, severity finding.Severity, text string, remedies ...string) {
		findings = append(findings, finding.Finding{Code: code, Severity: severity, Where: e.Part + ", " + e.Operation.String(), Text: text, Remedies: remedies})
	}
	for _, f := range plan.Findings {
		switch f.Severity {
		case speeds.Stop: // the part cannot be made so
			add("operation-refused", finding.Fails, "it cannot be made so: "+f.Text, f.Remedies...)
		case speeds.Warning:
			add("operation-warning", finding.Note, f.Text, f.Remedies...)
		default:
			s.remarks = append(s.remarks, strings.Join(append([]string{f.Text}, f.Remedies...), "; "))
		}
	}
	if e.RunsAt != nil {
		rim, err := holding.CheckRim(*e.Diameter, *e.RunsAt)
		if err != nil {
			return nil, nil, in.Errorf(key+".runs_at", "%v", err)
		}
		if !rim.Safe {
			add("rim-too-fast", finding.Fails, "it may fly apart: "+rim.Text, "run the engine slower, or make the wheel smaller or of steel")
		}
		s.remarks = append(s.remarks, "in the engine: "+rim.Text)
	}
	if err := in.drills(key, s, add); err != nil {
		return nil, nil, err
	}
	if err := in.cut(key, s, add); err != nil {
		return nil, nil, err
	}
	return s, findings, nil
}

// job returns what the entry asks, with every key that is missing or wrong.
func (in *input) job(key string, e engine.Operation) (speeds.Job, error) {
	const length = `a length with its unit above zero, such as "20 mm" or "3/4 in"`
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.Errorf(key+"."+field, format, args...))
	}
	if e.Part == "" {
		complain("part", `missing; accepted: the part's name, such as "flywheel"`)
	}
	if e.Operation == nil {
		complain("operation", `missing; accepted: an operation, such as "turning" or "drilling"`)
	}
	if e.Material == nil {
		complain("material", `missing; accepted: a material, such as "cast iron, skin on" or "gunmetal"`)
	}
	if e.Diameter == nil {
		complain("diameter", "missing; accepted: %s", length)
	}
	if e.On != "" && e.On != "lathe" && e.On != "mill" {
		complain("on", `%q; accepted: "lathe", "mill"`, e.On)
	}
	if e.Teeth < 0 || e.Teeth > 100 {
		complain("teeth", "%d; accepted: 1 to 100, or none", e.Teeth)
	}
	for _, l := range []struct {
		name  string
		value *units.Length
	}{{"diameter", e.Diameter}, {"length", e.Length}, {"depth", e.Depth}, {"cut", e.Cut}, {"stock", e.Stock}} {
		if l.value != nil && l.value.Sign() <= 0 {
			complain(l.name, "%v; accepted: %s", l.value, length)
		}
	}
	if e.Operation != nil {
		op := *e.Operation
		if e.Teeth != 0 && op != speeds.Milling {
			complain("teeth", "%d for %v; accepted: the teeth of a milling cutter", e.Teeth, op)
		}
		if e.On == "mill" && op.TurnsWork() && op != speeds.Boring {
			complain("on", `%q for %v, which turns the work; accepted: "lathe"`, e.On, op)
		}
		hole := op == speeds.Drilling || op == speeds.Reaming || op == speeds.Tapping
		if e.Depth != nil && !hole {
			complain("depth", "%v for %v; accepted: the depth of a hole that is drilled, reamed or tapped", e.Depth, op)
		}
		if e.Cut != nil && (hole || op == speeds.CentreDrilling || op == speeds.Countersinking) {
			complain("cut", "%v for %v; accepted: the depth of a cut that is turned or milled", e.Cut, op)
		}
	}
	if e.Cut != nil && e.Diameter != nil && e.Operation != nil && e.Operation.TurnsWork() && e.Cut.Scale(2).Cmp(*e.Diameter) > 0 {
		complain("cut", "%v is more than the radius; accepted: a depth on the radius, up to %v", e.Cut, e.Diameter.Scale(0.5))
	}
	if e.Stock != nil && e.Cut == nil {
		complain("stock", "there is no cut to take it off in; accepted: stock and cut together")
	}
	if problems != nil {
		return speeds.Job{}, errors.Join(problems...)
	}
	j := speeds.Job{Operation: *e.Operation, Material: *e.Material, Diameter: *e.Diameter, Tool: speeds.HSS}
	if e.Tool != nil {
		j.Tool = *e.Tool
	}
	if e.Depth != nil {
		j.Depth = *e.Depth
	}
	if ladder, _ := in.spindle(e); ladder != nil {
		j.Machine = *ladder
	}
	lathe := in.File.Lathe
	if !onMill(e) {
		if lathe.CentreHeight != nil {
			j.CentreHeight = *lathe.CentreHeight
		}
		if lathe.ChuckSpeed != nil && j.Operation.TurnsWork() {
			j.Limits = append(j.Limits, speeds.Limit{Speed: *lathe.ChuckSpeed, Reason: "the speed marked on the chuck", Ref: source.Ref{Kind: source.CommonPractice}})
		}
	}
	return j, nil
}

func onMill(e engine.Operation) bool {
	return e.On == "mill" || e.On == "" && *e.Operation == speeds.Milling
}

// spindle returns the speeds and the motor of the machine that the operation is
// done on; either may be nil.
func (in *input) spindle(e engine.Operation) (*speeds.Ladder, *units.Power) {
	if onMill(e) {
		return in.File.Mill.Speeds, in.File.Mill.Motor
	}
	return in.File.Lathe.Speeds, in.File.Lathe.Motor
}

// drills looks into the drawer: for the drill itself, or for the one that goes
// before a reamer.
func (in *input) drills(key string, s *step, add func(finding.Code, finding.Severity, string, ...string)) error {
	if s.job.Operation == speeds.Reaming {
		holes, err := speeds.ReamingHoles(s.job.Diameter, s.job.Material)
		if err != nil {
			return in.Errorf(key+".diameter", "%v", err)
		}
		first := holes[0]
		s.remarks = append(s.remarks, fmt.Sprintf("drill %s to %s first (%v)", first.Low.Text(units.Millimetres, 2), first.High.Text(units.Millimetres, 2), first.Ref))
		if set := in.File.Drills.Set; set != nil {
			mine, err := first.Drills(*set)
			if err != nil {
				return in.Errorf("drills.set", "%v", err)
			}
			if len(mine) == 0 {
				add("no-drill", finding.Note, fmt.Sprintf("no drill in the drawer lies from %s to %s, to go before the reamer", first.Low.Text(units.Millimetres, 2), first.High.Text(units.Millimetres, 2)), "bore to size, or drill under and open out")
			} else {
				s.remarks = append(s.remarks, "from the drawer: "+list(mine))
			}
		}
		return nil
	}
	set := in.File.Drills.Set
	if s.job.Operation != speeds.Drilling || set == nil || set.Len() == 0 {
		return nil
	}
	switch nearest, err := set.Nearest(s.job.Diameter); {
	case errors.Is(err, units.ErrOutOfRange): // smaller or larger than all of them
		sizes := slices.Collect(set.All())
		add("no-drill", finding.Note, fmt.Sprintf("no drill of %v in the drawer, which goes from %v to %v", s.job.Diameter, sizes[0], sizes[len(sizes)-1]), "buy or borrow one, or bore a hole that is too large for them")
	case err != nil:
		return in.Errorf(key+".diameter", "%v", err)
	case nearest.Diameter != s.job.Diameter:
		add("no-drill", finding.Note, fmt.Sprintf("no drill of %v in the drawer", s.job.Diameter), fmt.Sprintf("%v is nearest, %s on the diameter", nearest, signed(nearest.Diameter.Sub(s.job.Diameter))))
	}
	return nil
}

// list names things, with commas.
func list[T fmt.Stringer](all []T) string {
	var names []string
	for _, v := range all {
		names = append(names, v.String())
	}
	return strings.Join(names, ", ")
}

func signed(l units.Length) string {
	if l.Sign() > 0 {
		return "+" + mm(l)
	}
	return mm(l)
}

// cut works out feed, minutes and motor, as far as the entry says enough.
func (in *input) cut(key string, s *step, add func(finding.Code, finding.Severity, string, ...string)) error {
	f, err := speeds.Feeds(s.job.Operation, s.job.Material, s.job.Diameter)
	n := s.set()
	switch {
	case errors.Is(err, units.ErrUnknown): // by hand, by the pitch, or no figure held
		return nil
	case err != nil:
		return in.Errorf(key+".diameter", "%v", err)
	}
	f.Low, f.High = f.Low.Scale(s.plan.Feed), f.High.Scale(s.plan.Feed)
	s.feed = f
	if n == 0 || f.PerTooth && s.entry.Teeth == 0 {
		return nil
	}
	s.feedSpeed, err = cutting.TableFeed(n, f.Low, max(s.entry.Teeth, 1))
	if err != nil {
		return in.Errorf(key+".teeth", "%v", err)
	}
	path, ok, err := s.path()
	if err != nil {
		return in.Errorf(key, "%v", err)
	}
	if ok {
		s.passes = max(path.Passes, 1)
		if s.minutes, err = path.Time(s.feedSpeed); err != nil {
			return in.Errorf(key, "%v", err)
		}
	}
	_, motor := in.spindle(s.entry)
	if motor == nil || s.entry.Cut == nil && s.job.Operation != speeds.Drilling || f.PerTooth {
		return nil
	}
	return in.motor(key, s, *motor, add)
}

// path returns the way of the tool, if the entry gives enough to know it.
func (s *step) path() (cutting.Path, bool, error) {
	p := cutting.Path{Approach: units.MM(2)} // a hand's caution
	switch op := s.job.Operation; {
	case s.entry.Length != nil:
		p.Length = *s.entry.Length
	case op == speeds.Facing || op == speeds.Parting:
		p.Length = s.job.Diameter.Scale(0.5)
	case op == speeds.Drilling && s.entry.Depth != nil:
		p.Length = *s.entry.Depth
	default:
		return p, false, nil
	}
	var err error
	switch s.job.Operation {
	case speeds.Drilling:
		p.Approach, err = cutting.PointLength(s.job.Diameter, 118*units.Degree)
	case speeds.Milling:
		p.Approach = s.job.Diameter.Scale(0.5)
	}
	if err == nil && s.entry.Stock != nil {
		p.Passes, _, err = cutting.Passes(*s.entry.Stock, *s.entry.Cut)
	}
	return p, true, err
}

// motor compares the cut with the motor of the machine.
func (in *input) motor(key string, s *step, motor units.Power, add func(finding.Code, finding.Severity, string, ...string)) error {
	k, err := cutting.KienzleFor(s.job.Material)
	if err != nil {
		return nil // no figure for the force in this material: nothing is said
	}
	n := s.set()
	var load cutting.Load
	if s.job.Operation == speeds.Drilling {
		load, err = cutting.DrillingLoad(k, s.job.Diameter, s.feed.Low, 118*units.Degree, n)
	} else {
		load, err = cutting.TurningLoad(k, s.job.Diameter, *s.entry.Cut, s.feed.Low, 90*units.Degree, n)
	}
	if err != nil {
		return in.Errorf(key+".cut", "%v", err)
	}
	const drive = 0.75 // belt and plain bearings, common practice
	check, err := cutting.CheckMotor(load, motor, drive)
	if err != nil {
		return in.Errorf(key, "%v", err)
	}
	s.motor = []string{check.Text}
	if !check.Holds {
		add("motor-small", finding.Note, check.Text, "a lighter cut, or back gear and a finer feed")
	}
	return nil
}

func (s *step) data() map[string]any {
	d := map[string]any{
		"part": s.entry.Part, "operation": s.job.Operation, "material": s.job.Material, "tool": s.job.Tool,
		"diameter_mm":    s.job.Diameter.MM(),
		"speed_m_min":    []float64{float64(s.plan.Range.Low / units.MetrePerMinute), float64(s.plan.Range.High / units.MetrePerMinute)},
		"wanted_rev_min": []float64{float64(s.plan.Low / units.RevPerMinute), float64(s.plan.High / units.RevPerMinute)},
		"source":         s.plan.Range.Published.Ref, "basis": s.plan.Range.Basis,
		"set_rev_min": nil, "minutes": nil, "feed_mm": nil,
		"worked": s.worked(),
	}
	if n := s.set(); n > 0 {
		d["set_rev_min"] = float64(n / units.RevPerMinute)
		d["set_step"] = s.plan.Choice.Step.Name
		d["set_m_min"] = float64(s.plan.Speed / units.MetrePerMinute)
		d["by_hand"] = s.byHand()
	}
	if s.feedSpeed > 0 {
		d["feed_mm_min"] = float64(s.feedSpeed / units.MetrePerMinute * 1000)
	}
	if s.minutes > 0 {
		d["minutes"] = s.minutes.Minutes()
		d["passes"] = s.passes
	}
	if s.feed.Low.Sign() > 0 {
		d["feed_mm"] = []float64{s.feed.Low.MM(), s.feed.High.MM()}
		d["feed_per"] = s.feed.Per()
		d["feed_source"] = s.feed.Ref
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
	text := fmt.Sprintf("%v, %v: n = 1000 x %.4g / (pi x %.4g) = %.4g rev/min at most", s.job.Material, s.job.Tool, float64(s.plan.Range.High/units.MetrePerMinute), s.job.Diameter.MM(), float64(s.plan.High/units.RevPerMinute))
	if name := s.plan.Choice.Step.Name; name != "" && s.plan.OK() && !s.byHand() {
		text += "; set " + name
	}
	if f := s.feed; f.Low.Sign() > 0 {
		text += fmt.Sprintf("; feed from %s to %s per %s", mmAndThou(f.Low), mmAndThou(f.High), f.Per())
	}
	return text
}

// set returns the spindle speed to set, zero without a machine and for what is
// refused.
func (s *step) set() units.RotationalSpeed {
	if !s.plan.OK() {
		return 0
	}
	return s.plan.Choice.Step.Speed
}

// handOrPower reports whether the operation is as often done by hand, for which
// the speed is not.
func (s *step) handOrPower() bool {
	switch s.job.Operation {
	case speeds.Reaming, speeds.Tapping, speeds.DieCutting:
		return true
	}
	return false
}

// byHand reports whether the operation is one that the advice of package speeds
// gives to the hand: threads of 3 mm and smaller.
func (s *step) byHand() bool {
	return (s.job.Operation == speeds.Tapping || s.job.Operation == speeds.DieCutting) && s.job.Diameter.Cmp(units.MM(3)) <= 0
}

// feedText returns what stands in the column of feeds.
func (s *step) feedText() string {
	switch op := s.job.Operation; {
	case s.feed.Low.Sign() > 0:
		return fmt.Sprintf("%s/%s", s.feed.Low.Decimal(units.Millimetres, 3), s.feed.Per())
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
		surface := span(float64(s.plan.Range.Low/units.MetrePerMinute), float64(s.plan.Range.High/units.MetrePerMinute))
		switch n := s.set(); {
		case n > 0:
			set = fmt.Sprintf("%.0f", float64(n/units.RevPerMinute))
			switch {
			case s.byHand():
				set = "by hand"
			case s.handOrPower():
				set += " by power"
			}
			surface = fmt.Sprintf("%.1f", float64(s.plan.Speed/units.MetrePerMinute))
			if s.byHand() {
				surface = "-"
			}
		case s.plan.Choice.Step.Speed > 0:
			set = "refused"
		case s.plan.OK():
			set = span(float64(s.plan.Low/units.RevPerMinute), float64(s.plan.High/units.RevPerMinute))
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
