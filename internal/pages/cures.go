package pages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

// ReadSalvage makes the book of what saves the gear of an engine file; see
// [SalvageFile].
func ReadSalvage(name string) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML, a few kilobytes, such as demo/long-valve.toml", err)
	}
	return SalvageFile(name, text)
}

// SalvageFile makes the book of what saves the gear of an engine, from the text of
// its file. All that is wrong with the file comes in one error.
func SalvageFile(name string, text []byte) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return book.Book{}, err
	}
	made := e.PartsMade()
	saved, err := saving(e, gear, made)
	if err != nil {
		return book.Book{}, err
	}
	odd, err := gear.CheckProportions(*e.Cylinder.Bore)
	if err != nil {
		return book.Book{}, e.Errorf("cylinder.bore", "%v", err)
	}
	sections, err := curesOf(e, gear, made, saved)
	if err != nil {
		return book.Book{}, err
	}
	found := finding.ListOf(append(odd, saved.Findings...))
	if room, known, err := roomOf(e); err != nil {
		return book.Book{}, err
	} else if known {
		found = append(found, finding.ListOf(room.Check())...)
	}
	b := book.Book{
		Title: "WHAT SAVES THE VALVE GEAR", From: e.Document.Name,
		Findings:    found,
		Sections:    sections,
		Precautions: addPrecautions(eccentric.Precautions(), []finding.Precaution{beforeSteam}),
	}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	return firstRead(e, b), nil
}

// saving asks what saves a gear, in the terms in which its file says where the
// eccentric stands.
func saving(e *engine.Engine, g eccentric.Gear, made eccentric.Made) (eccentric.Salvaged, error) {
	if e.Eccentric.Stands != nil {
		return g.SalvagePlaced(made)
	}
	return eccentric.Salvage(g, made)
}

// cures are the sections of what may be done to a gear; none of one in which
// nothing costs power.
func cures(e *engine.Engine, g eccentric.Gear, found finding.List) ([]book.Section, error) {
	if worst, _ := found.Worst(); worst == finding.Note {
		return nil, nil
	}
	made := e.PartsMade()
	saved, err := saving(e, g, made)
	if err != nil {
		return nil, err
	}
	return curesOf(e, g, made, saved)
}

func curesOf(
	e *engine.Engine, g eccentric.Gear, made eccentric.Made, saved eccentric.Salvaged,
) ([]book.Section, error) {
	parts := partsMade(made)
	says := "Made already: " + strings.Join(parts, ", ") + "; what is not may still be drawn to any size."
	switch {
	case !e.Has("made"):
		says = "The file does not say by the key made which parts are made, so all of them count as made."
	case len(parts) == 0:
		says = "No part is made yet, and each may still be drawn to any size."
	case len(parts) == 4:
		says = "Ports, valve, eccentric and rods are made."
	}
	head := book.Section{Key: "salvage", Title: "CURES", Intro: []string{says}, Items: []book.Item{{Values: []book.Value{
		{Key: "made", What: book.Words(parts)},
		{Key: "tried", What: book.Count(saved.Tried)},
	}}}}
	list := book.Section{Key: "cures", List: true}
	room, known, err := roomOf(e)
	if err != nil {
		return nil, err
	}
	for _, c := range saved.Cures {
		if known && striking(room, c) {
			head.Intro = append(head.Intro, "Packing that would bring the piston too near to a cover is left out.")
			continue
		}
		list.Items = append(list.Items, cureOf(len(list.Items)+1, g, c, saved.Events))
	}
	if len(saved.Cures) > 1 && saved.Cures[0].Restates() {
		head.Intro = append(head.Intro, "The first is for a slip in the file, the others are for a gear that is as the file has it.")
	}
	if len(saved.Cures) > 0 {
		head.Items[0].Notes = []book.Note{{Refs: practice(), Text: fmt.Sprintf("The best of each kind, of %d changes and"+
			" pairs of changes that were tried, each with the sizes that it names. What is stated otherwise comes first, then"+
			" what leaves the ports and the sheave alone, puts the gear right and costs least: setting, metal off, strips,"+
			" packing, a new valve, a longer chest, wider ports, a new sheave, another rod.", saved.Tried)}}
		list.Notes = []string{"Before (was) and after it; compression is where the exhaust shuts, counted as elsewhere in the" +
			" share of the stroke from that end."}
		return []book.Section{head, list}, nil
	}
	switch worst, _ := finding.ListOf(saved.Findings).Worst(); worst {
	case finding.Note:
		head.Intro = append(head.Intro, "Nothing is wrong with the gear that wants a cure.")
	default:
		head.Intro = append(head.Intro, fmt.Sprintf("None of %d changes and pairs of changes makes this gear better without another"+
			" fault: design the valve and its travel anew.", saved.Tried))
	}
	return []book.Section{head, list}, nil
}

// striking reports whether a cure packs the engine so that the room of its piston is
// worse than before.
func striking(room eccentric.Room, c eccentric.Cure) bool {
	for _, s := range c.Steps {
		shims := s.Amount
		switch {
		case s.Change != "packing":
			continue
		case s.Part == "cylinder":
			shims = shims.Neg()
		}
		after, err := room.Altered(eccentric.Alteration{Shims: shims})
		if err != nil {
			return true
		}
		before, _ := finding.ListOf(room.Check()).Worst()
		if worst, _ := finding.ListOf(after.Check()).Worst(); worst > before {
			return true
		}
	}
	return false
}

func partsMade(made eccentric.Made) (parts []string) {
	for _, p := range []struct {
		name string
		made bool
	}{{"ports", made.Ports}, {"valve", made.Valve}, {"eccentric", made.Eccentric}, {"rods", made.Rods}} {
		if p.made {
			parts = append(parts, p.name)
		}
	}
	return parts
}

// cureOf is one cure: what is done, what the gear does after it and did before, and
// what is left.
func cureOf(number int, g eccentric.Gear, c eccentric.Cure, was eccentric.Events) book.Item {
	first := c.Steps[0]
	values := slices.Concat(
		[]book.Value{{Key: "part", What: book.Word(first.Part)}, {Key: "change", What: book.Word(first.Change)},
			amountOf(first), {Key: "right", What: book.Answer(c.Right())}},
		unprinted(under("gear", builtValues(c.Gear))),
		beforeAndAfter(g, c, was))
	left, ok := c.Severity()
	severity := left.String()
	if !ok {
		severity = "none"
	}
	codes := []string{}
	for _, f := range c.Left {
		codes = append(codes, string(f.Code))
	}
	slices.Sort(codes)
	values = append(values, book.Value{Key: "severity_left", What: book.Word(severity)},
		book.Value{Key: "left", What: book.Words(slices.Compact(codes))})
	steps := book.Table{Key: "steps"}
	for _, s := range c.Steps {
		steps.Rows = append(steps.Rows, book.Row{Values: []book.Value{
			{Key: "part", What: book.Word(s.Part)}, {Key: "change", What: book.Word(s.Change)}, amountOf(s),
			{Key: "text", What: book.Word(s.Text)},
		}})
	}
	return book.Item{
		Title: fmt.Sprintf("%d. %s", number, c), Values: values, Tables: []book.Table{steps},
		Notes: []book.Note{{Text: leaves(c)}},
	}
}

func amountOf(s eccentric.Step) book.Value {
	if s.Turn != 0 {
		return book.Value{Key: "amount", What: book.Angle(s.Turn, 1)}
	}
	return book.Value{Key: "amount", What: book.LengthThou(s.Amount, 2, 1)}
}

// leaves says what a cure does not cure.
func leaves(c eccentric.Cure) string {
	left := c.Leaves()
	switch {
	case len(left) > 0:
		return "It leaves " + strings.Join(left, ", ") + "."
	case !c.Right():
		return "Nothing is left that costs power by itself; but the cut-off is not one that such a valve should have, and it is" +
			" lived with."
	}
	return "It leaves nothing that costs power."
}

// beforeAndAfter are the events after a cure, those that tell its price beside what
// they were.
func beforeAndAfter(g eccentric.Gear, c eccentric.Cure, was eccentric.Events) []book.Value {
	moments, openings := eventValues(c.Gear, c.Events)
	momentsWere, openingsWere := eventValues(g, was)
	before := map[string]book.Value{}
	for _, v := range slices.Concat(momentsWere, openingsWere) {
		before[v.Key] = v
	}
	after := slices.Concat(moments, openings)
	shown := map[string]bool{}
	var values []book.Value
	for _, row := range []struct{ key, label string }{
		{"cut_off.stroke", "cut-off"}, {"compression.stroke", "compression"}, {"lead", "lead"},
		{"opening", "greatest opening to steam"},
	} {
		for _, end := range []string{"head", "crank"} {
			key := end + "." + row.key
			shown[key] = true
			i := slices.IndexFunc(after, func(v book.Value) bool { return v.Key == key })
			values = append(values,
				book.Value{Key: "events." + key, Label: row.label, Column: end + " end", What: shortly(after[i].What)},
				book.Value{Key: "was." + key, Label: row.label, Column: "was", What: shortly(before[key].What)})
		}
	}
	for _, v := range after {
		if !shown[v.Key] {
			values = append(values, book.Value{Key: "events." + v.Key, What: v.What})
		}
	}
	return values
}

// shortly is a quantity in its first unit alone.
func shortly(q book.Quantity) book.Quantity { return q.Millimetres() }
