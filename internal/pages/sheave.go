package pages

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A sheaveOf is the sheave of an engine with the gear that it drives.
type sheaveOf struct {
	e    *engine.Engine
	gear eccentric.Gear
}

// readSheave reads the engine of a file.
func readSheave(name string) (*sheaveOf, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return nil, fmt.Errorf("%w; accepted: an engine file in TOML, a few kilobytes, such as engines/demo.toml", err)
	}
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.ValidateSheave(), e.Cross()); err != nil {
		return nil, err
	}
	return &sheaveOf{e, gear}, nil
}

// offsetOf sets the offset that is asked for where it is given by the travel or by the
// engine of a file, which it then returns; only one of the three may be there.
func offsetOf(name string, offset **units.Length, travel *units.Length) (*sheaveOf, error) {
	given := 0
	for _, there := range []bool{name != "", *offset != nil, travel != nil} {
		if there {
			given++
		}
	}
	if given > 1 {
		return nil, cli.ErrUsage("-offset, -travel and an engine file fix one size; accepted: one of them")
	}
	if travel != nil {
		if travel.Sign() <= 0 {
			return nil, cli.Named("-travel", fmt.Errorf("%v: out of range; accepted: above zero", *travel))
		}
		half := travel.Scale(0.5)
		*offset = &half
	}
	if name == "" {
		return nil, nil
	}
	of, err := readSheave(name)
	if err != nil {
		return nil, err
	}
	e := of.offset()
	*offset = &e
	return of, nil
}

// inches reports whether they are read first: as the engine's file has it, or without
// one as who asks does.
func (s *sheaveOf) inches(asked bool) bool {
	if s == nil {
		return asked
	}
	return s.e.Inches()
}

func (s *sheaveOf) offset() units.Length { return s.gear.EccentricOffset() }

// cameOut is what a sheave that is made does to the gear, by what a dial goes over.
func (s *sheaveOf) cameOut(ask ChuckQuestion) (book.Book, error) {
	section, found, err := s.turned([]units.Length{ask.Reads.Scale(0.5)}, []string{"as it is"})
	if err != nil {
		return book.Book{}, flagged(err, map[string]string{"offset": "-reads"})
	}
	return book.Book{
		Title: fmt.Sprintf("A sheave on which a dial goes over %v in a turn", ask.Reads), From: s.e.Document.Name,
		Findings: found, Sections: []book.Section{{Top: true, Items: []book.Item{{Values: []book.Value{
			{Key: "offset", Label: "its offset is", What: book.LengthThou(ask.Reads.Scale(0.5), 3, 1)},
			missing("less than drawn by", s.offset().Sub(ask.Reads.Scale(0.5))),
		}}}}, section}, Precautions: marking.Precautions(),
	}, nil
}

// turned is what sheaves of other offsets do to the events, each set to the drawn
// angle of advance and to the drawn mean lead, and what is to be said of the gear with
// the first where it is worse than the drawn one.
func (s *sheaveOf) turned(offsets []units.Length, labels []string) (book.Section, finding.List, error) {
	table := book.Table{Key: "turned", Title: "Leads and openings in mm, cut-off in % of the stroke; h: head end, c: crank end"}
	drawn, err := s.eventRow("as drawn", s.offset(), s.gear)
	if err != nil {
		return book.Section{}, nil, err
	}
	table.Rows = append(table.Rows, drawn)
	var found finding.List
	unreached := false
	for i, offset := range offsets {
		t, err := marking.AsTurned(s.gear, offset)
		if err != nil {
			return book.Section{}, nil, err
		}
		row, err := s.eventRow(labels[i], t.Offset, t.Kept)
		if err != nil {
			return book.Section{}, nil, err
		}
		table.Rows = append(table.Rows, row)
		if t.Reached {
			if row, err = s.eventRow("  turned to the lead", t.Offset, t.Relaid); err != nil {
				return book.Section{}, nil, err
			}
			table.Rows = append(table.Rows, row)
		}
		unreached = unreached || !t.Reached
		if i == 0 {
			found = newFindings(checked(s.e, t.Kept), checked(s.e, s.gear))
		}
	}
	notes := []book.Note{{Text: "Turned to the lead: the sheave turned on the shaft until the mean lead is as drawn. The travel is twice the offset" +
		leverSaid(s.gear) + "."}}
	if unreached {
		notes = append(notes, book.Note{Text: "With so little travel no place on the shaft gives the drawn lead."})
	}
	return book.Section{Key: "events_as_turned", Title: "WHAT IT DOES TO THE EVENTS",
		Items: []book.Item{{Tables: []book.Table{table}, Notes: notes}}}, found, nil
}

// byThou are the offsets next to the drawn one.
func (s *sheaveOf) byThou() (offsets []units.Length, labels []string) {
	e := s.offset()
	offsets, labels = []units.Length{e.Add(units.Thou(1))}, []string{"1 thou more"}
	if less := e.Sub(units.Thou(1)); less.Sign() > 0 {
		offsets, labels = append(offsets, less), append(labels, "1 thou less")
	}
	return offsets, labels
}

// newFindings returns what is found and was not there before.
func newFindings(now, before []eccentric.Finding) finding.List {
	had := map[finding.Code]finding.Severity{}
	for _, f := range before {
		had[f.Code] = max(had[f.Code], f.Severity+1)
	}
	var list finding.List
	for _, f := range now {
		if f.Severity+1 > had[f.Code] {
			list = append(list, f.Finding)
		}
	}
	return list
}

func leverSaid(g eccentric.Gear) string {
	if g.LeverRatio == 0 {
		return ""
	}
	return " times the lever's " + ratio(math.Abs(g.LeverRatio))
}

// eventRow is what a gear does, in a row.
func (s *sheaveOf) eventRow(label string, offset units.Length, g eccentric.Gear) (book.Row, error) {
	e, err := g.Events()
	if err != nil {
		return book.Row{}, err
	}
	thousandths := func(l units.Length) book.Quantity {
		return book.Length(l, 3).Shown(l.Decimal(units.Millimetres, 3))
	}
	cutOff := func(e eccentric.EndEvents) book.Quantity {
		q := book.Share(e.CutOff.Stroke, 2)
		if !e.CutOff.Occurs {
			return book.Never(q, "never")
		}
		return q.Shown(fmt.Sprintf("%.2f", 100*e.CutOff.Stroke))
	}
	return book.Row{Label: label, Values: []book.Value{
		{Key: "offset", Label: "offset", What: thousandths(offset)},
		{Key: "advance", Label: "advance", What: book.Angle(g.Advance, 2).Shown(hundredths(g.Advance))},
		{Key: "head.lead", Label: "lead h", What: thousandths(e.Head.Lead)},
		{Key: "crank.lead", Label: "lead c", What: thousandths(e.Crank.Lead)},
		{Key: "head.opening", Label: "open h", What: thousandths(e.Head.Opening)},
		{Key: "head.cut_off.stroke", Label: "cut h", What: cutOff(e.Head)},
		{Key: "crank.cut_off.stroke", Label: "cut c", What: cutOff(e.Crank)},
	}}, nil
}

// Making is the page of how the eccentric is made: marked out, set over, and what an
// error of it does.
func Making(e *engine.Engine) (*Page, error) {
	if !e.Has("sheave") {
		return nil, nil
	}
	if err := e.ValidateSheave(); err != nil {
		return nil, err
	}
	gear, err := gearOf(e)
	if err != nil {
		return nil, nil // which the page of the gear tells
	}
	s := &sheaveOf{e, gear}
	p := &Page{Precautions: addPrecautions(nil, marking.Precautions())}
	var items []book.Item
	for _, part := range []struct {
		key, title string
		of         func(*book.Item) (finding.List, error)
	}{
		{"sheave", "", s.walls}, {"marked_out", "Marked out on the end of the bar, in a vee block:", s.marked},
		{"set_over", "Set over in a three-jaw chuck, or in a four-jaw chuck by the dial:", s.packed}, {"", "", s.jaws},
	} {
		item := book.Item{Key: part.key, Title: part.title}
		found, err := part.of(&item)
		if err != nil {
			return nil, placed(e, err, sheaveKeys)
		}
		p.Findings = append(p.Findings, found...)
		if last := len(items) - 1; part.key == "" { // goes on with the one before
			items[last].Values = append(items[last].Values, item.Values...)
			items[last].Notes = append(items[last].Notes, item.Notes...)
			items[last].Figures = append(items[last].Figures, item.Figures...)
			continue
		}
		items = append(items, item)
	}
	events, _, err := s.turned(s.byThou())
	if err != nil {
		return nil, err
	}
	events.Title, events.Key = "WHAT 1 THOU OF ITS OFFSET DOES", "eccentric_by_thou"
	p.Sections = []book.Section{{Key: "making_eccentric", Title: "MAKING THE ECCENTRIC", Items: items}, events}
	return p, nil
}

// sheaveKeys are the keys of what package marking names in its errors.
var sheaveKeys = map[string]string{
	"sheave": "sheave.diameter", "bore": "sheave.bore", "lip": "sheave.lip", "boss": "sheave.boss", "grub screw": "sheave.screw",
	"cleaning": "sheave.clean", "width of the strap": "sheave.strap", "bar": "sheave.bar", "blank": "sheave.bar",
	"angle of the vee": "sheave.vee", "offset": "eccentric.travel",
	"width of the jaws": "sheave.jaw", "range of the dial": "sheave.dial", "pitch of the jaws' screws": "sheave.pitch",
	"diameter of the work": "sheave.bar",
}

// given is a length of the file, or nothing.
func given(l *units.Length) units.Length {
	if l == nil {
		return units.Length{}
	}
	return *l
}

func (s *sheaveOf) walls(item *book.Item) (finding.List, error) {
	f := &s.e.File.Sheave
	sheave := marking.Sheave{
		Bore: *f.Bore, Offset: s.offset(), Diameter: *f.Diameter, Lip: given(f.Lip), Boss: given(f.Boss),
		Screw: given(f.Screw), Clean: given(f.Clean), Bar: *f.Bar,
	}
	w, err := sheave.Walls()
	if err != nil {
		return nil, err
	}
	item.Values = append(item.Values,
		book.Value{Key: "offset", Label: "offset of the sheave", What: book.LengthThou(s.offset(), 3, 1)},
		book.Value{Key: "dial_reading", Label: "a dial goes over", What: book.LengthThou(s.offset().Scale(2), 3, 1), Remark: "in a turn by hand"},
		book.Value{Key: "bar", Label: "bar", What: book.LengthThou(*f.Bar, 3, 0), Remark: "at least " + rulerOf(s.e).text(w.Blank, 2)},
		book.Value{Key: "bar_least", What: book.Length(w.Blank, 3)},
		book.Value{Key: "thin_wall", Label: "beside the bore, thin side", What: book.LengthThou(w.Thin, 2, 0)})
	if f.Boss != nil {
		item.Values = append(item.Values, book.Value{Key: "boss_wall", Label: "boss round the bore", What: book.LengthThou(w.Boss, 2, 0)})
	}
	if f.Screw != nil {
		where := "on the thick side"
		if f.Boss != nil {
			where = "in the boss"
		}
		item.Values = append(item.Values, book.Value{Key: "screw_thread", Label: "thread for the grub screw",
			What: book.LengthThou(w.Thread, 2, 0), Remark: where})
	}
	if f.Strap != nil {
		g, err := marking.GrooveFor(*f.Strap)
		if err != nil {
			return nil, err
		}
		item.Values = append(item.Values,
			book.Value{Key: "groove", Label: "groove for the strap", Refs: g.Refs, Remark: "its lips from " + g.Lip.Text(units.Millimetres, 1),
				What: book.Range(book.LengthThou(g.Min, 2, 0), book.LengthThou(g.Max, 2, 0))})
	}
	if item.Figures, err = pictures(sheavePicture(sheave, w, s.e.Inches())); err != nil {
		return nil, err
	}
	return sheave.Check()
}

// marked is how the bar is marked out in a vee block.
func (s *sheaveOf) marked(item *book.Item) (finding.List, error) {
	f := &s.e.File.Sheave
	v := marking.Vee{Bar: *f.Bar, Included: 90 * units.Degree, Offset: s.offset()}
	if f.Vee != nil {
		v.Included = *f.Vee
	}
	heights, notes, err := heightsOf(v, nil)
	if err != nil {
		return nil, err
	}
	item.Values = append(item.Values, heights...)
	item.Notes = append(item.Notes, notes...)
	item.Figures, err = markedFigures(v, nil, s.e.Inches())
	return nil, err
}

// packed is the packing in a three-jaw chuck.
func (s *sheaveOf) packed(item *book.Item) (finding.List, error) {
	f := &s.e.File.Sheave
	chuck := marking.ThreeJaw{Blank: *f.Bar, Offset: s.offset(), Jaw: given(f.Jaw)}
	p, err := chuck.Packing()
	if err != nil {
		return nil, err
	}
	jaws := "narrow jaws"
	if f.Jaw != nil {
		jaws = fmt.Sprintf("jaws %v wide", *f.Jaw)
	}
	item.Values = append(item.Values,
		book.Value{Key: "packing", Label: "packing, three-jaw", What: book.LengthThou(p.Thickness, 3, 1), Remark: jaws, Refs: p.Refs},
		book.Value{Key: "packing_wide", Label: "  wide flat jaws", What: book.LengthThou(p.Wide, 3, 1)},
		perOffset("  for 1 %s more offset", p, s.inches(false)))
	item.Formulas = append(item.Formulas, packingFormula(chuck, p))
	if item.Figures, err = pictures(threeJawPicture(chuck, p, s.e.Inches())); err != nil {
		return nil, err
	}
	return chuck.Check()
}

// jaws is the setting over in a four-jaw chuck, by the dial.
func (s *sheaveOf) jaws(item *book.Item) (finding.List, error) {
	f := &s.e.File.Sheave
	four := marking.FourJaw{
		Readings: make([]units.Length, 4), Diameter: *f.Bar, Pitch: given(f.Pitch), Offset: s.offset(), Towards: 1,
	}
	solved, err := four.Solve()
	if err != nil {
		return nil, err
	}
	m := solved.Moves[0]
	remark := "from running true"
	if f.Pitch != nil {
		remark = fmt.Sprintf("%.2f turns of each screw", m.Turns)
		item.Values = append(item.Values, book.Value{Key: "turns", What: book.Number(m.Turns, 3, "", "")})
	}
	item.Values = append(item.Values, book.Value{Key: "jaw_move", Label: "four-jaw, one pair by", What: book.LengthThou(m.By, 3, 1), Remark: remark})
	off, _, err := speedsOff(s.offset())
	if err != nil {
		return nil, err
	}
	item.Values = append(item.Values, off...)
	if f.Dial != nil {
		sweep, err := marking.Dial{Range: *f.Dial, Offset: s.offset(), Diameter: *f.Bar}.Sweep()
		if err != nil {
			return nil, err
		}
		item.Values = append(item.Values, shortDial(sweep)...)
		if sweep.Short {
			item.Notes = append(item.Notes, book.Note{Text: shortDialSaid(sweep, *f.Dial)})
		}
	}
	if item.Figures, err = pictures(fourJawPicture{
		diameter: *f.Bar, moves: solved.Moves, offset: s.offset(), towards: 1, turns: f.Pitch != nil, inch: s.e.Inches(),
	}.picture()); err != nil {
		return nil, err
	}
	item.Notes = append(item.Notes, book.Note{Refs: source.Of(lineham),
		Text: "Turn the outside first and set the bar over for boss and bore in one setting; or bore it and face the boss first, and set it over for the" +
			" outside. What the dial goes over in a turn by hand, high side to low, is twice the offset: within 1 thou is common practice."})
	return nil, nil
}

// lineham describes the second of the two orders.
var lineham = source.Ref{
	Kind: source.Published, Title: "Lineham, A Text-Book of Mechanical Engineering", Edition: "edition not seen",
	Locator: "p. 230", Note: "bore and boss first, then the outside on the face plate",
}
