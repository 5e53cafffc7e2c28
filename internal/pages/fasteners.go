package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// Fasteners is the page of the engine book that says how to drill, tap and clear
// each set of holes, which spanner it needs and whether the thread is deep enough.
func Fasteners(e *engine.Engine) (*Page, error) {
	if len(e.File.Fasteners) == 0 {
		return nil, nil
	}
	var problems []error
	own, name := gauge.Metric(), "metric drills of BS 328"
	if set := e.Drills.Set; set != nil {
		own, name = *set, "your drills"
		if set.Len() == 0 {
			problems = append(problems, e.Errorf("drills.set", `no drills in it; accepted: a set such as "1-6x0.1 mm, #1-#60"`))
		}
	}
	section := book.Section{
		Key: "fasteners", Title: "FASTENERS", List: true,
		Intro: []string{"Tapping drills are chosen from " + name + "; the depth of thread is a share of the full depth," +
			" the depth of the screw's own thread. A drill cuts over its size. What a clearance hole forgives is the" +
			" error of position between it and the tapped hole. A drill that suits outside a class leaves a larger hole than" +
			" that class of nut allows: a gauge refuses the thread, and it serves for work without one."},
	}
	page := &Page{}
	for i, entry := range e.File.Fasteners {
		if err := e.ValidateFastener(i); err != nil {
			problems = append(problems, err)
			continue
		}
		if own.Len() == 0 {
			continue
		}
		f, err := fasten(e, i, own)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		item := f.item()
		if picture, ok, err := f.picture(i, e.Inches()); err != nil {
			problems = append(problems, err)
		} else if ok {
			item.Figures = []book.Figure{picture}
		}
		section.Items = append(section.Items, item)
		page.Findings = append(page.Findings, f.findings.At(entry.Where)...)
		page.Precautions = addPrecautions(page.Precautions, entry.Thread.TappingPrecautions(entry.Blind != nil))
		if entry.Material != nil {
			page.Precautions = addPrecautions(page.Precautions, speeds.MaterialPrecautions(*entry.Material))
		}
	}
	page.Precautions = addPrecautions(page.Precautions, speeds.Tapping.Precautions())
	if err := engine.Join(problems...); err != nil {
		return nil, err
	}
	page.Sections = []book.Section{section}
	return page, nil
}

// A fastening is one set of fasteners worked out.
type fastening struct {
	engine.Fastener
	in        ruler
	plan      thread.DrillPlan
	clearance *thread.Clearance // nil for a pipe, which passes no hole
	clearWith gauge.Size        // the owner's drill for it; zero if there is none
	hexagon   *thread.Hexagon
	full      strength.FullThread
	findings  finding.List
}

// fasten works one set of fasteners out.
func fasten(e *engine.Engine, i int, own gauge.Set) (f fastening, err error) {
	key := fmt.Sprintf("fasteners[%d].", i)
	f.Fastener, f.in = e.File.Fasteners[i], rulerOf(e)
	t := *f.Thread
	if f.plan, err = t.PlanDrill(own, thread.TapDepth{Material: *f.Material}); err != nil {
		return f, e.Errors(key+"thread", err)
	}
	f.findings = append(f.findings, f.plan.Findings...)
	if err := f.clear(own); err != nil {
		return f, e.Errors(key+"clearance", err)
	}
	if h, err := t.Hexagon(); err == nil {
		f.hexagon = &h
	}
	at := "through"
	if f.Blind != nil {
		at = "blind"
	}
	if f.full, err = tappedHole(f.Fastener).FullThread(); err != nil {
		return f, e.Errors(key+at, err)
	}
	f.findings = append(f.findings, f.full.Findings...)
	if drill, ok := tappingDrill(f.plan); ok && f.Metal != nil {
		_, thin, err := f.left(drill)
		if err != nil {
			return f, e.Errors(key+"metal", err)
		}
		f.findings = append(f.findings, thin...)
	}
	return f, nil
}

// left is what the point of the drill leaves of the metal that the file gives.
func (f fastening) left(drill gauge.Size) (units.Length, finding.List, error) {
	if f.Metal == nil {
		return units.Length{}, nil, units.ErrMissing
	}
	return f.full.Blind.Left(drill.Diameter, 0, *f.Metal)
}

// tappedHole is the hole of fasteners that ValidateFastener takes.
func tappedHole(f engine.Fastener) strength.TappedHole {
	hole := strength.TappedHole{Thread: *f.Thread, Material: *f.Material}
	if f.Blind != nil {
		hole.Blind = *f.Blind
	} else {
		hole.Through = *f.Through
	}
	if f.Tap != nil {
		hole.Tap = *f.Tap
	}
	return hole
}

// clear finds the clearance hole: of the class asked for, or else the usual one. A
// pipe passes no hole unless the file says so.
func (f *fastening) clear(own gauge.Set) error {
	var c thread.Clearance
	var err error
	switch {
	case f.Clearance != nil:
		c, err = f.Thread.ClearanceFor(*f.Clearance)
	case f.Thread.Series().Pipe():
		return nil
	default:
		c, err = f.Thread.UsualClearance()
	}
	if err != nil {
		return err
	}
	drill, none := c.Drill(own)
	f.clearance, f.clearWith = &c, drill
	f.findings = append(append(f.findings, none...), c.Check(f.Count)...)
	return nil
}

// item is what the book has of the set.
func (f fastening) item() book.Item {
	t := *f.Thread
	var hole string
	var depth book.Value
	if f.Blind != nil {
		hole = "blind, " + f.in.drawn(*f.Blind, 3) + " deep"
		depth = book.Value{Key: "blind.depth", What: book.Length(*f.Blind, 3)}
	} else {
		hole = "tapped through " + f.in.drawn(*f.Through, 3)
		depth = book.Value{Key: "through", What: book.Length(*f.Through, 3)}
	}
	item := book.Item{
		Title: fmt.Sprintf("%s: %d off %v in %v, %s", f.Where, f.Count, t, f.Material, hole),
		Values: []book.Value{
			{Key: "where", What: book.Word(f.Where)},
			{Key: "count", What: book.Count(f.Count)},
			{Key: "thread", What: book.Word(t.Designation())},
			{Key: "material", What: book.Word(f.Material.Name)},
			depth,
			{Key: "major", Label: "thread, outside", What: book.Length(t.Major(), 3), Refs: t.Refs()},
			{Key: "pitch", Label: "  pitch", What: book.Length(t.Pitch(), 4).Millimetres(), Remark: f.in.threads(t.Pitch())},
		},
	}
	f.drills(&item)
	f.holes(&item)
	f.engagement(&item)
	return item
}

// drills adds the tapping drill: the best one, or the one to buy, and the others.
func (f fastening) drills(item *book.Item) {
	if len(f.plan.Pipe) > 0 {
		table := pipeTable(f.plan)
		table.Key, table.Title = "pipe_holes", "Tapping drill for each hole; one leaks as another"
		item.Tables = append(item.Tables, table)
	}
	others := f.plan.Choices
	switch {
	case len(others) > 0 && others[0].Suits():
		item.Values = append(item.Values, chosenDrill("tapping_drill", "tapping drill", others[0], f.plan)...)
		item.Formulas = append(item.Formulas, depthFormula(*f.Thread, others[0]))
		others = others[1:]
	case len(f.plan.Pipe) == 0:
		none := book.Never(book.Length(units.Length{}, 3), "none suits")
		item.Values = append(item.Values, book.Value{Key: "tapping_drill.diameter", Label: "tapping drill", What: none})
	}
	if buy := f.plan.Buy; buy.Suits() {
		item.Values = append(item.Values, chosenDrill("buy", "drill to buy", buy, f.plan)...)
		item.Formulas = append(item.Formulas, depthFormula(*f.Thread, buy))
	}
	// At a bench, two more are enough: with the best one they are the nearest.
	if others = others[:min(2, len(others))]; len(others) > 0 {
		table := book.Table{Key: "other_drills", Title: "Other drills"}
		for _, c := range others {
			table.Rows = append(table.Rows, book.Row{Label: c.Drill.Name, Values: []book.Value{
				{Key: "diameter", Label: "diameter", What: book.Length(c.Drill.Diameter, 3)},
				{Key: "depth", Label: "depth", What: book.Share(c.Depth, 0)},
				{Key: "verdict", Label: "verdict", What: book.Word(c.Verdict())},
			}})
		}
		item.Tables = append(item.Tables, table)
	}
}

// chosenDrill is a drill and the depth of thread that it leaves.
func chosenDrill(key, label string, c thread.Choice, plan thread.DrillPlan) []book.Value {
	return []book.Value{
		{Key: key + ".name", What: book.Word(c.Drill.Name)},
		{Key: key + ".diameter", Label: label + " " + c.Drill.Name, What: book.Length(c.Drill.Diameter, 3)},
		{Key: key + ".depth", Label: "  depth of thread", What: book.Share(c.Depth, 0), Refs: plan.Refs},
	}
}

// picture is the tapped hole in section; none of a taper thread, or where no drill suits.
func (f fastening) picture(i int, inch bool) (book.Figure, bool, error) {
	drill, ok := tappingDrill(f.plan)
	if !ok {
		return book.Figure{}, false, nil
	}
	p := tappedPicture{
		key: fmt.Sprintf("tapped-hole-%d", i+1), where: f.Where, thread: *f.Thread, drill: drill,
		through: f.Through, metal: f.Metal, inch: inch,
	}
	if f.Blind != nil {
		p.blind = &f.full.Blind
		if f.Metal != nil {
			var err error
			if p.left, _, err = f.left(drill); err != nil {
				return book.Figure{}, false, err
			}
		}
	}
	picture, err := p.picture()
	return picture, err == nil, err
}

// depthFormula is how the depth of a thread in a hole comes about.
func depthFormula(t thread.Thread, c thread.Choice) book.Formula {
	return worked(source.Refs{}, func(r ruler) string {
		return fmt.Sprintf("depth = (D - drill) / (k p) = (%s - %s) / (%.4f x %s) = %.0f %%",
			r.decimal(t.Major(), 3), r.decimal(c.Drill.Diameter, 3), c.PerPitch, r.decimal(t.Pitch(), 4), 100*c.Depth)
	})
}

// holes adds the clearance hole and the hexagon.
func (f fastening) holes(item *book.Item) {
	if c := f.clearance; c != nil {
		item.Values = append(item.Values,
			book.Value{Key: "clearance.class", What: book.Word(c.Class.String())},
			book.Value{
				Key: "clearance.hole", Label: "clearance hole, " + c.Class.String(), What: book.Length(c.Hole, 3), Refs: c.Refs,
			},
			book.Value{Key: "clearance.position", Label: "  forgives of position", What: book.Length(c.Position, 3)},
		)
		if d := f.clearWith; d.Name != "" {
			item.Values = append(item.Values,
				book.Value{Key: "clearance.drill.name", What: book.Word(d.Name)},
				book.Value{
					Key: "clearance.drill.diameter", Label: "clearance drill " + d.Name, What: book.Length(d.Diameter, 3),
				},
			)
		}
	}
	if h := f.hexagon; h != nil {
		item.Values = append(item.Values,
			book.Value{Key: "hexagon.standard", What: book.Word(h.Standard)},
			book.Value{Key: "hexagon.flats", Label: "hexagon " + h.Standard + ", flats", What: book.Length(h.Flats.Max, 3), Refs: h.Refs},
		)
	}
}

// engagement adds the length of full thread and what the rule asks for.
func (f fastening) engagement(item *book.Item) {
	inTurns := func(turns int, diameters float64) string {
		return fmt.Sprintf("%d turns, %.3g diameters", turns, diameters)
	}
	item.Values = append(item.Values,
		book.Value{
			Key: "full_thread", Label: "full thread", What: book.Length(f.full.Length, 3),
			Remark: inTurns(f.full.Turns, f.full.Diameters),
		},
		book.Value{Key: "turns", What: book.Count(f.full.Turns)},
	)
	if r := f.full.Rule; r.Rule != 0 {
		item.Values = append(item.Values,
			book.Value{
				Key: "rule", Label: "  by rule", What: book.Length(r.Engaged, 3),
				Remark: inTurns(r.Turns, r.Engaged.Ratio(f.Thread.Major())), Refs: r.Refs,
			},
			book.Value{Key: "rule_turns", What: book.Count(r.Turns)},
		)
	}
	h := f.full.Blind
	if f.Blind == nil {
		return
	}
	item.Values = append(item.Values,
		book.Value{Key: "blind.tap", What: book.Word(h.Tap.String())},
		book.Value{Key: "blind.tap_lead", What: book.Length(h.Lead, 3)},
		book.Value{Key: "blind.chip_room", What: book.Length(h.ChipRoom, 3)},
		book.Value{
			Key: "blind.jam", Label: "  the tap jams at", What: book.Length(h.Jam, 3),
			Remark: fmt.Sprintf("lead of the %v tap %s", h.Tap, f.in.text(h.Lead, 2)),
		},
	)
	if drill, ok := tappingDrill(f.plan); ok {
		if tip, err := h.Tip(drill.Diameter, 0); err == nil {
			item.Values = append(item.Values, book.Value{
				Key: "blind.tip", Label: "  hole to the drill's tip", What: book.Length(tip, 3), Remark: drill.Name + ", 118 deg",
			})
		}
		if left, _, err := f.left(drill); err == nil {
			item.Values = append(item.Values, book.Value{Key: "blind.left", Label: "  metal left below it", What: book.Length(left, 3)})
		}
	}
	if !h.Thread.IsZero() {
		item.Formulas = append(item.Formulas, worked(h.Refs, func(r ruler) string {
			return fmt.Sprintf("full thread = hole - lead of the %v tap - one pitch for chips = %s - %s - %s = %s", h.Tap,
				r.decimal(h.Depth, 3), r.decimal(h.Lead, 3), r.decimal(h.ChipRoom, 3), r.text(h.Thread, 3))
		}))
	}
}
