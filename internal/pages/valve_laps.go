package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/units"
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
	outer := fmt.Sprintf("(valve - 2 steam ports - 2 bars - %s) / 2 = (%s - 2 x %s - 2 x %s - %s) / 2", middlePort(g),
		plain(g.Valve.Length), plain(g.Ports.Steam), plain(g.Ports.Bar), plain(g.Ports.Exhaust))
	inner := fmt.Sprintf("(2 bars + %s - %s) / 2 = (2 x %s + %s - %s) / 2", middlePort(g), innerEdges(g),
		plain(g.Ports.Bar), plain(g.Ports.Exhaust), plain(g.Valve.Cavity))
	if g.InsideAdmission {
		outer, inner = inner, outer
	}
	return []book.Formula{
		{Text: fmt.Sprintf("steam lap S = %s = %s mm", outer, plain(laps.Steam))},
		{Text: fmt.Sprintf("exhaust lap E = %s = %s mm", inner, plain(laps.Exhaust))},
	}
}

// lapFormulasOfEnds puts the sizes of each end into the formulas of its laps.
func lapFormulasOfEnds(g eccentric.Gear) []book.Formula {
	outer := fmt.Sprintf("valve / 2 - (%s / 2 + bar + steam port)", middlePort(g))
	inner := fmt.Sprintf("%s / 2 + bar - %s / 2", middlePort(g), innerEdges(g))
	off := !g.Valve.CavityOffset.IsZero()
	if off {
		inner += " + c at the head end, - c at the crank end"
	}
	steam, exhaust := outer, inner
	if g.InsideAdmission {
		steam, exhaust = inner, outer
	}
	formulas := []book.Formula{{Text: "steam lap S = " + steam}, {Text: "exhaust lap E = " + exhaust}}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		port, bar := g.Ports.At(end)
		laps := g.LapsAt(end)
		outer := fmt.Sprintf("%s / 2 - (%s / 2 + %s + %s)", plain(g.Valve.Length), plain(g.Ports.Exhaust), plain(bar), plain(port))
		inner := fmt.Sprintf("%s / 2 + %s - %s / 2", plain(g.Ports.Exhaust), plain(bar), plain(g.Valve.Cavity))
		if c := g.Valve.CavityOffset; off {
			if end == eccentric.CrankEnd {
				c = c.Neg()
			}
			sign := " + "
			if c.Sign() < 0 {
				sign = " - "
			}
			inner += sign + plain(c.Abs())
		}
		if g.InsideAdmission {
			outer, inner = inner, outer
		}
		formulas = append(formulas, book.Formula{Text: fmt.Sprintf("%s end: S = %s = %s mm; E = %s = %s mm",
			end, outer, plain(laps.Steam), inner, plain(laps.Exhaust))})
	}
	return formulas
}
