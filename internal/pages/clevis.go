package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A ClevisQuestion asks how deep the slot of a fork is so that its eye swings.
type ClevisQuestion struct {
	Pin, Width     units.Length
	Beyond, Corner *units.Length // of the eye; nil: half its width, and sharp
	Fork           *units.Length // width of the cheeks; nil, as the next two: as the eye
	ForkBeyond     *units.Length
	ForkCorner     *units.Length
	Swing          *units.Angle // nil: that of the eccentric rod of Engine
	Slot, Shoulder *units.Length
	Thickness, Gap *units.Length
	Engine         string // name of an engine file; blank: none
}

// Clevis answers the question.
func Clevis(ask ClevisQuestion) (book.Book, error) {
	swing, from, err := ask.swing()
	if err != nil {
		return book.Book{}, err
	}
	eye := marking.EyeEnd{Width: ask.Width, Beyond: or(ask.Beyond, ask.Width.Scale(0.5)), Corner: orZero(ask.Corner)}
	c := marking.Clevis{
		Pin: ask.Pin, Eye: eye, Swing: swing, Slot: orZero(ask.Slot), Shoulder: orZero(ask.Shoulder),
		Thickness: orZero(ask.Thickness), Gap: orZero(ask.Gap),
		Fork: marking.EyeEnd{
			Width: or(ask.Fork, eye.Width), Beyond: or(ask.ForkBeyond, eye.Beyond), Corner: or(ask.ForkCorner, eye.Corner),
		},
	}
	size, err := c.Solve()
	if err != nil {
		return book.Book{}, flagged(err, map[string]string{
			"pin": "-pin", "width of the eye": "-width", "eye beyond the pin": "-beyond", "corners of the eye": "-corner",
			"width of the fork": "-fork", "fork beyond the pin": "-fork-beyond", "corners of the fork": "-fork-corner",
			"swing": "-swing", "slot": "-slot", "shoulder": "-shoulder", "thickness of the eye": "-thick", "gap": "-gap",
			"thickness of the eye or gap": "-thick",
		})
	}
	item := book.Item{
		Values: []book.Value{
			{
				Key: "slot", Label: "slot, from the pin, at least", What: book.LengthThou(size.Slot, 2, 0), Refs: size.Refs,
				Remark: "from the middle of the pin to its bottom",
			},
			{Key: "shoulder", Label: "shoulder of the eye, at least", What: book.LengthThou(size.Shoulder, 2, 0), Remark: "from there too"},
			{Key: "swing", Label: "swung either way to", What: book.Angle(swing, 2), Remark: from},
		},
	}
	if ask.Slot != nil {
		item.Values = append(item.Values, book.Value{
			Key: "corner", Label: "corners of the eye, for the slot", What: radius(size.Corner, size.CornerDoes), Remark: "radius, at least",
		})
	}
	if ask.Shoulder != nil {
		item.Values = append(item.Values, book.Value{
			Key: "fork_corner", Label: "of the cheeks, for the shoulder", What: radius(size.ForkCorner, size.ForkCornerDoes),
			Remark: "radius, at least",
		})
	}
	if ask.Gap != nil {
		item.Values = append(item.Values, book.Value{Key: "float", Label: "end float of the eye", What: book.LengthThou(size.Float, 2, 0)})
	}
	b := book.Book{
		Title:    fmt.Sprintf("Fork and eye on a pin of %v", ask.Pin),
		Findings: size.Findings, Precautions: eccentric.Precautions(),
		Sections: []book.Section{{Key: "clevis", Items: []book.Item{item}}},
	}
	holes, err := pinFits(ask.Pin)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(b.Sections, holes)
	return b, nil
}

// radius is that of the corners, if one does.
func radius(r units.Length, does bool) book.Quantity {
	q := book.LengthThou(r, 2, 0)
	if !does {
		return book.Never(q, "none does")
	}
	return q
}

// swing is how far the eye swings, and where that is from.
func (ask ClevisQuestion) swing() (units.Angle, string, error) {
	switch {
	case ask.Swing != nil && ask.Engine != "":
		return 0, "", cli.ErrUsage("-swing and an engine file both say how far it swings; accepted: one of them")
	case ask.Swing != nil:
		return *ask.Swing, "", nil
	case ask.Engine == "":
		return 0, "", cli.ErrUsage("wanted: -swing, or an engine file for that of its eccentric rod")
	}
	text, err := cli.ReadFile(ask.Engine, engine.Largest)
	if err != nil {
		return 0, "", fmt.Errorf("%w; accepted: an engine file in TOML", err)
	}
	e, unread := engine.Parse(ask.Engine, text)
	gear, err := gearOf(e)
	if err := engine.Join(unread, err, e.Cross()); err != nil {
		return 0, "", err
	}
	swing, err := marking.RodSwing(gear)
	return swing, "of the eccentric rod", err
}

// or is the length that was given, or else another.
func or(given *units.Length, other units.Length) units.Length {
	if given != nil {
		return *given
	}
	return other
}

// pinFits are the holes for a pin of ground bar: free in the eye, held in the cheeks.
func pinFits(pin units.Length) (book.Section, error) {
	item := book.Item{}
	for _, part := range []struct{ key, label, fit string }{
		{"eye", "eye, the pin turns in it", "G7/h6"}, {"cheeks", "cheeks, which hold it", "N7/h6"},
	} {
		fit, err := fits.ParseFit(part.fit)
		if err != nil {
			return book.Section{}, err
		}
		limits, err := fit.LimitsFor(pin)
		if err != nil {
			return book.Section{}, cli.Named("-pin", err)
		}
		item.Values = append(item.Values,
			book.Value{Key: part.key + ".fit", What: book.Word(part.fit)},
			book.Value{
				Key: part.key + ".hole", Label: "hole of the " + part.label, Remark: part.fit, Refs: limits.Hole.Refs,
				What: book.Range(book.LengthThou(limits.Hole.Min, 3, 1), book.LengthThou(limits.Hole.Max, 3, 1)),
			})
	}
	item.Notes = []book.Note{{
		Text: "For a pin of ground bar, h6. Drill and ream the cheeks together, with a packing in the slot. What the pin has of play" +
			" counts as lost motion of the valve.",
		Refs: source.Of(source.Practice()),
	}}
	return book.Section{Key: "pin", Title: "HOLES FOR THE PIN", Items: []book.Item{item}}, nil
}
