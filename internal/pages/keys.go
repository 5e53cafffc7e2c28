package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/fits/keys"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A KeysQuestion asks what keeps a hub on its shaft.
type KeysQuestion struct {
	Shaft units.Length
	Hub   *units.Length // its outside diameter; nil: no pins
	Screw string        // of a grub screw with a cup point; blank: none
}

// Keys answers the question.
func Keys(ask KeysQuestion) (book.Book, error) {
	b := book.Book{
		Title:       fmt.Sprintf("What keeps a hub on a shaft of %v", ask.Shaft),
		Precautions: speeds.Drilling.Precautions(),
	}
	seats, err := keySeats(ask)
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = []book.Section{seats}
	if ask.Hub != nil {
		pins, err := taperPins(ask)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections = append(b.Sections, pins)
	}
	if ask.Screw != "" {
		screw, held, err := underScrew(ask)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections, b.Findings = append(b.Sections, screw), held.Findings
		b.Precautions = addPrecautions(b.Precautions, held.Precautions)
	}
	return b, nil
}

// keySeats are the keys that the standards have for the shaft.
func keySeats(ask KeysQuestion) (book.Section, error) {
	s := book.Section{Key: "keys", List: true}
	if _, err := lengthOf("-d", "shaft", &ask.Shaft); err != nil {
		return s, err
	}
	found, err := keys.For(ask.Shaft)
	if err != nil { // the standards have none
		s.Items = []book.Item{{Values: []book.Value{{
			Key: "width", Label: "key", What: book.Never(book.Length(units.Length{}, 3), "none"),
			Remark: "the standards begin over 6 mm and 5/16 in and end here at 22 mm and 7/8 in",
		}}}}
		return s, nil
	}
	for _, k := range found {
		metric := k.Standard != "ASME B17.1"
		from := "from the round"
		if !metric {
			from = "at the side of the key"
		}
		s.Items = append(s.Items, book.Item{Values: []book.Value{
			{Key: "standard", What: book.Word(k.Standard)},
			{Key: "width", Label: "key of " + k.Standard + ", wide", What: book.LengthThou(k.Width, 3, 1), Refs: k.Refs},
			{Key: "height", Label: "  high", What: book.LengthThou(k.Height, 3, 1)},
			{Key: "shaft_depth", Label: "  seat in the shaft, deep", What: book.LengthThou(k.ShaftDepth, 3, 1), Remark: from},
			{Key: "hub_depth", Label: "  in the hub, deep", What: book.LengthThou(k.HubDepth, 3, 1), Remark: from},
			{Key: "shaft_over", Label: "  over shaft and seat", What: book.LengthThou(k.ShaftOver, 3, 1), Remark: "measured to the far side"},
			{Key: "hub_over", Label: "  over bore and seat", What: book.LengthThou(k.HubOver, 3, 1), Remark: "measured to the far side"},
		}})
	}
	return s, nil
}

// taperPins are the pins across hub and shaft.
func taperPins(ask KeysQuestion) (book.Section, error) {
	s := book.Section{Key: "pins", Title: "TAPER PIN", List: true}
	pins, err := keys.PinsFor(ask.Shaft, *ask.Hub)
	if err != nil {
		return s, flagged(err, map[string]string{"shaft": "-d", "hub": "-hub"})
	}
	for _, p := range pins {
		s.Items = append(s.Items, book.Item{Values: []book.Value{
			{Key: "name", What: book.Word(p.Name)},
			{Key: "small", Label: "pin " + p.Name + ", small end", What: book.LengthThou(p.Small, 3, 1), Refs: p.Refs},
			{Key: "large", Label: "  large end", What: book.LengthThou(p.Large, 3, 1)},
			{Key: "length", Label: "  long", What: book.LengthThou(p.Length, 2, 0)},
			{Key: "drill.name", What: book.Word(p.Drill.Name)},
			{Key: "drill.diameter", Label: "  drill " + p.Drill.Name, What: book.LengthThou(p.Drill.Diameter, 3, 1)},
		}})
	}
	s.Items[len(s.Items)-1].Notes = []book.Note{{
		Text: "Drill hub and shaft together, ream until the pin stands out a little when it is pushed in by hand, and drive it. Mark hub and" +
			" shaft: the pin goes in from one side only.",
		Refs: source.Of(source.Practice()),
	}}
	return s, nil
}

// roughly is a torque with two digits or so: its ends are far apart.
func roughly(t units.Torque) book.Quantity {
	v, places := t.In(units.NewtonMetre), 1
	switch {
	case v < 1:
		places = 2
	case v >= 10:
		places = 0
	}
	return book.Number(v, places, "N m", "nm")
}

// screwNamed is the name under which a grub screw is in the tables: "M3" for "M3x0.5" too.
// Any other is left, to be refused.
func screwNamed(written string) string {
	asked, err := thread.Parse(written)
	if err != nil {
		return written
	}
	for _, screw := range assembly.SetScrews() {
		if t, err := thread.Parse(screw.Name); err == nil && t.String() == asked.String() {
			return screw.Name
		}
	}
	return written
}

// underScrew is the dimple or the flat under a grub screw, and what that holds.
func underScrew(ask KeysQuestion) (book.Section, assembly.GrubScrewResult, error) {
	s := book.Section{Key: "screw", Title: "GRUB SCREW"}
	d, err := keys.DimpleFor(screwNamed(ask.Screw), ask.Shaft)
	if err != nil {
		return s, assembly.GrubScrewResult{}, flagged(err, map[string]string{"shaft": "-d", "screw": "-screw"})
	}
	item := book.Item{Values: []book.Value{
		{Key: "name", What: book.Word(d.Screw)},
		{Key: "tip", Label: "dimple, point of the drill", What: book.LengthThou(d.Tip, 2, 0), Remark: "below the round", Refs: d.Refs},
		{Key: "point", Label: "  as wide as the cup", What: book.LengthThou(d.Point, 2, 0)},
		{Key: "flat", Label: "or a flat, deep", What: book.LengthThou(d.Flat, 2, 0), Remark: "as wide as the screw"},
	}}
	var held assembly.GrubScrewResult
	for _, screw := range assembly.SetScrews() {
		if screw.Name != d.Screw {
			continue
		}
		held, err = assembly.GrubScrew{
			Screw: screw.Diameter, Shaft: ask.Shaft, FlatDepth: d.Flat, Tightening: screw.Seating,
		}.Solve()
		if err != nil {
			return s, held, cli.Named("-screw", err)
		}
		item.Values = append(item.Values, book.Value{
			Key: "holds", Label: "on the flat it holds", Refs: held.Refs.With(screw.Refs),
			What: book.Range(roughly(held.Torque.Min), roughly(held.Torque.Max)),
		})
		break
	}
	item.Notes = []book.Note{{
		Text: "Spot the shaft through the hub, before the hub is tapped, with the tapping drill, or afterwards with a drill that just passes" +
			" the thread. A dimple holds the hub where it is: set the eccentric first.",
		Refs: source.Of(source.Practice()),
	}}
	s.Items = []book.Item{item}
	return s, held, nil
}
