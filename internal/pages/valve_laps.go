package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// endsAlike reports whether the valve and its ports are the same at both ends.
func endsAlike(g eccentric.Gear) bool {
	port, bar := g.Ports.At(eccentric.CrankEnd)
	return port == g.Ports.Steam && bar == g.Ports.Bar && g.Valve.CavityOffset.IsZero()
}

// lapsOf states the laps: of both ends at once, or of each where they differ.
func lapsOf(g eccentric.Gear) book.Section {
	laps, head, crank := g.Laps(), g.LapsAt(eccentric.HeadEnd), g.LapsAt(eccentric.CrankEnd)
	values := []book.Value{
		{Key: "steam", Label: "steam lap", What: book.Length(laps.Steam, 3)},
		{Key: "exhaust", Label: "exhaust lap", What: book.Length(laps.Exhaust, 3), Remark: clearance(laps.Exhaust)},
	}
	each := []book.Value{
		{Key: "head.steam", Label: "steam lap", Column: "head end", What: book.Length(head.Steam, 3)},
		{Key: "crank.steam", Label: "steam lap", Column: "crank end", What: book.Length(crank.Steam, 3)},
		{Key: "head.exhaust", Label: "exhaust lap", Column: "head end", What: book.Length(head.Exhaust, 3)},
		{Key: "crank.exhaust", Label: "exhaust lap", Column: "crank end", What: book.Length(crank.Exhaust, 3)},
	}
	item := book.Item{Formulas: lapFormulas(g, laps)}
	if endsAlike(g) {
		item.Values = append(append(values, unprinted(each)...), thouOfExhaustLap(g)...)
	} else {
		item.Values = append(each, append(unprinted(values), unprinted(thouOfExhaustLap(g))...)...)
		item.Formulas = lapFormulasOfEnds(g)
		if head.Exhaust.Sign() < 0 || crank.Exhaust.Sign() < 0 {
			item.Notes = []book.Note{{Text: "A negative exhaust lap is clearance."}}
		}
	}
	return book.Section{Key: "laps", Title: "LAPS", Items: []book.Item{item}}
}

func clearance(exhaust units.Length) string {
	if exhaust.Sign() < 0 {
		return "clearance"
	}
	return ""
}

func lapFormulas(g eccentric.Gear, laps eccentric.Laps) []book.Formula {
	outer := func(r ruler) string {
		return fmt.Sprintf("(valve - 2 steam ports - 2 bars - %s) / 2 = (%s - 2 x %s - 2 x %s - %s) / 2", middlePort(g),
			r.plain(g.Valve.Length), r.plain(g.Ports.Steam), r.plain(g.Ports.Bar), r.plain(g.Ports.Exhaust))
	}
	inner := func(r ruler) string {
		return fmt.Sprintf("(2 bars + %s - %s) / 2 = (2 x %s + %s - %s) / 2", middlePort(g), innerEdges(g),
			r.plain(g.Ports.Bar), r.plain(g.Ports.Exhaust), r.plain(g.Valve.Cavity))
	}
	if g.InsideAdmission {
		outer, inner = inner, outer
	}
	return []book.Formula{
		worked(source.Refs{}, func(r ruler) string {
			return fmt.Sprintf("steam lap S = %s = %s %s", outer(r), r.plain(laps.Steam), r.unit())
		}),
		worked(source.Refs{}, func(r ruler) string {
			return fmt.Sprintf("exhaust lap E = %s = %s %s", inner(r), r.plain(laps.Exhaust), r.unit())
		}),
	}
}

// lapFormulasOfEnds puts the sizes of each end into the formulas of its laps.
func lapFormulasOfEnds(g eccentric.Gear) []book.Formula {
	outer := fmt.Sprintf("valve / 2 - (%s / 2 + bar + steam port)", middlePort(g))
	inner := fmt.Sprintf("%s / 2 + bar - %s / 2", middlePort(g), innerEdges(g))
	if !g.Valve.CavityOffset.IsZero() {
		inner += " + c at the head end, - c at the crank end"
	}
	steam, exhaust := outer, inner
	if g.InsideAdmission {
		steam, exhaust = inner, outer
	}
	formulas := []book.Formula{{Text: "steam lap S = " + steam}, {Text: "exhaust lap E = " + exhaust}}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		formulas = append(formulas, worked(source.Refs{}, func(r ruler) string { return lapsAt(g, end, r) }))
	}
	return formulas
}

// lapsAt puts the sizes of one end into the formulas of its laps.
func lapsAt(g eccentric.Gear, end eccentric.End, r ruler) string {
	port, bar := g.Ports.At(end)
	laps := g.LapsAt(end)
	outer := fmt.Sprintf("%s / 2 - (%s / 2 + %s + %s)", r.plain(g.Valve.Length), r.plain(g.Ports.Exhaust), r.plain(bar),
		r.plain(port))
	inner := fmt.Sprintf("%s / 2 + %s - %s / 2", r.plain(g.Ports.Exhaust), r.plain(bar), r.plain(g.Valve.Cavity))
	if c := g.Valve.CavityOffset; !c.IsZero() {
		if end == eccentric.CrankEnd {
			c = c.Neg()
		}
		sign := " + "
		if c.Sign() < 0 {
			sign = " - "
		}
		inner += sign + r.plain(c.Abs())
	}
	if g.InsideAdmission {
		outer, inner = inner, outer
	}
	return fmt.Sprintf("%s end: S = %s = %s %s; E = %s = %s %s", end, outer, r.plain(laps.Steam), r.unit(),
		inner, r.plain(laps.Exhaust), r.unit())
}
