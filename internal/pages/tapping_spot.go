package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// spottedThrough is which drill follows which where tapped holes are carried over from
// the clearance holes of a cover.
func spottedThrough(t thread.Thread, ask TappingQuestion, plan thread.DrillPlan) (book.Section, finding.List, error) {
	transfer, err := transferDrill(t, ask)
	if err != nil {
		return book.Section{}, nil, err
	}
	tapping, ok := tappingDrill(plan)
	if !ok {
		return book.Section{}, nil, nil // that none suits was told
	}
	s, err := hole.SpotThrough(transfer.Diameter, tapping.Diameter, 0)
	if err != nil {
		return book.Section{}, nil, cli.Named("-spot", err)
	}
	return book.Section{Key: "spot", Items: []book.Item{{
		Values: []book.Value{
			{Key: "transfer.name", What: book.Word(transfer.Name)},
			{Key: "transfer.diameter", Label: "spot with drill " + transfer.Name, What: book.LengthThou(s.Transfer, 3, 1), Refs: s.Refs},
			{
				Key: "tip", Label: "  its point goes in", What: book.LengthThou(s.Tip, 2, 0),
				Remark: "until the spot is as wide as the tapping drill",
			},
			{Key: "most", Label: "  never as far as", What: book.LengthThou(s.Most, 2, 0), Remark: "where its full diameter cuts"},
			{Key: "tapping.name", What: book.Word(tapping.Name)},
			{Key: "tapping.diameter", Label: "then drill " + tapping.Name, What: book.LengthThou(s.Tapping, 3, 1), Remark: "cover off"},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf("tip = tapping drill / (2 tan 59 deg) = %s / 3.329 = %s",
			s.Tapping.Decimal(units.Millimetres, 3), s.Tip.Text(units.Millimetres, 2))}},
		Notes: []book.Note{{
			Text: "Clamp the cover where it belongs and spot one hole; drill and tap that one, put its screw in, and spot the others. Mark the" +
				" cover and the face, so that it always goes on the same way round. A punch that just passes the holes serves for the drill.",
			Refs: source.Of(source.Practice()),
		}},
	}}}, nil, nil
}

// transferDrill is the drill that passes the holes of the cover: the one given, or that
// of the usual class.
func transferDrill(t thread.Thread, ask TappingQuestion) (gauge.Size, error) {
	if ask.Clear != "" {
		given, err := gauge.Parse(ask.Clear)
		return given, cli.Named("-clear", err)
	}
	c, err := t.UsualClearance()
	if err != nil {
		return gauge.Size{}, cli.Named("-spot", err)
	}
	own := ask.Own
	if own.Len() == 0 {
		own = gauge.Metric()
	}
	drill, none := c.Drill(own)
	if len(none) > 0 {
		return gauge.Size{Name: c.Hole.Text(units.Millimetres, 2), Diameter: c.Hole}, nil
	}
	return drill, nil
}
