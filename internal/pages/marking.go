package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A MarkingQuestion asks at which heights the end of a bar is marked out in a vee block.
type MarkingQuestion struct {
	Bar    units.Length // its diameter as it is taken
	Vee    units.Angle
	Offset *units.Length
	Travel *units.Length // in place of the offset
	Top    *units.Length // what the height gauge reads over the bar; nil: heights above the root of the vee
	Is     *units.Length // the diameter that it really has

	Engine string // name of the file of the engine whose sheave it is; blank: none
	Inch   bool   // pictures are in inches, where no engine decides
}

// Marking answers the question.
func Marking(ask MarkingQuestion) (book.Book, error) {
	of, err := offsetOf(ask.Engine, &ask.Offset, ask.Travel)
	if err != nil {
		return book.Book{}, err
	}
	if ask.Offset == nil {
		return book.Book{}, cli.ErrUsage("wanted: -offset, -travel or an engine file")
	}
	v := marking.Vee{Bar: ask.Bar, Included: ask.Vee, Offset: *ask.Offset}
	values, notes, err := heightsOf(v, ask.Top)
	if err != nil {
		return book.Book{}, flagged(err, markingFlags)
	}
	drawn, err := markedFigures(v, ask.Top, of.inches(ask.Inch))
	if err != nil {
		return book.Book{}, err
	}
	item := book.Item{Values: values, Notes: notes, Figures: drawn, Formulas: []book.Formula{
		worked(source.Refs{}, func(r ruler) string {
			return fmt.Sprintf("centre = bar / (2 sin(vee / 2)) = %s / (2 sin %.4g°) above the root of the vee; the top of the bar is half the bar higher",
				r.plain(v.Bar), v.Included.Degrees()/2)
		}),
	}}
	b := book.Book{
		Title:       fmt.Sprintf("Bar of %v in a vee of %s degrees, offset %v", v.Bar, plainDegrees(v.Included), v.Offset),
		Precautions: []finding.Precaution{measureAtRest},
		Sections:    []book.Section{{Top: true, Items: []book.Item{item}}},
	}
	if ask.Is != nil {
		wrong, err := wrongBar(v, *ask.Is)
		if err != nil {
			return book.Book{}, flagged(err, markingFlags)
		}
		b.Sections = append(b.Sections, wrong)
	}
	if of == nil {
		return b, nil
	}
	b.From = of.e.Document.Name
	return firstRead(of.e, b), nil
}

func plainDegrees(a units.Angle) string { return fmt.Sprintf("%.4g", a.Degrees()) }

// heightsOf are the heights of the lines, above the root of the vee or on a gauge that
// reads so much over the bar, and the order in which they are drawn.
func heightsOf(v marking.Vee, top *units.Length) ([]book.Value, []book.Note, error) {
	h, err := v.Heights()
	if err != nil {
		return nil, nil, err
	}
	from := "above the root of the vee"
	if top != nil {
		from = "on the gauge"
		if h, err = h.Over(*top); err != nil {
			return nil, nil, err
		}
	}
	below := h.Centre.Sub(v.Offset)
	values := []book.Value{
		{Key: "heights", What: book.Lengths([]units.Length{h.Centre, h.Offset}, 3)},
		{Key: "centre_height", Label: "line of the axis", What: book.Length(h.Centre, 3), Remark: from},
		{Key: "offset_height", Label: "line of the offset", What: book.Length(h.Offset, 3), Remark: "or below, " + below.Text(units.Millimetres, 3)},
		{Key: "offset_height_below", What: book.Length(below, 3)},
		{Key: "bar_top_height", Label: "top of the bar", What: book.Length(h.Top, 3)},
		{Key: "centre_below_top", Label: "axis below the top", What: book.LengthThou(h.Top.Sub(h.Centre), 3, 1), Remark: "half the bar"},
		{Key: "offset_below_top", Label: "offset below the top", What: book.LengthThou(h.Top.Sub(h.Offset), 3, 1)},
		{Key: "lines_apart", Label: "the two lines differ by", What: book.LengthThou(v.Offset, 3, 1)},
	}
	return values, []book.Note{
		{Text: "Touch the top of the bar with the height gauge, come down by half its measured diameter, and draw the line of the axis across its end." +
			" Turn the bar half round and draw it again: one line, or the gauge is half their distance off. Turn it a quarter, the first line upright by a" +
			" square, and draw the axis once more, and then the line of the offset: it crosses the upright one where the bore, or the sheave, has its centre."},
	}, nil
}

// markedFigures is the picture of those heights.
func markedFigures(v marking.Vee, top *units.Length, inch bool) ([]book.Figure, error) {
	h, err := v.Heights()
	if err == nil && top != nil {
		h, err = h.Over(*top)
	}
	if err != nil {
		return nil, err
	}
	return pictures(markedPicture(v, h, top != nil, inch))
}

// wrongBar is what a bar does that is not what it was taken for.
func wrongBar(v marking.Vee, is units.Length) (book.Section, error) {
	top, root, err := v.Misses(is)
	if err != nil {
		return book.Section{}, err
	}
	return book.Section{Key: "wrong_bar", Title: "THE BAR IS NOT WHAT IT WAS TAKEN FOR", Items: []book.Item{{Values: []book.Value{
		{Key: "is", Label: "it measures", What: book.LengthThou(is, 3, 1)},
		{Key: "from_top", Label: "lines measured down from its top", What: signedThou(top), Remark: "above zero: too high"},
		{Key: "from_root", Label: "lines measured from the vee", What: signedThou(root), Remark: "and the offset with them"},
		{Key: "half_turn", Label: "half a turn shows, from the top", What: signedThou(top.Scale(2))},
	}}}}, nil
}

// markingFlags are the flags of what the package refuses.
var markingFlags = map[string]string{
	"bar": "-bar", "angle of the vee": "-vee", "offset": "-offset", "roller": "-bar",
	"height of the top of the bar": "-top", "diameter that the bar really has": "-is",
}
