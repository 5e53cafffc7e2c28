package pages

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A DividingQuestion asks how to turn the crank for a number of divisions, or for
// an angle.
type DividingQuestion struct {
	Number   int
	Ratio    int           // turns of the crank for one of the work
	Own      string        // circles of the plates; "two-sided", as blank, and "three" are sets in use
	Table    bool          // a rotary table without plates: every position
	Angle    *units.Angle  // in place of the number
	Diameter *units.Length // of the circle, for the chord
	Across   *units.Length // the flats cut on a bar of that diameter; nil: none are
}

// Dividing answers the question.
func Dividing(ask DividingQuestion) (book.Book, error) {
	b, picture, err := divided(ask)
	if err != nil {
		return book.Book{}, err
	}
	for _, s := range b.Sections { // with the moves of the crank or of the table
		if s.Key == "moves" || s.Key == "nearest" || s.Key == "table" {
			s.Items[0].Figures, err = pictures(picture.picture())
		}
	}
	return b, err
}

// divided answers it, and says what is to be drawn.
func divided(ask DividingQuestion) (b book.Book, picture dividingPicture, err error) {
	switch {
	case ask.Table && ask.Angle != nil:
		return b, picture, cli.ErrUsage("-table lists the positions of a number of divisions; accepted: a number, or -angle without -table")
	case ask.Table && ask.Own != "":
		return b, picture, cli.ErrUsage("-table is for a rotary table without plates; accepted: -table or -own")
	case ask.Angle != nil && ask.Diameter != nil:
		return b, picture, cli.ErrUsage("-d goes with a number of divisions, for the chord")
	}
	if ask.Across != nil && ask.Diameter == nil {
		return b, picture, cli.ErrUsage("-flats are cut on a bar; accepted: -flats with -d, the bar, and their number")
	}
	plates, err := platesOf(ask.Own)
	if err != nil {
		return b, picture, cli.Named("-own", err)
	}
	if _, err := dividing.NewHead(ask.Ratio); err != nil {
		return b, picture, cli.Named("-ratio", err)
	}
	head, err := dividing.NewHead(ask.Ratio, plates.Circles...)
	switch {
	case err != nil:
		return b, picture, cli.Named("-own", err)
	case ask.Angle != nil:
		picture.angle = *ask.Angle
		b, picture.move, err = dividedByAngle(*ask.Angle, head, plates)
		return b, picture, err
	}
	picture.divisions = ask.Number
	b, picture.move, err = dividedByNumber(ask.Number, ask.Table, head, plates)
	if err != nil || ask.Diameter == nil {
		return b, picture, cli.Named("number", err)
	}
	chord, err := setting.Chord(*ask.Diameter, ask.Number)
	if err != nil {
		return b, picture, cli.Named("-d", err)
	}
	picture.below = []string{"dividers " + sizeText(chord, false), "on a circle of " + sizeText(*ask.Diameter, false)}
	b.Sections = append(b.Sections, book.Section{Key: "circle", Items: []book.Item{{
		Values: []book.Value{{Key: "chord", Label: "set dividers to", What: book.LengthThou(chord, 3, 1)}},
		Formulas: []book.Formula{{Text: fmt.Sprintf("chord = d sin(180 / n) = %v x sin(180 / %d) = %s",
			ask.Diameter, ask.Number, chord.Text(units.Millimetres, 3))}},
	}}})
	if ask.Across == nil {
		return b, picture, nil
	}
	flats, err := setting.FlatsOn(*ask.Diameter, *ask.Across, ask.Number)
	if err != nil {
		return b, picture, cli.Named("-flats", err)
	}
	picture.across, picture.diameter = *ask.Across, *ask.Diameter
	picture.below = []string{"bar " + sizeText(*ask.Diameter, false) + ", across flats " + sizeText(*ask.Across, false),
		"each flat " + sizeText(flats.Depth, false) + " deep"}
	section := book.Section{Key: "flats", Items: []book.Item{{
		Values: []book.Value{
			{Key: "depth", Label: "depth of each flat", What: book.LengthThou(flats.Depth, 3, 1)},
			{Key: "smallest_bar", Label: "smallest bar with sharp corners", What: book.LengthThou(flats.Corners, 3, 1)},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("depth = (bar - across) / 2 = (%v - %v) / 2 = %s",
			ask.Diameter, ask.Across, flats.Depth.Text(units.Millimetres, 3))}},
		Findings: flats.Findings,
	}}}
	b.Sections = append([]book.Section{section}, b.Sections...)
	return b, picture, nil
}

func platesOf(own string) (dividing.Plates, error) {
	switch own {
	case "", "two-sided":
		return dividing.TwoSidedPlate(), nil
	case "three":
		return dividing.ThreePlates(), nil
	}
	circles, err := dividing.ParseCircles(own)
	return dividing.Plates{Name: "your plates", Circles: circles}, err
}

func dividedByNumber(
	n int, table bool, head dividing.Head, plates dividing.Plates,
) (book.Book, *dividing.Setting, error) {
	if table {
		b, err := tablePositions(n, head.Ratio())
		return b, nil, err
	}
	b := book.Book{Title: fmt.Sprintf("%d divisions with a head of %d:1", n, head.Ratio()), Precautions: dividing.Precautions()}
	var first *dividing.Setting
	moves, err := head.Divide(n)
	switch {
	case errors.Is(err, dividing.ErrNotDivisible):
		near, err := head.Nearest(n)
		if err != nil {
			return book.Book{}, nil, err
		}
		b.Findings, first = near.Findings, &near.Setting
		b.Sections = []book.Section{{Key: "nearest", Items: []book.Item{{Values: append(moveOf("nearest", near.Setting, plates.Refs),
			book.Value{Key: "out", Label: "each is out by", What: minutes(near.Step)},
			book.Value{Key: "closing", Label: "and the last gap by", What: minutes(near.Closing)},
			book.Value{Key: "below", What: numberOrNone(near.Below)},
			book.Value{Key: "above", What: numberOrNone(near.Above)},
		)}}}}
	case err != nil:
		return book.Book{}, nil, err
	default:
		section := book.Section{Key: "moves", List: true}
		for _, m := range moves {
			section.Items = append(section.Items, book.Item{Values: moveOf("set", m, plates.Refs)})
		}
		b.Sections, first = []book.Section{section}, &moves[0]
	}
	turns := float64(head.Ratio()) / float64(n)
	b.Sections = append(b.Sections, workingOf(head, plates, turns,
		fmt.Sprintf("turns = ratio / n = %d / %d = %.6g", head.Ratio(), n, turns)))
	return b, first, nil
}

func dividedByAngle(
	angle units.Angle, head dividing.Head, plates dividing.Plates,
) (book.Book, *dividing.Setting, error) {
	move, off, err := head.Angle(angle)
	if err != nil {
		return book.Book{}, nil, cli.Named("-angle", err)
	}
	out := book.Value{Key: "out", What: minutes(off)}
	if off != 0 {
		out.Label, out.Remark = "which is out by", "no circle has it exactly"
	}
	turns := angle.Degrees() * float64(head.Ratio()) / 360
	return book.Book{
		Precautions: dividing.Precautions(),
		Title:       fmt.Sprintf("%.6g degrees with a head of %d:1", angle.Degrees(), head.Ratio()),
		Sections: []book.Section{
			{Key: "moves", List: true, Items: []book.Item{{Values: append(moveOf("set", move, plates.Refs), out)}}},
			workingOf(head, plates, turns, fmt.Sprintf("turns = angle x ratio / 360 = %.6g x %d / 360 = %.6g",
				angle.Degrees(), head.Ratio(), turns)),
		},
	}, &move, nil
}

func minutes(a units.Angle) book.Quantity {
	return book.Signed(a.In(units.ArcMinute), 2, "arc minutes", "arcmin")
}

func numberOrNone(n int) book.Quantity {
	if n == 0 {
		return book.Never(book.Count(0), "none")
	}
	return book.Count(n)
}

// moveOf is a move of the crank, in words for a person.
func moveOf(label string, s dividing.Setting, refs source.Refs) []book.Value {
	circle, sector := book.Never(book.Count(0), "none"), book.Never(book.Count(0), "none")
	if s.Circle != 0 {
		circle, sector = book.Count(s.Circle), book.Count(s.Spaces+1)
	}
	return []book.Value{
		{Key: "move", Label: label, What: book.Word(s.String()), Refs: refs},
		{Key: "turns", What: book.Count(s.Turns)},
		{Key: "spaces", What: book.Count(s.Spaces)},
		{Key: "circle", What: circle},
		{Key: "sector_holes", What: sector},
	}
}

func workingOf(head dividing.Head, plates dividing.Plates, turns float64, formula string) book.Section {
	return book.Section{Key: "head", Items: []book.Item{{
		Values: []book.Value{
			{Key: "ratio", What: book.Count(head.Ratio())},
			{Key: "turns", What: book.Number(turns, 6, "turns", "")},
			{Key: "plates", What: book.Word(plates.Name)},
			{Key: "circles", Label: plates.Name, What: book.Counts(plates.Circles), Refs: plates.Refs},
		},
		Formulas: []book.Formula{{Text: formula}},
	}}}
}

func tablePositions(n, ratio int) (book.Book, error) {
	positions, err := dividing.TablePositions(ratio, n)
	if err != nil {
		return book.Book{}, err
	}
	table := book.Table{Key: "positions"}
	for i, p := range positions {
		table.Rows = append(table.Rows, book.Row{Values: []book.Value{
			{Key: "number", Label: "number", What: book.Count(i + 1)},
			{Key: "angle", Label: "from the first", What: book.Angle(p.Angle, 4).Shown(fmt.Sprintf("%d°%02d'%02d\"", p.Degrees, p.Minutes, p.Seconds))},
			{Key: "turns", Label: "turns of the handwheel", What: book.Count(p.Turns)},
			{Key: "dial", Label: "and on its dial", What: book.Angle(p.Rest, 4)},
		}})
	}
	turn := 360 / float64(ratio)
	return book.Book{
		Precautions: dividing.Precautions(),
		Title:       fmt.Sprintf("%d divisions on a rotary table of %d:1", n, ratio),
		Sections: []book.Section{{Key: "table", Items: []book.Item{{
			Values: []book.Value{
				{Key: "ratio", What: book.Count(ratio)},
				{Key: "turn", What: book.Number(turn, 4, "deg", "deg")},
			},
			Tables:   []book.Table{table},
			Formulas: []book.Formula{{Text: fmt.Sprintf("a turn of the handwheel = 360 / ratio = 360 / %d = %.4g degrees", ratio, turn)}},
			Notes: []book.Note{{
				Text: "Come to each of them turning the same way: that takes up the backlash.",
				Refs: source.Of(source.Practice()),
			}},
		}}}},
	}, nil
}
