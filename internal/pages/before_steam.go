package pages

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// What an example of warming through takes where the file has no figure.
const (
	someIron      = 0.5 * units.Kilogram
	somePressure  = 4 * units.Bar
	someClearance = 0.08 // of the swept volume, at each end
	pistonFit     = "piston in cylinder"
)

// beforeSteamOf says what comes before the first turn, the first run and the first
// steam of an engine, of which the worst so far found is known. An engine that can
// hurt somebody is not told to run.
func beforeSteamOf(e *engine.Engine, found finding.List) (book.Section, error) {
	section := book.Section{Key: "before_steam", Title: "BEFORE STEAM"}
	worst, _ := found.Worst()
	if worst == finding.Danger {
		section.Items = []book.Item{{Notes: []book.Note{{Refs: practice(), Text: "Do not run this engine, on air or on steam, before" +
			" what can hurt somebody, first in this book, has been put right. Make the book again then: it says here how to" +
			" bring the engine to its first steam."}}}}
		return section, nil
	}
	warming, err := warmingThrough(e)
	if err != nil {
		return book.Section{}, err
	}
	if worst == finding.Fails {
		section.Intro = []string{"Put right first what will not work, at the head of this book. What follows is for the engine that" +
			" is right."}
	}
	section.Items = append(section.Items, book.Item{Notes: []book.Note{
		{Text: "1. Oil before the first turn: every bearing, the eccentric, the crosshead, rods and glands, and steam oil into" +
			" the chest and the cylinder. Dry iron scores in its first turn.", Refs: practice()},
		{Text: "2. Turn the engine over by hand through two whole turns, with no air or steam on it and the drain cocks open." +
			" What binds or knocks is looked for now, and is not forced."},
		{Text: "3. Run it on low-pressure air first, clear of the flywheel, the crank and loose sleeves, and out of the plane of" +
			" the wheel. To take a reading with air on, block the flywheel."},
		{Text: "4. Warm it through, with the drain cocks open at both ends and the stop valve just off its seat: cold iron turns" +
			" steam to water, and water does not give. A piston that shuts it in breaks a cover, a rod or the crank."},
	}}, warming, book.Item{Notes: []book.Note{
		{Text: "5. By hand until dry: shut the steam off, turn the engine by hand half a turn and let steam in again for the other" +
			" end, until both drains blow dry steam and no water. Then let it start, slowly, and shut the drains when" +
			" nothing but steam comes. An engine that has no drain cocks wants them before it has steam.", Refs: practice()},
	}})
	return section, nil
}

func practice() source.Refs { return source.Of(source.Practice()) }

// warmingThrough is the water that the cold engine makes, beside the room that its
// piston leaves for it.
func warmingThrough(e *engine.Engine) (book.Item, error) {
	iron, ofIron := someIron, "an example"
	if e.Cylinder.Iron != nil {
		iron, ofIron = *e.Cylinder.Iron, ""
	}
	pressure, ofPressure, place := somePressure, "an example", ""
	for i, c := range e.Covers {
		if c.Pressure != nil && (place == "" || *c.Pressure > pressure) {
			pressure, ofPressure, place = *c.Pressure, "", fmt.Sprintf("covers[%d].pressure", i)
		}
	}
	s, err := steam.AtGauge(pressure)
	if err != nil {
		return book.Item{}, e.Errorf(place, "%v", err)
	}
	latent, err := s.LatentHeat(1 * units.Kilogram)
	if err != nil {
		return book.Item{}, e.Errorf(place, "%v", err)
	}
	cold, hot := units.Celsius(20), s.Temperature
	for _, f := range e.Fits {
		if strings.EqualFold(strings.Join(strings.Fields(f.Where), " "), pistonFit) &&
			f.HoleAt != nil && *f.HoleAt < hot && *f.HoleAt > cold {
			hot = *f.HoleAt
		}
	}
	water, err := s.Condensed(iron, cold, hot)
	if err != nil {
		return book.Item{}, err
	}
	bore := e.Cylinder.Bore.In(units.Millimetres)
	room, ofRoom, err := leastRoom(e)
	if err != nil {
		return book.Item{}, err
	}
	swept := math.Pi / 4 * bore * bore * e.Cylinder.Stroke.In(units.Millimetres) / 1000 // ml
	grams := func(m units.Mass) book.Quantity { return book.Number(m.In(units.Gram), 1, "g", "g") }
	asMany := "as many millilitres"
	if e.Inches() {
		asMany = fault.Decimal(water.Water.In(units.Gram)/units.CubicInch.In(units.CubicCentimetre), 2) + " in3"
	}
	warmed := fmt.Sprintf("from %s to %s", degreesC(cold), degreesC(hot))
	return book.Item{
		Values: []book.Value{
			{Key: "iron", Label: "iron, cold", What: book.Number(iron.In(units.Kilogram), 3, "kg", "kg"), Remark: ofIron},
			{Key: "steam", Label: "steam, above the air", What: book.Number(pressure.In(units.Bar), 2, "bar", "bar"), Remark: ofPressure},
			{Key: "heat", Label: "heat that it takes", What: book.Number(water.Heat.In(units.Kilojoule), 1, "kJ", "kj"), Remark: warmed},
			{Key: "water", Label: "water that it makes", What: grams(water.Water), Remark: asMany, Refs: water.Refs},
			{Key: "water_by_other_prints", Label: "  by other prints", What: book.Range(grams(water.Min), grams(water.Max))},
			{Key: "clearance", Label: "room for it at each end", What: book.Number(room*swept, 2, "ml", "ml"),
				Remark: fmt.Sprintf("%s %.2g %% of the %.1f ml swept", ofRoom, 100*room, swept)},
		},
		Formulas: []book.Formula{{Text: fmt.Sprintf(
			"water = m c (hot - cold) / r = %s kg x 0.447 kJ/(kg K) x %.0f K / %.0f kJ/kg = %.1f g",
			figures(iron.In(units.Kilogram), 4), hot.Kelvin()-cold.Kelvin(), latent.In(units.Kilojoule),
			water.Water.In(units.Gram),
		), Inch: fmt.Sprintf("water = m c (hot - cold) / r = %s lb x %.4f Btu/(lb F) x %.0f F / %.0f Btu/lb x 16 = %.3f oz",
			figures(iron.In(units.Pound), 4), 0.447/4.1868, (hot.Kelvin()-cold.Kelvin())*1.8,
			latent.In(units.BTU)*units.Pound.In(units.Kilogram), water.Water.In(units.Ounce),
		)}},
	}, nil
}

// leastRoom is the room at the end that has less, as a share of the swept volume,
// and how it is known: as an example where the file has no piston and covers.
func leastRoom(e *engine.Engine) (share float64, how string, err error) {
	room, ok, err := roomOf(e)
	if !ok || err != nil {
		return someClearance, "taken as", err
	}
	c, err := room.Clearance()
	return min(c.HeadShare, c.CrankShare), "piston to cover,", err
}

func degreesC(t units.Temperature) string { return fmt.Sprintf("%.0f degrees C", t.Celsius()) }
