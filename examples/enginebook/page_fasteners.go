package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A fastenerEntry is one set of screws or studs of the engine: the thread, how
// many, and the metal that it is tapped into, right through or to a depth.
type fastenerEntry struct {
	Where     string                 `toml:"where"`
	Thread    *thread.Thread         `toml:"thread"`
	Count     int                    `toml:"count"`
	Material  *material.Material     `toml:"material"`
	Through   *units.Length          `toml:"through"` // thickness of the metal
	Blind     *units.Length          `toml:"blind"`   // depth of the hole to full diameter
	Tap       *thread.Tap            `toml:"tap"`     // the last one into a blind hole
	Clearance *thread.ClearanceClass `toml:"clearance"`
}

// A fastening is a fastenerEntry worked out.
type fastening struct {
	entry     fastenerEntry
	drills    []thread.Choice // the best first; none for a taper thread
	chart     []gauge.Size    // of a taper thread
	buy       *thread.Choice  // when none of the owner's suits
	clearance *thread.Clearance
	class     thread.ClearanceClass
	clearWith *gauge.Size // the owner's drill for it, nil if there is none
	hexagon   *thread.Hexagon
	blind     *thread.BlindHole
	full      units.Length // length of full thread
	turns     int
	rule      *thread.RuledEngagement // nil for a pipe thread
	ruleName  string
	sources   []citation
}

// A citation is what a source was used for, and the source.
type citation struct {
	what string
	ref  source.Ref
}

func (f *fastening) from(what string, ref source.Ref) {
	f.sources = append(f.sources, citation{what, ref})
}

// fastenersPage says how to drill, tap and clear each set of holes, which
// spanner it needs and whether the thread is deep enough.
func fastenersPage(in *input) (*page, error) {
	if len(in.engine.Fasteners) == 0 {
		return nil, nil
	}
	own, name := gauge.Metric(), "metric drills of BS 328"
	if set := in.engine.Drills.Set; set != nil {
		if set.Len() == 0 {
			return nil, in.errorAt("drills.set", `no drills in it; accepted: a set such as "1-6x0.1 mm, #1-#60"`)
		}
		own, name = *set, "your drills"
	}
	var fastenings []*fastening
	var problems []error
	p := &page{}
	for i, entry := range in.engine.Fasteners {
		f, findings, err := in.fastening(fmt.Sprintf("fasteners[%d]", i), entry, own)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		fastenings = append(fastenings, f)
		p.findings = append(p.findings, findings...)
	}
	if problems != nil {
		return nil, errors.Join(problems...)
	}
	data := []any{}
	small := false
	for _, f := range fastenings {
		data = append(data, f.data())
		small = small || f.entry.Thread.Major().Cmp(units.MM(3)) <= 0
	}
	p.data = map[string]any{"fasteners": data}
	p.cautions = []string{"Tap square, turn back to break the chip, and wear eye protection: a broken tap is brittle."}
	if small {
		p.cautions = append(p.cautions, "A tap of 3 mm and below breaks at less than a hand can feel: a small wrench held by its middle, a sharp tap, and the larger drill if in doubt.")
	}
	p.write = func(pr *printer) {
		pr.heading("FASTENERS")
		pr.para("Tapping drills are chosen from " + name + "; the depth of thread is a share of the full depth, the depth of the screw's own thread. A drill cuts over its size. What a clearance hole forgives is the error of position between it and the tapped hole. Sources stand at the foot, by number.")
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
func (in *input) fastening(key string, e fastenerEntry, own gauge.Set) (*fastening, finding.List, error) {
	if err := in.checkFastener(key, e); err != nil {
		return nil, nil, err
	}
	f := &fastening{entry: e}
	t := *e.Thread
	f.from("size", t.Ref())
	var findings finding.List
	add := func(code finding.Code, severity finding.Severity, text, remedy string) {
		findings = append(findings, finding.Finding{Code: code, Severity: severity, Where: e.Where, Text: text, Remedies: remedies(remedy)})
	}
	if err := f.chooseDrill(own); err != nil {
		return nil, nil, in.errorAt(key+".thread", "%v", err)
	}
	if f.buy != nil {
		text := "none of the drills suits " + t.Designation()
		if len(f.drills) > 0 {
			text += fmt.Sprintf("; %s is %s, %s", f.drills[0].Drill, f.drills[0].Verdict, f.drills[0].Why)
		}
		add("no-tapping-drill", finding.Note, text, fmt.Sprintf("buy drill %s (%s), which leaves %.0f %%", f.buy.Drill, mm(f.buy.Drill.Diameter), 100*f.buy.Depth))
	}
	if err := f.clear(); err != nil {
		return nil, nil, in.errorAt(key+".clearance", "%v", err)
	}
	if c := f.clearance; c != nil {
		// A drill that is a little larger serves: by 0.1 mm and a twentieth of the
		// screw.
		most := c.Hole.Add(units.MM(0.1)).Add(t.Major().Scale(0.05))
		if size, err := own.AtLeast(c.Hole); err == nil && size.Diameter.Cmp(most) <= 0 {
			f.clearWith = &size
		} else {
			add("no-clearance-drill", finding.Note, fmt.Sprintf("none of the drills makes the %s hole that %v clears", mm(c.Hole), t), fmt.Sprintf("a drill from %s to %s, or a boring tool", mm(c.Hole), mm(most)))
		}
	}
	if c := f.clearance; c != nil && e.Count >= 4 && c.Position.Cmp(units.MM(0.05)) < 0 {
		add("clearance-tight", finding.Note, fmt.Sprintf("the %s hole for %v forgives %s of position, and %d of them must agree", mm(c.Hole), t, mm(c.Position), e.Count),
			`clearance = "cover", or spot the tapped holes through the part`)
	}
	if h, err := t.Hexagon(); err == nil {
		f.hexagon = &h
		f.from("hexagon to "+h.Standard, h.Ref)
	}
	switch err := f.engage(); {
	case errors.Is(err, units.ErrOutOfRange) && f.rule != nil:
		remedy, err := f.longer()
		if err != nil {
			return nil, nil, in.errorAt(key+".blind", "%v", err)
		}
		add("no-thread", finding.Fails, fmt.Sprintf("a blind hole %s deep holds no full thread for %v: the lead of the %v tap and the chips take all of it", mm(*e.Blind), t, e.lastTap()), remedy)
		return f, findings, nil
	case err != nil:
		return nil, nil, in.errorAt(key+".thread", "%v", err)
	}
	if f.rule != nil && f.full.Cmp(f.rule.Engaged) < 0 {
		remedy, err := f.longer()
		if err != nil {
			return nil, nil, in.errorAt(key+".thread", "%v", err)
		}
		severity, then := finding.Note, "below it the thread may strip before the screw breaks"
		switch {
		case t.Series() == thread.ME:
			then = "but a fitting that carries its pipe and no more holds by less"
		case f.full.Scale(2).Cmp(f.rule.Engaged) < 0:
			severity = finding.Fails
		}
		add("thread-short", severity, fmt.Sprintf("%s of full thread for %v in %v; the rule for studs in %s asks for %s, %s", mm(f.full), t, e.Material, f.ruleName, mm(f.rule.Engaged), then), remedy)
	}
	return f, findings, nil
}

// longer says how deep the hole or how thick the metal must be for the thread
// that the rule asks for, rounded up to what a rule shows.
func (f *fastening) longer() (string, error) {
	need, remedy := f.rule.Engaged, "metal %s thick there, or a nut behind the hole"
	if f.entry.Blind != nil {
		h, err := f.entry.Thread.BlindHoleFor(need, f.entry.lastTap())
		if err != nil {
			return "", err
		}
		need, remedy = h.Depth, "a hole %s deep, or one right through and a nut behind it"
	}
	need, err := need.Round(units.MM(0.1), units.Up)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf(remedy, mmAndInch(need)), nil
}

// checkFastener complains of what is missing from an entry or does not go
// together.
func (in *input) checkFastener(key string, e fastenerEntry) error {
	var problems []error
	complain := func(field, format string, args ...any) {
		problems = append(problems, in.errorAt(key+"."+field, format, args...))
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
		complain("through", `missing; accepted: through, the thickness tapped right through, or blind, the depth of the hole, such as "8 mm"`)
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
			f.from("tapping drill", c.Ref)
		}
		return nil
	}
	choose := func(set gauge.Set) ([]thread.Choice, error) {
		advice, err := thread.AdvisedDepth(*f.entry.Material)
		if err != nil {
			f.from("depth", source.Ref{Kind: source.CommonPractice, Note: "75 % of the full depth, where no practice is held for the metal"})
			return t.TappingDrills(set, 0.75, thread.FullDepth)
		}
		f.from("depth", advice.Ref)
		return t.TappingDrillsFor(set, *f.entry.Material)
	}
	var err error
	f.drills, err = choose(own)
	if err == nil && f.drills[0].Verdict == thread.Suits {
		return nil
	}
	if err != nil && !errors.Is(err, units.ErrOutOfRange) { // out of range: the set has nothing near
		return err
	}
	all, err := gauge.Metric().With(gauge.Number(), gauge.Letter(), gauge.Fraction())
	if err != nil {
		return err
	}
	f.sources = f.sources[:1]
	better, err := choose(all)
	if err != nil {
		return err
	}
	f.buy = &better[0]
	return nil
}

// clear picks the clearance hole: of the class asked for, or else ISO 273 medium
// for metric threads, what charts give for the others, and the cover class
// where they give nothing. A pipe passes no hole unless the file says so.
func (f *fastening) clear() error {
	t := *f.entry.Thread
	if f.entry.Clearance != nil {
		c, err := t.ClearanceHole(*f.entry.Clearance)
		if err != nil {
			return err
		}
		f.clearance, f.class = &c, *f.entry.Clearance
	} else if !pipe(t) {
		for _, class := range []thread.ClearanceClass{thread.MediumISO273, thread.ChartClearance, thread.CoverClearance} {
			if c, err := t.ClearanceHole(class); err == nil {
				f.clearance, f.class = &c, class
				break
			}
		}
	}
	if f.clearance != nil {
		f.from("clearance", f.clearance.Ref)
	}
	return nil
}

// lastTap is the one that finishes a blind hole.
func (e fastenerEntry) lastTap() thread.Tap {
	if e.Tap != nil {
		return *e.Tap
	}
	return thread.SecondTap
}

// engage works out the rule for the length of full thread, and the length.
func (f *fastening) engage() error {
	t := *f.entry.Thread
	if !pipe(t) { // they seal, and go by their own lengths
		rule := thread.OtherNonFerrous
		switch f.entry.Material.Family {
		case material.Steel, material.Stainless, material.Iron, material.Brass:
			rule = thread.BrassIronSteel
		}
		r, err := t.EngagementByRule(rule)
		if err != nil {
			return err
		}
		f.rule, f.ruleName = &r, rule.String()
		f.from("rule", r.Ref)
	}
	if f.entry.Through != nil {
		f.full = *f.entry.Through
	} else {
		h, err := t.ThreadInBlindHole(*f.entry.Blind, f.entry.lastTap())
		if err != nil {
			return err
		}
		f.blind, f.full = &h, h.Thread
	}
	f.turns = int(f.full.Ratio(t.Pitch()))
	return nil
}

func (f *fastening) write(pr *printer, works *references) {
	e, t := f.entry, *f.entry.Thread
	hole := "tapped through " + mmOf(e.Through)
	if e.Blind != nil {
		hole = "blind, " + mmOf(e.Blind) + " deep"
	}
	pr.hang("", fmt.Sprintf("%s: %d off %v%s in %v, %s", e.Where, e.Count, t, recalled(t.Ref()), e.Material, hole))
	rows := [][]string{{"", "which", "metric", "inch"}}
	if len(f.drills) > 0 || f.buy != nil {
		rows[0] = append(rows[0], "depth", "verdict")
	}
	line := func(what, which string, l units.Length) []string { return []string{what, which, mm(l), inch(l)} }
	drill := func(what string, c thread.Choice) {
		rows = append(rows, append(line(what, c.Drill.Name, c.Drill.Diameter), fmt.Sprintf("%.0f %%", 100*c.Depth), c.Verdict.String()))
	}
	what := "tapping drill"
	for _, c := range f.drills[:min(3, len(f.drills))] {
		drill(what, c)
		what = "  or"
	}
	for _, d := range f.chart {
		rows = append(rows, line("tapping drill, chart", d.Name, d.Diameter))
	}
	if f.buy != nil {
		drill("to buy", *f.buy)
	}
	if c := f.clearance; c != nil {
		rows = append(rows, line("clearance hole", f.class.String()+recalled(c.Ref), c.Hole), line("  forgives", "position", c.Position))
		if d := f.clearWith; d != nil {
			rows = append(rows, line("clearance drill", d.Name, d.Diameter))
		}
	}
	if h := f.hexagon; h != nil {
		rows = append(rows, line("hexagon", "across flats"+recalled(h.Ref), h.Flats))
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
	if len(f.drills) > 0 {
		c := f.drills[0]
		cut := t.Major().Sub(c.Drill.Diameter)
		pr.hang("  ", fmt.Sprintf("depth = (D - drill) / (k p) = (%s - %s) / (%.4f x %s) = %.0f %%", decimal(t.Major()), decimal(c.Drill.Diameter), cut.Ratio(t.Pitch())/c.Depth, t.Pitch().Decimal(units.Millimetres, 4), 100*c.Depth))
	}
	if h := f.blind; h != nil {
		pr.hang("  ", fmt.Sprintf("full thread = hole - lead of the tap - one pitch for chips = %s - %s - %s = %s", decimal(h.Depth), decimal(h.Lead), decimal(h.ChipRoom), mm(h.Thread)))
	}
	var cited []string
	for _, s := range f.sources {
		cited = append(cited, s.what+" "+works.cite(s.ref))
	}
	pr.hang("  ", "sources: "+strings.Join(cited, ", "))
}

// recalled marks a figure that is held from memory; the source at the foot says
// the same in full.
func recalled(ref source.Ref) string {
	if ref.Kind == source.FromMemory {
		return " (memory)"
	}
	return ""
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
		return map[string]any{"drill": c.Drill.Name, "drill_mm": c.Drill.Diameter.MM(), "depth_of_full": c.Depth, "verdict": c.Verdict.String(), "why": c.Why}
	}
	var drills []any
	for _, c := range f.drills {
		drills = append(drills, drill(c))
	}
	for _, s := range f.chart {
		drills = append(drills, map[string]any{"drill": s.Name, "drill_mm": s.Diameter.MM(), "why": "chart"})
	}
	d["tapping_drills"] = drills
	if f.buy != nil {
		d["buy"] = drill(*f.buy)
	}
	if c := f.clearance; c != nil {
		clearance := map[string]any{"class": f.class.String(), "hole_mm": c.Hole.MM(), "position_mm": c.Position.MM()}
		if f.clearWith != nil {
			clearance["drill"], clearance["drill_mm"] = f.clearWith.Name, f.clearWith.Diameter.MM()
		}
		d["clearance"] = clearance
	}
	if h := f.hexagon; h != nil {
		d["hexagon"] = map[string]any{"standard": h.Standard, "flats_mm": h.Flats.MM()}
	}
	if f.rule != nil {
		d["rule_mm"], d["rule_turns"] = f.rule.Engaged.MM(), f.rule.Turns
	}
	if e.Through != nil {
		d["through_mm"] = e.Through.MM()
	}
	if h := f.blind; h != nil {
		d["blind"] = map[string]any{"depth_mm": h.Depth.MM(), "tap": e.lastTap(), "tap_lead_mm": h.Lead.MM(), "chip_room_mm": h.ChipRoom.MM()}
	}
	return d
}
