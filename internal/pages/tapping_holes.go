package pages

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

// tappingDrill is the drill that the plan comes to: the best one, or the one to
// buy.
func tappingDrill(plan thread.DrillPlan) (gauge.Size, bool) {
	switch {
	case len(plan.Choices) > 0 && plan.Choices[0].Suits():
		return plan.Choices[0].Drill, true
	case plan.Buy.Suits():
		return plan.Buy.Drill, true
	}
	return gauge.Size{}, false
}

// tipOf is how deep the tip of the drill goes in a blind hole.
func tipOf(h thread.BlindHole, drill gauge.Size) []book.Value {
	tip, err := h.Tip(drill.Diameter, 0)
	if err != nil {
		return nil
	}
	return []book.Value{{
		Key: "tip", Label: "  to the tip of the drill", What: book.LengthThou(tip, 3, 1),
		Remark: "drill " + drill.Name + ", point of 118 deg",
	}}
}

// askedHole is the blind hole that is wanted or that there is, and the flag that it
// came with.
func askedHole(t thread.Thread, ask TappingQuestion) (thread.BlindHole, string, error) {
	if ask.Blind != nil {
		h, err := t.BlindHole(*ask.Blind, ask.Tap)
		return h, "-blind", cli.Named("-blind", err)
	}
	h, err := t.ThreadInBlindHole(*ask.Hole, ask.Tap)
	return h, "-hole", cli.Named("-hole", err)
}

// blindHole is how deep to drill for the thread wanted, or what a given hole holds.
func blindHole(t thread.Thread, ask TappingQuestion, plan thread.DrillPlan) (book.Section, finding.List, error) {
	h, flag, err := askedHole(t, ask)
	if err != nil {
		return book.Section{}, nil, err
	}
	findings, below := h.Findings, finding.List(nil)
	item := book.Item{Values: []book.Value{
		{Key: "depth", Label: "hole, without its point", What: book.LengthThou(h.Depth, 3, 1), Refs: h.Refs},
	}}
	if drill, ok := tappingDrill(plan); ok {
		item.Values = append(item.Values, tipOf(h, drill)...)
		if ask.Metal != nil {
			left, thin, err := h.Left(drill.Diameter, 0, *ask.Metal)
			if err != nil {
				return book.Section{}, nil, cli.Named("-metal", err)
			}
			below = thin
			item.Values = append(item.Values, book.Value{Key: "left", Label: "  metal left below", What: book.LengthThou(left, 3, 1)})
		}
	}
	item.Values = append(item.Values, []book.Value{
		{
			Key: "full_thread", Label: "  full thread", What: book.LengthThou(h.Thread, 3, 1),
			Remark: fmt.Sprintf("%d turns, %.3g diameters", int(h.Thread.Ratio(t.Pitch())), h.Diameters),
		},
		{Key: "tap", What: book.Word(h.Tap.String())},
		{Key: "tap_lead", Label: fmt.Sprintf("  lead of the %v tap", h.Tap), What: book.LengthThou(h.Lead, 3, 1)},
		{Key: "chip_room", Label: "  one pitch for chips", What: book.LengthThou(h.ChipRoom, 3, 1)},
		{Key: "jam", Label: "  the tap jams at", What: book.LengthThou(h.Jam, 3, 1)},
	}...)
	if ask.Material != nil {
		full, err := strength.TappedHole{Thread: t, Material: *ask.Material, Blind: h.Depth, Tap: ask.Tap}.FullThread()
		if err != nil {
			return book.Section{}, nil, cli.Named(flag, err)
		}
		findings = full.Findings
		if r := full.Rule; r.Rule != 0 {
			item.Values = append(item.Values, book.Value{
				Key: "rule", Label: "  by rule in " + ask.Material.Name, What: book.LengthThou(r.Engaged, 3, 1),
				Remark: fmt.Sprintf("%d turns", r.Turns), Refs: r.Refs,
			})
		}
	}
	mm := func(l units.Length) string { return l.Text(units.Millimetres, 3) }
	if ask.Blind != nil {
		item.Formulas = []book.Formula{{Text: fmt.Sprintf("depth = thread + lead + one pitch for chips = %s + %s + %s = %s",
			mm(h.Thread), mm(h.Lead), mm(h.ChipRoom), mm(h.Depth))}}
	} else if !h.Thread.IsZero() {
		item.Formulas = []book.Formula{{Text: fmt.Sprintf("thread = depth - lead - one pitch for chips = %s - %s - %s = %s",
			mm(h.Depth), mm(h.Lead), mm(h.ChipRoom), mm(h.Thread))}}
	}
	taps := book.Table{Key: "taps", Title: "By the last tap"}
	for _, tap := range thread.Taps() {
		other, err := t.ThreadInBlindHole(h.Depth, tap)
		if err != nil {
			return book.Section{}, nil, cli.Named(flag, err)
		}
		taps.Rows = append(taps.Rows, book.Row{Label: tap.String(), Values: []book.Value{
			{Key: "lead", Label: "lead", What: book.Length(other.Lead, 2)},
			{Key: "full_thread", Label: "full thread", What: book.Length(other.Thread, 2)},
			{Key: "jam", Label: "jams at", What: book.Length(other.Jam, 2)},
		}})
	}
	item.Tables = []book.Table{taps}
	return book.Section{Key: "blind", Items: []book.Item{item}}, append(below, findings...), nil
}

// drawTapped adds the picture of the hole to the last section of a book.
func drawTapped(b *book.Book, t thread.Thread, ask TappingQuestion, plan thread.DrillPlan) error {
	p := tappedPicture{key: "tapped-hole", thread: t, metal: ask.Metal, inch: b.Inch}
	var known bool
	if p.drill, known = tappingDrill(plan); !known {
		p.drill = gauge.Size{Diameter: plan.Hole}
	}
	if ask.Blind != nil || ask.Hole != nil {
		h, flag, err := askedHole(t, ask)
		if err != nil {
			return err
		}
		p.blind = &h
		if p.metal != nil {
			if p.left, _, err = h.Left(p.drill.Diameter, 0, *p.metal); err != nil {
				return cli.Named(flag, err)
			}
		}
	}
	picture, err := p.picture()
	items := b.Sections[len(b.Sections)-1].Items
	items[0].Figures = append(items[0].Figures, picture)
	return err
}

// clearanceHoles is the hole that the screw passes, and the drill for it.
func clearanceHoles(t thread.Thread, ask TappingQuestion) (book.Section, finding.List, error) {
	own := ask.Own
	if own.Len() == 0 {
		own = gauge.Metric()
	}
	var item book.Item
	var findings finding.List
	if ask.Clear != "" {
		given, err := gauge.Parse(ask.Clear)
		if err != nil {
			return book.Section{}, nil, cli.Named("-clear", err)
		}
		c, err := t.ClearanceOf(given.Diameter)
		if err != nil {
			return book.Section{}, nil, cli.Named("-clear", err)
		}
		findings = c.Check(6)
		item.Values = append(item.Values, []book.Value{
			{Key: "given.name", What: book.Word(given.Name)},
			{Key: "given.diameter", Label: "your drill " + given.Name, What: book.LengthThou(c.Hole, 3, 1), Refs: c.Refs},
			{Key: "given.room", Label: "  room", What: book.LengthThou(c.Room, 3, 1)},
			{Key: "given.position", Label: "  forgives of position", What: book.LengthThou(c.Position, 3, 1)},
		}...)
	}
	table := book.Table{Key: "classes"}
	add := func(label string, c thread.Clearance) {
		row := book.Row{Label: label, Values: []book.Value{
			{Key: "hole", Label: "hole", What: book.Length(c.Hole, 3), Refs: c.Refs},
		}}
		drill := book.Value{Key: "drill", Label: "drill", What: book.Never(book.Word(""), "none")}
		if d, none := c.Drill(own); none == nil {
			drill.What = book.Word(d.Name)
		}
		row.Values = append(row.Values, drill,
			book.Value{Key: "position", Label: "forgives", What: book.Length(c.Position, 3).Millimetres()})
		table.Rows = append(table.Rows, row)
	}
	usual, err := t.UsualClearance()
	if err != nil {
		return book.Section{}, nil, err
	}
	add(usual.Class.String()+", usual", usual)
	for _, class := range thread.ClearanceClasses() {
		c, err := t.ClearanceFor(class)
		if err != nil || class == usual.Class || class >= thread.CloseBS4186 && class <= thread.FreeBS4186 {
			continue // BS 4186 differs from ISO 273 at M12 to M16 alone
		}
		add(class.String(), c)
	}
	item.Tables = []book.Table{table}
	item.Notes = []book.Note{{Text: "What a hole forgives is the error of position between it and the tapped hole. Where four holes or" +
		" more must agree, take one that forgives 0.1 mm, such as \"cover\", or spot the tapped holes through the cover."}}
	return book.Section{Key: "clearance", Title: "CLEARANCE HOLE", Items: []book.Item{item}}, findings, nil
}

// beforeTheDie is what to turn before a die cuts the thread.
func beforeTheDie(t thread.Thread) []book.Section {
	b, err := t.DieBlank()
	if err != nil {
		return nil
	}
	item := book.Item{Values: []book.Value{
		{Key: "turn", Label: "turn the rod to", What: book.LengthThou(b.Turn, 2, 1), Refs: b.Refs},
	}}
	if b.Class != "" {
		item.Values = append(item.Values,
			book.Value{Key: "class", What: book.Word(b.Class)},
			book.Value{
				Key: "allowed", Label: "  " + allows(b.Class),
				What: book.Range(book.LengthThou(b.Limits.Min, 3, 1), book.LengthThou(b.Limits.Max, 3, 1)),
			},
			book.Value{Key: "middle", Label: "  its middle", What: book.LengthThou(b.Middle, 3, 1), Remark: "as makers of dies list it"})
	} else {
		item.Notes = []book.Note{{Text: "There are no limits for this thread here: nominal less 5 % of the pitch is common practice."}}
	}
	return []book.Section{{Key: "die", Title: "BEFORE THE DIE", Items: []book.Item{item}}}
}

// rodForDie is the book of a thread that a die cuts.
func rodForDie(t thread.Thread) (book.Book, error) {
	sections := beforeTheDie(t)
	if sections == nil {
		_, err := t.DieBlank()
		return book.Book{}, cli.Named("-die", err)
	}
	sections[0].Title = ""
	return book.Book{
		Title:       fmt.Sprintf("Rod for %s, %v form, before the die", t, t.Form()),
		Sections:    append(sections, sizesOf(t)),
		Precautions: speeds.Tapping.Precautions(),
	}, nil
}

// studLength is how long to cut a stud.
func studLength(t thread.Thread, ask TappingQuestion) (book.Section, finding.List, error) {
	stud := strength.Stud{Thread: t, Cover: *ask.Cover}
	for _, l := range []struct {
		from *units.Length
		to   *units.Length
	}{{ask.Gasket, &stud.Gasket}, {ask.Nut, &stud.Nut}, {ask.Engaged, &stud.Engaged}} {
		if l.from != nil {
			*l.to = *l.from
		}
	}
	if ask.Material != nil {
		stud.Material = *ask.Material
	}
	if ask.Blind != nil || ask.Hole != nil {
		h, _, err := askedHole(t, ask)
		if err != nil {
			return book.Section{}, nil, err
		}
		if h.Thread.IsZero() {
			none := book.Never(book.Length(units.Length{}, 3), "nothing: the hole holds no full thread")
			return book.Section{Key: "stud", Title: "STUD", Items: []book.Item{{
				Values: []book.Value{{Key: "length", Label: "cut the stud to", What: none}},
			}}}, nil, nil
		}
		stud.Hole = h.Thread
	}
	if ask.Engaged == nil && ask.Material == nil {
		return book.Section{}, nil, cli.Named("-cover", errors.New("how far the stud goes into its hole is missing; accepted:"+
			" -material, for the rule, or -engaged"))
	}
	for flag, given := range map[string]*units.Length{"-nut": ask.Nut, "-engaged": ask.Engaged} {
		if given != nil && given.Sign() <= 0 {
			return book.Section{}, nil, cli.Named(flag, fmt.Errorf("%v; accepted: a length above zero", *given))
		}
	}
	cut, err := stud.Length()
	if err != nil {
		if ask.Nut == nil {
			if _, none := t.NutHeight(); none != nil {
				return book.Section{}, nil, cli.Named("-nut", fmt.Errorf("missing, as we have no table of nuts for %v; accepted:"+
					" the height of the nut, such as \"2 mm\"", t))
			}
		}
		return book.Section{}, nil, cli.Named("-cover", err)
	}
	mm := func(l units.Length) string { return l.Text(units.Millimetres, 2) }
	item := book.Item{
		Values: []book.Value{
			{Key: "length", Label: "cut the stud to", What: book.LengthThou(cut.Length, 1, 0), Refs: cut.Refs},
			{
				Key: "engaged", Label: "  in the hole", What: book.LengthThou(cut.Engaged, 2, 0),
				Remark: fmt.Sprintf("%.3g turns", cut.Engaged.Ratio(t.Pitch())),
			},
			{Key: "nut", Label: "  nut", What: book.LengthThou(cut.Nut, 2, 0)},
			{Key: "outer", Label: "  thread on the outer end", What: book.LengthThou(cut.Outer, 2, 0), Remark: "at least"},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("length = engaged + gasket + cover + nut + 1.5 p = %s + %s + %s + %s + %s = %s",
			mm(cut.Engaged), mm(stud.Gasket), mm(stud.Cover), mm(cut.Nut), mm(cut.Beyond), mm(cut.Length))}},
	}
	if item.Figures, err = pictures(studPicture("stud", "", stud, cut, false)); err != nil {
		return book.Section{}, nil, err
	}
	if stud.Hole.IsZero() {
		item.Notes = []book.Note{{Text: "The hole must be deeper, by the lead of the tap and the chips: ask with -hole or -blind."}}
	}
	return book.Section{Key: "stud", Title: "STUD", Items: []book.Item{item}}, cut.Findings, nil
}
