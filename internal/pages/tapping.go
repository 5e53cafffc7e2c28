package pages

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A TappingQuestion asks for the drill for a tapped hole.
type TappingQuestion struct {
	Thread   string
	Own      gauge.Set // the drills there are; none: the metric drills of BS 328
	Share    float64   // of a full thread that is wanted
	Basis    thread.Basis
	Material *material.Material // that is tapped, in place of Share and Basis
	Blind    *units.Length      // full thread wanted in a blind hole; or
	Hole     *units.Length      // the blind hole that there is, to its full diameter; both nil: it goes through
	Tap      thread.Tap         // the last one into a blind hole
	Metal    *units.Length      // from its mouth to the port or bore below it; nil: not known
	Spot     bool               // the holes are carried over from the cover
	Die      bool               // a die cuts it: the rod before that, and no hole
	Clear    string             // a clearance drill to judge; blank: none

	// Of a stud: the cover that it passes, and what else is not the usual.
	Cover, Gasket, Nut, Engaged *units.Length

	Broken bool // a tap broke in it
}

// Tapping answers the question.
func Tapping(ask TappingQuestion) (book.Book, error) {
	t, err := thread.Parse(ask.Thread)
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	if ask.Die {
		return rodForDie(t)
	}
	plan, err := planOf(ask, t)
	if err != nil {
		return book.Book{}, err
	}
	plan = plan.Named(ask.Thread)
	b := book.Book{
		Title:    fmt.Sprintf("Tapping drill for %s, %v form", cmp.Or(plan.Internal, t.String()), t.Form()),
		Findings: plan.Check(),
	}
	if ask.Material != nil {
		b.Title += fmt.Sprintf(", in %v", ask.Material)
	}
	blind := ask.Blind != nil || ask.Hole != nil
	b.Precautions = addPrecautions(t.TappingPrecautions(blind), speeds.Tapping.Precautions())
	if ask.Material != nil {
		b.Precautions = addPrecautions(b.Precautions, speeds.MaterialPrecautions(*ask.Material))
	}
	if ask.Broken {
		b.Precautions = append(strength.BrokenTap(*ask.Material), b.Precautions...)
	}
	if _, taper := t.Taper(); taper {
		for _, asked := range []struct {
			flag  string
			given bool
		}{{"-blind", ask.Blind != nil}, {"-hole", ask.Hole != nil}, {"-clear", ask.Clear != ""}, {"-cover", ask.Cover != nil},
			{"-spot", ask.Spot}} {
			if asked.given {
				return book.Book{}, cli.Named(asked.flag, errors.New("not for a taper thread, whose length goes by its gauge"+
					" plane; accepted: parallel threads"))
			}
		}
		holes, err := pipeHoles(t, plan, b.Inch)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections = append(append(append(b.Sections, pipeDrills(ask, plan)), holes...), sizesOf(t))
		return b, nil
	}
	if t.Series().Pipe() {
		const refuse = "not for a pipe thread, which passes no cover; accepted: threads of screws"
		switch {
		case ask.Clear != "":
			return book.Book{}, cli.Named("-clear", errors.New(refuse))
		case ask.Cover != nil:
			return book.Book{}, cli.Named("-cover", errors.New(refuse))
		case ask.Spot:
			return book.Book{}, cli.Named("-spot", errors.New(refuse))
		}
	}
	add := func(section book.Section, findings finding.List, err error) error {
		b.Sections, b.Findings = append(b.Sections, section), append(b.Findings, findings...)
		return err
	}
	if ask.Spot { // the answer that is asked for comes first
		if err := add(spottedThrough(t, ask, plan)); err != nil {
			return book.Book{}, err
		}
	}
	if ask.Cover != nil {
		if err := add(studLength(t, ask)); err != nil {
			return book.Book{}, err
		}
	}
	b.Sections = append(b.Sections, ownDrills(t, ask, plan))
	if blind {
		if err := add(blindHole(t, ask, plan)); err != nil {
			return book.Book{}, err
		}
	}
	if err := drawTapped(&b, t, ask, plan); err != nil {
		return book.Book{}, err
	}
	b.Sections = append(b.Sections, holeWanted(t, plan, ask.Material))
	if !t.Series().Pipe() {
		if err := add(clearanceHoles(t, ask)); err != nil {
			return book.Book{}, err
		}
	}
	b.Sections = append(append(b.Sections, beforeTheDie(t)...), sizesOf(t))
	charts, err := chartsOf(t, ask.Material)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(append(b.Sections, charts...), forming(t, ask)...)
	return b, nil
}

// planOf chooses the drills, and names the flag that asks for what cannot be.
func planOf(ask TappingQuestion, t thread.Thread) (thread.DrillPlan, error) {
	depth := thread.TapDepth{Share: ask.Share, Basis: ask.Basis}
	if ask.Material != nil {
		depth = thread.TapDepth{Material: *ask.Material}
	} else if _, taper := t.Taper(); !taper {
		if _, err := t.ConvertDepth(1, ask.Basis, ask.Basis); err != nil {
			return thread.DrillPlan{}, cli.Named("-basis", err)
		}
		if _, err := t.TappingHole(ask.Share, ask.Basis); err != nil {
			return thread.DrillPlan{}, cli.Named("-share", err)
		}
	}
	own := ask.Own
	if own.Len() == 0 {
		own = gauge.Metric()
	}
	plan, err := t.PlanDrill(own, depth)
	return plan, cli.Named("-own", err)
}

// ownDrills are the drills there are, the best first.
func ownDrills(t thread.Thread, ask TappingQuestion, plan thread.DrillPlan) book.Section {
	item := book.Item{}
	others, title, told := plan.Choices, "Of "+whose(ask), 1 // what is wrong with the first one is in the finding
	if plan.Suits() {
		item.Values = bestDrill(t, "", "drill", plan.Choices[0])
		others, title, told = others[1:], "Others of "+whose(ask), 0
	} else {
		item.Values = []book.Value{
			{Key: "diameter", Label: "drill", What: book.Never(book.Length(units.Length{}, 3), "none suits")},
		}
	}
	if n := plan.Nearer; n.Suits() {
		item.Values = append(item.Values,
			book.Value{Key: "nearer.name", What: book.Word(n.Drill.Name)},
			book.Value{
				Key: "nearer.diameter", Label: "nearer, to buy: " + n.Drill.Name, What: book.LengthThou(n.Drill.Diameter, 3, 1),
			},
			book.Value{
				Key: "nearer.depth", Label: "  depth of thread", What: book.Share(n.Depth, 1), Remark: "of the " + n.Basis.String(),
			})
	}
	if plan.Buy.Suits() {
		item.Values = append(item.Values, bestDrill(t, "buy.", "drill to buy", plan.Buy)...)
	}
	if len(others) > 0 {
		table := book.Table{Key: "others", Title: title}
		for i, c := range others {
			row := chosen(c)
			for _, f := range c.Findings {
				if i >= told && !c.Suits() {
					row.Below = append(row.Below, f.Text)
				}
			}
			table.Rows = append(table.Rows, row)
		}
		item.Tables = []book.Table{table}
	}
	item.Notes = append(outsideClass(plan.Choices), book.Note{Text: "A drill cuts over its size, and the depth is then less."})
	return book.Section{Key: "drill", Items: []book.Item{item}}
}

// whose says whose drills the question is about.
func whose(ask TappingQuestion) string {
	if ask.Own.Len() == 0 {
		return "the metric drills of BS 328"
	}
	return "your drills"
}

// outsideClass says what becomes of the drills that suit and that the usual class
// of nut does not allow.
func outsideClass(choices []thread.Choice) []book.Note {
	for _, c := range choices {
		if c.Suits() && !c.Gauged() {
			return []book.Note{{Text: fmt.Sprintf("Outside %s: over the largest minor diameter, %s. A gauge refuses the thread,"+
				" and it serves for work without one.", thread.Limits{Class: c.Class}.Name(), c.Allowed.Max.Text(units.Millimetres, 3))}}
		}
	}
	return nil
}

// bestDrill is a drill and the thread that it leaves, under keys that begin with
// path.
func bestDrill(t thread.Thread, path, label string, c thread.Choice) []book.Value {
	values := []book.Value{
		{Key: path + "name", What: book.Word(c.Drill.Name)},
		{Key: path + "diameter", Label: label + " " + c.Drill.Name, What: book.LengthThou(c.Drill.Diameter, 3, 1)},
		{
			Key: path + "depth", Label: "  depth of thread", What: book.Share(c.Depth, 1),
			Remark: "of the " + c.Basis.String(),
		},
	}
	for _, other := range thread.Bases() {
		share, err := t.ConvertDepth(c.Depth, c.Basis, other)
		if err != nil {
			continue // three quarters of the height are of 60 degree forms alone
		}
		value := book.Value{Key: path + basisKey(other), What: book.Share(share, 1)}
		if other != c.Basis {
			value.Label, value.Remark = "  or", "of the "+other.String()
		}
		values = append(values, value)
	}
	return append(values,
		book.Value{
			Key: path + "suits", Label: "  what suits", What: book.Range(book.Share(c.Min, 0), book.Share(c.Max, 0)),
			Remark: "of the full depth",
		},
		book.Value{Key: path + "verdict", Label: "  verdict", What: book.Word(c.Verdict())})
}

// basisKey is the key of a share on a basis.
func basisKey(b thread.Basis) string {
	return "of_" + strings.NewReplacer(" ", "_", "-", "_").Replace(b.String())
}

// chosen is a drill in a row of a table.
func chosen(c thread.Choice) book.Row {
	return book.Row{Label: c.Drill.Name, Values: []book.Value{
		{Key: "diameter", Label: "diameter", What: book.LengthThou(c.Drill.Diameter, 3, 1)},
		{Key: "depth", Label: c.Basis.String(), What: book.Share(c.Depth, 1)},
		{Key: "verdict", Label: "verdict", What: book.Word(c.Verdict())},
	}}
}

// holeWanted is the hole that leaves the depth wanted.
func holeWanted(t thread.Thread, plan thread.DrillPlan, tapped *material.Material) book.Section {
	item := book.Item{Values: []book.Value{
		{Key: "wanted", Label: "hole wanted", What: book.LengthThou(plan.Hole, 3, 1)},
		{Key: "basis", What: book.Word(plan.Basis.String())},
		{
			Key: "share", Label: "  depth of thread", What: book.Share(plan.Share, 1),
			Remark: "of the " + plan.Basis.String(), Refs: plan.Refs,
		},
	}}
	if tapped != nil {
		item.Values = append(item.Values, book.Value{Key: "material", What: book.Word(tapped.Name)})
		if advice, err := thread.AdvisedDepthFor(*tapped); err == nil {
			item.Values = append(item.Values, book.Value{
				Key: "advised", Label: "  advised",
				What: book.Range(book.Share(advice.Min, 0), book.Share(advice.Max, 0)),
			})
		}
	}
	for _, other := range thread.Bases() {
		if share, err := t.ConvertDepth(plan.Share, plan.Basis, other); err == nil && other != plan.Basis {
			item.Values = append(item.Values, book.Value{
				Key:   basisKey(other),
				Label: "  or", What: book.Share(share, 1), Remark: "of the " + other.String(),
			})
		}
	}
	item.Formulas = []book.Formula{{Text: fmt.Sprintf("hole = D - share x k x p = %s - %.4g x %.4f x %s = %s,"+
		" k for the %v", t.Major().Decimal(units.Millimetres, 3), plan.Share, plan.PerPitch,
		t.Pitch().Decimal(units.Millimetres, 4), plan.Hole.Text(units.Millimetres, 3), plan.Basis)}}
	return book.Section{Key: "hole", Items: []book.Item{item, holeAllowed(t, plan)}}
}

// holeAllowed is what the usual class of nut allows the hole to be, if it has
// limits.
func holeAllowed(t thread.Thread, plan thread.DrillPlan) book.Item {
	_, class := t.UsualClasses()
	l, err := t.Limits(class)
	if err != nil {
		return book.Item{}
	}
	beside := ""
	if plan.Suits() && plan.Choices[0].Drill.Diameter.Cmp(l.Minor.Max) > 0 {
		beside = "the drill is over that: easier on the tap, and the thread shallower than the class"
	}
	return book.Item{Values: []book.Value{
		{Key: "class", What: book.Word(l.Class)},
		{
			Key: "allowed", Label: allows(l.Class), Remark: beside, Refs: l.Refs,
			What: book.Range(book.LengthThou(l.Minor.Min, 3, 1), book.LengthThou(l.Minor.Max, 3, 1)),
		},
	}}
}

// allows begins the limits of a class: "class 6H allows", "nut limits allow".
func allows(class string) string {
	name := thread.Limits{Class: class}.Name()
	if strings.HasSuffix(name, "limits") {
		return name + " allow"
	}
	return name + " allows"
}

// sizesOf are the basic sizes of the thread.
func sizesOf(t thread.Thread) book.Section {
	return book.Section{Key: "thread", Items: []book.Item{{Values: []book.Value{
		{Key: "designation", What: book.Word(t.Designation())},
		{Key: "form", What: book.Word(t.Form().String())},
		{Key: "major", Label: "major diameter D", What: book.LengthThou(t.Major(), 3, 1), Refs: t.Refs()},
		{Key: "pitch", Label: "pitch p", What: book.LengthThou(t.Pitch(), 4, 1)},
		{Key: "minor", Label: "minor diameter of the nut", What: book.LengthThou(t.Minor(), 3, 1)},
	}}}}
}

// pipeHoleLabels say how each hole for a taper pipe is made.
var pipeHoleLabels = [...]string{
	thread.ParallelHole: "parallel", thread.DrilledTaper: "taper, no reamer", thread.ReamedTaper: "taper, reamed first",
}

// pipeTable is the drill for each hole that a taper pipe is screwed into.
func pipeTable(plan thread.DrillPlan) book.Table {
	table := book.Table{Key: "holes"}
	for _, c := range plan.Pipe {
		row := book.Row{Label: c.Internal + ", " + pipeHoleLabels[c.Kind], Values: []book.Value{
			{Key: "hole", What: book.Word(c.Kind.String())}, {Key: "internal", What: book.Word(c.Internal)},
		}}
		if c.Choice.Suits() {
			row.Values = append(row.Values,
				book.Value{Key: "name", Label: "drill", What: book.Word(c.Choice.Drill.Name)},
				book.Value{Key: "diameter", Label: "diameter", What: book.LengthThou(c.Choice.Drill.Diameter, 3, 1)})
		} else {
			none := book.Never(book.Length(units.Length{}, 3), "none suits")
			row.Values = append(row.Values, book.Value{Key: "diameter", Label: "drill", What: none})
		}
		for _, f := range c.Findings {
			if plan.Suits() || c.Internal != cmp.Or(plan.Internal, c.Internal) { // else the findings of the plan say it
				row.Below = append(row.Below, strings.Join(f.Remedies, " "))
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// pipeDrills is the drill for each hole, the answer first.
func pipeDrills(ask TappingQuestion, plan thread.DrillPlan) book.Section {
	table := pipeTable(plan)
	table.Title = "Of " + whose(ask)
	return book.Section{Key: "drill", Items: []book.Item{{
		Tables: []book.Table{table},
		Notes: []book.Note{{Text: "These are different holes, and the drill of one leaks as another: find out first which thread the" +
			" fitting has, and whether you have the taper reamer."}},
	}}}
}

// pipeHoles are the holes one by one: their limits and what is in print for them.
func pipeHoles(t thread.Thread, plan thread.DrillPlan, inch bool) ([]book.Section, error) {
	var sections []book.Section
	for _, h := range plan.Pipe {
		item := book.Item{Values: []book.Value{{
			Key: "allowed", Label: "hole", Refs: h.Refs,
			What: book.Range(book.LengthThou(h.Min, 3, 1), book.LengthThou(h.Max, 3, 1)),
		}}}
		switch h.Kind {
		case thread.ReamedTaper:
			item.Values = append(item.Values, book.Value{
				Key: "mouth", Label: "ream, 1 in 16, to", What: book.LengthThou(h.Mouth, 3, 1), Remark: "at the face",
			})
			item.Notes = append(item.Notes, book.Note{Text: "The taps of such a hole cut least and last longest; it is the hole" +
				" for a joint that must be tight."})
		case thread.DrilledTaper:
			item.Notes = append(item.Notes, book.Note{Text: "The tap takes the taper out of the solid: work it in and out," +
				" with cutting oil, and try the fitting before it is deep enough by the tap."})
		case thread.ParallelHole:
			item.Notes = append(item.Notes, book.Note{Text: "A taper screw wedges in the first turns of a parallel thread, with sealant." +
				" The drill of a G thread is larger and is not for it."})
		}
		if !h.Length.IsZero() {
			item.Values = append(item.Values, book.Value{
				Key: "whole_thread", Label: "whole thread wanted", What: book.LengthThou(h.Length, 1, 0), Remark: "from the face",
			})
			item.Formulas = []book.Formula{{Text: fmt.Sprintf("hole = D1 - length / 16 = %s - %s / 16 = %s, D1 at the face",
				h.Mouth.Decimal(units.Millimetres, 3), h.Length.Decimal(units.Millimetres, 3), h.Max.Text(units.Millimetres, 3))}}
		}
		if table := pipePrinted(h.PipeHole); len(table.Rows) > 0 {
			item.Tables = []book.Table{table}
		}
		if !h.Length.IsZero() {
			var err error
			if item.Figures, err = pictures(taperedHole(t, h, inch)); err != nil {
				return nil, err
			}
		}
		sections = append(sections, book.Section{
			Key: h.Kind.String(), Title: h.Internal + strings.ToUpper(", "+pipeHoleLabels[h.Kind]), Items: []book.Item{item},
		})
	}
	return sections, nil
}

// pipePrinted is what is in print for a hole, and what comes of it.
func pipePrinted(h thread.PipeHole) book.Table {
	table := book.Table{Key: "printed", Title: "In print"}
	for _, d := range h.Printed {
		row := book.Row{Label: d.Drill.Name, Values: []book.Value{
			{Key: "diameter", Label: "diameter", What: book.LengthThou(d.Drill.Diameter, 3, 1), Refs: d.Refs},
		}}
		if !d.Wanted.IsZero() {
			row.Values = append(row.Values,
				book.Value{Key: "whole", Label: "whole thread", What: book.Length(d.Whole, 1).Millimetres()},
				book.Value{Key: "wanted", Label: "wanted", What: book.Length(d.Wanted, 1).Millimetres()},
				book.Value{Key: "turns", Label: "turns", What: book.Number(d.Turns, 1, "", "")})
		}
		for _, f := range d.Findings {
			row.Below = append(row.Below, f.Text)
		}
		if d.Open {
			row.Below = append(row.Below, "For a thread that runs out in the open, into a recess or right through.")
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// chartsOf is what charts of the trade recommend, and what comes of it.
func chartsOf(t thread.Thread, tapped *material.Material) ([]book.Section, error) {
	table := book.Table{Key: "drills"}
	for _, c := range t.ChartDrills() {
		for _, d := range c.Tapping {
			choice, err := t.CheckTappingDrill(d, thread.FullDepth)
			if tapped != nil {
				choice, err = t.CheckTappingDrillIn(*tapped, d, thread.FullDepth)
			}
			if err != nil {
				return nil, err
			}
			row := chosen(choice)
			row.Values[0].Refs = c.Refs
			table.Rows = append(table.Rows, row)
		}
	}
	if len(table.Rows) == 0 {
		return nil, nil
	}
	item := book.Item{Tables: []book.Table{table}}
	return []book.Section{{Key: "charts", Title: "WHAT CHARTS SAY", Items: []book.Item{item}}}, nil
}

// forming is the hole for a forming tap, which is another one.
func forming(t thread.Thread, ask TappingQuestion) []book.Section {
	f, err := t.FormingHole(thread.FormingShare)
	if err != nil {
		return nil
	}
	own := ask.Own
	if own.Len() == 0 {
		own = gauge.Metric()
	}
	drill := book.Value{Key: "diameter", Label: "drill", What: book.Never(book.LengthThou(units.Length{}, 3, 1), "none suits")}
	name := book.Value{Key: "name", What: book.Never(book.Word(""), "none")}
	if d, none := f.Drill(own); none == nil {
		name.What = book.Word(d.Name)
		drill.Label, drill.What = "drill "+d.Name, book.LengthThou(d.Diameter, 3, 1)
		if share, err := t.FormingDepth(d.Diameter); err == nil {
			drill.Remark = fmt.Sprintf("forms %.0f %% of a thread", 100*share)
		}
	}
	return []book.Section{{
		Key: "forming", Title: "A FORMING TAP NEEDS ANOTHER HOLE",
		Items: []book.Item{{Values: []book.Value{
			name, drill,
			{
				Key: "by_depth", Label: fmt.Sprintf("D - 0.68 x %.2f p", thread.FormingShare),
				What: book.LengthThou(f.ByDepth, 3, 1), Refs: f.Refs,
			},
			{
				Key: "by_pitch", Label: "or D - 0.42 p (0.49 p over 0.8 mm)",
				What: book.LengthThou(f.ByPitch, 3, 1), Refs: f.Refs,
			},
		}}},
	}}
}
