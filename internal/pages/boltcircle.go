package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/dial"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A BoltCircleQuestion asks where the holes of a bolt circle are, and how they are set
// out.
type BoltCircleQuestion struct {
	Number           int
	Diameter         units.Length  // of the circle
	First            units.Angle   // of hole 1, anticlockwise from the right
	Straddle         bool          // that direction lies midway between two holes
	CentreX, CentreY *units.Length // of the middle from the corner of the work; nil: half the diameter
	Hole             *units.Length // its diameter, for the caliper
	Screw            *units.Length // travel of a turn of the table's screws; nil: no dials
	Divisions        int           // of their dials
	Past             *units.Length // how far a slide goes past before it comes back; nil: half a turn
	Rotary           *units.Angle  // what a rotary table can be set to; nil: none
	Inch             bool          // places in inches
}

// BoltCircle answers the question.
func BoltCircle(ask BoltCircleQuestion) (book.Book, error) {
	first, where := ask.First, "hole 1 at "+angleText(ask.First)
	if ask.Straddle {
		first += gasket.HalfPitch(ask.Number)
		where = fmt.Sprintf("holes 1 and %d beside %s", ask.Number, angleText(ask.First))
	}
	steps, err := gasket.StepOff(ask.Number, ask.Diameter)
	if err != nil {
		return book.Book{}, ask.named(err)
	}
	circle, err := gasket.BoltCircle(ask.Number, ask.Diameter, first)
	if err != nil {
		return book.Book{}, ask.named(err)
	}
	hole, errHole := lengthOf("-hole", "diameter of the holes", ask.Hole)
	corner, errCorner := ask.corner()
	if err := errors.Join(errHole, errCorner, ask.checkDials()); err != nil {
		return book.Book{}, err
	}
	c := boltCircle{BoltCircleQuestion: ask, steps: steps, holes: circle.Drilled(hole), corner: corner}
	b := book.Book{
		Title:    fmt.Sprintf("%d holes on a circle of %s, %s", ask.Number, ask.text(ask.Diameter), where),
		Findings: append(steps.Check(hole), c.offTheWork()...), Precautions: dial.Precautions(),
		Sections: []book.Section{c.places(where)},
	}
	if b.Sections[0].Items[0].Figures, err = pictures(c.picture()); err != nil {
		return book.Book{}, err
	}
	for _, section := range []func() (book.Section, error){c.dividers, c.dials, c.rotary, c.order} {
		s, err := section()
		if err != nil {
			return book.Book{}, err
		}
		if len(s.Items) > 0 {
			b.Sections = append(b.Sections, s)
		}
	}
	return b, nil
}

// text is a length as the question has it, with -inch in inches.
func (ask BoltCircleQuestion) text(l units.Length) string {
	if ask.Inch {
		return strings.TrimRight(strings.TrimRight(l.Decimal(units.Inches, 4), "0"), ".") + " in"
	}
	return l.String()
}

// unit is what the columns are in.
func (ask BoltCircleQuestion) unit() string {
	if ask.Inch {
		return "in"
	}
	return "mm"
}

// offTheWork says which holes lie over the two edges that meet in the corner, where
// the middle was given from it.
func (c boltCircle) offTheWork() finding.List {
	if c.CentreX == nil && c.CentreY == nil {
		return nil
	}
	var names []string
	over, none := units.Length{}, units.Length{}
	for i, at := range c.holes.From(c.corner) {
		radius := c.holes[i].Diameter.Scale(0.5)
		for _, axis := range []struct {
			given bool
			at    units.Length
		}{{c.CentreX != nil, at.X}, {c.CentreY != nil, at.Y}} {
			if past := radius.Sub(axis.at); axis.given && past.Cmp(none) > 0 {
				if len(names) == 0 || names[len(names)-1] != c.holes[i].Name {
					names = append(names, c.holes[i].Name)
				}
				if past.Cmp(over) > 0 {
					over = past
				}
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	what := "Hole " + names[0] + " runs"
	if n := len(names); n > 1 {
		what = "Holes " + strings.Join(names[:n-1], ", ") + " and " + names[n-1] + " run"
	}
	return finding.List{{
		Code: overEdge, Severity: finding.Fails,
		Text:     fmt.Sprintf("%s over the edges of the work that meet in its corner, by up to %s.", what, c.fine(over)),
		Remedies: []string{"Look at -centre-x and -centre-y: they are from the corner to the middle of the circle, to the right and up."},
		Refs:     source.Of(source.Ref{Kind: source.Derived, Note: "geometry"}),
	}}
}

// overEdge is the code of the finding that a hole is not on the work.
const overEdge finding.Code = "hole-over-edge"

// A boltCircle is a question with its holes.
type boltCircle struct {
	BoltCircleQuestion
	steps  gasket.Stepping
	holes  gasket.Pattern
	corner gasket.Datum
}

func angleText(a units.Angle) string { return fmt.Sprintf("%.6g deg", a.Degrees()) }

// named says which flag or argument an error is about.
func (ask BoltCircleQuestion) named(err error) error {
	var argument *units.ArgumentError
	if errors.As(err, &argument) {
		flags := map[string]string{
			"number of holes": "number", "studs to tighten": "number", "diameter of the circle": "-d", "diameter": "-d",
			"angle of the first hole": "-first", "first angle": "-first",
			"overrun": "-past", "travel per turn of the X screw": "-screw", "division of the X dial": "-divisions", "step": "-rotary",
		}
		if flag := flags[argument.Field]; flag != "" {
			return cli.Named(flag, err)
		}
	}
	return err
}

// corner is the datum at the corner of the work: that of the square round the circle
// unless the middle is given from it.
func (ask BoltCircleQuestion) corner() (gasket.Datum, error) {
	x, errX := lengthOf("-centre-x", "middle of the circle from the corner", ask.CentreX)
	y, errY := lengthOf("-centre-y", "middle of the circle from the corner", ask.CentreY)
	half := ask.Diameter.Scale(0.5)
	if ask.CentreX == nil {
		x = half
	}
	if ask.CentreY == nil {
		y = half
	}
	return gasket.Datum{Origin: gasket.Point{X: x.Neg(), Y: y.Neg()}}, errors.Join(errX, errY)
}

func (ask BoltCircleQuestion) checkDials() error {
	switch {
	case (ask.Screw == nil) != (ask.Divisions == 0):
		return cli.ErrUsage("-screw and -divisions go together; accepted: both, or neither")
	case ask.Screw == nil && ask.Past != nil:
		return cli.ErrUsage("-past is for the dials; accepted: with -screw and -divisions")
	}
	return nil
}

// place is a coordinate in a column, to a micrometre or to a tenth of a thou.
func (c boltCircle) place(key, label string, l units.Length) book.Value {
	what := book.Number(l.In(units.Millimetres), 3, "", "mm")
	if c.Inch {
		what = what.Shown(plainZero(l.Decimal(units.Inches, 4)))
	} else {
		what = what.Shown(plainZero(l.Decimal(units.Millimetres, 3)))
	}
	return book.Value{Key: key, Label: label, What: what}
}

// fine is a length to a micrometre or to a tenth of a thou.
func (c boltCircle) fine(l units.Length) string {
	if c.Inch {
		return l.Text(units.Inches, 4)
	}
	return l.Text(units.Millimetres, 3)
}

// out is how far a setting is out, in a column.
func (c boltCircle) out(key string, l units.Length, places int) book.Value {
	unit := units.Millimetres
	if c.Inch {
		unit, places = units.Inches, places+1
	}
	return book.Value{Key: key, Label: "out by " + c.unit(), What: book.Number(l.In(units.Millimetres), places, "", "mm").
		Shown(plainZero(l.Decimal(unit, places)))}
}

// places are the holes from the middle and from the corner.
func (c boltCircle) places(where string) book.Section {
	unit := "millimetres"
	if c.Inch {
		unit = "inches"
	}
	t := book.Table{Key: "holes", Title: "Places in " + unit + ", X to the right and Y up, seen from the face that is drilled:"}
	middle, corner := c.holes.From(gasket.Datum{}), c.holes.From(c.corner)
	for i, h := range c.holes {
		t.Rows = append(t.Rows, book.Row{Label: "hole " + h.Name, Values: []book.Value{
			c.place("x", "from the middle X", middle[i].X), c.place("y", "Y", middle[i].Y),
			c.place("corner_x", "from the corner X", corner[i].X), c.place("corner_y", "Y", corner[i].Y),
		}})
	}
	var notes []book.Note
	if c.CentreX == nil || c.CentreY == nil {
		notes = []book.Note{{Text: "Where the middle lies on your work was not said: the corner is then that of the square that the holes' circle" +
			" just fills, and the outermost holes may lie on its edges. Give -centre-x and -centre-y for your own corner."}}
	}
	return book.Section{Key: "places", Items: []book.Item{{
		Notes: notes,
		Values: []book.Value{
			{Key: "number", What: book.Count(c.Number)},
			{Key: "circle", What: book.Length(c.Diameter, 3)},
			{Key: "first", What: book.Word(where)},
			{Key: "centre_x", Label: "middle from the corner, X", What: book.Length(c.corner.Origin.X.Neg(), 3)},
			{Key: "centre_y", Label: "middle from the corner, Y", What: book.Length(c.corner.Origin.Y.Neg(), 3)},
		},
		Tables: []book.Table{t},
		Formulas: []book.Formula{{
			Text: fmt.Sprintf("x = (d/2) cos(a + (k - 1) 360/%d), y = (d/2) sin(...), d = %s, k the number of the hole", c.Number, c.text(c.Diameter)),
			Refs: source.Of(source.Ref{Kind: source.Derived, Note: "geometry"}),
		}},
	}}}
}

// dividers are the chords to step the holes off with, and to prove them by.
func (c boltCircle) dividers() (book.Section, error) {
	item := book.Item{
		Values: []book.Value{{Key: "step", Label: "set the dividers to", What: book.LengthThou(c.steps.Opening(), 3, 1)}},
		Formulas: []book.Formula{{Text: fmt.Sprintf("chord = d sin(180 / n) = %s x sin(180 / %d) = %s", c.text(c.Diameter), c.Number,
			c.fine(c.steps.Opening()))}},
		Notes: []book.Note{
			{Text: "From hole 1 step off half of them one way and half the other, so that the errors of the steps add up over half the" +
				" circle only.", Refs: source.Of(source.Practice())},
			{Text: fmt.Sprintf("The closing check: step right round. When the last gap is not the step, open or close the dividers by a"+
				" %s of the difference and step round again.", part(c.Number))},
		},
	}
	t := book.Table{Key: "chords", Title: "Over the centres, to prove the holes by:"}
	for k, chord := range c.steps.Chords {
		row := book.Row{Label: "hole 1 to " + c.holes[k+1].Name, Values: []book.Value{
			{Key: "to", What: book.Count(k + 2)},
			{Key: "centres", Label: "centres", What: book.LengthThou(chord, 3, 1)},
		}}
		if c.Hole != nil {
			row.Values = append(row.Values,
				book.Value{Key: "over_pins", Label: "over pins", What: book.LengthThou(chord.Add(*c.Hole), 3, 1)})
		}
		t.Rows = append(t.Rows, row)
	}
	item.Tables = []book.Table{t}
	return book.Section{Key: "dividers", Title: "WITH DIVIDERS", Items: []book.Item{item}}, nil
}

// part names the n-th part of something.
func part(n int) string {
	switch n {
	case 2:
		return "half"
	case 3:
		return "third"
	case 4:
		return "quarter"
	}
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprintf("%d%s part", n, suffix)
}

// dials are the settings of a milling table, zeroed at the corner.
func (c boltCircle) dials() (book.Section, error) {
	if c.Screw == nil {
		return book.Section{}, nil
	}
	screw, err := lengthOf("-screw", "travel of a turn", c.Screw)
	if err != nil {
		return book.Section{}, err
	}
	if c.Divisions < 1 || screw.Picometres()%int64(c.Divisions) != 0 {
		return book.Section{}, cli.Named("-divisions", fail.OutOfRange("divisions of the dial", c.Divisions,
			"1 or more, that divide a turn of "+screw.String()+" without a rest"))
	}
	division := screw.Scale(1 / float64(c.Divisions))
	past := screw.Scale(0.5)
	if c.Past != nil {
		past = *c.Past
	}
	wheel := dial.Handwheel{PerTurn: screw, Division: division}
	table := dial.Table{X: wheel, Y: wheel, Overrun: past}
	order, err := table.InOrder(c.holes, c.corner)
	if err != nil {
		return book.Section{}, c.named(err)
	}
	var sorted gasket.Pattern
	for _, number := range order {
		sorted = append(sorted, c.holes[number-1])
	}
	settings, err := table.Set(sorted, c.corner)
	if err != nil {
		return book.Section{}, c.named(err)
	}
	t := book.Table{Key: "settings", Title: fmt.Sprintf("Dials at zero at the corner; a turn is %s, a division %s:", c.text(screw), c.text(division))}
	for _, s := range settings {
		row := book.Row{Label: "hole " + s.Hole}
		for _, slide := range []struct {
			name string
			at   dial.SlideSetting
		}{{"X", s.X}, {"Y", s.Y}} {
			key := map[string]string{"X": "x", "Y": "y"}[slide.name]
			divisions := slide.at.Reading.Ratio(division)
			text := fmt.Sprintf("%d + %.0f", slide.at.Turns, divisions)
			if slide.at.Over.Sign() > 0 {
				text += " *"
			}
			row.Values = append(row.Values,
				book.Value{Key: key, Label: slide.name + " turns + div.", What: book.Word(text)},
				book.Value{Key: key + "_turns", What: book.Count(slide.at.Turns)},
				book.Value{Key: key + "_divisions", What: book.Number(divisions, 0, "", "")},
				book.Value{Key: key + "_comes_back", What: book.Answer(slide.at.Over.Sign() > 0)},
				c.out(key+"_out", slide.at.Error, 3))
		}
		t.Rows = append(t.Rows, row)
	}
	return book.Section{Key: "dials", Title: "BY THE DIALS OF A TABLE", Items: []book.Item{{
		Values: []book.Value{
			{Key: "turn", What: book.Length(screw, 3)},
			{Key: "division", What: book.Length(division, 3)},
			{Key: "past", What: book.Length(past, 3)},
		},
		Tables: []book.Table{t},
		Notes: []book.Note{
			{Text: fmt.Sprintf("Always come to a hole from the side of the smaller reading. Where * stands the slide has to go back: go %s past the"+
				" reading, which is to be more than the backlash of the screw, and come back up to it. Pick up the corner the same way.", c.text(past)),
				Refs: source.Of(source.Practice())},
			{Text: "The holes are in the order in which X never goes back. Lock the slides before the drill touches, and let a centre drill or" +
				" a short stiff drill begin the hole.", Refs: source.Of(source.Practice())},
		},
	}}}, nil
}

// rotary are the settings of a rotary table with its middle under the spindle.
func (c boltCircle) rotary() (book.Section, error) {
	if c.Rotary == nil {
		return book.Section{}, nil
	}
	settings, err := dial.Rotary{Step: *c.Rotary}.Set(c.holes, gasket.Datum{})
	if err != nil {
		return book.Section{}, cli.Named("-rotary", err)
	}
	t := book.Table{Key: "turns", Title: "Angles of the table, anticlockwise from hole to spindle:"}
	for _, s := range settings {
		text := fmt.Sprintf("%d° %02d'", s.Degrees, s.Minutes)
		if s.Seconds != 0 {
			text += fmt.Sprintf(" %04.1f\"", s.Seconds)
		}
		t.Rows = append(t.Rows, book.Row{Label: "hole " + s.Hole, Values: []book.Value{
			{Key: "angle", Label: "angle", What: book.Number(s.Angle().Degrees(), 5, "deg", "deg").Shown(text)},
			c.out("out", s.Error, 4),
		}})
	}
	return book.Section{Key: "rotary", Title: "ON A ROTARY TABLE", Items: []book.Item{{
		Values: []book.Value{{Key: "radius", Label: "spindle from the middle of the table", What: book.LengthThou(c.Diameter.Scale(0.5), 3, 1)}},
		Tables: []book.Table{t},
		Notes: []book.Note{{Text: "Turn the table always the same way, to take up the backlash of the worm, and lock it before the drill touches.",
			Refs: source.Of(source.Practice())}},
	}}}, nil
}

// order is in which order the holes of a cover are spotted through.
func (c boltCircle) order() (book.Section, error) {
	order, err := bolting.Order(c.holes)
	if err != nil {
		return book.Section{}, c.named(err)
	}
	var names []string
	for _, number := range order {
		names = append(names, c.holes[number-1].Name)
	}
	return book.Section{Key: "order", Title: "ORDER OF DRILLING", Items: []book.Item{{
		Values: []book.Value{{Key: "order", Label: "through a cover into its cylinder", What: book.Words(names)}},
		Notes: []book.Note{{Text: "Spot and tap the first two, screw the cover down by them, and the rest cannot wander. The nuts are tightened in" +
			" the same order.", Refs: source.Of(source.Practice())}},
	}}}, nil
}

// plainZero takes the sign off a zero.
func plainZero(text string) string {
	for _, r := range text {
		if r >= '1' && r <= '9' {
			return text
		}
	}
	if text != "" && text[0] == '-' {
		return text[1:]
	}
	return text
}
