package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Hold is the page of the engine book that says which sizes of the valve gear to
// hold first, and what they do that are off.
func Hold(e *engine.Engine) (*Page, error) {
	gear, ok := e.Gear()
	if set, err := gearOf(e); err == nil {
		gear = set
	} else if !ok || !e.Has("tolerances") {
		return nil, nil // told by the page of the valve
	}
	t, err := toleranced(e, gear)
	if err != nil || gear.Validate() != nil {
		return nil, err
	}
	sections, err := t.held(true)
	if err == nil && len(t.stated) > 0 {
		bands, failed := t.drawn()
		sections[1].Items, err = append(sections[1].Items, bands), failed // below what to hold
	}
	return &Page{Sections: sections}, err
}

// A tolerancing is a study of the gear of an engine file.
type tolerancing struct {
	*engine.Engine
	spread.Study
	stated []engine.Toleranced
}

// toleranced makes the study of a file, and complains of tolerances that cannot be
// used.
func toleranced(e *engine.Engine, gear eccentric.Gear) (*tolerancing, error) {
	stated, err := e.Tolerances(gear)
	if err := errors.Join(err, e.ValidateKeep()); err != nil {
		return nil, err
	}
	t := &tolerancing{Engine: e, Study: spread.Study{Gear: gear, Placed: e.Eccentric.Stands != nil}, stated: stated}
	for _, s := range stated {
		t.Study.Tolerances = append(t.Study.Tolerances, s.Tolerance)
	}
	if gear.Validate() == nil {
		err = t.complaint(t.Study.Validate())
	}
	return t, err
}

// complaint gives an error of package spread, and each of those joined in one, the
// place of the key that it is about.
func (t *tolerancing) complaint(err error) error {
	if err == nil {
		return nil
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, inner := range joined.Unwrap() {
			all = append(all, t.complaint(inner))
		}
		return errors.Join(all...)
	}
	key, text := "tolerances", fault.Plain(err)
	if bad := (*units.ArgumentError)(nil); errors.As(err, &bad) {
		for _, s := range t.stated {
			if bad.Field == "tolerance of "+s.Dimension.String() {
				key = "tolerances." + s.Key
			}
		}
		if kept, ok := strings.CutSuffix(bad.Field, " that is kept"); ok {
			key = "keep." + keyOf(kept)
		}
	}
	return t.Errorf(key, "%s", strings.TrimPrefix(text, "tolerances: "))
}

// keyOf writes a name as a key.
func keyOf(name string) string { return strings.ReplaceAll(name, "-", "_") }

// says returns how the file states the tolerance of a dimension.
func (t *tolerancing) says(d spread.Dimension) engine.Toleranced {
	for _, s := range t.stated {
		if s.Dimension == d {
			return s
		}
	}
	return engine.Toleranced{}
}

// held returns the sections about which sizes to hold, and what those do that are
// off; short for a book that has more to say.
func (t *tolerancing) held(short bool) ([]book.Section, error) {
	slopes, table, err := t.slopes(short)
	if err != nil {
		return nil, err
	}
	if len(t.stated) == 0 {
		table.Title = "HOLD THESE SIZES"
		return []book.Section{slopes, table}, nil
	}
	all, err := t.Study.Hold()
	if err != nil {
		return nil, t.complaint(err)
	}
	list := book.Section{Key: "hold", List: true}
	text := book.Section{Title: "HOLD THESE SIZES", Intro: []string{"First the one that does most within its tolerance, " +
		"by itself and at the worst, the other sizes as drawn."}, Items: []book.Item{{}}}
	for i, h := range all {
		d := h.Tolerance.Dimension
		stated := t.says(d)
		values := append([]book.Value{
			{Key: "dimension", What: book.Word(d.String())}, {Key: "tolerance", What: book.Word(stated.Says), Refs: stated.Refs}},
			deviations(h.Tolerance)...)
		values = append(values, heldValues(h)...)
		list.Items = append(list.Items, book.Item{Values: values})
		text.Items[0].Notes = append(text.Items[0].Notes, book.Note{
			Text: fmt.Sprintf("%d. %s, %s: %s", i+1, stated.Key, stated.Says, h.Text), Refs: stated.Refs})
	}
	sections := []book.Section{list, text}
	widest, err := t.widest()
	return append(append(sections, widest...), slopes, table), err
}

// heldValues are what a dimension does by itself.
func heldValues(h spread.Hold) []book.Value {
	event, end := book.Word(keyOf(h.Event.String())), book.Word(h.End.String())
	stroke, crank := book.Share(h.Stroke, 1), book.Angle(h.Crank, 2)
	if h.Event == 0 {
		event, end = book.Never(event, ""), book.Never(end, "")
	}
	if h.Event == 0 || h.Missed {
		stroke, crank = book.Never(stroke, ""), book.Never(crank, "")
	}
	return []book.Value{
		{Key: "event", What: event}, {Key: "end", What: end}, {Key: "missed", What: book.Answer(h.Missed)},
		{Key: "stroke", What: stroke}, {Key: "crank", What: crank},
		{Key: "lead", What: book.Length(h.Lead, 3)}, {Key: "text", What: book.Word(h.Text)},
	}
}

// deviations are both ends of a tolerance.
func deviations(t spread.Tolerance) []book.Value {
	return []book.Value{{Key: "lower", What: deviation(t.Dimension, t.Lower)}, {Key: "upper", What: deviation(t.Dimension, t.Upper)}}
}

func deviation(d spread.Dimension, by spread.Deviation) book.Quantity {
	switch d {
	case spread.Advance:
		return book.Angle(by.Angle, 2)
	case spread.LeverRatio:
		return book.Number(by.Ratio, 4, "", "")
	}
	return book.Length(by.Length, 3).Millimetres()
}

// fine is the finest step in which lengths are told: a micron or a tenth of a thou.
func (t *tolerancing) fine() units.Length {
	if t.Inches() {
		return units.Thou(0.1)
	}
	return units.MM(0.001)
}

// inUnit is q with the length in thou where the file is in inches.
func (t *tolerancing) inUnit(q book.Quantity, l units.Length) book.Quantity {
	if t.Inches() {
		return q.Shown(l.Text(units.Thousandths, 1))
	}
	return q
}

// deviation is a deviation to read, in the unit of the file.
func (t *tolerancing) deviation(d spread.Dimension, by spread.Deviation) book.Quantity {
	q := deviation(d, by)
	if d == spread.Advance || d == spread.LeverRatio {
		return q
	}
	return t.inUnit(q, by.Length)
}

// widest returns the widest tolerances that keep what the file wants kept; nothing
// where it wants nothing.
func (t *tolerancing) widest() ([]book.Section, error) {
	k := t.Engine.Keep
	keep := spread.Keep{}
	var kept []string
	for _, share := range []struct {
		name string
		from *engine.Share
		to   *float64
	}{{"cut-off", k.CutOff, &keep.CutOff}, {"release", k.Release, &keep.Release}, {"compression", k.Compression, &keep.Compression}} {
		if share.from != nil {
			*share.to = float64(*share.from)
			kept = append(kept, fmt.Sprintf("%s within %s %%", share.name, fault.Decimal(100*float64(*share.from), 1)))
		}
	}
	if k.Lead != nil {
		keep.Lead = *k.Lead
		kept = append(kept, "lead within "+t.InUnit(*k.Lead))
	}
	if len(kept) == 0 {
		return nil, nil
	}
	all, err := t.Study.Widest(keep)
	if errors.Is(err, units.ErrMissing) { // what the findings tell of
		return []book.Section{{Intro: []string{"No tolerances are found that keep " + strings.Join(kept, " and ") +
			", as not all of this happens in the gear as drawn."}}}, nil
	}
	if err != nil {
		return nil, t.complaint(err)
	}
	list := book.Section{Key: "widest", List: true}
	table := book.Table{}
	for _, w := range all {
		d := w.Tolerance.Dimension
		stated := t.says(d)
		values := append([]book.Value{
			{Key: "dimension", What: book.Word(d.String())},
			{Key: "stated", What: book.Word(stated.Says)}}, deviations(w.Tolerance)...)
		values = append(values, book.Value{Key: "factor", What: book.Number(w.Factor, 2, "", "")},
			book.Value{Key: "free", What: book.Answer(w.Free)})
		list.Items = append(list.Items, book.Item{Values: values})
		times := book.Number(w.Factor, 2, "times", "")
		if w.Free {
			times = times.Shown("10 or more")
		}
		held := w.Held(t.fine())
		table.Rows = append(table.Rows, book.Row{Label: stated.Key, Values: []book.Value{
			{Label: "stated", What: book.Word(stated.Says)},
			{Label: "from", What: t.deviation(d, held.Lower)}, {Label: "to", What: t.deviation(d, held.Upper)},
			{Label: "as stated", What: times},
		}})
	}
	return []book.Section{list, {Intro: []string{"The widest tolerances that keep " + strings.Join(kept, " and ") +
		" of the drawing, either way and at both ends, in the worst case of all of them together. What matters little is held" +
		" less closely; none can be wider by itself."},
		Items: []book.Item{{Tables: []book.Table{table}}},
		Notes: []string{"They are rounded to the safe side. A rod that is off moves the piston towards a cover too: see to its" +
			" clearance before its tolerance is widened."}}}, nil
}

// slopes are what a step of each size does, as a list for programs, which has both
// steps, and as a table to read, which has that of the file's unit.
func (t *tolerancing) slopes(short bool) (list, table book.Section, err error) {
	list = book.Section{Key: "sensitivity", List: true}
	times := "A thou does 2.54 times as much as 0.01 mm. "
	if t.Inches() {
		times = ""
	}
	table = book.Section{Title: "WHAT A STEP OF EACH SIZE DOES", Intro: []string{"A size that is larger by a step moves the " +
		"events so far, by itself and in proportion; above zero is later, the piston further from that end, the lead larger. " +
		times + "What is not in a table moves nothing of it by as much as its last digit."}}
	for i, step := range []struct {
		size   units.Length
		text   string
		inches bool
	}{{units.MM(0.01), "0.01 mm", false}, {units.Thou(1), "1 thou", true}} {
		all, err := t.Study.Sensitivities(step.size)
		if err != nil {
			return list, table, t.complaint(err)
		}
		rows := [2]book.Table{}
		add := func(name string, s spread.Sensitivity) {
			moved := step.text
			switch s.Dimension {
			case spread.Advance:
				moved = "1 deg"
			case spread.LeverRatio:
				moved = "0.01"
			}
			if moved == step.text || i == 0 {
				list.Items = append(list.Items, slopeItem(name, moved, s))
			}
			for end, c := range []spread.Changes{s.Head, s.Crank} {
				if visible(c) {
					rows[end].Rows = append(rows[end].Rows, t.slopeRow(name, moved, c))
				}
			}
		}
		for _, s := range all.Sizes {
			add(s.Dimension.String(), s)
		}
		add("steam lap", all.SteamLap)
		add("exhaust lap", all.ExhaustLap)
		if step.inches != t.Inches() {
			continue
		}
		for end, name := range []string{"head", "crank"} {
			if short && end > 0 {
				continue
			}
			title := fmt.Sprintf("At the %s end, steps of %s", name, step.text)
			table.Items = append(table.Items, book.Item{Title: title, Tables: rows[end : end+1]})
		}
	}
	if short {
		table.Notes = []string{"examples/spread tells the crank end, too."}
	}
	return list, table, nil
}

// visible reports whether something of a row of changes is not nothing as it is told.
func visible(c spread.Changes) bool {
	for _, e := range []spread.Change{c.CutOff, c.Release} {
		if !e.Occurs || fault.Decimal(e.Crank.Degrees(), 2) != "0.00" || fault.Decimal(100*e.Stroke, 2) != "0.00" {
			return true
		}
	}
	return fault.Decimal(c.Lead.MM(), 4) != "0.0000"
}

// slopeItem is one size with all that a step of it does.
func slopeItem(name, step string, s spread.Sensitivity) book.Item {
	values := []book.Value{{Key: "dimension", What: book.Word(name)}, {Key: "step", What: book.Word(step)}}
	for end, c := range []spread.Changes{s.Head, s.Crank} {
		path := []string{"head.", "crank."}[end]
		for _, e := range spread.Events() {
			crank, stroke := changeOf(c.At(e))
			values = append(values, book.Value{Key: path + keyOf(e.String()) + ".crank", What: crank},
				book.Value{Key: path + keyOf(e.String()) + ".stroke", What: stroke})
		}
		values = append(values, book.Value{Key: path + "lead", What: book.Length(c.Lead, 4)})
	}
	return book.Item{Values: values}
}

// changeOf is by how much an event comes later.
func changeOf(c spread.Change) (crank, stroke book.Quantity) {
	crank, stroke = book.Angle(c.Crank, 2), book.Share(c.Stroke, 2)
	crank = crank.Shown(fault.Signed(c.Crank.Degrees(), 2) + " deg")
	stroke = stroke.Shown(fault.Signed(100*c.Stroke, 2) + " %")
	if !c.Occurs {
		return book.Never(crank, "never"), book.Never(stroke, "")
	}
	return crank, stroke
}

// slopeRow is one size with what a step of it does at one end, to read.
func (t *tolerancing) slopeRow(name, step string, c spread.Changes) book.Row {
	if step == "1 deg" || step == "0.01" {
		name += ", " + step
	}
	r := book.Row{Label: name}
	for _, e := range []spread.Event{spread.CutOff, spread.Release} {
		crank, stroke := changeOf(c.At(e))
		r.Values = append(r.Values, book.Value{Label: e.String(), What: crank}, book.Value{Label: "piston", What: stroke})
	}
	lead := book.Length(c.Lead, 4).Shown(fault.Signed(c.Lead.MM(), 4) + " mm")
	if t.Inches() {
		lead = lead.Shown(fault.Signed(c.Lead.In(units.Thousandths), 2) + " thou")
	}
	r.Values = append(r.Values, book.Value{Label: "lead", What: lead})
	return r
}
