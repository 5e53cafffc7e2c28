package pages

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// settingPage is the page of the engine book on how the valve and the sheave are set.
func settingPage(e *engine.Engine) (*Page, error) {
	gear, err := gearOf(e)
	if err != nil {
		return nil, e.ValidateSetting() // the rest is told on the page of the valve
	}
	target, says, err := settable(e, gear)
	if err != nil {
		return nil, err
	}
	s, err := settingFor(e, target)
	if err != nil {
		return nil, err
	}
	section, err := sheetOf(e, s, says)
	if err != nil {
		return nil, err
	}
	section.Notes = []string{"From the two leads that you read examples/setting says what to turn and to move."}
	return &Page{Sections: []book.Section{section}, Precautions: eccentric.Precautions()}, nil
}

// settable returns the gear as it is to be set, with what is to be said of that: where
// the file has one that costs power, and setting alone puts it right, the gear after
// that.
func settable(e *engine.Engine, g eccentric.Gear) (eccentric.Gear, string, error) {
	if worst, ok := finding.ListOf(checked(e, g)).Worst(); !ok || worst == finding.Note {
		return g, "", nil
	}
	saved, err := saving(e, g, e.PartsMade())
	if err != nil {
		return g, "", err
	}
	for _, c := range saved.Cures {
		if c.Right() && c.Sets() {
			return c.Gear, "The gear as the file has it is not one to set. The sheet is for what puts it right: " + c.String(), nil
		}
	}
	return g, "The sheet is for the gear as the file has it. Set so, it has all that is told of it: setting alone puts none of that" +
		" right.", nil
}

// settingFor returns what the gear of a file is set by, and complains of what cannot
// be used.
func settingFor(e *engine.Engine, g eccentric.Gear) (setting.Setting, error) {
	if err := e.ValidateSetting(); err != nil {
		return setting.Setting{}, err
	}
	s := e.SettingOf(g)
	if err := s.Validate(); err != nil && !isAbout(err, "angle of advance") {
		return setting.Setting{}, settingError(e, err)
	}
	return s, nil
}

// settingKeys are the keys of what package setting names in its errors.
var settingKeys = map[string]string{
	"pitch of the spindle": "setting.spindle", "places of the nut": "setting.nut_places", "shaft diameter": "setting.shaft",
	"flywheel diameter": "flywheel.diameter", "rotation": "setting.rotation", "pin diameter": "setting.stop_pin",
	"radius of the pin's circle": "setting.stop_radius", "slot": "setting.slot",
}

func settingError(e *engine.Engine, err error) error { return placed(e, err, settingKeys) }

// A SettingQuestion is what is asked beside the engine file: the leads that were read,
// a move of the valve, and the nut that makes it.
type SettingQuestion struct {
	Head, Crank *units.Length // both or neither
	Move        *units.Length
	Spindle     *thread.Thread // in place of that of the file
	NutPlaces   *int
}

// ReadSetting makes the book of how the gear of an engine file is set; see
// [SettingFile].
func ReadSetting(name string, q SettingQuestion) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML, that of enginebook", err)
	}
	return SettingFile(name, text, q)
}

// SettingFile makes that book from the text of the file.
func SettingFile(name string, text []byte, q SettingQuestion) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.ValidateSetting(), e.Cross()); err != nil {
		return book.Book{}, err
	}
	target, says, err := settable(e, gear)
	if err != nil {
		return book.Book{}, err
	}
	s, err := settingFor(e, target)
	if err != nil {
		return book.Book{}, err
	}
	if s.Nut, err = q.nut(s.Nut); err != nil {
		return book.Book{}, err
	}
	b := book.Book{
		Title: "SETTING THE VALVE", From: e.Document.Name, Findings: finding.ListOf(checked(e, gear)),
		Precautions: addPrecautions(eccentric.Precautions(), []finding.Precaution{beforeSteam}),
	}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	answers, err := q.answers(s)
	if err != nil {
		return book.Book{}, err
	}
	sheet, err := sheetOf(e, s, says)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(answers, sheet)
	return firstRead(e, b), nil
}

// nut is the nut that was asked about, or that of the file.
func (q SettingQuestion) nut(of setting.Nut) (setting.Nut, error) {
	switch {
	case q.Spindle != nil:
		of = setting.Nut{Pitch: q.Spindle.Pitch()}
	case q.NutPlaces != nil && of.IsZero():
		return of, cli.Named("-nut-places", fail.Missing("spindle", "-spindle, its thread, or the key spindle of [setting]"))
	}
	if q.NutPlaces != nil {
		of.Places = *q.NutPlaces
	}
	if of.IsZero() {
		return of, nil
	}
	return of, flagged(of.Validate(), map[string]string{"pitch of the spindle": "-spindle", "places of the nut": "-nut-places"})
}

// answers are what was asked beside the sheet.
func (q SettingQuestion) answers(s setting.Setting) (sections []book.Section, err error) {
	if (q.Head == nil) != (q.Crank == nil) {
		flag := map[bool]string{true: "-head", false: "-crank"}[q.Head == nil]
		return nil, cli.Named(flag, fail.Missing("lead", "the leads of both ends as they are read, each at its dead centre"))
	}
	if q.Head != nil {
		c, err := s.Correct(setting.Leads{Head: *q.Head, Crank: *q.Crank})
		if err != nil {
			return nil, flagged(err, map[string]string{"lead of the head end": "-head", "lead of the crank end": "-crank",
				"mean of the leads": "-head, -crank"})
		}
		sections = append(sections, correctionOf(c))
	}
	if q.Move == nil {
		return sections, nil
	}
	if s.Nut.IsZero() {
		return nil, cli.Named("-move", fail.Missing("spindle", "-spindle, its thread, or the key spindle of [setting]"))
	}
	turn, err := s.Nut.Set(*q.Move)
	if err != nil {
		return nil, cli.Named("-move", err)
	}
	return append(sections, book.Section{Key: "nut", Title: "THE NUT", Items: []book.Item{{
		Values: nutValues(turn), Notes: []book.Note{{Text: turned(turn)}},
	}}}), nil
}

// turned says what is asked of the nut, and what else takes out what it leaves.
func turned(t setting.NutTurn) string {
	text := t.String() + "."
	if !t.Finer.IsZero() && !t.Left.IsZero() {
		text += " To take that out turn the spindle in its fork, put a shim behind the nut, or use a thread with a pitch of " +
			fmt.Sprintf("%s or less, %.0f to the inch or more.", t.Finer.Text(units.Millimetres, 2), math.Ceil(1/t.Finer.In(units.Inches)))
	}
	return text
}

func nutValues(t setting.NutTurn) []book.Value {
	return []book.Value{
		{Key: "turns", What: book.Number(t.Turns, 2, "", "")},
		{Key: "set_turns", What: book.Number(t.Set, 2, "", "")},
		{Key: "moves", What: book.LengthThou(t.Moves, 2, 1)},
		{Key: "left", What: book.LengthThou(t.Left, 3, 1)},
		{Key: "most_left", What: book.LengthThou(t.MostLeft, 3, 1)},
	}
}

// correctionOf is what to turn and to move for the leads that were read.
func correctionOf(c setting.Correction) book.Section {
	values := correctionValues(c)
	values = append(values, book.Value{Key: "turn_other_hand", What: book.Signed(c.OtherHand.In(units.Degree), 1, "deg", "deg")},
		book.Value{Key: "lap_more", What: book.LengthThou(c.Lap, 3, 1)})
	if c.Nut != nil {
		values = append(values, under("nut", nutValues(*c.Nut))...)
	}
	item := book.Item{Values: unprinted(values), Notes: []book.Note{{Text: c.Text}}}
	return book.Section{Key: "correction", Title: "WHAT TO TURN AND TO MOVE", Items: []book.Item{item}}
}

func correctionValues(c setting.Correction) []book.Value {
	return []book.Value{
		{Key: "turn", Label: "sheave", What: book.Signed(c.Turn.In(units.Degree), 1, "deg", "deg")},
		{Key: "arc", What: onArc(c.Arc)},
		{Key: "move", Label: "valve", What: book.Signed(c.Move.MM(), 2, "mm", "mm")},
		{Key: "eccentric_rod_longer", What: book.LengthThou(c.Rod, 2, 1)},
		{Key: "head.lead", Label: "then head", What: book.Length(c.After.Head, 2).Millimetres()},
		{Key: "crank.lead", Label: "then crank", What: book.Length(c.After.Crank, 2).Millimetres()},
	}
}

// sheetOf is the sheet of a setting.
func sheetOf(e *engine.Engine, s setting.Setting, says string) (book.Section, error) {
	section := book.Section{Key: "setting", Title: "SETTING THE VALVE"}
	sheet, err := s.Sheet()
	if isAbout(err, "angle of advance") {
		section.Intro = []string{"No sheet: " + err.Error() + "."}
		return section, nil
	}
	if err != nil {
		return section, settingError(e, err)
	}
	section.Intro = []string{inShort(s, sheet, rulerOf(e))}
	if says != "" {
		section.Intro = append(section.Intro, says)
	}
	section.Intro = append(section.Intro, "By hand, without steam or air. All readings are taken as the engine comes round the way it runs, so"+
		" that lost motion lies on one side. Where sheave, valve or screw was touched, both leads are read again.")
	for i, stage := range sheet.Stages {
		section.Items = append(section.Items, book.Item{
			Key: stage.Key, Title: fmt.Sprintf("%d. %s", i+1, stage.Title),
			Values: append([]book.Value{{Key: "number", What: book.Count(i + 1)}}, readings(stage.Key, s.Gear, sheet)...),
			Tables: splitTable(stage.Key, s, sheet), Notes: []book.Note{{Text: stage.Text, Refs: practice()}},
		})
	}
	return section, nil
}

// inShort is the answer in one sentence.
func inShort(s setting.Setting, sheet setting.Sheet, in ruler) string {
	way := "ahead of"
	if sheet.Stands < 0 {
		way = "behind"
	}
	text := fmt.Sprintf("The sheave stands %s %s the crankpin; the lead is %s at the head end and %s at the crank end. A degree"+
		" of the sheave is %s of lead", degrees(max(sheet.Stands, -sheet.Stands)), way, in.small(sheet.Events.Head.Lead),
		in.small(sheet.Events.Crank.Lead), in.small(sheet.PerDegree))
	if step := s.Nut.Step(); !step.IsZero() {
		text += fmt.Sprintf(", a step of the nut %s of the valve", in.small(step))
	}
	return text + "."
}

// readings are what is to be read at a stage; its text says them, but for the angles.
func readings(stage string, g eccentric.Gear, sheet setting.Sheet) []book.Value {
	h, c := sheet.Events.Head, sheet.Events.Crank
	switch stage {
	case "dead_centres":
		return slices.Concat(under("head", deadCentre(sheet.Head)), under("crank", deadCentre(sheet.Crank)))
	case "sheave":
		return []book.Value{
			{Key: "stands", What: book.Angle(sheet.Stands, 2)},
			{Key: "advance", What: book.Angle(g.Advance, 2)},
			{Key: "arc", What: onArc(sheet.Arc)},
			{Key: "head.opens", What: book.LengthThou(sheet.Opens.Head.Steam, 2, 1)},
			{Key: "crank.opens", What: book.LengthThou(sheet.Opens.Crank.Steam, 2, 1)},
		}
	case "middle":
		return []book.Value{
			{Key: "head.steam_edge_past_port", What: book.LengthThou(h.OverTravel, 2, 1)},
			{Key: "crank.steam_edge_past_port", What: book.LengthThou(c.OverTravel, 2, 1)},
			{Key: "valve_offset", What: book.LengthThou(g.Valve.Offset, 3, 1)},
			{Key: "openings_serve_within", What: book.LengthThou(sheet.Halved, 2, 1)},
		}
	case "lead":
		return []book.Value{
			{Key: "lead", What: book.LengthThou(h.Lead, 3, 1)},
			{Key: "lead_for_a_degree", What: book.LengthThou(sheet.PerDegree, 3, 1)},
			{Key: "arc_of_a_degree", What: onArc(sheet.DegreeOnArc)},
		}
	case "other_end":
		return []book.Value{{Key: "lead", What: book.LengthThou(c.Lead, 3, 1)}}
	case "split":
		return []book.Value{
			{Key: "to_equal_leads", What: book.LengthThou(sheet.Equal, 3, 1)},
			{Key: "equal_lead", What: book.LengthThou(sheet.EqualLead, 3, 1)},
		}
	case "prove":
		return crankAngles(sheet.Events)
	case "fasten":
		values := []book.Value{{Key: "turn_to_reverse", What: book.Angle(sheet.Reverse, 2)}}
		if stop := sheet.Stop; stop != nil {
			values = append(values, stopValues(stop)...)
		}
		return values
	}
	return nil
}

func deadCentre(d setting.DeadCentre) []book.Value {
	return []book.Value{
		{Key: "mark", What: book.LengthThou(d.Piston, 2, 1)},
		{Key: "rim_between_marks", What: onArc(d.Arc)},
		{Key: "blind", What: book.Angle(d.Blind, 1)},
		{Key: "lead_off", What: book.LengthThou(d.Off, 2, 1)},
	}
}

// onArc is an arc, or none where the diameter was not told or nothing is turned.
func onArc(l units.Length) book.Quantity {
	if l.IsZero() {
		return book.Never(book.Length(l, 2), "")
	}
	return book.LengthThou(l, 2, 1)
}

func stopValues(stop *setting.Stop) []book.Value {
	values := []book.Value{
		{Key: "pin_travel", What: book.Angle(stop.Travel, 1)},
		{Key: "slot", What: book.Angle(stop.Slot, 1)},
	}
	if m := stop.Made; m != nil {
		values = append(values,
			book.Value{Key: "made.advance", What: book.Angle(m.Gear.Advance, 1)},
			book.Value{Key: "made.slot_longer", What: book.Angle(m.Longer, 1)},
			book.Value{Key: "made.head.lead", What: book.LengthThou(m.Events.Head.Lead, 2, 1)},
			book.Value{Key: "made.crank.lead", What: book.LengthThou(m.Events.Crank.Lead, 2, 1)})
	}
	return values
}

// crankAngles are where each port opens and shuts, from its own dead centre.
func crankAngles(events eccentric.Events) (values []book.Value) {
	for _, end := range []struct {
		name string
		eccentric.EndEvents
	}{{"head", events.Head}, {"crank", events.Crank}} {
		for _, v := range []struct {
			key, label string
			event      eccentric.Event
		}{
			{"admission", "opens to steam", end.Admission}, {"cut_off", "shuts to steam", end.CutOff},
			{"release", "opens to exhaust", end.Release}, {"compression", "shuts to exhaust", end.Compression},
		} {
			crank := book.Angle(v.event.Crank, 1)
			if !v.event.Occurs {
				crank = book.Never(crank, "never")
			}
			key := end.name + "." + v.key + ".crank"
			values = append(values, book.Value{Key: key, Label: v.label, Column: end.name + " end", What: crank})
		}
	}
	return values
}

// splitTable is what to do where the crank end's lead is out; the leads after it where a
// nut leaves some of that.
func splitTable(stage string, s setting.Setting, sheet setting.Sheet) []book.Table {
	if stage != "split" || len(sheet.Splits) == 0 {
		return nil
	}
	table := book.Table{Key: "crank_end_out", Title: "Where the head end is right and the crank end's lead is out: the sheave forwards," +
		" the valve towards the crank"}
	if s.Nut.Places > 0 {
		table.Title += "; turns of the nut, and the leads after them"
	}
	for _, split := range sheet.Splits {
		values := append([]book.Value{{Key: "out", Label: "crank out", What: book.Signed(split.Out.MM(), 2, "mm", "mm")}},
			correctionValues(split.Correction)...)
		if s.Nut.Places == 0 {
			for i, v := range values {
				if v.Key == "head.lead" || v.Key == "crank.lead" {
					values[i].Label = ""
				}
			}
		} else if split.Nut != nil {
			values = append(values, book.Value{Key: "turns", Label: "nut", What: book.Signed(split.Nut.Set, 2, "", "")})
		}
		table.Rows = append(table.Rows, book.Row{Values: values})
	}
	return []book.Table{table}
}
