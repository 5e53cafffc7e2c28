package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
)

// A NutSlotQuestion asks how the slot for the nut in the back of a valve is cut. What is
// nil comes from an engine file, or is usual.
type NutSlotQuestion struct {
	Slot          marking.NutSlot
	Length, Width *units.Length // of the valve; nil: those of Engine
	Engine        string        // name of an engine file; blank: none
}

// NutSlot answers the question.
func NutSlot(ask NutSlotQuestion) (book.Book, error) {
	n := ask.Slot
	if err := ask.valve(&n); err != nil {
		return book.Book{}, err
	}
	size, err := n.Solve()
	if err != nil {
		return book.Book{}, flagged(err, map[string]string{
			"height of the valve": "-height", "length of the valve": "-length", "width of the valve": "-width", "rod": "-rod",
			"rod above the face": "-rod-at", "nut along the rod": "-thick", "height of the nut": "-high", "length of the nut": "-long",
			"lift": "-lift", "cavity": "-cavity", "play": "-play", "wear": "-wear",
		})
	}
	mm := func(l units.Length) string { return l.Decimal(units.Millimetres, 2) }
	is := " = " + size.Depth.Text(units.Millimetres, 2)
	if size.Depth.IsZero() {
		is = ", which is not above zero: no slot"
	}
	return book.Book{
		Title:    fmt.Sprintf("Slot for a nut of %v by %v by %v in the back of a valve", n.Thick, n.High, n.Long),
		Findings: size.Findings, Precautions: eccentric.Precautions(),
		Sections: []book.Section{{Key: "slot", Items: []book.Item{{
			Values: []book.Value{
				{Key: "depth", Label: "slot, deep from the back", What: book.LengthThou(size.Depth, 2, 0), Refs: size.Refs},
				{Key: "width", Label: "  wide, along the travel", What: book.LengthThou(size.Width, 2, 0), Remark: "made to the nut"},
				{Key: "groove", Label: "groove for the rod, deep", What: book.LengthThou(size.Groove, 2, 0), Remark: "right along the valve"},
				{
					Key: "long", Label: "nut, long across the valve",
					What: book.Range(book.LengthThou(size.LongMin, 2, 0), book.LengthThou(size.LongMax, 2, 0)),
				},
				{Key: "lift", Label: "the valve lifts by", What: book.LengthThou(n.Lift, 2, 0)},
				{Key: "over_cavity", Label: "metal over the cavity", What: book.LengthThou(size.OverCavity, 2, 0)},
				{Key: "ends", Label: "metal at each end", What: book.LengthThou(size.Ends, 2, 0)},
				{Key: "held", Label: "the slot holds the nut by", What: book.LengthThou(size.Held, 2, 0)},
				{Key: "held_worn", Label: "  and worn down by " + mm(n.Wear), What: book.LengthThou(size.HeldWorn, 2, 0)},
			},
			Formulas: []book.Formula{{Text: fmt.Sprintf("depth = height - (rod - high / 2 - lift) = %s - (%s - %s / 2 - %s)%s",
				mm(n.Height), mm(n.RodAbove), mm(n.High), mm(n.Lift), is)}},
		}}}},
	}, nil
}

// valve fills in the sizes of the valve from the engine file where they were not given.
func (ask NutSlotQuestion) valve(n *marking.NutSlot) error {
	n.Length, n.Width = orZero(ask.Length), orZero(ask.Width)
	if ask.Engine == "" {
		if ask.Length == nil || ask.Width == nil {
			return cli.ErrUsage("wanted: -length and -width of the valve, or an engine file for them")
		}
		return nil
	}
	text, err := cli.ReadFile(ask.Engine, engine.Largest)
	if err != nil {
		return fmt.Errorf("%w; accepted: an engine file in TOML", err)
	}
	e, unread := engine.Parse(ask.Engine, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return err
	}
	if ask.Length == nil {
		n.Length = gear.Valve.Length
	}
	if ask.Width == nil {
		if e.Valve.Width == nil {
			return e.Errorf("valve.width", `missing; accepted: width and cavity_width of [valve], or the flag -width`)
		}
		n.Width = *e.Valve.Width
	}
	return nil
}
