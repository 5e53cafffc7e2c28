package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A fastening is a engine.Fastener worked out.
type fastening struct {
	entry     engine.Fastener
	plan      thread.DrillPlan // empty for a taper thread
	chart     []gauge.Size     // of a taper thread
	clearance *thread.Clearance
	clearWith gauge.Size // the owner's drill for it, zero if there is none
	hexagon   *thread.Hexagon
	blind     *thread.BlindHole
	full      units.Length // length of full thread
	turns     int
	rule      *strength.StudLength // nil for a pipe thread
	findings  finding.List
	sources   []citation
}

// A citation is what a source was used for, and the source.
type citation struct {
	what string
	ref  source.Ref
}

func (f *fastening) from(what string, refs source.Refs) {
	for ref := range refs.All() {
		f.sources = append(f.sources, citation{what, ref})
	}
}

// say adds what a package says of the entry.
func (f *fastening) say(list finding.List) {
	f.findings = append(f.findings, list.At(f.entry.Where)...)
}

// fastenersPage says how to drill, tap and clear each set of holes, which
// spanner it needs and whether the thread is deep enough.
func fastenersPage(in *input) (*page, error) {
	if len(in.File.Fasteners) == 0 {
		return nil, nil
	}
	own, name := gauge.Metric(), "metric drills of BS 328"
	if set := in.File.Drills.Set; set != nil {
		if set.Len() == 0 {
			return nil, in.Errorf("drills.set", `no drills in it; accepted: a set such as "1-6x0.1 mm, #1-#60"`)
		}
		own, name = *set, "your drills"
	}
	var fastenings []*fastening
	var problems []error
	p := &page{}
	for i, entry := range in.File.Fasteners {
		f, err := in.fastening(fmt.Sprintf("fasteners[%d]", i), entry, own)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		fastenings = append(fastenings, f)
		p.findings = append(p.findings, f.findings...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	smallest, blind := fastenings[0].entry.Thread, false
	for _, f := range fastenings {
		data = append(data, f.data())
		blind = blind || f.entry.Blind != nil
		if f.entry.Thread.Major().Cmp(smallest.Major()) < 0 {
			smallest = f.entry.Thread
		}
	}
	p.data = map[string]any{"fasteners": data}
	for _, precaution := range smallest.TappingPrecautions(blind) {
		p.cautions = append(p.cautions, precaution.Text)
	}
	p.write = func(pr *printer) {
		pr.heading("FASTENERS")
		pr.para("Tapping drills are chosen from " + name +
			"; the depth of thread is a share of the full depth, the depth of the screw's own thread." +
			" A drill cuts over its size. What a clearance hole forgives is the error of position between it" +
			" and the tapped hole. Sources stand at the foot, by number.")
		var works references
		for _, f := range fastenings {
			pr.blank()
			f.write(pr, &works)
		}
		pr.blank()
		works.write(pr)
		pr.blank()
		for _, caution := range p.cautions {
			pr.para(caution)
		}
	}
	return p, nil
}

// fastening works one entry out.
func (in *input) fastening(key string, e engine.Fastener, own gauge.Set) (*fastening, error) {
	if err := in.checkFastener(key, e); err != nil {
		return nil, err
	}
	f := &fastening{entry: e}
	t := *e.Thread
	f.from("size", t.Refs())
	if err := f.chooseDrill(own); err != nil {
		return nil, in.Errorf(key+".thread", "%v", err)
	}
	if err := f.clear(own); err != nil {
		return nil, in.Errorf(key+".clearance", "%v", err)
	}
	if h, err := t.Hexagon(); err == nil {
		f.hexagon = &h
		f.from("hexagon to "+h.Standard, h.Refs)
	}
	if err := f.engage(); err != nil {
		return nil, in.Errorf(key+".thread", "%v", err)
	}
	return f, nil
}

// longer says how deep the hole or how thick the metal must be for the thread
// that the rule asks for, rounded up to what a rule shows.
func (f *fastening) longer() (string, error) {
	need, remedy := f.rule.Engaged, "Make the metal %s thick there, or put a nut behind the hole."
	if f.entry.Blind != nil {
		h, err := f.entry.Thread.BlindHole(need, lastTap(f.entry))
		if err != nil {
			return "", err
		}
		need, remedy = h.Depth, "Drill the hole %s deep, or right through with a nut behind it."
	}
	need, err := need.Round(units.MM(0.1), units.Up)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf(remedy, mmAndInch(need)), nil
}

// checkFastener complains of what is missing from an entry or does not go
// together.
func (in *input) checkFastener(key string, e engine.Fastener) error {
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.Errorf(key+"."+field, format, args...))
	}
	if e.Where == "" {
		complain("where", `missing; accepted: the place of the screws, such as "cylinder cover"`)
	}
	if e.Thread == nil {
		complain("thread", `missing; accepted: a thread, such as "M3", "5 BA" or "4-40"`)
	}
	if e.Material == nil {
		complain("material", `missing; accepted: what is tapped, such as "gunmetal"`)
	}
	if e.Count < 1 {
		complain("count", "%d; accepted: a whole number from 1", e.Count)
	}
	switch {
	case e.Through == nil && e.Blind == nil:
		complain("through",
			`missing; accepted: through, the thickness tapped right through, or blind, the depth of the hole, such as "8 mm"`)
	case e.Through != nil && e.Blind != nil:
		complain("blind", "through is given too; accepted: one of the two")
	case e.Through != nil && e.Through.Sign() <= 0:
		complain("through", "%v; accepted: a length above zero", e.Through)
	case e.Blind != nil && e.Blind.Sign() <= 0:
		complain("blind", "%v; accepted: a length above zero", e.Blind)
	case e.Through != nil && e.Tap != nil:
		complain("tap", "the hole goes through; accepted: tap with blind")
	}
	return errors.Join(problems...)
}

// chooseDrill picks the tapping drill from the owner's set, and the one to buy
// when none suits.
func (f *fastening) chooseDrill(own gauge.Set) error {
	t := *f.entry.Thread
	if _, taper := t.Taper(); taper {
		for _, c := range t.ChartDrills() {
			f.chart = append(f.chart, c.Tapping...)
			f.from("tapping drill", c.Refs)
		}
		return nil
	}
	var err error
	if f.plan, err = t.PlanDrill(own, thread.TapDepth{Material: *f.entry.Material}); err != nil {
		return err
	}
	f.from("depth", f.plan.Refs)
	f.say(f.plan.Findings)
	return nil
}

// clear picks the clearance hole: of the class asked for, or else the usual one. A
// pipe passes no hole unless the file says so.
func (f *fastening) clear(own gauge.Set) error {
	t := *f.entry.Thread
	var c thread.Clearance
	var err error
	switch {
	case f.entry.Clearance != nil:
		c, err = t.ClearanceFor(*f.entry.Clearance)
	case pipe(t):
		return nil
	default:
		c, err = t.UsualClearance()
	}
	if err != nil {
		return err
	}
	f.clearance = &c
	f.from("clearance", c.Refs)
	drill, none := c.Drill(own)
	f.clearWith = drill
	f.say(none)
	f.say(c.Check(f.entry.Count))
	return nil
}

// lastTap is the one that finishes a blind hole.
func lastTap(e engine.Fastener) thread.Tap {
	if e.Tap != nil {
		return *e.Tap
	}
	return thread.SecondTap
}

// engage works out the rule for the length of full thread, and the length.
func (f *fastening) engage() error {
	t := *f.entry.Thread
	if !pipe(t) { // they seal, and go by their own lengths
		r, err := strength.StudLengthFor(t, strength.RuleFor(*f.entry.Material))
		if err != nil {
			return err
		}
		f.rule = &r
		f.from("rule", r.Refs)
	}
	var short finding.List
	if f.entry.Through != nil {
		f.full = *f.entry.Through
	} else {
		h, err := t.ThreadInBlindHole(*f.entry.Blind, lastTap(f.entry))
		if err != nil {
			return err
		}
		f.blind, f.full, short = &h, h.Thread, h.Findings
	}
	f.turns = int(f.full.Ratio(t.Pitch()))
	if f.rule != nil {
		if len(short) == 0 {
			short = f.rule.Check(f.full)
		}
		remedy, err := f.longer()
		if err != nil {
			return err
		}
		for i := range short {
			short[i].Remedies = []string{remedy} // the same with the sizes of this hole
		}
	}
	f.say(short)
	return nil
}

func (f *fastening) write(pr *printer, works *references) {
	e, t := f.entry, *f.entry.Thread
	hole := "tapped through " + mmOf(e.Through)
	if e.Blind != nil {
		hole = "blind, " + mmOf(e.Blind) + " deep"
	}
	pr.hang("", fmt.Sprintf("%s: %d off %v%s in %v, %s", e.Where, e.Count, t, recalled(t.Refs()), e.Material, hole))
	rows := [][]string{{"", "which", "metric", "inch"}}
	buy := f.plan.Buy.Drill.Name != ""
	if len(f.plan.Choices) > 0 || buy {
		rows[0] = append(rows[0], "depth", "verdict")
	}
	line := func(what, which string, l units.Length) []string { return []string{what, which, mm(l), inch(l)} }
	drill := func(what string, c thread.Choice) {
		rows = append(rows, append(line(what, c.Drill.Name, c.Drill.Diameter), fmt.Sprintf("%.0f %%", 100*c.Depth),
			c.Verdict()))
	}
	what := "tapping drill"
	for _, c := range f.plan.Choices[:min(3, len(f.plan.Choices))] {
		drill(what, c)
		what = "  or"
	}
	for _, d := range f.chart {
		rows = append(rows, line("tapping drill, chart", d.Name, d.Diameter))
	}
	if buy {
		drill("to buy", f.plan.Buy)
	}
	if c := f.clearance; c != nil {
		rows = append(rows, line("clearance hole", c.Class.String()+recalled(c.Refs), c.Hole),
			line("  forgives", "position", c.Position))
		if d := f.clearWith; d.Name != "" {
			rows = append(rows, line("clearance drill", d.Name, d.Diameter))
		}
	}
	if h := f.hexagon; h != nil {
		rows = append(rows, line("hexagon", "across flats"+recalled(h.Refs), h.Flats.Max))
	}
	length := func(what string, turns int, l units.Length) {
		rows = append(rows, line(what, fmt.Sprintf("%d turns, %.3g D", turns, l.Ratio(t.Major())), l))
	}
	if !f.full.IsZero() {
		length("full thread", f.turns, f.full)
	}
	if f.rule != nil {
		length("  by rule", f.rule.Turns, f.rule.Engaged)
	}
	pr.table(rows)
	if len(f.plan.Choices) > 0 {
		c := f.plan.Choices[0]
		cut := t.Major().Sub(c.Drill.Diameter)
		pr.hang("  ", fmt.Sprintf("depth = (D - drill) / (k p) = (%s - %s) / (%.4f x %s) = %.0f %%", decimal(t.Major()),
			decimal(c.Drill.Diameter), cut.Ratio(t.Pitch())/c.Depth, t.Pitch().Decimal(units.Millimetres, 4), 100*c.Depth))
	}
	if h := f.blind; h != nil && !h.Thread.IsZero() {
		pr.hang("  ", fmt.Sprintf("full thread = hole - lead of the tap - one pitch for chips = %s - %s - %s = %s",
			decimal(h.Depth), decimal(h.Lead), decimal(h.ChipRoom), mm(h.Thread)))
	}
	var cited []string
	for _, s := range f.sources {
		cited = append(cited, s.what+" "+works.cite(s.ref))
	}
	pr.hang("  ", "sources: "+strings.Join(cited, ", "))
}

// recalled marks a figure that is from memory or unreviewed; the source at the
// foot says the same in full.
func recalled(refs source.Refs) string {
	mark := ""
	for ref := range refs.All() {
		switch ref.Kind {
		case source.FromMemory:
			return " (memory)"
		case source.Unreviewed:
			mark = " (unreviewed)"
		}
	}
	return mark
}

func decimal(l units.Length) string { return l.Decimal(units.Millimetres, 3) }

func pipe(t thread.Thread) bool {
	return t.Series() == thread.BSPParallel || t.Series() == thread.BSPTaper || t.Series() == thread.NPT
}

func mmOf(l *units.Length) string {
	if l == nil {
		return ""
	}
	return mm(*l)
}

func (f *fastening) data() map[string]any {
	e := f.entry
	var sources []string
	for _, s := range f.sources {
		sources = append(sources, s.what+": "+s.ref.String())
	}
	d := map[string]any{
		"where": e.Where, "thread": e.Thread.Designation(), "count": e.Count, "material": e.Material.Name,
		"major_mm": e.Thread.Major().MM(), "pitch_mm": e.Thread.Pitch().MM(),
		"full_thread_mm": f.full.MM(), "turns": f.turns, "sources": sources,
	}
	drill := func(c thread.Choice) map[string]any {
		return map[string]any{"drill": c.Drill.Name, "drill_mm": c.Drill.Diameter.MM(), "depth_of_full": c.Depth,
			"verdict": c.Verdict(), "findings": c.Findings}
	}
	var drills []any
	for _, c := range f.plan.Choices {
		drills = append(drills, drill(c))
	}
	for _, s := range f.chart {
		drills = append(drills, map[string]any{"drill": s.Name, "drill_mm": s.Diameter.MM(), "why": "chart"})
	}
	d["tapping_drills"] = drills
	if f.plan.Buy.Drill.Name != "" {
		d["buy"] = drill(f.plan.Buy)
	}
	if c := f.clearance; c != nil {
		clearance := map[string]any{"class": c.Class.String(), "hole_mm": c.Hole.MM(), "position_mm": c.Position.MM()}
		if f.clearWith.Name != "" {
			clearance["drill"], clearance["drill_mm"] = f.clearWith.Name, f.clearWith.Diameter.MM()
		}
		d["clearance"] = clearance
	}
	if h := f.hexagon; h != nil {
		d["hexagon"] = map[string]any{"standard": h.Standard, "flats_mm": h.Flats.Max.MM()}
	}
	if f.rule != nil {
		d["rule_mm"], d["rule_turns"] = f.rule.Engaged.MM(), f.rule.Turns
	}
	if e.Through != nil {
		d["through_mm"] = e.Through.MM()
	}
	if h := f.blind; h != nil {
		d["blind"] = map[string]any{"depth_mm": h.Depth.MM(), "tap": lastTap(e), "tap_lead_mm": h.Lead.MM(),
			"chip_room_mm": h.ChipRoom.MM()}
	}
	return d
}
